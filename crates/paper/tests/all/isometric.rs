//! Views of folded parts: the surface is closed, and what is drawn is what an eye sees, by a way of looking of its own.

use fold::FlatPattern;
use fold::facets::{self, EdgeKind, Facet, Facets};
use geometry::{Point, Point3, Vector3, polygon, tolerance};
use paper::isometric::{LineKind, Standing, View, ViewLine, choose, visible};
use proptest::prelude::*;

const STANDINGS: [Standing; 3] = [Standing::FaceUp, Standing::RootOnTop, Standing::RootBelow];

/// Area vector of a facet: twice its area along its normal. Rings run so that holes take away.
fn area(facet: &Facet) -> Vector3 {
    let ring = |ring: &Vec<Point3>| {
        let following = ring.iter().cycle().skip(1);
        let sum = ring.iter().zip(following).fold(Vector3::default(), |sum, (&a, &b)| {
            sum + (a - Point3::default()).cross(b - Point3::default())
        });
        sum.dot(facet.normal).abs()
    };
    let sizes: Vec<f64> = facet.rings.iter().map(ring).collect();
    facet.normal * (2.0 * sizes[0] - sizes.iter().sum::<f64>())
}

/// Net area vector and volume, mm² and mm³.
fn closure(facets: &Facets) -> (f64, f64) {
    let sum = facets.facets.iter().fold(Vector3::default(), |sum, facet| sum + area(facet));
    let volume: f64 =
        facets.facets.iter().map(|facet| (facet.rings[0][0] - Point3::default()).dot(area(facet))).sum();
    (0.5 * sum.length(), volume / 6.0)
}

#[test]
fn surfaces_are_closed_and_hold_the_metal() {
    for (mark, flat) in crate::common::all() {
        let facets = facets::of(&flat);
        let (open, volume) = closure(&facets);
        let metal = flat.outline.area_mm2() * flat.thickness_mm;
        // Slanted ends of strips are flat only in the mean: a few square millimetres of a part of half a square metre.
        assert!(open < 1e-5 * flat.outline.area_mm2(), "{mark}: open by {open} mm²");
        // The zone is as wide as the allowance; its middle is T/2 from the inside, not K·T, and arcs are chords.
        assert!((volume - metal).abs() < 0.01 * metal, "{mark}: {volume} mm³ of {metal}");
    }
}

#[test]
fn a_plate_shows_nine_of_its_twelve_edges() {
    let flat = crate::common::plate((400.0, 300.0), &[]);
    let facets = facets::of(&flat);
    let sharp = facets.edges.iter().filter(|edge| edge.kind == EdgeKind::Sharp).count();
    assert_eq!((facets.facets.len(), sharp, facets.edges.len()), (6, 12, 12));
    let view = View::from_direction(-45.0, 35.264, 1.0);
    let lines = visible(&facets, view);
    let outlines = lines.iter().filter(|line| line.kind == LineKind::Outline).count();
    assert_eq!((lines.len(), outlines), (9, 6), "{lines:?}");
}

#[test]
fn a_round_hole_shows_its_rim_and_what_is_seen_of_its_wall() {
    let flat = crate::common::plate((400.0, 300.0), &[(0.5, 0.5, 0.2)]);
    let facets = facets::of(&flat);
    let smooth = facets.edges.iter().filter(|edge| edge.kind == EdgeKind::Smooth).count();
    assert!(8 < smooth, "the wall of a hole has no corners");
    let lines = visible(&facets, View::from_direction(-45.0, 35.264, 1.0));
    // Of the lower rim only the far part comes into sight through the hole; the paper under it makes it an outline.
    let rim = lines.len() - 9;
    assert!(smooth < rim && rim < 2 * smooth, "{rim} of {smooth}");
}

/// True when a ray from `from` toward the eye meets metal beyond `past_mm`: by the facet's plane and the even-odd rule
/// in the two coordinates along which the facet is widest.
fn ray_meets(facets: &Facets, from: Point3, toward: Vector3, past_mm: f64) -> bool {
    facets.facets.iter().any(|facet| {
        let facing = facet.normal.dot(toward);
        if facing.abs() < 1e-6 {
            return false;
        }
        let distance = (facet.rings[0][0] - from).dot(facet.normal) / facing;
        past_mm < distance && holds(facet, from + toward * distance)
    })
}

