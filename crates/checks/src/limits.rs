//! What the shop's brake and the metal allow.

use units::Length;

/// Limits for one part; what is not known is not checked.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Limits {
    /// Shortest outside leg the brake can bend.
    pub shortest_flange: Option<Length>,
    /// Opening of the V die, for an estimate of the shortest flange.
    pub v_opening: Option<Length>,
    /// Longest bend the brake takes.
    pub brake_length: Option<Length>,
    /// Least inside radius of the metal, with its source.
    pub least_inside_radius: Option<(Length, String)>,
}
