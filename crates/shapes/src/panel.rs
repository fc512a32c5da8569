//! A panel of any straight-sided outline, with holes, notches, and flanges up or down on chosen sides. The marked face
//! is the upper one, as drawn from above. Sides and legs are to the outside of the metal; above a quarter turn both
//! are to the outermost metal, as the handbooks measure.

mod nearest;
mod notch;
mod size;

use fold::Direction::{self, Down, Up};
use fold::bend::formula;
use geometry::{Contour, Plane, Vector3, polygon, tolerance, trig};
use units::{Angle, Length};

use crate::edge::{self, EdgeEnd};
use crate::hole::Hole;
use crate::making::ring_problem;
use crate::nearest::Way;
use crate::plan::{at_height, cut_back_facts, side_directions, side_facts};
use crate::ring::{Band, Ring, RingSide};
use crate::{Fact, Figure, Making, Problem, Recipe, Shaped};

pub use notch::Notch;
pub(crate) use notch::cut as cut_notches;

/// Largest turn of a flange; beyond it the leg lies nearly flat on the panel and is a hem.
const MOST_TURN_DEGREES: f64 = 150.0;

/// A panel.
#[derive(Debug, Clone, PartialEq)]
pub struct Panel {
    /// Its outline to the outside, seen from above.
    pub outline: Figure,
    /// Flanges.
    pub flanges: Vec<Flange>,
    /// Holes, from the same origin as the outline's corners.
    pub holes: Vec<Hole>,
    /// Notches.
    pub notches: Vec<Notch>,
    /// What is done to the edge of a side, or of its flange, by the side's name.
    pub edges: Vec<(String, EdgeEnd)>,
}

/// A flange on one side.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Flange {
    /// The side: "AB".
    pub side: String,
    /// From the outside of the panel's corner to the edge of the flange.
    pub leg: Length,
    /// Up or down, seen from above.
    pub direction: Direction,
    /// Turn from flat.
    pub turn: Angle,
    /// How far it stops short of the side's first and second named corner.
    pub short: [Length; 2],
}

impl Recipe for Panel {
    fn word(&self) -> &'static str {
        "panel"
    }

    fn words(&self) -> &'static str {
        "panel"
    }

    fn tight_field(&self) -> &'static str {
        "flanges"
    }

    fn shape_piece(&self, _: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        self.shape(making)
    }

    fn ways<'a>(&'a self, making: &'a Making) -> Vec<Way<'a>> {
        self.sizes(making)
    }

    fn nearest_remedy(&self, making: &Making) -> Option<String> {
        self.nearest_short(making)
    }
}

impl Panel {
    /// Shapes the panel.
    ///
    /// # Errors
    /// Every [`Problem`]: an outline that crosses itself, flanges on sides that are not there or twice on one side,
    /// turns or legs out of range, holes and notches that cannot be.
    pub fn shape(&self, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let mut problems = self.check(making);
        let holes = contours(&self.holes, making, &mut problems);
        let notched = cut_notches(&self.outline, &self.notches, making, &mut problems);
        if !problems.is_empty() {
            return Err(problems);
        }
        let outline = self.to_mold_lines(&notched, making)?;
        let sides = (0..outline.count()).map(|side| self.side((&notched, &outline), side, making));
        let sides = sides.collect::<Result<Vec<RingSide>, Problem>>().map_err(|problem| vec![problem])?;
        let ring = Ring {
            name: "panel".to_owned(),
            corners: outline.corners.clone(),
            corner_names: outline.names.clone(),
            sides,
            holes,
            number: making.number.clone(),
            making: making.corners(),
        };
        let mut built = ring.build().map_err(|error| vec![ring_problem(&error, "flanges", making)])?;
        built.part.sizes = size::sizes(self, &outline, &built);
        let ends: Vec<EdgeEnd> = outline.sides.iter().map(|side| self.edge(side)).collect();
        let fields: Vec<String> = outline.sides.iter().map(|side| format!("edges.{side}")).collect();
        let mut facts = side_facts(&self.outline, "side", "outline");
        facts.extend(self.flanges.iter().filter_map(past_square_fact));
        facts.extend(cut_back_facts(&self.outline, &notched));
        facts.extend(edge::finish(&mut built, &ring, &ends, (making, &fields))?);
        Ok(Shaped { part: built.part, facts })
    }

