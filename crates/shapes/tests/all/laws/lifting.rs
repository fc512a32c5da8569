//! Pans lift out through crooked openings, whichever sides have rims: every corner of the folded metal keeps the clearance
//! to every side of the opening.

use fold::refold;
use proptest::prelude::*;
use shapes::edge::{EdgeEnd, HemKind};
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::{Clearance, Figure, Making, Shaped};
use units::{Angle, Length};

use super::random::{convex, makings};
use crate::common::{inches, making, sixteenths};

/// How far below the clearance a corner may lie, mm: rounding of coordinates, and how far fine steps of a bend stand beyond it.
const OFF_MM: f64 = 0.002;

/// The metal of a shaped pan nearest to a side of the opening, mm, below zero outside it, and that side.
fn nearest(shaped: &Shaped, opening: &Figure) -> (f64, String) {
    let flat = shaped.unfold().unwrap();
    let base = flat.faces[0].placement.frame();
    let plan = fold::facets::reach(&flat).into_iter().map(|place| base.local(place).0);
    let all = plan.flat_map(|at| {
        (0..opening.count()).map(move |side| {
            let (a, b) = opening.side(side);
            ((at - a).dot((b - a).unit().left()), side)
        })
    });
    let (mm, side) = all.min_by(|a, b| a.0.total_cmp(&b.0)).unwrap();
    (mm, opening.sides[side].clone())
}

fn pan(opening: &Figure, clearance: Length, rims: Vec<Rim>, lean: Vec<Angle>, edge: EdgeEnd) -> Pan {
    let clearance = Clearance::single("gap", clearance);
    let plan = PanPlan::LiftsThrough { opening: opening.clone(), clearance };
    Pan { plan, height: inches("4"), rims, lean, edge }
}

/// Six corners by their places, as a plan of the fore hatch of an invented boat (inches).
fn six_corners() -> Figure {
    let corners = [(0.0, 0.0), (22.0, 0.0), (27.0, 11.0), (23.5, 21.8), (8.1, 23.7), (-3.0, 14.0)];
    Figure::lettered(&corners.map(|(x, y)| geometry::Point::new(x * 25.4, y * 25.4))).unwrap()
}

#[test]
fn rims_on_two_of_six_sides_pass_between_the_sides_beside_them() {
    let making: Making = making(".125", ".1875", 0.42);
    let opening = six_corners();
    let out = Rim::Out(inches("3/4"));
    let rims = vec![out, Rim::None, Rim::None, out, Rim::None, Rim::None];
    let shaped = pan(&opening, inches("1/4"), rims, Vec::new(), EdgeEnd::Plain).shape(&making).unwrap();
    let (mm, side) = nearest(&shaped, &opening);
    assert!((mm - 6.35).abs() < OFF_MM, "{side}: {mm}");
    let proof = refold::prove(&shaped.part, &shaped.unfold().unwrap()).unwrap();
    assert!(proof.worst_mm < super::WORST_MM, "{}", proof.worst_mm);
    let ends: Vec<String> = shaped
        .facts
        .iter()
        .filter(|fact| fact.name.starts_with("ends of the rim"))
        .map(|fact| format!("{}: {:?}", fact.name, fact.value))
        .collect();
    assert!(ends.len() == 2 && ends[0].contains("at B cut on a slant"), "{ends:?}");
}

fn edges() -> impl Strategy<Value = EdgeEnd> {
    prop_oneof![
        3 => Just(EdgeEnd::Plain),
        1 => Just(EdgeEnd::Hem { kind: HemKind::Closed, length: inches("3/8"), way: None }),
        1 => Just(EdgeEnd::Return { length: inches("5/8"), turn: Angle::from_degrees(60.0), way: None }),
        1 => Just(EdgeEnd::Curl { radius: inches("1/8"), turn: Angle::from_degrees(270.0), way: None }),
    ]
}

fn rims() -> impl Strategy<Value = Rim> {
    prop_oneof![
        3 => Just(Rim::None),
        4 => sixteenths(16..40).prop_map(Rim::Out),
        1 => sixteenths(16..40).prop_map(Rim::In),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn a_pan_lifts_out_of_any_opening_with_rims_on_any_sides(
        making in makings(),
        opening in convex(),
        rims in prop::collection::vec(rims(), 6),
        leans in prop_oneof![2 => Just(Vec::new()), 1 => prop::collection::vec(-8_i32..12, 6)],
        edge in edges(),
        clearance in sixteenths(1..10),
    ) {
        let count = opening.count();
        let lean: Vec<Angle> =
            leans.iter().take(count).map(|&degrees| Angle::from_degrees(f64::from(degrees))).collect();
        let rims = rims[..count].to_vec();
        let shaped = match pan(&opening, clearance, rims, lean, edge).shape(&making) {
            Ok(shaped) => shaped,
            Err(problems) => {
                // Rims alone are cut to pass; only what is bent at edges may be refused for its square ends.
                let square = problems.iter().any(|problem| problem.wrong.contains("square end"));
                prop_assert!(!square || !edge.is_plain(), "{problems:?}");
                return Err(TestCaseError::reject("refused"));
            }
        };
        let (mm, side) = nearest(&shaped, &opening);
        prop_assert!(
            clearance.millimetres() - OFF_MM <= mm,
            "{side}: {mm} of {}", clearance.millimetres()
        );
    }
}
