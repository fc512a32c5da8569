//! A second opinion on gaps and interference: the collision library `parry3d-f64` (crates.io, for tests only) measures
//! the refolded parts as well.
//!
//! How: every face of the refolded flat, up to its tangent lines, is given to the library as a cloud of points, its
//! corners on the back and on the face side. The library makes its own convex hull of them and measures every two faces
//! that share no bend, by Gilbert, Johnson and Keerthi's distance when they are apart and by an expanding polytope when
//! they are not. Plateloft measures the same pairs by separating axes and by corners and edges; nothing but the corners
//! is shared. Bends are given to it as strips of at most 10° between the facets of both skins, reliefs and slanting ends
//! cut out, and looked at against every other plate and bend; corners are open, butted and lapped.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use crate::common::{inches, making};
use fold::refold::{self, Proof};
use fold::{FlatPattern, FoldedPart, facets};
use geometry::{Frame, Point, Slab, polygon};
use parry3d_f64::math::{Pose, Vector};
use parry3d_f64::query;
use parry3d_f64::shape::ConvexPolyhedron;
use shapes::hopper::{Hopper, HopperMade, HopperStands, RimEdge};
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::tapered_lid::TaperedLid;
use shapes::{Chosen, CornerStyle, Figure, Making, Recipe, ReliefHole, ReliefStyle};
use units::Angle;

/// How far the two measurements may differ, mm: the library iterates, and stops at about this share of the part's size.
const SAME_MM: f64 = 1e-5;

/// How far apart two faces may be for the library to look at them, mm; more than any part here is long.
const AS_FAR_AS_MM: f64 = 10_000.0;

/// The refolded part, as the library sees it and as plateloft does.
struct Folded {
    part: FoldedPart,
    flat: FlatPattern,
    proof: Proof,
    /// Of every face, by the convex pieces of its outline: mostly one.
    hulls: Vec<Vec<ConvexPolyhedron>>,
    slabs: Vec<Vec<Slab>>,
}

fn hull(frame: &Frame, corners: &[Point], thickness_mm: f64) -> ConvexPolyhedron {
    let place = |z: f64| {
        corners.iter().map(move |&corner| {
            let point = frame.place(corner, z);
            Vector::new(point.x, point.y, point.z)
        })
    };
    ConvexPolyhedron::from_convex_hull(&place(0.0).chain(place(thickness_mm)).collect::<Vec<_>>()).unwrap()
}

fn folded(part: FoldedPart) -> Folded {
    let flat = fold::flat::unfold(&part).unwrap();
    let proof = refold::prove(&part, &flat).unwrap();
    let frames = refold::fold(&flat);
    let faces = || flat.faces.iter().zip(&frames);
    // A hull would fill a face that is not convex, such as one with a saw notch beside its strip.
    let pieces = |face: &fold::flat::FlatFace| match polygon::is_convex(&face.corners) {
        true => vec![face.corners.clone()],
        false => polygon::convex_pieces(&face.corners),
    };
    let hulls = faces()
        .map(|(face, frame)| pieces(face).iter().map(|piece| hull(frame, piece, flat.thickness_mm)).collect())
        .collect();
    let slabs = faces()
        .map(|(face, frame)| {
            pieces(face).into_iter().map(|piece| Slab::new(*frame, piece, flat.thickness_mm)).collect()
        })
        .collect();
    Folded { part, proof, hulls, slabs, flat }
}

/// Signed distance by the library, mm: below zero by how deep the two lie in one another.
fn measured_mm(first: &ConvexPolyhedron, second: &ConvexPolyhedron) -> f64 {
    query::contact(&Pose::IDENTITY, first, &Pose::IDENTITY, second, AS_FAR_AS_MM).unwrap().unwrap().dist
}

/// The least distance between the pieces of two faces, mm.
fn least_mm<T>(first: &[T], second: &[T], distance_mm: impl Fn(&T, &T) -> f64) -> f64 {
    let pairs = first.iter().flat_map(|a| second.iter().map(move |b| (a, b)));
    pairs.map(|(a, b)| distance_mm(a, b)).fold(f64::INFINITY, f64::min)
}

fn pairs(folded: &Folded) -> Vec<(usize, usize)> {
    let count = folded.flat.faces.len();
    let bent = |a: usize, b: usize| {
        folded.part.bends.iter().any(|bend| [(a, b), (b, a)].contains(&(bend.parent, bend.child)))
    };
    (0..count).flat_map(|a| (a + 1..count).map(move |b| (a, b))).filter(|&(a, b)| !bent(a, b)).collect()
}

