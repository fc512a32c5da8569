//! The plates of a locker, each as a panel or a strip.

use geometry::{Point, tolerance};

use super::{
    Angle, Down, Figure, Flange, Hole, HoleKind, Length, Locker, Making, Panel, Places, Plate, Problem,
    Shaped,
};
use super::{Up, flat_strip, sheet};
use crate::CornerStyle;
use crate::panel::beyond_capped_mm;
use crate::places::at_seam;

impl Locker {
    /// One length of the top: rear edge AB, front edge CD.
    pub(super) fn top(&self, length: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let [from, to] = self.reach_mm(length);
        let outline = figure(&self.top_outline(length))?;
        let flanges = vec![flange("AB", self.rear_flange, Up), flange("CD", self.front_flange, Down)];
        let holes = self.openings(from, to);
        Panel { outline, flanges, holes, notches: Vec::new(), edges: Vec::new() }.shape(making)
    }

    fn top_outline(&self, length: usize) -> [(f64, f64); 4] {
        let [from, to] = self.reach_mm(length);
        let reach = to - from;
        [(0.0, 0.0), (reach, 0.0), (reach, self.width_mm(to)), (0.0, self.width_mm(from))]
    }

    fn front_outline(&self, length: usize) -> [(f64, f64); 4] {
        let [from, to] = self.reach_mm(length);
        let reach = (to - from) * self.stretch();
        let [aft, forward] = [from, to].map(|x| self.height_mm(x));
        [(0.0, -forward), (reach, -aft), (reach, 0.0), (0.0, 0.0)]
    }

    /// What a drawing names on a plate: its corners, and what lies along its edges.
    pub(super) fn named(&self, plate: Plate, making: &Making) -> Places {
        match plate {
            Plate::Top(length) => {
                let [aft, forward] = self.end_words(length);
                let words = [(0, "REAR, against the hull"), (1, &forward), (2, "FRONT"), (3, &aft)];
                let places = named_edges(&self.top_outline(length), &words, false);
                Places { stations: self.lid_corners(length), lines: self.frames_on_top(length), ..places }
            }
            Plate::Front(length) => {
                let [aft, forward] = self.end_words(length);
                let words = [(0, "BOTTOM"), (1, &aft), (2, "TOP"), (3, &forward)];
                let places = named_edges(&self.front_outline(length), &words, false);
                Places { lines: self.frames_on_front(length), ..places }
            }
            Plate::End(end) => {
                let [bottom, front, top] = self.end_sides(making);
                let words = [(bottom, "BOTTOM"), (front, "FRONT"), (top, "TOP"), (top + 1, "HULL")];
                named_edges(&self.end_corners(end, making), &words, end == 0)
            }
            Plate::TopStrip(_) | Plate::FrontStrip(_) => Places::default(),
        }
    }

    /// What lies at both ends of one length: "AFT", or the seam to the next.
    fn end_words(&self, length: usize) -> [String; 2] {
        let after = (length < self.splits_at.len()).then_some(length);
        [
            at_seam("AFT", length.checked_sub(1), "length", length),
            at_seam("FORWARD", after, "length", length + 2),
        ]
    }

    /// Two opposite corners of every lid, as far as they lie on one length of the top: by these it is laid both ways.
    fn lid_corners(&self, length: usize) -> Vec<(String, Point)> {
        let [from, to] = self.reach_mm(length);
        let corners = |(number, lid): (usize, &super::LockerLid)| {
            let [long, wide] = lid.size.map(Length::millimetres);
            let (aft, rear) = (lid.at.millimetres(), lid.from_rear.millimetres());
            let ends = [(aft, rear, "rear aft"), (aft + long, rear + wide, "front forward")].into_iter();
            let here = ends.filter(move |(along, ..)| from <= *along && *along <= to);
            here.map(move |(along, across, corner)| {
                (format!("lid {number}, {corner} corner"), Point::new(along - from, across))
            })
        };
        (1..).zip(&self.lids).flat_map(corners).collect()
    }

    /// Frames within one length of the top, from its rear edge to its front one.
    fn frames_on_top(&self, length: usize) -> Vec<(String, [Point; 2])> {
        let [from, to] = self.reach_mm(length);
        let line = |(number, at): (usize, f64)| {
            let ends = [0.0, self.width_mm(at)].map(|across| Point::new(at - from, across));
            (format!("frame {number}"), ends)
        };
        self.frames_between(from, to).into_iter().map(line).collect()
    }

    /// Frames within one length of the front, from its bottom to its top; its forward end is on the left.
    fn frames_on_front(&self, length: usize) -> Vec<(String, [Point; 2])> {
        let [from, to] = self.reach_mm(length);
        let line = |(number, at): (usize, f64)| {
            let ends = [-self.height_mm(at), 0.0].map(|up| Point::new((to - at) * self.stretch(), up));
            (format!("frame {number}"), ends)
        };
        self.frames_between(from, to).into_iter().map(line).collect()
    }

