//! What the shop's machine can make: boxes on fingers and bars, tonnage, dies, hems, rolls.

#![allow(clippy::unwrap_used, reason = "a test may stop at a part that cannot be made")]

use crate::common::{flange, inches, making, panel};
use checks::{Finding, Limits, MetalName, Severity, Subject};
use fold::Direction::Up;
use fold::flat::unfold;
use fold::order::{self, Outcome};
use fold::part::{FoldedPart, Forming};
use shapes::cone::Cone;
use shapes::cylinder::Cylinder;
use shapes::panel::{Flange, Panel};
use shapes::wrap::{DiameterTo, WrapMaking};
use shapes::{Figure, Recipe};
use stock::Family;
use stock::brake::{Clamp, Folder, Machine, PressBrake, Profile, Punch, SlipRoll};
use units::{Angle, Length, LengthStyle, Mass};

fn folder(clamp: Clamp) -> Machine {
    Machine::Folder(Folder {
        length: Some(inches("48")),
        throat: None,
        stop_reach: None,
        clamp,
        nose_angle: Some(Angle::from_degrees(45.0)),
        leaf_thickness: Some(inches("1/2")),
        leaf_width: Some(inches("2")),
    })
}

fn fingers(widths: &[&str], deepest: &str) -> Machine {
    let widths = widths.iter().map(|width| inches(width)).collect();
    folder(Clamp::Fingers { widths, deepest_box: Some(inches(deepest)) })
}

fn bar() -> Machine {
    folder(Clamp::Bar { height: Some(inches("2")) })
}

/// A box 20 × 12, all four sides up.
fn open_box(deep: &str) -> FoldedPart {
    panel(["AB", "BC", "CD", "DA"].map(|side| flange(side, deep, 90.0)).to_vec(), Vec::new())
}

fn limits(machine: Machine) -> Limits {
    Limits {
        machine: Some(machine),
        metal: Some(MetalName {
            alloy: "5052".to_owned(),
            temper: Some("H34".to_owned()),
            family: Family::Aluminium,
        }),
        ..Limits::default()
    }
}

fn found(part: &FoldedPart, limits: &Limits) -> (Outcome, Vec<Finding>) {
    let flat = unfold(part).unwrap();
    let outcome = order::find(&flat, limits.machine.as_ref().unwrap(), limits.v_opening, &[]);
    let findings = checks::check(&Subject {
        part,
        flat: &flat,
        bent: &flat,
        weight: Mass::from_pounds(10.0),
        limits,
        bend_order: Some(&outcome),
        style: LengthStyle::Inches { places: 3 },
    });
    (outcome, findings)
}

#[test]
fn a_box_goes_on_fingers_that_add_up_between_its_sides() {
    let own = ["1", "1", "2", "3", "4", "5", "8"];
    let (outcome, findings) = found(&open_box("3"), &limits(fingers(&own, "4")));
    assert_eq!(findings, Vec::new());
    let Outcome::Order(order) = outcome else { panic!("{outcome:?}") };
    assert_eq!((order.steps.len(), order.turn_overs), (4, 0));
    // A side between two that stand already has fingers that go between them; the last one has.
    let mut bent: Vec<usize> = Vec::new();
    for step in &order.steps {
        let side = step.bends[0];
        let between_walls = [1, 3].iter().all(|next| bent.contains(&((side + next) % 4)));
        let tools = step.tooling.as_ref();
        assert_eq!(tools.is_some_and(|tools| tools.confined), between_walls, "{step:?}");
        if let Some(tools) = tools.filter(|_| between_walls) {
            let between = if side % 2 == 0 { 20.0 } else { 12.0 };
            assert!(tools.length.inches() < between, "{tools:?}");
            assert!(tools.short_by <= inches("1"), "{tools:?}");
        }
        bent.push(side);
    }
}

/// On one straight bar two opposite sides can be bent, and then the bar has no room between them.
#[test]
fn a_box_does_not_go_on_a_straight_bar() {
    let (outcome, findings) = found(&open_box("3"), &limits(bar()));
    assert!(matches!(outcome, Outcome::Impossible(_)));
    let no = findings.iter().find(|finding| finding.rule == "bend_order").unwrap();
    assert_eq!(no.severity, Severity::No);
    assert!(no.wrong.contains("the clamp bar"), "{no}");
    assert!(no.remedy.starts_with("with fingers in place of the clamp bar"), "{no}");
    let channel = panel(vec![flange("AB", "2", 90.0), flange("CD", "2", 90.0)], Vec::new());
    assert!(matches!(found(&channel, &limits(bar())).0, Outcome::Order(_)));
}

