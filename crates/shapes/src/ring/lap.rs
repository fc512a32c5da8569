//! Lap strips: a further face bent off the end of one plate, lying along the other.

use fold::Direction;
use fold::flat;
use fold::part::{Bend, Edge, Face, FoldedPart, Forming, LegsTo, SeamSide, SeamStyle, child_frame};
use geometry::{Frame, Plane, Point, polygon, tolerance, trig};

use super::RingError;
use super::line::Line;
use super::trim;

/// How far the two ends of a strip are cut back, degrees from square to its bend, tried where a square one would lie on
/// its neighbours in the flat; the least that comes out is taken.
const TAPERS_DEGREES: [[f64; 2]; 12] = [
    [15.0, 0.0],
    [0.0, 15.0],
    [15.0, 15.0],
    [30.0, 0.0],
    [0.0, 30.0],
    [30.0, 30.0],
    [45.0, 0.0],
    [0.0, 45.0],
    [45.0, 45.0],
    [60.0, 0.0],
    [0.0, 60.0],
    [60.0, 60.0],
];

/// Share of its length that a tapered strip keeps at its full width (common practice, no source).
const LEAST_FULL: f64 = 0.5;

/// How far the sides of a strip run straight past the tangent line of its bend, in thicknesses: so that the notch beside the bend
/// ends on a straight side (common practice, no source).
const STRAIGHT_BEYOND: f64 = 0.25;

/// A strip to be set on one plate and laid along another.
struct Strip {
    name: String,
    width_mm: f64,
    direction: Direction,
    turn_rad: f64,
    /// The face that carries it, and the edge it is bent off.
    carrier: (usize, usize),
    /// What it lies along.
    along: Along,
    /// How far its mold line stands out beyond the edge that carries it, mm: at a sharp corner the carrier's edge beside the strip
    /// stops sooner, so that its inside is clear of the other plate.
    out_mm: f64,
    /// How far its ends are cut back, from square to its bend, radians: at the end of the carrier's edge, at its start.
    tapers_rad: [f64; 2],
}

/// The plate that a strip lies along, of the same piece or of another.
#[derive(Debug, Clone)]
pub(crate) struct Along {
    /// Where it lies.
    frame: Frame,
    /// Its corners.
    corners: Vec<Point>,
    /// Setback of the bend on every edge, where there is one, mm.
    setbacks_mm: Vec<Option<f64>>,
    /// Its edge at the seam.
    edge: usize,
}

/// How a seam is lapped.
#[derive(Debug, Clone)]
pub(crate) struct Lapped<'a> {
    /// The seam's name.
    pub(crate) seam: &'a str,
    /// Width of the strip, mm.
    pub(crate) width_mm: f64,
    /// True when it lies outside the other plate.
    pub(crate) outside: bool,
    /// Angle between the plates inside, radians.
    pub(crate) inside_angle_rad: f64,
}

/// Adds the strip of every lapped seam; the seam is then between strip and plate. A strip that would lie on something in
/// the flat is tapered, and its name says so.
pub(crate) fn add_strips(part: &mut FoldedPart, frames: &mut Vec<Frame>) -> Result<(), RingError> {
    // Whether the part as it stands lies on itself in the flat, as far as that is known.
    let mut lies: Option<bool> = None;
    for number in 0..part.seams.len() {
        let seam = part.seams[number].clone();
        let SeamStyle::Lap { width_mm, carrier, outside } = seam.style else { continue };
        let (own, other) = match carrier {
            SeamSide::First => (seam.first, seam.second),
            SeamSide::Second => (seam.second, seam.first),
        };
        let along = Along::of(part, &frames[other.0], other);
        let inside_angle_rad = seam.inside_angle_rad;
        let lapped = Lapped { seam: &seam.name, width_mm, outside, inside_angle_rad };
        let face = add(part, frames, (own, along), &lapped, &mut lies)?;
        let side = match carrier {
            SeamSide::First => &mut part.seams[number].first,
            SeamSide::Second => &mut part.seams[number].second,
        };
        *side = (face, STRIP_EDGE);
    }
    Ok(())
}

