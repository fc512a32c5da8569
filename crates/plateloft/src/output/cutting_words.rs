//! The order of cuts on a sheet, in words.

use geometry::grid::{GridPoint, Turn};
use geometry::{Contour, Point};
use job::Job;
use nest::rect::Axis;
use nest::{SharedCut, Step};
use paper::cautions::{CUTS_BY_HAND, CUTS_ON_THE_SHEAR, CUTTING_UP, SCRIBE_FIRST};
use paper::packet::copy_words;
use paper::sheet_map::drop_mark;
use units::{Angle, Length};

use super::cutting_guides::{corners, guide_along, guide_beside, guide_off_the_middle, what_falls};
use super::drawings;
use super::rack_faces::face_and_parts;
use super::sheared_words;
use crate::plan::{
    CuttingOrder, Plan, PlannedSheet, drop_words, in_hand, length_of, nearest_mark, on_the_tape,
    shared_length_mm,
};
use crate::speech::listed;

/// The steps under a heading.
pub(crate) fn text(plan: &Plan, sheet: &PlannedSheet) -> String {
    let lines = steps(plan, sheet)
        .into_iter()
        .enumerate()
        .map(|(number, step)| format!("  {}. {step}\n", number + 1));
    let datum = match sheet.laid.outline {
        None => "its datum corner, lower left",
        Some(_) => AROUND_OFFCUT,
    };
    format!(
        "Cut {} in this order, measured from {datum}:\n{}\n{}",
        sheet.mark,
        what_numbers_mean(sheet),
        lines.collect::<String>()
    )
}

/// Where the numbers of an offcut begin.
const AROUND_OFFCUT: &str = "the lower left corner of the upright rectangle around the offcut";

/// What stands over the steps on paper.
pub(crate) fn over_the_cuts(sheet: &PlannedSheet) -> String {
    let datum = match sheet.laid.outline {
        None => "the datum corner of the sheet, lower left on its map",
        Some(_) => AROUND_OFFCUT,
    };
    let means = what_numbers_mean(sheet);
    format!("Measured from {datum}, in the units of the map. {means} {CUTTING_UP}")
}

/// How the numbers of this kind of order are meant.
pub(crate) fn what_numbers_mean(sheet: &PlannedSheet) -> String {
    let kind = match sheet.order {
        CuttingOrder::ByHand(_) => CUTS_BY_HAND,
        CuttingOrder::Sheared(_) => CUTS_ON_THE_SHEAR,
    };
    format!("{SCRIBE_FIRST} {kind}")
}

/// One sentence a step.
pub(crate) fn steps(plan: &Plan, sheet: &PlannedSheet) -> Vec<String> {
    let face = face_and_parts(plan, sheet).map(|words| format!("look at the face of the offcut: {words}"));
    let first = face.into_iter();
    match &sheet.order {
        CuttingOrder::ByHand(steps) => {
            let cuts = (0..steps.len()).map(|step| by_hand(plan, sheet, &steps[..step], &steps[step]));
            first.chain(cuts).collect()
        }
        CuttingOrder::Sheared(cuts) => first.chain(sheared_words::steps(plan, sheet, cuts)).collect(),
    }
}

/// What a number is measured from. The edges of an offcut may run anywhere, so it is measured on the rectangle around it.
pub(super) const fn measured(axis: Axis, is_offcut: bool) -> &'static str {
    match (axis, is_offcut) {
        (Axis::X, false) => "from the left edge",
        (Axis::Y, false) => "up from the lower edge",
        (Axis::X, true) => "from the left side of the rectangle around it",
        (Axis::Y, true) => "up from the lower side of the rectangle around it",
    }
}

