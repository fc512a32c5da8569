//! A line of text and the room it takes.

use geometry::{Point, Vector, tolerance};

use super::font::{self, Weight};
use super::pen::Ink;

/// Which part of a line of text lies at its point, along its baseline.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// Its start.
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    End,
}

/// One line of text.
#[derive(Debug, Clone, PartialEq)]
pub struct Text {
    /// Where the baseline has its anchor.
    pub at: Point,
    /// The words.
    pub words: String,
    /// Height of the em, mm.
    pub size_mm: f64,
    /// Regular or bold.
    pub weight: Weight,
    /// What lies at `at`.
    pub anchor: Anchor,
    /// Turned left about `at`, in quarter turns and between, radians.
    pub turn_rad: f64,
    /// Colour.
    pub ink: Ink,
    /// Where what it says comes from: the field, formula or table row. Drawings tell it under the pointer.
    pub origin: Option<String>,
}

/// The room a line of text takes: a rectangle, possibly turned.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TextBox {
    /// Its corners, counter-clockwise.
    pub corners: [Point; 4],
}

impl Text {
    /// Upright black text of ordinary weight that starts at `at`.
    #[must_use]
    pub fn new(at: Point, words: impl Into<String>, size_mm: f64) -> Self {
        Self {
            at,
            words: words.into(),
            size_mm,
            weight: Weight::Regular,
            anchor: Anchor::Start,
            turn_rad: 0.0,
            ink: Ink::Black,
            origin: None,
        }
    }

    /// The same text with the place it comes from; an empty one is none.
    #[must_use]
    pub fn from(self, origin: &str) -> Self {
        Self { origin: (!origin.is_empty()).then(|| origin.to_owned()), ..self }
    }

    /// The same text, bold.
    #[must_use]
    pub fn bold(self) -> Self {
        Self { weight: Weight::Bold, ..self }
    }

    /// The same text with another anchor.
    #[must_use]
    pub fn anchored(self, anchor: Anchor) -> Self {
        Self { anchor, ..self }
    }

    /// The same text turned about its anchor.
    #[must_use]
    pub fn turned(self, turn_rad: f64) -> Self {
        Self { turn_rad, ..self }
    }

    /// The same text in another colour.
    #[must_use]
    pub fn inked(self, ink: Ink) -> Self {
        Self { ink, ..self }
    }

    /// Width along the baseline, mm.
    #[must_use]
    pub fn width_mm(&self) -> f64 {
        font::width_mm(&self.words, self.weight, self.size_mm)
    }

    /// The room it takes, from the descenders to the top of the capitals.
    #[must_use]
    pub fn bounding_box(&self) -> TextBox {
        let along = Vector::at_angle(self.turn_rad);
        let width = self.width_mm();
        let start = match self.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => -0.5 * width,
            Anchor::End => -width,
        };
        let low = -font::DESCENT_EM * self.size_mm;
        let origin = self.at + along * start + along.left() * low;
        TextBox::new(origin, along, width, font::ASCENT_EM * self.size_mm - low)
    }
}

impl TextBox {
    /// The rectangle from corner `origin`, `width_mm` along the unit vector `along` and `height_mm` to its left.
    #[must_use]
    pub fn new(origin: Point, along: Vector, width_mm: f64, height_mm: f64) -> Self {
        let (wide, high) = (along * width_mm, along.left() * height_mm);
        Self { corners: [origin, origin + wide, origin + wide + high, origin + high] }
    }

    /// The same rectangle with its middle at `centre`.
    #[must_use]
    pub fn centred(centre: Point, along: Vector, width_mm: f64, height_mm: f64) -> Self {
        let origin = centre - along * (0.5 * width_mm) - along.left() * (0.5 * height_mm);
        Self::new(origin, along, width_mm, height_mm)
    }

    /// The middle.
    #[must_use]
    pub fn centre(&self) -> Point {
        self.corners[0].toward(self.corners[2], 0.5)
    }

    /// The rectangle with `by_mm` more room on every side.
    #[must_use]
    pub fn grown(&self, by_mm: f64) -> Self {
        let along = (self.corners[1] - self.corners[0]).unit();
        let up = along.left();
        let origin = self.corners[0] - along * by_mm - up * by_mm;
        let (width, height) =
            (self.corners[0].distance(self.corners[1]), self.corners[0].distance(self.corners[3]));
        Self::new(origin, along, width + 2.0 * by_mm, height + 2.0 * by_mm)
    }

    /// True when the two rectangles share an area; touching edges do not count.
    ///
    /// By the separating-axis theorem: two convex figures are apart when some edge direction shows them apart.
    #[must_use]
    pub fn overlaps(&self, other: &Self) -> bool {
        self.near(other) && !self.parted(other) && !other.parted(self)
    }

