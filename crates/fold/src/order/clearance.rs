//! By how little the part passes the machine in one stroke.
//!
//! Metal that lies in the plane of the sheet touches the tools that bend it, and so does what rests on them when the part
//! is laid in; all else is looked at through the whole swing, overbent end included. The part against itself is left
//! out: seams are made to touch.

use units::Length;

use super::blocks::{LyingSlab, Sweep};
use super::bodies::{self, Body, Rides};
use super::convex::{Convex, Slab};
use super::look::Look;
use super::room::Tooling;
use super::stroke::{Stroke, Trials};
use geometry::tolerance;

/// Clearances of less than this are told, mm: 1/32 in (common practice, no source).
const LEAST_CLEARANCE_MM: f64 = 25.4 / 32.0;

/// Between two looks nothing moves farther than this, mm; a quarter of it is the most by which a clearance may be less, and the
/// end of the swing, where most are least, is looked at exactly.
const LOOK_MM: f64 = 0.8;

/// Halvings that tell a clearance to less than a hundredth of the limit.
const HALVINGS: usize = 7;

/// The least that metal passes the machine by.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Clearance {
    /// The face that passes.
    pub face: usize,
    /// What it passes: "the punch".
    pub body: &'static str,
    /// True where a figure of that body is not the shop's own but assumed.
    pub assumed: bool,
    /// By how much; zero where it must be sprung past while overbent.
    pub least: Length,
    /// It is that little only while the bend is overbent.
    pub overbent: bool,
}

/// The least clearance of a stroke on the part with the bends `made`, where it is less than [`LEAST_CLEARANCE_MM`].
pub(super) fn least(trials: &Trials<'_>, stroke: &Stroke, slabs: &[LyingSlab]) -> Option<Clearance> {
    let tooling = stroke.tooling.as_ref()?;
    let sweep = Sweep::of(trials.metal, trials.bench, stroke.position.bend);
    let pass = Pass { sweep: &sweep, stroke, tooling };
    let mut found: Option<Clearance> = None;
    for LyingSlab { face, at_front, slab } in slabs {
        let view = slab.side_view();
        for body in sweep.all_bodies().iter().filter(|body| !pass.is_hindered_by(body)) {
            let limit_mm = found.map_or(LEAST_CLEARANCE_MM, |found| found.least.millimetres());
            let closer = pass.closer((*face, *at_front), (slab, &view), body, limit_mm);
            found = closer.or(found);
        }
    }
    found
}

/// One stroke past the machine.
struct Pass<'a> {
    sweep: &'a Sweep,
    stroke: &'a Stroke,
    tooling: &'a Tooling,
}

impl Pass<'_> {
    /// True for a body whose assumed size is in the way: that is told already.
    fn is_hindered_by(&self, body: &Body) -> bool {
        body.name == bodies::HIGH_RAM
            || !body.given && self.stroke.hindrances.iter().any(|hindrance| hindrance.body == body.name)
    }

    /// By how little a slab of a face passes a body, where that is less than `limit_mm`.
    fn closer(
        &self,
        (face, at_front): (usize, bool),
        (slab, view): (&Slab, &Convex),
        body: &Body,
        limit_mm: f64,
    ) -> Option<Clearance> {
        let sweep = self.sweep;
        let own_mm = self.stroke.stretch_mm;
        let everywhere = (f64::NEG_INFINITY, f64::INFINITY);
        let stretch_mm = if body.sections { self.tooling.over(own_mm) } else { everywhere };
        let hangs_past = body.rides == Rides::Flange && self.stroke.past_leaf == Some(face);
        let beside = body.sections && !self.tooling.stands_in(slab.along_mm(), own_mm);
        if beside || hangs_past || (sweep.lies_flat(view) && body.is_tool()) {
            return None;
        }
        let look = sweep.look((slab, view), body, at_front)?;
        if look.gap_mm(0.0).abs() <= tolerance::REFOLD_MM && body.rides != Rides::Punch {
            return None;
        }
        let mut closest = Closest { look: &look, stretch_mm, least_mm: limit_mm, turn_rad: 0.0 };
        if sweep.stay_together(body, at_front) {
            closest.at(0.0);
        } else {
            let reach_mm = view.farthest_mm().min(body.reach_mm()) + sweep.spare_mm();
            closest.over((0.0, sweep.swung_rad()), reach_mm);
        }
        (closest.least_mm < limit_mm).then(|| Clearance {
            face,
            body: body.name,
            assumed: !body.given,
            least: Length::from_millimetres(closest.least_mm),
            overbent: sweep.kept_rad() < closest.turn_rad,
        })
    }
}

/// The closest that one slab comes to one body, as far as it is known.
struct Closest<'a> {
    look: &'a Look<'a>,
    /// Where along the bend the body stands.
    stretch_mm: (f64, f64),
    least_mm: f64,
    turn_rad: f64,
}

impl Closest<'_> {
    fn over(&mut self, span: (f64, f64), reach_mm: f64) {
        let mut spans = vec![span];
        while let Some((from, to)) = spans.pop() {
            let middle = 0.5 * (from + to);
            let swept = reach_mm * (to - from);
            if self.least_mm <= self.look.gap_mm(middle) - 0.5 * swept {
                continue;
            }
            if !self.meets(middle, self.least_mm + 0.5 * swept) {
                continue;
            }
            if swept <= LOOK_MM {
                [from, middle, to].into_iter().for_each(|turn| self.at(turn));
                continue;
            }
            spans.extend([(middle, to), (from, middle)]);
        }
    }

    /// True when the body, grown by so much, is met at a turn where it stands.
    fn meets(&self, turn_rad: f64, by_mm: f64) -> bool {
        let (slab, figure) = self.look.placed(turn_rad);
        let (from, to) = self.stretch_mm;
        slab.stretch_within(&figure, -by_mm).is_some_and(|(low, high)| low < to && from < high)
    }

    /// Halves what is known at a turn.
    fn at(&mut self, turn_rad: f64) {
        if self.least_mm <= self.look.gap_mm(turn_rad) || !self.meets(turn_rad, self.least_mm) {
            return;
        }
        let (mut clear, mut met) = (0.0, self.least_mm);
        for _ in 0..HALVINGS {
            let middle = 0.5 * (clear + met);
            if self.meets(turn_rad, middle) { met = middle } else { clear = middle }
        }
        (self.least_mm, self.turn_rad) = (clear, turn_rad);
    }
}
