//! Areas of unions, intersections and differences against a second polygon library, and arcs against their stand-ins.

use geo::{Area, Coord, LineString};
use geo_clipper::Clipper;
use geometry::outline::Chords;
use geometry::{Contour, Point, Polygon, Region, Segment, Vector, polygon};
use proptest::prelude::*;

/// Steps to the millimetre in the second library: a ten-thousandth of a millimetre.
const STEPS: f64 = 10_000.0;

fn ring(corners: &[Point]) -> LineString<f64> {
    corners.iter().map(|corner| Coord { x: corner.x, y: corner.y }).collect()
}

fn second(polygon: &Polygon) -> geo::Polygon<f64> {
    geo::Polygon::new(ring(&polygon.outer), polygon.holes.iter().map(|hole| ring(hole)).collect())
}

/// Corners at equal angles and the given radii round a centre; never crosses itself.
fn star(centre: Point, radii: &[f64]) -> Vec<Point> {
    let step = 2.0 * std::f64::consts::PI / radii.iter().map(|_| 1.0).sum::<f64>();
    let corner =
        |(radius, number): (&f64, u32)| centre + Vector::at_angle(step * f64::from(number)) * *radius;
    radii.iter().zip(0..).map(corner).collect()
}

fn figures() -> impl Strategy<Value = Polygon> {
    let radii = prop::collection::vec(20.0_f64..200.0, 3..16);
    let centre = (-100.0_f64..100.0, -100.0_f64..100.0);
    (radii, centre, prop::bool::ANY).prop_map(|(radii, (x, y), holed)| {
        let centre = Point::new(x, y);
        let mut hole = star(centre, &radii.iter().map(|radius| 0.4 * radius).collect::<Vec<_>>());
        hole.reverse();
        Polygon { outer: star(centre, &radii), holes: if holed { vec![hole] } else { Vec::new() } }
    })
}

fn length_mm(polygon: &Polygon) -> f64 {
    let rings = std::iter::once(&polygon.outer).chain(&polygon.holes);
    rings.flat_map(|ring| polygon::edges(ring)).map(|(from, to)| from.distance(to)).sum()
}

/// A contour of straight pieces and half-round bulges in and out: a star whose every edge may be an arc.
fn rounded() -> impl Strategy<Value = Contour> {
    let piece = (60.0_f64..100.0, -1.2_f64..1.2, prop::bool::ANY);
    prop::collection::vec(piece, 5..12).prop_map(|pieces| {
        let corners = star(Point::new(7.0, -3.0), &pieces.iter().map(|piece| piece.0).collect::<Vec<_>>());
        let next = corners.iter().cycle().skip(1);
        let segment = |((from, to), (_, bulge, straight)): ((&Point, &Point), &(f64, f64, bool))| {
            if *straight || bulge.abs() < 0.05 {
                return Segment::Line { to: *to };
            }
            // An arc that turns by `bulge`: counter-clockwise bulges out, its centre on the left of the chord.
            let half = *to - *from;
            let across = half.left() * (0.5 / geometry::trig::tan(0.5 * bulge));
            let centre = from.toward(*to, 0.5) + across;
            Segment::Arc { to: *to, centre, counter_clockwise: *bulge > 0.0 }
        };
        Contour { segments: corners.iter().zip(next).zip(&pieces).map(segment).collect() }
    })
}

