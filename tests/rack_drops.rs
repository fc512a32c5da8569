//! What goes back to the rack is the metal that is left, by its real edges.
#![expect(clippy::disallowed_methods, reason = "a test of a program that keeps a file writes and reads it")]

use std::fs;

use serde_json::{Value, json};
use tempfile::tempdir;

use crate::program::plateloft_in;
use crate::rack::{L_SHAPE, added, list, text};
use crate::rack_outlines::{l_job, nested, sheet_names};

/// The outline of a piece in inches.
fn outline_inches(piece: &Value) -> Vec<[f64; 2]> {
    let inches = |text: &Value| {
        let (number, unit) = text.as_str().unwrap().split_once(' ').unwrap();
        number.parse::<f64>().unwrap() / if unit == "mm" { 25.4 } else { 1.0 }
    };
    let corners = piece["outline"].as_array().unwrap().iter();
    corners.map(|corner| [inches(&corner[0]), inches(&corner[1])]).collect()
}

/// True where two outlines have the same corners in the same order, whichever is the first.
fn same_outline(found: &[[f64; 2]], wanted: &[[f64; 2]]) -> bool {
    let near = |a: &[f64; 2], b: &[f64; 2]| (0..2).all(|axis| (a[axis] - b[axis]).abs() < 1e-6);
    found.len() == wanted.len()
        && (0..wanted.len()).any(|first| {
            let turned = wanted.iter().cycle().skip(first);
            found.iter().zip(turned).all(|(a, b)| near(a, b))
        })
}

/// A part of 34 × 46 ends at 34 1/2; the cut runs in the gap of 1/4 behind it, its middle at 34 5/8, and takes 1/8. What is
/// left begins at 34 11/16 and runs to the sheet's own edges, which nobody trimmed: 61 5/16 × 48.
#[test]
fn a_drop_comes_back_as_the_piece_of_metal_that_is_left() {
    let shop = tempdir().unwrap();
    let skin = json!({ "alloy": "5052-H32", "thickness": ".125" });
    let part = json!({ "mark": "P", "shape": "plate", "metal": "skin", "size": ["34", "46"] });
    fs::write(shop.path().join("job.json"), l_job(&skin, &part).to_string()).unwrap();
    let words = ["rack", "return", "--drops-of", "job.json", "--place", "B3", "--date", "2026-03-05"];
    let run = plateloft_in(shop.path(), &words);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let there = list(shop.path(), &[]);
    assert_eq!(there.len(), 1);
    let wanted = [[0.0, 0.0], [61.3125, 0.0], [61.3125, 48.0], [0.0, 48.0]];
    assert!(same_outline(&outline_inches(&there[0]), &wanted), "{}", there[0]["outline"]);
    assert_eq!(there[0]["note"], "right, lower and upper edges as they came, not trimmed");
    // The packet's label says the same, and so does the map.
    assert_eq!(plateloft_in(shop.path(), &["packet", "job.json", "--out", "out"]).code, 0);
    let page = text(shop.path(), "out/index.html");
    assert!(page.contains("61 5/16 × 48 whole, 60 3/4 × 47 usable"), "the packet says something else");
    // Cut from the rack, it is trimmed once: what of it can be used is 60 5/16 × 47, as long as the trim is 1/2.
    let second = json!({ "mark": "Q", "shape": "plate", "metal": "skin", "size": ["60 1/4", "47"] });
    fs::write(shop.path().join("job.json"), l_job(&skin, &second).to_string()).unwrap();
    assert!(sheet_names(&nested(shop.path()).0)[0].contains("d1 of the rack"));
}

/// A part of 22 × 8 lies in the upright of an L, 10 × 24; the cut beside it takes 8 9/16 to 8 11/16, right across. What is left
/// is the foot and the strip of the upright beside the cut: every edge but the left one is the offcut's own.
#[test]
fn what_is_left_of_an_offcut_has_its_real_outline() {
    let shop = tempdir().unwrap();
    let skin = json!({ "alloy": "5052-H32", "thickness": ".125" });
    let part = json!({ "mark": "P", "shape": "plate", "metal": "skin", "size": ["22", "8"] });
    fs::write(shop.path().join("job.json"), l_job(&skin, &part).to_string()).unwrap();
    added(shop.path(), "L", &[&L_SHAPE[..], &["--lay", "along-x"]].concat());
    assert_eq!(plateloft_in(shop.path(), &["rack", "take", "L", "--job", "Boat"]).code, 0);
    let words =
        ["rack", "return", "--drops-of", "job.json", "--rack-first", "--place", "B3", "--date", "2026-03-05"];
    let run = plateloft_in(shop.path(), &words);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let there = list(shop.path(), &[]);
    let (strip, foot) = (10.0 - 8.6875, 30.0 - 8.6875);
    let wanted = [[0.0, 0.0], [foot, 0.0], [foot, 10.0], [strip, 10.0], [strip, 24.0], [0.0, 24.0]];
    assert!(same_outline(&outline_inches(&there[0]), &wanted), "{}", there[0]["outline"]);
}

/// A frame of 46 × 47 with a cut-out of 40 × 30: the saw takes its 1/8 inside the lines, so 39 3/4 × 29 3/4 fall out of it, come back,
/// and are no scrap.
#[test]
fn what_falls_out_of_a_part_comes_back() {
    let shop = tempdir().unwrap();
    let skin = json!({ "alloy": "5052-H32", "thickness": ".125", "turns": "half" });
    let part = json!({
        "mark": "F", "shape": "plate", "metal": "skin", "size": ["47", "46"],
        "holes": [{ "at": ["23 1/2", "23"], "cut_out": ["40", "30"] }]
    });
    let mut job = l_job(&skin, &part);
    job["sheets"] = json!([{ "metal": "skin", "size": ["48", "48"], "price": 120 }]);
    fs::write(shop.path().join("job.json"), job.to_string()).unwrap();
    let run = plateloft_in(shop.path(), &["scrap", "job.json", "--json"]);
    let report: Value = serde_json::from_str(&run.stdout).unwrap();
    let exact =
        |line: &str| -> i128 { report["total"][line]["exact_area"].as_str().unwrap().parse().unwrap() };
    // Sixteenths of an inch squared: 636 × 476.
    assert_eq!(exact("kept_drops"), 636 * 476 * 1_587_500 * 1_587_500, "{report}");
    let lines = ["parts", "kept_drops", "kerf", "edge_trim", "scrap"];
    assert_eq!(lines.iter().map(|line| exact(line)).sum::<i128>(), exact("bought"));
    let words = ["rack", "return", "--drops-of", "job.json", "--place", "B3", "--date", "2026-03-05"];
    let run = plateloft_in(shop.path(), &words);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let there = list(shop.path(), &[]);
    let wanted = [[0.0, 0.0], [39.75, 0.0], [39.75, 29.75], [0.0, 29.75]];
    assert_eq!(there.len(), 1);
    assert!(same_outline(&outline_inches(&there[0]), &wanted), "{}", there[0]["outline"]);
}
