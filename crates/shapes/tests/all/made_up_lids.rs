//! Tapered lids made up of several pieces, flush lids, plumb hinge sides, notches: every piece refolds and every size holds.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use crate::common::{inches, making, value};
use geometry::Point;
use shapes::tapered_lid::{Hinge, LidMade, LiftingNotch, MadeUpLid, Seat, Split, TaperedLid};
use shapes::{Clearance, Figure, Making, Recipe, Shaped};
use units::Length;

/// The crooked hatch of the oyster skiff, corners worked from AB, BC, DA and the two diagonals to a thousandth.
fn crooked() -> Figure {
    let corners = [(0.0, 0.0), (31.25, 0.0), (31.003, 24.624), (0.13, 25.125)];
    Figure::lettered(&corners.map(|(x, y)| Point::new(x * 25.4, y * 25.4))).unwrap()
}

pub(crate) fn lid(made: LidMade, inset: [&str; 4]) -> MadeUpLid {
    MadeUpLid {
        lid: TaperedLid {
            over: crooked(),
            outset: inches("7/8"),
            rise: inches("2"),
            inset: inset.map(inches).to_vec(),
            skirt: inches("1 1/8"),
            return_width: None,
        },
        seat: Seat::Proud,
        hinge: None,
        made,
        notch: None,
        edge: shapes::edge::EdgeEnd::Plain,
    }
}

pub(crate) const FOUR_SLOPES: [&str; 4] = ["3", "2 1/2", "4 1/4", "2"];

fn proven(lid: &MadeUpLid, making: &Making) -> Vec<Shaped> {
    let piece = |number: usize| {
        let shaped = lid.shape_piece(number, making).unwrap();
        let flat = shaped.unfold().unwrap_or_else(|error| panic!("piece {number}: {error}"));
        let proof = fold::refold::prove(&shaped.part, &flat).unwrap();
        assert!(proof.worst_mm < 0.001, "{}", proof.worst_mm);
        shaped
    };
    (0..lid.pieces().len().max(1)).map(piece).collect()
}

fn skin() -> Making {
    making(".125", ".125", 0.42)
}

fn area(shaped: &Shaped) -> f64 {
    shaped.unfold().unwrap().outline.area_mm2()
}

fn halves(flange: Option<Length>) -> LidMade {
    LidMade::TwoHalves(Split {
        ends: [("AB".to_owned(), inches("15")), ("CD".to_owned(), inches("17"))],
        flange,
    })
}

#[test]
fn one_design_gives_the_same_one_piece_lid_as_the_ring() {
    let made_up = lid(LidMade::OnePiece, FOUR_SLOPES);
    let ring = made_up.lid.shape(&skin()).unwrap();
    let shell = proven(&made_up, &skin()).remove(0);
    assert!((area(&ring) - area(&shell)).abs() < 1e-3);
    for fact in &ring.facts {
        assert!(
            shell.facts.iter().any(|other| other.name == fact.name && other.value == fact.value),
            "{}",
            fact.name
        );
    }
    assert_eq!(shell.part.seams.len(), 8);
}

#[test]
fn every_way_of_making_refolds() {
    for (made, count) in
        [(LidMade::TopAndRing, 2), (LidMade::Plates, 5), (halves(None), 2), (halves(Some(inches("1"))), 2)]
    {
        for return_width in [None, Some(inches("3/4"))] {
            let mut lid = lid(made.clone(), FOUR_SLOPES);
            lid.lid.return_width = return_width;
            assert_eq!(proven(&lid, &skin()).len(), count);
        }
    }
}

#[test]
fn butted_halves_are_together_the_whole_lid() {
    let whole = area(&proven(&lid(LidMade::OnePiece, FOUR_SLOPES), &skin())[0]);
    let halves: f64 = proven(&lid(halves(None), FOUR_SLOPES), &skin()).iter().map(area).sum();
    // The cut runs askew through slopes and skirts and is square to each plate: it takes a thin wedge there.
    assert!(halves < whole && whole - halves < 20.0, "{whole} {halves}");
}

