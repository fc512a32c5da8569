//! Temperatures: an integer count of ten-thousandths of a kelvin above absolute zero.

use crate::decimal::{print_ratio, read_with_unit};
use crate::error::ReadError;
use crate::rounding;

const KNOWN_UNITS: &str = "°C, °F";
const COUNT_PER_KELVIN: i128 = 10_000;
/// 0 °C.
const ICE: i128 = 2_731_500;
/// 0 °F is 459.67 Rankine, times 5/9 K; counted in ninths to stay exact.
const FAHRENHEIT_ZERO_NINTHS: i128 = 22_983_500;
/// The hottest that is read: 1 000 °C.
const LARGEST: i128 = 12_731_500;

/// A temperature.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Temperature(i64);

/// The unit that a temperature is printed in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum TemperatureUnit {
    /// Degrees Celsius.
    Celsius,
    /// Degrees Fahrenheit.
    Fahrenheit,
}

impl Temperature {
    /// 20 °C, at which gas struts are rated.
    pub const TWENTY_CELSIUS: Self = Self(2_931_500);

    /// Above absolute zero, K.
    #[must_use]
    pub fn kelvins(self) -> f64 {
        self.0 as f64 / COUNT_PER_KELVIN as f64
    }

    /// Reads `-20 C`, `40 °C` or `14 F`.
    ///
    /// # Errors
    /// A [`ReadError`] that says what is wrong; the unit must be written.
    pub fn read(text: &str) -> Result<Self, ReadError> {
        let (negative, decimal, unit) = read_with_unit(text)?;
        let signed = |count: i128| if negative { -count } else { count };
        let count = match unit.trim_start_matches('°').to_lowercase().as_str() {
            "c" => ICE + signed(decimal.count(COUNT_PER_KELVIN, 1)?),
            "f" => {
                let ninths = FAHRENHEIT_ZERO_NINTHS + signed(decimal.count(5 * COUNT_PER_KELVIN, 1)?);
                (2 * ninths + 9).div_euclid(18)
            }
            "" => return Err(ReadError::UnitMissing { known: KNOWN_UNITS }),
            _ => return Err(ReadError::UnknownUnit { unit, known: KNOWN_UNITS }),
        };
        match count {
            count if count <= 0 => {
                Err(ReadError::TooLarge { limit: "what can be: it is below absolute zero" })
            }
            count if LARGEST < count => Err(ReadError::TooLarge { limit: "1 000 °C" }),
            count => Ok(Self(rounding::narrow(count))),
        }
    }

    /// Prints the number and its unit.
    #[must_use]
    pub fn print_with_unit(self, unit: TemperatureUnit, places: u8) -> String {
        let count = i128::from(self.0);
        match unit {
            TemperatureUnit::Celsius => {
                format!("{} °C", print_ratio(count - ICE, COUNT_PER_KELVIN, places))
            }
            TemperatureUnit::Fahrenheit => {
                format!(
                    "{} °F",
                    print_ratio(9 * count - FAHRENHEIT_ZERO_NINTHS, 5 * COUNT_PER_KELVIN, places)
                )
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_scales_meet_at_forty_below() {
        assert_eq!(Temperature::read("-40 C"), Temperature::read("-40 °F"));
        assert_eq!(Temperature::read("68 F"), Ok(Temperature::TWENTY_CELSIUS));
        let freezing = Temperature::read("32°F");
        assert_eq!(freezing, Temperature::read("0 °C"));
        let print = |unit| freezing.clone().map(|at| at.print_with_unit(unit, 1));
        assert_eq!(print(TemperatureUnit::Celsius), Ok("0.0 °C".to_owned()));
        assert_eq!(print(TemperatureUnit::Fahrenheit), Ok("32.0 °F".to_owned()));
        assert!(Temperature::read("-300 C").is_err());
        assert!(Temperature::read("20").is_err());
    }
}
