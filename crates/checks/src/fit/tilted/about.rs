//! One line that a part is tilted about: across the opening, one end first, or along it, one side first.

use geometry::grid::{GridError, GridOutline};
use geometry::{Point, polygon, tolerance};
use shapes::{Fact, Figure};
use units::{Length, LengthStyle};

use super::super::answer::Scene;
use super::super::body::Body;
use super::super::shadow::View;
use super::{Lies, NO_FARTHER, Space, TiltedLift, TiltedPath, obstruction, pictures, strip, way_out};

/// How the line lies to the opening.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Line {
    /// Across it: the part comes out one end first.
    Across,
    /// Along it: the part comes out one side first.
    Along,
}

/// The lift-out about one line, seen along that: x runs square to it.
pub(super) struct About<'a> {
    lift: &'a TiltedLift,
    line: Line,
    /// The opening as seen so.
    opening: Figure,
    /// How far the space below reaches past both of its borders.
    reach: [Length; 2],
    view: View,
}

/// What came of looking about one line.
pub(super) struct Looked {
    line: Line,
    /// Whether the job says how far the space below reaches this way.
    reach_is_given: bool,
    profile: GridOutline,
    /// `None` where the part is too wide to be tilted so.
    space: Option<Space>,
    /// What is spare beside it, each side, mm.
    spare_mm: f64,
    pub(super) path: Option<TiltedPath>,
}

impl Line {
    /// What an opening ends in on this line's two sides: "end", "side".
    pub(super) const fn border(self) -> &'static str {
        match self {
            Self::Across => "end",
            Self::Along => "side",
        }
    }

    /// What it ends in the other way.
    const fn beside(self) -> &'static str {
        match self {
            Self::Across => "side",
            Self::Along => "end",
        }
    }
}

impl<'a> About<'a> {
    pub(super) fn of(lift: &'a TiltedLift, line: Line) -> Self {
        let view = match (line, lift.lies) {
            (Line::Across, Lies::Along) => View::ALONG_Y,
            (Line::Across, Lies::Across) | (Line::Along, Lies::Along) => View::ALONG_X,
            // With its y along the opening, the part's x runs against the way across.
            (Line::Along, Lies::Across) => View { right: -View::ALONG_Y.right, ..View::ALONG_Y },
        };
        let (opening, reach) = match line {
            Line::Across => (lift.opening.clone(), lift.reach_below),
            Line::Along => (exchanged(&lift.opening), lift.reach_sides.unwrap_or([Length::ZERO; 2])),
        };
        Self { lift, line, opening, reach, view }
    }

    /// The space in side view for a part so wide: of the opening counts the longest stretch over which that width clears both
    /// of its borders. `None` where there is none.
    pub(super) fn space(&self, width_mm: f64) -> Option<Space> {
        let clearance_mm = self.lift.clearance.total().millimetres();
        let clear = self.opening.clear(clearance_mm - tolerance::FIT_MM).into_iter().next()?;
        let (from, to) = strip::longest(&clear, width_mm)?;
        let edge_mm = clearance_mm - tolerance::FIT_MM;
        let (low, high) = polygon::bounds(&self.opening.corners);
        let past = [from - edge_mm - low.x, high.x - edge_mm - to];
        Some(Space {
            opening_mm: to - from + 2.0 * edge_mm,
            clearance_mm,
            deck_mm: self.lift.deck.millimetres(),
            depth_mm: self.lift.depth_below.millimetres(),
            reach_mm: [0, 1].map(|end| self.reach[end].millimetres() + past[end].max(0.0)),
            headroom_mm: self.lift.headroom.map(Length::millimetres),
        })
    }

    /// Looks for a way out.
    pub(super) fn look(&self, body: &Body) -> Result<Looked, GridError> {
        let (low, high) = body.bounds();
        let size = high - low;
        // What the view looks along stands square to what is right in it.
        let width_mm = if self.view.right.x.abs() < self.view.right.y.abs() { size.x } else { size.y };
        let widest_mm = strip::widest_mm(&self.opening, self.lift.clearance.total().millimetres());
        let spare_mm = 0.5 * (widest_mm - width_mm);
        let profile = super::centred(&body.outline(&self.view)?);
        let space = self.space(width_mm).filter(|_| -tolerance::FIT_MM <= spare_mm);
        let path = match &space {
            Some(space) => way_out(space, &profile)?,
            None => None,
        };
        let reach_is_given = self.line == Line::Across || self.lift.reach_sides.is_some();
        Ok(Looked { line: self.line, reach_is_given, profile, space, spare_mm, path })
    }
}

