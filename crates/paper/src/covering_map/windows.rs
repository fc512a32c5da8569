//! A long roll in stretches, so that what is cut from it comes out large enough to read.

use geometry::{Point, Vector, tolerance};

use super::{CoveringMap, Ground, MappedPiece, MappedSeam};
use crate::drawing::{clipped, which};

/// The longest stretch, in widths.
const LONGEST_WIDTHS: f64 = 4.0;

/// A stretch ends at a cut across the roll that lies farther along it than this share of the longest.
const AT_A_CUT_SHARE: f64 = 0.4;

/// A stretch along the map, or all of it.
pub(super) struct Window {
    pub(super) from_mm: f64,
    pub(super) to_mm: f64,
    width_mm: f64,
    /// Which of how many.
    number: (usize, usize),
}

/// The stretches of a map: one, unless it is a long roll.
pub(super) fn of(map: &CoveringMap<'_>) -> Vec<Window> {
    let Ground::Roll { cuts_mm, .. } = map.ground else { return numbered(vec![map.length_mm], map.width_mm) };
    let longest = LONGEST_WIDTHS * map.width_mm;
    let mut ends = Vec::new();
    let mut from = 0.0;
    while longest < map.length_mm - from {
        let at_a_cut = |at: &&f64| from + AT_A_CUT_SHARE * longest < **at && **at <= from + longest;
        let cut = cuts_mm.iter().filter(at_a_cut).copied().max_by(f64::total_cmp);
        from = cut.unwrap_or(from + longest);
        ends.push(from);
    }
    // What is left behind the last cut may be no stretch of its own.
    if ends.is_empty() || tolerance::SCRIBED_LINE_MM < map.length_mm - from {
        ends.push(map.length_mm);
    }
    numbered(ends, map.width_mm)
}

fn numbered(ends: Vec<f64>, width_mm: f64) -> Vec<Window> {
    let count = ends.len();
    let begins = std::iter::once(0.0).chain(ends.clone());
    let bounds = begins.zip(ends).enumerate();
    bounds
        .map(|(number, (from_mm, to_mm))| Window { from_mm, to_mm, width_mm, number: (number + 1, count) })
        .collect()
}

impl Window {
    /// ", stretch 2 of 3"; nothing for the whole.
    pub(super) fn which(&self) -> String {
        which("stretch", self.number.0, self.number.1)
    }

    /// True where the datum corner lies in it.
    pub(super) const fn begins_the_whole(&self) -> bool {
        self.number.0 == 1
    }

    /// True for a place along the roll that belongs to it.
    pub(super) fn holds(&self, at_mm: f64) -> bool {
        self.from_mm < at_mm && at_mm <= self.to_mm + tolerance::SCRIBED_LINE_MM
    }

    /// The pieces as far as they lie in it, from its own lower left corner.
    pub(super) fn pieces(&self, pieces: &[MappedPiece]) -> Vec<MappedPiece> {
        let by = Vector::new(0.0, -self.from_mm);
        let window = (Point::new(0.0, self.from_mm), Point::new(self.width_mm, self.to_mm));
        let seen = |piece: &MappedPiece| {
            let low = Point::new(piece.low.x, piece.low.y.max(self.from_mm));
            let high = Point::new(piece.high.x, piece.high.y.min(self.to_mm));
            let seams = piece.seams.iter().filter_map(|seam| {
                let (from, to) = clipped((seam.from, seam.to), window)?;
                Some(MappedSeam { from: from + by, to: to + by, words: seam.words.clone() })
            });
            let seams = seams.collect();
            (tolerance::SCRIBED_LINE_MM < high.y - low.y).then(|| MappedPiece {
                low: low + by,
                high: high + by,
                seams,
                ..piece.clone()
            })
        };
        pieces.iter().filter_map(seen).collect()
    }
}
