//! How wide the rims of a pan are, as they are checked on the bent part.

use fold::Side;
use fold::part::{Measure, Size};
use geometry::trig;

use super::{Pan, Rim};
use crate::Figure;

impl Pan {
    /// The width of every rim with a cut edge, from the outside of its wall. `face` gives a side's wall for band 0 and its rim
    /// for band 1, none where the piece has no such plate. On a wall that leans it is taken square to the wall, from the
    /// edge of the rim's upper side: the width times cos(lean). An edge that is bent has a size of its own.
    pub(super) fn rim_widths(
        &self,
        floor: &Figure,
        face: impl Fn(usize, usize) -> Option<usize>,
    ) -> Vec<Size> {
        if !self.edge.is_plain() {
            return Vec::new();
        }
        let width = |(side, name): (usize, &String)| {
            let (width, upper) = match self.rim(side) {
                Rim::None => return None,
                Rim::Out(width) => (width, Side::Face),
                Rim::In(width) => (width, Side::Back),
            };
            let lean = self.lean_rad(side);
            let name = if lean == 0.0 {
                format!("width of rim {name}, from the outside of its wall")
            } else {
                format!("rim {name}, edge of its upper side square to the outside of its wall, carried up")
            };
            Some(Size {
                name,
                measure: Measure::Reach((face(side, 1)?, upper), (face(side, 0)?, Side::Back)),
                expected_mm: width.millimetres() * trig::cos(lean),
            })
        };
        floor.sides.iter().enumerate().filter_map(width).collect()
    }
}
