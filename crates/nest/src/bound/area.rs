//! The area argument.
//!
//! Parts apart by the gap stay disjoint when each is grown by half the gap, and then lie in the trimmed sheet grown
//! likewise. The grown area is taken from below: an octagon within the round of half the gap is drawn along the outline.
//! Of a cut-out, what no part can fill is metal bought all the same: the cut-outs have so much area in all, and the parts
//! that one of them could hold have so much, each of which lies in one cut-out at most.

use geometry::grid::{GridOutline, GridPoint, doubled_area, ring_edges};
use geometry::nofit::{inner_fit, no_fit};

use crate::bound::Needed;
use crate::problem::{Part, Pose, Problem, Turns};

/// Steps by which the border of a grown figure may be off: crossings are rounded to the grid. Counted high.
const BORDER_STEPS: i128 = 4;

/// The area that all parts take up, twice, in square steps.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Metal {
    gap: i64,
    doubled: i128,
}

impl Metal {
    /// Parts apart by `gap`; 0 for what they cover themselves.
    pub(crate) fn of(problem: &Problem, gap: i64) -> Self {
        let grown: Vec<Grown> = problem.parts().iter().map(|part| Grown::of(part, gap)).collect();
        let net = |(part, grown): (&Part, &Grown)| i128::from(part.quantity) * grown.metal.at_least();
        let metal: i128 = problem.parts().iter().zip(&grown).map(net).sum();
        Self { gap, doubled: metal + lost_in_holes(problem, &grown, gap) }
    }

    /// Twice the area.
    pub(crate) const fn doubled(self) -> i128 {
        self.doubled
    }

    /// Over the area of the largest of the sizes `stock`, grown likewise.
    pub(crate) fn needed(self, problem: &Problem, stock: &[usize]) -> Needed {
        let gap = self.gap;
        let doubled_room = |&size: &usize| {
            let (length, width) = problem.stock()[size].trimmed(problem.rules());
            let around = 2 * i128::from(length + gap) * i128::from(width + gap);
            let offcut = problem.stock()[size]
                .offcut()
                .map(|outline| outline.grown(gap.div_euclid(2) + 1).doubled_area());
            offcut.map_or(around, |offcut| offcut.min(around))
        };
        Needed { top: self.doubled, bottom: stock.iter().map(doubled_room).max().unwrap_or(2) }
    }
}

/// Twice an area in square steps, and how far it may be off.
#[derive(Debug, Clone, Copy, Default)]
struct Measured {
    doubled: i128,
    slack: i128,
}

impl Measured {
    /// Of rings counter-clockwise, and clockwise around hollows; rings of a grown figure are good to some steps.
    fn of(rings: &[Vec<GridPoint>], gap: i64) -> Self {
        let doubled = rings.iter().map(|ring| doubled_area(ring)).sum();
        let girth: i128 = rings.iter().map(|ring| girth(ring)).sum();
        Self { doubled, slack: if gap == 0 { 0 } else { 2 * BORDER_STEPS * girth } }
    }

    const fn at_least(self) -> i128 {
        self.doubled - self.slack
    }

    const fn at_most(self) -> i128 {
        self.doubled + self.slack
    }
}

/// A part grown by half the gap.
struct Grown {
    metal: Measured,
    /// With all its cut-outs.
    filled: Measured,
    /// What is left of each cut-out.
    holes: Vec<Measured>,
    /// Length and width at each turn, not grown; none where the part may take any.
    boxes: Option<Vec<GridPoint>>,
}

