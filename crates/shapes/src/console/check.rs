//! What can be wrong with a console's sizes.

use geometry::trig;
use units::Length;

use super::{Console, FootRecess};
use crate::panel::outline_problems;
use crate::{Making, Problem};

/// How far a leg as taped may lie off the outline: two readings of a 1/16 tape.
const TAPED_WITHIN: Length = Length::from_sixty_fourths(4);

/// Sharpest turn of the wrap, degrees.
const MOST_TURN_DEGREES: f64 = 150.0;

impl Console {
    /// Every problem with the sizes as given.
    pub(super) fn check(&self, making: &Making) -> Result<(), Vec<Problem>> {
        let mut problems = outline_problems(&self.outline);
        self.check_wrapped(&mut problems);
        making.above_zero("width", self.width, &mut problems);
        if let Some(leg) = self.side_flange {
            making.above_zero("side_flange", leg, &mut problems);
        }
        if self.strikes.is_some_and(|strikes| strikes < 2) {
            let remedy = "give two or more, or leave it out for a rolled corner";
            problems.push(Problem::new(
                "strikes",
                "as given",
                "a bumped corner takes several strikes",
                remedy,
            ));
        }
        self.check_meeting(making, &mut problems);
        if let Some(dash) = self.dash.as_ref().filter(|dash| self.outline.side_number(dash).is_none()) {
            problems.push(self.no_side("dash", dash));
        }
        if problems.is_empty() {
            self.check_radii(making, &mut problems);
            self.check_corner_radius(making, &mut problems);
            self.check_taped(making, &mut problems);
        }
        if problems.is_empty() {
            self.check_legs(making, &mut problems);
            if let Some(recess) = &self.foot_recess {
                self.check_recess(recess, making, &mut problems);
            }
        }
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }

    fn no_side(&self, field: &str, name: &str) -> Problem {
        let remedy = format!("the sides are {}", self.outline.sides.join(", "));
        Problem::new(field, name, "the outline has no such side", remedy)
    }

    fn check_wrapped(&self, problems: &mut Vec<Problem>) {
        let missing = self.wrapped.iter().filter(|name| self.outline.side_number(name).is_none());
        let missing: Vec<Problem> = missing.map(|name| self.no_side("wrapped", name)).collect();
        if !missing.is_empty() {
            problems.extend(missing);
            return;
        }
        let legs = self.legs();
        let joined = legs.windows(2).all(|pair| self.corner_after(pair[0]) == pair[1]);
        if legs.is_empty() || !joined || legs.len() == self.outline.count() {
            let remedy = "name the sides it goes round one after another, and leave at least one open";
            let value = self.wrapped.join(", ");
            problems.push(Problem::new("wrapped", value, "the sheet cannot be wrapped so", remedy));
        }
        for pair in legs.windows(2) {
            let corner = self.corner_after(pair[0]);
            let degrees = units::Angle::from_radians(self.turn_rad(corner).abs()).degrees();
            if MOST_TURN_DEGREES < degrees || degrees <= 0.0 {
                let wrong =
                    format!("the wrap would turn by {degrees:.1}°; it turns by up to {MOST_TURN_DEGREES}°");
                let name = &self.outline.names[corner];
                problems.push(Problem::new("outline", name, wrong, "move this corner"));
            }
        }
    }

    /// Corners that the wrap goes round.
    fn bent_corners(&self) -> Vec<usize> {
        self.legs().windows(2).map(|pair| self.corner_after(pair[0])).collect()
    }

    fn check_radii(&self, making: &Making, problems: &mut Vec<Problem>) {
        let bent = self.bent_corners();
        for (name, radius) in &self.radii {
            let field = format!("radii.{name}");
            let corner = self.outline.names.iter().position(|corner| corner == name);
            match corner.filter(|corner| bent.contains(corner)) {
                None => {
                    let names: Vec<&str> =
                        bent.iter().map(|&corner| self.outline.names[corner].as_str()).collect();
                    let remedy = format!("the wrap turns at {}", names.join(", "));
                    problems.push(Problem::new(
                        field,
                        making.print(*radius),
                        "the wrap does not turn here",
                        remedy,
                    ));
                }
                Some(corner) => {
                    let outside = self.turn_rad(corner) > 0.0;
                    let own = making.number.inside_radius();
                    let least = if outside { own + making.number.thickness() } else { own };
                    if *radius < least {
                        let remedy =
                            format!("the least is {}, or leave it out for a brake bend", making.print(least));
                        let wrong = "is tighter than the metal is bent";
                        problems.push(Problem::new(field, making.print(*radius), wrong, remedy));
                    }
                }
            }
        }
    }

    /// Bare corners must be there for the radius, and it must leave a straight of both sides.
    fn check_corner_radius(&self, making: &Making, problems: &mut Vec<Problem>) {
        let Some(radius) = self.corner_radius else { return };
        let before = problems.len();
        making.above_zero("corner_radius", radius, problems);
        if before < problems.len() {
            return;
        }
        if self.bare_corners().is_empty() {
            let wrong = "the wrap comes to every corner of the sides that stands out, and none is bare";
            problems.push(Problem::new("corner_radius", making.print(radius), wrong, "take it out"));
            return;
        }
        let tight = (0..self.outline.count()).find_map(|side| {
            let taken_mm = self.bare_reach_mm(side) + self.bare_reach_mm(self.corner_after(side));
            let room_mm = self.outline.side_mm(side) - making.thickness_mm();
            (room_mm < taken_mm).then(|| (side, radius.millimetres() * room_mm / taken_mm))
        });
        if let Some((side, most_mm)) = tight {
            let name = &self.outline.sides[side];
            let wrong = format!("takes more of side {name} than there is of it");
            let remedy = making.keep_under(most_mm, "the side is too short");
            problems.push(Problem::new("corner_radius", making.print(radius), wrong, remedy));
        }
    }

