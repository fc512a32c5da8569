//! A cylinder wrapped of plate: a collar, a drain, a spout. Ends square to the axis, or on a slope where it stands on a
//! slanting flat face.
//!
//! The marked face is the outside. No metal stands past the plane of a sloped end: each place of the edge is cut square to
//! the plate where the nearer face of the plate meets the plane. Angles round the cylinder run from the seam.

use std::f64::consts::PI;

use geometry::{Point, Vector, trig};
use units::{Angle, Length};

use crate::wrap::{DiameterTo, Ends, Facet, Kind, Limit, Round, WrapMaking, fold, sampled};
use crate::{FaceSide, Fact, Making, Problem, Recipe, Shaped};

/// Steepest slope of an end, degrees from square.
const STEEPEST_DEGREES: f64 = 65.0;

/// A cylinder.
#[derive(Debug, Clone, PartialEq)]
pub struct Cylinder {
    /// Its diameter.
    pub diameter: Length,
    /// To what that is measured.
    pub to: DiameterTo,
    /// Along the axis.
    pub length: Length,
    /// Slopes of its lower and upper end; square where not given.
    pub ends: [Option<Slope>; 2],
    /// How it is made.
    pub made: WrapMaking,
}

/// An end cut on a slope.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Slope {
    /// From square to the axis.
    pub angle: Angle,
    /// Where the cylinder is longest, round from the seam.
    pub long_side: Angle,
}

/// The cylinder in millimetres.
struct Sizes {
    middle_mm: f64,
    girth_mm: f64,
    thickness_mm: f64,
    strikes: u32,
    seam: Ends,
    turn_rad: f64,
    allowance_mm: f64,
    deduction_mm: f64,
}

impl Recipe for Cylinder {
    fn word(&self) -> &'static str {
        "cylinder"
    }

    fn words(&self) -> &'static str {
        "cylinder"
    }

    fn natural_face(&self) -> Option<FaceSide> {
        Some(FaceSide::Outside)
    }

    fn tight_field(&self) -> &'static str {
        "diameter"
    }

    fn shape_piece(&self, _: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        self.shape(making)
    }

    fn round(&self, making: &Making) -> Option<Round> {
        let sizes = self.check(making).ok().filter(|_| self.made.rolled)?;
        let pitch = sizes.girth_mm / f64::from(sizes.strikes);
        let kind = Kind::Cylinder {
            middle_mm: sizes.middle_mm,
            // The first flat's own line of no height lies half a deduction before its bend line.
            seam_mm: 0.5 * (pitch + sizes.deduction_mm),
        };
        let lap_outward_mm = sizes.seam.lap_outward_mm();
        Some(Round { kind, thickness_mm: sizes.thickness_mm, lap_outward_mm, mirrored: false })
    }
}

impl Cylinder {
    /// Shapes the cylinder.
    ///
    /// # Errors
    /// Every [`Problem`]: sizes not above zero, too tight for the metal, slopes too steep or longer than the cylinder.
    pub fn shape(&self, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let sizes = self.check(making)?;
        let facets = self.facets(&sizes);
        let mut part = fold(&facets, (sizes.turn_rad, &sizes.seam), &self.made, making);
        part.wrapped_inside_mm = Some(sizes.middle_mm - 0.5 * sizes.thickness_mm);
        Ok(Shaped { part, facts: self.facts(&sizes, making) })
    }

    fn check(&self, making: &Making) -> Result<Sizes, Vec<Problem>> {
        let mut problems = Vec::new();
        making.above_zero("diameter", self.diameter, &mut problems);
        making.above_zero("length", self.length, &mut problems);
        for (slope, field) in self.ends.iter().zip(["lower_end", "upper_end"]) {
            let Some(slope) = slope else { continue };
            if !(slope.angle.degrees() > 0.0 && slope.angle.degrees() <= STEEPEST_DEGREES) {
                let wrong =
                    format!("a slope is more than 0 and up to {STEEPEST_DEGREES}° from square to the axis");
                let value = format!("{}°", slope.angle.degrees());
                problems.push(Problem::new(
                    format!("{field}.slope"),
                    value,
                    wrong,
                    "leave it out for a square end",
                ));
            }
        }
        if !problems.is_empty() {
            return Err(problems);
        }
        let thickness_mm = making.thickness_mm();
        let middle_mm = 0.5 * (self.diameter.millimetres() + self.to.to_middle_mm(thickness_mm));
        let girth_mm = 2.0 * PI * middle_mm;
        let flat_mm = |strikes: u32| {
            let count = f64::from(strikes);
            girth_mm / count - making.number.allowance_mm(2.0 * PI / count)
        };
        let (strikes, seam) = self.made.strikes(middle_mm, &flat_mm, making)?;
        let turn_rad = 2.0 * PI / f64::from(strikes);
        let sizes = Sizes {
            middle_mm,
            girth_mm,
            thickness_mm,
            strikes,
            seam,
            turn_rad,
            allowance_mm: making.number.allowance_mm(turn_rad),
            deduction_mm: making.number.deduction_mm(turn_rad),
        };
        let shortest = self.shortest_mm(&sizes);
        if shortest <= 0.0 {
            let least = making.print_mm(self.length.millimetres() - shortest);
            let remedy = format!("make it more than {least} along the axis, or slope the ends less");
            let value = making.print(self.length);
            return Err(vec![Problem::new("length", value, "its sloped ends meet", remedy)]);
        }
        Ok(sizes)
    }

