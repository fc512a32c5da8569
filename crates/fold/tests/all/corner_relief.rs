//! Reliefs of every kind between bends of unequal radius and turn, and what they must not do.

#![allow(clippy::unwrap_used, reason = "a test may stop at a part that cannot be made")]

use std::f64::consts::{FRAC_PI_2, PI};

use fold::bend::Origin;
use fold::flat::{ReliefCut, ReliefFault, ReliefNeed, UnfoldError, unfold};
use fold::part::{Bend, Edge, Face, FoldedPart, Forming, HoleSize, LegsTo, Relief};
use fold::{BendNumber, Direction, FlatPattern, refold};
use geometry::Point;
use proptest::prelude::*;
use stock::BendModel;
use units::Length;

fn face(name: &str, corners: &[(f64, f64)], edges: Vec<Edge>) -> Face {
    let corners = corners.iter().map(|&(x, y)| Point::new(x, y)).collect();
    Face { name: name.to_owned(), corners, edges, holes: Vec::new(), rim: None }
}

fn bend(parent_edge: usize, child: usize, turn_rad: f64, inside_radius_mm: f64) -> Bend {
    Bend {
        parent: 0,
        parent_edge,
        child,
        turn_rad,
        direction: Direction::Up,
        inside_radius_mm,
        legs_to: LegsTo::MoldLine,
        forming: Forming::Brake,
    }
}

/// A plate 100 square with a flange of 40 on the two sides that meet at (100, 0); each stands back from the corner by
/// its own `back_mm`.
fn plate(relief: Relief, bends: [(f64, f64); 2], back_mm: [f64; 2], thickness_mm: f64) -> FoldedPart {
    let (free, parent) = (Edge::Free, Edge::Parent);
    let [(first, second), length] = [(back_mm[0], 100.0 - back_mm[1]), (100.0, 100.0)];
    let thickness = Length::from_millimetres(thickness_mm);
    FoldedPart {
        number: BendNumber::new(
            thickness,
            Length::from_millimetres(2.0),
            BendModel::KFactor(0.42),
            Origin::Job,
        )
        .unwrap(),
        faces: vec![
            face(
                "plate",
                &[(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)],
                vec![Edge::Bend(0), Edge::Bend(1), free, free],
            ),
            face(
                "first",
                &[(first, 0.0), (length.0, 0.0), (length.0, 40.0), (first, 40.0)],
                vec![parent, free, free, free],
            ),
            face(
                "second",
                &[(0.0, 0.0), (second, 0.0), (second, 40.0), (0.0, 40.0)],
                vec![parent, free, free, free],
            ),
        ],
        bends: vec![bend(0, 1, bends[0].0, bends[0].1), bend(1, 2, bends[1].0, bends[1].1)],
        seams: Vec::new(),
        sizes: Vec::new(),
        relief,
        notch_width_mm: 2.0,
        mitres: Vec::new(),
        tips: Vec::new(),
        wrapped_inside_mm: None,
    }
}

/// Where the inside tangent lines cross on the plate, on the flat.
fn crossing(part: &FoldedPart, flat: &FlatPattern) -> Point {
    flat.faces[0].placement.place(Point::new(100.0 - part.setback_mm(1), part.setback_mm(0)))
}

const UNEQUAL: [(f64, f64); 2] = [(FRAC_PI_2, 2.0), (PI / 3.0, 5.0)];

