//! An amount of metal, and what becomes of a bought sheet.

use std::ops::Add;
use units::{Area, Mass, Money};

/// An amount of metal: its area, its mass, and its share of the price if there is one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Amount {
    /// Area of the flat sheet.
    pub area: Area,
    /// Mass.
    pub mass: Mass,
    /// Share of the price; none if any of it has no price.
    pub money: Option<Money>,
}

/// What becomes of the metal that is cut up. In area, mass and money, `whole` is exactly the sum of the other five.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Breakdown {
    /// The whole sheets, bought or of the rack.
    pub whole: Amount,
    /// The parts, without their cut-outs.
    pub parts: Amount,
    /// Drops put back in the rack, each as it comes off, with its rim.
    pub kept_drops: Amount,
    /// Metal turned to chips, or nothing where a shear cuts.
    pub kerf: Amount,
    /// The strips cut off or left along the sheets' edges.
    pub edge_trim: Amount,
    /// Everything else: the closing item.
    pub scrap: Amount,
}

impl Amount {
    /// Nothing, at no cost.
    pub const ZERO: Self = Self { area: Area::ZERO, mass: Mass::ZERO, money: Some(Money::ZERO) };
}

impl Breakdown {
    /// Nothing cut up.
    pub const ZERO: Self = Self {
        whole: Amount::ZERO,
        parts: Amount::ZERO,
        kept_drops: Amount::ZERO,
        kerf: Amount::ZERO,
        edge_trim: Amount::ZERO,
        scrap: Amount::ZERO,
    };

    /// The five lines that make up the whole, in the order of the report.
    #[must_use]
    pub const fn lines(&self) -> [Amount; 5] {
        [self.parts, self.kept_drops, self.kerf, self.edge_trim, self.scrap]
    }

    /// Whether the five lines add up to the whole, to the last unit of every column.
    #[must_use]
    pub fn adds_up(&self) -> bool {
        self.lines().into_iter().fold(Amount::ZERO, Amount::add) == self.whole
    }

    /// Area of parts as a share of the whole area, from 0 to 1.
    #[must_use]
    pub fn yield_share(&self) -> f64 {
        share(self.parts.area, self.whole.area)
    }

    /// Area of parts and kept drops as a share of the whole area, from 0 to 1.
    #[must_use]
    pub fn yield_share_with_drops(&self) -> f64 {
        share(self.parts.area + self.kept_drops.area, self.whole.area)
    }
}

fn share(part: Area, whole: Area) -> f64 {
    if whole == Area::ZERO { 0.0 } else { part.square_millimetres() / whole.square_millimetres() }
}

impl Add for Amount {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            area: self.area + other.area,
            mass: self.mass + other.mass,
            money: self.money.zip(other.money).map(|(one, two)| one + two),
        }
    }
}

impl Add for Breakdown {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            whole: self.whole + other.whole,
            parts: self.parts + other.parts,
            kept_drops: self.kept_drops + other.kept_drops,
            kerf: self.kerf + other.kerf,
            edge_trim: self.edge_trim + other.edge_trim,
            scrap: self.scrap + other.scrap,
        }
    }
}
