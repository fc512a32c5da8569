//! Bend zones, as the outline of the flat cuts them and rolled round their arcs, lie in no metal but what they are bent
//! from. The collision library `parry3d-f64` (crates.io, for tests only) measures strips of 10° and faces, each as the hull
//! of its corners on both sides of the metal.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use crate::common::{inches, making};
use fold::facets::{Facet, Place, Surface};
use fold::{FlatPattern, FoldedPart, Side};
use geometry::{Point, Point3, polygon, tolerance};
use parry3d_f64::math::{Pose, Vector};
use parry3d_f64::query;
use parry3d_f64::shape::ConvexPolyhedron;
use proptest::prelude::*;
use shapes::edge::{EdgeEnd, HemKind};
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::tapered_lid::TaperedLid;
use shapes::{Chosen, CornerStyle, Making};
use units::{Angle, Length};

/// A convex piece of the folded metal, with what it belongs to.
struct Body {
    place: Place,
    hull: ConvexPolyhedron,
}

/// Every facet of a bend's strip or of a face, through the thickness, in convex pieces.
fn bodies(flat: &FlatPattern) -> Vec<Body> {
    let facets = fold::facets::of(flat).facets;
    let side = |wanted: Side| {
        facets.iter().filter(move |facet| facet.surface == Surface::Skin(wanted)).collect::<Vec<&Facet>>()
    };
    let (backs, faces) = (side(Side::Back), side(Side::Face));
    backs.iter().zip(&faces).flat_map(|(back, face)| pieces(back, face)).collect()
}

fn pieces(back: &Facet, face: &Facet) -> Vec<Body> {
    let ring = &face.rings[0];
    let across = (ring[1] - ring[0]).unit();
    let up = face.normal.cross(across);
    let drawn: Vec<Point> =
        ring.iter().map(|&p| Point::new((p - ring[0]).dot(across), (p - ring[0]).dot(up))).collect();
    let body = |piece: Vec<Point>| {
        let corner = |p: &Point| {
            let number =
                (0..drawn.len()).min_by(|&a, &b| drawn[a].distance(*p).total_cmp(&drawn[b].distance(*p)));
            let number = number.unwrap();
            [ring[number], back.rings[0][number]]
        };
        let points: Vec<Vector> =
            piece.iter().flat_map(corner).map(|p: Point3| Vector::new(p.x, p.y, p.z)).collect();
        ConvexPolyhedron::from_convex_hull(&points).map(|hull| Body { place: face.place, hull })
    };
    polygon::convex_pieces(&drawn).into_iter().filter_map(body).collect()
}

/// The deepest overlap of a bend with another, or with a face that it does not end at, mm, and the two; none up to the
/// tolerance of refolding.
pub(crate) fn deepest(part: &FoldedPart, flat: &FlatPattern) -> Option<(f64, Place, Place)> {
    let bodies = bodies(flat);
    let apart = |a: Place, b: Place| match (a, b) {
        (Place::Face(_), Place::Face(_)) => false,
        (Place::Bend(bend), Place::Face(face)) | (Place::Face(face), Place::Bend(bend)) => {
            ![part.bends[bend].parent, part.bends[bend].child].contains(&face)
        }
        (Place::Bend(a), Place::Bend(b)) => a != b,
    };
    let mut found: Option<(f64, Place, Place)> = None;
    for (number, own) in bodies.iter().enumerate() {
        for other in bodies[number + 1..].iter().filter(|other| apart(own.place, other.place)) {
            let contact = query::contact(&Pose::IDENTITY, &own.hull, &Pose::IDENTITY, &other.hull, 0.0);
            let Ok(Some(contact)) = contact else { continue };
            let most = found.map_or(2.0 * tolerance::REFOLD_MM, |found| found.0);
            let deep_mm = (-contact.dist).min(least_overlap(&own.hull, &other.hull));
            if deep_mm > most {
                found = Some((deep_mm, own.place, other.place));
            }
        }
    }
    found
}

/// The least that two hulls overlap across a face of either, mm. They lie no deeper in one another than that; where they
/// only touch in an edge, the library may answer with the length of the edge.
fn least_overlap(first: &ConvexPolyhedron, second: &ConvexPolyhedron) -> f64 {
    let normals = first.faces().iter().chain(second.faces()).map(|face| face.normal);
    let reach = |hull: &ConvexPolyhedron, along: Vector| {
        let along = hull.points().iter().map(|point| point.dot(along));
        along.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(at), high.max(at)))
    };
    let overlap = |along: Vector| {
        let ((low, high), (its_low, its_high)) = (reach(first, along), reach(second, along));
        (high - its_low).min(its_high - low)
    };
    normals.map(overlap).fold(f64::INFINITY, f64::min)
}

/// Walls and rims that turn the same way or against one another, plumb and leaning: the zones of two rims turned outward
/// stay on their own sides of the mitre from the wall's corner to the rim's.
#[test]
fn the_bends_of_a_pan_keep_off_one_another() {
    let mut cut_back = 0;
    for rims in [vec![Rim::None], vec![Rim::Out(inches("3/4"))], vec![Rim::In(inches("3/4"))]] {
        for lean in [[0.0; 4], [8.0, 12.0, 0.0, 20.0], [30.0; 4]] {
            for radius in [".063", ".125", ".25"] {
                let plan = PanPlan::Outside { length: inches("20"), width: inches("12") };
                let (height, lean) = (inches("4"), lean.map(Angle::from_degrees).to_vec());
                let pan = Pan { plan, height, rims: rims.clone(), lean, edge: EdgeEnd::Plain };
                let part = pan.shape(&making(".125", radius, 0.42)).unwrap().part;
                let flat = fold::flat::unfold(&part).unwrap();
                fold::refold::prove(&part, &flat).unwrap();
                assert_eq!(deepest(&part, &flat), None, "{rims:?} R {radius}");
                cut_back += flat.zones.iter().filter(|zone| zone.len() > 4).count();
            }
        }
    }
    assert!(cut_back > 0, "no zone had to be cut back: this test shows nothing");
}

