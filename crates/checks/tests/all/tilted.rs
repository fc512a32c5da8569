//! Tilted lift-out: limits known by plane geometry, and every found way checked by a sampler that knows nothing of it.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on stops there")]

use checks::fit::tilted::{Space, TiltedPath, centred, posed, way_out};
use geometry::grid::{GridOutline, GridPoint};
use geometry::{Point, polygon, trig};
use proptest::prelude::*;

fn steps(millimetres: f64) -> i64 {
    GridPoint::near(Point::new(millimetres, 0.0)).x
}

fn block(length_mm: f64, height_mm: f64) -> GridOutline {
    GridOutline::rectangle(steps(length_mm), steps(height_mm)).unwrap()
}

/// A tray in side view: walls `length_mm` apart over all, a rim standing out by `rim_mm` at the top.
fn tray(length_mm: f64, height_mm: f64, rim_mm: f64) -> GridOutline {
    let corners = [
        (0.0, 0.0),
        (length_mm, 0.0),
        (length_mm, height_mm - 3.0),
        (length_mm + rim_mm, height_mm - 3.0),
        (length_mm + rim_mm, height_mm),
        (-rim_mm, height_mm),
        (-rim_mm, height_mm - 3.0),
        (0.0, height_mm - 3.0),
    ];
    let corners = corners.map(|(x, y)| GridPoint::near(Point::new(x, y)));
    GridOutline::new(corners.to_vec(), Vec::new()).unwrap()
}

fn thin_deck(opening_mm: f64, depth_mm: f64) -> Space {
    Space {
        opening_mm,
        clearance_mm: 0.0,
        deck_mm: 0.1,
        depth_mm,
        reach_mm: [3000.0, 3000.0],
        headroom_mm: None,
    }
}

/// True when any corner of the part, or any point along its edges, lies in a deck, a wall, the floor or overhead; or a
/// corner of a deck lies in the part.
fn collides(space: &Space, corners: &[Point]) -> bool {
    let (soffit, floor) = (-space.deck_mm, -space.deck_mm - space.depth_mm);
    let (left, right) = (space.clearance_mm, space.opening_mm - space.clearance_mm);
    let bad = |p: Point| {
        let in_deck = soffit < p.y && p.y < 0.0 && (p.x < left || right < p.x);
        let in_wall =
            p.y <= soffit && (p.x < -space.reach_mm[0] || space.opening_mm + space.reach_mm[1] < p.x);
        in_deck || in_wall || p.y < floor - 0.001 || space.headroom_mm.is_some_and(|headroom| headroom < p.y)
    };
    let along_edges =
        polygon::edges(corners).any(|(a, b)| (0..=60).any(|n| bad(a.toward(b, f64::from(n) / 60.0))));
    let deck_corners = [(left, 0.0), (left, soffit), (right, 0.0), (right, soffit)];
    along_edges || deck_corners.iter().any(|&(x, y)| polygon::contains(corners, Point::new(x, y)))
}

/// The path sampled densely between its poses: clear all the way, beginning on the floor and ending above the deck.
fn assert_clear(space: &Space, profile: &GridOutline, path: &TiltedPath) {
    let profile = centred(profile);
    for pair in path.poses.windows(2) {
        for n in 0..=12 {
            let share = f64::from(n) / 12.0;
            let tilt = f64::from(pair[0].tilt_millidegrees)
                + share * f64::from(pair[1].tilt_millidegrees - pair[0].tilt_millidegrees);
            let radians = tilt * std::f64::consts::PI / 180_000.0;
            let at = pair[0].at.toward(pair[1].at, share);
            let put = |p: Point| at + (p - Point::default()).turned(radians);
            let corners: Vec<Point> = profile.outer().iter().map(|p| put(p.millimetres())).collect();
            assert!(!collides(space, &corners), "{pair:?} at {share}");
        }
        let slid = pair[0].at.distance(pair[1].at);
        let tilted = (pair[0].tilt_millidegrees - pair[1].tilt_millidegrees).abs();
        assert!(tilted <= 1_000 && (tilted == 0 || slid < 0.001), "{pair:?}");
    }
    let height = |pose| posed(&profile, pose).iter().map(|p| p.y).fold(f64::INFINITY, f64::min);
    let first = path.poses.first().unwrap();
    assert_eq!(first.tilt_millidegrees, 0);
    assert!((height(first) + space.deck_mm + space.depth_mm - path.margin_mm).abs() < 0.01);
    assert!(0.0 < height(path.poses.last().unwrap()));
}

