//! The recommended weight limit of one lift by hand.
//!
//! Source: Applications Manual for the Revised NIOSH Lifting Equation, DHHS (NIOSH) 94-110, revised 9/2021; two-handed
//! smooth lifts. RWL = LC·HM·VM·DM·AM·FM·CM. The asymmetry factor, the coupling factors and the ends of the reach are
//! from memory of the same manual. The frequency factor is left at 1: a lift now and then, not a shift of lifting.
//! Every factor is rounded to hundredths before it is multiplied, as the manual's tables have them (from memory), so that the
//! printed sum can be redone.

use units::{Angle, Length, Mass};

/// The load constant: what the equation allows under ideal conditions, kg (23 kg, printed as 51 lb).
const LOAD_CONSTANT_KG: f64 = 23.0;
/// Nearest the load can be held, mm.
const NEAREST_MM: f64 = 250.0;
/// Farthest reach that the equation covers, mm: the larger of the manual's twins, 630 mm and 25 in.
const FARTHEST_MM: f64 = 635.0;
/// Height of the hands at which the equation allows most, mm.
const BEST_HEIGHT_MM: f64 = 750.0;
/// Highest hands that the equation covers, mm: the larger of the manual's twins, 1750 mm and 70 in.
const HIGHEST_MM: f64 = 1778.0;
/// Least travel that counts, mm.
const LEAST_TRAVEL_MM: f64 = 250.0;
/// Farthest the body may be turned, degrees.
const MOST_TURN_DEGREES: f64 = 135.0;

/// How well the load can be gripped.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Grip {
    /// Handles or cut-outs for the hands.
    Good,
    /// Fingers under an edge.
    Fair,
    /// Neither.
    Poor,
}

/// One lift.
#[derive(Debug, Clone, PartialEq)]
pub struct HandLift {
    /// From between the ankles out to the hands.
    pub reach: Length,
    /// Height of the hands where the lift begins and where it ends.
    pub from_and_to: [Length; 2],
    /// How far the body is turned aside.
    pub turned: Angle,
    /// The grip.
    pub grip: Grip,
}

/// One factor of the equation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LiftFactor {
    /// What it is for.
    pub what: &'static str,
    /// The factor, at most 1, in whole hundredths.
    pub factor: f64,
    /// Whether its rule was recalled and not read in the manual.
    pub from_memory: bool,
}

/// The limit and how it comes about.
#[derive(Debug, Clone, PartialEq)]
pub struct LiftLimit {
    /// The recommended limit.
    pub limit: Mass,
    /// The factors on [`HandLift::ideal_limit`], in the equation's order.
    pub factors: Vec<LiftFactor>,
}

/// Why the equation does not cover a lift.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum LiftFault {
    /// Reached too far out.
    #[error("the lifting equation covers no reach beyond 630 mm (25 in): nothing may be lifted there")]
    Reach,
    /// Lifted below the floor or above 1750 mm.
    #[error("the lifting equation covers hands from the floor up to 1750 mm (70 in)")]
    Height,
    /// The body turned too far.
    #[error("the lifting equation covers a body turned aside by 0 to 135°")]
    Turned,
}

impl HandLift {
    /// What the equation allows at its best: close to the body, waist high, good handles, now and then.
    #[must_use]
    pub fn ideal_limit() -> Mass {
        Mass::from_kilograms(LOAD_CONSTANT_KG)
    }

    /// The recommended limit where the lift begins or where it ends, whichever is less.
    ///
    /// # Errors
    /// [`LiftFault`] outside what the equation covers.
    pub fn limit(&self) -> Result<LiftLimit, LiftFault> {
        let [from, to] = self.from_and_to.map(Length::millimetres);
        let reach = self.reach.millimetres();
        if FARTHEST_MM < reach {
            return Err(LiftFault::Reach);
        }
        if !((0.0..=HIGHEST_MM).contains(&from) && (0.0..=HIGHEST_MM).contains(&to)) {
            return Err(LiftFault::Height);
        }
        let turned = self.turned.degrees();
        if !(0.0..=MOST_TURN_DEGREES).contains(&turned) {
            return Err(LiftFault::Turned);
        }
        let height = |at: f64| 1.0 - 0.003 * (at - BEST_HEIGHT_MM).abs() / 10.0;
        let (travel, low) = ((to - from).abs(), from.min(to));
        let coupling = match self.grip {
            Grip::Good => 1.0,
            Grip::Fair if low < BEST_HEIGHT_MM => 0.95,
            Grip::Fair => 1.0,
            Grip::Poor => 0.90,
        };
        let travel = if travel <= LEAST_TRAVEL_MM { 1.0 } else { 0.82 + 45.0 / travel };
        let read = |what, factor| LiftFactor { what, factor, from_memory: false };
        let factors = [
            read("reach", (NEAREST_MM / reach.max(NEAREST_MM)).min(1.0)),
            read("height", height(from).min(height(to))),
            read("travel", travel),
            LiftFactor { what: "turned", factor: 1.0 - 0.0032 * turned, from_memory: true },
            LiftFactor { what: "grip", factor: coupling, from_memory: true },
        ];
        let factors: Vec<LiftFactor> = factors
            .into_iter()
            .map(|factor| LiftFactor { factor: in_hundredths(factor.factor), ..factor })
            .collect();
        let share: f64 = factors.iter().map(|factor| factor.factor).product();
        Ok(LiftLimit { limit: Mass::from_kilograms(LOAD_CONSTANT_KG * share), factors })
    }
}

fn in_hundredths(factor: f64) -> f64 {
    (100.0 * factor).round() / 100.0
}