    fn check_taped(&self, making: &Making, problems: &mut Vec<Problem>) {
        for (name, taped) in &self.taped {
            let field = format!("taped.{name}");
            let Some(side) = self.outline.side_number(name) else {
                problems.push(self.no_side(&field, name));
                continue;
            };
            let drawn = Length::from_millimetres(self.outline.side_mm(side));
            if TAPED_WITHIN < (*taped - drawn).abs() {
                let wrong = format!("the outline makes this leg {}", making.print(drawn));
                let remedy = "tape it again, or correct the outline; neither is taken for the other";
                problems.push(Problem::new(field, making.print(*taped), wrong, remedy));
            }
        }
    }

    /// Every leg must outlast the setbacks of its bends; between two corners with radii of their own it may be just as long.
    fn check_legs(&self, making: &Making, problems: &mut Vec<Problem>) {
        let bent = self.bent_corners();
        for (number, &leg) in self.legs().iter().enumerate() {
            let ends = [leg, self.corner_after(leg)];
            let setback = |corner: usize| {
                let reach = self.bend_radius_mm(corner, making) + making.thickness_mm();
                reach * trig::tan(0.5 * self.turn_rad(corner).abs())
            };
            let taken: f64 = ends.into_iter().filter(|corner| bent.contains(corner)).map(setback).sum();
            let length = self.leg_mm(number, making);
            if length <= taken && !self.is_all_round(number, making) {
                let name = &self.outline.sides[leg];
                let wrong = format!(
                    "is {} long and the bends at its ends take {}",
                    making.print_mm(length),
                    making.print_mm(taken)
                );
                let remedy = "lessen the radii at its ends, or lengthen it";
                problems.push(Problem::new("outline", name, wrong, remedy));
            }
        }
    }

    fn check_recess(&self, recess: &FootRecess, making: &Making, problems: &mut Vec<Problem>) {
        let sizes = [
            ("width", recess.width),
            ("height", recess.height),
            ("depth", recess.depth),
            ("rim", recess.rim),
        ];
        for (field, size) in sizes {
            making.above_zero(&format!("foot_recess.{field}"), size, problems);
        }
        making.not_below_zero("foot_recess.clearance", recess.clearance, problems);
        let legs = self.legs();
        let leg = self.outline.side_number(&recess.leg);
        let Some(number) = legs.iter().position(|&side| Some(side) == leg) else {
            let names: Vec<&str> = legs.iter().map(|&side| self.outline.sides[side].as_str()).collect();
            let remedy = format!("the legs are {}", names.join(", "));
            let wrong = "the wrap has no such leg";
            problems.push(Problem::new("foot_recess.leg", &recess.leg, wrong, remedy));
            return;
        };
        self.check_recess_room(recess, number, making, problems);
    }

    /// The rim must lie on the flat of the leg, and cover the cut-out.
    fn check_recess_room(
        &self,
        recess: &FootRecess,
        number: usize,
        making: &Making,
        problems: &mut Vec<Problem>,
    ) {
        if recess.rim <= recess.clearance {
            let remedy = format!("give more than {}", making.print(recess.clearance));
            let wrong = "does not cover the gap round the box";
            problems.push(Problem::new("foot_recess.rim", making.print(recess.rim), wrong, remedy));
        }
        let over_rim = recess.width + recess.rim * 2;
        if self.width < over_rim {
            let widest = self.width - recess.rim * 2;
            let remedy = if making.has_room(widest.millimetres()) {
                format!("the widest is {}", making.print(widest))
            } else {
                "no box fits: its rim alone is as wide as the console".to_owned()
            };
            let wrong = format!("with its rim it is {} wide, wider than the console", making.print(over_rim));
            problems.push(Problem::new("foot_recess.width", making.print(recess.width), wrong, remedy));
        }
        let bent = self.bent_corners();
        let setback = |corner: usize| {
            let reach = self.bend_radius_mm(corner, making) + making.thickness_mm();
            if bent.contains(&corner) { reach * trig::tan(0.5 * self.turn_rad(corner).abs()) } else { 0.0 }
        };
        let side = self.legs()[number];
        let length = self.leg_mm(number, making);
        let middle = self.recess_middle_mm(recess, number, length, making);
        let half = 0.5 * recess.height.millimetres() + recess.rim.millimetres();
        let (low, high) = (setback(side), length - setback(self.corner_after(side)));
        if middle - half < low || high < middle + half {
            let wrong = format!("its rim runs onto a bend or past the end of leg {}", recess.leg);
            let room = high - low - 2.0 * half;
            let remedy = if making.has_room(room) {
                format!("{} of the leg are left to move it in", making.print_mm(room))
            } else {
                "no place fits on this leg: make the box lower, or its rim narrower".to_owned()
            };
            let value = making.print(recess.from_corner);
            problems.push(Problem::new("foot_recess.from_corner", value, wrong, remedy));
        }
    }
}
