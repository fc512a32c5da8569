//! Seams of the refolded part: how far apart the two plates stand along the whole seam, and whether they collide.
//!
//! The distance from a point to a convex body is largest at an end of the straight edge the point runs along, so the
//! largest gap is exact though only ends are measured.

use geometry::{Frame, Point, Point3, Slab, tolerance};

use super::RefoldError;
use super::solid::{self, Solid};
use crate::flat::{FlatPattern, FlatSeam};
use crate::part::{FoldedPart, Seam, SeamSide, SeamStyle};

/// A seam as refolded.
#[derive(Debug, Clone, PartialEq)]
pub struct SeamGap {
    /// Its name.
    pub name: String,
    /// How the plates meet.
    pub style: SeamStyle,
    /// Least distance between the plates, mm.
    pub least_mm: f64,
    /// How deep the plates lie in one another, mm; zero when they do not. Never above the tolerance of refolding.
    pub interference_mm: f64,
    /// Largest distance from the edge that meets the other plate, where both run side by side, mm.
    pub largest_mm: f64,
    /// Inside angle between the plates, radians.
    pub inside_angle_rad: f64,
    /// Outside length of the seam, mm.
    pub length_mm: f64,
}

/// Measures every seam.
pub(super) fn measure(
    part: &FoldedPart,
    flat: &FlatPattern,
    folded: &[Frame],
    solids: &[Solid],
) -> Result<Vec<SeamGap>, RefoldError> {
    part.seams.iter().zip(&flat.seams).map(|(design, seam)| one(design, seam, flat, folded, solids)).collect()
}

fn one(
    design: &Seam,
    seam: &FlatSeam,
    flat: &FlatPattern,
    folded: &[Frame],
    solids: &[Solid],
) -> Result<SeamGap, RefoldError> {
    let (first, second) = (cut_edges(&seam.first, flat, folded), cut_edges(&seam.second, flat, folded));
    let (first_solid, second_solid) = (&solids[seam.first.0], &solids[seam.second.0]);
    let least_mm = solid::separation_mm(first_solid, second_solid);
    if least_mm < -tolerance::REFOLD_MM {
        return Err(RefoldError::Collision { seam: seam.name.clone(), depth_mm: -least_mm });
    }
    let largest = match design.style {
        SeamStyle::Open => {
            let sides = [largest(&first, &second, second_solid), largest(&second, &first, first_solid)];
            sides.into_iter().flatten().max_by(f64::total_cmp)
        }
        SeamStyle::Butt { through: SeamSide::First }
        | SeamStyle::TabAndSlot { tabs: SeamSide::Second, .. } => stopped(&second, first_solid),
        SeamStyle::Butt { through: SeamSide::Second }
        | SeamStyle::TabAndSlot { tabs: SeamSide::First, .. } => stopped(&first, second_solid),
        SeamStyle::Lap { carrier: SeamSide::First, .. } => Some(flush(first_solid, second_solid)),
        SeamStyle::Lap { carrier: SeamSide::Second, .. } => Some(flush(second_solid, first_solid)),
    };
    check(
        design,
        SeamGap {
            name: seam.name.clone(),
            style: design.style,
            least_mm: least_mm.max(0.0),
            interference_mm: (-least_mm).max(0.0),
            largest_mm: largest.unwrap_or(least_mm).max(least_mm),
            inside_angle_rad: design.inside_angle_rad,
            length_mm: design.length_mm,
        },
    )
}

fn check(design: &Seam, gap: SeamGap) -> Result<SeamGap, RefoldError> {
    // Tabs may come nearer to the ends of their slots than the plates to one another.
    let nearest_mm = match design.style {
        SeamStyle::TabAndSlot { clearance_mm, .. } => clearance_mm.min(design.gap_mm),
        _ => design.gap_mm,
    };
    let found = [(gap.least_mm, nearest_mm), (gap.largest_mm, design.gap_mm)];
    let off =
        |(measured_mm, designed_mm): &(f64, f64)| (measured_mm - designed_mm).abs() > tolerance::REFOLD_MM;
    match found.into_iter().find(off) {
        Some((measured_mm, designed_mm)) => {
            Err(RefoldError::Gap { seam: gap.name, measured_mm, designed_mm })
        }
        None => Ok(gap),
    }
}

/// The cut edge in space: on the back and on the face side.
fn cut_edges((face, ends): &(usize, [Point; 2]), flat: &FlatPattern, folded: &[Frame]) -> [[Point3; 2]; 2] {
    [0.0, flat.thickness_mm].map(|z| ends.map(|end| folded[*face].place(end, z)))
}

/// Largest distance to the other plate from the nearer edge of one; `None` where they nowhere run side by side.
fn largest(own: &[[Point3; 2]; 2], other: &[[Point3; 2]; 2], plate: &Solid) -> Option<f64> {
    let farthest = |ends: [Point3; 2]| {
        let to_plate = |end: Point3| solid::distance_to_point_mm(plate, end);
        to_plate(ends[0]).max(to_plate(ends[1]))
    };
    own.iter().filter_map(|edge| beside(*edge, other)).map(farthest).min_by(f64::total_cmp)
}

/// Largest distance from the nearer edge of a plate to the one it stops against, as far as it stands over that;
/// `None` where it nowhere does.
fn stopped(own: &[[Point3; 2]; 2], plate: &Solid) -> Option<f64> {
    let farthest = |edge: &[Point3; 2]| {
        let over = |slab: &Slab| {
            let ends = slab.beneath(*edge)?;
            Some(ends.map(|end| slab.distance_to_point_mm(end)))
        };
        plate.iter().filter_map(over).flatten().max_by(f64::total_cmp)
    };
    own.iter().filter_map(farthest).min_by(f64::total_cmp)
}

/// The piece of an edge that runs beside the other plate's edges.
fn beside([a, b]: [Point3; 2], other: &[[Point3; 2]; 2]) -> Option<[Point3; 2]> {
    let along = b - a;
    let share = |point: Point3| (point - a).dot(along) / along.dot(along);
    let (mut low, mut high) = (0.0_f64, 1.0_f64);
    for edge in other {
        let ends = edge.map(share);
        low = low.max(ends[0].min(ends[1]));
        high = high.min(ends[0].max(ends[1]));
    }
    (low < high).then(|| [a.toward(b, low), a.toward(b, high)])
}

/// How far the near face of a lap strip stands off the plate it lies along, at its worst corner, mm.
fn flush(strip: &[Slab], plate: &Solid) -> f64 {
    let sides = |slab: &Slab| {
        let (back, face) = slab.corners().split_at(slab.corners().len() / 2);
        let worst = |corners: &[Point3]| {
            corners.iter().map(|&corner| solid::distance_to_point_mm(plate, corner)).fold(0.0, f64::max)
        };
        worst(back).min(worst(face))
    };
    strip.iter().map(sides).fold(0.0, f64::max)
}
