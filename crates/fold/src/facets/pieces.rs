//! The flat cut up along its tangent lines, and bend zones into strips; neighbours share their corners.

use geometry::outline::Chords;
use geometry::{Frame, Point, Point3, Polygon, Region, Vector, tolerance};

use super::{Place, STRIP_TURN_RAD};
use crate::flat::{BendLine, FlatPattern};
use crate::refold;

/// A piece of the flat that stays flat when folded, or a strip of a bend zone that is drawn flat.
pub(super) struct Piece {
    /// What it belongs to.
    pub(super) place: Place,
    /// Its corners by number: the outer ring counter-clockwise, holes clockwise.
    pub(super) rings: Vec<Vec<usize>>,
    folding: Folding,
}

/// The flat in pieces.
pub(super) struct Cut {
    /// Corners in the flat.
    pub(super) points: Vec<Point>,
    /// The pieces.
    pub(super) pieces: Vec<Piece>,
}

/// How a piece comes from the flat into space.
enum Folding {
    /// With its face.
    Rigid(Frame),
    /// Between two generators of a bend's arc.
    Strip(Box<Strip>),
}

/// A strip of a bend zone between two lines along the bend, by their distance from the near tangent line, mm.
struct Strip {
    near: Point,
    across: Vector,
    from_mm: f64,
    to_mm: f64,
    /// Places of the flat at either line.
    frames: [Frame; 2],
}

impl Piece {
    /// Where a point of the flat lies once folded, `z_mm` above the back.
    pub(super) fn fold(&self, point: Point, z_mm: f64) -> Point3 {
        match &self.folding {
            Folding::Rigid(frame) => frame.place(point, z_mm),
            Folding::Strip(strip) => strip.fold(point, z_mm),
        }
    }
}

impl Strip {
    fn fold(&self, point: Point, z_mm: f64) -> Point3 {
        let at = (point - self.near).dot(self.across);
        let moved = |to: f64| point + self.across * (to - at);
        let share = (at - self.from_mm) / (self.to_mm - self.from_mm);
        let [first, second] = &self.frames;
        first.place(moved(self.from_mm), z_mm).toward(second.place(moved(self.to_mm), z_mm), share)
    }
}

/// Cuts up `flat`, bends into strips of the turn that drawings have.
pub(super) fn cut(flat: &FlatPattern) -> Cut {
    let mut cut = apart(flat, |_| STRIP_TURN_RAD);
    cut.share_corners();
    cut
}

/// The same, every bend into strips of no more than `most_rad` turn, and neighbours not asked for one another's corners.
pub(super) fn apart(flat: &FlatPattern, most_rad: impl Fn(&BendLine) -> f64) -> Cut {
    let frames = refold::fold(flat);
    let whole = Region::of(&flat.outline.to_polygon(Chords::On));
    let mut cut = Cut { points: Vec::new(), pieces: Vec::new() };
    for (number, face) in flat.faces.iter().enumerate() {
        let region = if flat.bends.is_empty() { whole.clone() } else { within(&whole, &face.corners) };
        let folding = || Folding::Rigid(frames[number]);
        cut.add(&region, Place::Face(number), folding);
    }
    for (number, bend) in flat.bends.iter().enumerate() {
        let count = (bend.turn_rad / most_rad(bend)).ceil().max(1.0);
        strips(&mut cut, (&whole, flat), (number, bend), count, &frames[bend.parent]);
    }
    cut
}

fn within(whole: &Region, corners: &[Point]) -> Region {
    whole.intersection(&Region::of(&Polygon { outer: corners.to_vec(), holes: Vec::new() }))
}

