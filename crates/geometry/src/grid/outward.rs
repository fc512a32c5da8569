//! Growing rings outward onto the grid.
//!
//! Every edge is shifted away from the metal, shifted neighbours are joined, corners are rounded to the grid and
//! the rings are resolved with the positive winding rule. Upright and level edges are shifted by exactly the
//! distance asked and rounded away from the metal; slanted edges are shifted by [`tolerance::OUTWARD_STEPS`] more,
//! which outweighs the rounding of their ends.

use crate::grid::exact::{self, nearest};
use crate::grid::{GridPoint, doubled_area};
use crate::nofit::winding;
use crate::{Point, Vector, polygon, tolerance};

type Rings = (Vec<GridPoint>, Vec<Vec<GridPoint>>);

/// An edge shifted outward: a point on it, its unit direction and how far it moved.
#[derive(Clone, Copy)]
struct Shifted {
    on: Point,
    direction: Vector,
    by: f64,
    length: f64,
}

/// Grows a figure (outer ring and holes in either sense, `f64` steps) by `distance` steps.
pub(crate) fn grown(outer: &[Point], holes: &[Vec<Point>], distance: f64) -> Rings {
    let mut circuits = vec![grown_ring(&oriented(outer, true), distance)];
    circuits.extend(holes.iter().map(|hole| grown_ring(&oriented(hole, false), distance)));
    let shapes = winding::resolve(&circuits, winding::Rule::Positive);
    // A connected figure grows into a connected one; slivers from rounding are inside it.
    let largest = shapes.into_iter().max_by_key(|shape| shape.first().map_or(0, |ring| doubled_area(ring)));
    let mut rings = largest.unwrap_or_default().into_iter();
    (rings.next().unwrap_or_default(), rings.collect())
}

/// The upright rectangle between two corners, in steps, rounded outward to the grid.
pub(crate) fn bounds_of([low, high]: [Point; 2]) -> (GridPoint, GridPoint) {
    let low = GridPoint::new(rounded_toward(low.x, -1.0), rounded_toward(low.y, -1.0));
    (low, GridPoint::new(rounded_toward(high.x, 1.0), rounded_toward(high.y, 1.0)))
}

/// The rings where every corner lies on the grid.
pub(crate) fn as_they_are(outer: &[Point], holes: &[Vec<Point>]) -> Option<Rings> {
    let whole = |ring: &[Point]| {
        let mut whole = ring.iter().map(|&corner| on_the_grid(corner)).collect::<Option<Vec<_>>>()?;
        whole.dedup();
        if 1 < whole.len() && whole.first() == whole.last() {
            whole.pop();
        }
        Some(whole)
    };
    Some((whole(outer)?, holes.iter().map(|hole| whole(hole)).collect::<Option<_>>()?))
}

/// The place on the grid that a corner, in steps, does not differ from.
fn on_the_grid(corner: Point) -> Option<GridPoint> {
    let same = tolerance::SAME_POINT_MM / tolerance::GRID_STEP_MM;
    let (x, y) = (nearest(corner.x), nearest(corner.y));
    let near = |steps: f64, whole: i64| (steps - exact::float(whole)).abs() <= same;
    (near(corner.x, x) && near(corner.y, y)).then(|| GridPoint::new(x, y))
}

fn oriented(ring: &[Point], counter_clockwise: bool) -> Vec<Point> {
    let mut ring = ring.to_vec();
    ring.dedup();
    if 1 < ring.len() && ring.first() == ring.last() {
        ring.pop();
    }
    if (0.0 < polygon::signed_area(&ring)) != counter_clockwise {
        ring.reverse();
    }
    ring
}

fn grown_ring(ring: &[Point], distance: f64) -> Vec<GridPoint> {
    let edges: Vec<Shifted> = polygon::edges(ring).map(|(a, b)| shifted(a, b, distance)).collect();
    let mut grown = Vec::with_capacity(2 * ring.len());
    for (index, &next) in edges.iter().enumerate() {
        let before = edges[(index + edges.len() - 1) % edges.len()];
        corner(before, next, ring[index], &mut grown);
    }
    grown
}

