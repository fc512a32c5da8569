//! Angles and money.

use proptest::prelude::*;
use units::{Angle, Money, ReadError};

#[test]
fn angles_are_read_in_degrees() {
    for text in ["22.5", "22.5°", "22.5 deg", " +22.5 degrees "] {
        assert_eq!(Angle::read(text), Ok(Angle::from_degrees(22.5)), "{text}");
    }
    assert_eq!(Angle::read("-90"), Ok(-Angle::RIGHT));
    assert!(matches!(Angle::read("361"), Err(ReadError::TooLarge { .. })));
    assert!(matches!(Angle::read("1 rad"), Err(ReadError::UnknownUnit { .. })));
    assert!(matches!(Angle::read("ninety"), Err(ReadError::NotANumber { .. })));
    assert_eq!(Angle::try_from_degrees(f64::NAN), Err(ReadError::NotFinite));
    assert!(Angle::try_from_degrees(-360.5).is_err());
    // Derived: atan(2/3) is 33.690068 degrees, .588003 radians.
    assert_eq!(Angle::from_radians(0.588_002_603_547_567_6).print(6), "33.690068");
    assert_eq!(Angle::RIGHT.print(0), "90");
}

#[test]
fn money_is_read_and_printed() {
    for (text, cents) in [
        ("210", 21_000),
        ("210.50", 21_050),
        ("210.5", 21_050),
        ("$210", 21_000),
        ("$ 210", 21_000),
        ("1,210.50", 121_050),
        ("1,000,210", 100_021_000),
        ("-12.05", -1205),
        ("-$12.05", -1205),
        (".5", 50),
    ] {
        assert_eq!(Money::read(text), Ok(Money::from_cents(cents)), "{text}");
    }
    assert_eq!(Money::read("210.505"), Err(ReadError::PartOfACent));
    for text in ["1,21", "12,10.50", ",210", "1,2345", "210.5,0", "1,,000"] {
        assert_eq!(Money::read(text), Err(ReadError::Comma), "{text}");
    }
    assert_eq!(Money::read("210 lb"), Err(ReadError::Unexpected { text: "lb".into() }));
    assert_eq!(Money::read(""), Err(ReadError::Empty));
    assert!(Money::read("free").is_err());
    assert!(matches!(Money::read("99999999999"), Err(ReadError::TooLarge { .. })));
    assert_eq!(Money::from_cents(-5).print(), "-0.05");
    assert_eq!(Money::try_from_number(330.1), Ok(Money::from_cents(33_010)));
    assert_eq!(Money::try_from_number(0.125), Err(ReadError::PartOfACent));
    assert_eq!(Money::try_from_number(f64::INFINITY), Err(ReadError::NotFinite));
}

proptest! {
    #[test]
    fn angles_come_back(nanodegrees in -360_000_000_000_i64..=360_000_000_000) {
        let angle = Angle::from_nanodegrees(nanodegrees);
        prop_assert_eq!(Angle::read(&angle.print(9)), Ok(angle));
        prop_assert_eq!(Angle::from_degrees(angle.degrees()), angle);
        prop_assert!((Angle::from_radians(angle.radians()) - angle).abs().nanodegrees() <= 1);
    }

    #[test]
    fn money_reads_back(cents in -99_999_999_999_i64..=99_999_999_999) {
        let money = Money::from_cents(cents);
        prop_assert_eq!(Money::read(&money.print()), Ok(money));
    }

    #[test]
    fn whole_cents_come_from_numbers(cents in -9_999_999_i64..=9_999_999) {
        prop_assert_eq!(Money::try_from_number(cents as f64 / 100.0), Ok(Money::from_cents(cents)));
    }

    #[test]
    fn any_text_is_read_or_refused_without_a_panic(text in any::<String>(), near in "[-+$0-9 .,°a-z/²]{0,16}") {
        for text in [&text, &near] {
            let _ = (Angle::read(text), Money::read(text), units::Mass::read(text));
            let _ = (units::Density::read(text), units::MassPerArea::read(text));
        }
    }
}
