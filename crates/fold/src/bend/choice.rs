//! Which of the shop's strips stand for a metal of a job: the nearest in metal, die, radius, thickness and turn.
//!
//! A strip may stand for a metal when all of this holds:
//!
//! * the same alloy and temper, or the same temper of another alloy of the same family; tread plate only for tread plate;
//! * thickness within a twentieth;
//! * inside radius within a quarter of the thickness;
//! * the die's opening within a quarter of that of any die of the shop, where strip and job both name theirs.
//!
//! Of these the nearest are taken: same alloy before same temper, then the same die before an unnamed one before another,
//! then the nearest radius, then the nearest thickness, then the die that the shop would take first. Strips that are equal in all
//! of this are one set of tooling, which the part is then bent with;
//! each bend then goes by the strip of that set nearest to its own turn, and of several at one turn by the job's own or
//! else the newest. The others of that turn say how far the number may be off.

use geometry::tolerance;
use stock::Family;
use units::{Angle, Length};

use super::shop_strip::{ShopStrip, StripMetal};

/// Share of the thickness by which a strip's own may differ. Mill tolerance of sheet is up to about a twentieth; the
/// next gauge is a tenth off.
const THICKNESS_SHARE: f64 = 0.05;

/// Share of the thickness by which a strip's inside radius may differ. By DIN 6935 K then moves by about .02.
const RADIUS_SHARE: f64 = 0.25;

/// Share of the die's opening by which a strip's may differ.
const DIE_SHARE: f64 = 0.25;

/// Radii and thicknesses that differ by less than this are told apart by no shop: half the step between radius gauges
/// of 1/64 in.
const SAME_SIZE: Length = Length::from_nanometres(200_000);

/// Strips whose turns differ by no more than this, in degrees, are strips of one turn.
const SAME_TURN_DEGREES: f64 = 2.0;

/// Two strips of one metal, tooling and turn that differ by more than this in K cannot both be of it, or one is misread: it is half
/// of all that K can be, 0 to .5. What differs by less is shown side by side, and how far the blank may be off by it.
const GROSS_K: f64 = 0.25;

/// What a job bends, and with what.
#[derive(Debug, Clone, PartialEq)]
pub struct Wanted {
    /// The metal.
    pub metal: StripMetal,
    /// Its thickness.
    pub thickness: Length,
    /// The inside radius of its bends.
    pub inside_radius: Length,
    /// Openings of the dies that the shop has, the one that it would take for this thickness first; empty when the job names
    /// none.
    pub v_openings: Vec<Length>,
}

/// How the die of a strip compares with that of the job, nearest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum DieMatch {
    /// The same opening.
    Same,
    /// One of the two is not named.
    NotNamed,
    /// Another opening, within the limit.
    Other,
}

/// The strips of one turn: the one that is used, and the others that were bent alike.
#[derive(Debug, Clone, PartialEq)]
pub struct StripsOfTurn {
    /// The one that is used.
    pub used: ShopStrip,
    /// The others of the same metal, tooling and turn, newest first.
    pub others: Vec<ShopStrip>,
}

/// The strips that stand for a metal.
#[derive(Debug, Clone, PartialEq)]
pub struct StripChoice {
    /// What they stand for.
    pub wanted: Wanted,
    /// By turn, smallest first; never empty.
    of_turns: Vec<StripsOfTurn>,
    /// How many strips there were to choose from.
    pub looked_at: usize,
}

/// Two strips bent alike that cannot both be right.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{} gives K {:.3} and {} gives K {:.3}", .first.place, .first.k_factor(), .second.place, .second.k_factor())]
pub struct StripsContradict {
    /// The one that would be used.
    pub first: Box<ShopStrip>,
    /// The one that says otherwise.
    pub second: Box<ShopStrip>,
}

/// How near a strip is, smaller is nearer; none when it may not stand for the metal.
type Nearness = (bool, DieMatch, i64, i64, usize);

