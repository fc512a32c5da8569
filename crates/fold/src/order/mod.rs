//! Bend order: in which order, which way up and which way round the bends of a part can be made on a machine.
//!
//! For every set of bends already made the part is stood in the machine with the next bend on its line and swung in
//! side view. Every face, folded as far as it is, is a convex slab in space; each body of the machine is a convex
//! figure drawn out along the bend, over its whole length or over the sections that are set up. Where the two meet at
//! any turn the stroke is not made, or sections are left out there. Bends on one line are made in one stroke.
//!
//! Bends are always made upward: for a bend down the part is turned over.
//!
//! Faces on the two sides of the bend are tested against one another as well, as plates of real thickness.
//!
//! Every bend is swung to its turn in the die where that is given. What is met only beyond the turn that the bend keeps,
//! and by less than half the thickness, is sprung past by hand; the step's least clearance then tells of it.
//!
//! A size of the machine that the shop does not give is assumed. Where no order is clear of every body, the one that
//! meets the fewest assumed ones is taken, each told at its stroke; what every such machine has at least stays in the way.
//! Where that asks for a taller punch, the punch is looked at all the way up to the ram: rims turned in high over the ends of
//! the bend make it shorter than the walls that carry them.
//!
//! What it leaves out: cut-outs count as metal, hems are swung to 135° and then closed, and rolled and joggled bends are taken as made without a test. Every
//! strike of a bumped face is a bend, and all of one face follow one another (`rows.rs`). A joggle whose
//! slant is long enough for the V to hold is first tried as two bends of the brake, one after the other. Of the open height of a press it is asked that
//! the tools go in, and that a part which shuts the punch in goes in flat and comes out as it stands, to the front. [`find`] says an order is impossible only after trying every one.

mod bench;
mod blocks;
mod bodies;
mod clearance;
mod convex;
mod equip;
mod itself;
mod look;
mod metal;
mod motion;
mod needs;
mod other_tools;
mod picture;
mod room;
mod routes;
mod rows;
mod seams;
mod search;
mod stop;
mod stroke;
mod struck;
mod taken;
mod touching;

pub use stock::brake::ASSUMED_STOP_REACH;
use stock::brake::{Machine, shortest_flange_in_v};
use units::Length;

use crate::flat::FlatPattern;
use crate::part::{Direction, Forming, Side};
use bench::Bench;
use blocks::Memory;
pub use bodies::{BED, FINGER_BEAM, FINGERS, LEAF, PUNCH, RAM, SECTIONS, TALL_PUNCH, TALL_PUNCH_MM};
pub use clearance::Clearance;
use itself::Pairs;
use metal::Metal;
pub use needs::{Needs, tool_size};
pub use other_tools::{OtherTools, Tool, Tried, halved_sections};
pub use picture::SideView;
use routes::Routes;
pub use seams::Seams;
use search::{Ended, Mode, Wanted, search};
use stroke::{Hindrance, Stroke, Trials};
pub use struck::StrikeOf;
pub use touching::Touching;

/// Most bends of a part whose order is looked for.
pub const MOST_BENDS: usize = 63;

/// What the search found.
#[derive(Debug, Clone, PartialEq)]
pub enum Outcome {
    /// An order.
    Order(BendOrder),
    /// Every order was tried, and none can be made.
    Impossible(Box<Impossible>),
    /// Neither an order nor a proof that there is none: too many bends.
    Unsettled,
}

/// An order in which all bends can be made.
#[derive(Debug, Clone, PartialEq)]
pub struct BendOrder {
    /// The strokes.
    pub steps: Vec<Step>,
    /// How often the part is turned over.
    pub turn_overs: usize,
    /// How often it is turned round on the bench without turning it over, swings of a few degrees left out.
    pub turn_rounds: usize,
    /// How often stop or tooling is set, the first time included.
    pub settings: usize,
    /// How far behind the bend line the stop reaches, where the shop says; else [`ASSUMED_STOP_REACH`] was taken.
    pub stop_reach: Option<Length>,
    /// No other order meets fewer assumed sizes, or is easier on the hands. Of a piece with more than fourteen bends that is mostly not
    /// proved.
    pub is_best: bool,
}

