//! Percentages, orders, hours and prices: identities and sums done by hand.

use std::cmp::Reverse;

use estimate::{
    Counted, GoodsTerms, HourRates, Minutes, OrderLine, OverLength, Percent, PriceOfMass, Pricing,
    PrintedMass, Profit, PurchaseQuestion, QuoteLine, Terms, Way, WorkKind, WorkRate, Workload, least_order,
    purchase, quote, waste, work_lines,
};
use proptest::prelude::*;
use units::{Area, Length, LengthUnit, Mass, MassUnit, Money};

const fn cents(cents: i64) -> Money {
    Money::from_cents(cents)
}

const fn percent(hundredths: i64) -> Percent {
    Percent::from_thousandths(10 * hundredths)
}

fn line(money: Option<Money>) -> QuoteLine {
    QuoteLine { group: "work", what: "bends".to_owned(), how: String::new(), money }
}

#[test]
fn markup_and_margin_of_the_classroom() {
    // Identity g = m/(1+m): a markup of 25 % is a margin of 20 %, of 100 % one of 50 %, of 50 % one of 33.33 %.
    for (markup, margin) in [(2_500, 2_000), (10_000, 5_000), (5_000, 3_333), (0, 0)] {
        assert_eq!(percent(markup).markup_to_margin(), Some(percent(margin)));
    }
    assert_eq!(percent(2_000).margin_to_markup(), Some(percent(2_500)));
    assert_eq!(percent(10_000).margin_to_markup(), None);
    assert_eq!(percent(2_000).profit_as_margin(cents(8_000)), Some(cents(2_000)));
    assert_eq!(percent(10_000).profit_as_margin(cents(8_000)), None);
    // A fifth of what is bought is lost: a quarter on the parts.
    assert_eq!(waste(80, 100), Some((percent(2_500), percent(2_000))));
    assert_eq!(waste(0, 100), None);
    assert_eq!(percent(825).print(), "8.25 %");
}

/// New York City's sales tax of 8.875 % is 4 % of the state, 4.5 % of the city and .375 % of its transport district (New York
/// State Department of Taxation and Finance, publication 718; from memory).
#[test]
fn a_tax_of_thousandths_is_rounded_once_to_the_cent() {
    let tax = Percent::from_thousandths(8_875);
    assert_eq!(tax.print(), "8.875 %");
    // 100.00 × .08875 = 8.875: half a cent goes up. 99.99 × .08875 = 8.8741. 40.00 × .08875 = 3.55, 1.00 × .08875 = .08875.
    for (sum, due) in [(10_000, 888), (9_999, 887), (4_000, 355), (100, 9), (-10_000, -888), (0, 0)] {
        assert_eq!(tax.of(cents(sum)), cents(due), "{sum}");
    }
    assert_eq!(Percent::from_thousandths(5).print(), "0.005 %");
    assert_eq!(Percent::from_thousandths(-5).print(), "-0.005 %");
    // What is worked out is rounded to the hundredth: 30 % on cost is 23.0769… % of the price.
    assert_eq!(percent(3_000).markup_to_margin(), Some(percent(2_308)));
    assert_eq!(Percent::from_thousandths(23_077).to_hundredths(), percent(2_308));
}

/// By hand: 205.80 + 310 = 515.80, lifted to 600 by 84.20; with delivery of 25 it is 625, and a tax of 8.875 % of that is
/// 55.46875.
#[test]
fn coverings_have_an_order_of_their_own() {
    let terms = GoodsTerms {
        minimum_charge: Some(cents(60_000)),
        delivery: Some(cents(2_500)),
        tax: Some(Percent::from_thousandths(8_875)),
    };
    let lines = [Some(cents(20_580)), Some(cents(31_000))];
    let order = terms.order(&lines);
    assert_eq!((order.goods, order.up_to_minimum), (Some(cents(51_580)), Some(cents(8_420))));
    assert_eq!((order.delivery, order.tax), (Some(cents(2_500)), Some(cents(5_547))));
    assert_eq!(order.total, Some(cents(68_047)));
    assert!(order.questions.is_empty());
    let open = GoodsTerms { tax: None, ..terms }.order(&lines);
    assert_eq!((open.tax, open.total), (None, None));
    assert!(open.questions[0].contains("\"tax\" under \"buying.coverings\" is not set"), "{open:?}");
    let unpriced = terms.order(&[None, lines[0]]);
    assert_eq!((unpriced.goods, unpriced.up_to_minimum, unpriced.total), (None, None, None));
    let nothing = GoodsTerms::default().order(&[]);
    assert!(nothing.total == Some(Money::ZERO) && nothing.questions.is_empty());
}

