//! Sizes of a hopper that a tape and a square find: on one piece, and on the whole when it is welded.
//!
//! A face that is cut along its hips ends there in no mold line of its own. Its corners are then those of what is bent off it,
//! leg, flange or collar: where their cut ends run out on the mold line, on the side to which the bend stands out.

use fold::Side;
use fold::part::{Measure, Size, Spot};
use geometry::{Point, tolerance, trig};

use super::design::Design;
use super::{Hopper, RimEdge};
use crate::shell::{Joint, Shell, ShellPiece};
use crate::whole::sides_words;
use crate::{Fact, Figure, Making};

/// Behind the letter of a corner of the collar.
const AT_COLLAR: &str = " at the collar";

impl Hopper {
    /// Cut edges and diagonals of the faces of a piece, ends of what is bent off them, and how their collar stands to their rim.
    pub(super) fn sizes(&self, design: &Design, piece: &ShellPiece) -> Vec<Size> {
        let shell = &design.shell;
        let mut sizes = Vec::new();
        for (face, &plate) in piece.plates.iter().enumerate() {
            if shell.plates[plate].name.starts_with("face ") {
                let lettered = Lettered { hopper: self, shell, piece, face, plate };
                sizes.extend(lettered.edges());
                sizes.extend(lettered.diagonals());
                sizes.extend(self.standing(&lettered));
            }
        }
        sizes
    }

    /// How far the plumb collar of a face stands off its plumb leg, and how high both stand together.
    fn standing(&self, of: &Lettered<'_>) -> Vec<Size> {
        let Some(name) = of.shell.plates[of.plate].name.strip_prefix("face ") else { return Vec::new() };
        let number =
            |what: &str| of.piece.part.faces.iter().position(|face| face.name == format!("{what} {name}"));
        let Some(collar) = number("collar") else { return Vec::new() };
        let side = self.rim.sides.iter().position(|side| side == name);
        let mut sizes = Vec::new();
        if let (Some(leg), Some(side)) = (number("leg"), side) {
            // Between two planes there is a distance only: on which side the collar lies is said by its name.
            let run_mm = self.run_mm(side);
            let outside = if run_mm < 0.0 { ", the collar outside the leg" } else { "" };
            sizes.push(Size {
                name: format!("inside of leg {name} to inside of collar {name}, level{outside}"),
                measure: Measure::Planes((leg, Side::Back), (collar, Side::Back)),
                expected_mm: run_mm.abs(),
            });
        }
        let foot = match self.rim_edge {
            RimEdge::None => None,
            RimEdge::Flange(_) => number("flange").map(|flange| ((flange, Side::Back), 0.0)),
            RimEdge::Drip { down, .. } => {
                number("drip bottom").map(|bottom| ((bottom, Side::Face), down.millimetres()))
            }
        };
        if let (Some((foot, below_mm)), Some(height)) = (foot, self.collar_height) {
            // A corner of the collar's free edge, which lies opposite its bend.
            let top = of.piece.built_edge(collar, 2)[0];
            sizes.push(Size {
                name: format!("height of face {name} standing on its rim, to the edge of the collar"),
                measure: Measure::SpotToPlane(Spot { face: collar, at: top, side: Side::Face }, foot),
                expected_mm: below_mm + self.rise.millimetres() + height.millimetres(),
            });
        }
        sizes
    }

    /// What is checked on the whole once it is welded, all to the inside of the metal.
    #[must_use]
    pub fn whole(&self, making: &Making) -> Vec<Fact> {
        let rise = making.print(self.rise);
        let words = |name: &str, words: String, origin: &str| Fact::words(name, words, origin);
        vec![
            words("whole, welded: rim, inside", sides_words(&self.rim, making), "rim"),
            words("whole, welded: collar, inside", sides_words(&self.collar, making), "collar"),
            words(
                "whole, welded: rise",
                format!("{rise} square from the rim's plane to the collar's, where the insides cross"),
                "rise",
            ),
            words("whole, welded: collar off the rim", self.collar_off_words(making), "rim, collar"),
            words("whole, welded: turn of the collar", self.turn_words(), "rim, collar"),
        ]
    }

    /// "22 from DA, 20 from AB …": level, from every side of the rim to the collar's side that goes with it; both ends where
    /// they do not run alike.
    fn collar_off_words(&self, making: &Making) -> String {
        let off = |side: usize| {
            let (a, b) = self.rim.side(side);
            let inward = (b - a).unit().left();
            let (c, d) = self.collar.side(side);
            let [start, end] = [c, d].map(|corner| (corner - a).dot(inward));
            let name = &self.rim.sides[side];
            if (start - end).abs() <= tolerance::SAME_POINT_MM {
                return format!("{} from {name}", making.print_mm(start));
            }
            let next = (side + 1) % self.rim.count();
            format!(
                "its corners {} {} and {} {} from {name}",
                self.collar.names[side],
                making.print_mm(start),
                self.collar.names[next],
                making.print_mm(end)
            )
        };
        let all: Vec<String> = (0..self.rim.count()).map(off).collect();
        format!("level, insides: {}", all.join("; "))
    }

    /// How far side AB of the collar is turned from side AB of the rim, as seen from above.
    fn turn_words(&self) -> String {
        let along = |figure: &Figure| {
            let (a, b) = figure.side(0);
            b - a
        };
        let (rim, collar) = (along(&self.rim), along(&self.collar));
        let turn = trig::atan2(rim.cross(collar), rim.dot(collar));
        if turn.abs() <= tolerance::PARALLEL_SINE {
            return format!("none: its side {0} runs as the rim's {0}", self.rim.sides[0]);
        }
        let way = if turn > 0.0 { "counter-clockwise" } else { "clockwise" };
        format!(
            "its side {0} turned {1:.1}° from the rim's {0}, {way} from above",
            self.rim.sides[0],
            turn.to_degrees().abs()
        )
    }
}

