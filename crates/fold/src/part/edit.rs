//! Putting more corners into a cut edge of a face, so that strips, hems and tabs can be set on it.

use geometry::Point;

use super::{Edge, FoldedPart};

impl FoldedPart {
    /// Puts `points` between the two ends of cut edge `edge` of `face`; edge `edge` then ends at the first of them.
    /// Bends and seams on later edges of the face are renumbered.
    pub fn insert_corners(&mut self, face: usize, edge: usize, points: &[Point]) {
        let count = points.len();
        self.faces[face].corners.splice(edge + 1..edge + 1, points.iter().copied());
        self.faces[face].edges.splice(edge + 1..edge + 1, std::iter::repeat_n(Edge::Free, count));
        let later = |place: &mut usize| {
            if *place > edge {
                *place += count;
            }
        };
        self.bends
            .iter_mut()
            .filter(|bend| bend.parent == face)
            .for_each(|bend| later(&mut bend.parent_edge));
        self.mitres
            .iter_mut()
            .filter(|mitre| mitre.edge.0 == face)
            .for_each(|mitre| later(&mut mitre.edge.1));
        for seam in &mut self.seams {
            for side in [&mut seam.first, &mut seam.second] {
                if side.0 == face {
                    later(&mut side.1);
                }
            }
        }
    }

    /// The straight part of a cut edge: between the tangent lines of the bends at its two ends, where there are any.
    #[must_use]
    pub fn straight_edge(&self, face: usize, edge: usize) -> [Point; 2] {
        let count = self.faces[face].corners.len();
        let (a, b) = self.faces[face].edge(edge);
        let along = b - a;
        let cut = |end: Point, neighbour: usize| {
            let (p, q) = self.faces[face].edge(neighbour);
            let Some(setback_mm) = self.edge_setback_mm(face, neighbour) else { return end };
            let inward = (q - p).unit();
            (p + inward.left() * setback_mm).crossing(inward, a, along).unwrap_or(end)
        };
        [cut(a, (edge + count - 1) % count), cut(b, (edge + 1) % count)]
    }

    /// The bend on an edge of a face; `None` for a cut edge.
    #[must_use]
    pub fn bend_of(&self, face: usize, edge: usize) -> Option<usize> {
        match self.faces[face].edges[edge] {
            Edge::Free => None,
            Edge::Bend(number) => Some(number),
            Edge::Parent => self.bends.iter().position(|bend| bend.child == face),
        }
    }

    /// Setback of the bend on an edge of a face, mm; `None` for a cut edge.
    #[must_use]
    pub fn edge_setback_mm(&self, face: usize, edge: usize) -> Option<f64> {
        self.bend_of(face, edge).map(|number| self.setback_mm(number))
    }
}
