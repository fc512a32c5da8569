//! From millimetres to the grid and back, and several figures taken as one.

use crate::grid::exact::{float, nearest};
use crate::grid::{GridError, GridOutline, GridPoint, doubled_area};
use crate::nofit::winding;
use crate::{Point, tolerance};

impl GridPoint {
    /// The nearest place to a point in millimetres.
    #[must_use]
    pub const fn near(point: Point) -> Self {
        Self::new(nearest(point.x / tolerance::GRID_STEP_MM), nearest(point.y / tolerance::GRID_STEP_MM))
    }

    /// The place in millimetres.
    #[must_use]
    pub const fn millimetres(self) -> Point {
        Point::new(float(self.x) * tolerance::GRID_STEP_MM, float(self.y) * tolerance::GRID_STEP_MM)
    }
}

/// Steps by which figures are grown before they are taken as one: pieces that only touch then hang together. The next
/// is tried where grown pieces still touch in single points.
const JOINING_STEPS: [i64; 3] = [4, 12, 40];

/// The outer edge of all that figures cover together, their hollows filled and a few steps added all round; the largest
/// piece where they do not hang together, with the number of pieces.
///
/// # Errors
/// As for [`GridOutline::new`]; [`GridError::NoArea`] when nothing is covered.
pub fn filled_union(figures: &[GridOutline]) -> Result<(GridOutline, usize), GridError> {
    let [first, second, last] = JOINING_STEPS;
    joined(figures, first).or_else(|_| joined(figures, second)).or_else(|_| joined(figures, last))
}

fn joined(figures: &[GridOutline], by: i64) -> Result<(GridOutline, usize), GridError> {
    let circuits: Vec<Vec<GridPoint>> =
        figures.iter().map(|figure| figure.grown(by).outer().to_vec()).collect();
    let shapes = winding::resolve(&circuits, winding::Rule::Positive);
    let outer: Vec<Vec<GridPoint>> =
        shapes.into_iter().filter_map(|shape| shape.into_iter().next()).collect();
    let count = outer.len();
    let largest = outer.into_iter().max_by_key(|ring| doubled_area(ring)).unwrap_or_default();
    Ok((GridOutline::new(largest, Vec::new())?, count))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_that_touch_become_one() {
        let first = GridOutline::rectangle(100, 10).unwrap();
        let second = GridOutline::rectangle(10, 50).unwrap().shifted(GridPoint::new(100, 10));
        let (union, count) = filled_union(&[first.clone(), second]).unwrap();
        assert_eq!((count, union.outer().len()), (1, 8));
        let apart = GridOutline::rectangle(10, 50).unwrap().shifted(GridPoint::new(0, 30));
        assert_eq!(filled_union(&[first, apart]).unwrap().1, 2);
    }

    #[test]
    fn millimetres_there_and_back() {
        let point = GridPoint::new(-12_345, 7);
        assert_eq!(GridPoint::near(point.millimetres()), point);
    }
}
