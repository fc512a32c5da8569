//! What comes out of a blank by rounds of through cuts.
//!
//! A round parts a blank across one axis into strips, each as long as what lies in it, and every strip is cut the other way in
//! the next round, unless it is one piece that fills it. So a *row* across an axis is strips beside one another, and a strip is
//! a piece or a row the other way, of a round less. All cuts of a round are as long as the blank is wide. Of all rows of a set
//! those count that are not longer and wider than another. A row of which some strip is a piece that no further cut may trim must be
//! as wide as that piece, exactly: it does not *give*.

use crate::rect::exact::sets::Sets;
use crate::rect::exact::{Blank, Kind, Steps};
use crate::rect::problem::Shear;

/// A row of a set, or a strip.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Row {
    /// How long it is along the axis it is cut across.
    along: i64,
    /// How wide the other way.
    across: i64,
    /// Whether it comes out of a wider blank too.
    gives: bool,
    made: Made,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Made {
    /// One piece of a kind.
    Piece { kind: usize },
    /// A strip that is a row the other way, of a round less: its number.
    Across(usize),
    /// A first strip, and the row of the rest: the set of the first, its number among strips, and the number among rows.
    Strips { first: usize, strip: usize, rest: usize },
}

/// The rows of all sets that some rounds of cuts make, by the axis of the first; their sizes and how they come about.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
struct Level {
    strips: [Vec<Vec<Row>>; 2],
    /// Of two strips or more.
    parted: [Vec<Vec<Row>>; 2],
    /// Of any number of strips.
    rows: [Vec<Vec<Row>>; 2],
}

/// All that comes out of sheets of some sizes.
pub(super) struct Rows<'a> {
    kinds: &'a [Kind],
    sets: &'a Sets,
    gap: i64,
    shear: Shear,
    sizes: &'a [(i64, i64)],
    /// By the number of rounds, from one; where rounds are not limited, one level of all.
    levels: Vec<Level>,
}

/// How a set lies on a sheet: the axis that is cut across first and the row.
#[derive(Debug, Clone, Copy)]
pub(super) struct Laid {
    set: usize,
    axis: usize,
    row: Row,
}

impl<'a> Rows<'a> {
    /// Works out the rows of all sets that some sheet holds. `None` where that is more than so many steps.
    pub(super) fn new(
        (kinds, sets): (&'a [Kind], &'a Sets),
        gap: i64,
        shear: Shear,
        sizes: &'a [(i64, i64)],
        steps: &mut Steps,
    ) -> Option<Self> {
        let mut rows = Self { kinds, sets, gap, shear, sizes, levels: Vec::new() };
        let Some(stages) = shear.stages else {
            rows.levels.push(Level::default());
            rows.fill(0, steps)?;
            return Some(rows);
        };
        for round in 0..stages as usize {
            rows.levels.push(Level::default());
            rows.fill(round, steps)?;
            // A round that makes nothing new makes nothing new ever after.
            if let [.., before, last] = &rows.levels[..]
                && before.has_sizes_of(last)
            {
                break;
            }
        }
        Some(rows)
    }

    /// Works out a level, smaller sets first.
    fn fill(&mut self, level: usize, steps: &mut Steps) -> Option<()> {
        let none = || [vec![Vec::new()], vec![Vec::new()]];
        self.levels[level] = Level { strips: none(), parted: none(), rows: none() };
        for set in 1..self.sets.count() {
            let parted = [self.parted(level, set, 0, steps)?, self.parted(level, set, 1, steps)?];
            for (axis, parted) in parted.into_iter().enumerate() {
                self.levels[level].parted[axis].push(parted);
            }
            for axis in [0, 1] {
                let strips = self.strips(level, set, axis);
                let now = &mut self.levels[level];
                let all = now.parted[axis][set].iter().chain(&strips).copied().collect();
                now.rows[axis].push(least(all));
                now.strips[axis].push(strips);
            }
        }
        Some(())
    }

    /// The level of a round less; none below the last round.
    fn below(&self, level: usize) -> Option<usize> {
        if self.shear.stages.is_none() { Some(level) } else { level.checked_sub(1) }
    }

    /// A set as one strip.
    fn strips(&self, level: usize, set: usize, axis: usize) -> Vec<Row> {
        let mut found = Vec::new();
        let below = self.below(level);
        if let Some(kind) = self.sets.single(set) {
            let Kind { length, width, may_turn, .. } = self.kinds[kind];
            let turns: &[bool] = if may_turn { &[false, true] } else { &[false] };
            for &turned in turns {
                let size = if turned { [width, length] } else { [length, width] };
                let (along, across) = (size[axis], size[1 - axis]);
                let gives = below.is_some() && self.is_short(along);
                found.push(Row { along, across, gives, made: Made::Piece { kind } });
            }
        }
        if let Some(below) = below {
            let others = self.levels[below].parted[1 - axis][set].iter().enumerate();
            found.extend(others.map(|(number, row)| Row {
                along: row.across,
                across: row.along,
                gives: true,
                made: Made::Across(number),
            }));
        }
        found.retain(|row| self.is_possible(row, axis));
        least(found)
    }

    /// A set as two strips or more.
    fn parted(&self, level: usize, set: usize, axis: usize, steps: &mut Steps) -> Option<Vec<Row>> {
        let Level { strips, rows, .. } = &self.levels[level];
        if self.sets.one_less(set).any(|less| less != 0 && rows[axis][less].is_empty()) {
            return Some(Vec::new());
        }
        let mut found = Vec::new();
        for first in self.sets.firsts(set) {
            if first == set {
                continue;
            }
            let (ones, others) = (&strips[axis][first], &rows[axis][set - first]);
            steps.spend(1 + ones.len() + others.len())?;
            let joined = pairs(ones, others).into_iter().map(|(strip, rest)| Row {
                along: ones[strip].along + self.gap + others[rest].along,
                across: ones[strip].across.max(others[rest].across),
                gives: ones[strip].gives && others[rest].gives,
                made: Made::Strips { first, strip, rest },
            });
            found.extend(joined.filter(|row| self.is_possible(row, axis)));
        }
        Some(least(found))
    }

