//! Sheets of labels as they are bought, told by how many labels lie across and down.

use super::PaperSize;

/// A sheet of labels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LabelSheet {
    /// How many labels lie across and down: "2x5".
    pub name: &'static str,
    /// Size of one label as it is sold: "4 × 2 in".
    pub size: &'static str,
    paper: PaperSize,
    /// Width and height of a label, mm.
    pub(crate) label_mm: (f64, f64),
    /// Columns and rows.
    pub(super) counts: (usize, usize),
    /// From the upper left corner of the paper to the first label, mm.
    pub(super) from_mm: (f64, f64),
    /// From the left edge of a label to that of the next, mm; rows follow one another without a gap.
    pub(super) step_mm: f64,
}

const IN: f64 = 25.4;

/// Sizes of common sheets of labels; common practice, from memory. The first of each paper is the one that is taken where none
/// is named.
const SHEETS: [LabelSheet; 8] = [
    on(
        PaperSize::Letter,
        ("2x5", "4 × 2 in"),
        (4.0 * IN, 2.0 * IN),
        (2, 5),
        (IN * 5.0 / 32.0, IN / 2.0),
        IN * 67.0 / 16.0,
    ),
    on(
        PaperSize::Letter,
        ("2x3", "4 × 3 1/3 in"),
        (4.0 * IN, 10.0 * IN / 3.0),
        (2, 3),
        (IN * 5.0 / 32.0, IN / 2.0),
        IN * 67.0 / 16.0,
    ),
    on(
        PaperSize::Letter,
        ("2x7", "4 × 1 1/3 in"),
        (4.0 * IN, 4.0 * IN / 3.0),
        (2, 7),
        (IN * 5.0 / 32.0, IN * 5.0 / 6.0),
        IN * 67.0 / 16.0,
    ),
    on(
        PaperSize::Letter,
        ("3x10", "2 5/8 × 1 in"),
        (2.625 * IN, IN),
        (3, 10),
        (IN * 3.0 / 16.0, IN / 2.0),
        2.75 * IN,
    ),
    on(PaperSize::A4, ("2x4", "99.1 × 67.7 mm"), (99.1, 67.7), (2, 4), (4.65, 13.1), 101.6),
    on(PaperSize::A4, ("2x7", "99.1 × 38.1 mm"), (99.1, 38.1), (2, 7), (4.65, 15.15), 101.6),
    on(PaperSize::A4, ("3x7", "63.5 × 38.1 mm"), (63.5, 38.1), (3, 7), (7.2, 15.15), 66.0),
    on(PaperSize::A4, ("3x8", "63.5 × 33.9 mm"), (63.5, 33.9), (3, 8), (7.2, 12.9), 66.0),
];

type Pair<T> = (T, T);

/// On which paper; name and size; size of a label, counts, the first label and the step as in [`LabelSheet`].
const fn on(
    paper: PaperSize,
    (name, size): Pair<&'static str>,
    label_mm: Pair<f64>,
    counts: Pair<usize>,
    from_mm: Pair<f64>,
    step_mm: f64,
) -> LabelSheet {
    LabelSheet { name, size, paper, label_mm, counts, from_mm, step_mm }
}

impl LabelSheet {
    /// All that are known on this paper; on larger paper those of letter or A4.
    pub fn all(paper: PaperSize) -> impl Iterator<Item = Self> {
        let paper = match paper {
            PaperSize::Letter | PaperSize::Tabloid => PaperSize::Letter,
            PaperSize::A4 | PaperSize::A3 => PaperSize::A4,
        };
        SHEETS.into_iter().filter(move |sheet| sheet.paper == paper)
    }

    /// The sheet that is taken where none is named: ten of 4 × 2 in on letter paper, eight of 99.1 × 67.7 mm on A4.
    #[must_use]
    pub const fn usual(paper: PaperSize) -> Self {
        match paper {
            PaperSize::Letter | PaperSize::Tabloid => SHEETS[0],
            PaperSize::A4 | PaperSize::A3 => SHEETS[4],
        }
    }

    /// The sheet with so many labels across and down; none where none is known on this paper.
    #[must_use]
    pub fn named(paper: PaperSize, name: &str) -> Option<Self> {
        Self::all(paper).find(|sheet| sheet.name == name)
    }

    /// Width and height of the paper, mm.
    pub(super) const fn paper_mm(&self) -> (f64, f64) {
        self.paper.upright_mm()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Labels lie on the paper, clear of one another, and as far from its right and lower edge as from its left and upper one, to
    /// half a millimetre.
    #[test]
    fn labels_lie_in_the_middle_of_their_paper() {
        for sheet in SHEETS {
            let (width, height) = sheet.paper_mm();
            let (columns, rows) = (sheet.counts.0 as f64, sheet.counts.1 as f64);
            assert!(sheet.label_mm.0 <= sheet.step_mm, "{sheet:?}");
            let right = width - sheet.from_mm.0 - sheet.step_mm * (columns - 1.0) - sheet.label_mm.0;
            let below = height - sheet.from_mm.1 - sheet.label_mm.1 * rows;
            assert!((right - sheet.from_mm.0).abs() < 0.5, "{sheet:?}: {right}");
            assert!((below - sheet.from_mm.1).abs() < 0.5, "{sheet:?}: {below}");
            assert_eq!(sheet.name, format!("{columns}x{rows}"));
        }
    }

    #[test]
    fn the_usual_sheet_is_the_first_of_its_paper() {
        for paper in [PaperSize::Letter, PaperSize::A4, PaperSize::Tabloid, PaperSize::A3] {
            assert_eq!(LabelSheet::all(paper).next(), Some(LabelSheet::usual(paper)));
            assert_eq!(LabelSheet::named(paper, "2x9"), None);
        }
    }
}
