//! A pan with everything a shop may ask of it: of one piece or of five panels, a stepped rim, a drain hole, and the slot
//! that it slides out through.

use fold::part::Side::{Back, Face};
use fold::part::Size;
use geometry::{Frame, Plane, Point3, Vector, Vector3, trig};
use units::Length;

use super::{Pan, Rim};
use crate::nearest::{Way, smaller_edge};
use crate::plan::at_height;
use crate::shell::{Shell, ShellPlate, shell_problem};
use crate::{CornerStyle, FaceSide, Fact, Figure, Making, Piece, Problem, Recipe, Shaped, whole};

/// A pan with its making and fittings.
#[derive(Debug, Clone, PartialEq)]
pub struct MadeUpPan {
    /// Plan, height, rims and leans.
    pub pan: Pan,
    /// A step in the rim, all round.
    pub step: Option<RimStep>,
    /// How it is made up.
    pub made: PanMade,
    /// A hole in the floor.
    pub drain: Option<PanDrain>,
    /// The slot it slides out through, level.
    pub slides: Option<SlideThrough>,
}

/// A step beyond an outward rim.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RimStep {
    /// Up above zero, down below: from the top of the rim to the top of the outer rim.
    pub height: Length,
    /// Outward beyond the step.
    pub out: Length,
}

/// How a pan is made up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PanMade {
    /// One piece, a cross in the flat.
    OnePiece,
    /// The floor and every wall for itself.
    Panels,
}

/// A drain hole.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PanDrain {
    /// Its centre from corner A of the floor, outside: along AB, and square to it.
    pub at: [Length; 2],
    /// Diameter.
    pub diameter: Length,
}

impl SlideThrough {
    /// How high lugs stand on that side; zero where there are none.
    fn lugs_on(self, side: FaceSide) -> Length {
        self.lugs.filter(|(_, own)| *own == side).map_or(Length::ZERO, |(high, _)| high)
    }
}

/// A slot that a pan slides out through, level, its side AB first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SlideThrough {
    /// Width and height of the slot.
    pub slot: [Length; 2],
    /// From the outside of the floor to the top of the handle, when there is one.
    pub handle: Option<Length>,
    /// Of tread plate: how high its lugs stand, and on which side of the pan.
    pub lugs: Option<(Length, FaceSide)>,
}

impl Recipe for MadeUpPan {
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
        self.pan.sizing_field(face)
    }

    fn boxed(&self) -> Option<Box<dyn Recipe>> {
        Some(Box::new(self.clone()))
    }

    fn ways<'a>(&'a self, making: &'a Making) -> Vec<Way<'a>> {
        smaller_edge("edge", (self.pan.edge, making), |edge| {
            Box::new(Self { pan: Pan { edge, ..self.pan.clone() }, ..self.clone() })
        })
    }

    fn pieces(&self) -> Vec<Piece> {
        let piece = |suffix: &str, words: String| Piece { suffix: suffix.to_owned(), words, count: 1 };
        match self.made {
            PanMade::OnePiece => Vec::new(),
            PanMade::Panels => {
                let walls =
                    ["AB", "BC", "CD", "DA"].map(|side| piece(side, format!("wall {side} of the pan")));
                std::iter::once(piece("floor", "floor of the pan".to_owned())).chain(walls).collect()
            }
        }
    }

    fn put_together(&self, making: &Making) -> Vec<(usize, Frame)> {
        if self.made == PanMade::OnePiece {
            return Vec::new();
        }
        let found = self.whole_rim().floor(making).and_then(|(floor, _)| self.shell(&floor, making));
        let roots = found.map(|(shell, walls)| shell.roots(std::iter::once(0).chain(walls)));
        whole::numbered(roots.unwrap_or_default())
    }

    fn whole_sizes(&self, making: &Making) -> Vec<Fact> {
        let Ok((floor, _)) = self.whole_rim().floor(making) else { return Vec::new() };
        vec![
            Fact::words("floor, outside", whole::sides_words(&floor, making), "the sizes of the pan"),
            Fact::words("height of the walls, outside", making.print(self.pan.height), "height"),
        ]
    }

    fn shape_piece(&self, piece: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        self.pan.check(making)?;
        let (floor, sum) = self.whole_rim().floor(making)?;
        self.pan.check_top(&floor, making)?;
        self.check(&floor, making)?;
        let (shell, walls) = self.shell(&floor, making)?;
        let root = if piece == 0 { 0 } else { walls[(piece - 1) % walls.len()] };
        let mut built = shell.piece(root).map_err(|error| vec![shell_problem(&error, "height", making)])?;
        built.part.sizes.extend(self.cut_heights(&floor, &walls, &built.plates));
        // A rim with a step ends in a bend, and is checked by the sizes beyond it.
        if self.step.is_none() {
            let face = |plate: usize| built.plates.iter().position(|&own| own == plate);
            built.part.sizes.extend(self.pan.rim_widths(&floor, |side, band| face(walls[side] + band)));
        }
        let mut facts: Vec<Fact> = sum.into_iter().collect();
        facts.extend(self.pan.facts(&floor, making));
        facts.extend(self.own_facts(&shell, making));
        facts.extend(shell.weld_facts(&built, making)?);
        Ok(Shaped { part: built.part, facts })
    }
}

