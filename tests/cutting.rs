//! How sheets are cut up, as the program says it.
#![expect(clippy::disallowed_methods, reason = "a test of a program that writes files reads them")]

use serde_json::{Value, json};

use crate::program::{packet_of, plateloft, plateloft_in, plateloft_on};
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
    let mut turned = 0;
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
        let last = sheet.iter().position(|cut| cut == "cut each part from its blank").unwrap();
        // Whoever cuts a part knows which corner of its blank the layout sheet starts at, and how it lies there.
        assert!(last + 1 < sheet.len(), "{sheet:?}");
        for told in &sheet[last + 1..] {
            assert!(told.contains(": its datum corner ") && told.contains(" of its blank"), "{told}");
        }
        turned +=
            sheet.iter().filter(|told| told.contains("its layout sheet lies a quarter turn to the ")).count();
        // The job's shear is worked in four rounds at most.
        assert!(sheet.iter().all(|cut| !cut.starts_with("round 5")), "{sheet:?}");
    }
    assert!(0 < turned, "no part of the truck lies a quarter turn");
}

/// Cuts of the shear are numbered at the edge of the blank, not at the middle of a saw as those by hand are.
#[test]
fn a_kerf_beside_sheared_blanks_is_told_to_lie_on_the_waste_side() {
    let shop = json!({ "gap": "1/8", "kerf": "1/8", "edge_trim": "1/2", "cutting": "shear" });
    let said = alone(
        &shop,
        &json!({ "mark": "P", "shape": "plate", "metal": "skin", "quantity": 2, "size": ["30", "20"] }),
    );
    assert!(said.contains("saw every cut wholly on the side of its number that the step names"), "{said}");
    assert!(said.contains("for a shear set kerf to 0 under shop"), "{said}");
}

/// Two plates, 20 along the sheet and 30 across it, lie 1/4 apart, which is wider than the kerf of 1/8: the strip between them is
/// sawn off on both sides, right of the first number and left of the second. Over every order stands what holds for its kind.
#[test]
fn every_kind_of_order_is_headed_by_what_holds_for_it() {
    let job = |shop: Value| {
        json!({
            "plateloft": 1, "job": "Blanks", "units": "inch", "tape": "1/16", "shop": shop,
            "metals": { "skin": { "alloy": "5052-H32", "thickness": ".125", "turns": "half" } },
            "sheets": [{ "metal": "skin", "size": ["31", "41"], "price": 210 }],
            "parts": [{ "mark": "P", "shape": "plate", "metal": "skin", "quantity": 2, "size": ["20", "30"] }]
        })
    };
    let said = |shop: Value| {
        let text = plateloft_on(&job(shop.clone()), &["nest"]);
        assert_eq!(text.code, 0, "{}", text.stderr);
        let answer: Value =
            serde_json::from_str(&plateloft_on(&job(shop), &["nest", "--json"]).stdout).unwrap();
        (text.stdout, answer["metals"][0]["sheets"][0].clone())
    };
    let (middle, edge) = ("the middle of the saw on its number", "A number is the edge of a blank");
    let (text, sheet) = said(json!({ "gap": "1/4", "kerf": "1/8", "edge_trim": "0", "cutting": "shear" }));
    assert!(text.contains(edge) && !text.contains(middle), "{text}");
    let means = sheet["what_cuts_numbers_mean"].as_str().unwrap();
    assert!(means.contains(edge) && !means.contains(middle), "{means}");
    let steps = sheet["cuts"].to_string();
    for cut in [
        "straight cut at 30 up from the lower edge, 41 long, the saw above it",
        "straight cut at 20 from the left edge, 30 long, the saw right of it",
        "straight cut at 20 1/4 from the left edge, 30 long, the saw left of it",
        "straight cut at 40 1/4 from the left edge, 30 long, the saw right of it",
    ] {
        assert!(steps.contains(cut), "{cut}: {steps}");
    }
    let (text, sheet) = said(json!({ "gap": "1/4", "kerf": "0", "edge_trim": "0", "cutting": "shear" }));
    assert!(text.contains(edge) && !text.contains(middle) && !text.contains("the saw right of it"), "{text}");
    assert!(
        sheet["cuts"][0].as_str().unwrap().contains("a strip between two blanks, 1/4 or wider"),
        "{sheet}"
    );
    let (text, sheet) = said(json!({ "gap": "1/4", "kerf": "1/8", "edge_trim": "0" }));
    assert!(text.contains(middle) && !text.contains(edge), "{text}");
    assert!(sheet["what_cuts_numbers_mean"].as_str().unwrap().contains(middle), "{sheet}");
}