#[test]
fn a_pound_is_its_exact_number_of_kilograms() {
    // One pound is 0.45359237 kg exactly (NIST Handbook 44, appendix C), so 100 a kg is 45.359237 a lb.
    let price = PriceOfMass { price: cents(10_000), unit: MassUnit::Kilogram };
    assert_eq!(price.of(Mass::from_pounds(1.0)), cents(4_536));
    assert_eq!(price.of(Mass::from_pounds(100_000.0)), cents(453_592_370));
    let by_pound = PriceOfMass { price: cents(55), unit: MassUnit::Pound };
    assert_eq!(by_pound.of(Mass::from_pounds(100.0)), cents(5_500));
}

#[test]
fn a_printed_weight_is_worth_what_a_calculator_says() {
    // By hand: 3.87 × .50 = 1.935, a tie, away from zero 1.94; 3.86 × .50 = 1.93; 3.87 kg are 8.5319895… lb, × .50 = 4.27.
    let price = PriceOfMass { price: cents(50), unit: MassUnit::Pound };
    let printed = |hundredths, unit| price.of_printed(PrintedMass { hundredths, unit });
    assert_eq!(printed(387, MassUnit::Pound), cents(194));
    assert_eq!(printed(386, MassUnit::Pound), cents(193));
    assert_eq!(printed(387, MassUnit::Kilogram), cents(427));
}

fn order(quantity: u32, inches: f64, price: Option<Money>) -> OrderLine {
    OrderLine {
        what: "skin".to_owned(),
        quantity,
        length: Length::from_inches(inches),
        cuts: 0,
        price,
        priced_in: "\"price\" under \"sheets\"",
    }
}

#[test]
fn nothing_ordered_costs_nothing() {
    let bought = purchase(&Terms::default(), &[order(0, 96.0, None)]);
    assert_eq!(bought.total, Some(Money::ZERO));
    assert!(bought.questions.is_empty());
}

#[test]
fn freight_is_paid_above_its_length_and_not_at_it() {
    let over_length =
        Some(OverLength { longer_than: Some(Length::from_inches(120.0)), freight: Some(cents(8_500)) });
    let terms = Terms {
        minimum_charge: Some(Money::ZERO),
        cut_charge: None,
        over_length,
        delivery: Some(Money::ZERO),
        tax: Some(percent(0)),
    };
    let of = |inches| purchase(&terms, &[order(1, inches, Some(cents(100)))]).over_length;
    assert_eq!(of(120.0), Some(Money::ZERO));
    assert_eq!(of(120.01), Some(cents(8_500)));
}

/// What is not said is asked for, and only where it matters: no freight, or nothing of the order as long as it.
#[test]
fn half_a_rule_for_freight_is_a_question() {
    let of = |longer_than: Option<f64>, freight: Option<i64>| {
        let over_length = Some(OverLength {
            longer_than: longer_than.map(Length::from_inches),
            freight: freight.map(cents),
        });
        let bought =
            purchase(&Terms { over_length, ..Terms::default() }, &[order(1, 144.0, Some(cents(100)))]);
        let asked = [PurchaseQuestion::OverLength, PurchaseQuestion::LongerThan, PurchaseQuestion::Freight];
        let asked: Vec<_> = asked.into_iter().filter(|one| bought.questions.contains(one)).collect();
        (bought.over_length, asked)
    };
    assert_eq!(of(None, None), (None, vec![PurchaseQuestion::OverLength]));
    assert_eq!(of(None, Some(8_500)), (None, vec![PurchaseQuestion::LongerThan]));
    assert_eq!(of(Some(120.0), None), (None, vec![PurchaseQuestion::Freight]));
    assert_eq!(of(Some(144.0), None), (Some(Money::ZERO), vec![]));
    assert_eq!(of(None, Some(0)), (Some(Money::ZERO), vec![]));
}

