//! The letters of a document: which of them the font has, how wide they run, and the font cut down to them.

use std::collections::BTreeMap;

use subsetter::GlyphRemapper;
use ttf_parser::Face;

use super::PdfError;
use crate::page::font::{self, Weight};

/// One weight of the font, with the letters used so far.
pub(super) struct Letters {
    pub(super) face: Face<'static>,
    data: &'static [u8],
    used: GlyphRemapper,
    /// What the numbers of the cut-down font stand for, and their advance in the units of the font.
    pub(super) meaning: BTreeMap<u16, (char, u16)>,
}

/// A stretch of text in one size.
pub(super) struct Run {
    /// Two bytes a letter.
    pub(super) codes: Vec<u8>,
    /// Its size, in sizes of the text it belongs to.
    pub(super) size_em: f64,
    /// Width of all letters, in sizes of the text it belongs to.
    pub(super) width_em: f64,
}

impl Letters {
    pub(super) fn of(weight: Weight) -> Result<Self, PdfError> {
        let data = font::file(weight);
        let face = Face::parse(data, 0).map_err(|_| PdfError::Font)?;
        Ok(Self { face, data, used: GlyphRemapper::new(), meaning: BTreeMap::new() })
    }

    /// `words` as codes. A letter that the font lacks is shown by its Unicode number, small, in the width of one em:
    /// two marks that differ never look alike.
    pub(super) fn runs(&mut self, words: &str) -> Vec<Run> {
        let mut runs: Vec<Run> = Vec::new();
        for letter in words.chars() {
            if let Some((code, width_em)) = self.code(letter) {
                match runs.last_mut().filter(|run| 1.0 <= run.size_em) {
                    Some(run) => {
                        run.codes.extend(code.to_be_bytes());
                        run.width_em += width_em;
                    }
                    None => runs.push(Run { codes: code.to_be_bytes().to_vec(), size_em: 1.0, width_em }),
                }
            } else {
                runs.push(self.number_of(letter));
            }
        }
        runs
    }

    /// The Unicode number of a letter between corner brackets, as wide as an em.
    fn number_of(&mut self, letter: char) -> Run {
        let mut run = Run { codes: Vec::new(), size_em: 1.0, width_em: 1.0 };
        let mut width_em = 0.0;
        for digit in format!("[{:X}]", u32::from(letter)).chars() {
            if let Some((code, width)) = self.code(digit) {
                run.codes.extend(code.to_be_bytes());
                width_em += width;
            }
        }
        // A little under the em, so that it keeps off its neighbours.
        run.size_em = 0.95 / f64::max(width_em, 1.0);
        run
    }

    /// Code and advance of a letter the font has.
    fn code(&mut self, letter: char) -> Option<(u16, f64)> {
        let glyph = self.face.glyph_index(letter).filter(|glyph| glyph.0 != 0)?;
        let advance = self.face.glyph_hor_advance(glyph)?;
        let code = self.used.remap(glyph.0);
        self.meaning.entry(code).or_insert((letter, advance));
        Some((code, f64::from(advance) / f64::from(self.face.units_per_em())))
    }

    /// The font with nothing but the letters used.
    pub(super) fn cut_down(&self) -> Result<Vec<u8>, PdfError> {
        subsetter::subset(self.data, 0, &self.used).map_err(|_| PdfError::Font)
    }
}
