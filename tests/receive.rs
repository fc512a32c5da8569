//! Sheets as received, as whole commands: entered, refused where they contradict the job, and the job checked by them.
#![expect(clippy::disallowed_methods, reason = "a test of a program that keeps a file writes and reads it")]

use std::fs;
use std::path::Path;

use serde_json::{Value, json};
use tempfile::{TempDir, tempdir};

use crate::program::{Run, plateloft_in};

/// A flanged panel of K .42 metal whose blank only just lies across a 48 sheet, lay fixed.
fn job() -> Value {
    json!({
        "plateloft": 1, "job": "Panel", "units": "inch", "tape": ".01",
        "shop": { "gap": ".25", "edge_trim": ".5", "kerf": ".125" },
        "metals": {
            "skin": { "alloy": "5052-H32", "thickness": ".125", "inside_radius": ".125", "k_factor": 0.42 }
        },
        "sheets": [{ "metal": "skin", "size": ["48", "96"], "price": 200 }],
        "parts": [{
            "mark": "P", "shape": "panel", "metal": "skin", "size": ["60", "45"],
            "flanges": { "AB": "1 up", "CD": "1 up" }
        }]
    })
}

fn shop(job: &Value) -> TempDir {
    let folder = tempdir().unwrap();
    fs::write(folder.path().join("job.json"), job.to_string()).unwrap();
    folder
}

const DAY: [&str; 2] = ["--date", "2026-03-04"];

fn add(folder: &Path, size: [&str; 2], thickness: &str, more: &[&str]) -> Run {
    let fixed = ["receive", "add", "job.json", "--metal", "skin", "--ordered", "48", "96"];
    let measured = ["--size", size[0], size[1], "--thickness", thickness];
    plateloft_in(folder, &[&fixed[..], &measured, &DAY, more].concat())
}

fn check(folder: &Path) -> (i32, Value, String) {
    let run = plateloft_in(folder, &["receive", "check", "job.json", "--json"]);
    (run.code, serde_json::from_str(&run.stdout).unwrap_or_default(), run.stderr)
}

#[test]
fn thinner_metal_moves_the_blank_by_two_deductions() {
    let shop = shop(&job());
    assert_eq!(add(shop.path(), ["96", "48"], ".122", &[]).code, 0);
    let (code, answer, stderr) = check(shop.path());
    assert_eq!(code, 0, "{stderr}");
    // By hand: a square bend deducts 2(R + T) − π/2 (R + .42 T), so .003 less of T gives back .003 (2 − .42 π/2) =
    // .004021 a bend; two bends along the 45 side.
    let part = &answer["parts"][0];
    let blank = |name: &str, axis: usize| part[name][axis].as_f64().unwrap();
    assert!((blank("blank", 1) - blank("blank_ordered", 1) - 0.008).abs() < 0.000_15, "{part}");
    assert_eq!(part["blank"][0], part["blank_ordered"][0]);
    // The plate is lighter by its thickness, and larger by what it moved.
    let weight = |name: &str| part[name].as_f64().unwrap();
    assert!((weight("weight") / weight("weight_ordered") - 0.122 / 0.125).abs() < 0.001, "{part}");
    let told = answer["changes"].to_string();
    assert!(told.contains("P: its blank is .0080 in longer in width: lay it out anew"), "{told}");
    assert!(told.contains("every part fits"), "{told}");
}

#[test]
fn the_flats_and_the_packet_are_worked_from_what_was_measured() {
    let shop = shop(&job());
    assert_eq!(add(shop.path(), ["47.95", "96"], ".122", &["--mark", "A"]).code, 0);
    let blank = |more: &[&str]| {
        let run = plateloft_in(shop.path(), &[&["flats", "job.json", "--json"], more].concat());
        assert_eq!(run.code, 0, "{}", run.stderr);
        let flats: Value = serde_json::from_str(&run.stdout).unwrap();
        (flats["parts"][0]["blank"].clone(), run.stderr)
    };
    let (ordered, reminded) = blank(&[]);
    let (received, _) = blank(&["--received"]);
    assert_ne!(ordered, received);
    assert!(reminded.contains("add --received to work from the sheets as they are"), "{reminded}");
    let nest = plateloft_in(shop.path(), &["nest", "job.json", "--received"]);
    assert!(nest.stdout.contains("A as received, 47.95 × 96.00"), "{}", nest.stdout);
    let packet = plateloft_in(shop.path(), &["packet", "job.json", "--received", "--out", "packet"]);
    assert_eq!(packet.code, 0, "{}", packet.stderr);
    let page = fs::read_to_string(shop.path().join("packet/index.html")).unwrap();
    assert!(
        page.contains("worked for .1220, measured on the sheets received; ordered .1250"),
        "the packet is silent"
    );
}

