//! No bend is so short or so slight, and no blank so narrow, that a slip of the tape is likelier than a part.
//!
//! A bend shorter than twice the thickness or turned by less than a degree cannot be set on a brake, and a blank
//! narrower than twice the thickness is a sliver (common practice, no source). A face that its taped corners put out of plane by
//! as little is no bend: it is left flat and sprung by hand, and how far it must come is told.

use fold::flat::BendLine;
use fold::part::{Forming, MOST_SPRUNG_DEGREES};
use units::Angle;

use crate::{Finding, Severity, Subject};

pub(crate) const NAME: &str = "slight_size";

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let least_mm = 2.0 * subject.part.thickness_mm();
    let refuse = |place: String, measured: String, wrong: String| {
        let remedy = "check the sizes that lead here".to_owned();
        Finding { rule: NAME, severity: Severity::Refuse, place, measured, wrong, remedy }
    };
    for (number, bend) in subject.flat.bends.iter().enumerate() {
        let length_mm = bend.from.distance(bend.to);
        if length_mm < least_mm {
            let wrong = format!("a bend shorter than twice the thickness, {}", subject.print_mm(least_mm));
            findings.push(refuse(subject.bend_place(number), subject.print_mm(length_mm), wrong));
        }
        let turn = Angle::from_radians(bend.turn_rad);
        if bend.forming == Forming::Sprung {
            findings.push(by_hand(subject, (number, bend)));
        } else if turn.degrees() < MOST_SPRUNG_DEGREES {
            let wrong = format!("a turn of less than {MOST_SPRUNG_DEGREES}°");
            findings.push(refuse(subject.bend_place(number), format!("{}°", turn.print(2)), wrong));
        }
    }
    let (length_mm, width_mm) = subject.flat.extents_mm();
    if length_mm.min(width_mm) < least_mm {
        let wrong = format!("a blank narrower than twice the thickness, {}", subject.print_mm(least_mm));
        findings.push(refuse("blank".to_owned(), subject.print_mm(length_mm.min(width_mm)), wrong));
    }
}

/// What is left flat, and how far its farthest corner stands off the plane of the rest when the part is closed.
fn by_hand(subject: &Subject<'_>, (number, bend): (usize, &BendLine)) -> Finding {
    Finding {
        rule: NAME,
        severity: Severity::Caution,
        place: subject.bend_place(number),
        measured: format!("{}°", Angle::from_radians(bend.turn_rad).print(2)),
        wrong: format!(
            "no bend for a brake: the far corner stands {} off the plane of the rest when the part is closed",
            subject.print_mm(subject.flat.off_plane_mm(bend))
        ),
        remedy: "leave it unbent and let the face take it by hand as it is closed".to_owned(),
    }
}
