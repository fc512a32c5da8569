//! A diagonal more than the figure needs, as a check on the other numbers.

use units::{Length, LengthStyle};

use crate::Problem;

/// A taped diagonal against the one the other numbers give.
#[derive(Debug, Clone, PartialEq)]
pub struct DiagonalCheck {
    /// The diagonal that was checked, not one the figure was worked out from.
    pub diagonal: String,
    /// As taped.
    pub taped: Length,
    /// As worked out.
    pub computed: Length,
    /// What all readings, each good to half a division of the tape, can explain at worst.
    pub allowed: Length,
    /// For each of the numbers, what it would have to read for all to agree; numbers that no change can reconcile are
    /// left out.
    pub would_agree: Vec<(String, Length)>,
    /// How many numbers fix the figure.
    pub others: usize,
}

impl DiagonalCheck {
    /// Taped less computed.
    #[must_use]
    pub fn off(&self) -> Length {
        self.taped - self.computed
    }

    /// True when the tape's own coarseness explains the difference.
    #[must_use]
    pub fn explained(&self) -> bool {
        self.off().abs() <= self.allowed
    }

    /// How far off it is beside what the tape explains.
    pub(super) fn strain(&self) -> f64 {
        self.off().abs().millimetres() / self.allowed.millimetres()
    }

    /// The check as one sentence.
    #[must_use]
    pub fn sentence(&self, style: LengthStyle) -> String {
        format!(
            "{} is taped {}, but the other {} numbers give {}: off by {}, and the tape explains no more than {}",
            self.diagonal,
            self.taped.print(style),
            counted(self.others),
            self.computed.print(style),
            difference(self.off().abs(), style),
            difference(self.allowed, style)
        )
    }

    /// What is wrong, at `field`; `way_out` is what to do where nothing was misread.
    pub(super) fn problem(&self, field: String, way_out: &str, style: LengthStyle) -> Problem {
        let agree: Vec<String> =
            self.would_agree.iter().map(|(name, length)| format!("{name} {}", length.print(style))).collect();
        let all = counted(self.others + 1);
        let remedy =
            format!("tape again: all {all} agree if one alone reads {}; or {way_out}", agree.join(", or "));
        let wrong = format!(
            "the other {} numbers give {}: off by {}, and the tape explains no more than {}",
            counted(self.others),
            self.computed.print(style),
            difference(self.off().abs(), style),
            difference(self.allowed, style)
        );
        Problem::new(field, self.taped.print(style), wrong, remedy)
    }
}

/// A small number in words.
fn counted(number: usize) -> String {
    const WORDS: [&str; 15] = [
        "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
        "twelve", "thirteen", "fourteen",
    ];
    WORDS.get(number).map_or_else(|| number.to_string(), |&word| word.to_owned())
}

/// A small difference, always in decimals: a tape fraction with a leftover hides how large it is.
fn difference(length: Length, style: LengthStyle) -> String {
    match style {
        LengthStyle::Tape { .. } | LengthStyle::Inches { .. } => {
            length.print(LengthStyle::Inches { places: 3 })
        }
        LengthStyle::Millimetres { .. } => length.print(LengthStyle::Millimetres { places: 1 }),
    }
}

/// The numbers that fix a figure, and what they make the diagonal that is checked.
pub(super) struct Readings<'a> {
    /// Their names.
    pub(super) names: Vec<String>,
    /// As taped, mm.
    pub(super) mm: Vec<f64>,
    /// The diagonal that numbers like these make, mm; `None` where they make no figure.
    pub(super) diagonal_of: &'a dyn Fn(&[f64]) -> Option<f64>,
    /// The tape's smallest division.
    pub(super) tape: Length,
}

impl Readings<'_> {
    /// Checks a diagonal by them; `None` when they make no figure.
    pub(super) fn check(&self, diagonal: &str, taped: Length) -> Option<DiagonalCheck> {
        let computed = Length::from_millimetres((self.diagonal_of)(&self.mm)?);
        let numbers = 0..self.mm.len();
        let moved: f64 = numbers.clone().map(|number| self.slope(&self.mm, number).abs()).sum();
        let allowed = Length::from_millimetres(0.5 * self.tape.millimetres() * (1.0 + moved));
        let target = taped.millimetres();
        let agreeing = |number: usize| {
            Some((self.names[number].clone(), Length::from_millimetres(self.agreeing(number, target)?)))
        };
        let mut would_agree: Vec<(String, Length)> = numbers.filter_map(agreeing).collect();
        would_agree.push((diagonal.to_owned(), computed));
        let (diagonal, others) = (diagonal.to_owned(), self.mm.len());
        Some(DiagonalCheck { diagonal, taped, computed, allowed, would_agree, others })
    }

    /// How much the computed diagonal moves for each millimetre of number `number`.
    fn slope(&self, mm: &[f64], number: usize) -> f64 {
        let step = geometry::tolerance::REFOLD_MM;
        let at = |change: f64| {
            let mut moved = mm.to_vec();
            moved[number] += change;
            (self.diagonal_of)(&moved)
        };
        match (at(step), at(-step)) {
            (Some(up), Some(down)) => (up - down) / (2.0 * step),
            _ => 0.0,
        }
    }

    /// The reading of number `number` that brings the computed diagonal to `target_mm`, by Newton's steps; `None` when
    /// they do not arrive.
    fn agreeing(&self, number: usize, target_mm: f64) -> Option<f64> {
        let mut moved = self.mm.clone();
        for _ in 0..20 {
            let short = target_mm - (self.diagonal_of)(&moved)?;
            if short.abs() <= geometry::tolerance::SAME_POINT_MM {
                return Some(moved[number]).filter(|&reading| reading > 0.0);
            }
            let slope = self.slope(&moved, number);
            if slope.abs() <= geometry::tolerance::SAME_POINT_MM {
                return None;
            }
            moved[number] += short / slope;
        }
        None
    }
}
