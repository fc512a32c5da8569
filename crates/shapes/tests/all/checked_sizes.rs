//! Sizes of pans and lids that a checker takes beside plan and height: rims, skirts, rise. Each is measured on the refolded
//! flat, so that a size that does not come out stops the part.

#![allow(clippy::unwrap_used, reason = "a test may stop at a part that cannot be made")]

use crate::common::{inches, making};
use fold::refold::{self, ProvenSize};
use shapes::edge::EdgeEnd;
use shapes::lid::{Lid, LidPlan};
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::tapered_lid::TaperedLid;
use shapes::{Figure, Shaped};
use units::{Angle, Length};

fn proven(shaped: &Shaped) -> Vec<ProvenSize> {
    refold::prove(&shaped.part, &shaped.unfold().unwrap()).unwrap().sizes
}

/// Every size whose name begins so, in inches.
fn sized(sizes: &[ProvenSize], name: &str) -> Vec<f64> {
    let own = sizes.iter().filter(|size| size.name.starts_with(name));
    own.map(|size| size.measured_mm / 25.4).collect()
}

fn assert_all(found: &[f64], count: usize, expected: f64) {
    assert_eq!(found.len(), count, "{found:?}");
    assert!(found.iter().all(|size| (size - expected).abs() < 0.0005), "{found:?} for {expected}");
}

fn pan(lean: &[f64], rim: Rim) -> Shaped {
    let pan = Pan {
        plan: PanPlan::Outside { length: inches("20"), width: inches("14") },
        height: inches("4"),
        rims: vec![rim],
        lean: lean.iter().map(|degrees| Angle::from_degrees(*degrees)).collect(),
        edge: EdgeEnd::Plain,
    };
    pan.shape(&making(".125", ".125", 0.42)).unwrap()
}

#[test]
fn the_rim_of_a_pan_is_as_wide_as_asked() {
    for rim in [Rim::Out(inches("3/4")), Rim::In(inches("3/4"))] {
        assert_all(&sized(&proven(&pan(&[], rim)), "width of rim "), 4, 0.75);
        // By hand: .75·cos 20° = .70477; a plumb wall beside it keeps its own.
        let leaning = proven(&pan(&[20.0, 0.0, 20.0, 0.0], rim));
        assert_all(&sized(&leaning, "width of rim "), 2, 0.75);
        let square: Vec<f64> = leaning
            .iter()
            .filter(|size| size.name.contains("square to the outside of its wall"))
            .map(|size| size.measured_mm / 25.4)
            .collect();
        assert_all(&square, 2, 0.704_77);
    }
    assert!(sized(&proven(&pan(&[], Rim::None)), "width of rim ").is_empty());
}

fn tapered(return_width: Option<Length>) -> Shaped {
    let lid = TaperedLid {
        over: Figure::rectangle(inches("30").millimetres(), inches("24").millimetres()).unwrap(),
        outset: inches("1"),
        rise: inches("2"),
        inset: ["3", "4", "2", "5"].map(inches).to_vec(),
        skirt: inches("1 1/8"),
        return_width,
    };
    lid.shape(&making(".125", ".125", 0.42)).unwrap()
}

#[test]
fn a_tapered_lid_has_its_rise_and_the_depth_of_its_skirts() {
    for return_width in [None, Some(inches("3/4"))] {
        let sizes = proven(&tapered(return_width));
        assert_all(&sized(&sizes, "rise of the top over rim "), 4, 2.0);
        assert_all(&sized(&sizes, "depth of skirt "), 4, 1.125);
    }
}

#[test]
fn a_flanged_lid_has_the_depth_of_its_skirts() {
    let plan = || LidPlan::Outside { length: inches("20"), width: inches("10") };
    let shaped = |edge| Lid { plan: plan(), skirt: inches("2"), edge }.shape(&making(".090", ".090", 0.42));
    assert_all(&sized(&proven(&shaped(EdgeEnd::Plain).unwrap()), "depth of skirt "), 4, 2.0);
}
