//! Drops in the cut-outs and bays of parts: found, off the finished edges, and said in the order of cuts.

#![expect(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use geometry::grid::{GridOutline, GridPoint, Turn};
use nest::drop::drops;
use nest::{
    Drop, Mirror, Part, Placement, Pose, Problem, Rules, Sheet, Step, Stock, StockShape, Turns, cutting_order,
};
use proptest::prelude::*;

const RULES: Rules = Rules { gap: 4, edge_trim: 0, least_drop: 20 };

fn ring(corners: &[(i64, i64)]) -> Vec<GridPoint> {
    corners.iter().map(|&(x, y)| GridPoint::new(x, y)).collect()
}

fn part(outline: GridOutline) -> Part {
    Part { mark: "R".into(), outline, quantity: 1, turns: Turns::Half, mirror: Mirror::Never }
}

/// One part as drawn, alone on a sheet.
fn alone(outline: GridOutline, (length, width): (i64, i64), at: (i64, i64)) -> (Problem, Sheet) {
    let stock = Stock {
        name: "sheet".into(),
        shape: StockShape::Rectangle { length, width },
        price: None,
        limit: None,
    };
    let problem = Problem::new(vec![part(outline)], vec![stock], RULES).unwrap();
    let shift = GridPoint::new(at.0, at.1);
    let placed = Placement { part: 0, pose: Pose::turned(Turn::NONE), shift };
    (problem, Sheet { stock: 0, placements: vec![placed] })
}

fn frame(side: i64, rim: i64) -> GridOutline {
    let square = |low: i64, high: i64| ring(&[(low, low), (high, low), (high, high), (low, high)]);
    GridOutline::new(square(0, side), vec![square(rim, side - rim)]).unwrap()
}

const fn rectangle(low: (i64, i64), high: (i64, i64)) -> Drop {
    Drop { low: GridPoint::new(low.0, low.1), high: GridPoint::new(high.0, high.1) }
}

/// Worked by hand: a frame of 100 with a rim of 20 leaves 60 within, 52 off its edges.
#[test]
fn a_drop_lies_in_a_cut_out_and_is_cut_from_what_falls() {
    let (problem, sheet) = alone(frame(100, 20), (100, 100), (0, 0));
    let found = drops(&problem, &sheet);
    assert_eq!(found, [rectangle((24, 24), (76, 76))]);
    let steps = cutting_order(&problem, &sheet, &found, 1);
    assert_eq!(
        steps,
        [Step::CutOuts(0), Step::FromCutOut { drop: 0, piece: 0, whole: true }, Step::Outline(0)]
    );
    // What falls out of it is smaller by the kerf alone, where the saw is known.
    for (kerf, low, high) in [(3, 23, 77), (0, 20, 80)] {
        let sawn = problem.clone().sawn(kerf);
        let found = drops(&sawn, &sheet);
        assert_eq!(found, [rectangle((low, low), (high, high))]);
        let from_it = Step::FromCutOut { drop: 0, piece: 0, whole: true };
        assert_eq!(cutting_order(&sawn, &sheet, &found, kerf)[1], from_it);
    }
    // A hole that leaves 19 is too small, one that leaves 20 is not.
    let rim = |rim| alone(frame(100, rim), (100, 100), (0, 0));
    let count = |(problem, sheet): (Problem, Sheet)| drops(&problem, &sheet).len();
    assert_eq!((count(rim(36)), count(rim(37))), (1, 0));
}

/// A ring with a slit: the bay behind the slit is as large as the hole would be.
#[test]
fn a_drop_lies_in_a_bay_that_its_part_closes() {
    let slit = [
        (0, 0),
        (100, 0),
        (100, 100),
        (52, 100),
        (52, 80),
        (80, 80),
        (80, 20),
        (20, 20),
        (20, 80),
        (48, 80),
        (48, 100),
        (0, 100),
    ];
    let (problem, sheet) = alone(GridOutline::new(ring(&slit), Vec::new()).unwrap(), (100, 100), (0, 0));
    let found = drops(&problem, &sheet);
    assert_eq!(found, [rectangle((24, 24), (76, 76))]);
    assert_eq!(cutting_order(&problem, &sheet, &found, 1), [Step::Outline(0), Step::Drop(0)]);
}

