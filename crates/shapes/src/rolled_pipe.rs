//! Rolled or bent pipe: lengths along its centre line.
//!
//! A bend of centre-line radius R and turn θ takes R·θ of pipe and R·tan(θ/2) of each leg to the corner (NAVEDTRA 14119,
//! chapter 16, pipe length problems). The throat is its inner side, the heel its outer.

use geometry::trig;
use units::{Angle, Length};

use crate::{Fact, Making, Problem};

/// Centre-line radius in outside diameters under which a bend in hard pipe wants a fitted die (common practice, no
/// source).
const EASY_RADIUS_IN_DIAMETERS: i64 = 3;

/// A pipe and the radius it is bent to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RolledPipe {
    /// Outside diameter.
    pub outside_diameter: Length,
    /// Radius of every bend, to the centre line.
    pub radius: Length,
}

/// A run of pipe, corner to corner on the centre line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PipeRun {
    /// The pipe.
    pub pipe: RolledPipe,
    /// Legs to the corners, one more than there are bends.
    pub legs: Vec<Length>,
    /// Turn at each corner.
    pub turns: Vec<Angle>,
}

impl RolledPipe {
    /// Centre-line length of one bend, mm.
    #[must_use]
    pub fn arc_mm(&self, turn: Angle) -> f64 {
        self.radius.millimetres() * turn.radians()
    }

    /// From the corner back to where the bend begins, mm.
    #[must_use]
    pub fn setback_mm(&self, turn: Angle) -> f64 {
        self.radius.millimetres() * trig::tan(0.5 * turn.radians())
    }

    /// Radius of the throat, mm.
    #[must_use]
    pub fn throat_mm(&self) -> f64 {
        (self.radius.millimetres()) - 0.5 * self.outside_diameter.millimetres()
    }

    /// How much longer the heel of a bend is than its throat, mm.
    #[must_use]
    pub fn heel_over_throat_mm(&self, turn: Angle) -> f64 {
        self.outside_diameter.millimetres() * turn.radians()
    }

    /// What is wrong with it as such.
    pub(crate) fn problems(&self, field: &str, making: &Making, problems: &mut Vec<Problem>) {
        making.above_zero(&format!("{field}.outside_diameter"), self.outside_diameter, problems);
        if self.throat_mm() <= 0.0 {
            let least = making.print_mm(0.5 * self.outside_diameter.millimetres());
            let remedy = format!("make it more than {least}; three diameters and more bend easily");
            let wrong = "leaves no throat: it is no more than half the pipe";
            problems.push(Problem::new(format!("{field}.radius"), making.print(self.radius), wrong, remedy));
        }
    }
}

impl PipeRun {
    /// Straight pipe between the bends, mm.
    #[must_use]
    pub fn straights_mm(&self) -> Vec<f64> {
        let setback = |corner: Option<&Angle>| corner.map_or(0.0, |turn| self.pipe.setback_mm(*turn));
        let straight = |(number, leg): (usize, &Length)| {
            let before = number.checked_sub(1).and_then(|before| self.turns.get(before));
            leg.millimetres() - setback(before) - setback(self.turns.get(number))
        };
        self.legs.iter().enumerate().map(straight).collect()
    }

    /// What to cut, along the centre line, mm.
    #[must_use]
    pub fn length_mm(&self) -> f64 {
        let arcs: f64 = self.turns.iter().map(|turn| self.pipe.arc_mm(*turn)).sum();
        self.straights_mm().iter().sum::<f64>() + arcs
    }

    /// What the shop reads off it: cut length, where each bend begins from the first end, throat.
    pub(crate) fn facts(&self, name: &str) -> Vec<Fact> {
        let origin = "legs less radius × tan(turn/2) a bend, arcs π × radius × turn/180";
        let mut facts = vec![Fact::length_mm(format!("{name}, cut length"), self.length_mm(), origin)];
        let mut at = 0.0;
        for (number, (straight, turn)) in self.straights_mm().iter().zip(&self.turns).enumerate() {
            at += straight;
            let bend = number + 1;
            facts.push(Fact::length_mm(
                format!("pipe, bend {bend} begins"),
                at,
                "from the first end, centre line",
            ));
            at += self.pipe.arc_mm(*turn);
            facts.push(Fact::length_mm(
                format!("pipe, bend {bend} ends"),
                at,
                "from the first end, centre line",
            ));
        }
        facts.push(Fact::length_mm(
            "pipe, throat radius",
            self.pipe.throat_mm(),
            "radius less half the pipe",
        ));
        if self.pipe.radius < self.pipe.outside_diameter * EASY_RADIUS_IN_DIAMETERS {
            let words = "under three diameters: bend it on a fitted die, or ask the bender";
            facts.push(Fact::words("pipe, radius", words, "common practice, no source"));
        }
        facts
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inches(size: f64) -> Length {
        Length::from_inches(size)
    }

    fn pipe(diameter: f64, radius: f64) -> RolledPipe {
        RolledPipe { outside_diameter: inches(diameter), radius: inches(radius) }
    }

    #[test]
    fn the_navy_pipe() {
        // NAVEDTRA 14119, chapter 16: legs 48 and 72 to the corner, radius 18, one quarter turn: 112.26 with 1.57;
        // 112.2743 with π/2 (derived).
        let square = Angle::from_degrees(90.0);
        let run =
            PipeRun { pipe: pipe(3.0, 18.0), legs: vec![inches(48.0), inches(72.0)], turns: vec![square] };
        let straights: Vec<f64> = run.straights_mm().iter().map(|straight| straight / 25.4).collect();
        assert!((straights[0] - 30.0).abs() < 1e-9 && (straights[1] - 54.0).abs() < 1e-9);
        assert!((run.length_mm() / 25.4 - 112.2743).abs() < 5e-5);
        assert!((run.length_mm() / 25.4 - 112.26).abs() < 0.02);
    }

    #[test]
    fn centre_line_arcs() {
        // Derived, π/180 × radius × turn, in ten-thousandths.
        for (radius, turn, arc) in
            [(3.0, 90.0, 47124.0), (4.5, 45.0, 35343.0), (6.0, 30.0, 31416.0), (1.5, 180.0, 47124.0)]
        {
            let found = pipe(1.0, radius).arc_mm(Angle::from_degrees(turn)) / 25.4;
            assert!((found - arc / 1e4).abs() < 5e-5, "{found}");
        }
    }

    #[test]
    fn the_heel_is_longer_than_the_throat() {
        // US Coast Guard examination item: pipe of 4.5 bore and .355 wall, quarter turn: 8.184.
        let bent = pipe(4.5 + 2.0 * 0.355, 24.0);
        assert!((bent.heel_over_throat_mm(Angle::from_degrees(90.0)) / 25.4 - 8.184).abs() < 5e-4);
    }
}
