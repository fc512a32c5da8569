//! Seams of the refolded part: how far apart the two cut edges stand, and whether the plates collide.

use geometry::{Frame, Point, Point3, polygon, tolerance};

use super::RefoldError;
use crate::flat::{FlatFace, FlatPattern, FlatSeam};
use crate::part::{FoldedPart, Seam};

/// How many places along a seam are measured.
const STATIONS: u32 = 17;

/// A seam as refolded.
#[derive(Debug, Clone, PartialEq)]
pub struct SeamGap {
    /// Its name.
    pub name: String,
    /// Least distance between the nearest edges along the seam, mm.
    pub least_mm: f64,
    /// Largest such distance, mm.
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
) -> Result<Vec<SeamGap>, RefoldError> {
    part.seams.iter().zip(&flat.seams).map(|(design, seam)| one(design, seam, flat, folded)).collect()
}

fn one(design: &Seam, seam: &FlatSeam, flat: &FlatPattern, folded: &[Frame]) -> Result<SeamGap, RefoldError> {
    let (first, second) = (cut_edges(&seam.first, flat, folded), cut_edges(&seam.second, flat, folded));
    let mut gap = SeamGap {
        name: seam.name.clone(),
        least_mm: f64::INFINITY,
        largest_mm: 0.0,
        inside_angle_rad: design.inside_angle_rad,
        length_mm: design.length_mm,
    };
    for (own, other, other_face) in [(&first, &second, seam.second.0), (&second, &first, seam.first.0)] {
        for station in 0..STATIONS {
            let share = f64::from(station) / f64::from(STATIONS - 1);
            let stations = own.map(|[a, b]| a.toward(b, share));
            let depth_mm = stations
                .iter()
                .map(|&point| depth(point, &flat.faces[other_face], &folded[other_face], flat.thickness_mm))
                .fold(0.0, f64::max);
            if depth_mm > tolerance::REFOLD_MM {
                return Err(RefoldError::Collision { seam: seam.name.clone(), depth_mm });
            }
            if let Some(apart) = apart(&stations, other) {
                gap.least_mm = gap.least_mm.min(apart);
                gap.largest_mm = gap.largest_mm.max(apart);
            }
        }
    }
    check(design, gap)
}

fn check(design: &Seam, gap: SeamGap) -> Result<SeamGap, RefoldError> {
    if (gap.least_mm - design.gap_mm).abs() > tolerance::REFOLD_MM {
        return Err(RefoldError::Gap { seam: gap.name, least_mm: gap.least_mm, designed_mm: design.gap_mm });
    }
    Ok(gap)
}

/// The cut edge in space: on the back and on the face side.
fn cut_edges((face, ends): &(usize, [Point; 2]), flat: &FlatPattern, folded: &[Frame]) -> [[Point3; 2]; 2] {
    [0.0, flat.thickness_mm].map(|z| ends.map(|end| folded[*face].place(end, z)))
}

/// Least distance from the stations on both sides of one plate to both cut edges of the other; `None` where the
/// station lies beyond the other edge's ends, so that seams of unlike length are measured where they run together.
fn apart(stations: &[Point3; 2], other: &[[Point3; 2]; 2]) -> Option<f64> {
    let near = |point: Point3, [a, b]: [Point3; 2]| {
        let along = b - a;
        let share = (point - a).dot(along) / along.dot(along);
        (0.0..=1.0).contains(&share).then(|| point.distance(a.toward(b, share)))
    };
    let pairs = stations.iter().flat_map(|&point| other.iter().map(move |&edge| near(point, edge)));
    pairs.flatten().min_by(f64::total_cmp)
}

/// How deep `point` lies inside a plate: the shortest way out, mm; zero outside.
fn depth(point: Point3, face: &FlatFace, frame: &Frame, thickness_mm: f64) -> f64 {
    let (local, z) = frame.local(point);
    if z <= 0.0 || z >= thickness_mm || !polygon::contains(&face.corners, local) {
        return 0.0;
    }
    let to_edge = polygon::edges(&face.corners)
        .map(|edge| polygon::point_to_segment(local, edge))
        .fold(f64::INFINITY, f64::min);
    z.min(thickness_mm - z).min(to_edge)
}
