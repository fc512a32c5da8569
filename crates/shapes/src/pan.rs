//! A pan: floor, walls all round (plumb, or each with its own lean), rim outward, inward or none. The marked face is
//! the inside. Sized by the outside, by the inside of the floor, or by the opening it must lift out of.

mod lift;
mod made_up;
mod rim_width;

use fold::Direction::{Down, Up};
use fold::Side;
use fold::part::{FacePlane, Measure, Size};
use geometry::{Plane, Vector3, trig};
use units::{Angle, Length};

use crate::edge::{self, EdgeEnd};
use crate::making::ring_problem;
use crate::nearest::{Way, smaller_edge};
use crate::plan::{at_height, rectangle, side_directions, side_facts};
use crate::ring::{Band, Built, Ring, RingSide};
use crate::{Clearance, FaceSide, Fact, Figure, Making, Problem, Recipe, Shaped};

pub use made_up::{MadeUpPan, PanDrain, PanMade, RimStep, SlideThrough};

/// Steepest lean taken, so that the rim bend stays a bend.
const MOST_LEAN_DEGREES: f64 = 75.0;

/// Steepest lean inward, at which the wall's own bend turns by 135° (common practice, no source).
const MOST_INWARD_DEGREES: f64 = 45.0;

/// Halvings that settle the widest rim far below the finest division of a tape.
const HALVINGS: u32 = 40;

/// A pan.
#[derive(Debug, Clone, PartialEq)]
pub struct Pan {
    /// What its plan is sized by.
    pub plan: PanPlan,
    /// Overall, from the outside of the floor to the top of the rim, or to the highest metal of a wall without one or of
    /// an edge that stands above its rim.
    pub height: Length,
    /// The rim of each wall, in the order of the plan's sides; a single one goes all round.
    pub rims: Vec<Rim>,
    /// Lean of each wall outward from plumb, below zero inward, in the order of the plan's sides; empty when all are
    /// plumb. Sizes at the floor of a wall that leans inward are to its mold line, which lies out in the air.
    pub lean: Vec<Angle>,
    /// What is done to the edge of rims and of walls without a rim, all round.
    pub edge: EdgeEnd,
}

/// What a pan's plan is sized by.
#[derive(Debug, Clone, PartialEq)]
pub enum PanPlan {
    /// The outside of the walls, at the floor.
    Outside {
        /// Along side AB.
        length: Length,
        /// Along side BC.
        width: Length,
    },
    /// The flat of the floor between the inside faces of the walls.
    InsideFloor {
        /// Along side AB.
        length: Length,
        /// Along side BC.
        width: Length,
    },
    /// The opening it must lift out of, level.
    LiftsThrough {
        /// The opening.
        opening: Figure,
        /// What must stay free, each side.
        clearance: Clearance,
    },
}

/// The rim of a pan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rim {
    /// Cut edge.
    None,
    /// Turned outward, so far beyond the outside of the wall.
    Out(Length),
    /// Turned inward, so wide from the outside of the wall.
    In(Length),
}

impl Recipe for Pan {
    fn word(&self) -> &'static str {
        "pan"
    }

    fn words(&self) -> &'static str {
        "pan"
    }

    fn natural_face(&self) -> Option<FaceSide> {
        Some(FaceSide::Inside)
    }

    fn tight_field(&self) -> &'static str {
        "rim"
    }

    fn field_of_face(&self, face: &str) -> &'static str {
        self.sizing_field(face)
    }

    fn boxed(&self) -> Option<Box<dyn Recipe>> {
        Some(Box::new(self.clone()))
    }

    fn ways<'a>(&'a self, making: &'a Making) -> Vec<Way<'a>> {
        smaller_edge("edge", (self.edge, making), |edge| Box::new(Self { edge, ..self.clone() }))
    }

    fn shape_piece(&self, _: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        self.shape(making)
    }
}

impl Pan {
    /// Shapes the pan.
    ///
    /// # Errors
    /// Every [`Problem`]: sizes not above zero, clearances and rim that leave no floor, leans that cannot be.
    pub fn shape(&self, making: &Making) -> Result<Shaped, Vec<Problem>> {
        self.check(making)?;
        let (floor, sum) = self.floor(making)?;
        self.check_top(&floor, making)?;
        let ring = Ring {
            name: "floor".to_owned(),
            corners: floor.corners.clone(),
            corner_names: floor.names.clone(),
            sides: (0..floor.count())
                .map(|side| RingSide {
                    limits: self.rim_limits(&floor, side, making),
                    ..self.side(&floor, side, making)
                })
                .collect(),
            holes: Vec::new(),
            number: making.number.clone(),
            making: making.corners(),
        };
        let mut built = ring.build().map_err(|error| vec![ring_problem(&error, "height", making)])?;
        built.part.sizes = self.sizes(&floor, &built, making);
        built.part.sizes.extend(self.rim_widths(&floor, |side, band| Some(built.faces[side][band])));
        let mut facts: Vec<Fact> = sum.into_iter().collect();
        facts.extend(self.facts(&floor, making));
        facts.extend(self.slanted_ends(&floor));
        let count = floor.count();
        let fields = vec!["edge".to_owned(); count];
        facts.extend(edge::finish(&mut built, &ring, &vec![self.edge; count], (making, &fields))?);
        let mut shaped = Shaped { part: built.part, facts };
        self.check_inward_edge(&shaped, making)?;
        let least = self.check_lifts(&shaped, &floor, making)?;
        shaped.facts.extend(least);
        Ok(shaped)
    }

