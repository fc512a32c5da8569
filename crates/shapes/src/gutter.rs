//! A gutter under a hatch: a channel for each side of the opening, mitred at both ends to the half of the opening's own
//! angle there, so that four channels close over any opening however crooked. Sizes are to the outside; the marked face
//! is the inside, where the water runs.

use fold::part::Side::Back;
use fold::part::{Measure, Size};
use geometry::{Frame, Point3, Vector3};
use units::Length;

use crate::cylinder::Cylinder;
use crate::plan::at_height;
use crate::shell::{Shell, ShellPiece, ShellPlate, shell_problem};
use crate::wrap::{DiameterTo, RolledSizes, WrapMaking, WrapSeam};
use crate::{FaceSide, Fact, Figure, Making, Piece, Places, Problem, Recipe, Shaped, whole};

/// A gutter round an opening.
#[derive(Debug, Clone, PartialEq)]
pub struct Gutter {
    /// The opening.
    pub opening: Figure,
    /// How far the outside of the outer wall stands outside the opening; below zero it stands inside.
    pub outset: Length,
    /// Over both walls.
    pub width: Length,
    /// From the outside of the bottom to the top of the outer wall.
    pub depth: Length,
    /// The same for the inner wall.
    pub inner_depth: Length,
    /// A drain hole, with or without a spout in it.
    pub drain: Option<GutterDrain>,
}

/// A drain hole in the bottom, beside a corner.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct GutterDrain {
    /// The corner; the hole is in the channel that starts there.
    pub corner: String,
    /// Diameter of the hole, or of the inside of its spout.
    pub diameter: Length,
    /// A spout through the hole, rolled of the gutter's own metal; a bare hole when not given.
    pub spout: Option<GutterSpout>,
}

/// A tube through the bottom, its upper end flush with the inside of that and welded round.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct GutterSpout {
    /// From its upper end.
    pub length: Length,
    /// Between the spout and the edge of its hole, all round.
    pub clearance: Length,
}

impl Recipe for Gutter {
    fn word(&self) -> &'static str {
        "gutter"
    }

    fn words(&self) -> &'static str {
        "gutter"
    }

    fn natural_face(&self) -> Option<FaceSide> {
        Some(FaceSide::Inside)
    }

    fn tight_field(&self) -> &'static str {
        "width"
    }

    fn pieces(&self) -> Vec<Piece> {
        let piece = |side: &String| Piece {
            suffix: side.clone(),
            words: format!("channel {side} of the gutter"),
            count: 1,
        };
        let spout =
            || Piece { suffix: "spout".to_owned(), words: "spout of the gutter".to_owned(), count: 1 };
        let spout = self.drain.iter().filter(|drain| drain.spout.is_some()).map(|_| spout());
        self.opening.sides.iter().map(piece).chain(spout).collect()
    }

    fn shape_piece(&self, piece: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        self.check(making)?;
        if let Some(drain) = self.drain.as_ref().filter(|_| self.opening.count() <= piece) {
            return drain.shape_spout(making);
        }
        let (outer, inner) = self.plan(making)?;
        let shell = self.shell(&outer, &inner, making);
        let root = 3 * piece.min(outer.count() - 1);
        let mut built = shell.piece(root).map_err(|error| vec![shell_problem(&error, "width", making)])?;
        let sizes = self.sizes(&built, root);
        built.part.sizes.extend(sizes);
        let mut facts = self.facts(&outer, &inner, making);
        facts.extend(shell.weld_facts(&built, making)?);
        Ok(Shaped { part: built.part, facts })
    }

    fn rolled_sizes(&self, piece: usize, making: &Making) -> Option<RolledSizes> {
        let drain = self.drain.as_ref().filter(|_| self.opening.count() <= piece)?;
        drain.tube().round(making).map(|round| round.sizes())
    }

    fn put_together(&self, making: &Making) -> Vec<(usize, Frame)> {
        let Ok((outer, inner)) = self.plan(making) else { return Vec::new() };
        whole::numbered(self.shell(&outer, &inner, making).roots((0..outer.count()).map(|side| 3 * side)))
    }

    fn whole_sizes(&self, making: &Making) -> Vec<Fact> {
        let Ok((outer, inner)) = self.plan(making) else { return Vec::new() };
        let sides = |name: &str, figure: &Figure| {
            Fact::words(name, whole::sides_words(figure, making), "opening, outset, width")
        };
        vec![
            sides("over the outer walls, outside", &outer),
            sides("between the inner walls, on their sides to the opening", &inner),
        ]
    }

    fn places(&self, piece: usize, making: &Making) -> Places {
        let Ok((outer, inner)) = self.plan(making) else { return Places::default() };
        if outer.count() <= piece {
            return Places::default();
        }
        let side = piece;
        let shell = self.shell(&outer, &inner, making);
        let next = (side + 1) % outer.count();
        let letters = [&outer.names[side], &outer.names[next]];
        Places {
            corners: shell.lettered(3 * side, &letters.map(|name| Some(name.clone()))),
            ..Places::default()
        }
    }
}

