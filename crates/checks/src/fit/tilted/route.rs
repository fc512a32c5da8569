//! The shortest way between two places inside one region of free places.
//!
//! Source: shortest paths among straight-sided figures run from corner to corner in straight pieces that stay clear
//! (Lozano-Pérez and Wesley, "An algorithm for planning collision-free paths among polyhedral obstacles", CACM 1979).

use geometry::grid::{GridPoint, Place};
use geometry::nofit::Region;
use geometry::{Point, polygon, tolerance};

/// Grid steps by which corners of regions may be off from rounding crossings; far below any margin.
const ROUNDING_STEPS: f64 = 4.0;

/// Corners on the way from `from` to the nearest of `goals`, both ends included; `None` when no goal can be seen round
/// any corner.
pub(super) fn shortest(region: &Region, from: GridPoint, goals: &[GridPoint]) -> Option<Vec<GridPoint>> {
    let mut nodes = vec![from];
    nodes.extend(goals);
    nodes.extend(region.rings().iter().flatten());
    let mut cost = vec![f64::INFINITY; nodes.len()];
    let mut before = vec![0_usize; nodes.len()];
    let mut done = vec![false; nodes.len()];
    cost[0] = 0.0;
    loop {
        let open = (0..nodes.len()).filter(|&at| !done[at] && cost[at].is_finite());
        let here = open.min_by(|&a, &b| cost[a].total_cmp(&cost[b]))?;
        if (1..=goals.len()).contains(&here) {
            return Some(traced(&nodes, &before, here));
        }
        done[here] = true;
        for next in 1..nodes.len() {
            let length = nodes[here].millimetres().distance(nodes[next].millimetres());
            if !done[next] && cost[here] + length < cost[next] && is_clear(region, nodes[here], nodes[next]) {
                (cost[next], before[next]) = (cost[here] + length, here);
            }
        }
    }
}

fn traced(nodes: &[GridPoint], before: &[usize], end: usize) -> Vec<GridPoint> {
    let mut way = vec![nodes[end]];
    let mut at = end;
    while at != 0 {
        at = before[at];
        way.push(nodes[at]);
    }
    way.reverse();
    way.dedup();
    way
}

/// True when the straight way from `a` to `b` stays in the region, to within rounding.
fn is_clear(region: &Region, a: GridPoint, b: GridPoint) -> bool {
    let (from, to) = (a.millimetres(), b.millimetres());
    let mut shares = vec![0.0, 1.0];
    for ring in region.rings() {
        let corners: Vec<Point> = ring.iter().map(|p| p.millimetres()).collect();
        shares.extend(polygon::edges(&corners).filter_map(|edge| crossing_share((from, to), edge)));
    }
    shares.sort_by(f64::total_cmp);
    let least = ROUNDING_STEPS * tolerance::GRID_STEP_MM / from.distance(to).max(tolerance::GRID_STEP_MM);
    let long = shares.windows(2).filter(|pair| least < pair[1] - pair[0]);
    long.map(|pair| from.toward(to, 0.5 * (pair[0] + pair[1]))).all(|middle| is_in(region, middle))
}

/// Where along the first piece the second crosses its line, as a share of its length.
fn crossing_share((a, b): (Point, Point), (c, d): (Point, Point)) -> Option<f64> {
    let (along, across) = (b - a, d - c);
    let turn = along.cross(across);
    if turn.abs() <= tolerance::PARALLEL_SINE * along.length() * across.length() {
        return None;
    }
    let (share, other) = ((c - a).cross(across) / turn, (c - a).cross(along) / turn);
    ((0.0..=1.0).contains(&share) && (0.0..=1.0).contains(&other)).then_some(share)
}

fn is_in(region: &Region, place: Point) -> bool {
    let near = |edge| polygon::point_to_segment(place, edge) <= ROUNDING_STEPS * tolerance::GRID_STEP_MM;
    region.place(GridPoint::near(place)) != Place::Outside
        || region.rings().iter().any(|ring| {
            let corners: Vec<Point> = ring.iter().map(|p| p.millimetres()).collect();
            polygon::edges(&corners).any(near)
        })
}
