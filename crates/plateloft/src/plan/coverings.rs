//! Roll goods: every piece in panels, laid on as little roll as is found.

use job::{CoveringPiece, Job, JobCovering};
use nest::covering::{Cloth, CoveringError, InPattern, Laid, PATCH_LIMIT, Patch, lay};
use units::{Area, Length, LengthStyle, Money, rounding};

use super::entries::{self, Trouble, Wrong};
use super::grid::{length_of, steps_up};
use crate::speech::Refusal;

/// How long each roll good is looked at.
const EFFORT: nest::Effort = nest::Effort { evaluations: 100_000, starts: 1, seed: 1 };

/// One roll good with what is cut from it.
#[derive(Debug, Clone)]
pub(crate) struct LaidCovering {
    /// Which, by its place in the job.
    pub(crate) covering: usize,
    /// Every panel, in the order of `laid`.
    pub(crate) panels: Vec<Panel>,
    /// Where they lie, checked.
    pub(crate) laid: Laid,
    /// Length to buy of each roll.
    pub(crate) buy: Vec<Length>,
    /// What becomes of the area bought.
    pub(crate) areas: CoveringAreas,
}

/// A panel of a piece; a piece without seams is one panel.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Panel {
    /// Which piece, by its place in the covering.
    pub(crate) piece: usize,
    /// Which of its copies, from 1.
    pub(crate) copy: u32,
    /// Which panel of how many, from 1, the leftmost first.
    pub(crate) number: (usize, usize),
    /// From the piece's left side to the panel's, its seam allowance counted.
    pub(crate) begins: Length,
    /// Size along the nap and across it, as cut.
    pub(crate) size: [Length; 2],
}

/// Bought = pieces + seam allowance + selvedge + squaring + waste, exactly; the waste is lost at pattern starts, at the ends of rolls, and
/// beside and between pieces.
#[derive(Debug, Clone, Copy)]
pub(crate) struct CoveringAreas {
    /// All rolls.
    pub(crate) bought: Area,
    /// The pieces as they lie in place.
    pub(crate) pieces: Area,
    /// What panels are wider for their seams.
    pub(crate) allowance: Area,
    /// Cut off both sides.
    pub(crate) selvedge: Area,
    /// Cut off the ends of rolls to make them square, between the selvedges.
    pub(crate) squaring: Area,
    /// From the ends of pieces to where the pattern starts again, as far as the roll is used.
    pub(crate) at_starts: Area,
    /// From what is used of every roll to the length bought.
    pub(crate) at_ends: Area,
    /// The rest.
    pub(crate) between: Area,
}

impl CoveringAreas {
    /// All that is cut off but the selvedge.
    pub(crate) fn waste(&self) -> Area {
        self.at_starts + self.at_ends + self.between
    }
}

impl LaidCovering {
    /// Length to buy of all rolls.
    pub(crate) fn length(&self) -> Length {
        self.buy.iter().copied().sum()
    }

    /// True when no shorter length is possible, whichever seams are taken of those allowed.
    pub(crate) fn is_least(&self, job: &Job) -> bool {
        self.laid.is_proved() && !self.has_other_seams(job)
    }

    /// True when pieces may be parted otherwise than they are, so that what is proved holds for these panels alone.
    pub(crate) fn has_other_seams(&self, job: &Job) -> bool {
        job.coverings[self.covering].pieces.iter().any(|piece| piece.other_seams)
    }

    /// True when less to buy is not excluded although less used is: several lengths are each sold in whole steps.
    pub(crate) fn may_buy_less(&self, job: &Job) -> bool {
        let least = whole_steps(&job.coverings[self.covering], length_of(self.laid.least));
        self.laid.is_proved() && 1 < self.buy.len() && least < self.length()
    }

    /// What it costs, rounded to the cent once.
    pub(crate) fn price(&self, job: &Job) -> Option<Money> {
        let (price, per) = job.coverings[self.covering].price?;
        let product = i128::from(price.cents()) * i128::from(self.length().nanometres());
        let cents = rounding::divide(product, i128::from(per.nanometres()))?;
        i64::try_from(cents).ok().map(Money::from_cents)
    }
}

/// Lays every roll good of the job.
///
/// # Errors
/// Pieces that cannot be laid, or a layout that fails its check.
pub(super) fn lay_all(file: &str, job: &Job) -> Result<Vec<LaidCovering>, Refusal> {
    entries::each(file, "coverings", &job.coverings, |number, covering| {
        let panels: Vec<Panel> = panels(covering);
        match lay(&cloth(covering), &patches(covering, &panels), &EFFORT) {
            Ok(found) => Ok(bought(number, covering, panels, found)),
            Err(error) => Err(trouble(covering, &panels, error, job.style)),
        }
    })
}

