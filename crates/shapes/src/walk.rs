//! Lift-out panels of a walk: all of its width, joined only on beams, none heavier than two hands may lift.
//!
//! Beams stand at equal spacing from the start; the last bay may be shorter. Each panel takes as many bays as its weight
//! allows, and half a joint stays free at each of its ends. Panels alike share one mark.

use geometry::{Frame, Point, Point3};
use units::Length;

use crate::flat_piece::flat_piece;
use crate::weight_limit::{self, WeightLimit};
use crate::{Fact, Making, Piece, Problem, Recipe, Shaped};

/// A walk.
#[derive(Debug, Clone, PartialEq)]
pub struct Walk {
    /// Over all.
    pub length: Length,
    /// Of every panel.
    pub width: Length,
    /// From one beam to the next.
    pub beams: Length,
    /// Open between two panels.
    pub joint: Length,
    /// What one panel may weigh.
    pub heaviest: Option<WeightLimit>,
    /// The longest panel, whatever it weighs.
    pub longest: Option<Length>,
}

/// Panels alike.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Run {
    /// From the middle of one joint to the middle of the next.
    nominal: Length,
    count: u32,
}

impl Recipe for Walk {
    fn word(&self) -> &'static str {
        "walk"
    }

    fn words(&self) -> &'static str {
        "walk panels"
    }

    fn tight_field(&self) -> &'static str {
        "beams"
    }

    fn pieces(&self) -> Vec<Piece> {
        let piece = |(number, run): (usize, &Run)| Piece {
            suffix: crate::figure::corner_letter(number),
            words: if number == 0 { "walk panel".to_owned() } else { "last, short walk panel".to_owned() },
            count: run.count,
        };
        // A walk that cannot be made is one piece, so that its shaping can say why.
        let runs = self.runs();
        if runs.is_empty() {
            vec![piece((0, &Run { nominal: self.length, count: 1 }))]
        } else {
            runs.iter().enumerate().map(piece).collect()
        }
    }

    fn put_together(&self, _: &Making) -> Vec<(usize, Frame)> {
        let mut from_mm = 0.5 * self.joint.millimetres();
        let mut places = Vec::new();
        for (piece, run) in self.runs().iter().enumerate() {
            for _ in 0..run.count {
                places.push((piece, Frame { origin: Point3::new(from_mm, 0.0, 0.0), ..Frame::WORLD }));
                from_mm += run.nominal.millimetres();
            }
        }
        places
    }

    fn whole_sizes(&self, making: &Making) -> Vec<Fact> {
        let joints =
            format!("{} at every joint, half of it at both ends of the walk", making.print(self.joint));
        let open = Fact::words("open between panels", joints, "joint");
        let middles = self.joints_words(making).map(|words| {
            Fact::words("middles of the joints, from the start", words, "beams, heaviest, longest")
        });
        std::iter::once(open).chain(middles).collect()
    }

    fn shape_piece(&self, piece: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let mut problems = Vec::new();
        for (field, size) in [("length", self.length), ("width", self.width), ("beams", self.beams)] {
            making.above_zero(field, size, &mut problems);
        }
        making.not_below_zero("joint", self.joint, &mut problems);
        if !problems.is_empty() {
            return Err(problems);
        }
        let runs = self.runs();
        let Some(run) = runs.get(piece) else { return Err(vec![self.one_bay_problem(making)]) };
        let length = run.nominal - self.joint;
        if length <= Length::ZERO {
            let value = making.print(self.joint);
            return Err(vec![Problem::new(
                "joint",
                value,
                "leaves nothing of the last panel",
                "lessen it, or move the last beam",
            )]);
        }
        let corners = self.corners(length);
        Ok(Shaped {
            facts: self.facts(*run, &corners, making),
            part: flat_piece("panel", corners, Vec::new(), making),
        })
    }
}

impl Walk {
    /// "96, 192": middles of the joints from the start; none of a single panel.
    fn joints_words(&self, making: &Making) -> Option<String> {
        let panels = self.runs().into_iter().flat_map(|run| (0..run.count).map(move |_| run.nominal));
        let ends = panels.scan(Length::ZERO, |end, nominal| {
            *end += nominal;
            Some(*end)
        });
        let mut ends: Vec<String> = ends.map(|end| making.print(end)).collect();
        // The last panel ends with the walk.
        ends.pop();
        (!ends.is_empty()).then(|| ends.join(", "))
    }

    fn corners(&self, length: Length) -> Vec<Point> {
        let (x, y) = (length.millimetres(), self.width.millimetres());
        vec![Point::new(0.0, 0.0), Point::new(x, 0.0), Point::new(x, y), Point::new(0.0, y)]
    }

    /// The longest panel, without its joint, that weight and length allow.
    fn longest(&self) -> Length {
        let by_weight = self
            .heaviest
            .map(|limit| Length::from_millimetres(limit.most_area_mm2() / self.width.millimetres()));
        let limits = [Some(self.length), self.longest, by_weight];
        limits.into_iter().flatten().fold(self.length, Length::min)
    }

    /// Panels of as many bays as may be, then what is left; none where not even one bay may be.
    fn runs(&self) -> Vec<Run> {
        if self.beams <= Length::ZERO || self.width <= Length::ZERO || self.length <= Length::ZERO {
            return Vec::new();
        }
        let most = self.longest();
        let mut bays = 0_i64;
        while self.beams * (bays + 1) - self.joint <= most && self.beams * bays < self.length {
            bays += 1;
        }
        if bays == 0 {
            return Vec::new();
        }
        let full = (self.beams * bays).min(self.length);
        let (mut count, mut left) = (0, self.length);
        while left >= full {
            count += 1;
            left -= full;
        }
        let mut runs = vec![Run { nominal: full, count }];
        if left > Length::ZERO {
            runs.push(Run { nominal: left, count: 1 });
        }
        runs
    }

    /// Not even one bay may be lifted out.
    fn one_bay_problem(&self, making: &Making) -> Problem {
        let longest = self.longest();
        let wrong =
            format!("a panel may be {} long at the most, less than from beam to beam", making.print(longest));
        let remedy = format!(
            "set the beams at {} or nearer, or make the walk of two panels abreast",
            making.print(longest + self.joint)
        );
        Problem::new("beams", making.print(self.beams), wrong, remedy)
    }

    fn facts(&self, run: Run, corners: &[Point], making: &Making) -> Vec<Fact> {
        let mut facts = vec![
            Fact::length_mm("panel length", corners[1].x, "whole bays of beams less the joint"),
            Fact::length_mm("joint to joint", run.nominal.millimetres(), "beams"),
        ];
        if self.heaviest.is_some() {
            let longest = self.longest().millimetres();
            facts.push(Fact::length_mm(
                "longest panel that may be",
                longest,
                "heaviest, weight of the plate, width",
            ));
        }
        facts.extend(weight_limit::fact(self.heaviest.as_ref(), corners, making));
        facts
    }
}
