//! No-fit and inner-fit polygons against a second polygon library, and known hollows.

#![expect(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use geo::{Area, Coord, LineString, Polygon as GeoPolygon};
use geo_clipper::Clipper;
use geometry::grid::{GridOutline, GridPoint, Place, Turn, cross, doubled_area, ring_edges};
use geometry::nofit::{inner_fit, no_fit};
use geometry::{tolerance, trig};
use proptest::prelude::*;

/// A non-convex ring around the origin: `radii` at equal angles.
fn star(radii: &[i64]) -> Vec<GridPoint> {
    let step = 2.0 * std::f64::consts::PI / f64::from(u32::try_from(radii.len()).unwrap());
    let corner = |(index, &radius): (usize, &i64)| {
        let angle = step * f64::from(u32::try_from(index).unwrap());
        let radius = f64::from(i32::try_from(radius).unwrap());
        let number = |value: f64| format!("{value:.0}").parse::<i64>().unwrap();
        GridPoint::new(number(radius * trig::cos(angle)), number(radius * trig::sin(angle)))
    };
    radii.iter().enumerate().map(corner).collect()
}

fn figure() -> impl Strategy<Value = GridOutline> {
    let radii = prop::collection::vec(200_i64..2000, 5..14);
    (radii, prop::bool::ANY).prop_filter_map("edges cross", |(radii, holed)| {
        let hole: Vec<i64> = radii.iter().map(|r| r * 6 / 10).collect();
        let holes = if holed { vec![star(&hole)] } else { Vec::new() };
        GridOutline::new(star(&radii), holes).ok()
    })
}

fn geo(outline: &GridOutline) -> GeoPolygon<f64> {
    let line = |ring: &[GridPoint]| {
        let number = |n: i64| f64::from(i32::try_from(n).unwrap());
        LineString::from_iter(ring.iter().map(|p| Coord { x: number(p.x), y: number(p.y) }))
    };
    GeoPolygon::new(line(outline.outer()), outline.holes().iter().map(|hole| line(hole)).collect())
}

/// Area that may stand out all round: an edge that is upright or level but for rounding is taken as such, so it may be off by what
/// counts as one point; the second library rounds to 1/1024 of a step.
fn sliver(figure: &GeoPolygon<f64>) -> f64 {
    let spare = tolerance::SAME_POINT_MM / tolerance::GRID_STEP_MM + 1.0 / 1024.0;
    let ring =
        |line: &LineString<f64>| line.lines().map(|edge| trig::hypot(edge.dx(), edge.dy())).sum::<f64>();
    spare * std::iter::once(figure.exterior()).chain(figure.interiors()).map(ring).sum::<f64>()
}

/// Area shared by two figures by a second library, in square steps.
fn shared_area(first: &GridOutline, second: &GridOutline) -> f64 {
    geo(first).intersection(&geo(second), 1.0).unsigned_area()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn inside_the_no_fit_polygon_is_overlap_and_outside_is_none(
        fixed in figure(), moving in figure(), x in -4000_i64..4000, y in -4000_i64..4000,
    ) {
        let shift = GridPoint::new(x, y);
        let area = shared_area(&fixed, &moving.shifted(shift));
        // Crossings are rounded to the grid by both libraries; a sliver along an edge is a few thousand square
        // steps, so nearly touching places prove nothing and are left to the exact tests below.
        match no_fit(&fixed, &moving).place(shift) {
            Place::Outside => prop_assert!(area < 12_000.0, "outside, yet {area} shared"),
            Place::Inside => prop_assert!(0.0 < area || near_border(&fixed, &moving, shift), "inside, none shared"),
            Place::Border => {}
        }
    }

    #[test]
    fn corners_of_the_no_fit_polygon_touch_without_overlap(fixed in figure(), moving in figure()) {
        for corner in no_fit(&fixed, &moving).rings().iter().flatten() {
            prop_assert!(shared_area(&fixed, &moving.shifted(*corner)) < 12_000.0);
        }
    }

    #[test]
    fn inner_fits_keep_the_figure_inside(ring in figure(), moving in figure()) {
        let small = GridOutline::new(moving.outer().iter().map(|p| GridPoint::new(p.x / 8, p.y / 8)).collect(), vec![]);
        prop_assume!(small.is_ok());
        let small = small.unwrap();
        let ring = ring.filled();
        let area = geo(&small).unsigned_area();
        for corner in inner_fit(ring.outer(), &small).rings().iter().flatten() {
            let inside = shared_area(&ring, &small.shifted(*corner));
            prop_assert!(area - inside < 3_000.0, "{inside} of {area} inside");
        }
    }

    #[test]
    fn a_grown_figure_holds_the_true_offset(figure in figure(), steps in 1_i64..200) {
        let grown = geo(&figure.grown(steps));
        let distance = f64::from(i32::try_from(steps).unwrap());
        let round = geo(&figure).offset(distance, geo_clipper::JoinType::Round(0.25), geo_clipper::EndType::ClosedPolygon, 1024.0);
        let most: f64 = round.iter().map(sliver).sum();
        prop_assert!(round.difference(&grown, 1024.0).unsigned_area() < most);
    }

    #[test]
    fn a_turned_figure_holds_the_true_one(figure in figure(), millidegrees in 0_u32..360_000) {
        let turn = Turn::from_millidegrees(millidegrees);
        let (s, c) = (trig::sin(turn.radians()), trig::cos(turn.radians()));
        let turned = geo(&figure.turned(turn));
        let rotate = |line: &LineString<f64>| {
            LineString::from_iter(line.coords().map(|p| Coord { x: p.x * c - p.y * s, y: p.x * s + p.y * c }))
        };
        let exact = geo(&figure);
        let exact = GeoPolygon::new(rotate(exact.exterior()), exact.interiors().iter().map(rotate).collect());
        prop_assert!(exact.difference(&turned, 1024.0).unsigned_area() < sliver(&exact));
        prop_assert!(turned.unsigned_area() < 1.02 * exact.unsigned_area() + 100_000.0);
    }
}

