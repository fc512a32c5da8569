//! A bend of more than a quarter turn has its mold line out in the air.
//!
//! Whoever measures the finished leg must know to what it was measured. Hems are pressed and curls rolled to their shape:
//! there is no angle to check.

use std::f64::consts::{FRAC_PI_2, PI};

use fold::part::Forming;
use geometry::tolerance;
use units::Angle;

use crate::{Finding, Severity, Subject};

pub(crate) const NAME: &str = "large_turn";

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for (number, bend) in subject.flat.bends.iter().enumerate() {
        let shaped = matches!(bend.forming, Forming::Hem | Forming::Rolled);
        if shaped || bend.turn_rad <= FRAC_PI_2 + tolerance::PARALLEL_SINE {
            continue;
        }
        let half = PI - tolerance::PARALLEL_SINE <= bend.turn_rad;
        let (wrong, remedy) = if half {
            (
                "a half turn, so the legs lie alongside one another and one stroke does not make it",
                "press it closed and check both legs and the width over them, no angle is left to check",
            )
        } else {
            (
                "past square, so the outside faces meet beyond the metal",
                "check the angle with a bevel, not the leg with a square",
            )
        };
        findings.push(Finding {
            rule: NAME,
            severity: Severity::Caution,
            place: subject.bend_place(number),
            measured: format!("{}°", Angle::from_radians(bend.turn_rad).print(1)),
            wrong: wrong.to_owned(),
            remedy: remedy.to_owned(),
        });
    }
}
