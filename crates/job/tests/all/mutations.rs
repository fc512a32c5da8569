//! Jobs changed at random: each reads as the same job or is refused with a reason, and nothing panics.
#![expect(clippy::expect_used, reason = "a demo job that is not JSON fails its test")]

use std::sync::LazyLock;

use crate::common::bytes;
use job::{Job, read};
use proptest::prelude::*;
use serde_json::{Map, Value, json};

static SKIFF: LazyLock<Value> = LazyLock::new(|| {
    serde_json::from_slice(&bytes("jobs", "oyster-skiff.json")).expect("the demo job is JSON")
});

static SKIFF_JOB: LazyLock<Job> = LazyLock::new(|| crate::common::demo("oyster-skiff.json"));

/// Steps from the top of a tree, as JSON pointers, to every value in it.
fn pointers(tree: &Value, here: &str, found: &mut Vec<String>) {
    let inner: Vec<(String, &Value)> = match tree {
        Value::Object(fields) => fields.iter().map(|(name, value)| (name.clone(), value)).collect(),
        Value::Array(entries) => {
            entries.iter().enumerate().map(|(n, value)| (n.to_string(), value)).collect()
        }
        _ => Vec::new(),
    };
    for (name, value) in inner {
        let there = format!("{here}/{name}");
        pointers(value, &there, found);
        found.push(there);
    }
}

static POINTERS: LazyLock<Vec<String>> = LazyLock::new(|| {
    let mut found = Vec::new();
    pointers(&SKIFF, "", &mut found);
    found
});

/// Reads, and proves that a refusal says something. Reading must not panic on anything.
fn reads(bytes: &[u8]) -> Option<Job> {
    match read("job.json", bytes) {
        Ok(job) => Some(job),
        Err(messages) => {
            assert!(!messages.is_empty(), "refused without a word");
            assert!(messages.iter().all(|m| !m.wrong.is_empty() && !m.remedy.is_empty()), "{messages:?}");
            None
        }
    }
}

fn reads_tree(tree: &Value) -> Option<Job> {
    reads(tree.to_string().as_bytes())
}

/// The same job in other words: fields in reverse order, a note in every group of fields.
fn reworded(tree: &Value, metric: bool) -> Value {
    match tree {
        Value::Object(fields) => {
            let mut entries: Vec<(String, Value)> =
                fields.iter().map(|(name, value)| (name.clone(), reworded(value, metric))).collect();
            // Clearances print as a sum in the order they are written.
            if !fields.contains_key("coaming") {
                entries.reverse();
            }
            let mut other: Map<String, Value> = entries.into_iter().collect();
            let own = ["metals", "openings", "note", "notes"];
            if !own.iter().any(|name| fields.contains_key(*name)) {
                other.insert("notes".to_owned(), json!(["said once more"]));
            }
            Value::Object(other)
        }
        Value::Array(entries) => entries.iter().map(|entry| reworded(entry, metric)).collect(),
        Value::String(text) if metric => match units::Length::read(text, units::LengthUnit::Inch) {
            Ok(length) => {
                let style = units::LengthStyle::Millimetres { places: 6 };
                Value::String(length.print_with_unit(style))
            }
            Err(_) => tree.clone(),
        },
        other => other.clone(),
    }
}

/// The job without what only repeats the words of the file.
fn without_notes(job: &Job) -> Job {
    let mut job = job.clone();
    job.notes.clear();
    job.parts.iter_mut().for_each(|part| part.notes.clear());
    job.sheets.iter_mut().for_each(|sheet| sheet.notes.clear());
    // The order of metals and openings follows the file.
    job.openings.sort_by(|a, b| a.name.cmp(&b.name));
    job
}

#[test]
fn order_notes_and_units_of_the_writing_do_not_matter() {
    for metric in [false, true] {
        let mut tree = reworded(&SKIFF, metric);
        // The number of a metal is its place in the file, so that order stays.
        let metals = tree.get("metals").and_then(Value::as_object).expect("the job has metals");
        let in_order: Map<String, Value> =
            metals.iter().rev().map(|(name, value)| (name.clone(), value.clone())).collect();
        tree["metals"] = Value::Object(in_order);
        let job = reads_tree(&tree)
            .unwrap_or_else(|| panic!("{:?}", read("job.json", tree.to_string().as_bytes())));
        assert!(without_notes(&job) == without_notes(&SKIFF_JOB), "{job:#?}");
    }
}

