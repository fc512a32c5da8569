//! The plan of a job: every part laid flat and proven, every sheet nested and verified, every sheet's metal accounted
//! for. No files, no printing.

pub(crate) mod balance;
mod bars;
mod bending;
mod by_order;
mod choosing;
mod coverings;
mod entries;
mod fits;
mod grid;
mod kept_drops;
mod left_metal;
mod liners;
mod nesting;
mod no_nest;
mod ordered;
mod others;
mod part;
pub(crate) mod standing;
mod stock_shape;
mod straight_cuts;
mod use_of_sheet;

use std::sync::atomic::{AtomicBool, Ordering};

use estimate::ScrapReport;
use job::{Job, Part};
use rayon::prelude::*;
use units::Mass;

pub(crate) use bars::{CutBar, pieces_of_bar};
pub(crate) use bending::{chart_v_words, machine_assumptions, overbend_of, us_tons, v_of};
pub(crate) use coverings::{LaidCovering, Panel};
pub(crate) use fits::{PlannedFit, box_round, reach_of, round_of};
pub(crate) use grid::{area_of, length_of};
pub(crate) use kept_drops::{KeptDrop, drop_words, in_hand};
pub(crate) use left_metal::LeftMetal;
pub(crate) use liners::{CutLiner, Paneled, Side, at_each_end};
pub(crate) use nesting::{CuttingOrder, FlatPlace, MetalNest, PlannedSheet, choice_words, effort};
pub(crate) use no_nest::no_nest_words;
pub(crate) use ordered::{sheet_lines, stick_lines};
pub(crate) use others::Others;
pub(crate) use part::{PlannedPart, caliper, finer, marked_with};
pub(crate) use stock_shape::{blemish_words, sheet_words};
pub(crate) use straight_cuts::{nearest_mark, on_the_tape};
pub(crate) use use_of_sheet::{LaidSheet, rack_mark};

use crate::speech::Refusal;
use part::{MadePart, PartTrouble};

/// All flats of a job.
#[derive(Debug, Clone)]
pub(crate) struct Flats {
    /// The job.
    pub(crate) job: Job,
    /// Name of the file it came from, for messages.
    pub(crate) file: String,
    /// Parts in the job's order.
    pub(crate) parts: Vec<PlannedPart>,
    /// Questions about the places they go to, answered.
    pub(crate) fits: Vec<PlannedFit>,
}

impl Flats {
    /// Weight of all parts: the sum of what each prints, as the cut list has it, so that there is one sum on all paper.
    pub(crate) fn weight(&self) -> Mass {
        let each = |part: &PlannedPart| part.weight.of_pieces(part.part.quantity, balance::units(self).0);
        self.parts.iter().map(each).sum()
    }
}

/// The whole plan.
#[derive(Debug, Clone)]
pub(crate) struct Plan {
    /// The flats.
    pub(crate) flats: Flats,
    /// One nest a metal that has parts.
    pub(crate) nests: Vec<MetalNest>,
    /// What becomes of every sheet.
    pub(crate) report: ScrapReport,
    /// True when the search was ended before its evaluations were used: the same job need not give this nest again.
    pub(crate) ended_early: bool,
}

impl Plan {
    /// Length of all cuts that serve two parts, mm.
    pub(crate) fn shared_mm(&self) -> f64 {
        let sheets = self.nests.iter().flat_map(|nest| &nest.sheets);
        sheets.flat_map(|sheet| &sheet.shared).map(shared_length_mm).sum()
    }
}

/// Length of a cut that serves two parts, mm.
pub(crate) fn shared_length_mm(cut: &nest::SharedCut) -> f64 {
    let [[from, to], _] = cut.sides;
    let [x, y] = [to.x - from.x, to.y - from.y].map(|steps| length_of(steps).millimetres());
    (x * x + y * y).sqrt()
}

/// Lays every part of `job` flat.
///
/// # Errors
/// All problems of all parts at once, or a failed refold proof.
pub(crate) fn flats(file: &str, job: Job) -> Result<Flats, Refusal> {
    flats_bent_by(file, job, |_| None)
}

