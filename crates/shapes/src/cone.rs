//! A straight cone frustum wrapped of plate: a collar that tapers, a reducer, a spout.
//!
//! The flat is a sector of a ring. With slant S of the whole cone on the mid-line, the cut radii are S and S·d/D, and the
//! sector takes 360°·(D/2)/S (textbook development of the right cone). The marked face is the outside. Ends are cut square
//! to the plate, so diameters are measured at the edge; the height is that of the mid-line.

use std::f64::consts::PI;

use fold::part::MOST_SPRUNG_DEGREES;
use geometry::{Point, Vector, trig};
use units::Length;

use crate::nearest::{Tried, Way, larger};
use crate::wrap::{DiameterTo, Ends, FEWEST_STRIKES, Facet, Kind, Limit, Round, WrapMaking, fold, sampled};
use crate::{FaceSide, Fact, Making, Problem, Recipe, Shaped};

/// A cone frustum.
#[derive(Debug, Clone, PartialEq)]
pub struct Cone {
    /// Diameter of its large end.
    pub large: Length,
    /// Diameter of its small end.
    pub small: Length,
    /// To what both are measured.
    pub to: DiameterTo,
    /// From end to end along the axis.
    pub height: Length,
    /// How it is made.
    pub made: WrapMaking,
}

/// The cone in millimetres and radians.
#[derive(Debug, Clone, Copy)]
struct Sizes {
    /// Radius of the flat's outer arc: the slant of the whole cone.
    outer_mm: f64,
    /// Radius of the flat's inner arc.
    inner_mm: f64,
    /// Angle of the flat.
    sector_rad: f64,
    strikes: u32,
    seam: Ends,
    turn_rad: f64,
    allowance_mm: f64,
    deduction_mm: f64,
}

impl Recipe for Cone {
    fn word(&self) -> &'static str {
        "cone"
    }

    fn words(&self) -> &'static str {
        "cone"
    }

    fn natural_face(&self) -> Option<FaceSide> {
        Some(FaceSide::Outside)
    }

    fn tight_field(&self) -> &'static str {
        "small"
    }

    fn ways<'a>(&'a self, making: &'a Making) -> Vec<Way<'a>> {
        let higher = larger("height", (self.height, making), move |height| {
            (format!("a height of {}", making.print(height)), Box::new(Self { height, ..self.clone() }) as _)
        });
        let fewer = self.made.strikes.map(|from| {
            let at = move |steps: u32| {
                let strikes = from.checked_sub(steps).filter(|strikes| FEWEST_STRIKES <= *strikes)?;
                let made = WrapMaking { strikes: Some(strikes), ..self.made };
                let recipe = Box::new(Self { made, ..self.clone() });
                Some(Tried { words: format!("{strikes} strikes"), recipe, making: making.clone() })
            };
            Way { field: "height", at: Box::new(at) }
        });
        std::iter::once(higher).chain(fewer).collect()
    }

    fn shape_piece(&self, _: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        self.shape(making)
    }

    fn round(&self, making: &Making) -> Option<Round> {
        let sizes = self.check(making).ok().filter(|_| self.made.rolled)?;
        let kind = Kind::Cone {
            lean_rad: trig::asin(sizes.sector_rad / (2.0 * PI)),
            apex_mm: 0.5 * sizes.deduction_mm,
            seam_rad: 0.5 * sizes.share_rad(),
            slants_mm: [sizes.inner_mm, sizes.outer_mm],
        };
        let lap_outward_mm = sizes.seam.lap_outward_mm();
        Some(Round { kind, thickness_mm: making.thickness_mm(), lap_outward_mm, mirrored: false })
    }
}

impl Cone {
    /// Shapes the cone.
    ///
    /// # Errors
    /// Every [`Problem`]: sizes not above zero, ends alike, or a small end too tight for the metal.
    pub fn shape(&self, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let sizes = self.check(making)?;
        let mut part = fold(&sizes.facets(), (sizes.turn_rad, &sizes.seam), &self.made, making);
        part.wrapped_inside_mm = Some(self.tightest_mm(making));
        Ok(Shaped { part, facts: self.facts(&sizes, making) })
    }

