//! The rowing gig's lockers as a posted kit: sizes, areas and the crate, worked by hand at K .42.

use crate::common::{demo, flat};
use job::{Job, Part, ShapeInput};

fn blanks(job: &Job) -> Vec<(&Part, f64, f64)> {
    let kit = job.parts.iter().filter(|part| part.mark != "TS");
    kit.map(|part| {
        let (x, y) = flat(part).extents_mm();
        (part, x / 25.4, y / 25.4)
    })
    .collect()
}

#[test]
fn tops_and_fronts_have_their_blank_widths() {
    let job = demo("gig-lockers.json");
    for (part, x, y) in blanks(&job) {
        let width = match part.mark.get(3..) {
            Some("top1" | "top2") => 15.181,
            Some("front1" | "front2") => 11.341,
            _ => continue,
        };
        assert!((x - 46.0).abs() < 1e-6 && (y - width).abs() < 0.0006, "{}: {x} × {y}", part.mark);
    }
}

#[test]
fn the_kit_has_its_area_and_weight() {
    let job = demo("gig-lockers.json");
    let area: f64 = blanks(&job).iter().map(|(part, x, y)| f64::from(part.quantity) * x * y).sum();
    // Worked by hand with ends of 13 × 10.5 and strips of 3 × 13 as named: 45.8 ft², 57.5 lb. Here the ends stand inside
    // the front, 12.82 wide, and the strips go between the bends, 12.64 under the tops and 10.32 behind the fronts.
    let ends = 4.0 * (13.0 - 12.82) * 10.5;
    let strips = 2.0 * 3.0 * ((13.0 - 12.64) + (13.0 - 10.32));
    let as_named = area + ends + strips;
    assert!((as_named / 144.0 - 45.8).abs() < 0.05, "{}", as_named / 144.0);
    // 5052 at .0968 lb/in³, .090 thick.
    assert!((as_named * 0.09 * 0.0968 - 57.5).abs() < 0.05, "{}", as_named * 0.09 * 0.0968);
    assert!(area * 0.09 * 0.0968 < 150.0);
}

#[test]
fn every_blank_lies_flat_in_the_crate_and_the_stack_is_low_enough() {
    let job = demo("gig-lockers.json");
    let blanks = blanks(&job);
    for (part, x, y) in &blanks {
        assert!(x.max(*y) <= 47.0 && x.min(*y) <= 30.0, "{}: {x} × {y}", part.mark);
    }
    let pieces: u32 = blanks.iter().map(|(part, ..)| part.quantity).sum();
    assert_eq!(pieces, 20);
    assert!(f64::from(pieces) * 0.09 <= 5.5);
}

#[test]
fn no_bend_is_over_46_and_no_seam_is_under_a_lid() {
    let job = demo("gig-lockers.json");
    for part in &job.parts {
        for bend in flat(part).bends {
            assert!(bend.from.distance(bend.to) <= 46.0 * 25.4 + 1e-6, "{}", part.mark);
        }
    }
    let ShapeInput::Locker(locker) = &job.parts[0].shape else { panic!("the first part is a locker") };
    for lid in &locker.lids {
        let (from, to) = (lid.at.inches(), (lid.at + lid.size[0]).inches());
        // The seam at 46 and half of its strip, 1.5.
        assert!(to <= 44.5 || 47.5 <= from, "{from} to {to}");
    }
}

#[test]
fn both_hands_are_in_the_crate_under_their_own_marks() {
    let job = demo("gig-lockers.json");
    for mark in ["top1", "front2", "end-aft", "top-strip1"] {
        let find =
            |whole: &str| job.parts.iter().find(|part| part.mark == format!("{whole}-{mark}")).unwrap();
        let (port, starboard) = (find("LP"), find("LS"));
        assert_eq!(port.opposite_hand_of.as_deref(), Some(starboard.mark.as_str()));
        let (first, second) = (flat(starboard), flat(port));
        assert!((first.outline.area_mm2() - second.outline.area_mm2()).abs() < 1e-6);
    }
}
