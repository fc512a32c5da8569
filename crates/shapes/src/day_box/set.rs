//! A day box set level into a leaning face, with its back cut to clear what is behind, and a lip for a door.
//!
//! The box is cut through from front to back as a line of plates from the bottom's front edge round to the top's: bottom,
//! back with its cut, top. Both ends have the outline of that section.

use fold::part::Side::{Back, Face};
use geometry::{Frame, Plane, Point, Point3, Vector, Vector3, trig};
use units::{Angle, Length};

use crate::pan::Rim;
use crate::shell::{Shell, ShellPlate, shell_problem};
use crate::{FaceSide, Fact, Figure, Making, Piece, Problem, Recipe, Shaped, whole};

/// The flattest that a console face may lean, from plumb.
const MOST_LEAN_DEGREES: f64 = 60.0;

/// A day box set into a face.
#[derive(Debug, Clone, PartialEq)]
pub struct SetBox {
    /// Between the outsides of the ends.
    pub width: Length,
    /// Of the walls at the face, outside, measured along the face.
    pub height: Length,
    /// Level, from the front of the rim to the back's outside, along the top.
    pub depth_top: Length,
    /// The same along the bottom.
    pub depth_bottom: Length,
    /// How far the face leans back from plumb, its top away from you.
    pub face_lean: Angle,
    /// What is cut off the back.
    pub cut: Option<BackCut>,
    /// Rim round the face.
    pub rim: Rim,
    /// A lip forward from the edge of an outward rim, in which a door lies.
    pub door_lip: Option<Length>,
}

/// A corner cut off the back of a box.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct BackCut {
    /// At the lower or the upper corner.
    pub corner: CutCorner,
    /// How much of the back is taken, along it.
    pub back: Length,
    /// How much of the bottom or top is taken, along it.
    pub level: Length,
    /// How the corner is closed.
    pub style: CutStyle,
}

/// Which corner of the back is cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CutCorner {
    /// Between bottom and back.
    Lower,
    /// Between back and top.
    Upper,
}

/// How a cut corner is closed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CutStyle {
    /// By one sloping plate.
    Sloped,
    /// By a step of two plates.
    Stepped,
}

impl Recipe for SetBox {
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
            Some("top" | "right" | "left") => "depth_top",
            Some("slope" | "riser" | "shelf") => "cut",
            Some("back") => "height",
            _ => self.tight_field(),
        }
    }

    fn pieces(&self) -> Vec<Piece> {
        // A stepped back folds inward again: the ends would lie on the step in the flat, and come for themselves.
        let stepped = self.cut.is_some_and(|cut| cut.style == CutStyle::Stepped);
        let piece = |suffix: &str, words: &str| Piece {
            suffix: suffix.to_owned(),
            words: words.to_owned(),
            count: 1,
        };
        if stepped {
            vec![
                piece("shell", "bottom, back and top of the box"),
                piece("right", "right end of the box"),
                piece("left", "left end of the box"),
            ]
        } else {
            Vec::new()
        }
    }

    fn put_together(&self, making: &Making) -> Vec<(usize, Frame)> {
        let found = if self.pieces().is_empty() { None } else { self.shell(&self.section(), making).ok() };
        let roots = found.map(|(shell, roots)| shell.roots(roots.into_iter()));
        whole::numbered(roots.into_iter().flatten().map(whole::stood_up))
    }

    fn whole_sizes(&self, making: &Making) -> Vec<Fact> {
        let [width_mm, height_mm] = [self.width, self.height].map(Length::millimetres);
        let beyond_mm = if let Rim::Out(rim) = self.rim { rim.millimetres() } else { 0.0 };
        let [wide_mm, high_mm] = [width_mm, height_mm].map(|size| size + 2.0 * beyond_mm);
        let what =
            if beyond_mm > 0.0 { "over the edges of the rim" } else { "over the walls at the face, outside" };
        let size =
            format!("{} wide, {} high along the face", making.print_mm(wide_mm), making.print_mm(high_mm));
        let depth =
            |name: &str, depth: Length| Fact::words(name, making.print(depth), "depth_top, depth_bottom");
        vec![
            Fact::words(what, size, "width, height, rim"),
            Fact::words(
                format!("diagonals {what}"),
                whole::square_words([wide_mm, high_mm], making),
                "width, height, rim",
            ),
            depth("along the top, level, front of the rim to the line of the back's outside", self.depth_top),
            depth("along the bottom, the same", self.depth_bottom),
        ]
    }

    fn shape_piece(&self, piece: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        self.check(making)?;
        let section = self.section();
        let (shell, roots) = self.shell(&section, making)?;
        let root = roots[piece.min(roots.len() - 1)];
        let built = shell.piece(root).map_err(|error| vec![shell_problem(&error, "cut", making)])?;
        let mut facts = self.facts(&section, &shell);
        facts.extend(shell.weld_facts(&built, making)?);
        Ok(Shaped { part: built.part, facts })
    }
}

