//! The sheet map: one bought sheet in true size, with where every part is cut from it and what is left to keep.

mod drops;
mod offcut;
mod pieces;
mod stretches;

use fold::Direction;
use geometry::{Outline, Point, Vector};
use units::LengthStyle;

use crate::drawing::block::Block;
use crate::drawing::legend::{self, Entry};
use crate::drawing::running::{self, Frame};
use crate::drawing::{self, printed, symbols, unit_mark, unit_words};
use crate::layout_sheet::{Fact, TAPE_FROM};
use crate::page::font::Weight;
use crate::page::{self, Item, Page, Pen, SMALLEST_MM, TextBox};
use crate::placing::Field;
pub(crate) use drops::ORIGINS as DROP_ORIGINS;
use drops::ShownDrop;
pub use drops::mark as drop_mark;
pub use offcut::OffcutEdges;
use pieces::Outside;
use stretches::Stretch;

/// A part where it lies on the sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// Mark of the part.
    pub mark: String,
    /// Which of them, counted from 1.
    pub copy: u32,
    /// How many of them the job needs.
    pub of: u32,
    /// Its outline on the sheet, mm from the sheet's lower left corner.
    pub outline: Outline,
    /// Its bend lines on the sheet, and which way each is bent as seen on the map.
    pub bend_lines: Vec<(Direction, Point, Point)>,
    /// Where its layout sheet starts.
    pub datum: PieceDatum,
}

/// The datum corner of a part's layout sheet, as it lies on the sheet: of a part that lies turned it is not the lower left one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PieceDatum {
    /// The corner, mm from the sheet's lower left corner.
    pub corner: Point,
    /// The way along its lower datum edge, of length 1.
    pub along: Vector,
    /// The way up its left datum edge, of length 1.
    pub up: Vector,
}

impl PieceDatum {
    /// True when the part lies with its marked face down: up is then to the right of the way along.
    pub(super) fn is_turned_over(&self) -> bool {
        self.along.left().dot(self.up) < 0.0
    }
}

/// A rectangle of metal left over that can be used.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drop {
    /// Lower left corner on the sheet.
    pub low: Point,
    /// Upper right corner on the sheet.
    pub high: Point,
    /// Length and height of the piece that comes off with it in it, where that is more, mm.
    pub comes_off_mm: Option<[f64; 2]>,
}

/// All that a sheet map shows.
#[derive(Debug, Clone, Copy)]
pub struct SheetMap<'a> {
    /// Name of the job.
    pub job: &'a str,
    /// Name of the sheet: "skin 1 of 2".
    pub sheet: &'a str,
    /// The metal, in words.
    pub metal: &'a str,
    /// Which side the drawing shows: "this face up".
    pub face: &'a str,
    /// Size along x, mm.
    pub length_mm: f64,
    /// Size along y, mm.
    pub width_mm: f64,
    /// Its outline where it is no rectangle; length and width are then those of the rectangle around it.
    pub offcut: Option<&'a OffcutEdges>,
    /// Trim off every edge, mm.
    pub edge_trim_mm: f64,
    /// How lengths are printed.
    pub style: LengthStyle,
    /// Direction of the lay, if the metal has one.
    pub lay: Option<Vector>,
    /// The parts.
    pub pieces: &'a [Piece],
    /// The drops to keep.
    pub drops: &'a [Drop],
    /// More words for the heading, such as the yield, and where they come from.
    pub facts: &'a [Fact],
}

/// Height of the text as a share of the sheet's longer side; printed across a letter sheet it comes out near 3 mm.
const TEXT_SHARE: f64 = 1.0 / 60.0;

/// The most labels on leaders: a crowd of them is not followed back to its parts.
const MOST_ON_LEADERS: usize = 12;

/// Draws the map of one sheet.
#[must_use]
pub fn draw(map: &SheetMap<'_>) -> Page {
    whole(map, &Stretch::whole(map), &[]).0
}

/// Draws the map of one sheet; where more than a dozen marks would not be readable in their places, a key plan and behind
/// it the sheet in so many stretches that they are.
#[must_use]
pub fn draw_all(map: &SheetMap<'_>) -> Vec<Page> {
    let (page, without) = whole(map, &Stretch::whole(map), &[]);
    if without <= MOST_ON_LEADERS {
        return vec![page];
    }
    let (mut key, mut pages) = (Vec::new(), Vec::new());
    for count in 2..=stretches::MOST {
        key = stretches::of(map, count);
        let drawn: Vec<(Page, usize)> = key.iter().map(|stretch| whole(map, stretch, &[])).collect();
        let is_clear = drawn.iter().all(|(_, without)| *without <= MOST_ON_LEADERS);
        pages = drawn.into_iter().map(|(page, _)| page).collect();
        if is_clear {
            break;
        }
    }
    let key_plan = whole(map, &Stretch::whole(map), &key).0;
    std::iter::once(key_plan).chain(pages).collect()
}

