//! A duct transition, rectangle to round, of flat triangles joined by slight bends, as the textbooks of triangulation do.
//!
//! Each side of the rectangle carries one large triangle whose apex lies where the round is parallel to that side; from
//! each corner a fan of slender triangles runs to the quarter of the round before it. Rectangle and round lie in parallel
//! planes and may be off centre. The surface is the hull of both ends, so all bends turn up, toward the marked inside,
//! and the triangles' outer faces meet at the true outside corners. Sizes are to the outside; true lengths are
//! √(plan² + height²) (Longfield, Sheet Metal Drafting, 1921, triangulation).
//!
//! All lines of a fan run to one corner, where their bend zones would cross: the plate is cut away there by the stated
//! radius, and the hole is filled by the corner weld.
//!
//! A seam runs down the middle of a side, to the place of the round opposite. A butted one ends there in the apex of the
//! side's triangle. A lapped one has a strip of even width, and an apex has none: the round is left flat there for as much
//! as strip and joggle take, and the divisions between such flats share what is left evenly (`lap.rs`).

mod facets;
mod lap;
mod nearest;

use std::f64::consts::FRAC_PI_2;

use fold::part::SeamStyle;
use fold::refold::{Joint, JointEnd};
use geometry::{Frame, Point3, tolerance};
use units::Length;

use crate::joined::{self, Joined, Standing};
use crate::wrap::{Lap, WrapSeam};
use crate::{FaceSide, Fact, Making, Piece, Problem, Recipe, Shaped, whole};

/// Names of the corners and, by their first, of the sides of the rectangle.
const CORNERS: [&str; 4] = ["A", "B", "C", "D"];

/// A transition.
#[derive(Debug, Clone, PartialEq)]
pub struct Transition {
    /// Outside of the rectangle: length of AB, and of BC.
    pub rectangle: [Length; 2],
    /// Outside diameter of the round; the corners of its divisions lie on it.
    pub round: Length,
    /// From the rectangle's edge to the round's.
    pub height: Length,
    /// How far the middle of the round stands off the middle of the rectangle, along AB and along BC.
    pub offset: [Length; 2],
    /// Triangles in each quarter of the round.
    pub divisions: u32,
    /// How many pieces it is made of.
    pub made_of: MadeOf,
    /// How every seam is made.
    pub seam: WrapSeam,
}

/// How many pieces a transition is made of. Seams run down the middle of sides, the first on AB.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MadeOf {
    /// One piece, one seam.
    One,
    /// Two halves, seams on AB and CD.
    Halves,
    /// Four quarters.
    Quarters,
}

impl MadeOf {
    /// Sides of the rectangle that one piece takes.
    const fn sides(self) -> usize {
        match self {
            Self::One => 4,
            Self::Halves => 2,
            Self::Quarters => 1,
        }
    }
}

impl Recipe for Transition {
    fn word(&self) -> &'static str {
        "transition"
    }

    fn words(&self) -> &'static str {
        "transition, rectangle to round"
    }

    fn natural_face(&self) -> Option<FaceSide> {
        Some(FaceSide::Inside)
    }

    fn tight_field(&self) -> &'static str {
        "divisions"
    }

    fn pieces(&self) -> Vec<Piece> {
        let count = 4 / self.made_of.sides();
        if count == 1 {
            return Vec::new();
        }
        (1..=count)
            .map(|number| {
                let [from, to] = [number - 1, number].map(|side| side * self.made_of.sides() % 4);
                let words =
                    format!("from the middle of {} to the middle of {}", side_name(from), side_name(to));
                Piece { suffix: number.to_string(), words, count: 1 }
            })
            .collect()
    }

    fn shape_piece(&self, piece: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        self.check(making)?;
        // Of a lap too wide for its flat the widest is told.
        let layout = self.layout(making).map_err(|problem| vec![problem])?;
        layout.piece(piece, making).map_err(|problems| self.with_nearest(problems, making))
    }

    fn put_together(&self, making: &Making) -> Vec<(usize, Frame)> {
        let Ok(layout) = self.layout(making) else { return Vec::new() };
        let pieces = self.pieces().len();
        whole::numbered((0..pieces).map(|piece| layout.root(piece)))
    }

    fn nearest_remedy(&self, making: &Making) -> Option<String> {
        self.nearest(making)
    }
}

