//! One number for one thing: text and JSON, take-off, cut list, weights and scrap report, the drop on paper and in the rack.
#![expect(clippy::disallowed_methods, reason = "a test of a program that keeps a file writes it")]

use std::fs;

use serde_json::{Value, json};
use tempfile::tempdir;

use crate::program::{plateloft_in, plateloft_on};
use crate::quote::job;
use crate::rack::{RACK, SKIN, add, list};
use crate::rack_outlines::{adds_up, exact};

/// Two metals, pieces of a hundredth of a pound by the hundred, one mark on two sheets; two sizes of sheet.
fn small_and_many() -> Value {
    let mut many = job();
    many["shop"] = json!({
        "gap": "1/4", "kerf": "1/8", "edge_trim": "1/2", "keep_drop": ["12", "24"], "nesting": { "evaluations": 500 }
    });
    many["metals"] = json!({
        "skin": { "alloy": "5052-H32", "thickness": ".125" },
        "deck": { "alloy": "3003-H22", "pattern": "tread", "thickness": ".125", "weight": "1.95 lb/ft2", "lay": "long side" }
    });
    many["sheets"] = json!([
        { "metal": "skin", "size": ["48", "96"], "price": 210.35 },
        { "metal": "skin", "size": ["60", "120"], "price": 390.15 },
        { "metal": "deck", "size": ["48", "96"], "price": 228 }
    ]);
    many["parts"] = json!([
        { "mark": "A", "shape": "plate", "metal": "skin", "size": ["31 1/4", "20 3/8"], "quantity": 7 },
        { "mark": "B", "shape": "plate", "metal": "skin", "size": ["1", "1 1/16"], "quantity": 300 },
        { "mark": "D", "shape": "plate", "metal": "deck", "size": ["44", "22 3/16"], "quantity": 5 }
    ]);
    many
}

fn answer(job: &Value, command: &str) -> Value {
    let run = plateloft_on(job, &[command, "--json"]);
    assert_eq!(run.code, 0, "{command}: {}", run.stderr);
    serde_json::from_str(&run.stdout).unwrap()
}

fn said(job: &Value, command: &str) -> String {
    let run = plateloft_on(job, &[command]);
    assert_eq!(run.code, 0, "{command}: {}", run.stderr);
    run.stdout
}

/// Cells of the first line that begins with a word.
fn line<'a>(text: &'a str, first: &str) -> Vec<&'a str> {
    let mut lines = text.lines().map(|line| line.split("  ").map(str::trim).filter(|cell| !cell.is_empty()));
    let found = lines.find_map(|cells| {
        let cells: Vec<&str> = cells.collect();
        (cells.first() == Some(&first)).then_some(cells)
    });
    found.unwrap_or_else(|| panic!("{first}: {text}"))
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

/// Take-off and scrap report, text and JSON, weights and quote: the parts have one area and one weight.
#[test]
fn the_parts_have_one_area_and_one_weight_wherever_they_are_told() {
    let many = small_and_many();
    let (off, text) = (answer(&many, "take-off"), said(&many, "take-off"));
    let scrap = answer(&many, "scrap");
    let told = line(&text, "all");
    let area = number(&off["net_area"]);
    let weight = number(&off["weight"]);
    assert_eq!(told[1..], ["312", &format!("{area:.3}"), &format!("{weight:.2}")]);
    let parts = &scrap["total"]["parts"];
    assert_eq!((number(&parts["area"]), number(&parts["weight"])), (area, weight), "{scrap}");
    assert!((number(&answer(&many, "weights")["job_weight"]) - weight).abs() < 1e-9);
    assert!((number(&answer(&many, "quote")["quotes"][0]["weight"]) - weight).abs() < 1e-9);
    // Every choice of sheets uses the same metal.
    let bought = said(&many, "buy");
    let used: Vec<&str> = bought
        .lines()
        .filter(|line| line.contains("proved least") && line.matches('.').count() == 4)
        .map(|line| line.split_whitespace().rev().nth(2).unwrap())
        .collect();
    let of_metal = |metal: usize| format!("{:.3}", number(&off["metals"][metal]["net_area"]));
    assert!(!used.is_empty(), "{bought}");
    assert!(used.iter().all(|used| *used == of_metal(0) || *used == of_metal(1)), "{used:?}: {bought}");
    // A mark on several sheets comes to its own line.
    for part in off["parts"].as_array().unwrap() {
        let rows =
            scrap["sheets"].as_array().unwrap().iter().flat_map(|sheet| sheet["parts"].as_array().unwrap());
        let rows = rows.filter(|row| row["mark"] == part["mark"]);
        let sums = rows.fold([0.0, 0.0], |[area, weight], row| {
            [area + number(&row["amount"]["area"]), weight + number(&row["amount"]["weight"])]
        });
        assert!((sums[0] - number(&part["net_area"])).abs() < 1e-9, "{part}: {sums:?}");
        assert!((sums[1] - number(&part["weight"])).abs() < 1e-9, "{part}: {sums:?}");
    }
}

