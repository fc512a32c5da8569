//! Widths of the letters, so that text can be measured before it is drawn.
//!
//! The advance widths are those of Liberation Sans 2 (SIL Open Font License), rounded to thousandths of the em.
//! That family was made to the same widths as the common sans-serifs named in [`FAMILY`], so the
//! measure holds with any of them. Letters outside the tables are looked up in the font itself; those it lacks count as a
//! full em, and the writers see to it that they take no more.

use std::sync::LazyLock;

use ttf_parser::Face;

use crate::line_breaks;

/// Font families, best first; all share one set of widths, but the last.
pub const FAMILY: &str = "Liberation Sans, Arial, Helvetica, Nimbus Sans, sans-serif";

/// From the baseline to the top of the capitals and ascenders, in ems, rounded up.
pub const ASCENT_EM: f64 = 0.74;

/// From the baseline to the foot of the descenders, in ems, rounded up.
pub const DESCENT_EM: f64 = 0.22;

/// Regular or bold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weight {
    /// Regular.
    Regular,
    /// Bold.
    Bold,
}

/// Width of `words` in a font of em `size_mm`, mm.
#[must_use]
pub fn width_mm(words: &str, weight: Weight, size_mm: f64) -> f64 {
    in_mm(thousandths(words, weight), size_mm)
}

/// Thousandths of the em that `words` take.
fn thousandths(words: &str, weight: Weight) -> u32 {
    words.chars().map(|letter| u32::from(advance(letter, weight))).sum()
}

fn in_mm(thousandths: u32, size_mm: f64) -> f64 {
    f64::from(thousandths) / 1000.0 * size_mm
}

/// As much of `words` as finds room, and three dots where some is left out.
#[must_use]
pub fn shortened(words: &str, weight: Weight, size_mm: f64, room_mm: f64) -> String {
    let fits = |words: &str| width_mm(words, weight, size_mm) <= room_mm;
    if fits(words) {
        return words.to_owned();
    }
    let mut short = String::new();
    for letter in words.chars() {
        if !fits(&format!("{short}{letter}…")) {
            break;
        }
        short.push(letter);
    }
    format!("{short}…")
}

/// Breaks `words` at blanks into lines no wider than `room_mm`. A number and what belongs to it stay on one line where
/// a line holds them; a single word that is wider is broken anywhere.
#[must_use]
pub fn wrapped(words: &str, weight: Weight, size_mm: f64, room_mm: f64) -> Vec<String> {
    let has_room = |thousandths: u32| in_mm(thousandths, size_mm) <= room_mm;
    let fits = |line: &str| has_room(thousandths(line, weight));
    let blank = u32::from(advance(' ', weight));
    let mut lines: Vec<String> = Vec::new();
    let mut taken = 0;
    for word in line_breaks::pieces(words, fits) {
        let wide = thousandths(&word, weight);
        match lines.last_mut().filter(|_| has_room(taken + blank + wide)) {
            Some(line) => {
                line.push(' ');
                line.push_str(&word);
                taken += blank + wide;
            }
            None => {
                push_word(&word, &fits, &mut lines);
                taken = lines.last().map_or(0, |line| thousandths(line, weight));
            }
        }
    }
    lines
}

/// Starts a new line with `word`, in letters when it does not fit on one.
fn push_word(word: &str, fits: &impl Fn(&str) -> bool, lines: &mut Vec<String>) {
    let mut piece = String::new();
    for letter in word.chars() {
        piece.push(letter);
        if !fits(&piece) && piece.chars().nth(1).is_some() {
            piece.pop();
            lines.push(std::mem::replace(&mut piece, letter.to_string()));
        }
    }
    lines.push(piece);
}

/// The file of the font.
pub(crate) const fn file(weight: Weight) -> &'static [u8] {
    match weight {
        Weight::Regular => include_bytes!("../../assets/LiberationSans-Regular.ttf"),
        Weight::Bold => include_bytes!("../../assets/LiberationSans-Bold.ttf"),
    }
}

