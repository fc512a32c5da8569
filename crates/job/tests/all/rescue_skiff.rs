//! The rescue skiff: decks, litter-locker lid, dry boxes and wiring chase, against sizes worked by hand.
#![expect(clippy::unwrap_used, reason = "a part of a demo job that cannot be made fails its test")]

use crate::common::{demo, flat, part};
use job::{Part, ShapeInput};
use shapes::{Fact, FactValue};

fn fact(part: &Part, name: &str) -> Fact {
    let facts = part.shape().unwrap().facts;
    facts.iter().find(|fact| fact.name == name).cloned().unwrap_or_else(|| panic!("{name}: {facts:?}"))
}

fn inches(part: &Part, name: &str) -> f64 {
    match fact(part, name).value {
        FactValue::Length(length) | FactValue::About(length) => length.inches(),
        FactValue::Angle(angle) => angle.degrees(),
        other => panic!("{name}: {other:?}"),
    }
}

fn square_feet(part: &Part, name: &str) -> f64 {
    let FactValue::Area(area) = fact(part, name).value else { panic!("{name} is no area") };
    area.square_feet()
}

#[test]
fn the_port_deck_has_its_area_and_chords_and_starboard_is_less_at_two_stations() {
    let job = demo("rescue-skiff.json");
    let (port, starboard) = (part(&job, "SDP-1"), part(&job, "SDS-1"));
    // Trapezoids over stations 15 apart and a last step of 22: 1798.5 in² = 12.49 ft²; chords by Pythagoras.
    assert!((square_feet(port, "top of the whole deck") - 12.49).abs() < 0.005);
    assert!((inches(port, "outboard edge of the whole deck") - 142.10).abs() < 0.005);
    // 3/16 less at 60 and at 75: two stations of 15 × 3/16 in² = 5.625 in².
    let less = square_feet(port, "top of the whole deck") - square_feet(starboard, "top of the whole deck");
    assert!((less * 144.0 - 5.625).abs() < 1e-6, "{}", less * 144.0);
    assert_eq!(starboard.opposite_hand_of.as_deref(), Some("SDP-1"));
    assert!(!starboard.hand_edits.is_empty());
}

#[test]
fn both_decks_are_split_on_a_frame_and_go_on_a_sheet_of_120() {
    let job = demo("rescue-skiff.json");
    for mark in ["SDP-1", "SDP-2", "SDP-strip1", "SDS-1", "SDS-2", "SDS-strip1"] {
        let (x, y) = flat(part(&job, mark)).extents_mm();
        assert!(x.max(y) < 119.0 * 25.4, "{mark}");
    }
    // Nine runs on either side of the seam at 75, five and four.
    assert_eq!(flat(part(&job, "SDP-1")).bends.len(), 6);
    assert_eq!(flat(part(&job, "SDP-2")).bends.len(), 5);
}

#[test]
fn the_litter_locker_lid_has_its_blank_and_weight() {
    let job = demo("rescue-skiff.json");
    // Strip 4.000 → 2.131 + 2.117: deduction .248. 78 + 2·2 − 2·.248 = 81.504; 26 + 4 − .496 = 29.504.
    let flat = flat(part(&job, "LL"));
    let (x, y) = flat.extents_mm();
    assert!(
        (x / 25.4 - 81.504).abs() < 0.001 && (y / 25.4 - 29.504).abs() < 0.001,
        "{} {}",
        x / 25.4,
        y / 25.4
    );
    // 1.95 lb/ft² of it: 32.4 lb. Closed, with 4.6 lb of hardware at the middle, about the hinge: 37 × 13 = 481 in-lb.
    let pounds = flat.outline.area_mm2() / (25.4 * 25.4 * 144.0) * 1.95;
    assert!((pounds - 32.4).abs() < 0.05, "{pounds}");
    assert!(((pounds + 4.6) * 13.0 - 481.0).abs() < 0.6, "{}", (pounds + 4.6) * 13.0);
}

#[test]
fn the_dry_boxes_follow_the_flare_and_pass_the_hole_they_lift_out_of() {
    let job = demo("rescue-skiff.json");
    let dry_box = part(&job, "DBP");
    // Run 4.75 over 15: √(15² + 4.75²) = 15.734, at atan(15/4.75) = 72.43° to level.
    assert!((inches(dry_box, "wall CD, outside") - 15.734).abs() < 0.0005);
    assert!((inches(dry_box, "turn at the floor CD") - 72.43).abs() < 0.005);
    assert!((inches(dry_box, "wall AB, outside") - 15.0).abs() < 1e-6);
    let top = ["AB", "BC"].map(|side| inches(dry_box, &format!("top, outside of the walls, {side}")));
    assert!((top[0] - 22.0).abs() < 1e-4 && (top[1] - 17.25).abs() < 1e-3, "{top:?}");
    assert!(top[0] <= 23.0 && top[1] <= 17.5);
    flat(dry_box);
    flat(part(&job, "DBS"));
}

#[test]
fn no_seam_of_the_chase_or_its_lids_is_near_a_gland_and_every_lid_is_under_48() {
    let job = demo("rescue-skiff.json");
    let profile = |mark: &str| {
        let found = job.parts.iter().find(|part| part.mark.starts_with(mark)).unwrap();
        let ShapeInput::BrakeProfile(profile) = &found.shape else { panic!("{mark} is no profile") };
        profile.clone()
    };
    let glands = [31.0, 66.0, 97.0];
    for mark in ["WC-", "WL-"] {
        for joint in profile(mark).joints {
            for gland in glands {
                assert!((joint.inches() - gland).abs() >= 4.0, "{mark} {}", joint.inches());
            }
        }
    }
    let lids: Vec<&Part> = job.parts.iter().filter(|part| part.mark.starts_with("WL-")).collect();
    assert_eq!(lids.len(), 3);
    let lengths: Vec<f64> = lids.iter().map(|lid| flat(lid).extents_mm().0 / 25.4).collect();
    assert!(lengths.iter().all(|&length| length < 48.0), "{lengths:?}");
    assert!((lengths.iter().sum::<f64>() + 2.0 / 16.0 - 128.0).abs() < 1e-6, "{lengths:?}");
}
