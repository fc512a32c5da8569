//! A part that is heavy for one pair of hands says so.
//!
//! 51 lb is the load constant of the revised NIOSH lifting equation (DHHS 94-110), the ceiling under ideal conditions
//! and never a design weight.

use units::{LengthUnit, Mass};

use crate::{Finding, Severity, Subject};

pub(crate) const NAME: &str = "heavy_part";

/// The load constant in pounds.
const LOAD_CONSTANT_LB: f64 = 51.0;

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    if subject.weight > Mass::from_pounds(LOAD_CONSTANT_LB) {
        let (measured, limit) = match subject.style.unit() {
            LengthUnit::Inch => (format!("{:.0} lb", subject.weight.pounds()), "51 lb"),
            LengthUnit::Millimetre => (format!("{:.0} kg", subject.weight.kilograms()), "23 kg"),
        };
        findings.push(Finding {
            rule: NAME,
            severity: Severity::Caution,
            place: "weight".to_owned(),
            measured,
            wrong: format!(
                "more than the {limit} that one person should lift even in ideal conditions (NIOSH)"
            ),
            remedy: "lift it with two, or with a hoist".to_owned(),
        });
    }
}
