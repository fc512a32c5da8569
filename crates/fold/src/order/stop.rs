//! The back stop: the rearmost edge of the metal, if it is straight, runs along the bend and stops a sheet.
//!
//! A sheet is stopped by its own free edge or by the outside of a flange that stands up or hangs down steeply. A slope does
//! not stop it: a crease of a few degrees slides under or over the finger, and a flange that leans away from the bend meets
//! the finger's top before its foot, nobody knows how far before. What touches may be the free edge of a flange that leans
//! back, over or under the sheet: then the stop's face is wanted at that height, or the sheet slides in under it.

use super::convex::Slab;
use geometry::{Point, Point3, tolerance};

/// Height of a back stop's face above and below the sheet, mm: metal standing higher passes over it (common practice, no
/// source).
const STOP_HEIGHT_MM: f64 = 25.0;

/// Shortest edge that lies square against two stops, mm (common practice, no source).
const STOP_EDGE_MM: f64 = 25.0;

/// How far above or below the sheet a plumb flange may begin for a stop level with the die, mm: the height of its face,
/// 1/2 in (common practice, no source).
const LEVEL_FACE_MM: f64 = 12.7;

/// What touches no farther from the sheet's own two sides touches at the sheet, mm (common practice, no source).
const AT_SHEET_MM: f64 = 0.5;

/// Sine of 5°: a flange that leans by less stands plumb for a stop, its foot within 2 mm of where it touches (common
/// practice, no source).
const PLUMB_SINE: f64 = 0.087;

/// Share of the bend that the edge at the stop must lie along, or the sheet can skew on it (common practice, no source).
const STEADY_SHARE: f64 = 0.5;

/// Where the rear edge of some metal lies behind the bend line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Rear {
    /// How far behind the bend line it reaches, mm.
    pub(super) back_mm: f64,
    /// Length of its rearmost edge along the bend, mm.
    pub(super) edge_mm: f64,
    /// From where to where along the bend its rearmost edges lie, mm.
    span_mm: (f64, f64),
    /// How much of that is metal: the lengths of its rearmost edges added up, where they overlap once, mm.
    bears_mm: f64,
    /// It slopes on past the height of the stop and is stopped by nothing.
    slides: bool,
    /// What touches.
    pub(super) touch: Touch,
}

/// What of the rearmost metal touches a stop, and how high.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Touch {
    /// Nearest height to the sheet at which it touches, over the sheet's lower side, mm.
    height_mm: f64,
    /// It stands plumb, or is a bend, and not the free edge of a plate that leans.
    plumb: bool,
}

impl Touch {
    /// The nearer of two to the sheet; at one height the plumb one.
    fn nearer(self, other: Self) -> Self {
        let key = |touch: Self| (touch.height_mm.abs(), !touch.plumb);
        if key(other) < key(self) { other } else { self }
    }

    /// How far over the die's top a stop must touch, mm, below zero under it; `None` where one level with the die does.
    pub(super) fn raised_mm(self, thickness_mm: f64) -> Option<f64> {
        let at_sheet = (-AT_SHEET_MM..=thickness_mm + AT_SHEET_MM).contains(&self.height_mm);
        let begins_near = self.plumb && self.height_mm.abs() <= LEVEL_FACE_MM;
        (!at_sheet && !begins_near).then_some(self.height_mm)
    }

    /// True for the free edge of a plate that leans.
    pub(super) const fn is_edge(self) -> bool {
        !self.plumb
    }
}

impl Default for Rear {
    fn default() -> Self {
        Self {
            back_mm: f64::NEG_INFINITY,
            edge_mm: 0.0,
            span_mm: (f64::INFINITY, f64::NEG_INFINITY),
            bears_mm: 0.0,
            slides: false,
            touch: Touch { height_mm: f64::INFINITY, plumb: false },
        }
    }
}

impl Rear {
    /// The rear edge of these slabs, in the coordinates of the bend.
    pub(super) fn of(slabs: &[Slab]) -> Self {
        let corners = slabs.iter().flat_map(Slab::corners).filter(|p| is_level(p.y)).map(|p| -p.x);
        let corner_mm = corners.fold(f64::NEG_INFINITY, f64::max);
        let slopes = slabs.iter().filter(|slab| !is_plumb(slab)).flat_map(edges);
        let slope_mm = slopes.filter_map(leaves_level_mm).fold(f64::NEG_INFINITY, f64::max);
        let back_mm = corner_mm.max(slope_mm);
        let on_edge = |p: Point3| is_level(p.y) && back_mm - tolerance::ARC_CHORD_MM <= -p.x;
        let mut rear =
            Self { back_mm, slides: corner_mm + tolerance::ARC_CHORD_MM < slope_mm, ..Self::default() };
        let mut spans = Vec::new();
        for (a, b) in slabs.iter().flat_map(edges).filter(|(a, b)| on_edge(*a) && on_edge(*b)) {
            rear.edge_mm = rear.edge_mm.max((a.z - b.z).abs());
            rear.span_mm = (rear.span_mm.0.min(a.z).min(b.z), rear.span_mm.1.max(a.z).max(b.z));
            spans.push((a.z.min(b.z), a.z.max(b.z)));
        }
        rear.bears_mm = covered_mm(spans);
        for slab in slabs {
            for corner in slab.corners().filter(|corner| on_edge(*corner)) {
                rear.touch = rear.touch.nearer(Touch { height_mm: corner.y, plumb: is_plumb(slab) });
            }
        }
        rear
    }