#[test]
fn a_box_deeper_than_the_fingers_meets_the_beam() {
    let (outcome, findings) = found(&open_box("5"), &limits(fingers(&[], "4")));
    assert!(matches!(outcome, Outcome::Impossible(_)));
    assert!(
        findings.iter().any(|finding| finding.wrong.contains("the deepest box is 4.000")),
        "{findings:?}"
    );
    let no = findings.iter().find(|finding| finding.rule == "bend_order").unwrap();
    let named = no.remedy.strip_prefix("with fingers for boxes ").unwrap().split(' ').next().unwrap();
    assert!(matches!(found(&open_box("5"), &limits(fingers(&[], named))).0, Outcome::Order(_)), "{no}");
}

/// The brake that is named for a bend longer than the shop's, and the leg and the V for a flange that ends inside the shop's V:
/// with each of them the rule passes.
#[test]
fn what_is_named_for_length_and_flange_passes() {
    let part = panel(vec![flange("AB", "3/8", 90.0)], Vec::new());
    let with = |part: &FoldedPart, v: &str, length: &str| {
        let press = PressBrake { v_openings: vec![inches(v), inches("1/2")], ..PressBrake::default() };
        let own = Limits {
            v_opening: Some(inches(v)),
            brake_length: Some(inches(length)),
            ..limits(Machine::Press(press))
        };
        let findings = found(part, &own).1;
        findings.into_iter().find(|finding| ["short_flange", "long_bend"].contains(&finding.rule))
    };
    let after = |finding: &Finding, words: &str| {
        let rest = finding.remedy.split(words).nth(1).unwrap_or_else(|| panic!("{finding}"));
        rest.trim().split([' ', ',']).next().unwrap().to_owned()
    };
    let flange_told = with(&part, "1", "48").unwrap();
    let longer = after(&flange_told, "lengthen the leg to");
    assert_eq!(with(&panel(vec![flange("AB", &longer, 90.0)], Vec::new()), "1", "48"), None);
    // Six thicknesses of .125 are .75: no V that holds so short a leg is wide enough for the sheet.
    assert!(flange_told.remedy.contains("no V that holds it is wide enough"), "{flange_told}");
    let part = panel(vec![flange("AB", ".6", 90.0)], Vec::new());
    let narrower = after(&with(&part, "2", "48").unwrap(), "a V no wider than");
    assert_eq!(with(&part, &narrower, "48"), None, "{narrower}");
    assert!(with(&part, "1", "48").is_some());
    let long = with(&part, &narrower, "12").unwrap();
    assert_eq!(with(&part, &narrower, &after(&long, "made on a brake")), None, "{long}");
}

#[test]
fn fingers_too_coarse_for_the_box_are_told() {
    let (outcome, findings) = found(&open_box("3"), &limits(fingers(&["9", "9"], "4")));
    assert!(matches!(outcome, Outcome::Impossible(_)));
    let no = findings.iter().find(|finding| finding.wrong.contains("no fingers that fit")).unwrap();
    let more = no.remedy.split(" it can be bent").next().unwrap().replace(" and ", " ").replace(',', " ");
    let more = more.split(' ').filter(|word| word.starts_with(|first: char| first.is_ascii_digit()));
    let all: Vec<&str> = ["9", "9"].into_iter().chain(more).collect();
    assert!(2 < all.len(), "{no}");
    assert!(matches!(found(&open_box("3"), &limits(fingers(&all, "4"))).0, Outcome::Order(_)), "{no}");
}

