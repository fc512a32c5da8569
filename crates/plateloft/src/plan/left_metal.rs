//! The piece of metal that goes back to the rack: a kept drop with all that comes off with it, by its real edges.

use geometry::{Point, Polygon, Region, polygon, tolerance};
use units::{Area, Length};

use super::kept_drops::KeptDrop;
use super::use_of_sheet::LaidSheet;

/// Corners in order.
type Ring = Vec<[Length; 2]>;

/// A piece of metal, measured from the lower left corner of the rectangle around it, turned as its sheet lies.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct LeftMetal {
    /// Its outline.
    pub(crate) outline: Ring,
    /// Holes in it.
    pub(crate) holes: Vec<Ring>,
    /// Zones that may not be used, and why.
    pub(crate) torn: Vec<(Ring, String)>,
    /// Its lower left corner on its sheet.
    corner: [Length; 2],
    /// Which of its sides are the sheet's own, never cut; empty for what is left of an offcut that is no rectangle.
    pub(crate) own_sides: Vec<&'static str>,
}

impl LeftMetal {
    /// What is left of a sheet with this drop.
    pub(crate) fn of(laid: &LaidSheet, drop: &KeptDrop) -> Self {
        let [low, high] = drop.between;
        let Some(outline) = &laid.outline else {
            let size = [high.x - low.x, high.y - low.y].map(Length::from_millimetres);
            let zero = Length::ZERO;
            let corners = [[zero, zero], [size[0], zero], size, [zero, size[1]]];
            let own_sides = own_sides(laid.size, drop.between);
            let corner = [low.x, low.y].map(Length::from_millimetres);
            return Self {
                outline: corners.to_vec(),
                holes: Vec::new(),
                torn: Vec::new(),
                corner,
                own_sides,
            };
        };
        let piece = piece_with(&laid.whole().intersection(&Region::rectangle(low, high)), drop.usable);
        let known: Vec<[Length; 2]> =
            outline.corners().iter().chain(outline.holes().iter().flatten()).copied().collect();
        let cuts = [low, high].map(|at| [at.x, at.y].map(Length::from_millimetres));
        let exact = |ring: &[Point]| exact(ring, &[&known[..], &cuts].concat());
        let outer = exact(&piece.outer);
        let least = |axis: usize| outer.iter().map(|corner| corner[axis]).min().unwrap_or_default();
        let corner = [least(0), least(1)];
        let moved =
            |ring: Ring| -> Ring { ring.into_iter().map(|[x, y]| [x - corner[0], y - corner[1]]).collect() };
        let metal = Region::of(&Polygon { outer: piece.outer.clone(), holes: Vec::new() });
        let torn = outline.torn().iter().zip(outline.torn_points()).flat_map(|(zone, points)| {
            let within = Region::of(&Polygon { outer: points, holes: Vec::new() }).intersection(&metal);
            let rings = within.polygons().into_iter().map(|part| part.outer);
            let worth_saying =
                rings.filter(|ring| tolerance::AREA_ROUNDING_MM2 < polygon::signed_area(ring).abs());
            let corners: Vec<[Length; 2]> = zone.outline.clone();
            let known = [&known[..], &cuts, &corners].concat();
            worth_saying.map(|ring| (moved(self::exact(&ring, &known)), zone.why.clone())).collect::<Vec<_>>()
        });
        Self {
            torn: torn.collect(),
            holes: piece.holes.iter().map(|hole| moved(exact(hole))).collect(),
            outline: moved(outer),
            corner,
            own_sides: Vec::new(),
        }
    }

    /// Exact area of its metal, zones that may not be used and all, holes not: as the rack has it.
    pub(crate) fn area(&self) -> Area {
        self.holes.iter().fold(job::enclosed(&self.outline), |metal, hole| metal - job::enclosed(hole))
    }

    /// Where it lies on its sheet.
    pub(super) fn region(&self) -> Region {
        let placed = |ring: &Ring| -> Vec<Point> {
            let at = |axis: usize, along: Length| (along + self.corner[axis]).millimetres();
            ring.iter().map(|&[x, y]| Point::new(at(0, x), at(1, y))).collect()
        };
        let holes = self.holes.iter().map(placed).collect();
        Region::of(&Polygon { outer: placed(&self.outline), holes })
    }
}

/// The part of a region that holds most of a rectangle.
fn piece_with(region: &Region, [low, high]: [Point; 2]) -> Polygon {
    let rectangle = Region::rectangle(low, high);
    let held = |piece: &Polygon| Region::of(piece).intersection(&rectangle).area_mm2();
    let pieces = region.polygons().into_iter();
    pieces.max_by(|a, b| held(a).total_cmp(&held(b))).unwrap_or_default()
}

/// Corners as lengths: where one has a place of the offcut's own corners or of a cut, to what booleans are good to, it has
/// exactly that.
fn exact(ring: &[Point], known: &[[Length; 2]]) -> Ring {
    let near = |millimetres: f64, axis: usize| {
        let of_known = known.iter().map(|corner| corner[axis]);
        let mut close =
            of_known.filter(|at| (at.millimetres() - millimetres).abs() <= tolerance::DRAWN_POINT_MM);
        close.next().unwrap_or_else(|| Length::from_millimetres(millimetres))
    };
    let mut corners: Ring = Vec::new();
    for point in ring {
        let corner = [near(point.x, 0), near(point.y, 1)];
        if corners.last() != Some(&corner) {
            corners.push(corner);
        }
    }
    if 1 < corners.len() && corners.first() == corners.last() {
        corners.pop();
    }
    corners
}

/// Sides of a rectangle that lie on the edges of its sheet.
fn own_sides(size: [Length; 2], [low, high]: [Point; 2]) -> Vec<&'static str> {
    let [length, width] = size.map(Length::millimetres);
    let play = tolerance::SAME_POINT_MM;
    let sides = [
        ("left", low.x <= play),
        ("right", length - play <= high.x),
        ("lower", low.y <= play),
        ("upper", width - play <= high.y),
    ];
    sides.into_iter().filter(|(_, own)| *own).map(|(side, _)| side).collect()
}
