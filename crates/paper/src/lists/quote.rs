//! A quote on paper: what there is, what it costs line by line, the price, and what is still to be asked.

use estimate::{Quote, QuoteLine};
use units::Money;

use super::table::{LINE_WIDTH, Side, Table, broken};

/// What stands around the sums.
#[derive(Debug, Clone, Default)]
pub struct QuotePaper<'a> {
    /// The job's name, revision and date in one line.
    pub heading: &'a str,
    /// The last day it holds, when said.
    pub valid_until: Option<&'a str>,
    /// What there is: a name and a value each.
    pub facts: &'a [(String, String)],
    /// What was taken for granted, one sentence each.
    pub assumptions: &'a [String],
}

/// The quote as text.
#[must_use]
pub fn text(paper: &QuotePaper<'_>, quote: &Quote) -> String {
    let valid = paper
        .valid_until
        .map_or_else(|| "Valid until: not said.".to_owned(), |day| format!("Valid until {day}."));
    let mut text = format!("Quote: {}\n{valid}\n\n{}\n", paper.heading, facts(paper.facts).text());
    text.push_str(&cost_table(&quote.lines, quote.cost, quote.known).text());
    text.push('\n');
    text.push_str(&price_table(quote).text());
    sentences(&mut text, "To be asked first", &quote.questions);
    sentences(&mut text, "Taken for granted", paper.assumptions);
    text.push_str("\nEvery line is rounded once, to the cent; sums are of the printed lines.\n");
    text
}

/// Several quotes side by side: each step of the price, a column for each.
#[must_use]
pub fn side_by_side(quotes: &[(&str, &Quote)]) -> String {
    let mut columns = vec![("", Side::Words)];
    columns.extend(quotes.iter().map(|(name, _)| (*name, Side::Number)));
    let mut table = Table::new(&columns);
    let mut groups: Vec<&str> = Vec::new();
    for (_, quote) in quotes {
        for line in &quote.lines {
            if !groups.contains(&line.group) {
                groups.push(line.group);
            }
        }
    }
    let mut row = |name: &str, of: &dyn Fn(&Quote) -> Option<Money>, sum: bool| {
        let mut cells = vec![name.to_owned()];
        cells.extend(quotes.iter().map(|(_, quote)| money(of(quote))));
        if sum { table.sum(cells) } else { table.row(cells) }
    };
    for group in groups {
        row(group, &|quote| group_sum(&quote.lines, group), false);
    }
    row("cost", &|quote| quote.cost, true);
    row("risk", &|quote| quote.risk.money, false);
    row("profit", &|quote| quote.profit.money, false);
    row("rounding up", &|quote| quote.rounding.money, false);
    row("price before tax", &|quote| quote.price, true);
    row("sales tax", &|quote| quote.tax.money, false);
    row("total", &|quote| quote.total, true);
    let open: usize = quotes.iter().map(|(_, quote)| quote.questions.len()).sum();
    let mut text = format!("Side by side\n\n{}", table.text());
    if 0 < open {
        text.push_str("\n\"open\" waits for a question of that quote.\n");
    }
    text
}

/// The sum of a group's lines; none while one is open, nothing where it has none.
fn group_sum(lines: &[QuoteLine], group: &str) -> Option<Money> {
    lines.iter().filter(|line| line.group == group).map(|line| line.money).sum()
}

fn facts(facts: &[(String, String)]) -> Table {
    let mut table = Table::new(&[("what there is", Side::Words), ("", Side::Words)]);
    facts.iter().for_each(|(name, value)| table.row(vec![name.clone(), value.clone()]));
    table
}

fn cost_table(lines: &[QuoteLine], cost: Option<Money>, known: Money) -> Table {
    let columns = [("", Side::Words), ("what", Side::Words), ("how", Side::Words), ("money", Side::Number)];
    let mut table = Table::new(&columns);
    let mut group = "";
    for line in lines {
        let heading = if line.group == group { String::new() } else { line.group.to_owned() };
        group = line.group;
        table.row(vec![heading, line.what.clone(), line.how.clone(), money(line.money)]);
    }
    match cost {
        Some(cost) => table.sum(vec!["cost".to_owned(), String::new(), String::new(), cost.print()]),
        None => table.sum(vec!["known so far".to_owned(), String::new(), String::new(), known.print()]),
    }
    table
}

fn price_table(quote: &Quote) -> Table {
    let mut table = Table::new(&[("price", Side::Words), ("money", Side::Number)]);
    table.row(vec!["cost".to_owned(), money(quote.cost)]);
    for step in [&quote.risk, &quote.profit, &quote.rounding] {
        table.row(vec![step.what.clone(), money(step.money)]);
    }
    let shares = quote.markup.zip(quote.margin).map_or_else(String::new, |(markup, margin)| {
        format!("; in all {} on cost and risk, {} of the price", markup.print(), margin.print())
    });
    table.sum(vec![format!("price before tax{shares}"), money(quote.price)]);
    table.row(vec![quote.tax.what.clone(), money(quote.tax.money)]);
    table.sum(vec!["total".to_owned(), money(quote.total)]);
    table
}

fn money(money: Option<Money>) -> String {
    money.map_or_else(|| "open".to_owned(), Money::print)
}

/// A heading and sentences under it, broken to the line; nothing where there are none.
pub(crate) fn sentences(text: &mut String, heading: &str, sentences: &[String]) {
    if sentences.is_empty() {
        return;
    }
    text.push_str(&format!("\n{heading}\n"));
    for sentence in sentences {
        for (number, line) in broken(sentence, LINE_WIDTH - 2).iter().enumerate() {
            let indent = if number == 0 { "- " } else { "  " };
            text.push_str(&format!("{indent}{line}\n"));
        }
    }
}
