//! The scrap report adds up, and refuses what does not close.

use estimate::{Amount, EstimateError, PartOnSheet, ScrapReport, SheetUse, scrap_report};
use proptest::prelude::*;
use units::{Area, AreaUnit, Length, MassPerArea, MassUnit, Money, ReadError};

fn square_inches(number: f64) -> Area {
    Length::from_inches(number) * Length::from_inches(1.0)
}

fn rectangle(width: f64, length: f64) -> Area {
    Length::from_inches(width) * Length::from_inches(length)
}

fn part(mark: &str, area: Area, quantity: u32) -> PartOnSheet {
    PartOnSheet { mark: mark.to_owned(), area, quantity }
}

/// A 48 × 96 sheet of .125 5052 for 210.00 with three trays, a kept drop, kerf and trim; the rest is skeleton.
fn sheet_of_trays() -> Result<SheetUse, ReadError> {
    let parts = vec![part("T", rectangle(37.0, 29.0), 3), part("B", rectangle(10.0, 8.0), 4)];
    let (kept, kerf, trim) = (rectangle(20.0, 12.0), square_inches(61.5), square_inches(143.0));
    let spent = rectangle(37.0, 29.0) * 3 + rectangle(10.0, 8.0) * 4 + kept + kerf + trim;
    Ok(SheetUse {
        sheet: "skin 48 × 96, sheet 1".to_owned(),
        metal: "skin".to_owned(),
        area: rectangle(48.0, 96.0),
        weight_per_area: MassPerArea::read("1.742 lb/ft2")?,
        from_rack: false,
        price: Some(Money::from_cents(21_000)),
        parts,
        kept_drops: vec![kept],
        kerf,
        edge_trim: trim,
        measured_skeleton: rectangle(48.0, 96.0) - spent,
        arc_length: Length::ZERO,
    })
}

fn assert_adds_up(report: &ScrapReport) {
    let breakdowns = report.sheets.iter().map(|sheet| sheet.breakdown);
    for breakdown in breakdowns.chain(report.metals.iter().map(|metal| metal.breakdown)).chain([report.total])
    {
        assert!(breakdown.adds_up(), "{breakdown:?}");
    }
    for sheet in &report.sheets {
        let parts = sheet.parts.iter().fold(Amount::ZERO, |sum, part| sum + part.amount);
        let empty = sheet.parts.is_empty();
        assert!(empty || parts == sheet.breakdown.parts, "{parts:?}");
    }
}

#[test]
fn a_sheet_worked_by_hand() {
    let report = scrap_report(&[sheet_of_trays().unwrap()]).unwrap();
    assert_adds_up(&report);
    let lines = report.total;
    // By hand: 48 × 96 = 4608; 3 × 37 × 29 + 4 × 80 = 3539; 240; 61.5; 143; left 624.5 in2.
    let areas: Vec<String> =
        lines.lines().iter().map(|line| line.area.print(AreaUnit::SquareInch, 1)).collect();
    assert_eq!(areas, ["3539.0", "240.0", "61.5", "143.0", "624.5"]);
    // 4608 / 144 × 1.742 = 55.744 lb; 3539 / 144 × 1.742 = 42.812 lb.
    assert_eq!(lines.whole.mass.print(MassUnit::Pound, 3), "55.744");
    assert_eq!(lines.parts.mass.print(MassUnit::Pound, 3), "42.812");
    // Shares of 210.00: 161.283, 10.9375, 2.8027, 6.5169, 28.4603. Rounded down that is 209.98, and the two cents
    // left over go to the largest remainders of a cent, .75 and .69.
    let money: Vec<String> = lines.lines().iter().map(|line| line.money.unwrap().print()).collect();
    assert_eq!(money, ["161.28", "10.94", "2.80", "6.52", "28.46"]);
    assert!((lines.yield_share() - 3539.0 / 4608.0).abs() < 1e-12);
    assert!((lines.yield_share_with_drops() - 3779.0 / 4608.0).abs() < 1e-12);
    // The parts pay for all but the kept drop: 210.00 - 10.94 = 199.06, by 3219 to 320: 181.06 and 18.00.
    let charged: Vec<String> =
        report.sheets[0].parts.iter().map(|part| part.charged.unwrap().print()).collect();
    assert_eq!(charged, ["181.06", "18.00"]);
}

