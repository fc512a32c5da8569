//! Side lockers.
//!
//! Check values by hand from the inputs, K .42: a square bend in .090 at .090 takes 2·.18 − π/2·(.09 + .42·.09) = .1593.

#![allow(clippy::unwrap_used, reason = "a test may stop at a locker that cannot be made")]

use crate::common::{inches, making, value};
use fold::Direction::{Down, Up};
use fold::refold;
use proptest::prelude::*;
use shapes::locker::{Locker, LockerLid};
use shapes::{Chosen, CornerStyle, FactValue, Making, Problem, Recipe, Shaped};
use units::Length;

fn skin() -> Making {
    Making { corner: CornerStyle::Butt { through: Chosen::LongSides }, ..making(".090", ".090", 0.42) }
}

/// The words of every seam of a piece with others.
fn seams(shaped: &Shaped) -> Vec<String> {
    let seams = shaped.facts.iter().filter(|fact| fact.name.starts_with("seam, "));
    seams
        .map(|fact| match &fact.value {
            FactValue::Words(words) => format!("{}: {words}", fact.name),
            value => panic!("{value:?}"),
        })
        .collect()
}

fn lid(at: &str) -> LockerLid {
    LockerLid {
        at: inches(at),
        from_rear: inches("1-1/2"),
        size: [inches("20"), inches("10")],
        opening: None,
    }
}

pub(crate) fn gig() -> Locker {
    Locker {
        length: inches("92"),
        widths: [inches("13"); 2],
        heights: [inches("10-1/2"); 2],
        front_flange: inches("1-1/2"),
        rear_flange: inches("1"),
        bottom_flange: inches("1"),
        splits_at: vec![inches("46")],
        frames_every: Some(inches("23")),
        backing_strip: Some(inches("3")),
        lids: vec![lid("12"), lid("60")],
        longest_bend: Some(inches("46")),
        crate_inside: Some([inches("47"), inches("30"), inches("5-1/2")]),
    }
}

fn piece(locker: &Locker, suffix: &str, making: &Making) -> Shaped {
    let number = locker.pieces().iter().position(|piece| piece.suffix == suffix).unwrap();
    locker.shape_piece(number, making).unwrap()
}

fn proven(shaped: &Shaped) -> fold::FlatPattern {
    let flat = shaped.unfold().unwrap();
    let proof = refold::prove(&shaped.part, &flat).unwrap();
    assert!(proof.worst_mm < 0.001, "{}", proof.worst_mm);
    flat
}

/// By hand: the seam at 46 lies on frame 2 of frames every 23; its strip of 3 reaches from 44 1/2 to 47 1/2.
#[test]
fn a_frame_under_a_backing_strip_is_named_with_its_distance_from_the_seam() {
    let cautions = |locker: &Locker, suffix: &str| {
        let number = locker.pieces().iter().position(|piece| piece.suffix == suffix).unwrap();
        locker.cautions(number, &skin())
    };
    for suffix in ["top-strip1", "front-strip1"] {
        let found = cautions(&gig(), suffix);
        assert_eq!(found.len(), 1, "{found:?}");
        assert_eq!(found[0].value, "44.500 to 47.500 from aft");
        assert!(
            found[0].wrong.starts_with("frame 2 at 46.000 lies under it, right under the seam"),
            "{}",
            found[0]
        );
        assert!(found[0].wrong.contains(".090 thick"), "{}", found[0]);
    }
    let close = Locker { frames_every: Some(inches("1")), ..gig() };
    let found = cautions(&close, "top-strip1");
    // 45, 46 and 47 lie within 44 1/2 to 47 1/2; 44 and 48 do not.
    assert_eq!(found.len(), 3, "{found:?}");
    assert!(
        found[0].wrong.contains("frame 45 at 45.000 lies under it, 1.000 aft of the seam"),
        "{}",
        found[0]
    );
    let free = Locker { frames_every: None, ..gig() };
    assert!(cautions(&free, "top-strip1").is_empty());
}

