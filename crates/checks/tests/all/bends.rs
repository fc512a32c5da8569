//! The rules about bends, flanges and weight: a sound part, and the same part with one fault.

use crate::common::{flange, found, found_at, inches, making, only, panel, turned};
use checks::{Limits, MetalName, NoLeastRadius, Severity};
use fold::Direction::Down;
use shapes::Figure;
use shapes::day_box::DayBox;
use shapes::lid::{Lid, LidPlan};
use shapes::pan::Rim;
use shapes::panel::Panel;
use units::{Length, Mass};

const NONE: [checks::Finding; 0] = [];

fn brake(shortest: Option<&str>, v_opening: Option<&str>) -> Limits {
    let (shortest_flange, v_opening) = (shortest.map(inches), v_opening.map(inches));
    Limits { shortest_flange, v_opening, ..Limits::default() }
}

#[test]
fn a_flange_below_the_brakes_own_figure_is_refused() {
    let with =
        |leg: &str| found(&panel(vec![flange("AB", leg, 90.0)], Vec::new()), &brake(Some("3/4"), None));
    let finding = only(&with("11/16"), "short_flange", Severity::No);
    assert_eq!((finding.place.as_str(), finding.measured.as_str()), ("flange AB", ".688"));
    assert!(finding.wrong.contains(".750"), "{finding}");
    assert_eq!(with("3/4"), NONE);
}

// .7 of the V opening: The Fabricator, press brake bending tips on minimum flange lengths (read in a copy).
#[test]
fn a_flange_below_the_estimate_from_the_die_is_a_caution() {
    let with = |leg: &str| found(&panel(vec![flange("AB", leg, 90.0)], Vec::new()), &brake(None, Some("1")));
    only(&with(".69"), "short_flange", Severity::Caution);
    assert_eq!(with(".7"), NONE);
}

/// The brake's own shortest flange, 1/2, holds for its narrowest die. In a V of 1 a leg of .6 is shorter than .7 × 1 and falls
/// in; .6 / .7 = .857 is the widest V that takes it.
#[test]
fn a_flange_that_the_brake_takes_but_not_in_this_die_is_a_caution() {
    let with = |leg: &str, v: &str| {
        found(&panel(vec![flange("AB", leg, 90.0)], Vec::new()), &brake(Some("1/2"), Some(v)))
    };
    let finding = only(&with(".6", "1"), "short_flange", Severity::Caution);
    assert!(finding.wrong.contains(".700") && finding.wrong.contains("falls into the die"), "{finding}");
    assert!(finding.remedy.contains(".857"), "{finding}");
    assert_eq!(with(".6", ".857"), NONE);
    assert_eq!(with(".7", "1"), NONE);
    only(&with(".49", "1"), "short_flange", Severity::No);
}

/// The common chart gives a V of 1 for .125: of it seven tenths.
#[test]
fn without_a_brake_a_flange_is_judged_by_the_common_chart() {
    let with = |leg: &str| found(&panel(vec![flange("AB", leg, 90.0)], Vec::new()), &Limits::default());
    let finding = only(&with(".6"), "short_flange", Severity::Caution);
    assert!(finding.wrong.contains("that the common chart gives, .700"), "{finding}");
    let finding = only(&with(".4"), "short_flange", Severity::Caution);
    assert!(finding.wrong.contains("ends inside the V of 1.000"), "{finding}");
    assert_eq!(with(".7"), NONE);
}

