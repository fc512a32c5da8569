//! Openings: read, solved, and their second diagonals judged.

use shapes::opening::{Diagonal, MeasuredOpening, Sense};
use units::Length;

use super::desk::{Desk, Range};
use crate::file::{CornersRun, JobFile, OpeningFile, TrustFile};
use crate::model::JobOpening;
use crate::place::Place;

/// Openings by name in the file's order; `None` where something was found.
pub(super) type Openings = Vec<(String, Option<JobOpening>)>;

/// Every opening of the file.
pub(super) fn openings(file: &JobFile, tape: Length, desk: &mut Desk<'_>) -> Openings {
    let entries = file.openings.0.iter();
    entries
        .map(|(name, opening)| {
            let place = Place::top("openings").field(name);
            let measured = opening.as_ref().and_then(|file| measured(file, &place, tape, desk));
            let solved = measured.and_then(|measured| solve(name, measured, &place, desk));
            (name.clone(), solved)
        })
        .collect()
}

fn measured(file: &OpeningFile, place: &Place, tape: Length, desk: &mut Desk<'_>) -> Option<MeasuredOpening> {
    let mut side = |name: &str, size| desk.length(&place.field(name), size, Range::Opening);
    let sides = [side("AB", &file.ab), side("BC", &file.bc), side("CD", &file.cd), side("DA", &file.da)];
    let mut diagonal =
        |name: &str, size: &Option<_>| desk.optional(&place.field(name), size.as_ref(), Range::Opening);
    let (ac, bd) = (diagonal("AC", &file.ac), diagonal("BD", &file.bd));
    let [ab, bc, cd, da] = sides;
    Some(MeasuredOpening {
        sides: [ab?, bc?, cd?, da?],
        ac: ac?,
        bd: bd?,
        trust: file.trust.map(|trust| match trust {
            TrustFile::AC => Diagonal::AC,
            TrustFile::BD => Diagonal::BD,
        }),
        sense: match file.corners_run {
            CornersRun::Clockwise => Sense::Clockwise,
            CornersRun::CounterClockwise => Sense::CounterClockwise,
        },
        tape,
    })
}

fn solve(name: &str, measured: MeasuredOpening, place: &Place, desk: &mut Desk<'_>) -> Option<JobOpening> {
    match measured.solve(desk.style) {
        Ok(solved) => {
            match &solved.check {
                Some(check) if !check.explained() => {
                    let trusted = measured.trust.map_or("", Diagonal::name);
                    let sentence = check.sentence(desk.style);
                    desk.cautions.push(format!("{name}: {sentence}. The job goes by {trusted}."));
                }
                Some(_) => {}
                None => {
                    let only = "only one diagonal was taped, so nothing checks the others";
                    desk.cautions.push(format!("{name}: {only}."));
                }
            }
            Some(JobOpening { name: name.to_owned(), measured, solved })
        }
        Err(problems) => {
            for problem in problems {
                desk.add(&place.field(&problem.field), &problem.value, problem.wrong, problem.remedy);
            }
            None
        }
    }
}