impl Looked {
    /// The greatest tilt of the way that was found, thousandths of a degree.
    pub(super) fn most_millidegrees(&self) -> Option<i32> {
        let path = self.path.as_ref()?;
        path.poses.iter().map(|pose| pose.tilt_millidegrees.abs()).max()
    }

    /// Less tilted than about the other line, or the only way.
    pub(super) fn comes_easier_than(&self, other: &Self) -> bool {
        match (self.most_millidegrees(), other.most_millidegrees()) {
            (Some(own), Some(others)) => own < others,
            (own, _) => own.is_some() && other.path.is_none(),
        }
    }

    /// The way out in one sentence.
    pub(super) fn sentence(&self, mark: &str, style: LengthStyle) -> String {
        let (border, most) = (self.line.border(), self.most_millidegrees().unwrap_or(0));
        if most == 0 {
            return format!("{mark} lifts straight out; no tilting is needed");
        }
        let Some(path) = &self.path else { return String::new() };
        let most_tilted = path.poses.iter().max_by_key(|pose| pose.tilt_millidegrees.abs());
        let first =
            if most_tilted.is_some_and(|pose| pose.tilt_millidegrees < 0) { "first" } else { "second" };
        format!(
            "{mark} tilts out, its {border} toward the {first} {border} of the opening up first, to {:.1}°; {} to spare all the way",
            f64::from(most) / 1000.0,
            Length::from_millimetres(path.margin_mm).print(style)
        )
    }

    /// What came of this line where the part goes out about the other.
    pub(super) fn outcome(&self) -> Fact {
        let words = match self.most_millidegrees() {
            Some(most) => format!("comes out too, tilted to {:.1}°", f64::from(most) / 1000.0),
            None if self.reach_is_given || self.space.is_none() => "no way was found".to_owned(),
            None => format!("no way was found; the space below is {NO_FARTHER}"),
        };
        Fact::words(format!("one {} first", self.line.border()), words, "search")
    }

    /// Why no way was found.
    ///
    /// # Errors
    /// [`GridError`] when the part or the space is larger than the grid.
    pub(super) fn reason(&self, style: LengthStyle) -> Result<String, GridError> {
        let print = |millimetres: f64| Length::from_millimetres(millimetres).print(style);
        let (border, beside) = (self.line.border(), self.line.beside());
        let Some(space) = &self.space else {
            let over = print((-self.spare_mm).max(0.0));
            return Ok(format!("{border} first, it is too wide, {over} over at each {beside}"));
        };
        let reason = obstruction::reason(space, &self.profile, style)?;
        let taken =
            if self.reach_is_given { "" } else { ", the space below taken as no farther than the opening" };
        Ok(format!("{border} first, {reason}{taken}"))
    }

    /// What is spare beside the part.
    pub(super) fn spare(&self) -> Fact {
        let beside = self.line.beside();
        let origin = "opening where it is widest, less part less clearance";
        Fact::length_mm(format!("spare at each {beside} of the opening"), self.spare_mm, origin)
    }

    /// How long a stretch of the opening the part can use.
    pub(super) fn stretch(&self) -> Option<Fact> {
        let name = match self.line {
            Line::Across => "length of the opening for this width",
            Line::Along => "width of the opening for this length",
        };
        let origin = "longest stretch over which the part clears both borders";
        Some(Fact::length_mm(name, self.space.as_ref()?.opening_mm, origin))
    }

    /// Start, middle and end of the way out.
    pub(super) fn scenes(&self, mark: &str) -> Vec<Scene> {
        let found = self.space.as_ref().zip(self.path.as_ref());
        found.map_or_else(Vec::new, |(space, path)| {
            pictures::of_way(mark, (space, self.line), &self.profile, path)
        })
    }

    /// The part in the space below, where it cannot get out.
    pub(super) fn still(&self) -> Option<Scene> {
        Some(pictures::still((self.space.as_ref()?, self.line), &self.profile))
    }
}

/// The opening with along and across exchanged.
fn exchanged(opening: &Figure) -> Figure {
    let corners = opening.corners.iter().rev().map(|p| Point::new(p.y, p.x)).collect();
    let names = opening.names.iter().rev().cloned().collect();
    // The side before a corner is now the one behind it.
    let count = opening.count();
    let sides = (0..count).map(|side| opening.sides[(2 * count - 2 - side) % count].clone()).collect();
    Figure { corners, names, sides }
}