/// Every pair without a shared bend is as far apart by the library as by plateloft, none lie in one another, and every
/// seam has the gap that was asked for. Gives the number of pairs.
fn agree(folded: &Folded) -> usize {
    let name = |face: usize| &folded.flat.faces[face].name;
    for (a, b) in pairs(folded) {
        let library_mm = least_mm(&folded.hulls[a], &folded.hulls[b], measured_mm);
        let own_mm = least_mm(&folded.slabs[a], &folded.slabs[b], Slab::separation_mm);
        assert!((library_mm - own_mm).abs() < SAME_MM, "{} and {}: {library_mm}, {own_mm}", name(a), name(b));
        assert!(library_mm > -SAME_MM, "{} and {}: {library_mm}", name(a), name(b));
    }
    for (seam, (flat, designed)) in
        folded.proof.seams.iter().zip(folded.flat.seams.iter().zip(&folded.part.seams))
    {
        let library_mm = least_mm(&folded.hulls[flat.first.0], &folded.hulls[flat.second.0], measured_mm);
        let own_mm = seam.least_mm - seam.interference_mm;
        assert!((library_mm - own_mm).abs() < SAME_MM, "{}: {library_mm}, {own_mm}", seam.name);
        assert!((library_mm - designed.gap_mm).abs() < SAME_MM, "{}: {library_mm}", seam.name);
    }
    pairs(folded).len()
}

/// How deep a bend may seem to lie in other metal, mm: what plateloft lets pass, .1 mm, and what strips of at most 10°
/// bulge inward of the arc, R·(1 − cos 5°), here at most .024 mm.
const SEEMS_DEEP_MM: f64 = 0.125;

/// A solid of the folded part: a face, or one strip of a bend.
struct Solid {
    place: facets::Place,
    hull: ConvexPolyhedron,
}

/// Faces as they are, bends cut into strips along their axis: facets of both skins that lie back to back make one strip.
/// Reliefs, holes and slanting ends are cut out of the facets.
fn solids(folded: &Folded) -> Vec<Solid> {
    let drawn = facets::of(&folded.flat);
    let skin = |facet: &&facets::Facet| matches!(facet.surface, facets::Surface::Skin(_));
    let mut solids: Vec<Solid> = folded
        .hulls
        .iter()
        .enumerate()
        .flat_map(|(face, hulls)| {
            hulls.iter().map(move |hull| Solid { place: facets::Place::Face(face), hull: hull.clone() })
        })
        .collect();
    for bend in 0..folded.flat.bends.len() {
        let place = facets::Place::Bend(bend);
        let own: Vec<&facets::Facet> =
            drawn.facets.iter().filter(skin).filter(|facet| facet.place == place).collect();
        let mut normals: Vec<geometry::Vector3> = Vec::new();
        for facet in &own {
            if !normals.iter().any(|known| known.dot(facet.normal).abs() > 1.0 - 1e-9) {
                normals.push(facet.normal);
            }
        }
        assert!(normals.len() >= 2, "bend {bend} has strips");
        for normal in normals {
            let strip = own.iter().filter(|facet| facet.normal.dot(normal).abs() > 1.0 - 1e-9);
            let corners: Vec<Vector> =
                strip.flat_map(|facet| &facet.rings[0]).map(|p| Vector::new(p.x, p.y, p.z)).collect();
            solids.push(Solid { place, hull: ConvexPolyhedron::from_convex_hull(&corners).unwrap() });
        }
    }
    solids
}

/// No bend lies in other metal: the library measures every strip of every bend against every face but its own two, and
/// against every strip of the others. Gives the number of pairs and the least distance, mm.
fn bends_are_clear(folded: &Folded) -> (usize, f64) {
    let solids = solids(folded);
    let bend = |solid: &Solid| match solid.place {
        facets::Place::Bend(bend) => Some(bend),
        facets::Place::Face(_) => None,
    };
    let own = |bend: usize, other: &Solid| match other.place {
        facets::Place::Bend(other) => other == bend,
        facets::Place::Face(face) => {
            let line = &folded.flat.bends[bend];
            [line.parent, line.child].contains(&face)
        }
    };
    let (mut count, mut least) = (0, f64::INFINITY);
    for (number, first) in solids.iter().enumerate() {
        for second in &solids[..number] {
            let Some(of) = bend(first) else { continue };
            if own(of, second) || bend(second).is_some_and(|other| own(other, first)) {
                continue;
            }
            let distance_mm = measured_mm(&first.hull, &second.hull);
            assert!(distance_mm > -SEEMS_DEEP_MM, "{:?} and {:?}: {distance_mm}", first.place, second.place);
            least = distance_mm.min(least);
            count += 1;
        }
    }
    (count, least)
}

