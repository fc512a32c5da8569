//! Transitions whose seams are lapped: the strip lies flat on flat all along, and its metal is counted.

use std::f64::consts::PI;

use crate::common::{inches, making, sixteenths, value, word_after};
use fold::part::SeamStyle;
use fold::refold::{self, RefoldError};
use geometry::trig;
use proptest::prelude::*;
use shapes::transition::{MadeOf, Transition};
use shapes::wrap::WrapSeam;
use shapes::{FactValue, Making, Recipe};
use units::Length;

fn lapped(width: &str, outside: bool, made_of: MadeOf) -> Transition {
    Transition {
        rectangle: [inches("14"), inches("12")],
        round: inches("10"),
        height: inches("9"),
        offset: [inches("1"), inches("-1/2")],
        divisions: 4,
        made_of,
        seam: WrapSeam::Lap { width: inches(width), outside },
    }
}

/// From the last bend of the joggle to the edge of the strip lie, on the flat, the lap and half that bend's allowance:
/// ½·(π/6)·(R + K·T), T = R = .050, K .42 (formula of this crate's bend numbers, derived here again).
#[test]
fn the_metal_of_the_lap_is_on_the_flat() {
    let making = making(".050", ".050", 0.42);
    for outside in [true, false] {
        let shaped = lapped("1/2", outside, MadeOf::One).shape_piece(0, &making).unwrap();
        let flat = shaped.unfold().unwrap();
        let proof = refold::prove(&shaped.part, &flat).unwrap();
        let seam = &proof.seams[0];
        assert!(seam.least_mm < 1e-3 && seam.largest_mm < 1e-3, "{seam:?}");
        assert!(matches!(seam.style, SeamStyle::Lap { outside: side, .. } if side == outside));
        let strip = flat.faces.last().unwrap();
        let line = flat.bends.last().unwrap();
        let off = |p: &geometry::Point| (*p - line.from).cross(line.along()).abs();
        let reach = strip.corners.iter().map(off).fold(0.0, f64::max) / 25.4;
        let allowance = PI / 6.0 * 0.050 * 1.42;
        assert!((reach - (0.5 + 0.5 * allowance)).abs() < 1e-6, "{reach}");
        // The seam's length: the chord stands inside the circle, and its middle over its place in plan.
        let flat_at_seam = value(&shaped.facts, "the round is flat at a seam for");
        let round = -0.5 - (25.0 - 0.25 * flat_at_seam * flat_at_seam).sqrt();
        let plan = trig::hypot(1.0, round + 6.0);
        let length = value(&shaped.facts, "seam on AB");
        assert!((length - trig::hypot(plan, 9.0)).abs() < 1e-4, "{length}");
        let edge = shaped.part.faces.last().unwrap().edge(2);
        assert!((edge.0.distance(edge.1) / 25.4 - length).abs() < 1e-4);
    }
}

#[test]
fn every_seam_of_halves_and_quarters_is_lapped_and_measured() {
    for (made_of, gap) in [(MadeOf::Halves, "0"), (MadeOf::Quarters, "1/32")] {
        let making = Making { seam_gap: inches(gap), ..making(".050", ".050", 0.42) };
        let shape = lapped("1/2", true, made_of);
        let asked = making.print(making.seam_gap);
        for piece in 0..shape.pieces().len() {
            let shaped = shape.shape_piece(piece, &making).unwrap();
            refold::prove(&shaped.part, &shaped.unfold().unwrap()).unwrap();
            let seams = shaped.facts.iter().filter(|fact| fact.name.starts_with("seam, piece"));
            let words: Vec<String> = seams.map(|fact| format!("{:?}", fact.value)).collect();
            assert_eq!(words.len(), 2, "{words:?}");
            for words in words {
                assert!(words.contains("lap, flat on flat"), "{words}");
                assert!(words.contains(&format!("least {asked}, largest {asked}")), "{words}");
            }
        }
    }
}