/// "straight cut at 31 1/4 from the left edge, 48 long, beginning 46 up from the lower edge": the last unless it begins at
/// the edge of the metal.
pub(super) fn across(
    job: &Job,
    (axis, is_offcut, edge): (Axis, bool, Length),
    [at, from, to]: [Length; 3],
) -> String {
    let measured = |axis: Axis| measured(axis, is_offcut);
    let other = if axis == Axis::X { Axis::Y } else { Axis::X };
    let print = |length: Length| length.print(job.style);
    let begin =
        if from == edge { String::new() } else { format!(", beginning {} {}", print(from), measured(other)) };
    format!("straight cut at {} {}, {} long{begin}", print(at), measured(axis), print(to - from))
}

/// "drop d2 to keep, 49 15/16 × 60 whole, 49 1/2 × 59 usable".
pub(super) fn to_keep(job: &Job, sheet: &PlannedSheet, number: usize) -> String {
    let drops = &sheet.laid.drops;
    format!("drop {} to keep, {}", drop_mark(number), drop_words(job, &drops[number]))
}

/// What is kept of both sides of a cut.
fn freed_words(job: &Job, sheet: &PlannedSheet, (axis, frees): (Axis, [Option<usize>; 2])) -> String {
    let sides = match axis {
        Axis::X => ["left of it", "right of it"],
        Axis::Y => ["below it", "above it"],
    };
    let freed = frees.into_iter().zip(sides).filter_map(|(number, side)| Some((number?, side)));
    freed.map(|(number, side)| format!("; {side} {}", to_keep(job, sheet, number))).collect()
}

/// The metal in hand around a place once the steps before are done.
fn hand(plan: &Plan, sheet: &PlannedSheet, before: &[Step], place: [Point; 2]) -> [Point; 2] {
    in_hand(&plan.flats.job, before, sheet.laid.size.map(Length::millimetres), place)
}

/// A straight cut as a rectangle of no width.
fn cut_box(axis: Axis, at: Length, ends: [Length; 2]) -> [Point; 2] {
    let at = at.millimetres();
    ends.map(|end| match axis {
        Axis::X => Point::new(at, end.millimetres()),
        Axis::Y => Point::new(end.millimetres(), at),
    })
}

fn rectangle(around: [Point; 2]) -> Contour {
    Contour::polygon(&corners(around))
}

/// The neighbours toward which a piece is cut already by a cut that serves both.
fn cut_already(sheet: &PlannedSheet, before: &[Step], piece: usize) -> Vec<usize> {
    let own = sheet.shared.iter().filter(|cut| cut.first == piece || cut.second == piece);
    let done = own.filter_map(|cut| {
        let neighbour = if cut.first == piece { cut.second } else { cut.first };
        let straight = cut.straight();
        let is_cut = before.iter().any(|step| match *step {
            Step::Across { axis, within, from, to, .. } => straight.is_some_and(|cut| {
                axis == cut.axis && within == cut.within && from <= cut.from && cut.to <= to
            }),
            Step::Shared(made) => made == *cut,
            Step::Outline(cut) => cut == neighbour,
            Step::CutOuts(_) | Step::Drop(_) | Step::FromCutOut { .. } => false,
        });
        is_cut.then_some(neighbour)
    });
    done.collect()
}

