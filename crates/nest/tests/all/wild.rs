//! Wild input: the public functions answer with an error or a nest, never with a panic.

use std::sync::atomic::AtomicBool;

use geometry::grid::{GRID_LIMIT, GridOutline, GridPoint, Turn};
use nest::bar;
use nest::covering::{self, Cloth, InPattern, Patch};
use nest::rect::{self, Cutting, Shear};
use nest::{
    Effort, Mirror, Nest, Part, Placement, Pose, Problem, RollWatch, Rules, Sheet, Stock, StockShape,
    Together, Turns, Watch, compare_watched, nest_on_roll, shear, verify,
};
use proptest::prelude::*;

const EFFORT: Effort = Effort { evaluations: 40, starts: 2, seed: 1 };

/// Mostly sizes that may be nested, now and then nothing, less than nothing, or more than the grid holds.
fn length() -> impl Strategy<Value = i64> {
    prop_oneof![
        60 => 1_i64..2_000,
        1 => -50_i64..=0,
        1 => (GRID_LIMIT / 8)..GRID_LIMIT,
        1 => Just(i64::MAX / 8),
    ]
}

fn quantity() -> impl Strategy<Value = u32> {
    prop_oneof![60 => 1_u32..6, 1 => Just(0), 1 => Just(1_000_000_000), 1 => Just(u32::MAX)]
}

fn turns() -> impl Strategy<Value = Turns> {
    let turn = (0_u32..720_000).prop_map(Turn::from_millidegrees);
    prop_oneof![
        Just(Turns::Half),
        Just(Turns::Quarter),
        Just(Turns::Any),
        prop::collection::vec(turn, 0..3).prop_map(Turns::Listed),
    ]
}

/// Any ring at all; most cross themselves and are refused.
fn ring() -> impl Strategy<Value = Vec<GridPoint>> {
    prop::collection::vec((length(), length()).prop_map(|(x, y)| GridPoint::new(x, y)), 0..7)
}

fn outline() -> impl Strategy<Value = Option<GridOutline>> {
    let any = (ring(), prop::collection::vec(ring(), 0..2))
        .prop_map(|(outer, holes)| GridOutline::new(outer, holes).ok());
    let plain = (length(), length()).prop_map(|(x, y)| GridOutline::rectangle(x, y).ok());
    prop_oneof![1 => any, 4 => plain]
}

fn part() -> impl Strategy<Value = Option<Part>> {
    let mirror = prop_oneof![Just(Mirror::Never), Just(Mirror::Allowed)];
    (outline(), quantity(), turns(), mirror).prop_map(|(outline, quantity, turns, mirror)| {
        Some(Part { mark: String::from("P"), outline: outline?, quantity, turns, mirror })
    })
}

fn stock() -> impl Strategy<Value = Option<Stock>> {
    let shape = prop_oneof![
        (length(), length()).prop_map(|(length, width)| Some(StockShape::Rectangle { length, width })),
        outline().prop_map(|outline| outline.map(StockShape::Offcut)),
        (outline(), prop::collection::vec(outline(), 0..3)).prop_map(|(outline, zones)| {
            Some(StockShape::Torn { outline: outline?, zones: zones.into_iter().flatten().collect() })
        }),
    ];
    (shape, prop::option::of(any::<u64>()), prop::option::of(0_u32..4)).prop_map(|(shape, price, limit)| {
        Some(Stock { name: String::from("S"), shape: shape?, price, limit })
    })
}

fn rules() -> impl Strategy<Value = Rules> {
    let small = || prop_oneof![40 => 0_i64..30, 1 => length()];
    (small(), small(), small()).prop_map(|(gap, edge_trim, least_drop)| Rules { gap, edge_trim, least_drop })
}

