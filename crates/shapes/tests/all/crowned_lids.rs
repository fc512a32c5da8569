//! Lids crowned by one bend: worked sizes of the flat, the V that closes, and what is refused.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use crate::common::{inches, making, value};
use fold::FlatPattern;
use fold::refold::Proof;
use geometry::{Point, trig};
use proptest::prelude::*;
use shapes::edge::EdgeEnd;
use shapes::lid::{Crown, CrownedLid, Lid, LidPlan, SkirtEdge};
use shapes::{Clearance, Figure, Making, Recipe, ReliefHole, ReliefStyle, Shaped};
use units::Length;

/// The lid of a sled bin: rim 55.004 × 25.435 outside, lapped by 3/8, skirt 1-1/4, crowned 1/2; .100 metal.
fn bin_lid() -> CrownedLid {
    let plan = LidPlan::Outside { length: inches("55.754"), width: inches("26.185") };
    let crown = Crown { rise: inches("1/2"), along: None, skirt_edge: SkirtEdge::Level };
    CrownedLid { lid: Lid { plan, skirt: inches("1 1/4"), edge: EdgeEnd::Plain }, crown }
}

fn tenth() -> Making {
    making(".100", ".100", 0.42)
}

fn proven(lid: &CrownedLid, making: &Making) -> (Shaped, FlatPattern, Proof) {
    let shaped = lid.shape_piece(0, making).unwrap();
    let flat = shaped.unfold().unwrap();
    let proof = fold::refold::prove(&shaped.part, &flat).unwrap();
    assert!(proof.worst_mm < 0.001, "{}", proof.worst_mm);
    (shaped, flat, proof)
}

/// Deduction of a turn in inches, from the general formula: 2·(R + T)·tan(θ/2) − θ·(R + K·T).
fn deduction(turn_degrees: f64) -> f64 {
    let turn = turn_degrees.to_radians();
    2.0 * 0.2 * trig::tan(0.5 * turn) - turn * (0.1 + 0.042)
}

// Source of the check values: worked here by hand from the triangle of 1/2 over half of 55.754.
#[test]
fn the_lid_of_a_sled_bin_has_the_worked_blank() {
    let (shaped, flat, _) = proven(&bin_lid(), &tenth());
    let slope = trig::atan2(0.5, 27.877).to_degrees();
    assert!((slope - 1.0275).abs() < 0.0001);
    assert!((value(&shaped.facts, "turn at the crown") - 2.0 * slope).abs() < 1e-3);
    assert!((value(&shaped.facts, "half of the top, along the slope") - 27.8815).abs() < 1e-4);
    assert!((value(&shaped.facts, "skirt at the crown, outside") - 1.75).abs() < 1e-9);
    let (length, width) = flat.extents_mm();
    // Along: two halves, two skirts, the end bends turn a quarter less the slope. Laid square to the crown's bend.
    let along = 2.0 * 27.8815 + 2.0 * 1.25 - 2.0 * deduction(90.0 - slope) - deduction(2.0 * slope);
    assert!((length / 25.4 - along).abs() < 1e-3, "{} {along}", length / 25.4);
    // Across: the long skirts are 1-3/4 deep at the crown; a foot stands off the bend by depth times the slope's cosine.
    let deep = 1.75 * trig::cos(slope.to_radians());
    let across = 26.185 + 2.0 * deep - 2.0 * deduction(90.0);
    assert!((width / 25.4 - across).abs() < 1e-3, "{} {across}", width / 25.4);
}

#[test]
fn the_halves_of_a_crowned_skirt_meet_when_folded_and_stand_a_v_apart_on_the_flat() {
    for gap in ["0", "1/32"] {
        let making = Making { seam_gap: inches(gap), ..tenth() };
        let (shaped, flat, proof) = proven(&bin_lid(), &making);
        assert_eq!(shaped.part.seams.len(), 6, "four skirt corners and two seams at the crown");
        for (seam, folded) in flat.seams.iter().zip(&proof.seams) {
            assert!((folded.largest_mm - inches(gap).millimetres()).abs() < 0.02, "{}", seam.name);
            assert!((folded.least_mm - inches(gap).millimetres()).abs() < 0.02, "{}", seam.name);
            if folded.inside_angle_rad < 3.0 {
                continue;
            }
            let [one, other] = [seam.first.1, seam.second.1].map(|[a, b]| (b - a).unit());
            let v = trig::asin(one.cross(other).abs());
            assert!((v - 2.0 * trig::atan2(0.5, 27.877)).abs() < 1e-6, "{}: {v}", seam.name);
        }
    }
}

#[test]
fn a_shop_that_drills_its_relief_is_told_that_the_crown_is_sawn() {
    let making = Making { relief: ReliefStyle::Round { hole: ReliefHole::Handbook }, ..tenth() };
    let (shaped, flat, _) = proven(&bin_lid(), &making);
    assert!(shaped.facts.iter().any(|fact| fact.name == "relief"));
    assert_eq!(flat, proven(&bin_lid(), &tenth()).1);
}

#[test]
fn the_skirt_may_follow_the_crown_and_the_ends_may_be_the_long_sides() {
    let mut lid = bin_lid();
    lid.crown.skirt_edge = SkirtEdge::AlongCrown;
    let (shaped, flat, _) = proven(&lid, &tenth());
    assert!((value(&shaped.facts, "skirt at the crown, outside") - 1.25).abs() < 1e-9);
    let level = proven(&bin_lid(), &tenth()).1;
    // Two long skirts lose a triangle of half the length by the rise on each half.
    let less = (level.outline.area_mm2() - flat.outline.area_mm2()) / 645.16;
    assert!((less - 2.0 * 0.5 * 0.5 * 55.754).abs() < 0.01, "{less}");
    lid.crown.along = Some("BC".to_owned());
    let (shaped, _, _) = proven(&lid, &tenth());
    let slope = trig::atan2(0.5, 0.5 * 26.185).to_degrees();
    assert!((value(&shaped.facts, "turn at the crown") - 2.0 * slope).abs() < 1e-3);
}

