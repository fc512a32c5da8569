//! What a fit check answers: yes or no, one sentence, the numbers behind it, and pictures.

use geometry::{Point, Vector, polygon, tolerance};
use shapes::{Fact, Figure};
use units::{Length, LengthStyle};

/// The answer of one fit check.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// Whether it fits.
    pub fits: bool,
    /// The answer in one sentence.
    pub sentence: String,
    /// The numbers behind it.
    pub facts: Vec<Fact>,
    /// Pictures, in the order in which things happen.
    pub scenes: Vec<Scene>,
}

/// One picture: straight-sided figures and named points, millimetres, x to the right, y up.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Scene {
    /// What it shows.
    pub title: String,
    /// Figures, first ones undermost.
    pub figures: Vec<SceneFigure>,
    /// Points with words.
    pub marks: Vec<(Point, String)>,
    /// Angles, each drawn from what to what.
    pub turns: Vec<Turned>,
    /// Words beside a place, on the side that the direction points to.
    pub labels: Vec<(Point, Vector, String)>,
}

/// An angle of a picture: an arm that turns about a point.
#[derive(Debug, Clone, PartialEq)]
pub struct Turned {
    /// What it turns about.
    pub about: Point,
    /// The end of the arm before it turns.
    pub from: Point,
    /// How far it turns, radians, positive against the clock.
    pub turn_rad: f64,
    /// Words beside the arc.
    pub words: String,
}

/// A figure of a picture.
#[derive(Debug, Clone, PartialEq)]
pub struct SceneFigure {
    /// What it is.
    pub role: Role,
    /// Its corners.
    pub corners: Vec<Point>,
    /// Words beside it; none when empty.
    pub name: String,
}

/// What a figure of a picture is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// What stands still: deck, wall, floor, door.
    Fixed,
    /// The edge of an opening or of a space.
    Opening,
    /// What is left of the opening when the clearance is taken.
    Clear,
    /// The part.
    Part,
    /// Where the part was before.
    Before,
}

/// "24 × 18": how long and wide a figure is; over all, where it is no rectangle along both.
pub(super) fn size_words(figure: &Figure, style: LengthStyle) -> String {
    let (low, high) = polygon::bounds(&figure.corners);
    let at_ends =
        |at: f64, ends: [f64; 2]| ends.iter().any(|end| (at - end).abs() <= tolerance::SAME_POINT_MM);
    let square = figure.count() == 4
        && figure.corners.iter().all(|p| at_ends(p.x, [low.x, high.x]) && at_ends(p.y, [low.y, high.y]));
    let print = |millimetres: f64| Length::from_millimetres(millimetres).print(style);
    let over_all = if square { "" } else { " over all" };
    format!("{} × {}{over_all}", print(high.x - low.x), print(high.y - low.y))
}

impl Scene {
    /// A picture without anything in it yet.
    #[must_use]
    pub fn titled(title: impl Into<String>) -> Self {
        Self { title: title.into(), ..Self::default() }
    }

    /// The picture with one more figure.
    #[must_use]
    pub fn with(mut self, role: Role, corners: Vec<Point>, name: impl Into<String>) -> Self {
        self.figures.push(SceneFigure { role, corners, name: name.into() });
        self
    }
}
