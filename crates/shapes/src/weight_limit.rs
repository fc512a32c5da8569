//! What one lift-out piece may weigh.

use geometry::{Point, polygon};
use units::{Area, LengthStyle, LengthUnit, Mass, MassPerArea, MassUnit};

use crate::{Fact, Making, Problem};

/// The most that one piece may weigh, bare, and what the plate weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WeightLimit {
    /// The most.
    pub most: Mass,
    /// Of the plate, with its lugs.
    pub per_area: MassPerArea,
}

impl WeightLimit {
    /// The largest area of one piece, mm².
    #[must_use]
    pub fn most_area_mm2(&self) -> f64 {
        self.most.kilograms() / self.per_area.kilograms_per_square_metre() * 1e6
    }

    /// What a piece of these corners weighs.
    #[must_use]
    pub fn weight(&self, corners: &[Point]) -> Mass {
        self.per_area.over(Area::from_square_millimetres(polygon::signed_area(corners)))
    }

    /// A piece that is too heavy; `remedy` says what to do.
    pub(crate) fn problem(
        &self,
        what: &str,
        corners: &[Point],
        making: &Making,
        remedy: impl Into<String>,
    ) -> Option<Problem> {
        let weight = self.weight(corners);
        (weight > self.most).then(|| {
            let most = print(self.most, making.style);
            let wrong = format!("{what} weighs {}, more than this", print(weight, making.style));
            Problem::new("heaviest", most, wrong, remedy)
        })
    }
}

/// The weight of a piece before holes and notches, as a fact.
pub(crate) fn fact(limit: Option<&WeightLimit>, corners: &[Point], making: &Making) -> Option<Fact> {
    let limit = limit?;
    let words = format!(
        "{} of {} at the most",
        print(limit.weight(corners), making.style),
        print(limit.most, making.style)
    );
    Some(Fact::words("weight before holes and notches", words, "area, weight of the plate, heaviest"))
}

/// A weight in the unit that goes with the job's lengths.
fn print(mass: Mass, style: LengthStyle) -> String {
    let unit = match style.unit() {
        LengthUnit::Inch => MassUnit::Pound,
        LengthUnit::Millimetre => MassUnit::Kilogram,
    };
    mass.print_with_unit(unit, 2)
}