impl MadeUpPan {
    /// The pan with rims as wide as rim and step together, by which it is sized.
    fn whole_rim(&self) -> Pan {
        let Some(step) = self.step else { return self.pan.clone() };
        let wider = |rim: &Rim| match *rim {
            Rim::Out(width) => Rim::Out(width + step.out),
            other => other,
        };
        Pan { rims: self.pan.rims.iter().map(wider).collect(), ..self.pan.clone() }
    }

    fn check(&self, floor: &Figure, making: &Making) -> Result<(), Vec<Problem>> {
        let mut problems = Vec::new();
        if !self.pan.edge.is_plain() {
            problems.push(self.edge_problem());
        }
        if let Some(step) = self.step {
            self.check_step(step, making, &mut problems);
        }
        if let Some(drain) = self.drain {
            check_drain(drain, floor, making, &mut problems);
        }
        if let Some(slides) = self.slides {
            self.check_slides(slides, floor, making, &mut problems);
        }
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }

    fn check_step(&self, step: RimStep, making: &Making, problems: &mut Vec<Problem>) {
        making.above_zero("rim_step.out", step.out, problems);
        if !self.pan.rims.iter().all(|rim| matches!(rim, Rim::Out(_))) {
            let wrong = "a step goes beyond a rim that is turned outward all round";
            problems.push(Problem::new(
                "rim_step",
                "as given",
                wrong,
                "give \"rim\" as \"1/2 out\", or leave the step out",
            ));
        }
        // Two bends, one at each end of the step, take R + T each.
        let least = making.number.inside_radius() + making.number.thickness();
        let least = least + least;
        if step.height.abs() < least {
            let wrong = "the step is too low for its two bends";
            let remedy = format!("make it {} or more", making.print(least));
            problems.push(Problem::new("rim_step.step", making.print(step.height.abs()), wrong, remedy));
        }
    }

    /// Edges are bent on plain one-piece pans only: what such a pan can still have of what is asked.
    fn edge_problem(&self) -> Problem {
        let step = "a step in its rim: leave the step out, the rim itself may have the edge";
        let drain = "a drain: leave \"drain\" out and cut the hole in the bent pan";
        let slot = "a slot to pass: leave \"slides_through\" out and compare the sizes of the bent pan with the slot";
        let panels = "walls of their own: make it \"one_piece\"";
        let asked = [
            self.step.is_some().then_some(step),
            self.drain.is_some().then_some(drain),
            self.slides.is_some().then_some(slot),
            (self.made == PanMade::Panels).then_some(panels),
        ];
        let (what, instead): (Vec<&str>, Vec<&str>) =
            asked.into_iter().flatten().filter_map(|words| words.split_once(": ")).unzip();
        let wrong = format!("an edge is not bent on a pan with {}", what.join(", or with "));
        let remedy = format!("{}; or leave the edge out", instead.join("; "));
        Problem::new("edge", "as given", wrong, remedy)
    }

