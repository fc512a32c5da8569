//! Faces of offcuts as whole commands: told wherever parts are cut, or not cut at all.
#![expect(clippy::disallowed_methods, reason = "a test of a program that keeps a file writes and reads it")]

use std::fs;

use serde_json::{Value, json};
use tempfile::tempdir;

use crate::program::plateloft_in;
use crate::rack::{RACK, added, text};

#[test]
fn a_face_that_is_not_good_is_told_wherever_parts_are_cut_from_it() {
    let shop = tempdir().unwrap();
    let mut job = json!({
        "plateloft": 1, "job": "Boat", "units": "inch", "tape": "1/16",
        "shop": { "gap": "1/4", "edge_trim": "1/2" },
        "metals": { "skin": { "alloy": "5052-H32", "thickness": ".125" } },
        "sheets": [{ "metal": "skin", "size": ["48", "96"], "price": 210 }],
        "parts": [{ "mark": "P", "shape": "plate", "metal": "skin", "size": ["20", "10"] }]
    });
    let write = |job: &Value| fs::write(shop.path().join("job.json"), job.to_string()).unwrap();
    write(&job);
    let run = |words: &[&str]| {
        let run = plateloft_in(shop.path(), words);
        assert_eq!(run.code, 0, "{words:?}: {}", run.stderr);
        run.stdout
    };
    for (mark, more, told) in [
        ("R1", &["--face", "scratched"][..], "scratched; P is cut from it"),
        ("R2", &[][..], "not inspected; P is cut from it"),
        ("R3", &["--face", "good"][..], ""),
    ] {
        let _ = fs::remove_file(shop.path().join(RACK));
        let _ = fs::remove_dir_all(shop.path().join("out"));
        added(shop.path(), mark, &[&["--size", "30", "24"], more].concat());
        let sentence = format!("{mark} of the rack: its face is {told}");
        let joined = |words: &[&str]| run(words).split_whitespace().collect::<Vec<_>>().join(" ");
        for command in ["buy", "order"] {
            let all = joined(&[command, "job.json", "--rack", RACK]);
            assert!(all.contains(&format!("{mark} of the rack")), "{command}: {all}");
            assert_eq!(all.contains("its face is"), !told.is_empty(), "{command}: {all}");
            assert!(told.is_empty() || all.contains(&sentence), "{command}: {all}");
        }
        run(&["packet", "job.json", "--rack", RACK, "--out", "out"]);
        let page = text(shop.path(), "out/index.html");
        let map = text(shop.path(), "out/sheets/skin-1.svg");
        let cuts = joined(&["nest", "job.json", "--rack", RACK]);
        if told.is_empty() {
            assert!(!page.contains("its face is") && !map.contains("face of the offcut"), "{page}");
        } else {
            assert!(page.contains(&sentence), "the cautions are silent");
            assert!(map.contains("face of the offcut") && map.contains(told), "the map is silent: {map}");
            assert!(cuts.contains(&format!("1. look at the face of the offcut: {told}")), "{cuts}");
        }
    }
    // A metal whose face shows takes neither.
    job["metals"]["skin"]["face_shows"] = json!(true);
    write(&job);
    let _ = fs::remove_file(shop.path().join(RACK));
    added(shop.path(), "R1", &["--size", "30", "24", "--face", "scratched"]);
    added(shop.path(), "R2", &["--size", "30", "24"]);
    let suits = run(&["rack", "list", "--suits", "job.json"]);
    for told in [
        "not R1: its face is scratched, and the metal has a face that shows",
        "not R2: its face is not inspected, and the metal has a face that shows",
    ] {
        assert!(suits.contains(told), "{told}: {suits}");
    }
    assert!(run(&["buy", "job.json", "--rack", RACK]).contains("1 of skin 48 × 96"));
    added(shop.path(), "R3", &["--size", "30", "24", "--face", "good"]);
    assert!(run(&["buy", "job.json", "--rack", RACK]).contains("R3 of the rack"));
}
