//! What tooling would clear a press brake's size that is only assumed: a taller punch or die, a gooseneck.

use std::cell::OnceCell;

use geometry::{Point, polygon};
use stock::brake::PressBrake;
use units::{Length, LengthStyle, LengthUnit};

use super::bench::Bench;
use super::blocks::{LyingSlab, Memory, Position, Sweep};
use super::bodies;
use super::convex::Convex;
use super::itself::Pairs;
use super::search::Mode;
use super::stroke::{Stretch, Stroke, Trials};
use super::{Hindered, hindered};

/// Between two looks at a swing, radians: half a degree. A metre of metal moves 9 mm, of which less than a tenth of a
/// millimetre is not seen: the ends of the swing are looked at, and between them it moves on an arc.
const LOOK_RAD: f64 = std::f64::consts::PI / 360.0;

/// Tooling that would clear what an assumed size of a press brake stands in the way of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Needs {
    /// A punch of this height or taller over its tip, the ram no wider than assumed.
    PunchHeight(Length),
    /// A die of this height or taller, the bed no wider than assumed.
    DieHeight(Length),
    /// A gooseneck punch of the assumed relief.
    Gooseneck {
        /// Its throat is toward the hand; else it is set the other way round.
        toward_front: bool,
    },
    /// A punch whose end pieces reach under what stands in at both ends of the bend, high over it, and are shorter there: horned
    /// ones. A straight one that is as long as the bend would meet it, and be shut in by it.
    HornedPunch,
    /// No straight punch was found to clear it, nor a gooseneck of the assumed relief, set either way.
    OtherPunch,
}

/// Steps to which a size of tool or machine is rounded up, mm: a quarter inch, or 5 mm.
const TOOL_STEPS_MM: [f64; 2] = [6.35, 5.0];

/// A size of a tool or machine that must be `least` at the least, rounded up to what such sizes are given in.
#[must_use]
pub fn tool_size(least: Length, style: LengthStyle) -> Length {
    let metric = style.unit() == LengthUnit::Millimetre;
    let step = TOOL_STEPS_MM[usize::from(metric)];
    Length::from_millimetres((least.millimetres() / step).ceil() * step)
}

/// What stands in the way of a stroke, and what would clear it.
pub(super) fn of_stroke(
    trials: &Trials<'_>,
    stroke: &Stroke,
    held: (u64, &[usize]),
    slabs: &[LyingSlab],
) -> Vec<Hindered> {
    // What clears a body clears all faces of it: each is worked out once.
    let (punch, die, other) = (OnceCell::new(), OnceCell::new(), OnceCell::new());
    let mut list = hindered(trials, stroke);
    for one in list.iter_mut().filter(|one| one.assumed && trials.bench.is_press()) {
        one.needs = match one.body {
            bodies::RAM => {
                Some(Needs::PunchHeight(*punch.get_or_init(|| punch_height(trials, stroke, slabs))))
            }
            bodies::BED => Some(Needs::DieHeight(*die.get_or_init(|| die_height(trials, stroke, slabs)))),
            bodies::TALL_PUNCH if is_horned(stroke) => Some(Needs::HornedPunch),
            bodies::PUNCH | bodies::TALL_PUNCH => *other.get_or_init(|| gooseneck(trials, stroke, held)),
            _ => None,
        };
    }
    list
}

/// True where what stands in the way of a tall punch leaves the middle of the bend free for it, and shuts it in only at the
/// ends.
fn is_horned(stroke: &Stroke) -> bool {
    let (from, to) = stroke.stretch_mm;
    stroke.tooling.as_ref().is_some_and(|tooling| {
        let (low, high) = tooling.over((from, to));
        let middle = 0.5 * (from + to);
        low < middle && middle < high && tooling.clear_mm != (f64::NEG_INFINITY, f64::INFINITY)
    })
}