/// One face of a piece, with its plate.
struct Lettered<'a> {
    hopper: &'a Hopper,
    shell: &'a Shell,
    piece: &'a ShellPiece,
    face: usize,
    plate: usize,
}

impl Lettered<'_> {
    fn count(&self) -> usize {
        self.shell.plates[self.plate].corners.len()
    }

    fn letter(&self, corner: usize) -> Option<String> {
        self.hopper.letter_at(self.shell.plates[self.plate].corners[corner % self.count()])
    }

    /// What is bent along an edge of the face, on this piece.
    fn bent(&self, edge: usize) -> Option<(usize, Joint)> {
        let joint = self.shell.joint(self.plate, edge).filter(|joint| joint.bent)?;
        Some((self.piece.face_of(joint.other)?, joint))
    }

    /// What is bent along the edges before and behind a corner.
    fn bent_beside(&self, corner: usize) -> [Option<(usize, Joint)>; 2] {
        let after = corner % self.count();
        let before = (after + self.count() - 1) % self.count();
        [before, after].map(|edge| self.bent(edge))
    }

    /// Where a tape is held at a corner: that of the face itself between two cut edges, that of the plate beyond where one of
    /// the two is bent. None where both are: three mold lines meet there.
    fn spot(&self, corner: usize) -> Option<Spot> {
        let beyond = |(face, joint): (usize, Joint), end: usize| {
            let at: Point = self.piece.built_edge(face, joint.other_edge)[end];
            Spot { face, at, side: joint.direction.outside() }
        };
        match self.bent_beside(corner) {
            [None, None] => {
                let at = self.piece.built_edge(self.face, corner % self.count())[0];
                Some(Spot { face: self.face, at, side: Side::Face })
            }
            // The edge of the other plate runs the other way.
            [None, Some(joint)] => Some(beyond(joint, 1)),
            [Some(joint), None] => Some(beyond(joint, 0)),
            [Some(_), Some(_)] => None,
        }
    }

    /// ", held outside the bends to leg AB and collar AB": where the tape lies at two corners, when not on corners of the face
    /// itself. The two bends may go either way, and then the tape runs from one side of the sheet to the other.
    fn held(&self, corners: [usize; 2]) -> String {
        let beyond = |corner: usize| {
            let [before, after] = self.bent_beside(corner);
            let (face, _) = before.xor(after)?;
            Some(self.piece.part.faces[face].name.as_str())
        };
        match corners.map(beyond) {
            [Some(first), Some(second)] => format!(", held outside the bends to {first} and {second}"),
            [Some(one), None] | [None, Some(one)] => format!(", held outside the bend to {one}"),
            [None, None] => String::new(),
        }
    }

    fn size(&self, name: String, from: Spot, to: Spot) -> Size {
        let place =
            |Spot { face, at, side }: Spot| self.piece.frames[face].place(at, self.piece.part.side_mm(side));
        Size { name, measure: Measure::Spots(from, to), expected_mm: place(from).distance(place(to)) }
    }

    /// Every cut edge of the face, and how long what is bent off it is.
    fn edges(&self) -> Vec<Size> {
        let own = &self.shell.plates[self.plate].name;
        let edge = |edge: usize| {
            let (from, to) = (self.letter(edge)?, self.letter(edge + 1)?);
            if let Some(beyond) = self.bent(edge) {
                return self.end_to_end(edge, beyond);
            }
            // Both ends of a hip go by one letter.
            let name = match to.strip_suffix(AT_COLLAR).or(from.strip_suffix(AT_COLLAR)) {
                Some(hip) if from.starts_with(hip) && to.starts_with(hip) => {
                    format!("cut edge of {own} along hip {hip}")
                }
                _ => format!("cut edge of {own}, {from} to {to}"),
            };
            let name = name + &self.held([edge, edge + 1]);
            Some(self.size(name, self.spot(edge)?, self.spot(edge + 1)?))
        };
        (0..self.count()).filter_map(edge).collect()
    }

    /// Length of a plate that is bent off an edge whose two ends are cut: halfway down its ends, clear of the bend, where those
    /// are square; between ends that are mitred, along the bend.
    fn end_to_end(&self, edge: usize, (face, joint): (usize, Joint)) -> Option<Size> {
        let name = &self.piece.part.faces[face].name;
        let (from, to) = (self.spot(edge)?, self.spot(edge + 1)?);
        if name.starts_with("face ") {
            return None;
        }
        let count = self.shell.plates[joint.other].corners.len();
        let end = |edge: usize| self.piece.built_edge(face, edge % count);
        let [first, last] = [end(joint.other_edge + 1), end(joint.other_edge + count - 1)];
        let along = |[a, b]: [Point; 2]| (b - a).unit();
        if tolerance::PARALLEL_SINE < along(first).cross(along(last)).abs() {
            return Some(self.size(format!("{name} along its bend, end to end"), from, to));
        }
        let middle = |[a, b]: [Point; 2]| Spot { face, at: a.toward(b, 0.5), side: Side::Face };
        Some(self.size(format!("{name}, cut end to cut end"), middle(first), middle(last)))
    }

    fn diagonals(&self) -> Vec<Size> {
        if self.count() != 4 {
            return Vec::new();
        }
        let own = &self.shell.plates[self.plate].name;
        let diagonal = |from: usize| {
            let name = format!("diagonal of {own}, {} to {}", self.letter(from)?, self.letter(from + 2)?);
            let name = name + &self.held([from, from + 2]);
            Some(self.size(name, self.spot(from)?, self.spot(from + 2)?))
        };
        [0, 1].into_iter().filter_map(diagonal).collect()
    }
}
