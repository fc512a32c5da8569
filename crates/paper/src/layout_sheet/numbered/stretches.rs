//! Stretches of a part, each so small that the numbers of its holes stand beside them on paper.

use geometry::Point;

use super::Place;

/// From rim to rim for numbers of one, two and three figures, mm of paper: the number, and beside it as much again as lets nobody
/// take it for its neighbour's.
const RIMS_APART_MM: [f64; 3] = [4.8, 6.3, 7.8];

/// Holes that touch or cut one another count as this far apart, mm.
const LEAST_APART_MM: f64 = 0.01;

/// A hole of this radius on paper, mm, holds its number.
pub(super) const HOLDS_NUMBER_MM: f64 = 3.6;

/// Never drawn larger than this, times full size.
const MOST_ENLARGED: f64 = 4.0;

/// Numbers of corners need so much of the room that those of holes need, and no stretch is enlarged beyond this for them: what
/// lies closer has its number on a leader.
const EDGE_SHARE: f64 = 0.7;
const MOST_OF_EDGES: f64 = 1.0;

/// So large a share of the places of a stretch may have its number on a leader.
const ON_LEADERS: f64 = 0.02;

/// Cut at the most so often.
const DEEPEST: u32 = 9;

/// An upright rectangle of the flat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stretch {
    pub(super) low: Point,
    pub(super) high: Point,
}

impl Stretch {
    pub(super) fn holds(&self, at: Point) -> bool {
        (self.low.x..self.high.x).contains(&at.x) && (self.low.y..self.high.y).contains(&at.y)
    }

    /// What of it lies in another one.
    pub(super) const fn within(&self, other: Self) -> Self {
        Self {
            low: Point::new(self.low.x.max(other.low.x), self.low.y.max(other.low.y)),
            high: Point::new(self.high.x.min(other.high.x), self.high.y.min(other.high.y)),
        }
    }

    /// Paper millimetres to a millimetre of the part where it fills this width and height, mm.
    pub(super) fn scale(&self, (wide, high): (f64, f64)) -> f64 {
        let (width, height) = (self.high.x - self.low.x, self.high.y - self.low.y);
        (wide / width).min(high / height).min(MOST_ENLARGED)
    }
}

/// The stretches of a part of this extent with a place in them, in order from the datum edge.
pub(super) fn of(places: &[Place], (width, height): (f64, f64), room: (f64, f64)) -> Vec<Stretch> {
    let needed = needed_scales(places);
    let all: Vec<(Point, f64)> = places.iter().map(|place| place.at).zip(needed).collect();
    let whole = Stretch { low: Point::new(-1.0, -1.0), high: Point::new(width + 1.0, height + 1.0) };
    let mut found = Vec::new();
    let largest_mm = places.iter().map(|place| place.radius_mm).fold(0.0, f64::max);
    part(whole, &all, (room, largest_mm), 0, &mut found);
    found
}

/// The scale at which the number of each place has room beside it, or in it.
fn needed_scales(places: &[Place]) -> Vec<f64> {
    let one = |place: &Place| {
        let rims_apart_mm = match place.number {
            0..=9 => RIMS_APART_MM[0],
            10..=99 => RIMS_APART_MM[1],
            _ => RIMS_APART_MM[2],
        };
        let others = places.iter().filter(|other| other.number != place.number);
        let beside = others.map(|other| {
            let rims = place.at.distance(other.at) - place.radius_mm - other.radius_mm;
            rims_apart_mm / rims.max(LEAST_APART_MM)
        });
        let beside = beside.fold(0.0, f64::max);
        if place.is_on_edge {
            // Round a corner there are many ways off it for its number.
            return (EDGE_SHARE * beside).min(MOST_OF_EDGES);
        }
        let inside = if 0.0 < place.radius_mm { HOLDS_NUMBER_MM / place.radius_mm } else { f64::INFINITY };
        beside.min(inside)
    };
    places.iter().map(one).collect()
}

