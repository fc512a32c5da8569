//! Full-size patterns of a packet: one PDF a part.

use paper::packet::PaperSize;
use paper::packet::full_size::{self, Pattern};
use paper::pdf;

use super::drawings;
use super::folder::Files;
use crate::plan::{Plan, PlannedPart};
use crate::speech::Refusal;

/// Which parts are drawn in full size, as written on the command line, and on what.
#[derive(Debug, Clone)]
pub(crate) struct FullSize {
    /// Marks, or "all" alone.
    pub(crate) marks: Vec<String>,
    /// The paper.
    pub(crate) paper: PaperSize,
}

/// Adds `full-size/MARK.pdf` for every part that is asked for.
///
/// # Errors
/// Unknown marks, and patterns that take too many leaves: all of them at once.
pub(super) fn add(files: &mut Files, plan: &Plan, asked: &FullSize, edition: &str) -> Result<(), Refusal> {
    let flats = &plan.flats;
    let mut wrong = Vec::new();
    for part in meant(plan, asked)? {
        let metal = &flats.job.metals[part.part.metal];
        let (title, face) = (drawings::title(flats, part), part.face_words(metal));
        let pattern = Pattern {
            job: &flats.job.name,
            edition,
            mark: &part.part.mark,
            title: &title,
            face: &face,
            flat: &part.flat,
            style: flats.job.style,
        };
        let lines = full_size::drawing(&pattern);
        match full_size::leaves(&pattern, &lines, asked.paper) {
            Ok(leaves) => {
                let bytes = pdf::write(&lines.title, &leaves)
                    .map_err(|error| Refusal::bad(format!("{}: {error}", flats.file)))?;
                files.add(format!("full-size/{}.pdf", part.part.mark), bytes);
            }
            Err(error) => wrong.push(format!(
                "{}: {}: --full-size: {error}\n    {}",
                flats.file,
                part.part.mark,
                remedy(&pattern)
            )),
        }
    }
    if wrong.is_empty() { Ok(()) } else { Err(Refusal::BadInput(wrong)) }
}

/// What to do about too many leaves: larger paper where that is enough.
fn remedy(pattern: &Pattern<'_>) -> String {
    let most = full_size::MOST_LEAVES;
    let larger = [("11x17", PaperSize::Tabloid), ("a3", PaperSize::A3)];
    let enough = larger.into_iter().map(|(name, paper)| (name, full_size::count(pattern, paper)));
    let enough: Vec<String> = enough
        .filter(|(_, leaves)| *leaves <= most)
        .map(|(name, leaves)| format!("--full-size-paper {name} ({leaves} leaves)"))
        .collect();
    if enough.is_empty() {
        "lay it out on the metal by the running dimensions of its layout sheet; name other marks for full size".to_owned()
    } else {
        format!("take {}, or lay it out by its layout sheet and name other marks", enough.join(" or "))
    }
}

fn meant<'a>(plan: &'a Plan, asked: &FullSize) -> Result<Vec<&'a PlannedPart>, Refusal> {
    let parts = &plan.flats.parts;
    if asked.marks.iter().any(|mark| mark == "all") {
        return Ok(parts.iter().collect());
    }
    let of = |mark: &str| {
        parts
            .iter()
            .filter(|part| part.part.mark == mark || part.part.written_mark() == mark)
            .collect::<Vec<_>>()
    };
    let unknown: Vec<String> = asked
        .marks
        .iter()
        .filter(|mark| of(mark).is_empty())
        .map(|mark| {
            let known: Vec<&str> = parts.iter().map(|part| part.part.mark.as_str()).collect();
            format!(
                "{}: --full-size: {mark}: no part has this mark\n    name one or more of {}, or all",
                plan.flats.file,
                known.join(", ")
            )
        })
        .collect();
    if !unknown.is_empty() {
        return Err(Refusal::BadInput(unknown));
    }
    Ok(asked.marks.iter().flat_map(|mark| of(mark)).collect())
}
