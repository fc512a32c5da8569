//! What stands out of a part toward its place is counted: the bulge of rolled plate, strips of lapped corners, lugs of tread.
#![expect(clippy::disallowed_methods, reason = "a test that needs a job of its own writes it")]

use std::fs;

use serde_json::{Value, json};
use tempfile::tempdir;

use crate::program::{Run, plateloft, plateloft_in};

/// Plain sheet .063 thick, and tread .125 thick with lugs of .060.
fn job(part: &Value, fits: &Value) -> String {
    json!({
        "plateloft": 1, "job": "Stand outs", "units": "inch", "tape": "1/16",
        "shop": { "gap": "1/4", "edge_trim": "1/2" },
        "metals": {
            "thin": { "alloy": "3003-O", "thickness": ".063", "inside_radius": ".063" },
            "tread": {
                "alloy": "3003-H22", "thickness": ".125", "inside_radius": ".188", "pattern": "tread",
                "weight": "1.95 lb/ft2", "lug_height": ".060"
            }
        },
        "sheets": [
            { "metal": "thin", "size": ["60", "144"] }, { "metal": "tread", "size": ["60", "144"] }
        ],
        "parts": [part], "fits": fits
    })
    .to_string()
}

fn run(command: &str, part: &Value, fits: &Value) -> Run {
    let folder = tempdir().unwrap();
    fs::write(folder.path().join("job.json"), job(part, fits)).unwrap();
    plateloft_in(folder.path(), &[command, "job.json", "--json"])
}

fn parsed(run: &Run) -> Value {
    serde_json::from_str(&run.stdout).unwrap_or_else(|error| panic!("{error}: {}", run.stderr))
}

/// The words of a fact of the only part.
fn fact(part: &Value, name: &str) -> String {
    let flats = parsed(&run("flats", part, &json!([])));
    let facts = flats["parts"][0]["facts"].as_array().unwrap().clone();
    let found = facts.iter().find(|fact| fact["name"] == name);
    found.unwrap_or_else(|| panic!("{name}: {facts:?}"))["value"].as_str().unwrap().to_owned()
}

/// Whether the part lifts out through an opening.
fn lifts(part: &Value, through: [&str; 2], clearance: &str, way: &str) -> bool {
    let fit = json!([{
        "fit": "lift_out", "part": part["mark"], "through": through, "clearance": clearance, "way": way
    }]);
    let run = run("check", part, &fit);
    parsed(&run)["fits"][0]["fits"].as_bool().unwrap()
}

#[test]
fn rolled_plate_is_round_whatever_its_element_lines() {
    for strikes in [8, 16] {
        let ring = json!({
            "mark": "C", "shape": "cylinder", "metal": "thin", "diameter": "10", "diameter_to": "inside",
            "length": "3", "made": "rolled", "strikes": strikes
        });
        // 10 inside and twice .063: 10.126 outside.
        assert!(!lifts(&ring, ["10.12", "10.12"], "0", "endwise"), "{strikes}");
        assert!(lifts(&ring, ["10.13", "10.13"], "0", "endwise"), "{strikes}");
    }
}

