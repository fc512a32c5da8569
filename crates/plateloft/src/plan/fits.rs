//! Fit checks: every question of the job, answered with the refolded parts.

use checks::fit::level::LevelLift;
use checks::fit::swing::HingeSide;
use checks::fit::{Answer, Body, rolled};
use geometry::{Point, Point3, tolerance};
use job::{FitQuestion, Job, JobFit, Message, ShapeInput};
use rayon::prelude::*;
use shapes::pan::{PanPlan, Rim};
use shapes::wrap::Round;
use shapes::{Fact, Problem};
use units::Length;

use super::part::PlannedPart;

/// Rounds of halving in the search for the largest rim: from inches to less than a hundredth of a millimetre.
const HALVINGS: u32 = 15;

/// A question and its answer.
#[derive(Debug, Clone)]
pub(crate) struct PlannedFit {
    /// The word of the job file.
    pub(crate) word: &'static str,
    /// The parts' places among the job's parts.
    pub(crate) parts: Vec<usize>,
    /// The answer.
    pub(crate) answer: Answer,
    /// The notes of the question.
    pub(crate) notes: Vec<String>,
}

/// Answers every question; what cannot be asked of a part is a message.
pub(super) fn fits(file: &str, job: &Job, parts: &[PlannedPart]) -> Result<Vec<PlannedFit>, Vec<String>> {
    let asked: Vec<Result<PlannedFit, String>> = job
        .fits
        .par_iter()
        .enumerate()
        .map(|(number, fit)| answered(file, job, parts, number, fit))
        .collect();
    let (mut fits, mut messages) = (Vec::new(), Vec::new());
    for outcome in asked {
        match outcome {
            Ok(fit) => fits.push(fit),
            Err(message) => messages.push(message),
        }
    }
    if messages.is_empty() { Ok(fits) } else { Err(messages) }
}

fn answered(
    file: &str,
    job: &Job,
    parts: &[PlannedPart],
    number: usize,
    fit: &JobFit,
) -> Result<PlannedFit, String> {
    let part = &parts[fit.parts[0]];
    let (mark, style) = (part.part.mark.as_str(), job.style);
    let body = tread_body(job, part);
    let (word, mut answer) = match &fit.question {
        FitQuestion::LiftOut(lift) => {
            let mut answer = lift.judge(mark, &body, style);
            answer.facts.extend(largest_rim(part, lift, lugs_mm(job, part)));
            ("lift_out", answer)
        }
        FitQuestion::TiltOut(lift) => ("tilt_out", lift.judge(mark, &body, style)),
        FitQuestion::Door(doorway) => {
            if let Some((travel, more_mm)) = doorway.short_travel(&body) {
                let words = [travel, Length::from_millimetres(more_mm)].map(|length| length.print(style));
                return Err(short_travel(file, part, number, words));
            }
            ("door", doorway.judge(mark, &body, style))
        }
        FitQuestion::LidSwing { hinge, swing } => {
            let Some(side) = hinge_side(part, hinge) else { return Err(no_side(file, part, number, hinge)) };
            ("lid_swing", swing.judge(mark, &body, &side, style))
        }
        FitQuestion::Together(together) => {
            let other = &parts[fit.parts[1]];
            let marks = [mark, other.part.mark.as_str()];
            ("together", together.judge(marks, [&body, &tread_body(job, other)], style))
        }
    };
    let of_lugs = fit.parts.iter().filter_map(|&number| lugs_fact(job, &parts[number]));
    answer.facts.extend(of_lugs);
    for &number in &fit.parts {
        let part = &parts[number].part;
        if let Some(piece) = &part.piece_of {
            let alone = format!("; only the piece {} is judged, not {} put together", part.mark, piece.whole);
            answer.sentence.push_str(&alone);
        }
    }
    Ok(PlannedFit { word, parts: fit.parts.clone(), answer, notes: fit.notes.clone() })
}

