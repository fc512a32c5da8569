//! Consoles: sides, wrap and foot recess that agree.

#![allow(clippy::unwrap_used, reason = "a test may stop at a console that cannot be made")]

use crate::common::{inches, making, value};
use fold::{Direction, Forming, refold};
use geometry::{Point, trig};
use proptest::prelude::*;
use shapes::console::{Console, FootRecess};
use shapes::{Chosen, CornerStyle, FactValue, Figure, Making, Problem, Recipe, Shaped};

pub(crate) fn skin() -> Making {
    Making { corner: butt("wrap"), ..making(".125", ".125", 0.42) }
}

fn butt(through: &str) -> CornerStyle {
    CornerStyle::Butt { through: Chosen::Sides(vec![through.to_owned()]) }
}

fn figure(corners: &[(f64, f64)]) -> Figure {
    let points: Vec<Point> = corners.iter().map(|(x, y)| Point::new(x * 25.4, y * 25.4)).collect();
    Figure::lettered(&points).unwrap()
}

/// Seen from starboard, bow to the right: A aft foot, B forward foot, C forward top, D top of the dash, E its foot.
pub(crate) fn console() -> Console {
    Console {
        outline: figure(&[(0.0, 0.0), (22.0, 0.0), (18.0, 38.0), (9.0, 38.0), (1.0, 30.0)]),
        radii: vec![("C".to_owned(), inches("3"))],
        corner_radius: None,
        strikes: None,
        wrapped: ["BC", "CD", "DE", "EA"].map(str::to_owned).to_vec(),
        width: inches("28"),
        side_flange: None,
        dash: Some("DE".to_owned()),
        foot_recess: Some(FootRecess {
            leg: "EA".to_owned(),
            from_corner: inches("18"),
            width: inches("18"),
            height: inches("8"),
            depth: inches("5"),
            rim: inches("1"),
            clearance: inches("1/8"),
        }),
        taped: vec![("BC".to_owned(), inches("38-3/16"))],
    }
}

fn proven(shaped: &Shaped) -> fold::FlatPattern {
    let flat = shaped.unfold().unwrap();
    let proof = refold::prove(&shaped.part, &flat).unwrap();
    assert!(proof.worst_mm < 0.001, "{}", proof.worst_mm);
    flat
}

fn refused(console: &Console) -> Problem {
    console.shape_piece(0, &skin()).unwrap_err().remove(0)
}

#[test]
fn all_pieces_prove_and_the_wrap_is_as_long_as_its_legs_less_its_deductions() {
    let shaped: Vec<Shaped> = (0..4).map(|piece| console().shape_piece(piece, &skin()).unwrap()).collect();
    let flats: Vec<fold::FlatPattern> = shaped.iter().map(proven).collect();
    // BC √(4² + 38²) = 38.2099, CD 9, DE √128 = 11.3137, EA √(1 + 30²) = 30.0167.
    let legs = 38.2099 + 9.0 + 11.3137 + 30.0167;
    // Deduction 2·(R + T)·tan(turn/2) − turn·(R + .42·T). At C the outside radius is 3, so R 2.875, turn 83.9913°; a
    // radius of 23 T keeps its mid-line, K .5. At D 45° and at E 45 + 1.9092 = 46.9092°... with R .125.
    let deduction = |degrees: f64, radius: f64, k: f64| {
        let turn = degrees.to_radians();
        2.0 * (radius + 0.125) * trig::tan(0.5 * turn) - turn * (radius + k * 0.125)
    };
    let at_e = 45.0 - trig::atan2(1.0, 30.0).to_degrees();
    let at_c = 90.0 - trig::atan2(4.0, 38.0).to_degrees();
    let expected =
        legs - deduction(at_c, 2.875, 0.5) - deduction(45.0, 0.125, 0.42) - deduction(at_e, 0.125, 0.42);
    // Both feet are sharp, of slopes 4 to 38 and 1 to 30: the square ends are cut back T·cot of each.
    let expected = expected - 0.125 * (4.0 / 38.0 + 1.0 / 30.0);
    let (x, y) = flats[0].extents_mm();
    assert!(
        (x / 25.4 - 28.0).abs() < 1e-6 && (y / 25.4 - expected).abs() < 0.0005,
        "{} {expected}",
        y / 25.4
    );
    assert_eq!(flats[0].bends[0].forming, Forming::Rolled);
    assert!((value(&shaped[0].facts, "dash above level") - 45.0).abs() < 1e-6);
    // The recess box is 18 × 8 outside; its hole an eighth larger all round.
    let (low, high) = flats[0].outline.holes[0].bounds();
    assert!(((high.x - low.x) / 25.4 - 18.25).abs() < 1e-6 && ((high.y - low.y) / 25.4 - 8.25).abs() < 1e-6);
}