/// A lid of 20 × 10 over an opening of 18 1/2 × 8 1/2 stands 3/4 outside it all round.
#[test]
fn a_lid_s_opening_is_told_with_how_far_it_lies_inside_the_lid() {
    let told = |opening| {
        let locker = Locker { lids: vec![LockerLid { opening, ..lid("12") }], ..gig() };
        let top = piece(&locker, "top1", &skin());
        let fact = top.facts.iter().find(|fact| fact.name == "lid 1 lies").unwrap();
        match &fact.value {
            FactValue::Words(words) => words.clone(),
            value => panic!("{value:?}"),
        }
    };
    let cut = told(Some([inches("18-1/2"), inches("8-1/2")]));
    assert!(cut.contains("18.500 × 8.500, .750 inside the lid's outside at either end and .750 at"), "{cut}");
    assert!(told(None).contains("no opening is cut under it"));
}

fn refused(locker: &Locker) -> Problem {
    locker.shape_piece(0, &skin()).unwrap_err().remove(0)
}

#[test]
fn the_gig_locker_is_split_with_strips_and_its_top_bends_reverse() {
    let suffixes: Vec<String> = gig().pieces().into_iter().map(|piece| piece.suffix).collect();
    let expected = ["top1", "top2", "front1", "front2", "end-aft", "end-fwd", "top-strip1", "front-strip1"];
    assert_eq!(suffixes, expected);
    let top = proven(&piece(&gig(), "top1", &skin()));
    let (x, y) = top.extents_mm();
    // 13 + 1.5 + 1 − 2·.1593 = 15.181; 46 long.
    assert!(
        (y / 25.4 - 15.181).abs() < 0.0006 && (x / 25.4 - 46.0).abs() < 1e-6,
        "{} {}",
        x / 25.4,
        y / 25.4
    );
    let ways: Vec<fold::Direction> = top.bends.iter().map(|bend| bend.direction).collect();
    assert_eq!(ways, [Up, Down]);
    // 10.5 + 1 − .1593 = 11.341.
    let (_, y) = proven(&piece(&gig(), "front1", &skin())).extents_mm();
    assert!((y / 25.4 - 11.341).abs() < 0.0006, "{}", y / 25.4);
    for bend in &top.bends {
        assert!(bend.from.distance(bend.to) <= 46.0 * 25.4 + 1e-6);
    }
}

/// Ends, top and front measured put together: ends stop against them, or they lie on the ends' flanges.
#[test]
fn plates_meet_as_asked_and_are_measured_put_together() {
    let lap = |width: &str, carried_by: Chosen, outside| CornerStyle::Lap {
        width: inches(width),
        carried_by,
        outside,
    };
    for (corner, words) in [
        (CornerStyle::Butt { through: Chosen::LongSides }, "butt, the front runs through"),
        (lap("3/4", Chosen::LongSides, false), "lap, the front lies on the end's joining flange of .750"),
    ] {
        let making = Making { corner, seam_gap: inches("1/64"), ..skin() };
        let mut tapered = gig();
        tapered.lids.clear();
        (tapered.widths, tapered.heights) = ([inches("14"), inches("9")], [inches("12"), inches("8")]);
        (tapered.longest_bend, tapered.crate_inside) = (None, None);
        for end in ["end-aft", "end-fwd"] {
            let shaped = piece(&tapered, end, &making);
            proven(&shaped);
            let seams = seams(&shaped);
            assert_eq!(seams.len(), 3, "{seams:?}");
            assert!(seams.iter().any(|seam| seam.contains(words)), "{seams:?}");
            for seam in &seams {
                // Within .02 mm, printed to thousandths.
                let gaps = seam.split("gap designed .016, least ").nth(1).unwrap_or_else(|| panic!("{seam}"));
                assert!(gaps.split(", largest ").all(|gap| [".015", ".016"].contains(&gap)), "{seam}");
            }
        }
        let top = seams(&piece(&tapered, "top1", &making));
        assert_eq!(top.len(), 4, "{top:?}");
        assert!(top.iter().any(|seam| seam.contains("backing strip of the top")), "{top:?}");
        assert!(top.iter().any(|seam| seam.contains("behind the top's front flange")), "{top:?}");
        assert!(top.iter().any(|seam| seam.contains("edge to edge")), "{top:?}");
    }
    let refused = |corner: CornerStyle| {
        let making = Making { corner, ..skin() };
        gig().shape_piece(0, &making).unwrap_err().remove(0)
    };
    assert!(refused(CornerStyle::Open).remedy.contains("joining flanges"));
    assert!(refused(CornerStyle::Butt { through: Chosen::ShortSides }).remedy.contains("front"));
    assert!(refused(lap("1", Chosen::Sides(vec!["front".to_owned()]), false)).remedy.contains("ends"));
    assert!(refused(lap("1", Chosen::LongSides, true)).remedy.contains("inside"));
}

