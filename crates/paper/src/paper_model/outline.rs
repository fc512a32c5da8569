//! The outline to cut: round all faces and tabs.

use geometry::{Contour, Point, tolerance};

use super::scale::Scaled;
use super::tabs::Tab;

/// Walks the whole model once round, starting with the root.
pub(super) fn walk(scaled: &Scaled, tabs: &[Tab]) -> Contour {
    let mut corners = Vec::new();
    face(scaled, tabs, 0, &mut corners);
    let same = |a: Point, b: Point| a.distance(b) <= tolerance::DRAWN_POINT_MM;
    corners.dedup_by(|a, b| same(*a, *b));
    while corners.len() > 1 && same(corners[0], corners[corners.len() - 1]) {
        corners.pop();
    }
    Contour::polygon(&corners)
}

/// The corners of a face in order, tabs and children where they come; a child starts after its fold.
fn face(scaled: &Scaled, tabs: &[Tab], number: usize, corners: &mut Vec<Point>) {
    let own = &scaled.faces[number];
    let first = usize::from(number != 0);
    for edge in first..own.corners.len() {
        corners.push(own.corners[edge]);
        if let Some(child) = scaled.child(number, edge) {
            face(scaled, tabs, child, corners);
        }
        if let Some(tab) = tabs.iter().find(|tab| tab.side == (number, edge)) {
            corners.extend(tab.outer());
        }
    }
    if number != 0 {
        corners.push(own.corners[0]);
    }
}
