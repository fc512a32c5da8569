//! Gas struts between a frame and a hinged lid: lengths, lever arms, forces and what is left over.
//!
//! Seen along the hinge with the pin at the origin, as in [`super::Lid`]. A strut pushes its ends apart, so its moment
//! about the pin is F·r with r = (xa·yb − ya·xb)/L, A the end on the frame, B the end on the lid, L = |AB|: the cross
//! product of statics, and dL/dθ by virtual work. Its gas follows the absolute temperature, F = F₂₀·T/293.15 K (ideal
//! gas), and its force rises in a straight line from extended to compressed by the maker's ratio.

use geometry::{Vector, tolerance};
use units::{Angle, Force, Length, Temperature, Torque};

use super::Lid;

/// Step of the search over a swing, degrees.
const SEARCH_STEP_DEGREES: f64 = 0.25;

/// Step of the printed table, degrees.
const TABLE_STEP_DEGREES: f64 = 15.0;

/// Where the struts of a lid are mounted, and how far it opens.
#[derive(Debug, Clone, PartialEq)]
pub struct StrutMounts {
    /// How many struts, all alike.
    pub count: u32,
    /// The end on the frame: out from the pin and up from it.
    pub fixed: [Length; 2],
    /// The end on the lid, lid closed.
    pub on_lid: [Length; 2],
    /// How far the lid opens.
    pub opens: Angle,
}

/// A strut by its maker's data.
#[derive(Debug, Clone, PartialEq)]
pub struct GasStrut {
    /// Force near full extension at 20 °C.
    pub force: Force,
    /// Force compressed over force extended.
    pub ratio: f64,
    /// Length between the ends' centres, compressed.
    pub compressed: Length,
    /// The same, extended.
    pub extended: Length,
}

/// A strut at one angle of the lid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StrutPlace {
    /// Length between its ends, mm.
    pub length_mm: f64,
    /// Its arm about the pin, mm; above zero it opens the lid.
    pub arm_mm: f64,
}

/// One angle of a swing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SwingStep {
    /// How far the lid is open.
    pub angle: Angle,
    /// Where each strut is.
    pub place: StrutPlace,
    /// Moment of the lid; above zero it closes.
    pub lid: Torque,
    /// What each strut must push to balance it; nothing where the lid stays by itself, `None` where no push can.
    pub needed: Option<Force>,
}

/// A swing that no strut can balance.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error("at {}° the struts pull the lid shut or pass through the pin, and it still wants to close", angle.print(1))]
pub struct Unbalanced {
    /// The first such angle.
    pub angle: Angle,
}

/// Why struts cannot be mounted so.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum StrutFault {
    /// There is none.
    #[error("there is no strut")]
    None,
    /// The end on the frame lies in the pin.
    #[error("lies in the hinge pin: a strut has no lever arm there")]
    FixedInPin,
    /// The end on the lid lies in the pin, or behind it.
    #[error("lies in the hinge or behind it, not on the lid")]
    LidEndNotOnLid,
    /// The lid does not open, or beyond half a turn.
    #[error("a lid with struts opens by more than 0° and at most 180°")]
    Opens,
    /// The two ends meet.
    #[error("the two ends of the strut meet on the way")]
    EndsMeet,
    /// It never opens the lid.
    #[error("a strut between these two places holds the lid shut all the way")]
    HoldsShut,
    /// Extended is not longer than compressed.
    #[error("is not longer than compressed: there is no stroke")]
    NoStroke,
    /// The stroke is as long as the compressed strut, whose tube must hold it.
    #[error("is twice the compressed length or more: the rod would not go into its own tube")]
    StrokeBeyondTube,
    /// The ratio is below one.
    #[error("the force compressed is never below the force extended")]
    RatioBelowOne,
    /// No force.
    #[error("must push with more than nothing")]
    NoForce,
    /// The swing pulls it out further than it goes.
    #[error("the stroke is too short for this swing")]
    TooShort {
        /// The greatest distance between the ends over the swing, mm.
        needed_mm: f64,
    },
    /// The swing presses it together further than it goes.
    #[error("the strut is too long for this swing")]
    TooLong {
        /// The least distance between the ends over the swing, mm.
        needed_mm: f64,
    },
}