    fn check(&self, making: &Making) -> Vec<Problem> {
        let mut problems = outline_problems(&self.outline);
        for (side, _) in &self.edges {
            if self.outline.side_number(side).is_none() {
                let remedy = format!("the sides are {}", self.outline.sides.join(", "));
                let field = format!("edges.{side}");
                problems.push(Problem::new(field, side, "the outline has no such side", remedy));
            }
        }
        for (number, flange) in self.flanges.iter().enumerate() {
            let field = format!("flanges.{}", flange.side);
            let twice = self.flanges[..number]
                .iter()
                .any(|other| self.outline.side_number(&other.side) == self.outline.side_number(&flange.side));
            if self.outline.side_number(&flange.side).is_none() {
                let remedy = format!("the sides are {}", self.outline.sides.join(", "));
                problems.push(Problem::new(&field, &flange.side, "the outline has no such side", remedy));
            } else if twice {
                problems.push(Problem::new(&field, &flange.side, "this side has two flanges", "keep one"));
            }
            making.above_zero(&format!("{field}.leg"), flange.leg, &mut problems);
            for short in flange.short {
                making.not_below_zero(&format!("{field}.short"), short, &mut problems);
            }
            problems.extend(self.short_problem(flange, making));
            let degrees = flange.turn.degrees();
            if !(degrees > 0.0 && degrees <= MOST_TURN_DEGREES) {
                let wrong = format!("a flange turns by more than 0 and up to {MOST_TURN_DEGREES}°");
                let remedy = "measure the turn from flat: a square flange is 90";
                problems.push(Problem::new(format!("{field}.turn"), format!("{degrees}°"), wrong, remedy));
            }
        }
        problems
    }

    /// A flange that stops short of both corners must leave something between.
    fn short_problem(&self, flange: &Flange, making: &Making) -> Option<Problem> {
        let side_mm = self.outline.side_mm(self.outline.side_number(&flange.side)?);
        let [first, second] = flange.short;
        ((first + second).millimetres() >= side_mm).then(|| {
            let value = format!("{} + {}", making.print(first), making.print(second));
            let wrong = format!("together as long as the side, {}, or longer", making.print_mm(side_mm));
            Problem::new(
                format!("flanges.{}.short", flange.side),
                value,
                wrong,
                "leave some of the side to the flange",
            )
        })
    }

    /// Whether two of its flanges meet at a corner: both bent the same way, and neither stops short of it.
    #[must_use]
    pub fn has_corners(&self) -> bool {
        let outline = &self.outline;
        let count = outline.count();
        let reaches = |side: usize, corner: usize| {
            let flange = self.flange(&outline.sides[side % count])?;
            let end = usize::from(!flange.side.starts_with(outline.names[corner % count].as_str()));
            (flange.short[end] <= Length::ZERO).then_some(flange.direction)
        };
        (0..count).any(|side| {
            let both = [reaches(side, side + 1), reaches(side + 1, side + 1)];
            both[0].is_some() && both[0] == both[1]
        })
    }

    fn edge(&self, side: &str) -> EdgeEnd {
        let same = |name: &str| name == side || name.chars().rev().collect::<String>() == side;
        self.edges.iter().find(|(name, _)| same(name)).map_or(EdgeEnd::Plain, |(_, end)| *end)
    }

    fn flange(&self, side: &str) -> Option<&Flange> {
        self.flanges
            .iter()
            .find(|flange| flange.side == side || flange.side.chars().rev().collect::<String>() == side)
    }

    /// Above a quarter turn the mold line lies beyond the outermost metal, to which the outline is drawn.
    fn to_mold_lines(&self, outline: &Figure, making: &Making) -> Result<Figure, Vec<Problem>> {
        let beyond =
            |name: &String| self.flange(name).map_or(0.0, |flange| beyond_capped_mm(making, flange.turn));
        let outward: Vec<f64> = outline.sides.iter().map(beyond).collect();
        if outward.iter().all(|&mm| mm <= 0.0) {
            return Ok(outline.clone());
        }
        let wrong = "sides beside a flange of more than 90° run nearly parallel to it";
        let problem = || vec![Problem::new("flanges", "as given", wrong, "turn that flange by 90° or less")];
        outline.moved(&outward).ok_or_else(problem)
    }