#[test]
fn strips_of_lapped_corners_are_in_the_sum() {
    let lap = |side: &str| json!({ "lap": "1/2", "side": side });
    let pan = |shape: &str, corner: Value| {
        let mut part = json!({
            "mark": "P", "shape": shape, "metal": "thin", "lifts_through": ["20", "14"], "clearance": "1/4",
            "height": "3", "rim": "none", "corner": corner
        });
        if shape == "tray" {
            part["dividers"] = json!({ "across": ["8"], "height": "2" });
        }
        part
    };
    // 1/4 and .063, which is 1/16 and a hair: what the part is asked is what it does.
    for shape in ["pan", "tray"] {
        let part = pan(shape, lap("outside"));
        assert!(fact(&part, "lifts through").contains("lap strip"), "{shape}");
    }
    assert!(lifts(&pan("pan", lap("outside")), ["20", "14"], "1/4", "up"));
    assert!(!fact(&pan("pan", lap("inside")), "lifts through").contains("lap strip"));
    let flush = json!({
        "mark": "L", "shape": "tapered_lid", "metal": "thin", "over": ["30", "20"], "flush": { "gap": "1/32" },
        "rise": "2", "inset": "3", "skirt": "2",
        "corner": { "at": { "skirt at corner A": lap("outside") }, "others": "open" }
    });
    assert!(fact(&flush, "sits flush in").contains("lap strip"));
    assert!(lifts(&flush, ["30", "20"], "1/32", "up"));
    let over = json!({
        "mark": "L", "shape": "lid", "metal": "thin", "over": ["20", "14"], "clearance": "1/4", "skirt": "2",
        "corner": lap("inside")
    });
    assert!(fact(&over, "goes over").contains("lap strip"));
}

#[test]
fn a_slot_must_pass_the_strips_on_the_ends() {
    let pan = |carried_by: &str| {
        json!({
            "mark": "P", "shape": "pan", "metal": "thin", "outside": ["20", "14"], "height": "3", "rim": "none",
            "slides_through": { "slot": ["20 1/32", "3 1/32"] },
            "corner": { "lap": "1/2", "side": "outside", "carried_by": carried_by }
        })
    };
    let refused = run("flats", &pan("long sides"), &json!([]));
    assert_eq!(refused.code, 2);
    assert!(refused.stderr.contains("lap strips"), "{}", refused.stderr);
    // Carried by the ends they lie on the long walls, and pass.
    let passes = run("flats", &pan("short sides"), &json!([]));
    assert_eq!(passes.code, 0, "{}", passes.stderr);
}

#[test]
fn lugs_count_on_the_side_they_stand_on() {
    let pan = |face: &str| {
        json!({
            "mark": "P", "shape": "pan", "metal": "tread", "outside": ["19 1/2", "13 1/2"], "height": "5",
            "rim": "none", "face": face
        })
    };
    // 19 1/2 and twice .060.
    assert!(!lifts(&pan("outside"), ["19.61", "13.61"], "0", "up"));
    assert!(lifts(&pan("outside"), ["19.625", "13.625"], "0", "up"));
    assert!(lifts(&pan("inside"), ["19.51", "13.51"], "0", "up"));
    let lifted = |face: &str| {
        json!({
            "mark": "P", "shape": "pan", "metal": "tread", "lifts_through": ["20", "14"], "clearance": "1/32",
            "height": "5", "rim": "none", "face": face
        })
    };
    assert!(fact(&lifted("outside"), "lifts through").contains("lugs"));
    assert!(lifts(&lifted("outside"), ["20", "14"], "1/32", "up"));
    assert!(!fact(&lifted("inside"), "lifts through").contains("lugs"));
    let over = |face: &str| {
        json!({
            "mark": "L", "shape": "lid", "metal": "tread", "over": ["20", "14"], "clearance": "1/32", "skirt": "2",
            "face": face
        })
    };
    assert!(fact(&over("inside"), "goes over").contains("lugs"));
    assert!(!fact(&over("outside"), "goes over").contains("lugs"));
}

