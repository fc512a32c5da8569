//! Panels, a box and limits shared by the tests of the rules.
#![allow(dead_code, unreachable_pub, reason = "each test file uses its own share")]
#![allow(clippy::unwrap_used, reason = "only tests use it")]

use checks::{Finding, Limits, Severity, Subject};
use fold::BendNumber;
use fold::Direction::{self, Up};
use fold::bend::Origin;
use fold::part::FoldedPart;
use shapes::hole::{Hole, HoleKind};
use shapes::panel::{Flange, Panel};
use shapes::{Figure, Making, ReliefStyle};
use stock::BendModel;
use units::{Angle, Length, LengthStyle, LengthUnit, Mass};

/// A length as taped in inches.
pub fn inches(text: &str) -> Length {
    Length::read(text, LengthUnit::Inch).unwrap()
}

/// Plate .125 thick bent over a radius of .125, K .42.
pub fn making() -> Making {
    let eighth = inches(".125");
    Making {
        number: BendNumber::new(eighth, eighth, BendModel::KFactor(0.42), Origin::Job).unwrap(),
        relief: ReliefStyle::Square,
        corner: shapes::CornerStyle::Open,
        seam_gap: Length::ZERO,
        style: LengthStyle::Inches { places: 3 },
    }
}

/// A flange up, stopping nowhere short.
pub fn flange(side: &str, leg: &str, degrees: f64) -> Flange {
    turned(side, leg, degrees, Up)
}

/// A flange either way.
pub fn turned(side: &str, leg: &str, degrees: f64, direction: Direction) -> Flange {
    let turn = Angle::from_degrees(degrees);
    Flange { side: side.to_owned(), leg: inches(leg), direction, turn, short: [Length::ZERO; 2] }
}

/// A round hole.
pub fn round(x: &str, y: &str, diameter: &str) -> Hole {
    Hole { at: [inches(x), inches(y)], kind: HoleKind::Round { diameter: inches(diameter) } }
}

/// A panel 20 × 12, side AB along the bottom.
pub fn panel(flanges: Vec<Flange>, holes: Vec<Hole>) -> FoldedPart {
    let outline = Figure::rectangle(inches("20").millimetres(), inches("12").millimetres()).unwrap();
    Panel { outline, flanges, holes, notches: Vec::new(), edges: Vec::new() }.shape(&making()).unwrap().part
}

/// What the rules find on a part of ten pounds.
pub fn found(part: &FoldedPart, limits: &Limits) -> Vec<Finding> {
    found_at(part, Mass::from_pounds(10.0), limits)
}

/// What the rules find on a part of the given weight.
pub fn found_at(part: &FoldedPart, weight: Mass, limits: &Limits) -> Vec<Finding> {
    let flat = fold::flat::unfold(part).unwrap();
    let style = LengthStyle::Inches { places: 3 };
    checks::check(&Subject { part, flat: &flat, bent: &flat, weight, limits, bend_order: None, style })
}

/// Asserts that exactly one thing was found, and gives it.
pub fn only(findings: &[Finding], rule: &str, severity: Severity) -> Finding {
    assert_eq!(findings.len(), 1, "{findings:#?}");
    assert_eq!((findings[0].rule, findings[0].severity), (rule, severity), "{findings:#?}");
    findings[0].clone()
}
