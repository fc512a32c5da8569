//! A hem is bent back on itself only in a temper that takes it.
//!
//! A closed hem has next to no inside radius. Where the metal's table asks for a radius at 90°, folding it flat cracks
//! it along the edge; the table's radius is for a quarter turn, and half a turn asks for no less.

use fold::part::Forming;
use geometry::tolerance;
use units::Length;

use crate::{Finding, Severity, Subject};

pub(crate) const NAME: &str = "hem_temper";

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let Some((least, source)) = &subject.limits.least_inside_radius else { return };
    for (number, bend) in subject.part.bends.iter().enumerate() {
        let hem = matches!(bend.forming, Forming::Hem);
        if !hem || least.millimetres() - tolerance::SAME_POINT_MM <= bend.inside_radius_mm {
            continue;
        }
        let least = least.print(subject.style);
        let metal = subject.limits.metal.as_ref().map_or_else(String::new, |metal| {
            let temper = metal.temper.as_ref().map_or_else(String::new, |temper| format!("-{temper}"));
            format!(" for {}{temper}", metal.alloy)
        });
        findings.push(Finding {
            rule: NAME,
            severity: Severity::Refuse,
            place: subject.bend_place(number),
            measured: format!(
                "hem of inside radius {}",
                Length::from_millimetres(bend.inside_radius_mm).print(subject.style)
            ),
            wrong: format!("too tight{metal}: the table's least is {least} at 90° ({source})"),
            remedy: format!("open the hem to an inside radius of {least} or more, or take an O temper"),
        });
    }
}
