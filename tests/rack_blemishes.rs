//! Offcuts with holes and torn zones as whole commands: kept, refused, nested around, drawn, and back in the rack.
#![expect(clippy::disallowed_methods, reason = "a test of a program that keeps a file writes and reads it")]

use std::fs;
use std::path::Path;

use serde_json::{Value, json};
use tempfile::tempdir;

use crate::program::plateloft_in;
use crate::rack::{RACK, SKIN, add, added, list, marks, text};
use crate::rack_labels::label_words;
use crate::rack_outlines::{adds_up, exact, l_job, nested, sheet_names};

/// A plate of 30 × 24 with a hole of 4 × 2 near its upper end and a tear along its lower edge.
const BLEMISHED: [&str; 37] = [
    "--size",
    "30",
    "24",
    "--hole",
    "1",
    "13",
    "19",
    "--hole",
    "1",
    "17",
    "19",
    "--hole",
    "1",
    "17",
    "21",
    "--hole",
    "1",
    "13",
    "21",
    "--torn",
    "a",
    "20",
    "0",
    "--torn",
    "a",
    "26",
    "0",
    "--torn",
    "a",
    "23",
    "3",
    "--torn-why",
    "a",
    "creased by a strap",
    "--face",
    "good",
    "--film",
];

fn blemished(folder: &Path) {
    added(folder, "B", &[&BLEMISHED[..], &["one-side", "--lay", "none"]].concat());
}

#[test]
fn a_piece_keeps_its_holes_and_what_of_it_is_torn() {
    let shop = tempdir().unwrap();
    blemished(shop.path());
    let piece = &list(shop.path(), &[])[0];
    assert_eq!(piece["holes"][0][2], json!(["17 in", "21 in"]));
    assert_eq!(piece["torn"][0]["outline"][2], json!(["23 in", "3 in"]));
    assert_eq!(piece["torn"][0]["why"], "creased by a strap");
    assert_eq!(piece["rectangle"], false);
    // The hole is no metal, the tear is: 30 × 24 − 4 × 2 = 712 in².
    assert_eq!(piece["exact_area"], (712_i128 * 25_400_000 * 25_400_000).to_string());
    let run = plateloft_in(shop.path(), &["rack", "list"]);
    let told = "30 × 24 over all, 4 corners, 1 hole, 1 torn zone, 4.944 ft2";
    assert!(
        run.stdout.contains(told) && run.stdout.contains("; not to be used: creased by a strap"),
        "{}",
        run.stdout
    );
    // Between the tear and the hole 16 are left, above the tear 21 beside the hole.
    assert_eq!(marks(&list(shop.path(), &["--holds", "30", "16"])), ["B"]);
    assert_eq!(marks(&list(shop.path(), &["--holds", "30", "16.1"])), [""; 0]);
    assert_eq!(marks(&list(shop.path(), &["--holds", "13", "24"])), ["B"]);
    // What was written is read again, and a rack that was written before there were holes still is.
    let whole = text(shop.path(), RACK);
    let older = whole.split(",\"holes\"").next().unwrap().to_owned()
        + ",\"film\""
        + whole.split("\"film\"").nth(1).unwrap();
    fs::write(shop.path().join(RACK), older).unwrap();
    let piece = &list(shop.path(), &[])[0];
    assert!(
        piece["rectangle"] == true && piece["holes"] == json!([]) && piece["torn"] == json!([]),
        "{piece}"
    );
}