#[test]
fn the_rescue_skiff_is_cut_by_hand_along_a_guide_each_piece_once() {
    let sheets = cuts("fixtures/jobs/rescue-skiff.json");
    let mut outlines = 0;
    for sheet in &sheets {
        for cut in sheet.iter().filter(|cut| cut.starts_with("straight cut")) {
            let places = [
                "; clamp the guide at ",
                "; the guide does not go on between edge and cut",
                "; a guide 5 off the cut leaves the metal in hand",
            ];
            assert_eq!(places.iter().filter(|place| cut.contains(**place)).count(), 1, "{cut}");
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
    // The saw takes its 1/8 all round inside the line of 30.
    assert!(cuts.contains("; a disc of 29 3/4 falls out: hold it up, and keep feet from under it"), "{cuts}");
    assert!(
        cuts.contains("clamp the guide 1 7/16 inside the line of a straight side, or 1 9/16 outside it"),
        "{cuts}"
    );
    // The largest rectangle in a circle of 29 3/4 is half of its square, 442.5.
    let size = cuts.split("drop d2 to keep, ").nth(1).unwrap().split(": cut it").next().unwrap();
    let area: f64 = size.split(" × ").map(inches).product();
    assert!((430.0..442.6).contains(&area), "{size}");
    assert!(cuts.contains("cut it along its own lines from what fell out of R"), "{cuts}");
    // A guide wider than what lies between edge and cut goes beyond the cut.
    let cuts = alone(&shop("42"), &ring);
    assert!(cuts.contains("clamp it beyond the cut, at 82 "), "{cuts}");
    assert!(!cuts.contains("clamp the guide at"), "{cuts}");
}

/// A cut of 1/16: the guide stands 1 15/32 inside, which no tape of 1/16 has. Rounded to 1 1/2 the saw would take 1/32 off the part.
#[test]
fn the_guide_is_not_rounded_into_the_part() {
    let shop = json!({ "gap": "1/4", "edge_trim": "1/4", "kerf": "1/16", "guide_offset": "1 1/2" });
    let cuts = alone(&shop, &json!({ "mark": "P", "shape": "plate", "metal": "skin", "size": ["40", "40"] }));
    let place =
        cuts.split("clamp the guide ").find_map(|after| after.split_once(" inside the line")).unwrap().0;
    assert!((inches(place) - 1.46875).abs() < 0.001, "{place}");
    let place = cuts.split(", or ").find_map(|after| after.split_once(" outside it")).unwrap().0;
    assert!((inches(place) - 1.53125).abs() < 0.001, "{place}");
}

/// A frame of 40 × 36 with a cut-out of 30 × 26: the saw takes 1/8 all round inside the line, and 29 3/4 × 25 3/4 falls out and is
/// kept as it is, by the order of cuts, the map, the label, the scrap report and the rack alike. On the shear it counts as scrap, and the
/// order says so.
#[test]
fn what_falls_out_of_a_cut_out_is_kept_as_it_falls() {
    let frame = json!({
        "mark": "F", "shape": "plate", "metal": "skin", "size": ["40", "36"],
        "holes": [{ "at": ["20", "18"], "cut_out": ["30", "26"] }]
    });
    let job = |shop: Value| {
        json!({
            "plateloft": 1, "job": "Frame", "units": "inch", "tape": "1/16", "shop": shop,
            "metals": { "skin": { "alloy": "5052-H32", "thickness": ".125", "turns": "half" } },
            "sheets": [{ "metal": "skin", "size": ["37", "41"], "price": 210 }],
            "parts": [frame]
        })
    };
    let shop = |more: Value| -> Value {
        let mut shop = json!({ "gap": "1/4", "edge_trim": "1/4", "kerf": "1/8", "guide_offset": "1 1/2", "keep_drop": ["12", "12"] });
        if let (Value::Object(shop), Value::Object(more)) = (&mut shop, more) {
            shop.extend(more);
        }
        shop
    };
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("job.json"), job(shop(json!({}))).to_string()).unwrap();
    let text = plateloft_in(folder.path(), &["nest", "job.json"]).stdout;
    assert!(text.contains("a piece of 29 3/4 × 25 3/4 falls out: hold it up"), "{text}");
    let kept = "drop d1 to keep, 29 3/4 × 25 3/4: it is what fell out of F, nothing more is cut off it";
    assert!(text.contains(kept), "{text}");
    let packet = plateloft_in(folder.path(), &["packet", "job.json", "--out", "packet"]);
    assert_eq!(packet.code, 0, "{}", packet.stderr);
    let read = |name: &str| std::fs::read_to_string(folder.path().join(name)).unwrap();
    assert!(read("packet/scrap-report.txt").contains("drop d1 of skin-1: 29 3/4 × 25 3/4."));
    let report: Value = serde_json::from_str(&read("packet/scrap-report.json")).unwrap();
    let nanometres = |sixteenths: i128| sixteenths * 25_400_000 / 16;
    let exact = (nanometres(29 * 16 + 12) * nanometres(25 * 16 + 12)).to_string();
    assert_eq!(report["total"]["kept_drops"]["exact_area"], exact.as_str());
    assert!(read("packet/index.html").contains("29 3/4 × 25 3/4; measure before use"));
    let run = plateloft_on(&job(shop(json!({ "cutting": "shear" }))), &["nest"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let told = "cut each part from its blank; what falls out of the cut-outs of F is not counted as kept: it goes with the scrap";
    assert!(run.stdout.contains(told) && !run.stdout.contains("to keep"), "{}", run.stdout);
}

/// Three strips of 3 from a sheet of 12: a guide 8 off the cut would lie on metal that is cut off already, and no strip is wide
/// enough for it.
#[test]
fn a_guide_lies_on_metal_that_is_there() {
    let job = |offset: &str| {
        json!({
            "plateloft": 1, "job": "Strips", "units": "inch", "tape": "1/16",
            "shop": { "gap": "1/4", "edge_trim": "1/4", "kerf": "1/8", "guide_offset": offset },
            "metals": { "skin": { "alloy": "5052-H32", "thickness": ".125", "turns": "half" } },
            "sheets": [{ "metal": "skin", "size": ["12", "48"], "price": 50 }],
            "parts": [{ "mark": "S", "shape": "plate", "metal": "skin", "quantity": 3, "size": ["40", "3"] }]
        })
    };
    let cuts = |offset: &str| -> Vec<String> {
        let run = plateloft_on(&job(offset), &["nest", "--json"]);
        assert_eq!(run.code, 0, "{}", run.stderr);
        let answer: Value = serde_json::from_str(&run.stdout).unwrap();
        let cuts = answer["metals"][0]["sheets"][0]["cuts"].as_array().unwrap().clone();
        cuts.iter().map(|cut| cut.as_str().unwrap().to_owned()).collect()
    };
    // Strips lie from 1/4, 3 1/2 and 6 3/4 on. The upper cut is at 6 5/8, the lower at 3 3/8, when 6 9/16 is in hand.
    let narrow = cuts("5");
    let straight: Vec<&String> = narrow.iter().filter(|cut| cut.starts_with("straight cut at ")).collect();
    assert_eq!(straight.len(), 2, "{narrow:?}");
    assert!(
        straight[0].contains("at 6 5/8 up") && straight[0].contains("; clamp the guide at 1 5/8"),
        "{narrow:?}"
    );
    let told = "; a guide 5 off the cut leaves the metal in hand, which reaches 3 3/8 off it on one side and 3 3/16 on the other";
    assert!(straight[1].contains("at 3 3/8 up") && straight[1].contains(told), "{narrow:?}");
    let outlines: Vec<&String> = narrow.iter().filter(|cut| cut.starts_with("the outline of S")).collect();
    assert_eq!(outlines.len(), 3);
    for outline in outlines {
        // 5 less half the kerf is wider than 3, but not than 40: beside the ends no guide is worth its while, they are 3 long.
        assert!(
            outline.contains(
                "the guide does not lie 4 15/16 inside or 5 1/16 outside the line of a straight side"
            ),
            "{outline}"
        );
    }
    let fits = cuts("2");
    assert!(
        fits.iter()
            .filter(|cut| cut.starts_with("the outline of S"))
            .all(|cut| cut.contains("clamp the guide 1 15/16 inside")),
        "{fits:?}"
    );
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
        cuts.trim_start_matches("by saw, torch or router straight ")
            .split(' ')
            .next()
            .unwrap()
            .parse::<f64>()
            .unwrap()
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
        run.code == 2
            && run.stderr.contains("one_sheet[0]: N: no nest with all their pieces on one sheet was found"),
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
                let mark = format!("drop d{}", number + 1);
                let lead = format!("{mark} to keep, ");
                let said: Vec<&str> =
                    cuts.iter().filter_map(|cut| cut.split_once(&lead)).map(|(_, sizes)| sizes).collect();
                assert_eq!(said.len(), 1, "{job}: {name}: {mark}: {cuts:?}");
                let sizes = said[0].split([':', ';']).next().unwrap();
                assert!(
                    scrap.contains(&format!("{mark} of {name}: {sizes}.")),
                    "{job}: {name}: {sizes}: {scrap}"
                );
                let on_label = format!("{name} d{} {}", number + 1, nest["job"].as_str().unwrap());
                assert!(labels.contains(&on_label), "{job}: {on_label}: {labels}");
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
