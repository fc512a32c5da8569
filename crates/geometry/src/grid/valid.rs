//! Checks of a figure before it is taken onto the grid.

use crate::Point;
use crate::grid::exact::{bounds, float};
use crate::grid::{
    GRID_LIMIT, GridError, GridOutline, GridPoint, Place, Ring, cross, doubled_area, place_in_ring,
};
use crate::tolerance;

/// Checks that every corner is a number within the grid.
pub(crate) fn on_grid(ring: &[Point], name: Ring) -> Result<(), GridError> {
    let limit = float(GRID_LIMIT);
    let fits = |p: &Point| p.x.abs() < limit && p.y.abs() < limit;
    match ring.iter().position(|p| !fits(p)) {
        Some(corner) => Err(beyond(name, corner)),
        None if ring.len() < 3 => Err(GridError::NoArea { ring: name }),
        None => Ok(()),
    }
}

fn beyond(ring: Ring, corner: usize) -> GridError {
    GridError::BeyondGrid { ring, corner, limit_m: nearest_metre() }
}

fn nearest_metre() -> i64 {
    crate::grid::exact::nearest(float(GRID_LIMIT) * tolerance::GRID_STEP_MM / 1000.0)
}

/// The figure with rings turned the right way round, or why it is none.
pub(crate) fn checked(outer: Vec<GridPoint>, holes: Vec<Vec<GridPoint>>) -> Result<GridOutline, GridError> {
    let outer = cleaned(outer, Ring::Outer, true)?;
    let holes: Vec<Vec<GridPoint>> = holes
        .into_iter()
        .enumerate()
        .map(|(index, hole)| cleaned(hole, Ring::Hole(index), false))
        .collect::<Result<_, _>>()?;
    let outline = GridOutline { outer, holes };
    no_crossing(&outline)?;
    holes_in_metal(&outline)?;
    Ok(outline)
}

fn cleaned(ring: Vec<GridPoint>, name: Ring, counter_clockwise: bool) -> Result<Vec<GridPoint>, GridError> {
    if let Some(corner) = ring.iter().position(|p| GRID_LIMIT <= p.x.abs() || GRID_LIMIT <= p.y.abs()) {
        return Err(beyond(name, corner));
    }
    let mut ring = without_straight_corners(ring);
    let area = doubled_area(&ring);
    if ring.len() < 3 || area == 0 {
        return Err(GridError::NoArea { ring: name });
    }
    if (0 < area) != counter_clockwise {
        ring.reverse();
    }
    Ok(ring)
}

/// Drops repeated corners and corners on a straight run; spikes stay and are found as crossings.
fn without_straight_corners(mut ring: Vec<GridPoint>) -> Vec<GridPoint> {
    ring.dedup();
    while 1 < ring.len() && ring.first() == ring.last() {
        ring.pop();
    }
    let n = ring.len();
    let keeps = |i: usize| {
        let (a, b, c) = (ring[(i + n - 1) % n], ring[i], ring[(i + 1) % n]);
        cross(a, b, c) != 0 || (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y) < 0
    };
    (0..n).filter(|&i| keeps(i)).map(|i| ring[i]).collect()
}

struct Edge {
    ring: Ring,
    number: usize,
    of: usize,
    ends: (GridPoint, GridPoint),
}

fn all_edges(outline: &GridOutline) -> Vec<Edge> {
    let mut edges = Vec::new();
    for (index, ring) in outline.rings().enumerate() {
        let name = if index == 0 { Ring::Outer } else { Ring::Hole(index - 1) };
        for (number, ends) in crate::grid::ring_edges(ring).enumerate() {
            edges.push(Edge { ring: name, number, of: ring.len(), ends });
        }
    }
    edges.sort_by_key(|edge| edge.ends.0.x.min(edge.ends.1.x));
    edges
}

fn no_crossing(outline: &GridOutline) -> Result<(), GridError> {
    let edges = all_edges(outline);
    for (index, first) in edges.iter().enumerate() {
        let reach = first.ends.0.x.max(first.ends.1.x);
        for second in &edges[index + 1..] {
            if reach < second.ends.0.x.min(second.ends.1.x) {
                break;
            }
            if meets(first, second) {
                return Err(GridError::Crossing {
                    first: first.ring,
                    first_edge: first.number,
                    second: second.ring,
                    second_edge: second.number,
                });
            }
        }
    }
    Ok(())
}

fn meets(first: &Edge, second: &Edge) -> bool {
    let neighbours = first.ring == second.ring
        && ((first.number + 1) % first.of == second.number || (second.number + 1) % first.of == first.number);
    if neighbours {
        // Neighbours share a corner; they may not fold back over one another.
        let (a, b) =
            if (first.number + 1) % first.of == second.number { (first, second) } else { (second, first) };
        let (p, q, r) = (a.ends.0, a.ends.1, b.ends.1);
        return cross(p, q, r) == 0 && (q.x - p.x) * (r.x - q.x) + (q.y - p.y) * (r.y - q.y) < 0;
    }
    touch(first.ends, second.ends)
}

/// True when two edges share at least one point.
fn touch((a, b): (GridPoint, GridPoint), (c, d): (GridPoint, GridPoint)) -> bool {
    let (first_low, first_high) = bounds(&[a, b]);
    let (second_low, second_high) = bounds(&[c, d]);
    if first_high.x < second_low.x
        || second_high.x < first_low.x
        || first_high.y < second_low.y
        || second_high.y < first_low.y
    {
        return false;
    }
    let opposite = |p: i64, q: i64| p.signum() * q.signum() <= 0;
    opposite(cross(a, b, c), cross(a, b, d)) && opposite(cross(c, d, a), cross(c, d, b))
}

fn holes_in_metal(outline: &GridOutline) -> Result<(), GridError> {
    for (index, hole) in outline.holes.iter().enumerate() {
        let inside_outer = place_in_ring(&outline.outer, hole[0]) == Place::Inside;
        let others = outline.holes.iter().enumerate().filter(|(other, _)| *other != index);
        let in_another = others.clone().any(|(_, other)| place_in_ring(other, hole[0]) != Place::Outside);
        if !inside_outer || in_another {
            return Err(GridError::StrayHole { ring: Ring::Hole(index) });
        }
    }
    Ok(())
}