impl Gutter {
    fn check(&self, making: &Making) -> Result<(), Vec<Problem>> {
        let mut problems = Vec::new();
        making.above_zero("width", self.width, &mut problems);
        making.above_zero("depth", self.depth, &mut problems);
        making.above_zero("inner_depth", self.inner_depth, &mut problems);
        if let Some(drain) = &self.drain {
            making.above_zero("drain.diameter", drain.diameter, &mut problems);
            if !self.opening.names.contains(&drain.corner) {
                let remedy = format!("the corners are {}", self.opening.names.join(", "));
                problems.push(Problem::new(
                    "drain.corner",
                    &drain.corner,
                    "the opening has no such corner",
                    remedy,
                ));
            }
            if let Some(spout) = &drain.spout {
                making.not_below_zero("drain.spout.clearance", spout.clearance, &mut problems);
                if spout.length <= making.number.thickness() {
                    let wrong = "does not come through the bottom";
                    let remedy = format!("make it longer than {}", making.print(making.number.thickness()));
                    problems.push(Problem::new(
                        "drain.spout.length",
                        making.print(spout.length),
                        wrong,
                        remedy,
                    ));
                }
            }
            // The flat of the bottom lies between the tangent lines of its two bends.
            let bends = making.number.thickness() + making.number.inside_radius();
            let most = self.width - bends - bends - (drain.hole(making) - drain.diameter);
            if most <= drain.diameter {
                let wrong = match drain.spout {
                    None => "the hole reaches into the bends of the walls",
                    Some(_) => "the hole for its spout reaches into the bends of the walls",
                };
                let no_room = "the bends of the walls take all of the bottom; make the gutter wider";
                let remedy = making.keep_under(most.millimetres(), no_room);
                problems.push(Problem::new("drain.diameter", making.print(drain.diameter), wrong, remedy));
            }
        }
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }

    /// Outside of the outer wall and outside of the inner wall.
    fn plan(&self, making: &Making) -> Result<(Figure, Figure), Vec<Problem>> {
        let closed = |field: &str, value: Length, figure: &Figure| {
            let narrow = (0..figure.count()).map(|side| figure.side_mm(side)).fold(f64::INFINITY, f64::min);
            let remedy = format!("keep it under {}, half the shortest side", making.print_mm(0.5 * narrow));
            vec![Problem::new(field, making.print(value), "leaves no clear opening", remedy)]
        };
        let outer = self.opening.grown(self.outset.millimetres());
        let outer = outer.ok_or_else(|| {
            let remedy = "set it less far inside, or leave it at zero";
            vec![Problem::new("outset", making.print(self.outset), "leaves no clear opening", remedy)]
        })?;
        let inner = outer.grown(-self.width.millimetres());
        let inner = inner.ok_or_else(|| closed("width", self.width, &outer))?;
        Ok((outer, inner))
    }

    /// Bottom, outer wall and inner wall of each side, in this order.
    fn shell(&self, outer: &Figure, inner: &Figure, making: &Making) -> Shell {
        let mut shell = Shell {
            plates: Vec::new(),
            bends: Vec::new(),
            number: making.number.clone(),
            making: making.corners(),
        };
        let count = outer.count();
        for (side, name) in outer.sides.iter().enumerate() {
            let floor = |figure: &Figure, step: usize| at_height(figure.corners[(side + step) % count], 0.0);
            let [a, b] = [0, 1].map(|step| floor(outer, step));
            let [c, d] = [1, 0].map(|step| floor(inner, step));
            let up = |height: Length| Vector3::new(0.0, 0.0, height.millimetres());
            let (high, inner_high) = (up(self.depth), up(self.inner_depth));
            let bottom = shell.plates.len();
            let mut plate = |what: &str, corners: Vec<Point3>| {
                shell.plates.push(ShellPlate::new(format!("{what} {name}"), corners, Back));
            };
            plate("bottom", vec![a, b, c, d]);
            plate("outer wall", vec![b, a, a + high, b + high]);
            plate("inner wall", vec![d, c, c + inner_high, d + inner_high]);
            shell.bends.extend([(bottom, bottom + 1), (bottom, bottom + 2)]);
            if let Some(drain) = self.drain.as_ref().filter(|drain| drain.corner == outer.names[side]) {
                let radius_mm = 0.5 * drain.hole(making).millimetres();
                let centre = drain_centre([a, b, d], radius_mm, making);
                shell.plates[bottom].holes.push((centre, radius_mm));
            }
        }
        shell
    }

