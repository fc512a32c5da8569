//! The second diagonal as a check on the other five numbers.

use geometry::Point;
use units::{Length, LengthStyle};

use super::{Diagonal, MeasuredOpening, solve};
use crate::Problem;

const NAMES: [&str; 5] = ["AB", "BC", "CD", "DA", "the other diagonal"];

/// A taped diagonal against the one the other five numbers give.
#[derive(Debug, Clone, PartialEq)]
pub struct DiagonalCheck {
    /// The diagonal that was checked, not the one the figure was worked out from.
    pub diagonal: Diagonal,
    /// As taped.
    pub taped: Length,
    /// As worked out.
    pub computed: Length,
    /// What six readings, each good to half a division of the tape, can explain at worst.
    pub allowed: Length,
    /// For each of the six numbers, what it would have to read for all six to agree; numbers that no change can
    /// reconcile are left out.
    pub would_agree: Vec<(String, Length)>,
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

    /// The check as one sentence.
    #[must_use]
    pub fn sentence(&self, style: LengthStyle) -> String {
        format!(
            "{} is taped {}, but the other five numbers give {}: off by {}, and the tape explains no more than {}",
            self.diagonal.name(),
            self.taped.print(style),
            self.computed.print(style),
            difference(self.off().abs(), style),
            difference(self.allowed, style)
        )
    }

    pub(super) fn problem(&self, style: LengthStyle) -> Problem {
        let agree: Vec<String> =
            self.would_agree.iter().map(|(name, length)| format!("{name} {}", length.print(style))).collect();
        let remedy = format!(
            "tape again: all six agree if one alone reads {}; or say which diagonal to trust (\"trust\": \"AC\")",
            agree.join(", or ")
        );
        let mut problem =
            Problem::new(self.diagonal.name(), self.taped.print(style), self.sentence(style), remedy);
        problem.wrong = format!(
            "the other five numbers give {}: off by {}, and the tape explains no more than {}",
            self.computed.print(style),
            difference(self.off().abs(), style),
            difference(self.allowed, style)
        );
        problem
    }
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

/// Checks the diagonal that does not govern, where it was taped.
pub(super) fn second_diagonal(
    measured: &MeasuredOpening,
    by: Diagonal,
    corners: &[Point; 4],
) -> Option<DiagonalCheck> {
    let [a, b, c, d] = *corners;
    let (diagonal, taped, computed_mm) = match by {
        Diagonal::AC => (Diagonal::BD, measured.bd?, b.distance(d)),
        Diagonal::BD => (Diagonal::AC, measured.ac?, a.distance(c)),
    };
    let five = five_mm(measured, by);
    let slopes: Vec<f64> = (0..5).map(|number| slope(five, number, by)).collect();
    let half_division = 0.5 * measured.tape.millimetres();
    let worst: f64 = half_division * (1.0 + slopes.iter().map(|slope| slope.abs()).sum::<f64>());
    let target = taped.millimetres();
    let other = match by {
        Diagonal::AC => "AC",
        Diagonal::BD => "BD",
    };
    let mut would_agree: Vec<(String, Length)> = (0..5)
        .filter_map(|number| {
            let name = if number == 4 { other } else { NAMES[number] };
            Some((name.to_owned(), Length::from_millimetres(agreeing(five, number, by, target)?)))
        })
        .collect();
    let computed = Length::from_millimetres(computed_mm);
    would_agree.push((diagonal.name().to_owned(), computed));
    let allowed = Length::from_millimetres(worst);
    Some(DiagonalCheck { diagonal, taped, computed, allowed, would_agree })
}

/// The five governing numbers, mm: four sides, then the diagonal.
fn five_mm(measured: &MeasuredOpening, by: Diagonal) -> [f64; 5] {
    let [ab, bc, cd, da] = measured.sides.map(Length::millimetres);
    [ab, bc, cd, da, measured.governing_mm(by)]
}

fn diagonal_of(five: [f64; 5], by: Diagonal) -> Option<f64> {
    solve::other_diagonal([five[0], five[1], five[2], five[3]], five[4], by)
}

/// How much the computed diagonal moves for each millimetre of number `number`.
fn slope(five: [f64; 5], number: usize, by: Diagonal) -> f64 {
    let step = geometry::tolerance::REFOLD_MM;
    let at = |change: f64| {
        let mut moved = five;
        moved[number] += change;
        diagonal_of(moved, by)
    };
    match (at(step), at(-step)) {
        (Some(up), Some(down)) => (up - down) / (2.0 * step),
        _ => 0.0,
    }
}

/// The reading of number `number` that brings the computed diagonal to `target_mm`, by Newton's steps; `None` when
/// they do not arrive.
fn agreeing(five: [f64; 5], number: usize, by: Diagonal, target_mm: f64) -> Option<f64> {
    let mut moved = five;
    for _ in 0..20 {
        let short = target_mm - diagonal_of(moved, by)?;
        if short.abs() <= geometry::tolerance::SAME_POINT_MM {
            return Some(moved[number]);
        }
        let slope = slope(moved, number, by);
        if slope.abs() <= geometry::tolerance::SAME_POINT_MM {
            return None;
        }
        moved[number] += short / slope;
    }
    None
}
