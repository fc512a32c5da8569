//! Sheets as received, and what of the job changes by them.

use units::{Length, LengthStyle, Mass};

use super::ListUnits;
use super::quote::sentences;
use super::table::{Side, Table};

/// A sheet as received.
#[derive(Debug, Clone)]
pub struct ReceivedRow {
    /// What is chalked on it.
    pub mark: String,
    /// The job's name for its metal.
    pub metal: String,
    /// The size ordered, the size it has, and the size it holds when squared.
    pub sizes: [[Length; 2]; 3],
    /// The thickness ordered and that by caliper.
    pub thickness: [Length; 2],
}

/// A part and what changes in it.
#[derive(Debug, Clone)]
pub struct ChangeRow {
    /// The mark.
    pub mark: String,
    /// Its blank as ordered and as received.
    pub blanks: [[Length; 2]; 2],
    /// Its weight as ordered and as received.
    pub weights: [Mass; 2],
}

/// The tables, and what is to be said about them.
#[must_use]
pub fn text(
    heading: &str,
    sheets: &[ReceivedRow],
    parts: &[ChangeRow],
    told: &[String],
    (units, fine): (ListUnits, LengthStyle),
) -> String {
    let mut text = format!("Sheets received: {heading}\n");
    let mut table = Table::new(&[
        ("sheet", Side::Words),
        ("metal", Side::Words),
        ("ordered", Side::Words),
        ("is", Side::Words),
        ("holds", Side::Words),
        ("thickness", Side::Number),
        ("ordered", Side::Number),
    ]);
    let pair = |[a, b]: [Length; 2], style: LengthStyle| format!("{} × {}", a.print(style), b.print(style));
    for row in sheets {
        let [ordered, is, holds] = row.sizes.map(|size| pair(size, units.length));
        let [wanted, measured] = row.thickness.map(|thickness| thickness.print(fine));
        table.row(vec![row.mark.clone(), row.metal.clone(), ordered, is, holds, measured, wanted]);
    }
    text.push_str(&format!("\n{}", table.text()));
    let weight = format!("weight, {}", units.mass.name());
    let mut table = Table::new(&[
        ("part", Side::Words),
        ("blank as ordered", Side::Words),
        ("blank as received", Side::Words),
        ("moves", Side::Number),
        (&weight, Side::Number),
        ("as received", Side::Number),
    ]);
    for row in parts {
        let moves = [0, 1].map(|axis| (row.blanks[1][axis] - row.blanks[0][axis]).print(fine));
        let [before, after] = row.blanks.map(|blank| pair(blank, fine));
        let [was, is] = row.weights.map(|weight| weight.print(units.mass, weight.places_of_one(units.mass)));
        table.row(vec![row.mark.clone(), before, after, moves.join(", "), was, is]);
    }
    text.push_str(&format!("\n{}", table.text()));
    sentences(&mut text, "What changed", told);
    text
}