#[test]
fn the_drops_that_come_to_the_rack_are_those_of_the_sheets_received() {
    let mut kept = job();
    kept["shop"]["keep_drop"] = json!(["6", "12"]);
    let shop = shop(&kept);
    assert_eq!(add(shop.path(), ["47.75", "95.5"], ".122", &["--mark", "A"]).code, 0);
    let drops = |more: &[&str], rack: &str| {
        let fixed = [
            "rack",
            "return",
            "--drops-of",
            "job.json",
            "--place",
            "B",
            "--date",
            "2026-03-05",
            "--rack",
            rack,
        ];
        let run = plateloft_in(shop.path(), &[&fixed[..], more].concat());
        assert_eq!(run.code, 0, "{}", run.stderr);
        let run = plateloft_in(shop.path(), &["rack", "list", "--json", "--rack", rack]);
        let listed: Value = serde_json::from_str(&run.stdout).unwrap();
        listed["offcuts"].as_array().unwrap().clone()
    };
    let (ordered, received) = (drops(&[], "ordered.json"), drops(&["--received"], "received.json"));
    assert_eq!(
        (&ordered[0]["thickness"], &received[0]["thickness"]),
        (&json!("0.125 in"), &json!("0.122 in"))
    );
    assert_ne!(ordered[0]["outline"], received[0]["outline"]);
    let wrong = plateloft_in(shop.path(), &["rack", "return", "X", "--received", "--rack", "ordered.json"]);
    assert!(wrong.code == 2 && wrong.stderr.contains("--received: goes with --drops-of"), "{}", wrong.stderr);
}

#[test]
fn a_part_that_no_longer_fits_is_a_no() {
    let shop = shop(&job());
    // The blank is 47 less two deductions of .2212 across, 46.558, and the sheet is trimmed by half an inch at each edge.
    assert_eq!(add(shop.path(), ["47.375", "96"], ".125", &[]).code, 0);
    let (code, answer, stderr) = check(shop.path());
    assert_eq!(code, 1, "{stderr}");
    assert_eq!(answer["fits"], false);
    assert!(stderr.contains("P: shape") && stderr.contains("fits no sheet"), "{stderr}");
    assert!(stderr.contains("can no longer be made as it is"), "{stderr}");
    let packet = plateloft_in(shop.path(), &["packet", "job.json", "--received", "--out", "packet"]);
    assert_eq!(packet.code, 1, "{}", packet.stderr);
    assert!(!shop.path().join("packet").exists());
}

#[test]
fn a_sheet_out_of_square_holds_less() {
    let shop = shop(&job());
    // 48 × 96 leaning by 1.5: diagonals of a parallelogram by Pythagoras, 108.665 and 105.981.
    let leaning = ["--diagonals", "108.665", "105.981"];
    assert_eq!(add(shop.path(), ["48", "96"], ".125", &leaning).code, 0);
    let (code, answer, stderr) = check(shop.path());
    assert_eq!(code, 0, "{stderr}");
    let holds = answer["sheets"][0]["holds"].as_array().unwrap();
    assert!((holds[1].as_f64().unwrap() - 94.5).abs() < 0.01, "{holds:?}");
    assert!(answer["changes"].to_string().contains("is out of square"), "{}", answer["changes"]);
}

#[test]
fn sheets_of_two_thicknesses_are_told_and_never_averaged() {
    let mut two = job();
    two["parts"][0]["quantity"] = json!(2);
    let shop = shop(&two);
    assert_eq!(add(shop.path(), ["48", "96"], ".120", &[]).code, 0);
    assert_eq!(add(shop.path(), ["48", "96"], ".130", &[]).code, 0);
    let (code, answer, stderr) = check(shop.path());
    assert_eq!(code, 0, "{stderr}");
    let told = answer["changes"].to_string();
    assert!(
        told.contains("sheets are from .1200 to .1300 thick; the flats are worked for the thickest"),
        "{told}"
    );
    // .010 of thickness is .0134 a bend.
    assert!(
        told.contains("between the thinnest and the thickest sheet its blank differs by .0268 in"),
        "{told}"
    );
}

