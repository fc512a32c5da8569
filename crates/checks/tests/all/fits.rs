//! Parts in openings, doorways and spaces, and lids on their hinges: sizes of worked jobs and plane geometry.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on stops there")]

use crate::common::{inches, making};
use checks::fit::door::{Contradiction, Doorway, Leaf};
use checks::fit::level::{LevelLift, PlanTurns, Way};
use checks::fit::swing::{HingeSide, LidSwing, Obstacle};
use checks::fit::together::Together;
use checks::fit::{Answer, Body};
use geometry::{Point, trig};
use shapes::lid::{Lid, LidPlan};
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::plate::{Plate, PlateOutline};
use shapes::{Clearance, FactValue, Figure, Making, Recipe};
use units::{Angle, Length, LengthStyle};

const STYLE: LengthStyle = LengthStyle::Inches { places: 3 };

fn body(recipe: &dyn Recipe, making: &Making) -> Body {
    let part = recipe.shape_piece(0, making).unwrap().part;
    let flat = fold::flat::unfold(&part).unwrap();
    Body::of(&part, &flat, false)
}

fn rectangle(length: &str, width: &str) -> Figure {
    Figure::rectangle(inches(length).millimetres(), inches(width).millimetres()).unwrap()
}

fn mm(millimetres: f64) -> Length {
    Length::from_millimetres(millimetres)
}

/// A pan with plumb walls, inches.
fn pan(length: &str, width: &str, height: &str, rim: Rim) -> Body {
    let plan = PanPlan::Outside { length: inches(length), width: inches(width) };
    body(
        &Pan {
            plan,
            height: inches(height),
            rims: vec![rim],
            lean: Vec::new(),
            edge: shapes::edge::EdgeEnd::Plain,
        },
        &making(),
    )
}

fn level(opening: Figure, clearance: &str, way: Way, turns: PlanTurns) -> LevelLift {
    LevelLift { opening, clearance: Clearance::single("gap", inches(clearance)), way, turns }
}

/// The length facts whose names begin so, inches.
fn lengths(answer: &Answer, name: &str) -> Vec<f64> {
    let own = answer.facts.iter().filter(|fact| fact.name.starts_with(name));
    own.filter_map(|fact| match fact.value {
        FactValue::Length(length) => Some(length.inches()),
        _ => None,
    })
    .collect()
}

fn angle(answer: &Answer, name: &str) -> f64 {
    let fact = answer.facts.iter().find(|fact| fact.name == name).unwrap();
    let FactValue::Angle(angle) = fact.value else { panic!("{fact:?}") };
    angle.degrees()
}

fn near(value: f64, expected: f64) -> bool {
    (value - expected).abs() < 0.001
}

#[test]
fn a_tray_sized_from_its_hole_lifts_out_with_nothing_to_spare() {
    // Opening 30 1/4 × 22 1/2, 1/4 a side, rim 1/2: walls 28.75 × 21.00, worked by a separate script.
    let opening = rectangle("30.25", "22.5");
    let plan = PanPlan::LiftsThrough {
        opening: opening.clone(),
        clearance: Clearance::single("gap", inches("1/4")),
    };
    let tray = Pan {
        plan,
        height: inches("4"),
        rims: vec![Rim::Out(inches("1/2"))],
        lean: Vec::new(),
        edge: shapes::edge::EdgeEnd::Plain,
    };
    let tray = body(&tray, &making());
    let lift = level(opening, "1/4", Way::Up, PlanTurns::AsDrawn);
    let answer = lift.judge("T", &tray, STYLE);
    assert!(answer.fits, "{}", answer.sentence);
    let spares = lengths(&answer, "spare at side");
    assert_eq!(spares.len(), 4);
    assert!(spares.iter().all(|spare| near(*spare, 0.0)), "{spares:?}");
    assert!(near(lengths(&answer, "across the opening, part")[0], 29.75));
    let wider =
        level(rectangle("30.25", "22.5"), "9/32", Way::Up, PlanTurns::AsDrawn).judge("T", &tray, STYLE);
    assert!(!wider.fits && wider.sentence.contains("rim"), "{}", wider.sentence);
    assert!(lengths(&wider, "spare at side").iter().all(|spare| near(*spare, -1.0 / 32.0)));
}

