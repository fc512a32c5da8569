//! How a whole of several pieces stands, and how a tape proves it once they are together.

use geometry::{Frame, Point3, Vector3};

use crate::{Figure, Making};

/// The frames with the numbers of their pieces.
pub(crate) fn numbered(roots: impl IntoIterator<Item = Frame>) -> Vec<(usize, Frame)> {
    roots.into_iter().enumerate().collect()
}

/// A frame of a side view, y up and z toward who looks at it, as it stands on the ground: z up.
pub(crate) fn stood_up(frame: Frame) -> Frame {
    let turned = |vector: Vector3| Vector3::new(vector.x, -vector.z, vector.y);
    Frame {
        origin: Point3::default() + turned(frame.origin - Point3::default()),
        x: turned(frame.x),
        y: turned(frame.y),
        z: turned(frame.z),
    }
}

/// "AB 72, BC 42, CD 72, DA 42; diagonals A to C 83 3/8, B to D 83 3/8": every side, and both diagonals of four corners, of more
/// corners those from the first.
pub(crate) fn sides_words(figure: &Figure, making: &Making) -> String {
    let side =
        |number: usize| format!("{} {}", figure.sides[number], making.print_mm(figure.side_mm(number)));
    let count = figure.count();
    let sides: Vec<String> = (0..count).map(side).collect();
    let pairs: Vec<(usize, usize)> = match count {
        4 => vec![(0, 2), (1, 3)],
        _ => (2..count.saturating_sub(1)).map(|to| (0, to)).collect(),
    };
    let diagonal = |(from, to): (usize, usize)| {
        let long_mm = figure.corners[from].distance(figure.corners[to]);
        format!("{} to {} {}", figure.names[from], figure.names[to], making.print_mm(long_mm))
    };
    let diagonals: Vec<String> = pairs.into_iter().map(diagonal).collect();
    if diagonals.is_empty() {
        sides.join(", ")
    } else {
        format!("{}; diagonals {}", sides.join(", "), diagonals.join(", "))
    }
}

/// "both 30 5/16 when it is square": the diagonals of a rectangle.
pub(crate) fn square_words([long_mm, wide_mm]: [f64; 2], making: &Making) -> String {
    format!("both {} when it is square", making.print_mm(geometry::trig::hypot(long_mm, wide_mm)))
}
