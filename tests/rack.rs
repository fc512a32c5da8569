//! The shop's rack as whole commands: kept, listed, taken, labelled, and refused without loss.
#![expect(clippy::disallowed_methods, reason = "a test of a program that keeps a file writes and reads it")]

use std::fs;
use std::path::Path;
use std::process::Command;

use serde_json::{Value, json};
use tempfile::tempdir;

use crate::program::{Run, plateloft_in, top};
use crate::rack_labels::label_words;

pub(crate) const RACK: &str = "rack.json";

pub(crate) fn add(folder: &Path, mark: &str, more: &[&str]) -> Run {
    add_at(folder, mark, "B3", more)
}

pub(crate) fn add_at(folder: &Path, mark: &str, place: &str, more: &[&str]) -> Run {
    let fixed = ["rack", "add", "--mark", mark, "--place", place, "--date", "2026-03-04"];
    plateloft_in(folder, &[&fixed[..], more].concat())
}

pub(crate) const SKIN: [&str; 4] = ["--metal", "5052-H32", "--thickness", ".126"];

pub(crate) fn added(folder: &Path, mark: &str, more: &[&str]) {
    let run = add(folder, mark, &[&SKIN[..], more].concat());
    assert_eq!(run.code, 0, "{}", run.stderr);
}

pub(crate) fn list(folder: &Path, more: &[&str]) -> Vec<Value> {
    let run = plateloft_in(folder, &[&["rack", "list", "--json"], more].concat());
    assert_eq!(run.code, 0, "{}", run.stderr);
    let listed: Value = serde_json::from_str(&run.stdout).unwrap();
    listed["offcuts"].as_array().unwrap().clone()
}

pub(crate) fn marks(pieces: &[Value]) -> Vec<&str> {
    pieces.iter().map(|piece| piece["mark"].as_str().unwrap()).collect()
}

pub(crate) fn text(folder: &Path, name: &str) -> String {
    fs::read_to_string(folder.join(name)).unwrap_or_default()
}

pub(crate) const L_SHAPE: [&str; 18] = [
    "--corner", "0", "0", "--corner", "30", "0", "--corner", "30", "10", "--corner", "10", "10", "--corner",
    "10", "24", "--corner", "0", "24",
];

#[test]
fn a_piece_keeps_its_outline_and_all_that_is_known() {
    let shop = tempdir().unwrap();
    let more = ["--face", "good", "--film", "one-side", "--lay", "along-x", "--from-job", "Oyster skiff"];
    added(shop.path(), "R1", &[&L_SHAPE[..], &more].concat());
    let piece = &list(shop.path(), &[])[0];
    assert_eq!(piece["metal"], "5052-H32");
    assert_eq!(piece["thickness"], "0.126 in");
    assert_eq!(piece["outline"][3], json!(["10 in", "10 in"]));
    assert_eq!(piece["standing"], "free");
    assert_eq!(piece["state"], "face good, film one side, lay along x");
    // 30 × 10 + 10 × 14 = 440 in², in square nanometres.
    assert_eq!(piece["exact_area"], (440_i128 * 25_400_000 * 25_400_000).to_string());
    let run = plateloft_in(shop.path(), &["rack", "list"]);
    assert!(run.stdout.contains("6 corners, 3.056 ft2"), "{}", run.stdout);
}

#[test]
fn filters_look_inside_the_outline() {
    let shop = tempdir().unwrap();
    added(shop.path(), "L", &L_SHAPE);
    added(shop.path(), "P", &["--size", "30", "24"]);
    let tread = ["--metal", "3003-H22", "--tread", "--thickness", ".125", "--size", "40", "40"];
    assert_eq!(add(shop.path(), "T", &tread).code, 0);
    assert_eq!(marks(&list(shop.path(), &[])), ["L", "P", "T"]);
    assert_eq!(marks(&list(shop.path(), &["--holds", "10", "30"])), ["L", "P", "T"]);
    // The L is 30 × 24 over all, but holds nothing wider than its legs.
    assert_eq!(marks(&list(shop.path(), &["--holds", "11", "20"])), ["P", "T"]);
    assert_eq!(marks(&list(shop.path(), &["--tread"])), ["T"]);
    assert_eq!(marks(&list(shop.path(), &["--metal", "5052-H32", "--holds", "24", "30"])), ["P"]);
    assert_eq!(marks(&list(shop.path(), &["--thickness", "3.2 mm", "--plain"])), ["L", "P"]);
    assert_eq!(marks(&list(shop.path(), &["--thickness", ".090"])), [""; 0]);
}

