//! What to buy: every choice of sheets with what becomes of its metal and what the order costs.

use estimate::{GoodsOrder, PrintedMass, Purchase, ScrapReport};
use units::{Area, Money};

use super::quote::sentences;
use super::sheet_choices::Proof;
use super::table::{Side, Table};
use super::{ListUnits, in_currency};
use crate::scrap_report::print_mass;

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
    /// What is proved of it.
    pub proof: Proof,
    /// What becomes of the metal, bought and of the rack.
    pub report: ScrapReport,
    /// Areas of the pieces of the rack in it.
    pub from_rack: Vec<Area>,
    /// What the order costs on its own.
    pub purchase: Purchase,
}

/// The tables of one metal: what becomes of the metal of each choice, and what each would cost.
#[must_use]
pub fn text(metal: &str, choices: &[BuyingChoice], units: ListUnits) -> String {
    let outcomes = || choices.iter().filter_map(|choice| Some((choice, choice.outcome.as_ref().ok()?)));
    let with_rack = outcomes().any(|(_, outcome)| !outcome.from_rack.is_empty());
    let area = |name: &str| format!("{name}, {}", units.area.name());
    let (bought, rack, used) = (area("bought"), area("of the rack"), area("used"));
    let (kept, lost) = (area("kept"), area("scrapped"));
    let mut columns = vec![
        ("", Side::Words),
        ("sheets", Side::Words),
        ("how many", Side::Words),
        (&bought, Side::Number),
        (&used, Side::Number),
        (&kept, Side::Number),
        (&lost, Side::Number),
    ];
    if with_rack {
        columns.insert(4, (&rack, Side::Number));
    }
    let mut table = Table::new(&columns);
    let buy = |choice: &BuyingChoice| match &choice.outcome {
        Ok(outcome) if choice.chosen && outcome.from_rack.len() == outcome.sheets as usize => "take",
        _ if choice.chosen => "buy",
        _ => "",
    };
    for (choice, outcome) in outcomes() {
        let [bought, rack, used, kept, lost] = areas(outcome, units);
        let is_priced = outcome.purchase.goods.is_some();
        let mut cells = vec![
            buy(choice).to_owned(),
            choice.name.clone(),
            outcome.proof.words(outcome.sheets, is_priced),
            bought,
            used,
            kept,
            lost,
        ];
        if with_rack {
            cells.insert(4, rack);
        }
        table.row(cells);
    }
    let rows: Vec<(&str, &str, &Purchase)> =
        outcomes().map(|(choice, outcome)| (buy(choice), choice.name.as_str(), &outcome.purchase)).collect();
    let told: Vec<String> = choices
        .iter()
        .map(|choice| match &choice.outcome {
            Ok(outcome) => outcome.proof.sentence(&choice.name, outcome.sheets, units),
            Err(why) => format!("{}: {why}.", choice.name),
        })
        .collect();
    let mut text = format!("Sheets of {metal}\n\n{}\n{}", table.text(), sums(&rows).text());
    sentences(&mut text, "What is proved, and what fits no sheet", &told);
    text
}

/// What each choice comes to as an order of its own: a mark, its name, the order.
pub(crate) fn sums(rows: &[(&str, &str, &Purchase)]) -> Table {
    let mut table = Table::new(&[
        ("", Side::Words),
        ("sheets", Side::Words),
        ("goods", Side::Number),
        ("minimum", Side::Number),
        ("cuts", Side::Number),
        ("long freight", Side::Number),
        ("delivery", Side::Number),
        ("tax", Side::Number),
        ("all", Side::Number),
    ]);
    table.says_from([
        ["", ""],
        ["", ""],
        ["number of sheets × their prices (sheets in the job)", ""],
        ["what lifts the goods to the supplier's minimum (buying in the job)", ""],
        ["the supplier's cuts × their price (sheets and buying in the job)", ""],
        ["freight where a sheet is too long to go with the rest (buying in the job)", ""],
        ["delivery of one order (buying in the job)", ""],
        ["tax on all of it (buying in the job)", ""],
        ["goods + minimum + cuts + long freight + delivery + tax, as an order of its own", ""],
    ]);
    for (mark, name, order) in rows {
        let sums = [
            order.goods,
            order.up_to_minimum,
            order.cuts,
            order.over_length,
            order.delivery,
            order.tax,
            order.total,
        ];
        let mut cells = vec![(*mark).to_owned(), (*name).to_owned()];
        cells.extend(sums.map(money));
        table.row(cells);
    }
    table
}

