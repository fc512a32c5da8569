//! Other tools of a press brake with which a part can be bent that those of the shop cannot bend: each is tried on the whole
//! part.

use stock::brake::{Machine, PressBrake, Profile};
use units::Length;

use super::bench::Bench;
use super::blocks::Memory;
use super::itself::Pairs;
use super::search::Ended;
use super::stroke::{PUNCH_SHUT_IN, TOOLS_FILL_IT, Trials};
use super::{Hindered, bodies, past_the_least};

/// Most bends of a piece for which other tools are tried.
const MOST_BENDS: usize = 14;

/// Step between the reliefs of goosenecks, and between heights of punches and open heights, that are tried first: 1/2 in and 1 in.
const STEPS: [Length; 2] = [Length::from_sixty_fourths(32), Length::from_sixty_fourths(64)];

/// The deepest gooseneck that is tried: 4 in, which is deep (common practice, no source).
const DEEPEST: Length = Length::from_sixty_fourths(4 * 64);

/// How much taller punches, and how much more open height, are tried: 6 in and 24 in (common practice, no source).
const MORE: [Length; 2] = [Length::from_sixty_fourths(6 * 64), Length::from_sixty_fourths(24 * 64)];

/// A gooseneck is at least so many times as high as it is cut back.
const RISE: i64 = 2;

/// What trying other tools showed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum OtherTools {
    /// None was tried: no tool of a press brake is in the way, or there are too many bends.
    NotTried,
    /// None of those tried was enough.
    NoneFound,
    /// With these it can be bent.
    Enough(Tool),
}

/// What a press brake must have; the rest as it is.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Tool {
    /// A gooseneck punch cut back so far.
    pub relief: Option<Length>,
    /// A punch so high.
    pub height: Option<Length>,
    /// So much between bed and ram, open.
    pub daylight: Option<Length>,
    /// The order then meets sizes that are only assumed, none of them the punch's.
    pub past_assumed: bool,
}

/// What of the machine is in the way.
struct Met {
    punch: bool,
    ram: bool,
    open_height: bool,
}

impl Met {
    fn of(hindered: &[Hindered]) -> Self {
        let met = |names: &[&str]| {
            hindered.iter().any(|one| !one.assumed && !one.flat && names.contains(&one.body))
        };
        Self {
            punch: met(&[bodies::PUNCH]),
            ram: met(&[bodies::RAM]),
            open_height: met(&[PUNCH_SHUT_IN, TOOLS_FILL_IT]),
        }
    }
}

/// Tries other tools on a piece, given by its bends and faces, of which `hindered` tells what is in the way.
pub(super) fn of(
    trials: &Trials<'_>,
    (machine, v_opening_mm): (&Machine, Option<f64>),
    (bends, faces): (&[usize], &[usize]),
    hindered: &[Hindered],
) -> OtherTools {
    let met = Met::of(hindered);
    let Machine::Press(press) = machine else { return OtherTools::NotTried };
    if MOST_BENDS < bends.len() || !(met.punch || met.ram || met.open_height) {
        return OtherTools::NotTried;
    }
    let bends_with = |tool: Tool| {
        let machine = Machine::Press(with(press, tool));
        let bench = Bench::of(&machine, v_opening_mm);
        let mut trials = Trials {
            metal: trials.metal,
            routes: trials.routes,
            bench: &bench,
            memory: Memory::default(),
            pairs: Pairs::default(),
        };
        let Ended::Order(strokes) = past_the_least(&mut trials, (bends, faces)) else { return None };
        let mut assumed = strokes.iter().flat_map(|stroke| &stroke.hindrances);
        let past_assumed = assumed.clone().next().is_some();
        // A punch of which a size is still only assumed, and in the way, is not known to be enough.
        let clear = !assumed.any(|one| bodies::is_punch(one.body));
        clear.then_some(Tool { past_assumed, ..tool })
    };
    let found = candidates(press, &met).into_iter().find_map(bends_with);
    found.map_or(OtherTools::NoneFound, |tool| OtherTools::Enough(least(press, tool, bends_with)))
}

/// Tools to try, the nearest to the shop's own first.
fn candidates(press: &PressBrake, met: &Met) -> Vec<Tool> {
    let assumed = PressBrake::assumed();
    let own = press.punch.height.unwrap_or(assumed.punch_height);
    let mut heights = vec![None];
    heights.extend((1..=3).map(|step| Some(own + Length::from_nanometres(MORE[0].nanometres() * step / 3))));
    let mut reliefs = vec![None];
    if met.punch {
        let cut_back = press.punch.relief.unwrap_or(Length::ZERO);
        let steps = (1..).map(|step| STEPS[0] * step);
        reliefs.extend(
            steps.take_while(|relief| *relief <= DEEPEST).filter(|relief| cut_back < *relief).map(Some),
        );
    }
    let daylight = if met.open_height { press.daylight.map(|own| own + MORE[1]) } else { None };
    let stands = |tool: &Tool| {
        let height = tool.height.unwrap_or(own);
        tool.relief.is_none_or(|relief| relief * RISE <= height)
    };
    let tool = |height: Option<Length>, relief: Option<Length>| Tool {
        relief,
        height,
        daylight,
        past_assumed: false,
    };
    let all = heights.into_iter().flat_map(|height| reliefs.iter().map(move |relief| (height, *relief)));
    let none = Tool::default();
    all.map(|(height, relief)| tool(height, relief)).filter(|tool| stands(tool) && *tool != none).collect()
}

/// A tool that is enough, brought nearer to the shop's own in finer steps while it still is.
fn least(press: &PressBrake, found: Tool, enough: impl Fn(Tool) -> Option<Tool>) -> Tool {
    let mut tool = found;
    if let Some(relief) = tool.relief {
        let finer = relief - Length::from_nanometres(STEPS[0].nanometres() / 2);
        tool = enough(Tool { relief: Some(finer), ..tool }).unwrap_or(tool);
    }
    if let (Some(own), Some(_)) = (press.daylight, tool.daylight) {
        let more = (1..).map(|step| own + STEPS[1] * step);
        let most = own + MORE[1];
        let mut tried = more.take_while(|daylight| *daylight < most);
        tool = tried.find_map(|daylight| enough(Tool { daylight: Some(daylight), ..tool })).unwrap_or(tool);
    }
    tool
}

/// A press brake with such a tool in the place of its own.
fn with(press: &PressBrake, tool: Tool) -> PressBrake {
    let mut press = press.clone();
    if let Some(relief) = tool.relief {
        press.punch.profile = Some(Profile::Gooseneck);
        press.punch.relief = Some(relief);
    }
    press.punch.height = tool.height.or(press.punch.height);
    press.daylight = tool.daylight.or(press.daylight);
    press
}
