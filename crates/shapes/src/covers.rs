//! Covers over a channel, one from each station to the next, from the clear widths taped at the stations.
//!
//! Each cover is a trapezoid as seen from above: x runs down the channel, y to the left. Half a joint stays free at both
//! of its ends, also at the ends of the channel, and the sides bear on both walls. Widths alone do not say how the
//! channel lies: either its centre line is straight, or one wall is ([`StraightWall`]). A pair of hand slots may lie on
//! the middle line of each cover, in from the sides that bear. The pieces are numbered as they are laid.

use geometry::{Frame, Point, Point3, Vector, polygon};
use units::{Angle, Length};

use crate::flat_piece::flat_piece;
use crate::hole::{Hole, HoleKind};
use crate::weight_limit::{self, WeightLimit};
use crate::{Fact, Making, Piece, Places, Problem, Recipe, Shaped};

/// Covers in a row.
#[derive(Debug, Clone, PartialEq)]
pub struct Covers {
    /// Clear widths of the channel at the stations, going down it.
    pub widths: Vec<Length>,
    /// From one station to the next.
    pub spacing: Length,
    /// How far a cover bears on each wall.
    pub bearing: Length,
    /// Open between two covers.
    pub joint: Length,
    /// Which line of the channel is straight.
    pub straight: StraightWall,
    /// What one may weigh.
    pub heaviest: Option<WeightLimit>,
    /// A pair in each cover.
    pub hand_slots: Option<HandSlots>,
    /// Bites out of corners.
    pub notches: Vec<CoverNotch>,
}

/// Which line of a channel is straight, looking down it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StraightWall {
    /// The centre line: both walls give alike.
    Neither,
    /// The left wall.
    Left,
    /// The right wall.
    Right,
}

/// A pair of slots with round ends, one near each side that bears, their length along the channel.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HandSlots {
    /// Over the round ends.
    pub length: Length,
    /// Across.
    pub width: Length,
    /// From the bearing end of the cover to the middle of the slot.
    pub from_end: Length,
}

/// A bite out of one corner of one cover.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CoverNotch {
    /// Number of the cover, 1 for the first.
    pub cover: usize,
    /// At the downstream end; else at the upstream one.
    pub downstream: bool,
    /// On the left, looking down the channel; else on the right.
    pub left: bool,
    /// Along the channel.
    pub along: Length,
    /// Across it, from the end of the cover.
    pub across: Length,
}

impl Recipe for Covers {
    fn word(&self) -> &'static str {
        "covers"
    }

    fn words(&self) -> &'static str {
        "channel covers"
    }

    fn tight_field(&self) -> &'static str {
        "spacing"
    }

    fn is_lid(&self) -> bool {
        true
    }

    fn pieces(&self) -> Vec<Piece> {
        let count = self.widths.len().saturating_sub(1);
        let digits = count.to_string().len();
        (1..=count)
            .map(|number| Piece {
                suffix: format!("{number:0digits$}"),
                words: format!("cover {number} of the {count}"),
                count: 1,
            })
            .collect()
    }

    fn shape_piece(&self, piece: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let mut problems = self.check(making);
        if !problems.is_empty() {
            return Err(problems);
        }
        let corners = self.corners(piece);
        let holes = self.slots(piece, making, &mut problems);
        let notched = self.notched(piece, &corners, making, &mut problems);
        if let Some(limit) = &self.heaviest {
            let share = limit.most_area_mm2() / polygon::signed_area(&corners);
            let less = self.spacing.millimetres() * share;
            let remedy = format!("bring the stations to {} or nearer", making.print_mm(less));
            problems.extend(limit.problem(&format!("cover {}", piece + 1), &corners, making, remedy));
        }
        if !problems.is_empty() {
            return Err(problems);
        }
        let facts = self.facts(piece, &corners, making);
        let holes = holes.into_iter().collect();
        Ok(Shaped { part: flat_piece("cover", notched, holes, making), facts })
    }

    fn put_together(&self, _: &Making) -> Vec<(usize, Frame)> {
        let (spacing, half) = (self.spacing.millimetres(), 0.5 * self.joint.millimetres());
        let root = |piece: usize| {
            let origin = Point3::new(units_of(piece) * spacing + half, 0.0, 0.0);
            (piece, Frame { origin, ..Frame::WORLD })
        };
        (0..self.widths.len().saturating_sub(1)).map(root).collect()
    }

    fn places(&self, piece: usize, _: &Making) -> Places {
        let corners = self.corners(piece);
        Places::default()
            .with_edge("UPSTREAM", corners[3], corners[0])
            .with_edge("DOWNSTREAM", corners[1], corners[2])
            .with_edge("RIGHT WALL", corners[0], corners[1])
            .with_edge("LEFT WALL", corners[2], corners[3])
    }
}

