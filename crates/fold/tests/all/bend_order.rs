//! Bend orders of parts whose answer is known, on machines of given sizes.

#![allow(clippy::unwrap_used, reason = "a test may stop at a part that cannot be made")]

use fold::bend::Origin;
use fold::order::{self, BendOrder, Outcome};
use fold::part::{Bend, Edge, Face, FoldedPart, Forming, LegsTo, Relief};
use fold::{BendNumber, Direction, FlatPattern, Side};
use geometry::{Point, trig};
use proptest::prelude::*;
use stock::BendModel;
use stock::brake::{Clamp, Folder, Machine, PressBrake, Profile, Punch};
use units::{Angle, Length};

const THICKNESS_MM: f64 = 3.0;

pub(crate) fn mm(millimetres: f64) -> Length {
    Length::from_millimetres(millimetres)
}

/// A profile of straight legs, `width_mm` wide: legs to mold lines, then the bends between them.
pub(crate) fn profile(legs_mm: &[f64], bends: &[(f64, Direction)], width_mm: f64) -> FlatPattern {
    fold::flat::unfold(&profile_part(legs_mm, bends, width_mm)).unwrap()
}

/// The same, folded.
pub(crate) fn profile_part(legs_mm: &[f64], bends: &[(f64, Direction)], width_mm: f64) -> FoldedPart {
    assert_eq!(legs_mm.len(), bends.len() + 1);
    let number =
        BendNumber::new(mm(THICKNESS_MM), mm(THICKNESS_MM), BendModel::KFactor(0.42), Origin::Job).unwrap();
    let last = legs_mm.len() - 1;
    let face = |(i, leg): (usize, &f64)| {
        let corners = [(0.0, 0.0), (width_mm, 0.0), (width_mm, *leg), (0.0, *leg)];
        let first = if i == 0 { Edge::Free } else { Edge::Parent };
        let third = if i == last { Edge::Free } else { Edge::Bend(i) };
        Face {
            name: format!("leg {}", i + 1),
            corners: corners.map(|(x, y)| Point::new(x, y)).to_vec(),
            edges: vec![first, Edge::Free, third, Edge::Free],
            holes: Vec::new(),
            rim: None,
        }
    };
    let bend = |(i, (degrees, direction)): (usize, &(f64, Direction))| Bend {
        parent: i,
        parent_edge: 2,
        child: i + 1,
        turn_rad: degrees.to_radians(),
        direction: *direction,
        inside_radius_mm: THICKNESS_MM,
        legs_to: LegsTo::MoldLine,
        forming: Forming::Brake,
    };
    FoldedPart {
        number,
        faces: legs_mm.iter().enumerate().map(face).collect(),
        bends: bends.iter().enumerate().map(bend).collect(),
        seams: Vec::new(),
        sizes: Vec::new(),
        relief: Relief::Square,
        notch_width_mm: 1.0,
        mitres: Vec::new(),
        tips: Vec::new(),
        wrapped_inside_mm: None,
    }
}

/// A press brake with a straight punch of 20 mm by 100 mm.
pub(crate) fn press() -> Machine {
    Machine::Press(PressBrake {
        length: Some(mm(2440.0)),
        punch: Punch {
            profile: Some(Profile::Straight),
            height: Some(mm(100.0)),
            width: Some(mm(20.0)),
            angle: Some(Angle::from_degrees(60.0)),
            ..Punch::default()
        },
        ..PressBrake::default()
    })
}

fn folder(height_mm: f64) -> Machine {
    Machine::Folder(Folder {
        length: Some(mm(1250.0)),
        throat: None,
        stop_reach: None,
        clamp: Clamp::Bar { height: Some(mm(height_mm)) },
        nose_angle: Some(Angle::from_degrees(45.0)),
        leaf_thickness: Some(mm(12.0)),
        leaf_width: Some(mm(40.0)),
    })
}

