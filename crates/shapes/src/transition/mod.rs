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

mod facets;

use fold::part::SeamStyle;
use fold::refold::{Joint, JointEnd};
use geometry::{Frame, Point3, tolerance};
use units::Length;

use crate::joined::{self, Joined, Standing};
use crate::{FaceSide, Fact, Making, Piece, Problem, Recipe, Shaped};

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
        let sides = self.made_of.sides();
        let span = [piece * sides, (piece + 1) * sides];
        let flats = facets::flats(self, span);
        let (part, reliefs) = facets::fold(self, &flats, making).map_err(|problem| vec![problem])?;
        let mut facts = self.lengths(span);
        for (corner, radius_mm) in reliefs {
            let name = format!("cut away about corner {corner}");
            facts.push(Fact::length_mm(name, radius_mm, "radius; where its bend zones would cross"));
        }
        facts.extend(self.girth());
        facts.extend(self.seam_facts(piece, making)?);
        Ok(Shaped { part, facts })
    }
}

impl Transition {
    /// The seams of a piece with its neighbours, measured on all pieces put together.
    fn seam_facts(&self, piece: usize, making: &Making) -> Result<Vec<Fact>, Vec<Problem>> {
        let sides = self.made_of.sides();
        let count = 4 / sides;
        if count == 1 {
            return Ok(Vec::new());
        }
        let standing = |number: usize| {
            let flats = facets::flats(self, [number * sides, (number + 1) * sides]);
            let (part, _) = facets::fold(self, &flats, making).map_err(|problem| vec![problem])?;
            let root = facets::root_frame(self, &flats).unwrap_or(Frame::WORLD);
            Ok(Standing { name: format!("piece {}", number + 1), part, root })
        };
        let pieces: Vec<Standing> = (0..count).map(standing).collect::<Result<_, Vec<Problem>>>()?;
        let joint = |number: usize| {
            let next = (number + 1) % count;
            let (face, edge) = (pieces[number].part.faces.len() - 1, facets::SEAM_EDGE);
            let (a, b) = pieces[number].part.faces[face].edge(edge);
            let joint = Joint {
                name: format!("piece {} to piece {} on {}", number + 1, next + 1, side_name(next * sides)),
                first: JointEnd { piece: number, face, edge },
                second: JointEnd { piece: next, face: 0, edge: 0 },
                inside_angle_rad: std::f64::consts::PI,
                length_mm: a.distance(b),
                style: SeamStyle::Open,
                gap_mm: making.seam_gap.millimetres(),
            };
            Joined { joint, style: "butt, edge to edge".to_owned() }
        };
        let joints: Vec<Joined> = (0..count).map(joint).collect();
        joined::seam_facts(piece, &pieces, &joints, ["seam", "divisions"], making)
    }

    fn check(&self, making: &Making) -> Result<(), Vec<Problem>> {
        let mut problems = Vec::new();
        for (number, size) in self.rectangle.iter().enumerate() {
            making.above_zero(&format!("rectangle[{number}]"), *size, &mut problems);
        }
        making.above_zero("round", self.round, &mut problems);
        making.above_zero("height", self.height, &mut problems);
        if !(1..=12).contains(&self.divisions) {
            let value = self.divisions.to_string();
            let remedy = "give 1 to 12; 3 or 4 are usual";
            problems.push(Problem::new("divisions", value, "no such number of triangles a quarter", remedy));
        }
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }

    /// A corner of the rectangle, counted on past D to A.
    fn corner(&self, number: usize) -> Point3 {
        let [x, y] = self.rectangle.map(|size| 0.5 * size.millimetres());
        let (x, y) = [(-x, -y), (x, -y), (x, y), (-x, y)][number % 4];
        Point3::new(x, y, 0.0)
    }

    /// A division of the round, counted from the middle of side AB on, as the corners run.
    fn division(&self, number: usize) -> Point3 {
        let quarter = f64::from(self.divisions);
        let count = u32::try_from(number % self.around()).map_or(0.0, f64::from);
        let angle = (count / quarter - 1.0) * std::f64::consts::FRAC_PI_2;
        let radius = 0.5 * self.round.millimetres();
        let [x, y] = self.offset.map(Length::millimetres);
        let direction = geometry::Vector::at_angle(angle);
        Point3::new(x + radius * direction.x, y + radius * direction.y, self.height.millimetres())
    }

    /// The middle of a side of the rectangle.
    fn middle(&self, side: usize) -> Point3 {
        self.corner(side).toward(self.corner(side + 1), 0.5)
    }

    fn per_quarter(&self) -> usize {
        usize::try_from(self.divisions).unwrap_or(1)
    }

    fn around(&self) -> usize {
        4 * self.per_quarter()
    }

    /// The true lengths of every line that the piece from side `from` to side `to` is laid out by.
    fn lengths(&self, [from, to]: [usize; 2]) -> Vec<Fact> {
        let quarter = self.per_quarter();
        let mut facts = Vec::new();
        let mut add = |name: String, a: Point3, b: Point3| {
            let origin = "true length: √(plan² + height²)";
            facts.push(Fact::length_mm(name, a.distance(b), origin));
        };
        add(format!("seam on {}", side_name(from)), self.middle(from), self.division(from * quarter));
        for side in from..to {
            let corner = self.corner(side + 1);
            for number in side * quarter..=(side + 1) * quarter {
                let name = format!("{} to {}", CORNERS[(side + 1) % 4], number % self.around());
                add(name, corner, self.division(number));
            }
        }
        if to < from + 4 {
            add(format!("seam on {}", side_name(to)), self.middle(to), self.division(to * quarter));
        }
        add("between divisions of the round".to_owned(), self.division(0), self.division(1));
        facts
    }

    /// The round end is a polygon: how much shorter it is than its circle.
    fn girth(&self) -> [Fact; 2] {
        let chord = self.division(0).distance(self.division(1));
        let around = f64::from(4 * self.divisions);
        let circle = std::f64::consts::PI * self.round.millimetres();
        [
            Fact::length_mm("girth of the round end", around * chord, "outside, over the divisions"),
            Fact::length_mm("short of its circle by", circle - around * chord, "more divisions lessen it"),
        ]
    }
}

fn side_name(side: usize) -> String {
    format!("{}{}", CORNERS[side % 4], CORNERS[(side + 1) % 4])
}

/// Two planes that make no bend worth a line.
fn no_bend(turn_rad: f64) -> bool {
    turn_rad <= tolerance::PARALLEL_SINE
}
