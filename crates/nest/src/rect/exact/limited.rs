//! Which sets of pieces a sheet holds on a shear with a limit on rounds or on the length of a cut.
//!
//! A round parts a blank into strips, each as long as what lies in it, and every strip is cut the other way in the next round,
//! unless it is one piece that fills it. For a set, a width of blank and a number of rounds left there is a least length at which
//! one strip holds it, and so a least length of strips beside one another: a recursion over sets. All cuts of a round are as
//! long as the blank is wide. Lengths of strips are sums of lengths of pieces and gaps, so there are only so many.

use std::collections::BTreeMap;

use crate::rect::cuts::Axis;
use crate::rect::problem::{Placed, Problem, Shear, Sheet};

/// The most single pieces looked at.
pub(super) const MOST: usize = 7;

/// Questions answered before the set counts as too large to be settled.
const MOST_ASKED: usize = 200_000;

/// A set of pieces in a blank of a width, cut across an axis with so many rounds left.
type Question = (usize, i64, usize, u32);

/// The first strip of the least length: its set and length, and the length of it all.
#[derive(Debug, Clone, Copy)]
struct Strips {
    first: usize,
    first_length: i64,
    length: i64,
}

/// Answers as they are found.
pub(super) struct Cutter<'a> {
    problem: &'a Problem,
    shear: Shear,
    singles: &'a [usize],
    /// For both axes and every set, the lengths that a strip of it can have, rising.
    lengths: [Vec<Vec<i64>>; 2],
    known: BTreeMap<Question, Option<Strips>>,
}

impl<'a> Cutter<'a> {
    pub(super) fn new(problem: &'a Problem, shear: Shear, singles: &'a [usize]) -> Self {
        let lengths = [0, 1].map(|axis| lengths(problem, singles, axis));
        Self { problem, shear, singles, lengths, known: BTreeMap::new() }
    }

    /// Lays a set on one sheet; `None` where none holds it. The outer `None` is no answer.
    pub(super) fn laid(&mut self, set: usize) -> Option<Option<Sheet>> {
        let (length, width) = self.problem.sheet();
        let size = [length, width];
        if let Some(turned) = self.fills(set, size) {
            let piece = self.singles[set.trailing_zeros() as usize];
            return Some(Some(vec![Placed { piece, x: 0, y: 0, turned }]));
        }
        // More rounds than two for each piece part nothing any more.
        let rounds = u32::try_from(2 * self.singles.len() + 2).unwrap_or(u32::MAX);
        let rounds = self.shear.stages.map_or(rounds, |stages| stages.min(rounds));
        for axis in [0, 1] {
            if self.is_cut(set, size, axis, rounds)? {
                let mut sheet = Vec::new();
                self.lay(set, size, axis, rounds, [0, 0], &mut sheet)?;
                return Some(Some(sheet));
            }
        }
        Some(None)
    }

    /// Whether the set is one piece that fills the blank, and then whether turned.
    fn fills(&self, set: usize, size: [i64; 2]) -> Option<bool> {
        if !set.is_power_of_two() {
            return None;
        }
        let piece = &self.problem.pieces()[self.singles[set.trailing_zeros() as usize]];
        match (size == [piece.length, piece.width], size == [piece.width, piece.length]) {
            (true, _) => Some(false),
            (false, true) if piece.may_turn => Some(true),
            (false, _) => None,
        }
    }

    /// Whether the set comes out of a blank by a round across an axis, with so many rounds, this one counted.
    fn is_cut(&mut self, set: usize, size: [i64; 2], axis: usize, rounds: u32) -> Option<bool> {
        if rounds == 0 || self.shear.longest_cut.is_some_and(|longest| longest < size[1 - axis]) {
            return Some(false);
        }
        let strips = self.strips((set, size[1 - axis], axis, rounds - 1))?;
        Some(strips.is_some_and(|strips| strips.length <= size[axis]))
    }

    /// The shortest strips that hold a set, beside one another across an axis in a blank of a width, each with so many rounds
    /// left.
    fn strips(&mut self, question: Question) -> Option<Option<Strips>> {
        if let Some(&known) = self.known.get(&question) {
            return Some(known);
        }
        if MOST_ASKED <= self.known.len() {
            return None;
        }
        let (set, width, axis, rounds) = question;
        let lowest = set & set.wrapping_neg();
        let mut best: Option<Strips> = None;
        for first in super::halves(set).chain([set]).filter(|part| part & lowest != 0) {
            let Some(first_length) = self.least_strip(first, width, axis, rounds)? else { continue };
            let rest = set & !first;
            let length = if rest == 0 {
                Some(first_length)
            } else {
                let others = self.strips((rest, width, axis, rounds))?;
                others.map(|others| first_length + self.problem.gap() + others.length)
            };
            if let Some(length) = length.filter(|&length| best.is_none_or(|best| length < best.length)) {
                best = Some(Strips { first, first_length, length });
            }
        }
        self.known.insert(question, best);
        Some(best)
    }

    /// The least length of one strip that holds a set.
    fn least_strip(&mut self, set: usize, width: i64, axis: usize, rounds: u32) -> Option<Option<i64>> {
        for at in 0..self.lengths[axis][set].len() {
            let length = self.lengths[axis][set][at];
            let size = if axis == 0 { [length, width] } else { [width, length] };
            if self.fills(set, size).is_some() || self.is_cut(set, size, 1 - axis, rounds)? {
                return Some(Some(length));
            }
        }
        Some(None)
    }

    /// Lays what [`Cutter::is_cut`] has found.
    fn lay(
        &mut self,
        set: usize,
        size: [i64; 2],
        axis: usize,
        rounds: u32,
        at: [i64; 2],
        sheet: &mut Sheet,
    ) -> Option<()> {
        let (mut left, mut at) = (set, at);
        while left != 0 {
            let strips = self.strips((left, size[1 - axis], axis, rounds - 1))??;
            let mut strip = size;
            strip[axis] = strips.first_length;
            match self.fills(strips.first, strip) {
                Some(turned) => {
                    let piece = self.singles[strips.first.trailing_zeros() as usize];
                    sheet.push(Placed { piece, x: at[0], y: at[1], turned });
                }
                None => self.lay(strips.first, strip, 1 - axis, rounds - 1, at, sheet)?,
            }
            at[axis] += strips.first_length + self.problem.gap();
            left &= !strips.first;
        }
        Some(())
    }
}

/// For every set, the lengths along an axis of pieces of it beside one another, none longer than the sheet.
fn lengths(problem: &Problem, singles: &[usize], axis: usize) -> Vec<Vec<i64>> {
    let (length, width) = problem.sheet();
    let most = if axis == Axis::X as usize { length } else { width };
    let mut all: Vec<Vec<i64>> = vec![Vec::new(); 1 << singles.len()];
    for set in 1..all.len() {
        let piece = &problem.pieces()[singles[set.trailing_zeros() as usize]];
        let sides =
            if axis == Axis::X as usize { [piece.length, piece.width] } else { [piece.width, piece.length] };
        let own = if piece.may_turn { &sides[..] } else { &sides[..1] };
        let rest = &all[set & (set - 1)];
        let joined = rest.iter().flat_map(|&other| own.iter().map(move |&side| side + problem.gap() + other));
        let mut found: Vec<i64> = own.iter().copied().chain(rest.iter().copied()).chain(joined).collect();
        found.retain(|&length| length <= most);
        found.sort_unstable();
        found.dedup();
        all[set] = found;
    }
    all
}
