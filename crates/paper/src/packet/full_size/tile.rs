//! One leaf of a pattern: its window on the lines, where it joins its neighbours, bars to prove it, and words.

use geometry::outline::Chords;
use geometry::{Point, Vector, polygon};
use units::LengthUnit;

use super::grid::{Grid, OVERLAP_MM, Tile};
use super::{Pattern, TEXT_MM};
use crate::drawing::label::{self, Label};
use crate::drawing::{bend_label, clipped, leader};
use crate::packet::leaves::sheet::{EDGE_MM, blank};
use crate::page::font::{self, Weight};
use crate::page::{Item, Page, Pen, Text, TextBox};
use crate::pdf::{Leaf, Placed};
use crate::placing::Field;

/// Half the reach of a joining cross, mm.
const CROSS_MM: f64 = 4.0;

/// Text in the strips, mm.
const SMALL_MM: f64 = 2.6;

/// Sets the leaves of one pattern.
pub(super) struct Setter<'p, 'a> {
    pattern: &'p Pattern<'p>,
    lines: &'a Page,
    grid: &'p Grid,
}

impl<'p, 'a> Setter<'p, 'a> {
    pub(super) const fn new(pattern: &'p Pattern<'p>, lines: &'a Page, grid: &'p Grid) -> Self {
        Self { pattern, lines, grid }
    }

