//! A drilled relief either shows in the outline as the drill cuts it, or is refused.

#![allow(clippy::unwrap_used, reason = "a test may stop at a part that cannot be made")]

use std::f64::consts::FRAC_PI_2;

use fold::bend::Origin;
use fold::flat::{UnfoldError, unfold};
use fold::part::{Bend, Edge, Face, FoldedPart, Forming, HoleSize, LegsTo, Relief};
use fold::{BendNumber, Direction, refold};
use geometry::Point;
use stock::BendModel;
use units::Length;

/// A square plate, 100 to a side, with a flange up on two sides that meet at its corner (100, 0). The second flange
/// reaches 14 mm past the corner at its bend when `wedge` is true, and draws back sharply from there.
fn two_flanges(radius_mm: f64, wedge: bool) -> FoldedPart {
    let (first_start, [second_start, second_end]) =
        if wedge { (10.0, [114.0, 54.0]) } else { (2.0, [98.0, 98.0]) };
    let face = |name: &str, corners: &[(f64, f64)], edges: [Edge; 4]| Face {
        name: name.to_owned(),
        corners: corners.iter().map(|&(x, y)| Point::new(x, y)).collect(),
        edges: edges.to_vec(),
        holes: Vec::new(),
        rim: None,
    };
    let (free, parent) = (Edge::Free, Edge::Parent);
    let bend = |parent_edge, child| Bend {
        parent: 0,
        parent_edge,
        child,
        turn_rad: FRAC_PI_2,
        direction: Direction::Up,
        inside_radius_mm: 2.0,
        legs_to: LegsTo::MoldLine,
        forming: Forming::Brake,
    };
    let two = Length::from_millimetres(2.0);
    FoldedPart {
        number: BendNumber::new(two, two, BendModel::KFactor(0.42), Origin::Job).unwrap(),
        faces: vec![
            face(
                "plate",
                &[(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)],
                [Edge::Bend(0), Edge::Bend(1), free, free],
            ),
            face(
                "first",
                &[(first_start, 0.0), (100.0, 0.0), (100.0, 40.0), (first_start, 40.0)],
                [parent, free, free, free],
            ),
            face(
                "second",
                &[(0.0, 0.0), (second_start, 0.0), (second_end, 40.0), (0.0, 40.0)],
                [parent, free, free, free],
            ),
        ],
        bends: vec![bend(0, 1), bend(1, 2)],
        seams: Vec::new(),
        sizes: Vec::new(),
        relief: Relief::Round(HoleSize::Given { radius_mm }),
        notch_width_mm: 2.0,
        mitres: Vec::new(),
        tips: Vec::new(),
        wrapped_inside_mm: None,
    }
}

/// Least distance from the relief's centre, where the tangent lines cross, to any straight piece of the outline, mm.
fn nearest_edge_mm(part: &FoldedPart) -> Result<f64, UnfoldError> {
    let flat = unfold(part)?;
    refold::prove(part, &flat).unwrap();
    // Both tangent lines lie one setback in: (R + T)·tan 45° = 4 mm.
    let centre = flat.faces[0].placement.place(Point::new(96.0, 4.0));
    let straight = |(from, segment): (Point, geometry::Segment)| match segment {
        geometry::Segment::Line { to } => Some(geometry::polygon::point_to_segment(centre, (from, to))),
        geometry::Segment::Arc { .. } => None,
    };
    Ok(flat.outline.outer.pieces().filter_map(straight).fold(f64::INFINITY, f64::min))
}

#[test]
fn no_edge_is_left_inside_a_drilled_hole() {
    for radius_mm in [2.0, 4.0, 5.0, 6.0, 8.0] {
        let nearest_mm = nearest_edge_mm(&two_flanges(radius_mm, false)).unwrap();
        assert!((nearest_mm - radius_mm).abs() < 1e-6, "{nearest_mm} for {radius_mm}");
    }
}

// The zone end of the second flange stands (4.46, 12) off the centre, 12.8 mm away: allowance π/2·(2 + .42·2) = 4.46.
// Its edge goes on along (40, −60) and comes to (4.46·60 + 12·40)/72.1 = 10.4 mm of the centre.
#[test]
fn a_hole_that_nicks_an_edge_farther_on_is_refused() {
    for radius_mm in [4.0, 8.0, 10.0] {
        assert!(nearest_edge_mm(&two_flanges(radius_mm, true)).is_ok(), "{radius_mm}");
    }
    for radius_mm in [10.5, 11.0, 12.0] {
        let refused = nearest_edge_mm(&two_flanges(radius_mm, true));
        assert!(matches!(refused, Err(UnfoldError::ReliefTooLarge { .. })), "{radius_mm}: {refused:?}");
    }
}
