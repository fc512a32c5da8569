//! Side decks from station offsets.
//!
//! Check values by hand from the offsets: the top by the trapezoidal rule, the edge as the sum of its chords.

#![allow(clippy::unwrap_used, reason = "a test may stop at a deck that cannot be made")]

use crate::common::{inches, making, value};
use fold::Direction::Down;
use fold::{Seam, refold};
use geometry::tolerance;
use proptest::prelude::*;
use shapes::deck::{Deck, DeckFlange, DeckStation};
use shapes::edge::{EdgeEnd, EdgeWay, HemKind};
use shapes::{FactValue, Making, Problem, Recipe, ReliefHole, ReliefStyle, Shaped};
use units::Length;

/// The port deck of the rescue skiff: widths every 15, and at the forward end, 142.
const OFFSETS: [(&str, &str); 10] = [
    ("0", "11-1/2"),
    ("15", "12-1/4"),
    ("30", "12-7/8"),
    ("45", "13-1/4"),
    ("60", "13-1/2"),
    ("75", "13-1/2"),
    ("90", "13-1/4"),
    ("105", "12-3/4"),
    ("120", "12"),
    ("142", "10-7/8"),
];

fn flange(leg: &str) -> Option<DeckFlange> {
    Some(DeckFlange { leg: inches(leg), direction: Down })
}

fn deck(offsets: &[(&str, &str)]) -> Deck {
    let station = |&(at, width): &(&str, &str)| DeckStation { at: inches(at), width: inches(width) };
    Deck {
        stations: offsets.iter().map(station).collect(),
        outboard: flange("1-1/2"),
        inboard: flange("3/4"),
        edges: [EdgeEnd::Plain; 2],
        slit: inches("1/16"),
        splits_at: Vec::new(),
        frames_every: Some(inches("15")),
        longest: None,
        backing_strip: None,
    }
}

fn thin() -> Making {
    making(".063", ".063", 0.42)
}

fn tread() -> Making {
    making(".125", ".1875", 0.42)
}

fn proven(shaped: &Shaped) -> (fold::FlatPattern, refold::Proof) {
    let flat = shaped.unfold().unwrap();
    let proof = refold::prove(&shaped.part, &flat).unwrap();
    assert!(proof.worst_mm < 0.001, "{}", proof.worst_mm);
    (flat, proof)
}

fn words(shaped: &Shaped, name: &str) -> String {
    match shaped.facts.iter().find(|fact| fact.name == name).map(|fact| fact.value.clone()) {
        Some(FactValue::Words(words)) => words,
        other => panic!("no words called {name}: {other:?}"),
    }
}

fn refused(deck: &Deck) -> Problem {
    deck.shape_piece(0, &tread()).unwrap_err().remove(0)
}

#[test]
fn the_port_deck_of_the_rescue_skiff() {
    let shaped = deck(&OFFSETS).shape_piece(0, &tread()).unwrap();
    let (flat, proof) = proven(&shaped);
    // Trapezoids: 15·(½·11.5 + 12.25 + 12.875 + 13.25 + 13.5 + 13.5 + 13.25 + 12.75 + ½·12) + 22·½·(12 + 10.875)
    // = 1798.5 in² = 12.49 ft².
    let area = shaped.facts.iter().find(|fact| fact.name == "top of the whole deck").unwrap();
    let FactValue::Area(area) = area.value else { panic!("not an area") };
    assert!((area.square_inches() / 144.0 - 12.49).abs() < 0.005, "{}", area.square_inches() / 144.0);
    assert!((value(&shaped.facts, "outboard edge of the whole deck") - 142.10).abs() < 0.005);
    // Nine outboard runs and the inboard edge, each bent by itself; eight slits between the runs.
    assert_eq!(flat.bends.len(), 10);
    assert_eq!(proof.seams.len(), 8);
    for seam in &proof.seams {
        assert!((seam.least_mm - inches("1/16").millimetres()).abs() < tolerance::REFOLD_MM);
    }
}

#[test]
fn a_bulging_edge_is_notched_and_a_hollow_one_gets_a_v_that_opens() {
    // By hand at 15: √… the edge changes direction by atan(.75/15) − atan(.625/15) = .4756°.
    let bulging = deck(&OFFSETS).shape_piece(0, &tread()).unwrap();
    let slit = words(&bulging, "slit at station 15.000");
    assert!(slit.contains("bulges by 0.48°") && slit.contains(".063 is left when folded"), "{slit}");
    // 10 in at 45 to the edge: a hollow of atan(2/15)·2 = 15.189°.
    let hollow = deck(&[("0", "14"), ("15", "12"), ("30", "14")]).shape_piece(0, &tread()).unwrap();
    let slit = words(&hollow, "slit at station 15.000");
    assert!(slit.contains("hollow by 15.19°"), "{slit}");
    let (_, proof) = proven(&hollow);
    // h = 1.5 less the deduction 2·.3125 − π/2·(.1875 + .42·.125) = .248; the V opens by 2·h·sin(15.189°/2) beyond 1/16.
    let expected = 0.0625 + 2.0 * (1.5 - 0.248) * 0.132_16;
    assert!((proof.seams[0].least_mm / 25.4 - expected).abs() < 0.001, "{}", proof.seams[0].least_mm / 25.4);
}

