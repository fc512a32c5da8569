//! Shares that add up.

use proptest::prelude::*;
use units::{ApportionError, apportion};

#[test]
fn three_equal_parts_of_a_dollar() {
    assert_eq!(apportion(100, &[1, 1, 1]), Ok(vec![34, 33, 33]));
    assert_eq!(apportion(-100, &[1, 1, 1]), Ok(vec![-34, -33, -33]));
    assert_eq!(apportion(100, &[0, 5, 0]), Ok(vec![0, 100, 0]));
}

#[test]
fn largest_remainders_win() {
    // Worked by hand: 10 among 7:11:2 is 3.5, 5.5, 1.0; the tie of two halves goes to the earlier.
    assert_eq!(apportion(10, &[7, 11, 2]), Ok(vec![4, 5, 1]));
    // 10 among 26:37:37 is 2.6, 3.7, 3.7; the two left over go to the larger remainders.
    assert_eq!(apportion(10, &[26, 37, 37]), Ok(vec![2, 4, 4]));
}

#[test]
fn what_cannot_be_shared_is_refused() {
    assert_eq!(apportion(1, &[]), Err(ApportionError::NoWeight));
    assert_eq!(apportion(1, &[0, 0]), Err(ApportionError::NoWeight));
    assert_eq!(apportion(0, &[0, 0]), Ok(vec![0, 0]));
    assert_eq!(apportion(1, &[2, -1]), Err(ApportionError::NegativeWeight { index: 1 }));
    assert_eq!(apportion(1, &[i128::MAX, 1]), Err(ApportionError::TooLarge));
}

#[test]
fn the_ends_of_the_range_do_not_overflow() {
    assert_eq!(apportion(i128::MAX, &[i128::MAX]), Ok(vec![i128::MAX]));
    assert_eq!(apportion(i128::MIN, &[1]), Ok(vec![i128::MIN]));
    let shares = apportion(i128::MAX, &[i128::MAX / 2, i128::MAX / 2]).unwrap();
    assert_eq!(shares, vec![i128::MAX / 2 + 1, i128::MAX / 2]);
}

proptest! {
    #[test]
    fn shares_add_up_and_are_within_one(
        total in -1_000_000_000_000_i128..1_000_000_000_000,
        weights in prop::collection::vec(0_i128..1_000_000_000, 1..20),
    ) {
        let sum: i128 = weights.iter().sum();
        prop_assume!(sum > 0);
        let shares = apportion(total, &weights).unwrap();
        prop_assert_eq!(shares.iter().sum::<i128>(), total);
        for (share, weight) in shares.iter().zip(&weights) {
            // |share - total * weight / sum| < 1, without division.
            prop_assert!((share * sum - total * weight).abs() < sum);
        }
    }

    #[test]
    fn heavier_weights_never_get_less(total in 0_i128..10_000, weights in prop::collection::vec(0_i128..1000, 2..8)) {
        prop_assume!(weights.iter().sum::<i128>() > 0);
        let shares = apportion(total, &weights).unwrap();
        for (i, a) in weights.iter().enumerate() {
            for (j, b) in weights.iter().enumerate() {
                prop_assert!(a <= b || shares[i] >= shares[j]);
            }
        }
    }

    #[test]
    fn huge_weights_add_up(total in any::<i64>(), weights in prop::collection::vec(1_i128..i128::MAX / 8, 1..8)) {
        let shares = apportion(i128::from(total), &weights).unwrap();
        prop_assert_eq!(shares.iter().sum::<i128>(), i128::from(total));
    }
}