/// Where the places of a transition lie on its round, and the lap at its seams.
#[derive(Debug, Clone, Copy)]
struct Layout<'a> {
    shape: &'a Transition,
    /// Half of what the round is left flat for at every seam, radians; zero where those are butted.
    half_flat_rad: f64,
    /// The lap on that flat, across the line down the middle of the side.
    lap: Option<Lap>,
}

impl Layout<'_> {
    /// One piece as it is.
    fn piece(&self, piece: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let sides = self.shape.made_of.sides();
        let span = [piece * sides, (piece + 1) * sides];
        let flats = facets::flats(self, span);
        let (part, reliefs) = facets::fold(self, &flats, making).map_err(|problem| vec![problem])?;
        let mut facts = self.lengths(span);
        for (corner, radius_mm) in reliefs {
            let name = format!("cut away about corner {corner}");
            facts.push(Fact::length_mm(name, radius_mm, "radius; where its bend zones would cross"));
        }
        facts.extend(self.girth());
        facts.extend(self.lap_facts(making));
        facts.extend(self.seam_facts(piece, making)?);
        Ok(Shaped { part, facts })
    }

    /// Where the root face of a piece lies.
    fn root(&self, piece: usize) -> Frame {
        let sides = self.shape.made_of.sides();
        let flats = facets::flats(self, [piece * sides, (piece + 1) * sides]);
        facets::root_frame(&flats).unwrap_or(Frame::WORLD)
    }

    /// The seams of a piece with its neighbours, measured on all pieces put together.
    fn seam_facts(&self, piece: usize, making: &Making) -> Result<Vec<Fact>, Vec<Problem>> {
        let sides = self.shape.made_of.sides();
        let count = 4 / sides;
        if count == 1 {
            return Ok(Vec::new());
        }
        let standing = |number: usize| {
            let flats = facets::flats(self, [number * sides, (number + 1) * sides]);
            let (part, _) = facets::fold(self, &flats, making).map_err(|problem| vec![problem])?;
            let root = self.root(number);
            Ok(Standing { name: format!("piece {}", number + 1), part, root })
        };
        let pieces: Vec<Standing> = (0..count).map(standing).collect::<Result<_, Vec<Problem>>>()?;
        let joint = |number: usize| {
            let next = (number + 1) % count;
            let (face, edge) = facets::carrier(&pieces[number].part, self.lap.is_some());
            let (a, b) = pieces[next].part.faces[0].edge(0);
            let (style, words) = match self.lap {
                Some(lap) => (lap.style(), "lap, flat on flat"),
                None => (SeamStyle::Open, "butt, edge to edge"),
            };
            let joint = Joint {
                name: format!("piece {} to piece {} on {}", number + 1, next + 1, side_name(next * sides)),
                // What carries the strip of a lap is the second side.
                first: JointEnd { piece: next, face: 0, edge: 0 },
                second: JointEnd { piece: number, face, edge },
                inside_angle_rad: std::f64::consts::PI,
                length_mm: a.distance(b),
                style,
                gap_mm: making.seam_gap.millimetres(),
            };
            Joined { joint, style: words.to_owned() }
        };
        let joints: Vec<Joined> = (0..count).map(joint).collect();
        joined::seam_facts(piece, &pieces, &joints, ["seam", "divisions"], making)
    }

    /// A place on the round: `step` divisions on in the quarter from side `quarter` to the next, as the corners run.
    fn round_at(&self, quarter: usize, step: usize) -> Point3 {
        let whole = |number: usize| u32::try_from(number).map_or(0.0, f64::from);
        let begins = (whole(quarter) - 1.0) * FRAC_PI_2 + self.half_flat_rad(quarter);
        let ends = whole(quarter) * FRAC_PI_2 - self.half_flat_rad(quarter + 1);
        self.shape.on_round(begins + (ends - begins) * whole(step) / whole(self.shape.per_quarter()))
    }

    /// Half of what the round is left flat for at the middle of a side, about its middle.
    fn half_flat_rad(&self, side: usize) -> f64 {
        let at_seam = side.is_multiple_of(self.shape.made_of.sides());
        if at_seam { self.half_flat_rad } else { 0.0 }
    }

    /// Where the line down the middle of a side ends on the round.
    fn top(&self, side: usize) -> Point3 {
        let before = self.round_at((side + 3) % 4, self.shape.per_quarter());
        before.toward(self.round_at(side % 4, 0), 0.5)
    }

    /// The true lengths of every line that the piece from side `from` to side `to` is laid out by.
    fn lengths(&self, [from, to]: [usize; 2]) -> Vec<Fact> {
        let shape = self.shape;
        let (quarter, around) = (shape.per_quarter(), 4 * shape.per_quarter());
        let mut facts = Vec::new();
        let mut add = |name: String, a: Point3, b: Point3| {
            let origin = "true length: √(plan² + height²)";
            facts.push(Fact::length_mm(name, a.distance(b), origin));
        };
        add(format!("seam on {}", side_name(from)), shape.middle(from), self.top(from));
        for side in from..to {
            let corner = shape.corner(side + 1);
            for step in 0..=quarter {
                let name = format!("{} to {}", CORNERS[(side + 1) % 4], (side * quarter + step) % around);
                add(name, corner, self.round_at(side % 4, step));
            }
        }
        if to < from + 4 {
            add(format!("seam on {}", side_name(to)), shape.middle(to), self.top(to));
        }
        if self.half_flat_rad <= 0.0 {
            add("between divisions of the round".to_owned(), self.round_at(0, 0), self.round_at(0, 1));
            return facts;
        }
        for side in from..to {
            let name = format!("between divisions of the round, from {}", CORNERS[(side + 1) % 4]);
            add(name, self.round_at(side % 4, 0), self.round_at(side % 4, 1));
        }
        facts
    }

    /// The round end is a polygon: how much shorter it is than its circle.
    fn girth(&self) -> [Fact; 2] {
        let last = self.shape.per_quarter();
        let around = |quarter: usize| {
            let chord = self.round_at(quarter, 0).distance(self.round_at(quarter, 1));
            let flat = self.round_at(quarter, last).distance(self.round_at((quarter + 1) % 4, 0));
            f64::from(self.shape.divisions) * chord + flat
        };
        let girth: f64 = (0..4).map(around).sum();
        let circle = std::f64::consts::PI * self.shape.round.millimetres();
        [
            Fact::length_mm("girth of the round end", girth, "outside, over the divisions"),
            Fact::length_mm("short of its circle by", circle - girth, "more divisions lessen it"),
        ]
    }
}

