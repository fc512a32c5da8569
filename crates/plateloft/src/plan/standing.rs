//! Wholes of several pieces as they stand: every piece where its recipe puts it, and what that makes of weight and centre.

use checks::fit::Body;
use fold::refold;
use geometry::{Frame, Point3, Vector3, trig};
use units::{Length, Mass};

use super::balance::{centre_of, pieces_of};
use super::fits::{body_of, box_round, reach_of};
use super::{Flats, PlannedPart};

/// A piece, and where its root face lies in the whole.
pub(crate) type InPlace<'a> = (&'a PlannedPart, Frame);

/// Across a whole, in its own coordinates: a mirror image of it is mirrored this way.
const ABEAM: Vector3 = Vector3::new(1.0, 0.0, 0.0);

/// How nearly plumb a face of the hinged side must stand for a hinge to sit on it: the level share of its normal.
const PLUMB: f64 = 0.9;

/// A whole of which every piece has its place.
pub(crate) struct StandingWhole<'a> {
    pieces: Vec<InPlace<'a>>,
    /// What one whole weighs, its pieces as printed.
    pub(crate) mass: Mass,
    /// Its centre of gravity, in the recipe's own coordinates.
    centre: Point3,
}

/// The hinged side of a whole.
struct Side {
    /// Level and square to the side, away from the whole.
    behind: Vector3,
    /// The farthest metal of the side that way.
    outside_mm: f64,
    /// Its lower edge.
    lowest_mm: f64,
}

/// A frame of a whole as it lies in the hand that a part is of.
pub(crate) fn of_hand(part: &PlannedPart, frame: Frame) -> Frame {
    if part.part.opposite_hand_of.is_some() { frame.of_mirrored(ABEAM) } else { frame }
}

/// The pieces of the whole that a part belongs to, those of which its recipe says where they stand.
pub(crate) fn in_place<'a>(flats: &'a Flats, part: &PlannedPart) -> Vec<InPlace<'a>> {
    let mark = part.part.written_mark();
    let places = part.part.shape.recipe().put_together(&part.part.making);
    let piece = |(number, root): (usize, Frame)| -> Option<InPlace<'a>> {
        let is_it = |other: &&PlannedPart| {
            other.part.written_mark() == mark
                && other.part.piece_of.as_ref().is_some_and(|piece| piece.number == number)
        };
        Some((flats.parts.iter().find(is_it)?, of_hand(part, root)))
    };
    places.into_iter().filter_map(piece).collect()
}

/// A place of a piece's own coordinates in those of the whole.
pub(crate) fn stands(frame: &Frame, at: Point3) -> Point3 {
    frame.origin + frame.x * at.x + frame.y * at.y + frame.z * at.z
}

/// The whole of this mark; `None` where the place of a piece of it is not known.
pub(crate) fn whole<'a>(flats: &'a Flats, mark: &str) -> Option<StandingWhole<'a>> {
    let of_it = |part: &&PlannedPart| part.part.piece_of.as_ref().is_some_and(|piece| piece.whole == mark);
    let all: Vec<&PlannedPart> = flats.parts.iter().filter(of_it).collect();
    let pieces = in_place(flats, all.first()?);
    let times =
        |part: &PlannedPart| pieces.iter().filter(|(piece, _)| piece.part.mark == part.part.mark).count();
    let counted = |part: &PlannedPart| part.part.piece_of.as_ref().map_or(0, |piece| piece.piece.count);
    if !all.iter().all(|part| u32::try_from(times(part)) == Ok(counted(part))) {
        return None;
    }
    let mass: Mass = all.iter().map(|part| pieces_of(flats, part, mark)).sum();
    let mut moment = Vector3::new(0.0, 0.0, 0.0);
    let mut kilograms = 0.0;
    for (piece, root) in &pieces {
        let at = stands(root, centre_of(piece)?) - Point3::default();
        kilograms += piece.weight.kilograms();
        moment = moment + at * piece.weight.kilograms();
    }
    (0.0 < kilograms).then(|| {
        let centre = Point3::default() + moment * (1.0 / kilograms);
        StandingWhole { pieces, mass, centre }
    })
}

impl StandingWhole<'_> {
    /// Sizes of the smallest upright box round it, and its centre from the box's left, front and lower sides.
    pub(crate) fn boxed(&self) -> [[Length; 3]; 2] {
        let reach = |(piece, root): &InPlace<'_>| -> Vec<Point3> {
            reach_of(piece).into_iter().map(|at| stands(root, at)).collect()
        };
        let places: Vec<Point3> = self.pieces.iter().flat_map(reach).collect();
        let (low, high) = box_round(&places);
        let lengths = |to: Point3| [to.x - low.x, to.y - low.y, to.z - low.z].map(Length::from_millimetres);
        [lengths(high), lengths(self.centre)]
    }

    /// Where its centre lies when it is closed and level: out from the pin toward the free edge, and up from it. The pin is
    /// so far behind the outside of the side of this name, and so far above its lower edge. `None` without a plumb side of it.
    pub(crate) fn centre_from_pin(&self, side: &str, [behind, above]: [Length; 2]) -> Option<[Length; 2]> {
        let side = self.side(side)?;
        let out_mm = side.outside_mm + behind.millimetres() - along(side.behind, self.centre);
        let up_mm = self.centre.z - side.lowest_mm - above.millimetres();
        Some([out_mm, up_mm].map(Length::from_millimetres))
    }

    /// The side of this name, read either way.
    fn side(&self, name: &str) -> Option<Side> {
        let backward: String = name.chars().rev().collect();
        let is_of_side =
            |face: &str| face.rsplit(' ').next().is_some_and(|side| side == name || side == backward);
        let mut steepest: Option<(f64, Vector3)> = None;
        let mut corners: Vec<Point3> = Vec::new();
        for (piece, root) in &self.pieces {
            let turned_over = piece.part.is_seen_from_back();
            let home = |at: Point3| stands(root, Body::home(&piece.flat, turned_over, at));
            for (face, frame) in piece.flat.faces.iter().zip(refold::fold(&piece.flat)) {
                if !is_of_side(&face.name) {
                    continue;
                }
                let normal = home(frame.origin + frame.z) - home(frame.origin);
                let level = trig::hypot(normal.x, normal.y);
                if steepest.is_none_or(|(known, _)| known < level) {
                    let level_normal = Vector3::new(normal.x, normal.y, 0.0) * (1.0 / level.max(PLUMB));
                    steepest = Some((level, level_normal));
                }
            }
            let own = body_of(piece).pieces.into_iter().filter(|body| is_of_side(&body.name));
            corners
                .extend(own.flat_map(|body| body.corners().collect::<Vec<_>>()).map(|at| stands(root, at)));
        }
        let (level, normal) = steepest?;
        let first = *corners.first()?;
        // A face may be marked on its inside: behind is where the whole is not.
        let behind = if along(normal, first) < along(normal, self.centre) { normal * -1.0 } else { normal };
        (PLUMB <= level).then(|| Side {
            behind,
            outside_mm: corners.iter().map(|at| along(behind, *at)).fold(f64::NEG_INFINITY, f64::max),
            lowest_mm: corners.iter().map(|at| at.z).fold(f64::INFINITY, f64::min),
        })
    }
}

/// How far a place lies that way, mm.
fn along(way: Vector3, at: Point3) -> f64 {
    way.dot(at - Point3::default())
}
