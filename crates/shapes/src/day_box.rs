//! A box let into a face: back panel, four walls, rim round the face. The back may slope (unlike depths at top and
//! bottom) and so may the bottom (the back lower or higher than the face). Ends are plumb and square to the face.
//! Sizes are to the outside; depths run from the front of the rim. The marked face is the inside.
//!
//! Corners of the back, seen from the face: A lower left, B lower right, C upper right, D upper left; so side AB is
//! the bottom, BC the right end, CD the top, DA the left end.

mod set;

use std::f64::consts::PI;

use fold::Direction::{Down, Up};
use fold::Side;
use fold::part::{Measure, Size};
use geometry::{Plane, Point, Point3, Vector, Vector3, tolerance};
use units::Length;

use crate::making::ring_problem;
use crate::pan::Rim;
use crate::ring::{Band, Built, Ring, RingSide, cut_to};
use crate::{FaceSide, Fact, Figure, Making, Problem, Recipe, Shaped};

pub use set::{BackCut, CutCorner, CutStyle, SetBox};

/// Flattest bend between two walls that is still taken for one, radians (15° from closed).
const MOST_TURN_RAD: f64 = 165.0 / 180.0 * PI;

/// A day box.
#[derive(Debug, Clone, PartialEq)]
pub struct DayBox {
    /// Between the outsides of the ends.
    pub width: Length,
    /// Of the walls at the face, outside.
    pub height: Length,
    /// From the front of the rim to the back's outside along the top.
    pub depth_top: Length,
    /// Square to the face, from the front of the rim to the lower corner of the back's outside, wherever the slope of the
    /// bottom has taken that.
    pub depth_bottom: Length,
    /// Height of the back, outside, down from the level top; unlike the face's height, the bottom slopes.
    pub back_height: Length,
    /// Rim round the face.
    pub rim: Rim,
}

/// The box cut through from front to back: depth into the face along x, height along y, mm.
struct Section {
    /// Lower and upper end of the back, outside.
    back: [Point; 2],
    /// Lower and upper edge at the face, outside.
    face: [Point; 2],
}

impl Recipe for DayBox {
    fn word(&self) -> &'static str {
        "day_box"
    }

    fn words(&self) -> &'static str {
        "day box"
    }

    fn natural_face(&self) -> Option<FaceSide> {
        Some(FaceSide::Inside)
    }

    fn tight_field(&self) -> &'static str {
        "rim"
    }

    fn field_of_face(&self, face: &str) -> &'static str {
        match face.split(' ').next() {
            Some("bottom") => "depth_bottom",
            Some("top" | "end") => "depth_top",
            Some("back") => "width",
            _ => self.tight_field(),
        }
    }

    fn shape_piece(&self, _: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        self.shape(making)
    }
}

impl DayBox {
    /// Shapes the box.
    ///
    /// # Errors
    /// Every [`Problem`]: sizes not above zero, slopes that close the box.
    pub fn shape(&self, making: &Making) -> Result<Shaped, Vec<Problem>> {
        self.check(making)?;
        let section = self.section();
        let width = self.width.millimetres();
        let back_mm = section.back[0].distance(section.back[1]);
        let none = || {
            vec![Problem::new(
                "back_height",
                making.print(self.back_height),
                "leaves no back",
                "make it larger",
            )]
        };
        let back = Figure::rectangle(width, back_mm).ok_or_else(none)?;
        let ring = Ring {
            name: "back".to_owned(),
            corners: back.corners.clone(),
            corner_names: back.names.clone(),
            sides: self.sides(&section, making.thickness_mm()),
            holes: Vec::new(),
            number: making.number.clone(),
            making: making.corners(),
        };
        let mut built = ring.build().map_err(|error| vec![ring_problem(&error, "depth_top", making)])?;
        let steep = built.part.bends.iter().any(|bend| bend.turn_rad > MOST_TURN_RAD);
        if steep {
            let wrong = "the slopes of back and bottom nearly close upon one another";
            return Err(vec![Problem::new(
                "depth_bottom",
                making.print(self.depth_bottom),
                wrong,
                "lessen the slope",
            )]);
        }
        built.part.sizes = self.sizes(&section, &built);
        let facts = self.facts(&section, &built);
        Ok(Shaped { part: built.part, facts })
    }

