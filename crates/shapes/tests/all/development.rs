//! A second, independent check of development: straight lines on the flat are as long as the shortest ways over the
//! folded neutral surface.
//!
//! The surface is built from the two folded faces alone: the cylinder of the neutral radius that touches both planes,
//! cut into flat strips. The shortest way over the strips is found by moving the places where it crosses the rulings
//! until its length settles. Neither unfolding nor refolding does any of this. Ways over one bend and over two, up, down and
//! reversed, parallel and not; parts that are refused are counted and bounded.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use fold::flat::BendLine;
use fold::{Direction, FlatPattern, flat, refold};
use geometry::{Frame, Point, Point3, Vector3, trig};
use proptest::prelude::*;
use shapes::cone::Cone;
use shapes::hopper::{Hopper, HopperMade, HopperStands, RimEdge};
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::tapered_lid::TaperedLid;
use shapes::wrap::{DiameterTo, WrapMaking, WrapSeam};
use shapes::{Figure, Making, Recipe};
use units::{Angle, Length};

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

/// Newton's step of how far along each ruling the way crosses, by elimination along the three diagonals.
fn newton_step(rulings: &[Ruling], points: &[Point3]) -> Vec<f64> {
    let count = rulings.len();
    let (mut slope, mut own, mut next) = (vec![0.0; count], vec![0.0; count], vec![0.0; count]);
    for piece in 0..=count {
        let step = points[piece + 1] - points[piece];
        let (long, unit) = (step.length(), step.unit());
        let leaves =
            piece.checked_sub(1).map(|ruling| (ruling, rulings[ruling].1, unit.dot(rulings[ruling].1)));
        let arrives = (piece < count).then(|| (piece, rulings[piece].1, unit.dot(rulings[piece].1)));
        if let Some((ruling, _, along)) = leaves {
            slope[ruling] -= along;
            own[ruling] += (1.0 - along * along) / long;
        }
        if let Some((ruling, _, along)) = arrives {
            slope[ruling] += along;
            own[ruling] += (1.0 - along * along) / long;
        }
        if let (Some((ruling, axis, along)), Some((_, other, ahead))) = (leaves, arrives) {
            next[ruling] = -(axis.dot(other) - along * ahead) / long;
        }
    }
    for number in 1..count {
        let share = next[number - 1] / own[number - 1];
        own[number] -= share * next[number - 1];
        slope[number] -= share * slope[number - 1];
    }
    let mut step = vec![0.0; count];
    for number in (0..count).rev() {
        let behind = if number + 1 < count { next[number] * step[number + 1] } else { 0.0 };
        step[number] = (slope[number] - behind) / own[number];
    }
    step
}

/// Length of the shortest way from `start` over all rulings to `end`: the sum of its straight pieces, least over how far
/// along each ruling it crosses. The sum is convex, and its second derivatives lie on three diagonals.
fn shortest_mm(start: Point3, rulings: &[Ruling], end: Point3) -> f64 {
    let count = rulings.len();
    let way = |alongs: &[f64]| -> Vec<Point3> {
        let crossings = rulings.iter().zip(alongs).map(|((origin, axis), &along)| *origin + *axis * along);
        std::iter::once(start).chain(crossings).chain(std::iter::once(end)).collect()
    };
    let length =
        |alongs: &[f64]| -> f64 { way(alongs).windows(2).map(|pair| pair[0].distance(pair[1])).sum() };
    // A first way from foot to foot of the straight line between both ends.
    let mut alongs: Vec<f64> = (0..count)
        .map(|number| {
            let share = (f64::from(u32::try_from(number).unwrap()) + 1.0)
                / (f64::from(u32::try_from(count).unwrap()) + 1.0);
            let (origin, axis) = rulings[number];
            axis.dot(start + (end - start) * share - origin)
        })
        .collect();
    for _ in 0..200 {
        let step = newton_step(rulings, &way(&alongs));
        let before = length(&alongs);
        let mut share = 1.0;
        let mut better = None;
        while better.is_none() && share > 1e-6 {
            let moved: Vec<f64> =
                alongs.iter().zip(&step).map(|(along, step)| along - share * step).collect();
            better = (length(&moved) < before).then_some(moved);
            share *= 0.5;
        }
        match better {
            Some(moved) => alongs = moved,
            None => break,
        }
    }
    length(&alongs)
}

/// A bend on the way, and whether it is crossed from its parent to its child.
type Crossed = (usize, bool);

/// How far beyond its bend a way starts and ends, mm: clear of every zone here.
const BEYOND_MM: f64 = 20.0;

