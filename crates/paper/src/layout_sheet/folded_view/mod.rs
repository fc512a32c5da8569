//! A small view of the folded part on its layout sheet, with the names of the flat beside it, where the paper has room for it that
//! the flat cannot use: beside the drawing, in a corner of it, or between it and the words under it.

mod picture;

use std::collections::BTreeSet;

use geometry::outline::Chords;
use geometry::{Point, Vector};

use super::PartSheet;
use crate::drawing::{MARGIN_EM, is_foot, is_heading};
use crate::folded_sheet::small::{Names, Sighted};
use crate::isometric::Folded;
use crate::page::{self, Group, Item, Page, Text, keeps_its_scale};
use crate::placing::Free;

/// Sizes that are tried, the larger extent of the view in text heights, and what is named then, best first.
const SIZES: [(f64, Names); 12] = [
    (26.0, Names::All),
    (22.0, Names::All),
    (18.0, Names::All),
    (22.0, Names::WithRoom),
    (18.0, Names::WithRoom),
    (15.0, Names::All),
    (15.0, Names::WithRoom),
    (12.0, Names::All),
    (12.0, Names::WithRoom),
    (10.0, Names::All),
    (10.0, Names::WithRoom),
    (8.5, Names::WithRoom),
];

/// What is left free round the picture, in text heights.
const CLEAR_EM: f64 = 1.0;

/// Side of the squares in which room is looked for, in text heights.
const SQUARE_EM: f64 = 0.5;

/// The layout sheet with the view, or with words that say where it is. Where it has no room as it is, the words under it are set
/// narrower, and where its text is larger than it need be, it is `drawn` again with smaller text: if the flat comes out no smaller
/// by that.
pub(super) fn added(
    page: Page,
    sheet: &PartSheet<'_>,
    drawn: impl Fn(f64) -> Page,
    beside_foot: impl Fn(&Page, f64) -> Option<Page>,
) -> Page {
    let Some(folded) = sheet.folded else { return page };
    let printed = page::printed_text_mm(&page);
    let least = page::AT_ARMS_LENGTH_MM / printed;
    let shares = if least < WORTH_WHILE { vec![least, 0.5 * (1.0 + least)] } else { Vec::new() };
    let again = shares.into_iter().map(|share| drawn(share * page.text_mm));
    let suits = |again: &Page| {
        printed.min(page::AT_ARMS_LENGTH_MM) <= page::printed_text_mm(again) + SLACK_MM
            && super::scale(&page) * LEAST_SCALE <= super::scale(again)
    };
    let sighted = picture::sighted((sheet, folded));
    let found = std::iter::once(page.clone()).chain(again).find_map(|own| {
        let beside = ASIDE_EM.into_iter().filter_map(|em| beside_foot(&own, em * own.text_mm));
        let mut all = std::iter::once(own.clone()).chain(beside).filter(|again| suits(again));
        all.find_map(|again| viewed(&again, (sheet, folded), &sighted))
    });
    found.unwrap_or_else(|| told(page, sheet))
}

/// How much room the words under the drawing leave beside them, in text heights.
const ASIDE_EM: [f64; 2] = [22.0, 16.0];

/// A scale that is smaller by arithmetic alone, mm of text and a share.
const SLACK_MM: f64 = geometry::tolerance::SAME_POINT_MM;
const LEAST_SCALE: f64 = 1.0 - geometry::tolerance::PARALLEL_SINE;

/// Text so little smaller makes no room.
const WORTH_WHILE: f64 = 0.97;

