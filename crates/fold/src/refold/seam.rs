//! Seams of the refolded part: how far apart the two plates stand along the whole seam, and whether they collide.
//!
//! The distance from a point to a convex body is largest at an end of the straight edge the point runs along, so the
//! largest gap is exact though only ends are measured.

use geometry::{Frame, Point, Point3, Slab, tolerance};

use super::RefoldError;
use super::rounds::Bodies;
use super::solid::{self, Solid};
use crate::flat::{FlatPattern, FlatSeam};
use crate::part::{FoldedPart, Seam, SeamSide, SeamStyle};

/// A seam as refolded.
#[derive(Debug, Clone, PartialEq)]
pub struct SeamGap {
    /// Its name.
    pub name: String,
    /// How the plates meet.
    pub style: SeamStyle,
    /// Least distance between the plates, mm.
    pub least_mm: f64,
    /// How deep the plates lie in one another, mm; zero when they do not. Never above the tolerance of refolding.
    pub interference_mm: f64,
    /// Largest distance from the edge that meets the other plate, where both run side by side, mm.
    pub largest_mm: f64,
    /// The widest opening at a corner that is cut off clear of the other side's bends, mm; `None` where none is.
    pub at_cut_off_mm: Option<f64>,
    /// Where bends beside the seam come nearer to the other side than the gap: how near, mm, and the two that do.
    pub near_bend: Option<(f64, [String; 2])>,
    /// Inside angle between the plates, radians.
    pub inside_angle_rad: f64,
    /// Outside length of the seam, mm.
    pub length_mm: f64,
    /// What of an edge that stops against a plate of another piece runs on past the flat of that; `None` where it lies on that
    /// all along, or what is beyond follows it.
    pub past: Option<Past>,
}

/// An edge that runs on past the flat of the plate it stops against: that ends there, or is bent away.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Past {
    /// How much of the edge lies on the flat, mm.
    pub met_mm: f64,
    /// The widest opening along the rest, to the nearest metal of any other piece, mm.
    pub open_mm: f64,
}

/// Measures every seam.
pub(super) fn measure(
    part: &FoldedPart,
    flat: &FlatPattern,
    folded: &[Frame],
    (solids, bodies): (&[Solid], &Bodies<'_>),
) -> Result<Vec<SeamGap>, RefoldError> {
    let measured = |(design, seam): (&Seam, &FlatSeam)| {
        let gap = one(design, seam, flat, folded, solids)?;
        Ok(SeamGap {
            at_cut_off_mm: at_cut_off(seam, flat, folded, bodies),
            near_bend: near_bend(design, bodies),
            ..gap
        })
    };
    part.seams.iter().zip(&flat.seams).map(measured).collect()
}

impl SeamGap {
    /// The least gap of the edges, or of the bends beside them where these come nearer, mm.
    #[must_use]
    pub fn least_with_bends_mm(&self) -> f64 {
        self.near_bend.as_ref().map_or(self.least_mm, |(near_mm, _)| self.least_mm.min(*near_mm))
    }
}

/// Bends beside an open or butted seam that come nearer to its other side than the gap. Bends of one face draw together to
/// their relief whatever the gap, so those are left out; so are strips and tabs, which come nearer by design.
fn near_bend(design: &Seam, bodies: &Bodies<'_>) -> Option<(f64, [String; 2])> {
    let within_mm = design.gap_mm - tolerance::REFOLD_MM;
    let is_plain = matches!(design.style, SeamStyle::Open | SeamStyle::Butt { .. });
    (is_plain && 0.0 < within_mm)
        .then(|| bodies.nearest_beside([design.first.0, design.second.0], within_mm))
        .flatten()
}

/// The widest opening at the corners of a seam that are cut off: from the ends and the middle of each cut, on the nearer
/// side of the metal, to the other side's face and bends.
fn at_cut_off(seam: &FlatSeam, flat: &FlatPattern, folded: &[Frame], bodies: &Bodies<'_>) -> Option<f64> {
    let open_mm = |(face, [from, to]): &(usize, [Point; 2])| {
        let others = [seam.first.0, seam.second.0].map(|side| bodies.joined(side));
        let own = bodies.joined(*face);
        let other: Vec<usize> = others.concat().into_iter().filter(|body| !own.contains(body)).collect();
        let places = [0.0, 0.5, 1.0].map(|share| from.toward(*to, share));
        let off = |place: Point| {
            let sides = [0.0, flat.thickness_mm].map(|z| folded[*face].place(place, z));
            sides
                .into_iter()
                .flat_map(|place| other.iter().map(move |&body| bodies.off_mm(body, place)))
                .fold(f64::INFINITY, f64::min)
        };
        places.map(off).into_iter().fold(0.0, f64::max)
    };
    seam.cut_off.iter().map(open_mm).max_by(f64::total_cmp)
}

fn one(
    design: &Seam,
    seam: &FlatSeam,
    flat: &FlatPattern,
    folded: &[Frame],
    solids: &[Solid],
) -> Result<SeamGap, RefoldError> {
    let first = Plate { edges: cut_edges(&seam.first, flat, folded), solid: &solids[seam.first.0] };
    let second = Plate { edges: cut_edges(&seam.second, flat, folded), solid: &solids[seam.second.0] };
    between(design, &first, &second)
}

/// One of the two plates at a seam, in space.
pub(super) struct Plate<'a> {
    /// Its cut edge, on the back and on the face side.
    pub(super) edges: [[Point3; 2]; 2],
    /// All of the face.
    pub(super) solid: &'a Solid,
}

