//! How long nests are looked for: by the job, by the clock, and until somebody has waited enough.
#![expect(clippy::disallowed_methods, reason = "a test of a program that writes files reads them")]

use std::io::{BufRead, BufReader, Read};
use std::process::{Command, Stdio};

use serde_json::{Value, json};
use tempfile::tempdir;

use crate::program::plateloft_in;

/// Braces that would fill three sheets to some nine tenths: no bound proves a fourth, and the search never ends by itself.
fn job(nesting: &Value) -> String {
    let brace = |mark: &str, length: &str, rise: &str, quantity: u32| {
        let outline = json!([["0", "0"], [length, "0"], ["7", rise]]);
        json!({ "mark": mark, "shape": "panel", "metal": "skin", "quantity": quantity, "outline": outline })
    };
    let parts = [brace("K1", "31", "17", 16), brace("K2", "23", "21", 20), brace("K3", "40", "11", 14)];
    let skin = json!({ "alloy": "5052-H32", "thickness": ".125", "inside_radius": ".125", "turns": "any" });
    json!({
        "plateloft": 1, "job": "Braces of a slipway trolley", "date": "2026-03-04", "units": "inch", "tape": "1/16",
        "shop": { "gap": "1/4", "edge_trim": "1/2", "nesting": nesting },
        "metals": { "skin": skin },
        "sheets": [{ "metal": "skin", "size": ["48", "96"] }],
        "parts": parts,
    })
    .to_string()
}

#[test]
fn a_job_says_how_long_nests_are_looked_for() {
    let folder = tempdir().unwrap();
    let nest = |evaluations: u64, seed: u64| {
        let job = job(&json!({ "evaluations": evaluations, "seed": seed }));
        std::fs::write(folder.path().join("job.json"), job).unwrap();
        plateloft_in(folder.path(), &["nest", "job.json", "--json"])
    };
    let first = nest(300, 3);
    assert_eq!(first.code, 0, "{}", first.stderr);
    let answer: Value = serde_json::from_str(&first.stdout).unwrap();
    assert_eq!(answer["effort"]["evaluations"], 300);
    assert_eq!(answer["effort"]["seed"], 3);
    assert_eq!(answer["ended_early"], false);
    assert_eq!(first.stdout, nest(300, 3).stdout, "the same job gives the same nest");
    assert_ne!(first.stdout, nest(300, 4).stdout, "another seed looks elsewhere");
    let none = nest(0, 1);
    assert_eq!(none.code, 2);
    assert!(
        none.stderr.contains("job.json: shop.nesting.evaluations: 0: must be from 1 to"),
        "{}",
        none.stderr
    );
}

#[test]
fn seconds_end_a_search_with_the_best_so_far() {
    let folder = tempdir().unwrap();
    std::fs::write(folder.path().join("job.json"), job(&json!({ "evaluations": 1_000_000_000_000_u64 })))
        .unwrap();
    let ended = plateloft_in(folder.path(), &["nest", "job.json", "--seconds", "1"]);
    assert_eq!(ended.code, 0, "{}", ended.stderr);
    assert!(ended.stdout.contains("ended before its 1000000000000 evaluations"), "{}", ended.stdout);
    assert!(ended.stderr.contains("the search was ended early"), "{}", ended.stderr);
    let written = plateloft_in(folder.path(), &["packet", "job.json", "--out", "packet", "--seconds", "1"]);
    assert_eq!(written.code, 0, "{}", written.stderr);
    let page = std::fs::read_to_string(folder.path().join("packet/index.html")).unwrap();
    assert!(page.contains("The search for nests was ended early"), "the packet must say so");
}

