//! Where each leg is cut at both ends of the profile.

use fold::Direction;
use fold::part::FoldedPart;
use geometry::{Point, Point3, trig};

use super::legs::Section;
use super::{BrakeProfile, End, strip};
use crate::{Making, Problem};

/// Steepest mitre, degrees: beyond it a bend would end on a sliver.
const STEEPEST_MITRE_DEGREES: f64 = 60.0;

/// From where to where a leg runs along the profile, mm: `[start, end]`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct LegTrim {
    /// Along its first edge or mold line.
    pub(super) low: [f64; 2],
    /// Along its last.
    pub(super) high: [f64; 2],
    /// How far the leg before lets the bend to it run, where that leg is the shorter.
    low_bend: [Option<f64>; 2],
    /// How far the leg after lets the bend to it run, where that leg is the shorter.
    high_bend: [Option<f64>; 2],
}

impl LegTrim {
    fn square(from: f64, to: f64) -> Self {
        Self { low: [from, to], high: [from, to], low_bend: [None; 2], high_bend: [None; 2] }
    }

    /// From where to where the bend to the leg before runs.
    pub(super) fn low_bend(&self) -> [f64; 2] {
        [0, 1].map(|end| self.low_bend[end].unwrap_or(self.low[end]))
    }

    /// From where to where the bend to the leg after runs.
    pub(super) fn high_bend(&self) -> [f64; 2] {
        [0, 1].map(|end| self.high_bend[end].unwrap_or(self.high[end]))
    }
}

/// The trims of a piece that runs from `from` to `to`, square where it is parted from the rest.
pub(super) fn clipped(trims: &[LegTrim], [from, to]: [f64; 2]) -> Vec<LegTrim> {
    let clip = |ends: [f64; 2]| [ends[0].max(from), ends[1].min(to)];
    let clip_bend = |ends: [Option<f64>; 2]| [ends[0].map(|x| x.max(from)), ends[1].map(|x| x.min(to))];
    trims
        .iter()
        .map(|trim| LegTrim {
            low: clip(trim.low),
            high: clip(trim.high),
            low_bend: clip_bend(trim.low_bend),
            high_bend: clip_bend(trim.high_bend),
        })
        .collect()
}