fn holds(facet: &Facet, place: Point3) -> bool {
    let [x, y, z] = [facet.normal.x, facet.normal.y, facet.normal.z].map(f64::abs);
    let flat = |p: Point3| match () {
        () if y <= x && z <= x => Point::new(p.y, p.z),
        () if z <= y => Point::new(p.z, p.x),
        () => Point::new(p.x, p.y),
    };
    let inside = |ring: &Vec<Point3>| {
        let corners: Vec<Point> = ring.iter().map(|&corner| flat(corner)).collect();
        polygon::contains(&corners, flat(place))
    };
    facet.rings.iter().filter(|ring| inside(ring)).count() % 2 == 1
}

fn on_a_line(lines: &[ViewLine], place: Point, within_mm: f64) -> bool {
    lines.iter().any(|line| polygon::point_to_segment(place, (line.ends[0], line.ends[1])) < within_mm)
}

/// Places on edges that are certainly seen are drawn; drawn places have an edge that is not certainly hidden.
fn check(flat: &FlatPattern, view: View) -> Result<(), TestCaseError> {
    let facets = facets::of(flat);
    let lines = visible(&facets, view);
    prop_assert!(!lines.is_empty());
    for edge in facets.edges.iter().filter(|edge| edge.kind == EdgeKind::Sharp) {
        let [from, to] = edge.ends;
        if view.project(from).0.distance(view.project(to).0) < 2.0 {
            continue;
        }
        for share in [0.21, 0.5, 0.83] {
            let place = from.toward(to, share);
            // Not even grazed by metal a hair to any side.
            let clear = [view.right, -view.right, view.up, -view.up]
                .iter()
                .all(|&side| !ray_meets(&facets, place + side * 0.2 + view.toward * 0.5, view.toward, 0.0));
            // Metal that stands before it by less than hides an edge leaves it drawn; a little less, for rounding.
            let clear = clear && !ray_meets(&facets, place, view.toward, 0.9 * tolerance::HIDDEN_DEPTH_MM);
            if clear && edge.normals.iter().any(|normal| 0.05 < normal.dot(view.toward)) {
                prop_assert!(on_a_line(&lines, view.project(place).0, 0.02), "not drawn: {place:?} {edge:?}");
            }
        }
    }
    for line in &lines {
        let middle = line.ends[0].toward(line.ends[1], 0.5);
        let seen = facets.edges.iter().any(|edge| {
            let [(a, _), (b, _)] = edge.ends.map(|end| view.project(end));
            let along = b - a;
            let share = (middle - a).dot(along) / along.dot(along);
            (0.0..=1.0).contains(&share)
                && middle.distance(a.toward(b, share)) < 2.0 * tolerance::DRAWN_POINT_MM
                && !ray_meets(&facets, edge.ends[0].toward(edge.ends[1], share), view.toward, 0.1)
        });
        prop_assert!(seen, "drawn but hidden: {line:?}");
    }
    Ok(())
}

#[test]
fn every_view_of_every_part_shows_what_is_seen() {
    for (mark, flat) in crate::common::all() {
        for standing in STANDINGS {
            let view = choose(&facets::of(&flat), standing);
            check(&flat, view).unwrap_or_else(|error| panic!("{mark} {standing:?}: {error}"));
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]
    #[test]
    fn views_of_pans_show_what_is_seen(
        length in 150.0..700.0_f64,
        width in 100.0..500.0_f64,
        wall in 30.0..200.0_f64,
        rim in 12.0..40.0_f64,
        rim_up in any::<bool>(),
        lean in -20.0..20.0_f64,
        round in -180.0..180.0_f64,
        height in 10.0..80.0_f64,
    ) {
        let flat = crate::common::pan((length, width), wall, rim, rim_up, lean);
        check(&flat, View::from_direction(round, height, 1.0))?;
    }
}

#[test]
fn lids_stand_on_their_skirts_and_trays_on_their_floor() {
    let up = |view: View| view.up.z;
    let (lid, tray) = (facets::of(&crate::common::tapered_lid()), facets::of(&crate::common::tray()));
    assert!(0.0 < up(choose(&lid, Standing::RootOnTop)) && up(choose(&lid, Standing::RootBelow)) < 0.0);
    assert!(up(choose(&tray, Standing::RootOnTop)) < 0.0 && 0.0 < up(choose(&tray, Standing::RootBelow)));
    assert!(0.0 < up(choose(&tray, Standing::FaceUp)));
}
