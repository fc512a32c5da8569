//! Convex figures of the side view, and which stretch of a slab lies within one.

use geometry::{Point, Point3, Vector, Vector3, polygon, tolerance};

use super::motion::Placed;

/// A convex figure in side view, corners counter-clockwise, mm.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Convex(pub(super) Vec<Point>);

/// A convex slab of metal: corner i of `low` stands against corner i of `high`. In the bend's own coordinates x runs
/// from the back of the machine to its front, y up, z along the bend.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Slab {
    /// One face.
    pub(super) low: Vec<Point3>,
    /// The opposite face.
    pub(super) high: Vec<Point3>,
}

impl Convex {
    /// The smallest convex figure about `points` (monotone chain).
    pub(super) fn about(points: impl Iterator<Item = Point>) -> Self {
        let mut sorted: Vec<Point> = points.collect();
        sorted.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
        let lower = half_hull(sorted.iter().copied());
        let upper = half_hull(sorted.iter().rev().copied());
        let chain = |half: Vec<Point>| half.split_last().map(|(_, rest)| rest.to_vec()).unwrap_or_default();
        Self([chain(lower), chain(upper)].concat())
    }
}

impl Convex {
    /// How near to the bend line a figure comes, and how far it reaches from it, mm.
    pub(super) fn reach_mm(&self) -> (f64, f64) {
        (polygon::distance_outside_mm(&self.0, Point::default()), self.farthest_mm())
    }

    /// How far a figure reaches from the bend line, mm.
    pub(super) fn farthest_mm(&self) -> f64 {
        self.0.iter().map(|p| p.distance(Point::default())).fold(0.0, f64::max)
    }
}

/// Most corners of a figure whose gap is measured without a list in memory.
const CORNERS: usize = 24;

/// How far two convex figures, each where it is placed, stand apart at least, mm; below zero by how deep they lie in
/// one another. Corners counter-clockwise before placing, on either.
///
/// By the separating-axis theorem: the largest gap over all edge directions of both.
pub(super) fn placed_gap_mm(first: (&[Point], Placed), second: (&[Point], Placed)) -> f64 {
    let mut rooms = [[Point::default(); CORNERS]; 2];
    let [one, two] = &mut rooms;
    let (first, second) = (placed_in(one, first), placed_in(two, second));
    gap_beyond_edges(first, second).max(gap_beyond_edges(second, first))
}

/// The placed corners, in `room`; a figure of more corners is thinned, which never happens to slabs and bodies.
fn placed_in<'a>(room: &'a mut [Point; CORNERS], (corners, placed): (&[Point], Placed)) -> &'a [Point] {
    debug_assert!(corners.len() <= CORNERS, "{} corners", corners.len());
    let count = corners.len().min(CORNERS);
    for (place, corner) in room.iter_mut().zip(corners) {
        *place = placed.place(corner.x, corner.y);
    }
    &room[..count]
}

fn gap_beyond_edges(own: &[Point], other: &[Point]) -> f64 {
    let mut gap = f64::NEG_INFINITY;
    let mut from = own[own.len() - 1];
    for &to in own {
        let outward = (to - from).right();
        let length = outward.dot(outward).sqrt();
        if 0.0 < length {
            let nearest = other.iter().map(|p| (*p - from).dot(outward)).fold(f64::INFINITY, f64::min);
            gap = gap.max(nearest / length);
        }
        from = to;
    }
    gap
}

fn half_hull(points: impl Iterator<Item = Point>) -> Vec<Point> {
    let mut chain: Vec<Point> = Vec::new();
    for point in points {
        while let [.., a, b] = chain[..]
            && (b - a).cross(point - b) <= 0.0
        {
            chain.pop();
        }
        chain.push(point);
    }
    chain
}