fn problem() -> impl Strategy<Value = Option<Problem>> {
    let parts = prop::collection::vec(part(), 0..5);
    let stock = prop::collection::vec(stock(), 0..3);
    let groups = prop::collection::vec((prop::collection::vec(0_usize..6, 0..3), any::<bool>()), 0..2);
    let shared = prop::option::of(prop_oneof![20 => 0_i64..30, 1 => any::<i64>()]);
    (parts, stock, rules(), groups, shared).prop_map(|(parts, stock, rules, groups, shared)| {
        let (parts, stock) = (parts.into_iter().flatten().collect(), stock.into_iter().flatten().collect());
        let groups = groups.into_iter().map(|(parts, same_lay)| Together { parts, same_lay }).collect();
        let problem = Problem::new(parts, stock, rules).ok()?.keeping(groups).ok()?;
        Some(shared.map_or(problem.clone(), |kerf| problem.sharing_cuts(kerf)))
    })
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(400) })]

    #[test]
    fn sheets(problem in problem(), stopped: bool) {
        let Some(problem) = problem else { return Ok(()) };
        let stop = AtomicBool::new(stopped);
        let watch = Watch { progress: &|_| {}, stop: &stop };
        if let Ok(found) = compare_watched(&problem, &EFFORT, &watch) {
            for row in found.rows.iter().filter_map(|row| row.outcome.as_ref().ok()) {
                prop_assert_eq!(verify(&problem, &row.nest), Ok(()));
            }
        }
        let _ = shear::compare(&problem, Shear::default(), &EFFORT, &watch);
    }

    #[test]
    fn judging(problem in problem(), placed in prop::collection::vec((0_usize..9, 0_usize..6, any::<u32>(), any::<bool>(), any::<i64>(), length()), 0..5)) {
        let Some(problem) = problem else { return Ok(()) };
        let sheet = |(stock, part, turn, over, x, y)| {
            let pose = Pose { over, turn: Turn::from_millidegrees(turn) };
            let placement = Placement { part, pose, shift: GridPoint::new(x, y) };
            Sheet { stock, placements: vec![placement] }
        };
        let _ = verify(&problem, &Nest { sheets: placed.into_iter().map(sheet).collect() });
    }

    #[test]
    fn rolls(parts in prop::collection::vec(part(), 0..4), width in length(), rules in rules()) {
        let parts: Vec<Part> = parts.into_iter().flatten().collect();
        let (compact_now, stop) = (AtomicBool::new(false), AtomicBool::new(false));
        let watch = RollWatch { progress: &|_| {}, compact_now: &compact_now, stop: &stop };
        let _ = nest_on_roll(&parts, width, rules, &EFFORT, &watch);
    }

    #[test]
    fn roll_goods(
        patches in prop::collection::vec((length(), length(), any::<bool>(), prop::option::of((0_usize..3, length()))), 0..6),
        width in length(),
        others in (prop::option::of(length()), prop::option::of(length()), prop::option::of(length())),
        squaring in prop_oneof![Just(0), length()],
    ) {
        let patch = |(length, width, may_turn, pattern): (i64, i64, bool, Option<(usize, i64)>)| {
            let pattern = pattern.map(|(piece, begins)| InPattern { piece, begins });
            Patch { mark: String::from("C"), length, width, may_turn, pattern }
        };
        let patches: Vec<Patch> = patches.into_iter().map(patch).collect();
        let (longest, repeat, repeat_across) = others;
        let cloth = Cloth { width, longest, repeat, repeat_across, squaring };
        if let Ok(laid) = covering::lay(&cloth, &patches, &EFFORT) {
            prop_assert_eq!(covering::verify(&cloth, &patches, &laid), Ok(()));
            prop_assert!(laid.least <= laid.length());
        }
    }

    #[test]
    fn blanks(pieces in prop::collection::vec((length(), length(), quantity(), any::<bool>()), 0..5), sheet in (length(), length()), gap in length(), sheared: bool) {
        let piece = |(length, width, quantity, may_turn)| rect::Piece { mark: String::from("B"), length, width, quantity, may_turn };
        let cutting = if sheared { Cutting::Shear(Shear::default()) } else { Cutting::Free };
        let Ok(problem) = rect::Problem::new(pieces.into_iter().map(piece).collect(), sheet, gap, cutting) else { return Ok(()) };
        let stop = AtomicBool::new(false);
        let _ = rect::pack(&problem, &EFFORT, rect::Watch { stop: &stop });
    }

    #[test]
    fn bars(pieces in prop::collection::vec((length(), quantity()), 0..5), sticks in prop::collection::vec((length(), any::<i32>(), prop::option::of(0_usize..3)), 0..3), kerf in length(), trim in length()) {
        let piece = |(length, quantity)| bar::Piece { mark: String::from("B"), length, quantity: quantity as usize };
        let stick = |(length, price, limit)| bar::Stick { name: String::from("S"), length, price: i64::from(price), limit };
        let saw = bar::Saw { kerf, end_trim: trim, least_drop: 0 };
        let Ok(problem) = bar::Problem::new(pieces.into_iter().map(piece).collect(), sticks.into_iter().map(stick).collect(), saw) else { return Ok(()) };
        let _ = bar::solve(&problem, &bar::Effort { exchanges: 2_000, nodes: 20, ..bar::Effort::default() });
    }
}
