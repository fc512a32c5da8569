//! A metal without a published least radius is never passed over in silence: in `check`, in JSON, on paper.

use serde_json::Value;

use crate::program::{packet_of, plateloft};

/// Its gutter is of 5083-H116, for which no row was found; 5083-H321, sold to one strength with it, asks 1 1/2 T in 1/8 in
/// (Aluminum Design Manual, January 2005, table 3-1), and the job bends it at 1 1/4 T.
const HATCH: &str = "fixtures/jobs/six-corner-hatch.json";

/// The words that must stand wherever the gutter is shown.
fn tells(text: &str, place: &str) {
    for words in
        ["not judged: no published least is known for 5083-H116", "H321", "LIKELY TO CRACK", "bend a strip"]
    {
        assert!(text.contains(words), "{place} does not say {words}: {text}");
    }
}

#[test]
fn check_says_what_is_not_judged_and_what_is_likely_to_crack() {
    let run = plateloft(&["check", HATCH]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    tells(&run.stdout, "check");
    // Of the metal once, of the four corners of a piece bend by bend.
    assert_eq!(run.stdout.matches("not judged").count(), 1, "{}", run.stdout);
    assert!(!run.stdout.contains("for 5052-H32"), "its row is known: {}", run.stdout);
}

#[test]
fn json_has_both_findings_of_the_gutter_and_neither_of_the_lid() {
    let run = plateloft(&["check", HATCH, "--json"]);
    let report: Value = serde_json::from_str(&run.stdout).unwrap();
    tells(&report["cautions"].to_string(), "check --json");
    let run = plateloft(&["flats", HATCH, "--json"]);
    let flats: Value = serde_json::from_str(&run.stdout).unwrap();
    for part in flats["parts"].as_array().unwrap() {
        let (mark, cautions) = (part["mark"].as_str().unwrap(), part["cautions"].to_string());
        if mark.starts_with("G1") {
            tells(&cautions, mark);
        } else {
            assert!(!cautions.contains("no published least"), "{mark}: {cautions}");
        }
    }
}

#[test]
fn the_packet_shows_both() {
    let packet = packet_of(HATCH, &[]);
    let page = String::from_utf8_lossy(&packet["index.html"]);
    for words in ["no published least is known for 5083-H116", "LIKELY TO CRACK"] {
        assert!(page.contains(words), "{words}");
    }
}
