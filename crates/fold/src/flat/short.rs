//! Straight pieces of the outline too short to cut, beside drilled holes.
//!
//! Where a hole ends just before a corner a stub of metal stands out that no hand can follow. It is cut off
//! from where it begins to a little way along the next edge: only metal is taken off, and no deeper than the stub is long.
//! At a hollow corner just outside a hole the cut runs from that corner to where it touches the hole, as the sides of a
//! tear-drop do.

use geometry::{Contour, Point, Segment, polygon, tolerance, trig};

use super::jog::{LEAST_MM, long_mm};

/// A piece of the outline and where it begins.
type Piece = (Point, Segment);

/// The outline without its stubs, and both ends of every cut that took one off.
pub(super) fn cut(outer: Contour, bend_ends: &[[Point; 2]]) -> (Contour, Vec<[Point; 2]>) {
    let mut pieces: Vec<Piece> = outer.pieces().collect();
    let mut cuts = Vec::new();
    for number in 0..pieces.len() {
        let Some((mended, made)) = stub(&pieces, number, bend_ends) else { continue };
        pieces = mended;
        cuts.push(made);
    }
    if cuts.is_empty() {
        return (outer, cuts);
    }
    (Contour { segments: pieces.into_iter().map(|(_, segment)| segment).collect() }, cuts)
}

/// The pieces with the stub at `number` cut off, and the cut; `None` where there is none, or none that can be.
fn stub(pieces: &[Piece], number: usize, bend_ends: &[[Point; 2]]) -> Option<(Vec<Piece>, [Point; 2])> {
    let count = pieces.len();
    let round = |number: usize| matches!(pieces[number % count].1, Segment::Arc { .. });
    if !round(number + count - 1) && !round(number + 1) {
        return None;
    }
    corner(pieces, number, bend_ends).or_else(|| beside_hole(pieces, number, bend_ends))
}

/// A stub between a hole and a corner outside it, cut from the corner to where the cut touches the hole.
fn beside_hole(
    pieces: &[Piece],
    number: usize,
    bend_ends: &[[Point; 2]],
) -> Option<(Vec<Piece>, [Point; 2])> {
    let count = pieces.len();
    let (from, Segment::Line { to }) = pieces[number] else { return None };
    let short_mm = from.distance(to);
    if short_mm <= tolerance::SAME_POINT_MM || LEAST_MM <= short_mm {
        return None;
    }
    let (before, next) = ((number + count - 1) % count, (number + 1) % count);
    let mut mended = pieces.to_vec();
    // Only metal comes off outside a hole that the outline goes round clockwise.
    if let (start, Segment::Arc { centre, counter_clockwise: false, .. }) = pieces[before]
        && let Some(touches) = touching(to, centre, from, -1.0).filter(|at| on_arc(start, *at, from, centre))
        && LEAST_MM <= touches.distance(to)
        && is_free([touches, from, to], pieces, bend_ends)
    {
        mended[before].1 = Segment::Arc { to: touches, centre, counter_clockwise: false };
        mended[number].0 = touches;
        return Some((mended, [touches, to]));
    }
    if let (_, Segment::Arc { to: end, centre, counter_clockwise: false }) = pieces[next] {
        let touches = touching(from, centre, to, 1.0).filter(|at| on_arc(to, *at, end, centre))?;
        if LEAST_MM <= touches.distance(from) && is_free([from, to, touches], pieces, bend_ends) {
            mended[number].1 = Segment::Line { to: touches };
            mended[next].0 = touches;
            return Some((mended, [from, touches]));
        }
    }
    None
}

/// Where a straight from `outside` touches the hole about `centre` that `on` lies on the rim of, with the hole on its right when it
/// comes to `outside`, for `hand` −1, or leaves it, for 1.
fn touching(outside: Point, centre: Point, on: Point, hand: f64) -> Option<Point> {
    let (off, radius) = (centre - outside, on.distance(centre));
    let (squared, tangent_squared) = (off.dot(off), off.dot(off) - radius * radius);
    (tolerance::SAME_POINT_MM < tangent_squared).then(|| {
        outside
            + off * (tangent_squared / squared)
            + off.left() * (hand * radius * tangent_squared.sqrt() / squared)
    })
}

/// True where going clockwise about `centre` from one place to another passes `at`.
fn on_arc(from: Point, at: Point, to: Point, centre: Point) -> bool {
    let angle = |point: Point| trig::atan2(point.y - centre.y, point.x - centre.x);
    let clockwise = |to: Point| (angle(from) - angle(to)).rem_euclid(std::f64::consts::TAU);
    clockwise(at) < clockwise(to)
}

/// A stub at a corner that stands out, cut to a little way along the edge beside it.
fn corner(pieces: &[Piece], number: usize, bend_ends: &[[Point; 2]]) -> Option<(Vec<Piece>, [Point; 2])> {
    let count = pieces.len();
    let (from, Segment::Line { to }) = pieces[number] else { return None };
    let short_mm = from.distance(to);
    if short_mm <= tolerance::SAME_POINT_MM || LEAST_MM <= short_mm {
        return None;
    }
    let long_mm = long_mm(short_mm);
    let along = to - from;
    // The corner at which the stub meets the edge beside it, and the place on that where the cut ends.
    let place = |at: Point, far: Point| {
        let way = far - at;
        (2.0 * long_mm < way.length()).then(|| at + way.unit() * long_mm)
    };
    let next = (number + 1) % count;
    if let (_, Segment::Line { to: far }) = pieces[next]
        && 0.0 < along.cross(far - to)
        && let Some(end) = place(to, far)
        && is_free([from, to, end], pieces, bend_ends)
    {
        let mut mended = pieces.to_vec();
        mended[number].1 = Segment::Line { to: end };
        mended[next].0 = end;
        return Some((mended, [from, end]));
    }
    let before = (number + count - 1) % count;
    if let (far, Segment::Line { .. }) = pieces[before]
        && 0.0 < (from - far).cross(along)
        && let Some(end) = place(from, far)
        && is_free([end, from, to], pieces, bend_ends)
    {
        let mut mended = pieces.to_vec();
        mended[before].1 = Segment::Line { to: end };
        mended[number].0 = end;
        return Some((mended, [end, to]));
    }
    None
}

/// True where the corner cut off holds no other corner of the outline, and no end of a bend line lies on its edges.
fn is_free(corner: [Point; 3], pieces: &[Piece], bend_ends: &[[Point; 2]]) -> bool {
    let own = |point: Point| corner.iter().any(|own| own.distance(point) <= tolerance::SAME_POINT_MM);
    let holds = |point: Point| !own(point) && polygon::contains(&corner, point);
    let near = |end: &Point| {
        polygon::edges(&corner).any(|edge| polygon::point_to_segment(*end, edge) <= tolerance::REFOLD_MM)
    };
    !pieces.iter().any(|(from, _)| holds(*from)) && !bend_ends.iter().flatten().any(near)
}
