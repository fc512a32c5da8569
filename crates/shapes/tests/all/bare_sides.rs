//! Panels with a flange of more than a quarter turn that stops short of a corner: what stays flat beside it lies at the
//! size as drawn, and the shortness counts from the corner as drawn.

#![allow(clippy::unwrap_used, reason = "a test may stop at a part that cannot be made")]

use crate::common::{inches, making};
use fold::Direction::{self, Down, Up};
use fold::facets::Place;
use fold::{FlatPattern, refold};
use shapes::panel::{Flange, Panel};
use shapes::{Figure, Shaped};
use units::Angle;

fn flange(side: &str, direction: Direction, degrees: f64, short: [&str; 2]) -> Flange {
    Flange {
        side: side.to_owned(),
        leg: inches("2"),
        direction,
        turn: Angle::from_degrees(degrees),
        short: short.map(inches),
    }
}

fn panel(corners: &[(f64, f64)], flanges: Vec<Flange>) -> Panel {
    let corners: Vec<geometry::Point> =
        corners.iter().map(|(x, y)| geometry::Point::new(x * 25.4, y * 25.4)).collect();
    let outline = Figure::lettered(&corners).unwrap();
    Panel { outline, flanges, holes: Vec::new(), notches: Vec::new(), edges: Vec::new() }
}

fn proven(panel: &Panel) -> (Shaped, FlatPattern) {
    let shaped = panel.shape(&making(".125", ".125", 0.42)).unwrap();
    let flat = shaped.unfold().unwrap();
    refold::prove(&shaped.part, &flat).unwrap();
    (shaped, flat)
}

/// Length and width over the metal, bent, of the places that count, inches.
fn over(flat: &FlatPattern, counts: impl Fn(Place) -> bool) -> [f64; 2] {
    let facets = fold::facets::of(flat).facets;
    let places: Vec<_> = facets
        .iter()
        .filter(|facet| counts(facet.place))
        .flat_map(|facet| facet.rings.iter().flatten())
        .collect();
    [|p: &geometry::Point3| p.x, |p: &geometry::Point3| p.y].map(|along| {
        let ends = places
            .iter()
            .map(|&p| along(p))
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), at| (at.min(a), at.max(b)));
        (ends.1 - ends.0) / 25.4
    })
}

const RECTANGLE: [(f64, f64); 4] = [(0.0, 0.0), (12.0, 0.0), (12.0, 8.0), (0.0, 8.0)];

// The panel is drawn 12 × 8 to the outermost metal: so the flat of it beside the bend, and all of it, measure 12 × 8. (The
// mold line of 120° lies (R + T)(tan 60° − 1) = .183 beyond.)
#[test]
fn the_bare_side_lies_at_the_size_as_drawn() {
    for (direction, degrees) in [(Up, 120.0), (Down, 135.0), (Up, 90.0), (Down, 60.0), (Up, 150.0)] {
        for short in [["2", "3"], ["2", "0"], ["0", "1/2"]] {
            let (_, flat) = proven(&panel(&RECTANGLE, vec![flange("AB", direction, degrees, short)]));
            for size in [over(&flat, |place| place == Place::Face(0)), over(&flat, |_| true)] {
                assert!((size[0] - 12.0).abs() < 1e-6, "{degrees}° short {short:?}: {size:?}");
                // The outer arc is drawn in strips of 10°: (R + T)(1 − cos 5°) = .001 short at the most.
                let whole = (size[1] - 8.0).abs() < 0.0011;
                assert!(whole || degrees < 90.0, "{degrees}° short {short:?}: {size:?}");
            }
            let [_, flat_mm] = over(&flat, |place| place == Place::Face(0));
            assert!((flat_mm - 8.0).abs() < 1e-6, "{degrees}° short {short:?}: {flat_mm}");
            let off: f64 = short.iter().map(|text| inches(text).inches()).sum();
            let bend_mm = flat.bends[0].from.distance(flat.bends[0].to);
            assert!((bend_mm / 25.4 - (12.0 - off)).abs() < 1e-6, "{}", bend_mm / 25.4);
        }
    }
}

/// Two flanges at one corner, one of them past square and short there, and both.
#[test]
fn a_bend_beside_a_bare_side_runs_to_it() {
    for (ab, bc) in [(["0", "2"], ["0", "0"]), (["0", "2"], ["1/2", "0"])] {
        let flanges = vec![flange("AB", Up, 120.0, ab), flange("BC", Up, 120.0, bc)];
        let (_, flat) = proven(&panel(&RECTANGLE, flanges));
        let size = over(&flat, |place| {
            place == Place::Face(0) || place == Place::Bend(0) || place == Place::Bend(1)
        });
        assert!((size[0] - 12.0).abs() < 0.0011 && (size[1] - 8.0).abs() < 0.0011, "{size:?}");
        let long = |bend: usize| flat.bends[bend].from.distance(flat.bends[bend].to) / 25.4;
        let expected = [12.0 - 2.0, 8.0 - inches(bc[0]).inches()];
        assert!(
            (long(0) - expected[0]).abs() < 1e-6 && (long(1) - expected[1]).abs() < 1e-6,
            "{} {}",
            long(0),
            long(1)
        );
    }
}

/// In a hollow: CD is 11 long, less 1/2; DE is 8 long, less 2 1/2.
#[test]
fn shortness_in_a_hollow_counts_from_the_corner_as_drawn() {
    let corners = [(0.0, 0.0), (20.0, 0.0), (20.0, 8.0), (9.0, 8.0), (9.0, 16.0), (0.0, 16.0)];
    let flanges = |short| vec![flange("CD", Up, 120.0, ["0", "1/2"]), flange("DE", Down, 60.0, [short, "0"])];
    let (_, flat) = proven(&panel(&corners, flanges("2 1/2")));
    let long = |bend: usize| flat.bends[bend].from.distance(flat.bends[bend].to) / 25.4;
    assert!((long(0) - 10.5).abs() < 1e-6 && (long(1) - 5.5).abs() < 1e-6, "{} {}", long(0), long(1));
    // Both CD and DE could be in each other's way: the mold line of CD stands out .183 along DE.
    let problems = panel(&corners, flanges("1/8")).shape(&making(".125", ".125", 0.42)).unwrap_err();
    assert_eq!(problems[0].field, "flanges.DE.short");
    assert!(problems[0].remedy.contains(".183"), "{}", problems[0]);
    // Short at both ends, the shorter one where nothing is in the way: the one at fault is named.
    let both = vec![flange("CD", Up, 120.0, ["0", "1/2"]), flange("DE", Down, 60.0, ["1/8", "1/16"])];
    let problems = panel(&corners, both).shape(&making(".125", ".125", 0.42)).unwrap_err();
    assert_eq!((problems[0].field.as_str(), problems[0].value.as_str()), ("flanges.DE.short", ".125"));
}
