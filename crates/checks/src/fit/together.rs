//! Two parts in one space.
//!
//! Either part may lie wherever its shadow, with the clearance, lies in the space. The shifts of the one from the other
//! that this allows are the sum of the two sets of places (a Minkowski sum); the shifts at which the shadows overlap are
//! the no-fit polygon. The two go in together exactly when the first set is not wholly inside the second.

use geometry::grid::{GridOutline, GridPoint, Place, Turn};
use geometry::{Point, nofit, tolerance};
use shapes::{Clearance, Fact, Figure};
use units::{Length, LengthStyle};

use super::answer::{Answer, Role, Scene, size_words};
use super::body::Body;
use super::level::{rooms_in, too_large};
use super::shadow::View;

/// Two parts in one space.
#[derive(Debug, Clone, PartialEq)]
pub struct Together {
    /// The space in plan.
    pub space: Figure,
    /// Height of the space, when it matters.
    pub height: Option<Length>,
    /// What must stay free to each wall, and between the parts.
    pub clearance: Clearance,
    /// True when either part may be set in by quarter turns.
    pub may_turn: bool,
}

/// The spare of two parts is found as near as this, mm: it is told no larger than it is.
const SPARE_MM: f64 = 0.05;

/// Where the two parts go: their turns and shifts.
type Pair = [(Turn, GridPoint); 2];

impl Together {
    /// Judges two parts.
    #[must_use]
    pub fn judge(&self, marks: [&str; 2], bodies: [&Body; 2], style: LengthStyle) -> Answer {
        let [first, second] = bodies.map(|body| body.outline(&View::PLAN));
        let (Ok(first), Ok(second)) = (first, second) else { return too_large(marks[0]) };
        let print = |millimetres: f64| Length::from_millimetres(millimetres).print(style);
        let low_by = |body: &Body| {
            let (low, high) = body.bounds();
            self.height.map_or(f64::INFINITY, |height| height.millimetres() - (high.z - low.z))
        };
        let headroom = bodies.map(low_by);
        let too_high = (0..2).find(|&at| headroom[at] < -tolerance::FIT_MM);
        let found = self.places([&first, &second], 0.0);
        let names = format!("{} and {}", marks[0], marks[1]);
        let sentence = match (too_high, found) {
            (Some(at), _) => format!("{} is {} too high for the space", marks[at], print(-headroom[at])),
            (None, Some(_)) => format!("{names} go in together"),
            (None, None) => match (0..2).find(|&at| self.alone([&first, &second][at]).is_none()) {
                Some(at) => format!("{} alone does not go in", marks[at]),
                None => format!("{names} go in one by one but not together"),
            },
        };
        let high = self.height.map_or_else(String::new, |height| format!(", {} high", height.print(style)));
        let space = format!("{}{high}", size_words(&self.space, style));
        let mut facts = vec![
            Fact::words("space", space, "the job"),
            Fact::words("clearance", self.clearance.sum_words(style), "clearance, to walls and between"),
        ];
        if found.is_some() {
            let spare_mm = self.spare_mm([&first, &second]);
            let origin =
                "most by which the clearance may grow, to every wall and between, and both still go in";
            facts.push(Fact::length_mm("spare at every wall and between", spare_mm, origin));
        }
        if self.height.is_some() {
            for at in 0..2 {
                let name = format!("spare in height, {}", marks[at]);
                facts.push(Fact::length_mm(name, headroom[at], "height of the space less part"));
            }
        }
        let fits = too_high.is_none() && found.is_some();
        let scenes = found.map(|pair| self.scene(marks, [&first, &second], pair));
        Answer { fits, sentence, facts, scenes: scenes.into_iter().collect() }
    }

    fn turns(&self) -> Vec<Turn> {
        let quarters = [Turn::NONE, Turn::QUARTER, Turn::HALF, Turn::THREE_QUARTERS];
        quarters[..if self.may_turn { 4 } else { 1 }].to_vec()
    }