impl SetBox {
    fn check(&self, making: &Making) -> Result<(), Vec<Problem>> {
        let mut problems = Vec::new();
        let sizes = [
            ("width", self.width),
            ("height", self.height),
            ("depth_top", self.depth_top),
            ("depth_bottom", self.depth_bottom),
        ];
        for (field, length) in sizes {
            making.above_zero(field, length, &mut problems);
        }
        if let Rim::Out(width) | Rim::In(width) = self.rim {
            making.above_zero("rim", width, &mut problems);
        }
        if let Some(lip) = self.door_lip {
            making.above_zero("door_lip", lip, &mut problems);
            if !matches!(self.rim, Rim::Out(_)) {
                let remedy = "give the rim as \"1 out\", or leave the lip out";
                problems.push(Problem::new("door_lip", "as given", "goes on an outward rim", remedy));
            }
        }
        let lean = self.face_lean.degrees();
        if !(0.0..=MOST_LEAN_DEGREES).contains(&lean) {
            let wrong = format!("a face leans back from plumb by 0 to {MOST_LEAN_DEGREES}°");
            problems.push(Problem::new(
                "face_lean",
                format!("{lean}°"),
                wrong,
                "measure the lean from plumb",
            ));
        }
        if problems.is_empty() {
            self.check_cut(making, &mut problems);
        }
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }

    /// A cut must leave some of the back and of the bottom or top it is taken from.
    fn check_cut(&self, making: &Making, problems: &mut Vec<Problem>) {
        let Some(cut) = self.cut else { return };
        let [_, low, high, _] = self.whole();
        let level = if cut.corner == CutCorner::Lower { self.depth_bottom } else { self.depth_top };
        for (field, taken, of_mm) in
            [("cut.back", cut.back, low.distance(high)), ("cut.level", cut.level, level.millimetres())]
        {
            making.above_zero(field, taken, problems);
            if taken.millimetres() >= of_mm {
                let wrong = "nothing is left beside the cut";
                let remedy = making.keep_under(of_mm, "the box has no depth there; leave the cut out");
                problems.push(Problem::new(field, making.print(taken), wrong, remedy));
            }
        }
    }

    /// Front of the bottom, back of the bottom, back of the top, front of the top: depth along x, height along y.
    fn whole(&self) -> [Point; 4] {
        let lean = self.face_lean.radians();
        let height = self.height.millimetres();
        let front_top = Point::new(height * trig::sin(lean), height * trig::cos(lean));
        let front_bottom = Point::new(0.0, 0.0);
        let level = |front: Point, depth: Length| front + Vector::new(depth.millimetres(), 0.0);
        [front_bottom, level(front_bottom, self.depth_bottom), level(front_top, self.depth_top), front_top]
    }

    /// The line of plates, from the front of the bottom to the front of the top, with the number of the back among them.
    fn section(&self) -> Section {
        let [front_bottom, low, high, front_top] = self.whole();
        let Some(cut) = self.cut else {
            return Section {
                points: vec![front_bottom, low, high, front_top],
                names: names(&["bottom", "back", "top"]),
                back: 1,
            };
        };
        let (back_mm, level_mm) = (cut.back.millimetres(), cut.level.millimetres());
        let up = (high - low).unit() * back_mm;
        let forward = Vector::new(-level_mm, 0.0);
        match (cut.corner, cut.style) {
            (CutCorner::Lower, CutStyle::Sloped) => Section {
                points: vec![front_bottom, low + forward, low + up, high, front_top],
                names: names(&["bottom", "slope", "back", "top"]),
                back: 2,
            },
            (CutCorner::Lower, CutStyle::Stepped) => Section {
                points: vec![front_bottom, low + forward, low + forward + up, low + up, high, front_top],
                names: names(&["bottom", "riser", "shelf", "back", "top"]),
                back: 3,
            },
            (CutCorner::Upper, CutStyle::Sloped) => Section {
                points: vec![front_bottom, low, high - up, high + forward, front_top],
                names: names(&["bottom", "back", "slope", "top"]),
                back: 1,
            },
            (CutCorner::Upper, CutStyle::Stepped) => Section {
                points: vec![front_bottom, low, high - up, high - up + forward, high + forward, front_top],
                names: names(&["bottom", "back", "shelf", "riser", "top"]),
                back: 1,
            },
        }
    }

