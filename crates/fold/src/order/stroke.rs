//! One stroke of the machine: the bends it makes at once, how the part lies, what stands in its way.

use geometry::{Frame, Point3, Vector, tolerance};

use super::bench::{Bench, Open, SHORT_BY_MM};
use super::blocks::{Memory, Position};
use super::bodies;
use super::itself::{Extent, Held, Pairs};
use super::metal::{self, Metal};
use super::room::{self, Tooling};
use super::routes::Routes;
use super::stop::{self, Rear};
use crate::part::Forming;

/// A stroke that can be made.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Stroke {
    /// How the part lies.
    pub(super) position: Position,
    /// The bends made, lowest number first.
    pub(super) bends: Vec<usize>,
    /// Their common stretch along the line of the leading bend, mm.
    pub(super) stretch_mm: (f64, f64),
    /// The tooling; `None` where the bend is not swung in one stroke.
    pub(super) tooling: Option<Tooling>,
    /// The face whose rear edge lies nearest to the stop, and that edge.
    pub(super) rear: Option<(usize, Rear)>,
    /// Direction in the flat from the back of the machine to its front.
    pub(super) heading: Vector,
    /// The larger side is on the wrong side: before a clamp, or behind a die.
    pub(super) awkward: bool,
}

/// Why a stroke cannot be made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Hindrance {
    /// The face that is in the way.
    pub(super) face: usize,
    /// What it meets.
    pub(super) body: &'static str,
    /// The other face of the part that it meets, where it meets no body of the machine.
    pub(super) other: Option<usize>,
}

/// Bends of radius above this many thicknesses are rolled, or bumped in many strikes, and not swung in one (common
/// practice, no source).
const ROLLED_IN_THICKNESSES: f64 = 12.0;

/// True for a bend that is swung in one stroke; false for one that is rolled, bumped, or set with joggle dies.
pub(super) fn is_swung(metal: &Metal, bend: usize) -> bool {
    let line = &metal.lines[bend];
    let plain = matches!(line.forming, Forming::Brake | Forming::Hem);
    plain && line.radius_mm <= ROLLED_IN_THICKNESSES * metal.thickness_mm
}

/// What the search asks the machine.
pub(super) struct Trials<'a> {
    /// The metal.
    pub(super) metal: &'a Metal,
    /// Ways through it.
    pub(super) routes: &'a Routes,
    /// The machine.
    pub(super) bench: &'a Bench,
    /// What was looked at before.
    pub(super) memory: Memory,
    /// Which faces run into one another.
    pub(super) pairs: Pairs,
}

/// A face as it lies in one stroke.
struct Lying {
    held: Held,
    at_front: bool,
    extent: Extent,
    highest_mm: f64,
}