    /// One leaf.
    pub(super) fn leaf(&self, tile: Tile) -> Leaf<'a> {
        let Pattern { mark, .. } = self.pattern;
        let mut leaf = blank(format!("{mark}: full size, {}", tile.name()), self.grid.leaf_mm);
        leaf.text_mm = TEXT_MM;
        let (shown, _) = self.grid.shown(tile);
        let window = self.grid.window();
        let shift = window.0 - shown;
        let at = self.lines.low + shift;
        leaf.drawings.push(Placed { page: self.lines, at, scale: 1.0, window: Some(window) });
        let mut field = self.field(shift);
        leaf.items.extend(self.joints(&mut field, tile));
        leaf.items.extend(self.head(tile));
        leaf.items.extend(self.bars());
        leaf.items.extend(self.bends(&mut field, shift));
        leaf.items.extend(self.face(&mut field, shift));
        leaf
    }

    /// The metal's lines within the window, and everything outside it taken.
    fn field(&self, shift: Vector) -> Field {
        let mut field = Field::default();
        let (low, high) = self.grid.window();
        let flat = self.pattern.flat;
        let contours = std::iter::once(&flat.outline.outer).chain(&flat.outline.holes);
        let edges: Vec<(Point, Point)> = contours
            .flat_map(|contour| polygon::edges(&contour.corners(Chords::On)).collect::<Vec<_>>())
            .collect();
        for (from, to) in edges.into_iter().chain(flat.marks().map(|(_, line)| line)) {
            if let Some((from, to)) = clipped((from + shift, to + shift), (low, high)) {
                field.add_line(from, to);
            }
        }
        let (level, far) = (Vector::new(1.0, 0.0), 1000.0);
        let (width, height) = (high.x - low.x, high.y - low.y);
        let mut outside = |x: f64, y: f64, width: f64, height: f64| {
            field.take(TextBox::new(Point::new(x, y), level, width, height));
        };
        outside(low.x - far, low.y - far, far, height + 2.0 * far);
        outside(high.x, low.y - far, far, height + 2.0 * far);
        outside(low.x, low.y - far, width, far);
        outside(low.x, high.y, width, far);
        field
    }

    /// The four edges: thick dashed cut lines where a neighbour lies under this leaf, glue strips where one comes over it.
    fn joints(&self, field: &mut Field, tile: Tile) -> Vec<Item> {
        let (low, high) = self.grid.window();
        let mut items = Vec::new();
        let corner = |x: f64, y: f64| Point::new(x, y);
        let sides = [
            (corner(low.x, low.y), corner(low.x, high.y), 0 < tile.column),
            (corner(low.x, low.y), corner(high.x, low.y), 0 < tile.row),
        ];
        for (from, to, _) in sides.iter().filter(|(.., cut)| *cut) {
            items.push(Item::line(*from, *to, Pen::PaperCut));
        }
        items.extend(self.crosses(field, tile));
        if let Some(right) = self.grid.beside(tile, (1, 0)) {
            let x = high.x - OVERLAP_MM;
            items.extend(strip(field, (corner(x, low.y), corner(x, high.y)), -1.0, right));
        }
        if let Some(above) = self.grid.beside(tile, (0, 1)) {
            let y = high.y - OVERLAP_MM;
            items.extend(strip(field, (corner(low.x, y), corner(high.x, y)), 1.0, above));
        }
        items
    }

    /// Two crosses in every strip that is shared with a neighbour, at the same places of the pattern on both leaves.
    fn crosses(&self, field: &mut Field, tile: Tile) -> Vec<Item> {
        let (low, high) = self.grid.window();
        let half = 0.5 * OVERLAP_MM;
        let mut places = Vec::new();
        for share in [0.06, 0.94] {
            let (x, y) = (low.x + share * (high.x - low.x), low.y + share * (high.y - low.y));
            let columns =
                [(low.x + half, 0 < tile.column), (high.x - half, self.grid.beside(tile, (1, 0)).is_some())];
            places.extend(columns.into_iter().filter(|(_, shared)| *shared).map(|(x, _)| Point::new(x, y)));
            let rows =
                [(low.y + half, 0 < tile.row), (high.y - half, self.grid.beside(tile, (0, 1)).is_some())];
            places.extend(rows.into_iter().filter(|(_, shared)| *shared).map(|(y, _)| Point::new(x, y)));
        }
        let level = Vector::new(1.0, 0.0);
        let mut items = Vec::new();
        for place in places {
            field.take(TextBox::centred(place, level, 2.0 * CROSS_MM, 2.0 * CROSS_MM));
            let (right, up) = (Vector::new(CROSS_MM, 0.0), Vector::new(0.0, CROSS_MM));
            items.push(Item::line(place - right, place + right, Pen::Dimension));
            items.push(Item::line(place - up, place + up, Pen::Dimension));
        }
        vec![Item::group("joining crosses", items)]
    }

    /// Which leaf this is, and how to print it.
    fn head(&self, tile: Tile) -> Vec<Item> {
        let (_, high) = self.grid.window();
        let Pattern { mark, face, .. } = self.pattern;
        let room = high.x - EDGE_MM;
        let name = format!("{mark}  {}", tile.name());
        let (columns, rows) = self.grid.counts;
        let of = format!("full size: {columns} across, {rows} up; {face}");
        let size_mm = (0.5 * room / font::width_mm(&name, Weight::Bold, 1.0)).min(6.0);
        let top = high.y + 6.2;
        let at = Point::new(EDGE_MM, top);
        let name = Text::new(at, name, size_mm).bold();
        let beside = at + Vector::new(name.width_mm() + 2.0 * TEXT_MM, 0.0);
        let of = font::shortened(&of, Weight::Regular, TEXT_MM, high.x - beside.x);
        let is_joined = 0 < tile.column || 0 < tile.row;
        let words = if is_joined { JOINED } else { FIRST };
        // The shortest says all that a hand must know; a leaf narrower than it has smaller letters, never letters off the paper.
        let fits = |words: &&str| font::width_mm(words, Weight::Regular, SMALL_MM) <= high.x - EDGE_MM;
        let words = words.into_iter().find(fits).unwrap_or(words[1]);
        let small_mm = SMALL_MM.min((high.x - EDGE_MM) / font::width_mm(words, Weight::Regular, 1.0));
        let line = Point::new(EDGE_MM, top - 4.4);
        vec![
            Item::Text(name),
            Item::Text(Text::new(beside, of, TEXT_MM)),
            Item::Text(Text::new(line, words, small_mm)),
        ]
    }

    /// A level and an upright bar of a round length.
    fn bars(&self) -> Vec<Item> {
        let (low, _) = self.grid.window();
        let (length, name) = match self.pattern.style.unit() {
            LengthUnit::Inch => (4.0 * 25.4, "4 in exactly"),
            LengthUnit::Millimetre => (100.0, "100 mm exactly"),
        };
        let ends = |from: Point, along: Vector| {
            let to = from + along * length;
            let tick = along.left() * 1.8;
            let bar = [(from, to), (from - tick, from + tick), (to - tick, to + tick)];
            bar.map(|(from, to)| Item::line(from, to, Pen::Datum))
        };
        let (right, up) = (Vector::new(1.0, 0.0), Vector::new(0.0, 1.0));
        let (level, upright) = (low - up * 5.0, low - right * 5.0);
        let mut items = vec![
            Item::group("level bar", ends(level, right).to_vec()),
            Item::group("upright bar", ends(upright, up).to_vec()),
        ];
        let words = |at: Point| Text::new(at, format!("this bar is {name}"), SMALL_MM);
        items.push(Item::Text(words(level + right * (length + 4.0) - up * (0.35 * SMALL_MM))));
        let beside = upright + up * (length + 4.0) + right * (0.35 * SMALL_MM);
        items.push(Item::Text(words(beside).turned(std::f64::consts::FRAC_PI_2)));
        items
    }

    /// The words for every bend whose line is seen here, beside it or on a leader; where there is no room, another leaf or
    /// the layout sheet has them.
    fn bends(&self, field: &mut Field, shift: Vector) -> Vec<Item> {
        let window = self.grid.window();
        let mut items = Vec::new();
        for bend in &self.pattern.flat.bends {
            let thickness_mm = self.pattern.flat.thickness_mm;
            let seen = |(from, to): (Point, Point)| clipped((from + shift, to + shift), window);
            let Some(line) = bend.marks(thickness_mm).into_iter().rev().find_map(seen) else { continue };
            let label = bend_label((bend, thickness_mm), self.pattern.style, "", TEXT_MM);
            let beside = label::lay_beside(field, &label, line, |_, _| true).or_else(|| {
                let tips = [0.5, 0.25, 0.75].map(|share| line.0.toward(line.1, share));
                leader::place_near(field, &label, &tips)
            });
            items.extend(beside.unwrap_or_default());
        }
        items
    }

    /// Mark and side on the metal, where this leaf has room for them.
    fn face(&self, field: &mut Field, shift: Vector) -> Vec<Item> {
        let window = self.grid.window();
        let (low, high) = window;
        let flat = self.pattern.flat;
        let moved = |corners: Vec<Point>| -> Vec<Point> {
            corners.into_iter().map(|corner| corner + shift).collect()
        };
        let outer = moved(flat.outline.outer.corners(Chords::On));
        let holes: Vec<Vec<Point>> =
            flat.outline.holes.iter().map(|hole| moved(hole.corners(Chords::On))).collect();
        let middle = low.toward(high, 0.5);
        let mut items = Vec::new();
        let words = [(self.pattern.mark, Weight::Bold, 8.0), (self.pattern.face, Weight::Regular, TEXT_MM)];
        for (words, weight, size_mm) in words {
            let words = font::shortened(words, weight, size_mm, 0.6 * (high.x - low.x));
            let label = Label { weight, ..Label::new(words, size_mm) };
            let level = Vector::new(1.0, 0.0);
            let on_metal = |room: &TextBox| {
                room.corners.iter().all(|corner| polygon::contains(&outer, *corner))
                    && !holes
                        .iter()
                        .any(|hole| room.corners.iter().any(|corner| polygon::contains(hole, *corner)))
            };
            let shares = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8];
            let places = shares
                .iter()
                .flat_map(|y| shares.iter().map(move |x| (*x, *y)))
                .map(|(x, y)| Point::new(low.x + x * (high.x - low.x), low.y + y * (high.y - low.y)));
            let clear = |centre: &Point| {
                let room = label.room(*centre, level).grown(0.3 * size_mm);
                on_metal(&room) && field.is_clear(&room)
            };
            let off = |place: &Point| place.distance(middle);
            if let Some(centre) = places.filter(clear).min_by(|a, b| off(a).total_cmp(&off(b))) {
                field.take(label.room(centre, level));
                items.extend(label.items(centre, level));
            }
        }
        items
    }
}

