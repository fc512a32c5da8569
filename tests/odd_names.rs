//! Names of every kind: right to left, from other scripts, as markup, as long as a job takes them. All are shown, escaped, shortened where they must be, and none lies on another.

use std::collections::BTreeMap;

use serde_json::Value;
use tempfile::tempdir;

use crate::program::{files, plateloft, top};
use crate::written::{self, pdf, svg};

/// What stands for what, as keys and as values.
fn odd() -> BTreeMap<&'static str, String> {
    BTreeMap::from([
        ("L1", "\u{5de}\u{5db}\u{5e1}\u{5d4}1".to_owned()),
        ("T", "\u{62f}\u{631}\u{62c}".to_owned()),
        ("P1", "\u{677f}".repeat(24)),
        ("WS", "W".repeat(24)),
        ("skin", format!("<script>alert('skin')</script> & \"{}", "x".repeat(5))),
        ("tray", "\u{5e4}\u{5d7} (\u{5d3}\u{5e7}) 1.5".to_owned()),
        ("well", "\u{202e}llew\u{202c} \u{1f6a4}".to_owned()),
    ])
}

fn renamed(value: &Value, odd: &BTreeMap<&str, String>) -> Value {
    let name = |word: &str| odd.get(word).cloned().unwrap_or_else(|| word.to_owned());
    match value {
        Value::String(word) => Value::String(name(word)),
        Value::Array(list) => list.iter().map(|value| renamed(value, odd)).collect(),
        Value::Object(fields) => {
            Value::Object(fields.iter().map(|(key, value)| (name(key), renamed(value, odd))).collect())
        }
        other => other.clone(),
    }
}

#[test]
fn names_of_every_kind_are_shown_and_never_lie_on_one_another() {
    let skiff: Value =
        serde_json::from_slice(&files(&top().join("fixtures/jobs"))["oyster-skiff.json"]).unwrap();
    let mut job = renamed(&skiff, &odd());
    let name = format!("<script>alert(1)</script> \u{5e1}\u{5d9}\u{5e8}\u{5d4} {}", "skiff ".repeat(8));
    job["job"] = Value::String(name);
    let folder = tempdir().unwrap();
    let (file, out) = (folder.path().join("odd.json"), folder.path().join("packet"));
    write(&file, &job.to_string());
    let run =
        plateloft(&["packet", file.to_str().unwrap(), "--paper-models", "--out", out.to_str().unwrap()]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let packet = files(&out);
    let html = std::str::from_utf8(&packet["index.html"]).unwrap();
    assert!(!html.contains("<script"), "no name becomes markup");
    assert!(!html.contains('\u{202e}'), "nothing turns letters about unseen");
    for drawing in svg::drawings(html) {
        assert_eq!(written::faults(&drawing), [] as [String; 0]);
    }
    let leaves = pdf::leaves(&packet["packet.pdf"]);
    for leaf in &leaves {
        assert_eq!(written::faults(leaf), [] as [String; 0]);
    }
    let words = |part: &str| leaves.iter().flat_map(|leaf| &leaf.texts).any(|text| text.words.contains(part));
    // Seen from left to right, the last letter of a Hebrew word comes first; brackets are mirrored.
    assert!(words("1\u{5d4}\u{5e1}\u{5db}\u{5de}"), "the mark, turned about");
    assert!(words("1.5 (\u{5e7}\u{5d3}) \u{5d7}\u{5e4}"), "the metal, turned about");
    assert!(words("[677F]") && words("<script>alert(1)"), "letters that the font lacks, and markup as words");
    let shortened =
        leaves.iter().flat_map(|leaf| &leaf.texts).any(|text| text.words.starts_with("Words that end in …"));
    assert!(shortened, "what is shortened is told");
}

#[expect(clippy::disallowed_methods, reason = "the program reads its job from a file")]
fn write(path: &std::path::Path, text: &str) {
    std::fs::write(path, text).unwrap();
}
