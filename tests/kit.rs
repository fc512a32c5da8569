//! Kits as whole commands: crates that hold what they say, hands apart, a strip of every metal that is bent.
#![expect(clippy::disallowed_methods, reason = "a test of a program that writes files reads them")]

use std::fs;

use serde_json::{Value, json};
use tempfile::tempdir;

use crate::program::{files, plateloft, plateloft_in, plateloft_on};
use crate::written::{self, pdf};

const GIG: &str = "fixtures/jobs/gig-lockers.json";

/// Two flanged plates with their opposite hands, and a strip.
fn job() -> Value {
    json!({
        "plateloft": 1, "job": "Brackets", "units": "inch", "tape": "1/16",
        "shop": { "gap": "1/4", "edge_trim": "1/2" },
        "metals": { "skin": { "alloy": "5052-H32", "thickness": ".125", "inside_radius": ".125", "k_factor": 0.42,
                              "weight": "2 lb/ft2" } },
        "sheets": [{ "metal": "skin", "size": ["48", "96"], "price": 200 }],
        "parts": [
            { "mark": "BP", "shape": "panel", "metal": "skin", "size": ["20", "10"], "flanges": { "AB": "2 up" },
              "opposite_hand": "BS", "quantity": 2 },
            { "mark": "TS", "shape": "plate", "metal": "skin", "size": ["4", "1"] },
            { "mark": "X", "shape": "plate", "metal": "skin", "size": ["40", "10"] }
        ],
        "kit": {
            "crates": { "inside": ["24", "14", "4"], "empty": "20 lb", "heaviest": "60 lb" },
            "packing": { "what": "board", "thickness": "1/8", "weight": "0.1 lb/ft2", "clear": "1/4" },
            "buyer_brake": { "kind": "leaf", "length": "24", "shortest_flange": "1" },
            "test_strips": ["TS"], "hands": ["port", "starboard"], "stays_here": ["X"]
        }
    })
}

