//! How far a leg reaches from its bend, and where a notch or a step leaves less of it.

use fold::part::Face;
use geometry::{Point, polygon, tolerance};

/// Sides of a notch or of a mitre run out more steeply than this: 45°.
const STEEP: f64 = 1.0 - tolerance::PARALLEL_SINE;

/// More of the bend than this is no notch: the leg itself is short.
const MOST_OF_LEG: f64 = 0.5;

/// A place where a leg reaches less far than elsewhere.
pub(super) struct Low {
    /// How wide it is along the bend, mm.
    pub(super) wide_mm: f64,
    /// How far the leg reaches there at the least, mm.
    pub(super) reach_mm: f64,
    /// At an end of the leg; else a notch in it.
    pub(super) at_end: bool,
}

/// A stretch along the bend over which the far edge is one straight: its ends, and how far the leg reaches at both, mm.
#[derive(Clone, Copy)]
struct Stretch {
    from: f64,
    to: f64,
    reach: [f64; 2],
}

impl Stretch {
    const fn wide(&self) -> f64 {
        self.to - self.from
    }

    fn least(&self) -> f64 {
        self.reach[0].min(self.reach[1])
    }

    fn most(&self) -> f64 {
        self.reach[0].max(self.reach[1])
    }

    /// The side of a notch, or a cut that comes from the mold line itself, as a mitre does.
    fn is_side(&self) -> bool {
        STEEP * self.wide() <= self.most() - self.least() || self.least() <= tolerance::SAME_POINT_MM
    }
}

/// Length of a leg from its mold line, y = 0, mm: to the nearest place of its far edge, since one that tapers slips at its
/// short end, but for notches and steps; and those of them that leave less than `shortest_mm`, wider than that themselves:
/// narrower ones are held by the metal beside them (common practice, no source).
pub(super) fn of_leg(face: &Face, shortest_mm: f64) -> (f64, Vec<Low>) {
    let stretches = stretches(face);
    let is_low =
        |stretch: &Stretch| !stretch.is_side() && stretch.most() < shortest_mm - tolerance::SAME_POINT_MM;
    let mut low: Vec<(Low, [usize; 2])> = Vec::new();
    let mut first = 0;
    while first < stretches.len() {
        let run = stretches[first..].iter().take_while(|stretch| is_low(stretch)).count();
        if 0 < run {
            low.extend(stepped(&stretches, [first, first + run - 1], shortest_mm));
        }
        first += run.max(1);
    }
    let all_mm: f64 = stretches.iter().map(Stretch::wide).sum();
    if MOST_OF_LEG * all_mm < low.iter().map(|(low, _)| low.wide_mm).sum() {
        low.clear();
    }
    let passed = |number: usize| low.iter().any(|(_, [from, to])| (*from..=*to).contains(&number));
    let own = stretches.iter().enumerate().filter(|(number, stretch)| !stretch.is_side() && !passed(*number));
    let long_mm = own.map(|(_, stretch)| stretch.least()).fold(f64::INFINITY, f64::min);
    let long_mm = if long_mm.is_finite() { long_mm } else { nearest_corner_mm(face) };
    let wide = low.into_iter().map(|(low, _)| low).filter(|low| shortest_mm < low.wide_mm);
    (long_mm, wide.collect())
}

/// A run of low stretches beside which the leg steps out to what is long enough; `None` where it only tapers or ends.
fn stepped(stretches: &[Stretch], [from, to]: [usize; 2], shortest_mm: f64) -> Option<(Low, [usize; 2])> {
    let enough = |reach_mm: f64| shortest_mm - tolerance::SAME_POINT_MM <= reach_mm;
    let before = stretches[..from].iter().rev().find(|stretch| !stretch.is_side());
    let after = stretches[to + 1..].iter().find(|stretch| !stretch.is_side());
    let [before, after] = [
        before.is_some_and(|stretch| enough(stretch.reach[1])),
        after.is_some_and(|stretch| enough(stretch.reach[0])),
    ];
    let own = &stretches[from..=to];
    let low = Low {
        wide_mm: own.iter().map(Stretch::wide).sum(),
        reach_mm: own.iter().map(Stretch::least).fold(f64::INFINITY, f64::min),
        at_end: !(before && after),
    };
    (before || after).then_some((low, [from, to]))
}

/// The leg along its bend, piece by piece.
fn stretches(face: &Face) -> Vec<Stretch> {
    let (start, end) = face.edge(0);
    let (low, high) = (start.x.min(end.x), start.x.max(end.x));
    let inside = |x: &f64| (low..=high).contains(x);
    let mut places: Vec<f64> = face.corners.iter().map(|corner| corner.x).filter(inside).collect();
    places.extend([low, high]);
    places.sort_by(f64::total_cmp);
    places.dedup_by(|a, b| (*a - *b).abs() <= tolerance::SAME_POINT_MM);
    let stretch = |pair: &[f64]| {
        let middle = 0.5 * (pair[0] + pair[1]);
        let at = |(p, q): (Point, Point), x: f64| p.y + (q.y - p.y) * (x - p.x) / (q.x - p.x);
        // The far edge runs back, the metal to its left.
        let far = polygon::edges(&face.corners).skip(1).filter(|(p, q)| q.x < middle && middle < p.x);
        let nearest = far.min_by(|a, b| at(*a, middle).total_cmp(&at(*b, middle)))?;
        Some(Stretch { from: pair[0], to: pair[1], reach: [at(nearest, pair[0]), at(nearest, pair[1])] })
    };
    places.windows(2).filter_map(stretch).collect()
}

/// Where no edge of the leg runs along its bend: its nearest corner off the mold line, mm.
fn nearest_corner_mm(face: &Face) -> f64 {
    let beyond = face.corners.iter().skip(2).map(|corner| corner.y);
    beyond.filter(|&y_mm| y_mm > tolerance::SAME_POINT_MM).fold(f64::INFINITY, f64::min)
}
