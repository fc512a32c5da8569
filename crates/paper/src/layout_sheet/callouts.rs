//! Diameters of holes and radii of arcs, each on a leader.

use fold::flat::ReliefCut;
use geometry::outline::Chords;
use geometry::{Contour, Point, Segment, Vector};
use units::LengthStyle;

use super::PartSheet;
use super::numbered::{self, ByNumber};
use super::points::{arcs, full_circle, same_circle, slot};
use crate::drawing::label::Label;
use crate::drawing::{NAMES_EM, leader, printed};
use crate::page::Item;
use crate::placing::Field;

/// Where the sizes of what is cut come from, by what it is: the appendix tells the same.
pub(crate) const ORIGINS: [(&str, &str); 3] = [
    ("diameter of a hole, size of a slot or an opening", HOLE_FROM),
    ("diameter of a relief", RELIEF_FROM),
    ("radius of an arc (R)", ARC_FROM),
];

const HOLE_FROM: &str = "measured on the flat as it is cut: the hole, slot or opening as the part's shape and its holes in the job ask for it; \
                         an opening along its longest straight side and across";
const RELIEF_FROM: &str =
    "twice the radius of the arc on the flat, which the corner relief of the part has, told with its numbers";
const ARC_FROM: &str =
    "measured on the flat as it is cut: the arc of the outline that the part's shape asks for";

/// A round thing that needs a word.
struct Round {
    words: String,
    centre: Point,
    radius_mm: f64,
}

/// The callouts of all holes and arcs. Things that are all alike share one; holes that are not, and have a table, go by that.
pub(super) fn labels(
    field: &mut Field,
    (sheet, by_number): (&PartSheet<'_>, ByNumber),
    text_mm: f64,
    bounds: (Point, Point),
) -> Vec<Item> {
    let by_table = by_number != ByNumber::None && !numbered::are_alike(sheet.flat);
    let without = by_table.then(|| numbered::without_holes(sheet.flat));
    let sheet = &PartSheet { flat: without.as_ref().unwrap_or(sheet.flat), ..*sheet };
    let mut items = Vec::new();
    for opening in gathered_openings(sheet) {
        let label = Label::new(opening.words, NAMES_EM * text_mm).from(HOLE_FROM);
        items.extend(leader::place(field, &label, &opening.rim, bounds));
    }
    let (reliefs, radii) = arcs_in_words(sheet);
    let all = [
        (gathered(holes(sheet), "holes"), HOLE_FROM),
        (gathered(reliefs, "places"), RELIEF_FROM),
        (gathered(radii, "places"), ARC_FROM),
    ];
    for (round, from) in
        all.into_iter().flat_map(|(rounds, from)| rounds.into_iter().map(move |round| (round, from)))
    {
        let label = Label::new(round.words, NAMES_EM * text_mm).from(from);
        let rim =
            [0.785, 2.356, 5.498, 3.927].map(|turn| round.centre + Vector::at_angle(turn) * round.radius_mm);
        items.extend(leader::place(field, &label, &rim, bounds));
    }
    items
}

/// A hole that is not round, in words: "slot 120 × 30, dia 30 drilled at both crosses".
struct Opening {
    words: String,
    /// Places on its edge.
    rim: Vec<Point>,
}

/// The openings; those that are all alike share one callout.
fn gathered_openings(sheet: &PartSheet<'_>) -> Vec<Opening> {
    let mut openings: Vec<Opening> =
        sheet.flat.outline.holes.iter().filter_map(|hole| opening(hole, sheet.style)).collect();
    let count = openings.len();
    if 1 < count && openings.iter().all(|opening| opening.words == openings[0].words) {
        openings.truncate(1);
        openings[0].words = format!("{}, {count} of them", openings[0].words);
    }
    openings
}

/// A slot by its length and width over all, any other opening by its extent along its longest straight side and across.
fn opening(hole: &Contour, style: LengthStyle) -> Option<Opening> {
    if full_circle(hole).is_some() {
        return None;
    }
    let rim: Vec<Point> = hole.pieces().map(|(from, segment)| from.toward(segment.end(), 0.5)).collect();
    if let Some(slot) = slot(hole) {
        let size = [slot.length_mm(), 2.0 * slot.radius_mm].map(|mm| printed(mm, style));
        let words = format!("slot {} × {}, dia {} drilled at both crosses", size[0], size[1], size[1]);
        return Some(Opening { words, rim });
    }
    let corners = hole.corners(Chords::On);
    let straights = hole.pieces().filter(|(_, segment)| matches!(segment, Segment::Line { .. }));
    let longest = straights
        .map(|(from, segment)| segment.end() - from)
        .max_by(|a, b| a.length().total_cmp(&b.length()))?;
    let along = longest.unit();
    let extent = |way: Vector| {
        let at = corners.iter().map(|corner| way.dot(*corner - Point::default()));
        at.clone().fold(f64::NEG_INFINITY, f64::max) - at.fold(f64::INFINITY, f64::min)
    };
    let size = [extent(along), extent(along.left())].map(|mm| printed(mm, style));
    Some(Opening { words: format!("opening {} × {}", size[0], size[1]), rim })
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
        if full_circle(contour).is_some() || slot(contour).is_some() {
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