    fn check(&self, making: &Making) -> Result<Sizes, Vec<Problem>> {
        let mut problems = Vec::new();
        for (field, size) in [("large", self.large), ("small", self.small), ("height", self.height)] {
            making.above_zero(field, size, &mut problems);
        }
        if self.large <= self.small {
            let value = format!("{} and {}", making.print(self.large), making.print(self.small));
            let remedy = "give the larger end as large; ends alike make a cylinder";
            problems.push(Problem::new("small", value, "is not less than the large end", remedy));
        }
        if !problems.is_empty() {
            return Err(problems);
        }
        let run = 0.5 * (self.large - self.small).millimetres();
        let lean = trig::atan2(run, self.height.millimetres());
        let shift = 0.5 * self.to.to_middle_mm(making.thickness_mm()) * trig::cos(lean);
        let [large, small] = [self.large, self.small].map(|size| 0.5 * size.millimetres() + shift);
        if small <= 0.5 * making.thickness_mm() {
            let wrong = "leaves nothing inside the small end";
            return Err(vec![Problem::new(
                "small",
                making.print(self.small),
                wrong,
                "make it larger, or take thinner plate",
            )]);
        }
        // The flats are narrowest where the lines of a lap, which run along the middle of one, leave the small end.
        let flat_mm = |strikes: u32| {
            let sector_rad = 2.0 * PI * trig::sin(lean);
            let half = 0.5 * sector_rad / f64::from(strikes);
            let allowance_mm = making.number.allowance_mm(turn(2.0 * half, strikes));
            2.0 * small / trig::sin(lean) * trig::sin(half) - allowance_mm / trig::cos(half)
        };
        let (strikes, seam) = self.made.strikes(small, &flat_mm, making)?;
        let sizes = Sizes::of((large, small), lean, (strikes, seam), making);
        if !self.made.rolled && sizes.turn_rad.to_degrees() < MOST_SPRUNG_DEGREES {
            let wrong = format!(
                "is so flat that {strikes} strikes turn it by {:.2}° each: a brake sets no less than {MOST_SPRUNG_DEGREES}°",
                sizes.turn_rad.to_degrees()
            );
            let remedy = "strike it fewer times, or make it higher";
            return Err(vec![Problem::new("height", making.print(self.height), wrong, remedy)]);
        }
        sizes.room(making)?;
        Ok(sizes)
    }

    /// Inside radius at the small end, square to the plate: the end's own radius over the cosine of the lean (Meusnier).
    fn tightest_mm(&self, making: &Making) -> f64 {
        let run = 0.5 * (self.large - self.small).millimetres();
        let cosine = trig::cos(trig::atan2(run, self.height.millimetres()));
        let thickness = making.thickness_mm();
        let shift = 0.5 * self.to.to_middle_mm(thickness) * cosine;
        (0.5 * self.small.millimetres() + shift) / cosine - 0.5 * thickness
    }

    fn facts(&self, sizes: &Sizes, making: &Making) -> Vec<Fact> {
        let origin = "large, small, height; the mid-line keeps its length";
        let share = sizes.sector_rad / f64::from(sizes.strikes);
        let chord = |radius: f64| 2.0 * radius * trig::sin(0.5 * share);
        vec![
            Fact::length_mm("slant of the whole cone", sizes.outer_mm, origin),
            Fact::length_mm("cut radius of the small end", sizes.inner_mm, origin),
            Fact::length_mm("slant of the frustum", sizes.outer_mm - sizes.inner_mm, origin),
            Fact::angle_rad("sector", sizes.sector_rad, "360° × radius of the large end / slant"),
            self.made.seam_fact(&sizes.seam, making),
            self.made.way_fact(sizes.strikes, sizes.turn_rad),
            Fact::length_mm(
                "line to line at the large end",
                chord(sizes.outer_mm),
                "chord; part of it on each side of the seam",
            ),
            Fact::length_mm(
                "line to line at the small end",
                chord(sizes.inner_mm),
                "chord; part of it on each side of the seam",
            ),
        ]
    }
}

impl Sizes {
    fn of((large, small): (f64, f64), lean: f64, (strikes, seam): (u32, Ends), making: &Making) -> Self {
        let sector_rad = 2.0 * PI * trig::sin(lean);
        let turn_rad = turn(sector_rad / f64::from(strikes), strikes);
        Self {
            outer_mm: large / trig::sin(lean),
            inner_mm: small / trig::sin(lean),
            sector_rad,
            strikes,
            seam,
            turn_rad,
            allowance_mm: making.number.allowance_mm(turn_rad),
            deduction_mm: making.number.deduction_mm(turn_rad),
        }
    }