#[test]
fn cuts_are_paid_for_where_the_supplier_makes_them() {
    let cut = |charge, cuts| {
        let terms = Terms { cut_charge: charge, ..Terms::default() };
        purchase(&terms, &[OrderLine { cuts, ..order(3, 96.0, Some(cents(100))) }])
    };
    // Three sheets, two cuts each, at 4.00.
    assert_eq!(cut(Some(cents(400)), 2).cuts, Some(cents(2_400)));
    assert_eq!(cut(None, 2).cuts, None);
    assert!(cut(None, 2).questions.contains(&PurchaseQuestion::CutCharge));
    assert_eq!(cut(None, 0).cuts, Some(Money::ZERO));
    assert!(!cut(None, 0).questions.contains(&PurchaseQuestion::CutCharge));
}

#[test]
fn the_dearer_sheets_are_the_cheaper_order_where_the_others_pay_freight() {
    // 310 for one long sheet and 150 freight, against 400 for two short ones.
    let over_length =
        Some(OverLength { longer_than: Some(Length::from_inches(96.0)), freight: Some(cents(15_000)) });
    let terms = Terms { over_length, ..Terms::default() };
    let long = way(vec![order(1, 120.0, Some(cents(31_000)))], 0.0);
    let short = way(vec![order(2, 96.0, Some(cents(20_000)))], 0.0);
    assert_eq!(least_order(&terms, &[], &[vec![long.clone(), short.clone()]]), [1]);
    // Where another metal pays it already, the long sheet is the cheaper one after all.
    assert_eq!(least_order(&terms, &[], &[vec![long.clone()], vec![long, short]]), [0, 0]);
}

/// A way with a largest drop of so many square inches.
fn way(lines: Vec<OrderLine>, square_inches: f64) -> Way {
    Way {
        lines,
        takes_of_rack: false,
        largest_drop: Length::from_inches(square_inches) * Length::from_inches(1.0),
    }
}

/// Eight inches of weld print .67 ft, and hours and money are of that: 25 + .67 × 9 = 31.03 min, .67 × 1.35 = .9045.
#[test]
fn lengths_and_hours_print_all_that_their_money_is_worked_from() {
    let weld = Counted::along(Length::from_inches(8.0), LengthUnit::Inch);
    assert_eq!(weld.print(), "0.67 ft");
    assert_eq!(weld.price(cents(135)), cents(90));
    let each = Minutes::from_thousandths(9_000);
    let set_up = Some(Minutes::from_thousandths(25_000));
    let rate = WorkRate { set_up, each: Some(each), second_hand: Some(Minutes::ZERO) };
    let load = Workload { kind: WorkKind::WeldOpen, amount: weld, rate: Some(rate) };
    let rates = HourRates { hour: Some(cents(6_800)), second_hand_hour: None };
    let line = &work_lines(&rates, &[load])[0];
    assert_eq!(line.time.map(Minutes::print), Some("31.03 min".to_owned()));
    assert_eq!(line.money, Some(cents(3_517))); // 31.03 × 68 / 60 = 35.1673
    assert_eq!(Minutes::from_thousandths(44_000).print(), "44.0 min");
    assert_eq!(Minutes::from_thousandths(25).print(), "0.025 min");
    assert_eq!(Counted::along(Length::from_inches(120.0), LengthUnit::Inch).print(), "10.0 ft");
}

/// By hand: both lift to the minimum of 400, so both orders are 400, and the larger sheet leaves the larger drop.
#[test]
fn of_orders_that_come_to_the_same_the_one_with_the_larger_drop_is_taken() {
    let terms = Terms { minimum_charge: Some(cents(40_000)), ..Terms::default() };
    let small = way(vec![order(1, 96.0, Some(cents(21_000)))], 300.0);
    let large = way(vec![order(1, 120.0, Some(cents(33_000)))], 2_000.0);
    let both = vec![small.clone(), large.clone()];
    assert_eq!(least_order(&terms, &[], std::slice::from_ref(&both)), [1]);
    // Above the minimum the larger sheet costs more, and no drop is worth a cent.
    assert_eq!(least_order(&Terms::default(), &[], std::slice::from_ref(&both)), [0]);
    // Two metals: 210 + 210 is above the minimum already, so each takes its small sheet.
    assert_eq!(least_order(&terms, &[], &[both.clone(), both]), [0, 0]);
    // Of as large drops the one with less goods is taken, then the earlier.
    let dear = Way { largest_drop: small.largest_drop, ..large };
    assert_eq!(least_order(&terms, &[], &[vec![dear.clone(), small.clone()]]), [1]);
    assert_eq!(least_order(&terms, &[], &[vec![small.clone(), small.clone()]]), [0]);
    // As much is ordered, and a piece of the rack goes with the first: its place goes before the drop.
    let of_rack = Way { largest_drop: Area::ZERO, takes_of_rack: true, ..small.clone() };
    assert_eq!(least_order(&terms, &[], &[vec![of_rack.clone(), small.clone()]]), [0]);
    // The rack goes first: a small sheet beside a piece of it, against a large sheet with a large drop.
    let large = way(vec![order(1, 120.0, Some(cents(33_000)))], 2_000.0);
    assert_eq!(least_order(&terms, &[], &[vec![large, of_rack]]), [1]);
}

