//! Hems, returns and curls on lids that are made up of pieces, sit flush, have a plumb hinge side or a lifting notch.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use crate::common::{inches, making, value};
use crate::made_up_lids::{FOUR_SLOPES, lid};
use crate::wholes::stood;
use shapes::edge::{EdgeEnd, EdgeWay, HemKind};
use shapes::tapered_lid::{EdgedLid, LidMade, LiftingNotch, MadeUpLid, Seat, Split};
use shapes::{Clearance, Making, Recipe};
use units::Angle;

/// The side DA plumb, as at a hinge.
const PLUMB_AT_HINGE: [&str; 4] = ["3", "2 1/2", "4 1/4", "0"];

fn skin() -> Making {
    Making { seam_gap: inches("1/32"), ..making(".063", ".063", 0.42) }
}

fn hem(kind: HemKind, length: &str) -> EdgeEnd {
    EdgeEnd::Hem { kind, length: inches(length), way: None }
}

fn edges() -> [EdgeEnd; 5] {
    let lip = EdgeEnd::Return { length: inches("1/2"), turn: Angle::from_degrees(90.0), way: None };
    [
        hem(HemKind::Closed, "1/2"),
        hem(HemKind::Open { gap: inches("1/16") }, "1/2"),
        hem(HemKind::TearDrop { radius: inches("1/16") }, "5/8"),
        lip,
        EdgeEnd::Curl { radius: inches("1/8"), turn: Angle::from_degrees(270.0), way: None },
    ]
}

fn halves(flange: Option<&str>) -> LidMade {
    let ends = [("AB".to_owned(), inches("15")), ("CD".to_owned(), inches("16"))];
    LidMade::TwoHalves(Split { ends, flange: flange.map(inches) })
}

fn flush() -> Seat {
    Seat::Flush(Clearance::single("gap", inches("3/16")))
}

fn notch() -> LiftingNotch {
    LiftingNotch {
        side: "BC".to_owned(),
        at: None,
        width: inches("4"),
        depth: inches("5/8"),
        corner: inches("1/4"),
    }
}

fn proven(lid: &MadeUpLid) -> usize {
    let count = lid.pieces().len().max(1);
    let mut legs = 0;
    for piece in 0..count {
        let shaped =
            lid.shape_piece(piece, &skin()).unwrap_or_else(|problems| panic!("{lid:?}: {problems:?}"));
        let flat = shaped.unfold().unwrap();
        let proof =
            fold::refold::prove(&shaped.part, &flat).unwrap_or_else(|error| panic!("{lid:?}: {error}"));
        assert!(proof.worst_mm < 0.001, "{}", proof.worst_mm);
        let is_leg = |face: &&fold::part::Face| {
            ["hem ", "return ", "curl "].iter().any(|what| face.name.starts_with(what))
        };
        legs += shaped.part.faces.iter().filter(is_leg).count();
    }
    if count > 1 {
        stood(lid, &skin());
    }
    legs
}

/// Every foot has its leg: one a side, one more for a side that a notch or the line between two halves parts.
#[test]
fn every_foot_is_bent_however_the_lid_is_made() {
    for edge in edges() {
        for (seat, inset) in
            [(Seat::Proud, PLUMB_AT_HINGE), (flush(), FOUR_SLOPES), (flush(), PLUMB_AT_HINGE)]
        {
            for (made, more) in [
                (LidMade::OnePiece, 0),
                (LidMade::Plates, 0),
                (LidMade::TopAndRing, 0),
                (halves(None), 2),
                (halves(Some("1")), 2),
            ] {
                for notched in [None, Some(notch())] {
                    let more = more + usize::from(notched.is_some());
                    let lid =
                        MadeUpLid { seat: seat.clone(), notch: notched, edge, ..lid(made.clone(), inset) };
                    assert_eq!(proven(&lid), 4 + more, "{lid:?}");
                }
            }
        }
    }
}

/// Where both ways of making a lid can, the legs they bend are the same.
#[test]
fn a_plain_lid_has_the_edge_that_the_ring_has() {
    for edge in edges() {
        let plain = lid(LidMade::OnePiece, FOUR_SLOPES);
        let ring = EdgedLid { lid: plain.lid.clone(), edge, hinge: None };
        let made_up = MadeUpLid { edge, ..plain };
        let flat = |recipe: &dyn Recipe| recipe.shape_piece(0, &skin()).unwrap().unfold().unwrap();
        let (one, other) = (flat(&ring), flat(&made_up));
        let off = (one.outline.area_mm2() - other.outline.area_mm2()).abs();
        assert!(off < 0.01, "{edge:?}: {off}");
    }
}

/// Toward the opening the edge of a flush lid stands out of the skirt: a closed hem by its second layer, a thickness.
#[test]
fn a_flush_lid_leaves_what_its_edge_takes_of_the_clearance() {
    let free = |edge| {
        let lid = MadeUpLid { seat: flush(), edge, ..lid(LidMade::OnePiece, FOUR_SLOPES) };
        lid.shape_piece(0, &skin())
    };
    let hem = |way| EdgeEnd::Hem { kind: HemKind::Closed, length: inches("1/2"), way };
    let name = "free between the edge and the side of the opening";
    assert!((value(&free(hem(None)).unwrap().facts, name) - 0.1875).abs() < 1e-4);
    let out = free(hem(Some(EdgeWay::Out))).unwrap();
    assert!((value(&out.facts, name) - (0.1875 - 0.063)).abs() < 1e-4);
    // A return stands out by all of its length.
    let lip =
        EdgeEnd::Return { length: inches("1/2"), turn: Angle::from_degrees(90.0), way: Some(EdgeWay::Out) };
    let problems = free(lip).unwrap_err();
    assert_eq!(problems[0].field, "edge");
    assert!(problems[0].remedy.contains("bend it in"), "{}", problems[0]);
}

#[test]
fn a_notch_within_the_bend_of_a_hem_is_refused() {
    let shallow = LiftingNotch { depth: inches("1/16"), corner: inches("0"), ..notch() };
    let edge = hem(HemKind::Open { gap: inches("1/16") }, "1/2");
    let lid = MadeUpLid { notch: Some(shallow), edge, ..lid(LidMade::OnePiece, FOUR_SLOPES) };
    let problems = lid.shape_piece(0, &skin()).unwrap_err();
    assert_eq!(problems[0].field, "notch.depth");
    assert!(problems[0].wrong.contains("bend of the hem"), "{}", problems[0]);
}
