//! A quote on paper: what there is, what it costs line by line, the price, and what is still to be asked.

use estimate::{Quote, QuoteLine};
use units::{Mass, Money, rounding};

use super::table::{Side, Table, hung};
use super::{ListUnits, in_currency, money_words};

/// What stands around the sums.
#[derive(Debug, Clone, Default)]
pub struct QuotePaper<'a> {
    /// The job's name, revision and date in one line.
    pub heading: &'a str,
    /// The last day it holds, when said.
    pub valid_until: Option<&'a str>,
    /// The currency, as the shop writes it.
    pub currency: Option<&'a str>,
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
    let money = hung("", &money_words(paper.currency));
    let mut text = format!("Quote: {}\n{valid}\n{money}", paper.heading);
    if let Some(incomplete) = incomplete_words(quote) {
        text.push_str(&hung("", &incomplete));
    }
    text.push_str(&format!("\n{}\n", facts(paper.facts).text()));
    text.push_str(&cost_table(&quote.lines, quote.cost, quote.known).text());
    text.push('\n');
    text.push_str(&price_table(quote, paper.currency).text());
    sentences(&mut text, "To be asked first", &quote.questions);
    sentences(&mut text, "Taken for granted", paper.assumptions);
    text.push_str("\nEvery line is rounded once, to the cent; sums are of the printed lines.\n");
    text
}

/// That no sum here is the price while a question is open.
fn incomplete_words(quote: &Quote) -> Option<String> {
    if quote.questions.is_empty() && quote.total.is_some() {
        return None;
    }
    if quote.total.is_some() {
        return Some("INCOMPLETE, not to be sent until the questions below are answered.".to_owned());
    }
    let open = quote.lines.iter().filter(|line| line.money.is_none()).count();
    let lines = match open {
        0 => String::new(),
        1 => "1 line is open and ".to_owned(),
        open => format!("{open} lines are open and "),
    };
    Some(format!(
        "INCOMPLETE, not to be sent: {lines}there is no price until the questions below are answered. \"known so far\" is the \
         sum of the lines that are known and not the cost."
    ))
}

/// A quote among others.
#[derive(Debug, Clone)]
pub struct Compared<'a> {
    /// The job, or the option of it.
    pub name: &'a str,
    /// What is different from the first, in words, where that is known.
    pub differences: &'a [String],
    /// What all parts weigh.
    pub weight: Mass,
    /// Sheets that are bought, and pieces of the rack.
    pub sheets: [usize; 2],
    /// Thousandths of a minute of the maker and of a second hand, where every rate is set.
    pub minutes: Option<[i64; 2]>,
    /// The sums.
    pub quote: &'a Quote,
}

