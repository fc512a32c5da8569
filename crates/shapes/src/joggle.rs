//! A joggle: two bends, there and back, and the short slant between them, that set a plate off from itself.

use fold::bend::formula;
use geometry::trig;
use units::{Angle, Length};

use crate::{Making, Problem};

/// Of a depth and a turn, in one metal.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Joggle {
    /// How far the plate is set off, face to like face, mm.
    pub(crate) depth_mm: f64,
    /// Turn of both bends, radians.
    pub(crate) turn_rad: f64,
    /// Length of the slant, from the mold line on one face to the mold line on the other, mm.
    pub(crate) slant_mm: f64,
    /// Setback of either bend, mm.
    pub(crate) setback_mm: f64,
    thickness_mm: f64,
}

impl Joggle {
    /// With turn θ and thickness T the mold lines stand m apart, and the next plate is set off by m·sin θ − T·(1 − cos θ).
    ///
    /// Source: plane geometry of two plates of thickness T.
    pub(crate) fn new(depth_mm: f64, turn_rad: f64, making: &Making) -> Self {
        let thickness_mm = making.thickness_mm();
        let slant_mm = (depth_mm + thickness_mm * (1.0 - trig::cos(turn_rad))) / trig::sin(turn_rad);
        let radius_mm = making.number.inside_radius().millimetres();
        let setback_mm = formula::setback(turn_rad, radius_mm, thickness_mm);
        Self { depth_mm, turn_rad, slant_mm, setback_mm, thickness_mm }
    }

    /// What is left of the slant between its two bends, mm; not above zero where they meet.
    pub(crate) fn straight_mm(&self) -> f64 {
        self.slant_mm - 2.0 * self.setback_mm
    }

    /// From tangent line to tangent line, along the plates, mm.
    ///
    /// Source: plane geometry: 2·s + m·cos θ − T·sin θ, s being the setback.
    pub(crate) fn run_mm(&self) -> f64 {
        let (sine, cosine) = (trig::sin(self.turn_rad), trig::cos(self.turn_rad));
        2.0 * self.setback_mm + self.slant_mm * cosine - self.thickness_mm * sine
    }

    /// The least depth that leaves a slant between the bends, mm.
    fn least_depth_mm(&self) -> f64 {
        let (sine, cosine) = (trig::sin(self.turn_rad), trig::cos(self.turn_rad));
        2.0 * self.setback_mm * sine - self.thickness_mm * (1.0 - cosine)
    }
}

/// What is wrong with a joggle: a turn past square, or a depth that leaves no slant between its bends.
pub(crate) fn problem(field: &str, depth: Length, turn: Angle, making: &Making) -> Option<Problem> {
    let degrees = turn.degrees();
    if !(degrees > 0.0 && degrees <= 90.0) {
        let remedy = "measure the turn from flat; 45 is usual";
        let wrong = "a joggle turns by more than 0 and up to 90°";
        return Some(Problem::new(format!("{field}.turn"), format!("{degrees}°"), wrong, remedy));
    }
    let least_mm = Joggle::new(depth.millimetres(), turn.radians(), making).least_depth_mm();
    (depth.millimetres() <= least_mm).then(|| {
        let wrong = format!("leaves no slant between its two bends of {degrees}°");
        let remedy = format!("set it off by more than {}, or turn less", making.print_mm(least_mm));
        Problem::new(format!("{field}.joggle"), making.print(depth), wrong, remedy)
    })
}
