//! Wear liner: every face in equal panels with room to grow, cut from as few sheets as are found.

use std::sync::atomic::AtomicBool;

use job::{Job, JobLiner, LinedArea};
use nest::rect::{Cutting, Fault, Packing, Piece, Problem, Watch, pack};
use units::{Length, Money};

use super::entries::{self, Trouble, Wrong};
use super::grid::{steps_down, steps_up};
use crate::speech::Refusal;

/// How long each liner is looked at.
const EFFORT: nest::Effort = nest::Effort { evaluations: 20_000, starts: 2, seed: 1 };

/// The most panels along one side of a face.
const MOST_PANELS: i64 = 100;

/// One liner with its panels.
#[derive(Debug, Clone)]
pub(crate) struct CutLiner {
    /// Which, by its place in the job.
    pub(crate) liner: usize,
    /// How every face is divided, in the job's order.
    pub(crate) faces: Vec<Paneled>,
    /// The sheets.
    pub(crate) packing: Packing,
}

/// A face in panels.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Paneled {
    /// Along its length, then along its width.
    pub(crate) sides: [Side; 2],
}

/// One side of a face in panels.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Side {
    /// How many.
    pub(crate) count: i64,
    /// Size of one.
    pub(crate) panel: Length,
    /// Gap between two when laid; half of it, rounded, is left at both ends of the side.
    pub(crate) gap: Length,
    /// What a panel grows until the warmest.
    pub(crate) growth: Length,
    /// The gap at the coldest.
    pub(crate) cold_gap: Length,
}

/// Half of a gap, which is left at each end of a side.
pub(crate) fn at_each_end(gap: Length) -> Length {
    Length::from_nanometres(gap.nanometres() / 2)
}

impl CutLiner {
    /// What it costs.
    pub(crate) fn price(&self, job: &Job) -> Option<Money> {
        let sheets = i64::try_from(self.packing.sheets.len()).ok()?;
        job.liners[self.liner].price.map(|price| price * sheets)
    }
}

/// Divides and packs every liner of the job.
///
/// # Errors
/// A face too small for a panel and its gap, or a packing that fails its check.
pub(super) fn cut_all(file: &str, job: &Job) -> Result<Vec<CutLiner>, Refusal> {
    entries::each(file, "liners", &job.liners, |number, liner| {
        let faces = all_paneled(liner, job)?;
        Ok(CutLiner { liner: number, packing: packed(liner, &faces, job)?, faces })
    })
}

/// Every face in panels, or all those that cannot be divided.
fn all_paneled(liner: &JobLiner, job: &Job) -> Result<Vec<Paneled>, Trouble> {
    let (mut faces, mut undivided) = (Vec::new(), Vec::new());
    for (number, LinedArea { mark, size, .. }) in liner.areas.iter().enumerate() {
        match paneled(*size, liner, job.tape) {
            Some(face) => faces.push(face),
            None => undivided.push(Wrong {
                field: format!("areas[{number}].size"),
                words: format!(
                    "{}: {mark} cannot be divided into panels that leave room to grow\n    check its size, the sheet, and \
                     the temperatures",
                    size.map(|side| side.print(job.style)).join(" × ")
                ),
            }),
        }
    }
    if undivided.is_empty() { Ok(faces) } else { Err(Trouble::Input(undivided)) }
}

fn packed(liner: &JobLiner, faces: &[Paneled], job: &Job) -> Result<Packing, Trouble> {
    let piece = |(LinedArea { mark, quantity, .. }, face): (&LinedArea, &Paneled)| {
        let [along, across] = face.sides;
        let count = along.count * across.count * i64::from(*quantity);
        Piece {
            mark: mark.clone(),
            length: steps_up(along.panel),
            width: steps_up(across.panel),
            quantity: u32::try_from(count).unwrap_or(u32::MAX),
            may_turn: true,
        }
    };
    let pieces = liner.areas.iter().zip(faces).map(piece).collect();
    let [length, width] = liner.sheet.map(steps_down);
    let problem = Problem::new(pieces, (length, width), steps_up(liner.kerf), Cutting::Free)
        .map_err(|faults| Trouble::Input(faults.iter().map(|fault| wrong(liner, fault, job)).collect()))?;
    let stop = AtomicBool::new(false);
    let watch = Watch { stop: &stop };
    pack(&problem, &EFFORT, watch).map_err(|error| Trouble::Proof(error.to_string()))
}

/// What the job gave that cannot be packed, by its field.
fn wrong(liner: &JobLiner, fault: &Fault, job: &Job) -> Wrong {
    let print = |length: Length| length.print(job.style);
    let area = |mark: &str, field: &str| {
        let number = liner.areas.iter().position(|area| area.mark == mark).unwrap_or(0);
        (format!("areas[{number}].{field}"), &liner.areas[number])
    };
    let (field, words) = match fault {
        Fault::Gap { .. } => {
            let kerf = print(liner.kerf);
            ("kerf".to_owned(), format!("{kerf}: is as wide as the sheet\n    check kerf and sheet"))
        }
        Fault::Size { mark, .. } | Fault::TooLarge { mark, .. } => {
            let (field, LinedArea { size, .. }) = area(mark, "size");
            let size = size.map(print).join(" × ");
            (field, format!("{size}: a panel of {mark} goes on no sheet\n    check its size and the sheet"))
        }
        Fault::Quantity { mark, limit, .. } => {
            let (field, LinedArea { quantity, .. }) = area(mark, "quantity");
            let wrong = format!("comes to more panels than the {limit} that are packed at once");
            (field, format!("{quantity}: {mark} {wrong}\n    divide {} into two entries", liner.name))
        }
        Fault::Sheet { .. } | Fault::NoPieces | Fault::Shear => {
            let sheet = liner.sheet.map(print).join(" × ");
            ("sheet".to_owned(), format!("{sheet}: {fault}\n    check sheet and areas"))
        }
    };
    Wrong { field, words }
}

/// The way of laying sheets on a face that takes fewest panels; the sheet's length along the face's where both are equal.
fn paneled(size: [Length; 2], liner: &JobLiner, tape: Length) -> Option<Paneled> {
    let [long, short] = liner.sheet;
    let way = |sheet: [Length; 2]| {
        let first = side(size[0], sheet[0], liner, tape)?;
        let second = side(size[1], sheet[1], liner, tape)?;
        Some(Paneled { sides: [first, second] })
    };
    let ways = [way([long, short]), way([short, long])];
    ways.into_iter().flatten().min_by_key(|face| face.sides[0].count * face.sides[1].count)
}

/// The fewest equal panels that go on the sheet. Each has a share of the side to itself, and is smaller than that by its own
/// growth at least: its size is rounded down to the tape.
fn side(length: Length, sheet: Length, liner: &JobLiner, tape: Length) -> Option<Side> {
    (1..=MOST_PANELS).find_map(|count| {
        let share = Length::from_nanometres(length.nanometres().div_euclid(count));
        let room = share - liner.expansion.growth(share);
        let division = tape.nanometres().max(1);
        let panel = Length::from_nanometres(room.nanometres().div_euclid(division) * division);
        if panel <= Length::ZERO || sheet < panel {
            return None;
        }
        let gap = share - panel;
        let growth = liner.expansion.growth(panel);
        Some(Side { count, panel, gap, growth, cold_gap: gap + liner.expansion.shrinkage(panel) })
    })
}
