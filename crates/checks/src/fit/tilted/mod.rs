//! Tilted lift-out: one end or one side first, through an opening shorter or narrower than the part.
//!
//! Seen from the side, the part tilts about a line across the opening, or about one along it; its whole width must clear
//! both borders beside it all the way, so of an opening that is not square-cornered the longest stretch of that width
//! counts. The way out is a list of poses, each and the sweep to the next free of everything by a stated margin; of the two
//! lines that one is taken about which the part tilts less. Where no way is found, the part is tried with one thing after
//! another out of the way, and what frees it is named.

mod about;
mod obstruction;
mod pictures;
mod route;
mod search;
mod space;
mod strip;

use geometry::grid::{GridError, GridOutline, GridPoint};
use geometry::{Point, Vector, trig};
use shapes::{Clearance, Fact, Figure};
use units::{Length, LengthStyle};

use super::answer::Answer;
use super::body::Body;
use super::level::too_large;
use about::{About, Line, Looked};
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
    /// The opening, convex; its x axis runs along it.
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
    /// How far it reaches past the first and the second side; taken as no farther than the opening where it is not given.
    pub reach_sides: Option<[Length; 2]>,
    /// Clear height above the deck.
    pub headroom: Option<Length>,
}

/// What the search looks at, and what it does not.
const WAYS: &str = "tilting about one line across the opening, either end first, and about one along it, either side first; \
                    not turned in plan, not about both lines, not out cornerwise";

/// Said of a part for which no way was found.
const NOT_TRIED: &str =
    "turning it in plan, or tilting it about both lines, was not tried, and may still pass it";

/// Where the job does not say how far the space below reaches past the sides.
const NO_FARTHER: &str = "taken as no farther than the opening";

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
    /// The space in side view for a part so wide, tilted about a line across the opening: of that counts the longest stretch
    /// over which that width clears both sides. `None` where there is none.
    #[must_use]
    pub fn space(&self, width_mm: f64) -> Option<Space> {
        About::of(self, Line::Across).space(width_mm)
    }

    /// Judges a part. `mark` names it; `style` is how lengths read.
    #[must_use]
    pub fn judge(&self, mark: &str, body: &Body, style: LengthStyle) -> Answer {
        self.judged(mark, body, style).unwrap_or_else(|_| too_large(mark))
    }

    fn judged(&self, mark: &str, body: &Body, style: LengthStyle) -> Result<Answer, GridError> {
        let across = About::of(self, Line::Across).look(body)?;
        // What comes straight out need not be tilted over a side either.
        if across.most_millidegrees() == Some(0) {
            return Ok(self.answer(mark, &[across], style));
        }
        let along = About::of(self, Line::Along).look(body)?;
        let looked = if along.comes_easier_than(&across) { [along, across] } else { [across, along] };
        if looked[0].path.is_some() {
            Ok(self.answer(mark, &looked, style))
        } else {
            self.refusal(mark, &looked, style)
        }
    }

    /// The way about the first of the lines looked at, and what came of the other.
    fn answer(&self, mark: &str, looked: &[Looked], style: LengthStyle) -> Answer {
        let (way, others) = (&looked[0], &looked[1..]);
        let mut facts = self.facts(&looked[..1], style);
        facts.extend(way.path.iter().map(|path| {
            Fact::length_mm("kept clear beyond the clearance", path.margin_mm, "margin of the search")
        }));
        facts.extend(others.iter().map(Looked::outcome));
        let (sentence, scenes) = (way.sentence(mark, style), way.scenes(mark));
        Answer { fits: true, sentence, facts, scenes }
    }

    /// No way about either line.
    fn refusal(&self, mark: &str, looked: &[Looked], style: LengthStyle) -> Result<Answer, GridError> {
        let reasons = looked.iter().map(|looked| looked.reason(style)).collect::<Result<Vec<_>, _>>()?;
        let sentence = format!("no way was found to tilt {mark} out: {} ({NOT_TRIED})", reasons.join("; "));
        let scenes = looked.iter().filter_map(Looked::still).collect();
        Ok(Answer { fits: false, sentence, facts: self.facts(looked, style), scenes })
    }

    fn facts(&self, looked: &[Looked], style: LengthStyle) -> Vec<Fact> {
        let mut facts = vec![Fact::words("clearance", self.clearance.sum_words(style), "clearance")];
        facts.extend(looked.iter().map(Looked::spare));
        facts.push(Fact::words("ways that were tried", WAYS, "search"));
        facts.extend(self.given_sizes(style));
        facts.extend(looked.iter().filter_map(Looked::stretch));
        facts
    }

    /// The sizes of the space as the job gives them.
    fn given_sizes(&self, style: LengthStyle) -> Vec<Fact> {
        let (low, high) = geometry::polygon::bounds(&self.opening.corners);
        let fact = |name: &str, length: Length| Fact::length_mm(name, length.millimetres(), "the job");
        let mut facts = vec![
            Fact::length_mm("opening, along", high.x - low.x, "the job"),
            Fact::length_mm("opening, across", high.y - low.y, "the job"),
            fact("deck, from its upper face to its lower edge", self.deck),
            fact("depth below the deck", self.depth_below),
        ];
        let words = |[first, second]: [Length; 2], border: &str| {
            let [first, second] = [first, second].map(|reach| reach.print(style));
            format!("{first} past the first {border}, {second} past the second {border}")
        };
        facts.push(Fact::words("space below reaches", words(self.reach_below, "end"), "the job"));
        facts.push(match self.reach_sides {
            Some(reach) => Fact::words("space below reaches, sideways", words(reach, "side"), "the job"),
            None => Fact::words("space below reaches, sideways", NO_FARTHER, "not given in the job"),
        });
        facts.extend(self.headroom.map(|headroom| fact("headroom above the deck", headroom)));
        facts
    }
}
