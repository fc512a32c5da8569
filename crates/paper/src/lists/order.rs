//! The order to the supplier: what is bought, how it is packed, and what is measured when it comes.

use super::quote::sentences;
use super::table::{LINE_WIDTH, Side, Table, broken, hung};

/// An order on paper. What is not said is left blank to fill in by hand.
#[derive(Debug, Clone, Default)]
pub struct OrderPaper<'a> {
    /// The job's name, revision and date in one line.
    pub heading: &'a str,
    /// Supplier, number, place and day: what it is, and what it says.
    pub head: &'a [(&'a str, Option<String>)],
    /// What is ordered.
    pub lines: &'a [SupplyLine],
    /// Sums: what, and how much.
    pub sums: &'a [(String, String)],
    /// Packing and papers, one sentence each.
    pub packing: &'a [String],
    /// What is taken from the rack and not ordered, and what else there is to say of it.
    pub rack: &'a [String],
    /// What to settle before it is sent.
    pub questions: &'a [String],
    /// How to measure, one sentence each.
    pub measuring: &'a [String],
}

/// One line of an order.
#[derive(Debug, Clone, Default)]
pub struct SupplyLine {
    /// How many, of what: "2 sheets".
    pub quantity: String,
    /// The metal in the supplier's words, thickness and size.
    pub what: String,
    /// Everything else, a name and a text each.
    pub terms: Vec<(&'static str, String)>,
    /// What to check of each on arrival.
    pub checks: Vec<Check>,
}

/// The check of one sheet or stick on arrival.
#[derive(Debug, Clone, Default)]
pub struct Check {
    /// Which.
    pub which: String,
    /// What must be so, a box to tick each.
    pub boxes: Vec<String>,
    /// What is measured, how many blanks, and what it should be.
    pub blanks: Vec<(&'static str, usize, String)>,
    /// How what was measured is entered.
    pub entry: String,
}

/// A blank to write in.
const BLANK: &str = "________";

/// The order as text.
#[must_use]
pub fn text(paper: &OrderPaper<'_>) -> String {
    let mut text = format!("Order: {}\n", paper.heading);
    if paper.lines.is_empty() {
        text.push_str("\nNo sheet, bar or pipe is to be ordered.\n");
        sentences(&mut text, "From the rack", paper.rack);
        return text;
    }
    let mut head = Table::new(&[("to whom, where, when", Side::Words), ("", Side::Words)]);
    for (what, says) in paper.head {
        head.row(vec![(*what).to_owned(), says.clone().unwrap_or_else(|| BLANK.repeat(4))]);
    }
    text.push_str(&format!("\n{}", head.text()));
    for (number, line) in paper.lines.iter().enumerate() {
        text.push_str(&format!("\n{}. {}\n", number + 1, line_text(line)));
    }
    if !paper.sums.is_empty() {
        let mut sums = Table::new(&[("in all", Side::Words), ("", Side::Number)]);
        paper.sums.iter().for_each(|(what, sum)| sums.row(vec![what.clone(), sum.clone()]));
        text.push_str(&format!("\n{}", sums.text()));
    }
    sentences(&mut text, "Packing and papers", paper.packing);
    sentences(&mut text, "From the rack, not ordered", paper.rack);
    sentences(&mut text, "To be settled before it is sent", paper.questions);
    text.push_str(&checks_text(paper));
    text
}

fn line_text(line: &SupplyLine) -> String {
    let mut text = format!("{}: {}", line.quantity, line.what);
    let widest = line.terms.iter().map(|(name, _)| name.chars().count()).max().unwrap_or(0);
    for (name, words) in &line.terms {
        let room = LINE_WIDTH.saturating_sub(widest + 6);
        for (number, piece) in broken(words, room).iter().enumerate() {
            let name = if number == 0 { name } else { "" };
            text.push_str(&format!("\n   {name:<widest$}   {piece}"));
        }
    }
    text
}

fn checks_text(paper: &OrderPaper<'_>) -> String {
    let mut text = "\nReceiving check, before the delivery note is signed\n".to_owned();
    for sentence in paper.measuring {
        text.push_str(&hung("- ", sentence));
    }
    for (number, line) in paper.lines.iter().enumerate() {
        for check in &line.checks {
            text.push_str(&format!("\n{}. {}\n", number + 1, check_text(check)));
        }
    }
    text
}

fn check_text(check: &Check) -> String {
    let boxes: Vec<String> = check.boxes.iter().map(|what| format!("[ ] {what}")).collect();
    let mut text = format!("{}   looked at by {BLANK}  on {BLANK}", check.which);
    for line in packed(&boxes) {
        text.push_str(&format!("\n   {line}"));
    }
    for (what, count, wanted) in &check.blanks {
        let blanks = vec![BLANK; *count].join("  ");
        text.push_str(&format!("\n   {what} {blanks}   ordered {wanted}"));
    }
    if !check.entry.is_empty() {
        text.push_str(&format!("\n   enter: {}", check.entry));
    }
    text
}

/// Boxes to a line as long as they find room; none is broken.
fn packed(boxes: &[String]) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for piece in boxes {
        match lines.last_mut() {
            Some(line) if line.chars().count() + 3 + piece.chars().count() <= LINE_WIDTH - 3 => {
                line.push_str(&format!("   {piece}"));
            }
            _ => lines.push(piece.clone()),
        }
    }
    lines
}
