//! How the shop makes the corners where two plates of a part meet without a bend.

use units::Length;

/// How two plates meet at a corner. Plates that lie in one plane are always mitred, whatever the style.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum CornerStyle {
    /// Inside edges touch, or stand the gap apart; V outside for a full weld.
    #[default]
    Open,
    /// Open, with a gap of its own between the inside edges, in place of the part's.
    Gap {
        /// Between the inside edges.
        gap: Length,
    },
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
    /// Corners or single seams in a style of their own.
    ByName {
        /// What is named, "B" or "skirt at corner B", with its style. A seam's own goes before that of its corner.
        named: Vec<(String, Self)>,
        /// How all others are made.
        others: Box<Self>,
    },
}

/// Two plates that meet at an angle: the corner that they meet at, and what the seam between them is called.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SeamName {
    /// "B".
    pub corner: String,
    /// "skirt at corner B".
    pub seam: String,
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
    /// How the seam of this name is made, which is only asked for where some are named.
    pub(crate) fn at(&self, name: impl FnOnce() -> SeamName) -> &Self {
        let Self::ByName { named, others } = self else { return self };
        let name = name();
        let style_of = |own: &str| named.iter().find(|(name, _)| name == own).map(|(_, style)| style);
        style_of(&name.seam).or_else(|| style_of(&name.corner)).unwrap_or(others)
    }

    /// The names among its own that none of these seams goes by.
    pub(crate) fn unknown(&self, seams: &[SeamName]) -> Vec<String> {
        let Self::ByName { named, .. } = self else { return Vec::new() };
        let is_known = |name: &String| seams.iter().any(|seam| seam.corner == *name || seam.seam == *name);
        named.iter().map(|(name, _)| name).filter(|name| !is_known(name)).cloned().collect()
    }

    /// The same style with the names alone that one of these seams goes by.
    pub(crate) fn only(&self, seams: &[SeamName]) -> Self {
        let unknown = self.unknown(seams);
        match self {
            Self::ByName { named, others } => Self::ByName {
                named: named.iter().filter(|(name, _)| !unknown.contains(name)).cloned().collect(),
                others: others.clone(),
            },
            _ => self.clone(),
        }
    }

    /// Every style in it that is no list of its own, with the field that asks for it, below that of the corners: nothing for the
    /// one style of all corners, ".at.B" or ".others".
    #[must_use]
    pub fn single(&self) -> Vec<(String, &Self)> {
        match self {
            Self::ByName { named, others } => {
                let of_named = named.iter().map(|(name, style)| (format!(".at.{name}"), style));
                of_named.chain([(".others".to_owned(), &**others)]).collect()
            }
            _ => vec![(String::new(), self)],
        }
    }

    /// The same with the style that the field of [`CornerStyle::single`] asks for exchanged.
    pub(crate) fn with(&self, field: &str, style: &Self) -> Self {
        let exchange = |own: &str, old: &Self| if own == field { style.clone() } else { old.clone() };
        match self {
            Self::ByName { named, others } => Self::ByName {
                named: named
                    .iter()
                    .map(|(name, old)| (name.clone(), exchange(&format!(".at.{name}"), old)))
                    .collect(),
                others: Box::new(exchange(".others", others)),
            },
            _ => exchange("", self),
        }
    }

    /// A single seam of these, asked for by its own name, whose plates lie in one plane, where it is asked to be other than mitred.
    pub(crate) fn not_mitred<'a>(&self, in_one_plane: &'a [SeamName]) -> Option<&'a SeamName> {
        let Self::ByName { named, .. } = self else { return None };
        let mitred = |style: &Self| matches!(style, Self::Open | Self::Gap { .. });
        let asks = |seam: &str| named.iter().any(|(name, style)| name == seam && !mitred(style));
        in_one_plane.iter().find(|name| asks(&name.seam))
    }

    /// The gap between the plates, mitred ones too, `of_part` being that of the part.
    pub(crate) fn gap_mm(&self, of_part: f64) -> f64 {
        match self {
            Self::Gap { gap } => gap.millimetres(),
            _ => of_part,
        }
    }

    /// Which plates are singled out; `None` where both are made alike, or each corner in its own way.
    #[must_use]
    pub const fn chosen(&self) -> Option<&Chosen> {
        match self {
            Self::Open | Self::Gap { .. } | Self::ByName { .. } => None,
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
