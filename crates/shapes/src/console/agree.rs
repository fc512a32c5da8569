//! The proof that the wrap fits the sides: each leg's length on the inside face of the wrap, taken from the wrap as it
//! is built, against the edge of the side panel, taken from the outline. At its two ends the wrap is cut square: at a
//! blunt corner its outside edge lies on the line where the sides end, and its inside edge stands T·cot short of it.

use fold::Direction;
use geometry::{tolerance, trig};

use super::Console;
use crate::{Making, Problem};

/// One leg of the wrap and the edge of the sides that it lies on.
pub(super) struct Agreement {
    /// The side of the outline.
    pub(super) name: String,
    /// On the inside face of the wrap as built, mm.
    pub(super) wrap_mm: f64,
    /// The side's edge as it is cut, mm.
    pub(super) edge_mm: f64,
    /// What of that edge the wrap covers, mm.
    pub(super) covered_mm: f64,
}

impl Console {
    /// Name, length on the wrap's inside face, and lengths of the side's edge as cut and of what of it the wrap covers,
    /// mm, for every leg.
    pub(super) fn agreement(&self, making: &Making) -> Vec<Agreement> {
        let (Ok(wrap), Some(inside)) = (self.wrap(making), self.inside(making)) else { return Vec::new() };
        let legs = self.legs();
        let thickness = making.thickness_mm();
        let leg = |(number, &side): (usize, &usize)| {
            let face = &wrap.part.faces[number];
            // Down bends have their mold line on the outside face, up bends on the inside one.
            let inner = |bend: Option<&fold::Bend>| match bend {
                Some(bend) if bend.direction == Direction::Down => thickness * trig::tan(0.5 * bend.turn_rad),
                _ => 0.0,
            };
            let before = number.checked_sub(1).and_then(|bend| wrap.part.bends.get(bend));
            let after = wrap.part.bends.get(number);
            let wrap_mm = face.corners[1].distance(face.corners[2]) - inner(before) - inner(after);
            let blunt = |corner: usize| {
                let angle = self.outline.corner_angle(corner);
                (-thickness * trig::cos(angle) / trig::sin(angle)).max(0.0)
            };
            let edge_mm = inside.side_mm(side);
            let mut covered_mm = edge_mm;
            if number == 0 {
                covered_mm -= blunt(side);
            }
            if number + 1 == legs.len() {
                covered_mm -= blunt(self.corner_after(side));
            }
            Agreement { name: self.outline.sides[side].clone(), wrap_mm, edge_mm, covered_mm }
        };
        legs.iter().enumerate().map(leg).collect()
    }

    /// Refuses a wrap whose legs are not as long as the edges they lie on.
    pub(super) fn prove_agreement(&self, making: &Making) -> Result<(), Vec<Problem>> {
        let apart = |leg: Agreement| {
            ((leg.wrap_mm - leg.covered_mm).abs() > tolerance::REFOLD_MM).then(|| {
                let wrong = format!(
                    "the wrap is {} long here and the side panel {}",
                    making.print_mm(leg.wrap_mm),
                    making.print_mm(leg.covered_mm)
                );
                Problem::new("wrapped", leg.name, wrong, "check the outline")
            })
        };
        let problems: Vec<Problem> = self.agreement(making).into_iter().filter_map(apart).collect();
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }
}
