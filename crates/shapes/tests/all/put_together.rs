//! Pieces of one part put together: halves of a lid, lengths of a deck, dividers in their tray. Every seam between them
//! is measured on the refolded pieces, and said among the facts of both.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use crate::common::{inches, making, split_deck};
use fold::Direction::Down;
use geometry::{Point, polygon};
use shapes::deck::{Deck, DeckFlange, DeckStation};
use shapes::edge::EdgeEnd;
use shapes::hole::{Hole, HoleKind};
use shapes::locker::Locker;
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::panel::Flange;
use shapes::step::{Pad, Step};
use shapes::tapered_lid::{LidMade, MadeUpLid, Seat, Split, TaperedLid};
use shapes::tray::Tray;
use shapes::{Chosen, CornerStyle, FactValue, Figure, Making, Places, Recipe};
use units::{Angle, Length};

/// Name, gap designed, least and largest, inches, of every seam that a piece has a share in.
fn seams(recipe: &dyn Recipe, piece: usize, making: &Making) -> Vec<(String, [f64; 3])> {
    let shaped = recipe.shape_piece(piece, making).unwrap_or_else(|problems| panic!("{problems:?}"));
    let seam = |fact: &shapes::Fact| {
        let FactValue::Words(words) = &fact.value else { return None };
        let name = fact.name.strip_prefix("seam, ")?.to_owned();
        let number = |of: &str| words.split(of).nth(1)?.split([',', ' ']).next()?.parse().ok();
        Some((name, [number("gap designed ")?, number("least ")?, number("largest ")?]))
    };
    shaped.facts.iter().filter_map(seam).collect()
}

fn lid(across: [(&str, &str); 2], flange: Option<Length>) -> MadeUpLid {
    let corners = [(0.0, 0.0), (31.25, 0.0), (31.003, 24.624), (0.13, 25.125)];
    let ends = across.map(|(side, at)| (side.to_owned(), inches(at)));
    MadeUpLid {
        lid: TaperedLid {
            over: Figure::lettered(&corners.map(|(x, y)| Point::new(x * 25.4, y * 25.4))).unwrap(),
            outset: inches("7/8"),
            rise: inches("2"),
            inset: ["3", "2 1/2", "4 1/4", "2"].map(inches).to_vec(),
            skirt: inches("1 1/8"),
            return_width: None,
        },
        seat: Seat::Proud,
        hinge: None,
        made: LidMade::TwoHalves(Split { ends, flange }),
        notch: None,
        edge: EdgeEnd::Plain,
    }
}

#[test]
fn halves_of_a_lid_stand_the_gap_apart_along_the_whole_line() {
    let making = Making { seam_gap: inches("1/32"), ..making(".125", ".125", 0.42) };
    for flange in [None, Some(inches("1"))] {
        let lid = lid([("AB", "15"), ("CD", "17")], flange);
        for piece in 0..2 {
            let seams = seams(&lid, piece, &making);
            // Top or flanges, two slopes, two skirts.
            assert_eq!(seams.len(), 5, "{seams:?}");
            for (name, [designed, least, largest]) in seams {
                assert!((least - designed).abs() < 0.0011 && (largest - designed).abs() < 0.0011, "{name}");
                let wedge = name.starts_with("slope") || name.starts_with("skirt");
                assert!(
                    if wedge { 0.030 < designed } else { (designed - 0.031).abs() < 0.0011 },
                    "{name}: {designed}"
                );
            }
        }
    }
}

/// A line that crosses a hip cuts a corner of a slope off the top: it would belong to neither half.
#[test]
fn a_line_that_cuts_a_slope_off_its_top_is_refused() {
    let lid = lid([("AB", ".9"), ("CD", "23")], None);
    let problems = lid.shape_piece(0, &making(".125", ".125", 0.42)).unwrap_err();
    assert!(problems[0].wrong.contains("cut off from the top"), "{problems:?}");
}

#[test]
fn lengths_of_a_deck_meet_edge_to_edge_over_their_strips() {
    let deck = split_deck();
    let making = making(".125", ".1875", 0.42);
    let found: Vec<usize> = (0..5)
        .map(|piece| {
            let seams = seams(&deck, piece, &making);
            assert!(seams.iter().all(|(_, gaps)| gaps.iter().all(|gap| gap.abs() < 0.0011)), "{seams:?}");
            seams.len()
        })
        .collect();
    // Each seam with the next length, and each strip with the two that it lies under.
    assert_eq!(found, [2, 4, 2, 2, 2]);
}

