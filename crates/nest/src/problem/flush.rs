//! Turns at which an edge of one part lies flush with an edge of another.
//!
//! Parts of any turn are first laid at turns of their own ([`Turns::Any`]). A piece beside one of those touches it along an
//! edge only where the two edges run opposite ways; these are the turns that make them do so, for the longest edges.

use geometry::grid::{GridPoint, Turn};

use crate::problem::turns::{laid_along, longest_edges};
use crate::problem::{Part, Problem, Turns};

/// The most turns added for a part: each is looked at as often as any other.
const MOST_ADDED: usize = 16;

/// How many of a part's longest edges others are laid flush with.
const EDGES: usize = 3;

/// How near two turns are to count as one, in thousandths of a degree.
const SAME_MILLIDEGREES: u32 = 50;

impl Problem {
    /// The problem with further turns for parts of any turn; `None` where there are none to add.
    pub(crate) fn laid_flush(&self) -> Option<Self> {
        let any: Vec<&Part> = self.parts.iter().filter(|part| part.turns == Turns::Any).collect();
        let added = self
            .parts
            .iter()
            .map(|part| if part.turns == Turns::Any { flush_turns(part, &any) } else { Vec::new() });
        let mut flush: Vec<Vec<Turn>> = added.collect();
        let more = flush.iter().any(|turns| !turns.is_empty());
        flush.iter_mut().zip(&self.flush).for_each(|(turns, known)| turns.extend(known));
        more.then(|| Self { flush, ..self.clone() })
    }
}

/// Spacing of the turns tried for a part that fits no sheet at the usual ones, in thousandths of a degree.
const FITTING_STEP: u32 = 1_000;

/// The most turns added for a part that fits no sheet at the usual ones.
const MOST_FITTING: usize = 24;

impl Problem {
    /// The problem with such turns for some parts of any turn that the rectangles around them fit a sheet of one of these sizes;
    /// `None` where there are none.
    pub(crate) fn turned_to_fit(&self, parts: &[usize], sizes: &[usize]) -> Option<Self> {
        if !self.flush.is_empty() {
            return None;
        }
        let added = (0..self.parts.len()).map(|number| {
            let part = &self.parts[number];
            if parts.contains(&number) && part.turns == Turns::Any {
                self.fitting(part, sizes)
            } else {
                Vec::new()
            }
        });
        let flush: Vec<Vec<Turn>> = added.collect();
        flush.iter().any(|turns| !turns.is_empty()).then(|| Self { flush, ..self.clone() })
    }

    fn fitting(&self, part: &Part, sizes: &[usize]) -> Vec<Turn> {
        let fits = |turn: &Turn| {
            let (low, high) = part.outline.turned(*turn).bounds();
            let size = high - low;
            let holds = |(length, width): (i64, i64)| size.x <= length && size.y <= width;
            sizes.iter().any(|&size| holds(self.stock[size].trimmed(&self.rules)))
        };
        let all = (0..Turn::FULL_MILLIDEGREES / FITTING_STEP).map(|step| step * FITTING_STEP);
        let turns: Vec<Turn> = all.map(Turn::from_millidegrees).filter(fits).collect();
        let every = turns.len().div_ceil(MOST_FITTING).max(1);
        turns.into_iter().step_by(every).collect()
    }
}

/// Turns of `part` at which one of its longest edges runs against one of another part that lies along the sheet by one of
/// its own; those of the longest pairs of edges first.
fn flush_turns(part: &Part, others: &[&Part]) -> Vec<Turn> {
    let own = longest_edges(&part.outline, EDGES);
    let mut pairs: Vec<(i128, Turn)> = Vec::new();
    for other in others {
        let theirs = longest_edges(&other.outline, EDGES);
        for &lies in &theirs {
            for &touched in theirs.iter().filter(|&&touched| touched != lies) {
                for &edge in &own {
                    // Their turn, what their edge adds to it, half a turn, less what our own edge adds.
                    let turns =
                        [laid_along(lies), opposite(laid_along(touched)), Turn::HALF, laid_along(edge)];
                    let turn = turns.into_iter().fold(Turn::NONE, plus);
                    pairs.push((shorter(touched, edge), turn));
                }
            }
        }
    }
    pairs.sort_by_key(|&(shorter, turn)| (std::cmp::Reverse(shorter), turn));
    let mut known = part.turns.listed(&part.outline);
    let mut added = Vec::new();
    for (_, turn) in pairs {
        for quarters in 0..4 {
            let turn = plus(turn, Turn::from_millidegrees(quarters * Turn::QUARTER.millidegrees()));
            if added.len() < MOST_ADDED && !known.iter().any(|&known| is_same(known, turn)) {
                known.push(turn);
                added.push(turn);
            }
        }
    }
    added.sort_unstable();
    added
}

fn plus(turn: Turn, other: Turn) -> Turn {
    Turn::from_millidegrees(turn.millidegrees() + other.millidegrees())
}

fn opposite(turn: Turn) -> Turn {
    Turn::from_millidegrees(Turn::FULL_MILLIDEGREES - turn.millidegrees())
}

fn is_same(turn: Turn, other: Turn) -> bool {
    let apart = turn.millidegrees().abs_diff(other.millidegrees());
    apart.min(Turn::FULL_MILLIDEGREES - apart) <= SAME_MILLIDEGREES
}

/// The squared length of the shorter edge: so much of them can touch.
fn shorter(one: GridPoint, other: GridPoint) -> i128 {
    let squared =
        |edge: GridPoint| i128::from(edge.x) * i128::from(edge.x) + i128::from(edge.y) * i128::from(edge.y);
    squared(one).min(squared(other))
}
