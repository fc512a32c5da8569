//! A model of paper: the part without thickness, scaled to a letter or A4 sheet, to be folded and glued before any metal
//! is cut.

mod outline;
mod scale;
mod tabs;

use fold::Direction;
use fold::thin::ThinPattern;
use geometry::{Point, Vector};
use units::{LengthStyle, LengthUnit};

use crate::drawing::block::Block;
use crate::drawing::label::{self, Label};
use crate::drawing::legend::{self, Entry};
use crate::drawing::room::{self, Figure};
use crate::page::font::Weight;
use crate::page::{Fill, Item, Page, Pen, Shape};
use crate::placing::Field;

use scale::Scaled;
use tabs::Tab;

/// Width and height of the page, mm: what a letter and an A4 sheet both can print.
const PAGE_MM: (f64, f64) = (186.0, 243.0);

/// Height left for the model between heading and foot, mm.
const MODEL_HEIGHT_MM: f64 = 158.0;

/// Height of ordinary text, mm.
const TEXT_MM: f64 = 3.2;

/// Said on every model.
const NOT_A_PATTERN: &str = "Not a pattern for metal: paper has no thickness, so this model has no bend allowance and \
                             no reliefs. Lay out metal from the layout sheet only.";

/// All that a model shows.
#[derive(Debug, Clone, Copy)]
pub struct PaperModel<'a> {
    /// Name of the job.
    pub job: &'a str,
    /// Mark of the part.
    pub mark: &'a str,
    /// What it is, in words.
    pub title: &'a str,
    /// The part without thickness, laid flat.
    pub pattern: &'a ThinPattern,
    /// How lengths are printed.
    pub style: LengthStyle,
    /// Which side the drawing shows.
    pub face: &'a str,
}

/// Draws the model.
#[must_use]
pub fn draw(model: &PaperModel<'_>) -> Page {
    let scaled = Scaled::fit(model.pattern, (PAGE_MM.0 - 6.0, MODEL_HEIGHT_MM));
    let tabs = tabs::place(&scaled);
    let mut field = Field::default();
    let mut items = vec![metal(&scaled, &tabs)];
    items.push(Item::group("folds", folds(&mut field, &scaled, &tabs)));
    items.push(Item::group("names", names(&mut field, &scaled, &tabs)));
    let (low, high) = crate::page::bounds(&items).unwrap_or_default();
    let (width, height) = PAGE_MM;
    let mut head = Block::new(0.0, width);
    heading(&mut head, model, &scaled);
    let mut foot = Block::new(0.0, width);
    footing(&mut foot, model, &scaled, &tabs);
    let middle = Point::new(0.5 * width, 0.5 * (height + head.foot_mm - foot.foot_mm));
    let by = middle - low.toward(high, 0.5);
    let mut placed = vec![Item::group(model.mark, items.iter().map(|item| item.moved(by)).collect())];
    let up = Vector::new(0.0, height);
    placed.push(Item::group("heading", head.items.iter().map(|item| item.moved(up)).collect()));
    let rise = Vector::new(0.0, -foot.foot_mm);
    placed.push(Item::group("legend", foot.items.iter().map(|item| item.moved(rise)).collect()));
    let title = format!("{}: paper model of {}", model.job, model.mark);
    Page { title, low: Point::default(), high: Point::new(width, height), text_mm: TEXT_MM, items: placed }
}

/// The outline to cut, tabs and holes with it.
fn metal(scaled: &Scaled, tabs: &[Tab]) -> Item {
    let mut contours = vec![outline::walk(scaled, tabs)];
    contours.extend(scaled.faces.iter().flat_map(|face| face.holes.iter().cloned()));
    Item::Shape(Shape { contours, pen: Some(Pen::CutEdge), fill: Some(Fill::Paper) })
}

/// Fold lines of bends and of tabs.
fn folds(field: &mut Field, scaled: &Scaled, tabs: &[Tab]) -> Vec<Item> {
    let bends = scaled.folds.iter().map(|fold| (fold.ends, Pen::bend(fold.direction)));
    let glued = tabs.iter().map(|tab| (tab.base, Pen::BendLight));
    let all: Vec<([Point; 2], Pen)> = bends.chain(glued).collect();
    all.iter()
        .map(|&([from, to], pen)| {
            field.add_line(from, to);
            Item::line(from, to, pen)
        })
        .collect()
}