#[test]
fn drilled_slits_unfold_too() {
    let relief = ReliefStyle::Round { hole: ReliefHole::Diameter(inches("1/4")) };
    proven(&deck(&OFFSETS).shape_piece(0, &Making { relief, ..tread() }).unwrap());
}

#[test]
fn a_long_deck_is_split_at_a_frame_with_a_strip_under_the_seam() {
    let mut long = deck(&OFFSETS);
    long.longest = Some(inches("119"));
    let problem = refused(&long);
    assert_eq!(problem.field, "splits_at");
    assert!(problem.remedy.contains("split it at 105.000 or further aft"), "{}", problem.remedy);
    long.splits_at = vec![inches("70")];
    let problem = refused(&long);
    assert!(problem.remedy.contains("60.000 and 75.000"), "{}", problem.remedy);
    long.splits_at = vec![inches("75")];
    long.backing_strip = Some(inches("3"));
    let suffixes: Vec<String> = long.pieces().into_iter().map(|piece| piece.suffix).collect();
    assert_eq!(suffixes, ["1", "2", "strip1"]);
    let lengths: Vec<f64> = (0..3)
        .map(|piece| proven(&long.shape_piece(piece, &tread()).unwrap()).0.extents_mm().0 / 25.4)
        .collect();
    assert!((lengths[0] - 75.0).abs() < 0.08 && (lengths[1] - 67.0).abs() < 0.08, "{lengths:?}");
    // The flange of a slanting run is cut square to it, and so reaches past the seam in the flat by leg × slope.

    // Between the bends, at the strip's narrower side, 76-1/2: 13-1/2 less 1-1/2 in 60, less .125 + .1875 on both sides, outboard
    // measured square to an edge that runs in by 1 in 60.
    let bends = 0.3125 + 0.3125 * (1.0_f64 + 1.0 / 3600.0).sqrt();
    assert!((lengths[2] - (13.475 - bends)).abs() < 0.0001, "{lengths:?}");
}

#[test]
fn a_seam_between_stations_lies_on_the_chord() {
    let mut long = deck(&[("0", "10"), ("40", "14"), ("80", "14")]);
    long.splits_at = vec![inches("30")];
    let aft = long.shape_piece(0, &tread()).unwrap();
    // Three quarters of the way from 10 to 14 is 13; 30·(10 + 13)/2 = 345 in².
    let area = aft.facts.iter().find(|fact| fact.name == "top of this length").unwrap();
    let FactValue::Area(area) = area.value else { panic!("not an area") };
    assert!((area.square_inches() - 345.0).abs() < 1e-6);
    assert!((value(&aft.facts, "outboard edge of this length") - (900.0_f64 + 9.0).sqrt()).abs() < 1e-4);
}

#[test]
fn stations_must_run_forward() {
    let problem = refused(&deck(&[("0", "10"), ("15", "11"), ("15", "12")]));
    assert_eq!(problem.field, "stations[2].at");
    let short = deck(&[("0", "10"), ("1/32", "10"), ("30", "11")]);
    assert!(refused(&short).wrong.contains("too short for a flange"));
}

