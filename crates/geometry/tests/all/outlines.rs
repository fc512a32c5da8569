//! Laws of frames, planes and outlines.

use std::f64::consts::PI;

use geometry::grid::GridOutline;
use geometry::{
    Contour, Frame, Outline, Plane, Point, Point3, Segment, Vector, Vector3, polygon, tolerance, trig,
};
use proptest::prelude::*;

/// Sizes of these tests stay below a metre, so rounding stays far below this, mm.
const ROUNDING_MM: f64 = tolerance::SAME_POINT_MM;

fn vectors() -> impl Strategy<Value = Vector3> {
    let part = || -1.0_f64..1.0;
    (part(), part(), part())
        .prop_map(|(x, y, z)| Vector3::new(x, y, z))
        .prop_filter("too short for a direction", |vector| vector.length() > 0.1)
}

fn places() -> impl Strategy<Value = Point3> {
    let part = || -500.0_f64..500.0;
    (part(), part(), part()).prop_map(|(x, y, z)| Point3::new(x, y, z))
}

fn frames() -> impl Strategy<Value = Frame> {
    (places(), vectors(), vectors()).prop_filter_map("parallel", |(origin, x, other)| {
        let (x, z) = (x.unit(), x.cross(other));
        let z = (z.length() > 0.1).then(|| z.unit())?;
        Some(Frame { origin, x, y: z.cross(x), z })
    })
}

fn planes() -> impl Strategy<Value = Plane> {
    (places(), vectors()).prop_map(|(point, normal)| Plane::through(point, normal))
}

proptest! {
    #[test]
    fn a_place_in_a_frame_comes_back(frame in frames(), at in places()) {
        let (point, z) = frame.local(at);
        prop_assert!(frame.place(point, z).distance(at) < ROUNDING_MM);
        let there = frame.place(Point::new(at.x, at.y), at.z);
        let (point, z) = frame.local(there);
        prop_assert!(point.distance(Point::new(at.x, at.y)) < ROUNDING_MM);
        prop_assert!((z - at.z).abs() < ROUNDING_MM);
    }

    #[test]
    fn a_frame_keeps_distances_and_its_planes(frame in frames(), at in places(), other in places()) {
        let place = |p: Point3| frame.place(Point::new(p.x, p.y), p.z);
        prop_assert!((place(at).distance(place(other)) - at.distance(other)).abs() < ROUNDING_MM);
        prop_assert!((frame.plane(at.z).distance(place(other)) - (other.z - at.z)).abs() < ROUNDING_MM);
        let along = frame.direct(Vector::new(at.x, at.y));
        prop_assert!((along.length() - trig::hypot(at.x, at.y)).abs() < ROUNDING_MM);
    }

    // Three planes that are far from parallel: the meeting point lies on each, whatever their order.
    #[test]
    fn three_planes_meet_on_all_three(a in planes(), b in planes(), c in planes()) {
        let volume = a.normal.dot(b.normal.cross(c.normal));
        prop_assume!(volume.abs() > 0.01);
        let meeting = a.meeting(b, c).unwrap();
        for plane in [a, b, c] {
            prop_assert!(plane.distance(meeting).abs() < ROUNDING_MM);
        }
        for other in [a.meeting(c, b), b.meeting(a, c), c.meeting(b, a)] {
            prop_assert!(other.unwrap().distance(meeting) < ROUNDING_MM);
        }
    }

    #[test]
    fn planes_of_one_direction_do_not_meet(a in planes(), b in planes(), by in -50.0_f64..50.0) {
        prop_assert_eq!(a.meeting(a.moved(by), b), None);
        prop_assert!((a.moved(by).distance(Point3::default()) - (a.distance(Point3::default()) - by)).abs() < ROUNDING_MM);
    }

    #[test]
    fn a_plane_leaves_its_own_point_at_no_distance(at in places(), normal in vectors(), by in -50.0_f64..50.0) {
        let plane = Plane::through(at, normal);
        prop_assert!(plane.distance(at).abs() < ROUNDING_MM);
        prop_assert!((plane.distance(at + normal.unit() * by) - by).abs() < ROUNDING_MM);
    }

    #[test]
    fn angles_between_vectors(a in vectors(), b in vectors()) {
        let angle = a.angle_to(b);
        prop_assert!((0.0..=PI).contains(&angle));
        prop_assert!((angle - b.angle_to(a)).abs() < tolerance::PARALLEL_SINE);
        prop_assert!((angle + a.angle_to(-b) - PI).abs() < tolerance::PARALLEL_SINE);
        let cosine = a.unit().dot(b.unit());
        prop_assert!((trig::cos(angle) - cosine).abs() < tolerance::PARALLEL_SINE);
    }

    // Length θ·r and area ½·θ·r² of a piece of cake, θ up to a whole turn.
    #[test]
    fn a_sector_has_its_length_and_area(radius in 0.5_f64..800.0, sweep in 0.01_f64..6.27, start in -3.0_f64..3.0) {
        let centre = Point::new(11.0, -4.0);
        let at = |angle: f64| centre + Vector::at_angle(angle) * radius;
        let arc = Segment::Arc { to: at(start + sweep), centre, counter_clockwise: true };
        let sector = Contour {
            segments: vec![Segment::Line { to: at(start) }, arc, Segment::Line { to: centre }],
        };
        prop_assert!((sector.length_mm() - radius * (2.0 + sweep)).abs() < ROUNDING_MM);
        prop_assert!((sector.area_mm2() - 0.5 * sweep * radius * radius).abs() < ROUNDING_MM * radius);
        let back = sector.reversed();
        prop_assert!((back.length_mm() - sector.length_mm()).abs() < ROUNDING_MM);
        prop_assert!((back.area_mm2() + sector.area_mm2()).abs() < ROUNDING_MM * radius);
        prop_assert_eq!(&back.reversed().segments.len(), &sector.segments.len());
    }

    // A slot: two straights and two half circles.
    #[test]
    fn a_turned_slot_keeps_length_area_and_reach(
        radius in 1.0_f64..100.0,
        straight in 1.0_f64..400.0,
        turn in -3.0_f64..3.0,
        mirrored in prop::bool::ANY,
    ) {
        let slot = slot(radius, straight);
        let place = |p: Point| {
            let across = if mirrored { -p.x } else { p.x };
            Point::new(5.0, 9.0) + Vector::new(across, p.y).turned(turn)
        };
        let placed = slot.mapped(mirrored, place);
        for contour in [&slot, &placed] {
            let area = 2.0 * radius * straight + PI * radius * radius;
            prop_assert!((contour.area_mm2() - area).abs() < ROUNDING_MM * (radius + straight));
            prop_assert!((contour.length_mm() - 2.0 * (straight + PI * radius)).abs() < ROUNDING_MM);
        }
        let (low, high) = placed.bounds();
        let reach = |share: f64| 2.0 * radius + straight * share.abs();
        prop_assert!((high.x - low.x - reach(trig::cos(turn))).abs() < ROUNDING_MM);
        prop_assert!((high.y - low.y - reach(trig::sin(turn))).abs() < ROUNDING_MM);
    }

    #[test]
    fn holes_come_off_the_area(radius in 1.0_f64..20.0, side in 50.0_f64..500.0) {
        let corners = [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)].map(|(x, y)| Point::new(x, y));
        let outer = Contour::polygon(&corners);
        let hole = Contour::round_hole(Point::new(0.5 * side, 0.5 * side), radius);
        let outline = Outline { outer, holes: vec![hole] };
        let area = side * side - PI * radius * radius;
        prop_assert!((outline.area_mm2() - area).abs() < ROUNDING_MM * side);
        prop_assert_eq!(outline.bounds(), (corners[0], corners[2]));
    }

    #[test]
    fn the_centre_of_a_triangle_is_the_mean_of_its_corners(at in prop::collection::vec((-400.0_f64..400.0, -400.0_f64..400.0), 3)) {
        let corners: Vec<Point> = at.iter().map(|(x, y)| Point::new(*x, *y)).collect();
        prop_assume!(polygon::signed_area(&corners).abs() > 1.0);
        let mean = Point::new(
            corners.iter().map(|corner| corner.x).sum::<f64>() / 3.0,
            corners.iter().map(|corner| corner.y).sum::<f64>() / 3.0,
        );
        prop_assert!(polygon::centroid(&corners).distance(mean) < ROUNDING_MM);
    }
}