/// A skirt of 1 1/4 with a notch 4 wide and 3/4 deep: the skirt is long enough, the half inch in the notch is told by itself. A
/// notch narrower than the shortest flange is bridged, and where most of the leg is cut away the leg is short.
#[test]
fn a_notch_is_told_by_its_name_and_does_not_shorten_its_leg() {
    let at = |x: f64, y: f64| geometry::Point::new(x * 25.4, y * 25.4);
    let notched = |wide: f64| {
        let mut part = panel(vec![flange("AB", "1 1/4", 90.0)], Vec::new());
        let face = &mut part.faces[1];
        let long = face.corners[1].x / 25.4;
        let (from, to) = (0.5 * (long - wide), 0.5 * (long + wide));
        let [near, far] = [face.corners[0], face.corners[1]];
        let top = |x: f64, y: f64| at(x, y);
        face.corners = vec![
            near,
            far,
            top(long, 1.25),
            top(to, 1.25),
            top(to, 0.5),
            top(from, 0.5),
            top(from, 1.25),
            top(0.0, 1.25),
        ];
        face.edges = vec![fold::part::Edge::Free; 8];
        face.edges[0] = fold::part::Edge::Parent;
        found(&part, &brake(Some("5/8"), Some("3/4")))
    };
    let finding = only(&notched(4.0), "short_flange", Severity::Caution);
    assert_eq!((finding.place.as_str(), finding.measured.as_str()), ("flange AB", ".500"));
    assert!(finding.wrong.contains("notched over 4.000"), "{finding}");
    assert_eq!(notched(0.5), NONE);
    assert!(notched(14.0).iter().any(|finding| finding.severity == Severity::No));
}

/// The ends of a lapped wall step back beside the strip; the wall is as high as it reaches.
#[test]
fn a_wall_with_lapped_corners_is_no_short_leg() {
    let pan = shapes::pan::Pan {
        plan: shapes::pan::PanPlan::Outside { length: inches("15"), width: inches("11") },
        height: inches("3 1/2"),
        rims: vec![Rim::None],
        lean: vec![units::Angle::ZERO; 4],
        edge: shapes::edge::EdgeEnd::Plain,
    };
    for outside in [false, true] {
        let corner =
            shapes::CornerStyle::Lap { width: inches("3/4"), carried_by: shapes::Chosen::LongSides, outside };
        let part = pan.shape(&shapes::Making { corner, ..making() }).unwrap().part;
        let short = found(&part, &brake(Some("5/8"), None));
        let short: Vec<_> = short.iter().filter(|finding| finding.rule == "short_flange").collect();
        assert!(short.is_empty(), "{short:?}");
    }
}

#[test]
fn the_panel_itself_is_a_leg_too() {
    // A strip 1/2 wide with a tall flange: the short leg is the panel.
    let outline = Figure::rectangle(inches("20").millimetres(), inches("1/2").millimetres()).unwrap();
    let flanges = vec![flange("AB", "4", 90.0)];
    let panel = Panel { outline, flanges, holes: Vec::new(), notches: Vec::new(), edges: Vec::new() };
    let part = panel.shape(&making()).unwrap().part;
    let finding = only(&found(&part, &brake(Some("3/4"), None)), "short_flange", Severity::No);
    assert_eq!((finding.place.as_str(), finding.measured.as_str()), ("panel", ".500"));
}

#[test]
fn a_tapering_wall_is_judged_by_its_short_end() {
    // A shallow box whose back slopes from 3/4 deep to 6: its ends taper along their own bend.
    let depths = |top: &str| DayBox {
        width: inches("12"),
        height: inches("10"),
        depth_top: inches(top),
        depth_bottom: inches("6"),
        back_height: inches("10"),
        rim: Rim::None,
    };
    let ends = |top: &str| {
        let part = depths(top).shape(&making()).unwrap().part;
        let all = found(&part, &brake(Some("1"), None));
        all.into_iter().filter(|finding| finding.place.starts_with("end")).collect::<Vec<_>>()
    };
    assert_eq!(ends("3/4").len(), 2);
    assert!(ends("2").is_empty());
}

/// A face rolled to 4 goes through the roll: the brake's length says nothing of it. Without a roll that is pointed out.
#[test]
fn a_rolled_bend_is_not_judged_by_the_brakes_length() {
    let mut part = panel(vec![flange("AB", "6", 90.0)], Vec::new());
    part.bends[0].forming = fold::part::Forming::Rolled;
    part.bends[0].inside_radius_mm = 4.0 * 25.4;
    let long = |part: &fold::FoldedPart, roll: bool| {
        let roll = roll.then(|| stock::brake::SlipRoll { length: Some(inches("60")), least_radius: None });
        let limits = Limits { brake_length: Some(inches("12")), roll, ..Limits::default() };
        let all = found(part, &limits).into_iter();
        all.filter(|finding| ["long_bend", "rolling"].contains(&finding.rule)).collect::<Vec<_>>()
    };
    assert!(long(&part, true).is_empty());
    only(&long(&part, false), "long_bend", Severity::Caution);
    part.bends[0].forming = fold::part::Forming::Brake;
    only(&long(&part, true), "long_bend", Severity::No);
}

