//! The card of a rolled ring: how a cylinder or a cone goes through the roll, and what proves it round.
//!
//! A ring has no bend order: what its maker must know is which edge goes in first and which face lies down, what stays flat at its
//! ends and is bent before, how the element lines run, and numbers by which a straightedge and a tape tell whether it is
//! round. Its pictures are the sheet in the roll and the finished ring from its end, of a cone from its side as well.

mod picture;
mod words;

use units::{Length, LengthStyle};

use crate::drawing::{self, block::Block, unit_words};
use crate::layout_sheet::{Fact, TAPE_FROM};
use crate::page::Page;
use crate::page::font::Weight;

/// Height of ordinary text on a card, mm: the card prints at its own size.
const TEXT_MM: f64 = 3.0;

/// Width of the card, mm.
const WIDTH_MM: f64 = 188.0;

/// All that the card of a ring shows.
#[derive(Debug, Clone, Copy)]
pub struct RollCard<'a> {
    /// Name of the job.
    pub job: &'a str,
    /// Mark of the part.
    pub mark: &'a str,
    /// What it is, in words.
    pub title: &'a str,
    /// The metal, in words.
    pub metal: &'a str,
    /// How many to make.
    pub quantity: u32,
    /// The ring.
    pub ring: &'a Ring,
    /// How its seam meets, and where its element lines lie: facts of its layout sheet.
    pub facts: &'a [Fact],
    /// How lengths are printed.
    pub style: LengthStyle,
}

/// A ring as the roll makes it.
#[derive(Debug, Clone, PartialEq)]
pub struct Ring {
    /// Inside diameters: of a cylinder one, of a cone the small end's and the large end's, mm.
    pub inside_mm: Vec<f64>,
    /// Outside diameters of the same ends, mm.
    pub outside_mm: Vec<f64>,
    /// Of a cone: half its angle, radians, and how far its ends lie from the apex along the plate, mm.
    pub cone: Option<(f64, [f64; 2])>,
    /// Thickness, mm.
    pub thickness_mm: f64,
    /// The marked face is the outside.
    pub marked_outside: bool,
    /// An end is cut on a slope, so the edges of the flat are curves.
    pub sloped: bool,
    /// The seam is lapped, its strip joggled outward or inward; butted else.
    pub lap_outward: Option<bool>,
    /// How many element lines there are to sight along.
    pub lines: usize,
    /// Names of the flats at the first edge and at the last.
    pub ends: [String; 2],
    /// A straightedge across the inside of every end, the small one first.
    pub checks: Vec<Check>,
    /// What a tape reads round the outside of every end, mm.
    pub girths_mm: Vec<f64>,
    /// About how much stays flat at either end of the sheet on the shop's roll, where it is given.
    pub flat_end: Option<Length>,
}

/// A chord across the inside of a ring, and how far the metal lies behind it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Check {
    /// Which end, for the words: "small end"; empty for a cylinder.
    pub end: &'static str,
    /// Inside radius, mm.
    pub radius_mm: f64,
    /// Length of the chord, mm.
    pub chord_mm: f64,
    /// From the middle of the chord to the metal, mm.
    pub rise_mm: f64,
}

/// The sentences of a card, as they stand on it, with where their numbers come from.
#[must_use]
pub fn sentences(card: &RollCard<'_>) -> Vec<(String, &'static str)> {
    words::steps(card)
}

/// Draws the card.
#[must_use]
pub fn draw(card: &RollCard<'_>) -> Page {
    let mut heading = Block::new(0.0, WIDTH_MM);
    let job = format!("{}: make {}", card.job, card.quantity);
    heading.title(card.mark, &format!("Bend card: {}, rolled", card.title), &job, TEXT_MM);
    let fact = |name: &str, value: String, origin: &str| Fact {
        name: name.to_owned(),
        value,
        origin: origin.to_owned(),
        ..Fact::default()
    };
    let mut facts = vec![
        fact("metal", card.metal.to_owned(), words::METAL),
        fact("numbers in", unit_words(card.style), TAPE_FROM),
    ];
    facts
        .extend(words::diameters(card).into_iter().map(|(name, value)| fact(&name, value, words::DIAMETERS)));
    facts.extend(card.facts.iter().cloned());
    heading.ruled_facts(&facts, TEXT_MM);
    let mut foot = Block::new(0.0, WIDTH_MM);
    foot.rule();
    for (number, (words, from)) in words::steps(card).iter().enumerate() {
        foot.paragraph_from((words, from), Weight::Regular, 0.95 * TEXT_MM, &format!("{}", number + 1));
    }
    for caution in words::CAUTIONS {
        foot.paragraph(caution, Weight::Bold, 0.95 * TEXT_MM, "!");
    }
    let title = format!("{}: {}: bend card", card.job, card.mark);
    drawing::assemble(title, picture::items(card), heading, foot, TEXT_MM)
}
