//! The search for a way out: free places tilt by tilt, joined where neighbouring tilts share places.
//!
//! Between two tilts no point of the part moves farther than its distance from the reference point times half the step
//! from the nearer of them. With everything held off by that margin, a place that is free at both tilts is free at all
//! tilts between; and within one tilt the part slides inside the exact set of free places. So every pose on the way, and
//! every sweep between poses, is clear.

use std::collections::{BTreeMap, VecDeque};

use geometry::grid::{GridError, GridOutline, GridPoint, Place, Turn};
use geometry::nofit::Region;
use geometry::{Point, tolerance};

use super::route;
use super::space::{Slice, Space};

/// Tilts between level and upright, tried coarse to fine; thousandths of a degree.
pub(super) const STEPS_MILLIDEGREES: [i32; 4] = [1_000, 250, 50, 20];

/// Upright, thousandths of a degree.
const UPRIGHT: i32 = 90_000;

/// Longest slide between two poses of a path, as a share of the part's reach.
const SLIDE_SHARE: f64 = 0.05;

/// One pose: the tilt, counter-clockwise, and where the reference point is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pose {
    /// Tilt, thousandths of a degree; above zero when the far end goes up first.
    pub tilt_millidegrees: i32,
    /// Place of the reference point, mm.
    pub at: Point,
}

/// A way out.
#[derive(Debug, Clone, PartialEq)]
pub struct TiltedPath {
    /// Poses from the floor to above the deck; between neighbours the part only slides straight, or only tilts.
    pub poses: Vec<Pose>,
    /// What everything keeps clear beyond what is asked, mm.
    pub margin_mm: f64,
}

/// A piece of the free places at one tilt: the number of the tilt, and of the piece.
type Node = (i32, usize);

pub(super) struct Search<'a> {
    space: &'a Space,
    profile: &'a GridOutline,
    step: i32,
    reach_mm: f64,
    margin_mm: f64,
    slices: BTreeMap<i32, Slice>,
}

impl<'a> Search<'a> {
    pub(super) fn new(space: &'a Space, profile: &'a GridOutline, step_millidegrees: i32) -> Self {
        let origin = Point::default();
        let reach_mm = profile.outer().iter().map(|p| p.millimetres().distance(origin)).fold(0.0, f64::max);
        let half_step = 0.5 * f64::from(step_millidegrees) * std::f64::consts::PI / 180_000.0;
        // The grid rounds outward, crossings to a step or so.
        let margin_mm = reach_mm * half_step + tolerance::OUTWARD_STEPS * 2.0 * tolerance::GRID_STEP_MM;
        Self { space, profile, step: step_millidegrees, reach_mm, margin_mm, slices: BTreeMap::new() }
    }

    /// The way out with the least tilting.
    ///
    /// # Errors
    /// [`GridError`] when the part or the space is larger than the grid.
    pub(super) fn path(mut self) -> Result<Option<TiltedPath>, GridError> {
        self.look_at(0)?;
        let mut before: BTreeMap<Node, Option<Node>> = BTreeMap::new();
        let mut waiting: VecDeque<Node> = VecDeque::new();
        for node in self.starts() {
            before.insert(node, None);
            waiting.push_back(node);
        }
        while let Some(node) = waiting.pop_front() {
            if self.is_out(node) {
                return Ok(self.realised(&before, node));
            }
            let most = UPRIGHT / self.step;
            for tilt in [node.0 + 1, node.0 - 1].into_iter().filter(|tilt| tilt.abs() <= most) {
                self.look_at(tilt)?;
                for next in 0..self.slices[&tilt].pieces.len() {
                    let there = (tilt, next);
                    if !before.contains_key(&there) && !self.piece(node).meeting(self.piece(there)).is_empty()
                    {
                        before.insert(there, Some(node));
                        waiting.push_back(there);
                    }
                }
            }
        }
        Ok(None)
    }

    /// True when the part can stand level on the floor somewhere.
    pub(super) fn can_start(&mut self) -> Result<bool, GridError> {
        self.look_at(0)?;
        Ok(!self.starts().is_empty())
    }