/// The shortest way over bends that follow on one another beside the straight line on the flat, mm; `None` where that line
/// does not cross their zones one after the other.
///
/// Bends that turn in opposite ways have their neutral lines at different depths in the plate between them: what comes
/// behind is then moved along that plate's normal, which changes no length on it.
fn both_mm(
    flat: &FlatPattern,
    frames: &[Frame],
    crossed: &[Crossed],
    shares: (f64, f64),
) -> Option<(f64, f64)> {
    let bend = |&(number, _): &Crossed| &flat.bends[number];
    let away = |&(number, outward): &Crossed| flat.bends[number].across() * if outward { 1.0 } else { -1.0 };
    let (first, last) = (crossed.first()?, crossed.last()?);
    let start = bend(first).from.toward(bend(first).to, shares.0) - away(first) * BEYOND_MM;
    let end = bend(last).from.toward(bend(last).to, shares.1) + away(last) * BEYOND_MM;
    // Where the line enters and leaves each zone, as shares of its length.
    let mut so_far = 0.0;
    for crossing in crossed {
        for side in [-0.5, 0.5] {
            let line = bend(crossing).from + away(crossing) * (side * bend(crossing).zone_mm);
            let (from_start, from_end) = (away(crossing).dot(start - line), away(crossing).dot(end - line));
            let share = from_start / (from_start - from_end);
            if from_start >= 0.0 || from_end <= 0.0 || share < so_far {
                return None;
            }
            so_far = share;
        }
    }
    let mut shift = Vector3::default();
    let (mut depth, mut way, mut at_start) = (None, Vec::new(), Point3::default());
    for crossing in crossed {
        let (mut own, z) = rulings(flat, bend(crossing), frames);
        let (near, _) = ends(bend(crossing), crossing.1);
        if !crossing.1 {
            own.reverse();
        }
        match depth {
            None => at_start = frames[near].place(start, z),
            Some(before) => shift = shift + frames[near].z * (before - z),
        }
        depth = Some(z);
        way.extend(own.into_iter().map(|(origin, axis)| (origin + shift, axis)));
    }
    let (_, far) = ends(bend(last), last.1);
    let at_end = frames[far].place(end, depth?) + shift;
    Some((start.distance(end), shortest_mm(at_start, &way, at_end)))
}

/// The faces before and behind a bend that is crossed outward or back.
fn ends(bend: &BendLine, outward: bool) -> (usize, usize) {
    if outward { (bend.parent, bend.child) } else { (bend.child, bend.parent) }
}

/// What was measured.
#[derive(Debug, Default, Clone, Copy)]
struct Measured {
    /// Ways over one bend up.
    up: u32,
    /// Ways over one bend down.
    down: u32,
    /// Ways over two bends that turn the same way.
    alike: u32,
    /// Ways over two bends that turn in opposite ways.
    reversed: u32,
    /// Pairs of bends that no straight line crosses one after the other.
    not_crossed: u32,
}

/// Every bend, and every two bends that share a face, measured both ways.
fn measure(flat: &FlatPattern) -> Result<Measured, TestCaseError> {
    let frames = refold::fold(flat);
    let mut measured = Measured::default();
    let agree = |(straight, way): (f64, f64), over: &[Crossed]| {
        let short = SHORT_MM * f64::from(u32::try_from(over.len()).unwrap());
        let ok = (straight - way).abs() <= short;
        if ok { Ok(()) } else { Err(TestCaseError::fail(format!("{over:?}: {straight} {way}"))) }
    };
    for (number, bend) in flat.bends.iter().enumerate() {
        for share in [0.3, 0.5, 0.7] {
            let over = [(number, true)];
            let found = both_mm(flat, &frames, &over, (0.4, share));
            agree(found.ok_or_else(|| TestCaseError::fail("one bend is always crossed"))?, &over)?;
            match bend.direction {
                Direction::Up => measured.up += 1,
                Direction::Down => measured.down += 1,
            }
        }
    }
    for a in 0..flat.bends.len() {
        for b in (0..flat.bends.len()).filter(|&b| b != a) {
            for (first, second) in [(true, true), (false, true)] {
                let (one, other) = (&flat.bends[a], &flat.bends[b]);
                if ends(one, first).1 != ends(other, second).0 || (!first && b < a) {
                    continue;
                }
                let over = [(a, first), (b, second)];
                match both_mm(flat, &frames, &over, (0.45, 0.55)) {
                    None => measured.not_crossed += 1,
                    Some(found) => {
                        agree(found, &over)?;
                        let same_side = one.direction == other.direction;
                        *if same_side { &mut measured.alike } else { &mut measured.reversed } += 1;
                    }
                }
            }
        }
    }
    Ok(measured)
}

/// Runs `cases` parts, of which no more are refused than `most_refused`; gives what was measured in all.
fn run<S: Strategy>(
    strategy: &S,
    cases: u32,
    most_refused: u32,
    part: impl Fn(S::Value) -> Option<fold::FoldedPart>,
) -> Measured {
    let config = ProptestConfig {
        cases,
        failure_persistence: None,
        max_global_rejects: most_refused,
        ..ProptestConfig::default()
    };
    let all = std::cell::Cell::new(Measured::default());
    let outcome = proptest::test_runner::TestRunner::new(config).run(strategy, |sizes| {
        let refused = || TestCaseError::reject("no such part");
        let flat = flat::unfold(&part(sizes).ok_or_else(refused)?).map_err(|_| refused())?;
        let (found, before) = (measure(&flat)?, all.get());
        all.set(Measured {
            up: before.up + found.up,
            down: before.down + found.down,
            alike: before.alike + found.alike,
            reversed: before.reversed + found.reversed,
            not_crossed: before.not_crossed + found.not_crossed,
        });
        Ok(())
    });
    outcome.unwrap();
    all.get()
}