/// Draws a stretch of a sheet, or all of it; with a `key` it is the key plan of those stretches. Also how many labels find
/// no room on their part. Where heading and foot leave so little of the paper that the smallest words could not be read, the
/// text is larger.
fn whole(map: &SheetMap<'_>, stretch: &Stretch, key: &[Stretch]) -> (Page, usize) {
    const GROWTHS: [f64; 3] = [1.1, 1.2, 1.35];
    let (width_mm, height_mm) = stretch.size_mm();
    let text_mm = width_mm.max(height_mm) * TEXT_SHARE;
    let is_readable = |page: &Page| {
        SMALLEST_MM <= page::printed_text_mm(page) * page::smallest_text_mm(page) / page.text_mm
    };
    let mut drawn = with_text(map, stretch, key, text_mm);
    for growth in GROWTHS {
        if is_readable(&drawn.0) {
            break;
        }
        drawn = with_text(map, stretch, key, growth * text_mm);
    }
    drawn
}

/// The same with text of this height.
fn with_text(map: &SheetMap<'_>, stretch: &Stretch, key: &[Stretch], text_mm: f64) -> (Page, usize) {
    let (width_mm, height_mm) = stretch.size_mm();
    let mut field = Field::default();
    let pieces = stretch.pieces(map);
    let mut points: Vec<Point> = pieces.iter().map(|piece| piece.datum.corner).collect();
    points.push(Point::new(width_mm, height_mm));
    let offcut = map.offcut.map(|offcut| offcut::Seen::of(offcut, stretch.window()));
    if let Some(offcut) = &offcut {
        points.extend(&offcut.corners);
        offcut.occupy(&mut field);
    }
    let begins = stretch.low - Point::default();
    let frame = Frame { width_mm, height_mm, style: map.style, text_mm, begins };
    let dimensions = running::both_ways(&mut field, &points, frame);
    pieces::occupy(&mut field, &pieces, text_mm);
    let mut items = vec![
        Item::group("sheet", edges(map, stretch, offcut.as_ref(), text_mm)),
        Item::group("dimensions", dimensions),
    ];
    let bounds = (Point::default(), Point::new(width_mm, height_mm));
    let drops = stretch.drops(map);
    items.insert(1, Item::group("drops", drops::items(&mut field, map.style, &drops, (text_mm, bounds))));
    let outside = if key.is_empty() { Outside::OnLeaders } else { Outside::Elsewhere };
    if !key.is_empty() {
        items.push(Item::group("stretches", stretches::key(&mut field, key, text_mm)));
    }
    let (groups, without) = pieces::groups(&mut field, &pieces, text_mm, (outside, bounds));
    items.extend(groups);
    items.extend(lay_arrow(&mut field, map, (width_mm, height_mm), text_mm));
    let (left_mm, width_mm) = drawing::columns(&items, text_mm);
    let heading = heading(map, stretch, Block::new(left_mm, width_mm), text_mm);
    let mut foot = foot(map, &drops, Block::new(left_mm, width_mm), text_mm);
    if !key.is_empty() {
        foot.paragraph(stretches::KEY_PLAN, Weight::Bold, text_mm, "");
    }
    let title = format!("{}: {}{}", map.job, map.sheet, stretch.which());
    (drawing::assemble(title, items, heading, foot, text_mm), without)
}

/// The sheet as bought, the trim line inside it, and the datum.
fn edges(map: &SheetMap<'_>, stretch: &Stretch, offcut: Option<&offcut::Seen>, text_mm: f64) -> Vec<Item> {
    if let Some(offcut) = offcut {
        let mut items = offcut.items(0.0 < map.edge_trim_mm, text_mm);
        items.extend(stretch.is_whole().then(|| symbols::datum_block(Point::default(), 0.7 * text_mm)));
        return items;
    }
    if let Some(cut) = stretch.edges(map) {
        return cut;
    }
    let rectangle = |inset: f64| {
        let (right, top) = (map.length_mm - inset, map.width_mm - inset);
        [(inset, inset), (right, inset), (right, top), (inset, top)].map(|(x, y)| Point::new(x, y))
    };
    let mut items = vec![Item::edge(&rectangle(0.0), Pen::SheetEdge)];
    if 0.0 < map.edge_trim_mm {
        items.push(Item::edge(&rectangle(map.edge_trim_mm), Pen::TrimEdge));
    }
    items.push(symbols::datum_block(Point::default(), 0.7 * text_mm));
    items
}

