//! Why a figure is not convex, with its corners and angles, and where it would be split.

use geometry::{Point, polygon, tolerance};
use units::{Angle, Length, LengthStyle};

/// What is wrong with a figure that is not convex, and what to do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NotConvex {
    /// What is wrong, one clause.
    pub wrong: String,
    /// What to do, one clause.
    pub remedy: String,
    /// Whether the figure crosses or touches itself; else it has an inside corner, or one that is straight.
    pub crosses: bool,
}

/// Looks for what keeps a figure with these corners, run either way round, from being convex. `None` where it is convex.
#[must_use]
pub fn not_convex(corners: &[Point], names: &[String], style: LengthStyle) -> Option<NotConvex> {
    let mut ring: Vec<(Point, &str)> =
        corners.iter().copied().zip(names.iter().map(String::as_str)).collect();
    if polygon::signed_area(corners) < 0.0 {
        ring.reverse();
    }
    let points: Vec<Point> = ring.iter().map(|corner| corner.0).collect();
    if polygon::is_convex(&points) && polygon::self_crossing(&points).is_none() {
        return None;
    }
    let figure = Ring { corners: points, names: ring.iter().map(|corner| corner.1).collect(), style };
    Some(figure.crossing().or_else(|| figure.inside_corners()).unwrap_or_else(|| figure.straight()))
}

/// A ring that runs counter-clockwise.
struct Ring<'a> {
    corners: Vec<Point>,
    names: Vec<&'a str>,
    style: LengthStyle,
}

/// Where a line from an inside corner ends.
enum End {
    /// At a corner.
    Corner(usize),
    /// On a side, in line with the side that ends at the inside corner.
    Side(usize, Point),
}