/// Area of the places at which two figures overlap, by a second library and another way: where their borders meet, those of
/// holes too, or the metal of one holds a corner of the other. Borders meet in the union of the parallelograms of all pairs of edges.
fn area_of_meeting(fixed: &GridOutline, moving: &GridOutline) -> f64 {
    let edges = |outline: &GridOutline| -> Vec<(GridPoint, GridPoint)> {
        outline.rings().flat_map(ring_edges).collect()
    };
    let line = |corners: &[GridPoint]| {
        let number = |n: i64| f64::from(i32::try_from(n).unwrap());
        LineString::from_iter(corners.iter().map(|p| Coord { x: number(p.x), y: number(p.y) }))
    };
    let ring = |corners: &[GridPoint]| GeoPolygon::new(line(corners), Vec::new());
    let sent = |outline: &GridOutline, place: &dyn Fn(GridPoint) -> GridPoint| {
        let sent =
            |corners: &[GridPoint]| line(&corners.iter().map(|&corner| place(corner)).collect::<Vec<_>>());
        GeoPolygon::new(sent(outline.outer()), outline.holes().iter().map(|hole| sent(hole)).collect())
    };
    let mirrored = sent(moving, &|corner| fixed.outer()[0] - corner);
    let whole = sent(fixed, &|corner| corner - moving.outer()[0]);
    let mut all = mirrored.union(&whole, 4.0);
    for &(a, b) in &edges(fixed) {
        for &(c, d) in &edges(moving) {
            if cross(a, b, b + (d - c)) != 0 {
                all = all.union(&geo::MultiPolygon::new(vec![ring(&[a - c, b - c, b - d, a - d])]), 4.0);
            }
        }
    }
    all.unsigned_area()
}

/// Twice the area that a no-fit region covers, its hollows taken out.
fn doubled(fixed: &GridOutline, moving: &GridOutline) -> i128 {
    no_fit(fixed, moving).rings().iter().map(|ring| doubled_area(ring)).sum()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    /// With holes as given, and filled.
    #[test]
    fn a_no_fit_polygon_has_the_area_of_a_second_library(fixed in figure(), moving in figure()) {
        for (fixed, moving) in [(fixed.filled(), moving.filled()), (fixed, moving)] {
            let area = f64::from(i32::try_from(doubled(&fixed, &moving) / 2).unwrap());
            let expected = area_of_meeting(&fixed, &moving);
            // Crossings are rounded to whole steps here, to quarters there: a step along a border of some 20,000.
            prop_assert!((area - expected).abs() < 20_000.0, "{area} and {expected}");
        }
    }

    /// A frame with a hole that the other goes into: the hollow is there and is counted.
    #[test]
    fn the_hollow_of_a_hole_has_the_area_of_a_second_library(
        moving in figure(), rim in 100_i64..400, length in 5_200_i64..6_500, width in 5_200_i64..6_500,
    ) {
        let ring = |low: i64, (x, y): (i64, i64)| {
            vec![(low, low), (x, low), (x, y), (low, y)].into_iter().map(|(x, y)| GridPoint::new(x, y)).collect()
        };
        let fixed = GridOutline::new(ring(0, (length, width)), vec![ring(rim, (length - rim, width - rim))]).unwrap();
        let [area, filled] =
            [&fixed, &fixed.filled()].map(|fixed| f64::from(i32::try_from(doubled(fixed, &moving) / 2).unwrap()));
        prop_assert!(area + 20_000.0 < filled, "no hollow");
        let expected = area_of_meeting(&fixed, &moving);
        prop_assert!((area - expected).abs() < 20_000.0, "{area} and {expected}");
    }
}

