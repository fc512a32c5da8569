//! The schema and the reader are one: every field of the jobs is in the schema, and every field of the schema is read.
#![expect(clippy::expect_used, reason = "a demo job that is not JSON fails its test")]

use std::collections::BTreeSet;

use crate::common::{bytes, demo_names, shape_names};
use job::{read, read_with_log, schema, starter};
use serde_json::Value;

fn parsed() -> Value {
    serde_json::from_str(&schema()).expect("the schema is JSON")
}

/// Names under `properties`, anywhere in the schema.
fn schema_fields(schema: &Value, fields: &mut BTreeSet<String>) {
    match schema {
        Value::Object(own) => {
            if let Some(Value::Object(properties)) = own.get("properties") {
                fields.extend(properties.keys().cloned());
            }
            own.values().for_each(|inner| schema_fields(inner, fields));
        }
        Value::Array(entries) => entries.iter().for_each(|inner| schema_fields(inner, fields)),
        _ => {}
    }
}

fn job_fields(job: &Value, fields: &mut BTreeSet<String>) {
    match job {
        Value::Object(own) => {
            fields.extend(own.keys().cloned());
            own.values().for_each(|inner| job_fields(inner, fields));
        }
        Value::Array(entries) => entries.iter().for_each(|inner| job_fields(inner, fields)),
        _ => {}
    }
}

/// Every group of fields in the schema, by where it stands, and what it says.
fn groups<'a>(schema: &'a Value, found: &mut Vec<&'a Value>) {
    match schema {
        Value::Object(own) => {
            if own.get("type").is_some_and(|kind| kind == "object") {
                found.push(schema);
            }
            own.values().for_each(|inner| groups(inner, found));
        }
        Value::Array(entries) => entries.iter().for_each(|inner| groups(inner, found)),
        _ => {}
    }
}

#[test]
fn every_field_of_the_schema_is_written_in_some_job() {
    let mut known = BTreeSet::new();
    schema_fields(&parsed(), &mut known);
    let mut written = BTreeSet::new();
    let jobs = demo_names().into_iter().map(|name| bytes("jobs", &name));
    let shapes = shape_names().into_iter().map(|name| bytes("shapes", &name));
    for job in jobs.chain(shapes).chain(
        [starter().as_bytes().to_vec(), EVERY_FIELD.as_bytes().to_vec()].into_iter().chain(brake_jobs()),
    ) {
        job_fields(&serde_json::from_slice(&job).expect("the demo jobs are JSON"), &mut written);
    }
    let unread: Vec<&String> = known.difference(&written).collect();
    assert!(unread.is_empty(), "in the schema, and in no job that reads: {unread:?}");
}

#[test]
fn the_rarer_fields_read() {
    let log = |named: Option<&str>| {
        assert_eq!(named, Some("bend-strips.jsonl"));
        Ok(None)
    };
    if let Err(messages) = read_with_log("every-field.json", EVERY_FIELD.as_bytes(), &log) {
        panic!("{}", crate::common::words(&messages));
    }
    for job in brake_jobs() {
        if let Err(messages) = read("brake.json", &job) {
            panic!("{}", crate::common::words(&messages));
        }
    }
}

/// A job for each kind of brake, with every field that its kind has.
fn brake_jobs() -> Vec<Vec<u8>> {
    BRAKES
        .iter()
        .map(|brake| {
            let job = r#"{
              "plateloft": 1, "job": "Brake", "units": "inch", "tape": ".01",
              "shop": { "gap": ".25", "edge_trim": ".5", "stop_below_least_radius": true,
                        "roll": { "length": "36", "least_radius": "2" }, "brake": BRAKE },
              "metals": { "own": { "alloy": "5052-H32", "thickness": ".125", "inside_radius": ".25" } },
              "parts": [{ "mark": "E", "shape": "plate", "metal": "own", "diameter": "9", "turns_at": [0, "22.5"] },
    { "mark": "J", "shape": "plate", "metal": "own", "diameter": "9", "turn_every": 45 },
    { "mark": "K", "shape": "plate", "metal": "own", "diameter": "9", "turns": "half" }]
            }"#;
            job.replace("BRAKE", brake).into_bytes()
        })
        .collect()
}

