//! A door that does not swing clear of its opening.
//!
//! A leaf stopped short leans into the doorway and takes some of its clear width. How much is taped, or worked from the
//! leaf, its pin and its stop. The part comes out straight, so the whole of its way must clear what is left.

use geometry::{Point, Vector, tolerance, trig};
use shapes::{Clearance, Fact};
use units::{Angle, Length, LengthStyle};

use super::answer::{Answer, Role, Scene};
use super::body::Body;
use super::level::Way;

/// A doorway with its door.
#[derive(Debug, Clone, PartialEq)]
pub struct Doorway {
    /// Clear width and height with no door.
    pub clear: [Length; 2],
    /// What must stay free at each side, such as runners.
    pub clearance: Clearance,
    /// How the part goes through.
    pub way: Way,
    /// How far the door opens, from closed.
    pub opens: Angle,
    /// What the door takes of the width.
    pub leaf: Leaf,
}

/// What a door takes of its doorway.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Leaf {
    /// As taped with the door at its stop.
    Taped(Length),
    /// Worked from the leaf. It lies flat on the face of the frame when closed and swings outward.
    Sized {
        /// From the pin to the free edge, along the closed door.
        reach: Length,
        /// From the side of the doorway back to the pin, along the frame.
        pin_beside: Length,
        /// From the face of the frame out to the pin.
        pin_out: Length,
        /// Thickness of the leaf.
        thickness: Length,
        /// How far out past the frame the part is pulled before it is free; the whole leaf counts when not given.
        travel: Option<Length>,
    },
}

/// Farthest that a pin is set back beside the doorway, mm, for a door of which only what it takes is taped (common
/// practice, no source).
const PIN_BESIDE_MM: f64 = 50.0;

/// Most that a leaf's thickness and a pin set out from the frame add together, mm (common practice, no source).
const LEAF_AND_PIN_MM: f64 = 100.0;

/// What keeps a doorway from being judged: its sizes contradict one another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Contradiction {
    /// A door opened so far takes at least this much of the doorway, mm, and less was taped.
    TakesMore(f64),
    /// A door opened so far takes at most this much of the doorway, mm, and more was taped.
    TakesLess(f64),
    /// The closed leaf, flat on its frame, leaves this much of the doorway open, mm.
    LeavesOpen(f64),
}

impl Leaf {
    /// Whether the leaf can be the door of a doorway so wide, opened by `opens`.
    ///
    /// Plane geometry: the closed leaf lies on the face of the frame and reaches from the pin across the doorway, so a
    /// reach r from a pin set p beside it leaves the free edge at r·cos θ − p. Of a door that is only taped, pin and
    /// thickness are taken at the ends of what is met.
    #[must_use]
    pub fn contradiction(&self, clear_width: Length, opens: Angle) -> Option<Contradiction> {
        let clear_mm = clear_width.millimetres();
        match self {
            Self::Sized { reach, pin_beside, .. } => {
                let open_mm = clear_mm - (reach.millimetres() - pin_beside.millimetres());
                (tolerance::FIT_MM < open_mm).then_some(Contradiction::LeavesOpen(open_mm))
            }
            Self::Taped(taken) => {
                let cos = trig::cos(opens.radians());
                let edge_mm = |beside_mm: f64| (clear_mm + beside_mm) * cos - beside_mm;
                let least_mm = edge_mm(0.0).min(edge_mm(PIN_BESIDE_MM)).max(0.0);
                let most_mm =
                    (edge_mm(0.0).max(edge_mm(PIN_BESIDE_MM)).max(0.0) + LEAF_AND_PIN_MM).min(clear_mm);
                let taken_mm = taken.millimetres();
                if taken_mm < least_mm - tolerance::FIT_MM {
                    Some(Contradiction::TakesMore(least_mm))
                } else if most_mm + tolerance::FIT_MM < taken_mm {
                    Some(Contradiction::TakesLess(most_mm))
                } else {
                    None
                }
            }
        }
    }

