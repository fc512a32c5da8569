//! Where two plates of neighbouring sides meet: the corner line, the angle inside, and how each is cut.

use std::f64::consts::PI;

use fold::part::{SeamStyle, Side};
use geometry::{Frame, Plane, Point3, Vector3, tolerance};

use super::line::Line;
use super::trim::{self, Slabs};
use super::{Ring, RingError};
use crate::CornerStyle;
use crate::corner_style::SeamName;

/// Two plates that meet at the end of a side.
#[derive(Debug, Clone, Copy)]
pub(super) struct Meeting {
    /// Angle between the plates inside the corner, radians; π in one plane.
    pub(super) inside_angle_rad: f64,
    /// How far the cut edges of this plate and of its like stand back from the outside corner line, mm.
    pub(super) trims_mm: [f64; 2],
    /// How they meet; this plate is the first.
    pub(super) style: SeamStyle,
    /// The side of both plates that is outside at this corner.
    pub(super) outside: Side,
    /// The gap between them, mm.
    pub(super) gap_mm: f64,
}

/// The meeting of plate `band` of `side` with its like on the next side; `None` where there is nothing to meet:
/// no plate there, one bent the other way, or a bend that stops short of the corner. `inside` is a place on the back
/// of either plate.
pub(super) fn meeting(ring: &Ring, side: usize, band: usize, inside: Point3) -> Option<Meeting> {
    let inside_angle_rad = inside_angle_rad(ring, side, band)?;
    let next = (side + 1) % ring.sides.len();
    let direction = ring.sides[side].bands[band].direction;
    // A lip turned back up runs round a hole: its plates then meet with their insides out.
    let outward = match direction.outside() {
        Side::Face => 1.0,
        Side::Back => -1.0,
    };
    let beyond = [side, next]
        .map(|side| ring.sides[side].bands[band].plane.distance(inside) * outward)
        .into_iter()
        .fold(0.0, |most: f64, mm| if mm.abs() > most.abs() { mm } else { most });
    let thickness_mm = ring.number.thickness().millimetres();
    let outside = if beyond > thickness_mm { other_side(direction.outside()) } else { direction.outside() };
    let asked = asked(ring, side, band);
    let slabs = Slabs::of(inside_angle_rad, &ring.number, &ring.making, asked);
    let first = asked.chosen().is_none_or(|chosen| is_first(ring, side, chosen) == Some(true));
    let (trims_mm, style) = trim::trims(&slabs, asked, first);
    Some(Meeting { inside_angle_rad, trims_mm, style, outside, gap_mm: slabs.gap_mm })
}

/// The style asked for between plate `band` of `side` and its like on the next side.
fn asked(ring: &Ring, side: usize, band: usize) -> &CornerStyle {
    ring.making.style.at(|| name(ring, side, band))
}

/// What goes by the corner at the end of `side`, between plates of rank `band`: "skirt at corner B".
pub(super) fn name(ring: &Ring, side: usize, band: usize) -> SeamName {
    let corner = &ring.corner_names[(side + 1) % ring.sides.len()];
    let plate = &ring.sides[side].bands[band].name;
    let seam = format!("{} at corner {corner}", plate.split(' ').next().unwrap_or(plate));
    SeamName { corner: corner.clone(), seam }
}

/// Angle between two plates that meet, radians.
fn inside_angle_rad(ring: &Ring, side: usize, band: usize) -> Option<f64> {
    let next = (side + 1) % ring.sides.len();
    let (own, other) = (&ring.sides[side], &ring.sides[next]);
    let short = |mm: f64| mm > tolerance::SAME_POINT_MM;
    if short(own.short_mm[1]) || short(other.short_mm[0]) {
        return None;
    }
    let (first, second) = (own.bands.get(band)?, other.bands.get(band)?);
    let alike = own.bands[..=band].iter().zip(&other.bands[..=band]).all(|(a, b)| a.direction == b.direction);
    alike.then(|| PI - first.plane.normal.angle_to(second.plane.normal))
}

