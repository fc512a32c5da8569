//! Where two plates of neighbouring sides meet: the corner line, the angle inside, and the trim.

use std::f64::consts::PI;

use fold::part::Side;
use geometry::{Frame, Plane, Point3, Vector3, tolerance, trig};

use super::Ring;
use super::line::Line;

/// Two plates that meet at the end of a side.
#[derive(Debug, Clone, Copy)]
pub(super) struct Meeting {
    /// Angle between the plates inside the corner, radians; π in one plane.
    pub(super) inside_angle_rad: f64,
    /// How far each plate's cut edge stands back from the outside corner line, mm.
    pub(super) trim_mm: f64,
}

/// The meeting of plate `band` of `side` with its like on the next side; `None` where there is nothing to meet:
/// no plate there, one bent the other way, or a bend that stops short of the corner.
///
/// An open corner: the inside edges of two plates of thickness T touch when each outside edge stands back
/// T·cot(φ/2) from the outside corner line, φ being the angle between the plates; a gap g between the inside
/// edges asks for g/(2·sin(φ/2)) more. Source: plane geometry of two square-cut plates.
pub(super) fn meeting(ring: &Ring, side: usize, band: usize) -> Option<Meeting> {
    let next = (side + 1) % ring.sides.len();
    let (own, other) = (&ring.sides[side], &ring.sides[next]);
    let short = |mm: f64| mm > tolerance::SAME_POINT_MM;
    if short(own.short_mm[1]) || short(other.short_mm[0]) {
        return None;
    }
    let (first, second) = (own.bands.get(band)?, other.bands.get(band)?);
    let alike = own.bands[..=band].iter().zip(&other.bands[..=band]).all(|(a, b)| a.direction == b.direction);
    if !alike {
        return None;
    }
    let half = 0.5 * (PI - first.plane.normal.angle_to(second.plane.normal));
    let thickness = ring.number.thickness().millimetres();
    let trim_mm = (thickness * trig::cos(half) + 0.5 * ring.making.gap_mm) / trig::sin(half);
    Some(Meeting { inside_angle_rad: 2.0 * half, trim_mm })
}

/// The outside corner line between plate (`side`, `band`) and its like on side `other`, in the plate's `frame`.
pub(super) fn corner_line(
    ring: &Ring,
    (side, band): (usize, usize),
    other: usize,
    frame: &Frame,
) -> Option<Line> {
    let outside = z_of(ring, ring.sides[side].bands[band].direction.outside());
    let plane = ring.sides[other].bands[band].plane.moved(outside);
    Line::trace(frame, plane, outside).or_else(|| mitre(ring, (side, band), other, frame))
}

/// Plates in one plane are mitred: from where their bends' mold lines cross to where their far edges cross.
fn mitre(ring: &Ring, (side, band): (usize, usize), other: usize, frame: &Frame) -> Option<Line> {
    let bend = Line { point: geometry::Point::default(), direction: geometry::Vector::new(1.0, 0.0) };
    let inner = bend.crossing(near_line(ring, other, band, frame)?)?;
    let outer = far_line(ring, side, band, frame)?.crossing(far_line(ring, other, band, frame)?)?;
    Line::through(inner, outer)
}

/// The mold line of a plate's own bend, in the coordinates of a plate in the same plane.
fn near_line(ring: &Ring, side: usize, band: usize, frame: &Frame) -> Option<Line> {
    let z = z_of(ring, ring.sides[side].bands[band].direction.outside());
    Line::trace(frame, plane_before(ring, side, band).moved(z), z)
}

/// The far edge of a plate: the mold line of the next bend, or where the cut meets the plate's outside.
pub(super) fn far_line(ring: &Ring, side: usize, band: usize, frame: &Frame) -> Option<Line> {
    let bands = &ring.sides[side].bands;
    match bands.get(band + 1) {
        Some(next) => {
            let z = z_of(ring, next.direction.outside());
            Line::trace(frame, next.plane.moved(z), z)
        }
        None => Line::trace(frame, ring.sides[side].cut?, z_of(ring, bands[band].direction.outside())),
    }
}

/// The plane of the back of the plate that plate `band` of `side` is bent off.
pub(super) fn plane_before(ring: &Ring, side: usize, band: usize) -> Plane {
    match band.checked_sub(1) {
        Some(before) => ring.sides[side].bands[before].plane,
        None => Plane::through(Point3::default(), Vector3::new(0.0, 0.0, 1.0)),
    }
}

/// Length of the outside corner line at the end of a side, between the plate's two mold lines, mm.
pub(super) fn length_mm(ring: &Ring, side: usize, band: usize, frame: &Frame) -> Option<f64> {
    let line = corner_line(ring, (side, band), (side + 1) % ring.sides.len(), frame)?;
    let bend = Line { point: geometry::Point::default(), direction: geometry::Vector::new(1.0, 0.0) };
    let far = far_line(ring, side, band, frame)?;
    Some(bend.crossing(line)?.distance(far.crossing(line)?))
}

fn z_of(ring: &Ring, side: Side) -> f64 {
    match side {
        Side::Face => ring.number.thickness().millimetres(),
        Side::Back => 0.0,
    }
}