    /// Openings under the lids of one length.
    fn openings(&self, from_mm: f64, to_mm: f64) -> Vec<Hole> {
        let opening = |lid: &super::LockerLid| {
            let [length, width] = lid.opening?;
            let along = lid.at.millimetres() + 0.5 * lid.size[0].millimetres() - from_mm;
            let across = lid.from_rear.millimetres() + 0.5 * lid.size[1].millimetres();
            let here = 0.0 <= along && along <= to_mm - from_mm;
            here.then(|| Hole {
                at: [along, across].map(Length::from_millimetres),
                kind: HoleKind::Rectangle { length, width, corner_radius: Length::ZERO },
            })
        };
        self.lids.iter().filter_map(opening).collect()
    }

    /// One length of the front, seen from its outside with the top up: bottom AB, forward end to the left.
    pub(super) fn front(&self, length: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let outline = figure(&self.front_outline(length))?;
        let flanges = vec![flange("AB", self.bottom_flange, Down)];
        Panel { outline, flanges, holes: Vec::new(), notches: Vec::new(), edges: Vec::new() }.shape(making)
    }

    /// An end, seen from its outside with the top up: from the hull to the inside of the front, from the top down to
    /// the bottom flange, its corners clipped where the bends' inside radii lie.
    pub(super) fn end(&self, end: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let outline = figure(&self.end_corners(end, making))?;
        let flanges = match self.end_flange(making) {
            Some(leg) => self.end_flanges(end, leg, &outline, making),
            None => Vec::new(),
        };
        let plate = Panel { outline, flanges, holes: Vec::new(), notches: Vec::new(), edges: Vec::new() };
        // The style is that of the ends to the other plates; where two flanges meet the corner is open.
        let mut shaped = plate.shape(&Making { corner: CornerStyle::Open, ..making.clone() })?;
        // Seen from forward of the locker with the hull on the left the front is on the right; from aft, mirrored.
        if end == 0 {
            shaped.part = shaped.part.mirrored();
        }
        Ok(shaped)
    }

    /// Corners of an end, front on the right: bottom, clip, front, clip where there is one, top, hull.
    fn end_corners(&self, end: usize, making: &Making) -> Vec<(f64, f64)> {
        let (thickness, radius) = sheet(making);
        let [width, height] = self.end_mm(end, making);
        // Beside flanges the clip must outlast the bend zones on both sides of it.
        let beside = 2.5 * (radius + thickness);
        let (clip, over) = match self.end_flange(making) {
            Some(_) => (beside, beside),
            None => (radius + tolerance::SAME_POINT_MM, (radius - thickness).max(0.0)),
        };
        // A panel is drawn to the outermost metal of a flange that turns past square.
        let [below, before] = match self.end_flange(making) {
            Some(_) => self.end_turns(end).map(|turn| beyond_capped_mm(making, turn)),
            None => [0.0; 2],
        };
        let (tilt, width) = (self.bottom_tilt(), width - before);
        let mut corners =
            vec![(0.0, tilt * width + below), (width - clip, tilt * clip + below), (width, clip + below)];
        if over > tolerance::SAME_POINT_MM {
            corners.extend([(width, height - over), (width - over, height)]);
        } else {
            corners.push((width, height));
        }
        corners.push((0.0, height));
        corners
    }

    /// Flanges of an end, turned in: square under the top, at the front and on the bottom by the angles that these make
    /// with it.
    fn end_flanges(&self, end: usize, leg: Length, outline: &Figure, making: &Making) -> Vec<Flange> {
        let turns = self.end_turns(end);
        let [bottom, front, top] = self.end_sides(making);
        let flange = |side: usize, turn: Angle| Flange {
            side: outline.sides[side].clone(),
            leg,
            direction: Down,
            turn,
            short: [Length::ZERO; 2],
        };
        vec![flange(bottom, turns[0]), flange(front, turns[1]), flange(top, Angle::from_degrees(90.0))]
    }

    /// Numbers of the bottom, the front and the top among the sides of an end.
    pub(super) fn end_sides(&self, making: &Making) -> [usize; 3] {
        let (thickness, radius) = sheet(making);
        let clipped = self.end_flange(making).is_some() || radius - thickness > tolerance::SAME_POINT_MM;
        [0, 2, if clipped { 4 } else { 3 }]
    }

    /// Turn from an end to the inside of the bottom flange and to that of the front: the angle between their normals.
    fn end_turns(&self, end: usize) -> [Angle; 2] {
        let out = geometry::Vector3::new(if end == 0 { -1.0 } else { 1.0 }, 0.0, 0.0);
        let (length, wider, higher) = self.taper();
        let front = geometry::Vector3::new(-wider, length, 0.0);
        let along = geometry::Vector3::new(length, wider, -higher);
        [front.cross(along), front].map(|normal| Angle::from_radians(out.angle_to(normal)))
    }