/// The strips that stand for `wanted`, or none when no strip is near enough.
///
/// # Errors
/// [`StripsContradict`] when two strips of the nearest set, bent to one turn, differ in K by more than a quarter and
/// by more than reading explains.
pub fn choose(wanted: &Wanted, strips: &[ShopStrip]) -> Result<Option<StripChoice>, StripsContradict> {
    let mut near: Vec<(Nearness, &ShopStrip)> =
        strips.iter().filter_map(|strip| Some((nearness(wanted, strip)?, strip))).collect();
    let Some(best) = near.iter().map(|(nearness, _)| *nearness).min() else { return Ok(None) };
    near.retain(|(nearness, _)| *nearness == best);
    let mut set: Vec<&ShopStrip> = near.into_iter().map(|(_, strip)| strip).collect();
    set.sort_by_key(|strip| strip.strip().turn);
    let mut of_turns = Vec::new();
    while let Some(first) = set.first() {
        let least = first.strip().turn.degrees();
        let same = |strip: &&&ShopStrip| strip.strip().turn.degrees() - least <= SAME_TURN_DEGREES;
        let count = set.iter().take_while(same).count();
        of_turns.extend(strips_of_turn(set.drain(..count).collect())?);
    }
    Ok(Some(StripChoice { wanted: wanted.clone(), of_turns, looked_at: strips.len() }))
}

/// The job's own first, then the newest, then the one written last.
fn strips_of_turn(mut strips: Vec<&ShopStrip>) -> Result<Option<StripsOfTurn>, StripsContradict> {
    strips.reverse();
    strips.sort_by(|a, b| b.of_job.cmp(&a.of_job).then(b.date.cmp(&a.date)));
    let Some((used, others)) = strips.split_first() else { return Ok(None) };
    let others = others.iter().map(|&other| other.clone()).collect();
    let of_turn = StripsOfTurn { used: (*used).clone(), others };
    let gross = of_turn
        .others
        .iter()
        .find(|other| (other.k_factor() - of_turn.used.k_factor()).abs() > GROSS_K && of_turn.differs(other));
    match gross {
        Some(other) => {
            Err(StripsContradict { first: Box::new(of_turn.used.clone()), second: Box::new(other.clone()) })
        }
        None => Ok(Some(of_turn)),
    }
}

fn nearness(wanted: &Wanted, strip: &ShopStrip) -> Option<Nearness> {
    let other_alloy = other_alloy(&wanted.metal, &strip.metal)?;
    let test = strip.strip();
    let within = |a: Length, b: Length, most_mm: f64| (a - b).abs().millimetres() <= most_mm;
    let thickness_mm = wanted.thickness.millimetres();
    let near = within(test.thickness, wanted.thickness, THICKNESS_SHARE * thickness_mm)
        && within(test.inside_radius, wanted.inside_radius, RADIUS_SHARE * thickness_mm);
    if !near {
        return None;
    }
    let (die, place) = die_match(wanted, strip)?;
    let steps = |a: Length, b: Length| (a - b).abs().nanometres() / SAME_SIZE.nanometres();
    let radius = steps(test.inside_radius, wanted.inside_radius);
    Some((other_alloy, die, radius, steps(test.thickness, wanted.thickness), place))
}

/// How the die of a strip compares with those of the shop, and the place of the nearest among them; none when it is too far from
/// every one.
fn die_match(wanted: &Wanted, strip: &ShopStrip) -> Option<(DieMatch, usize)> {
    let own = match strip.v_opening {
        _ if strip.of_job => return Some((DieMatch::Same, 0)),
        Some(own) if !wanted.v_openings.is_empty() => own,
        _ => return Some((DieMatch::NotNamed, 0)),
    };
    let off = |job: Length| (job - own).abs();
    let (place, &job) = wanted.v_openings.iter().enumerate().min_by_key(|(_, job)| off(**job))?;
    if off(job) < SAME_SIZE {
        return Some((DieMatch::Same, place));
    }
    (off(job).millimetres() <= DIE_SHARE * job.millimetres()).then_some((DieMatch::Other, place))
}

