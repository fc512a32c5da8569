//! Reliefs cut into the walked outline, each by its own two bends.

use std::fmt;

use geometry::{Contour, Point, Segment, polygon, tolerance};

use super::bite;
use super::outline::{Corner, Walk};
use super::unfold::UnfoldError;
use super::{FlatRelief, ReliefCut};
use crate::part::{FoldedPart, Relief};

/// Thickest sheet whose bends may meet without a relief, mm: .064 in, the thin sheet of the handbook's relief holes
/// (common practice, no source).
const THICKEST_UNRELIEVED_MM: f64 = 1.6256;

/// Largest turn of a bend that may meet another without a relief: a quarter turn, radians (common practice, no source).
const MOST_UNRELIEVED_RAD: f64 = std::f64::consts::FRAC_PI_2;

/// Radii tried from the one asked for down to nothing, to find the largest that can be cut.
const TRIES: u32 = 64;

/// What a drilled relief does that it must not.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ReliefFault {
    /// It cuts into a bend that does not meet there.
    CutsBend,
    /// It leaves nothing of one of its own bends.
    TakesBend,
    /// It runs into another relief.
    MeetsRelief,
    /// It cuts metal off the part.
    CutsOff,
}

/// Why bends that meet must be relieved.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ReliefNeed {
    /// The sheet is too thick.
    Thick {
        /// The thickest that could be left, mm.
        most_mm: f64,
    },
    /// One of them turns too far.
    Turn {
        /// The largest turn that could be left, radians.
        most_rad: f64,
    },
    /// One bends up, the other down.
    Opposed,
}

impl fmt::Display for ReliefFault {
    fn fmt(&self, words: &mut fmt::Formatter<'_>) -> fmt::Result {
        words.write_str(match self {
            Self::CutsBend => "cuts into a bend that does not end at its corner",
            Self::TakesBend => "leaves nothing of a bend that ends at its corner",
            Self::MeetsRelief => "runs into another relief",
            Self::CutsOff => "cuts metal off the part",
        })
    }
}

impl fmt::Display for ReliefNeed {
    fn fmt(&self, words: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Thick { most_mm } => write!(words, "sheet thicker than {most_mm:.2} mm tears there"),
            Self::Turn { most_rad } => {
                write!(words, "a bend of more than {:.0}° tears there", most_rad.to_degrees())
            }
            Self::Opposed => write!(words, "one bends up, the other down, and the sheet tears between them"),
        }
    }
}

/// The outline with its reliefs cut.
pub(super) struct Relieved {
    pub(super) outer: Contour,
    /// Both ends of every bend line, up to the reliefs.
    pub(super) bend_ends: Vec<[Point; 2]>,
    pub(super) reliefs: Vec<FlatRelief>,
}

/// A hole about a corner of the walk.
#[derive(Clone, Copy)]
struct Hole {
    /// Number of the corner.
    corner: usize,
    centre: Point,
    bends: [usize; 2],
    radius_mm: f64,
}

/// An outline, and what its holes leave of the bend lines.
type Drilled = (Contour, Vec<[Point; 2]>);

/// Cuts the relief of every corner that asks for one.
///
/// # Errors
/// When bends meet unrelieved that must not, or a hole does what it must not.
pub(super) fn cut(part: &FoldedPart, walk: &Walk) -> Result<Relieved, UnfoldError> {
    if part.relief == Relief::None {
        walk.corners.iter().filter_map(|corner| corner.between).try_for_each(|pair| may_meet(part, pair))?;
    }
    let holes = holes(part, walk);
    let (outer, bend_ends) = drilled(part, walk, &holes).map_err(|(what, hole)| {
        let fits = |radius_mm: f64| {
            let smaller = |hole: &Hole| Hole { radius_mm: hole.radius_mm.min(radius_mm), ..*hole };
            drilled(part, walk, &holes.iter().map(smaller).collect::<Vec<Hole>>()).is_ok()
        };
        UnfoldError::ReliefTooLarge {
            radius_mm: hole.radius_mm,
            what,
            faces: faces(part, hole.bends),
            largest_mm: largest(hole.radius_mm, fits),
        }
    })?;
    let reliefs = walk.corners.iter().filter_map(|corner| relief(part, corner)).collect();
    Ok(Relieved { outer, bend_ends, reliefs })
}