    /// The most by which the clearance may grow, mm, for two that go in.
    fn spare_mm(&self, outlines: [&GridOutline; 2]) -> f64 {
        let (low, high) = geometry::polygon::bounds(&self.space.corners);
        let (mut fits, mut fails) = (0.0, 0.5 * (high.x - low.x).min(high.y - low.y));
        while SPARE_MM < fails - fits {
            let middle = 0.5 * (fits + fails);
            if self.places(outlines, middle).is_some() { fits = middle } else { fails = middle }
        }
        fits
    }

    /// What of the space is as far from its walls as the clearance and more, less what counts as fitting.
    fn clear(&self, more_mm: f64) -> Vec<Vec<GridPoint>> {
        let clear = self.space.clear(self.clearance.total().millimetres() + more_mm - tolerance::FIT_MM);
        clear.iter().map(|ring| ring.iter().map(|&corner| GridPoint::near(corner)).collect()).collect()
    }

    fn alone(&self, outline: &GridOutline) -> Option<Turn> {
        let clear = self.clear(0.0);
        self.turns().into_iter().find(|&turn| !rooms(&clear, &outline.turned(turn)).is_empty())
    }

    /// Where both go with so much more than the clearance.
    fn places(&self, outlines: [&GridOutline; 2], more_mm: f64) -> Option<Pair> {
        let clear = self.clear(more_mm);
        for first in self.turns() {
            for second in self.turns() {
                let turned = [outlines[0].turned(first), outlines[1].turned(second)];
                if let Some([a, b]) = self.shifts((&clear, more_mm), &turned) {
                    return Some([(first, a), (second, b)]);
                }
            }
        }
        None
    }

    fn shifts(
        &self,
        (clear, more_mm): (&[Vec<GridPoint>], f64),
        turned: &[GridOutline; 2],
    ) -> Option<[GridPoint; 2]> {
        let own = [rooms(clear, &turned[0]), rooms(clear, &turned[1])];
        let between = self.clearance.total().millimetres() + more_mm - tolerance::FIT_MM;
        let steps = GridPoint::near(Point::new(between.max(0.0), 0.0)).x;
        let apart = nofit::no_fit(&turned[0].grown(steps), &turned[1]);
        for room in &own[0] {
            for other in &own[1] {
                let outline =
                    |room: &nofit::Region| GridOutline::new(room.rings().first()?.clone(), Vec::new()).ok();
                let (Some(first), Some(second)) = (outline(room), outline(other)) else { continue };
                let shifts = nofit::no_fit(&second, &first);
                let free = shifts.without(std::iter::once((&apart, GridPoint::default())));
                let corners = free.rings().iter().flatten();
                let found = corners.filter_map(|&by| split(by, room, other)).next();
                if found.is_some() {
                    return found;
                }
            }
        }
        None
    }

    fn scene(&self, marks: [&str; 2], outlines: [&GridOutline; 2], pair: Pair) -> Scene {
        let mut scene =
            Scene::titled("both set in, from above").with(Role::Opening, self.space.corners.clone(), "space");
        for at in 0..2 {
            let placed = outlines[at].turned(pair[at].0).shifted(pair[at].1);
            let corners = placed.outer().iter().map(|p| p.millimetres()).collect();
            scene = scene.with(Role::Part, corners, marks[at]);
        }
        scene
    }
}

/// Where an outline lies in what is clear, piece by piece.
fn rooms(clear: &[Vec<GridPoint>], outline: &GridOutline) -> Vec<nofit::Region> {
    clear.iter().flat_map(|ring| rooms_in(ring, outline)).collect()
}

/// A place of the first part and one of the second that differ by a shift: what lies in both the second's places and
/// the first's moved by it.
fn split(by: GridPoint, first: &nofit::Region, second: &nofit::Region) -> Option<[GridPoint; 2]> {
    let shared = second.meeting(&first.shifted(by));
    let corner = shared.rings().iter().flatten().copied().next();
    // Two sets that only touch share no area; then a corner of one lies on the other.
    let moved = first.shifted(by);
    let touching = || {
        let own = second.rings().iter().flatten().copied().find(|&p| moved.place(p) != Place::Outside);
        own.or_else(|| moved.rings().iter().flatten().copied().find(|&p| second.place(p) != Place::Outside))
    };
    corner.or_else(touching).map(|place| [place - by, place])
}
