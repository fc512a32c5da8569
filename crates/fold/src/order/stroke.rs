//! One stroke of the machine: the bends it makes at once, how the part lies, what stands in its way.

use geometry::{Frame, Point3, Vector, tolerance};

use super::bench::{Bench, Open};
use super::blocks::{self, LyingSlab, Memory, Position};
use super::bodies;
use super::itself::{Extent, Held, Pairs};
use super::metal::{self, Metal};
use super::room::Tooling;
use super::routes::Routes;
use super::search::Mode;
use super::stop::{self, Rear};
use super::taken::{Taken, flat_beside, flat_between, punch_is_shut_in};
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
    /// That edge lies square against the stop.
    pub(super) square: bool,
    /// Direction in the flat from the back of the machine to its front.
    pub(super) heading: Vector,
    /// The larger side is on the wrong side: before a clamp, or behind a die.
    pub(super) awkward: bool,
    /// Share of the part's area, 0 to 1, that is swung on the leaf of a folder, or lies behind the die of a press.
    pub(super) away_share: f64,
    /// How many bends farther out on the smaller side are still to be made.
    pub(super) outer_left: usize,
    /// It cannot be pressed past the punch's own angle, so it is bottomed and not overbent.
    pub(super) bottomed: bool,
    /// It is made at the end of the leaf, and this face hangs past that.
    pub(super) past_leaf: Option<usize>,
    /// Metal is sprung past the machine by hand while it is overbent.
    pub(super) sprung: bool,
    /// No stroke of the machine: the last strikes of a round, drawn closed by hand.
    pub(super) by_hand: bool,
    /// What is in the way: empty for a stroke that can be made.
    pub(super) hindrances: Vec<Hindrance>,
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
    /// Only an assumed size of the machine is in the way.
    pub(super) assumed: bool,
    /// The face still lies in the plane of the sheet, beside the bend.
    pub(super) flat: bool,
}

impl Hindrance {
    /// One that is not assumed, of a face that no longer lies flat beside the bend.
    pub(super) const fn of(face: usize, body: &'static str) -> Self {
        Self { face, body, other: None, assumed: false, flat: false }
    }
}

/// What is in the way where the punch does not go into the bend.
pub(super) const BLUNT: &str = "the punch, which is too blunt";

/// What is in the way where the part is shut in by the punch and cannot be drawn out.
pub(super) const PUNCH_SHUT_IN: &str = "the punch with the ram at the top";

/// What is in the way where no sheet goes between the tools.
pub(super) const TOOLS_FILL_IT: &str = "the tools, which fill the open height";

/// Bends of radius above this many thicknesses are rolled, or bumped in many strikes, and not swung in one (common
/// practice, no source).
const ROLLED_IN_THICKNESSES: f64 = 12.0;