/// Adds the strips of one bend zone, so many of them.
fn strips(
    cut: &mut Cut,
    (whole, flat): (&Region, &FlatPattern),
    (number, bend): (usize, &BendLine),
    count: f64,
    parent: &Frame,
) {
    let zone = within(whole, &flat.zones[number]);
    let start = bend.from - bend.across() * (0.5 * bend.zone_mm);
    // Every strip runs right across the flat: only what of it lies in the zone is taken.
    let (low, high) = flat.outline.bounds();
    let past = bend.along() * low.distance(high);
    let mut done = 0.0;
    while done < count {
        let shares = [done / count, (done + 1.0) / count];
        let [near, far] = shares.map(|share| start + bend.across() * (share * bend.zone_mm));
        let region = within(&zone, &[far + -past, far + past, near + past, near + -past]);
        let folding = || {
            let strip = Strip {
                near: start,
                across: bend.across(),
                from_mm: shares[0] * bend.zone_mm,
                to_mm: shares[1] * bend.zone_mm,
                frames: shares.map(|share| part_way(flat, bend, parent, share)),
            };
            Folding::Strip(Box::new(strip))
        };
        cut.add(&region, Place::Bend(number), folding);
        done += 1.0;
    }
}

/// The place of the flat beyond the first `share` of a bend.
fn part_way(flat: &FlatPattern, bend: &BendLine, parent: &Frame, share: f64) -> Frame {
    let back = bend.across() * (0.5 * bend.zone_mm * (share - 1.0));
    let first = BendLine {
        from: bend.from + back,
        to: bend.to + back,
        turn_rad: bend.turn_rad * share,
        zone_mm: bend.zone_mm * share,
        ..*bend
    };
    refold::beyond(parent, &first, flat)
}

impl Cut {
    fn add(&mut self, region: &Region, place: Place, folding: impl Fn() -> Folding) {
        for polygon in region.polygons() {
            let rings = std::iter::once(&polygon.outer).chain(&polygon.holes);
            let rings: Vec<Vec<usize>> =
                rings.map(|ring| self.ring(ring)).filter(|ring| 3 <= ring.len()).collect();
            if !rings.is_empty() {
                self.pieces.push(Piece { place, rings, folding: folding() });
            }
        }
    }

    fn ring(&mut self, corners: &[Point]) -> Vec<usize> {
        let mut ring: Vec<usize> = corners.iter().map(|&corner| self.number(corner)).collect();
        ring.dedup();
        while 1 < ring.len() && ring.first() == ring.last() {
            ring.pop();
        }
        ring
    }

    /// The number of a corner, new or known.
    fn number(&mut self, corner: Point) -> usize {
        let near = |known: &Point| known.distance(corner) <= tolerance::DRAWN_POINT_MM;
        self.points.iter().position(near).unwrap_or_else(|| {
            self.points.push(corner);
            self.points.len() - 1
        })
    }

    /// Puts every corner into all rings whose edges pass through it, so that neighbours have the same edges.
    fn share_corners(&mut self) {
        let points = &self.points;
        for ring in self.pieces.iter_mut().flat_map(|piece| &mut piece.rings) {
            let following = ring.iter().cycle().skip(1);
            let full = ring.iter().zip(following).flat_map(|(&a, &b)| {
                let mut passed = passed(points, a, b);
                passed.sort_by(|first, second| first.0.total_cmp(&second.0));
                std::iter::once(a).chain(passed.into_iter().map(|(_, number)| number))
            });
            *ring = full.collect();
        }
    }
}

/// The corners an edge passes through, with their share of the way.
fn passed(points: &[Point], a: usize, b: usize) -> Vec<(f64, usize)> {
    let (from, to) = (points[a], points[b]);
    let along = to - from;
    let squared = along.dot(along);
    let on_the_way = |(number, &point): (usize, &Point)| {
        let share = (point - from).dot(along) / squared;
        let inside = number != a && number != b && 0.0 < share && share < 1.0;
        let near = || point.distance(from.toward(to, share)) <= tolerance::DRAWN_POINT_MM;
        (inside && near()).then_some((share, number))
    };
    points.iter().enumerate().filter_map(on_the_way).collect()
}
