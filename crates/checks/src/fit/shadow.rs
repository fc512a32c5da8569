//! The shadow of a part: what it covers when looked at straight along one direction.

use geometry::grid::{GridError, GridOutline, filled_union};
use geometry::{Point, Point3, Polygon, Vector3, polygon};

use super::body::{Body, BodyPiece};

/// A direction to look along, and what is right and up in the picture; three unit vectors square to one another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct View {
    /// To the right in the picture.
    pub right: Vector3,
    /// Up in the picture.
    pub up: Vector3,
}

/// The shadow of one convex piece.
#[derive(Debug, Clone, PartialEq)]
pub struct PieceShadow {
    /// The face it belongs to.
    pub name: String,
    /// Its corners, counter-clockwise, convex.
    pub corners: Vec<Point>,
}

impl View {
    /// From above: x to the right, y up.
    pub const PLAN: Self = Self { right: Vector3::new(1.0, 0.0, 0.0), up: Vector3::new(0.0, 1.0, 0.0) };
    /// Along the y axis: x to the right, z up.
    pub const ALONG_Y: Self = Self { right: Vector3::new(1.0, 0.0, 0.0), up: Vector3::new(0.0, 0.0, 1.0) };
    /// Along the x axis: y to the right, z up.
    pub const ALONG_X: Self = Self { right: Vector3::new(0.0, 1.0, 0.0), up: Vector3::new(0.0, 0.0, 1.0) };

    /// Where a place of the part falls in the picture.
    #[must_use]
    pub fn place(&self, place: Point3) -> Point {
        let from = place - Point3::default();
        Point::new(from.dot(self.right), from.dot(self.up))
    }

    /// Depth of a place in the picture: how far it lies along right × up.
    fn depth_mm(&self, place: Point3) -> f64 {
        (place - Point3::default()).dot(self.right.cross(self.up))
    }
}

impl Body {
    /// The shadows of all pieces.
    #[must_use]
    pub fn shadows(&self, view: &View) -> Vec<PieceShadow> {
        let shadow = |piece: &BodyPiece| shadow_of(&piece.name, piece.corners(), view);
        self.pieces.iter().filter_map(shadow).collect()
    }

    /// The shadows of what lies between two depths, mm.
    #[must_use]
    pub fn shadows_between(&self, view: &View, depths_mm: [f64; 2]) -> Vec<PieceShadow> {
        let shadow =
            |piece: &BodyPiece| shadow_of(&piece.name, cut(piece, view, depths_mm).into_iter(), view);
        self.pieces.iter().filter_map(shadow).collect()
    }

    /// The outline of the whole shadow on the grid, rounded outward, hollows filled.
    ///
    /// # Errors
    /// [`GridError`] when the part is larger than the grid.
    pub fn outline(&self, view: &View) -> Result<GridOutline, GridError> {
        outline_of(&self.shadows(view))
    }
}

/// The outline of shadows on the grid, rounded outward, hollows filled; convex where they do not hang together.
///
/// # Errors
/// [`GridError`] when they are larger than the grid or cover nothing.
pub fn outline_of(shadows: &[PieceShadow]) -> Result<GridOutline, GridError> {
    let grid = |corners: &[Point]| {
        GridOutline::from_polygon(&Polygon { outer: corners.to_vec(), holes: Vec::new() })
    };
    let figures: Vec<GridOutline> =
        shadows.iter().map(|shadow| grid(&shadow.corners)).collect::<Result<_, _>>()?;
    let (outline, pieces) = filled_union(&figures)?;
    if pieces == 1 {
        return Ok(outline);
    }
    let corners: Vec<Point> = shadows.iter().flat_map(|shadow| shadow.corners.iter().copied()).collect();
    grid(&polygon::hull(&corners))
}

fn shadow_of(name: &str, corners: impl Iterator<Item = Point3>, view: &View) -> Option<PieceShadow> {
    let places: Vec<Point> = corners.map(|corner| view.place(corner)).collect();
    let corners = polygon::hull(&places);
    (3 <= corners.len()).then(|| PieceShadow { name: name.to_owned(), corners })
}

/// Corners of the part of a convex piece between two depths: those inside, and where its edges cross the limits.
fn cut(piece: &BodyPiece, view: &View, [low, high]: [f64; 2]) -> Vec<Point3> {
    let within = |corner: &Point3| (low..=high).contains(&view.depth_mm(*corner));
    let mut corners: Vec<Point3> = piece.corners().filter(within).collect();
    for (a, b) in piece.edges() {
        let (from, to) = (view.depth_mm(a), view.depth_mm(b));
        for limit in [low, high] {
            if (from < limit) != (to < limit) {
                corners.push(a.toward(b, (limit - from) / (to - from)));
            }
        }
    }
    corners
}
