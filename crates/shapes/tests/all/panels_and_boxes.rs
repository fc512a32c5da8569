//! Panels with flanges, holes and notches; day boxes; plates.

#![allow(clippy::unwrap_used, reason = "a test may stop at a part that cannot be made")]

use crate::common::{inches, making, value};
use fold::Direction::{Down, Up};
use fold::refold;
use geometry::{Point, tolerance, trig};
use shapes::day_box::DayBox;
use shapes::hole::{Hole, HoleKind};
use shapes::pan::Rim;
use shapes::panel::{Flange, Notch, Panel};
use shapes::plate::{Plate, PlateOutline};
use shapes::{Figure, Shaped};
use units::{Angle, Length};

fn proven(shaped: &Shaped) -> fold::FlatPattern {
    let flat = shaped.unfold().unwrap();
    let proof = refold::prove(&shaped.part, &flat).unwrap();
    assert!(proof.worst_mm < 0.001, "{}", proof.worst_mm);
    flat
}

fn flange(side: &str, leg: &str, direction: fold::Direction, degrees: f64) -> Flange {
    let turn = Angle::from_degrees(degrees);
    Flange { side: side.to_owned(), leg: inches(leg), direction, turn, short: [Length::ZERO; 2] }
}

fn figure(corners: &[(f64, f64)]) -> Figure {
    let points: Vec<Point> = corners.iter().map(|(x, y)| Point::new(x * 25.4, y * 25.4)).collect();
    Figure::lettered(&points).unwrap()
}

#[test]
fn a_culling_wing_has_the_length_of_its_tapered_edge() {
    // 68 long, 19 1/2 tapering to 14 1/4: √(68² + 5.25²) = 68.202.
    let making = making(".125", ".1875", 0.42);
    let panel = Panel {
        outline: figure(&[(0.0, 0.0), (68.0, 5.25), (68.0, 19.5), (0.0, 19.5)]),
        flanges: vec![flange("AB", "3", Up, 90.0)],
        holes: Vec::new(),
        notches: Vec::new(),
        edges: Vec::new(),
    };
    let shaped = panel.shape(&making).unwrap();
    assert!((value(&shaped.facts, "side AB") - 68.202).abs() < 0.0005);
    let flat = proven(&shaped);
    // The slanting edge's farthest corner is D: 14.25 above A along the station, less the lean of the edge.
    let sizes: Vec<(&str, f64)> =
        shaped.part.sizes.iter().map(|size| (size.name.as_str(), size.expected_mm / 25.4)).collect();
    assert!(sizes[0].0 == "height of flange AB, outside" && (sizes[0].1 - 3.0).abs() < 1e-9, "{sizes:?}");
    let far = 19.5 * 68.0 / trig::hypot(68.0, 5.25);
    // An edge aslant has no one distance from the flange.
    assert!(sizes[1].0.ends_with("to corner D, square to the flange"), "{sizes:?}");
    assert!((sizes[1].1 - far).abs() < 1e-9, "{sizes:?}");
    let bend = &flat.bends[0];
    assert!((bend.from.distance(bend.to) / 25.4 - 68.202).abs() < 0.05);
}

#[test]
fn flanges_up_and_down_at_one_corner_and_past_square() {
    let making = making(".125", ".125", 0.42);
    for turn in [30.0, 90.0, 135.0] {
        let panel = Panel {
            outline: figure(&[(0.0, 0.0), (40.0, 0.0), (38.0, 20.0), (3.0, 18.0)]),
            flanges: vec![
                flange("AB", "2", Up, turn),
                flange("BC", "1 1/2", Down, 90.0),
                flange("CD", "1 1/4", Down, 90.0),
            ],
            holes: Vec::new(),
            notches: Vec::new(),
            edges: Vec::new(),
        };
        let shaped = panel.shape(&making).unwrap();
        proven(&shaped);
        proven(&Shaped { part: shaped.part.mirrored(), facts: Vec::new() });
        proven(&Shaped { part: shaped.part.seen_from_back(), facts: Vec::new() });
    }
}