#[test]
fn a_piece_is_reserved_taken_and_put_back() {
    let shop = tempdir().unwrap();
    added(shop.path(), "R1", &["--size", "30", "24"]);
    added(shop.path(), "R2", &["--size", "30", "24"]);
    let rack = |words: &[&str]| plateloft_in(shop.path(), &[&["rack"], words].concat());
    assert_eq!(rack(&["take", "R1", "--job", "Skiff", "--reserve"]).code, 0);
    assert_eq!(marks(&list(shop.path(), &["--free"])), ["R2"]);
    let other = rack(&["take", "R2", "r1", "R9", "--job", "Gig"]);
    assert_eq!(other.code, 2);
    assert!(other.stderr.contains("r1: is reserved for Skiff"), "{}", other.stderr);
    assert!(other.stderr.contains("R9: no piece of this mark"), "{}", other.stderr);
    assert_eq!(marks(&list(shop.path(), &["--free"])), ["R2"], "half of a refused order was carried out");
    assert_eq!(rack(&["take", "R1", "--job", "Skiff"]).code, 0);
    assert_eq!(marks(&list(shop.path(), &[])), ["R2"]);
    assert_eq!(marks(&list(shop.path(), &["--taken"])), ["R1", "R2"]);
    assert_eq!(rack(&["take", "R1", "--job", "Skiff"]).code, 2, "one piece cannot be taken twice");
    assert_eq!(rack(&["return", "R1"]).code, 0);
    assert_eq!(marks(&list(shop.path(), &["--free"])), ["R1", "R2"]);
    assert_eq!(rack(&["return", "R1"]).code, 2);
}

/// Nothing may be written with a unit, too.
#[test]
fn a_corner_at_nothing_inches_is_one() {
    let shop = tempdir().unwrap();
    let corners =
        ["--corner", "0 in", "0", "--corner", "30", "0 mm", "--corner", "30", "24", "--corner", "0\"", "24"];
    added(shop.path(), "R1", &corners);
    assert_eq!(list(shop.path(), &[])[0]["outline"][1], json!(["30 in", "0 in"]));
}

#[test]
fn small_pieces_are_scrap_by_the_shop_s_own_rule() {
    let shop = tempdir().unwrap();
    assert_eq!(plateloft_in(shop.path(), &["rack", "keep", "20", "11"]).code, 0);
    let small = add(shop.path(), "L", &[&SKIN[..], &L_SHAPE].concat());
    assert_eq!(small.code, 1, "{}", small.stderr);
    assert!(small.stderr.contains("scrap: it does not hold 11 × 20"), "{}", small.stderr);
    assert!(list(shop.path(), &[]).is_empty());
    added(shop.path(), "L", &[&L_SHAPE[..], &["--although-small"]].concat());
    added(shop.path(), "P", &["--size", "11", "20"]);
    assert_eq!(marks(&list(shop.path(), &[])), ["L", "P"]);
}

#[test]
fn wrong_pieces_are_refused_all_at_once() {
    let shop = tempdir().unwrap();
    let wrong = ["--metal", "5052-H99", "--thickness", "-1", "--size", "0", "20", "--date", "2026-02-30"];
    let fixed = ["rack", "add", "--mark", "R1", "--place", "B3"];
    let run = plateloft_in(shop.path(), &[&fixed[..], &wrong].concat());
    assert_eq!(run.code, 2);
    for told in ["--metal: 5052-H99", "--thickness", "--size: 0: must be above zero", "--date: 2026-02-30"] {
        assert!(run.stderr.contains(told), "{told}: {}", run.stderr);
    }
    let bow = ["--corner", "0", "0", "--corner", "10", "10", "--corner", "10", "0", "--corner", "0", "10"];
    let run = add(shop.path(), "R1", &[&SKIN[..], &bow].concat());
    assert!(run.code == 2 && run.stderr.contains("crosses itself"), "{}", run.stderr);
    assert!(!shop.path().join(RACK).exists());
    added(shop.path(), "R1", &["--size", "30", "24"]);
    let twice = add(shop.path(), "r1", &[&SKIN[..], &["--size", "1", "1"]].concat());
    assert!(twice.code == 2 && twice.stderr.contains("mark is in the rack already"), "{}", twice.stderr);
}

