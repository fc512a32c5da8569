//! The neutral page: lines, areas and text in paper millimetres, x to the right, y up.
//!
//! A line says what it means ([`Pen`]), not how it looks; weight and dashes follow from the page's text size, so
//! that a long part and a small one look alike when both are printed on a letter sheet.

pub mod font;
mod hatch;
mod paper_size;
mod pen;
mod text;

use geometry::{Contour, Point, Vector, polygon};

pub use hatch::hatch_lines;
pub use paper_size::{AT_ARMS_LENGTH_MM, PaperSize, READABLE_MM, printed_text_mm};
pub(crate) use paper_size::{EDGE_MM, FOOT_MM, SMALLEST_MM, fit, keeps_its_scale, room, smallest_text_mm};
pub use pen::{Fill, Ink, Look, Pen};
pub use text::{Anchor, Text, TextBox};

/// One drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Page {
    /// What it shows, in words.
    pub title: String,
    /// Lower left corner of the paper.
    pub low: Point,
    /// Upper right corner of the paper.
    pub high: Point,
    /// Height of ordinary text (the em), mm; pens take their weight from it.
    pub text_mm: f64,
    /// What is drawn, first things undermost.
    pub items: Vec<Item>,
}

/// One thing on a page.
#[derive(Debug, Clone, PartialEq)]
pub enum Item {
    /// Things that belong together under a name, such as a part mark.
    Group(Group),
    /// A straight line.
    Line(Line),
    /// An area, its edge, or both.
    Shape(Shape),
    /// A line of text.
    Text(Text),
}

/// Named items.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// The name.
    pub name: String,
    /// What it holds.
    pub items: Vec<Item>,
}

/// A straight line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// One end.
    pub from: Point,
    /// The other.
    pub to: Point,
    /// What it means.
    pub pen: Pen,
}

/// Closed contours: the first is the outside, the others are holes that stay open.
#[derive(Debug, Clone, PartialEq)]
pub struct Shape {
    /// The contours.
    pub contours: Vec<Contour>,
    /// Its edge, if drawn.
    pub pen: Option<Pen>,
    /// Its inside, if filled.
    pub fill: Option<Fill>,
}

impl Page {
    /// Width of the paper, mm.
    #[must_use]
    pub fn width_mm(&self) -> f64 {
        self.high.x - self.low.x
    }

    /// Height of the paper, mm.
    #[must_use]
    pub fn height_mm(&self) -> f64 {
        self.high.y - self.low.y
    }

    /// Every line of text on the page, groups included, in drawing order.
    #[must_use]
    pub fn texts(&self) -> Vec<&Text> {
        let mut texts = Vec::new();
        visit(&self.items, &mut |item| {
            if let Item::Text(text) = item {
                texts.push(text);
            }
        });
        texts
    }

    /// Every straight line drawn with `pen`, groups included.
    #[must_use]
    pub fn lines(&self, pen: Pen) -> Vec<&Line> {
        let mut lines = Vec::new();
        visit(&self.items, &mut |item| {
            if let Item::Line(line) = item
                && line.pen == pen
            {
                lines.push(line);
            }
        });
        lines
    }
}

impl Item {
    /// A straight line.
    #[must_use]
    pub const fn line(from: Point, to: Point, pen: Pen) -> Self {
        Self::Line(Line { from, to, pen })
    }

    /// Named items.
    #[must_use]
    pub fn group(name: impl Into<String>, items: Vec<Self>) -> Self {
        Self::Group(Group { name: name.into(), items })
    }

    /// A straight-sided area without an edge.
    #[must_use]
    pub fn area(corners: &[Point], fill: Fill) -> Self {
        Self::Shape(Shape { contours: vec![Contour::polygon(corners)], pen: None, fill: Some(fill) })
    }

    /// The edge of a straight-sided figure.
    #[must_use]
    pub fn edge(corners: &[Point], pen: Pen) -> Self {
        Self::Shape(Shape { contours: vec![Contour::polygon(corners)], pen: Some(pen), fill: None })
    }

    /// Least and greatest corner of the smallest upright rectangle around the item; `None` for an empty group.
    #[must_use]
    pub fn bounds(&self) -> Option<(Point, Point)> {
        let mut corners = Vec::new();
        visit(std::slice::from_ref(self), &mut |item| item.add_corners(&mut corners));
        (!corners.is_empty()).then(|| polygon::bounds(&corners))
    }

    /// The item moved by `by`.
    #[must_use]
    pub fn moved(&self, by: Vector) -> Self {
        match self {
            Self::Group(group) => {
                Self::group(group.name.clone(), group.items.iter().map(|item| item.moved(by)).collect())
            }
            Self::Line(line) => Self::line(line.from + by, line.to + by, line.pen),
            Self::Shape(shape) => Self::Shape(Shape {
                contours: shape.contours.iter().map(|contour| contour.mapped(false, |p| p + by)).collect(),
                ..*shape
            }),
            Self::Text(text) => Self::Text(Text { at: text.at + by, ..text.clone() }),
        }
    }

    /// The item so many times as large, measured from the origin.
    #[must_use]
    pub fn scaled(&self, times: f64) -> Self {
        let at = |point: Point| Point::default() + (point - Point::default()) * times;
        match self {
            Self::Group(group) => {
                Self::group(group.name.clone(), group.items.iter().map(|item| item.scaled(times)).collect())
            }
            Self::Line(line) => Self::line(at(line.from), at(line.to), line.pen),
            Self::Shape(shape) => Self::Shape(Shape {
                contours: shape.contours.iter().map(|contour| contour.mapped(false, at)).collect(),
                ..*shape
            }),
            Self::Text(text) => {
                Self::Text(Text { at: at(text.at), size_mm: times * text.size_mm, ..text.clone() })
            }
        }
    }

    fn add_corners(&self, corners: &mut Vec<Point>) {
        match self {
            Self::Group(_) => {}
            Self::Line(line) => corners.extend([line.from, line.to]),
            Self::Shape(shape) => {
                let chords = geometry::outline::Chords::On;
                corners.extend(shape.contours.iter().flat_map(|contour| contour.corners(chords)));
            }
            Self::Text(text) => corners.extend(text.bounding_box().corners),
        }
    }
}

/// Least and greatest corner of the smallest upright rectangle around all `items`; `None` when there are none.
#[must_use]
pub fn bounds(items: &[Item]) -> Option<(Point, Point)> {
    let corners: Vec<Point> =
        items.iter().filter_map(Item::bounds).flat_map(|(low, high)| [low, high]).collect();
    (!corners.is_empty()).then(|| polygon::bounds(&corners))
}

/// Shows every item to `see`, groups before what they hold.
pub fn visit<'a>(items: &'a [Item], see: &mut impl FnMut(&'a Item)) {
    for item in items {
        see(item);
        if let Item::Group(group) = item {
            visit(&group.items, see);
        }
    }
}
