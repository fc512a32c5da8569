//! The part that is looked at.

use fold::order::Outcome;
use fold::{FlatPattern, FoldedPart};
use geometry::outline::Chords;
use geometry::{Contour, Point};
use units::{Length, LengthStyle, LengthUnit, Mass};

use crate::Limits;

/// A part with its flat, its weight, the limits it must keep, and how lengths are printed.
#[derive(Debug, Clone, Copy)]
pub struct Subject<'a> {
    /// The folded part.
    pub part: &'a FoldedPart,
    /// Its flat.
    pub flat: &'a FlatPattern,
    /// Its flat as a press sees it, every strike of a bumped face a bend ([`FlatPattern::struck`]): the numbers of the order of
    /// bends are its.
    pub bent: &'a FlatPattern,
    /// Weight of one.
    pub weight: Mass,
    /// Limits.
    pub limits: &'a Limits,
    /// The order of its bends, where one was looked for.
    pub bend_order: Option<&'a Outcome>,
    /// How lengths read.
    pub style: LengthStyle,
}

/// A hole where it lies in the flat.
pub(crate) struct PlacedHole {
    /// Its number, counted over the part.
    pub(crate) number: usize,
    /// The face it is in.
    pub(crate) face: usize,
    /// Its contour.
    pub(crate) contour: Contour,
}

impl Subject<'_> {
    /// Millimetres as they read on paper.
    pub(crate) fn print_mm(&self, millimetres: f64) -> String {
        Length::from_millimetres(millimetres).print(self.style)
    }

    /// Millimetres to a sixteenth of an inch or a millimetre, for what is looked at and not marked by.
    pub(crate) fn about_mm(&self, millimetres: f64) -> String {
        let step_mm = if self.style.unit() == LengthUnit::Inch { 25.4 / 16.0 } else { 1.0 };
        self.print_mm((millimetres / step_mm).round() * step_mm)
    }

    /// All holes of the part.
    pub(crate) fn holes(&self) -> Vec<PlacedHole> {
        let of_face = |face: usize| self.part.faces[face].holes.iter().map(move |hole| (face, hole));
        let all = (0..self.part.faces.len()).flat_map(of_face).enumerate();
        let placed = |(number, (face, hole)): (usize, (usize, &Contour))| {
            let placement = self.flat.faces[face].placement;
            PlacedHole { number, face, contour: hole.mapped(false, |p| placement.place(p)) }
        };
        all.map(placed).collect()
    }

    /// A bend or strike of the order of bends in words: the two plates it joins.
    pub(crate) fn stroke_place(&self, bend: usize) -> String {
        let (bend, faces) = (&self.bent.bends[bend], &self.bent.faces);
        format!("bend {} to {}", faces[bend.parent].name, faces[bend.child].name)
    }

    /// A bend in words: the two plates it joins.
    pub(crate) fn bend_place(&self, bend: usize) -> String {
        let (bend, faces) = (&self.part.bends[bend], &self.part.faces);
        format!("bend {} to {}", faces[bend.parent].name, faces[bend.child].name)
    }
}

impl PlacedHole {
    /// The field that governs it.
    pub(crate) fn place(&self) -> String {
        format!("holes[{}]", self.number)
    }

    /// Corners on its edge.
    pub(crate) fn edge(&self) -> Vec<Point> {
        self.contour.corners(Chords::On)
    }

    /// Corners of a straight-sided figure that covers all of it: where touching already is a fault.
    pub(crate) fn cover(&self) -> Vec<Point> {
        self.contour.reversed().corners(Chords::Outside)
    }
}
