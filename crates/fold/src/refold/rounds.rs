//! Bend zones as solids, against one another and against faces: none may run into metal that it is not bent from.
//!
//! Where two bodies lie in one another an edge of one runs through the other. So every edge is followed through the other
//! body, and the deepest place on it is found by halving: what lies within h of a place can be no more than 2 h deeper.

use geometry::{Frame, Point, Point3, tolerance};

use super::plate::Face;
use super::round::{self, Curve, Round};
use super::{Pressed, RefoldError};
use crate::flat::{FlatPattern, ReliefCut};

/// Half the finest step along an edge, mm. Half the depth that is let pass: nothing that deep is stepped over.
const FINEST_MM: f64 = 0.25 * tolerance::ROUND_MM;

/// Steps round a bend in which its cut end is looked at.
const ROUND_STATIONS: f64 = 16.0;

/// One body of the refolded flat.
enum Body {
    Face(Face),
    Round(Round),
}

/// A body, where it reaches, and what it belongs to.
struct Placed {
    body: Body,
    /// The edges of its metal, with their lengths in mm.
    curves: Vec<(Curve, f64)>,
    reach: [Point3; 2],
    /// The face itself, or the two faces on either side of the bend.
    faces: [usize; 2],
    /// The bend it is.
    bend: Option<usize>,
}

/// The bodies of one refolded flat.
pub(super) struct Bodies<'a> {
    flat: &'a FlatPattern,
    placed: Vec<Placed>,
}

impl<'a> Bodies<'a> {
    /// Every face and every bend zone of a flat whose faces came to lie at `folded`.
    pub(super) fn of(flat: &'a FlatPattern, folded: &[Frame]) -> Self {
        let faces = folded.iter().enumerate().map(|(number, frame)| {
            let face = Face::of(flat, number, frame);
            Placed::of(Body::Face(face), [number; 2], None)
        });
        let rounds = flat.bends.iter().enumerate().map(|(number, bend)| {
            let round = Round::of(flat, number, &folded[bend.parent]);
            Placed::of(Body::Round(round), [bend.parent, bend.child], Some(number))
        });
        Self { flat, placed: faces.chain(rounds).collect() }
    }

    /// A face and the bends at it.
    pub(super) fn joined(&self, face: usize) -> Vec<usize> {
        (0..self.placed.len()).filter(|&number| self.placed[number].faces.contains(&face)).collect()
    }

    /// How far a place is off a body, mm.
    pub(super) fn off_mm(&self, number: usize, place: Point3) -> f64 {
        self.placed[number].body.off_mm(place)
    }

    /// How far a place is off the nearest bend, mm, as [`Self::off_mm`]; infinite where there is none.
    pub(super) fn bends_off_mm(&self, place: Point3) -> f64 {
        let bends = self.flat.faces.len()..self.placed.len();
        bends.map(|number| self.off_mm(number, place)).fold(f64::INFINITY, f64::min)
    }

    /// How far a place is off the metal of a bend, mm, and how deep it lies in that, mm; one of the two is zero.
    pub(super) fn bend_mm(&self, bend: usize, place: Point3) -> (f64, f64) {
        let body = &self.bend(bend).body;
        let depth_mm = body.depth_mm(place).max(0.0);
        (if 0.0 < depth_mm { 0.0 } else { body.off_mm(place) }, depth_mm)
    }

    /// Least and largest distance from the end of a bend that is nearer to another piece, the nearer of its two edges, to the
    /// metal of that, mm.
    pub(super) fn bend_end_off_mm(&self, bend: usize, other: &Self) -> Option<[f64; 2]> {
        let ends: Vec<&Curve> = self
            .bend(bend)
            .curves
            .iter()
            .map(|(curve, _)| curve)
            .filter(|curve| matches!(curve, Curve::Round(..)))
            .collect();
        // Inside and outside of one cut end stand beside one another.
        let end = |pair: &[&Curve]| {
            let off = |share: f64| {
                pair.iter().map(|curve| other.nearest_mm(curve.at(share))).fold(f64::INFINITY, f64::min)
            };
            let all = stations(ROUND_STATIONS).map(off);
            all.fold([f64::INFINITY, 0.0], |[least, most]: [f64; 2], off| [least.min(off), most.max(off)])
        };
        ends.chunks_exact(2).map(end).min_by(|a, b| a[1].total_cmp(&b[1]))
    }