    /// Length, and how much wider and higher the locker is forward than aft, mm.
    fn taper(&self) -> (f64, f64, f64) {
        let step = |ends: [Length; 2]| (ends[1] - ends[0]).millimetres();
        (self.length.millimetres(), step(self.widths), step(self.heights))
    }

    /// How much the bottom flange drops for each millimetre toward the front, along an end: bent square to a front that
    /// runs out of line, along a bottom that runs out of level, it lies across both.
    fn bottom_tilt(&self) -> f64 {
        let (length, wider, higher) = self.taper();
        higher * wider / (length * length + wider * wider)
    }

    /// Width and height of an end, mm: of a plain one the lesser of its two faces where the locker tapers, of a flanged one
    /// the outer face, where its mold lines lie.
    pub(super) fn end_mm(&self, end: usize, making: &Making) -> [f64; 2] {
        let (thickness, _) = sheet(making);
        let length = self.length.millimetres();
        let [outer, inner] = if end == 0 { [0.0, thickness] } else { [length, length - thickness] };
        let inner = if self.end_flange(making).is_some() { outer } else { inner };
        let least = |of: &dyn Fn(f64) -> f64| of(outer).min(of(inner));
        let gap = making.seam_gap.millimetres();
        let (_, radius) = sheet(making);
        let slope = (self.heights[1] - self.heights[0]).millimetres() / (length * self.stretch());
        let bottom = (thickness + gap) * geometry::trig::hypot(1.0, slope);
        let tilted = self.bottom_tilt() * (thickness + gap) * self.stretch();
        // Behind the top's flange the front is shifted along by this.
        let (_, wider, _) = self.taper();
        let along = thickness * wider / (length * self.stretch());
        [
            least(&|x| self.width_mm(x)) - (2.0 * thickness + gap) * self.stretch(),
            least(&|x| self.height_mm(x - along)) + radius - bottom - gap - tilted,
        ]
    }

    /// Length of a backing strip: between the bends, and clear of the plate it runs up against, where the locker is least over
    /// the strip's own width, mm.
    pub(super) fn strip_mm(&self, plate: Plate, seam: usize, making: &Making) -> f64 {
        let (thickness, radius) = sheet(making);
        let (length, _, higher) = self.taper();
        let at = self.splits_at[seam].millimetres();
        let half_mm = 0.5 * self.backing_strip.unwrap_or(Length::ZERO).millimetres();
        let bend = thickness + radius;
        let least = |of: &dyn Fn(f64) -> f64, half_mm: f64| of(at - half_mm).min(of(at + half_mm));
        match plate {
            Plate::FrontStrip(_) => {
                let slant = geometry::trig::hypot(1.0, higher / (length * self.stretch()));
                least(&|x| self.height_mm(x), half_mm / self.stretch())
                    - bend * slant
                    - (thickness - radius).max(0.0)
            }
            _ => {
                least(&|x| self.width_mm(x), half_mm)
                    - bend
                    - thickness.max(radius).mul_add(self.stretch(), thickness * self.stretch())
            }
        }
    }

    pub(super) fn strip(&self, plate: Plate, seam: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let width = self.backing_strip.unwrap_or(Length::ZERO).millimetres();
        flat_strip(self.strip_mm(plate, seam, making), width, making).ok_or_else(|| {
            let at = making.print(self.splits_at[seam]);
            let remedy = "leave the strip out, or make the locker larger";
            vec![Problem::new("backing_strip", at, "no room is left between the bends", remedy)]
        })
    }
}

fn flange(side: &str, leg: Length, direction: fold::Direction) -> Flange {
    let turn = Angle::from_degrees(90.0);
    Flange { side: side.to_owned(), leg, direction, turn, short: [Length::ZERO; 2] }
}

/// The corners of an outline by letter and some of its sides by words; mirrored where the plate is.
fn named_edges(outline: &[(f64, f64)], words: &[(usize, &str)], mirrored: bool) -> Places {
    let Ok(figure) = figure(outline) else { return Places::default() };
    let places = words.iter().fold(Places::lettered(&figure), |places, &(side, words)| {
        let (a, b) = figure.side(side);
        places.with_edge(words, a, b)
    });
    if mirrored { places.mirrored() } else { places }
}

fn figure(corners: &[(f64, f64)]) -> Result<Figure, Vec<Problem>> {
    let corners: Vec<Point> = corners.iter().map(|&(x, y)| Point::new(x, y)).collect();
    let none =
        || vec![Problem::new("widths", "as given", "leave a plate without area", "make the locker larger")];
    Figure::lettered(&corners).ok_or_else(none)
}