/// By hand, R = T = .090. The top's rear flange turns up: its underside leaves the level .18 before the hull, and the end's
/// upper corner stands √(.18² + .18²) − .18 = .075 off the round; 12.82 − .18 = 12.64 lies on the flat. The front ends .18
/// under the top, the end .09: the last .09 of its front edge stands over it, .045 off front and top at its middle. The bottom
/// flange is 1 wide and begins its round .18 behind the front, which stands .09 behind the edge of the top.
#[test]
fn an_end_meets_flats_only_as_far_as_they_run_and_says_what_stays_open() {
    let seams = seams(&piece(&gig(), "end-aft", &skin()));
    let of =
        |name: &str| seams.iter().find(|seam| seam.contains(name)).unwrap_or_else(|| panic!("{seams:?}"));
    let flat = "of it lies on flat metal of the other plate; over the rest, where that plate ends";
    for (name, words) in [
        (
            "end to top",
            format!(
                "12.820 long outside, but only 12.640 {flat} or is bent away, the seam stands up to .075 open, gap"
            ),
        ),
        (
            "end to front",
            format!(
                "10.410 long outside, but only 10.320 {flat} or is bent away, the seam stands up to .045 open, gap"
            ),
        ),
        (
            "end to flange AB",
            format!("12.730 long outside, but only .820 {flat}, there is nothing to weld to, gap"),
        ),
    ] {
        assert!(of(name).contains(&words), "{}", of(name));
    }
}

#[test]
fn ends_and_strips_go_between_the_plates() {
    // Between the hull and the inside of the front: 13 − 2·.09 = 12.82; from the underside of the top, which lies one
    // radius above the front's edge, to the bottom flange: 10.5 + .09 − .09 = 10.5.
    for end in ["end-aft", "end-fwd"] {
        let (x, y) = proven(&piece(&gig(), end, &skin())).extents_mm();
        assert!((x / 25.4 - 12.82).abs() < 1e-6 && (y / 25.4 - 10.5).abs() < 1e-6, "{end}");
    }
    // Between the bends: 13 − .18 at the rear − .18 behind the front; 10.5 − .18 above the bottom flange.
    let strip = |suffix| proven(&piece(&gig(), suffix, &skin())).extents_mm();
    assert!((strip("top-strip1").0 / 25.4 - 12.64).abs() < 1e-6);
    assert!((strip("front-strip1").0 / 25.4 - 10.32).abs() < 1e-6);
    assert!((strip("top-strip1").1 / 25.4 - 3.0).abs() < 1e-6);
}

