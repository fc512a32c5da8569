//! The part that is looked at.

use fold::{FlatPattern, FoldedPart};
use geometry::Point;
use geometry::outline::Chords;
use units::{Length, LengthStyle, Mass};

use crate::Limits;

/// A part with its flat, its weight, the limits it must keep, and how lengths are printed.
#[derive(Debug, Clone, Copy)]
pub struct Subject<'a> {
    /// The folded part.
    pub part: &'a FoldedPart,
    /// Its flat.
    pub flat: &'a FlatPattern,
    /// Weight of one.
    pub weight: Mass,
    /// Limits.
    pub limits: &'a Limits,
    /// How lengths read.
    pub style: LengthStyle,
}

impl Subject<'_> {
    /// Millimetres as they read on paper.
    pub(crate) fn print_mm(&self, millimetres: f64) -> String {
        Length::from_millimetres(millimetres).print(self.style)
    }

    /// All holes of the part, on the flat.
    pub(crate) fn holes(&self) -> Vec<Hole> {
        let mut holes = Vec::new();
        for (face, own) in self.part.faces.iter().enumerate() {
            let placement = self.flat.faces[face].placement;
            for contour in &own.holes {
                let placed = contour.mapped(false, |p| placement.place(p));
                let (low, high) = placed.bounds();
                let size = format!("{} × {}", self.print_mm(high.x - low.x), self.print_mm(high.y - low.y));
                holes.push(Hole { number: holes.len(), face, corners: placed.corners(Chords::On), size });
            }
        }
        holes
    }
}

/// A hole on the flat.
pub(crate) struct Hole {
    /// Counted over the part, as in the job.
    pub(crate) number: usize,
    /// The face it is in.
    pub(crate) face: usize,
    /// Corners of its straight-sided stand-in.
    pub(crate) corners: Vec<Point>,
    /// Its size as it reads on paper.
    pub(crate) size: String,
}
