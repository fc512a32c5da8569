//! The metal of a flat is that of its faces and bend zones, less what the reliefs take: nothing else is cut away, and
//! nothing is left standing.

use fold::part::{Edge, Relief};
use fold::{FlatPattern, FoldedPart};
use geometry::outline::Chords;
use geometry::{Point, Polygon, Region, Vector, polygon, tolerance};
use proptest::prelude::*;

use super::random::flat_parts;

/// Sides of the stand-in for a drilled hole.
const HOLE_SIDES: u32 = 720;

fn region(corners: &[Point]) -> Region {
    Region::of(&Polygon { outer: corners.to_vec(), holes: Vec::new() })
}

/// The bend zone between the edges of its two faces, corners counter-clockwise. A square relief cuts both tangent lines
/// at the shorter end.
fn zone(part: &FoldedPart, flat: &FlatPattern, number: usize) -> Vec<Point> {
    let bend = flat.bends[number];
    let across = bend.across();
    let on_line = |face: usize, side: f64| {
        let along = bend.along();
        let from_line = move |p: &Point| (*p - bend.from).dot(across) - side * 0.5 * bend.zone_mm;
        let corners =
            flat.faces[face].corners.iter().filter(move |p| from_line(p).abs() < tolerance::SAME_POINT_MM);
        let places: Vec<f64> = corners.map(|p| (*p - bend.from).dot(along)).collect();
        // The floor of a saw notch lies on the tangent line too, past the end of the zone.
        let nearest = |end: f64| {
            let near = |a: &&f64, b: &&f64| (**a - end).abs().total_cmp(&(**b - end).abs());
            *places.iter().min_by(near).unwrap()
        };
        (nearest(0.0), nearest(bend.from.distance(bend.to)))
    };
    let (mut parent, mut child) = (on_line(bend.parent, -1.0), on_line(bend.child, 1.0));
    if part.relief == Relief::Square {
        let [before, after] = beside_bends(part, number);
        if before {
            (parent.0, child.0) = (parent.0.max(child.0), parent.0.max(child.0));
        }
        if after {
            (parent.1, child.1) = (parent.1.min(child.1), parent.1.min(child.1));
        }
    }
    let place =
        |along: f64, side: f64| bend.from + bend.along() * along + across * (side * 0.5 * bend.zone_mm);
    vec![place(child.0, 1.0), place(child.1, 1.0), place(parent.1, -1.0), place(parent.0, -1.0)]
}

/// Whether another bend of the parent meets this one at its start and at its end.
fn beside_bends(part: &FoldedPart, number: usize) -> [bool; 2] {
    let bend = part.bends[number];
    let edges = &part.faces[bend.parent].edges;
    let count = edges.len();
    let bent = |edge: usize| edges[edge % count] != Edge::Free;
    [bent(bend.parent_edge + count - 1), bent(bend.parent_edge + 1)]
}

/// Centres and radii of the drilled reliefs of the root: its corners between two bends.
fn reliefs(part: &FoldedPart, flat: &FlatPattern) -> Vec<(Point, f64)> {
    let bends: Vec<_> = flat.bends.iter().enumerate().filter(|(_, bend)| bend.parent == 0).collect();
    let tangent =
        |bend: &fold::flat::BendLine| (bend.from - bend.across() * (0.5 * bend.zone_mm), bend.along());
    let mut centres = Vec::new();
    for (number, bend) in &bends {
        let edge = part.bends[*number].parent_edge;
        let next = (edge + 1) % part.faces[0].edges.len();
        let after = bends.iter().find(|(other, _)| part.bends[*other].parent_edge == next);
        if let Some((other, after)) = after {
            let ((p, u), (q, v)) = (tangent(bend), tangent(after));
            let radius_mm = part.relief_radius_mm([*number, *other]).unwrap_or_default();
            centres.push((p.crossing(u, q, v).unwrap(), radius_mm));
        }
    }
    centres
}

fn drilled(centre: Point, radius_mm: f64) -> Region {
    let step = 2.0 * std::f64::consts::PI / f64::from(HOLE_SIDES);
    let corners = (0..HOLE_SIDES).map(|side| centre + Vector::at_angle(f64::from(side) * step) * radius_mm);
    region(&corners.collect::<Vec<Point>>())
}

