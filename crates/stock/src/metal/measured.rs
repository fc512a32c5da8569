//! A metal as it was delivered: the same, with the thickness that a caliper found.

use super::{Metal, MetalError};
use units::{Length, MassPerArea};

impl Metal {
    /// This metal with another thickness. The tooling stays as it is, and so does the inside radius; lugs weigh what they
    /// did, so the weight of an area changes by that of the flat base.
    ///
    /// # Errors
    /// [`MetalError::Thickness`] for a thickness that no sheet has.
    pub fn measured(&self, thickness: Length) -> Result<Self, MetalError> {
        let base = |thickness: Length| {
            MassPerArea::of_thickness(self.density, thickness)
                .map(MassPerArea::micrograms_per_square_metre)
                .map_err(|fault| MetalError::Thickness { fault })
        };
        let change = base(thickness)? - base(self.thickness)?;
        let weight = self.weight_per_area.micrograms_per_square_metre().saturating_add(change);
        let weight_per_area = MassPerArea::from_micrograms_per_square_metre(weight)
            .map_err(|fault| MetalError::Thickness { fault })?;
        Ok(Self { thickness, weight_per_area, ..self.clone() })
    }
}

#[cfg(test)]
mod tests {
    use super::super::MetalBuilder;
    use super::*;
    use crate::find_alloy;

    #[test]
    fn lugs_weigh_what_they_did_and_the_radius_stays() {
        let inches = Length::from_inches;
        let given = MassPerArea::read("1.95 lb/ft2").unwrap();
        let builder = MetalBuilder::new("tread", find_alloy("5052-H32").unwrap(), inches(0.125));
        let metal = builder.weight_per_area(given).build().unwrap();
        let measured = metal.measured(inches(0.120)).unwrap();
        let plain = |thickness| {
            let weight = MassPerArea::of_thickness(metal.density, inches(thickness)).unwrap();
            weight.micrograms_per_square_metre()
        };
        let lost =
            given.micrograms_per_square_metre() - measured.weight_per_area.micrograms_per_square_metre();
        assert_eq!(lost, plain(0.125) - plain(0.120));
        assert_eq!(measured.inside_radius, metal.inside_radius);
        assert!(metal.measured(Length::ZERO).is_err());
    }
}
