//! Places on what is seen of a side, for words that stand on it or lead to it.

use geometry::{Point, Vector};

/// Places spread evenly over an upright rectangle, so many each way.
pub(crate) fn grid((low, high): (Point, Point), steps: u32) -> impl Iterator<Item = Point> {
    let share = move |k: u32| (f64::from(k) + 0.5) / f64::from(steps);
    let pairs = (0..steps).flat_map(move |i| (0..steps).map(move |k| (share(i), share(k))));
    pairs.map(move |(x, y)| Point::new(low.x + (high.x - low.x) * x, low.y + (high.y - low.y) * y))
}

/// The middle of places.
pub(crate) fn middle(places: &[Point]) -> Point {
    let count = f64::from(u32::try_from(places.len()).unwrap_or(u32::MAX));
    let sum = places.iter().fold(Vector::default(), |sum, &place| sum + (place - Point::default()));
    Point::default() + sum * (1.0 / count)
}

/// The place nearest to the middle of all that `fits`, the middle itself first.
pub(crate) fn nearest_to_middle(places: &[Point], fits: impl Fn(&Point) -> bool) -> Option<Point> {
    let middle = middle(places);
    let off = |place: &Point| place.distance(middle);
    let fitting = std::iter::once(&middle).chain(places).filter(|place| fits(place));
    fitting.min_by(|a, b| off(a).total_cmp(&off(b))).copied()
}

/// A few of many places, spread over them.
pub(crate) fn spread(places: &[Point]) -> Vec<Point> {
    let count = places.len();
    [count / 2, count / 4, 3 * count / 4].into_iter().filter_map(|at| places.get(at).copied()).collect()
}
