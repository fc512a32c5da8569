//! The rules about holes: a sound panel, and the same panel with one fault.

use crate::common::{flange, found, inches, only, panel, round};
use checks::{Limits, Severity};
use shapes::Figure;
use shapes::hole::{Hole, HoleKind};
use shapes::panel::Panel;
use shapes::plate::{Plate, PlateOutline};

const NONE: [checks::Finding; 0] = [];

#[test]
fn a_hole_well_in_its_face_is_sound() {
    let part = panel(vec![flange("AB", "2", 90.0)], vec![round("10", "6", "1")]);
    assert_eq!(found(&part, &Limits::default()), NONE);
}

#[test]
fn a_hole_outside_its_face_is_refused() {
    for at in ["20 1/4", "19 3/4", "25"] {
        let part = panel(vec![flange("AB", "2", 90.0)], vec![round(at, "6", "1")]);
        let all = found(&part, &Limits::default());
        let stops: Vec<_> = all.iter().filter(|finding| finding.severity == Severity::Refuse).collect();
        assert_eq!(stops.len(), 1, "{all:#?}");
        assert_eq!((stops[0].rule, stops[0].place.as_str()), ("hole_place", "holes[0]"));
        assert_eq!(stops[0].measured, "1.000 × 1.000 in panel");
    }
}

#[test]
fn a_hole_that_swallows_its_face_is_refused() {
    let kind = HoleKind::Rectangle { length: inches("30"), width: inches("20"), corner_radius: inches("0") };
    let part = panel(Vec::new(), vec![Hole { at: [inches("10"), inches("6")], kind }]);
    let finding = only(&found(&part, &Limits::default()), "hole_place", Severity::Refuse);
    assert!(finding.wrong.contains("outside"), "{finding}");
}

// The tangent line lies one setback in from the mold line: (R + T)·tan 45° = .25. Clear of a bend is
// 2T + R = .375 from there (common practice, no source).
#[test]
fn a_hole_reaching_into_a_bend_is_refused() {
    let at =
        |y: &str| found(&panel(vec![flange("AB", "2", 90.0)], vec![round("10", y, "1")]), &Limits::default());
    let finding = only(&at(".74"), "hole_place", Severity::Refuse);
    assert!(finding.wrong.contains("runs into a bend"), "{finding}");
    only(&at("0"), "hole_place", Severity::Refuse);
    let finding = only(&at(".76"), "hole_place", Severity::Caution);
    assert!(finding.wrong.contains(".375"), "{finding}");
    only(&at("1.12"), "hole_place", Severity::Caution);
    assert_eq!(at("1.13"), NONE);
}

#[test]
fn a_cut_out_wider_than_a_short_flange_is_seen_on_its_bend() {
    let mut short = flange("AB", "2", 90.0);
    short.short = [inches("8"), inches("8")];
    let cut_out = |y: &str| {
        let kind =
            HoleKind::Rectangle { length: inches("12"), width: inches("2"), corner_radius: inches("0") };
        panel(vec![short.clone()], vec![Hole { at: [inches("10"), inches(y)], kind }])
    };
    let finding = only(&found(&cut_out("1.2"), &Limits::default()), "hole_place", Severity::Refuse);
    assert!(finding.wrong.contains("runs into a bend"), "{finding}");
    only(&found(&cut_out("1.5"), &Limits::default()), "hole_place", Severity::Caution);
    assert_eq!(found(&cut_out("2"), &Limits::default()), NONE);
}

#[test]
fn a_hole_cut_into_by_a_corner_relief_is_refused() {
    // A relief hole of 2 in about the corner where the tangent lines cross, (.25, .25), reaches to 1.25 from there.
    let mut making = crate::common::making();
    making.relief = shapes::ReliefStyle::Round { hole: shapes::ReliefHole::Diameter(inches("2 1/2")) };
    let outline = Figure::rectangle(inches("20").millimetres(), inches("12").millimetres()).unwrap();
    let flanges = vec![flange("AB", "4", 90.0), flange("DA", "4", 90.0)];
    let with = |at: &str| {
        let holes = vec![round(at, at, "1/2")];
        let (outline, flanges) = (outline.clone(), flanges.clone());
        Panel { outline, flanges, holes, notches: Vec::new(), edges: Vec::new() }.shape(&making).unwrap().part
    };
    let finding = only(&found(&with("1"), &Limits::default()), "hole_place", Severity::Refuse);
    assert!(finding.wrong.contains("edge"), "{finding}");
    assert_eq!(found(&with("2"), &Limits::default()), NONE);
}

#[test]
fn holes_that_run_together_are_refused() {
    let two = |at: &str| panel(Vec::new(), vec![round("10", "6", "1"), round(at, "6", "1")]);
    for at in ["10.4", "10", "11"] {
        let finding = only(&found(&two(at), &Limits::default()), "holes_apart", Severity::Refuse);
        assert_eq!((finding.place.as_str(), finding.measured.as_str()), ("holes[1]", "with holes[0]"));
    }
    assert_eq!(found(&two("11 1/8"), &Limits::default()), NONE);
}

#[test]
fn a_hole_within_a_hole_is_refused() {
    let part = panel(Vec::new(), vec![round("10", "6", "1/2"), round("10", "6", "3")]);
    only(&found(&part, &Limits::default()), "holes_apart", Severity::Refuse);
}

#[test]
fn a_web_thinner_than_the_plate_is_a_caution() {
    // Plate .125; a hole of 1 in whose edge comes .1 from the panel's side, and one that leaves the whole .125.
    let at = |x: &str| found(&panel(Vec::new(), vec![round(x, "6", "1")]), &Limits::default());
    let finding = only(&at(".6"), "thin_web", Severity::Caution);
    assert_eq!(finding.measured, ".100");
    assert_eq!(at(".625"), NONE);
    let between = panel(Vec::new(), vec![round("10", "6", "1"), round("11.1", "6", "1")]);
    let finding = only(&found(&between, &Limits::default()), "thin_web", Severity::Caution);
    assert!(finding.wrong.ends_with("left to holes[0]"), "{finding}");
}

#[test]
fn a_hole_near_a_bend_is_not_called_near_an_edge() {
    let part = panel(vec![flange("AB", "2", 90.0)], vec![round("10", ".8", "1")]);
    only(&found(&part, &Limits::default()), "hole_place", Severity::Caution);
}

#[test]
fn holes_of_a_disc_keep_to_its_round_edge() {
    let disc = |x: &str| {
        let outline = PlateOutline::Disc { diameter: inches("10") };
        let plate = Plate { outline, holes: vec![round(x, "0", "1")], notches: Vec::new() };
        plate.shape(&crate::common::making()).unwrap().part
    };
    assert_eq!(found(&disc("0"), &Limits::default()), NONE);
    assert_eq!(found(&disc("4.3"), &Limits::default()), NONE);
    only(&found(&disc("4.45"), &Limits::default()), "thin_web", Severity::Caution);
    let all = found(&disc("4.6"), &Limits::default());
    assert!(all.iter().any(|finding| finding.severity == Severity::Refuse), "{all:#?}");
}
