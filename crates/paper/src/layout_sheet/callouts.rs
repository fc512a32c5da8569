//! Diameters of holes and radii of arcs, each on a leader.

use fold::flat::ReliefCut;
use geometry::{Point, Vector};

use super::PartSheet;
use super::points::{arcs, full_circle, same_circle};
use crate::drawing::label::Label;
use crate::drawing::{leader, printed};
use crate::page::Item;
use crate::placing::Field;

/// A round thing that needs a word.
struct Round {
    words: String,
    centre: Point,
    radius_mm: f64,
}

/// The callouts of all holes and arcs. Things that are all alike share one.
pub(super) fn labels(
    field: &mut Field,
    sheet: &PartSheet<'_>,
    text_mm: f64,
    bounds: (Point, Point),
) -> Vec<Item> {
    let mut items = Vec::new();
    let (reliefs, radii) = arcs_in_words(sheet);
    let all = [gathered(holes(sheet), "holes"), gathered(reliefs, "places"), gathered(radii, "places")];
    for round in all.into_iter().flatten() {
        let label = Label::new(round.words, 0.9 * text_mm);
        let rim =
            [0.785, 2.356, 5.498, 3.927].map(|turn| round.centre + Vector::at_angle(turn) * round.radius_mm);
        items.extend(leader::place(field, &label, &rim, bounds));
    }
    items
}

fn holes(sheet: &PartSheet<'_>) -> Vec<Round> {
    let circles = sheet.flat.outline.holes.iter().filter_map(full_circle);
    circles
        .map(|(centre, radius_mm)| Round {
            words: format!("dia {}", printed(2.0 * radius_mm, sheet.style)),
            centre,
            radius_mm,
        })
        .collect()
}

/// Relief holes by their diameter, all other arcs by their radius; an arc in several pieces counts once.
///
/// More than half a circle cut out of the outer edge is what is left of a drilled hole; less may be a relief too.
fn arcs_in_words(sheet: &PartSheet<'_>) -> (Vec<Round>, Vec<Round>) {
    let outline = &sheet.flat.outline;
    let mut seen: Vec<(Point, f64)> = Vec::new();
    let (mut reliefs, mut radii) = (Vec::new(), Vec::new());
    for contour in std::iter::once(&outline.outer).chain(&outline.holes) {
        if full_circle(contour).is_some() {
            continue;
        }
        for arc in arcs(contour) {
            let (centre, radius_mm) = (arc.centre, arc.radius_mm);
            if seen.iter().any(|&known| same_circle(known, (centre, radius_mm))) {
                continue;
            }
            seen.push((centre, radius_mm));
            let kind = relief_kind(sheet, (centre, radius_mm));
            if kind.is_some() || arc.sweep_rad < -std::f64::consts::PI {
                let kind = kind.unwrap_or("relief");
                let words = format!("{kind} dia {}", printed(2.0 * radius_mm, sheet.style));
                reliefs.push(Round { words, centre, radius_mm });
            } else {
                let words = format!("R {}", printed(radius_mm, sheet.style));
                radii.push(Round { words, centre, radius_mm });
            }
        }
    }
    (reliefs, radii)
}

/// What the relief cut along a circle, given by its centre and radius, is called.
fn relief_kind(sheet: &PartSheet<'_>, circle: (Point, f64)) -> Option<&'static str> {
    sheet.flat.reliefs.iter().find_map(|relief| {
        let (radius_mm, words) = match relief.cut {
            ReliefCut::Round { radius_mm } => (radius_mm, "round relief"),
            ReliefCut::TearDrop { radius_mm } => (radius_mm, "tear-drop relief"),
            ReliefCut::None | ReliefCut::Square { .. } => return None,
        };
        same_circle(circle, (relief.at, radius_mm)).then_some(words)
    })
}

/// One callout with a count when there are several and all say the same; else every one speaks for itself.
fn gathered(mut rounds: Vec<Round>, what: &str) -> Vec<Round> {
    let count = rounds.len();
    if 1 < count && rounds.iter().all(|round| round.words == rounds[0].words) {
        rounds.truncate(1);
        rounds[0].words = format!("{}, {count} {what}", rounds[0].words);
    }
    rounds
}