impl Ring<'_> {
    fn crossing(&self) -> Option<NotConvex> {
        let (one, other) = polygon::self_crossing(&self.corners)?;
        let ((a, b), (c, d)) = (self.side(one), self.side(other));
        let at = a.crossing(b - a, c, d - c);
        let place = at.map_or_else(String::new, |at| {
            format!(
                ", {} from {} and {} from {}",
                self.print(a.distance(at)),
                self.names[one],
                self.print(c.distance(at)),
                self.names[other]
            )
        });
        Some(NotConvex {
            wrong: format!("crosses itself: side {} meets side {}{place}", self.side_name(one), self.side_name(other)),
            remedy: "name the corners in order once round, and measure again what runs to these sides: one is misread"
                .to_owned(),
            crosses: true,
        })
    }

    fn inside_corners(&self) -> Option<NotConvex> {
        let count = self.corners.len();
        let inside: Vec<usize> = (0..count).filter(|&at| self.turns_right(at)).collect();
        let sharpest = *inside.iter().max_by(|&&a, &&b| self.angle(a).total_cmp(&self.angle(b)))?;
        let told: Vec<String> = inside
            .iter()
            .map(|&at| {
                format!(
                    "{}, where the inside angle is {}°",
                    self.names[at],
                    Angle::from_radians(self.angle(at)).print(1)
                )
            })
            .collect();
        let plural = if inside.len() == 1 { "an inside corner" } else { "inside corners" };
        let (end, length_mm) = self.split(sharpest)?;
        let (from, length) = (self.names[sharpest], self.print(length_mm));
        let line = match end {
            End::Corner(to) => format!("from {from} to {}, {length} long", self.names[to]),
            End::Side(side, at) => {
                let before = self.side_name((sharpest + count - 1) % count);
                let first = self.corners[side];
                format!(
                    "from {from} in line with {before} to side {}, {} from {}, {length} long",
                    self.side_name(side),
                    self.print(first.distance(at)),
                    self.names[side]
                )
            }
        };
        let more = if inside.len() == 1 { "" } else { ", then look again" };
        Some(NotConvex {
            wrong: format!("has {plural}: {}", told.join("; ")),
            remedy: format!(
                "measure again; if it is so, split it by the line {line}{more}, and make one part of each side of it"
            ),
            crosses: false,
        })
    }

    /// No corner turns inward, so one does not turn at all.
    fn straight(&self) -> NotConvex {
        let count = self.corners.len();
        let flattest = (0..count).min_by(|&a, &b| {
            let off = |at: usize| (self.angle(at) - std::f64::consts::PI).abs();
            off(a).total_cmp(&off(b))
        });
        let at = flattest.unwrap_or(0);
        let [before, after] = [count - 1, 1].map(|step| self.names[(at + step) % count]);
        NotConvex {
            wrong: format!("has a corner {} on the straight line from {before} to {after}", self.names[at]),
            remedy: "leave that corner out: it is none".to_owned(),
            crosses: false,
        }
    }

    /// The shortest line from an inside corner to another corner that leaves no inside corner there on either side of it;
    /// else the side before it carried on.
    fn split(&self, at: usize) -> Option<(End, f64)> {
        let count = self.corners.len();
        let here = self.corners[at];
        let (into, out) = self.around(at);
        let halves = |to: Point| {
            let line = to - here;
            // Left of the side that comes in, carried on, and right of the side that goes out, carried back.
            into.cross(line) >= 0.0 && out.cross(line) >= 0.0
        };
        let free = |to: usize| {
            let beside = |side: usize| {
                side == at || side == to || (side + 1) % count == at || (side + 1) % count == to
            };
            (0..count).filter(|&side| !beside(side)).all(|side| {
                let (a, b) = self.side(side);
                meeting(here, self.corners[to], a, b).is_none()
            })
        };
        let others = (2..count.saturating_sub(1)).map(|step| (at + step) % count);
        let corner = others
            .filter(|&to| halves(self.corners[to]) && free(to))
            .map(|to| (to, here.distance(self.corners[to])))
            .min_by(|a, b| a.1.total_cmp(&b.1));
        if let Some((to, length)) = corner {
            return Some((End::Corner(to), length));
        }
        let (low, high) = polygon::bounds(&self.corners);
        let far = here + into.unit() * (2.0 * low.distance(high));
        (0..count)
            .filter(|&side| side != at && (side + 1) % count != at)
            .filter_map(|side| {
                let (a, b) = self.side(side);
                let point = meeting(here, far, a, b)?;
                Some((End::Side(side, point), here.distance(point)))
            })
            .min_by(|a, b| a.1.total_cmp(&b.1))
    }

    fn turns_right(&self, at: usize) -> bool {
        let (into, out) = self.around(at);
        into.cross(out) < -tolerance::PARALLEL_SINE * into.length() * out.length()
    }

    /// The sides before and after a corner, as they run.
    fn around(&self, at: usize) -> (geometry::Vector, geometry::Vector) {
        let count = self.corners.len();
        let here = self.corners[at];
        (here - self.corners[(at + count - 1) % count], self.corners[(at + 1) % count] - here)
    }

    /// Inside angle, radians.
    fn angle(&self, at: usize) -> f64 {
        let (into, out) = self.around(at);
        std::f64::consts::PI - geometry::trig::atan2(into.cross(out), into.dot(out))
    }

    fn side(&self, number: usize) -> (Point, Point) {
        (self.corners[number], self.corners[(number + 1) % self.corners.len()])
    }

    /// "CD", in the order of the letters but for the last side, which is that from the last letter to the first.
    fn side_name(&self, number: usize) -> String {
        let count = self.corners.len();
        let (from, to) = (self.names[number], self.names[(number + 1) % count]);
        let last = [from, to].contains(&"A") && ![from, to].contains(&"B");
        if (from < to) == last { format!("{to}{from}") } else { format!("{from}{to}") }
    }

    fn print(&self, millimetres: f64) -> String {
        Length::from_millimetres(millimetres).print(self.style)
    }
}

/// Where two stretches meet, ends counted in.
fn meeting(p: Point, q: Point, a: Point, b: Point) -> Option<Point> {
    let at = p.crossing(q - p, a, b - a)?;
    let on = |from: Point, to: Point| {
        let along = (to - from).unit().dot(at - from);
        (-tolerance::SAME_POINT_MM..=from.distance(to) + tolerance::SAME_POINT_MM).contains(&along)
    };
    (on(p, q) && on(a, b)).then_some(at)
}
