//! Overlap of two pieces that touch.
//!
//! When no edges cross properly and no corner lies strictly in the other's metal, two pieces overlap exactly when
//! at some corner that lies on the other's edge the two sectors of metal share a direction: the border of any
//! common piece of metal either meets both outlines, and then does so at such a corner, or belongs to one piece
//! only, whose corner then lies strictly in the other.

use geometry::grid::{GridOutline, GridPoint, cross};

use super::{Edge, around, touch};

/// The metal around a point of an outline: directions from `from` counter-clockwise to `to`, both left out.
struct Sector {
    from: GridPoint,
    to: GridPoint,
}

/// True when the pieces overlap next to a corner of one that lies on an edge or corner of the other.
pub(crate) fn overlap_at_contacts(first: &GridOutline, second: &GridOutline) -> bool {
    corners_enter(first, second) || corners_enter(second, first)
}

fn corners_enter(piece: &GridOutline, other: &GridOutline) -> bool {
    let (own, others) = (piece.bounds(), other.bounds());
    let edges = edges_touching(other, own);
    piece.rings().any(|ring| {
        (0..ring.len()).filter(|&corner| touch((ring[corner], ring[corner]), others)).any(|corner| {
            let own = at_corner(ring, corner);
            sectors_at(&edges, ring[corner]).iter().any(|sector| share_direction(&own, sector))
        })
    })
}

/// The rings and numbers of the edges that reach into an upright rectangle or touch it.
fn edges_touching(outline: &GridOutline, window: Edge) -> Vec<(&[GridPoint], usize)> {
    let near =
        |ring: &[GridPoint], edge: usize| touch(around((ring[edge], ring[(edge + 1) % ring.len()])), window);
    outline
        .rings()
        .flat_map(|ring| (0..ring.len()).filter(|&edge| near(ring, edge)).map(move |edge| (ring, edge)))
        .collect()
}

fn at_corner(ring: &[GridPoint], corner: usize) -> Sector {
    let n = ring.len();
    Sector { from: ring[(corner + 1) % n] - ring[corner], to: ring[(corner + n - 1) % n] - ring[corner] }
}

fn sectors_at(edges: &[(&[GridPoint], usize)], point: GridPoint) -> Vec<Sector> {
    let mut sectors = Vec::new();
    for &(ring, edge) in edges {
        let (a, b) = (ring[edge], ring[(edge + 1) % ring.len()]);
        if point == a {
            sectors.push(at_corner(ring, edge));
        } else if point != b && on_edge(a, b, point) {
            sectors.push(Sector { from: b - a, to: a - b });
        }
    }
    sectors
}

fn on_edge(a: GridPoint, b: GridPoint, point: GridPoint) -> bool {
    let between = |p: i64, q: i64, r: i64| p.min(q) <= r && r <= p.max(q);
    between(a.x, b.x, point.x) && between(a.y, b.y, point.y) && cross(a, b, point) == 0
}

fn share_direction(first: &Sector, second: &Sector) -> bool {
    holds(first, second.from) || holds(second, first.from)
}

/// True when `direction` lies in the sector or along its start.
fn holds(sector: &Sector, direction: GridPoint) -> bool {
    let product = |a: GridPoint, b: GridPoint| cross(GridPoint::default(), a, b);
    let same = |a: GridPoint, b: GridPoint| product(a, b) == 0 && 0 <= a.x * b.x && 0 <= a.y * b.y;
    let (from, to) = (sector.from, sector.to);
    if same(from, direction) {
        return true;
    }
    if same(to, direction) {
        return false;
    }
    match product(from, to) {
        0 => 0 < product(from, direction),
        wide if wide < 0 => !(0 < product(to, direction) && 0 < product(direction, from)),
        _ => 0 < product(from, direction) && 0 < product(direction, to),
    }
}
