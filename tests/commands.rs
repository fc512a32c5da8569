//! Whole commands: what goes to stdout, what to stderr, and the exit codes.

use serde_json::Value;
use tempfile::tempdir;

use crate::program::{plateloft, plateloft_in};

const SKIFF: &str = "fixtures/jobs/oyster-skiff.json";

fn json(text: &str) -> Value {
    serde_json::from_str(text).unwrap_or_else(|error| panic!("{error}: {text}"))
}

#[test]
fn a_new_job_is_sound() {
    let folder = tempdir().unwrap();
    let begun = plateloft_in(folder.path(), &["new", "skiff"]);
    assert_eq!(begun.code, 0, "{}", begun.stderr);
    let checked = plateloft_in(folder.path(), &["check", "skiff/job.json"]);
    assert_eq!(checked.code, 0, "{}", checked.stderr);
    let again = plateloft_in(folder.path(), &["new", "skiff"]);
    assert_eq!(again.code, 2, "an existing job must not be overwritten");
}

#[test]
fn one_bend_is_a_sum_that_can_be_redone() {
    // The strip 4.000 bent to 2.118 + 2.103: deduction .221 by subtraction.
    let words =
        ["bend", "--thickness", "1/8", "--radius", ".125", "--strip", "4.000", "--legs", "2.118", "2.103"];
    let run = plateloft(&words);
    assert_eq!(run.code, 0);
    assert!(
        run.stdout.contains("deduction = 2 × setback − allowance = 2 × 0.2500 − 0.2790 = 0.2210"),
        "{}",
        run.stdout
    );
    let answer = json(&plateloft(&[&words[..], &["--json"]].concat()).stdout);
    assert_eq!(answer["deduction"], 0.221);
}

#[test]
fn bad_options_are_all_told_at_once() {
    let run = plateloft(&["bend", "--thickness", "thick", "--radius", "-1", "--turn", "270"]);
    assert_eq!(run.code, 2);
    assert!(run.stdout.is_empty());
    for place in ["--thickness", "--radius", "--turn"] {
        assert!(run.stderr.contains(place), "{}", run.stderr);
    }
}

#[test]
fn flats_carry_every_number() {
    let run = plateloft(&["flats", SKIFF, "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let flats = json(&run.stdout);
    let parts = flats["parts"].as_array().unwrap();
    let bent = parts.iter().filter(|part| !part["bends"].as_array().unwrap().is_empty());
    assert!(bent.clone().count() > 4);
    assert!(bent.clone().all(|part| part["worst_refold_deviation_mm"].as_f64().unwrap() < 0.02));
    let tray = parts.iter().find(|part| part["quantity"] == 6).unwrap();
    // Cull tray lifting through 30 1/4 × 22 1/2: worked by a separate script, K .42.
    let near = |value: &Value, expected: f64| (value.as_f64().unwrap() - expected).abs() < 0.0006;
    assert!(near(&tray["blank"][0], 37.293) && near(&tray["blank"][1], 29.543), "{}", tray["blank"]);
}

#[test]
fn the_nest_is_compared_and_bounded() {
    let run = plateloft(&["nest", SKIFF, "--json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    for metal in json(&run.stdout)["metals"].as_array().unwrap() {
        let rows = metal["comparison"].as_array().unwrap();
        assert_eq!(rows.iter().filter(|row| row["taken"] == true).count(), 1);
        for row in rows.iter().filter(|row| row["sheets"].is_u64()) {
            let [least, sheets] = ["least_sheets", "sheets"].map(|field| row[field].as_u64().unwrap());
            assert!(least <= sheets);
            assert_eq!(row["fewest_sheets_proved"], least == sheets, "{row}");
            let sizes = row["of_each_size"].as_array().unwrap();
            assert_eq!(
                sizes.iter().map(|size| size["sheets"].as_u64().unwrap()).sum::<u64>(),
                sheets,
                "{row}"
            );
            let [least, cents] =
                ["least_cents_of_these_sizes", "cents"].map(|field| row[field].as_u64().unwrap());
            assert!(least <= cents, "{row}");
            assert_eq!(row["least_price_of_these_sizes_proved"], least == cents, "{row}");
            assert!(row["least_area_of_these_sizes_proved"].is_null(), "{row}");
            // A single size is proved of itself alone, a mix of all there are.
            let proved_of = row["proved_of_sizes"].as_array().unwrap();
            match row["mix"].as_bool().unwrap() {
                true => assert_eq!(proved_of.len() + 1, rows.len(), "{row}"),
                false => assert_eq!(proved_of[..], [row["sheets_of"].clone()], "{row}"),
            }
        }
    }
}

#[test]
fn threads_do_not_change_the_answer() {
    let with = |threads: &str| {
        let output = std::process::Command::new(env!("CARGO_BIN_EXE_plateloft"))
            .args(["nest", SKIFF, "--json"])
            .env("RAYON_NUM_THREADS", threads)
            .current_dir(crate::program::top())
            .output()
            .unwrap();
        output.stdout
    };
    let one = with("1");
    assert!(!one.is_empty());
    assert_eq!(one, with("8"));
}

#[test]
fn the_schema_is_json_and_names_every_shape() {
    let run = plateloft(&["schema"]);
    assert_eq!(run.code, 0);
    let schema = json(&run.stdout).to_string();
    for shape in ["tapered_lid", "pan", "day_box", "lid", "panel", "plate"] {
        assert!(schema.contains(shape), "{shape}");
    }
}

#[test]
fn the_schema_of_a_strip_log_line_names_every_field_that_is_written() {
    let run = plateloft(&["schema", "--strip-log"]);
    assert_eq!(run.code, 0);
    let schema = json(&run.stdout);
    let fields = schema["properties"].as_object().unwrap();
    for field in ["plateloft", "date", "metal", "thickness", "inside_radius", "turn", "length", "legs"] {
        assert!(fields.contains_key(field), "{field}");
        assert!(schema["required"].as_array().unwrap().iter().any(|name| name == field), "{field}");
    }
}

/// A wrap's girth goes by the mid-line: no K-factor and no deduction stand behind it.
#[test]
fn a_wrap_prints_what_its_girth_went_by() {
    let run = plateloft(&["flats", "fixtures/shapes/cylinder.json"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    assert!(run.stdout.contains("bend number: none: wrapped round an axis"), "{}", run.stdout);
    assert!(!run.stdout.contains("deduction at 90°"), "{}", run.stdout);
}

/// A bend by DIN 6935 of 12° loses nothing, and says why; of 15° it goes by the formula.
#[test]
fn a_slight_bend_by_din_6935_is_the_sum_of_its_legs() {
    let bend = |turn: &str| {
        let sizes = ["bend", "--thickness", "2", "--radius", "2", "--units", "mm", "--model", "din-6935"];
        plateloft(&[&sizes[..], &["--turn", turn, "--flat-of", "50", "40"]].concat())
    };
    let (slight, more) = (bend("12"), bend("15"));
    assert_eq!((slight.code, more.code), (0, 0), "{}", slight.stderr);
    assert!(slight.stdout.contains("takes the deduction of a single bend for nothing"), "{}", slight.stdout);
    assert!(slight.stdout.contains("= 90.0"), "{}", slight.stdout);
    assert!(!more.stdout.contains("for nothing"), "{}", more.stdout);
}
