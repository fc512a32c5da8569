//! How far the size of a blank may be off when the shop's strips differ among themselves.

use geometry::{Point, Vector};

use super::FlatPattern;
use crate::bend::BendNumber;
use crate::part::Forming;

impl FlatPattern {
    /// The most by which length and width of the blank may be off, either way, when every bend zone is off by its
    /// [`BendNumber::spread_at_mm`] the same way, mm.
    ///
    /// A bend moves everything beyond it straight across its line, so in each direction the bends crossed on the way
    /// from one end of the blank to the other add up.
    #[must_use]
    pub fn spread_mm(&self, number: &BendNumber) -> (f64, f64) {
        let moved = self.moved_by_wider_zones(number);
        let shifted = |share: f64| {
            let faces = self.faces.iter().zip(&moved);
            let corners =
                faces.flat_map(move |(face, by)| face.corners.iter().map(move |&p| p + *by * share));
            extents(corners)
        };
        let (none, wider, narrower) = (shifted(0.0), shifted(1.0), shifted(-1.0));
        let most = |pick: fn(Vector) -> f64| {
            (pick(wider) - pick(none)).abs().max((pick(narrower) - pick(none)).abs())
        };
        (most(|size| size.x), most(|size| size.y))
    }

    /// How far each face moves when every zone is wider by its spread; the root stays.
    fn moved_by_wider_zones(&self, number: &BendNumber) -> Vec<Vector> {
        let mut moved = vec![Vector::new(0.0, 0.0); self.faces.len()];
        for bend in &self.bends {
            let spread_mm = match bend.forming {
                Forming::Rolled | Forming::Bumped(_) => {
                    number.spread_at_mm(bend.turn_rad, bend.inside_radius_mm)
                }
                Forming::Brake | Forming::Hem | Forming::Joggle(_) | Forming::Sprung => {
                    number.single_spread_mm(bend.turn_rad)
                }
            };
            moved[bend.child] = moved[bend.parent] + bend.across() * spread_mm;
        }
        moved
    }
}

/// Width and height of the smallest upright rectangle around the corners.
fn extents(corners: impl Iterator<Item = Point>) -> Vector {
    let start = (Point::new(f64::INFINITY, f64::INFINITY), Point::new(f64::NEG_INFINITY, f64::NEG_INFINITY));
    let (low, high) = corners.fold(start, |(low, high), p| {
        (Point::new(low.x.min(p.x), low.y.min(p.y)), Point::new(high.x.max(p.x), high.y.max(p.y)))
    });
    high - low
}
