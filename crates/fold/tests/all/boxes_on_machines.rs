//! Plates with flanges on machines: parts that hit themselves, presses that open too little, boxes between fingers.

#![allow(clippy::unwrap_used, reason = "a test may stop at a part that cannot be made")]

use fold::bend::Origin;
use fold::order::{self, Outcome};
use fold::part::{Bend, Edge, Face, FoldedPart, Forming, LegsTo, Relief};
use fold::{BendNumber, Direction, FlatPattern};
use geometry::Point;
use proptest::prelude::*;
use stock::BendModel;
use stock::brake::{Clamp, Folder, Machine, PressBrake, Profile, Punch};
use units::{Angle, Length};

const THICKNESS_MM: f64 = 3.0;

fn mm(millimetres: f64) -> Length {
    Length::from_millimetres(millimetres)
}

fn face(name: &str, corners: &[(f64, f64)], edges: Vec<Edge>) -> Face {
    let corners = corners.iter().map(|&(x, y)| Point::new(x, y)).collect();
    Face { name: name.to_owned(), corners, edges, holes: Vec::new(), rim: None }
}

/// A flange: the edge of the plate, its corners from the bend outward, its turn in degrees.
pub(crate) type Flange = (usize, Vec<(f64, f64)>, f64);

/// A plate with flanges turned up: each on an edge of the plate, with its corners from the bend outward and its turn.
pub(crate) fn plate(corners: &[(f64, f64)], flanges: &[Flange]) -> FlatPattern {
    let number =
        BendNumber::new(mm(THICKNESS_MM), mm(THICKNESS_MM), BendModel::KFactor(0.42), Origin::Job).unwrap();
    let mut edges = vec![Edge::Free; corners.len()];
    for (bend, (edge, ..)) in flanges.iter().enumerate() {
        edges[*edge] = Edge::Bend(bend);
    }
    let mut faces = vec![face("plate", corners, edges)];
    let mut bends = Vec::new();
    for (edge, corners, degrees) in flanges {
        let mut own = vec![Edge::Free; corners.len()];
        own[0] = Edge::Parent;
        faces.push(face(&format!("flange {edge}"), corners, own));
        bends.push(Bend {
            parent: 0,
            parent_edge: *edge,
            child: faces.len() - 1,
            turn_rad: degrees.to_radians(),
            direction: Direction::Up,
            inside_radius_mm: THICKNESS_MM,
            legs_to: LegsTo::MoldLine,
            forming: Forming::Brake,
        });
    }
    unfolded(number, faces, bends)
}

/// The flat of faces and bends with square reliefs and no seams.
pub(crate) fn unfolded(number: BendNumber, faces: Vec<Face>, bends: Vec<Bend>) -> FlatPattern {
    let part = FoldedPart {
        number,
        faces,
        bends,
        seams: Vec::new(),
        sizes: Vec::new(),
        relief: Relief::Square,
        notch_width_mm: 3.0,
        mitres: Vec::new(),
        tips: Vec::new(),
        wrapped_inside_mm: None,
    };
    fold::flat::unfold(&part).unwrap()
}

pub(crate) fn rectangle(length_mm: f64, width_mm: f64) -> [(f64, f64); 4] {
    [(0.0, 0.0), (length_mm, 0.0), (length_mm, width_mm), (0.0, width_mm)]
}

/// A box of four plumb sides, their ends standing a little apart.
pub(crate) fn box_of(length_mm: f64, width_mm: f64, height_mm: f64) -> FlatPattern {
    // An open corner stands back by the thickness.
    let side = |long: f64| {
        let (from, to) = (THICKNESS_MM, long - THICKNESS_MM);
        vec![(0.0, 0.0), (long, 0.0), (to, 8.0), (to, height_mm), (from, height_mm), (from, 8.0)]
    };
    let flanges: Vec<_> =
        (0..4).map(|edge| (edge, side(if edge % 2 == 0 { length_mm } else { width_mm }), 90.0)).collect();
    plate(&rectangle(length_mm, width_mm), &flanges)
}

fn fingers(deepest_mm: f64, nose_deg: f64) -> Machine {
    Machine::Folder(Folder {
        length: Some(mm(1250.0)),
        throat: None,
        stop_reach: None,
        clamp: Clamp::Fingers { widths: Vec::new(), deepest_box: Some(mm(deepest_mm)) },
        nose_angle: Some(Angle::from_degrees(nose_deg)),
        leaf_thickness: Some(mm(12.0)),
        leaf_width: Some(mm(40.0)),
    })
}