/// A hem of 1/2 in .125 ends inside a V of 1 and is pressed in dies of its own: 4.2 thicknesses, .525, are seven tenths of the
/// narrowest V that the chart takes, 6 thicknesses.
#[test]
fn a_hem_is_judged_by_the_narrowest_v_and_never_refused() {
    let with = |leg: &str| {
        let mut part = panel(vec![flange("AB", leg, 90.0)], Vec::new());
        part.bends[0].forming = fold::part::Forming::Hem;
        let all = found(&part, &brake(None, Some("1"))).into_iter();
        all.filter(|finding| finding.rule == "short_flange").collect::<Vec<_>>()
    };
    only(&with("1/2"), "short_flange", Severity::Caution);
    assert!(with(".53").is_empty());
}

#[test]
fn a_joggle_whose_web_lies_inside_the_v_is_pressed_in_offset_dies() {
    let mut part = panel(vec![flange("AB", "3/8", 45.0)], Vec::new());
    part.bends[0].forming = fold::part::Forming::Joggle(0);
    let all = found(&part, &brake(Some("3/4"), Some("1"))).into_iter();
    let short: Vec<_> = all.filter(|finding| finding.rule == "short_flange").collect();
    let finding = only(&short, "short_flange", Severity::Caution);
    assert!(finding.wrong.contains("offset dies"), "{finding}");
}

/// 10 in across a line turned by half a degree, the far edge stands 10·sin .5° = .087 off.
#[test]
fn a_slight_warp_is_sprung_and_told_with_how_far() {
    let mut part = panel(vec![flange("AB", "10", 0.5)], Vec::new());
    only(&found(&part, &Limits::default()), "slight_size", Severity::Refuse);
    part.spring_slight(|_, _| true);
    let finding = only(&found(&part, &Limits::default()), "slight_size", Severity::Caution);
    assert!(finding.wrong.contains(".087 off"), "{finding}");
}

#[test]
fn a_bend_longer_than_the_brake_is_refused() {
    let limits = |length: &str| Limits { brake_length: Some(inches(length)), ..Limits::default() };
    let part = panel(vec![flange("AB", "2", 90.0)], Vec::new());
    let finding = only(&found(&part, &limits("19 15/16")), "long_bend", Severity::No);
    assert_eq!((finding.place.as_str(), finding.measured.as_str()), ("bend panel to flange AB", "20.000"));
    assert_eq!(found(&part, &limits("20")), NONE);
}

#[test]
fn a_radius_below_the_table_is_a_caution_with_the_tables_source() {
    let least = |text: &str| {
        let least_inside_radius = Some((inches(text), "Aluminum Design Manual 2005, part VII".to_owned()));
        Limits { least_inside_radius, ..Limits::default() }
    };
    let part = panel(vec![flange("AB", "2", 90.0)], Vec::new());
    let finding = only(&found(&part, &least("3/16")), "inside_radius", Severity::Caution);
    assert!(finding.wrong.contains("Aluminum Design Manual 2005"), "{finding}");
    assert_eq!(found(&part, &least("1/8")), NONE);
    assert_eq!(found(&panel(Vec::new(), Vec::new()), &least("3/16")), NONE, "nothing is bent");
}

/// A metal without a row of its own, by the tables' nearest.
fn no_row(alloy: &str, temper: Option<&str>, stop: bool) -> Limits {
    Limits {
        metal: Some(MetalName {
            alloy: alloy.to_owned(),
            temper: temper.map(str::to_owned),
            family: stock::Family::Aluminium,
        }),
        no_least_radius: Some(NoLeastRadius {
            nearest: stock::nearest_inside_radius(alloy, temper, making().number.thickness()),
        }),
        stop_below_least_radius: stop,
        ..Limits::default()
    }
}

