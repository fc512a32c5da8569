//! The section of a profile: every leg to its mold lines, every bend by itself, joggles taken apart.

use std::f64::consts::{FRAC_PI_2, PI};

use fold::bend::formula;
use fold::part::{Direction, Forming, LegsTo};
use geometry::{tolerance, trig};

use super::{BendWay, BrakeProfile, Leg, LegTo, ProfileBend};
use crate::joggle::{self, Joggle};
use crate::{Making, Problem};

/// Largest turn, degrees, up to which a leg may be measured to where insides or middles meet: there that place lies
/// nearly four radii beyond the tangent line, and soon after nowhere.
const MOST_MEETING_DEGREES: f64 = 150.0;

/// A leg ready to fold.
#[derive(Debug, Clone)]
pub(super) struct PlainLeg {
    /// "leg 2", "joggle 1".
    pub(super) name: String,
    /// To its mold lines; to the outermost metal beside bends past square, mm.
    pub(super) outside_mm: f64,
    /// Which leg of the profile it is; `None` for the slant of a joggle.
    pub(super) written: Option<usize>,
    /// For the slant of a joggle: how far it sets off, mm.
    pub(super) joggle_mm: Option<f64>,
}

/// A bend ready to fold.
#[derive(Debug, Clone, Copy)]
pub(super) struct PlainBend {
    pub(super) turn_rad: f64,
    pub(super) direction: Direction,
    pub(super) radius_mm: f64,
    pub(super) forming: Forming,
    pub(super) legs_to: LegsTo,
}

/// The legs and bends of a profile in order.
#[derive(Debug, Clone)]
pub(super) struct Section {
    pub(super) legs: Vec<PlainLeg>,
    pub(super) bends: Vec<PlainBend>,
    /// The leg that lies flat, by its place here.
    pub(super) root: usize,
}

impl PlainBend {
    /// From the tangent line to what legs run to, mm.
    pub(super) fn setback_mm(&self, making: &Making) -> f64 {
        match self.legs_to {
            LegsTo::MoldLine => formula::setback(self.turn_rad, self.radius_mm, making.thickness_mm()),
            LegsTo::OutermostMetal => self.radius_mm + making.thickness_mm(),
        }
    }

    /// From what a leg is measured to out to what it is laid out to, mm; below zero where a bend past square lets the
    /// insides or the middles meet beyond the outermost metal.
    ///
    /// A face that lies `depth` out from the inside of the bend meets its like (R + depth)·tan(turn/2) from the tangent
    /// line (plane geometry).
    fn beyond_mm(&self, to: LegTo, making: &Making) -> f64 {
        let meeting = |depth_mm: f64| (self.radius_mm + depth_mm) * trig::tan(0.5 * self.turn_rad);
        match to {
            LegTo::Outside => 0.0,
            LegTo::Inside => self.setback_mm(making) - meeting(0.0),
            LegTo::Centre => self.setback_mm(making) - meeting(0.5 * making.thickness_mm()),
            LegTo::Straight => self.setback_mm(making),
        }
    }
}

impl Section {
    /// Takes the profile apart.
    ///
    /// # Errors
    /// Every [`Problem`] found with legs and bends.
    pub(super) fn new(profile: &BrakeProfile, making: &Making) -> Result<Self, Vec<Problem>> {
        let mut problems = counts(profile);
        making.above_zero("length", profile.length, &mut problems);
        bend_problems(profile, making, &mut problems);
        problems.extend(far_meetings(profile));
        if !problems.is_empty() {
            return Err(problems);
        }
        let section = Self::apart(profile, making);
        section.leg_problems(profile, making, &mut problems);
        if problems.is_empty() { Ok(section) } else { Err(problems) }
    }

    /// The number in the folded part of bend `number`: forward from the flat leg first, then backward.
    pub(super) fn part_bend(&self, number: usize) -> usize {
        let forward = self.bends.len() - self.root;
        if number >= self.root { number - self.root } else { forward + self.root - 1 - number }
    }

    /// The number in the folded part of leg `number`.
    pub(super) fn part_face(&self, number: usize) -> usize {
        match number.cmp(&self.root) {
            std::cmp::Ordering::Equal => 0,
            std::cmp::Ordering::Greater => self.part_bend(number - 1) + 1,
            std::cmp::Ordering::Less => self.part_bend(number) + 1,
        }
    }