/// How far the ram must stand over the punch's tip to pass all metal that comes under it.
fn punch_height(trials: &Trials<'_>, stroke: &Stroke, slabs: &[LyingSlab]) -> Length {
    let half = 0.5 * PressBrake::assumed().ram_width.millimetres();
    let motion = trials.bench.motion(trials.metal, stroke.position.bend);
    let high = highest_mm(trials, stroke, slabs, |turn, p| p.y - motion.tip(turn).y, half);
    Length::from_millimetres(high)
}

/// How far the bed must stand under the top of the die.
fn die_height(trials: &Trials<'_>, stroke: &Stroke, slabs: &[LyingSlab]) -> Length {
    let half = 0.5 * PressBrake::assumed().bed_width.millimetres();
    Length::from_millimetres(highest_mm(trials, stroke, slabs, |_, p| -p.y, half))
}

/// The most that `measure` gives of the metal within `half_mm` of the middle, at any turn of the swing.
fn highest_mm(
    trials: &Trials<'_>,
    stroke: &Stroke,
    slabs: &[LyingSlab],
    measure: impl Fn(f64, Point) -> f64,
    half_mm: f64,
) -> f64 {
    let sweep = Sweep::of(trials.metal, trials.bench, stroke.position.bend);
    let mut most = 0.0_f64;
    for lying in slabs {
        let Convex(view) = lying.slab.side_view();
        for turn in turns(sweep.swung_rad()) {
            let side = sweep.side(lying.at_front, turn);
            let placed: Vec<Point> = view.iter().map(|p| side.place(p.x, p.y)).collect();
            let near = within(&placed, half_mm).into_iter().map(|p| measure(turn, p));
            most = near.fold(most, f64::max);
        }
    }
    most
}

/// Turns of a swing, both ends among them.
fn turns(swung_rad: f64) -> impl Iterator<Item = f64> {
    let steps = (swung_rad / LOOK_RAD).ceil().max(1.0);
    std::iter::successors(Some(0.0), |n| Some(n + 1.0))
        .take_while(move |n| *n <= steps)
        .map(move |n| swung_rad * n / steps)
}

/// The corners of what of a convex figure lies within `half_mm` of the middle.
fn within(figure: &[Point], half_mm: f64) -> Vec<Point> {
    let inside = |p: &Point| p.x.abs() <= half_mm;
    let mut corners: Vec<Point> = figure.iter().copied().filter(inside).collect();
    for (a, b) in polygon::edges(figure) {
        for x in [-half_mm, half_mm] {
            if (a.x - x) * (b.x - x) < 0.0 {
                corners.push(a.toward(b, (x - a.x) / (b.x - a.x)));
            }
        }
    }
    corners
}

/// Whether a gooseneck clears the stroke, set either way round.
fn gooseneck(trials: &Trials<'_>, stroke: &Stroke, (made, faces): (u64, &[usize])) -> Option<Needs> {
    let bench: Bench = trials.bench.with_gooseneck()?;
    let mut other = Trials {
        metal: trials.metal,
        routes: trials.routes,
        bench: &bench,
        memory: Memory::default(),
        pairs: Pairs::default(),
    };
    let bends: Vec<usize> = (0..trials.metal.lines.len()).collect();
    let group: Vec<Stretch> = trials
        .on_line_with(stroke.position.bend, made, &bends)
        .into_iter()
        .filter(|(bend, _)| stroke.bends.contains(bend))
        .collect();
    let clears = |parent_at_back: bool, other: &mut Trials<'_>| {
        let position = Position { parent_at_back, ..stroke.position };
        let tried = other.stroke(position, &group, made, (faces, Mode::PastAssumed));
        tried.is_ok_and(|stroke| stroke.hindrances.iter().all(|hindrance| !bodies::is_punch(hindrance.body)))
    };
    let own = stroke.position.parent_at_back;
    let clear = [(own, true), (!own, false)].into_iter().find(|(at_back, _)| clears(*at_back, &mut other));
    Some(clear.map_or(Needs::OtherPunch, |(_, toward_front)| Needs::Gooseneck { toward_front }))
}
