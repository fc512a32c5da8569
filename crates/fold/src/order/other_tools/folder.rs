//! Clamps of a folder that are tried in the place of its own.

use stock::brake::{Clamp, Folder};
use units::{Angle, Length};

use super::{HIGHER, Met, Tool, Tried, lower};
use crate::order::bodies;

/// Steps and flattest nose of a clamp that is tried, degrees from the sheet (common practice, no source).
const NOSES: [f64; 2] = [45.0, 30.0];

/// Widths of fingers that are tried besides the shop's own, one after the other: 1, 2, 4 and 8 in add up to whole inches.
const FINGERS: [Length; 4] = [
    Length::from_sixty_fourths(64),
    Length::from_sixty_fourths(2 * 64),
    Length::from_sixty_fourths(4 * 64),
    Length::from_sixty_fourths(8 * 64),
];

/// Clamps to try, the nearest to the shop's own first, and what they are.
pub(super) fn candidates(folder: &Folder, met: &Met<'_>) -> (Vec<Tool>, Tried) {
    let beam = met.body(bodies::FINGER_BEAM) || met.body(bodies::BAR_BEAM);
    let clamp = met.body(bodies::CLAMP_BAR) || met.body(bodies::FINGERS);
    if !beam && !clamp {
        return (Vec::new(), Tried::default());
    }
    let assumed = Folder::assumed();
    let own = match &folder.clamp {
        Clamp::Bar { height } => height.unwrap_or(assumed.bar_height),
        Clamp::Fingers { deepest_box, .. } => deepest_box.unwrap_or(assumed.finger_height),
    };
    let higher =
        || HIGHER.into_iter().map(move |more| Tool { clamp_height: Some(own + more), ..Tool::default() });
    let as_high = || std::iter::once(Tool::default()).chain(higher());
    let nose = folder.nose_angle.map(Angle::degrees).filter(|_| clamp);
    let flatter = NOSES.into_iter().filter(|degrees| nose.is_some_and(|own| *degrees < own));
    let mut tools: Vec<Tool> = higher().collect();
    tools.extend(flatter.clone().map(|degrees| Tool { nose_degrees: Some(degrees), ..Tool::default() }));
    let mut tried =
        Tried { higher_clamp: true, flatter_nose: flatter.clone().next().is_some(), ..Tried::default() };
    match &folder.clamp {
        Clamp::Bar { .. } => {
            tools.extend(as_high().map(|tool| Tool { fingers_for_bar: true, ..tool }));
            tried.fingers_for_bar = true;
        }
        Clamp::Fingers { widths, .. } if !widths.is_empty() && clamp => {
            let sets = (1..=FINGERS.len()).map(|count| {
                let finger = |number: usize| (number < count).then_some(FINGERS[number]);
                [0, 1, 2, 3].map(finger)
            });
            let sets = sets.map(|more_fingers| Tool { more_fingers, ..Tool::default() });
            // A finger is made sooner than a clamp with its beam.
            let mut first: Vec<Tool> = sets.clone().collect();
            first.append(&mut tools);
            tools = first;
            let both = higher().flat_map(|tool| {
                sets.clone().map(move |set| Tool { clamp_height: tool.clamp_height, ..set })
            });
            tools.extend(both);
            tried.more_fingers = true;
        }
        Clamp::Fingers { .. } => {}
    }
    (tools, tried)
}

/// A clamp that is enough, brought nearer to the shop's own in finer steps while it still is.
pub(super) fn least(tool: Tool, enough: impl Fn(Tool) -> Option<Tool>) -> Tool {
    lower(tool, tool.clamp_height, |tool, height| Tool { clamp_height: Some(height), ..tool }, enough)
}

/// A folder with such a clamp in the place of its own.
pub(super) fn with(folder: &Folder, tool: Tool) -> Folder {
    let mut folder = folder.clone();
    folder.throat = tool.throat.or(folder.throat);
    folder.nose_angle = tool.nose_degrees.map(Angle::from_degrees).or(folder.nose_angle);
    folder.clamp = match folder.clamp {
        Clamp::Bar { height } if tool.fingers_for_bar => {
            // Any width, where the shop is yet to choose them; as high as the bar where that is not said.
            let height = tool.clamp_height.or(height).unwrap_or(Folder::assumed().bar_height);
            Clamp::Fingers { widths: Vec::new(), deepest_box: Some(height) }
        }
        Clamp::Bar { height } => Clamp::Bar { height: tool.clamp_height.or(height) },
        Clamp::Fingers { mut widths, deepest_box } => {
            widths.extend(tool.more_fingers.into_iter().flatten());
            Clamp::Fingers { widths, deepest_box: tool.clamp_height.or(deepest_box) }
        }
    };
    folder
}
