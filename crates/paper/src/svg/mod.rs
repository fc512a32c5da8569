//! The SVG writer: a page as an SVG document of true size, one user unit to the millimetre.
//!
//! Every look is written on the element itself, without style sheets or scripts, so that simple viewers read it and
//! several drawings can stand in one HTML page. Groups carry the part marks. Same page, same bytes.

mod element;
mod leaf;
mod names;
mod number;
mod path;

use geometry::Point;

use crate::markup::readable;
use crate::page::font::{self, Weight};
use crate::page::{Anchor, Group, Item, Line, Look, Page, Pen, Shape, Text};
use element::Element;
use names::Names;
use number::number;

pub(crate) use leaf::leaf;

type Attributes = Vec<(&'static str, String)>;

/// The page as a document of its own.
#[must_use]
pub fn write(page: &Page) -> String {
    format!("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n{}", write_inline(page, ""))
}

/// The name of a page that stands in an HTML page under `prefix`.
pub(crate) fn name_of(prefix: &str) -> String {
    format!("{prefix}drawing")
}

/// The page as an element to stand in an HTML page; all its names start with `prefix`.
#[must_use]
pub fn write_inline(page: &Page, prefix: &str) -> String {
    let (width, height) = (number(page.width_mm()), number(page.height_mm()));
    let mut writer = Writer { page, names: Names::new(prefix) };
    let mut attributes = Attributes::new();
    if !prefix.is_empty() {
        attributes.push(("id", writer.names.unique("drawing")));
    }
    let own = [
        ("xmlns", "http://www.w3.org/2000/svg".to_owned()),
        ("width", format!("{width}mm")),
        ("height", format!("{height}mm")),
        ("viewBox", format!("0 0 {width} {height}")),
    ];
    attributes.extend(own);
    let mut drawing = Element::new("svg", attributes);
    drawing.append(&worded("title", Vec::new(), &page.title));
    page.items.iter().for_each(|item| drawing.append(&writer.item(item)));
    let mut written = String::new();
    drawing.write(&mut written);
    written.push('\n');
    written
}

/// An element that holds words, without blanks about them.
fn worded(name: &'static str, attributes: Attributes, words: &str) -> Element {
    let mut element = Element::new(name, attributes);
    element.words(&readable(words));
    element
}

struct Writer<'a> {
    page: &'a Page,
    names: Names,
}

impl Writer<'_> {
    /// Paper to SVG coordinates: the origin moves to the upper left corner and y turns down.
    fn place(&self, point: Point) -> Point {
        Point::new(point.x - self.page.low.x, self.page.high.y - point.y)
    }

    fn item(&mut self, item: &Item) -> Element {
        match item {
            Item::Group(group) => self.group(group),
            Item::Line(line) => self.line(line),
            Item::Shape(shape) => self.shape(shape),
            Item::Text(text) => self.text(text),
        }
    }

    fn group(&mut self, group: &Group) -> Element {
        let name = self.names.unique(&group.name);
        let mut element = Element::new("g", vec![("id", name)]);
        element.append(&worded("title", Vec::new(), &group.name));
        group.items.iter().for_each(|item| element.append(&self.item(item)));
        element
    }

    fn line(&self, line: &Line) -> Element {
        let (from, to) = (self.place(line.from), self.place(line.to));
        let mut attributes =
            vec![("x1", number(from.x)), ("y1", number(from.y)), ("x2", number(to.x)), ("y2", number(to.y))];
        stroke(&mut attributes, line.pen, self.page.text_mm);
        Element::new("line", attributes)
    }

    fn shape(&self, shape: &Shape) -> Element {
        let data = path::data(&shape.contours, |point| self.place(point));
        let fill = shape.fill.map_or("none", |fill| fill.hex());
        let mut attributes =
            vec![("d", data), ("fill", fill.to_owned()), ("fill-rule", "evenodd".to_owned())];
        if let Some(pen) = shape.pen {
            stroke(&mut attributes, pen, self.page.text_mm);
        }
        Element::new("path", attributes)
    }

    fn text(&self, text: &Text) -> Element {
        let at = self.place(text.at);
        let (x, y) = (number(at.x), number(at.y));
        let turn = number(-text.turn_rad * 180.0 / std::f64::consts::PI);
        let transform = (turn != "0").then(|| ("transform", format!("rotate({turn} {x} {y})")));
        let mut attributes: Attributes = vec![("x", x), ("y", y)];
        attributes.extend(transform);
        attributes.push(("font-family", font::FAMILY.to_owned()));
        attributes.push(("font-size", number(text.size_mm)));
        if text.weight == Weight::Bold {
            attributes.push(("font-weight", "bold".to_owned()));
        }
        match text.anchor {
            Anchor::Start => {}
            Anchor::Middle => attributes.push(("text-anchor", "middle".to_owned())),
            Anchor::End => attributes.push(("text-anchor", "end".to_owned())),
        }
        if !font::has_all(&text.words, text.weight) {
            // Letters of some other font take no more room than was left for them.
            attributes.push(("textLength", number(text.width_mm())));
            attributes.push(("lengthAdjust", "spacingAndGlyphs".to_owned()));
        }
        attributes.push(("fill", text.ink.hex().to_owned()));
        let words = worded("text", attributes, &text.words);
        let Some(origin) = &text.origin else { return words };
        // Beside the words and not among them, where its line end would count as a blank.
        let mut group = Element::new("g", Vec::new());
        group.append(&worded("title", Vec::new(), origin));
        group.append(&words);
        group
    }
}

fn stroke(attributes: &mut Attributes, pen: Pen, text_mm: f64) {
    let Look { weight_mm, dashes_mm, ink, round_ends } = pen.look(text_mm);
    attributes.push(("stroke", ink.hex().to_owned()));
    attributes.push(("stroke-width", number(weight_mm)));
    attributes.push(("stroke-linejoin", "round".to_owned()));
    if round_ends {
        attributes.push(("stroke-linecap", "round".to_owned()));
    }
    if !dashes_mm.is_empty() {
        let dashes: Vec<String> = dashes_mm.iter().map(|dash| number(*dash)).collect();
        attributes.push(("stroke-dasharray", dashes.join(" ")));
    }
}
