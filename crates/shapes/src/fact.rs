//! Things worth reading off a part, each with where it came from.

use fold::refold::SeamGap;
use units::{Angle, Area, Length, LengthStyle};

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
    /// Of a seam between pieces: what was measured, which its words tell.
    pub gap: Option<JoinedGap>,
}

/// A seam between two pieces, measured on both as refolded and put together.
#[derive(Debug, Clone, PartialEq)]
pub struct JoinedGap {
    /// How the plates meet: "butt, the wrap runs through".
    pub made: String,
    /// Gap designed, mm.
    pub designed_mm: f64,
    /// Least distance between the plates, mm.
    pub least_mm: f64,
    /// Largest distance from the edge that meets the other plate, mm.
    pub largest_mm: f64,
    /// How deep the plates lie in one another, mm.
    pub interference_mm: f64,
    /// Inside angle between the plates, radians.
    pub inside_angle_rad: f64,
    /// Outside length, mm.
    pub length_mm: f64,
}

impl JoinedGap {
    /// A gap as measured, with how it is made and what was designed.
    pub(crate) fn of(gap: &SeamGap, designed_mm: f64, made: String) -> Self {
        Self {
            made,
            designed_mm,
            least_mm: gap.least_with_bends_mm(),
            largest_mm: gap.largest_mm,
            interference_mm: gap.interference_mm,
            inside_angle_rad: gap.inside_angle_rad,
            length_mm: gap.length_mm,
        }
    }
}

/// Where a bend beside a seam comes nearer to its other side than the gap, in words to follow others; empty where none does.
#[must_use]
pub fn near_bend_words(gap: &SeamGap, style: LengthStyle) -> String {
    gap.near_bend.as_ref().map_or_else(String::new, |(near_mm, [first, second])| {
        format!("; least between {first} and {second}, {}", Length::from_millimetres(*near_mm).print(style))
    })
}

impl Fact {
    /// A length given in computed millimetres.
    #[must_use]
    pub fn length_mm(name: impl Into<String>, millimetres: f64, origin: impl Into<String>) -> Self {
        let value = FactValue::Length(Length::from_millimetres(millimetres));
        Self { name: name.into(), value, origin: origin.into(), gap: None }
    }

    /// A length that nothing is laid out by, given in computed millimetres.
    #[must_use]
    pub fn about_mm(name: impl Into<String>, millimetres: f64, origin: impl Into<String>) -> Self {
        let value = FactValue::About(Length::from_millimetres(millimetres));
        Self { name: name.into(), value, origin: origin.into(), gap: None }
    }

    /// An angle given in computed radians.
    #[must_use]
    pub fn angle_rad(name: impl Into<String>, radians: f64, origin: impl Into<String>) -> Self {
        let value = FactValue::Angle(Angle::from_radians(radians));
        Self { name: name.into(), value, origin: origin.into(), gap: None }
    }

    /// An area given in computed square millimetres.
    #[must_use]
    pub fn area_mm2(name: impl Into<String>, square_millimetres: f64, origin: impl Into<String>) -> Self {
        let value = FactValue::Area(Area::from_square_millimetres(square_millimetres));
        Self { name: name.into(), value, origin: origin.into(), gap: None }
    }

    /// A volume given in computed cubic millimetres.
    #[must_use]
    pub fn volume_mm3(name: impl Into<String>, cubic_millimetres: f64, origin: impl Into<String>) -> Self {
        Self {
            name: name.into(),
            value: FactValue::Volume { cubic_millimetres },
            origin: origin.into(),
            gap: None,
        }
    }

    /// Words.
    #[must_use]
    pub fn words(name: impl Into<String>, words: impl Into<String>, origin: impl Into<String>) -> Self {
        Self { name: name.into(), value: FactValue::Words(words.into()), origin: origin.into(), gap: None }
    }
}
