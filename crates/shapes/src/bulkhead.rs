//! A bulkhead from half-breadths at waterlines: straight-sided between them, with flanges on chosen edges, limber holes
//! just above the bend of the bottom, and lightening holes.
//!
//! Seen from aft, starboard to the right; the after face is marked. Half-breadths run from the centreline to the
//! outside of the flange. Heights run up from the baseline.

mod check;

use fold::Direction;
use geometry::{Contour, Point, polygon};
use units::Length;

use crate::hole::Hole;
use crate::runs::{Run, RunFlange, Runs};
use crate::{DrawnFace, Fact, Making, Problem, Recipe, Shaped, panel};

/// A bulkhead.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bulkhead {
    /// Waterlines from the lowest up.
    pub waterlines: Vec<Waterline>,
    /// Flanges.
    pub flanges: Vec<BulkheadFlange>,
    /// Width of the slit between the flanges of two runs.
    pub slit: Length,
    /// Limber holes.
    pub limber_holes: Vec<LimberHole>,
    /// Lightening holes, from the centreline (starboard above zero) and the baseline.
    pub holes: Vec<Hole>,
}

/// A waterline and the half-breadths there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Waterline {
    /// Above the baseline.
    pub height: Length,
    /// From the centreline to port.
    pub port: Length,
    /// From the centreline to starboard.
    pub starboard: Length,
}

/// An edge of a bulkhead.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BulkheadEdge {
    /// Along the port side.
    Port,
    /// Along the starboard side.
    Starboard,
    /// Along the highest waterline.
    Top,
    /// Along the lowest waterline, where it has a breadth.
    Bottom,
}

/// A flange along an edge.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct BulkheadFlange {
    /// The edge.
    pub edge: BulkheadEdge,
    /// Outside leg.
    pub leg: Length,
    /// Up is toward aft, the viewer.
    pub direction: Direction,
}

/// A round hole as low as it can be drilled, so that water drains past the bulkhead.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LimberHole {
    /// From the centreline, starboard above zero.
    pub from_centre: Length,
    /// Diameter.
    pub diameter: Length,
}

impl BulkheadEdge {
    /// What the shop calls it.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Port => "port",
            Self::Starboard => "starboard",
            Self::Top => "top",
            Self::Bottom => "bottom",
        }
    }
}

impl Recipe for Bulkhead {
    fn word(&self) -> &'static str {
        "bulkhead"
    }

    fn words(&self) -> &'static str {
        "bulkhead"
    }

    fn drawn_face(&self) -> DrawnFace {
        DrawnFace::After
    }

    fn tight_field(&self) -> &'static str {
        "flanges"
    }

    fn shape_piece(&self, _: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        self.check(making)?;
        let mut problems = Vec::new();
        let mut runs = self.runs(making);
        if let Some((first, second)) = polygon::self_crossing(&runs.corners) {
            let value = format!("{} and {}", runs.runs[first].name, runs.runs[second].name);
            let remedy = "check the half-breadths";
            return Err(vec![Problem::new("waterlines", value, "these edges cross or touch", remedy)]);
        }
        let mut facts = self.facts(&runs, making);
        let mut holes = panel::contours(&self.holes, making, &mut problems);
        for (number, &limber) in self.limber_holes.iter().enumerate() {
            match self.limber(limber, &runs, making) {
                Ok((hole, fact)) => {
                    holes.push(hole);
                    facts.push(fact);
                }
                Err(wrong) => {
                    let field = format!("limber_holes[{number}].from_centre");
                    let remedy = "move it, or make it smaller";
                    problems.push(Problem::new(field, making.print(limber.from_centre), wrong, remedy));
                }
            }
        }
        if !problems.is_empty() {
            return Err(problems);
        }
        runs.holes = holes;
        let part = runs.build(making).map_err(|room| {
            let wrong = "is too short for a flange of its own";
            let taken = making.print_mm(room.taken_mm);
            let remedy = format!("the cuts at its ends take {taken}: leave a waterline out");
            vec![Problem::new("waterlines", &runs.runs[room.run].name, wrong, remedy)]
        })?;
        Ok(Shaped { part, facts })
    }
}

