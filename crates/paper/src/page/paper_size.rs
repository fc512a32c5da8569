//! The papers a packet is printed on, and how large a drawing comes out on them.

use geometry::Point;

use super::Page;

/// Free edge at both sides and above, mm; common practice, what office printers leave white.
pub(crate) const EDGE_MM: f64 = 11.9;

/// From the lower edge of the paper to the room above the foot, mm.
pub(crate) const FOOT_MM: f64 = 15.0;

/// The rule of readable scale: ordinary text of a drawing comes out at least this high, mm, on a leaf of letter or A4 paper.
///
/// Seven points, as small as instructions for work are set; common practice, no source. A drawing whose text would come
/// out smaller gets larger text, and what then crowds is drawn again enlarged, on leaves of its own.
pub const READABLE_MM: f64 = 2.4;

/// The same for a layout sheet, which is read at arm's length (600 to 700 mm) while both hands are on the metal: capitals and
/// figures come out 1.8 mm high, the smallest nominal height of lettering in ISO 3098 (from memory), and dimension lines .13 mm
/// wide, the thinnest of ISO 128 (from memory), which a photocopier of 600 dots to the inch lays down in three dots.
pub const AT_ARMS_LENGTH_MM: f64 = 2.62;

/// The smallest text on any leaf: labels, lists, short marks on small parts. 5 1/2 points; common practice, no source.
pub(crate) const SMALLEST_MM: f64 = 1.9;

/// Height of the smallest text of a drawing, mm.
pub(crate) fn smallest_text_mm(page: &Page) -> f64 {
    page.texts().iter().map(|text| text.size_mm).fold(page.text_mm, f64::min)
}

/// A size of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum PaperSize {
    /// 8 1/2 × 11 inches (ANSI/ASME Y14.1, size A; from memory).
    #[default]
    Letter,
    /// 210 × 297 mm (ISO 216; from memory).
    A4,
    /// 11 × 17 inches (ANSI/ASME Y14.1, size B; from memory).
    Tabloid,
    /// 297 × 420 mm (ISO 216; from memory).
    A3,
}

impl PaperSize {
    /// Width and height held upright, mm.
    #[must_use]
    pub const fn upright_mm(self) -> (f64, f64) {
        match self {
            Self::Letter => (8.5 * 25.4, 11.0 * 25.4),
            Self::A4 => (210.0, 297.0),
            Self::Tabloid => (11.0 * 25.4, 17.0 * 25.4),
            Self::A3 => (297.0, 420.0),
        }
    }

    /// What it is called at the counter.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Letter => "letter paper",
            Self::A4 => "A4 paper",
            Self::Tabloid => "11 × 17 paper",
            Self::A3 => "A3 paper",
        }
    }

    /// Width and height held across, mm.
    #[must_use]
    pub const fn across_mm(self) -> (f64, f64) {
        let (width, height) = self.upright_mm();
        (height, width)
    }
}

/// Lower left corner, width and height of the room on a leaf, mm.
pub(crate) fn room(size_mm: (f64, f64)) -> (Point, f64, f64) {
    let (width, height) = size_mm;
    (Point::new(EDGE_MM, FOOT_MM), width - 2.0 * EDGE_MM, height - FOOT_MM - EDGE_MM)
}

/// Paper millimetres to a millimetre of the drawing on a leaf of this size, as large as it goes but never enlarged.
pub(crate) fn fit(page: &Page, size_mm: (f64, f64)) -> f64 {
    let (_, width, height) = room(size_mm);
    (width / page.width_mm()).min(height / page.height_mm()).min(1.0)
}

/// True when a drawing, grown to this width and height, comes out as large as before on letter and on A4 paper.
pub(crate) fn keeps_its_scale(page: &Page, (width_mm, height_mm): (f64, f64)) -> bool {
    // What arithmetic alone tells apart is alike.
    const SLACK: f64 = geometry::tolerance::PARALLEL_SINE;
    [PaperSize::Letter, PaperSize::A4].into_iter().all(|paper| {
        let both = [paper.upright_mm(), paper.across_mm()];
        let own = both.into_iter().map(|size| fit(page, size)).fold(0.0, f64::max);
        let grown = |size: (f64, f64)| {
            let (_, width, height) = room(size);
            (width / width_mm).min(height / height_mm).min(1.0)
        };
        own - SLACK <= both.into_iter().map(grown).fold(0.0, f64::max)
    })
}

/// How high ordinary text of the drawing comes out on letter and on A4 paper, whichever makes it smaller, mm.
#[must_use]
pub fn printed_text_mm(page: &Page) -> f64 {
    let on = |paper: PaperSize| fit(page, paper.upright_mm()).max(fit(page, paper.across_mm()));
    page.text_mm * on(PaperSize::Letter).min(on(PaperSize::A4))
}