/// The finished part in its recipe's own coordinates.
pub(super) fn body_of(part: &PlannedPart) -> Body {
    let turned_over = part.part.is_seen_from_back();
    match round_of(part) {
        Some(round) => Body::rolled(&part.flat, turned_over, &round, 0.0),
        None => Body::of(&part.shaped.part, &part.flat, turned_over),
    }
}

/// The same with the lugs of tread plate on its marked face, where the job gives their height.
fn tread_body(job: &Job, part: &PlannedPart) -> Body {
    let (turned_over, lugs_mm) = (part.part.is_seen_from_back(), lugs_mm(job, part));
    let body = match round_of(part) {
        Some(round) => Body::rolled(&part.flat, turned_over, &round, lugs_mm),
        None => Body::of_tread(&part.shaped.part, &part.flat, turned_over, lugs_mm),
    };
    let lugs_out_mm = if part.face_side() == "inside" { 0.0 } else { lugs_mm };
    Body { lugs_out_mm, ..body }
}

fn lugs_mm(job: &Job, part: &PlannedPart) -> f64 {
    job.metals[part.part.metal].lug_height.map_or(0.0, Length::millimetres)
}

/// On tread plate: that its lugs are counted, or that they are not.
fn lugs_fact(job: &Job, part: &PlannedPart) -> Option<Fact> {
    let metal = &job.metals[part.part.metal];
    let words = match metal.lug_height {
        Some(height) => {
            format!("{} high on the {}, counted all over it", height.print(job.style), part.face_side())
        }
        None if metal.metal.pattern == stock::Pattern::Tread => {
            "NOT counted: their height is not known; give \"lug_height\" under \"metals\"".to_owned()
        }
        None => return None,
    };
    Some(Fact::words(format!("lugs of {}", part.part.mark), words, "lug_height"))
}

/// The cylinder or cone that a rolled part truly is, in its own hand.
pub(crate) fn round_of(part: &PlannedPart) -> Option<Round> {
    let round = part.part.shape.recipe().round(&part.part.making)?;
    Some(if part.part.opposite_hand_of.is_some() { round.opposite() } else { round })
}

/// The finished part's farthest places in its recipe's own coordinates, as a tape finds them. A [`Body`] reaches a little past
/// them: it keeps clear of what it is judged against.
pub(crate) fn reach_of(part: &PlannedPart) -> Vec<Point3> {
    let turned_over = part.part.is_seen_from_back();
    if let Some(round) = round_of(part) {
        return rolled::reach(&part.flat, turned_over, &round);
    }
    let home = |at: Point3| Body::home(&part.flat, turned_over, at);
    fold::facets::reach(&part.flat).into_iter().map(home).collect()
}

/// Least and greatest corner of the smallest upright box round places.
pub(crate) fn box_round(places: &[Point3]) -> (Point3, Point3) {
    let first = places.first().copied().unwrap_or_default();
    places.iter().fold((first, first), |(low, high), p| {
        (
            Point3::new(low.x.min(p.x), low.y.min(p.y), low.z.min(p.z)),
            Point3::new(high.x.max(p.x), high.y.max(p.y), high.z.max(p.z)),
        )
    })
}

/// The hinged side: one with a skirt or flange, or a side of a panel or plate.
pub(super) fn hinge_side(part: &PlannedPart, name: &str) -> Option<HingeSide> {
    if let Some(side) = HingeSide::of(&part.shaped.part, name, part.part.is_seen_from_back()) {
        return Some(side);
    }
    let outline = match &part.part.shape {
        ShapeInput::Panel(panel) => &panel.outline,
        ShapeInput::Plate(plate) => match &plate.outline {
            shapes::plate::PlateOutline::Figure(figure) => figure,
            shapes::plate::PlateOutline::Disc { .. } => return None,
        },
        _ => return None,
    };
    let number = outline.side_number(name)?;
    let (a, b) = outline.side(number);
    let flip = |p: Point| Point::new(-p.x, p.y);
    let mirrored = part.part.opposite_hand_of.is_some();
    let ends = if mirrored { [flip(b), flip(a)] } else { [a, b] };
    Some(HingeSide { name: outline.sides[number].clone(), ends })
}

