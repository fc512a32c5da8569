//! The metal of a partly folded part, as convex slabs in the coordinates of one bend.

use geometry::{Frame, Point, Point3, Vector, polygon, trig};

use super::convex::Slab;
use crate::bend::formula;
use crate::flat::FlatPattern;
use crate::part::{Direction, Forming};

/// Largest turn of one straight piece that stands in for the arc of a bend, radians.
const ARC_PIECE_RAD: f64 = std::f64::consts::PI / 8.0;

/// Bends are swung up to this turn; what is left of a hem is closed flat afterwards, radians.
const MOST_SWING_RAD: f64 = 0.75 * std::f64::consts::PI;

/// A bend as the search needs it, in the flat's coordinates. Millimetres.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Line {
    /// Face on its left.
    pub(super) parent: usize,
    /// Face on its right.
    pub(super) child: usize,
    /// Start of the bend line.
    pub(super) from: Point,
    /// End of the bend line.
    pub(super) to: Point,
    /// Turn from flat.
    pub(super) turn_rad: f64,
    /// Turn in the die, from which it springs back to that.
    pub(super) in_die_rad: f64,
    /// Up or down as seen from the marked face.
    pub(super) direction: Direction,
    /// Width of the bend zone.
    pub(super) zone_mm: f64,
    /// Inside radius.
    pub(super) radius_mm: f64,
    /// How it is made.
    pub(super) forming: Forming,
}

/// The flat cut into convex pieces, face by face.
#[derive(Debug, Clone)]
pub(super) struct Metal {
    /// Thickness.
    pub(super) thickness_mm: f64,
    /// Bends.
    pub(super) lines: Vec<Line>,
    /// Convex pieces of each face, corners counter-clockwise.
    faces: Vec<Vec<Vec<Point>>>,
    /// Area of each face, mm².
    pub(super) areas_mm2: Vec<f64>,
}

impl Line {
    /// Unit direction along it, the parent on its left.
    pub(super) fn along(&self) -> Vector {
        (self.to - self.from).unit()
    }

    /// Unit direction from the parent to the child.
    pub(super) fn across(&self) -> Vector {
        self.along().right()
    }

    /// The turn that it is swung to in one stroke.
    pub(super) fn swung_rad(&self) -> f64 {
        if self.is_closed_after() { MOST_SWING_RAD } else { self.in_die_rad.max(self.turn_rad) }
    }

    /// The turn that it keeps of one stroke.
    pub(super) fn kept_rad(&self) -> f64 {
        self.turn_rad.min(MOST_SWING_RAD)
    }

    /// Whether it is swung as far as one stroke goes, and then closed flat.
    pub(super) fn is_closed_after(&self) -> bool {
        MOST_SWING_RAD < self.turn_rad
    }

    /// The same line seen from the child.
    pub(super) fn reversed(&self) -> Self {
        let Self { parent, child, from, to, .. } = *self;
        Self { parent: child, child: parent, from: to, to: from, ..self.clone() }
    }
}

impl Metal {
    /// `in_die_rad` are turns in the die, bend by bend; a bend without one is swung to the turn that it keeps.
    pub(super) fn of(flat: &FlatPattern, in_die_rad: &[f64]) -> Self {
        let line = |(number, bend): (usize, &crate::flat::BendLine)| Line {
            in_die_rad: in_die_rad.get(number).copied().unwrap_or(bend.turn_rad),
            parent: bend.parent,
            child: bend.child,
            from: bend.from,
            to: bend.to,
            turn_rad: bend.turn_rad,
            direction: bend.direction,
            zone_mm: bend.zone_mm,
            radius_mm: bend.inside_radius_mm,
            forming: bend.forming,
        };
        Self {
            thickness_mm: flat.thickness_mm,
            lines: flat.bends.iter().enumerate().map(line).collect(),
            faces: flat.faces.iter().map(|face| convex_pieces(&face.corners)).collect(),
            areas_mm2: flat.faces.iter().map(|face| polygon::signed_area(&face.corners).abs()).collect(),
        }
    }

