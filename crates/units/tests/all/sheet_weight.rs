//! Areas, densities and weights of sheet against definitions and published weights.

use proptest::prelude::*;
use units::{
    Area, AreaUnit, Density, DensityUnit, Length, Mass, MassPerArea, MassPerAreaUnit, MassUnit, ReadError,
};

fn inches(number: f64) -> Length {
    Length::from_inches(number)
}

#[test]
fn definitions_are_exact() {
    // 16 CFR 500.19: 1 in2 = 6.4516 cm2 and 1 ft2 = 929.0304 cm2 exactly.
    let foot = inches(12.0);
    assert_eq!(inches(1.0) * inches(1.0), Area::from_square_millimetres(645.16));
    assert_eq!(foot * foot, Area::from_square_millimetres(92_903.04));
    assert_eq!((foot * foot).print(AreaUnit::SquareInch, 3), "144.000");
    assert_eq!((foot * foot).print_with_unit(AreaUnit::SquareFoot, 1), "1.0 ft2");
    assert_eq!((foot * foot).print(AreaUnit::SquareMetre, 8), "0.09290304");
    // International yard and pound agreement, 1959: 1 lb = 0.45359237 kg.
    assert_eq!(Mass::from_pounds(1.0).micrograms(), 453_592_370);
    assert_eq!(Mass::read("100000 lb"), Ok(Mass::from_kilograms(45_359.237)));
}

#[test]
fn conversions_agree_with_published_factors() {
    // Derived from the definitions: 1 lb/ft2 = 4.88243 kg/m2 and 1 lb/in3 = 27.6799 g/cm3.
    let sheet = MassPerArea::read("1 lb/ft2").unwrap();
    assert_eq!(sheet.print(MassPerAreaUnit::KilogramPerSquareMetre, 5), "4.88243");
    let density = Density::read(".1 lb/in3").unwrap();
    assert_eq!(density.print(DensityUnit::GramPerCubicCentimetre, 5), "2.76799");
    assert_eq!(Density::read("2.68 g/cm³").unwrap().print(DensityUnit::PoundPerCubicInch, 4), "0.0968");
}

#[test]
fn published_sheet_weights() {
    // Supplier's weight chart (sanghvioverseasinc.com, aluminium sheet weight calculation): alloy 2014 of .101
    // lb/in3, .063 x 48 x 144 in is 43.98 lb; of 2.80 g/cm3, 0.8 mm x 1.25 x 2.5 m is 7.00 kg.
    let inch_sheet = MassPerArea::of_thickness(Density::read(".101 lb/in3").unwrap(), inches(0.063)).unwrap();
    assert_eq!(inch_sheet.over(inches(48.0) * inches(144.0)).print(MassUnit::Pound, 2), "43.98");
    let thickness = Length::from_millimetres(0.8);
    let metric_sheet = MassPerArea::of_thickness(Density::read("2.80 g/cm3").unwrap(), thickness).unwrap();
    let area = Length::from_millimetres(1250.0) * Length::from_millimetres(2500.0);
    assert_eq!(metric_sheet.over(area).print_with_unit(MassUnit::Kilogram, 2), "7.00 kg");
    // 144 t rho, derived: 5052 at the rounded .097 lb/in3 and .125 in weighs 1.746 lb/ft2.
    let sheet = MassPerArea::of_thickness(Density::read(".097 lb/in3").unwrap(), inches(0.125)).unwrap();
    assert_eq!(sheet.print_with_unit(MassPerAreaUnit::PoundPerSquareFoot, 3), "1.746 lb/ft2");
}

#[test]
fn nonsense_is_refused_with_its_reason() {
    assert!(matches!(Mass::read("12"), Err(ReadError::UnitMissing { .. })));
    assert!(matches!(Mass::read("12 stone"), Err(ReadError::UnknownUnit { .. })));
    assert!(matches!(Mass::read("12,5 kg"), Err(ReadError::Comma)));
    assert!(matches!(Mass::read("1e9 kg"), Err(ReadError::UnknownUnit { .. })));
    assert!(matches!(Mass::read("9999999999 kg"), Err(ReadError::TooLarge { .. })));
    assert!(matches!(Density::read("2.68"), Err(ReadError::UnitMissing { .. })));
    assert!(matches!(Density::read("2680 g/cm3"), Err(ReadError::TooLarge { .. })));
    assert_eq!(Density::read("0 g/cm3"), Err(ReadError::Negative));
    assert_eq!(MassPerArea::read("-1.95 lb/ft2"), Err(ReadError::Negative));
    assert!(matches!(MassPerArea::read("1.95 kg/ft2"), Err(ReadError::UnknownUnit { .. })));
    assert!(matches!(MassPerArea::read(""), Err(ReadError::Empty)));
    assert!(MassPerArea::of_thickness(Density::read("2.68 g/cm3").unwrap(), Length::ZERO).is_err());
    assert!(MassPerArea::of_thickness(Density::read("2.68 g/cm3").unwrap(), Length::MAX).is_err());
}

