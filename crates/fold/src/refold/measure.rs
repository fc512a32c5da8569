//! Places and sizes of the refolded part, against the design.

use geometry::{Frame, Plane, Point, Point3, polygon, tolerance};

use super::{ProvenSize, RefoldError};
use crate::flat::FlatPattern;
use crate::part::{FacePlane, FoldedPart, Measure, Relief, Spot};

/// Largest distance between a corner of a face as designed and as refolded, on both sides of the plate, mm.
pub(super) fn places(part: &FoldedPart, flat: &FlatPattern, folded: &[Frame]) -> Result<f64, RefoldError> {
    let design = part.frames();
    let root = flat.faces[0].placement.frame();
    let mut worst = 0.0;
    for (number, face) in flat.faces.iter().enumerate() {
        for &corner in &face.corners {
            let local = face.placement.frame().local(Frame::WORLD.place(corner, 0.0)).0;
            for (designed_z, folded_z) in [(0.0, 0.0), (part.thickness_mm(), flat.thickness_mm)] {
                let designed = to_world(&root, design[number].place(local, designed_z));
                let off_mm = designed.distance(folded[number].place(corner, folded_z));
                if off_mm > tolerance::REFOLD_MM {
                    return Err(RefoldError::Off { what: format!("a corner of {}", face.name), off_mm });
                }
                worst = off_mm.max(worst);
            }
        }
    }
    Ok(worst)
}

/// The design has its root at the origin; the flat has it where the datum corner puts it.
pub(super) fn to_world(root: &Frame, point: Point3) -> Point3 {
    root.origin + root.x * point.x + root.y * point.y + root.z * point.z
}

/// All sizes, measured between planes of the refolded faces.
pub(super) fn sizes(
    part: &FoldedPart,
    flat: &FlatPattern,
    folded: &[Frame],
) -> Result<Vec<ProvenSize>, RefoldError> {
    let measured = |size: &crate::part::Size| {
        let no_corner = || RefoldError::NoCorner { size: size.name.clone() };
        let measured_mm = distance(part, flat, folded, size.measure).ok_or_else(no_corner)?;
        let off_mm = (measured_mm - size.expected_mm).abs();
        if off_mm > tolerance::REFOLD_MM {
            return Err(RefoldError::Off { what: size.name.clone(), off_mm });
        }
        Ok(ProvenSize { name: size.name.clone(), expected_mm: size.expected_mm, measured_mm })
    };
    part.sizes.iter().map(measured).collect()
}

fn distance(part: &FoldedPart, flat: &FlatPattern, folded: &[Frame], measure: Measure) -> Option<f64> {
    let plane = |(face, side): FacePlane| folded[face].plane(part.side_mm(side));
    let corner = |planes: [FacePlane; 3]| {
        let [a, b, c] = planes.map(plane);
        a.meeting(b, c)
    };
    let place = |Spot { face, at, side }: Spot| {
        let on_the_flat = flat.faces[face].placement.place(at);
        folded[face].place(on_the_flat, part.side_mm(side))
    };
    let reach = |(face, side): FacePlane, from: Plane| {
        let place = |&corner: &Point| folded[face].place(corner, part.side_mm(side));
        let off = flat.faces[face].corners.iter().map(|corner| from.distance(place(corner)).abs());
        off.max_by(f64::total_cmp)
    };
    match measure {
        Measure::Corners(first, second) => Some(corner(first)?.distance(corner(second)?)),
        Measure::Planes(first, second) => parallel_distance(plane(first), plane(second)),
        Measure::Reach(side, from) => reach(side, plane(from)),
        Measure::CornerToPlane(of, to) => Some(plane(to).distance(corner(of)?).abs()),
        Measure::ReachPast(side, of, from) => {
            Some((reach(side, plane(from))? - plane(from).distance(corner(of)?).abs()).abs())
        }
        Measure::Spots(from, to) => Some(place(from).distance(place(to))),
        Measure::SpotToPlane(from, to) => Some(plane(to).distance(place(from)).abs()),
    }
}

fn parallel_distance(first: Plane, second: Plane) -> Option<f64> {
    let on_second = Point3::default() + second.normal * second.offset_mm;
    let parallel = first.normal.cross(second.normal).length() <= tolerance::PARALLEL_SINE;
    parallel.then(|| first.distance(on_second).abs())
}

/// The outline that is cut holds the faces and the bend zones, no more and no less: their areas agree, as far as a
/// strip of the tolerance's width along every cut edge.
///
/// With drilled relief the holes take some of both, so only square relief is judged here.
pub(super) fn outline(part: &FoldedPart, flat: &FlatPattern) -> Result<(), RefoldError> {
    if part.relief != Relief::Square || part.faces[0].rim.is_some() {
        return Ok(());
    }
    let faces: f64 = flat.faces.iter().map(|face| polygon::signed_area(&face.corners)).sum();
    let zones: f64 = flat.zones.iter().map(|zone| polygon::signed_area(zone)).sum();
    let outer = &flat.outline.outer;
    let off_mm = (outer.area_mm2() - faces - zones).abs() / outer.length_mm();
    if off_mm > tolerance::REFOLD_MM {
        return Err(RefoldError::Off { what: "the cut outline, on the whole,".to_owned(), off_mm });
    }
    Ok(())
}
