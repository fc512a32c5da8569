//! Why nothing can be nested, or not on these sheets, in words.

use job::{Cutting, Job, Message};
use nest::{LeftOver, NestError, NoNest, Tried, Turns};
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
            misfits.iter().map(|misfit| misfit_message(file, job, metal, misfit).to_string()).collect(),
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

/// "`one_sheet[0]`: L1, L2: no nest with all their pieces on one sheet was found, as far as was looked".
fn together_message(file: &str, job: &Job, metal: usize, group: usize) -> String {
    let of_metal = |group: &job::OneSheet| group.parts.iter().all(|&part| job.parts[part].metal == metal);
    let own = job.one_sheet.iter().enumerate().filter(|(_, group)| of_metal(group)).nth(group);
    let number = own.map_or(0, |(number, _)| number);
    let parts = own.map_or(&[][..], |(_, group)| &group.parts);
    let marks: Vec<&str> = parts.iter().map(|&part| job.parts[part].mark.as_str()).collect();
    let shear = if matches!(job.shop.cutting, Cutting::Shear { .. }) {
        "; on a shear groups are laid on sheets of one size alone"
    } else {
        ""
    };
    format!(
        "{file}: one_sheet[{number}]: {}: no nest with all their pieces on one sheet was found, as far as was looked{shear}\n    take \
         some out of the group, let them turn, add a larger sheet, or raise its count",
        marks.join(", ")
    )
}

/// "fits no sheet: needs 142 × 14 at its lay; the largest trimmed sheet is 119 × 47".
fn misfit_message(file: &str, job: &Job, metal: usize, misfit: &nest::Misfit) -> Message {
    let need = needed(misfit, job.style);
    let (outlined, plain): (Vec<&Tried>, Vec<&Tried>) =
        misfit.sheets.iter().partition(|tried| tried.outline.is_some());
    let plain: Vec<String> = plain.into_iter().map(|tried| pair(tried.size, job.style)).collect();
    let plain =
        if plain.is_empty() { String::new() } else { format!(", trimmed sheets have {}", plain.join(", ")) };
    let outlined = outlined.into_iter().map(|tried| format!("; {}", outline_words(tried, job.style)));
    let outlined: String = outlined.collect();
    let half_only = misfit.needs.iter().all(|(turn, _, _)| turn.millidegrees().is_multiple_of(180_000));
    let lay = if half_only { " as its lay must run" } else { "" };
    Message {
        file: file.to_owned(),
        mark: Some(misfit.mark.clone()),
        field: "shape".to_owned(),
        value: need.clone(),
        wrong: format!("fits no sheet{lay}: its blank needs {need}{plain}{outlined}"),
        remedy: nearest(job, metal, misfit)
            + "split the part, add a larger sheet size, or lessen the edge trim",
    }
}

fn pair((x, y): (i64, i64), style: LengthStyle) -> String {
    format!("{} × {}", length_of(x).print(style), length_of(y).print(style))
}

/// "R1 of the rack, 24 × 24 over all, 6 corners, has no place for it in its outline: the largest rectangle found in its usable
/// metal is 23 1/2 × 7 1/2".
fn outline_words(tried: &Tried, style: LengthStyle) -> String {
    let largest = tried.outline.as_ref().and_then(|outline| outline.largest);
    let largest = largest.map_or_else(
        || "nothing of it is left inside its edge trim".to_owned(),
        |size| format!("the largest rectangle found in its usable metal is {}", pair(size, style)),
    );
    format!("{} has no place for it in its outline: {largest}", tried.name)
}

/// The nearest thing that would do on an offcut, ahead of what else there is: "with no edge trim it would fit …; else ".
fn nearest(job: &Job, metal: usize, misfit: &nest::Misfit) -> String {
    let outlined = || misfit.sheets.iter().filter_map(|tried| Some((tried, tried.outline.as_ref()?)));
    let turned = outlined().find_map(|(tried, outline)| {
        // What has a lay is not turned out of it.
        let turns = outline.fits_turned.as_ref().filter(|_| job.metals[metal].metal.lay.is_none())?;
        let words = match turns {
            Turns::Quarter => "if it may turn by quarters (turns: \"quarter\")",
            _ => "if it may lie at any angle (turns: \"any\")",
        };
        Some(format!("{words} it fits {}", tried.name))
    });
    let untrimmed = outlined()
        .find(|(_, outline)| outline.fits_untrimmed)
        .map(|(tried, _)| format!("with no edge trim it fits {}", tried.name));
    turned.or(untrimmed).map_or_else(String::new, |words| format!("{words}; else "))
}

/// What a part needs as it was drawn for the nest.
fn needed(misfit: &nest::Misfit, style: LengthStyle) -> String {
    misfit.needs.first().map_or_else(String::new, |&(_, x, y)| pair((x, y), style))
}

/// "too small for P, which needs 20 × 10: inside its edge trim it has 18 × 11".
fn misfit_words(job: &Job, metal: usize, misfits: &[nest::Misfit]) -> String {
    let style = job.style;
    let is_outlined = |misfit: &&nest::Misfit| misfit.sheets.iter().any(|tried| tried.outline.is_some());
    let (outlined, plain): (Vec<&nest::Misfit>, Vec<&nest::Misfit>) = misfits.iter().partition(is_outlined);
    let named = |misfits: &[&nest::Misfit]| -> String {
        let each =
            misfits.iter().map(|misfit| format!("{}, which needs {}", misfit.mark, needed(misfit, style)));
        each.collect::<Vec<_>>().join("; for ")
    };
    let sizes = |misfits: &[&nest::Misfit], size: fn(&Tried) -> Option<(i64, i64)>| -> String {
        let mut has: Vec<String> = Vec::new();
        for tried in misfits.iter().flat_map(|misfit| &misfit.sheets) {
            let size = size(tried).map_or_else(|| "nothing".to_owned(), |size| pair(size, style));
            if !has.contains(&size) {
                has.push(size);
            }
        }
        has.join(" or ")
    };
    let mut words = Vec::new();
    if !plain.is_empty() {
        let has = sizes(&plain, |tried| Some(tried.size));
        words.push(format!("too small for {}: inside its edge trim it has {has}", named(&plain)));
    }
    if let Some(first) = outlined.first() {
        let has = sizes(&outlined, |tried| {
            tried.outline.as_ref().map_or(Some(tried.size), |outline| outline.largest)
        });
        let near = nearest(job, metal, first);
        let near =
            near.strip_suffix("; else ").map_or_else(String::new, |near| format!("; {}: {near}", first.mark));
        words.push(format!(
            "no place in its outline for {}: the largest rectangle found in its usable metal is {has}{near}",
            named(&outlined)
        ));
    }
    words.join("; ")
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
    match no_nest {
        NoNest::Misfits(misfits) => misfit_words(&flats.job, metal, misfits),
        NoNest::SheetsRunOut(over) => {
            format!("not enough sheets: {}", left_over_words(over, metal, &flats.parts))
        }
        NoNest::NotSquare => "an offcut to be squared up before it is sheared".to_owned(),
        NoNest::TooManyTogether(_) => "too small for the parts kept together".to_owned(),
        NoNest::BeyondTheShear => "cannot be cut within the shear's limits".to_owned(),
    }
}
