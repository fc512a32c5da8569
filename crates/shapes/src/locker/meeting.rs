//! How the plates of a locker meet, and the measure of it: all refolded and put together in space.
//!
//! x runs forward along the rear edge, y from there to the front, z up from the upper face of the top.

use std::f64::consts::PI;

use fold::part::{FoldedPart, SeamSide, SeamStyle};
use fold::refold::{Joint, JointEnd};
use geometry::{Frame, Point3, Vector3};
use units::Length;

use super::{Locker, Plate, sheet};
use crate::figure::corner_letter;
use crate::joined::{self, Joined, Standing};
use crate::{Chosen, CornerStyle, Fact, Making, Problem};

impl Locker {
    /// Width of the joining flanges of the ends, where there are any.
    pub(super) const fn end_flange(&self, making: &Making) -> Option<Length> {
        match making.corner {
            CornerStyle::Lap { width, .. } => Some(width),
            _ => None,
        }
    }

    /// What is wrong with the style asked for.
    pub(super) fn check_meeting(&self, making: &Making, problems: &mut Vec<Problem>) {
        let mut add = |field: &str, value: String, wrong: &str, remedy: &str| {
            problems.push(Problem::new(field, value, wrong, remedy));
        };
        let only = |names: &[String], name: &str| names == [name];
        let for_flanges =
            "ask for \"butt\", or {\"lap\": \"1\", \"carried_by\": [\"ends\"]} for joining flanges";
        match &making.corner {
            CornerStyle::Open => {
                let wrong = "the front stands behind the top's flange and the ends under its bend: no edges lie open there";
                add("corner", "open".to_owned(), wrong, for_flanges);
            }
            CornerStyle::Butt { through: Chosen::LongSides } => {}
            CornerStyle::Butt { through: Chosen::Sides(names) } if only(names, "front") => {}
            CornerStyle::Butt { .. } => {
                let wrong =
                    "an end that runs through would have to be cut round the flanges of top and front";
                let remedy = "let the front run through: {\"butt_through\": [\"front\"]}";
                add("corner.butt_through", "as given".to_owned(), wrong, remedy);
            }
            CornerStyle::Lap { carried_by: Chosen::Sides(names), width, .. } if !only(names, "ends") => {
                let wrong = "only the ends can carry it: top and front have flanges of their own";
                let remedy = "say \"carried_by\": [\"ends\"], or leave that out";
                add("corner.lap", making.print(*width), wrong, remedy);
            }
            CornerStyle::Lap { outside: true, width, .. } => {
                let wrong = "flanges of the ends lie inside top and front";
                add("corner.lap", making.print(*width), wrong, "ask for the inside");
            }
            CornerStyle::Lap { width, .. } => making.above_zero("corner.lap", *width, problems),
            CornerStyle::TabAndSlot { count, .. } => {
                let wrong = "ends are not made with tabs: the slots would lie in bends of top and front";
                add("corner.tab", format!("{count} tabs"), wrong, for_flanges);
            }
            CornerStyle::Gap { gap } => {
                let wrong = "top, front and ends meet in one way at all corners";
                add("corner.gap", making.print(*gap), wrong, "ask for \"butt\", and give \"seam_gap\"");
            }
            CornerStyle::ByName { .. } => {
                let wrong = "top, front and ends meet in one way at all corners";
                add("corner.at", "as given".to_owned(), wrong, for_flanges);
            }
        }
    }

    /// Every seam that a piece has a share in, as measured.
    pub(super) fn seam_facts(&self, piece: usize, making: &Making) -> Result<Vec<Fact>, Vec<Problem>> {
        let plates = self.plates();
        let pieces: Vec<Standing> =
            plates.iter().map(|&plate| self.standing(plate, making)).collect::<Result<_, _>>()?;
        let mut joints = self.joints(&plates, &pieces, making);
        joints.extend(self.strip_joints(&plates, &pieces));
        joined::seam_facts(piece, &pieces, &joints, ["corner", "corner"], making)
    }

    /// Where every plate's root face lies; nothing where a plate cannot be made.
    pub(super) fn roots(&self, making: &Making) -> Vec<Frame> {
        let standing = self.plates().into_iter().map(|plate| self.standing(plate, making));
        let pieces: Result<Vec<Standing>, _> = standing.collect();
        pieces.map_or_else(|_| Vec::new(), |pieces| pieces.iter().map(|piece| piece.root).collect())
    }

