//! Do two pieces keep the gap? Exact, in words of its own: the search asks [`crate::clear`], never this.
//!
//! With a gap: no two edges are nearer than the gap, and no ring of one lies in the metal of the other. Without one, no
//! two edges may cross, and every edge is cut where corners of the other piece touch it. What is left of it lies wholly
//! in the other's metal, or off it, or along its border; the middle tells which. Along the border the two overlap when
//! both edges run the same way, since every edge has its metal on the left. Middles of whole numbers are halves, so there
//! all coordinates are doubled.

use geometry::grid::{GridOutline, GridPoint, ring_edges};

/// A place in steps, or in half steps.
type Place = (i128, i128);

/// An edge, its metal on the left.
#[derive(Clone, Copy)]
struct Edge {
    from: Place,
    to: Place,
}

/// True when no metal of one piece is nearer to metal of the other than `gap` steps. Exactly the gap is allowed; with a
/// gap of 0 touching is allowed and overlap is not.
#[must_use]
pub fn keeps_gap(first: &GridOutline, second: &GridOutline, gap: i64) -> bool {
    let keep = i128::from(gap);
    let (ours, theirs) = (edges(first), edges(second));
    if away(around(&ours), around(&theirs), keep) {
        return true;
    }
    let (near_them, near_us) = (nearing(&ours, &theirs, keep), nearing(&theirs, &ours, keep));
    let nearest = near_them.iter().flat_map(|&one| near_us.iter().map(move |&other| (one, other)));
    if nearest.filter(|&(one, other)| !away(box_of(one), box_of(other), keep)).any(too_near(keep)) {
        return false;
    }
    if 0 < gap {
        !enters(first, &theirs) && !enters(second, &ours)
    } else {
        let (ours, theirs) = (in_half_steps(&ours), in_half_steps(&theirs));
        !runs_into(&ours, &theirs) && !runs_into(&theirs, &ours)
    }
}

fn edges(outline: &GridOutline) -> Vec<Edge> {
    outline.rings().flat_map(ring_edges).map(|(from, to)| Edge { from: place(from), to: place(to) }).collect()
}

fn place(point: GridPoint) -> Place {
    (i128::from(point.x), i128::from(point.y))
}

fn in_half_steps(edges: &[Edge]) -> Vec<Edge> {
    let doubled = |(x, y): Place| (2 * x, 2 * y);
    edges.iter().map(|edge| Edge { from: doubled(edge.from), to: doubled(edge.to) }).collect()
}

fn box_of(Edge { from, to }: Edge) -> [Place; 2] {
    [(from.0.min(to.0), from.1.min(to.1)), (from.0.max(to.0), from.1.max(to.1))]
}

fn around(edges: &[Edge]) -> [Place; 2] {
    let joined =
        |[a, b]: [Place; 2], [c, d]: [Place; 2]| [(a.0.min(c.0), a.1.min(c.1)), (b.0.max(d.0), b.1.max(d.1))];
    let none = [(i128::MAX, i128::MAX), (i128::MIN, i128::MIN)];
    edges.iter().map(|&edge| box_of(edge)).fold(none, joined)
}

/// Those of our edges that are no farther than `keep` from the rectangle around theirs: all others can neither touch theirs nor
/// enter their metal.
fn nearing(ours: &[Edge], theirs: &[Edge], keep: i128) -> Vec<Edge> {
    let around = around(theirs);
    ours.iter().copied().filter(|&edge| !away(box_of(edge), around, keep.max(1))).collect()
}

/// True when two upright rectangles are `keep` or more apart along x or along y.
fn away([low, high]: [Place; 2], [other_low, other_high]: [Place; 2], keep: i128) -> bool {
    let along_x = (other_low.0 - high.0).max(low.0 - other_high.0);
    let along_y = (other_low.1 - high.1).max(low.1 - other_high.1);
    keep <= along_x.max(along_y)
}

/// Tells whether two edges cross in the midst of both, or an end of one is nearer to the other than `keep`.
fn too_near(keep: i128) -> impl Fn((Edge, Edge)) -> bool {
    let ends_near =
        move |one: Edge, other: Edge| is_nearer(one.from, other, keep) || is_nearer(one.to, other, keep);
    move |(one, other)| cross_amid(one, other) || ends_near(one, other) || ends_near(other, one)
}