#[test]
fn a_plumb_hinge_side_has_no_bend_at_the_rim() {
    for made in [LidMade::OnePiece, LidMade::TopAndRing, LidMade::Plates, halves(Some(inches("1")))] {
        let plumb = lid(made, ["3", "2 1/2", "4 1/4", "0"]);
        let pieces = proven(&plumb, &skin());
        let names: Vec<&str> =
            pieces.iter().flat_map(|piece| piece.part.faces.iter().map(|face| face.name.as_str())).collect();
        assert!(names.contains(&"plumb side DA") && !names.contains(&"skirt DA"));
    }
    let two = lid(LidMade::OnePiece, ["3", "0", "4 1/4", "0"]);
    proven(&two, &skin());
    let beside = lid(LidMade::OnePiece, ["3", "0", "0", "2"]);
    proven(&beside, &skin());
}

#[test]
fn a_flush_lid_is_the_opening_less_its_gap() {
    let mut flush = lid(LidMade::OnePiece, FOUR_SLOPES);
    flush.lid.over = Figure::rectangle(inches("30").millimetres(), inches("24").millimetres()).unwrap();
    flush.seat = Seat::Flush(Clearance::single("gap", inches("1/8")));
    flush.hinge = Some(Hinge { side: "DA".to_owned(), leaf: inches("1/16") });
    let shaped = proven(&flush, &skin()).remove(0);
    let rim = |name: &str| {
        let size = shaped
            .part
            .sizes
            .iter()
            .find(|size| size.name == format!("slope {name} to skirt {name}, face side"));
        size.unwrap().expected_mm / 25.4
    };
    assert!((rim("AB") - (30.0 - 2.0 / 8.0 - 1.0 / 16.0)).abs() < 1e-9);
    assert!((rim("BC") - (24.0 - 2.0 / 8.0)).abs() < 1e-9);
}

#[test]
fn a_lifting_notch_takes_its_area_from_the_skirt() {
    let plain = lid(LidMade::OnePiece, FOUR_SLOPES);
    let notch = LiftingNotch {
        side: "AB".to_owned(),
        at: None,
        width: inches("4"),
        depth: inches("1/2"),
        corner: inches("1/8"),
    };
    let notched = MadeUpLid { notch: Some(notch.clone()), ..plain.clone() };
    let taken = (area(&proven(&plain, &skin())[0]) - area(&proven(&notched, &skin())[0])) / 645.16;
    // 4 × 1/2 less two corners of half an eighth squared.
    assert!((taken - (2.0 - 0.125 * 0.125)).abs() < 1e-6, "{taken}");
    let deep = MadeUpLid { notch: Some(LiftingNotch { depth: inches("1"), ..notch }), ..plain };
    let problems = deep.shape_piece(0, &skin()).unwrap_err();
    assert!(problems[0].remedy.contains(".875"), "{}", problems[0]);
}

#[test]
fn slopes_that_meet_say_what_is_possible() {
    // Opposite insets of 10 and 15 over a 22 wide rim meet at 22/25 of the rise.
    let mut steep = lid(LidMade::OnePiece, ["10", "2", "15", "2"]);
    steep.lid.over = Figure::rectangle(inches("60").millimetres(), inches("22").millimetres()).unwrap();
    steep.lid.outset = Length::ZERO;
    let problems = steep.shape_piece(0, &skin()).unwrap_err();
    assert!(problems[0].wrong.contains("1.76"), "{}", problems[0]);
    assert!(
        problems[0].remedy.contains("AB 8.8") && problems[0].remedy.contains("CD 13.2"),
        "{}",
        problems[0]
    );
    assert_eq!(steep.lid.shape(&skin()).unwrap_err()[0].wrong, problems[0].wrong);
}

#[test]
fn turns_and_slants_of_a_plumb_side_are_said() {
    let shaped = proven(&lid(LidMade::OnePiece, ["3", "2 1/2", "4 1/4", "0"]), &skin()).remove(0);
    assert!((value(&shaped.facts, "turn at the top DA") - 90.0).abs() < 1e-9);
    assert!((value(&shaped.facts, "slant DA, outside") - 2.0).abs() < 1e-9);
}
