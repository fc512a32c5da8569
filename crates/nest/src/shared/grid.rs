//! Grids of equal rectangles one kerf apart: what laying parts a gap apart never finds, however long it looks.
//!
//! Rectangular sheets only, and no parts kept together. Every sheet keeps its largest free rectangles; the grid that holds most
//! area goes into the corner of one, then the next, a gap apart. Parts that are no rectangle lie alone.

use geometry::grid::{GridPoint, doubled_area};

use crate::search::Task;
use crate::search::boxes::{Room, split};
use crate::search::decode::{Filled, Layout, is_better};
use crate::search::filling::Piece;

/// So many figures, those with the largest area still to be cut, are each tried as the first grid of a sheet.
const FIRSTS: usize = 8;

/// Of more figures than this, none is tried first: looking at all of them for every grid takes its time.
const MOST_FIGURES: usize = 100;

/// All parts on sheets; `None` when the sheets run out, or some part goes on none.
pub(crate) fn fill(task: &Task<'_>, kerf: i64) -> Option<Layout> {
    if !task.problem.together().is_empty() {
        return None;
    }
    let grids = Grids::new(task, kerf);
    let mut left: Vec<u32> = task.problem.parts().iter().map(|part| part.quantity).collect();
    let mut there = task.sheets_there();
    let mut layout = Layout::new();
    while left.iter().any(|&count| 0 < count) {
        let mut best: Option<(Filled, Vec<u32>)> = None;
        let square = |stock: &&usize| 0 < there[**stock] && task.figures.missing(**stock).is_empty();
        for &stock in task.sizes.iter().filter(square) {
            for first in grids.firsts(&left) {
                let (filled, rest) = grids.sheet(stock, first, &left);
                if filled.pieces.is_empty() {
                    continue;
                }
                let over =
                    |rest: &[u32]| (0..rest.len()).filter(|&part| 0 < rest[part]).collect::<Vec<usize>>();
                let better = best.as_ref().is_none_or(|(known, known_rest)| {
                    is_better(task, (&filled, &over(&rest)), (known, &over(known_rest)))
                });
                if better {
                    best = Some((filled, rest));
                }
            }
        }
        let (filled, rest) = best?;
        there[filled.stock] -= 1;
        layout.push(filled);
        left = rest;
    }
    Some(layout)
}

struct Grids<'a> {
    task: &'a Task<'a>,
    kerf: i64,
    /// For every figure, whether it is a rectangle, cut-outs or not: all four of its sides can be shared.
    is_rectangle: Vec<bool>,
}

/// Equal figures in rows and columns; the last row, or the last column, may be short.
#[derive(Debug, Clone, Copy)]
struct Grid {
    part: usize,
    figure: usize,
    at: GridPoint,
    count: i64,
    /// How many stand in a full row, or in a full column.
    run: i64,
    /// Filled row by row, else column by column.
    by_rows: bool,
}

impl<'a> Grids<'a> {
    fn new(task: &'a Task<'a>, kerf: i64) -> Self {
        let is_rectangle = (0..task.figures.count()).map(|figure| {
            let figure = task.figures.get(figure);
            doubled_area(figure.outline.outer()) == 2 * i128::from(figure.size.x) * i128::from(figure.size.y)
        });
        Self { task, kerf, is_rectangle: is_rectangle.collect() }
    }

    /// Figures that are tried first on a sheet, and none in particular.
    fn firsts(&self, left: &[u32]) -> Vec<Option<usize>> {
        let mut figures: Vec<(std::cmp::Reverse<i128>, usize)> = Vec::new();
        let firsts = if self.task.figures.count() <= MOST_FIGURES { FIRSTS } else { 0 };
        for (part, &count) in left.iter().enumerate().filter(|(_, count)| 0 < **count) {
            for &figure in self.task.figures.of_part(part) {
                let area = self.task.figures.get(figure).doubled_area * i128::from(count);
                figures.push((std::cmp::Reverse(area), figure));
            }
        }
        figures.sort_unstable();
        figures.dedup();
        std::iter::once(None)
            .chain(figures.into_iter().take(firsts).map(|(_, figure)| Some(figure)))
            .collect()
    }

