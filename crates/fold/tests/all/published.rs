//! Every published row says where it was printed and how it was got, and none has gone missing.

use serde_json::Value;

/// Each file with the number of its rows.
const FILES: [(&str, usize); 13] = [
    (include_str!("../../../../fixtures/published/din_6935.json"), 131),
    (include_str!("../../../../fixtures/published/dripping_pan.json"), 4),
    (include_str!("../../../../fixtures/published/faa_bend_allowance.json"), 71),
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

#[test]
fn the_list_above_names_every_file() {
    let folder = std::path::Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../../fixtures/published"));
    let names = folder.read_dir().unwrap().map(|entry| entry.unwrap().file_name());
    let tables = names.filter(|name| name.to_string_lossy().ends_with(".json")).count();
    assert_eq!(tables, FILES.len());
}
