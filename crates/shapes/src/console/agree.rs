//! The proof that the wrap fits the sides: each leg's length on the inside face of the wrap, taken from the wrap as it
//! is built, against the edge of the side panel, taken from the outline.

use fold::Direction;
use geometry::{tolerance, trig};

use super::Console;
use crate::{Making, Problem};

impl Console {
    /// Name, length on the wrap's inside face and length of the side's edge, mm, for every leg.
    pub(super) fn agreement(&self, making: &Making) -> Vec<(String, f64, f64)> {
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
            // The sheet's own ends are cut square; the side ends on the line of the outline's next side.
            let square = |corner: usize| {
                thickness * trig::cos(self.outline.corner_angle(corner))
                    / trig::sin(self.outline.corner_angle(corner))
            };
            let mut side_mm = inside.side_mm(side);
            if number == 0 {
                side_mm += square(side);
            }
            if number + 1 == legs.len() {
                side_mm += square(self.corner_after(side));
            }
            (self.outline.sides[side].clone(), wrap_mm, side_mm)
        };
        legs.iter().enumerate().map(leg).collect()
    }

    /// Refuses a wrap whose legs are not as long as the edges they lie on.
    pub(super) fn prove_agreement(&self, making: &Making) -> Result<(), Vec<Problem>> {
        let apart = |(name, wrap_mm, side_mm): (String, f64, f64)| {
            ((wrap_mm - side_mm).abs() > tolerance::REFOLD_MM).then(|| {
                let wrong = format!(
                    "the wrap is {} long here and the side panel {}",
                    making.print_mm(wrap_mm),
                    making.print_mm(side_mm)
                );
                Problem::new("wrapped", name, wrong, "check the outline")
            })
        };
        let problems: Vec<Problem> = self.agreement(making).into_iter().filter_map(apart).collect();
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }
}
