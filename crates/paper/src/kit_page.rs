//! The page of a kit: packing list, layers, test strips and bend cards, to print and put in the crate.

use crate::lists::ListUnits;
use crate::lists::kit::{KitPaper, crate_table, crates_table, title};
use crate::markup::Markup;
use crate::page::Page;
use crate::{packet, svg};

/// A box to tick, which a browser never breaks.
const TICK: &str = "\u{25a1}";

/// Drawings of a kit.
#[derive(Debug, Clone, Default)]
pub struct KitDrawings {
    /// Layers of each crate, the lowest first.
    pub layers: Vec<Vec<Page>>,
    /// Bend cards for the buyer's machine: mark and pages.
    pub cards: Vec<(String, Vec<Page>)>,
}

/// Writes the page.
#[must_use]
pub fn html(kit: &KitPaper<'_>, drawings: &KitDrawings, units: ListUnits) -> String {
    packet::running_document(kit.heading, |markup| {
        markup.open("section", &[]);
        markup.words("h1", &[], &format!("Kit: {}", kit.heading));
        crates_table(kit, units).html(markup);
        list(markup, "Two hands: never mix them", kit.hands, Some("cautions"));
        list(markup, "Crates and packing", kit.terms, None);
        list(markup, "Still open", kit.questions, None);
        markup.close("section");
        for (number, packed) in kit.crates.iter().enumerate() {
            section(markup, &title(packed));
            crate_table(packed, TICK, units).html(markup);
            let layers = drawings.layers.get(number).map(Vec::as_slice).unwrap_or_default();
            for (layer, page) in layers.iter().enumerate() {
                figure(markup, page, &format!("crate-{number}-{layer}-"));
            }
            markup.close("section");
        }
        for strip in kit.strips {
            section(markup, &strip.title);
            markup.open("ol", &[]);
            strip.steps.iter().for_each(|step| markup.words("li", &[], step));
            markup.close("ol");
            markup.close("section");
        }
        section(markup, "Before folding");
        list(markup, "", kit.folding, Some("cautions"));
        markup.close("section");
        for (number, (mark, card)) in drawings.cards.iter().enumerate() {
            section(markup, &format!("Bend card of {mark}"));
            for (place, page) in card.iter().enumerate() {
                figure(markup, page, &format!("card-{number}-{place}-"));
            }
            markup.close("section");
        }
    })
}

fn section(markup: &mut Markup, heading: &str) {
    markup.open("section", &[]);
    markup.words("h2", &[], heading);
}

fn list(markup: &mut Markup, heading: &str, sentences: &[String], class: Option<&str>) {
    if sentences.is_empty() {
        return;
    }
    if !heading.is_empty() {
        markup.words("h3", &[], heading);
    }
    let class: Vec<(&str, String)> = class.map(|class| ("class", class.to_owned())).into_iter().collect();
    markup.open("ul", &class);
    sentences.iter().for_each(|sentence| markup.words("li", &[], sentence));
    markup.close("ul");
}

fn figure(markup: &mut Markup, page: &Page, prefix: &str) {
    markup.open("figure", &[]);
    markup.raw(&svg::write_inline(page, prefix));
    markup.close("figure");
}
