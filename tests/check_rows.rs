//! Every mark and every whole of a job has its row to tick, and what is measured on it says between which faces.
#![expect(clippy::disallowed_methods, reason = "a test of fixtures reads them")]

use std::collections::BTreeMap;
use std::fs;

use serde_json::Value;

use crate::program::{packet_of, top};
use crate::written::pdf;
use crate::written::places::words;

/// All words of a drawing, one after the other.
fn text(svg: &[u8]) -> String {
    words(svg).into_iter().map(|(words, _)| words).collect::<Vec<_>>().join(" ")
}

/// Rows of the leaves with boxes to tick: what stands in them at the left.
fn rows(packet: &BTreeMap<String, Vec<u8>>) -> Vec<String> {
    let leaves = pdf::leaves(&packet["packet.pdf"]);
    let has_boxes = |leaf: &&_| {
        let leaf: &crate::written::Seen = leaf;
        leaf.texts.iter().any(|ink| ink.words == "dry-fit by")
    };
    leaves.iter().filter(has_boxes).flat_map(|leaf| leaf.texts.iter().map(|ink| ink.words.clone())).collect()
}

fn has_row(rows: &[String], name: &str) -> bool {
    rows.iter().any(|row| row == name || row.starts_with(&format!("{name} no. 1 of ")))
}

#[test]
fn every_mark_and_every_whole_of_every_job_has_a_row_to_tick() {
    let mut missing = Vec::new();
    let mut wholes = 0;
    for entry in fs::read_dir(top().join("fixtures/jobs")).unwrap() {
        let path = entry.unwrap().path().to_str().unwrap().to_owned();
        let job: Value = serde_json::from_slice(&fs::read(&path).unwrap()).unwrap();
        let packet = packet_of(&path, &[]);
        let rows = rows(&packet);
        let flats: Value = serde_json::from_slice(&packet["flats.json"]).unwrap();
        let marks: Vec<&str> =
            flats["parts"].as_array().unwrap().iter().map(|part| part["mark"].as_str().unwrap()).collect();
        missing
            .extend(marks.iter().filter(|mark| !has_row(&rows, mark)).map(|mark| format!("{path} {mark}")));
        for part in job["parts"].as_array().unwrap() {
            let mark = part["mark"].as_str().unwrap();
            if marks.contains(&mark) {
                continue;
            }
            wholes += 1;
            if !has_row(&rows, &format!("{mark}, put together")) {
                missing.push(format!("{path} {mark}, put together"));
            }
        }
    }
    assert!(missing.is_empty(), "{missing:#?}");
    assert!(8 < wholes, "{wholes} wholes were looked for");
}

#[test]
fn a_box_is_checked_by_its_mouth_a_deck_and_a_panel_by_named_faces_and_both_diagonals() {
    let skiff = packet_of("fixtures/jobs/rescue-skiff.json", &[]);
    for mark in ["DBP", "DBS"] {
        let page = text(&skiff[&format!("folded/{mark}.svg")]);
        // Rims of 3/4 turn in over a floor of 22 by 12 1/2; wall CD leans out, and its rim is as deep over it.
        for found in ["mouth along AB, ", "mouth along BC, ", "diagonals of the mouth"] {
            assert!(page.contains(found), "{mark}: {found}: {page}");
        }
        assert!(page.contains("mouth along AB, from rim DA to rim BC, inside 20 1/2"), "{mark}: {page}");
    }
    for mark in ["SDP-1", "SDP-2", "SDS-1", "SDS-2"] {
        let page = text(&skiff[&format!("folded/{mark}.svg")]);
        for found in
            ["square from the inboard edge, over the outsides", "diagonal, inboard aft to outboard forward"]
        {
            assert!(page.contains(found), "{mark}: {found}: {page}");
        }
    }
    let decks = packet_of("fixtures/jobs/deck-pair.json", &[]);
    for mark in ["SDP", "SDS"] {
        let page = text(&decks[&format!("folded/{mark}.svg")]);
        assert!(2 <= page.matches("diagonal, ").count(), "{mark}: {page}");
        assert!(page.contains("outside of flange AB to outside of flange "), "{mark}: {page}");
    }
    let oyster = crate::program::packet_of_the_skiff();
    for mark in ["WS", "WP"] {
        let page = text(&oyster[&format!("folded/{mark}.svg")]);
        for side in ["side AB", "side BC", "side CD", "side DA"] {
            assert!(page.contains(side), "{mark}: {side}: {page}");
        }
    }
}
