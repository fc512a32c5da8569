//! Orders as whole commands: the sheets that `buy` chooses, in words a supplier can act on.
#![expect(clippy::disallowed_methods, reason = "a test of a program that reads a file writes it")]

use std::fs;

use serde_json::{Value, json};
use tempfile::tempdir;

use crate::program::{plateloft_in, plateloft_on};

/// Thirty plates of filmed tread plate, which take more than one sheet, and two lengths of pipe.
fn job() -> Value {
    json!({
        "plateloft": 1, "job": "Plates", "units": "inch", "tape": "1/16",
        "shop": { "gap": "1/4", "edge_trim": "1/2" },
        "metals": {
            "tread": { "alloy": "3003-H22", "thickness": ".125", "pattern": "tread", "weight": "2 lb/ft2",
                       "film": "one side", "lay": "short side" }
        },
        "sheets": [
            { "metal": "tread", "size": ["48", "96"], "price": 200 },
            { "metal": "tread", "size": ["60", "120"], "price": 310 }
        ],
        "bars": [{ "bar": "1 1/2 pipe", "kerf": "1/8", "sticks": [{ "length": "240", "price": 60 }],
                   "pieces": [{ "mark": "R", "length": "100", "quantity": 3 }] }],
        "buying": { "order": {
            "supplier": "S", "number": "P-1", "deliver_to": "D", "contact": "C", "wanted_by": "2026-04-01",
            "unloading": "by hand", "heaviest_pack": "1500 lb", "packed": "on skids", "interleaf": "paper",
            "film_side": "up", "certificate": true
        } },
        "parts": [{ "mark": "P", "shape": "plate", "metal": "tread", "size": ["20", "10"], "quantity": 30 }]
    })
}

