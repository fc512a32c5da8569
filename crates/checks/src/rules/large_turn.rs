//! A bend of more than a quarter turn has its mold line out in the air.
//!
//! Whoever measures the finished leg must know to what it was measured.

use std::f64::consts::FRAC_PI_2;

use crate::{Finding, Severity, Subject};

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for bend in subject
        .flat
        .bends
        .iter()
        .filter(|bend| bend.turn_rad > FRAC_PI_2 + geometry::tolerance::PARALLEL_SINE)
    {
        let names = &subject.flat.faces;
        findings.push(Finding {
            rule: "large_turn",
            severity: Severity::Caution,
            place: format!("bend {} to {}", names[bend.parent].name, names[bend.child].name),
            measured: format!("{:.1}°", bend.turn_rad.to_degrees()),
            wrong: "past square, so the outside faces meet beyond the metal".to_owned(),
            remedy: "check the angle with a bevel, not the leg with a square".to_owned(),
        });
    }
}