#[test]
fn a_dry_box_fitted_to_the_flare_lifts_out_by_its_top() {
    // Bottom 22 × 12 1/2, top 22 × 17 1/4, 15 deep, one wall sloping: through 23 × 17 1/2, 1/2 and 1/8 a side.
    let slope = Angle::from_radians(trig::atan2(4.75, 15.0));
    let plan = PanPlan::Outside { length: inches("22"), width: inches("12.5") };
    let lean = vec![Angle::ZERO, Angle::ZERO, slope, Angle::ZERO];
    let dry_box = body(
        &Pan { plan, height: inches("15"), rims: vec![Rim::None], lean, edge: shapes::edge::EdgeEnd::Plain },
        &making(),
    );
    let answer =
        level(rectangle("23", "17.5"), "0", Way::Up, PlanTurns::AsDrawn).judge("DBX", &dry_box, STYLE);
    assert!(answer.fits, "{}", answer.sentence);
    let spares = lengths(&answer, "spare at side");
    // 15 deep is to the inside edge of the sloping wall, the highest: its outside ends T·sin lower and T·sin·tan further in,
    // which both sides share.
    let half = 0.5 * 0.125 * trig::sin(slope.radians()) * 4.75 / 15.0;
    let expected = [0.125 + half, 0.5, 0.125 + half, 0.5];
    assert!(spares.iter().zip(expected).all(|(spare, wanted)| (spare - wanted).abs() < 0.002), "{spares:?}");
    let narrow = level(rectangle("23", "17"), "0", Way::Up, PlanTurns::AsDrawn).judge("DBX", &dry_box, STYLE);
    assert!(!narrow.fits, "{}", narrow.sentence);
    let turned =
        level(rectangle("17.5", "23"), "0", Way::Up, PlanTurns::Quarter).judge("DBX", &dry_box, STYLE);
    assert!(turned.fits && near(angle(&turned, "turned in plan") % 180.0, 90.0), "{}", turned.sentence);
}

#[test]
fn a_grease_pan_slides_out_sideways_through_its_slot() {
    // 38 1/4 × 9 × 2 1/4 through a slot 38 1/2 × 2 3/8: 1/8 a side, 1/16 above and below.
    let grease = pan("38.25", "9", "2.25", Rim::None);
    let slot = level(rectangle("38.5", "2.375"), "0", Way::Sideways, PlanTurns::AsDrawn);
    let answer = slot.judge("GP", &grease, STYLE);
    assert!(answer.fits, "{}", answer.sentence);
    let spares = lengths(&answer, "spare at side");
    let expected = [0.0625, 0.125, 0.0625, 0.125];
    assert!(spares.iter().zip(expected).all(|(spare, wanted)| near(*spare, wanted)), "{spares:?}");
    let with_handle = pan("38.25", "9", "2.4375", Rim::None);
    assert!(!slot.judge("GP", &with_handle, STYLE).fits);
}

#[test]
fn a_long_part_passes_a_square_hole_on_its_diagonal() {
    // Plane geometry: a strip L × W lies across a square of side S when (L + W)/√2 ≤ S, W small.
    let outline = PlateOutline::Figure(rectangle("26", "3"));
    let strip = body(&Plate { outline, holes: Vec::new(), notches: Vec::new() }, &making());
    let side = (26.0 + 3.0) * std::f64::consts::FRAC_1_SQRT_2;
    let square = |side: f64| Figure::rectangle(side * 25.4, side * 25.4).unwrap();
    let lift = |side| level(square(side), "0", Way::Up, PlanTurns::Any).judge("S", &strip, STYLE);
    let (loose, tight) = (lift(side + 0.01), lift(side - 0.01));
    assert!(loose.fits, "{}", loose.sentence);
    assert!(near(angle(&loose, "turned in plan") % 90.0, 45.0));
    assert!(!tight.fits, "{}", tight.sentence);
    assert!(!level(square(side + 0.01), "0", Way::Up, PlanTurns::Quarter).judge("S", &strip, STYLE).fits);
}

#[test]
fn an_inside_corner_of_the_opening_is_seen() {
    // An opening 20 × 10 with a corner 6 × 4 left standing: what is over 6 short of either end must be under 6 wide.
    let corners = [(0.0, 0.0), (20.0, 0.0), (20.0, 6.0), (14.0, 6.0), (14.0, 10.0), (0.0, 10.0)];
    let opening = Figure::lettered(&corners.map(|(x, y)| Point::new(x * 25.4, y * 25.4))).unwrap();
    let judge = |length, width| {
        level(opening.clone(), "1/8", Way::Up, PlanTurns::AsDrawn).judge(
            "P",
            &pan(length, width, "3", Rim::None),
            STYLE,
        )
    };
    assert!(judge("13.75", "9.75").fits);
    assert!(judge("19.75", "5.75").fits);
    let blocked = judge("15", "7");
    assert!(!blocked.fits, "{}", blocked.sentence);
}

