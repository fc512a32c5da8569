//! Punches, dies and open heights of a press brake that are tried in the place of its own.

use stock::brake::{PressBrake, Profile};
use units::Length;

use super::{HIGHER, Met, Tool, Tried, halved_sections, lower};
use crate::order::bodies;
use crate::order::stroke::{PUNCH_SHUT_IN, TOOLS_FILL_IT};

/// Step between the reliefs of goosenecks, and between open heights, that are tried first: 1/2 in and 1 in.
const STEPS: [Length; 2] = [Length::from_sixty_fourths(32), Length::from_sixty_fourths(64)];

/// The deepest gooseneck that is tried: 4 in, which is deep (common practice, no source).
const DEEPEST: Length = Length::from_sixty_fourths(4 * 64);

/// How much more open height is tried: 24 in (common practice, no source).
const MORE_OPEN: Length = Length::from_sixty_fourths(24 * 64);

/// A gooseneck is at least so many times as high as it is cut back.
const RISE: i64 = 2;

/// Metal of the narrowest die block beside its V that is tried, to either side: 1/4 in (common practice, no source).
const LEAST_SHOULDER: Length = Length::from_sixty_fourths(16);

/// Steps in which the metal beside the V is taken off down to that.
const SHOULDER_STEPS: i64 = 3;

/// Sections that are tried besides the shop's own: halves of its shortest, and halves of those.
///
/// Of a set of 4 and 2 the next are 1, 1/2 and 1/4 (common practice, no source).
fn more_sections(press: &PressBrake, met: &Met<'_>) -> Vec<Tool> {
    let in_the_way = met.body(bodies::PUNCH) || met.body(bodies::SECTIONS);
    if press.punch.sections.is_empty() || !in_the_way {
        return Vec::new();
    }
    [1, 2, 3].map(|more_sections| Tool { more_sections, ..Tool::default() }).to_vec()
}

/// Tools to try, the nearest to the shop's own first, and what they are.
pub(super) fn candidates(press: &PressBrake, v_mm: Option<f64>, met: &Met<'_>) -> (Vec<Tool>, Tried) {
    let punch = met.body(bodies::PUNCH);
    let open_height = met.body(PUNCH_SHUT_IN) || met.body(TOOLS_FILL_IT);
    let any_punch = punch || open_height || met.body(bodies::RAM);
    let punches = if any_punch { punches(press, punch) } else { vec![Tool::default()] };
    let dies = dies(press, v_mm, met);
    // Taller tools take of the open height.
    let daylight = |tool: &Tool| {
        let taller = tool.height.is_some() || tool.die_height.is_some();
        press.daylight.filter(|_| open_height || taller).map(|own| own + MORE_OPEN)
    };
    let all = dies.iter().flat_map(|die| {
        punches.iter().map(move |punch| Tool {
            die_width: die.die_width,
            die_height: die.die_height,
            ..*punch
        })
    });
    let all = all.map(|tool| Tool { daylight: daylight(&tool), ..tool });
    let all = all.filter(|tool| *tool != Tool::default());
    let tools: Vec<Tool> = more_sections(press, met).into_iter().chain(all).collect();
    let has = |of: fn(&Tool) -> bool| tools.iter().any(of);
    let tried = Tried {
        more_sections: has(|tool| 0 < tool.more_sections),
        gooseneck: has(|tool| tool.relief.is_some()),
        taller_punch: has(|tool| tool.height.is_some()),
        open_height: has(|tool| tool.daylight.is_some()),
        narrower_die: has(|tool| tool.die_width.is_some()),
        taller_die: has(|tool| tool.die_height.is_some()),
        ..Tried::default()
    };
    (tools, tried)
}

/// The shop's own punch, goosenecks where the punch is in the way, and taller ones.
fn punches(press: &PressBrake, goosenecks: bool) -> Vec<Tool> {
    let own = press.punch.height.unwrap_or(PressBrake::assumed().punch_height);
    let heights = || std::iter::once(None).chain(HIGHER.map(|more| Some(own + more)));
    let mut reliefs = vec![None];
    if goosenecks {
        let cut_back = press.punch.relief.unwrap_or(Length::ZERO);
        let steps = (1..).map(|step| STEPS[0] * step);
        reliefs.extend(
            steps.take_while(|relief| *relief <= DEEPEST).filter(|relief| cut_back < *relief).map(Some),
        );
    }
    let stands = |tool: &Tool| {
        let height = tool.height.unwrap_or(own);
        tool.relief.is_none_or(|relief| relief * RISE <= height)
    };
    let tool = |height: Option<Length>, relief: Option<Length>| Tool { relief, height, ..Tool::default() };
    let all = heights().flat_map(|height| reliefs.iter().map(move |relief| tool(height, *relief)));
    all.filter(stands).collect()
}

/// The shop's own die, narrower ones where metal beside it is in the way, and taller ones where the bed is.
fn dies(press: &PressBrake, v_mm: Option<f64>, met: &Met<'_>) -> Vec<Tool> {
    let mut dies = vec![Tool::default()];
    let v = Length::from_millimetres(v_mm.unwrap_or_default());
    if let Some(own) = press.die_width.filter(|_| met.body(bodies::DIE)) {
        let least = v + LEAST_SHOULDER * 2;
        let step = Length::from_nanometres((own - least).nanometres() / SHOULDER_STEPS);
        let narrower = (1..=SHOULDER_STEPS).map(|steps| own - step * steps).filter(|_| Length::ZERO < step);
        dies.extend(narrower.map(|width| Tool { die_width: Some(width), ..Tool::default() }));
    }
    if met.body(bodies::BED) {
        let own = press.die_height.unwrap_or(PressBrake::assumed().die_height);
        dies.extend(HIGHER.map(|more| Tool { die_height: Some(own + more), ..Tool::default() }));
    }
    dies
}

/// A tool that is enough, brought nearer to the shop's own in finer steps while it still is.
pub(super) fn least(press: &PressBrake, found: Tool, enough: impl Fn(Tool) -> Option<Tool>) -> Tool {
    let mut tool = found;
    if let Some(relief) = tool.relief {
        let finer = relief - Length::from_nanometres(STEPS[0].nanometres() / 2);
        tool = enough(Tool { relief: Some(finer), ..tool }).unwrap_or(tool);
    }
    let with_die = |tool, height| Tool { die_height: Some(height), ..tool };
    tool = lower(tool, tool.die_height, with_die, &enough);
    if let (Some(own), Some(_)) = (press.daylight, tool.daylight) {
        let most = own + MORE_OPEN;
        let more = (1..).map(|step| own + STEPS[1] * step).take_while(|daylight| *daylight < most);
        let mut tried = std::iter::once(None).chain(more.map(Some));
        tool = tried.find_map(|daylight| enough(Tool { daylight, ..tool })).unwrap_or(tool);
    }
    tool
}

/// A press brake with such a tool in the place of its own.
pub(super) fn with(press: &PressBrake, tool: Tool) -> PressBrake {
    let mut press = press.clone();
    let more = halved_sections(&press.punch.sections, tool.more_sections);
    press.punch.sections.extend(more);
    if let Some(relief) = tool.relief {
        press.punch.profile = Some(Profile::Gooseneck);
        press.punch.relief = Some(relief);
    }
    press.punch.height = tool.height.or(press.punch.height);
    press.daylight = tool.daylight.or(press.daylight);
    press.die_width = tool.die_width.or(press.die_width);
    press.die_height = tool.die_height.or(press.die_height);
    press.throat = tool.throat.or(press.throat);
    press
}
