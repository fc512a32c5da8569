//! Pieces that fill a sheet, a stick or a roll to the last sixteenth, and mixes of sheets that an order makes dearer. All sums
//! can be redone by hand.

use serde_json::{Value, json};

use crate::program::plateloft_on;

fn job(more: Value) -> Value {
    let mut job = json!({
        "plateloft": 1, "job": "To the last sixteenth", "date": "2026-03-04", "units": "inch", "tape": "1/16",
        "shop": { "gap": "1/8", "kerf": "1/8", "edge_trim": "0" },
    });
    if let (Value::Object(job), Value::Object(more)) = (&mut job, more) {
        job.extend(more);
    }
    job
}

fn plates(size: [&str; 2], quantity: u32) -> Value {
    job(json!({
        "metals": { "m": { "alloy": "5052-H32", "thickness": ".090" } },
        "sheets": [{ "metal": "m", "size": ["48", "96"], "price": 100 }],
        "parts": [{ "mark": "P", "shape": "plate", "metal": "m", "size": size, "quantity": quantity }],
    }))
}

fn answer(job: &Value, command: &str) -> Value {
    let run = plateloft_on(job, &[command, "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    serde_json::from_str(&run.stdout).unwrap()
}

fn sheets(job: &Value) -> usize {
    answer(job, "nest")["metals"][0]["sheets"].as_array().unwrap().len()
}

#[test]
fn two_halves_and_a_kerf_are_one_stick() {
    let bars = |length: &str| {
        job(json!({ "bars": [{
            "bar": "1 1/2 pipe", "kerf": "1/8",
            "sticks": [{ "length": "12'", "price": 40 }],
            "pieces": [{ "mark": "h", "length": length, "quantity": 2 }],
        }] }))
    };
    // 71 15/16 + 1/8 + 71 15/16 = 144; a 64th more in each is too much.
    assert!(
        plateloft_on(&bars("71 15/16"), &["bars"]).stdout.contains("1 stick: 1 of 144; 40.00, proved least")
    );
    assert!(
        plateloft_on(&bars("71 61/64"), &["bars"]).stdout.contains("2 sticks: 2 of 144; 80.00, proved least")
    );
}

#[test]
fn two_halves_and_a_gap_are_one_sheet() {
    assert_eq!(sheets(&plates(["47 15/16", "48"], 2)), 1);
    assert_eq!(sheets(&plates(["47 61/64", "48"], 2)), 2);
}

#[test]
fn a_part_as_large_as_the_trimmed_sheet_fits_it() {
    for trim in ["1/16", "3/16", "7/16"] {
        let mut whole = plates(["47 7/8", "95 7/8"], 1);
        whole["shop"]["edge_trim"] = json!("1/16");
        whole["parts"][0]["size"] = match trim {
            "1/16" => json!(["47 7/8", "95 7/8"]),
            "3/16" => json!(["47 5/8", "95 5/8"]),
            _ => json!(["47 1/8", "95 1/8"]),
        };
        whole["shop"]["edge_trim"] = json!(trim);
        assert_eq!(sheets(&whole), 1, "{trim}");
    }
}

/// Plates with slanted sides that reach all four edges of the trimmed sheet, 95 × 47.
#[test]
fn a_slanted_part_as_large_as_the_trimmed_sheet_fits_it() {
    let outlines = [
        json!([["0", "0"], ["95", "3"], ["95", "40"], ["0", "47"]]),
        json!([["0", "0"], ["95", "0"], ["0", "47"]]),
        json!([["0", "5/64"], ["95", "0"], ["93.335", "47"]]),
    ];
    for outline in outlines {
        let mut slanted = plates(["1", "1"], 1);
        slanted["shop"]["edge_trim"] = json!("1/2");
        slanted["parts"][0] =
            json!({ "mark": "P", "shape": "plate", "metal": "m", "quantity": 1, "outline": outline });
        assert_eq!(sheets(&slanted), 1, "{outline}");
    }
}

/// Corners that are no whole steps of the grid: a plate whose points touch all four edges of the trimmed sheet, and discs, one of
/// chords outside its round. A thousandth more is too much.
#[test]
fn what_touches_all_edges_with_odd_corners_fits_and_no_more() {
    let fits = |part: Value, trim: &str| -> bool {
        let mut job = plates(["1", "1"], 1);
        job["shop"]["edge_trim"] = json!(trim);
        job["sheets"][0]["size"] = json!(["48", "48"]);
        job["metals"]["m"]["turns"] = json!("quarter");
        job["parts"][0] = part;
        let run = plateloft_on(&job, &["nest"]);
        assert!(run.code == 0 || run.stderr.contains("fits no sheet"), "{}", run.stderr);
        run.code == 0
    };
    let pointed = |right: &str| {
        let outline =
            json!([["0", "17.12345678"], ["31.00000017", "0"], [right, "29.7654321"], ["13.3333333", "47"]]);
        json!({ "mark": "P", "shape": "plate", "metal": "m", "outline": outline })
    };
    let disc = |diameter: &str| json!({ "mark": "P", "shape": "plate", "metal": "m", "diameter": diameter });
    assert!(fits(pointed("47"), "1/2"));
    assert!(!fits(pointed("47.001"), "1/2"));
    assert!(fits(disc("47"), "1/2"));
    assert!(!fits(disc("47.001"), "1/2"));
}

#[test]
fn two_halves_lie_side_by_side_on_a_roll() {
    let mat = |across: &str| {
        job(json!({ "coverings": [{
            "covering": "mat", "width": "71 7/8",
            "pieces": [{ "mark": "A", "size": ["40", across], "quantity": 2 }],
        }] }))
    };
    assert!(plateloft_on(&mat("35 15/16"), &["coverings"]).stdout.contains("used 40 in, proved least"));
    assert!(plateloft_on(&mat("36"), &["coverings"]).stdout.contains("used 80 in, proved least"));
}

#[test]
fn nine_in_rows_and_columns_fill_a_sheet() {
    let mut grid = plates(["31 1/2", "15 1/2"], 9);
    grid["shop"] = json!({ "gap": "1/4", "kerf": "1/8", "edge_trim": "1/2" });
    // 3 × 31 1/2 + 2 × 1/4 = 95 and 3 × 15 1/2 + 2 × 1/4 = 47.
    assert_eq!(sheets(&grid), 1);
}

#[test]
fn sheets_that_cost_nothing_are_not_wasted() {
    let mut given = plates(["45", "20"], 8);
    let priced = sheets(&given);
    given["sheets"][0]["price"] = json!(0);
    assert_eq!(sheets(&given), priced);
}

#[test]
fn a_mix_is_chosen_by_what_the_whole_order_comes_to() {
    let mut mix = plates(["45", "20"], 6);
    mix["shop"] = json!({ "gap": "1/4", "kerf": "1/8", "edge_trim": "1/2" });
    mix["sheets"] = json!([
        { "metal": "m", "size": ["48", "96"], "price": 200 },
        { "metal": "m", "size": ["48", "48"], "price": 130 },
        { "metal": "m", "size": ["48", "120"], "price": 150 },
    ]);
    mix["buying"] = json!({
        "minimum_charge": 0, "delivery": 0, "tax": 0, "cut_charge": 0,
        "over_length": { "longer_than": "100", "freight": 300 },
    });
    // Four on a 48 × 96 and two on a 48 × 48: 330. With a 48 × 120 the sheets are 280, but the carrier takes 300.
    let chosen = |job: &Value| {
        let bought = answer(job, "buy");
        let lines = bought["order"].as_array().unwrap();
        let cents = |line: &Value| line["quantity"].as_i64().unwrap() * line["each_cents"].as_i64().unwrap();
        (lines.len(), lines.iter().map(cents).sum::<i64>())
    };
    assert_eq!(chosen(&mix), (2, 33_000));
    mix["buying"]["over_length"]["freight"] = json!(20);
    assert_eq!(chosen(&mix), (2, 28_000));
}

#[test]
fn a_walk_weighs_all_its_panels_among_the_loads() {
    let walk = job(json!({
        "metals": { "t": { "alloy": "3003-H22", "pattern": "tread", "thickness": ".125", "weight": "1.95 lb/ft2", "lay": "long side" } },
        "sheets": [{ "metal": "t", "size": ["48", "96"], "price": 228 }],
        "parts": [{
            "mark": "WK", "shape": "walk", "metal": "t", "length": "20'", "width": "22",
            "beams": "20", "joint": "1/4", "heaviest": "18 lb",
        }],
        "weights": { "stations": [{ "name": "boat", "datum": "transom", "loads": [{ "part": "WK", "at": "150" }] }] },
    }));
    let weights = answer(&walk, "weights");
    let panels: f64 =
        weights["parts"].as_array().unwrap().iter().filter_map(|part| part["all"].as_f64()).sum();
    let load = weights["stations"][0]["loads"][0]["weight"].as_f64().unwrap();
    assert!(60.0 < panels && (panels - load).abs() < 1e-9, "{weights}");
}

/// `check` says what any other command would refuse, here a piece longer than its stick.
#[test]
fn a_job_that_is_sound_is_refused_by_no_other_command() {
    let both = job(json!({
        "metals": { "m": { "alloy": "5052-H32", "thickness": ".090" } },
        "sheets": [{ "metal": "m", "size": ["48", "96"], "price": 100 }],
        "parts": [{ "mark": "P", "shape": "plate", "metal": "m", "size": ["20", "10"] }],
        "bars": [{ "bar": "pipe", "kerf": "1/8", "sticks": [{ "length": "20'" }], "pieces": [{ "mark": "r", "length": "21'" }] }],
    }));
    let run = plateloft_on(&both, &["check"]);
    assert_eq!(run.code, 2, "{}", run.stdout);
    assert!(run.stderr.contains("is longer than any stick"), "{}", run.stderr);
}

/// A mix that takes no more than sheets of one size has no row of its own: what is proved of it stands in that size's row, with
/// the least that any mix can cost beneath the table, in the text and on paper; `buy` has a row for both.
#[test]
fn what_is_proved_of_a_mix_is_told_where_it_is_one_size() {
    let sizes = json!([
        { "metal": "m", "size": ["48", "96"], "price": 200 },
        { "metal": "m", "size": ["48", "48"], "price": 210 },
    ]);
    // One plate of 40 × 40 can be had for 200 and nothing less.
    let mut proved = plates(["40", "40"], 1);
    proved["sheets"] = sizes.clone();
    let text = plateloft_on(&proved, &["nest"]).stdout;
    assert!(text.contains("48 × 96  1 sheet, proved least; no mix is cheaper, proved  "), "{text}");
    // Braces have the area of two sheets and come to three, which no bound proves to be the least.
    let mut open = plates(["1", "1"], 1);
    open["shop"]["nesting"] = json!({ "evaluations": 200 });
    open["sheets"] = sizes;
    let outline = json!([["0", "0"], ["40", "0"], ["7", "35"]]);
    open["parts"][0] =
        json!({ "mark": "K", "shape": "plate", "metal": "m", "quantity": 9, "outline": outline });
    let rows = answer(&open, "nest")["metals"][0]["comparison"].as_array().unwrap().clone();
    let mix = rows.iter().find(|row| row["mix"] == true).unwrap();
    let alone = rows.iter().find(|row| row["mix"] == false && row["of_each_size"] == mix["of_each_size"]);
    assert!(alone.is_some() && mix["least_price_of_these_sizes_proved"] == false, "{rows:?}");
    let least = mix["least_cents_of_these_sizes"].as_i64().unwrap();
    let told = format!(
        "48 × 96: no cheaper mix was found; none can cost less than {}.{:02}, as far as proved.",
        least / 100,
        least % 100
    );
    let in_one_line = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let text = in_one_line(&plateloft_on(&open, &["nest"]).stdout);
    // The cell is broken behind these words.
    assert!(text.contains("; a cheaper mix is "), "{text}");
    assert!(text.contains(&told), "{text}");
    let of_free = "room of what costs nothing that holds no part: a price between the two is not excluded";
    assert!(!text.contains(of_free), "{text}");
    let mut with_free = open.clone();
    let offcut = json!({ "metal": "m", "size": ["20", "20"], "price": 0, "count": 1 });
    with_free["sheets"].as_array_mut().unwrap().push(offcut);
    let told_of_it = in_one_line(&plateloft_on(&with_free, &["nest"]).stdout);
    assert!(told_of_it.contains(of_free), "{told_of_it}");
    let bought = in_one_line(&plateloft_on(&open, &["buy"]).stdout);
    let of_mix = told.replace("48 × 96:", "best mix: 3 of 48 × 96:");
    assert!(bought.contains(&of_mix), "{of_mix} {bought}");
}
