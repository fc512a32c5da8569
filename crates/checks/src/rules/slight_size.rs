//! No bend is so short or so slight, and no blank so narrow, that a slip of the tape is likelier than a part.
//!
//! A bend shorter than twice the thickness or turned by less than a degree cannot be set on a brake, and a blank
//! narrower than twice the thickness is a sliver (common practice, no source).

use units::Angle;

use crate::{Finding, Severity, Subject};

pub(crate) const NAME: &str = "slight_size";

/// Least turn taken for a bend, degrees.
const LEAST_TURN_DEGREES: f64 = 1.0;

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let least_mm = 2.0 * subject.part.thickness_mm();
    let mut refuse = |place: String, measured: String, wrong: String| {
        let remedy = "check the sizes that lead here".to_owned();
        findings.push(Finding { rule: NAME, severity: Severity::Refuse, place, measured, wrong, remedy });
    };
    for (number, bend) in subject.flat.bends.iter().enumerate() {
        let length_mm = bend.from.distance(bend.to);
        if length_mm < least_mm {
            let wrong = format!("a bend shorter than twice the thickness, {}", subject.print_mm(least_mm));
            refuse(subject.bend_place(number), subject.print_mm(length_mm), wrong);
        }
        let turn = Angle::from_radians(bend.turn_rad);
        if turn.degrees() < LEAST_TURN_DEGREES {
            let wrong = format!("a turn of less than {LEAST_TURN_DEGREES}°");
            refuse(subject.bend_place(number), format!("{}°", turn.print(2)), wrong);
        }
    }
    let (length_mm, width_mm) = subject.flat.extents_mm();
    if length_mm.min(width_mm) < least_mm {
        let wrong = format!("a blank narrower than twice the thickness, {}", subject.print_mm(least_mm));
        refuse("blank".to_owned(), subject.print_mm(length_mm.min(width_mm)), wrong);
    }
}
