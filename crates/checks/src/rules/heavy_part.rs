//! A part that is heavy for one pair of hands says so.
//!
//! 51 lb is the load constant of the revised NIOSH lifting equation (DHHS 94-110), the ceiling under ideal conditions
//! and never a design weight.

use units::Mass;

use crate::{Finding, Severity, Subject};

pub(crate) const NAME: &str = "heavy_part";

/// The load constant in pounds.
const LOAD_CONSTANT_LB: f64 = 51.0;

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    if subject.weight > Mass::from_pounds(LOAD_CONSTANT_LB) {
        findings.push(Finding {
            rule: NAME,
            severity: Severity::Caution,
            place: "weight".to_owned(),
            measured: format!("{:.0} lb, {:.0} kg", subject.weight.pounds(), subject.weight.kilograms()),
            wrong: "more than the 51 lb (23 kg) that one person should lift even in ideal conditions (NIOSH)"
                .to_owned(),
            remedy: "lift it with two, or with a hoist".to_owned(),
        });
    }
}