fn press(daylight_mm: f64) -> Machine {
    Machine::Press(PressBrake {
        length: Some(mm(2440.0)),
        daylight: Some(mm(daylight_mm)),
        die_height: Some(mm(60.0)),
        die_width: Some(mm(50.0)),
        punch: Punch {
            profile: Some(Profile::Straight),
            height: Some(mm(160.0)),
            width: Some(mm(20.0)),
            angle: Some(Angle::from_degrees(60.0)),
            ..Punch::default()
        },
        ..PressBrake::default()
    })
}

fn on(machine: &Machine, flat: &FlatPattern) -> Outcome {
    order::find(flat, machine, Some(mm(24.0)), &[])
}

/// A flange that flares out past the corner leans back over the end flange once it is turned past square: at 135° it
/// stands 30 high over the near end of the end flange, 30 behind the bend. The end flange is bent first, for the leaf
/// does not pass the leaning one, and then only a low one lets the other come over.
#[test]
fn a_flange_that_leans_back_over_another_hits_the_part_itself() {
    let leaning = |end_mm: f64, degrees: f64| {
        let corners = [(0.0, 0.0), (300.0, 0.0), (300.0, 140.0), (0.0, 140.0), (0.0, 110.0)];
        let end = vec![(0.0, 0.0), (110.0, 0.0), (110.0, end_mm), (0.0, end_mm)];
        let over = vec![(0.0, 0.0), (300.0, 0.0), (300.0, 80.0), (-30.0, 80.0)];
        plate(&corners, &[(4, end, 90.0), (2, over, degrees)])
    };
    assert!(
        matches!(on(&fingers(100.0, 45.0), &leaning(45.0, 70.0)), Outcome::Order(_)),
        "leaning out it is free"
    );
    assert!(
        matches!(on(&fingers(100.0, 45.0), &leaning(15.0, 135.0)), Outcome::Order(_)),
        "it comes over a low one"
    );
    assert!(matches!(on(&fingers(100.0, 45.0), &leaning(45.0, 135.0)), Outcome::Impossible(_)));
}

/// The last side of a box shuts the punch in. With the floor in front, that side comes out behind the punch at 45°: its
/// 50 and the thickness of 3 stand 53·sin 45° = 37.5 high, by hand. With the floor behind, the side across stands 50.
#[test]
fn a_box_comes_out_under_the_raised_punch_or_is_refused() {
    let flat = box_of(300.0, 240.0, 50.0);
    assert!(matches!(on(&press(60.0 + 160.0 + 38.5), &flat), Outcome::Order(_)));
    let Outcome::Impossible(why) = on(&press(60.0 + 160.0 + 36.5), &flat) else { panic!("it must not pass") };
    assert!(
        why.hindered.iter().all(|hindered| hindered.body == "the punch with the ram at the top"),
        "{:?}",
        why.hindered
    );
}

/// Two flanges of 50 on neighbouring edges of a plate, both turned by the same angle, the inner edges of their corner
/// touching.
///
/// By hand, in the plane of a flange, s up from the mold line: the outsides of the two meet over the corner at s·cos θ
/// past the end of the edge, and each stops T·cot(φ/2) short of that line, at right angles to it, φ the angle between
/// the two: cos φ = −cos² θ.
fn leaning_neighbours(degrees: f64) -> FlatPattern {
    use geometry::trig::{acos, cos, tan};
    let (lean, high) = (cos(degrees.to_radians()), 50.0);
    let short = THICKNESS_MM / tan(0.5 * acos(-lean * lean)) * (1.0 + lean * lean).sqrt();
    let ring = rectangle(300.0, 240.0);
    let own = |long: f64, at_start: bool| {
        let ends = |s: f64| s * lean - short;
        // Below 16 the corners are cut away, so that the flats do not meet there.
        let (low, high) = ((ends(16.0), 16.0), (ends(high), high));
        if at_start {
            vec![(0.0, 0.0), (long, 0.0), (long, high.1), (-high.0, high.1), (-low.0, low.1), (6.0, 8.0)]
        } else {
            vec![
                (0.0, 0.0),
                (long, 0.0),
                (long - 6.0, 8.0),
                (long + low.0, low.1),
                (long + high.0, high.1),
                (0.0, high.1),
            ]
        }
    };
    plate(&ring, &[(0, own(300.0, true), degrees), (1, own(240.0, false), degrees)])
}

