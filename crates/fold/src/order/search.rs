//! The search for an order: best first over the sets of bends already made.
//!
//! Costs rank as a hand feels them: turning the part over, springing metal past the machine, tooling that falls short of
//! the bend, then on a press bending to a scribed line for want of a stop, tools that must be cut to length, turning the
//! part round, setting stop or tooling anew. Swinging the larger part on a leaf, or having it behind a press where nobody holds it, is
//! worse than turning it round; bending within while flanges farther out are still flat is worse than a setting. Worst of all is what
//! stands in the way, where a [`Mode`] lets it be listed: the order found has the fewest such. The remaining turning over and
//! turning round is estimated from below; each remaining bend is estimated at one setting, which may be one too many, so settings are few
//! but not proved least.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BinaryHeap};
use std::rc::Rc;

use geometry::tolerance;

use super::blocks::Position;
use super::metal::{Line, Metal};
use super::rows::Rows;
use super::stroke::{Hindrance, Stretch, Stroke, Trials};
use crate::part::Direction;

// What an order costs. Only the ranks matter: turning a part over costs more than turning it round, that more than any
// setting (common practice, no source).
const TURN_OVER: i64 = 10_000;
const TURN_ROUND: i64 = 1_000;
const SETTING: i64 = 20;
const AWKWARD: i64 = 3;

/// Swinging the part a few degrees to the next line.
const SWING: i64 = 100;

/// Bending to a scribed line: on a press one rather turns the part round to have its short side at the stop. A folder is
/// mostly set by the line.
const TO_A_LINE_ON_PRESS: i64 = 1_200;
const TO_A_LINE: i64 = 10;

/// Punch and die no longer than the room between flanges, which nobody need set up where the flanges can wait.
const SHORT_TOOLS: i64 = 1_500;

/// The same where they fall short of the bend.
const TOO_SHORT_TOOLS: i64 = 2_500;

/// Metal that must be sprung past the machine by hand.
const SPRUNG_PAST: i64 = 5_000;

/// Swinging the larger part on the leaf of a folder; the larger part of it behind a press, with a narrow strip in the hands: one
/// rather turns it round (common practice, no source).
const HEAVY_AWAY: i64 = 2_000;

/// Each bend farther out on the smaller side that is still to be made.
const INNER_FIRST: i64 = 30;

/// Going on with a row of strikes from its other end: the stop is no longer moved on by a pitch.
const OTHER_END: i64 = 500;

/// One strike of a round that is drawn closed by hand since it closes about the punch.
const CLOSED_BY_HAND: i64 = 50_000;

/// One body whose assumed size is in the way.
const HINDERED_BY_ASSUMED: i64 = 100_000_000;

/// One body of given size, or another face, in the way.
const HINDERED: i64 = 100_000_000_000;

/// Share of a part's area above which it is the larger part of it: clearly more than half (common practice, no source).
const LARGER_SHARE: f64 = 0.6;

/// A turn on the bench of less is a swing to the next line, radians: 15° (common practice, no source).
pub(super) const LEAST_TURN_RAD: f64 = std::f64::consts::PI / 12.0;

/// Parts in hand taken up before the search for the cheapest order gives up, where it is only asked whether there is one.
const MOST_EXPANDED: usize = 20_000;

/// The same of a piece with more bends than [`MANY_BENDS`]: where there are so many ways to go on, twenty thousand mostly prove no
/// more than these.
const MOST_EXPANDED_OF_MANY: usize = 5_000;

/// More bends are many: all sets of twelve are 4,096.
const MANY_BENDS: usize = 12;

/// Sets of bends tried, where the order is told, before the search for the cheapest gives up: all sets of fourteen. What can be
/// made next of a set is most of the work, however many ways the part may lie.
const MOST_SETS: usize = 1 << 14;

/// The same of a piece with more bends: an eighth of that mostly proves no more.
const MOST_SETS_OF_MORE: usize = 1 << 11;

/// How many parts in hand are kept after each stroke where the cheapest order is not sought to the end.
const KEPT: usize = 100;

/// More than any order costs: what has more bends made is then taken up first.
const DEEPER: i64 = 1_000_000_000_000_000;

