//! Straight pieces of the finished outline too short to cut.
//!
//! Where a hole ends just before a corner a stub of metal stands out that no hand can follow, and so where a tab, a slot or a strip
//! begins just beside one. It is cut off from where it begins to a little way along the next edge. At a hollow corner just outside a
//! hole the cut runs from that corner to where it touches the hole, as the sides of a tear-drop do; at any other the stub is cut on
//! as far as a blade goes, and from there back to the next edge. Of two that follow one another the corner between is cut off, or
//! one of them is cut on until it meets the edge beyond the other. Only metal is taken off, and no deeper than a blade is wide.

use geometry::{Contour, Point, Segment, Vector, polygon, tolerance, trig};

use super::jog::{LEAST_MM, long_mm};

/// Sine of the turn between edges below which they are followed in one stroke: 15° (common practice, no source).
const SMOOTH_SINE: f64 = 0.26;

/// A piece of the outline and where it begins.
type Piece = (Point, Segment);

/// A stub cut off.
struct Cut {
    /// The first of the pieces that are replaced, the stub and what is beside it.
    first: usize,
    /// How many they are.
    taken: usize,
    /// What takes their place.
    mended: Vec<Piece>,
    /// Both ends of the cut.
    ends: [Point; 2],
}

/// The outline without its stubs, and both ends of every cut that took one off.
pub(super) fn cut(outer: Contour) -> (Contour, Vec<[Point; 2]>) {
    let mut pieces: Vec<Piece> = outer.pieces().collect();
    let mut cuts = Vec::new();
    // A cut leaves no new stub, so this ends; so many at the most.
    for _ in 0..pieces.len() {
        let Some(Cut { first, taken, mended, ends }) =
            (0..pieces.len()).find_map(|number| stub(&pieces, number))
        else {
            break;
        };
        pieces.rotate_left(first);
        pieces.splice(0..taken, mended);
        cuts.push(ends);
    }
    if cuts.is_empty() {
        return (outer, cuts);
    }
    (Contour { segments: pieces.into_iter().map(|(_, segment)| segment).collect() }, cuts)
}

/// How the stub at `number` is cut off; `None` where there is none, or none that can be.
fn stub(pieces: &[Piece], number: usize) -> Option<Cut> {
    let (from, Segment::Line { to }) = pieces[number] else { return None };
    if !(tolerance::SAME_POINT_MM..LEAST_MM).contains(&from.distance(to)) || is_smooth(pieces, number) {
        return None;
    }
    corner(pieces, number, (from, to))
        .or_else(|| beside_hole(pieces, number, (from, to)))
        .or_else(|| deepened(pieces, number, (from, to)))
        .or_else(|| pair(pieces, number))
}

/// Two stubs that follow one another. At a corner that stands out between them both are cut off by one straight; at a hollow one the
/// second is sawn on into the edge before the first, or the first, backward, into the edge behind the second.
fn pair(pieces: &[Piece], number: usize) -> Option<Cut> {
    let count = pieces.len();
    let line_at = |number: usize| match pieces[number % count] {
        (from, Segment::Line { to }) => Some((from, to)),
        (_, Segment::Arc { .. }) => None,
    };
    let is_short = |(from, to): (Point, Point)| from.distance(to) < LEAST_MM;
    let line = |to: Point| Segment::Line { to };
    let [(a, b), (_, c)] = [line_at(number)?, line_at(number + 1).filter(|own| is_short(*own))?];
    let turn = (b - a).cross(c - b);
    if 0.0 < turn {
        return is_free([a, b, c], pieces).then(|| Cut {
            first: number,
            taken: 2,
            mended: vec![(a, line(c))],
            ends: [a, c],
        });
    }
    let meets = |from: Point, along: Vector, (start, end): (Point, Point)| {
        let at = from.crossing(along, start, end - start)?;
        let share = (at - start).dot(end - start) / (end - start).dot(end - start);
        (0.0 < (at - from).dot(along) && 0.0 < share && share < 1.0).then_some(at)
    };
    let before = number + count - 1;
    if let Some((start, _)) = line_at(before)
        && let Some(at) = meets(b, b - c, (start, a))
        && LEAST_MM <= at.distance(c)
        && LEAST_MM <= start.distance(at)
        && is_free([at, a, b], pieces)
    {
        let mended = vec![(start, line(at)), (at, line(c))];
        return Some(Cut { first: before % count, taken: 3, mended, ends: [at, c] });
    }
    let (_, end) = line_at(number + 2)?;
    let at = meets(b, b - a, (c, end))?;
    (LEAST_MM <= at.distance(a) && LEAST_MM <= at.distance(end) && is_free([b, c, at], pieces)).then(|| Cut {
        first: number,
        taken: 3,
        mended: vec![(a, line(at)), (at, line(end))],
        ends: [a, at],
    })
}

