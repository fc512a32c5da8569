//! What hides what: facets as seen on paper, and the stretches of an edge that lie behind them.
//!
//! Every edge is split where it crosses the outline of a facet or passes through its plane, and each piece is judged by
//! its middle. Facets that look away from the eye hide nothing that the ones in front of them do not hide.

use fold::facets::{Facet, Facets, Surface};
use geometry::{Point, Point3, polygon, tolerance};

use super::view::View;

/// A facet on paper.
struct Screen {
    rings: Vec<Vec<Point>>,
    bounds: (Point, Point),
    /// Nearness at (x, y) is `slope.0 x + slope.1 y + level`.
    slope: (f64, f64),
    level: f64,
}

/// All facets that look toward the eye.
pub(crate) struct Scene {
    screens: Vec<Screen>,
}

/// An edge on paper: its ends and their nearness, mm.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sight {
    pub(super) ends: [Point; 2],
    pub(super) near: [f64; 2],
}

/// Stretches of an edge, as shares of its length, in rising order and apart.
pub(super) type Stretches = Vec<[f64; 2]>;

impl Scene {
    /// All facets.
    pub(crate) fn of(facets: &Facets, view: View) -> Self {
        Self { screens: facets.facets.iter().filter_map(|facet| Screen::of(facet, view)).collect() }
    }

    /// Only the two large sides of plates, to choose a view by.
    pub(super) fn of_skins(facets: &Facets, view: View) -> Self {
        let skins = facets.facets.iter().filter(|facet| facet.surface != Surface::Cut);
        Self { screens: skins.filter_map(|facet| Screen::of(facet, view)).collect() }
    }

    /// True when nothing stands before a place.
    pub(crate) fn sees(&self, (place, near): (Point, f64)) -> bool {
        !self.screens.iter().any(|screen| screen.stands_before(place, near) && screen.covers(place))
    }

    /// The stretches of an edge that can be seen.
    pub(super) fn visible(&self, sight: Sight) -> Stretches {
        let hidden = self.stretches(sight, |screen, place, near| screen.stands_before(place, near));
        rest(&hidden)
    }

    /// The stretches of a line on paper under which there is no metal at all.
    pub(super) fn bare(&self, ends: [Point; 2]) -> Stretches {
        rest(&self.stretches(Sight { ends, near: [0.0; 2] }, |_, _, _| true))
    }

    /// The stretches over the facets for which `counts` holds, joined.
    fn stretches(&self, sight: Sight, counts: impl Fn(&Screen, Point, f64) -> bool) -> Stretches {
        let bounds = polygon::bounds(&sight.ends);
        let mut found: Stretches = Vec::new();
        for screen in self.screens.iter().filter(|screen| screen.reaches(bounds)) {
            let shares = screen.splits(sight);
            for pair in shares.windows(2) {
                let (place, near) = sight.at(0.5 * (pair[0] + pair[1]));
                if counts(screen, place, near) && screen.covers(place) {
                    found.push([pair[0], pair[1]]);
                }
            }
        }
        joined(found)
    }
}

impl Sight {
    pub(super) fn at(&self, share: f64) -> (Point, f64) {
        let near = self.near[0] + (self.near[1] - self.near[0]) * share;
        (self.ends[0].toward(self.ends[1], share), near)
    }

    /// Length on paper, mm.
    pub(super) fn length_mm(&self) -> f64 {
        self.ends[0].distance(self.ends[1])
    }
}

impl Screen {
    /// `None` for a facet that looks away or is seen on edge.
    fn of(facet: &Facet, view: View) -> Option<Self> {
        let facing = facet.normal.dot(view.toward);
        if facing <= tolerance::EDGE_ON_COSINE {
            return None;
        }
        let rings: Vec<Vec<Point>> = facet
            .rings
            .iter()
            .map(|ring| ring.iter().map(|&corner| view.project(corner).0).collect())
            .collect();
        let (place, near) = view.project(*facet.rings.first()?.first()?);
        let slope = (-facet.normal.dot(view.right) / facing, -facet.normal.dot(view.up) / facing);
        let level = near - slope.0 * place.x - slope.1 * place.y;
        let bounds = polygon::bounds(rings.first()?);
        Some(Self { rings, bounds, slope, level })
    }

    fn nearness(&self, place: Point) -> f64 {
        self.slope.0 * place.x + self.slope.1 * place.y + self.level
    }

    fn stands_before(&self, place: Point, near: f64) -> bool {
        near + tolerance::HIDDEN_DEPTH_MM < self.nearness(place)
    }

    fn reaches(&self, (low, high): (Point, Point)) -> bool {
        let (own_low, own_high) = self.bounds;
        own_low.x <= high.x && low.x <= own_high.x && own_low.y <= high.y && low.y <= own_high.y
    }

    fn covers(&self, place: Point) -> bool {
        let (low, high) = self.bounds;
        let near = low.x <= place.x && place.x <= high.x && low.y <= place.y && place.y <= high.y;
        near && self.rings.iter().filter(|ring| polygon::contains(ring, place)).count() % 2 == 1
    }

    /// Shares of the way at which the edge crosses the facet's outline or its plane, with both ends, in rising order.
    fn splits(&self, sight: Sight) -> Vec<f64> {
        let [from, to] = sight.ends;
        let along = to - from;
        let mut shares = vec![0.0, 1.0];
        for (a, b) in self.rings.iter().flat_map(|ring| polygon::edges(ring)) {
            let edge = b - a;
            let cross = along.cross(edge);
            let share = (a - from).cross(edge) / cross;
            let on_edge = (a - from).cross(along) / cross;
            if 0.0 < share && share < 1.0 && (0.0..=1.0).contains(&on_edge) {
                shares.push(share);
            }
        }
        let before = self.nearness(from) - sight.near[0] - tolerance::HIDDEN_DEPTH_MM;
        let after = self.nearness(to) - sight.near[1] - tolerance::HIDDEN_DEPTH_MM;
        if before * after < 0.0 {
            shares.push(before / (before - after));
        }
        shares.sort_by(f64::total_cmp);
        shares
    }
}

/// Stretches that meet or overlap become one.
pub(super) fn joined(mut stretches: Stretches) -> Stretches {
    stretches.sort_by(|a, b| a[0].total_cmp(&b[0]));
    let mut joined: Stretches = Vec::new();
    for [from, to] in stretches {
        match joined.last_mut() {
            Some(last) if from <= last[1] => last[1] = last[1].max(to),
            _ => joined.push([from, to]),
        }
    }
    joined
}

/// What is left of the whole.
pub(super) fn rest(taken: &Stretches) -> Stretches {
    let starts = std::iter::once(0.0).chain(taken.iter().map(|stretch| stretch[1]));
    let ends = taken.iter().map(|stretch| stretch[0]).chain([1.0]);
    starts.zip(ends).filter(|(from, to)| from < to).map(|(from, to)| [from, to]).collect()
}

/// What of a straight line in space nothing stands before, from end to end on paper.
pub(crate) fn seen_of(scene: &Scene, view: View, ends: [Point3; 2]) -> Vec<[Point; 2]> {
    let [from, to] = ends.map(|end| view.project(end));
    let sight = Sight { ends: [from.0, to.0], near: [from.1, to.1] };
    if sight.length_mm() <= tolerance::DRAWN_POINT_MM {
        return Vec::new();
    }
    scene.visible(sight).into_iter().map(|[from, to]| [sight.at(from).0, sight.at(to).0]).collect()
}