impl StrutMounts {
    fn ends(&self) -> [Vector; 2] {
        [self.fixed, self.on_lid].map(|[out, up]| Vector { x: out.millimetres(), y: up.millimetres() })
    }

    /// Judges the mounts by themselves.
    ///
    /// # Errors
    /// The first [`StrutFault`].
    pub fn check(&self) -> Result<(), StrutFault> {
        let [fixed, on_lid] = self.ends();
        if self.count == 0 {
            return Err(StrutFault::None);
        }
        if fixed.length() <= tolerance::SAME_POINT_MM {
            return Err(StrutFault::FixedInPin);
        }
        if on_lid.x <= tolerance::SAME_POINT_MM {
            return Err(StrutFault::LidEndNotOnLid);
        }
        if !(self.opens.degrees() > 0.0 && self.opens.degrees() <= 180.0) {
            return Err(StrutFault::Opens);
        }
        if self.length_range_mm()[0] <= tolerance::SAME_POINT_MM {
            return Err(StrutFault::EndsMeet);
        }
        let opens = self.angles(SEARCH_STEP_DEGREES).iter().any(|&angle| self.place(angle).arm_mm > 0.0);
        if opens { Ok(()) } else { Err(StrutFault::HoldsShut) }
    }

    /// Length and arm of each strut with the lid open by `angle`.
    #[must_use]
    pub fn place(&self, angle: Angle) -> StrutPlace {
        let [fixed, on_lid] = self.ends();
        let lid_end = on_lid.turned(angle.radians());
        let length_mm = (lid_end - fixed).length();
        let cross = fixed.x * lid_end.y - fixed.y * lid_end.x;
        StrutPlace { length_mm, arm_mm: if length_mm > 0.0 { cross / length_mm } else { 0.0 } }
    }

    /// Least and greatest distance between the ends over the swing, mm: at its ends, or where both lie in line with the
    /// pin.
    #[must_use]
    pub fn length_range_mm(&self) -> [f64; 2] {
        let [fixed, on_lid] = self.ends();
        let in_line = fixed.angle() - on_lid.angle();
        let half_turn = std::f64::consts::PI;
        let on_the_way = [in_line, in_line + half_turn].map(|angle| angle.rem_euclid(2.0 * half_turn));
        let open = self.opens.radians();
        let angles = [0.0, open].into_iter().chain(on_the_way.into_iter().filter(|&angle| angle < open));
        let lengths = angles.map(|angle| self.place(Angle::from_radians(angle)).length_mm);
        lengths.fold([f64::INFINITY, 0.0], |[low, high], length| [low.min(length), high.max(length)])
    }

    /// Angles from closed to open, so far apart, degrees; the open one always among them.
    fn angles(&self, step_degrees: f64) -> Vec<Angle> {
        let open = self.opens.degrees();
        let whole = (0_u32..).map(|number| f64::from(number) * step_degrees);
        let mut degrees: Vec<f64> = whole.take_while(|&angle| angle < open).collect();
        degrees.push(open);
        degrees.into_iter().filter_map(|angle| Angle::try_from_degrees(angle).ok()).collect()
    }

    fn step(&self, lid: &Lid, angle: Angle) -> SwingStep {
        let (place, moment) = (self.place(angle), lid.moment(angle));
        let arms_mm = f64::from(self.count) * place.arm_mm;
        let needed = if moment <= Torque::ZERO {
            Some(Force::default())
        } else if place.arm_mm > tolerance::SAME_POINT_MM {
            Some(Force::from_newtons(moment.newton_millimetres() / arms_mm))
        } else {
            None
        };
        SwingStep { angle, place, lid: moment, needed }
    }

    /// The swing in steps of 15°, for a table.
    #[must_use]
    pub fn table(&self, lid: &Lid) -> Vec<SwingStep> {
        self.angles(TABLE_STEP_DEGREES).into_iter().map(|angle| self.step(lid, angle)).collect()
    }