/// A finished flange lies wholly on the inner side of the plane of its neighbour's outside, and the leaf that swings
/// the neighbour reaches that plane only at the end: what is bent second passes the leaf. What is bent first does not:
/// flat, the neighbour's flare lies in the sheet's plane before the bend line, over the leaf, by hand 50·cos θ − s past
/// the corner, s the corner's standing back. It must hang past the end of the leaf.
#[test]
fn a_leaning_flange_passes_the_leaf_that_swings_its_neighbour() {
    for degrees in [20.0, 30.0, 45.0, 60.0, 75.0, 85.0, 90.0] {
        let flat = leaning_neighbours(degrees);
        assert!(farthest_beyond_neighbour_mm(&flat) < 0.001, "{degrees}");
        let lean = geometry::trig::cos(degrees.to_radians());
        let flare =
            flat.faces[2].corners.iter().map(|p| (*p - flat.bends[0].from).dot(flat.bends[0].across()));
        let flare = flare.fold(f64::NEG_INFINITY, f64::max);
        let Outcome::Order(order) = on(&fingers(100.0, 45.0), &flat) else { panic!("{degrees}: none") };
        assert!(order.with_assumed().is_empty(), "{degrees}: {:?}", order.with_assumed());
        // Clamped is the plate, whichever is bent first: nobody swings it by its flange.
        assert!(order.steps.iter().all(|step| step.back == 0), "{degrees}");
        let past: Vec<Option<usize>> = order.steps.iter().map(|step| step.past_leaf).collect();
        // The leaf begins a zone's half and a thickness before the line.
        let over_leaf = 0.5 * flat.bends[0].zone_mm + THICKNESS_MM < flare;
        assert_eq!(over_leaf, 50.0 * lean > 12.0, "{degrees}: {flare}");
        assert_eq!(past[0].is_some(), over_leaf, "{degrees}: {past:?}");
        assert_eq!(past[1], None, "{degrees}: the finished one passes");
    }
}

/// How far the second finished flange reaches past the outside plane of the first, mm: every corner of it is placed by
/// turning it about its own bend, in the plane's own coordinates.
fn farthest_beyond_neighbour_mm(flat: &FlatPattern) -> f64 {
    let place = |bend: usize, p: Point, z: f64| {
        let line = &flat.bends[bend];
        let out = (p - line.from).dot(line.across()) + 0.5 * line.zone_mm;
        let (turn, outer) = (line.turn_rad, line.inside_radius_mm + THICKNESS_MM);
        let past = out - line.zone_mm;
        let (sine, cosine) = (geometry::trig::sin(turn), geometry::trig::cos(turn));
        // The end of the arc on the outer side, and on from there; z toward the inside.
        let across = outer * sine + past * cosine - z * sine;
        let up = outer * (1.0 - cosine) + past * sine + z * cosine;
        let foot = p - line.across() * (out - across);
        (foot, up)
    };
    let first = &flat.bends[0];
    let (on_plane, height) = place(0, first.from + first.across() * first.zone_mm, 0.0);
    let (sine, cosine) = (geometry::trig::sin(first.turn_rad), geometry::trig::cos(first.turn_rad));
    let beyond = |(p, up): (Point, f64)| (p - on_plane).dot(first.across()) * sine - (up - height) * cosine;
    let corners = flat.faces[2].corners.iter().flat_map(|p| [0.0, THICKNESS_MM].map(|z| place(1, *p, z)));
    corners.map(beyond).fold(f64::NEG_INFINITY, f64::max)
}

#[test]
fn tools_that_fill_the_open_height_bend_nothing() {
    let strip = plate(
        &rectangle(300.0, 240.0),
        &[(0, vec![(0.0, 0.0), (300.0, 0.0), (300.0, 40.0), (0.0, 40.0)], 90.0)],
    );
    assert!(matches!(on(&press(224.0), &strip), Outcome::Order(_)), "60 + 160 and 4 for the sheet of 3");
    assert!(matches!(on(&press(222.0), &strip), Outcome::Impossible(_)));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    /// Between fingers the sides that stand beside them reach up to the beam: a box is made exactly while its height is
    /// that of the fingers, and the thickness they stand on, or less. (The nose is steep: with a flatter one a little more
    /// height is won by clamping the last side and swinging the box.) Plane geometry, no look at the search's sweep.
    #[test]
    fn a_box_is_as_deep_as_the_fingers(
        length in 150.0_f64..500.0,
        width in 150.0_f64..400.0,
        height in 30.0_f64..120.0,
        deepest in 30.0_f64..120.0,
    ) {
        let spare = deepest + THICKNESS_MM - height;
        prop_assume!(0.5 < spare.abs());
        let made = matches!(on(&fingers(deepest, 60.0), &box_of(length, width, height)), Outcome::Order(_));
        prop_assert_eq!(made, 0.0 < spare);
    }
}
