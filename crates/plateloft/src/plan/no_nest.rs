//! Why nothing can be nested, or not on these sheets, in words.

use job::{Cutting, Job, Message};
use nest::{LeftOver, NestError, NoNest};
use units::LengthStyle;

use super::Flats;
use super::grid::length_of;
use super::part::PlannedPart;
use crate::speech::{Refusal, listed};

/// A nest that cannot be made, as messages about the job.
pub(super) fn nest_refusal(
    file: &str,
    job: &Job,
    (metal, parts): (usize, &[PlannedPart]),
    error: &NestError,
) -> Refusal {
    let name = &job.metals[metal].metal.name;
    match error {
        NestError::FitsNoSheet(misfits) => Refusal::BadInput(
            misfits.iter().map(|misfit| misfit_message(file, job, misfit).to_string()).collect(),
        ),
        NestError::BeyondTheShear => Refusal::BadInput(vec![format!(
            "{file}: shop: cutting: the blanks of {name} cannot be sheared from the sheets given within the shear's \
             limits\n    raise longest_cut, rounds or the count of sheets, add a size, or cut \"by hand\""
        )]),
        NestError::TooManyTogether(group) => {
            Refusal::BadInput(vec![together_message(file, job, metal, *group)])
        }
        NestError::SheetsRunOut(over) => {
            let over = left_over_words(over, metal, parts);
            let by_hand = match job.shop.cutting {
                Cutting::Shear { .. } => ", or cut \"by hand\"",
                Cutting::ByHand => "",
            };
            Refusal::BadInput(vec![format!(
                "{file}: sheets: count: the parts of {name} need more sheets than there are: {over}, as far as was \
                 looked\n    raise the count of a size of {name}, or add a size{by_hand}"
            )])
        }
        NestError::Unsound(_) | NestError::UnsoundBlanks(_) => {
            Refusal::ProofFailed(format!("{file}: {error}"))
        }
    }
}

/// "`one_sheet[0]`: L1, L2: all their pieces did not fit one sheet together".
fn together_message(file: &str, job: &Job, metal: usize, group: usize) -> String {
    let of_metal = |group: &job::OneSheet| group.parts.iter().all(|&part| job.parts[part].metal == metal);
    let own = job.one_sheet.iter().enumerate().filter(|(_, group)| of_metal(group)).nth(group);
    let number = own.map_or(0, |(number, _)| number);
    let parts = own.map_or(&[][..], |(_, group)| &group.parts);
    let marks: Vec<&str> = parts.iter().map(|&part| job.parts[part].mark.as_str()).collect();
    format!(
        "{file}: one_sheet[{number}]: {}: all their pieces did not fit one sheet together\n    take some out of the \
         group, let them turn, or add a larger sheet",
        marks.join(", ")
    )
}

/// "fits no sheet: needs 142 × 14 at its lay; the largest trimmed sheet is 119 × 47".
fn misfit_message(file: &str, job: &Job, misfit: &nest::Misfit) -> Message {
    let need = needed(misfit, job.style);
    let sheets: Vec<String> = misfit.sheets.iter().map(|&(_, x, y)| pair(x, y, job.style)).collect();
    let half_only = misfit.needs.iter().all(|(turn, _, _)| turn.millidegrees().is_multiple_of(180_000));
    let lay = if half_only { " as its lay must run" } else { "" };
    Message {
        file: file.to_owned(),
        mark: Some(misfit.mark.clone()),
        field: "shape".to_owned(),
        value: need.clone(),
        wrong: format!(
            "fits no sheet{lay}: its blank needs {need}, trimmed sheets have {}",
            sheets.join(", ")
        ),
        remedy: "split the part, add a larger sheet size, or lessen the edge trim".to_owned(),
    }
}

fn pair(x: i64, y: i64, style: LengthStyle) -> String {
    format!("{} × {}", length_of(x).print(style), length_of(y).print(style))
}

/// What a part needs as it was drawn for the nest.
fn needed(misfit: &nest::Misfit, style: LengthStyle) -> String {
    misfit.needs.first().map_or_else(String::new, |&(_, x, y)| pair(x, y, style))
}

/// "too small for P, which needs 20 × 10: inside its edge trim it has 18 × 11".
fn misfit_words(misfits: &[nest::Misfit], style: LengthStyle) -> String {
    let named: Vec<String> = misfits
        .iter()
        .map(|misfit| format!("{}, which needs {}", misfit.mark, needed(misfit, style)))
        .collect();
    let mut has: Vec<String> = Vec::new();
    for &(_, x, y) in misfits.iter().flat_map(|misfit| &misfit.sheets) {
        let size = pair(x, y, style);
        if !has.contains(&size) {
            has.push(size);
        }
    }
    format!("too small for {}: inside its edge trim it has {}", named.join("; for "), has.join(" or "))
}

/// "2 of L1 and 1 of T are left over".
fn left_over_words(over: &[LeftOver], metal: usize, parts: &[PlannedPart]) -> String {
    let marks: Vec<&str> =
        parts.iter().filter(|part| part.part.metal == metal).map(|part| part.part.mark.as_str()).collect();
    let words: Vec<String> =
        over.iter().map(|over| format!("{} of {}", over.count, marks[over.part])).collect();
    let are = if let [LeftOver { count: 1, .. }] = over { "is" } else { "are" };
    format!("{} {are} left over", listed(&words))
}

/// Why a choice of sheets of a metal holds no nest, in words.
pub(crate) fn no_nest_words(flats: &Flats, metal: usize, no_nest: &NoNest) -> String {
    let style = flats.job.style;
    match no_nest {
        NoNest::Misfits(misfits) => misfit_words(misfits, style),
        NoNest::SheetsRunOut(over) => {
            format!("not enough sheets: {}", left_over_words(over, metal, &flats.parts))
        }
        NoNest::NotSquare => "an offcut to be squared up before it is sheared".to_owned(),
        NoNest::TooManyTogether(_) => "too small for the parts kept together".to_owned(),
        NoNest::BeyondTheShear => "cannot be cut within the shear's limits".to_owned(),
    }
}
