//! A flat face of the refolded flat as a solid that tells how deep a place lies in it.

use geometry::{Frame, Point, Point3, polygon, tolerance};

use super::round::{self, Curve};
use crate::flat::FlatPattern;

/// One face up to the tangent lines of its bends.
#[derive(Debug, Clone)]
pub(super) struct Face {
    frame: Frame,
    thickness_mm: f64,
    outline: Vec<Point>,
    /// Which of its edges are cut; the others run on into a bend.
    cut: Vec<bool>,
    /// Drilled reliefs: centre and radius.
    drilled: Vec<(Point, f64)>,
}

impl Face {
    /// Of face `number`, which came to lie at `frame`.
    pub(super) fn of(flat: &FlatPattern, number: usize, frame: &Frame) -> Self {
        let outline = flat.faces[number].corners.clone();
        let runs_on = |(a, b): (Point, Point)| {
            let middle = a.toward(b, 0.5);
            flat.bends.iter().zip(&flat.zones).any(|(bend, zone)| {
                let line_mm = match number {
                    _ if bend.parent == number => 0.0,
                    _ if bend.child == number => bend.zone_mm,
                    _ => return false,
                };
                let on = |p: Point| (round::on_zone(bend, p).y - line_mm).abs() <= tolerance::SAME_POINT_MM;
                if !(on(a) && on(b)) {
                    return false;
                }
                let reach =
                    polygon::bounds(&zone.iter().map(|&p| round::on_zone(bend, p)).collect::<Vec<_>>());
                let at = round::on_zone(bend, middle).x;
                reach.0.x <= at && at <= reach.1.x
            })
        };
        Self {
            frame: *frame,
            thickness_mm: flat.thickness_mm,
            cut: polygon::edges(&outline).map(|edge| !runs_on(edge)).collect(),
            outline,
            drilled: round::drilled(flat, |p| p),
        }
    }

    /// How deep a place lies in the metal, mm, below zero outside. Edges that run on into a bend do not count from within.
    pub(super) fn depth_mm(&self, place: Point3) -> f64 {
        let (at, z) = self.frame.local(place);
        let through = z.min(self.thickness_mm - z);
        let inside = polygon::contains(&self.outline, at);
        let edges = polygon::edges(&self.outline).zip(&self.cut);
        let off = edges
            .filter(|(_, cut)| !inside || **cut)
            .map(|(edge, _)| polygon::point_to_segment(at, edge))
            .fold(f64::INFINITY, f64::min);
        let holes = self.drilled.iter().map(|(centre, hole_mm)| centre.distance(at) - hole_mm);
        holes.fold(through.min(if inside { off } else { -off }), f64::min)
    }

    /// How far a place is off the metal, mm; zero in it.
    pub(super) fn off_mm(&self, place: Point3) -> f64 {
        let (at, z) = self.frame.local(place);
        let through_mm = (z - self.thickness_mm).max(-z).max(0.0);
        let beside_mm = if polygon::contains(&self.outline, at) {
            let holes = self.drilled.iter().map(|(centre, hole_mm)| hole_mm - centre.distance(at));
            holes.fold(0.0, f64::max)
        } else {
            let edges = polygon::edges(&self.outline);
            edges.map(|edge| polygon::point_to_segment(at, edge)).fold(f64::INFINITY, f64::min)
        };
        (through_mm * through_mm + beside_mm * beside_mm).sqrt()
    }

    /// The most that any place on the straight from `a` to `b` can lie in it, mm, by the way through the metal alone.
    pub(super) fn most_through_mm(&self, a: Point3, b: Point3) -> f64 {
        let ends = [a, b].map(|place| self.frame.local(place).1);
        let (low, high) = (ends[0].min(ends[1]), ends[0].max(ends[1]));
        high.min(self.thickness_mm - low).min(0.5 * self.thickness_mm)
    }

    /// The edges of the metal.
    pub(super) fn curves(&self) -> Vec<Curve> {
        let sides = [0.0, self.thickness_mm];
        let edge = |(a, b): (Point, Point)| {
            let place = |p: Point| sides.map(|z| self.frame.place(p, z));
            let ([a, a_over], [b, b_over]) = (place(a), place(b));
            [Curve::Straight(a, b), Curve::Straight(a_over, b_over), Curve::Straight(a, a_over)]
        };
        polygon::edges(&self.outline).flat_map(edge).collect()
    }

    /// The upright box around it.
    pub(super) fn reach(&self) -> [Point3; 2] {
        let sides = [0.0, self.thickness_mm];
        let corners = self.outline.iter().flat_map(|&p| sides.map(|z| self.frame.place(p, z)));
        round::bounds(corners)
    }
}
