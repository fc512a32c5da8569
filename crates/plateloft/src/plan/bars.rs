//! Cutting bars, pipe and section from sticks.

use job::{Job, JobBar};
use nest::bar::{Effort, Piece, Problem, ProblemFault, Saw, Solution, SolveError, Stick, solve};
use units::Length;

use super::entries::{self, Trouble, Wrong};
use super::grid::{length_of, steps_down, steps_up};
use super::part::PlannedPart;
use crate::speech::Refusal;

/// One kind of bar with its cutting list.
#[derive(Debug, Clone)]
pub(crate) struct CutBar {
    /// Which, by its place in the job.
    pub(crate) bar: usize,
    /// Marks, lengths and counts: the job's own pieces, then rolled pipe.
    pub(crate) pieces: Vec<(String, Length, u32)>,
    /// Whether money was least, or else the length bought.
    pub(crate) by_money: bool,
    /// The list, checked.
    pub(crate) solution: Solution,
}

impl CutBar {
    /// How many sticks of this length are cut, by its place among the bar's.
    pub(crate) fn bought(&self, stick: usize) -> u32 {
        let count = self.solution.sticks.iter().filter(|used| used.stick == stick).count();
        u32::try_from(count).unwrap_or(u32::MAX)
    }
}

/// Cuts every bar of the job. Rolled pipe that no bar is named for is left to the take-off.
///
/// # Errors
/// Pieces longer than every stick, sticks that run out, or a list that fails its check.
pub(crate) fn cut(file: &str, job: &Job, parts: &[PlannedPart]) -> Result<Vec<CutBar>, Refusal> {
    entries::each(file, "bars", &job.bars, |number, bar| {
        let pieces = pieces_of_bar(bar, parts);
        let (by_money, solution) = cut_one(job, bar, &pieces)?;
        Ok(CutBar { bar: number, pieces, by_money, solution })
    })
}

/// Marks, lengths and counts of what is cut from a bar: the job's own pieces, then rolled pipe of its parts.
pub(crate) fn pieces_of_bar(bar: &JobBar, parts: &[PlannedPart]) -> Vec<(String, Length, u32)> {
    let own = bar.pieces.iter().map(|piece| (piece.mark.clone(), piece.length, piece.quantity));
    own.chain(parts.iter().filter_map(|part| rolled_pipe(bar, part))).collect()
}

/// The pipe of a step, where it is cut from this bar.
fn rolled_pipe(bar: &JobBar, part: &PlannedPart) -> Option<(String, Length, u32)> {
    let (_, length) = part.rolled_pipe().filter(|(name, _)| *name == bar.name)?;
    Some((format!("{} pipe", part.part.written_mark()), length, part.part.quantity))
}

fn cut_one(job: &Job, bar: &JobBar, pieces: &[(String, Length, u32)]) -> Result<(bool, Solution), Trouble> {
    let input = |words: String| {
        Trouble::Input(vec![Wrong { field: String::new(), words: format!("{}: {words}", bar.name) }])
    };
    let by_money = bar.sticks.iter().filter(|stick| !stick.on_rack).all(|stick| stick.price.is_some());
    let stick = |stick: &job::JobStick| {
        let length = steps_down(stick.length);
        let price = stick.price.filter(|_| by_money).map_or(length, units::Money::cents);
        Stick {
            name: stick.length.print(job.style),
            length,
            price: if stick.on_rack { 0 } else { price },
            limit: stick.count.map(|count| count as usize),
        }
    };
    let piece = |(mark, length, quantity): &(String, Length, u32)| Piece {
        mark: mark.clone(),
        length: steps_up(*length),
        quantity: *quantity as usize,
    };
    let saw = Saw {
        kerf: steps_up(bar.kerf),
        end_trim: steps_up(bar.end_trim),
        least_drop: bar.keep_rest.map_or(i64::MAX >> 20, steps_up),
    };
    let saw = Saw { least_drop: saw.least_drop.min(nest::bar::LENGTH_LIMIT), ..saw };
    let problem =
        Problem::new(pieces.iter().map(piece).collect(), bar.sticks.iter().map(stick).collect(), saw)
            .map_err(|faults| {
                input(faults.iter().map(|f| fault_words(job, f)).collect::<Vec<_>>().join("; "))
            })?;
    match solve(&problem, &effort(job)) {
        Ok(solution) => Ok((by_money, solution)),
        Err(error @ SolveError::Unsound { .. }) => Err(Trouble::Proof(error.to_string())),
        Err(error) => Err(input(format!("{error}\n    raise the count of sticks, or add a length"))),
    }
}

/// The most that the effort grows: nothing ends it before it is spent.
const MOST_TIMES: u64 = 20;

/// As much more than usual as the job asks for sheets, never less: what is proved of small lists needs the usual effort.
fn effort(job: &Job) -> Effort {
    let nest::Effort { evaluations, seed, .. } = super::nesting::effort(job);
    let times = (evaluations / super::nesting::EFFORT.evaluations).clamp(1, MOST_TIMES);
    Effort { seed, ..Effort::default() }.times(u32::try_from(times).unwrap_or(1))
}

fn fault_words(job: &Job, fault: &ProblemFault) -> String {
    let print = |steps: i64| length_of(steps).print(job.style);
    match fault {
        ProblemFault::TooLong { mark, length, longest } => format!(
            "{mark} of {} is longer than any stick, {} after trimming\n    add a longer stick, or splice the piece",
            print(*length),
            print(*longest)
        ),
        ProblemFault::NoPieces => {
            "nothing is cut from it\n    add pieces, name it as a step's pipe is named, or take it out"
                .to_owned()
        }
        other => format!("{other}\n    check sticks and pieces"),
    }
}
