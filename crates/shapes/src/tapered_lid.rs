//! A lid that tapers up on all sides: flat top, each side with its own inset and so its own slope, skirt down all
//! round, optional return. Sizes are to the outside of the metal.

mod edged;
mod facts;
mod made_up;
mod plates;
mod ridge;
mod split;
mod treated;

use fold::Side;
use fold::part::{FacePlane, Measure, Size};
use geometry::{Plane, Point3, Vector3, trig};
use units::Length;

use crate::making::ring_problem;
use crate::nearest::{Way, larger, smaller};
use crate::ring::{Band, Built, Ring, RingSide};
use crate::{FaceSide, Fact, Figure, Making, Problem, Recipe, Shaped, not_convex};
use fold::Direction::Down;

pub use edged::EdgedLid;
pub use made_up::{Hinge, LidMade, LiftingNotch, MadeUpLid, Seat, Split};

/// A tapered lid over an opening.
#[derive(Debug, Clone, PartialEq)]
pub struct TaperedLid {
    /// The opening, any convex figure.
    pub over: Figure,
    /// How far the outside of the skirt stands outside the opening, all round.
    pub outset: Length,
    /// From the rim's mold line (slope meets skirt) up to the top, outside.
    pub rise: Length,
    /// For each side of the opening, in its order: how far in from the rim the top begins, in plan.
    pub inset: Vec<Length>,
    /// From the rim's mold line down to the edge of the skirt, outside.
    pub skirt: Length,
    /// Lip turned inward at the foot of the skirt, from the outside of the skirt to its edge.
    pub return_width: Option<Length>,
}

impl TaperedLid {
    /// The sizes of a lid that may be moved, each lid taken into its own recipe by `with`.
    fn movable<'a>(
        &'a self,
        making: &'a Making,
        with: impl Fn(Self) -> Box<dyn Recipe> + Copy + 'a,
    ) -> Vec<Way<'a>> {
        let print = move |what: &str, size: Length| format!("a {what} of {}", making.print(size));
        let mut ways = Vec::new();
        if let Some(width) = self.return_width {
            ways.push(smaller("return", (width, making), move |size| {
                (print("return", size), with(Self { return_width: Some(size), ..self.clone() }))
            }));
        }
        ways.push(smaller("skirt", (self.skirt, making), move |skirt| {
            (print("skirt", skirt), with(Self { skirt, ..self.clone() }))
        }));
        if let Some(least) = self.inset.iter().min().copied() {
            ways.push(larger("inset", (least, making), move |least| {
                let inset = self.inset.iter().map(|&inset| inset.max(least)).collect();
                let words = format!("insets of {} at least", making.print(least));
                (words, with(Self { inset, ..self.clone() }))
            }));
        }
        ways.push(smaller("rise", (self.rise, making), move |rise| {
            (print("rise", rise), with(Self { rise, ..self.clone() }))
        }));
        ways
    }
}

impl Recipe for TaperedLid {
    fn word(&self) -> &'static str {
        "tapered_lid"
    }

    fn words(&self) -> &'static str {
        "tapered lid"
    }

    fn natural_face(&self) -> Option<FaceSide> {
        Some(FaceSide::Outside)
    }

    fn tight_field(&self) -> &'static str {
        "skirt"
    }

    fn is_lid(&self) -> bool {
        true
    }

    fn boxed(&self) -> Option<Box<dyn Recipe>> {
        Some(Box::new(self.clone()))
    }

    fn ways<'a>(&'a self, making: &'a Making) -> Vec<Way<'a>> {
        self.movable(making, |lid| Box::new(lid))
    }

    fn shape_piece(&self, _: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        self.shape(making)
    }
}

impl TaperedLid {
    /// Shapes the lid.
    ///
    /// # Errors
    /// Every [`Problem`]: sizes not above zero, insets that meet, an opening that is not convex.
    pub fn shape(&self, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let (_, mut built, facts) = self.built(making)?;
        let (rim, _) = self.plan(making)?;
        built.part.sizes.extend(self.skirt_depths(&rim, &built));
        Ok(Shaped { part: built.part, facts })
    }

