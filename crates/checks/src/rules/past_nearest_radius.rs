//! Where no least radius is known, a hem pressed flat, or a bend sharper than the nearest row, is expected to crack.
//!
//! Nothing published says that the metal takes it, and what lies nearest says that it does not. The number is not the
//! metal's own, so the part is not stopped unless the shop asks to stop below least radii.

use fold::part::Forming;
use geometry::tolerance;
use units::Length;

use super::inside_radius::in_decimals;
use super::unknown_radius::{TEST_BEND, metal_words, nearest_words};
use crate::{Finding, Severity, Subject};

pub(crate) const NAME: &str = "past_nearest_radius";

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let Some(unknown) = &subject.limits.no_least_radius else { return };
    let nearest = unknown.nearest.as_ref();
    for (number, bend) in subject.part.bends.iter().enumerate() {
        let radius = Length::from_millimetres(bend.inside_radius_mm);
        let hem = matches!(bend.forming, Forming::Hem);
        let flat = hem && bend.inside_radius_mm <= tolerance::SAME_POINT_MM;
        let sharper = nearest.filter(|nearest| {
            bend.inside_radius_mm < nearest.least.radius.millimetres() - tolerance::SAME_POINT_MM
        });
        if !flat && sharper.is_none() {
            continue;
        }
        let metal = metal_words(subject);
        let against = sharper.map_or_else(
            || "and nothing published says that it takes a hem pressed flat".to_owned(),
            |nearest| format!("and sharper than the nearest row: {}", nearest_words(subject, nearest)),
        );
        let softer = sharper.map_or_else(
            || "an open hem or an O temper".to_owned(),
            |nearest| {
                format!(
                    "a radius of {} or more, or an O temper",
                    in_decimals(nearest.least.radius, subject.style)
                )
            },
        );
        let stop = subject.limits.stop_below_least_radius;
        findings.push(Finding {
            rule: NAME,
            severity: if stop { Severity::Refuse } else { Severity::Caution },
            place: subject.bend_place(number),
            measured: format!(
                "{} of inside radius {}",
                if hem { "hem" } else { "bend" },
                in_decimals(radius, subject.style)
            ),
            wrong: format!("LIKELY TO CRACK: no published least is known for {metal}, {against}"),
            remedy: if stop {
                format!(
                    "take {softer}; or bend a strip, and give the metal the least_inside_radius that it stood"
                )
            } else {
                format!("do not cut good metal before a strip has stood it; {TEST_BEND}; safer: {softer}")
            },
        });
    }
}
