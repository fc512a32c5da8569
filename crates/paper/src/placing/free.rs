//! What is free of a drawing, in small squares: where an upright rectangle has room.

use geometry::{Point, Vector, polygon};

/// The squares of an upright rectangle, taken or free.
#[derive(Debug, Clone)]
pub struct Free {
    low: Point,
    square_mm: f64,
    columns: usize,
    rows: usize,
    taken: Vec<bool>,
}

impl Free {
    /// All of the rectangle from `low` to `high` free, in squares of this side, mm.
    #[must_use]
    pub fn new((low, high): (Point, Point), square_mm: f64) -> Self {
        let squares = |length_mm: f64| count(length_mm / square_mm);
        let (columns, rows) = (squares(high.x - low.x), squares(high.y - low.y));
        Self { low, square_mm, columns, rows, taken: vec![false; columns * rows] }
    }

    /// Takes the squares that a straight line runs through or passes close by.
    pub fn take_line(&mut self, from: Point, to: Point) {
        let steps = count(from.distance(to) / (0.5 * self.square_mm)) + 1;
        for step in 0..=steps {
            let share = as_float(step) / as_float(steps);
            self.take(from.toward(to, share));
        }
    }

    /// Takes the squares of a straight-sided figure, its inside too.
    pub fn take_figure(&mut self, corners: &[Point]) {
        polygon::edges(corners).for_each(|(from, to)| self.take_line(from, to));
        let (low, high) = polygon::bounds(corners);
        let (first, last) = (self.square(low), self.square(high));
        for row in first.1..=last.1.min(self.rows.saturating_sub(1)) {
            for column in first.0..=last.0.min(self.columns.saturating_sub(1)) {
                let place = row * self.columns + column;
                if !self.taken[place] && polygon::contains(corners, self.middle(column, row)) {
                    self.taken[place] = true;
                }
            }
        }
    }

    /// The lower left corner of a free rectangle of this width and height at which `cost` is least; the first of equals, from below
    /// and from the left. `None` where there is no room.
    #[must_use]
    pub fn best(&self, (width_mm, height_mm): (f64, f64), cost: impl Fn(Point) -> f64) -> Option<Point> {
        let [wide, high] = [width_mm, height_mm].map(|length_mm| count(length_mm / self.square_mm) + 1);
        if self.columns < wide || self.rows < high {
            return None;
        }
        let sums = self.sums();
        let at = |column: usize, row: usize| sums[row * (self.columns + 1) + column];
        let mut best: Option<(f64, Point)> = None;
        for row in 0..=self.rows - high {
            for column in 0..=self.columns - wide {
                let corners = at(column + wide, row + high) + at(column, row);
                if corners != at(column + wide, row) + at(column, row + high) {
                    continue;
                }
                let corner =
                    self.low + Vector::new(as_float(column) * self.square_mm, as_float(row) * self.square_mm);
                let cost = cost(corner);
                if best.is_none_or(|(least, _)| cost < least) {
                    best = Some((cost, corner));
                }
            }
        }
        best.map(|(_, corner)| corner)
    }

    /// How many squares are taken below and left of every corner of a square.
    fn sums(&self) -> Vec<u32> {
        let wide = self.columns + 1;
        let mut sums = vec![0_u32; wide * (self.rows + 1)];
        for row in 0..self.rows {
            let mut in_row = 0;
            for column in 0..self.columns {
                in_row += u32::from(self.taken[row * self.columns + column]);
                sums[(row + 1) * wide + column + 1] = sums[row * wide + column + 1] + in_row;
            }
        }
        sums
    }

    fn take(&mut self, at: Point) {
        let off = at - self.low;
        let (column, row) = (off.x / self.square_mm, off.y / self.square_mm);
        if 0.0 <= column && 0.0 <= row {
            let (column, row) = (count(column), count(row));
            if column < self.columns && row < self.rows {
                self.taken[row * self.columns + column] = true;
            }
        }
    }

    /// Column and row of a place; the first for one left of or below the rectangle.
    fn square(&self, at: Point) -> (usize, usize) {
        let off = at - self.low;
        (count(off.x / self.square_mm), count(off.y / self.square_mm))
    }

    fn middle(&self, column: usize, row: usize) -> Point {
        let half = |number: usize| (as_float(number) + 0.5) * self.square_mm;
        self.low + Vector::new(half(column), half(row))
    }
}

/// Whole squares in a length; none in one below zero.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "cut to a range that holds")]
fn count(squares: f64) -> usize {
    squares.clamp(0.0, 1.0e6) as usize
}

fn as_float(number: usize) -> f64 {
    u32::try_from(number).map_or(f64::INFINITY, f64::from)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn free() -> Free {
        Free::new((Point::new(0.0, 0.0), Point::new(100.0, 50.0)), 1.0)
    }

    fn right_and_up(at: Point) -> f64 {
        -at.x - at.y
    }

    #[test]
    fn a_rectangle_lies_beside_what_is_taken() {
        let mut free = free();
        let figure = [(20.0, 0.0), (60.0, 0.0), (60.0, 50.0), (20.0, 50.0)].map(|(x, y)| Point::new(x, y));
        free.take_figure(&figure);
        assert_eq!(free.best((25.0, 30.0), |at| at.x), Some(Point::new(61.0, 0.0)));
        assert_eq!(free.best((18.0, 30.0), |at| at.x), Some(Point::new(0.0, 0.0)));
        assert_eq!(free.best((39.5, 30.0), |at| at.x), None, "wider than any of the two");
    }

    #[test]
    fn a_line_parts_what_is_free() {
        let mut free = free();
        free.take_line(Point::new(-10.0, 0.0), Point::new(110.0, 50.0));
        assert_eq!(free.best((60.0, 40.0), right_and_up), None);
        let corner = free.best((30.0, 20.0), right_and_up).unwrap();
        let over = |at: Point| (at.y - 0.5 * 50.0) - (at.x - 50.0) * 50.0 / 120.0;
        let corners = [(0.0, 0.0), (30.0, 0.0), (30.0, 20.0), (0.0, 20.0)];
        let sides = corners.map(|(x, y)| 0.0 < over(corner + Vector::new(x, y)));
        assert!(sides.iter().all(|side| *side == sides[0]), "{corner:?}");
    }

    #[test]
    fn nothing_lies_outside() {
        assert_eq!(free().best((101.0, 1.0), right_and_up), None);
        let corner = free().best((10.0, 10.0), right_and_up).unwrap();
        assert!(corner.x <= 90.0 && 88.0 <= corner.x && corner.y <= 40.0, "{corner:?}");
    }
}
