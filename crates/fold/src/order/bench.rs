//! The machine as set up for one part: V opening, sections, bodies.

use stock::brake::{ASSUMED_STOP_REACH, Clamp, Machine, Profile};

use super::bodies::{self, Body};
use super::metal::Metal;
use super::motion::Motion;
use super::room::Sections;

/// How far tooling in sections may fall short of a bend in all, mm: one inch, the step of most finger sets (common
/// practice, no source).
pub(super) const SHORT_BY_MM: f64 = 25.4;

/// A machine with what it is set up with.
#[derive(Debug, Clone)]
pub(super) struct Bench {
    machine: Machine,
    half_v_mm: Option<f64>,
    sections: Option<Sections>,
}

/// How far a press brake opens.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Open {
    /// From the top of the die to the tip of the punch, the ram at the top, mm.
    pub(super) between_tools_mm: f64,
    /// The heights of punch and die are both given.
    pub(super) given: bool,
}

impl Bench {
    /// How far the press opens between its tools; `None` for a folder, and where the shop does not say.
    pub(super) fn open(&self) -> Option<Open> {
        let Machine::Press(press) = &self.machine else { return None };
        let (daylight, punch, die) = (press.daylight?, press.punch.height, press.die_height);
        let assumed = stock::brake::PressBrake::assumed();
        let tools = punch.unwrap_or(assumed.punch_height) + die.unwrap_or(assumed.die_height);
        let given = punch.is_some() && die.is_some();
        Some(Open { between_tools_mm: (daylight - tools).millimetres(), given })
    }

    /// The included angle of the punch's tip, radians; `None` for a folder, and where the shop does not say.
    pub(super) fn punch_angle_rad(&self) -> Option<f64> {
        match &self.machine {
            Machine::Press(press) => press.punch.angle.map(units::Angle::radians),
            Machine::Folder(_) => None,
        }
    }

    /// `machine` with a die of this opening.
    pub(super) fn of(machine: &Machine, v_opening_mm: Option<f64>) -> Self {
        let own = match machine {
            Machine::Press(press) => &press.punch.sections,
            Machine::Folder(stock::brake::Folder { clamp: Clamp::Fingers { widths, .. }, .. }) => widths,
            Machine::Folder(_) => &Vec::new(),
        };
        let widths: Vec<f64> = own.iter().map(|width| width.millimetres()).collect();
        let sections = (!widths.is_empty()).then(|| Sections::of(widths));
        let half_v_mm = matches!(machine, Machine::Press(_)).then(|| 0.5 * v_opening_mm.unwrap_or(0.0));
        Self { machine: machine.clone(), half_v_mm, sections }
    }

    /// The same press with a gooseneck punch; `None` for a folder, and where the shop says what its punch is.
    pub(super) fn with_gooseneck(&self) -> Option<Self> {
        let Machine::Press(press) = &self.machine else { return None };
        if press.punch.profile.is_some() {
            return None;
        }
        let mut press = press.clone();
        press.punch.profile = Some(Profile::Gooseneck);
        Some(Self { machine: Machine::Press(press), ..self.clone() })
    }

    /// How far behind the bend line the back stop reaches, mm.
    pub(super) fn stop_reach_mm(&self) -> f64 {
        self.machine.stop_reach().unwrap_or(ASSUMED_STOP_REACH).millimetres()
    }

    /// The sections the shop has; `None` for any length.
    pub(super) const fn sections(&self) -> Option<&Sections> {
        self.sections.as_ref()
    }

    /// True for a press brake, which bends both sides up; false for a folder, which clamps one.
    pub(super) const fn is_press(&self) -> bool {
        self.half_v_mm.is_some()
    }

    /// How `bend` moves on this machine.
    pub(super) fn motion(&self, metal: &Metal, bend: usize) -> Motion {
        let line = &metal.lines[bend];
        Motion {
            half_v_mm: self.half_v_mm,
            thickness_mm: metal.thickness_mm,
            radius_mm: line.radius_mm,
            neutral_mm: line.zone_mm / line.turn_rad,
            zone_mm: line.zone_mm,
        }
    }

    /// The bodies for a bend.
    pub(super) fn bodies(&self, motion: &Motion) -> Vec<Body> {
        bodies::bodies(&self.machine, motion)
    }
}