proptest! {
    #[test]
    fn a_polygon_has_the_same_area_in_both(figure in figures()) {
        let area = figure.area_mm2();
        prop_assert!((second(&figure).unsigned_area() - area).abs() < 1e-9 * area.max(1.0));
        prop_assert!((Region::of(&figure).area_mm2() - area).abs() < 1e-9 * area.max(1.0));
    }

    // The second library rounds every corner to its steps, which moves an edge by less than one step.
    #[test]
    fn unions_intersections_and_differences_agree(first in figures(), other in figures()) {
        let allowed = (length_mm(&first) + length_mm(&other)) / STEPS;
        let (a, b) = (Region::of(&first), Region::of(&other));
        let (p, q) = (second(&first), second(&other));
        for (what, found, expected) in [
            ("union", a.union(&b), p.union(&q, STEPS)),
            ("intersection", a.intersection(&b), p.intersection(&q, STEPS)),
            ("difference", a.difference(&b), p.difference(&q, STEPS)),
        ] {
            let (found, expected) = (found.area_mm2(), expected.unsigned_area());
            prop_assert!((found - expected).abs() <= allowed, "{what}: {found}, second library {expected}");
        }
    }

    #[test]
    fn both_parts_of_a_cut_make_the_whole(first in figures(), other in figures()) {
        let (a, b) = (Region::of(&first), Region::of(&other));
        let allowed = (length_mm(&first) + length_mm(&other)) / STEPS;
        let cut = a.difference(&b).area_mm2() + a.intersection(&b).area_mm2();
        prop_assert!((cut - first.area_mm2()).abs() <= allowed);
        let joined = a.area_mm2() + b.area_mm2() - a.intersection(&b).area_mm2();
        prop_assert!((a.union(&b).area_mm2() - joined).abs() <= allowed);
    }

    // Green's theorem over many short chords, a road the outline's own sum does not take.
    #[test]
    fn an_outline_with_arcs_lies_within_its_outside_stand_in(contour in rounded()) {
        let area = contour.area_mm2();
        let outside = polygon::signed_area(&contour.corners(Chords::Outside));
        prop_assert!(area <= outside + 1e-9 * area, "{area} outside {outside}");
        let reach = geometry::tolerance::ARC_CHORD_MM * contour.length_mm();
        prop_assert!(outside - area <= 2.0 * reach, "{area} far inside {outside}");
        let on = polygon::signed_area(&contour.corners(Chords::On));
        prop_assert!((on - area).abs() <= reach);
        let fine = polygon::signed_area(&fine_chords(&contour));
        prop_assert!((fine - area).abs() <= 1e-4 * area, "{fine} for {area}");
    }

    // As a hole the metal lies on the other side, and the stand-in may only be smaller than the hole.
    #[test]
    fn a_hole_with_arcs_holds_its_outside_stand_in(contour in rounded()) {
        let hole = contour.reversed();
        let area = hole.area_mm2();
        prop_assert!((area + contour.area_mm2()).abs() <= 1e-9 * area.abs());
        let stand_in = polygon::signed_area(&hole.corners(Chords::Outside));
        prop_assert!(area <= stand_in + 1e-9 * area.abs(), "{area} beyond {stand_in}");
        prop_assert!(stand_in <= 0.0);
    }

    #[test]
    fn every_corner_of_the_stand_in_lies_outside_the_metal(contour in rounded()) {
        let fine = fine_chords(&contour);
        for corner in contour.corners(Chords::Outside) {
            let edge = polygon::edges(&fine)
                .map(|edge| polygon::point_to_segment(corner, edge))
                .fold(f64::INFINITY, f64::min);
            let within = polygon::contains(&fine, corner);
            prop_assert!(!within || edge < 0.01, "{corner:?} lies {edge} inside");
        }
    }
}

/// Corners on the contour, 400 to an arc.
fn fine_chords(contour: &Contour) -> Vec<Point> {
    let mut corners = Vec::new();
    for (from, segment) in contour.pieces() {
        corners.push(from);
        if let Segment::Arc { to, centre, .. } = segment {
            let (start, end) = ((from - centre).angle(), (to - centre).angle());
            let mut sweep = end - start;
            // These arcs all turn by less than half a circle.
            if sweep.abs() > std::f64::consts::PI {
                sweep -= 2.0 * std::f64::consts::PI * sweep.signum();
            }
            let radius = centre.distance(from);
            let at = |number: u32| start + sweep * f64::from(number) / 400.0;
            corners.extend((1..400).map(|number| centre + Vector::at_angle(at(number)) * radius));
        }
    }
    corners
}

#[test]
fn a_region_of_many_is_their_union() {
    let square = |x: f64| Region::rectangle(Point::new(x, 0.0), Point::new(x + 10.0, 10.0));
    let all: Region = [0.0, 5.0, 30.0].map(square).into_iter().collect();
    assert!((all.area_mm2() - 250.0).abs() < geometry::tolerance::SAME_POINT_MM);
    assert!(Option::<Region>::None.into_iter().collect::<Region>().is_empty());
}
