//! The order of cuts on a shear, in words.

use geometry::{Contour, Point, tolerance};
use job::{Cutting, Job};
use nest::rect::{Axis, Cut};
use paper::packet::copy_words;
use units::Length;

use super::cutting_words::{across, lying_words, measured, to_keep};
use crate::plan::{Plan, PlannedSheet, length_of};
use crate::speech::listed;

/// One sentence a step.
pub(super) fn steps(plan: &Plan, sheet: &PlannedSheet, cuts: &[Cut]) -> Vec<String> {
    let job = &plan.flats.job;
    let mut steps = before_shearing(job, sheet);
    steps.extend(cuts.iter().map(|cut| sheared(job, sheet, cut)));
    steps.extend((0..sheet.laid.drops.len()).map(|number| freed_by_the_shear(job, sheet, number)));
    steps.push(format!("cut each part from its blank{}", falls_to_scrap(plan, sheet)));
    steps.extend((0..sheet.pieces.len()).map(|piece| in_its_blank(plan, sheet, piece)));
    steps
}

/// "CS-L: its datum corner is the lower left one of its blank; its layout sheet lies a quarter turn to the left": the edges of the
/// sheet are gone by then, and a blank lies as it lay on the sheet.
fn in_its_blank(plan: &Plan, sheet: &PlannedSheet, piece: usize) -> String {
    let laid = &sheet.pieces[piece];
    let part = &plan.flats.parts[laid.part].part;
    let name = format!("{}{}", part.mark, copy_words(laid.copy, part.quantity));
    let corner = laid.place.place(Point::default());
    let (low, high) = sheet.laid.pieces[piece].1.outer.bounds();
    let meets = |a: f64, b: f64| (a - b).abs() <= tolerance::SCRIBED_LINE_MM;
    let side = |at: f64, [low, high]: [f64; 2], names: [&'static str; 2]| {
        if meets(at, low) { Some(names[0]) } else { meets(at, high).then_some(names[1]) }
    };
    let across = side(corner.x, [low.x, high.x], ["left", "right"]);
    let up = side(corner.y, [low.y, high.y], ["lower", "upper"]);
    let lies = match (up, across) {
        (Some(up), Some(across)) => format!("is the {up} {across} one of its blank"),
        _ => {
            let print = |millimetres: f64| Length::from_millimetres(millimetres).print(plan.flats.job.style);
            format!(
                "lies {} from the left edge of its blank, {} up from the lower one",
                print(corner.x - low.x),
                print(corner.y - low.y)
            )
        }
    };
    let turned = lying_words(laid.place.over, laid.place.turn);
    format!("{name}, its blank lying as it lay on the sheet: its datum corner {lies}{turned}")
}

/// What is said and done before the first round.
fn before_shearing(job: &Job, sheet: &PlannedSheet) -> Vec<String> {
    let mut steps = Vec::new();
    let print = |length: Length| length.print(job.style);
    let (kerf, gap, trim) = (print(job.shop.kerf), print(job.shop.gap), job.shop.edge_trim);
    steps.push(match (job.shop.kerf == Length::ZERO, job.shop.gap == Length::ZERO) {
        (true, true) => {
            "shear on every line: parts lie edge to edge, with no room for a saw cut".to_owned()
        }
        (true, false) => {
            format!("shear on every number: a strip between two blanks, {gap} or wider, is cut off on both of its sides")
        }
        // Unlike a cut by hand, whose number is its middle; the next blank begins where the kerf ends.
        (false, _) => format!(
            "saw every cut wholly on the side of its number that the step names: the number is the edge that stays, and the \
             kerf of {kerf} comes off beside it. A shear takes no kerf out, so the next blank would come out {kerf} too large: \
             for a shear set kerf to 0 under shop"
        ),
    });
    if trim == Length::ZERO {
        return steps;
    }
    let too_long = longest_cut(job).filter(|&longest| sheet.laid.size.iter().any(|&side| longest < side));
    let when = too_long.map_or_else(String::new, |longest| {
        format!(
            "; edges longer than the shear takes, {}, once the cuts of round 1 have made them shorter",
            print(longest)
        )
    });
    let left = sheet.laid.size.map(|side| print(side - trim - trim)).join(" × ");
    steps.push(format!("trim {} off all four edges{when}; {left} is left", print(trim)));
    steps
}

