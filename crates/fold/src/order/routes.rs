//! Ways through the tree of faces: from each bend outward to every face of its piece.

use super::metal::Line;

/// One bend on a way, and whether it is walked from parent to child.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct RouteStep {
    /// The bend.
    pub(super) bend: usize,
    /// From parent to child.
    pub(super) outward: bool,
}

/// The way from one bend to one face.
#[derive(Debug, Clone, PartialEq, Default)]
struct Route {
    /// Bends in order, without the one it starts at.
    steps: Vec<RouteStep>,
    /// The same as bits.
    bits: u64,
    /// It leaves by the parent's side.
    by_parent: bool,
    /// It leads there at all.
    connected: bool,
}

/// All ways of a part.
#[derive(Debug, Clone)]
pub(super) struct Routes {
    routes: Vec<Vec<Route>>,
}

impl Routes {
    pub(super) fn of(lines: &[Line], faces: usize) -> Self {
        let from = |bend: usize| {
            let mut routes = vec![Route::default(); faces];
            for (face, by_parent) in [(lines[bend].parent, true), (lines[bend].child, false)] {
                routes[face] = Route { by_parent, connected: true, ..Route::default() };
                walk(lines, bend, face, &mut routes);
            }
            routes
        };
        Self { routes: (0..lines.len()).map(from).collect() }
    }

    /// Bends between `bend` and `face`, from the bend outward.
    pub(super) fn steps(&self, bend: usize, face: usize) -> &[RouteStep] {
        &self.routes[bend][face].steps
    }

    /// The same as bits.
    pub(super) fn bits(&self, bend: usize, face: usize) -> u64 {
        self.routes[bend][face].bits
    }

    /// True when the face hangs on the parent's side of the bend.
    pub(super) fn by_parent(&self, bend: usize, face: usize) -> bool {
        self.routes[bend][face].by_parent
    }

    /// True when bend and face belong to the same piece.
    pub(super) fn connected(&self, bend: usize, face: usize) -> bool {
        self.routes[bend][face].connected
    }
}

/// Goes on from `face` to all faces beyond it, never back through a bend already walked.
fn walk(lines: &[Line], start: usize, face: usize, routes: &mut [Route]) {
    for (number, line) in lines.iter().enumerate() {
        let walked = number == start || routes[face].bits >> number & 1 == 1;
        let (next, outward) = match face {
            _ if walked => continue,
            _ if line.parent == face => (line.child, true),
            _ if line.child == face => (line.parent, false),
            _ => continue,
        };
        let mut route = routes[face].clone();
        route.steps.push(RouteStep { bend: number, outward });
        route.bits |= 1 << number;
        routes[next] = route;
        walk(lines, start, next, routes);
    }
}