    /// How far a place is off the nearest metal, mm.
    pub(super) fn nearest_mm(&self, place: Point3) -> f64 {
        self.placed.iter().map(|placed| placed.body.off_mm(place)).fold(f64::INFINITY, f64::min)
    }

    /// What the shop calls a body.
    pub(super) fn name(&self, number: usize) -> String {
        let placed = &self.placed[number];
        let name = &self.flat.faces[placed.faces[1]].name;
        if placed.bend.is_some() { format!("the bend of {name}") } else { name.clone() }
    }

    /// No bend may lie in metal that it is not bent from.
    pub(super) fn apart(&self) -> Result<(), RefoldError> {
        let deep = |pair: [usize; 2]| {
            let [first, second] = pair.map(|number| &self.placed[number]);
            Some((pair, first.depth_in_mm(second)?))
        };
        match self.pairs().filter_map(deep).max_by(|a, b| a.1.total_cmp(&b.1)) {
            None => Ok(()),
            Some(([first, second], depth_mm)) => {
                Err(RefoldError::RunsInto { first: self.name(first), second: self.name(second), depth_mm })
            }
        }
    }

    /// The deepest that a bend of one piece lies in another piece, or the other way round, with the names of both bodies.
    pub(super) fn deepest_in(&self, other: &Self) -> Option<(f64, [String; 2])> {
        let count = other.placed.len();
        let pairs = (0..self.placed.len()).flat_map(|own| (0..count).map(move |its| (own, its)));
        let with_bend = |&(own, its): &(usize, usize)| {
            self.placed[own].bend.is_some() || other.placed[its].bend.is_some()
        };
        let deep = |(own, its): (usize, usize)| {
            let depth_mm = self.placed[own].depth_in_mm(&other.placed[its])?;
            Some((depth_mm, [self.name(own), other.name(its)]))
        };
        pairs.filter(with_bend).filter_map(deep).max_by(|a, b| a.0.total_cmp(&b.0))
    }

    /// The least distance between a bend of this piece and the metal of another, or the other way round, with the names of both
    /// bodies; `None` where it is no less than `within_mm`.
    pub(super) fn nearest_bend(&self, other: &Self, within_mm: f64) -> Option<(f64, [String; 2])> {
        let mut nearest = None;
        let mut least_mm = within_mm;
        for (own, first) in self.placed.iter().enumerate() {
            for (its, second) in other.placed.iter().enumerate() {
                // Faces are measured exactly between slabs.
                if first.bend.is_none() && second.bend.is_none() {
                    continue;
                }
                let before_mm = least_mm;
                first.approach(second, &mut least_mm);
                if least_mm < before_mm {
                    nearest = Some((least_mm, [own, its]));
                }
            }
        }
        nearest.map(|(least_mm, [own, its])| (least_mm, [self.name(own), other.name(its)]))
    }

    /// The bend beside one of two faces that comes nearest to the other face or a bend beside that, with how near, mm, and both
    /// names; `None` where none does within `within_mm`. Bends that have a face in common with one beside the other face meet at
    /// a relief and do not count.
    pub(super) fn nearest_beside(&self, faces: [usize; 2], within_mm: f64) -> Option<(f64, [String; 2])> {
        let [first, second] = faces.map(|face| self.joined(face));
        let shares = |own: usize, others: &[usize]| {
            let bends = others.iter().map(|&other| &self.placed[other]).filter(|other| other.bend.is_some());
            bends.flat_map(|other| other.faces).any(|face| self.placed[own].faces.contains(&face))
        };
        let kept = |own: &[usize], others: &[usize]| -> Vec<usize> {
            let counts = |&&body: &&usize| self.placed[body].bend.is_none() || !shares(body, others);
            own.iter().filter(counts).copied().collect()
        };
        let (own, others) = (kept(&first, &second), kept(&second, &first));
        let (mut least_mm, mut nearest) = (within_mm, None);
        let pairs = own.iter().flat_map(|&own| others.iter().map(move |&other| [own, other]));
        for pair in pairs.filter(|pair| self.is_apart(pair.map(|number| &self.placed[number]))) {
            let before_mm = least_mm;
            self.placed[pair[0]].approach(&self.placed[pair[1]], &mut least_mm);
            if least_mm < before_mm {
                nearest = Some(pair);
            }
        }
        nearest.map(|pair| (least_mm, pair.map(|number| self.name(number))))
    }

