//! Bends up and down in every order: a blank is its legs less its deductions, it folds back to the design, and a leg
//! between reversed bends runs mold line to mold line on opposite faces.
#![allow(clippy::unwrap_used, reason = "a test may stop at a part that cannot be made")]

use std::f64::consts::FRAC_PI_2;

use fold::bend::Origin;
use fold::flat::unfold;
use fold::part::{Bend, Edge, Face, FoldedPart, Forming, LegsTo, Relief, Side};
use fold::refold::{self, RefoldError};
use fold::{BendNumber, Direction};
use geometry::{Point, tolerance};
use proptest::prelude::*;
use stock::BendModel;
use units::Length;

const WIDTH_MM: f64 = 100.0;

/// A strip of legs with a bend between each and the next.
fn strip(legs: &[f64], bends: &[(f64, bool)]) -> FoldedPart {
    let two = Length::from_millimetres(2.0);
    let last = legs.len() - 1;
    let face = |(number, leg): (usize, &f64)| {
        let beyond = if number == last { Edge::Free } else { Edge::Bend(number) };
        let first = if number == 0 { Edge::Free } else { Edge::Parent };
        Face {
            name: format!("leg {number}"),
            corners: [(0.0, 0.0), (WIDTH_MM, 0.0), (WIDTH_MM, *leg), (0.0, *leg)]
                .map(|(x, y)| Point::new(x, y))
                .to_vec(),
            edges: vec![first, Edge::Free, beyond, Edge::Free],
            holes: Vec::new(),
            rim: None,
        }
    };
    let bend = |(number, &(turn_rad, up)): (usize, &(f64, bool))| Bend {
        parent: number,
        parent_edge: 2,
        child: number + 1,
        turn_rad,
        direction: if up { Direction::Up } else { Direction::Down },
        inside_radius_mm: 2.0,
        legs_to: LegsTo::MoldLine,
        forming: Forming::Brake,
    };
    FoldedPart {
        number: BendNumber::new(two, two, BendModel::KFactor(0.42), Origin::Job).unwrap(),
        faces: legs.iter().enumerate().map(face).collect(),
        bends: bends.iter().enumerate().map(bend).collect(),
        seams: Vec::new(),
        sizes: Vec::new(),
        relief: Relief::Square,
        notch_width_mm: 2.0,
        mitres: Vec::new(),
        tips: Vec::new(),
        wrapped_inside_mm: None,
    }
}

proptest! {
    #[test]
    fn ups_and_downs_in_any_order_fold_back(
        legs in prop::collection::vec(15.0_f64..60.0, 6),
        bends in prop::collection::vec((0.2_f64..1.9, prop::bool::ANY), 5),
    ) {
        let part = strip(&legs, &bends);
        let flat = unfold(&part).unwrap();
        let sum: f64 = legs.iter().sum();
        let lost: f64 = (0..bends.len()).map(|number| part.deduction_mm(number)).sum();
        prop_assert!((flat.extents_mm().1 - (sum - lost)).abs() <= tolerance::SAME_POINT_MM);
        let proof = refold::prove(&part, &flat);
        prop_assert!(proof.is_ok() || matches!(proof, Err(RefoldError::RunsInto { .. })), "{proof:?}");
    }

    /// A square Z: the leg between runs from the outside of the one bend to the outside of the other, over both faces;
    /// a square U: over the same face on both sides.
    #[test]
    fn a_leg_between_square_bends_is_outside_to_outside(leg in 15.0_f64..60.0, up: bool, reversed: bool) {
        let part = strip(&[30.0, leg, 30.0], &[(FRAC_PI_2, up), (FRAC_PI_2, up != reversed)]);
        let frames = refold::fold(&unfold(&part).unwrap());
        let plane = |face: usize, number: usize| {
            let side = part.bends[number].direction.outside();
            frames[face].plane(if side == Side::Face { 2.0 } else { 0.0 })
        };
        let on_last = frames[2].place(Point::default(), if part.bends[1].direction.outside() == Side::Face { 2.0 } else { 0.0 });
        let _ = Side::Back;
        prop_assert!((plane(0, 0).distance(on_last).abs() - leg).abs() <= tolerance::SAME_POINT_MM);
    }
}