/// As printed beside a chart, publisher not known: .125 in mild steel in a 1 in V takes 575·.125²/1 = 8.984 tons to the foot; 5052-H34 takes .65 of it.
/// A bend of 20 in: 8.984 · .65 · 20/12 = 9.73 tons.
#[test]
fn tonnage_by_the_formula_of_the_charts() {
    let part = panel(vec![flange("AB", "2", 90.0)], Vec::new());
    let with = |tons: f64| {
        let press =
            PressBrake { limit_us_tons: Some(tons), v_openings: vec![inches("1")], ..PressBrake::default() };
        let limits = Limits { v_opening: Some(inches("1")), ..limits(Machine::Press(press)) };
        found(&part, &limits).1.into_iter().find(|finding| finding.rule == "tonnage")
    };
    let refused = with(9.7).unwrap();
    assert_eq!(
        (refused.severity, refused.measured.starts_with("9.7 tons over 20.000")),
        (Severity::No, true)
    );
    assert_eq!(with(9.8).unwrap().severity, Severity::Caution, "within the fifth by which charts differ");
    assert_eq!(with(13.0), None);
}

/// As the chart for steel has it (Benson, as cited): .125 in is 3.175 mm, between 2.6 mm with 90 and 3.2 mm with 100 tons to the metre
/// pressed flat, 55 and 70 left open: 99.58 and 69.38, times .33598 in US tons to the foot, times .65 for 5052-H34, over 20 in:
/// 36.2 and 25.3 tons. The bend itself takes 9.7.
#[test]
fn a_hem_takes_the_tons_that_press_it() {
    let with = |tons: f64, radius_mm: f64| {
        let mut part = panel(vec![flange("AB", "2", 90.0)], Vec::new());
        (part.bends[0].forming, part.bends[0].inside_radius_mm) = (Forming::Hem, radius_mm);
        let press =
            PressBrake { limit_us_tons: Some(tons), v_openings: vec![inches("1")], ..PressBrake::default() };
        let limits = Limits { v_opening: Some(inches("1")), ..limits(Machine::Press(press)) };
        found(&part, &limits).1.into_iter().filter(|finding| finding.rule == "tonnage").collect::<Vec<_>>()
    };
    let told = with(30.0, 0.0);
    assert_eq!((told.len(), told[0].severity), (1, Severity::No), "{told:?}");
    assert!(told[0].measured.starts_with("36.2 tons over 20.000"), "{}", told[0]);
    assert!(told[0].wrong.contains("to press the hem flat"), "{}", told[0]);
    assert_eq!(with(40.0, 0.0)[0].severity, Severity::Caution, "within the fifth by which charts differ");
    assert_eq!(with(46.0, 0.0), Vec::new());
    let open = with(20.0, 3.0);
    assert!(open[0].measured.starts_with("25.3 tons"), "{}", open[0]);
}

#[test]
fn the_die_must_make_the_radius_that_was_laid_out() {
    let part = panel(vec![flange("AB", "4", 90.0)], Vec::new());
    let with = |v: &str| {
        let press = PressBrake { v_openings: vec![inches(v)], ..PressBrake::default() };
        let mut limits = Limits { v_opening: Some(inches(v)), ..limits(Machine::Press(press)) };
        limits.metal.as_mut().unwrap().temper = Some("H32".to_owned());
        found(&part, &limits).1.iter().any(|finding| finding.rule == "die_radius")
    };
    assert!(!with("1"), "5052-H32 in a 1 in V comes to .130 to .150");
    assert!(with("2"), "in a 2 in V to .260 to .300, and the part is laid out for .125");
}

#[test]
fn a_flange_inside_the_die_is_refused() {
    let part = panel(vec![flange("AB", "3/8", 90.0)], Vec::new());
    let press = PressBrake { v_openings: vec![inches("1")], ..PressBrake::default() };
    let limits = Limits { v_opening: Some(inches("1")), ..limits(Machine::Press(press)) };
    let findings = found(&part, &limits).1;
    let short = findings.iter().find(|finding| finding.rule == "short_flange").unwrap();
    assert_eq!(short.severity, Severity::No);
    assert!(short.wrong.contains("inside the V"), "{short}");
}

#[test]
fn hems_and_rolled_faces_keep_to_metal_and_roll() {
    let least = |forming: Forming, radius: &str, limits: &Limits| {
        let mut part = panel(vec![flange("AB", "4", 90.0)], Vec::new());
        part.bends[0].forming = forming;
        part.bends[0].inside_radius_mm = inches(radius).millimetres();
        found(&part, limits).1
    };
    let table = Limits { least_inside_radius: Some((inches("3/16"), "a table".to_owned())), ..limits(bar()) };
    let hem = least(Forming::Hem, "1/16", &table);
    assert!(hem.iter().any(|f| f.rule == "hem_temper" && f.severity == Severity::Refuse), "{hem:?}");
    assert!(!least(Forming::Hem, "3/16", &table).iter().any(|f| f.rule == "hem_temper"));
    let roll = SlipRoll { length: Some(inches("19")), least_radius: Some(inches("2")) };
    let rolled = Limits { roll: Some(roll), ..limits(bar()) };
    let count = |radius: &str| {
        least(Forming::Rolled, radius, &rolled).iter().filter(|finding| finding.rule == "rolling").count()
    };
    assert_eq!((count("1"), count("2")), (2, 1), "too tight and too wide; then only too wide");
}

