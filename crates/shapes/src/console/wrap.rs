//! The wrapped sheet of a console: one leg after another, bent where the outline turns.

use fold::part::{Edge, Face, FoldedPart};
use fold::{Bend, Direction, Forming, LegsTo};
use geometry::{Contour, Point, trig};
use units::Length;

use super::{Console, FootRecess};
use crate::hole::{Hole, HoleKind};
use crate::{Fact, Making, Problem, Shaped};

impl Console {
    /// Builds the wrap, its first leg the root, the console's width along x.
    pub(super) fn wrap(&self, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let legs = self.legs();
        let corners = making.corners();
        let mut part =
            FoldedPart::unbent(making.number.clone(), Vec::new(), corners.relief, corners.notch_width_mm);
        for (number, &leg) in legs.iter().enumerate() {
            let (width, length) = (self.wrap_width_mm(making), self.leg_mm(number, making));
            let corner = |(x, y)| Point::new(x, y);
            let mut edges = vec![Edge::Free; 4];
            if 0 < number {
                edges[0] = Edge::Parent;
            }
            if number + 1 < legs.len() {
                edges[2] = Edge::Bend(number);
                part.bends.push(self.bend(number, self.corner_after(leg), making));
            }
            part.faces.push(Face {
                name: format!("leg {}", self.outline.sides[leg]),
                corners: [(0.0, 0.0), (width, 0.0), (width, length), (0.0, length)].map(corner).to_vec(),
                edges,
                holes: self.cut_out(number, length, making)?,
                rim: None,
            });
        }
        Ok(Shaped { part, facts: self.strike_facts(making) })
    }

    fn bend(&self, parent: usize, corner: usize, making: &Making) -> Bend {
        let turn_rad = self.turn_rad(corner);
        Bend {
            parent,
            parent_edge: 2,
            child: parent + 1,
            turn_rad: turn_rad.abs(),
            direction: if turn_rad > 0.0 { Direction::Down } else { Direction::Up },
            inside_radius_mm: self.bend_radius_mm(corner, making),
            legs_to: LegsTo::MoldLine,
            forming: match (self.radius(corner), self.strikes) {
                (None, _) => Forming::Brake,
                (Some(_), None) => Forming::Rolled,
                (Some(_), Some(strikes)) => Forming::Bumped(strikes),
            },
        }
    }

    /// Length of a leg between mold lines, mm. In a hollow the outsides of the bend meet on the inner face of the wrap,
    /// T·tan(turn/2) beyond the outline.
    pub(super) fn leg_mm(&self, number: usize, making: &Making) -> f64 {
        let legs = self.legs();
        let side = legs[number];
        let beyond = |corner: usize| {
            let turn_rad = self.turn_rad(corner);
            if turn_rad < 0.0 { making.thickness_mm() * trig::tan(-0.5 * turn_rad) } else { 0.0 }
        };
        let mut length = self.outline.side_mm(side);
        if 0 < number {
            length += beyond(side);
        }
        if number + 1 < legs.len() {
            length += beyond(self.corner_after(side));
        }
        let [first, last] = self.end_cuts_mm(number, making);
        length - first - last
    }

    /// How far the start and the end of a leg are cut back where the wrap itself ends, mm: at a sharp corner a square end
    /// stands past the line of the outline's next side with its inside edge, by T·cot(corner), and no metal stands past
    /// that line.
    pub(super) fn end_cuts_mm(&self, number: usize, making: &Making) -> [f64; 2] {
        let legs = self.legs();
        let side = legs[number];
        let cut = |corner: usize| {
            let angle = self.outline.corner_angle(corner);
            (making.thickness_mm() * trig::cos(angle) / trig::sin(angle)).max(0.0)
        };
        let end = number + 1 == legs.len();
        [if number == 0 { cut(side) } else { 0.0 }, if end { cut(self.corner_after(side)) } else { 0.0 }]
    }

    /// The hole for the foot recess, where it is let into this leg.
    fn cut_out(&self, number: usize, length_mm: f64, making: &Making) -> Result<Vec<Contour>, Vec<Problem>> {
        let Some(recess) = &self.foot_recess else { return Ok(Vec::new()) };
        let legs = self.legs();
        if self.outline.side_number(&recess.leg) != Some(legs[number]) {
            return Ok(Vec::new());
        }
        let middle_mm = self.recess_middle_mm(recess, number, length_mm, making);
        let hole = Hole {
            at: [0.5 * self.wrap_width_mm(making), middle_mm].map(Length::from_millimetres),
            kind: HoleKind::Rectangle {
                length: recess.width + recess.clearance * 2,
                width: recess.height + recess.clearance * 2,
                corner_radius: Length::ZERO,
            },
        };
        Ok(vec![hole.contour(making, "foot_recess")?])
    }

    /// The middle of the recess along its leg, from the leg's mold line, mm.
    pub(super) fn recess_middle_mm(
        &self,
        recess: &FootRecess,
        number: usize,
        length_mm: f64,
        making: &Making,
    ) -> f64 {
        let side = self.legs()[number];
        let from = (recess.from_corner.millimetres()) + 0.5 * recess.height.millimetres();
        let first = recess.leg.starts_with(self.outline.names[side].as_str());
        let turn_rad = self.turn_rad(if first { side } else { self.corner_after(side) });
        let bent = if first { 0 < number } else { number + 1 < self.legs().len() };
        let hollow =
            if bent && turn_rad < 0.0 { making.thickness_mm() * trig::tan(-0.5 * turn_rad) } else { 0.0 };
        let [start, end] = self.end_cuts_mm(number, making);
        if first { from + hollow - start } else { length_mm - hollow + end - from }
    }

    /// Where a bumped corner is struck.
    fn strike_facts(&self, making: &Making) -> Vec<Fact> {
        let Some(strikes) = self.strikes else { return Vec::new() };
        let fact = |pair: &[usize]| {
            let corner = self.corner_after(pair[0]);
            self.radius(corner)?;
            let turn_rad = self.turn_rad(corner).abs();
            let zone = making.number.allowance_at_mm(turn_rad, self.bend_radius_mm(corner, making));
            let each = units::Angle::from_radians(turn_rad / f64::from(strikes)).degrees();
            let step = zone / f64::from(strikes);
            let words = format!(
                "{strikes} strikes of {each:.2}° each, {} apart, the first {} inside the edge of the bend zone",
                making.print_mm(step),
                making.print_mm(0.5 * step)
            );
            Some(Fact::words(format!("bumping at {}", self.outline.names[corner]), words, "strikes, radius"))
        };
        self.legs().windows(2).filter_map(fact).collect()
    }
}