#[test]
fn sides_are_the_inside_face_of_the_wrap_and_opposite_hands() {
    let (starboard, port) =
        (console().shape_piece(1, &skin()).unwrap(), console().shape_piece(2, &skin()).unwrap());
    let (first, second) = (proven(&starboard), proven(&port));
    assert!((first.outline.area_mm2() - second.outline.area_mm2()).abs() < 1e-6);
    // The top CD loses T·tan(turn/2) at both ends: 9 − .125·(tan(41.9957°) + tan(22.5°)).
    let turn_c = (90.0_f64.to_radians() - trig::atan2(4.0, 38.0)) * 0.5;
    let expected = 9.0 - 0.125 * (trig::tan(turn_c) + trig::tan(22.5_f64.to_radians()));
    let name = "side panel, mold lines, CD";
    assert!((value(&starboard.facts, name) - expected).abs() < 0.0001);
    assert!((value(&starboard.facts, "edge CD of the sides") - expected).abs() < 0.0001);
}

/// Joining flanges lie on the inside of the wrap, whose bend begins R·tan(turn/2) from the corner of its inside faces
/// (plane geometry): a bend of R = 2T leaves less of them than T·tan(turn/2) for the flanges' own mitre.
#[test]
fn joining_flanges_end_where_the_wraps_bend_begins() {
    for radius in [".063", ".125", ".25"] {
        let making = Making { corner: butt("wrap"), ..making(".063", radius, 0.42) };
        let flanged = Console { radii: Vec::new(), side_flange: Some(inches("1")), ..console() };
        let shaped = flanged.shape_piece(1, &making).unwrap();
        let flat = proven(&shaped);
        let base = &shaped.part.faces[0];
        let turns = [("BC", "CD", 83.9913_f64), ("CD", "DE", 45.0), ("DE", "EA", 43.0908)];
        for (before, after, degrees) in turns {
            let clear = inches(radius).inches() * trig::tan(0.5 * degrees.to_radians());
            let face = |name: &str| {
                shaped.part.faces.iter().position(|face| face.name == format!("flange {name}")).unwrap()
            };
            let bend = |name: &str| shaped.part.bends.iter().find(|bend| bend.child == face(name)).unwrap();
            let corner = base.edge(bend(before).parent_edge).1;
            assert!(corner.distance(base.edge(bend(after).parent_edge).0) < 1e-9);
            let frames = shaped.part.frames();
            for name in [before, after] {
                let outside = shaped.part.side_mm(fold::Side::Face);
                let places = shaped.part.faces[face(name)]
                    .corners
                    .iter()
                    .map(|&p| frames[face(name)].place(p, outside));
                let nearest =
                    places.map(|p| Point::new(p.x, p.y).distance(corner)).fold(f64::INFINITY, f64::min)
                        / 25.4;
                assert!(
                    nearest > clear - 1e-5,
                    "{name} at R {radius}: {nearest}, the bend begins at {clear}"
                );
            }
        }
        assert!(flat.bends.len() > 3);
    }
}

