//! Numbers of the JSON files: in the job's unit, rounded to what a caliper reads.

use job::Job;
use serde_json::Value;
use units::{Area, Length, LengthUnit, Mass, Temperature, TemperatureUnit};

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

    /// A weight in pounds or kilograms.
    pub(crate) fn mass(self, mass: Mass) -> Value {
        match self.unit {
            LengthUnit::Inch => rounded(mass.pounds(), 3),
            LengthUnit::Millimetre => rounded(mass.kilograms(), 3),
        }
    }
}

/// A number to so many places; `null` for what is no number.
pub(crate) fn rounded(number: f64, places: usize) -> Value {
    let text = format!("{number:.places$}");
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
