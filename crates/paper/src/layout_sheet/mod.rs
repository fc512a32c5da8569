//! The layout sheet: one part in true size, with everything needed to mark, cut and bend it.
//!
//! The paper grows around the part. Text grows with the part too, so that a print fitted to a letter sheet stays
//! readable. The datum corner is the lower left corner of the smallest upright rectangle around the flat.

mod bends;
mod callouts;
mod details;
mod faces;
mod foot;
mod heading;
mod metal;
mod points;

use fold::FlatPattern;
use geometry::{Point, Vector};
use units::LengthStyle;

use crate::drawing::running::{self, Frame};
use crate::drawing::{assemble, columns, symbols, text_height_mm};
use crate::page::{Item, Page, Pen};
use crate::placing::Field;

pub use crate::drawing::bend_words;

/// One number or word about a part, and where it came from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fact {
    /// What it is: "hip B, true length".
    pub name: String,
    /// Its value as printed.
    pub value: String,
    /// The field, formula or table row it came from.
    pub origin: String,
}

/// All that a layout sheet shows.
#[derive(Debug, Clone, Copy)]
pub struct PartSheet<'a> {
    /// Name of the job.
    pub job: &'a str,
    /// Mark of the part.
    pub mark: &'a str,
    /// What it is, in words.
    pub title: &'a str,
    /// The metal, in words.
    pub metal: &'a str,
    /// How many to make.
    pub quantity: u32,
    /// The flat, its datum corner at (0, 0).
    pub flat: &'a FlatPattern,
    /// How lengths are printed.
    pub style: LengthStyle,
    /// Numbers worth knowing.
    pub facts: &'a [Fact],
    /// Which bend number was used, and whose it is; empty for a part without bends.
    pub bend_number: &'a str,
    /// What the refold proof showed; empty for a part without bends.
    pub proof: &'a str,
    /// Direction of the lay in the flat, if the metal has one.
    pub lay: Option<Vector>,
    /// Which side the drawing shows: "this face up".
    pub face: &'a str,
    /// Weight of one, with its unit.
    pub weight: &'a str,
    /// Notes.
    pub notes: &'a [String],
    /// Cautions.
    pub cautions: &'a [String],
    /// What only the marked face has, lugs or film, to be said at every bend; empty for plain metal.
    pub marked_with: &'a str,
}

/// Draws the layout sheet of one part.
#[must_use]
pub fn draw(sheet: &PartSheet<'_>) -> Page {
    let (width, height) = sheet.flat.extents_mm();
    let text_mm = text_height_mm(width, height);
    let mut field = Field::default();
    let points = points::to_dimension(sheet.flat);
    let frame = Frame { width_mm: width, height_mm: height, style: sheet.style, text_mm };
    let dimensions = running::both_ways(&mut field, &points, frame);
    metal::occupy(&mut field, sheet.flat);
    let bounds = (Point::default(), Point::new(width, height));
    let mut labels = bends::labels(&mut field, (sheet.flat, sheet.marked_with), text_mm, bounds);
    labels.extend(callouts::labels(&mut field, sheet, text_mm, bounds));
    labels.extend(faces::labels(&mut field, sheet, text_mm));
    let crowded = details::find(sheet.flat, &points, text_mm);
    labels.extend(details::rings(&mut field, &crowded, text_mm, bounds));
    let name = |what: &str| format!("{} {what}", sheet.mark);
    let drawing = vec![
        Item::group(name("datum"), datum(width, height, text_mm)),
        Item::group(sheet.mark, metal::items(sheet.flat)),
        Item::group(name("dimensions"), dimensions),
        Item::group(name("bend lines"), bends::lines(sheet.flat)),
        Item::group(name("labels"), labels),
    ];
    let (left_mm, width_mm) = columns(&drawing, text_mm);
    let heading = heading::block(sheet, left_mm, width_mm, text_mm);
    let foot = foot::block(sheet, left_mm, width_mm, text_mm);
    let title = format!("{}: {}: {}", sheet.job, sheet.mark, sheet.title);
    assemble(title, drawing, heading, foot, text_mm)
}

/// Draws the crowded corners of a part enlarged, on a page of their own; `None` where nothing crowds.
#[must_use]
pub fn draw_details(sheet: &PartSheet<'_>) -> Option<Page> {
    let (width, height) = sheet.flat.extents_mm();
    let points = points::to_dimension(sheet.flat);
    let details = details::find(sheet.flat, &points, text_height_mm(width, height));
    (!details.is_empty()).then(|| details::page(sheet, &details))
}

/// The datum edges, a little longer than the part, and the block outside their corner.
fn datum(width_mm: f64, height_mm: f64, text_mm: f64) -> Vec<Item> {
    let corner = Point::default();
    let past = 0.9 * text_mm;
    vec![
        Item::line(corner, Point::new(width_mm + past, 0.0), Pen::Datum),
        Item::line(corner, Point::new(0.0, height_mm + past), Pen::Datum),
        symbols::datum_block(corner, 0.7 * text_mm),
    ]
}
