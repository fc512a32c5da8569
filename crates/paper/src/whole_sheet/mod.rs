//! The whole sheet: all pieces of a ring, a set or an assembly as they stand together, each with its mark, corners by their
//! letters, and what a tape proves it by.

mod picture;
mod views;

use fold::facets::Facets;
use geometry::{Point, Point3, Vector, polygon};

use crate::drawing::block::Block;
use crate::drawing::{assemble, of_best_width, text_height_mm};
use crate::isometric::{self, Scene, View, ViewLine};
use crate::layout_sheet::Fact;
use crate::page::font::Weight;
use crate::page::{Anchor, Item, Page, Text};
use picture::Picture;

/// Between two pictures, and from a picture to the words under it, in text heights.
const APART_EM: f64 = 4.0;
const UNDER_EM: f64 = 1.6;

/// A piece as it stands in the whole.
#[derive(Debug, Clone)]
pub struct StandingPiece {
    /// Its mark.
    pub mark: String,
    /// Its surface, in the coordinates of the whole, z up.
    pub facets: Facets,
}

/// All that a whole sheet shows.
#[derive(Debug, Clone, Copy)]
pub struct WholeSheet<'a> {
    /// Name of the job.
    pub job: &'a str,
    /// Mark or name of the whole.
    pub mark: &'a str,
    /// What it is, in words.
    pub title: &'a str,
    /// Its pieces.
    pub pieces: &'a [StandingPiece],
    /// Corners by their letters.
    pub letters: &'a [(String, Point3)],
    /// Words for its edges, from end to end: AFT, INBOARD.
    pub edges: &'a [(String, [Point3; 2])],
    /// What stands right across it: frames.
    pub lines: &'a [(String, [Point3; 2])],
    /// What a tape proves it by.
    pub sizes: &'a [Fact],
    /// Where the places come from, and what else is to be said, sentences.
    pub origin: &'a str,
}

/// A view, from where it is taken in words, and its lines.
struct Taken {
    view: View,
    words: String,
    lines: Vec<ViewLine>,
}

/// Draws the whole in an isometric view, what lies behind metal left out, and in further ones of what is hidden in the first,
/// with a mark to every piece that is seen.
#[must_use]
pub fn draw(sheet: &WholeSheet<'_>) -> Page {
    let all = Facets {
        facets: sheet.pieces.iter().flat_map(|piece| piece.facets.facets.iter().cloned()).collect(),
        edges: sheet.pieces.iter().flat_map(|piece| piece.facets.edges.iter().copied()).collect(),
    };
    let (views, hidden) = views::chosen(sheet, &all);
    let taken: Vec<Taken> = views
        .into_iter()
        .map(|(view, words)| Taken { view, words, lines: isometric::visible(&all, view) })
        .collect();
    let (stacked, text_mm) = arrangement(&taken);
    let drawing = pictures(sheet, &all, &taken, (stacked, text_mm));
    let in_brackets = taken
        .iter()
        .any(|one| !picture::hidden_letters(sheet, &Scene::of(&all, one.view), one.view).is_empty());
    of_best_width(&drawing, text_mm, |(left_mm, width_mm)| {
        let heading = heading(sheet, Block::new(left_mm, width_mm), text_mm);
        let foot = foot(sheet, (&hidden, in_brackets), Block::new(left_mm, width_mm), text_mm);
        let title = format!("{}: {} put together", sheet.job, sheet.mark);
        assemble(title, drawing.clone(), heading, foot, text_mm)
    })
}

/// Whether the pictures stand under one another, else side by side, and the height of text, mm: whichever leaves them larger.
fn arrangement(taken: &[Taken]) -> (bool, f64) {
    let sizes: Vec<Vector> = taken.iter().map(|one| extent(&one.lines)).collect();
    let (wide, high) = (|size: &Vector| size.x, |size: &Vector| size.y);
    let most = |of: fn(&Vector) -> f64| sizes.iter().map(of).fold(0.0, f64::max);
    let sum = |of: fn(&Vector) -> f64| sizes.iter().map(of).sum::<f64>();
    let stacked = text_height_mm(most(wide), sum(high));
    let abreast = text_height_mm(sum(wide), most(high));
    if abreast < stacked { (false, abreast) } else { (true, stacked) }
}

fn extent(lines: &[ViewLine]) -> Vector {
    let ends: Vec<Point> = lines.iter().flat_map(|line| line.ends).collect();
    let (low, high) = polygon::bounds(&ends);
    if ends.is_empty() { Vector::new(1.0, 1.0) } else { high - low }
}

/// Every picture with its words under it, one after another.
fn pictures(
    sheet: &WholeSheet<'_>,
    all: &Facets,
    taken: &[Taken],
    (stacked, text_mm): (bool, f64),
) -> Vec<Item> {
    let mut drawing: Vec<Item> = Vec::new();
    let mut next = Point::default();
    for one in taken {
        let items = Picture { sheet, all, view: one.view, lines: &one.lines, text_mm }.items();
        let (low, high) = crate::page::bounds(&items).unwrap_or_default();
        let at = if stacked { Point::new(-0.5 * (high.x - low.x), next.y - (high.y - low.y)) } else { next };
        let by = at - low;
        drawing.extend(items.iter().map(|item| item.moved(by)));
        let mut foot = at.y;
        if 1 < taken.len() {
            let middle = Point::new(at.x + 0.5 * (high.x - low.x), at.y - UNDER_EM * text_mm);
            let text = Text { anchor: Anchor::Middle, ..Text::new(middle, one.words.clone(), text_mm) };
            drawing.push(Item::Text(text));
            foot = middle.y;
        }
        next = if stacked {
            Point::new(0.0, foot - APART_EM * text_mm)
        } else {
            Point::new(at.x + (high.x - low.x) + APART_EM * text_mm, 0.0)
        };
    }
    drawing
}

fn heading(sheet: &WholeSheet<'_>, mut block: Block, text_mm: f64) -> Block {
    block.title(sheet.mark, &format!("{}, put together", sheet.title), sheet.job, text_mm);
    if sheet.sizes.is_empty() {
        block.rule();
        return block;
    }
    block.rule();
    let words = "Check with tape once it stands together, before anything on it is joined for good:";
    block.paragraph(words, Weight::Bold, text_mm, "");
    // Its letters reach below their line.
    block.skip(0.5 * text_mm);
    block.ruled_facts(sheet.sizes, text_mm);
    block
}

fn foot(
    sheet: &WholeSheet<'_>,
    (hidden, in_brackets): (&[String], bool),
    mut block: Block,
    text_mm: f64,
) -> Block {
    block.rule();
    let words = format!(
        "A picture of which piece goes where, not to measure. Lines behind metal are left out. {}",
        sheet.origin
    );
    block.paragraph(&words, Weight::Regular, text_mm, "");
    if in_brackets {
        let words = "A letter in brackets is that of a corner behind metal.";
        block.paragraph(words, Weight::Regular, text_mm, "");
    }
    if !hidden.is_empty() {
        let words = format!("Hidden behind the others: {}.", hidden.join(", "));
        block.paragraph(&words, Weight::Regular, text_mm, "");
    }
    block
}