    /// Whether strips of lapped corners may lie outside on the walls beside AB; those that the walls themselves carry lie on the
    /// others.
    fn strips_on_ends(&self, floor: &Figure, making: &Making) -> bool {
        let sides: Vec<(&str, f64)> =
            (0..floor.count()).map(|side| (floor.sides[side].as_str(), floor.side_mm(side))).collect();
        let lies_on_ends = |style: &CornerStyle| match (style, sides.as_slice()) {
            (CornerStyle::Lap { carried_by, outside: true, .. }, [ab, bc, cd, da]) => {
                [[*ab, *bc], [*cd, *bc], [*ab, *da], [*cd, *da]]
                    .into_iter()
                    .any(|pair| carried_by.is_first(pair) != Some(false))
            }
            (style, _) => matches!(style, CornerStyle::Lap { outside: true, .. }),
        };
        making.corner.single().into_iter().any(|(_, style)| lies_on_ends(style))
    }

    /// What lugs add above the pan: those of a rim whose marked face is turned up.
    fn lugs_on_top(&self, slides: SlideThrough) -> Length {
        let up = |rim: &Rim| match rim {
            Rim::None => Length::ZERO,
            Rim::Out(_) => slides.lugs_on(FaceSide::Inside),
            Rim::In(_) => slides.lugs_on(FaceSide::Outside),
        };
        self.pan.rims.iter().map(up).max().unwrap_or(Length::ZERO)
    }

    fn check_slides(
        &self,
        slides: SlideThrough,
        floor: &Figure,
        making: &Making,
        problems: &mut Vec<Problem>,
    ) {
        let [slot_width, slot_height] = slides.slot;
        let whole = self.whole_rim();
        let beyond = |side: usize| whole.reach_mm(side, making).max(0.0);
        // The ends that pass the slot's two edges are the walls beside AB.
        let strip_mm = if self.strips_on_ends(floor, making) {
            making.thickness_mm() + making.seam_gap.millimetres()
        } else {
            0.0
        };
        let lugs_mm = slides.lugs_on(FaceSide::Outside).millimetres();
        // A strip lies on the lugs of its wall, and has its own.
        let strip_mm = if strip_mm > 0.0 { strip_mm + 2.0 * lugs_mm } else { lugs_mm };
        let beyond = |side: usize| beyond(side).max(strip_mm / trig::cos(self.pan.lean_rad(side)));
        let width_mm = floor.side_mm(0) + beyond(1) + beyond(3);
        if width_mm >= slot_width.millimetres() {
            let over = match (self.strips_on_ends(floor, making), lugs_mm > 0.0) {
                (true, true) => "its ends, their lugs and the lap strips on them",
                (true, false) => "its ends and the lap strips on them",
                (false, true) => "its ends and their lugs",
                (false, false) => "its ends",
            };
            let wrong = format!("the pan is {} over {over}", making.print_mm(width_mm));
            let remedy = format!(
                "make it narrower by {} or more",
                making.print_mm(width_mm - slot_width.millimetres())
            );
            problems.push(Problem::new("slides_through.slot[0]", making.print(slot_width), wrong, remedy));
        }
        let step = self.step.map_or(Length::ZERO, |step| step.height.max(Length::ZERO));
        let below = slides.lugs_on(FaceSide::Outside);
        let high = self.pan.height + step + below + self.lugs_on_top(slides);
        let handle = slides.handle.map(|handle| handle + below);
        let with_lugs = slides.lugs.is_some();
        let pan = if with_lugs { "the pan with its lugs" } else { "the pan" };
        let tops = [("height", Some(high), pan), ("slides_through.handle", handle, "the handle")];
        for (field, top, what) in tops {
            // A handle may be as high as the slot: only its top passes there, and a hand can ease it through.
            let stops = |top: Length| top > slot_height || top == slot_height && field == "height";
            if let Some(top) = top.filter(|&top| stops(top)) {
                let wrong = format!("{what} does not pass a slot {} high", making.print(slot_height));
                let remedy = if field == "height" {
                    let room = slot_height - (high - self.pan.height);
                    making.keep_under(room.millimetres(), "the slot has no height")
                } else {
                    format!("keep it at {} or less", making.print(slot_height - below))
                };
                problems.push(Problem::new(field, making.print(top), wrong, remedy));
            }
        }
    }