/// Adds one strip to the edge `carrier` of a face, along a plate that may be of another piece, and gives its face. It is tapered
/// where a square one would lie on something in the flat; `lies` is what is known of that before and after.
pub(crate) fn add(
    part: &mut FoldedPart,
    frames: &mut Vec<Frame>,
    (carrier, along): ((usize, usize), Along),
    lapped: &Lapped<'_>,
    lies: &mut Option<bool>,
) -> Result<usize, RingError> {
    let lies_on = |part: &FoldedPart| flat::lies_on_itself(part);
    let strip = Strip::new(part, frames, (carrier, along), lapped);
    let square = strip.added(part, frames)?;
    let square_lies = lies_on(&square.0);
    let tapered = if square_lies && !lies.unwrap_or_else(|| lies_on(part)) {
        strip.tapered(part, frames, &lies_on)
    } else {
        None
    };
    *lies = Some(square_lies && tapered.is_none());
    let face = part.faces.len();
    (*part, *frames) = tapered.unwrap_or(square);
    Ok(face)
}

/// The edge of a strip that lies along the other plate's edge at the seam: the one across from its bend.
pub(crate) const STRIP_EDGE: usize = 2;

impl Along {
    /// A plate with its edge at the seam, where the plate lies at `frame`.
    pub(crate) fn of(part: &FoldedPart, frame: &Frame, (face, edge): (usize, usize)) -> Self {
        let corners = part.faces[face].corners.clone();
        let setbacks_mm = (0..corners.len()).map(|edge| part.edge_setback_mm(face, edge)).collect();
        Self { frame: *frame, corners, setbacks_mm, edge }
    }

    fn edge(&self, number: usize) -> (Point, Point) {
        (self.corners[number], self.corners[(number + 1) % self.corners.len()])
    }
}

impl Strip {
    fn new(
        part: &FoldedPart,
        frames: &[Frame],
        (carrier, along): ((usize, usize), Along),
        lapped: &Lapped<'_>,
    ) -> Self {
        // The strip turns toward the inside of the corner, which is the side of the carrier that the other plate is on.
        let middle = along.frame.place(polygon::centroid(&along.corners), 0.0);
        let up = frames[carrier.0].plane(0.0).distance(middle) > 0.0;
        let out_mm = trim::strip_out_mm(lapped.inside_angle_rad, part.thickness_mm());
        Self {
            name: format!("lap of {}", lapped.seam),
            width_mm: lapped.width_mm,
            direction: if up { Direction::Up } else { Direction::Down },
            turn_rad: std::f64::consts::PI - lapped.inside_angle_rad,
            carrier,
            along,
            out_mm: if lapped.outside { 0.0 } else { out_mm },
            tapers_rad: [0.0; 2],
        }
    }

    /// The part with the strip on it, its last face.
    fn added(&self, part: &FoldedPart, frames: &[Frame]) -> Result<(FoldedPart, Vec<Frame>), RingError> {
        let (mut part, mut frames) = (part.clone(), frames.to_vec());
        self.add(&mut part, &mut frames)?;
        Ok((part, frames))
    }

    /// The part with the least tapered strip that lies on nothing in the flat.
    fn tapered(
        &self,
        part: &FoldedPart,
        frames: &[Frame],
        lies_on: &dyn Fn(&FoldedPart) -> bool,
    ) -> Option<(FoldedPart, Vec<Frame>)> {
        TAPERS_DEGREES.into_iter().find_map(|degrees| {
            let name = format!("{}, tapered", self.name);
            let tapers_rad = degrees.map(f64::to_radians);
            let made =
                Self { name, tapers_rad, along: self.along.clone(), ..*self }.added(part, frames).ok()?;
            (!lies_on(&made.0)).then_some(made)
        })
    }