    /// The bends before and after a leg.
    pub(super) fn beside(&self, leg: usize) -> [Option<&PlainBend>; 2] {
        [leg.checked_sub(1).and_then(|number| self.bends.get(number)), self.bends.get(leg)]
    }

    /// To what a leg is laid out at its bends.
    pub(super) fn ends_words(&self, leg: usize) -> &'static str {
        let is_past = |bend: &&PlainBend| bend.legs_to == LegsTo::OutermostMetal;
        let beside = || self.beside(leg).into_iter().flatten();
        match (beside().count(), beside().filter(is_past).count()) {
            (_, 0) => "its mold lines",
            (1, _) => "the outermost metal of its bend",
            (_, 1) => "its mold line and the outermost metal of its bend past square",
            _ => "the outermost metal of its bends",
        }
    }

    fn apart(profile: &BrakeProfile, making: &Making) -> Self {
        let mut section = Self { legs: Vec::new(), bends: Vec::new(), root: 0 };
        for (number, leg) in profile.legs.iter().enumerate() {
            if number == profile.flat_leg {
                section.root = section.legs.len();
            }
            section.legs.push(PlainLeg {
                name: format!("leg {}", number + 1),
                outside_mm: leg.length.millimetres(),
                written: Some(number),
                joggle_mm: None,
            });
            if let Some(bend) = profile.bends.get(number) {
                section.add_bend(bend, making);
            }
        }
        section.pair_joggles();
        for number in 0..section.legs.len() {
            let Some(written) = section.legs[number].written else { continue };
            let to = profile.legs[written].to;
            let beyond: f64 =
                section.beside(number).into_iter().flatten().map(|bend| bend.beyond_mm(to, making)).sum();
            section.legs[number].outside_mm += beyond;
        }
        section
    }

    fn add_bend(&mut self, bend: &ProfileBend, making: &Making) {
        let own = making.number.inside_radius().millimetres();
        match bend {
            ProfileBend::Bend { turn, direction, radius, way } => {
                let turn_rad = turn.radians();
                self.bends.push(PlainBend {
                    turn_rad,
                    direction: *direction,
                    radius_mm: radius.map_or(own, |radius| radius.millimetres()),
                    forming: forming(*way),
                    legs_to: if turn_rad > FRAC_PI_2 { LegsTo::OutermostMetal } else { LegsTo::MoldLine },
                });
            }
            ProfileBend::Joggle { depth, direction, turn } => {
                let turn_rad = turn.radians();
                let depth_mm = depth.millimetres();
                let bend = |direction| PlainBend {
                    turn_rad,
                    direction,
                    radius_mm: own,
                    forming: Forming::Brake,
                    legs_to: LegsTo::MoldLine,
                };
                let count = self.legs.iter().filter(|leg| leg.joggle_mm.is_some()).count();
                self.bends.push(bend(*direction));
                self.legs.push(PlainLeg {
                    name: format!("joggle {}", count + 1),
                    outside_mm: Joggle::new(depth_mm, turn_rad, making).slant_mm,
                    written: None,
                    joggle_mm: Some(depth_mm),
                });
                self.bends.push(bend(direction.reversed()));
            }
        }
    }

    /// Tells both bends of a joggle of each other.
    fn pair_joggles(&mut self) {
        for leg in 0..self.legs.len() {
            if self.legs[leg].joggle_mm.is_some() {
                let pair = [self.part_bend(leg - 1), self.part_bend(leg)];
                self.bends[leg - 1].forming = Forming::Joggle(pair[1]);
                self.bends[leg].forming = Forming::Joggle(pair[0]);
            }
        }
    }

    /// Legs that their bends use up.
    fn leg_problems(&self, profile: &BrakeProfile, making: &Making, problems: &mut Vec<Problem>) {
        for (number, leg) in self.legs.iter().enumerate() {
            let Some(written) = leg.written else { continue };
            let beside = self.beside(number);
            let taken: f64 = beside.into_iter().flatten().map(|bend| bend.setback_mm(making)).sum();
            let given = profile.legs[written].length.millimetres();
            if leg.outside_mm - taken > tolerance::SAME_POINT_MM {
                continue;
            }
            let least = given + taken - leg.outside_mm;
            problems.push(Problem::new(
                format!("legs[{written}]"),
                making.print_mm(given),
                "is all taken up by the bends beside it",
                format!("make it more than {}, or take a smaller radius", making.print_mm(least)),
            ));
        }
    }
}