/// False for the same alloy and temper, true for the same temper of another alloy of the family, none for neither.
fn other_alloy(job: &StripMetal, strip: &StripMetal) -> Option<bool> {
    if job.tread != strip.tread {
        return None;
    }
    if job.alloy == strip.alloy && job.temper == strip.temper {
        return Some(false);
    }
    // Steels are not sold by temper; of an aluminium without its temper nothing is known.
    let tempers = job.temper == strip.temper && (job.temper.is_some() || job.family != Family::Aluminium);
    (job.family == strip.family && job.family != Family::Unlisted && tempers).then_some(true)
}

impl StripsOfTurn {
    /// True when another strip's deduction differs from the used one's by more than reading explains.
    #[must_use]
    pub fn differs(&self, other: &ShopStrip) -> bool {
        let test = self.used.strip();
        let zone_mm = test.turn.radians() * test.thickness.millimetres();
        (other.k_factor() - self.used.k_factor()).abs() * zone_mm > tolerance::STRIPS_AGREE_MM
    }

    /// The others that differ by more than reading explains.
    pub fn conflicting(&self) -> impl Iterator<Item = &ShopStrip> {
        self.others.iter().filter(|other| self.differs(other))
    }

    /// The most by which a strip of this turn differs in K from the used one; zero when they agree.
    #[must_use]
    pub fn k_spread(&self) -> f64 {
        let off = |other: &ShopStrip| (other.k_factor() - self.used.k_factor()).abs();
        self.conflicting().map(off).fold(0.0, f64::max)
    }
}

impl StripChoice {
    /// The strips of each turn, smallest turn first.
    #[must_use]
    pub fn of_turns(&self) -> &[StripsOfTurn] {
        &self.of_turns
    }

    /// The strips of the turn nearest to `turn_rad`; of two equally near the larger turn.
    #[must_use]
    pub fn nearest(&self, turn_rad: f64) -> &StripsOfTurn {
        // Whole nanodegrees, so that halfway is halfway.
        let turn = Angle::from_radians(turn_rad);
        let off = |of_turn: &StripsOfTurn| (of_turn.used.strip().turn - turn).abs();
        let mut best = &self.of_turns[0];
        for of_turn in &self.of_turns[1..] {
            if off(of_turn) <= off(best) {
                best = of_turn;
            }
        }
        best
    }

    /// True when a bend of `turn_rad` was bent as a strip, to the same turn; else its K is carried over.
    #[must_use]
    pub fn is_turn_of_strip(&self, turn_rad: f64) -> bool {
        let off = (self.nearest(turn_rad).used.strip().turn.radians() - turn_rad).abs();
        off.to_degrees() <= SAME_TURN_DEGREES
    }

    /// The strip nearest in turn that was also measured in the die, and the share of its turn that it kept.
    #[must_use]
    pub fn measured_in_die(&self, turn_rad: f64) -> Option<(&ShopStrip, f64)> {
        let all =
            self.of_turns.iter().flat_map(|of_turn| std::iter::once(&of_turn.used).chain(&of_turn.others));
        let measured = all.filter_map(|strip| Some((strip, strip.springback_ratio()?)));
        let off = |strip: &ShopStrip| (strip.strip().turn.radians() - turn_rad).abs();
        measured.min_by(|(a, _), (b, _)| off(a).total_cmp(&off(b)).then(b.date.cmp(&a.date)))
    }

    /// How the die of a strip compares with the job's.
    #[must_use]
    pub fn die_match(&self, strip: &ShopStrip) -> DieMatch {
        die_match(&self.wanted, strip).map_or(DieMatch::NotNamed, |(die, _)| die)
    }

    /// The die of the shop that the strips of this set were bent in: the part is bent in it, for their number holds there. None where
    /// they name none, or another than the shop has.
    #[must_use]
    pub fn bent_in(&self) -> Option<Length> {
        let strip = &self.of_turns[0].used;
        strip
            .v_opening
            .filter(|_| !self.wanted.v_openings.is_empty() && self.die_match(strip) == DieMatch::Same)
    }

    /// The die of the shop that a strip's is compared with: the nearest to it.
    #[must_use]
    pub fn compared_with(&self, strip: &ShopStrip) -> Option<Length> {
        let (_, place) = die_match(&self.wanted, strip)?;
        self.wanted.v_openings.get(place).copied()
    }
}
