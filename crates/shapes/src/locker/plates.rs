//! The plates of a locker, each as a panel or a strip.

use geometry::{Point, tolerance};

use super::{
    Angle, Down, Figure, Flange, Hole, HoleKind, Length, Locker, Making, Panel, Plate, Problem, Shaped,
};
use super::{Up, flat_strip, sheet};

impl Locker {
    /// One length of the top: rear edge AB, front edge CD.
    pub(super) fn top(&self, length: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let [from, to] = self.reach_mm(length);
        let reach = to - from;
        let outline =
            figure(&[(0.0, 0.0), (reach, 0.0), (reach, self.width_mm(to)), (0.0, self.width_mm(from))])?;
        let flanges = vec![flange("AB", self.rear_flange, Up), flange("CD", self.front_flange, Down)];
        let holes = self.openings(from, to);
        Panel { outline, flanges, holes, notches: Vec::new(), edges: Vec::new() }.shape(making)
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
        let [from, to] = self.reach_mm(length);
        let reach = (to - from) * self.stretch();
        let [aft, forward] = [from, to].map(|x| self.height_mm(x));
        let outline = figure(&[(0.0, -forward), (reach, -aft), (reach, 0.0), (0.0, 0.0)])?;
        let flanges = vec![flange("AB", self.bottom_flange, Down)];
        Panel { outline, flanges, holes: Vec::new(), notches: Vec::new(), edges: Vec::new() }.shape(making)
    }

    /// An end, seen from its outside with the top up: from the hull to the inside of the front, from the top down to
    /// the bottom flange, its corners clipped where the bends' inside radii lie.
    pub(super) fn end(&self, end: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let (thickness, radius) = sheet(making);
        let [width, height] = self.end_mm(end, making);
        let clip = radius + tolerance::SAME_POINT_MM;
        let over = (radius - thickness).max(0.0);
        // Front on the right; the aft end is seen with the front on the other side.
        let mut corners = vec![(0.0, 0.0), (width - clip, 0.0), (width, clip)];
        if over > tolerance::SAME_POINT_MM {
            corners.extend([(width, height - over), (width - over, height)]);
        } else {
            corners.push((width, height));
        }
        corners.push((0.0, height));
        let outline = figure(&corners)?;
        let plate =
            Panel { outline, flanges: Vec::new(), holes: Vec::new(), notches: Vec::new(), edges: Vec::new() };
        let mut shaped = plate.shape(making)?;
        // Seen from forward of the locker with the hull on the left the front is on the right; from aft, mirrored.
        if end == 0 {
            shaped.part = shaped.part.mirrored();
        }
        Ok(shaped)
    }

    /// Width and height of an end, the lesser of its two faces where the locker tapers, mm.
    pub(super) fn end_mm(&self, end: usize, making: &Making) -> [f64; 2] {
        let (thickness, radius) = sheet(making);
        let length = self.length.millimetres();
        let faces = if end == 0 { [0.0, thickness] } else { [length - thickness, length] };
        let width = faces.map(|x| self.width_mm(x)).into_iter().fold(f64::INFINITY, f64::min);
        let height = faces.map(|x| self.height_mm(x)).into_iter().fold(f64::INFINITY, f64::min);
        let slope = (self.heights[1] - self.heights[0]).millimetres() / (length * self.stretch());
        let bottom = thickness * geometry::trig::hypot(1.0, slope);
        [width - 2.0 * thickness * self.stretch(), height + radius - bottom]
    }

    /// Length of a backing strip: between the bends, and clear of the plate it runs up against, mm.
    pub(super) fn strip_mm(&self, plate: Plate, seam: usize, making: &Making) -> f64 {
        let (thickness, radius) = sheet(making);
        let at = self.splits_at[seam].millimetres();
        let bend = thickness + radius;
        match plate {
            Plate::FrontStrip(_) => self.height_mm(at) - bend - (thickness - radius).max(0.0),
            _ => {
                self.width_mm(at)
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

fn figure(corners: &[(f64, f64)]) -> Result<Figure, Vec<Problem>> {
    let corners: Vec<Point> = corners.iter().map(|&(x, y)| Point::new(x, y)).collect();
    let none =
        || vec![Problem::new("widths", "as given", "leave a plate without area", "make the locker larger")];
    Figure::lettered(&corners).ok_or_else(none)
}
