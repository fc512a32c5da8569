//! Where no least radius is known, a hem pressed flat, or a bend sharper than the nearest row, is expected to crack.
//!
//! Nothing published says that the metal takes it, and what lies nearest says that it does not. The number is not the
//! metal's own, so the part is not stopped unless the shop asks to stop below least radii.

use fold::part::{Bend, Forming};
use geometry::tolerance;
use stock::NearestRadius;
use units::Length;

use super::inside_radius::in_decimals;
use super::unknown_radius::{metal_words, nearest_words};
use crate::{Finding, Severity, Subject};

pub(crate) const NAME: &str = "past_nearest_radius";

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let Some(unknown) = &subject.limits.no_least_radius else { return };
    let nearest = unknown.nearest.as_ref();
    let too_sharp = |bend: &Bend| {
        let sharper = nearest.is_some_and(|nearest| is_sharper(bend, nearest));
        sharper || is_hem(bend) && bend.inside_radius_mm <= tolerance::SAME_POINT_MM
    };
    // Bends of a part mostly share their radius: the tightest is told, once for bends and once for hems.
    for hems in [false, true] {
        let bends = subject.part.bends.iter().enumerate();
        let told: Vec<(usize, &Bend)> =
            bends.filter(|(_, bend)| is_hem(bend) == hems && too_sharp(bend)).collect();
        let tightest = told.iter().min_by(|a, b| a.1.inside_radius_mm.total_cmp(&b.1.inside_radius_mm));
        if let Some(&(number, bend)) = tightest {
            findings.push(finding(subject, (number, bend, told.len() - 1), nearest));
        }
    }
}

fn is_hem(bend: &Bend) -> bool {
    matches!(bend.forming, Forming::Hem | Forming::Sprung)
}

fn is_sharper(bend: &Bend, nearest: &NearestRadius) -> bool {
    bend.inside_radius_mm < nearest.least.radius.millimetres() - tolerance::SAME_POINT_MM
}

/// The finding of the tightest bend, and of how many others like it.
fn finding(
    subject: &Subject<'_>,
    (number, bend, others): (usize, &Bend, usize),
    nearest: Option<&NearestRadius>,
) -> Finding {
    let sharper = nearest.filter(|nearest| is_sharper(bend, nearest));
    let against = sharper.map_or_else(
        || "and nothing published says that it takes a hem pressed flat".to_owned(),
        |nearest| format!("and this is sharper than the nearest row: {}", nearest_words(subject, nearest)),
    );
    let softer = sharper.map_or_else(
        || "an open hem or an O temper".to_owned(),
        |nearest| {
            let least = in_decimals(nearest.least.radius, subject.style);
            format!("a radius of {least} or more, or an O temper")
        },
    );
    let stop = subject.limits.stop_below_least_radius;
    let also = if others == 0 { String::new() } else { format!(", and {others} more too sharp") };
    let what = if is_hem(bend) { "hem" } else { "bend" };
    let radius = in_decimals(Length::from_millimetres(bend.inside_radius_mm), subject.style);
    Finding {
        rule: NAME,
        severity: if stop { Severity::Refuse } else { Severity::Caution },
        place: subject.bend_place(number),
        measured: format!("{what} of inside radius {radius}{also}"),
        wrong: format!(
            "LIKELY TO CRACK: no published least is known for {}, {against}",
            metal_words(subject)
        ),
        remedy: if stop {
            format!(
                "take {softer}; or bend a strip, and give the metal the least_inside_radius that it stood"
            )
        } else {
            format!("cut no good metal before a bent strip has stood it; safer is {softer}")
        },
    }
}