/// Numbers of the command line that cannot be are refused in the program's own words, with what to do.
#[test]
fn numbers_of_options_are_refused_in_words() {
    let folder = tempdir().unwrap();
    std::fs::write(folder.path().join("job.json"), job(&json!({}))).unwrap();
    let above_zero = "must be above zero\n    give whole seconds, 1 or more";
    let no_number = "is no number of whole seconds\n    give whole seconds, 1 or more";
    let refused = |arguments: &[&str], told: &str| {
        let run = plateloft_in(folder.path(), arguments);
        assert_eq!(run.code, 2, "{arguments:?}: {}", run.stdout);
        assert!(run.stderr.contains(told), "{arguments:?}: {told}: {}", run.stderr);
        assert!(run.stderr.ends_with("1 problem; nothing was written\n"), "{arguments:?}: {}", run.stderr);
    };
    for (seconds, told) in [("0", above_zero), ("-1", above_zero), ("1.5", no_number), ("soon", no_number)] {
        refused(&["nest", "job.json", "--seconds", seconds], &format!("nest: --seconds: {seconds}: {told}"));
        refused(
            &["packet", "job.json", "--out", "packet", "--seconds", seconds],
            &format!("packet: --seconds: {seconds}: {told}"),
        );
    }
    refused(
        &["nest", "job.json", "--seconds", "99999999999"],
        "--seconds: 99999999999: is longer than anybody waits",
    );
    refused(
        &["packet", "job.json", "--out", "packet", "--labels", "-1"],
        "packet: --labels: -1: no such sheet of labels",
    );
    assert!(!folder.path().join("packet").exists());
    assert_eq!(plateloft_in(folder.path(), &["rack", "keep", "12", "18"]).code, 0);
    for (option, sizes) in [
        ("thickness", &["0"][..]),
        ("thickness", &["-.1"]),
        ("holds", &["-1", "30"]),
        ("holds", &["30", "0"]),
    ] {
        let wrong = sizes.iter().find(|size| **size != "30").unwrap();
        let told = format!("rack list: --{option}: {wrong}: must be above zero");
        refused(&[&["rack", "list", &format!("--{option}")], sizes].concat(), &told);
    }
    let bend = ["bend", "--thickness", ".125", "--radius", ".125"];
    refused(&[&bend[..], &["--k", "-1"]].concat(), "a K-factor of -1 cannot be: between 0 and .5");
    refused(&[&bend[..], &["--k", "soft"]].concat(), "bend: --k: soft: is no number");
    refused(&[&bend[..], &["--flat-of", "-2", "3"]].concat(), "bend: --flat-of: -2: must be above zero");
    refused(
        &[&bend[..], &["--strip", "-4", "--legs", "2.1", "2.1"]].concat(),
        "bend: --strip: -4: must be above zero",
    );
}

#[test]
#[cfg(unix)]
fn an_interrupt_ends_a_search_with_the_best_so_far() {
    let folder = tempdir().unwrap();
    std::fs::write(folder.path().join("job.json"), job(&json!({ "evaluations": 1_000_000_000_000_u64 })))
        .unwrap();
    let mut running = Command::new(env!("CARGO_BIN_EXE_plateloft"))
        .args(["nest", "job.json", "--json"])
        .current_dir(folder.path())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut heard = BufReader::new(running.stderr.take().unwrap()).lines();
    // By then the program listens.
    let begun = heard.next().unwrap().unwrap();
    assert!(begun.contains("Ctrl-C ends with the best so far"), "{begun}");
    let interrupt = Command::new("kill").args(["-INT", &running.id().to_string()]).status().unwrap();
    assert!(interrupt.success());
    let mut answer = String::new();
    running.stdout.take().unwrap().read_to_string(&mut answer).unwrap();
    assert_eq!(running.wait().unwrap().code(), Some(0));
    let answer: Value = serde_json::from_str(&answer).unwrap();
    assert_eq!(answer["ended_early"], true);
    let copies = answer["metals"][0]["sheets"].as_array().unwrap().iter();
    let pieces: usize = copies.map(|sheet| sheet["pieces"].as_array().unwrap().len()).sum();
    assert_eq!(pieces, 50, "the nest holds every piece");
}
