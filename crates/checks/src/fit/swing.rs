//! A hinged lid swinging against what is around it.
//!
//! In side view, looking along the hinge, the lid turns about its pin. Every place where a corner of one figure could
//! cross an edge of the other is a circle meeting a straight piece, so the angles at which contact can begin or end are
//! known in closed form; between two such angles nothing changes, and one look in the middle tells whether figures
//! overlap there. The first such stretch is the stop.

use fold::part::FoldedPart;
use geometry::{Point, Point3, Vector, Vector3, polygon, tolerance, trig};
use shapes::{Clearance, Fact};
use units::{Angle, Length, LengthStyle};

use super::answer::{Answer, Role, Scene, Turned};
use super::body::Body;
use super::shadow::{PieceShadow, View, outline_of};
use crate::rules::apart;

/// A full swing, radians: a lid thrown right over.
const MOST_SWING_RAD: f64 = std::f64::consts::PI;

/// What every angle of a swing is measured from and about.
const FROM_CLOSED: &str = "how far the lid has turned about its hinge pin: closed is 0°, upright about 90°";

/// How far around the pin the picture reaches, as a share of the lid's reach.
const PICTURE_MARGIN: f64 = 1.5;

/// How far below the pin the picture reaches, as a share of the lid's reach.
const PICTURE_BELOW: f64 = 0.2;

/// Length of the arms of the angle in the picture, as a share of the lid's reach.
const PICTURE_ARM: f64 = 0.45;

/// A lid on its hinge and what is around it.
#[derive(Debug, Clone, PartialEq)]
pub struct LidSwing {
    /// From the outside of the hinge side back to the pin; below zero inside the lid.
    pub pin_behind: Length,
    /// From the lower edge of the hinge side up to the pin.
    pub pin_above: Length,
    /// How far it is wished to open.
    pub opens: Angle,
    /// What must stay free round the obstacles.
    pub clearance: Clearance,
    /// What stands around.
    pub around: Vec<Obstacle>,
}

/// The hinged side of a lid.
#[derive(Debug, Clone, PartialEq)]
pub struct HingeSide {
    /// Its name: "AB".
    pub name: String,
    /// Two places on it in plan; the lid lies on the left of the line from the first to the second.
    pub ends: [Point; 2],
}

impl HingeSide {
    /// The side of a part's root face that carries a skirt or flange of this name, read either way ("AB" or "BA").
    /// `turned_over` as for [`Body::of`].
    #[must_use]
    pub fn of(part: &FoldedPart, name: &str, turned_over: bool) -> Option<Self> {
        let backward: String = name.chars().rev().collect();
        let bend = part.bends.iter().filter(|bend| bend.parent == 0).find(|bend| {
            let child = &part.faces[bend.child].name;
            child.rsplit(' ').next().is_some_and(|side| side == name || side == backward)
        })?;
        let own = part.faces[bend.child].name.rsplit(' ').next()?.to_owned();
        let (a, b) = part.faces[0].edge(bend.parent_edge);
        let flip = |p: Point| Point::new(-p.x, p.y);
        let ends = if turned_over { [flip(b), flip(a)] } else { [a, b] };
        Some(Self { name: own, ends })
    }

    /// Where a place of the closed lid lies, seen along the hinge: out from the pin toward the free edge, and up from
    /// it, mm. `pin` is how far the pin lies behind the outside of this side, and how far above its lower edge.
    #[must_use]
    pub fn from_pin(&self, body: &Body, pin: [Length; 2], place: Point3) -> [f64; 2] {
        let view = self.view();
        let from = view.place(place) - self.pin((body, &body.shadows(&view)), &view, pin);
        [-from.x, from.y]
    }

