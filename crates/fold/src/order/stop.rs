//! The back stop: the rearmost edge of the metal, if it is straight and runs along the bend.

use geometry::{Point3, tolerance};

use super::convex::Slab;

/// Height of a back stop's face above the sheet, mm: metal standing higher passes over it (common practice, no source).
const STOP_HEIGHT_MM: f64 = 25.0;

/// Shortest edge that lies square against two stops, mm (common practice, no source).
const STOP_EDGE_MM: f64 = 25.0;

/// Where the rear edge of some metal lies behind the bend line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Rear {
    /// How far behind the bend line it reaches, mm.
    pub(super) back_mm: f64,
    /// Length of its rearmost edge along the bend, mm.
    pub(super) edge_mm: f64,
}

impl Default for Rear {
    fn default() -> Self {
        Self { back_mm: f64::NEG_INFINITY, edge_mm: 0.0 }
    }
}

impl Rear {
    /// The rear edge of these slabs, in the coordinates of the bend.
    pub(super) fn of(slabs: &[Slab]) -> Self {
        let low = |p: &Point3| p.y <= STOP_HEIGHT_MM;
        let reach = slabs.iter().flat_map(Slab::corners).filter(low).map(|p| -p.x);
        let back_mm = reach.fold(f64::NEG_INFINITY, f64::max);
        let on_edge = |p: Point3| low(&p) && back_mm - tolerance::ARC_CHORD_MM <= -p.x;
        let edges = slabs.iter().flat_map(|slab| [&slab.low, &slab.high]).flat_map(|ring| {
            let next = ring.iter().copied().cycle().skip(1);
            ring.iter().copied().zip(next)
        });
        let lengths = edges.filter(|(a, b)| on_edge(*a) && on_edge(*b)).map(|(a, b)| (a.z - b.z).abs());
        let across = slabs.iter().flat_map(|slab| slab.low.iter().copied().zip(slab.high.iter().copied()));
        let through = across.filter(|(a, b)| on_edge(*a) && on_edge(*b)).map(|(a, b)| (a.z - b.z).abs());
        Self { back_mm, edge_mm: lengths.chain(through).fold(0.0, f64::max) }
    }

    /// True when it lies square against the stops.
    pub(super) fn is_square(&self, bend_mm: f64) -> bool {
        STOP_EDGE_MM.min(0.5 * bend_mm) <= self.edge_mm
    }
}

/// The rearmost of several, and which it is; those that tie together count the longest edge.
pub(super) fn rearmost(rears: &[(usize, Rear)]) -> Option<(usize, Rear)> {
    let back_mm = rears.iter().map(|(_, rear)| rear.back_mm).fold(f64::NEG_INFINITY, f64::max);
    let tied = rears.iter().filter(|(_, rear)| back_mm - tolerance::ARC_CHORD_MM <= rear.back_mm);
    tied.max_by(|a, b| a.1.edge_mm.total_cmp(&b.1.edge_mm)).copied()
}

#[cfg(test)]
mod tests {
    use geometry::Point;

    use super::*;

    fn plate(corners: &[Point], thickness_mm: f64) -> Slab {
        let ring = |y: f64| corners.iter().map(|p| Point3::new(p.x, y, p.y)).collect();
        Slab { low: ring(0.0), high: ring(thickness_mm) }
    }

    #[test]
    fn a_slanted_edge_is_no_stop() {
        let square = [(-40.0, 0.0), (0.0, 0.0), (0.0, 200.0), (-40.0, 200.0)].map(|(x, z)| Point::new(x, z));
        let slanted = [(-40.0, 0.0), (0.0, 0.0), (0.0, 200.0), (-55.0, 200.0)].map(|(x, z)| Point::new(x, z));
        let square = Rear::of(&[plate(&square, 3.0)]);
        assert!((square.back_mm - 40.0).abs() < 1e-9 && square.is_square(200.0));
        assert!(!Rear::of(&[plate(&slanted, 3.0)]).is_square(200.0));
    }
}
