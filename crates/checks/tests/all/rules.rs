//! The list of rules and the folder of their files say the same.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use std::collections::BTreeSet;
use std::path::Path;

/// Files of the folder that hold no rule: the list itself, and distances that rules share.
const NO_RULES: [&str; 2] = ["mod", "apart"];

fn files() -> BTreeSet<String> {
    let folder = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/src/rules"));
    let names = folder.read_dir().unwrap().map(|entry| entry.unwrap().path());
    let stem = |path: std::path::PathBuf| path.file_stem().unwrap().to_string_lossy().into_owned();
    names.map(stem).filter(|name| !NO_RULES.contains(&name.as_str())).collect()
}

#[test]
fn every_file_is_a_rule_and_every_rule_a_file() {
    let rules: Vec<String> = checks::rule_names().map(str::to_owned).collect();
    let listed: BTreeSet<String> = rules.iter().cloned().collect();
    assert_eq!(rules.len(), listed.len(), "a rule is listed twice");
    assert_eq!(listed, files());
}

#[test]
fn every_rule_has_a_test_that_names_it() {
    let tests = concat!(
        include_str!("bends.rs"),
        include_str!("holes.rs"),
        include_str!("machine.rs"),
        include_str!("cuts.rs")
    );
    for rule in checks::rule_names() {
        assert!(tests.contains(&format!("\"{rule}\"")), "{rule}");
    }
}