#[test]
fn a_drawer_passes_the_doorway_but_not_the_door() {
    // Clear 588, drawer 560, runners 13 each side: 2 to spare. The door at 88° takes 9: 7 short.
    let plan = PanPlan::Outside { length: mm(700.0), width: mm(560.0) };
    let drawer = body(
        &Pan {
            plan,
            height: mm(220.0),
            rims: vec![Rim::None],
            lean: Vec::new(),
            edge: shapes::edge::EdgeEnd::Plain,
        },
        &making(),
    );
    let doorway = |leaf, opens| Doorway {
        clear: [mm(588.0), mm(1010.0)],
        clearance: Clearance::single("runner", mm(13.0)),
        way: Way::Endwise,
        opens: Angle::from_degrees(opens),
        leaf,
    };
    let answer = doorway(Leaf::Taped(mm(9.0)), 88.0).judge(
        "D560-220",
        &drawer,
        LengthStyle::Millimetres { places: 1 },
    );
    // What it needs, 586 with its runners, is drawn over what the door takes and over the side of the doorway: 3 1/2 each.
    let across = |answer: &Answer, start: &str| {
        let named = answer.scenes[0].figures.iter().find(|figure| figure.name.starts_with(start)).unwrap();
        let (low, high) = geometry::polygon::bounds(&named.corners);
        [low.x, high.x]
    };
    let (room, door) = (across(&answer, "room"), across(&answer, "taken"));
    assert!((room[1] - room[0] - 586.0).abs() < 1e-6 && (door[1] - room[0] - 3.5).abs() < 1e-6, "{room:?}");
    assert!((room[1] - 588.0 - 3.5).abs() < 1e-6, "{room:?}");
    assert!(answer.facts.iter().any(|fact| fact.name == "doorway"), "its size is told");
    assert!(!answer.fits);
    assert!(
        answer.sentence.contains("7.0 short") && answer.sentence.contains("2.0 to spare"),
        "{}",
        answer.sentence
    );
    let open = doorway(Leaf::Taped(Length::ZERO), 110.0).judge("D560-220", &drawer, STYLE);
    assert!(open.fits && near(lengths(&open, "spare in width")[0] * 25.4, 2.0), "{}", open.sentence);
}

#[test]
fn a_leaf_stopped_short_takes_the_cosine_of_its_reach() {
    // A thin leaf whose pin stands on the edge of the doorway: its free edge stands in by reach · cos(stop).
    let leaf = |travel| Leaf::Sized {
        reach: mm(600.0),
        pin_beside: Length::ZERO,
        pin_out: Length::ZERO,
        thickness: mm(0.001),
        travel,
    };
    let stop = Angle::from_degrees(88.0);
    let expected = 600.0 * trig::cos(stop.radians());
    assert!((leaf(None).intrusion_mm(stop) - expected).abs() < 0.01);
    // Pulled out only 260: the leaf stands in by 260 / tan 88° there, which is the 9 mm of a worked job.
    let part_way = leaf(Some(mm(260.0))).intrusion_mm(stop);
    assert!(
        (part_way - 260.0 / trig::tan(stop.radians())).abs() < 0.01 && (part_way - 9.0).abs() < 0.1,
        "{part_way}"
    );
    assert!(leaf(None).intrusion_mm(Angle::from_degrees(90.0)).abs() < 0.01);
}

#[test]
fn two_drawers_and_a_runner_fill_one_bay() {
    // 2 × 270 and 20 between them fill 560; 19 would not leave the 20.
    let plan = PanPlan::Outside { length: mm(700.0), width: mm(270.0) };
    let drawer = body(
        &Pan {
            plan,
            height: mm(90.0),
            rims: vec![Rim::None],
            lean: Vec::new(),
            edge: shapes::edge::EdgeEnd::Plain,
        },
        &making(),
    );
    let bay = |length: f64, width: f64, gap: f64| Together {
        space: Figure::rectangle(length, width).unwrap(),
        height: Some(mm(100.0)),
        clearance: Clearance::single("gap", mm(gap)),
        may_turn: false,
    };
    let judge = |bay: Together| bay.judge(["A", "B"], [&drawer, &drawer], STYLE);
    let close = judge(bay(740.0, 600.0, 20.0));
    assert!(close.fits);
    // 600 − 2 × 270 = 60 in three gaps of 20; in 606 each may grow by 2.
    let spare = |answer: &Answer| lengths(answer, "spare at every wall and between")[0] * 25.4;
    assert!(spare(&close).abs() < 0.1, "{}", spare(&close));
    let loose = spare(&judge(bay(760.0, 606.0, 20.0)));
    assert!((1.9..2.03).contains(&loose), "{loose}");
    assert!(!judge(bay(740.0, 599.0, 20.0)).fits);
    assert!(judge(bay(700.0, 540.0, 0.0)).fits);
    let long = judge(bay(699.0, 2000.0, 0.0));
    assert!(!long.fits && long.sentence.contains("alone"), "{}", long.sentence);
    assert!(judge(Together { may_turn: true, ..bay(699.0, 2000.0, 0.0) }).fits);
    let low = judge(Together { height: Some(mm(80.0)), ..bay(740.0, 600.0, 20.0) });
    assert!(!low.fits && low.sentence.contains("too high"), "{}", low.sentence);
}

