//! The order of cuts on the shear.
//!
//! A blank in hand is cut in rounds, each round in one direction: all cuts of the round go right through the blank.
//! The strips of a round are cut in the other direction in the next, until only the pieces are left. Since a round
//! takes every through cut there is, only the direction of the first round is free; the order with fewer rounds, then
//! with fewer cuts, is taken.
//!
//! What is left over beside one another comes off piece by piece so. Where it is worth more in one piece, strips beside one
//! another are left joined for a round: the next one takes the rest off right across them, and a further one parts them.

use thiserror::Error;

use crate::rect::problem::{Placed, Problem, Shear};

/// The direction a cut runs across.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Axis {
    /// A cut at one x, running along y.
    X,
    /// A cut at one y, running along x.
    Y,
}

/// One cut, right through the blank in hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cut {
    /// Which round, from 1.
    pub stage: u32,
    /// Across which direction.
    pub axis: Axis,
    /// The edge that stays, from the sheet's datum corner, in steps; the kerf lies on the waste side.
    pub at: i64,
    /// True when the waste side is the one beyond the cut, of greater numbers.
    pub waste_beyond: bool,
    /// Where the blank in hand begins along the cut.
    pub from: i64,
    /// Where it ends along the cut.
    pub to: i64,
}

/// Why a sheet cannot be cut on the shear.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum CutFault {
    /// Pieces lock one another: no cut goes through.
    #[error("no cut goes right through between pieces {pieces:?}")]
    Locked {
        /// The pieces of the blank that cannot be parted.
        pieces: Vec<usize>,
    },
    /// More rounds than allowed.
    #[error("{needed} rounds of cuts are needed, {allowed} are allowed")]
    Stages {
        /// Rounds needed.
        needed: u32,
        /// Rounds allowed.
        allowed: u32,
    },
    /// A cut longer than the blade.
    #[error("a cut of {length} steps is longer than the blade of {longest}")]
    TooLong {
        /// Length of the cut.
        length: i64,
        /// Length of the blade.
        longest: i64,
    },
}

/// A blank in hand: a stretch in x and one in y.
type Blank = [(i64, i64); 2];

/// The cuts of one sheet, round by round within each blank.
///
/// # Errors
/// [`CutFault`] when the pieces lock, or the shear's limits are passed whichever way the first round goes.
pub fn cuts(problem: &Problem, sheet: &[Placed], shear: Shear) -> Result<Vec<Cut>, CutFault> {
    parted(problem, sheet, shear).map(|parted| parted.cuts)
}

/// A sheet parted by its cuts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Parted {
    /// The cuts of the sheet in order.
    pub cuts: Vec<Cut>,
    /// Blanks that hold no piece when all cuts are made: from and to along x and along y.
    pub left_over: Vec<[(i64, i64); 2]>,
}

/// The cuts of one sheet as [`cuts()`] has them, with what they leave over.
///
/// # Errors
/// As [`cuts()`].
pub fn parted(problem: &Problem, sheet: &[Placed], shear: Shear) -> Result<Parted, CutFault> {
    let (length, width) = problem.sheet();
    let blank = [(0, length), (0, width)];
    let [first, second] = [Axis::X, Axis::Y].map(|axis| Order::new(problem, shear).begun(sheet, blank, axis));
    match (first, second) {
        (Ok(one), Ok(other)) => Ok(if effort(&other.cuts) < effort(&one.cuts) { other } else { one }),
        (Ok(one), Err(_)) | (Err(_), Ok(one)) => Ok(one),
        (Err(fault), Err(_)) => Err(fault),
    }
}

