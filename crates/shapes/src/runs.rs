//! A flat face with square flanges along an edge of straight runs, as round a deck or a bulkhead.
//!
//! Where two runs meet at a small angle, a flange cannot turn the corner in one piece. On a bulging edge the two
//! flanges stand apart in the flat and come together when folded: the metal between is notched out. In a hollow they
//! would lie over one another in the flat: a V is cut, and it opens when folded. Either way a slit as wide as the saw
//! makes it is left between the nearest edges; at a corner that bulges by more than 30° the seam gap stands in its place.

use fold::part::{Edge, Face, FoldedPart, Seam, SeamStyle};
use fold::{Bend, Direction, Forming, LegsTo};
use geometry::{Contour, Point, tolerance, trig};

use crate::Making;

/// Largest bulge at which two runs still belong to one edge and are parted by a slit; sharper corners are open corners
/// of the job's own seam gap. A hollow always takes the saw. Radians (30°).
const MOST_SLIT_RAD: f64 = std::f64::consts::FRAC_PI_6;

/// A flange along a run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct RunFlange {
    /// Outside leg, mm.
    pub(crate) leg_mm: f64,
    /// Up or down, seen from the face side.
    pub(crate) direction: Direction,
}

/// One straight run of the edge, from its corner to the next.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Run {
    /// What the shop calls it: "outboard 0–15".
    pub(crate) name: String,
    /// Its flange; none where the edge is only cut.
    pub(crate) flange: Option<RunFlange>,
    /// How far the flanges on both sides of its first corner stand back from it at least, mm.
    pub(crate) least_back_mm: f64,
}

/// A flat face and its runs.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Runs {
    /// What the shop calls the face: "deck".
    pub(crate) name: String,
    /// Corners on the mold lines, counter-clockwise; run i starts at corner i.
    pub(crate) corners: Vec<Point>,
    /// The runs.
    pub(crate) runs: Vec<Run>,
    /// Cut-outs in the face, clockwise.
    pub(crate) holes: Vec<Contour>,
    /// Width of a slit, mm.
    pub(crate) slit_mm: f64,
    /// Whether ends beside a run without a flange meet another piece there: a flange's square end then stands back from a
    /// sharp corner until all of its thickness is behind the next run's line.
    pub(crate) ends_meet: bool,
}

/// The cut between the flanges of two runs that meet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Cut {
    /// Change of direction, radians: above 0 where the edge bulges, below where it is hollow.
    pub(crate) turn_rad: f64,
    /// How far each flange stands back from the corner along its own mold line, mm.
    pub(crate) back_mm: f64,
    /// Distance between the two flanges at the mold line in the flat, mm.
    pub(crate) at_bend_mm: f64,
    /// The same at their far edges in the flat, mm.
    pub(crate) at_edge_mm: f64,
    /// Distance between their nearest edges when folded, mm.
    pub(crate) folded_mm: f64,
}

impl Cut {
    /// True where the corner is too sharp for a slit, and the job's seam gap stands in its place.
    pub(crate) fn is_corner(&self) -> bool {
        MOST_SLIT_RAD < self.turn_rad
    }

    /// What it is called between two flanges: a slit, or where the edge turns far, either way, an open corner.
    fn word(&self) -> &'static str {
        if MOST_SLIT_RAD < self.turn_rad.abs() { "open corner" } else { "slit" }
    }

    /// "; an open corner: bulging by 90.00°, more than 30°, it has the seam gap of .000 in place of the slit"; empty at a
    /// slit.
    pub(crate) fn corner_words(&self, making: &Making) -> String {
        if !self.is_corner() {
            return String::new();
        }
        let degrees = |radians: f64| units::Angle::from_radians(radians).degrees();
        format!(
            "; an open corner: bulging by {:.2}°, more than {:.0}°, it has the seam gap of {} in place of the slit",
            degrees(self.turn_rad),
            degrees(MOST_SLIT_RAD),
            making.print_mm(self.folded_mm)
        )
    }
}

/// A run whose flange has no length left: which, and what its ends take, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct NoRoom {
    /// The run.
    pub(crate) run: usize,
    /// What the cuts at its ends take together, mm.
    pub(crate) taken_mm: f64,
}

impl Runs {
    fn count(&self) -> usize {
        self.corners.len()
    }

    fn side(&self, run: usize) -> (Point, Point) {
        (self.corners[run], self.corners[(run + 1) % self.count()])
    }

    /// Change of direction at the start of `run`, radians.
    fn turn_rad(&self, run: usize) -> f64 {
        let count = self.count();
        let ((a, b), (c, d)) = (self.side((run + count - 1) % count), self.side(run));
        let (before, after) = (b - a, d - c);
        trig::atan2(before.cross(after), before.dot(after))
    }

