//! A measured opening: four sides and one or two diagonals, solved, cross-checked, never squared up. Openings with another
//! number of sides go by all diagonals from one corner, or by their corners.
//!
//! Of four sides five numbers fix a quadrilateral; a sixth is a check. When it disagrees by more than the tape can explain, the job
//! stops unless it says which diagonal to trust.

mod check;
mod sides;
mod solve;

use geometry::Point;
use units::{Length, LengthStyle};

use crate::not_convex::not_convex;
use crate::problem::above_zero;
use crate::{Fact, Figure, Problem};

pub use check::DiagonalCheck;
pub use sides::{SIDES, TapedSides, by_corners};

/// One of the two diagonals.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Diagonal {
    /// From A to C.
    AC,
    /// From B to D.
    BD,
}

/// Which way the corners A, B, C, D go round, seen from above. Lengths alone do not tell an opening from its mirror
/// image, so this is never assumed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sense {
    /// Clockwise.
    Clockwise,
    /// Counter-clockwise.
    CounterClockwise,
}

/// An opening as taped.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MeasuredOpening {
    /// AB, BC, CD, DA.
    pub sides: [Length; 4],
    /// A to C.
    pub ac: Option<Length>,
    /// B to D.
    pub bd: Option<Length>,
    /// The diagonal to go by where both were taped and disagree.
    pub trust: Option<Diagonal>,
    /// Which way the corners go round, seen from above.
    pub sense: Sense,
    /// The tape's smallest division: every reading is good to half of it.
    pub tape: Length,
}

/// A solved opening.
#[derive(Debug, Clone, PartialEq)]
pub struct Opening {
    /// Its figure, as seen from above, side AB along x.
    pub figure: Figure,
    /// The check by the second diagonal, where one was taped.
    pub check: Option<DiagonalCheck>,
    /// What is known of it beside its sides.
    pub known: Known,
}

/// What an opening was worked out from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Known {
    /// Its corners: no length was taped.
    Corners,
    /// Its sides and diagonals.
    Taped {
        /// Names of the diagonals that the figure goes by.
        by: Vec<String>,
        /// Names of those that were taped besides, as a check.
        checked: Vec<String>,
    },
}

impl Known {
    /// Whether a diagonal was measured or worked out.
    fn diagonal_words(&self, name: &str) -> &'static str {
        match self {
            Self::Corners => "worked out from the corners as given",
            Self::Taped { by, .. } if by.iter().any(|own| own == name) => "measured: the figure goes by it",
            Self::Taped { checked, .. } if checked.iter().any(|own| own == name) => {
                "worked out from sides and measured diagonals; it was measured too, as the check"
            }
            Self::Taped { .. } => "worked out from sides and measured diagonals; not measured itself",
        }
    }

    const fn figure_words(&self) -> &'static str {
        match self {
            Self::Corners => "worked out from the corners as given",
            Self::Taped { .. } => "worked out from sides and measured diagonals",
        }
    }
}

impl Diagonal {
    /// "AC" or "BD".
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::AC => "AC",
            Self::BD => "BD",
        }
    }
}

impl MeasuredOpening {
    /// Solves the opening; `style` is how lengths read in what is wrong with it.
    ///
    /// # Errors
    /// Every [`Problem`]: sizes not above zero, no diagonal, numbers that make no quadrilateral or one that is not
    /// convex, diagonals that disagree while neither is trusted.
    pub fn solve(&self, style: LengthStyle) -> Result<Opening, Vec<Problem>> {
        self.check_sizes(style)?;
        let by = self.governing();
        let corners = solve::corners(self.sides.map(Length::millimetres), self.governing_mm(by), by)
            .map_err(|fault| vec![triangle_problem(&fault, fault.longest.clone(), style)])?;
        let check = self.second_diagonal(by);
        if let Some(check) = check.as_ref().filter(|check| !check.explained() && self.trust.is_none()) {
            let way_out = "say which diagonal to trust (\"trust\": \"AC\")";
            return Err(vec![check.problem(check.diagonal.clone(), way_out, style)]);
        }
        if let Some(fault) = not_convex(&corners, &["A", "B", "C", "D"].map(str::to_owned), style) {
            return Err(vec![self.any_problem(style, &fault.wrong, &fault.remedy)]);
        }
        let no_area =
            || vec![self.any_problem(style, "the numbers make a figure without area", "tape it again")];
        let checked = check.iter().map(|check| check.diagonal.clone()).collect();
        let known = Known::Taped { by: vec![by.name().to_owned()], checked };
        Ok(Opening { figure: self.figure(&corners).ok_or_else(no_area)?, check, known })
    }