fn on(machine: &Machine, flat: &FlatPattern) -> Outcome {
    order::find(flat, machine, Some(mm(24.0)), &[])
}

fn order_on(machine: &Machine, flat: &FlatPattern) -> BendOrder {
    match on(machine, flat) {
        Outcome::Order(order) => order,
        other => panic!("{other:?}"),
    }
}

const UP: Direction = Direction::Up;
const DOWN: Direction = Direction::Down;

#[test]
fn a_channel_is_bent_without_turning_over() {
    let flat = profile(&[40.0, 100.0, 40.0], &[(90.0, UP), (90.0, UP)], 500.0);
    for machine in [press(), folder(60.0)] {
        let order = order_on(&machine, &flat);
        assert_eq!((order.steps.len(), order.turn_overs), (2, 0));
        assert!(order.steps.iter().all(|step| step.up == Side::Face && step.stop.is_some()));
    }
}

#[test]
fn the_stop_stands_a_flat_leg_behind_the_bend_line() {
    let flat = profile(&[40.0, 100.0], &[(90.0, UP)], 500.0);
    let order = order_on(&press(), &flat);
    // The smaller leg goes to the stop; its bend line lies half the deduction short of the mold line. By hand:
    // setback 6, allowance π/2·(3 + .42·3) = 6.691, deduction 5.309.
    let stop = order.steps[0].stop.unwrap();
    assert_eq!(stop.face, 0);
    assert!((stop.distance.millimetres() - (40.0 - 5.309 / 2.0)).abs() < 0.001, "{stop:?}");
}

#[test]
fn a_hat_is_turned_over_once() {
    let flat = profile(
        &[20.0, 40.0, 120.0, 40.0, 20.0],
        &[(90.0, DOWN), (90.0, UP), (90.0, UP), (90.0, DOWN)],
        500.0,
    );
    let order = order_on(&press(), &flat);
    assert_eq!((order.steps.len(), order.turn_overs), (4, 1), "{:?}", order.steps.len());
}

/// A channel deeper than it is wide: at the second bend the first flange leans back over the punch. Both legs stand at
/// 45°, so the end of a flange f on a web b comes to (b − f)·sin 45° from the middle, (b + f)·sin 45° up.
#[test]
fn a_deep_channel_meets_the_punch() {
    let channel = |flange: f64| profile(&[flange, 60.0, flange], &[(90.0, UP), (90.0, UP)], 500.0);
    assert!(matches!(on(&press(), &channel(30.0)), Outcome::Order(_)));
    let Outcome::Impossible(why) = on(&press(), &channel(90.0)) else { panic!("it must not pass") };
    assert!(why.hindered.iter().all(|h| ["the punch", "the ram"].contains(&h.body)), "{:?}", why.hindered);
    assert_eq!(why.seams.single, vec![0, 1], "either bend as a seam leaves an angle");
}

/// What a straight punch of unknown size surely has stands over its tip: a leg back across that line is refused. Whether
/// a punch is straight at all must have been said.
#[test]
fn a_leg_across_the_middle_line_meets_any_straight_punch() {
    let flat = profile(&[90.0, 60.0, 90.0], &[(90.0, UP), (90.0, UP)], 500.0);
    let with = |profile| {
        Machine::Press(PressBrake {
            length: Some(mm(2440.0)),
            punch: Punch { profile, ..Punch::default() },
            ..PressBrake::default()
        })
    };
    let Outcome::Impossible(why) = on(&with(Some(Profile::Straight)), &flat) else {
        panic!("it must not pass")
    };
    assert!(why.hindered.iter().all(|h| !h.assumed && ["the punch", "the ram"].contains(&h.body)), "{why:?}");
    let order = order_on(&with(None), &flat);
    assert!(order.steps.iter().any(|step| step.with_assumed.iter().any(|h| h.body == "the punch")));
}