/// A piece of .0129 lb is no piece of .01: three hundred of them weigh what their metal does.
#[test]
fn small_pieces_by_the_hundred_weigh_what_their_metal_does() {
    let many = small_and_many();
    let off = answer(&many, "take-off");
    let small = off["parts"].as_array().unwrap().iter().find(|part| part["mark"] == "B").unwrap();
    let true_pounds = number(&small["exact_weight"]) / 453_592_370.0;
    assert!((number(&small["weight"]) / true_pounds - 1.0).abs() < 0.005, "{small}: {true_pounds}");
    // Redone by hand from the printed weight of one.
    let each = number(&small["weight_each"]);
    assert!((300.0 * each - number(&small["weight"])).abs() < 0.005 + 1e-9, "{small}");
    let text = said(&many, "take-off");
    assert!(text.contains("  1 × 1 1/16  "), "{text}");
    let row = text.lines().find(|line| line.contains("1 × 1 1/16")).unwrap();
    assert!(row.contains(&format!(" {each:.4} ")), "{row}");
}

/// JSON has the numbers of the text: every line of every sheet of the scrap report.
#[test]
fn the_scrap_report_is_the_same_in_text_and_json() {
    let many = small_and_many();
    let (report, text) = (answer(&many, "scrap"), said(&many, "scrap"));
    for sheet in report["sheets"].as_array().unwrap() {
        let name = sheet["sheet"].as_str().unwrap();
        let table = text.split(&format!("\n{name}\n")).nth(1).unwrap();
        let rows = [("parts", "parts"), ("kept drops", "kept_drops"), ("kerf", "kerf"), ("scrap", "scrap")];
        for (words, field) in rows.into_iter().chain([("bought", "bought")]) {
            let amount = &sheet["amounts"][field];
            let printed =
                [format!("{:.3}", number(&amount["area"])), format!("{:.2}", number(&amount["weight"]))];
            assert_eq!(line(table, words)[1..3], printed, "{name}, {words}");
        }
        adds_up(&sheet["amounts"]);
    }
}

/// What came from the rack was not bought, and what was bought costs what the order says.
#[test]
fn what_came_from_the_rack_is_told_apart_from_what_was_bought() {
    let shop = tempdir().unwrap();
    let many = small_and_many();
    fs::write(shop.path().join("job.json"), many.to_string()).unwrap();
    assert_eq!(
        add(shop.path(), "R1", &[&SKIN[..], &["--size", "40", "30", "--face", "good"]].concat()).code,
        0
    );
    let run = |command: &[&str]| {
        let run = plateloft_in(shop.path(), &[command, &["job.json", "--rack", RACK]].concat());
        assert_eq!(run.code, 0, "{command:?}: {}", run.stderr);
        run.stdout
    };
    let text = run(&["scrap"]);
    let of_rack = text.split("(R1 of the rack, 30 × 40)\n").nth(1).unwrap().split("\n\n").next().unwrap();
    assert!(of_rack.contains("\nof the rack  ") && !of_rack.contains("\nbought"), "{of_rack}");
    assert_eq!(line(of_rack, "of the rack")[1], "8.333");
    assert!(
        text.contains("\nBought + of the rack = parts + kept drops + kerf + edge trim + scrap.\n"),
        "{text}"
    );
    let report: Value = serde_json::from_str(&run(&["scrap", "--json"])).unwrap();
    adds_up(&report["total"]);
    let square_inch = 25_400_000_i128 * 25_400_000;
    assert_eq!(exact(&report["total"], "from_rack", "exact_area"), 1_200 * square_inch);
    let bought: Value = serde_json::from_str(&run(&["buy", "--json"])).unwrap();
    assert_eq!(report["total"]["bought"]["cents"], bought["order_cents"]["goods"]);
    let all = text.split("\nAll that is bought\n").nth(1).unwrap();
    let area = number(&report["total"]["bought"]["area"]);
    assert_eq!(line(all, "bought")[1], format!("{area:.3}"));
}

/// The drop that the report keeps is the piece that the rack gets: one area, to the square nanometre.
#[test]
fn a_kept_drop_has_one_area_on_paper_and_in_the_rack() {
    let shop = tempdir().unwrap();
    fs::write(shop.path().join("job.json"), small_and_many().to_string()).unwrap();
    let report = plateloft_in(shop.path(), &["scrap", "job.json", "--json"]);
    let report: Value = serde_json::from_str(&report.stdout).unwrap();
    let words = ["rack", "return", "--drops-of", "job.json", "--place", "B3", "--date", "2026-03-05"];
    let run = plateloft_in(shop.path(), &words);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let there = list(shop.path(), &[]);
    let in_rack: i128 =
        there.iter().map(|drop| drop["exact_area"].as_str().unwrap().parse::<i128>().unwrap()).sum();
    assert!(1 < there.len(), "{there:?}");
    assert_eq!(exact(&report["total"], "kept_drops", "exact_area"), in_rack);
    // And `buy` keeps as much on the sheets that it chooses.
    let bought = plateloft_in(shop.path(), &["buy", "job.json", "--json"]);
    let bought: Value = serde_json::from_str(&bought.stdout).unwrap();
    let chosen = bought["metals"].as_array().unwrap().iter().map(|metal| {
        let choices = metal["choices"].as_array().unwrap();
        let chosen = choices.iter().find(|choice| choice["chosen"] == true).unwrap();
        chosen["exact_areas"]["kept_drops"].as_str().unwrap().parse::<i128>().unwrap()
    });
    assert_eq!(chosen.sum::<i128>(), in_rack);
}

