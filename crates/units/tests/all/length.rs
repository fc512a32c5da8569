//! Lengths read as a tape reads, printed so that they read back.

use proptest::prelude::*;
use units::{Length, LengthStyle, LengthUnit, ReadError, TapeDenominator};

fn inch(text: &str) -> Result<Length, ReadError> {
    Length::read(text, LengthUnit::Inch)
}

fn sixty_fourths(count: i64) -> Length {
    Length::from_sixty_fourths(count)
}

#[test]
fn the_inch_is_exact() {
    // International inch: 25.4 mm, 16 CFR 500.19.
    assert_eq!(sixty_fourths(1).nanometres(), 396_875);
    assert_eq!(Length::from_inches(1.0), Length::from_millimetres(25.4));
    assert_eq!(inch("1 ft"), Ok(Length::from_millimetres(304.8)));
}

#[test]
fn every_way_of_writing_twenty_three_and_five_sixteenths() {
    let expected = sixty_fourths(23 * 64 + 20);
    for text in [
        "23 5/16",
        "23-5/16",
        "23-5/16\"",
        "23 5/16 in",
        "23 5/16in.",
        "23.3125",
        "23.3125 inches",
        "1' 11 5/16\"",
        "1'-11-5/16\"",
        "1ft 11.3125in",
        "1 ft. 11 5/16",
        "23 5\u{2044}16\u{2033}",
        "1\u{2032} 11 5/16\u{2033}",
        "  23   5 / 16  ",
        "+23 5/16",
        "23 1/4 + .0625",
        "23 3/8 - .0625 in",
        "23 3/8\" \u{2212} .0625",
    ] {
        assert_eq!(inch(text), Ok(expected), "{text}");
    }
}

#[test]
fn other_ways_of_writing() {
    for (text, nanometres) in [
        (".125", 3_175_000),
        ("0", 0),
        ("4' 7-1/2\"", 1_409_700_000),
        ("4 ft 7.5 in", 1_409_700_000),
        ("4'", 1_219_200_000),
        ("4.5'", 1_371_600_000),
        ("4' - 7 1/2\"", 1_409_700_000),
        ("½", 12_700_000),
        ("2½\"", 63_500_000),
        ("7''", 177_800_000),
        ("589 mm", 589_000_000),
        ("58.9 cm", 589_000_000),
        ("0.589 m", 589_000_000),
        ("-23 5/16 - .004", -592_239_100),
        ("23 5/16 + .004", 592_239_100),
        ("23 5/16 - .004", 592_035_900),
        ("-1/2", -12_700_000),
        ("12.", 304_800_000),
    ] {
        assert_eq!(inch(text), Ok(Length::from_nanometres(nanometres)), "{text}");
    }
    assert_eq!(Length::read("589", LengthUnit::Millimetre), Ok(Length::from_nanometres(589_000_000)));
    assert_eq!(Length::read("23 5/16\"", LengthUnit::Millimetre), inch("23 5/16"));
}

