//! Turns given by a step or as a list, from the job file to the nest.
#![expect(clippy::disallowed_methods, reason = "a test of a program that writes files reads them")]

use std::fs;

use serde_json::{Value, json};
use tempfile::tempdir;

use crate::program::plateloft_in;

/// A strip of 40 x 2 that fits a sheet of 32 x 32 only near its diagonal: at 45° it is 29.7 wide and high.
fn nested(metal: &Value) -> (i32, Value) {
    nested_with(metal, &json!({}))
}

/// The same with more fields of the part.
fn nested_with(metal: &Value, fields: &Value) -> (i32, Value) {
    let mut part = json!({ "mark": "B", "shape": "plate", "metal": "skin", "size": ["40", "2"] });
    part.as_object_mut().unwrap().extend(fields.as_object().unwrap().clone());
    let job = json!({
        "plateloft": 1, "job": "A brace across the sheet", "date": "2026-03-04", "units": "inch", "tape": "1/16",
        "shop": { "gap": "1/4", "edge_trim": "1/4" },
        "metals": { "skin": metal },
        "sheets": [{ "metal": "skin", "size": ["32", "32"] }],
        "parts": [part],
    });
    let folder = tempdir().unwrap();
    fs::write(folder.path().join("job.json"), job.to_string()).unwrap();
    let run = plateloft_in(folder.path(), &["nest", "job.json", "--json"]);
    (run.code, serde_json::from_str(&run.stdout).unwrap_or(Value::Null))
}

#[test]
fn a_step_or_a_list_says_at_which_turns_parts_may_lie() {
    let metal = |name: &str, value: Value| {
        let mut metal = json!({ "alloy": "5052-H32", "thickness": ".125", "inside_radius": ".125" });
        metal[name] = value;
        nested(&metal)
    };
    assert_eq!(metal("turn_every", json!(30)).0, 2, "no step of 30° fits");
    assert_eq!(metal("turns", json!("any")).0, 0, "some turn fits");
    for (name, value) in [("turn_every", json!("22.5")), ("turns_at", json!([0, "45"]))] {
        let (code, answer) = metal(name, value);
        assert_eq!(code, 0, "{name}");
        let turn = answer["metals"][0]["sheets"][0]["pieces"][0]["turn"].as_f64().unwrap();
        assert!((turn % 90.0 - 45.0).abs() < 1e-9, "{name}: {turn}");
    }
}

/// What a part says goes before what its metal says, wider or narrower, and its opposite hand goes by it too.
#[test]
fn a_part_says_itself_at_which_turns_it_may_lie() {
    let metal = |turns: &str| json!({ "alloy": "5052-H32", "thickness": ".125", "inside_radius": ".125", "turns": turns });
    assert_eq!(nested_with(&metal("any"), &json!({ "turns": "half" })).0, 2, "only near the diagonal");
    assert_eq!(nested_with(&metal("half"), &json!({ "turns": "any" })).0, 0);
    let (code, answer) = nested_with(&metal("half"), &json!({ "turns_at": ["46"], "opposite_hand": "BO" }));
    assert_eq!(code, 0);
    let sheets = answer["metals"][0]["sheets"].as_array().unwrap();
    let pieces: Vec<&Value> = sheets.iter().flat_map(|sheet| sheet["pieces"].as_array().unwrap()).collect();
    assert_eq!(pieces.len(), 2);
    for piece in pieces {
        assert!((piece["turn"].as_f64().unwrap() - 46.0).abs() < 1e-9, "{piece}");
    }
}
