//! Cylinders, cones and transitions against textbook sums, and against independent measurements in space.
#![expect(clippy::unwrap_used, reason = "a shape that does not build fails its test")]

use std::f64::consts::PI;

use crate::common::{inches, making, value, word_after};
use fold::refold;
use geometry::{Point3, polygon, trig};
use proptest::prelude::*;
use shapes::cone::Cone;
use shapes::cylinder::{Cylinder, Slope};
use shapes::transition::{MadeOf, Transition};
use shapes::wrap::{DiameterTo, WrapMaking, WrapSeam, strikes_by_rule};
use shapes::{Making, Recipe, Shaped};
use units::{Angle, Length};

fn bumped(strikes: u32) -> WrapMaking {
    WrapMaking { rolled: false, strikes: Some(strikes), seam: WrapSeam::Butt }
}

fn thin() -> Making {
    making(".063", ".063", 0.42)
}

fn proven(recipe: &dyn Recipe, piece: usize, making: &Making) -> (Shaped, fold::FlatPattern, refold::Proof) {
    let shaped = recipe.shape_piece(piece, making).unwrap();
    let flat = shaped.unfold().unwrap();
    let proof = refold::prove(&shaped.part, &flat).unwrap();
    (shaped, flat, proof)
}

fn collar(strikes: u32) -> Cylinder {
    Cylinder {
        diameter: inches("6"),
        to: DiameterTo::Inside,
        length: inches("4"),
        ends: [None; 2],
        made: bumped(strikes),
    }
}

#[test]
fn a_cylinder_is_as_long_as_its_mid_line() {
    // Derived: rolled cylinder blank = π × (inside diameter + thickness), K = ½.
    for strikes in [6, 16, 90] {
        let (_, flat, proof) = proven(&collar(strikes), 0, &thin());
        let (high, girth) = flat.extents_mm();
        assert!((girth / 25.4 - PI * 6.063).abs() < 1e-6, "{}", girth / 25.4);
        assert!((high / 25.4 - 4.0).abs() < 1e-9);
        // Bent at every strike it closes on itself: the butt seam is shut.
        assert!(proof.seams[0].largest_mm < 1e-6, "{:?}", proof.seams);
        assert_eq!(flat.bends.len(), usize::try_from(strikes).unwrap());
    }
}

#[test]
fn diameters_are_said_to_a_face() {
    let flat = |diameter: &str, to| {
        let cylinder = Cylinder { diameter: inches(diameter), to, ..collar(16) };
        proven(&cylinder, 0, &thin()).1.extents_mm().1
    };
    let inside = flat("6", DiameterTo::Inside);
    assert!((flat("6.126", DiameterTo::Outside) - inside).abs() < 1e-6);
    assert!((flat("6.063", DiameterTo::Middle) - inside).abs() < 1e-6);
}

#[test]
fn strikes_by_rule_keep_half_a_thickness() {
    let strikes = strikes_by_rule(76.2, 1.6);
    let inside = |strikes: u32| 76.2 * (1.0 - trig::cos(PI / f64::from(strikes)));
    assert!(inside(strikes) <= 0.8 && inside(strikes - 1) > 0.8, "{strikes}");
}

#[test]
fn a_sloped_end_is_the_sine_curve_of_its_plane() {
    // Parallel-line development (textbook): height over the middle = r·tan(slope)·cos(place round), here on the face of
    // the plate that meets the plane first.
    let slope = Slope { angle: Angle::from_degrees(30.0), long_side: Angle::from_degrees(180.0) };
    let cylinder = Cylinder { ends: [None, Some(slope)], ..collar(24) };
    let making = thin();
    let (shaped, flat, _) = proven(&cylinder, 0, &making);
    let middle = 0.5 * 6.063 * 25.4;
    let (_, girth) = flat.extents_mm();
    let mut seen = 0;
    for corner in flat.outline.outer.corners(geometry::outline::Chords::On) {
        if corner.x < 1.0 {
            continue;
        }
        let round = 2.0 * PI * corner.y / girth - PI;
        let half = 0.5 * 0.063 * 25.4;
        let reach = ((middle - half) * trig::cos(round)).min((middle + half) * trig::cos(round));
        let height = 4.0 * 25.4 + trig::tan(PI / 6.0) * reach;
        assert!((corner.x - height).abs() < 0.1, "{corner:?} {height}");
        seen += 1;
    }
    assert!(seen > 24, "{seen}");
    let long = value(&shaped.facts, "long side");
    assert!((long - (4.0 + trig::tan(PI / 6.0) * 3.0)).abs() < 1e-4, "{long}");
    let short = value(&shaped.facts, "short side");
    assert!((short - (4.0 - trig::tan(PI / 6.0) * 3.063 - 0.0)).abs() < 0.04, "{short}");
}

