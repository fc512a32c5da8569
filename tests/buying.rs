//! What to buy as whole commands: every choice of sheets summed, the one with the least order taken.
#![expect(clippy::disallowed_methods, reason = "a test of a program that reads a file writes it")]

use std::fs;

use serde_json::{Value, json};
use tempfile::tempdir;

use crate::program::{packet_of, packet_of_job, plateloft_in, plateloft_on};
use crate::quote::{job, line, quote, without};

fn exact(value: &Value) -> i128 {
    value.as_str().unwrap().parse().unwrap()
}

#[test]
fn every_choice_of_sheets_adds_up_and_the_order_too() {
    let mut two = job();
    two["sheets"] = json!([
        { "metal": "skin", "size": ["48", "96"], "price": 200 },
        { "metal": "skin", "size": ["60", "120"], "price": 310 },
        { "metal": "skin", "size": ["12", "19"], "price": 20 }
    ]);
    two["parts"][0]["quantity"] = json!(30);
    let run = plateloft_on(&two, &["buy", "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let answer: Value = serde_json::from_str(&run.stdout).unwrap();
    let choices = answer["metals"][0]["choices"].as_array().unwrap();
    assert_eq!(choices.len(), 4, "each size alone and the best mix");
    // 12 × 19 less 1/2 at every edge.
    assert_eq!(
        choices[2]["none"],
        "too small for P, which needs 20 × 10: inside its edge trim it has 18 × 11"
    );
    for choice in choices.iter().filter(|choice| choice["sheets"].is_u64()) {
        let areas = &choice["exact_areas"];
        let lines = ["parts", "kept_drops", "kerf", "edge_trim", "scrap"];
        let metal = exact(&areas["bought"]) + exact(&areas["from_rack"]);
        assert_eq!(lines.iter().map(|line| exact(&areas[*line])).sum::<i128>(), metal);
        assert_adds_up(&choice["cents"]);
    }
    let order = &answer["order_cents"];
    assert_adds_up(order);
    let goods: i64 = answer["order"]
        .as_array()
        .unwrap()
        .iter()
        .map(|line| line["quantity"].as_i64().unwrap() * line["each_cents"].as_i64().unwrap())
        .sum();
    assert_eq!(goods, order["goods"].as_i64().unwrap());
    let cheapest = choices.iter().filter_map(|choice| choice["cents"]["total"].as_i64()).min().unwrap();
    let chosen = choices.iter().find(|choice| choice["chosen"] == true).unwrap();
    assert_eq!(chosen["cents"]["total"], cheapest);
}

/// Four plates 40 × 40 take two sheets of 48 × 96 at 200, or one of 96 × 96 at 390 that pays freight of its own.
fn long_or_two() -> Value {
    let mut two = job();
    two["sheets"] = json!([
        { "metal": "skin", "size": ["48", "95"], "price": 200 },
        { "metal": "skin", "size": ["96", "96"], "price": 390 }
    ]);
    two["parts"][0] =
        json!({ "mark": "P", "shape": "plate", "metal": "skin", "size": ["40", "40"], "quantity": 4 });
    two["buying"]["over_length"] = json!({ "longer_than": "95", "freight": 40 });
    two["buying"]["minimum_charge"] = json!(0);
    two
}

fn bought(job: &Value, more: &[&str]) -> Value {
    let run = plateloft_on(job, &[&["buy", "--json"], more].concat());
    assert_eq!(run.code, 0, "{}", run.stderr);
    serde_json::from_str(&run.stdout).unwrap()
}

fn chosen(bought: &Value, metal: usize) -> &str {
    let choices = bought["metals"][metal]["choices"].as_array().unwrap();
    choices.iter().find(|choice| choice["chosen"] == true).unwrap()["sheets_of"].as_str().unwrap()
}

#[test]
fn the_dearer_sheets_are_taken_where_the_whole_order_is_less() {
    let two = long_or_two();
    // 400 against 390 + 40.
    let bought_two = bought(&two, &[]);
    assert_eq!(chosen(&bought_two, 0), "48 × 95");
    assert_eq!(bought_two["order_cents"]["goods"], 40_000);
    // Order and quote are for the same sheets.
    let order: Value = serde_json::from_str(&plateloft_on(&two, &["order", "--json"]).stdout).unwrap();
    assert_eq!(order["sheets_in_all"], 2);
    assert_eq!(*line(&quote(&two), "2 of skin 48 × 95"), 40_000);
    let text = plateloft_on(&two, &["buy"]).stdout;
    assert!(text.contains("What is proved of a mix is the price of its sheets alone"), "{text}");
    assert!(!text.contains("proved cheapest"), "{text}");
    // Where freight is 5 the large one is less after all.
    let mut cheap = two.clone();
    cheap["buying"]["over_length"]["freight"] = json!(5);
    assert_eq!(chosen(&bought(&cheap, &[]), 0), "96 × 96");
    // And where another metal of the job comes long in any case, its freight is paid once.
    let mut both = two.clone();
    both["metals"]["deck"] = both["metals"]["skin"].clone();
    both["sheets"]
        .as_array_mut()
        .unwrap()
        .push(json!({ "metal": "deck", "size": ["60", "120"], "price": 300 }));
    both["parts"]
        .as_array_mut()
        .unwrap()
        .push(json!({ "mark": "D", "shape": "plate", "metal": "deck", "size": ["20", "10"] }));
    let bought_both = bought(&both, &[]);
    let skin = (0..2).find(|&metal| bought_both["metals"][metal]["metal"] == "skin").unwrap();
    assert_eq!(chosen(&bought_both, skin), "96 × 96");
    assert_eq!(bought_both["order_cents"]["over_length"], 4_000);
}

#[test]
fn the_supplier_s_cuts_are_in_every_sum() {
    let mut cut = long_or_two();
    cut["sheets"][0]["supplier_cuts"] = json!(2);
    let open = bought(&cut, &[]);
    assert_eq!(open["order_cents"]["total"], Value::Null);
    assert!(open["order_cents"]["questions"][0].as_str().unwrap().contains("\"cut_charge\""), "{open}");
    // Two sheets with two cuts each at 4.00 are 16.00: 416 against 430.
    cut["buying"]["cut_charge"] = json!(4);
    let paid = bought(&cut, &[]);
    assert_eq!(chosen(&paid, 0), "48 × 95");
    assert_eq!(paid["order_cents"]["cuts"], 1_600);
    assert_adds_up(&paid["order_cents"]);
    assert_eq!(*line(&quote(&cut), "the supplier's cuts"), 1_600);
    let text = plateloft_on(&cut, &["buy"]).stdout;
    let row = text.lines().find(|line| line.contains("the supplier's cuts")).unwrap();
    assert!(row.trim_end().ends_with("16.00"), "{row}");
    let order = plateloft_on(&cut, &["order"]).stdout;
    assert!(order.contains("cut to it by you with 2 cuts"), "{order}");
    // At 10.00 a cut they are 440: the large one is less.
    cut["buying"]["cut_charge"] = json!(10);
    assert_eq!(chosen(&bought(&cut, &[]), 0), "96 × 96");
}

/// Of 60 × 120 at 200.00 one must be bought; two plates beside it go on a sheet of 48 × 96 at 100.00 or on two of 24 × 96 at 48.00,
/// which the supplier cuts at 15.00 each.
fn cut_or_whole() -> Value {
    let mut job = job();
    job["sheets"] = json!([
        { "metal": "skin", "size": ["48", "96"], "price": 100 },
        { "metal": "skin", "size": ["24", "96"], "price": 48, "supplier_cuts": 1 },
        { "metal": "skin", "size": ["60", "120"], "price": 200 }
    ]);
    job["parts"] = json!([
        { "mark": "L", "shape": "plate", "metal": "skin", "size": ["110", "58"] },
        { "mark": "S", "shape": "plate", "metal": "skin", "size": ["94", "22"], "quantity": 2 }
    ]);
    job["buying"]["cut_charge"] = json!(15);
    job["buying"]["minimum_charge"] = json!(0);
    job
}

#[test]
fn mixes_are_looked_for_by_what_a_sheet_adds_to_the_order() {
    // 296 + 2 × 15 against 300.
    let paid = bought(&cut_or_whole(), &[]);
    assert_eq!(paid["order_cents"]["goods"], 30_000, "{paid}");
    assert_eq!(paid["order_cents"]["cuts"], 0);
    let choices = paid["metals"][0]["choices"].as_array().unwrap();
    let by_price = choices.iter().filter(|choice| choice["cents"]["goods"] == 29_600);
    assert_eq!(by_price.count(), 1, "the mix that is cheaper by its sheets stands in the table: {paid}");
    // At 1.00 a cut, 298 against 300.
    let mut cheap = cut_or_whole();
    cheap["buying"]["cut_charge"] = json!(1);
    let paid = bought(&cheap, &[]);
    assert_eq!([&paid["order_cents"]["goods"], &paid["order_cents"]["cuts"]], [29_600, 200], "{paid}");
    // Up to a minimum of 310.00 whole sheets cost nothing more: 310 against 310 + 2.
    cheap["buying"]["minimum_charge"] = json!(310);
    let paid = bought(&cheap, &[]);
    assert_eq!([&paid["order_cents"]["goods"], &paid["order_cents"]["cuts"]], [30_000, 0], "{paid}");
}

#[test]
fn every_choice_shows_each_sum_of_its_order_in_text_and_in_the_packet() {
    let text = plateloft_on(&long_or_two(), &["buy"]).stdout;
    let heading = text.lines().find(|line| line.contains("long freight")).unwrap();
    for column in ["goods", "minimum", "cuts", "long freight", "delivery", "tax", "all"] {
        assert!(heading.contains(column), "{column}: {heading}");
    }
    // 390 + 40 + 10 and a tenth of it.
    let row = text.lines().find(|line| line.contains("96 × 96") && line.contains("390.00")).unwrap();
    let sums: Vec<&str> = row.split_whitespace().rev().take(7).collect();
    assert_eq!(sums, ["484.00", "44.00", "10.00", "40.00", "0.00", "0.00", "390.00"], "{row}");
    let folder = tempdir().unwrap();
    fs::write(folder.path().join("job.json"), long_or_two().to_string()).unwrap();
    let run = plateloft_in(folder.path(), &["packet", "job.json", "--out", "out"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let page = fs::read_to_string(folder.path().join("out/index.html")).unwrap();
    assert!(page.contains(">long freight<") && page.contains(">484.00<"), "the packet has no sums");
    assert!(page.contains("Scrap credit at"), "the packet has no scrap credit");
    let pdf = crate::written::pdf::leaves(&fs::read(folder.path().join("out/packet.pdf")).unwrap());
    let told = |words: &str| pdf.iter().flat_map(|leaf| &leaf.texts).any(|text| text.words.contains(words));
    assert!(told("484.00") && told("Scrap credit at"), "the PDF has no sums");
}

#[test]
fn what_is_not_proved_says_how_far_it_is_from_that() {
    // Inside its trim a sheet of 48 × 96 holds six of 30 × 22 1/2, so thirteen take three; by area two would nearly do.
    let mut thirteen = job();
    thirteen["parts"][0] =
        json!({ "mark": "P", "shape": "plate", "metal": "skin", "size": ["30", "22 1/2"], "quantity": 13 });
    let text = plateloft_on(&thirteen, &["buy"]).stdout;
    let all = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let proved = all.contains("fewer is excluded by the") || all.contains("no fewer can be");
    let open = all.contains("neither found nor excluded; fewer cannot be, by the")
        && all.contains("With half the gap around each the parts take");
    assert!(proved || open, "{text}");
    let folder = tempdir().unwrap();
    fs::write(folder.path().join("job.json"), thirteen.to_string()).unwrap();
    assert_eq!(plateloft_in(folder.path(), &["packet", "job.json", "--out", "out"]).code, 0);
    let page = fs::read_to_string(folder.path().join("out/index.html")).unwrap();
    let nest: Value =
        serde_json::from_str(&fs::read_to_string(folder.path().join("out/nest.json")).unwrap()).unwrap();
    let argument = nest["metals"][0]["comparison"][0]["least_sheets_proved_by"].as_str().unwrap();
    assert!(
        page.contains(&format!("is excluded by the {argument}")),
        "the argument is not the one that proved it"
    );
}

#[test]
fn whole_sheets_are_held_against_rectangles_cut_to_size() {
    let mut cut = job();
    cut["shop"]["kerf"] = json!("1/8");
    cut["buying"]["cut_to_size"] = json!({ "price": 5, "per": "lb", "cut_charge": 3, "allowance": "1/2" });
    let run = plateloft_on(&cut, &["buy"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    // Two of 21 × 11 at 2 lb/ft2: 462 in2 is 6.4167 lb, printed 6.42, at 5.00 32.10; two cuts at 3.00.
    let row = run.stdout.lines().find(|line| line.starts_with("2 of P")).unwrap();
    assert!(row.contains("21 × 11") && row.contains("32.10") && row.trim_end().ends_with("38.10"), "{row}");
    let all = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(all.contains("Whole sheets 200.00, no drop is kept: 200.00. Cut to size 38.10. Goods alone: cut to size is 161.90 less."), "{all}");
    let rates = "one round the flat and 1/2 in more at every edge. Metal is the printed weight × 5.00 a lb, cuts are 3.00 a rectangle.";
    assert!(all.contains(rates), "{all}");
    // 200 lifted to 250, freight of 40, delivery of 10, a tenth of tax; 38.10 lifted to 250, delivery, tax.
    assert!(all.contains("whole sheets 330.00, cut to size 286.00: cut to size is 44.00 less."), "{all}");
    let open = plateloft_on(&without(&cut, "buying.delivery"), &["buy"]).stdout;
    let open = open.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(open.contains("delivery and tax are in neither: they are not all set."), "{open}");
}

/// A piece of the rack is no gift: it is worth what the shop says a drop is worth, here as in the quote. 30 × 24 at 2 lb/ft2 is
/// 10 lb, at 1.00; nothing is bought, and two rectangles of 21 × 11 cost 38.08 as above.
#[test]
fn pieces_of_the_rack_are_held_against_rectangles_at_the_shop_s_own_rate() {
    let shop = tempdir().unwrap();
    let mut cut = job();
    cut["buying"]["cut_to_size"] = json!({ "price": 5, "per": "lb", "cut_charge": 3, "allowance": "1/2" });
    fs::write(shop.path().join("job.json"), cut.to_string()).unwrap();
    let add =
        ["rack", "add", "--mark", "R1", "--metal", "5052-H32", "--thickness", ".125", "--size", "30", "24"];
    let more = ["--place", "B3", "--date", "2026-03-04"];
    assert_eq!(plateloft_in(shop.path(), &[&add[..], &more].concat()).code, 0);
    let said = || {
        let run = plateloft_in(shop.path(), &["buy", "job.json", "--rack", "rack.json"]);
        assert_eq!(run.code, 0, "{}", run.stderr);
        run.stdout.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    assert!(said().contains("what 10.00 lb of pieces of the rack is worth must be said first"), "{}", said());
    cut["buying"]["drop_value"] = json!({ "price": 1, "per": "lb" });
    fs::write(shop.path().join("job.json"), cut.to_string()).unwrap();
    let told = "Whole sheets 0.00, and 10.00 for 10.00 lb of the rack, no drop is kept: 10.00. Cut to size 38.10. Goods alone: \
                whole sheets are 28.10 less.";
    assert!(said().contains(told), "{}", said());
    assert!(
        said().contains("whole sheets 0.00 and the pieces of the rack 10.00, cut to size 286.00"),
        "{}",
        said()
    );
    assert!(said().contains("take R1 of the rack"), "{}", said());
}

fn assert_adds_up(purchase: &Value) {
    let cents = |name: &str| purchase[name].as_i64().unwrap();
    let lines = purchase["lines"].as_array().unwrap().iter().map(|line| line.as_i64().unwrap());
    assert_eq!(lines.sum::<i64>(), cents("goods"));
    let parts = ["goods", "up_to_minimum", "cuts", "over_length", "delivery", "tax"];
    assert_eq!(parts.iter().map(|part| cents(part)).sum::<i64>(), cents("total"));
}

/// Sums say which currency they are in, or that nobody has said; the currency never changes a sum.
#[test]
fn money_says_its_currency_or_that_none_is_set() {
    let mut job: Value = serde_json::from_str(
        &fs::read_to_string(crate::program::top().join("fixtures/jobs/hatch-options.json")).unwrap(),
    )
    .unwrap();
    job.as_object_mut().unwrap().remove("currency");
    let said = |job: &Value, command: &str| {
        let run = plateloft_on(job, &[command]);
        assert_eq!(run.code, 0, "{}", run.stderr);
        run.stdout
    };
    let commands = ["buy", "quote", "scrap"];
    let unset = commands.map(|command| said(&job, command));
    job["currency"] = json!("USD");
    let set = commands.map(|command| said(&job, command));
    for (unset, set) in unset.iter().zip(&set) {
        assert!(unset.contains("Money is in the shop's own currency"), "{unset}");
        assert!(set.contains("Money is in USD.") && !set.contains("own currency"), "{set}");
    }
    assert!(set[0].contains("all, USD"), "{}", set[0]);
    assert!(set[1].contains("total, USD"), "{}", set[1]);
    let page = packet_of_job(&job, &[]);
    let page = std::str::from_utf8(&page["index.html"]).unwrap().to_owned();
    assert_eq!(
        page.matches("Money is in USD.").count(),
        4,
        "with sheets to buy and with scrap, on the screen and on leaves"
    );
    let wrong = ["", "a currency of thirteen letters"];
    for wrong in wrong {
        job["currency"] = json!(wrong);
        assert_eq!(plateloft_on(&job, &["buy"]).code, 2);
    }
}

/// What the job names beside sheets is on the list with its price, struts too.
#[test]
fn the_list_of_what_else_to_buy_has_prices_and_struts() {
    let page = |name: &str| {
        let packet = packet_of(&format!("fixtures/jobs/{name}.json"), &[]);
        std::str::from_utf8(&packet["index.html"]).unwrap().to_owned()
    };
    let skiff = page("oyster-skiff");
    assert!(skiff.contains("2 × flush ring pull, 316 at 19.50: 39.00"));
    let locker = page("litter-locker");
    assert!(locker.contains("2 × gas strut for LL, invented strut 16-7: no price given"));
    assert!(locker.contains("for LL: hinge, stays and latch: named with a weight only"));
}

/// Where a price is missing the search goes by area: nothing may be said of money then, whether the sheets that are used have
/// a price or not.
#[test]
fn nothing_is_proved_of_money_where_a_price_is_missing() {
    let mut open = job();
    open["sheets"] = json!([{ "metal": "skin", "size": ["48", "96"] }, { "metal": "skin", "size": ["60", "120"], "price": 330 }]);
    let priced_is_smaller = json!([
        { "metal": "skin", "size": ["48", "96"], "price": 200 }, { "metal": "skin", "size": ["60", "120"] }
    ]);
    let mut both = vec![open.clone()];
    open["sheets"] = priced_is_smaller;
    both.push(open.clone());
    open["sheets"] =
        json!([{ "metal": "skin", "size": ["48", "96"] }, { "metal": "skin", "size": ["60", "120"] }]);
    both.push(open);
    for job in both {
        let said = plateloft_on(&job, &["buy"]).stdout.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(
            said.contains("has less area. Nothing is proved of money: not every size has a price."),
            "{said}"
        );
        for claim in ["has a lower price", "price of sheets proved least", "no mix is cheaper"] {
            assert!(!said.contains(claim), "{claim}: {said}");
        }
        let packet = packet_of_job(&job, &[]);
        let page = std::str::from_utf8(&packet["index.html"]).unwrap();
        for claim in ["has a lower price", "price of sheets proved least", "no mix is cheaper"] {
            assert!(!page.contains(claim), "{claim}");
        }
        assert!(page.contains("or where not every size of a metal has a price their area"));
    }
}