// Table 3-1 of the Aluminum Design Manual, January 2005, asks 1.5 T of 5083-H321 and 2 T of 5086-H34 in 1/8 in sheet, and
// has no H116 and no H36.
#[test]
fn a_temper_without_a_row_is_said_not_to_be_judged() {
    let mut part = panel(vec![flange("AB", "2", 90.0)], Vec::new());
    part.bends[0].inside_radius_mm = inches("1/4").millimetres();
    let finding =
        only(&found(&part, &no_row("5083", Some("H116"), true)), "unknown_radius", Severity::Caution);
    for words in
        ["not judged", "5083-H116 at .125", "H321, the nearest temper, about as hard, asks .188", "2005"]
    {
        assert!(finding.wrong.contains(words), "{words}: {finding}");
    }
    assert!(finding.remedy.contains("bend a strip"), "{finding}");
    let finding =
        only(&found(&part, &no_row("5086", Some("H36"), false)), "unknown_radius", Severity::Caution);
    assert!(finding.wrong.contains("H34, the nearest temper but softer"), "{finding}");
    let finding =
        only(&found(&part, &no_row("stainless 304", None, true)), "unknown_radius", Severity::Caution);
    assert!(finding.wrong.contains("stainless 304 at .125; nor for any temper"), "{finding}");
    assert_eq!(
        found(&panel(Vec::new(), Vec::new()), &no_row("5083", Some("H116"), true)),
        NONE,
        "nothing is bent"
    );
}

#[test]
fn sharper_than_the_nearest_row_is_likely_to_crack_and_stops_where_asked() {
    let at = |radius: &str, stop: bool| {
        let mut part = panel(vec![flange("AB", "2", 90.0)], Vec::new());
        part.bends[0].inside_radius_mm = inches(radius).millimetres();
        found(&part, &no_row("5083", Some("H116"), stop))
    };
    let rules = |radius: &str| at(radius, false).iter().map(|finding| finding.rule).collect::<Vec<_>>();
    assert_eq!(rules("3/16"), ["unknown_radius"]);
    assert_eq!(rules(".18"), ["unknown_radius", "past_nearest_radius"]);
    let sharp = |stop: bool| {
        at(".18", stop).into_iter().find(|finding| finding.rule == "past_nearest_radius").unwrap()
    };
    assert_eq!(sharp(false).severity, Severity::Caution);
    assert!(sharp(false).wrong.starts_with("LIKELY TO CRACK"), "{}", sharp(false));
    assert_eq!(sharp(true).severity, Severity::Refuse);
    assert!(sharp(true).remedy.contains("a radius of .188 or more"), "{}", sharp(true));
}

#[test]
fn bends_of_one_radius_are_told_once_with_how_many() {
    let mut part =
        panel(vec![flange("AB", "2", 90.0), flange("BC", "2", 90.0), flange("CD", "2", 90.0)], Vec::new());
    for (bend, radius) in part.bends.iter_mut().zip([".18", ".12", ".25"]) {
        bend.inside_radius_mm = inches(radius).millimetres();
    }
    let findings = found(&part, &no_row("5083", Some("H116"), false));
    let sharp: Vec<_> = findings.iter().filter(|finding| finding.rule == "past_nearest_radius").collect();
    assert_eq!(sharp.len(), 1, "{findings:?}");
    assert_eq!(sharp[0].measured, "bend of inside radius .120, and 1 more too sharp");
    assert_eq!(sharp[0].place, "bend panel to flange BC");
}

#[test]
fn a_hem_pressed_flat_where_nothing_is_published_is_never_passed_over() {
    let mut part = panel(vec![turned("AB", "2", 120.0, Down)], Vec::new());
    (part.bends[0].forming, part.bends[0].inside_radius_mm) = (fold::Forming::Hem, 0.0);
    for (alloy, temper) in [("5086", Some("H116")), ("stainless 304", None)] {
        for stop in [false, true] {
            let findings = found(&part, &no_row(alloy, temper, stop));
            let sharp = findings.iter().find(|finding| finding.rule == "past_nearest_radius").unwrap();
            assert!(sharp.measured.starts_with("hem of inside radius"), "{sharp}");
            assert_eq!(sharp.severity == Severity::Refuse, stop, "{sharp}");
        }
    }
}

