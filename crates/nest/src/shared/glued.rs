//! Pieces joined along sides that match, with just a kerf between, to be laid as one.
//!
//! The search lays pieces a gap apart and closes them up afterwards; what fits only when it is closed up is never found so. Rows of
//! pieces that share cuts are therefore made beforehand, by hanging one piece after another on a free side of the row; which
//! of them are used is for the search to say, and the judge looks at every piece alone.

use std::collections::BTreeSet;

use geometry::grid::{GridOutline, GridPoint, Turn};

use super::may_be_near;
use super::side::{Side, Sides};
use crate::clear::apart;
use crate::figure::from_least_corner;
use crate::problem::{Mirror, Part, Pose, Problem, Turns};
use crate::sheet::{Nest, Placement, Sheet};

/// The most pieces in a row.
const MOST_PIECES: usize = 8;

/// So many rows of each number of pieces are kept, and hung on further.
const KEPT: usize = 16;

/// Of so many at the most the parts are the same, as often.
const KEPT_OF_SAME_PARTS: usize = 3;

/// With more parts in poses than this nothing is joined: each is tried on every row.
const MOST_POSES: usize = 300;

/// The most ways to lay some of the parts in rows.
const MOST_PLANS: usize = 10;

/// Pieces that share cuts with one another.
#[derive(Debug, Clone)]
struct Row {
    /// Where they lie beside one another.
    pieces: Vec<Placement>,
    each: Vec<(GridOutline, Sides)>,
    /// All of them with the cuts between.
    outline: GridOutline,
    sides: Sides,
}

/// A part in a pose, not moved.
struct Posed {
    part: usize,
    pose: Pose,
    outline: GridOutline,
    sides: Sides,
}

/// The problem with some of its pieces in rows, each a part of its own.
pub(crate) struct Plan {
    pub(crate) problem: Problem,
    /// For every part of it the pieces it stands for.
    pieces: Vec<Vec<Placement>>,
}

impl Plan {
    /// The nest with rows taken apart into their pieces.
    pub(crate) fn taken_apart(&self, nest: &Nest) -> Nest {
        let apart = |placed: &Placement| -> Vec<Placement> {
            let (own, whole) = (&self.pieces[placed.part], placed.pose.turn);
            if let [piece] = own[..] {
                // A part that stands for itself may lie in any pose.
                return vec![Placement { part: piece.part, ..*placed }];
            }
            let moved = |piece: &Placement| Placement {
                part: piece.part,
                pose: Pose { over: piece.pose.over, turn: plus(piece.pose.turn, whole) },
                shift: quarter_turned(piece.shift, whole) + placed.shift,
            };
            own.iter().map(moved).collect()
        };
        let sheet = |sheet: &Sheet| Sheet {
            stock: sheet.stock,
            placements: sheet.placements.iter().flat_map(apart).collect(),
        };
        Nest { sheets: nest.sheets.iter().map(sheet).collect() }
    }
}

/// Ways to lay parts in rows on these sizes; none where parts are kept together, or no sides match.
pub(crate) fn plans(problem: &Problem, sizes: &[usize], kerf: i64) -> Vec<Plan> {
    if !problem.together().is_empty() {
        return Vec::new();
    }
    let rows = rows(problem, sizes, kerf);
    let mut plans: Vec<(Vec<u32>, Plan)> = Vec::new();
    for first in firsts(problem, &rows) {
        let counts = counted(problem, &rows, first);
        if plans.len() < MOST_PLANS && !plans.iter().any(|(known, _)| *known == counts) {
            let plan = planned(problem, &rows, &counts);
            plans.push((counts, plan));
        }
    }
    plans.into_iter().map(|(_, plan)| plan).collect()
}

/// All rows that fit some sheet, of two pieces, of three, and so on; of each number those that fill the rectangle around them best
/// first.
fn rows(problem: &Problem, sizes: &[usize], kerf: i64) -> Vec<Row> {
    let posed = posed(problem);
    if MOST_POSES < posed.len() {
        return Vec::new();
    }
    let mut level: Vec<Row> = begun(&posed);
    let mut all = Vec::new();
    for _ in 1..MOST_PIECES {
        let mut known = BTreeSet::new();
        let mut next: Vec<Row> = Vec::new();
        for row in &level {
            for piece in posed.iter().filter(|piece| row.has_left(problem, piece.part)) {
                let longer = row.longer(problem, piece, kerf).into_iter();
                let fits = longer.filter(|row| row.fits(problem, sizes));
                next.extend(fits.filter(|row| known.insert(row.key())));
            }
        }
        next.sort_by_key(|row| (std::cmp::Reverse(row.filled()), row.key()));
        level = kept(next);
        all.extend(level.iter().cloned());
    }
    all
}

/// The best, and not too many of the same parts.
fn kept(rows: Vec<Row>) -> Vec<Row> {
    let mut kept: Vec<Row> = Vec::new();
    for row in rows {
        let same = kept.iter().filter(|other| other.parts() == row.parts()).count();
        if kept.len() < KEPT && same < KEPT_OF_SAME_PARTS {
            kept.push(row);
        }
    }
    kept
}