/// A cut-out of six corners, worked by hand: 60 × 60 less a quarter of 30 × 30. Less a kerf of 3 all round, 24 × 54 and 54 × 24 lie
/// in it; what falls is more than that, so the drop is cut from it.
#[test]
fn a_drop_is_cut_from_what_falls_out_of_an_l() {
    let square = ring(&[(0, 0), (100, 0), (100, 100), (0, 100)]);
    let hole = ring(&[(20, 20), (80, 20), (80, 50), (50, 50), (50, 80), (20, 80)]);
    let (problem, sheet) = alone(GridOutline::new(square, vec![hole]).unwrap(), (100, 100), (0, 0));
    let problem = problem.sawn(3);
    let found = drops(&problem, &sheet);
    assert_eq!(found.len(), 2, "{found:?}");
    assert_eq!(found[0].area(), 24 * 54);
    // The other keeps the gap of 4 from it: 54 - 24 - 4 = 26 along, 24 across.
    assert_eq!(found[1].area(), 26 * 24);
    let steps = cutting_order(&problem, &sheet, &found, 3);
    assert!(steps.contains(&Step::FromCutOut { drop: 0, piece: 0, whole: false }), "{steps:?}");
}

/// Above the part lies a strip of 100 × 19, which is not kept, and has more area than the cut-out.
#[test]
fn a_large_sliver_hides_no_drop() {
    let (problem, sheet) = alone(frame(100, 34), (100, 123), (0, 0));
    assert_eq!(drops(&problem, &sheet), [rectangle((38, 38), (62, 62))]);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// No drop is nearer to the metal of the part, or to another drop, than the gap, however the part has bays and holes.
    #[test]
    fn drops_keep_off_the_metal(
        teeth in prop::collection::vec((0_i64..60, 20_i64..50), 3..7),
        hole in (60_i64..100, 5_i64..60, 5_i64..60),
        turn in 0_u32..4,
    ) {
        // A comb whose back has a hole: teeth of any length, gaps of any width.
        let mut corners = vec![(0, 0), (0, -120)];
        let mut x = 0;
        for &(length, width) in &teeth {
            corners.extend([(x, -120), (x, length), (x + width, length + 3), (x + width, -5)]);
            x += 2 * width;
        }
        corners.extend([(x, -5), (x, -120)]);
        let (up, long, high) = hole;
        let outer: Vec<(i64, i64)> = corners[2..].to_vec();
        let hole = [(10, -115), (10 + long, -115), (10 + long, -115 + high.min(up)), (12, -115 + high.min(up) / 2 + 1)];
        let Ok(outline) = GridOutline::new(ring(&outer), vec![ring(&hole)]) else { return Ok(()) };
        let outline = outline.turned(Turn::from_millidegrees(90_000 * turn));
        let (low, high) = outline.bounds();
        let outline = outline.shifted(GridPoint::new(-low.x, -low.y));
        let (problem, sheet) = alone(outline.clone(), (high.x - low.x + 40, high.y - low.y + 3), (0, 0));
        let found = drops(&problem, &sheet);
        let solid = |drop: &Drop| {
            let size = drop.high - drop.low;
            GridOutline::rectangle(size.x, size.y).unwrap().shifted(drop.low)
        };
        for (number, drop) in found.iter().enumerate() {
            prop_assert!(nest::verify::keeps_gap(&solid(drop), &outline, RULES.gap));
            let size = drop.high - drop.low;
            prop_assert!(RULES.least_drop <= size.x.min(size.y));
            for other in &found[..number] {
                prop_assert!(nest::verify::keeps_gap(&solid(drop), &solid(other), RULES.gap));
            }
        }
    }
}
