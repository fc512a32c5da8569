//! The points of the outer edge as places by number.

use geometry::{Point, tolerance};

use super::Place;
use crate::layout_sheet::PartSheet;
use crate::layout_sheet::point_table::what_is_at;

/// Every point of the outer edge, numbered going round, with the letter of its corner.
pub(super) fn places(sheet: &PartSheet<'_>, points: &[Point]) -> Vec<Place> {
    let letters = sheet.named.all_letters(sheet.flat);
    let place = |(number, &at): (usize, &Point)| {
        let letter = letters.iter().find(|(_, corner)| corner.distance(at) < tolerance::SAWN_JOG_MM);
        let words = letter.map(|(letter, _)| letter.clone()).into_iter().chain(what_is_at(sheet, at));
        let what = words.collect::<Vec<String>>().join(", ");
        Place { number, at, radius_mm: 0.0, what, off: None, is_on_edge: true }
    };
    (1..).zip(points).map(place).collect()
}
