//! Room for a label inside a figure.

use geometry::{Point, Vector, polygon};

use super::label::Label;
use crate::page::{Item, TextBox};
use crate::placing::Field;

/// A straight-sided figure with holes, in which a label may lie.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Figure<'a> {
    /// Outer corners.
    pub(crate) outer: &'a [Point],
    /// Corners of the holes.
    pub(crate) holes: &'a [Vec<Point>],
}

/// Lays `label` inside the figure and takes its room, if there is any.
pub(crate) fn lay(field: &mut Field, figure: Figure<'_>, label: &Label, along: Vector) -> Option<Vec<Item>> {
    let centre = find(field, figure, label.width_mm(), label.height_mm(), along)?;
    field.take(label.room(centre, along));
    Some(label.items(centre, along))
}

/// The same, but only where no hairline runs through the label.
pub(crate) fn lay_off_hairlines(
    field: &mut Field,
    figure: Figure<'_>,
    label: &Label,
    along: Vector,
) -> Option<Vec<Item>> {
    let centre = find(field, figure, label.width_mm(), label.height_mm(), along)?;
    let room = label.room(centre, along);
    if field.hairlines_through(&room) != 0 {
        return None;
    }
    field.take(room);
    Some(label.items(centre, along))
}

/// The middle of a clear rectangle inside the figure: with the fewest hairlines through it, then the nearest to the
/// middle of the figure.
pub(crate) fn find(
    field: &Field,
    figure: Figure<'_>,
    width_mm: f64,
    height_mm: f64,
    along: Vector,
) -> Option<Point> {
    const STEPS: u32 = 24;
    let (low, high) = polygon::bounds(figure.outer);
    let extent = along * width_mm;
    let rise = along.left() * height_mm;
    if high.x - low.x < extent.x.abs() + rise.x.abs() || high.y - low.y < extent.y.abs() + rise.y.abs() {
        return None;
    }
    let field = &field.within(low, high);
    let middle = polygon::centroid(figure.outer);
    let share = |k: u32| f64::from(k) / f64::from(STEPS);
    let grid = (0..=STEPS).flat_map(|i| (0..=STEPS).map(move |k| (share(i), share(k))));
    let places = grid.map(|(x, y)| Point::new(low.x + (high.x - low.x) * x, low.y + (high.y - low.y) * y));
    let mut best: Option<(usize, f64, Point)> = None;
    for centre in std::iter::once(middle).chain(places) {
        let room = TextBox::centred(centre, along, width_mm, height_mm).grown(0.25 * height_mm);
        let distance = centre.distance(middle);
        let beaten = best.is_some_and(|(hairlines, nearest, _)| hairlines == 0 && nearest <= distance);
        if beaten || !figure.holds(&room) || !field.is_clear(&room) {
            continue;
        }
        let hairlines = field.hairlines_through(&room);
        if best.is_none_or(|(fewest, nearest, _)| (hairlines, distance) < (fewest, nearest)) {
            best = Some((hairlines, distance, centre));
        }
    }
    best.map(|(.., centre)| centre)
}

impl Figure<'_> {
    /// True when the corners and the middle of `room` lie on the metal. Edges of the figure are lines of the field,
    /// so that a clear room with its corners inside lies inside as a whole.
    fn holds(&self, room: &TextBox) -> bool {
        let centre = room.centre();
        room.corners.iter().all(|corner| polygon::contains(self.outer, *corner))
            && !self.holes.iter().any(|hole| polygon::contains(hole, centre))
    }
}
