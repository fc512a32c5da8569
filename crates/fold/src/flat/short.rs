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

/// A stub cut off.
struct Cut {
    /// What takes the place of the stub and of the piece beside it, by their numbers.
    mended: [(usize, Piece); 2],
    /// Both ends of the cut.
    ends: [Point; 2],
}

/// The outline without its stubs, and both ends of every cut that took one off.
pub(super) fn cut(outer: Contour, bend_ends: &[[Point; 2]]) -> (Contour, Vec<[Point; 2]>) {
    let mut pieces: Vec<Piece> = outer.pieces().collect();
    let mut cuts = Vec::new();
    for number in 0..pieces.len() {
        let Some(Cut { mended, ends }) = stub(&pieces, number, bend_ends) else { continue };
        for (number, piece) in mended {
            pieces[number] = piece;
        }
        cuts.push(ends);
    }
    if cuts.is_empty() {
        return (outer, cuts);
    }
    (Contour { segments: pieces.into_iter().map(|(_, segment)| segment).collect() }, cuts)
}

/// How the stub at `number` is cut off; `None` where there is none, or none that can be.
fn stub(pieces: &[Piece], number: usize, bend_ends: &[[Point; 2]]) -> Option<Cut> {
    let count = pieces.len();
    let round = |number: usize| matches!(pieces[number % count].1, Segment::Arc { .. });
    if !round(number + count - 1) && !round(number + 1) {
        return None;
    }
    corner(pieces, number, bend_ends).or_else(|| beside_hole(pieces, number, bend_ends))
}

/// A stub between a hole and a corner outside it, cut from the corner to where the cut touches the hole.
fn beside_hole(pieces: &[Piece], number: usize, bend_ends: &[[Point; 2]]) -> Option<Cut> {
    let count = pieces.len();
    let (from, Segment::Line { to }) = pieces[number] else { return None };
    let short_mm = from.distance(to);
    if short_mm <= tolerance::SAME_POINT_MM || LEAST_MM <= short_mm {
        return None;
    }
    let (before, next) = ((number + count - 1) % count, (number + 1) % count);
    // Only metal comes off outside a hole that the outline goes round clockwise.
    if let (start, Segment::Arc { centre, counter_clockwise: false, .. }) = pieces[before]
        && let Some(touches) = touching(to, centre, from, -1.0).filter(|at| on_arc(start, *at, from, centre))
        && LEAST_MM <= touches.distance(to)
        && is_free([touches, from, to], pieces, bend_ends)
    {
        let arc = Segment::Arc { to: touches, centre, counter_clockwise: false };
        let mended = [(before, (start, arc)), (number, (touches, pieces[number].1))];
        return Some(Cut { mended, ends: [touches, to] });
    }
    let (_, Segment::Arc { to: end, centre, counter_clockwise: false }) = pieces[next] else { return None };
    let touches = touching(from, centre, to, 1.0).filter(|at| on_arc(to, *at, end, centre))?;
    let mended = [(number, (from, Segment::Line { to: touches })), (next, (touches, pieces[next].1))];
    (LEAST_MM <= touches.distance(from) && is_free([from, to, touches], pieces, bend_ends))
        .then_some(Cut { mended, ends: [from, touches] })
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
fn corner(pieces: &[Piece], number: usize, bend_ends: &[[Point; 2]]) -> Option<Cut> {
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
        let mended = [(number, (from, Segment::Line { to: end })), (next, (end, pieces[next].1))];
        return Some(Cut { mended, ends: [from, end] });
    }
    let before = (number + count - 1) % count;
    if let (far, Segment::Line { .. }) = pieces[before]
        && 0.0 < (from - far).cross(along)
        && let Some(end) = place(from, far)
        && is_free([end, from, to], pieces, bend_ends)
    {
        let mended = [(before, (far, Segment::Line { to: end })), (number, (end, pieces[number].1))];
        return Some(Cut { mended, ends: [end, to] });
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

#[cfg(test)]
mod tests {
    use super::*;

    /// Two holes about (±2.95, −.77) of radius 3, mirror images of one another, and a stub of .1 between them. The first has so
    /// little of its edge left that a straight from the stub's far end touches it where it is no edge of the part.
    #[test]
    fn a_stub_between_two_holes_is_cut_off_at_the_second_where_the_first_cannot_take_it() {
        let (radius, high) = (3.0_f64, -0.77_f64);
        let aside = (radius * radius - high * high).sqrt() + 0.05;
        let [first, second] = [-aside, aside].map(|x| Point::new(x, high));
        let on = |centre: Point, angle: f64| centre + geometry::Vector::at_angle(angle) * radius;
        let meets = trig::asin(-high / radius);
        let (begins, ends) = (on(first, meets + 0.1), on(second, 1.2));
        let line = |x: f64, y: f64| Segment::Line { to: Point::new(x, y) };
        let arc = |to: Point, centre: Point| Segment::Arc { to, centre, counter_clockwise: false };
        let segments = vec![
            line(begins.x, begins.y),
            arc(Point::new(-0.05, 0.0), first),
            line(0.05, 0.0),
            arc(ends, second),
            line(20.0, ends.y),
            line(20.0, 20.0),
            line(-20.0, 20.0),
            line(-20.0, begins.y),
        ];
        let outer = Contour { segments };
        let area = outer.area_mm2();
        let (mended, cuts) = cut(outer, &[]);
        assert_eq!(cuts.len(), 1, "{cuts:?}");
        let [from, touches] = cuts[0];
        assert!((touches.distance(second) - radius).abs() < 1e-9, "it ends on the second hole");
        let along = (touches - from).unit();
        assert!((touches - second).dot(along).abs() < 1e-9, "and touches it");
        assert!(mended.area_mm2() < area, "only metal comes off");
        assert!(mended.pieces().all(|(from, segment)| LEAST_MM <= from.distance(segment.end())));
    }
}