/// Bought, of the rack, used, kept and scrapped as printed, adding up to the last digit: what is bought and what is scrapped
/// close the sums.
fn areas(outcome: &BuyingOutcome, units: ListUnits) -> [String; 5] {
    let lines = crate::scrap_report::printed_areas(&outcome.report, units);
    let [all, parts, kept, kerf, trim, scrap] = lines;
    let rack =
        outcome.from_rack.iter().map(|area| crate::scrap_report::area_count(*area, units)).sum::<i128>();
    [all - rack, rack, parts, kept, kerf + trim + scrap].map(crate::scrap_report::print_area)
}

/// The order as a sum.
#[must_use]
pub fn order(lines: &[(String, u32, Option<Money>)], purchase: &Purchase, currency: Option<&str>) -> String {
    if lines.is_empty() {
        return "No sheet, bar or pipe is to be bought.\n".to_owned();
    }
    let mut table = Table::new(&[("order", Side::Words), ("each", Side::Number), ("money", Side::Number)]);
    for ((what, quantity, price), sum) in lines.iter().zip(&purchase.lines) {
        let each = price.map_or_else(|| "no price".to_owned(), Money::print);
        table.row(vec![format!("{quantity} of {what}"), each, money(*sum)]);
    }
    table.sum(vec!["goods".to_owned(), String::new(), money(purchase.goods)]);
    let extras = [
        ("up to the minimum charge", purchase.up_to_minimum),
        ("the supplier's cuts", purchase.cuts),
        ("freight for long sheets", purchase.over_length),
        ("delivery", purchase.delivery),
        ("tax", purchase.tax),
    ];
    for (what, sum) in extras {
        table.row(vec![what.to_owned(), String::new(), money(sum)]);
    }
    table.sum(vec![in_currency("all", currency), String::new(), money(purchase.total)]);
    let mut text = table.text();
    let questions: Vec<String> = purchase.questions.iter().map(ToString::to_string).collect();
    sentences(&mut text, "To be asked first", &questions);
    text
}

/// The order of coverings and liner as a sum, what each is and what it comes to first.
#[must_use]
pub fn goods_order(lines: &[(String, Option<Money>)], order: &GoodsOrder, currency: Option<&str>) -> String {
    let mut table =
        Table::new(&[("coverings and liner, an order of their own", Side::Words), ("money", Side::Number)]);
    for (what, sum) in lines {
        table.row(vec![what.clone(), sum.map_or_else(|| "no price".to_owned(), Money::print)]);
    }
    table.sum(vec!["goods".to_owned(), money(order.goods)]);
    let extras =
        [("up to the minimum charge", order.up_to_minimum), ("delivery", order.delivery), ("tax", order.tax)];
    for (what, sum) in extras {
        table.row(vec![what.to_owned(), money(sum)]);
    }
    table.sum(vec![in_currency("all", currency), money(order.total)]);
    let mut text = table.text();
    sentences(&mut text, "To be asked first", &order.questions);
    text
}

/// What the dealer pays for the scrap, sheet by sheet.
#[derive(Debug, Clone)]
pub struct ScrapCredit {
    /// Scrap and edge trim of every sheet, in the report's order.
    pub weights: Vec<PrintedMass>,
    /// What is paid for each.
    pub credits: Vec<Money>,
    /// At what rate, in words.
    pub rate: String,
}

impl ScrapCredit {
    /// "Scrap credit at .55 a lb".
    pub(crate) fn heading(&self) -> String {
        format!("Scrap credit at {}", self.rate)
    }

    /// As a table that adds up.
    pub(crate) fn table(&self, report: &ScrapReport, units: ListUnits) -> Table {
        let weight = format!("scrap and trim, {}", units.mass.name());
        let mut table =
            Table::new(&[("from sheet", Side::Words), (&weight, Side::Number), ("credit", Side::Number)]);
        table.says_from([
            ["", ""],
            ["lines of scrap and edge trim of the sheet (scrap report), added up", "sum of the column"],
            ["printed weight × the dealer's rate (buying in the job), rounded once", "sum of the credits"],
        ]);
        for ((sheet, weight), credit) in report.sheets.iter().zip(&self.weights).zip(&self.credits) {
            table.row(vec![sheet.sheet.clone(), print_mass(weight.hundredths), credit.print()]);
        }
        let sum: Money = self.credits.iter().copied().sum();
        let weight = self.weights.iter().map(|weight| weight.hundredths).sum();
        table.sum(vec!["all".to_owned(), print_mass(weight), sum.print()]);
        table
    }

    /// As text.
    #[must_use]
    pub fn text(&self, report: &ScrapReport, units: ListUnits) -> String {
        format!("{}\n{}", self.heading(), self.table(report, units).text())
    }
}

fn money(money: Option<Money>) -> String {
    money.map_or_else(|| "open".to_owned(), Money::print)
}
