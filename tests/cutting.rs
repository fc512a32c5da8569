//! How sheets are cut up, as the program says it.

use serde_json::{Value, json};

use crate::program::{packet_of, plateloft, plateloft_on};
use crate::written::pdf;
use crate::written::tape::inches;

fn cuts(job: &str) -> Vec<Vec<String>> {
    let run = plateloft(&["nest", job, "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let answer: Value = serde_json::from_str(&run.stdout).unwrap();
    let metals = answer["metals"].as_array().unwrap().iter();
    let sheets = metals.flat_map(|metal| metal["sheets"].as_array().unwrap());
    let words = |sheet: &Value| -> Vec<String> {
        sheet["cuts"].as_array().unwrap().iter().map(|cut| cut.as_str().unwrap().to_owned()).collect()
    };
    sheets.map(words).collect()
}

#[test]
fn the_truck_is_sheared_in_rounds_from_trimmed_sheets() {
    for sheet in cuts("fixtures/jobs/call-out-truck.json") {
        assert_eq!(sheet[0], "shear on every line: parts lie edge to edge, with no room for a saw cut");
        // The sheet is 3000 long, and the job's shear takes 2550.
        let trim = "trim 10.0 off all four edges; edges longer than the shear takes, 2550.0, once the cuts of round 1 ";
        assert!(sheet[1].starts_with(trim), "{sheet:?}");
        // 1500 × 3000 less 10 on every edge. The long edges still have their trim when round 1 cuts across them.
        assert!(sheet[1].ends_with("; 2980.0 × 1480.0 is left"), "{sheet:?}");
        assert!(sheet[2].starts_with("round 1: straight cut at "), "{sheet:?}");
        let first = sheet.iter().filter(|cut| cut.starts_with("round 1: "));
        assert!(first.into_iter().all(|cut| cut.contains(", 1500.0 long")), "{sheet:?}");
        assert!(sheet.iter().all(|cut| !cut.contains("1480.0 long")), "{sheet:?}");
        assert_eq!(sheet.last().unwrap(), "cut each part from its blank");
        // The job's shear is worked in four rounds at most.
        assert!(sheet.iter().all(|cut| !cut.starts_with("round 5")), "{sheet:?}");
    }
}

/// Cuts of the shear are numbered at the edge of the blank, not at the middle of a saw as those by hand are.
#[test]
fn a_kerf_beside_sheared_blanks_is_told_to_lie_on_the_waste_side() {
    let shop = json!({ "gap": "1/8", "kerf": "1/8", "edge_trim": "1/2", "cutting": "shear" });
    let said = alone(
        &shop,
        &json!({ "mark": "P", "shape": "plate", "metal": "skin", "quantity": 2, "size": ["30", "20"] }),
    );
    assert!(
        said.contains("a saw runs wholly on the waste side of it, never with its middle on it"),
        "{said}"
    );
}

#[test]
fn the_rescue_skiff_is_cut_by_hand_along_a_guide_each_piece_once() {
    let sheets = cuts("fixtures/jobs/rescue-skiff.json");
    let mut outlines = 0;
    for sheet in &sheets {
        for cut in sheet.iter().filter(|cut| cut.starts_with("straight cut")) {
            let off_the_sheet = cut.contains("the guide does not go on between edge and cut");
            assert!(cut.contains("clamp the guide at ") != off_the_sheet, "{cut}");
        }
        outlines += sheet.iter().filter(|cut| cut.starts_with("the outline of ")).count();
    }
    // Deck pieces, boxes, chase and lids of the job: what the flats command lists.
    let flats = plateloft(&["flats", "fixtures/jobs/rescue-skiff.json", "--json"]);
    let answer: Value = serde_json::from_str(&flats.stdout).unwrap();
    let parts = answer["parts"].as_array().unwrap();
    let pieces: u64 = parts.iter().map(|part| part["quantity"].as_u64().unwrap()).sum();
    assert_eq!(u64::try_from(outlines).unwrap(), pieces);
}

/// A job of one part on one sheet, 48 × 96.
fn alone(shop: &Value, part: &Value) -> String {
    let job = json!({
        "plateloft": 1, "job": "Rings", "units": "inch", "tape": "1/16", "shop": shop,
        "metals": { "skin": { "alloy": "5052-H32", "thickness": ".125", "turns": "half" } },
        "sheets": [{ "metal": "skin", "size": ["48", "96"], "price": 210 }],
        "parts": [part]
    });
    let run = plateloft_on(&job, &["nest", "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let answer: Value = serde_json::from_str(&run.stdout).unwrap();
    answer["metals"][0]["sheets"][0]["cuts"].to_string()
}

/// The middle of a saw cut of 1/8 runs 1/16 beside the line, so a guide 1 1/2 off it stands 1 7/16 inside the line or 1 9/16 outside.
#[test]
fn the_guide_stands_beside_outlines_too_and_what_falls_is_named() {
    let shop = |offset: &str| json!({ "gap": "1/4", "edge_trim": "1/4", "kerf": "1/8", "guide_offset": offset, "keep_drop": ["12", "12"] });
    let ring = json!({
        "mark": "R", "shape": "plate", "metal": "skin", "size": ["40", "40"],
        "holes": [{ "at": ["20", "20"], "diameter": "30" }]
    });
    let cuts = alone(&shop("1 1/2"), &ring);
    assert!(cuts.contains("; a disc of 30 falls out: hold it up, and keep feet from under it"), "{cuts}");
    assert!(
        cuts.contains("clamp the guide 1 7/16 inside, or 1 9/16 outside the line of a straight side"),
        "{cuts}"
    );
    // The largest square in a circle of 29 1/2 is 20 7/8 and a bit.
    assert!(cuts.contains("cut it along its own lines from what fell out of R"), "{cuts}");
    // A guide wider than what lies between edge and cut goes beyond the cut.
    let cuts = alone(&shop("42"), &ring);
    assert!(cuts.contains("clamp it beyond the cut, at 82 "), "{cuts}");
    assert!(!cuts.contains("clamp the guide at"), "{cuts}");
}

/// A strip between two parts that is as wide as the kerf is all taken by one cut; that it serves both is said where the saw may.
#[test]
fn a_cut_through_the_whole_gap_is_told_as_what_it_is() {
    let part = json!({ "mark": "A", "shape": "plate", "metal": "skin", "size": ["40", "30"], "quantity": 2 });
    let shop =
        |shared: bool| json!({ "gap": "1/8", "edge_trim": "1/4", "kerf": "1/8", "shared_cuts": shared });
    let said = "the gap is no wider than the kerf: this one cut takes all of it";
    let cuts = alone(&shop(false), &part);
    assert!(cuts.contains(said) && !cuts.contains("it finishes the edges on both sides"), "{cuts}");
    let cuts = alone(&shop(true), &part);
    assert!(!cuts.contains(said) && cuts.contains("it finishes the edges on both sides"), "{cuts}");
}

/// Three columns of two equal blanks, 22 up: two rows have two cuts each between columns, 22 long, and every column one
/// between its blanks, 15 long. The seven cuts serve two parts each, stand in the order once, and are counted once.
#[test]
fn a_cut_that_serves_two_parts_is_listed_and_counted_once() {
    let job = |shared: bool| {
        json!({
            "plateloft": 1, "job": "Blanks", "units": "inch", "tape": "1/16",
            "shop": { "gap": "1/4", "edge_trim": "1/2", "kerf": "1/8", "shared_cuts": shared },
            "metals": { "skin": { "alloy": "5052-H32", "thickness": ".125" } },
            "sheets": [{ "metal": "skin", "size": ["48", "96"], "price": 210 }],
            "parts": [{ "mark": "HB", "shape": "plate", "metal": "skin", "size": ["22", "15"], "quantity": 6 }]
        })
    };
    let asked = |shared: bool, command: &[&str]| -> Value {
        let run = plateloft_on(&job(shared), command);
        assert_eq!(run.code, 0, "{}", run.stderr);
        serde_json::from_str(&run.stdout).unwrap()
    };
    let sheet = asked(true, &["nest", "--json"])["metals"][0]["sheets"][0].clone();
    let cuts = sheet["shared_cuts"].as_array().unwrap();
    let length = |cut: &Value| cut["to"].as_f64().unwrap() - cut["from"].as_f64().unwrap();
    assert_eq!(cuts.len(), 7, "{sheet}");
    assert!((cuts.iter().map(length).sum::<f64>() - (4.0 * 22.0 + 3.0 * 15.0)).abs() < 0.01, "{sheet}");
    for cut in cuts {
        let width = cut["within"][1].as_f64().unwrap() - cut["within"][0].as_f64().unwrap();
        assert!((width - 0.125).abs() < 1e-6, "{cut}");
    }
    // In the order every side that is shared is cut once: the straight cuts finish it, and the outlines leave it out.
    let steps = sheet["cuts"].to_string();
    assert!(steps.contains("it finishes the edges on both sides"), "{steps}");
    assert_eq!(steps.matches("that is cut already").count(), 6, "{steps}");
    assert_eq!(asked(false, &["nest", "--json"])["metals"][0]["sheets"][0]["shared_cuts"], json!([]));
    // Six outlines of 74 are 444 in; the shared sides are counted once.
    let shared: f64 = cuts.iter().map(length).sum();
    let cut_feet = |shared: bool| {
        let quote = asked(shared, &["quote", "--json"]);
        let facts = quote["quotes"][0]["facts"].as_array().unwrap().clone();
        let cuts =
            facts.iter().find(|fact| fact["what"] == "cuts").unwrap()["is"].as_str().unwrap().to_owned();
        cuts.trim_start_matches("sawn straight ").split(' ').next().unwrap().parse::<f64>().unwrap()
    };
    assert!((cut_feet(false) - 444.0 / 12.0).abs() < 0.06);
    assert!((cut_feet(true) - (444.0 - shared) / 12.0).abs() < 0.06);
    let report = asked(true, &["scrap", "--json"]);
    let exact =
        |line: &str| -> i128 { report["total"][line]["exact_area"].as_str().unwrap().parse().unwrap() };
    let lines = ["parts", "kept_drops", "kerf", "edge_trim", "scrap"];
    assert_eq!(lines.iter().map(|line| exact(line)).sum::<i128>(), exact("bought"));
}

/// Two plates tapered at one end lie head to tail: the slanted cut between them is told by both of its ends, counted once, and left
/// out of both outlines. Its length is that of the side: 9 and 4.
#[test]
fn a_slanted_cut_that_serves_two_parts_is_told_by_its_ends() {
    let job = json!({
        "plateloft": 1, "job": "Gussets", "units": "inch", "tape": "1/16",
        "shop": { "gap": "1/4", "edge_trim": "1/2", "kerf": "1/8", "shared_cuts": true },
        "metals": { "skin": { "alloy": "5052-H32", "thickness": ".125" } },
        "sheets": [{ "metal": "skin", "size": ["10 1/2", "96"], "price": 210 }],
        "parts": [{
            "mark": "GU", "shape": "plate", "metal": "skin", "quantity": 2,
            "outline": [["0", "0"], ["12", "0"], ["12", "9"], ["4", "9"]]
        }]
    });
    let run = plateloft_on(&job, &["nest", "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let answer: Value = serde_json::from_str(&run.stdout).unwrap();
    let sheet = &answer["metals"][0]["sheets"][0];
    let cuts = sheet["shared_cuts"].as_array().unwrap();
    assert_eq!(cuts.len(), 1, "{sheet}");
    assert!(cuts[0]["across"].is_null() && cuts[0]["sides"].is_array(), "{sheet}");
    assert!((cuts[0]["length"].as_f64().unwrap() - 97.0_f64.sqrt()).abs() < 0.001, "{sheet}");
    let steps = sheet["cuts"].to_string();
    // The square root of 97 is 9.849: the tape's 9 7/8 and what it is less.
    assert!(steps.contains("slanted cut 9 7/8 - .026 long, beginning "), "{steps}");
    let told = steps.split("long, beginning ").nth(1).unwrap();
    let [from, to] = [told, told.split("ending ").nth(1).unwrap()].map(|words| {
        let (x, rest) = words.split_once(" from the left edge, ").unwrap();
        [inches(x), inches(rest.split_once(" up from").unwrap().0)]
    });
    let middle = |end: usize| {
        [0, 1].map(|axis| {
            let side = |side: usize| cuts[0]["sides"][side][end][axis].as_f64().unwrap();
            (side(0) + side(1)) / 2.0
        })
    };
    for (told, exact) in [from, to].as_flattened().iter().zip([middle(0), middle(1)].as_flattened()) {
        assert!((told - exact).abs() < 0.0011, "{told} told, {exact} cut: {steps}");
    }
    assert_eq!(steps.matches("that is cut already").count(), 2, "{steps}");
}

/// Two pairs that match are sheared from one sheet each, and a sheet too small for a pair is refused by its group.
#[test]
fn parts_are_kept_together_on_the_shear() {
    let job = |size: [&str; 2]| {
        json!({
            "plateloft": 1, "job": "Boat", "units": "inch", "tape": "1/16",
            "shop": { "gap": "1/8", "edge_trim": "0", "kerf": "0", "cutting": { "longest_cut": "100", "rounds": 4 } },
            "metals": { "skin": { "alloy": "5052-H32", "thickness": ".125" } },
            "sheets": [{ "metal": "skin", "size": size, "price": 210 }],
            "one_sheet": [{ "parts": ["N"] }],
            "parts": [
                { "mark": "W", "shape": "plate", "metal": "skin", "size": ["40", "20"], "quantity": 2 },
                { "mark": "N", "shape": "plate", "metal": "skin", "size": ["40", "16"], "quantity": 2 }
            ]
        })
    };
    let run = plateloft_on(&job(["40", "37"]), &["nest"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    assert!(run.stdout.contains("Kept on one sheet: N") && run.stdout.contains("3 sheets"), "{}", run.stdout);
    let run = plateloft_on(&job(["40", "30"]), &["nest"]);
    assert!(
        run.code == 2 && run.stderr.contains("one_sheet[0]: N: all their pieces did not fit"),
        "{}",
        run.stderr
    );
}

/// A kept drop is said once in the order of cuts, and its sizes are the same there, on its label, in the scrap report and, side
/// by side, on the map.
#[test]
fn every_kept_drop_is_cut_free_and_reads_the_same_everywhere() {
    let (mut drops, mut rimmed) = (0, 0);
    for job in ["rescue-skiff", "channel-covers", "call-out-truck", "deck-pair", "gig-lockers", "sled-bin"] {
        let packet = packet_of(&format!("fixtures/jobs/{job}.json"), &[]);
        let scrap = String::from_utf8(packet["scrap-report.txt"].clone()).unwrap().replace('\n', " ");
        let leaves = pdf::leaves(&packet["packet.pdf"]);
        let of_leaves = |name: &str| -> String {
            let leaves = leaves.iter().filter(|leaf| leaf.name.starts_with(name));
            leaves.flat_map(|leaf| &leaf.texts).map(|text| text.words.as_str()).collect::<Vec<_>>().join(" ")
        };
        let (labels, maps) = (of_leaves("Labels"), of_leaves("Sheet: "));
        let nest: Value = serde_json::from_slice(&packet["nest.json"]).unwrap();
        let sheets = nest["metals"].as_array().unwrap().iter();
        for sheet in sheets.flat_map(|metal| metal["sheets"].as_array().unwrap()) {
            let cuts: Vec<&str> =
                sheet["cuts"].as_array().unwrap().iter().map(|cut| cut.as_str().unwrap()).collect();
            let (usable, whole) = (&sheet["kept_drops"], &sheet["kept_drops_whole"]);
            let count = usable.as_array().unwrap().len();
            let name = sheet["sheet"].as_str().unwrap().split(" (").next().unwrap();
            for number in 0..count {
                let mark = if count == 1 { "drop".to_owned() } else { format!("drop {}", number + 1) };
                let lead = format!("{mark} to keep, ");
                let said: Vec<&str> =
                    cuts.iter().filter_map(|cut| cut.split_once(&lead)).map(|(_, sizes)| sizes).collect();
                assert_eq!(said.len(), 1, "{job}: {name}: {mark}: {cuts:?}");
                let sizes = said[0].split([':', ';']).next().unwrap();
                assert!(
                    scrap.contains(&format!("{mark} of {name}: {sizes}.")),
                    "{job}: {name}: {sizes}: {scrap}"
                );
                assert!(
                    labels.contains(&format!("{sizes}; measure before use")),
                    "{job}: {name}: {sizes}: {labels}"
                );
                for size in sizes.split(", ") {
                    let size = size.trim_end_matches(" whole").trim_end_matches(" usable");
                    let side_by_side = size.split(" × ").all(|side| maps.contains(side));
                    assert!(side_by_side, "{job}: {name}: {size}: {maps}");
                }
                let side = |drop: &Value, end: usize, axis: usize| drop[end][axis].as_f64().unwrap();
                for axis in 0..2 {
                    assert!(
                        side(&whole[number], 0, axis) <= side(&usable[number], 0, axis) + 1e-4,
                        "{sheet}"
                    );
                    assert!(
                        side(&usable[number], 1, axis) <= side(&whole[number], 1, axis) + 1e-4,
                        "{sheet}"
                    );
                }
                drops += 1;
                rimmed += usize::from(sizes.contains(" whole, "));
            }
        }
    }
    assert!(6 < drops && 3 < rimmed, "{drops} drops, {rimmed} with a rim");
}
