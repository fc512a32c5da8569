//! Metal that stands out of an opening, and past which of its sides.
//!
//! What the shadow covers outside the opening falls into pieces; each stands past the sides that it touches, as far as it
//! reaches square to them. At an inside corner of the opening one piece touches two sides: it stands past the one that it is
//! less far past, since that is the nearer way back in.

use geometry::{Point, Polygon, Region, polygon, tolerance};
use shapes::Figure;

use super::shadow::PieceShadow;

/// What of a shadow lies outside an opening.
pub(super) struct Outside<'a> {
    opening: &'a Figure,
    /// The pieces of it, each with the sides that it stands past.
    pieces: Vec<(Region, Vec<usize>)>,
}

impl<'a> Outside<'a> {
    pub(super) fn of(opening: &'a Figure, placed: &[PieceShadow]) -> Self {
        let region = |corners: &[Point]| Region::of(&Polygon { outer: corners.to_vec(), holes: Vec::new() });
        let metal: Region = placed.iter().map(|piece| region(&piece.corners)).collect();
        let out = metal.difference(&region(&opening.corners));
        let past = |piece: Polygon| {
            let own = Region::of(&piece);
            let sides = sides_past(opening, &piece, &own);
            (own, sides)
        };
        Self { opening, pieces: out.polygons().into_iter().map(past).collect() }
    }

    /// How far a convex figure of the shadow stays on the inner side of a side; below zero, how far it stands past it, mm.
    pub(super) fn inside_mm(&self, corners: &[Point], side: usize) -> f64 {
        let figure = Region::of(&Polygon { outer: corners.to_vec(), holes: Vec::new() });
        let own = self.pieces.iter().filter(|(_, sides)| sides.contains(&side));
        let past = own.map(|(piece, _)| past_mm(self.opening, side, &piece.intersection(&figure)));
        let past_mm = past.fold(0.0, f64::max);
        let (a, b) = self.opening.side(side);
        if 0.0 < past_mm { -past_mm } else { polygon::edges_distance(corners, &[a, b]) }
    }
}

/// The sides that a piece outside stands past.
fn sides_past(opening: &Figure, piece: &Polygon, own: &Region) -> Vec<usize> {
    let count = opening.count();
    let touched = |side: &usize| {
        let ends = opening.side(*side);
        let on = |corner: Point| polygon::point_to_segment(corner, ends) <= tolerance::DRAWN_POINT_MM;
        let mut edges =
            std::iter::once(&piece.outer).chain(&piece.holes).flat_map(|ring| polygon::edges(ring));
        edges.any(|(a, b)| tolerance::DRAWN_POINT_MM < a.distance(b) && on(a) && on(b))
    };
    let touched: Vec<usize> = (0..count).filter(touched).collect();
    let depth = |side: usize| past_mm(opening, side, own);
    let is_hollow = |corner: usize| std::f64::consts::PI < opening.corner_angle(corner);
    let nearer_by = |side: usize, other: usize| touched.contains(&other) && depth(other) < depth(side);
    let kept = |side: &usize| {
        let (before, after) = ((side + count - 1) % count, (side + 1) % count);
        !(is_hollow(*side) && nearer_by(*side, before) || is_hollow(after) && nearer_by(*side, after))
    };
    touched.iter().copied().filter(kept).collect()
}

/// How far a region reaches square past a side, beside the side itself, mm.
fn past_mm(opening: &Figure, side: usize, region: &Region) -> f64 {
    let (a, b) = opening.side(side);
    let outward = (b - a).unit().right();
    let corners = || region.polygons().into_iter().flat_map(|part| part.outer);
    let farthest = corners().map(|corner| (corner - a).dot(outward)).fold(0.0, f64::max);
    if farthest <= 0.0 {
        return 0.0;
    }
    let strip =
        Polygon { outer: vec![b, a, a + outward * farthest, b + outward * farthest], holes: Vec::new() };
    let beside = region.intersection(&Region::of(&strip)).polygons();
    let beside = beside.iter().flat_map(|part| &part.outer);
    beside.map(|corner| (*corner - a).dot(outward)).fold(0.0, f64::max)
}
