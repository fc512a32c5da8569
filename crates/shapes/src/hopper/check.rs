//! What can be wrong with the sizes of a hopper.

use geometry::trig;
use units::{Angle, Length};

use super::{Hopper, HopperMade, RimEdge};
use crate::plan::at_height;
use crate::shell::ShellPlate;
use crate::{Making, Problem, not_convex};

/// How nearly the way that a collar must move is found, mm: far under what it is rounded up to.
const MOVED_MM: f64 = 0.01;

/// Up to the next sixteenth of an inch.
fn up_to_sixteenths(millimetres: f64) -> Length {
    let step_mm = Length::from_sixty_fourths(4).millimetres();
    Length::from_millimetres((millimetres / step_mm).ceil() * step_mm)
}

impl Hopper {
    pub(super) fn check(&self, making: &Making) -> Result<(), Vec<Problem>> {
        let mut problems = Vec::new();
        making.above_zero("rise", self.rise, &mut problems);
        if let Some(height) = self.collar_height {
            making.above_zero("collar_height", height, &mut problems);
        }
        if let HopperMade::FourPlates { weld_flange: Some(width) } = self.made {
            making.above_zero("weld_flange", width, &mut problems);
        }
        self.check_rim_edge(making, &mut problems);
        for (field, figure) in [("rim", &self.rim), ("collar", &self.collar)] {
            if figure.count() != 4 {
                let wrong = format!("has {} corners, and a hopper is four-sided", figure.count());
                problems.push(Problem::new(
                    field,
                    "as given",
                    wrong,
                    "give four corners in order, once round",
                ));
            } else if let Some(fault) = not_convex(&figure.corners, &figure.names, making.style) {
                problems.push(Problem::new(field, "as given", fault.wrong, fault.remedy));
            }
        }
        if problems.is_empty() {
            self.check_slopes(making, &mut problems);
        }
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }

    fn check_rim_edge(&self, making: &Making, problems: &mut Vec<Problem>) {
        match self.rim_edge {
            RimEdge::None => {}
            RimEdge::Flange(width) => making.above_zero("rim_flange", width, problems),
            RimEdge::Drip { down, inward, up } => {
                for (number, size) in [down, inward, up].into_iter().enumerate() {
                    making.above_zero(&format!("drip[{number}]"), size, problems);
                }
                if up > down {
                    let wrong = format!("the lip would stand above the rim, {} down", making.print(down));
                    let remedy = format!("make it {} or less", making.print(down));
                    problems.push(Problem::new("drip[2]", making.print(up), wrong, remedy));
                }
            }
        }
    }

    /// Slope of every plate of face `side` from level, radians.
    pub(super) fn slopes_rad(&self, side: usize) -> Vec<f64> {
        let up = geometry::Vector3::new(0.0, 0.0, 1.0);
        let plates = self.face_plates(side);
        let slope = |corners: Vec<geometry::Point3>| {
            ShellPlate::new("", corners, fold::part::Side::Back).normal().angle_to(up)
        };
        std::iter::once(plates.rim).chain(plates.collar).map(slope).collect()
    }

    /// Level distance from the rim's side to the farther end of the collar's side, mm.
    pub(super) fn run_mm(&self, side: usize) -> f64 {
        let (a, b) = self.rim.side(side);
        let inward = (b - a).unit().left();
        let (c, d) = self.collar.side(side);
        (c - a).dot(inward).max((d - a).dot(inward))
    }

    fn check_slopes(&self, making: &Making, problems: &mut Vec<Problem>) {
        let Some(least) = self.least_slope else { return };
        for side in 0..self.rim.count() {
            let flattest = self.slopes_rad(side).into_iter().fold(f64::INFINITY, f64::min);
            if flattest < least.radians() {
                problems.push(self.too_flat(making, side, flattest, least));
            }
        }
    }

    /// How far the collar must move, or how much the rise must grow: every slope's tangent grows with the rise.
    fn too_flat(&self, making: &Making, side: usize, slope_rad: f64, least: Angle) -> Problem {
        let name = &self.rim.sides[side];
        let steep = trig::tan(least.radians());
        let wrong = format!(
            "the face slopes {:.2}° from level, under the {:.1}° asked for",
            slope_rad.to_degrees(),
            least.degrees()
        );
        let rise = making.print_mm(self.rise.millimetres() * steep / trig::tan(slope_rad));
        let remedy = if self.face_plates(side).collar.is_some() {
            let moved = self.moved_far_enough(side, least).map_or_else(String::new, |moved_mm| {
                format!("move the collar toward {name} by {}, or ", making.print(up_to_sixteenths(moved_mm)))
            });
            format!("{moved}make the rise {rise} or more")
        } else {
            let run_mm = self.run_mm(side);
            let most_run_mm = self.rise.millimetres() / steep;
            format!(
                "move the collar {} toward {name}, so that the face's run is {} at most (it is {}), or make the rise \
                 {rise} or more",
                making.print_mm(run_mm - most_run_mm),
                making.print_mm(most_run_mm),
                making.print_mm(run_mm),
            )
        };
        Problem::new("least_slope", format!("face {name}"), wrong, remedy)
    }

    /// How far the collar must move square toward a side for that face to be as steep as asked, mm; `None` where it does not get so
    /// steep before the collar is over that side, or another face is too flat then.
    fn moved_far_enough(&self, side: usize, least: Angle) -> Option<f64> {
        let (a, b) = self.rim.side(side);
        let outward = (b - a).unit().right();
        let is_steep = |hopper: &Self, side: usize| {
            hopper.slopes_rad(side).into_iter().all(|slope| least.radians() <= slope)
        };
        let moved = |moved_mm: f64| {
            let mut moved = self.clone();
            moved.collar.corners.iter_mut().for_each(|corner| *corner = *corner + outward * moved_mm);
            moved
        };
        let steep = |moved_mm: f64| is_steep(&moved(moved_mm), side);
        let (mut short, mut far) = (0.0, self.run_mm(side));
        if !steep(far) {
            return None;
        }
        while MOVED_MM < far - short {
            let middle = 0.5 * (short + far);
            if steep(middle) { far = middle } else { short = middle }
        }
        // What one face gains another may lose.
        let all = moved(up_to_sixteenths(far).millimetres());
        (0..self.rim.count()).all(|side| is_steep(&all, side)).then_some(far)
    }

    /// Corners of the rim and collar as places in space, for true lengths.
    pub(super) fn hip_mm(&self, corner: usize) -> f64 {
        let rim = at_height(self.rim.corners[corner], 0.0);
        rim.distance(at_height(self.collar.corners[corner], self.rise.millimetres()))
    }
}