/// A strip is as wide as it is asked for, and the deck narrows over it: it ends clear of the flange's bend at its narrower side.
#[test]
fn a_strip_under_a_deck_that_narrows_ends_clear_of_the_bend() {
    let station = |(at, width): (&str, &str)| DeckStation { at: inches(at), width: inches(width) };
    let flange = |leg: &str| Some(DeckFlange { leg: inches(leg), direction: Down });
    let deck = Deck {
        stations: [("0", "10"), ("40", "20")].map(station).to_vec(),
        outboard: flange("1 1/2"),
        inboard: flange("3/4"),
        edges: [EdgeEnd::Plain; 2],
        slit: inches("1/16"),
        splits_at: vec![inches("20")],
        frames_every: None,
        longest: None,
        backing_strip: Some(inches("4")),
    };
    let making = making(".125", ".1875", 0.42);
    let strip = deck.shape_piece(2, &making).unwrap().unfold().unwrap();
    // At 18 the deck is 14.5 wide; R + T = .3125 is measured square to an edge that runs out by a quarter.
    let expected = 14.5 - 0.3125 - 0.3125 * (1.0_f64 + 0.0625).sqrt();
    assert!((strip.extents_mm().0 / 25.4 - expected).abs() < 1e-6, "{}", strip.extents_mm().0 / 25.4);
    assert_eq!(seams(&deck, 2, &making).len(), 2);
}

/// Strips of lockers that taper in plan and in height, thick and thin sheet, sharp and blunt bends.
#[test]
fn strips_of_lockers_lie_flat_and_in_nothing() {
    for ((thickness, radius), widths, heights) in [
        ((".090", ".090"), ["13", "13"], ["10 1/2", "10 1/2"]),
        ((".125", ".063"), ["14", "9"], ["8", "10"]),
        ((".063", ".190"), ["9", "15"], ["11", "7 1/2"]),
    ] {
        let locker = Locker {
            length: inches("92"),
            widths: widths.map(inches),
            heights: heights.map(inches),
            front_flange: inches("1 1/2"),
            rear_flange: inches("1"),
            bottom_flange: inches("1"),
            splits_at: vec![inches("30"), inches("60")],
            frames_every: None,
            backing_strip: Some(inches("3")),
            lids: Vec::new(),
            longest_bend: None,
            crate_inside: None,
        };
        let corner = CornerStyle::Butt { through: Chosen::LongSides };
        let making = Making { corner, ..making(thickness, radius, 0.42) };
        let strips =
            locker.pieces().into_iter().enumerate().filter(|(_, piece)| piece.suffix.contains("strip"));
        let mut count = 0;
        for (piece, _) in strips {
            let seams = seams(&locker, piece, &making);
            assert_eq!(seams.len(), 2, "{seams:?}");
            assert!(seams.iter().all(|(_, gaps)| gaps.iter().all(|gap| gap.abs() < 0.0011)), "{seams:?}");
            count += 1;
        }
        assert_eq!(count, 4);
    }
}

#[test]
fn dividers_stand_their_play_off_the_walls_and_on_the_floor() {
    let making = making(".063", ".063", 0.42);
    for flange in [None, Some(inches("1/2"))] {
        for lean in [[0.0; 4], [5.0, 10.0, 5.0, 0.0]] {
            let plan = PanPlan::Outside { length: inches("24"), width: inches("12") };
            let rims = vec![Rim::Out(inches("1/2"))];
            let lean = lean.map(Angle::from_degrees).to_vec();
            let tray = Tray {
                pan: Pan { plan, height: inches("3"), rims, lean, edge: EdgeEnd::Plain },
                across: vec![inches("8"), inches("16")],
                along: vec![inches("5")],
                height: inches("2"),
                play: inches("1/32"),
                flange,
            };
            // Two ends and a foot each, in which the pan has a share; and the slots where they cross.
            let counts: Vec<usize> = (0..4)
                .map(|piece| {
                    let seams = seams(&tray, piece, &making);
                    for (name, [_, least, largest]) in &seams {
                        let play = if name.ends_with("floor") { 0.0 } else { 0.031 };
                        let right = (least - play).abs() < 0.0011 && (largest - play).abs() < 0.0011;
                        assert!(right, "{name}: {least} {largest}");
                    }
                    seams.len()
                })
                .collect();
            assert_eq!(counts, [9, 4, 4, 5]);
        }
    }
}

