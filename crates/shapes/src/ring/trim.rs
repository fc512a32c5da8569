//! How far two square-cut plates of real thickness stand back from the line where their outsides meet.
//!
//! Source: plane geometry. Looked at along the corner, with φ the angle between the plates, a place z inside the first
//! plate's outside and s along it from the corner line lies s·sin φ − z·cos φ inside the outside of the second.

use std::f64::consts::PI;

use fold::BendNumber;
use fold::part::{SeamSide, SeamStyle};
use geometry::{tolerance, trig};

use super::{Corners, RingError};
use crate::CornerStyle;

/// Up to this angle inside one plate stops against the other whatever their size, radians: the plate that stops loses at
/// most two thicknesses.
const ALWAYS_RAD: f64 = 150.0 / 180.0 * PI;

/// Share of the shorter side beyond which a flatter corner is refused (common practice, no source: what is cut off one
/// plate, and the other reaches past the corner by, then no longer is an edge).
const MOST_OF_SIDE: f64 = 1.0 / 20.0;

/// Flattest corner at which one plate is made to stop against the other, radians: (T + g) / sin φ is cut off the plate
/// that stops, and the other reaches past the corner by (T + g)·|cot φ|, so both grow without end toward 180°.
fn flattest_rad((thickness_mm, gap_mm): (f64, f64), shorter_side_mm: f64) -> f64 {
    let share = (thickness_mm + gap_mm) / (MOST_OF_SIDE * shorter_side_mm);
    if share < 1.0 { ALWAYS_RAD.max(PI - trig::asin(share)) } else { ALWAYS_RAD }
}

/// Two plates at a corner.
pub(crate) struct Slabs {
    /// Angle between them inside, radians.
    pub(crate) angle_rad: f64,
    /// Thickness, mm.
    pub(crate) thickness_mm: f64,
    /// Gap asked for, mm.
    pub(crate) gap_mm: f64,
    /// Inside radius of a strip bent off one of them, mm.
    pub(crate) radius_mm: f64,
}

/// True when the plates lie in one plane: they are then mitred.
pub(crate) fn in_one_plane(angle_rad: f64) -> bool {
    PI - angle_rad <= tolerance::PARALLEL_SINE.sqrt()
}

/// How far the mold line of a strip inside a corner stands out beyond the edge of the plate that carries it, mm, at an angle inside:
/// at a sharp corner the inside of a plate that is cut square reaches T·cos φ farther toward the other than its outside does.
pub(super) fn strip_out_mm(angle_rad: f64, thickness_mm: f64) -> f64 {
    thickness_mm * (1.0 / trig::tan(angle_rad)).max(0.0)
}

/// Trims of the first and the second plate, and how they meet; the first is the chosen one where `first`.
pub(crate) fn trims(slabs: &Slabs, style: &CornerStyle, first: bool) -> ([f64; 2], SeamStyle) {
    let chosen = if first { SeamSide::First } else { SeamSide::Second };
    let in_order = |[of_chosen, of_other]: [f64; 2]| {
        if first { [of_chosen, of_other] } else { [of_other, of_chosen] }
    };
    if in_one_plane(slabs.angle_rad) {
        return ([slabs.open(), slabs.open()], SeamStyle::Open);
    }
    match style {
        CornerStyle::Open | CornerStyle::Gap { .. } => ([slabs.open(), slabs.open()], SeamStyle::Open),
        CornerStyle::Butt { .. } => {
            (in_order([slabs.through(), slabs.stopped()]), SeamStyle::Butt { through: chosen })
        }
        CornerStyle::Lap { width, outside, .. } => {
            let style = SeamStyle::Lap { width_mm: width.millimetres(), carrier: chosen, outside: *outside };
            (in_order(if *outside { slabs.lap_outside() } else { slabs.lap_inside() }), style)
        }
        CornerStyle::TabAndSlot { tab, clearance, count, .. } => {
            let style = SeamStyle::TabAndSlot {
                tab_mm: tab.millimetres(),
                clearance_mm: clearance.millimetres(),
                count: *count,
                tabs: chosen,
            };
            (in_order([slabs.stopped(), slabs.through()]), style)
        }
        CornerStyle::ByName { others, .. } => trims(slabs, others, first),
    }
}

