//! An opening of three to eight sides, by its sides and the diagonals from one corner.
//!
//! The diagonals from one corner cut it into triangles, each fixed by its three sides: n sides and n − 3 diagonals. Every
//! further diagonal is a check.

use geometry::Point;
use units::{Length, LengthStyle};

use super::check::{DiagonalCheck, Readings};
use super::solve::{self, NoTriangle};
use super::{Known, Opening, Sense, triangle_problem};
use crate::figure::corner_letter;
use crate::not_convex::not_convex;
use crate::problem::above_zero;
use crate::{Figure, Problem};

/// Fewest and most sides of an opening.
pub const SIDES: std::ops::RangeInclusive<usize> = 3..=8;

/// An opening with any number of sides, as taped. Corners are numbered once round: 0 is A.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TapedSides {
    /// From each corner to the next, AB first.
    pub sides: Vec<Length>,
    /// Diagonals: two corners that are no neighbours, and the length between them.
    pub diagonals: Vec<([usize; 2], Length)>,
    /// Which way the corners go round, seen from above.
    pub sense: Sense,
    /// The tape's smallest division: every reading is good to half of it.
    pub tape: Length,
}

impl TapedSides {
    /// Solves the opening; `style` is how lengths read in what is wrong with it.
    ///
    /// # Errors
    /// Every [`Problem`]: sizes not above zero, too few diagonals from one corner, numbers that make no figure or one
    /// that is not convex, diagonals that disagree by more than the tape explains.
    pub fn solve(&self, style: LengthStyle) -> Result<Opening, Vec<Problem>> {
        let fan = self.checked_fan(style)?;
        let taped = self.fan_mm(fan);
        let corners = self
            .corners(fan, &taped)
            .map_err(|fault| vec![triangle_problem(&fault, self.field(&fault.longest), style)])?;
        let checks = self.checks(fan, &taped);
        let off = checks.iter().filter(|check| !check.explained());
        let way_out = "leave out the diagonal that you do not trust, while one corner keeps all of its own";
        let problems: Vec<Problem> =
            off.map(|check| check.problem(format!("diagonals.{}", check.diagonal), way_out, style)).collect();
        if !problems.is_empty() {
            return Err(problems);
        }
        let corners = self.as_seen(&corners);
        let worst = checks.into_iter().max_by(|a, b| a.strain().total_cmp(&b.strain()));
        figure(&corners, "sides", &self.sides_words(style), style).map(|figure| Opening {
            figure,
            check: worst,
            known: self.known(fan),
        })
    }

    /// Which diagonals the figure goes by, and which were taped besides.
    fn known(&self, fan: usize) -> Known {
        let names = |of_the_fan: bool| {
            let chosen = self.diagonals.iter().filter(|(ends, _)| ends.contains(&fan) == of_the_fan);
            chosen.map(|(ends, _)| name(*ends)).collect()
        };
        Known::Taped { by: names(true), checked: names(false) }
    }

    /// The corner whose diagonals fix the figure, where all is there that does.
    fn checked_fan(&self, style: LengthStyle) -> Result<usize, Vec<Problem>> {
        let mut problems = Vec::new();
        for (number, &side) in self.sides.iter().enumerate() {
            above_zero(style, &self.field(&self.side_name(number)), side, &mut problems);
        }
        for &(ends, length) in &self.diagonals {
            above_zero(style, &format!("diagonals.{}", name(ends)), length, &mut problems);
        }
        let count = self.sides.len();
        let needed = |from: usize| {
            (2..count.saturating_sub(1)).map(move |step| (from + step) % count).collect::<Vec<_>>()
        };
        let fan =
            (0..count).find(|&from| needed(from).into_iter().all(|to| self.diagonal(from, to).is_some()));
        if fan.is_none() {
            let from_a: Vec<String> = needed(0).into_iter().map(|to| name([0, to])).collect();
            let given: Vec<String> = self.diagonals.iter().map(|&(ends, _)| name(ends)).collect();
            let value = if given.is_empty() { "not given".to_owned() } else { given.join(", ") };
            let wrong = format!(
                "{count} sides are fixed by {} diagonals from one and the same corner, and no corner has all of its own",
                count.saturating_sub(3)
            );
            let remedy = format!(
                "tape all from A: {}; from the corner across from it as well is better, those are the check",
                from_a.join(", ")
            );
            problems.push(Problem::new("diagonals", value, wrong, remedy));
        }
        fan.filter(|_| problems.is_empty()).ok_or(problems)
    }

    fn diagonal(&self, from: usize, to: usize) -> Option<Length> {
        let same = |ends: [usize; 2]| ends == [from, to] || ends == [to, from];
        self.diagonals.iter().find(|diagonal| same(diagonal.0)).map(|diagonal| diagonal.1)
    }

    /// The numbers that fix the figure, mm: sides, then the diagonals from `fan` in the order of their other ends.
    fn fan_mm(&self, fan: usize) -> Vec<f64> {
        let count = self.sides.len();
        let spokes = (2..count.saturating_sub(1)).filter_map(|step| self.diagonal(fan, (fan + step) % count));
        self.sides.iter().copied().chain(spokes).map(Length::millimetres).collect()
    }

