//! What the shop's machines and the metal allow.

use stock::brake::{Machine, SlipRoll, shortest_flange_in_v};
use stock::{Family, NearestRadius};
use units::Length;

/// Limits for one part; what is not known is not checked.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Limits {
    /// Shortest outside leg the brake can bend.
    pub shortest_flange: Option<Length>,
    /// Opening of the V die used for the part.
    pub v_opening: Option<Length>,
    /// What a cut takes away, when the shop says.
    pub kerf: Option<Length>,
    /// Longest bend the brake takes.
    pub brake_length: Option<Length>,
    /// The machine, when the shop gives one.
    pub machine: Option<Machine>,
    /// The roll, when the shop gives one.
    pub roll: Option<SlipRoll>,
    /// The metal's name, temper and family.
    pub metal: Option<MetalName>,
    /// Least inside radius of the metal, with its source.
    pub least_inside_radius: Option<(Length, String)>,
    /// The metal is known to have no published least radius, and the row that lies nearest.
    pub no_least_radius: Option<NoLeastRadius>,
    /// A bend below the least radius, or below the nearest row where the metal has none, stops the part.
    pub stop_below_least_radius: bool,
}

impl Limits {
    /// The shortest leg that the brake holds: its own figure, else seven tenths of the V; `None` where neither is known.
    #[must_use]
    pub fn shortest_leg(&self) -> Option<Length> {
        self.shortest_flange.or_else(|| self.v_opening.map(shortest_flange_in_v))
    }
}

/// A metal by name, for the tables that go by it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MetalName {
    /// The alloy: "5052".
    pub alloy: String,
    /// The temper: "H32".
    pub temper: Option<String>,
    /// What it bends like.
    pub family: Family,
}

/// A metal whose least radius no table gives.
#[derive(Debug, Clone, PartialEq)]
pub struct NoLeastRadius {
    /// The row of the same alloy that lies nearest; none where the alloy has no row.
    pub nearest: Option<NearestRadius>,
}
