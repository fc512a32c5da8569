//! Level lift-out: may the part go straight through an opening without tilting?
//!
//! The shadow of the part along its way must lie in the opening with every side moved in by the clearance. Sliding is
//! free, turning in plan as far as allowed; for each turn the sliding is judged exactly, by the inner-fit polygon. The
//! answer is given at the place that leaves the most all round.

use geometry::grid::{GridOutline, GridPoint, Turn};
use geometry::{Point, Vector, nofit, tolerance};
use shapes::{Clearance, Fact, Figure};
use units::{Length, LengthStyle};

use super::answer::{Answer, Role, Scene, size_words};
use super::body::Body;
use super::outside::Outside;
use super::shadow::{PieceShadow, View, outline_of};

/// Which way the part goes out, in its own recipe's terms.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// Straight up; the opening is seen from above.
    Up,
    /// Endwise, along side AB; the opening is seen from the end.
    Endwise,
    /// Sideways, across side AB; the opening is seen from the side.
    Sideways,
}

/// How far the part may be turned in the plane of the opening.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PlanTurns {
    /// Not at all.
    AsDrawn,
    /// By half a turn.
    Half,
    /// By quarter turns.
    Quarter,
    /// Freely.
    Any,
}

/// A level lift-out.
#[derive(Debug, Clone, PartialEq)]
pub struct LevelLift {
    /// The opening.
    pub opening: Figure,
    /// What must stay free each side.
    pub clearance: Clearance,
    /// Which way out.
    pub way: Way,
    /// Turning in the plane of the opening.
    pub turns: PlanTurns,
}

/// Steps of the search for a plan turn, thousandths of a degree: the first round, then a finer one round its best.
const TURN_STEPS: [u32; 2] = [1_000, 50];

/// By how many steps of the grid a room may be rounded.
const ROUNDED_STEPS: i64 = 4;

/// The best place of a shadow in an opening.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// How much every side of the opening could still move in beyond the clearance; below zero, how much each would
    /// have to move out. Millimetres.
    pub spare_mm: f64,
    /// The plan turn.
    pub turn: Turn,
    /// Where the shadow's origin goes.
    pub shift: Vector,
}

/// What is to spare, rounded down; less than a mark of the tape is plain decimals: ".043", not "1/16 - .020".
fn spare_words(millimetres: f64, style: LengthStyle) -> String {
    let spare = Length::from_millimetres(millimetres);
    let style = match style {
        // Nothing to spare reads 0 and not .000.
        LengthStyle::Tape { .. } if spare < Length::from_inches(0.001) => return Length::ZERO.print(style),
        LengthStyle::Tape { denominator } if spare < denominator.length() => {
            LengthStyle::Inches { places: 3 }
        }
        other => other,
    };
    spare.print_down(style)
}

/// What is spare at one side of the opening, beyond the clearance.
struct Spare {
    /// The side, by its number in the opening.
    number: usize,
    /// Its name: "1–2".
    side: String,
    /// What is spare there, mm.
    spare_mm: f64,
    /// What of the part is nearest.
    face: String,
}

impl Way {
    /// The view along the way.
    #[must_use]
    pub const fn view(self) -> View {
        match self {
            Self::Up => View::PLAN,
            Self::Endwise => View::ALONG_X,
            Self::Sideways => View::ALONG_Y,
        }
    }

    const fn words(self) -> &'static str {
        match self {
            Self::Up => "lifts out level",
            Self::Endwise => "slides out endwise",
            Self::Sideways => "slides out sideways",
        }
    }
}