impl Grown {
    fn of(part: &Part, gap: i64) -> Self {
        let (outline, boxes) = (&part.outline, boxes(part, part.outline.outer()));
        let Some(octagon) = octagon(gap.div_euclid(2)) else {
            let rings: Vec<Vec<GridPoint>> = outline.rings().map(<[GridPoint]>::to_vec).collect();
            let hole = |ring: &Vec<GridPoint>| Measured { doubled: -doubled_area(ring), slack: 0 };
            let (metal, filled) = (Measured::of(&rings, 0), Measured::of(&rings[..1], 0));
            return Self { metal, filled, holes: rings[1..].iter().map(hole).collect(), boxes };
        };
        let grown = no_fit(outline, &octagon);
        let around: Vec<Vec<GridPoint>> =
            grown.rings().iter().filter(|ring| 0 < doubled_area(ring)).cloned().collect();
        let left = |hole: &Vec<GridPoint>| Measured::of(inner_fit(hole, &octagon).rings(), gap);
        Self {
            metal: Measured::of(grown.rings(), gap),
            filled: Measured::of(&around, gap),
            holes: outline.holes().iter().map(left).collect(),
            boxes,
        }
    }
}

/// An octagon whose corners lie no farther from the origin than `reach`; none without size.
pub(crate) fn octagon(reach: i64) -> Option<GridOutline> {
    // 70/99 is a little below the half of the root of two.
    let (r, d) = (reach, reach * 70 / 99);
    let corners = [(r, 0), (d, d), (0, r), (-d, d), (-r, 0), (-d, -d), (0, -r), (d, -d)];
    GridOutline::new(corners.map(|(x, y)| GridPoint::new(x, y)).to_vec(), Vec::new()).ok()
}

/// Length of a ring, rounded up.
fn girth(ring: &[GridPoint]) -> i128 {
    let length = |(a, b): (GridPoint, GridPoint)| {
        let (x, y) = (i128::from(b.x - a.x), i128::from(b.y - a.y));
        (x * x + y * y).isqrt() + 1
    };
    ring_edges(ring).map(length).sum()
}

/// A cut-out of so many pieces: what is left of it, and the rooms in it at each turn of its part; none where the part may
/// take any turn.
struct Hole {
    left: Measured,
    quantity: i128,
    rooms: Option<Vec<GridPoint>>,
}

impl Hole {
    /// Whether a part, so grown, may lie in it; true where that is not known.
    fn may_hold(&self, grown: &Grown) -> bool {
        let Some((rooms, boxes)) = self.rooms.as_ref().zip(grown.boxes.as_ref()) else {
            return grown.filled.at_least() <= self.left.at_most();
        };
        rooms.iter().any(|room| boxes.iter().any(|size| size.x <= room.x && size.y <= room.y))
    }
}

/// Length and width of a ring in each pose of its part; none where that may take any.
fn boxes(part: &Part, ring: &[GridPoint]) -> Option<Vec<GridPoint>> {
    if part.turns == Turns::Any {
        return None;
    }
    let ring = GridOutline::new(ring.to_vec(), Vec::new()).ok()?;
    let size = |pose: Pose| {
        let (low, high) = pose.of(&ring).bounds();
        high - low
    };
    Some(part.poses().into_iter().map(size).collect())
}

/// What of the cut-outs stays empty at least: the area of the smallest ones, up to any size, less that of all parts that
/// one of them could hold. Twice, in square steps.
fn lost_in_holes(problem: &Problem, grown: &[Grown], gap: i64) -> i128 {
    let mut holes: Vec<Hole> = Vec::new();
    for (part, grown) in problem.parts().iter().zip(grown) {
        for (ring, &left) in part.outline.holes().iter().zip(&grown.holes) {
            let inside = GridPoint::new(2 * gap, 2 * gap);
            let rooms = boxes(part, &ring.iter().rev().copied().collect::<Vec<_>>());
            let rooms = rooms.map(|rooms| rooms.into_iter().map(|room| room - inside).collect());
            holes.push(Hole { left, quantity: i128::from(part.quantity), rooms });
        }
    }
    holes.sort_by_key(|hole| hole.left.doubled);
    let mut waiting: Vec<(&Part, &Grown)> = problem.parts().iter().zip(grown).collect();
    let (mut empty, mut most) = (0, 0);
    for hole in &holes {
        empty += hole.quantity * hole.left.at_least().max(0);
        waiting.retain(|(part, grown)| {
            let holds = hole.may_hold(grown);
            if holds {
                empty -= i128::from(part.quantity) * grown.filled.at_most();
            }
            !holds
        });
        most = most.max(empty);
    }
    most
}
