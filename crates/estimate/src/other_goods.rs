//! What is bought beside sheets and bars, coverings and wear liner, from a supplier of their own: an order with its minimum,
//! delivery and tax.

use units::Money;

use crate::percent::Percent;

/// The terms of that supplier. What is not given is asked for, never taken as nothing; who pays none writes 0.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct GoodsTerms {
    /// Least sum of goods in one order.
    pub minimum_charge: Option<Money>,
    /// Delivery of one order.
    pub delivery: Option<Money>,
    /// Tax on all of it; zero where the prices include it.
    pub tax: Option<Percent>,
}

/// Such an order priced.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct GoodsOrder {
    /// The sum of the lines; none if one has no price.
    pub goods: Option<Money>,
    /// What lifts the goods to the minimum.
    pub up_to_minimum: Option<Money>,
    /// Delivery.
    pub delivery: Option<Money>,
    /// Tax.
    pub tax: Option<Money>,
    /// All of it; none if any of it is not known.
    pub total: Option<Money>,
    /// What must be asked before the total is known; prices of the lines are asked for where they stand.
    pub questions: Vec<String>,
}

impl GoodsTerms {
    /// Prices an order of these lines. Nothing ordered costs nothing and asks nothing.
    #[must_use]
    pub fn order(&self, lines: &[Option<Money>]) -> GoodsOrder {
        if lines.is_empty() {
            let nothing = Some(Money::ZERO);
            return GoodsOrder {
                goods: nothing,
                up_to_minimum: nothing,
                delivery: nothing,
                tax: nothing,
                total: nothing,
                questions: Vec::new(),
            };
        }
        let goods: Option<Money> = lines.iter().copied().sum();
        let up_to_minimum =
            self.minimum_charge.zip(goods).map(|(least, goods)| (least - goods).max(Money::ZERO));
        let before_tax: Option<Money> = [goods, up_to_minimum, self.delivery].into_iter().sum();
        let tax = self.tax.zip(before_tax).map(|(tax, sum)| tax.of(sum));
        let total = before_tax.zip(tax).map(|(sum, tax)| sum + tax);
        GoodsOrder { goods, up_to_minimum, delivery: self.delivery, tax, total, questions: self.questions() }
    }

    fn questions(&self) -> Vec<String> {
        let asked = [
            (
                self.minimum_charge.is_none(),
                "What is the least order of coverings and liner?",
                "minimum_charge",
                "0 for none",
            ),
            (
                self.delivery.is_none(),
                "What does delivery of coverings and liner cost?",
                "delivery",
                "0 for none",
            ),
            (
                self.tax.is_none(),
                "What tax does the shop pay on coverings and liner?",
                "tax",
                "0 where the prices include it",
            ),
        ];
        let open = asked.into_iter().filter(|(open, ..)| *open);
        open.map(|(_, question, field, zero)| {
            format!("{question} \"{field}\" under \"buying.coverings\" is not set; {zero}.")
        })
        .collect()
    }
}