#[test]
fn flanged_sides_prove_with_a_rolled_corner_and_a_hollow() {
    let mut flanged = console();
    flanged.side_flange = Some(inches("1"));
    proven(&flanged.shape_piece(1, &skin()).unwrap());
    // A toe space: the foot of the after side stepped in, two bends that reverse.
    let toe = [(4.0, 0.0), (22.0, 0.0), (18.0, 38.0), (9.0, 38.0), (1.0, 30.0), (1.0, 5.0), (4.0, 4.0)];
    flanged.outline = figure(&toe);
    flanged.wrapped = ["BC", "CD", "DE", "EF", "FG", "GA"].map(str::to_owned).to_vec();
    flanged.foot_recess = None;
    for piece in 0..3 {
        proven(&flanged.shape_piece(piece, &skin()).unwrap());
    }
    let wrap = flanged.shape_piece(0, &skin()).unwrap();
    let ways: Vec<Direction> = wrap.part.bends.iter().map(|bend| bend.direction).collect();
    assert_eq!(ways[4], Direction::Up);
}

#[test]
fn what_does_not_agree_is_refused() {
    let mut taped = console();
    taped.taped = vec![("BC".to_owned(), inches("38-1/2"))];
    let problem = refused(&taped);
    assert!(problem.field == "taped.BC" && problem.wrong.contains("38.210"), "{problem}");
    let mut tight = console();
    tight.radii = vec![("C".to_owned(), inches("3/16"))];
    assert!(refused(&tight).remedy.contains("the least is .250"), "{}", refused(&tight));
    let mut large = console();
    large.radii = vec![("C".to_owned(), inches("11"))];
    assert_eq!(refused(&large).value, "CD");
    let mut broken = console();
    broken.wrapped = vec!["BC".to_owned(), "DE".to_owned()];
    assert_eq!(refused(&broken).field, "wrapped");
    let mut low = console();
    low.foot_recess.as_mut().unwrap().from_corner = inches("25");
    assert_eq!(refused(&low).field, "foot_recess.from_corner");
}

/// The words of every seam of a piece with others.
fn seams(shaped: &Shaped) -> Vec<String> {
    let seams = shaped.facts.iter().filter(|fact| fact.name.starts_with("seam, leg "));
    seams
        .map(|fact| match &fact.value {
            FactValue::Words(words) => format!("{}: {words}", fact.name),
            value => panic!("{value:?}"),
        })
        .collect()
}

#[test]
fn wrap_and_sides_meet_as_asked_and_are_measured_put_together() {
    let flange = CornerStyle::Lap { width: inches("1"), carried_by: Chosen::LongSides, outside: false };
    let cases = [
        (butt("wrap"), "butt, the wrap runs through", 0.0, 0.141),
        (butt("sides"), "butt, the side runs through", 2.0 * 0.141, 0.0),
        // g/√2 further than T each.
        (CornerStyle::Open, "open corner", 2.0 * 0.136, 0.136),
        (flange, "lap, the wrap lies on the side's joining flange of 1.000", 0.0, 0.141),
    ];
    for (corner, words, narrower, inward) in cases {
        let making = Making { corner, seam_gap: inches("1/64"), ..skin() };
        let wrap = console().shape_piece(0, &making).unwrap();
        let all = seams(&wrap);
        assert_eq!(all.len(), 8, "{all:?}");
        for seam in &all {
            assert!(seam.contains(words) && seam.contains("90.0° inside"), "{seam}");
            assert!(seam.ends_with("gap designed .016, least .016, largest .016"), "{seam}");
        }
        let (x, _) = proven(&wrap).extents_mm();
        assert!((x / 25.4 - (28.0 - narrower)).abs() < 0.001, "{} {words}", x / 25.4);
        let side = console().shape_piece(1, &making).unwrap();
        assert_eq!(seams(&side).len(), 4);
        // CD is level, 38 up: the side is lower than that by what it stands in, or as high where it runs through.
        let side_flat = proven(&side);
        if !words.starts_with("lap") {
            let (x, y) = side_flat.extents_mm();
            let height = x.min(y).max(x.max(y)) / 25.4;
            assert!((height - (38.0 - inward)).abs() < 0.001, "{height} {words}");
        }
    }
}

