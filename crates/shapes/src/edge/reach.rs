//! How far the metal of a treated edge reaches out past its plate: what must pass an opening, and what stands in one.

use std::f64::consts::FRAC_PI_2;

use geometry::trig;

use super::{EdgeBend, EdgeEnd, EdgeWay};
use crate::Making;

impl EdgeEnd {
    /// "hem", "return", "curl".
    pub(crate) const fn kind(&self) -> &'static str {
        self.word()
    }

    /// True where it is bent the way its plate is.
    pub(crate) fn is_turned_in(&self) -> bool {
        !self.is_plain() && !self.is_out()
    }

    fn is_out(&self) -> bool {
        self.way() == Some(EdgeWay::Out)
    }

    /// Its bend; none for a cut edge, and none where the edge cannot be bent at all, which is refused by itself.
    fn sound_bend(&self, making: &Making) -> Option<EdgeBend> {
        self.bend(making, "edge").ok().flatten()
    }

    /// How far the highest metal of the edge stands above the outside edge of its plate, mm, on a plate that leans from
    /// plumb toward its outside by `lean_rad` and was bent up: that edge is where the plate is cut, or where its outside
    /// ends at the bend. Zero where the edge cannot be bent at all.
    pub(crate) fn rise_mm(&self, lean_rad: f64, making: &Making) -> f64 {
        let thickness_mm = making.thickness_mm();
        match self.sound_bend(making) {
            None if self.is_plain() => thickness_mm * trig::sin(lean_rad).max(0.0),
            None => 0.0,
            Some(bend) if self.is_out() => {
                thickness_mm * trig::sin(lean_rad) + bend.farthest_mm(-lean_rad, thickness_mm)
            }
            Some(bend) => bend.farthest_mm(lean_rad, thickness_mm),
        }
    }

    /// How far the outermost metal of the edge stands, level, beyond the outside edge of its plate, mm, on a plate as in
    /// [`Self::rise_mm`]; zero where it stands within.
    pub(crate) fn beyond_wall_mm(&self, lean_rad: f64, making: &Making) -> f64 {
        let thickness_mm = making.thickness_mm();
        let Some(bend) = self.sound_bend(making) else { return 0.0 };
        let beyond_mm = if self.is_out() {
            // Measured from the inside edge, over which the outside one stands out by the level share of T.
            bend.farthest_mm(FRAC_PI_2 - lean_rad, thickness_mm) - thickness_mm * trig::cos(lean_rad)
        } else {
            bend.farthest_mm(lean_rad - FRAC_PI_2, thickness_mm)
        };
        beyond_mm.max(0.0)
    }

    /// How far the outermost metal of the edge of a level plate stands beyond the plate's end, mm.
    pub(crate) fn beyond_end_mm(&self, making: &Making) -> f64 {
        let thickness_mm = making.thickness_mm();
        self.sound_bend(making).map_or(0.0, |bend| bend.farthest_mm(0.0, thickness_mm).max(0.0))
    }

    /// How far the edge stands out from the outside of its plate, mm, away from the side the plate itself is bent to; zero
    /// where it is bent in.
    pub(crate) fn off_outside_mm(&self, making: &Making) -> f64 {
        let thickness_mm = making.thickness_mm();
        let bend = self.sound_bend(making).filter(|_| self.is_out());
        bend.map_or(0.0, |bend| (bend.farthest_mm(FRAC_PI_2, thickness_mm) - thickness_mm).max(0.0))
    }

    /// How far the edge stands in from the inside of its plate, mm; zero where it is bent out.
    pub(crate) fn off_inside_mm(&self, making: &Making) -> f64 {
        let thickness_mm = making.thickness_mm();
        let bend = self.sound_bend(making).filter(|_| !self.is_out());
        bend.map_or(0.0, |bend| (bend.farthest_mm(FRAC_PI_2, thickness_mm) - thickness_mm).max(0.0))
    }
}

impl EdgeBend {
    /// How far its metal reaches past the end of the plate it is bent off, mm, in the direction that makes `toward_rad`
    /// with the plate, positive toward the side that the edge is bent to. Measured from the plate's surface on the other
    /// side.
    ///
    /// Source: plane geometry. With s along the plate from its end and n across it from that surface, the centre of the
    /// bend is at s = −setback, n = R + T, and the direction is (cos, sin). The outer arc reaches farthest a quarter turn
    /// and that angle on, if it runs there; else one of its ends or of the leg's does.
    pub(super) fn farthest_mm(&self, toward_rad: f64, thickness_mm: f64) -> f64 {
        let (sine, cosine) = (trig::sin(toward_rad), trig::cos(toward_rad));
        let outer_mm = self.radius_mm + thickness_mm;
        let setback_mm = self.setback_mm(thickness_mm);
        let along = |s: f64, n: f64| (s - setback_mm) * cosine + (n + outer_mm) * sine;
        let (turn_sine, turn_cosine) = (trig::sin(self.turn_rad), trig::cos(self.turn_rad));
        let straight_mm = (self.leg_mm - setback_mm).max(0.0);
        let leg_end = |radius_mm: f64| {
            along(
                radius_mm * turn_sine + straight_mm * turn_cosine,
                straight_mm * turn_sine - radius_mm * turn_cosine,
            )
        };
        let farthest_rad = FRAC_PI_2 + toward_rad;
        let arc = if farthest_rad < 0.0 {
            along(0.0, -outer_mm)
        } else if farthest_rad <= self.turn_rad {
            along(0.0, 0.0) + outer_mm
        } else {
            along(outer_mm * turn_sine, -outer_mm * turn_cosine)
        };
        arc.max(leg_end(outer_mm)).max(leg_end(self.radius_mm))
    }
}
