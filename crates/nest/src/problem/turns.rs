//! Which turns a part may take on the sheet.

use geometry::grid::{GridOutline, GridPoint, Turn, ring_edges};
use geometry::trig;

/// The turns allowed for a part, counter-clockwise from as drawn or, where it may lie turned over, from as turned over.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Turns {
    /// As drawn or upside down: the lay of tread plate or grain.
    Half,
    /// Any quarter turn.
    Quarter,
    /// These turns only.
    Listed(Vec<Turn>),
    /// Any turn at all. The search tries quarter turns, every 30°, and the turns that lay one of the longer edges along the
    /// sheet; where that leaves sheets to save, also those that lay it flush with an edge of another part that lies so.
    Any,
}

/// Spacing of the turns tried for a part that may take any turn, in degrees.
pub(super) const ANY_STEP_DEGREES: u32 = 30;

/// How many of a part's longest edges are laid along the sheet when any turn is allowed.
const EDGES_LAID_ALONG: usize = 4;

impl Turns {
    /// The turns to try, sorted and without repeats.
    pub(crate) fn listed(&self, outline: &GridOutline) -> Vec<Turn> {
        let mut turns = match self {
            Self::Half => vec![Turn::NONE, Turn::HALF],
            Self::Quarter => quarters(Turn::NONE),
            Self::Listed(turns) => turns.clone(),
            Self::Any => any(outline),
        };
        turns.sort_unstable();
        turns.dedup();
        turns
    }

    /// True when `turn` is allowed.
    #[must_use]
    pub fn allows(&self, turn: Turn) -> bool {
        match self {
            Self::Half => turn == Turn::NONE || turn == Turn::HALF,
            Self::Quarter => turn.quarters().is_some(),
            Self::Listed(turns) => turns.contains(&turn),
            Self::Any => true,
        }
    }
}

fn quarters(from: Turn) -> Vec<Turn> {
    (0..4).map(|k| Turn::from_millidegrees(from.millidegrees() + k * Turn::QUARTER.millidegrees())).collect()
}

fn any(outline: &GridOutline) -> Vec<Turn> {
    let mut turns: Vec<Turn> = (0..360)
        .step_by(ANY_STEP_DEGREES as usize)
        .map(|degrees| Turn::from_millidegrees(1000 * degrees))
        .collect();
    for edge in longest_edges(outline, EDGES_LAID_ALONG) {
        turns.extend(quarters(laid_along(edge)));
    }
    turns
}

/// The longest edges of the outer ring, longest first; metal lies to the left of each.
pub(super) fn longest_edges(outline: &GridOutline, most: usize) -> Vec<GridPoint> {
    let mut edges: Vec<GridPoint> = ring_edges(outline.outer()).map(|(a, b)| b - a).collect();
    edges.sort_by_key(|edge| std::cmp::Reverse((edge.x * edge.x + edge.y * edge.y, edge.x, edge.y)));
    edges.truncate(most);
    edges
}

/// The turn that brings `edge` onto the x axis, to the nearest thousandth of a degree.
#[expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "grid numbers are exact in f64 and the angle lies between 0 and 720,000 thousandths"
)]
pub(super) fn laid_along(edge: GridPoint) -> Turn {
    let degrees = -trig::atan2(edge.y as f64, edge.x as f64) * 180.0 / std::f64::consts::PI;
    Turn::from_millidegrees((degrees * 1000.0 + 360_000.0).round() as u32)
}
