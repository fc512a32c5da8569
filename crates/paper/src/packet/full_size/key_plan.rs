//! The key plan of a pattern: the whole flat small, with the leaves it takes, and how to join them.

use geometry::outline::Chords;
use geometry::{Point, Vector, polygon};

use super::grid::{Grid, Tile};
use super::{Pattern, TEXT_MM};
use crate::drawing::block::Block;
use crate::packet::leaves::PaperSize;
use crate::packet::leaves::sheet::{EDGE_MM, blank, room};
use crate::page::font::{self, Weight};
use crate::page::{Anchor, Item, Page, Pen, Text, TextBox};
use crate::pdf::{Leaf, Placed};
use crate::placing::Field;

/// Share of the leaf's height that the plan may take.
const SHARE: f64 = 0.55;

/// The leaf.
pub(super) fn leaf<'a>(pattern: &Pattern<'_>, lines: &'a Page, grid: &Grid, paper: PaperSize) -> Leaf<'a> {
    let size_mm = paper.upright_mm();
    let (low, width, height) = room(size_mm);
    let mut leaf = blank(format!("{}: full size, key plan", pattern.mark), size_mm);
    let mut block = Block::new(EDGE_MM, width);
    block.foot_mm = low.y + height;
    block.title(
        pattern.mark,
        &format!("{}: full-size pattern, key plan", pattern.title),
        pattern.job,
        TEXT_MM,
    );
    block.rule();
    block.skip(TEXT_MM);
    for sentence in sentences(grid) {
        block.paragraph(&sentence, Weight::Regular, 1.1 * TEXT_MM, "–");
    }
    block.skip(2.0 * TEXT_MM);
    let (from, to) = reach(grid);
    let scale = (width / (to.x - from.x)).min(SHARE * height / (to.y - from.y)).min(1.0);
    let corner = Point::new(EDGE_MM, block.foot_mm - scale * (to.y - from.y));
    let place = |point: Point| corner + (point - from) * scale;
    leaf.drawings.push(Placed { page: lines, at: place(lines.low), scale, window: None });
    leaf.items.extend(block.items);
    let mut field = Field::default();
    let contours = std::iter::once(&pattern.flat.outline.outer).chain(&pattern.flat.outline.holes);
    contours
        .flat_map(|contour| polygon::edges(&contour.corners(Chords::On)).collect::<Vec<_>>())
        .chain(pattern.flat.marks().map(|(_, line)| line))
        .for_each(|(from, to)| field.add_line(place(from), place(to)));
    for tile in grid.tiles() {
        leaf.items.extend(tile_items(grid, tile, &field, &place));
    }
    leaf
}

/// Lower left and upper right corner of all tiles together.
fn reach(grid: &Grid) -> (Point, Point) {
    let (columns, rows) = grid.counts;
    let (low, _) = grid.shown(Tile { column: 0, row: 0 });
    let (_, high) = grid.shown(Tile { column: columns - 1, row: rows - 1 });
    (low, high)
}

fn sentences(grid: &Grid) -> Vec<String> {
    let (columns, rows) = grid.counts;
    let names = |tiles: &[Tile]| tiles.iter().map(|tile| tile.name()).collect::<Vec<_>>().join(", ");
    let tiles = grid.tiles();
    let leaves = if tiles.len() == 1 { "1 leaf".to_owned() } else { format!("{} leaves", tiles.len()) };
    let mut sentences = vec![
        format!("{leaves}: {columns} across, {rows} up. Rows have letters from below, columns numbers from the left."),
        "Print at 100 % (actual size), never fitted to the page. Prove every leaf: measure its two bars with the tape \
         that lays out the job. A leaf whose bars are off is printed again, not used."
            .to_owned(),
        "Do not scale from this page or from any other print: read the numbers on the layout sheet.".to_owned(),
        "Paper grows and shrinks with the weather: prove the joined pattern by its running dimensions and diagonals \
         before it is pricked through."
            .to_owned(),
    ];
    if 1 < tiles.len() {
        sentences.push(
            "Cut the paper of every leaf along its thick dashed left and lower edge, never along the part's own full line; lay \
             that edge on the thin line of short dashes of its neighbour, cross on cross, and glue the strip. Join rows first."
                .to_owned(),
        );
    }
    let blank = grid.blank();
    if !blank.is_empty() {
        sentences.push(format!("Left out, since no metal lies there: {}.", names(&blank)));
    }
    sentences
}

/// The edge of a tile without what its neighbours repeat, and its name, clear of the pattern's lines at the largest size that finds
/// such a place.
fn tile_items(grid: &Grid, tile: Tile, field: &Field, place: &impl Fn(Point) -> Point) -> Vec<Item> {
    let (low, high) = grid.shown(tile);
    let share = super::grid::OVERLAP_MM;
    let far = |is_last: bool, at: f64| if is_last { at } else { at - share };
    let high =
        Point::new(far(tile.column + 1 == grid.counts.0, high.x), far(tile.row + 1 == grid.counts.1, high.y));
    let (low, high) = (place(low), place(high));
    let corners = [low, Point::new(high.x, low.y), high, Point::new(low.x, high.y)];
    let name = tile.name();
    let (width, height) = (high.x - low.x, high.y - low.y);
    let most_mm = (0.7 * width.min(height) / font::width_mm(&name, Weight::Bold, 1.0)).min(5.0);
    let middle = low.toward(high, 0.5);
    let shares = || (1..=19).map(|step| 0.05 * f64::from(step));
    let places: Vec<Point> = shares()
        .flat_map(|x| shares().map(move |y| (x, y)))
        .map(|(x, y)| Point::new(low.x + x * width, low.y + y * height))
        .collect();
    let sizes_mm = (0..8).map(|step| most_mm - 0.5 * f64::from(step)).filter(|size_mm| LEAST_MM <= *size_mm);
    let clear = |size_mm: f64| {
        let (wide, high_mm) = (font::width_mm(&name, Weight::Bold, size_mm) + size_mm, 1.6 * size_mm);
        let is_inside = |at: &Point| {
            let off = *at - middle;
            2.0 * off.x.abs() + wide < width && 2.0 * off.y.abs() + high_mm < height
        };
        let is_clear =
            |at: &Point| field.is_clear(&TextBox::centred(*at, Vector::new(1.0, 0.0), wide, high_mm));
        let free = places.iter().filter(|at| is_inside(at) && is_clear(at));
        let nearest = free.min_by(|a, b| a.distance(middle).total_cmp(&b.distance(middle)))?;
        Some((size_mm, *nearest))
    };
    let (size_mm, at) = sizes_mm.into_iter().find_map(clear).unwrap_or((most_mm.min(LEAST_MM), middle));
    let foot = at - Vector::new(0.0, 0.35 * size_mm);
    vec![
        Item::edge(&corners, Pen::Frame),
        Item::Text(Text::new(foot, name, size_mm).bold().anchored(Anchor::Middle)),
    ]
}

/// The least height of a leaf's name, mm.
const LEAST_MM: f64 = 2.6;
