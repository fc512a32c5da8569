//! Rectangles cut to size by the supplier, against whole sheets.

use units::{Area, Length, Mass, MassPerArea, MassUnit, Money};

use crate::price_of_mass::{PriceOfMass, PrintedMass};

/// What the supplier asks for rectangles cut to size.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CutToSize {
    /// Price of the metal.
    pub metal: PriceOfMass,
    /// What cutting one rectangle costs.
    pub cut_charge: Money,
    /// What is added at each edge of a blank, to trim at the bench.
    pub allowance: Length,
}

/// The flat of one mark.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Blank {
    /// The mark.
    pub mark: String,
    /// Sizes of the smallest rectangle around it.
    pub size: [Length; 2],
    /// How many.
    pub quantity: u32,
    /// Mass per area of the metal.
    pub weight_per_area: MassPerArea,
}

/// The rectangles of one mark, priced.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct CutBlank {
    /// The mark.
    pub mark: String,
    /// Sizes as ordered, the allowance added.
    pub size: [Length; 2],
    /// How many.
    pub quantity: u32,
    /// Area of all of them.
    pub area: Area,
    /// Mass of all of them.
    pub mass: Mass,
    /// The metal: that mass as it prints, in hundredths, times its price, to the nearest cent for each mark.
    pub metal: Money,
    /// The cuts.
    pub cuts: Money,
}

impl CutToSize {
    /// Prices the rectangles of one mark; their weight prints in `unit`.
    #[must_use]
    pub fn price(&self, blank: &Blank, unit: MassUnit) -> CutBlank {
        let size = blank.size.map(|side| side + self.allowance + self.allowance);
        let times = i64::from(blank.quantity);
        let area = size[0] * size[1] * times;
        let mass = blank.weight_per_area.over(area);
        CutBlank {
            mark: blank.mark.clone(),
            size,
            quantity: blank.quantity,
            area,
            mass,
            metal: self.metal.of_printed(PrintedMass::of(mass, unit)),
            cuts: self.cut_charge * times,
        }
    }
}