#[test]
fn slopes_that_meet_are_refused_with_the_length_that_would_do() {
    let slope = Slope { angle: Angle::from_degrees(60.0), long_side: Angle::ZERO };
    let cylinder = Cylinder { ends: [None, Some(slope)], ..collar(24) };
    let problems = cylinder.shape_piece(0, &thin()).unwrap_err();
    assert_eq!(problems[0].field, "length");
    // tan 60° × 3.063, the outside on the short side.
    assert!(problems[0].remedy.contains("5.3"), "{problems:?}");
    let tight = Cylinder { diameter: inches(".1"), ..collar(24) };
    assert!(tight.shape_piece(0, &thin()).unwrap_err()[0].remedy.contains(".126"));
}

#[test]
fn the_textbook_cone() {
    // Derived from textbook development: d 12 to 6 on the mid-line, 8 high: slant of the whole cone 17.0880, sector
    // 126.404°, cut radius 8.5440.
    let cone = Cone {
        large: inches("12"),
        small: inches("6"),
        to: DiameterTo::Middle,
        height: inches("8"),
        made: bumped(24),
    };
    let (shaped, flat, proof) = proven(&cone, 0, &thin());
    assert!((value(&shaped.facts, "slant of the whole cone") - 17.0880).abs() < 5e-5);
    assert!((value(&shaped.facts, "cut radius of the small end") - 8.5440).abs() < 5e-5);
    assert!((value(&shaped.facts, "sector") - 126.404).abs() < 5e-4);
    // The flat itself is that sector: its area, and the closing of the seam when bent.
    let area = 0.5 * 126.404 * PI / 180.0 * (17.0880 * 17.0880 - 8.5440 * 8.5440);
    let cut = flat.outline.area_mm2() / (25.4 * 25.4);
    assert!((cut - area).abs() < 0.02 * 17.0, "{cut} {area}");
    assert!(proof.seams[0].largest_mm < 1e-6, "{:?}", proof.seams);
    // All bend lines run to one apex, and every corner of the flat lies on one of the two circles about it.
    let (first, other) = (flat.bends[0], flat.bends[7]);
    let apex = first.from.crossing(first.along(), other.from, other.along()).unwrap();
    for bend in &flat.bends {
        let off = (apex - bend.from).cross(bend.along()).abs();
        assert!(off < 1e-6, "{off}");
    }
    for corner in flat.outline.outer.corners(geometry::outline::Chords::On) {
        let radius = corner.distance(apex) / 25.4;
        let off = (radius - 17.0880).abs().min((radius - 8.5440).abs());
        assert!(off < 1e-4, "{radius}");
    }
}

#[test]
fn cones_of_any_number_of_strikes_close() {
    for strikes in [6, 7, 12, 60] {
        for (large, small, height) in
            [("12", "6", "8"), ("7", "4", "5"), ("20", "3", "2"), ("6", "5.5", "20")]
        {
            let cone = Cone {
                large: inches(large),
                small: inches(small),
                to: DiameterTo::Inside,
                height: inches(height),
                made: bumped(strikes),
            };
            let (_, _, proof) = proven(&cone, 0, &thin());
            assert!(proof.seams[0].largest_mm < 1e-4, "{strikes} {large} {:?}", proof.seams);
        }
    }
}

