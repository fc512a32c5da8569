//! Cards of rolled rings, and the same as lines of text and JSON.

use fold::Direction;
use fold::part::Forming;
use paper::Page;
use paper::layout_sheet::Fact;
use paper::roll_card::{self, Check, Ring, RollCard};
use serde_json::{Value, json};

use super::drawings;
use super::numbers::Numbers;
use super::words::named_metal_words;
use crate::plan::{Flats, PlannedPart};

/// Facts of the layout sheet that stand on the card as well, by how their names begin.
const FACTS: [&str; 4] = ["seam", "first line", "line to line", "slant of the frustum"];

/// The ring that a rolled part is; `None` for any other.
fn ring(flats: &Flats, part: &PlannedPart) -> Option<Ring> {
    let job = &flats.job;
    let piece = part.part.piece_of.as_ref().map_or(0, |piece| piece.number);
    let sizes = part.part.shape.recipe().rolled_sizes(piece, &part.part.making)?;
    let rolled = || part.flat.bends.iter().filter(|bend| bend.forming == Forming::Rolled);
    let lapped = part.flat.bends.iter().any(|bend| matches!(bend.forming, Forming::Joggle(_)));
    let ends: &[&'static str] = if sizes.cone.is_some() { &["small end", "large end"] } else { &[""] };
    let checks = sizes.straightedges(job.style).into_iter().zip(ends);
    let name = |face: Option<&fold::flat::FlatFace>| face.map_or(String::new(), |face| face.name.clone());
    Some(Ring {
        checks: checks
            .map(|(edge, &end)| Check {
                end,
                radius_mm: edge.radius_mm,
                chord_mm: edge.chord_mm,
                rise_mm: edge.rise_mm,
            })
            .collect(),
        girths_mm: sizes.girths_mm(),
        cone: sizes.cone,
        thickness_mm: part.flat.thickness_mm,
        marked_outside: rolled().next().is_some_and(|bend| bend.direction == Direction::Down),
        sloped: has_sloped_end(part),
        lap_outward: lapped.then_some(sizes.lap_outward_mm > 0.0),
        lines: rolled().count(),
        ends: [name(part.flat.faces.first()), name(part.flat.faces.last())],
        flat_end: job.shop.roll.as_ref().and_then(stock::brake::SlipRoll::flat_end),
        inside_mm: sizes.inside_mm,
        outside_mm: sizes.outside_mm,
    })
}

/// True for a cylinder whose element lines are not all alike: an end is cut on a slope.
fn has_sloped_end(part: &PlannedPart) -> bool {
    let lengths = part.flat.bends.iter().map(|bend| bend.from.distance(bend.to));
    let (least, most) = lengths.fold((f64::INFINITY, 0.0_f64), |(a, b), long| (a.min(long), b.max(long)));
    geometry::tolerance::REFOLD_MM < most - least
}

/// Hands the card of a ring to `show`.
fn with_card<T>(flats: &Flats, part: &PlannedPart, show: impl FnOnce(&RollCard<'_>) -> T) -> Option<T> {
    let job = &flats.job;
    let ring = ring(flats, part)?;
    let told = |fact: &Fact| FACTS.iter().any(|name| fact.name.starts_with(name) && !fact.name.contains(','));
    let facts: Vec<Fact> = drawings::packet_facts(flats, part).into_iter().filter(told).collect();
    Some(show(&RollCard {
        job: &job.name,
        mark: &part.part.mark,
        title: &drawings::title(flats, part),
        metal: &named_metal_words(job, &job.metals[part.part.metal]),
        quantity: part.part.quantity,
        ring: &ring,
        facts: &facts,
        style: job.style,
    }))
}

/// The card of a ring; nothing for any other part.
pub(crate) fn cards(flats: &Flats, part: &PlannedPart) -> Vec<Page> {
    with_card(flats, part, roll_card::draw).into_iter().collect()
}

/// The card's sentences as lines of text.
pub(crate) fn text(flats: &Flats, part: &PlannedPart) -> Vec<String> {
    let lines = with_card(flats, part, |card| {
        let sentences = roll_card::sentences(card).into_iter().enumerate();
        sentences.map(|(number, (words, _))| format!("  rolling {}: {words}", number + 1)).collect()
    });
    lines.unwrap_or_default()
}

/// The ring as JSON; null for any other part.
pub(crate) fn json(flats: &Flats, part: &PlannedPart, numbers: Numbers) -> Value {
    let Some(ring) = ring(flats, part) else { return Value::Null };
    let lengths = |list: &[f64]| list.iter().map(|mm| numbers.millimetres(*mm)).collect::<Vec<_>>();
    json!({
        "inside_diameters": lengths(&ring.inside_mm),
        "outside_diameters": lengths(&ring.outside_mm),
        "round_the_outside": lengths(&ring.girths_mm),
        "element_lines": ring.lines,
        "marked_face": if ring.marked_outside { "outside" } else { "inside" },
        "first_into_the_roll": ring.ends[0],
        "flat_ends": ring.flat_end.map(|length| numbers.length(length)),
        "straightedges": ring.checks.iter().map(|check| json!({
            "end": check.end,
            "long": numbers.millimetres(check.chord_mm),
            "off_the_metal": numbers.millimetres(check.rise_mm),
        })).collect::<Vec<_>>(),
    })
}