    /// How far the leaf stands into the doorway when opened by `opens`, mm; zero when it stands clear.
    ///
    /// Plane geometry: the leaf is a rectangle turned about the pin; the farthest point of it into the doorway counts,
    /// as far out as the part travels.
    #[must_use]
    pub fn intrusion_mm(&self, opens: Angle) -> f64 {
        match self {
            Self::Taped(length) => length.millimetres(),
            Self::Sized { travel, .. } => {
                let corners = self.corners(opens);
                let most_out = travel.map_or(f64::INFINITY, Length::millimetres);
                let edges = (0..corners.len()).map(|at| (corners[at], corners[(at + 1) % corners.len()]));
                let reached = edges.filter_map(|(a, b)| farthest_in(a, b, most_out));
                reached.fold(0.0, f64::max)
            }
        }
    }

    /// Corners of the leaf opened by `opens`: x from the hinge side of the doorway into it, y out of the frame.
    fn corners(&self, opens: Angle) -> Vec<Point> {
        let Self::Sized { reach, pin_beside, pin_out, thickness, .. } = self else { return Vec::new() };
        let pin = Point::new(-pin_beside.millimetres(), pin_out.millimetres());
        let (reach, inside, outside) =
            (reach.millimetres(), -pin_out.millimetres(), thickness.millimetres() - pin_out.millimetres());
        let closed = [(0.0, inside), (reach, inside), (reach, outside), (0.0, outside)];
        closed.map(|(x, y)| pin + Vector::new(x, y).turned(opens.radians())).to_vec()
    }
}

/// The largest x of a piece of edge where y is from the frame out to `most_out`.
fn farthest_in(a: Point, b: Point, most_out: f64) -> Option<f64> {
    let (low, high) = if a.y <= b.y { (a, b) } else { (b, a) };
    let (from, to) = (low.y.max(0.0), high.y.min(most_out));
    if to < from {
        return None;
    }
    let rise = high.y - low.y;
    let at =
        |y: f64| if rise > 0.0 { low.x + (high.x - low.x) * (y - low.y) / rise } else { low.x.max(high.x) };
    Some(at(from).max(at(to)))
}

impl Doorway {
    /// How far a part is said to be pulled past the frame, and how much longer than that it is along its way, mm; `None`
    /// where it is free by then, or the whole leaf counts.
    #[must_use]
    pub fn short_travel(&self, body: &Body) -> Option<(Length, f64)> {
        let Leaf::Sized { travel: Some(travel), .. } = self.leaf else { return None };
        let (low, high) = body.bounds();
        let long_mm = match self.way {
            Way::Endwise | Way::Up => high.x - low.x,
            Way::Sideways => high.y - low.y,
        };
        let more_mm = long_mm - travel.millimetres();
        (tolerance::FIT_MM < more_mm).then_some((travel, more_mm))
    }

