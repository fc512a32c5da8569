//! Quotes and orders as whole commands: every sum redone, every unset rate a question.
#![expect(clippy::disallowed_methods, reason = "a test of a program that reads a file writes it")]

use std::fs;
use std::path::Path;

use serde_json::{Value, json};
use tempfile::tempdir;

use crate::program::{plateloft, plateloft_in, plateloft_on, top};
use crate::rack::add_at;

/// Two plates 20 × 10 of metal weighing 2 lb/ft2, from a 48 × 96 sheet at 200: sums that are done by hand below.
pub(crate) fn job() -> Value {
    json!({
        "plateloft": 1, "job": "Two plates", "units": "inch", "tape": "1/16",
        "shop": { "gap": "1/4", "edge_trim": "1/2" },
        "metals": { "skin": { "alloy": "5052-H32", "thickness": ".125", "weight": "2 lb/ft2" } },
        "sheets": [{ "metal": "skin", "size": ["48", "96"], "price": 200 }],
        "buying": {
            "minimum_charge": 250, "over_length": { "longer_than": "90", "freight": 40 }, "delivery": 10, "tax": 10,
            "scrap_credit": { "price": ".50", "per": "lb" }
        },
        "quote": {
            "material": "bought", "hour": 60,
            "work": {
                "lay_out": { "set_up": 10, "each": 6, "second_hand": 0 },
                "cut_straight": { "set_up": 5, "each": 1.5, "second_hand": 0 },
                "finish": { "set_up": 0, "each": 3, "second_hand": 0 }
            },
            "consumables": [{ "item": "blades", "price": ".10", "per": "cut length" }],
            "outside_work": [{ "item": "anodising", "price": 15 }],
            "risk": 5, "markup": 25, "round_up_to": 5, "sales_tax": 8, "valid_until": "2026-12-31"
        },
        "parts": [{ "mark": "P", "shape": "plate", "metal": "skin", "size": ["20", "10"], "quantity": 2 }]
    })
}

pub(crate) fn quote(job: &Value) -> Value {
    let run = plateloft_on(job, &["quote", "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let answer: Value = serde_json::from_str(&run.stdout).unwrap();
    answer["quotes"][0].clone()
}

pub(crate) fn line<'a>(quote: &'a Value, what: &str) -> &'a Value {
    let lines = quote["lines"].as_array().unwrap();
    let found = lines.iter().find(|line| line["what"] == what);
    &found.unwrap_or_else(|| panic!("{what}: {lines:?}"))["cents"]
}

/// Takes a field like `quote.work.finish` or `quote.consumables.0.price` out of a job.
pub(crate) fn without(job: &Value, path: &str) -> Value {
    let mut job = job.clone();
    let (inside, name) = path.rsplit_once('.').unwrap();
    let group = inside.split('.').fold(&mut job, |value, field| match field.parse::<usize>() {
        Ok(entry) => &mut value[entry],
        Err(_) => &mut value[field],
    });
    group.as_object_mut().unwrap().remove(name).unwrap();
    job
}

fn add_up(quote: &Value) {
    let cents = |value: &Value| value.as_i64().unwrap();
    let lines = quote["lines"].as_array().unwrap().iter();
    assert_eq!(lines.map(|line| cents(&line["cents"])).sum::<i64>(), cents(&quote["cost"]));
    let steps = ["risk", "profit", "rounding"].map(|step| cents(&quote[step]["cents"]));
    assert_eq!(cents(&quote["cost"]) + steps.iter().sum::<i64>(), cents(&quote["price"]));
    assert_eq!(cents(&quote["price"]) + cents(&quote["tax"]["cents"]), cents(&quote["total"]));
    // Markup m and margin g as printed are both of the same gain: gain = m·(cost + risk) = g·price.
    let gain = (steps[1] + steps[2]) as f64;
    let share = |name: &str| cents(&quote[name]) as f64 / 10_000.0;
    let carried = (cents(&quote["cost"]) + steps[0]) as f64;
    assert!((share("markup_hundredths_of_percent") * carried - gain).abs() <= carried * 0.000_05 + 0.5);
    let price = cents(&quote["price"]) as f64;
    assert!((share("margin_hundredths_of_percent") * price - gain).abs() <= price * 0.000_05 + 0.5);
}