    /// The pin in the picture: so far behind the outside of this side, so far above its lower edge.
    /// Sizes are to the base of tread plate, so lugs are not its outside.
    fn pin(&self, (body, all): (&Body, &[PieceShadow]), view: &View, [behind, above]: [Length; 2]) -> Point {
        let start = self.ends[0];
        let side = format!(" {}", self.name);
        let own: Vec<Point> = all
            .iter()
            .filter(|piece| piece.name.ends_with(&side))
            .flat_map(|piece| piece.corners.iter().copied())
            .collect();
        let line = view.place(Point3::new(start.x, start.y, 0.0));
        let outside = own.iter().map(|corner| corner.x).fold(line.x, f64::max) - body.lugs_out_mm;
        let lowest = own.iter().map(|corner| corner.y).fold(f64::INFINITY, f64::min);
        let lowest = if lowest.is_finite() { lowest } else { line.y };
        Point::new(outside + behind.millimetres(), lowest + above.millimetres())
    }

    /// Along the hinge, what lies behind it to the right.
    fn view(&self) -> View {
        let [from, to] = self.ends;
        // Behind is right of the hinge line; behind × up then runs against it.
        let behind = (to - from).unit().right();
        View { right: Vector3::new(behind.x, behind.y, 0.0), up: Vector3::new(0.0, 0.0, 1.0) }
    }
}

/// Something the lid must not touch, seen along the hinge.
#[derive(Debug, Clone, PartialEq)]
pub struct Obstacle {
    /// What it is.
    pub name: String,
    /// Its corners, in millimetres from the pin: x behind the pin, away from the lid, y up. One corner is a rail or pipe
    /// seen end on.
    pub corners: Vec<Point>,
    /// Where along the hinge it stands, from the first corner of the hinge side; all along it when not given.
    pub along: Option<[Length; 2]>,
    /// True for what the closed lid rests on or beside, to which no clearance is kept.
    pub touches: bool,
}

/// The first contact of a swing.
#[derive(Debug, Clone, PartialEq)]
pub struct Contact {
    /// Angle at which it begins, radians.
    pub angle_rad: f64,
    /// Which obstacle.
    pub obstacle: usize,
    /// Which face of the lid.
    pub face: String,
}

impl LidSwing {
    /// Judges a lid.
    #[must_use]
    pub fn judge(&self, mark: &str, body: &Body, side: &HingeSide, style: LengthStyle) -> Answer {
        let contact = self.first_contact(body, side);
        let print = |millimetres: f64| Length::from_millimetres(millimetres).print(style);
        let reached_rad = contact.as_ref().map_or(MOST_SWING_RAD, |contact| contact.angle_rad);
        let fits = self.opens.radians() <= reached_rad;
        let degrees = |radians: f64| Angle::from_radians(radians).print(1);
        let stop = contact.as_ref().map(|contact| self.stop_words(contact, (body, side), style));
        let sentence = match (&stop, fits) {
            (None, _) => format!("{mark} swings free, right over"),
            (Some(stop), true) => {
                format!("{mark} opens {}° from closed as wished; {stop}", self.opens.print(1))
            }
            (Some(stop), false) => {
                format!("{mark} does not open {}° from closed: {stop}", self.opens.print(1))
            }
        };
        let lid = self.shadows(body, side, None);
        let heel = heel(&lid, reached_rad);
        let heel_words = if heel.1 < -tolerance::FIT_MM {
            format!("{} below the pin, at {}°", print(-heel.1), degrees(heel.0))
        } else {
            "nothing of the lid goes below the pin".to_owned()
        };
        // Pictured and measured as it was asked for, or as far as it goes.
        let shown_rad = if fits { self.opens.radians() } else { reached_rad };
        let mut facts = vec![
            Fact::words("hinge", self.hinge_words(side, style), "the job"),
            Fact::words("clearance", self.kept_words(style), "clearance"),
            Fact::words("angles are", FROM_CLOSED, "side view, seen along the hinge"),
            Fact::angle_rad("largest opening", reached_rad, "clearance used up, side view"),
            Fact::words("what ends it", stop.unwrap_or_else(|| "nothing".to_owned()), "side view"),
            Fact::words("lowest place behind the pin", heel_words, "the lid's edge past its pin swings down"),
        ];
        let gaps = self.gaps_mm(body, side, shown_rad);
        facts.extend(self.around.iter().zip(gaps).filter(|(obstacle, _)| !obstacle.touches).map(
            |(obstacle, gap_mm)| {
                let name = format!("gap to {}, opened {}°", obstacle.name, degrees(shown_rad));
                Fact::length_mm(name, gap_mm, "side view, nothing taken off")
            },
        ));
        Answer { fits, sentence, facts, scenes: self.scenes(mark, &lid, [shown_rad, reached_rad]) }
    }