    fn look_at(&mut self, tilt: i32) -> Result<(), GridError> {
        if !self.slices.contains_key(&tilt) {
            let full = 360_000;
            let turn = u32::try_from((tilt * self.step).rem_euclid(full)).unwrap_or_default();
            let slice = self.space.slice(self.profile, Turn::from_millidegrees(turn), self.margin_mm)?;
            self.slices.insert(tilt, slice);
        }
        Ok(())
    }

    fn piece(&self, (tilt, piece): Node) -> &Region {
        &self.slices[&tilt].pieces[piece]
    }

    /// Pieces of the level slice that reach down to the floor.
    fn starts(&self) -> Vec<Node> {
        let level = &self.slices[&0];
        let rests = |piece: &usize| level.pieces[*piece].bounds().0.y <= level.rest;
        (0..level.pieces.len()).filter(rests).map(|piece| (0, piece)).collect()
    }

    fn is_out(&self, node: Node) -> bool {
        self.slices[&node.0].out <= self.piece(node).bounds().1.y
    }

    /// Poses along the pieces that lead to `end`.
    fn realised(&self, before: &BTreeMap<Node, Option<Node>>, end: Node) -> Option<TiltedPath> {
        let mut nodes = vec![end];
        while let Some(Some(node)) = nodes.last().and_then(|node| before.get(node)) {
            nodes.push(*node);
        }
        nodes.reverse();
        let mut at = self.start_place(*nodes.first()?)?;
        let mut poses = vec![self.pose(0, at)];
        for pair in nodes.windows(2) {
            let shared = self.piece(pair[0]).meeting(self.piece(pair[1]));
            if shared.place(at) == Place::Outside {
                let goals: Vec<GridPoint> = shared.rings().iter().flatten().copied().collect();
                let way = route::shortest(self.piece(pair[0]), at, &goals)?;
                self.slide(pair[0].0, &way, &mut poses);
                at = *way.last()?;
            }
            poses.push(self.pose(pair[1].0, at));
        }
        let slice = &self.slices[&end.0];
        let above = |p: &GridPoint| slice.out <= p.y;
        let straight = GridPoint::new(at.x, slice.out.max(at.y));
        let mut goals: Vec<GridPoint> =
            self.piece(end).rings().iter().flatten().copied().filter(above).collect();
        if self.piece(end).place(straight) != Place::Outside {
            goals.insert(0, straight);
        }
        let way = route::shortest(self.piece(end), at, &goals)?;
        self.slide(end.0, &way, &mut poses);
        Some(TiltedPath { poses, margin_mm: self.margin_mm })
    }

    /// A place on the floor: under the middle of the opening if the part can stand there, else the nearest.
    fn start_place(&self, node: Node) -> Option<GridPoint> {
        let rest = self.slices[&0].rest;
        let middle = GridPoint::near(Point::new(0.5 * self.space.opening_mm, 0.0)).x;
        let under = GridPoint::new(middle, rest);
        if self.piece(node).place(under) != Place::Outside {
            return Some(under);
        }
        let corners = self.piece(node).rings().iter().flatten().copied();
        corners.filter(|p| p.y <= rest).min_by_key(|p| (p.x - middle).abs())
    }

    fn pose(&self, tilt: i32, at: GridPoint) -> Pose {
        Pose { tilt_millidegrees: tilt * self.step, at: at.millimetres() }
    }

    /// Poses along a straight-sided way, none farther from the one before than a short slide.
    fn slide(&self, tilt: i32, way: &[GridPoint], poses: &mut Vec<Pose>) {
        for pair in way.windows(2) {
            let (from, to) = (pair[0].millimetres(), pair[1].millimetres());
            let count = (from.distance(to) / (SLIDE_SHARE * self.reach_mm)).ceil().max(1.0);
            let mut n = 1.0;
            while n <= count {
                let at = from.toward(to, n / count);
                poses.push(Pose { tilt_millidegrees: tilt * self.step, at });
                n += 1.0;
            }
        }
    }
}