/// The same channel passes a gooseneck cut back far enough.
#[test]
fn a_gooseneck_takes_a_deeper_channel() {
    let flat = profile(&[62.0, 60.0, 62.0], &[(90.0, UP), (90.0, UP)], 500.0);
    let Machine::Press(mut press) = press() else { unreachable!("a press") };
    assert!(matches!(on(&Machine::Press(press.clone()), &flat), Outcome::Impossible(_)));
    press.punch.profile = Some(Profile::Gooseneck);
    press.punch.relief = Some(mm(45.0));
    press.punch.height = Some(mm(140.0));
    assert!(matches!(on(&Machine::Press(press), &flat), Outcome::Order(_)));
}

/// A return inward at the end of a flange passes a nose of 45° only while it is shorter than the flange is high.
#[test]
fn a_return_meets_the_clamp_bar() {
    let with_return =
        |flange: f64, back: f64| profile(&[200.0, flange, back], &[(90.0, UP), (90.0, UP)], 500.0);
    let order = order_on(&folder(60.0), &with_return(50.0, 25.0));
    assert_eq!(order.steps[0].bends, vec![1], "the return first: afterwards the flange cannot be clamped");
    let machine = folder(60.0);
    let Outcome::Impossible(why) = on(&machine, &with_return(30.0, 60.0)) else { panic!("it must not pass") };
    assert!(why.hindered.iter().any(|h| h.body.contains("clamp bar")), "{:?}", why.hindered);
}

#[test]
fn bends_on_one_line_are_one_stroke() {
    // Two tabs on one edge of a plate, a notch of 60 mm between them.
    let free = Edge::Free;
    let number = BendNumber::new(mm(3.0), mm(3.0), BendModel::KFactor(0.42), Origin::Job).unwrap();
    let ring = |corners: &[(f64, f64)]| corners.iter().map(|&(x, y)| Point::new(x, y)).collect::<Vec<_>>();
    let tab = |name: &str| Face {
        name: name.to_owned(),
        corners: ring(&[(0.0, 0.0), (100.0, 0.0), (100.0, 40.0), (0.0, 40.0)]),
        edges: vec![Edge::Parent, Edge::Free, Edge::Free, Edge::Free],
        holes: Vec::new(),
        rim: None,
    };
    let plate = Face {
        name: "plate".to_owned(),
        corners: ring(&[
            (0.0, 0.0),
            (260.0, 0.0),
            (260.0, 150.0),
            (160.0, 150.0),
            (160.0, 140.0),
            (100.0, 140.0),
            (100.0, 150.0),
            (0.0, 150.0),
        ]),
        edges: vec![free, free, Edge::Bend(0), free, free, free, Edge::Bend(1), free],
        holes: Vec::new(),
        rim: None,
    };
    let bend = |edge: usize, child: usize| Bend {
        parent: 0,
        parent_edge: edge,
        child,
        turn_rad: std::f64::consts::FRAC_PI_2,
        direction: UP,
        inside_radius_mm: THICKNESS_MM,
        legs_to: LegsTo::MoldLine,
        forming: Forming::Brake,
    };
    let part = FoldedPart {
        number,
        faces: vec![plate, tab("right tab"), tab("left tab")],
        bends: vec![bend(2, 1), bend(6, 2)],
        seams: Vec::new(),
        sizes: Vec::new(),
        relief: Relief::Square,
        notch_width_mm: 1.0,
        mitres: Vec::new(),
        tips: Vec::new(),
        wrapped_inside_mm: None,
    };
    let flat = fold::flat::unfold(&part).unwrap();
    for machine in [press(), folder(60.0)] {
        let order = order_on(&machine, &flat);
        assert_eq!(order.steps.len(), 1, "{:?}", order.steps.iter().map(|s| &s.bends).collect::<Vec<_>>());
        assert_eq!(order.steps[0].bends, vec![0, 1]);
    }
}