    /// The floor first, then the plates of every wall; the numbers of the walls.
    fn shell(&self, floor: &Figure, making: &Making) -> Result<(Shell, Vec<usize>), Vec<Problem>> {
        let mut shell = Shell {
            plates: Vec::new(),
            bends: Vec::new(),
            number: making.number.clone(),
            making: making.corners(),
        };
        let flat = floor.corners.iter().map(|&corner| at_height(corner, 0.0)).collect();
        let mut bottom = ShellPlate::new("floor", flat, Back);
        if let Some(drain) = self.drain {
            let centre = drain_centre(drain, floor);
            bottom.holes.push((at_height(centre, 0.0), 0.5 * drain.diameter.millimetres()));
        }
        shell.plates.push(bottom);
        let rings = self.rings(floor)?;
        let walls = (0..floor.count()).map(|side| self.add_wall(&mut shell, side, floor, &rings)).collect();
        Ok((shell, walls))
    }

    /// Plan of the walls' tops, of the rims' edges and of the outer rims' edges.
    fn rings(&self, floor: &Figure) -> Result<[Figure; 3], Vec<Problem>> {
        let height_mm = self.pan.height.millimetres();
        let count = floor.count();
        let leans: Vec<f64> = (0..count).map(|side| height_mm * trig::tan(self.pan.lean_rad(side))).collect();
        let rim = |side: usize| match self.pan.rim(side) {
            Rim::None => 0.0,
            Rim::Out(width) => width.millimetres(),
            Rim::In(width) => -width.millimetres(),
        };
        let step_mm = self.step.map_or(0.0, |step| step.out.millimetres());
        let rims: Vec<f64> = (0..count).map(rim).collect();
        let closed =
            || vec![Problem::new("rim", "as given", "the rims of opposite walls meet", "make them narrower")];
        let top = floor.moved(&leans).ok_or_else(closed)?;
        let inner = top.moved(&rims).ok_or_else(closed)?;
        let outer = inner.grown(step_mm).ok_or_else(closed)?;
        Ok([top, inner, outer])
    }

    /// Adds a wall, its rim and its step, each bent off the one before.
    fn add_wall(&self, shell: &mut Shell, side: usize, floor: &Figure, rings: &[Figure; 3]) -> usize {
        let [top, rim, outer] = rings;
        let height_mm = self.pan.height.millimetres();
        let ends = |figure: &Figure, z_mm: f64| -> [Point3; 2] {
            [side + 1, side].map(|corner| at_height(figure.corners[corner % figure.count()], z_mm))
        };
        let name = &floor.sides[side];
        let wall = shell.plates.len();
        let chain = |shell: &mut Shell, what: &str, near: [Point3; 2], far: [Point3; 2], sized_to| {
            let number = shell.plates.len();
            let corners = vec![near[0], near[1], far[1], far[0]];
            shell.plates.push(ShellPlate::new(format!("{what} {name}"), corners, sized_to));
            number
        };
        chain(shell, "wall", ends(floor, 0.0), ends(top, height_mm), Back);
        if self.made == PanMade::OnePiece {
            shell.bends.push((0, wall));
        }
        let up = Vector3::new(0.0, 0.0, 1.0);
        let sized_to = match self.pan.rim(side) {
            Rim::None => {
                let level = Plane::through(ends(top, height_mm)[0], up);
                shell.plates[wall].cuts.push((2, level));
                return wall;
            }
            Rim::Out(_) => Face,
            Rim::In(_) => Back,
        };
        let edge = chain(shell, "rim", ends(top, height_mm), ends(rim, height_mm), sized_to);
        shell.bends.push((wall, edge));
        let Some(step) = self.step else { return wall };
        let outer_mm = height_mm + step.height.millimetres();
        let sized_to = if step.height > Length::ZERO { Back } else { Face };
        let riser = chain(shell, "step", ends(rim, height_mm), ends(rim, outer_mm), sized_to);
        let last = chain(shell, "outer rim", ends(rim, outer_mm), ends(outer, outer_mm), Face);
        shell.bends.extend([(edge, riser), (riser, last)]);
        wall
    }

