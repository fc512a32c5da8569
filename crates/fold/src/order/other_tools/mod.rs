//! Other tools with which a part can be bent that those of the shop cannot bend: each is tried on the whole part.

mod folder;
mod press;

use stock::brake::Machine;
use units::Length;

use super::bench::Bench;
use super::blocks::Memory;
use super::itself::Pairs;
use super::search::{Ended, Mode, Wanted, search};
use super::stroke::Trials;
use super::{Hindered, bodies, hindered as of_stroke, past_the_least};

/// Most bends of a piece for which other tools are tried.
const MOST_BENDS: usize = 14;

/// Most machines that are tried on a piece of few bends: each costs a search for an order.
const MOST_TRIES: usize = 48;

/// Machines tried, times the square of the number of bends that each is tried with: a search takes longer with every bend.
const MOST_WORK: usize = 2_000;

/// Steps by which a height that is enough is brought down while it still is: 1, 1/2 and 1/4 in.
const FINER: [Length; 3] =
    [Length::from_sixty_fourths(64), Length::from_sixty_fourths(32), Length::from_sixty_fourths(16)];

/// How much higher tools are tried, and in how many steps: 6 in by 2 in (common practice, no source).
const HIGHER: [Length; 3] = [
    Length::from_sixty_fourths(2 * 64),
    Length::from_sixty_fourths(4 * 64),
    Length::from_sixty_fourths(6 * 64),
];

/// Step of throats that are tried: 1 in.
const THROAT_STEP: Length = Length::from_sixty_fourths(64);

/// Deeper throats are not tried: no common machine has one (common practice, no source).
const DEEPEST_THROAT: Length = Length::from_sixty_fourths(60 * 64);

/// What trying other tools showed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum OtherTools {
    /// None was tried: nothing of the machine that could be exchanged is in the way, or there are too many bends.
    NotTried,
    /// None of those tried was enough.
    NoneFound(Tried),
    /// With these it can be bent.
    Enough(Tool),
}

/// What was tried.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Tried {
    /// More sections of the punch.
    pub more_sections: bool,
    /// Goosenecks.
    pub gooseneck: bool,
    /// Taller punches.
    pub taller_punch: bool,
    /// More between bed and ram, open.
    pub open_height: bool,
    /// A narrower die block.
    pub narrower_die: bool,
    /// A taller die.
    pub taller_die: bool,
    /// A higher clamp bar, or longer fingers.
    pub higher_clamp: bool,
    /// Fingers in the place of a clamp bar.
    pub fingers_for_bar: bool,
    /// More fingers.
    pub more_fingers: bool,
    /// A flatter nose of the clamp.
    pub flatter_nose: bool,
    /// A deeper throat.
    pub throat: bool,
}

/// What the machine must have; the rest as it is.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Tool {
    /// So many sections of the punch besides those that the shop has, as [`halved_sections`]; never with another punch.
    pub more_sections: u8,
    /// A gooseneck punch cut back so far.
    pub relief: Option<Length>,
    /// A punch so high.
    pub height: Option<Length>,
    /// So much between bed and ram, open.
    pub daylight: Option<Length>,
    /// A die block so wide.
    pub die_width: Option<Length>,
    /// A die so high.
    pub die_height: Option<Length>,
    /// A clamp bar so high, or fingers so long: as deep as a box can be.
    pub clamp_height: Option<Length>,
    /// Fingers in the place of a clamp bar.
    pub fingers_for_bar: bool,
    /// Fingers besides those that the shop has, four at the most.
    pub more_fingers: [Option<Length>; 4],
    /// So flat a nose of the clamp, degrees from the sheet.
    pub nose_degrees: Option<f64>,
    /// A throat so deep.
    pub throat: Option<Length>,
    /// The order then meets sizes that are only assumed, none of them the punch's.
    pub past_assumed: bool,
}

/// So many sections besides a shop's own: half of its shortest, and half of that.
#[must_use]
pub fn halved_sections(own: &[Length], count: u8) -> Vec<Length> {
    let shortest = own.iter().min().copied().unwrap_or(Length::ZERO);
    (1..=count).map(|number| Length::from_nanometres(shortest.nanometres() >> number)).collect()
}

/// What of the machine is in the way, by its given size.
struct Met<'a>(&'a [Hindered]);

impl Met<'_> {
    /// A body that metal meets which no longer lies flat beside the bend.
    fn body(&self, name: &str) -> bool {
        self.0.iter().any(|one| !one.assumed && !one.flat && one.body == name)
    }

    /// The frame behind the throat, which the flat sheet meets as well.
    fn throat(&self) -> bool {
        self.0.iter().any(|one| !one.assumed && one.body == bodies::THROAT_FRAME)
    }
}

