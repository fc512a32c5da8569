//! Money and take-offs as whole commands: taxes, what cannot be, strokes of the shear, the take-off as JSON.
#![expect(clippy::disallowed_methods, reason = "a test of a program that reads a file reads it too")]

use std::fs;

use serde_json::{Value, json};

use crate::program::{plateloft_on, top};
use crate::quote::{fact, job, line, quote};

/// A sheet of 120 × 48 on a shear of 60: its ends are trimmed with two strokes, its long edges only once it is cut to strips.
/// Two plates of 50 × 40 come from two strips; each is trimmed twice more, and each plate cut to its 40.
#[test]
fn every_edge_that_is_trimmed_is_a_stroke_also_on_strips() {
    let mut sheared = job();
    sheared["shop"] = json!({ "gap": "0", "edge_trim": "1/2", "cutting": { "longest_cut": "60" } });
    sheared["sheets"][0]["size"] = json!(["48", "120"]);
    sheared["parts"][0] =
        json!({ "mark": "P", "shape": "plate", "metal": "skin", "size": ["50", "40"], "quantity": 2 });
    let strokes = |job: &Value| -> (u64, Vec<String>) {
        let nest: Value = serde_json::from_str(&plateloft_on(job, &["nest", "--json"]).stdout).unwrap();
        let steps = nest["metals"][0]["sheets"][0]["cuts"].as_array().unwrap().clone();
        let steps = steps.iter().map(|step| step.as_str().unwrap().to_owned()).collect();
        let cuts = fact(&quote(job), "cuts").to_owned();
        let count = cuts.trim_start_matches("strokes of the shear ").split(';').next().unwrap();
        (count.parse().unwrap(), steps)
    };
    let (count, steps) = strokes(&sheared);
    let rounds = steps.iter().filter(|step| step.starts_with("round ")).count() as u64;
    assert!(steps.iter().any(|step| step.contains("edges longer than the shear takes")), "{steps:?}");
    assert_eq!(count, rounds + 2 + 2 * 2, "{steps:?}");
    // On a longer shear the four edges are four strokes, and there is no trim without one.
    sheared["shop"]["cutting"] = json!("shear");
    let (count, steps) = strokes(&sheared);
    assert_eq!(count, steps.iter().filter(|step| step.starts_with("round ")).count() as u64 + 4, "{steps:?}");
    sheared["shop"]["edge_trim"] = json!("0");
    let (count, steps) = strokes(&sheared);
    assert_eq!(count, steps.iter().filter(|step| step.starts_with("round ")).count() as u64, "{steps:?}");
}

