//! Gutters and coamings: mitres to the opening's own angles, and pieces that close.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use crate::common::{inches, making, value};
use geometry::Point;
use geometry::outline::Chords;
use shapes::coaming::{Coaming, CoamingMade};
use shapes::gutter::{Gutter, GutterDrain, GutterSpout};
use shapes::opening::{Diagonal, MeasuredOpening, Sense};
use shapes::pan::Rim;
use shapes::{Figure, Making, Recipe, Shaped};
use units::Length;

fn hatch() -> Figure {
    let taped = MeasuredOpening {
        sides: ["31 1/4", "24 5/8", "30 7/8", "25 1/8"].map(inches),
        ac: Some(inches("39 11/16")),
        bd: Some(inches("40 1/8")),
        trust: Some(Diagonal::AC),
        sense: Sense::CounterClockwise,
        tape: inches("1/16"),
    };
    taped.solve(skin().style).unwrap().figure
}

fn skin() -> Making {
    making(".125", ".125", 0.42)
}

fn gutter() -> Gutter {
    Gutter {
        opening: hatch(),
        outset: Length::ZERO,
        width: inches("1 3/4"),
        depth: inches("1 1/4"),
        inner_depth: inches("1 1/4"),
        drain: Some(GutterDrain { corner: "A".to_owned(), diameter: inches("3/4"), spout: None }),
    }
}

fn proven(recipe: &dyn Recipe, making: &Making) -> Vec<Shaped> {
    let piece = |number: usize| {
        let shaped = recipe.shape_piece(number, making).unwrap();
        let flat = shaped.unfold().unwrap_or_else(|error| panic!("piece {number}: {error}"));
        let proof = fold::refold::prove(&shaped.part, &flat).unwrap();
        assert!(proof.worst_mm < 0.001, "{}", proof.worst_mm);
        shaped
    };
    (0..recipe.pieces().len().max(1)).map(piece).collect()
}

// Source of the angles: worked from the same five taped numbers by a separate script; an invented hatch.
#[test]
fn channels_are_mitred_to_half_of_the_openings_own_angles() {
    let shaped = proven(&gutter(), &skin());
    assert_eq!(shaped.len(), 4);
    for (corner, angle) in [("A", 89.4), ("B", 89.7), ("C", 91.2), ("D", 89.7)] {
        let mitre = value(&shaped[0].facts, &format!("mitre at corner {corner}"));
        assert!((2.0 * mitre - angle).abs() < 0.051, "{corner}: {mitre}");
    }
    assert!(
        (value(&shaped[0].facts, "channel AB, long side, outside, corner to corner of the welded gutter")
            - 31.25)
            .abs()
            < 1e-9
    );
}

#[test]
fn channels_have_their_true_lengths_and_width() {
    let shaped = proven(&gutter(), &skin());
    for (number, piece) in shaped.iter().enumerate() {
        let flat = piece.unfold().unwrap();
        let (length, width) = flat.extents_mm();
        // Legs 1 1/4 + 1 3/4 + 1 1/4 less two deductions of .22118 (T .125, R .125, K .42).
        assert!((width / 25.4 - (4.25 - 2.0 * 0.221_18)).abs() < 0.000_01, "{}", width / 25.4);
        // The outer wall is cut back to the inside of the corner, so the blank is shorter than the opening's side.
        let side = hatch().side_mm(number);
        assert!(length < side && side - length < 4.0 * 3.175, "{length} {side}");
        assert_eq!(piece.part.faces[0].holes.len(), usize::from(number == 0));
        let sizes = piece.part.sizes.iter().map(|size| (size.name.as_str(), size.expected_mm / 25.4));
        let told = ["width over both walls", "height of the outer wall", "height of the inner wall"];
        let told = told.map(|name| format!("{name}, outside"));
        for ((name, inches), (expected, size)) in sizes.zip(told.iter().zip([1.75, 1.25, 1.25])) {
            assert!(name == expected && (inches - size).abs() < 1e-9, "{name}: {inches}");
        }
        assert_eq!(piece.part.sizes.len(), told.len());
    }
}

#[test]
fn a_drain_wider_than_the_flat_of_the_bottom_is_refused() {
    let drain = Some(GutterDrain { corner: "A".to_owned(), diameter: inches("1 1/2"), spout: None });
    let problems = Gutter { drain, ..gutter() }.shape_piece(0, &skin()).unwrap_err();
    assert_eq!(problems[0].field, "drain.diameter");
    assert!(problems[0].remedy.contains("1.250"), "{}", problems[0]);
}

