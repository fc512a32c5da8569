//! A coaming: a plumb upstand round an opening, with or without a level flange at its top. Of one strip bent round the
//! corners, or of a piece for each side. Sized to the inside; the marked face is the outside.

use fold::flat::{self, UnfoldError};
use fold::part::Side::{Back, Face};
use geometry::{Frame, Vector3};
use units::Length;

use crate::pan::Rim;
use crate::plan::{at_height, side_facts};
use crate::shell::{Shell, ShellPlate, shell_problem};
use crate::{FaceSide, Fact, Figure, Making, Piece, Problem, Recipe, Shaped, not_convex, whole};

/// A coaming round an opening.
#[derive(Debug, Clone, PartialEq)]
pub struct Coaming {
    /// The opening.
    pub opening: Figure,
    /// How far the inside of the coaming stands outside the opening; never below zero, where it would fall through.
    pub outset: Length,
    /// From its foot to the top of its flange or edge.
    pub height: Length,
    /// Level flange at the top, so wide from the inside of the wall.
    pub top: Rim,
    /// How it is made up.
    pub made: CoamingMade,
}

/// How a coaming is made up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CoamingMade {
    /// One strip, bent round all corners but the first, where it is welded.
    Strip,
    /// A piece for each side, welded at the corners.
    Sides,
}

impl Recipe for Coaming {
    fn word(&self) -> &'static str {
        "coaming"
    }

    fn words(&self) -> &'static str {
        "coaming"
    }

    fn natural_face(&self) -> Option<FaceSide> {
        Some(FaceSide::Outside)
    }

    fn tight_field(&self) -> &'static str {
        "top"
    }

    fn pieces(&self) -> Vec<Piece> {
        let piece = |side: &String| Piece {
            suffix: side.clone(),
            words: format!("side {side} of the coaming"),
            count: 1,
        };
        match self.made {
            CoamingMade::Strip => Vec::new(),
            CoamingMade::Sides => self.opening.sides.iter().map(piece).collect(),
        }
    }

    fn shape_piece(&self, piece: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        self.check(making)?;
        let wall = self.wall()?;
        let shell = self.shell(&wall, making)?;
        let count = wall.count();
        let root = match self.made {
            CoamingMade::Strip => (weld_corner(&wall) + count / 2) % count,
            CoamingMade::Sides => piece.min(count - 1),
        };
        let built = shell.piece(root).map_err(|error| vec![shell_problem(&error, "top", making)])?;
        if let Err(UnfoldError::Overlap { first, second }) = flat::unfold(&built.part) {
            let wrong = format!("{first} and {second} would lie on one another in the flat");
            return Err(vec![Problem::new(
                "made",
                "strip",
                wrong,
                "make it of sides, or turn the flange inward",
            )]);
        }
        let mut facts = side_facts(&wall, "inside", "opening, outset");
        for (corner, name) in wall.names.iter().enumerate() {
            let turn = std::f64::consts::PI - wall.corner_angle(corner);
            facts.push(Fact::angle_rad(
                format!("turn at corner {name}"),
                turn,
                "180° less the opening's angle",
            ));
        }
        facts.extend(shell.weld_facts(&built, making)?);
        Ok(Shaped { part: built.part, facts })
    }

    fn put_together(&self, making: &Making) -> Vec<(usize, Frame)> {
        let (CoamingMade::Sides, Ok(wall)) = (self.made, self.wall()) else { return Vec::new() };
        let roots = self.shell(&wall, making).map(|shell| shell.roots(0..wall.count()));
        whole::numbered(roots.unwrap_or_default())
    }

    fn whole_sizes(&self, making: &Making) -> Vec<Fact> {
        let Ok(wall) = self.wall() else { return Vec::new() };
        vec![
            Fact::words("between the walls, inside", whole::sides_words(&wall, making), "opening, outset"),
            Fact::words("height", format!("{} at every corner", making.print(self.height)), "height"),
        ]
    }
}

impl Coaming {
    fn check(&self, making: &Making) -> Result<(), Vec<Problem>> {
        let mut problems = Vec::new();
        making.above_zero("height", self.height, &mut problems);
        making.not_below_zero("outset", self.outset, &mut problems);
        if let Rim::Out(width) | Rim::In(width) = self.top {
            making.above_zero("top", width, &mut problems);
        }
        if let Some(fault) = not_convex(&self.opening.corners, &self.opening.names, making.style) {
            let wrong = format!("{}; a coaming does not turn round it here", fault.wrong);
            problems.push(Problem::new("opening", "the opening", wrong, fault.remedy));
        }
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }

    fn wall(&self) -> Result<Figure, Vec<Problem>> {
        let none = || {
            let remedy = "tape the opening again";
            vec![Problem::new("opening", "the opening", "its sides are parallel where they meet", remedy)]
        };
        self.opening.grown(self.outset.millimetres()).ok_or_else(none)
    }

    /// The walls first, then their flanges.
    fn shell(&self, wall: &Figure, making: &Making) -> Result<Shell, Vec<Problem>> {
        let mut shell = Shell {
            plates: Vec::new(),
            bends: Vec::new(),
            number: making.number.clone(),
            making: making.corners(),
        };
        let count = wall.count();
        let up = Vector3::new(0.0, 0.0, self.height.millimetres());
        let ends = |figure: &Figure, side: usize| {
            [side, side + 1].map(|at| at_height(figure.corners[at % count], 0.0))
        };
        for (side, name) in wall.sides.iter().enumerate() {
            let [a, b] = ends(wall, side);
            shell.plates.push(ShellPlate::new(format!("wall {name}"), vec![a, b, b + up, a + up], Back));
        }
        if self.made == CoamingMade::Strip {
            let weld = weld_corner(wall);
            let corners = (1..count).map(|step| (weld + step) % count);
            shell.bends.extend(corners.map(|corner| ((corner + count - 1) % count, corner)));
        }
        let (outward_mm, sized_to) = match self.top {
            Rim::None => return Ok(shell),
            Rim::Out(width) => (width.millimetres(), Back),
            Rim::In(width) => (-width.millimetres(), Face),
        };
        let edge = wall.grown(outward_mm).ok_or_else(|| {
            let narrow = (0..count).map(|side| wall.side_mm(side)).fold(f64::INFINITY, f64::min);
            let remedy = making.keep_under(0.5 * narrow, "the opening has no width");
            vec![Problem::new(
                "top",
                making.print_mm(outward_mm.abs()),
                "the flanges of opposite sides meet",
                remedy,
            )]
        })?;
        for (side, name) in wall.sides.iter().enumerate() {
            let ([a, b], [d, c]) = (ends(wall, side), ends(&edge, side));
            let corners = vec![a + up, b + up, c + up, d + up];
            shell.bends.push((side, shell.plates.len()));
            shell.plates.push(ShellPlate::new(format!("flange {name}"), corners, sized_to));
        }
        Ok(shell)
    }
}

/// The corner where a strip is welded: the first by name, whichever way the corners run.
fn weld_corner(wall: &Figure) -> usize {
    let names = &wall.names;
    (0..names.len()).min_by(|&a, &b| names[a].cmp(&names[b])).unwrap_or(0)
}
