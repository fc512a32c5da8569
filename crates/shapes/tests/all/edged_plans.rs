//! Pans that lift out and lids that go over with a hem, return or curl at their edge: the metal itself is measured, bent
//! round its arcs in strips of 10°.

#![allow(clippy::unwrap_used, reason = "a test may stop at a part that cannot be made")]

use crate::common::{inches, making};
use fold::refold;
use geometry::Point3;
use shapes::edge::{EdgeEnd, EdgeWay, HemKind};
use shapes::lid::{Lid, LidPlan};
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::{Clearance, FactValue, Figure, Making, Shaped};
use units::{Angle, Length};

/// Corners of the metal, bent, in inches; the floor or the top lies level.
fn metal(shaped: &Shaped) -> Vec<Point3> {
    let flat = shaped.unfold().unwrap();
    refold::prove(&shaped.part, &flat).unwrap();
    let facets = fold::facets::of(&flat).facets;
    let inches = |p: Point3| Point3::new(p.x / 25.4, p.y / 25.4, p.z / 25.4);
    facets.iter().flat_map(|facet| facet.rings.iter().flatten()).map(|&p| inches(p)).collect()
}

/// Length, width and height over the outermost metal, inches.
fn over_all(shaped: &Shaped) -> [f64; 3] {
    let metal = metal(shaped);
    [|p: &Point3| p.x, |p: &Point3| p.y, |p: &Point3| p.z].map(|along| {
        let (least, most) = metal
            .iter()
            .map(along)
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), at| (at.min(least), at.max(most)));
        most - least
    })
}

fn said(shaped: &Shaped, name: &str) -> String {
    match shaped.facts.iter().find(|fact| fact.name == name).map(|fact| &fact.value) {
        Some(FactValue::Words(words)) => words.clone(),
        other => panic!("nothing called {name}: {other:?}"),
    }
}

fn thin() -> Making {
    making(".050", ".063", 0.42)
}

fn out() -> Option<EdgeWay> {
    Some(EdgeWay::Out)
}

fn hem(kind: HemKind, length: &str, way: Option<EdgeWay>) -> EdgeEnd {
    EdgeEnd::Hem { kind, length: inches(length), way }
}

fn lip(length: &str, degrees: f64, way: Option<EdgeWay>) -> EdgeEnd {
    EdgeEnd::Return { length: inches(length), turn: Angle::from_degrees(degrees), way }
}

fn curl(way: Option<EdgeWay>) -> EdgeEnd {
    EdgeEnd::Curl { radius: inches("1/8"), turn: Angle::from_degrees(270.0), way }
}

fn open() -> HemKind {
    HemKind::Open { gap: inches("1/8") }
}

fn lifted(rim: Rim, lean: &[f64], edge: EdgeEnd) -> Pan {
    let opening = Figure::rectangle(inches("24").millimetres(), inches("20").millimetres()).unwrap();
    let plan = PanPlan::LiftsThrough { opening, clearance: Clearance::single("clearance", inches("1/4")) };
    let lean = lean.iter().copied().map(Angle::from_degrees).collect();
    Pan { plan, height: inches("4"), rims: vec![rim], lean, edge }
}

fn half_inch_rim() -> Rim {
    Rim::Out(inches("1/2"))
}

// Source of the sums: plane geometry of a bend of inside radius R in metal T, worked by hand. Over both layers of a half
// turn 2(R + T), so it stands 2R + T off its plate; a square return stands its length less T off it; a return of 60° on a
// level rim runs on by its length × cos 60°.
#[test]
fn a_pan_lifts_out_with_what_is_bent_at_its_edge() {
    let sums = [
        (Rim::None, hem(open(), "1/2", out()), ".250 clearance + .000 rim + .175 hem = .425 a side"),
        (Rim::None, curl(out()), ".250 clearance + .000 rim + .300 curl = .550 a side"),
        (Rim::None, lip("1/2", 90.0, out()), ".250 clearance + .000 rim + .450 return = .700 a side"),
        (Rim::None, hem(HemKind::Closed, "1/2", out()), ".250 clearance + .000 rim + .050 hem = .300 a side"),
        (Rim::None, curl(None), ".250 clearance + .000 rim = .250 a side"),
        (half_inch_rim(), hem(open(), "3/8", out()), ".250 clearance + .500 rim = .750 a side"),
        (half_inch_rim(), lip("3/8", 60.0, None), ".250 clearance + .500 rim + .188 return = .938 a side"),
        (half_inch_rim(), curl(None), ".250 clearance + .500 rim = .750 a side"),
    ];
    for (rim, edge, sum) in sums {
        let shaped = lifted(rim, &[], edge).shape(&thin()).unwrap();
        let words = said(&shaped, "lifts through");
        assert!(words.ends_with(sum), "{words}, expected {sum}");
        let [length, width, height] = over_all(&shaped);
        assert!((length - 23.5).abs() < 1e-6 && (width - 19.5).abs() < 1e-6, "{edge:?}: {length} × {width}");
        if !matches!(edge, EdgeEnd::Return { way: None, .. }) {
            assert!((height - 4.0).abs() < 1e-6, "{edge:?}: {height} high");
        }
    }
}