fn posed(problem: &Problem) -> Vec<Posed> {
    let mut posed = Vec::new();
    for part in 0..problem.parts().len() {
        for pose in problem.poses(part) {
            let outline = pose.of(&problem.parts()[part].outline);
            let sides = Sides::of(&outline, problem.rules().gap);
            if !sides.list.is_empty() {
                posed.push(Posed { part, pose, outline, sides });
            }
        }
    }
    posed
}

/// Rows of one piece: each part in poses that are no quarter turn from one another, since rows are turned so as a whole.
fn begun(posed: &[Posed]) -> Vec<Row> {
    let mut begun: Vec<Row> = Vec::new();
    for piece in posed {
        let quarter = Turn::QUARTER.millidegrees();
        let is_same = |row: &Row| {
            let first = row.pieces[0];
            let apart = first.pose.turn.millidegrees().abs_diff(piece.pose.turn.millidegrees());
            first.part == piece.part && first.pose.over == piece.pose.over && apart.is_multiple_of(quarter)
        };
        if !begun.iter().any(is_same) {
            let placed = Placement { part: piece.part, pose: piece.pose, shift: GridPoint::default() };
            begun.push(Row {
                pieces: vec![placed],
                each: vec![(piece.outline.clone(), piece.sides.clone())],
                outline: piece.outline.clone(),
                sides: piece.sides.clone(),
            });
        }
    }
    begun
}

impl Row {
    /// Which parts, in order.
    fn parts(&self) -> Vec<usize> {
        let mut parts: Vec<usize> = self.pieces.iter().map(|piece| piece.part).collect();
        parts.sort_unstable();
        parts
    }

    fn count(&self, part: usize) -> u32 {
        self.pieces.iter().map(|piece| u32::from(piece.part == part)).sum()
    }

    fn has_left(&self, problem: &Problem, part: usize) -> bool {
        self.count(part) < problem.parts()[part].quantity
    }

    /// Rows that come to lie alike are told by this.
    fn key(&self) -> (Vec<usize>, GridOutline) {
        let (low, _) = self.outline.bounds();
        (self.parts(), from_least_corner(&self.outline.shifted(-low)))
    }

    /// Share of the rectangle around it that is metal, in millionths.
    fn filled(&self) -> i128 {
        let (low, high) = self.outline.bounds();
        let metal: i128 = self.each.iter().map(|(outline, _)| outline.doubled_area()).sum();
        let around = 2 * i128::from(high.x - low.x) * i128::from(high.y - low.y);
        1_000_000 * metal / around.max(1)
    }

    /// The turns that all its pieces may take as a whole.
    fn turns(&self, problem: &Problem) -> Vec<Turn> {
        let quarters = (0..4).map(|number| Turn::from_millidegrees(number * Turn::QUARTER.millidegrees()));
        let allowed = |whole: &Turn| {
            let mut pieces = self.pieces.iter();
            *whole == Turn::NONE
                || pieces.all(|piece| problem.parts()[piece.part].turns.allows(plus(piece.pose.turn, *whole)))
        };
        quarters.filter(allowed).collect()
    }

    fn fits(&self, problem: &Problem, sizes: &[usize]) -> bool {
        let (low, high) = self.outline.bounds();
        let size = high - low;
        self.turns(problem).into_iter().any(|turn| {
            let is_across = turn.quarters().is_some_and(|quarters| quarters % 2 == 1);
            let size = if is_across { GridPoint::new(size.y, size.x) } else { size };
            sizes.iter().any(|&stock| {
                let (length, width) = problem.stock()[stock].trimmed(problem.rules());
                size.x <= length && size.y <= width
            })
        })
    }

    /// The row with a further piece at any of its free sides.
    fn longer(&self, problem: &Problem, piece: &Posed, kerf: i64) -> Vec<Self> {
        let mut longer = Vec::new();
        for &own in &self.sides.list {
            for &their in piece.sides.list.iter().filter(|their| own.is_opposite(**their)) {
                for by in own.moves_beside(their, kerf) {
                    longer.extend(self.with(problem, piece, by, kerf));
                }
            }
        }
        longer
    }

    fn with(&self, problem: &Problem, piece: &Posed, by: GridPoint, kerf: i64) -> Option<Self> {
        let (outline, sides) = (piece.outline.shifted(by), piece.sides.shifted(by));
        let [own, their] = self.sides.meeting(&sides, kerf)?;
        let mut each = self.each.clone();
        each.push((outline, sides));
        let last = each.len() - 1;
        let all: Vec<Sides> = each.iter().map(|(_, sides)| sides.clone()).collect();
        let is_clear = |other: usize| {
            apart(&each[other].0, &each[last].0, problem.rules().gap) || may_be_near(&all, other, last, kerf)
        };
        if !(0..last).all(is_clear) {
            return None;
        }
        let outline = joined([(&self.outline, own), (&each[last].0, their)])?;
        let sides = Sides::of(&outline, problem.rules().gap);
        let mut pieces = self.pieces.clone();
        pieces.push(Placement { part: piece.part, pose: piece.pose, shift: by });
        Some(Self { pieces, each, outline, sides })
    }
}