#[test]
fn sizes_below_zero_and_jobs_without_a_name_are_refused() {
    let folder = tempdir().unwrap();
    let negative = add(folder.path(), "R1", &[&SKIN[..], &["--size", "-20", "30"]].concat());
    assert_eq!(negative.code, 2);
    assert!(negative.stderr.contains("--size: -20: must be above zero"), "{}", negative.stderr);
    added(folder.path(), "R1", &["--size", "20", "30"]);
    let nameless = plateloft_in(folder.path(), &["rack", "take", "R1", "--job", " "]);
    assert_eq!(nameless.code, 2);
    assert!(nameless.stderr.contains("--job: is empty"), "{}", nameless.stderr);
    let kept = plateloft_in(folder.path(), &["rack", "keep", "10", "12", "--rack", RACK]);
    assert_eq!(kept.code, 0, "an option may stand behind the sizes: {}", kept.stderr);
}

#[test]
fn two_who_write_at_once_both_get_their_piece() {
    let shop = tempdir().unwrap();
    let begin = |number: usize| {
        let mark = format!("R{number}");
        Command::new(env!("CARGO_BIN_EXE_plateloft"))
            .args(["rack", "add", "--mark", &mark, "--place", "B3", "--date", "2026-03-04"])
            .args(SKIN)
            .args(["--size", "30", "24"])
            .current_dir(shop.path())
            .spawn()
            .unwrap()
    };
    let running: Vec<_> = (0..8).map(begin).collect();
    for mut child in running {
        assert!(child.wait().unwrap().success());
    }
    let mut found = list(shop.path(), &[]).iter().map(|piece| piece["mark"].to_string()).collect::<Vec<_>>();
    found.sort();
    assert_eq!(found, (0..8).map(|number| format!("\"R{number}\"")).collect::<Vec<_>>());
}

#[test]
fn a_held_lock_is_told_and_nothing_is_lost() {
    let shop = tempdir().unwrap();
    added(shop.path(), "R1", &["--size", "30", "24"]);
    let before = text(shop.path(), RACK);
    let lock = fs::OpenOptions::new().write(true).open(shop.path().join("rack.json.lock")).unwrap();
    lock.lock().unwrap();
    let run = add(shop.path(), "R2", &[&SKIN[..], &["--size", "30", "24"]].concat());
    assert_eq!(run.code, 2);
    assert!(run.stderr.contains("is locked: somebody else"), "{}", run.stderr);
    assert_eq!(text(shop.path(), RACK), before);
    drop(lock);
    added(shop.path(), "R2", &["--size", "30", "24"]);
}

/// Two shops, or two folders, may share one rack by links: all change the one file, under its one lock.
#[cfg(unix)]
#[test]
fn a_rack_behind_a_link_is_changed_where_it_is() {
    let shop = tempdir().unwrap();
    added(shop.path(), "R1", &["--size", "30", "24"]);
    let other = shop.path().join("other");
    fs::create_dir(&other).unwrap();
    std::os::unix::fs::symlink(shop.path().join(RACK), other.join(RACK)).unwrap();
    added(&other, "R2", &["--size", "30", "24"]);
    assert!(fs::symlink_metadata(other.join(RACK)).unwrap().is_symlink(), "the link was replaced");
    assert_eq!(marks(&list(shop.path(), &[])), ["R1", "R2"]);
    let lock = fs::OpenOptions::new().write(true).open(shop.path().join("rack.json.lock")).unwrap();
    lock.lock().unwrap();
    let run = add(&other, "R3", &[&SKIN[..], &["--size", "30", "24"]].concat());
    assert!(run.code == 2 && run.stderr.contains("is locked: somebody else"), "{}", run.stderr);
}

#[cfg(unix)]
#[test]
fn a_rack_that_is_read_only_stays_as_it_is() {
    use std::os::unix::fs::PermissionsExt as _;
    let shop = tempdir().unwrap();
    added(shop.path(), "R1", &["--size", "30", "24"]);
    let before = text(shop.path(), RACK);
    fs::set_permissions(shop.path().join(RACK), fs::Permissions::from_mode(0o444)).unwrap();
    let run = add(shop.path(), "R2", &[&SKIN[..], &["--size", "30", "24"]].concat());
    let told = "is read-only: the rack is not to be changed\n    make it writable first";
    assert!(run.code == 2 && run.stderr.contains(told), "{}", run.stderr);
    assert_eq!(text(shop.path(), RACK), before);
    assert_eq!(marks(&list(shop.path(), &[])), ["R1"]);
}