#[test]
fn a_lap_wider_than_its_flat_says_which_would_do() {
    let making = making(".050", ".050", 0.42);
    let wide = lapped("1 1/2", true, MadeOf::One);
    let problem = wide.shape_piece(0, &making).unwrap_err().remove(0);
    assert_eq!(problem.field, "seam.lap");
    let word = |after: &str| word_after(&problem, after);
    let widest = inches(&word("the widest is"));
    let fewer: u32 = word("give").parse().unwrap();
    let works = |width: Length, divisions: u32| {
        let seam = WrapSeam::Lap { width, outside: true };
        Transition { seam, divisions, ..wide.clone() }.shape_piece(0, &making).is_ok()
    };
    let thousandth = Length::from_inches(0.001);
    assert!(works(widest - thousandth, 4) && !works(widest + thousandth, 4), "{problem}");
    assert!(works(inches("1 1/2"), fewer) && !works(inches("1 1/2"), fewer + 1), "{problem}");
    let nothing = lapped("0", true, MadeOf::One).shape_piece(0, &making).unwrap_err();
    assert_eq!(nothing[0].field, "seam.lap");
}

#[test]
fn a_lap_leaves_the_round_no_flatter_than_it_must() {
    let making = making(".050", ".050", 0.42);
    let flat = |width: &str| {
        let shaped = lapped(width, true, MadeOf::One).shape_piece(0, &making).unwrap();
        assert!(shaped.facts.iter().any(|fact| {
            fact.name == "seam"
                && matches!(&fact.value, FactValue::Words(words) if words.contains("on the outside"))
        }));
        value(&shaped.facts, "the round is flat at a seam for")
    };
    let (narrow, wide) = (flat("1/4"), flat("1/2"));
    // The line down the middle is out of square, and the bends beside it run a little out with every inch.
    assert!((0.24..0.27).contains(&(wide - narrow)), "{narrow} {wide}");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    /// Wherever a lap is made its strip lies the gap off the plate all over, and neither it nor its joggle runs into anything.
    /// Triangles of steep fans may run into one another at the round, lapped or butted, and are refused with how deep.
    #[test]
    fn laps_of_transitions_lie_as_asked(
        (long, wide) in (sixteenths(64..400), sixteenths(64..400)),
        (round, height) in (sixteenths(64..300), sixteenths(32..300)),
        (aside, ahead) in (-64_i64..64, -64_i64..64),
        (divisions, pieces) in (1_u32..7, 0_usize..3),
        (lap, outside, gap) in (8_i64..80, any::<bool>(), 0_i64..3),
    ) {
        let mut making = making(".063", ".063", 0.42);
        making.seam_gap = Length::from_sixty_fourths(gap);
        let shape = Transition {
            rectangle: [long, wide],
            round,
            height,
            offset: [aside, ahead].map(|count| Length::from_sixty_fourths(4 * count)),
            divisions,
            made_of: [MadeOf::One, MadeOf::Halves, MadeOf::Quarters][pieces],
            seam: WrapSeam::Lap { width: Length::from_sixty_fourths(lap), outside },
        };
        let Ok(shaped) = shape.shape_piece(0, &making) else { return Ok(()) };
        let Ok(flat) = shaped.unfold() else { return Ok(()) };
        let proof = refold::prove(&shaped.part, &flat);
        if let Err(RefoldError::RunsInto { first, second, .. }) = &proof {
            let of_fans = [first, second].into_iter().all(|name| !name.contains("joggle") && !name.contains("lapping"));
            prop_assert!(of_fans, "{proof:?}");
            return Ok(());
        }
        prop_assert!(proof.is_ok(), "{proof:?}");
        let gap_mm = making.seam_gap.millimetres();
        for seam in proof.unwrap().seams {
            prop_assert!((seam.least_mm - gap_mm).abs() < 0.02 && (seam.largest_mm - gap_mm).abs() < 0.02, "{seam:?}");
        }
    }
}
