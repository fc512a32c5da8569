//! Offcuts of the rack offered to a job, beside the sheets that can be bought.
//!
//! An offcut costs nothing to buy, so where the sheets have prices the nest takes it first, also where just as much is bought
//! without it. Only what suits the metal in
//! every respect is offered, and whatever is left out is told.

use std::cmp::Reverse;

use job::{Cutting, Job, JobMetal, JobSheet, Offcut, OffcutLay, Rack, SheetOutline, Wanted, suits};
use stock::Lay;
use units::{LengthStyle, Money};

use crate::plan::finer;

/// How many offcuts are tried for one metal; each is a row of the comparison of its own, and a mix may take of them all.
const MOST: usize = 24;

/// Offers the offcuts that suit, and tells what became of those that nearly did.
pub(crate) fn offer(job: &mut Job, rack: &Rack) -> Vec<String> {
    let mut told = Vec::new();
    for metal in 0..job.metals.len() {
        if job.parts.iter().any(|part| part.metal == metal) {
            offer_metal(job, metal, rack, &mut told);
        }
    }
    told
}

fn offer_metal(job: &mut Job, metal: usize, rack: &Rack, told: &mut Vec<String>) {
    let JobMetal { metal: of, face_shows, .. } = &job.metals[metal];
    let wanted = Wanted { metal: of, face_shows: *face_shows, job: &job.name };
    let name = wanted.metal.name.clone();
    let mut suited: Vec<&Offcut> =
        rack.offcuts.iter().filter(|offcut| suits(offcut, &wanted).is_empty()).collect();
    suited.sort_by_key(|offcut| Reverse(offcut.area()));
    let trimmed = job.shop.edge_trim + job.shop.edge_trim;
    let (mut offered, mut untried) = (Vec::new(), Vec::new());
    for offcut in suited {
        let [x, y] = offcut.extents();
        if !offcut.is_rectangle() && matches!(job.shop.cutting, Cutting::Shear { .. }) {
            told.push(format!(
                "{name}: {} suits, but is no sound rectangle: square it up before it is sheared",
                offcut.mark
            ));
        } else if x.min(y) <= trimmed {
            told.push(format!("{name}: {} suits, but nothing is left inside the edge trim", offcut.mark));
        } else if MOST <= offered.len() {
            untried.push(offcut.mark.as_str());
        } else {
            told.extend(thickness_words(&name, offcut, job, metal));
            told.extend(turned_words(&name, offcut));
            offered.push(row(offcut, job, metal));
        }
    }
    if !untried.is_empty() {
        told.push(format!(
            "{name}: {} of the rack suit, and the {MOST} largest are tried. Not tried: {}. That no mix has a lower price or a \
             smaller area is said of the sheets and offcuts that are tried",
            MOST + untried.len(),
            untried.join(", ")
        ));
    }
    let unpriced = job.sheets.iter().any(|sheet| sheet.metal == metal && sheet.price.is_none());
    if unpriced && !offered.is_empty() {
        told.push(format!("{name}: a sheet has no price, so the least area decides, of the rack or bought"));
    }
    job.sheets.extend(offered);
}

fn row(offcut: &Offcut, job: &Job, metal: usize) -> JobSheet {
    let [x, y] = offcut.extents();
    let outline = (!offcut.is_rectangle()).then(|| SheetOutline::of(offcut));
    let (along, across) = if offcut.lay == OffcutLay::AlongY { (y, x) } else { (x, y) };
    let (width, length) = match (&outline, job.metals[metal].metal.lay) {
        // A sheet has its lay along its length or its width, as the metal's does.
        (None, Some(Lay::LongSide)) => (across, along),
        (None, Some(Lay::ShortSide)) => (along, across),
        // An offcut of any outline has its lay along x; its sizes are those of the rectangle around it.
        (Some(_), _) | (None, None) => (x.min(y), x.max(y)),
    };
    let priced = job.sheets.iter().filter(|sheet| sheet.metal == metal).all(|sheet| sheet.price.is_some());
    JobSheet {
        metal,
        width,
        length,
        price: priced.then_some(Money::ZERO),
        supplier_cuts: 0,
        count: Some(1),
        notes: Vec::new(),
        from_table: false,
        from_rack: Some(offcut.mark.clone()),
        face: Some(offcut.face),
        received: None,
        thickness: None,
        outline,
    }
}

/// A word where an outline is not laid as it was measured.
fn turned_words(name: &str, offcut: &Offcut) -> Option<String> {
    (offcut.lay == OffcutLay::AlongY && !offcut.is_rectangle()).then(|| {
        format!(
            "{name}: {} is laid a quarter turn to the right of how it was measured, its lay along the bench",
            offcut.mark
        )
    })
}

/// A word where the piece is not as thick as the flats were worked for, or nobody knows.
fn thickness_words(name: &str, offcut: &Offcut, job: &Job, metal: usize) -> Option<String> {
    let style: LengthStyle = finer(job.style);
    let (is, worked) = (offcut.thickness, job.metals[metal].metal.thickness);
    if !offcut.measured {
        return Some(format!(
            "{name}: {} is not measured: put the caliper on it before cutting",
            offcut.mark
        ));
    }
    (is != worked).then(|| {
        format!(
            "{name}: {} measures {}, and the flats are worked for {}",
            offcut.mark,
            is.print(style),
            worked.print(style)
        )
    })
}
