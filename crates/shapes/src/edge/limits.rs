//! How far along its edge the leg of a treated edge may run: up to the mitre with its neighbour, or clear of it.

use fold::Direction;
use geometry::{Plane, Point, Vector3, tolerance};

use super::EdgeEnd;
use crate::Making;
use crate::ring::{Ring, RingSide};

/// The half of space in which the leg must lie: where `normal`·p is not below `offset_mm`.
#[derive(Debug, Clone, Copy)]
pub(super) struct Half {
    pub(super) normal: Vector3,
    pub(super) offset_mm: f64,
    /// Whether it holds while the metal is still bending, too.
    pub(super) in_bend: bool,
}

/// The limit that the plate on side `other` sets to the edge of `side`, if it sets one.
pub(super) fn beside(
    ring: &Ring,
    (side, other): (usize, usize),
    ends: &[EdgeEnd],
    making: &Making,
) -> Option<Half> {
    let (own, neighbour) = (&ring.sides[side], &ring.sides[other]);
    let treated = !ends[other].is_plain();
    let bulging = is_bulging(ring, side, other);
    if own.bands.is_empty() {
        let (first, second) = (base_plane(ring, side), base_plane(ring, other));
        return if !neighbour.bands.is_empty() {
            let radius_mm = making.number.inside_radius().millimetres();
            bulging.then(|| clear_of(second, radius_mm + making.thickness_mm()))
        } else if !bulging {
            // The legs fold away from one another, but would overlap in the flat.
            treated.then(|| mirrored(first, second))
        } else if treated {
            Some(halved([first, second], making))
        } else {
            Some(clear_of(second, 0.0))
        };
    }
    let alike = own.bands.len() == neighbour.bands.len()
        && own.bands.iter().zip(&neighbour.bands).all(|(a, b)| a.direction == b.direction);
    let at = usize::from(other == (side + 1) % ring.sides.len());
    let short = own.short_mm[at].max(neighbour.short_mm[1 - at]) > tolerance::SAME_POINT_MM;
    if !alike || short {
        return None;
    }
    let in_one_plane = last_normal(own)?.cross(last_normal(neighbour)?).length() <= tolerance::PARALLEL_SINE;
    let planes = if in_one_plane && bulging && is_inward(ring, side) {
        // Round a hole each leg keeps to the side of the mitre that its own wall is on.
        [neighbour.cut?, own.cut?]
    } else if in_one_plane {
        [own.cut?, neighbour.cut?]
    } else {
        [outside(ring, own)?, outside(ring, neighbour)?]
    };
    if treated {
        Some(halved(planes, making))
    } else if in_one_plane {
        None
    } else {
        Some(clear_of(planes[1], making.thickness_mm() + making.corners().gap_mm))
    }
}

/// True where the outline turns left from the one side to the other, as at a plain outer corner.
fn is_bulging(ring: &Ring, side: usize, other: usize) -> bool {
    let count = ring.corners.len();
    let along = |side: usize| ring.corners[(side + 1) % count] - ring.corners[side];
    let first = if other == (side + 1) % count { side } else { other };
    0.0 < along(first).cross(along((first + 1) % count))
}

/// True where the last plate of a side ends nearer to the middle of the outline than it begins, as a rim turned inward.
fn is_inward(ring: &Ring, side: usize) -> bool {
    let outward = base_plane(ring, side).normal;
    ring.sides[side].cut.is_some_and(|cut| cut.normal.dot(outward) < 0.0)
}

/// The upright plane along a side of the base, its normal outward.
fn base_plane(ring: &Ring, side: usize) -> Plane {
    upright(ring.corners[side], ring.corners[(side + 1) % ring.corners.len()])
}

/// The upright plane along a side from `a` to `b`, its normal to the right of it.
pub(crate) fn upright(a: Point, b: Point) -> Plane {
    let outward = (b - a).unit().right();
    Plane::through(at(a), Vector3::new(outward.x, outward.y, 0.0))
}

const fn at(point: Point) -> geometry::Point3 {
    geometry::Point3::new(point.x, point.y, 0.0)
}

fn last_normal(side: &RingSide) -> Option<Vector3> {
    Some(side.bands.last()?.plane.normal)
}

/// The outside of the last plate of a side, its normal out of the metal.
fn outside(ring: &Ring, side: &RingSide) -> Option<Plane> {
    let band = side.bands.last()?;
    Some(match band.direction {
        Direction::Down => band.plane.moved(ring.number.thickness().millimetres()),
        Direction::Up => reversed(band.plane),
    })
}

fn reversed(plane: Plane) -> Plane {
    Plane { normal: -plane.normal, offset_mm: -plane.offset_mm }
}

/// Nearer to the first plane than to the second, and half the gap off the middle.
pub(super) fn halved([own, other]: [Plane; 2], making: &Making) -> Half {
    let (across, offset_mm) = (own.normal - other.normal, own.offset_mm - other.offset_mm);
    let length = across.length();
    Half {
        normal: across * (1.0 / length),
        offset_mm: offset_mm / length + 0.5 * making.corners().gap_mm,
        in_bend: true,
    }
}

/// The mitre of two legs in the flat, in a hollow of the outline, where it lies once the own leg is folded over.
///
/// In the flat the leg may run along its edge from cot(φ/2) of its height on, φ the angle of the hollow; folded over, the
/// leg is the mirror image of that, and stands a height of −dist₁ beneath its own plane: dist₂ + (1 + 2·cos φ)·dist₁ ≥ 0
/// (plane geometry).
pub(super) fn mirrored(own: Plane, other: Plane) -> Half {
    let share = 1.0 - 2.0 * own.normal.dot(other.normal);
    let normal = other.normal + own.normal * share;
    let length = normal.length();
    let offset_mm = (other.offset_mm + own.offset_mm * share) / length;
    Half { normal: normal * (1.0 / length), offset_mm, in_bend: false }
}

/// Beneath a plane by a distance.
pub(super) fn clear_of(plane: Plane, by_mm: f64) -> Half {
    Half { normal: -plane.normal, offset_mm: by_mm - plane.offset_mm, in_bend: true }
}
