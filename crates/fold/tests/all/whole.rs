//! Pieces put together: what is measured between two plates, and that plates that stand wrong are found.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use fold::bend::Origin;
use fold::flat::unfold;
use fold::part::{Edge, Face, FoldedPart, Relief, SeamSide, SeamStyle};
use fold::refold::{Joint, JointEnd, PlacedPiece, RefoldError, WholeProof, measure_whole};
use fold::{BendNumber, FlatPattern};
use geometry::{Frame, Point, Point3, Vector3};
use stock::BendModel;
use units::Length;

const THICKNESS_MM: f64 = 2.0;

/// A flat plate, 100 × 60.
fn plate() -> (FoldedPart, FlatPattern) {
    let two = Length::from_millimetres(THICKNESS_MM);
    let corners = [(0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0)].map(|(x, y)| Point::new(x, y));
    let face = Face {
        name: "plate".to_owned(),
        corners: corners.to_vec(),
        edges: vec![Edge::Free; 4],
        holes: Vec::new(),
        rim: None,
    };
    let number = BendNumber::new(two, two, BendModel::KFactor(0.42), Origin::Job).unwrap();
    let part = FoldedPart::unbent(number, vec![face], Relief::Square, 2.0);
    let flat = unfold(&part).unwrap();
    (part, flat)
}

/// One plate level, the other square on it, its lower edge `above_mm` over it and its outside `in_mm` from the end; a
/// third lies level `third_mm` over the first.
fn measured(
    (above_mm, in_mm, third_mm): (f64, f64, f64),
    style: SeamStyle,
    gap_mm: f64,
) -> Result<WholeProof, RefoldError> {
    let (part, flat) = plate();
    let level = |z: f64| Frame { origin: Point3::new(0.0, 0.0, z), ..Frame::WORLD };
    // Local x runs along the level plate's x, y up, z toward the viewer.
    let upright = Frame {
        origin: Point3::new(0.0, in_mm, THICKNESS_MM + above_mm),
        x: Vector3::new(1.0, 0.0, 0.0),
        y: Vector3::new(0.0, 0.0, 1.0),
        z: Vector3::new(0.0, -1.0, 0.0),
    };
    let placed = |name, root| PlacedPiece { name, part: &part, flat: &flat, root };
    let pieces = [placed("floor", level(0.0)), placed("wall", upright), placed("cover", level(third_mm))];
    let end = |piece, edge| JointEnd { piece, face: 0, edge };
    let second = if matches!(style, SeamStyle::Lap { .. }) { end(2, 0) } else { end(1, 0) };
    let joint = Joint {
        name: "floor to wall".to_owned(),
        first: end(0, 0),
        second,
        inside_angle_rad: 0.5 * std::f64::consts::PI,
        length_mm: 100.0,
        style,
        gap_mm,
    };
    measure_whole(&pieces, &[joint])
}

const BUTT: SeamStyle = SeamStyle::Butt { through: SeamSide::First };
const LAP: SeamStyle = SeamStyle::Lap { width_mm: 60.0, carrier: SeamSide::Second, outside: false };

#[test]
fn a_wall_that_stops_against_a_floor_is_measured_from_its_edge() {
    let proof = measured((0.5, 30.0, 200.0), BUTT, 0.5).unwrap();
    let seam = &proof.seams[0];
    assert!((seam.least_mm - 0.5).abs() < 1e-9 && (seam.largest_mm - 0.5).abs() < 1e-9, "{seam:?}");
    assert_eq!(proof.deepest, None);
    assert!(matches!(measured((0.5, 30.0, 200.0), BUTT, 0.3), Err(RefoldError::Gap { .. })));
    assert!(matches!(measured((-0.5, 30.0, 200.0), BUTT, 0.0), Err(RefoldError::Collision { .. })));
    // Beside the floor by less than a thickness it is measured by its height, further off it meets nothing.
    assert!(measured((0.5, -1.0, 200.0), BUTT, 0.5).is_ok());
    assert!(matches!(measured((0.5, -9.0, 200.0), BUTT, 0.5), Err(RefoldError::Beside { .. })));
}

#[test]
fn a_lap_is_measured_square_to_the_plate_it_lies_on() {
    let over = |gap_mm: f64| (0.0, 200.0, THICKNESS_MM + gap_mm);
    let seam = measured(over(0.2), LAP, 0.2).unwrap().seams.remove(0);
    assert!((seam.least_mm - 0.2).abs() < 1e-9 && (seam.largest_mm - 0.2).abs() < 1e-9, "{seam:?}");
    assert!(matches!(measured(over(0.2), LAP, 0.0), Err(RefoldError::Gap { .. })));
    assert!(matches!(measured(over(-0.2), LAP, 0.0), Err(RefoldError::Collision { .. })));
}

#[test]
fn pieces_that_run_into_one_another_are_found_with_how_deep() {
    // The wall stands through the cover, which lies 20 above the floor.
    let deepest = measured((0.0, 30.0, 20.0), BUTT, 0.0).unwrap().deepest.unwrap();
    assert_eq!((deepest.first.as_str(), deepest.second.as_str()), ("plate of wall", "plate of cover"));
    assert!(deepest.depth_mm >= THICKNESS_MM, "{}", deepest.depth_mm);
}