#[test]
fn every_relief_goes_by_its_own_two_bends() {
    let part = |relief| plate(relief, UNEQUAL, [6.0, 6.0], 1.5);
    // Zones by K .42: π/2·(2 + .63) = 4.1312 and π/3·(5 + .63) = 5.8957; setbacks 3.5 and 6.5·tan 30° = 3.7528.
    let zones = [FRAC_PI_2 * 2.63, PI / 3.0 * 5.63];
    let cut = |relief| {
        let part = part(relief);
        let flat = unfold(&part).unwrap();
        refold::prove(&part, &flat).unwrap();
        assert_eq!(flat.reliefs.len(), 1);
        assert!(flat.reliefs[0].at.distance(crossing(&part, &flat)) < 1e-9 || relief == Relief::None);
        (flat.reliefs[0].cut, flat.outline.outer.area_mm2())
    };
    let (square, area) = cut(Relief::Square);
    let ReliefCut::Square { zones_mm } = square else { panic!("{square:?}") };
    assert!((zones_mm[0] - zones[0]).abs() < 1e-9 && (zones_mm[1] - zones[1]).abs() < 1e-9);
    // The handbook's 2R of the larger radius comes before its least.
    let handbook = HoleSize::Handbook { least_diameter_mm: 3.175 };
    assert_eq!(cut(Relief::Round(handbook)).0, ReliefCut::Round { radius_mm: 5.0 });
    let least = HoleSize::Handbook { least_diameter_mm: 10.5 };
    assert_eq!(cut(Relief::TearDrop(least)).0, ReliefCut::TearDrop { radius_mm: 5.25 });
    let (zone, _) = cut(Relief::Round(HoleSize::Zone));
    let ReliefCut::Round { radius_mm } = zone else { panic!("{zone:?}") };
    assert!((radius_mm - 0.5 * zones[1]).abs() < 1e-9);
    let (_, unrelieved) = cut(Relief::None);
    assert!(area < unrelieved);
}

/// Without a relief both cut edges run to where the bend lines cross, half a zone out from each tangent line.
#[test]
fn without_a_relief_the_edges_meet_where_the_bend_lines_cross() {
    let part = plate(Relief::None, [(FRAC_PI_2, 2.0); 2], [6.0, 6.0], 1.5);
    let flat = unfold(&part).unwrap();
    refold::prove(&part, &flat).unwrap();
    let tangent = crossing(&part, &flat);
    let half = 0.5 * FRAC_PI_2 * 2.63;
    let meeting = Point::new(tangent.x + half, tangent.y - half);
    assert!(flat.outline.outer.segments.iter().any(|segment| segment.end().distance(meeting) < 1e-9));
    for (bend, end) in [(0, flat.bends[0].to), (1, flat.bends[1].from)] {
        assert!(end.distance(meeting) < 1e-9, "bend {bend} ends at {end:?}, not {meeting:?}");
    }
}

/// What is pressed there begins where the edges meet, and ends before the flanges begin: the longer the rounder the bends are,
/// since the mitre runs farther off the straight cut.
///
/// Source: plane geometry of two quarter bends of one radius R. The cut edge leaves the bend lines' crossing, half a zone w
/// past the tangent line, for the far tangent line, where the flange stands back by what it is set back; the mitre at a share s
/// of the turn is r·sin(s·π/2) past it, r the radius looked at.
#[test]
fn what_is_pressed_without_a_relief_ends_before_the_flanges() {
    let mut last_mm = 0.0;
    for radius_mm in [2.0, 4.0, 8.0] {
        let setback_mm = radius_mm + 1.5;
        let part = plate(Relief::None, [(FRAC_PI_2, radius_mm); 2], [setback_mm; 2], 1.5);
        let flat = unfold(&part).unwrap();
        let proof = refold::prove(&part, &flat).unwrap();
        let [pressed] = proof.pressed[..] else { panic!("{:?}", proof.pressed) };
        assert_eq!(pressed.bends, flat.reliefs[0].bends);
        let zone_mm = FRAC_PI_2 * (radius_mm + 0.42 * 1.5);
        // Flanges set back so stand on the tangent lines: the cut edge runs from half a zone past the line back to it.
        let (start, end) = (0.5 * zone_mm, 0.0);
        let past = |share: f64| start + (end - start) * (2.0 * share - 1.0);
        let mitre = |share: f64| radius_mm * geometry::trig::sin(share * FRAC_PI_2);
        let crossing =
            (500..=1000).map(|step| f64::from(step) / 1000.0).find(|&s| past(s) < mitre(s)).unwrap();
        let across_mm = (crossing - 0.5) * zone_mm;
        let most_mm = geometry::trig::hypot(across_mm, start - past(crossing));
        assert!(0.0 < pressed.reach_mm && pressed.reach_mm < most_mm + 0.01, "{pressed:?} {most_mm}");
        assert!(last_mm < pressed.reach_mm, "{pressed:?}");
        last_mm = pressed.reach_mm;
    }
    let square = plate(Relief::Square, [(FRAC_PI_2, 2.0); 2], [6.0, 6.0], 1.5);
    assert!(refold::prove(&square, &unfold(&square).unwrap()).unwrap().pressed.is_empty());
}

