//! What a hand does between strokes: rims before walls, stops that stop, turning round, tools that clear.

#![allow(clippy::unwrap_used, reason = "a test may stop at a part that cannot be made")]

use crate::bend_order::{mm, profile};
use crate::boxes_on_machines::{box_of, plate, rectangle, unfolded};
use fold::bend::Origin;
use fold::order::{self, BendOrder, Needs, Outcome, PUNCH, RAM, TALL_PUNCH};
use fold::part::{Bend, Edge, Face, Forming, LegsTo};
use fold::{BendNumber, Direction, FlatPattern};
use geometry::Point;
use stock::BendModel;
use stock::brake::{Machine, PressBrake, Punch};

const UP: Direction = Direction::Up;
const DOWN: Direction = Direction::Down;

fn order_on(press: PressBrake, flat: &FlatPattern) -> BendOrder {
    match order::find(flat, &Machine::Press(press), Some(mm(24.0)), &[]) {
        Outcome::Order(order) => order,
        other => panic!("{other:?}"),
    }
}

/// An order on a press of which the shop says nothing.
fn order_of(flat: &FlatPattern) -> BendOrder {
    order_on(PressBrake::default(), flat)
}

/// A pan of four walls up and a mitred rim on each, in (up) or out (down): bends 0 to 3 of the walls, 4 to 7 of their rims.
fn rimmed_pan((length_mm, width_mm, height_mm): (f64, f64, f64), rim_mm: f64, way: Direction) -> FlatPattern {
    let corners = |list: &[(f64, f64)]| list.iter().map(|&(x, y)| Point::new(x, y)).collect::<Vec<_>>();
    let number = BendNumber::new(mm(3.0), mm(3.0), BendModel::KFactor(0.42), Origin::Job).unwrap();
    let face = |name: String, list: &[(f64, f64)], edges: Vec<Edge>| Face {
        name,
        corners: corners(list),
        edges,
        holes: Vec::new(),
        rim: None,
    };
    let mut faces =
        vec![face("floor".to_owned(), &rectangle(length_mm, width_mm), (0..4).map(Edge::Bend).collect())];
    let sides = || (0..4).map(|edge| if edge % 2 == 0 { length_mm } else { width_mm });
    for (edge, long) in sides().enumerate() {
        let list = [(4.0, 0.0), (long - 4.0, 0.0), (long - 4.0, height_mm), (4.0, height_mm)];
        let edges = vec![Edge::Parent, Edge::Free, Edge::Bend(4 + edge), Edge::Free];
        faces.push(face(format!("wall {edge}"), &list, edges));
    }
    for (edge, long) in sides().enumerate() {
        let wide = long - 8.0;
        let inset = if way == UP { rim_mm } else { -rim_mm };
        let list = [(0.0, 0.0), (wide, 0.0), (wide - inset, rim_mm), (inset, rim_mm)];
        faces.push(face(
            format!("rim {edge}"),
            &list,
            vec![Edge::Parent, Edge::Free, Edge::Free, Edge::Free],
        ));
    }
    let bend = |(parent, parent_edge, child, direction)| Bend {
        parent,
        parent_edge,
        child,
        turn_rad: std::f64::consts::FRAC_PI_2,
        direction,
        inside_radius_mm: 3.0,
        legs_to: LegsTo::MoldLine,
        forming: Forming::Brake,
    };
    let walls = (0..4).map(|edge| (0, edge, 1 + edge, UP));
    let rims = (0..4).map(|edge| (1 + edge, 2, 5 + edge, way));
    unfolded(number, faces, walls.chain(rims).map(bend).collect())
}

/// All rims, then all walls: the pan is turned over once. The rims hang beside a die of 76 mm, and not to the bed.
#[test]
fn rims_of_a_deep_pan_are_bent_before_its_walls() {
    let order = order_of(&rimmed_pan((1000.0, 600.0, 350.0), 40.0, DOWN));
    assert_eq!(order.turn_overs, 1);
    assert!(order.with_assumed().iter().all(|hindered| hindered.body == RAM), "{:?}", order.with_assumed());
    let at = |bend: usize| order.steps.iter().position(|step| step.bends.contains(&bend)).unwrap();
    for wall in 0..4 {
        for rim in 4..8 {
            assert!(at(rim) < at(wall), "rim {rim} at {}, wall {wall} at {}", at(rim), at(wall));
        }
    }
}

