//! The problem as the search sees it: equal pieces in one kind, kerf added to every piece and every stick.

use super::problem::Problem;

/// Pieces of one length.
#[derive(Debug, Clone)]
pub(super) struct Kind {
    /// Length and one kerf, in steps.
    pub(super) length: i64,
    /// How many are needed.
    pub(super) demand: i64,
    /// The pieces of the problem with this length and their quantities.
    pub(super) pieces: Vec<(usize, usize)>,
}

/// One stick length.
#[derive(Debug, Clone, Copy)]
pub(super) struct Stock {
    /// What the pieces, each with one kerf, may fill: length less both trims and one kerf more, in steps.
    pub(super) room: i64,
    /// Price of one.
    pub(super) price: i64,
    /// How many there are.
    pub(super) limit: Option<i64>,
}

/// What is cut from one stick: how many of which kinds, in order of kind.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Pattern {
    /// Number of the stick length.
    pub(super) stick: usize,
    /// Kinds and how many of each, none zero.
    pub(super) takes: Vec<(usize, i64)>,
}

/// The problem as the search sees it.
#[derive(Debug, Clone)]
pub(super) struct Model {
    /// Longest first.
    pub(super) kinds: Vec<Kind>,
    /// In the order of the problem.
    pub(super) stocks: Vec<Stock>,
    /// Every cost is a multiple of this; 1 if all prices are zero.
    pub(super) cost_step: i64,
}

impl Model {
    pub(super) fn new(problem: &Problem) -> Self {
        let saw = problem.saw();
        let mut order: Vec<usize> = (0..problem.pieces().len()).collect();
        order.sort_by_key(|&piece| (-problem.pieces()[piece].length, piece));
        let mut kinds: Vec<Kind> = Vec::new();
        for piece in order {
            let (length, quantity) =
                (problem.pieces()[piece].length + saw.kerf, problem.pieces()[piece].quantity);
            match kinds.last_mut().filter(|kind| kind.length == length) {
                Some(kind) => {
                    kind.demand += count(quantity);
                    kind.pieces.push((piece, quantity));
                }
                None => kinds.push(Kind { length, demand: count(quantity), pieces: vec![(piece, quantity)] }),
            }
        }
        let stocks: Vec<Stock> = problem
            .sticks()
            .iter()
            .map(|stick| Stock {
                room: (stick.length - 2 * saw.end_trim + saw.kerf).max(0),
                price: stick.price,
                limit: stick.limit.map(count),
            })
            .collect();
        let cost_step = stocks.iter().fold(0, |step, stock| common_divisor(step, stock.price)).max(1);
        Self { kinds, stocks, cost_step }
    }

    /// The same without prices: any list that keeps to the limits costs 0.
    pub(super) fn without_prices(&self) -> Self {
        let mut free = self.clone();
        free.stocks.iter_mut().for_each(|stock| stock.price = 0);
        free.cost_step = 1;
        free
    }

    /// The demands, by kind.
    pub(super) fn demand(&self) -> Vec<i64> {
        self.kinds.iter().map(|kind| kind.demand).collect()
    }

    /// The highest price; at least 1.
    pub(super) fn top_price(&self) -> i64 {
        self.stocks.iter().map(|stock| stock.price).max().unwrap_or(1).max(1)
    }

    /// What these patterns cost.
    pub(super) fn cost(&self, patterns: &[Pattern]) -> i64 {
        patterns.iter().map(|pattern| self.stocks[pattern.stick].price).sum()
    }
}

/// A count as a signed number; counts beyond its range cannot matter and become its largest.
fn count(quantity: usize) -> i64 {
    i64::try_from(quantity).unwrap_or(i64::MAX)
}

fn common_divisor(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { common_divisor(b, a % b) }
}
