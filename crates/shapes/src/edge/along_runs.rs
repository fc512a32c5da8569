//! Edges along a row of straight runs, as at a deck: each run's edge, or that of its flange, is bent by itself.

use fold::part::{Edge, FoldedPart};
use fold::{Direction, flat};
use geometry::{Plane, trig};

use super::attach::{self, FreeEdge, Stops};
use super::limits::{self, Half};
use super::{EdgeBend, EdgeEnd};
use crate::{Fact, Making, Problem};

/// The edge of one run.
#[derive(Debug, Clone)]
pub(crate) struct RunEdge {
    /// What it is the edge of: "flange outboard 0 to 15".
    pub(crate) name: String,
    /// Its face, and the edge of that.
    pub(crate) edge: (usize, usize),
    /// Which way the flange is bent; none for an edge of the plate itself.
    pub(crate) bent: Option<Direction>,
    /// What is done to it.
    pub(crate) end: EdgeEnd,
    /// The field it is asked for in: "edges.outboard".
    pub(crate) field: String,
    /// The upright outside plane of its own run, its normal outward.
    pub(crate) plane: Plane,
    /// What lies at its two ends.
    pub(crate) beside: [Beside; 2],
}

/// What lies at an end of a run's edge.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Beside {
    /// Another run with a treated edge: its outside plane, and whether the outline bulges there.
    Run(Plane, bool),
    /// The plate's own end, which its edge must not pass.
    End(Plane),
}

impl RunEdge {
    fn limits(&self, part: &FoldedPart, bend: &EdgeBend, making: &Making) -> Vec<Half> {
        let mut limits = Vec::new();
        for (end, beside) in self.beside.iter().enumerate() {
            match *beside {
                Beside::Run(plane, true) => limits.push(limits::halved([self.plane, plane], making)),
                Beside::Run(plane, false) if self.bent.is_none() => {
                    limits.push(limits::mirrored(self.plane, plane));
                }
                Beside::Run(plane, false) => {
                    limits.push(limits::halved([plane, self.plane], making));
                    limits.push(self.in_hollow(part, end, (plane, bend)));
                }
                Beside::End(plane) => limits.push(limits::clear_of(plane, 0.0)),
            }
        }
        limits
    }

    /// In a hollow of angle δ flanges are cut back as far as they lie clear of one another in the flat; what is bent off them lies
    /// h farther out there, and is cut back by h·tan(δ/2) more (plane geometry). The allowance of a bend is less than its turn
    /// times R + T.
    fn in_hollow(&self, part: &FoldedPart, end: usize, (other, bend): (Plane, &EdgeBend)) -> Half {
        let frame = part.frames()[self.edge.0];
        let (a, b) = part.faces[self.edge.0].edge(self.edge.1);
        let (at, far) = if end == 0 { (a, b) } else { (b, a) };
        let thickness_mm = part.thickness_mm();
        let straight_mm = (bend.leg_mm - bend.setback_mm(thickness_mm)).max(0.0);
        let height_mm = straight_mm + bend.turn_rad * (bend.radius_mm + thickness_mm);
        let half_rad = 0.5 * self.plane.normal.angle_to(other.normal);
        let inward = frame.direct((far - at).unit());
        let plane = Plane::through(frame.place(at, 0.0), inward).moved(height_mm * trig::tan(half_rad));
        Half { normal: plane.normal, offset_mm: plane.offset_mm, in_bend: true }
    }
}

/// Treats the edges of runs, the last of a face first; legs that run into one another stop short of their mitres.
///
/// # Errors
/// Every [`Problem`] of a single edge; else what runs into what however they stop, and by how much.
pub(crate) fn finish_runs(
    part: &mut FoldedPart,
    edges: &[RunEdge],
    making: &Making,
) -> Result<Vec<Fact>, Vec<Problem>> {
    let Some(first) = edges.first() else { return Ok(Vec::new()) };
    let mut met = None;
    for stops in [Stops::WithPlate, Stops::AtMitre] {
        let mut tried = part.clone();
        treat(&mut tried, edges, stops, making)?;
        match meets(&tried, making) {
            None => {
                *part = tried;
                return Ok(facts(edges, making));
            }
            wrong => met = wrong,
        }
    }
    let field = format!("{}.{}", first.field, first.end.word());
    Err(vec![Problem::new(field, "as given", met.unwrap_or_default(), super::WHERE_MET)])
}

/// What of a part lies in what, in words; `None` where nothing does.
fn meets(part: &FoldedPart, making: &Making) -> Option<String> {
    let flat = match flat::unfold(part) {
        Ok(flat) => flat,
        Err(error) => return Some(super::unfold_words(&error, making)),
    };
    super::met_words(part, &flat, making)
}

fn treat(
    part: &mut FoldedPart,
    edges: &[RunEdge],
    stops: Stops,
    making: &Making,
) -> Result<(), Vec<Problem>> {
    let mut problems: Vec<Problem> = Vec::new();
    // Corners that are put into an edge move the numbers of later ones.
    let mut order: Vec<&RunEdge> = edges.iter().collect();
    order.sort_by_key(|run| std::cmp::Reverse(run.edge));
    for run in order {
        let new = one(part, run, stops, making).err().unwrap_or_default();
        problems.extend(new.into_iter().filter(|new| !problems.contains(new)).collect::<Vec<_>>());
    }
    if problems.is_empty() { Ok(()) } else { Err(problems) }
}

fn one(part: &mut FoldedPart, run: &RunEdge, stops: Stops, making: &Making) -> Result<(), Vec<Problem>> {
    let Some(bend) = run.end.bend(making, &run.field)? else { return Ok(()) };
    let lost = |wrong: String, remedy: String| {
        vec![Problem::new(format!("{}.{}", run.field, run.end.word()), &run.name, wrong, remedy)]
    };
    let (face, edge) = run.edge;
    if run.bent.is_none() && matches!(run.end, EdgeEnd::Return { .. }) {
        let wrong = "a return on the edge of the plate itself is a flange".to_owned();
        return Err(lost(wrong, "write it as the flange of that side".to_owned()));
    }
    debug_assert_eq!(part.faces[face].edges[edge], Edge::Free, "only a cut edge is treated");
    let free = FreeEdge { face, edge, bent: run.bent };
    let direction: Direction = run.end.direction(run.bent, &run.field).map_err(|problem| vec![problem])?;
    let made: (&EdgeBend, Direction) = (&bend, direction);
    attach::room(part, &free, made, making).map_err(|(wrong, remedy)| lost(wrong, remedy))?;
    let name = format!("{} {}", run.end.word(), run.name);
    let limits = run.limits(part, &bend, making);
    attach::attach(part, &free, made, (name, &limits, stops)).ok_or_else(|| {
        lost(
            "nothing is left of it between its ends".to_owned(),
            "make it shorter, or leave a station out".to_owned(),
        )
    })
}

fn facts(edges: &[RunEdge], making: &Making) -> Vec<Fact> {
    let mut facts: Vec<Fact> = Vec::new();
    for run in edges {
        let what = run.field.rsplit('.').next().unwrap_or_default();
        let name = format!("edge, {what}");
        if facts.iter().all(|fact| fact.name != name) {
            facts.push(Fact::words(name, run.end.words(making), &run.field));
        }
    }
    facts
}
