//! Rates that are not set, or only in part: each is a question that names its field, and no sum looks whole.

use serde_json::{Value, json};

use crate::program::plateloft_on;
use crate::quote::{every_rate, job, line, quote, without};

#[test]
fn an_unset_rate_is_a_question_and_never_a_guess() {
    let all = every_rate();
    let whole = quote(&all);
    assert_eq!(whole["questions"], json!([]));
    let rates = [
        ("buying.minimum_charge", "minimum_charge"),
        ("buying.over_length", "over_length"),
        ("buying.delivery", "delivery"),
        ("buying.tax", "tax"),
        ("buying.coverings.minimum_charge", "minimum_charge"),
        ("buying.coverings.delivery", "delivery"),
        ("buying.coverings.tax", "tax"),
        ("buying.over_length.longer_than", "longer_than\" of \"over_length"),
        ("buying.over_length.freight", "freight\" of \"over_length"),
        ("buying.scrap_credit", "scrap_credit"),
        ("buying.scrap_credit.price", "price\" of \"scrap_credit"),
        ("buying.scrap_credit.per", "per\" of \"scrap_credit"),
        ("quote.consumables", "consumables"),
        ("quote.consumables.0.price", "price\" under \"consumables"),
        ("quote.consumables.0.per", "per\" under \"consumables"),
        ("quote.outside_work", "outside_work"),
        ("quote.outside_work.0.price", "price\" under \"outside_work"),
        ("quote.material", "material"),
        ("quote.hour", "hour"),
        ("quote.work.lay_out", "lay_out"),
        ("quote.work.cut_straight", "cut_straight"),
        ("quote.work.cut_curved", "cut_curved"),
        ("quote.work.holes", "holes"),
        ("quote.work.finish", "finish"),
        ("quote.work.finish.set_up", "set_up\" of \"finish"),
        ("quote.work.finish.each", "each\" of \"finish"),
        ("quote.work.finish.second_hand", "second_hand"),
        ("quote.work.saw_bars", "saw_bars"),
        ("quote.work.fit_coverings", "fit_coverings"),
        ("quote.risk", "risk"),
        ("quote.markup", "markup"),
        ("quote.round_up_to", "round_up_to"),
        ("quote.sales_tax", "sales_tax"),
    ];
    for (path, field) in rates {
        let open = quote(&without(&all, path));
        assert_eq!(open["total"], Value::Null, "{path}");
        assert_eq!(open["complete"], false, "{path}");
        let questions = open["questions"].as_array().unwrap();
        assert_eq!(questions.len(), 1, "{path}: {questions:?}");
        assert!(questions[0].as_str().unwrap().contains(&format!("\"{field}\"")), "{path}: {questions:?}");
        // No other line changes by it, except sums that rest on it.
        for known in open["lines"].as_array().unwrap().iter().filter(|line| !line["cents"].is_null()) {
            assert_eq!(known["cents"], *line(&whole, known["what"].as_str().unwrap()), "{path}");
        }
    }
}

/// The day is asked for, and no sum waits for it.
#[test]
fn a_quote_without_its_day_is_not_to_be_sent() {
    let all = every_rate();
    let whole = quote(&all);
    let day = quote(&without(&all, "quote.valid_until"));
    assert_eq!(day["questions"].as_array().unwrap().len(), 1);
    assert!(day["questions"][0].as_str().unwrap().contains("\"valid_until\""), "{day}");
    assert_eq!(day["total"], whole["total"]);
    assert_eq!(
        (&day["complete"], &whole["complete"]),
        (&json!(false), &json!(true)),
        "it is not to be sent yet"
    );
    let said = plateloft_on(&without(&all, "quote.valid_until"), &["quote"]).stdout;
    assert!(said.contains("INCOMPLETE, not to be sent until the questions below are answered."), "{said}");
}

#[test]
fn a_sheet_without_a_price_is_asked_for() {
    let mut unpriced = job();
    unpriced["sheets"][0].as_object_mut().unwrap().remove("price");
    let open = quote(&unpriced);
    assert!(open["questions"][0].as_str().unwrap().contains("What does one skin 48 × 96 cost?"), "{open}");
}

#[test]
fn a_quote_with_a_question_open_is_seen_to_be_incomplete() {
    let whole = plateloft_on(&job(), &["quote"]).stdout;
    assert!(!whole.contains("INCOMPLETE") && whole.contains("518.40"), "{whole}");
    // Two plates at 3 min each of 60 an hour are not in it, so the cost of 364.78 is known but for 6.00.
    let open = plateloft_on(&without(&job(), "quote.work.finish.each"), &["quote"]).stdout;
    let top: Vec<&str> = open.lines().take(5).collect();
    assert!(top.iter().any(|line| line.starts_with("INCOMPLETE, not to be sent: 1 line is open")), "{open}");
    let row = |start: &str| open.lines().find(|line| line.starts_with(start)).unwrap().to_owned();
    assert!(row("known so far, incomplete").ends_with("358.78"), "{open}");
    for sum in ["cost ", "price before tax", "total"] {
        assert!(row(sum).trim_end().ends_with("open"), "{open}");
    }
    let mut nothing = job();
    nothing.as_object_mut().unwrap().remove("quote");
    nothing.as_object_mut().unwrap().remove("buying");
    let text = plateloft_on(&nothing, &["quote"]).stdout;
    assert!(text.contains("known so far") && text.contains("To be asked first"), "{text}");
}

#[test]
fn half_of_what_cutting_to_size_costs_is_a_question() {
    let mut half = job();
    half["buying"]["cut_to_size"] = json!({ "price": 4, "per": "lb", "cut_charge": 6, "allowance": "1/4" });
    let asks = |job: &Value| {
        let said = plateloft_on(job, &["buy"]).stdout;
        (said.contains("rectangles cut to size?"), said.replace('\n', " "))
    };
    assert!(!asks(&half).0);
    for field in ["price", "per", "cut_charge", "allowance"] {
        let (asked, said) = asks(&without(&half, &format!("buying.cut_to_size.{field}")));
        let named = format!("\"{field}\" of \"cut_to_size\" under \"buying\" is not set.");
        assert!(asked && said.contains(&named), "{field}: {said}");
    }
}

#[test]
fn a_wrong_value_beside_an_unset_one_is_still_refused() {
    let mut wrong = without(&job(), "quote.work.finish.set_up");
    wrong["quote"]["work"]["finish"]["each"] = json!(-3);
    wrong["buying"]["over_length"] = json!({ "freight": -1 });
    let run = plateloft_on(&wrong, &["quote"]);
    assert_eq!(run.code, 2);
    for told in ["quote.work.finish.each: -3", "buying.over_length.freight: -1"] {
        assert!(run.stderr.contains(told), "{told}: {}", run.stderr);
    }
}
