//! What is done to the free edge of a plate: hems, returns, curls. One treatment serves panels, skirts, walls and rims.
//!
//! A hem is measured along its leg, from the outside of the fold to its cut edge; a plate with a hem or curl on it keeps
//! its size to the outermost metal. A return is measured to the outside of its bend, as a flange is.
//!
//! At a corner whose two edges are both treated the legs are mitred, along the plane half way between both plates; beside
//! a plate without treatment they stop clear of it.

mod along_runs;
mod attach;
mod limits;
mod reach;
mod round;

use std::f64::consts::{FRAC_PI_2, PI};

use fold::flat::UnfoldError;
use fold::part::{FoldedPart, Forming, LegsTo};
use fold::refold::{self, RefoldError};
use fold::{Direction, FlatPattern};
use geometry::{tolerance, trig};
use units::{Angle, Length};

use crate::{Making, Problem};

pub(crate) use along_runs::{Beside, RunEdge, finish_runs};
pub(crate) use attach::finish;
pub(crate) use limits::upright;

/// What helps where bent edges meet something.
pub(crate) const WHERE_MET: &str = "make it shorter, bend it the other way, or leave the edge plain";

/// What of a part lies in what when it is folded, in words; `None` where nothing does.
pub(crate) fn met_words(part: &FoldedPart, flat: &FlatPattern, making: &Making) -> Option<String> {
    match refold::prove(part, flat).err()? {
        RefoldError::RunsInto { first, second, depth_mm } => {
            Some(format!("{first} and {second} run into one another by {}", making.print_mm(depth_mm)))
        }
        error => Some(refold_words(&error, making)),
    }
}

/// Why a flat cannot be laid out, its lengths in the job's unit.
pub(crate) fn unfold_words(error: &UnfoldError, making: &Making) -> String {
    match error {
        UnfoldError::FaceTooShort { face, setback_mm } => {
            let setback = making.print_mm(*setback_mm);
            format!("{face}: too short for its bends: each bend takes its setback of {setback} from the face")
        }
        UnfoldError::ReliefTooLarge { radius_mm, what, .. } => {
            format!("a relief hole of diameter {} {what}", making.print_mm(2.0 * radius_mm))
        }
        UnfoldError::ReliefNeeded { faces, .. } => {
            format!("{} and {} need a relief where their bends meet", faces[0], faces[1])
        }
        UnfoldError::Overlap { .. } | UnfoldError::InsideCorner { .. } => error.to_string(),
    }
}

/// What refolding found, its lengths in the job's unit.
pub(crate) fn refold_words(error: &RefoldError, making: &Making) -> String {
    let print = |mm: f64| making.print_mm(mm);
    match error {
        RefoldError::Off { what, off_mm } => format!("{what} is off by {} after refolding", print(*off_mm)),
        RefoldError::Collision { seam, depth_mm } => {
            format!("{seam}: the plates run into one another by {}", print(*depth_mm))
        }
        RefoldError::Gap { seam, measured_mm, designed_mm } => {
            format!("{seam}: a gap of {}, designed {}", print(*measured_mm), print(*designed_mm))
        }
        RefoldError::RunsInto { first, second, depth_mm } => {
            format!("{first} and {second} run into one another by {} when folded", print(*depth_mm))
        }
        RefoldError::Holes { .. } | RefoldError::NoCorner { .. } | RefoldError::Beside { .. } => {
            error.to_string()
        }
    }
}

/// Largest turn of a return; beyond it the leg lies nearly flat on its plate and is a hem.
const MOST_RETURN_DEGREES: f64 = 150.0;

/// Turns of a curl.
const CURL_DEGREES: [f64; 2] = [90.0, 330.0];

/// Halvings that settle a turn far below a tenth of a degree.
const HALVINGS: u32 = 40;

/// What is done to a free edge.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum EdgeEnd {
    /// Nothing: a cut edge.
    #[default]
    Plain,
    /// Bent back on itself.
    Hem {
        /// How far it is closed.
        kind: HemKind,
        /// Along its leg, from the outside of the fold to its edge.
        length: Length,
        /// To which side.
        way: Option<EdgeWay>,
    },
    /// A lip.
    Return {
        /// To the outside of its bend.
        length: Length,
        /// From flat.
        turn: Angle,
        /// To which side.
        way: Option<EdgeWay>,
    },
    /// Rolled round, with a straight of one thickness at its end, which no curl takes up (common practice, no source).
    Curl {
        /// Inside radius.
        radius: Length,
        /// From flat.
        turn: Angle,
        /// To which side.
        way: Option<EdgeWay>,
    },
}

/// How far a hem is closed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HemKind {
    /// Pressed flat: no radius inside, the leg lies on the plate.
    Closed,
    /// A half turn that leaves a gap between leg and plate, twice its inside radius.
    Open {
        /// The gap.
        gap: Length,
    },
    /// Bent past a half turn until the edge of the leg touches the plate.
    TearDrop {
        /// Inside radius.
        radius: Length,
    },
}