fn lapped(width: &str, outside: bool, strikes: Option<u32>) -> WrapMaking {
    WrapMaking { rolled: true, strikes, seam: WrapSeam::Lap { width: inches(width), outside } }
}

/// The girth of the flat of a lapped collar is its butted girth, the lap, and what the joggle takes: two bends of 30° and
/// the slant between them, less its run on the flat. T = R = .063, K .42, no gap.
#[test]
fn a_lapped_cylinder_is_longer_by_the_lap_and_its_joggle() {
    for outside in [true, false] {
        let collar = Cylinder { made: lapped("1/2", outside, Some(16)), ..collar(16) };
        let (_, flat, proof) = proven(&collar, 0, &thin());
        let (sine, cosine) = (trig::sin(PI / 6.0), trig::cos(PI / 6.0));
        let slant = (0.063 + 0.063 * (1.0 - cosine)) / sine;
        let setback = 0.126 * trig::tan(PI / 12.0);
        let allowance = PI / 6.0 * 0.063 * 1.42;
        let run = 2.0 * setback + slant * cosine - 0.063 * sine;
        let on_the_flat = 2.0 * allowance + slant - 2.0 * setback;
        let expected = PI * 6.063 + 0.5 + on_the_flat - run;
        let girth = flat.extents_mm().1 / 25.4;
        assert!((girth - expected).abs() < 1e-6, "{girth} {expected}");
        assert_eq!(flat.bends.len(), 18);
        let seam = &proof.seams[0];
        assert!(seam.least_mm < 1e-4 && seam.largest_mm < 1e-4, "{seam:?}");
        assert!(matches!(seam.style, fold::SeamStyle::Lap { outside: side, .. } if side == outside));
    }
}

#[test]
fn a_lap_too_wide_for_its_flat_says_what_would_do() {
    let wide = Cylinder { made: lapped("2", true, Some(16)), ..collar(16) };
    let problem = wide.shape_piece(0, &thin()).unwrap_err().remove(0);
    assert_eq!(problem.field, "seam.lap");
    let word = |after: &str| word_after(&problem, after);
    let widest = inches(&word("the widest is"));
    let fewer: u32 = word("strike it").parse().unwrap();
    let works = |width: Length, strikes: u32| {
        let seam = WrapSeam::Lap { width, outside: true };
        let made = WrapMaking { rolled: true, strikes: Some(strikes), seam };
        Cylinder { made, ..collar(16) }.shape_piece(0, &thin()).is_ok()
    };
    assert!(
        works(widest - Length::from_inches(0.001), 16) && !works(widest + Length::from_inches(0.001), 16)
    );
    assert!(works(inches("2"), fewer) && !works(inches("2"), fewer + 1));
    // Without a number of strikes the rule gives way to the lap.
    let (shaped, flat, _) = proven(&Cylinder { made: lapped("2", true, None), ..collar(16) }, 0, &thin());
    assert_eq!(flat.bends.len(), usize::try_from(fewer + 2).unwrap());
    assert!(shaped.facts.iter().any(|fact| fact.name == "seam"));
    let hopeless = Cylinder { made: lapped("4", false, None), ..collar(16) };
    assert!(hopeless.shape_piece(0, &thin()).unwrap_err()[0].remedy.contains("with 6 strikes"));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    /// Wherever a lap is made, its strip lies the gap off the plate all over, and nothing runs into anything.
    #[test]
    fn laps_of_wraps_lie_as_asked(
        (diameter, length) in (48_i64..400, 32_i64..200),
        (taper, slope) in (prop::option::of(20_i64..90), prop::option::of((5_u32..50, 0_u32..360))),
        (lap, outside, gap) in (8_i64..80, any::<bool>(), 0_i64..3),
        strikes in prop::option::of(6_u32..30),
        radius in 1_i64..3,
    ) {
        let sixteenths = |count: i64| Length::from_sixty_fourths(4 * count);
        let mut making = making(".063", if radius == 1 { ".063" } else { ".125" }, 0.42);
        making.seam_gap = Length::from_sixty_fourths(gap);
        let made = WrapMaking { rolled: true, strikes, seam: WrapSeam::Lap { width: Length::from_sixty_fourths(lap), outside } };
        let recipe: Box<dyn Recipe> = match taper {
            Some(percent) => Box::new(Cone {
                large: sixteenths(diameter),
                small: Length::from_millimetres(sixteenths(diameter).millimetres() * f64::from(i32::try_from(percent).unwrap()) / 100.0),
                to: DiameterTo::Inside,
                height: sixteenths(length),
                made,
            }),
            None => {
                let end = slope.map(|(slope, side)| Slope {
                    angle: Angle::from_degrees(f64::from(slope)),
                    long_side: Angle::from_degrees(f64::from(side)),
                });
                Box::new(Cylinder { diameter: sixteenths(diameter), to: DiameterTo::Outside, length: sixteenths(length), ends: [None, end], made })
            }
        };
        let Ok(shaped) = recipe.shape_piece(0, &making) else { return Ok(()) };
        let Ok(flat) = shaped.unfold() else { return Ok(()) };
        let proof = refold::prove(&shaped.part, &flat);
        prop_assert!(proof.is_ok(), "{proof:?}");
        let seam = &proof.unwrap().seams[0];
        let gap_mm = making.seam_gap.millimetres();
        prop_assert!((seam.least_mm - gap_mm).abs() < 0.02 && (seam.largest_mm - gap_mm).abs() < 0.02, "{seam:?}");
    }
}