    /// The ring of plates, as designed and as built, and what is known of it.
    fn built(&self, making: &Making) -> Result<(Ring, Built, Vec<Fact>), Vec<Problem>> {
        self.check(making)?;
        let (rim, top) = self.plan(making)?;
        let thickness = making.thickness_mm();
        let count = rim.count();
        let ring = Ring {
            name: "top".to_owned(),
            corners: top.corners.clone(),
            corner_names: top.names.clone(),
            sides: (0..count).map(|side| self.side(&rim, &top, side, thickness)).collect(),
            holes: Vec::new(),
            number: making.number.clone(),
            making: making.corners(),
        };
        let mut built = ring.build().map_err(|error| vec![ring_problem(&error, "inset", making)])?;
        built.part.sizes = self.sizes(&rim, &top, &built);
        let facts = self.facts(&rim, &top, &built);
        Ok((ring, built, facts))
    }

    fn check(&self, making: &Making) -> Result<(), Vec<Problem>> {
        let mut problems = Vec::new();
        self.check_sizes(making, &mut problems);
        for (inset, side) in self.inset.iter().zip(&self.over.sides) {
            making.above_zero(&format!("inset.{side}"), *inset, &mut problems);
        }
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }

    /// All but the insets.
    fn check_sizes(&self, making: &Making, problems: &mut Vec<Problem>) {
        making.above_zero("rise", self.rise, problems);
        making.above_zero("skirt", self.skirt, problems);
        if let Some(width) = self.return_width {
            making.above_zero("return", width, problems);
        }
        if let Some(fault) = not_convex(&self.over.corners, &self.over.names, making.style) {
            let wrong = format!("{}; sloping sides cannot close over it", fault.wrong);
            problems.push(Problem::new("over", "the opening", wrong, fault.remedy));
        }
    }

    /// Plan of the rim's mold line and of the top's, both outside.
    fn plan(&self, making: &Making) -> Result<(Figure, Figure), Vec<Problem>> {
        let closed = |field: &str, value: String, wrong: &str, remedy: &str| {
            vec![Problem::new(field, value, wrong, remedy)]
        };
        let rim = self.over.grown(self.outset.millimetres()).ok_or_else(|| {
            let value = making.print(self.outset);
            closed("outset", value, "leaves no rim", "make it larger or leave it at zero")
        })?;
        let insets: Vec<f64> = self.inset.iter().map(|inset| -inset.millimetres()).collect();
        let meets = || vec![ridge::meets_problem(&rim, &self.inset, self.rise, making)];
        let top = rim.moved(&insets).ok_or_else(meets)?;
        Ok((rim, top))
    }

    /// The plates of one side. The back of the top is z = 0, so its outside is z = T.
    fn side(&self, rim: &Figure, top: &Figure, side: usize, thickness_mm: f64) -> RingSide {
        let (a, b) = rim.side(side);
        let along = (b - a).unit();
        let flat = |v: geometry::Vector| Vector3::new(v.x, v.y, 0.0);
        let (along, outward) = (flat(along), flat(along.right()));
        let up = Vector3::new(0.0, 0.0, 1.0);
        let rim_z = thickness_mm - self.rise.millimetres();
        let at_rim = Point3::new(a.x, a.y, rim_z);
        let at_top = Point3::new(top.side(side).0.x, top.side(side).0.y, thickness_mm);
        let slope = along.cross(at_top - at_rim);
        let back = |point: Point3, outside: Vector3| Plane::through(point, outside).moved(-thickness_mm);
        let band = |what: &str, plane: Plane| Band {
            name: format!("{what} {}", rim.sides[side]),
            plane,
            direction: Down,
        };
        let mut bands = vec![band("slope", back(at_rim, slope)), band("skirt", back(at_rim, outward))];
        let foot = at_rim + up * -self.skirt.millimetres();
        let mut cut = Plane::through(foot, -up);
        if let Some(width) = self.return_width {
            bands.push(band("return", back(foot, -up)));
            cut = Plane::through(foot + outward * -width.millimetres(), -outward);
        }
        RingSide { bands, cut: Some(cut), short_mm: [0.0, 0.0], bare_inside_mm: 0.0, limits: Vec::new() }
    }

