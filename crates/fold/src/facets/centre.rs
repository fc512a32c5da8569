//! Centre of gravity of a folded part.

use geometry::{Point, Point3, Vector3, polygon};

use super::pieces;
use super::pieces::{Cut, Piece};
use crate::flat::FlatPattern;

/// The centre of gravity of the folded part that `flat` becomes, where [`super::of`] places it, mm; `None` without area.
///
/// Every face counts with its area in the flat, less notches and holes, at the middle of the thickness. A bend zone
/// counts with its area in the flat too, since bending moves metal and loses none; it lies round its arc, as strips of
/// at most 10°.
#[must_use]
pub fn centre_of_gravity(flat: &FlatPattern) -> Option<Point3> {
    let cut = pieces::cut(flat);
    let (mut area, mut moment) = (0.0, Vector3::new(0.0, 0.0, 0.0));
    for piece in &cut.pieces {
        for (own, middle) in rings(&cut, piece) {
            let place = piece.fold(middle, 0.5 * flat.thickness_mm);
            area += own;
            moment = moment + (place - Point3::default()) * own;
        }
    }
    (area > 0.0).then(|| Point3::default() + moment * (1.0 / area))
}

/// Signed area and centre of every ring of a piece: outer rings count, holes count off.
fn rings(cut: &Cut, piece: &Piece) -> Vec<(f64, Point)> {
    let corners = |ring: &Vec<usize>| ring.iter().map(|&corner| cut.points[corner]).collect::<Vec<Point>>();
    let measured = |ring: &Vec<usize>| {
        let corners = corners(ring);
        (polygon::signed_area(&corners), polygon::centroid(&corners))
    };
    piece.rings.iter().map(measured).collect()
}