/// What a second, plainer look at one step sees. The part is stood in the machine by turning points of the folded
/// profile in the plane; nothing of the search's own sweep is used. Profile and machine as in [`press`]; the outsides
/// and insides of every leg are sampled each half millimetre, the swing each half degree.
fn deepest_in_punch_mm(legs_mm: &[f64], turns_rad: &[f64], bend: usize, swing: f64) -> f64 {
    let ring = centre_line(legs_mm, turns_rad, bend, swing);
    // The inside of the bend rests on the tip of the punch.
    let inside = |y: f64| (y - tip_height(swing)).max(0.0);
    let half_width = |y: f64| (y * trig::tan(30.0_f64.to_radians())).min(10.0);
    let mut deepest = f64::NEG_INFINITY;
    for p in ring {
        let y = inside(p.1);
        if 0.0 < y && y < 100.0 {
            deepest = deepest.max(half_width(y) - p.0.abs());
        }
        if 100.0 < y {
            deepest = deepest.max(38.1 - p.0.abs());
        } else if p.0.abs() < 38.1 {
            // Under the ram it is the height that is still clear.
            deepest = deepest.max(y - 100.0);
        }
    }
    deepest
}

/// Height of the punch's tip over the meeting point of the outsides.
fn tip_height(swing: f64) -> f64 {
    2.0 * THICKNESS_MM / trig::cos(0.5 * swing) - THICKNESS_MM
}

/// Points on the middle of every leg but the two at the bend, the outsides' meeting point of `bend` at the origin, both
/// legs there risen by half the swing. Sharp bends on mold lines, as the middle of the sheet would run.
fn centre_line(legs_mm: &[f64], turns_rad: &[f64], bend: usize, swing: f64) -> Vec<(f64, f64)> {
    let mut points = Vec::new();
    for (step, turns, legs) in [
        (1.0, turns_rad[bend + 1..].to_vec(), legs_mm[bend + 1..].to_vec()),
        (
            -1.0,
            turns_rad[..bend].iter().rev().copied().collect(),
            legs_mm[..=bend].iter().rev().copied().collect(),
        ),
    ] {
        let (mut angle, mut at) = (0.5 * swing, (0.0, 0.0));
        for (number, leg) in legs.iter().enumerate() {
            let (along, normal) =
                ((trig::cos(angle), trig::sin(angle)), (-trig::sin(angle), trig::cos(angle)));
            let half = 0.5 * THICKNESS_MM;
            if number > 0 {
                let samples = (leg * 2.0).ceil();
                let mut i = THICKNESS_MM * 4.0;
                while i <= samples {
                    let d = leg * i / samples;
                    let p = (at.0 + along.0 * d + normal.0 * half, at.1 + along.1 * d + normal.1 * half);
                    points.push((step * p.0, p.1));
                    i += 1.0;
                }
            }
            at = (at.0 + along.0 * leg, at.1 + along.1 * leg);
            angle += turns.get(number).copied().unwrap_or(0.0);
        }
    }
    points
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    /// Every step of an order that is found passes the second look; every profile that is refused has, in each order
    /// of its two bends, metal well inside punch or ram.
    #[test]
    fn a_second_look_agrees(
        legs in proptest::collection::vec(25.0_f64..110.0, 3..=4),
        degrees in proptest::collection::vec(30.0_f64..95.0, 3),
    ) {
        let turns: Vec<f64> = degrees[..legs.len() - 1].to_vec();
        let bends: Vec<(f64, Direction)> = turns.iter().map(|turn| (*turn, UP)).collect();
        let flat = profile(&legs, &bends, 300.0);
        let radians: Vec<f64> = turns.iter().map(|turn| turn.to_radians()).collect();
        let deepest = |made: &[usize], bend: usize| {
            let held: Vec<f64> =
                (0..radians.len()).map(|i| if made.contains(&i) { radians[i] } else { 0.0 }).collect();
            let steps = 190;
            (0..=steps)
                .map(|i| radians[bend] * f64::from(i) / f64::from(steps))
                .map(|swing| deepest_in_punch_mm(&legs, &held, bend, swing))
                .fold(f64::NEG_INFINITY, f64::max)
        };
        match on(&press(), &flat) {
            Outcome::Order(order) if order.with_assumed().is_empty() => {
                let mut made = Vec::new();
                for step in &order.steps {
                    for &bend in &step.bends {
                        let depth = deepest(&made, bend);
                        prop_assert!(depth < 0.5 * THICKNESS_MM, "bend {bend} after {made:?}: {depth:.2} mm in");
                    }
                    made.extend(&step.bends);
                }
            }
            // The second look knows punch and ram only. A profile that comes round on itself may be stopped by its own
            // metal, or by the way out under the raised punch: `boxes_on_machines` judges that.
            Outcome::Order(_) | Outcome::Impossible(_) if 150.0 < degrees[..turns.len()].iter().sum::<f64>() => {}
            Outcome::Order(_) | Outcome::Impossible(_) => {
                let all: Vec<usize> = (0..radians.len()).collect();
                let orders = permutations(&all);
                for order in orders {
                    let worst = (0..order.len())
                        .map(|i| deepest(&order[..i], order[i]))
                        .fold(f64::NEG_INFINITY, f64::max);
                    prop_assert!(-THICKNESS_MM < worst, "order {order:?} stays {worst:.2} mm clear");
                }
            }
            Outcome::Unsettled => prop_assert!(false, "two or three bends are always settled"),
        }
    }
}