    /// The same with every joggle as two bends of the brake whose slant, over the outsides of both, is no shorter than the
    /// shortest flange; `None` where there is none.
    pub(super) fn deep_joggles_in_two(&self, shortest_mm: f64) -> Option<Self> {
        let mut lines = self.lines.clone();
        for (number, line) in self.lines.iter().enumerate() {
            if let Forming::Joggle(other) = line.forming
                && shortest_mm <= self.slant_mm(number, other)
            {
                lines[number].forming = Forming::Brake;
            }
        }
        let any = lines.iter().zip(&self.lines).any(|(new, old)| new.forming != old.forming);
        any.then(|| Self { lines, ..self.clone() })
    }

    /// From outside to outside of the two bends of a joggle, along the slant between them, mm: from bend line to bend line on the
    /// flat, and a deduction, half of it at each.
    fn slant_mm(&self, first: usize, second: usize) -> f64 {
        let (own, other) = (&self.lines[first], &self.lines[second]);
        let apart_mm = (other.from - own.from).dot(own.across()).abs();
        let setback_mm = formula::setback(own.turn_rad, own.radius_mm, self.thickness_mm);
        apart_mm + formula::deduction(setback_mm, own.zone_mm)
    }

    /// Convex pieces of a face, corners counter-clockwise.
    pub(super) fn pieces(&self, face: usize) -> &[Vec<Point>] {
        &self.faces[face]
    }

    /// Slabs of a face that lies at `frame`.
    pub(super) fn face_slabs(&self, face: usize, frame: &Frame) -> Vec<Slab> {
        let ring = |piece: &[Point], z: f64| piece.iter().map(|p| frame.place(*p, z)).collect();
        self.faces[face]
            .iter()
            .map(|piece| Slab { low: ring(piece, 0.0), high: ring(piece, self.thickness_mm) })
            .collect()
    }

    /// Slabs of a bend zone beyond a face that lies at `frame`. Bent zones are straight pieces
    /// that cover the arc and keep within its end tangents.
    pub(super) fn zone_slabs(&self, line: &Line, made: bool, frame: &Frame) -> Vec<Slab> {
        if !made {
            let half = line.across() * (0.5 * line.zone_mm);
            let ring = [line.from + half, line.to + half, line.to - half, line.from - half];
            let at = |z: f64| ring.iter().map(|p| frame.place(*p, z)).collect();
            return vec![Slab { low: at(0.0), high: at(self.thickness_mm) }];
        }
        let pieces = (line.turn_rad / ARC_PIECE_RAD).ceil().max(1.0);
        let step = line.turn_rad / pieces;
        let stretch = 1.0 / trig::cos(0.5 * step);
        let inner = line.radius_mm;
        let outer = line.radius_mm + self.thickness_mm;
        let near = line.from - line.across() * (0.5 * line.zone_mm);
        let length = (line.to - line.from).length();
        let place = |angle: f64, radius: f64, along: f64| {
            let out = radius * trig::sin(angle);
            let down = radius * trig::cos(angle);
            let height = match line.direction {
                Direction::Up => self.thickness_mm + line.radius_mm - down,
                Direction::Down => down - line.radius_mm,
            };
            frame.place(near + line.across() * out + line.along() * along, height)
        };
        let slab = |number: f64| {
            let (from, to) = (step * number, step * (number + 1.0));
            let end = |along: f64| {
                let middle = 0.5 * (from + to);
                [(from, inner), (from, outer), (middle, outer * stretch), (to, outer), (to, inner)]
                    .map(|(angle, radius)| place(angle, radius, along))
                    .to_vec()
            };
            Slab { low: end(0.0), high: end(length) }
        };
        let numbers = std::iter::successors(Some(0.0), |n| Some(n + 1.0)).take_while(|n| *n + 0.5 < pieces);
        numbers.map(slab).collect()
    }

