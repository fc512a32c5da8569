//! Holes: round, slots with round ends, rectangles.

use geometry::{Contour, Point, Segment, Vector};
use units::{Angle, Length};

use crate::{Making, Problem};

/// A hole, its place taken from the shape's datum corner.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hole {
    /// Centre, along and across.
    pub at: [Length; 2],
    /// What it looks like.
    pub kind: HoleKind,
}

/// The form of a hole.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum HoleKind {
    /// Drilled or sawn round.
    Round {
        /// Diameter.
        diameter: Length,
    },
    /// A slot with round ends.
    Slot {
        /// Over the round ends.
        length: Length,
        /// Across.
        width: Length,
        /// Of its length from the x axis, counter-clockwise.
        turned: Angle,
    },
    /// A cut-out with square corners, or rounded ones.
    Rectangle {
        /// Along x.
        length: Length,
        /// Along y.
        width: Length,
        /// Radius of the corners, zero for square ones.
        corner_radius: Length,
    },
}

impl Hole {
    /// Its contour, clockwise.
    ///
    /// # Errors
    /// A [`Problem`] under `field` when a size is not above zero, or a slot is shorter than wide.
    pub fn contour(&self, making: &Making, field: &str) -> Result<Contour, Vec<Problem>> {
        let mut problems = Vec::new();
        let centre = Point::new(self.at[0].millimetres(), self.at[1].millimetres());
        let contour = match &self.kind {
            HoleKind::Round { diameter } => {
                making.above_zero(&format!("{field}.diameter"), *diameter, &mut problems);
                Contour::round_hole(centre, 0.5 * diameter.millimetres())
            }
            HoleKind::Slot { length, width, turned } => {
                making.above_zero(&format!("{field}.slot[1]"), *width, &mut problems);
                if length <= width {
                    problems.push(Problem::new(
                        format!("{field}.slot[0]"),
                        making.print(*length),
                        "a slot must be longer than it is wide",
                        "give the length over the round ends, or ask for a round hole",
                    ));
                }
                slot(centre, length.millimetres(), width.millimetres(), turned.radians())
            }
            HoleKind::Rectangle { length, width, corner_radius } => {
                making.above_zero(&format!("{field}.cut_out[0]"), *length, &mut problems);
                making.above_zero(&format!("{field}.cut_out[1]"), *width, &mut problems);
                making.not_below_zero(&format!("{field}.corner_radius"), *corner_radius, &mut problems);
                if *corner_radius + *corner_radius > (*length).min(*width) {
                    problems.push(Problem::new(
                        format!("{field}.corner_radius"),
                        making.print(*corner_radius),
                        "is more than half the cut-out's smaller side",
                        "lessen it",
                    ));
                }
                rectangle(centre, length.millimetres(), width.millimetres(), corner_radius.millimetres())
            }
        };
        if problems.is_empty() { Ok(contour) } else { Err(problems) }
    }
}

/// Clockwise: out along one flank, round the end, back along the other.
fn slot(centre: Point, length_mm: f64, width_mm: f64, radians: f64) -> Contour {
    let along = Vector::at_angle(radians);
    let side = along.left() * (0.5 * width_mm);
    let reach = along * (0.5 * (length_mm - width_mm));
    let (near, far) = (centre - reach, centre + reach);
    let arc = |to, centre| Segment::Arc { to, centre, counter_clockwise: false };
    Contour {
        segments: vec![
            Segment::Line { to: far + side },
            arc(far - side, far),
            Segment::Line { to: near - side },
            arc(near + side, near),
        ],
    }
}

fn rectangle(centre: Point, length_mm: f64, width_mm: f64, radius_mm: f64) -> Contour {
    let (x, y) = (0.5 * length_mm, 0.5 * width_mm);
    let corners = [(-x, y), (x, y), (x, -y), (-x, -y)].map(|(dx, dy)| centre + Vector::new(dx, dy));
    if radius_mm <= 0.0 {
        return Contour::polygon(&corners);
    }
    let mut segments = Vec::new();
    for number in 0..4 {
        let (before, here, after) = (corners[(number + 3) % 4], corners[number], corners[(number + 1) % 4]);
        let (back, ahead) = ((before - here).unit() * radius_mm, (after - here).unit() * radius_mm);
        segments.push(Segment::Line { to: here + back });
        segments.push(Segment::Arc {
            to: here + ahead,
            centre: here + back + ahead,
            counter_clockwise: false,
        });
    }
    Contour { segments }
}
