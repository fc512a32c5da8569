//! What an order of sheets costs: the sheets, up to the supplier's minimum, the supplier's cuts, freight, delivery and tax.

use units::{Length, Money};

use crate::percent::Percent;

/// A supplier's terms. What is not given is asked for, never taken as nothing; who pays none writes 0.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Terms {
    /// Least sum of goods in one order.
    pub minimum_charge: Option<Money>,
    /// For one cut through a sheet that the supplier brings to its size.
    pub cut_charge: Option<Money>,
    /// Freight for sheets that are too long to go with the rest.
    pub over_length: Option<OverLength>,
    /// Delivery of one order.
    pub delivery: Option<Money>,
    /// Tax on all of it.
    pub tax: Option<Percent>,
}

/// Freight for long sheets. What is not given is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OverLength {
    /// Sheets longer than this pay it.
    pub longer_than: Option<Length>,
    /// For one order, however many there are.
    pub freight: Option<Money>,
}

/// One line of an order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OrderLine {
    /// What it is, like `skin 48 × 96`.
    pub what: String,
    /// How many.
    pub quantity: u32,
    /// The longer side.
    pub length: Length,
    /// Cuts that the supplier makes to bring one of them to its size.
    pub cuts: u32,
    /// Price of one.
    pub price: Option<Money>,
    /// Where its price stands in the job, like `"price" under "sheets"`.
    pub priced_in: &'static str,
}

/// An order priced.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct Purchase {
    /// Every line's price times its quantity.
    pub lines: Vec<Option<Money>>,
    /// The sum of the lines; none if one has no price.
    pub goods: Option<Money>,
    /// What lifts the goods to the minimum.
    pub up_to_minimum: Option<Money>,
    /// The supplier's cuts; nothing where none is made.
    pub cuts: Option<Money>,
    /// Freight for long sheets.
    pub over_length: Option<Money>,
    /// Delivery.
    pub delivery: Option<Money>,
    /// Tax.
    pub tax: Option<Money>,
    /// All of it; none if any of it is not known.
    pub total: Option<Money>,
    /// What must be asked before the total is known.
    pub questions: Vec<PurchaseQuestion>,
}

/// What an order's price still waits for.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PurchaseQuestion {
    /// A sheet or stick without a price.
    #[error("What does one {what} cost? {priced_in} is not set.")]
    Price {
        /// Which.
        what: String,
        /// Where its price stands in the job.
        priced_in: &'static str,
    },
    /// No minimum.
    #[error(
        "What is the supplier's minimum charge? \"minimum_charge\" under \"buying\" is not set; 0 for none."
    )]
    MinimumCharge,
    /// Sheets that the supplier cuts, and no price for a cut.
    #[error(
        "What does the supplier ask for a cut through a sheet? \"cut_charge\" under \"buying\" is not set; 0 for nothing."
    )]
    CutCharge,
    /// No freight for long sheets.
    #[error(
        "What does freight for long sheets cost, and from what length? \"over_length\" under \"buying\" is not set."
    )]
    OverLength,
    /// The length from which freight is paid, and not how much.
    #[error(
        "What does freight for long sheets cost? \"freight\" of \"over_length\" under \"buying\" is not set; 0 for nothing."
    )]
    Freight,
    /// Freight, and not from what length.
    #[error(
        "From what length do sheets pay freight? \"longer_than\" of \"over_length\" under \"buying\" is not set."
    )]
    LongerThan,
    /// No delivery.
    #[error("What does delivery cost? \"delivery\" under \"buying\" is not set; 0 for none.")]
    Delivery,
    /// No tax.
    #[error("What tax does the shop pay on metal? \"tax\" under \"buying\" is not set; 0 for none.")]
    Tax,
}

/// Prices an order. Nothing ordered costs nothing and asks nothing.
#[must_use]
pub fn purchase(terms: &Terms, order: &[OrderLine]) -> Purchase {
    if order.iter().all(|line| line.quantity == 0) {
        let nothing = Some(Money::ZERO);
        return Purchase {
            lines: vec![nothing; order.len()],
            goods: nothing,
            up_to_minimum: nothing,
            cuts: nothing,
            over_length: nothing,
            delivery: nothing,
            tax: nothing,
            total: nothing,
            questions: Vec::new(),
        };
    }
    let lines: Vec<Option<Money>> =
        order.iter().map(|line| Some(line.price? * i64::from(line.quantity))).collect();
    let goods: Option<Money> = lines.iter().copied().sum();
    let up_to_minimum =
        terms.minimum_charge.zip(goods).map(|(least, goods)| (least - goods).max(Money::ZERO));
    let cut_count = cut_count(order);
    let cuts =
        if cut_count == 0 { Some(Money::ZERO) } else { terms.cut_charge.map(|charge| charge * cut_count) };
    let over_length = terms.over_length.and_then(|rule| rule.of(order));
    let delivery = terms.delivery;
    let before_tax: Option<Money> = [goods, up_to_minimum, cuts, over_length, delivery].into_iter().sum();
    let tax = terms.tax.zip(before_tax).map(|(tax, sum)| tax.of(sum));
    let total = before_tax.zip(tax).map(|(sum, tax)| sum + tax);
    let questions = questions(terms, order);
    Purchase { lines, goods, up_to_minimum, cuts, over_length, delivery, tax, total, questions }
}

/// How many cuts the supplier makes for the whole order.
pub(crate) fn cut_count(order: &[OrderLine]) -> i64 {
    order.iter().map(|line| i64::from(line.quantity) * i64::from(line.cuts)).sum()
}

impl OverLength {
    /// Whether something of the order is too long to go with the rest; none while it is not said what is.
    pub(crate) fn is_paid_for(&self, order: &[OrderLine]) -> Option<bool> {
        let longer_than = self.longer_than?;
        Some(order.iter().any(|line| 0 < line.quantity && longer_than < line.length))
    }

    /// The freight of an order; none while it must be asked for.
    fn of(&self, order: &[OrderLine]) -> Option<Money> {
        match (self.is_paid_for(order), self.freight) {
            (_, Some(Money::ZERO)) | (Some(false), _) => Some(Money::ZERO),
            (Some(true), freight) => freight,
            (None, _) => None,
        }
    }

    fn question(&self) -> PurchaseQuestion {
        match (self.longer_than, self.freight) {
            (None, None) => PurchaseQuestion::OverLength,
            (None, Some(_)) => PurchaseQuestion::LongerThan,
            (Some(_), _) => PurchaseQuestion::Freight,
        }
    }
}

fn questions(terms: &Terms, order: &[OrderLine]) -> Vec<PurchaseQuestion> {
    let unpriced = order.iter().filter(|line| line.price.is_none());
    let mut questions: Vec<PurchaseQuestion> = unpriced
        .map(|line| PurchaseQuestion::Price { what: line.what.clone(), priced_in: line.priced_in })
        .collect();
    let freight = terms.over_length.map_or(PurchaseQuestion::OverLength, |rule| rule.question());
    let freight_is_known = terms.over_length.and_then(|rule| rule.of(order)).is_some();
    let unset = [
        (terms.minimum_charge.is_none(), PurchaseQuestion::MinimumCharge),
        (terms.cut_charge.is_none() && 0 < cut_count(order), PurchaseQuestion::CutCharge),
        (!freight_is_known, freight),
        (terms.delivery.is_none(), PurchaseQuestion::Delivery),
        (terms.tax.is_none(), PurchaseQuestion::Tax),
    ];
    questions.extend(unset.into_iter().filter_map(|(unset, question)| unset.then_some(question)));
    questions
}
