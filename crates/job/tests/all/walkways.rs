//! The marina gangway and the channel covers meet their worked values.
//!
//! Both jobs are invented; the values were worked from the inputs by hand arithmetic, tread at 11.6 kg/m².
#![expect(clippy::unwrap_used, reason = "a job that does not read fails its test")]

use crate::common::{demo, part};
use geometry::{Point, polygon};
use job::Job;
use shapes::{FactValue, Shaped};

const TREAD_KG_PER_M2: f64 = 11.6;

fn shaped(job: &Job, mark: &str) -> Shaped {
    part(job, mark).shape().unwrap()
}

fn outline(job: &Job, mark: &str) -> Vec<Point> {
    shaped(job, mark).part.faces[0].corners.clone()
}

fn weight_kg(job: &Job, mark: &str) -> f64 {
    polygon::signed_area(&outline(job, mark)) * 1e-6 * TREAD_KG_PER_M2
}

fn millimetres(shaped: &Shaped, name: &str) -> f64 {
    match shaped.facts.iter().find(|fact| fact.name == name).map(|fact| &fact.value) {
        Some(FactValue::Length(length)) => length.millimetres(),
        other => panic!("no length called {name}: {other:?}"),
    }
}

#[test]
fn walk_panels_stay_under_thirty_kilograms() {
    let job = demo("marina-gangway.json");
    // 2,250 less the 4 joint by 1,150 weighs 29.96; 3,000 would weigh 39.97; the longest of 30 is 2,248.9.
    let panel = shaped(&job, "W-A");
    assert_eq!(part(&job, "W-A").quantity, 4);
    assert!(job.parts.iter().all(|part| part.mark != "W-B"));
    assert!((weight_kg(&job, "W-A") - 29.96).abs() < 0.005, "{}", weight_kg(&job, "W-A"));
    assert!((millimetres(&panel, "longest panel that may be") - 2248.9).abs() < 0.05);
    assert!((millimetres(&panel, "panel length") - 2246.0).abs() < 1e-6);
    assert!((4.0 * weight_kg(&job, "W-A") - 120.0).abs() < 0.5);
}

#[test]
fn toe_plates_are_spliced_on_beams_and_never_opposite() {
    let job = demo("marina-gangway.json");
    let splices = |mark: &str| {
        let part = job.parts.iter().find(|part| part.written_mark() == mark).unwrap();
        let job::ShapeInput::BrakeProfile(profile) = &part.shape else { panic!("{mark} is a profile") };
        profile.joints.clone()
    };
    let (port, starboard) = (splices("TP"), splices("TS"));
    assert!(port.iter().chain(&starboard).all(|at| at.millimetres() % 750.0 == 0.0));
    assert!(port.iter().all(|at| !starboard.contains(at)));
    for (mark, pieces) in [("TP", 4), ("TS", 5)] {
        let lengths: Vec<f64> = (1..=pieces)
            .map(|number| {
                millimetres(&shaped(&job, &format!("{mark}-{number}")), "length over the mold lines")
            })
            .collect();
        let gaps = f64::from(pieces - 1) * 4.0;
        assert!((lengths.iter().sum::<f64>() + gaps - 9000.0).abs() < 1e-6, "{lengths:?}");
    }
}

#[test]
fn the_landing_fan_is_solved_and_parted() {
    let job = demo("marina-gangway.json");
    let figure = &job.openings[0].solved.figure;
    let corner = |name: &str| {
        let number = figure.names.iter().position(|other| other == name).unwrap();
        (figure.corners[number], figure.corner_angle(number).to_degrees())
    };
    assert!((corner("B").0.distance(corner("D").0) - 1682.26).abs() < 0.005);
    assert!((figure.area_mm2() * 1e-6 - 1.2401).abs() < 5e-5, "{}", figure.area_mm2());
    for (name, degrees) in [("A", 108.65), ("B", 107.85), ("C", 72.27), ("D", 71.23)] {
        assert!((corner(name).1 - degrees).abs() < 0.005, "{name} {}", corner(name).1);
    }
    let pieces = ["F-1", "F-2"].map(|mark| polygon::signed_area(&outline(&job, mark)));
    // The joint takes 4 mm of the seam's length, which runs from mid AB to mid CD.
    let seam = (figure.area_mm2() - pieces[0] - pieces[1]) / 4.0;
    assert!((860.0..910.0).contains(&seam), "{seam}");
    // Each piece lies across 1,480 of trimmed sheet, which the whole, 1,720 wide, does not.
    for mark in ["F-1", "F-2"] {
        let (low, high) = polygon::bounds(&outline(&job, mark));
        assert!(high.x - low.x < 1480.0, "{mark}");
    }
}

#[test]
fn eleven_covers_weigh_what_they_should() {
    let job = demo("channel-covers.json");
    assert_eq!(job.parts.len(), 11);
    let area = |shaped: &Shaped| {
        let found = shaped.facts.iter().find(|fact| fact.name == "area before holes and notches");
        match found.map(|fact| &fact.value) {
            Some(FactValue::Area(area)) => area.square_metres(),
            other => panic!("no area: {other:?}"),
        }
    };
    let areas: Vec<f64> = (1..=11).map(|number| area(&shaped(&job, &format!("CV-{number:02}")))).collect();
    let total: f64 = areas.iter().sum();
    assert!((total - 9.871).abs() < 5e-4, "{total}");
    let lightest = (0..11).min_by(|&a, &b| areas[a].total_cmp(&areas[b])).unwrap();
    let heaviest = (0..11).max_by(|&a, &b| areas[a].total_cmp(&areas[b])).unwrap();
    assert_eq!((lightest + 1, heaviest + 1), (3, 7));
    assert!((areas[2] * TREAD_KG_PER_M2 - 10.31).abs() < 0.005, "{}", areas[2] * TREAD_KG_PER_M2);
    assert!((areas[6] * TREAD_KG_PER_M2 - 10.53).abs() < 0.005, "{}", areas[6] * TREAD_KG_PER_M2);
    // The notch takes 220 × 160 less the sliver that the slanted side leaves; the slots are 120 × 30 with round ends.
    let last = polygon::signed_area(&outline(&job, "CV-11"));
    assert!((areas[10] * 1e6 - last - 220.0 * 160.0).abs() < 220.0 * 2.0, "{last}");
    assert_eq!(shaped(&job, "CV-11").part.faces[0].holes.len(), 2);
    // Half the difference of the ends lies on each side, so the diagonals agree.
    let one = shaped(&job, "CV-01");
    let diagonals =
        ["diagonal, upstream right to downstream left", "diagonal, upstream left to downstream right"];
    let diagonals = diagonals.map(|name| millimetres(&one, name));
    assert!((diagonals[0] - diagonals[1]).abs() < 1e-6, "{diagonals:?}");
    assert_eq!(job.assumptions.len(), 1);
    assert!(job.assumptions[0].contains("left wall"), "{:?}", job.assumptions);
}