/// Said over the first leaf: at length, and where that finds no room.
const FIRST: [&str; 2] = [
    "Print at 100 %, never fitted to the page. Measure both bars before cutting; do not scale.",
    "Print at 100 %, not fitted. Measure both bars; do not scale.",
];

/// Said over a leaf that is laid on another.
const JOINED: [&str; 2] = [
    "Print at 100 %, never fitted to the page. Measure both bars before cutting; do not scale. Cut the paper along its THICK DASHED edge, never along the part's thin full line.",
    "Print at 100 %, not fitted. Measure both bars; do not scale. Cut the paper on its THICK DASHED edge, never on the part's thin line.",
];

/// The strip beside the line from `from` to `to`, on its left where `side` is 1: the line, and what is glued there. Takes
/// the strip. The words keep off the metal's lines and hide none of them: where no words find room, the line itself, its crosses
/// and the words of the key plan tell it.
fn strip(field: &mut Field, (from, to): (Point, Point), side: f64, other: Tile) -> Vec<Item> {
    let along = (to - from).unit();
    let out = along.left() * side;
    let name = other.name();
    let labels = [
        format!("glue: lay the cut edge of {name} on this line, cross on cross"),
        format!("glue: edge of {name} on this line"),
        format!("glue {name}"),
    ]
    .map(|words| Label::new(words, SMALL_MM));
    let middle = |share: f64| from.toward(to, share) + out * (0.5 * OVERLAP_MM);
    let room = |label: &Label, share: f64| label.room(middle(share), along).grown(0.2 * SMALL_MM);
    let mut items = vec![Item::line(from, to, Pen::TrimEdge)];
    let shares =
        (0..=40).map(|step| 0.5 + 0.02 * f64::from(if step % 2 == 0 { step / 2 } else { -(step + 1) / 2 }));
    let fits = |label: &Label, share: f64| {
        let half = 0.5 * label.width_mm() / from.distance(to);
        half < share && share < 1.0 - half && field.is_clear(&room(label, share))
    };
    let mut tries = labels.iter().flat_map(|label| shares.clone().map(move |share| (label, share)));
    if let Some((label, share)) = tries.find(|(label, share)| fits(label, *share)) {
        items.extend(label.items(middle(share), along));
    }
    let centre = from.toward(to, 0.5) + out * (0.5 * OVERLAP_MM);
    field.take(TextBox::centred(centre, along, from.distance(to), OVERLAP_MM));
    items
}