#[test]
fn holes_and_zones_that_cannot_be_are_refused_with_where() {
    let shop = tempdir().unwrap();
    let square = |option: &'static str, name: &'static str, [x, y, size]: [f64; 3]| -> Vec<String> {
        let corners = [(x, y), (x + size, y), (x + size, y + size), (x, y + size)];
        let corner = |(x, y): (f64, f64)| [option.to_owned(), name.to_owned(), x.to_string(), y.to_string()];
        corners.into_iter().flat_map(corner).collect()
    };
    let why = || vec!["--torn-why".to_owned(), "a".to_owned(), "creased".to_owned()];
    let cases: [(Vec<String>, &str); 9] = [
        (square("--hole", "1", [28.0, 5.0, 4.0]), "--hole 1: 4 corners: edge 1 meets edge 2 of the outline"),
        (square("--hole", "1", [26.0, 5.0, 4.0]), "--hole 1: 4 corners: edge 1 meets edge 2 of the outline"),
        (
            square("--hole", "1", [40.0, 5.0, 4.0]),
            "--hole 1: 4 corners: lies outside the outline of the piece",
        ),
        (
            [square("--hole", "1", [4.0, 5.0, 4.0]), square("--hole", "2", [5.0, 6.0, 1.0])].concat(),
            "--hole 2: 4 corners: meets hole 1",
        ),
        (
            ["--hole", "1", "1", "1", "--hole", "1", "2", "2"].map(str::to_owned).to_vec(),
            "--hole 1: 2 corners: is no outline",
        ),
        (
            [square("--torn", "a", [28.0, 5.0, 4.0]), why()].concat(),
            "--torn 1: 4 corners: reaches beyond the outline",
        ),
        (square("--torn", "a", [2.0, 5.0, 4.0]), "--torn: a: nothing says why it may not be used"),
        (why(), "--torn-why: a: there is no such zone"),
        (
            [
                square("--torn", "a", [2.0, 5.0, 4.0]),
                vec!["--torn-why".to_owned(), "a".to_owned(), " ".to_owned()],
            ]
            .concat(),
            "--torn-why 1:",
        ),
    ];
    for (given, told) in cases {
        let given: Vec<&str> = given.iter().map(String::as_str).collect();
        let run = add(shop.path(), "B", &[&SKIN[..], &["--size", "30", "24"], &given].concat());
        assert_eq!(run.code, 2, "{told}: {}", run.stdout);
        assert!(run.stderr.contains(told), "{told}: {}", run.stderr);
        assert!(!shop.path().join(RACK).exists(), "{told}");
    }
    // In the file they are named by piece and field.
    blemished(shop.path());
    let moved = text(shop.path(), RACK).replace("\"19 in\"", "\"29 in\"").replace("\"21 in\"", "\"28 in\"");
    fs::write(shop.path().join(RACK), moved).unwrap();
    let run = plateloft_in(shop.path(), &["rack", "list"]);
    let told = "rack.json: B: holes[0]: 4 corners: lies outside the outline of the piece\n    measure it";
    assert!(run.code == 2 && run.stderr.contains(told), "{}", run.stderr);
}