const BRAKES: [&str; 3] = [
    r#"{ "kind": "press", "length": "96", "tons": 90, "throat": "10", "stop_reach": "20", "daylight": "16", "v_openings": ["1", "1 1/2"],
         "die_width": "3", "die_height": "3",
         "punch": { "profile": "gooseneck", "height": "6", "width": "1/2", "angle": 30, "relief": "1 1/2",
                    "sections": ["12", "12", "24", "48"] } }"#,
    r#"{ "kind": "fingers", "length": "48", "fingers": ["1", "2", "3", "4"], "deepest_box": "4", "nose_angle": 45,
         "leaf_width": "2", "leaf_thickness": ".75" }"#,
    r#"{ "kind": "leaf", "length": "48", "bar_height": "2", "stop_reach": "18" }"#,
];

#[test]
fn tooling_of_another_kind_of_brake_is_refused() {
    let job = |brake: &str| {
        String::from_utf8(brake_jobs()[0].clone()).unwrap_or_default().replace(BRAKES[0], brake)
    };
    for (brake, field) in [
        (r#"{ "kind": "press", "fingers": ["1"] }"#, "shop.brake.fingers"),
        (r#"{ "kind": "leaf", "tons": 40 }"#, "shop.brake.tons"),
        (r#"{ "kind": "press", "v_opening": "1", "v_openings": ["1"] }"#, "shop.brake.v_opening"),
        (r#"{ "kind": "press", "punch": { "relief": "1" } }"#, "shop.brake.punch.relief"),
        (
            r#"{ "kind": "press", "punch": { "profile": "gooseneck", "height": "4", "relief": "3" } }"#,
            "shop.brake.punch.relief",
        ),
        (r#"{ "kind": "leaf", "nose_angle": 5 }"#, "shop.brake.nose_angle"),
    ] {
        match read("brake.json", job(brake).as_bytes()) {
            Ok(_) => panic!("{brake} must be refused"),
            Err(messages) => {
                assert!(messages.iter().any(|m| m.field == field), "{}", crate::common::words(&messages));
            }
        }
    }
}

#[test]
fn no_group_of_fields_takes_names_that_are_not_in_it() {
    let schema = parsed();
    let mut found = Vec::new();
    groups(&schema, &mut found);
    assert!(found.len() > 15, "{}", found.len());
    for group in found {
        let more = group.get("additionalProperties");
        assert!(more.is_some_and(|more| *more == Value::Bool(false) || more.is_object()), "{group}");
    }
}

#[test]
fn every_field_says_what_it_is() {
    let schema = parsed();
    let mut found = Vec::new();
    groups(&schema, &mut found);
    for group in found {
        let none = serde_json::Map::new();
        for (name, field) in group.get("properties").and_then(Value::as_object).unwrap_or(&none) {
            let noted = name == "note" || name == "notes";
            assert!(noted || field.get("description").is_some(), "{name}: {field}");
        }
    }
}

#[test]
fn nothing_may_be_null() {
    assert!(!schema().contains("\"null\""), "{}", schema());
}

/// The fields that no demo job needs.
const EVERY_FIELD: &str = r#"{
  "plateloft": 1, "job": "Every rarer field", "units": "inch", "tape": ".01",
  "shop": {
    "gap": ".25", "edge_trim": ".5", "relief": "round", "relief_hole": ".25", "strip_log": "bend-strips.jsonl",
    "strips": [{ "metal": "own", "length": "4", "legs": ["2.14", "2.14"], "turn_in_die": 92, "date": "2026-03-04" }]
  },
  "metals": {
    "own": {
      "alloy": "5454-H32", "unlisted": true, "density": "2.69 g/cm3", "thickness": ".125", "inside_radius": ".25",
      "least_inside_radius": ".1875", "model": "faa", "turns": "any", "face_shows": true
    },
    "brace": {
      "alloy": "5052-H32", "thickness": ".125", "inside_radius": ".125", "turn_every": "22.5"
    },
    "gusset": {
      "alloy": "5052-H32", "thickness": ".125", "inside_radius": ".125", "turns_at": [0, "30°"]
    },
    "deck": { "alloy": "3003-H22", "pattern": "tread", "thickness": ".125", "lug_height": ".06" }
  },
  "openings": {
    "well": { "AB": "20", "BC": "15", "CD": "20", "DA": "15", "AC": "25", "corners_run": "clockwise" }
  },
  "parts": [
    {
      "mark": "A", "shape": "tapered_lid", "metal": "own", "over": "well", "outset": ".75", "rise": "2", "inset": "2.5",
      "skirt": "1.5", "return": "1", "corner": { "butt_through": ["AB", "CD"] }
    },
    { "mark": "B", "shape": "pan", "metal": "own", "inside_floor": ["20", "12"], "height": "4", "rim": "none",
      "corner": { "lap": ".75", "carried_by": "long sides", "side": "outside" } },
    { "mark": "G", "shape": "pan", "metal": "own", "inside_floor": ["20", "12"], "height": "4", "rim": "none",
      "corner": { "at": { "A": "open", "wall at corner C": { "butt_through": ["BC"] } }, "others": "butt" } },
    { "mark": "H", "shape": "gutter", "metal": "own", "opening": "well", "width": "3", "depth": "1.5",
      "drain": { "corner": "A", "diameter": "1.5", "spout": { "length": "4", "clearance": ".02" } } },
    { "mark": "I", "shape": "console", "metal": "own", "width": "28", "wrapped": ["BC", "CD", "DE"], "corner_radius": "2",
      "outline": [["0", "0"], ["22", "0"], ["22", "38"], ["9", "38"], ["0", "30"]] },
    { "mark": "F", "shape": "pan", "metal": "own", "outside": ["20", "12"], "height": "4", "rim": "none",
      "corner": { "tab": ".5", "count": 2, "clearance": ".02", "tabs_on": "short sides" } },
    { "mark": "M", "shape": "pan", "metal": "own", "inside_floor": ["20", "12"], "height": "4", "rim": "none",
      "corner": { "at": { "A": { "gap": ".2" } }, "others": "butt" } },
    { "mark": "N", "shape": "brake_profile", "metal": "own", "length": "40", "legs": ["3", "4"], "legs_to": "outside",
      "bends": ["90 up"], "edges": {
        "first": { "hem": { "kind": "tear_drop", "length": "1.5", "radius": ".25", "toward": "up" } },
        "last": { "curl": { "radius": ".3" } }
      } },
    { "mark": "C", "shape": "day_box", "metal": "own", "width": "12", "height": "8", "depth": "4", "rim": "1 inward" },
    {
      "mark": "D", "shape": "panel", "metal": "own", "mirror": "never", "size": ["30", "12"],
      "flanges": { "AB": { "leg": "2", "direction": "up", "turn": "80°", "short": ["0", "1"] } },
      "holes": [
        { "at": ["15", "6"], "cut_out": ["6", "4"], "corner_radius": ".5" },
        { "at": ["5", "6"], "slot": ["3", "1"], "turned": 30 }
      ],
      "notches": [{ "side": "CD", "at": "15", "width": "3", "depth": "1" }]
    },
    { "mark": "E", "shape": "plate", "metal": "own", "diameter": "9", "turns_at": [0, "22.5"] },
    { "mark": "J", "shape": "plate", "metal": "own", "diameter": "9", "turn_every": 45 },
    { "mark": "K", "shape": "plate", "metal": "own", "diameter": "9", "turns": "half" }
  ],
  "coverings": [
    { "covering": "carpet", "squaring": "2", "width": "144", "longest": "1200", "nap": false, "pieces": [{ "mark": "K", "size": ["60", "40"] }] }
  ],
  "sheets": [{ "metal": "own", "size": ["48", "48"], "supplier_cuts": 1 }],
  "quote": { "work": {
    "shear": { "set_up": 5, "each": 1 }, "saw_bars": { "set_up": 5, "each": 1 }, "fit_coverings": { "set_up": 5, "each": 1 }
  } },
  "buying": {
    "cut_charge": 5,
    "order": { "contact": "the yard", "heaviest_pack": "1500 lb", "film_side": "down", "tolerances": { "own": "the mill's" } }
  },
  "kit": {
    "crates": { "inside": ["40", "30", "6"], "empty": "30 lb", "heaviest": "150 lb", "most": 2 },
    "packing": { "what": "board", "thickness": ".125", "clear": ".25" },
    "stays_here": ["C"]
  },
  "options": [
    { "name": "smaller", "instead": { "parts": { "E": { "diameter": "8" } } }, "leave_out": ["D"],
      "add": [{ "mark": "G", "shape": "plate", "metal": "own", "diameter": "3" }], "as_kit": true }
  ]
}"#;
