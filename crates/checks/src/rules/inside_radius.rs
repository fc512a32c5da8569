//! No inside radius is below the least that the metal's table gives.
//!
//! Tighter bends crack on the outside, at once or later. Shops bend tighter than the table with care, so this is a
//! caution unless the shop asks to stop there. Hems have a rule of their own.

use fold::part::{Bend, Forming};
use geometry::tolerance;
use units::{Length, LengthStyle};

use crate::{Finding, Severity, Subject};

pub(crate) const NAME: &str = "inside_radius";

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let Some((least, source)) = &subject.limits.least_inside_radius else { return };
    let bent =
        subject.part.bends.iter().filter(|bend| !matches!(bend.forming, Forming::Hem | Forming::Sprung));
    let tightest = bent.map(|bend: &Bend| bend.inside_radius_mm).fold(f64::INFINITY, f64::min);
    if least.millimetres() - tolerance::SAME_POINT_MM <= tightest {
        return;
    }
    let stop = subject.limits.stop_below_least_radius;
    let remedy = if stop {
        format!("give an inside radius of {} or more, or a softer temper", in_decimals(*least, subject.style))
    } else {
        "bend a strip across and along the grain and look for cracks".to_owned()
    };
    findings.push(Finding {
        rule: NAME,
        severity: if stop { Severity::Refuse } else { Severity::Caution },
        place: "inside radius".to_owned(),
        measured: in_decimals(Length::from_millimetres(tightest), subject.style),
        wrong: format!("below the table's least of {} ({source})", in_decimals(*least, subject.style)),
        remedy,
    });
}

/// A radius as metal is bought, in decimals, whatever tape the shop lays out with.
pub(super) fn in_decimals(length: Length, style: LengthStyle) -> String {
    match style {
        LengthStyle::Tape { .. } => length.print(LengthStyle::Inches { places: 3 }),
        LengthStyle::Inches { .. } | LengthStyle::Millimetres { .. } => length.print(style),
    }
}