/// Both sizes are lifted to the minimum of 500, so the orders are the same to the cent: the larger one leaves the larger drop.
#[test]
fn of_two_orders_of_one_sum_the_one_with_the_larger_drop_is_bought() {
    let mut tie = job();
    tie["shop"]["keep_drop"] = json!(["12", "24"]);
    tie["sheets"] = json!([
        { "metal": "skin", "size": ["48", "96"], "price": 200 },
        { "metal": "skin", "size": ["60", "120"], "price": 330 }
    ]);
    tie["buying"]["minimum_charge"] = json!(500);
    tie["buying"]["over_length"]["freight"] = json!(0);
    let order = |job: &Value| answer(job, "buy")["order"][0]["what"].as_str().unwrap().to_owned();
    assert_eq!(order(&tie), "skin 60 × 120");
    let text = said(&tie, "buy").split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("then the one that leaves the larger drop to keep"), "{text}");
    // Where the shop keeps no drop, or the order is a cent less, the smaller one is.
    tie["buying"]["minimum_charge"] = json!(329.99);
    assert_eq!(order(&tie), "skin 48 × 96");
    tie["buying"]["minimum_charge"] = json!(500);
    tie["shop"].as_object_mut().unwrap().remove("keep_drop");
    assert_eq!(order(&tie), "skin 48 × 96");
}

/// What is asked of the rack and cannot be is told by its own option; a rack that is not there gets no lock beside it.
#[test]
fn what_cannot_be_asked_of_the_rack_is_told_plainly() {
    let shop = tempdir().unwrap();
    let wrong = |run: crate::program::Run, told: &str| {
        assert!(run.code == 2 && run.stderr.contains(told), "{told}: {}{}", run.stdout, run.stderr);
    };
    let none = plateloft_in(shop.path(), &["rack", "take", "R1", "--job", "Boat"]);
    wrong(
        none,
        "rack.json: cannot be read: No such file or directory (os error 2)\n    name the rack with --rack",
    );
    assert!(!shop.path().join("rack.json.lock").exists());
    assert_eq!(add(shop.path(), "R1", &[&SKIN[..], &["--size", "40", "10"]].concat()).code, 0);
    let before = fs::read(shop.path().join(RACK)).unwrap();
    let twice = plateloft_in(shop.path(), &["rack", "take", "R1", "r1", "--job", "Boat"]);
    wrong(twice, "rack take: r1: is named twice\n    name each piece once");
    let dated = plateloft_in(shop.path(), &["rack", "return", "R1", "--date", "2026-03-05"]);
    wrong(dated, "rack return: --date: goes with --drops-of");
    assert_eq!(fs::read(shop.path().join(RACK)).unwrap(), before);
}

/// Nothing weighs nothing, and the thirtieth of February is no day.
#[test]
fn a_weight_of_zero_and_a_day_that_is_none_are_refused() {
    let mut wrong = job();
    wrong["metals"]["skin"]["weight"] = json!("0 lb/ft2");
    wrong["date"] = json!("2026-02-30");
    let run = plateloft_on(&wrong, &["take-off"]);
    assert_eq!(run.code, 2);
    for told in [
        "metals.skin.weight: 0 lb/ft2: it is not above zero\n    write a number above zero",
        "date: 2026-02-30: is no day of the calendar\n    write year, month and day, 2026-03-04, or the day in words",
    ] {
        assert!(run.stderr.contains(told), "{told}: {}", run.stderr);
    }
    wrong["metals"]["skin"]["weight"] = json!("2 lb/ft2");
    wrong["date"] = json!("30 November");
    assert_eq!(plateloft_on(&wrong, &["take-off"]).code, 0);
}

/// The deduction told of a bend is the one that its flat is made by: a panel's depth and its leg, which past square both run to
/// the outermost metal, less that are the blank.
#[test]
fn legs_less_the_deduction_told_are_the_blank_told() {
    for turn in [20, 60, 90, 91, 120, 150] {
        let mut one = job();
        one["parts"] = json!([{
            "mark": "P", "shape": "panel", "metal": "skin", "size": ["20", "8"], "flanges": {
                "AB": { "leg": "2", "turn": turn, "direction": "up" }
            }
        }]);
        let told = answer(&one, "flats");
        let part = &told["parts"][0];
        let bend = &part["bends"][0];
        let blank = number(&part["blank"][1]);
        assert!((10.0 - number(&bend["deduction"]) - blank).abs() < 0.0011, "{turn}: {bend} {blank}");
        let twice = 2.0 * number(&bend["setback"]) - number(&bend["allowance"]);
        assert!((twice - number(&bend["deduction"])).abs() < 0.0016, "{turn}: {bend}");
        let to = if turn <= 90 { "mold line" } else { "outermost metal" };
        assert_eq!(bend["legs_to"], to);
    }
}