    /// "at 103.4° the gap between skirt CD and console is down to 1/4, the clearance asked for", or "skirt CD meets the deck
    /// at 109.0°" where no clearance is kept.
    fn stop_words(&self, contact: &Contact, (body, side): (&Body, &HingeSide), style: LengthStyle) -> String {
        let (face, obstacle) = (&contact.face, &self.around[contact.obstacle]);
        let clearance = self.clearance.total();
        let at = Angle::from_radians(contact.angle_rad).print(1);
        if obstacle.touches || clearance <= Length::ZERO {
            return format!("{face} meets {} at {at}°", obstacle.name);
        }
        let clearance = clearance.print(style);
        let closed_mm = self.gaps_mm(body, side, 0.0)[contact.obstacle];
        if contact.angle_rad <= 0.0 && closed_mm < self.clearance.total().millimetres() - tolerance::FIT_MM {
            let gap = Length::from_millimetres(closed_mm).print(style);
            return format!(
                "closed, the gap between {face} and {} is {gap}, less than the clearance asked for of {clearance}",
                obstacle.name
            );
        }
        format!(
            "at {at}° the gap between {face} and {} is down to {clearance}, the clearance asked for",
            obstacle.name
        )
    }

    /// Which side is hinged, and where its pin lies.
    fn hinge_words(&self, side: &HingeSide, style: LengthStyle) -> String {
        let apart = |length: Length, more: &str, less: &str| match length {
            Length::ZERO => format!("level with {more}"),
            length if length < Length::ZERO => {
                format!("{} {less}", Length::from_millimetres(-length.millimetres()).print(style))
            }
            length => format!("{} {more}", length.print(style)),
        };
        let behind = apart(self.pin_behind, "behind its outside", "inside its outside");
        let above = apart(self.pin_above, "above its lower edge", "below its lower edge");
        format!("side {}; the pin {behind}, {above}", side.name)
    }

    /// The clearance, and to what it is kept.
    fn kept_words(&self, style: LengthStyle) -> String {
        let names = |touches: bool| {
            let of = self.around.iter().filter(move |obstacle| obstacle.touches == touches);
            of.map(|obstacle| obstacle.name.as_str()).collect::<Vec<_>>().join(", ")
        };
        let (kept, rests) = (names(false), names(true));
        let kept = if kept.is_empty() { String::new() } else { format!(", kept to {kept}") };
        let rests =
            if rests.is_empty() { String::new() } else { format!("; none to {rests}, which it may touch") };
        format!("{}{kept}{rests}", self.clearance.sum_words(style))
    }

    /// How far the lid, opened by an angle, stands from each thing around it, mm.
    #[must_use]
    pub fn gaps_mm(&self, body: &Body, side: &HingeSide, angle_rad: f64) -> Vec<f64> {
        let gap = |obstacle: &Obstacle| {
            let lid = self.shadows(body, side, obstacle.along);
            let pairs = lid.iter().map(|piece| {
                let corners: Vec<Point> =
                    piece.corners.iter().map(|&corner| swung(corner, angle_rad)).collect();
                apart::distance_mm(&corners, &obstacle.corners)
            });
            pairs.fold(f64::INFINITY, f64::min)
        };
        self.around.iter().map(gap).collect()
    }

