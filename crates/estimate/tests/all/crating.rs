//! Flats in crates: the packer's answers stand, whatever is sent, and what no crate takes is named.

use estimate::{CrateLimits, CratingFault, FlatToSend, pack};
use proptest::prelude::*;
use units::{Length, Mass, MassPerArea};

fn millimetres(value: i64) -> Length {
    Length::from_nanometres(value * 1_000_000)
}

fn limits() -> CrateLimits {
    CrateLimits {
        inside: [1200, 760, 140].map(millimetres),
        clear: millimetres(6),
        between: millimetres(3),
        between_weight: MassPerArea::read("0.6 kg/m2").ok(),
        empty: Mass::from_kilograms(15.0),
        heaviest: Mass::from_kilograms(60.0),
        most: None,
    }
}

fn flat(number: usize, size: [i64; 2], kilograms: f64) -> FlatToSend {
    FlatToSend {
        mark: format!("P{number}"),
        copy: 1,
        size: size.map(millimetres),
        thickness: millimetres(3),
        weight: Mass::from_kilograms(kilograms),
        opposite_hand: None,
        first_wanted: false,
    }
}

#[test]
fn what_no_crate_takes_is_named() {
    let flats = [
        flat(1, [1189, 100], 2.0),
        flat(2, [1188, 748], 2.0),
        flat(3, [100, 100], 44.0),
        FlatToSend { thickness: millimetres(135), ..flat(4, [100, 100], 1.0) },
    ];
    let Err(faults) = pack(&flats, &limits()) else { panic!("they were packed") };
    let marks: Vec<&str> = faults
        .iter()
        .map(|fault| match fault {
            CratingFault::TooLarge { mark, .. } | CratingFault::TooHeavy { mark, .. } => mark.as_str(),
            CratingFault::TooThick { mark, .. } => mark.as_str(),
            other => panic!("{other}"),
        })
        .collect();
    // P2 is as large as the room inside the clear edges, and fits; 15 + 2 × .547 + 44 kg passes 60.
    assert_eq!(marks, ["P1", "P3", "P4"]);
}

#[test]
fn two_hands_never_share_a_layer() {
    let mut flats = vec![flat(1, [300, 200], 1.0), flat(2, [300, 200], 1.0), flat(3, [300, 200], 1.0)];
    flats[0].opposite_hand = Some("P2".to_owned());
    flats[1].opposite_hand = Some("P1".to_owned());
    let Ok(crates) = pack(&flats, &limits()) else { panic!("they were not packed") };
    assert_eq!(crates.len(), 1);
    let layers: Vec<Vec<usize>> =
        crates[0].layers.iter().map(|layer| layer.flats.iter().map(|laid| laid.flat).collect()).collect();
    assert_eq!(layers, [vec![0, 2], vec![1]]);
}

/// A small strip would lie in the lowest layer, beside the first plate: it lies in the uppermost, where it is reached first.
#[test]
fn what_is_wanted_first_lies_on_top() {
    let strip = FlatToSend { first_wanted: true, ..flat(4, [100, 25], 0.1) };
    let flats = [flat(1, [1100, 700], 5.0), strip, flat(2, [1100, 700], 5.0), flat(3, [600, 400], 2.0)];
    let Ok(crates) = pack(&flats, &limits()) else { panic!("they were not packed") };
    let layers: Vec<Vec<usize>> =
        crates[0].layers.iter().map(|layer| layer.flats.iter().map(|laid| laid.flat).collect()).collect();
    assert_eq!(layers, [vec![0], vec![2], vec![3, 1]]);
    // Where the uppermost layer is full it gets one of its own.
    let full = [flats[0].clone(), flats[1].clone(), flats[2].clone()];
    let Ok(crates) = pack(&full, &CrateLimits { clear: millimetres(30), ..limits() }) else {
        panic!("not packed")
    };
    let top = crates[0].layers.last().map(|layer| layer.flats.iter().map(|laid| laid.flat).collect());
    assert_eq!((crates[0].layers.len(), top), (3, Some(vec![1])));
}

proptest! {
    /// The packer checks its own answer: every flat once, inside, clear of the others, no crate too high or too heavy.
    #[test]
    fn whatever_fits_a_crate_is_packed_the_same_way_each_time(
        sizes in prop::collection::vec((20_i64..1180, 20_i64..740, 0.1_f64..12.0), 1..40),
    ) {
        let flats: Vec<FlatToSend> = sizes
            .iter()
            .enumerate()
            .map(|(number, &(a, b, kilograms))| flat(number, [a, b], kilograms))
            .collect();
        let packed = pack(&flats, &limits());
        prop_assert!(packed.is_ok(), "{packed:?}");
        prop_assert_eq!(&packed, &pack(&flats, &limits()));
        let crates = packed.unwrap_or_default();
        let sent: usize = crates.iter().flat_map(|one| &one.layers).map(|layer| layer.flats.len()).sum();
        prop_assert_eq!(sent, flats.len());
        for one in &crates {
            prop_assert!(limits().gross(one) <= limits().heaviest);
            prop_assert!(limits().height(&one.layers) <= limits().inside[2]);
        }
    }
}