pub(crate) fn transition(made_of: MadeOf) -> Transition {
    Transition {
        rectangle: [inches("14"), inches("12")],
        round: inches("10"),
        height: inches("9"),
        offset: [inches("1"), inches("-1/2")],
        divisions: 4,
        made_of,
        seam: WrapSeam::Butt,
    }
}

/// A division of the round of [`transition`], worked out here again: radius 5 about (1, −½), 9 high.
fn division(number: u32) -> Point3 {
    let angle = -PI / 2.0 + f64::from(number) * PI / 8.0;
    Point3::new(1.0 + 5.0 * trig::cos(angle), -0.5 + 5.0 * trig::sin(angle), 9.0)
}

#[test]
fn true_lengths_are_those_of_the_textbook() {
    // True length = √(plan² + height²), element by element.
    let (shaped, _, _) = proven(&transition(MadeOf::One), 0, &making(".050", ".050", 0.42));
    let corners = [("A", -7.0, -6.0, 12), ("B", 7.0, -6.0, 0), ("C", 7.0, 6.0, 4), ("D", -7.0, 6.0, 8)];
    let mut seen = 0;
    for (name, x, y, first) in corners {
        for number in first..=first + 4 {
            let to = division(number);
            let plan = trig::hypot(to.x - x, to.y - y);
            let length = trig::hypot(plan, 9.0);
            let found = value(&shaped.facts, &format!("{name} to {}", number % 16));
            assert!((found - length).abs() < 1e-6, "{name} {number}: {found} {length}");
            seen += 1;
        }
    }
    assert_eq!(seen, 20);
    assert!(
        (value(&shaped.facts, "between divisions of the round") - 10.0 * trig::sin(PI / 16.0)).abs() < 1e-6
    );
}