    /// Angle of one flat between two lines.
    fn share_rad(&self) -> f64 {
        self.sector_rad / f64::from(self.strikes)
    }

    /// Between two strikes the small end must keep a flat.
    fn room(&self, making: &Making) -> Result<(), Vec<Problem>> {
        let pitch = 2.0 * self.inner_mm * trig::sin(0.5 * self.share_rad());
        if pitch > self.allowance_mm {
            return Ok(());
        }
        let wrong = format!(
            "at the small end the lines stand {} apart and each bend takes {}",
            making.print_mm(pitch),
            making.print_mm(self.allowance_mm)
        );
        Err(vec![Problem::new(
            "small",
            "as given",
            wrong,
            "make the small end larger, or take a smaller radius",
        )])
    }

    /// Part of a flat from the seam, whole flats, and part of a flat back to the seam; then what laps over it.
    fn facets(&self) -> Vec<Facet> {
        let mut facets: Vec<Facet> = (0..=self.strikes).map(|number| self.facet(number)).collect();
        if let (Ends::Lap(lap), Some(carrier)) = (&self.seam, facets.last()) {
            // The strip lies on the flat under it, so its ends are that flat's arcs.
            let arc = |radius: f64| move |mm: f64| (radius * radius - mm * mm).max(0.0).sqrt();
            facets.extend(lap.facets(carrier, &[&arc(self.inner_mm), &arc(self.outer_mm)]));
        }
        facets
    }

    /// One flat. Measured from the flat's apex: x along the first line, y across from half a deduction before it. Beside
    /// the seam it ends along lines that run as the middle of a flat does.
    fn facet(&self, number: u32) -> Facet {
        let share = self.share_rad();
        let apex = Point::new(0.0, 0.5 * self.deduction_mm);
        let (far, middle) = (Vector::at_angle(share), Vector::at_angle(0.5 * share));
        let mut next = (apex + far.left() * (0.5 * self.deduction_mm), far);
        let mut limits = [Limit::Bend(Point::default(), Vector::new(1.0, 0.0)), Limit::Bend(next.0, next.1)];
        // Angle at which each end begins, and how far off that line, mm.
        let half = 0.5 * self.allowance_mm;
        let mut range = [(0.0, half), (share, -half)];
        if number == 0 {
            limits[0] = Limit::Seam;
            range[0].0 = 0.5 * share;
            range[0].1 = match self.seam {
                Ends::Butt { half_gap_mm } => half_gap_mm,
                Ends::Lap(lap) => lap.start_mm,
            };
        } else if number == self.strikes {
            range[1].0 = 0.5 * share;
            (range[1].1, limits[1]) = match self.seam {
                Ends::Butt { half_gap_mm } => (-half_gap_mm, Limit::Seam),
                Ends::Lap(lap) => {
                    next = (apex + middle.left() * lap.mold_mm, middle);
                    (lap.tangent_mm, Limit::Bend(next.0, next.1))
                }
            };
        }
        let edge = |radius: f64| {
            let range = range.map(|(angle, off)| angle + trig::asin(off / radius));
            sampled(&|angle| apex + Vector::at_angle(angle) * radius, range, limits)
        };
        Facet::between(&edge(self.inner_mm), &edge(self.outer_mm), next)
    }
}

/// Turn at each edge of a pyramid of `count` equal faces whose angle at the apex is `face_rad`.
///
/// Source: spherical trigonometry of the regular pyramid: the edge leans from the axis by β with
/// sin β = sin(face/2)/sin(π/n), the middle of a face by δ with tan δ = tan β·cos(π/n), and two neighbouring normals make
/// cos φ = cos²δ·cos(2π/n) + sin²δ.
fn turn(face_rad: f64, count: u32) -> f64 {
    let each = PI / f64::from(count);
    let edge_lean = trig::asin(trig::sin(0.5 * face_rad) / trig::sin(each));
    let face_lean = trig::atan2(trig::tan(edge_lean) * trig::cos(each), 1.0);
    let (sine, cosine) = (trig::sin(face_lean), trig::cos(face_lean));
    trig::acos(cosine * cosine * trig::cos(2.0 * each) + sine * sine)
}