    pub(crate) fn check(&self, making: &Making) -> Result<(), Vec<Problem>> {
        let mut problems = Vec::new();
        making.above_zero("height", self.height, &mut problems);
        let walls = match &self.plan {
            PanPlan::LiftsThrough { opening, .. } => opening.count(),
            PanPlan::Outside { .. } | PanPlan::InsideFloor { .. } => 4,
        };
        if self.rims.len() != 1 && self.rims.len() != walls {
            let wrong = format!("this pan has {walls} walls");
            let remedy = "give one rim for all walls, or one for each";
            problems.push(Problem::new("rim", self.rims.len().to_string(), wrong, remedy));
        }
        for rim in &self.rims {
            if let Rim::Out(width) | Rim::In(width) = *rim {
                making.above_zero("rim", width, &mut problems);
            }
        }
        for lean in &self.lean {
            let degrees = lean.degrees();
            if !(-MOST_INWARD_DEGREES..=MOST_LEAN_DEGREES).contains(&degrees) {
                let wrong = format!(
                    "a wall leans from plumb by up to {MOST_LEAN_DEGREES}° outward, or {MOST_INWARD_DEGREES}° inward"
                );
                problems.push(Problem::new(
                    "lean",
                    format!("{degrees}°"),
                    wrong,
                    "measure the lean from plumb, below zero where the top leans inward",
                ));
            }
        }
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }

    /// Edges of rims turned inward hang in the room between them, where they may meet one another, walls or floor.
    fn check_inward_edge(&self, shaped: &Shaped, making: &Making) -> Result<(), Vec<Problem>> {
        if self.edge.is_plain() || !self.rims.iter().any(|rim| matches!(rim, Rim::In(_))) {
            return Ok(());
        }
        let Ok(flat) = shaped.unfold() else { return Ok(()) };
        let Some(wrong) = edge::met_words(&shaped.part, &flat, making) else { return Ok(()) };
        Err(vec![Problem::new(format!("edge.{}", self.edge.kind()), "as given", wrong, edge::WHERE_MET)])
    }