fn sixteenths(count: i64) -> Length {
    Length::from_sixty_fourths(4 * count)
}

fn making() -> Making {
    crate::common::making(".125", ".125", 0.42)
}

#[test]
fn straight_lines_on_a_lid_are_shortest_ways() {
    let off = prop::collection::vec(-50.0_f64..50.0, 8);
    let strategy = (off, prop::collection::vec(16_i64..80, 4), 16_i64..60);
    let measured = run(&strategy, 24, 6, |(off, inset, rise)| {
        let corners = [(0.0, 0.0), (900.0, 0.0), (900.0, 700.0), (0.0, 700.0)];
        let moved = corners.iter().zip(off.chunks(2)).map(|((x, y), off)| Point::new(x + off[0], y + off[1]));
        let lid = TaperedLid {
            over: Figure::lettered(&moved.collect::<Vec<_>>()).unwrap(),
            outset: Length::ZERO,
            rise: sixteenths(rise),
            inset: inset.into_iter().map(sixteenths).collect(),
            skirt: sixteenths(24),
            return_width: None,
        };
        Some(lid.shape(&making()).ok()?.part)
    });
    // Four slopes and four skirts; over the top from slope to slope, and from the top over each slope to its skirt.
    assert_eq!((measured.up, measured.down), (0, 24 * 8 * 3));
    assert!(measured.alike >= 24 * 8 && measured.reversed == 0, "{measured:?}");
}

/// Walls go up and their rims down again, so every way from the floor to a rim is over reversed bends.
#[test]
fn straight_lines_on_a_pan_with_its_rim_out_are_shortest_ways() {
    let strategy = (prop::collection::vec(0_i32..30, 4), 32_i64..120, 24_i64..40);
    let measured = run(&strategy, 16, 4, |(lean, height, rim)| {
        let pan = Pan {
            plan: PanPlan::Outside { length: sixteenths(400), width: sixteenths(300) },
            height: sixteenths(height),
            rims: vec![Rim::Out(sixteenths(rim))],
            lean: lean.into_iter().map(|lean| Angle::from_degrees(f64::from(lean))).collect(),
            edge: shapes::edge::EdgeEnd::Plain,
        };
        Some(pan.shape(&making()).ok()?.part)
    });
    assert_eq!((measured.up, measured.down), (16 * 4 * 3, 16 * 4 * 3));
    assert!(measured.reversed >= 16 * 4 && measured.alike >= 16 * 4, "{measured:?}");
}

/// Its faces meet along hips, so two bends that follow on one another are never parallel.
#[test]
fn straight_lines_on_a_hopper_are_shortest_ways() {
    let figure = |x: [f64; 2], y: [f64; 2]| {
        let corners = [(x[0], y[0]), (x[1], y[0]), (x[1], y[1]), (x[0], y[1])];
        Figure::lettered(&corners.map(|(x, y)| Point::new(x * 25.4, y * 25.4))).unwrap()
    };
    let strategy = (0.0_f64..12.0, 0.0_f64..10.0, 128_i64..240);
    let measured = run(&strategy, 16, 8, |(x, y, rise)| {
        let hopper = Hopper {
            stands: HopperStands::RimDown,
            rim: figure([0.0, 30.0], [0.0, 24.0]),
            collar: figure([4.0 + x, 13.0 + x], [4.0 + y, 12.0 + y]),
            rise: sixteenths(rise),
            rim_edge: RimEdge::None,
            collar_height: None,
            made: HopperMade::OnePiece,
            least_slope: None,
        };
        Some(hopper.shape_piece(0, &making()).ok()?.part)
    });
    assert!(measured.up + measured.down >= 16 * 3 * 3 && measured.alike >= 16, "{measured:?}");
}

/// A cone bumped in strikes: every two neighbouring strikes, whose lines run together toward the apex.
#[test]
fn straight_lines_on_a_bumped_cone_are_shortest_ways() {
    let strategy = (160_i64..240, 64_i64..128, 96_i64..200, 8_u32..16);
    let measured = run(&strategy, 16, 8, |(large, small, height, strikes)| {
        let cone = Cone {
            large: sixteenths(large),
            small: sixteenths(small),
            to: DiameterTo::Middle,
            height: sixteenths(height),
            made: WrapMaking { rolled: false, strikes: Some(strikes), seam: WrapSeam::Butt },
        };
        let making = crate::common::making(".063", ".063", 0.42);
        Some(cone.shape_piece(0, &making).ok()?.part)
    });
    assert!(measured.up + measured.down >= 16 * 7 * 3 && measured.alike >= 16 * 6, "{measured:?}");
}