fn order(job: &Value) -> Value {
    let run = plateloft_on(job, &["order", "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    serde_json::from_str(&run.stdout).unwrap()
}

/// A sheet of 48 × 96 at 2 lb/ft2 is 64 lb: no pack of 60 lb holds one.
#[test]
fn a_sheet_heavier_than_a_pack_may_be_is_asked_about() {
    let mut light = job();
    light["sheets"] = json!([{ "metal": "tread", "size": ["48", "96"], "price": 200 }]);
    light["buying"]["order"]["heaviest_pack"] = json!("60 lb");
    let told =
        "One sheet of tread weighs 64.00 lb, more than a pack of 60 lb may: what is \"heaviest_pack\"?";
    assert_eq!(order(&light)["questions"], json!([told]));
    light["buying"]["order"]["heaviest_pack"] = json!("64 lb");
    assert_eq!(order(&light)["questions"], json!([]));
}

#[test]
fn a_line_says_everything_that_the_supplier_needs() {
    let run = plateloft_on(&job(), &["order"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    for told in [
        "sheets: 3003-H22 tread plate, .1250 in, 48 in × 96 in",
        ".1250 in of the flat base, tread lugs excluded",
        "protective film on one face",
        "pattern along the 48 in side",
        "ASTM B632/B632M, current issue",
        "the standards are named from memory: confirm with your offer",
        "On skids",
        "Paper between the sheets.",
        "Film side up, every sheet the same.",
        "No pack over 1500 lb.",
        "mill's certificate",
        "between the lugs, never over one",
        "[ ] pattern along the 48 in side",
        "[ ] heat number is on the certificate",
        "--metal tread --ordered 48 96 --size __ __ --thickness __",
        "2 sticks: 1 1/2 pipe, 240 in long",
    ] {
        assert!(run.stdout.contains(told), "{told}: {}", run.stdout);
    }
    assert!(!run.stdout.contains("To be settled"), "{}", run.stdout);
}

#[test]
fn the_order_is_for_the_sheets_that_buy_chooses() {
    let order = order(&job());
    let bought: Value = serde_json::from_str(&plateloft_on(&job(), &["buy", "--json"]).stdout).unwrap();
    let lines = bought["order"].as_array().unwrap();
    let sheets = order["sheets"].as_array().unwrap();
    assert_eq!(lines.len(), sheets.len() + 1, "the sheets and the pipe");
    assert_eq!(lines[sheets.len()]["what"], "1 1/2 pipe 240");
    for (line, sheet) in lines.iter().zip(sheets) {
        let size = sheet["size"].as_array().unwrap();
        assert_eq!(line["what"], format!("tread {} × {}", size[0], size[1]).replace(".0", ""));
        assert_eq!(line["quantity"], sheet["quantity"]);
        let checks = sheet["text"]["checks"].as_array().unwrap();
        assert_eq!(checks.len() as u64, sheet["quantity"].as_u64().unwrap(), "a check for every sheet");
    }
    // 32 ft2 at 2 lb/ft2 a sheet of 48 × 96.
    let all: u64 = sheets.iter().map(|sheet| sheet["quantity"].as_u64().unwrap()).sum();
    assert_eq!(order["sheets_in_all"], all);
    assert_eq!(sheets[0]["weight_each"], 64.0);
    assert_eq!(order["questions"], json!([]));
}

#[test]
fn what_is_not_said_is_left_blank_and_asked_for() {
    let mut silent = job();
    silent["buying"].as_object_mut().unwrap().remove("order");
    let order = order(&silent);
    let questions = order["questions"].as_array().unwrap();
    for field in [
        "supplier",
        "number",
        "deliver_to",
        "contact",
        "wanted_by",
        "unloading",
        "packed",
        "interleaf",
        "film_side",
        "heaviest_pack",
        "certificate",
    ] {
        let told = questions.iter().any(|asked| asked.as_str().unwrap().contains(&format!("\"{field}\"")));
        assert!(told, "{field}: {questions:?}");
    }
    assert!(plateloft_on(&silent, &["order"]).stdout.contains("wanted by             ____"));
}

#[test]
fn a_metal_that_no_standard_covers_is_asked_of_the_mill() {
    let mut own = job();
    own["metals"]["tread"] = json!({
        "alloy": "5454-H32", "unlisted": true, "density": "2.69 g/cm3", "k_factor": 0.4, "thickness": ".125"
    });
    let text = plateloft_on(&own, &["order"]).stdout;
    assert!(text.contains("no standard is known for this metal: ask the mill"), "{text}");
    own["buying"]["order"]["tolerances"] = json!({ "tread": "thickness + .003 - .005 by the mill's letter" });
    let text = plateloft_on(&own, &["order"]).stdout;
    assert!(text.contains("by the mill's letter") && !text.contains("ask the mill"), "{text}");
    assert!(!text.contains("from memory"), "no standard is named at all: {text}");
}

#[test]
fn pieces_of_the_rack_are_left_out_when_told() {
    let folder = tempdir().unwrap();
    let mut few = job();
    few["parts"][0]["quantity"] = json!(2);
    fs::write(folder.path().join("job.json"), few.to_string()).unwrap();
    let add = [
        "rack",
        "add",
        "--mark",
        "R1",
        "--metal",
        "3003-H22",
        "--tread",
        "--thickness",
        ".125",
        "--size",
        "40",
        "40",
        "--film",
        "one-side",
        "--face",
        "good",
        "--lay",
        "along-x",
        "--place",
        "A",
        "--date",
        "2026-03-04",
    ];
    assert_eq!(plateloft_in(folder.path(), &add).code, 0);
    let without = plateloft_in(folder.path(), &["order", "job.json", "--json"]);
    let first = plateloft_in(folder.path(), &["order", "job.json", "--json", "--rack", "rack.json"]);
    assert_eq!(first.code, 0, "{}", first.stderr);
    let [without, first]: [Value; 2] = [without, first].map(|run| serde_json::from_str(&run.stdout).unwrap());
    assert_eq!(without["sheets"].as_array().unwrap().len(), 1);
    assert_eq!(first["sheets"], json!([]));
    assert!(first["rack"][0].as_str().unwrap().contains("R1 of the rack"), "{}", first["rack"]);
    // The nest goes the same way, and so does the packet.
    let nest = plateloft_in(folder.path(), &["nest", "job.json", "--rack", "rack.json"]);
    assert!(nest.stdout.contains("R1 of the rack, 40 × 40"), "{}", nest.stdout);
    let packet =
        plateloft_in(folder.path(), &["packet", "job.json", "--rack", "rack.json", "--out", "packet"]);
    assert_eq!(packet.code, 0, "{}", packet.stderr);
    let report = fs::read_to_string(folder.path().join("packet/scrap-report.txt")).unwrap();
    assert!(report.contains("R1 of the rack"), "{report}");
    // A second piece that nobody has measured is told on the packet itself.
    let second = ["rack", "add", "--mark", "R2", "--not-measured"];
    let second = [&second[..], &add[4..]].concat();
    assert_eq!(plateloft_in(folder.path(), &second).code, 0);
    let again =
        plateloft_in(folder.path(), &["packet", "job.json", "--rack", "rack.json", "--out", "packet"]);
    assert_eq!(again.code, 0, "{}", again.stderr);
    let page = fs::read_to_string(folder.path().join("packet/index.html")).unwrap();
    assert!(
        page.contains("R2 is not measured: put the caliper on it before cutting"),
        "the packet is silent"
    );
}

#[test]
fn the_rack_is_never_used_for_another_metal_or_face() {
    let folder = tempdir().unwrap();
    let mut few = job();
    few["parts"][0]["quantity"] = json!(2);
    fs::write(folder.path().join("job.json"), few.to_string()).unwrap();
    let fixed = "--size 40 40 --place A --date 2026-03-04 --thickness .125 --film one-side";
    let wrong = [
        ("alloy", "--metal 5052-H32 --tread --face good --lay along-x"),
        ("plain", "--metal 3003-H22 --face good --lay along-x"),
        ("face", "--metal 3003-H22 --tread --face scratched --lay along-x"),
        ("lay", "--metal 3003-H22 --tread --face good"),
    ];
    for (mark, more) in wrong {
        let words = format!("rack add --mark {mark} {more} {fixed}");
        let words: Vec<&str> = words.split(' ').collect();
        assert_eq!(plateloft_in(folder.path(), &words).code, 0, "{mark}");
    }
    let nest = plateloft_in(folder.path(), &["nest", "job.json", "--rack", "rack.json"]);
    assert_eq!(nest.code, 0, "{}", nest.stderr);
    assert!(!nest.stdout.contains("of the rack"), "{}", nest.stdout);
}
