//! Fit checks: parts found by their marks, sizes read, one file a question.

mod lift;
mod swing;

use super::desk::Desk;
use super::marks::unknown;
use super::openings::Openings;
use super::shapes::{drawn_figure, opening_figure};
use crate::file::{FitFile, JobFile, OpeningOrSize, Size};
use crate::model::{FitQuestion, JobFit, Part};
use crate::place::Place;
use ::shapes::Figure;

/// What fit checks may name.
#[derive(Clone, Copy)]
struct Known<'a> {
    parts: &'a [Part],
    openings: &'a Openings,
}

/// Every fit check of the file.
pub(super) fn fits(
    file: &JobFile,
    (parts, openings): (&[Part], &Openings),
    notes: &[Vec<String>],
    desk: &mut Desk<'_>,
) -> Vec<JobFit> {
    let known = Known { parts, openings };
    let entries = file.fits.iter().enumerate();
    let place = |number| Place::top("fits").entry(number);
    let with_notes = |(number, fit): (usize, &Option<FitFile>)| {
        let fit = fit_of(fit.as_ref()?, known, &place(number), desk)?;
        Some(JobFit { notes: notes.get(number).cloned().unwrap_or_default(), ..fit })
    };
    entries.filter_map(with_notes).collect()
}

fn fit_of(file: &FitFile, known: Known<'_>, place: &Place, desk: &mut Desk<'_>) -> Option<JobFit> {
    let one =
        |mark: &String, desk: &mut Desk<'_>| Some(vec![known.part(mark, &place.field("part"), desk)?]);
    let (parts, question) = match file {
        FitFile::LiftOut(file) => {
            (one(&file.part, desk), lift::lift_out(file, known, place, desk).map(FitQuestion::LiftOut))
        }
        FitFile::TiltOut(file) => {
            (one(&file.part, desk), lift::tilt_out(file, known, place, desk).map(FitQuestion::TiltOut))
        }
        FitFile::Door(file) => (one(&file.part, desk), lift::door(file, place, desk).map(FitQuestion::Door)),
        FitFile::LidSwing(file) => {
            let swing = swing::lid_swing(file, place, desk);
            (
                one(&file.part, desk),
                swing.map(|swing| FitQuestion::LidSwing { hinge: file.hinge.clone(), swing }),
            )
        }
        FitFile::Together(file) => {
            let mut both = Some(Vec::new());
            for (number, mark) in file.parts.iter().enumerate() {
                let found = known.part(mark, &place.field("parts").entry(number), desk);
                both = both.zip(found).map(|(mut both, part)| {
                    both.push(part);
                    both
                });
            }
            (both, lift::together(file, known, place, desk).map(FitQuestion::Together))
        }
    };
    Some(JobFit { parts: parts?, question: question?, notes: Vec::new() })
}

impl Known<'_> {
    /// The place of a part in the job by its mark.
    fn part(self, mark: &str, place: &Place, desk: &mut Desk<'_>) -> Option<usize> {
        let found = self.parts.iter().position(|part| part.mark == mark);
        if found.is_none() {
            if self.parts.iter().any(|part| part.written_mark() == mark) {
                let remedy = "it is made of pieces, and each is judged for itself: name one of them";
                desk.add(place, mark, "the job has no part of this mark", remedy);
            } else {
                unknown(mark, self.parts, place, desk);
            }
        }
        found
    }

    /// A plan figure by name or sizes, or by its corners; `field` is the name of the first.
    fn figure(
        self,
        named: Option<&OpeningOrSize>,
        outline: Option<&Vec<[Size; 2]>>,
        field: &str,
        place: &Place,
        desk: &mut Desk<'_>,
    ) -> Option<Figure> {
        match (named, outline) {
            (Some(named), None) => opening_figure(named, self.openings, &place.field(field), desk),
            (None, Some(_)) => drawn_figure(None, outline, "", place, desk),
            _ => {
                let remedy = format!("give exactly one of \"{field}\" and \"outline\"");
                desk.add(&place.field(field), "", "one field must give its shape", remedy);
                None
            }
        }
    }
}