/// Tries other tools on a piece, given by its bends and faces, of which `hindered` tells what is in the way. Where that is the
/// frame behind the throat, also tells what would still be in the way with the deepest: turned round, a part may leave the
/// throat alone and want another punch instead.
pub(super) fn of(
    trials: &Trials<'_>,
    (machine, v_opening_mm): (&Machine, Option<f64>),
    piece: (&[usize], &[usize]),
    hindered: &[Hindered],
) -> (OtherTools, Vec<Hindered>) {
    let (bends, _) = piece;
    if MOST_BENDS < bends.len() {
        return (OtherTools::NotTried, Vec::new());
    }
    let own_throat = match machine {
        Machine::Press(press) => press.throat,
        Machine::Folder(folder) => folder.throat,
    };
    let deeper = own_throat.filter(|_| Met(hindered).throat()).filter(|own| *own < DEEPEST_THROAT);
    let deepest = Tool { throat: deeper.map(|_| DEEPEST_THROAT), ..Tool::default() };
    let past_throat = match deeper {
        Some(_) => on(trials, (&with(machine, deepest), v_opening_mm), |trials| listed(trials, piece)),
        None => Vec::new(),
    };
    let all = [hindered, &past_throat].concat();
    let (mut candidates, mut tried) = match machine {
        Machine::Press(press) => press::candidates(press, v_opening_mm, &Met(&all)),
        Machine::Folder(folder) => folder::candidates(folder, &Met(&all)),
    };
    if deeper.is_some() {
        // First all else as it is, then the throat as it is, then both.
        let both = candidates.iter().map(|tool| Tool { throat: deepest.throat, ..*tool });
        candidates = [vec![deepest], candidates.clone(), both.collect()].concat();
        tried.throat = true;
    }
    if candidates.is_empty() {
        return (OtherTools::NotTried, past_throat);
    }
    let enough = |tool: Tool| {
        on(trials, (&with(machine, tool), v_opening_mm), |trials| {
            let ended = past_the_least(trials, piece, Wanted::Any);
            let (Ended::Order(strokes) | Ended::Unproven(strokes)) = ended else {
                return None;
            };
            let mut assumed = strokes.iter().flat_map(|stroke| &stroke.hindrances);
            let past_assumed = assumed.clone().next().is_some();
            // A punch of which a size is still only assumed, and in the way, is not known to be enough.
            let clear = !assumed.any(|one| bodies::is_punch(one.body));
            clear.then_some(Tool { past_assumed, ..tool })
        })
    };
    let most = (MOST_WORK / (bends.len() * bends.len()).max(1)).min(MOST_TRIES);
    let Some(mut tool) = first(&candidates, most, enough) else {
        return (OtherTools::NoneFound(tried), past_throat);
    };
    tool = match machine {
        Machine::Press(press) => press::least(press, tool, enough),
        Machine::Folder(_) => folder::least(tool, enough),
    };
    if let (Some(own), Some(_)) = (deeper, tool.throat) {
        tool = least_throat(own, tool, enough);
    }
    (OtherTools::Enough(tool), past_throat)
}

/// Does something with the part on another machine.
fn on<T>(
    trials: &Trials<'_>,
    (machine, v_opening_mm): (&Machine, Option<f64>),
    what: impl FnOnce(&mut Trials<'_>) -> T,
) -> T {
    let bench = Bench::of(machine, v_opening_mm);
    what(&mut Trials {
        metal: trials.metal,
        routes: trials.routes,
        bench: &bench,
        memory: Memory::default(),
        pairs: Pairs::default(),
    })
}

/// What stands in the way there in the order that meets least of it; nothing where that is not found.
fn listed(trials: &mut Trials<'_>, piece: (&[usize], &[usize])) -> Vec<Hindered> {
    match search(trials, piece, (Mode::Listing, Wanted::Any)) {
        Ended::Order(strokes) | Ended::Unproven(strokes) => {
            strokes.iter().flat_map(|stroke| of_stroke(trials, stroke)).collect()
        }
        Ended::Stuck(_) | Ended::GaveUp => Vec::new(),
    }
}

/// The first candidate that is enough. Of more than `most` every so manieth is tried, and then those just before one that is.
fn first(candidates: &[Tool], most: usize, enough: impl Fn(Tool) -> Option<Tool>) -> Option<Tool> {
    let stride = candidates.len().div_ceil(most.max(1));
    let mut looked = (0..candidates.len()).step_by(stride);
    let (at, tool) = looked.find_map(|at| Some((at, enough(candidates[at])?)))?;
    let passed_over = (at + 1).saturating_sub(stride)..at;
    Some(candidates[passed_over].iter().find_map(|tool| enough(*tool)).unwrap_or(tool))
}

/// A height that is enough, brought down in finer steps while it still is; `set` gives a tool another one.
fn lower(
    tool: Tool,
    height: Option<Length>,
    set: impl Fn(Tool, Length) -> Tool,
    enough: impl Fn(Tool) -> Option<Tool>,
) -> Tool {
    let Some(mut height) = height else { return tool };
    let mut tool = tool;
    for step in FINER {
        if let Some(lower) = enough(set(tool, height - step)) {
            (tool, height) = (lower, height - step);
        }
    }
    tool
}

/// The shallowest throat that is enough: whatever a shallower one lets pass, a deeper one does.
fn least_throat(own: Length, found: Tool, enough: impl Fn(Tool) -> Option<Tool>) -> Tool {
    let steps = (DEEPEST_THROAT - own).nanometres() / THROAT_STEP.nanometres();
    let (mut short, mut deep, mut tool) = (0, steps + 1, found);
    while short + 1 < deep {
        let middle = (short + deep) / 2;
        match enough(Tool { throat: Some(own + THROAT_STEP * middle), ..tool }) {
            Some(better) => (deep, tool) = (middle, better),
            None => short = middle,
        }
    }
    tool
}

/// A machine with such a tool in the place of its own.
fn with(machine: &Machine, tool: Tool) -> Machine {
    match machine {
        Machine::Press(own) => Machine::Press(press::with(own, tool)),
        Machine::Folder(own) => Machine::Folder(folder::with(own, tool)),
    }
}