/// Two outlines with the cut between their sides filled.
fn joined(both: [(&GridOutline, Side); 2]) -> Option<GridOutline> {
    let around = |(outline, side): (&GridOutline, Side)| {
        let ring = outline.outer();
        let first = ring.iter().position(|&corner| corner == side.to)?;
        Some(ring[first..].iter().chain(&ring[..first]).copied().collect::<Vec<GridPoint>>())
    };
    let [one, other] = both.map(around);
    let ring = [one?, other?].concat();
    let holes = both.iter().flat_map(|(outline, _)| outline.holes().to_vec()).collect();
    GridOutline::new(ring, holes).ok()
}

/// The rows that are taken first, one after another: the best of each number of pieces, then the other ones that fill the rectangle
/// around them best.
fn firsts(problem: &Problem, rows: &[Row]) -> Vec<usize> {
    let mut best: Vec<usize> = Vec::new();
    let mut others: Vec<usize> = Vec::new();
    for (number, row) in rows.iter().enumerate() {
        let is_first = number == 0 || rows[number - 1].pieces.len() < row.pieces.len();
        if is_first { best.push(number) } else { others.push(number) }
    }
    // Of rows that can be made as often as their parts are, those that take most metal: large parts decide.
    best.sort_by_key(|&number| std::cmp::Reverse(rows[number].held(problem)));
    others.sort_by_key(|&number| (std::cmp::Reverse(rows[number].filled()), number));
    best.into_iter().chain(others).collect()
}

impl Row {
    /// How many such rows there can be at most.
    fn most(&self, left: &[u32]) -> u32 {
        let times = |part: usize| left[part] / self.count(part).max(1);
        self.pieces.iter().map(|piece| times(piece.part)).min().unwrap_or(0)
    }

    /// Metal in as many of them as there can be.
    fn held(&self, problem: &Problem) -> i128 {
        let all: Vec<u32> = problem.parts().iter().map(|part| part.quantity).collect();
        let metal: i128 = self.each.iter().map(|(outline, _)| outline.doubled_area()).sum();
        i128::from(self.most(&all)) * metal
    }
}

/// How many of each row: as many as can be of the first, then of those that are no longer, the longest first.
fn counted(problem: &Problem, rows: &[Row], first: usize) -> Vec<u32> {
    let mut left: Vec<u32> = problem.parts().iter().map(|part| part.quantity).collect();
    let mut counts = vec![0; rows.len()];
    let longest = rows[first].pieces.len();
    let shorter = (0..rows.len()).filter(|&row| rows[row].pieces.len() <= longest);
    let mut order: Vec<usize> = shorter.collect();
    order.sort_by_key(|&row| (row != first, std::cmp::Reverse(rows[row].pieces.len())));
    for row in order {
        counts[row] = rows[row].most(&left);
        rows[row].pieces.iter().for_each(|piece| left[piece.part] -= counts[row]);
    }
    counts
}

fn planned(problem: &Problem, rows: &[Row], counts: &[u32]) -> Plan {
    let mut left: Vec<u32> = problem.parts().iter().map(|part| part.quantity).collect();
    let (mut parts, mut pieces) = (Vec::new(), Vec::new());
    for (row, &quantity) in rows.iter().zip(counts).filter(|(_, count)| 0 < **count) {
        row.pieces.iter().for_each(|piece| left[piece.part] -= quantity);
        let marks: Vec<&str> =
            row.pieces.iter().map(|piece| problem.parts()[piece.part].mark.as_str()).collect();
        let turns = Turns::Listed(row.turns(problem));
        let (mark, outline) = (marks.join("+"), row.outline.clone());
        parts.push((Part { mark, outline, quantity, turns, mirror: Mirror::Never }, None));
        pieces.push(row.pieces.clone());
    }
    for (number, part) in problem.parts().iter().enumerate().filter(|(number, _)| 0 < left[*number]) {
        parts.push((Part { quantity: left[number], ..part.clone() }, Some(number)));
        pieces.push(vec![Placement { part: number, pose: Pose::default(), shift: GridPoint::default() }]);
    }
    Plan { problem: problem.with_rows(parts), pieces }
}

fn plus(turn: Turn, other: Turn) -> Turn {
    Turn::from_millidegrees(turn.millidegrees() + other.millidegrees())
}

fn quarter_turned(by: GridPoint, whole: Turn) -> GridPoint {
    match whole.quarters() {
        Some(1) => GridPoint::new(-by.y, by.x),
        Some(2) => -by,
        Some(3) => GridPoint::new(by.y, -by.x),
        _ => by,
    }
}
