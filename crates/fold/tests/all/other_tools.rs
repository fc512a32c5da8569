//! Other tools that are named with what cannot be bent: the part is then bent with them, and not with ones a step nearer to the
//! shop's own.

#![allow(clippy::unwrap_used, reason = "a test may stop at a part that cannot be made")]

use crate::bend_order::{mm, press, profile};
use crate::boxes_on_machines::box_of;
use fold::order::{self, OtherTools, Outcome, Tool};
use fold::{Direction, FlatPattern};
use stock::brake::{Clamp, Folder, Machine, PressBrake};
use units::{Angle, Length};

const UP: Direction = Direction::Up;
const DOWN: Direction = Direction::Down;

fn tools(machine: &Machine, flat: &FlatPattern) -> OtherTools {
    match order::find(flat, machine, Some(mm(24.0)), &[]) {
        Outcome::Impossible(why) => why.tools,
        other => panic!("{other:?}"),
    }
}

fn named(machine: &Machine, flat: &FlatPattern) -> Tool {
    match tools(machine, flat) {
        OtherTools::Enough(tool) => tool,
        other => panic!("{other:?}"),
    }
}

fn is_bent(machine: &Machine, flat: &FlatPattern) -> bool {
    matches!(order::find(flat, machine, Some(mm(24.0)), &[]), Outcome::Order(_))
}

/// A press brake with a straight punch, and what `set` gives it besides.
fn press_with(set: impl Fn(&mut PressBrake)) -> Machine {
    let mut machine = press();
    if let Machine::Press(press) = &mut machine {
        set(press);
    }
    machine
}

/// A folder with a leaf 40 wide and 12 thick.
fn folder(clamp: Clamp, throat: Option<Length>) -> Machine {
    Machine::Folder(Folder {
        length: Some(mm(1250.0)),
        throat,
        stop_reach: None,
        clamp,
        nose_angle: Some(Angle::from_degrees(45.0)),
        leaf_thickness: Some(mm(12.0)),
        leaf_width: Some(mm(40.0)),
    })
}

/// An offset of 30: at the second bend the first leg hangs down 30 beside the middle of the die, whose block is 80 wide.
#[test]
fn a_narrower_die_block_is_named_where_the_die_is_in_the_way() {
    let flat = profile(&[60.0, 30.0, 60.0], &[(90.0, UP), (90.0, DOWN)], 500.0);
    let with = |width: Length| {
        press_with(|press| (press.die_width, press.die_height) = (Some(width), Some(mm(100.0))))
    };
    let own = with(mm(80.0));
    let tool = named(&own, &flat);
    let width = tool.die_width.unwrap();
    assert_eq!(tool, Tool { die_width: Some(width), past_assumed: tool.past_assumed, ..Tool::default() });
    assert!(is_bent(&with(width), &flat), "{tool:?}");
    // The inside of the leg stands 27 from the middle: no block of twice that and more passes it.
    assert!(width <= mm(54.0) && !is_bent(&with(mm(56.0)), &flat), "{tool:?}");
}

/// The same offset with a leg of 170: it hangs deeper than the die is high, and deeper than any die stands over its bed.
#[test]
fn a_taller_die_is_named_where_the_bed_is_in_the_way() {
    let flat = profile(&[170.0, 40.0, 170.0], &[(90.0, UP), (90.0, DOWN)], 500.0);
    let with = |height: Length| {
        press_with(|press| (press.die_width, press.die_height) = (Some(mm(40.0)), Some(height)))
    };
    let own = with(mm(60.0));
    let tool = named(&own, &flat);
    let height = tool.die_height.unwrap();
    assert!(tool.die_width.is_none() && tool.relief.is_none() && tool.height.is_none(), "{tool:?}");
    assert!(is_bent(&with(height), &flat), "{tool:?}");
    assert!(!is_bent(&with(height - mm(6.35)), &flat), "{tool:?}");
}

/// A sheet of 400 and 450 to either side of its bend: one of them goes into the throat.
#[test]
fn a_deeper_throat_is_named_on_press_and_folder() {
    let flat = profile(&[400.0, 450.0], &[(90.0, UP)], 500.0);
    let on_press = |throat: Length| press_with(|press| press.throat = Some(throat));
    let on_folder = |throat: Length| folder(Clamp::Bar { height: Some(mm(50.0)) }, Some(throat));
    let machines: [&dyn Fn(Length) -> Machine; 2] = [&on_press, &on_folder];
    for with in machines {
        let tool = named(&with(mm(300.0)), &flat);
        let throat = tool.throat.unwrap();
        assert_eq!(tool, Tool { throat: Some(throat), past_assumed: tool.past_assumed, ..Tool::default() });
        assert!(is_bent(&with(throat), &flat) && !is_bent(&with(throat - mm(25.4)), &flat), "{tool:?}");
        assert!((mm(390.0)..mm(430.0)).contains(&throat), "{tool:?}");
    }
    let endless = profile(&[4000.0, 4500.0], &[(90.0, UP)], 500.0);
    let OtherTools::NoneFound(tried) = tools(&on_press(mm(300.0)), &endless) else {
        panic!("none is so deep")
    };
    assert!(tried.throat && !tried.gooseneck, "{tried:?}");
}