impl LevelLift {
    /// Judges a part. `mark` names it; `style` is how lengths read.
    #[must_use]
    pub fn judge(&self, mark: &str, body: &Body, style: LengthStyle) -> Answer {
        let shadows = body.shadows(&self.way.view());
        let Some(place) = self.place(&shadows) else { return too_large(mark) };
        let fits = -tolerance::FIT_MM <= place.spare_mm;
        let placed = placed(&shadows, place);
        let spares = self.spares(&placed);
        let print = |millimetres: f64| Length::from_millimetres(millimetres).print(style);
        let sentence = if fits {
            let least = spares.iter().map(|spare| spare.spare_mm.max(0.0)).fold(f64::INFINITY, f64::min);
            format!(
                "{mark} {} with its clearance all round, and {} more to spare where it is least",
                self.way.words(),
                spare_words(least, style)
            )
        } else {
            let short: Vec<String> = spares
                .iter()
                .filter(|spare| spare.spare_mm < -tolerance::FIT_MM)
                .map(|spare| {
                    let over = print(-spare.spare_mm);
                    format!("{} stands {over} too far out at side {}", spare.face, spare.side)
                })
                .collect();
            if short.is_empty() {
                format!("{mark} does not go: there is no room for it clear of all corners at once")
            } else {
                format!("{mark} does not go: set in the middle, {}", short.join(", and "))
            }
        };
        Answer {
            fits,
            sentence,
            facts: self.facts(place, &spares, &placed, style),
            scenes: vec![self.scene(mark, &placed, &spares)],
        }
    }

    /// The best place of shadows in the opening; `None` when they are larger than the grid.
    #[must_use]
    pub fn place(&self, shadows: &[PieceShadow]) -> Option<Place> {
        let outline = outline_of(shadows).ok()?;
        let (low, high) = outline.bounds();
        let span_mm = (high - low).millimetres();
        let most_mm = span_mm.x + span_mm.y;
        let mut best: Option<Place> = None;
        let look = |turn: Turn, best: &mut Option<Place>| {
            let turned = outline.turned(turn);
            let floor = best.map_or(-most_mm - self.clearance.total().millimetres(), |place| {
                place.spare_mm + tolerance::FIT_MM
            });
            if let Some((spare_mm, shift)) = self.most_spare(&turned, [floor, most_mm]) {
                *best = Some(Place { spare_mm, turn, shift });
            }
        };
        let quarters = match self.turns {
            PlanTurns::AsDrawn => vec![0],
            PlanTurns::Half => vec![0, 2],
            PlanTurns::Quarter | PlanTurns::Any => vec![0, 1, 2, 3],
        };
        for quarter in quarters {
            look(Turn::from_millidegrees(quarter * Turn::QUARTER.millidegrees()), &mut best);
        }
        if self.turns == PlanTurns::Any {
            let full = 4 * Turn::QUARTER.millidegrees();
            (0..full / TURN_STEPS[0])
                .for_each(|n| look(Turn::from_millidegrees(n * TURN_STEPS[0]), &mut best));
            let from = best.map_or(0, |place| place.turn.millidegrees()) + full - TURN_STEPS[0];
            let steps = 2 * TURN_STEPS[0] / TURN_STEPS[1];
            (0..=steps).for_each(|n| look(Turn::from_millidegrees(from + n * TURN_STEPS[1]), &mut best));
        }
        best
    }

    /// The most that all sides may move in beyond the clearance, and where the shadow then lies; `None` when not even
    /// the least of `range_mm` leaves room.
    fn most_spare(&self, turned: &GridOutline, range_mm: [f64; 2]) -> Option<(f64, Vector)> {
        let [mut fits_mm, mut fails_mm] = range_mm;
        let mut shift = self.room(turned, fits_mm)?;
        while tolerance::GRID_STEP_MM < fails_mm - fits_mm {
            let middle = 0.5 * (fits_mm + fails_mm);
            match self.room(turned, middle) {
                Some(found) => (fits_mm, shift) = (middle, found),
                None => fails_mm = middle,
            }
        }
        Some((fits_mm, shift))
    }

    /// The middle of the places where the shadow lies in the opening with its sides moved in by so much more.
    fn room(&self, turned: &GridOutline, more_mm: f64) -> Option<Vector> {
        let clear = self.opening.clear(self.clearance.total().millimetres() + more_mm);
        let rooms = clear.iter().map(|ring| {
            let ring: Vec<GridPoint> = ring.iter().map(|&corner| GridPoint::near(corner)).collect();
            rooms_in(&ring, turned)
        });
        let piece = rooms.flatten().next()?;
        let (low, high) = piece.bounds();
        let (low, high) = (low.millimetres(), high.millimetres());
        let middle = low.toward(high, 0.5);
        let inside = piece.place(GridPoint::near(middle)) != geometry::grid::Place::Outside;
        let corner = piece.rings().first()?.first()?.millimetres();
        Some((if inside { middle } else { corner }) - Point::default())
    }