impl Bulkhead {
    /// The outline counter-clockwise from the lowest waterline's port end.
    fn runs(&self, making: &Making) -> Runs {
        let (lowest, highest) = (self.waterlines[0], self.waterlines[self.waterlines.len() - 1]);
        let flange = |edge: BulkheadEdge| {
            let flange = self.flanges.iter().find(|flange| flange.edge == edge)?;
            Some(RunFlange { leg_mm: flange.leg.millimetres(), direction: flange.direction })
        };
        let point = |x: Length, line: Waterline| Point::new(x.millimetres(), line.height.millimetres());
        let mut corners = Vec::new();
        let mut runs = Vec::new();
        let mut run = |corner: Point, name: String, edge: BulkheadEdge| {
            corners.push(corner);
            runs.push(Run { name, flange: flange(edge), least_back_mm: 0.0 });
        };
        if lowest.port + lowest.starboard > Length::ZERO {
            run(point(-lowest.port, lowest), "bottom".to_owned(), BulkheadEdge::Bottom);
        }
        let between = |pair: &[Waterline], side: &str| {
            format!("{side} {} to {}", making.print(pair[0].height), making.print(pair[1].height))
        };
        for pair in self.waterlines.windows(2) {
            let name = between(pair, "starboard");
            run(point(pair[0].starboard, pair[0]), name, BulkheadEdge::Starboard);
        }
        if highest.port + highest.starboard > Length::ZERO {
            run(point(highest.starboard, highest), "top".to_owned(), BulkheadEdge::Top);
        }
        for pair in self.waterlines.windows(2).rev() {
            run(point(-pair[1].port, pair[1]), between(pair, "port"), BulkheadEdge::Port);
        }
        let slit_mm = self.slit.millimetres();
        Runs { name: "bulkhead".to_owned(), corners, runs, holes: Vec::new(), slit_mm, ends_meet: false }
    }

    /// A limber hole as low as it goes: one thickness above the tangent line of the bend below it, or above the edge.
    fn limber(&self, limber: LimberHole, runs: &Runs, making: &Making) -> Result<(Contour, Fact), String> {
        let (x, radius) = (limber.from_centre.millimetres(), 0.5 * limber.diameter.millimetres());
        let bend = making.thickness_mm() + making.number.inside_radius().millimetres();
        let count = runs.corners.len();
        let edges = (0..count).map(|run| {
            let free = making.thickness_mm() + if runs.runs[run].flange.is_some() { bend } else { 0.0 };
            (runs.corners[run], runs.corners[(run + 1) % count], free + radius)
        });
        let edges: Vec<(Point, Point, f64)> = edges.collect();
        let above = |&(a, b, free): &(Point, Point, f64)| {
            let along = b - a;
            let near = a.x - free <= x && x <= b.x + free;
            (is_bottom(a, b) && near).then(|| {
                let slope = along.y / along.x;
                a.y + slope * (x - a.x) + free * geometry::trig::hypot(1.0, slope)
            })
        };
        let lowest = edges.iter().filter_map(above).fold(f64::NEG_INFINITY, f64::max);
        let centre = Point::new(x, lowest);
        let clear = |&(a, b, free): &(Point, Point, f64)| {
            polygon::point_to_segment(centre, (a, b)) > free - geometry::tolerance::SAME_POINT_MM
        };
        let under = edges.iter().any(|&(a, b, _)| is_bottom(a, b) && a.x <= x && x <= b.x);
        if !under || !polygon::contains(&runs.corners, centre) || !edges.iter().all(clear) {
            return Err("there is no room for this limber hole clear of edges and bends".to_owned());
        }
        let lowest_corner = runs.corners.iter().map(|corner| corner.y).fold(f64::INFINITY, f64::min);
        let words = format!(
            "centre {} above the baseline; water stands {} above the lowest point before it drains",
            making.print_mm(lowest),
            making.print_mm(lowest - radius - lowest_corner)
        );
        // By its side in words, which the opposite hand exchanges; a sign would stay as it is.
        let off = making.print(limber.from_centre.abs());
        let name = match limber.from_centre.cmp(&Length::ZERO) {
            std::cmp::Ordering::Less => format!("limber hole {off} to port"),
            std::cmp::Ordering::Equal => "limber hole on the centreline".to_owned(),
            std::cmp::Ordering::Greater => format!("limber hole {off} to starboard"),
        };
        let origin = "one thickness clear of the bend below it";
        Ok((Contour::round_hole(centre, radius), Fact::words(name, words, origin)))
    }

    fn facts(&self, runs: &Runs, making: &Making) -> Vec<Fact> {
        let area = polygon::signed_area(&runs.corners);
        let mut facts = vec![Fact::area_mm2("area before holes", area, "waterlines, by trapezoids")];
        let count = runs.corners.len();
        for (number, run) in runs.runs.iter().enumerate() {
            let length = runs.corners[number].distance(runs.corners[(number + 1) % count]);
            facts.push(Fact::length_mm(format!("edge {}", run.name), length, "half-breadths and heights"));
            if let Some(cut) = runs.cut(number, making) {
                let before = &runs.runs[(number + count - 1) % count].name;
                let [bend, edge] = [cut.at_bend_mm, cut.at_edge_mm].map(|mm| making.print_mm(mm));
                let corner = cut.corner_words(making);
                let words =
                    format!("{bend} wide at the bend and {edge} at the flange's edge, in the flat{corner}");
                facts.push(Fact::words(format!("cut between {before} and {}", run.name), words, "slit"));
            }
        }
        let even = self.waterlines.iter().all(|line| line.port == line.starboard);
        let words = if even { "port and starboard alike" } else { "port and starboard as given, not alike" };
        facts.push(Fact::words("symmetry", words, "waterlines"));
        facts
    }
}

/// True for an edge that water runs down along: it faces down and lies flatter than 45°.
fn is_bottom(a: Point, b: Point) -> bool {
    let along = b - a;
    along.x > 0.0 && along.y.abs() <= along.x
}
