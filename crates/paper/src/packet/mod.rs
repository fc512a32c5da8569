//! The packet: one HTML page that holds everything, self-contained, quiet, and ready to print in black and white.
//!
//! No scripts, no outside files: drawings stand in the page as SVG, the style sheet in its head. What a browser prints is
//! leaf for leaf what the PDF has.

pub(crate) mod elements;
pub mod full_size;
pub(crate) mod leaves;
pub(crate) mod names;
mod origins;
mod printed;
mod sections;
mod style;

pub use leaves::{LabelSheet, PaperSize, Papers, leaves};

use estimate::ScrapReport;

use crate::layout_sheet::Fact;
use crate::lists::ListUnits;
use crate::lists::buying::ScrapCredit;
use crate::lists::cut_list::CutRow;
use crate::lists::passages::Passage;
use crate::lists::sheet_choices::SheetChoice;
use crate::markup::Markup;
use crate::page::Page;
use crate::pdf::Leaf;

/// " no. 2 of 6" behind the mark of a piece; nothing of the only one.
#[must_use]
pub fn copy_words(copy: u32, of: u32) -> String {
    if of == 1 { String::new() } else { format!(" no. {copy} of {of}") }
}

/// Stands over what is bought beside sheets.
const ALSO_TO_BUY: &str = "Also to buy";

/// Stands over the notes to the job.
const NOTES: &str = "Notes to the job";

/// All that a packet shows.
#[derive(Debug, Clone, Copy)]
pub struct Packet<'a> {
    /// Name of the job.
    pub job: &'a str,
    /// What else stands in its head, such as date and revision: name and value.
    pub head: &'a [(String, String)],
    /// Notes to the job as a whole.
    pub notes: &'a [String],
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
    /// What else is to be bought, one line each.
    pub also_to_buy: &'a [String],
    /// The sheet maps.
    pub sheets: &'a [DrawnSheet],
    /// The parts.
    pub parts: &'a [DrawnPart],
    /// What is put together of several pieces, to be checked as a whole.
    pub wholes: &'a [WholeToCheck],
    /// Where figures of the metals come from that are not in a heading.
    pub metal_origins: &'a [Fact],
    /// Labels for the parts and drops.
    pub labels: &'a [PieceLabel],
    /// The cut list.
    pub cut_list: &'a [CutRow],
    /// What else is cut: matting and liner, in words and tables.
    pub also_cut: &'a [Passage],
    /// What else the job asks for: bars, weights, struts.
    pub chapters: &'a [Chapter],
    /// What became of the metal, with its picture, if anything was nested.
    pub scrap: Option<(&'a ScrapReport, &'a Page)>,
    /// The drops that are kept with their sizes, a sentence each.
    pub kept_drops: &'a [String],
    /// What the dealer pays for the scrap, where the job says.
    pub credit: Option<&'a ScrapCredit>,
    /// Which currency its money is in, one sentence.
    pub money: &'a str,
    /// The units of the lists.
    pub units: ListUnits,
}

impl Packet<'_> {
    /// Whether there are numbers whose origin is to be told: those of parts, and those of bars and coverings.
    pub(crate) fn has_origins(&self) -> bool {
        let has_table =
            |chapter: &Chapter| chapter.passages.iter().any(|passage| matches!(passage, Passage::Table(_)));
        self.parts.iter().any(|part| !part.facts.is_empty() || !part.heading.is_empty())
            || self.chapters.iter().any(has_table)
    }

    /// Stands over what is to be bought; nothing where nothing is.
    pub(crate) const fn buying_title(&self) -> Option<&'static str> {
        match (self.choices.is_empty(), self.also_to_buy.is_empty()) {
            (false, _) => Some("Sheets to buy"),
            (true, false) => Some("To buy"),
            (true, true) => None,
        }
    }
}

/// What is stuck on a part or a drop.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PieceLabel {
    /// The mark, and which one of how many.
    pub mark: String,
    /// What it is, a line each.
    pub words: Vec<String>,
}

/// A whole of several pieces that is measured once it stands together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WholeToCheck {
    /// "G1, put together".
    pub name: String,
    /// How many are made.
    pub quantity: u32,
    /// Why it has no page of its own with what is measured; `None` where it has one.
    pub bare: Option<String>,
}

/// Passages under a heading, with the pictures that go with them.
#[derive(Debug, Clone)]
pub struct Chapter {
    /// The heading.
    pub name: String,
    /// Words and tables in turn.
    pub passages: Vec<Passage>,
    /// Pictures and maps.
    pub pages: Vec<Page>,
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
    /// What the job notes of its sheets, a sentence each.
    pub notes: Vec<String>,
}

/// A sheet map with its name.
#[derive(Debug, Clone, PartialEq)]
pub struct DrawnSheet {
    /// Name of the sheet.
    pub name: String,
    /// Its map; or a key plan, and behind it maps of its stretches.
    pub pages: Vec<Page>,
    /// What is said over its order of cuts: how its numbers are meant.
    pub over_the_cuts: String,
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
    /// It is bent, by bends of its own or as a strip that proves a bend number: there are bends to measure.
    pub is_bent: bool,
    /// Its layout sheet.
    pub page: Page,
    /// Its numbers in words, where the layout sheet has no room for them.
    pub numbers: Option<Page>,
    /// Every point of its outline by number, where its layout sheet cannot hold them.
    pub points: Vec<Page>,
    /// Its crowded corners, if it has any.
    pub details: Vec<Page>,
    /// Its folded sheet, if it has bends.
    pub folded: Option<Page>,
    /// Its model of paper, if asked for.
    pub model: Option<Page>,
    /// What the heading of its layout sheet says of it, as of every part.
    pub heading: Vec<Fact>,
    /// Its own facts.
    pub facts: Vec<Fact>,
    /// The pages of its bend card, when it is bent and an order was found.
    pub bend_cards: Vec<Page>,
}

/// Writes the page. On the screen it runs on; a browser prints the packet's [`leaves`], the same as the PDF has.
#[must_use]
pub fn html(packet: &Packet<'_>, leaves: &[Leaf<'_>]) -> String {
    page(packet.job, &names::drawings(packet), leaves, |markup| sections::write(markup, packet))
}

/// A page that runs on on the screen, with the leaves that a browser prints of it. `drawings` are those that stand in it,
/// with their names.
pub(crate) fn page(
    name: &str,
    drawings: &[(&Page, String)],
    leaves: &[Leaf<'_>],
    write: impl FnOnce(&mut Markup),
) -> String {
    let sizes = printed::sizes(leaves);
    document(name, &sizes, |markup| {
        write(markup);
        printed::write(markup, drawings, (leaves, &sizes));
    })
}

fn document(name: &str, sizes: &[(f64, f64)], write: impl FnOnce(&mut Markup)) -> String {
    let mut markup = Markup::default();
    markup.raw("<!DOCTYPE html>\n");
    markup.open("html", &[("lang", "en".to_owned())]);
    markup.open("head", &[]);
    markup.empty("meta", &[("charset", "utf-8".to_owned())]);
    let viewport = "width=device-width, initial-scale=1".to_owned();
    markup.empty("meta", &[("name", "viewport".to_owned()), ("content", viewport)]);
    markup.words("title", &[], name);
    markup.open("style", &[]);
    markup.raw(&style::sheet(sizes));
    markup.close("style");
    markup.close("head");
    markup.open("body", &[]);
    write(&mut markup);
    markup.close("body");
    markup.close("html");
    markup.finish()
}
