//! Maps of roll goods and wear liner: what is cut where out of a roll or a sheet, and how panels lie on a face.
//!
//! A roll stands upright, its squared end below, as it is seen by someone who rolls it out away from himself.

mod pieces;
mod windows;

use geometry::{Contour, Point, Region, Vector};
use units::LengthStyle;

use crate::drawing::block::Block;
use crate::drawing::label::Label;
use crate::drawing::legend::{self, Entry, WASTE_ANGLE, WASTE_EM};
use crate::drawing::running::{self, Frame};
use crate::drawing::{self, leader, printed, symbols};
use crate::layout_sheet::Fact;
use crate::page::font::Weight;
use crate::page::{Fill, Item, Page, Pen, hatch_lines};
use crate::placing::Field;
use windows::Window;

/// A piece or a panel in its place.
#[derive(Debug, Clone, PartialEq)]
pub struct MappedPiece {
    /// Its mark, and which of how many it is.
    pub mark: String,
    /// Its size in words.
    pub size: String,
    /// Its lower left corner, mm from the datum corner.
    pub low: Point,
    /// Its upper right corner.
    pub high: Point,
    /// Where it is to meet its neighbours.
    pub seams: Vec<MappedSeam>,
}

/// A seam in a panel.
#[derive(Debug, Clone, PartialEq)]
pub struct MappedSeam {
    /// One end, mm from the datum corner of the map.
    pub from: Point,
    /// The other.
    pub to: Point,
    /// Where it lies, in words: "seam at 60".
    pub words: String,
}

/// What a map is drawn of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Ground<'a> {
    /// A roll, so much cut off each side, cut right across at these places along it; with or without nap.
    Roll {
        /// Cut off each side, mm.
        selvedge_mm: f64,
        /// Places of the cuts across, mm along the roll.
        cuts_mm: &'a [f64],
        /// Whether the goods have a nap.
        nap: bool,
    },
    /// A sheet of liner.
    Sheet,
    /// A face that is lined, with gaps between the panels.
    Face,
}

/// All that a map shows.
#[derive(Debug, Clone, Copy)]
pub struct CoveringMap<'a> {
    /// Name of the job.
    pub job: &'a str,
    /// What is cut: "deck matting, grey".
    pub name: &'a str,
    /// What the map shows: "Roll map, roll 1 of 2".
    pub title: &'a str,
    /// What is drawn.
    pub ground: Ground<'a>,
    /// Width across, mm: of a roll without what is cut off its sides.
    pub width_mm: f64,
    /// Length up the page, mm.
    pub length_mm: f64,
    /// How lengths are printed.
    pub style: LengthStyle,
    /// The pieces.
    pub pieces: &'a [MappedPiece],
    /// For the heading.
    pub facts: &'a [Fact],
    /// Sentences under the drawing.
    pub notes: &'a [String],
}

/// Where the numbers of cuts right across the roll, and of what is said under a map, come from.
const ACROSS: &str = "where the cut lies on the roll as its pieces are laid, from the squared end";
const NOTE: &str = "as the job gives it for the covering or the liner";

/// Height of the text as shares of height and width: printed on a letter or A4 sheet it comes out near 3 mm.
const TEXT_SHARES: (f64, f64) = (1.0 / 60.0, 1.0 / 46.0);

/// Draws a map; a long roll in several stretches, all measured from its squared end.
#[must_use]
pub fn draw(map: &CoveringMap<'_>) -> Vec<Page> {
    windows::of(map).iter().map(|window| one(map, window)).collect()
}

fn one(map: &CoveringMap<'_>, window: &Window) -> Page {
    let height_mm = window.to_mm - window.from_mm;
    let text_mm = (height_mm * TEXT_SHARES.0).max(map.width_mm * TEXT_SHARES.1);
    let mut field = Field::default();
    let pieces = window.pieces(map.pieces);
    let mut points: Vec<Point> = pieces.iter().flat_map(|piece| [piece.low, piece.high]).collect();
    points.extend(pieces.iter().flat_map(|piece| &piece.seams).flat_map(|seam| [seam.from, seam.to]));
    points.push(Point::new(map.width_mm, height_mm));
    let begins = Vector::new(0.0, window.from_mm);
    let frame = Frame { width_mm: map.width_mm, height_mm, style: map.style, text_mm, begins };
    let dimensions = running::both_ways(&mut field, &points, frame);
    pieces::occupy(&mut field, &pieces);
    let mut items = vec![Item::group("ground", ground(map, window, &pieces, text_mm))];
    items.push(Item::group("dimensions", dimensions));
    let bounds = (Point::default(), Point::new(map.width_mm, height_mm));
    items.extend(pieces::groups(&mut field, &pieces, map.ground.nap(), (text_mm, bounds)));
    items.push(Item::group("cuts across", cuts_across(&mut field, map, window, (text_mm, bounds))));
    if window.begins_the_whole() {
        items.push(symbols::datum_block(Point::default(), 0.7 * text_mm));
    }
    let (left_mm, width_mm) = drawing::columns(&items, text_mm);
    let mut heading = Block::new(left_mm, width_mm);
    heading.title(map.name, &format!("{}{}", map.title, window.which()), map.job, text_mm);
    heading.ruled_facts(map.facts, text_mm);
    let foot = foot(map, Block::new(left_mm, width_mm), text_mm);
    let title = format!("{}: {}, {}{}", map.job, map.name, map.title, window.which());
    drawing::assemble(title, items, heading, foot, text_mm)
}