    /// How far the edges of bends that meet without a relief lie in one another.
    pub(super) fn pressed(&self) -> Vec<Pressed> {
        let unrelieved = self.flat.reliefs.iter().filter(|relief| relief.cut == ReliefCut::None);
        let pressed = unrelieved.map(|relief| {
            let [first, second] = relief.bends;
            let reach = [(first, second), (second, first)].map(|(own, other)| {
                let at = round::on_zone(&self.flat.bends[own], relief.at);
                self.bend(own).reach_in_mm(at, self.bend(other))
            });
            Pressed { bends: relief.bends, reach_mm: reach[0].max(reach[1]) }
        });
        pressed.collect()
    }

    /// A bend; they stand behind the faces.
    fn bend(&self, number: usize) -> &Placed {
        &self.placed[self.flat.faces.len() + number]
    }

    /// Pairs of which one at least is a bend, that do not run on into one another.
    fn pairs(&self) -> impl Iterator<Item = [usize; 2]> + '_ {
        let count = self.placed.len();
        let all = (0..count).flat_map(move |first| (first + 1..count).map(move |second| [first, second]));
        all.filter(|pair| self.is_apart(pair.map(|number| &self.placed[number])))
    }

    fn is_apart(&self, [first, second]: [&Placed; 2]) -> bool {
        match (first.bend, second.bend) {
            (None, None) => false,
            (Some(a), Some(b)) => !self.meet_uncut([a, b]),
            (None, Some(_)) => !second.faces.contains(&first.faces[0]),
            (Some(_), None) => !first.faces.contains(&second.faces[0]),
        }
    }

    /// Without a relief the sheet between two bends is pressed, not cut: [`Bodies::pressed`] tells how far.
    fn meet_uncut(&self, pair: [usize; 2]) -> bool {
        let own = |bends: [usize; 2]| bends == pair || bends == [pair[1], pair[0]];
        self.flat.reliefs.iter().any(|relief| relief.cut == ReliefCut::None && own(relief.bends))
    }
}

impl Placed {
    fn of(body: Body, faces: [usize; 2], bend: Option<usize>) -> Self {
        let curves = body.curves().into_iter().map(|curve| (curve, curve.length_mm())).collect();
        Self { curves, reach: body.reach(), body, faces, bend }
    }

    /// How deep two bodies lie in one another, mm; `None` up to what is let pass.
    fn depth_in_mm(&self, other: &Self) -> Option<f64> {
        if !boxes_meet(&self.reach, &other.reach) {
            return None;
        }
        let mut most_mm = tolerance::ROUND_MM;
        for (own, other) in [(self, other), (other, self)] {
            for (curve, length_mm) in &own.curves {
                deepen(curve, other, (0.0, 1.0), *length_mm, &mut most_mm);
            }
        }
        (tolerance::ROUND_MM < most_mm).then_some(most_mm)
    }
}

impl Placed {
    /// Lessens `least_mm` to the distance between two bodies where that is less: the shortest way between two of them ends on
    /// an edge of one.
    fn approach(&self, other: &Self, least_mm: &mut f64) {
        if boxes_apart_mm(&self.reach, &other.reach) >= *least_mm {
            return;
        }
        for (own, other) in [(self, other), (other, self)] {
            for (curve, length_mm) in &own.curves {
                approach(curve, other, (0.0, 1.0), *length_mm, least_mm);
            }
        }
    }

    /// How far from the place `at` of its zone, along the cut edge that begins there, a bend lies in another body, mm.
    fn reach_in_mm(&self, at: Point, other: &Self) -> f64 {
        let mut reach_mm = 0.0_f64;
        for (curve, length_mm) in &self.curves {
            let Curve::Round(_, ends, _) = curve else { continue };
            let (near, far) =
                if ends.0.distance(at) < ends.1.distance(at) { *ends } else { (ends.1, ends.0) };
            // The cut edge runs on across the zone from there; the sheet before it is whole.
            if tolerance::SAME_POINT_MM < near.distance(at) || far.y < at.y {
                continue;
            }
            for share in stations(length_mm / FINEST_MM) {
                let is_in = tolerance::ROUND_MM < other.body.depth_mm(curve.at(share));
                let on_flat = ends.0.toward(ends.1, share);
                reach_mm = if is_in { reach_mm.max(on_flat.distance(at)) } else { reach_mm };
            }
        }
        reach_mm
    }
}

