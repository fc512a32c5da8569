//! Nesting on a roll: quality floors on open sets, repeatability, refusals.

#![expect(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use std::sync::atomic::AtomicBool;

use geo::{Area, BoundingRect, Coord, Polygon};
use geo_clipper::Clipper;
use geometry::grid::{GridOutline, GridPoint, Turn};
use geometry::trig;
use nest::{Effort, Mirror, Part, RollError, RollNest, RollWatch, Rules, Turns, nest_on_roll};
use serde_json::Value;

/// Steps in a unit of the data: as fine as the grid allows for a roll twenty times as long as wide.
fn steps_in_unit(data: &Value) -> f64 {
    let far = 20.0 * data["strip_width"].as_f64().unwrap();
    [100_000.0, 10_000.0, 1_000.0, 100.0].into_iter().find(|steps| steps * far < 2e8).unwrap()
}

fn strip(text: &str) -> (Vec<Part>, i64, f64) {
    let data: Value = serde_json::from_str(text).unwrap();
    let in_unit = steps_in_unit(&data);
    let steps = |value: &Value| format!("{:.0}", value.as_f64().unwrap() * in_unit).parse::<i64>().unwrap();
    let part = |part: &Value| {
        let corners = part["outline"].as_array().unwrap();
        let ring =
            corners.iter().map(|corner| GridPoint::new(steps(&corner[0]), steps(&corner[1]))).collect();
        let turns = part["turns_deg"].as_array().unwrap().iter();
        let turn = |degrees: &Value| {
            Turn::from_millidegrees(format!("{:.0}", 1000.0 * degrees.as_f64().unwrap()).parse().unwrap())
        };
        Part {
            mark: String::new(),
            outline: GridOutline::new(ring, Vec::new()).unwrap(),
            quantity: u32::try_from(part["count"].as_u64().unwrap()).unwrap(),
            turns: Turns::Listed(turns.map(turn).collect()),
            mirror: Mirror::Never,
        }
    };
    let parts = data["parts"].as_array().unwrap().iter().map(part).collect();
    (parts, steps(&data["strip_width"]), data["total_area"].as_f64().unwrap() * in_unit * in_unit)
}

fn nested(
    parts: &[Part],
    width: i64,
    gap: i64,
    evaluations: u64,
    starts: u32,
) -> Result<RollNest, RollError> {
    let (compact_now, stop) = (AtomicBool::new(false), AtomicBool::new(false));
    let watch = RollWatch { progress: &|_| {}, compact_now: &compact_now, stop: &stop };
    let rules = Rules { gap, edge_trim: 0, least_drop: 0 };
    nest_on_roll(parts, width, rules, &Effort { evaluations, starts, seed: 1 }, &watch)
}

/// Open strips with the mean density of 50 runs of 1200 s on 16 cores (Gardeyn, Vanden Berghe, Wauters 2025, DOI
/// 10.48550/arXiv.2509.13329), per cent.
const STRIPS: [(&str, f64); 9] = [
    (include_str!("../../../../fixtures/packing/albano.json"), 89.46),
    (include_str!("../../../../fixtures/packing/blaz1.json"), 84.69),
    (include_str!("../../../../fixtures/packing/dagli.json"), 89.24),
    (include_str!("../../../../fixtures/packing/fu.json"), 92.25),
    (include_str!("../../../../fixtures/packing/jakobs1.json"), 89.09),
    (include_str!("../../../../fixtures/packing/mao.json"), 86.11),
    (include_str!("../../../../fixtures/packing/shapes0.json"), 68.60),
    (include_str!("../../../../fixtures/packing/shapes1.json"), 75.76),
    (include_str!("../../../../fixtures/packing/swim.json"), 78.33),
];

/// What a search of three million evaluations, a second or so, must reach of the published mean, per cent.
const QUICKLY_REACHED: f64 = 92.5;

#[test]
fn a_quick_search_comes_near_the_published_means() {
    for (text, published) in STRIPS {
        let (parts, width, area) = strip(text);
        let nest = nested(&parts, width, 0, 3_000_000, 2).unwrap();
        let number = |steps: i64| f64::from(i32::try_from(steps).unwrap());
        let density = 100.0 * area / (number(width) * number(nest.used_length));
        let share = 100.0 * density / published;
        assert!(QUICKLY_REACHED < share && density < 100.0, "{share} % of {published}: {}", &text[..20]);
        assert_apart_as_placed(text, &nest, steps_in_unit(&serde_json::from_str(text).unwrap()));
    }
}