/// To which side an edge is bent.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EdgeWay {
    /// The way the plate itself is bent.
    In,
    /// The other way.
    Out,
    /// Toward the marked face of a plate that is not bent itself.
    Up,
    /// Away from it.
    Down,
}

/// The bend of a treated edge.
#[derive(Debug, Clone, Copy, PartialEq)]
struct EdgeBend {
    turn_rad: f64,
    radius_mm: f64,
    legs_to: LegsTo,
    forming: Forming,
    /// The leg, to what it is measured to, mm.
    leg_mm: f64,
    /// What it takes of the plate beyond it, from the edge, when it is bent in, mm.
    reach_mm: f64,
}

impl EdgeEnd {
    /// True for a cut edge.
    #[must_use]
    pub const fn is_plain(&self) -> bool {
        matches!(self, Self::Plain)
    }

    const fn way(&self) -> Option<EdgeWay> {
        match self {
            Self::Plain => None,
            Self::Hem { way, .. } | Self::Return { way, .. } | Self::Curl { way, .. } => *way,
        }
    }

    /// "hem", "return", "curl": also the field it stands in.
    const fn word(&self) -> &'static str {
        match self {
            Self::Plain => "plain",
            Self::Hem { .. } => "hem",
            Self::Return { .. } => "return",
            Self::Curl { .. } => "curl",
        }
    }

    /// Which way it bends, off a plate that was itself bent in this direction, if it was.
    fn direction(&self, plate: Option<Direction>, field: &str) -> Result<Direction, Problem> {
        let field = format!("{field}.{}.toward", self.word());
        let wrong = |value: &str, remedy: &str| {
            Problem::new(&field, value, "does not say to which side this edge is bent", remedy)
        };
        match (plate, self.way()) {
            (Some(own), Some(EdgeWay::In) | None) => Ok(own),
            (Some(own), Some(EdgeWay::Out)) => Ok(own.reversed()),
            (None, Some(EdgeWay::Up)) => Ok(Direction::Up),
            (None, Some(EdgeWay::Down)) => Ok(Direction::Down),
            (Some(_), Some(EdgeWay::Up | EdgeWay::Down)) => {
                Err(wrong("up or down", "its plate is bent itself: say \"in\" or \"out\""))
            }
            (None, way) => {
                let value = if way.is_some() { "in or out" } else { "not given" };
                Err(wrong(value, "its plate is not bent itself: say \"up\" or \"down\""))
            }
        }
    }

    /// The bend; `None` for a cut edge.
    fn bend(&self, making: &Making, field: &str) -> Result<Option<EdgeBend>, Vec<Problem>> {
        let thickness_mm = making.thickness_mm();
        let field = format!("{field}.{}", self.word());
        let mut problems = Vec::new();
        let mut sound = |name: &str, length: Length| {
            making.above_zero(&format!("{field}.{name}"), length, &mut problems);
        };
        match self {
            Self::Plain => return Ok(None),
            Self::Hem { kind, length, .. } => {
                sound("length", *length);
                match kind {
                    HemKind::Closed => {}
                    HemKind::Open { gap } => sound("gap", *gap),
                    HemKind::TearDrop { radius } => sound("radius", *radius),
                }
            }
            Self::Return { length, .. } => sound("length", *length),
            Self::Curl { radius, .. } => sound("radius", *radius),
        }
        let bend = match *self {
            Self::Plain => return Ok(None),
            Self::Hem { kind, length, .. } => hem(kind, length, thickness_mm),
            Self::Return { length, turn, .. } => {
                problems.extend(turn_problem(&field, turn, 0.0, MOST_RETURN_DEGREES));
                lip(turn.radians(), length, making)
            }
            Self::Curl { radius, turn, .. } => {
                problems.extend(turn_problem(&field, turn, CURL_DEGREES[0], CURL_DEGREES[1]));
                let bend = curl(turn.radians(), radius.millimetres(), thickness_mm);
                problems.extend(curl_problem(&field, &bend, thickness_mm));
                bend
            }
        };
        let setback_mm = bend.setback_mm(thickness_mm);
        if problems.is_empty() && bend.leg_mm <= setback_mm + tolerance::SAME_POINT_MM {
            let least = making.print_mm(setback_mm);
            let wrong = format!("its bend alone takes {least} of it");
            let remedy = format!("make it longer than {least}");
            problems.push(Problem::new(
                format!("{field}.length"),
                making.print_mm(bend.leg_mm),
                wrong,
                remedy,
            ));
        }
        if problems.is_empty() { Ok(Some(bend)) } else { Err(problems) }
    }

    /// What its bend takes of the plate it is bent off; zero of a cut edge, and of one that cannot be bent at all, which is refused
    /// by itself.
    pub(crate) fn takes(&self, making: &Making) -> Length {
        let bend = self.bend(making, "edge").ok().flatten();
        Length::from_millimetres(bend.map_or(0.0, |bend| bend.setback_mm(making.thickness_mm())))
    }

    /// What it is, in words.
    pub(crate) fn words(&self, making: &Making) -> String {
        let print = |length: Length| making.print(length);
        match self {
            Self::Plain => "cut".to_owned(),
            Self::Hem { kind, length, .. } => match kind {
                HemKind::Closed => format!(
                    "closed hem {}, pressed flat; its fold takes 43 % of the thickness off the flat (published for \
                     sheet under .080 in)",
                    print(*length)
                ),
                HemKind::Open { gap } => format!("open hem {}, {} between", print(*length), print(*gap)),
                HemKind::TearDrop { radius } => format!(
                    "tear-drop hem {}, inside radius {}, its edge touching the plate",
                    print(*length),
                    print(*radius)
                ),
            },
            Self::Return { length, turn, .. } => {
                format!("return {}, {}°", print(*length), turn.print(1))
            }
            Self::Curl { radius, turn, .. } => {
                format!("curl of inside radius {}, {}°", print(*radius), turn.print(1))
            }
        }
    }
}

