//! Sizes at the ends of what makes sense, and hands that differ only in how many there are.

#![allow(clippy::unwrap_used, reason = "a test may stop at a job that cannot be read")]

use crate::common::{part, words};
use job::{Job, read};
use serde_json::{Value, json};

fn job_of(parts: &Value) -> Result<Job, String> {
    let job = json!({
        "plateloft": 1, "job": "Sizes", "units": "inch", "tape": "1/64",
        "shop": { "gap": "1/4", "kerf": "1/8", "edge_trim": "1/2" },
        "metals": { "skin": { "alloy": "5052-H32", "thickness": ".125", "inside_radius": ".125", "k_factor": 0.42 } },
        "parts": parts,
    });
    read("job.json", job.to_string().as_bytes()).map_err(|messages| words(&messages))
}

/// A gutter whose drain is so wide.
fn gutter(width: &str, depth: &str, drain: &str) -> Value {
    json!([{
        "mark": "G", "shape": "gutter", "metal": "skin", "opening": ["30", "20"], "width": width, "depth": depth,
        "drain": { "corner": "A", "diameter": drain },
    }])
}

/// The ends of the ranges are common practice, no source: 1/8 in for a drain, 1/4 in for a channel.
#[test]
fn the_least_sizes_are_taken_and_what_is_below_is_not() {
    assert!(job_of(&gutter("1 3/4", "1 1/4", "1/8")).is_ok());
    assert!(job_of(&gutter("1/4", "1/4", "1/8")).is_ok(), "the bends are judged when it is shaped");
    let refused = |parts: &Value, field: &str| {
        let said = job_of(parts).unwrap_err();
        assert!(said.contains(&format!("G: {field}:")), "{said}");
    };
    refused(&gutter("1 3/4", "1 1/4", "7/64"), "drain.diameter");
    refused(&gutter("15/64", "1 1/4", "1/8"), "width");
    refused(&gutter("1 3/4", "15/64", "1/8"), "depth");
}

fn hinged(leaf: &str) -> Value {
    json!([{
        "mark": "L", "shape": "tapered_lid", "metal": "skin", "over": ["30", "20"], "outset": "7/8", "rise": "2",
        "inset": "3", "skirt": "1 1/8", "hinge": { "side": "AB", "leaf": leaf },
    }])
}

#[test]
fn a_hinge_leaf_as_thick_as_the_lid_is_high_is_pointed_out() {
    let cautioned = |leaf: &str| {
        let job = job_of(&hinged(leaf)).unwrap();
        job.cautions.iter().any(|caution| caution.starts_with("L: hinge.leaf"))
    };
    assert!(cautioned("3"));
    assert!(cautioned("9/16"));
    assert!(!cautioned("1/2"));
}

fn proud(outset: &str, lip: Option<&str>) -> Vec<String> {
    let mut lid = json!({
        "mark": "L", "shape": "tapered_lid", "metal": "skin", "over": ["30", "20"], "outset": outset, "rise": "2",
        "inset": "3", "skirt": "1 1/8",
    });
    if let Some(lip) = lip {
        lid["return"] = json!(lip);
    }
    let mut cautions = job_of(&json!([lid])).unwrap().cautions;
    cautions.retain(|caution| caution.starts_with("L: outset"));
    cautions
}

/// Sums by hand: 5/8 − 3/4 = −1/8; 1/16 − .125 = −1/16; 0 − .125 = −1/8.
#[test]
fn a_lid_that_leaves_nothing_to_go_over_a_coaming_is_pointed_out() {
    for (outset, lip, taker, inside) in [
        ("5/8", Some("3/4"), "3/4 return", "1/8 inside"),
        ("1/16", None, "1/8 metal", "1/16 inside"),
        ("0", None, "1/8 metal", "1/8 inside"),
    ] {
        let cautions = proud(outset, lip);
        let said = cautions.iter().any(|caution| caution.contains(taker) && caution.contains(inside));
        assert!(said, "{outset} {lip:?}: {cautions:?}");
    }
    assert!(proud("7/8", Some("3/4")).is_empty());
    assert!(proud("1/8", None).is_empty());
}

fn pair(edit: &Value) -> Job {
    job_of(&json!([{
        "mark": "A", "shape": "plate", "metal": "skin", "size": ["20", "10"], "quantity": 2,
        "opposite_hand": { "mark": "B", "edit": edit },
    }]))
    .unwrap()
}

#[test]
fn hands_that_differ_only_in_number_are_an_exact_pair() {
    let exact = pair(&json!({ "quantity": 3 }));
    assert_eq!((part(&exact, "A").quantity, part(&exact, "B").quantity), (2, 3));
    assert!(part(&exact, "B").hand_edits.is_empty());
    let edited = pair(&json!({ "quantity": 3, "size": ["20", "11"] }));
    let fields: Vec<&str> = part(&edited, "B").hand_edits.iter().map(|edit| edit.field.as_str()).collect();
    assert_eq!(fields, ["size[1]"]);
}