    /// A plate in its place.
    fn standing(&self, plate: Plate, making: &Making) -> Result<Standing, Vec<Problem>> {
        let (part, root): (FoldedPart, Frame) = match plate {
            Plate::Front(length) => (self.front(length, making)?.part, self.front_frame(length, making)),
            Plate::End(end) => (self.end(end, making)?.part, self.end_frame(end, making)),
            Plate::Top(length) => {
                let [from, _] = self.reach_mm(length);
                let origin = Point3::new(from, 0.0, -making.thickness_mm());
                (self.top(length, making)?.part, Frame { origin, ..Frame::WORLD })
            }
            Plate::TopStrip(seam) | Plate::FrontStrip(seam) => {
                (self.strip(plate, seam, making)?.part, self.strip_frame(plate, seam, making))
            }
        };
        Ok(Standing { name: self.words_of(plate).1, part, root })
    }

    /// Local x runs aft along the front, y up, z out; its upper edge lies under the bend of the top's flange.
    fn front_frame(&self, length: usize, making: &Making) -> Frame {
        let (thickness, radius) = sheet(making);
        let [from, to] = self.reach_mm(length);
        let aft = Vector3::new(from - to, self.width_mm(from) - self.width_mm(to), 0.0).unit();
        let up = Vector3::new(0.0, 0.0, 1.0);
        let out = aft.cross(up);
        let corner = Point3::new(to, self.width_mm(to), -thickness - radius);
        Frame { origin: corner + out * (-2.0 * thickness), x: aft, y: up, z: out }
    }

    /// A backing strip lies across its seam, its face side against top or front: behind the rear bend, or under the top and its
    /// strip.
    fn strip_frame(&self, plate: Plate, seam: usize, making: &Making) -> Frame {
        let (thickness, radius) = sheet(making);
        let half_mm = 0.5 * self.backing_strip.unwrap_or(Length::ZERO).millimetres();
        if let Plate::FrontStrip(_) = plate {
            // The aft length begins at the seam.
            let front = self.front_frame(seam, making);
            let below_mm = (thickness - radius).max(0.0) + self.strip_mm(plate, seam, making);
            let origin = front.origin + front.x * half_mm + front.y * -below_mm + front.z * -thickness;
            return Frame { origin, x: front.y, y: -front.x, z: front.z };
        }
        let at = self.splits_at[seam].millimetres();
        joined::across(Point3::new(at + half_mm, thickness + radius, -2.0 * thickness))
    }

    /// Every strip flat against both lengths at its seam.
    fn strip_joints(&self, plates: &[Plate], pieces: &[Standing]) -> Vec<Joined> {
        let number = |plate: Plate| plates.iter().position(|&of| of == plate);
        let mut joints = Vec::new();
        for (strip, &plate) in plates.iter().enumerate() {
            let (seam, of): (usize, fn(usize) -> Plate) = match plate {
                Plate::TopStrip(seam) => (seam, Plate::Top),
                Plate::FrontStrip(seam) => (seam, Plate::Front),
                _ => continue,
            };
            for length in [seam, seam + 1] {
                let Some(other) = number(of(length)) else { continue };
                let words = format!("length {}", length + 1);
                joints.push(joined::lies_on((strip, &self.words_of(plate).1), (other, &words), pieces));
            }
        }
        joints
    }

    /// Local y runs up, z out; x to the front, or on the mirrored aft end from it.
    fn end_frame(&self, end: usize, making: &Making) -> Frame {
        let thickness = making.thickness_mm();
        let bottom = -thickness - making.seam_gap.millimetres() - self.end_mm(end, making)[1];
        let (out, at) =
            if end == 0 { (-1.0, thickness) } else { (1.0, self.length.millimetres() - thickness) };
        Frame {
            origin: Point3::new(at, 0.0, bottom),
            x: Vector3::new(0.0, out, 0.0),
            y: Vector3::new(0.0, 0.0, 1.0),
            z: Vector3::new(out, 0.0, 0.0),
        }
    }