/// More than all bends made count for: what hinders fewer of the bends that are left is taken up before that.
const HINDERS_ONE: i64 = 64 * DEEPER;

/// What a search lets stand in the way of a stroke, at a high cost.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Mode {
    /// Nothing.
    Clear,
    /// Bodies of which only an assumed size is in the way.
    PastAssumed,
    /// Everything, to tell all that hinders.
    Listing,
}

/// What an order is looked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Wanted {
    /// To be told.
    Told,
    /// To know whether there is one, as of the pieces that many seams would leave.
    Any,
}

/// How a search ended.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Ended {
    /// Strokes in order, with no order cheaper.
    Order(Vec<Stroke>),
    /// Strokes in order, where a cheaper order is not ruled out.
    Unproven(Vec<Stroke>),
    /// Every set of bends that can be reached was tried. What hindered the bends at the fullest of them.
    Stuck(Vec<(usize, Hindrance)>),
    /// Too many sets to try.
    GaveUp,
}

/// Searches an order for the bends `bends` of the faces `faces`: the cheapest, or where there are too many ways to prove that,
/// the cheapest of those that go on from the best after each stroke; and where none of those gets to the end, any.
pub(super) fn search(
    trials: &mut Trials<'_>,
    (bends, faces): (&[usize], &[usize]),
    (mode, wanted): (Mode, Wanted),
) -> Ended {
    let mut search = Search::begin(trials, (bends, faces), mode);
    match search.cheapest(trials, wanted) {
        Ended::GaveUp => search.stroke_by_stroke(trials).unwrap_or_else(|| search.any(trials)),
        ended => ended,
    }
}

/// What is known of the part in hand besides the bends made: the direction last bent and the heading it had.
type Held = (u64, Option<(bool, usize)>);

struct Node {
    held: Held,
    cost: i64,
    before: Option<usize>,
    stroke: Option<Rc<Stroke>>,
}

/// What can be made next of the part with some bends made, whichever way it was got there.
#[derive(Debug, Default)]
struct Offered {
    strokes: Vec<Rc<Stroke>>,
    hindered: Vec<(usize, Hindrance)>,
}

struct Search<'a> {
    metal: &'a Metal,
    bends: &'a [usize],
    faces: &'a [usize],
    rows: Rows,
    mode: Mode,
    on_press: bool,
    headings: Vec<geometry::Vector>,
    nodes: Vec<Node>,
    open: BinaryHeap<(Reverse<i64>, u32, Reverse<usize>)>,
    best: BTreeMap<Held, i64>,
    offered: BTreeMap<u64, Rc<Offered>>,
    stuck: (u32, Vec<(usize, Hindrance)>),
    /// Take up what hinders the fewest bends first, and of that what has most bends made, whatever it costs.
    deep: bool,
}

impl<'a> Search<'a> {
    fn begin(trials: &Trials<'a>, (bends, faces): (&'a [usize], &'a [usize]), mode: Mode) -> Self {
        let (metal, on_press) = (trials.metal, trials.bench.is_press());
        let start = Node { held: (0, None), cost: 0, before: None, stroke: None };
        Self {
            metal,
            bends,
            faces,
            rows: Rows::of(metal, bends),
            mode,
            on_press,
            headings: Vec::new(),
            nodes: vec![start],
            open: BinaryHeap::from([(Reverse(0), 0, Reverse(0))]),
            best: BTreeMap::new(),
            offered: BTreeMap::new(),
            stuck: (0, Vec::new()),
            deep: false,
        }
    }

    /// All bends made.
    fn all(&self) -> u64 {
        self.bends.iter().fold(0_u64, |bits, bend| bits | 1 << bend)
    }

    /// Begins anew with no bend made; what was found out of the strokes is kept.
    fn begin_anew(&mut self) {
        self.nodes.truncate(1);
        self.best.clear();
        self.open = BinaryHeap::from([(Reverse(0), 0, Reverse(0))]);
    }

