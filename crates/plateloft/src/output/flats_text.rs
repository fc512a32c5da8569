//! Flats as text for the terminal.

use fold::Direction;
use fold::flat::BendLine;
use paper::layout_sheet::making_words;
use units::Length;

use super::bend_words::{number_words, overbend_words, spread_words, springback_words};
use super::drawings;
use super::words::{area_words, bend_count_words, metal_words, weight_words};
use super::{bend_cards, roll_cards};
use super::{fits, hands};
use crate::plan::{Flats, PlannedPart};

/// Every flat in numbers, lengths from the datum corner.
pub(crate) fn flats_text(flats: &Flats) -> String {
    let parts = flats.parts.iter().map(|part| part_text(flats, part));
    parts.chain(fits::text(flats)).collect::<Vec<String>>().join("\n\n")
}

fn part_text(flats: &Flats, part: &PlannedPart) -> String {
    let job = &flats.job;
    let metal = &job.metals[part.part.metal];
    let print = |millimetres: f64| Length::from_millimetres(millimetres).print(job.style);
    let (length, width) = part.flat.extents_mm();
    let mut lines = vec![
        format!(
            "{}: {}, {} off, {}",
            part.part.mark,
            drawings::title(flats, part),
            part.part.quantity,
            metal_words(job, metal)
        ),
        format!("  {}", part.face_words(metal)),
        format!(
            "  blank {} × {}{}, {}, {}, {}",
            print(length),
            print(width),
            spread_words(&metal.number, &part.flat, job.style).map(|s| format!(" ({s})")).unwrap_or_default(),
            area_words(flats, part.area),
            weight_words(job, part),
            if drawings::is_strip(flats, part) {
                "to be bent once across its middle".to_owned()
            } else {
                bend_count_words(part)
            }
        ),
    ];
    if !part.flat.bends.is_empty() {
        lines.push(format!("  bend number: {}", number_words(&part.shaped.part, &part.flat, job.style)));
        lines.extend(
            springback_words(metal, std::iter::once(&part.flat), flats.job.unit)
                .map(|words| format!("  springback: {words}")),
        );
    }
    lines.extend(part.flat.bends.iter().map(|bend| bend_text(flats, part, bend)));
    lines.extend(bend_cards::order_text(flats, part));
    lines.extend(roll_cards::text(flats, part));
    for fact in drawings::facts(flats, part) {
        lines.push(format!("  {}: {}", fact.name, fact.value));
    }
    if !part.flat.bends.is_empty() {
        let worst = drawings::deviation_words(part.proof.worst_mm, job.unit);
        lines.push(format!("  folded again: worst deviation {worst}"));
    }
    lines.extend(hands::notes(flats, part).iter().map(|note| format!("  {note}")));
    lines.extend(part.findings.iter().map(|finding| format!("  look at: {finding}")));
    lines.join("\n")
}

fn bend_text(flats: &Flats, part: &PlannedPart, bend: &BendLine) -> String {
    let print = |millimetres: f64| Length::from_millimetres(millimetres).print(flats.job.style);
    let metal = &flats.job.metals[part.part.metal];
    let direction = match bend.direction {
        Direction::Up => "UP",
        Direction::Down => "DOWN",
    };
    let overbend = overbend_words(metal, bend).map(|words| format!(" ({words})")).unwrap_or_default();
    let making = making_words(bend, part.flat.thickness_mm, flats.job.style);
    format!(
        "  bend {direction} {:.1}°{making}{overbend} from ({}, {}) to ({}, {}): {} to {}",
        bend.turn_rad.to_degrees(),
        print(bend.from.x),
        print(bend.from.y),
        print(bend.to.x),
        print(bend.to.y),
        part.flat.faces[bend.parent].name,
        part.flat.faces[bend.child].name
    )
}