    /// The place of everything beyond `line`, seen from the face before it at `frame`.
    pub(super) fn beyond(&self, frame: &Frame, line: &Line, made: bool) -> Frame {
        if !made {
            return *frame;
        }
        let (along, across) = (line.along(), line.across());
        let near = line.from - across * (0.5 * line.zone_mm);
        let (sine, cosine) = (trig::sin(line.turn_rad), trig::cos(line.turn_rad));
        let (centre_z, surface, sign) = match line.direction {
            Direction::Up => {
                let outer = self.thickness_mm + line.radius_mm;
                (outer, -outer, 1.0)
            }
            Direction::Down => (-line.radius_mm, line.radius_mm, -1.0),
        };
        let (long, out) = (frame.direct(along), frame.direct(across));
        let turned_out = out * cosine + frame.z * (sign * sine);
        let turned_up = frame.z * cosine + out * (-sign * sine);
        let tangent = frame.place(near, centre_z) + turned_up * surface;
        let direct = |v: Vector| long * v.dot(along) + turned_out * v.dot(across);
        let origin = tangent + direct(Point::default() - near) + turned_out * -line.zone_mm;
        Frame { origin, x: direct(Vector::new(1.0, 0.0)), y: direct(Vector::new(0.0, 1.0)), z: turned_up }
    }
}

/// A point of the flat's space in the coordinates of a bend that is about to be made: x from back to front, y up from
/// the lower side of the sheet, z along the bend.
pub(super) fn at_bend(line: &Line, thickness_mm: f64, parent_at_back: bool, p: Point3) -> Point3 {
    let from = Point3::new(line.from.x, line.from.y, 0.0);
    let d = p - from;
    let (along, across) = (line.along(), line.across());
    let out = d.x * across.x + d.y * across.y;
    let x = if parent_at_back { out } else { -out };
    let y = match line.direction {
        Direction::Up => p.z,
        Direction::Down => thickness_mm - p.z,
    };
    Point3::new(x, y, d.x * along.x + d.y * along.y)
}

/// The figure itself when convex, else triangles by cutting off ears.
fn convex_pieces(corners: &[Point]) -> Vec<Vec<Point>> {
    let mut ring = cleaned(corners);
    if ring.len() < 3 {
        return Vec::new();
    }
    let mut pieces = Vec::new();
    while ring.len() > 3 && !polygon::is_convex(&ring) {
        let count = ring.len();
        let Some(ear) = (0..count).find(|&i| is_ear(&ring, i)) else { break };
        pieces.push(vec![ring[(ear + count - 1) % count], ring[ear], ring[(ear + 1) % count]]);
        ring.remove(ear);
        ring = cleaned(&ring);
        if ring.len() < 3 {
            return pieces;
        }
    }
    pieces.push(ring);
    pieces
}

/// Corners without repeated ones and without those on a straight run.
fn cleaned(corners: &[Point]) -> Vec<Point> {
    let count = corners.len();
    let turns = |i: usize| {
        let (a, b, c) = (corners[(i + count - 1) % count], corners[i], corners[(i + 1) % count]);
        let (first, second) = (b - a, c - b);
        first.cross(second).abs() > geometry::tolerance::PARALLEL_SINE * first.length() * second.length()
    };
    (0..count).filter(|&i| turns(i)).map(|i| corners[i]).collect()
}

fn is_ear(ring: &[Point], i: usize) -> bool {
    let count = ring.len();
    let triangle = [ring[(i + count - 1) % count], ring[i], ring[(i + 1) % count]];
    let left_turn = (triangle[1] - triangle[0]).cross(triangle[2] - triangle[1]) > 0.0;
    let holds = |p: &Point| !triangle.contains(p) && polygon::contains(&triangle, *p);
    left_turn && !ring.iter().any(holds)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pieces_of_a_notched_figure_cover_it() {
        let corners = [
            (0.0, 0.0),
            (10.0, 0.0),
            (10.0, 10.0),
            (6.0, 10.0),
            (6.0, 4.0),
            (4.0, 4.0),
            (4.0, 10.0),
            (0.0, 10.0),
        ]
        .map(|(x, y)| Point::new(x, y));
        let pieces = convex_pieces(&corners);
        assert!(pieces.iter().all(|piece| polygon::is_convex(piece)));
        let area: f64 = pieces.iter().map(|piece| polygon::signed_area(piece)).sum();
        assert!((area - 88.0).abs() < 1e-9, "{area}");
    }
}