#[test]
fn every_flat_triangle_is_the_one_in_space() {
    // Angles of all triangles about the round end sum to what the space triangles have, and the one-piece seam closes.
    let making = making(".050", ".050", 0.42);
    for made_of in [MadeOf::One, MadeOf::Halves, MadeOf::Quarters] {
        let shape = transition(made_of);
        let pieces = shape.pieces().len().max(1);
        let mut area = 0.0;
        for piece in 0..pieces {
            let (shaped, flat, proof) = proven(&shape, piece, &making);
            area += shaped.part.faces.iter().map(|face| polygon::signed_area(&face.corners)).sum::<f64>();
            if made_of == MadeOf::One {
                assert!(proof.seams[0].largest_mm < 1e-4, "{:?}", proof.seams);
            }
            assert!(flat.bends.iter().all(|bend| bend.direction == fold::Direction::Up));
        }
        // Space: four side triangles and sixteen fan triangles, by cross products.
        let corner = [(-7.0, -6.0), (7.0, -6.0), (7.0, 6.0), (-7.0, 6.0)];
        let corner = corner.map(|(x, y)| Point3::new(x, y, 0.0));
        let triangle = |a: Point3, b: Point3, c: Point3| 0.5 * (b - a).cross(c - a).length();
        let mut space = 0.0;
        for side in 0..4_u32 {
            let [from, to] = [side, (side + 1) % 4].map(|number| corner[usize::try_from(number).unwrap()]);
            space += triangle(from, to, division(4 * side));
            for number in 4 * side..4 * side + 4 {
                space += triangle(to, division(number), division(number + 1));
            }
        }
        // What is cut away about the corners is small, and never adds.
        let inches2 = area / (25.4 * 25.4);
        assert!(inches2 < space && inches2 > space - 4.0 * 0.8, "{inches2} {space}");
    }
}

#[test]
fn halves_and_quarters_of_a_transition_meet_put_together() {
    for (made_of, seams) in [(MadeOf::Halves, 2), (MadeOf::Quarters, 2)] {
        for gap in ["0", "1/16"] {
            let making = Making { seam_gap: inches(gap), ..making(".050", ".050", 0.42) };
            let gap = making.print(making.seam_gap);
            let shape = transition(made_of);
            for piece in 0..shape.pieces().len() {
                let shaped = shape.shape_piece(piece, &making).unwrap();
                let words: Vec<String> = shaped
                    .facts
                    .iter()
                    .filter(|fact| fact.name.starts_with("seam, piece"))
                    .map(|fact| format!("{:?}", fact.value))
                    .collect();
                assert_eq!(words.len(), seams, "{words:?}");
                for words in words {
                    assert!(words.contains("butt, edge to edge, 180.0° inside"), "{words}");
                    assert!(words.contains(&format!("least {gap}, largest {gap}")), "{words}");
                }
            }
        }
    }
}

#[test]
fn a_transition_needs_a_height_and_a_seam_gap_stays_open() {
    let mut making = making(".050", ".050", 0.42);
    making.seam_gap = Length::from_inches(0.06);
    let (_, _, proof) = proven(&transition(MadeOf::One), 0, &making);
    assert!((proof.seams[0].least_mm - 0.06 * 25.4).abs() < 1e-3, "{:?}", proof.seams);
    let flat = Transition { height: inches("0"), ..transition(MadeOf::One) };
    assert_eq!(flat.shape_piece(0, &making).unwrap_err()[0].field, "height");
    let thick = crate::common::making(".25", ".5", 0.42);
    let small = Transition {
        rectangle: [inches("3"), inches("3")],
        round: inches("2"),
        height: inches("2"),
        offset: [Length::ZERO; 2],
        divisions: 6,
        made_of: MadeOf::One,
        seam: WrapSeam::Butt,
    };
    assert_eq!(small.shape_piece(0, &thick).unwrap_err()[0].field, "divisions");
}

/// DIN 6935 takes nothing off a single bend below 15°; the bends of a wrap are many, and its girth stays that of the
/// mid-line, π·6.063 (derived), whatever the model.
#[test]
fn a_wrap_keeps_its_girth_by_din_6935() {
    let number = fold::BendNumber::new(
        inches(".063"),
        inches(".063"),
        stock::BendModel::Din6935,
        fold::bend::Origin::Job,
    );
    let making = Making { number: number.unwrap(), ..thin() };
    let (_, flat, _) = proven(&collar(36), 0, &making);
    assert!((flat.extents_mm().1 / 25.4 - PI * 6.063).abs() < 1e-6, "{}", flat.extents_mm().1 / 25.4);
}