#[test]
fn entries_that_contradict_the_job_are_refused_and_nothing_is_written() {
    let shop = shop(&job());
    let cases: [([&str; 2], &str, &[&str], &str); 7] = [
        (["60", "120"], ".125", &[], "--size: 60.00 × 120.00: is another size than the 48.00 × 96.00"),
        (["48", "96"], ".090", &[], "--thickness: .0900: is off by more than a twentieth"),
        (["48", "96"], "-1", &[], "--thickness"),
        (["48", "96"], ".125", &["--diagonals", "108", "108"], "do not go with the sides"),
        (["48", "96"], ".125", &["--ordered", "60", "120"], "--ordered: two lengths are needed"),
        (["48", "96"], ".125", &["--note", ""], "--note"),
        (["48 lb", "96"], ".125", &[], "--size"),
    ];
    for (size, thickness, more, told) in cases {
        let run = add(shop.path(), size, thickness, more);
        assert_eq!(run.code, 2, "{told}: {}", run.stdout);
        assert!(run.stderr.contains(told), "{told}: {}", run.stderr);
    }
    let other =
        ["receive", "add", "job.json", "--metal", "skn", "--ordered", "48", "96", "--size", "48", "96"];
    let run = plateloft_in(shop.path(), &[&other[..], &["--thickness", ".125"], &DAY].concat());
    assert!(run.stderr.contains("--metal: skn: no metal of the job has this name"), "{}", run.stderr);
    let size =
        ["receive", "add", "job.json", "--metal", "skin", "--ordered", "50", "96", "--size", "50", "96"];
    let run = plateloft_in(shop.path(), &[&size[..], &["--thickness", ".125"], &DAY].concat());
    assert!(run.stderr.contains("skin is bought in no such size"), "{}", run.stderr);
    assert!(!shop.path().join("job.received.json").exists());
}

#[test]
fn entries_are_listed_taken_out_and_kept_whole() {
    let shop = shop(&job());
    let receive = |words: &[&str]| plateloft_in(shop.path(), &[&["receive"], words].concat());
    assert_eq!(receive(&["check", "job.json"]).code, 2, "nothing is entered");
    assert_eq!(add(shop.path(), ["48", "96"], ".124", &[]).code, 0);
    assert_eq!(add(shop.path(), ["48", "96"], ".125", &[]).code, 0);
    assert_eq!(add(shop.path(), ["48", "96"], ".125", &["--mark", "s2"]).code, 2, "S2 is entered");
    let listed = receive(&["list", "job.json"]).stdout;
    assert!(listed.contains("S1  skin  48.00 × 96.00 measures 48.00 × 96.00, .1240 thick"), "{listed}");
    assert_eq!(receive(&["remove", "job.json", "S9"]).code, 2);
    assert_eq!(receive(&["remove", "job.json", "S1"]).code, 0);
    let left = receive(&["list", "job.json"]).stdout;
    assert!(!left.contains("S1") && left.contains("S2"), "{left}");
    let file = shop.path().join("job.received.json");
    let backup = fs::read_to_string(shop.path().join("job.received.json.bak")).unwrap();
    assert!(backup.contains("\"S1\""), "{backup}");
    fs::write(&file, "{ broken").unwrap();
    let run = add(shop.path(), ["48", "96"], ".125", &[]);
    assert_eq!(run.code, 2);
    assert!(run.stderr.contains("is broken"), "{}", run.stderr);
    assert_eq!(fs::read_to_string(&file).unwrap(), "{ broken", "what could not be read was written over");
    fs::write(&file, "{ \"plateloft_received\": 2, \"sheets\": [] }").unwrap();
    assert!(
        receive(&["check", "job.json"]).stderr.contains("plateloft_received: 2"),
        "a newer file was read"
    );
}

#[test]
fn an_entry_that_the_job_has_outgrown_is_refused() {
    let shop = shop(&job());
    assert_eq!(add(shop.path(), ["48", "96"], ".124", &[]).code, 0);
    let mut thinner = job();
    thinner["metals"]["skin"]["thickness"] = json!(".090");
    fs::write(shop.path().join("job.json"), thinner.to_string()).unwrap();
    let (code, _, stderr) = check(shop.path());
    assert_eq!(code, 2);
    assert!(stderr.contains("job.received.json: S1: thickness: .1240"), "{stderr}");
}