    /// One side, of the outline as drawn and of that to the mold lines.
    fn side(
        &self,
        (drawn, outline): (&Figure, &Figure),
        side: usize,
        making: &Making,
    ) -> Result<RingSide, Problem> {
        let name = &outline.sides[side];
        let Some(flange) = self.flange(name) else {
            return Ok(RingSide {
                bands: Vec::new(),
                cut: None,
                short_mm: [0.0, 0.0],
                bare_inside_mm: 0.0,
                limits: Vec::new(),
            });
        };
        let thickness = making.thickness_mm();
        let (_, outward) = side_directions(outline, side);
        let up = Vector3::new(0.0, 0.0, 1.0);
        let (sine, cosine) = (trig::sin(flange.turn.radians()), trig::cos(flange.turn.radians()));
        let (lift, mold_z) = match flange.direction {
            Up => (sine, 0.0),
            Down => (-sine, thickness),
        };
        let leg_direction = outward * cosine + up * lift;
        let normal = outward * -lift + up * cosine;
        let mold = at_height(outline.corners[side], mold_z);
        let beyond_mm = beyond_capped_mm(making, flange.turn);
        let leg = flange.leg.millimetres() + beyond_mm;
        let forward = outline.names[side].as_str() == &name[..outline.names[side].len().min(name.len())];
        let [first, second] = flange.short;
        let short = if forward { [first, second] } else { [second, first] };
        let short_mm = short_of_mold_corners((drawn, outline), side, short)
            .map_err(|(short, taken_mm)| beside_problem(flange, (short, taken_mm), making))?;
        Ok(RingSide {
            bands: vec![Band {
                name: format!("flange {name}"),
                plane: Plane::through(mold, normal).moved(-mold_z),
                direction: flange.direction,
            }],
            cut: Some(Plane::through(mold + leg_direction * leg, leg_direction)),
            short_mm,
            bare_inside_mm: beyond_mm,
            limits: Vec::new(),
        })
    }
}

/// How far a bend stops short of its side's corners on the mold lines, mm, where it stops so far short of the corners as
/// drawn; or, in a hollow, how far short of which corner the bend of the side beside it takes all, and how much it takes, mm.
fn short_of_mold_corners(
    (drawn, outline): (&Figure, &Figure),
    side: usize,
    short: [Length; 2],
) -> Result<[f64; 2], (Length, f64)> {
    let ((a, b), (from, to)) = (drawn.side(side), outline.side(side));
    let along = (b - a).unit();
    let mut left_mm = [0.0, 0.0];
    for (end, more_mm) in [(a - from).dot(along), (to - b).dot(along)].into_iter().enumerate() {
        // A flange that runs to its corner runs to the mold lines' corner.
        if short[end] > Length::ZERO {
            left_mm[end] = short[end].millimetres() + more_mm;
            if left_mm[end] <= tolerance::SAME_POINT_MM {
                return Err((short[end], -more_mm));
            }
        }
    }
    Ok(left_mm)
}

fn beside_problem(flange: &Flange, (short, taken_mm): (Length, f64), making: &Making) -> Problem {
    let taken = making.print_mm(taken_mm);
    let wrong = format!("the bend of the side beside it stands out {taken} there");
    let field = format!("flanges.{}.short", flange.side);
    Problem::new(field, making.print(short), wrong, format!("stop it more than {taken} short"))
}

/// To what the leg of a flange past square is measured, and the panel beside it; `None` up to a quarter turn, where both run to
/// where the outsides meet.
fn past_square_fact(flange: &Flange) -> Option<Fact> {
    let name = format!("leg of flange {}, from the outermost metal of its bend to its edge", flange.side);
    let origin =
        "flanges; past square the panel too ends at the outermost metal, R + T past the tangent line";
    (flange.turn > Angle::RIGHT).then(|| Fact::length_mm(name, flange.leg.millimetres(), origin))
}

/// How far the mold line lies beyond the outermost metal; zero up to a quarter turn, mm.
pub(crate) fn beyond_capped_mm(making: &Making, turn: Angle) -> f64 {
    let (radius, thickness) = (making.number.inside_radius().millimetres(), making.thickness_mm());
    formula::setback(turn.radians(), radius, thickness)
        - formula::capped_setback(turn.radians(), radius, thickness)
}

/// What is wrong with an outline as such.
pub(crate) fn outline_problems(outline: &Figure) -> Vec<Problem> {
    match polygon::self_crossing(&outline.corners) {
        Some((first, second)) => {
            let value = format!("{} and {}", outline.sides[first], outline.sides[second]);
            let remedy = "give the corners in order, once round";
            vec![Problem::new("outline", value, "these sides cross or touch", remedy)]
        }
        None => Vec::new(),
    }
}

/// Contours of all holes, with the problems found on the way.
pub(crate) fn contours(holes: &[Hole], making: &Making, problems: &mut Vec<Problem>) -> Vec<Contour> {
    let mut contours = Vec::new();
    for (number, hole) in holes.iter().enumerate() {
        match hole.contour(making, &format!("holes[{number}]")) {
            Ok(contour) => contours.push(contour),
            Err(more) => problems.extend(more),
        }
    }
    contours
}