/// The metal as it must be.
fn metal(part: &FoldedPart, flat: &FlatPattern) -> Region {
    let faces = flat.faces.iter().map(|face| region(&face.corners));
    let zones = (0..flat.bends.len()).map(|number| region(&zone(part, flat, number)));
    let whole: Region = faces.chain(zones).collect();
    match part.relief {
        Relief::Round(_) => {
            let holes = reliefs(part, flat).into_iter();
            whole.difference(&holes.map(|(centre, radius_mm)| drilled(centre, radius_mm)).collect())
        }
        Relief::None | Relief::Square | Relief::TearDrop(_) => whole,
    }
}

/// The most that the ends of bend zones may be cut back by beside seams, mm².
fn cut_back_most(part: &FoldedPart, flat: &FlatPattern) -> f64 {
    if part.seams.is_empty() {
        return 0.0;
    }
    flat.bends.iter().map(|bend| 4.0 * (bend.inside_radius_mm + flat.thickness_mm) * bend.zone_mm).sum()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(80))]

    #[test]
    fn the_metal_of_a_flat_is_its_faces_and_its_bend_zones((part, flat) in flat_parts()) {
        let (expected, found) = (metal(&part, &flat), Region::of(&flat.outline.to_polygon(Chords::On)));
        let missing = expected.difference(&found).area_mm2();
        let surplus = found.difference(&expected).area_mm2();
        // Booleans round; drilled holes are measured over chords.
        let rounding = 0.1;
        let chords: f64 = match part.relief {
            Relief::Round(_) => {
                let round = reliefs(&part, &flat).into_iter().map(|(_, radius)| 2.0 * std::f64::consts::PI * radius);
                round.sum::<f64>() * tolerance::ARC_CHORD_MM
            }
            Relief::None | Relief::Square | Relief::TearDrop(_) => 0.0,
        };
        let at_seams = cut_back_most(&part, &flat);
        prop_assert!(missing < rounding + chords + at_seams, "missing {missing} mm²");
        let faces: Region = flat.faces.iter().map(|face| region(&face.corners)).collect();
        let drilled: Region = reliefs(&part, &flat).into_iter().map(|(centre, radius)| drilled(centre, radius)).collect();
        let missing = faces.difference(&found).difference(&drilled).area_mm2();
        prop_assert!(part.relief != Relief::Square || missing < rounding, "missing of the faces {missing} mm²");
        prop_assert!(surplus < rounding + chords, "surplus {surplus} mm²");
    }

    #[test]
    fn areas_of_a_sawn_flat_add_up((part, _) in flat_parts()) {
        let part = FoldedPart { relief: Relief::Square, ..part };
        let Ok(flat) = fold::flat::unfold(&part) else { return Err(TestCaseError::reject("not of one piece")) };
        let faces: f64 = flat.faces.iter().map(|face| polygon::signed_area(&face.corners)).sum();
        let found = Region::of(&flat.outline.to_polygon(Chords::On));
        let all_faces: Region = flat.faces.iter().map(|face| region(&face.corners)).collect();
        // Between square ends a zone may reach past its notch into the flange beside it, whose metal is counted with that.
        let zone = |number: usize| {
            region(&zone(&part, &flat, number)).difference(&all_faces).intersection(&found).area_mm2()
        };
        let zones: f64 = (0..flat.bends.len()).map(zone).sum();
        let off = flat.outline.area_mm2() - faces - zones;
        prop_assert!(off.abs() < 0.1, "{off} mm²");
        let own: f64 = flat.zones.iter().map(|zone| polygon::signed_area(zone)).sum();
        prop_assert!((own - zones).abs() < 0.1, "{own} {zones} mm²");
        let in_faces: f64 = flat.zones.iter().map(|zone| region(zone).intersection(&all_faces).area_mm2()).sum();
        // Booleans snap to some two millionths of a millimetre, over metres of shared edges.
        prop_assert!(in_faces < 0.1, "zones lie in faces by {in_faces} mm²");
    }
}