impl Transition {
    fn check(&self, making: &Making) -> Result<(), Vec<Problem>> {
        let mut problems = Vec::new();
        for (number, size) in self.rectangle.iter().enumerate() {
            making.above_zero(&format!("rectangle[{number}]"), *size, &mut problems);
        }
        making.above_zero("round", self.round, &mut problems);
        making.above_zero("height", self.height, &mut problems);
        if !(1..=nearest::MOST_DIVISIONS).contains(&self.divisions) {
            let value = self.divisions.to_string();
            let remedy = "give 1 to 12; 3 or 4 are usual";
            problems.push(Problem::new("divisions", value, "no such number of triangles a quarter", remedy));
        }
        if let WrapSeam::Lap { width, .. } = self.seam {
            making.above_zero("seam.lap", width, &mut problems);
        }
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }

    /// A corner of the rectangle, counted on past D to A.
    fn corner(&self, number: usize) -> Point3 {
        let [x, y] = self.rectangle.map(|size| 0.5 * size.millimetres());
        let (x, y) = [(-x, -y), (x, -y), (x, y), (-x, y)][number % 4];
        Point3::new(x, y, 0.0)
    }

    /// A place on the round, at an angle from the middle of side BC on, as the corners run.
    fn on_round(&self, angle_rad: f64) -> Point3 {
        let radius = 0.5 * self.round.millimetres();
        let [x, y] = self.offset.map(Length::millimetres);
        let direction = geometry::Vector::at_angle(angle_rad);
        Point3::new(x + radius * direction.x, y + radius * direction.y, self.height.millimetres())
    }

    /// The middle of a side of the rectangle.
    fn middle(&self, side: usize) -> Point3 {
        self.corner(side).toward(self.corner(side + 1), 0.5)
    }

    fn per_quarter(&self) -> usize {
        usize::try_from(self.divisions).unwrap_or(1)
    }
}

fn side_name(side: usize) -> String {
    format!("{}{}", CORNERS[side % 4], CORNERS[(side + 1) % 4])
}

/// Two planes that make no bend worth a line.
fn no_bend(turn_rad: f64) -> bool {
    turn_rad <= tolerance::PARALLEL_SINE
}