/// How far the corner of the mold lines lies past the corner as drawn, along a side toward its start (0) or its end (1), where
/// the plate beside it is bent the other way, mm; else zero. Past square the mold line lies out in the air, and a plate cut
/// square that ran on to it would stand out beyond the outermost metal of its neighbour.
pub(super) fn past_drawn_mm(ring: &Ring, (side, band): (usize, usize), end: usize) -> f64 {
    let count = ring.sides.len();
    let (beside, corner) =
        if end == 0 { ((side + count - 1) % count, side) } else { ((side + 1) % count, (side + 1) % count) };
    let (own, other) = (&ring.sides[side], &ring.sides[beside]);
    let opposed = match (own.bands.first(), other.bands.first()) {
        (Some(own), Some(other)) => own.direction != other.direction,
        _ => false,
    };
    if band != 0 || !opposed || own.is_bare(end) || other.is_bare(1 - end) {
        return 0.0;
    }
    let along = |side: usize| (ring.corners[(side + 1) % count] - ring.corners[side]).unit();
    let at = ring.corners[corner];
    let drawn = |side: usize| at + along(side).left() * ring.sides[side].bare_inside_mm;
    let Some(crossing) = drawn(side).crossing(along(side), drawn(beside), along(beside)) else { return 0.0 };
    let past_mm = (at - crossing).dot(along(side));
    (if end == 0 { -past_mm } else { past_mm }).max(0.0)
}

/// Whether the side before a corner is the chosen one of the two that meet there.
fn is_first(ring: &Ring, side: usize, chosen: &crate::Chosen) -> Option<bool> {
    let [own, other] = sides_at_end(ring, side);
    chosen.is_first([(&own.0, own.1), (&other.0, other.1)])
}

/// Names and lengths of a side and the next.
fn sides_at_end(ring: &Ring, side: usize) -> [(String, f64); 2] {
    let count = ring.sides.len();
    [side, (side + 1) % count].map(|side| {
        let next = (side + 1) % count;
        // A notch beside a corner gives the side's end another name; its plate keeps that of the whole side.
        let of_plate = ring.sides[side].bands.first().and_then(|band| band.name.rsplit(' ').next());
        let of_corners = || format!("{}{}", ring.corner_names[side], ring.corner_names[next]);
        let name = of_plate.map_or_else(of_corners, str::to_owned);
        (name, ring.corners[side].distance(ring.corners[next]))
    })
}

/// Every corner must be one that the style asked for can make.
pub(super) fn check(ring: &Ring) -> Result<(), RingError> {
    let (mut names, mut mitred) = (Vec::new(), Vec::new());
    for side in 0..ring.sides.len() {
        let corner = ring.corner_names[(side + 1) % ring.sides.len()].clone();
        for band in 0..ring.sides[side].bands.len() {
            let Some(angle_rad) = inside_angle_rad(ring, side, band) else { continue };
            names.push(name(ring, side, band));
            if trim::in_one_plane(angle_rad) {
                mitred.push(name(ring, side, band));
                continue;
            }
            let style = asked(ring, side, band);
            let Some(chosen) = style.chosen() else { continue };
            if is_first(ring, side, chosen).is_none() {
                return Err(RingError::NotChosen { corner });
            }
            let shorter_mm =
                sides_at_end(ring, side).map(|side| side.1).into_iter().fold(f64::INFINITY, f64::min);
            let slabs = Slabs::of(angle_rad, &ring.number, &ring.making, style);
            slabs.check(style, shorter_mm, || corner.clone())?;
        }
    }
    RingError::of_names(&ring.making.style, &names, &mitred)
}

/// The outside corner line between plate (`side`, `band`) and its like on side `other`, in the plate's `frame`.
pub(super) fn corner_line(
    ring: &Ring,
    (side, band): (usize, usize),
    (other, outside): (usize, Side),
    frame: &Frame,
) -> Option<Line> {
    let z = z_of(ring, outside);
    let plane = ring.sides[other].bands[band].plane.moved(z);
    Line::trace(frame, plane, z).or_else(|| mitre(ring, (side, band), other, frame))
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

/// Length of the outside corner line between a plate and its like on side `other`, from one of its own mold lines to the next,
/// mm.
pub(super) fn length_mm(
    ring: &Ring,
    (side, band): (usize, usize),
    other: (usize, Side),
    frame: &Frame,
) -> Option<f64> {
    let line = corner_line(ring, (side, band), other, frame)?;
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

const fn other_side(side: Side) -> Side {
    match side {
        Side::Face => Side::Back,
        Side::Back => Side::Face,
    }
}
