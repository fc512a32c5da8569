//! Labels for every part and every kept drop of a plan.

use job::FaceState;
use paper::packet::{DrawnPart, PieceLabel, copy_words};
use paper::sheet_map::drop_mark;
use units::Length;

use super::edition::label_head;
use super::rack_faces::face_words;
use super::words::{named_metal_words, turns_words};
use super::{drawings, hands};
use crate::plan::{Plan, PlannedPart, PlannedSheet, drop_words};
use crate::speech::counted;

/// One label a piece: parts in the job's order, then the drops of every sheet.
pub(super) fn labels(plan: &Plan, drawn: &[DrawnPart]) -> Vec<PieceLabel> {
    let parts = plan.flats.parts.iter().zip(drawn).flat_map(|(part, drawn)| {
        let words = part_words(plan, part, !drawn.bend_cards.is_empty());
        (1..=part.part.quantity).map(move |copy| {
            let mut words = words.clone();
            if turned_over(plan, &part.part.mark, copy) {
                words.push("cut TURNED OVER: this face was down on the sheet".to_owned());
            }
            let copy = copy_words(copy, part.part.quantity);
            PieceLabel { mark: format!("{}{copy}", part.part.mark), words }
        })
    });
    let sheets = plan.nests.iter().flat_map(|nest| nest.sheets.iter().map(move |sheet| (nest.metal, sheet)));
    parts.chain(sheets.flat_map(|(metal, sheet)| drop_labels(plan, metal, sheet))).collect()
}

/// Whether a copy of a part lies on its sheet with its marked face down.
fn turned_over(plan: &Plan, mark: &str, copy: u32) -> bool {
    let mut pieces = plan.nests.iter().flat_map(|nest| &nest.sheets).flat_map(|sheet| &sheet.pieces);
    pieces
        .any(|piece| piece.place.over && piece.copy == copy && plan.flats.parts[piece.part].part.mark == mark)
}

fn part_words(plan: &Plan, part: &PlannedPart, has_card: bool) -> Vec<String> {
    let job = &plan.flats.job;
    let metal = &job.metals[part.part.metal];
    let mut words = label_head(job);
    match hands::mirrored_words(&plan.flats, part) {
        Some(other) if !hands::is_one_piece_for_both(&plan.flats, part) => {
            words.push(format!("OPPOSITE HAND of {other}"));
        }
        _ => words.extend(hands::on_a_label(&plan.flats, part)),
    }
    let print = |millimetres: f64| Length::from_millimetres(millimetres).print(job.style);
    let (length, width) = part.flat.extents_mm();
    let blank = format!("blank {} × {}", print(length), print(width));
    words.extend([named_metal_words(job, metal), blank, part.face_words(metal)]);
    if metal.metal.lay.is_some() {
        let way = if part.lay_across() { "up and down" } else { "left to right" };
        words.push(format!("lay runs {way} on the layout sheet"));
    }
    if let Some(turns) = &part.part.turns {
        words.push(format!("lies on the sheet by {}", turns_words(turns)));
    }
    let bends = match part.flat.bends.len() {
        0 if drawings::is_strip(&plan.flats, part) => "bend it across its middle before any part".to_owned(),
        0 => "flat, no bends".to_owned(),
        count => counted(count, "bend"),
    };
    let is_bent = !part.flat.bends.is_empty();
    let card = match (has_card, is_bent && part.bend_order.is_some()) {
        (true, _) => format!(": see bend card {}", part.part.mark),
        (false, true) => ": NO BEND CARD, work out the order first".to_owned(),
        (false, false) => String::new(),
    };
    words.push(bends + &card);
    words
}

fn drop_labels(plan: &Plan, metal: usize, sheet: &PlannedSheet) -> Vec<PieceLabel> {
    let job = &plan.flats.job;
    let metal = &job.metals[metal];
    let drops = sheet.laid.drops.iter().enumerate();
    drops
        .map(|(number, drop)| {
            let mut words = label_head(job);
            words.extend([
                named_metal_words(job, metal),
                format!("{}; measure before use", drop_words(job, drop)),
            ]);
            if metal.metal.lay.is_some() {
                words.push("lay runs along the first size".to_owned());
            }
            words.push(format!("face {}", face_words(sheet.laid.face.unwrap_or(FaceState::Unknown))));
            PieceLabel { mark: format!("{} {}", sheet.mark, drop_mark(number)), words }
        })
        .collect()
}