#[test]
fn a_sheet_without_price_leaves_the_money_open() {
    let mut rack_piece = sheet_of_trays().unwrap();
    rack_piece.price = None;
    rack_piece.metal = "rack".to_owned();
    let report = scrap_report(&[sheet_of_trays().unwrap(), rack_piece]).unwrap();
    assert_adds_up(&report);
    assert_eq!(report.sheets_without_price, 1);
    assert_eq!(report.total.whole.money, None);
    assert_eq!(report.metals.len(), 2);
    assert_eq!(report.metals[0].breakdown.whole.money, Some(Money::from_cents(21_000)));
    assert_eq!(report.sheets[1].parts[0].charged, None);
}

#[test]
fn a_skeleton_that_differs_is_refused() {
    let mut sheet = sheet_of_trays().unwrap();
    // A ten-thousandth of 4608 in2 is .46 in2: .4 passes, .5 does not.
    sheet.measured_skeleton += square_inches(0.4);
    assert!(scrap_report(std::slice::from_ref(&sheet)).is_ok());
    sheet.measured_skeleton += square_inches(0.1);
    let refused = scrap_report(std::slice::from_ref(&sheet));
    assert!(matches!(refused, Err(EstimateError::SkeletonDiffers { .. })));
    // Arcs of 10 m taken as chords may account for 500 mm2, .775 in2.
    sheet.arc_length = Length::from_millimetres(10_000.0);
    assert!(scrap_report(std::slice::from_ref(&sheet)).is_ok());
    // A part counted twice.
    let mut sheet = sheet_of_trays().unwrap();
    sheet.parts.push(part("B", rectangle(10.0, 8.0), 1));
    let message = scrap_report(&[sheet]).unwrap_err().to_string();
    assert_eq!(
        message,
        "skin 48 × 96, sheet 1: the sum leaves 351289.62 mm2 of scrap, the skeleton measures 402902.42 mm2"
    );
}

#[test]
fn more_than_the_sheet_is_refused() {
    let mut sheet = sheet_of_trays().unwrap();
    sheet.kerf += square_inches(700.0);
    assert!(matches!(scrap_report(&[sheet]), Err(EstimateError::MoreThanTheSheet { .. })));
}

#[test]
fn a_sheet_used_to_its_edge_closes() {
    let mut sheet = sheet_of_trays().unwrap();
    sheet.parts = vec![part("P", sheet.area + Area::from_square_millimetres(0.009), 1)];
    (sheet.kerf, sheet.edge_trim) = (Area::ZERO, Area::ZERO);
    sheet.kept_drops.clear();
    sheet.measured_skeleton = Area::ZERO;
    let report = scrap_report(std::slice::from_ref(&sheet)).unwrap();
    assert_adds_up(&report);
    assert_eq!(report.total.parts, report.total.whole);
    assert_eq!(report.total.scrap, Amount::ZERO);
    sheet.parts = vec![part("P", sheet.area + Area::from_square_millimetres(0.011), 1)];
    assert!(matches!(scrap_report(&[sheet]), Err(EstimateError::MoreThanTheSheet { .. })));
}

#[test]
fn nonsense_is_refused() {
    let sheet = || sheet_of_trays().unwrap();
    let negative = -square_inches(1.0);
    let refused = |sheet: SheetUse| scrap_report(&[sheet]).unwrap_err();
    let price = Some(Money::from_cents(-1));
    assert!(matches!(refused(SheetUse { price, ..sheet() }), EstimateError::NegativePrice { .. }));
    assert!(matches!(refused(SheetUse { area: Area::ZERO, ..sheet() }), EstimateError::EmptySheet { .. }));
    for wrong in [
        SheetUse { kerf: negative, ..sheet() },
        SheetUse { edge_trim: negative, ..sheet() },
        SheetUse { kept_drops: vec![negative], ..sheet() },
        SheetUse { measured_skeleton: negative, ..sheet() },
        SheetUse { parts: vec![part("X", negative, 1)], ..sheet() },
    ] {
        assert!(matches!(refused(wrong), EstimateError::NegativeArea { .. }));
    }
}

