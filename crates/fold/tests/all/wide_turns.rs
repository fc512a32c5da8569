//! Bends of a quarter turn and more whose legs run to the outermost metal: the flat folds back to the design.

#![allow(clippy::unwrap_used, reason = "a test may stop at a part that cannot be made")]

use std::f64::consts::PI;

use fold::bend::Origin;
use fold::flat::unfold;
use fold::part::{Bend, Edge, Face, FoldedPart, Forming, LegsTo, Relief, Side};
use fold::refold::{self, RefoldError};
use fold::{BendNumber, Direction};
use geometry::{Point, tolerance};
use proptest::prelude::*;
use stock::BendModel;
use units::Length;

const THICKNESS_MM: f64 = 2.0;

/// A strip, 100 by 40, with a leg of 30 beyond one bend of its own radius.
fn strip(turn_rad: f64, direction: Direction, inside_radius_mm: f64) -> FoldedPart {
    let face = |name: &str, height: f64, edges: [Edge; 4]| Face {
        name: name.to_owned(),
        corners: [(0.0, 0.0), (100.0, 0.0), (100.0, height), (0.0, height)]
            .map(|(x, y)| Point::new(x, y))
            .to_vec(),
        edges: edges.to_vec(),
        holes: Vec::new(),
        rim: None,
    };
    let two = Length::from_millimetres(THICKNESS_MM);
    FoldedPart {
        number: BendNumber::new(two, two, BendModel::KFactor(0.42), Origin::Job).unwrap(),
        faces: vec![
            face("web", 40.0, [Edge::Free, Edge::Free, Edge::Bend(0), Edge::Free]),
            face("leg", 30.0, [Edge::Parent, Edge::Free, Edge::Free, Edge::Free]),
        ],
        bends: vec![Bend {
            parent: 0,
            parent_edge: 2,
            child: 1,
            turn_rad,
            direction,
            inside_radius_mm,
            legs_to: LegsTo::OutermostMetal,
            forming: Forming::Hem,
        }],
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
    fn any_turn_folds_back(
        turn in PI / 2.0..1.9 * PI,
        up: bool,
        radius in 0.5..12.0,
    ) {
        let direction = if up { Direction::Up } else { Direction::Down };
        let part = strip(turn, direction, radius);
        let flat = unfold(&part).unwrap();
        // Beyond a half turn the leg heads back toward the web, and may run into it.
        let proof = refold::prove(&part, &flat);
        let runs_into = matches!(proof, Err(RefoldError::RunsInto { .. }));
        prop_assert!(proof.is_ok() || (turn > PI && runs_into), "{proof:?}");
        // Flat length: both straights and the neutral arc, by the metal's own K at every radius (common practice).
        let setback = radius + THICKNESS_MM;
        let length = 70.0 - 2.0 * setback + turn * (radius + 0.42 * THICKNESS_MM);
        prop_assert!((flat.extents_mm().1 - length).abs() <= tolerance::SAME_POINT_MM);
    }

    /// A half turn brings the leg back over the web, 2R apart inside and 2R + 2T over all (plane geometry).
    #[test]
    fn a_half_turn_stands_two_radii_off(radius in 0.5..12.0, up: bool) {
        let direction = if up { Direction::Up } else { Direction::Down };
        let part = strip(PI, direction, radius);
        let flat = unfold(&part).unwrap();
        let frames = refold::fold(&flat);
        let inner = |number: usize| frames[number].plane(part.side_mm(match direction {
            Direction::Up => Side::Face,
            Direction::Down => Side::Back,
        }));
        let (web, leg) = (inner(0), inner(1));
        let apart_mm = (web.offset_mm + leg.offset_mm).abs();
        prop_assert!((apart_mm - 2.0 * radius).abs() <= tolerance::SAME_POINT_MM);
        prop_assert!(web.normal.dot(leg.normal) < -0.999_999);
    }
}

/// What is marked for a bend of inside radius 8 in 2 mm metal, K .42. By hand: the setback is 8 + 2 = 10, so the web of 40 is
/// straight up to 30; the zone is π/2·(8 + .42·2) = 13.886 wide.
#[test]
fn strikes_and_rolled_zones_are_marked_where_they_lie() {
    let heights = |forming: Forming| -> Vec<f64> {
        let mut part = strip(PI / 2.0, Direction::Up, 8.0);
        part.bends[0].forming = forming;
        let flat = unfold(&part).unwrap();
        assert!(flat.bends[0].own_radius);
        flat.bends[0].marks(flat.thickness_mm).iter().map(|(from, _)| from.y).collect()
    };
    let zone = PI / 2.0 * 8.84;
    let near = |found: Vec<f64>, expected: &[f64]| {
        assert_eq!(found.len(), expected.len());
        assert!(found.iter().zip(expected).all(|(a, b)| (a - b).abs() < 1e-6), "{found:?}");
    };
    near(heights(Forming::Brake), &[30.0 + zone / 2.0]);
    near(heights(Forming::Rolled), &[30.0, 30.0 + zone]);
    let strikes: Vec<f64> = (0..5).map(|n| 30.0 + zone / 5.0 * (f64::from(n) + 0.5)).collect();
    near(heights(Forming::Bumped(5)), &strikes);
}