fn longest_cut(job: &Job) -> Option<Length> {
    match job.shop.cutting {
        Cutting::Shear { longest_cut, .. } => longest_cut,
        Cutting::ByHand => None,
    }
}

/// A cut on the shear, measured as on the map: the shear's own numbers begin behind the edge trim. In the first round it
/// also runs through the trim of edges that are too long to be trimmed before.
fn sheared(job: &Job, sheet: &PlannedSheet, cut: &Cut) -> String {
    let trim = job.shop.edge_trim;
    let [at, mut from, mut to] = [cut.at, cut.from, cut.to].map(length_of).map(|place| place + trim);
    let [along, beside] = match cut.axis {
        Axis::X => [sheet.laid.size[1], sheet.laid.size[0]],
        Axis::Y => sheet.laid.size,
    };
    let is_untrimmed = cut.stage == 1 && longest_cut(job).is_some_and(|longest| longest < beside);
    let edge = if is_untrimmed { Length::ZERO } else { trim };
    if is_untrimmed && from == trim {
        from = Length::ZERO;
    }
    if is_untrimmed && to == along - trim {
        to = along;
    }
    let is_trimmed = trim != Length::ZERO && from == trim && to == along - trim;
    let between = if is_trimmed { " between trimmed edges" } else { "" };
    // The gauge stands against the edge that is there: trimmed before, or in the round before.
    let gauge_trimmed = cut.stage > 1 || longest_cut(job).is_none_or(|longest| along <= longest);
    let gauge = if trim != Length::ZERO && gauge_trimmed {
        format!(" ({} from the trimmed edge)", (at - trim).print(job.style))
    } else {
        String::new()
    };
    let cut_words = across(job, (cut.axis, false, edge), [at, from, to]);
    format!("round {}: {cut_words}{between}{gauge}{}", cut.stage, saw_side(job, cut))
}

/// On which side of its number a sawn cut runs; nothing for a shear, which takes no metal out.
fn saw_side(job: &Job, cut: &Cut) -> &'static str {
    match (job.shop.kerf == Length::ZERO, cut.axis, cut.waste_beyond) {
        (true, ..) => "",
        (false, Axis::X, true) => ", the saw right of it",
        (false, Axis::X, false) => ", the saw left of it",
        (false, Axis::Y, true) => ", the saw above it",
        (false, Axis::Y, false) => ", the saw below it",
    }
}

/// "drop d2 to keep, 300.0 × 1480.0, …": what the shear leaves of it is what can be used.
fn freed_by_the_shear(job: &Job, sheet: &PlannedSheet, number: usize) -> String {
    let [low, _] = sheet.laid.drops[number].usable;
    let print = |millimetres: f64| Length::from_millimetres(millimetres).print(job.style);
    format!(
        "{}: it is free after these cuts, its lower left corner {} {}, {} {}",
        to_keep(job, sheet, number),
        print(low.x),
        measured(Axis::X, false),
        print(low.y),
        measured(Axis::Y, false)
    )
}

/// No shear cuts a cut-out, and how wide a cut makes it is not told: what falls out of it is no drop, which is said where it is as
/// large as one.
fn falls_to_scrap(plan: &Plan, sheet: &PlannedSheet) -> String {
    let Some([smaller, larger]) = plan.flats.job.shop.keep_drop else { return String::new() };
    let is_large = |hole: &Contour| {
        let (low, high) = hole.bounds();
        let [x, y] = [high.x - low.x, high.y - low.y].map(Length::from_millimetres);
        smaller <= x.min(y) && larger <= x.max(y)
    };
    let mut marks: Vec<&str> = Vec::new();
    for piece in &sheet.pieces {
        let part = &plan.flats.parts[piece.part];
        if part.flat.outline.holes.iter().any(is_large) && !marks.contains(&part.part.mark.as_str()) {
            marks.push(&part.part.mark);
        }
    }
    if marks.is_empty() {
        return String::new();
    }
    let marks: Vec<String> = marks.into_iter().map(str::to_owned).collect();
    format!(
        "; what falls out of the cut-outs of {} is not counted as kept: it goes with the scrap, until it is measured and put into the rack by hand",
        listed(&marks)
    )
}