fn shifted(a: Point, b: Point, distance: f64) -> Shifted {
    let direction = (b - a).unit();
    let same = tolerance::SAME_POINT_MM / tolerance::GRID_STEP_MM;
    let straight = (b.x - a.x).abs() <= same || (b.y - a.y).abs() <= same;
    let direction = if straight { squared(direction) } else { direction };
    let by = if straight { distance } else { distance + tolerance::OUTWARD_STEPS };
    Shifted { on: a + direction.right() * by, direction, by, length: a.distance(b) }
}

/// The level or upright direction nearest to one that differs from it by rounding only.
fn squared(direction: Vector) -> Vector {
    Vector::new(direction.x.round(), direction.y.round())
}

fn corner(before: Shifted, next: Shifted, at: Point, grown: &mut Vec<GridPoint>) {
    let sine = before.direction.cross(next.direction);
    let cosine = before.direction.dot(next.direction);
    let mut push = |place: Point, edges: &[Shifted]| grown.push(rounded(place, edges));
    if sine.abs() <= tolerance::PARALLEL_SINE && 0.0 < cosine {
        push(at + next.direction.right() * before.by.max(next.by), &[before, next]);
    } else if 0.0 <= sine && cosine < BLUNT_COSINE {
        let middle = bisector(before, next, at);
        for (first, second) in [(before, middle), (middle, next)] {
            push(meeting(first, second, at), &[first, second]);
        }
    } else if meets_near(before, next, at) {
        push(meeting(before, next, at), &[before, next]);
    } else if 0.0 < sine {
        push(at + before.direction.right() * before.by, &[before]);
        push(at + next.direction.right() * next.by, &[next]);
    } else {
        push(at + before.direction.right() * before.by, &[before]);
        push(at, &[]);
        push(at + next.direction.right() * next.by, &[next]);
    }
}

/// Cosine of the turn (100°) above which an outward corner is blunted.
const BLUNT_COSINE: f64 = -0.173_648_177_666_930_35;

/// The tangent half-way round a sharp outward corner.
fn bisector(before: Shifted, next: Shifted, at: Point) -> Shifted {
    let sum = before.direction + next.direction;
    let half = if sum.length() <= tolerance::PARALLEL_SINE { before.direction.left() } else { sum.unit() };
    let by = before.by.max(next.by) + tolerance::OUTWARD_STEPS;
    Shifted { on: at + half.right() * by, direction: half, by, length: 0.0 }
}

/// True when a corner's shifted edges meet within the near halves of both; the mitre of an outward corner may be longer. Nearly
/// parallel ones that are shifted by different lengths may meet far behind, or beyond, their corner.
fn meets_near(before: Shifted, next: Shifted, at: Point) -> bool {
    let off = meeting(before, next, at) - at;
    let (along, on) = (2.0 * off.dot(before.direction), 2.0 * off.dot(next.direction));
    let outward = 0.0 < before.direction.cross(next.direction);
    let mitred = outward || (along <= before.length && -next.length <= on);
    -before.length <= along && on <= next.length && mitred
}

fn meeting(first: Shifted, second: Shifted, at: Point) -> Point {
    let fallback = at + second.direction.right() * first.by.max(second.by);
    first.on.crossing(first.direction, second.on, second.direction).unwrap_or(fallback)
}

/// Rounds a corner to the grid: away from the metal across upright and level edges, else to the nearest.
fn rounded(place: Point, edges: &[Shifted]) -> GridPoint {
    let mut outward = Vector::default();
    for edge in edges {
        let normal = edge.direction.right();
        if edge.direction.x == 0.0 {
            outward.x = normal.x;
        } else if edge.direction.y == 0.0 {
            outward.y = normal.y;
        }
    }
    GridPoint::new(rounded_toward(place.x, outward.x), rounded_toward(place.y, outward.y))
}

fn rounded_toward(steps: f64, outward: f64) -> i64 {
    let same = tolerance::SAME_POINT_MM / tolerance::GRID_STEP_MM;
    if 0.0 < outward {
        nearest((steps - same).ceil())
    } else if outward < 0.0 {
        nearest((steps + same).floor())
    } else {
        nearest(steps)
    }
}