    fn cheapest(&mut self, trials: &mut Trials<'_>, wanted: Wanted) -> Ended {
        let all = self.all();
        let choices = self.rows.count_choices(self.bends.len());
        let many = MANY_BENDS < choices;
        let most_expanded = match wanted {
            Wanted::Told => usize::MAX,
            Wanted::Any if many => MOST_EXPANDED_OF_MANY,
            Wanted::Any => MOST_EXPANDED,
        };
        let of_all = MOST_SETS >> choices.min(63) != 0;
        let most_sets = if of_all { MOST_SETS } else { MOST_SETS_OF_MORE };
        let mut expanded = 0;
        while let Some((_, _, Reverse(number))) = self.open.pop() {
            let (held, cost) = (self.nodes[number].held, self.nodes[number].cost);
            if held.0 == all {
                return Ended::Order(self.strokes(number));
            }
            if self.best.get(&held).is_some_and(|known| *known < cost) {
                continue;
            }
            expanded += 1;
            if most_expanded < expanded || most_sets < self.offered.len() {
                return Ended::GaveUp;
            }
            self.expand(number, trials);
        }
        Ended::Stuck(std::mem::take(&mut self.stuck.1))
    }

    /// Goes on from the cheapest parts in hand after each stroke; `None` where none of them gets to the end.
    fn stroke_by_stroke(&mut self, trials: &mut Trials<'_>) -> Option<Ended> {
        self.begin_anew();
        self.open.clear();
        let (all, mut kept) = (self.all(), vec![0]);
        let mut ended: Vec<usize> = Vec::new();
        while !kept.is_empty() {
            kept.iter().for_each(|&number| self.expand(number, trials));
            kept.clear();
            while let Some((_, _, Reverse(number))) = self.open.pop() {
                let Node { held, cost, .. } = self.nodes[number];
                if held.0 == all {
                    ended.push(number);
                } else if kept.len() < KEPT && self.best.get(&held) == Some(&cost) {
                    kept.push(number);
                }
            }
        }
        let cheapest = ended.into_iter().min_by_key(|&number| self.nodes[number].cost)?;
        Some(Ended::Unproven(self.strokes(cheapest)))
    }

    /// Whether all bends can be made in any order. What can be made next goes by the bends that are made, not by how they were:
    /// so each set of them is taken up once. What hinders a bend that is left mostly does so for good: ways that hinder none, or
    /// few, are gone to their end first.
    fn any(&mut self, trials: &mut Trials<'_>) -> Ended {
        self.deep = true;
        self.begin_anew();
        let (all, mut taken_up) = (self.all(), std::collections::BTreeSet::new());
        while let Some((_, _, Reverse(number))) = self.open.pop() {
            let made = self.nodes[number].held.0;
            if made == all {
                return Ended::Unproven(self.strokes(number));
            }
            if !taken_up.insert(made) {
                continue;
            }
            if MOST_EXPANDED < taken_up.len() {
                return Ended::GaveUp;
            }
            self.expand(number, trials);
        }
        Ended::Stuck(std::mem::take(&mut self.stuck.1))
    }

    fn expand(&mut self, number: usize, trials: &mut Trials<'_>) {
        let made = self.nodes[number].held.0;
        let offered = self.offered(trials, made);
        for stroke in &offered.strokes {
            self.take_up(number, stroke, offered.hindered.len());
        }
        let count = made.count_ones();
        if !offered.hindered.is_empty() && (self.stuck.1.is_empty() || self.stuck.0 < count) {
            self.stuck = (count, offered.hindered.clone());
        }
    }

    /// As [`Self::offers`], found out once.
    fn offered(&mut self, trials: &mut Trials<'_>, made: u64) -> Rc<Offered> {
        if let Some(known) = self.offered.get(&made) {
            return Rc::clone(known);
        }
        let offered = Rc::new(self.offers(trials, made));
        self.offered.insert(made, Rc::clone(&offered));
        offered
    }