    /// Checks the diagonal that does not govern, where it was taped.
    fn second_diagonal(&self, by: Diagonal) -> Option<DiagonalCheck> {
        let (other, taped) = match by {
            Diagonal::AC => (Diagonal::BD, self.bd?),
            Diagonal::BD => (Diagonal::AC, self.ac?),
        };
        let [ab, bc, cd, da] = self.sides.map(Length::millimetres);
        let diagonal_of = |mm: &[f64]| solve::other_diagonal([mm[0], mm[1], mm[2], mm[3]], mm[4], by);
        let readings = check::Readings {
            names: ["AB", "BC", "CD", "DA", by.name()].map(str::to_owned).to_vec(),
            mm: vec![ab, bc, cd, da, self.governing_mm(by)],
            diagonal_of: &diagonal_of,
            tape: self.tape,
        };
        readings.check(other.name(), taped)
    }

    fn check_sizes(&self, style: LengthStyle) -> Result<(), Vec<Problem>> {
        let mut problems = Vec::new();
        for (name, length) in ["AB", "BC", "CD", "DA"].into_iter().zip(self.sides) {
            above_zero(style, name, length, &mut problems);
        }
        for (name, length) in [("AC", self.ac), ("BD", self.bd)] {
            if let Some(length) = length {
                above_zero(style, name, length, &mut problems);
            }
        }
        if self.ac.is_none() && self.bd.is_none() {
            let remedy = "tape at least one diagonal; both is better, the second is the check";
            problems.push(Problem::new("AC", "not given", "four sides alone fix no shape", remedy));
        }
        let trusted = match self.trust {
            Some(Diagonal::AC) => self.ac,
            Some(Diagonal::BD) => self.bd,
            None => Some(Length::ZERO),
        };
        if let (Some(trust), None) = (self.trust, trusted) {
            let remedy = "give that diagonal, or trust the other";
            problems.push(Problem::new("trust", trust.name(), "was not taped", remedy));
        }
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }

    /// The diagonal the figure is worked out from.
    fn governing(&self) -> Diagonal {
        self.trust.unwrap_or(if self.ac.is_some() { Diagonal::AC } else { Diagonal::BD })
    }

    fn governing_mm(&self, by: Diagonal) -> f64 {
        let length = match by {
            Diagonal::AC => self.ac,
            Diagonal::BD => self.bd,
        };
        length.unwrap_or(Length::ZERO).millimetres()
    }

    /// Corners A, B, C, D run counter-clockwise; the other sense is the mirror image.
    fn figure(&self, corners: &[Point; 4]) -> Option<Figure> {
        let width = self.sides[0].millimetres();
        match self.sense {
            Sense::CounterClockwise => Figure::lettered(corners),
            Sense::Clockwise => Figure::lettered(&corners.map(|p| Point::new(width - p.x, p.y))),
        }
    }

    fn any_problem(&self, style: LengthStyle, wrong: &str, remedy: &str) -> Problem {
        let value: Vec<String> = self.sides.iter().map(|&side| side.print(style)).collect();
        Problem::new("AB", value.join(", "), wrong, remedy)
    }
}

/// Three readings that make no triangle, at the field of the longest.
fn triangle_problem(fault: &solve::NoTriangle, field: String, style: LengthStyle) -> Problem {
    let [a, b, c] = &fault.sides;
    let [longest, others] =
        [fault.longest_mm, fault.others_mm].map(|length| Length::from_millimetres(length).print(style));
    let wrong = format!(
        "{a}, {b} and {c} make no triangle: {} is {longest} but the other two reach {others}",
        fault.longest
    );
    Problem::new(field, longest, wrong, "tape these three again; one is misread")
}

impl Opening {
    /// What the shop wants to read off the opening.
    #[must_use]
    pub fn facts(&self) -> Vec<Fact> {
        let figure = &self.figure;
        let corner = |name: &str| {
            figure.names.iter().position(|own| own == name).map_or(Point::default(), |i| figure.corners[i])
        };
        let mut facts: Vec<Fact> = Vec::new();
        for (from, to) in diagonals(figure.count()) {
            let [from, to] = [from, to].map(crate::figure::corner_letter);
            let length = corner(&from).distance(corner(&to));
            let name = format!("{from}{to}");
            let origin = self.known.diagonal_words(&name);
            facts.push(Fact::length_mm(format!("diagonal {name}"), length, origin));
        }
        for (number, name) in figure.names.iter().enumerate() {
            let angle = figure.corner_angle(number);
            facts.push(Fact::angle_rad(format!("corner angle {name}"), angle, self.known.figure_words()));
        }
        facts.push(Fact::area_mm2("area", figure.area_mm2(), self.known.figure_words()));
        facts
    }
}

/// Every pair of corners that are no neighbours, by their numbers in the order of the letters.
fn diagonals(count: usize) -> impl Iterator<Item = (usize, usize)> {
    let apart = move |&(from, to): &(usize, usize)| from + 1 < to && (from != 0 || to + 1 != count);
    (0..count).flat_map(move |from| (0..count).map(move |to| (from, to))).filter(apart)
}