/// Measures the seam between two plates.
pub(super) fn between(design: &Seam, first: &Plate<'_>, second: &Plate<'_>) -> Result<SeamGap, RefoldError> {
    let least_mm = solid::separation_mm(first.solid, second.solid);
    if least_mm < -tolerance::REFOLD_MM {
        return Err(RefoldError::Collision { seam: design.name.clone(), depth_mm: -least_mm });
    }
    let largest = match design.style {
        SeamStyle::Open => {
            let sides = [
                largest(&first.edges, &second.edges, second.solid),
                largest(&second.edges, &first.edges, first.solid),
            ];
            sides.into_iter().flatten().max_by(f64::total_cmp)
        }
        SeamStyle::Butt { through: SeamSide::First }
        | SeamStyle::TabAndSlot { tabs: SeamSide::Second, .. } => stopped(&second.edges, first.solid),
        SeamStyle::Butt { through: SeamSide::Second }
        | SeamStyle::TabAndSlot { tabs: SeamSide::First, .. } => stopped(&first.edges, second.solid),
        SeamStyle::Lap { carrier: SeamSide::First, .. } => flush(first.solid, second.solid),
        SeamStyle::Lap { carrier: SeamSide::Second, .. } => flush(second.solid, first.solid),
    };
    let largest_mm = largest.ok_or_else(|| RefoldError::Beside { seam: design.name.clone() })?;
    // An edge that stands a little beside the plate it stops against is farther from it than it is high over it.
    let least_mm = match design.style {
        SeamStyle::Butt { .. } => least_mm.min(largest_mm),
        _ => least_mm,
    };
    check(
        design,
        SeamGap {
            name: design.name.clone(),
            style: design.style,
            least_mm: least_mm.max(0.0),
            interference_mm: (-least_mm).max(0.0),
            largest_mm: largest_mm.max(least_mm),
            at_cut_off_mm: None,
            near_bend: None,
            inside_angle_rad: design.inside_angle_rad,
            length_mm: design.length_mm,
            past: None,
        },
    )
}

/// Places along a stretch at which its opening is looked at, as shares of it.
const LOOKED_AT: [f64; 5] = [0.0, 0.25, 0.5, 0.75, 1.0];

/// What of a butted edge runs on past the flat of the plate it stops against; `off` tells how far a place is off the metal of
/// all other pieces, mm.
pub(super) fn past(
    design: &Seam,
    first: &Plate<'_>,
    second: &Plate<'_>,
    off: impl Fn(Point3) -> f64,
) -> Option<Past> {
    let (own, plate) = match design.style {
        SeamStyle::Butt { through: SeamSide::First } => (&second.edges, first.solid),
        SeamStyle::Butt { through: SeamSide::Second } => (&first.edges, second.solid),
        SeamStyle::Open | SeamStyle::Lap { .. } | SeamStyle::TabAndSlot { .. } => return None,
    };
    let off_middle = |[a, b]: [Point3; 2]| solid::distance_to_point_mm(plate, a.toward(b, 0.5));
    let nearer = if off_middle(own[1]) < off_middle(own[0]) { own[1] } else { own[0] };
    let (bare, met_mm) = off_the_flat(nearer, plate);
    let [a, b] = nearer;
    let places = bare.iter().flat_map(|[from, to]| LOOKED_AT.map(|share| from + (to - from) * share));
    let open_mm = places.map(|share| off(a.toward(b, share))).fold(0.0, f64::max);
    (design.gap_mm + tolerance::REFOLD_MM < open_mm).then_some(Past { met_mm, open_mm })
}

/// The stretches of an edge that lie over no piece of a plate, as shares of it, and how much of it does, mm.
fn off_the_flat([a, b]: [Point3; 2], plate: &Solid) -> (Vec<[f64; 2]>, f64) {
    let along = b - a;
    let share = |place: Point3| (place - a).dot(along) / along.dot(along);
    let over = plate.iter().filter_map(|slab| slab.beneath([a, b]));
    let mut over: Vec<[f64; 2]> = over.map(|ends| ends.map(share)).collect();
    over.sort_by(|one, other| one[0].total_cmp(&other[0]));
    let least = tolerance::REFOLD_MM / a.distance(b);
    let (mut bare, mut at, mut met) = (Vec::new(), 0.0_f64, 0.0);
    for [from, to] in over {
        if at + least < from {
            bare.push([at, from]);
        }
        met += (to - from.max(at)).max(0.0);
        at = at.max(to);
    }
    if at + least < 1.0 {
        bare.push([at, 1.0]);
    }
    (bare, met * a.distance(b))
}

