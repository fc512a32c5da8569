//! Openings: read, solved, and diagonals more than they need judged.

use shapes::opening::{Diagonal, MeasuredOpening, Opening, SIDES, Sense, TapedSides, by_corners};
use shapes::{Problem, figure::corner_letter};
use units::Length;

use super::desk::{Desk, Range};
use super::shapes::points;
use crate::file::{
    CornersRun, FourSidesFile, JobFile, Named, OpeningFile, OutlineFile, SidesFile, Size, TrustFile,
};
use crate::model::JobOpening;
use crate::nearest::list;
use crate::place::Place;

/// Openings by name in the file's order; `None` where something was found.
pub(super) type Openings = Vec<(String, Option<JobOpening>)>;

/// Every opening of the file.
pub(super) fn openings(file: &JobFile, tape: Length, desk: &mut Desk<'_>) -> Openings {
    let entries = file.openings.0.iter();
    entries
        .map(|(name, opening)| {
            let place = Place::top("openings").field(name);
            let solved = opening.as_ref().and_then(|file| match file {
                OpeningFile::Four(file) => four_sides(name, file, tape, &place, desk),
                OpeningFile::Sides(file) => sides(name, file, tape, &place, desk),
                OpeningFile::Outline(file) => outline(name, file, &place, desk),
            });
            (name.clone(), solved.map(|solved| JobOpening { name: name.clone(), solved }))
        })
        .collect()
}

/// An opening by four sides and one or two diagonals.
fn four_sides(
    name: &str,
    file: &FourSidesFile,
    tape: Length,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<Opening> {
    let measured = measured(file, place, tape, desk)?;
    let solved = solved(measured.solve(desk.style), place, desk)?;
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
    Some(solved)
}

/// An opening by its sides and the diagonals from one corner.
fn sides(name: &str, file: &SidesFile, tape: Length, place: &Place, desk: &mut Desk<'_>) -> Option<Opening> {
    let place_of_sides = place.field("sides");
    let count = file.sides.0.len();
    if !SIDES.contains(&count) {
        let wrong = format!("an opening has {} to {} sides here", SIDES.start(), SIDES.end());
        desk.add(
            &place_of_sides,
            &count.to_string(),
            wrong,
            "give each side by its two letters; split a larger opening",
        );
        return None;
    }
    let lengths = lengths(&file.sides, count, &place_of_sides, desk, |[from, to]| (from + 1) % count == to);
    let place_of_diagonals = place.field("diagonals");
    let is_diagonal = |[from, to]: [usize; 2]| (from + 1) % count != to && (to + 1) % count != from;
    let diagonals = self::lengths(&file.diagonals, count, &place_of_diagonals, desk, is_diagonal);
    let (lengths, diagonals) = (lengths?, diagonals?);
    // As many sides as corners, each at another corner: all are there.
    let side = |from: usize| lengths.iter().find(|(ends, _)| ends[0] == from).map(|side| side.1);
    let taped = TapedSides {
        sides: (0..count).map(side).collect::<Option<_>>()?,
        diagonals,
        sense: sense(file.corners_run),
        tape,
    };
    let solved = solved(taped.solve(desk.style), place, desk)?;
    if solved.check.is_none() {
        let only = "no diagonal more than needed was taped, so nothing checks the lengths";
        desk.cautions.push(format!("{name}: {only}."));
    }
    Some(solved)
}

/// An opening by its corners.
fn outline(name: &str, file: &OutlineFile, place: &Place, desk: &mut Desk<'_>) -> Option<Opening> {
    let corners = points(&file.outline, &place.field("outline"), desk)?;
    let solved = solved(by_corners(&corners, desk.style), place, desk)?;
    let check =
        "it is given by its corners, which nothing checks; tape a diagonal against the list of the opening";
    desk.cautions.push(format!("{name}: {check}."));
    Some(solved)
}

/// Lengths by the two letters of their ends, of a figure with `count` corners, sides from their first corner on. A name
/// that is not `fit`ting, or stands twice, is a finding.
fn lengths(
    named: &Named<Size>,
    count: usize,
    place: &Place,
    desk: &mut Desk<'_>,
    fits: impl Fn([usize; 2]) -> bool,
) -> Option<Vec<([usize; 2], Length)>> {
    let mut read: Vec<([usize; 2], Length)> = Vec::new();
    let mut whole = true;
    for (name, size) in &named.0 {
        let here = place.field(name);
        let length = desk.length(&here, size, Range::Opening);
        let ends = ends(name, count)
            .and_then(|[from, to]| [[from, to], [to, from]].into_iter().find(|&ends| fits(ends)));
        match (ends, length) {
            (None, _) => {
                let pairs = (0..count).flat_map(|from| (0..count).map(move |to| [from, to]));
                let mut known: Vec<String> = Vec::new();
                for [from, to] in pairs.filter(|&[from, to]| from != to && fits([from, to])) {
                    let (name, turned) = (letters([from, to]), letters([to, from]));
                    if !known.contains(&turned) {
                        known.push(name);
                    }
                }
                let wrong = format!("runs between no such two of the {count} corners");
                let remedy = match known.as_slice() {
                    [] => "take it out: three sides have no diagonal".to_owned(),
                    known => format!("the names are {}", list(known.iter().map(String::as_str))),
                };
                desk.add(&here, &size.to_string(), wrong, remedy);
                whole = false;
            }
            (Some(ends), Some(_))
                if read.iter().any(|(known, _)| *known == ends || *known == [ends[1], ends[0]]) =>
            {
                desk.add(&here, &size.to_string(), "is given twice, read from either end", "give it once");
                whole = false;
            }
            (Some(ends), Some(length)) => read.push((ends, length)),
            (Some(_), None) => whole = false,
        }
    }
    whole.then_some(read)
}

/// The two corners of a name like "AC".
fn ends(name: &str, count: usize) -> Option<[usize; 2]> {
    let corner = |letter: char| (0..count).find(|&number| corner_letter(number) == letter.to_string());
    let mut letters = name.chars().map(corner);
    match (letters.next(), letters.next(), letters.next()) {
        (Some(Some(from)), Some(Some(to)), None) if from != to => Some([from, to]),
        _ => None,
    }
}

fn letters([from, to]: [usize; 2]) -> String {
    format!("{}{}", corner_letter(from), corner_letter(to))
}

fn sense(run: CornersRun) -> Sense {
    match run {
        CornersRun::Clockwise => Sense::Clockwise,
        CornersRun::CounterClockwise => Sense::CounterClockwise,
    }
}

/// The opening, or its problems as findings.
fn solved(solved: Result<Opening, Vec<Problem>>, place: &Place, desk: &mut Desk<'_>) -> Option<Opening> {
    match solved {
        Ok(solved) => Some(solved),
        Err(problems) => {
            for problem in problems {
                let here = problem.field.split('.').fold(place.clone(), |place, step| place.field(step));
                desk.add(&here, &problem.value, problem.wrong, problem.remedy);
            }
            None
        }
    }
}

fn measured(
    file: &FourSidesFile,
    place: &Place,
    tape: Length,
    desk: &mut Desk<'_>,
) -> Option<MeasuredOpening> {
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
        sense: sense(file.corners_run),
        tape,
    })
}