/// The part lies along the lower edge of the piece as it is laid, or the upper: wherever, not over the hole or the tear.
#[test]
fn parts_keep_off_holes_and_tears_and_what_becomes_of_the_metal_adds_up() {
    let shop = tempdir().unwrap();
    let skin = json!({ "alloy": "5052-H32", "thickness": ".125" });
    let job = |size: [&str; 2]| {
        let part = json!({ "mark": "P", "shape": "plate", "metal": "skin", "size": size });
        fs::write(shop.path().join("job.json"), l_job(&skin, &part).to_string()).unwrap();
    };
    blemished(shop.path());
    let name = "skin-1 (B of the rack, 24 × 30 over all, 4 corners, 1 hole, 1 torn zone)";
    // Between tear and hole, off both by the trim of 1/2, lies what is 15 high, and no more.
    job(["28 7/8", "14 15/16"]);
    let (nest, _) = nested(shop.path());
    assert_eq!(sheet_names(&nest), [name]);
    let sheet = &nest["metals"][0]["sheets"][0];
    assert_eq!(sheet["holes"][0].as_array().unwrap().len(), 4);
    assert_eq!(sheet["torn"][0]["why"], "creased by a strap");
    job(["28 7/8", "15 1/16"]);
    assert_eq!(sheet_names(&nested(shop.path()).0), ["skin-1 (48 × 96)"]);
    // A small part leaves a drop with the hole in it.
    job(["28 7/8", "4"]);
    let run = plateloft_in(shop.path(), &["scrap", "job.json", "--rack", RACK, "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let report: Value = serde_json::from_str(&run.stdout).unwrap();
    let amounts = &report["sheets"][0]["amounts"];
    let exact = |line: &str, what: &str| exact(amounts, line, what);
    let square_inch = 25_400_000 * 25_400_000;
    assert_eq!(exact("from_rack", "exact_area"), 712 * square_inch);
    adds_up(amounts);
    assert_eq!(plateloft_in(shop.path(), &["rack", "take", "B", "--job", "Boat"]).code, 0);
    let words =
        ["rack", "return", "--drops-of", "job.json", "--rack-first", "--place", "B3", "--date", "2026-03-05"];
    let run = plateloft_in(shop.path(), &words);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let there = list(shop.path(), &[]);
    let areas: i128 =
        there.iter().map(|drop| drop["exact_area"].as_str().unwrap().parse::<i128>().unwrap()).sum();
    // The cut above the part takes 7 3/4 to 7 7/8 of the 24, right across; the hole is in what is left: 30 × 16 1/8 − 4 × 2. The
    // tear went with the part's side. Just that is in the report.
    let left = (30.0 * 16.125 - 8.0) * 25.4e6 * 25.4e6;
    assert!((areas as f64 - left).abs() < square_inch as f64 / 1e6, "{areas}: {there:?}");
    assert_eq!(exact("kept_drops", "exact_area"), areas, "{amounts}");
    assert_eq!(there[0]["torn"], json!([]));
    let holed: Vec<&Value> = there.iter().filter(|drop| drop["holes"] != json!([])).collect();
    assert_eq!(holed.len(), 1, "{there:?}");
    let corner = |number: usize, axis: usize| {
        let text = holed[0]["holes"][0][number][axis].as_str().unwrap();
        text.split(' ').next().unwrap().parse::<f64>().unwrap()
            * if text.ends_with("mm") { 1.0 } else { 25.4 }
    };
    // It begins at 13 from the left, and 19 up less the 7 7/8 that are gone; it is 4 × 2.
    for (axis, wanted) in [(0, [13.0, 17.0]), (1, [11.125, 13.125])] {
        let reach = (0..4).map(|number| corner(number, axis) / 25.4);
        let found = [reach.clone().fold(f64::MAX, f64::min), reach.fold(f64::MIN, f64::max)];
        assert!(found.iter().zip(wanted).all(|(a, b)| (a - b).abs() < 1e-6), "{found:?}: {:?}", holed[0]);
    }
}

#[test]
fn holes_and_tears_stand_on_the_map_and_on_the_label() {
    let shop = tempdir().unwrap();
    let skin = json!({ "alloy": "5052-H32", "thickness": ".125" });
    let part = json!({ "mark": "P", "shape": "plate", "metal": "skin", "size": ["28 7/8", "4"] });
    fs::write(shop.path().join("job.json"), l_job(&skin, &part).to_string()).unwrap();
    blemished(shop.path());
    let run = plateloft_in(shop.path(), &["packet", "job.json", "--rack", RACK, "--out", "out"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let svg = text(shop.path(), "out/sheets/skin-1.svg");
    let said = |svg: &str| -> Vec<String> {
        let document = roxmltree::Document::parse(svg).unwrap();
        document.descendants().filter_map(|node| node.text().map(str::to_owned)).collect()
    };
    // Both corners of the hole, both ends of the tear, and why.
    for told in [
        "13",
        "17",
        "19",
        "21",
        "20",
        "26",
        "3",
        "creased by a strap",
        "torn, or not to be used for another reason",
    ] {
        assert!(said(&svg).iter().any(|text| text == told), "{told}: {:?}", said(&svg));
    }
    assert_eq!(plateloft_in(shop.path(), &["rack", "label", "--out", "labels.pdf"]).code, 0);
    let label = label_words(shop.path(), "labels.pdf").join(" ");
    assert!(
        label.contains("1 hole, 1 torn zone") && label.contains("not to be used: creased by a strap"),
        "{label}"
    );
}

/// The L is 30 × 24 over all with legs of 10, so 29 × 9 is the largest rectangle inside a trim of 1/2. What the rectangle round it would
/// hold and its outline does not is said to lack its place there, with the nearest thing that would do.
#[test]
fn what_an_outline_has_no_place_for_is_not_called_too_small() {
    let shop = tempdir().unwrap();
    added(shop.path(), "L", &crate::rack::L_SHAPE);
    let none = |metal: &Value, part: &Value| -> String {
        fs::write(shop.path().join("job.json"), l_job(metal, part).to_string()).unwrap();
        let (nest, _) = nested(shop.path());
        let rows = nest["metals"][0]["comparison"].as_array().unwrap().clone();
        let row =
            rows.into_iter().find(|row| row["sheets_of"].as_str().unwrap().starts_with("L of the rack"));
        row.unwrap()["none"].as_str().unwrap().to_owned()
    };
    let skin = |turns: &str| json!({ "alloy": "5052-H32", "thickness": ".125", "turns": turns });
    let plate = |size: [&str; 2]| json!({ "mark": "P", "shape": "plate", "metal": "skin", "size": size });
    let told = "no place in its outline for P, which needs 20 × 12: the largest rectangle found in its usable metal is 29 × 9";
    assert_eq!(none(&skin("quarter"), &plate(["20", "12"])), told);
    let told = "no place in its outline for P, which needs 20 × 9 1/2: the largest rectangle found in its usable metal is 29 × 9; P: \
                with no edge trim it fits L of the rack, 24 × 30 over all, 6 corners";
    assert_eq!(none(&skin("quarter"), &plate(["20", "9 1/2"])), told);
    let turned = json!([["0", "0"], ["23", "0"], ["23", "22"], ["15", "22"], ["15", "9"], ["0", "9"]]);
    let part = json!({ "mark": "P", "shape": "plate", "metal": "skin", "outline": turned });
    let near = "; P: if it may turn by quarters (turns: \"quarter\") it fits L of the rack, 24 × 30 over all, 6 corners";
    let said = none(&skin("half"), &part);
    assert!(said.ends_with(near), "{said}");
    // Where nothing else is there, that is the refusal.
    let mut alone = l_job(&skin("quarter"), &plate(["20", "12"]));
    alone["sheets"][0]["size"] = json!(["12", "19"]);
    fs::write(shop.path().join("job.json"), alone.to_string()).unwrap();
    let run = plateloft_in(shop.path(), &["nest", "job.json", "--rack", RACK]);
    let told = "job.json: P: shape: 20 × 12: fits no sheet: its blank needs 20 × 12, trimmed sheets have 18 × 11; L of the rack, \
                24 × 30 over all, 6 corners has no place for it in its outline: the largest rectangle found in its usable metal is \
                29 × 9";
    assert!(run.code == 2 && run.stderr.contains(told), "{}", run.stderr);
}

/// The cut between a foot of 28 × 8 and a leg of 8 × 12 runs at 8 5/8 through all of the L's foot. A guide 9 1/2 off it would lie below
/// the piece, or above it where most of the metal is missing; one of 3 lies on the foot.
#[test]
fn a_guide_does_not_lie_where_an_offcut_has_no_metal() {
    let shop = tempdir().unwrap();
    added(shop.path(), "L", &crate::rack::L_SHAPE);
    let cut = |offset: &str| -> String {
        let skin = json!({ "alloy": "5052-H32", "thickness": ".125", "turns": "half" });
        let plate = |mark: &str, size: [&str; 2]| json!({ "mark": mark, "shape": "plate", "metal": "skin", "size": size });
        let mut job = l_job(&skin, &plate("FO", ["28", "8"]));
        job["shop"]["guide_offset"] = json!(offset);
        job["parts"].as_array_mut().unwrap().push(plate("LE", ["8", "12"]));
        fs::write(shop.path().join("job.json"), job.to_string()).unwrap();
        let (nest, _) = nested(shop.path());
        let sheet = &nest["metals"][0]["sheets"][0];
        assert!(sheet["sheet"].as_str().unwrap().contains("L of the rack"), "{sheet}");
        let cuts = sheet["cuts"].as_array().unwrap().iter().map(|cut| cut.as_str().unwrap());
        cuts.into_iter().find(|cut| cut.starts_with("straight cut at 8 5/8 up")).unwrap().to_owned()
    };
    let wide = cut("9 1/2");
    assert!(wide.contains("a guide 9 1/2 off the cut lies on no side of it wholly on the offcut"), "{wide}");
    let narrow = cut("3");
    assert!(narrow.contains("; clamp the guide at 5 5/8"), "{narrow}");
}
