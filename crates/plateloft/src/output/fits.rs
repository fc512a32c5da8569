//! Answers of the fit checks: in words, as JSON, and as pages of the packet.

use job::{Job, Part};
use paper::fit_drawing;
use paper::layout_sheet::Fact;
use paper::packet::DrawnFit;
use serde_json::{Value, json};

use super::drawings::fact_words;
use super::flats_json::fact_json;
use super::numbers::Numbers;
use crate::plan::{Flats, PlannedFit};
use crate::speech::listed;

/// What a question is called on paper.
fn title(job: &Job, fit: &PlannedFit) -> String {
    let marks: Vec<String> = fit.parts.iter().map(|&part| job.parts[part].mark.clone()).collect();
    let words = match fit.word {
        "lift_out" => "straight out",
        "tilt_out" => "out one end first",
        "door" => "past the door",
        "lid_swing" => "swinging open",
        _ => "in one space",
    };
    format!("{}, {words}", listed(&marks))
}

const fn yes_or_no(fits: bool) -> &'static str {
    if fits { "yes" } else { "NO" }
}

/// One line an answer.
pub(crate) fn sentences(flats: &Flats) -> Vec<String> {
    flats.fits.iter().map(|fit| format!("{}: {}", yes_or_no(fit.answer.fits), fit.answer.sentence)).collect()
}

/// The answers that are "no".
pub(crate) fn refusals(flats: &Flats) -> Vec<String> {
    let no = flats.fits.iter().filter(|fit| !fit.answer.fits);
    no.map(|fit| format!("does not fit: {}", fit.answer.sentence)).collect()
}

/// The "no" answers that are about one part.
pub(crate) fn refusals_of(flats: &Flats, mark: &str) -> Vec<String> {
    let about = |fit: &&PlannedFit| fit.parts.iter().any(|&part| flats.job.parts[part].mark == mark);
    let no = flats.fits.iter().filter(|fit| !fit.answer.fits).filter(about);
    no.map(|fit| format!("does not fit: {}", fit.answer.sentence)).collect()
}

/// The numbers behind an answer, and how many of a part are made where it is asked about more.
fn facts(job: &Job, fit: &PlannedFit) -> Vec<Fact> {
    let asked = |part: usize| fit.parts.iter().filter(|&&other| other == part).count();
    let short = fit
        .parts
        .iter()
        .find(|&&part| u32::try_from(asked(part)).is_ok_and(|asked| job.parts[part].quantity < asked));
    let made = short.map(|&part| {
        let Part { mark, quantity, .. } = &job.parts[part];
        let origin = "the check asks about more than the job makes".to_owned();
        let value = format!("{quantity} of {mark} only");
        Fact { name: "made by this job".to_owned(), value, origin, ..Fact::default() }
    });
    let note = |note: &String| Fact {
        name: "note".to_owned(),
        value: note.clone(),
        origin: "the job, as it is written".to_owned(),
        ..Fact::default()
    };
    let notes = fit.notes.iter().map(note);
    fit.answer.facts.iter().map(|fact| fact_words(job, fact)).chain(made).chain(notes).collect()
}

/// Every answer with the numbers behind it, for the terminal.
pub(crate) fn text(flats: &Flats) -> Option<String> {
    if flats.fits.is_empty() {
        return None;
    }
    let mut lines = vec!["Does it fit?".to_owned()];
    for fit in &flats.fits {
        lines.push(format!(
            "  {}: {}: {}",
            title(&flats.job, fit),
            yes_or_no(fit.answer.fits),
            fit.answer.sentence
        ));
        for fact in facts(&flats.job, fit) {
            lines.push(format!("    {}: {}", fact.name, fact.value));
        }
    }
    Some(lines.join("\n"))
}

/// Every answer as JSON.
pub(crate) fn json(flats: &Flats) -> Vec<Value> {
    let numbers = Numbers::of(&flats.job);
    let answer = |fit: &PlannedFit| {
        json!({
            "fit": fit.word,
            "parts": fit.parts.iter().map(|&part| flats.job.parts[part].mark.as_str()).collect::<Vec<_>>(),
            "fits": fit.answer.fits,
            "answer": fit.answer.sentence,
            "facts": fit.answer.facts.iter().map(|fact| fact_json(fact, numbers)).collect::<Vec<_>>(),
        })
    };
    flats.fits.iter().map(answer).collect()
}

/// Every answer as it stands in the packet.
pub(crate) fn drawn(flats: &Flats) -> Vec<DrawnFit> {
    let draw = |fit: &PlannedFit| {
        let title = title(&flats.job, fit);
        DrawnFit {
            answer: format!("{}: {}", yes_or_no(fit.answer.fits), fit.answer.sentence),
            facts: facts(&flats.job, fit),
            page: (!fit.answer.scenes.is_empty())
                .then(|| fit_drawing::draw(&format!("{}: {title}", flats.job.name), &fit.answer.scenes)),
            title,
        }
    };
    flats.fits.iter().map(draw).collect()
}
