//! A flat part: one face, no bends.

use fold::part::{Edge, Face, FoldedPart};
use geometry::{Contour, Point};

use crate::Making;

/// One face with holes, corners counter-clockwise.
pub(crate) fn flat_piece(
    name: &str,
    corners: Vec<Point>,
    holes: Vec<Contour>,
    making: &Making,
) -> FoldedPart {
    let made = making.corners();
    let edges = vec![Edge::Free; corners.len()];
    FoldedPart::unbent(
        making.number.clone(),
        vec![Face { name: name.to_owned(), corners, edges, holes, rim: None }],
        made.relief,
        made.notch_width_mm,
    )
}