/// True for a bend that is swung in one stroke, as every strike of a bumped face is; false for one that is rolled, or set with
/// joggle dies.
pub(super) fn is_swung(metal: &Metal, bend: usize) -> bool {
    let line = &metal.lines[bend];
    let plain = matches!(line.forming, Forming::Brake | Forming::Hem | Forming::Bumped(1));
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

/// A bend of a stroke and where it lies along the line of the leading one, mm.
pub(super) type Stretch = (usize, (f64, f64));

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

    /// Tries a stroke over the bends of `group` on the part with the bends `made`, among the faces `faces`. What stands
    /// in its way and the mode allows is listed in it.
    ///
    /// # Errors
    /// The first thing in the way that the mode does not allow.
    pub(super) fn stroke(
        &mut self,
        position: Position,
        group: &[Stretch],
        made: u64,
        (faces, mode): (&[usize], Mode),
    ) -> Result<Stroke, Hindrance> {
        let mut stroke = self.laid_in(position, group);
        if !is_swung(self.metal, position.bend) {
            return Ok(stroke);
        }
        let bits = stroke.bits();
        let blunt = self.blunt(position);
        stroke.bottomed = blunt == Some(false);
        if blunt == Some(true) {
            stroke.meets(self.too_blunt(position), mode)?;
        }
        let (mut blocked, mut rears, mut lying) = (Vec::new(), Vec::new(), Vec::new());
        let (mut crossed, mut sprung) = (Vec::new(), Vec::new());
        let mut areas = [0.0, 0.0];
        for &face in faces {
            let (at_front, on_way) = self.lies(position, bits, made, face);
            let is_leg = self.routes.bits(position.bend, face) & !bits == 0;
            let flat = on_way == 0 && !is_leg;
            let know = (self.metal, self.routes, self.bench);
            let place = (face, on_way, at_front);
            let met = self.memory.met(know, position, place, mode == Mode::Clear);
            let whole = met.whole.iter().map(|body| (*body, false));
            for (body, assumed) in whole.chain(met.assumed.iter().map(|body| (*body, true))) {
                stroke.meets(Hindrance { assumed, flat, ..Hindrance::of(face, body) }, mode)?;
            }
            let held = Held { face, made: on_way };
            lying.push(Lying { held, at_front, extent: met.extent, highest_mm: met.highest_mm });
            let met_sections = met.sections.iter().filter(|met| {
                // A punch as blunt as the bend lies against both its legs.
                !(is_leg && blunt.is_some() && met.body == bodies::PUNCH)
            });
            sprung.extend(met.sprung.iter().map(|met| met.stretch_mm));
            blocked.extend(met_sections.map(|met| Taken { met: *met, face, flat }));
            if flat_between(&met.crossed, group) {
                // Each bend is tried by itself then, whatever the mode lets pass.
                return Err(Hindrance { flat: true, ..Hindrance::of(face, bodies::PUNCH) });
            }
            crossed.extend(flat_beside(&met.crossed, face, stroke.stretch_mm));
            if !at_front {
                rears.push((face, met.rear));
            }
            areas[usize::from(at_front)] += self.metal.areas_mm2[face];
        }
        crossed.extend(self.unmade_beside(position.bend, made | bits, (group, stroke.stretch_mm))?);
        let blocked = self.equip(&mut stroke, (&blocked, &crossed), mode)?;
        stroke.sprung = sprung.iter().any(|stretch| {
            stroke.tooling.as_ref().is_some_and(|tooling| tooling.stands_in(*stretch, stroke.stretch_mm))
        });
        if let Some(hindrance) = self.against_itself(position, bits, &lying) {
            stroke.meets(hindrance, mode)?;
        }
        let shut_in = punch_is_shut_in(&blocked, stroke.stretch_mm);
        if let Some(hindrance) = self.under_the_ram(shut_in, &lying) {
            stroke.meets(hindrance, mode)?;
        }
        self.set_stop(&mut stroke, &rears);
        let heavy_at_back = areas[1] < areas[0];
        stroke.awkward = heavy_at_back == self.bench.is_press();
        let away = usize::from(!self.bench.is_press());
        stroke.away_share = areas[away] / (areas[0] + areas[1]);
        stroke.outer_left = self.outer_left(position, made | bits, !heavy_at_back);
        Ok(stroke)
    }

    /// The back stop of a stroke.
    fn set_stop(&self, stroke: &mut Stroke, rears: &[(usize, Rear)]) {
        stroke.rear = stop::rearmost(rears);
        let bend_mm = stroke.stretch_mm.1 - stroke.stretch_mm.0;
        let reach_mm = self.bench.stop_reach_mm();
        stroke.square = stroke.rear.is_some_and(|(_, rear)| rear.is_square(bend_mm, reach_mm));
    }

    /// How many bends that are not `made` lie wholly at the back, or at the front.
    fn outer_left(&self, position: Position, made: u64, at_back: bool) -> usize {
        let left = self.metal.lines.iter().enumerate().filter(|(bend, line)| {
            let own = made >> bend & 1 == 0 && self.routes.connected(position.bend, line.parent);
            own && (self.routes.by_parent(position.bend, line.parent) == position.parent_at_back) == at_back
        });
        left.count()
    }

    /// The strikes of a round that are left to the end, drawn closed by hand: the part lies as for the middle one of them.
    pub(super) fn closed_by_hand(&self, strikes: &[usize]) -> Stroke {
        let middle = strikes[strikes.len() / 2];
        let line = &self.metal.lines[middle];
        let position = Position { bend: middle, parent_at_back: true };
        let own = (middle, (0.0, line.from.distance(line.to)));
        let mut bends = strikes.to_vec();
        bends.sort_unstable();
        Stroke { bends, by_hand: true, ..self.laid_in(position, &[own]) }
    }

    /// A stroke of which nothing has been tried yet.
    fn laid_in(&self, position: Position, group: &[Stretch]) -> Stroke {
        let across = self.metal.lines[position.bend].across();
        let stretch_mm = group.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), (_, own)| {
            (low.min(own.0), high.max(own.1))
        });
        Stroke {
            position,
            bends: group.iter().map(|(bend, _)| *bend).collect(),
            stretch_mm,
            tooling: None,
            rear: None,
            square: false,
            heading: if position.parent_at_back { across } else { -across },
            awkward: false,
            away_share: 0.0,
            outer_left: 0,
            bottomed: false,
            past_leaf: None,
            sprung: false,
            by_hand: false,
            hindrances: Vec::new(),
        }
    }

    fn too_blunt(&self, position: Position) -> Hindrance {
        let line = &self.metal.lines[position.bend];
        let face = if position.parent_at_back { line.child } else { line.parent };
        Hindrance::of(face, BLUNT)
    }

    /// True where the bend is sharper than the punch, false where it is so only while overbent, else `None`.
    fn blunt(&self, position: Position) -> Option<bool> {
        let punch_rad = self.bench.punch_angle_rad()?;
        let line = &self.metal.lines[position.bend];
        let slack = tolerance::PARALLEL_SINE;
        let opening = |turn: f64| std::f64::consts::PI - turn + slack;
        if opening(line.kept_rad()) < punch_rad {
            Some(true)
        } else {
            (opening(line.swung_rad()) < punch_rad).then_some(false)
        }
    }

    /// Whether bends of a stroke join two faces.
    pub(super) fn are_joined(&self, bits: u64, (front, back): (usize, usize)) -> bool {
        let lines = self.metal.lines.iter().enumerate().filter(|(bend, _)| bits >> bend & 1 == 1);
        lines
            .into_iter()
            .any(|(_, line)| [(line.parent, line.child), (line.child, line.parent)].contains(&(front, back)))
    }

    /// Faces on the two sides of the bend that run into one another while it is swung. Those that the bends of the
    /// stroke join are left out: they only turn about their own bend.
    fn against_itself(&mut self, position: Position, bits: u64, lying: &[Lying]) -> Option<Hindrance> {
        let motion = self.bench.motion(self.metal, position.bend);
        for front in lying.iter().filter(|lying| lying.at_front) {
            for back in lying.iter().filter(|lying| !lying.at_front) {
                let near = front.extent.may_meet(&back.extent, motion.spare_mm());
                if !near || self.are_joined(bits, (front.held.face, back.held.face)) {
                    continue;
                }
                let pair = (front.held, back.held);
                if self.pairs.meet((self.metal, self.routes), (position, &motion), pair) {
                    let met = Hindrance::of(front.held.face, "the part itself");
                    return Some(Hindrance { other: Some(back.held.face), ..met });
                }
            }
        }
        None
    }

    /// On a press brake of known open height: the tools go in with the sheet between them, and where metal on both sides
    /// shuts the punch in, what stands behind the bend passes under its tip when the part is put in flat and drawn
    /// out bent, as it stands, to the front. A part that is open at one end is slid off the punch there.
    fn under_the_ram(&self, shut_in: Option<(f64, f64)>, lying: &[Lying]) -> Option<Hindrance> {
        let Open { between_tools_mm, given } = self.bench.open()?;
        let behind = lying.iter().filter(|lying| !lying.at_front);
        let passes = |lying: &&Lying| shut_in.is_none_or(|stretch| lying.extent.reaches(stretch));
        let highest = behind.filter(passes).max_by(|a, b| a.highest_mm.total_cmp(&b.highest_mm))?;
        let (needed_mm, body) = match shut_in {
            Some(_) => (highest.highest_mm, PUNCH_SHUT_IN),
            None => (self.metal.thickness_mm, TOOLS_FILL_IT),
        };
        let met = Hindrance { assumed: !given, ..Hindrance::of(highest.held.face, body) };
        (between_tools_mm < needed_mm).then_some(met)
    }

    /// Whether a face lies before the bend line in this stroke, and which made bends are on its way there.
    pub(super) fn lies(&self, position: Position, stroke_bits: u64, made: u64, face: usize) -> (bool, u64) {
        let way = self.routes.bits(position.bend, face);
        let crossed = (way & stroke_bits).count_ones() % 2 == 1;
        let by_parent = self.routes.by_parent(position.bend, face) != crossed;
        (by_parent != position.parent_at_back, way & made & !stroke_bits)
    }

    /// The faces of a part with the bends `made`, as they lie in the machine before a stroke.
    pub(super) fn slabs(&self, stroke: &Stroke, made: u64, faces: &[usize]) -> Vec<LyingSlab> {
        let bits = stroke.bits();
        let slabs = |&face: &usize| {
            let (at_front, on_way) = self.lies(stroke.position, bits, made, face);
            let slabs = blocks::slabs_of(self.metal, self.routes, stroke.position, face, on_way);
            slabs.into_iter().map(move |slab| LyingSlab { face, at_front, slab })
        };
        faces.iter().flat_map(slabs).collect()
    }
}

impl Stroke {
    /// The bends made, as bits.
    pub(super) fn bits(&self) -> u64 {
        self.bends.iter().fold(0, |bits, bend| bits | 1 << bend)
    }

    /// Notes what is in the way, or gives it back as an error.
    pub(super) fn meets(&mut self, hindrance: Hindrance, mode: Mode) -> Result<(), Hindrance> {
        let allowed = if hindrance.assumed { Mode::PastAssumed } else { Mode::Listing };
        if mode < allowed {
            return Err(hindrance);
        }
        // Of one body one face is enough: the others hang on it.
        let known = |known: &Hindrance| (known.body, known.other) == (hindrance.body, hindrance.other);
        if !self.hindrances.iter().any(known) {
            self.hindrances.push(hindrance);
        }
        Ok(())
    }
}
