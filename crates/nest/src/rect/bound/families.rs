//! Families of dual feasible functions.

use crate::rect::bound::Block;

/// The most thresholds tried in a family.
const MOST: usize = 80;

/// One function on sizes from 0 to a whole.
#[derive(Debug, Clone)]
pub(crate) struct Function {
    whole: i64,
    kind: Kind,
}

#[derive(Debug, Clone)]
enum Kind {
    /// The size itself.
    Plain,
    /// Sizes below k count nothing, sizes that leave less than k beside them count full.
    Cut(i64),
    /// Sizes of at least k up to half the whole count one each; a larger one what it keeps out.
    Count {
        k: i64,
        /// Sums of the smallest such sizes, one more each time: how long a row of 1, 2, … of them is at least.
        rows: Vec<i64>,
    },
    /// Rounded down to whole multiples of k; a size above half is the whole less the rest, rounded.
    Multiple(i64),
    /// The next whole part of k + 1 equal parts, kept where it is met exactly.
    Share(i64),
}

impl Function {
    /// The weight of a size.
    pub(crate) fn of(&self, size: i64) -> i64 {
        let whole = self.whole;
        match &self.kind {
            Kind::Plain => size,
            &Kind::Cut(k) if whole - k < size => whole,
            &Kind::Cut(k) if size < k => 0,
            Kind::Cut(_) => size,
            Kind::Count { rows, .. } if whole < 2 * size => held(rows, whole) - held(rows, whole - size),
            Kind::Count { k, .. } => i64::from(*k <= size),
            &Kind::Multiple(k) => match (2 * size).cmp(&whole) {
                std::cmp::Ordering::Less => 2 * (size / k),
                std::cmp::Ordering::Equal => whole / k,
                std::cmp::Ordering::Greater => 2 * (whole / k - (whole - size) / k),
            },
            // Weights in parts of k · whole.
            &Kind::Share(k) => {
                let parts = size * (k + 1);
                if parts % whole == 0 { size * k } else { parts / whole * whole }
            }
        }
    }

    /// The weight of the whole.
    pub(crate) fn full(&self) -> i64 {
        match &self.kind {
            Kind::Plain | Kind::Cut(_) => self.whole,
            Kind::Count { rows, .. } => held(rows, self.whole).max(1),
            Kind::Multiple(k) => 2 * (self.whole / k),
            Kind::Share(k) => self.whole * k,
        }
    }
}

/// How many of the smallest sizes fit a room.
fn held(rows: &[i64], room: i64) -> i64 {
    i64::try_from(rows.partition_point(|&row| row <= room)).unwrap_or(i64::MAX)
}

/// The size itself.
pub(crate) const fn plain(whole: i64) -> Function {
    Function { whole, kind: Kind::Plain }
}

/// All functions worth trying for the sizes of the blocks along one side.
pub(crate) fn functions(blocks: &[Block], whole: i64, side: fn(&(i64, i64)) -> i64) -> Vec<Function> {
    let mut functions = vec![plain(whole)];
    for k in thresholds(blocks, whole, side) {
        functions.push(Function { whole, kind: Kind::Cut(k) });
        functions.push(Function { whole, kind: Kind::Multiple(k) });
        functions.push(Function { whole, kind: Kind::Count { k, rows: rows(blocks, whole, k, side) } });
    }
    functions.extend((1..=5).map(|k| Function { whole, kind: Kind::Share(k) }));
    functions
}

/// Lengths of the shortest rows of sizes from k to half the whole. A block that may be turned counts with its smaller
/// such size, which only lets more of them fit.
fn rows(blocks: &[Block], whole: i64, k: i64, side: fn(&(i64, i64)) -> i64) -> Vec<i64> {
    let smallest = |block: &Block| {
        let sizes = block.sizes.iter().map(side).filter(|&size| k <= size && 2 * size <= whole);
        sizes.min().map(|size| (size, block.quantity))
    };
    let mut sizes: Vec<(i64, i64)> = blocks.iter().filter_map(smallest).collect();
    sizes.sort_unstable();
    let mut rows = Vec::new();
    let mut length = 0;
    for (size, quantity) in sizes {
        for _ in 0..quantity {
            length += size;
            if whole < length {
                return rows;
            }
            rows.push(length);
        }
    }
    rows
}

/// Thresholds from 1 to half the whole: all of them on a coarse grid, else the sizes themselves, what they leave,
/// and whole parts of the sheet.
fn thresholds(blocks: &[Block], whole: i64, side: fn(&(i64, i64)) -> i64) -> Vec<i64> {
    let half = whole / 2;
    let mut all: Vec<i64> = if usize::try_from(half).is_ok_and(|half| half <= MOST) {
        (1..=half).collect()
    } else {
        let sizes = blocks.iter().flat_map(|block| block.sizes.iter().map(side));
        sizes
            .flat_map(|size| [size, whole - size, whole - size + 1])
            .chain((2..=8).map(|n| whole / n))
            .collect()
    };
    all.retain(|&k| 0 < k && k <= half);
    all.sort_unstable();
    all.dedup();
    let every = all.len().div_ceil(MOST).max(1);
    all.into_iter().step_by(every).collect()
}