/// The wrap's bends are seams too: with the plain side that follows them they keep the gap of the flats, on both hands.
#[test]
fn bends_of_the_wrap_are_measured_against_the_edges_of_the_sides() {
    let flange = CornerStyle::Lap { width: inches("1"), carried_by: Chosen::LongSides, outside: false };
    for corner in [butt("wrap"), butt("sides"), CornerStyle::Open, flange] {
        for gap in ["0", "1/64"].map(inches) {
            let making = Making { corner: corner.clone(), seam_gap: gap, ..skin() };
            for (piece, share) in [(0, 6), (1, 3), (2, 3)] {
                let shaped = console().shape_piece(piece, &making).unwrap();
                let along = ["seam, round of C to ", "seam, bend at D to ", "seam, bend at E to "];
                let is_one = |fact: &&shapes::Fact| along.iter().any(|start| fact.name.starts_with(start));
                let rounds: Vec<_> = shaped.facts.iter().filter(is_one).collect();
                assert_eq!(rounds.len(), share, "{corner:?} {:?}", shaped.facts);
                for fact in rounds {
                    let measured = fact.gap.as_ref().unwrap();
                    if measured.made.contains("corner is cut off") {
                        // Flanges end behind the wrap's bends with a notch that takes the sharp corner.
                        assert!(measured.made.contains("joining flanges") && !fact.name.contains(" C "));
                        assert!(measured.designed_mm < measured.largest_mm, "{fact:?}");
                        continue;
                    }
                    assert!((measured.designed_mm - gap.millimetres()).abs() < 1e-9, "{fact:?}");
                    assert!((measured.least_mm - measured.designed_mm).abs() < 0.02, "{fact:?}");
                    assert!((measured.largest_mm - measured.designed_mm).abs() < 0.02, "{fact:?}");
                    assert!(measured.interference_mm < 0.001, "{fact:?}");
                }
            }
        }
    }
}

#[test]
fn styles_that_wrap_and_sides_cannot_have_say_which_can() {
    let problem = |console: Console, corner: CornerStyle| {
        let making = Making { corner, ..skin() };
        console.shape_piece(0, &making).unwrap_err().remove(0)
    };
    let lap = |carried_by: Chosen, outside| CornerStyle::Lap { width: inches("1"), carried_by, outside };
    let named = |name: &str| Chosen::Sides(vec![name.to_owned()]);
    let mut flanged = console();
    flanged.side_flange = Some(inches("3/4"));
    assert_eq!(problem(console(), butt("AB")).field, "corner.butt_through");
    assert_eq!(problem(flanged.clone(), butt("sides")).field, "side_flange");
    assert_eq!(problem(console(), lap(named("wrap"), false)).field, "corner.lap");
    assert!(problem(console(), lap(named("sides"), true)).remedy.contains("inside"));
    assert_eq!(problem(flanged, lap(named("sides"), false)).field, "side_flange");
    let tabs = CornerStyle::TabAndSlot {
        tab: inches("1/2"),
        clearance: inches("0"),
        count: 2,
        tabs_on: Chosen::LongSides,
    };
    assert!(problem(console(), tabs).remedy.contains("joining flange"));
}

