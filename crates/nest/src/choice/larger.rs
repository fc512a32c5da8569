//! A larger sheet holds whatever a smaller one does.

use crate::choice::{Choice, NestError, Nested, Row, cost_of_nest};
use crate::drop::drops;
use crate::problem::{Problem, Stock};
use crate::verify::verify;

/// No size takes more sheets than a smaller one that fits in it both ways: what was found on that is laid on the larger size as it
/// is. A search that was ended early, or had bad luck, may have found less on the larger.
pub(super) fn no_more_than_smaller(problem: &Problem, rows: &mut [Row]) -> Result<(), NestError> {
    let stock = problem.stock();
    for larger in 0..rows.len() {
        let Choice::Alone(size) = rows[larger].choice else { continue };
        let fewest = rows.iter().filter_map(|row| {
            let Choice::Alone(smaller) = row.choice else { return None };
            let nested = row.outcome.as_ref().ok()?;
            let count = nested.take.count();
            let are_there = stock[size].limit.is_none_or(|limit| count <= limit);
            (smaller != size && are_there && lies_in(&stock[smaller], &stock[size]))
                .then_some((count, nested))
        });
        let Some((count, nested)) = fewest.min_by_key(|(count, _)| *count) else { continue };
        let Ok(known) = &rows[larger].outcome else { continue };
        if known.take.count() <= count {
            continue;
        }
        let mut nest = nested.nest.clone();
        nest.sheets.iter_mut().for_each(|sheet| sheet.stock = size);
        verify(problem, &nest).map_err(NestError::Unsound)?;
        let take = nest.take(problem);
        let drops = nest.sheets.iter().map(|sheet| drops(problem, sheet)).collect();
        let laid = Nested { nest, take, drops, bound: known.bound.clone() };
        if cost_of_nest(problem, &laid.nest, &laid.take) < cost_of_nest(problem, &known.nest, &known.take) {
            rows[larger].outcome = Ok(laid);
        }
    }
    Ok(())
}

/// Whether a rectangular sheet lies within another both ways, as both lie for the nest.
fn lies_in(smaller: &Stock, larger: &Stock) -> bool {
    let ((length, width), (other_length, other_width)) = (smaller.size(), larger.size());
    let are_plain = smaller.offcut().is_none() && larger.offcut().is_none();
    are_plain && length <= other_length && width <= other_width
}

#[cfg(test)]
mod tests {
    use geometry::grid::{GridOutline, GridPoint, Turn};

    use super::*;
    use crate::bound::Bounds;
    use crate::choice::NoNest;
    use crate::problem::{Mirror, Part, Pose, Rules, StockShape, Turns};
    use crate::sheet::{Nest, Placement, Sheet};

    /// Two plates lie on one small sheet; on each of the larger sizes they were found on two, or not at all.
    #[test]
    fn what_lies_on_a_smaller_sheet_lies_on_a_larger_one() {
        let plate = Part {
            mark: "P".to_owned(),
            outline: GridOutline::rectangle(40, 40).unwrap(),
            quantity: 2,
            turns: Turns::Half,
            mirror: Mirror::Never,
        };
        let sheet = |length: i64, width: i64, limit: Option<u32>| Stock {
            name: format!("{width} x {length}"),
            shape: StockShape::Rectangle { length, width },
            price: None,
            limit,
        };
        // The last is longer and narrower: it holds nothing of the first.
        let stock =
            vec![sheet(100, 50, None), sheet(120, 60, None), sheet(110, 50, Some(0)), sheet(200, 45, None)];
        let rules = Rules { gap: 2, edge_trim: 1, least_drop: 10 };
        let problem = Problem::new(vec![plate], stock, rules).unwrap();
        let bounds = Bounds::of(&problem);
        let at = |x: i64| Placement { part: 0, pose: Pose::turned(Turn::NONE), shift: GridPoint::new(x, 1) };
        let nested = |stock: usize, sheets: &[&[i64]]| {
            let placed = |xs: &&[i64]| Sheet { stock, placements: xs.iter().map(|&x| at(x)).collect() };
            let nest = Nest { sheets: sheets.iter().map(placed).collect() };
            let (take, drops) = (nest.take(&problem), vec![Vec::new(); sheets.len()]);
            Nested { nest, take, drops, bound: bounds.on(&[stock]) }
        };
        let row = |stock: usize, outcome| Row { choice: Choice::Alone(stock), outcome };
        let mut rows = vec![
            row(0, Ok(nested(0, &[&[1, 43]]))),
            row(1, Ok(nested(1, &[&[1], &[1]]))),
            row(2, Err(NoNest::SheetsRunOut(Vec::new()))),
            row(3, Ok(nested(3, &[&[1], &[1]]))),
        ];
        no_more_than_smaller(&problem, &mut rows).unwrap();
        let counts: Vec<Option<u32>> =
            rows.iter().map(|row| row.outcome.as_ref().ok().map(|nested| nested.take.count())).collect();
        assert_eq!(counts, [Some(1), Some(1), None, Some(2)]);
        assert_eq!(rows[1].outcome.as_ref().unwrap().take.sheets, [0, 1, 0, 0]);
    }
}
