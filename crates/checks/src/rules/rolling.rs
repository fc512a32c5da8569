//! A rolled face fits the slip roll.
//!
//! A roll takes no tighter radius than its own top roll allows, and no wider sheet than passes between its ends. The bends
//! of a cylinder or a cone are lines to sight by: there the wrap's own radius counts, and it is told once.

use fold::flat::BendLine;
use fold::part::Forming;
use geometry::tolerance;
use units::Length;

use crate::{Finding, Severity, Subject};

pub(crate) const NAME: &str = "rolling";

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let Some(roll) = subject.limits.roll else { return };
    let wrapped_mm = subject.part.wrapped_inside_mm;
    let rolled = subject.flat.bends.iter().enumerate().filter(|(_, bend)| bend.forming == Forming::Rolled);
    let longest = |a: &BendLine, b: &BendLine| a.from.distance(a.to).total_cmp(&b.from.distance(b.to));
    let told: Vec<(usize, &BendLine)> = match wrapped_mm {
        Some(_) => rolled.max_by(|(_, a), (_, b)| longest(a, b)).into_iter().collect(),
        None => rolled.collect(),
    };
    for (number, bend) in told {
        let radius_mm = wrapped_mm.unwrap_or(bend.inside_radius_mm);
        let place = || match wrapped_mm {
            Some(_) => "wrap".to_owned(),
            None => subject.bend_place(number),
        };
        let mut refuse = |measured: f64, wrong: String, remedy: &str| {
            findings.push(Finding {
                rule: NAME,
                severity: Severity::No,
                place: place(),
                measured: subject.print_mm(measured),
                wrong,
                remedy: remedy.to_owned(),
            });
        };
        let print = |length: Length| length.print(subject.style);
        let width = bend.from.distance(bend.to);
        if let Some(least) = roll.least_radius
            && radius_mm < least.millimetres() - tolerance::SAME_POINT_MM
        {
            let wrong = format!(
                "tighter than the roll's least inside radius of {}, shop.roll.least_radius",
                print(least)
            );
            refuse(radius_mm, wrong, "give a larger radius, or bend it round a former");
        }
        if let Some(length) = roll.length
            && length.millimetres() + tolerance::SAME_POINT_MM < width
        {
            let wrong = format!("wider than the roll, {}, shop.roll.length", print(length));
            refuse(width, wrong, "split the part, or have it rolled elsewhere");
        }
    }
}
