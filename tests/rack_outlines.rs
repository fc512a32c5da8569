//! Offcuts of outlines no rectangle holds: nested, summed up, given back and drawn, as whole commands.
#![expect(clippy::disallowed_methods, reason = "a test of a program that keeps a file writes and reads it")]

use std::fs;
use std::path::Path;

use serde_json::{Value, json};
use tempfile::tempdir;

use crate::program::plateloft_in;
use crate::rack::{L_SHAPE, RACK, SKIN, add, added, list, text};

/// A boat whose part is an L that only the corner of an L-shaped offcut, or a whole sheet, can give.
pub(crate) fn l_job(metal: &Value, part: &Value) -> Value {
    json!({
        "plateloft": 1, "job": "Boat", "units": "inch", "tape": "1/16",
        "shop": { "gap": "1/4", "edge_trim": "1/2", "kerf": "1/8", "keep_drop": ["6", "5"] },
        "metals": { "skin": metal },
        "sheets": [{ "metal": "skin", "size": ["48", "96"], "price": 210 }],
        "parts": [part]
    })
}

fn l_part(lay: Option<&str>) -> Value {
    let outline = json!([["0", "0"], ["22", "0"], ["22", "8"], ["9", "8"], ["9", "23"], ["0", "23"]]);
    let mut part = json!({ "mark": "P", "shape": "plate", "metal": "skin", "outline": outline });
    if let Some(lay) = lay {
        part["lay"] = json!(lay);
    }
    part
}

