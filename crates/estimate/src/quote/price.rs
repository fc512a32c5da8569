//! From cost to price: risk, profit, rounding and sales tax, each a line of its own.

use units::Money;

use crate::percent::{Percent, cents};

/// How the price follows from the cost.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Pricing {
    /// For what may go wrong, on cost; apart from profit.
    pub risk: Option<Percent>,
    /// Profit, on cost and risk.
    pub profit: Option<Profit>,
    /// The price before tax is rounded up to a multiple of this.
    pub round_up_to: Option<Money>,
    /// Tax that the customer pays.
    pub sales_tax: Option<Percent>,
}

/// Profit, in either of the two ways of the trade.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Profit {
    /// On cost.
    Markup(Percent),
    /// Of the price; below a whole.
    Margin(Percent),
}

/// One line of cost.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct QuoteLine {
    /// Which heading it stands under, like `work`.
    pub group: &'static str,
    /// What it is.
    pub what: String,
    /// How it was worked out, in words.
    pub how: String,
    /// What it costs; below zero for a credit; none while a question is open.
    pub money: Option<Money>,
}

/// One step from cost to price.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// What it is.
    pub what: String,
    /// The sum; none while a question is open.
    pub money: Option<Money>,
}

/// The quote.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct Quote {
    /// Lines of cost.
    pub lines: Vec<QuoteLine>,
    /// The sum of the lines that are known.
    pub known: Money,
    /// The sum of all lines; none while one is open.
    pub cost: Option<Money>,
    /// Risk.
    pub risk: Step,
    /// Profit.
    pub profit: Step,
    /// What rounding up adds.
    pub rounding: Step,
    /// Price before tax: cost + risk + profit + rounding.
    pub price: Option<Money>,
    /// Sales tax.
    pub tax: Step,
    /// What the customer pays.
    pub total: Option<Money>,
    /// Profit and rounding as a share of cost and risk.
    pub markup: Option<Percent>,
    /// Profit and rounding as a share of the price.
    pub margin: Option<Percent>,
    /// Questions that keep it open, each once.
    pub questions: Vec<String>,
}

/// Prices the lines. `asked` are the questions behind open lines.
#[must_use]
pub fn quote(pricing: &Pricing, lines: Vec<QuoteLine>, asked: &[String]) -> Quote {
    let mut questions: Vec<String> = Vec::new();
    for question in asked {
        if !questions.contains(question) {
            questions.push(question.clone());
        }
    }
    questions.extend(pricing.questions());
    let known = lines.iter().filter_map(|line| line.money).sum();
    let cost: Option<Money> = lines.iter().map(|line| line.money).sum();
    let risk = cost.zip(pricing.risk).map(|(cost, risk)| risk.of(cost));
    let carried = cost.zip(risk).map(|(cost, risk)| cost + risk);
    let profit = carried.zip(pricing.profit).and_then(|(carried, profit)| profit.of(carried));
    let unrounded = carried.zip(profit).map(|(carried, profit)| carried + profit);
    let price = unrounded.zip(pricing.round_up_to).map(|(price, step)| rounded_up(price, step));
    let rounding = price.zip(unrounded).map(|(price, unrounded)| price - unrounded);
    let tax = price.zip(pricing.sales_tax).map(|(price, tax)| tax.of(price));
    let total = price.zip(tax).map(|(price, tax)| price + tax);
    let gain = price.zip(carried).map(|(price, carried)| price - carried);
    let share = |whole: Option<Money>| {
        let (gain, whole) = gain.zip(whole)?;
        Percent::share(i128::from(gain.cents()), i128::from(whole.cents()))
    };
    let of = |name: &str, percent: Option<Percent>, on: &str| {
        percent
            .map_or_else(|| format!("{name}, not set"), |percent| format!("{name}, {}{on}", percent.print()))
    };
    let rounding_words = pricing.round_up_to.map_or_else(
        || "rounding up, not set".to_owned(),
        |step| format!("rounding up to a multiple of {}", step.print()),
    );
    Quote {
        known,
        cost,
        risk: Step { what: of("risk", pricing.risk, " of cost"), money: risk },
        profit: Step {
            what: pricing.profit.map_or_else(|| "profit, not set".to_owned(), Profit::words),
            money: profit,
        },
        rounding: Step { what: rounding_words, money: rounding },
        price,
        tax: Step { what: of("sales tax", pricing.sales_tax, " of the price"), money: tax },
        total,
        markup: share(carried),
        margin: share(price),
        lines,
        questions,
    }
}

/// The next multiple of `step` at or above `money`; the sum itself for a step of nothing.
fn rounded_up(money: Money, step: Money) -> Money {
    let (money_cents, step_cents) = (i128::from(money.cents()), i128::from(step.cents()));
    if step_cents <= 0 {
        return money;
    }
    let floor = money_cents.div_euclid(step_cents);
    let whole = floor + i128::from(money_cents.rem_euclid(step_cents) != 0);
    cents(Some(whole * step_cents))
}

impl Profit {
    fn of(self, carried: Money) -> Option<Money> {
        match self {
            Self::Markup(markup) => Some(markup.of(carried)),
            Self::Margin(margin) => margin.profit_as_margin(carried),
        }
    }

    /// "profit, markup 25.00 % on cost and risk (margin 20.00 % of the price)".
    fn words(self) -> String {
        let (markup, margin) = match self {
            Self::Markup(markup) => (Some(markup), markup.markup_to_margin()),
            Self::Margin(margin) => (margin.margin_to_markup(), Some(margin)),
        };
        let print = |percent: Option<Percent>| percent.map_or_else(String::new, Percent::print);
        format!("profit, markup {} = margin {}", print(markup), print(margin))
    }
}

impl Pricing {
    fn questions(&self) -> Vec<String> {
        let ask = |set: bool, question: &str| (!set).then(|| question.to_owned());
        let asked = [
            ask(
                self.risk.is_some(),
                "How much is added for risk? \"risk\" under \"quote\" is not set; 0 for none.",
            ),
            ask(
                self.profit.is_some(),
                "What is the profit? Neither \"markup\" nor \"margin\" under \"quote\" is set.",
            ),
            ask(
                self.round_up_to.is_some(),
                "What is the price rounded up to? \"round_up_to\" under \"quote\" is not set; 0.01 for the cent.",
            ),
            ask(
                self.sales_tax.is_some(),
                "What sales tax is due? \"sales_tax\" under \"quote\" is not set; 0 for none.",
            ),
        ];
        asked.into_iter().flatten().collect()
    }
}

/// Waste on the parts and waste of what was bought, the two ways of the trade: `w` on parts is `w / (1 + w)` of bought.
#[must_use]
pub fn waste(parts: i128, bought: i128) -> Option<(Percent, Percent)> {
    Some((Percent::share(bought - parts, parts)?, Percent::share(bought - parts, bought)?))
}