/// Names of faces, and the number of every seam on its tab and on the edge the tab is glued to.
fn names(field: &mut Field, scaled: &Scaled, tabs: &[Tab]) -> Vec<Item> {
    let mut items = Vec::new();
    for tab in tabs {
        let number = Label::new(tab.number.to_string(), 0.75 * TEXT_MM);
        let figure = Figure { outer: &tab.corners, holes: &[] };
        let along = label::reading(tab.base[1] - tab.base[0]);
        items.extend(room::lay(field, figure, &number, along).unwrap_or_default());
    }
    for (tab, mate) in tabs.iter().map(|tab| (tab, tab.mate)) {
        let number = Label::new(tab.number.to_string(), 0.75 * TEXT_MM);
        let inward = (mate[1] - mate[0]).unit().left();
        let centre = mate[0].toward(mate[1], 0.5) + inward * (0.75 * TEXT_MM);
        let level = Vector::new(1.0, 0.0);
        let room = number.room(centre, level);
        if field.is_clear(&room) {
            field.take(room);
            items.extend(number.items(centre, level));
        }
    }
    for face in &scaled.faces {
        for [from, to] in edges(&face.corners) {
            field.add_line(from, to);
        }
    }
    for face in &scaled.faces {
        let figure = Figure { outer: &face.corners, holes: &[] };
        let along = label::reading(longest(&face.corners));
        let laid = [1.0, 0.8, 0.65].iter().find_map(|size| {
            let name = Label::new(face.name.as_str(), size * TEXT_MM);
            room::lay(field, figure, &name, along)
        });
        items.extend(laid.unwrap_or_default());
    }
    items
}

fn edges(corners: &[Point]) -> impl Iterator<Item = [Point; 2]> + '_ {
    geometry::polygon::edges(corners).map(|(a, b)| [a, b])
}

/// The longest edge of a ring.
fn longest(corners: &[Point]) -> Vector {
    let ways = edges(corners).map(|[a, b]| b - a);
    ways.max_by(|a, b| a.length().total_cmp(&b.length())).unwrap_or(Vector::new(1.0, 0.0))
}

fn heading(block: &mut Block, model: &PaperModel<'_>, scaled: &Scaled) {
    let title = format!("{}: paper model, scale 1:{}", model.title, scaled.scale_words());
    block.title(model.mark, &title, model.job, TEXT_MM);
    block.paragraph(NOT_A_PATTERN, Weight::Bold, TEXT_MM, "!");
}

fn footing(block: &mut Block, model: &PaperModel<'_>, scaled: &Scaled, tabs: &[Tab]) {
    block.rule();
    let has = |direction| scaled.folds.iter().any(|fold| fold.direction == direction);
    let bends = [Direction::Up, Direction::Down].into_iter().filter(|direction| has(*direction));
    let tab = (!tabs.is_empty()).then_some(Entry::GlueTab);
    let entries: Vec<Entry> = std::iter::once(Entry::Cut).chain(bends.map(Entry::Bend)).chain(tab).collect();
    legend::set(block, &entries, 0.9 * TEXT_MM);
    block.skip(0.3 * TEXT_MM);
    let glue = match (tabs.is_empty(), scaled.folds.is_empty()) {
        (false, _) => {
            "Print at full size, 100 %. Score every fold, fold, and glue each tab behind the edge with its number."
        }
        (true, false) => "Print at full size, 100 %. Score every fold and fold.",
        (true, true) => "Print at full size, 100 %.",
    };
    block.paragraph(&format!("{glue} Seen: {}.", model.face), Weight::Regular, 0.9 * TEXT_MM, "");
    let taped: Vec<&str> = scaled
        .seams
        .iter()
        .enumerate()
        .filter(|(number, seam)| seam.closes && tabs.iter().all(|tab| tab.number != number + 1))
        .map(|(_, seam)| seam.name.as_str())
        .collect();
    if !taped.is_empty() {
        let words = format!("No room for a tab, close with tape: {}.", taped.join(", "));
        block.paragraph(&words, Weight::Regular, 0.9 * TEXT_MM, "");
    }
    let open: Vec<&str> =
        scaled.seams.iter().filter(|seam| !seam.closes).map(|seam| seam.name.as_str()).collect();
    if !open.is_empty() {
        let words = format!("Stays open on paper: {}.", open.join(", "));
        block.paragraph(&words, Weight::Regular, 0.9 * TEXT_MM, "");
    }
    check_bar(block, model.style);
}