/// The same where what is left over is kept from a side of `least` on: in another order of cuts, if the largest rectangle left
/// over is larger so.
///
/// # Errors
/// As [`cuts()`].
pub fn parted_for_drops(
    problem: &Problem,
    sheet: &[Placed],
    shear: Shear,
    least: i64,
) -> Result<Parted, CutFault> {
    let (length, width) = problem.sheet();
    let blank = [(0, length), (0, width)];
    let mut best = parted(problem, sheet, shear)?;
    for axis in [Axis::X, Axis::Y] {
        let joined = Order { joins_from: Some(least.max(1)), ..Order::new(problem, shear) };
        let Ok(joined) = joined.begun(sheet, blank, axis) else { continue };
        if best.largest(least) < joined.largest(least) {
            best = joined;
        }
    }
    Ok(best)
}

impl Parted {
    /// Area of the largest rectangle left over that has no side below `least`.
    fn largest(&self, least: i64) -> i128 {
        let sides = |rest: &Blank| rest.map(|(from, to)| to - from);
        let kept = self.left_over.iter().map(sides).filter(|[x, y]| least <= *x.min(y));
        kept.map(|[x, y]| i128::from(x) * i128::from(y)).max().unwrap_or(0)
    }
}

fn effort(cuts: &[Cut]) -> (u32, usize) {
    (cuts.iter().map(|cut| cut.stage).max().unwrap_or(0), cuts.len())
}

struct Order<'a> {
    problem: &'a Problem,
    shear: Shear,
    parted: Parted,
    /// The shortest side for which strips are left joined; none where they never are.
    joins_from: Option<i64>,
}

impl<'a> Order<'a> {
    const fn new(problem: &'a Problem, shear: Shear) -> Self {
        let parted = Parted { cuts: Vec::new(), left_over: Vec::new() };
        Self { problem, shear, parted, joins_from: None }
    }

    /// Parts a sheet, the first round across `axis`.
    fn begun(mut self, sheet: &[Placed], blank: Blank, axis: Axis) -> Result<Parted, CutFault> {
        self.round(blank, sheet.to_vec(), axis, 1, false)?;
        let needed = effort(&self.parted.cuts).0;
        match self.shear.stages {
            Some(allowed) if allowed < needed => Err(CutFault::Stages { needed, allowed }),
            _ => Ok(self.parted),
        }
    }

    /// The stretch of a piece along an axis.
    fn stretch(&self, placed: Placed, axis: Axis) -> (i64, i64) {
        let (length, width) = self.problem.size(placed);
        match axis {
            Axis::X => (placed.x, placed.x + length),
            Axis::Y => (placed.y, placed.y + width),
        }
    }

    /// Makes all cuts across `axis` that go through, then turns the strips. `idle` tells that the round before
    /// found nothing to cut.
    fn round(
        &mut self,
        blank: Blank,
        pieces: Vec<Placed>,
        axis: Axis,
        stage: u32,
        idle: bool,
    ) -> Result<(), CutFault> {
        let groups = self.joined(blank, self.groups(pieces, axis), axis);
        let along = axis as usize;
        let mut begin = blank[along].0;
        let mut strips = Vec::new();
        let mut made = 0;
        for (from, to, group) in groups {
            // Waste before the strip, then the strip itself.
            for (place, needed, waste_beyond) in
                [(from, begin < from, false), (to, to < blank[along].1, true)]
            {
                if needed {
                    self.cut(blank, (axis, stage), place, waste_beyond)?;
                    made += 1;
                }
            }
            self.leave(blank, along, (begin, from - self.shear.kerf));
            begin = (to + self.shear.kerf).min(blank[along].1);
            strips.push((from, to, group));
        }
        self.leave(blank, along, (begin, blank[along].1));
        let other = if axis == Axis::X { Axis::Y } else { Axis::X };
        let next = if made == 0 { stage } else { stage + 1 };
        for (from, to, group) in strips {
            let mut strip = blank;
            strip[along] = (from, to);
            let whole = group.len() == 1 && self.stretch(group[0], other) == strip[other as usize];
            if whole {
                continue;
            }
            if made == 0 && idle {
                return Err(CutFault::Locked { pieces: group.iter().map(|placed| placed.piece).collect() });
            }
            self.round(strip, group, other, next, made == 0)?;
        }
        Ok(())
    }