    fn check(&self, making: &Making) -> Result<(), Vec<Problem>> {
        let mut problems = Vec::new();
        for (field, length) in [
            ("width", self.width),
            ("height", self.height),
            ("depth_top", self.depth_top),
            ("depth_bottom", self.depth_bottom),
            ("back_height", self.back_height),
        ] {
            making.above_zero(field, length, &mut problems);
        }
        if let Rim::Out(width) | Rim::In(width) = self.rim {
            making.above_zero("rim", width, &mut problems);
        }
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }

    fn section(&self) -> Section {
        let (height, back_height) = (self.height.millimetres(), self.back_height.millimetres());
        let (top, bottom) = (self.depth_top.millimetres(), self.depth_bottom.millimetres());
        Section {
            back: [Point::new(bottom, height - back_height), Point::new(top, height)],
            face: [Point::new(0.0, 0.0), Point::new(0.0, height)],
        }
    }

    /// Plates of the four sides, in the coordinates of the back: x to the right, y up the back, z to the face.
    fn sides(&self, section: &Section, thickness_mm: f64) -> Vec<RingSide> {
        let place = |point: Point, x: f64| section.place(point, x);
        let width = self.width.millimetres();
        let right = Vector3::new(1.0, 0.0, 0.0);
        let bottom = (section.face[0] - section.back[0]).unit();
        let top = (section.face[1] - section.back[1]).unit();
        let toward_face = section.direct(Vector::new(-1.0, 0.0));
        let wall = |name: &str, point: Point3, inward: Vector3| Band {
            name: name.to_owned(),
            plane: Plane::through(point, inward),
            direction: Up,
        };
        let inward_of_bottom = section.direct(bottom.right());
        let inward_of_top = section.direct(top.left());
        let (low, high) = (place(section.face[0], 0.0), place(section.face[1], 0.0));
        let plates = [
            (wall("bottom AB", low, inward_of_bottom), -inward_of_bottom, low, "rim AB"),
            (
                wall("end BC", place(section.back[0], width), -right),
                right,
                place(section.face[0], width),
                "rim BC",
            ),
            (wall("top CD", high, inward_of_top), -inward_of_top, high, "rim CD"),
            (wall("end DA", place(section.back[0], 0.0), right), -right, low, "rim DA"),
        ];
        let side = |(wall, outward, edge, rim_name): (Band, Vector3, Point3, &str)| {
            let in_face = outward + toward_face * -outward.dot(toward_face);
            self.with_rim(wall, in_face.unit(), edge, toward_face, (rim_name, thickness_mm))
        };
        plates.into_iter().map(side).collect()
    }

    /// A wall with its rim. `outward` lies in the face, away from the box; `edge` is on the wall's outside in the
    /// plane of the face.
    fn with_rim(
        &self,
        wall: Band,
        outward: Vector3,
        edge: Point3,
        toward_face: Vector3,
        (name, thickness_mm): (&str, f64),
    ) -> RingSide {
        let wall_plane = wall.plane;
        let mut bands = vec![wall];
        let rim = |plane, direction| Band { name: name.to_owned(), plane, direction };
        let cut = match self.rim {
            Rim::None => cut_to(Plane::through(edge, toward_face), wall_plane, thickness_mm),
            Rim::Out(width) => {
                bands.push(rim(Plane::through(edge + toward_face * -thickness_mm, toward_face), Down));
                Plane::through(edge + outward * width.millimetres(), outward)
            }
            Rim::In(width) => {
                bands.push(rim(Plane::through(edge, -toward_face), Up));
                Plane::through(edge + outward * -width.millimetres(), outward)
            }
        };
        RingSide { bands, cut: Some(cut), short_mm: [0.0, 0.0], bare_inside_mm: 0.0, limits: Vec::new() }
    }

