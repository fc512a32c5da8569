//! The order for what is bought beside metal: roll goods and wear liner, in a supplier's words, and what is checked when they
//! come.

use job::Job;
use paper::lists::order::{Check, SupplyLine};
use units::Length;

use crate::plan::{CutLiner, LaidCovering, Others};
use crate::speech::counted;

/// How such goods are measured, one sentence each.
pub(crate) const MEASURING_OTHERS: [&str; 2] = [
    "Unroll soft goods and let them lie until they are flat; measure then, and cut nothing before.",
    "Plastic sheet grows with heat: measure it at the temperature of the shop, and write that beside it.",
];

/// A line for each length of each roll good.
pub(crate) fn covering_lines(job: &Job, others: &Others) -> Vec<SupplyLine> {
    others.coverings.iter().flat_map(|laid| lines_of(job, laid)).collect()
}

/// A line for each liner.
pub(crate) fn liner_lines(job: &Job, others: &Others) -> Vec<SupplyLine> {
    others.liners.iter().map(|cut| liner_line(job, cut)).collect()
}

fn lines_of(job: &Job, laid: &LaidCovering) -> Vec<SupplyLine> {
    let mut counted: Vec<(Length, usize)> = Vec::new();
    for &length in &laid.buy {
        match counted.iter_mut().find(|(known, _)| *known == length) {
            Some((_, count)) => *count += 1,
            None => counted.push((length, 1)),
        }
    }
    counted.into_iter().map(|of| length_line(job, laid, of)).collect()
}

fn length_line(job: &Job, laid: &LaidCovering, (length, count): (Length, usize)) -> SupplyLine {
    let covering = &job.coverings[laid.covering];
    let print = |length: Length| length.print_with_unit(job.style);
    let (width, long) = (print(covering.width), print(length));
    let mut terms =
        vec![("in one", "every length in one piece, without a join; all of one batch".to_owned())];
    let repeats = [("along", covering.repeat), ("across", covering.repeat_across)];
    let repeats: Vec<String> =
        repeats.iter().filter_map(|(way, repeat)| Some(format!("{} {way}", print((*repeat)?)))).collect();
    if !repeats.is_empty() {
        terms.push(("pattern", format!("repeats every {}", repeats.join(", "))));
    }
    if covering.selvedge != Length::ZERO {
        terms.push(("sides", format!("{} of each side is not used", print(covering.selvedge))));
    }
    if covering.squaring != Length::ZERO {
        terms.push(("end", format!("{} of each length is for squaring its end", print(covering.squaring))));
    }
    let mut boxes = vec![format!("label reads {}", covering.name), "no join, tear or crush mark".to_owned()];
    if 1 < laid.buy.len() {
        boxes.push("batch as on the other lengths".to_owned());
    }
    let check = |number: usize| Check {
        which: format!("length {number} of {count}"),
        boxes: boxes.clone(),
        blanks: vec![("width, both ends", 2, width.clone()), ("length", 1, long.clone())],
        entry: String::new(),
    };
    SupplyLine {
        quantity: counted(count, "length"),
        what: format!("{}, {width} wide × {long} long", covering.name),
        terms,
        checks: (1..=count).map(check).collect(),
    }
}

fn liner_line(job: &Job, cut: &CutLiner) -> SupplyLine {
    let liner = &job.liners[cut.liner];
    let [long, short] = liner.sheet.map(|side| side.print_with_unit(job.style));
    let count = cut.packing.sheets.len();
    let check = |number: usize| Check {
        which: format!("sheet {number} of {count}"),
        boxes: vec![format!("label reads {}", liner.name), "flat, no deep scratch".to_owned()],
        blanks: vec![("width, both ends", 2, short.clone()), ("length, both sides", 2, long.clone())],
        entry: String::new(),
    };
    SupplyLine {
        quantity: counted(count, "sheet"),
        what: format!("{}, {short} × {long}", liner.name),
        terms: vec![("store", "flat, out of the sun, until they are cut".to_owned())],
        checks: (1..=count).map(check).collect(),
    }
}