    /// The cut at the start of `run`; `None` where not both runs have a flange bent the same way.
    ///
    /// Bulging, by δ: the inside edges come together, so each flange stands back T·tan(δ/2) and half the gap; hollow:
    /// the outside edges are the nearest, and the far edges must not meet in the flat, h = leg − deduction beyond the
    /// mold line, which takes h·tan(δ/2) and half the slit. Source: plane geometry of two square-cut plates.
    pub(crate) fn cut(&self, run: usize, making: &Making) -> Option<Cut> {
        let count = self.count();
        let (first, second) = (self.runs[(run + count - 1) % count].flange?, self.runs[run].flange?);
        if first.direction != second.direction {
            return None;
        }
        let turn_rad = self.turn_rad(run);
        let half = 0.5 * turn_rad.abs();
        let (sine, cosine) = (trig::sin(half), trig::cos(half));
        let slit = if MOST_SLIT_RAD < turn_rad { making.corners().gap_mm } else { self.slit_mm };
        let height = first.leg_mm.max(second.leg_mm) - making.number.deduction_mm(0.5 * std::f64::consts::PI);
        let bulging = turn_rad > 0.0;
        let back_mm = if bulging {
            (making.thickness_mm() * sine + 0.5 * slit) / cosine
        } else {
            (height * sine + 0.5 * slit) / cosine
        };
        let back_mm = back_mm.max(self.runs[run].least_back_mm);
        let at_bend_mm = 2.0 * back_mm * cosine;
        let opening = 2.0 * height * sine;
        Some(Cut {
            turn_rad,
            back_mm,
            at_bend_mm,
            at_edge_mm: if bulging { at_bend_mm + opening } else { at_bend_mm - opening },
            folded_mm: if bulging { at_bend_mm - 2.0 * making.thickness_mm() * sine } else { at_bend_mm },
        })
    }

    /// Builds the folded part.
    ///
    /// # Errors
    /// [`NoRoom`] for the first run whose flange has no length left.
    pub(crate) fn build(&self, making: &Making) -> Result<FoldedPart, NoRoom> {
        let corners = making.corners();
        let base = Face {
            name: self.name.clone(),
            corners: self.corners.clone(),
            edges: vec![Edge::Free; self.count()],
            holes: self.holes.clone(),
            rim: None,
        };
        let mut part =
            FoldedPart::unbent(making.number.clone(), vec![base], corners.relief, corners.notch_width_mm);
        let mut faces = vec![None; self.count()];
        for (run, face) in faces.iter_mut().enumerate() {
            let Some(flange) = self.runs[run].flange else { continue };
            *face = Some(part.faces.len());
            self.add(&mut part, run, flange, making)?;
        }
        part.seams = self.seams(&faces, making);
        Ok(part)
    }

    /// How far a flange stands back from the corner at the start of `run`, where the run before or behind it has none, mm:
    /// at an angle α inside below 90° the inner edge of its square end lies T·cot α beyond the other run's line.
    fn behind_mm(&self, run: usize, making: &Making) -> f64 {
        let past_square = self.turn_rad(run) - 0.5 * std::f64::consts::PI;
        if self.ends_meet && 0.0 < past_square { making.thickness_mm() * trig::tan(past_square) } else { 0.0 }
    }

    fn add(
        &self,
        part: &mut FoldedPart,
        run: usize,
        flange: RunFlange,
        making: &Making,
    ) -> Result<(), NoRoom> {
        let (a, b) = self.side(run);
        let length = a.distance(b);
        let back =
            |at: usize| self.cut(at, making).map_or_else(|| self.behind_mm(at, making), |cut| cut.back_mm);
        let (start, end) = (back(run), back((run + 1) % self.count()));
        if length - start - end <= tolerance::SAME_POINT_MM {
            return Err(NoRoom { run, taken_mm: start + end });
        }
        // A child's x runs back along its parent's edge.
        let (low, high, leg) = (end, length - start, flange.leg_mm);
        let child = part.faces.len();
        part.faces[0].edges[run] = Edge::Bend(part.bends.len());
        part.bends.push(Bend {
            parent: 0,
            parent_edge: run,
            child,
            turn_rad: 0.5 * std::f64::consts::PI,
            direction: flange.direction,
            inside_radius_mm: making.number.inside_radius().millimetres(),
            legs_to: LegsTo::MoldLine,
            forming: Forming::Brake,
        });
        part.faces.push(Face {
            name: format!("flange {}", self.runs[run].name),
            corners: [(low, 0.0), (high, 0.0), (high, leg), (low, leg)]
                .map(|(x, y)| Point::new(x, y))
                .to_vec(),
            edges: vec![Edge::Parent, Edge::Free, Edge::Free, Edge::Free],
            holes: Vec::new(),
            rim: None,
        });
        Ok(())
    }

    fn seams(&self, faces: &[Option<usize>], making: &Making) -> Vec<Seam> {
        let count = self.count();
        let seam = |run: usize| {
            let before = (run + count - 1) % count;
            let cut = self.cut(run, making)?;
            let leg = |at: usize| self.runs[at].flange.map(|flange| flange.leg_mm);
            Some(Seam {
                name: format!(
                    "{} between {} and {}",
                    cut.word(),
                    self.runs[before].name,
                    self.runs[run].name
                ),
                first: (faces[before]?, 3),
                second: (faces[run]?, 1),
                inside_angle_rad: std::f64::consts::PI - cut.turn_rad,
                length_mm: leg(before)?.min(leg(run)?),
                style: SeamStyle::Open,
                gap_mm: cut.folded_mm,
            })
        };
        (0..count).filter_map(seam).collect()
    }
}
