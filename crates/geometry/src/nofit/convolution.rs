//! The convolution of two rings as closed circuits.

use crate::grid::GridPoint;

/// A directed piece of the convolution between two pairs (corner of the first ring, corner of the second).
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Step {
    from: (u32, u32),
    to: (u32, u32),
}

/// The closed circuits of the convolution of two counter-clockwise (or both clockwise-run) rings.
///
/// A corner and an edge make a piece when the edge's direction lies in the fan the corner turns through; the piece
/// runs backward where the corner turns right. Parallel edges are told apart by turning the second ring a hair to
/// the left, which the half-open fans do.
pub(crate) fn circuits(first: &[GridPoint], second: &[GridPoint]) -> Vec<Vec<GridPoint>> {
    let mut steps = Vec::with_capacity(2 * (first.len() + second.len()));
    for corner in 0..first.len() {
        let fan = Fan::at(first, corner);
        for edge in 0..second.len() {
            let sense = fan.crossed(direction(second, edge), Side::Start);
            let ends = (index(edge), index((edge + 1) % second.len()));
            push(&mut steps, sense, (index(corner), ends.0), (index(corner), ends.1));
        }
    }
    for corner in 0..second.len() {
        let fan = Fan::at(second, corner);
        for edge in 0..first.len() {
            let sense = fan.crossed(direction(first, edge), Side::End);
            let ends = (index(edge), index((edge + 1) % first.len()));
            push(&mut steps, sense, (ends.0, index(corner)), (ends.1, index(corner)));
        }
    }
    linked(steps, first, second)
}

#[expect(clippy::cast_possible_truncation, reason = "rings have far fewer than 2^32 corners")]
const fn index(corner: usize) -> u32 {
    corner as u32
}

fn push(steps: &mut Vec<Step>, sense: i8, from: (u32, u32), to: (u32, u32)) {
    match sense {
        1 => steps.push(Step { from, to }),
        -1 => steps.push(Step { from: to, to: from }),
        _ => {}
    }
}

fn direction(ring: &[GridPoint], edge: usize) -> GridPoint {
    ring[(edge + 1) % ring.len()] - ring[edge]
}

/// Which end of a fan belongs to it.
#[derive(Clone, Copy)]
enum Side {
    Start,
    End,
}

/// The directions a corner turns through, as seen running to the left from `low` to `high`.
struct Fan {
    low: GridPoint,
    high: GridPoint,
    sense: i8,
}

impl Fan {
    fn at(ring: &[GridPoint], corner: usize) -> Self {
        let before = direction(ring, (corner + ring.len() - 1) % ring.len());
        let after = direction(ring, corner);
        match product(before, after) {
            turn if 0 < turn => Self { low: before, high: after, sense: 1 },
            turn if turn < 0 => Self { low: after, high: before, sense: -1 },
            _ => Self { low: before, high: after, sense: 0 },
        }
    }

    /// 1 or −1 when `along` lies in the fan (with the end named by `side`), else 0.
    fn crossed(&self, along: GridPoint, side: Side) -> i8 {
        let (from_low, to_high) = (product(self.low, along), product(along, self.high));
        let inside = match side {
            Side::Start => (0 < from_low || same(self.low, along)) && 0 < to_high,
            Side::End => 0 < from_low && (0 < to_high || same(self.high, along)),
        };
        if inside { self.sense } else { 0 }
    }
}

const fn product(a: GridPoint, b: GridPoint) -> i64 {
    a.x * b.y - a.y * b.x
}

const fn same(a: GridPoint, b: GridPoint) -> bool {
    product(a, b) == 0 && 0 < a.x * b.x + a.y * b.y
}

/// Joins the pieces into closed circuits; every pair of corners has as many pieces coming as going.
fn linked(mut steps: Vec<Step>, first: &[GridPoint], second: &[GridPoint]) -> Vec<Vec<GridPoint>> {
    steps.sort_unstable();
    let mut used = vec![false; steps.len()];
    let mut circuits = Vec::new();
    for start in 0..steps.len() {
        let mut circuit = Vec::new();
        let mut next = (!used[start]).then_some(start);
        while let Some(step) = next {
            used[step] = true;
            let Step { from, to } = steps[step];
            circuit.push(first[from.0 as usize] + second[from.1 as usize]);
            let begin = steps.partition_point(|other| other.from < to);
            next = (begin..steps.len()).take_while(|&at| steps[at].from == to).find(|&at| !used[at]);
        }
        if !circuit.is_empty() {
            circuits.push(circuit);
        }
    }
    circuits
}
