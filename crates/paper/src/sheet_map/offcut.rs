//! An offcut on its map: its true outline and holes, the trim line inside it, what is missing of the rectangle around it,
//! and what of it may not be used.

use geometry::{Contour, Point, Region, Vector, polygon};

use crate::drawing::clipped;
use crate::drawing::legend::{TORN_ANGLE, TORN_EM};
use crate::page::{Item, Pen, hatch_lines};
use crate::placing::Field;

/// The outline of a sheet that is no rectangle, mm from the lower left corner of the rectangle around it.
#[derive(Debug, Clone, PartialEq)]
pub struct OffcutEdges {
    /// Its corners in order.
    pub corners: Vec<Point>,
    /// Corners of every hole in it.
    pub holes: Vec<Vec<Point>>,
    /// Corners of every zone of it that may not be used.
    pub torn: Vec<Vec<Point>>,
    /// Corners of every piece that is missing of the rectangle around it.
    pub missing: Vec<Vec<Point>>,
    /// Every ring of the metal that is inside the edge trim and may be used.
    pub usable: Vec<Vec<Point>>,
}

impl OffcutEdges {
    /// Its outer edge and its holes.
    fn rings(&self) -> impl Iterator<Item = &Vec<Point>> {
        std::iter::once(&self.corners).chain(&self.holes)
    }
}

/// The upright window that is seen, from its lower left corner to its upper right one.
pub(super) type Window = (Point, Point);

/// What is seen of an offcut in a window, from the window's own corner.
pub(super) struct Seen {
    /// Width and height of the window.
    size: Vector,
    /// Its corners: they are dimensioned.
    pub(super) corners: Vec<Point>,
    edges: Vec<(Point, Point)>,
    /// The edges of what is inside the edge trim.
    trim: Vec<(Point, Point)>,
    missing: Vec<Vec<Point>>,
    /// What of the zones that may not be used is seen.
    torn: Vec<Vec<Point>>,
}

impl Seen {
    pub(super) fn of(offcut: &OffcutEdges, window: Window) -> Self {
        let (low, high) = window;
        let is_seen = |at: &&Point| low.x <= at.x && at.x <= high.x && low.y <= at.y && at.y <= high.y;
        let by = Point::default() - low;
        let torn_corners = offcut.torn.iter().flatten();
        Self {
            size: high - low,
            corners: offcut
                .rings()
                .flatten()
                .chain(torn_corners)
                .filter(is_seen)
                .map(|&at| at + by)
                .collect(),
            edges: offcut.rings().flat_map(|ring| seen_edges(ring, window)).collect(),
            trim: offcut.usable.iter().flat_map(|ring| seen_edges(ring, window)).collect(),
            missing: seen_areas(&offcut.missing, window),
            torn: seen_areas(&offcut.torn, window),
        }
    }

    /// Its edges are lines that no text may touch, and what is missing or may not be used is no place for words.
    pub(super) fn occupy(&self, field: &mut Field) {
        self.edges.iter().for_each(|&(from, to)| field.add_line(from, to));
        self.missing.iter().chain(&self.torn).for_each(|ring| field.add_area(ring.clone()));
    }

    /// Its lines and hatching.
    pub(super) fn items(&self, has_trim: bool, text_mm: f64) -> Vec<Item> {
        const ACROSS_THE_DROPS: f64 = 0.75 * std::f64::consts::PI;
        let size = self.size;
        let around = [(0.0, 0.0), (size.x, 0.0), (size.x, size.y), (0.0, size.y)];
        let mut items = vec![Item::edge(&around.map(|(x, y)| Point::new(x, y)), Pen::Extension)];
        for ring in &self.missing {
            items.extend(hatch_lines(&[Contour::polygon(ring)], 1.6 * text_mm, ACROSS_THE_DROPS));
        }
        for ring in &self.torn {
            items.extend(hatch_lines(&[Contour::polygon(ring)], TORN_EM * text_mm, TORN_ANGLE));
            items.push(Item::edge(ring, Pen::Hatch));
        }
        items.extend(self.edges.iter().map(|&(from, to)| Item::line(from, to, Pen::SheetEdge)));
        if has_trim {
            items.extend(self.trim.iter().map(|&(from, to)| Item::line(from, to, Pen::TrimEdge)));
        }
        items
    }
}

fn seen_edges(ring: &[Point], window: Window) -> impl Iterator<Item = (Point, Point)> + '_ {
    // Edges on the border of the window are seen, too.
    let play = Vector::new(geometry::tolerance::SAME_POINT_MM, geometry::tolerance::SAME_POINT_MM);
    let by = Point::default() - window.0;
    let grown = (window.0 - play, window.1 + play);
    polygon::edges(ring)
        .filter_map(move |edge| clipped(edge, grown))
        .map(move |(from, to)| (from + by, to + by))
}

/// What of some areas is seen in the window.
fn seen_areas(areas: &[Vec<Point>], (low, high): Window) -> Vec<Vec<Point>> {
    let by = Point::default() - low;
    let window = Region::rectangle(low, high);
    let seen = areas.iter().flat_map(|ring| {
        let whole = geometry::Polygon { outer: ring.clone(), holes: Vec::new() };
        Region::of(&whole).intersection(&window).polygons()
    });
    seen.map(|piece| piece.outer.into_iter().map(|at| at + by).collect()).collect()
}
