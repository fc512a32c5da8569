//! One leaf in the making: its room, its foot, a drawing that fills it.

use geometry::Point;

use crate::page::font::{self, Weight};
use crate::page::{Anchor, Item, Page, Pen, Text, fit};
use crate::pdf::{Leaf, Placed};

pub(crate) use crate::page::{EDGE_MM, FOOT_MM, room};

/// Baseline and size of the foot, mm.
const FOOT_LINE_MM: f64 = 6.8;
const FOOT_TEXT_MM: f64 = 2.8;

/// Ordinary text on leaves of words, mm.
pub(crate) const TEXT_MM: f64 = 3.4;

/// What stands at the foot of every leaf.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Foot<'a> {
    /// Name of the job.
    pub(crate) job: &'a str,
    /// Date and revision, in words.
    pub(crate) edition: &'a str,
}

/// A blank leaf.
pub(crate) const fn blank<'a>(bookmark: String, size_mm: (f64, f64)) -> Leaf<'a> {
    Leaf { bookmark, also: Vec::new(), size_mm, drawings: Vec::new(), items: Vec::new(), text_mm: TEXT_MM }
}

/// A leaf with one drawing as large as it goes, the paper turned where it then comes out larger, and never larger than
/// drawn; in the middle, at the upper edge.
pub(crate) fn drawn<'a>(bookmark: String, page: &'a Page, sizes: [(f64, f64); 2]) -> Leaf<'a> {
    let [upright, across] = sizes;
    let size_mm = if fit(page, upright) < fit(page, across) { across } else { upright };
    let mut leaf = blank(bookmark, size_mm);
    leaf.drawings.push(top_middle(page, size_mm, fit(page, size_mm)));
    leaf
}

/// Between two drawings on a leaf, mm.
const APART_MM: f64 = 8.0;

/// A drawing below those of the last leaf, where that leaves it as large as it would be on a leaf of its own; else on one.
pub(crate) fn below_or_drawn<'a>(
    leaves: &mut Vec<Leaf<'a>>,
    bookmark: String,
    page: &'a Page,
    sizes: [(f64, f64); 2],
) {
    let own = drawn(bookmark, page, sizes);
    let lowest = |leaf: &Leaf<'_>| leaf.drawings.iter().map(|placed| placed.at.y).fold(f64::MAX, f64::min);
    let below = leaves.last_mut().filter(|last| last.size_mm == own.size_mm).and_then(|last| {
        let by = lowest(&own) + page.height_mm() * own.drawings[0].scale - (lowest(last) - APART_MM);
        (room(last.size_mm).0.y <= lowest(&own) - by).then_some((last, by))
    });
    match below {
        Some((last, by)) => {
            last.also.push(own.bookmark);
            last.drawings.extend(
                own.drawings
                    .into_iter()
                    .map(|placed| Placed { at: Point::new(placed.at.x, placed.at.y - by), ..placed }),
            );
        }
        None => leaves.push(own),
    }
}

/// A leaf with a drawing that is of its true size and stays so.
pub(crate) fn true_size<'a>(bookmark: String, page: &'a Page, size_mm: (f64, f64)) -> Leaf<'a> {
    let mut leaf = blank(bookmark, size_mm);
    leaf.drawings.push(top_middle(page, size_mm, 1.0));
    leaf
}

/// The drawing in the middle of a leaf, at its upper edge.
pub(crate) fn top_middle(page: &Page, size_mm: (f64, f64), scale: f64) -> Placed<'_> {
    let (low, width, height) = room(size_mm);
    let x = low.x + 0.5 * (width - scale * page.width_mm());
    Placed { page, at: Point::new(x, low.y + height - scale * page.height_mm()), scale, window: None }
}

/// Job, edition and page number at the foot of every leaf.
pub(crate) fn foot(leaves: &mut [Leaf<'_>], foot: Foot<'_>) {
    let count = leaves.len();
    for (number, leaf) in leaves.iter_mut().enumerate() {
        let (width, _) = leaf.size_mm;
        let line = |x: f64, words: String| Text::new(Point::new(x, FOOT_LINE_MM), words, FOOT_TEXT_MM);
        let page = line(width - EDGE_MM, format!("{} of {count}", number + 1)).anchored(Anchor::End);
        let rule = FOOT_LINE_MM + 1.6 * FOOT_TEXT_MM;
        leaf.items.push(Item::line(Point::new(EDGE_MM, rule), Point::new(width - EDGE_MM, rule), Pen::Frame));
        let room = width - 2.0 * EDGE_MM - page.width_mm() - 4.0 * FOOT_TEXT_MM;
        let edition = font::shortened(foot.edition, Weight::Regular, FOOT_TEXT_MM, 0.5 * room);
        let left = room - font::width_mm(&edition, Weight::Regular, FOOT_TEXT_MM);
        let job = font::shortened(foot.job, Weight::Regular, FOOT_TEXT_MM, left);
        leaf.items.push(Item::Text(line(EDGE_MM, job)));
        if !edition.is_empty() {
            leaf.items.push(Item::Text(page_left_of(&page, edition)));
        }
        leaf.items.push(Item::Text(page));
    }
}

/// The edition to the left of the page number.
fn page_left_of(page: &Text, edition: String) -> Text {
    let at = Point::new(page.at.x - page.width_mm() - 2.0 * FOOT_TEXT_MM, page.at.y);
    Text { at, words: edition, ..page.clone() }
}