impl BendOrder {
    /// What stands in the way by an assumed size, stroke by stroke; no order meets less where this is the best. Empty where all
    /// is clear.
    #[must_use]
    pub fn with_assumed(&self) -> Vec<Hindered> {
        self.steps.iter().flat_map(|step| step.with_assumed.iter().copied()).collect()
    }
}

/// One stroke.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// The bends made, by their numbers in the flat.
    pub bends: Vec<usize>,
    /// The side of the part that lies up.
    pub up: Side,
    /// The part is turned over before this stroke.
    pub turned_over: bool,
    /// The part is turned round before this stroke, by more than a few degrees.
    pub turned_round: bool,
    /// By how much it is turned round or swung before this stroke without turning it over, radians, 0 to π.
    pub turned_by_rad: f64,
    /// The face on the back side of the bend, which lies against the stop or under the clamp.
    pub back: usize,
    /// The face on the front side of the bend.
    pub front: usize,
    /// The stop, where an edge lies square against one; else the bend goes to its scribed line.
    pub stop: Option<Stop>,
    /// From end to end of the bends made.
    pub length: Length,
    /// How far the metal reaches behind the bend line and before it as it is laid in.
    pub reach: [Length; 2],
    /// Turn from flat, radians.
    pub turn_rad: f64,
    /// Turn that it is swung to in one stroke, from which it springs back or is pressed closed, radians.
    pub in_die_rad: f64,
    /// How it is made. What is not swung in one stroke, as rolled and joggled bends, is not tested against the machine.
    pub forming: Forming,
    /// The tooling; none where the bend is not swung in one stroke.
    pub tooling: Option<Tools>,
    /// No stroke of the machine: the last strikes of a round, which closes about the punch, are drawn closed by hand.
    pub by_hand: bool,
    /// The bend is swung to 135° and then closed flat.
    pub closed_after: bool,
    /// It is made at the end of a folder's leaf, and this face hangs past that.
    pub past_leaf: Option<usize>,
    /// The punch is too blunt to press it past its turn: it is bottomed in the die.
    pub bottomed: bool,
    /// What stands in its way by an assumed size.
    pub with_assumed: Vec<Hindered>,
    /// The least that metal passes the machine by, where that is less than 1/32 in.
    pub clearance: Option<Clearance>,
    /// Faces of the part that meet one another while it is swung, so little that a hand can spring or hold one aside.
    pub touching: Vec<Touching>,
    /// The part before the stroke.
    pub before: SideView,
    /// The part at its end.
    pub after: SideView,
}

impl Step {
    /// The faces that stand in over the ends of the bend, so that a punch as long as it must reach under them there.
    pub fn over_ends(&self) -> impl Iterator<Item = usize> + '_ {
        let ends = self.tooling.iter().flat_map(|tools| tools.punch.ends.iter().flatten());
        ends.filter(|end| end.past < Length::ZERO).map(|end| end.face)
    }
}

/// The back stop for one stroke.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stop {
    /// The face whose edge, or bent outside, lies against it.
    pub face: usize,
    /// From the bend line to the stop.
    pub distance: Length,
    /// How high over the top of the die it must touch, below zero under it; `None` where one level with the die touches.
    pub raised: Option<Length>,
    /// What touches is the free edge of a face that leans, and neither its outside nor a bend.
    pub at_free_edge: bool,
    /// How much metal lies against it, along the bend.
    pub bears: Length,
    /// What lies against it is so short beside the bend, or so far to one end of it, that the sheet can skew.
    pub skews: bool,
}

/// The sections of punch or fingers for one stroke.
#[derive(Debug, Clone, PartialEq)]
pub struct Tools {
    /// Widths, widest first; empty where the shop gives none.
    pub sections: Vec<Length>,
    /// Length in all.
    pub length: Length,
    /// How much shorter than the bend that is; zero where it is not.
    pub short_by: Length,
    /// Other faces leave so little room that sections must not stick out on both ends.
    pub confined: bool,
    /// What the punch, or fingers, must end before.
    pub punch: ToolEnds,
    /// What the die must end before; nothing on a folder.
    pub die: ToolEnds,
}