    /// How much of the stop's line its rearmost edges lie along, mm.
    pub(super) const fn bears_mm(&self) -> f64 {
        self.bears_mm
    }

    /// True when it lies square against stops that reach so far behind the bend line.
    pub(super) fn is_square(&self, bend_mm: f64, reach_mm: f64) -> bool {
        let in_reach = self.back_mm <= reach_mm + tolerance::SCRIBED_LINE_MM;
        in_reach && !self.slides && STOP_EDGE_MM.min(0.5 * bend_mm) <= self.edge_mm
    }

    /// True when it lies along so little of the bend that the sheet can skew on it.
    pub(super) fn skews(&self, (from, to): (f64, f64)) -> bool {
        let along = self.span_mm.1.min(to) - self.span_mm.0.max(from);
        along < STEADY_SHARE * (to - from)
    }
}

/// How much of a line these stretches of it cover together, mm.
fn covered_mm(mut spans: Vec<(f64, f64)>) -> f64 {
    spans.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut covered = 0.0;
    let mut to = f64::NEG_INFINITY;
    for (low, high) in spans {
        covered += (high - low.max(to)).max(0.0);
        to = to.max(high);
    }
    covered
}

fn is_level(y_mm: f64) -> bool {
    y_mm.abs() <= STOP_HEIGHT_MM
}

fn is_plumb(slab: &Slab) -> bool {
    let through = slab.high[0] - slab.low[0];
    let length = through.length();
    // A bent zone's slabs run along the bend; they are small, and their corners are enough.
    through.y.abs() <= PLUMB_SINE * length
}

/// The edges of a slab.
fn edges(slab: &Slab) -> impl Iterator<Item = (Point3, Point3)> + '_ {
    let rings = [&slab.low, &slab.high].into_iter().flat_map(|ring| {
        let next = ring.iter().copied().cycle().skip(1);
        ring.iter().copied().zip(next)
    });
    rings.chain(slab.low.iter().copied().zip(slab.high.iter().copied()))
}

/// How far behind the bend line an edge leaves the height of the stop; `None` where it keeps within it, or out of it.
fn leaves_level_mm((a, b): (Point3, Point3)) -> Option<f64> {
    let at = |y: f64| {
        let crosses = (a.y - y) * (b.y - y) < 0.0;
        crosses.then(|| Point::new(a.x, a.y).toward(Point::new(b.x, b.y), (y - a.y) / (b.y - a.y)).x)
    };
    [at(STOP_HEIGHT_MM), at(-STOP_HEIGHT_MM)].into_iter().flatten().map(|x| -x).reduce(f64::max)
}

/// The rearmost of several, and which it is; those that tie together count the longest edge, and lie along the bend
/// together.
pub(super) fn rearmost(rears: &[(usize, Rear)]) -> Option<(usize, Rear)> {
    let back_mm = rears.iter().map(|(_, rear)| rear.back_mm).fold(f64::NEG_INFINITY, f64::max);
    let tied = || rears.iter().filter(move |(_, rear)| back_mm - tolerance::ARC_CHORD_MM <= rear.back_mm);
    let (face, longest) = tied().max_by(|a, b| a.1.edge_mm.total_cmp(&b.1.edge_mm)).copied()?;
    let span_mm = tied()
        .fold(longest.span_mm, |(low, high), (_, rear)| (low.min(rear.span_mm.0), high.max(rear.span_mm.1)));
    let touch = tied().fold(longest.touch, |touch, (_, rear)| touch.nearer(rear.touch));
    // Faces side by side share nothing; where one lies over another, no more bears than there is between the ends.
    let bears_mm = tied().map(|(_, rear)| rear.bears_mm).sum::<f64>().min((span_mm.1 - span_mm.0).max(0.0));
    Some((face, Rear { span_mm, bears_mm, touch, ..longest }))
}

