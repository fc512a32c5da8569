//! What changes in the flats when the sheets are not as thick as they were ordered.

use job::Job;
use units::{Length, LengthUnit, Mass};

use crate::plan::{Flats, PlannedPart, caliper};

/// What changes from the sheets as ordered to the sheets as received.
#[derive(Debug, Clone)]
pub(crate) struct Changes {
    /// Every part, in the order of the job.
    pub(crate) parts: Vec<PartChange>,
    /// Marks that are only made of one of the two.
    pub(crate) other_marks: Vec<String>,
    /// From how much a blank is said to move: half of the tape's division.
    pub(crate) limit: Length,
    /// Weight of all parts, as ordered and as received.
    pub(crate) weight: [Mass; 2],
}

/// What changes in one part.
#[derive(Debug, Clone)]
pub(crate) struct PartChange {
    /// The mark.
    pub(crate) mark: String,
    /// The blank as ordered.
    pub(crate) ordered: [Length; 2],
    /// The blank as received.
    pub(crate) received: [Length; 2],
    /// Weight of one, as ordered and as received.
    pub(crate) weight: [Mass; 2],
    /// How far the blank for the thinnest sheet is from that for the thickest, at most.
    pub(crate) between_sheets: Length,
}

impl PartChange {
    /// The larger of the two moves.
    pub(crate) fn moves(&self) -> Length {
        let move_of = |axis: usize| (self.received[axis] - self.ordered[axis]).abs();
        move_of(0).max(move_of(1))
    }
}

/// Compares flats for the sheets ordered, for the thickest received and for the thinnest.
pub(crate) fn changes(ordered: &Flats, thickest: &Flats, thinnest: &Flats) -> Changes {
    let mut parts = Vec::new();
    let mut other_marks = Vec::new();
    let find = |flats: &'_ Flats, mark: &str| flats.parts.iter().position(|part| part.part.mark == mark);
    for part in &ordered.parts {
        let mark = &part.part.mark;
        let (Some(thick), Some(thin)) = (find(thickest, mark), find(thinnest, mark)) else {
            other_marks.push(mark.clone());
            continue;
        };
        let (thick, thin) = (&thickest.parts[thick], &thinnest.parts[thin]);
        let [a, b] = [blank(thick), blank(thin)];
        parts.push(PartChange {
            mark: mark.clone(),
            ordered: blank(part),
            received: a,
            weight: [part.weight, thick.weight],
            between_sheets: (a[0] - b[0]).abs().max((a[1] - b[1]).abs()),
        });
    }
    let new = thickest.parts.iter().map(|part| &part.part.mark);
    other_marks.extend(new.filter(|mark| find(ordered, mark).is_none()).cloned());
    Changes { parts, other_marks, limit: limit(&ordered.job), weight: [ordered, thickest].map(Flats::weight) }
}

fn blank(part: &PlannedPart) -> [Length; 2] {
    let (length, width) = part.flat.extents_mm();
    [length, width].map(Length::from_millimetres)
}

fn limit(job: &Job) -> Length {
    Length::from_nanometres(job.tape.nanometres() / 2)
}

impl Changes {
    /// What changed, in words, one sentence each.
    pub(crate) fn sentences(&self, unit: LengthUnit) -> Vec<String> {
        let fine = caliper(unit);
        let print = |length: Length| length.print_with_unit(fine);
        let mut told = Vec::new();
        for part in self.parts.iter().filter(|part| self.limit <= part.moves()) {
            let ways = [(0, "length"), (1, "width")].into_iter().filter_map(|(axis, name): (usize, &str)| {
                let by = part.received[axis] - part.ordered[axis];
                let word = if by < Length::ZERO { "shorter" } else { "longer" };
                (by != Length::ZERO).then(|| format!("{} {word} in {name}", print(by.abs())))
            });
            let ways: Vec<String> = ways.collect();
            told.push(format!("{}: its blank is {}: lay it out anew", part.mark, ways.join(" and ")));
        }
        let small: Vec<&PartChange> = self
            .parts
            .iter()
            .filter(|part| Length::ZERO < part.moves() && part.moves() < self.limit)
            .collect();
        if let Some(most) = small.iter().map(|part| part.moves()).max() {
            let (parts, verb) = if small.len() == 1 { ("blank", "moves") } else { ("blanks", "move") };
            told.push(format!(
                "{} {parts} {verb} by {} at most, less than {}, half of what the tape is divided in",
                small.len(),
                print(most),
                print(self.limit)
            ));
        }
        if self.parts.iter().all(|part| part.moves() == Length::ZERO) {
            told.push("no blank moves".to_owned());
        }
        for part in self.parts.iter().filter(|part| self.limit <= part.between_sheets) {
            told.push(format!(
                "{}: between the thinnest and the thickest sheet its blank differs by {}: cut it from one sheet, and \
                 bend a strip of that sheet",
                part.mark,
                print(part.between_sheets)
            ));
        }
        if !self.other_marks.is_empty() {
            told.push(format!("not the same parts as ordered: {}", self.other_marks.join(", ")));
        }
        told
    }
}