#[test]
fn a_flange_past_square_is_measured_to_the_outermost_metal() {
    // Legs to the outermost metal, capped setback: blank = 10 + 2 − (2·(R + T) − θ·(R + K·T)); DIN 6935's case of
    // acute openings with the neutral line at K.
    let making = making(".125", ".125", 0.42);
    let panel = Panel {
        outline: figure(&[(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]),
        flanges: vec![flange("AB", "2", Up, 120.0)],
        holes: Vec::new(),
        notches: Vec::new(),
        edges: Vec::new(),
    };
    let flat = proven(&panel.shape(&making).unwrap());
    let allowance = 120.0_f64.to_radians() * (0.125 + 0.42 * 0.125);
    let expected = 10.0 + 2.0 - (2.0 * 0.25 - allowance);
    assert!((flat.extents_mm().1 / 25.4 - expected).abs() < 1e-6);
}

#[test]
fn a_flange_that_stops_short_gets_saw_notches() {
    let making = making(".125", ".125", 0.42);
    let mut short = flange("AB", "2", Down, 90.0);
    short.short = [inches("3"), inches("1")];
    let panel = Panel {
        outline: figure(&[(0.0, 0.0), (20.0, 0.0), (20.0, 10.0), (0.0, 10.0)]),
        flanges: vec![short],
        holes: Vec::new(),
        notches: Vec::new(),
        edges: Vec::new(),
    };
    let flat = proven(&panel.shape(&making).unwrap());
    let (from, to) = (flat.bends[0].from, flat.bends[0].to);
    assert!((from.x - 3.0 * 25.4).abs() < tolerance::SAME_POINT_MM);
    assert!((to.x - 19.0 * 25.4).abs() < tolerance::SAME_POINT_MM);
}

#[test]
fn flanges_into_an_inside_corner_are_refused() {
    let making = making(".125", ".125", 0.42);
    let panel = Panel {
        outline: figure(&[(0.0, 0.0), (20.0, 0.0), (20.0, 8.0), (10.0, 8.0), (10.0, 16.0), (0.0, 16.0)]),
        flanges: vec![flange("CD", "2", Down, 90.0), flange("DE", "2", Down, 90.0)],
        holes: Vec::new(),
        notches: Vec::new(),
        edges: Vec::new(),
    };
    let refused = match panel.shape(&making) {
        Ok(shaped) => shaped.unfold().is_err(),
        Err(_) => true,
    };
    assert!(refused);
}

#[test]
fn notches_and_holes_take_their_area() {
    let making = making(".125", ".125", 0.42);
    let round = Hole { at: [inches("5"), inches("5")], kind: HoleKind::Round { diameter: inches("2") } };
    let kind = HoleKind::Slot { length: inches("4"), width: inches("1"), turned: Angle::from_degrees(30.0) };
    let slot = Hole { at: [inches("12"), inches("5")], kind };
    let corner = Notch::Corner { corner: "C".to_owned(), along: inches("3"), across: inches("2") };
    let edge =
        Notch::Edge { side: "AB".to_owned(), at: inches("10"), width: inches("2"), depth: inches("1") };
    let plate = Plate {
        outline: PlateOutline::Figure(figure(&[(0.0, 0.0), (20.0, 0.0), (20.0, 10.0), (0.0, 10.0)])),
        holes: vec![round, slot],
        notches: vec![corner, edge],
    };
    let flat = proven(&plate.shape(&making).unwrap());
    let pi = std::f64::consts::PI;
    let expected = 200.0 - pi - (3.0 + pi / 4.0) - 6.0 - 2.0;
    assert!((flat.outline.area_mm2() / 645.16 - expected).abs() < 1e-9);
}

#[test]
fn a_disc_is_round() {
    let making = making(".125", ".125", 0.42);
    let outline = PlateOutline::Disc { diameter: inches("8") };
    let flat = proven(&Plate { outline, holes: Vec::new(), notches: Vec::new() }.shape(&making).unwrap());
    assert!((flat.outline.area_mm2() / 645.16 - 16.0 * std::f64::consts::PI).abs() < 1e-9);
}

#[test]
fn day_boxes_with_sloping_back_and_bottom_refold() {
    let making = making(".090", ".090", 0.42);
    for rim in [Rim::None, Rim::Out(inches("1")), Rim::In(inches("3/4"))] {
        for (depth_bottom, back_height) in [("9", "14"), ("6 1/2", "14"), ("6 1/2", "12"), ("11", "15")] {
            let day_box = DayBox {
                width: inches("18"),
                height: inches("14"),
                depth_top: inches("9"),
                depth_bottom: inches(depth_bottom),
                back_height: inches(back_height),
                rim,
            };
            proven(&day_box.shape(&making).unwrap());
        }
    }
}

/// A panel with a square cut-out and a round hole: where they are on the folded panel, and what a shifted, a widened or a
/// missing hole in the flat is told.
#[test]
fn holes_are_measured_on_the_refolded_panel() {
    let making = making(".125", ".125", 0.42);
    let hole = |x: &str, y: &str, kind: HoleKind| Hole { at: [x, y].map(inches), kind };
    let cut_out =
        HoleKind::Rectangle { length: inches("3"), width: inches("4"), corner_radius: Length::ZERO };
    let panel = Panel {
        outline: figure(&[(0.0, 0.0), (30.0, 0.0), (30.0, 20.0), (0.0, 20.0)]),
        flanges: vec![flange("AB", "3", Up, 90.0), flange("BC", "2", Down, 70.0)],
        holes: vec![hole("5", "6", HoleKind::Round { diameter: inches("2") }), hole("20", "12", cut_out)],
        notches: Vec::new(),
        edges: Vec::new(),
    };
    let shaped = panel.shape(&making).unwrap();
    let flat = shaped.unfold().unwrap();
    let holes = refold::prove(&shaped.part, &flat).unwrap().holes;
    let round = &holes[0];
    assert!(round.name.starts_with("hole 1 in ") && holes.len() == 2, "{holes:?}");
    let near = |mm: f64, inches: f64| assert!((mm / 25.4 - inches).abs() < 1e-6, "{} {inches}", mm / 25.4);
    for (found, [x, y, across]) in holes.iter().zip([[5.0, 6.0, 2.0], [20.0, 12.0, 5.0]]) {
        near(found.measured.x, x);
        near(found.measured.y, y);
        near(found.measured.z, 0.125);
        near(found.measured_across_mm, across);
    }
    let told = |change: &dyn Fn(&mut fold::FlatPattern)| {
        let mut wrong = flat.clone();
        change(&mut wrong);
        refold::prove(&shaped.part, &wrong).unwrap_err().to_string()
    };
    let aside = geometry::Vector::new(0.5, 0.0);
    let shifted = told(&|flat| flat.outline.holes[0] = flat.outline.holes[0].mapped(false, |p| p + aside));
    assert_eq!(shifted, format!("{} is off by 0.5000 mm after refolding", round.name));
    let widened = told(&|flat| {
        let middle = flat.faces[0].placement.place(Point::new(5.0 * 25.4, 6.0 * 25.4));
        flat.outline.holes[0] = geometry::Contour::round_hole(middle, 26.0);
    });
    assert!(widened.contains("off by 1.2000 mm"), "{widened}");
    assert!(told(&|flat| drop(flat.outline.holes.pop())).contains("1 holes, but 2 were designed"));
}

/// A hole 1 1/2 up a flange stands that high above the back of the panel, on the flange's inside.
#[test]
fn a_hole_in_a_flange_is_carried_round_the_bend() {
    let panel = Panel {
        outline: figure(&[(0.0, 0.0), (30.0, 0.0), (30.0, 20.0), (0.0, 20.0)]),
        flanges: vec![flange("AB", "3", Up, 90.0)],
        holes: Vec::new(),
        notches: Vec::new(),
        edges: Vec::new(),
    };
    let mut part = panel.shape(&making(".125", ".1875", 0.42)).unwrap().part;
    // Counted from B back along the mold line, and up.
    let at = Point::new(4.0 * 25.4, 1.5 * 25.4);
    part.faces[1].holes.push(geometry::Contour::round_hole(at, 12.7));
    let proof = refold::prove(&part, &fold::flat::unfold(&part).unwrap()).unwrap();
    let [hole] = proof.holes.as_slice() else { panic!("{:?}", proof.holes) };
    assert_eq!(hole.name, format!("hole 1 in {}", part.faces[1].name));
    let found = [hole.measured.x, hole.measured.y, hole.measured.z, hole.measured_across_mm];
    for (found, expected) in found.into_iter().zip([26.0, 0.125, 1.5, 1.0]) {
        assert!((found / 25.4 - expected).abs() < 1e-6, "{hole:?}");
    }
}

/// An L-shaped panel with a flange in its hollow: what lies before the flange counts as well as what lies behind it. By the
/// outline A and F lie 12 before DE, and B and C only 8 behind it.
#[test]
fn a_flange_in_a_hollow_proves() {
    let making = making(".125", ".125", 0.42);
    let outline = figure(&[(0.0, 0.0), (20.0, 0.0), (20.0, 12.0), (12.0, 12.0), (12.0, 6.0), (0.0, 6.0)]);
    for (side, far) in [("DE", 12.0), ("EF", 6.0), ("BC", 20.0), ("CD", 12.0)] {
        for direction in [Up, Down] {
            let mut flange = flange(side, "1", direction, 90.0);
            if side == "DE" {
                flange.short = [Length::ZERO, inches("1 1/2")];
            } else if side == "EF" {
                flange.short = [inches("1 1/2"), Length::ZERO];
            }
            let panel = Panel {
                outline: outline.clone(),
                flanges: vec![flange],
                holes: Vec::new(),
                notches: Vec::new(),
                edges: Vec::new(),
            };
            let shaped = panel.shape(&making).unwrap();
            let flat = proven(&shaped);
            let proof = refold::prove(&shaped.part, &flat).unwrap();
            let size = proof.sizes.iter().find(|size| size.name.ends_with("far edge")).unwrap();
            assert!((size.measured_mm / 25.4 - far).abs() < 1e-6, "{side}: {}", size.measured_mm / 25.4);
        }
    }
}

/// Highest metal over the outside of the root, mm: every flat and every bend zone, its round in strips.
fn highest_mm(shaped: &Shaped) -> f64 {
    let facets = fold::facets::of(&shaped.unfold().unwrap());
    let points = facets.facets.iter().flat_map(|facet| facet.rings.iter().flatten());
    points.map(|point| point.z).fold(f64::NEG_INFINITY, f64::max)
}

/// Without a rim the plates end at the face: no metal stands before it, and the depth at the bottom is that of the lower
/// corner of the back, however low it lies.
#[test]
fn a_day_box_without_a_rim_is_as_deep_as_asked() {
    let making = making(".125", ".125", 0.42);
    for back_height in ["6", "9", "12"] {
        let day_box = DayBox {
            width: inches("16"),
            height: inches("9"),
            depth_top: inches("4"),
            depth_bottom: inches("4"),
            back_height: inches(back_height),
            rim: Rim::None,
        };
        let shaped = day_box.shape(&making).unwrap();
        proven(&shaped);
        let deep = highest_mm(&shaped) / 25.4;
        assert!((deep - 4.0).abs() < 1e-6, "{back_height}: {deep}");
    }
}

/// Depth 6 at the bottom with the back run down half an inch below the face: the lower corner of the back lies 6 in behind
/// the front of the rim, and the line of the back crosses the level of the face's edge at 4 + 2 · 9/9.5 = 5.895 in.
#[test]
fn the_depth_at_the_bottom_is_that_of_the_backs_lower_corner() {
    let making = making(".125", ".125", 0.42);
    let day_box = DayBox {
        width: inches("16"),
        height: inches("9"),
        depth_top: inches("4"),
        depth_bottom: inches("6"),
        back_height: inches("9 1/2"),
        rim: Rim::Out(inches("1")),
    };
    let shaped = day_box.shape(&making).unwrap();
    proven(&shaped);
    let fact = |name: &str| value(&shaped.facts, name);
    assert!(
        (fact("bottom, outside") - trig::hypot(6.0_f64, 0.5)).abs() < 1e-6,
        "{}",
        fact("bottom, outside")
    );
    assert!((fact("back along its slope, outside") - trig::hypot(9.5_f64, 2.0)).abs() < 1e-6);
    assert!((fact("depth at the lower corner of the back, square to the face") - 6.0).abs() < 1e-9);
    assert!((fact("depth at the level of the face's lower edge") - (4.0 + 18.0 / 9.5)).abs() < 1e-6);
}

/// Two flanges of unlike height are welded as far as the lower of them reaches.
#[test]
fn a_corner_is_as_long_as_both_flanges_reach() {
    let flange = |side: &str, leg: &str| Flange {
        side: side.to_owned(),
        leg: inches(leg),
        direction: Down,
        turn: Angle::RIGHT,
        short: [Length::ZERO; 2],
    };
    let outline = Figure::rectangle(500.0, 300.0).unwrap();
    let flanges = vec![flange("BC", "5"), flange("CD", "7/8")];
    let panel = Panel { outline, flanges, holes: Vec::new(), notches: Vec::new(), edges: Vec::new() };
    let part = panel.shape(&making(".100", ".156", 0.42)).unwrap().part;
    let seam = part.seams.iter().find(|seam| seam.name.ends_with("corner C")).unwrap();
    assert!((seam.length_mm - 0.875 * 25.4).abs() < 1e-9, "{}", seam.length_mm);
}