    /// The field that sizes a face of this name.
    pub(crate) fn sizing_field(&self, face: &str) -> &'static str {
        match face.split(' ').next() {
            Some("wall") => "height",
            Some("rim") => "rim",
            _ => match self.plan {
                PanPlan::Outside { .. } => "outside",
                PanPlan::InsideFloor { .. } => "inside_floor",
                PanPlan::LiftsThrough { .. } => "lifts_through",
            },
        }
    }

    /// Walls that lean inward must not meet below the top, nor rims turned inward meet one another.
    pub(crate) fn check_top(&self, floor: &Figure, making: &Making) -> Result<(), Vec<Problem>> {
        let count = floor.count();
        let height_mm = self.height.millimetres();
        let leans: Vec<f64> = (0..count).map(|side| height_mm * trig::tan(self.lean_rad(side))).collect();
        let meet = || {
            let wrong = "the walls meet below the top";
            let inward = self.lean.iter().map(|lean| lean.degrees()).fold(0.0, f64::min);
            let remedy = "lean them inward by less, or make the pan lower";
            vec![Problem::new("lean", format!("{inward}°"), wrong, remedy)]
        };
        let top = floor.moved(&leans).ok_or_else(meet)?;
        let inward = |side: usize| match self.rim(side) {
            Rim::In(width) => width.millimetres(),
            Rim::None | Rim::Out(_) => 0.0,
        };
        let widest_mm = (0..count).map(inward).fold(0.0, f64::max);
        let open = |most_mm: f64| {
            top.moved(&(0..count).map(|side| -inward(side).min(most_mm)).collect::<Vec<f64>>()).is_some()
        };
        if open(widest_mm) {
            return Ok(());
        }
        let (mut fits, mut too_wide) = (0.0, widest_mm);
        for _ in 0..HALVINGS {
            let middle = 0.5 * (fits + too_wide);
            if open(middle) { fits = middle } else { too_wide = middle }
        }
        let remedy = making.keep_under(fits, "the pan has no width at its top");
        Err(vec![Problem::new(
            "rim",
            making.print_mm(widest_mm),
            "rims turned inward meet one another",
            remedy,
        )])
    }

    /// The rim of a wall.
    pub(crate) fn rim(&self, side: usize) -> Rim {
        self.rims.get(side).or(self.rims.first()).copied().unwrap_or(Rim::None)
    }

    /// Lean of a wall, radians.
    pub(crate) fn lean_rad(&self, side: usize) -> f64 {
        self.lean.get(side).map_or(0.0, |lean| lean.radians())
    }

    /// Outside of the walls at the floor, and the sum that led there.
    pub(crate) fn floor(&self, making: &Making) -> Result<(Figure, Option<Fact>), Vec<Problem>> {
        match &self.plan {
            PanPlan::Outside { length, width } => Ok((rectangle(making, "outside", *length, *width)?, None)),
            PanPlan::InsideFloor { length, width } => {
                let inside = rectangle(making, "inside_floor", *length, *width)?;
                let half_turn = |side| 0.5 * (0.5 * std::f64::consts::PI - self.lean_rad(side));
                let outward: Vec<f64> =
                    (0..4).map(|side| making.thickness_mm() * trig::tan(half_turn(side))).collect();
                let none =
                    || vec![Problem::new("inside_floor", "as given", "leaves no floor", "make it larger")];
                Ok((inside.moved(&outward).ok_or_else(none)?, None))
            }
            PanPlan::LiftsThrough { opening, clearance } => self.lifted(making, opening, clearance),
        }
    }

    /// Wall and rim of one side. The back of the floor, its outside, is z = 0.
    fn side(&self, floor: &Figure, side: usize, making: &Making) -> RingSide {
        let thickness_mm = making.thickness_mm();
        let (_, outward) = side_directions(floor, side);
        let up = Vector3::new(0.0, 0.0, 1.0);
        let lean = self.lean_rad(side);
        let height = self.height.millimetres() - self.drop_mm(side, making);
        let at_floor = at_height(floor.corners[side], 0.0);
        let at_top = at_floor + up * height + outward * (height * trig::tan(lean));
        let inward = up * trig::sin(lean) + outward * -trig::cos(lean);
        let name = &floor.sides[side];
        let mut bands = vec![Band {
            name: format!("wall {name}"),
            plane: Plane::through(at_floor, inward),
            direction: Up,
        }];
        let rim = |plane, direction| Band { name: format!("rim {name}"), plane, direction };
        let cut = match self.rim(side) {
            Rim::None => Plane::through(at_top, up),
            Rim::Out(width) => {
                bands.push(rim(Plane::through(at_top + up * -thickness_mm, up), Down));
                Plane::through(at_top + outward * width.millimetres(), outward)
            }
            Rim::In(width) => {
                bands.push(rim(Plane::through(at_top, -up), Up));
                Plane::through(at_top + outward * -width.millimetres(), outward)
            }
        };
        RingSide { bands, cut: Some(cut), short_mm: [0.0, 0.0], bare_inside_mm: 0.0, limits: Vec::new() }
    }

    fn sizes(&self, floor: &Figure, built: &Built, making: &Making) -> Vec<Size> {
        let count = floor.count();
        let wall = |side: usize, which| -> FacePlane { (built.faces[side % count][0], which) };
        let mut sizes = Vec::new();
        for (side, name) in floor.sides.iter().enumerate() {
            let end = |at: usize| [(0, Side::Back), wall(at, Side::Back), wall(at + 1, Side::Back)];
            sizes.push(Size {
                name: format!("floor {name}, outside"),
                measure: Measure::Corners(end(side + count - 1), end(side)),
                expected_mm: floor.side_mm(side),
            });
        }
        let top_mm = |side: usize| self.height.millimetres() - self.drop_mm(side, making);
        // In the plane of the rims, which all lie at one level.
        let rims_mm = self.height.millimetres() - self.over_rim_mm(making);
        let inside = |side: usize| {
            let lean = self.lean_rad(side);
            rims_mm * trig::tan(lean) - making.thickness_mm() / trig::cos(lean)
        };
        let inner = floor.moved(&(0..count).map(inside).collect::<Vec<f64>>());
        for (side, name) in floor.sides.iter().enumerate() {
            let top = match self.rim(side) {
                Rim::None => {
                    sizes.extend(self.cut_height(name, side, wall(side, Side::Back).0));
                    continue;
                }
                Rim::Out(_) => Side::Face,
                Rim::In(_) => Side::Back,
            };
            let rim: FacePlane = (built.faces[side][1], top);
            // An edge that stands above the rim has the overall height, and the rim the rest of it.
            let what =
                if top_mm(side) < self.height.millimetres() { "height of the rim" } else { "overall height" };
            sizes.push(Size {
                name: format!("{what} at {name}, outside"),
                measure: Measure::Planes((0, Side::Back), rim),
                expected_mm: top_mm(side),
            });
            if let (Some(inner), Rim::Out(_)) = (&inner, self.rim(side)) {
                let end = |at: usize| [rim, wall(at, Side::Face), wall(at + 1, Side::Face)];
                sizes.push(Size {
                    name: format!("inside length at the top along {name}, mold line to mold line"),
                    measure: Measure::Corners(end(side + count - 1), end(side)),
                    expected_mm: inner.side_mm(side),
                });
            }
        }
        sizes
    }

    /// How far the outside edge of a wall, or the top of its rim, lies below the height, mm. Without a rim a wall that
    /// leans outward, cut square, is highest at its inside edge; where an edge is bent, the highest metal of that bend
    /// counts.
    pub(crate) fn drop_mm(&self, side: usize, making: &Making) -> f64 {
        match self.rim(side) {
            Rim::None => self.edge.rise_mm(self.lean_rad(side), making),
            Rim::Out(_) | Rim::In(_) => self.edge.off_outside_mm(making),
        }
    }

    /// How far the highest edge stands above its rim, mm.
    pub(crate) fn over_rim_mm(&self, making: &Making) -> f64 {
        let has_rim = self.rims.iter().any(|rim| *rim != Rim::None);
        if has_rim { self.edge.off_outside_mm(making) } else { 0.0 }
    }

    /// The height of a wall that has neither a rim nor a treated edge: to its highest metal.
    pub(crate) fn cut_height(&self, name: &str, side: usize, face: usize) -> Option<Size> {
        let highest = if self.lean_rad(side) > 0.0 { Side::Face } else { Side::Back };
        self.edge.is_plain().then(|| Size {
            name: format!("overall height at {name}, to the top of the metal"),
            measure: Measure::Reach((face, highest), (0, Side::Back)),
            expected_mm: self.height.millimetres(),
        })
    }

    pub(crate) fn facts(&self, floor: &Figure, making: &Making) -> Vec<Fact> {
        let mut facts = side_facts(floor, "floor, outside,", "plan of the pan");
        let height = self.height.millimetres();
        let count = floor.count();
        let lean: Vec<f64> = (0..count).map(|side| self.lean_rad(side)).collect();
        let outside = |side: usize| height - self.drop_mm(side, making);
        for (side, name) in floor.sides.iter().enumerate() {
            let turn = std::f64::consts::FRAC_PI_2 - lean[side];
            let slant = outside(side) / trig::cos(lean[side]);
            let origin = if outside(side) < height {
                "height of its outside edge, which lies below the highest metal, / cos(lean)"
            } else {
                "height / cos(lean)"
            };
            facts.push(Fact::length_mm(format!("wall {name}, outside"), slant, origin));
            facts.push(Fact::angle_rad(format!("turn at the floor {name}"), turn, "90° less the lean"));
        }
        let grown = |at: &dyn Fn(usize) -> f64| {
            floor.moved(&(0..count).map(|side| at(side) * trig::tan(lean[side])).collect::<Vec<f64>>())
        };
        let Some(edges) = grown(&outside) else { return facts };
        let level = (0..count).all(|side| outside(side) >= height);
        let origin =
            if level { "floor + height·tan(lean)" } else { "floor + height of the outside edge·tan(lean)" };
        facts.extend(side_facts(&edges, "top, outside of the walls,", origin));
        for (corner, name) in floor.names.iter().enumerate() {
            let top_mm = outside(corner).min(outside((corner + count - 1) % count));
            let Some(level) = grown(&|_| top_mm) else { continue };
            let hip = trig::hypot(floor.corners[corner].distance(level.corners[corner]), top_mm);
            facts.push(Fact::length_mm(format!("hip {name}, outside"), hip, "√(plan run² + height²)"));
        }
        // Nothing stands above a rim, whatever is bent up at its edge.
        let height = height - self.over_rim_mm(making);
        let outward: Vec<f64> = lean.iter().map(|&lean| height * trig::tan(lean)).collect();
        let Some(top) = floor.moved(&outward) else { return facts };
        let middle = floor.moved(&outward.iter().map(|mm| 0.5 * mm).collect::<Vec<f64>>());
        let middle_area = middle.map_or_else(|| floor.area_mm2(), |figure| figure.area_mm2());
        let volume_mm3 = height / 6.0 * (floor.area_mm2() + 4.0 * middle_area + top.area_mm2());
        facts.push(Fact::volume_mm3("volume, to the outside", volume_mm3, "prismoid rule"));
        facts
    }
}
