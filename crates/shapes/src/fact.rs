//! Things worth reading off a part, each with where it came from.

use units::{Angle, Area, Length};

/// What a fact says.
#[derive(Debug, Clone, PartialEq)]
pub enum FactValue {
    /// A length.
    Length(Length),
    /// A length that nothing is laid out by, printed to the tape: a curve along its chords.
    About(Length),
    /// An angle.
    Angle(Angle),
    /// An area.
    Area(Area),
    /// A volume.
    Volume {
        /// In cubic millimetres.
        cubic_millimetres: f64,
    },
    /// Words.
    Words(String),
}

/// One fact: name, value, origin.
#[derive(Debug, Clone, PartialEq)]
pub struct Fact {
    /// "slant AB, outside".
    pub name: String,
    /// Its value.
    pub value: FactValue,
    /// The fields and the sum it came from.
    pub origin: String,
}

impl Fact {
    /// A length given in computed millimetres.
    #[must_use]
    pub fn length_mm(name: impl Into<String>, millimetres: f64, origin: impl Into<String>) -> Self {
        let value = FactValue::Length(Length::from_millimetres(millimetres));
        Self { name: name.into(), value, origin: origin.into() }
    }

    /// A length that nothing is laid out by, given in computed millimetres.
    #[must_use]
    pub fn about_mm(name: impl Into<String>, millimetres: f64, origin: impl Into<String>) -> Self {
        let value = FactValue::About(Length::from_millimetres(millimetres));
        Self { name: name.into(), value, origin: origin.into() }
    }

    /// An angle given in computed radians.
    #[must_use]
    pub fn angle_rad(name: impl Into<String>, radians: f64, origin: impl Into<String>) -> Self {
        let value = FactValue::Angle(Angle::from_radians(radians));
        Self { name: name.into(), value, origin: origin.into() }
    }

    /// An area given in computed square millimetres.
    #[must_use]
    pub fn area_mm2(name: impl Into<String>, square_millimetres: f64, origin: impl Into<String>) -> Self {
        let value = FactValue::Area(Area::from_square_millimetres(square_millimetres));
        Self { name: name.into(), value, origin: origin.into() }
    }

    /// A volume given in computed cubic millimetres.
    #[must_use]
    pub fn volume_mm3(name: impl Into<String>, cubic_millimetres: f64, origin: impl Into<String>) -> Self {
        Self { name: name.into(), value: FactValue::Volume { cubic_millimetres }, origin: origin.into() }
    }

    /// Words.
    #[must_use]
    pub fn words(name: impl Into<String>, words: impl Into<String>, origin: impl Into<String>) -> Self {
        Self { name: name.into(), value: FactValue::Words(words.into()), origin: origin.into() }
    }
}