#[test]
fn a_coaming_of_one_strip_or_of_sides() {
    for (top, made, count) in [
        (Rim::None, CoamingMade::Strip, 1),
        (Rim::In(inches("1")), CoamingMade::Strip, 1),
        (Rim::None, CoamingMade::Sides, 4),
        (Rim::Out(inches("1 1/4")), CoamingMade::Sides, 4),
        (Rim::In(inches("1")), CoamingMade::Sides, 4),
    ] {
        let coaming = Coaming { opening: hatch(), outset: Length::ZERO, height: inches("2"), top, made };
        assert_eq!(proven(&coaming, &skin()).len(), count);
    }
    let out = Coaming {
        opening: hatch(),
        outset: Length::ZERO,
        height: inches("2"),
        top: Rim::Out(inches("1")),
        made: CoamingMade::Strip,
    };
    assert!(out.shape_piece(0, &skin()).unwrap_err()[0].remedy.contains("of sides"));
}

/// Taped clockwise, the corners run B, A, D, C counter-clockwise: the strip is still welded at A, and bent round the others.
#[test]
fn a_strip_round_a_clockwise_opening_is_welded_at_its_first_corner() {
    let names = ["B", "A", "D", "C"].map(str::to_owned).to_vec();
    let sides = ["AB", "DA", "CD", "BC"].map(str::to_owned).to_vec();
    for (opening, at) in [(hatch(), ["DA", "AB"]), (Figure { names, sides, ..hatch() }, ["AB", "DA"])] {
        let made = CoamingMade::Strip;
        let coaming = Coaming { opening, outset: Length::ZERO, height: inches("2"), top: Rim::None, made };
        let part = coaming.shape_piece(0, &skin()).unwrap().part;
        let wall = |face: usize| part.faces[face].name.as_str();
        let at = at.map(|side| format!("wall {side}"));
        assert_eq!(part.bends.len(), 3);
        for bend in &part.bends {
            let pair = [wall(bend.parent), wall(bend.child)];
            assert!(!at.iter().all(|side| pair.contains(&side.as_str())), "{pair:?}");
        }
    }
}

#[test]
fn a_coaming_may_have_three_or_six_sides() {
    for corners in [
        vec![(0.0, 0.0), (500.0, 0.0), (100.0, 400.0)],
        vec![(0.0, 0.0), (300.0, -50.0), (600.0, 0.0), (620.0, 300.0), (300.0, 400.0), (-20.0, 310.0)],
    ] {
        let corners: Vec<Point> = corners.into_iter().map(|(x, y)| Point::new(x, y)).collect();
        let opening = Figure::lettered(&corners).unwrap();
        let coaming = Coaming {
            opening,
            outset: inches("1/8"),
            height: inches("2"),
            top: Rim::None,
            made: CoamingMade::Strip,
        };
        proven(&coaming, &skin());
    }
}

/// Welds between pieces: mitred channels, sides of coamings with flanges out and in, butted ones too. Nothing of one piece lies
/// in the other: what would is cut off the ends of the bends on the flat, and the gap is as asked for along the whole weld.
#[test]
fn pieces_close_at_their_welds_without_being_dressed() {
    let coaming = |top| Coaming {
        opening: hatch(),
        outset: Length::ZERO,
        height: inches("3"),
        top,
        made: CoamingMade::Sides,
    };
    let (narrow, wide) = (Rim::In(inches("3/4")), Rim::Out(inches("1 1/2")));
    let coamings = [coaming(narrow), coaming(wide)];
    let recipes: [&dyn Recipe; 3] = [&gutter(), &coamings[0], &coamings[1]];
    for (number, recipe) in recipes.into_iter().enumerate() {
        for radius in [".063", ".125", ".25"] {
            for gap in ["0", "1/32"] {
                let making = Making { seam_gap: inches(gap), ..making(".125", radius, 0.42) };
                let mut cut = 0;
                for shaped in proven(recipe, &making) {
                    let welds = shaped.facts.iter().filter(|fact| fact.name.starts_with("weld "));
                    let words: Vec<String> = welds.map(|fact| format!("{:?}", fact.value)).collect();
                    assert!(words.len() >= 2, "{words:?}");
                    for words in words {
                        assert!(
                            words.contains("no metal in the other piece"),
                            "{number} R {radius}: {words}"
                        );
                    }
                    cut += shaped.unfold().unwrap().zones.iter().filter(|zone| zone.len() > 4).count();
                }
                // Flanges turned inward leave the mitre to the inside, and need no more than a straight cut.
                assert!(
                    number == 1 || 0 < cut,
                    "{number} R {radius}: nothing was cut, this test shows nothing"
                );
            }
        }
    }
}