#[test]
fn every_line_is_the_sum_done_by_hand() {
    let quote = quote(&job());
    // One sheet at 200, lifted to 250; 96 is longer than 90; a tenth of 250 + 40 + 10 is tax.
    let expected = [
        ("1 of skin 48 × 96", 20_000),
        ("up to the minimum charge", 5_000),
        ("freight for long sheets", 4_000),
        ("delivery", 1_000),
        ("tax on metal", 3_000),
        // 32 ft2 less 2 × 200 in2 at 2 lb/ft2 is 58.444 lb, at .50.
        ("scrap and edge trim", -2_922),
        // At 60 an hour a minute is 1.00: 10 + 2 × 6; 5 + 10 ft × 1.5; 2 × 3.
        ("marking out", 2_200),
        ("straight cuts", 2_000),
        ("edges and cleaning", 600),
        ("blades", 100),
        ("anodising", 1_500),
    ];
    for (what, cents) in expected {
        assert_eq!(*line(&quote, what), cents, "{what}");
    }
    assert_eq!(quote["lines"].as_array().unwrap().len(), expected.len());
    assert_eq!(quote["cost"], 36_478);
    assert_eq!(quote["risk"]["cents"], 1_824); // 18.239
    assert_eq!(quote["profit"]["cents"], 9_576); // a quarter of 383.02 is 95.755
    assert_eq!(quote["price"], 48_000); // 478.78 up to the next 5
    assert_eq!(quote["tax"]["cents"], 3_840);
    assert_eq!(quote["total"], 51_840);
    assert_eq!(quote["questions"], json!([]));
    add_up(&quote);
}

/// The job with all that takes a rate, and every rate set.
pub(crate) fn every_rate() -> Value {
    let mut all = job();
    all["bars"] = json!([{ "bar": "pipe", "kerf": "1/16", "sticks": [{ "length": "240", "price": 60 }],
                           "pieces": [{ "mark": "R", "length": "100", "quantity": 3 }] }]);
    all["buying"]["coverings"] = json!({ "minimum_charge": 0, "delivery": 0, "tax": 0 });
    all["coverings"] = json!([{ "covering": "mat", "width": "72", "price": 4, "price_for": "12",
                                "pieces": [{ "mark": "K", "size": ["20", "10"] }] }]);
    all["parts"][0] = json!({ "mark": "P", "shape": "plate", "metal": "skin", "size": ["20", "10"], "quantity": 2,
                              "holes": [{ "at": ["5", "5"], "diameter": "1" },
                                        { "at": ["12", "5"], "slot": ["3", "1"] }] });
    let work = all["quote"]["work"].as_object_mut().unwrap();
    for kind in ["lay_out", "cut_straight", "cut_curved", "holes", "finish", "saw_bars", "fit_coverings"] {
        work.insert(kind.to_owned(), json!({ "set_up": 5, "each": 2, "second_hand": 0 }));
    }
    all
}

#[test]
fn sawing_and_fitting_are_charged_by_their_own_rates() {
    let all = quote(&every_rate());
    // 5 min and 3 × 2 min, 5 min and 1 × 2 min, at 60 an hour.
    assert_eq!(*line(&all, "bars to saw"), 1_100);
    assert_eq!(*line(&all, "coverings to cut and fit"), 700);
}

pub(crate) fn fact<'a>(quote: &'a Value, what: &str) -> &'a str {
    let facts = quote["facts"].as_array().unwrap();
    facts.iter().find(|fact| fact["what"] == what).unwrap()["is"].as_str().unwrap()
}

#[test]
fn cuts_are_told_by_how_they_are_made() {
    let mut sheared = job();
    assert!(
        fact(&quote(&sheared), "cuts").starts_with("by saw, torch or router straight 10.0 ft, "),
        "{sheared}"
    );
    sheared["shop"]["cutting"] = json!("shear");
    let open = quote(&sheared);
    assert!(open["questions"][0].as_str().unwrap().contains("\"shear\" under \"quote.work\""), "{open}");
    sheared["quote"]["work"]["shear"] = json!({ "set_up": 10, "each": 0.5, "second_hand": 0 });
    let nest: Value = serde_json::from_str(&plateloft_on(&sheared, &["nest", "--json"]).stdout).unwrap();
    let rounds = nest["metals"][0]["sheets"][0]["cuts"].as_array().unwrap().iter();
    let rounds = rounds.filter(|cut| cut.as_str().unwrap().starts_with("round ")).count() as i64;
    let all = quote(&sheared);
    // The edge trim takes four strokes; the plates are their own blanks and nothing of them is sawn.
    let said = format!("strokes of the shear {}; by saw, torch or router straight 0.0 ft, ", rounds + 4);
    assert!(fact(&all, "cuts").starts_with(&said), "{}", fact(&all, "cuts"));
    assert_eq!(*line(&all, "strokes of the shear"), 1_000 + 50 * (rounds + 4));
    assert_eq!(all["questions"], json!([]));
}