#[test]
fn a_lid_whose_ends_are_not_parallel_or_that_rises_too_much_is_refused() {
    let mut lid = bin_lid();
    lid.crown.rise = inches("28");
    let problems = lid.shape_piece(0, &tenth()).unwrap_err();
    assert_eq!(problems[0].field, "crown.rise");
    assert!(problems[0].remedy.contains("27.877"), "{}", problems[0]);
    let crooked = [(0.0, 0.0), (500.0, 0.0), (480.0, 300.0), (0.0, 310.0)].map(|(x, y)| Point::new(x, y));
    lid.crown.rise = inches("1/2");
    lid.lid.plan = LidPlan::Over {
        opening: Figure::lettered(&crooked).unwrap(),
        clearance: Clearance::single("gap", inches("1/8")),
    };
    let problems = lid.shape_piece(0, &tenth()).unwrap_err();
    assert!(problems[0].wrong.contains("BC and DA are not parallel"), "{}", problems[0]);
    lid.crown.along = Some("QR".to_owned());
    assert_eq!(lid.shape_piece(0, &tenth()).unwrap_err()[0].field, "crown.along");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn every_crowned_lid_refolds_and_so_does_its_opposite_hand(
        (long, near, far, skew) in (300.0..900.0, 200.0..500.0, 200.0..500.0, -40.0..40.0_f64),
        (rise, skirt, gap) in (3.0..60.0, 15.0..60.0, 0..4_i64),
        along_edge in any::<bool>(),
    ) {
        // Ends parallel, sides not.
        let corners = [(0.0, 0.0), (long, skew), (long, skew + far), (0.0, near)].map(|(x, y)| Point::new(x, y));
        let opening = Figure::lettered(&corners).unwrap();
        let plan = LidPlan::Over { opening, clearance: Clearance::single("gap", inches("1/8")) };
        let skirt_edge = if along_edge { SkirtEdge::AlongCrown } else { SkirtEdge::Level };
        let crown = Crown { rise: Length::from_millimetres(rise), along: Some("AB".to_owned()), skirt_edge };
        let lid = CrownedLid { lid: Lid { plan, skirt: Length::from_millimetres(skirt), edge: EdgeEnd::Plain }, crown };
        let making = Making { seam_gap: Length::from_sixty_fourths(gap), ..tenth() };
        let (shaped, _, _) = proven(&lid, &making);
        let hand = shaped.part.mirrored();
        let flat = fold::flat::unfold(&hand).unwrap();
        prop_assert!(fold::refold::prove(&hand, &flat).unwrap().worst_mm < 0.001);
    }
}

// By hand: 1-1/4 at the ends, and 1/2 more at the crown where the lower edge is level.
#[test]
fn skirts_of_a_crowned_lid_are_checked_by_their_heights() {
    for (skirt_edge, crown) in [(SkirtEdge::Level, 1.75), (SkirtEdge::AlongCrown, 1.25)] {
        let mut lid = bin_lid();
        lid.crown.skirt_edge = skirt_edge;
        let (_, _, proof) = proven(&lid, &tenth());
        for (name, expected) in [
            ("height of skirt BC, outside", 1.25),
            ("height of skirt DA, outside", 1.25),
            ("height of skirt AB at the crown, outside", crown),
            ("height of skirt CD at the crown, outside", crown),
        ] {
            let size = proof.sizes.iter().find(|size| size.name == name);
            let size = size.unwrap_or_else(|| panic!("no {name} among {:?}", proof.sizes));
            assert!(
                (size.measured_mm / 25.4 - expected).abs() < 0.0005,
                "{name}: {}",
                size.measured_mm / 25.4
            );
        }
    }
}

/// All four letters lie where two skirts and a half of the top meet on the flat: within the setback of their bends, about
/// 1/4 in, from the half's own metal.
#[test]
fn a_crowned_lid_has_a_letter_at_every_corner() {
    for along in ["AB", "BC"] {
        let mut lid = bin_lid();
        lid.crown.along = Some(along.to_owned());
        let (_, flat, _) = proven(&lid, &tenth());
        let corners = lid.places(0, &tenth()).corners;
        let mut names: Vec<&str> = corners.iter().map(|(name, _)| name.as_str()).collect();
        names.sort_unstable();
        assert_eq!(names, ["A", "B", "C", "D"]);
        let tops: Vec<_> = flat.faces.iter().filter(|face| face.name.starts_with("top ")).collect();
        for (name, at) in &corners {
            let at = flat.faces[0].placement.place(*at);
            let own = flat.faces.iter().filter(|face| face.name.starts_with("top "));
            let off = own.flat_map(|face| &face.corners).map(|corner| corner.distance(at));
            let off = off.fold(f64::INFINITY, f64::min);
            assert!(off < 0.29 * 25.4, "{along}: {name} lies {} off the top", off / 25.4);
        }
        assert_eq!(tops.len(), 2);
        // Between the letters lie the sides of the plan, less what the crown takes: 55.754 along the slope, 26.185 across.
        let side = |from: &str, to: &str| {
            let at = |letter: &str| corners.iter().find(|(name, _)| name == letter).unwrap().1;
            at(from).distance(at(to)) / 25.4
        };
        assert!((side("A", "B") - 55.754).abs() < 0.05 && (side("C", "D") - 55.754).abs() < 0.05);
        assert!((side("B", "C") - 26.185).abs() < 0.05 && (side("D", "A") - 26.185).abs() < 0.05);
    }
}