    /// Width over both walls and their heights, from the outside of the bottom `root`.
    fn sizes(&self, built: &ShellPiece, root: usize) -> Vec<Size> {
        let outside = |plate: usize| built.face_of(root + plate).map(|face| (face, Back));
        let (Some(bottom), Some(outer), Some(inner)) = (outside(0), outside(1), outside(2)) else {
            return Vec::new();
        };
        let size = |name: &str, measure: Measure, expected: Length| Size {
            name: name.to_owned(),
            measure,
            expected_mm: expected.millimetres(),
        };
        vec![
            size("width over both walls, outside", Measure::Planes(outer, inner), self.width),
            size("height of the outer wall, outside", Measure::Reach(outer, bottom), self.depth),
            size("height of the inner wall, outside", Measure::Reach(inner, bottom), self.inner_depth),
        ]
    }

    fn facts(&self, outer: &Figure, inner: &Figure, making: &Making) -> Vec<Fact> {
        let mut facts = Vec::new();
        for (side, name) in outer.sides.iter().enumerate() {
            let length = Fact::length_mm;
            facts.push(length(
                format!("channel {name}, long side, outside, {WELDED}"),
                outer.side_mm(side),
                "opening, outset",
            ));
            let origin = "opening, outset, width";
            facts.push(length(
                format!("channel {name}, short side, outside, {WELDED}"),
                inner.side_mm(side),
                origin,
            ));
        }
        facts.push(Fact::words("channels", ONE_ALONE, "corner"));
        for (corner, name) in outer.names.iter().enumerate() {
            let half = 0.5 * outer.corner_angle(corner);
            facts.push(Fact::angle_rad(
                format!("mitre at corner {name}"),
                half,
                "half the opening's angle there",
            ));
        }
        if let Some(drain) = &self.drain {
            let next = outer.names.iter().position(|name| *name == drain.corner).unwrap_or(0);
            let words = format!(
                "{} through the bottom of channel {} beside corner {}, clear of the mitre's weld",
                making.print(drain.hole(making)),
                outer.sides[next],
                drain.corner
            );
            facts.push(Fact::words("drain", words, "drain"));
            facts.extend(drain.spout_fact(making));
        }
        facts
    }
}

impl GutterDrain {
    /// Diameter of the hole: as given, or the outside of the spout and its clearance on both sides.
    fn hole(&self, making: &Making) -> Length {
        let around = |spout: GutterSpout| making.number.thickness() + spout.clearance;
        self.spout.map_or(self.diameter, |spout| self.diameter + around(spout) + around(spout))
    }

    fn spout_fact(&self, making: &Making) -> Option<Fact> {
        let spout = self.spout?;
        let outside = self.diameter + making.number.thickness() + making.number.thickness();
        let words = format!(
            "{} inside, {} outside, {} long; it stands in its hole with {} all round, its upper end flush with the inside of the \
             bottom, welded round",
            making.print(self.diameter),
            making.print(outside),
            making.print(spout.length),
            making.print(spout.clearance)
        );
        Some(Fact::words("spout", words, "drain, thickness"))
    }

    /// The spout.
    fn tube(&self) -> Cylinder {
        let length = self.spout.map_or(Length::ZERO, |spout| spout.length);
        let made = WrapMaking { rolled: true, strikes: None, seam: WrapSeam::Butt };
        Cylinder { diameter: self.diameter, to: DiameterTo::Inside, length, ends: [None, None], made }
    }

    /// The spout as a part of its own; its marked face is the inside, as the gutter's.
    fn shape_spout(&self, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let tube = self.tube();
        let of_drain = |problem: Problem| {
            let field = match problem.field.as_str() {
                "length" => "drain.spout.length",
                _ => "drain.diameter",
            };
            Problem { field: field.to_owned(), ..problem }
        };
        let shaped =
            tube.shape(making).map_err(|found| found.into_iter().map(of_drain).collect::<Vec<_>>())?;
        let facts = self.spout_fact(making).into_iter().chain(shaped.facts).collect();
        Ok(Shaped { part: shaped.part.seen_from_back(), facts })
    }
}

/// Where a side of a channel is measured.
const WELDED: &str = "corner to corner of the welded gutter";

/// Said of one channel alone.
const ONE_ALONE: &str = "one alone is shorter than its corner to corner by what its corners stand back for the weld: cut it by \
                         its running dimensions";

/// The centre of the drain: midway between the walls, its edge three thicknesses clear of the mitre.
fn drain_centre([outer, outer_next, inner]: [Point3; 3], radius_mm: f64, making: &Making) -> Point3 {
    let along = (outer_next - outer).unit();
    let mitre = (inner - outer).unit();
    let middle = outer.toward(inner, 0.5);
    let sine = along.cross(mitre).length();
    middle + along * ((radius_mm + 3.0 * making.thickness_mm()) / sine)
}