/// True for a piece that is no step: straight, between two that it turns to by little, as along a curve drawn out in short edges.
fn is_smooth(pieces: &[Piece], number: usize) -> bool {
    let count = pieces.len();
    let way = |number: usize| match pieces[number % count] {
        (from, Segment::Line { to }) => Some((to - from).unit()),
        (_, Segment::Arc { .. }) => None,
    };
    let ways = [number + count - 1, number, number + 1].map(way);
    let [Some(before), Some(own), Some(next)] = ways else { return false };
    let turns = |from: Vector, to: Vector| 0.0 < from.dot(to) && from.cross(to).abs() < SMOOTH_SINE;
    turns(before, own) && turns(own, next)
}

/// A stub between a hole and a corner outside it, cut from the corner to where the cut touches the hole.
fn beside_hole(pieces: &[Piece], number: usize, (from, to): (Point, Point)) -> Option<Cut> {
    let count = pieces.len();
    let (before, next) = ((number + count - 1) % count, (number + 1) % count);
    // Only metal comes off outside a hole that the outline goes round clockwise.
    if let (start, Segment::Arc { centre, counter_clockwise: false, .. }) = pieces[before]
        && let Some(touches) = touching(to, centre, from, -1.0).filter(|at| on_arc(start, *at, from, centre))
        && LEAST_MM <= touches.distance(to)
        && is_free([touches, from, to], pieces)
    {
        let arc = Segment::Arc { to: touches, centre, counter_clockwise: false };
        let mended = vec![(start, arc), (touches, Segment::Line { to })];
        return Some(Cut { first: before, taken: 2, mended, ends: [touches, to] });
    }
    let (_, Segment::Arc { to: end, centre, counter_clockwise: false }) = pieces[next] else { return None };
    let touches = touching(from, centre, to, 1.0).filter(|at| on_arc(to, *at, end, centre))?;
    let mended = vec![(from, Segment::Line { to: touches }), (touches, pieces[next].1)];
    (LEAST_MM <= touches.distance(from) && is_free([from, to, touches], pieces)).then_some(Cut {
        first: number,
        taken: 2,
        mended,
        ends: [from, touches],
    })
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

/// A place so far along an edge from `at`, where that leaves of it what can be cut.
fn place(at: Point, far: Point, long_mm: f64) -> Option<Point> {
    let way = far - at;
    (long_mm + LEAST_MM <= way.length()).then(|| at + way.unit() * long_mm)
}

/// A stub at a corner that stands out, cut to a little way along the edge beside it; where that is short, to less of it.
fn corner(pieces: &[Piece], number: usize, (from, to): (Point, Point)) -> Option<Cut> {
    let count = pieces.len();
    let (next, before) = ((number + 1) % count, (number + count - 1) % count);
    let along = to - from;
    let line = |to: Point| Segment::Line { to };
    for long_mm in [long_mm(from.distance(to)), 2.0 * LEAST_MM, LEAST_MM] {
        let (mut after, mut ahead) = (None, None);
        if let (_, Segment::Line { to: far }) = pieces[next]
            && 0.0 < along.cross(far - to)
            && let Some(end) = place(to, far, long_mm)
            && LEAST_MM <= from.distance(end)
            && is_free([from, to, end], pieces)
        {
            let cut = Cut {
                first: number,
                taken: 2,
                mended: vec![(from, line(end)), (end, line(far))],
                ends: [from, end],
            };
            after = Some(([along.cross(end - from).abs(), -to.distance(far)], cut));
        }
        if let (far, Segment::Line { .. }) = pieces[before]
            && 0.0 < (from - far).cross(along)
            && let Some(end) = place(from, far, long_mm)
            && LEAST_MM <= end.distance(to)
            && is_free([end, from, to], pieces)
        {
            let cut = Cut {
                first: before,
                taken: 2,
                mended: vec![(far, line(end)), (end, line(to))],
                ends: [end, to],
            };
            ahead = Some(([along.cross(end - from).abs(), -from.distance(far)], cut));
        }
        if after.is_some() || ahead.is_some() {
            return lesser(after, ahead);
        }
    }
    None
}

/// Of the cuts behind a stub and ahead of it the one that takes less off, or else the one on the longer edge: by what a mirror
/// leaves as it is, so that the opposite hand is cut as the mirror image.
fn lesser(after: Option<([f64; 2], Cut)>, ahead: Option<([f64; 2], Cut)>) -> Option<Cut> {
    let is_less = |a: f64, b: f64| a < b - tolerance::SAME_POINT_MM * tolerance::SAME_POINT_MM;
    match (after, ahead) {
        (Some((first, own)), Some((second, other))) => {
            let [area, edge] = [0, 1].map(|which| (first[which], second[which]));
            let ahead = is_less(area.1, area.0) || (!is_less(area.0, area.1) && is_less(edge.1, edge.0));
            Some(if ahead { other } else { own })
        }
        (after, ahead) => after.or(ahead).map(|(_, cut)| cut),
    }
}

/// A stub at a hollow corner, cut on into the metal as far as can be cut, and from there to a little way along the edge beside it.
fn deepened(pieces: &[Piece], number: usize, (from, to): (Point, Point)) -> Option<Cut> {
    let count = pieces.len();
    let (next, before) = ((number + 1) % count, (number + count - 1) % count);
    let along = (to - from).unit();
    let deep_mm = LEAST_MM + tolerance::REFOLD_MM;
    let line = |to: Point| Segment::Line { to };
    for long_mm in [4.0 * LEAST_MM, 2.0 * LEAST_MM] {
        let (mut after, mut ahead) = (None, None);
        if let (_, Segment::Line { to: far }) = pieces[next]
            && along.cross(far - to) < 0.0
            && let Some(end) = place(to, far, long_mm)
            && is_free([to, end, from + along * deep_mm], pieces)
        {
            let deep = from + along * deep_mm;
            let mended = vec![(from, line(deep)), (deep, line(end)), (end, line(far))];
            let loss = along.cross(end - to).abs();
            after =
                Some(([loss, -to.distance(far)], Cut { first: number, taken: 2, mended, ends: [deep, end] }));
        }
        if let (far, Segment::Line { .. }) = pieces[before]
            && (from - far).cross(along) < 0.0
            && let Some(end) = place(from, far, long_mm)
            && is_free([to - along * deep_mm, end, from], pieces)
        {
            let deep = to - along * deep_mm;
            let mended = vec![(far, line(end)), (end, line(deep)), (deep, line(to))];
            let loss = along.cross(end - from).abs();
            ahead = Some((
                [loss, -from.distance(far)],
                Cut { first: before, taken: 2, mended, ends: [end, deep] },
            ));
        }
        if after.is_some() || ahead.is_some() {
            return lesser(after, ahead);
        }
    }
    None
}

/// True where the corner cut off holds no other corner of the outline.
fn is_free(corner: [Point; 3], pieces: &[Piece]) -> bool {
    let own = |point: Point| corner.iter().any(|own| own.distance(point) <= tolerance::SAME_POINT_MM);
    !pieces.iter().any(|(from, _)| !own(*from) && polygon::contains(&corner, *from))
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
        let on = |centre: Point, angle: f64| centre + Vector::at_angle(angle) * radius;
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
        let (mended, cuts) = cut(outer);
        assert_eq!(cuts.len(), 1, "{cuts:?}");
        let [from, touches] = cuts[0];
        assert!((touches.distance(second) - radius).abs() < 1e-9, "it ends on the second hole");
        let along = (touches - from).unit();
        assert!((touches - second).dot(along).abs() < 1e-9, "and touches it");
        assert!(mended.area_mm2() < area, "only metal comes off");
        assert!(mended.pieces().all(|(from, segment)| LEAST_MM <= from.distance(segment.end())));
    }
}
