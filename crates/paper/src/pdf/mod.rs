//! The PDF writer: leaves of paper, each with drawings placed on it, as one document.
//!
//! Lines, areas and text are written as such, in points of 1/72 inch, so that any reader can measure them. The font
//! stands in the document, cut down to the letters that are used. Nothing comes from the clock or from chance: same
//! leaves, same bytes. The date of a packet is the job's own, in its words.

mod content;
mod document;
mod letters;
mod reading_order;

use geometry::{Point, Vector};

use crate::page::{Item, Page};

/// One sheet of paper, ready to print.
#[derive(Debug, Clone, PartialEq)]
pub struct Leaf<'a> {
    /// Its name among the bookmarks.
    pub bookmark: String,
    /// What begins further down on it, for bookmarks of its own.
    pub also: Vec<String>,
    /// Width and height of the paper, mm.
    pub size_mm: (f64, f64),
    /// Drawings, undermost first.
    pub drawings: Vec<Placed<'a>>,
    /// What stands on the paper itself, in mm from its lower left corner.
    pub items: Vec<Item>,
    /// Height of ordinary text among the items, mm; their pens take their weight from it.
    pub text_mm: f64,
}

/// A drawing on a sheet of paper.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Placed<'a> {
    /// The drawing.
    pub page: &'a Page,
    /// Where its lower left corner lies, mm from that of the paper.
    pub at: Point,
    /// Paper millimetres to a millimetre of the drawing.
    pub scale: f64,
    /// Lower left and upper right corner of what is seen of it, mm on the paper; all of it, if there is none.
    pub window: Option<(Point, Point)>,
}

/// Why a document cannot be written.
#[derive(Debug, thiserror::Error)]
pub enum PdfError {
    /// The font that comes with the program cannot be read.
    #[error("the font that comes with the program cannot be read; install the program anew")]
    Font,
    /// More leaves or letters than a document holds.
    #[error("the packet is too large for one PDF; split the job")]
    TooLarge,
}

impl Placed<'_> {
    /// From the drawing to the paper, mm.
    #[must_use]
    pub fn place(&self, point: Point) -> Point {
        let from_low: Vector = point - self.page.low;
        self.at + from_low * self.scale
    }
}

/// The leaves as one document named `title`.
///
/// # Errors
/// A font that cannot be read, or a document too large for its numbering.
pub fn write(title: &str, leaves: &[Leaf<'_>]) -> Result<Vec<u8>, PdfError> {
    document::write(title, leaves)
}
