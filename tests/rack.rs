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

/// A boat whose part is an L that only the corner of an L-shaped offcut, or a whole sheet, can give.
pub(crate) fn l_job(metal: &Value, part: &Value) -> Value {
    json!({
        "plateloft": 1, "job": "Boat", "units": "inch", "tape": "1/16",
        "shop": { "gap": "1/4", "edge_trim": "1/2", "kerf": "1/8", "keep_drop": ["6", "5"] },
        "metals": { "skin": metal },
        "sheets": [{ "metal": "skin", "size": ["48", "96"], "price": 210 }],
        "parts": [part]
    })
}

fn l_part(lay: Option<&str>) -> Value {
    let outline = json!([["0", "0"], ["22", "0"], ["22", "8"], ["9", "8"], ["9", "23"], ["0", "23"]]);
    let mut part = json!({ "mark": "P", "shape": "plate", "metal": "skin", "outline": outline });
    if let Some(lay) = lay {
        part["lay"] = json!(lay);
    }
    part
}

pub(crate) fn nested(folder: &Path) -> (Value, String) {
    let run = plateloft_in(folder, &["nest", "job.json", "--rack", RACK, "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    (serde_json::from_str(&run.stdout).unwrap(), run.stderr)
}

pub(crate) fn sheet_names(nest: &Value) -> Vec<String> {
    let sheets = nest["metals"][0]["sheets"].as_array().unwrap();
    sheets.iter().map(|sheet| sheet["sheet"].as_str().unwrap().to_owned()).collect()
}

/// A line of a scrap report's amounts, exact: square nanometres, micrograms or cents.
pub(crate) fn exact(amounts: &Value, line: &str, what: &str) -> i128 {
    let value = &amounts[line][what];
    value.as_str().map_or_else(|| i128::from(value.as_i64().unwrap()), |text| text.parse().unwrap())
}

/// Bought + of the rack = parts + kept drops + kerf + edge trim + scrap, exactly, in area, weight and money.
pub(crate) fn adds_up(amounts: &Value) {
    for what in ["exact_area", "exact_weight", "cents"] {
        let lines = ["parts", "kept_drops", "kerf", "edge_trim", "scrap"];
        let sum: i128 = lines.iter().map(|line| exact(amounts, line, what)).sum();
        assert_eq!(sum, exact(amounts, "bought", what) + exact(amounts, "from_rack", what), "{what}");
    }
}

#[test]
fn an_l_shaped_offcut_gives_a_part_that_no_rectangle_in_it_holds() {
    let shop = tempdir().unwrap();
    let skin = json!({ "alloy": "5052-H32", "thickness": ".125" });
    fs::write(shop.path().join("job.json"), l_job(&skin, &l_part(None)).to_string()).unwrap();
    added(shop.path(), "L", &L_SHAPE);
    let (nest, _) = nested(shop.path());
    assert_eq!(sheet_names(&nest), ["skin-1 (L of the rack, 24 × 30 over all, 6 corners)"]);
    let sheet = &nest["metals"][0]["sheets"][0];
    assert_eq!(sheet["outline"].as_array().unwrap().len(), 6);
    // The part is 22 × 23, and no rectangle of the offcut is wider than 10: it reaches round the inner corner.
    let datum = &sheet["pieces"][0]["datum"];
    let [x, y] = [0, 1].map(|axis| datum[axis].as_f64().unwrap());
    assert!((0.5..=0.5005).contains(&x) && (0.5..=0.5005).contains(&y), "{datum}");
    let cuts = sheet["cuts"].to_string();
    assert!(!cuts.contains("from the left edge"), "{cuts}");
    // Without the rack, or with a wider part, a sheet is bought.
    let mut wide = l_part(None);
    wide["outline"][4][0] = json!("10");
    wide["outline"][3][0] = json!("10");
    fs::write(shop.path().join("job.json"), l_job(&skin, &wide).to_string()).unwrap();
    assert_eq!(sheet_names(&nested(shop.path()).0), ["skin-1 (48 × 96)"]);
}

#[test]
fn what_becomes_of_an_offcut_adds_up_exactly_and_its_drop_goes_back() {
    let shop = tempdir().unwrap();
    let skin = json!({ "alloy": "5052-H32", "thickness": ".125" });
    let part = json!({ "mark": "P", "shape": "plate", "metal": "skin", "size": ["22", "8"] });
    fs::write(shop.path().join("job.json"), l_job(&skin, &part).to_string()).unwrap();
    added(shop.path(), "L", &[&L_SHAPE[..], &["--face", "scratched", "--lay", "along-x"]].concat());
    let run = plateloft_in(shop.path(), &["scrap", "job.json", "--rack", RACK, "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let report: Value = serde_json::from_str(&run.stdout).unwrap();
    let amounts = &report["sheets"][0]["amounts"];
    let exact = |line: &str, what: &str| exact(amounts, line, what);
    // 30 × 10 + 10 × 14 = 440 in², in square nanometres: the offcut, and not the 24 × 30 around it.
    assert_eq!(exact("from_rack", "exact_area"), 440 * 25_400_000 * 25_400_000);
    assert_eq!(exact("bought", "exact_area"), 0);
    adds_up(amounts);
    // The trim runs beside the part, 24 high and twice to the cut at 8 9/16; beyond that it comes off with the drop.
    let square_inches = |line: &str| exact(line, "exact_area") as f64 / 25.4e6 / 25.4e6;
    let beside = 24.0 * 0.5 + 2.0 * 0.5 * 8.0625;
    let kerf_in_trim = beside - square_inches("edge_trim");
    assert!((0.0..4.0).contains(&kerf_in_trim), "{kerf_in_trim}");
    assert!(0.0 < square_inches("kept_drops"), "{amounts}");
    let words =
        ["rack", "return", "--drops-of", "job.json", "--rack-first", "--place", "B3", "--date", "2026-03-05"];
    let early = plateloft_in(shop.path(), &words);
    assert!(early.code == 2 && early.stderr.contains("the plan cuts from L of the rack"), "{}", early.stderr);
    assert_eq!(plateloft_in(shop.path(), &["rack", "take", "L", "--job", "Boat"]).code, 0);
    let run = plateloft_in(shop.path(), &words);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let there = list(shop.path(), &[]);
    let drop = &there[0];
    assert!(there.len() == 1 && drop["from_job"] == "Boat", "{there:?}");
    // It is as thick as the offcut measured, and its face and lay are the offcut's.
    assert!(drop["thickness"] == "0.126 in" && drop["measured"] == true, "{drop}");
    assert_eq!(drop["state"], "face scratched, no film, lay along x");
    let area: i128 = drop["exact_area"].as_str().unwrap().parse().unwrap();
    // The part lies upright, its 8 from 1/2 to 8 1/2; the cut takes 8 9/16 to 8 11/16. Of 440 in² it leaves all beyond that, 24 high
    // before it; just that is in the report.
    let left = (440.0 - 24.0 * 8.6875) * 25.4e6 * 25.4e6;
    assert!((area as f64 - left).abs() < 25.4e6 * 25.4e6 / 1e6, "{drop}");
    assert_eq!(exact("kept_drops", "exact_area"), area, "{amounts}");
    // What was cut up does not come back whole, too.
    assert_eq!(drop["cut_from"], "L");
    let before = text(shop.path(), RACK);
    let whole = plateloft_in(shop.path(), &["rack", "return", "l"]);
    let told = "rack return: l: was cut up: what was left of it is in the rack as Boat skin-1 d1\n    leave it taken";
    assert!(whole.code == 2 && whole.stderr.contains(told), "{}", whole.stderr);
    assert_eq!(text(shop.path(), RACK), before);
}

/// A piece of which nothing is left was cut all the same, when the drops of its job are there.
#[test]
fn a_piece_cut_up_without_a_drop_does_not_come_back_whole() {
    let shop = tempdir().unwrap();
    added(shop.path(), "R1", &["--size", "30", "24"]);
    assert_eq!(plateloft_in(shop.path(), &["rack", "take", "R1", "--job", "Boat"]).code, 0);
    added(shop.path(), "D1", &["--size", "20", "24", "--from-job", "Boat"]);
    let before = text(shop.path(), RACK);
    let run = plateloft_in(shop.path(), &["rack", "return", "R1"]);
    let told = "rack return: R1: was taken for Boat, and drops of that job are in the rack since: D1\n    leave it taken";
    assert!(run.code == 2 && run.stderr.contains(told), "{}", run.stderr);
    assert_eq!(text(shop.path(), RACK), before);
}

#[test]
fn what_is_left_of_a_piece_is_told_by_hand_too() {
    let shop = tempdir().unwrap();
    added(shop.path(), "R1", &["--size", "30", "24"]);
    let left =
        |of: &str| add(shop.path(), "R2", &[&SKIN[..], &["--size", "12", "24", "--cut-from", of]].concat());
    let there = left("R1");
    assert!(
        there.code == 2 && there.stderr.contains("R1: stands in the rack, free\n    take it first"),
        "{}",
        there.stderr
    );
    assert_eq!(plateloft_in(shop.path(), &["rack", "take", "R1", "--job", "Boat"]).code, 0);
    assert_eq!(left("R9").code, 2);
    assert_eq!(left("R1").code, 0);
    let whole = plateloft_in(shop.path(), &["rack", "return", "R1"]);
    assert!(whole.code == 2 && whole.stderr.contains("in the rack as R2"), "{}", whole.stderr);
}

#[test]
fn an_outline_is_laid_by_its_lay_and_never_mirrored() {
    let shop = tempdir().unwrap();
    let tread = json!({ "alloy": "3003-H22", "pattern": "tread", "thickness": ".125", "weight": "1.95 lb/ft2", "lay": "long side" });
    let outline = json!([["0", "0"], ["23", "0"], ["23", "22"], ["15", "22"], ["15", "9"], ["0", "9"]]);
    let part = json!({ "mark": "P", "shape": "plate", "metal": "skin", "outline": outline, "lay": "along" });
    fs::write(shop.path().join("job.json"), l_job(&tread, &part).to_string()).unwrap();
    let piece = ["--metal", "3003-H22", "--tread", "--thickness", ".125", "--lay", "along-y"];
    assert_eq!(add(shop.path(), "L", &[&piece[..], &L_SHAPE].concat()).code, 0);
    // The part is the offcut's shape a quarter turn to the right, less its edges.
    let (nest, told) = nested(shop.path());
    assert_eq!(sheet_names(&nest), ["skin-1 (L of the rack, 24 × 30 over all, 6 corners)"], "{told}");
    assert!(told.contains("L is laid a quarter turn to the right of how it was measured"), "{told}");
    // Its mirror image does not fit, though it would fit the offcut turned over.
    let mirrored = json!([["0", "0"], ["23", "0"], ["23", "9"], ["8", "9"], ["8", "22"], ["0", "22"]]);
    let other =
        json!({ "mark": "P", "shape": "plate", "metal": "skin", "outline": mirrored, "lay": "along" });
    fs::write(shop.path().join("job.json"), l_job(&tread, &other).to_string()).unwrap();
    assert_eq!(sheet_names(&nested(shop.path()).0), ["skin-1 (48 × 96)"]);
}

#[test]
fn outlines_of_another_metal_or_with_a_bad_face_are_never_cut() {
    let shop = tempdir().unwrap();
    let skin = json!({ "alloy": "5052-H32", "thickness": ".125", "film": "one side" });
    fs::write(shop.path().join("job.json"), l_job(&skin, &l_part(None)).to_string()).unwrap();
    let bad: [(&str, &[&str]); 5] = [
        (
            "marred",
            &["--metal", "5052-H32", "--thickness", ".125", "--face", "scratched", "--film", "one-side"],
        ),
        ("unseen", &["--metal", "5052-H32", "--thickness", ".125", "--film", "one-side"]),
        ("other", &["--metal", "6061-T6", "--thickness", ".125", "--face", "good", "--film", "one-side"]),
        ("temper", &["--metal", "5052-H34", "--thickness", ".125", "--face", "good", "--film", "one-side"]),
        ("thin", &["--metal", "5052-H32", "--thickness", ".100", "--face", "good", "--film", "one-side"]),
    ];
    for (mark, piece) in bad {
        assert_eq!(add(shop.path(), mark, &[piece, &L_SHAPE].concat()).code, 0, "{mark}");
    }
    assert_eq!(sheet_names(&nested(shop.path()).0), ["skin-1 (48 × 96)"]);
    let good = ["--metal", "5052-H32", "--thickness", ".125", "--face", "good", "--film", "one-side"];
    assert_eq!(add(shop.path(), "good", &[&good[..], &L_SHAPE].concat()).code, 0);
    assert_eq!(
        sheet_names(&nested(shop.path()).0),
        ["skin-1 (good of the rack, 24 × 30 over all, 6 corners)"]
    );
}

#[test]
fn the_map_of_an_offcut_shows_its_outline_and_what_is_missing() {
    let shop = tempdir().unwrap();
    let skin = json!({ "alloy": "5052-H32", "thickness": ".125" });
    fs::write(shop.path().join("job.json"), l_job(&skin, &l_part(None)).to_string()).unwrap();
    added(shop.path(), "L", &L_SHAPE);
    let run = plateloft_in(shop.path(), &["packet", "job.json", "--rack", RACK, "--out", "out"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let svg = text(shop.path(), "out/sheets/skin-1.svg");
    let document = roxmltree::Document::parse(&svg).unwrap();
    let said: Vec<&str> = document.descendants().filter_map(|node| node.text()).collect();
    for told in ["no metal: outside the offcut, or a hole in it", "10", "24", "30"] {
        assert!(said.contains(&told), "{told}: {said:?}");
    }
    let page = text(shop.path(), "out/index.html");
    assert!(
        page.contains("from the left side of the rectangle around it")
            || page.contains("up from the lower side of the rectangle around it")
    );
}