fn kit(job: &Value) -> Value {
    let run = plateloft_on(job, &["kit", "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    serde_json::from_str(&run.stdout).unwrap()
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

/// Every crate is within its limits, by its own printed numbers; every flat inside it, clear of the others, hands apart.
fn sound(kit: &Value, clear: f64) -> usize {
    let inside: Vec<f64> = kit["inside"].as_array().unwrap().iter().map(number).collect();
    let mut count = 0;
    for packed in kit["crates"].as_array().unwrap() {
        assert!(
            number(&packed["height"]) <= inside[2] && packed["in_all"].as_f64() <= kit["heaviest"].as_f64()
        );
        let lying = packed["packed"].as_array().unwrap();
        count += lying.len();
        let cents = |value: &Value| format!("{:.0}", number(value) * 100.0).parse::<i64>().unwrap();
        let flats: i64 = lying.iter().map(|flat| cents(&flat["weight"])).sum();
        assert_eq!(flats, cents(&packed["flats"]));
        let sum = ["flats", "packing", "empty"].iter().map(|what| cents(&packed[*what])).sum::<i64>();
        assert_eq!(sum, cents(&packed["in_all"]));
        let reach = |flat: &Value| -> [[f64; 2]; 2] {
            let turned = flat["turned"] == true;
            [0, 1].map(|axis| {
                let at = number(&flat["at"][axis]);
                [at, at + number(&flat["blank"][if turned { 1 - axis } else { axis }])]
            })
        };
        for (place, flat) in lying.iter().enumerate() {
            let box_of = reach(flat);
            for axis in 0..2 {
                assert!(
                    clear - 0.001 < box_of[axis][0] && box_of[axis][1] < inside[axis] - clear + 0.001,
                    "{flat}"
                );
            }
            for other in lying[..place].iter().filter(|other| other["layer"] == flat["layer"]) {
                let beside = reach(other);
                let apart = (0..2).any(|axis| {
                    box_of[axis][1] + clear < beside[axis][0] + 0.001
                        || beside[axis][1] + clear < box_of[axis][0] + 0.001
                });
                assert!(apart, "{flat} on {other}");
            }
        }
    }
    count
}

#[test]
fn the_gig_s_kit_goes_into_its_crate() {
    let run = plateloft(&["kit", GIG, "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let kit: Value = serde_json::from_str(&run.stdout).unwrap();
    // By the job: 2 × (2 tops, 2 fronts, 2 ends, 2 backing strips), 4 lids, 1 test strip.
    assert_eq!(sound(&kit, 0.25), 21);
    let lying = kit["crates"][0]["packed"].as_array().unwrap();
    for flat in lying.iter().filter(|flat| !flat["hand"].is_null()) {
        let hand = if flat["mark"].as_str().unwrap().starts_with("LP") { "port" } else { "starboard" };
        assert_eq!(flat["hand"], hand);
        let other = |mark: &str| mark.replace("LP", "L?").replace("LS", "L?");
        let twin = lying.iter().find(|twin| {
            twin["mark"] != flat["mark"]
                && other(twin["mark"].as_str().unwrap()) == other(flat["mark"].as_str().unwrap())
        });
        assert_ne!(twin.unwrap()["layer"], flat["layer"], "two hands in one layer: {flat}");
    }
    // The strip is 4.000 long and its metal deducts .159 a square bend: 2(R + T) − π/2 (R + .42 T) with both .090.
    let steps = kit["test_strips"][0]["steps"].to_string();
    assert!(steps.contains("4.000 in + .159 in = 4.159 in"), "{steps}");
    assert!(kit["test_strips"][0]["title"].as_str().unwrap().contains("from sheet skin-1"));
}

/// What stays here is bent by the shop on its own machine: the buyer's folder of 24 need not take its 40, and what the shop
/// does to it is priced.
#[test]
fn what_stays_here_is_not_judged_by_the_buyer_s_folder() {
    let mut job = job();
    job["parts"][2] = json!({
        "mark": "X", "shape": "panel", "metal": "skin", "size": ["40", "10"], "flanges": { "AB": "2 up" }
    });
    let run = plateloft_on(&job, &["kit"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let quoted = |job: &Value| {
        let run = plateloft_on(job, &["quote", "--kit", "--json"]);
        assert_eq!(run.code, 0, "{}", run.stderr);
        let answer: Value = serde_json::from_str(&run.stdout).unwrap();
        answer["quotes"][1].clone()
    };
    let bends = |quote: &Value| {
        let facts = quote["facts"].as_array().unwrap().clone();
        facts.iter().find(|fact| fact["what"] == "bends").unwrap()["is"].as_str().unwrap().to_owned()
    };
    let quote = quoted(&job);
    // The one flange of X runs along its side of 40: 3.33 ft.
    assert!(bends(&quote).starts_with("1, 3.33 ft in all; heaviest 40 of .125 on X"), "{}", bends(&quote));
    assert!(quote["assumptions"].to_string().contains("closed by the shop: X;"), "{}", quote["assumptions"]);
    // The shop's own brake still judges it, and what is sent still goes by the buyer's.
    job["shop"]["brake"] = json!({ "kind": "leaf", "length": "36" });
    let own = plateloft_on(&job, &["kit"]);
    assert!(own.code != 0 && own.stderr.contains('X') && !own.stderr.contains("BP"), "{}", own.stderr);
    job["shop"].as_object_mut().unwrap().remove("brake");
    job["kit"]["buyer_brake"]["length"] = json!("18");
    let theirs = plateloft_on(&job, &["kit"]);
    assert!(
        theirs.code == 1 && theirs.stderr.contains("BP") && !theirs.stderr.contains("X:"),
        "{}",
        theirs.stderr
    );
}

#[test]
fn the_folder_holds_list_page_layers_labels_and_cards() {
    let folder = tempdir().unwrap();
    fs::write(folder.path().join("job.json"), job().to_string()).unwrap();
    let written = || {
        let run = plateloft_in(folder.path(), &["kit", "job.json", "--out", "kit"]);
        assert_eq!(run.code, 0, "{}", run.stderr);
        files(&folder.path().join("kit"))
    };
    let first = written();
    let names: Vec<&str> = first.keys().map(String::as_str).collect();
    for name in [
        "packing-list.txt",
        "kit.json",
        "index.html",
        "labels.svg",
        "bends/BP.svg",
        "bends/BS.svg",
        "layers/crate-1-layer-1.svg",
    ] {
        assert!(names.contains(&name), "{name}: {names:?}");
    }
    assert_eq!(first, written(), "the same job gives another kit");
    let labels = String::from_utf8(first["labels.svg"].clone()).unwrap();
    assert!(labels.contains("BP no. 1 of 2 PORT") && labels.contains("BS no. 2 of 2 STARBOARD"));
    // A plate flanged on one side is the same blank for both hands: labels say what the packet says.
    let document = roxmltree::Document::parse(&labels).unwrap();
    let texts = document.descendants().filter(|node| node.has_tag_name("text"));
    let words: Vec<&str> = texts.filter_map(|node| node.text()).collect();
    let told = "its opposite hand is BS: same blank, bent the same way";
    assert!(words.join(" ").contains(told) && !labels.contains("not alike"), "{words:?}");
    let page = String::from_utf8(first["index.html"].clone()).unwrap();
    assert!(page.contains("Bend card of BP") && page.contains("Test strip TS"));
}

#[test]
fn every_page_of_a_bend_card_is_kept() {
    let mut job = job();
    // Eight bends are more strokes than one page has room for.
    job["parts"][0] = json!({
        "mark": "BP", "shape": "brake_profile", "metal": "skin", "length": "12", "legs_to": "outside",
        "legs": ["2", "2", "2", "2", "3", "3", "2", "2", "2"],
        "bends": ["20 up", "20 down", "20 up", "20 down", "20 up", "20 down", "20 up", "20 down"],
        "opposite_hand": "BS", "quantity": 2
    });
    let folder = tempdir().unwrap();
    fs::write(folder.path().join("job.json"), job.to_string()).unwrap();
    let run = plateloft_in(folder.path(), &["kit", "job.json", "--out", "kit"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let written = files(&folder.path().join("kit"));
    let page = String::from_utf8(written["index.html"].clone()).unwrap();
    for mark in ["BP", "BS"] {
        let card = page.split(&format!("<h2>Bend card of {mark}")).nth(1).unwrap();
        let shown = card.split("</section>").next().unwrap().matches("<figure").count();
        let kept = written.keys().filter(|name| name.starts_with(&format!("bends/{mark}"))).count();
        assert!(1 < shown && kept == shown, "{mark}: {shown} pages shown, {kept} kept");
    }
}

#[test]
fn more_weight_than_a_crate_may_have_takes_more_crates() {
    let kit_of_one = kit(&job());
    assert_eq!(kit_of_one["crates"].as_array().unwrap().len(), 1);
    assert_eq!(sound(&kit_of_one, 0.25), 5);
    let mut light = job();
    // Crate 20, two sheets of board 2 × .233, and one flat of 20 × 11.8 at 2 lb/ft2 of 3.3 lb: two would be 27.7.
    light["kit"]["crates"]["heaviest"] = json!("25 lb");
    let split = kit(&light);
    assert_eq!(split["crates"].as_array().unwrap().len(), 4);
    assert_eq!(sound(&split, 0.25), 5);
    light["kit"]["crates"]["most"] = json!(3);
    let refused = plateloft_on(&light, &["kit"]);
    assert_eq!(refused.code, 2);
    assert!(refused.stderr.contains("kit.crates.most: 3: 4 crates are needed"), "{}", refused.stderr);
}

#[test]
fn a_flat_that_lies_in_no_crate_is_refused_with_its_size() {
    let mut large = job();
    large["kit"]["stays_here"] = json!([]);
    let refused = plateloft_on(&large, &["kit"]);
    assert_eq!(refused.code, 2);
    assert!(
        refused
            .stderr
            .contains("X: kit.crates.inside: 40 × 10: its flat lies in no crate, which has 23 1/2 × 13 1/2"),
        "{}",
        refused.stderr
    );
    let mut weak = job();
    weak["kit"]["crates"]["heaviest"] = json!("21 lb");
    assert!(plateloft_on(&weak, &["kit"]).stderr.contains("BP: kit.crates.heaviest: alone in a crate makes"));
}

#[test]
fn a_part_that_the_buyer_s_machine_does_not_bend_is_a_no() {
    let mut short = job();
    short["kit"]["buyer_brake"]["length"] = json!("15");
    let refused = plateloft_on(&short, &["kit"]);
    assert_eq!(refused.code, 1, "{}", refused.stderr);
    assert!(refused.stderr.contains("BP"), "{}", refused.stderr);
    // The shop itself can bend it.
    assert_eq!(plateloft_on(&short, &["check"]).code, 0);
}

#[test]
fn every_bent_metal_has_its_test_strip() {
    let mut none = job();
    none["kit"]["test_strips"] = json!([]);
    let refused = plateloft_on(&none, &["kit"]);
    assert_eq!(refused.code, 2);
    assert!(
        refused.stderr.contains("kit.test_strips: skin: BP is bent of it, and no test strip"),
        "{}",
        refused.stderr
    );
    let mut bent = job();
    bent["kit"]["test_strips"] = json!(["BP"]);
    assert!(plateloft_on(&bent, &["kit"]).stderr.contains("BP: kit.test_strips: is bent already"));
    let mut short = job();
    short["parts"][1]["size"] = json!(["1 1/2", "1"]);
    assert!(
        plateloft_on(&short, &["kit"])
            .stderr
            .contains("its legs are .750, and the brake takes 1.000 at least")
    );
}

/// Lugs lie in the heights where the job gives theirs, and are asked for where it does not.
#[test]
fn lugs_are_in_the_heights() {
    let mut tread = job();
    tread["metals"]["skin"]["pattern"] = json!("tread");
    let bare = kit(&tread);
    assert!(
        bare["questions"].to_string().contains("How high are the lugs of skin?"),
        "{}",
        bare["questions"]
    );
    tread["metals"]["skin"]["lug_height"] = json!(".06");
    let lugs = kit(&tread);
    assert!(!lugs["questions"].to_string().contains("lugs"), "{}", lugs["questions"]);
    sound(&lugs, 0.25);
    let filled = |kit: &Value| -> (f64, f64) {
        let crates = kit["crates"].as_array().unwrap();
        let sum = |name: &str| crates.iter().map(|one| number(&one[name])).sum();
        (sum("height"), sum("layers"))
    };
    let ((low, layers), (high, same)) = (filled(&bare), filled(&lugs));
    assert!(
        (layers - same).abs() < 0.1 && (high - low - 0.06 * layers).abs() < 0.001,
        "{low} {high} {layers}"
    );
    // What just went in without them no longer does.
    tread["kit"]["crates"]["inside"][2] = json!(".4");
    assert!(plateloft_on(&tread, &["kit"]).stderr.contains("BP: kit.crates.inside: is thicker than"));
    tread["metals"]["skin"]["pattern"] = json!("plain");
    let refused = plateloft_on(&tread, &["kit"]);
    assert_eq!(refused.code, 2);
    assert!(
        refused.stderr.contains("metals.skin.lug_height: .06: plain metal has no lugs"),
        "{}",
        refused.stderr
    );
}

/// The kit prints as the packet does: numbered leaves, the same from the page, nothing on anything else.
#[test]
fn a_kit_is_one_pdf_too() {
    let folder = tempdir().unwrap();
    let made = |name: &str, paper: &str| {
        let out = folder.path().join(name);
        let run = plateloft(&["kit", GIG, "--paper", paper, "--out", out.to_str().unwrap()]);
        assert_eq!(run.code, 0, "{}", run.stderr);
        files(&out)
    };
    let (letter, again) = (made("letter", "letter"), made("again", "letter"));
    assert!(letter == again && letter["kit.pdf"] != made("a4", "a4")["kit.pdf"]);
    let leaves = pdf::leaves(&letter["kit.pdf"]);
    let page = std::str::from_utf8(&letter["index.html"]).unwrap();
    assert_eq!(page.matches("<div class=\"leaf ").count(), leaves.len());
    let faults: Vec<String> = leaves.iter().flat_map(written::faults).collect();
    assert_eq!(faults, Vec::<String>::new());
    let says = |words: &str| {
        leaves.iter().filter(|leaf| leaf.texts.iter().any(|text| text.words.contains(words))).count()
    };
    for (number, _) in leaves.iter().enumerate() {
        assert!(0 < says(&format!("{} of {}", number + 1, leaves.len())), "{number}");
    }
    assert_eq!(says("2026-11-25"), leaves.len(), "name and date on every leaf");
    for words in
        ["Before folding", "LID no. 4 of 4", "STARBOARD", "Bend card", "TEST STRIP", "crate 1, layer 7"]
    {
        assert!(0 < says(words), "{words}");
    }
}

/// A crate above what one person may lift says so beside its sum; one below it is silent.
#[test]
fn a_crate_that_one_person_may_not_lift_says_so() {
    let mut heavy = job();
    heavy["kit"]["crates"]["empty"] = json!("45 lb");
    heavy["kit"]["crates"]["heaviest"] = json!("150 lb");
    for (job, expected) in [(job(), false), (heavy, true)] {
        let told = kit(&job);
        let run = plateloft_on(&job, &["kit"]);
        let words = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
        let mut above = 0;
        for of in told["crates"].as_array().unwrap() {
            // 23 kg: the load constant of the lifting equation, DHHS (NIOSH) 94-110.
            let is_above = 23.0 / 0.453_592_37 < of["in_all"].as_f64().unwrap();
            assert_eq!(of["above_one_person"], is_above, "{of}");
            above += usize::from(is_above);
            let named = format!("crate {} at {:.2} lb: ", of["crate"], of["in_all"].as_f64().unwrap());
            assert_eq!(words.contains(&named), is_above, "{named}: {}", run.stdout);
        }
        assert_eq!(0 < above, expected, "{}", told["crates"]);
        assert_eq!(words.contains("CAUTION: above the 50.71 lb"), expected, "{}", run.stdout);
    }
}

/// A hundred washers' plates of 1 × 1 at 2 lb/ft2 weigh 2/144 lb each, 1.39 in all. Rounded one by one they would come to 1.00. Over two crates
/// they still come to their line of the cut list, and every crate to the sum of its lines.
#[test]
fn many_light_flats_weigh_what_they_do() {
    let mut light = job();
    light["parts"] = json!([
        { "mark": "W", "shape": "plate", "metal": "skin", "size": ["1", "1"], "quantity": 100 },
        { "mark": "V", "shape": "plate", "metal": "skin", "size": ["2", "1"], "quantity": 7 },
    ]);
    light["kit"] = json!({
        "crates": { "inside": ["12", "12", "4"], "empty": "2 lb", "heaviest": "4 lb" },
        "packing": { "what": "board", "thickness": "1/8", "weight": "0.1 lb/ft2", "clear": "1/4" },
    });
    let weights: Value = serde_json::from_str(&plateloft_on(&light, &["weights", "--json"]).stdout).unwrap();
    // .0139 × 100 and .0278 × 7, as every list prints one of less than a pound.
    assert_eq!(weights["job_weight"], 1.58);
    for heaviest in ["4 lb", "3 lb"] {
        light["kit"]["crates"]["heaviest"] = json!(heaviest);
        let kit = kit(&light);
        assert_eq!(sound(&kit, 0.25), 107);
        let crates = kit["crates"].as_array().unwrap();
        assert_eq!(1 < crates.len(), heaviest == "3 lb", "{heaviest}");
        let flats: f64 = crates.iter().map(|packed| number(&packed["flats"])).sum();
        assert!((flats - 1.58).abs() < 0.001, "{heaviest}: {flats}");
    }
    let text = plateloft_on(&light, &["kit"]).stdout;
    let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.contains("rounded over all of them"), "{text}");
}

/// What the quote of a kit charges for and no crate holds stands in the packing list, to be ticked.
#[test]
fn hardware_and_bars_of_a_kit_are_said_not_to_be_in_the_crates() {
    let mut job = job();
    job["hardware"] = json!([{ "item": "piano hinge 46", "count": 2, "price": 20 }]);
    job["bars"] = json!([{ "bar": "flat 1/4 x 1", "kerf": "1/8", "sticks": [{ "length": "144", "price": 12 }],
                           "pieces": [{ "mark": "FB", "length": "40", "quantity": 3 }] }]);
    let lines = ["2 × piano hinge 46", "3 × FB, 40 in of flat 1/4 x 1"];
    assert_eq!(kit(&job)["beside"], json!(lines));
    let folder = tempdir().unwrap();
    fs::write(folder.path().join("job.json"), job.to_string()).unwrap();
    let run = plateloft_in(folder.path(), &["kit", "job.json", "--out", "kit"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let written = files(&folder.path().join("kit"));
    for (file, boxed) in [("packing-list.txt", "[ ] "), ("index.html", "")] {
        let text = std::str::from_utf8(&written[file]).unwrap();
        let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(text.contains("Not in the crates, nor in their weights"), "{file}: {text}");
        for line in lines {
            assert!(text.contains(&format!("{boxed}{line}")), "{file}: {line}: {text}");
        }
    }
    assert_eq!(kit(&self::job())["beside"], json!([]), "nothing is sold beside the flats");
}

/// A size of strip that is named to someone who works in millimetres is one in millimetres.
#[test]
fn a_usual_strip_is_named_in_the_unit_of_the_job() {
    for (unit, size) in [("inch", "like 4 × 1"), ("mm", "like 100 × 25")] {
        let mut job = job();
        job["units"] = json!(unit);
        if unit == "mm" {
            job["tape"] = json!("1");
        }
        let long = |inches: f64| json!(if unit == "mm" { inches * 25.4 } else { inches }.to_string());
        job["shop"] = json!({ "gap": long(0.25), "edge_trim": long(0.5) });
        job["metals"]["skin"] = json!({ "alloy": "5052-H32", "thickness": long(0.125), "inside_radius": long(0.125), "k_factor": 0.42 });
        job["sheets"] = json!([{ "metal": "skin", "size": [long(48.0), long(96.0)] }]);
        job["parts"] = json!([{ "mark": "B", "shape": "panel", "metal": "skin", "size": [long(20.0), long(10.0)],
                                "flanges": { "AB": if unit == "mm" { "50 up" } else { "2 up" } } }]);
        job["kit"] = json!({
            "crates": { "inside": [long(24.0), long(14.0), long(4.0)], "empty": "20 lb", "heaviest": "60 lb" },
            "packing": { "what": "board", "thickness": long(0.125), "weight": "0.1 lb/ft2", "clear": long(0.25) }
        });
        let run = plateloft_on(&job, &["kit"]);
        assert!(run.code == 2 && run.stderr.contains(size), "{unit}: {}", run.stderr);
    }
}
