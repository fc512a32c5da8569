//! The inside radius that the part is laid out with is the one that the V die makes.
//!
//! In an air bend the opening of the die makes the radius, not the nose of the punch. A flat laid out for another
//! radius comes out long or short at every bend.

use units::Length;

use stock::brake::{Machine, air_bend_radius};

use crate::{Finding, Severity, Subject};

pub(crate) const NAME: &str = "die_radius";

/// How far outside the published range a radius may lie before it is pointed out (common practice, no source).
const SLACK_SHARE: f64 = 0.25;

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let limits = subject.limits;
    let (Some(Machine::Press(press)), Some(v), Some(metal)) =
        (&limits.machine, limits.v_opening, &limits.metal)
    else {
        return;
    };
    if press.v_openings.is_empty() || subject.part.bends.is_empty() {
        return;
    }
    let Some(made) = air_bend_radius(&metal.alloy, metal.temper.as_deref(), metal.family, v) else { return };
    let radius = subject.part.number.inside_radius();
    let allowed = |length: Length, share: f64| Length::from_millimetres(length.millimetres() * share);
    let (low, high) = (allowed(made.least, 1.0 - SLACK_SHARE), allowed(made.largest, 1.0 + SLACK_SHARE));
    if low <= radius && radius <= high {
        return;
    }
    let print = |length: Length| length.print(subject.style);
    findings.push(Finding {
        rule: NAME,
        severity: Severity::Caution,
        place: "inside radius".to_owned(),
        measured: print(radius),
        wrong: format!(
            "a V of {} air-bends this metal to about {} to {} ({})",
            print(v),
            print(made.least),
            print(made.largest),
            made.source
        ),
        remedy: "bend a strip in this die and give the job its numbers, or take another die".to_owned(),
    });
}
