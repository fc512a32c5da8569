//! A leaf of paper as an element of an HTML page, for browsers to print: drawings that stand in the page already are shown
//! again by their names.

use super::element::Element;
use super::names::Names;
use super::number::number;
use super::{Attributes, Writer, worded, write_inline};
use crate::page::Page;
use crate::pdf::Leaf;

/// The leaf as an element; all its names start with `prefix`. `named` knows the names of drawings in the same page.
pub(crate) fn leaf(leaf: &Leaf<'_>, prefix: &str, named: impl Fn(&Page) -> Option<String>) -> String {
    let (width, height) = leaf.size_mm;
    let corner = geometry::Point::new(width, height);
    let paper = Page {
        title: leaf.bookmark.clone(),
        low: geometry::Point::default(),
        high: corner,
        text_mm: leaf.text_mm,
        items: Vec::new(),
    };
    let (width, height) = (number(width), number(height));
    let attributes = vec![
        ("xmlns", "http://www.w3.org/2000/svg".to_owned()),
        ("width", format!("{width}mm")),
        ("height", format!("{height}mm")),
        ("viewBox", format!("0 0 {width} {height}")),
    ];
    let mut drawing = Element::new("svg", attributes);
    drawing.append(&worded("title", Attributes::new(), &leaf.bookmark));
    let mut inline = String::new();
    for placed in &leaf.drawings {
        let (wide, high) = (placed.scale * placed.page.width_mm(), placed.scale * placed.page.height_mm());
        let Some(name) = named(placed.page) else {
            inline.push_str(&write_inline(placed.page, &format!("{prefix}more-")));
            continue;
        };
        let place = vec![
            ("href", format!("#{name}")),
            ("x", number(placed.at.x)),
            ("y", number(corner.y - placed.at.y - high)),
            ("width", number(wide)),
            ("height", number(high)),
        ];
        drawing.append(&Element::new("use", place));
    }
    let mut writer = Writer { page: &paper, names: Names::new(prefix) };
    leaf.items.iter().for_each(|item| drawing.append(&writer.item(item)));
    let mut written = String::new();
    drawing.write(&mut written);
    written.push('\n');
    written + &inline
}