/// Several quotes side by side, a column for each, and in words what differs from the first.
#[must_use]
pub fn side_by_side(quotes: &[Compared<'_>], units: ListUnits) -> String {
    let letters: Vec<String> = (0..quotes.len()).map(letter).collect();
    let mut text = String::from("Side by side\n");
    for (letter, one) in letters.iter().zip(quotes) {
        let differences: String = one.differences.iter().map(|words| format!("; {words}")).collect();
        text.push_str(&hung(&format!("{letter}  "), &format!("{}{differences}", one.name)));
    }
    text.push_str(&format!("\n{}\n", compared(&letters, quotes, units).text()));
    for (letter, one) in letters.iter().zip(quotes).skip(1) {
        text.push_str(&hung("", &format!("{letter} {}.", against(one, &quotes[0], units))));
    }
    for (letter, one) in letters.iter().zip(quotes) {
        let heading = format!("{letter} is open: to be asked first");
        sentences(&mut text, &heading, &one.quote.questions);
    }
    text
}

/// A, B … Z, then numbers.
fn letter(number: usize) -> String {
    let letter =
        u8::try_from(number).ok().filter(|number| *number < 26).map(|number| char::from(b'A' + number));
    letter.map_or_else(|| (number + 1).to_string(), String::from)
}

fn compared(letters: &[String], quotes: &[Compared<'_>], units: ListUnits) -> Table {
    let mut columns = vec![("", Side::Words)];
    columns.extend(letters.iter().map(|letter| (letter.as_str(), Side::Number)));
    let mut table = Table::new(&columns);
    let mut row = |name: &str, of: &dyn Fn(&Compared<'_>) -> String, sum: bool| {
        let mut cells = vec![name.to_owned()];
        cells.extend(quotes.iter().map(of));
        if sum { table.sum(cells) } else { table.row(cells) }
    };
    row(&format!("parts, {}", units.mass.name()), &|one| one.weight.print(units.mass, 2), false);
    row("sheets bought", &|one| one.sheets[0].to_string(), false);
    if quotes.iter().any(|one| 0 < one.sheets[1]) {
        row("pieces of the rack", &|one| one.sheets[1].to_string(), false);
    }
    row("hours, maker", &|one| hours(one.minutes.map(|[maker, _]| maker)), false);
    row("hours, second hand", &|one| hours(one.minutes.map(|[_, second]| second)), false);
    let mut groups: Vec<&str> = Vec::new();
    for line in quotes.iter().flat_map(|one| &one.quote.lines) {
        if !groups.contains(&line.group) {
            groups.push(line.group);
        }
    }
    for group in groups {
        row(group, &|one| money(group_sum(&one.quote.lines, group)), false);
    }
    row("cost", &|one| money(one.quote.cost), true);
    row("risk", &|one| money(one.quote.risk.money), false);
    row("profit", &|one| money(one.quote.profit.money), false);
    row("rounding up", &|one| money(one.quote.rounding.money), false);
    row("price before tax", &|one| money(one.quote.price), true);
    row("sales tax", &|one| money(one.quote.tax.money), false);
    row("total", &|one| money(one.quote.total), true);
    table
}

/// Hours to a tenth.
fn hours(thousandths: Option<i64>) -> String {
    const THOUSANDTHS_PER_TENTH: i128 = 6_000;
    let tenths = thousandths.and_then(|count| rounding::divide(i128::from(count), THOUSANDTHS_PER_TENTH));
    tenths.map_or_else(|| "open".to_owned(), |tenths| format!("{}.{}", tenths / 10, tenths % 10))
}

/// "costs 120.00 less than A, weighs 3.20 lb more, takes 1 sheet fewer and 2.0 hours less".
fn against(one: &Compared<'_>, first: &Compared<'_>, units: ListUnits) -> String {
    let more = |is_more: bool| if is_more { "more" } else { "less" };
    let cost = match one.quote.total.zip(first.quote.total) {
        None => "cannot be compared with A in money while one of them is open".to_owned(),
        Some((this, that)) if this == that => "costs the same as A".to_owned(),
        Some((this, that)) => {
            let by = if that < this { this - that } else { that - this };
            format!("costs {} {} than A", by.print(), more(that < this))
        }
    };
    let mut words = vec![cost];
    let weight = |one: &Compared<'_>| one.weight.as_printed(units.mass, 2);
    let (this, that) = (weight(one), weight(first));
    if this != that {
        let by = if that < this { this - that } else { that - this };
        words.push(format!("weighs {} {}", by.print_with_unit(units.mass, 2), more(that < this)));
    }
    let [this, that] = [one, first].map(|one| one.sheets[0]);
    if this != that {
        let by = this.abs_diff(that);
        let noun = if by == 1 { "sheet" } else { "sheets" };
        words.push(format!("takes {by} {noun} {}", if that < this { "more" } else { "fewer" }));
    }
    if let Some(([this, _], [that, _])) = one.minutes.zip(first.minutes) {
        let by = hours(Some((this - that).abs()));
        if by != "0.0" {
            words.push(format!("takes the maker {by} hours {}", more(that < this)));
        }
    }
    words.join(", ")
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
        None => table.sum(vec![
            "known so far, incomplete".to_owned(),
            String::new(),
            String::new(),
            known.print(),
        ]),
    }
    table
}

fn price_table(quote: &Quote, currency: Option<&str>) -> Table {
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
    table.sum(vec![in_currency("total", currency), money(quote.total)]);
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
        text.push_str(&hung("- ", sentence));
    }
}