proptest! {
    #[test]
    fn densities_and_weights_read_back(milligrams in 100_i64..20_000, hundredths in 1_i64..5000) {
        let density = Density::from_micrograms_per_cubic_centimetre(milligrams * 1000).unwrap();
        let printed = density.print_with_unit(DensityUnit::GramPerCubicCentimetre, 3);
        prop_assert_eq!(Density::read(&printed), Ok(density));
        let text = format!("{}.{:02} lb/ft2", hundredths / 100, hundredths % 100);
        let sheet = MassPerArea::read(&text).unwrap();
        prop_assert_eq!(sheet.print_with_unit(MassPerAreaUnit::PoundPerSquareFoot, 2), text);
    }

    #[test]
    fn masses_read_back(hundredths in -10_000_000_i64..10_000_000) {
        let sign = if hundredths < 0 { "-" } else { "" };
        let text = format!("{sign}{}.{:02} lb", hundredths.abs() / 100, hundredths.abs() % 100);
        prop_assert_eq!(Mass::read(&text).unwrap().print_with_unit(MassUnit::Pound, 2), text);
    }

    #[test]
    fn weight_follows_area(width in 1_i64..4000, length in 1_i64..9000, pieces in 1_i64..9) {
        let sheet = MassPerArea::read("11.6 kg/m2").unwrap();
        let area = Length::from_nanometres(width * 1_000_000) * Length::from_nanometres(length * 1_000_000);
        // 1 mm2 of this sheet is exactly 11,600 micrograms, so nothing is rounded.
        prop_assert_eq!(sheet.over(area).micrograms(), width * length * 11_600);
        prop_assert_eq!(sheet.over(area * pieces), sheet.over(area) * pieces);
        prop_assert_eq!(sheet.over(-area), -sheet.over(area));
    }

    #[test]
    fn area_arithmetic_obeys_its_laws(a in any::<i64>(), b in any::<i64>(), c in -1000_i64..1000) {
        let (x, y) = (Length::from_nanometres(a), Length::from_nanometres(b));
        let (area, other) = (x * y, y * y);
        prop_assert_eq!(area.square_nanometres(), i128::from(a) * i128::from(b));
        let (small, less) = (Area::from_square_nanometres(i128::from(a)), Area::from_square_nanometres(i128::from(b)));
        prop_assert_eq!((small + less) * c, small * c + less * c);
        prop_assert_eq!(small + less - less, small);
        prop_assert!(other >= Area::ZERO);
    }

    #[test]
    fn calculated_areas_come_back(square_millimetres in 0.0..1e8_f64) {
        let area = Area::from_square_millimetres(square_millimetres);
        prop_assert!((area.square_millimetres() - square_millimetres).abs() <= 1e-7);
        prop_assert!((area.square_inches() * 645.16 - square_millimetres).abs() <= 1e-6);
        prop_assert!((area.square_feet() * 144.0 - area.square_inches()).abs() <= 1e-6);
        prop_assert!((area.square_metres() * 1e6 - square_millimetres).abs() <= 1e-6);
    }
}

#[test]
fn masses_as_printed_add_up_as_printed() {
    // Three times .0005 lb and a little: each prints .001, and so their sum must print .003.
    let one = Mass::from_pounds(0.000_6);
    let sum: Mass = [one; 3].into_iter().map(|mass| mass.as_printed(MassUnit::Pound, 3)).sum();
    assert_eq!(one.print(MassUnit::Pound, 3), "0.001");
    assert_eq!(sum.print(MassUnit::Pound, 3), "0.003");
}

#[test]
fn one_part_weighs_the_same_number_wherever_it_stands() {
    let one = |text: &str, unit| Mass::read(text).unwrap().print_of_one(unit);
    assert_eq!(one("12.34 lb", MassUnit::Pound), "12.34 lb");
    assert_eq!(one("1 lb", MassUnit::Pound), "1.00 lb");
    assert_eq!(one(".048 lb", MassUnit::Pound), "0.0480 lb");
    assert_eq!(one("1.04 kg", MassUnit::Kilogram), "1.04 kg");
    assert_eq!(one("0.0114 kg", MassUnit::Kilogram), "0.0114 kg");
}

/// By hand: .5765 lb × 30 is 17.295, printed 17.30; .0129 × 300 is 3.87; 8.95 × 6 is 53.70.
#[test]
fn pieces_weigh_the_printed_weight_of_one_by_how_many() {
    let all = |pounds: f64, quantity: u32| {
        Mass::from_pounds(pounds).of_pieces(quantity, MassUnit::Pound).print(MassUnit::Pound, 2)
    };
    assert_eq!([all(0.576_5, 30), all(0.012_94, 300), all(8.949, 6)], ["17.30", "3.87", "53.70"]);
    assert_eq!(Mass::from_pounds(1.0).places_of_one(MassUnit::Pound), 2);
    assert_eq!(Mass::from_pounds(0.9999).places_of_one(MassUnit::Pound), 4);
}
