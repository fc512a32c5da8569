//! Flats to draw: made up, but of the sizes and kinds a shop cuts.

#![allow(dead_code, reason = "every test file uses some of these")]
#![allow(clippy::unwrap_used, reason = "a fixture that cannot be made fails the test that asks for it")]

#[allow(dead_code, reason = "the example draws but does not read")]
#[path = "written.rs"]
pub(crate) mod written;

use fold::bend::{BendNumber, Origin};
use fold::part::{Bend, Direction, Edge, Face, FoldedPart, Forming, HoleSize, LegsTo, Relief};
use fold::{FlatPattern, flat};
use geometry::{Contour, Point, Segment, Vector};
use stock::BendModel;
use units::Length;

const INCH: f64 = 25.4;

fn number(thickness_inch: f64) -> BendNumber {
    let length = Length::from_inches(thickness_inch);
    BendNumber::new(length, length, BendModel::KFactor(0.42), Origin::General).unwrap()
}

fn points(corners: &[(f64, f64)], scale: f64) -> Vec<Point> {
    corners.iter().map(|&(x, y)| Point::new(x * scale, y * scale)).collect()
}

/// A part in the making: a root face, and flanges bent off it.
struct Builder {
    part: FoldedPart,
}

impl Builder {
    fn new(root: Vec<Point>, thickness_inch: f64, relief: Relief) -> Self {
        let edges = vec![Edge::Free; root.len()];
        let face = Face { name: "floor".to_owned(), corners: root, edges, holes: Vec::new(), rim: None };
        let number = number(thickness_inch);
        let part = FoldedPart {
            number,
            faces: vec![face],
            bends: Vec::new(),
            seams: Vec::new(),
            sizes: Vec::new(),
            relief,
            notch_width_mm: 3.0,
            mitres: Vec::new(),
            tips: Vec::new(),
            wrapped_inside_mm: None,
        };
        Self { part }
    }

    /// A flange `height` high off `edge` of `parent`, its ends drawn in by `draw_in` at the far side; returns its
    /// face.
    #[allow(clippy::too_many_arguments, reason = "a flange is that many numbers")]
    fn flange(
        &mut self,
        parent: usize,
        edge: usize,
        name: &str,
        height: f64,
        draw_in: (f64, f64),
        turn_degrees: f64,
        direction: Direction,
    ) -> usize {
        let (a, b) = self.part.faces[parent].edge(edge);
        let length = a.distance(b);
        let child = self.part.faces.len();
        let corners = vec![
            Point::new(0.0, 0.0),
            Point::new(length, 0.0),
            Point::new(length - draw_in.0, height),
            Point::new(draw_in.1, height),
        ];
        let edges = vec![Edge::Parent, Edge::Free, Edge::Free, Edge::Free];
        self.part.faces.push(Face { name: name.to_owned(), corners, edges, holes: Vec::new(), rim: None });
        self.part.faces[parent].edges[edge] = Edge::Bend(self.part.bends.len());
        let turn_rad = turn_degrees.to_radians();
        let inside_radius_mm = self.part.number.inside_radius().millimetres();
        self.part.bends.push(Bend {
            parent,
            parent_edge: edge,
            child,
            turn_rad,
            direction,
            inside_radius_mm,
            legs_to: LegsTo::MoldLine,
            forming: Forming::Brake,
        });
        child
    }

    /// Cuts both lower corners of a flange back by `by`; its far edge then is number 3.
    fn stand_back(&mut self, face: usize, by: f64) {
        let face = &mut self.part.faces[face];
        let length = face.corners[1].x;
        face.corners.insert(2, Point::new(length - by, by));
        face.corners.push(Point::new(by, by));
        face.edges.extend([Edge::Free, Edge::Free]);
    }

    fn flat(&self) -> FlatPattern {
        flat::unfold(&self.part).unwrap()
    }
}

/// A cull tray: floor 28.75 × 21, walls 4 up, rims 1/2 outward.
pub(crate) fn tray() -> FlatPattern {
    let floor = points(&[(0.0, 0.0), (28.75, 0.0), (28.75, 21.0), (0.0, 21.0)], INCH);
    let mut builder = Builder::new(floor, 0.090, Relief::Square);
    for edge in 0..4 {
        let wall = builder.flange(
            0,
            edge,
            &format!("wall {}", edge + 1),
            4.0 * INCH,
            (2.4, 2.4),
            90.0,
            Direction::Up,
        );
        builder.flange(wall, 2, &format!("rim {}", edge + 1), 0.5 * INCH, (0.0, 0.0), 90.0, Direction::Down);
    }
    builder.flat()
}

/// A lid tapered on four sides over a crooked opening, with skirts.
pub(crate) fn tapered_lid() -> FlatPattern {
    let top = points(&[(0.0, 0.0), (26.2, 0.3), (25.7, 19.1), (0.4, 20.2)], INCH);
    let mut builder = Builder::new(top, 0.125, Relief::Round(HoleSize::Given { radius_mm: 5.0 }));
    let sides = [(3.606, 33.69), (3.202, 38.66), (4.697, 25.20), (2.828, 45.0)];
    for (edge, (slant, turn)) in sides.into_iter().enumerate() {
        let out = -0.35 * slant * INCH;
        let name = ["side AB", "side BC", "side CD", "side DA"][edge];
        let side = builder.flange(0, edge, name, slant * INCH, (out, out), turn, Direction::Down);
        builder.stand_back(side, 4.0);
        let skirt = ["skirt AB", "skirt BC", "skirt CD", "skirt DA"][edge];
        builder.flange(side, 3, skirt, 1.125 * INCH, (3.0, 3.0), 90.0 - turn, Direction::Down);
    }
    builder.flat()
}