    /// Pieces that no cut across `axis` can part, with their stretch, in order.
    fn groups(&self, mut pieces: Vec<Placed>, axis: Axis) -> Vec<(i64, i64, Vec<Placed>)> {
        pieces.sort_unstable_by_key(|&placed| (self.stretch(placed, axis), placed));
        let mut groups: Vec<(i64, i64, Vec<Placed>)> = Vec::new();
        for placed in pieces {
            let (from, to) = self.stretch(placed, axis);
            match groups.last_mut() {
                Some((_, end, group)) if from < *end + self.problem.gap() => {
                    *end = (*end).max(to);
                    group.push(placed);
                }
                _ => groups.push((from, to, vec![placed])),
            }
        }
        groups
    }

    /// The same with those strips as one whose rest, taken off right across them, is larger than the largest rest of one of
    /// them; the last strip then reaches to the end of the blank.
    fn joined(
        &self,
        blank: Blank,
        groups: Vec<(i64, i64, Vec<Placed>)>,
        axis: Axis,
    ) -> Vec<(i64, i64, Vec<Placed>)> {
        let Some(least) = self.joins_from else { return groups };
        let other = if axis == Axis::X { Axis::Y } else { Axis::X };
        let (end, far) = (blank[axis as usize].1, blank[other as usize].1);
        let area = |across: i64, along: i64| {
            if across.min(along) < least { 0 } else { i128::from(across) * i128::from(along) }
        };
        let free = |group: &[Placed]| {
            let used = group.iter().map(|&placed| self.stretch(placed, other).1).max().unwrap_or(far);
            far - used - self.shear.kerf
        };
        let frees: Vec<i64> = groups.iter().map(|(_, _, group)| free(group)).collect();
        let reach = |last: usize| if last + 1 == groups.len() { end } else { groups[last].1 };
        let runs = (0..groups.len()).flat_map(|first| (first..groups.len()).map(move |last| (first, last)));
        let gain = |&(first, last): &(usize, usize)| {
            let across = frees[first..=last].iter().copied().min().unwrap_or(0);
            let alone = (first..=last).map(|at| area(frees[at], groups[at].1 - groups[at].0)).max();
            let joined = area(across, reach(last) - groups[first].0);
            // Reaching to the end, it takes what was over there, right across.
            let beyond = reach(last) - groups[last].1 - self.shear.kerf;
            let beyond = area(beyond, far - blank[other as usize].0);
            (joined - alone.unwrap_or(0).max(beyond), std::cmp::Reverse(last - first))
        };
        let Some((first, last)) = runs.filter(|run| 0 < gain(run).0).max_by_key(gain) else { return groups };
        let (from, to) = (groups[first].0, reach(last));
        let own: Vec<Placed> = groups[first..=last].iter().flat_map(|(_, _, own)| own.clone()).collect();
        let mut joined = groups;
        joined.splice(first..=last, [(from, to, own)]);
        joined
    }

    /// What a blank has left over along one direction; nothing where the kerf takes it.
    fn leave(&mut self, blank: Blank, along: usize, stretch: (i64, i64)) {
        if stretch.0 < stretch.1 {
            let mut rest = blank;
            rest[along] = stretch;
            self.parted.left_over.push(rest);
        }
    }

    fn cut(
        &mut self,
        blank: Blank,
        (axis, stage): (Axis, u32),
        at: i64,
        waste_beyond: bool,
    ) -> Result<(), CutFault> {
        let (from, to) = blank[1 - axis as usize];
        if let Some(longest) = self.shear.longest_cut.filter(|&longest| longest < to - from) {
            return Err(CutFault::TooLong { length: to - from, longest });
        }
        self.parted.cuts.push(Cut { stage, axis, at, waste_beyond, from, to });
        Ok(())
    }
}
