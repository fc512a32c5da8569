//! Hatching as plain lines, which every viewer and every pen can draw.

use geometry::outline::Chords;
use geometry::{Contour, Point, Vector, polygon};

use super::{Item, Pen};

/// Lines at `angle_rad`, `spacing_mm` apart, over the inside of `contours` (even-odd, so holes stay clear).
#[must_use]
pub fn hatch_lines(contours: &[Contour], spacing_mm: f64, angle_rad: f64) -> Vec<Item> {
    let along = Vector::at_angle(angle_rad);
    let rings: Vec<Vec<Point>> = contours.iter().map(|contour| contour.corners(Chords::On)).collect();
    let heights = rings.iter().flatten().map(|p| (*p - Point::default()).dot(along.left()));
    let (low, high) =
        heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), h| (low.min(h), high.max(h)));
    let mut lines = Vec::new();
    let mut height = (low / spacing_mm).floor() * spacing_mm + 0.5 * spacing_mm;
    while height < high {
        let crossings = crossings(&rings, along, height);
        let point = |x: f64| Point::default() + along * x + along.left() * height;
        let pairs = crossings.chunks_exact(2);
        lines.extend(pairs.map(|pair| Item::line(point(pair[0]), point(pair[1]), Pen::Hatch)));
        height += spacing_mm;
    }
    lines
}

/// Where the line at `height` to the left of the origin crosses the rings, along it, in order.
fn crossings(rings: &[Vec<Point>], along: Vector, height: f64) -> Vec<f64> {
    let mut places = Vec::new();
    for (a, b) in rings.iter().flat_map(|ring| polygon::edges(ring)) {
        let [from, to] = [a, b].map(|p| (p - Point::default()).dot(along.left()) - height);
        if (from > 0.0) != (to > 0.0) {
            let [start, end] = [a, b].map(|p| (p - Point::default()).dot(along));
            places.push(start + (end - start) * from / (from - to));
        }
    }
    places.sort_by(f64::total_cmp);
    places
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hatching_covers_the_figure_and_spares_the_hole() {
        let square = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)].map(|(x, y)| Point::new(x, y));
        let hole = Contour::polygon(
            &[(4.0, 4.0), (4.0, 6.0), (6.0, 6.0), (6.0, 4.0)].map(|(x, y)| Point::new(x, y)),
        );
        let lines = hatch_lines(&[Contour::polygon(&square), hole], 1.0, 0.0);
        let length: f64 = lines
            .iter()
            .map(|item| match item {
                Item::Line(line) => line.from.distance(line.to),
                _ => 0.0,
            })
            .sum();
        // Ten lines of ten, less two lines of two over the hole.
        assert!((length - 96.0).abs() < geometry::tolerance::SAME_POINT_MM);
    }
}
