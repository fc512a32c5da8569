//! Transitions that cannot be folded are told the height or the number of triangles that would do; each is shaped here.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use std::cell::Cell;

use crate::common::{inches, making, sixteenths};
use proptest::prelude::*;
use proptest::test_runner::TestRunner;
use shapes::transition::{MadeOf, Transition};
use shapes::wrap::WrapSeam;
use shapes::{Making, Recipe};
use units::Length;

/// True when every piece is shaped, laid flat and refolds as designed.
fn works(shape: &Transition, making: &Making) -> bool {
    (0..shape.pieces().len().max(1)).all(|piece| {
        shape.shape_piece(piece, making).is_ok_and(|shaped| {
            shaped.unfold().is_ok_and(|flat| fold::refold::prove(&shaped.part, &flat).is_ok())
        })
    })
}

/// What a remedy names: "a height of 7.250 would do; or 3 divisions a quarter would do".
fn named(remedy: &str) -> (Option<Length>, Option<u32>) {
    let height = remedy.split("a height of ").nth(1).and_then(|rest| rest.split(' ').next()).map(inches);
    let before = remedy.split(" division").next().filter(|_| remedy.contains(" division"));
    let divisions = before.and_then(|before| before.rsplit(' ').next()).map(|count| count.parse().unwrap());
    (height, divisions)
}

#[test]
fn what_is_named_can_be_made() {
    let sizes = (sixteenths(64..400), sixteenths(64..400), sixteenths(64..300), sixteenths(4..120));
    let offsets = (-100_i64..100, -100_i64..100);
    let strategy = (sizes, offsets, 1_u32..9, prop::sample::select(vec![".050", ".125"]));
    let config = ProptestConfig { cases: 120, failure_persistence: None, ..ProptestConfig::default() };
    let tally = Cell::new([0_u32; 4]);
    TestRunner::new(config)
        .run(&strategy, |((long, wide, round, height), offset, divisions, sheet)| {
            let making = making(sheet, sheet, 0.42);
            let shape = Transition {
                rectangle: [long, wide],
                round,
                height,
                offset: [offset.0, offset.1].map(|count| Length::from_sixty_fourths(4 * count)),
                divisions,
                made_of: MadeOf::One,
                seam: WrapSeam::Butt,
            };
            if works(&shape, &making) {
                return Ok(());
            }
            let of_shape = shape.shape_piece(0, &making).err().map(|problems| problems[0].remedy.clone());
            let remedy = of_shape.or_else(|| shape.nearest_remedy(&making)).unwrap_or_default();
            let (height, divisions) = named(&remedy);
            let mut counts = tally.get();
            counts[0] += 1;
            if let Some(height) = height {
                counts[1] += 1;
                prop_assert!(shape.height < height, "{remedy}");
                prop_assert!(works(&Transition { height, ..shape.clone() }, &making), "{remedy}: {shape:?}");
                let less = height - Length::from_sixty_fourths(4);
                let least =
                    less <= shape.height || !works(&Transition { height: less, ..shape.clone() }, &making);
                prop_assert!(least, "{remedy}: {shape:?}");
            }
            if let Some(divisions) = divisions {
                counts[2] += 1;
                prop_assert!(
                    works(&Transition { divisions, ..shape.clone() }, &making),
                    "{remedy}: {shape:?}"
                );
            }
            counts[3] += u32::from(height.is_none() && divisions.is_none());
            tally.set(counts);
            Ok(())
        })
        .unwrap();
    let [refused, higher, divided, none] = tally.get();
    assert!(
        10 < higher && 5 < divided,
        "of {refused} refused only {higher} and {divided} were told: this test shows nothing"
    );
    assert!(3 * none <= refused, "{none} of {refused} were told nothing");
}