impl Trials<'_> {
    /// The bends that a stroke over `lead` could make at once: those on its line, of its turn and direction.
    pub(super) fn on_line_with(&self, lead: usize, made: u64, among: &[usize]) -> Vec<(usize, (f64, f64))> {
        let own = (0.0, self.metal.lines[lead].from.distance(self.metal.lines[lead].to));
        let mut group = vec![(lead, own)];
        if let Forming::Joggle(other) = self.metal.lines[lead].forming {
            group.push((other, own));
        }
        for &other in among {
            if is_swung(self.metal, other) && other != lead && made >> other & 1 == 0 {
                group.extend(self.common_line(lead, other, made).map(|stretch| (other, stretch)));
            }
        }
        group.sort_by_key(|(bend, _)| *bend);
        group
    }

    /// Where `other` lies along the line of `lead`, if one stroke makes both.
    fn common_line(&self, lead: usize, other: usize, made: u64) -> Option<(f64, f64)> {
        let (own, line) = (&self.metal.lines[lead], &self.metal.lines[other]);
        let same = is_swung(self.metal, lead)
            && own.direction == line.direction
            && (own.turn_rad - line.turn_rad).abs() <= tolerance::PARALLEL_SINE
            && (own.radius_mm - line.radius_mm).abs() <= tolerance::SAME_POINT_MM;
        if !same || !self.routes.connected(lead, line.parent) {
            return None;
        }
        let outward = self.routes.bits(lead, line.parent) >> other & 1 == 0;
        let near = if outward { line.parent } else { line.child };
        let mut frame = Frame::WORLD;
        for step in self.routes.steps(lead, near) {
            let bend = &self.metal.lines[step.bend];
            let walked = if step.outward { bend.clone() } else { bend.reversed() };
            frame = self.metal.beyond(&frame, &walked, made >> step.bend & 1 == 1);
        }
        let away = frame.direct(if outward { line.across() } else { -line.across() });
        let across = own.across();
        let by_parent = self.routes.by_parent(lead, near);
        let toward = (away.x * across.x + away.y * across.y) * if by_parent { 1.0 } else { -1.0 };
        let at = |p| metal::at_bend(own, self.metal.thickness_mm, true, frame.place(p, 0.0));
        let level = metal::at_bend(own, self.metal.thickness_mm, true, Point3::default()).y;
        let (from, to) = (at(line.from), at(line.to));
        let on_line =
            |p: Point3| p.x.abs() <= tolerance::REFOLD_MM && (p.y - level).abs() <= tolerance::REFOLD_MM;
        (on_line(from) && on_line(to) && 0.0 < toward && 0.0 < frame.z.z)
            .then_some((from.z.min(to.z), from.z.max(to.z)))
    }

    /// Tries a stroke over the bends of `group` on the part with the bends `made`, among the faces `faces`.
    pub(super) fn stroke(
        &mut self,
        position: Position,
        group: &[(usize, (f64, f64))],
        made: u64,
        faces: &[usize],
    ) -> Result<Stroke, Hindrance> {
        let lead = position.bend;
        let across = self.metal.lines[lead].across();
        let heading = if position.parent_at_back { across } else { -across };
        let bits = group.iter().fold(0, |bits, (bend, _)| bits | 1 << bend);
        let stretch_mm = group.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), (_, own)| {
            (low.min(own.0), high.max(own.1))
        });
        let bends: Vec<usize> = group.iter().map(|(bend, _)| *bend).collect();
        let mut stroke =
            Stroke { position, bends, stretch_mm, tooling: None, rear: None, heading, awkward: false };
        if !is_swung(self.metal, lead) {
            return Ok(stroke);
        }
        let (mut blocked, mut rears, mut lying) = (Vec::new(), Vec::new(), Vec::new());
        let mut areas = [0.0, 0.0];
        for &face in faces {
            let (at_front, on_way) = self.lies(position, bits, made, face);
            let know = (self.metal, self.routes, self.bench);
            let met = self.memory.met(know, position, (face, on_way, at_front));
            if let Some(body) = met.whole {
                return Err(Hindrance { face, body, other: None });
            }
            let held = Held { face, made: on_way };
            lying.push(Lying { held, at_front, extent: met.extent, highest_mm: met.highest_mm });
            blocked.extend(met.sections.iter().map(|blocked| (blocked.stretch_mm, face, blocked.body)));
            if !at_front {
                rears.push((face, met.rear));
            }
            areas[usize::from(at_front)] += self.metal.areas_mm2[face];
        }
        let stretches: Vec<(f64, f64)> = blocked.iter().map(|(stretch, ..)| *stretch).collect();
        let tooling = room::tooling(stretch_mm, &stretches, self.bench.sections(), SHORT_BY_MM);
        if tooling.is_none() {
            return Err(most_in_the_way(&blocked, stretch_mm));
        }
        if let Some(hindrance) = self.against_itself(position, bits, &lying) {
            return Err(hindrance);
        }
        let shut_in = punch_is_shut_in(&blocked, stretch_mm);
        if let Some(hindrance) = self.under_the_ram(shut_in, &lying) {
            return Err(hindrance);
        }
        stroke.tooling = tooling;
        stroke.rear = stop::rearmost(&rears);
        let heavy_at_back = areas[1] < areas[0];
        stroke.awkward = heavy_at_back == self.bench.is_press();
        Ok(stroke)
    }

    /// Faces on the two sides of the bend that run into one another while it is swung. Those that the bends of the
    /// stroke join are left out: they only turn about their own bend.
    fn against_itself(&mut self, position: Position, bits: u64, lying: &[Lying]) -> Option<Hindrance> {
        let motion = self.bench.motion(self.metal, position.bend);
        let joined = |front: usize, back: usize| {
            let lines = self.metal.lines.iter().enumerate().filter(|(bend, _)| bits >> bend & 1 == 1);
            lines.into_iter().any(|(_, line)| {
                [(line.parent, line.child), (line.child, line.parent)].contains(&(front, back))
            })
        };
        for front in lying.iter().filter(|lying| lying.at_front) {
            for back in lying.iter().filter(|lying| !lying.at_front) {
                let near = front.extent.may_meet(&back.extent, motion.spare_mm());
                if !near || joined(front.held.face, back.held.face) {
                    continue;
                }
                let pair = (front.held, back.held);
                if self.pairs.meet((self.metal, self.routes), (position, &motion), pair) {
                    let (face, other) = (front.held.face, Some(back.held.face));
                    return Some(Hindrance { face, body: "the part itself", other });
                }
            }
        }
        None
    }

    /// On a press brake of known open height: the tools go in with the sheet between them, and where metal on both sides
    /// shuts the punch in, what stands behind the bend passes under its tip when the part is put in flat and drawn
    /// out bent, as it stands, to the front. A part that is open at one end is slid off the punch there.
    fn under_the_ram(&self, shut_in: Option<(f64, f64)>, lying: &[Lying]) -> Option<Hindrance> {
        let Open { between_tools_mm } = self.bench.open()?;
        let behind = lying.iter().filter(|lying| !lying.at_front);
        let passes = |lying: &&Lying| shut_in.is_none_or(|stretch| lying.extent.reaches(stretch));
        let highest = behind.filter(passes).max_by(|a, b| a.highest_mm.total_cmp(&b.highest_mm))?;
        let (needed_mm, body) = match shut_in {
            Some(_) => (highest.highest_mm, "the punch with the ram at the top"),
            None => (self.metal.thickness_mm, "the tools, which fill the open height"),
        };
        (between_tools_mm < needed_mm).then_some(Hindrance { face: highest.held.face, body, other: None })
    }

    /// Whether a face lies before the bend line in this stroke, and which made bends are on its way there.
    pub(super) fn lies(&self, position: Position, stroke_bits: u64, made: u64, face: usize) -> (bool, u64) {
        let way = self.routes.bits(position.bend, face);
        let crossed = (way & stroke_bits).count_ones() % 2 == 1;
        let by_parent = self.routes.by_parent(position.bend, face) != crossed;
        (by_parent != position.parent_at_back, way & made & !stroke_bits)
    }
}