    fn add(&self, part: &mut FoldedPart, frames: &mut Vec<Frame>) -> Result<(), RingError> {
        let nothing = || RingError::Nothing { name: self.name.clone() };
        let (face, edge) = self.carrier;
        let (start, end) = part.faces[face].edge(edge);
        let out = (end - start).unit().right() * self.out_mm;
        let (start, end) = (start + out, end + out);
        let (turn, thickness_mm) = ((self.turn_rad, self.direction), part.thickness_mm());
        let whole = child_frame(&frames[face], (start, end), turn, thickness_mm);
        let outline = self.outline(part, &whole).ok_or_else(nothing)?;
        let (low, high) = on_the_bend(&outline).ok_or_else(nothing)?;
        let along = (start - end).unit();
        let bent = (end + along * high, end + along * low);
        let bent_edge = if tolerance::SAME_POINT_MM < self.out_mm {
            part.insert_corners(face, edge, &[bent.0 - out, bent.0, bent.1, bent.1 - out]);
            edge + 2
        } else {
            part.insert_corners(face, edge, &[bent.0, bent.1]);
            edge + 1
        };
        let child = part.faces.len();
        part.faces[face].edges[bent_edge] = Edge::Bend(part.bends.len());
        part.bends.push(Bend {
            parent: face,
            parent_edge: bent_edge,
            child,
            turn_rad: self.turn_rad,
            direction: self.direction,
            inside_radius_mm: part.number.inside_radius().millimetres(),
            legs_to: LegsTo::MoldLine,
            forming: Forming::Brake,
        });
        let corners: Vec<Point> = outline.iter().map(|p| Point::new(p.x - low, p.y)).collect();
        let mut edges = vec![Edge::Free; corners.len()];
        edges[0] = Edge::Parent;
        part.faces.push(Face { name: self.name.clone(), corners, edges, holes: Vec::new(), rim: None });
        frames.push(child_frame(&frames[face], bent, turn, thickness_mm));
        Ok(())
    }

    /// The strip in the coordinates of the whole edge: a rectangle, cut back to where the other plate is flat and to
    /// where the carrier's own bends leave room for the saw notches beside the strip's bend.
    fn outline(&self, part: &FoldedPart, frame: &Frame) -> Option<Vec<Point>> {
        let (start, end) = part.faces[self.carrier.0].edge(self.carrier.1);
        let straight = part.straight_edge(self.carrier.0, self.carrier.1);
        let length_mm = start.distance(end);
        let beside_mm = self.beside_mm(part);
        let low = end.distance(straight[1]) + beside_mm[1];
        let high = length_mm - start.distance(straight[0]) - beside_mm[0];
        if low >= high {
            return None;
        }
        let cut = self.tapers_rad.map(|taper| self.width_mm * trig::tan(taper));
        let mut outline =
            [(low, 0.0), (high, 0.0), (high - cut[1], self.width_mm), (low + cut[0], self.width_mm)]
                .map(|(x, y)| Point::new(x, y))
                .to_vec();
        let count = self.along.corners.len();
        for edge in (0..count).filter(|&edge| edge != self.along.edge) {
            // Beside the other plate's bend the carrier's corner is cut clear of its round, short of the saw notch.
            let beside_mm = 1.5 * part.notch_width_mm;
            let inward_mm = self.along.setbacks_mm[edge].map_or(0.0, |mm| mm + beside_mm);
            outline = self.clipped(&outline, (edge, inward_mm), frame);
        }
        outline = squared(outline, self.setback_mm(part) + STRAIGHT_BEYOND * part.thickness_mm());
        if self.tapers_rad.iter().any(|taper| 0.0 < taper.abs())
            && self.full_mm(&outline) < LEAST_FULL * (high - low)
        {
            return None;
        }
        (outline.len() >= 3 && polygon::signed_area(&outline) > tolerance::SAME_POINT_MM).then_some(outline)
    }

    fn setback_mm(&self, part: &FoldedPart) -> f64 {
        part.number.setback_at_mm(self.turn_rad, part.number.inside_radius().millimetres())
    }

    /// How much of an outline's length has the strip's full width, mm.
    fn full_mm(&self, outline: &[Point]) -> f64 {
        let full = |point: &&Point| (point.y - self.width_mm).abs() <= tolerance::SAME_POINT_MM;
        let places = || outline.iter().filter(full).map(|point| point.x);
        places().fold(f64::NEG_INFINITY, f64::max) - places().fold(f64::INFINITY, f64::min)
    }

    /// What the carrier keeps beside the strip at the start and the end of its edge, mm: a notch, and as much metal again
    /// beyond it; more at a sharp corner, where the notch, as deep as the setback, would break through the next edge.
    fn beside_mm(&self, part: &FoldedPart) -> [f64; 2] {
        let (face, edge) = self.carrier;
        let count = part.faces[face].corners.len();
        let direction = |edge: usize| {
            let (a, b) = part.faces[face].edge(edge % count);
            (b - a).unit()
        };
        let notch_mm = part.notch_width_mm;
        let setback_mm = self.setback_mm(part);
        let own = direction(edge);
        // Away from the corner: along the strip's own edge, and along its neighbour.
        let away = [(own, -direction(edge + count - 1)), (-own, direction(edge + 1))];
        away.map(|(own, neighbour)| {
            let cotangent = own.dot(neighbour) / own.cross(neighbour).abs().max(tolerance::PARALLEL_SINE);
            (2.0 * notch_mm).max(1.5 * notch_mm + setback_mm * cotangent)
        })
    }

