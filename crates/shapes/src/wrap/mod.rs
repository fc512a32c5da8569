//! What cylinders and cones share: plate wrapped round an axis, as flats between element lines.
//!
//! The flat is the exact development of the middle of the plate: bent at a large radius the mid-line keeps its length
//! (DIN 6935, radius above five thicknesses). Bend lines are elements of the surface, where a shop without rolls bumps
//! the plate in strikes, and where one with rolls sights whether the plate runs true. The part is folded as bumped: flats
//! that turn at each strike by an equal share and close on themselves, the seam in the middle of a flat. Curved edges are
//! polylines within [`geometry::tolerance::ARC_CHORD_MM`] of the true curve.

mod facet;
mod lap;
mod round;

use std::f64::consts::PI;

use fold::Direction;
use fold::part::{Bend, Edge, Face, FoldedPart, Forming, LegsTo, Seam, SeamStyle};
use geometry::{Point, trig};
use units::Length;

use crate::{Fact, Making, Problem};

pub(crate) use facet::{Facet, Limit, sampled};
pub(crate) use lap::Lap;
pub(crate) use round::Kind;
pub use round::{RolledSizes, Round, RoundPlace, Straightedge};

/// Fewest strikes of a closed wrap.
pub(crate) const FEWEST_STRIKES: u32 = 6;

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
    /// How its two edges meet.
    pub seam: WrapSeam,
}

/// How the two edges of a wrap meet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WrapSeam {
    /// Edge to edge, the seam gap apart.
    Butt,
    /// One edge is joggled by a thickness and the seam gap, and lies over the other.
    Lap {
        /// How far it lies over the other, flat on flat.
        width: Length,
        /// True when it lies on the outside: the inside then stays even.
        outside: bool,
    },
}

/// Where a wrap's plate begins and ends, from the middle of the flat that its seam is in, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Ends {
    /// Half a gap to each side.
    Butt { half_gap_mm: f64 },
    /// Joggled and lapped.
    Lap(Lap),
}

impl Ends {
    /// How far outward what laps is set off, mm.
    pub(crate) fn lap_outward_mm(&self) -> f64 {
        match self {
            Self::Butt { .. } => 0.0,
            Self::Lap(lap) => lap.outward_mm(),
        }
    }
}

/// What a wrap's room for its seam goes by: at the strikes given, the flat that the seam is in, mm.
pub(crate) type SeamFlat<'a> = dyn Fn(u32) -> f64 + 'a;

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
    /// The strikes in use, and where the plate begins and ends. `flat` gives the width of the seam's flat between the
    /// tangent lines of the bends beside it, where it is narrowest. Of a lap the strikes go below the rule until it
    /// lies on one flat, unless their number is given.
    ///
    /// # Errors
    /// Too few or too many, a lap that finds no room, or a plate that cannot be bent so tight.
    pub(crate) fn strikes(
        &self,
        middle_radius_mm: f64,
        flat: &SeamFlat<'_>,
        making: &Making,
    ) -> Result<(u32, Ends), Vec<Problem>> {
        let mut problems = Vec::new();
        if let WrapSeam::Lap { width, .. } = self.seam {
            making.above_zero("seam.lap", width, &mut problems);
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
        let by_rule = strikes_by_rule(middle_radius_mm, thickness);
        if let Some(strikes) = self.strikes.filter(|of| !(FEWEST_STRIKES..=MOST_STRIKES).contains(of)) {
            let wrong = format!("a wrap takes {FEWEST_STRIKES} to {MOST_STRIKES} strikes");
            problems.push(Problem::new("strikes", strikes.to_string(), wrong, format!("{by_rule} would do")));
        }
        if !problems.is_empty() {
            return Err(problems);
        }
        let WrapSeam::Lap { width, outside } = self.seam else {
            let half_gap_mm = 0.5 * making.seam_gap.millimetres();
            return Ok((self.strikes.unwrap_or(by_rule), Ends::Butt { half_gap_mm }));
        };
        let most = self.strikes.unwrap_or(by_rule);
        let fits = |strikes: &u32| Lap::on(flat(*strikes), (width, outside), making).is_some();
        let found = if self.strikes.is_some() {
            Some(most).filter(fits)
        } else {
            (FEWEST_STRIKES..=most).rev().find(fits)
        };
        match found.and_then(|strikes| Some((strikes, Lap::on(flat(strikes), (width, outside), making)?))) {
            Some((strikes, lap)) => Ok((strikes, Ends::Lap(lap))),
            None => Err(vec![self.no_room_for_lap(width, most, flat, making)]),
        }
    }

    /// What to do about a lap that does not lie on one flat.
    fn no_room_for_lap(&self, width: Length, most: u32, flat: &SeamFlat<'_>, making: &Making) -> Problem {
        let wrong = "is more than lies on one flat beside its joggle";
        let room_mm = |strikes: u32| flat(strikes) - Lap::beside_mm(making);
        let fewer = (FEWEST_STRIKES..most).rev().find(|&strikes| width.millimetres() <= room_mm(strikes));
        let strikes = if self.strikes.is_some() { most } else { FEWEST_STRIKES };
        let with_fewer = fewer.map(|fewer| format!("strike it {fewer} times or fewer"));
        let narrower = making
            .has_room(room_mm(strikes))
            .then(|| format!("the widest is {} with {strikes} strikes", making.print_mm(room_mm(strikes))));
        let remedies: Vec<String> = narrower.into_iter().chain(with_fewer).collect();
        let remedy = match remedies.as_slice() {
            [] => "no lap fits: ask for \"butt\"".to_owned(),
            remedies => remedies.join(", or "),
        };
        Problem::new("seam.lap", making.print(width), wrong, remedy)
    }

    /// What the seam is, as a fact.
    pub(crate) fn seam_fact(&self, ends: &Ends, making: &Making) -> Fact {
        let words = match ends {
            Ends::Lap(lap) => {
                let first =
                    if self.rolled { "; only the joggle is set on the brake, before rolling" } else { "" };
                format!("{}{first}", lap.words(["the last edge", "the first"], making))
            }
            Ends::Butt { .. } => format!("butt, {} open", making.print(making.seam_gap)),
        };
        Fact::words("seam", words, "seam, seam gap")
    }

    /// How it is made, as a fact.
    pub(crate) fn way_fact(&self, strikes: u32, turn_rad: f64) -> Fact {
        let each = turn_rad * 180.0 / PI;
        let words = if self.rolled {
            format!("rolled; {strikes} element lines to sight along")
        } else {
            format!("bumped in {strikes} strikes of {each:.2}° each")
        };
        Fact::words("made", words, "made, strikes")
    }
}

