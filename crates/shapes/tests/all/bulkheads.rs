//! Bulkheads from half-breadths.

#![allow(clippy::unwrap_used, reason = "a test may stop at a bulkhead that cannot be made")]

use crate::common::{inches, making, value};
use fold::Direction::Up;
use fold::refold;
use proptest::prelude::*;
use shapes::bulkhead::{Bulkhead, BulkheadEdge, BulkheadFlange, LimberHole, Waterline};
use shapes::{FactValue, Making, Recipe, Shaped};
use units::Length;

fn skin() -> Making {
    making(".125", ".125", 0.42)
}

fn line(height: &str, breadth: &str) -> Waterline {
    Waterline { height: inches(height), port: inches(breadth), starboard: inches(breadth) }
}

/// V bottom to a chine, sides flaring to the deck.
pub(crate) fn bulkhead() -> Bulkhead {
    let flange = |edge, leg| BulkheadFlange { edge, leg: inches(leg), direction: Up };
    Bulkhead {
        waterlines: vec![line("0", "0"), line("5", "24"), line("14", "28"), line("22", "30")],
        flanges: vec![
            flange(BulkheadEdge::Port, "1"),
            flange(BulkheadEdge::Starboard, "1"),
            flange(BulkheadEdge::Top, "1-1/2"),
        ],
        slit: inches("1/16"),
        limber_holes: vec![
            LimberHole { from_centre: inches("-2"), diameter: inches("3/4") },
            LimberHole { from_centre: inches("2"), diameter: inches("3/4") },
        ],
        holes: Vec::new(),
    }
}

fn proven(shaped: &Shaped) -> (fold::FlatPattern, refold::Proof) {
    let flat = shaped.unfold().unwrap();
    let proof = refold::prove(&shaped.part, &flat).unwrap();
    assert!(proof.worst_mm < 0.001, "{}", proof.worst_mm);
    (flat, proof)
}

#[test]
fn a_v_bottom_bulkhead_has_its_area_and_edges() {
    let shaped = bulkhead().shape_piece(0, &skin()).unwrap();
    let (flat, _) = proven(&shaped);
    // Trapezoids: 5·24 + 9·(24 + 28) + 8·(28 + 30) = 1052 in².
    let FactValue::Area(area) = shaped.facts[0].value else { panic!("the first fact is the area") };
    assert!((area.square_inches() - 1052.0).abs() < 1e-6);
    // √(24² + 5²) = 24.5153.
    assert!((value(&shaped.facts, "edge starboard .000 to 5.000") - 24.5153).abs() < 0.0001);
    assert_eq!(flat.bends.len(), 7);
    assert_eq!(flat.outline.holes.len(), 2);
}

/// A corner sharper than 30° has the seam gap in place of the slit, and its cut says so; a slight one keeps the slit.
#[test]
fn a_sharp_corner_says_that_it_has_the_seam_gap() {
    let shaped = bulkhead().shape_piece(0, &skin()).unwrap();
    let cuts: Vec<&str> = shaped
        .facts
        .iter()
        .filter(|fact| fact.name.starts_with("cut between"))
        .filter_map(|fact| match &fact.value {
            FactValue::Words(words) => Some(words.as_str()),
            _ => None,
        })
        .collect();
    for (seam, words) in shaped.part.seams.iter().zip(&cuts) {
        let bulge = 180.0 - seam.inside_angle_rad.to_degrees();
        assert_eq!(bulge > 30.0, words.contains("seam gap"), "{bulge}: {words}");
        assert_eq!(seam.gap_mm.abs() < 1e-9, bulge > 30.0, "{bulge}");
    }
    assert!(cuts.iter().any(|words| words.contains("seam gap")), "{cuts:?}");
    assert!(cuts.iter().any(|words| !words.contains("seam gap")), "{cuts:?}");
}

#[test]
fn limber_holes_lie_as_low_as_they_can() {
    let shaped = bulkhead().shape_piece(0, &skin()).unwrap();
    let found = shaped.facts.iter().find(|fact| fact.name == "limber hole 2.000 to starboard").unwrap();
    // The bottom rises 5 in 24: at 2 from the centre .4167, and .375 + .125 + .25 square to it, × 24.5153/24.
    let expected = 2.0 * 5.0 / 24.0 + 0.75 * 24.5153 / 24.0;
    let FactValue::Words(words) = &found.value else { panic!("not words") };
    assert!(words.contains(&format!("centre {expected:.3} above")), "{words} {expected}");
}

#[test]
fn what_cannot_be_is_refused_with_its_place() {
    let mut pointed = bulkhead();
    pointed.flanges.push(BulkheadFlange { edge: BulkheadEdge::Bottom, leg: inches("1"), direction: Up });
    assert_eq!(pointed.shape_piece(0, &skin()).unwrap_err()[0].field, "flanges.bottom");
    let mut wide = bulkhead();
    wide.limber_holes[0].from_centre = inches("-29");
    assert_eq!(wide.shape_piece(0, &skin()).unwrap_err()[0].field, "limber_holes[0].from_centre");
    let mut upside = bulkhead();
    upside.waterlines.swap(1, 2);
    assert_eq!(upside.shape_piece(0, &skin()).unwrap_err()[0].field, "waterlines[2]");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Any half-breadths prove, and an even bulkhead is its own opposite hand.
    #[test]
    fn even_bulkheads_are_their_own_mirror(breadths in proptest::collection::vec(640_i64..1600, 3..6)) {
        let lines = breadths.iter().zip(0..).map(|(&breadth, number)| {
            let breadth = Length::from_sixty_fourths(breadth);
            Waterline { height: inches("8") * number, port: breadth, starboard: breadth }
        });
        let mut random = bulkhead();
        random.waterlines = lines.collect();
        random.limber_holes.clear();
        let shaped = random.shape_piece(0, &skin()).unwrap();
        let (flat, _) = proven(&shaped);
        let (other, _) = proven(&Shaped { part: shaped.part.mirrored(), ..shaped.clone() });
        let (area, x, y) = (flat.outline.area_mm2(), flat.extents_mm().0, flat.extents_mm().1);
        prop_assert!((other.outline.area_mm2() - area).abs() < 0.001);
        prop_assert!((other.extents_mm().0 - x).abs() < 1e-6 && (other.extents_mm().1 - y).abs() < 1e-6);
        let point = geometry::Point::new(0.5 * x, 0.5 * y);
        let moment = |flat: &fold::FlatPattern| {
            let corners = flat.outline.outer.corners(geometry::outline::Chords::On);
            geometry::polygon::centroid(&corners).x
        };
        prop_assert!((moment(&flat) - point.x).abs() < 0.001);
    }
}