fn widths() -> impl Strategy<Value = Vec<i64>> {
    proptest::collection::vec(128_i64..256, 3..9)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    /// Every run's flange is as long as its chord less the cuts at its ends, and every slit refolds as designed.
    #[test]
    fn runs_agree_with_their_chords(widths in widths(), thin in any::<bool>()) {
        let stations: Vec<DeckStation> = widths
            .iter()
            .zip(0..)
            .map(|(&width, number)| DeckStation {
                at: Length::from_sixty_fourths(number * 15 * 64),
                width: Length::from_sixty_fourths(width * 4),
            })
            .collect();
        let mut random = deck(&OFFSETS);
        random.stations = stations.clone();
        let making = if thin { making(".063", ".063", 0.42) } else { tread() };
        let shaped = random.shape_piece(0, &making).unwrap();
        let (flat, proof) = proven(&shaped);
        prop_assert_eq!(flat.bends.len(), stations.len());
        prop_assert_eq!(proof.seams.len(), stations.len() - 2);
        let top: f64 = shaped.part.faces[0].corners.windows(2).skip(2).take(stations.len() - 1)
            .map(|pair| pair[0].distance(pair[1])).sum();
        let chords = value(&shaped.facts, "outboard edge of the whole deck");
        prop_assert!((top / 25.4 - chords).abs() < 0.001);
        let designed: Vec<f64> = shaped.part.seams.iter().map(|seam: &Seam| seam.gap_mm).collect();
        for (seam, gap) in proof.seams.iter().zip(designed) {
            prop_assert!((seam.least_mm - gap).abs() < tolerance::REFOLD_MM);
            let bulging_sharply = gap < tolerance::REFOLD_MM;
            prop_assert!(bulging_sharply || gap > inches("1/16").millimetres() - tolerance::REFOLD_MM);
        }
        // The opposite hand proves as well, and is as large.
        let mirrored = shaped.part.mirrored();
        let other = fold::flat::unfold(&mirrored).unwrap();
        refold::prove(&mirrored, &other).unwrap();
        prop_assert!((other.outline.area_mm2() - flat.outline.area_mm2()).abs() < 0.001);
    }
}

fn edge(kind: u8, length: &str, way: Option<EdgeWay>) -> EdgeEnd {
    let length = inches(length);
    match kind {
        0 => EdgeEnd::Hem { kind: HemKind::Closed, length, way },
        1 => EdgeEnd::Hem { kind: HemKind::Open { gap: inches(".1") }, length, way },
        2 => EdgeEnd::Hem { kind: HemKind::TearDrop { radius: inches(".08") }, length, way },
        3 => EdgeEnd::Return { length, turn: units::Angle::from_degrees(75.0), way },
        _ => EdgeEnd::Curl { radius: inches(".15"), turn: units::Angle::from_degrees(225.0), way },
    }
}

#[test]
fn flanges_and_plain_edges_of_decks_take_hems_returns_and_curls() {
    for kind in 0..5 {
        for way in [EdgeWay::In, EdgeWay::Out] {
            for split in [false, true] {
                let mut deck = deck(&OFFSETS);
                deck.outboard = flange("1 1/2");
                deck.inboard = flange("1");
                deck.edges = [edge(kind, "1/2", Some(way)), edge(kind, "3/8", Some(way))];
                if split {
                    deck.splits_at = vec![inches("75")];
                }
                for piece in 0..=usize::from(split) {
                    let shaped = deck
                        .shape_piece(piece, &thin())
                        .unwrap_or_else(|problems| panic!("{kind} {way:?}: {problems:?}"));
                    let (flat, _) = proven(&shaped);
                    let runs = if split { [5, 4][piece] } else { 9 };
                    assert_eq!(flat.bends.len(), 2 * (runs + 1), "{kind} {way:?}");
                }
            }
        }
        if kind != 3 {
            let mut bare = deck(&OFFSETS);
            (bare.outboard, bare.inboard) = (None, None);
            bare.edges = [edge(kind, "1/2", Some(EdgeWay::Down)), EdgeEnd::Plain];
            let shaped =
                bare.shape_piece(0, &thin()).unwrap_or_else(|problems| panic!("{kind}: {problems:?}"));
            assert_eq!(proven(&shaped).0.bends.len(), 9);
        }
    }
}

