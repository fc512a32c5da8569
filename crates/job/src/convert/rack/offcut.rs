//! An offcut and the rack that it stands in.

use geometry::Point;
use geometry::grid::{GridOutline, GridPoint};
use geometry::nofit::{inner_fit, no_fit};
use stock::{Film, Pattern};
use units::{Area, Length};

use crate::sheet_outline::{enclosed, points};

/// Steps of a thousandth of a millimetre by which a rectangle is taken smaller when it is tried inside an outline.
const PLAY_STEPS: i64 = 20;

/// The rack: every offcut that stands in it, and those that were taken.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Rack {
    /// Least sizes of an offcut worth keeping, smaller first; none when the shop states no rule.
    pub least: Option<[Length; 2]>,
    /// The offcuts, in the order in which they came.
    pub offcuts: Vec<Offcut>,
}

/// A piece left of a sheet, with its real outline.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Offcut {
    /// The shop's mark.
    pub mark: String,
    /// What it is made of.
    pub metal: OffcutMetal,
    /// Thickness; of tread plate that of the flat base.
    pub thickness: Length,
    /// False when the thickness is as ordered, not by caliper.
    pub measured: bool,
    /// Corners in order, x and y, seen from the marked face.
    pub outline: Vec<[Length; 2]>,
    /// Corners of every hole in it; none meets another or the outline.
    pub holes: Vec<Vec<[Length; 2]>>,
    /// Zones of it that may not be used; they may meet its edge, its holes and one another.
    pub torn: Vec<TornZone>,
    /// Protective film.
    pub film: Film,
    /// State of the face that will show.
    pub face: FaceState,
    /// Which way lugs or grain run.
    pub lay: OffcutLay,
    /// Where it stands.
    pub place: String,
    /// The job it is left from.
    pub from_job: Option<String>,
    /// The mark of the piece of this rack that it was cut from: that one is no longer whole.
    pub cut_from: Option<String>,
    /// When it came, as year-month-day.
    pub date: String,
    /// Free, reserved or taken.
    pub standing: Standing,
    /// Anything else worth knowing.
    pub note: Option<String>,
}

/// Metal of an offcut that is there but may not be used.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TornZone {
    /// Corners in order, like those of the offcut.
    pub outline: Vec<[Length; 2]>,
    /// Why not, in the shop's own words.
    pub why: String,
}

/// Alloy, temper and pattern of an offcut.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OffcutMetal {
    /// The alloy's name in the tables, or the shop's own for an unlisted one.
    pub alloy: String,
    /// The temper, if one is named.
    pub temper: Option<String>,
    /// True when the tables lack the alloy.
    pub unlisted: bool,
    /// Plain or tread.
    pub pattern: Pattern,
}

/// State of the face that will show.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FaceState {
    /// Fit to show.
    Good,
    /// Scratched or stained.
    Scratched,
    /// Nobody has looked.
    Unknown,
}

/// Which way lugs or grain run across the outline.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OffcutLay {
    /// Along x.
    AlongX,
    /// Along y.
    AlongY,
    /// There is none.
    None,
    /// Nobody can tell.
    Unknown,
}

/// Whether an offcut may be used.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Standing {
    /// By anyone.
    Free,
    /// Only by this job.
    Reserved(String),
    /// It was taken for this job and is no longer there.
    Taken(String),
}

impl Offcut {
    /// Corners in millimetres.
    #[must_use]
    pub fn corners(&self) -> Vec<Point> {
        points(&self.outline)
    }

    /// Exact area of its metal, zones that may not be used and all, holes not.
    #[must_use]
    pub fn area(&self) -> Area {
        self.holes.iter().fold(enclosed(&self.outline), |metal, hole| metal - enclosed(hole))
    }

    /// True when holes or zones that may not be used lie in it.
    #[must_use]
    pub fn has_blemishes(&self) -> bool {
        !self.holes.is_empty() || !self.torn.is_empty()
    }

    /// Sizes of the smallest upright rectangle around it, along x and along y.
    #[must_use]
    pub fn extents(&self) -> [Length; 2] {
        let reach = |axis: usize| {
            let along = self.outline.iter().map(move |corner| corner[axis]);
            along.clone().max().unwrap_or_default() - along.min().unwrap_or_default()
        };
        [reach(0), reach(1)]
    }

    /// True for an upright rectangle without holes or zones that may not be used.
    #[must_use]
    pub fn is_rectangle(&self) -> bool {
        let [length, width] = self.extents();
        !self.has_blemishes() && self.outline.len() == 4 && self.area() == length * width
    }