fn near_border(fixed: &GridOutline, moving: &GridOutline, shift: GridPoint) -> bool {
    let region = no_fit(fixed, moving);
    (-3..=3).any(|x| (-3..=3).any(|y| region.place(shift + GridPoint::new(x, y)) != Place::Inside))
}

fn outline(corners: &[(i64, i64)]) -> GridOutline {
    GridOutline::new(corners.iter().map(|&(x, y)| GridPoint::new(x, y)).collect(), vec![]).unwrap()
}

#[test]
fn two_squares_touch_on_the_border_and_overlap_one_step_inside() {
    let square = GridOutline::rectangle(100, 100).unwrap();
    let region = no_fit(&square, &square);
    assert_eq!(region.bounds(), (GridPoint::new(-100, -100), GridPoint::new(100, 100)));
    assert_eq!(region.place(GridPoint::new(100, 37)), Place::Border);
    assert_eq!(region.place(GridPoint::new(99, 37)), Place::Inside);
}

#[test]
fn a_true_hollow_in_a_bay_survives() {
    // A 12-wide slot 30 deep with a narrow mouth: the 10 square fits inside it but cannot be slid in.
    let bay = outline(&[
        (0, 0),
        (50, 0),
        (50, 50),
        (29, 50),
        (29, 45),
        (36, 45),
        (36, 15),
        (14, 15),
        (14, 45),
        (21, 45),
        (21, 50),
        (0, 50),
    ]);
    let square = GridOutline::rectangle(10, 10).unwrap();
    let region = no_fit(&bay, &square);
    assert_eq!(region.place(GridPoint::new(20, 20)), Place::Outside);
    assert_eq!(region.place(GridPoint::new(14, 15)), Place::Border);
    assert_eq!(region.place(GridPoint::new(13, 20)), Place::Inside);
    assert_eq!(region.place(GridPoint::new(20, 41)), Place::Inside);
}

#[test]
fn a_bay_too_small_leaves_no_false_hollow() {
    let bay = outline(&[
        (0, 0),
        (50, 0),
        (50, 50),
        (29, 50),
        (29, 45),
        (34, 45),
        (34, 25),
        (16, 25),
        (16, 45),
        (21, 45),
        (21, 50),
        (0, 50),
    ]);
    let square = GridOutline::rectangle(20, 20).unwrap();
    let region = no_fit(&bay, &square);
    assert_eq!(region.rings().len(), 1);
    assert_eq!(region.place(GridPoint::new(15, 25)), Place::Inside);
}

#[test]
fn a_part_fits_the_cut_out_of_another_either_way_round() {
    let hole = [(20, 20), (80, 20), (80, 80), (20, 80)].map(|(x, y)| GridPoint::new(x, y)).to_vec();
    let corners = [(0, 0), (100, 0), (100, 100), (0, 100)].map(|(x, y)| GridPoint::new(x, y)).to_vec();
    let frame = GridOutline::new(corners, vec![hole]).unwrap();
    let square = GridOutline::rectangle(50, 50).unwrap();
    assert_eq!(no_fit(&frame, &square).place(GridPoint::new(25, 25)), Place::Outside);
    assert_eq!(no_fit(&frame, &square).place(GridPoint::new(20, 30)), Place::Border);
    assert_eq!(no_fit(&frame, &square).place(GridPoint::new(19, 25)), Place::Inside);
    assert_eq!(no_fit(&square, &frame).place(GridPoint::new(-25, -25)), Place::Outside);
    assert_eq!(no_fit(&square, &frame).place(GridPoint::new(-31, -25)), Place::Inside);
    let large = GridOutline::rectangle(70, 70).unwrap();
    assert_eq!(no_fit(&frame, &large).place(GridPoint::new(15, 15)), Place::Inside);
}

/// An upright edge beside one that is nearly upright: their shifted lines meet far behind the corner, where nothing may be lost.
#[test]
fn nearly_parallel_edges_grow_past_their_corner() {
    let place = |(x, y): (i64, i64)| GridPoint::new(x, y);
    let ring = [(968, 0), (970, 560), (970, 1679), (0, 200), (-200, 0), (0, -200), (981, -567)].map(place);
    let figure = GridOutline::new(ring.to_vec(), Vec::new()).unwrap();
    let grown = geo(&figure.grown(1));
    let round = geo(&figure).offset(
        1.0,
        geo_clipper::JoinType::Round(0.25),
        geo_clipper::EndType::ClosedPolygon,
        1024.0,
    );
    assert!(round.difference(&grown, 1024.0).unsigned_area() < round.iter().map(sliver).sum());
}