    /// What is left of `outline` inside a line `inward_mm` inside an edge of the plate it lies along.
    fn clipped(&self, outline: &[Point], (edge, inward_mm): (usize, f64), frame: &Frame) -> Vec<Point> {
        let plate = &self.along.frame;
        let (a, b) = self.along.edge(edge);
        let inward = (b - a).unit().left();
        let plane = Plane::through(plate.place(a + inward * inward_mm, 0.0), plate.direct(inward));
        let Some(line) = Line::trace(frame, plane, 0.0) else { return outline.to_vec() };
        let inside = |p: Point| plane.distance(frame.place(p, 0.0)) >= 0.0;
        let mut kept = Vec::new();
        for (p, q) in polygon::edges(outline) {
            if inside(p) {
                kept.push(p);
            }
            if inside(p) != inside(q)
                && let Some(cut) = p.crossing(q - p, line.point, line.direction)
            {
                kept.push(cut);
            }
        }
        kept
    }
}

/// A strip's outline with sides that run straight for `straight_mm` from its mold line, past the tangent line of its bend:
/// where the other plate's edges cut a corner off before that, the strip begins later, or ends sooner.
fn squared(outline: Vec<Point>, straight_mm: f64) -> Vec<Point> {
    let within = |p: &Point| tolerance::SAME_POINT_MM < p.y && p.y <= straight_mm + tolerance::SAME_POINT_MM;
    let ends = |y: f64| {
        let crossing = |(a, b): (Point, Point)| {
            ((a.y <= y) != (b.y <= y)).then(|| a.toward(b, (y - a.y) / (b.y - a.y)).x)
        };
        let places = || polygon::edges(&outline).filter_map(crossing);
        [places().fold(f64::INFINITY, f64::min), places().fold(f64::NEG_INFINITY, f64::max)]
    };
    let (on_bend, on_tangent) =
        (ends(tolerance::SAME_POINT_MM), ends(straight_mm + tolerance::SAME_POINT_MM));
    let middle = 0.5 * (on_bend[0] + on_bend[1]);
    let corner = |toward: f64| outline.iter().any(|p| within(p) && (p.x - middle) * toward > 0.0);
    let low = if corner(-1.0) { on_bend[0].max(on_tangent[0]) } else { f64::NEG_INFINITY };
    let high = if corner(1.0) { on_bend[1].min(on_tangent[1]) } else { f64::INFINITY };
    let bounds = [(1.0, low), (-1.0, high)].into_iter().filter(|(_, at)| at.is_finite());
    let mut kept = bounds.fold(outline.clone(), |left, (side, at)| beside(&left, side, at));
    kept.dedup_by(|next, last| next.distance(*last) <= tolerance::REFOLD_MM);
    while 1 < kept.len() && kept[0].distance(kept[kept.len() - 1]) <= tolerance::REFOLD_MM {
        kept.pop();
    }
    kept
}

/// What is left of an outline on one side of the upright line at `at`.
fn beside(outline: &[Point], side: f64, at: f64) -> Vec<Point> {
    let inside = |p: Point| (p.x - at) * side >= 0.0;
    let kept = |(p, q): (Point, Point)| {
        let cut = (inside(p) != inside(q)).then(|| p.toward(q, (at - p.x) / (q.x - p.x)));
        inside(p).then_some(p).into_iter().chain(cut)
    };
    polygon::edges(outline).flat_map(kept).collect()
}

/// Where a strip's outline runs on its bend, with that edge made the first; `None` where it does not reach it.
fn on_the_bend(outline: &[Point]) -> Option<(f64, f64)> {
    let (a, b) = (outline.first()?, outline.get(1)?);
    let flat = a.y.abs() <= tolerance::SAME_POINT_MM && b.y.abs() <= tolerance::SAME_POINT_MM;
    (flat && b.x - a.x > tolerance::SAME_POINT_MM).then_some((a.x, b.x))
}