/// A flat panel with round holes, two slots with round ends and a notch.
pub(crate) fn panel() -> FlatPattern {
    let outline = [(0.0, 0.0), (1040.0, 0.0), (1040.0, 560.0), (820.0, 560.0), (820.0, 720.0), (0.0, 720.0)];
    let mut builder = Builder::new(points(&outline, 1.0), 0.125, Relief::Square);
    let holes = &mut builder.part.faces[0].holes;
    for k in 0..5 {
        let x = 100.0 + 160.0 * f64::from(k);
        holes.push(Contour::round_hole(Point::new(x, 90.0), 6.5));
        holes.push(Contour::round_hole(Point::new(x, 640.0), if k == 0 { 30.0 } else { 6.5 }));
    }
    holes.push(slot(Point::new(300.0, 300.0), 120.0, 15.0));
    holes.push(slot(Point::new(700.0, 300.0), 120.0, 15.0));
    builder.flat()
}

/// A slot with round ends along x.
fn slot(centre: Point, length: f64, radius: f64) -> Contour {
    let half = 0.5 * length - radius;
    let (left, right) = (centre - Vector::new(half, 0.0), centre + Vector::new(half, 0.0));
    let up = Vector::new(0.0, radius);
    let arc = |to, centre| Segment::Arc { to, centre, counter_clockwise: false };
    Contour {
        segments: vec![
            Segment::Line { to: right + up },
            arc(right - up, right),
            Segment::Line { to: left - up },
            arc(left + up, left),
        ],
    }
}

/// A small clip with one bend up and one down.
pub(crate) fn clip() -> FlatPattern {
    let mut builder = Builder::new(
        points(&[(0.0, 0.0), (60.0, 0.0), (60.0, 40.0), (0.0, 40.0)], 1.0),
        0.063,
        Relief::Square,
    );
    builder.flange(0, 0, "foot", 20.0, (0.0, 0.0), 90.0, Direction::Up);
    builder.flange(0, 2, "ear", 25.0, (4.0, 4.0), 60.0, Direction::Down);
    builder.part.faces[0].holes.push(Contour::round_hole(Point::new(30.0, 20.0), 5.0));
    builder.flat()
}

/// A wiring chase 128 long, 6 × 3.
pub(crate) fn chase() -> FlatPattern {
    let web = points(&[(0.0, 0.0), (128.0, 0.0), (128.0, 6.0), (0.0, 6.0)], INCH);
    let mut builder = Builder::new(web, 0.125, Relief::Square);
    builder.flange(0, 0, "side", 3.0 * INCH, (0.0, 0.0), 90.0, Direction::Up);
    builder.flange(0, 2, "side", 3.0 * INCH, (0.0, 0.0), 90.0, Direction::Up);
    builder.flat()
}

/// A side deck 142 long whose outboard edge follows ten stations, with a flange on every run.
pub(crate) fn side_deck() -> FlatPattern {
    let stations = [0.0, 15.0, 30.0, 45.0, 60.0, 75.0, 90.0, 105.0, 120.0, 142.0];
    let widths = [11.5, 12.25, 12.875, 13.25, 13.5, 13.5, 13.25, 12.75, 12.0, 10.875];
    let mut outline: Vec<(f64, f64)> = vec![(0.0, 0.0), (142.0, 0.0)];
    outline.extend(stations.iter().rev().zip(widths.iter().rev()).map(|(&x, &y)| (x, y)));
    let mut builder = Builder::new(points(&outline, INCH), 0.125, Relief::Square);
    builder.flange(0, 0, "inboard flange", 0.75 * INCH, (0.0, 0.0), 90.0, Direction::Down);
    builder.flat()
}

/// A pan with walls that lean in by `lean` and rims, up or down.
pub(crate) fn pan((length, width): (f64, f64), wall: f64, rim: f64, rim_up: bool, lean: f64) -> FlatPattern {
    let floor = points(&[(0.0, 0.0), (length, 0.0), (length, width), (0.0, width)], 1.0);
    let mut builder = Builder::new(floor, 0.063, Relief::Square);
    let draw_in = lean.max(-0.3 * wall).min(0.1 * length.min(width)) + 2.0;
    for edge in 0..4 {
        let wall = builder.flange(0, edge, "wall", wall, (draw_in, draw_in), 82.5, Direction::Up);
        builder.stand_back(wall, 3.0);
        let direction = if rim_up { Direction::Up } else { Direction::Down };
        builder.flange(wall, 3, "rim", rim, (1.0, 1.0), 82.5, direction);
    }
    builder.flat()
}

/// A rectangular plate with round holes at shares of its sides, their radii in shares of the shorter one.
pub(crate) fn plate((length, width): (f64, f64), holes: &[(f64, f64, f64)]) -> FlatPattern {
    let corners = [(0.0, 0.0), (length, 0.0), (length, width), (0.0, width)];
    let mut builder = Builder::new(points(&corners, 1.0), 0.125, Relief::Square);
    for &(x, y, radius) in holes {
        let centre = Point::new(x * length, y * width);
        builder.part.faces[0].holes.push(Contour::round_hole(centre, radius * length.min(width)));
    }
    builder.flat()
}

/// Every flat with its mark.
pub(crate) fn all() -> Vec<(&'static str, FlatPattern)> {
    vec![
        ("T", tray()),
        ("L1", tapered_lid()),
        ("P", panel()),
        ("C", clip()),
        ("W", chase()),
        ("D-port", side_deck()),
    ]
}