/// What is in the way past the ends of a bend: standing metal that a long tool would hit, or flat metal that it would
/// crease.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ToolEnds {
    /// At the one end and at the other; `None` where nothing is.
    pub ends: [Option<ToolEnd>; 2],
    /// Room between the two, where there is metal at both.
    pub room: Option<Length>,
}

/// Metal past one end of a bend.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ToolEnd {
    /// From the end of the bend to it, below zero where it reaches over the bend.
    pub past: Length,
    /// The face.
    pub face: usize,
    /// It still lies in the plane of the sheet.
    pub flat: bool,
}

/// Why no order can be made.
#[derive(Debug, Clone, PartialEq)]
pub struct Impossible {
    /// Everything that stands in the way, stroke by stroke, in the order that meets the least of it.
    pub hindered: Vec<Hindered>,
    /// Where the frame behind the throat is among it: what would be in the way with a deep throat, or with the part turned round
    /// before it.
    pub past_throat: Vec<Hindered>,
    /// Seams that would make it possible, each tried.
    pub seams: Seams,
    /// Other tools that would, each tried.
    pub tools: OtherTools,
}

/// What hinders one bend.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hindered {
    /// The bend.
    pub bend: usize,
    /// The face that is in the way.
    pub face: usize,
    /// What of the machine it meets: "the clamp bar".
    pub body: &'static str,
    /// The other face of the part that it runs into, where it is not the machine that is in the way.
    pub other: Option<usize>,
    /// Only an assumed size of the machine is in the way.
    pub assumed: bool,
    /// The face still lies flat beside the bend.
    pub flat: bool,
    /// The punch is too blunt for the bend, which opens to this angle in the die, radians.
    pub blunt_for_rad: Option<f64>,
    /// What would clear an assumed size of a press brake, where that was found.
    pub needs: Option<Needs>,
}

/// Looks for the order with the fewest turnings, or of many bends for one with few, in which the bends of `flat` can be made on `machine`. `v_opening` is
/// that of the die chosen on a press brake, and counts for nothing on a folder. `in_die_rad` are the turns that the
/// bends are pressed to, from which they spring back, by their numbers; a bend without one is swung to its own turn.
///
/// Every piece of a part in pieces is bent for itself, one after the other.
#[must_use]
pub fn find(flat: &FlatPattern, machine: &Machine, v_opening: Option<Length>, in_die_rad: &[f64]) -> Outcome {
    if MOST_BENDS < flat.bends.len() {
        return Outcome::Unsettled;
    }
    let metal = Metal::of(flat, in_die_rad);
    let in_two = v_opening.and_then(|v| metal.deep_joggles_in_two(shortest_flange_in_v(v).millimetres()));
    let in_two = in_two.map(|metal| find_in(&metal, flat.faces.len(), machine, v_opening));
    match in_two {
        Some(Outcome::Order(order)) if order.with_assumed().is_empty() => Outcome::Order(order),
        _ => find_in(&metal, flat.faces.len(), machine, v_opening),
    }
}

