//! Rolled cylinders and cones in openings: plane geometry of the circle, whatever the number of element lines.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on stops there")]

use crate::common::{inches, making};
use checks::fit::level::{LevelLift, PlanTurns, Way};
use checks::fit::{Body, rolled};
use shapes::cone::Cone;
use shapes::cylinder::Cylinder;
use shapes::wrap::{DiameterTo, WrapMaking, WrapSeam};
use shapes::{Clearance, Figure, Recipe};
use units::LengthStyle;

const STYLE: LengthStyle = LengthStyle::Inches { places: 3 };

fn made(strikes: u32, seam: WrapSeam) -> WrapMaking {
    WrapMaking { rolled: true, strikes: Some(strikes), seam }
}

/// 10 inside and .125 thick: 10.25 outside.
fn ring(strikes: u32, seam: WrapSeam) -> Cylinder {
    let (diameter, to) = (inches("10"), DiameterTo::Inside);
    Cylinder { diameter, to, length: inches("3"), ends: [None; 2], made: made(strikes, seam) }
}

fn goes(recipe: &dyn Recipe, turned_over: bool, opening: &str, way: Way) -> bool {
    let making = making();
    let part = recipe.shape_piece(0, &making).unwrap().part;
    let part = if turned_over { part.seen_from_back() } else { part };
    let flat = fold::flat::unfold(&part).unwrap();
    let body = Body::rolled(&flat, turned_over, &recipe.round(&making).unwrap(), 0.0);
    let side = inches(opening).millimetres();
    let opening = Figure::rectangle(side, side).unwrap();
    let lift = LevelLift { opening, clearance: Clearance::default(), way, turns: PlanTurns::AsDrawn };
    lift.judge("C", &body, STYLE).fits
}

fn sizes(recipe: &dyn Recipe) -> [f64; 3] {
    let making = making();
    let flat = fold::flat::unfold(&recipe.shape_piece(0, &making).unwrap().part).unwrap();
    let reach = rolled::reach(&flat, false, &recipe.round(&making).unwrap());
    let span = |of: fn(&geometry::Point3) -> f64| {
        let all = || reach.iter().map(of);
        (all().fold(f64::NEG_INFINITY, f64::max) - all().fold(f64::INFINITY, f64::min)) / 25.4
    };
    [span(|p| p.x), span(|p| p.y), span(|p| p.z)]
}

#[test]
fn a_rolled_ring_needs_its_outside_diameter() {
    for strikes in [6, 8, 16, 33] {
        for turned_over in [false, true] {
            let ring = ring(strikes, WrapSeam::Butt);
            assert!(!goes(&ring, turned_over, "10.24", Way::Endwise), "{strikes}");
            assert!(goes(&ring, turned_over, "10.253", Way::Endwise), "{strikes}");
        }
        let [long, across, high] = sizes(&ring(strikes, WrapSeam::Butt));
        for (size, due) in [(long, 3.0), (across, 10.25), (high, 10.25)] {
            assert!((size - due).abs() < 1e-3, "{strikes}: {size} for {due}");
        }
    }
}

#[test]
fn a_lap_outside_stands_out_of_the_round() {
    let lap = |outside: bool| ring(8, WrapSeam::Lap { width: inches("1"), outside });
    // The strip lies on the seam, which is up: one thickness over the circle.
    let [_, across, high] = sizes(&lap(true));
    assert!((across - 10.25).abs() < 1e-3 && (high - 10.375).abs() < 1e-3, "{across} × {high}");
    let [_, across, high] = sizes(&lap(false));
    assert!((across - 10.25).abs() < 1e-3 && (high - 10.25).abs() < 1e-3, "{across} × {high}");
}

/// The flat is cut straight from line to line, so that between two lines the edge lies a little inside its circle: of radius S on
/// the flat, by S·(1 − cos(half the turn between lines)) along the slant (plane geometry).
#[test]
fn a_rolled_cone_needs_the_diameter_of_its_large_end() {
    for strikes in [6, 8, 24] {
        let (to, made) = (DiameterTo::Outside, made(strikes, WrapSeam::Butt));
        let cone = Cone { large: inches("12"), small: inches("6"), to, height: inches("8"), made };
        let lean_sine = 3.0 / 73.0_f64.sqrt();
        let half_turn = std::f64::consts::PI * lean_sine / f64::from(strikes);
        let least = 12.0 * geometry::trig::cos(half_turn);
        let [_, across, _] = sizes(&cone);
        assert!((least - 2e-3..12.0 + 2e-3).contains(&across), "{strikes}: {across}, at least {least}");
        let narrow = format!("{:.3}", least - 0.03);
        assert!(!goes(&cone, false, &narrow, Way::Up), "{strikes}");
    }
}

#[test]
fn what_is_struck_in_flats_stays_as_it_is_struck() {
    let mut ring = ring(12, WrapSeam::Butt);
    ring.made.rolled = false;
    assert!(ring.round(&making()).is_none());
}