#[test]
fn edges_of_decks_that_cannot_be_are_refused() {
    let with = |outboard: EdgeEnd| {
        let mut deck = deck(&OFFSETS);
        deck.edges = [outboard, EdgeEnd::Plain];
        deck.shape_piece(0, &thin()).unwrap_err().remove(0)
    };
    let long = with(edge(0, "2", Some(EdgeWay::In)));
    assert!(long.field == "edges.outboard.hem" && long.wrong.contains("beyond its own bend"), "{long}");
    assert!(with(edge(0, "1/2", Some(EdgeWay::Up))).remedy.contains("out"));
    let mut bare = deck(&OFFSETS);
    bare.outboard = None;
    bare.edges = [edge(3, "1/2", Some(EdgeWay::Down)), EdgeEnd::Plain];
    let lip = bare.shape_piece(0, &thin()).unwrap_err().remove(0);
    assert!(lip.wrong.contains("is a flange"), "{lip}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Decks of any widths, hollow edges too: every edge refolds clear of itself.
    #[test]
    fn edges_of_random_decks_refold(
        widths in prop::collection::vec(9.0..14.0_f64, 3..6),
        kind in 0..5_u8,
        (out, leg, length) in (any::<bool>(), 12..24_i32, 5..10_i32),
    ) {
        let stations = widths.iter().zip(0_u32..).map(|(width, number)| DeckStation {
            at: Length::from_inches(15.0 * f64::from(number)),
            width: Length::from_inches(*width),
        });
        let leg = Some(DeckFlange { leg: Length::from_inches(f64::from(leg) / 16.0), direction: Down });
        let way = if out { EdgeWay::Out } else { EdgeWay::In };
        let deck = Deck {
            stations: stations.collect(),
            outboard: leg,
            edges: [edge(kind, &format!("{length}/16"), Some(way)), EdgeEnd::Plain],
            ..deck(&OFFSETS)
        };
        let shaped = deck.shape_piece(0, &thin()).map_err(|problems| TestCaseError::fail(format!("{problems:?}")))?;
        let flat = shaped.unfold().unwrap();
        let proof = refold::prove(&shaped.part, &flat);
        prop_assert!(proof.is_ok(), "{:?}", proof);
        prop_assert_eq!(flat.bends.len(), 2 * (widths.len() - 1) + 1);
    }
}

/// The legs are as given; the runs between two stations by Pythagoras from the offsets: 15 along, and 5/8 or 1/4 across.
#[test]
fn flanges_and_runs_of_a_deck_are_proven_sizes() {
    let shaped = deck(&OFFSETS).shape_piece(0, &tread()).unwrap();
    let proof = refold::prove(&shaped.part, &shaped.unfold().unwrap()).unwrap();
    let size = |name: &str| {
        let size = proof.sizes.iter().find(|size| size.name == name).unwrap_or_else(|| panic!("{name}"));
        size.measured_mm / 25.4
    };
    assert!((size("depth of flange inboard, outside") - 0.75).abs() < 1e-6);
    for (name, across) in
        [("15.000 to 30.000", 0.625_f64), ("60.000 to 75.000", 0.0), ("75.000 to 90.000", 0.25)]
    {
        assert!((size(&format!("depth of flange outboard {name}, outside")) - 1.5).abs() < 1e-6);
        let chord = (15.0 * 15.0 + across * across).sqrt();
        assert!((size(&format!("side outboard {name}, outside")) - chord).abs() < 1e-6, "{name}");
    }
}

/// Every width is found again on the refolded deck, with a flange at either edge or at both, turned up or down, and a deck that
/// is folded wrong is not: its outboard flange put one sheet farther out reads so much wider.
#[test]
fn widths_at_stations_are_measured_on_the_refolded_deck() {
    let up = Some(DeckFlange { direction: fold::Direction::Up, ..flange("1-1/2").unwrap() });
    for (outboard, inboard) in [
        (flange("1-1/2"), flange("3/4")),
        (flange("1-1/2"), None),
        (None, flange("3/4")),
        (up, flange("3/4")),
    ] {
        let deck = Deck { outboard, inboard, ..deck(&OFFSETS) };
        let shaped = deck.shape_piece(0, &tread()).unwrap();
        let (_, proof) = proven(&shaped);
        let widths: Vec<f64> = proof
            .sizes
            .iter()
            .filter(|size| size.name.starts_with("width at station "))
            .map(|size| size.measured_mm / 25.4)
            .collect();
        let expected = [11.5, 12.25, 12.875, 13.25, 13.5, 13.5, 13.25, 12.75, 12.0, 10.875];
        assert_eq!(widths.len(), expected.len());
        assert!(
            widths.iter().zip(expected).all(|(found, width)| (found - width).abs() < 0.001),
            "{widths:?}"
        );
    }
    let mut shaped = deck(&OFFSETS).shape_piece(0, &tread()).unwrap();
    let flat = shaped.unfold().unwrap();
    let size = shaped.part.sizes.iter_mut().find(|size| size.name == "width at station 60.000").unwrap();
    size.expected_mm += 3.175;
    let wrong = refold::prove(&shaped.part, &flat).unwrap_err().to_string();
    assert!(wrong.starts_with("width at station 60.000 is off by 3.175"), "{wrong}");
}

/// The seam at 75 lies on frame 5 of frames every 15, and its strip of 3 from 73 1/2 to 76 1/2 on it.
#[test]
fn a_frame_under_the_backing_strip_of_a_deck_is_named() {
    let split = Deck { splits_at: vec![inches("75")], backing_strip: Some(inches("3")), ..deck(&OFFSETS) };
    let strip = split.pieces().len() - 1;
    let found = split.cautions(strip, &tread());
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(
        found[0].wrong.starts_with("frame 5 at 75.000 lies under it, right under the seam"),
        "{}",
        found[0]
    );
    assert!((0..strip).all(|piece| split.cautions(piece, &tread()).is_empty()));
}