fn find_in(metal: &Metal, faces: usize, machine: &Machine, v_opening: Option<Length>) -> Outcome {
    let routes = Routes::of(&metal.lines, faces);
    let bench = Bench::of(machine, v_opening.map(Length::millimetres));
    let mut trials =
        Trials { metal, routes: &routes, bench: &bench, memory: Memory::default(), pairs: Pairs::default() };
    let mut steps = Vec::new();
    let mut is_best = true;
    for (bends, faces) in pieces(&routes, metal) {
        let piece: (&[usize], &[usize]) = (&bends, &faces);
        match past_the_least(&mut trials, piece, Wanted::Told) {
            Ended::Order(strokes) => add_steps(&trials, &strokes, &faces, &mut steps),
            Ended::Unproven(strokes) => {
                is_best = false;
                add_steps(&trials, &strokes, &faces, &mut steps);
            }
            Ended::GaveUp => return Outcome::Unsettled,
            Ended::Stuck(stuck) => {
                let hindered: Vec<Hindered> = match search(&mut trials, piece, (Mode::Listing, Wanted::Any)) {
                    Ended::Order(strokes) | Ended::Unproven(strokes) => {
                        strokes.iter().flat_map(|stroke| hindered(&trials, stroke)).collect()
                    }
                    // Too many sets to try for that: what hindered at the fullest of those that can be reached.
                    _ => stuck.iter().map(|(bend, hindrance)| named(&trials, *bend, hindrance)).collect(),
                };
                let seams = seams::of(&mut trials, piece);
                let v_opening_mm = v_opening.map(Length::millimetres);
                let (tools, past_throat) =
                    other_tools::of(&trials, (machine, v_opening_mm), piece, &hindered);
                let why = Impossible { hindered, past_throat, seams, tools };
                return Outcome::Impossible(Box::new(why));
            }
        }
    }
    let count = |of: fn(&Step) -> bool| steps.iter().filter(|step| of(step)).count();
    Outcome::Order(BendOrder {
        turn_overs: count(|step| step.turned_over),
        turn_rounds: count(|step| step.turned_round),
        settings: steps.len() - count_same_settings(&steps),
        stop_reach: machine.stop_reach(),
        is_best,
        steps,
    })
}

/// An order that meets nothing, else the one that meets the fewest assumed sizes; of a part with so many bends that no clear one
/// is found, one that meets few.
fn past_the_least(trials: &mut Trials<'_>, piece: (&[usize], &[usize]), wanted: Wanted) -> Ended {
    match search(trials, piece, (Mode::Clear, wanted)) {
        Ended::Stuck(_) | Ended::GaveUp => search(trials, piece, (Mode::PastAssumed, wanted)),
        ended => ended,
    }
}

/// What stands in the way of one stroke.
fn hindered(trials: &Trials<'_>, stroke: &Stroke) -> Vec<Hindered> {
    let told = stroke.hindrances.iter().filter(|hindrance| hindrance.body != bodies::HIGH_RAM);
    told.map(|hindrance| named(trials, stroke.position.bend, hindrance)).collect()
}

fn named(trials: &Trials<'_>, bend: usize, hindrance: &Hindrance) -> Hindered {
    let Hindrance { face, body, other, assumed, flat } = *hindrance;
    let opening_rad = std::f64::consts::PI - trials.metal.lines[bend].swung_rad();
    let blunt_for_rad = (body == stroke::BLUNT).then_some(opening_rad);
    Hindered { bend, face, body, other, assumed, flat, blunt_for_rad, needs: None }
}

/// Bends and faces of every piece that has bends. A bend that is sprung is no stroke: its faces stay one all through.
fn pieces(routes: &Routes, metal: &Metal) -> Vec<(Vec<usize>, Vec<usize>)> {
    let mut pieces: Vec<(Vec<usize>, Vec<usize>)> = Vec::new();
    let struck = |(_, line): &(usize, &metal::Line)| line.forming != Forming::Sprung;
    for (bend, line) in metal.lines.iter().enumerate().filter(struck) {
        match pieces.iter_mut().find(|(_, faces)| faces.contains(&line.parent)) {
            Some((bends, _)) => bends.push(bend),
            None => {
                let faces = (0..metal.areas_mm2.len()).filter(|&face| routes.connected(bend, face)).collect();
                pieces.push((vec![bend], faces));
            }
        }
    }
    pieces
}

fn add_steps(trials: &Trials<'_>, strokes: &[Stroke], faces: &[usize], steps: &mut Vec<Step>) {
    let mut made = 0_u64;
    let mut last: Option<&Stroke> = None;
    for stroke in strokes {
        let step = step(trials, stroke, last, made, faces);
        steps.push(step);
        made = stroke.bends.iter().fold(made, |made, bend| made | 1 << bend);
        last = Some(stroke);
    }
}