impl Ground<'_> {
    const fn nap(self) -> bool {
        matches!(self, Self::Roll { nap: true, .. })
    }

    fn selvedge_mm(self) -> f64 {
        if let Self::Roll { selvedge_mm, .. } = self { selvedge_mm } else { 0.0 }
    }
}

/// The roll, sheet or face, with the waste hatched and the strips off its sides grey.
fn ground(map: &CoveringMap<'_>, window: &Window, pieces: &[MappedPiece], text_mm: f64) -> Vec<Item> {
    let (width, height) = (map.width_mm, window.to_mm - window.from_mm);
    let strip = map.ground.selvedge_mm();
    let rectangle = |left: f64, right: f64| {
        [(left, 0.0), (right, 0.0), (right, height), (left, height)].map(|(x, y)| Point::new(x, y))
    };
    let mut items = Vec::new();
    if map.ground != Ground::Face {
        let whole = Region::rectangle(Point::default(), Point::new(width, height));
        let left = pieces
            .iter()
            .fold(whole, |left, piece| left.difference(&Region::rectangle(piece.low, piece.high)));
        for waste in left.polygons() {
            let rings = std::iter::once(&waste.outer).chain(&waste.holes);
            let contours: Vec<Contour> = rings.map(|ring| Contour::polygon(ring)).collect();
            items.extend(hatch_lines(&contours, WASTE_EM * text_mm, WASTE_ANGLE));
        }
    }
    if 0.0 < strip {
        for (left, right) in [(-strip, 0.0), (width, width + strip)] {
            items.push(Item::area(&rectangle(left, right), Fill::Beyond));
        }
        items.push(Item::edge(&rectangle(0.0, width), Pen::TrimEdge));
    }
    items.push(Item::edge(&rectangle(-strip, width + strip), Pen::SheetEdge));
    items
}

/// Every cut right across the roll, with its place beside it.
fn cuts_across(
    field: &mut Field,
    map: &CoveringMap<'_>,
    window: &Window,
    (text_mm, bounds): (f64, (Point, Point)),
) -> Vec<Item> {
    let Ground::Roll { selvedge_mm, cuts_mm, .. } = map.ground else { return Vec::new() };
    let mut items = Vec::new();
    for &at in cuts_mm.iter().filter(|&&at| window.holds(at)) {
        let y = at - window.from_mm;
        let (from, to) = (Point::new(-selvedge_mm, y), Point::new(map.width_mm + selvedge_mm, y));
        items.push(Item::line(from, to, Pen::CutAcross));
        let label = Label::new(format!("cut across at {}", printed(at, map.style)), text_mm).from(ACROSS);
        items.extend(leader::place(field, &label, &[to], bounds));
    }
    items
}

fn foot(map: &CoveringMap<'_>, mut block: Block, text_mm: f64) -> Block {
    let has_seams = map.pieces.iter().any(|piece| !piece.seams.is_empty());
    let mut entries = vec![Entry::Cut];
    match map.ground {
        Ground::Roll { selvedge_mm, cuts_mm, nap } => {
            let more = [
                (!cuts_mm.is_empty(), Entry::CutAcross),
                (has_seams, Entry::Seam),
                (0.0 < selvedge_mm, Entry::Selvedge),
                (true, Entry::Waste),
                (nap, Entry::Nap),
            ];
            entries.extend(more.into_iter().filter(|(is_shown, _)| *is_shown).map(|(_, entry)| entry));
        }
        Ground::Sheet => entries.push(Entry::Waste),
        Ground::Face => {}
    }
    entries.push(Entry::Datum);
    block.rule();
    legend::set(&mut block, &entries, text_mm);
    block.skip(0.5 * text_mm);
    map.notes.iter().for_each(|note| block.paragraph_from((note, NOTE), Weight::Regular, text_mm, ""));
    block
}
