//! Whether an offcut may stand in for a sheet of a metal. Whatever is not known counts against the piece.

use stock::{Film, Metal, Pattern};
use units::Length;

use super::offcut::{FaceState, Offcut, OffcutLay, Standing};

/// How far the measured thickness may be from the metal's, as a share of it: five hundredths.
///
/// Rolling tolerances of sheet from 0.8 to 6 mm lie within it (common practice, no source).
const THICKNESS_SHARE: i64 = 20;

/// What a job wants of an offcut.
#[derive(Debug, Clone, Copy)]
pub struct Wanted<'a> {
    /// The metal.
    pub metal: &'a Metal,
    /// Whether its face shows when the parts are finished.
    pub face_shows: bool,
    /// The job's name, for what is reserved.
    pub job: &'a str,
}

/// Why an offcut does not suit.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Mismatch {
    /// Another alloy or temper.
    #[error("it is {is}, wanted is {wanted}")]
    Alloy {
        /// Of the offcut.
        is: String,
        /// Of the job.
        wanted: String,
    },
    /// Plain for tread, or tread for plain.
    #[error("it is {is}, wanted is {wanted}")]
    Pattern {
        /// Of the offcut.
        is: &'static str,
        /// Of the job.
        wanted: &'static str,
    },
    /// Too thick or too thin.
    #[error("its thickness is off by more than a twentieth")]
    Thickness,
    /// The face that shows is not known to be good.
    #[error("its face is {0}, and the metal has a face that shows")]
    Face(&'static str),
    /// Film is wanted and there is none.
    #[error("it has no film, wanted is film")]
    Film,
    /// Lay is wanted and cannot be told.
    #[error("it has no lay that is known")]
    Lay,
    /// Kept for another job.
    #[error("it is reserved for {0}")]
    Reserved(String),
    /// No longer there.
    #[error("it was taken for {0}")]
    Taken(String),
}

/// Everything that speaks against using `offcut`; nothing when it suits.
#[must_use]
pub fn suits(offcut: &Offcut, wanted: &Wanted<'_>) -> Vec<Mismatch> {
    let metal = wanted.metal;
    let mut against = Vec::new();
    let same_alloy = offcut.metal.alloy.eq_ignore_ascii_case(&metal.alloy.name);
    if !same_alloy || offcut.metal.temper != metal.temper {
        let temper = offcut.metal.temper.as_ref().map(|temper| format!("-{temper}")).unwrap_or_default();
        let is = format!("{}{temper}", offcut.metal.alloy);
        against.push(Mismatch::Alloy { is, wanted: metal.alloy_and_temper() });
    }
    if offcut.metal.pattern != metal.pattern {
        let words = |pattern| if pattern == Pattern::Tread { "tread plate" } else { "plain" };
        against.push(Mismatch::Pattern { is: words(offcut.metal.pattern), wanted: words(metal.pattern) });
    }
    if !is_thickness(offcut.thickness, metal.thickness) {
        against.push(Mismatch::Thickness);
    }
    if metal.film != Film::Bare || wanted.face_shows {
        match offcut.face {
            FaceState::Good => {}
            FaceState::Scratched => against.push(Mismatch::Face("scratched")),
            FaceState::Unknown => against.push(Mismatch::Face("not inspected")),
        }
    }
    if metal.film != Film::Bare {
        let both_missing = metal.film == Film::BothSides && offcut.film != Film::BothSides;
        if offcut.film == Film::Bare || both_missing {
            against.push(Mismatch::Film);
        }
    }
    if metal.lay.is_some() && !matches!(offcut.lay, OffcutLay::AlongX | OffcutLay::AlongY) {
        against.push(Mismatch::Lay);
    }
    match &offcut.standing {
        Standing::Reserved(job) if job != wanted.job => against.push(Mismatch::Reserved(job.clone())),
        Standing::Taken(job) => against.push(Mismatch::Taken(job.clone())),
        Standing::Free | Standing::Reserved(_) => {}
    }
    against
}

/// Whether a thickness passes for another: off by no more than a twentieth of it.
#[must_use]
pub fn is_thickness(measured: Length, wanted: Length) -> bool {
    (measured - wanted).abs() * THICKNESS_SHARE <= wanted
}