/// Both weights, regular first.
static FACES: LazyLock<[Option<Face<'static>>; 2]> =
    LazyLock::new(|| [Weight::Regular, Weight::Bold].map(|weight| Face::parse(file(weight), 0).ok()));

/// Thousandths of the em by the font itself, rounded up; `None` for a letter that it lacks.
fn of_the_font(letter: char, weight: Weight) -> Option<u16> {
    let face = FACES[usize::from(weight == Weight::Bold)].as_ref()?;
    let glyph = face.glyph_index(letter).filter(|glyph| glyph.0 != 0)?;
    let units = u32::from(face.glyph_hor_advance(glyph)?) * 1000;
    u16::try_from(units.div_ceil(u32::from(face.units_per_em()))).ok()
}

/// True when the font has every letter of `words`.
#[must_use]
pub fn has_all(words: &str, weight: Weight) -> bool {
    words.chars().all(|letter| letter.is_ascii() || of_the_font(letter, weight).is_some())
}

/// Thousandths of the em that `letter` takes.
fn advance(letter: char, weight: Weight) -> u16 {
    const FULL_EM: u16 = 1000;
    let (ascii, latin) = match weight {
        Weight::Regular => (&REGULAR_ASCII, &REGULAR_LATIN),
        Weight::Bold => (&BOLD_ASCII, &BOLD_LATIN),
    };
    let from = |table: &[u16], first: u32| {
        let place = u32::from(letter).checked_sub(first)?;
        table.get(usize::try_from(place).ok()?).copied()
    };
    from(ascii, 0x20)
        .or_else(|| from(latin, 0xa0))
        .or_else(|| {
            let (_, regular, bold) = SIGNS.iter().find(|(sign, ..)| *sign == letter)?;
            Some(if weight == Weight::Regular { *regular } else { *bold })
        })
        .or_else(|| of_the_font(letter, weight))
        .unwrap_or(FULL_EM)
}

/// Space to tilde, regular.
const REGULAR_ASCII: [u16; 95] = [
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556,
    556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667, 611, 778, 722, 278,
    500, 667, 556, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469,
    556, 333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, 556, 556, 333, 500,
    278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
];

/// No-break space to ÿ, regular.
const REGULAR_LATIN: [u16; 96] = [
    278, 333, 556, 556, 556, 556, 260, 556, 333, 737, 370, 556, 584, 333, 737, 552, 400, 549, 333, 333, 333,
    576, 537, 278, 333, 333, 365, 556, 834, 834, 834, 611, 667, 667, 667, 667, 667, 667, 1000, 722, 667, 667,
    667, 667, 278, 278, 278, 278, 722, 722, 778, 778, 778, 778, 778, 584, 778, 722, 722, 722, 722, 667, 667,
    611, 556, 556, 556, 556, 556, 556, 889, 500, 556, 556, 556, 556, 278, 278, 278, 278, 556, 556, 556, 556,
    556, 556, 556, 549, 611, 556, 556, 556, 556, 500, 556, 500,
];

/// Space to tilde, bold.
const BOLD_ASCII: [u16; 95] = [
    278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556,
    556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611, 975, 722, 722, 722, 722, 667, 611, 778, 722, 278,
    556, 722, 611, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 333, 278, 333, 584,
    556, 333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556, 278, 889, 611, 611, 611, 611, 389, 556,
    333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584,
];

/// No-break space to ÿ, bold.
const BOLD_LATIN: [u16; 96] = [
    278, 333, 556, 556, 556, 556, 280, 556, 333, 737, 370, 556, 584, 333, 737, 552, 400, 549, 333, 333, 333,
    576, 556, 278, 333, 333, 365, 556, 834, 834, 834, 611, 722, 722, 722, 722, 722, 722, 1000, 722, 667, 667,
    667, 667, 278, 278, 278, 278, 722, 722, 778, 778, 778, 778, 778, 584, 778, 722, 722, 722, 722, 667, 667,
    611, 556, 556, 556, 556, 556, 556, 889, 556, 556, 556, 556, 556, 278, 278, 278, 278, 611, 611, 611, 611,
    611, 611, 611, 549, 611, 611, 611, 611, 611, 556, 611, 556,
];

/// Signs beyond Latin-1: regular, bold.
const SIGNS: [(char, u16, u16); 21] = [
    ('\u{03b8}', 556, 541),
    ('\u{03c0}', 690, 766),
    ('\u{2013}', 556, 556),
    ('\u{2014}', 1000, 1000),
    ('\u{2018}', 222, 278),
    ('\u{2019}', 222, 278),
    ('\u{201c}', 333, 500),
    ('\u{201d}', 333, 500),
    ('\u{2022}', 350, 350),
    ('\u{2026}', 1000, 1000),
    ('\u{2032}', 188, 240),
    ('\u{2033}', 354, 479),
    ('\u{20ac}', 556, 556),
    ('\u{2190}', 1000, 1000),
    ('\u{2191}', 500, 500),
    ('\u{2192}', 1000, 1000),
    ('\u{2193}', 500, 500),
    ('\u{2212}', 584, 584),
    ('\u{2248}', 549, 549),
    ('\u{2264}', 549, 549),
    ('\u{2265}', 549, 549),
];

#[cfg(test)]
mod tests {
    use super::*;

    /// Widths as printed in Adobe's metrics file for Helvetica (Core 14 AFM): A 667, space 278, m 833, one 556;
    /// for Helvetica-Bold: A 722, space 278, m 889. Recalled from memory; the families share them.
    #[test]
    fn widths_are_those_of_the_common_sans_serif() {
        let regular = ['A', ' ', 'm', '1'].map(|c| advance(c, Weight::Regular));
        assert_eq!(regular, [667, 278, 833, 556]);
        let bold = ['A', ' ', 'm'].map(|c| advance(c, Weight::Bold));
        assert_eq!(bold, [722, 278, 889]);
        assert_eq!(advance('\u{4e00}', Weight::Regular), 1000);
    }

    #[test]
    fn wrapped_lines_fit_and_lose_nothing() {
        let words = "Break all sharp edges before handling anextremelylongwordthatcannotfit";
        let lines = wrapped(words, Weight::Regular, 3.0, 30.0);
        assert!(lines.iter().all(|line| width_mm(line, Weight::Regular, 3.0) <= 30.0));
        let letters = |text: &str| text.chars().filter(|c| !c.is_whitespace()).collect::<String>();
        assert_eq!(letters(&lines.concat()), letters(words));
    }
}
