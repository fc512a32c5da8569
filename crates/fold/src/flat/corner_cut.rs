//! Corners of a plate that stops against another, cut off clear of the inside radius of the other's bends; and those of a
//! plate that runs through past another, clear of what is bent off that.
//!
//! Beside the other plate's bend the corner would stand in the round of it. The room inside a bend is convex, so one
//! straight cut between two places that are clear is clear all along.

use geometry::{Frame, Point, Point3, Vector, tolerance};

use super::jog;
use super::outline::FaceLayout;
use super::stop::{self, Against};
use crate::part::{self, FoldedPart, Relief};

/// Places along the edge at which the corner is looked at.
const PLACES: u32 = 48;

/// How much longer along the edge than needed at least a cut may be, to take less off beside it.
const LONGER: [f64; 6] = [1.0, 1.1, 1.25, 1.5, 2.0, 3.0];

/// The plate that stops or runs past: where it lies, its face and its edge at the seam.
pub(super) struct Stopping<'a> {
    pub(super) part: &'a FoldedPart,
    pub(super) frame: &'a Frame,
    pub(super) face: usize,
    pub(super) edge: usize,
    pub(super) against: &'a Against,
}

/// What is in the way of a corner: places so far along the edge, and so far inside it along the next one, mm; and from where on along
/// the edge nothing is.
struct Held {
    places: Vec<[f64; 2]>,
    free_mm: f64,
}

/// One end of the edge: the corner of the face, the way into the edge from there, and the way to the corner along the next
/// edge.
struct End {
    corner: usize,
    at: Point,
    inward: Vector,
    toward: Vector,
    /// Length of the edge, mm.
    length_mm: f64,
    /// The edge starts at the corner.
    starts: bool,
}

impl End {
    /// True for a corner that the face goes round: nothing can be cut off there, and a straight line from one edge to the other
    /// would add metal.
    fn is_hollow(&self) -> bool {
        let turn = self.toward.cross(self.inward);
        if self.starts { turn < 0.0 } else { 0.0 < turn }
    }
}

