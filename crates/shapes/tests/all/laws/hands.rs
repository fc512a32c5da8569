//! The opposite hand and the other side of the sheet.

use fold::FoldedPart;
use geometry::{Point, tolerance};
use proptest::prelude::*;

use super::WORST_MM;
use super::random::flat_parts;

fn same_places(first: &FoldedPart, second: &FoldedPart) -> bool {
    let near = |(a, b): (&Point, &Point)| a.distance(*b) <= tolerance::SAME_POINT_MM;
    first.faces.iter().zip(&second.faces).all(|(a, b)| {
        a.name == b.name
            && a.edges == b.edges
            && a.corners.len() == b.corners.len()
            && a.corners.iter().zip(&b.corners).all(near)
    }) && first.bends == second.bends
        && first.seams == second.seams
        && first.sizes == second.sizes
        && first.faces.len() == second.faces.len()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn mirrored_twice_is_the_part_itself((part, _) in flat_parts()) {
        prop_assert!(same_places(&part, &part.mirrored().mirrored()));
        prop_assert!(same_places(&part, &part.seen_from_back().seen_from_back()));
    }

    #[test]
    fn the_opposite_hand_and_the_back_have_the_same_blank((part, flat) in flat_parts()) {
        let (width, height) = flat.extents_mm();
        for other in [part.mirrored(), part.seen_from_back()] {
            let other = fold::flat::unfold(&other).unwrap();
            let off = (other.outline.area_mm2() - flat.outline.area_mm2()).abs();
            prop_assert!(off < WORST_MM * (width + height), "{off}");
            let (other_width, other_height) = other.extents_mm();
            prop_assert!((other_width - width).abs() < WORST_MM);
            prop_assert!((other_height - height).abs() < WORST_MM);
        }
    }
}