#[test]
fn a_length_that_is_not_above_zero_is_never_taken() {
    let mut tried = 0;
    for pointer in POINTERS.iter().filter(|pointer| pointer.starts_with("/parts/")) {
        let name = pointer.rsplit('/').next().unwrap_or_default();
        if !["height", "width", "rise", "skirt", "depth_top", "depth_bottom", "back_height", "diameter"]
            .contains(&name)
        {
            continue;
        }
        for written in [json!("-1 1/2"), json!("0"), json!(-0.0), json!("3 3/12"), json!(null), json!("")] {
            let mut tree = SKIFF.clone();
            *tree.pointer_mut(pointer).expect("the pointer leads to a value") = written.clone();
            assert!(reads_tree(&tree).is_none(), "{pointer} = {written} was taken");
            tried += 1;
        }
    }
    assert!(tried > 40, "{tried}");
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn random_bytes_are_refused(noise in proptest::collection::vec(any::<u8>(), 0..400)) {
        prop_assert!(reads(&noise).is_none());
    }

    #[test]
    fn random_text_is_refused(noise in "\\PC{0,200}") {
        prop_assert!(reads(noise.as_bytes()).is_none());
    }

    #[test]
    fn a_cut_off_file_is_refused(share in 0.0..0.999_f64) {
        let whole = bytes("jobs", "oyster-skiff.json");
        let kept = whole.len() as f64 * share;
        let end = whole.iter().rposition(|&byte| byte == b'}').unwrap_or(0);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a share of a small length")]
        let kept = (kept as usize).min(end);
        prop_assert!(reads(&whole[..kept]).is_none());
    }

    #[test]
    fn flipped_bytes_never_panic(flips in proptest::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..6)) {
        let mut file = bytes("jobs", "oyster-skiff.json");
        for (at, byte) in flips {
            let at = at.index(file.len());
            file[at] = byte;
        }
        if let Some(job) = reads(&file) {
            // Whatever still reads must be able to say whether it can be made.
            job.parts.iter().for_each(|part| drop(part.shape()));
        }
    }

    #[test]
    fn swapped_values_never_panic(a in any::<prop::sample::Index>(), b in any::<prop::sample::Index>()) {
        let (a, b) = (a.get(POINTERS.as_slice()), b.get(POINTERS.as_slice()));
        let mut tree = SKIFF.clone();
        let (first, second) = (SKIFF.pointer(a).cloned(), SKIFF.pointer(b).cloned());
        if let (Some(place), Some(value)) = (tree.pointer_mut(a), second) {
            *place = value;
        }
        if let (Some(place), Some(value)) = (tree.pointer_mut(b), first) {
            *place = value;
        }
        if let Some(job) = reads_tree(&tree) {
            job.parts.iter().for_each(|part| drop(part.shape()));
        }
    }

    // Clearances bear names of one's own, so a new name there is no mistake.
    #[test]
    fn a_field_that_is_not_known_is_refused(at in any::<prop::sample::Index>(), name in "[a-z]{3,12}_q") {
        let mut tree = SKIFF.clone();
        let groups: Vec<&String> =
            POINTERS.iter().filter(|p| SKIFF.pointer(p).is_some_and(Value::is_object) && !p.ends_with("/clearance")).collect();
        let pointer = at.get(&groups);
        if let Some(Value::Object(fields)) = tree.pointer_mut(pointer) {
            fields.insert(name, json!("1"));
        }
        prop_assert!(reads_tree(&tree).is_none(), "{pointer}");
    }

    #[test]
    fn a_field_that_is_left_out_is_refused_or_was_optional(at in any::<prop::sample::Index>()) {
        let pointer = at.get(POINTERS.as_slice());
        let (inside, name) = pointer.rsplit_once('/').unwrap_or_default();
        let mut tree = SKIFF.clone();
        let removed = match tree.pointer_mut(inside) {
            Some(Value::Object(fields)) => fields.shift_remove(name).is_some(),
            _ => false,
        };
        if removed && let Some(job) = reads_tree(&tree) {
            let optional = [
                "revision", "date", "note", "notes", "kerf", "relief", "seam_gap", "strips", "brake", "keep_drop",
                "turn", "length", "v_opening", "shortest_flange", "inside_radius", "pattern", "weight", "lay", "price",
                "sheets", "AC", "BD", "quantity", "opposite_hand", "flanges", "holes", "notches", "back_height", "tray",
                "coaming", "gasket", "CD", "at", "clearance", "drain",
            ];
            // A rate that is left out is a question on the quote, and no fault of the job.
            let money = ["/buying", "/quote", "/hardware"].iter().any(|group| pointer.starts_with(group));
            prop_assert!(money || optional.contains(&name), "{pointer} was not missed");
            prop_assert!(job.name == SKIFF_JOB.name);
        }
    }
}
