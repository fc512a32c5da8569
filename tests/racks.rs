//! The trail crew's rack in `fixtures/racks`: what suits the sled tool bin is used first, what does not is told with why.
#![expect(clippy::disallowed_methods, reason = "a test of a program that reads a file writes it")]

use std::fs;

use serde_json::Value;
use tempfile::tempdir;

use crate::program::{files, plateloft_in, top};

/// The bin's job beside the rack.
fn shop() -> tempfile::TempDir {
    let shop = tempdir().unwrap();
    fs::write(shop.path().join("job.json"), &files(&top().join("fixtures/jobs"))["sled-bin.json"]).unwrap();
    fs::write(shop.path().join("rack.json"), &files(&top().join("fixtures/racks"))["sled-bin.json"]).unwrap();
    shop
}

#[test]
fn the_rack_goes_first_and_the_wrong_alloy_is_told() {
    let shop = shop();
    let suits = plateloft_in(shop.path(), &["rack", "list", "--suits", "job.json"]);
    assert_eq!(suits.code, 0, "{}", suits.stderr);
    for told in ["suits: A ", "suits: B ", "suits: C ", "not D: it is 5086-H32, wanted is 5052-H32"] {
        assert!(suits.stdout.contains(told), "{told}: {}", suits.stdout);
    }
    let run = plateloft_in(shop.path(), &["nest", "job.json", "--rack", "rack.json", "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let nest: Value = serde_json::from_str(&run.stdout).unwrap();
    let sheets = nest["metals"][0]["sheets"].as_array().unwrap();
    let laid: Vec<String> = sheets.iter().map(ToString::to_string).collect();
    // The lid on piece A; the tub fits no piece, and one sheet is bought for it.
    assert_eq!(laid.len(), 2, "{laid:?}");
    assert!(laid.iter().any(|sheet| sheet.contains("\"LID\"") && !sheet.contains("\"TUB\"")), "{laid:?}");
    let text = plateloft_in(shop.path(), &["nest", "job.json", "--rack", "rack.json"]).stdout;
    let text = text.replace('\n', " ");
    for told in [
        "B of the rack, 36 × 60 over all, 6 corners: too small for TUB",
        "C of the rack, 19 × 71: too small for TUB",
    ] {
        assert!(text.contains(told), "{told}: {text}");
    }
    assert!(!text.contains("D of the rack"), "{text}");
}