/// Half-planes, each a point on its line and the direction inward.
type HalfPlanes = Vec<((f64, f64), (f64, f64))>;

/// How deep a point lies within a figure of half-planes, below zero outside.
fn depth_mm(p: (f64, f64), figure: &HalfPlanes) -> f64 {
    let inside = |((x, y), (nx, ny)): &((f64, f64), (f64, f64))| (p.0 - x) * nx + (p.1 - y) * ny;
    figure.iter().map(inside).fold(f64::INFINITY, f64::min)
}

/// The second look on a folder with a bar 60 high and a nose of 45°: the middles of the legs as [`centre_line`] has
/// them, turned until the leg at the back lies on the bed and moved until the bend begins where the clamp ends.
fn deepest_in_folder_mm(
    legs_mm: &[f64],
    turns_rad: &[f64],
    bend: usize,
    swing: f64,
    child_at_back: bool,
) -> f64 {
    let (outer, neutral) = (2.0 * THICKNESS_MM, THICKNESS_MM * 1.42);
    let full = turns_rad[bend];
    let nose = -0.5 * full * neutral;
    let setback = outer * trig::tan(0.5 * swing);
    let half = 0.5 * swing;
    let (cos, sin) = (trig::cos(half), trig::sin(half));
    let diagonal = trig::sin(std::f64::consts::FRAC_PI_4);
    let clamp: HalfPlanes = vec![
        ((0.0, THICKNESS_MM), (0.0, 1.0)),
        ((0.0, THICKNESS_MM + 60.0), (0.0, -1.0)),
        ((nose, THICKNESS_MM), (-diagonal, -diagonal)),
        ((nose - 101.6, 0.0), (1.0, 0.0)),
    ];
    let beam: HalfPlanes = vec![((0.0, THICKNESS_MM + 60.0), (0.0, 1.0)), ((nose - 60.0, 0.0), (-1.0, 0.0))];
    let bed: HalfPlanes =
        vec![((0.0, 0.0), (0.0, -1.0)), ((nose, 0.0), (-1.0, 0.0)), ((nose - 101.6, 0.0), (1.0, 0.0))];
    let along_leaf = |flat: f64| flat - nose - swing * neutral + setback;
    let (from, to) = (along_leaf(0.5 * full * neutral + THICKNESS_MM), along_leaf(40.0));
    let (dir, normal) = ((trig::cos(swing), trig::sin(swing)), (-trig::sin(swing), trig::cos(swing)));
    let mut deepest = f64::NEG_INFINITY;
    for (x, y) in centre_line(legs_mm, turns_rad, bend, swing) {
        let x = if child_at_back { -x } else { x };
        let at_back = x < 0.0;
        let (u, v) = (x * cos - y * sin, x * sin + y * cos);
        let p = (nose + setback + u, v);
        let mut worst =
            [&clamp, &beam, &bed].map(|body| depth_mm(p, body)).into_iter().fold(f64::NEG_INFINITY, f64::max);
        let (on, over) = (u * dir.0 + v * dir.1, u * normal.0 + v * normal.1);
        if at_back {
            worst = worst.max((on - from).min(to - on).min(-over).min(over + 12.0));
        }
        deepest = deepest.max(worst);
    }
    deepest
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    /// The same on a folder: every step of an order passes the second look; every profile that is refused has, in each
    /// order and each way round, metal well inside clamp, beam, bed or leaf.
    #[test]
    fn a_second_look_agrees_on_a_folder(
        legs in proptest::collection::vec(25.0_f64..140.0, 3..=4),
        degrees in proptest::collection::vec(30.0_f64..95.0, 3),
    ) {
        let bends: Vec<(f64, Direction)> = degrees[..legs.len() - 1].iter().map(|turn| (*turn, UP)).collect();
        let flat = profile(&legs, &bends, 300.0);
        let radians: Vec<f64> = bends.iter().map(|(turn, _)| turn.to_radians()).collect();
        let deepest = |made: &[usize], bend: usize, child_at_back: bool| {
            let held: Vec<f64> = (0..radians.len())
                .map(|i| if made.contains(&i) || i == bend { radians[i] } else { 0.0 })
                .collect();
            let looks = (0..=190).map(|i| radians[bend] * f64::from(i) / 190.0);
            looks
                .map(|swing| deepest_in_folder_mm(&legs, &held, bend, swing, child_at_back))
                .fold(f64::NEG_INFINITY, f64::max)
        };
        match on(&folder(60.0), &flat) {
            Outcome::Order(order) if order.with_assumed().is_empty() => {
                let mut made = Vec::new();
                for step in &order.steps {
                    let depth = deepest(&made, step.bends[0], step.back == step.bends[0] + 1);
                    prop_assert!(depth < 0.5 * THICKNESS_MM, "bend {:?} after {made:?}: {depth:.2} mm in", step.bends);
                    made.extend(&step.bends);
                }
            }
            // As on the press: a profile that comes round on itself may be stopped by its own metal.
            Outcome::Order(_) | Outcome::Impossible(_) if 150.0 < degrees[..bends.len()].iter().sum::<f64>() => {}
            Outcome::Order(_) | Outcome::Impossible(_) => {
                let all: Vec<usize> = (0..radians.len()).collect();
                for order in permutations(&all) {
                    let worst = (0..order.len())
                        .map(|i| {
                            let both = [true, false].map(|back| deepest(&order[..i], order[i], back));
                            both.into_iter().fold(f64::INFINITY, f64::min)
                        })
                        .fold(f64::NEG_INFINITY, f64::max);
                    prop_assert!(-THICKNESS_MM < worst, "order {order:?} stays {worst:.2} mm clear");
                }
            }
            Outcome::Unsettled => prop_assert!(false, "two or three bends are always settled"),
        }
    }
}

fn permutations(items: &[usize]) -> Vec<Vec<usize>> {
    if items.len() <= 1 {
        return vec![items.to_vec()];
    }
    let mut all = Vec::new();
    for (i, &first) in items.iter().enumerate() {
        let rest: Vec<usize> = items.iter().enumerate().filter(|(j, _)| *j != i).map(|(_, &x)| x).collect();
        all.extend(permutations(&rest).into_iter().map(|tail| [vec![first], tail].concat()));
    }
    all
}