    /// Height of an end over where the axis meets its plane, at `round_rad` from the seam, mm; inward below zero. The
    /// middle of the plate lies at `middle_mm`.
    fn end_mm(&self, end: usize, (round_rad, middle_mm): (f64, f64), thickness_mm: f64) -> f64 {
        let Some(slope) = &self.ends[end] else { return 0.0 };
        let half = 0.5 * thickness_mm;
        let outward = trig::cos(round_rad - slope.long_side.radians());
        let reach = ((middle_mm - half) * outward).min((middle_mm + half) * outward);
        trig::tan(slope.angle.radians()) * reach
    }

    /// Where the plate begins and ends along the axis at `round_rad`, mm.
    fn at(&self, round_rad: f64, sizes: &Sizes) -> [f64; 2] {
        self.at_radius((round_rad, sizes.middle_mm), sizes)
    }

    /// The same for the strip of a lap, whose middle lies elsewhere.
    fn at_radius(&self, place: (f64, f64), sizes: &Sizes) -> [f64; 2] {
        let long = self.length.millimetres();
        [-self.end_mm(0, place, sizes.thickness_mm), long + self.end_mm(1, place, sizes.thickness_mm)]
    }

    fn shortest_mm(&self, sizes: &Sizes) -> f64 {
        let stations = (0..=360).map(|degree| f64::from(degree) * PI / 180.0);
        let heights = stations.map(|round| {
            let [low, high] = self.at(round, sizes);
            high - low
        });
        heights.fold(f64::INFINITY, f64::min)
    }

    /// Part of a flat from the seam, whole flats, and part of a flat back to the seam; then what laps over it.
    fn facets(&self, sizes: &Sizes) -> Vec<Facet> {
        let pitch = sizes.girth_mm / f64::from(sizes.strikes);
        let along = Vector::new(1.0, 0.0);
        let mut facets = Vec::new();
        for number in 0..=sizes.strikes {
            let from = (f64::from(number) - 0.5) * pitch;
            // On the flat the mold line lies half a deduction before the bend line.
            let shift = 0.5 * sizes.deduction_mm - from;
            let mut next = Point::new(0.0, pitch + sizes.deduction_mm);
            let mut range = [from + 0.5 * sizes.allowance_mm, from + pitch - 0.5 * sizes.allowance_mm];
            let mut limits = [Limit::Bend(Point::default(), along), Limit::Bend(next, along)];
            if number == 0 {
                limits[0] = Limit::Seam;
                range[0] = match sizes.seam {
                    Ends::Butt { half_gap_mm } => half_gap_mm,
                    Ends::Lap(lap) => lap.start_mm,
                };
            } else if number == sizes.strikes {
                (range[1], limits[1]) = match sizes.seam {
                    Ends::Butt { half_gap_mm } => (sizes.girth_mm - half_gap_mm, Limit::Seam),
                    Ends::Lap(lap) => {
                        next = Point::new(0.0, sizes.girth_mm + lap.mold_mm + shift);
                        (sizes.girth_mm + lap.tangent_mm, Limit::Bend(next, along))
                    }
                };
            }
            let curve = |end: usize| {
                move |s: f64| Point::new(self.at(2.0 * PI * s / sizes.girth_mm, sizes)[end], s + shift)
            };
            let edges = [0, 1].map(|end| sampled(&curve(end), range, limits));
            facets.push(Facet::between(&edges[0], &edges[1], (next, along)));
        }
        if let (Ends::Lap(lap), Some(carrier)) = (&sizes.seam, facets.last()) {
            let middle_mm = sizes.middle_mm + lap.outward_mm();
            let at = |end: usize| {
                move |mm: f64| self.at_radius((2.0 * PI * mm / sizes.girth_mm, middle_mm), sizes)[end]
            };
            facets.extend(lap.facets(carrier, &[&at(0), &at(1)]));
        }
        facets
    }

    fn facts(&self, sizes: &Sizes, making: &Making) -> Vec<Fact> {
        let origin = "diameter, thickness; the mid-line keeps its length";
        let pitch = sizes.girth_mm / f64::from(sizes.strikes);
        let stations = || (0..=720).map(|half| self.at(f64::from(half) * PI / 360.0, sizes));
        let longest = stations().map(|[low, high]| high - low).fold(0.0, f64::max);
        let mut facts = vec![
            Fact::length_mm("girth on the mid-line", sizes.girth_mm, origin),
            Fact::length_mm("inside diameter", 2.0 * sizes.middle_mm - sizes.thickness_mm, origin),
            Fact::length_mm("outside diameter", 2.0 * sizes.middle_mm + sizes.thickness_mm, origin),
        ];
        if self.ends.iter().any(Option::is_some) {
            facts.push(Fact::length_mm("long side", longest, "length, slopes"));
            facts.push(Fact::length_mm("short side", self.shortest_mm(sizes), "length, slopes"));
        }
        facts.push(self.made.seam_fact(&sizes.seam, making));
        facts.push(self.made.way_fact(sizes.strikes, sizes.turn_rad));
        facts.push(match sizes.seam {
            Ends::Butt { half_gap_mm } => Fact::length_mm(
                "first line from the seam",
                0.5 * pitch - half_gap_mm,
                "half a pitch less half the gap",
            ),
            Ends::Lap(lap) => Fact::length_mm(
                "first line from the edge that is lapped",
                0.5 * pitch - lap.start_mm,
                "half a pitch, and where the lap lies on its flat",
            ),
        });
        facts.push(Fact::length_mm("line to line", pitch, "girth over the number of lines"));
        facts
    }
}