    /// Heights of walls without a rim, where they are bent off the floor.
    fn cut_heights(&self, floor: &Figure, walls: &[usize], plates: &[usize]) -> Vec<Size> {
        if plates.first() != Some(&0) {
            return Vec::new();
        }
        let size = |side: usize| {
            let face = plates.iter().position(|&plate| plate == walls[side])?;
            matches!(self.pan.rim(side), Rim::None)
                .then(|| self.pan.cut_height(&floor.sides[side], side, face))
                .flatten()
        };
        (0..walls.len()).filter_map(size).collect()
    }

    fn own_facts(&self, shell: &Shell, making: &Making) -> Vec<Fact> {
        let mut facts = Vec::new();
        if self.made == PanMade::Panels {
            let panels =
                shell.plates.iter().filter(|plate| plate.name == "floor" || plate.name.starts_with("wall"));
            facts.extend(panels.map(|plate| {
                let name = format!("area of {}, outside, to the mold lines", plate.name);
                Fact::area_mm2(name, area_mm2(&plate.corners), "corners of the panel")
            }));
        }
        if let Some(step) = self.step {
            let way = if step.height > Length::ZERO { "up" } else { "down" };
            let words =
                format!("{} {way}, then {} out", making.print(step.height.abs()), making.print(step.out));
            facts.push(Fact::words("rim step", words, "rim_step"));
        }
        if let Some(slides) = self.slides {
            let words = format!("{} × {}", making.print(slides.slot[0]), making.print(slides.slot[1]));
            facts.push(Fact::words("slides out through", words, "slides_through"));
        }
        facts
    }
}

fn drain_centre(drain: PanDrain, floor: &Figure) -> geometry::Point {
    let corner = floor.names.iter().position(|name| name == "A").unwrap_or(0);
    let (a, b) = floor.side(floor.side_number("AB").unwrap_or(0));
    let start = floor.corners[corner];
    let along: Vector = if start == a { (b - a).unit() } else { (a - b).unit() };
    let inward = (b - a).unit().left();
    start + along * drain.at[0].millimetres() + inward * drain.at[1].millimetres()
}

/// The hole must lie in the flat of the floor, clear of the bends of the walls.
fn check_drain(drain: PanDrain, floor: &Figure, making: &Making, problems: &mut Vec<Problem>) {
    making.above_zero("drain.diameter", drain.diameter, problems);
    let centre = drain_centre(drain, floor);
    let away = |side: usize| {
        let (a, b) = floor.side(side);
        (centre - a).dot((b - a).unit().left())
    };
    let bend_mm = (making.number.thickness() + making.number.inside_radius()).millimetres();
    let nearest = (0..floor.count()).min_by(|&a, &b| away(a).total_cmp(&away(b))).unwrap_or(0);
    let least_mm = 0.5 * drain.diameter.millimetres() + bend_mm;
    if away(nearest) < least_mm {
        let side = &floor.sides[nearest];
        let wrong = if away(nearest) < 0.0 {
            format!("the hole lies {} beyond side {side}, outside the floor", making.print_mm(-away(nearest)))
        } else {
            format!("the hole is {} from side {side} and reaches its bend", making.print_mm(away(nearest)))
        };
        let narrow_mm = (0..floor.count()).map(|side| floor.side_mm(side)).fold(f64::INFINITY, f64::min);
        let remedy = if 2.0 * least_mm < narrow_mm {
            format!("keep its centre {} or more from every side", making.print_mm(least_mm))
        } else {
            let most_mm = narrow_mm - 2.0 * bend_mm;
            making.keep_under(most_mm, "the bends of the walls take all of the floor")
        };
        let value = format!("{}, {}", making.print(drain.at[0]), making.print(drain.at[1]));
        problems.push(Problem::new("drain.at", value, wrong, remedy));
    }
}

fn area_mm2(corners: &[Point3]) -> f64 {
    let first = corners[0];
    let halves = corners[1..].windows(2).map(|pair| (pair[0] - first).cross(pair[1] - first));
    0.5 * halves.fold(Vector3::default(), |sum, cross| sum + cross).length()
}