    /// What is spare at every side of the opening.
    fn spares(&self, placed: &[PieceShadow]) -> Vec<Spare> {
        let free = self.clearance.total().millimetres();
        let outside = Outside::of(&self.opening, placed);
        let spare = |number: usize| {
            let side = self.opening.side(number);
            let from_side = |piece: &PieceShadow| outside.inside_mm(&piece.corners, number);
            let distances: Vec<f64> = placed.iter().map(from_side).collect();
            let least = distances.iter().copied().fold(f64::INFINITY, f64::min);
            // Of the faces that come as near, the one that does so over the greatest length: not the corner of its
            // neighbour.
            let comes_near = |distance: f64| distance < least + tolerance::ARC_CHORD_MM;
            let near = placed.iter().zip(&distances).filter(|(_, distance)| comes_near(**distance));
            let length = |piece: &PieceShadow| length_mm(&piece.corners, side);
            let longest = near.map(|(piece, _)| piece).max_by(|a, b| length(a).total_cmp(&length(b)));
            let face = longest.map_or_else(String::new, |piece| piece.name.clone());
            Spare {
                number,
                side: self.side_name(number),
                spare_mm: least - free,
                face: self.face_name(number, face),
            }
        };
        (0..self.opening.count()).map(spare).collect()
    }

    /// "1" for the first corner of the opening: the part's own corners have the letters.
    fn corner_name(&self, corner: usize) -> String {
        let number = self.opening.corner_number(corner);
        number.map_or_else(|| self.opening.names[corner].clone(), |number| number.to_string())
    }

    /// "1–2" for the side between them.
    fn side_name(&self, side: usize) -> String {
        let next = (side + 1) % self.opening.count();
        match [side, next].map(|corner| self.opening.corner_number(corner)) {
            [Some(a), Some(b)] => {
                // A figure that was given the other way round keeps the order in which it was given.
                let backward = self.opening.sides[side].starts_with(&self.opening.names[next]);
                if backward { format!("{b}–{a}") } else { format!("{a}–{b}") }
            }
            _ => self.opening.sides[side].clone(),
        }
    }

    /// What a face is called in the picture: seen from the side, what is lowest is the underside whichever faces end there.
    fn face_name(&self, side: usize, face: String) -> String {
        let (a, b) = self.opening.side(side);
        let level = (b.y - a.y).abs() <= tolerance::SAME_POINT_MM;
        match self.way {
            Way::Endwise | Way::Sideways if level && a.x < b.x => "its underside".to_owned(),
            Way::Endwise | Way::Sideways if level => "its top".to_owned(),
            _ => face,
        }
    }

    fn facts(&self, place: Place, spares: &[Spare], placed: &[PieceShadow], style: LengthStyle) -> Vec<Fact> {
        let mut facts = vec![
            Fact::words("opening", size_words(&self.opening, style), "the job"),
            Fact::words("clearance", self.clearance.sum_words(style), "clearance"),
        ];
        let corners: Vec<Point> = placed.iter().flat_map(|piece| piece.corners.iter().copied()).collect();
        let (low, high) = geometry::polygon::bounds(&corners);
        let origin = "shadow of the refolded part along its way out";
        facts.push(Fact::length_mm("across the opening, part", high.x - low.x, origin));
        facts.push(Fact::length_mm("up the opening, part", high.y - low.y, origin));
        if place.turn != Turn::NONE {
            facts.push(Fact::angle_rad("turned in plan", place.turn.radians(), "search"));
        }
        for Spare { side, spare_mm, face, .. } in spares {
            let name = format!("spare at side {side}, to {face}");
            facts.push(Fact::length_mm(
                name,
                *spare_mm,
                "opening less clearance less part, set in the middle",
            ));
        }
        facts
    }

