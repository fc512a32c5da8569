//! The key plan of a pattern: the whole flat small, with the leaves it takes, and how to join them.

use geometry::{Point, Vector};

use super::grid::{Grid, Tile};
use super::{Pattern, TEXT_MM};
use crate::drawing::block::Block;
use crate::packet::leaves::PaperSize;
use crate::packet::leaves::sheet::{EDGE_MM, blank, room};
use crate::page::font::{self, Weight};
use crate::page::{Anchor, Item, Page, Pen, Text};
use crate::pdf::{Leaf, Placed};

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
    for tile in grid.tiles() {
        leaf.items.extend(tile_items(grid, tile, &place));
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
             that edge on the finely dotted line of its neighbour, cross on cross, and glue the strip. Join rows first."
                .to_owned(),
        );
    }
    let blank = grid.blank();
    if !blank.is_empty() {
        sentences.push(format!("Left out, since no metal lies there: {}.", names(&blank)));
    }
    sentences
}

/// The edge of a tile without what its neighbours repeat, and its name.
fn tile_items(grid: &Grid, tile: Tile, place: &impl Fn(Point) -> Point) -> Vec<Item> {
    let (low, high) = grid.shown(tile);
    let share = super::grid::OVERLAP_MM;
    let far = |is_last: bool, at: f64| if is_last { at } else { at - share };
    let high =
        Point::new(far(tile.column + 1 == grid.counts.0, high.x), far(tile.row + 1 == grid.counts.1, high.y));
    let (low, high) = (place(low), place(high));
    let corners = [low, Point::new(high.x, low.y), high, Point::new(low.x, high.y)];
    let name = tile.name();
    let room = 0.7 * (high.x - low.x).min(high.y - low.y);
    let size_mm = (room / font::width_mm(&name, Weight::Bold, 1.0)).min(5.0);
    let middle = low.toward(high, 0.5) - Vector::new(0.0, 0.35 * size_mm);
    vec![
        Item::edge(&corners, Pen::Frame),
        Item::Text(Text::new(middle, name, size_mm).bold().anchored(Anchor::Middle)),
    ]
}
