//! Outlines that a hand can cut: no step finer than a quarter of a millimetre where bend zones are cut clear of seams, but for a
//! few beside drilled holes, and the
//! part still refolds.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use std::cell::Cell;

use crate::common::{inches, sixteenths};
use fold::part::Relief;
use fold::refold::{self, RefoldError};
use fold::{FlatPattern, FoldedPart};
use geometry::{Point, Segment};
use proptest::prelude::*;
use proptest::test_runner::TestRunner;
use shapes::tapered_lid::TaperedLid;

/// What a hand does not cut, mm.
const STEP_MM: f64 = 0.25;

/// Straight edges of the outline shorter than that; the rims of drilled holes are as the drill leaves them.
fn short_edges(flat: &FlatPattern) -> Vec<(Point, Point)> {
    let pieces = flat.outline.outer.pieces();
    let short = pieces.filter_map(|(from, segment)| match segment {
        Segment::Line { to } => (from.distance(to) < STEP_MM).then_some((from, to)),
        Segment::Arc { .. } => None,
    });
    short.collect()
}

/// A part is looked at where it comes out of one flat and does not run into itself. With sawn reliefs there is no short edge at all.
fn look(part: &FoldedPart, tally: &Cell<[u32; 3]>) -> Result<(), TestCaseError> {
    let Ok(flat) = fold::flat::unfold(part) else { return Err(TestCaseError::reject("of no one flat")) };
    match refold::prove(part, &flat) {
        Ok(_) => {}
        Err(RefoldError::RunsInto { .. }) => return Err(TestCaseError::reject("runs into itself")),
        Err(error) => return Err(TestCaseError::fail(error.to_string())),
    }
    let short = short_edges(&flat);
    let sawn = part.relief == Relief::Square;
    prop_assert!(!sawn || short.is_empty(), "{short:?} {:?}", part.seams.first().map(|seam| seam.style));
    let cut_off = flat.seams.iter().any(|seam| !seam.cut_off.is_empty());
    let [looked_at, with_cuts, with_short] = tally.get();
    tally.set([looked_at + 1, with_cuts + u32::from(cut_off), with_short + u32::from(!short.is_empty())]);
    Ok(())
}

fn run<T: std::fmt::Debug>(strategy: impl Strategy<Value = T>, part: impl Fn(T) -> Option<FoldedPart>) {
    let config = ProptestConfig {
        cases: 120,
        failure_persistence: None,
        max_global_rejects: 4000,
        ..ProptestConfig::default()
    };
    let tally = Cell::default();
    TestRunner::new(config)
        .run(&strategy, |value| {
            look(&part(value).ok_or_else(|| TestCaseError::reject("no such part"))?, &tally)
        })
        .unwrap();
    let [looked_at, with_cuts, with_short] = tally.get();
    // A nick of two strokes in the rim of a drilled hole or a tear-drop may be left, in 3 of 720 parts with this seed and in 3 of 120
    // lids with others; before any were cut off there were 53 in 240.
    assert!(40 * with_short <= looked_at, "{with_short} of {looked_at} still have edges too short to cut");
    assert!(
        5 < with_cuts,
        "corners of only {with_cuts} of {looked_at} were cut off: this test shows nothing"
    );
}

#[test]
fn lids_have_no_steps_too_fine_to_cut() {
    let insets = prop::collection::vec(sixteenths(16..80), 8);
    let sizes = (sixteenths(16..80), prop::option::of(sixteenths(16..40)));
    let strategy = (crate::round_corners::makings(), crate::seams::openings(), sizes, insets);
    run(strategy, |(making, over, (rise, return_width), mut inset)| {
        inset.truncate(over.count());
        let lid = TaperedLid { over, outset: inches("1/4"), rise, inset, skirt: inches("2"), return_width };
        Some(lid.shape(&making).ok()?.part)
    });
}

#[test]
fn pans_have_no_steps_too_fine_to_cut() {
    run(crate::round_corners::leaning_pan(), |(making, pan)| Some(pan.shape(&making).ok()?.part));
}