/// A flat lid 20 × 12 with a skirt of 2, hinged on side AB; the pin so far behind the skirt and above its foot.
fn swing(pin_behind: &str, pin_above: &str, opens: f64, around: Vec<Obstacle>) -> Answer {
    swing_about([pin_behind, pin_above], opens, (Clearance::default(), around))
}

/// The same lid, its pin at the foot of the skirt, with a clearance.
fn swing_kept(clearance: &str, opens: f64, around: Vec<Obstacle>) -> Answer {
    swing_about(["0", "0"], opens, (Clearance::single("clearance", inches(clearance)), around))
}

fn swing_about(
    [pin_behind, pin_above]: [&str; 2],
    opens: f64,
    (clearance, around): (Clearance, Vec<Obstacle>),
) -> Answer {
    let plan = LidPlan::Outside { length: inches("20"), width: inches("12") };
    let lid = Lid { plan, skirt: inches("2"), edge: shapes::edge::EdgeEnd::Plain };
    let part = lid.shape_piece(0, &making()).unwrap().part;
    let side = HingeSide::of(&part, "AB", false).unwrap();
    let lid = body(&lid, &making());
    let swing = LidSwing {
        pin_behind: inches(pin_behind),
        pin_above: inches(pin_above),
        opens: Angle::from_degrees(opens),
        clearance,
        around,
    };
    swing.judge("LL", &lid, &side, STYLE)
}

fn obstacle(name: &str, corners: &[(f64, f64)], touches: bool) -> Obstacle {
    let corners = corners.iter().map(|&(x, y)| Point::new(x * 25.4, y * 25.4)).collect();
    Obstacle { name: name.to_owned(), corners, along: None, touches }
}

#[test]
fn a_lid_meets_the_wall_behind_it_where_plane_geometry_says() {
    // Pin at the foot of the skirt, on its outside. The top's hinge edge is rounded on .25 about a centre 1/4 in and
    // 1 3/4 up; that centre swings back on √(1/4² + 1 3/4²) = 1.7678 from 8.13° before upright, and the round meets a
    // wall 1 behind the pin when 1.7678·sin(θ − 8.13°) + .25 = 1: at 33.2°. A square edge would meet it at 30°.
    let wall = || obstacle("wall", &[(1.0, -5.0), (3.0, -5.0), (3.0, 30.0), (1.0, 30.0)], false);
    let answer = swing("0", "0", 90.0, vec![wall()]);
    assert!(!answer.fits && answer.sentence.contains("wall"), "{}", answer.sentence);
    let expected = (trig::atan2(0.25, 1.75) + trig::asin(0.75 / trig::hypot(0.25, 1.75))).to_degrees();
    let found = angle(&answer, "largest opening");
    // The round is taken as a few flats outside it.
    assert!(found < expected + 0.01 && expected - 0.5 < found, "{found} {expected}");
    // The picture says what is measured from what, and draws it: about the pin, from the closed lid, with the clock.
    let turned = &answer.scenes[0].turns[0];
    assert!((turned.turn_rad + found.to_radians()).abs() < 1e-9 && turned.about == Point::default());
    assert!(turned.from.x < 0.0 && turned.from.y.abs() < 1e-9, "along the closed lid: {turned:?}");
    assert!(turned.words.ends_with("° from closed"), "{turned:?}");
    assert!(answer.sentence.contains("from closed"), "{}", answer.sentence);
    assert!(swing("0", "0", 32.5, vec![wall()]).fits);
    // With the pin at the top's edge the skirt's foot is what swings, away from the wall, and the top stands up at 90°.
    let on_top = swing("0", "2", 90.0, vec![wall()]);
    assert!(on_top.fits, "{}", on_top.sentence);
}

