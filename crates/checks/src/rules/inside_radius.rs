//! The inside radius is not below the least that the metal's table gives.
//!
//! Tighter bends crack on the outside, at once or later. Shops bend tighter than the table with care, so this is a
//! caution.

use crate::{Finding, Severity, Subject};

pub(crate) const NAME: &str = "inside_radius";

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let Some((least, source)) = &subject.limits.least_inside_radius else { return };
    let radius = subject.part.number.inside_radius();
    if radius < *least && !subject.part.bends.is_empty() {
        findings.push(Finding {
            rule: NAME,
            severity: Severity::Caution,
            place: "inside radius".to_owned(),
            measured: radius.print(subject.style),
            wrong: format!("below the table's least of {} ({source})", least.print(subject.style)),
            remedy: "bend a strip across and along the grain and look for cracks".to_owned(),
        });
    }
}