/// Where every leg is cut.
///
/// # Errors
/// Mitres too steep, or so long that they meet.
pub(super) fn trims(
    profile: &BrakeProfile,
    section: &Section,
    making: &Making,
) -> Result<Vec<LegTrim>, Vec<Problem>> {
    let mut problems = Vec::new();
    for (end, name) in profile.ends.iter().zip(["start", "end"]) {
        if let End::Plan(angle) | End::Height(angle) = end
            && angle.degrees().abs() > STEEPEST_MITRE_DEGREES
        {
            let wrong = format!("a mitre is cut at {STEEPEST_MITRE_DEGREES}° from square at the most");
            let value = format!("{}°", angle.degrees());
            problems.push(Problem::new(format!("ends.{name}"), value, wrong, "measure it from square"));
        }
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    let square: Vec<LegTrim> =
        section.legs.iter().map(|_| LegTrim::square(0.0, profile.length.millimetres())).collect();
    let part = strip::fold(section, &square, making);
    problems.extend(collisions(&part, section, making));
    let mut trims = mitred(profile, section, &part);
    shorten(&mut trims, profile, section);
    problems.extend(meeting(&trims, profile, section, making));
    if problems.is_empty() { Ok(trims) } else { Err(problems) }
}

/// A place of the section: across `leg` from its first mold line, and up through it.
fn place(part: &FoldedPart, section: &Section, leg: usize, (across_mm, z_mm): (f64, f64)) -> Point3 {
    let frame = part.frames()[section.part_face(leg)];
    let y = if leg < section.root { section.legs[leg].outside_mm - across_mm } else { across_mm };
    frame.place(Point::new(0.0, y), z_mm)
}

/// Both ends of every leg by the planes of the mitres, over all from 0 to the length.
fn mitred(profile: &BrakeProfile, section: &Section, part: &FoldedPart) -> Vec<LegTrim> {
    let mut trims: Vec<LegTrim> = section.legs.iter().map(|_| LegTrim::square(0.0, 0.0)).collect();
    for (number, (end, sign)) in profile.ends.iter().zip([-1.0, 1.0]).enumerate() {
        for (leg, trim) in trims.iter_mut().enumerate() {
            let width = section.legs[leg].outside_mm;
            let reach = |across: f64, z: f64| past(*end, place(part, section, leg, (across, z)));
            let sides = [0.0, part.thickness_mm()];
            // The side of the plate that meets the plane first.
            let side = if reach(0.0, sides[0]) <= reach(0.0, sides[1]) { sides[0] } else { sides[1] };
            (trim.low[number], trim.high[number]) = (sign * reach(0.0, side), sign * reach(width, side));
        }
        let all = trims.iter().flat_map(|trim| [sign * trim.low[number], sign * trim.high[number]]);
        let longest = all.fold(f64::NEG_INFINITY, f64::max);
        let base = if number == 0 { 0.0 } else { profile.length.millimetres() };
        for trim in &mut trims {
            trim.low[number] += base - sign * longest;
            trim.high[number] += base - sign * longest;
        }
    }
    trims
}

/// How far the plane of a mitre lets the metal run at a place, mm.
fn past(end: End, at: Point3) -> f64 {
    match end {
        End::Square => 0.0,
        End::Plan(angle) => trig::tan(angle.radians()) * at.y,
        End::Height(angle) => trig::tan(angle.radians()) * at.z,
    }
}

/// Takes off what legs stop short, and tells their neighbours how far the bends run.
fn shorten(trims: &mut [LegTrim], profile: &BrakeProfile, section: &Section) {
    let written = |leg: usize| section.legs[leg].written.map(|number| profile.legs[number].short);
    let short: Vec<[f64; 2]> = (0..trims.len())
        .map(|leg| match written(leg) {
            Some(short) => short.map(units::Length::millimetres),
            // The slant of a joggle is as short as the shorter of its neighbours.
            None => [0, 1].map(|end| {
                let beside = [leg.wrapping_sub(1), leg + 1].into_iter().filter(|&leg| leg < trims.len());
                beside.filter_map(|leg| Some(written(leg)?[end].millimetres())).fold(0.0, f64::max)
            }),
        })
        .collect();
    for (trim, short) in trims.iter_mut().zip(&short) {
        for edge in [&mut trim.low, &mut trim.high] {
            edge[0] += short[0];
            edge[1] -= short[1];
        }
    }
    for leg in 1..trims.len() {
        for end in [0, 1] {
            if short[leg - 1][end] > short[leg][end] {
                trims[leg].low_bend[end] = Some(trims[leg - 1].high[end]);
            } else if short[leg - 1][end] < short[leg][end] {
                trims[leg - 1].high_bend[end] = Some(trims[leg].low[end]);
            }
        }
    }
}

/// A leg of which both ends leave nothing.
fn meeting(trims: &[LegTrim], profile: &BrakeProfile, section: &Section, making: &Making) -> Option<Problem> {
    let left = |trim: &LegTrim| {
        let edges = [trim.low, trim.high, trim.low_bend(), trim.high_bend()];
        edges.into_iter().map(|[from, to]| to - from).fold(f64::INFINITY, f64::min)
    };
    let (leg, least) =
        trims.iter().map(left).enumerate().min_by(|(_, first), (_, second)| first.total_cmp(second))?;
    (least <= 0.0).then(|| {
        let wrong = format!("the two ends of {} meet", section.legs[leg].name);
        let longer = making.print_mm(profile.length.millimetres() - least);
        Problem::new("length", making.print(profile.length), wrong, format!("make it more than {longer}"))
    })
}

/// Legs that run into others once bent.
fn collisions(part: &FoldedPart, section: &Section, making: &Making) -> Option<Problem> {
    let thickness = making.thickness_mm();
    let straight = |leg: usize| {
        let taken = section.beside(leg).map(|bend| bend.map_or(0.0, |bend| bend.setback_mm(making)));
        let ends = [taken[0], section.legs[leg].outside_mm - taken[1]];
        ends.map(|across| {
            let at = place(part, section, leg, (across, 0.5 * thickness));
            Point::new(at.y, at.z)
        })
    };
    for first in 0..section.legs.len() {
        for second in first + 2..section.legs.len() {
            let joggle = second == first + 2 && section.legs[first + 1].joggle_mm.is_some();
            let (a, b) = (straight(first), straight(second));
            let apart = geometry::polygon::segment_distance((a[0], a[1]), (b[0], b[1]));
            if joggle || apart >= thickness - geometry::tolerance::SAME_POINT_MM {
                continue;
            }
            let names = (&section.legs[first].name, &section.legs[second].name);
            let way = section.bends[second - 1].direction;
            let word = if way == Direction::Up { "up" } else { "down" };
            let value = format!("{} and {}", names.0, names.1);
            let remedy = format!("shorten one of them, or turn the last bend, now {word}, less");
            return Some(Problem::new("legs", value, "run into one another once bent", remedy));
        }
    }
    None
}