    /// Whether a rectangle of these sizes lies in metal that may be used, its sides along x and y, either way round, to a few
    /// hundredths of a millimetre.
    #[must_use]
    pub fn holds(&self, sizes: [Length; 2]) -> bool {
        let [length, width] = self.extents();
        let [small, large] = [sizes[0].min(sizes[1]), sizes[0].max(sizes[1])];
        if length.min(width) < small || length.max(width) < large {
            return false;
        }
        if self.is_rectangle() {
            return true;
        }
        let grid = |ring: &[[Length; 2]]| points(ring).into_iter().map(GridPoint::near).collect::<Vec<_>>();
        let ring = grid(&self.outline);
        let spoilt = self.holes.iter().chain(self.torn.iter().map(|zone| &zone.outline));
        let spoilt: Result<Vec<GridOutline>, _> =
            spoilt.map(|ring| GridOutline::new(grid(ring), Vec::new())).collect();
        let Ok(spoilt) = spoilt else { return false };
        let steps = |length: Length| GridPoint::near(Point::new(length.millimetres(), 0.0)).x;
        [[small, large], [large, small]].into_iter().any(|[x, y]| {
            // A rectangle that fits exactly has no play at all, and too little play is too little of a region.
            GridOutline::rectangle(steps(x) - PLAY_STEPS, steps(y) - PLAY_STEPS).is_ok_and(|figure| {
                let taken: Vec<_> = spoilt.iter().map(|spoilt| no_fit(spoilt, &figure)).collect();
                let places = inner_fit(&ring, &figure);
                !places.without(taken.iter().map(|taken| (taken, GridPoint::default()))).is_empty()
            })
        })
    }
}

impl OffcutMetal {
    /// "5052-H32 tread".
    #[must_use]
    pub fn words(&self) -> String {
        let temper = self.temper.as_ref().map(|temper| format!("-{temper}")).unwrap_or_default();
        let tread = if self.pattern == Pattern::Tread { " tread" } else { "" };
        format!("{}{temper}{tread}", self.alloy)
    }
}

impl Standing {
    /// "free", "reserved for Skiff", "taken for Skiff".
    #[must_use]
    pub fn words(&self) -> String {
        match self {
            Self::Free => "free".to_owned(),
            Self::Reserved(job) => format!("reserved for {job}"),
            Self::Taken(job) => format!("taken for {job}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn l_shape(leg: f64, reach: f64) -> Offcut {
        let corners = [(0.0, 0.0), (reach, 0.0), (reach, leg), (leg, leg), (leg, 24.0), (0.0, 24.0)];
        Offcut {
            mark: "L".to_owned(),
            metal: OffcutMetal {
                alloy: "5052".to_owned(),
                temper: None,
                unlisted: false,
                pattern: Pattern::Plain,
            },
            thickness: Length::from_inches(0.125),
            measured: true,
            outline: corners.map(|(x, y)| [x, y].map(Length::from_inches)).to_vec(),
            holes: Vec::new(),
            torn: Vec::new(),
            film: Film::Bare,
            face: FaceState::Good,
            lay: OffcutLay::None,
            place: "B3".to_owned(),
            from_job: None,
            cut_from: None,
            date: "2026-03-04".to_owned(),
            standing: Standing::Free,
            note: None,
        }
    }

    #[test]
    fn a_leg_of_an_l_holds_what_is_exactly_as_large_and_no_more() {
        let inches = Length::from_inches;
        for (leg, reach) in [(10.0, 30.0), (3.0, 400.0)] {
            let offcut = l_shape(leg, reach);
            assert!(offcut.holds([inches(leg), inches(reach)]), "{leg} {reach}");
            assert!(offcut.holds([inches(24.0), inches(leg)]), "{leg} {reach}");
            assert!(offcut.holds([inches(leg), inches(1.0)]), "{leg} {reach}");
            assert!(!offcut.holds([inches(leg + 0.01), inches(reach)]), "{leg} {reach}");
            assert!(!offcut.holds([inches(leg + 0.01), inches(leg + 0.01)]), "{leg} {reach}");
        }
    }

    /// By hand: the foot of the L is 10 × 30; a hole from 14 to 16 along it leaves 14 and 14 beside it, and a tear over its
    /// right end from 20 on leaves 4.
    #[test]
    fn what_lies_beside_holes_and_tears_is_held_and_no_more() {
        let inches = Length::from_inches;
        let ring = |corners: [(f64, f64); 4]| corners.map(|(x, y)| [x, y].map(inches)).to_vec();
        let mut offcut = l_shape(10.0, 30.0);
        offcut.holes.push(ring([(14.0, 2.0), (16.0, 2.0), (16.0, 9.0), (14.0, 9.0)]));
        assert_eq!(offcut.area(), inches(1.0) * inches(440.0 - 14.0));
        assert!(offcut.holds([inches(10.0), inches(14.0)]));
        assert!(offcut.holds([inches(2.0), inches(30.0)]), "under the hole");
        assert!(offcut.holds([inches(24.0), inches(10.0)]), "the upright leg");
        assert!(!offcut.holds([inches(2.01), inches(30.0)]));
        let tear = ring([(20.0, 0.0), (30.0, 0.0), (30.0, 10.0), (20.0, 10.0)]);
        offcut.torn.push(TornZone { outline: tear, why: "torn".to_owned() });
        assert_eq!(offcut.area(), inches(1.0) * inches(440.0 - 14.0), "the metal is there");
        assert!(offcut.holds([inches(2.0), inches(20.0)]));
        assert!(!offcut.holds([inches(2.0), inches(24.01)]));
    }
}