    /// The strokes that can be made next, and what hinders the bends that cannot.
    fn offers(&self, trials: &mut Trials<'_>, made: u64) -> Offered {
        let mut offered = Offered::default();
        let mut taken = 0_u64;
        for bend in self.rows.next(self.bends, made) {
            if taken >> bend & 1 == 1 {
                continue;
            }
            let mut group = trials.on_line_with(bend, made, self.bends);
            // A group is laid in by its first bend, and was tried with that.
            if group[0].0 != bend {
                group.retain(|(other, _)| *other == bend);
            }
            let found = self.offer(trials, (&group, made), &mut offered.strokes);
            if found.is_ok() || group.len() == 1 {
                taken |= group.iter().fold(0, |bits, (bend, _)| bits | 1 << bend);
            }
            let found = match found {
                Err(_) if group.len() > 1 => {
                    let own: Vec<_> = group.into_iter().filter(|(other, _)| *other == bend).collect();
                    self.offer(trials, (&own, made), &mut offered.strokes)
                }
                found => found,
            };
            offered.hindered.extend(found.err().map(|hindrance| (bend, hindrance)));
        }
        let closing = self.rows.closing(self.metal, self.all() & !made);
        offered.strokes.extend(closing.map(|strikes| Rc::new(trials.closed_by_hand(&strikes))));
        offered
    }

    /// Tries a group both ways round and adds what can be made.
    fn offer(
        &self,
        trials: &mut Trials<'_>,
        (group, made): (&[Stretch], u64),
        strokes: &mut Vec<Rc<Stroke>>,
    ) -> Result<(), Hindrance> {
        let mut outcome = None;
        for parent_at_back in [true, false] {
            let position = Position { bend: group[0].0, parent_at_back };
            match trials.stroke(position, group, made, (self.faces, self.mode)) {
                Ok(stroke) => {
                    strokes.push(Rc::new(stroke));
                    outcome = Some(Ok(()));
                }
                Err(hindrance) => outcome = outcome.or(Some(Err(hindrance))),
            }
        }
        outcome.unwrap_or(Ok(()))
    }

    /// Takes up the part after a stroke, before which so many of its bends are hindered.
    fn take_up(&mut self, number: usize, stroke: &Rc<Stroke>, hindered: usize) {
        let up = self.metal.lines[stroke.position.bend].direction == Direction::Up;
        let heading = self.heading(stroke.heading);
        let cost = self.nodes[number].cost + self.step_cost(number, stroke, (up, heading));
        let made = self.nodes[number].held.0 | stroke.bits();
        let held = (made, Some((up, heading)));
        if self.best.get(&held).is_some_and(|known| *known <= cost) {
            return;
        }
        self.best.insert(held, cost);
        let first = match i64::try_from(hindered) {
            Ok(hindered) if self.deep => HINDERS_ONE * hindered - DEEPER * i64::from(made.count_ones()),
            _ => 0,
        };
        let estimate = cost + self.at_least(held) + first;
        let next = self.nodes.len();
        self.nodes.push(Node { held, cost, before: Some(number), stroke: Some(Rc::clone(stroke)) });
        self.open.push((Reverse(estimate), made.count_ones(), Reverse(next)));
    }

    fn heading(&mut self, heading: geometry::Vector) -> usize {
        let same = |known: &geometry::Vector| (*known - heading).length() <= tolerance::SAME_HEADING_SINE;
        self.headings.iter().position(same).unwrap_or_else(|| {
            self.headings.push(heading);
            self.headings.len() - 1
        })
    }

    fn step_cost(&self, number: usize, stroke: &Stroke, (up, heading): (bool, usize)) -> i64 {
        let turning = match self.nodes[number].held.1 {
            Some((was_up, _)) if was_up != up => TURN_OVER,
            Some((_, was)) if was != heading => {
                let turn_rad = angle_between(self.headings[was], self.headings[heading]);
                if turn_rad < LEAST_TURN_RAD { SWING } else { TURN_ROUND }
            }
            _ => 0,
        };
        let last = self.nodes[number].stroke.as_deref();
        let setting = if last.is_some_and(|last| same_setting(last, stroke)) { 0 } else { SETTING };
        let line = match (stroke.square, self.on_press) {
            (true, _) => 0,
            (false, true) => TO_A_LINE_ON_PRESS,
            (false, false) => TO_A_LINE,
        };
        let awkward = match stroke.awkward {
            true if stroke.away_share > LARGER_SHARE => HEAVY_AWAY,
            true => AWKWARD,
            false => 0,
        };
        let inner = INNER_FIRST * i64::try_from(stroke.outer_left).unwrap_or(0);
        let hindered = |hindrance: &Hindrance| {
            if hindrance.assumed { HINDERED_BY_ASSUMED } else { HINDERED }
        };
        let hindered: i64 = stroke.hindrances.iter().map(hindered).sum();
        if stroke.by_hand {
            return turning + CLOSED_BY_HAND * i64::try_from(stroke.bends.len()).unwrap_or(1);
        }
        let other_end = match last {
            Some(last) if self.rows.jumps(last.position.bend, stroke.position.bend) => OTHER_END,
            _ => 0,
        };
        turning + setting + line + awkward + inner + hindered + other_end + self.tools_cost(stroke)
    }