    /// True when the straight piece enters or touches the rectangle, to within [`tolerance::SAME_POINT_MM`].
    ///
    /// The piece is clipped by one pair of sides, then by the other: a sheet asks this many thousand times.
    #[must_use]
    pub fn meets(&self, (from, to): (Point, Point)) -> bool {
        let [origin, wide, _, high] = self.corners;
        let up = (high - origin).unit();
        let along = -up.left();
        let spans = [(along, (wide - origin).dot(along)), (up, (high - origin).dot(up))];
        let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
        for (axis, long) in spans {
            let (first, last) = ((from - origin).dot(axis), (to - origin).dot(axis));
            let (low, top) = (-tolerance::SAME_POINT_MM, long + tolerance::SAME_POINT_MM);
            if first.max(last) < low || top < first.min(last) {
                return false;
            }
            let runs = last - first;
            if tolerance::SAME_POINT_MM < runs.abs() {
                let (a, b) = ((low - first) / runs, (top - first) / runs);
                enters = enters.max(a.min(b));
                leaves = leaves.min(a.max(b));
            }
        }
        enters <= leaves
    }

    /// Cheap first look: the circles about both rectangles touch.
    fn near(&self, other: &Self) -> bool {
        let reach = self.corners[0].distance(self.corners[2]) + other.corners[0].distance(other.corners[2]);
        2.0 * self.centre().distance(other.centre()) <= reach
    }

    /// True when an edge direction of `self` shows the two apart.
    fn parted(&self, other: &Self) -> bool {
        [self.corners[1] - self.corners[0], self.corners[3] - self.corners[0]].iter().any(|axis| {
            let span = |corners: &[Point; 4]| {
                let along = corners.map(|p| (p - self.corners[0]).dot(*axis));
                (
                    along.into_iter().fold(f64::INFINITY, f64::min),
                    along.into_iter().fold(f64::NEG_INFINITY, f64::max),
                )
            };
            let (low, high) = span(&self.corners);
            let (other_low, other_high) = span(&other.corners);
            high <= other_low || other_high <= low
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use geometry::polygon;
    use proptest::prelude::*;

    #[test]
    fn a_turned_box_overlaps_only_where_it_lies() {
        let flat = TextBox::new(Point::new(0.0, 0.0), Vector::new(1.0, 0.0), 10.0, 2.0);
        let steep = TextBox::centred(Point::new(5.0, 8.0), Vector::new(0.0, 1.0), 10.0, 2.0);
        let higher = TextBox::centred(Point::new(5.0, 7.5), Vector::new(0.0, 1.0), 10.0, 2.0);
        let lower = TextBox::centred(Point::new(5.0, 6.5), Vector::new(0.0, 1.0), 10.0, 2.0);
        assert!(!flat.overlaps(&steep));
        assert!(!flat.overlaps(&higher));
        assert!(flat.overlaps(&lower));
    }

    #[test]
    fn the_anchor_moves_the_box() {
        let text = Text::new(Point::new(0.0, 0.0), "AB", 10.0).anchored(Anchor::End);
        let (low, high) = polygon::bounds(&text.bounding_box().corners);
        assert!(high.x.abs() < tolerance::SAME_POINT_MM);
        assert!((low.x + text.width_mm()).abs() < tolerance::SAME_POINT_MM);
    }

    /// The same question asked of the four sides and the inside.
    fn meets_by_sides(room: &TextBox, piece: (Point, Point)) -> bool {
        polygon::contains(&room.corners, piece.0)
            || polygon::edges(&room.corners).any(|edge| polygon::segments_touch(edge, piece))
    }

    proptest! {
        #[test]
        fn a_line_meets_a_box_when_it_meets_a_side_or_lies_within(
            turn in 0.0..6.3_f64, wide in 0.5..20.0_f64, high in 0.5..5.0_f64,
            ends in prop::array::uniform4(-20.0..20.0_f64),
        ) {
            let room = TextBox::new(Point::new(1.0, -2.0), Vector::at_angle(turn), wide, high);
            let piece = (Point::new(ends[0], ends[1]), Point::new(ends[2], ends[3]));
            prop_assert_eq!(room.meets(piece), meets_by_sides(&room, piece));
        }
    }

    #[test]
    fn a_line_through_a_box_meets_it() {
        let label = TextBox::new(Point::new(0.0, 0.0), Vector::new(1.0, 0.0), 10.0, 2.0);
        assert!(label.meets((Point::new(-1.0, 1.0), Point::new(11.0, 1.0))));
        assert!(label.meets((Point::new(4.0, 1.0), Point::new(5.0, 1.0))));
        assert!(!label.meets((Point::new(-1.0, 3.0), Point::new(11.0, 3.0))));
    }
}
