//! The packet: one HTML page that holds everything, self-contained, quiet, and ready to print in black and white.
//!
//! No scripts, no outside files: drawings stand in the page as SVG, the style sheet in its head. Every part and every
//! sheet starts a printed page of its own; wide drawings ask for landscape paper.

mod leaves;
mod sections;
mod style;

pub use leaves::{PaperSize, leaves, pdf};

use estimate::ScrapReport;

use crate::layout_sheet::Fact;
use crate::lists::ListUnits;
use crate::lists::cut_list::CutRow;
use crate::lists::sheet_choices::SheetChoice;
use crate::markup::Markup;
use crate::page::Page;

/// Said over the scrap report.
const SCRAP_SUM: &str = "Bought = parts + kept drops + kerf + edge trim + scrap. Every sheet is rounded once; sums are of \
                         the printed numbers.";

/// What is said over the order of cuts.
fn over_the_cuts() -> String {
    let from = "Measured from the datum corner of the sheet, lower left on its map, in the units of the map.";
    format!("{from} {}", crate::cautions::CUTTING_UP)
}

/// All that a packet shows.
#[derive(Debug, Clone, Copy)]
pub struct Packet<'a> {
    /// Name of the job.
    pub job: &'a str,
    /// What else stands in its head, such as date and revision: name and value.
    pub head: &'a [(String, String)],
    /// What was assumed, one sentence each.
    pub assumptions: &'a [String],
    /// What to look at before cutting, one sentence each.
    pub cautions: &'a [String],
    /// The standing cautions, see [`crate::cautions`].
    pub standing_cautions: &'a [String],
    /// The openings the parts are made to, each with its facts.
    pub openings: &'a [FactTable],
    /// Whether the parts fit where they go.
    pub fits: &'a [DrawnFit],
    /// The choice of sheets, one table a metal.
    pub choices: &'a [MetalChoices],
    /// The sheet maps.
    pub sheets: &'a [DrawnSheet],
    /// The parts.
    pub parts: &'a [DrawnPart],
    /// Labels for the parts and drops.
    pub labels: &'a [PieceLabel],
    /// The cut list.
    pub cut_list: &'a [CutRow],
    /// What became of the metal, with its picture, if anything was nested.
    pub scrap: Option<(&'a ScrapReport, &'a Page)>,
    /// The units of the lists.
    pub units: ListUnits,
}

/// What is stuck on a part or a drop.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PieceLabel {
    /// The mark, and which one of how many.
    pub mark: String,
    /// What it is, a line each.
    pub words: Vec<String>,
}

/// Facts under a heading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FactTable {
    /// The heading.
    pub name: String,
    /// The facts.
    pub facts: Vec<Fact>,
}

/// A fit check with its answer.
#[derive(Debug, Clone, PartialEq)]
pub struct DrawnFit {
    /// The parts and the question: "T, out level".
    pub title: String,
    /// The answer, in one sentence.
    pub answer: String,
    /// The numbers behind it.
    pub facts: Vec<Fact>,
    /// Its pictures, if there are any.
    pub page: Option<Page>,
}

/// The sheets that were compared for one metal.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MetalChoices {
    /// The metal, in words.
    pub metal: String,
    /// The choices.
    pub choices: Vec<SheetChoice>,
}

/// A sheet map with its name.
#[derive(Debug, Clone, PartialEq)]
pub struct DrawnSheet {
    /// Name of the sheet.
    pub name: String,
    /// Its map.
    pub page: Page,
    /// The order of cuts on it, one sentence a step, if it was asked for.
    pub steps: Vec<String>,
}

/// A part with its drawing and every number's origin.
#[derive(Debug, Clone, PartialEq)]
pub struct DrawnPart {
    /// Its mark.
    pub mark: String,
    /// What it is, in words.
    pub title: String,
    /// How many to make.
    pub quantity: u32,
    /// Its layout sheet.
    pub page: Page,
    /// Its crowded corners, if it has any.
    pub details: Option<Page>,
    /// Its folded sheet, if it has bends.
    pub folded: Option<Page>,
    /// Its model of paper, if asked for.
    pub model: Option<Page>,
    /// Its facts.
    pub facts: Vec<Fact>,
    /// Its bend card, when it is bent and an order was found.
    pub bend_card: Option<Page>,
}

/// Writes the page.
#[must_use]
pub fn html(packet: &Packet<'_>) -> String {
    document(packet.job, |markup| sections::write(markup, packet))
}

/// A whole document in the packet's own style.
pub(crate) fn document(name: &str, write: impl FnOnce(&mut Markup)) -> String {
    let mut markup = Markup::default();
    markup.raw("<!DOCTYPE html>\n");
    markup.open("html", &[("lang", "en".to_owned())]);
    markup.open("head", &[]);
    markup.empty("meta", &[("charset", "utf-8".to_owned())]);
    let viewport = "width=device-width, initial-scale=1".to_owned();
    markup.empty("meta", &[("name", "viewport".to_owned()), ("content", viewport)]);
    markup.words("title", &[], name);
    markup.open("style", &[]);
    markup.raw(&style::sheet(name));
    markup.close("style");
    markup.close("head");
    markup.open("body", &[]);
    write(&mut markup);
    markup.close("body");
    markup.close("html");
    markup.finish()
}
