//! What stands in the way of one bend: every face of the partly folded part swept past every body of the machine.

use std::collections::BTreeMap;

use geometry::{Frame, Point, Point3, tolerance};

use super::bench::Bench;
use super::bodies::{Body, Rides};
use super::convex::{Convex, Slab};
use super::itself::Extent;
use super::look::Look;
use super::metal::{self, Metal};
use super::motion::{Motion, Placed};
use super::routes::Routes;
use super::stop::Rear;

/// Metal that meets a body only while it is overbent, and by less than this share of the thickness, is sprung past by
/// hand (common practice, no source).
const SPRUNG_SHARE: f64 = 0.5;

/// A stretch of the bend along which a face would run into tooling.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Blocked {
    /// From where to where along the bend, mm.
    pub(super) stretch_mm: (f64, f64),
    /// The tooling.
    pub(super) body: &'static str,
    /// False when only its assumed size is in the way.
    pub(super) given: bool,
}

/// What one face meets.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Met {
    /// A body of given size that runs the machine's whole length: no stroke.
    pub(super) whole: Option<&'static str>,
    /// Bodies that run the machine's whole length, whose assumed size is in the way.
    pub(super) assumed: Vec<&'static str>,
    /// It was not looked at further once an assumed body was met.
    partial: bool,
    /// Stretches where sections may not stand, nor the leaf reach.
    pub(super) sections: Vec<Blocked>,
    /// Bodies that it is sprung past by hand, and where along the bend.
    pub(super) sprung: Vec<Blocked>,
    /// Stretches in which it lies flat across the line of the bend run on: a press would crease it there.
    pub(super) crossed: Vec<(f64, f64)>,
    /// Where its rear edge lies before the stroke, for the back stop.
    pub(super) rear: Rear,
    /// Where it lies about the bend, before the stroke.
    pub(super) extent: Extent,
    /// How high it stands over the die when the part is put in and when, bent and lifted out of the V, it is drawn out as
    /// it stands, whichever is more, mm.
    pub(super) highest_mm: f64,
}

/// One bend in one position: which bend, and which of its sides lies at the back of the machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Position {
    /// The bend that leads the stroke.
    pub(super) bend: usize,
    /// Its parent face lies at the back.
    pub(super) parent_at_back: bool,
}

impl Position {
    /// A number of its own.
    pub(super) fn number(self) -> usize {
        self.bend * 2 + usize::from(self.parent_at_back)
    }
}

/// Remembers what was looked at: a face's place depends only on the bends between it and the stroke.
#[derive(Debug, Default)]
pub(super) struct Memory {
    /// By bend.
    sweeps: BTreeMap<usize, Sweep>,
    /// By position, face and side of the stroke, then by the bends made on the way.
    met: Vec<BTreeMap<u64, Met>>,
}

impl Memory {
    /// What `face` meets in a stroke. `made` are the bends already made on its way from the stroke. Where `one_is_enough`,
    /// it may be no more than the first that is met.
    pub(super) fn met(
        &mut self,
        (metal, routes, bench): (&Metal, &Routes, &Bench),
        position: Position,
        (face, made, at_front): (usize, u64, bool),
        one_is_enough: bool,
    ) -> &Met {
        let slot = (position.number() * metal.areas_mm2.len() + face) * 2 + usize::from(at_front);
        if self.met.len() <= slot {
            self.met.resize_with(slot + 1, BTreeMap::new);
        }
        let known = &mut self.met[slot];
        if !one_is_enough && known.get(&made).is_some_and(|met| met.partial) {
            known.remove(&made);
        }
        known.entry(made).or_insert_with(|| {
            let slabs = slabs_of(metal, routes, position, face, made);
            let bend = position.bend;
            let sweep = self.sweeps.entry(bend).or_insert_with(|| Sweep::of(metal, bench, bend));
            let (rear, extent) = (Rear::of(&slabs), Extent::of(&slabs));
            Met {
                crossed: sweep.crossed_by(&slabs),
                rear,
                extent,
                highest_mm: sweep.highest_mm(&slabs, at_front),
                ..sweep.meets(&slabs, at_front, one_is_enough)
            }
        })
    }
}

/// A convex piece of the part as it lies in the machine at the start of a stroke.
pub(super) struct LyingSlab {
    /// The face that it is of, or that hangs on it.
    pub(super) face: usize,
    /// It lies before the bend line.
    pub(super) at_front: bool,
    /// In the bend's coordinates.
    pub(super) slab: Slab,
}

/// The slabs of a face and of the bend zone by which it hangs on its way to the stroke, in the bend's coordinates.
pub(super) fn slabs_of(
    metal: &Metal,
    routes: &Routes,
    position: Position,
    face: usize,
    made: u64,
) -> Vec<Slab> {
    let line = &metal.lines[position.bend];
    let (mut slabs, frame) = frame_of(metal, routes, position, face, made);
    slabs.extend(metal.face_slabs(face, &frame));
    let place = |p: Point3| metal::at_bend(line, metal.thickness_mm, position.parent_at_back, p);
    slabs.iter().map(|slab| slab.placed(place)).collect()
}