/// Rims turned in close the pan: bent last they would want ram and punch within it. Pressed a degree past their turn the
/// walls come together by 6 mm at the rims, twice the thickness, and are held aside.
#[test]
fn rims_turned_into_a_deep_pan_are_bent_before_its_walls() {
    let flat = rimmed_pan((1000.0, 600.0, 350.0), 18.0, UP);
    let in_die = vec![91.0_f64.to_radians(); 8];
    let machine = Machine::Press(PressBrake::default());
    let Outcome::Order(order) = order::find(&flat, &machine, Some(mm(24.0)), &in_die) else {
        panic!("it can be bent");
    };
    let at = |bend: usize| order.steps.iter().position(|step| step.bends.contains(&bend)).unwrap();
    for rim in 4..8 {
        assert!(at(rim) < at(rim - 4), "rim {rim} at {}, its wall at {}", at(rim), at(rim - 4));
    }
    assert!(order.with_assumed().iter().all(|hindered| hindered.body == RAM), "{:?}", order.with_assumed());
}

/// What a punch must end before at both ends where walls of the pan stand beside the bend: the room, the faces, by how
/// much the tools fall short of the bend, and how long that is.
fn between_walls(order: &BendOrder, flat: &FlatPattern) -> Vec<(f64, [usize; 2], f64, f64)> {
    let confined = order.steps.iter().filter_map(|step| {
        let tools = step.tooling.as_ref()?;
        let [Some(first), Some(second)] = tools.punch.ends else { return None };
        let line = &flat.bends[step.bends[0]];
        let (room, long_mm) = (tools.punch.room?.millimetres(), line.from.distance(line.to));
        // Rims of walls that still lie flat stand farther apart than the floor is long.
        (room < long_mm + 10.0).then_some((
            room,
            [first.face, second.face],
            tools.short_by.millimetres(),
            long_mm,
        ))
    });
    confined.collect()
}

/// By hand: rims of r turned in from the outsides of their walls leave of a pan of l the length l − 2·r between them, all the
/// way up; rims turned out leave l less the thickness of two walls, of which the bend at their feet takes a little more.
#[test]
fn a_tall_punch_ends_at_the_rims_that_are_turned_in_over_it() {
    let rim_mm = 12.0;
    for (way, taken_mm, feet_mm, is_end) in [(UP, rim_mm, 0.01, 5..=8), (DOWN, 3.0, 0.5, 1..=4)] {
        let flat = rimmed_pan((1000.0, 600.0, 350.0), rim_mm, way);
        let order = order_of(&flat);
        let rooms = between_walls(&order, &flat);
        assert_eq!(rooms.len(), 2, "the last two walls: {rooms:?}");
        for (room_mm, faces, short_mm, long_mm) in &rooms {
            assert!(faces.iter().all(|face| is_end.contains(face)), "{rooms:?}");
            let by_hand = [1000.0, 600.0].map(|l| l - 2.0 * taken_mm);
            assert!(by_hand.iter().any(|room| (room_mm - room).abs() < feet_mm), "{rooms:?}");
            assert!((short_mm - (long_mm - room_mm).max(0.0)).abs() < 0.01, "{rooms:?}");
        }
        assert!(order.with_assumed().iter().all(|hindered| hindered.body == RAM));
    }
}

/// Rims of 25 leave a punch two inches short, twice as much as tools may be: its end pieces must reach under the rims, and
/// cannot be lifted out between them.
#[test]
fn rims_that_shut_a_tall_punch_in_ask_for_a_horned_one() {
    let flat = rimmed_pan((1000.0, 600.0, 350.0), 25.0, UP);
    let order = order_of(&flat);
    let rooms = between_walls(&order, &flat);
    assert_eq!(rooms.len(), 2, "{rooms:?}");
    for (room_mm, faces, ..) in &rooms {
        assert!(faces.iter().all(|face| 5 <= *face), "{rooms:?}");
        assert!([950.0, 550.0].iter().any(|room| (room_mm - room).abs() < 0.01), "{rooms:?}");
    }
    let tall: Vec<_> = order.with_assumed().into_iter().filter(|one| one.body == TALL_PUNCH).collect();
    assert_eq!(tall.len(), 2, "{:?}", order.with_assumed());
    assert!(tall.iter().all(|one| 5 <= one.face && one.needs == Some(Needs::HornedPunch)), "{tall:?}");
}

