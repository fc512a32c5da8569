//! Plan figures shared by lids, pans and boxes.

use geometry::{Point, Vector, Vector3, tolerance};
use units::Length;

use crate::{Fact, Figure, Making, Problem};

/// A rectangle whose two sizes must be above zero.
pub(crate) fn rectangle(
    making: &Making,
    field: &str,
    length: Length,
    width: Length,
) -> Result<Figure, Vec<Problem>> {
    let mut problems = Vec::new();
    making.above_zero(&format!("{field}[0]"), length, &mut problems);
    making.above_zero(&format!("{field}[1]"), width, &mut problems);
    if !problems.is_empty() {
        return Err(problems);
    }
    let none = || vec![Problem::new(field, "as given", "makes no rectangle", "give two sizes")];
    Figure::rectangle(length.millimetres(), width.millimetres()).ok_or_else(none)
}

/// Directions of a side of a plan figure in space: along it, and outward from it.
pub(crate) fn side_directions(figure: &Figure, side: usize) -> (Vector3, Vector3) {
    let (a, b) = figure.side(side);
    let along = (b - a).unit();
    let flat = |v: Vector| Vector3::new(v.x, v.y, 0.0);
    (flat(along), flat(along.right()))
}

/// Every side length of a figure as a fact.
pub(crate) fn side_facts(figure: &Figure, what: &str, origin: &str) -> Vec<Fact> {
    let fact = |(number, name): (usize, &String)| {
        Fact::length_mm(format!("{what} {name}"), figure.side_mm(number), origin)
    };
    figure.sides.iter().enumerate().map(fact).collect()
}

/// What a notch leaves of every side that it cuts back, as a fact.
pub(crate) fn cut_back_facts(outline: &Figure, notched: &Figure) -> Vec<Fact> {
    let fact = |(number, name): (usize, &String)| {
        let pieces = (0..notched.count()).filter(|&side| notched.sides[side] == *name);
        let left_mm: f64 = pieces.map(|side| notched.side_mm(side)).sum();
        let cut = tolerance::SAME_POINT_MM < outline.side_mm(number) - left_mm;
        cut.then(|| Fact::length_mm(format!("metal left on side {name}"), left_mm, "outline, notches"))
    };
    outline.sides.iter().enumerate().filter_map(fact).collect()
}

/// A side's start as a point in space.
pub(crate) fn at_height(point: Point, z_mm: f64) -> geometry::Point3 {
    geometry::Point3::new(point.x, point.y, z_mm)
}