impl Slab {
    /// All corners.
    pub(super) fn corners(&self) -> impl Iterator<Item = Point3> + '_ {
        self.low.iter().chain(&self.high).copied()
    }

    /// From where to where it lies along the bend, mm.
    pub(super) fn along_mm(&self) -> (f64, f64) {
        let none = (f64::INFINITY, f64::NEG_INFINITY);
        self.corners().fold(none, |(low, high), corner| (low.min(corner.z), high.max(corner.z)))
    }

    /// The slab with every corner moved by `place`.
    pub(super) fn placed(&self, place: impl Fn(Point3) -> Point3) -> Self {
        let all = |corners: &[Point3]| corners.iter().map(|p| place(*p)).collect();
        Self { low: all(&self.low), high: all(&self.high) }
    }

    /// The side view of the slab.
    pub(super) fn side_view(&self) -> Convex {
        Convex::about(self.corners().map(|p| Point::new(p.x, p.y)))
    }

    /// From where to where along the bend the slab lies deeper than `depth_mm` within `figure`; `None` where it
    /// nowhere does. A prism along the bend leaves a slab through its faces, so the faces alone tell, and of these only those
    /// that do not run along the bend themselves: no other bounds it in that direction.
    pub(super) fn stretch_within(&self, figure: &Convex, depth_mm: f64) -> Option<(f64, f64)> {
        let mut stretch: Option<(f64, f64)> = None;
        self.corners_within(figure, depth_mm, |corner| {
            let (low, high) = stretch.unwrap_or((corner.z, corner.z));
            stretch = Some((low.min(corner.z), high.max(corner.z)));
            false
        });
        stretch
    }

    /// True when the slab somewhere lies deeper than `depth_mm` within `figure`.
    pub(super) fn is_within(&self, figure: &Convex, depth_mm: f64) -> bool {
        self.corners_within(figure, depth_mm, |_| true)
    }

    /// Shows the corners of what lies deeper than `depth_mm` within `figure`, until one is enough. True when one was.
    fn corners_within(
        &self,
        figure: &Convex,
        depth_mm: f64,
        mut is_enough: impl FnMut(Point3) -> bool,
    ) -> bool {
        let mut cutting: Vec<(Point, Vector)> = Vec::with_capacity(figure.0.len());
        for (a, b) in polygon::edges(&figure.0) {
            let edge = (a, (b - a).unit().left());
            let (mut all, mut any) = (true, false);
            for corner in self.corners() {
                let is_inside = 0.0 < inside_mm(corner, edge, depth_mm);
                (all, any) = (all && is_inside, any || is_inside);
            }
            if !any {
                return false;
            }
            // An edge that the whole slab lies within cuts none of its faces.
            if !all {
                cutting.push(edge);
            }
        }
        let room = self.low.len().max(4) + cutting.len();
        let (mut face, mut kept) = (Vec::with_capacity(room), Vec::with_capacity(room));
        (0..self.low.len() + 2).any(|number| {
            self.face_into(number, &mut face);
            if is_edge_on(&face) {
                return false;
            }
            for edge in &cutting {
                clip(&face, *edge, depth_mm, &mut kept);
                std::mem::swap(&mut face, &mut kept);
                if face.is_empty() {
                    return false;
                }
            }
            face.iter().any(|corner| is_enough(*corner))
        })
    }

    /// The cut of the slab square across the bend at `station_mm`; empty where it does not reach.
    pub(super) fn section(&self, station_mm: f64) -> Convex {
        let crossings = self.faces().flat_map(|face| {
            let next = face.iter().copied().cycle().skip(1);
            let pairs: Vec<(Point3, Point3)> = face.iter().copied().zip(next).collect();
            pairs.into_iter().filter_map(|(a, b)| {
                let (from, to) = (a.z - station_mm, b.z - station_mm);
                let share = from / (from - to);
                ((from > 0.0) != (to > 0.0)).then(|| {
                    let p = a.toward(b, share);
                    Point::new(p.x, p.y)
                })
            })
        });
        Convex::about(crossings)
    }

    fn faces(&self) -> impl Iterator<Item = Vec<Point3>> + '_ {
        (0..self.low.len() + 2).map(|number| {
            let mut face = Vec::new();
            self.face_into(number, &mut face);
            face
        })
    }

    /// Fills `face` with the corners of one face: low, high, then the sides.
    fn face_into(&self, number: usize, face: &mut Vec<Point3>) {
        face.clear();
        match number {
            0 => face.extend(&self.low),
            1 => face.extend(&self.high),
            _ => {
                let (this, next) = (number - 2, (number - 1) % self.low.len());
                face.extend([self.low[this], self.low[next], self.high[next], self.high[this]]);
            }
        }
    }
}

