//! What a lid may have at once: halves with a return and a notch in it, a hem beside a hinge, five sides parted on a slanted line.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use crate::common::{inches, making, value};
use crate::made_up_lids::{FOUR_SLOPES, lid};
use fold::refold;
use geometry::Point;
use shapes::edge::{EdgeEnd, HemKind};
use shapes::tapered_lid::{EdgedLid, Hinge, LidMade, LiftingNotch, MadeUpLid, Seat, Split, TaperedLid};
use shapes::{Figure, Making, Problem, Recipe, Shaped};
use units::Length;

fn halves(ends: [(&str, &str); 2], flange: Option<&str>) -> LidMade {
    let ends = ends.map(|(side, at)| (side.to_owned(), inches(at)));
    LidMade::TwoHalves(Split { ends, flange: flange.map(inches) })
}

/// Shaped, unfolded and refolded.
fn proven(recipe: &dyn Recipe, piece: usize, making: &Making) -> Result<Shaped, String> {
    let words =
        |problems: Vec<Problem>| problems.iter().map(ToString::to_string).collect::<Vec<_>>().join("; ");
    let shaped = recipe.shape_piece(piece, making).map_err(words)?;
    let flat = shaped.unfold().map_err(|error| error.to_string())?;
    let proof = refold::prove(&shaped.part, &flat).map_err(|error| error.to_string())?;
    assert!(proof.worst_mm < 0.001, "{}", proof.worst_mm);
    Ok(shaped)
}

fn notch(side: &str, at: Option<&str>) -> LiftingNotch {
    LiftingNotch {
        side: side.to_owned(),
        at: at.map(inches),
        width: inches("4"),
        depth: inches("3/4"),
        corner: inches("1/4"),
    }
}

/// The return stops at both sides of a notch, in one piece and on the half that has it.
#[test]
fn a_notch_parts_the_return_of_its_side() {
    let split = halves([("AB", "15"), ("CD", "17")], Some("1"));
    for (made, pieces) in [(LidMade::OnePiece, 1), (LidMade::TopAndRing, 2), (LidMade::Plates, 5), (split, 2)]
    {
        let mut lid = lid(made.clone(), FOUR_SLOPES);
        lid.lid.return_width = Some(inches("3/4"));
        lid.notch = Some(notch("AB", Some("8")));
        let shaped: Vec<Shaped> =
            (0..pieces).map(|piece| proven(&lid, piece, &making(".125", ".125", 0.42)).unwrap()).collect();
        let of_side = |shaped: &Shaped| {
            let faces = shaped.part.faces.iter().map(|face| face.name.clone());
            faces.filter(|name| name.starts_with("return AB")).collect::<Vec<_>>()
        };
        let returns: Vec<String> = shaped.iter().flat_map(of_side).collect();
        // The line parts the longer of the two on a lid of halves.
        assert!(returns.contains(&"return AB at A".to_owned()), "{made:?}: {returns:?}");
        assert!(returns.contains(&"return AB at B".to_owned()), "{made:?}: {returns:?}");
        assert!(pieces == 2 || returns.len() == 2, "{made:?}: {returns:?}");
    }
    let mut near = lid(LidMade::OnePiece, FOUR_SLOPES);
    near.lid.return_width = Some(inches("3/4"));
    near.notch = Some(notch("AB", Some("2 3/4")));
    let refused = near.shape_piece(0, &making(".125", ".125", 0.42)).unwrap_err();
    assert!(refused[0].wrong.contains("too little of the return"), "{}", refused[0]);
    let mut shallow = near;
    shallow.notch = Some(LiftingNotch { depth: inches("1/4"), corner: Length::ZERO, ..notch("AB", None) });
    let refused = shallow.shape_piece(0, &making(".125", ".125", 0.42)).unwrap_err();
    assert!(refused[0].wrong.contains("within the bend of the return"), "{}", refused[0]);
}