fn with_gap(gap: &str) -> Making {
    Making { seam_gap: inches(gap), ..making(".125", ".125", 0.42) }
}

fn crooked() -> Figure {
    let corners = [(0.0, 0.0), (31.25, 0.0), (30.5, 24.625), (0.5, 25.1)];
    Figure::lettered(&corners.map(|(x, y)| Point::new(x * 25.4, y * 25.4))).unwrap()
}

fn lid(gap: &str) -> Folded {
    let lid = TaperedLid {
        over: crooked(),
        outset: inches("7/8"),
        rise: inches("2"),
        inset: ["3", "2 1/2", "4 1/4", "2"].map(inches).to_vec(),
        skirt: inches("1 1/8"),
        return_width: Some(inches("3/4")),
    };
    folded(lid.shape(&with_gap(gap)).unwrap().part)
}

#[test]
fn a_tapered_lid_with_a_return() {
    for gap in ["0", "1/64", "1/16"] {
        let lid = lid(gap);
        // Thirteen faces on twelve bends.
        assert_eq!((agree(&lid), lid.proof.seams.len()), (13 * 12 / 2 - 12, 12));
    }
}

#[test]
fn a_hopper_with_its_collar_off_the_middle() {
    let figure = |x: [f64; 2], y: [f64; 2]| {
        let corners = [(x[0], y[0]), (x[1], y[0]), (x[1], y[1]), (x[0], y[1])];
        Figure::lettered(&corners.map(|(x, y)| Point::new(x * 25.4, y * 25.4))).unwrap()
    };
    let hopper = Hopper {
        stands: HopperStands::RimDown,
        rim: figure([0.0, 30.0], [0.0, 24.0]),
        collar: figure([8.0, 17.0], [6.0, 14.0]),
        rise: inches("12"),
        rim_edge: RimEdge::None,
        collar_height: None,
        made: HopperMade::OnePiece,
        least_slope: None,
    };
    for gap in ["0", "1/32"] {
        let count: usize = (0..hopper.pieces().len().max(1))
            .map(|piece| agree(&folded(hopper.shape_piece(piece, &with_gap(gap)).unwrap().part)))
            .sum();
        assert!(count >= 3, "{count} pairs");
    }
}

fn pan(rim: &str) -> Folded {
    let pan = Pan {
        plan: PanPlan::Outside { length: inches("22"), width: inches("12 1/2") },
        height: inches("6"),
        rims: vec![Rim::In(inches(rim))],
        lean: [0.0, 6.0, 17.5, 3.0].map(Angle::from_degrees).to_vec(),
        edge: shapes::edge::EdgeEnd::Plain,
    };
    folded(pan.shape(&with_gap("1/64")).unwrap().part)
}

#[test]
fn a_leaning_pan_with_its_rim_inside() {
    let pan = pan("3/4");
    // Nine faces on eight bends.
    assert_eq!(agree(&pan), 9 * 8 / 2 - 8);
}

/// Corners of every style on a leaning pan with a rim inside and on a lid with a return: butts, laps inside and outside.
#[test]
fn butt_and_lap_corners() {
    let lap = |outside| CornerStyle::Lap { width: inches("5/8"), carried_by: Chosen::LongSides, outside };
    for corner in [CornerStyle::Butt { through: Chosen::LongSides }, lap(false), lap(true)] {
        for gap in ["1/64", "1/32"] {
            let making = Making { corner: corner.clone(), ..with_gap(gap) };
            let pan = Pan {
                plan: PanPlan::Outside { length: inches("22"), width: inches("12 1/2") },
                height: inches("6"),
                rims: vec![Rim::None],
                lean: [0.0, 6.0, 17.5, 3.0].map(Angle::from_degrees).to_vec(),
                edge: shapes::edge::EdgeEnd::Plain,
            };
            let pan = folded(pan.shape(&making).unwrap().part);
            assert!(agree(&pan) >= 5 * 4 / 2 - 4, "{corner:?}");
            let (count, _) = bends_are_clear(&pan);
            assert!(count > 4 * 8 * 3, "{corner:?}: {count}");
        }
    }
}