/// Where a face lies in the flat's space, the faces at the bend lying flat, and the slabs of the bend zone by which it
/// hangs on its way to the stroke.
pub(super) fn frame_of(
    metal: &Metal,
    routes: &Routes,
    position: Position,
    face: usize,
    made: u64,
) -> (Vec<Slab>, Frame) {
    let mut frame = Frame::WORLD;
    let mut slabs = Vec::new();
    for step in routes.steps(position.bend, face) {
        let bend = &metal.lines[step.bend];
        let own = if step.outward { bend.clone() } else { bend.reversed() };
        let is_made = made >> step.bend & 1 == 1;
        slabs = metal.zone_slabs(&own, is_made, &frame);
        frame = metal.beyond(&frame, &own, is_made);
    }
    (slabs, frame)
}

/// One bend being swung past the bodies of the machine.
#[derive(Debug)]
pub(super) struct Sweep {
    motion: Motion,
    /// The turn that the bend keeps.
    turn_rad: f64,
    /// The turn that it is swung to, springback included.
    swung_rad: f64,
    /// How deep metal may lie in a body beyond the kept turn: it is sprung past by hand, mm.
    sprung_mm: f64,
    bodies: Vec<Body>,
}

impl Sweep {
    pub(super) fn of(metal: &Metal, bench: &Bench, bend: usize) -> Self {
        let motion = bench.motion(metal, bend);
        let line = &metal.lines[bend];
        Self {
            motion,
            turn_rad: line.kept_rad(),
            swung_rad: line.swung_rad(),
            sprung_mm: SPRUNG_SHARE * metal.thickness_mm,
            bodies: bench.bodies(&motion),
        }
    }

    /// What slabs on one side of the stroke meet while it is made.
    fn meets(&self, slabs: &[Slab], at_front: bool, one_is_enough: bool) -> Met {
        let mut met = Met::default();
        for slab in slabs {
            let view = slab.side_view();
            for body in &self.bodies {
                let Some(look) = self.look((slab, &view), body, at_front) else { continue };
                let met_assumed = met.assumed.contains(&body.name);
                let near_core = || met_assumed || met.sections.iter().any(|met| met.body == body.name);
                if (met_assumed && !body.given) || (body.core && !near_core()) {
                    continue;
                }
                if self.stay_together(body, at_front) {
                    look.note(0.0, &mut met);
                } else {
                    // Either may be taken to turn past the other: the nearer to the bend moves less.
                    let reach_mm = view.farthest_mm().min(body.reach_mm()) + self.motion.spare_mm();
                    look.over((0.0, self.turn_rad), reach_mm, &mut met);
                    if self.turn_rad < self.swung_rad {
                        let look = Look { depth_mm: self.sprung_mm, ..look };
                        look.over((self.turn_rad, self.swung_rad), reach_mm, &mut met);
                        met.sprung.extend(look.sprung_past());
                    }
                }
                if met.whole.is_some() || (one_is_enough && !met.assumed.is_empty()) {
                    met.partial = met.whole.is_none();
                    return met;
                }
            }
        }
        met
    }

    /// Where along the bend slabs of one face lie flat across the line of a press brake's punch, on both its sides by more
    /// than the radius and thickness: by so much the plates of a corner reach past one another's bend lines, and dip into
    /// the V.
    fn crossed_by(&self, slabs: &[Slab]) -> Vec<(f64, f64)> {
        if self.motion.half_v_mm.is_none() {
            return Vec::new();
        }
        let crossing = |slab: &Slab| Crossing::of(slab).filter(|_| self.lies_flat(&slab.side_view()));
        let mut crossings: Vec<Crossing> = slabs.iter().filter_map(crossing).collect();
        crossings.sort_by(|a, b| a.along_mm.0.total_cmp(&b.along_mm.0));
        crossings.dedup_by(|next, known| known.takes_in(next));
        let least_mm = self.motion.radius_mm + self.motion.thickness_mm;
        let far = crossings.iter().filter(|crossing| least_mm < crossing.reach_mm());
        far.map(|crossing| crossing.along_mm).collect()
    }