/// Depth under a thin deck that a block needs to come out end first through an opening shorter than itself.
///
/// Plane geometry. At tilt θ the block is L·sin θ + H·cos θ high. Until its thickness H/sin θ along the opening fits the
/// opening S, only a corner of height S·sin θ·cos θ can stand above the deck. The deepest moment on the way to
/// sin θ = H/S rules.
fn least_depth_mm(length: f64, height: f64, opening: f64) -> f64 {
    let last = trig::asin(height / opening);
    (0..=10_000)
        .map(|n| last * f64::from(n) / 10_000.0)
        .map(|tilt| {
            let (sine, cosine) = (trig::sin(tilt), trig::cos(tilt));
            length * sine + height * cosine - opening * sine * cosine
        })
        .fold(0.0, f64::max)
}

#[test]
fn a_block_comes_out_just_when_the_space_below_is_deep_enough() {
    for (length, height, opening) in [(600.0, 150.0, 400.0), (900.0, 100.0, 500.0), (500.0, 200.0, 420.0)] {
        let least = least_depth_mm(length, height, opening);
        let (deep, shallow) = (thin_deck(opening, least + 3.0), thin_deck(opening, least - 1.0));
        let profile = block(length, height);
        let path = way_out(&deep, &profile).unwrap();
        assert_clear(&deep, &profile, &path.unwrap_or_else(|| panic!("{length} × {height}: no way out")));
        assert_eq!(way_out(&shallow, &profile).unwrap(), None, "{length} × {height} came out of {least}");
    }
}

#[test]
fn a_block_passes_a_thin_opening_exactly_when_its_height_does() {
    // A convex figure passes a gap exactly when its least width does: Strang, "The width of a chair", American
    // Mathematical Monthly 89, 1982. Deep, so that it may come out upright.
    let profile = block(700.0, 150.0);
    let wide = thin_deck(153.0, 2000.0);
    let path = way_out(&wide, &profile).unwrap().unwrap();
    assert!(path.poses.iter().any(|pose| pose.tilt_millidegrees.abs() > 75_000));
    assert_clear(&wide, &profile, &path);
    assert_eq!(way_out(&thin_deck(149.0, 2000.0), &profile).unwrap(), None);
}

#[test]
fn upright_a_thick_coaming_is_no_hindrance() {
    // At tilt θ a block of thickness H slides straight through an opening of depth d when H/sin θ + d/tan θ ≤ S (plane
    // geometry), which is easiest upright: then S ≥ H whatever the depth.
    let coaming = |opening_mm, deck_mm| Space { deck_mm, ..thin_deck(opening_mm, 2000.0) };
    let profile = block(700.0, 150.0);
    assert!(way_out(&coaming(153.0, 100.0), &profile).unwrap().is_some());
    assert!(way_out(&coaming(149.0, 100.0), &profile).unwrap().is_none());
}

#[test]
fn what_fits_level_is_not_tilted() {
    let space = Space { reach_mm: [0.0, 0.0], ..thin_deck(620.0, 300.0) };
    let profile = tray(550.0, 120.0, 20.0);
    let path = way_out(&space, &profile).unwrap().unwrap();
    assert!(path.poses.iter().all(|pose| pose.tilt_millidegrees == 0));
    assert_clear(&space, &profile, &path);
}

#[test]
fn a_ceiling_stops_the_end_that_goes_up() {
    let least = least_depth_mm(600.0, 150.0, 400.0) + 5.0;
    let low = Space { headroom_mm: Some(60.0), ..thin_deck(400.0, least) };
    assert_eq!(way_out(&low, &block(600.0, 150.0)).unwrap(), None);
    let high = Space { headroom_mm: Some(700.0), ..low };
    assert!(way_out(&high, &block(600.0, 150.0)).unwrap().is_some());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 12, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_way_found_is_clear(
        length in 300.0..900.0_f64, slender in 0.1..0.35_f64, rim in 5.0..30.0_f64, short in 0.55..1.1_f64,
        deep in 0.5..1.4_f64, deck in 2.0..60.0_f64, clearance in 0.0..8.0_f64, reach in 0.1..0.8_f64,
    ) {
        let space = Space {
            opening_mm: length * short, clearance_mm: clearance, deck_mm: deck, depth_mm: length * deep * 0.7,
            reach_mm: [length * reach, length * reach * 0.5], headroom_mm: Some(length * 1.5),
        };
        let profile = tray(length, length * slender, rim);
        if let Some(path) = way_out(&space, &profile).unwrap() {
            assert_clear(&space, &profile, &path);
        }
    }

    #[test]
    fn a_block_twice_as_large_in_a_space_twice_as_large_comes_out_as_well(
        length in 300.0..700.0_f64, slender in 0.15..0.35_f64, short in 0.6..0.95_f64, more in 12.0..60.0_f64,
    ) {
        let height = length * slender;
        let opening = length * short;
        let least = least_depth_mm(length, height, opening);
        for scale in [1.0, 2.0] {
            let profile = block(scale * length, scale * height);
            prop_assert!(way_out(&thin_deck(scale * opening, scale * (least + more)), &profile).unwrap().is_some());
            prop_assert!(way_out(&thin_deck(scale * opening, scale * (least - more)), &profile).unwrap().is_none());
        }
    }
}