/// Parts a stretch until its numbers have room.
fn part(
    stretch: Stretch,
    places: &[(Point, f64)],
    (room, largest_mm): ((f64, f64), f64),
    depth: u32,
    found: &mut Vec<Stretch>,
) {
    if places.is_empty() {
        return;
    }
    let scale = stretch.scale(room);
    let count = |places: usize| u32::try_from(places).map_or(f64::INFINITY, f64::from);
    let tight = places.iter().filter(|(_, needed)| scale < *needed).count();
    let is_done = count(tight) <= (ON_LEADERS * count(places.len())).max(2.0);
    if is_done || MOST_ENLARGED <= scale || depth == DEEPEST {
        found.push(stretch);
        return;
    }
    let (width, height) = (stretch.high.x - stretch.low.x, stretch.high.y - stretch.low.y);
    let across = room.0 * height <= room.1 * width;
    let way = |at: Point| if across { at.x } else { at.y };
    let along = places.iter().map(|(at, _)| way(*at));
    let cut = widest_gap(along, (way(stretch.low), way(stretch.high)), largest_mm);
    let corner = |along: f64, other: Point| {
        if across { Point::new(along, other.y) } else { Point::new(other.x, along) }
    };
    let (first, last) = (
        Stretch { high: corner(cut, stretch.high), ..stretch },
        Stretch { low: corner(cut, stretch.low), ..stretch },
    );
    for half in [first, last] {
        let own: Vec<(Point, f64)> = places.iter().filter(|(at, _)| half.holds(*at)).copied().collect();
        part(half, &own, (room, largest_mm), depth + 1, found);
    }
}

/// In the widest gap between places in the middle third, where a cut runs through no hole if there is such a way. It lies near the
/// farther places, whose rims are `largest_mm` from them at the most: numbers stand right of their holes and over them.
fn widest_gap(places: impl Iterator<Item = f64>, (low, high): (f64, f64), largest_mm: f64) -> f64 {
    let third = (high - low) / 3.0;
    let (begin, end) = (low + third, high - third);
    let mut along: Vec<f64> = places.filter(|at| (begin..end).contains(at)).collect();
    along.extend([begin, end]);
    along.sort_by(f64::total_cmp);
    let middle = 0.5 * (low + high);
    let mut best = (0.0, middle, middle);
    for pair in along.windows(2) {
        let (gap, at) = (pair[1] - pair[0], 0.5 * (pair[0] + pair[1]));
        let nearer = (at - middle).abs() < (best.1 - middle).abs();
        if best.0 + 0.5 < gap || (best.0 - 0.5 < gap && nearer) {
            best = (gap, at, pair[1] - (0.5 * gap).min(1.1 * largest_mm + 0.1 * gap));
        }
    }
    best.2
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(count: u32, pitch: f64) -> Vec<Place> {
        let place = |k: u32| Place {
            number: usize::try_from(k).unwrap() + 1,
            at: Point::new(pitch * f64::from(k + 1), 50.0),
            radius_mm: 3.0,
            what: String::new(),
            off: None,
            is_on_edge: false,
        };
        (0..count).map(place).collect()
    }

    #[test]
    fn a_long_row_is_cut_between_its_holes_until_numbers_have_room() {
        let (places, room) = (row(150, 76.0), (180.0, 100.0));
        let stretches = of(&places, (11_600.0, 100.0), room);
        assert!(4 <= stretches.len(), "{stretches:?}");
        for place in &places {
            assert_eq!(stretches.iter().filter(|stretch| stretch.holds(place.at)).count(), 1);
        }
        assert!(stretches.iter().all(|stretch| RIMS_APART_MM[1] <= 76.0 * stretch.scale(room)));
        for cut in stretches.iter().skip(1).map(|stretch| stretch.low.x) {
            assert!(places.iter().all(|place| place.radius_mm < (place.at.x - cut).abs()), "{cut}");
        }
    }

    #[test]
    fn holes_with_room_stay_on_one_drawing() {
        assert_eq!(of(&row(20, 40.0), (900.0, 100.0), (180.0, 100.0)).len(), 1);
    }
}