    /// A slab and a body that may meet, as the parts of a look; `None` for those that rest on one another.
    pub(super) fn look<'a>(
        &'a self,
        (slab, view): (&'a Slab, &'a Convex),
        body: &'a Body,
        at_front: bool,
    ) -> Option<Look<'a>> {
        let rests = self.rests_on(view, body, at_front);
        (!rests).then_some(Look { sweep: self, slab, view, body, at_front, depth_mm: tolerance::REFOLD_MM })
    }

    /// True for metal on or above the sheet's lower side, on its own side of the bend, and the die or bed under it: both
    /// legs rest on the edges of the V at every turn, and what is clamped stays on the bed, so nothing that lies on
    /// them can come below.
    fn rests_on(&self, view: &Convex, body: &Body, at_front: bool) -> bool {
        let own_side = match self.motion.half_v_mm {
            Some(_) => view.0.iter().all(|p| (0.0 <= p.x) == at_front),
            None => !at_front,
        };
        let above = view.0.iter().all(|p| -tolerance::REFOLD_MM <= p.y);
        body.below_sheet && own_side && above
    }

    /// True when neither moves against the other.
    pub(super) fn stay_together(&self, body: &Body, at_front: bool) -> bool {
        match body.rides {
            Rides::Frame => !at_front && self.motion.half_v_mm.is_none(),
            Rides::Flange => at_front,
            Rides::Punch => false,
        }
    }

    /// The highest that slabs stand over the die, put in flat or drawn out bent.
    fn highest_mm(&self, slabs: &[Slab], at_front: bool) -> f64 {
        let bent = self.side(at_front, self.turn_rad);
        let in_v_mm = self.motion.half_v_mm.unwrap_or(0.0) * geometry::trig::tan(0.5 * self.turn_rad);
        let heights = slabs.iter().flat_map(Slab::corners).map(|p| p.y.max(bent.place(p.x, p.y).y + in_v_mm));
        heights.fold(f64::NEG_INFINITY, f64::max)
    }

    /// Where a side lies at a turn.
    pub(super) fn side(&self, at_front: bool, turn_rad: f64) -> Placed {
        if at_front { self.motion.front(turn_rad) } else { self.motion.back(turn_rad) }
    }

    /// How a body has moved at a turn.
    pub(super) fn place_of(&self, body: &Body, turn_rad: f64) -> Placed {
        match body.rides {
            Rides::Frame => Placed::STILL,
            Rides::Punch => Placed::shifted(self.motion.tip(turn_rad) - Point::default()),
            Rides::Flange => self.motion.front(turn_rad),
        }
    }

    /// Where a body lies at a turn.
    pub(super) fn body_at(&self, body: &Body, turn_rad: f64) -> Convex {
        let placed = self.place_of(body, turn_rad);
        Convex(body.figure.0.iter().map(|p| placed.place(p.x, p.y)).collect())
    }

    /// The bodies.
    pub(super) fn all_bodies(&self) -> &[Body] {
        &self.bodies
    }

    /// The turn it is swung to.
    pub(super) const fn swung_rad(&self) -> f64 {
        self.swung_rad
    }

    /// The turn that it keeps.
    pub(super) const fn kept_rad(&self) -> f64 {
        self.turn_rad
    }

    /// What the bend's own movement adds to the way of a point, per radian, mm.
    pub(super) fn spare_mm(&self) -> f64 {
        self.motion.spare_mm()
    }

    /// True for metal in the plane of the sheet.
    pub(super) fn lies_flat(&self, view: &Convex) -> bool {
        let slack = tolerance::REFOLD_MM;
        view.0.iter().all(|p| -slack <= p.y && p.y <= self.motion.thickness_mm + slack)
    }
}

/// Where flat metal lies across the line of a bend.
struct Crossing {
    /// From where to where, mm.
    along_mm: (f64, f64),
    /// How far it reaches behind and before the line, mm.
    reaches_mm: (f64, f64),
}

impl Crossing {
    /// Where one slab does; `None` where it lies on one side.
    fn of(slab: &Slab) -> Option<Self> {
        let reach = |way: f64| slab.low.iter().map(|p| way * p.x).fold(f64::NEG_INFINITY, f64::max);
        let reaches_mm = (reach(-1.0), reach(1.0));
        let next = slab.low.iter().cycle().skip(1);
        let crossings = slab.low.iter().zip(next).filter(|(a, b)| (a.x < 0.0) != (b.x < 0.0));
        let along = crossings.map(|(a, b)| a.toward(*b, a.x / (a.x - b.x)).z);
        let along_mm =
            along.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), z| (low.min(z), high.max(z)));
        let crossing = Self { along_mm, reaches_mm };
        (tolerance::REFOLD_MM < crossing.reach_mm() && along_mm.0 < along_mm.1).then_some(crossing)
    }

    /// How far it reaches on that side of the line where it reaches less, mm.
    const fn reach_mm(&self) -> f64 {
        self.reaches_mm.0.min(self.reaches_mm.1)
    }

    /// Takes in one that begins no sooner where the two touch: both are cut from one face. True when it was.
    fn takes_in(&mut self, next: &Self) -> bool {
        let touches = next.along_mm.0 <= self.along_mm.1 + tolerance::REFOLD_MM;
        if touches {
            self.along_mm.1 = self.along_mm.1.max(next.along_mm.1);
            let (own, other) = (self.reaches_mm, next.reaches_mm);
            self.reaches_mm = (own.0.max(other.0), own.1.max(other.1));
        }
        touches
    }
}
