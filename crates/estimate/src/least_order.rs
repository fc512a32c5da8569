//! Which way to get the sheets of every metal makes the whole order least.
//!
//! The minimum charge, freight, delivery and tax are of the order, so the metals cannot be chosen one by one: a longer
//! sheet that is the cheaper one of its metal may bring freight for all.

use units::Money;

use crate::purchase::{OrderLine, Terms, cut_count};

/// What the lines chosen so far come to, as far as the terms ask for it.
#[derive(Debug, Clone)]
struct Sums {
    goods: Money,
    cuts: Money,
    is_long: bool,
    is_empty: bool,
    picks: Vec<usize>,
}

/// For every metal the way, by its place, with which the order is least; `fixed` is ordered in any case.
///
/// Terms that are not set, and lines without a price, count as nothing: they are asked for elsewhere. Of ways that come to
/// the same the one with less goods is taken, then the earlier. Exact: sums that are in nothing less than others are left
/// out, which no further line can make good.
#[must_use]
pub fn least_order(terms: &Terms, fixed: &[OrderLine], metals: &[Vec<Vec<OrderLine>>]) -> Vec<usize> {
    let nothing = Sums {
        goods: Money::ZERO,
        cuts: Money::ZERO,
        is_long: false,
        is_empty: true,
        picks: Vec::with_capacity(metals.len()),
    };
    let mut all = vec![nothing.with(terms, fixed)];
    for ways in metals {
        let mut next: Vec<Sums> = Vec::new();
        for sums in &all {
            for (number, way) in ways.iter().enumerate() {
                let mut more = sums.with(terms, way);
                more.picks.push(number);
                if next.iter().any(|known| known.is_no_more_than(&more)) {
                    continue;
                }
                next.retain(|known| !more.is_no_more_than(known));
                next.push(more);
            }
        }
        all = next;
    }
    let least = all.into_iter().min_by_key(|sums| (sums.total(terms), sums.goods));
    least.map_or_else(Vec::new, |sums| sums.picks)
}

impl Sums {
    fn with(&self, terms: &Terms, lines: &[OrderLine]) -> Self {
        let goods = lines.iter().filter_map(|line| Some(line.price? * i64::from(line.quantity)));
        let charge = terms.cut_charge.unwrap_or(Money::ZERO);
        Self {
            goods: self.goods + goods.sum(),
            cuts: self.cuts + charge * cut_count(lines),
            is_long: self.is_long || terms.over_length.is_some_and(|rule| rule.is_paid_for(lines)),
            is_empty: self.is_empty && lines.iter().all(|line| line.quantity == 0),
            picks: self.picks.clone(),
        }
    }

    /// True where no line added to both could make the other the lesser.
    fn is_no_more_than(&self, other: &Self) -> bool {
        self.goods <= other.goods
            && self.cuts <= other.cuts
            && self.is_long <= other.is_long
            && other.is_empty <= self.is_empty
    }

    fn total(&self, terms: &Terms) -> Money {
        if self.is_empty {
            return Money::ZERO;
        }
        let lifted = self.goods.max(terms.minimum_charge.unwrap_or(Money::ZERO));
        let freight = terms.over_length.filter(|_| self.is_long).map_or(Money::ZERO, |rule| rule.freight);
        let before_tax = lifted + self.cuts + freight + terms.delivery.unwrap_or(Money::ZERO);
        before_tax + terms.tax.map_or(Money::ZERO, |tax| tax.of(before_tax))
    }
}
