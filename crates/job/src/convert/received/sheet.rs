//! A sheet as it was received.

use units::Length;

/// Every sheet that was measured so far, in the order in which they were entered.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Received {
    /// The sheets.
    pub sheets: Vec<ReceivedSheet>,
}

/// One sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReceivedSheet {
    /// What is chalked on it.
    pub mark: String,
    /// The job's name for its metal.
    pub metal: String,
    /// The size that was ordered, the shorter side first.
    pub ordered: [Length; 2],
    /// The size that it has, the shorter side first.
    pub size: [Length; 2],
    /// Its thickness by caliper; of tread plate that of the flat base.
    pub thickness: Length,
    /// Both diagonals, where they were measured.
    pub diagonals: Option<[Length; 2]>,
    /// When it was measured, as year-month-day.
    pub date: String,
    /// Anything else.
    pub note: Option<String>,
}

impl Received {
    /// Least and greatest thickness of each metal, in the order of their first sheets.
    #[must_use]
    pub fn thicknesses(&self) -> Vec<(String, [Length; 2])> {
        let mut found: Vec<(String, [Length; 2])> = Vec::new();
        for sheet in &self.sheets {
            let is = sheet.thickness;
            match found.iter_mut().find(|(metal, _)| *metal == sheet.metal) {
                Some((_, [least, most])) => (*least, *most) = ((*least).min(is), (*most).max(is)),
                None => found.push((sheet.metal.clone(), [is, is])),
            }
        }
        found
    }

    /// The sheets of one metal.
    pub fn of_metal(&self, metal: &str) -> impl Iterator<Item = &ReceivedSheet> {
        self.sheets.iter().filter(move |sheet| sheet.metal == metal)
    }
}

impl ReceivedSheet {
    /// The largest rectangle along its long side, the shorter side first: less than its size where the diagonals differ.
    ///
    /// Source: parallelogram of sides a, b at the angle θ: d₁² − d₂² = 4·a·b·cos θ (law of cosines, twice). Squared
    /// along a, it holds a − b·|cos θ| by b·sin θ.
    #[must_use]
    pub fn squared(&self) -> [Length; 2] {
        let Some([first, second]) = self.diagonals else { return self.size };
        let [short, long] = self.size.map(Length::millimetres);
        let (d1, d2) = (first.millimetres(), second.millimetres());
        let cosine = ((d1 * d1 - d2 * d2) / (4.0 * short * long)).abs().min(1.0);
        let sine = (1.0 - cosine * cosine).sqrt();
        let down = |millimetres: f64| {
            let rounded = Length::from_millimetres(millimetres);
            if millimetres < rounded.millimetres() { rounded - Length::from_nanometres(1) } else { rounded }
        };
        if first == second { self.size } else { [down(short * sine), down(long - short * cosine)] }
    }

    /// By how much the diagonals, taken together, miss what the sides make them; nothing where none were measured.
    ///
    /// Source: parallelogram law, d₁² + d₂² = 2·(a² + b²).
    #[must_use]
    pub fn diagonals_miss(&self) -> Length {
        let Some(diagonals) = self.diagonals else { return Length::ZERO };
        let root = |lengths: [Length; 2], half: f64| {
            let [a, b] = lengths.map(Length::millimetres);
            ((a * a + b * b) * half).sqrt()
        };
        Length::from_millimetres((root(diagonals, 0.5) - root(self.size, 1.0)).abs())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sheet(diagonals: Option<[f64; 2]>) -> ReceivedSheet {
        let inches = Length::from_inches;
        ReceivedSheet {
            mark: "S1".to_owned(),
            metal: "skin".to_owned(),
            ordered: [inches(48.0), inches(96.0)],
            size: [inches(48.0), inches(96.0)],
            thickness: inches(0.124),
            diagonals: diagonals.map(|pair| pair.map(inches)),
            date: "2026-03-04".to_owned(),
            note: None,
        }
    }

    #[test]
    fn a_leaning_sheet_holds_less_than_its_sides() {
        // A parallelogram 96 along, whose far edge lies 1/4 further on: its diagonals by Pythagoras.
        let rise = (48.0_f64 * 48.0 - 0.0625).sqrt();
        let diagonal = |along: f64| (along * along + rise * rise).sqrt();
        let leaning = sheet(Some([diagonal(96.25), diagonal(95.75)]));
        let [short, long] = leaning.squared().map(Length::inches);
        assert!((long - 95.75).abs() < 0.000_01 && (short - rise).abs() < 0.000_01, "{short} {long}");
        assert!(leaning.diagonals_miss() < Length::from_inches(0.0001));
        assert_eq!(sheet(None).squared(), sheet(None).size);
    }

    #[test]
    fn diagonals_of_another_sheet_are_seen() {
        // 48 × 96 has diagonals of 107.331.
        let other = sheet(Some([108.0, 108.0]));
        assert!((other.diagonals_miss().inches() - 0.669).abs() < 0.001);
    }
}