fn by_hand(plan: &Plan, sheet: &PlannedSheet, before: &[Step], step: &Step) -> String {
    let job = &plan.flats.job;
    let name = |piece: usize| {
        let piece = &sheet.pieces[piece];
        let part = &plan.flats.parts[piece.part].part;
        format!("{}{}", part.mark, copy_words(piece.copy, part.quantity))
    };
    match *step {
        Step::Across { .. } => straight(plan, sheet, before, step),
        Step::CutOuts(piece) => {
            let falls = what_falls(job, &plan.flats.parts[sheet.pieces[piece].part]);
            format!("the cut-outs of {}, while the metal round it still holds{falls}", name(piece))
        }
        Step::Shared(cut) => slanted((plan, sheet, before), &cut, [cut.first, cut.second].map(name)),
        Step::Drop(number) => {
            let usable = sheet.laid.drops[number].usable;
            let guide = guide_along(job, &rectangle(usable), hand(plan, sheet, before, usable));
            format!("{}: cut it out along its own lines{guide}", to_keep(job, sheet, number))
        }
        Step::FromCutOut { drop, piece, whole } => {
            from_cut_out(job, sheet, (drop, whole), (piece, &name(piece)))
        }
        Step::Outline(piece) => {
            let strip = drawings::is_strip(&plan.flats, &plan.flats.parts[sheet.pieces[piece].part]);
            let outline = &sheet.laid.pieces[piece].1.outer;
            let (low, high) = outline.bounds();
            let guide = guide_along(job, outline, hand(plan, sheet, before, [low, high]));
            let lies = lies_words(job, sheet, piece) + &guide + if strip { STRIP_FIRST } else { "" };
            let done: Vec<String> = cut_already(sheet, before, piece).into_iter().map(name).collect();
            if done.is_empty() {
                return format!("the outline of {}; {lies}", name(piece));
            }
            format!(
                "the outline of {}, but for what lies toward {}: that is cut already; {lies}",
                name(piece),
                listed(&done)
            )
        }
    }
}

/// A straight cut, where its guide stands, and what it frees; nothing for other steps.
fn straight(plan: &Plan, sheet: &PlannedSheet, before: &[Step], step: &Step) -> String {
    let job = &plan.flats.job;
    let Step::Across { axis, within, from, to, finishes_both, frees } = *step else { return String::new() };
    let at = on_the_tape(job, within.map(length_of));
    let blank = [from, to].map(|end| nearest_mark(job, length_of(end)));
    let is_offcut = sheet.laid.outline.is_some();
    let cut = across(job, (axis, is_offcut, Length::ZERO), [at, blank[0], blank[1]]);
    let hand = hand(plan, sheet, before, cut_box(axis, at, [from, to].map(length_of)));
    let across = |end: Point| Length::from_millimetres(if axis == Axis::X { end.x } else { end.y });
    // Edges of an offcut may run anywhere; of a sheet all between the cuts is metal.
    let is_metal = |place: Length| {
        let ends = [from, to].map(length_of);
        let [low, high] = [at.min(place), at.max(place)].map(|side| cut_box(axis, side, ends));
        !is_offcut || sheet.laid.holds_a_guide([low[0], high[1]])
    };
    let guide = guide_beside(job, at, hand.map(across), is_metal);
    let both = match (finishes_both, job.shop.shared_cuts) {
        (false, _) => "",
        (true, true) => "; it finishes the edges on both sides: saw it, a shear takes no kerf out",
        (true, false) => {
            "; the gap is no wider than the kerf: this one cut takes all of it and makes the edges on both sides; a saw \
             whose cut is not as straight on both sides needs a wider gap under shop"
        }
    };
    format!("{cut}{guide}{both}{}", freed_words(job, sheet, (axis, frees)))
}

/// How a drop is got from what falls out of a cut-out of a piece.
fn from_cut_out(
    job: &Job,
    sheet: &PlannedSheet,
    (drop, whole): (usize, bool),
    (piece, name): (usize, &str),
) -> String {
    let (words, usable) = (to_keep(job, sheet, drop), sheet.laid.drops[drop].usable);
    if whole {
        return format!("{words}: it is what fell out of {name}, nothing more is cut off it");
    }
    let fallen = sheet.laid.pieces[piece].1.holes.iter().map(Contour::bounds);
    let holds = |[low, high]: [Point; 2]| {
        low.x <= usable[0].x && low.y <= usable[0].y && usable[1].x <= high.x && usable[1].y <= high.y
    };
    let fallen = fallen.map(|(low, high)| [low, high]).find(|&hole| holds(hole)).unwrap_or(usable);
    let guide = guide_along(job, &rectangle(usable), fallen);
    format!("{words}: cut it along its own lines from what fell out of {name}{guide}")
}

