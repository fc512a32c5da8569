//! The part that is looked at.

use fold::{FlatPattern, FoldedPart};
use geometry::outline::Chords;
use geometry::{Contour, Point};
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

    /// Holes by number, counted over the part, with the face they are in and their corners on the flat.
    pub(crate) fn holes(&self) -> Vec<(usize, usize, Vec<Point>)> {
        let of_face = |(face, holes): (usize, &Vec<Contour>)| {
            let placement = self.flat.faces[face].placement;
            let placed = move |hole: &Contour| hole.mapped(false, |p| placement.place(p)).corners(Chords::On);
            holes.iter().map(move |hole| (face, placed(hole))).collect::<Vec<(usize, Vec<Point>)>>()
        };
        let all = self.part.faces.iter().map(|face| &face.holes).enumerate().flat_map(of_face);
        all.enumerate().map(|(number, (face, corners))| (number, face, corners)).collect()
    }
}