/// The same as JSON, number for number: 200 in2 at 2 lb/ft2 is 2.7778 lb, printed 2.78; nine of them are 12.5 ft2 and, of what
/// is printed, 25.02 lb.
#[test]
fn a_take_off_is_there_as_json() {
    let mut nine = job();
    nine["parts"][0]["quantity"] = json!(9);
    nine["hardware"] = json!([{ "item": "hinge", "count": 2 }]);
    nine["bars"] = json!([{ "bar": "pipe", "kerf": "1/16", "sticks": [{ "length": 240, "price": 30 }],
        "pieces": [{ "mark": "B", "length": "31 1/2", "quantity": 4 }] }]);
    let run = plateloft_on(&nine, &["take-off", "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let off: Value = serde_json::from_str(&run.stdout).unwrap();
    assert_eq!(off["jobs"], json!(["Two plates"]));
    assert_eq!(off["metals"][0]["metal"], "5052-H32 .125, plain, no film");
    assert_eq!((&off["metals"][0]["quantity"], &off["metals"][0]["net_area"]), (&json!(9), &json!(12.5)));
    let square_inch = 25_400_000_i128 * 25_400_000;
    assert_eq!(exact(&off["exact_area"]), 1_800 * square_inch);
    assert_eq!(exact(&off["parts"][0]["exact_area"]), 1_800 * square_inch);
    assert_eq!(off["weight"], 25.02);
    assert_eq!(off["parts"][0]["weight_each"], 2.78);
    assert_eq!(off["parts"][0]["blank"], json!([20.0, 10.0]));
    assert_eq!(
        off["bars"][0],
        json!({ "bar": "pipe", "for": "Two plates, B", "quantity": 4, "length": 31.5 })
    );
    assert_eq!(off["hardware"][0], json!({ "item": "hinge", "for": "Two plates", "quantity": 2 }));
}

fn exact(value: &Value) -> i128 {
    value.as_str().unwrap().parse().unwrap()
}

/// Percentages are held to the thousandth. By hand: 200 lifted to 250, freight 40, delivery 10, a tax of 8.875 % on 300 is
/// 26.625, half a cent going up.
#[test]
fn taxes_of_thousandths_of_a_percent_are_taken_as_they_are() {
    let mut taxed = job();
    taxed["buying"]["tax"] = json!("8.875 %");
    taxed["quote"]["sales_tax"] = json!(8.875);
    let quoted = quote(&taxed);
    assert_eq!(*line(&quoted, "tax on metal"), 2_663);
    let (price, tax) = (quoted["price"].as_i64().unwrap(), quoted["tax"]["cents"].as_i64().unwrap());
    assert_eq!(tax, (price * 8_875 + 50_000) / 100_000);
    assert_eq!(quoted["total"], price + tax);
    assert_eq!(quoted["tax"]["what"], "sales tax, 8.875 % of the price");
    for wrong in [json!("8.8755"), json!(8.8755), json!("8,25"), json!("1/2")] {
        taxed["quote"]["sales_tax"] = wrong;
        let run = plateloft_on(&taxed, &["quote"]);
        let told = "is no percentage of at most three decimals\n    write 25, 8.25 or 8.875";
        assert!(run.code == 2 && run.stderr.contains(told), "{}", run.stderr);
    }
}

/// What is wrong with money is called what it is.
#[test]
fn sums_of_money_that_cannot_be_are_named_for_what_they_are() {
    let mut wrong = job();
    wrong["date"] = json!("2026-11-30");
    wrong["quote"]["valid_until"] = json!("2026-11-29");
    wrong["buying"]["order"] = json!({ "wanted_by": "2026-11-01" });
    wrong["buying"]["delivery"] = json!(-10);
    wrong["buying"]["over_length"]["freight"] = json!(-1);
    wrong["buying"]["scrap_credit"]["price"] = json!(-1);
    wrong["quote"]["hour"] = json!(-60);
    wrong["quote"]["round_up_to"] = json!(-5);
    wrong["quote"]["risk"] = json!(-5);
    wrong["quote"]["outside_work"][0]["price"] = json!(-15);
    let run = plateloft_on(&wrong, &["quote"]);
    assert_eq!(run.code, 2);
    for told in [
        "quote.valid_until: 2026-11-29: is before 2026-11-30, the \"date\" of the job\n    check both days",
        "buying.order.wanted_by: 2026-11-01: is before 2026-11-30",
        "buying.delivery: -10: must not be below zero\n    give the sum of money, 0 for none",
        "buying.over_length.freight: -1: must not be below zero",
        "buying.scrap_credit.price: -1: must not be below zero\n    give the sum of money, 0 for none",
        "quote.hour: -60: must not be below zero",
        "quote.round_up_to: -5.00: must be above zero\n    write 0.01",
        "quote.risk: -5: must not be below zero\n    write 25 for a quarter, 0 for none",
        "quote.outside_work[0].price: -15: a price must not be below zero",
    ] {
        assert!(run.stderr.contains(told), "{told}: {}", run.stderr);
    }
    // The day itself still holds, and a date in the shop's own words is not compared.
    for (date, code) in [("2026-11-29", 0), ("29 November", 0)] {
        let mut sound = job();
        sound["date"] = json!(date);
        sound["quote"]["valid_until"] = json!("2026-11-29");
        assert_eq!(plateloft_on(&sound, &["quote"]).code, code, "{date}");
    }
}

/// A lid's struts and hinges are bought, too: what is named with a weight alone is asked for, and never left out of a price.
#[test]
fn what_a_lid_takes_and_nobody_prices_is_a_question() {
    let path = top().join("fixtures/jobs/litter-locker.json");
    let mut locker: Value = serde_json::from_str(&fs::read_to_string(path).unwrap()).unwrap();
    let open = quote(&locker);
    for what in ["gas strut for LL, invented strut 16-7", "hinge, stays and latch"] {
        assert_eq!(*line(&open, what), Value::Null, "{what}");
    }
    let questions = open["questions"].to_string();
    assert!(questions.contains("What does one gas strut for LL cost (invented strut 16-7)?"), "{questions}");
    assert!(questions.contains("What does this cost: hinge, stays and latch, which LL names"), "{questions}");
    locker["hardware"] = json!([
        { "item": "gas strut, invented strut 16-7", "count": 2, "price": 24 },
        { "item": "hinge, stays and latch", "count": 1, "price": 61.5 }
    ]);
    let priced = quote(&locker);
    assert_eq!(*line(&priced, "gas strut, invented strut 16-7"), 4_800);
    assert!(!priced["questions"].to_string().contains("LL"), "{}", priced["questions"]);
}

/// A size has one price, unless there are only so many at it, or the supplier cuts it.
#[test]
fn a_size_that_is_given_twice_is_refused() {
    let mut twice = job();
    twice["sheets"] = json!([
        { "metal": "skin", "size": ["48", "96"], "price": 200 },
        { "metal": "skin", "size": ["8'", "4'"], "price": 180 }
    ]);
    twice["bars"] = json!([{ "bar": "pipe", "kerf": "1/16", "sticks": [{ "length": 240, "price": 30 }, { "length": "20'", "price": 28 }],
        "pieces": [{ "mark": "B", "length": "31 1/2" }] }]);
    let run = plateloft_on(&twice, &["buy"]);
    assert_eq!(run.code, 2);
    for told in [
        "sheets[1].size: 8' x 4': this size of skin is given twice, first in sheets[0]\n    keep one; where only so many can be had at a lower price, give that row their \"count\"",
        "bars[0].sticks[1].length: 240: is given twice, first in sticks[0]\n    keep one; where only so many",
    ] {
        assert!(run.stderr.contains(told), "{told}: {}", run.stderr);
    }
    twice["sheets"][1]["count"] = json!(2);
    twice["bars"][0]["sticks"][1]["count"] = json!(2);
    assert_eq!(plateloft_on(&twice, &["buy"]).code, 0);
}

/// A stick without a price is asked for as a stick.
#[test]
fn a_stick_without_a_price_is_not_asked_for_under_sheets() {
    let mut open = job();
    open["bars"] = json!([{ "bar": "pipe", "kerf": "1/16", "sticks": [{ "length": 240 }], "pieces": [{ "mark": "B", "length": "31 1/2" }] }]);
    for command in ["buy", "quote"] {
        let text = plateloft_on(&open, &[command]).stdout;
        let all = text.split_whitespace().collect::<Vec<_>>().join(" ");
        let told = "What does one pipe 240 cost? \"price\" of that stick under \"bars\" is not set.";
        assert!(all.contains(told) && !all.contains("under \"sheets\""), "{text}");
        assert!(all.contains("Sticks of bar, pipe and section are ordered with the sheets"), "{text}");
    }
}