#[test]
fn a_turn_past_square_is_a_caution() {
    let with =
        |degrees: f64| found(&panel(vec![turned("AB", "2", degrees, Down)], Vec::new()), &Limits::default());
    let finding = only(&with(95.0), "large_turn", Severity::Caution);
    assert_eq!(finding.measured, "95.0°");
    assert_eq!(with(90.0), NONE);
    assert_eq!(with(45.0), NONE);
    // A hem is pressed and a curl rolled to its shape: there is no angle to check.
    for forming in [fold::Forming::Hem, fold::Forming::Rolled] {
        let mut part = panel(vec![turned("AB", "2", 120.0, Down)], Vec::new());
        part.bends[0].forming = forming;
        assert!(found(&part, &Limits::default()).iter().all(|finding| finding.rule != "large_turn"));
    }
}

// 51 lb: load constant of the revised lifting equation, NIOSH, DHHS 94-110.
#[test]
fn a_part_too_heavy_for_one_is_a_caution() {
    let part = panel(Vec::new(), Vec::new());
    let at = |pounds: f64| found_at(&part, Mass::from_pounds(pounds), &Limits::default());
    let finding = only(&at(52.4), "heavy_part", Severity::Caution);
    assert!(finding.wrong.contains("NIOSH"), "{finding}");
    assert_eq!(at(51.0), NONE);
}

#[test]
fn several_faults_are_all_found_in_the_order_of_the_rules() {
    let holes = vec![
        crate::common::round("10", "0", "1"),
        crate::common::round("10", "6", "1"),
        crate::common::round("10", "6", "1"),
    ];
    let part = panel(vec![flange("AB", "1/2", 120.0)], holes);
    let limits = Limits {
        brake_length: Some(inches("12")),
        least_inside_radius: Some((inches("1"), "a table".to_owned())),
        ..brake(Some("3/4"), None)
    };
    let rules: Vec<&str> =
        found_at(&part, Mass::from_pounds(80.0), &limits).iter().map(|finding| finding.rule).collect();
    let not_here = [
        "thin_web",
        "slight_size",
        "hem_temper",
        "unknown_radius",
        "past_nearest_radius",
        "corner_relief",
        "die_radius",
        "tonnage",
        "rolling",
        "bend_order",
        "narrow_cut",
    ];
    let mut expected: Vec<&str> = checks::rule_names().filter(|name| !not_here.contains(name)).collect();
    assert_eq!(rules, expected);
    expected.sort_unstable();
    expected.dedup();
    assert_eq!(expected.len() + not_here.len(), checks::rule_names().count(), "no two rules share a name");
}

#[test]
fn a_sound_lid_passes_every_rule() {
    let plan = LidPlan::Outside { length: inches("30"), width: inches("20") };
    let part =
        Lid { plan, skirt: inches("2"), edge: shapes::edge::EdgeEnd::Plain }.shape(&making()).unwrap().part;
    let limits = Limits {
        brake_length: Some(inches("48")),
        least_inside_radius: Some((inches("1/8"), "a table".to_owned())),
        shortest_flange: Some(inches("3/4")),
        v_opening: Some(Length::from_inches(1.0)),
        ..Limits::default()
    };
    assert_eq!(found(&part, &limits), NONE);
}

#[test]
fn bends_and_blanks_too_slight_to_make_are_refused() {
    let turned =
        |degrees: f64| found(&panel(vec![flange("AB", "2", degrees)], Vec::new()), &Limits::default());
    assert!(turned(0.9).iter().any(|finding| finding.rule == "slight_size"));
    only(&turned(0.9), "slight_size", Severity::Refuse);
    assert_eq!(turned(1.1), NONE);
    let strip = |width: &str| {
        let outline = Figure::rectangle(inches("20").millimetres(), inches(width).millimetres()).unwrap();
        let panel =
            Panel { outline, flanges: Vec::new(), holes: Vec::new(), notches: Vec::new(), edges: Vec::new() };
        found(&panel.shape(&making()).unwrap().part, &Limits::default())
    };
    only(&strip(".249"), "slight_size", Severity::Refuse);
    assert_eq!(strip(".25"), NONE);
}
