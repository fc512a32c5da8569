//! From an order of parts to filled sheets.

use geometry::grid::{GridPoint, Turn};

use crate::choice::LeftOver;
use crate::random::Chance;
use crate::search::filling::{Filling, Piece};
use crate::search::{AREA_UNIT, Meter, Task, order};
use crate::sheet::{Nest, Placement, Sheet};

/// A filled sheet: its size and the pieces on it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Filled {
    pub(crate) stock: usize,
    pub(crate) pieces: Vec<Piece>,
}

/// All filled sheets.
pub(crate) type Layout = Vec<Filled>;

/// Fills sheets from `order` (part numbers, one an entry) until every piece lies somewhere; `left` is the number of
/// sheets of each size still there. `None` when the sheets run out.
pub(crate) fn fill(task: &Task<'_>, order: &[usize], left: &mut [u32], meter: &mut Meter) -> Option<Layout> {
    let (layout, over) = fill_what_there_is(task, order, left, meter);
    over.is_empty().then_some(layout)
}

/// Fills sheets until every piece lies somewhere or the sheets run out; also returns what is left over.
fn fill_what_there_is(
    task: &Task<'_>,
    order: &[usize],
    left: &mut [u32],
    meter: &mut Meter,
) -> (Layout, Vec<usize>) {
    let mut remaining = order.to_vec();
    let mut layout = Layout::new();
    while !remaining.is_empty() {
        let mut best: Option<(Filled, Vec<usize>)> = None;
        for &stock in task.sizes.iter().filter(|&&stock| 0 < left[stock]) {
            let (filled, rest) = fill_one(task, stock, &remaining, meter);
            if filled.pieces.is_empty() {
                continue;
            }
            if best.as_ref().is_none_or(|known| is_better(task, (&filled, &rest), (&known.0, &known.1))) {
                best = Some((filled, rest));
            }
        }
        let Some((filled, rest)) = best else { break };
        left[filled.stock] -= 1;
        layout.push(filled);
        remaining = rest;
    }
    (layout, remaining)
}

/// What is left over when all sheets that there are have been filled, and how many of each: the least metal of what several orders
/// leave.
pub(crate) fn left_over(task: &Task<'_>) -> Vec<LeftOver> {
    let over = |start: u32| {
        let order = order::order(task, start, &mut Chance::new(0, u64::from(start)));
        let mut meter = Meter { used: 0, limit: 0 };
        fill_what_there_is(task, &order, &mut task.sheets_there(), &mut meter).1
    };
    let metal = |over: &Vec<usize>| -> i128 {
        over.iter().map(|&part| task.problem.parts()[part].outline.doubled_area()).sum()
    };
    let least = (0..order::SORTED).map(over).min_by_key(metal).unwrap_or_default();
    let count = |part: usize| least.iter().filter(|&&other| other == part).count();
    let counts = (0..task.problem.parts().len()).map(|part| (part, count(part)));
    let counted =
        |(part, count): (usize, usize)| LeftOver { part, count: u32::try_from(count).unwrap_or(u32::MAX) };
    counts.filter(|&(_, count)| 0 < count).map(counted).collect()
}

/// Fills one sheet with what fits, in order; also returns what is left over.
pub(crate) fn fill_one(
    task: &Task<'_>,
    stock: usize,
    order: &[usize],
    meter: &mut Meter,
) -> (Filled, Vec<usize>) {
    let mut filling = Filling::new(task.problem, task.figures, stock);
    let mut rest = Vec::new();
    let mut failed = vec![false; task.problem.parts().len()];
    let mut tried = vec![None; task.problem.together().len()];
    for &part in order {
        if let Some(group) = task.problem.group_of(part) {
            let lies = *tried[group].get_or_insert_with(|| {
                let whole = together(task, &filling, group, order, meter);
                whole.map(|whole| filling = whole).is_some()
            });
            if !lies {
                rest.push(part);
            }
            continue;
        }
        match (!failed[part]).then(|| best_piece(task, &mut filling, part, None, meter)).flatten() {
            Some(piece) => filling.place(piece),
            None => {
                // A sheet only gets fuller: what did not fit once never will.
                failed[part] = true;
                rest.push(part);
            }
        }
    }
    (Filled { stock, pieces: filling.into_pieces() }, rest)
}

/// True when a size of stock holds all pieces of a group.
pub(crate) fn holds_together(task: &Task<'_>, stock: usize, group: usize) -> bool {
    let parts = task.problem.together()[group].parts.iter();
    let order: Vec<usize> =
        parts.flat_map(|&part| (0..task.problem.parts()[part].quantity).map(move |_| part)).collect();
    let filling = Filling::new(task.problem, task.figures, stock);
    together(task, &filling, group, &order, &mut Meter { used: 0, limit: 0 }).is_some()
}

