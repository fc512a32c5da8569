//! Openings of three to eight sides in the job file: by sides and diagonals, and by their outline.

use crate::common::{demo, words};
use job::{Job, ShapeInput, read};
use units::Length;

fn with(openings: &str, parts: &str) -> Result<Job, String> {
    let text = format!(
        r#"{{ "plateloft": 1, "job": "Hatches", "units": "inch", "tape": "1/16", "shop": {{ "gap": "1/4", "edge_trim": "1/2" }},
        "metals": {{ "skin": {{ "alloy": "5052-H32", "thickness": ".090", "inside_radius": ".125" }} }},
        "openings": {openings}, "parts": [{parts}] }}"#
    );
    read("hatches.json", text.as_bytes()).map_err(|found| words(&found))
}

const LID: &str = r#"{ "mark": "L", "shape": "tapered_lid", "metal": "skin", "over": "hatch", "outset": "7/8", "rise": "2",
    "inset": "2", "skirt": "1" }"#;

#[test]
fn the_six_corner_hatch_is_one_opening_for_all_its_parts() {
    let job = demo("six-corner-hatch.json");
    let hatch = &job.openings[0].solved;
    assert_eq!(hatch.figure.sides, ["AB", "BC", "CD", "DE", "EF", "FA"]);
    let check = hatch.check.as_ref().unwrap();
    assert_eq!((check.diagonal.as_str(), check.explained()), ("BE", true));
    assert_eq!(job.openings[1].solved.figure.count(), 3);
    for part in &job.parts {
        assert!(part.shape().is_ok(), "{}: {:?}", part.mark, part.shape().err());
    }
    let ShapeInput::TaperedLid(lid) = &job.parts[0].shape else { panic!("the first part is the lid") };
    assert_eq!(lid.inset, [6, 4, 5, 7, 4, 8].map(|halves| Length::from_sixty_fourths(32 * halves)));
}

#[test]
fn sides_and_diagonals_are_read_from_either_end_and_in_any_order() {
    // 9, 12, 15: a right angle at A; and the same by its outline.
    let sides = r#"{ "hatch": { "sides": { "BC": "15", "CA": "12", "BA": "9" }, "corners_run": "counter-clockwise" } }"#;
    let outline = r#"{ "hatch": { "outline": [["0", "0"], ["9", "0"], ["0", "12"]] } }"#;
    let [first, second] = [sides, outline].map(|openings| {
        let job = with(openings, LID).unwrap();
        assert_eq!(job.cautions.iter().filter(|caution| caution.contains("nothing checks")).count(), 1);
        job.openings[0].solved.figure.clone()
    });
    for corner in 0..3 {
        assert!(first.corners[corner].distance(second.corners[corner]) < 1e-6);
    }
}

#[test]
fn the_old_way_of_four_sides_gives_the_same_figure_as_the_new() {
    let four = r#"{ "hatch": { "AB": "31 1/4", "BC": "24 5/8", "CD": "30 7/8", "DA": "25 1/8", "AC": "39 11/16",
        "corners_run": "clockwise" } }"#;
    let sides = r#"{ "hatch": { "sides": { "AB": "31 1/4", "BC": "24 5/8", "CD": "30 7/8", "DA": "25 1/8" },
        "diagonals": { "AC": "39 11/16" }, "corners_run": "clockwise" } }"#;
    let [old, new] =
        [four, sides].map(|openings| with(openings, LID).unwrap().openings[0].solved.figure.clone());
    assert_eq!((&old.names, &old.sides), (&new.names, &new.sides));
    assert!(old.corners.iter().zip(&new.corners).all(|(a, b)| a.distance(*b) < 1e-6));
}

/// Where the corners run clockwise the sides follow one another the other way round, and each wall still has its own rim.
#[test]
fn each_wall_of_a_pan_has_its_own_rim_whichever_way_its_opening_runs() {
    let pan = r#"{ "mark": "T", "shape": "pan", "metal": "skin", "lifts_through": "hatch", "clearance": "1/4", "height": "4",
        "rim": { "BC": "1/2 out" } }"#;
    for run in ["clockwise", "counter-clockwise"] {
        let opening = format!(
            r#"{{ "hatch": {{ "AB": "30", "BC": "20", "CD": "30", "DA": "20", "AC": "36 1/16", "corners_run": "{run}" }} }}"#
        );
        let part = with(&opening, pan).unwrap().parts[0].shape().unwrap().part;
        let rims: Vec<&str> =
            part.faces.iter().map(|face| face.name.as_str()).filter(|name| name.starts_with("rim")).collect();
        assert_eq!(rims, ["rim BC"], "{run}");
    }
}

#[test]
fn an_inset_for_a_side_that_the_opening_has_not_is_refused() {
    let hatch =
        r#"{ "hatch": { "outline": [["0", "0"], ["20", "0"], ["24", "9"], ["12", "18"], ["-2", "10"]] } }"#;
    let lid = LID.replace(r#""inset": "2""#, r#""inset": { "AB": "2", "BC": "2", "CD": "2", "DA": "2" }"#);
    let found = with(hatch, &lid).unwrap_err();
    assert!(found.contains("DE") && found.contains("EA"), "{found}");
}
