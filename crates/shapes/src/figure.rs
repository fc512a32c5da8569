//! A straight-sided plan figure whose corners and sides have names.

use geometry::{Point, Polygon, Region, polygon, tolerance};

/// A plan figure as seen from above, corners counter-clockwise, millimetres.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// Corners, counter-clockwise.
    pub corners: Vec<Point>,
    /// Corner names: "A", "B" …
    pub names: Vec<String>,
    /// Side names: side i runs from corner i to the next. "AB" whichever way round the figure runs.
    pub sides: Vec<String>,
}

/// The letter of corner `number`: A, B … Z, then A1, B1 …
#[must_use]
pub fn corner_letter(number: usize) -> String {
    let letter = char::from(b'A' + u8::try_from(number % 26).unwrap_or(0));
    if number < 26 { letter.to_string() } else { format!("{letter}{}", number / 26) }
}

impl Figure {
    /// A figure lettered A, B, C … in the order given, whichever way round that runs; `None` when it has no area.
    #[must_use]
    pub fn lettered(corners: &[Point]) -> Option<Self> {
        let names: Vec<String> = (0..corners.len()).map(corner_letter).collect();
        let area = polygon::signed_area(corners);
        if corners.len() < 3 || area.abs() <= tolerance::SAME_POINT_MM {
            return None;
        }
        let sides = (0..corners.len()).map(|i| format!("{}{}", names[i], names[(i + 1) % corners.len()]));
        let figure = Self { corners: corners.to_vec(), names: names.clone(), sides: sides.collect() };
        Some(if area > 0.0 { figure } else { figure.reversed() })
    }

    /// An upright rectangle, A at the origin, AB along x.
    #[must_use]
    pub fn rectangle(length_mm: f64, width_mm: f64) -> Option<Self> {
        let (x, y) = (length_mm, width_mm);
        Self::lettered(&[Point::new(0.0, 0.0), Point::new(x, 0.0), Point::new(x, y), Point::new(0.0, y)])
    }

    /// The same figure run the other way, the first corner kept second so that side AB stays first.
    fn reversed(&self) -> Self {
        let n = self.corners.len();
        let order: Vec<usize> = (0..n).map(|i| (n + 1 - i) % n).collect();
        Self {
            corners: order.iter().map(|&i| self.corners[i]).collect(),
            names: order.iter().map(|&i| self.names[i].clone()).collect(),
            sides: order.iter().map(|&i| self.sides[(i + n - 1) % n].clone()).collect(),
        }
    }

    /// The number of a corner in the order given, from 1: an opening goes by numbers where a part in it goes by letters.
    /// `None` for a corner that has a name of its own.
    #[must_use]
    pub fn corner_number(&self, corner: usize) -> Option<usize> {
        (0..self.count()).find(|&number| corner_letter(number) == self.names[corner]).map(|number| number + 1)
    }

    /// Number of corners.
    #[must_use]
    pub fn count(&self) -> usize {
        self.corners.len()
    }

    /// The number of the side called `name`, read either way ("AB" or "BA").
    #[must_use]
    pub fn side_number(&self, name: &str) -> Option<usize> {
        let turned: String = name.chars().rev().collect();
        self.sides.iter().position(|side| side == name || *side == turned)
    }

    /// Start and end of a side.
    #[must_use]
    pub fn side(&self, number: usize) -> (Point, Point) {
        (self.corners[number], self.corners[(number + 1) % self.count()])
    }

    /// Length of a side, mm.
    #[must_use]
    pub fn side_mm(&self, number: usize) -> f64 {
        let (a, b) = self.side(number);
        a.distance(b)
    }

    /// Inside angle at a corner, radians.
    #[must_use]
    pub fn corner_angle(&self, number: usize) -> f64 {
        let n = self.count();
        let (before, here, after) =
            (self.corners[(number + n - 1) % n], self.corners[number], self.corners[(number + 1) % n]);
        let (u, v) = (after - here, before - here);
        geometry::trig::atan2(u.cross(v), u.dot(v)).rem_euclid(2.0 * std::f64::consts::PI)
    }

    /// Area, mm².
    #[must_use]
    pub fn area_mm2(&self) -> f64 {
        polygon::signed_area(&self.corners)
    }

    /// Every side moved outward by its own distance (inward when negative), mm.
    ///
    /// `None` when neighbouring sides are parallel, or a side would vanish or turn round: then the figure has
    /// closed up.
    #[must_use]
    pub fn moved(&self, outward_mm: &[f64]) -> Option<Self> {
        let n = self.count();
        let line = |i: usize| {
            let (a, b) = self.side(i % n);
            let along = (b - a).unit();
            (a + along.right() * outward_mm[i % n], along)
        };
        let mut corners = Vec::with_capacity(n);
        for i in 0..n {
            let ((p, u), (q, v)) = (line(i + n - 1), line(i));
            corners.push(p.crossing(u, q, v)?);
        }
        let moved = Self { corners, ..self.clone() };
        let kept = (0..n).all(|i| {
            let ((a, b), (c, d)) = (self.side(i), moved.side(i));
            (d - c).dot((b - a).unit()) > tolerance::SAME_POINT_MM
        });
        kept.then_some(moved)
    }

    /// Every side moved outward by the same distance, mm; see [`Figure::moved`].
    #[must_use]
    pub fn grown(&self, outward_mm: f64) -> Option<Self> {
        self.moved(&vec![outward_mm; self.count()])
    }

    /// What of the figure is at least `inward_mm` from all its sides, in as many rings as it falls into, largest first;
    /// where that is below zero, the figure with its sides so much farther out. Unlike [`Figure::grown`], sides may vanish:
    /// those of a small chamfer, or of a notch that closes. Empty where nothing is left.
    #[must_use]
    pub fn clear(&self, inward_mm: f64) -> Vec<Vec<Point>> {
        let own = Region::of(&Polygon { outer: self.corners.clone(), holes: Vec::new() });
        let clear = if inward_mm < 0.0 { own.carried_out(-inward_mm) } else { own.shrunk(inward_mm) };
        let mut rings: Vec<Vec<Point>> = clear.polygons().into_iter().map(|part| part.outer).collect();
        rings.sort_by(|a, b| polygon::signed_area(b).total_cmp(&polygon::signed_area(a)));
        rings
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_clockwise_figure_keeps_its_names() {
        let corners = [(0.0, 0.0), (0.0, 10.0), (20.0, 10.0), (20.0, 0.0)].map(|(x, y)| Point::new(x, y));
        let figure = Figure::lettered(&corners).unwrap();
        assert!(figure.area_mm2() > 0.0);
        assert_eq!(figure.sides, ["AB", "DA", "CD", "BC"]);
        assert_eq!(figure.names, ["B", "A", "D", "C"]);
        assert!((figure.side_mm(figure.side_number("AB").unwrap()) - 10.0).abs() < tolerance::SAME_POINT_MM);
        assert!((figure.side_mm(figure.side_number("BC").unwrap()) - 20.0).abs() < tolerance::SAME_POINT_MM);
    }

    #[test]
    fn insets_that_meet_leave_no_figure() {
        let figure = Figure::rectangle(20.0, 10.0).unwrap();
        assert!(figure.grown(-4.9).is_some());
        assert!(figure.grown(-5.1).is_none());
    }
}