    /// Whether the blade makes a cut of a length.
    fn is_short(&self, cut: i64) -> bool {
        self.shear.longest_cut.is_none_or(|longest| cut <= longest)
    }

    /// Whether a row fits some sheet and may be cut.
    fn is_possible(&self, row: &Row, axis: usize) -> bool {
        let fits = |&(length, width): &(i64, i64)| {
            let size = [length, width];
            row.along <= size[axis] && row.across <= size[1 - axis]
        };
        self.is_short(row.across) && self.sizes.iter().any(fits)
    }

    /// How a set lies on a sheet, if it does.
    pub(super) fn on_sheet(&self, set: usize, (length, width): (i64, i64)) -> Option<Laid> {
        let size = [length, width];
        if let Some(kind) = self.sets.single(set) {
            // One that fills the sheet takes no cut.
            let own = &self.kinds[kind];
            let is_turned = own.may_turn && size == [own.width, own.length];
            if is_turned || size == [own.length, own.width] {
                let made = Made::Piece { kind };
                let row = Row { along: length, across: width, gives: false, made };
                return Some(Laid { set, axis: 0, row });
            }
        }
        let level = self.levels.last()?;
        let on = |axis: usize| {
            let (long, wide) = (size[axis], size[1 - axis]);
            let fits =
                |row: &&Row| row.along <= long && (row.across == wide || (row.gives && row.across < wide));
            let row = level.rows[axis].get(set)?.iter().find(fits).filter(|_| self.is_short(wide))?;
            Some(Laid { set, axis, row: *row })
        };
        on(0).or_else(|| on(1))
    }

    /// Where the pieces of a set lie on its sheet.
    pub(super) fn blanks(&self, laid: &Laid) -> Vec<Blank> {
        let mut blanks = Vec::new();
        let level = self.levels.len().saturating_sub(1);
        self.lay((level, laid.axis), laid.set, laid.row, [0, 0], &mut blanks);
        blanks
    }

    fn lay(
        &self,
        (level, axis): (usize, usize),
        set: usize,
        row: Row,
        at: [i64; 2],
        blanks: &mut Vec<Blank>,
    ) {
        match row.made {
            Made::Piece { kind } => {
                let size = if axis == 0 { [row.along, row.across] } else { [row.across, row.along] };
                blanks.push(Blank { kind, at, size });
            }
            Made::Across(number) => {
                let below = self.below(level).unwrap_or(0);
                let other = self.levels[below].parted[1 - axis][set][number];
                self.lay((below, 1 - axis), set, other, at, blanks);
            }
            Made::Strips { first, strip, rest } => {
                let now = &self.levels[level];
                let (one, other) = (now.strips[axis][first][strip], now.rows[axis][set - first][rest]);
                self.lay((level, axis), first, one, at, blanks);
                let mut next = at;
                next[axis] += one.along + self.gap;
                self.lay((level, axis), set - first, other, next, blanks);
            }
        }
    }
}

impl Level {
    /// Whether strips and rows have the same sizes.
    fn has_sizes_of(&self, other: &Self) -> bool {
        let sizes = |level: &Self| -> Vec<Vec<(i64, i64, bool)>> {
            let of = |rows: &Vec<Row>| rows.iter().map(|row| (row.along, row.across, row.gives)).collect();
            level.strips.iter().chain(&level.parted).flatten().map(of).collect()
        };
        sizes(self) == sizes(other)
    }
}

/// Which of the first go beside which of the second, by their numbers, but those that are longer for no less width. Both are as
/// [`least`] leaves them.
fn pairs(ones: &[Row], others: &[Row]) -> Vec<(usize, usize)> {
    let giving = |rows: &[Row]| rows.partition_point(|row| row.gives);
    let (a, b) = (giving(ones), giving(others));
    let mut found = Vec::new();
    let (mut one, mut other) = (0, 0);
    // From the shortest on: only a narrower one instead of the wider of the two makes a narrower row.
    while one < a && other < b {
        found.push((one, other));
        let order = ones[one].across.cmp(&others[other].across);
        one += usize::from(order.is_ge());
        other += usize::from(order.is_le());
    }
    // One that does not give takes the shortest that is no wider, or is as wide.
    for (exact, width) in ones.iter().map(|row| row.across).enumerate().skip(a) {
        found.extend(others[..b].iter().position(|row| row.across <= width).map(|other| (exact, other)));
        let as_wide = (b..others.len()).filter(|&other| others[other].across == width);
        found.extend(as_wide.map(|other| (exact, other)));
    }
    for (exact, width) in others.iter().map(|row| row.across).enumerate().skip(b) {
        found.extend(ones[..a].iter().position(|row| row.across <= width).map(|one| (one, exact)));
    }
    found
}

/// The rows that no other one fits within: of those that do not give only one of the same width does. First those that give, the
/// shortest and widest first, then the others.
fn least(mut rows: Vec<Row>) -> Vec<Row> {
    rows.sort_by_key(|row| (row.along, row.across, !row.gives));
    let mut narrowest = i64::MAX;
    let mut exact: Vec<i64> = Vec::new();
    rows.retain(|row| {
        let kept = row.across < narrowest && (row.gives || !exact.contains(&row.across));
        if kept && row.gives {
            narrowest = row.across;
        } else if kept {
            exact.push(row.across);
        }
        kept
    });
    rows.sort_by_key(|row| !row.gives);
    rows
}