impl Covers {
    fn check(&self, making: &Making) -> Vec<Problem> {
        let mut problems = Vec::new();
        for (number, width) in self.widths.iter().enumerate() {
            making.above_zero(&format!("widths[{number}]"), *width, &mut problems);
        }
        making.above_zero("spacing", self.spacing, &mut problems);
        making.above_zero("bearing", self.bearing, &mut problems);
        making.not_below_zero("joint", self.joint, &mut problems);
        if self.joint >= self.spacing {
            let wrong = "leaves nothing of a cover";
            problems.push(Problem::new(
                "joint",
                making.print(self.joint),
                wrong,
                "make it less than the spacing",
            ));
        }
        let count = self.widths.len().saturating_sub(1);
        for (number, notch) in self.notches.iter().enumerate() {
            if notch.cover == 0 || notch.cover > count {
                let field = format!("notches[{number}].cover");
                let remedy = format!("name one of 1 to {count}");
                problems.push(Problem::new(field, notch.cover.to_string(), "there is no such cover", remedy));
            }
        }
        problems
    }

    /// The right and the left wall at `along_mm` from the first station, mm from the line that is straight.
    fn walls(&self, along_mm: f64) -> [f64; 2] {
        let at = along_mm / self.spacing.millimetres();
        let last = self.widths.len().saturating_sub(2);
        let before = (0..=last).rev().find(|&station| units_of(station) <= at).unwrap_or(0);
        let [from, to] = [before, before + 1].map(|station| self.widths[station].millimetres());
        let width = from + (to - from) * (at - units_of(before));
        match self.straight {
            StraightWall::Neither => [-0.5 * width, 0.5 * width],
            StraightWall::Left => [-width, 0.0],
            StraightWall::Right => [0.0, width],
        }
    }

    /// Upstream right, downstream right, downstream left, upstream left; the upstream end at x = 0.
    fn corners(&self, piece: usize) -> Vec<Point> {
        let (spacing, half) = (self.spacing.millimetres(), 0.5 * self.joint.millimetres());
        let from = units_of(piece) * spacing + half;
        let to = units_of(piece + 1) * spacing - half;
        let bearing = self.bearing.millimetres();
        let ([right, left], [far_right, far_left]) = (self.walls(from), self.walls(to));
        let long = to - from;
        vec![
            Point::new(0.0, right - bearing),
            Point::new(long, far_right - bearing),
            Point::new(long, far_left + bearing),
            Point::new(0.0, left + bearing),
        ]
    }

    /// Both slots, their middles on the middle line across the cover.
    fn slots(&self, piece: usize, making: &Making, problems: &mut Vec<Problem>) -> Vec<geometry::Contour> {
        let Some(slots) = &self.hand_slots else { return Vec::new() };
        let corners = self.corners(piece);
        let x = 0.5 * corners[1].x;
        let inner = slots.from_end - Length::from_millimetres(0.5 * slots.width.millimetres());
        if inner < self.bearing {
            let least = self.bearing.millimetres() + 0.5 * slots.width.millimetres();
            let remedy = format!("put its middle {} or more from the end", making.print_mm(least));
            let wrong = "the slot would lie on the wall it bears on";
            problems.push(Problem::new("hand_slots.from_end", making.print(slots.from_end), wrong, remedy));
            return Vec::new();
        }
        let from_end = slots.from_end.millimetres();
        let ends = [
            corners[0].toward(corners[1], 0.5).y + from_end,
            corners[2].toward(corners[3], 0.5).y - from_end,
        ];
        let kind = HoleKind::Slot { length: slots.length, width: slots.width, turned: Angle::ZERO };
        let mut contours = Vec::new();
        for y in ends {
            let at = [x, y].map(Length::from_millimetres);
            match (Hole { at, kind: kind.clone() }).contour(making, "hand_slots") {
                Ok(contour) => contours.push(contour),
                Err(more) => {
                    problems.extend(more);
                    break;
                }
            }
        }
        contours
    }

