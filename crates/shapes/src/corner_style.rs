//! How the shop makes the corners where two plates of a part meet without a bend.

use units::Length;

/// How two plates meet at a corner. Plates that lie in one plane are always mitred, whatever the style.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum CornerStyle {
    /// Inside edges touch, or stand the gap apart; V outside for a full weld.
    #[default]
    Open,
    /// One plate runs through, the other stops against its inside face.
    Butt {
        /// Which plates run through.
        through: Chosen,
    },
    /// One plate carries a strip, bent off its end, that lies along the other.
    Lap {
        /// From the outside of the bend to the strip's edge.
        width: Length,
        /// Which plates carry the strip.
        carried_by: Chosen,
        /// True when it lies on the outside of the other plate.
        outside: bool,
    },
    /// One plate runs through and has slots, open at its edge; tabs of the other stand in them.
    TabAndSlot {
        /// Width of a tab along the corner.
        tab: Length,
        /// Play of a tab in its slot, at each end.
        clearance: Length,
        /// How many tabs, evenly spread.
        count: u32,
        /// Which plates have the tabs.
        tabs_on: Chosen,
    },
}

/// Which of the two plates at a corner.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Chosen {
    /// The plate on the longer side of the base; of two sides as long as each other, the one lettered first.
    LongSides,
    /// The other one.
    ShortSides,
    /// The plates of these sides: "AB", "CD".
    Sides(Vec<String>),
}

impl CornerStyle {
    /// Which plates are singled out; `None` where both are made alike.
    #[must_use]
    pub const fn chosen(&self) -> Option<&Chosen> {
        match self {
            Self::Open => None,
            Self::Butt { through: chosen }
            | Self::Lap { carried_by: chosen, .. }
            | Self::TabAndSlot { tabs_on: chosen, .. } => Some(chosen),
        }
    }
}

impl Chosen {
    /// Whether the first of two sides that meet at a corner is the chosen one; `None` when both are named, or neither.
    #[must_use]
    pub fn is_first(&self, [first, second]: [(&str, f64); 2]) -> Option<bool> {
        let alike = (first.1 - second.1).abs() <= geometry::tolerance::SAME_POINT_MM;
        let longer = if alike { first.0 <= second.0 } else { first.1 > second.1 };
        let named = |sides: &[String], name: &str| {
            sides.iter().any(|side| side == name || side.chars().rev().eq(name.chars()))
        };
        match self {
            Self::LongSides => Some(longer),
            Self::ShortSides => Some(!longer),
            Self::Sides(sides) => match (named(sides, first.0), named(sides, second.0)) {
                (true, false) => Some(true),
                (false, true) => Some(false),
                _ => None,
            },
        }
    }
}