fn check(design: &Seam, gap: SeamGap) -> Result<SeamGap, RefoldError> {
    // Tabs may come nearer to the ends of their slots than the plates to one another.
    let nearest_mm = match design.style {
        SeamStyle::TabAndSlot { clearance_mm, .. } => clearance_mm.min(design.gap_mm),
        _ => design.gap_mm,
    };
    let found = [(gap.least_mm, nearest_mm), (gap.largest_mm, design.gap_mm)];
    let off =
        |(measured_mm, designed_mm): &(f64, f64)| (measured_mm - designed_mm).abs() > tolerance::REFOLD_MM;
    match found.into_iter().find(off) {
        Some((measured_mm, designed_mm)) => {
            Err(RefoldError::Gap { seam: gap.name, measured_mm, designed_mm })
        }
        None => Ok(gap),
    }
}

/// The cut edge in space: on the back and on the face side.
pub(super) fn cut_edges(
    (face, ends): &(usize, [Point; 2]),
    flat: &FlatPattern,
    folded: &[Frame],
) -> [[Point3; 2]; 2] {
    [0.0, flat.thickness_mm].map(|z| ends.map(|end| folded[*face].place(end, z)))
}

/// Largest distance to the other plate from the nearer edge of one; `None` where they nowhere run side by side.
fn largest(own: &[[Point3; 2]; 2], other: &[[Point3; 2]; 2], plate: &Solid) -> Option<f64> {
    let farthest = |ends: [Point3; 2]| {
        let to_plate = |end: Point3| solid::distance_to_point_mm(plate, end);
        to_plate(ends[0]).max(to_plate(ends[1]))
    };
    own.iter().filter_map(|edge| beside(*edge, other)).map(farthest).min_by(f64::total_cmp)
}

/// Largest distance from the nearer edge of a plate to the one it stops against, as far as it stands over that;
/// `None` where it nowhere does. Two plates that meet out of square end a little beside one another: an edge beyond the
/// other plate's end by no more than a thickness is measured by its height over that plate.
fn stopped(own: &[[Point3; 2]; 2], plate: &Solid) -> Option<f64> {
    let farthest = |edge: &[Point3; 2]| {
        let over = |slab: &Slab| match slab.beneath(*edge) {
            Some(ends) => Some(ends.map(|end| slab.distance_to_point_mm(end))),
            None => {
                Some(slab.beneath_within(*edge, slab.thickness_mm())?.map(|end| slab.height_over_mm(end)))
            }
        };
        plate.iter().filter_map(over).flatten().max_by(f64::total_cmp)
    };
    own.iter().filter_map(farthest).min_by(f64::total_cmp)
}

/// The piece of an edge that runs beside the other plate's edges.
fn beside([a, b]: [Point3; 2], other: &[[Point3; 2]; 2]) -> Option<[Point3; 2]> {
    let along = b - a;
    let share = |point: Point3| (point - a).dot(along) / along.dot(along);
    let (mut low, mut high) = (0.0_f64, 1.0_f64);
    for edge in other {
        let ends = edge.map(share);
        low = low.max(ends[0].min(ends[1]));
        high = high.min(ends[0].max(ends[1]));
    }
    (low < high).then(|| [a.toward(b, low), a.toward(b, high)])
}

/// How far the near face of a lap strip stands off the plate it lies along, at its worst place over that; `None` where it
/// nowhere lies over it.
fn flush(strip: &[Slab], plate: &Solid) -> Option<f64> {
    let worst = |own: &Slab, other: &Slab| {
        // Whichever face of the strip is nearer is the one that lies on the plate.
        let faces = own.faces().map(|face| {
            let ends = edges_of(face).filter_map(|edge| other.beneath(edge)).flatten();
            ends.map(|end| other.distance_to_point_mm(end)).max_by(f64::total_cmp)
        });
        faces.into_iter().flatten().min_by(f64::total_cmp)
    };
    let pairs = strip.iter().flat_map(|own| plate.iter().map(move |other| (own, other)));
    pairs.filter_map(|(own, other)| worst(own, other)).max_by(f64::total_cmp)
}

/// The edges round one face of a plate.
fn edges_of(face: &[Point3]) -> impl Iterator<Item = [Point3; 2]> + '_ {
    (0..face.len()).map(|number| [face[number], face[(number + 1) % face.len()]])
}
