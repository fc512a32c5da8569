//! The part against itself: faces on one side of a bend swung past faces on the other.
//!
//! In the coordinates of the bend a point keeps its place along it and turns about it, so two faces that share no
//! stretch along the bend, or no distance from it, never meet. What is left is looked at as plates of real thickness,
//! at turns so close together that nothing can pass between two looks. Bend zones are left out, as in the refold.

use std::collections::BTreeMap;

use geometry::{Frame, Point, Point3, Slab, tolerance};

use super::blocks::{Position, frame_of};
use super::metal::{self, Metal};
use super::motion::Motion;
use super::routes::Routes;

/// Faces that run into one another by less are sprung past by hand, as a share of the thickness (common practice, no
/// source).
const SPRUNG_SHARE: f64 = 0.5;

/// The same for faces that meet only while the bend is pressed past its turn: rims and walls that stand edge to edge at
/// the end have free edges, which are held aside for that moment (common practice, no source).
const HELD_ASIDE_SHARE: f64 = 2.0;

/// Faces that lie in one another by less are not said to meet, mm: two plates that close a seam touch.
const TOUCH_MM: f64 = tolerance::SCRIBED_LINE_MM;

/// Between two looks nothing may move farther than this, mm; half of it is the most that can stay unseen.
const LOOK_MM: f64 = 1.0;

/// Where some metal lies about a bend before it is made, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Extent {
    /// From where to where along the bend.
    along: (f64, f64),
    /// How near and how far from it.
    away: (f64, f64),
}

impl Default for Extent {
    fn default() -> Self {
        let none = (f64::INFINITY, f64::NEG_INFINITY);
        Self { along: none, away: none }
    }
}

impl Extent {
    /// Of slabs in the bend's coordinates.
    pub(super) fn of(slabs: &[super::convex::Slab]) -> Self {
        let mut extent = Self::default();
        for slab in slabs {
            let (low, high) = slab.along_mm();
            extent.along = (extent.along.0.min(low), extent.along.1.max(high));
            let view = slab.side_view();
            let (nearest, farthest) = view.reach_mm();
            extent.away = (extent.away.0.min(nearest), extent.away.1.max(farthest));
        }
        extent
    }

    /// True when some of it lies in a stretch along the bend.
    pub(super) fn reaches(&self, (from, to): (f64, f64)) -> bool {
        self.along.0 < to - tolerance::REFOLD_MM && from + tolerance::REFOLD_MM < self.along.1
    }

    /// False when the two can never meet while one turns about the bend, and moves by `spare_mm` besides.
    pub(super) fn may_meet(&self, other: &Self, spare_mm: f64) -> bool {
        let share = |a: (f64, f64), b: (f64, f64), slack: f64| a.0 < b.1 + slack && b.0 < a.1 + slack;
        share(self.along, other.along, -tolerance::REFOLD_MM) && share(self.away, other.away, spare_mm)
    }
}

/// How two faces on the two sides of a bend touch while it is swung, where the stroke is let pass.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Touch {
    /// Only while the bend is pressed past its turn: one is held aside for that moment.
    WhileOverbent,
    /// On the way to its turn: one is sprung past the other.
    OnTheWay,
}

/// A face and the bends made on its way from the stroke.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Held {
    /// The face.
    pub(super) face: usize,
    /// Bends made on its way.
    pub(super) made: u64,
}

/// Remembers which pairs were looked at: by position and the two faces, then by the bends made on their ways.
#[derive(Debug, Default)]
pub(super) struct Pairs(Vec<BTreeMap<(u64, u64), bool>>);

impl Pairs {
    /// True when `front` runs into `back` while the bend is swung.
    pub(super) fn meet(
        &mut self,
        (metal, routes): (&Metal, &Routes),
        (position, motion): (Position, &Motion),
        (front, back): (Held, Held),
    ) -> bool {
        let faces = metal.areas_mm2.len();
        let slot = (position.number() * faces + front.face) * faces + back.face;
        if self.0.len() <= slot {
            self.0.resize_with(slot + 1, BTreeMap::new);
        }
        *self.0[slot].entry((front.made, back.made)).or_insert_with(|| {
            let line = &metal.lines[position.bend];
            Swing::of((metal, routes), (position, motion), (front, back))
                .meets(line.kept_rad(), line.swung_rad())
        })
    }
}