    fn fan_names(&self, fan: usize) -> Vec<String> {
        let count = self.sides.len();
        let spokes = (2..count.saturating_sub(1)).map(|step| name([fan, (fan + step) % count]));
        (0..count).map(|side| self.side_name(side)).chain(spokes).collect()
    }

    /// Corners from A on, counter-clockwise, from numbers in the order of [`TapedSides::fan_mm`].
    fn corners(&self, fan: usize, mm: &[f64]) -> Result<Vec<Point>, NoTriangle> {
        let count = self.sides.len();
        let names = self.fan_names(fan);
        // Numbers of the side that starts at a corner, and of what runs from the fan's corner to it.
        let side = |step: usize| (fan + step) % count;
        let spoke = |step: usize| if step + 1 == count { side(count - 1) } else { count + step - 2 };
        let mut placed = vec![Point::default(), Point::new(mm[side(0)], 0.0)];
        for step in 2..count {
            let (to_last, far, to_this) =
                (if step == 2 { side(0) } else { spoke(step - 1) }, side(step - 1), spoke(step));
            let corner = solve::apex(placed[0], placed[step - 1], mm[to_this], mm[far]).ok_or_else(|| {
                solve::fault([to_last, far, to_this].map(|number| (names[number].clone(), mm[number])))
            })?;
            placed.push(corner);
        }
        Ok((0..count).map(|corner| placed[(corner + count - fan) % count]).collect())
    }

    /// Every diagonal that does not fix the figure.
    fn checks(&self, fan: usize, taped: &[f64]) -> Vec<DiagonalCheck> {
        let further = self.diagonals.iter().filter(|(ends, _)| !ends.contains(&fan));
        further
            .filter_map(|&([from, to], length)| {
                let diagonal_of = |mm: &[f64]| {
                    let corners = self.corners(fan, mm).ok()?;
                    Some(corners[from].distance(corners[to]))
                };
                let readings = Readings {
                    names: self.fan_names(fan),
                    mm: taped.to_vec(),
                    diagonal_of: &diagonal_of,
                    tape: self.tape,
                };
                readings.check(&name([from, to]), length)
            })
            .collect()
    }

    /// Side AB along x, the other sense the mirror image.
    fn as_seen(&self, corners: &[Point]) -> Vec<Point> {
        let (a, along) = (corners[0], (corners[1] - corners[0]).unit());
        let width = corners[0].distance(corners[1]);
        let seen = |p: &Point| {
            let from_a = *p - a;
            let (x, y) = (from_a.dot(along), along.cross(from_a));
            match self.sense {
                Sense::CounterClockwise => Point::new(x, y),
                Sense::Clockwise => Point::new(width - x, y),
            }
        };
        corners.iter().map(seen).collect()
    }

    fn side_name(&self, number: usize) -> String {
        let count = self.sides.len();
        format!("{}{}", corner_letter(number), corner_letter((number + 1) % count))
    }

    /// The field that holds a length: "sides.AB" or "diagonals.AC".
    fn field(&self, name: &str) -> String {
        let is_side = (0..self.sides.len()).any(|side| self.side_name(side) == name);
        format!("{}.{name}", if is_side { "sides" } else { "diagonals" })
    }

    fn sides_words(&self, style: LengthStyle) -> String {
        let sides: Vec<String> = self.sides.iter().map(|side| side.print(style)).collect();
        sides.join(", ")
    }
}

/// An opening by its corners as seen from above, named A, B, C … once round, whichever way that runs.
///
/// # Errors
/// A [`Problem`] at `outline`: fewer than three corners or more than eight, no area, not convex.
pub fn by_corners(corners: &[Point], style: LengthStyle) -> Result<Opening, Vec<Problem>> {
    if !SIDES.contains(&corners.len()) {
        let wrong = format!("an opening has {} to {} corners here", SIDES.start(), SIDES.end());
        let remedy = "give its corners in order once round; split a larger one";
        return Err(vec![Problem::new("outline", format!("{} corners", corners.len()), wrong, remedy)]);
    }
    figure(corners, "outline", "as given", style).map(|figure| Opening {
        figure,
        check: None,
        known: Known::Corners,
    })
}

/// The lettered figure, if it is convex.
fn figure(corners: &[Point], field: &str, value: &str, style: LengthStyle) -> Result<Figure, Vec<Problem>> {
    let names: Vec<String> = (0..corners.len()).map(corner_letter).collect();
    if let Some(fault) = not_convex(corners, &names, style) {
        return Err(vec![Problem::new(field, value, fault.wrong, fault.remedy)]);
    }
    Figure::lettered(corners).ok_or_else(|| {
        let remedy = "give the corners in order, once round";
        vec![Problem::new(field, value, "these corners enclose no area", remedy)]
    })
}

/// "AC": a diagonal with its letters in order.
fn name([from, to]: [usize; 2]) -> String {
    format!("{}{}", corner_letter(from.min(to)), corner_letter(from.max(to)))
}
