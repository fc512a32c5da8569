//! Laws that hold for every part that can be shaped: its flat refolds, mirroring undoes itself, a blank is its legs
//! less its deductions, nothing is cut away that the part needs, and a damaged flat is refused.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

mod areas;
mod damage;
mod hands;
mod lifting;
mod random;
mod sizes;
mod taped;

use self::random::flat_parts;
use fold::refold;
use proptest::prelude::*;

/// Worst deviation of a refolded flat, mm: a micrometre, a twentieth of what the program itself lets pass.
const WORST_MM: f64 = 0.001;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn every_flat_refolds((part, flat) in flat_parts()) {
        let proof = refold::prove(&part, &flat).unwrap();
        prop_assert!(proof.worst_mm < WORST_MM, "{}", proof.worst_mm);
        for other in [part.mirrored(), part.seen_from_back()] {
            let flat = fold::flat::unfold(&other).unwrap();
            let proof = refold::prove(&other, &flat).unwrap();
            prop_assert!(proof.worst_mm < WORST_MM, "{}", proof.worst_mm);
        }
    }
}