#[test]
fn lengths_are_charged_by_the_foot_and_by_the_metre() {
    let rate = WorkRate {
        set_up: Some(Minutes::from_thousandths(5_000)),
        each: Some(Minutes::from_thousandths(2_000)),
        second_hand: Some(Minutes::ZERO),
    };
    let rates = HourRates { hour: Some(cents(6_000)), second_hand_hour: None };
    let of = |length, unit| {
        let load =
            Workload { kind: WorkKind::CutStraight, amount: Counted::Along(length, unit), rate: Some(rate) };
        work_lines(&rates, &[load])[0].money
    };
    // 12 ft at 2 min and 5 min of set-up at 1.00 a minute; 3 m likewise.
    assert_eq!(of(Length::from_inches(144.0), LengthUnit::Inch), Some(cents(2_900)));
    assert_eq!(of(Length::from_millimetres(3_000.0), LengthUnit::Millimetre), Some(cents(1_100)));
    assert!(
        work_lines(&rates, &[Workload { kind: WorkKind::Bend, amount: Counted::Each(0), rate: None }])
            .is_empty()
    );
}

#[test]
fn an_open_line_keeps_every_sum_open() {
    let pricing = Pricing {
        risk: Some(percent(500)),
        profit: Some(Profit::Markup(percent(2_500))),
        round_up_to: Some(cents(1)),
        sales_tax: Some(percent(0)),
    };
    let asked = ["why?".to_owned(), "why?".to_owned()];
    let open = quote(&pricing, vec![line(Some(cents(100))), line(None)], &asked);
    assert_eq!((open.known, open.cost, open.price, open.total), (cents(100), None, None, None));
    assert_eq!(open.questions, ["why?"]);
}

