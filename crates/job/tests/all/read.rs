//! The demo jobs and the starter read whole, and their parts shape.

use crate::common::{bytes, demo, demo_names, shape_names, words};
use job::{Job, ShapeInput, read, starter};

fn shape_all(name: &str, job: &Job) {
    for part in &job.parts {
        if let Err(problems) = part.shape() {
            panic!("{name}: {}: {problems:?}", part.mark);
        }
    }
}

#[test]
fn every_part_of_every_demo_job_shapes() {
    for name in demo_names() {
        shape_all(&name, &demo(&name));
    }
}

#[test]
fn every_part_of_every_shape_job_lays_flat_and_refolds() {
    for name in shape_names() {
        let job =
            read(&name, &bytes("shapes", &name)).unwrap_or_else(|messages| panic!("{}", words(&messages)));
        shape_all(&name, &job);
        for part in &job.parts {
            let Ok(shaped) = part.shape() else { continue };
            let flat = shaped.unfold().unwrap_or_else(|error| panic!("{name}: {}: {error}", part.mark));
            if let Err(error) = fold::refold::prove(&shaped.part, &flat) {
                panic!("{name}: {}: {error}", part.mark);
            }
        }
    }
}

#[test]
fn the_starter_reads_and_shapes() {
    let job =
        read("starter.json", starter().as_bytes()).unwrap_or_else(|messages| panic!("{}", words(&messages)));
    shape_all("starter.json", &job);
    assert_eq!(job.assumptions, Vec::<String>::new());
}

#[test]
fn the_oyster_skiff_has_all_shapes_and_its_pair() {
    let job = demo("oyster-skiff.json");
    let words: Vec<&str> = job.parts.iter().map(|part| part.shape.recipe().word()).collect();
    assert_eq!(
        words,
        [
            "tapered_lid",
            "pan",
            "panel",
            "panel",
            "day_box",
            "lid",
            "plate",
            "gutter",
            "gutter",
            "gutter",
            "gutter"
        ]
    );
    let ShapeInput::TaperedLid(lid) = &job.parts[0].shape else { panic!("the first part is the hatch lid") };
    assert_eq!(lid.over.sides, ["AB", "BC", "CD", "DA"]);
    assert_eq!(job.parts[3].mark, "WP");
    assert_eq!(job.parts[3].opposite_hand_of.as_deref(), Some("WS"));
    assert_eq!(job.openings[0].solved.check.as_ref().map(|check| check.explained()), Some(false));
}

#[test]
fn the_strip_gives_the_skin_its_bend_number() {
    let job = demo("oyster-skiff.json");
    let skin = &job.metals[0];
    // Legs 2.118 + 2.103 less the strip of 4.000: deduction .221 by the test-strip rule.
    let deduction_inch = skin.number.deduction_mm(std::f64::consts::FRAC_PI_2) / 25.4;
    assert!((deduction_inch - 0.221).abs() < 0.0005, "{deduction_inch}");
    assert!(matches!(skin.number.origin(), fold::bend::Origin::Strip(_)));
    assert!(matches!(job.metals[1].number.origin(), fold::bend::Origin::Table(_)));
}

#[test]
fn a_clearance_counts_a_covering_twice_and_shows_the_sum() {
    let pan = |clearance: &str| {
        let text = format!(
            r#"{{ "plateloft": 1, "job": "Pan", "units": "inch", "tape": "1/16", "shop": {{ "gap": "1/4", "edge_trim": "1/2" }},
            "metals": {{ "skin": {{ "alloy": "5052-H32", "thickness": ".090", "inside_radius": ".090" }} }},
            "parts": [{{ "mark": "T", "shape": "pan", "metal": "skin", "lifts_through": ["30", "20"],
                         "clearance": {clearance}, "height": "4", "rim": "1/2 out" }}] }}"#
        );
        read("pan.json", text.as_bytes())
    };
    let job =
        pan(r#"{ "gap": "1/4", "covering": "2 x 1/8" }"#).unwrap_or_else(|found| panic!("{}", words(&found)));
    let facts = job.parts[0].shape().unwrap_or_else(|problems| panic!("{problems:?}")).facts;
    let sum = facts.iter().find(|fact| fact.name == "lifts through").map(|fact| fact.value.clone());
    let expected = "opening less, each side: 1/4 gap + 2 × 1/8 covering + 1/2 rim = 1 a side";
    assert_eq!(sum, Some(shapes::FactValue::Words(expected.to_owned())));
    assert!(pan(r#"{ "covering": "twice 1/8" }"#).is_ok());
    for wrong in [r#""0 x 1/8""#, r#""1/2 x 1/8""#, r#""99 x 1/8""#, r#""2 x -1/8""#, r#""2 x""#] {
        assert!(pan(wrong).is_err(), "{wrong} was taken");
    }
}

/// The shop's size of relief holes serves the parts that ask for drilled relief, whatever the shop's own relief; where
/// nothing is drilled it says nothing, and is refused.
#[test]
fn the_shops_relief_hole_serves_parts_that_are_drilled() {
    let job = |sizing: &str, relief: &str| {
        let text = format!(
            r#"{{ "plateloft": 1, "job": "Relief", "units": "inch", "tape": "1/32",
                 "shop": {{ "gap": "1/4", "edge_trim": "1/2", {sizing} }},
                 "metals": {{ "skin": {{ "alloy": "5052-H32", "thickness": ".125", "inside_radius": ".125" }} }},
                 "sheets": [{{ "metal": "skin", "size": ["48", "96"] }}],
                 "parts": [{{ "mark": "P", "shape": "pan", "metal": "skin", "outside": ["16", "12"], "height": "4",
                             "rim": "none"{relief} }}] }}"#
        );
        read("job.json", text.as_bytes())
    };
    let hole = |sizing| match job(sizing, r#", "relief": "round""#).unwrap().parts[0].making.relief {
        shapes::ReliefStyle::Round { hole } => hole,
        other => panic!("{other:?}"),
    };
    let half = units::Length::from_sixty_fourths(32);
    assert_eq!(hole(r#""relief_hole": "1/2""#), shapes::ReliefHole::Diameter(half));
    assert_eq!(hole(r#""relief_rule": "zone""#), shapes::ReliefHole::Zone);
    let messages = job(r#""relief_rule": "zone""#, "").unwrap_err();
    assert!(words(&messages).contains("shop.relief_rule"), "{}", words(&messages));
}

/// Nothing where a part should be is told once, not once for every shape there is.
#[test]
fn an_empty_part_is_asked_for_once() {
    let text = r#"{ "plateloft": 1, "job": "J", "units": "inch", "metals": {}, "parts": [null] }"#;
    let said = words(&read("job.json", text.as_bytes()).unwrap_err());
    assert_eq!(said.matches("a group of fields").count(), 1, "{said}");
}