    /// Judges a part that goes through.
    #[must_use]
    pub fn judge(&self, mark: &str, body: &Body, style: LengthStyle) -> Answer {
        let (low, high) = body.bounds();
        let width_mm = match self.way {
            Way::Endwise | Way::Up => high.y - low.y,
            Way::Sideways => high.x - low.x,
        };
        let height_mm = high.z - low.z;
        let print = |millimetres: f64| Length::from_millimetres(millimetres).print(style);
        let [clear_width, clear_height] = self.clear.map(Length::millimetres);
        let taken_mm = self.leaf.intrusion_mm(self.opens);
        let needed_mm = width_mm + 2.0 * self.clearance.total().millimetres();
        let spare_mm = clear_width - taken_mm - needed_mm;
        let height_spare_mm = clear_height - height_mm;
        let fits = -tolerance::FIT_MM <= spare_mm.min(height_spare_mm);
        let off_hinge_mm = clear_width - needed_mm;
        let degrees = self.opens.print(1);
        let sentence = if fits {
            format!(
                "{mark} passes the door stopped at {degrees}°, {} to spare in width",
                print(spare_mm.max(0.0))
            )
        } else if height_spare_mm < -tolerance::FIT_MM {
            format!("{mark} is {} too high for the doorway", print(-height_spare_mm))
        } else if -tolerance::FIT_MM <= off_hinge_mm {
            let freed = self
                .least_opening(off_hinge_mm)
                .map_or_else(String::new, |angle| format!(", or opened to {}°", angle.print(1)));
            format!(
                "{mark} does not pass the door stopped at {degrees}°: {} short in width; with the door off its hinge{freed} \
                 it passes, {} to spare",
                print(-spare_mm),
                print(off_hinge_mm.max(0.0))
            )
        } else {
            format!(
                "{mark} does not pass the doorway even without its door: {} short in width",
                print(-off_hinge_mm)
            )
        };
        let doorway = self.clear.map(|length| length.print(style));
        let doorway = format!("{} wide × {} high, its door opened to {degrees}°", doorway[0], doorway[1]);
        let facts = vec![
            Fact::words("doorway", doorway, "the job"),
            Fact::words("clearance", self.clearance.sum_words(style), "clearance"),
            Fact::length_mm("taken by the door", taken_mm, "leaf at its stop"),
            Fact::length_mm(
                "clear width left",
                clear_width - taken_mm,
                "clear width less what the door takes",
            ),
            Fact::length_mm("width needed", needed_mm, "part plus clearance at both sides"),
            Fact::length_mm("spare in width", spare_mm, "clear width left less width needed"),
            Fact::length_mm("spare in height", height_spare_mm, "clear height less part"),
            Fact::length_mm("spare without the door", off_hinge_mm, "clear width less width needed"),
        ];
        Answer { fits, sentence, facts, scenes: vec![self.scene(mark, [width_mm, needed_mm])] }
    }

    /// The least whole tenth of a degree at which the leaf takes no more than `allowed_mm`; `None` when it is not known.
    fn least_opening(&self, allowed_mm: f64) -> Option<Angle> {
        let Leaf::Sized { .. } = self.leaf else { return None };
        let tenths = |number: u32| Angle::from_degrees(0.1 * f64::from(number));
        let clears = |angle: &Angle| self.leaf.intrusion_mm(*angle) <= allowed_mm + tolerance::FIT_MM;
        (0..=1800).map(tenths).find(|angle| self.opens < *angle && clears(angle))
    }

    /// From above: the frame, the leaf at its stop, and the part half out with its clearance at both sides. The room it
    /// needs lies on top, so that what is short of it is seen.
    fn scene(&self, mark: &str, [width_mm, needed_mm]: [f64; 2]) -> Scene {
        let clear = self.clear[0].millimetres();
        let (jamb, deep) = (0.15 * clear, 0.1 * clear);
        let block = |from: f64, to: f64, low: f64, high: f64| {
            [(from, low), (to, low), (to, high), (from, high)].map(|(x, y)| Point::new(x, y)).to_vec()
        };
        let taken = self.leaf.intrusion_mm(self.opens);
        let start = taken + 0.5 * (clear - taken - needed_mm);
        let beside = 0.5 * (needed_mm - width_mm);
        let mut scene = Scene::titled("doorway from above, door at its stop")
            .with(Role::Fixed, block(-jamb, 0.0, -deep, 0.0), "hinge side")
            .with(Role::Fixed, block(clear, clear + jamb, -deep, 0.0), "");
        if let Leaf::Sized { .. } = self.leaf {
            scene = scene.with(Role::Fixed, self.leaf.corners(self.opens), "door");
        } else if taken > 0.0 {
            scene = scene.with(Role::Fixed, block(0.0, taken, 0.0, 0.5 * clear), "taken by the door");
        }
        let along = |from: f64, wide: f64| block(from, from + wide, -0.5 * clear, 0.5 * clear);
        scene =
            scene.with(Role::Part, along(start, needed_mm), format!("room {mark} needs, with its clearance"));
        if tolerance::FIT_MM < beside {
            scene.with(Role::Before, along(start + beside, width_mm), mark)
        } else {
            scene
        }
    }
}