    fn scene(&self, mark: &str, placed: &[PieceShadow], spares: &[Spare]) -> Scene {
        let mut scene = Scene::titled("seen along the way out").with(
            Role::Opening,
            self.opening.corners.clone(),
            "opening",
        );
        for clear in self.opening.clear(self.clearance.total().millimetres()) {
            scene = scene.with(Role::Clear, clear, "");
        }
        let outline =
            outline_of(placed).map(|outline| outline.outer().iter().map(|p| p.millimetres()).collect());
        scene = scene.with(Role::Part, outline.unwrap_or_default(), mark);
        scene.marks = (0..self.opening.count())
            .map(|corner| (self.opening.corners[corner], self.corner_name(corner)))
            .collect();
        scene.labels = self.labels(spares);
        scene
    }

    /// The faces of the part that come near the sides of the opening, each named once, inside its longest side.
    fn labels(&self, spares: &[Spare]) -> Vec<(Point, Vector, String)> {
        let free = self.clearance.total().millimetres();
        let length = |spare: &Spare| {
            let (a, b) = self.opening.side(spare.number);
            a.distance(b)
        };
        let longest = |spare: &&Spare| {
            let same = spares.iter().filter(|other| other.face == spare.face);
            same.max_by(|a, b| length(a).total_cmp(&length(b)))
                .is_some_and(|most| most.number == spare.number)
        };
        let label = |spare: &Spare| {
            let (a, b) = self.opening.side(spare.number);
            let inward = (b - a).unit().left();
            let at = a.toward(b, 0.5) + inward * (spare.spare_mm + free);
            (at, inward, spare.face.trim_start_matches("its ").to_owned())
        };
        spares.iter().filter(longest).map(label).collect()
    }
}

/// Where an outline lies in a ring, piece by piece. A slot of the ring narrower than the grid would turn what is outside into
/// a room: such are left out.
pub(super) fn rooms_in(ring: &[GridPoint], outline: &GridOutline) -> Vec<nofit::Region> {
    let from = GridPoint::new(least(ring, |p| p.x), least(ring, |p| p.y));
    let to = GridPoint::new(-least(ring, |p| -p.x), -least(ring, |p| -p.y));
    let (low, high) = outline.bounds();
    let lies_within = |room: &nofit::Region| {
        let (first, last) = room.bounds();
        let inside = |a: i64, b: i64| a <= b + ROUNDED_STEPS;
        inside(from.x, first.x + low.x)
            && inside(from.y, first.y + low.y)
            && inside(last.x + high.x, to.x)
            && inside(last.y + high.y, to.y)
    };
    nofit::inner_fit(ring, outline).pieces().into_iter().filter(lies_within).collect()
}

fn least(ring: &[GridPoint], of: impl Fn(&GridPoint) -> i64) -> i64 {
    ring.iter().map(of).min().unwrap_or_default()
}

/// The shadows where they lie at a place.
fn placed(shadows: &[PieceShadow], place: Place) -> Vec<PieceShadow> {
    let turn = place.turn.radians();
    let put = |&corner: &Point| Point::default() + (corner - Point::default()).turned(turn) + place.shift;
    let shadow = |piece: &PieceShadow| PieceShadow {
        name: piece.name.clone(),
        corners: piece.corners.iter().map(put).collect(),
    };
    shadows.iter().map(shadow).collect()
}

/// Over what length a figure comes about as near to a side as it does at its nearest.
fn length_mm(corners: &[Point], (a, b): (Point, Point)) -> f64 {
    let along = (b - a).unit();
    let off = |corner: &Point| (*corner - a).dot(along.left());
    let least = corners.iter().map(off).fold(f64::INFINITY, f64::min);
    let near = corners.iter().filter(|corner| off(corner) < least + tolerance::ARC_CHORD_MM);
    let (from, to) = near
        .map(|corner| (*corner - a).dot(along))
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(from, to), at| (from.min(at), to.max(at)));
    to - from
}

pub(crate) fn too_large(mark: &str) -> Answer {
    let sentence = format!("{mark} is too large to be judged");
    Answer { fits: false, sentence, facts: Vec::new(), scenes: Vec::new() }
}