/// How `front` touches `back` while the bend is swung in a stroke that is let pass; `None` where they stay apart.
pub(super) fn touch(
    (metal, routes): (&Metal, &Routes),
    (position, motion): (Position, &Motion),
    pair: (Held, Held),
) -> Option<Touch> {
    let line = &metal.lines[position.bend];
    Swing::of((metal, routes), (position, motion), pair).touches(line.kept_rad(), line.swung_rad())
}

/// A frame with every place moved by `map`, which keeps lengths.
fn mapped(frame: &Frame, map: impl Fn(Point3) -> Point3) -> Frame {
    let origin = map(frame.origin);
    let direct = |axis| map(frame.origin + axis) - origin;
    Frame { origin, x: direct(frame.x), y: direct(frame.y), z: direct(frame.z) }
}

/// A face in the bend's coordinates: its frame, and its convex pieces in that.
type Plates<'a> = (Frame, &'a [Vec<Point>]);

/// Two faces on the two sides of a bend that is swung.
struct Swing<'a> {
    motion: &'a Motion,
    thickness_mm: f64,
    front: Plates<'a>,
    back: Plates<'a>,
}

impl<'a> Swing<'a> {
    fn of(
        (metal, routes): (&'a Metal, &Routes),
        (position, motion): (Position, &'a Motion),
        (front, back): (Held, Held),
    ) -> Self {
        let line = &metal.lines[position.bend];
        let plates = |held: Held| {
            let (_, frame) = frame_of(metal, routes, position, held.face, held.made);
            let own = |p: Point3| metal::at_bend(line, metal.thickness_mm, position.parent_at_back, p);
            (mapped(&frame, own), metal.pieces(held.face))
        };
        Self { motion, thickness_mm: metal.thickness_mm, front: plates(front), back: plates(back) }
    }

    fn pairs(&self) -> impl Iterator<Item = (&'a Vec<Point>, &'a Vec<Point>)> + use<'a> {
        let backs = self.back.1;
        self.front.1.iter().flat_map(move |own| backs.iter().map(move |other| (own, other)))
    }

    /// The first way in which the two are deeper in one another than [`TOUCH_MM`], and no deeper than is let pass.
    fn touches(&self, kept_rad: f64, swung_rad: f64) -> Option<Touch> {
        if self.pairs().any(|pair| self.pair_meets(pair, (0.0, kept_rad), TOUCH_MM)) {
            return Some(Touch::OnTheWay);
        }
        let past = (kept_rad, swung_rad);
        (kept_rad < swung_rad && self.pairs().any(|pair| self.pair_meets(pair, past, TOUCH_MM)))
            .then_some(Touch::WhileOverbent)
    }

    /// Looks up to the turn that the bend keeps, and then on to the one that it is pressed to.
    fn meets(&self, kept_rad: f64, swung_rad: f64) -> bool {
        let limit = |share: f64| share * self.thickness_mm;
        self.pairs().any(|pair| {
            self.pair_meets(pair, (0.0, kept_rad), limit(SPRUNG_SHARE))
                || (kept_rad < swung_rad
                    && self.pair_meets(pair, (kept_rad, swung_rad), limit(HELD_ASIDE_SHARE)))
        })
    }

    /// How far apart two pieces are at a turn, mm.
    fn gap_mm(&self, (front, back): (&[Point], &[Point]), turn_rad: f64) -> f64 {
        let at = |placed: super::motion::Placed, frame: &Frame| {
            mapped(frame, |p| {
                let moved = placed.place(p.x, p.y);
                Point3::new(moved.x, moved.y, p.z)
            })
        };
        let plate = |frame: Frame, piece: &[Point]| Slab::new(frame, piece.to_vec(), self.thickness_mm);
        let front = plate(at(self.motion.front(turn_rad), &self.front.0), front);
        plate(at(self.motion.back(turn_rad), &self.back.0), back).parted_mm(&front)
    }

    /// Whether two pieces lie deeper in one another than `deep_mm` between two turns, halving until nothing can be missed.
    fn pair_meets(&self, pieces: (&Vec<Point>, &Vec<Point>), span: (f64, f64), deep_mm: f64) -> bool {
        let reach = |frame: &Frame, piece: &[Point]| {
            let corners = piece.iter().flat_map(|p| [0.0, self.thickness_mm].map(|z| frame.place(*p, z)));
            corners.map(|p| Point::new(p.x, p.y).distance(Point::default())).fold(0.0, f64::max)
        };
        let reach_mm =
            reach(&self.front.0, pieces.0).min(reach(&self.back.0, pieces.1)) + self.motion.spare_mm();
        let limit_mm = -deep_mm;
        let mut spans = vec![span];
        while let Some((from, to)) = spans.pop() {
            let middle = 0.5 * (from + to);
            let gap_mm = self.gap_mm((pieces.0, pieces.1), middle);
            if gap_mm < limit_mm {
                return true;
            }
            let swept_mm = reach_mm * (to - from);
            if 0.5 * swept_mm <= gap_mm - limit_mm {
                continue;
            }
            if swept_mm <= LOOK_MM {
                if self.gap_mm((pieces.0, pieces.1), to) < limit_mm {
                    return true;
                }
                continue;
            }
            spans.extend([(middle, to), (from, middle)]);
        }
        false
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A plate 40 × 20 on the back, standing upright 30 before or behind the bend.
    fn swing(stand_mm: f64, motion: &Motion, pieces: &[Vec<Point>; 2], shift_mm: f64) -> bool {
        let axis = geometry::Vector3::new;
        // Front: flat, from 10 to 50 before the bend. Back: upright, 0 to 45 high.
        let flat = Frame {
            origin: Point3::new(0.0, 0.0, shift_mm),
            x: axis(1.0, 0.0, 0.0),
            y: axis(0.0, 0.0, 1.0),
            z: axis(0.0, 1.0, 0.0),
        };
        let upright = Frame {
            origin: Point3::new(stand_mm, 0.0, 0.0),
            x: axis(0.0, 1.0, 0.0),
            y: axis(0.0, 0.0, 1.0),
            z: axis(1.0, 0.0, 0.0),
        };
        let [front, back] = pieces;
        let (front, back) = ([front.clone()], [back.clone()]);
        let swing = Swing { motion, thickness_mm: 2.0, front: (flat, &front), back: (upright, &back) };
        swing.meets(std::f64::consts::FRAC_PI_2, std::f64::consts::FRAC_PI_2)
    }

    #[test]
    fn a_flange_meets_a_plate_that_stands_in_its_way() {
        let motion =
            Motion { half_v_mm: None, thickness_mm: 2.0, radius_mm: 2.0, neutral_mm: 2.84, zone_mm: 4.461 };
        let ring = |low: f64, high: f64| {
            [(low, 0.0), (high, 0.0), (high, 20.0), (low, 20.0)].map(|(x, y)| Point::new(x, y)).to_vec()
        };
        let pieces = [ring(10.0, 50.0), ring(4.0, 45.0)];
        // The front rises about the bend, so its end passes 30 before the bend at a height of 40 and stops at x = 0.
        assert!(swing(20.0, &motion, &pieces, 0.0));
        assert!(!swing(-20.0, &motion, &pieces, 0.0), "it stands upright before it comes there");
        assert!(!swing(20.0, &motion, &pieces, 25.0), "beside it");
        let low = [ring(10.0, 50.0), ring(4.0, 8.0)];
        assert!(swing(20.0, &motion, &low, 0.0), "what lies over the flange is lifted into it");
    }
}