#[test]
fn bends_that_tear_must_be_relieved() {
    let refused = |bends, thickness, opposed: bool| {
        let mut part = plate(Relief::None, bends, [6.0, 6.0], thickness);
        if opposed {
            part.bends[1].direction = Direction::Down;
        }
        match unfold(&part) {
            Err(UnfoldError::ReliefNeeded { why, .. }) => Some(why),
            _ => None,
        }
    };
    let square = [(FRAC_PI_2, 2.0); 2];
    assert_eq!(refused(square, 1.6256, false), None);
    assert!(matches!(refused(square, 1.65, false), Some(ReliefNeed::Thick { .. })));
    assert!(matches!(refused([square[0], (1.7, 2.0)], 1.5, false), Some(ReliefNeed::Turn { .. })));
    assert_eq!(refused(square, 1.5, true), Some(ReliefNeed::Opposed));
}

/// The straight sides of a tear-drop touch its round bottom and end where the flanges' cut edges begin.
#[test]
fn the_sides_of_a_tear_drop_touch_its_bottom() {
    let size = HoleSize::Given { radius_mm: 2.5 };
    let (round, drop) = [Relief::Round(size), Relief::TearDrop(size)]
        .map(|relief| {
            let part = plate(relief, UNEQUAL, [6.0, 6.0], 1.5);
            let flat = unfold(&part).unwrap();
            refold::prove(&part, &flat).unwrap();
            (crossing(&part, &flat), flat)
        })
        .into();
    let sides: Vec<(Point, Point)> = drop
        .1
        .outline
        .outer
        .pieces()
        .filter_map(|(from, segment)| {
            let geometry::Segment::Line { to } = segment else { return None };
            let off = geometry::polygon::point_to_segment(drop.0, (from, to));
            ((off - 2.5).abs() < 1e-6).then_some((from, to))
        })
        .collect();
    assert_eq!(sides.len(), 2, "two sides touch the bottom: {sides:?}");
    for (from, to) in sides {
        // Square to the radius at the touching end.
        let (touch, way) =
            if (from.distance(drop.0) - 2.5).abs() < 1e-6 { (from, to - from) } else { (to, to - from) };
        assert!((touch - drop.0).dot(way.unit()).abs() < 1e-5);
    }
    assert!(drop.1.outline.outer.area_mm2() < round.1.outline.outer.area_mm2());
    // Bend lines end on the cut, farther in than on the square.
    assert!(drop.1.bends[0].to.x <= drop.0.x && drop.1.bends[1].from.y >= drop.0.y);
}

#[test]
fn a_hole_that_does_not_fit_names_the_largest_that_does() {
    let part = |radius_mm| plate(Relief::Round(HoleSize::Given { radius_mm }), UNEQUAL, [6.0, 6.0], 1.5);
    let Err(UnfoldError::ReliefTooLarge { what, largest_mm, .. }) = unfold(&part(97.0)) else {
        panic!("a hole as large as the plate")
    };
    assert!(matches!(what, ReliefFault::CutsOff | ReliefFault::TakesBend), "{what:?}");
    let largest = largest_mm.unwrap();
    assert!(unfold(&part(largest)).is_ok());
    assert!(unfold(&part(largest + 0.01)).is_err());
}

