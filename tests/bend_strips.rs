//! The shop's log of test strips as whole commands: kept, listed, chosen from, and refused.
#![expect(clippy::disallowed_methods, reason = "a test of a program that keeps a file writes and reads it")]

use std::fs;
use std::path::Path;

use serde_json::{Value, json};
use tempfile::{TempDir, tempdir};

use crate::program::{Run, plateloft_in};

const LOG: &str = "bend-strips.jsonl";

/// A strip of 5052-H32 .125, R .125, over the 1 in die; `more` comes last.
fn add(folder: &Path, date: &str, legs: [&str; 2], more: &[&str]) -> Run {
    let fixed = ["bend", "strip", "add", "--metal", "5052-H32", "--thickness", ".125", "--radius", ".125"];
    let own = ["--v-opening", "1", "--length", "4.000", "--date", date, "--legs", legs[0], legs[1]];
    plateloft_in(folder, &[&fixed[..], &own[..], more].concat())
}

fn added(folder: &Path, date: &str, legs: [&str; 2], more: &[&str]) {
    let run = add(folder, date, legs, more);
    assert_eq!(run.code, 0, "{}", run.stderr);
}

/// A job of one tray 20 × 12 × 2 in skin, and nothing else.
fn job(folder: &Path, skin: &Value, shop: &Value) {
    let mut all = json!({ "gap": "1/4", "edge_trim": "1/2", "kerf": "1/8" });
    for (name, value) in shop.as_object().unwrap() {
        all[name] = value.clone();
    }
    let job = json!({
        "plateloft": 1, "job": "Strips", "units": "inch", "tape": ".001", "shop": all,
        "metals": { "skin": skin },
        "sheets": [{ "metal": "skin", "size": ["48", "96"] }],
        "parts": [{ "mark": "L1", "shape": "lid", "metal": "skin", "outside": ["20", "12"], "skirt": "2" }]
    });
    fs::write(folder.join("job.json"), job.to_string()).unwrap();
}

fn skin() -> Value {
    json!({ "alloy": "5052-H32", "thickness": ".125", "inside_radius": ".125" })
}

fn over_the_inch_die() -> Value {
    json!({ "brake": { "kind": "press", "v_opening": "1" } })
}

