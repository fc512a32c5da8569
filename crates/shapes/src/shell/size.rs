//! Sizes to be proven by refolding: every edge of the design whose two ends are fixed by plates of one piece.

use fold::part::{FacePlane, Measure, Side, Size};
use geometry::tolerance;

use super::{Shell, ShellPiece};

impl Shell {
    /// Every edge between two plates of the piece, measured between the corners where three of its plates meet.
    pub(super) fn sizes(&self, piece: &ShellPiece) -> Vec<Size> {
        let mut sizes = Vec::new();
        for &plate in &piece.plates {
            for edge in 0..self.plates[plate].corners.len() {
                sizes.extend(self.size(piece, plate, edge));
            }
        }
        sizes
    }

    fn size(&self, piece: &ShellPiece, plate: usize, edge: usize) -> Option<Size> {
        let count = self.plates[plate].corners.len();
        let neighbour = |edge: usize| self.joint(plate, edge % count).map(|joint| joint.other);
        let other = neighbour(edge).filter(|&other| plate < other)?;
        let corner = |third: usize| self.corner(piece, [plate, other, third]);
        let (start, end) = (corner(neighbour(edge + count - 1)?)?, corner(neighbour(edge + 1)?)?);
        let (a, b) = self.plates[plate].edge(edge);
        let side = match self.plates[plate].sized_to {
            Side::Face => "face side",
            Side::Back => "back",
        };
        Some(Size {
            name: format!("{} to {}, {side}", self.plates[plate].name, self.plates[other].name),
            measure: Measure::Corners(start, end),
            expected_mm: a.distance(b),
        })
    }

    /// The three planes on which the corners of the plates lie, if they meet in a point.
    fn corner(&self, piece: &ShellPiece, plates: [usize; 3]) -> Option<[FacePlane; 3]> {
        let [a, b, c] = plates.map(|plate| self.plates[plate].sized_plane().normal);
        if a.dot(b.cross(c)).abs() <= tolerance::PARALLEL_SINE {
            return None;
        }
        let face = |plate: usize| {
            let number = piece.plates.iter().position(|&number| number == plate)?;
            Some((number, self.plates[plate].sized_to))
        };
        let [a, b, c] = plates.map(face);
        Some([a?, b?, c?])
    }
}