#[test]
fn bumped_corners_say_where_they_are_struck() {
    let mut bumped = console();
    bumped.strikes = Some(7);
    let wrap = bumped.shape_piece(0, &skin()).unwrap();
    assert_eq!(wrap.part.bends[0].forming, Forming::Bumped(7));
    assert!(wrap.facts.iter().any(|fact| fact.name == "bumping at C"));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    /// For any outline and radius, the wrap's legs on their inside face are the edges of the sides, or it is refused.
    #[test]
    fn shared_edges_agree(rake in -6.0_f64..6.0, top in 4.0_f64..14.0, drop in 3.0_f64..14.0, radius in 16_i64..300, flanged in any::<bool>(), through_wrap in any::<bool>(), gap in 0_i64..3) {
        let mut random = console();
        random.outline = figure(&[(0.0, 0.0), (24.0, 0.0), (20.0 + rake, 38.0), (20.0 + rake - top, 38.0), (1.0, 38.0 - drop)]);
        random.radii = vec![("C".to_owned(), units::Length::from_sixty_fourths(radius))];
        random.foot_recess = None;
        random.taped.clear();
        random.side_flange = flanged.then(|| inches("3/4"));
        let through = if flanged || through_wrap { "wrap" } else { "sides" };
        let making = Making { corner: butt(through), seam_gap: units::Length::from_sixty_fourths(gap), ..skin() };
        let Ok(wrap) = random.shape_piece(0, &making) else { return Ok(()) };
        proven(&wrap);
        let side = random.shape_piece(1, &making).unwrap();
        // Flanges on both sides of a rounded corner may leave no metal between their reliefs: refused as too short.
        if flanged && matches!(side.unfold(), Err(fold::flat::UnfoldError::FaceTooShort { .. })) {
            return Ok(());
        }
        proven(&side);
        let port = random.shape_piece(2, &making).unwrap();
        proven(&port);
        for (number, leg) in ["CD", "DE"].into_iter().enumerate() {
            // From the parts as built: mold corners of the wrap's faces less T·tan(turn/2) at their down bends; an up
            // bend, where the outline turns inward, has its mold line on the inside face already.
            let face = &wrap.part.faces[number + 1];
            let inner = |bend: usize| match wrap.part.bends[bend].direction {
                Direction::Down => 0.125 * trig::tan(0.5 * wrap.part.bends[bend].turn_rad),
                Direction::Up => 0.0,
            };
            let wrap_edge = face.corners[1].distance(face.corners[2]) / 25.4 - inner(number) - inner(number + 1);
            // Only sides that stop against the wrap, close to it, are cut to its inside.
            let cut = through == "wrap" && gap == 0;
            let name = if cut { format!("edge {leg} of the sides") } else { format!("inside of the wrap along {leg}") };
            let side_edge = value(&side.facts, &name);
            prop_assert!((wrap_edge - side_edge).abs() < 0.0001, "{leg}: {wrap_edge} {side_edge}");
        }
    }
}

/// At sharp feet the square ends of the wrap may not stand past the line of the floor: each is cut back T·cot(corner), and
/// the side's edge is printed as it is cut. Plane geometry: at B 60°, at A atan(17.3205/4); the wrap turns by 60° at C, so
/// the edge BC is 20 − T·cot 60° − T·tan 30°.
#[test]
fn a_wrap_ends_on_the_floor_line_of_its_sides() {
    let outline = figure(&[(0.0, 0.0), (30.0, 0.0), (20.0, 17.3205), (4.0, 17.3205)]);
    let console = Console {
        outline,
        radii: Vec::new(),
        wrapped: ["BC", "CD", "DA"].map(str::to_owned).to_vec(),
        width: inches("20"),
        dash: None,
        foot_recess: None,
        taped: Vec::new(),
        ..console()
    };
    let (wrap, side) = (console.shape_piece(0, &skin()).unwrap(), console.shape_piece(1, &skin()).unwrap());
    proven(&wrap);
    let (cot_b, cot_a) = (1.0 / trig::tan(60.0_f64.to_radians()), 4.0 / 17.3205);
    let edge = 20.0 - 0.125 * (cot_b + trig::tan(30.0_f64.to_radians()));
    assert!((value(&wrap.facts, "edge BC of the sides") - edge).abs() < 1e-5);
    assert!((value(&side.facts, "side panel, mold lines, BC") - edge).abs() < 1e-5, "what is printed is cut");
    // Sides that run through are cut to the outline, 20 along BC, and no other edge of theirs is told.
    let through = Making { corner: butt("sides"), ..skin() };
    let through = console.shape_piece(1, &through).unwrap();
    assert!((value(&through.facts, "side panel, mold lines, BC") - 20.0).abs() < 1e-5);
    assert!(through.facts.iter().all(|fact| fact.name != "edge BC of the sides"));
    let leg =
        |face: usize| wrap.part.faces[face].corners[1].distance(wrap.part.faces[face].corners[2]) / 25.4;
    let long = trig::hypot(17.3205_f64, 4.0);
    assert!((leg(0) - (20.0 - 0.125 * cot_b)).abs() < 1e-5, "{}", leg(0));
    assert!((leg(2) - (long - 0.125 * cot_a)).abs() < 1e-5, "{}", leg(2));
}

