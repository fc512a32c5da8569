//! The packing list of a kit: crates, layers, what lies in them, and the test strip.

use units::{Length, Mass};

use super::ListUnits;
use super::quote::sentences;
use super::table::{Side, Table};

/// Decimals of printed weights; sums are of the printed ones.
const MASS_PLACES: u8 = 2;

/// Where the weight of a flat comes from.
const FLAT_WEIGHS: &str = "printed weight of one, as in the cut list; pieces of one mark are rounded over all of them, so that they come \
                           to its line there";

/// Heading over what lies in no crate.
pub(crate) const BESIDE: &str =
    "Not in the crates, nor in their weights: pack it beside them, or say to the buyer that it stays here";

/// A kit on paper.
#[derive(Debug, Clone)]
pub struct KitPaper<'a> {
    /// The job's name, revision and date in one line.
    pub heading: &'a str,
    /// The crates.
    pub crates: &'a [CratePaper],
    /// Inside sizes, limits and packing, one sentence each.
    pub terms: &'a [String],
    /// What is sold with the flats and lies in no crate, one line each, to be ticked.
    pub beside: &'a [String],
    /// Which hand is which, one sentence a pair.
    pub hands: &'a [String],
    /// Test strips.
    pub strips: &'a [StripCard],
    /// What to know before folding, one sentence each.
    pub folding: &'a [String],
    /// What is still open, one sentence each.
    pub questions: &'a [String],
}

/// A crate on paper.
#[derive(Debug, Clone)]
pub struct CratePaper {
    /// Its number, from 1.
    pub number: usize,
    /// What it weighs empty.
    pub empty: Mass,
    /// What its packing weighs.
    pub packing: Mass,
    /// Height of layers and packing.
    pub height: Length,
    /// What lies in it, the lowest layer first.
    pub rows: Vec<KitRow>,
}

/// One flat in a crate.
#[derive(Debug, Clone)]
pub struct KitRow {
    /// Its layer, from 1 below.
    pub layer: usize,
    /// Its mark, and which copy.
    pub mark: String,
    /// The hand, in the job's own word.
    pub hand: Option<String>,
    /// What it is, and its bends.
    pub what: String,
    /// Sizes of its blank.
    pub blank: [Length; 2],
    /// What it weighs, as it prints: pieces of one mark are rounded over all of them, so that they come to their line of the cut
    /// list.
    pub weight: Mass,
    /// The sheet it was cut from.
    pub sheet: String,
}

/// How a test strip is bent, measured and told.
#[derive(Debug, Clone)]
pub struct StripCard {
    /// Its mark, metal and sheet.
    pub title: String,
    /// What to do, one step each.
    pub steps: Vec<String>,
}

impl CratePaper {
    /// What the flats weigh, as printed.
    #[must_use]
    pub fn flats(&self) -> Mass {
        self.rows.iter().map(|row| row.weight).sum()
    }

    /// Crate, packing and flats, as printed.
    #[must_use]
    pub fn gross(&self, units: ListUnits) -> Mass {
        let printed = |mass: Mass| mass.as_printed(units.mass, MASS_PLACES);
        self.flats() + printed(self.packing) + printed(self.empty)
    }
}

/// The list as text.
#[must_use]
pub fn text(kit: &KitPaper<'_>, units: ListUnits) -> String {
    let mut text = format!("Kit: {}\n\n{}", kit.heading, crates_table(kit, units).text());
    sentences(&mut text, "Crates and packing", kit.terms);
    sentences(&mut text, "Two hands: never the two of one pair in one layer", kit.hands);
    for packed in kit.crates {
        text.push_str(&format!("\n{}\n\n{}", title(packed), crate_table(packed, "[ ]", units).text()));
    }
    let beside: Vec<String> = kit.beside.iter().map(|line| format!("[ ] {line}")).collect();
    sentences(&mut text, BESIDE, &beside);
    for strip in kit.strips {
        let steps: Vec<String> =
            strip.steps.iter().enumerate().map(|(number, step)| format!("{}. {step}", number + 1)).collect();
        sentences(&mut text, &strip.title, &steps);
    }
    sentences(&mut text, "Before folding", kit.folding);
    sentences(&mut text, "Still open", kit.questions);
    text
}

