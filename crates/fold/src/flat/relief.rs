//! Round relief holes cut into the walked outline.

use geometry::{Contour, Point, Segment, polygon, tolerance};

use super::outline::Corner;
use super::unfold::UnfoldError;

/// The contour through `corners`, with a relief hole about every corner that asks for one.
///
/// # Errors
/// When a hole swallows the edges it should cut, or nicks others.
pub(super) fn cut_round(corners: &[Corner]) -> Result<Contour, UnfoldError> {
    let holes: Vec<(usize, f64)> =
        corners.iter().enumerate().filter_map(|(i, corner)| Some((i, corner.relief_mm?))).collect();
    let largest = holes.iter().fold(0.0, |most: f64, (_, radius)| most.max(*radius));
    let count = corners.len();
    let clear =
        |i: usize| holes.iter().all(|(k, radius)| corners[*k].point.distance(corners[i].point) > *radius);
    let start = (0..count).find(|&i| clear(i)).ok_or(UnfoldError::ReliefTooLarge { radius_mm: largest })?;
    let order: Vec<Corner> = (0..count).map(|i| corners[(start + i) % count]).collect();
    let mut segments = Vec::with_capacity(count);
    let mut next = 0;
    while next < count {
        match hole_ahead(&order, next) {
            Some((entry, exit, centre, resume)) => {
                segments.push(Segment::Line { to: entry });
                segments.push(Segment::Arc { to: exit, centre, counter_clockwise: false });
                next = resume;
            }
            None => {
                segments.push(Segment::Line { to: order[next].point });
                next += 1;
            }
        }
    }
    let contour = Contour { segments };
    let nicked = |(k, radius): &(usize, f64)| comes_within(&contour, corners[*k].point, *radius);
    if holes.iter().any(nicked) {
        Err(UnfoldError::ReliefTooLarge { radius_mm: largest })
    } else {
        Ok(contour)
    }
}

/// True when a straight edge runs inside the circle: the drill would take more than the outline shows.
fn comes_within(contour: &Contour, centre: Point, radius_mm: f64) -> bool {
    contour.pieces().any(|(from, segment)| match segment {
        Segment::Line { to } => {
            polygon::point_to_segment(centre, (from, to)) < radius_mm - tolerance::SAME_POINT_MM
        }
        Segment::Arc { .. } => false,
    })
}

/// If the outline enters a relief hole on its way to corner `next`: where in, where out, the centre, and the first
/// corner after it.
fn hole_ahead(order: &[Corner], next: usize) -> Option<(Point, Point, Point, usize)> {
    let before = order[next.checked_sub(1)?].point;
    let (k, radius) = (next..order.len()).find_map(|k| Some((k, order[k].relief_mm?)))?;
    let centre = order[k].point;
    let outside = |corner: &Corner| corner.point.distance(centre) > radius;
    if order[next..=k].iter().any(outside) {
        return None;
    }
    let resume = (k..order.len()).find(|&i| outside(&order[i])).unwrap_or(order.len());
    let after = order[resume % order.len()].point;
    let entry = on_circle(order[next].point, before, centre, radius);
    let exit = on_circle(order[resume - 1].point, after, centre, radius);
    Some((entry, exit, centre, resume))
}

/// Where the straight from `inside` to `outside` leaves the circle.
fn on_circle(inside: Point, outside: Point, centre: Point, radius_mm: f64) -> Point {
    let along = (outside - inside).unit();
    let offset = inside - centre;
    let half = offset.dot(along);
    let reach = -half + (half * half - offset.dot(offset) + radius_mm * radius_mm).max(0.0).sqrt();
    inside + along * reach
}