/// A console open at its back and its foot: only the corner between the two is bare, and is rounded; what it loses is the square of
/// the radius less a quarter of the circle.
#[test]
fn bare_corners_of_the_sides_are_rounded_as_asked() {
    let open = |corner_radius| Console {
        outline: figure(&[(0.0, 0.0), (22.0, 0.0), (22.0, 38.0), (9.0, 38.0), (0.0, 30.0)]),
        radii: vec![("C".to_owned(), inches("3"))],
        corner_radius,
        wrapped: ["BC", "CD", "DE"].map(str::to_owned).to_vec(),
        foot_recess: None,
        taped: Vec::new(),
        ..console()
    };
    for (flange, within_mm2) in [(None, 0.01), (Some(inches("1")), 30.0)] {
        let making = skin();
        let area = |radius| {
            let console = Console { side_flange: flange, ..open(radius) };
            for piece in 0..3 {
                proven(&console.shape_piece(piece, &making).unwrap());
            }
            proven(&console.shape_piece(1, &making).unwrap()).outline.area_mm2()
        };
        let lost = area(None) - area(Some(inches("2")));
        let radius_mm = inches("2").millimetres();
        let expected = radius_mm * radius_mm * (1.0 - 0.25 * std::f64::consts::PI);
        assert!((lost - expected).abs() < within_mm2, "{lost} {expected}");
    }
    let problem = refused(&open(Some(inches("31"))));
    assert_eq!(problem.field, "corner_radius");
    let most = crate::common::word_after(&problem, "keep it under");
    let least = units::Length::from_inches(most.parse::<f64>().unwrap() - 0.001);
    assert!(open(Some(least)).shape_piece(1, &skin()).is_ok(), "{problem}");
    let none = refused(&Console { corner_radius: Some(inches("1")), ..console() });
    assert!(none.wrong.contains("none is bare"), "{none}");
}

/// What is cut sharp where legs pass is cautioned: the ends of the wrap, and the rim of the recess; a side's corners lie under it.
#[test]
fn sharp_corners_where_legs_pass_are_cautioned() {
    let cautions = |piece: usize| console().cautions(piece, &skin());
    assert!(cautions(0)[0].value.contains("ends at B and A"), "{:?}", cautions(0));
    assert!(cautions(3)[0].wrong.contains("corners of the rim are cut sharp"), "{:?}", cautions(3));
    assert!(cautions(1).is_empty() && cautions(2).is_empty());
}

/// A plain console of straights and arcs, its sheet wrapped round all but the foot.
fn of_arcs(corners: &[(f64, f64)], wrapped: &[&str], radii: &[(&str, &str)]) -> Console {
    Console {
        outline: figure(corners),
        radii: radii.iter().map(|(corner, radius)| ((*corner).to_owned(), inches(radius))).collect(),
        wrapped: wrapped.iter().map(|side| (*side).to_owned()).collect(),
        width: inches("20"),
        dash: None,
        foot_recess: None,
        taped: Vec::new(),
        ..console()
    }
}

