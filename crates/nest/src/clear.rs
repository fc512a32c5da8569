//! Are two pieces apart by the gap, and is one inside the trimmed sheet? Exact, and quick: what the search asks.
//!
//! [`mod@crate::verify`] does not ask here but finds out anew, so that a fault of this module cannot hide.

mod contact;

use geometry::grid::{GridOutline, GridPoint, Place, place_in_ring, ring_edges};

use crate::problem::Rules;

type Edge = (GridPoint, GridPoint);

/// True when no metal of one outline comes nearer to metal of the other than `gap` steps. Exactly the gap is
/// allowed; with a gap of 0 touching is allowed and overlap is not.
#[must_use]
pub fn apart(first: &GridOutline, second: &GridOutline, gap: i64) -> bool {
    if boxes_apart(first.bounds(), second.bounds(), gap) {
        return true;
    }
    let window = shared_window(first.bounds(), second.bounds(), gap);
    !any_too_near(edges_in(first, window), edges_in(second, window), gap)
        && !lies_in_metal(first, second)
        && !lies_in_metal(second, first)
        && (0 < gap || !contact::overlap_at_contacts(first, second))
}

/// True when every corner lies in the trimmed rectangle, border included, and the piece stays off what is missing of that
/// rectangle by the edge trim.
pub(crate) fn inside_trimmed(
    (length, width): (i64, i64),
    missing: &[GridOutline],
    rules: &Rules,
    outline: &GridOutline,
) -> bool {
    let trim = rules.edge_trim;
    let (low, high) = outline.bounds();
    trim <= low.x
        && trim <= low.y
        && high.x <= length - trim
        && high.y <= width - trim
        && missing.iter().all(|missing| apart(missing, outline, trim))
}

fn boxes_apart(first: Edge, second: Edge, gap: i64) -> bool {
    let distance = |low: i64, high: i64| low - high;
    gap <= distance(second.0.x, first.1.x)
        || gap <= distance(first.0.x, second.1.x)
        || gap <= distance(second.0.y, first.1.y)
        || gap <= distance(first.0.y, second.1.y)
}

/// The rectangle in which edges of either can come near the other.
fn shared_window(first: Edge, second: Edge, gap: i64) -> Edge {
    let low = GridPoint::new(first.0.x.max(second.0.x) - gap, first.0.y.max(second.0.y) - gap);
    let high = GridPoint::new(first.1.x.min(second.1.x) + gap, first.1.y.min(second.1.y) + gap);
    (low, high)
}

fn edges_in(outline: &GridOutline, window: Edge) -> Vec<Edge> {
    outline.rings().flat_map(ring_edges).filter(|&edge| touch(around(edge), window)).collect()
}

/// The upright rectangle around an edge.
fn around((a, b): Edge) -> Edge {
    (GridPoint::new(a.x.min(b.x), a.y.min(b.y)), GridPoint::new(a.x.max(b.x), a.y.max(b.y)))
}

/// True when two upright rectangles share a point.
fn touch(first: Edge, second: Edge) -> bool {
    !boxes_apart(first, second, 1)
}

/// True when any edge of one piece is too near to one of the other: both lists are gone through from the left, and each edge is
/// compared with those of the other piece that have begun and not ended.
fn any_too_near(first: Vec<Edge>, second: Vec<Edge>, gap: i64) -> bool {
    let begins = |&(a, b): &Edge| a.x.min(b.x);
    let sorted = |mut edges: Vec<Edge>| {
        edges.sort_unstable_by_key(begins);
        edges
    };
    let (first, second) = (sorted(first), sorted(second));
    let (mut ours, mut theirs) = (first.iter().peekable(), second.iter().peekable());
    let (mut our_open, mut their_open): (Vec<Edge>, Vec<Edge>) = (Vec::new(), Vec::new());
    loop {
        let our_turn = match (ours.peek(), theirs.peek()) {
            (Some(&one), Some(&other)) => begins(one) <= begins(other),
            (Some(_), None) if !their_open.is_empty() => true,
            (None, Some(_)) if !our_open.is_empty() => false,
            _ => return false,
        };
        let next = if our_turn { ours.next() } else { theirs.next() };
        let Some(&edge) = next else { return false };
        let (own, against) =
            if our_turn { (&mut our_open, &mut their_open) } else { (&mut their_open, &mut our_open) };
        against.retain(|&(a, b)| begins(&edge) - a.x.max(b.x) <= gap);
        if against.iter().any(|&other| too_near(edge, other, gap)) {
            return true;
        }
        own.push(edge);
    }
}

fn too_near((a, b): Edge, (c, d): Edge, gap: i64) -> bool {
    let apart_along =
        |p: i64, q: i64, r: i64, s: i64| gap <= r.min(s) - p.max(q) || gap <= p.min(q) - r.max(s);
    if apart_along(a.x, b.x, c.x, d.x) || apart_along(a.y, b.y, c.y, d.y) {
        return false;
    }
    if properly_cross((a, b), (c, d)) {
        return true;
    }
    0 < gap
        && [(a, (c, d)), (b, (c, d)), (c, (a, b)), (d, (a, b))].iter().any(|&(p, edge)| nearer(p, edge, gap))
}

fn wide_cross(a: GridPoint, b: GridPoint, c: GridPoint) -> i128 {
    i128::from(b.x - a.x) * i128::from(c.y - a.y) - i128::from(b.y - a.y) * i128::from(c.x - a.x)
}

fn dot(a: GridPoint, b: GridPoint) -> i128 {
    i128::from(a.x) * i128::from(b.x) + i128::from(a.y) * i128::from(b.y)
}

fn properly_cross((a, b): Edge, (c, d): Edge) -> bool {
    wide_cross(a, b, c).signum() * wide_cross(a, b, d).signum() < 0
        && wide_cross(c, d, a).signum() * wide_cross(c, d, b).signum() < 0
}

/// True when `p` is nearer to the edge than `gap`: squared distance as a fraction, multiplied out.
fn nearer(p: GridPoint, (a, b): Edge, gap: i64) -> bool {
    let squared_gap = i128::from(gap) * i128::from(gap);
    let (along, to) = (b - a, p - a);
    let share = dot(to, along);
    let squared = dot(along, along);
    if share <= 0 {
        dot(to, to) < squared_gap
    } else if squared <= share {
        dot(p - b, p - b) < squared_gap
    } else {
        let cross = wide_cross(a, b, p);
        cross * cross < squared_gap * squared
    }
}

/// True when a corner of `piece` lies strictly in the metal of `other`.
fn lies_in_metal(piece: &GridOutline, other: &GridOutline) -> bool {
    let bounds = other.bounds();
    let within = |corner: &&GridPoint| !boxes_apart((**corner, **corner), bounds, 0);
    piece.rings().flatten().filter(within).any(|&corner| place_in_metal(other, corner) == Place::Inside)
}

/// Where a point lies: in metal, on its edge, or off it, in a hole as well.
pub(crate) fn place_in_metal(outline: &GridOutline, point: GridPoint) -> Place {
    match place_in_ring(outline.outer(), point) {
        Place::Inside => {}
        other => return other,
    }
    for hole in outline.holes() {
        match place_in_ring(hole, point) {
            Place::Inside => return Place::Outside,
            Place::Border => return Place::Border,
            Place::Outside => {}
        }
    }
    Place::Inside
}