fn no_side(file: &str, part: &PlannedPart, number: usize, hinge: &str) -> String {
    let wrong = format!("{} has no side of this name that a hinge could sit on", part.part.mark);
    let field = format!("fits[{number}].hinge");
    let problem = Problem::new(field, hinge, wrong, "name a side by its corners, like AB");
    Message { mark: None, ..Message::of_problem(file, &part.part.mark, &problem) }.to_string()
}

fn short_travel(file: &str, part: &PlannedPart, number: usize, [travel, more]: [String; 2]) -> String {
    let wrong = format!("{} is {more} longer than that, and not free by then", part.part.mark);
    let remedy = "give its own length or more, or leave it out: all of the door counts then";
    let problem = Problem::new(format!("fits[{number}].travel"), travel, wrong, remedy);
    Message { mark: None, ..Message::of_problem(file, &part.part.mark, &problem) }.to_string()
}

/// For a pan with a rim outward: the largest rim that would still pass, its walls as they are.
fn largest_rim(part: &PlannedPart, lift: &LevelLift, lugs_mm: f64) -> Option<Fact> {
    let ShapeInput::Pan(pan) = &part.part.shape else { return None };
    if matches!(pan.plan, PanPlan::LiftsThrough { .. }) {
        return None;
    }
    let out = |rim: &Rim| if let Rim::Out(width) = rim { Some(*width) } else { None };
    let rim = pan.rims.iter().filter_map(out).max()?;
    let passes = |rim: Length| {
        let mut trial = part.part.clone();
        let rims = pan.rims.iter().map(|own| if out(own).is_some() { Rim::Out(rim) } else { *own }).collect();
        trial.shape = ShapeInput::Pan(shapes::pan::Pan { rims, ..pan.clone() });
        let shaped = trial.shape().ok()?;
        let flat = shaped.unfold().ok()?;
        let body = Body::of_tread(&shaped.part, &flat, part.part.is_seen_from_back(), lugs_mm);
        let place = lift.place(&body.shadows(&lift.way.view()))?;
        Some(-tolerance::FIT_MM <= place.spare_mm)
    };
    let origin = "the pan with other rims, each shaped, refolded and tried; its walls as they are";
    let (mut does, mut fails) = (None, None);
    // Twice over, so that a rim with room to spare finds its limit too.
    let (mut low_mm, mut high_mm) = (0.0, 2.0 * rim.millimetres() + 2.0 * LARGEST_RIM_STEP_MM);
    for _ in 0..HALVINGS {
        let middle = Length::from_millimetres(0.5 * (low_mm + high_mm));
        if passes(middle).unwrap_or(false) {
            (does, low_mm) = (Some(middle), middle.millimetres());
        } else {
            (fails, high_mm) = (Some(middle), middle.millimetres());
        }
    }
    match (does, fails) {
        (Some(largest), Some(_)) => {
            let largest = said_down(largest, part.part.making.style);
            Some(Fact::length_mm("largest rim that passes", largest.millimetres(), origin))
        }
        (Some(largest), None) => {
            let words = format!("{} and more", largest.print_down(part.part.making.style));
            Some(Fact::words("largest rim that passes", words, origin))
        }
        (None, _) => Some(Fact::words("largest rim that passes", "none: no rim outward passes", origin)),
    }
}

/// A largest size as it is printed: rounded down, and without what a part may lack and still fits, so that its sum with the
/// clearance never comes to more than the opening.
fn said_down(largest: Length, style: units::LengthStyle) -> Length {
    let strict = Length::from_millimetres(largest.millimetres() - tolerance::FIT_MM + BODY_BEYOND_MM);
    Length::read(&strict.print_down(style), style.unit()).unwrap_or(strict)
}

/// How far a body for fits may reach beyond the part's own metal, mm.
const BODY_BEYOND_MM: f64 = 0.005;

/// Added to the range in which the largest rim is looked for, so that narrow rims are given room, mm.
const LARGEST_RIM_STEP_MM: f64 = 25.0;