/// Bends as strips, beside every relief: the pressed metal of neighbours stays out of one another's and of other plates'.
#[test]
fn bends_beside_every_relief() {
    let hole = ReliefStyle::Round { hole: ReliefHole::Handbook };
    let tear = ReliefStyle::TearDrop { hole: ReliefHole::Handbook };
    for relief in [ReliefStyle::Square, hole, tear] {
        let making = Making { relief, ..with_gap("1/64") };
        let pan = Pan {
            plan: PanPlan::Outside { length: inches("22"), width: inches("12 1/2") },
            height: inches("6"),
            rims: vec![Rim::In(inches("3/4"))],
            lean: [0.0, 6.0, 17.5, 3.0].map(Angle::from_degrees).to_vec(),
            edge: shapes::edge::EdgeEnd::Plain,
        };
        let pan = folded(pan.shape(&making).unwrap().part);
        let (count, least) = bends_are_clear(&pan);
        // Eight bends of eight or more strips against the faces and bends of the others.
        assert!(count > 8 * 8 * 7, "{relief:?}: {count} pairs");
        assert!(least < 5.0, "{relief:?}: {least} mm, so nothing was near");
    }
    for gap in ["0", "1/16"] {
        let (count, _) = bends_are_clear(&lid(gap));
        assert!(count > 12 * 3 * 11, "{count} pairs");
    }
}

/// The measure above finds what it must: a bend moved sideways into its neighbour's plate.
#[test]
fn a_bend_moved_into_a_plate_is_found() {
    let pan = pan("3/4");
    let solids = solids(&pan);
    let line = &pan.flat.bends[0];
    let stranger = (0..pan.flat.faces.len()).find(|face| ![line.parent, line.child].contains(face)).unwrap();
    let target = &pan.hulls[stranger][0];
    let strip = solids.iter().find(|solid| solid.place == facets::Place::Bend(0)).unwrap();
    let middle = |hull: &ConvexPolyhedron| {
        let points = hull.points();
        points.iter().fold(Vector::ZERO, |sum, point| sum + *point)
            / f64::from(u32::try_from(points.len()).unwrap())
    };
    let moved = Pose::from_translation(middle(target) - middle(&strip.hull));
    let contact =
        query::contact(&moved, &strip.hull, &Pose::IDENTITY, target, AS_FAR_AS_MM).unwrap().unwrap();
    assert!(contact.dist < -SEEMS_DEEP_MM, "{}", contact.dist);
}

/// Pushed into one another on purpose, so that there is interference to measure: the shortest way out is the same.
#[test]
fn faces_pushed_into_one_another_are_as_deep_by_both() {
    let mut deep = 0;
    for folded in [lid("0"), pan("3/4")] {
        let frames = refold::fold(&folded.flat);
        for seam in &folded.flat.seams {
            let (first, second) = (seam.first.0, seam.second.0);
            // Along its own plate and square to it, away from the other plate and into it.
            for (push_mm, lift_mm) in
                [(0.4, 0.7), (-0.4, 0.7), (1.1, -0.3), (-1.1, -0.9), (2.3, 1.8), (-2.3, -1.8)]
            {
                let (own, other) = (&frames[first], frames[second].z);
                let along = other - own.z * own.z.dot(other);
                if along.length() < 0.1 {
                    continue;
                }
                let moved = Frame { origin: own.origin + along.unit() * push_mm + own.z * lift_mm, ..*own };
                let corners = &folded.flat.faces[first].corners;
                let library_mm =
                    measured_mm(&hull(&moved, corners, folded.flat.thickness_mm), &folded.hulls[second][0]);
                let own_mm = Slab::new(moved, corners.clone(), folded.flat.thickness_mm)
                    .separation_mm(&folded.slabs[second][0]);
                assert!((library_mm - own_mm).abs() < SAME_MM, "{}: {library_mm}, {own_mm}", seam.name);
                deep += usize::from(own_mm < -0.1);
            }
        }
    }
    assert!(deep >= 12, "only {deep} pairs were pushed into one another");
}