    fn joints(&self, plates: &[Plate], pieces: &[Standing], making: &Making) -> Vec<Joined> {
        let number = |plate: Plate| plates.iter().position(|&of| of == plate);
        let flange = |piece: usize, side: &str| {
            let name = format!("flange {side}");
            let face = pieces[piece].part.faces.iter().position(|face| face.name == name)?;
            Some(JointEnd { piece, face, edge: 2 })
        };
        let root = |piece: usize, edge: usize| JointEnd { piece, face: 0, edge };
        let mut joints = Vec::new();
        for length in 0..=self.splits_at.len() {
            let (Some(top), Some(front)) = (number(Plate::Top(length)), number(Plate::Front(length))) else {
                continue;
            };
            let style = SeamStyle::Lap {
                width_mm: self.front_flange.millimetres(),
                carrier: SeamSide::First,
                outside: true,
            };
            let words = "lap, the front lies behind the top's front flange".to_owned();
            let ends = flange(top, "CD").map(|flange| (flange, root(front, 2)));
            joints.extend(self.joint(pieces, ends, (style, words), (PI, 0.0)));
            if length == 0 {
                continue;
            }
            let flat = |of: &dyn Fn(usize) -> Plate, edges: [usize; 2]| {
                Some((root(number(of(length - 1))?, edges[0]), root(number(of(length))?, edges[1])))
            };
            for ends in [flat(&Plate::Top, [1, 3]), flat(&Plate::Front, [3, 1])] {
                joints.extend(self.joint(
                    pieces,
                    ends,
                    (SeamStyle::Open, "edge to edge".to_owned()),
                    (PI, 0.0),
                ));
            }
        }
        for end in 0..2 {
            let last = if end == 0 { 0 } else { self.splits_at.len() };
            let (Some(own), Some(top), Some(front)) =
                (number(Plate::End(end)), number(Plate::Top(last)), number(Plate::Front(last)))
            else {
                continue;
            };
            let sides = self.end_sides(making);
            let bottom = flange(front, "AB");
            let through = [(bottom, "front"), (Some(root(front, 0)), "front"), (Some(root(top, 0)), "top")];
            for (side, (face, plate)) in sides.into_iter().zip(through) {
                let joint = |face| self.end_joint(pieces, (own, end, side), (face, plate), making);
                joints.extend(face.and_then(joint));
            }
        }
        joints
    }

    /// The seam of an end at one of its sides to the face that runs through there, and the plate that has it.
    fn end_joint(
        &self,
        pieces: &[Standing],
        (own, end, side): (usize, usize, usize),
        (through, plate): (JointEnd, &str),
        making: &Making,
    ) -> Option<Joined> {
        let part = &pieces[own].part;
        let gap_mm = making.seam_gap.millimetres();
        if let Some(width) = self.end_flange(making) {
            let count = self.end_sides(making)[2] + 2;
            let name = format!("flange {}{}", corner_letter(side), corner_letter((side + 1) % count));
            let face = part.faces.iter().position(|face| face.name == name)?;
            let style =
                SeamStyle::Lap { width_mm: width.millimetres(), carrier: SeamSide::First, outside: false };
            let words =
                format!("lap, the {plate} lies on the end's joining flange of {}", making.print(width));
            let ends = (JointEnd { piece: own, face, edge: 2 }, through);
            return self.joint(pieces, Some(ends), (style, words), (0.5 * PI, gap_mm));
        }
        let edge = if end == 0 { part.faces[0].corners.len() - 1 - side } else { side };
        let ends = (JointEnd { piece: own, face: 0, edge }, through);
        let style = SeamStyle::Butt { through: SeamSide::Second };
        self.joint(pieces, Some(ends), (style, format!("butt, the {plate} runs through")), (0.5 * PI, gap_mm))
    }

    fn joint(
        &self,
        pieces: &[Standing],
        ends: Option<(JointEnd, JointEnd)>,
        (style, words): (SeamStyle, String),
        (inside_angle_rad, gap_mm): (f64, f64),
    ) -> Option<Joined> {
        let (first, second) = ends?;
        let named = |end: &JointEnd| {
            let piece = &pieces[end.piece];
            let whole = piece.name.replace(" of the starboard locker", "");
            match end.face {
                0 => whole,
                face => format!("{} of {whole}", piece.part.faces[face].name),
            }
        };
        let (a, b) = pieces[first.piece].part.faces[first.face].edge(first.edge);
        let joint = Joint {
            name: format!("{} to {}", named(&first), named(&second)),
            first,
            second,
            inside_angle_rad,
            length_mm: a.distance(b),
            style,
            gap_mm,
        };
        Some(Joined { joint, style: words })
    }
}