/// The hole is the outside of the spout and its clearance; the spout's blank is π times the middle of its plate, less the gap.
#[test]
fn a_spout_is_a_part_of_its_own_and_its_hole_goes_by_its_outside() {
    let thin = making(".063", ".063", 0.42);
    let spout = Some(GutterSpout { length: inches("3"), clearance: inches("1/64") });
    let drain = |diameter: &str, spout| {
        Some(GutterDrain { corner: "A".to_owned(), diameter: inches(diameter), spout })
    };
    let with = |diameter: &str| Gutter { drain: drain(diameter, spout), ..gutter() };
    let drained = with("1");
    assert_eq!(drained.pieces().last().unwrap().suffix, "spout");
    let pieces = proven(&drained, &thin);
    assert_eq!(pieces.len(), 5);
    let hole = pieces[0].part.faces[0].holes[0].corners(Chords::On);
    let across = |of: fn(&Point) -> f64| {
        let all = || hole.iter().map(of);
        all().fold(f64::NEG_INFINITY, f64::max) - all().fold(f64::INFINITY, f64::min)
    };
    let expected = (1.0 + 2.0 * 0.063 + 2.0 / 64.0) * 25.4;
    assert!((across(|p| p.x) - expected).abs() < 0.3 && (across(|p| p.y) - expected).abs() < 0.3);
    let (girth, length) = pieces[4].unfold().unwrap().extents_mm();
    let (long, short) = (girth.max(length), girth.min(length));
    assert!((long - std::f64::consts::PI * (1.0 + 0.063) * 25.4).abs() < 0.01, "{long}");
    assert!((short - 3.0 * 25.4).abs() < 1e-6, "{short}");
    // A hole of 1 3/8 has room in the bottom, a spout of that inside has not.
    let bare = Gutter { drain: drain("1 3/8", None), ..gutter() };
    assert!(bare.shape_piece(0, &thin).is_ok());
    let problems = with("1 3/8").shape_piece(0, &thin).unwrap_err();
    assert_eq!(problems[0].field, "drain.diameter");
    let most = crate::common::word_after(&problems[0], "keep it under");
    // It is rounded down: a thousandth more is too large.
    let larger = Length::from_inches(most.parse::<f64>().unwrap() + 0.001);
    let too_large = GutterDrain { corner: "A".to_owned(), diameter: larger, spout };
    let too_large = Gutter { drain: Some(too_large), ..gutter() };
    assert!(too_large.shape_piece(0, &thin).is_err(), "{most}");
    let smaller = Length::from_inches(most.parse::<f64>().unwrap() - 0.002);
    let fits =
        Gutter { drain: Some(GutterDrain { corner: "A".to_owned(), diameter: smaller, spout }), ..gutter() };
    assert!(fits.shape_piece(0, &thin).is_ok(), "{most}");
    let short = Some(GutterSpout { length: inches("1/16"), clearance: Length::ZERO });
    let problems = Gutter { drain: drain("1", short), ..gutter() }.shape_piece(4, &thin).unwrap_err();
    assert_eq!(problems[0].field, "drain.spout.length");
}

/// Over a rectangle of 30 × 20 the bottoms of the four channels, put together, reach from outside to outside, and each of
/// them lies on its own side: 30 × 20.
#[test]
fn the_channels_of_a_gutter_stand_round_its_opening() {
    let opening = Figure::rectangle(inches("30").millimetres(), inches("20").millimetres()).unwrap();
    let gutter = Gutter { opening, drain: None, ..gutter() };
    let places = gutter.put_together(&skin());
    assert_eq!(places.len(), gutter.pieces().len());
    let mut corners = Vec::new();
    for (number, place) in &places {
        let part = gutter.shape_piece(*number, &skin()).unwrap().part;
        corners.extend(part.faces[0].corners.iter().map(|corner| place.place(*corner, 0.0)));
    }
    assert!(corners.iter().all(|corner| corner.z.abs() < 1e-9), "the bottoms lie level");
    let reach = |of: &dyn Fn(&geometry::Point3) -> f64| {
        let ends = corners
            .iter()
            .map(of)
            .fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], at| [low.min(at), high.max(at)]);
        (ends[1] - ends[0]) / 25.4
    };
    let [long, wide] = [reach(&|corner| corner.x), reach(&|corner| corner.y)];
    // Faces run to their mold lines, which lie on the outsides.
    assert!((long - 30.0).abs() < 0.001 && (wide - 20.0).abs() < 0.001, "{long} × {wide}");
    let strip = Coaming {
        opening: hatch(),
        outset: Length::ZERO,
        height: inches("4"),
        top: Rim::None,
        made: CoamingMade::Strip,
    };
    assert!(strip.put_together(&skin()).is_empty(), "one piece stands by itself");
}
