//! A kit on paper: packing list, layers, test strips, labels and bend cards, to print and put in the crate.

use crate::bend_card;
use crate::layout_sheet::Fact;
use crate::lists::ListUnits;
use crate::lists::kit::{BESIDE, KitPaper, crate_table, crates_table, title};
use crate::lists::table::Table;
use crate::markup::Markup;
use crate::packet::elements::{figure, list, open, steps};
use crate::packet::leaves::flow::Flow;
use crate::packet::leaves::{labels, origin_table, sheet, sizes};
use crate::packet::{self, LabelSheet, PaperSize, PieceLabel, names};
use crate::page::Page;
use crate::pdf::Leaf;

/// A box to tick, on paper and on the screen, where a browser never breaks it.
const TICK: &str = "[ ]";
const TICK_ON_SCREEN: &str = "\u{25a1}";

/// Heading over what a buyer must know.
const FOLDING: &str = "Before folding";

/// Drawings of a kit.
#[derive(Debug, Clone, Default)]
pub struct KitDrawings {
    /// Layers of each crate, the lowest first.
    pub layers: Vec<Vec<Page>>,
    /// Bend cards for the buyer's machine: mark and pages.
    pub cards: Vec<(String, Vec<Page>)>,
    /// A label for every flat.
    pub labels: Vec<PieceLabel>,
}

impl KitDrawings {
    fn layers_of(&self, number: usize) -> &[Page] {
        self.layers.get(number).map(Vec::as_slice).unwrap_or_default()
    }

    /// Every drawing with its name in the page.
    fn named(&self) -> Vec<(&Page, String)> {
        let layers = self.layers.iter().enumerate().flat_map(|(number, layers)| {
            layers.iter().enumerate().map(move |(layer, page)| (page, layer_name(number, layer)))
        });
        let cards = self.cards.iter().enumerate().flat_map(|(number, (_, card))| {
            card.iter().enumerate().map(move |(place, page)| (page, names::card(number, place)))
        });
        layers.chain(cards).collect()
    }
}

fn layer_name(number: usize, layer: usize) -> String {
    format!("crate-{number}-{layer}")
}

/// The sentences of the first page, under their headings.
fn first_page<'a>(kit: &KitPaper<'a>) -> [(&'static str, &'a [String]); 4] {
    [
        ("Two hands: never the two of one pair in one layer", kit.hands),
        ("Crates and packing", kit.terms),
        (BESIDE, kit.beside),
        ("Still open", kit.questions),
    ]
}

/// The leaves of a kit, ready to print: lists, crate by crate its layers, test strips, bend cards, labels.
#[must_use]
pub fn leaves<'a>(
    kit: &KitPaper<'_>,
    drawings: &'a KitDrawings,
    units: ListUnits,
    (paper, label_sheet): (PaperSize, LabelSheet),
) -> Vec<Leaf<'a>> {
    let upright = paper.upright_mm();
    let mut flow = Flow::new("Kit", upright);
    flow.title(&format!("Kit: {}", kit.heading));
    flow.table(&crates_table(kit, units));
    for (heading, sentences) in first_page(kit).into_iter().filter(|(_, sentences)| !sentences.is_empty()) {
        flow.heading(heading);
        flow.sentences(sentences, false);
    }
    flow.heading(FOLDING);
    flow.sentences(kit.folding, false);
    let mut leaves = flow.finish();
    for (number, packed) in kit.crates.iter().enumerate() {
        let mut flow = Flow::new(&format!("Crate {}", packed.number), paper.across_mm());
        flow.title(&title(packed));
        flow.table(&crate_table(packed, TICK, units));
        leaves.extend(flow.finish());
        let layers = drawings.layers_of(number).iter().enumerate();
        leaves.extend(layers.map(|(layer, page)| {
            sheet::drawn(format!("Crate {}, layer {}", packed.number, layer + 1), page, sizes(paper))
        }));
    }
    for strip in kit.strips {
        let mut flow = Flow::new(&strip.title, upright);
        flow.title(&strip.title);
        flow.sentences(&strip.steps, true);
        leaves.extend(flow.finish());
    }
    for (mark, card) in &drawings.cards {
        leaves.extend(card.iter().map(|page| sheet::drawn(format!("{mark}: bend card"), page, sizes(paper))));
    }
    leaves.extend(labels::leaves(&drawings.labels, &label_sheet));
    leaves.extend(origins(kit, drawings, units, upright));
    sheet::foot(&mut leaves, sheet::Foot { job: kit.heading, edition: "" });
    leaves
}

/// Where the numbers of the lists and of the bend cards come from.
fn origins<'a>(
    kit: &KitPaper<'_>,
    drawings: &KitDrawings,
    units: ListUnits,
    upright_mm: (f64, f64),
) -> Vec<Leaf<'a>> {
    let told = |(name, origin): (String, String)| Fact { name, origin, ..Fact::default() };
    let of_table = |table: &Table| -> Vec<Fact> { table.origins().into_iter().map(told).collect() };
    let mut flow = Flow::new(ORIGINS, upright_mm);
    flow.title(ORIGINS);
    let mut set = |heading: &str, facts: &[Fact]| {
        flow.small_heading(heading);
        flow.small_table(&origin_table(facts));
    };
    set("Crates", &of_table(&crates_table(kit, units)));
    if let Some(packed) = kit.crates.first() {
        set("Flats in a crate", &of_table(&crate_table(packed, TICK, units)));
    }
    if !drawings.cards.is_empty() {
        let cards = bend_card::origins().map(|(name, origin)| told((name.to_owned(), origin.to_owned())));
        set("Bend cards", &cards.collect::<Vec<Fact>>());
    }
    flow.finish()
}

/// Heading over them.
const ORIGINS: &str = "Where the numbers come from";

/// Writes the page. A browser prints the kit's [`leaves`].
#[must_use]
pub fn html(kit: &KitPaper<'_>, drawings: &KitDrawings, units: ListUnits, leaves: &[Leaf<'_>]) -> String {
    packet::page(kit.heading, &drawings.named(), leaves, |markup| write(markup, kit, drawings, units))
}

fn write(markup: &mut Markup, kit: &KitPaper<'_>, drawings: &KitDrawings, units: ListUnits) {
    markup.open("section", &[]);
    markup.words("h1", &[], &format!("Kit: {}", kit.heading));
    crates_table(kit, units).html(markup);
    for (number, (heading, sentences)) in first_page(kit).into_iter().enumerate() {
        list(markup, heading, sentences, (number == 0).then_some("cautions"));
    }
    list(markup, FOLDING, kit.folding, Some("cautions"));
    markup.close("section");
    for (number, packed) in kit.crates.iter().enumerate() {
        open(markup, &format!("crate-{number}"), &title(packed), None);
        crate_table(packed, TICK_ON_SCREEN, units).html(markup);
        for (layer, page) in drawings.layers_of(number).iter().enumerate() {
            figure(markup, page, &layer_name(number, layer));
        }
        markup.close("section");
    }
    for (number, strip) in kit.strips.iter().enumerate() {
        open(markup, &format!("strip-{number}"), &strip.title, None);
        steps(markup, &strip.steps, "");
        markup.close("section");
    }
    for (number, (mark, card)) in drawings.cards.iter().enumerate() {
        open(markup, &format!("card-{number}"), &format!("Bend card of {mark}"), None);
        for (place, page) in card.iter().enumerate() {
            figure(markup, page, &names::card(number, place));
        }
        markup.close("section");
    }
}
