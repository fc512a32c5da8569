//! Every published row says where it was printed and how it was got, and none has gone missing.

use serde_json::Value;

/// Each file with the number of its rows.
const FILES: [(&str, usize); 14] = [
    (include_str!("../../../../fixtures/published/din_6935.json"), 131),
    (include_str!("../../../../fixtures/published/dripping_pan.json"), 4),
    (include_str!("../../../../fixtures/published/edge_allowances.json"), 5),
    (include_str!("../../../../fixtures/published/faa_bend_allowance.json"), 72),
    (include_str!("../../../../fixtures/published/faa_channel.json"), 7),
    (include_str!("../../../../fixtures/published/hip_backing.json"), 12),
    (include_str!("../../../../fixtures/published/k_factor_deductions.json"), 33),
    (include_str!("../../../../fixtures/published/machinerys_empirical.json"), 111),
    (include_str!("../../../../fixtures/published/roof_hips.json"), 18),
    (include_str!("../../../../fixtures/published/setback_k_chart.json"), 42),
    (include_str!("../../../../fixtures/published/sheet_weights.json"), 10),
    (include_str!("../../../../fixtures/published/springback.json"), 11),
    (include_str!("../../../../fixtures/published/test_strips.json"), 2),
    (include_str!("../../../../fixtures/published/workbook_exercises.json"), 13),
];

/// The ways a value may have been got; `from memory` never stands alone in a test.
const WAYS: [&str; 3] = ["read", "from memory", "derived from the formula"];

fn words<'a>(value: &'a Value, field: &str) -> &'a str {
    value[field].as_str().unwrap_or_default()
}

#[test]
fn every_row_has_its_source_and_how_it_was_got() {
    for (text, count) in FILES {
        let file: Value = serde_json::from_str(text).unwrap();
        let topic = words(&file, "topic");
        assert!(!topic.is_empty() && !words(&file, "source").is_empty(), "{topic}");
        let rows = file["rows"].as_array().unwrap();
        assert_eq!(rows.len(), count, "{topic}");
        for row in rows {
            assert!(!words(row, "source").is_empty(), "{topic}: {row}");
            let how = words(row, "how");
            assert!(WAYS.iter().any(|way| how.starts_with(way)), "{topic}: {row}");
        }
    }
}

/// Two rows of one thing: all numbers of the first are in the second as well, the same but for one, the value, which a
/// printed table may have rounded by up to a thirtieth.
fn same_thing(row: &Value, other: &Value) -> bool {
    let numbers: Vec<(&String, f64)> = row
        .as_object()
        .into_iter()
        .flatten()
        .filter_map(|(field, value)| Some((field, value.as_f64()?)))
        .collect();
    let near = |number: f64, own: f64| (number - own).abs() <= own.abs() / 30.0;
    let held = |(field, own): &(&String, f64)| {
        other[field.as_str()].as_f64().is_some_and(|number| near(number, *own))
    };
    let differ = |(field, own): &&(&String, f64)| other[field.as_str()].as_f64() != Some(*own);
    numbers.len() > 1 && numbers.iter().all(held) && numbers.iter().filter(differ).count() <= 1
}

// What was recalled may have been recalled wrongly: it stands only beside a row that was read or worked out.
#[test]
fn no_row_from_memory_stands_alone() {
    let mut recalled = 0;
    for (text, _) in FILES {
        let file: Value = serde_json::from_str(text).unwrap();
        let rows = file["rows"].as_array().unwrap();
        let from_memory = |row: &&Value| words(row, "how").starts_with("from memory");
        for row in rows.iter().filter(from_memory) {
            let beside = rows.iter().any(|other| !from_memory(&other) && same_thing(row, other));
            assert!(beside, "{}: nothing but memory stands behind {row}", words(&file, "topic"));
            recalled += 1;
        }
    }
    assert_eq!(recalled, 10);
    let row =
        |how: &str, value: f64| serde_json::json!({ "thickness_in": 0.1, "allowance_in": value, "how": how });
    assert!(same_thing(&row("from memory", 0.2), &row("read", 0.201)));
    assert!(!same_thing(&row("from memory", 0.2), &row("read", 0.21)), "another value");
}

#[test]
fn the_list_above_names_every_file() {
    let folder = std::path::Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../../fixtures/published"));
    let names = folder.read_dir().unwrap().map(|entry| entry.unwrap().file_name());
    let tables = names.filter(|name| name.to_string_lossy().ends_with(".json")).count();
    assert_eq!(tables, FILES.len());
}
