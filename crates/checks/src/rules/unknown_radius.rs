//! A metal that no table gives a least inside radius for says so, and is not passed in silence.
//!
//! A rule without a number would let every bend by, which reads as if it had been looked at. What lies nearest in the
//! tables is named to go by until a strip is bent.

use stock::{NearestRadius, TemperBeside};

use super::inside_radius::in_decimals;
use crate::{Finding, Severity, Subject};

pub(crate) const NAME: &str = "unknown_radius";

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let Some(unknown) = &subject.limits.no_least_radius else { return };
    let radii = subject.part.bends.iter().map(|bend| bend.inside_radius_mm);
    let Some(tightest) = radii.min_by(f64::total_cmp) else { return };
    let tightest = units::Length::from_millimetres(tightest);
    let nearest = unknown.nearest.as_ref().map_or_else(
        || "nor for any temper of it".to_owned(),
        |nearest| format!("to go by: {}", nearest_words(subject, nearest)),
    );
    findings.push(Finding {
        rule: NAME,
        severity: Severity::Caution,
        place: "inside radius".to_owned(),
        measured: in_decimals(tightest, subject.style),
        wrong: format!("not judged: no published least is known for {}; {nearest}", metal_words(subject)),
        remedy: TEST_BEND.to_owned(),
    });
}

/// What to do where no table helps.
const TEST_BEND: &str = "bend a strip of this sheet across and along the grain and look for cracks; then give the metal the \
                         least radius that stood";

/// "5086-H116 at .250".
pub(super) fn metal_words(subject: &Subject<'_>) -> String {
    let thickness = in_decimals(subject.part.number.thickness(), subject.style);
    subject.limits.metal.as_ref().map_or_else(
        || format!("this metal at {thickness}"),
        |metal| {
            let temper = metal.temper.as_ref().map_or_else(String::new, |temper| format!("-{temper}"));
            format!("{}{temper} at {thickness}", metal.alloy)
        },
    )
}

/// "H34, which is softer, asks .250 at 90° (source)".
pub(super) fn nearest_words(subject: &Subject<'_>, nearest: &NearestRadius) -> String {
    let temper = nearest.temper.as_deref().unwrap_or("the metal");
    let beside = match nearest.beside {
        TemperBeside::Same => "the same temper",
        TemperBeside::Alike => "the nearest temper, about as hard",
        TemperBeside::Softer => "the nearest temper but softer, so this one cracks sooner",
        TemperBeside::Harder => "the nearest temper, harder",
        TemperBeside::Unnamed => "the softest, for no temper is named",
    };
    let least = &nearest.least;
    let thinner = if nearest.for_thinner_sheet {
        let row = in_decimals(least.row_thickness, subject.style);
        format!(", by its row for sheet of {row}, the thickest there is; thicker asks for no less")
    } else {
        String::new()
    };
    let asks = in_decimals(least.radius, subject.style);
    format!("{temper}, {beside}, asks {asks} at 90°{thinner} ({})", least.source)
}