/// Legs measured to where insides or middles meet, beside a bend that turns so far that the place lies out of reach.
fn far_meetings(profile: &BrakeProfile) -> Vec<Problem> {
    let turn = |number: usize| match profile.bends.get(number) {
        Some(ProfileBend::Bend { turn, .. }) => Some(turn.degrees()),
        Some(ProfileBend::Joggle { .. }) | None => None,
    };
    let problem = |(number, leg): (usize, &Leg)| {
        if !matches!(leg.to, LegTo::Inside | LegTo::Centre) {
            return None;
        }
        let beside = [number.checked_sub(1).and_then(turn), turn(number)];
        let far = beside.into_iter().flatten().find(|&degrees| MOST_MEETING_DEGREES < degrees)?;
        let what = if leg.to == LegTo::Inside { "insides" } else { "middles" };
        let wrong = format!(
            "the {what} of two legs meet within reach up to a turn of {MOST_MEETING_DEGREES}°; beside it is one of \
             {far}°"
        );
        let remedy = "measure this leg \"to\" \"outside\" or \"straight\"";
        Some(Problem::new(format!("legs[{number}].to"), what, wrong, remedy))
    };
    profile.legs.iter().enumerate().filter_map(problem).collect()
}

const fn forming(way: BendWay) -> Forming {
    match way {
        BendWay::Brake => Forming::Brake,
        BendWay::Hem => Forming::Hem,
        BendWay::Bumped(strikes) => Forming::Bumped(strikes),
        BendWay::Rolled => Forming::Rolled,
    }
}

fn counts(profile: &BrakeProfile) -> Vec<Problem> {
    let mut problems = Vec::new();
    let (legs, bends) = (profile.legs.len(), profile.bends.len());
    if legs != bends + 1 {
        let wrong = format!("{legs} legs take {} bends between them", legs.saturating_sub(1));
        problems.push(Problem::new(
            "bends",
            bends.to_string(),
            wrong,
            "give one between each leg and the next",
        ));
    }
    if profile.flat_leg >= legs {
        let remedy = format!("name one of 1 to {legs}");
        let value = (profile.flat_leg + 1).to_string();
        problems.push(Problem::new("flat_leg", value, "the profile has no such leg", remedy));
    }
    problems
}

fn bend_problems(profile: &BrakeProfile, making: &Making, problems: &mut Vec<Problem>) {
    for (number, leg) in profile.legs.iter().enumerate() {
        making.above_zero(&format!("legs[{number}]"), leg.length, problems);
        for short in leg.short {
            making.not_below_zero(&format!("legs[{number}].short"), short, problems);
        }
    }
    for (number, bend) in profile.bends.iter().enumerate() {
        let field = format!("bends[{number}]");
        match bend {
            ProfileBend::Joggle { depth, turn, .. } => {
                problems.extend(joggle::problem(&field, *depth, *turn, making));
            }
            ProfileBend::Bend { turn, radius, way, .. } => {
                let degrees = turn.degrees();
                if !(degrees > 0.0 && turn.radians() <= PI + tolerance::PARALLEL_SINE) {
                    let wrong = "a bend of a profile turns by more than 0 and up to 180°";
                    let remedy = "measure the turn from flat: a square bend is 90, a hem 180";
                    problems.push(Problem::new(
                        format!("{field}.turn"),
                        format!("{degrees}°"),
                        wrong,
                        remedy,
                    ));
                }
                let pressed_flat = *way == BendWay::Hem && PI - tolerance::PARALLEL_SINE <= turn.radians();
                if let Some(radius) = radius {
                    if pressed_flat {
                        making.not_below_zero(&format!("{field}.radius"), *radius, problems);
                    } else {
                        making.above_zero(&format!("{field}.radius"), *radius, problems);
                    }
                }
            }
        }
    }
}