    /// The first contact, if there is any within a half turn.
    #[must_use]
    pub fn first_contact(&self, body: &Body, side: &HingeSide) -> Option<Contact> {
        let mut first: Option<Contact> = None;
        for (number, obstacle) in self.around.iter().enumerate() {
            let free_mm = if obstacle.touches { 0.0 } else { self.clearance.total().millimetres() };
            let lid = self.shadows(body, side, obstacle.along);
            for fixed in polygon::convex_pieces(&obstacle.corners) {
                for piece in &lid {
                    let limit = first.as_ref().map_or(MOST_SWING_RAD, |contact| contact.angle_rad);
                    if let Some(angle_rad) = contact_rad(&piece.corners, &fixed, free_mm, limit) {
                        first = Some(Contact { angle_rad, obstacle: number, face: piece.name.clone() });
                    }
                }
            }
        }
        first
    }

    /// The lid in side view with the pin at the origin, or what of it lies between two places along the hinge.
    fn shadows(&self, body: &Body, side: &HingeSide, along: Option<[Length; 2]>) -> Vec<PieceShadow> {
        let [from, to] = side.ends;
        let way = (to - from).unit();
        let view = side.view();
        let start = way.dot(from - Point::default());
        let all = body.shadows(&view);
        let pin = side.pin((body, &all), &view, [self.pin_behind, self.pin_above]);
        let depth = |along: Length| -(start + along.millimetres());
        let seen = along.map_or(all, |[low, high]| body.shadows_between(&view, [depth(high), depth(low)]));
        let move_to_pin = |piece: PieceShadow| PieceShadow {
            name: piece.name,
            corners: piece.corners.iter().map(|&corner| Point::default() + (corner - pin)).collect(),
        };
        seen.into_iter().map(move_to_pin).collect()
    }

    fn scenes(&self, mark: &str, lid: &[PieceShadow], [shown_rad, reached_rad]: [f64; 2]) -> Vec<Scene> {
        let reach = lid
            .iter()
            .flat_map(|piece| piece.corners.iter().map(|&corner| corner.distance(Point::default())))
            .fold(0.0, f64::max);
        let [shown, reached] = [shown_rad, reached_rad].map(|angle| Angle::from_radians(angle).print(1));
        let goes_on = shown_rad < reached_rad;
        let most = if goes_on { format!(", and at most, {reached}°") } else { String::new() };
        let mut scene =
            Scene::titled(format!("seen along the hinge: closed, opened {shown}° about the pin{most}"));
        for obstacle in &self.around {
            let near = |p: &Point| {
                let limit = PICTURE_MARGIN * reach;
                Point::new(p.x.clamp(-limit, limit), p.y.clamp(-PICTURE_BELOW * reach, limit))
            };
            let corners: Vec<Point> = obstacle.corners.iter().map(near).collect();
            match corners.as_slice() {
                [only] => scene.marks.push((*only, obstacle.name.clone())),
                _ => scene = scene.with(Role::Fixed, corners, obstacle.name.clone()),
            }
        }
        let poses = [
            (0.0 < reached_rad).then_some((Role::Before, 0.0)),
            goes_on.then_some((Role::Before, reached_rad)),
            Some((Role::Part, shown_rad)),
        ];
        for (role, angle) in poses.into_iter().flatten() {
            let outline = outline_of(lid).map(|outline| outline.outer().to_vec()).unwrap_or_default();
            let corners = outline.iter().map(|corner| swung(corner.millimetres(), angle)).collect();
            scene = scene.with(role, corners, if role == Role::Part { mark } else { "" });
        }
        scene.marks.push((Point::default(), "pin".to_owned()));
        scene.turns.push(Turned {
            about: Point::default(),
            from: Point::new(-PICTURE_ARM * reach, 0.0),
            turn_rad: -shown_rad,
            words: format!("{shown}° from closed"),
        });
        vec![scene]
    }
}

/// The lowest place behind the pin that any part of the lid reaches up to an angle: that angle, and its height, mm.
fn heel(lid: &[PieceShadow], up_to_rad: f64) -> (f64, f64) {
    let mut lowest = (0.0, 0.0);
    for corner in lid.iter().flat_map(|piece| piece.corners.iter().copied()) {
        let arm = corner - Point::default();
        // Straight below the pin, or as near as the swing comes to it.
        let below = (arm.angle() + 0.5 * std::f64::consts::PI).rem_euclid(2.0 * std::f64::consts::PI);
        for angle in [0.0, below.min(up_to_rad), up_to_rad] {
            let place = arm.turned(-angle);
            if -tolerance::FIT_MM <= place.x && place.y < lowest.1 {
                lowest = (angle, place.y);
            }
        }
    }
    lowest
}

