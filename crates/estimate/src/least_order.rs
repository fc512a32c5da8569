//! Which way to get the sheets of every metal makes the whole order least.
//!
//! The minimum charge, freight, delivery and tax are of the order, so the metals cannot be chosen one by one: a longer
//! sheet that is the cheaper one of its metal may bring freight for all.

use std::cmp::Reverse;

use units::{Area, Money};

use crate::purchase::{OrderLine, Terms, cut_count};

/// One way to get the sheets of a metal.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Way {
    /// What is ordered.
    pub lines: Vec<OrderLine>,
    /// Whether pieces of the shop's rack are used up with it.
    pub takes_of_rack: bool,
    /// What can be used of the largest drop that is worth keeping; nothing where none is.
    pub largest_drop: Area,
}

/// What the ways chosen so far come to, as far as the terms ask for it.
#[derive(Debug, Clone)]
struct Sums {
    goods: Money,
    cuts: Money,
    is_long: bool,
    is_empty: bool,
    /// How many metals take pieces of the rack, then the largest drops, one of each metal, added up: the larger is the better
    /// of two orders of one sum.
    merits: (u32, Area),
    picks: Vec<usize>,
}

/// For every metal the way, by its place, with which the order is least; `fixed` is ordered in any case.
///
/// Terms that are not set, and lines without a price, count as nothing: they are asked for elsewhere. Of ways that come to
/// the same the one is taken with which more metals take of the rack; then the one that leaves the larger drops to keep, the
/// largest of each metal added up; then the one with less goods, then the earlier. Where two ways of a metal order the same and differ in what they take of the rack, the
/// earlier stands for both. Exact: sums are left out only where others do better whatever is added to both.
#[must_use]
pub fn least_order(terms: &Terms, fixed: &[OrderLine], metals: &[Vec<Way>]) -> Vec<usize> {
    let nothing = Sums {
        goods: Money::ZERO,
        cuts: Money::ZERO,
        is_long: false,
        is_empty: true,
        merits: (0, Area::ZERO),
        picks: Vec::with_capacity(metals.len()),
    };
    let mut all = vec![nothing.with(terms, fixed)];
    for ways in metals {
        let mut next: Vec<Sums> = Vec::new();
        for sums in &all {
            for (number, way) in ways.iter().enumerate() {
                if ways[..number].iter().any(|earlier| earlier.lines == way.lines) {
                    continue;
                }
                let mut more = sums.with(terms, &way.lines);
                more.merits.0 += u32::from(way.takes_of_rack);
                more.merits.1 += way.largest_drop;
                more.picks.push(number);
                if next.iter().any(|known| known.does_no_worse_than(&more, terms)) {
                    continue;
                }
                next.retain(|known| !more.does_no_worse_than(known, terms));
                next.push(more);
            }
        }
        all = next;
    }
    let least = all.into_iter().min_by_key(|sums| (sums.total(terms), Reverse(sums.merits), sums.goods));
    least.map_or_else(Vec::new, |sums| sums.picks)
}

impl Sums {
    fn with(&self, terms: &Terms, lines: &[OrderLine]) -> Self {
        let goods = lines.iter().filter_map(|line| Some(line.price? * i64::from(line.quantity)));
        let charge = terms.cut_charge.unwrap_or(Money::ZERO);
        Self {
            goods: self.goods + goods.sum(),
            cuts: self.cuts + charge * cut_count(lines),
            is_long: self.is_long
                || terms.over_length.and_then(|rule| rule.is_paid_for(lines)).unwrap_or(false),
            is_empty: self.is_empty && lines.iter().all(|line| line.quantity == 0),
            merits: self.merits,
            picks: self.picks.clone(),
        }
    }

    /// True where no line added to both could make the other the better. The other's merits count only where it may still
    /// come to the same: not where its goods are above the minimum and above these, so that it always costs more.
    fn does_no_worse_than(&self, other: &Self, terms: &Terms) -> bool {
        let least = terms.minimum_charge.unwrap_or(Money::ZERO);
        self.goods <= other.goods
            && self.cuts <= other.cuts
            && self.is_long <= other.is_long
            && other.is_empty <= self.is_empty
            && (other.merits <= self.merits || self.goods.max(least) < other.goods)
    }

    fn total(&self, terms: &Terms) -> Money {
        if self.is_empty {
            return Money::ZERO;
        }
        let lifted = self.goods.max(terms.minimum_charge.unwrap_or(Money::ZERO));
        let freight = terms.over_length.filter(|_| self.is_long).and_then(|rule| rule.freight);
        let freight = freight.unwrap_or(Money::ZERO);
        let before_tax = lifted + self.cuts + freight + terms.delivery.unwrap_or(Money::ZERO);
        before_tax + terms.tax.map_or(Money::ZERO, |tax| tax.of(before_tax))
    }
}
