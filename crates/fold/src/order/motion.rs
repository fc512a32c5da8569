//! How the two sides of the sheet move while one bend is made.
//!
//! Machine coordinates in side view, mm: x from the back of the machine to its front with 0 at the bend line of the
//! flat sheet, y up from the lower side of the sheet (press: from the top of the die).

use geometry::{Point, Vector, trig};

/// A rigid place in the side view: images of the unit vectors and of the origin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Placed {
    origin: Point,
    across: Vector,
    up: Vector,
}

/// The sizes of one bend that its motion depends on, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Motion {
    /// Half the V opening on a press brake; `None` on a folder, where the back is clamped.
    pub(super) half_v_mm: Option<f64>,
    /// Thickness.
    pub(super) thickness_mm: f64,
    /// Inside radius.
    pub(super) radius_mm: f64,
    /// Radius of the neutral line.
    pub(super) neutral_mm: f64,
    /// Width of the bend zone.
    pub(super) zone_mm: f64,
}

impl Placed {
    /// Where it already is.
    pub(super) const STILL: Self =
        Self { origin: Point::new(0.0, 0.0), across: Vector::new(1.0, 0.0), up: Vector::new(0.0, 1.0) };

    /// Moved by `by`.
    pub(super) fn shifted(by: Vector) -> Self {
        Self { origin: Point::default() + by, ..Self::STILL }
    }

    /// The place of a point.
    pub(super) fn place(&self, x_mm: f64, y_mm: f64) -> Point {
        self.origin + self.across * x_mm + self.up * y_mm
    }
}

impl Motion {
    /// Where the metal behind the bend line is at a turn of `turn_rad`.
    pub(super) fn back(&self, turn_rad: f64) -> Placed {
        match self.half_v_mm {
            None => Placed::STILL,
            Some(half_v) => {
                let front = self.in_v(half_v, turn_rad);
                let mirrored = |v: Vector| Vector::new(-v.x, v.y);
                Placed {
                    origin: Point::new(-front.origin.x, front.origin.y),
                    across: -mirrored(front.across),
                    up: mirrored(front.up),
                }
            }
        }
    }

    /// Where the metal before the bend line is.
    pub(super) fn front(&self, turn_rad: f64) -> Placed {
        match self.half_v_mm {
            Some(half_v) => self.in_v(half_v, turn_rad),
            None => self.beyond_clamp(turn_rad),
        }
    }

    /// What the bend's own movement in the V adds to the way of a point, per radian, mm.
    pub(super) fn spare_mm(&self) -> f64 {
        self.half_v_mm.unwrap_or(0.0) * 2.0 + 2.0 * (self.radius_mm + self.thickness_mm)
    }

    /// Where the tip of the punch is: on the inside of the bend.
    pub(super) fn tip(&self, turn_rad: f64) -> Point {
        let half_v = self.half_v_mm.unwrap_or(0.0);
        let half = 0.5 * turn_rad;
        let rise = (self.radius_mm + self.thickness_mm) / trig::cos(half) - self.radius_mm;
        Point::new(0.0, rise - half_v * trig::tan(half))
    }

    /// Both legs rest on the edges of the V, so the outsides meet below the die's top by half the opening times the
    /// tangent of half the turn.
    fn in_v(&self, half_v: f64, turn_rad: f64) -> Placed {
        let half = 0.5 * turn_rad;
        let (across, up) = axes(half);
        let slope = trig::tan(half);
        let mold = Point::new(0.0, -half_v * slope);
        let setback = (self.radius_mm + self.thickness_mm) * slope;
        Placed { origin: mold + across * (setback - half * self.neutral_mm), across, up }
    }

    /// The leaf rolls the sheet about the arc that begins where the clamp ends.
    fn beyond_clamp(&self, turn_rad: f64) -> Placed {
        let outer = self.radius_mm + self.thickness_mm;
        let nose = -0.5 * self.zone_mm;
        let (across, up) = axes(turn_rad);
        let start = Point::new(nose, outer) - up * outer;
        Placed { origin: start - across * (nose + turn_rad * self.neutral_mm), across, up }
    }
}

fn axes(turn_rad: f64) -> (Vector, Vector) {
    let across = Vector::at_angle(turn_rad);
    (across, across.left())
}

#[cfg(test)]
mod tests {
    use super::*;

    const PRESS: Motion = Motion {
        half_v_mm: Some(12.0),
        thickness_mm: 3.0,
        radius_mm: 3.0,
        neutral_mm: 4.2,
        zone_mm: 4.2 * std::f64::consts::FRAC_PI_2,
    };

    #[test]
    fn a_square_bend_in_a_v_stands_at_half_a_quarter_turn_on_both_sides() {
        let turn = std::f64::consts::FRAC_PI_2;
        let (back, front) = (PRESS.back(turn), PRESS.front(turn));
        for distance in [20.0, 100.0] {
            let (left, right) = (back.place(-distance, 0.0), front.place(distance, 0.0));
            assert!((left.x + right.x).abs() < 1e-9 && (left.y - right.y).abs() < 1e-9);
            // The outside leg passes the edge of the V at (12, 0), rising at 45 degrees.
            assert!((right.y - (right.x - 12.0)).abs() < 1e-9, "{right:?}");
        }
        let flat = PRESS.front(0.0);
        assert!(flat.place(7.0, 2.0).distance(Point::new(7.0, 2.0)) < 1e-9);
    }

    #[test]
    fn a_square_bend_on_a_folder_stands_upright() {
        let folder = Motion { half_v_mm: None, ..PRESS };
        let front = folder.front(std::f64::consts::FRAC_PI_2);
        // The outer side stands R + T before the end of the clamp.
        let expected = -0.5 * folder.zone_mm + 6.0;
        for height in [20.0, 50.0] {
            assert!((front.place(height, 0.0).x - expected).abs() < 1e-9);
        }
        let far = front.place(0.5 * folder.zone_mm, 0.0);
        assert!((far.y - 6.0).abs() < 1e-9, "the far tangent line lies R + T up: {far:?}");
    }
}