fn less(a: Place, b: Place) -> Place {
    (a.0 - b.0, a.1 - b.1)
}

fn turn(a: Place, b: Place) -> i128 {
    a.0 * b.1 - a.1 * b.0
}

fn along(a: Place, b: Place) -> i128 {
    a.0 * b.0 + a.1 * b.1
}

/// The two meet at shares s and t of their ways, both between 0 and 1; solved by Cramer's rule.
fn cross_amid(one: Edge, other: Edge) -> bool {
    let (way, other_way, between) =
        (less(one.to, one.from), less(other.to, other.from), less(other.from, one.from));
    let whole = turn(way, other_way);
    let (s, t) = (turn(between, other_way) * whole.signum(), turn(between, way) * whole.signum());
    whole != 0 && 0 < s && s < whole.abs() && 0 < t && t < whole.abs()
}

/// Distances are compared squared, and multiplied by the squared length of the edge where they are square to it.
fn is_nearer(point: Place, edge: Edge, keep: i128) -> bool {
    let (way, reach, back) = (less(edge.to, edge.from), less(point, edge.from), less(point, edge.to));
    if along(reach, way) <= 0 {
        along(reach, reach) < keep * keep
    } else if 0 <= along(back, way) {
        along(back, back) < keep * keep
    } else {
        turn(way, reach).pow(2) < keep * keep * along(way, way)
    }
}

/// True when some ring of the piece begins in metal with these edges; its border stays off theirs.
fn enters(piece: &GridOutline, metal: &[Edge]) -> bool {
    piece.rings().filter_map(|ring| ring.first()).any(|&corner| is_in_metal(place(corner), metal))
}

/// An odd number of borders lies to the right of what lies in metal. The place is on none of them.
fn is_in_metal(place: Place, metal: &[Edge]) -> bool {
    let right_of_it = |edge: &&Edge| {
        let rises = edge.from.1 < edge.to.1;
        let spans = (edge.from.1 <= place.1) != (edge.to.1 <= place.1);
        let side = turn(less(edge.to, edge.from), less(place, edge.from));
        spans && side != 0 && (0 < side) == rises
    };
    metal.iter().filter(right_of_it).count() % 2 == 1
}

/// True when a stretch of our edges runs through their metal, or along their border on the same side of it. No two edges
/// cross in the midst of both.
fn runs_into(ours: &[Edge], theirs: &[Edge]) -> bool {
    let mut near = nearing(ours, theirs, 0).into_iter();
    near.any(|edge| stretches(edge, theirs).any(|middle| overlaps_at(middle, edge, theirs)))
}

/// Middles of the stretches between the places at which corners of theirs touch an edge. All in half steps of whole
/// corners, so that middles are whole.
fn stretches(edge: Edge, theirs: &[Edge]) -> impl Iterator<Item = Place> {
    let way = less(edge.to, edge.from);
    let mut touched: Vec<Place> =
        theirs.iter().map(|other| other.from).filter(|&corner| is_on(corner, edge)).collect();
    touched.extend([edge.from, edge.to]);
    touched.sort_by_key(|&place| along(less(place, edge.from), way));
    touched.dedup();
    let middle = |pair: &[Place]| ((pair[0].0 + pair[1].0) / 2, (pair[0].1 + pair[1].1) / 2);
    touched.windows(2).map(middle).collect::<Vec<Place>>().into_iter()
}

fn is_on(place: Place, edge: Edge) -> bool {
    let (way, reach) = (less(edge.to, edge.from), less(place, edge.from));
    turn(way, reach) == 0 && 0 <= along(way, reach) && along(way, reach) <= along(way, way)
}

fn overlaps_at(middle: Place, edge: Edge, theirs: &[Edge]) -> bool {
    let mut along_it = theirs.iter().filter(|other| is_on(middle, **other)).peekable();
    if along_it.peek().is_none() {
        return is_in_metal(middle, theirs);
    }
    let way = less(edge.to, edge.from);
    along_it.any(|other| 0 < along(way, less(other.to, other.from)))
}