/// A hem on a lid with a hinge: the hinge side stands out by the leaf, and nothing else differs.
#[test]
fn a_hemmed_lid_may_be_hinged() {
    let lid = TaperedLid {
        over: Figure::rectangle(inches("14").millimetres(), inches("9").millimetres()).unwrap(),
        outset: inches("1/2"),
        rise: inches("1"),
        inset: ["2"; 4].map(inches).to_vec(),
        skirt: inches("2"),
        return_width: None,
    };
    let edge = EdgeEnd::Hem { kind: HemKind::Open { gap: inches("1/8") }, length: inches("1/2"), way: None };
    let making = making(".063", ".063", 0.42);
    let plain = EdgedLid { lid, edge, hinge: None };
    let hinge = Hinge { side: "DA".to_owned(), leaf: inches("1/8") };
    let hinged = EdgedLid { hinge: Some(hinge), ..plain.clone() };
    let [plain, hinged] = [plain, hinged].map(|lid| proven(&lid, 0, &making).unwrap());
    let rim = |shaped: &Shaped, side: &str| {
        let name = format!("rim {side}, outside");
        shaped.part.sizes.iter().find(|size| size.name == name).unwrap().expected_mm
    };
    for (side, more) in [("AB", 3.175), ("BC", 0.0), ("CD", 3.175), ("DA", 0.0)] {
        assert!((rim(&hinged, side) - rim(&plain, side) - more).abs() < 1e-9, "{side}");
    }
    assert!(hinged.facts.iter().any(|fact| fact.name == "hinge side"));
    // Of all sides alike: √(2² + 1²), by Pythagoras.
    for shaped in [&plain, &hinged] {
        assert!((value(&shaped.facts, "slant DA, outside") - 5.0_f64.sqrt()).abs() < 1e-6);
    }
    let wrong = EdgedLid {
        hinge: Some(Hinge { side: "EF".to_owned(), leaf: inches("1/8") }),
        ..EdgedLid {
            lid: TaperedLid { over: Figure::rectangle(300.0, 200.0).unwrap(), ..five().lid },
            edge,
            hinge: None,
        }
    };
    assert_eq!(wrong.shape_piece(0, &making).unwrap_err()[0].field, "hinge.side");
}

fn five() -> MadeUpLid {
    let corners = [(0.0, 0.0), (30.0, 0.0), (36.0, 14.0), (18.0, 26.0), (-3.0, 15.0)];
    let over = Figure::lettered(&corners.map(|(x, y)| Point::new(x * 25.4, y * 25.4))).unwrap();
    let lid = TaperedLid {
        over,
        outset: inches("1/2"),
        rise: inches("2"),
        inset: ["3", "2", "2 1/2", "3", "2"].map(inches).to_vec(),
        skirt: inches("1 1/2"),
        return_width: None,
    };
    MadeUpLid {
        lid,
        seat: Seat::Proud,
        hinge: None,
        made: LidMade::OnePiece,
        notch: None,
        edge: EdgeEnd::Plain,
    }
}

/// Lines across five sides at many slants, with a flange to join the halves by.
#[test]
fn a_lid_of_five_sides_is_parted_on_slanted_lines() {
    let lines = [
        [("AB", "14"), ("CD", "9")],
        [("AB", "9"), ("CD", "11")],
        [("AB", "20"), ("DE", "11")],
        [("AB", "10"), ("CD", "6")],
        [("AB", "12"), ("DE", "9")],
        [("BC", "8"), ("EA", "8")],
        [("BC", "7"), ("DE", "12")],
        [("AB", "22"), ("CD", "15")],
        [("CD", "8"), ("EA", "7")],
    ];
    let making = making(".090", ".090", 0.42);
    let mut refused = Vec::new();
    for ends in lines {
        for flange in [None, Some("1")] {
            let lid = MadeUpLid { made: halves(ends, flange), ..five() };
            for piece in 0..2 {
                if let Err(why) = proven(&lid, piece, &making) {
                    refused.push(format!("{ends:?} {flange:?} half {}: {why}", piece + 1));
                }
            }
        }
    }
    assert_eq!(refused, Vec::<String>::new());
}