impl Stopping<'_> {
    /// Cuts both ends of the edge where they stand in a bend. A corner that would have to lose more than `most_mm` is left:
    /// the measure of the refolded part finds it. Gives both ends of every cut.
    pub(super) fn cut(&self, layout: &mut FaceLayout, most_mm: f64) -> Vec<[Point; 2]> {
        let mut cuts = Vec::new();
        for end in self.ends(layout).into_iter().flatten().filter(|end| !end.is_hollow()) {
            let Some([along_mm, beside_mm]) = self.needed(&end, most_mm) else { continue };
            let on_edge = end.at + end.inward * along_mm;
            let beside = end.at - end.toward * beside_mm;
            layout.at[end.corner] = if end.starts { vec![beside, on_edge] } else { vec![on_edge, beside] };
            cuts.push([beside, on_edge]);
        }
        cuts
    }

    /// Cuts a corner of the face off where it stands in what it keeps clear of. Between two bends only beside a sawn relief, that
    /// is no more than where both zones end: a hole is drilled about the corner itself.
    pub(super) fn cut_tip(&self, layout: &mut FaceLayout, at: Point, most_mm: f64) {
        let corners = &self.part.faces[self.face].corners;
        let Some(corner) = corners.iter().position(|own| own.distance(at) <= tolerance::SAME_POINT_MM) else {
            return;
        };
        let &[at] = layout.at[corner].as_slice() else { return };
        if layout.between_bends[corner].is_some() && self.part.relief != Relief::Square {
            return;
        }
        let count = layout.at.len();
        let [before, after] = [layout.edge((corner + count - 1) % count), layout.edge(corner)];
        let [into, out] = [(before[0] - at), (after[1] - at)];
        if 0.0 < into.cross(out) {
            return;
        }
        let longest_mm = most_mm.min(0.5 * into.length()).min(0.5 * out.length());
        // Looked at along both edges in the same way, so that the opposite hand is cut as the mirror image.
        let looked = [(out, into, true), (into, out, false)].map(|(along, beside, starts)| {
            let (inward, toward) = (along.unit(), -beside.unit());
            let end = End { corner, at, inward, toward, length_mm: along.length(), starts };
            let [along_mm, beside_mm] = self.needed(&end, longest_mm)?;
            let ends = [at + inward * along_mm, at - toward * beside_mm];
            Some((along_mm * beside_mm, along_mm, if starts { [ends[1], ends[0]] } else { ends }))
        });
        let less = |a: &(f64, f64, _), b: &(f64, f64, _)| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1));
        let cut = match looked {
            // What is in the way from one edge is so from the other.
            [Some(first), Some(second)] => Some(if less(&second, &first).is_lt() { second } else { first }),
            [first, second] => first.or(second),
        };
        if let Some((_, _, ends)) = cut {
            layout.at[corner] = ends.to_vec();
        }
    }

    /// The two ends of the edge, over all the pieces that tabs and strips have left of it; none that is notched already.
    fn ends(&self, layout: &FaceLayout) -> [Option<End>; 2] {
        let face = &self.part.faces[self.face];
        let count = face.corners.len();
        let (a, b) = face.edge(self.edge);
        let run = (b - a).unit();
        let pieces = || (0..count).filter(|&edge| part::on_line(face, self.edge, edge));
        let place = |edge: usize, ends: usize| (layout.edge(edge)[ends] - a).dot(run);
        let first = pieces().min_by(|&p, &q| place(p, 0).total_cmp(&place(q, 0)));
        let last = pieces().max_by(|&p, &q| place(p, 1).total_cmp(&place(q, 1)));
        let way = |edge: usize| {
            let (from, to) = face.edge(edge);
            (to - from).unit()
        };
        let end = |piece: usize, starts: bool| {
            let [from, to] = layout.edge(piece);
            let (corner, at, inward, toward) = if starts {
                (piece, from, run, way((piece + count - 1) % count))
            } else {
                ((piece + 1) % count, to, -run, -way((piece + 1) % count))
            };
            let single = layout.at[corner].len() == 1;
            single.then(|| End { corner, at, inward, toward, length_mm: from.distance(to), starts })
        };
        [first.and_then(|piece| end(piece, true)), last.and_then(|piece| end(piece, false))]
    }

    /// How much must be cut off a corner: along the edge and along the next one, mm; `None` where it is clear, or not to be
    /// cleared so. What is in the way of the farther half of the edge is mostly that of its other corner.
    fn needed(&self, end: &End, most_mm: f64) -> Option<[f64; 2]> {
        let half_mm = most_mm.min(0.5 * end.length_mm);
        let near = self.held(end, [half_mm, most_mm])?;
        least_cut(end, &near, [half_mm, most_mm]).or_else(|| {
            let held = self.held(end, [most_mm; 2])?;
            least_cut(end, &held, [most_mm.min(end.length_mm), most_mm])
        })
    }

    /// Places that must be cut off: so far along the edge, and so far inside it along the next one, mm; and from where on
    /// along the edge nothing is in the way. `None` where nothing is at all. Looked for up to so far along the edge, and inside it.
    fn held(&self, end: &End, [along_most_mm, most_mm]: [f64; 2]) -> Option<Held> {
        let share = |number: u32| f64::from(number) / f64::from(PLACES);
        let taken = |along_mm: f64| [along_mm, self.taken_mm(end, along_mm, most_mm)];
        let is_held = |[_, taken_mm]: [f64; 2]| taken_mm > tolerance::REFOLD_MM;
        let last = (0..=PLACES).rev().find(|&number| is_held(taken(along_most_mm * share(number))));
        let mut free_mm = 0.0;
        let mut held: Vec<[f64; 2]> = Vec::new();
        if let Some(last) = last {
            let mut held_mm = along_most_mm * share(last);
            free_mm = held_mm + along_most_mm * share(1);
            while free_mm - held_mm > tolerance::REFOLD_MM {
                let middle = 0.5 * (held_mm + free_mm);
                if is_held(taken(middle)) { held_mm = middle } else { free_mm = middle }
            }
            held.extend((0..PLACES).map(|number| taken(free_mm * share(number))));
        }
        let across = end.inward.cross(end.toward);
        let coordinates = |place: Point3| {
            let off = self.frame.local(place).0 - end.at;
            [off.cross(end.toward) / across, off.cross(end.inward) / across]
        };
        for place in self.against.end_places() {
            let (z, [along_mm, beside_mm]) = (self.frame.local(place).1, coordinates(place));
            if 0.0 < z && z < self.part.thickness_mm() && (0.0..along_most_mm).contains(&along_mm) {
                held.push([along_mm, beside_mm]);
            }
        }
        // Between the places looked at, the corner of a plate would be passed over.
        let sides = [0.0, self.part.thickness_mm()].map(|z| self.frame.plane(z));
        let corners = sides.into_iter().flat_map(|side| self.against.corners_on(side)).map(coordinates);
        held.extend(corners.filter(|[along_mm, _]| (0.0..free_mm).contains(along_mm)));
        held.retain(|place| is_held(*place));
        (!held.is_empty()).then_some(Held { places: held, free_mm })
    }

    /// How far the metal must end before the edge, at a place along it, mm; infinite where it is in the way however far.
    fn taken_mm(&self, end: &End, along_mm: f64, most_mm: f64) -> f64 {
        let at = end.at + end.inward * along_mm;
        let toward = self.frame.direct(end.toward);
        let clear = stop::THROUGH
            .map(|share| share * self.part.thickness_mm())
            .map(|z| self.against.clear_mm(self.frame.place(at, z), toward, [-most_mm, 0.0]));
        clear.into_iter().fold(0.0, |taken: f64, clear| taken.max(-clear))
    }
}

/// The cut that takes the least off a corner and all of what is in the way, along its edge and along the next one, mm; `None` where
/// none is shorter than `most_mm` on both.
fn least_cut(end: &End, held: &Held, most_mm: [f64; 2]) -> Option<[f64; 2]> {
    let farthest = held.places.iter().fold(held.free_mm, |most: f64, [along_mm, _]| most.max(*along_mm));
    let cut = |longer: f64| {
        let along_mm = longer * farthest + tolerance::REFOLD_MM;
        let beside = held.places.iter().map(|[along, beside]| beside / (1.0 - along / along_mm));
        [along_mm, beside.fold(0.0, f64::max)]
    };
    let fits = |[along_mm, beside_mm]: &[f64; 2]| *along_mm < most_mm[0] && *beside_mm <= most_mm[1];
    // A cut finer than a hand makes is set farther in.
    let made = |[along_mm, beside_mm]: [f64; 2]| {
        let length_mm = (end.inward * along_mm + end.toward * beside_mm).length();
        let longer = ((jog::LEAST_MM + tolerance::REFOLD_MM) / length_mm).max(1.0);
        [along_mm * longer, beside_mm * longer]
    };
    let cuts = LONGER.map(cut).map(made).into_iter().filter(fits);
    cuts.min_by(|a, b| (a[0] * a[1]).total_cmp(&(b[0] * b[1])))
}
