//! Flats damaged on purpose: the refold proof must refuse every one of them.

use fold::{FlatPattern, refold};
use geometry::trig;
use proptest::prelude::*;

use super::random::flat_parts;

/// The flat with bend number `number` changed.
fn damaged(flat: &FlatPattern, number: usize, change: impl Fn(&mut fold::flat::BendLine)) -> FlatPattern {
    let mut flat = flat.clone();
    change(&mut flat.bends[number]);
    flat
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    // Each damage lands the plate beyond at least .05 mm, or its far edge a tenth of a degree, from its place; the
    // program refuses from .02 mm on.
    #[test]
    fn a_damaged_flat_is_refused((part, flat) in flat_parts()) {
        let off_mm = 0.05;
        for number in 0..flat.bends.len() {
            let half_turn = 0.5 * flat.bends[number].turn_rad;
            let moved = damaged(&flat, number, |bend| {
                let by = bend.across() * (off_mm / (2.0 * trig::sin(half_turn)));
                (bend.from, bend.to) = (bend.from + by, bend.to + by);
            });
            let widened = damaged(&flat, number, |bend| bend.zone_mm += off_mm / trig::cos(half_turn));
            let narrowed = damaged(&flat, number, |bend| bend.zone_mm -= off_mm / trig::cos(half_turn));
            let turned = damaged(&flat, number, |bend| bend.turn_rad += 0.1_f64.to_radians());
            let reversed = damaged(&flat, number, |bend| bend.direction = bend.direction.reversed());
            for (what, flat) in [
                ("moved", moved),
                ("widened", widened),
                ("narrowed", narrowed),
                ("turned", turned),
                ("reversed", reversed),
            ] {
                prop_assert!(refold::prove(&part, &flat).is_err(), "bend {number} {what}");
            }
        }
    }

    #[test]
    fn another_thickness_or_radius_is_refused((part, flat) in flat_parts()) {
        let thicker = FlatPattern { thickness_mm: flat.thickness_mm + 0.05, ..flat.clone() };
        prop_assert!(refold::prove(&part, &thicker).is_err());
        // A wider arc shows where a bend turns by 60° or more.
        prop_assume!(flat.bends.iter().any(|bend| 1.0 < bend.turn_rad));
        let mut rounder = flat;
        rounder.bends.iter_mut().for_each(|bend| bend.inside_radius_mm += 0.1);
        prop_assert!(refold::prove(&part, &rounder).is_err());
    }

    #[test]
    fn a_seam_cut_to_another_line_is_refused((part, flat) in flat_parts()) {
        prop_assume!(!flat.seams.is_empty());
        for number in 0..flat.seams.len() {
            let mut spoilt = flat.clone();
            let [from, to] = spoilt.seams[number].first.1;
            // A cut moved by d opens the seam by d·sin(φ/2).
            let off_mm = 0.05 / trig::sin(0.5 * part.seams[number].inside_angle_rad);
            let into = (to - from).unit().left() * off_mm;
            spoilt.seams[number].first.1 = [from + into, to + into];
            prop_assert!(refold::prove(&part, &spoilt).is_err(), "{}", flat.seams[number].name);
        }
    }
}
