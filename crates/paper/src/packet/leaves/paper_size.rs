//! The papers a packet is printed on.

/// A size of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum PaperSize {
    /// 8 1/2 × 11 inches (ANSI/ASME Y14.1, size A; from memory).
    #[default]
    Letter,
    /// 210 × 297 mm (ISO 216; from memory).
    A4,
}

impl PaperSize {
    /// Width and height held upright, mm.
    #[must_use]
    pub const fn upright_mm(self) -> (f64, f64) {
        match self {
            Self::Letter => (8.5 * 25.4, 11.0 * 25.4),
            Self::A4 => (210.0, 297.0),
        }
    }

    /// Width and height held across, mm.
    #[must_use]
    pub const fn across_mm(self) -> (f64, f64) {
        let (width, height) = self.upright_mm();
        (height, width)
    }
}
