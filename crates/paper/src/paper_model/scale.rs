//! The pattern scaled to the page.

use fold::Direction;
use fold::part::Edge;
use fold::thin::{ThinFace, ThinPattern};
use geometry::{Contour, Point, Vector, polygon};

/// Scales that are used: one to so many.
const SCALES: [f64; 24] = [
    1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 12.0, 14.0, 16.0, 18.0, 20.0, 24.0, 28.0,
    32.0, 40.0, 50.0, 64.0, 100.0,
];

/// Room kept for tabs on every side, mm.
const TAB_ROOM_MM: f64 = 7.0;

/// A seam closes on paper when it gapes no more than this, mm on paper: what a tab with glue still pulls together.
const CLOSES_MM: f64 = 0.2;

/// The pattern in the size of the paper.
pub(super) struct Scaled {
    /// One to this.
    pub(super) scale: f64,
    pub(super) faces: Vec<ThinFace>,
    pub(super) folds: Vec<ScaledFold>,
    pub(super) seams: Vec<ScaledSeam>,
}

/// A fold line on paper.
pub(super) struct ScaledFold {
    pub(super) ends: [Point; 2],
    pub(super) child: usize,
    pub(super) direction: Direction,
}

/// A seam on paper.
pub(super) struct ScaledSeam {
    pub(super) name: String,
    /// Face, edge and ends on either side.
    pub(super) sides: [(usize, usize, [Point; 2]); 2],
    pub(super) closes: bool,
}

impl Scaled {
    /// The pattern, turned by a quarter where it then comes out larger, in the largest scale that fits the room.
    pub(super) fn fit(pattern: &ThinPattern, (width_mm, height_mm): (f64, f64)) -> Self {
        let corners: Vec<Point> =
            pattern.faces.iter().flat_map(|face| face.corners.iter().copied()).collect();
        let (low, high) = polygon::bounds(&corners);
        let (wide, tall) = (width_mm - 2.0 * TAB_ROOM_MM, height_mm - 2.0 * TAB_ROOM_MM);
        let needed = |across: f64, up: f64| (across / wide).max(up / tall);
        let (upright, turned) =
            (needed(high.x - low.x, high.y - low.y), needed(high.y - low.y, high.x - low.x));
        let need = upright.min(turned);
        let scale = SCALES.into_iter().find(|scale| need <= *scale).unwrap_or_else(|| need.ceil());
        let place = |point: Point| {
            let off = (point - low) * (1.0 / scale);
            Point::default() + if turned < upright { Vector::new(-off.y, off.x) } else { off }
        };
        Self::placed(pattern, scale, place)
    }

    fn placed(pattern: &ThinPattern, scale: f64, place: impl Fn(Point) -> Point) -> Self {
        let hole = |hole: &Contour| hole.mapped(false, &place);
        let face = |face: &ThinFace| ThinFace {
            name: face.name.clone(),
            corners: face.corners.iter().map(|&corner| place(corner)).collect(),
            edges: face.edges.clone(),
            holes: face.holes.iter().map(hole).collect(),
        };
        let faces: Vec<ThinFace> = pattern.faces.iter().map(face).collect();
        let side = |(face, edge): (usize, usize)| (face, edge, ends(&faces[face], edge));
        let seams = pattern.seams.iter().map(|seam| ScaledSeam {
            name: seam.name.clone(),
            sides: [side(seam.first), side(seam.second)],
            closes: seam.open_mm <= CLOSES_MM * scale,
        });
        let seams = seams.collect();
        let folds = pattern.folds.iter().map(|fold| ScaledFold {
            ends: fold.ends.map(&place),
            child: fold.child,
            direction: fold.direction,
        });
        Self { scale, folds: folds.collect(), faces, seams }
    }

    /// "5", "2.5".
    pub(super) fn scale_words(&self) -> String {
        format!("{}", self.scale)
    }

    /// The child across an edge, if it is bent.
    pub(super) fn child(&self, face: usize, edge: usize) -> Option<usize> {
        match self.faces[face].edges[edge] {
            Edge::Bend(bend) => Some(self.folds[bend].child),
            Edge::Free | Edge::Parent => None,
        }
    }
}

/// Both ends of an edge.
pub(super) fn ends(face: &ThinFace, edge: usize) -> [Point; 2] {
    [face.corners[edge], face.corners[(edge + 1) % face.corners.len()]]
}