#[test]
fn a_rack_that_cannot_be_read_is_left_alone() {
    let shop = tempdir().unwrap();
    added(shop.path(), "R1", &["--size", "30", "24"]);
    let first = text(shop.path(), RACK);
    added(shop.path(), "R2", &["--size", "30", "24"]);
    let backup = text(shop.path(), "rack.json.bak");
    assert_eq!(backup, first, "the backup is the rack before the last change");
    let whole = text(shop.path(), RACK);
    let newer = whole.replacen("\"plateloft_rack\": 1", "\"plateloft_rack\": 2", 1);
    let twice = whole.replace("\"R2\"", "\"R1\"");
    let misspelt = whole.replace("\"thickness\"", "\"thicknes\"");
    let bare = whole.replace("\"0.126 in\"", "\"0.126\"");
    let cases = [
        (&whole[..whole.len() / 2], "the rack is broken"),
        (newer.as_str(), "newer version"),
        (twice.as_str(), "R1: mark: R1: stands in the rack twice"),
        (misspelt.as_str(), "R1: unknown field `thicknes`"),
        (bare.as_str(), "R1: thickness: 0.126: has no unit"),
        ("{}", "this is no rack"),
        ("", "the rack is broken"),
    ];
    for (content, told) in cases {
        fs::write(shop.path().join(RACK), content).unwrap();
        for words in [
            &["rack", "list"][..],
            &["rack", "take", "R1", "--job", "Skiff"],
            &["rack", "return", "R1"],
            &["rack", "keep", "1", "1"],
        ] {
            let run = plateloft_in(shop.path(), words);
            assert_eq!(run.code, 2, "{words:?}: {content}");
            assert!(run.stderr.contains(told), "{words:?}: {told}: {}", run.stderr);
            assert!(run.stderr.contains("rack.json.bak beside it is the rack before"), "{}", run.stderr);
        }
        assert_eq!(text(shop.path(), RACK), content);
        assert_eq!(text(shop.path(), "rack.json.bak"), backup);
    }
    // Nothing is said of a backup that is not there.
    fs::remove_file(shop.path().join("rack.json.bak")).unwrap();
    let bare = plateloft_in(shop.path(), &["rack", "list"]).stderr;
    assert!(bare.contains("there is no backup: no rack.json.bak stands beside it"), "{bare}");
    let none = plateloft_in(shop.path(), &["rack", "list", "--rack", "elsewhere.json"]);
    assert!(none.code == 2 && none.stderr.contains("elsewhere.json: cannot be read"), "{}", none.stderr);
}