/// Lays every part of `job` flat; a part for which `other` gives a job of the same parts is judged by the machines of that one.
///
/// # Errors
/// As for [`flats`].
pub(crate) fn flats_bent_by<'a>(
    file: &str,
    job: Job,
    other: impl Fn(usize) -> Option<&'a Job> + Sync,
) -> Result<Flats, Refusal> {
    let by = |number: usize| other(number).unwrap_or(&job);
    let numbered = || job.parts.par_iter().enumerate();
    let made: Vec<Result<MadePart, PartTrouble>> =
        numbered().map(|(number, part)| PlannedPart::made(file, by(number), part)).collect();
    let with_order = made.iter().all(Result::is_ok);
    let judged = |((number, part), made): ((usize, &Part), Result<MadePart, PartTrouble>)| {
        PlannedPart::judged(by(number), part, made?, with_order, &|problem| part.message(file, problem))
    };
    let planned: Vec<Result<PlannedPart, PartTrouble>> = numbered().zip(made).map(judged).collect();
    let (mut parts, mut messages, mut unmakeable) = (Vec::new(), Vec::new(), Vec::new());
    let mut parts_of_no = 0;
    for outcome in planned {
        match outcome {
            Ok(part) => parts.push(part),
            Err(PartTrouble::Messages(more)) => {
                // Pieces of one whole find the same trouble; it is said once.
                let more = more.iter().map(ToString::to_string);
                let news: Vec<String> = more.filter(|message| !messages.contains(message)).collect();
                messages.extend(news);
            }
            Err(PartTrouble::No(more)) => {
                parts_of_no += 1;
                unmakeable.extend(more.iter().map(ToString::to_string));
            }
            Err(PartTrouble::Proof(message)) => return Err(Refusal::ProofFailed(message)),
        }
    }
    if !messages.is_empty() {
        messages.extend(unmakeable);
        return Err(Refusal::BadInput(messages));
    }
    if !unmakeable.is_empty() {
        return Err(Refusal::CannotBeMade { reasons: unmakeable, parts: parts_of_no });
    }
    let fits = fits::fits(file, &job, &parts).map_err(Refusal::BadInput)?;
    Ok(Flats { job, file: file.to_owned(), parts, fits })
}

/// Cuts the job's bars.
///
/// # Errors
/// As for [`bars::cut`].
pub(crate) fn cut_bars(flats: &Flats) -> Result<Vec<CutBar>, Refusal> {
    bars::cut(&flats.file, &flats.job, &flats.parts)
}

/// How a search may be ended before its evaluations are used.
#[derive(Clone, Copy)]
pub(crate) struct Ending<'a> {
    /// True once all shall stop with the best so far.
    pub(crate) stop: &'a AtomicBool,
    /// True once the look at hand has had its share, or all shall stop.
    pub(crate) is_over: &'a AtomicBool,
    /// True once a look was ended by its share.
    pub(crate) was_cut_short: &'a AtomicBool,
    /// Begins a look, with how many are still to come, this one counted; 0 after the last.
    pub(crate) begin: &'a (dyn Fn(usize) + Sync),
}

/// Nests the flats and accounts for the sheets. `progress` hears of every better nest; once `ending` says so, the best
/// nests so far are taken.
///
/// # Errors
/// Parts that fit no sheet, or a failed proof.
pub(crate) fn plan(
    flats: Flats,
    progress: &(dyn Fn(&str) + Sync),
    ending: &Ending<'_>,
) -> Result<Plan, Refusal> {
    let (mut compared, mut messages) = (Vec::new(), Vec::new());
    let has_parts = |metal: &usize| flats.parts.iter().any(|part| part.part.metal == *metal);
    let metals: Vec<usize> = (0..flats.job.metals.len()).filter(has_parts).collect();
    for (number, &metal) in metals.iter().enumerate() {
        let name = &flats.job.metals[metal].metal.name;
        let heard = |news: &nest::Progress| {
            let sizes = nesting::sizes_words(&flats.job, metal, news.choice);
            progress(&format!("{name}, {sizes}: {} sheet(s) so far", news.sheets));
        };
        let watch = nest::Watch { progress: &heard, stop: ending.stop };
        let later: usize =
            metals[number + 1..].iter().map(|&metal| nesting::choices(&flats.job, metal)).sum();
        let begin = |left: usize| (ending.begin)(if left == 0 { 0 } else { left + later });
        let pace = nest::Pace { begin: &begin, is_over: ending.is_over };
        match nesting::compare(&flats.file, &flats.job, metal, &flats.parts, (&watch, pace)) {
            Ok(nests) => compared.push(nests),
            Err(Refusal::BadInput(more)) => messages.extend(more),
            Err(other) => return Err(other),
        }
    }
    if !messages.is_empty() {
        return Err(Refusal::BadInput(messages));
    }
    let ended_early = [ending.stop, ending.was_cut_short].iter().any(|flag| flag.load(Ordering::Relaxed));
    let rows = choosing::choose(&flats, &compared);
    let chosen = compared.into_iter().zip(rows);
    let nests: Vec<MetalNest> =
        chosen.map(|(metal, row)| metal.chosen(&flats.job, &flats.parts, row)).collect();
    let laid: Vec<estimate::SheetUse> =
        nests.iter().flat_map(|nest| nest.sheets.iter().map(|sheet| sheet.laid.measure())).collect();
    let report = estimate::scrap_report(&laid)
        .map_err(|error| Refusal::ProofFailed(format!("{}: scrap report: {error}", flats.file)))?;
    Ok(Plan { flats, nests, report, ended_early })
}
