//! How far the leg of a hem or curl stands back at its ends, so that its bend, cut straight from one tangent line to the
//! other, stays on its own side of what parts it from its neighbour all the way round.

use std::f64::consts::PI;

use fold::part::{Edge, FoldedPart};
use fold::{Bend, Direction};
use geometry::{Frame, Point, Vector3, tolerance, trig};

use super::limits::Half;

/// Lines along the bend at which its ends are looked at.
const LINES: u32 = 90;

/// Least share of the bend's direction that stands square to a plane for its end to be moved by it.
const LEAST_SQUARE: f64 = 0.05;

/// The round of a bend, seen along it from the start of its parent's edge.
struct Round<'a> {
    frame: &'a Frame,
    bend: &'a Bend,
    start: Point,
    along: geometry::Vector,
    setback_mm: f64,
    thickness_mm: f64,
}

impl Round<'_> {
    /// The inside and the outside of the metal after a turn, at the start of the edge.
    fn places(&self, turn_rad: f64) -> [geometry::Point3; 2] {
        let outer_mm = self.bend.inside_radius_mm + self.thickness_mm;
        [self.bend.inside_radius_mm, outer_mm].map(|radius_mm| {
            let out_mm = radius_mm * trig::sin(turn_rad) - self.setback_mm;
            let in_mm = outer_mm - radius_mm * trig::cos(turn_rad);
            let z_mm = match self.bend.direction {
                Direction::Up => in_mm,
                Direction::Down => self.thickness_mm - in_mm,
            };
            self.frame.place(self.start + self.along.right() * out_mm, z_mm)
        })
    }
}

/// How far the leg begins from the start, and ends before the end, of its parent's edge at least, mm.
///
/// Plane geometry: the end of the zone lies s·t/turn along the bend after a turn t, s its stand-off where the leg begins,
/// and must not lie beyond the plane there, so s is the most of what any t asks for. An end that is beyond the plane from
/// the start on, as of a plate that runs through a corner, cannot be helped so and is left.
pub(super) fn back_mm(part: &FoldedPart, child: usize, limits: &[Half]) -> [f64; 2] {
    let Some(number) = part.bends.iter().position(|bend| bend.child == child) else { return [0.0; 2] };
    let bend = &part.bends[number];
    let frames = part.frames();
    let face = &part.faces[bend.parent];
    let (a, b) = face.edge(bend.parent_edge);
    let (length_mm, along) = (a.distance(b), (b - a).unit());
    let setback_mm = part.setback_mm(number);
    let thickness_mm = part.thickness_mm();
    let round = Round { frame: &frames[bend.parent], bend, start: a, along, setback_mm, thickness_mm };
    let toward: Vector3 = round.frame.direct(along);
    let count = face.edges.len();
    // Where the plate's cut ends cross the tangent line.
    let inner = a + along.left() * setback_mm;
    let begins = [(bend.parent_edge + count - 1) % count, (bend.parent_edge + 1) % count].map(|beside| {
        let (from, to) = face.edge(beside);
        let crossing = inner.crossing(along, from, (to - from).unit());
        crossing.filter(|_| face.edges[beside] == Edge::Free).map(|point| (point - a).dot(along))
    });
    let mut back = [0.0_f64; 2];
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
            round.places(turn_rad).map(|place| off(-room(place) / square)).into_iter().fold(0.0, f64::max)
        };
        if begin_mm < least_mm(0.0) - tolerance::REFOLD_MM {
            continue;
        }
        let asked = (1..=LINES).map(|line| {
            let share = f64::from(line) / f64::from(LINES);
            begin_mm + (least_mm(share * bend.turn_rad.min(2.0 * PI)) - begin_mm) / share
        });
        back[end] = asked.fold(back[end], f64::max);
    }
    back
}
