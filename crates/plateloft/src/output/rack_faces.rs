//! What is known of the faces of pieces of the rack, told to whoever cuts parts from them.

use job::FaceState;

use crate::plan::{Plan, PlannedSheet};
use crate::speech::listed;

/// "scratched".
pub(crate) const fn face_words(face: FaceState) -> &'static str {
    match face {
        FaceState::Good => "good",
        FaceState::Scratched => "scratched",
        FaceState::Unknown => "not inspected",
    }
}

/// "scratched; P and Q are cut from it", for a piece of the rack whose face is not known to be good.
pub(crate) fn face_and_parts(plan: &Plan, sheet: &PlannedSheet) -> Option<String> {
    let face = sheet.laid.face.filter(|face| *face != FaceState::Good)?;
    let mut marks: Vec<String> = Vec::new();
    for piece in &sheet.pieces {
        let mark = &plan.flats.parts[piece.part].part.mark;
        if !marks.contains(mark) {
            marks.push(mark.clone());
        }
    }
    let are = if marks.len() == 1 { "is" } else { "are" };
    Some(format!("{}; {} {are} cut from it", face_words(face), listed(&marks)))
}

/// A sentence for every such piece that is cut up.
pub(crate) fn face_sentences(plan: &Plan) -> Vec<String> {
    let sheets = plan.nests.iter().flat_map(|nest| &nest.sheets);
    let sentence = |sheet: &PlannedSheet| {
        let mark = sheet.laid.from_rack.as_ref()?;
        Some(format!("{mark} of the rack: its face is {}", face_and_parts(plan, sheet)?))
    };
    sheets.filter_map(sentence).collect()
}