#[test]
fn the_heaviest_bend_is_the_one_that_takes_the_most_force() {
    // 575·T²/V tons to the foot: .125 on a V of 1 is 8.98; 12 in of it in 5052 takes .65 of that, 5.8 tons, and 20 in of 3003
    // .35, 5.2 tons.
    let panel = |mark: &str, metal: &str, length: &str| {
        json!({ "mark": mark, "shape": "panel", "metal": metal, "size": [length, "6"],
                "flanges": { "AB": "2 up" } })
    };
    let mut bent = job();
    bent["metals"]["soft"] = json!({ "alloy": "3003-H14", "thickness": ".125" });
    bent["sheets"]
        .as_array_mut()
        .unwrap()
        .push(json!({ "metal": "soft", "size": ["48", "96"], "price": 100 }));
    // The longer bend is in the softer metal: length × T² would name it.
    bent["parts"] = json!([panel("HARD", "skin", "12"), panel("SOFT", "soft", "20")]);
    let heaviest = quote(&bent);
    let bends = fact(&heaviest, "bends");
    assert!(bends.contains("heaviest 12 of .125 on HARD, about 5.8 tons in air over a V of 1"), "{bends}");
}

#[test]
fn a_second_hand_has_a_rate_of_its_own() {
    let mut with = job();
    with["quote"]["work"]["finish"]["second_hand"] = json!(6);
    let open = quote(&with);
    assert!(open["questions"][0].as_str().unwrap().contains("second_hand_hour"), "{open}");
    with["quote"]["second_hand_hour"] = json!(20);
    // 2 × 3 min at 60 and 2 × 6 min at 20 an hour.
    assert_eq!(*line(&quote(&with), "edges and cleaning"), 1_000);
}

#[test]
fn margin_and_markup_are_two_names_of_one_profit() {
    let mut by_margin = without(&job(), "quote.markup");
    by_margin["quote"]["margin"] = json!("20 %");
    assert_eq!(quote(&by_margin)["total"], quote(&job())["total"]);
    let mut both = job();
    both["quote"]["margin"] = json!(20);
    assert_eq!(quote(&both)["total"], quote(&job())["total"]);
    both["quote"]["margin"] = json!(25);
    let run = plateloft_on(&both, &["quote"]);
    assert_eq!(run.code, 2);
    assert!(
        run.stderr.contains("quote.margin: 25.00 %: does not go with the markup of 25.00 %"),
        "{}",
        run.stderr
    );
}

#[test]
fn a_share_of_the_sheets_leaves_the_kept_drops_to_the_shop() {
    let mut share = job();
    share["shop"]["keep_drop"] = json!(["12", "24"]);
    share["quote"]["material"] = json!("share of sheets");
    let quote = quote(&share);
    let charged = line(&quote, "share of the sheets").as_i64().unwrap();
    // At least what the parts cost on their own: 400 of 4608 in2 of 200.00.
    assert!((1_736..20_000).contains(&charged), "{charged}");
    add_up(&quote);
    share["quote"]["material"] = json!("bought");
    let open = plateloft_on(&share, &["quote"]).stdout;
    assert!(open.contains("\"drop_value\" under \"buying\" is not set"), "{open}");
}

#[test]
fn wrong_money_is_refused_all_at_once() {
    let mut wrong = job();
    wrong["sheets"][0]["price"] = json!(-1);
    wrong["buying"]["delivery"] = json!("ten");
    wrong["buying"]["scrap_credit"]["price"] = json!(-0.5);
    wrong["quote"]["hour"] = json!("12.345");
    wrong["quote"]["markup"] = json!(-5);
    wrong["quote"]["margin"] = json!(100);
    wrong["quote"]["round_up_to"] = json!(0);
    wrong["quote"]["valid_until"] = json!("soon");
    wrong["quote"]["work"]["finish"]["each"] = json!(-3);
    let run = plateloft_on(&wrong, &["quote"]);
    assert_eq!(run.code, 2);
    assert!(run.stdout.is_empty());
    for told in [
        "sheets[0].price: -1",
        "buying.delivery: ten",
        "buying.scrap_credit.price: -0.5",
        "quote.hour: 12.345",
        "quote.markup: -5: must not be below zero",
        "quote.margin: 100: a margin is part of the price",
        "quote.round_up_to: 0.00: must be above zero",
        "quote.valid_until: soon",
        "quote.work.finish.each: -3",
    ] {
        assert!(run.stderr.contains(told), "{told}: {}", run.stderr);
    }
}

