//! One bend of a folded part: where it is, how far it turns, and how it is made.

use geometry::tolerance;

use super::{Direction, FoldedPart};
use crate::bend::formula;

/// One bend.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bend {
    /// The face nearer the root.
    pub parent: usize,
    /// The parent's edge number.
    pub parent_edge: usize,
    /// The face beyond.
    pub child: usize,
    /// Turn from flat, radians, above 0; below π where legs run to the mold line, below 2π else.
    pub turn_rad: f64,
    /// Up or down.
    pub direction: Direction,
    /// Its own inside radius, mm: the metal's for brake bends, another for hems, curls and rolled faces.
    pub inside_radius_mm: f64,
    /// What the bent edges of both faces run along.
    pub legs_to: LegsTo,
    /// How it is made.
    pub forming: Forming,
}

/// What line the legs on both sides of a bend run to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LegsTo {
    /// The mold line, where the outside faces meet. Only for turns below 180°.
    MoldLine,
    /// The outermost metal, R + T beyond the tangent line: the capped setback of the handbooks (DIN 6935, opening
    /// angles up to 90°). For turns of 90° and more: hems, curls, acute bends.
    OutermostMetal,
}

/// How a bend is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Forming {
    /// One stroke of a brake.
    Brake,
    /// A hem: bent far over, then flattened or left open.
    Hem,
    /// One of the two bends of a joggle, made together; the number of the other.
    Joggle(usize),
    /// Curled or rolled round a rod or between rolls.
    Rolled,
    /// Bumped on the brake in so many strikes.
    Bumped(u32),
    /// Not bent at all: so slight a turn in a face that the sheet takes it by hand as the part is closed.
    Sprung,
}

impl Forming {
    /// True for one strike of a bumped face.
    #[must_use]
    pub fn is_strike(self) -> bool {
        self == Self::Bumped(1)
    }
}

/// A turn below this cannot be set on a brake, degrees (common practice, no source).
pub const MOST_SPRUNG_DEGREES: f64 = 1.0;

impl Bend {
    /// True when the radius is the metal's own, as for every plain brake bend.
    #[must_use]
    pub fn has_radius_of(&self, part: &FoldedPart) -> bool {
        (self.inside_radius_mm - part.number.inside_radius().millimetres()).abs() <= tolerance::SAME_POINT_MM
    }
}

impl FoldedPart {
    /// Marks bends between faces `within` one name, whose turn is so slight that no brake could set it, as sprung by hand: for
    /// those that only follow a face which is out of plane, and never for bends that a size of the part asks for.
    pub fn spring_slight(&mut self, within: impl Fn(&str, &str) -> bool) {
        let faces = &self.faces;
        for bend in &mut self.bends {
            let slight = bend.turn_rad.to_degrees() < MOST_SPRUNG_DEGREES;
            if slight && within(&faces[bend.parent].name, &faces[bend.child].name) {
                bend.forming = Forming::Sprung;
            }
        }
    }

    /// Setback of bend `number`: from its tangent lines out to what its legs run to, mm.
    #[must_use]
    pub fn setback_mm(&self, number: usize) -> f64 {
        let bend = &self.bends[number];
        match bend.legs_to {
            LegsTo::MoldLine => self.number.setback_at_mm(bend.turn_rad, bend.inside_radius_mm),
            LegsTo::OutermostMetal => bend.inside_radius_mm + self.thickness_mm(),
        }
    }

    /// Setback of bend `number` as a tape takes the legs beside it, mm: out to where the outsides of both plates meet; past a
    /// quarter turn, where that lies out in the air, to the outermost metal ([`formula::capped_setback`]).
    #[must_use]
    pub fn taped_setback_mm(&self, number: usize) -> f64 {
        let bend = &self.bends[number];
        formula::capped_setback(bend.turn_rad, bend.inside_radius_mm, self.thickness_mm())
    }

    /// Deduction of bend `number` between legs as a tape takes them, mm: legs so taken less this are the flat.
    #[must_use]
    pub fn taped_deduction_mm(&self, number: usize) -> f64 {
        formula::deduction(self.taped_setback_mm(number), self.allowance_mm(number))
    }

    /// Allowance of bend `number`: the width of its zone on the flat, mm. A hem pressed flat goes by
    /// [`formula::closed_hem_allowance`], whatever the bend number of the metal. What is rolled or bumped is one bend of
    /// many round a curve; every other stands alone.
    #[must_use]
    pub fn allowance_mm(&self, number: usize) -> f64 {
        let bend = &self.bends[number];
        if bend.forming == Forming::Hem && bend.inside_radius_mm <= tolerance::SAME_POINT_MM {
            return formula::closed_hem_allowance(self.thickness_mm());
        }
        match bend.forming {
            Forming::Rolled | Forming::Bumped(_) => {
                self.number.allowance_at_mm(bend.turn_rad, bend.inside_radius_mm)
            }
            Forming::Brake | Forming::Hem | Forming::Joggle(_) | Forming::Sprung => {
                self.number.single_allowance_at_mm(bend.turn_rad, bend.inside_radius_mm)
            }
        }
    }

    /// Deduction of bend `number`: what its two legs lose together in the flat, mm.
    #[must_use]
    pub fn deduction_mm(&self, number: usize) -> f64 {
        2.0 * self.setback_mm(number) - self.allowance_mm(number)
    }
}
