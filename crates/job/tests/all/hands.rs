//! The opposite hand of every shape: mirrored twice it is the part itself, and mirrored once it refolds from a blank as
//! large.

use fold::part::{Measure, Size, Spot};
use geometry::tolerance;

use crate::common::{bytes, shape_names};

/// The same size, taken at the same places but for rounding.
fn is_same(size: &Size, again: &Size) -> bool {
    let near = |a: &Spot, b: &Spot| {
        a.face == b.face && a.side == b.side && a.at.distance(b.at) <= tolerance::SAME_POINT_MM
    };
    let same_places = match (&size.measure, &again.measure) {
        (Measure::Spots(a, b), Measure::Spots(c, d)) => near(a, c) && near(b, d),
        (Measure::SpotToPlane(a, plane), Measure::SpotToPlane(b, other)) => near(a, b) && plane == other,
        (measure, other) => measure == other,
    };
    size.name == again.name && (size.expected_mm - again.expected_mm).abs() <= 1e-9 && same_places
}

#[test]
fn every_piece_of_every_shape_has_an_opposite_hand_that_refolds() {
    let mut pieces = 0;
    for name in shape_names() {
        let job = job::read(&name, &bytes("shapes", &name)).unwrap();
        for part in &job.parts {
            let what = format!("{name}: {}", part.mark);
            let shaped = part.shape().unwrap();
            let (own, hand) = (&shaped.part, shaped.part.mirrored());
            let twice = hand.mirrored();
            assert_eq!(own.bends, twice.bends, "{what}");
            assert_eq!(own.seams, twice.seams, "{what}");
            assert_eq!(own.sizes.len(), twice.sizes.len(), "{what}");
            for (size, again) in own.sizes.iter().zip(&twice.sizes) {
                assert!(is_same(size, again), "{what}: {size:?} {again:?}");
            }
            for (face, again) in own.faces.iter().zip(&twice.faces) {
                assert_eq!((&face.name, &face.edges), (&again.name, &again.edges), "{what}");
                let near = face.corners.iter().zip(&again.corners);
                assert!(near.clone().all(|(a, b)| a.distance(*b) <= tolerance::SAME_POINT_MM), "{what}");
                assert_eq!(near.count(), face.corners.len(), "{what}");
            }
            let flat = fold::flat::unfold(own).unwrap();
            let mirrored = fold::flat::unfold(&hand).unwrap_or_else(|error| panic!("{what}: {error}"));
            fold::refold::prove(&hand, &mirrored).unwrap_or_else(|error| panic!("{what}: {error}"));
            let off_mm2 = flat.outline.area_mm2() - mirrored.outline.area_mm2();
            assert!(off_mm2.abs() < 1e-3, "{what}: {off_mm2}");
            assert_eq!(flat.seams.len(), mirrored.seams.len(), "{what}");
            pieces += 1;
        }
    }
    assert!(pieces > 50, "{pieces}");
}

/// What is to starboard on the drawn console is to port on its opposite hand.
#[test]
fn the_pieces_of_an_opposite_hand_are_named_for_their_own_side() {
    let job = serde_json::json!({
        "plateloft": 1, "job": "Hands", "units": "inch", "tape": "1/64",
        "shop": { "gap": "1/4", "kerf": "1/8", "edge_trim": "1/2" },
        "metals": { "skin": { "alloy": "5052-H32", "thickness": ".125", "inside_radius": ".125", "k_factor": 0.42 } },
        "parts": [{
            "mark": "P", "metal": "skin", "shape": "console", "outline": [["0", "0"], ["22", "0"], ["18", "30"], ["0", "30"]],
            "wrapped": ["BC", "CD", "DA"], "width": "28", "opposite_hand": "S",
        }],
    });
    let job = job::read("job.json", job.to_string().as_bytes()).unwrap();
    let words = |mark: &str| crate::common::part(&job, mark).piece_of.as_ref().unwrap().piece.words.clone();
    assert_eq!(words("P-side-s"), "starboard side of the console");
    assert_eq!(words("S-side-p"), "port side of the console");
    assert_eq!(words("S-side-s"), "starboard side of the console");
    let original = |mark: &str| crate::common::part(&job, mark).opposite_hand_of.clone().unwrap();
    assert_eq!(original("S-side-p"), "P-side-s");
    assert_eq!(original("S-side-s"), "P-side-p");
}

/// Corners that run counter-clockwise on the drawn hopper run clockwise on its opposite hand; a hole 3 to starboard lies 3 to
/// port there.
#[test]
fn what_is_said_of_an_opposite_hand_is_true_of_it() {
    let job = serde_json::json!({
        "plateloft": 1, "job": "Hands", "units": "inch", "tape": "1/64",
        "shop": { "gap": "1/4", "kerf": "1/8", "edge_trim": "1/2" },
        "metals": { "skin": { "alloy": "5052-H32", "thickness": ".100", "inside_radius": ".125", "k_factor": 0.42 } },
        "parts": [
            { "mark": "H", "metal": "skin", "shape": "hopper", "rim": ["31", "22"], "collar": ["9", "8"],
              "collar_at": ["4", "6"], "rise": "14", "made": "four_plates", "stands": "rim_down", "opposite_hand": "G" },
            { "mark": "B", "metal": "skin", "shape": "bulkhead", "waterlines": [["0", "9"], ["7", "21"], ["13", "23"]], "slit": "1/16",
              "limber_holes": [{ "from_centre": "4", "diameter": "1" }], "opposite_hand": "C" },
        ],
    });
    let job = job::read("job.json", job.to_string().as_bytes()).unwrap();
    let said = |mark: &str| {
        let shaped = crate::common::part(&job, mark).shape().unwrap();
        shaped
            .facts
            .iter()
            .map(|fact| format!("{}: {:?}", fact.name, fact.value))
            .collect::<Vec<_>>()
            .join("\n")
    };
    assert!(said("H-AB").contains("run counter-clockwise"), "{}", said("H-AB"));
    assert!(said("G-AB").contains("A, B, C, D run clockwise"), "{}", said("G-AB"));
    assert!(said("B").contains("limber hole 4 to starboard"), "{}", said("B"));
    assert!(said("C").contains("limber hole 4 to port"), "{}", said("C"));
}