#[test]
fn no_seam_falls_under_a_lid_and_the_nearest_place_is_named() {
    let mut locker = gig();
    locker.lids = vec![lid("30")];
    let problem = refused(&locker);
    assert_eq!(problem.field, "lids[0].at");
    // The seam at 46 with half of its 3 wide strip: the lid may end at 44.5 or begin at 47.5.
    assert!(
        problem.remedy.contains("24.500 or further aft") && problem.remedy.contains("47.500"),
        "{}",
        problem.remedy
    );
    for fits in ["24-1/2", "47-1/2"] {
        locker.lids = vec![lid(fits)];
        assert!(locker.shape_piece(0, &skin()).is_ok(), "{fits}");
    }
}

#[test]
fn a_bend_too_long_and_a_blank_too_large_for_the_crate_are_refused() {
    let mut locker = gig();
    locker.lids.clear();
    locker.splits_at = vec![inches("69")];
    assert!(refused(&locker).remedy.contains("46.000 or further aft"));
    locker.splits_at = vec![inches("50")];
    assert!(refused(&locker).remedy.contains("46.000 and 69.000"));
    let mut locker = gig();
    locker.crate_inside = Some([inches("45"), inches("30"), inches("5-1/2")]);
    let problem = refused(&locker);
    assert!(
        problem.value.contains("46.000 × 15.181") && problem.wrong.contains("45.000 × 30.000"),
        "{problem}"
    );
}

/// By hand, R = T = .090: the bottom lies 1 + .09 + .09 = 1.18 under the outside of the top; the rear edge lies
/// 1·cos(atan(13.5/80)) − .09 = .986 − .09 = .896 behind the outside of the front.
#[test]
fn flanges_that_outgrow_the_smaller_end_are_refused_with_the_room_there_is() {
    let plain =
        Locker { splits_at: Vec::new(), lids: Vec::new(), crate_inside: None, longest_bend: None, ..gig() };
    let plain = Locker { length: inches("80"), backing_strip: None, frames_every: None, ..plain };
    let low = Locker { heights: [inches("12"), inches("1")], ..plain.clone() };
    let problem = refused(&low);
    assert_eq!(problem.field, "front_flange");
    assert!(problem.remedy.contains("1.180"), "{problem}");
    let narrow = Locker { widths: [inches("14-1/2"), inches("1")], ..plain.clone() };
    let problem = refused(&narrow);
    assert_eq!(problem.field, "bottom_flange");
    assert!(problem.remedy.contains(".896"), "{problem}");
    let fits = Locker { heights: [inches("12"), inches("1")], front_flange: inches("1.18"), ..plain };
    assert!(fits.shape_piece(0, &skin()).is_ok(), "{:?}", fits.shape_piece(0, &skin()));
}

