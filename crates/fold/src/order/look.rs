//! One slab of the part against one body of the machine while a bend is swung: whether, when and where along the bend they meet.

use geometry::{Point3, tolerance};

use super::blocks::{Blocked, Met, Sweep};
use super::bodies::{self, Body};
use super::convex::{self, Convex, Slab};

/// Between two looks nothing may move farther than this, mm; a quarter of it is the most that can stay unseen.
const LOOK_MM: f64 = 2.0;

/// Looks at metal that still lies in the plane of the sheet, at most this far apart, radians: it only rises.
const FLAT_LOOK_RAD: f64 = std::f64::consts::PI / 60.0;

/// One slab against one body.
#[derive(Debug, Clone, Copy)]
pub(super) struct Look<'a> {
    pub(super) sweep: &'a Sweep,
    pub(super) slab: &'a Slab,
    pub(super) view: &'a Convex,
    pub(super) body: &'a Body,
    pub(super) at_front: bool,
    /// Metal that lies less deep in the body does not meet it, mm.
    pub(super) depth_mm: f64,
}

impl Look<'_> {
    /// Where it lies in the body at the end of the swing, however little.
    pub(super) fn sprung_past(&self) -> Option<Blocked> {
        let turn_rad = self.sweep.swung_rad();
        if -tolerance::REFOLD_MM <= self.gap_mm(turn_rad) {
            return None;
        }
        let (slab, figure) = self.placed(turn_rad);
        let stretch_mm = slab.stretch_within(&figure, tolerance::REFOLD_MM)?;
        let along = if self.body.sections { stretch_mm } else { (f64::NEG_INFINITY, f64::INFINITY) };
        Some(Blocked { stretch_mm: along, body: self.body.name, given: self.body.given })
    }

    /// Looks at the turns between `span.0` and `span.1`, halving until nothing can be missed.
    pub(super) fn over(&self, span: (f64, f64), reach_mm: f64, met: &mut Met) {
        if self.nothing_new(met) {
            return;
        }
        let middle = 0.5 * (span.0 + span.1);
        let gap = self.gap_mm(middle);
        let swept = reach_mm * (span.1 - span.0);
        if 0.5 * swept <= gap || self.adds_nothing(middle, 0.5 * swept, met) {
            return;
        }
        if gap < -self.depth_mm {
            self.note(middle, met);
        }
        let flat = self.sweep.lies_flat(self.view);
        let last = if flat { span.1 - span.0 <= FLAT_LOOK_RAD } else { swept <= LOOK_MM };
        if last {
            self.note(span.1, met);
            return;
        }
        for half in [(span.0, middle), (middle, span.1)] {
            self.over(half, reach_mm, met);
        }
    }

    /// True when all of the slab is already known to lie in the way of this body.
    fn nothing_new(&self, met: &Met) -> bool {
        if met.whole.is_some() || (!self.body.given && met.assumed.contains(&self.body.name)) {
            return true;
        }
        let (low, high) = self.slab.along_mm();
        let slack = tolerance::REFOLD_MM;
        met.sections.iter().any(|known| {
            (known.body, known.given) == (self.body.name, self.body.given)
                && known.stretch_mm.0 <= low + slack
                && high - slack <= known.stretch_mm.1
        })
    }

    /// True when whatever lies in the body at turns that move nothing farther than `moved_mm` from where it lies at this turn is
    /// known already: it lies in the body grown by so much at this turn.
    fn adds_nothing(&self, turn_rad: f64, moved_mm: f64, met: &Met) -> bool {
        let Body { name: body, given, sections, .. } = *self.body;
        let known = || met.sections.iter().filter(|known| (known.body, known.given) == (body, given));
        if !(sections || body == bodies::LEAF) || known().next().is_none() {
            return false;
        }
        let (slab, figure) = self.placed(turn_rad);
        let Some((low, high)) = slab.stretch_within(&figure, self.depth_mm - moved_mm) else { return true };
        // What overlaps two that are known would widen the first of them.
        let mut near = known().filter(|known| low <= known.stretch_mm.1 && known.stretch_mm.0 <= high);
        let Some(Blocked { stretch_mm, .. }) = near.next() else { return false };
        stretch_mm.0 <= low && high <= stretch_mm.1 && near.next().is_none()
    }

    /// How far apart the side views stand at a turn at least, mm.
    pub(super) fn gap_mm(&self, turn_rad: f64) -> f64 {
        // The body is seen from the metal: two figures of a few corners, without moving either in memory.
        let (side, body) =
            (self.sweep.side(self.at_front, turn_rad), self.sweep.place_of(self.body, turn_rad));
        convex::placed_gap_mm((&self.view.0, side), (&self.body.figure.0, body))
    }

    /// Notes what lies in what at one turn.
    pub(super) fn note(&self, turn_rad: f64, met: &mut Met) {
        if -self.depth_mm <= self.gap_mm(turn_rad) {
            return;
        }
        let (slab, figure) = self.placed(turn_rad);
        let Body { name: body, given, .. } = *self.body;
        // Past the end of a leaf the part may hang.
        if self.body.sections || body == bodies::LEAF {
            if let Some(stretch_mm) = slab.stretch_within(&figure, self.depth_mm) {
                self.block(stretch_mm, met);
            }
        } else if slab.is_within(&figure, self.depth_mm) {
            if given {
                met.whole = Some(body);
            } else {
                met.assumed.push(body);
            }
        }
    }

    /// Slab and body where they lie at a turn.
    pub(super) fn placed(&self, turn_rad: f64) -> (Slab, Convex) {
        let side = self.sweep.side(self.at_front, turn_rad);
        let slab = self.slab.placed(|p| {
            let at = side.place(p.x, p.y);
            Point3::new(at.x, at.y, p.z)
        });
        (slab, self.sweep.body_at(self.body, turn_rad))
    }

    /// Notes a stretch where no sections of the body may stand.
    fn block(&self, stretch_mm: (f64, f64), met: &mut Met) {
        let Body { name: body, given, .. } = *self.body;
        let widen = met.sections.iter_mut().find(|blocked| {
            (blocked.body, blocked.given) == (body, given)
                && stretch_mm.0 <= blocked.stretch_mm.1
                && blocked.stretch_mm.0 <= stretch_mm.1
        });
        match widen {
            Some(blocked) => {
                let (low, high) = blocked.stretch_mm;
                blocked.stretch_mm = (low.min(stretch_mm.0), high.max(stretch_mm.1));
            }
            None => met.sections.push(Blocked { stretch_mm, body, given }),
        }
    }
}
