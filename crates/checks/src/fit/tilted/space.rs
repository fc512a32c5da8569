//! The space a part is tilted out of, in side view, and where the part may be at one tilt.
//!
//! The upper face of the deck, or the top of its coaming, is y = 0; the opening runs from x = 0 to its length. Below the
//! deck the space reaches past both ends of the opening and down to a floor.

use geometry::grid::{GridError, GridOutline, GridPoint, Turn};
use geometry::nofit::{self, Region};
use geometry::{Point, Polygon};

/// The space, millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Space {
    /// Length of the opening, along which the part is tilted.
    pub opening_mm: f64,
    /// What must stay free at each end of the opening.
    pub clearance_mm: f64,
    /// From the upper face of the deck or coaming down to its lower edge.
    pub deck_mm: f64,
    /// From there down to the floor.
    pub depth_mm: f64,
    /// How far the space below reaches past the first and the second end of the opening.
    pub reach_mm: [f64; 2],
    /// Clear height above the deck; as much as is wanted when not given.
    pub headroom_mm: Option<f64>,
}

/// Where the part may be at one tilt.
#[derive(Debug, Clone)]
pub(super) struct Slice {
    /// Pieces of the free places that do not hang together.
    pub(super) pieces: Vec<Region>,
    /// Height of the reference point at which the part rests on the floor, with the margin.
    pub(super) rest: i64,
    /// Height from which the whole part is above the deck, with the margin.
    pub(super) out: i64,
}

impl Space {
    /// Where a part may be with everything `margin_mm` further off than it must. The profile has its reference point at
    /// the origin.
    pub(super) fn slice(
        &self,
        profile: &GridOutline,
        turn: Turn,
        margin_mm: f64,
    ) -> Result<Slice, GridError> {
        let part = profile.turned(turn);
        let (low, high) = part.bounds();
        let steps = |millimetres: f64| GridPoint::near(Point::new(millimetres, 0.0)).x;
        let margin = steps(margin_mm);
        let span = (high.x - low.x).max(high.y - low.y);
        let rest = steps(-self.deck_mm - self.depth_mm) + margin - low.y;
        let out = margin - low.y;
        let top = self.headroom_mm.map_or(out + span, |headroom| steps(headroom) - margin - high.y);
        let (left, right) =
            (-steps(self.reach_mm[0]) - 2 * span, steps(self.opening_mm + self.reach_mm[1]) + 2 * span);
        let mut pieces = Vec::new();
        if rest <= top {
            let room = Region::upright(GridPoint::new(left, rest), GridPoint::new(right, top));
            let blocked: Vec<Region> = self
                .decks(margin_mm, span)
                .iter()
                .map(|deck| Ok(nofit::no_fit(&GridOutline::from_polygon(deck)?, &part)))
                .collect::<Result<_, GridError>>()?;
            pieces = room.without(blocked.iter().map(|region| (region, GridPoint::default()))).pieces();
        }
        Ok(Slice { pieces, rest, out })
    }

    /// The deck with the wall below it at either end, grown by the margin, out to beyond all reach.
    fn decks(&self, margin_mm: f64, span: i64) -> [Polygon; 2] {
        let far_mm = GridPoint::new(4 * span, 0).millimetres().x + self.opening_mm;
        let inner = self.clearance_mm + margin_mm;
        let ends = [(0.0, 1.0, self.reach_mm[0]), (self.opening_mm, -1.0, self.reach_mm[1])];
        ends.map(|(end, inward, reach)| {
            let x = |from_end: f64| end + inward * from_end;
            let (bottom, soffit) = (-self.deck_mm - self.depth_mm - far_mm, -self.deck_mm - margin_mm);
            let wall = (margin_mm - reach).min(inner);
            let corners = [
                (x(-far_mm - reach), bottom),
                (x(wall), bottom),
                (x(wall), soffit),
                (x(inner), soffit),
                (x(inner), margin_mm),
                (x(-far_mm - reach), margin_mm),
            ];
            let mut outer: Vec<Point> = corners.map(|(x, y)| Point::new(x, y)).to_vec();
            outer.dedup();
            Polygon { outer, holes: Vec::new() }
        })
    }

    /// The still things in the picture: both decks with their walls, the floor, and what is overhead.
    pub(super) fn drawn(&self, reach_mm: f64) -> Vec<(String, Vec<Point>)> {
        let (floor, soffit) = (-self.deck_mm - self.depth_mm, -self.deck_mm);
        let thick = 0.04 * reach_mm;
        let block = |from: f64, to: f64, low: f64, high: f64| {
            [(from, low), (to, low), (to, high), (from, high)].map(|(x, y)| Point::new(x, y)).to_vec()
        };
        let most = |reach: f64| reach.min(reach_mm);
        let (left, right) = (-most(self.reach_mm[0]), self.opening_mm + most(self.reach_mm[1]));
        let mut drawn = vec![
            ("deck".to_owned(), block(left - thick, 0.0, soffit, 0.0)),
            (String::new(), block(self.opening_mm, right + thick, soffit, 0.0)),
            (String::new(), block(left - thick, left, floor, soffit)),
            (String::new(), block(right, right + thick, floor, soffit)),
            ("floor".to_owned(), block(left - thick, right + thick, floor - thick, floor)),
        ];
        if let Some(headroom) = self.headroom_mm.filter(|headroom| *headroom <= 0.7 * reach_mm) {
            drawn.push(("overhead".to_owned(), block(left, right, headroom, headroom + thick)));
        }
        drawn
    }
}
