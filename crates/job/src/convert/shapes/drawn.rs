//! Outlines drawn from above, by two sizes or by their corners.

use geometry::Point;
use shapes::Figure;

use crate::convert::desk::{Desk, Range};
use crate::file::Size;
use crate::place::Place;

/// The outline by exactly one of `size` and `outline`; `others` names what else could give it.
pub(in crate::convert) fn figure(
    size: Option<&[Size; 2]>,
    outline: Option<&Vec<[Size; 2]>>,
    others: &str,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<Figure> {
    match (size, outline) {
        (Some(size), None) => {
            let [length, width] = desk.pair(&place.field("size"), size, Range::AboveZero)?;
            Figure::rectangle(length.millimetres(), width.millimetres())
        }
        (None, Some(corners)) => by_corners(corners, &place.field("outline"), desk),
        _ => {
            let remedy = format!("give exactly one of \"size\", \"outline\"{others}");
            desk.add(&place.field("outline"), "", "one field must give the outline", remedy);
            None
        }
    }
}

/// The figure by exactly one of two fields: its two sizes, or its corners.
pub(super) fn named_figure(
    [size_field, outline_field]: [&str; 2],
    (size, outline): (Option<&[Size; 2]>, Option<&Vec<[Size; 2]>>),
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<Figure> {
    match (size, outline) {
        (Some(size), None) => {
            let [length, width] = desk.pair(&place.field(size_field), size, Range::AboveZero)?;
            Figure::rectangle(length.millimetres(), width.millimetres())
        }
        (None, Some(corners)) => by_corners(corners, &place.field(outline_field), desk),
        _ => {
            let wrong = format!("one of \"{size_field}\" and \"{outline_field}\" gives its corners");
            desk.add(&place.field(size_field), "", wrong, "give exactly one of them");
            None
        }
    }
}

pub(super) fn by_corners(corners: &[[Size; 2]], place: &Place, desk: &mut Desk<'_>) -> Option<Figure> {
    let points = points(corners, place, desk)?;
    let figure = Figure::lettered(&points);
    if figure.is_none() {
        desk.add(place, "", "these corners enclose no area", "give the corners in order, once round");
    }
    figure
}

/// Corners, each along and across.
pub(in crate::convert) fn points(
    corners: &[[Size; 2]],
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<Vec<Point>> {
    let points: Vec<Option<Point>> = corners
        .iter()
        .enumerate()
        .map(|(number, corner)| {
            let [x, y] = desk.pair(&place.entry(number), corner, Range::Any)?;
            Some(Point::new(x.millimetres(), y.millimetres()))
        })
        .collect();
    points.into_iter().collect()
}