#[test]
fn jobs_stand_side_by_side() {
    let folder = tempdir().unwrap();
    let mut thick = job();
    thick["job"] = json!("Thicker");
    thick["sheets"][0]["price"] = json!(300);
    fs::write(folder.path().join("a.json"), job().to_string()).unwrap();
    fs::write(folder.path().join("b.json"), thick.to_string()).unwrap();
    let run = plateloft_in(folder.path(), &["quote", "a.json", "b.json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let table = run.stdout.split("Side by side").nth(1).unwrap();
    let total = table.lines().find(|line| line.starts_with("total")).unwrap();
    let sums: Vec<&str> = total.split_whitespace().skip(1).collect();
    assert_eq!(sums.len(), 2);
    assert_eq!(sums[0], "518.40");
    assert!(518.40 < sums[1].parse::<f64>().unwrap());
}

/// A lid over a small hatch, in tread plate, with every rate that the options below need.
pub(crate) fn hatch() -> Value {
    let mut hatch = job();
    let rate = json!({ "set_up": 5, "each": 2, "second_hand": 0 });
    for kind in ["bend", "weld_open", "weld_butt", "corners", "cut_curved", "holes", "pack", "saw_bars"] {
        hatch["quote"]["work"][kind] = rate.clone();
    }
    hatch["quote"]["welds_between"] = json!([]);
    hatch["sheets"][0]["price"] = json!(400);
    hatch["metals"]["skin"] = json!({
        "alloy": "3003-H22", "pattern": "tread", "thickness": ".125", "weight": "2 lb/ft2", "lay": "long side",
        "k_factor": 0.42, "inside_radius": ".125"
    });
    hatch["openings"] = json!({ "well": { "AB": "20", "BC": "15", "CD": "20", "DA": "15", "AC": "25", "corners_run": "clockwise" } });
    hatch["parts"] = json!([
        { "mark": "L", "shape": "lid", "metal": "skin", "outside": ["22", "17"], "skirt": "1 1/2", "lay": "along" },
        { "mark": "TS", "shape": "plate", "metal": "skin", "size": ["4", "1"], "lay": "along" }
    ]);
    hatch["kit"] = json!({
        "crates": { "inside": ["30", "22", "4"], "empty": "20 lb", "heaviest": "60 lb", "price": 25 },
        "packing": { "what": "board", "thickness": "1/8", "clear": "1/4" },
        "test_strips": ["TS"], "carriage": 40
    });
    hatch
}

#[test]
fn the_four_kinds_of_options_stand_side_by_side() {
    let folder = tempdir().unwrap();
    let write = |name: &str, job: &Value| {
        fs::write(folder.path().join(name), job.to_string()).unwrap();
    };
    let named = |name: &str| {
        let mut option = hatch();
        option["job"] = json!(name);
        option
    };
    let mut plain = named("Plain");
    plain["metals"]["skin"]["pattern"] = json!("plain");
    plain["sheets"][0]["price"] = json!(340);
    let mut thin = named("Thinner");
    thin["metals"]["skin"]["thickness"] = json!(".090");
    thin["metals"]["skin"]["weight"] = json!("1.5 lb/ft2");
    thin["sheets"][0]["price"] = json!(300);
    let mut gutter = named("Flush over a gutter");
    gutter["parts"].as_array_mut().unwrap().push(json!(
        { "mark": "G", "shape": "gutter", "metal": "skin", "opening": "well", "width": "1 3/4", "depth": "1 1/4" }
    ));
    gutter["quote"]["welds_between"] =
        json!([{ "what": "mitres", "joint": "butt", "length": "4 1/4", "count": 4 }]);
    let jobs = [("a.json", named("Tread")), ("b.json", plain), ("c.json", thin), ("d.json", gutter)];
    for (name, job) in &jobs {
        write(name, job);
    }
    let names = jobs.each_ref().map(|(name, _)| *name);
    let run = plateloft_in(folder.path(), &[&["quote", "--json"], &names[..]].concat());
    assert_eq!(run.code, 0, "{}", run.stderr);
    let answer: Value = serde_json::from_str(&run.stdout).unwrap();
    let mut totals: Vec<i64> = Vec::new();
    for quote in answer["quotes"].as_array().unwrap() {
        assert_eq!(quote["questions"], json!([]), "{}", quote["job"]);
        add_up(quote);
        totals.push(quote["total"].as_i64().unwrap());
    }
    assert!(totals[1] < totals[0] && totals[2] < totals[0] && totals[0] < totals[3], "{totals:?}");
    let text = plateloft_in(folder.path(), &[&["quote"], &names[..]].concat()).stdout;
    let table = text.split("Side by side").nth(1).unwrap();
    assert!(table.contains("Flush over a gutter"), "{table}");
    // Fitted beside kit: what the buyer does is not charged, crates and carriage are.
    let run = plateloft_in(folder.path(), &["quote", "a.json", "--kit", "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let answer: Value = serde_json::from_str(&run.stdout).unwrap();
    let [fitted, kit] = [0, 1].map(|number: usize| answer["quotes"][number].clone());
    add_up(&fitted);
    add_up(&kit);
    let lines = |quote: &Value| -> Vec<String> {
        let lines = quote["lines"].as_array().unwrap().iter();
        lines.map(|line| line["what"].as_str().unwrap().to_owned()).collect()
    };
    for work in ["bends", "corners to close and dress", "weld, open corners"] {
        assert!(lines(&fitted).iter().any(|line| line == work), "{work}: {:?}", lines(&fitted));
        assert!(lines(&kit).iter().all(|line| line != work), "{work}: {:?}", lines(&kit));
    }
    assert_eq!(*line(&kit, "crates and packing"), 2_500);
    assert_eq!(*line(&kit, "carriage"), 4_000);
    // Two pieces: 5 min and 2 × 2 min at 60 an hour.
    assert_eq!(*line(&kit, "labels and packing"), 900);
}

#[test]
fn what_no_part_has_is_said_or_asked_for() {
    let mut pieces = hatch();
    pieces["parts"].as_array_mut().unwrap().push(json!(
        { "mark": "G", "shape": "gutter", "metal": "skin", "opening": "well", "width": "1 3/4", "depth": "1 1/4" }
    ));
    pieces["hardware"] = json!([{ "item": "hinge", "count": 2 }]);
    pieces["bars"] = json!([{ "bar": "pipe", "kerf": "1/16", "sticks": [{ "length": "240", "price": 60 }],
                              "pieces": [{ "mark": "R", "length": "100", "quantity": 3 }] }]);
    let open = quote(&without(&pieces, "quote.welds_between"));
    let asked = open["questions"].to_string();
    assert!(
        asked.contains("What welds join the pieces of G?") && asked.contains("What does one hinge cost?"),
        "{asked}"
    );
    assert_eq!(open["total"], Value::Null);
    pieces["quote"]["welds_between"] = json!([
        { "what": "mitres", "joint": "butt", "length": "3", "count": 4 },
        { "what": "bracket", "joint": "butt", "length": "12" }
    ]);
    pieces["hardware"][0]["price"] = json!(12.5);
    let whole = quote(&pieces);
    assert_eq!(whole["questions"], json!([]));
    // 24 in of butt weld: 5 min and 2 ft × 2 min at 60 an hour; two hinges; two sticks.
    assert_eq!(*line(&whole, "weld, butt corners"), 900);
    assert_eq!(*line(&whole, "hinge"), 2_500);
    assert_eq!(*line(&whole, "2 of pipe 240"), 12_000);
    // Three pieces to saw: 5 min and 3 × 2 min at 60 an hour.
    assert_eq!(*line(&whole, "bars to saw"), 1_100);
    // 20 ft of pipe is longer than the sheets that pay freight for their length, and does not pay it again.
    assert_eq!(*line(&whole, "freight for long sheets"), 4_000);
}

#[test]
fn a_piece_of_the_rack_is_charged_at_what_a_drop_is_worth() {
    let folder = tempdir().unwrap();
    let mut few = job();
    few["buying"]["drop_value"] = json!({ "price": 3, "per": "lb" });
    fs::write(folder.path().join("job.json"), few.to_string()).unwrap();
    let piece = ["--metal", "5052-H32", "--thickness", ".125", "--size", "36", "24"];
    assert_eq!(add_at(folder.path(), "R1", "A", &piece).code, 0);
    let run = plateloft_in(folder.path(), &["quote", "job.json", "--rack", "rack.json", "--json"]);
    let answer: Value = serde_json::from_str(&run.stdout).unwrap();
    // 6 ft2 at 2 lb/ft2 is 12 lb, at 3.00.
    assert_eq!(*line(&answer["quotes"][0], "pieces of the rack"), 3_600);
}

#[test]
fn the_take_off_of_two_jobs_adds_up() {
    let folder = tempdir().unwrap();
    let mut other = job();
    other["job"] = json!("Other");
    other["hardware"] = json!([{ "item": "hinge", "count": 3 }]);
    other["metals"]["skin"]["film"] = json!("one side");
    other["parts"][0]["quantity"] = json!(7);
    let mut first = job();
    first["hardware"] = json!([{ "item": "hinge", "count": 2 }, { "item": "latch", "count": 1 }]);
    let pipe = |quantity: u32| {
        json!([{ "bar": "pipe 1 in sch 40", "kerf": "1/16", "sticks": [{ "length": "240" }],
                 "pieces": [{ "mark": "A", "length": "41", "quantity": quantity }, { "mark": "B", "length": "10 1/16" }] }])
    };
    first["bars"] = pipe(9);
    other["bars"] = pipe(2);
    fs::write(folder.path().join("a.json"), first.to_string()).unwrap();
    fs::write(folder.path().join("b.json"), other.to_string()).unwrap();
    let run = plateloft_in(folder.path(), &["take-off", "a.json", "b.json", "a.json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    // 200 in2 at 2 lb/ft2 is 2.7778 lb, printed 2.78: two and two without film, seven with.
    let rows = |start: &str| -> Vec<Vec<i128>> {
        run.stdout.lines().filter(|line| line.starts_with(start)).map(counts).collect()
    };
    let metals = rows("5052-H32 .125, plain, ").into_iter().filter(|row| !row.is_empty()).collect::<Vec<_>>();
    assert_eq!(metals, [[5_556, 1_112], [9_722, 1_946]], "2.78 by how many");
    assert_eq!(rows("all")[0], [15_278, 3_058], "{}", run.stdout);
    assert!(run.stdout.contains("film one side") && run.stdout.contains("no film"), "{}", run.stdout);
    let hinge = run.stdout.lines().find(|line| line.starts_with("hinge")).unwrap();
    assert!(hinge.trim_end().ends_with('7'), "{hinge}");
    // Twice 9 and once 2 of 41 inches, three of 10 1/16: 820 and 30 3/16.
    let pipe = run.stdout.lines().rfind(|line| line.starts_with("pipe 1 in sch 40")).unwrap();
    assert_eq!(pipe.split_whitespace().skip(5).collect::<Vec<_>>(), ["23", "850", "3/16"], "{}", run.stdout);
}

#[test]
fn the_demo_quote_adds_up() {
    let run = plateloft(&["quote", "fixtures/jobs/oyster-skiff.json", "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let answer: Value = serde_json::from_str(&run.stdout).unwrap();
    let quote = &answer["quotes"][0];
    assert_eq!(quote["questions"], json!([]));
    add_up(quote);
}

/// The numbers of a printed table's row, in counts of the last digit, and how many digits they have.
fn counts(row: &str) -> Vec<i128> {
    row.split_whitespace()
        .filter(|word| word.contains('.') && word.chars().all(|c| c.is_ascii_digit() || c == '.' || c == '-'))
        .map(|word| word.replace('.', "").parse().unwrap())
        .collect()
}

fn reports(folder: &Path, found: &mut Vec<String>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            reports(&path, found);
        } else if path.file_name().is_some_and(|name| name == "scrap-report.txt") {
            found.push(fs::read_to_string(&path).unwrap());
        }
    }
}

#[test]
fn every_printed_report_adds_up_to_the_last_digit() {
    let mut found = Vec::new();
    reports(&top().join("output-samples"), &mut found);
    assert!(!found.is_empty());
    let mut tables = 0;
    for report in &found {
        let mut rows: Vec<Vec<i128>> = Vec::new();
        let mut last = false;
        for row in report.lines() {
            let numbers = counts(row);
            if row.starts_with('-') {
                last = !rows.is_empty();
            } else if numbers.is_empty() {
                rows.clear();
                last = false;
            } else if last {
                for (column, sum) in numbers.iter().enumerate() {
                    // Shares are rounded for themselves and add up to a hundred only nearly.
                    let is_share = row.trim_end().ends_with('%') && column + 1 == numbers.len();
                    let added: i128 = rows.iter().map(|row| row[column]).sum();
                    assert!(is_share || added == *sum, "{added} is not {sum}: {row}\n{report}");
                }
                tables += 1;
                rows.clear();
                last = false;
            } else {
                rows.push(numbers);
            }
        }
    }
    assert!(found.len() < tables, "tables were not found");
}
