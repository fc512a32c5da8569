//! Rows of strikes: the lines of one round, bumped from flat to flat.
//!
//! A row is one choice of the search and not as many as it has strikes: it is struck from either of its ends on, as far as that
//! goes, and the rest from the other end, the part turned end for end; and once begun it is gone on with, since every strike of
//! it has the same tools and a stop that moves on by one pitch. So a row of n strikes has (n + 1)(n + 2)/2 states and not 2ⁿ.
//! Large pipe is pressed so, from both edges and in the middle last (from memory).

use super::metal::Metal;

/// A round that turns farther closes about the punch, radians: three quarters of a full turn (common practice, no source).
const CLOSES_RAD: f64 = 1.5 * std::f64::consts::PI;

/// The most that strikes left out at the end are drawn closed by hand, radians: an eighth of a full turn (common practice, no
/// source).
const MOST_BY_HAND_RAD: f64 = 0.25 * std::f64::consts::PI;

/// The rows among some bends.
#[derive(Debug, Clone)]
pub(super) struct Rows {
    rows: Vec<Row>,
}

/// Strikes from one end of a round to the other.
#[derive(Debug, Clone)]
struct Row {
    strikes: Vec<usize>,
    bits: u64,
    turn_rad: f64,
}

impl Rows {
    /// The rows of the bends `bends`: strikes of one direction that follow one another from face to face, no face carrying
    /// a third bend.
    pub(super) fn of(metal: &Metal, bends: &[usize]) -> Self {
        let at = |face: usize| {
            let lines = bends.iter().map(|&bend| (bend, &metal.lines[bend]));
            lines.filter(move |(_, line)| line.parent == face || line.child == face)
        };
        let next = |bend: usize, face: usize| {
            let mut others = at(face).filter(|(other, _)| *other != bend);
            let (other, line) = others.next().filter(|_| at(face).count() == 2)?;
            let same = line.forming.is_strike() && line.direction == metal.lines[bend].direction;
            same.then_some((other, if line.parent == face { line.child } else { line.parent }))
        };
        let mut rows: Vec<Row> = Vec::new();
        for &bend in bends.iter().filter(|bend| metal.lines[**bend].forming.is_strike()) {
            if rows.iter().any(|row| row.strikes.contains(&bend)) {
                continue;
            }
            let walk = |face: usize| {
                let steps = std::iter::successors(Some((bend, face)), |&(bend, face)| next(bend, face));
                steps.skip(1).map(|(bend, _)| bend).collect::<Vec<_>>()
            };
            let line = &metal.lines[bend];
            let mut strikes = walk(line.parent);
            strikes.reverse();
            strikes.push(bend);
            strikes.extend(walk(line.child));
            let bits = strikes.iter().fold(0, |bits, strike| bits | 1 << strike);
            let turn_rad = strikes.iter().map(|strike| metal.lines[*strike].turn_rad).sum();
            rows.push(Row { strikes, bits, turn_rad });
        }
        Self { rows }
    }

    /// Which of the bends `bends` may be made next: of a row that is begun the strikes at either end of what is left of it,
    /// and nothing else; where none is begun, every other bend and both ends of every row.
    pub(super) fn next(&self, bends: &[usize], made: u64) -> Vec<usize> {
        let ends = |row: &Row| {
            let mut left = row.left(made);
            let first = left.next();
            first.into_iter().chain(left.next_back()).collect::<Vec<_>>()
        };
        if let Some(begun) = self.rows.iter().find(|row| row.bits & made != 0 && row.bits & !made != 0) {
            return ends(begun);
        }
        let in_rows = self.rows.iter().fold(0, |bits, row| bits | row.bits);
        let others = bends.iter().copied().filter(|bend| (made | in_rows) >> bend & 1 == 0);
        others.chain(self.rows.iter().flat_map(ends)).collect()
    }

    /// The strikes left of a round that closes about the punch, where nothing else is left and they are few enough to be drawn
    /// closed by hand.
    pub(super) fn closing(&self, metal: &Metal, left: u64) -> Option<Vec<usize>> {
        let row = self.rows.iter().find(|row| left != 0 && left & !row.bits == 0)?;
        let strikes: Vec<usize> = row.left(!left).collect();
        let turn_rad: f64 = strikes.iter().map(|strike| metal.lines[*strike].turn_rad).sum();
        (CLOSES_RAD < row.turn_rad && turn_rad <= MOST_BY_HAND_RAD).then_some(strikes)
    }

    /// True for two strikes of one row that do not lie beside one another.
    pub(super) fn jumps(&self, last: usize, next: usize) -> bool {
        let at = |row: &Row, bend: usize| row.strikes.iter().position(|strike| *strike == bend);
        let places = self.rows.iter().find_map(|row| at(row, last).zip(at(row, next)));
        places.is_some_and(|(last, next)| 1 < last.abs_diff(next))
    }

    /// How many bends there would be to choose among if a row were as many as its states ask for, twos multiplied.
    pub(super) fn count_choices(&self, bends: usize) -> usize {
        let states = |row: &Row| (row.strikes.len() + 1) * (row.strikes.len() + 2) / 2;
        let twos = |row: &Row| usize::BITS as usize - (states(row) - 1).leading_zeros() as usize;
        let saved = self.rows.iter().map(|row| row.strikes.len().saturating_sub(twos(row)));
        bends - saved.sum::<usize>()
    }
}

impl Row {
    /// Strikes that are not made, from end to end.
    fn left(&self, made: u64) -> impl DoubleEndedIterator<Item = usize> + '_ {
        self.strikes.iter().copied().filter(move |strike| made >> strike & 1 == 0)
    }
}