#[test]
fn nonsense_is_refused_with_its_reason() {
    let metric = |text| Length::read(text, LengthUnit::Millimetre);
    assert_eq!(inch(""), Err(ReadError::Empty));
    assert_eq!(inch(" \t "), Err(ReadError::Empty));
    assert_eq!(inch("5/0"), Err(ReadError::ZeroDenominator));
    assert_eq!(inch("23 5/16 5/16"), Err(ReadError::SecondFraction));
    assert_eq!(inch("5/16/2"), Err(ReadError::SecondFraction));
    assert_eq!(inch("23 17/16"), Err(ReadError::FractionNotBelowOne { numerator: 17, denominator: 16 }));
    assert_eq!(inch("16/16"), Err(ReadError::FractionNotBelowOne { numerator: 16, denominator: 16 }));
    assert_eq!(inch("23 5/12"), Err(ReadError::NotOnTape { numerator: 5, denominator: 12 }));
    assert_eq!(inch("23.5 5/16"), Err(ReadError::DecimalAndFraction));
    assert_eq!(inch("23 5.0/16"), Err(ReadError::DecimalAndFraction));
    assert_eq!(metric("23 5/16"), Err(ReadError::MetricFraction));
    assert_eq!(inch("23 5/16 mm"), Err(ReadError::MetricFraction));
    assert_eq!(inch("4' 30 mm"), Err(ReadError::MixedUnits));
    assert_eq!(inch("1 m 20 cm"), Err(ReadError::Unexpected { text: "a further number".into() }));
    assert_eq!(inch("4.5' 3\""), Err(ReadError::FeetNotWhole));
    assert_eq!(inch("4' 13\""), Err(ReadError::TooManyInches));
    assert_eq!(inch("23 - 5/16"), Err(ReadError::AmbiguousDash));
    assert_eq!(inch("23-.125"), Err(ReadError::AmbiguousDash));
    assert_eq!(inch("4'-.5"), Err(ReadError::AmbiguousDash));
    assert_eq!(inch("23 + 5/16"), Err(ReadError::BadLeftover));
    assert_eq!(inch("23 + 4"), Err(ReadError::BadLeftover));
    assert_eq!(metric("23 + .004"), Err(ReadError::BadLeftover));
    assert_eq!(inch("23,5"), Err(ReadError::Comma));
    assert_eq!(inch("1001 m"), Err(ReadError::TooLarge { limit: "a kilometre" }));
    assert_eq!(inch("99999999999999999999999999999"), Err(ReadError::TooManyDigits));
    assert_eq!(inch("23²"), Err(ReadError::NotANumber { text: "²".into() }));
    for text in
        ["abc", "23 23", "23 furlongs", "--3", "1e3", "NaN", "in", "'", "\"", "/", "5/", "/16", "23 5/16 x"]
    {
        assert!(inch(text).is_err(), "{text}");
    }
    assert_eq!(inch(&"1".repeat(10_000_000)), Err(ReadError::TooLong { characters: 10_000_000 }));
    assert_eq!(Length::try_from_millimetres(f64::NAN), Err(ReadError::NotFinite));
    assert_eq!(Length::try_from_inches(1e9), Err(ReadError::TooLarge { limit: "a kilometre" }));
}

#[test]
fn prints_to_the_tape_with_the_leftover() {
    let sixteenths = LengthStyle::Tape { denominator: TapeDenominator::Sixteenths };
    for (inches, expected) in [
        (23.3165, "23 5/16 + .004"),
        (23.3085, "23 5/16 - .004"),
        (23.3125, "23 5/16"),
        (-23.3165, "-23 5/16 - .004"),
        (23.0, "23"),
        (0.0, "0"),
        (0.5, "1/2"),
        (-0.004, "0 - .004"),
        (22.996, "23 - .004"),
        (23.3127, "23 5/16"),
    ] {
        assert_eq!(Length::from_inches(inches).print(sixteenths), expected);
    }
    let length = Length::from_inches(-0.125);
    assert_eq!(length.print(LengthStyle::Inches { places: 3 }), "-.125");
    assert_eq!(length.print(LengthStyle::Millimetres { places: 2 }), "-3.18");
    assert_eq!(length.print_with_unit(LengthStyle::Millimetres { places: 3 }), "-3.175 mm");
    assert_eq!(Length::from_inches(0.5).print_with_unit(sixteenths), "1/2 in");
}

#[test]
fn what_nothing_is_laid_out_by_is_printed_to_a_mark() {
    let tape = LengthStyle::Tape { denominator: TapeDenominator::Sixteenths };
    for (text, style, printed) in [
        ("142.096", tape, "142 1/8"),
        ("142.09", tape, "142 1/16"),
        ("-3.99", tape, "-4"),
        ("142.096", LengthStyle::Inches { places: 3 }, "142.1"),
        ("1000.6 mm", LengthStyle::Millimetres { places: 1 }, "1001"),
    ] {
        assert_eq!(inch(text).unwrap().print_about(style), printed, "{text}");
    }
}

#[test]
fn tape_divisions_are_read() {
    assert_eq!(TapeDenominator::read("1/16"), Ok(TapeDenominator::Sixteenths));
    assert_eq!(TapeDenominator::read("1/32\""), Ok(TapeDenominator::ThirtySeconds));
    assert_eq!(TapeDenominator::from_number(12), None);
    assert!(TapeDenominator::read("3/16").is_err());
    assert!(TapeDenominator::read("1").is_err());
}

fn any_denominator() -> impl Strategy<Value = TapeDenominator> {
    prop::sample::select(TapeDenominator::ALL.to_vec())
}