    /// The corners with the bites that this cover has.
    fn notched(
        &self,
        piece: usize,
        corners: &[Point],
        making: &Making,
        problems: &mut Vec<Problem>,
    ) -> Vec<Point> {
        let mut bitten: Vec<Vec<Point>> = corners.iter().map(|&corner| vec![corner]).collect();
        for (number, notch) in self.notches.iter().enumerate().filter(|(_, notch)| notch.cover == piece + 1) {
            let corner = match (notch.downstream, notch.left) {
                (false, false) => 0,
                (true, false) => 1,
                (true, true) => 2,
                (false, true) => 3,
            };
            let at = corners[corner];
            let (along, across) = (notch.along.millimetres(), notch.across.millimetres());
            let width = (corners[2].y - corners[1].y).min(corners[3].y - corners[0].y);
            if along <= 0.0
                || across <= 0.0
                || along >= corners[1].x
                || across >= width
                || bitten[corner].len() > 1
            {
                let value = format!("{} × {}", making.print(notch.along), making.print(notch.across));
                let (wrong, remedy) = ("does not fit in its cover", "check its sizes; one notch a corner");
                problems.push(Problem::new(format!("notches[{number}]"), value, wrong, remedy));
                continue;
            }
            let inward = Vector::new(if notch.downstream { -along } else { along }, 0.0);
            let down = Vector::new(0.0, if notch.left { -across } else { across });
            // The side that bears runs at a slant: the notch starts on it.
            let (a, b) = if notch.left { (corners[2], corners[3]) } else { (corners[0], corners[1]) };
            let slant = at + inward;
            let on_side = slant.crossing(Vector::new(0.0, 1.0), a, b - a).unwrap_or(slant);
            let inside = Point::new(slant.x, at.y + down.y);
            let mut points = vec![at + down, inside, on_side];
            // Counter-clockwise, corners 0 and 2 are reached across the channel, 1 and 3 along it.
            if corner % 2 == 1 {
                points.reverse();
            }
            bitten[corner] = points;
        }
        bitten.concat()
    }

    fn facts(&self, piece: usize, corners: &[Point], making: &Making) -> Vec<Fact> {
        let place = format!("cover {} of {}, counted downstream", piece + 1, self.widths.len() - 1);
        // A diagonal to a corner that is notched away cannot be taped on the cover.
        let diagonal = |words: &str, ends: [(bool, bool); 2]| {
            let here = |notch: &CoverNotch| {
                notch.cover == piece + 1 && ends.contains(&(notch.downstream, notch.left))
            };
            let when = if self.notches.iter().any(here) { ", before the notch is cut" } else { "" };
            format!("diagonal, {words}{when}")
        };
        // Nor can an end that a notch is bitten out of.
        let end = |words: &str, downstream: bool| {
            let here = |notch: &CoverNotch| notch.cover == piece + 1 && notch.downstream == downstream;
            let when = if self.notches.iter().any(here) { ", before the notch is cut" } else { "" };
            format!("{words}{when}")
        };
        let mut facts = vec![
            Fact::words("laid as", place, "widths"),
            Fact::length_mm("length along the channel", corners[1].x, "spacing less the joint"),
            Fact::words(
                "mark on the metal",
                "UPSTREAM and LEFT WALL at their edges: turned end for end it fits badly",
                "widths",
            ),
            Fact::length_mm(end("upstream end", false), corners[3].y - corners[0].y, "widths, bearing"),
            Fact::length_mm(end("downstream end", true), corners[2].y - corners[1].y, "widths, bearing"),
            Fact::length_mm(
                diagonal("upstream right to downstream left", [(false, false), (true, true)]),
                corners[0].distance(corners[2]),
                "corners",
            ),
            Fact::length_mm(
                diagonal("upstream left to downstream right", [(false, true), (true, false)]),
                corners[3].distance(corners[1]),
                "corners",
            ),
            Fact::area_mm2("area before holes and notches", polygon::signed_area(corners), "corners"),
        ];
        facts.extend(weight_limit::fact(self.heaviest.as_ref(), corners, making));
        facts
    }
}

/// A number of stations as a factor.
fn units_of(stations: usize) -> f64 {
    u32::try_from(stations).map_or(f64::MAX, f64::from)
}
