//! Parts put together: the centre of gravity of the whole.

use units::{Length, Mass};

/// A mass with the place of its centre, in the coordinates of the whole.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlacedMass {
    /// What it is.
    pub what: String,
    /// Its mass.
    pub mass: Mass,
    /// Its centre: x, y, z.
    pub centre: [Length; 3],
}

/// Parts and things put together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Assembly {
    /// What is in it.
    pub loads: Vec<PlacedMass>,
}

/// A part in the smallest upright box around it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Boxed {
    /// Sizes of the box.
    pub size: [Length; 3],
    /// Its centre of gravity, from the box's low corner.
    pub centre: [Length; 3],
}

impl Assembly {
    /// Mass of everything.
    #[must_use]
    pub fn mass(&self) -> Mass {
        self.loads.iter().map(|load| load.mass).sum()
    }

    /// Its centre of gravity: Σ(mass × place) / Σ mass. `None` when nothing weighs anything.
    #[must_use]
    pub fn centre(&self) -> Option<[Length; 3]> {
        let all = self.mass().kilograms();
        let along = |axis: usize| -> f64 {
            self.loads.iter().map(|load| load.mass.kilograms() * load.centre[axis].millimetres()).sum()
        };
        (0.0 < all).then(|| [0, 1, 2].map(|axis| Length::from_millimetres(along(axis) / all)))
    }
}

impl Boxed {
    /// The same part after a quarter turn about an axis (0 for x, 1 for y, 2 for z), counter-clockwise as seen with that
    /// axis pointing at you; its new box begins at its own low corner again.
    #[must_use]
    pub fn quarter_turned(self, axis: usize) -> Self {
        let (first, second) = ((axis + 1) % 3, (axis + 2) % 3);
        let mut turned = self;
        // What pointed along the first of the two other axes now points along the second, and the second against the first.
        turned.size[second] = self.size[first];
        turned.size[first] = self.size[second];
        turned.centre[second] = self.centre[first];
        turned.centre[first] = self.size[second] - self.centre[second];
        turned
    }

    /// Its centre when the low corner of its box lies at `corner`.
    #[must_use]
    pub fn centre_at(self, corner: [Length; 3]) -> [Length; 3] {
        [0, 1, 2].map(|axis: usize| corner[axis] + self.centre[axis])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inches(values: [f64; 3]) -> [Length; 3] {
        values.map(Length::from_inches)
    }

    #[test]
    fn a_quarter_turn_stands_a_part_on_its_side() {
        let part = Boxed { size: inches([30.0, 20.0, 4.0]), centre: inches([10.0, 8.0, 1.0]) };
        // About z, seen from above: what lay to the right now lies behind, what lay behind now to the left.
        let about_z = part.quarter_turned(2);
        assert_eq!(about_z, Boxed { size: inches([20.0, 30.0, 4.0]), centre: inches([12.0, 10.0, 1.0]) });
        // About x, the rear edge comes up and the top faces forward.
        let about_x = part.quarter_turned(0);
        assert_eq!(about_x, Boxed { size: inches([30.0, 4.0, 20.0]), centre: inches([10.0, 3.0, 8.0]) });
        for axis in 0..3 {
            let turned = (0..4).fold(part, |part, _| part.quarter_turned(axis));
            assert_eq!(turned, part);
        }
    }

    #[test]
    fn the_centre_lies_where_the_masses_balance() {
        let load = |pounds: f64, centre: [f64; 3]| PlacedMass {
            what: "load".to_owned(),
            mass: Mass::from_pounds(pounds),
            centre: inches(centre),
        };
        // 10 lb at 0 and 30 lb at 8 in balance at 6 in.
        let whole = Assembly { loads: vec![load(10.0, [0.0, 0.0, 4.0]), load(30.0, [8.0, 4.0, 0.0])] };
        assert_eq!(whole.centre(), Some(inches([6.0, 3.0, 1.0])));
        assert_eq!(Assembly { loads: Vec::new() }.centre(), None);
    }
}