fn step(trials: &Trials<'_>, stroke: &Stroke, last: Option<&Stroke>, made: u64, faces: &[usize]) -> Step {
    let line = &trials.metal.lines[stroke.position.bend];
    let direction = |stroke: &Stroke| trials.metal.lines[stroke.position.bend].direction;
    let turned_over = !stroke.by_hand && last.is_some_and(|last| direction(last) != direction(stroke));
    let turned_by_rad = match last {
        Some(last) if !stroke.by_hand && !turned_over && !search::same_heading(last, stroke) => {
            search::angle_between(last.heading, stroke.heading)
        }
        _ => 0.0,
    };
    let (back, front) =
        if stroke.position.parent_at_back { (line.parent, line.child) } else { (line.child, line.parent) };
    let square = stroke.rear.filter(|_| stroke.square);
    let slabs = trials.slabs(stroke, made, faces);
    let [before, after] = if stroke.by_hand {
        picture::closing_views(trials, stroke, made, faces)
    } else {
        picture::side_views(trials, stroke, &slabs)
    };
    let (from, to) = stroke.stretch_mm;
    Step {
        bends: stroke.bends.clone(),
        up: if line.direction == Direction::Up { Side::Face } else { Side::Back },
        turned_over,
        turned_round: search::LEAST_TURN_RAD <= turned_by_rad,
        turned_by_rad,
        back,
        front,
        stop: square.map(|(face, rear)| Stop {
            face,
            distance: Length::from_millimetres(rear.back_mm),
            raised: rear.touch.raised_mm(trials.metal.thickness_mm).map(Length::from_millimetres),
            at_free_edge: rear.touch.is_edge(),
            bears: Length::from_millimetres(rear.bears_mm()),
            skews: rear.skews(stroke.stretch_mm),
        }),
        length: Length::from_millimetres(to - from),
        reach: before.reach_mm().map(Length::from_millimetres),
        turn_rad: line.turn_rad,
        in_die_rad: line.swung_rad(),
        forming: line.forming,
        tooling: stroke.tooling.as_ref().map(|tooling| tools(tooling, stroke.stretch_mm)),
        by_hand: stroke.by_hand,
        closed_after: line.is_closed_after(),
        past_leaf: stroke.past_leaf,
        bottomed: stroke.bottomed,
        with_assumed: needs::of_stroke(trials, stroke, (made, faces), &slabs),
        clearance: clearance::least(trials, stroke, &slabs),
        touching: touching::of_stroke(trials, stroke, made, faces),
        before,
        after,
    }
}

fn tools(tooling: &room::Tooling, stretch_mm: (f64, f64)) -> Tools {
    let length = Length::from_millimetres;
    Tools {
        sections: tooling.sections_mm.iter().map(|width| length(*width)).collect(),
        length: length(tooling.length_mm),
        short_by: length(tooling.short_of_mm(stretch_mm)),
        confined: tooling.is_confined(),
        punch: tool_ends(&tooling.punch, stretch_mm),
        die: tool_ends(&tooling.die, stretch_mm),
    }
}

fn tool_ends(ends: &[Option<room::End>; 2], (from, to): (f64, f64)) -> ToolEnds {
    let end = |end: &room::End, past_mm: f64| ToolEnd {
        past: Length::from_millimetres(past_mm),
        face: end.face,
        flat: end.flat,
    };
    let [before, after] = ends;
    let room = before.zip(*after).map(|(before, after)| after.at_mm - before.at_mm);
    ToolEnds {
        ends: [
            before.map(|before| end(&before, from - before.at_mm)),
            after.map(|after| end(&after, after.at_mm - to)),
        ],
        room: room.map(Length::from_millimetres),
    }
}

/// How many steps need neither stop nor sections set anew.
fn count_same_settings(steps: &[Step]) -> usize {
    let sections = |step: &Step| step.tooling.as_ref().map(|tools| tools.sections.clone());
    let stop = |step: &Step| step.stop.map(|stop| (stop.distance, stop.raised));
    let same = |pair: &&[Step]| stop(&pair[0]) == stop(&pair[1]) && sections(&pair[0]) == sections(&pair[1]);
    steps.windows(2).filter(same).count()
}