/// Shares of a way in so many equal steps at least, both ends among them.
fn stations(steps: f64) -> impl Iterator<Item = f64> {
    let steps = steps.ceil().max(1.0);
    std::iter::successors(Some(0.0), |n| Some(n + 1.0))
        .take_while(move |n| *n <= steps)
        .map(move |n| n / steps)
}

/// Follows a stretch of a curve through a body, as long as it may be deeper than `most_mm` there.
fn deepen(curve: &Curve, other: &Placed, (low, high): (f64, f64), length_mm: f64, most_mm: &mut f64) {
    if let Curve::Straight(a, b) = curve
        && other.body.most_through_mm(a.toward(*b, low), a.toward(*b, high)) <= *most_mm
    {
        return;
    }
    let middle = 0.5 * (low + high);
    let place = curve.at(middle);
    if off_box_mm(&other.reach, place) > 0.5 * length_mm {
        return;
    }
    let depth_mm = other.body.depth_mm(place);
    if depth_mm + length_mm <= *most_mm {
        return;
    }
    *most_mm = most_mm.max(depth_mm);
    if FINEST_MM < 0.5 * length_mm {
        deepen(curve, other, (low, middle), 0.5 * length_mm, most_mm);
        deepen(curve, other, (middle, high), 0.5 * length_mm, most_mm);
    }
}

/// Follows a stretch of a curve past a body, as long as it may come nearer than `least_mm` there.
fn approach(curve: &Curve, other: &Placed, (low, high): (f64, f64), length_mm: f64, least_mm: &mut f64) {
    let middle = 0.5 * (low + high);
    let place = curve.at(middle);
    if off_box_mm(&other.reach, place) - 0.5 * length_mm >= *least_mm {
        return;
    }
    let off_mm = other.body.off_mm(place);
    if off_mm - 0.5 * length_mm >= *least_mm {
        return;
    }
    *least_mm = least_mm.min(off_mm);
    if tolerance::REFOLD_MM < 4.0 * length_mm {
        approach(curve, other, (low, middle), 0.5 * length_mm, least_mm);
        approach(curve, other, (middle, high), 0.5 * length_mm, least_mm);
    }
}

impl Body {
    fn off_mm(&self, place: Point3) -> f64 {
        match self {
            Self::Face(face) => face.off_mm(place),
            Self::Round(round) => round.off_mm(place),
        }
    }

    fn depth_mm(&self, place: Point3) -> f64 {
        match self {
            Self::Face(face) => face.depth_mm(place),
            Self::Round(round) => round.depth_mm(place),
        }
    }

    fn most_through_mm(&self, a: Point3, b: Point3) -> f64 {
        match self {
            Self::Face(face) => face.most_through_mm(a, b),
            Self::Round(round) => round.most_through_mm(a, b),
        }
    }

    fn curves(&self) -> Vec<Curve> {
        match self {
            Self::Face(face) => face.curves(),
            Self::Round(round) => round.curves(),
        }
    }

    fn reach(&self) -> [Point3; 2] {
        match self {
            Self::Face(face) => face.reach(),
            Self::Round(round) => round.reach(),
        }
    }
}

/// How far a place lies off an upright box, mm, along the axis on which it is farthest.
fn off_box_mm([low, high]: &[Point3; 2], place: Point3) -> f64 {
    let off = |axis: fn(&Point3) -> f64| (axis(low) - axis(&place)).max(axis(&place) - axis(high));
    off(|p| p.x).max(off(|p| p.y)).max(off(|p| p.z))
}

/// How far apart two upright boxes are along the axis on which they are farthest, mm; zero or less where they meet.
fn boxes_apart_mm([low, high]: &[Point3; 2], [other_low, other_high]: &[Point3; 2]) -> f64 {
    let apart = |axis: fn(&Point3) -> f64| (axis(other_low) - axis(high)).max(axis(low) - axis(other_high));
    apart(|p| p.x).max(apart(|p| p.y)).max(apart(|p| p.z))
}

fn boxes_meet([low, high]: &[Point3; 2], [other_low, other_high]: &[Point3; 2]) -> bool {
    let meets = |axis: fn(&Point3) -> f64| axis(low) <= axis(other_high) && axis(other_low) <= axis(high);
    meets(|p| p.x) && meets(|p| p.y) && meets(|p| p.z)
}