/// A rolled wrap is as tight as its own inside radius, not as the metal's: 5 in for 10 in inside. A cone is tightest at its
/// small end: 3 in over the cosine of a lean of atan(2/4), 3.354 in (Meusnier; inside is square to the axis, so the middle
/// lies .0625·cos lean out and the inside .0625 in from that).
#[test]
fn a_rolled_wrap_is_held_against_its_own_radius() {
    let made = WrapMaking { rolled: true, strikes: None, seam: shapes::wrap::WrapSeam::Butt };
    let to = DiameterTo::Inside;
    let cylinder = Cylinder { diameter: inches("10"), to, length: inches("12"), ends: [None; 2], made };
    let cone = Cone { large: inches("10"), small: inches("6"), height: inches("4"), to, made };
    let told = |recipe: &dyn Recipe, least: &str| {
        let part = recipe.shape_piece(0, &making()).unwrap().part;
        let roll = SlipRoll { length: Some(inches("40")), least_radius: Some(inches(least)) };
        let mut findings = found(&part, &Limits { roll: Some(roll), ..limits(bar()) }).1;
        findings.retain(|finding| finding.rule == "rolling");
        findings
    };
    for (recipe, fits, tight, measured) in
        [(&cylinder as &dyn Recipe, "5", "5.01", "5.000"), (&cone, "3.35", "3.36", "3.354")]
    {
        assert_eq!(told(recipe, "1"), Vec::new());
        assert_eq!(told(recipe, fits), Vec::new());
        let findings = told(recipe, tight);
        assert_eq!(findings.len(), 1, "once for the whole wrap: {findings:?}");
        assert_eq!((findings[0].severity, findings[0].measured.as_str()), (Severity::No, measured));
    }
}

#[test]
fn a_radius_below_the_table_stops_only_when_asked() {
    let part = panel(vec![flange("AB", "2", 90.0)], Vec::new());
    let with = |stop: bool| {
        let limits = Limits {
            least_inside_radius: Some((inches("3/16"), "a table".to_owned())),
            stop_below_least_radius: stop,
            ..limits(bar())
        };
        found(&part, &limits).1.iter().find(|finding| finding.rule == "inside_radius").map(|f| f.severity)
    };
    assert_eq!((with(false), with(true)), (Some(Severity::Caution), Some(Severity::Refuse)));
}

/// Four sides with returns inward: the fingers for the last sides would have to pass between the returns.
#[test]
fn wide_returns_inward_leave_fingers_no_way() {
    let with_returns = |back: f64| {
        let mut part = open_box("3");
        add_returns(&mut part, back);
        found(&part, &limits(fingers(&[], "4"))).0
    };
    assert!(matches!(with_returns(0.4), Outcome::Order(_)), "fingers may fall an inch short in all");
    assert!(matches!(with_returns(2.0), Outcome::Impossible(_)));
}

/// A return of `inches_back` inward on every side, cut back at its ends so that the returns do not meet.
fn add_returns(part: &mut FoldedPart, inches_back: f64) {
    use fold::part::{Bend, Edge, Face, LegsTo};
    use geometry::Point;
    let back = Length::from_inches(inches_back).millimetres();
    for side in 1..part.faces.len() {
        let far = part.faces[side].edges.iter().rposition(|edge| *edge == Edge::Free).unwrap();
        let edge = (0..part.faces[side].edges.len())
            .max_by(|&a, &b| {
                let middle = |e: usize| part.faces[side].edge(e).0.toward(part.faces[side].edge(e).1, 0.5).y;
                middle(a).total_cmp(&middle(b))
            })
            .unwrap_or(far);
        let (from, to) = part.faces[side].edge(edge);
        let (long, child, bend) = (from.distance(to), part.faces.len(), part.bends.len());
        part.faces[side].edges[edge] = Edge::Bend(bend);
        let corners = [(0.0, 0.0), (long, 0.0), (long - back, back), (back, back)];
        part.faces.push(Face {
            name: format!("return {side}"),
            corners: corners.map(|(x, y)| Point::new(x, y)).to_vec(),
            edges: vec![Edge::Parent, Edge::Free, Edge::Free, Edge::Free],
            holes: Vec::new(),
            rim: None,
        });
        part.bends.push(Bend { parent: side, parent_edge: edge, child, ..part.bends[0] });
        part.bends[bend].legs_to = LegsTo::MoldLine;
    }
}