/// A shop with several dies: the strip that is nearest decides in which of them the part is bent, and the reason, the card and the
/// number agree on it.
#[test]
fn the_part_is_bent_in_the_die_of_the_strip_that_is_nearest() {
    let shop = shop();
    added(shop.path(), "2026-03-04", ["2.118", "2.103"], &[]);
    let log = log_of(shop.path());
    let other = log.replace(r#""v_opening":"1 in""#, r#""v_opening":"1 1/2 in""#);
    assert!(log != other, "{log}");
    fs::write(shop.path().join(LOG), other).unwrap();
    let dies = json!({ "brake": { "kind": "press", "v_openings": ["5/8", "1", "1 1/2"] } });
    job(shop.path(), &skin(), &dies);
    let part = first_part(shop.path(), &[]);
    let number = part["bend_number"].as_str().unwrap();
    assert!(number.contains("V 1.500, one of the shop's 3 dies: bend it in that"), "{number}");
    let run = plateloft_in(shop.path(), &["packet", "job.json", "--out", "pk"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let page = fs::read_to_string(shop.path().join("pk/index.html")).unwrap();
    assert!(page.contains("in which its strip was bent"));
}

fn first_part(folder: &Path, more: &[&str]) -> Value {
    let run = plateloft_in(folder, &[&["flats", "job.json", "--json"], more].concat());
    assert_eq!(run.code, 0, "{}", run.stderr);
    let flats: Value = serde_json::from_str(&run.stdout).unwrap();
    flats["parts"][0].clone()
}

fn near(value: &Value, expected: f64) -> bool {
    value.as_f64().is_some_and(|number| (number - expected).abs() < 0.0002)
}

fn log_of(folder: &Path) -> String {
    fs::read_to_string(folder.join(LOG)).unwrap_or_default()
}

fn shop() -> TempDir {
    tempdir().unwrap()
}

// Strip 4.000 bent to 2.118 + 2.103: deduction .221 by subtraction, K .4209 by the deduction formula turned round.
#[test]
fn a_strip_is_kept_with_its_sum() {
    let shop = shop();
    let run = add(shop.path(), "2026-03-04", ["2.118", "2.103"], &["--turn-in-die", "92"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    assert!(run.stdout.contains("2.1180 + 2.1030 − 4.0000 = .2210"), "{}", run.stdout);
    assert!(run.stdout.contains("= 0.4209"), "{}", run.stdout);
    let line: Value = serde_json::from_str(log_of(shop.path()).trim_end()).unwrap();
    assert_eq!(line["date"], "2026-03-04");
    assert_eq!(line["thickness"], ".125 in");
    let listed = plateloft_in(shop.path(), &["bend", "strip", "list", "--json"]);
    let listed: Value = serde_json::from_str(&listed.stdout).unwrap();
    let strip = &listed["strips"][0];
    assert!(near(&strip["deduction"], 0.221) && near(&strip["k_factor"], 0.4209), "{strip}");
    assert!(near(&strip["springback"], 0.9783), "{strip}");
}

#[test]
fn millimetres_and_inches_stand_in_one_log() {
    let shop = shop();
    added(shop.path(), "2026-03-04", ["2.118", "2.103"], &[]);
    let metric = [
        "bend",
        "strip",
        "add",
        "--units",
        "mm",
        "--metal",
        "5052-H32",
        "--thickness",
        "3.175",
        "--radius",
        "3.175",
        "--length",
        "101.6",
        "--date",
        "2026-03-05",
        "--legs",
        "53.797",
        "53.416",
    ];
    let run = plateloft_in(shop.path(), &metric);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let listed = plateloft_in(shop.path(), &["bend", "strip", "list", "--json"]);
    let listed: Value = serde_json::from_str(&listed.stdout).unwrap();
    let strips = listed["strips"].as_array().unwrap();
    assert!(near(&strips[0]["k_factor"], strips[1]["k_factor"].as_f64().unwrap()), "{listed}");
    let other = plateloft_in(shop.path(), &["bend", "strip", "list", "--metal", "6061-T6"]);
    assert!(other.stdout.contains("no strip"), "{}", other.stdout);
}

#[test]
fn a_wrong_strip_is_refused_and_nothing_is_written() {
    let shop = shop();
    let wrong: [(&[&str], &str); 7] = [
        (&["--date", "2026-02-30"], "--date"),
        (&["--metal", "5052-H39"], "--metal"),
        (&["--thickness", "0"], "--thickness"),
        (&["--radius", "an eighth"], "--radius"),
        (&["--legs", "2.000", "1.990"], "--legs"),
        (&["--turn", "170"], "--turn"),
        (&["--turn-in-die", "88"], "--turn-in-die"),
    ];
    for (options, told) in wrong {
        let name = options[0];
        let mut all = vec!["bend", "strip", "add"];
        let right: [&[&str]; 7] = [
            &["--date", "2026-03-04"],
            &["--metal", "5052-H32"],
            &["--thickness", ".125"],
            &["--radius", ".125"],
            &["--legs", "2.118", "2.103"],
            &["--turn", "90"],
            &["--turn-in-die", "92"],
        ];
        right.into_iter().filter(|option| option[0] != name).for_each(|option| all.extend(option));
        all.extend(["--length", "4.000"]);
        all.extend(options);
        let run = plateloft_in(shop.path(), &all);
        assert_eq!(run.code, 2, "{name}: {}", run.stdout);
        assert!(run.stdout.is_empty() && run.stderr.contains(told), "{name}: {}", run.stderr);
        assert!(!shop.path().join(LOG).exists(), "{name}: something was written");
    }
}

#[test]
fn a_strip_is_not_kept_twice_by_mistake() {
    let shop = shop();
    added(shop.path(), "2026-03-04", ["2.118", "2.103"], &[]);
    let before = log_of(shop.path());
    let again = add(shop.path(), "2026-03-04", ["2.118", "2.103"], &[]);
    assert_eq!(again.code, 2);
    assert!(again.stderr.contains("line 1"), "{}", again.stderr);
    assert_eq!(log_of(shop.path()), before);
    added(shop.path(), "2026-03-04", ["2.118", "2.103"], &["--note", "a second one, the same"]);
}

#[test]
fn a_broken_log_is_refused_with_its_line_and_left_alone() {
    let shop = shop();
    added(shop.path(), "2026-03-04", ["2.118", "2.103"], &[]);
    let sound = log_of(shop.path());
    let no_unit = sound.replace(".125 in", ".125");
    let faults = [
        ("{\"plateloft\":1,\"date\":\"2026-0".to_owned(), "is no strip of the log"),
        (no_unit, "has no unit"),
        (sound.replace("\"plateloft\":1", "\"plateloft\":7"), "version"),
        (sound.replace("\"turn\"", "\"angle\""), "angle"),
    ];
    for (fault, told) in faults {
        let broken = format!("{sound}\n{}\n", fault.trim_end());
        fs::write(shop.path().join(LOG), &broken).unwrap();
        for run in [
            add(shop.path(), "2026-03-05", ["2.118", "2.103"], &[]),
            plateloft_in(shop.path(), &["bend", "strip", "list"]),
        ] {
            assert_eq!(run.code, 2, "{fault}");
            assert!(run.stderr.contains("line 3") && run.stderr.contains(told), "{}", run.stderr);
        }
        assert_eq!(log_of(shop.path()), broken);
        // The job that would use it is refused too, rather than worked without it.
        job(shop.path(), &skin(), &over_the_inch_die());
        let run = plateloft_in(shop.path(), &["flats", "job.json"]);
        assert!(run.code == 2 && run.stderr.contains("line 3"), "{}", run.stderr);
    }
}

#[test]
fn a_last_line_without_its_end_is_not_run_together_with_the_next() {
    let shop = shop();
    added(shop.path(), "2026-03-04", ["2.118", "2.103"], &[]);
    let cut = log_of(shop.path()).trim_end().to_owned();
    fs::write(shop.path().join(LOG), &cut).unwrap();
    added(shop.path(), "2026-03-05", ["2.118", "2.103"], &[]);
    let log = log_of(shop.path());
    assert!(log.starts_with(&format!("{cut}\n")) && log.lines().count() == 2, "{log}");
}

#[test]
fn many_at_once_get_whole_lines() {
    let shop = shop();
    let threads: Vec<_> = (1..=12)
        .map(|day| {
            let folder = shop.path().to_path_buf();
            std::thread::spawn(move || added(&folder, &format!("2026-03-{day:02}"), ["2.118", "2.103"], &[]))
        })
        .collect();
    threads.into_iter().for_each(|thread| thread.join().unwrap());
    let listed = plateloft_in(shop.path(), &["bend", "strip", "list", "--json"]);
    let listed: Value = serde_json::from_str(&listed.stdout).unwrap();
    let mut dates: Vec<&str> =
        listed["strips"].as_array().unwrap().iter().map(|strip| strip["date"].as_str().unwrap()).collect();
    dates.sort_unstable();
    dates.dedup();
    assert_eq!(dates.len(), 12);
}

// Lid 20 × 12 with skirts of 2: blank 24 − 2 × .221 by 16 − 2 × .221.
#[test]
fn a_job_takes_the_strip_beside_it_and_says_why() {
    let shop = shop();
    job(shop.path(), &skin(), &over_the_inch_die());
    let without = first_part(shop.path(), &[]);
    assert!(without["bend_number"].as_str().unwrap().contains("nobody has bent a strip"));
    added(shop.path(), "2026-03-04", ["2.118", "2.103"], &[]);
    let part = first_part(shop.path(), &[]);
    assert!(near(&part["blank"][0], 23.558) && near(&part["blank"][1], 15.558), "{}", part["blank"]);
    let words = part["bend_number"].as_str().unwrap();
    for reason in ["strip of 2026-03-04", "nearest of 1", "same alloy and temper", "same die"] {
        assert!(words.contains(reason), "{words}");
    }
    let check = plateloft_in(shop.path(), &["check", "job.json"]);
    assert!(check.stdout.contains("bend-strips.jsonl"), "{}", check.stdout);
}

#[test]
fn a_job_names_its_log_and_the_command_line_another() {
    let shop = shop();
    fs::create_dir(shop.path().join("shop")).unwrap();
    added(shop.path(), "2026-03-04", ["2.118", "2.103"], &["--log", "shop/ours.jsonl"]);
    added(shop.path(), "2026-03-05", ["2.110", "2.101"], &["--log", "shop/other.jsonl"]);
    job(shop.path(), &skin(), &json!({ "strip_log": "shop/ours.jsonl" }));
    assert!(near(&first_part(shop.path(), &[])["strips"][0]["deduction"], 0.221));
    assert!(near(&first_part(shop.path(), &["--log", "shop/other.jsonl"])["strips"][0]["deduction"], 0.211));
    job(shop.path(), &skin(), &json!({ "strip_log": "gone.jsonl" }));
    let run = plateloft_in(shop.path(), &["flats", "job.json"]);
    assert!(run.code == 2 && run.stderr.contains("shop.strip_log: gone.jsonl"), "{}", run.stderr);
}

#[test]
fn strips_that_are_not_near_enough_are_left() {
    let shop = shop();
    added(shop.path(), "2026-03-04", ["2.118", "2.103"], &[]);
    for (alloy, thickness, radius) in
        [("5052-H34", ".125", ".125"), ("5052-H32", ".100", ".125"), ("5052-H32", ".125", ".1875")]
    {
        job(
            shop.path(),
            &json!({ "alloy": alloy, "thickness": thickness, "inside_radius": radius }),
            &over_the_inch_die(),
        );
        let part = first_part(shop.path(), &[]);
        assert_eq!(part["strips"], json!([]), "{alloy} {thickness} {radius}");
    }
}

// The second strip gives .231: .010 a bend, and each size of the lid crosses two bends.
#[test]
fn strips_that_differ_are_shown_side_by_side_and_the_blank_says_how_far_it_may_be_off() {
    let shop = shop();
    added(shop.path(), "2026-03-04", ["2.118", "2.103"], &[]);
    added(shop.path(), "2026-02-01", ["2.123", "2.108"], &[]);
    job(shop.path(), &skin(), &over_the_inch_die());
    let part = first_part(shop.path(), &[]);
    assert!(near(&part["strips"][0]["deduction"], 0.221), "the newest is used");
    assert!(near(&part["strips"][0]["beside"][0]["deduction"], 0.231));
    let off = &part["blank_may_be_off"];
    assert!(near(&off[0], 0.020) && near(&off[1], 0.020), "{off}");
    let text = plateloft_in(shop.path(), &["flats", "job.json"]).stdout;
    assert!(text.contains("± .020 long, ± .020 wide"), "{text}");
    assert!(text.contains("deduction .221") && text.contains("deduction .231"), "{text}");
    let check = plateloft_in(shop.path(), &["check", "job.json"]).stdout;
    assert!(check.contains("strips bent alike differ"), "{check}");
}

#[test]
fn strips_that_contradict_stop_the_job() {
    let shop = shop();
    added(shop.path(), "2026-03-04", ["2.118", "2.103"], &[]);
    added(shop.path(), "2026-02-01", ["2.150", "2.130"], &[]);
    job(shop.path(), &skin(), &over_the_inch_die());
    let run = plateloft_in(shop.path(), &["flats", "job.json"]);
    assert_eq!(run.code, 2);
    for line in ["line 1", "line 2", "contradict"] {
        assert!(run.stderr.contains(line), "{}", run.stderr);
    }
}

#[test]
fn the_overbend_is_told_and_the_flat_stays() {
    let shop = shop();
    job(shop.path(), &skin(), &over_the_inch_die());
    added(shop.path(), "2026-03-04", ["2.118", "2.103"], &[]);
    // 5052-H32 at R = T keeps .9945 of its turn by the published formula.
    let estimate = first_part(shop.path(), &[]);
    let bend = &estimate["bends"][0]["overbend"];
    assert!(
        bend["by"] == "estimate" && (bend["turn_in_die"].as_f64().unwrap() - 90.5).abs() < 0.05,
        "{bend}"
    );
    fs::remove_file(shop.path().join(LOG)).unwrap();
    added(shop.path(), "2026-03-04", ["2.118", "2.103"], &["--turn-in-die", "92"]);
    let measured = first_part(shop.path(), &[]);
    let bend = &measured["bends"][0]["overbend"];
    assert!(bend["by"] == "strip" && bend["turn_in_die"] == 92.0, "{bend}");
    assert_eq!(estimate["blank"], measured["blank"]);
}

/// The deduction printed is that of the strip in use. A strip of 45°, 2.0350 + 2.0347 − 4.000 = .0697: its allowance is
/// 2 · .25 · tan 22.5° − .0697 = .13741, so K = (.13741/.78540 − .125)/.125 = .3996, and a square bend by that K takes
/// .5 − 1.5708 · (.125 + .3996 · .125) = .225, where the strip of 90° gives .221.
#[test]
fn the_deduction_beside_a_k_factor_is_its_own() {
    let shop = shop();
    added(shop.path(), "2026-03-04", ["2.118", "2.103"], &[]);
    added(shop.path(), "2026-03-05", ["2.0350", "2.0347"], &["--turn", "45"]);
    let number = |turns: [u32; 2]| {
        job(shop.path(), &skin(), &over_the_inch_die());
        let mut whole: Value =
            serde_json::from_str(&fs::read_to_string(shop.path().join("job.json")).unwrap()).unwrap();
        let flange = |turn: u32| json!({ "leg": "2", "direction": "up", "turn": turn });
        whole["parts"] = json!([{ "mark": "P", "shape": "panel", "metal": "skin", "size": ["20", "12"],
                                  "flanges": { "AB": flange(turns[0]), "CD": flange(turns[1]) } }]);
        fs::write(shop.path().join("job.json"), whole.to_string()).unwrap();
        first_part(shop.path(), &[])["bend_number"].as_str().unwrap().to_owned()
    };
    let slight = number([45, 45]);
    assert!(slight.contains("deduction at 90° .225") && !slight.contains(".221"), "{slight}");
    let square = number([90, 90]);
    assert!(square.contains("deduction at 90° .221") && !square.contains(".225"), "{square}");
    let both = number([90, 45]);
    assert!(both.contains(".221 by K 0.42") && both.contains(".225 by K 0.39"), "{both}");
}
