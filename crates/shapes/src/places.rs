//! Places of a flat face that a drawing names: corners by letter, edges by what lies there, stations, and what stands right
//! across it.

use geometry::Point;

use units::Length;

use crate::{Figure, Making};

/// What a drawing names of the root face of a part, in the face's own coordinates, natural hand and face.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Places {
    /// Corners: "A".
    pub corners: Vec<(String, Point)>,
    /// Edges, from end to end: "UPSTREAM".
    pub edges: Vec<(String, [Point; 2])>,
    /// Points on it: "station 15", "lid 1, rear aft corner".
    pub stations: Vec<(String, Point)>,
    /// Points at which a size was given, on an edge that a bend makes: named, but nothing is scribed there, for in the flat they lie
    /// beside the bend line.
    pub on_bends: Vec<(String, Point)>,
    /// Lines right across it, from end to end: "frame 2".
    pub lines: Vec<(String, [Point; 2])>,
}

impl Places {
    /// The corners of a figure by its own letters.
    #[must_use]
    pub fn lettered(figure: &Figure) -> Self {
        let corners = figure.names.iter().cloned().zip(figure.corners.iter().copied()).collect();
        Self { corners, ..Self::default() }
    }

    /// The same with `words` at the edge from `a` to `b`.
    #[must_use]
    pub(crate) fn with_edge(mut self, words: &str, a: Point, b: Point) -> Self {
        self.edges.push((words.to_owned(), [a, b]));
        self
    }

    /// All places moved by `place`.
    #[must_use]
    pub fn mapped(&self, place: impl Fn(Point) -> Point) -> Self {
        let point = |(name, at): &(String, Point)| (name.clone(), place(*at));
        let line = |(name, ends): &(String, [Point; 2])| (name.clone(), ends.map(&place));
        Self {
            corners: self.corners.iter().map(point).collect(),
            edges: self.edges.iter().map(line).collect(),
            stations: self.stations.iter().map(point).collect(),
            on_bends: self.on_bends.iter().map(point).collect(),
            lines: self.lines.iter().map(line).collect(),
        }
    }

    /// As the other hand has them: a mirrored face is mirrored about its own x = 0.
    #[must_use]
    pub fn mirrored(&self) -> Self {
        self.mapped(|at| Point::new(-at.x, at.y))
    }
}

/// Words of an edge, with the seam that it is on a whole made of several: "FORWARD, seam 1, to length 2". `seam` is the
/// number of the seam from 0, `other` that of the piece on its other side from 1.
pub(crate) fn at_seam(words: &str, seam: Option<usize>, piece: &str, other: usize) -> String {
    seam.map_or_else(|| words.to_owned(), |seam| format!("{words}, seam {}, to {piece} {other}", seam + 1))
}

/// What lies between two pieces, by its name: "seam 1, to piece 2" where they meet, "joint 1, 4.0 open, to piece 2" where a
/// gap is left: butted or welded as a seam is, the whole comes out short.
pub(crate) fn between_pieces(name: &str, gap: Length, other: usize, making: &Making) -> String {
    if gap == Length::ZERO {
        format!("seam {name}, to piece {other}")
    } else {
        format!("joint {name}, {} open, to piece {other}", making.print(gap))
    }
}
