//! A hinged lid: what hangs on its pin, and the moment that closes it.

use geometry::{Point, Vector};
use units::{Angle, Force, Length, Mass, Torque};

/// Something that hangs on a hinge pin, seen along the hinge.
#[derive(Debug, Clone, PartialEq)]
pub struct HungLoad {
    /// What it is.
    pub what: String,
    /// Its mass.
    pub mass: Mass,
    /// From the pin out toward the free edge, lid closed.
    pub out: Length,
    /// Above the pin, lid closed.
    pub up: Length,
}

/// A lid with everything on it, seen along the hinge with the pin at the origin. The cover lies level when closed, x
/// toward its free edge and y up, and opens by turning counter-clockwise.
#[derive(Debug, Clone, PartialEq)]
pub struct Lid {
    /// The bare lid and its hardware.
    pub loads: Vec<HungLoad>,
}

impl HungLoad {
    /// Its moment about the pin with the lid open by `angle`; above zero it closes the lid.
    #[must_use]
    pub fn moment(&self, angle: Angle) -> Torque {
        let arm = Vector { x: self.out.millimetres(), y: self.up.millimetres() }.turned(angle.radians());
        Torque::of(Force::weight_of(self.mass), arm.x)
    }
}

impl Lid {
    /// Mass of everything.
    #[must_use]
    pub fn mass(&self) -> Mass {
        self.loads.iter().map(|load| load.mass).sum()
    }

    /// Centre of gravity of everything, lid closed: Σ(weight × place) / Σ weight. `None` when nothing weighs anything.
    #[must_use]
    pub fn centre(&self) -> Option<Point> {
        let all = self.mass().kilograms();
        let sum = |place: fn(&HungLoad) -> Length| -> f64 {
            self.loads.iter().map(|load| load.mass.kilograms() * place(load).millimetres()).sum()
        };
        (all > 0.0).then(|| Point::new(sum(|load| load.out) / all, sum(|load| load.up) / all))
    }

    /// The moment of everything about the pin with the lid open by `angle`: the sum of the loads' own.
    #[must_use]
    pub fn moment(&self, angle: Angle) -> Torque {
        self.loads.iter().map(|load| load.moment(angle)).sum()
    }

    /// The force, square to the lid at a handle so far from the pin, that just lifts it from closed; `None` at the pin.
    #[must_use]
    pub fn force_at_handle(&self, out: Length) -> Option<Force> {
        let arm_mm = out.millimetres();
        let moment = self.moment(Angle::from_radians(0.0)).newton_millimetres();
        (arm_mm > 0.0).then(|| Force::from_newtons(moment / arm_mm))
    }
}
