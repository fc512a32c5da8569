//! Pieces turned to lie head to tail beside another one along a slanted side.
//!
//! A piece that shares no cut yet is laid anew, in another of its poses, where a cut along a slanted side of another piece then
//! serves both. The sheet must not be filled any further for that, and its largest drop must not be smaller.

use std::collections::BTreeMap;

use geometry::grid::{GridOutline, GridPoint};

use super::side::{Kind, Sides};
use super::{Moved, Sharing};
use crate::drop::drops;
use crate::problem::Pose;

/// On a sheet of more pieces than this none is turned: every pair is looked at in all poses.
const MOST_PIECES: usize = 200;

/// Outline and sides of a part in a pose, not moved.
type Posed = BTreeMap<(usize, Pose), (GridOutline, Sides)>;

impl Sharing<'_> {
    /// Turns what can be; true when something was.
    pub(super) fn turn_beside(&mut self) -> bool {
        if MOST_PIECES < self.sides.len() || self.sides.iter().all(|sides| !sides.are_slanted()) {
            return false;
        }
        let posed = self.posed();
        let mut has_turned = false;
        for first in 0..self.sides.len() {
            for second in 0..self.sides.len() {
                let alone = self.cluster.iter().filter(|&&other| other == self.cluster[second]).count() == 1;
                if first != second && alone && self.turn_second_beside([first, second], &posed) {
                    has_turned = true;
                }
            }
        }
        has_turned
    }

    /// All poses of the parts on the sheet; none of parts that are kept together, which may have to lie alike.
    fn posed(&self) -> Posed {
        let mut posed = Posed::new();
        for placed in &self.sheet.placements {
            let free = self.problem.group_of(placed.part).is_none();
            for pose in self.problem.poses(placed.part).into_iter().filter(|_| free) {
                posed.entry((placed.part, pose)).or_insert_with(|| {
                    let outline = pose.of(&self.problem.parts()[placed.part].outline);
                    let sides = Sides::of(&outline, self.problem.rules().gap);
                    (outline, sides)
                });
            }
        }
        posed
    }

    fn turn_second_beside(&mut self, [first, second]: [usize; 2], posed: &Posed) -> bool {
        let part = self.sheet.placements[second].part;
        let poses = posed.range((part, Pose::default())..).take_while(|((own, _), _)| *own == part);
        for (&(_, pose), (outline, sides)) in poses {
            let slanted = self.sides[first].list.iter().filter(|side| side.kind() == Kind::Slanted);
            let pairs = slanted.flat_map(|&own| sides.list.iter().map(move |&their| [own, their]));
            let moves: Vec<GridPoint> = pairs
                .filter(|[own, their]| own.is_opposite(*their))
                .flat_map(|[own, their]| own.moves_beside(their, self.kerf))
                .collect();
            for by in moves {
                let (outline, sides) = (outline.shifted(by), sides.shifted(by));
                let meets = self.sides[first].meeting(&sides, self.kerf).is_some();
                let moved = vec![Moved { piece: second, outline, sides }];
                if meets && self.is_filled_no_further(&moved[0]) && self.is_room_for(&moved) {
                    let before = self.largest_drop();
                    let placed = self.sheet.placements[second];
                    let turned = &mut self.sheet.placements[second];
                    (turned.pose, turned.shift) = (pose, by);
                    if before <= self.largest_drop() {
                        self.put(moved);
                        return true;
                    }
                    self.sheet.placements[second] = placed;
                }
            }
        }
        false
    }

    /// Whether no piece would reach farther up or to the right than those of the sheet do now.
    fn is_filled_no_further(&self, moved: &Moved) -> bool {
        let reach = |of: fn(&Sides) -> i64| self.sides.iter().map(of).max().unwrap_or(0);
        moved.sides.high.x <= reach(|sides| sides.high.x) && moved.sides.high.y <= reach(|sides| sides.high.y)
    }

    fn largest_drop(&self) -> i128 {
        let drops = drops(self.problem, self.sheet);
        drops.iter().map(crate::drop::Drop::area).max().unwrap_or(0)
    }
}