/// The sheet with the view, where it has room.
fn viewed(page: &Page, (sheet, folded): (&PartSheet<'_>, &Folded), sighted: &Sighted<'_>) -> Option<Page> {
    let on_flat: BTreeSet<&str> = words_of(page);
    let has_letters = !sheet.named.letters(sheet.flat).is_empty();
    let ways = ways(page);
    SIZES.iter().find_map(|&(size_em, names)| {
        // Without letters a part is known by the names of its faces alone.
        if !has_letters && names == Names::WithRoom {
            return None;
        }
        let extent = extent(folded, size_em * page.text_mm);
        ways.iter().find(|way| way.place(extent).is_some())?;
        let all = picture::items((sheet, folded), sighted, &on_flat, (size_em, names), page.text_mm);
        let placed = all.iter().flat_map(|items| {
            let size = size(items);
            ways.iter()
                .filter_map(move |way| way.place(size).map(|(cost, corner)| (cost, way, items, corner)))
        });
        let best = placed.min_by(|a, b| a.0.total_cmp(&b.0));
        best.map(|(_, way, items, corner)| way.with(items, corner))
    })
}

/// Said where there is no room for a view.
fn told(page: Page, sheet: &PartSheet<'_>) -> Page {
    let words = format!("Folded view with these names: on the page “{}, folded”.", sheet.mark);
    let text = Text::new(Point::default(), words, page.text_mm).bold();
    let items = vec![Item::group(format!("{} folded words", sheet.mark), vec![Item::Text(text)])];
    let ways = ways(&page);
    let placed = ways.iter().filter_map(|way| way.place(size(&items)).map(|place| (way, place)));
    if let Some((way, (_, corner))) = placed.min_by(|(_, a), (_, b)| a.0.total_cmp(&b.0)) {
        return way.with(&items, corner);
    }
    // Under all else: the sheet grows by a line.
    let (low, high) = page::bounds(&items).unwrap_or_default();
    let down = Vector::new(0.0, high.y - low.y + 0.3 * page.text_mm);
    let margin = MARGIN_EM * page.text_mm;
    let by = page.low + Vector::new(margin, margin) - down - low;
    let moved: Vec<Item> = items.iter().map(|item| item.moved(by)).collect();
    Page { low: page.low - down, items: page.items.into_iter().chain(moved).collect(), ..page }
}

/// Every line of words on the drawing itself.
fn words_of(page: &Page) -> BTreeSet<&str> {
    let mut words = BTreeSet::new();
    for item in page.items.iter().filter(|item| !is_heading(item) && !is_foot(item)) {
        page::visit(std::slice::from_ref(item), &mut |item| {
            if let Item::Text(text) = item {
                words.insert(text.words.as_str());
            }
        });
    }
    words
}

/// Width and height, mm.
fn size(items: &[Item]) -> (f64, f64) {
    let (low, high) = page::bounds(items).unwrap_or_default();
    (high.x - low.x, high.y - low.y)
}

/// Width and height of a picture at the least: names beside the view come to these.
fn extent(folded: &Folded, size_mm: f64) -> (f64, f64) {
    let (low, high) = folded.bounds();
    let (width, height) = (high.x - low.x, high.y - low.y);
    let scale = size_mm / width.max(height);
    (scale * width, scale * height)
}

/// How far a sheet is tried to grow, in text heights.
const GROWN_EM: [f64; 8] = [44.0, 36.0, 30.0, 25.0, 20.0, 15.0, 10.0, 5.0];

/// One way to make room: the sheet, its words moved over and under the drawing, and what is then free of it.
struct Way {
    page: Page,
    free: Free,
    /// The right edge and the lower end of the room that the sheet has without growing.
    right_mm: f64,
    foot_mm: f64,
    /// Where the picture should stand: its upper right corner.
    wanted: Point,
}

/// As it is or with the drawing at the left edge of the words; growing to the right, or the words under it moved down.
fn ways(page: &Page) -> Vec<Way> {
    let drawn = drawn_bounds(page);
    let aside = drawn.0.x - (page.low.x + MARGIN_EM * page.text_mm);
    let mut sides = vec![0.0];
    sides.extend((page.text_mm < aside).then_some(aside));
    let (width, height) = (page.width_mm(), page.height_mm());
    let grown = |keeps: &dyn Fn(f64) -> bool| {
        GROWN_EM.into_iter().map(|em| em * page.text_mm).find(|by| keeps(*by)).unwrap_or(0.0)
    };
    let wider = grown(&|by| keeps_its_scale(page, (width + by, height)));
    let higher = grown(&|by| keeps_its_scale(page, (width, height + by)));
    let mut ways: Vec<Way> = sides.iter().filter_map(|&aside| Way::of(page, aside, (wider, 0.0))).collect();
    if 0.0 < higher {
        ways.extend(sides.iter().filter_map(|&aside| Way::of(page, aside, (0.0, higher))));
    }
    ways
}

fn drawn_bounds(page: &Page) -> (Point, Point) {
    let drawing: Vec<Item> =
        page.items.iter().filter(|item| !is_heading(item) && !is_foot(item)).cloned().collect();
    page::bounds(&drawing).unwrap_or_default()
}

impl Way {
    /// With words moved to the right by so much, and room to grow to the right and down; `None` for a sheet without words.
    fn of(page: &Page, aside: f64, (wider, higher): (f64, f64)) -> Option<Self> {
        let by = Vector::new(aside, 0.0);
        let moved =
            |item: &Item| if is_heading(item) || is_foot(item) { item.moved(by) } else { item.clone() };
        let items: Vec<Item> = page.items.iter().map(moved).collect();
        let heading = items.iter().find(|item| is_heading(item))?.bounds()?.0;
        let foot = items.iter().find(|item| is_foot(item))?.bounds()?.1;
        let page = Page { low: page.low + by, high: page.high + by, items, ..page.clone() };
        let margin = MARGIN_EM * page.text_mm;
        let right_mm = page.high.x - margin;
        // What may be moved down is in nobody's way; what stays is.
        let is_moved = 0.0 < higher;
        let least = if is_moved { foot.y - higher } else { page.low.y + margin };
        let area =
            (Point::new(page.low.x + margin, least), Point::new(right_mm + wider, page.high.y - margin));
        let mut free = Free::new(area, SQUARE_EM * page.text_mm);
        for item in page.items.iter().filter(|item| !is_moved || !is_foot(item)) {
            page::visit(std::slice::from_ref(item), &mut |item| take(&mut free, item));
        }
        let foot_mm = if is_moved { foot.y } else { least };
        let wanted = Point::new(right_mm, heading.y);
        Some(Self { page, free, right_mm, foot_mm, wanted })
    }

    /// What it costs and the lower left corner of a picture of this width and height, where there is room.
    fn place(&self, (width, height): (f64, f64)) -> Option<(f64, Point)> {
        let clear = CLEAR_EM * self.page.text_mm;
        let cost = |corner: Point| {
            let upper_right = corner + Vector::new(width + 2.0 * clear, height + 2.0 * clear);
            let grown = (upper_right.x - self.right_mm).max(0.0) + (self.foot_mm - corner.y).max(0.0);
            GROWN_COST * grown + upper_right.distance(self.wanted)
        };
        let corner = self.free.best((width + 2.0 * clear, height + 2.0 * clear), cost)?;
        Some((cost(corner), corner + Vector::new(clear, clear)))
    }

    /// The sheet with the picture at this lower left corner, grown by no more than it needs.
    fn with(&self, items: &[Item], corner: Point) -> Page {
        let page = &self.page;
        let (low, high) = page::bounds(items).unwrap_or_default();
        let by = corner - low;
        let clear = CLEAR_EM * page.text_mm;
        let drop = (self.foot_mm - (corner.y - clear)).max(0.0);
        let right = corner.x + (high.x - low.x) + clear;
        let down = Vector::new(0.0, -drop);
        let lowered = |item: &Item| if is_foot(item) { item.moved(down) } else { item.clone() };
        let own = page.items.iter().map(lowered).chain(items.iter().map(|item| item.moved(by))).collect();
        Page {
            low: page.low + down,
            high: Point::new(page.high.x.max(right + MARGIN_EM * page.text_mm), page.high.y),
            items: own,
            ..page.clone()
        }
    }
}

/// How much dearer it is that a sheet grows than that its picture stands farther off, by length.
const GROWN_COST: f64 = 4.0;

fn take(free: &mut Free, item: &Item) {
    match item {
        Item::Group(Group { .. }) => {}
        Item::Line(line) => free.take_line(line.from, line.to),
        Item::Shape(shape) => {
            shape.contours.iter().take(1).for_each(|contour| free.take_figure(&contour.corners(Chords::On)));
        }
        Item::Text(text) => free.take_figure(&text.bounding_box().corners),
    }
}
