//! The numbers told of a bend are those that the flat is made by: legs as a tape takes them, less the deduction told, are the
//! flat, at every turn.
#![allow(clippy::unwrap_used, reason = "a test may stop at a part that cannot be made")]

use crate::common::{inches, making};
use fold::Direction::{self, Down, Up};
use fold::part::FoldedPart;
use fold::{FlatPattern, flat};
use geometry::tolerance;
use proptest::prelude::*;
use shapes::brake_profile::{BendWay, BrakeProfile, End, Leg, LegTo, ProfileBend};
use shapes::panel::{Flange, Panel};
use shapes::{Fact, Figure, Making};
use units::{Angle, Length};

fn panel(turns: [f64; 2], directions: [Direction; 2]) -> Panel {
    let flange = |number: usize| Flange {
        side: ["AB", "CD"][number].to_owned(),
        leg: inches(["2", "1 3/4"][number]),
        direction: directions[number],
        turn: Angle::from_degrees(turns[number]),
        short: [Length::ZERO; 2],
    };
    Panel {
        outline: Figure::rectangle(254.0, 203.2).unwrap(),
        flanges: vec![flange(0), flange(1)],
        holes: Vec::new(),
        notches: Vec::new(),
        edges: Vec::new(),
    }
}

/// Every deduction told is twice the setback told less the zone of the flat.
fn deductions_mm(part: &FoldedPart, flat: &FlatPattern) -> f64 {
    let told = |number: usize| {
        let deduction_mm = part.taped_deduction_mm(number);
        let of_flat = 2.0 * part.taped_setback_mm(number) - flat.bends[number].zone_mm;
        assert!((deduction_mm - of_flat).abs() < tolerance::SAME_POINT_MM, "{deduction_mm} {of_flat}");
        deduction_mm
    };
    (0..part.bends.len()).map(told).sum()
}

fn metals() -> impl Strategy<Value = Making> {
    let sheet =
        prop::sample::select(vec![(".063", ".063"), (".090", ".1875"), (".125", ".125"), (".125", ".25")]);
    (sheet, 0.33_f64..0.5).prop_map(|((thickness, radius), k)| making(thickness, radius, k))
}

proptest! {
    #[test]
    fn a_panel_is_its_depth_and_its_legs_less_the_deductions_told(
        making in metals(),
        turns in [20.0_f64..150.0, 20.0_f64..150.0],
        downs in [prop::bool::ANY, prop::bool::ANY],
    ) {
        let directions = downs.map(|down| if down { Down } else { Up });
        let part = panel(turns, directions).shape(&making).unwrap().part;
        let flat = flat::unfold(&part).unwrap();
        let legs_mm = 203.2 + inches("3 3/4").millimetres();
        let blank_mm = flat.extents_mm().1;
        let taped_mm = legs_mm - deductions_mm(&part, &flat);
        prop_assert!((taped_mm - blank_mm).abs() < tolerance::REFOLD_MM, "{taped_mm} {blank_mm}");
    }

    #[test]
    fn a_profile_is_its_outside_legs_less_the_deductions_told(
        making in metals(),
        turns in prop::collection::vec((20.0_f64..150.0, prop::bool::ANY), 1..4),
    ) {
        let leg = |_| Leg { length: inches("3"), to: LegTo::Outside, short: [Length::ZERO; 2], holes: Vec::new() };
        let bend = |&(degrees, down): &(f64, bool)| ProfileBend::Bend {
            turn: Angle::from_degrees(degrees),
            direction: if down { Down } else { Up },
            radius: None,
            way: BendWay::Brake,
        };
        let profile = BrakeProfile {
            length: inches("12"),
            legs: (0..=turns.len()).map(leg).collect(),
            bends: turns.iter().map(bend).collect(),
            flat_leg: 0,
            ends: [End::Square; 2],
            edges: [shapes::edge::EdgeEnd::Plain; 2],
            joints: Vec::new(),
            joint_gap: Length::ZERO,
        };
        // Bent far one after another, its legs may run into one another.
        let Ok(shaped) = profile.shape(0, &making) else { return Err(TestCaseError::reject("no such profile")) };
        let flat = flat::unfold(&shaped.part).unwrap();
        let legs = Length::from_sixty_fourths(3 * 64) * i64::try_from(turns.len() + 1).unwrap();
        let taped_mm = legs.millimetres() - deductions_mm(&shaped.part, &flat);
        prop_assert!((taped_mm - flat.extents_mm().1).abs() < tolerance::REFOLD_MM);
    }
}

/// Up to square a leg runs to where the outsides meet; past it the panel says that it runs to the outermost metal.
#[test]
fn a_panel_says_to_what_the_leg_of_a_flange_past_square_is_measured() {
    let says = |degrees: f64| {
        let shaped = panel([degrees, 90.0], [Up, Up]).shape(&making(".125", ".125", 0.42)).unwrap();
        let is_it = |fact: &&Fact| fact.name.contains("outermost metal");
        shaped.facts.iter().filter(is_it).map(|fact| fact.name.clone()).collect::<Vec<_>>()
    };
    assert_eq!(says(90.0), Vec::<String>::new());
    assert_eq!(says(135.0), ["leg of flange AB, from the outermost metal of its bend to its edge"]);
}