/// What the job gave that cannot be laid, by its field.
fn trouble(covering: &JobCovering, panels: &[Panel], error: CoveringError, style: LengthStyle) -> Trouble {
    let print = |length: Length| length.print(style);
    let piece = |patch: usize| (panels[patch].piece, &covering.pieces[panels[patch].piece]);
    let size = |patch: usize, wrong: &str, remedy: &str| {
        let (number, piece) = piece(patch);
        let size = piece.size.map(print).join(" × ");
        (format!("pieces[{number}].size"), format!("{size}: {} {wrong}\n    {remedy}", piece.mark))
    };
    let (field, words) = match error {
        CoveringError::Unsound(fault) => return Trouble::Proof(fault.to_string()),
        CoveringError::Count { count } => (
            "pieces".to_owned(),
            format!(
                "{count} panels: no more than {PATCH_LIMIT} are laid on one kind of roll\n    divide {} into two entries",
                covering.name
            ),
        ),
        CoveringError::Size => {
            let width = print(covering.width);
            (
                "width".to_owned(),
                format!("{width}: is no width of a roll\n    check width, selvedge, squaring and longest"),
            )
        }
        CoveringError::TooWide { patch, .. } => size(
            patch,
            "does not go on the width of the roll",
            "allow a seam under seams, or take a wider roll",
        ),
        CoveringError::TooLong { patch, .. } => size(
            patch,
            "is longer than the longest roll behind its squared end",
            "divide it into pieces of their own marks",
        ),
        CoveringError::OffPattern { patch, .. } => {
            let (number, piece) = piece(patch);
            let seams: Vec<String> = piece.seams.iter().copied().map(print).collect();
            let words = format!(
                "{}: panels of {} with seams there meet in a pattern of {} nowhere on the {} of the roll that can be \
                 used, wherever the pattern starts\n    allow seams where narrower panels come of it, or take a wider roll",
                seams.join(", "),
                piece.mark,
                covering.repeat_across.map(print).unwrap_or_default(),
                print(covering.usable())
            );
            (format!("pieces[{number}].seams"), words)
        }
    };
    Trouble::Input(vec![Wrong { field, words }])
}

fn cloth(covering: &JobCovering) -> Cloth {
    Cloth {
        // Rounded as pieces are, or one that is as wide as the roll would not go on it. That none is wider, the job has seen to.
        width: steps_up(covering.usable()),
        longest: covering.longest.map(steps_up),
        repeat: covering.repeat.map(steps_up),
        repeat_across: covering.repeat_across.map(steps_up),
        squaring: steps_up(covering.squaring),
    }
}

fn panels(covering: &JobCovering) -> Vec<Panel> {
    let of_piece = |(piece, wanted): (usize, &CoveringPiece)| {
        let mut bounds = vec![Length::ZERO];
        bounds.extend(&wanted.seams);
        bounds.push(wanted.size[1]);
        let count = bounds.len() - 1;
        let mut panels = Vec::new();
        for copy in 1..=wanted.quantity {
            for (index, ends) in bounds.windows(2).enumerate() {
                let extra = |is_seam: bool| if is_seam { covering.seam_allowance } else { Length::ZERO };
                let begins = ends[0] - extra(0 < index);
                let width = ends[1] + extra(index + 1 < count) - begins;
                let size = [wanted.size[0], width];
                panels.push(Panel { piece, copy, number: (index + 1, count), begins, size });
            }
        }
        panels
    };
    covering.pieces.iter().enumerate().flat_map(of_piece).collect()
}

fn patches(covering: &JobCovering, panels: &[Panel]) -> Vec<Patch> {
    let patch = |(number, panel): (usize, &Panel)| Patch {
        mark: covering.pieces[panel.piece].mark.clone(),
        length: steps_up(panel.size[0]),
        width: steps_up(panel.size[1]),
        may_turn: !covering.nap,
        pattern: (1 < panel.number.1).then(|| InPattern {
            // The first panel of a piece stands for it.
            piece: number + 1 - panel.number.0,
            begins: steps_up(panel.begins),
        }),
    };
    panels.iter().enumerate().map(patch).collect()
}

/// A length in as many of the steps that it is sold by as it takes.
fn whole_steps(covering: &JobCovering, used: Length) -> Length {
    let Some(step) = covering.sold_by else { return used };
    step * (used.nanometres() + step.nanometres() - 1).div_euclid(step.nanometres())
}

fn bought(number: usize, covering: &JobCovering, panels: Vec<Panel>, laid: Laid) -> LaidCovering {
    let whole = |used: &i64| {
        let length = whole_steps(covering, length_of(*used));
        // The longest roll is sold whole, whatever it measures.
        covering.longest.map_or(length, |longest| length.min(longest))
    };
    let buy: Vec<Length> = laid.used.iter().map(whole).collect();
    let length: Length = buy.iter().copied().sum();
    let pieces: Area =
        covering.pieces.iter().map(|piece| piece.size[0] * piece.size[1] * i64::from(piece.quantity)).sum();
    let cut: Area = panels.iter().map(|panel| panel.size[0] * panel.size[1]).sum();
    let (bought, selvedge) = (length * covering.width, length * (covering.selvedge + covering.selvedge));
    let allowance = cut - pieces;
    let at_starts = lost_at_starts(&cloth(covering), &panels, &laid);
    let unused = laid.used.iter().zip(&buy).map(|(used, buy)| (*buy - length_of(*used)).max(Length::ZERO));
    let at_ends = unused.sum::<Length>() * covering.usable();
    let rolls = i64::try_from(laid.rolls.len()).unwrap_or(i64::MAX);
    let squaring = covering.squaring * rolls * covering.usable();
    let between = bought - pieces - allowance - selvedge - squaring - at_starts - at_ends;
    let areas = CoveringAreas { bought, pieces, allowance, selvedge, squaring, at_starts, at_ends, between };
    LaidCovering { covering: number, panels, laid, buy, areas }
}

/// What lies between the ends of panels and the next start of the pattern: no other panel reaches into it, for it would have to
/// begin there.
fn lost_at_starts(cloth: &Cloth, panels: &[Panel], laid: &Laid) -> Area {
    if cloth.repeat.is_none() {
        return Area::ZERO;
    }
    let lost = laid.rolls.iter().zip(&laid.used).flat_map(|(roll, used)| {
        roll.iter().map(move |placed| {
            let panel = &panels[placed.patch];
            let [along, across] = if placed.turned { [panel.size[1], panel.size[0]] } else { panel.size };
            let end = length_of(placed.x) + along;
            let next = length_of(cloth.next_start(steps_up(end)).min(*used - cloth.squaring));
            (next - end).max(Length::ZERO) * across
        })
    });
    lost.sum()
}