    fn sizes(&self, section: &Section, built: &Built) -> Vec<Size> {
        let back = |side: usize| (built.faces[side][0], Side::Back);
        let mut sizes = vec![
            Size {
                name: "width, outside".to_owned(),
                measure: Measure::Planes(back(1), back(3)),
                expected_mm: self.width.millimetres(),
            },
            Size {
                name: "back along its slope, outside".to_owned(),
                measure: Measure::Corners(
                    [(0, Side::Back), back(0), back(1)],
                    [(0, Side::Back), back(1), back(2)],
                ),
                expected_mm: section.back[0].distance(section.back[1]),
            },
        ];
        let front = match self.rim {
            Rim::None => return sizes,
            Rim::Out(_) => (built.faces[0][1], Side::Face),
            Rim::In(_) => (built.faces[0][1], Side::Back),
        };
        for (name, wall, end) in [("bottom", 0, 0), ("top", 2, 1)] {
            sizes.push(Size {
                name: format!("{name} from the front of the rim to the back, outside"),
                measure: Measure::Corners(
                    [(0, Side::Back), back(1), back(wall)],
                    [front, back(1), back(wall)],
                ),
                expected_mm: section.back[end].distance(section.face[end]),
            });
        }
        sizes
    }

    fn facts(&self, section: &Section, built: &Built) -> Vec<Fact> {
        let mut facts = vec![
            Fact::length_mm(
                "back along its slope, outside",
                section.back[0].distance(section.back[1]),
                "√(back_height² + run of the back²)",
            ),
            Fact::length_mm(
                "bottom, outside",
                section.back[0].distance(section.face[0]),
                "√(depth² + rise of the bottom²)",
            ),
            Fact::length_mm("top, outside", section.back[1].distance(section.face[1]), "depth_top"),
            Fact::length_mm(
                "depth at the lower corner of the back, square to the face",
                section.back[0].x,
                "depth_bottom",
            ),
        ];
        if let Some(depth_mm) = section.level_depth_mm() {
            let origin = "slope of the back, run on or cut short at the level of the face's lower edge";
            facts.push(Fact::length_mm("depth at the level of the face's lower edge", depth_mm, origin));
        }
        for bend in &built.part.bends {
            let name = format!(
                "turn {} to {}",
                built.part.faces[bend.parent].name, built.part.faces[bend.child].name
            );
            facts.push(Fact::angle_rad(name, bend.turn_rad, "angle between the two plates' normals"));
        }
        facts
    }
}

impl Section {
    /// Depth to the line of the back at the level of the face's lower edge, mm, where the back's own corner is higher or
    /// lower.
    fn level_depth_mm(&self) -> Option<f64> {
        let [low, high] = self.back;
        let off = (low.y - self.face[0].y).abs() > tolerance::SAME_POINT_MM;
        off.then(|| low.x + (high.x - low.x) * (self.face[0].y - low.y) / (high.y - low.y))
    }

    /// Unit vector up the back, in the section.
    fn up_the_back(&self) -> Vector {
        (self.back[1] - self.back[0]).unit()
    }

    /// A section direction in the coordinates of the back.
    fn direct(&self, vector: Vector) -> Vector3 {
        let up = self.up_the_back();
        Vector3::new(0.0, vector.dot(up), vector.dot(up.left()))
    }

    /// A section point at `x` along the width, in the coordinates of the back.
    fn place(&self, point: Point, x_mm: f64) -> Point3 {
        Point3::new(x_mm, 0.0, 0.0) + self.direct(point - self.back[0])
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use geometry::trig;

    #[test]
    fn the_face_lies_on_the_inside_of_the_back() {
        let section = Section {
            back: [Point::new(10.0, 0.0), Point::new(8.0, 6.0)],
            face: [Point::new(0.0, 0.0), Point::new(0.0, 6.0)],
        };
        assert!(section.place(section.face[0], 0.0).z > 0.0);
        let lean = trig::atan2(2.0, 6.0);
        let expected = 10.0 * trig::cos(lean);
        assert!((section.place(section.face[0], 0.0).z - expected).abs() < tolerance::SAME_POINT_MM);
    }
}