/// "Crate 1 of the kit, layers from below".
#[must_use]
pub fn title(packed: &CratePaper) -> String {
    format!("Crate {}: layers are counted from below, tick each flat when it goes in", packed.number)
}

/// What the crates weigh, and how high they are filled.
pub(crate) fn crates_table(kit: &KitPaper<'_>, units: ListUnits) -> Table {
    let mass = units.mass.name();
    let names = ["flats", "packing", "crate", "in all"].map(|what| format!("{what}, {mass}"));
    let mut table = Table::new(&[
        ("crate", Side::Words),
        ("layers", Side::Number),
        ("pieces", Side::Number),
        ("filled to", Side::Number),
        (&names[0], Side::Number),
        (&names[1], Side::Number),
        (&names[2], Side::Number),
        (&names[3], Side::Number),
    ]);
    let sum = "sum of the column";
    table.says_from([
        ["", ""],
        ["layers that the flats were packed in", ""],
        ["flats in the crate", sum],
        ["thickest flat of each layer, lugs on it where their height is given, and the packing under, between and over them", ""],
        ["sum of the weights of its flats, as their lines print", sum],
        ["weight per area of the packing (kit.packing) × inside length × width × sheets of it", sum],
        ["weight of the empty crate (kit.crates.empty)", sum],
        ["flats + packing + crate, as printed", sum],
    ]);
    let print = |mass: Mass| mass.print(units.mass, MASS_PLACES);
    let mut sums = [Mass::ZERO; 4];
    let mut pieces = 0;
    for packed in kit.crates {
        let weights = [packed.flats(), packed.packing, packed.empty, packed.gross(units)];
        for (sum, weight) in sums.iter_mut().zip(weights) {
            *sum += weight.as_printed(units.mass, MASS_PLACES);
        }
        pieces += packed.rows.len();
        let layers = packed.rows.iter().map(|row| row.layer).max().unwrap_or(0);
        let mut cells = vec![
            format!("crate {}", packed.number),
            layers.to_string(),
            packed.rows.len().to_string(),
            packed.height.print(units.length),
        ];
        cells.extend(weights.map(print));
        table.row(cells);
    }
    let mut cells = vec!["all".to_owned(), String::new(), pieces.to_string(), String::new()];
    cells.extend(sums.map(print));
    table.sum(cells);
    table
}

/// What lies in one crate; `tick` is the box to tick.
pub(crate) fn crate_table(packed: &CratePaper, tick: &str, units: ListUnits) -> Table {
    let weight = format!("weight, {}", units.mass.name());
    let with_hands = packed.rows.iter().any(|row| row.hand.is_some());
    let mut columns = vec![("", Side::Words), ("layer", Side::Number), ("mark", Side::Words)];
    if with_hands {
        columns.push(("hand", Side::Words));
    }
    columns.extend([
        ("what", Side::Words),
        ("blank", Side::Words),
        ("sheet", Side::Words),
        (weight.as_str(), Side::Number),
    ]);
    let mut table = Table::new(&columns);
    table.says_from(columns.iter().map(|(heading, side)| match (*heading, side) {
        ("layer", _) => ["layer that the flat was packed in, counted from below", ""],
        ("blank", _) => ["smallest upright rectangle round the flat", ""],
        (_, Side::Number) => [FLAT_WEIGHS, "sum of the column"],
        _ => ["", ""],
    }));
    for row in &packed.rows {
        let mut cells = vec![tick.to_owned(), row.layer.to_string(), row.mark.clone()];
        if with_hands {
            cells.push(row.hand.as_ref().map(|hand| hand.to_uppercase()).unwrap_or_default());
        }
        let [a, b] = row.blank.map(|side| side.print(units.length));
        cells.push(row.what.clone());
        cells.push(format!("{a} × {b}"));
        cells.push(row.sheet.clone());
        cells.push(row.weight.print(units.mass, MASS_PLACES));
        table.row(cells);
    }
    let mut cells = vec![String::new(), String::new(), format!("{} pieces", packed.rows.len())];
    cells.resize(columns.len() - 1, String::new());
    cells.push(packed.flats().print(units.mass, MASS_PLACES));
    table.sum(cells);
    table
}