/// A hole may reach across the open corner and take the outer corner of a short flange with it.
#[test]
fn a_hole_that_reaches_a_farther_edge_is_drawn() {
    let mut part =
        plate(Relief::Round(HoleSize::Given { radius_mm: 9.0 }), [(FRAC_PI_2, 2.0); 2], [6.0, 6.0], 1.5);
    for child in [1, 2] {
        for corner in &mut part.faces[child].corners {
            corner.y = corner.y.min(7.0);
        }
    }
    let flat = unfold(&part).unwrap();
    refold::prove(&part, &flat).unwrap();
    let centre = crossing(&part, &flat);
    let off = |(from, segment): (Point, geometry::Segment)| match segment {
        geometry::Segment::Line { to } => geometry::polygon::point_to_segment(centre, (from, to)),
        geometry::Segment::Arc { .. } => f64::INFINITY,
    };
    let nearest = flat.outline.outer.pieces().map(off).fold(f64::INFINITY, f64::min);
    assert!((nearest - 9.0).abs() < 1e-6, "{nearest}");
}

/// Two flanges along one straight side: the corner between them is none.
#[test]
fn a_straight_corner_gets_no_relief() {
    for relief in [Relief::Square, Relief::Round(HoleSize::Zone), Relief::TearDrop(HoleSize::Zone)] {
        let mut part = plate(relief, [(FRAC_PI_2, 2.0); 2], [0.0, 0.0], 1.5);
        part.faces[0] = face(
            "plate",
            &[(0.0, 0.0), (50.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)],
            vec![Edge::Bend(0), Edge::Bend(1), Edge::Free, Edge::Free, Edge::Free],
        );
        let strip = |low: f64, high: f64| [(low, 0.0), (high, 0.0), (high, 40.0), (low, 40.0)];
        part.faces[1] =
            face("first", &strip(0.5, 50.0), vec![Edge::Parent, Edge::Free, Edge::Free, Edge::Free]);
        part.faces[2] =
            face("second", &strip(0.0, 49.5), vec![Edge::Parent, Edge::Free, Edge::Free, Edge::Free]);
        let flat = unfold(&part).unwrap();
        refold::prove(&part, &flat).unwrap();
        assert_eq!(flat.reliefs, Vec::new());
        let straight = |segment: &geometry::Segment| matches!(segment, geometry::Segment::Line { .. });
        assert!(flat.outline.outer.segments.iter().all(straight));
    }
}

proptest! {
    #[test]
    fn any_two_bends_refold_with_any_relief(
        turns in [0.3..FRAC_PI_2, 0.3..FRAC_PI_2],
        radii in [0.5..6.0, 0.5..6.0],
        backs in [0.5..8.0, 0.5..8.0],
        kind in 0..5_u8,
        radius_mm in 0.5..6.0,
    ) {
        let size = HoleSize::Given { radius_mm };
        let relief = match kind {
            0 => Relief::None,
            1 => Relief::Square,
            2 => Relief::Round(size),
            3 => Relief::TearDrop(size),
            _ => Relief::TearDrop(HoleSize::Zone),
        };
        let part = plate(relief, [(turns[0], radii[0]), (turns[1], radii[1])], backs, 1.2);
        if let Ok(flat) = unfold(&part) {
            let proof = refold::prove(&part, &flat);
            // Set back by anything and without relief, metal may run into a bend: the proof then says so.
            let told = kind == 0 && matches!(proof, Err(refold::RefoldError::RunsInto { .. }));
            prop_assert!(proof.is_ok() || told, "{:?}", proof.err().map(|error| error.to_string()));
            // No metal stands within the drilled hole.
            if let Some(hole) = part.relief_radius_mm([0, 1]) {
                for corner in flat.outline.outer.corners(geometry::outline::Chords::On) {
                    prop_assert!(hole - 1e-6 <= corner.distance(crossing(&part, &flat)));
                }
            }
        }
    }
}