/// Folds facets in a row, each bent off the one before by the same turn, away from the marked outside; a lapped wrap's
/// last two are the slant of its joggle and the strip.
pub(crate) fn fold(
    facets: &[Facet],
    (turn_rad, ends): (f64, &Ends),
    made: &WrapMaking,
    making: &Making,
) -> FoldedPart {
    let corners = making.corners();
    let mut part =
        FoldedPart::unbent(making.number.clone(), Vec::new(), corners.relief, corners.notch_width_mm);
    let round = match ends {
        Ends::Butt { .. } => facets.len(),
        Ends::Lap(_) => facets.len() - 2,
    };
    let way = if made.rolled { Forming::Rolled } else { Forming::Bumped(1) };
    for (number, facet) in facets.iter().enumerate() {
        let from = number.checked_sub(1).map_or(0.0, |before| facets[before].high_end().x_along);
        let mut edges = vec![Edge::Free; facet.corners.len()];
        if number > 0 {
            edges[0] = Edge::Parent;
        }
        if number + 1 < facets.len() {
            edges[facet.high_edge] = Edge::Bend(part.bends.len());
            let (turn_rad, direction, forming) = match ends {
                Ends::Lap(lap) if number + 1 == round => {
                    (lap.turn_rad, lap.first_direction(), Forming::Joggle(number + 1))
                }
                Ends::Lap(lap) if number == round => {
                    (lap.turn_rad, lap.first_direction().reversed(), Forming::Joggle(number - 1))
                }
                _ => (turn_rad, Direction::Down, way),
            };
            part.bends.push(Bend {
                parent: number,
                parent_edge: facet.high_edge,
                child: number + 1,
                turn_rad,
                direction,
                inside_radius_mm: making.number.inside_radius().millimetres(),
                legs_to: LegsTo::MoldLine,
                forming,
            });
        }
        let corners = facet.corners.iter().map(|&corner| Point::new(corner.x - from, corner.y)).collect();
        let name = match number.checked_sub(round) {
            None => format!("flat {}", number + 1),
            Some(0) => "slant of the joggle".to_owned(),
            Some(_) => "lapping edge".to_owned(),
        };
        part.faces.push(Face { name, corners, edges, holes: Vec::new(), rim: None });
    }
    part.seams.push(seam(facets, ends, making));
    part
}

/// The seam between the first facet and the last, which lie in one plane or on one another once bent.
fn seam(facets: &[Facet], ends: &Ends, making: &Making) -> Seam {
    let (last, end) = (facets.len() - 1, &facets[facets.len() - 1]);
    let count = end.corners.len();
    let (a, b) = (end.corners[end.high_edge], end.corners[(end.high_edge + 1) % count]);
    Seam {
        name: "seam".to_owned(),
        first: (0, 0),
        second: (last, end.high_edge),
        inside_angle_rad: PI,
        length_mm: a.distance(b),
        style: match ends {
            Ends::Butt { .. } => SeamStyle::Open,
            Ends::Lap(lap) => lap.style(),
        },
        gap_mm: making.seam_gap.millimetres(),
    }
}
