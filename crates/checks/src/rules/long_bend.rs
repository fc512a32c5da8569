//! A bend is no longer than the brake.
//!
//! Metal past the end of the bed is not bent at all, and no second stroke makes one straight bend of two.

use fold::order::tool_size;
use geometry::tolerance;
use units::Length;

use crate::{Finding, Severity, Subject};

pub(crate) const NAME: &str = "long_bend";

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let Some(length) = subject.limits.brake_length else { return };
    for (number, bend) in subject.flat.bends.iter().enumerate() {
        let bend_mm = bend.from.distance(bend.to);
        if length.millimetres() + tolerance::SAME_POINT_MM < bend_mm {
            findings.push(Finding {
                rule: NAME,
                severity: Severity::No,
                place: subject.bend_place(number),
                measured: subject.print_mm(bend_mm),
                wrong: format!("longer than the brake, {}", length.print(subject.style)),
                remedy: format!(
                    "split the part, or have this bend made on a brake {} long or longer",
                    tool_size(Length::from_millimetres(bend_mm), subject.style).print(subject.style)
                ),
            });
        }
    }
}