/// The outline with these holes, and what is left of the bend lines.
fn drilled(part: &FoldedPart, walk: &Walk, holes: &[Hole]) -> Result<Drilled, (ReliefFault, Hole)> {
    let lines = sided(part, walk, holes).into_iter().map(|to| Segment::Line { to });
    let mut outer = Contour { segments: lines.collect() };
    let mut ends = walk.bend_ends.clone();
    for (number, hole) in holes.iter().enumerate() {
        let touches = |other: &Hole| hole.centre.distance(other.centre) <= hole.radius_mm + other.radius_mm;
        if holes[..number].iter().any(touches) {
            return Err((ReliefFault::MeetsRelief, *hole));
        }
        let mut left = bite::without_disc(&outer, hole.centre, hole.radius_mm);
        outer = match (left.pop(), left.is_empty()) {
            (Some(only), true) => only,
            _ => return Err((ReliefFault::CutsOff, *hole)),
        };
        for (bend, line) in walk.bend_ends.iter().enumerate() {
            let near = polygon::point_to_segment(hole.centre, (line[0], line[1])) < hole.radius_mm;
            if near && !hole.bends.contains(&bend) {
                return Err((ReliefFault::CutsBend, *hole));
            }
        }
        for bend in hole.bends {
            ends[bend] =
                shortened(ends[bend], hole, part.thickness_mm()).ok_or((ReliefFault::TakesBend, *hole))?;
        }
    }
    for hole in holes.iter().filter(|_| matches!(part.relief, Relief::TearDrop(_))) {
        for bend in hole.bends {
            to_edge(&mut ends[bend], &outer);
        }
    }
    Ok((outer, ends))
}

/// Corners of the outline before drilling. A tear-drop has its straight sides there: from where the flange's cut edge
/// begins to where the side touches the hole, and to its centre.
fn sided(part: &FoldedPart, walk: &Walk, holes: &[Hole]) -> Vec<Point> {
    let corners: Vec<Point> = walk.corners.iter().map(|corner| corner.point).collect();
    if !matches!(part.relief, Relief::TearDrop(_)) {
        return corners;
    }
    let count = corners.len();
    let mut sided = Vec::with_capacity(count + 2 * holes.len());
    for (number, &corner) in corners.iter().enumerate() {
        let Some(hole) = holes.iter().find(|hole| hole.corner == number) else {
            sided.push(corner);
            continue;
        };
        // The metal lies to the left of the outline, so the sides move to the left.
        let (before, after) = (corners[(number + count - 1) % count], corners[(number + 1) % count]);
        sided.extend(touching(before, hole, 1.0));
        sided.push(corner);
        sided.extend(touching(after, hole, -1.0));
    }
    sided
}

/// Where the straight from `outside` touches the hole, on the left of the way from there to its centre for `hand` 1,
/// on the right for −1; `None` when the hole reaches past it.
fn touching(outside: Point, hole: &Hole, hand: f64) -> Option<Point> {
    let off = hole.centre - outside;
    let (squared, radius) = (off.dot(off), hole.radius_mm);
    let tangent_squared = squared - radius * radius;
    (tangent_squared > tolerance::SAME_POINT_MM).then(|| {
        // Foot of the tangent: along the way t²/d², off it t·r/d², of the whole way d.
        outside
            + off * (tangent_squared / squared)
            + off.left() * (hand * radius * tangent_squared.sqrt() / squared)
    })
}