/// "slanted cut 9 7/8 long, beginning 55 1/4 from the left edge, 12 11/16 up from the lower edge, ending …, between the scribed
/// sides of GU no. 1 of 4 and GU no. 2 of 4".
fn slanted(
    (plan, sheet, before): (&Plan, &PlannedSheet, &[Step]),
    cut: &SharedCut,
    [first, second]: [String; 2],
) -> String {
    let job = &plan.flats.job;
    let is_offcut = sheet.laid.outline.is_some();
    let place = |at: GridPoint| {
        // The middle is counted in half steps.
        let half = |doubled: i64| Length::from_nanometres(length_of(doubled).nanometres() / 2);
        let [x, y] = [at.x, at.y].map(|doubled| half(doubled).print(job.style));
        format!("{x} {}, {y} {}", measured(Axis::X, is_offcut), measured(Axis::Y, is_offcut))
    };
    let [from, to] = cut.doubled_middle().map(place);
    let long = Length::from_millimetres(shared_length_mm(cut)).print(job.style);
    let ends = cut.doubled_middle().map(|at| {
        let [x, y] = [at.x, at.y].map(|doubled| 0.5 * length_of(doubled).millimetres());
        Point::new(x, y)
    });
    let bounds = [cut.first, cut.second].map(|piece| sheet.laid.pieces[piece].1.outer.bounds());
    let [(low, high), (other_low, other_high)] = bounds;
    let around = [
        Point::new(low.x.min(other_low.x), low.y.min(other_low.y)),
        Point::new(high.x.max(other_high.x), high.y.max(other_high.y)),
    ];
    format!(
        "slanted cut {long} long, beginning {from}, ending {to}, between the scribed sides of {first} and {second}; it \
         finishes the edges on both sides{}",
        guide_off_the_middle(job, ends, hand(plan, sheet, before, around))
    )
}

/// Said of the cut that frees a test strip.
const STRIP_FIRST: &str =
    "; bend it now: only when its legs come out as its sheet says, scribe and cut the others";

/// Where the datum corner of a piece's layout sheet lies on the sheet, and how that layout sheet is turned there: all that
/// is needed to scribe it, also where its corners on the map lie in other parts' metal.
fn lies_words(job: &Job, sheet: &PlannedSheet, piece: usize) -> String {
    let place = &sheet.pieces[piece].place;
    let corner = place.place(Point::default());
    let print = |millimetres: f64| Length::from_millimetres(millimetres).print(job.style);
    let is_offcut = sheet.laid.outline.is_some();
    let [right, up] = [(Axis::X, corner.x), (Axis::Y, corner.y)]
        .map(|(axis, at)| format!("{} {}", print(at), measured(axis, is_offcut)));
    format!("datum corner {right}, {up}{}", lying_words(place.over, place.turn))
}

/// How the layout sheet of a piece lies on the map, turned over or not.
pub(super) fn lying_words(over: bool, turn: Turn) -> String {
    if !over {
        return turned_words(turn);
    }
    let seen = "; it lies TURNED OVER, its marked face down: ";
    match turn.millidegrees() {
        0 => format!("{seen}what its layout sheet shows upward is measured downward"),
        180_000 => format!("{seen}what its layout sheet shows to the right is measured to the left"),
        _ => format!(
            "{seen}what its layout sheet shows upward is measured downward, then{}",
            turned_words(turn).trim_start_matches(';')
        ),
    }
}

/// How the layout sheet of a piece lies on the map: its datum corner is not the lower left one of a turned piece.
fn turned_words(turn: Turn) -> String {
    match turn.millidegrees().rem_euclid(360_000) {
        0 => String::new(),
        90_000 => "; its layout sheet lies a quarter turn to the left".to_owned(),
        180_000 => "; its layout sheet lies half a turn round".to_owned(),
        270_000 => "; its layout sheet lies a quarter turn to the right".to_owned(),
        other => {
            let turn = Angle::from_degrees(f64::from(other) / 1000.0).print(1);
            format!("; its layout sheet lies turned {turn}° to the left")
        }
    }
}