fn any_length() -> impl Strategy<Value = Length> {
    (-900_000_000_000_i64..=900_000_000_000).prop_map(Length::from_nanometres)
}

proptest! {
    #[test]
    fn tape_print_reads_back_within_half_a_thousandth(length in any_length(), denominator in any_denominator()) {
        let text = length.print(LengthStyle::Tape { denominator });
        let back = inch(&text).unwrap();
        prop_assert!((back - length).abs().nanometres() <= 12_700, "{text}");
    }

    #[test]
    fn tape_sizes_read_back_exactly(count in -2_000_000_i64..=2_000_000) {
        let length = sixty_fourths(count);
        let text = length.print(LengthStyle::Tape { denominator: TapeDenominator::SixtyFourths });
        prop_assert_eq!(inch(&text), Ok(length));
        let with_unit = length.print_with_unit(LengthStyle::Tape { denominator: TapeDenominator::SixtyFourths });
        prop_assert_eq!(Length::read(&with_unit, LengthUnit::Millimetre), Ok(length));
    }

    #[test]
    fn decimals_read_back_within_half_the_last_place(length in any_length(), places in 0_u8..=6) {
        let metric = length.print(LengthStyle::Millimetres { places });
        let back = Length::read(&metric, LengthUnit::Millimetre).unwrap();
        let half = 500_000 / 10_i64.pow(u32::from(places));
        prop_assert!((back - length).abs().nanometres() <= half, "{metric}");
        let inches = length.print(LengthStyle::Inches { places });
        let back = inch(&inches).unwrap();
        let half = 12_700_000 / 10_i64.pow(u32::from(places)) + 1;
        prop_assert!((back - length).abs().nanometres() <= half, "{inches}");
    }

    #[test]
    fn arithmetic_obeys_its_laws(a in any_length(), b in any_length(), times in -1000_i64..1000) {
        prop_assert_eq!(a + b, b + a);
        prop_assert_eq!(a - b, -(b - a));
        prop_assert_eq!(a + b - b, a);
        prop_assert_eq!((a + b) * times, a * times + b * times);
        prop_assert_eq!(a * b, b * a);
        prop_assert_eq!([a, b, a].into_iter().sum::<Length>(), a * 2 + b);
        prop_assert!((a + b).abs() <= a.abs() + b.abs());
    }

    #[test]
    fn floats_come_back(length in any_length()) {
        prop_assert_eq!(Length::from_millimetres(length.millimetres()), length);
        prop_assert_eq!(Length::from_inches(length.inches()), length);
        prop_assert_eq!(Length::try_from_millimetres(length.millimetres()), Ok(length));
    }

    #[test]
    fn any_text_is_read_or_refused_without_a_panic(text in "[-+0-9 ./'\"a-z,½″]{0,20}", other in any::<String>()) {
        for text in [&text, &other] {
            if let Ok(length) = inch(text) {
                prop_assert!(length.abs() <= Length::from_millimetres(1e6));
            }
        }
    }

    #[test]
    fn sums_never_wrap(a in any::<i64>(), b in any::<i64>()) {
        let exact = i128::from(a) + i128::from(b);
        let sum = (Length::from_nanometres(a) + Length::from_nanometres(b)).nanometres();
        prop_assert_eq!(i128::from(sum), exact.clamp(i128::from(i64::MIN), i128::from(i64::MAX)));
    }
}

#[test]
fn limits_are_never_said_to_be_larger_or_smaller_than_they_are() {
    let styles = [
        LengthStyle::Tape { denominator: TapeDenominator::Sixteenths },
        LengthStyle::Inches { places: 3 },
        LengthStyle::Millimetres { places: 1 },
    ];
    for (number, style) in (0..60_000_i64).flat_map(|number| styles.map(|style| (number, style))) {
        let length = Length::from_nanometres(number * 613 + 7);
        let said = |text: String| Length::read(&text, style.unit()).unwrap();
        let (down, up) = (said(length.print_down(style)), said(length.print_up(style)));
        assert!(down <= length && length <= up, "{length:?}: {down:?} {up:?}");
        assert!((up - down).nanometres() <= 101_000, "{length:?}: {down:?} {up:?}");
    }
}