/// A box 508 × 356 × 203: its floor may go into the throat, 254 deep, or its walls up past the ram. No throat is deep enough for
/// walls that still meet the ram; a taller punch is, with the throat as it is.
#[test]
fn a_taller_punch_is_named_where_the_throat_was_met_first() {
    let flat = box_of(508.0, 356.0, 203.0);
    let with = |punch: f64, daylight: f64| {
        press_with(|press| {
            press.throat = Some(mm(254.0));
            press.daylight = Some(mm(daylight));
            press.punch.profile = Some(stock::brake::Profile::Gooseneck);
            press.punch.relief = Some(mm(50.8));
            press.punch.width = Some(mm(25.4));
            press.punch.angle = Some(Angle::from_degrees(30.0));
            press.punch.height = Some(mm(punch));
            press.die_height = Some(mm(76.2));
            press.die_width = Some(mm(50.8));
        })
    };
    assert!(is_bent(&with(330.0, 1016.0), &flat));
    let Outcome::Impossible(why) = order::find(&flat, &with(152.4, 305.0), Some(mm(25.4)), &[]) else {
        panic!("it meets the ram")
    };
    let OtherTools::Enough(tool) = why.tools else { panic!("{why:?}") };
    assert!(tool.throat.is_none() && tool.height.is_some(), "{tool:?}");
    let height = tool.height.unwrap().millimetres();
    assert!(is_bent(&with(height, tool.daylight.unwrap().millimetres()), &flat), "{tool:?}");
    assert!(why.past_throat.iter().any(|one| one.body == "the ram"), "{why:?}");
}

/// A straight bar does not go between the sides of a box; fingers do, where they are long enough.
#[test]
fn fingers_are_named_for_a_box_on_a_bench_folder() {
    let bar = |height_mm: f64| folder(Clamp::Bar { height: Some(mm(height_mm)) }, None);
    let fingers = |tool: Tool, own_mm: f64| {
        let deepest_box = Some(tool.clamp_height.unwrap_or(mm(own_mm)));
        folder(Clamp::Fingers { widths: Vec::new(), deepest_box }, None)
    };
    for (height_mm, own_mm, higher) in [(40.0, 50.0, false), (90.0, 50.0, true)] {
        let flat = box_of(400.0, 300.0, height_mm);
        let tool = named(&bar(own_mm), &flat);
        assert!(tool.fingers_for_bar && tool.throat.is_none(), "{tool:?}");
        assert_eq!(tool.clamp_height.is_some(), higher, "{tool:?}");
        assert!(is_bent(&fingers(tool, own_mm), &flat), "{tool:?}");
    }
    let deep = tools(&bar(50.0), &box_of(400.0, 300.0, 290.0));
    let OtherTools::NoneFound(tried) = deep else { panic!("{deep:?}") };
    assert!(tried.fingers_for_bar && tried.higher_clamp, "{tried:?}");
}

/// A box 90 deep on fingers for boxes of 50.
#[test]
fn longer_fingers_are_named_for_a_deeper_box() {
    let flat = box_of(400.0, 300.0, 90.0);
    let with =
        |height: Length| folder(Clamp::Fingers { widths: Vec::new(), deepest_box: Some(height) }, None);
    let tool = named(&with(mm(50.0)), &flat);
    let height = tool.clamp_height.unwrap();
    assert!(is_bent(&with(height), &flat) && !is_bent(&with(height - mm(6.35)), &flat), "{tool:?}");
}

/// Fingers of 225 and 225 leave no length between 374 and 400, nor between 274 and 300, of the shop's own.
#[test]
fn further_fingers_are_named_where_the_shops_add_up_to_nothing_that_fits() {
    let flat = box_of(400.0, 300.0, 40.0);
    let with = |more: &[Length]| {
        let widths = [mm(225.0), mm(225.0)].into_iter().chain(more.iter().copied()).collect();
        folder(Clamp::Fingers { widths, deepest_box: Some(mm(100.0)) }, None)
    };
    let tool = named(&with(&[]), &flat);
    let more: Vec<Length> = tool.more_fingers.into_iter().flatten().collect();
    assert!(is_bent(&with(&more), &flat), "{tool:?}");
    assert!(!is_bent(&with(&more[..more.len() - 1]), &flat), "{tool:?}");
}

/// Two sections of 200 on a bend of 500: half of one more is what is wanting, and it is named.
#[test]
fn sections_that_make_up_the_bend_are_named() {
    let flat = profile(&[60.0, 60.0], &[(90.0, UP)], 500.0);
    let with = |more: Option<f64>| {
        press_with(|press| {
            press.punch.sections = [Some(200.0), Some(200.0), more].into_iter().flatten().map(mm).collect();
        })
    };
    match order::find(&flat, &with(None), Some(mm(24.0)), &[]) {
        Outcome::Impossible(why) => assert_eq!(why.hindered[0].body, order::SECTIONS),
        other => panic!("{other:?}"),
    }
    let own = [mm(200.0), mm(200.0)];
    assert_eq!(order::halved_sections(&own, named(&with(None), &flat).more_sections), [mm(100.0)]);
    assert!(is_bent(&with(Some(100.0)), &flat));
}
