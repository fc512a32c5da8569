//! The refold proof: folds the flat again, by arcs on the neutral line, and measures what came out.
//!
//! It starts from the flat alone and knows nothing of mold lines, deductions or setbacks; the design's own places
//! (worked out over mold lines) and sizes are only compared at the end.

mod along_round;
mod fold;
mod holes;
mod measure;
mod plate;
mod round;
mod rounds;
mod seam;
mod solid;
mod whole;

use crate::flat::FlatPattern;
use crate::part::FoldedPart;

use rounds::Bodies;

pub use along_round::{EdgeOff, RoundGap, RoundJoint, along_rounds, edge_off};
pub(crate) use fold::beyond;
pub use fold::fold;
pub use holes::ProvenHole;
pub use seam::{Past, SeamGap};
pub use whole::{
    Joint, JointEnd, Nearness, Overlap, PlacedPiece, WholeProof, measure as measure_whole, nearest,
};

/// One size as designed and as refolded, mm.
#[derive(Debug, Clone, PartialEq)]
pub struct ProvenSize {
    /// Its name.
    pub name: String,
    /// As designed.
    pub expected_mm: f64,
    /// As measured on the refolded flat.
    pub measured_mm: f64,
}

/// What refolding showed.
#[derive(Debug, Clone, PartialEq)]
pub struct Proof {
    /// Largest distance between a designed and a refolded place or size, mm.
    pub worst_mm: f64,
    /// Every size.
    pub sizes: Vec<ProvenSize>,
    /// Every hole, face by face.
    pub holes: Vec<ProvenHole>,
    /// Every seam.
    pub seams: Vec<SeamGap>,
    /// Every corner where two bends meet without a relief.
    pub pressed: Vec<Pressed>,
}

/// Where two bends meet without a relief the sheet between them is bent twice: metal of both would stand in one place, and
/// is pressed. Beyond that the two bends stand clear of one another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pressed {
    /// The two bends.
    pub bends: [usize; 2],
    /// How far from where the cut edges meet either edge still lies in the other bend, mm on the flat, by more than
    /// [`geometry::tolerance::ROUND_MM`].
    pub reach_mm: f64,
}

/// Why a flat is not what it should be. A fault of the program, never of the job, but for [`RefoldError::RunsInto`].
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum RefoldError {
    /// A place or size came out wrong.
    #[error("{what} is off by {off_mm:.4} mm after refolding")]
    Off {
        /// Which place or size.
        what: String,
        /// By how much, mm.
        off_mm: f64,
    },
    /// Holes are missing in the flat, or there are more than were designed.
    #[error("the flat has {cut} holes, but {designed} were designed")]
    Holes {
        /// Holes of the design.
        designed: usize,
        /// Holes of the flat.
        cut: usize,
    },
    /// Three planes that should meet in a corner do not.
    #[error("{size} cannot be measured: its planes do not meet")]
    NoCorner {
        /// The size.
        size: String,
    },
    /// Two plates run into one another.
    #[error("{seam}: the plates run into one another by {depth_mm:.4} mm")]
    Collision {
        /// The seam.
        seam: String,
        /// How deep, mm.
        depth_mm: f64,
    },
    /// The plates of a seam do not come to lie at one another anywhere.
    #[error("{seam}: the plates nowhere lie at one another")]
    Beside {
        /// The seam.
        seam: String,
    },
    /// A seam is not as wide as designed.
    #[error("{seam}: a gap of {measured_mm:.4} mm, designed {designed_mm:.4} mm")]
    Gap {
        /// The seam.
        seam: String,
        /// The worst gap found, mm.
        measured_mm: f64,
        /// Gap designed, mm.
        designed_mm: f64,
    },
    /// Two faces that share no seam run into one another: the part as designed cannot be.
    #[error("{first} and {second} run into one another by {depth_mm:.2} mm when folded")]
    RunsInto {
        /// One face.
        first: String,
        /// The other.
        second: String,
        /// How deep, mm.
        depth_mm: f64,
    },
}

/// Refolds `flat` and compares it with `part`.
///
/// # Errors
/// [`RefoldError`] when any place, size, hole or seam is off by more than [`geometry::tolerance::REFOLD_MM`].
pub fn prove(part: &FoldedPart, flat: &FlatPattern) -> Result<Proof, RefoldError> {
    let folded = fold(flat);
    measure::outline(part, flat)?;
    let worst_place = measure::places(part, flat, &folded)?;
    let sizes = measure::sizes(part, flat, &folded)?;
    let worst_size =
        sizes.iter().fold(0.0, |most: f64, size| most.max((size.measured_mm - size.expected_mm).abs()));
    let holes = holes::prove(part, flat, &folded)?;
    let worst_hole = holes.iter().map(ProvenHole::off_mm).fold(0.0, f64::max);
    let solids = solid::of(flat, &folded);
    solid::apart(part, flat, &solids)?;
    let bodies = Bodies::of(flat, &folded);
    bodies.apart()?;
    let seams = seam::measure(part, flat, &folded, (&solids, &bodies))?;
    Ok(Proof {
        worst_mm: worst_place.max(worst_size).max(worst_hole),
        sizes,
        holes,
        seams,
        pressed: bodies.pressed(),
    })
}