    /// The plates of the section first, then the right and the left end, then the rim; and the root of every piece.
    fn shell(&self, section: &Section, making: &Making) -> Result<(Shell, Vec<usize>), Vec<Problem>> {
        let mut shell = Shell {
            plates: Vec::new(),
            bends: Vec::new(),
            number: making.number.clone(),
            making: making.corners(),
        };
        let width = self.width.millimetres();
        let count = section.names.len();
        for (number, name) in section.names.iter().enumerate() {
            let (a, b) = (section.points[number], section.points[number + 1]);
            let corners = vec![place(a, 0.0), place(a, width), place(b, width), place(b, 0.0)];
            // What is cut off the back above it goes with the top, all else with the bottom.
            let side = if section.back < number { "CD" } else { "AB" };
            let side = Some((side.to_owned(), width));
            shell.plates.push(ShellPlate { side, ..ShellPlate::new(name.clone(), corners, Back) });
        }
        shell.bends.extend((1..count).map(|number| (number - 1, number)));
        let right: Vec<Point3> = section.points.iter().rev().map(|&point| place(point, width)).collect();
        let left = section.points.iter().map(|&point| place(point, 0.0)).collect();
        for (name, side, corners) in [("right end", "BC", right), ("left end", "DA", left)] {
            let side = Some((side.to_owned(), self.height.millimetres()));
            shell.plates.push(ShellPlate { side, ..ShellPlate::new(name, corners, Back) });
        }
        let roots = if self.pieces().is_empty() {
            shell.bends.extend([(section.back, count), (section.back, count + 1)]);
            vec![section.back]
        } else {
            vec![section.back, count, count + 1]
        };
        self.add_rim(&mut shell, section, making)?;
        Ok((shell, roots))
    }

    /// Rim and door lip, bent off bottom, right end, top and left end.
    fn add_rim(&self, shell: &mut Shell, section: &Section, making: &Making) -> Result<(), Vec<Problem>> {
        let (outward_mm, sized_to) = match self.rim {
            Rim::None => {
                // Without a rim no metal of the level plates stands past the face.
                let [front_bottom, .., front_top] = self.whole();
                let face = |point: Point| Plane::through(place(point, 0.0), self.toward_viewer());
                shell.plates[0].cuts.push((0, face(front_bottom)));
                shell.plates[section.names.len() - 1].cuts.push((2, face(front_top)));
                return Ok(());
            }
            Rim::Out(width) => (width.millimetres(), Face),
            Rim::In(width) => (-width.millimetres(), Back),
        };
        let (width, height) = (self.width.millimetres(), self.height.millimetres());
        let closed = || {
            let remedy = making.keep_under(0.5 * width.min(height), "the box has no width or height");
            vec![Problem::new("rim", making.print_mm(outward_mm.abs()), "opposite rims meet", remedy)]
        };
        let inner = Figure::rectangle(width, height).ok_or_else(closed)?;
        let outer = inner.grown(outward_mm).ok_or_else(closed)?;
        let count = section.names.len();
        let forward = self.toward_viewer();
        for (side, wall) in [0, count, count - 1, count + 1].into_iter().enumerate() {
            let ends = |figure: &Figure| [side + 1, side].map(|at| self.in_face(figure.corners[at % 4]));
            let ([b, a], [d, c]) = (ends(&inner), ends(&outer));
            let name = &inner.sides[side];
            let rim = shell.plates.len();
            shell.plates.push(ShellPlate::new(format!("rim {name}"), vec![b, a, c, d], sized_to));
            shell.bends.push((wall, rim));
            if let Some(lip) = self.door_lip {
                let out = forward * lip.millimetres();
                shell.plates.push(ShellPlate::new(
                    format!("door lip {name}"),
                    vec![d, c, c + out, d + out],
                    Back,
                ));
                shell.bends.push((rim, rim + 1));
            }
        }
        Ok(())
    }

    /// A point of the face, along its width and up along it, in space.
    fn in_face(&self, point: Point) -> Point3 {
        let lean = self.face_lean.radians();
        place(Point::new(point.y * trig::sin(lean), point.y * trig::cos(lean)), point.x)
    }

    fn toward_viewer(&self) -> Vector3 {
        let lean = self.face_lean.radians();
        Vector3::new(0.0, trig::sin(lean), trig::cos(lean))
    }

    fn facts(&self, section: &Section, shell: &Shell) -> Vec<Fact> {
        let mut facts = Vec::new();
        for (number, name) in section.names.iter().enumerate() {
            let length_mm = section.points[number].distance(section.points[number + 1]);
            facts.push(Fact::length_mm(format!("{name}, outside"), length_mm, "corners of the section"));
        }
        for number in 1..section.names.len() {
            let turn = shell.plates[number - 1].normal().angle_to(shell.plates[number].normal());
            let name = format!("turn {} to {}", section.names[number - 1], section.names[number]);
            facts.push(Fact::angle_rad(name, turn, "angle between the two plates' normals"));
        }
        facts
    }
}

/// The box cut through from front to back.
struct Section {
    /// Outside, from the front of the bottom to the front of the top.
    points: Vec<Point>,
    /// The plate from each point to the next.
    names: Vec<String>,
    /// Which of them is the back.
    back: usize,
}

fn names(words: &[&str]) -> Vec<String> {
    words.iter().map(|&word| word.to_owned()).collect()
}

/// A point of the section at `x_mm` along the width: x to the right, y up, z toward the viewer.
fn place(point: Point, x_mm: f64) -> Point3 {
    Point3::new(x_mm, point.y, -point.x)
}