#[test]
fn a_job_is_offered_only_what_suits_it() {
    let shop = tempdir().unwrap();
    added(shop.path(), "good", &["--size", "30", "24", "--face", "good", "--film", "one-side"]);
    added(shop.path(), "bare", &["--size", "30", "24", "--face", "good"]);
    added(shop.path(), "marred", &["--size", "30", "24", "--face", "scratched", "--film", "one-side"]);
    added(shop.path(), "kept", &["--size", "30", "24", "--face", "good", "--film", "one-side"]);
    let thin = ["--metal", "5052-H32", "--thickness", ".090", "--size", "30", "24", "--face", "good"];
    assert_eq!(add(shop.path(), "thin", &[&thin[..], &["--film", "one-side"]].concat()).code, 0);
    let other = ["--metal", "6061-T6", "--thickness", ".125", "--size", "30", "24", "--face", "good"];
    assert_eq!(add(shop.path(), "other", &[&other[..], &["--film", "one-side"]].concat()).code, 0);
    let temper = ["--metal", "5052-H34", "--thickness", ".125", "--size", "30", "24", "--face", "good"];
    assert_eq!(add(shop.path(), "temper", &[&temper[..], &["--film", "one-side"]].concat()).code, 0);
    let tread = ["--metal", "5052-H32", "--tread", "--thickness", ".125", "--size", "30", "24"];
    assert_eq!(add(shop.path(), "tread", &tread).code, 0);
    let reserve = ["rack", "take", "kept", "--job", "Other boat", "--reserve"];
    assert_eq!(plateloft_in(shop.path(), &reserve).code, 0);
    let job = json!({
        "plateloft": 1, "job": "Boat", "units": "inch", "tape": "1/16",
        "shop": { "gap": "1/4", "edge_trim": "1/2" },
        "metals": { "skin": { "alloy": "5052-H32", "thickness": ".125", "film": "one side" } },
        "parts": [{ "mark": "P", "shape": "plate", "metal": "skin", "size": ["10", "8"] }]
    });
    fs::write(shop.path().join("job.json"), job.to_string()).unwrap();
    let run = plateloft_in(shop.path(), &["rack", "list", "--suits", "job.json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let suited: Vec<&str> = run.stdout.lines().filter(|line| line.contains("suits:")).collect();
    assert!(suited.len() == 1 && suited[0].contains("suits: good"), "{}", run.stdout);
    for told in [
        "not bare: it has no film",
        "not marred: its face is scratched",
        "not kept: it is reserved for Other boat",
        "not thin: its thickness is off",
        "not other: it is 6061-T6, wanted is 5052-H32",
        "not temper: it is 5052-H34, wanted is 5052-H32",
        "not tread: it is tread plate, wanted is plain",
    ] {
        assert!(run.stdout.contains(told), "{told}: {}", run.stdout);
    }
}

#[test]
fn kept_drops_come_to_the_rack_once_and_get_labels() {
    let shop = tempdir().unwrap();
    let job = top().join("fixtures/jobs/oyster-skiff.json");
    let job = job.to_str().unwrap();
    let words = ["rack", "return", "--drops-of", job, "--place", "floor", "--date", "2026-03-04"];
    let run = plateloft_in(shop.path(), &words);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let there = list(shop.path(), &[]);
    assert!(!there.is_empty());
    assert!(
        there.iter().all(|piece| piece["measured"] == false && piece["from_job"] == "Oyster skiff 21 ft 6"),
        "{there:?}"
    );
    let before = text(shop.path(), RACK);
    assert_eq!(plateloft_in(shop.path(), &words).code, 2, "the same drops came twice");
    assert_eq!(text(shop.path(), RACK), before);
    let label = ["rack", "label", "--out", "labels.pdf"];
    assert_eq!(plateloft_in(shop.path(), &label).code, 0);
    let words: Vec<String> = label_words(shop.path(), "labels.pdf");
    for piece in &there {
        let mark = piece["mark"].as_str().unwrap();
        assert!(words.iter().any(|text| text == mark), "{mark}: {words:?}");
    }
    let all = words.join(" ");
    for told in ["as ordered: measure it", "stands: floor", "from Oyster skiff 21 ft 6, 2026-03-04"] {
        assert!(all.contains(told), "{told}: {all}");
    }
    assert_eq!(plateloft_in(shop.path(), &label).code, 2, "a file that is there was written over");
}

#[test]
fn an_order_takes_the_rack_first_when_told() {
    let shop = tempdir().unwrap();
    let job = json!({
        "plateloft": 1, "job": "Boat", "units": "inch", "tape": "1/16",
        "shop": { "gap": "1/4", "edge_trim": "1/2" },
        "metals": { "skin": { "alloy": "5052-H32", "thickness": ".125" } },
        "sheets": [{ "metal": "skin", "size": ["48", "96"], "price": 210 }],
        "parts": [{ "mark": "P", "shape": "plate", "metal": "skin", "size": ["20", "10"] }]
    });
    fs::write(shop.path().join("job.json"), job.to_string()).unwrap();
    added(shop.path(), "R1", &["--size", "30", "24"]);
    added(shop.path(), "L", &L_SHAPE);
    let thin = ["--metal", "5052-H32", "--thickness", ".090", "--size", "40", "40"];
    assert_eq!(add(shop.path(), "slender", &thin).code, 0);
    let buy = |more: &[&str]| {
        let run = plateloft_in(shop.path(), &[&["buy", "job.json"], more].concat());
        assert_eq!(run.code, 0, "{}", run.stderr);
        run.stdout
    };
    assert!(!buy(&[]).contains("R1"), "the rack was used though nobody said so");
    let first = buy(&["--rack", RACK]);
    assert!(first.contains("take skin-1 (R1 of the rack, 24 × 30) from the rack"), "{first}");
    assert!(first.contains("R1 measures .126, and the flats are worked for .125"), "{first}");
    assert!(!first.contains("slender"), "{first}");
    assert!(!first.contains("1 of skin"), "a sheet was ordered: {first}");
    let before = text(shop.path(), RACK);
    assert_eq!(plateloft_in(shop.path(), &["rack", "take", "R1", "--job", "Other"]).code, 0);
    assert_ne!(text(shop.path(), RACK), before);
    assert!(buy(&["--rack", RACK]).contains("1 of skin 48 × 96"));
}
