//! Parts as their upright boxes, laid on sheets as rectangles.
//!
//! Most parts of a shop are rectangles or nearly so. Equal ones lie best in rows and columns that fill a sheet to the last
//! step, which laying one after another hardly ever finds; [`rect::pack`] does.

use std::collections::BTreeMap;

use geometry::grid::GridPoint;

use crate::rect::{self, Cutting, Placed};
use crate::search::decode::{Filled, Layout};
use crate::search::filling::Piece;
use crate::search::{Effort, Task, Watch};

/// Boxes laid that count as one evaluation; they take about as long.
pub(crate) const BOXES_IN_ONE: u64 = 50;

/// The boxes of pieces as a problem of rectangles, each with its part.
struct Boxes {
    parts: Vec<usize>,
    problem: rect::Problem,
}

/// Packs `pieces` (part numbers, one an entry) as rectangles on sheets of one size; `None` where a box fits no sheet, the size
/// is no rectangle, parts are kept together, or more sheets would be taken than `most`.
pub(crate) fn pack(
    task: &Task<'_>,
    stock: usize,
    pieces: &[usize],
    most: usize,
    (effort, watch): (&Effort, &Watch<'_>),
) -> Option<Layout> {
    let sheet = task.problem.stock()[stock].trimmed(task.problem.rules());
    let needed = room_of(task, pieces);
    if i128::try_from(most).is_ok_and(|most| most.saturating_mul(room(task, sheet)) < needed) {
        return None;
    }
    let boxes = boxes(task, &[stock], pieces, sheet)?;
    let packing = rect::pack(&boxes.problem, effort, rect::Watch { stop: watch.stop }).ok()?;
    if most < packing.sheets.len() {
        return None;
    }
    packing.sheets.iter().map(|sheet| boxes.filled(task, stock, sheet)).collect()
}

/// Packs all pieces as rectangles on sheets of several sizes for less than `known`; `None` as for [`pack`].
pub(crate) fn mixed(
    task: &Task<'_>,
    pieces: &[usize],
    known: i128,
    (effort, watch): (&Effort, &Watch<'_>),
) -> Option<Layout> {
    let there = task.sheets_there();
    let size = |&stock: &usize| {
        let (length, width) = task.problem.stock()[stock].trimmed(task.problem.rules());
        rect::Size { length, width, cost: task.cost(stock), limit: there[stock] }
    };
    let sizes: Vec<rect::Size> = task.sizes.iter().map(size).collect();
    let length = sizes.iter().map(|size| size.length).max()?;
    let width = sizes.iter().map(|size| size.width).max()?;
    let boxes = boxes(task, task.sizes, pieces, (length, width))?;
    let whole: i128 = room_of(task, pieces);
    let per_room = |size: &rect::Size| (size.cost, room(task, (size.length, size.width)));
    // Full sheets of the size that is the cheapest for its area would cost no less.
    if sizes.iter().map(per_room).all(|(cost, room)| known.saturating_mul(room) <= cost.saturating_mul(whole))
    {
        return None;
    }
    let ask = rect::Ask { problem: &boxes.problem, sizes: &sizes, least: task.least };
    let laid = rect::pack_mixed(
        ask,
        effort.evaluations.saturating_mul(BOXES_IN_ONE),
        effort,
        rect::Watch { stop: watch.stop },
    )?;
    if known <= laid.iter().map(|&(size, _)| sizes[size].cost).sum() {
        return None;
    }
    laid.iter().map(|(size, sheet)| boxes.filled(task, task.sizes[*size], sheet)).collect()
}

/// Lays `pieces` as rectangles on just these sheets, in so many tries; `None` as for [`pack`].
pub(crate) fn onto(
    task: &Task<'_>,
    sizes: &[usize],
    pieces: &[usize],
    tries: u32,
    seed: u64,
) -> Option<Layout> {
    let sheets: Vec<(i64, i64)> =
        sizes.iter().map(|&stock| task.problem.stock()[stock].trimmed(task.problem.rules())).collect();
    if sheets.iter().map(|&sheet| room(task, sheet)).sum::<i128>() < room_of(task, pieces) {
        return None;
    }
    let length = sheets.iter().map(|sheet| sheet.0).max()?;
    let width = sheets.iter().map(|sheet| sheet.1).max()?;
    let boxes = boxes(task, sizes, pieces, (length, width))?;
    let laid = rect::onto(&boxes.problem, &sheets, tries, seed)?;
    let used = sizes.iter().zip(&laid).filter(|(_, sheet)| !sheet.is_empty());
    used.map(|(&stock, sheet)| boxes.filled(task, stock, sheet)).collect()
}

fn boxes(task: &Task<'_>, sizes: &[usize], pieces: &[usize], sheet: (i64, i64)) -> Option<Boxes> {
    let plain = sizes.iter().all(|&stock| task.figures.missing(stock).is_empty());
    if !plain || !task.problem.together().is_empty() {
        return None;
    }
    let mut counts: BTreeMap<usize, u32> = BTreeMap::new();
    pieces.iter().for_each(|&part| *counts.entry(part).or_default() += 1);
    let list = counts.iter().map(|(&part, &quantity)| boxed(task, part, quantity)).collect::<Option<_>>()?;
    let problem = rect::Problem::new(list, sheet, task.problem.rules().gap, Cutting::Free).ok()?;
    Some(Boxes { parts: counts.into_keys().collect(), problem })
}

impl Boxes {
    fn filled(&self, task: &Task<'_>, stock: usize, sheet: &[Placed]) -> Option<Filled> {
        let piece = |placed: &Placed| {
            let part = self.parts[placed.piece];
            let (length, width) = self.problem.size(*placed);
            let figure = of_size(task, part, length, width)?;
            Some(Piece { part, figure, at: GridPoint::new(placed.x, placed.y) })
        };
        Some(Filled { stock, pieces: sheet.iter().map(piece).collect::<Option<_>>()? })
    }
}

/// Area of a box or a sheet with the gap beside and above it.
fn room(task: &Task<'_>, (length, width): (i64, i64)) -> i128 {
    let gap = i128::from(task.problem.rules().gap);
    (i128::from(length) + gap) * (i128::from(width) + gap)
}

/// Whether all these pieces are rectangles.
pub(crate) fn are_boxes(task: &Task<'_>, pieces: &[usize]) -> bool {
    pieces.iter().all(|&part| {
        let figure = task.figures.get(task.figures.of_part(part)[0]);
        figure.doubled_area == 2 * i128::from(figure.size.x) * i128::from(figure.size.y)
    })
}

/// What the smallest boxes of these pieces take.
fn room_of(task: &Task<'_>, pieces: &[usize]) -> i128 {
    let own = |&part: &usize| {
        let sizes = task.figures.of_part(part).iter().map(|&figure| task.figures.get(figure).size);
        sizes.map(|size| room(task, (size.x, size.y))).min().unwrap_or(0)
    };
    pieces.iter().map(own).sum()
}

/// The smallest box of a part, and whether it may also lie a quarter turn from that.
fn boxed(task: &Task<'_>, part: usize, quantity: u32) -> Option<rect::Piece> {
    let sizes = || task.figures.of_part(part).iter().map(|&figure| task.figures.get(figure).size);
    let least = sizes().min_by_key(|size| (i128::from(size.x) * i128::from(size.y), size.x, size.y))?;
    let may_turn = least.x != least.y && sizes().any(|size| (size.x, size.y) == (least.y, least.x));
    let mark = task.problem.parts()[part].mark.clone();
    Some(rect::Piece { mark, length: least.x, width: least.y, quantity, may_turn })
}

/// The first figure of a part whose box has this size.
fn of_size(task: &Task<'_>, part: usize, length: i64, width: i64) -> Option<usize> {
    let mut figures = task.figures.of_part(part).iter().copied();
    figures.find(|&figure| task.figures.get(figure).size == GridPoint::new(length, width))
}