fn slot(radius: f64, straight: f64) -> Contour {
    let half = 0.5 * straight;
    let arc = |x: f64, y: f64| Segment::Arc {
        to: Point::new(x, y),
        centre: Point::new(x, 0.0),
        counter_clockwise: true,
    };
    let line = |x: f64, y: f64| Segment::Line { to: Point::new(x, y) };
    Contour {
        segments: vec![line(half, -radius), arc(half, radius), line(-half, radius), arc(-half, -radius)],
    }
}

proptest! {
    /// Every corner of a star with odd corners lies in what is rounded of it, and that passes the rectangle around the star by less
    /// than a step: it fits wherever that rectangle does.
    #[test]
    fn what_is_rounded_holds_the_metal_and_stays_in_its_rectangle(
        reaches in prop::collection::vec(20.0_f64..400.0, 3..14),
        at in (-300.0_f64..300.0, -300.0_f64..300.0),
        whole in any::<bool>(),
    ) {
        let count = reaches.len() as f64;
        let corner = |(number, &reach): (usize, &f64)| {
            let v = Vector::at_angle(2.0 * PI * number as f64 / count) * reach;
            // Corners on the grid in one direction alone are no more on the grid than others.
            let x = if whole { (at.0 + v.x).round() } else { at.0 + v.x };
            Point::new(x, at.1 + v.y)
        };
        let outer: Vec<Point> = reaches.iter().enumerate().map(corner).collect();
        prop_assume!(polygon::self_crossing(&outer).is_none() && 1.0 < polygon::signed_area(&outer));
        let (low, high) = polygon::bounds(&outer);
        let star = geometry::Polygon { outer: outer.clone(), holes: Vec::new() };
        let Ok(rounded) = GridOutline::from_polygon(&star) else { return Ok(()) };
        let step = tolerance::GRID_STEP_MM;
        let (least, greatest) = rounded.bounds();
        for (grid, exact) in
            [(greatest.x, high.x), (greatest.y, high.y), (-least.x, -low.x), (-least.y, -low.y)]
        {
            let beyond = grid as f64 * step - exact;
            prop_assert!((-ROUNDING_MM..step).contains(&beyond), "{beyond}");
        }
        // A corner of the star is inside, or as near to the border as rounding is.
        let ring: Vec<Point> = rounded.outer().iter().map(|at| at.millimetres()).collect();
        for &corner in &outer {
            let off = polygon::edges(&ring).map(|edge| polygon::point_to_segment(corner, edge));
            prop_assert!(polygon::contains(&ring, corner) || off.fold(f64::MAX, f64::min) < ROUNDING_MM);
        }
        // So are places along its sides.
        for (from, to) in polygon::edges(&outer) {
            for share in [0.001, 0.3, 0.5, 0.999] {
                let place = from.toward(to, share);
                let off = polygon::edges(&ring).map(|edge| polygon::point_to_segment(place, edge));
                prop_assert!(polygon::contains(&ring, place) || off.fold(f64::MAX, f64::min) < ROUNDING_MM);
            }
        }
    }
}