    /// The swing in fine steps, for a plot.
    #[must_use]
    pub fn swing(&self, lid: &Lid) -> Vec<SwingStep> {
        self.angles(SEARCH_STEP_DEGREES).into_iter().map(|angle| self.step(lid, angle)).collect()
    }

    /// The angle at which each strut must push hardest to balance the lid.
    ///
    /// # Errors
    /// [`Unbalanced`] where the lid closes and the struts have no arm to open it.
    pub fn hardest(&self, lid: &Lid) -> Result<SwingStep, Unbalanced> {
        let swing = self.swing(lid);
        let mut hardest = self.step(lid, Angle::from_radians(0.0));
        for step in swing {
            match step.needed {
                None => return Err(Unbalanced { angle: step.angle }),
                Some(needed) if hardest.needed.is_none_or(|most| most < needed) => hardest = step,
                Some(_) => {}
            }
        }
        Ok(hardest)
    }

    /// Moment of all struts together on the lid open by `angle`, at a temperature; above zero it opens.
    #[must_use]
    pub fn push(&self, strut: &GasStrut, angle: Angle, at: Temperature) -> Torque {
        let place = self.place(angle);
        let one = strut.force_at(place.length_mm, at);
        Torque::of(one, f64::from(self.count) * place.arm_mm)
    }

    /// The angles between which the lid moves by itself the other way: each angle at which what is left over, struts
    /// less lid, changes its sign.
    #[must_use]
    pub fn balances(&self, strut: &GasStrut, lid: &Lid, at: Temperature) -> Vec<Angle> {
        let left_over = |angle: Angle| self.push(strut, angle, at) - lid.moment(angle);
        let angles = self.angles(SEARCH_STEP_DEGREES);
        let pairs = angles.iter().zip(angles.iter().skip(1));
        let changes = pairs
            .filter(|&(&low, &high)| (left_over(low) < Torque::ZERO) != (left_over(high) < Torque::ZERO));
        let between = |(low, high): (&Angle, &Angle)| {
            let (a, b) = (left_over(*low).newton_millimetres(), left_over(*high).newton_millimetres());
            Angle::from_radians(low.radians() + (high.radians() - low.radians()) * a / (a - b))
        };
        changes.map(between).collect()
    }
}

impl GasStrut {
    /// Judges the maker's data by themselves, and against the swing.
    ///
    /// # Errors
    /// The first [`StrutFault`].
    pub fn check(&self, mounts: &StrutMounts) -> Result<(), StrutFault> {
        let (compressed, extended) = (self.compressed.millimetres(), self.extended.millimetres());
        if self.force <= Force::default() {
            return Err(StrutFault::NoForce);
        }
        if self.ratio < 1.0 {
            return Err(StrutFault::RatioBelowOne);
        }
        if extended <= compressed {
            return Err(StrutFault::NoStroke);
        }
        if 2.0 * compressed <= extended {
            return Err(StrutFault::StrokeBeyondTube);
        }
        let [low, high] = mounts.length_range_mm();
        if extended < high - tolerance::FIT_MM {
            return Err(StrutFault::TooShort { needed_mm: high });
        }
        if low + tolerance::FIT_MM < compressed {
            return Err(StrutFault::TooLong { needed_mm: low });
        }
        Ok(())
    }

    /// Its force at a length, mm, and a temperature.
    #[must_use]
    pub fn force_at(&self, length_mm: f64, at: Temperature) -> Force {
        let stroke = (self.extended - self.compressed).millimetres();
        let pressed = (self.extended.millimetres() - length_mm) / stroke;
        let at_twenty = self.force.newtons() * (1.0 + (self.ratio - 1.0) * pressed);
        Force::from_newtons(at_twenty * gas_share(at))
    }
}

/// Force at a temperature over that at 20 °C.
#[must_use]
pub fn gas_share(at: Temperature) -> f64 {
    at.kelvins() / Temperature::TWENTY_CELSIUS.kelvins()
}