/// The outlines of the file, turned about (0, 0) and shifted as a file of placements tells them, neither overlap nor leave the strip
/// by a second polygon library, in doubles. They were rounded to whole steps for the nest: that is the play.
fn assert_apart_as_placed(text: &str, nest: &RollNest, in_unit: f64) {
    let data: Value = serde_json::from_str(text).unwrap();
    let number = |value: &Value| value.as_f64().unwrap();
    let units = |steps: i64| f64::from(i32::try_from(steps).unwrap()) / in_unit;
    let lies = |placed: &nest::Placement| {
        let turn = f64::from(placed.pose.turn.millidegrees()).to_radians() / 1000.0;
        let (s, c) = (trig::sin(turn), trig::cos(turn));
        let corner = |corner: &Value| {
            let (x, y) = (number(&corner[0]), number(&corner[1]));
            let (right, up) = (units(placed.shift.x), units(placed.shift.y));
            Coord { x: c * x - s * y + right, y: s * x + c * y + up }
        };
        let outline = data["parts"][placed.part]["outline"].as_array().unwrap();
        Polygon::new(outline.iter().map(corner).collect(), Vec::new())
    };
    let pieces: Vec<Polygon<f64>> = nest.placements.iter().map(lies).collect();
    let (play, length, width) = (1.0 / in_unit, units(nest.used_length), number(&data["strip_width"]));
    for (number, piece) in pieces.iter().enumerate() {
        let own = piece.bounding_rect().unwrap();
        assert!(-play <= own.min().x && -play <= own.min().y, "{number} leaves the strip");
        assert!(own.max().x <= length + play && own.max().y <= width + play, "{number} leaves the strip");
        let around: f64 = piece.exterior().lines().map(|side| trig::hypot(side.dx(), side.dy())).sum();
        for (other, second) in pieces[..number].iter().enumerate() {
            let its = second.bounding_rect().unwrap();
            let near = |low: [f64; 2], high: [f64; 2]| low[0] < high[1] && low[1] < high[0];
            if near([own.min().x, its.min().x], [own.max().x, its.max().x])
                && near([own.min().y, its.min().y], [own.max().y, its.max().y])
            {
                let area = piece.intersection(second, in_unit).unsigned_area();
                assert!(area <= 2.0 * play * around, "{other} and {number} share {area}");
            }
        }
    }
    let wanted: u64 =
        data["parts"].as_array().unwrap().iter().map(|part| part["count"].as_u64().unwrap()).sum();
    assert_eq!(pieces.len() as u64, wanted);
}

#[test]
fn one_thread_and_eight_give_the_same_roll() {
    let (parts, width, _) = strip(include_str!("../../../../fixtures/packing/blaz1.json"));
    let on = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        pool.install(|| nested(&parts, width, 20_000, 300_000, 3)).unwrap()
    };
    assert_eq!(on(1), on(8));
}

#[test]
fn a_part_wider_than_the_roll_is_named() {
    let outline = GridOutline::rectangle(500, 300).unwrap();
    let part = Part { mark: "W".into(), outline, quantity: 1, turns: Turns::Half, mirror: Mirror::Never };
    let Err(RollError::TooWide(misfits)) = nested(&[part], 299, 0, 10, 1) else {
        unreachable!("a part wider than the roll was nested")
    };
    assert_eq!(misfits[0].mark, "W");
}

#[test]
fn equal_rectangles_fill_the_roll_as_far_as_they_can() {
    let outline = GridOutline::rectangle(20_000, 10_000).unwrap();
    let part = Part { mark: "R".into(), outline, quantity: 6, turns: Turns::Half, mirror: Mirror::Never };
    // Three abreast with the gap of 500 between them need 31,000; two rows of three and one gap are 40,500 long.
    let nest = nested(&[part], 31_000, 500, 20_000, 1).unwrap();
    assert_eq!(nest.used_length, 40_500);
}

/// One piece never overlaps anything, so a search that counts only places looked at would never end.
#[test]
fn one_piece_on_a_roll_ends() {
    let outline = GridOutline::rectangle(700, 300).unwrap();
    let parts = vec![Part {
        mark: String::new(),
        outline,
        quantity: 1,
        turns: Turns::Quarter,
        mirror: Mirror::Never,
    }];
    let (compact_now, stop) = (AtomicBool::new(false), AtomicBool::new(false));
    let watch = RollWatch { progress: &|_| {}, compact_now: &compact_now, stop: &stop };
    let effort = Effort { evaluations: 1_000, starts: 2, seed: 1 };
    let rules = Rules { gap: 0, edge_trim: 0, least_drop: 0 };
    let nest = nest_on_roll(&parts, 800, rules, &effort, &watch).unwrap();
    assert_eq!(nest.used_length, 300, "lying across the roll");
}