/// The command in the receiving check of an order, its blanks filled in and nothing else changed, enters a sheet.
#[test]
fn the_command_that_an_order_prints_enters_a_sheet() {
    let mut odd = job();
    odd["metals"] = json!({ "thick skin": odd["metals"]["skin"] });
    odd["sheets"] = json!([{ "metal": "thick skin", "size": ["48", "96 1/2"], "price": 200 }]);
    odd["parts"][0]["metal"] = json!("thick skin");
    for (job, thickness) in [(job(), ".122"), (odd, ".126")] {
        let shop = shop(&job);
        let order = plateloft_in(shop.path(), &["order", "job.json"]);
        let line = order.stdout.lines().find_map(|line| line.trim().strip_prefix("enter: ")).unwrap();
        let mut blanks = ["48", "96", thickness, "2026-03-04"].into_iter();
        let mut words: Vec<String> = Vec::new();
        // A shell takes what stands between quotes for one word.
        for (place, text) in line.split('"').enumerate() {
            if place % 2 == 1 {
                words.push(text.to_owned());
            } else {
                words.extend(text.split_whitespace().map(str::to_owned));
            }
        }
        for word in &mut words {
            match word.as_str() {
                "__" => blanks.next().unwrap().clone_into(word),
                "JOB" => "job.json".clone_into(word),
                _ => {}
            }
        }
        assert!(blanks.next().is_none() && words[0] == "plateloft", "{line}");
        let asked: Vec<&str> = words[1..].iter().map(String::as_str).collect();
        let run = plateloft_in(shop.path(), &asked);
        assert_eq!(run.code, 0, "{line}: {}", run.stderr);
        let list = plateloft_in(shop.path(), &["receive", "list", "job.json"]);
        assert!(list.code == 0 && list.stdout.contains("S1"), "{}", list.stdout);
    }
}

/// Sheets of two thicknesses: every one weighs its area by its own, and so does what is sold of it; and all commands that
/// weigh parts weigh those that the packet shows.
#[test]
fn every_sheet_received_weighs_by_its_own_thickness() {
    let mut two = job();
    two["buying"] = json!({ "scrap_credit": { "price": 0.5, "per": "lb" } });
    two["parts"][0]["quantity"] = json!(2);
    let shop = shop(&two);
    assert_eq!(add(shop.path(), ["96", "48"], ".128", &[]).code, 0);
    assert_eq!(add(shop.path(), ["96", "48"], ".122", &[]).code, 0);
    let said = |command: &[&str]| -> Value {
        let run = plateloft_in(shop.path(), command);
        assert_eq!(run.code, 0, "{command:?}: {}", run.stderr);
        serde_json::from_str(&run.stdout).unwrap_or_else(|_| panic!("{command:?}"))
    };
    let report = said(&["scrap", "job.json", "--received", "--json"]);
    let sheets = report["sheets"].as_array().unwrap();
    assert_eq!(sheets.len(), 2, "{report}");
    let mut weights: Vec<i64> =
        sheets.iter().map(|sheet| sheet["amounts"]["bought"]["exact_weight"].as_i64().unwrap()).collect();
    weights.sort_unstable();
    // 2.68 g/cm3 (Aluminum Association, Aluminum Standards and Data: 5052, .097 lb/in3) on 4608 in2: .006 in apart.
    let (thin, thick) = (weights[0] as f64, weights[1] as f64);
    assert!((thin / thick - 0.122 / 0.128).abs() < 1e-6, "{weights:?}");
    // What the packet and `weights` say of one part is one number: that of the thickest, which the flats are worked for.
    let of_one = |answer: &Value, field: &str| answer["parts"][0][field].clone();
    let received = said(&["weights", "job.json", "--received", "--json"]);
    let ordered = said(&["weights", "job.json", "--json"]);
    let off = said(&["take-off", "job.json", "--received", "--json"]);
    let flats = said(&["flats", "job.json", "--received", "--json"]);
    let [thin, thick] = [&ordered, &received].map(|answer| of_one(answer, "each").as_f64().unwrap());
    assert!(thin < thick, "{ordered} {received}");
    assert_eq!(of_one(&received, "each"), of_one(&off, "weight_each"));
    assert_eq!(of_one(&received, "each"), of_one(&flats, "weight"));
    let quote = said(&["quote", "job.json", "--received", "--json"]);
    assert_eq!(quote["quotes"][0]["weight"], received["job_weight"]);
}
