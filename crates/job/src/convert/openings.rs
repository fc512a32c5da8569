//! Openings: read, solved, and their second diagonals judged.

use fold::BendNumber;
use fold::bend::Origin;
use shapes::opening::{Diagonal, MeasuredOpening, Sense};
use shapes::{Making, ReliefStyle};
use stock::BendModel;
use units::Length;

use super::desk::{Desk, Range};
use super::metals::Metals;
use crate::file::{CornersRun, JobFile, OpeningFile, TrustFile};
use crate::model::JobOpening;
use crate::place::Place;

/// Openings by name in the file's order; `None` where something was found.
pub(super) type Openings = Vec<(String, Option<JobOpening>)>;

/// Every opening of the file.
pub(super) fn openings(file: &JobFile, metals: &Metals, tape: Length, desk: &mut Desk<'_>) -> Openings {
    let making = wording(metals, desk);
    let entries = file.openings.0.iter();
    entries
        .map(|(name, opening)| {
            let place = Place::top("openings").field(name);
            let measured = opening.as_ref().and_then(|file| measured(file, &place, tape, desk));
            let solved = measured.and_then(|measured| solve(name, measured, &making, &place, desk));
            (name.clone(), solved)
        })
        .collect()
}

fn measured(file: &OpeningFile, place: &Place, tape: Length, desk: &mut Desk<'_>) -> Option<MeasuredOpening> {
    let mut side = |name: &str, size| desk.length(&place.field(name), size, Range::AboveZero);
    let sides = [side("AB", &file.ab), side("BC", &file.bc), side("CD", &file.cd), side("DA", &file.da)];
    let mut diagonal =
        |name: &str, size: &Option<_>| desk.optional(&place.field(name), size.as_ref(), Range::AboveZero);
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

fn solve(
    name: &str,
    measured: MeasuredOpening,
    making: &Making,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<JobOpening> {
    match measured.solve(making) {
        Ok(solved) => {
            match &solved.check {
                Some(check) if !check.explained() => {
                    let trusted = measured.trust.map_or("", Diagonal::name);
                    let sentence = check.sentence(making);
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

/// An opening is of no metal: solving takes only the wording of lengths from here.
fn wording(metals: &Metals, desk: &Desk<'_>) -> Making {
    let number = metals.iter().find_map(|(_, metal)| metal.as_ref()).map(|metal| metal.number.clone());
    Making {
        number: number.unwrap_or_else(any_number),
        relief: ReliefStyle::Square,
        seam_gap: Length::ZERO,
        style: desk.style,
    }
}

#[expect(clippy::expect_used, reason = "a sixteenth of an inch is above zero and K lies within its bounds")]
fn any_number() -> BendNumber {
    let sixteenth = Length::from_sixty_fourths(4);
    BendNumber::new(sixteenth, sixteenth, BendModel::KFactor(0.5), Origin::General)
        .expect("these figures are whole")
}
