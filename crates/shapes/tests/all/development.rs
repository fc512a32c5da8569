//! A second, independent check of development: straight lines on the flat are as long as the shortest ways over the
//! folded neutral surface.
//!
//! The surface is built from the two folded faces alone: the cylinder of the neutral radius that touches both planes,
//! cut into flat strips. The shortest way over the strips is found by moving the places where it crosses the rulings,
//! one after another, until its length settles. Neither unfolding nor refolding does any of this.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use fold::flat::BendLine;
use fold::{Direction, FlatPattern, flat, refold};
use geometry::{Frame, Point, Point3, Vector3, trig};
use proptest::prelude::*;
use shapes::tapered_lid::TaperedLid;
use shapes::{Figure, Making};
use units::Length;

/// Flat strips that stand in for the cylinder of a bend.
const STRIPS: u32 = 48;

/// How much shorter a way over the strips may be than over the cylinder: a chord of angle a is short by a²/24 of its
/// arc, here a quarter turn in 48 strips over at most some 10 mm of arc, and the search stops within a micrometre.
const SHORT_MM: f64 = 0.002;

/// One ruling of the strips: where it starts and its direction.
type Ruling = (Point3, Vector3);

/// Rulings of the cylinder that touches the neutral planes of both faces, from the parent's to the child's.
fn rulings(flat: &FlatPattern, bend: &BendLine, frames: &[Frame]) -> (Vec<Ruling>, f64) {
    let radius = bend.zone_mm / bend.turn_rad;
    // The neutral line lies so far from the face on the inner side of the bend.
    let depth = radius - bend.inside_radius_mm;
    let (z, toward) = match bend.direction {
        Direction::Up => (flat.thickness_mm - depth, 1.0),
        Direction::Down => (depth, -1.0),
    };
    let (parent, child) = (&frames[bend.parent], &frames[bend.child]);
    let (first, second) = (parent.z * toward, child.z * toward);
    let axis = first.cross(second).unit();
    // The axis lies one radius inside both planes.
    let base = Frame { origin: Point3::default(), x: first, y: axis.cross(first), z: axis };
    let offset = |frame: &Frame, normal: Vector3| {
        normal.dot(frame.place(Point::default(), z) - Point3::default()) + radius
    };
    let (c, s) = (second.dot(base.x), second.dot(base.y));
    let along_x = offset(parent, first);
    let along_y = (offset(child, second) - along_x * c) / s;
    let centre = Point3::default() + base.x * along_x + base.y * along_y;
    let turn = trig::atan2(s, c);
    let ruling = |strip: u32| {
        let angle = turn * f64::from(strip) / f64::from(STRIPS);
        let out = base.x * -trig::cos(angle) + base.y * -trig::sin(angle);
        (centre + out * radius, axis)
    };
    ((0..=STRIPS).map(ruling).collect(), z)
}

/// Length of the shortest way from `start` over all rulings to `end`.
fn shortest_mm(start: Point3, rulings: &[Ruling], end: Point3) -> f64 {
    // Each ruling is crossed where the way, unrolled between its neighbours, runs straight: at the place between both
    // feet that divides by the distances to the ruling.
    let foot = |(origin, axis): &Ruling, point: Point3| {
        let along = axis.dot(point - *origin);
        (along, point.distance(*origin + *axis * along))
    };
    let place = |(origin, axis): &Ruling, along: f64| *origin + *axis * along;
    // A first way straight from foot to foot, by the share of the ruling's place in the row.
    let (from, to) = (foot(&rulings[0], start), foot(&rulings[rulings.len() - 1], end));
    let arc: f64 = rulings.windows(2).map(|pair| pair[0].0.distance(pair[1].0)).sum();
    let whole = from.1 + arc + to.1;
    let mut so_far = from.1;
    let mut alongs = Vec::new();
    for number in 0..rulings.len() {
        if number > 0 {
            so_far += rulings[number - 1].0.distance(rulings[number].0);
        }
        alongs.push(from.0 + (to.0 - from.0) * so_far / whole);
    }
    for _ in 0..200 {
        for number in 0..rulings.len() {
            let before = if number == 0 { start } else { place(&rulings[number - 1], alongs[number - 1]) };
            let after = if number + 1 == rulings.len() {
                end
            } else {
                place(&rulings[number + 1], alongs[number + 1])
            };
            let (near, far) = (foot(&rulings[number], before), foot(&rulings[number], after));
            alongs[number] = near.0 + (far.0 - near.0) * near.1 / (near.1 + far.1);
        }
    }
    let crossings = rulings.iter().zip(&alongs).map(|(ruling, &along)| place(ruling, along));
    let way: Vec<Point3> = std::iter::once(start).chain(crossings).chain(std::iter::once(end)).collect();
    way.windows(2).map(|pair| pair[0].distance(pair[1])).sum()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn straight_lines_on_the_flat_are_shortest_ways_on_the_part(
        off in prop::collection::vec(-50.0_f64..50.0, 8),
        inset in prop::collection::vec(16_i64..80, 4),
        rise in 16_i64..60,
    ) {
        let corners = [(0.0, 0.0), (900.0, 0.0), (900.0, 700.0), (0.0, 700.0)];
        let moved = corners.iter().zip(off.chunks(2)).map(|((x, y), off)| Point::new(x + off[0], y + off[1]));
        let sixteenths = |count: i64| Length::from_sixty_fourths(4 * count);
        let lid = TaperedLid {
            over: Figure::lettered(&moved.collect::<Vec<_>>()).unwrap(),
            outset: Length::ZERO,
            rise: sixteenths(rise),
            inset: inset.into_iter().map(sixteenths).collect(),
            skirt: sixteenths(24),
            return_width: None,
        };
        let making: Making = crate::common::making(".125", ".125", 0.42);
        let Ok(shaped) = lid.shape(&making) else { return Ok(()) };
        let Ok(flat) = flat::unfold(&shaped.part) else { return Ok(()) };
        let frames = refold::fold(&flat);
        for bend in &flat.bends {
            let (rulings, z) = rulings(&flat, bend, &frames);
            // From the middle of the parent to the corners of the child, which lie beyond the whole bend line's length.
            let start = bend.from.toward(bend.to, 0.4) - bend.across() * 20.0;
            for share in [0.3, 0.5, 0.7] {
                let end = bend.from.toward(bend.to, share) + bend.across() * 15.0;
                let (a, b) = (frames[bend.parent].place(start, z), frames[bend.child].place(end, z));
                let (straight, way) = (start.distance(end), shortest_mm(a, &rulings, b));
                prop_assert!((straight - way).abs() <= SHORT_MM, "{straight} {way}");
            }
        }
    }
}