proptest! {
    #[test]
    fn the_least_order_is_the_least_of_all(
        metals in prop::collection::vec(
            prop::collection::vec((0_u32..4, 60.0..180.0_f64, 0_i64..60_000, 0_u32..3, 0_i64..4, any::<bool>()), 1..5), 1..4
        ),
        (least, charge, freight, delivery, tax) in
            (0_i64..200_000, 0_i64..5_000, 0_i64..50_000, 0_i64..50_000, 0_i64..3_000),
        pipe in 0_i64..20_000,
    ) {
        let over_length = Some(OverLength { longer_than: Some(Length::from_inches(120.0)), freight: Some(cents(freight)) });
        let terms = Terms {
            minimum_charge: Some(cents(least)), cut_charge: Some(cents(charge)), over_length,
            delivery: Some(cents(delivery)), tax: Some(percent(tax)),
        };
        let fixed = [order(u32::from(0 < pipe), 0.0, Some(cents(pipe)))];
        let way = |&(n, inches, price, cuts, drop, rack): &(u32, f64, i64, u32, i64, bool)| {
            let lines = vec![OrderLine { cuts, ..order(n, inches, Some(cents(price))) }];
            Way { lines, takes_of_rack: rack, largest_drop: Area::from_square_nanometres(i128::from(drop)) }
        };
        let ways: Vec<Vec<Way>> = metals.iter().map(|ways| ways.iter().map(way).collect()).collect();
        let total = |picks: &[usize]| {
            let lines = picks.iter().zip(&ways).flat_map(|(&pick, ways)| ways[pick].lines.clone());
            purchase(&terms, &fixed.iter().cloned().chain(lines).collect::<Vec<_>>()).total.unwrap()
        };
        // Every way with every other, one by one.
        let mut all: Vec<Vec<usize>> = vec![Vec::new()];
        for ways in &ways {
            all = all.iter().flat_map(|picks| (0..ways.len()).map(|way| [&picks[..], &[way]].concat())).collect();
        }
        let found = least_order(&terms, &fixed, &ways);
        prop_assert_eq!(found.len(), ways.len());
        let merits = |picks: &[usize]| -> (usize, Area) {
            let picked = || picks.iter().zip(&ways).map(|(&pick, ways)| &ways[pick]);
            (picked().filter(|way| way.takes_of_rack).count(), picked().map(|way| way.largest_drop).sum())
        };
        let best = all.iter().map(|picks| (total(picks), Reverse(merits(picks)))).min();
        prop_assert_eq!(Some((total(&found), Reverse(merits(&found)))), best);
    }

    #[test]
    fn orders_add_up(
        lines in prop::collection::vec((1_u32..50, 10.0..300.0_f64, 0_i64..100_000), 1..6),
        (least, freight, delivery, tax) in (0_i64..500_000, 0_i64..50_000, 0_i64..50_000, 0_i64..3_000),
    ) {
        let over_length = Some(OverLength { longer_than: Some(Length::from_inches(120.0)), freight: Some(cents(freight)) });
        let terms = Terms {
            minimum_charge: Some(cents(least)), cut_charge: Some(cents(delivery)), over_length,
            delivery: Some(cents(delivery)), tax: Some(percent(tax)),
        };
        let order: Vec<_> = lines.iter().map(|&(n, inches, price)| order(n, inches, Some(cents(price)))).collect();
        let bought = purchase(&terms, &order);
        let goods: i64 = lines.iter().map(|&(n, _, price)| i64::from(n) * price).sum();
        prop_assert_eq!(bought.goods, Some(cents(goods)));
        let parts = [bought.goods, bought.up_to_minimum, bought.cuts, bought.over_length, bought.delivery];
        let before: Money = parts.into_iter().flatten().sum();
        prop_assert!(cents(least) <= bought.goods.unwrap() + bought.up_to_minimum.unwrap());
        prop_assert_eq!(bought.total, bought.tax.map(|tax| before + tax));
        // Tax to the nearest cent, in whole numbers.
        let exact = i128::from(before.cents()) * i128::from(tax);
        let taxed = i128::from(bought.tax.unwrap().cents()) * 10_000;
        prop_assert!((exact - taxed).abs() <= 5_000);
    }

    #[test]
    fn prices_add_up_and_round_up(
        costs in prop::collection::vec(-5_000_i64..200_000, 1..8),
        (risk, profit, by_margin, step, tax) in (0_i64..3_000, 0_i64..9_000, any::<bool>(), 1_i64..2_000, 0_i64..3_000),
    ) {
        let profit = if by_margin { Profit::Margin(percent(profit)) } else { Profit::Markup(percent(profit)) };
        let pricing = Pricing {
            risk: Some(percent(risk)), profit: Some(profit), round_up_to: Some(cents(step)), sales_tax: Some(percent(tax)),
        };
        let quote = quote(&pricing, costs.iter().map(|&cost| line(Some(cents(cost)))).collect(), &[]);
        let cost: i64 = costs.iter().sum();
        prop_assert_eq!(quote.cost, Some(cents(cost)));
        let [risk, profit, rounding] = [&quote.risk, &quote.profit, &quote.rounding].map(|step| step.money.unwrap().cents());
        prop_assert!((0..step).contains(&rounding));
        let price = quote.price.unwrap().cents();
        prop_assert_eq!(cost + risk + profit + rounding, price);
        prop_assert_eq!(price % step, 0);
        prop_assert_eq!(quote.total.unwrap().cents(), price + quote.tax.money.unwrap().cents());
        if by_margin && 0 < cost {
            // profit = g·(cost + risk + profit) to within the rounding of the profit itself.
            let Profit::Margin(margin) = pricing.profit.unwrap() else { unreachable!() };
            let whole = i128::from(cost + risk + profit);
            let off = i128::from(profit) * 100_000 - i128::from(margin.thousandths()) * whole;
            prop_assert!(off.abs() <= 50_000);
        }
    }

    #[test]
    fn markup_to_margin_and_back(markup in 0_i64..50_000) {
        let margin = percent(markup).markup_to_margin().unwrap();
        let back = margin.margin_to_markup().unwrap().thousandths() / 10;
        // A hundredth of a percent of margin is (1 + m)² hundredths of markup.
        let slack = (1.0 + markup as f64 / 10_000.0) * (1.0 + markup as f64 / 10_000.0);
        prop_assert!(((back - markup) as f64).abs() <= 0.5 * slack + 1.0);
    }
}
