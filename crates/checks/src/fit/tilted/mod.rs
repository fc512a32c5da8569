//! Tilted lift-out: one end first, through an opening shorter than the part.
//!
//! Seen from the side, the part tilts about a line across the opening; its whole width must clear the sides of the
//! opening all the way, so of an opening that is not square-cornered the longest stretch of that width counts. The way out is a list of poses, each and the sweep to the next free of everything by a stated
//! margin. Where none is found, the part is tried with one thing after another out of the way, and what frees it is
//! named.

mod route;
mod search;
mod space;
mod strip;

use geometry::grid::{GridError, GridOutline, GridPoint};
use geometry::{Point, Vector, tolerance, trig};
use shapes::{Clearance, Fact, Figure};
use units::{Length, LengthStyle};

use super::answer::{Answer, Role, Scene};
use super::body::Body;
use super::level::too_large;
use super::shadow::View;
use search::{STEPS_MILLIDEGREES, Search};

pub use search::{Pose, TiltedPath};
pub use space::Space;

/// Along which of its own directions the part lies in the opening.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lies {
    /// Its side AB along the opening.
    Along,
    /// Its side AB across the opening.
    Across,
}

/// A tilted lift-out.
#[derive(Debug, Clone, PartialEq)]
pub struct TiltedLift {
    /// The opening, convex; the part tilts along its x axis.
    pub opening: Figure,
    /// What must stay free at each end and each side of the opening.
    pub clearance: Clearance,
    /// How the part lies.
    pub lies: Lies,
    /// From the upper face of the deck or coaming down to its lower edge.
    pub deck: Length,
    /// From there down to the floor.
    pub depth_below: Length,
    /// How far the space below reaches past the first and the second end of the opening.
    pub reach_below: [Length; 2],
    /// Clear height above the deck.
    pub headroom: Option<Length>,
}

/// Finest tilt step at which one thing after another is taken out of the way, thousandths of a degree.
const TRIAL_STEP: i32 = 250;

/// What the search looks at, and what it does not.
const WAYS: &str = "tilting about one line across the opening, either end first; not turned in plan, not tipped to a side, not out \
                    cornerwise";

/// Said of a part for which no way was found.
const NOT_TRIED: &str = "turning it in plan or tipping it to a side was not tried, and may still pass it";

/// Rounds of halving in the search for the shortest opening that would do.
const HALVINGS: u32 = 8;

/// Finds a way out of a space for a profile in side view, x along the opening and y up; poses tell where the middle of
/// its upright rectangle goes.
///
/// # Errors
/// [`GridError`] when the part or the space is larger than the grid.
pub fn way_out(space: &Space, profile: &GridOutline) -> Result<Option<TiltedPath>, GridError> {
    let centred = centred(profile);
    for step in STEPS_MILLIDEGREES {
        if let Some(path) = Search::new(space, &centred, step).path()? {
            return Ok(Some(path));
        }
    }
    Ok(None)
}

/// A profile moved so that the middle of its upright rectangle is the origin.
#[must_use]
pub fn centred(profile: &GridOutline) -> GridOutline {
    let (low, high) = profile.bounds();
    profile.shifted(-GridPoint::near(low.millimetres().toward(high.millimetres(), 0.5)))
}

/// A profile's corners in a pose, mm; the profile must be [`centred`].
#[must_use]
pub fn posed(profile: &GridOutline, pose: &Pose) -> Vec<Point> {
    let tilt = f64::from(pose.tilt_millidegrees) * std::f64::consts::PI / 180_000.0;
    let (sine, cosine) = (trig::sin(tilt), trig::cos(tilt));
    let put = |p: Point| pose.at + Vector::new(p.x * cosine - p.y * sine, p.x * sine + p.y * cosine);
    profile.outer().iter().map(|corner| put(corner.millimetres())).collect()
}