/// What a hole leaves of a bend line that ends at it; `None` when that is shorter than the sheet is thick.
fn shortened([from, to]: [Point; 2], hole: &Hole, least_mm: f64) -> Option<[Point; 2]> {
    let middle = from.toward(to, 0.5);
    if middle.distance(hole.centre) <= hole.radius_mm {
        return None;
    }
    let cut = |end: Point| {
        let shares = bite::crossings((middle, end), hole.centre, hole.radius_mm);
        shares.first().map_or(end, |&share| middle.toward(end, share))
    };
    let left = [cut(from), cut(to)];
    (least_mm <= left[0].distance(left[1])).then_some(left)
}

/// Draws the ends of a bend line back to the straight edges of the outline.
pub(super) fn to_edge(line: &mut [Point; 2], outer: &Contour) {
    let middle = line[0].toward(line[1], 0.5);
    for end in line {
        let way = *end - middle;
        let shares = outer.pieces().filter_map(|(from, segment)| {
            let Segment::Line { to } = segment else { return None };
            let meets = middle.crossing(way, from, to - from)?;
            let (share, on) = ((meets - middle).dot(way) / way.dot(way), (meets - from).dot(to - from));
            let on_edge = 0.0 <= on && on <= (to - from).dot(to - from);
            (on_edge && 0.0 < share && share < 1.0).then_some(share)
        });
        *end = middle.toward(*end, shares.fold(1.0, f64::min));
    }
}

fn holes(part: &FoldedPart, walk: &Walk) -> Vec<Hole> {
    let hole = |(corner, at): (usize, &Corner)| {
        let bends = at.between?;
        Some(Hole { corner, centre: at.point, bends, radius_mm: part.relief_radius_mm(bends)? })
    };
    walk.corners.iter().enumerate().filter_map(hole).collect()
}

/// The largest radius below `asked_mm` that fits.
fn largest(asked_mm: f64, fits: impl Fn(f64) -> bool) -> Option<f64> {
    let share = |step: u32| asked_mm * f64::from(step) / f64::from(TRIES);
    let step = (1..TRIES).rev().find(|&step| fits(share(step)))?;
    let (mut low, mut high) = (share(step), share(step + 1));
    for _ in 0..TRIES / 2 {
        let middle = 0.5 * (low + high);
        if fits(middle) { low = middle } else { high = middle }
    }
    Some(low)
}

fn faces(part: &FoldedPart, bends: [usize; 2]) -> [String; 2] {
    bends.map(|bend| part.faces[part.bends[bend].child].name.clone())
}

/// Whether two bends may meet without a relief.
fn may_meet(part: &FoldedPart, pair: [usize; 2]) -> Result<(), UnfoldError> {
    let [first, second] = pair.map(|bend| &part.bends[bend]);
    let why = if first.direction != second.direction {
        ReliefNeed::Opposed
    } else if THICKEST_UNRELIEVED_MM + tolerance::SAME_POINT_MM < part.thickness_mm() {
        ReliefNeed::Thick { most_mm: THICKEST_UNRELIEVED_MM }
    } else if MOST_UNRELIEVED_RAD + tolerance::PARALLEL_SINE < first.turn_rad.max(second.turn_rad) {
        ReliefNeed::Turn { most_rad: MOST_UNRELIEVED_RAD }
    } else {
        return Ok(());
    };
    Err(UnfoldError::ReliefNeeded { faces: faces(part, pair), why })
}

fn relief(part: &FoldedPart, corner: &Corner) -> Option<FlatRelief> {
    let bends = corner.between?;
    let radius_mm = part.relief_radius_mm(bends).unwrap_or_default();
    let cut = match part.relief {
        Relief::None => ReliefCut::None,
        Relief::Square => ReliefCut::Square { zones_mm: bends.map(|bend| part.allowance_mm(bend)) },
        Relief::Round(_) => ReliefCut::Round { radius_mm },
        Relief::TearDrop(_) => ReliefCut::TearDrop { radius_mm },
    };
    Some(FlatRelief { at: corner.point, bends, cut })
}
