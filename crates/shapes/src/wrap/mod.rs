//! What cylinders and cones share: plate wrapped round an axis, as flats between element lines.
//!
//! The flat is the exact development of the middle of the plate: bent at a large radius the mid-line keeps its length
//! (DIN 6935, radius above five thicknesses). Bend lines are elements of the surface, where a shop without rolls bumps
//! the plate in strikes, and where one with rolls sights whether the plate runs true. The part is folded as bumped: flats
//! that turn at each strike by an equal share and close on themselves, the seam in the middle of a flat. Curved edges are
//! polylines within [`geometry::tolerance::ARC_CHORD_MM`] of the true curve.

mod facet;

use std::f64::consts::PI;

use fold::Direction;
use fold::part::{Bend, Edge, Face, FoldedPart, Forming, LegsTo, Seam, SeamStyle};
use geometry::{Point, trig};
use units::Length;

use crate::{Fact, Making, Problem};

pub(crate) use facet::{Facet, Limit, sampled};

/// Fewest strikes of a closed wrap.
const FEWEST_STRIKES: u32 = 6;

/// Most strikes of a closed wrap.
const MOST_STRIKES: u32 = 180;

/// To what a diameter is measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DiameterTo {
    /// The inside of the plate.
    Inside,
    /// The outside.
    Outside,
    /// The middle.
    Middle,
}

/// How a wrap is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WrapMaking {
    /// Between rolls; else bumped on the brake.
    pub rolled: bool,
    /// Strikes, or lines to sight along; by [`strikes_by_rule`] when not given.
    pub strikes: Option<u32>,
    /// How far one edge laps over the other; a butt seam when not given.
    pub lap: Option<Length>,
}

/// Strikes so that the flats between them stand half a thickness or less inside the true circle, never under twelve
/// (common practice, no source).
#[must_use]
pub fn strikes_by_rule(middle_radius_mm: f64, thickness_mm: f64) -> u32 {
    let inside = |strikes: u32| middle_radius_mm * (1.0 - trig::cos(PI / f64::from(strikes)));
    (12..MOST_STRIKES).find(|&strikes| inside(strikes) <= 0.5 * thickness_mm).unwrap_or(MOST_STRIKES)
}

impl DiameterTo {
    /// From the size given to the middle of the plate, where the plate stands square to the axis, mm.
    pub(crate) fn to_middle_mm(self, thickness_mm: f64) -> f64 {
        match self {
            Self::Inside => thickness_mm,
            Self::Middle => 0.0,
            Self::Outside => -thickness_mm,
        }
    }
}

impl WrapMaking {
    /// The strikes in use.
    ///
    /// # Errors
    /// Too few or too many, a lap not above zero, or a plate that cannot be bent so tight.
    pub(crate) fn strikes(&self, middle_radius_mm: f64, making: &Making) -> Result<u32, Vec<Problem>> {
        let mut problems = Vec::new();
        if let Some(lap) = self.lap {
            making.above_zero("lap", lap, &mut problems);
        }
        let thickness = making.thickness_mm();
        let own = making.number.inside_radius();
        if middle_radius_mm - 0.5 * thickness <= own.millimetres() {
            let least = making.print(own + own);
            let wrong = "its inside radius is no larger than that of a plain bend of this metal";
            let remedy = format!("make the inside diameter more than {least}, or form it of tube");
            let value = making.print_mm(2.0 * middle_radius_mm - thickness);
            problems.push(Problem::new("diameter", value, wrong, remedy));
        }
        let strikes = self.strikes.unwrap_or_else(|| strikes_by_rule(middle_radius_mm, thickness));
        if !(FEWEST_STRIKES..=MOST_STRIKES).contains(&strikes) {
            let wrong = format!("a wrap takes {FEWEST_STRIKES} to {MOST_STRIKES} strikes");
            let remedy = format!("{} would do", strikes_by_rule(middle_radius_mm, thickness));
            problems.push(Problem::new("strikes", strikes.to_string(), wrong, remedy));
        }
        if problems.is_empty() { Ok(strikes) } else { Err(problems) }
    }

    /// What the seam is, as a fact.
    pub(crate) fn seam_fact(&self, making: &Making) -> Fact {
        let words = match self.lap {
            Some(lap) => format!(
                "lap of {} beyond the girth: joggle one edge, or the outside stands proud by a thickness there",
                making.print(lap)
            ),
            None => format!("butt, {} open", making.print(making.seam_gap)),
        };
        Fact::words("seam", words, "lap, seam gap")
    }

    /// How it is made, as a fact.
    pub(crate) fn way_fact(&self, strikes: u32, turn_rad: f64) -> Fact {
        let each = turn_rad * 180.0 / PI;
        let words = if self.rolled {
            format!("rolled; {strikes} element lines to sight along")
        } else {
            format!("bumped in {strikes} strikes of {each:.2}° each, from the middle out both ways")
        };
        Fact::words("made", words, "made, strikes")
    }
}

/// Folds facets in a row, each bent off the one before by the same turn, away from the marked outside.
pub(crate) fn fold(facets: &[Facet], turn_rad: f64, made: &WrapMaking, making: &Making) -> FoldedPart {
    let corners = making.corners();
    let mut part = FoldedPart {
        springs_over: made.lap.is_some(),
        ..FoldedPart::unbent(making.number.clone(), Vec::new(), corners.relief, corners.notch_width_mm)
    };
    for (number, facet) in facets.iter().enumerate() {
        let last = number + 1 == facets.len();
        let from = number.checked_sub(1).map_or(0.0, |before| facets[before].high_end().x_along);
        let mut edges = vec![Edge::Free; facet.corners.len()];
        if number > 0 {
            edges[0] = Edge::Parent;
        }
        if !last {
            edges[facet.high_edge] = Edge::Bend(part.bends.len());
            part.bends.push(Bend {
                parent: number,
                parent_edge: facet.high_edge,
                child: number + 1,
                turn_rad,
                direction: Direction::Down,
                inside_radius_mm: making.number.inside_radius().millimetres(),
                legs_to: LegsTo::MoldLine,
                forming: if made.rolled { Forming::Rolled } else { Forming::Bumped(1) },
            });
        }
        let corners = facet.corners.iter().map(|&corner| Point::new(corner.x - from, corner.y)).collect();
        let name = format!("flat {}", number + 1);
        part.faces.push(Face { name, corners, edges, holes: Vec::new(), rim: None });
    }
    if made.lap.is_none() {
        part.seams.push(seam(facets, making));
    }
    part
}

/// The butt seam between the first facet and the last, which lie in one plane once bent.
fn seam(facets: &[Facet], making: &Making) -> Seam {
    let (last, end) = (facets.len() - 1, &facets[facets.len() - 1]);
    let count = end.corners.len();
    let (a, b) = (end.corners[end.high_edge], end.corners[(end.high_edge + 1) % count]);
    Seam {
        name: "seam".to_owned(),
        first: (0, 0),
        second: (last, end.high_edge),
        inside_angle_rad: PI,
        length_mm: a.distance(b),
        style: SeamStyle::Open,
        gap_mm: making.seam_gap.millimetres(),
    }
}