/// The slots of a divider are not in its middle: its ends go by the walls that they meet, its long edges by the floor and the top. Of
/// one that runs along, its slots come from above, 8 and 16 in from wall DA: measured from the end of that name.
#[test]
fn the_edges_of_a_divider_go_by_what_they_meet() {
    let making = making(".063", ".063", 0.42);
    for flange in [None, Some(inches("1/2"))] {
        let plan = PanPlan::Outside { length: inches("24"), width: inches("12") };
        let rims = vec![Rim::Out(inches("1/2"))];
        let tray = Tray {
            pan: Pan { plan, height: inches("3"), rims, lean: vec![Angle::ZERO; 4], edge: EdgeEnd::Plain },
            across: vec![inches("8"), inches("17")],
            along: vec![inches("5")],
            height: inches("2"),
            play: inches("1/32"),
            flange,
        };
        assert_eq!(tray.places(0, &making), Places::default());
        for (piece, walls) in [(1, ["AB", "CD"]), (2, ["AB", "CD"]), (3, ["DA", "BC"])] {
            let places = tray.places(piece, &making);
            let names: Vec<&str> = places.edges.iter().map(|(name, _)| name.as_str()).collect();
            let ends = walls.map(|wall| format!("end at wall {wall}"));
            assert_eq!(names, [ends[0].as_str(), ends[1].as_str(), "floor edge", "top edge"]);
            let face = tray.shape_piece(piece, &making).unwrap().part.faces[0].corners.clone();
            for (name, ends) in &places.edges {
                for end in ends {
                    let edges = polygon::edges(&face).map(|edge| polygon::point_to_segment(*end, edge));
                    let off = edges.fold(f64::INFINITY, f64::min);
                    assert!(off < 1e-6, "{piece} {name}: {off} off the edge");
                }
            }
            // From the plane of the first end to the near side of the first slot, a play and a half more play before its divider.
            let [low, high] = places.edges[0].1;
            let wall = (high - low).unit();
            let off_end = |at: Point| wall.cross(at - low).abs();
            let floor_high = places.edges[2].1[0];
            let top_high = places.edges[3].1[0];
            let middle = floor_high.toward(top_high, 0.5);
            let up = (high - low).unit();
            let depth = |at: Point| (at - middle).dot(up).abs();
            // The bottoms of the slots lie the play off the middle of the height.
            let mut bottoms: Vec<f64> = face
                .iter()
                .filter(|at| (depth(**at) - inches("1/32").millimetres()).abs() < 1e-6)
                .map(|at| off_end(*at))
                .collect();
            bottoms.sort_by(f64::total_cmp);
            let near = if piece == 3 { tray.across[0] } else { tray.along[0] };
            // Play at the wall and play beside the plate: together they make up for each other.
            let near_mm = near.millimetres() - 2.0 * inches("1/32").millimetres();
            assert!((bottoms[0] - near_mm).abs() < 1e-6, "{piece}: {bottoms:?}, {near_mm}");
        }
    }
}

pub(crate) fn step(at: &[(&str, &str)]) -> Step {
    let flange = Flange {
        side: "AB".to_owned(),
        leg: inches("1 1/2"),
        direction: Down,
        turn: Angle::from_degrees(90.0),
        short: [Length::ZERO; 2],
    };
    let hole = Hole { at: [inches("6"), inches("4")], kind: HoleKind::Round { diameter: inches("3/4") } };
    let at = at.iter().map(|(x, y)| [inches(x), inches(y)]).collect();
    let pad = Pad { size: [inches("6"), inches("3")], count: 2, at };
    Step {
        size: [inches("30"), inches("16")],
        flange: Some(flange),
        pipe: None,
        holes: vec![hole],
        pads: vec![pad],
    }
}

#[test]
fn pads_lie_flat_under_the_top_of_a_step() {
    let making = making(".125", ".125", 0.42);
    for piece in 0..2 {
        let seams = seams(&step(&[("8", "1/4"), ("24", "13")]), piece, &making);
        assert_eq!(seams.len(), 2, "{seams:?}");
        assert!(seams.iter().all(|(_, gaps)| gaps.iter().all(|gap| gap.abs() < 0.0011)), "{seams:?}");
    }
    let unplaced = step(&[]).shape_piece(1, &making).unwrap();
    let fact = unplaced.facts.iter().find(|fact| fact.name == "seam, pad 1 to the top").unwrap();
    assert!(matches!(&fact.value, FactValue::Words(words) if words.contains("no place is given")));
}

#[test]
fn pads_that_lie_on_nothing_or_in_something_are_refused() {
    let making = making(".125", ".125", 0.42);
    for (at, words) in [
        ([("8", "1/8"), ("24", "13")], "the bend along AB"),
        ([("8", "1"), ("24 1/2", "13")], "past the edge"),
        ([("3", "2"), ("24", "13")], "covers a hole"),
        ([("8", "5"), ("10", "6")], "run into one another"),
    ] {
        for piece in 0..2 {
            let problem = step(&at).shape_piece(piece, &making).unwrap_err().remove(0);
            assert!(problem.wrong.contains(words), "{problem}");
        }
    }
    let one = step(&[("8", "1")]).shape_piece(0, &making).unwrap_err().remove(0);
    assert!(one.wrong.contains("gives 1 of 2 places"), "{one}");
}