/// The lid above, opened 20°: what comes nearest to the wall is the round of its hinge edge, 1 − 1.7678·sin(20° − 8.13°) − .25
/// off. A clearance that is kept is not a meeting.
#[test]
fn a_swing_tells_the_gap_at_the_angle_asked_for_and_what_is_kept_clear() {
    let wall = || obstacle("wall", &[(1.0, -5.0), (3.0, -5.0), (3.0, 30.0), (1.0, 30.0)], false);
    let answer = swing("0", "0", 20.0, vec![wall()]);
    let gap = lengths(&answer, "gap to wall, opened 20.0°")[0];
    let expected =
        1.0 - 0.25 - trig::hypot(0.25, 1.75) * trig::sin(20.0_f64.to_radians() - trig::atan2(0.25, 1.75));
    assert!(gap < expected + 0.001 && expected - 0.02 < gap, "{gap} {expected}");
    assert!(answer.sentence.contains("meets wall"), "{}", answer.sentence);
    // The picture shows the lid as it was asked for, and dashed as far as it goes.
    let turned = &answer.scenes[0].turns[0];
    assert!((turned.turn_rad + 20.0_f64.to_radians()).abs() < 1e-9, "{turned:?}");
    let kept = swing_kept("1/4", 20.0, vec![wall()]);
    let said = kept.sentence.ends_with(" and wall is down to .250, the clearance asked for");
    assert!(said && kept.sentence.contains("° the gap between "), "{}", kept.sentence);
    assert!(angle(&kept, "largest opening") < angle(&answer, "largest opening"));
    assert!(near(lengths(&kept, "gap to wall, opened 20.0°")[0], gap));
}

#[test]
fn the_heel_of_a_lid_past_its_pin_digs_into_the_deck() {
    // The pin 1/2 inside the skirt and 3/8 above its foot, the foot standing on the deck: the foot's outer edge, on a
    // radius of √(1/2² + 3/8²) = 5/8, turns downward at once and meets the deck.
    let deck = || obstacle("deck", &[(-40.0, -3.0), (40.0, -3.0), (40.0, -0.375), (-40.0, -0.375)], true);
    let digs = swing("-1/2", "3/8", 90.0, vec![deck()]);
    assert!(!digs.fits && digs.sentence.contains("skirt AB meets deck"), "{}", digs.sentence);
    assert!(angle(&digs, "largest opening") < 1.0);
    // Behind the skirt nothing goes down: the foot lifts.
    let free = swing("1/4", "3/8", 90.0, vec![deck()]);
    assert!(free.fits, "{}", free.sentence);
    // A heel 5/8 from the pin clears a deck 5/8 below it.
    let low = obstacle("deck", &[(-0.2, -3.0), (40.0, -3.0), (40.0, -0.626), (-0.2, -0.626)], true);
    assert!(swing("-1/2", "3/8", 90.0, vec![low]).fits);
}

#[test]
fn a_coaming_inside_the_lid_is_no_obstacle_to_its_far_side() {
    // A coaming 1 high runs all round inside, but ends short of the side skirts: only what of the lid lies over it counts.
    let behind = [(-11.0, 0.0), (-1.0, 0.0), (-1.0, 1.0), (-11.0, 1.0)];
    let coaming = |along| Obstacle { along, ..obstacle("coaming", &behind, true) };
    let inner = Some([inches("1"), inches("19")]);
    let answer = swing("1/8", "0", 90.0, vec![coaming(inner)]);
    assert!(angle(&answer, "largest opening") > 90.0, "{}", answer.sentence);
    let whole = swing("1/8", "0", 90.0, vec![coaming(None)]);
    assert!(!whole.fits, "{}", whole.sentence);
}

/// A door that only turns 3° stands all but shut: its free edge, 12·cos 3° = 11.984 in across the doorway, by hand.
#[test]
fn an_intrusion_that_the_angle_cannot_give_is_a_contradiction() {
    let width = inches("12");
    let taped =
        |taken: &str, opens: f64| Leaf::Taped(inches(taken)).contradiction(width, Angle::from_degrees(opens));
    let Some(Contradiction::TakesMore(least)) = taped("1/4", 3.0) else { panic!("the door is shut") };
    assert!((12.0 * 0.99863 * 25.4 - least).abs() < 0.2, "{least}");
    assert!(matches!(taped("1/4", 0.0), Some(Contradiction::TakesMore(_))));
    assert!(matches!(taped("9", 88.0), Some(Contradiction::TakesLess(_))));
    assert_eq!(taped("1/4", 95.0), None);
    // 588 mm clear, stopped at 88°, 9 mm taken: the pin a little beside the doorway.
    let truck = Leaf::Taped(Length::from_millimetres(9.0));
    assert_eq!(truck.contradiction(Length::from_millimetres(588.0), Angle::from_degrees(88.0)), None);
}
