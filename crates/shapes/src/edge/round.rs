//! How far the leg of a hem or curl stands back at its ends, so that its bend, cut straight from one tangent line to the
//! other, stays on its own side of what parts it from its neighbour all the way round.

use fold::part::{Edge, FoldedPart, Round};
use geometry::{Vector3, tolerance};

use super::limits::Half;

/// Lines along the bend at which its ends are looked at.
const LINES: u32 = 90;

/// Least share of the bend's direction that stands square to a plane for a leg to end by that plane: one that runs nearly along
/// the bend would take the whole leg.
const LEAST_SQUARE: f64 = 0.05;

/// How a treated edge's bend stands to the planes that part it from its neighbours.
pub(super) struct Ends {
    /// How far the bend itself must stop short of the start and the end of its parent's edge, mm: where the plate's own end
    /// lies beyond the plane, as of one that runs through a corner or leans inward.
    pub(super) short_mm: [f64; 2],
    /// How far the leg begins from the start, and ends before the end, of its parent's edge at least, mm.
    pub(super) back_mm: [f64; 2],
}

/// Both ends of the bend that `child` hangs on.
///
/// Plane geometry: the end of the zone lies s·t/turn along the bend after a turn t, s its stand-off where the leg begins,
/// and must not lie beyond the plane there, so s is the most of what any t asks for. An end that is beyond the plane from
/// the start on is cut square instead, clear of the plane all the way round.
pub(super) fn ends(part: &FoldedPart, child: usize, limits: &[Half]) -> Ends {
    let mut ends = Ends { short_mm: [0.0; 2], back_mm: [0.0; 2] };
    let Some(number) = part.bends.iter().position(|bend| bend.child == child) else { return ends };
    let bend = &part.bends[number];
    let frames = part.frames();
    let face = &part.faces[bend.parent];
    let (a, b) = face.edge(bend.parent_edge);
    let (length_mm, along) = (a.distance(b), (b - a).unit());
    let setback_mm = part.setback_mm(number);
    let round = Round::of(part, number, &frames[bend.parent]);
    let toward: Vector3 = frames[bend.parent].direct(along);
    let count = face.edges.len();
    // Where the plate's cut ends cross the tangent line.
    let inner = a + along.left() * setback_mm;
    let begins = [(bend.parent_edge + count - 1) % count, (bend.parent_edge + 1) % count].map(|beside| {
        let (from, to) = face.edge(beside);
        let crossing = inner.crossing(along, from, (to - from).unit());
        crossing.filter(|_| face.edges[beside] == Edge::Free).map(|point| (point - a).dot(along))
    });
    for limit in limits.iter().filter(|limit| limit.in_bend) {
        let square = limit.normal.dot(toward);
        if square.abs() < LEAST_SQUARE {
            continue;
        }
        let end = usize::from(square < 0.0);
        // Distances from this end of the edge, into it.
        let off = |at_mm: f64| if end == 0 { at_mm } else { length_mm - at_mm };
        let begin_mm = off(begins[end].unwrap_or(if end == 0 { 0.0 } else { length_mm }));
        let least_mm = |turn_rad: f64| {
            let room = |place| limit.normal.dot(place - geometry::Point3::default()) - limit.offset_mm;
            let off = round.places(turn_rad).map(|place| off(-room(place) / square));
            off.into_iter().fold(f64::NEG_INFINITY, f64::max)
        };
        let share = |line: u32| f64::from(line) / f64::from(LINES);
        if begin_mm < least_mm(0.0) - tolerance::REFOLD_MM {
            let asked = (0..=LINES).map(|line| least_mm(share(line) * bend.turn_rad));
            ends.short_mm[end] = asked.fold(ends.short_mm[end], f64::max);
            continue;
        }
        let asked = (1..=LINES)
            .map(|line| begin_mm + (least_mm(share(line) * bend.turn_rad) - begin_mm) / share(line));
        ends.back_mm[end] = asked.fold(ends.back_mm[end], f64::max);
    }
    ends
}
