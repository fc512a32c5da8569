//! Holes of an offcut, and zones of it that may not be used: where they may lie.

use geometry::{Point, Polygon, Region, polygon, tolerance};
use units::Length;

use super::super::desk::Desk;
use super::super::shop_files::{LONGEST_TEXT, is_line};
use super::offcut::TornZone;
use super::read::outline;
use crate::file::OffcutFile;
use crate::place::Place;
use crate::sheet_outline::points;

type Ring = Vec<[Length; 2]>;

/// The holes and zones of an offcut with this outline; `None` when something is wrong with them.
pub(super) fn blemishes(
    file: &OffcutFile,
    around: Option<&[[Length; 2]]>,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<(Vec<Ring>, Vec<TornZone>)> {
    let mut sound = true;
    let mut holes: Vec<Ring> = Vec::new();
    for (number, hole) in file.holes.iter().enumerate() {
        let here = place.field("holes").entry(number);
        let Some(hole) = outline(hole, &here, desk) else {
            sound = false;
            continue;
        };
        if let Some((wrong, remedy)) = stray_hole(&points(&hole), around, &holes) {
            desk.add(&here, &format!("{} corners", hole.len()), wrong, remedy);
            sound = false;
        }
        holes.push(hole);
    }
    let mut torn = Vec::new();
    for (number, zone) in file.torn.iter().enumerate() {
        let here = place.field("torn").entry(number);
        sound &= is_line(&zone.why, LONGEST_TEXT, &here.field("why"), desk);
        let here = here.field("outline");
        let Some(ring) = outline(&zone.outline, &here, desk) else {
            sound = false;
            continue;
        };
        if around.is_some_and(|around| reaches_beyond(&points(&ring), &points(around))) {
            let wrong = "reaches beyond the outline of the piece";
            desk.add(&here, &format!("{} corners", ring.len()), wrong, "end it at the edge of the piece");
            sound = false;
        }
        torn.push(TornZone { outline: ring, why: zone.why.clone() });
    }
    sound.then_some((holes, torn))
}

/// What is wrong with where a hole lies, and what to do.
fn stray_hole(
    hole: &[Point],
    around: Option<&[[Length; 2]]>,
    others: &[Ring],
) -> Option<(String, &'static str)> {
    if let Some(around) = around.map(points) {
        if let Some((own, other)) = meeting(hole, &around) {
            let wrong = format!("edge {own} meets edge {other} of the outline");
            return Some((wrong, "a notch that is open to the edge belongs to the outline"));
        }
        if !polygon::contains(&around, hole[0]) {
            let wrong = "lies outside the outline of the piece".to_owned();
            return Some((wrong, "measure it from the same corner as the outline"));
        }
    }
    for (number, other) in others.iter().enumerate() {
        let other = points(other);
        let within = polygon::contains(&other, hole[0]) || polygon::contains(hole, other[0]);
        if within || meeting(hole, &other).is_some() {
            let wrong = format!("meets hole {}", number + 1);
            return Some((wrong, "give holes that meet as one"));
        }
    }
    None
}

/// Numbers, from 1, of the first two edges of two rings that meet.
fn meeting(first: &[Point], second: &[Point]) -> Option<(usize, usize)> {
    let numbered = |ring| polygon::edges(ring).enumerate();
    numbered(first).find_map(|(own, edge)| {
        let mut others = numbered(second);
        let (other, _) = others.find(|(_, other)| polygon::segments_touch(edge, *other))?;
        Some((own + 1, other + 1))
    })
}

/// Whether more of a zone lies outside the outline than areas are good to. It may run along the edge.
fn reaches_beyond(zone: &[Point], around: &[Point]) -> bool {
    let region = |ring: &[Point]| Region::of(&Polygon { outer: ring.to_vec(), holes: Vec::new() });
    tolerance::AREA_ROUNDING_MM2 < region(zone).difference(&region(around)).area_mm2()
}