pub(crate) fn nested(folder: &Path) -> (Value, String) {
    let run = plateloft_in(folder, &["nest", "job.json", "--rack", RACK, "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    (serde_json::from_str(&run.stdout).unwrap(), run.stderr)
}

pub(crate) fn sheet_names(nest: &Value) -> Vec<String> {
    let sheets = nest["metals"][0]["sheets"].as_array().unwrap();
    sheets.iter().map(|sheet| sheet["sheet"].as_str().unwrap().to_owned()).collect()
}

/// A line of a scrap report's amounts, exact: square nanometres, micrograms or cents.
pub(crate) fn exact(amounts: &Value, line: &str, what: &str) -> i128 {
    let value = &amounts[line][what];
    value.as_str().map_or_else(|| i128::from(value.as_i64().unwrap()), |text| text.parse().unwrap())
}

/// Bought + of the rack = parts + kept drops + kerf + edge trim + scrap, exactly, in area, weight and money.
pub(crate) fn adds_up(amounts: &Value) {
    for what in ["exact_area", "exact_weight", "cents"] {
        let lines = ["parts", "kept_drops", "kerf", "edge_trim", "scrap"];
        let sum: i128 = lines.iter().map(|line| exact(amounts, line, what)).sum();
        assert_eq!(sum, exact(amounts, "bought", what) + exact(amounts, "from_rack", what), "{what}");
    }
}

#[test]
fn an_l_shaped_offcut_gives_a_part_that_no_rectangle_in_it_holds() {
    let shop = tempdir().unwrap();
    let skin = json!({ "alloy": "5052-H32", "thickness": ".125" });
    fs::write(shop.path().join("job.json"), l_job(&skin, &l_part(None)).to_string()).unwrap();
    added(shop.path(), "L", &L_SHAPE);
    let (nest, _) = nested(shop.path());
    assert_eq!(sheet_names(&nest), ["skin-1 (L of the rack, 24 × 30 over all, 6 corners)"]);
    let sheet = &nest["metals"][0]["sheets"][0];
    assert_eq!(sheet["outline"].as_array().unwrap().len(), 6);
    // The part is 22 × 23, and no rectangle of the offcut is wider than 10: it reaches round the inner corner.
    let datum = &sheet["pieces"][0]["datum"];
    let [x, y] = [0, 1].map(|axis| datum[axis].as_f64().unwrap());
    assert!((0.5..=0.5005).contains(&x) && (0.5..=0.5005).contains(&y), "{datum}");
    let cuts = sheet["cuts"].to_string();
    assert!(!cuts.contains("from the left edge"), "{cuts}");
    // Without the rack, or with a wider part, a sheet is bought.
    let mut wide = l_part(None);
    wide["outline"][4][0] = json!("10");
    wide["outline"][3][0] = json!("10");
    fs::write(shop.path().join("job.json"), l_job(&skin, &wide).to_string()).unwrap();
    assert_eq!(sheet_names(&nested(shop.path()).0), ["skin-1 (48 × 96)"]);
}

#[test]
fn what_becomes_of_an_offcut_adds_up_exactly_and_its_drop_goes_back() {
    let shop = tempdir().unwrap();
    let skin = json!({ "alloy": "5052-H32", "thickness": ".125" });
    let part = json!({ "mark": "P", "shape": "plate", "metal": "skin", "size": ["22", "8"] });
    fs::write(shop.path().join("job.json"), l_job(&skin, &part).to_string()).unwrap();
    added(shop.path(), "L", &[&L_SHAPE[..], &["--face", "scratched", "--lay", "along-x"]].concat());
    let run = plateloft_in(shop.path(), &["scrap", "job.json", "--rack", RACK, "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let report: Value = serde_json::from_str(&run.stdout).unwrap();
    let amounts = &report["sheets"][0]["amounts"];
    let exact = |line: &str, what: &str| exact(amounts, line, what);
    // 30 × 10 + 10 × 14 = 440 in², in square nanometres: the offcut, and not the 24 × 30 around it.
    assert_eq!(exact("from_rack", "exact_area"), 440 * 25_400_000 * 25_400_000);
    assert_eq!(exact("bought", "exact_area"), 0);
    adds_up(amounts);
    // The trim runs beside the part, 24 high and twice to the cut at 8 9/16; beyond that it comes off with the drop.
    let square_inches = |line: &str| exact(line, "exact_area") as f64 / 25.4e6 / 25.4e6;
    let beside = 24.0 * 0.5 + 2.0 * 0.5 * 8.0625;
    let kerf_in_trim = beside - square_inches("edge_trim");
    assert!((0.0..4.0).contains(&kerf_in_trim), "{kerf_in_trim}");
    assert!(0.0 < square_inches("kept_drops"), "{amounts}");
    let words =
        ["rack", "return", "--drops-of", "job.json", "--rack-first", "--place", "B3", "--date", "2026-03-05"];
    let early = plateloft_in(shop.path(), &words);
    assert!(early.code == 2 && early.stderr.contains("the plan cuts from L of the rack"), "{}", early.stderr);
    assert_eq!(plateloft_in(shop.path(), &["rack", "take", "L", "--job", "Boat"]).code, 0);
    let run = plateloft_in(shop.path(), &words);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let there = list(shop.path(), &[]);
    let drop = &there[0];
    assert!(there.len() == 1 && drop["from_job"] == "Boat", "{there:?}");
    // It is as thick as the offcut measured, and its face and lay are the offcut's.
    assert!(drop["thickness"] == "0.126 in" && drop["measured"] == true, "{drop}");
    assert_eq!(drop["state"], "face scratched, no film, lay along x");
    let area: i128 = drop["exact_area"].as_str().unwrap().parse().unwrap();
    // The part lies upright, its 8 from 1/2 to 8 1/2; the cut takes 8 9/16 to 8 11/16. Of 440 in² it leaves all beyond that, 24 high
    // before it; just that is in the report.
    let left = (440.0 - 24.0 * 8.6875) * 25.4e6 * 25.4e6;
    assert!((area as f64 - left).abs() < 25.4e6 * 25.4e6 / 1e6, "{drop}");
    assert_eq!(exact("kept_drops", "exact_area"), area, "{amounts}");
    // What was cut up does not come back whole, too.
    assert_eq!(drop["cut_from"], "L");
    let before = text(shop.path(), RACK);
    let whole = plateloft_in(shop.path(), &["rack", "return", "l"]);
    let told = "rack return: l: was cut up: what was left of it is in the rack as Boat skin-1 d1\n    leave it taken";
    assert!(whole.code == 2 && whole.stderr.contains(told), "{}", whole.stderr);
    assert_eq!(text(shop.path(), RACK), before);
}

/// A piece of which nothing is left was cut all the same, when the drops of its job are there.
#[test]
fn a_piece_cut_up_without_a_drop_does_not_come_back_whole() {
    let shop = tempdir().unwrap();
    added(shop.path(), "R1", &["--size", "30", "24"]);
    assert_eq!(plateloft_in(shop.path(), &["rack", "take", "R1", "--job", "Boat"]).code, 0);
    added(shop.path(), "D1", &["--size", "20", "24", "--from-job", "Boat"]);
    let before = text(shop.path(), RACK);
    let run = plateloft_in(shop.path(), &["rack", "return", "R1"]);
    let told = "rack return: R1: was taken for Boat, and drops of that job are in the rack since: D1\n    leave it taken";
    assert!(run.code == 2 && run.stderr.contains(told), "{}", run.stderr);
    assert_eq!(text(shop.path(), RACK), before);
}

#[test]
fn what_is_left_of_a_piece_is_told_by_hand_too() {
    let shop = tempdir().unwrap();
    added(shop.path(), "R1", &["--size", "30", "24"]);
    let left =
        |of: &str| add(shop.path(), "R2", &[&SKIN[..], &["--size", "12", "24", "--cut-from", of]].concat());
    let there = left("R1");
    assert!(
        there.code == 2 && there.stderr.contains("R1: stands in the rack, free\n    take it first"),
        "{}",
        there.stderr
    );
    assert_eq!(plateloft_in(shop.path(), &["rack", "take", "R1", "--job", "Boat"]).code, 0);
    assert_eq!(left("R9").code, 2);
    assert_eq!(left("R1").code, 0);
    let whole = plateloft_in(shop.path(), &["rack", "return", "R1"]);
    assert!(whole.code == 2 && whole.stderr.contains("in the rack as R2"), "{}", whole.stderr);
}

#[test]
fn an_outline_is_laid_by_its_lay_and_never_mirrored() {
    let shop = tempdir().unwrap();
    let tread = json!({ "alloy": "3003-H22", "pattern": "tread", "thickness": ".125", "weight": "1.95 lb/ft2", "lay": "long side" });
    let outline = json!([["0", "0"], ["23", "0"], ["23", "22"], ["15", "22"], ["15", "9"], ["0", "9"]]);
    let part = json!({ "mark": "P", "shape": "plate", "metal": "skin", "outline": outline, "lay": "along" });
    fs::write(shop.path().join("job.json"), l_job(&tread, &part).to_string()).unwrap();
    let piece = ["--metal", "3003-H22", "--tread", "--thickness", ".125", "--lay", "along-y"];
    assert_eq!(add(shop.path(), "L", &[&piece[..], &L_SHAPE].concat()).code, 0);
    // The part is the offcut's shape a quarter turn to the right, less its edges.
    let (nest, told) = nested(shop.path());
    assert_eq!(sheet_names(&nest), ["skin-1 (L of the rack, 24 × 30 over all, 6 corners)"], "{told}");
    assert!(told.contains("L is laid a quarter turn to the right of how it was measured"), "{told}");
    // Its mirror image does not fit, though it would fit the offcut turned over.
    let mirrored = json!([["0", "0"], ["23", "0"], ["23", "9"], ["8", "9"], ["8", "22"], ["0", "22"]]);
    let other =
        json!({ "mark": "P", "shape": "plate", "metal": "skin", "outline": mirrored, "lay": "along" });
    fs::write(shop.path().join("job.json"), l_job(&tread, &other).to_string()).unwrap();
    assert_eq!(sheet_names(&nested(shop.path()).0), ["skin-1 (48 × 96)"]);
}

#[test]
fn outlines_of_another_metal_or_with_a_bad_face_are_never_cut() {
    let shop = tempdir().unwrap();
    let skin = json!({ "alloy": "5052-H32", "thickness": ".125", "film": "one side" });
    fs::write(shop.path().join("job.json"), l_job(&skin, &l_part(None)).to_string()).unwrap();
    let bad: [(&str, &[&str]); 5] = [
        (
            "marred",
            &["--metal", "5052-H32", "--thickness", ".125", "--face", "scratched", "--film", "one-side"],
        ),
        ("unseen", &["--metal", "5052-H32", "--thickness", ".125", "--film", "one-side"]),
        ("other", &["--metal", "6061-T6", "--thickness", ".125", "--face", "good", "--film", "one-side"]),
        ("temper", &["--metal", "5052-H34", "--thickness", ".125", "--face", "good", "--film", "one-side"]),
        ("thin", &["--metal", "5052-H32", "--thickness", ".100", "--face", "good", "--film", "one-side"]),
    ];
    for (mark, piece) in bad {
        assert_eq!(add(shop.path(), mark, &[piece, &L_SHAPE].concat()).code, 0, "{mark}");
    }
    assert_eq!(sheet_names(&nested(shop.path()).0), ["skin-1 (48 × 96)"]);
    let good = ["--metal", "5052-H32", "--thickness", ".125", "--face", "good", "--film", "one-side"];
    assert_eq!(add(shop.path(), "good", &[&good[..], &L_SHAPE].concat()).code, 0);
    assert_eq!(
        sheet_names(&nested(shop.path()).0),
        ["skin-1 (good of the rack, 24 × 30 over all, 6 corners)"]
    );
}

#[test]
fn the_map_of_an_offcut_shows_its_outline_and_what_is_missing() {
    let shop = tempdir().unwrap();
    let skin = json!({ "alloy": "5052-H32", "thickness": ".125" });
    fs::write(shop.path().join("job.json"), l_job(&skin, &l_part(None)).to_string()).unwrap();
    added(shop.path(), "L", &L_SHAPE);
    let run = plateloft_in(shop.path(), &["packet", "job.json", "--rack", RACK, "--out", "out"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let svg = text(shop.path(), "out/sheets/skin-1.svg");
    let document = roxmltree::Document::parse(&svg).unwrap();
    let said: Vec<&str> = document.descendants().filter_map(|node| node.text()).collect();
    for told in ["no metal: outside the offcut, or a hole in it", "10", "24", "30"] {
        assert!(said.contains(&told), "{told}: {said:?}");
    }
    let page = text(shop.path(), "out/index.html");
    assert!(
        page.contains("from the left side of the rectangle around it")
            || page.contains("up from the lower side of the rectangle around it")
    );
}
