//! What the drawings of a packet are called in its page: the one place that sections and printed leaves go by.

use super::{DrawnPart, Packet};
use crate::page::Page;

/// The picture of the scrap report.
pub(super) const SCRAP: &str = "scrap";

/// A drawing of which there is one each.
pub(super) fn numbered(what: &str, number: usize) -> String {
    format!("{what}-{number}")
}

/// A map of a sheet, or of a stretch of it.
pub(super) fn sheet(number: usize, place: usize) -> String {
    if place == 0 { numbered("sheet", number) } else { format!("sheet-{number}.{place}") }
}

/// A page of a bend card.
pub(crate) fn card(number: usize, page: usize) -> String {
    format!("card-{number}-{page}")
}

/// A page of points by number.
fn points(number: usize, page: usize) -> String {
    format!("points-{number}-{page}")
}

/// A picture of a chapter.
pub(super) fn chapter(number: usize, place: usize) -> String {
    if place == 0 { numbered("chapter", number) } else { format!("chapter-{number}.{place}") }
}

/// A page of enlarged corners.
fn details(number: usize, page: usize) -> String {
    format!("details-{number}-{page}")
}

/// What stands behind the layout sheet of part `number`, each with its name.
pub(super) fn more(part: &DrawnPart, number: usize) -> Vec<(&Page, String)> {
    let numbers = part.numbers.iter().map(|page| (page, numbered("numbers", number)));
    let numbered_points = part.points.iter().enumerate().map(|(at, page)| (page, points(number, at)));
    let enlarged = part.details.iter().enumerate().map(|(at, page)| (page, details(number, at)));
    let folded = part.folded.iter().map(|page| (page, numbered("folded", number)));
    numbers.chain(numbered_points).chain(enlarged).chain(folded).collect()
}

/// Every drawing of the packet with its name.
pub(super) fn drawings<'a>(packet: &Packet<'a>) -> Vec<(&'a Page, String)> {
    let mut drawings: Vec<(&Page, String)> = Vec::new();
    for (number, drawn) in packet.sheets.iter().enumerate() {
        drawings.extend(drawn.pages.iter().enumerate().map(|(place, page)| (page, sheet(number, place))));
    }
    for (number, part) in packet.parts.iter().enumerate() {
        drawings.push((&part.page, numbered("part", number)));
        drawings.extend(more(part, number));
        drawings.extend(part.model.iter().map(|page| (page, numbered("model", number))));
        let cards = part.bend_cards.iter().enumerate();
        drawings.extend(cards.map(|(page, drawn)| (drawn, card(number, page))));
    }
    let fits = packet.fits.iter().enumerate();
    drawings.extend(fits.filter_map(|(number, fit)| Some((fit.page.as_ref()?, numbered("fit", number)))));
    for (number, drawn) in packet.chapters.iter().enumerate() {
        drawings.extend(drawn.pages.iter().enumerate().map(|(place, page)| (page, chapter(number, place))));
    }
    drawings.extend(packet.scrap.map(|(_, picture)| (picture, SCRAP.to_owned())));
    drawings
}