/// The sheet with all pieces of a group on it, in the order given; `None` when not all of them fit. Where the lay is
/// to be the same, every turn of the first part is tried for all.
fn together<'a>(
    task: &Task<'_>,
    filling: &Filling<'a>,
    group: usize,
    order: &[usize],
    meter: &mut Meter,
) -> Option<Filling<'a>> {
    let own = &task.problem.together()[group];
    let pieces: Vec<usize> = order.iter().copied().filter(|part| own.parts.contains(part)).collect();
    let mut lays = vec![None];
    if own.same_lay {
        let first = pieces.iter().flat_map(|&part| task.figures.of_part(part));
        lays = first.map(|&figure| Some(lay(task, figure))).collect();
        lays.sort_unstable();
        lays.dedup();
    }
    lays.into_iter().find_map(|lay| {
        let mut tried = filling.clone();
        for &part in &pieces {
            let piece = best_piece(task, &mut tried, part, lay, meter)?;
            tried.place(piece);
        }
        Some(tried)
    })
}

/// Which way the lay runs on a turned part: its turn, half turns left out.
fn lay(task: &Task<'_>, figure: usize) -> u32 {
    task.figures.get(figure).pose.turn.millidegrees() % (2 * Turn::QUARTER.millidegrees())
}

/// The best place for a part among those with the given lay.
pub(crate) fn best_piece(
    task: &Task<'_>,
    filling: &mut Filling<'_>,
    part: usize,
    asked: Option<u32>,
    meter: &mut Meter,
) -> Option<Piece> {
    let mut best: Option<((i64, i64), Piece)> = None;
    for &figure in task.figures.of_part(part) {
        if filling.lacks_room(figure) || asked.is_some_and(|asked| asked != lay(task, figure)) {
            continue;
        }
        meter.used += 1;
        if let Some(at) = filling.spot(figure) {
            let far = filling.reach(at + task.figures.get(figure).size);
            if best.as_ref().is_none_or(|(known, _)| far < *known) {
                best = Some((far, Piece { part, figure, at }));
            }
        }
    }
    best.map(|(_, piece)| piece)
}

/// A sheet that costs nothing beats one that costs something; finishing beats not finishing, then the cheaper finish; else the
/// lower cost for the area of parts held. Of sheets that cost nothing the area counts instead.
pub(crate) fn is_better(task: &Task<'_>, new: (&Filled, &[usize]), known: (&Filled, &[usize])) -> bool {
    let free = [new, known].map(|(filled, _)| task.problem.is_free(filled.stock));
    let cost = |filled: &Filled| {
        if free[0] { task.problem.stock()[filled.stock].area() / AREA_UNIT } else { task.cost(filled.stock) }
    };
    let area = |filled: &Filled| task.doubled_area(&filled.pieces);
    if free[0] != free[1] {
        // What the other one finishes with, it still finishes with when there is less left for it.
        return free[0];
    }
    match (new.1.is_empty(), known.1.is_empty()) {
        (true, true) => cost(new.0) < cost(known.0),
        (false, false) => cost(new.0) * area(known.0) < cost(known.0) * area(new.0),
        (finishes, _) => finishes && cost(new.0) <= cost(known.0),
    }
}

impl Task<'_> {
    /// What one sheet of a size counts for: money when every size has a price, else its area in units
    /// (whole, rounded down).
    pub(crate) fn cost(&self, stock: usize) -> i128 {
        let size = &self.problem.stock()[stock];
        match size.price {
            Some(price) if self.problem.is_priced() => i128::from(price),
            _ => size.area() / AREA_UNIT,
        }
    }

    /// What all sheets of a layout count for.
    pub(crate) fn cost_of(&self, layout: &Layout) -> i128 {
        layout.iter().map(|filled| self.cost(filled.stock)).sum()
    }

    /// Area of the sheets that cost nothing, square steps.
    pub(crate) fn free_area(&self, layout: &[Filled]) -> i128 {
        let free = layout.iter().filter(|filled| self.problem.is_free(filled.stock));
        free.map(|filled| self.problem.stock()[filled.stock].area()).sum()
    }

    /// Twice the net area of pieces, in units of area.
    pub(crate) fn doubled_area(&self, pieces: &[Piece]) -> i128 {
        pieces.iter().map(|piece| self.figures.get(piece.figure).doubled_area).sum::<i128>() / AREA_UNIT
    }

    /// The sheets of each size there are.
    pub(crate) fn sheets_there(&self) -> Vec<u32> {
        self.problem.stock().iter().map(|size| size.limit.unwrap_or(u32::MAX)).collect()
    }

    /// The sheets of each size there are beside those that are filled.
    pub(crate) fn sheets_beside(&self, filled: &[Filled]) -> Vec<u32> {
        let mut left = self.sheets_there();
        filled.iter().for_each(|filled| left[filled.stock] -= 1);
        left
    }

    /// The layout as a nest.
    pub(crate) fn nest(&self, layout: &Layout) -> Nest {
        let trim = self.problem.rules().edge_trim;
        let placement = |piece: &Piece| {
            let figure = self.figures.get(piece.figure);
            let shift = piece.at + GridPoint::new(trim, trim) - figure.origin;
            Placement { part: piece.part, pose: figure.pose, shift }
        };
        let sheet = |filled: &Filled| Sheet {
            stock: filled.stock,
            placements: filled.pieces.iter().map(placement).collect(),
        };
        Nest { sheets: layout.iter().map(sheet).collect() }
    }
}
