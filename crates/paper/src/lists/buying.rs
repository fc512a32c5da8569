//! What to buy: every choice of sheets with what becomes of its metal and what the order costs.

use estimate::{Purchase, ScrapReport};
use units::{Mass, Money};

use super::ListUnits;
use super::quote::sentences;
use super::sheet_choices::bound_words;
use super::table::{Side, Table};

/// One choice of sheets.
#[derive(Debug, Clone)]
pub struct BuyingChoice {
    /// The size or the mix.
    pub name: String,
    /// True for the one to take.
    pub chosen: bool,
    /// What comes of it, or why it cannot be.
    pub outcome: Result<BuyingOutcome, String>,
}

/// What comes of a choice.
#[derive(Debug, Clone)]
pub struct BuyingOutcome {
    /// Sheets.
    pub sheets: u32,
    /// No nest on these sheets can do with fewer.
    pub least_sheets: u32,
    /// The argument for that.
    pub reason: String,
    /// What becomes of the metal.
    pub report: ScrapReport,
    /// What the order costs on its own.
    pub purchase: Purchase,
}

/// The table of one metal.
#[must_use]
pub fn text(metal: &str, choices: &[BuyingChoice], units: ListUnits) -> String {
    let area = |name: &str| format!("{name}, {}", units.area.name());
    let (bought, used, kept, lost) = (area("bought"), area("used"), area("kept"), area("scrapped"));
    let mut table = Table::new(&[
        ("", Side::Words),
        ("sheets", Side::Words),
        ("how many", Side::Words),
        (&bought, Side::Number),
        (&used, Side::Number),
        (&kept, Side::Number),
        (&lost, Side::Number),
        ("goods", Side::Number),
        ("all", Side::Number),
    ]);
    let mut told = Vec::new();
    for choice in choices {
        match &choice.outcome {
            Ok(outcome) => {
                let [bought, used, kept, lost] = areas(&outcome.report, units);
                table.row(vec![
                    if choice.chosen { "buy".to_owned() } else { String::new() },
                    choice.name.clone(),
                    bound_words(outcome.sheets, outcome.least_sheets),
                    bought,
                    used,
                    kept,
                    lost,
                    money(outcome.purchase.goods),
                    money(outcome.purchase.total),
                ]);
                told.push(proof(&choice.name, outcome));
            }
            Err(why) => told.push(format!("{}: {why}.", choice.name)),
        }
    }
    let mut text = format!("Sheets of {metal}\n\n{}", table.text());
    sentences(&mut text, "What is proved, and what fits no sheet", &told);
    text
}

/// What is proved of a choice.
fn proof(name: &str, outcome: &BuyingOutcome) -> String {
    let BuyingOutcome { sheets, least_sheets, reason, .. } = outcome;
    if *sheets <= 1 {
        format!("{name}: one sheet; no fewer can be.")
    } else if sheets <= least_sheets {
        format!("{name}: {sheets} found, and fewer is excluded by the {reason}.")
    } else {
        format!(
            "{name}: {sheets} found; {least_sheets} is not excluded: the {reason} only rule{} out less.",
            if reason.ends_with('s') { "" } else { "s" }
        )
    }
}

/// Bought, used, kept and scrapped as printed, adding up to the last digit: what is scrapped closes the sum.
fn areas(report: &ScrapReport, units: ListUnits) -> [String; 4] {
    let lines = crate::scrap_report::printed_areas(report, units);
    let [bought, parts, kept, kerf, trim, scrap] = lines;
    [bought, parts, kept, kerf + trim + scrap].map(crate::scrap_report::print_area)
}

/// The order as a sum.
#[must_use]
pub fn order(lines: &[(String, u32, Option<Money>)], purchase: &Purchase) -> String {
    if lines.is_empty() {
        return "Nothing is to be bought.\n".to_owned();
    }
    let mut table = Table::new(&[("order", Side::Words), ("each", Side::Number), ("money", Side::Number)]);
    for ((what, quantity, price), sum) in lines.iter().zip(&purchase.lines) {
        let each = price.map_or_else(|| "no price".to_owned(), Money::print);
        table.row(vec![format!("{quantity} of {what}"), each, money(*sum)]);
    }
    table.sum(vec!["goods".to_owned(), String::new(), money(purchase.goods)]);
    let extras = [
        ("up to the minimum charge", purchase.up_to_minimum),
        ("freight for long sheets", purchase.over_length),
        ("delivery", purchase.delivery),
        ("tax", purchase.tax),
    ];
    for (what, sum) in extras {
        table.row(vec![what.to_owned(), String::new(), money(sum)]);
    }
    table.sum(vec!["all".to_owned(), String::new(), money(purchase.total)]);
    let mut text = table.text();
    let questions: Vec<String> = purchase.questions.iter().map(ToString::to_string).collect();
    sentences(&mut text, "To be asked first", &questions);
    text
}

/// The credit for scrap, sheet by sheet, as a table that adds up.
#[must_use]
pub fn credit(
    report: &ScrapReport,
    weights: &[Mass],
    credits: &[Money],
    rate: &str,
    units: ListUnits,
) -> String {
    let weight = format!("scrap and trim, {}", units.mass.name());
    let mut table = Table::new(&[("sheet", Side::Words), (&weight, Side::Number), ("credit", Side::Number)]);
    for ((sheet, weight), credit) in report.sheets.iter().zip(weights).zip(credits) {
        table.row(vec![sheet.sheet.clone(), weight.print(units.mass, 3), credit.print()]);
    }
    let sum: Money = credits.iter().copied().sum();
    let weight: Mass = weights.iter().map(|weight| weight.as_printed(units.mass, 3)).sum();
    table.sum(vec!["all".to_owned(), weight.print(units.mass, 3), sum.print()]);
    format!("Scrap credit at {rate}\n{}", table.text())
}

fn money(money: Option<Money>) -> String {
    money.map_or_else(|| "open".to_owned(), Money::print)
}
