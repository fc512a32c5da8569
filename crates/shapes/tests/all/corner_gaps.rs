//! A gap asked for at a corner, or at one seam of it: mitred plates have it too, and wherever a bend beside a seam comes nearer than
//! that, it is told.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use crate::common::{inches, making, sixteenths};
use crate::seams::openings;
use fold::refold::{self, SeamGap};
use geometry::tolerance;
use proptest::prelude::*;
use shapes::edge::EdgeEnd;
use shapes::gutter::Gutter;
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::tapered_lid::TaperedLid;
use shapes::{Chosen, CornerStyle, Making, Recipe, Shaped};
use std::cell::Cell;
use units::{Angle, Length};

fn gap(words: &str) -> CornerStyle {
    CornerStyle::Gap { gap: inches(words) }
}

fn at(name: &str, style: CornerStyle) -> CornerStyle {
    CornerStyle::ByName { named: vec![(name.to_owned(), style)], others: Box::new(CornerStyle::Open) }
}

fn with(corner: CornerStyle) -> Making {
    Making { corner, ..making(".125", ".125", 0.42) }
}

fn seams(shaped: &Shaped) -> Vec<SeamGap> {
    refold::prove(&shaped.part, &shaped.unfold().unwrap()).unwrap().seams
}

fn pan() -> Pan {
    Pan {
        plan: PanPlan::Outside { length: inches("20"), width: inches("14") },
        height: inches("5"),
        rims: vec![Rim::Out(inches("1"))],
        lean: [10.0, 25.0, 12.0, 0.0].map(Angle::from_degrees).to_vec(),
        edge: EdgeEnd::Plain,
    }
}

#[test]
fn the_mitres_of_a_rim_have_the_gap_of_their_corner() {
    let eighth = inches("1/8").millimetres();
    let is_off = |seam: &SeamGap, gap_mm: f64| {
        gap_mm.max(seam.least_mm) - gap_mm.min(seam.largest_mm) > tolerance::REFOLD_MM
    };
    let all = seams(&pan().shape(&with(gap("1/8"))).unwrap());
    assert_eq!(all.len(), 8);
    assert!(all.iter().all(|seam| !is_off(seam, eighth)), "{all:?}");
    let one = seams(&pan().shape(&with(at("B", gap("1/8")))).unwrap());
    let wide = |seams: &[SeamGap]| -> Vec<String> {
        seams.iter().filter(|seam| !is_off(seam, eighth)).map(|seam| seam.name.clone()).collect()
    };
    assert_eq!(wide(&one), ["wall at corner B", "rim at corner B"]);
    let one = seams(&pan().shape(&with(at("rim at corner B", gap("1/8")))).unwrap());
    assert_eq!(wide(&one), ["rim at corner B"]);
    assert!(one.iter().all(|seam| seam.name == "rim at corner B" || !is_off(seam, 0.0)), "{one:?}");
}

#[test]
fn plates_in_one_plane_cannot_be_butted_by_name() {
    let butt = CornerStyle::Butt { through: Chosen::LongSides };
    let problems = pan().shape(&with(at("rim at corner B", butt.clone()))).unwrap_err();
    assert_eq!(problems.len(), 1, "{problems:?}");
    assert_eq!(problems[0].field, "corner.at.rim at corner B");
    assert!(problems[0].wrong.contains("lie in one plane"), "{problems:?}");
    // Named by the corner alone, the walls are butted and the rim stays mitred.
    assert_eq!(seams(&pan().shape(&with(at("B", butt))).unwrap()).len(), 8);
}

#[test]
fn the_bottoms_of_a_gutter_have_the_gap_of_their_corner() {
    let opening = pan_opening();
    let gutter = Gutter {
        opening,
        outset: Length::ZERO,
        width: inches("2"),
        depth: inches("1 1/2"),
        inner_depth: inches("1"),
        drain: None,
    };
    for (corner, wide) in
        [(gap("1/8"), 4), (at("B", gap("1/8")), 1), (at("bottom at corner B", gap("1/8")), 1)]
    {
        let mut found = 0;
        for piece in 0..gutter.pieces().len() {
            let shaped = gutter.shape_piece(piece, &with(corner.clone())).unwrap();
            let bottoms = shaped.facts.iter().filter(|fact| fact.name.contains("bottom at corner"));
            for gap in bottoms.filter_map(|fact| fact.gap.as_ref()) {
                let is_wide = gap.designed_mm > 1.0;
                found += u32::from(is_wide);
                let asked = if is_wide { inches("1/8").millimetres() } else { 0.0 };
                assert!((gap.least_mm - asked).abs() < tolerance::REFOLD_MM, "{gap:?}");
                assert!((gap.largest_mm - asked).abs() < tolerance::REFOLD_MM, "{gap:?}");
            }
        }
        // Each mitre is told on both its pieces.
        assert_eq!(found, 2 * wide, "{corner:?}");
    }
}

fn pan_opening() -> shapes::Figure {
    let corners = [(0.0, 0.0), (30.0, 0.0), (30.0, 20.0), (0.0, 20.0)];
    let corners = corners.map(|(x, y)| geometry::Point::new(x * 25.4, y * 25.4));
    shapes::Figure::lettered(&corners).unwrap()
}

/// Bends are cut to their own side of the plane that parts a seam, each half the gap off it: none beside a seam comes nearer to the
/// other side than the gap, but where that is told.
#[test]
fn a_gap_asked_is_the_least_anywhere_or_told_where_it_is_not() {
    let insets = prop::collection::vec(sixteenths(0..80), 8);
    let sheet = prop::sample::select(vec![(".063", ".063"), (".125", ".125"), (".125", ".25")]);
    let gaps = prop::sample::select(vec!["1/16", "1/8", "3/16"]);
    let lids = (openings(), insets, sixteenths(16..80), sixteenths(12..30), sheet, gaps);
    let (near, all) = (Cell::new(0_u32), Cell::new(0_u32));
    let mut runner = crate::seams::runner();
    let run = runner.run(&lids, |(over, mut inset, rise, skirt, (thickness, radius), gap_words)| {
        inset.truncate(over.count());
        let lid =
            TaperedLid { over, outset: inches("1/4"), rise, inset, skirt, return_width: Some(inches("3/4")) };
        let made = Making { corner: gap(gap_words), ..making(thickness, radius, 0.42) };
        let Ok(shaped) = lid.shape(&made) else { return Ok(()) };
        let Ok(flat) = shaped.unfold() else { return Ok(()) };
        let Ok(proof) = refold::prove(&shaped.part, &flat) else { return Ok(()) };
        for seam in proof.seams {
            all.set(all.get() + 1);
            near.set(near.get() + u32::from(seam.near_bend.is_some()));
            let cut_mm = seam.at_cut_off_mm.unwrap_or(f64::INFINITY);
            let asked_mm = inches(gap_words).millimetres();
            prop_assert!(asked_mm - tolerance::REFOLD_MM <= cut_mm, "{:?}", seam);
        }
        Ok(())
    });
    run.unwrap();
    assert!(500 < all.get() && 200 * near.get() <= all.get(), "{} of {}", near.get(), all.get());
}
