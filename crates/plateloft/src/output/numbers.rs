//! Numbers of the JSON files: in the job's unit, rounded to what a caliper reads.

use job::Job;
use paper::scrap_report;
use serde_json::Value;
use units::{Area, Length, LengthUnit, Mass, MassUnit, Temperature, TemperatureUnit};

/// Converts quantities of one job to JSON numbers.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Numbers {
    unit: LengthUnit,
}

impl Numbers {
    /// Numbers in the unit of `job`.
    pub(crate) const fn of(job: &Job) -> Self {
        Self { unit: job.unit }
    }

    /// Name of the unit of lengths.
    pub(crate) const fn length_unit(self) -> &'static str {
        match self.unit {
            LengthUnit::Inch => "inch",
            LengthUnit::Millimetre => "mm",
        }
    }

    /// Names of the units of area and weight.
    pub(crate) const fn other_units(self) -> (&'static str, &'static str) {
        match self.unit {
            LengthUnit::Inch => ("ft2", "lb"),
            LengthUnit::Millimetre => ("m2", "kg"),
        }
    }

    /// A volume in US gallons of 231 cubic inches (National Institute of Standards and Technology, Handbook 44, appendix C)
    /// or in litres, with its unit.
    pub(crate) fn volume_words(self, cubic_millimetres: f64) -> String {
        match self.unit {
            LengthUnit::Inch => format!("{:.1} US gal", cubic_millimetres / (25.4 * 25.4 * 25.4) / 231.0),
            LengthUnit::Millimetre => format!("{:.1} l", cubic_millimetres / 1_000_000.0),
        }
    }

    /// A temperature in whole degrees, with its unit.
    pub(crate) fn temperature_words(self, at: Temperature) -> String {
        let unit = match self.unit {
            LengthUnit::Inch => TemperatureUnit::Fahrenheit,
            LengthUnit::Millimetre => TemperatureUnit::Celsius,
        };
        at.print_with_unit(unit, 0)
    }

    /// The temperature for which makers rate gas struts: 20 °C.
    pub(crate) const fn rated_at(self) -> &'static str {
        match self.unit {
            LengthUnit::Inch => "68 °F",
            LengthUnit::Millimetre => "20 °C",
        }
    }

    /// Computed millimetres, to ten-thousandths of an inch or thousandths of a millimetre.
    pub(crate) fn millimetres(self, millimetres: f64) -> Value {
        match self.unit {
            LengthUnit::Inch => rounded(millimetres / 25.4, 4),
            LengthUnit::Millimetre => rounded(millimetres, 3),
        }
    }

    /// A length.
    pub(crate) fn length(self, length: Length) -> Value {
        self.millimetres(length.millimetres())
    }

    /// An area in square feet or square metres.
    pub(crate) fn area(self, area: Area) -> Value {
        match self.unit {
            LengthUnit::Inch => rounded(area.square_feet(), 4),
            LengthUnit::Millimetre => rounded(area.square_metres(), 6),
        }
    }

    /// A weight in pounds or kilograms, as lists print it.
    pub(crate) fn mass(self, mass: Mass) -> Value {
        self.mass_to(mass, 2)
    }

    /// The weight of one piece, as lists print it.
    pub(crate) fn mass_of_one(self, mass: Mass) -> Value {
        self.mass_to(mass, mass.places_of_one(self.mass_unit()))
    }

    fn mass_to(self, mass: Mass, places: u8) -> Value {
        // Rounded as text is: exact integers first.
        number(&mass.print(self.mass_unit(), places))
    }

    const fn mass_unit(self) -> MassUnit {
        match self.unit {
            LengthUnit::Inch => MassUnit::Pound,
            LengthUnit::Millimetre => MassUnit::Kilogram,
        }
    }

    /// An area of a list, from its count of printed thousandths.
    pub(crate) fn printed_area(thousandths: i128) -> Value {
        number(&scrap_report::print_area(thousandths))
    }

    /// A weight of a list, from its count of printed hundredths.
    pub(crate) fn printed_mass(hundredths: i128) -> Value {
        number(&scrap_report::print_mass(hundredths))
    }
}

/// A number to so many places; `null` for what is no number.
pub(crate) fn rounded(value: f64, places: usize) -> Value {
    number(&format!("{value:.places$}"))
}

/// A printed number; `null` for what is none.
fn number(text: &str) -> Value {
    text.parse::<f64>().ok().and_then(serde_json::Number::from_f64).map_or(Value::Null, |number| {
        if number.as_f64().is_some_and(|value| value.abs() <= 0.0) {
            Value::from(0.0)
        } else {
            Value::Number(number)
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn minus_nothing_is_nothing() {
        assert_eq!(rounded(-0.000_01, 3).to_string(), "0.0");
        assert_eq!(rounded(f64::NAN, 3), Value::Null);
    }
}
