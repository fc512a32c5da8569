//! The lines of a view: visible stretches of edges, sorted into the outline and inner edges, and joined where they run
//! on.

use fold::facets::{EdgeKind, FacetEdge, Facets};
use geometry::{Point, Vector, tolerance};

use super::hidden::{Scene, Sight, Stretches, joined, rest};
use super::view::View;

/// What a line of a view is; heavier ones first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LineKind {
    /// The edge of the part against the paper.
    Outline,
    /// Any other edge that is seen.
    Edge,
    /// A tangent line of a bend.
    Tangent,
}

/// A line of a view, in millimetres of the part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ViewLine {
    /// Its ends.
    pub ends: [Point; 2],
    /// What it is.
    pub kind: LineKind,
}

/// Shortest line that is drawn, mm of the part.
const SHORTEST_MM: f64 = 2.0 * tolerance::HIDDEN_DEPTH_MM;

/// All lines that are seen.
#[must_use]
pub fn visible(facets: &Facets, view: View) -> Vec<ViewLine> {
    let scene = Scene::of(facets, view);
    let lines: Vec<ViewLine> = facets.edges.iter().flat_map(|edge| edge_lines(&scene, edge, view)).collect();
    let mut merged = merged(lines);
    merged.retain(|line| SHORTEST_MM <= line.ends[0].distance(line.ends[1]));
    merged
}

fn edge_lines(scene: &Scene, edge: &FacetEdge, view: View) -> Vec<ViewLine> {
    // A facet seen on edge hides nothing and counts as turned away.
    let facing = edge.normals.map(|normal| tolerance::EDGE_ON_COSINE < normal.dot(view.toward));
    let turns_away = facing[0] != facing[1];
    if facing == [false, false] || (edge.kind == EdgeKind::Smooth && !turns_away) {
        return Vec::new();
    }
    let [from, to] = edge.ends.map(|end| view.project(end));
    let sight = Sight { ends: [from.0, to.0], near: [from.1, to.1] };
    if sight.length_mm() <= tolerance::DRAWN_POINT_MM {
        return Vec::new();
    }
    let visible = scene.visible(sight);
    let bare = if turns_away { bare_beside(scene, sight) } else { Vec::new() };
    let inner =
        if edge.kind == EdgeKind::Tangent && !turns_away { LineKind::Tangent } else { LineKind::Edge };
    let line = |[from, to]: [f64; 2], kind| ViewLine { ends: [sight.at(from).0, sight.at(to).0], kind };
    let (outer, inside) = (common(&visible, &bare), common(&visible, &rest(&bare)));
    let all = outer.into_iter().map(|stretch| line(stretch, LineKind::Outline));
    let all = all.chain(inside.into_iter().map(|stretch| line(stretch, inner)));
    // A shorter stretch has no direction of its own.
    all.filter(|line| tolerance::DRAWN_POINT_MM < line.ends[0].distance(line.ends[1])).collect()
}

/// The stretches with bare paper on one side or the other.
fn bare_beside(scene: &Scene, sight: Sight) -> Stretches {
    let across = (sight.ends[1] - sight.ends[0]).unit().left() * tolerance::OUTLINE_STEP_MM;
    let both = [across, -across].map(|by| scene.bare(sight.ends.map(|end| end + by)));
    joined(both.concat())
}

/// What is in both.
fn common(first: &Stretches, second: &Stretches) -> Stretches {
    let pairs = first.iter().flat_map(|a| second.iter().map(move |b| [a[0].max(b[0]), a[1].min(b[1])]));
    pairs.filter(|[from, to]| from < to).collect()
}

/// A straight line with the stretches that lie on it.
struct Track {
    origin: Point,
    along: Vector,
    stretches: Vec<([f64; 2], LineKind)>,
}

/// Lines on one straight that meet or overlap become one; where kinds overlap the heavier one stays.
fn merged(lines: Vec<ViewLine>) -> Vec<ViewLine> {
    let mut tracks: Vec<Track> = Vec::new();
    for line in lines {
        match tracks.iter_mut().find(|track| track.carries(&line)) {
            Some(track) => track.add(&line),
            None => {
                let along = (line.ends[1] - line.ends[0]).unit();
                let mut track = Track { origin: line.ends[0], along, stretches: Vec::new() };
                track.add(&line);
                tracks.push(track);
            }
        }
    }
    tracks.iter().flat_map(Track::lines).collect()
}

impl Track {
    fn carries(&self, line: &ViewLine) -> bool {
        let off = |point: Point| (point - self.origin).cross(self.along).abs();
        line.ends.iter().all(|&end| off(end) <= tolerance::DRAWN_POINT_MM)
    }

    fn add(&mut self, line: &ViewLine) {
        let [a, b] = line.ends.map(|end| (end - self.origin).dot(self.along));
        self.stretches.push(([a.min(b), a.max(b)], line.kind));
    }

    fn lines(&self) -> Vec<ViewLine> {
        let mut taken: Stretches = Vec::new();
        let mut lines = Vec::new();
        for kind in [LineKind::Outline, LineKind::Edge, LineKind::Tangent] {
            let own = self.stretches.iter().filter(|(_, own)| *own == kind);
            let own = joined_loosely(own.map(|(stretch, _)| *stretch).collect());
            let free: Stretches = own.iter().flat_map(|&stretch| without(stretch, &taken)).collect();
            let place = |at: f64| self.origin + self.along * at;
            lines.extend(free.iter().map(|&[from, to]| ViewLine { ends: [place(from), place(to)], kind }));
            taken.extend(own);
            taken = joined(taken);
        }
        lines
    }
}

/// Stretches no farther apart than a corner is wide become one.
fn joined_loosely(stretches: Stretches) -> Stretches {
    let grown = stretches.into_iter().map(|[from, to]| [from, to + tolerance::DRAWN_POINT_MM]).collect();
    joined(grown).into_iter().map(|[from, to]| [from, to - tolerance::DRAWN_POINT_MM]).collect()
}

/// What of a stretch is not taken.
fn without([from, to]: [f64; 2], taken: &Stretches) -> Stretches {
    let starts = std::iter::once(from).chain(taken.iter().map(|stretch| stretch[1].max(from)));
    let ends = taken.iter().map(|stretch| stretch[0].min(to)).chain([to]);
    starts
        .zip(ends)
        .filter(|(from, to)| from + tolerance::DRAWN_POINT_MM < *to)
        .map(|(from, to)| [from, to])
        .collect()
}