/// The box of walls 380 is bent on a punch of the height that is asked for, and not on one 25 lower.
#[test]
fn a_punch_of_the_height_asked_for_clears_the_ram() {
    let flat = box_of(500.0, 400.0, 380.0);
    let heights = |order: &BendOrder| {
        let needs = order.with_assumed().into_iter().filter(|hindered| hindered.body == RAM);
        needs.map(|hindered| hindered.needs).collect::<Vec<_>>()
    };
    let asked = heights(&order_of(&flat));
    let height = asked.iter().map(|needs| match needs {
        Some(Needs::PunchHeight(height)) => height.millimetres(),
        other => panic!("{other:?}"),
    });
    let height = height.fold(0.0, f64::max);
    // Over the middle of a wall h whose leg stands at 45° its top is h/cos 45° up, and half the ram's width to one side
    // as much more.
    let middle = 380.0 * std::f64::consts::SQRT_2;
    assert!((middle..middle + 0.5 * 76.2).contains(&height), "{height}");
    let with = |height_mm: f64| {
        let punch = Punch { height: Some(mm(height_mm)), ..Punch::default() };
        heights(&order_on(PressBrake { punch, ..PressBrake::default() }, &flat)).len()
    };
    assert_eq!(with(height + 0.5), 0);
    assert!(with(height - 25.0) > 0);
}

/// A lip that swings into a straight punch, and into the throat of a gooseneck.
#[test]
fn a_lip_that_a_gooseneck_clears_says_so() {
    let flat = profile(&[20.0, 30.0, 300.0], &[(90.0, UP), (90.0, UP)], 500.0);
    let order = order_of(&flat);
    let of_punch: Vec<_> = order.with_assumed().into_iter().filter(|one| one.body == PUNCH).collect();
    assert!(!of_punch.is_empty(), "{:?}", order.with_assumed());
    assert!(of_punch.iter().all(|one| matches!(one.needs, Some(Needs::Gooseneck { .. }))), "{of_punch:?}");
}

/// A sheet too long for the gauge is turned round, its short side to the stop.
#[test]
fn the_short_side_goes_to_the_stop_where_the_long_one_is_out_of_reach() {
    let channel = profile(&[40.0, 900.0, 40.0], &[(90.0, UP), (90.0, UP)], 500.0);
    let order = order_of(&channel);
    let distances: Vec<f64> =
        order.steps.iter().map(|step| step.stop.unwrap().distance.millimetres()).collect();
    assert!(distances.iter().all(|distance| *distance < 50.0), "{distances:?}");
    assert_eq!(order.turn_rounds, 1);
    let halves = order_of(&profile(&[900.0, 900.0], &[(90.0, UP)], 500.0));
    assert_eq!(halves.steps[0].stop, None);
}

/// The shop's own stop counts in the place of the assumed one: 900 mm behind the line is in its reach, or 30 are not.
#[test]
fn the_reach_of_the_shops_own_stop_counts() {
    let reaching = |reach_mm: f64| {
        let stop_reach = Some(mm(reach_mm));
        PressBrake { stop_reach, ..PressBrake::default() }
    };
    let halves = profile(&[900.0, 900.0], &[(90.0, UP)], 500.0);
    let far = order_on(reaching(1_000.0), &halves);
    let distance = far.steps[0].stop.map(|stop| stop.distance.millimetres());
    assert!(distance.is_some_and(|distance| (distance - 900.0).abs() < 5.0), "{distance:?}");
    assert_eq!(far.stop_reach, Some(mm(1_000.0)));
    let lip = profile(&[40.0, 900.0], &[(90.0, UP)], 500.0);
    assert!(order_on(reaching(100.0), &lip).steps[0].stop.is_some());
    assert_eq!(order_on(reaching(30.0), &lip).steps[0].stop, None);
    assert_eq!(order_of(&lip).stop_reach, None);
}

/// Two flanges on an edge with a kink of two degrees: the sheet is swung to the second line, not turned round.
#[test]
fn two_degrees_are_a_swing_and_no_turning_round() {
    let rise = 150.0 * geometry::trig::tan(1.0_f64.to_radians());
    let corners = [(0.0, 0.0), (300.0, 0.0), (300.0, 200.0), (150.0, 200.0 + rise), (0.0, 200.0)];
    let flange = || vec![(2.0, 0.0), (148.0, 0.0), (148.0, 40.0), (2.0, 40.0)];
    let order = order_of(&plate(&corners, &[(2, flange(), 90.0), (3, flange(), 90.0)]));
    let step = &order.steps[1];
    assert!(!step.turned_round && order.turn_rounds == 0);
    assert!((step.turned_by_rad.to_degrees() - 2.0).abs() < 0.01, "{}", step.turned_by_rad.to_degrees());
}