/// Hems and curls turned in, at every corner of a skirt, a wall and a rim: the round of each stays clear of the next one's
/// round and leg.
#[test]
fn edges_turned_in_keep_off_one_another_round_the_bend() {
    let curl =
        |degrees: f64| EdgeEnd::Curl { radius: inches("1/8"), turn: Angle::from_degrees(degrees), way: None };
    let hem = |kind| EdgeEnd::Hem { kind, length: inches("5/8"), way: None };
    let edges = [
        curl(270.0),
        curl(120.0),
        hem(HemKind::TearDrop { radius: inches("1/16") }),
        hem(HemKind::Open { gap: inches("1/8") }),
        hem(HemKind::Closed),
    ];
    for edge in edges {
        for rim in [Rim::None, Rim::Out(inches("1 1/4"))] {
            for lean in [[0.0; 4], [10.0, 20.0, 0.0, 30.0]] {
                for gap in ["0", "1/16"] {
                    let plan = PanPlan::Outside { length: inches("12"), width: inches("8") };
                    let lean = lean.map(Angle::from_degrees).to_vec();
                    let pan = Pan { plan, height: inches("3"), rims: vec![rim], lean, edge };
                    let making = Making { seam_gap: inches(gap), ..making(".050", ".063", 0.42) };
                    let part = pan.shape(&making).unwrap().part;
                    let flat = fold::flat::unfold(&part).unwrap();
                    fold::refold::prove(&part, &flat).unwrap();
                    assert_eq!(deepest(&part, &flat), None, "{edge:?} {rim:?} gap {gap}");
                }
            }
        }
    }
}

/// Edges turned in where one plate runs through the corner and where walls lean inward: the plate's own end then lies beyond
/// the mitre, and the bend of its edge stops short of it.
#[test]
fn edges_stop_short_where_their_plate_runs_on() {
    let curl =
        |degrees: f64| EdgeEnd::Curl { radius: inches("1/8"), turn: Angle::from_degrees(degrees), way: None };
    let hem = |kind| EdgeEnd::Hem { kind, length: inches("1/2"), way: None };
    let edges = [
        curl(180.0),
        curl(270.0),
        hem(HemKind::Open { gap: inches("1/8") }),
        hem(HemKind::TearDrop { radius: inches("1/16") }),
        hem(HemKind::Closed),
    ];
    let mut notched = 0;
    for corner in [CornerStyle::Open, CornerStyle::Butt { through: Chosen::LongSides }] {
        for lean in [[0.0; 4], [0.0, -10.0, 5.0, -20.0], [-20.0; 4], [10.0, 20.0, 0.0, 35.0]] {
            for edge in edges {
                let plan = PanPlan::Outside { length: inches("24"), width: inches("20") };
                let lean = lean.map(Angle::from_degrees).to_vec();
                let pan = Pan { plan, height: inches("4"), rims: vec![Rim::None], lean, edge };
                let making = Making { corner: corner.clone(), ..making(".050", ".063", 0.42) };
                let part = pan.shape(&making).unwrap().part;
                let flat = fold::flat::unfold(&part).unwrap();
                let proof = fold::refold::prove(&part, &flat);
                assert!(proof.is_ok(), "{proof:?} {corner:?} {edge:?}");
                let found = deepest(&part, &flat);
                assert!(found.is_none_or(|(deep_mm, ..)| deep_mm < 0.1), "{found:?} {corner:?} {edge:?}");
                notched += part.faces[1..=4].iter().filter(|wall| 4 < wall.corners.len()).count();
            }
        }
    }
    assert!(notched > 20, "only {notched} bends had to stop short");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, failure_persistence: None, ..ProptestConfig::default() })]

    /// Lids of three to eight sides, every hip and skirt corner open.
    #[test]
    fn the_bends_of_a_lid_keep_off_one_another(
        making in crate::seams::makings(),
        over in crate::seams::openings(),
        sixteenths in prop::collection::vec(16_i64..80, 11),
        with_return in any::<bool>(),
    ) {
        let making = Making { corner: CornerStyle::Open, ..making };
        let mut sizes = sixteenths.into_iter().map(|count| Length::from_sixty_fourths(4 * count));
        let (outset, rise, skirt) = (inches("1/4"), sizes.next().unwrap(), inches("2"));
        let return_width = sizes.next().filter(|_| with_return);
        let inset = sizes.take(over.count()).collect();
        let lid = TaperedLid { over, outset, rise, inset, skirt, return_width };
        let Ok(shaped) = lid.shape(&making) else { return Err(TestCaseError::reject("no such lid")) };
        let Ok(flat) = fold::flat::unfold(&shaped.part) else { return Err(TestCaseError::reject("of no one flat")) };
        let found = deepest(&shaped.part, &flat);
        prop_assert!(found.is_none(), "{found:?}");
    }
}