#[test]
fn a_flange_part_way_along_an_edge_can_be_bent() {
    let outline = Figure::rectangle(inches("20").millimetres(), inches("12").millimetres()).unwrap();
    let part_way = Flange {
        side: "AB".to_owned(),
        leg: inches("2"),
        direction: Up,
        turn: Angle::from_degrees(90.0),
        short: [inches("3"), inches("3")],
    };
    let recipe =
        Panel { outline, flanges: vec![part_way], holes: Vec::new(), notches: Vec::new(), edges: Vec::new() };
    let part = recipe.shape(&making()).unwrap().part;
    for machine in [bar(), fingers(&[], "4"), Machine::Press(PressBrake::default())] {
        let v = Limits { v_opening: Some(inches("1")), ..limits(machine) };
        assert!(matches!(found(&part, &v).0, Outcome::Order(_)), "{:?}", v.machine);
    }
}

/// A punch of 85° does not go into a bend that opens to 80°, whatever else the panel meets behind it.
#[test]
fn a_blunt_punch_is_told_and_a_sharper_one_asked_for() {
    let part = panel(vec![flange("AB", "2", 100.0)], Vec::new());
    let with = |degrees: f64| {
        let punch = Punch { angle: Some(Angle::from_degrees(degrees)), ..Punch::default() };
        let throat = Some(inches("8"));
        let press = PressBrake { v_openings: vec![inches("1")], throat, punch, ..PressBrake::default() };
        let limits = Limits { v_opening: Some(inches("1")), ..limits(Machine::Press(press)) };
        found(&part, &limits)
    };
    let (outcome, findings) = with(85.0);
    assert!(matches!(outcome, Outcome::Impossible(_)));
    let no = findings.iter().find(|finding| finding.rule == "bend_order").unwrap();
    assert!(no.wrong.contains("the punch of 85.0° is too blunt for an opening of 80.0°"), "{no}");
    assert!(!no.wrong.contains("frame"), "{no}");
    assert!(no.remedy.contains("a punch and a die of 80.0° or sharper"), "{no}");
    assert!(!no.remedy.contains("seam"), "{no}");
    assert!(matches!(with(78.0).0, Outcome::Order(_)));
}

/// A return of 1 3/4 inward on a flange of 2 swings into a straight punch: the finding names the gooseneck that clears it,
/// and with that there is an order.
#[test]
fn the_punch_that_would_do_is_named_in_the_place_of_the_shops_own() {
    let mut part = panel(vec![flange("AB", "2", 90.0)], Vec::new());
    add_returns(&mut part, 1.75);
    let with = |profile: Profile, relief: Option<Length>| {
        let punch = Punch {
            profile: Some(profile),
            height: Some(inches("6")),
            width: Some(inches("3/4")),
            angle: Some(Angle::from_degrees(85.0)),
            relief,
            ..Punch::default()
        };
        let press = PressBrake { v_openings: vec![inches("1")], punch, ..PressBrake::default() };
        let limits = Limits { v_opening: Some(inches("1")), ..limits(Machine::Press(press)) };
        found(&part, &limits)
    };
    let (outcome, findings) = with(Profile::Straight, None);
    assert!(matches!(outcome, Outcome::Impossible(_)));
    let no = findings.iter().find(|finding| finding.rule == "bend_order").unwrap();
    let words = no.remedy.split("a gooseneck punch cut back by ").nth(1).unwrap_or_else(|| panic!("{no}"));
    let relief = inches(words.split(" it can").next().unwrap());
    assert!(matches!(with(Profile::Gooseneck, Some(relief)).0, Outcome::Order(_)), "{no}");
    assert!(no.remedy.contains("seam"), "a seam would do as well: {no}");
}
