//! The field of a drawing: what is taken, and whether a label may lie somewhere.

use geometry::{Point, polygon};

use crate::page::TextBox;

/// What already lies on a drawing.
#[derive(Debug, Clone, Default)]
pub struct Field {
    texts: Vec<TextBox>,
    lines: Vec<(Point, Point)>,
    hairlines: Vec<(Point, Point)>,
    areas: Vec<Vec<Point>>,
}

impl Field {
    /// Room taken by text: nothing else may lie there, and no leader may cross it.
    pub fn take(&mut self, room: TextBox) {
        self.texts.push(room);
    }

    /// A line no text may touch: cut edges, bend lines, leaders.
    pub fn add_line(&mut self, from: Point, to: Point) {
        self.lines.push((from, to));
    }

    /// A line text should keep off if it can: extension lines.
    pub fn add_hairline(&mut self, from: Point, to: Point) {
        self.hairlines.push((from, to));
    }

    /// A figure on which a label that stands off its own thing should not lie, lest it seem to name that figure.
    pub fn add_area(&mut self, corners: Vec<Point>) {
        self.areas.push(corners);
    }

    /// True when the middle or a corner of `room` lies on one of those figures.
    #[must_use]
    pub fn lies_on_area(&self, room: &TextBox) -> bool {
        let points = room.corners.iter().copied().chain([room.centre()]);
        points.into_iter().any(|point| self.areas.iter().any(|area| polygon::contains(area, point)))
    }

    /// True when `room` touches no text and no line.
    #[must_use]
    pub fn is_clear(&self, room: &TextBox) -> bool {
        !self.texts.iter().any(|text| text.overlaps(room))
            && !self.lines.iter().any(|&line| meets(room, line))
    }

    /// How many hairlines run through `room`.
    #[must_use]
    pub fn hairlines_through(&self, room: &TextBox) -> usize {
        self.hairlines.iter().filter(|&&line| meets(room, line)).count()
    }

    /// How many lines a leader would cross; `None` when it would run through text.
    #[must_use]
    pub fn crossings(&self, leader: (Point, Point)) -> Option<usize> {
        let through_text = self.texts.iter().any(|text| meets(text, leader));
        (!through_text)
            .then(|| self.lines.iter().filter(|&&line| polygon::segments_touch(line, leader)).count())
    }
}

/// [`TextBox::meets`] behind a cheap look at the upright bounds.
fn meets(room: &TextBox, piece: (Point, Point)) -> bool {
    let (low, high) = polygon::bounds(&room.corners);
    let (piece_low, piece_high) = polygon::bounds(&[piece.0, piece.1]);
    let apart = piece_high.x < low.x || high.x < piece_low.x || piece_high.y < low.y || high.y < piece_low.y;
    !apart && room.meets(piece)
}

#[cfg(test)]
mod tests {
    use super::*;
    use geometry::Vector;

    #[test]
    fn text_and_lines_forbid_but_hairlines_only_count() {
        let mut field = Field::default();
        let room = TextBox::new(Point::new(0.0, 0.0), Vector::new(1.0, 0.0), 10.0, 3.0);
        field.add_hairline(Point::new(5.0, -9.0), Point::new(5.0, 9.0));
        assert!(field.is_clear(&room));
        assert_eq!(field.hairlines_through(&room), 1);
        field.add_line(Point::new(5.0, -9.0), Point::new(5.0, 9.0));
        assert!(!field.is_clear(&room));
        field.take(room);
        assert_eq!(field.crossings((Point::new(-1.0, 1.0), Point::new(1.0, 1.0))), None);
        assert_eq!(field.crossings((Point::new(0.0, 5.0), Point::new(9.0, 5.0))), Some(1));
    }
}