/// True for a plane polygon that runs along the bend, which the side view shows as a line.
fn is_edge_on(face: &[Point3]) -> bool {
    let Some(&from) = face.first() else { return true };
    let spokes = || face.iter().skip(1).map(|p| *p - from);
    let normal = spokes().zip(spokes().skip(1)).fold(Vector3::default(), |sum, (a, b)| sum + a.cross(b));
    let least = tolerance::PARALLEL_SINE * tolerance::PARALLEL_SINE * normal.dot(normal);
    normal.z * normal.z <= least
}

/// How much farther than `depth_mm` a point lies inward of an edge, given by a place on it and its direction inward, mm.
fn inside_mm(p: Point3, (place, inward): (Point, Vector), depth_mm: f64) -> f64 {
    (Point::new(p.x, p.y) - place).dot(inward) - depth_mm
}

/// Puts into `kept` what of a plane polygon in space lies farther than `depth_mm` inward of an edge, given by a place on
/// it and its direction inward.
fn clip(face: &[Point3], edge: (Point, Vector), depth_mm: f64, kept: &mut Vec<Point3>) {
    let inside = |p: Point3| inside_mm(p, edge, depth_mm);
    kept.clear();
    let Some(&(mut from)) = face.first() else { return };
    let first = (from, inside(from));
    let mut here = first.1;
    for next in 1..=face.len() {
        let (to, there) = face.get(next).map_or(first, |&to| (to, inside(to)));
        if here > 0.0 {
            kept.push(from);
        }
        if (here > 0.0) != (there > 0.0) {
            kept.push(from.toward(to, here / (here - there)));
        }
        (from, here) = (to, there);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(low: f64, high: f64) -> Convex {
        Convex([(low, low), (high, low), (high, high), (low, high)].map(|(x, y)| Point::new(x, y)).to_vec())
    }

    #[test]
    fn gaps_and_depths_of_squares() {
        let gap = |first: &Convex, second: &Convex| {
            placed_gap_mm((&first.0, Placed::STILL), (&second.0, Placed::STILL))
        };
        assert!((gap(&square(0.0, 10.0), &square(12.0, 20.0)) - 2.0).abs() < 1e-9);
        assert!((gap(&square(0.0, 10.0), &square(9.0, 20.0)) + 1.0).abs() < 1e-9);
    }

    #[test]
    fn a_plate_across_a_bar_is_met_over_its_own_width() {
        let corner = |x: f64, z: f64, y: f64| Point3::new(x, y, z);
        let ring = |y: f64| {
            vec![corner(-50.0, 3.0, y), corner(50.0, 3.0, y), corner(50.0, 7.0, y), corner(-50.0, 7.0, y)]
        };
        let plate = Slab { low: ring(1.0), high: ring(2.0) };
        let (low, high) = plate.stretch_within(&square(0.0, 10.0), 0.01).unwrap();
        assert!((low - 3.0).abs() < 1e-9 && (high - 7.0).abs() < 1e-9);
        assert_eq!(plate.stretch_within(&square(3.0, 10.0), 0.01), None);
    }

    #[test]
    fn a_hull_leaves_out_inner_points() {
        let points = square(0.0, 10.0).0.into_iter().chain([Point::new(5.0, 5.0)]);
        assert_eq!(Convex::about(points).0.len(), 4);
    }
}
