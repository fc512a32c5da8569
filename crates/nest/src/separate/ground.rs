//! Where pieces may lie while they are pulled apart: one rectangle, or several sheets side by side.
//!
//! Sheets lie along x, far enough from one another that pieces on different ones cannot overlap. So a piece moves
//! to another sheet as it moves to another place.

use crate::separate::Spot;
use crate::separate::table::Size;

/// An upright rectangle, or the places for a figure in one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Room {
    pub(crate) low: Spot,
    pub(crate) high: Spot,
}

/// The sheets.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Ground {
    rooms: Vec<Room>,
}

impl Ground {
    /// One rectangle with a corner at the origin.
    pub(crate) fn one(length: f64, width: f64) -> Self {
        Self { rooms: vec![Room { low: Spot::default(), high: Spot::new(length, width) }] }
    }

    /// Sheets of the given lengths and widths, `apart` from one another.
    pub(crate) fn side_by_side(sheets: impl Iterator<Item = (f64, f64)>, apart: f64) -> Self {
        let mut from = 0.0;
        let room = |(length, width): (f64, f64)| {
            let room = Room { low: Spot::new(from, 0.0), high: Spot::new(from + length, width) };
            from += length + apart;
            room
        };
        Self { rooms: sheets.map(room).collect() }
    }

    /// The sheets, from left to right.
    pub(crate) fn rooms(&self) -> &[Room] {
        &self.rooms
    }

    /// The shortest side of any sheet.
    pub(crate) fn shortest(&self) -> f64 {
        let sides = |room: &Room| (room.high.x - room.low.x).min(room.high.y - room.low.y);
        self.rooms.iter().map(sides).fold(f64::INFINITY, f64::min)
    }

    /// True when a figure fits some sheet.
    pub(crate) fn holds(&self, size: Size) -> bool {
        self.rooms.iter().any(|room| room.holds(size))
    }

    /// The nearest place at which a figure lies on a sheet; on the first, as far as it goes, when it fits none.
    pub(crate) fn kept_in(&self, size: Size, at: Spot) -> Spot {
        let places = self.rooms.iter().filter(|room| room.holds(size)).map(|room| room.places(size));
        nearest(places, at).unwrap_or_else(|| self.rooms[0].places(size).kept(at))
    }

    /// The places for a figure on every sheet that it fits; as far as it goes on the first when it fits none.
    pub(crate) fn places(&self, size: Size, places: &mut Vec<Room>) {
        places.clear();
        places.extend(self.rooms.iter().filter(|room| room.holds(size)).map(|room| room.places(size)));
        if places.is_empty() {
            places.push(self.rooms[0].places(size));
        }
    }

    /// Which sheet a place lies on.
    pub(crate) fn room_at(&self, at: Spot) -> usize {
        self.rooms.iter().rposition(|room| room.low.x <= at.x).unwrap_or(0)
    }
}

impl Room {
    fn holds(&self, size: Size) -> bool {
        size.length <= self.high.x - self.low.x && size.width <= self.high.y - self.low.y
    }

    fn places(&self, size: Size) -> Self {
        let high = Spot::new(self.high.x - size.length, self.high.y - size.width);
        Self { low: self.low, high: Spot::new(high.x.max(self.low.x), high.y.max(self.low.y)) }
    }

    #[inline]
    pub(crate) const fn kept(&self, at: Spot) -> Spot {
        Spot::new(at.x.clamp(self.low.x, self.high.x), at.y.clamp(self.low.y, self.high.y))
    }
}

/// The nearest of the places in several rectangles.
#[inline]
pub(crate) fn nearest(rooms: impl Iterator<Item = Room>, at: Spot) -> Option<Spot> {
    let mut best: Option<(f64, Spot)> = None;
    for kept in rooms.map(|room| room.kept(at)) {
        let way = kept - at;
        let far = way.x * way.x + way.y * way.y;
        if best.is_none_or(|(known, _)| far < known) {
            best = Some((far, kept));
        }
    }
    best.map(|(_, kept)| kept)
}