    /// Mold-line lengths of the top and the rim, and the hips, all outside.
    fn sizes(&self, rim: &Figure, top: &Figure, built: &Built) -> Vec<Size> {
        let count = rim.count();
        let face = |number: usize| -> FacePlane { (number, Side::Face) };
        let slope = |side: usize| face(built.faces[side % count][0]);
        let skirt = |side: usize| face(built.faces[side % count][1]);
        let mut sizes = Vec::new();
        for side in 0..count {
            let (before, next) = (side + count - 1, side + 1);
            let name = &rim.sides[side];
            sizes.push(Size {
                name: format!("top {name}, outside"),
                measure: Measure::Corners(
                    [face(0), slope(before), slope(side)],
                    [face(0), slope(side), slope(next)],
                ),
                expected_mm: top.side_mm(side),
            });
            sizes.push(Size {
                name: format!("rim {name}, outside"),
                measure: Measure::Corners(
                    [slope(side), skirt(before), skirt(side)],
                    [slope(side), skirt(side), skirt(next)],
                ),
                expected_mm: rim.side_mm(side),
            });
            sizes.push(Size {
                name: format!("hip {}, outside", rim.names[next % count]),
                measure: Measure::Corners(
                    [face(0), slope(side), slope(next)],
                    [slope(side), slope(next), skirt(side)],
                ),
                expected_mm: self.hip_mm(rim, top, next % count),
            });
            sizes.push(Size {
                name: format!("rise of the top over rim {name}, outside"),
                measure: Measure::CornerToPlane([slope(side), skirt(before), skirt(side)], face(0)),
                expected_mm: self.rise.millimetres(),
            });
        }
        sizes
    }

    /// The depth of every skirt below the rim's mold line, to its cut edge or to the outside of a return.
    fn skirt_depths(&self, rim: &Figure, built: &Built) -> Vec<Size> {
        let count = rim.count();
        let plate = |side: usize, band: usize| -> FacePlane { (built.faces[side % count][band], Side::Face) };
        let foot = if self.return_width.is_some() { 2 } else { 1 };
        let depth = |(side, name): (usize, &String)| {
            let at_rim = [plate(side, 0), plate(side + count - 1, 1), plate(side, 1)];
            Size {
                name: format!("depth of skirt {name} below the rim's mold line, outside"),
                measure: Measure::ReachPast(plate(side, foot), at_rim, (0, Side::Face)),
                expected_mm: self.skirt.millimetres(),
            }
        };
        rim.sides.iter().enumerate().map(depth).collect()
    }

    /// True length of the hip at a corner, outside, mm.
    fn hip_mm(&self, rim: &Figure, top: &Figure, corner: usize) -> f64 {
        trig::hypot(rim.corners[corner].distance(top.corners[corner]), self.rise.millimetres())
    }

    fn facts(&self, rim: &Figure, top: &Figure, built: &Built) -> Vec<Fact> {
        let mut facts = Vec::new();
        let rise = self.rise.millimetres();
        for (side, name) in rim.sides.iter().enumerate() {
            let inset = self.inset[side].millimetres();
            let turn = built.part.bends[built.faces[side][0] - 1].turn_rad;
            let rim_turn = built.part.bends[built.faces[side][1] - 1].turn_rad;
            facts.push(Fact::length_mm(
                format!("slant {name}, outside"),
                trig::hypot(inset, rise),
                format!("√(inset.{name}² + rise²)"),
            ));
            facts.push(Fact::angle_rad(
                format!("turn at the top {name}"),
                turn,
                format!("atan(rise / inset.{name})"),
            ));
            facts.push(Fact::angle_rad(
                format!("turn at the rim {name}"),
                rim_turn,
                "90° less the turn at the top",
            ));
        }
        for (corner, name) in rim.names.iter().enumerate() {
            let run = rim.corners[corner].distance(top.corners[corner]);
            facts.push(Fact::length_mm(
                format!("hip {name}, outside"),
                self.hip_mm(rim, top, corner),
                "√(plan run of the corner² + rise²)",
            ));
            facts.push(Fact::angle_rad(
                format!("hip slope {name}"),
                trig::atan2(rise, run),
                "atan(rise / plan run)",
            ));
        }
        for seam in built.part.seams.iter().filter(|seam| seam.name.starts_with("slope")) {
            facts.push(Fact::angle_rad(
                format!("inside corner angle, {}", seam.name),
                seam.inside_angle_rad,
                "180° less the angle between the two plates' normals",
            ));
        }
        facts
    }
}