impl TiltedLift {
    /// The space in side view for a part so wide: of the opening counts the longest stretch over which that width
    /// clears both sides. `None` where there is none.
    #[must_use]
    pub fn space(&self, width_mm: f64) -> Option<Space> {
        let clearance_mm = self.clearance.total().millimetres();
        let clear = self.opening.grown(tolerance::FIT_MM - clearance_mm)?;
        let (from, to) = strip::longest(&clear.corners, width_mm)?;
        let edge_mm = clearance_mm - tolerance::FIT_MM;
        let (low, high) = geometry::polygon::bounds(&self.opening.corners);
        let past = [from - edge_mm - low.x, high.x - edge_mm - to];
        Some(Space {
            opening_mm: to - from + 2.0 * edge_mm,
            clearance_mm,
            deck_mm: self.deck.millimetres(),
            depth_mm: self.depth_below.millimetres(),
            reach_mm: [0, 1].map(|end| self.reach_below[end].millimetres() + past[end].max(0.0)),
            headroom_mm: self.headroom.map(Length::millimetres),
        })
    }

    /// Judges a part. `mark` names it; `style` is how lengths read.
    #[must_use]
    pub fn judge(&self, mark: &str, body: &Body, style: LengthStyle) -> Answer {
        self.judged(mark, body, style).unwrap_or_else(|_| too_large(mark))
    }

    fn judged(&self, mark: &str, body: &Body, style: LengthStyle) -> Result<Answer, GridError> {
        let print = |millimetres: f64| Length::from_millimetres(millimetres).print(style);
        let (low, high) = body.bounds();
        let (view, width_mm) = match self.lies {
            Lies::Along => (View::ALONG_Y, high.y - low.y),
            Lies::Across => (View::ALONG_X, high.x - low.x),
        };
        let widest_mm = strip::widest_mm(&self.opening, self.clearance.total().millimetres());
        let side_spare_mm = 0.5 * (widest_mm - width_mm);
        let profile = centred(&body.outline(&view)?);
        let mut facts = vec![
            Fact::words("clearance", self.clearance.sum_words(style), "clearance"),
            Fact::length_mm(
                "spare at each side of the opening",
                side_spare_mm,
                "opening where it is widest, less part less clearance",
            ),
        ];
        facts.push(Fact::words("ways that were tried", WAYS, "search"));
        facts.extend(self.given_sizes(style));
        let Some(space) = self.space(width_mm).filter(|_| -tolerance::FIT_MM <= side_spare_mm) else {
            let sentence = format!(
                "{mark} is too wide to tilt out: {} over at each side",
                print((-side_spare_mm).max(0.0))
            );
            return Ok(Answer { fits: false, sentence, facts, scenes: Vec::new() });
        };
        facts.push(Fact::length_mm(
            "length of the opening for this width",
            space.opening_mm,
            "longest stretch over which the part clears both sides",
        ));
        if let Some(path) = way_out(&space, &profile)? {
            let most = path.poses.iter().map(|pose| pose.tilt_millidegrees.abs()).max().unwrap_or(0);
            let end = path.poses.iter().max_by_key(|pose| pose.tilt_millidegrees.abs());
            let first =
                if end.is_some_and(|pose| pose.tilt_millidegrees < 0) { "first end" } else { "second end" };
            let sentence = match most {
                0 => format!("{mark} lifts straight out; no tilting is needed"),
                _ => format!(
                    "{mark} tilts out, its end toward the {first} of the opening up first, to {:.1}°; {} to spare all the way",
                    f64::from(most) / 1000.0,
                    print(path.margin_mm)
                ),
            };
            facts.push(Fact::length_mm(
                "kept clear beyond the clearance",
                path.margin_mm,
                "margin of the search",
            ));
            return Ok(Answer { fits: true, sentence, facts, scenes: scenes(mark, &space, &profile, &path) });
        }
        let reason = obstruction(&space, &profile, style)?;
        let sentence = format!("no way was found to tilt {mark} out: {reason} ({NOT_TRIED})");
        let standing = still(&space, &profile);
        Ok(Answer { fits: false, sentence, facts, scenes: vec![standing] })
    }
}

impl TiltedLift {
    /// The sizes of the space as the job gives them.
    fn given_sizes(&self, style: LengthStyle) -> Vec<Fact> {
        let (low, high) = geometry::polygon::bounds(&self.opening.corners);
        let fact = |name: &str, length: Length| Fact::length_mm(name, length.millimetres(), "the job");
        let mut facts = vec![
            Fact::length_mm("opening, along the tilt", high.x - low.x, "the job"),
            Fact::length_mm("opening, across", high.y - low.y, "the job"),
            fact("deck, from its upper face to its lower edge", self.deck),
            fact("depth below the deck", self.depth_below),
        ];
        let [first, second] = self.reach_below.map(|reach| reach.print(style));
        let reach = format!("{first} past the first end, {second} past the second end");
        facts.push(Fact::words("space below reaches", reach, "the job"));
        facts.extend(self.headroom.map(|headroom| fact("headroom above the deck", headroom)));
        facts
    }
}

