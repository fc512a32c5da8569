//! What a browser prints of the page: the leaves of the PDF, each on a sheet of paper of its own size.

use super::{DrawnPart, Packet};
use crate::markup::Markup;
use crate::page::Page;
use crate::pdf::Leaf;
use crate::svg;

/// Every size of paper that the leaves need, mm, in their order.
pub(super) fn sizes(leaves: &[Leaf<'_>]) -> Vec<(f64, f64)> {
    let mut sizes: Vec<(f64, f64)> = Vec::new();
    for leaf in leaves {
        if size_of(&sizes, leaf).is_none() {
            sizes.push(leaf.size_mm);
        }
    }
    sizes
}

fn size_of(sizes: &[(f64, f64)], leaf: &Leaf<'_>) -> Option<usize> {
    let same = |a: f64, b: f64| a.total_cmp(&b).is_eq();
    sizes.iter().position(|size| same(size.0, leaf.size_mm.0) && same(size.1, leaf.size_mm.1))
}

/// The leaves.
pub(super) fn write(markup: &mut Markup, packet: &Packet<'_>, (leaves, sizes): (&[Leaf<'_>], &[(f64, f64)])) {
    let drawings = drawings(packet);
    let named = |page: &Page| {
        let known = drawings.iter().find(|(drawing, _)| std::ptr::eq(*drawing, page));
        known.map(|(_, prefix)| svg::name_of(prefix))
    };
    markup.open("div", &[("class", "leaves".to_owned())]);
    for (number, leaf) in leaves.iter().enumerate() {
        let size = size_of(sizes, leaf).unwrap_or_default();
        markup.open("div", &[("class", format!("leaf size-{size}"))]);
        markup.raw(&svg::leaf(leaf, &format!("leaf-{number}-"), named));
        markup.close("div");
    }
    markup.close("div");
}

/// Every drawing of the packet with the prefix of its names.
fn drawings<'a>(packet: &Packet<'a>) -> Vec<(&'a Page, String)> {
    let mut drawings: Vec<(&Page, String)> = Vec::new();
    for (number, sheet) in packet.sheets.iter().enumerate() {
        drawings
            .extend(sheet.pages.iter().enumerate().map(|(place, page)| (page, sheet_prefix(number, place))));
    }
    for (number, part) in packet.parts.iter().enumerate() {
        drawings.push((&part.page, format!("part-{number}-")));
        drawings.extend(more(part).into_iter().map(|(page, what)| (page, format!("{what}-{number}-"))));
        drawings.extend(part.model.iter().map(|page| (page, format!("model-{number}-"))));
        let cards = part.bend_cards.iter().enumerate();
        drawings.extend(cards.map(|(page, card)| (card, format!("card-{number}-{page}-"))));
    }
    let fits = packet.fits.iter().enumerate();
    drawings.extend(fits.filter_map(|(number, fit)| Some((fit.page.as_ref()?, format!("fit-{number}-")))));
    let chapters = packet.chapters.iter().enumerate();
    drawings.extend(
        chapters.filter_map(|(number, chapter)| Some((chapter.page.as_ref()?, format!("chapter-{number}-")))),
    );
    drawings.extend(packet.scrap.map(|(_, picture)| (picture, "scrap-".to_owned())));
    drawings
}

/// Prefix of the names in a map of a sheet.
pub(super) fn sheet_prefix(number: usize, place: usize) -> String {
    if place == 0 { format!("sheet-{number}-") } else { format!("sheet-{number}.{place}-") }
}

/// What stands behind the layout sheet of a part, each with the word for it.
pub(super) fn more(part: &DrawnPart) -> Vec<(&Page, &'static str)> {
    let pages = [(&part.numbers, "numbers"), (&part.details, "details"), (&part.folded, "folded")];
    pages.into_iter().filter_map(|(page, what)| Some((page.as_ref()?, what))).collect()
}