/// A corner of the closed lid opened by an angle: the lid lies on the left of the pin and swings up and over to the
/// right, with the clock.
fn swung(corner: Point, angle_rad: f64) -> Point {
    Point::default() + (corner - Point::default()).turned(-angle_rad)
}

/// The least angle below `limit` at which a convex figure turning with the clock about the origin comes nearer to a
/// fixed convex figure than `free_mm`.
fn contact_rad(moving: &[Point], fixed: &[Point], free_mm: f64, limit: f64) -> Option<f64> {
    let grown = grown(fixed, free_mm);
    let mut events = vec![0.0, limit];
    for &corner in moving {
        for edge in polygon::edges(&grown) {
            events.extend(crossings(corner, edge).map(|angle| angle.rem_euclid(2.0 * std::f64::consts::PI)));
        }
    }
    for &corner in &grown {
        for edge in polygon::edges(moving) {
            // Turning the fixed corner against the clock is the same motion.
            events
                .extend(crossings(corner, edge).map(|angle| (-angle).rem_euclid(2.0 * std::f64::consts::PI)));
        }
    }
    events.retain(|angle| *angle <= limit);
    events.sort_by(f64::total_cmp);
    events.windows(2).find_map(|pair| {
        let turned: Vec<Point> =
            moving.iter().map(|&corner| swung(corner, 0.5 * (pair[0] + pair[1]))).collect();
        overlap(&turned, &grown).then_some(pair[0])
    })
}

/// Angles by which a corner must turn with the clock about the origin to lie on a straight piece.
fn crossings(corner: Point, (a, b): (Point, Point)) -> impl Iterator<Item = f64> {
    let radius = corner.distance(Point::default());
    let along = (b - a).unit();
    let foot = a + along * (Point::default() - a).dot(along);
    let half = (radius * radius - (foot - Point::default()).dot(foot - Point::default())).max(0.0).sqrt();
    let length = a.distance(b);
    let start = (corner - Point::default()).angle();
    [half, -half].into_iter().map(move |reach| foot + along * reach).filter_map(move |place| {
        let share = (place - a).dot(along);
        let near = -tolerance::SAME_POINT_MM <= share && share <= length + tolerance::SAME_POINT_MM;
        let met = (place.distance(Point::default()) - radius).abs() <= tolerance::FIT_MM;
        (near && met).then(|| start - (place - Point::default()).angle())
    })
}

/// A convex figure or point with everything within a distance of it; corners carried out to points, on the safe side.
fn grown(fixed: &[Point], free_mm: f64) -> Vec<Point> {
    if free_mm <= 0.0 && 3 <= fixed.len() {
        return fixed.to_vec();
    }
    // A rail has no size of its own; a hair lets edges meet it.
    let free = free_mm.max(tolerance::FIT_MM);
    let eighths = (0..16).map(|n| 0.125 * std::f64::consts::PI * f64::from(n));
    let reach = free / trig::cos(0.0625 * std::f64::consts::PI);
    let round: Vec<Vector> = eighths.map(|angle| Vector::at_angle(angle) * reach).collect();
    let corners: Vec<Point> =
        fixed.iter().flat_map(|&corner| round.iter().map(move |&by| corner + by)).collect();
    polygon::hull(&corners)
}

/// True when two convex figures overlap by more than [`tolerance::FIT_MM`].
///
/// Separating axes: two convex figures are apart exactly when an edge of one of them has the other wholly outside.
fn overlap(first: &[Point], second: &[Point]) -> bool {
    let apart = |figure: &[Point], other: &[Point]| {
        polygon::edges(figure).any(|(a, b)| {
            let outward = (b - a).unit().right();
            other.iter().all(|&corner| -tolerance::FIT_MM <= (corner - a).dot(outward))
        })
    };
    !apart(first, second) && !apart(second, first)
}