/// The stretch in which metal on both sides shuts the punch in; `None` where it is open at one end.
fn punch_is_shut_in(blocked: &[((f64, f64), usize, &'static str)], bend: (f64, f64)) -> Option<(f64, f64)> {
    let middle = 0.5 * (bend.0 + bend.1);
    let of_punch =
        || blocked.iter().filter(|(_, _, body)| *body == bodies::PUNCH).map(|(stretch, ..)| *stretch);
    let before = of_punch().map(|stretch| stretch.1).filter(|end| *end <= middle).max_by(f64::total_cmp)?;
    let after =
        of_punch().map(|stretch| stretch.0).filter(|start| middle <= *start).min_by(f64::total_cmp)?;
    Some((before, after))
}

/// The face that takes most of the bend's length from the tooling.
fn most_in_the_way(blocked: &[((f64, f64), usize, &'static str)], bend: (f64, f64)) -> Hindrance {
    let taken = |(low, high): (f64, f64)| bend.1.min(high) - bend.0.max(low);
    let most = blocked.iter().max_by(|a, b| taken(a.0).total_cmp(&taken(b.0)));
    let none = Hindrance { face: 0, body: "sections of any sum that fits", other: None };
    most.map_or(none, |(_, face, body)| Hindrance { face: *face, body, other: None })
}
