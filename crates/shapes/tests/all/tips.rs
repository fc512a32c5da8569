//! Plates of two pieces that meet only with their tips: the metal about the tip keeps the seam gap off the rounds of the other
//! piece's bends, not off its plates only.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use crate::common::{inches, making};
use crate::welds::{hoppers, makings};
use fold::part::{Beyond, Round, Tip};
use fold::{FlatPattern, FoldedPart};
use geometry::{Frame, Plane, Point, Point3, tolerance};
use proptest::prelude::*;
use proptest::test_runner::TestRunner;
use shapes::hopper::{Hopper, HopperMade, HopperStands, RimEdge};
use shapes::{Chosen, CornerStyle, Fact, FactValue, Figure, Making, Recipe};
use std::cell::Cell;
use units::{Length, LengthStyle};

/// Places looked at on an edge, and through the thickness.
const PLACES: [u32; 2] = [400, 8];

fn share(number: u32, of: u32) -> f64 {
    f64::from(number) / f64::from(of)
}

/// How far a place stands off the metal of a round; `None` where it stands beside its ends or past its turn.
fn off_mm(round: &Round, (turn_rad, behind): (f64, Option<&Plane>), place: Point3) -> Option<f64> {
    let (_, angle_rad, radius_mm) = round.about(place);
    let [inside, outside] = round.radii_mm();
    let is_beside =
        (0.0..=turn_rad).contains(&angle_rad) && behind.is_none_or(|plane| plane.distance(place) <= 0.0);
    is_beside.then_some((inside - radius_mm).max(radius_mm - outside))
}

/// The least distance of the edges of a face near its tip from the rounds there, mm.
fn least_mm(part: &FoldedPart, flat: &FlatPattern, tip: &Tip) -> Option<f64> {
    let frame = flat.faces[tip.face].placement.frame();
    let local: Vec<Point> =
        flat.faces[tip.face].corners.iter().map(|&p| frame.local(Frame::WORLD.place(p, 0.0)).0).collect();
    let mut least: Option<f64> = None;
    for beyond in &tip.beyond {
        let Beyond::Round { round, turn_rad, behind } = beyond else { continue };
        for (a, b) in geometry::polygon::edges(&local) {
            for number in 0..=PLACES[0] {
                let at = a.toward(b, share(number, PLACES[0]));
                if 50.0 < at.distance(tip.at) {
                    continue;
                }
                for high in 0..=PLACES[1] {
                    let z = share(high, PLACES[1]) * part.thickness_mm();
                    let off = off_mm(round, (*turn_rad, behind.as_ref()), Point3::new(at.x, at.y, z));
                    least = off.into_iter().chain(least).reduce(f64::min);
                }
            }
        }
    }
    least
}

/// Halves of a hopper with a drip, butted: at two corners of the rim a half has nothing but its tip, beside the round of the other
/// half's channel.
#[test]
fn tips_keep_the_gap_off_the_rounds_of_other_pieces() {
    let figure = |corners: [(f64, f64); 4]| {
        Figure::lettered(&corners.map(|(x, y)| Point::new(x * 25.4, y * 25.4))).unwrap()
    };
    let hopper = Hopper {
        stands: HopperStands::RimUp,
        rim: figure([(0.0, 0.0), (31.0, 1.5), (30.0, 24.0), (-1.5, 23.0)]),
        collar: figure([(8.0, 7.0), (17.0, 7.0), (17.0, 15.0), (8.0, 15.0)]),
        rise: inches("6"),
        rim_edge: RimEdge::Drip { down: inches("1"), inward: inches("1"), up: inches("1") },
        collar_height: Some(inches("2")),
        made: HopperMade::TwoHalves,
        least_slope: None,
    };
    let mut near = 0;
    for gap in ["1/32", "1/16"] {
        let corner = CornerStyle::Butt { through: Chosen::LongSides };
        let making = Making { corner, seam_gap: inches(gap), ..making(".125", ".25", 0.42) };
        for piece in 0..2 {
            let shaped = hopper.shape_piece(piece, &making).unwrap();
            let flat = shaped.unfold().unwrap();
            let at_rim = |tip: &&Tip| shaped.part.faces[tip.face].name.ends_with("at the rim");
            for tip in shaped.part.tips.iter().filter(at_rim) {
                let Some(off_mm) = least_mm(&shaped.part, &flat, tip) else { continue };
                let beyond_mm = off_mm - making.seam_gap.millimetres();
                assert!(-tolerance::REFOLD_MM < beyond_mm, "{}: {off_mm}", shaped.part.faces[tip.face].name);
                near += usize::from(beyond_mm < tolerance::REFOLD_MM);
            }
        }
    }
    assert!(3 < near, "only {near} tips come near a round: this test shows nothing");
}

/// How far metal of two pieces stands nearer to one another than the gap, mm, as the welds of a piece say it.
fn short_mm(fact: &Fact, making: &Making) -> Option<f64> {
    let FactValue::Words(words) = &fact.value else { return None };
    let apart = words.split(" stand only ").nth(1)?.split(' ').next()?;
    Some((making.seam_gap - inches(apart)).millimetres())
}

/// Hoppers up to five feet high, in halves and of plates: where three slabs meet, no metal of two pieces stands nearer to one another
/// than the gap but in 1 of 60 welds at the most (seed 6; with seeds 1 to 5, 7 and 8 in 1 of 80 at the most), by less than .1 mm; the
/// weld says so. Before the two corners of a short edge were told apart it was 1 of 40, by up to .31 mm. Flanges to weld to are meant
/// to lie on the plate beside them.
#[test]
fn nothing_of_tall_hoppers_is_nearer_than_the_gap() {
    let config = ProptestConfig { cases: 120, failure_persistence: None, ..ProptestConfig::default() };
    let [welds, near] = [Cell::new(0), Cell::new(0)];
    let strategy = (makings(), prop_oneof![hoppers(false), hoppers(true)], 3.0..60.0_f64);
    TestRunner::new(config)
        .run(&strategy, |(making, hopper, rise)| {
            let making = Making { style: LengthStyle::Inches { places: 4 }, ..making };
            let hopper = Hopper { rise: Length::from_inches(rise), ..hopper };
            for piece in 0..hopper.pieces().len() {
                // What cannot be cut clear is refused.
                let Ok(shaped) = hopper.shape_piece(piece, &making) else { continue };
                for fact in &shaped.facts {
                    welds.set(welds.get() + u32::from(fact.name.starts_with("weld ")));
                    let Some(short_mm) = short_mm(fact, &making) else { continue };
                    prop_assert!(short_mm < 0.1, "{fact:?}");
                    near.set(near.get() + 1);
                }
            }
            Ok(())
        })
        .unwrap();
    assert!(1000 < welds.get() && 60 * near.get() < welds.get(), "{} of {}", near.get(), welds.get());
}