/// Two corners whose radii take all of the side between them: a half round, 24 wide and 40 high to its crown.
fn half_round() -> Console {
    let corners = [(0.0, 0.0), (24.0, 0.0), (24.0, 40.0), (0.0, 40.0)];
    of_arcs(&corners, &["BC", "CD", "DA"], &[("C", "12"), ("D", "12")])
}

/// A bulge of radius 4 that goes over into a hollow of 4, and one that goes over into a larger one.
fn curves_that_turn_back() -> [Console; 2] {
    let stepped = [(0.0, 0.0), (20.0, 0.0), (20.0, 15.0), (12.0, 15.0), (12.0, 30.0), (0.0, 30.0)];
    let wrapped = ["BC", "CD", "DE", "EF"];
    let reversed = of_arcs(&stepped, &wrapped, &[("C", "4"), ("D", "4"), ("E", "3")]);
    // 45° twice: (9 + 3)·tan 22.5° between the corners.
    let long = 12.0 * trig::tan(std::f64::consts::FRAC_PI_8);
    let diagonal = long * std::f64::consts::FRAC_1_SQRT_2;
    let compound =
        [(0.0, 0.0), (20.0, 0.0), (20.0, 20.0), (20.0 - diagonal, 20.0 + diagonal), (0.0, 20.0 + diagonal)];
    [reversed, of_arcs(&compound, &["BC", "CD", "DE"], &[("C", "9"), ("D", "3")])]
}

/// By hand: 28 straight on both sides, and half the girth of the mid-line between them, π·(12 − 1/16).
#[test]
fn a_half_round_top_is_wrapped_and_agrees_with_its_sides() {
    let round = half_round();
    let shaped: Vec<Shaped> = (0..3).map(|piece| round.shape_piece(piece, &skin()).unwrap()).collect();
    let flats: Vec<fold::FlatPattern> = shaped.iter().map(proven).collect();
    let expected = 28.0 + 28.0 + std::f64::consts::PI * (12.0 - 0.0625);
    assert!((flats[0].extents_mm().1 / 25.4 - expected).abs() < 0.0005);
    // The side is a rectangle 27.875... wide less the wrap, under a half disc of 11.875.
    let side = 23.75 * 28.0 + 0.5 * std::f64::consts::PI * 11.875 * 11.875;
    assert!((flats[1].outline.area_mm2() / (25.4 * 25.4) - side).abs() < 0.01);
    let words = format!("{:?}", shaped[0].facts);
    assert!(words.contains("one curve goes over into the other, 180.0° in all"), "{words}");
}

#[test]
fn curves_that_go_over_into_one_another_prove_in_every_meeting() {
    for console in curves_that_turn_back().into_iter().chain([half_round()]) {
        for corner in [butt("wrap"), butt("sides"), CornerStyle::Open] {
            let making = Making { corner, ..skin() };
            for piece in 0..3 {
                proven(&console.shape_piece(piece, &making).unwrap());
            }
        }
        for strikes in [None, Some(9)] {
            let flanged = Console { side_flange: Some(inches("3/4")), strikes, ..console.clone() };
            for piece in 0..3 {
                proven(&flanged.shape_piece(piece, &skin()).unwrap());
            }
        }
    }
}

/// A radius that takes more than there is, or a bend of the brake, still needs its straight.
#[test]
fn a_round_that_takes_more_than_its_side_is_refused() {
    let tight = Console {
        radii: vec![("C".to_owned(), inches("12")), ("D".to_owned(), inches("12 1/8"))],
        ..half_round()
    };
    assert!(refused(&tight).wrong.contains("take"), "{}", refused(&tight));
    // A roll leaves the end of its sheet flat: the curve must not run out to it.
    let to_the_end = Console { radii: vec![("C".to_owned(), inches("40"))], ..half_round() };
    assert!(to_the_end.shape_piece(0, &skin()).is_err());
}