impl Slabs {
    /// Two plates of one metal at an angle inside, radians, that meet in a style; mitred in one plane whatever that is.
    pub(crate) fn of(angle_rad: f64, number: &BendNumber, making: &Corners, style: &CornerStyle) -> Self {
        Self {
            angle_rad,
            thickness_mm: number.thickness().millimetres(),
            gap_mm: style.gap_mm(making.gap_mm),
            radius_mm: number.inside_radius().millimetres(),
        }
    }

    /// The style asked for must be able to make this corner, between sides of which the shorter is so long, mm.
    pub(crate) fn check(
        &self,
        style: &CornerStyle,
        shorter_mm: f64,
        corner: impl Fn() -> String,
    ) -> Result<(), RingError> {
        let flattest_rad = flattest_rad((self.thickness_mm, self.gap_mm), shorter_mm);
        if self.angle_rad > flattest_rad {
            let inside_angle_rad = self.angle_rad;
            return Err(RingError::TooFlat { corner: corner(), inside_angle_rad, flattest_rad });
        }
        self.check_lap(style, &corner())
    }

    /// Open: the inside edges touch when each outside edge stands back T·cot(φ/2); a gap g between the inside edges
    /// asks for g/(2·sin(φ/2)) more.
    fn open(&self) -> f64 {
        let half = 0.5 * self.angle_rad;
        (self.thickness_mm * trig::cos(half) + 0.5 * self.gap_mm) / trig::sin(half)
    }

    /// Butt, or with slots, the plate that runs through: its inside edge comes flush with the other's outside; where the corner is
    /// more open than square it goes on by the gap, so that the other still stops against it.
    pub(super) fn through(&self) -> f64 {
        let cotangent = 1.0 / trig::tan(self.angle_rad);
        if cotangent > 0.0 {
            self.thickness_mm * cotangent
        } else {
            (self.thickness_mm + self.gap_mm) * cotangent
        }
    }

    /// Butt, the plate that stops: its nearest end stands the gap off the other's inside face. The bottom of a slot
    /// stands off the inside face of the plate with the tabs in the same way.
    pub(super) fn stopped(&self) -> f64 {
        let reach = self.thickness_mm * trig::cos(self.angle_rad).max(0.0);
        (self.thickness_mm + self.gap_mm + reach) / trig::sin(self.angle_rad)
    }

    /// A plate that ends flush with the other's outside.
    pub(super) fn flush(&self) -> f64 {
        self.thickness_mm * (1.0 / trig::tan(self.angle_rad)).max(0.0)
    }

    /// Lap with the strip inside: the edge that carries it stops the gap off the other's inside face, as at a butt. The strip's
    /// mold line lies a thickness and the gap inside the other's outside, and stands out from that edge by [`strip_out_mm`].
    fn lap_inside(&self) -> [f64; 2] {
        [self.stopped(), self.flush()]
    }

    /// A lap strip must come to lie on the other plate.
    fn check_lap(&self, style: &CornerStyle, corner: &str) -> Result<(), RingError> {
        let CornerStyle::Lap { width, outside, .. } = style else { return Ok(()) };
        let narrowest_mm = self.narrowest_lap(*outside);
        if narrowest_mm <= width.millimetres() {
            return Ok(());
        }
        let inside_angle_rad = self.angle_rad;
        Err(RingError::NarrowLap { corner: corner.to_owned(), inside_angle_rad, narrowest_mm })
    }

    /// The narrowest strip that lies on the other plate by a thickness at least, mm: at a flat corner the strip begins far
    /// before, or that plate ends far behind, the corner line.
    fn narrowest_lap(&self, outside: bool) -> f64 {
        let cotangent = 1.0 / trig::tan(self.angle_rad);
        let off = self.thickness_mm + self.gap_mm;
        // Where the strip's mold line and where the other plate begins, along that plate from the corner line.
        let ([_, plate], strip) = if outside {
            (self.lap_outside(), -off * cotangent)
        } else {
            (self.lap_inside(), off * cotangent)
        };
        plate - strip + self.thickness_mm
    }

    /// Lap with the strip outside: the other plate ends where the strip's bend does, and clear of the carrier.
    fn lap_outside(&self) -> [f64; 2] {
        let off = self.thickness_mm + self.gap_mm;
        let setback = (self.radius_mm + self.thickness_mm) / trig::tan(0.5 * self.angle_rad);
        let past_the_bend = setback - off / trig::tan(self.angle_rad);
        [-off / trig::sin(self.angle_rad), past_the_bend.max(self.stopped())]
    }
}
