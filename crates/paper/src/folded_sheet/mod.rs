//! The folded sheet: one bent part as it stands when finished, with its faces, corners and seams named, and every seam
//! in a table.

pub(crate) mod labels;
mod seams;
pub(crate) mod small;

use fold::FlatPattern;
use units::LengthStyle;

use crate::drawing::block::Block;
use crate::drawing::legend::{self, Entry};
use crate::drawing::named::Named;
use crate::drawing::{assemble, of_best_width, text_height_mm, unit_mark};
use crate::isometric::{self, Folded};
use crate::layout_sheet::{Fact, PROOF_FROM};
use crate::lists::refold::SeamRow;
use crate::page::font::Weight;
use crate::page::{Item, Page};

/// All that a folded sheet shows.
#[derive(Debug, Clone, Copy)]
pub struct FoldedSheet<'a> {
    /// Name of the job.
    pub job: &'a str,
    /// Mark of the part.
    pub mark: &'a str,
    /// What it is, in words.
    pub title: &'a str,
    /// The flat it is folded from.
    pub flat: &'a FlatPattern,
    /// Corners, edges and stations that drawings of it name.
    pub named: &'a Named,
    /// How it is looked at.
    pub folded: &'a Folded,
    /// Its seams.
    pub seams: &'a [SeamRow],
    /// Something is cut away where its bends meet.
    pub has_relief: bool,
    /// How lengths are printed.
    pub style: LengthStyle,
    /// What refolding showed.
    pub proof: &'a str,
    /// Sizes to check on the finished part.
    pub sizes: &'a [Fact],
}

/// Stands over the sizes of the finished part.
const TO_CHECK: &str = "Check with tape and square when bent:";

/// Stands under them (common practice, no source).
const WHEN_OFF: &str = "Off by more than the tape reads: an angle, strike it again or open it; a leg or width, measure the flat and bend a \
                        strip before more is cut.";

/// The same where there are any.
const DIAGONALS_OFF: &str = "Diagonals that differ: true it before it is welded.";

/// Draws the folded sheet of one part.
#[must_use]
pub fn draw(sheet: &FoldedSheet<'_>) -> Page {
    let Folded { facets, view, lines } = sheet.folded;
    let (low, high) = sheet.folded.bounds();
    let text_mm = text_height_mm(high.x - low.x, high.y - low.y);
    let labels = labels::Labels { flat: sheet.flat, facets, named: sheet.named, view: *view, text_mm };
    let (labels, unseen) = labels.items(lines, (low, high));
    let mut drawing = vec![Item::group(format!("{} folded", sheet.mark), isometric::drawn(lines, |at| at))];
    drawing.push(Item::group(format!("{} labels", sheet.mark), labels));
    of_best_width(&drawing, text_mm, |(left_mm, width_mm)| {
        let heading = heading(sheet, left_mm, width_mm, text_mm);
        let foot = foot(sheet, &unseen, Block::new(left_mm, width_mm), text_mm);
        assemble(format!("{}: {} folded", sheet.job, sheet.mark), drawing.clone(), heading, foot, text_mm)
    })
}

fn heading(sheet: &FoldedSheet<'_>, left_mm: f64, width_mm: f64, text_mm: f64) -> Block {
    let mut block = Block::new(left_mm, width_mm);
    block.title(sheet.mark, &format!("{}, folded", sheet.title), sheet.job, text_mm);
    let refolded = Fact {
        name: "refolded".to_owned(),
        value: sheet.proof.to_owned(),
        origin: PROOF_FROM.to_owned(),
        ..Fact::default()
    };
    block.ruled_facts(&[refolded], text_mm);
    if !sheet.sizes.is_empty() {
        block.paragraph(TO_CHECK, Weight::Bold, text_mm, "");
        // Its letters reach below their line.
        block.skip(0.5 * text_mm);
        block.ruled_facts(sheet.sizes, text_mm);
        let has_diagonals = sheet.sizes.iter().any(|size| size.name.contains("diagonal"));
        let words = if has_diagonals { format!("{WHEN_OFF} {DIAGONALS_OFF}") } else { WHEN_OFF.to_owned() };
        block.paragraph(&words, Weight::Regular, 0.95 * text_mm, "");
        block.skip(0.5 * text_mm);
    }
    block
}

fn foot(sheet: &FoldedSheet<'_>, unseen: &[String], mut block: Block, text_mm: f64) -> Block {
    block.rule();
    if !sheet.flat.bends.is_empty() {
        legend::set(&mut block, &[Entry::ViewTangent], text_mm);
    }
    block.skip(0.3 * text_mm);
    let words = "A picture to check the bends by, not to measure. Lines behind metal are \
                 left out.";
    block.paragraph(words, Weight::Regular, text_mm, "");
    if !unseen.is_empty() {
        let words = format!("Hidden in this picture, see the layout sheet: {}.", unseen.join(", "));
        block.paragraph(&words, Weight::Regular, text_mm, "");
    }
    seams::table(&mut block, (sheet.seams, sheet.has_relief), unit_mark(sheet.style), text_mm);
    block
}