/// What frees the part when it is taken out of the way.
fn obstruction(space: &Space, profile: &GridOutline, style: LengthStyle) -> Result<String, GridError> {
    let print = |millimetres: f64| Length::from_millimetres(millimetres).print(style);
    let frees = |trial: &Space| Ok(Search::new(trial, profile, TRIAL_STEP).path()?.is_some());
    let (low, high) = profile.bounds();
    let size = (high - low).millimetres();
    let much = 2.0 * (size.x + size.y);
    if !Search::new(space, profile, STEPS_MILLIDEGREES[3]).can_start()? {
        return Ok(format!(
            "it does not stand level in the space below, being {} long and {} high",
            print(size.x),
            print(size.y)
        ));
    }
    if space.headroom_mm.is_some() && frees(&Space { headroom_mm: None, ..*space })? {
        return Ok("what is overhead stops the end that goes up".to_owned());
    }
    if frees(&Space { depth_mm: space.depth_mm + much, ..*space })? {
        return Ok("the floor stops the end that goes down before the other end comes through".to_owned());
    }
    if frees(&Space { reach_mm: [much, much], ..*space })? {
        return Ok("the wall of the space below stops the end that goes down".to_owned());
    }
    let opened = |by: f64| Space { opening_mm: space.opening_mm + by, ..*space };
    if !frees(&opened(much))? {
        return Ok("several things stop it together: opening, deck, floor and walls".to_owned());
    }
    let (mut fails, mut does) = (0.0, much);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (fails + does);
        if frees(&opened(middle))? { does = middle } else { fails = middle }
    }
    Ok(format!(
        "the edges of the opening hold it between them; an opening {} long would do",
        print(space.opening_mm + does)
    ))
}

/// Start, middle and end of a way out.
fn scenes(mark: &str, space: &Space, profile: &GridOutline, path: &TiltedPath) -> Vec<Scene> {
    // The middle picture shows the part half through: the pose nearest to having as much above the deck as below it.
    let middle = path.poses.iter().min_by(|a, b| a.at.y.abs().total_cmp(&b.at.y.abs()));
    let chosen = [path.poses.first(), middle, path.poses.last()];
    let titles = [START, "half way", "out"];
    let scene = |(title, pose): (&str, &Pose)| {
        let degrees = f64::from(pose.tilt_millidegrees) / 1000.0;
        let scene = standing(space, profile, &titled(title, degrees.abs())).with(
            Role::Part,
            posed(profile, pose),
            mark,
        );
        if title == START { with_ends(scene, space) } else { scene }
    };
    titles.into_iter().zip(chosen).filter_map(|(title, pose)| Some(scene((title, pose?)))).collect()
}

/// Title of the picture in which the part stands in the space below.
const START: &str = "start";

/// The picture with both ends of the opening named.
fn with_ends(mut scene: Scene, space: &Space) -> Scene {
    let up = Vector::new(0.0, 1.0);
    for (x, name) in [(0.0, "first end"), (space.opening_mm, "second end")] {
        scene.labels.push((Point::new(x, 0.0), up, name.to_owned()));
    }
    scene
}

fn titled(title: &str, degrees: f64) -> String {
    if 0.0 < degrees { format!("{title}, tilted {degrees:.1}°") } else { format!("{title}, level") }
}

fn standing(space: &Space, profile: &GridOutline, title: &str) -> Scene {
    let (low, high) = profile.bounds();
    let size = (high - low).millimetres();
    let drawn = space.drawn(size.x + size.y).into_iter();
    drawn.fold(Scene::titled(title), |scene, (name, corners)| scene.with(Role::Fixed, corners, name))
}

/// The part in the space below, where it cannot get out.
fn still(space: &Space, profile: &GridOutline) -> Scene {
    let (low, _) = profile.bounds();
    let floor = -space.deck_mm - space.depth_mm - low.millimetres().y;
    let pose = Pose { tilt_millidegrees: 0, at: Point::new(0.5 * space.opening_mm, floor) };
    standing(space, profile, "as it stands").with(Role::Part, posed(profile, &pose), "")
}
