//! A rolled face fits the slip roll.
//!
//! A roll takes no tighter radius than its own top roll allows, and no wider sheet than passes between its ends.

use fold::part::Forming;
use geometry::tolerance;
use units::Length;

use crate::{Finding, Severity, Subject};

pub(crate) const NAME: &str = "rolling";

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let Some(roll) = subject.limits.roll else { return };
    let rolled = subject.flat.bends.iter().enumerate();
    for (number, bend) in rolled.filter(|(_, bend)| bend.forming == Forming::Rolled) {
        let mut refuse = |measured: f64, wrong: String, remedy: &str| {
            findings.push(Finding {
                rule: NAME,
                severity: Severity::Refuse,
                place: subject.bend_place(number),
                measured: subject.print_mm(measured),
                wrong,
                remedy: remedy.to_owned(),
            });
        };
        let print = |length: Length| length.print(subject.style);
        let width = bend.from.distance(bend.to);
        if let Some(least) = roll.least_radius
            && bend.inside_radius_mm < least.millimetres() - tolerance::SAME_POINT_MM
        {
            let wrong = format!("tighter than the roll's least inside radius of {}", print(least));
            refuse(bend.inside_radius_mm, wrong, "give a larger radius, or bend it round a former");
        }
        if let Some(length) = roll.length
            && length.millimetres() + tolerance::SAME_POINT_MM < width
        {
            let wrong = format!("wider than the roll, {}", print(length));
            refuse(width, wrong, "split the part, or have it rolled elsewhere");
        }
    }
}