    /// One sheet, and what is left of every part.
    fn sheet(&self, stock: usize, first: Option<usize>, left: &[u32]) -> (Filled, Vec<u32>) {
        let rules = self.task.problem.rules();
        let (length, width) = self.task.problem.stock()[stock].trimmed(rules);
        let all = GridPoint::new(length + rules.gap, width + rules.gap);
        let mut rooms = vec![Room { low: GridPoint::default(), high: all }];
        let (mut pieces, mut left) = (Vec::new(), left.to_vec());
        let mut asked = first;
        while let Some(grid) = self.largest(&rooms, asked, &left) {
            pieces.extend(self.pieces(grid));
            left[grid.part] -= u32::try_from(grid.count).unwrap_or(left[grid.part]);
            for taken in self.taken(grid) {
                rooms = split(&rooms, taken);
            }
            asked = None;
        }
        (Filled { stock, pieces }, left)
    }

    /// The grid of most area that goes into some room, the first of equals.
    fn largest(&self, rooms: &[Room], asked: Option<usize>, left: &[u32]) -> Option<Grid> {
        let mut best: Option<(i128, Grid)> = None;
        for (part, &left) in left.iter().enumerate().filter(|(_, left)| 0 < **left) {
            for &figure in self.task.figures.of_part(part) {
                if asked.is_some_and(|asked| asked != figure) {
                    continue;
                }
                let area = self.task.figures.get(figure).doubled_area;
                for room in rooms {
                    for grid in self.in_room(room, (part, figure), left) {
                        let held = area * i128::from(grid.count);
                        if best.as_ref().is_none_or(|(known, _)| *known < held) {
                            best = Some((held, grid));
                        }
                    }
                }
            }
        }
        best.map(|(_, grid)| grid)
    }

    /// The largest grids of a figure in a room: by rows and by columns.
    fn in_room(&self, room: &Room, (part, figure): (usize, usize), left: u32) -> Vec<Grid> {
        let gap = self.task.problem.rules().gap;
        let size = self.task.figures.get(figure).size;
        let fits = |room: i64, size: i64| {
            let most = (room - gap + self.kerf).div_euclid(size + self.kerf);
            if self.is_rectangle[figure] { most } else { most.min(1) }
        };
        let (across, up) = (fits(room.high.x - room.low.x, size.x), fits(room.high.y - room.low.y, size.y));
        if across < 1 || up < 1 {
            return Vec::new();
        }
        let count = across.saturating_mul(up).min(i64::from(left));
        let at = room.low;
        let by_rows = Grid { part, figure, at, count, run: across.min(count), by_rows: true };
        vec![by_rows, Grid { run: up.min(count), by_rows: false, ..by_rows }]
    }

    /// From one piece of a figure to the next.
    fn step(&self, figure: usize) -> GridPoint {
        self.task.figures.get(figure).size + GridPoint::new(self.kerf, self.kerf)
    }

    fn pieces(&self, grid: Grid) -> impl Iterator<Item = Piece> {
        let step = self.step(grid.figure);
        (0..grid.count).map(move |number| {
            let (along, over) = (number % grid.run, number / grid.run);
            let (column, row) = if grid.by_rows { (along, over) } else { (over, along) };
            let at = grid.at + GridPoint::new(column * step.x, row * step.y);
            Piece { part: grid.part, figure: grid.figure, at }
        })
    }

    /// What a grid takes with the gap beyond it: its full rows, and the short one.
    fn taken(&self, grid: Grid) -> Vec<Room> {
        let (step, gap) = (self.step(grid.figure), self.task.problem.rules().gap);
        let block = |from: i64, run: i64, to: i64| {
            let place = |along: i64, over: i64| {
                let (column, row) = if grid.by_rows { (along, over) } else { (over, along) };
                grid.at + GridPoint::new(column * step.x, row * step.y)
            };
            let beyond = GridPoint::new(gap - self.kerf, gap - self.kerf);
            (0 < run && from < to).then(|| Room { low: place(0, from), high: place(run, to) + beyond })
        };
        let (full, short) = (grid.count / grid.run, grid.count % grid.run);
        [block(0, grid.run, full), block(full, short, full + 1)].into_iter().flatten().collect()
    }
}