/// Leaning walls, where no quarter of an arc lies level: strips of 10° fall short of the arc by no more than
/// (R + T)(1 − cos 5°) = .0007 in.
#[test]
fn leaning_walls_lift_out_with_their_edges() {
    for lean in [[10.0, 20.0, 0.0, 35.0], [30.0; 4], [0.0, -10.0, 5.0, -20.0]] {
        for edge in [
            hem(open(), "1/2", out()),
            curl(out()),
            lip("1/2", 120.0, out()),
            lip("1/2", 45.0, None),
            curl(None),
        ] {
            let shaped = lifted(Rim::None, &lean, edge).shape(&thin()).unwrap();
            let [length, width, height] = over_all(&shaped);
            let fits = |found: f64, most: f64| found < most + 1e-6;
            assert!(
                fits(length, 23.5) && fits(width, 19.5) && fits(height, 4.0),
                "{lean:?} {edge:?}: {length} × {width} × {height}"
            );
            // Legs turned in are mitred: they end within the walls' outsides drawn on up to the height.
            let is_out = matches!(
                edge,
                EdgeEnd::Hem { way: Some(_), .. }
                    | EdgeEnd::Curl { way: Some(_), .. }
                    | EdgeEnd::Return { way: Some(_), .. }
            );
            // Sizes at the floor of a wall that leans inward are to its mold line, out in the air.
            if is_out && lean.iter().all(|&degrees| degrees >= 0.0) {
                let fills = |found: f64, most: f64| most - 0.0015 < found;
                assert!(fills(length, 23.5) && fills(width, 19.5), "{lean:?} {edge:?}: {length} × {width}");
                assert!(fills(height, 4.0), "{lean:?} {edge:?}: {height} high");
            }
        }
    }
}

#[test]
fn an_edge_too_wide_for_the_opening_is_refused_with_the_room_there_is() {
    let opening = Figure::rectangle(inches("24").millimetres(), inches("1").millimetres()).unwrap();
    let plan = PanPlan::LiftsThrough { opening, clearance: Clearance::single("clearance", inches("1/4")) };
    let pan = Pan { plan, ..lifted(Rim::None, &[], curl(out())) };
    let problem = &pan.shape(&thin()).unwrap_err()[0];
    assert_eq!(problem.field, "edge");
    assert!(problem.wrong.contains("curl") && problem.remedy.contains("under .250"), "{problem}");
}

/// The clear opening inside skirts and edges, inches: BC to DA, and AB to CD.
fn clear_inside(shaped: &Shaped) -> [f64; 2] {
    use fold::facets::Place;
    let flat = shaped.unfold().unwrap();
    let facets = fold::facets::of(&flat).facets;
    let middle = {
        let base = facets
            .iter()
            .filter(|facet| facet.place == Place::Face(0))
            .flat_map(|facet| facet.rings.iter().flatten());
        let (count, sum) =
            base.fold((0.0, (0.0, 0.0)), |(count, sum), p| (count + 1.0, (sum.0 + p.x, sum.1 + p.y)));
        Point3::new(sum.0 / count, sum.1 / count, 0.0)
    };
    // A skirt's own bend at the top reaches in above the opening; bends of edges belong to the edge.
    let is_below = |place: Place| match place {
        Place::Face(face) => (face > 0).then_some(face),
        Place::Bend(bend) => (flat.bends[bend].parent > 0).then_some(flat.bends[bend].child),
    };
    let nearest = |sides: [&str; 2], along: fn(&Point3) -> f64| {
        let mut nearest = f64::INFINITY;
        for facet in &facets {
            let Some(face) = is_below(facet.place) else { continue };
            if sides.iter().any(|side| flat.faces[face].name.ends_with(side)) {
                let off = facet.rings.iter().flatten().map(|p| (along(p) - along(&middle)).abs());
                nearest = off.fold(nearest, f64::min);
            }
        }
        2.0 * nearest / 25.4
    };
    [nearest(["BC", "DA"], |p| p.x), nearest(["AB", "CD"], |p| p.y)]
}

// Source as above: a half turn stands 2R + T in from the inside of its skirt, a square return its length less T.
#[test]
fn a_lid_goes_over_with_what_is_turned_in_at_its_edge() {
    let sums = [
        (EdgeEnd::Plain, ".125 clearance + .050 metal = .175 a side"),
        (hem(open(), "3/8", None), ".125 clearance + .050 metal + .175 hem turned in = .350 a side"),
        (lip("1/2", 90.0, None), ".125 clearance + .050 metal + .450 return turned in = .625 a side"),
        (curl(None), ".125 clearance + .050 metal + .300 curl turned in = .475 a side"),
        (hem(HemKind::Closed, "3/8", None), ".125 clearance + .050 metal + .050 hem turned in = .225 a side"),
        (curl(out()), ".125 clearance + .050 metal = .175 a side"),
    ];
    for (edge, sum) in sums {
        let opening = Figure::rectangle(inches("14").millimetres(), inches("10").millimetres()).unwrap();
        let clearance = Clearance::single("clearance", inches("1/8"));
        let lid = Lid { plan: LidPlan::Over { opening, clearance }, skirt: Length::from_inches(1.5), edge };
        let shaped = lid.shape(&thin()).unwrap();
        let words = said(&shaped, "goes over");
        assert!(words.ends_with(sum), "{words}, expected {sum}");
        let [length, width] = clear_inside(&shaped);
        assert!(
            (length - 14.25).abs() < 1e-6 && (width - 10.25).abs() < 1e-6,
            "{edge:?}: {length} × {width}"
        );
    }
}

/// Walls with a rim beside leaning walls without one: the clear width at the rim is measured in the rim's plane.
#[test]
fn rims_beside_leaning_walls_without_one_prove() {
    for edge in [EdgeEnd::Plain, hem(HemKind::Closed, "3/8", out())] {
        let rims = vec![half_inch_rim(), Rim::None, half_inch_rim(), Rim::None];
        let pan = Pan { rims, ..lifted(Rim::None, &[10.0, 20.0, 8.0, 35.0], edge) };
        let [_, _, height] = over_all(&pan.shape(&thin()).unwrap());
        assert!(height < 4.0 + 1e-6, "{edge:?}: {height} high");
    }
}
