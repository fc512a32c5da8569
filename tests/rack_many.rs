//! More offcuts than a job needs, and more than are tried.
#![expect(clippy::disallowed_methods, reason = "a test of a program that reads a file writes it")]

use std::fs;

use serde_json::{Value, json};
use tempfile::tempdir;

use crate::program::plateloft_in;
use crate::rack::RACK;

/// Eight parts and eight offcuts that hold one each: all are taken and nothing is bought. More than are tried are named.
#[test]
fn as_many_offcuts_are_taken_as_there_are_parts() {
    let shop = tempdir().unwrap();
    let job = json!({
        "plateloft": 1, "job": "Hatches", "units": "inch", "tape": "1/16",
        "shop": { "gap": "1/4", "edge_trim": "1/2" },
        "metals": { "skin": { "alloy": "5052-H32", "thickness": ".125" } },
        "sheets": [{ "metal": "skin", "size": ["48", "96"], "price": 210 }],
        "parts": [{ "mark": "P", "shape": "plate", "metal": "skin", "size": ["38", "28"], "quantity": 8 }]
    });
    fs::write(shop.path().join("job.json"), job.to_string()).unwrap();
    let pieces = |count: usize| {
        let _ = fs::remove_file(shop.path().join(RACK));
        let piece = |number: usize| {
            json!({ "mark": format!("S{number}"), "metal": "5052-H32", "thickness": "0.125 in", "film": "none",
                    "outline": [["0 in", "0 in"], ["40 in", "0 in"], ["40 in", "30 in"], ["0 in", "30 in"]],
                    "face": "good", "lay": "unknown", "place": "wall", "date": "2026-03-04" })
        };
        let offcuts: Vec<Value> = (1..=count).map(piece).collect();
        let rack = json!({ "plateloft_rack": 1, "offcuts": offcuts });
        fs::write(shop.path().join(RACK), rack.to_string()).unwrap();
        let run = plateloft_in(shop.path(), &["buy", "job.json", "--rack", RACK]);
        assert_eq!(run.code, 0, "{}", run.stderr);
        run
    };
    let eight = pieces(8);
    assert_eq!(eight.stdout.matches(" from the rack").count(), 8, "{}", eight.stdout);
    assert!(!eight.stdout.contains("1 of skin"), "a sheet was ordered: {}", eight.stdout);
    let many = pieces(26);
    let all = format!("{}\n{}", many.stdout, many.stderr);
    let words = all.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        words.contains("26 of the rack suit, and the 24 largest are tried. Not tried: S25, S26."),
        "{all}"
    );
}
