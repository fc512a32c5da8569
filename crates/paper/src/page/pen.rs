//! What a line or an area means, and how it looks for it.

use fold::Direction;

/// What a line means.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Pen {
    /// Where the metal is cut.
    CutEdge,
    /// A bend toward the viewer of the marked face.
    BendUp,
    /// A bend away from the viewer of the marked face.
    BendDown,
    /// The outline of the sign for a bend down.
    BendSign,
    /// The fold of a glue tab on a paper model.
    BendLight,
    /// A bend up where only the place of the part matters.
    BendLightUp,
    /// A bend down where only the place of the part matters.
    BendLightDown,
    /// Dimension lines, leaders and arrows.
    Dimension,
    /// From a point of the part to its running dimension.
    Extension,
    /// The two edges all running dimensions start from.
    Datum,
    /// The edge of a sheet as bought.
    SheetEdge,
    /// How far the metal may be used.
    TrimEdge,
    /// The edge of a drop.
    DropEdge,
    /// Where two panels of a roll good are to meet.
    Seam,
    /// Where the paper of a full-size pattern is cut: no line of the part is so heavy, and none has such dashes.
    PaperCut,
    /// A line that is scribed across a part and neither cut nor bent: a frame.
    Scribed,
    /// A cut right across a roll.
    CutAcross,
    /// Hatching.
    Hatch,
    /// The outline of a machine.
    Machine,
    /// The edge of metal cut across, in black.
    MetalCut,
    /// Rules and frames of the page itself.
    Frame,
    /// The outline of a folded part against the paper.
    ViewOutline,
    /// An edge within the outline of a folded part.
    ViewEdge,
    /// A tangent line of a bend on a folded part.
    ViewTangent,
}

/// Colour of a line or of text. Both accents are dark enough to photocopy as black.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ink {
    /// Black.
    Black,
    /// The accent: a dark petrol.
    Accent,
    /// White, on black.
    White,
}

/// How an area is filled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fill {
    /// Solid black.
    Black,
    /// Solid accent.
    Accent,
    /// Paper: hides what lies under it.
    Paper,
    /// The faint tint of metal, which a photocopier drops.
    Metal,
    /// The grey of metal that lies beyond a cut.
    Beyond,
}

/// How a pen looks on one page.
#[derive(Debug, Clone, PartialEq)]
pub struct Look {
    /// Line weight, mm.
    pub weight_mm: f64,
    /// Dashes and spaces in turn, mm; empty for a full line.
    pub dashes_mm: Vec<f64>,
    /// Colour.
    pub ink: Ink,
    /// True when ends are round, so that lines that meet leave no gap at their corner.
    pub round_ends: bool,
}

impl Ink {
    /// The colour as six hexadecimal digits after a number sign.
    #[must_use]
    pub const fn hex(self) -> &'static str {
        match self {
            Self::Black => "#000000",
            Self::Accent => "#0b4a54",
            Self::White => "#ffffff",
        }
    }
}

impl Fill {
    /// The colour as six hexadecimal digits after a number sign.
    #[must_use]
    pub const fn hex(self) -> &'static str {
        match self {
            Self::Black => "#000000",
            Self::Accent => "#0b4a54",
            Self::Paper => "#ffffff",
            Self::Metal => "#f4f4f2",
            Self::Beyond => "#b8b8b8",
        }
    }
}

impl Pen {
    /// The pen for a bend.
    #[must_use]
    pub const fn bend(direction: Direction) -> Self {
        match direction {
            Direction::Up => Self::BendUp,
            Direction::Down => Self::BendDown,
        }
    }

    /// The pen for a bend where only the place of the part matters.
    #[must_use]
    pub const fn light_bend(direction: Direction) -> Self {
        match direction {
            Direction::Up => Self::BendLightUp,
            Direction::Down => Self::BendLightDown,
        }
    }

    /// The look on a page whose ordinary text is `text_mm` high.
    #[must_use]
    pub fn look(self, text_mm: f64) -> Look {
        let (weight, dashes, ink) = self.proportions();
        Look {
            weight_mm: weight * text_mm,
            dashes_mm: dashes.iter().map(|dash| dash * text_mm).collect(),
            ink,
            round_ends: matches!(self, Self::ViewOutline | Self::ViewEdge | Self::ViewTangent),
        }
    }

    /// Weight, dashes and ink; lengths as shares of the text height.
    ///
    /// Up and down differ in the dash alone, so that they stay apart in black and white: long dashes for up, dash
    /// and two dots for down.
    const fn proportions(self) -> (f64, &'static [f64], Ink) {
        match self {
            Self::CutEdge => (0.11, &[], Ink::Black),
            Self::BendUp => (0.10, &[1.5, 0.45], Ink::Accent),
            Self::BendDown => (0.10, &[0.8, 0.25, 0.15, 0.25, 0.15, 0.25], Ink::Accent),
            Self::BendSign => (0.07, &[], Ink::Accent),
            Self::BendLight => (0.055, &[0.5, 0.3], Ink::Accent),
            Self::BendLightUp => (0.055, &[1.0, 0.3], Ink::Accent),
            Self::BendLightDown => (0.055, &[0.6, 0.2, 0.12, 0.2, 0.12, 0.2], Ink::Accent),
            Self::Dimension | Self::Hatch => (0.052, &[], Ink::Black),
            Self::Extension => (0.052, &[0.12, 0.24], Ink::Black),
            Self::Datum => (0.075, &[], Ink::Black),
            Self::SheetEdge => (0.14, &[], Ink::Black),
            Self::TrimEdge => (0.05, &[0.3, 0.3], Ink::Black),
            Self::DropEdge => (0.06, &[], Ink::Black),
            Self::Seam => (0.09, &[1.0, 0.25, 0.2, 0.25], Ink::Black),
            Self::PaperCut => (0.24, &[1.8, 0.7], Ink::Black),
            Self::Scribed => (0.052, &[1.2, 0.3, 0.12, 0.3], Ink::Black),
            Self::CutAcross => (0.28, &[], Ink::Black),
            Self::Frame => (0.055, &[], Ink::Black),
            Self::Machine => (0.05, &[], Ink::Black),
            Self::MetalCut => (0.16, &[], Ink::Black),
            Self::ViewOutline => (0.12, &[], Ink::Black),
            Self::ViewEdge => (0.055, &[], Ink::Black),
            Self::ViewTangent => (0.025, &[], Ink::Black),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn up_and_down_differ_without_colour() {
        let (up, down) = (Pen::BendUp.look(3.0), Pen::BendDown.look(3.0));
        assert_eq!(up.ink, down.ink);
        assert_ne!(up.dashes_mm, down.dashes_mm);
        assert!(Pen::CutEdge.look(3.0).dashes_mm.is_empty());
    }

    #[test]
    fn the_accent_photocopies_dark() {
        // Relative luminance of WCAG 2.1 with the sRGB curve taken as a square, which errs on the light side:
        // below a tenth, contrast on white is above seven to one.
        let channel = |at: usize| {
            let value = u8::from_str_radix(&Ink::Accent.hex()[at..at + 2], 16).unwrap();
            (f64::from(value) / 255.0) * (f64::from(value) / 255.0)
        };
        let luminance = 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5);
        assert!(luminance < 0.1, "{luminance}");
    }
}