#[test]
fn a_lid_leaves_its_opening_in_the_right_length() {
    let mut locker = gig();
    locker.lids[1].opening = Some([inches("18"), inches("8")]);
    assert!(proven(&piece(&locker, "top1", &skin())).outline.holes.is_empty());
    let top = proven(&piece(&locker, "top2", &skin()));
    assert_eq!(top.outline.holes.len(), 1);
    let (low, high) = top.outline.holes[0].bounds();
    // The lid begins 14 into the second length and is 20 long: the opening runs from 15 to 33.
    assert!((low.x / 25.4 - 15.0).abs() < 1e-6 && (high.x / 25.4 - 33.0).abs() < 1e-6, "{low:?} {high:?}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Whatever the taper, top and front have the same edge, and fronts are as high where they meet the ends.
    #[test]
    fn shared_edges_agree(widths in [400_i64..1200, 400..1200], heights in [400_i64..1200, 400..1200], split in 0..5_i64, flanged in any::<bool>(), gap in 0_i64..3) {
        let sixteenths = |n: i64| Length::from_sixty_fourths(n);
        let mut locker = gig();
        locker.widths = widths.map(sixteenths);
        locker.heights = heights.map(sixteenths);
        locker.lids.clear();
        (locker.longest_bend, locker.crate_inside, locker.backing_strip) = (None, None, None);
        locker.splits_at = (1..=split).map(|n| inches("15") * n).collect();
        locker.frames_every = Some(inches("15"));
        let mut making = Making { seam_gap: sixteenths(gap), ..skin() };
        if flanged {
            making.corner = CornerStyle::Lap { width: inches("3/4"), carried_by: Chosen::LongSides, outside: false };
        }
        let (mut top, mut front) = (0.0, 0.0);
        for (number, piece) in locker.pieces().iter().enumerate() {
            let shaped = locker.shape_piece(number, &making).unwrap();
            proven(&shaped);
            let side = |name: &str| value(&shaped.facts, name);
            if piece.suffix.starts_with("top") { top += side("side CD"); }
            if piece.suffix.starts_with("front") { front += side("side CD"); }
            if piece.suffix == "front1" || piece.suffix == "front" {
                prop_assert!((side("side BC") - locker.heights[0].inches()).abs() < 1e-4);
            }
        }
        prop_assert!((top - front).abs() < 1e-3, "{top} {front}");
    }
}

/// Lid 1 runs from 12 to 32 and frame 1 stands at 23, lid 2 from 60 to 80 and frame 3 at 69. An opening of 20 that ends short of
/// the frame is not crossed: in the middle of a lid from 26 to 46 one of 4 runs from 34 to 38.
#[test]
fn a_frame_under_the_opening_of_a_lid_is_pointed_out() {
    let cautions = |locker: &Locker, suffix: &str| -> Vec<String> {
        let number = locker.pieces().iter().position(|piece| piece.suffix == suffix).unwrap();
        let found = locker.cautions(number, &skin()).into_iter();
        found.map(|problem| format!("{}: {}: {}", problem.field, problem.value, problem.wrong)).collect()
    };
    assert_eq!(
        cautions(&gig(), "top1"),
        ["opening of lid 1: 12.000 to 32.000 from aft: frame 1 at 23.000 crosses it"]
    );
    assert_eq!(
        cautions(&gig(), "top2"),
        ["opening of lid 2: 60.000 to 80.000 from aft: frame 3 at 69.000 crosses it"]
    );
    assert!(cautions(&gig(), "front1").is_empty() && cautions(&gig(), "end-aft").is_empty());
    let short = LockerLid { opening: Some([inches("4"), inches("4")]), ..lid("26") };
    assert!(cautions(&Locker { lids: vec![short], ..gig() }, "top1").is_empty());
    let wide = LockerLid { opening: Some([inches("16"), inches("4")]), ..lid("14") };
    assert_eq!(
        cautions(&Locker { lids: vec![wide], ..gig() }, "top1"),
        ["opening of lid 1: 16.000 to 32.000 from aft: frame 1 at 23.000 crosses it"]
    );
}

/// The front runs forward end first: frame 1 at 23 lies 46 − 23 from the forward end of length 1, frame 3 at 69 lies 92 − 69
/// from that of length 2; frame 2 stands at the seam.
#[test]
fn fronts_name_their_frames() {
    for (suffix, places) in [
        ("front1", [("frame 1", 23.0), ("frame 2", 0.0)]),
        ("front2", [("frame 2", 46.0), ("frame 3", 23.0)]),
    ] {
        let locker = gig();
        let number = locker.pieces().iter().position(|piece| piece.suffix == suffix).unwrap();
        let lines = locker.places(number, &skin()).lines;
        let inches = |mm: f64| (mm / 25.4 * 1000.0).round() / 1000.0;
        let found: Vec<(&str, f64)> =
            lines.iter().map(|(name, [low, _])| (name.as_str(), inches(low.x))).collect();
        assert_eq!(found, places);
        // Plumb, from the bottom of a front 10 1/2 high to its upper edge.
        for (name, [low, high]) in &lines {
            assert!((low.x - high.x).abs() < 1e-9 && high.y.abs() < 1e-9, "{name}");
            assert!(-10.5 * 25.4 - 1e-9 < low.y && low.y < -9.0 * 25.4, "{name}: {}", low.y);
        }
    }
}