/// A drop has one area on paper and in the rack, so what rounding takes too much is given back by kerf or trim.
#[test]
fn a_kept_drop_gives_no_rounding_back() {
    let mut sheet = sheet_of_trays().unwrap();
    sheet.kept_drops = vec![sheet.kept_drops[0] + sheet.measured_skeleton + Area::from_square_nanometres(7)];
    sheet.measured_skeleton = Area::ZERO;
    let kept = sheet.kept_drops[0];
    let report = scrap_report(std::slice::from_ref(&sheet)).unwrap();
    assert_adds_up(&report);
    assert_eq!(report.total.kept_drops.area, kept);
    assert_eq!(report.total.edge_trim.area, sheet.edge_trim - Area::from_square_nanometres(7));
    assert_eq!(report.total.scrap, Amount::ZERO);
}

#[test]
fn nothing_bought_adds_up_to_nothing() {
    let report = scrap_report(&[]).unwrap();
    assert_adds_up(&report);
    assert_eq!(report.total.whole, Amount::ZERO);
}

/// A sheet divided at random cuts, in square nanometres, with an odd weight and price.
fn any_sheet() -> impl Strategy<Value = SheetUse> {
    let weights = (1_000_000_i64..30_000_000_000)
        .prop_filter_map("a weight", |weight| MassPerArea::from_micrograms_per_square_metre(weight).ok());
    let cuts = prop::collection::vec(0_i64..3_000_000_000_000, 1..12);
    (cuts, weights, prop::option::of(0_i64..100_000), "[ab]").prop_map(
        |(pieces, weight_per_area, cents, metal)| {
            let area = |index: usize| Area::from_square_nanometres(i128::from(pieces[index]) * 1_000_003);
            let pieces_left = 4.min(pieces.len());
            let parts: Vec<PartOnSheet> = (pieces_left..pieces.len())
                .map(|index| part("P", area(index), u32::from(index % 2 == 0)))
                .collect();
            let at = |index: usize| if index < pieces.len() { area(index) } else { Area::ZERO };
            let used: Area = parts.iter().map(PartOnSheet::total_area).sum();
            SheetUse {
                sheet: "sheet".to_owned(),
                metal,
                area: used + (0..4).map(at).sum() + Area::from_square_nanometres(1),
                weight_per_area,
                from_rack: false,
                price: cents.map(Money::from_cents),
                parts,
                kept_drops: vec![at(0)],
                kerf: at(1),
                edge_trim: at(2),
                measured_skeleton: at(3) + Area::from_square_nanometres(1),
                arc_length: Length::ZERO,
            }
        },
    )
}

proptest! {
    #[test]
    fn every_column_adds_up(sheets in prop::collection::vec(any_sheet(), 0..8)) {
        let report = scrap_report(&sheets).unwrap();
        assert_adds_up(&report);
        for (sheet, given) in report.sheets.iter().zip(&sheets) {
            prop_assert_eq!(sheet.breakdown.whole.area, given.area);
            prop_assert_eq!(sheet.breakdown.whole.money, given.price);
            let charged: Option<Money> = sheet.parts.iter().map(|part| part.charged).sum();
            let paid = given.price.zip(sheet.breakdown.kept_drops.money).map(|(price, kept)| price - kept);
            if sheet.breakdown.parts.area > Area::ZERO {
                prop_assert_eq!(charged, paid);
            }
        }
        let metals = report.metals.iter().fold(Amount::ZERO, |sum, metal| sum + metal.breakdown.whole);
        prop_assert_eq!(metals, report.total.whole);
    }
}