/// The lay arrow over the sheet's upper edge, or higher where labels stand in its way.
fn lay_arrow(
    field: &mut Field,
    map: &SheetMap<'_>,
    (length_mm, width_mm): (f64, f64),
    text_mm: f64,
) -> Option<Item> {
    let along = drawing::label::reading(map.lay?);
    let length = symbols::LAY_ARROW_EM * text_mm;
    let rise = 0.5 * length * along.y.abs() + 1.2 * text_mm;
    let mut centre = Point::new(0.5 * length_mm, width_mm + rise);
    loop {
        let room = TextBox::centred(centre, along, length, 1.2 * text_mm);
        if field.is_clear(&room) {
            field.take(room);
            return Some(Item::group("lay", symbols::lay_arrow(centre, along, text_mm)));
        }
        centre.y += text_mm;
    }
}

fn heading(map: &SheetMap<'_>, stretch: &Stretch, mut block: Block, text_mm: f64) -> Block {
    let size = |mm: f64| printed(mm, map.style);
    let unit = unit_mark(map.style);
    let over_all = if map.offcut.is_some() { " over all" } else { "" };
    let fact = |name: &str, value: String, origin: &str| Fact {
        name: name.to_owned(),
        value,
        origin: origin.to_owned(),
        ..Fact::default()
    };
    let sheet = format!("{} × {} {unit}{over_all}", size(map.width_mm), size(map.length_mm));
    let mut facts = vec![
        fact("metal", map.metal.to_owned(), METAL),
        fact("sheet", sheet, SHEET),
        fact("edge trim", format!("{} {unit} all round", size(map.edge_trim_mm)), TRIM),
        fact("drawn with", map.face.to_owned(), FACE),
        fact("parts on it", map.pieces.len().to_string(), PARTS),
        fact("numbers in", unit_words(map.style), TAPE_FROM),
    ];
    facts.extend(map.facts.iter().cloned());
    block.title(map.sheet, &format!("Sheet map{}", stretch.which()), map.job, text_mm);
    block.ruled_facts(&facts, text_mm);
    block
}

const METAL: &str = "alloy and thickness of the metal in the job";
const SHEET: &str = "size of the sheet in the job, of the piece in the rack, or as it was received";
const TRIM: &str = "edge trim of the job (shop)";
const FACE: &str = "face side of the metal: the one with lugs or film, else the marked one";
const PARTS: &str = "pieces that the nest lays on this sheet, counted";

/// Where the yields over a sheet map come from.
pub const YIELD: &str =
    "area of the parts, or of the parts and the kept drops, ÷ area of the sheet, as in the scrap report";
/// Where the number of cuts that serve two parts comes from.
pub const SHARED: &str = "cuts of the verified nest along which two parts lie one kerf apart, counted";

/// Where the numbers over a sheet map come from: the appendix tells the same.
pub(crate) const HEADING_ORIGINS: [(&str, &str); 6] = [
    ("sheet map, metal", METAL),
    ("sheet map, sheet", SHEET),
    ("sheet map, edge trim", TRIM),
    ("sheet map, parts on it", PARTS),
    ("sheet map, yield", YIELD),
    ("sheet map, cuts for two parts", SHARED),
];

fn foot(map: &SheetMap<'_>, drops: &[ShownDrop], mut block: Block, text_mm: f64) -> Block {
    let mut entries = vec![Entry::Cut];
    let has =
        |way: Direction| map.pieces.iter().any(|piece| piece.bend_lines.iter().any(|line| line.0 == way));
    if has(Direction::Up) {
        entries.push(Entry::LightBendUp);
    }
    if has(Direction::Down) {
        entries.push(Entry::LightBendDown);
    }
    if 0.0 < map.edge_trim_mm {
        entries.push(Entry::Trim);
    }
    if !map.drops.is_empty() {
        entries.push(Entry::Drop);
    }
    entries.push(Entry::PartDatum);
    match map.offcut {
        None => entries.push(Entry::Datum),
        Some(offcut) => {
            entries.push(Entry::NoMetal);
            entries.extend((!offcut.torn.is_empty()).then_some(Entry::Torn));
            entries.push(Entry::DatumAround);
        }
    }
    block.rule();
    drops::table(&mut block, map.style, drops, 0.95 * text_mm);
    legend::set(&mut block, &entries, text_mm);
    block
}