/// A pan that slides through its slot: lugs outside are at both ends and under the floor, lugs inside on a rim turned out.
#[test]
fn lugs_count_in_the_slot_that_a_pan_slides_through() {
    let slides = |face: &str, rim: &str, slot: [&str; 2]| {
        let pan = json!({
            "mark": "P", "shape": "pan", "metal": "tread", "outside": ["20", "14"], "height": "3", "rim": rim,
            "face": face, "slides_through": { "slot": slot }
        });
        run("flats", &pan, &json!([]))
    };
    // 20 and twice .060; 3 and once .060.
    assert_eq!(slides("inside", "none", ["20.05", "3.05"]).code, 0);
    let narrow = slides("outside", "none", ["20.11", "3.10"]);
    assert_eq!(narrow.code, 2);
    assert!(narrow.stderr.contains("over its ends and their lugs"), "{}", narrow.stderr);
    let low = slides("outside", "none", ["20.13", "3.05"]);
    assert_eq!(low.code, 2);
    assert!(low.stderr.contains("the pan with its lugs"), "{}", low.stderr);
    assert_eq!(slides("outside", "none", ["20.13", "3.10"]).code, 0);
    // A rim of an inch covers the lugs of the walls; its own stand on it where the marked face is the inside.
    assert_eq!(slides("inside", "1 out", ["22.05", "3.05"]).code, 2);
    assert_eq!(slides("inside", "1 out", ["22.05", "3.10"]).code, 0);
}

/// Strips inside the corners of a proud lid stand in the opening, however the lid is made up.
#[test]
fn lap_strips_inside_a_proud_lid_are_told() {
    let told = |made: &str, side: &str, outset: &str| {
        let lid = json!({
            "mark": "L", "shape": "tapered_lid", "metal": "thin", "over": ["30", "20"], "outset": outset, "rise": "2",
            "inset": "3", "skirt": "1 1/2", "made": made, "corner": { "lap": "1/2", "side": side }
        });
        let run = run("flats", &lid, &json!([]));
        assert_eq!(run.code, 0, "{}", run.stderr);
        run.stderr.contains("lap strips comes to") || run.stdout.contains("lap strips comes to")
    };
    for made in ["plates", "top_and_ring"] {
        assert!(told(made, "inside", ".120"), "{made}");
        assert!(!told(made, "inside", "3/16"), "{made}");
        assert!(!told(made, "outside", ".120"), "{made}");
    }
}

#[test]
fn a_lid_that_is_too_near_when_closed_says_how_near() {
    let lid = json!({
        "mark": "L", "shape": "lid", "metal": "thin", "outside": ["20", "14"], "skirt": "2"
    });
    let fit = json!([{
        "fit": "lid_swing", "part": "L", "hinge": "AB", "pin": ["1", "0"], "opens": 110, "clearance": "1/8",
        "around": [{ "name": "post", "box": [["-1 1/16", "-2"], ["-15/16", "20"]] }]
    }]);
    let checked = parsed(&run("check", &lid, &fit));
    let sentence = checked["fits"][0]["answer"].as_str().unwrap_or_default().to_owned();
    assert!(sentence.contains("closed, the gap between"), "{checked}");
    assert!(!sentence.contains("down to"), "{sentence}");
}

#[test]
fn seams_between_pieces_are_numbers() {
    let skiff = "fixtures/jobs/oyster-skiff.json";
    let flats = parsed(&plateloft(&["flats", skiff, "--json"]));
    let parts = flats["parts"].as_array().unwrap().clone();
    let text = plateloft(&["flats", skiff, "--refold"]).stdout;
    let mut seen = 0;
    for part in &parts {
        for seam in part["seams"].as_array().unwrap() {
            if seam["between_pieces"] != true {
                continue;
            }
            seen += 1;
            let [least, largest] = ["least_gap", "largest_gap"].map(|name| seam[name].as_f64().unwrap());
            assert!(least <= largest + 1e-6, "{seam}");
            // Cells are set in narrow columns, word under word.
            let first = seam["name"].as_str().unwrap().split(' ').next().unwrap();
            assert!(text.contains(first) && text.contains("between"), "{seam}");
        }
    }
    // Every fact of a seam or weld that tells a gap is there as numbers too.
    let told = parts.iter().flat_map(|part| part["facts"].as_array().unwrap());
    let told = told.filter(|fact| fact["value"].as_str().is_some_and(|words| words.contains("gap designed")));
    assert_eq!(seen, told.count());
    assert!(seen > 0);
}
