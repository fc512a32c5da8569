//! The free room of one layer, as the largest rectangles that are still empty.

use units::Length;

/// A rectangle: its low corner and its sizes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Free {
    at: [Length; 2],
    size: [Length; 2],
}

/// What is free in a layer. Every largest empty rectangle is listed, so that they overlap.
#[derive(Debug, Clone)]
pub(super) struct Room {
    free: Vec<Free>,
    clear: Length,
}

impl Room {
    /// An empty layer. What is kept clear goes once round the walls, and once beside every flat.
    pub(super) fn new(inside: [Length; 2], clear: Length) -> Self {
        let size = inside.map(|side| side - clear);
        Self { free: vec![Free { at: [clear; 2], size }], clear }
    }

    /// The place for a rectangle where it leaves the least over on the tighter side; the lowest and leftmost of equals.
    pub(super) fn place(&self, size: [Length; 2]) -> Option<([Length; 2], Length)> {
        let grown = size.map(|side| side + self.clear);
        let fits = self.free.iter().filter(|free| grown[0] <= free.size[0] && grown[1] <= free.size[1]);
        let rated = fits.map(|free| {
            let over = (free.size[0] - grown[0]).min(free.size[1] - grown[1]);
            (over, free.at[1], free.at[0])
        });
        rated.min().map(|(over, y, x)| ([x, y], over))
    }

    /// Takes the place.
    pub(super) fn take(&mut self, at: [Length; 2], size: [Length; 2]) {
        let taken = Free { at, size: size.map(|side| side + self.clear) };
        let mut next: Vec<Free> = Vec::new();
        for free in &self.free {
            if !free.meets(&taken) {
                next.push(*free);
                continue;
            }
            next.extend(free.without(&taken));
        }
        let inside_another = |number: usize| {
            next.iter().enumerate().any(|(other, free)| {
                other != number && free.holds(&next[number]) && (!next[number].holds(free) || other < number)
            })
        };
        self.free =
            (0..next.len()).filter(|&number| !inside_another(number)).map(|number| next[number]).collect();
    }
}

impl Free {
    fn far(&self, axis: usize) -> Length {
        self.at[axis] + self.size[axis]
    }

    fn meets(&self, other: &Self) -> bool {
        (0..2).all(|axis| self.at[axis] < other.far(axis) && other.at[axis] < self.far(axis))
    }

    fn holds(&self, other: &Self) -> bool {
        (0..2).all(|axis| self.at[axis] <= other.at[axis] && other.far(axis) <= self.far(axis))
    }

    /// The largest rectangles left of it beside `taken`.
    fn without(&self, taken: &Self) -> Vec<Self> {
        let mut left = Vec::new();
        for axis in 0..2 {
            if self.at[axis] < taken.at[axis] {
                let mut piece = *self;
                piece.size[axis] = taken.at[axis] - self.at[axis];
                left.push(piece);
            }
            if taken.far(axis) < self.far(axis) {
                let mut piece = *self;
                piece.at[axis] = taken.far(axis);
                piece.size[axis] = self.far(axis) - taken.far(axis);
                left.push(piece);
            }
        }
        left
    }
}