/// A bar of a round length, to check the print by.
fn check_bar(block: &mut Block, style: LengthStyle) {
    let (length_mm, name) = match style.unit() {
        LengthUnit::Inch => (50.8, "2 in"),
        LengthUnit::Millimetre => (50.0, "50 mm"),
    };
    block.skip(1.6 * TEXT_MM);
    let from = Point::new(block.left_mm, block.foot_mm + 0.3 * TEXT_MM);
    let to = from + Vector::new(length_mm, 0.0);
    let tick = Vector::new(0.0, 0.4 * TEXT_MM);
    block.items.push(Item::line(from, to, Pen::Datum));
    block.items.extend([from, to].map(|end| Item::line(end - tick, end + tick, Pen::Datum)));
    let mut beside = Block::new(block.left_mm + length_mm + TEXT_MM, block.width_mm - length_mm - TEXT_MM);
    beside.foot_mm = block.foot_mm + 1.1 * TEXT_MM;
    let words = format!("{name}: the scale holds only where this bar measures true.");
    beside.paragraph(&words, Weight::Regular, 0.9 * TEXT_MM, "");
    block.items.extend(beside.items);
    block.skip(0.3 * TEXT_MM);
}

#[cfg(test)]
mod tests {
    use super::*;
    use fold::part::Edge;
    use fold::thin::{ThinFace, ThinFold, ThinSeam};
    use geometry::polygon;

    /// An open box 300 × 200, walls 80 high, corners meeting.
    fn open_box() -> ThinPattern {
        let floor = [(0.0, 0.0), (300.0, 0.0), (300.0, 200.0), (0.0, 200.0)].map(|(x, y)| Point::new(x, y));
        let face = |name: &str, corners: Vec<Point>, edges: Vec<Edge>| ThinFace {
            name: name.to_owned(),
            corners,
            edges,
            holes: Vec::new(),
        };
        let free = Edge::Free;
        let mut faces = vec![face("floor", floor.to_vec(), (0..4).map(Edge::Bend).collect())];
        let mut folds = Vec::new();
        let mut seams = Vec::new();
        for edge in 0..4 {
            let (from, to) = (floor[edge], floor[(edge + 1) % 4]);
            let out = (to - from).unit().right() * 80.0;
            let corners = vec![to, from, from + out, to + out];
            faces.push(face(&format!("wall {edge}"), corners, vec![Edge::Parent, free, free, free]));
            folds.push(ThinFold {
                ends: [from, to],
                parent: 0,
                child: edge + 1,
                turn_rad: 1.5,
                direction: Direction::Up,
            });
            let (first, second) = ((edge + 1, 3), ((edge + 1) % 4 + 1, 1));
            seams.push(ThinSeam { name: format!("corner {edge}"), first, second, open_mm: 0.0 });
        }
        ThinPattern { faces, folds, seams }
    }

    #[test]
    fn an_open_box_gets_a_tab_a_corner_and_one_outline() {
        let scaled = Scaled::fit(&open_box(), (180.0, MODEL_HEIGHT_MM));
        let tabs = tabs::place(&scaled);
        assert_eq!(tabs.len(), 4);
        let outline = outline::walk(&scaled, &tabs).corners(geometry::outline::Chords::On);
        assert_eq!(polygon::self_crossing(&outline), None);
        let faces: f64 = scaled.faces.iter().map(|face| polygon::signed_area(&face.corners)).sum();
        let glued: f64 = tabs.iter().map(|tab| polygon::signed_area(&tab.corners)).sum();
        assert!(0.0 < glued && (polygon::signed_area(&outline) - faces - glued).abs() < 1e-6);
        let (low, high) = polygon::bounds(&outline);
        assert!(high.x - low.x <= 180.0 && high.y - low.y <= MODEL_HEIGHT_MM);
    }

    #[test]
    fn a_model_says_that_it_is_no_pattern() {
        let style = LengthStyle::Millimetres { places: 1 };
        let pattern = open_box();
        let page =
            draw(&PaperModel { job: "job", mark: "B", title: "box", pattern: &pattern, style, face: "up" });
        let words: Vec<&str> = page.texts().iter().map(|text| text.words.as_str()).collect();
        assert!(words.iter().any(|words| words.contains("Not a pattern for metal")), "{words:?}");
        assert!(words.iter().any(|words| words.contains("scale 1:3")), "{words:?}");
        assert_eq!(
            words.iter().filter(|words| **words == "1").count(),
            2,
            "a tab and its edge bear one number"
        );
    }
}