    /// What special tooling costs, and springing metal past it.
    fn tools_cost(&self, stroke: &Stroke) -> i64 {
        let sprung = if stroke.sprung { SPRUNG_PAST } else { 0 };
        let tools = stroke.tooling.as_ref().map_or(0, |tooling| {
            let short = tooling.short_of_mm(stroke.stretch_mm) > tolerance::SCRIBED_LINE_MM;
            let confined = self.on_press && tooling.is_confined();
            i64::from(confined) * SHORT_TOOLS + i64::from(short) * TOO_SHORT_TOOLS
        });
        sprung + tools
    }

    /// What the remaining bends cost at the least, but for settings.
    fn at_least(&self, held: Held) -> i64 {
        let left = || {
            self.bends.iter().filter(|bend| held.0 >> **bend & 1 == 0).map(|bend| &self.metal.lines[*bend])
        };
        let Some((up, heading)) = held.1 else { return 0 };
        let over = left().any(|line| (line.direction == Direction::Up) != up);
        let ways: Vec<_> = left().map(Line::across).chain([self.headings[heading]]).collect();
        let rounds = i64::try_from(apart(&ways)).unwrap_or(0) - 1 - i64::from(over);
        let settings = i64::try_from(left().count()).unwrap_or(0) * SETTING;
        i64::from(over) * TURN_OVER + rounds.max(0) * TURN_ROUND + settings
    }

    fn strokes(&self, last: usize) -> Vec<Stroke> {
        let mut strokes = Vec::new();
        let mut number = Some(last);
        while let Some(at) = number {
            number = self.nodes[at].before;
            strokes.extend(self.nodes[at].stroke.as_deref().cloned());
        }
        strokes.reverse();
        strokes
    }
}

/// Into how many groups ways across fall that are joined by swings of a few degrees: from one to another the part is
/// turned round.
fn apart(ways: &[geometry::Vector]) -> usize {
    let sine = geometry::trig::sin(LEAST_TURN_RAD);
    let near = |a: &geometry::Vector, b: &geometry::Vector| a.cross(*b).abs() < sine;
    let mut left = ways.to_vec();
    let mut groups = 0;
    while let Some(first) = left.pop() {
        groups += 1;
        let mut group = vec![first];
        while let Some(way) = group.pop() {
            let (joined, rest): (Vec<_>, Vec<_>) = left.into_iter().partition(|other| near(&way, other));
            group.extend(joined);
            left = rest;
        }
    }
    groups
}

/// The angle between two headings, radians, 0 to π.
pub(super) fn angle_between(first: geometry::Vector, second: geometry::Vector) -> f64 {
    geometry::trig::atan2(first.cross(second).abs(), first.dot(second))
}

/// True when neither stop nor tooling must be set anew.
fn same_setting(first: &Stroke, second: &Stroke) -> bool {
    let back = |stroke: &Stroke| stroke.rear.map_or(f64::NAN, |(_, rear)| rear.back_mm);
    let sections = |stroke: &Stroke| stroke.tooling.as_ref().map(|tooling| tooling.sections_mm.clone());
    (back(first) - back(second)).abs() <= tolerance::SCRIBED_LINE_MM && sections(first) == sections(second)
}

/// True when the part lies the same way round for both.
pub(super) fn same_heading(first: &Stroke, second: &Stroke) -> bool {
    (first.heading - second.heading).length() <= tolerance::SAME_HEADING_SINE
}