impl EdgeBend {
    fn setback_mm(&self, thickness_mm: f64) -> f64 {
        match self.legs_to {
            LegsTo::MoldLine => (self.radius_mm + thickness_mm) * trig::tan(0.5 * self.turn_rad),
            LegsTo::OutermostMetal => self.radius_mm + thickness_mm,
        }
    }
}

/// A tear-drop of inside radius R whose straight is ℓ long turns by π + 2·atan(R/ℓ): the straight then comes down by
/// ℓ·sin δ from where the arc ends, R(1 + cos δ) above the plate, with δ the turn past π (plane geometry).
fn hem(kind: HemKind, length: Length, thickness_mm: f64) -> EdgeBend {
    let leg_mm = length.millimetres();
    let (radius_mm, past_rad) = match kind {
        HemKind::Closed => (0.0, 0.0),
        HemKind::Open { gap } => (0.5 * gap.millimetres(), 0.0),
        HemKind::TearDrop { radius } => {
            let radius_mm = radius.millimetres();
            let straight_mm = leg_mm - radius_mm - thickness_mm;
            (radius_mm, 2.0 * trig::atan2(radius_mm, straight_mm.max(tolerance::SAME_POINT_MM)))
        }
    };
    EdgeBend {
        turn_rad: PI + past_rad,
        radius_mm,
        legs_to: LegsTo::OutermostMetal,
        forming: Forming::Hem,
        leg_mm,
        reach_mm: leg_mm,
    }
}

fn lip(turn_rad: f64, length: Length, making: &Making) -> EdgeBend {
    let over = FRAC_PI_2 + tolerance::PARALLEL_SINE < turn_rad;
    let leg_mm = length.millimetres();
    EdgeBend {
        turn_rad,
        radius_mm: making.number.inside_radius().millimetres(),
        legs_to: if over { LegsTo::OutermostMetal } else { LegsTo::MoldLine },
        forming: Forming::Brake,
        leg_mm,
        reach_mm: if over { leg_mm * -trig::cos(turn_rad) } else { 0.0 },
    }
}

fn curl(turn_rad: f64, radius_mm: f64, thickness_mm: f64) -> EdgeBend {
    let outside_mm = radius_mm + thickness_mm;
    EdgeBend {
        turn_rad,
        radius_mm,
        legs_to: LegsTo::OutermostMetal,
        forming: Forming::Rolled,
        leg_mm: outside_mm + thickness_mm,
        reach_mm: 2.0 * outside_mm,
    }
}

fn turn_problem(field: &str, turn: Angle, least: f64, most: f64) -> Option<Problem> {
    let degrees = turn.degrees();
    let sound = least <= degrees && 0.0 < degrees && degrees <= most;
    (!sound).then(|| {
        let wrong = format!("it turns by {least}° to {most}° from flat");
        let remedy = "measure the turn from flat: a square return is 90, three quarters of a curl 270";
        Problem::new(format!("{field}.turn"), format!("{degrees}°"), wrong, remedy)
    })
}

/// The end of a curl must not run into its plate.
fn curl_problem(field: &str, bend: &EdgeBend, thickness_mm: f64) -> Option<Problem> {
    // Height above the plate of both sides of the straight's end.
    let low = |turn: f64| {
        let (sine, cosine) = (trig::sin(turn), trig::cos(turn));
        let outer = bend.radius_mm - (bend.radius_mm + thickness_mm) * cosine;
        (bend.radius_mm * (1.0 - cosine)).min(outer) + thickness_mm * sine
    };
    if 0.0 <= low(bend.turn_rad) {
        return None;
    }
    let (mut fits, mut too_far) = (PI, bend.turn_rad);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (fits + too_far);
        if 0.0 <= low(middle) { fits = middle } else { too_far = middle }
    }
    let most = (fits.to_degrees() * 10.0).floor() / 10.0;
    let value = format!("{:.1}°", bend.turn_rad.to_degrees());
    let remedy = format!("turn it by {most}° at most, or take a larger radius");
    Some(Problem::new(format!("{field}.turn"), value, "the end of the curl runs into its plate", remedy))
}