/// Two flanges on an edge with a kink of twenty degrees: the line of the first, run on past its end, comes into the other,
/// which still lies flat. A long punch and die would crease it there; the place is looked for again along the outline.
#[test]
fn punch_and_die_end_before_flat_metal_on_the_line_run_on() {
    let rise = 150.0 * geometry::trig::tan(10.0_f64.to_radians());
    let corners = [(0.0, 0.0), (300.0, 0.0), (300.0, 200.0), (150.0, 200.0 + rise), (0.0, 200.0)];
    let flange = || vec![(2.0, 0.0), (148.0, 0.0), (148.0, 40.0), (2.0, 40.0)];
    let flat = plate(&corners, &[(2, flange(), 90.0), (3, flange(), 90.0)]);
    let step = &order_of(&flat).steps[0];
    let bend = &flat.bends[step.bends[0]];
    let other = flat.bends[1 - step.bends[0]].child;
    let along = (bend.to - bend.from).unit();
    let metal = |p: Point| flat.faces.iter().any(|face| geometry::polygon::contains(&face.corners, p));
    let zones = |p: Point| flat.zones.iter().any(|zone| geometry::polygon::contains(zone, p));
    let first = |from: Point, way: f64| {
        (1..4000).map(|n| 0.05 * f64::from(n)).find(|&far| {
            let p = from + along * (way * far);
            metal(p) || zones(p)
        })
    };
    let looked_for = [first(bend.from, -1.0), first(bend.to, 1.0)];
    assert_eq!(looked_for.iter().flatten().count(), 1, "{looked_for:?}");
    let tools = step.tooling.as_ref().unwrap();
    for (far, at) in looked_for.iter().enumerate().map(|(at, far)| (*far, at)) {
        for ends in [tools.punch, tools.die] {
            let told = ends.ends[at];
            assert_eq!(told.map(|end| (end.face, end.flat)), far.map(|_| (other, true)));
            let past = told.map(|end| end.past.millimetres());
            let off = past.zip(far).map_or(0.0, |(past, far)| (past - far).abs());
            assert!(off < 0.1, "{past:?} for {far:?}");
            assert_eq!(ends.room, None);
        }
    }
    let alone = profile(&[40.0, 200.0], &[(90.0, UP)], 500.0);
    let tools = order_of(&alone).steps[0].tooling.clone().unwrap();
    assert_eq!((tools.punch.ends, tools.die.ends), ([None; 2], [None; 2]));
}

/// A plate of 400 by 200, its far edge of two stretches of 128 with something between them, in notches of its own.
fn notched(middle: &[(f64, f64); 4]) -> Vec<(f64, f64)> {
    let right = [(0.0, 0.0), (400.0, 0.0), (400.0, 200.0), (272.0, 200.0), (272.0, 190.0)];
    let left = [(128.0, 190.0), (128.0, 200.0), (0.0, 200.0)];
    right.into_iter().chain(*middle).chain(left).collect()
}

/// A flange of 40 on one of its stretches.
fn short_flange() -> Vec<(f64, f64)> {
    vec![(2.0, 0.0), (126.0, 0.0), (126.0, 40.0), (2.0, 40.0)]
}

/// Two flanges on one line, and flat metal between them that reaches across it: one punch over both would crease that.
#[test]
fn bends_of_one_line_with_flat_metal_between_are_made_one_by_one() {
    let between = |out_mm: f64| {
        let middle = [(260.0, 190.0), (260.0, out_mm), (140.0, out_mm), (140.0, 190.0)];
        order_of(&plate(&notched(&middle), &[(2, short_flange(), 90.0), (10, short_flange(), 90.0)]))
    };
    let across = between(240.0);
    assert_eq!(across.steps.len(), 2, "the plate lies across the line");
    for step in &across.steps {
        let tools = step.tooling.as_ref().unwrap();
        let ends = tools.punch.ends.iter().chain(&tools.die.ends).flatten();
        let told: Vec<_> = ends.map(|end| (end.face, end.flat)).collect();
        assert!(told.contains(&(0, true)), "each ends before the plate: {told:?}");
    }
    assert_eq!(between(180.0).steps.len(), 1, "an open notch: one punch over both");
}

/// A flange of another turn on the line between two that are alike still lies flat: it would be bent with them.
#[test]
fn a_flange_of_another_turn_between_two_is_not_bent_with_them() {
    let middle = [(264.0, 190.0), (264.0, 200.0), (136.0, 200.0), (136.0, 190.0)];
    let turns = [(2, 90.0), (6, 45.0), (10, 90.0)];
    let order = order_of(&plate(&notched(&middle), &turns.map(|(edge, turn)| (edge, short_flange(), turn))));
    let at = |bend: usize| order.steps.iter().position(|step| step.bends.contains(&bend)).unwrap();
    assert!(at(0) != at(2) || at(1) < at(0), "{} {} {}", at(0), at(1), at(2));
    let first = &order.steps[0];
    let tools = first.tooling.as_ref().unwrap();
    let flat = tools.punch.ends.iter().flatten().filter(|end| end.flat).count();
    assert!(0 < flat, "its punch ends before the others, which lie flat on its line: {tools:?}");
}