#[cfg(test)]
mod tests {
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
        assert!((square.back_mm - 40.0).abs() < 1e-9 && square.is_square(200.0, 600.0));
        assert!(!Rear::of(&[plate(&slanted, 3.0)]).is_square(200.0, 600.0));
    }

    /// A plate 3 thick, 200 along the bend, from `from` to `to` in side view.
    fn strip(from: (f64, f64), to: (f64, f64)) -> Slab {
        let along = (Point::new(to.0, to.1) - Point::new(from.0, from.1)).unit();
        let up = (if along.x < 0.0 { along.right() } else { along.left() }) * 3.0;
        let ring = |x: f64, y: f64| {
            [(from, 0.0), (to, 0.0), (to, 200.0), (from, 200.0)]
                .map(|(p, z): ((f64, f64), f64)| Point3::new(p.0 + x, p.1 + y, z))
                .to_vec()
        };
        Slab { low: ring(0.0, 0.0), high: ring(up.x, up.y) }
    }

    #[test]
    fn a_crease_of_a_few_degrees_stops_nothing() {
        let flat = strip((0.0, 0.0), (-250.0, 0.0));
        assert!(Rear::of(std::slice::from_ref(&flat)).is_square(200.0, 600.0));
        let rising = strip((-250.0, 0.0), (-650.0, 30.0));
        let pair = rearmost(&[(0, Rear::of(&[flat])), (1, Rear::of(&[rising]))]).unwrap();
        assert!(!pair.1.is_square(200.0, 600.0), "{pair:?}");
        assert_eq!(pair.0, 1);
    }

    #[test]
    fn a_plumb_flange_is_a_stop_and_a_leaning_one_is_not() {
        let standing = |lean_mm: f64| Rear::of(&[strip((-250.0, 0.0), (-250.0 - lean_mm, 100.0))]);
        assert!(standing(0.0).is_square(200.0, 600.0));
        assert!(standing(5.0).is_square(200.0, 600.0), "3 degrees");
        assert!(!standing(40.0).is_square(200.0, 600.0), "22 degrees: it meets the top of the finger first");
        assert!(standing(-40.0).is_square(200.0, 600.0), "it leans in, its foot is the first");
    }

    /// A skirt of 30 bent back at 51°: its lip stands 30·sin 51° = 23.3 over the die, and 3·sin 51° = 2.3 behind that lies
    /// the outside of its upper end; a stop level with the die would let the sheet slide in.
    #[test]
    fn the_free_edge_of_a_leaning_flange_is_touched_at_its_own_height() {
        let angle = 51.0_f64.to_radians();
        let long = 30.0;
        for way in [1.0, -1.0] {
            let end = (-60.0 - long * geometry::trig::cos(angle), way * long * geometry::trig::sin(angle));
            let legs = [strip((0.0, 0.0), (-60.0, 0.0)), strip((-60.0, 0.0), end)];
            let rear = Rear::of(&legs);
            let touches = legs[1].corners().min_by(|a, b| a.x.total_cmp(&b.x)).unwrap();
            assert!((rear.back_mm + touches.x).abs() < 1e-9);
            let raised = rear.touch.raised_mm(3.0).unwrap();
            assert!((raised - touches.y).abs() < 1e-9, "{raised} for {}", touches.y);
            assert!(rear.touch.is_edge() && rear.is_square(200.0, 600.0));
        }
    }

    #[test]
    fn a_flat_edge_and_a_plumb_flange_are_touched_by_a_stop_level_with_the_die() {
        let flat = strip((0.0, 0.0), (-250.0, 0.0));
        let plumb = strip((-250.0, 6.0), (-250.0, 100.0));
        let high = strip((-250.0, 18.0), (-250.0, 100.0));
        assert_eq!(Rear::of(&[flat]).touch.raised_mm(3.0), None);
        assert_eq!(Rear::of(&[plumb]).touch.raised_mm(3.0), None);
        let raised = Rear::of(&[high]).touch.raised_mm(3.0);
        assert!(raised.is_some_and(|raised| (raised - 18.0).abs() < 1e-9), "{raised:?}");
    }

    /// By hand: two tongues of 30 and 50 with 120 between them bear along 80 of 200; one over the other counts once.
    #[test]
    fn what_bears_on_the_stop_is_the_metal_at_it() {
        let tongue = |from: f64, to: f64| {
            let corners = [(-40.0, from), (0.0, from), (0.0, to), (-40.0, to)].map(|(x, z)| Point::new(x, z));
            plate(&corners, 3.0)
        };
        let both = Rear::of(&[tongue(0.0, 30.0), tongue(150.0, 200.0)]);
        assert!((both.bears_mm() - 80.0).abs() < 1e-9, "{both:?}");
        let over = Rear::of(&[tongue(0.0, 30.0), tongue(10.0, 30.0)]);
        assert!((over.bears_mm() - 30.0).abs() < 1e-9, "{over:?}");
        let (_, tied) = rearmost(&[(0, both), (1, Rear::of(&[tongue(60.0, 80.0)]))]).unwrap();
        assert!((tied.bears_mm() - 100.0).abs() < 1e-9, "{tied:?}");
    }

    #[test]
    fn an_edge_out_of_reach_is_no_stop() {
        let reaches = |long: f64| Rear::of(&[strip((0.0, 0.0), (-long, 0.0))]).is_square(200.0, 600.0);
        assert!(reaches(600.0) && !reaches(601.0));
    }

    #[test]
    fn a_short_edge_at_one_end_of_the_bend_skews() {
        let rear = Rear::of(&[strip((0.0, 0.0), (-250.0, 0.0))]);
        assert!(!rear.skews((0.0, 350.0)) && rear.skews((0.0, 450.0)) && rear.skews((-300.0, 50.0)));
    }
}
