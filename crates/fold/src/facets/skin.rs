//! The two large surfaces of every piece.

use geometry::{Point3, Vector3};

use super::pieces::{Cut, Piece};
use super::{Facet, Facets, Surface};
use crate::part::Side;

/// Both surfaces of a piece: unit normals out of the metal, on the back and on the face side.
pub(super) type Skins = Vec<[Vector3; 2]>;

/// The two sides of a plate in the order of their heights.
pub(super) const SIDES: [Side; 2] = [Side::Back, Side::Face];

/// Adds both surfaces of every piece, and gives their normals.
pub(super) fn skins(cut: &Cut, facets: &mut Facets, thickness_mm: f64) -> Skins {
    let skin = |piece: &Piece| {
        let both = [0.0, thickness_mm].map(|z_mm| rings(cut, piece, z_mm));
        let up = normal(&both[1][0]);
        let down = -normal(&both[0][0]);
        for ((side, rings), normal) in SIDES.into_iter().zip(both).zip([down, up]) {
            facets.facets.push(Facet { place: piece.place, surface: Surface::Skin(side), rings, normal });
        }
        [down, up]
    };
    cut.pieces.iter().map(skin).collect()
}

fn rings(cut: &Cut, piece: &Piece, z_mm: f64) -> Vec<Vec<Point3>> {
    let ring = |ring: &Vec<usize>| ring.iter().map(|&corner| piece.fold(cut.points[corner], z_mm)).collect();
    piece.rings.iter().map(ring).collect()
}

/// Unit normal of a flat ring, counter-clockwise seen from its tip: the sum of the cross products of its corners.
pub(super) fn normal(ring: &[Point3]) -> Vector3 {
    let first = ring.first().copied().unwrap_or_default();
    let following = ring.iter().skip(1);
    let crosses = ring.iter().zip(following).map(|(&a, &b)| (a - first).cross(b - first));
    crosses.fold(Vector3::default(), |sum, cross| sum + cross).unit()
}
