//! What a shop reads off a hopper.

use fold::part::Side::Back;
use geometry::{Point3, tolerance, trig};

use super::{Hopper, HopperMade, HopperStands};
use crate::plan::at_height;
use crate::shell::ShellPlate;
use crate::{Fact, Making};

impl Hopper {
    pub(super) fn facts(&self, making: &Making) -> Vec<Fact> {
        let (way_up, corners) = (
            match self.stands {
                HopperStands::RimDown => "rim below, collar above",
                HopperStands::RimUp => "rim above, collar below",
            },
            self.rim.names.join(", "),
        );
        let words = format!("{way_up}; seen from above corners {corners} run counter-clockwise");
        let mut facts = vec![Fact::words("stands", words, "stands")];
        let rise_mm = self.rise.millimetres();
        for (side, name) in self.rim.sides.iter().enumerate() {
            let slopes = self.slopes_rad(side);
            if let [slope_rad] = slopes[..] {
                let run_mm = self.run_mm(side);
                let slant_mm = trig::hypot(run_mm, rise_mm);
                facts.push(Fact::length_mm(format!("run {name}, inside"), run_mm, "rim, collar"));
                facts.push(Fact::length_mm(format!("slant {name}, inside"), slant_mm, "√(run² + rise²)"));
                facts.push(Fact::angle_rad(format!("slope {name}"), slope_rad, "atan(rise / run)"));
            } else {
                facts.push(Fact::words(
                    format!("face {name}"),
                    self.warped_words(side, &slopes),
                    "rim, collar",
                ));
            }
        }
        for (corner, name) in self.rim.names.iter().enumerate() {
            let origin = "√(plan run of the corner² + rise²)";
            facts.push(Fact::length_mm(format!("hip {name}, inside"), self.hip_mm(corner), origin));
        }
        for (corner, name) in self.rim.names.iter().enumerate() {
            if let Some(inside_rad) = self.inside_at_hip_rad(corner) {
                let origin = "180° less the angle between the two plates' normals";
                facts.push(Fact::angle_rad(format!("inside angle at hip {name}"), inside_rad, origin));
            }
        }
        let area_mm2 = (0..self.rim.count()).map(|side| self.face_area_mm2(side)).sum();
        facts.push(Fact::area_mm2("the four faces, inside", area_mm2, "sum of the faces"));
        if let Some(least) = self.least_slope {
            let words = format!("no face is flatter than {:.1}°", least.degrees());
            facts.push(Fact::words("least slope", words, "least_slope"));
        }
        if let Some(height) = self.collar_height {
            let words = format!("{} high, plumb", making.print(height));
            facts.push(Fact::words("collar", words, "collar_height"));
        }
        if let HopperMade::FourPlates { weld_flange: Some(width) } = self.made {
            let words = format!(
                "{} wide on the hips of {} and {}, inside the other two faces, ending short of the hips' ends, clear of the \
                 bends there",
                making.print(width),
                self.rim.sides[0],
                self.rim.sides[2],
            );
            facts.push(Fact::words("weld flange", words, "weld_flange"));
        }
        facts
    }

    /// Angle inside between the two plates that meet at a hip, radians.
    fn inside_at_hip_rad(&self, corner: usize) -> Option<f64> {
        let count = self.rim.count();
        let before = (corner + count - 1) % count;
        let foot = at_height(self.rim.corners[corner], 0.0);
        let head = at_height(self.collar.corners[corner], self.rise.millimetres());
        let near = |p: &Point3, q: Point3| p.distance(q) <= tolerance::SAME_POINT_MM;
        let normal = |side: usize| {
            let plates = self.face_plates(side);
            let mut all = std::iter::once(plates.rim).chain(plates.collar);
            let at_hip = all.find(|corners| {
                corners.iter().any(|p| near(p, foot)) && corners.iter().any(|p| near(p, head))
            })?;
            Some(ShellPlate::new("", at_hip, Back).normal())
        };
        Some(std::f64::consts::PI - normal(before)?.angle_to(normal(corner)?))
    }

    /// A warped face: that it is two triangles, where its bend runs, and how far it turns.
    fn warped_words(&self, side: usize, slopes: &[f64]) -> String {
        let plates = self.face_plates(side);
        let normal = |corners: Vec<Point3>| ShellPlate::new("", corners, Back).normal();
        let first_corner_outward = plates.collar.as_ref().is_some_and(|collar| collar[0] == plates.rim[0]);
        let turn = plates.collar.map_or(0.0, |collar| normal(plates.rim).angle_to(normal(collar)));
        let count = self.rim.count();
        let (from, to) = if first_corner_outward { (side, side + 1) } else { (side + 1, side) };
        let slopes: Vec<String> = slopes.iter().map(|slope| format!("{:.2}°", slope.to_degrees())).collect();
        format!(
            "warped: its rim side and collar side are not parallel. Two triangles, bent {:.2}° along a line from the rim's \
             corner {} to the collar's corner {}; slopes {}",
            turn.to_degrees(),
            self.rim.names[from % count],
            self.collar.names[to % count],
            slopes.join(" and ")
        )
    }

    fn face_area_mm2(&self, side: usize) -> f64 {
        let plates = self.face_plates(side);
        std::iter::once(plates.rim).chain(plates.collar).map(|corners| area_mm2(&corners)).sum()
    }
}

/// How far a weld flange stops short of both ends of its hip: clear of the bends at rim and collar, and of its like in
/// the next corner, mm.
pub(super) fn short_of_ends_mm(width_mm: f64, making: &Making) -> f64 {
    making.number.inside_radius().millimetres() + 2.0 * making.thickness_mm() + width_mm
}

fn area_mm2(corners: &[Point3]) -> f64 {
    let first = corners[0];
    let halves = corners[1..].windows(2).map(|pair| (pair[0] - first).cross(pair[1] - first));
    halves.map(|cross| 0.5 * cross.length()).sum()
}
