//! Is there room on a sheet for a set of parts?
//!
//! Every part has a rectangle of places that it may take. Whatever place of its rectangle another part takes, some places of
//! this one are always taken by it: the no-fit polygon worn down by that rectangle. What is left bounds a smaller rectangle;
//! where nothing is left, there is no room. Else the largest rectangle is halved, and both halves are looked at: a branch and
//! bound over places, as for continuous problems (from memory). Rounding only ever finds room: sheets count larger, and
//! no-fit polygons smaller, than they are.

use std::collections::BTreeMap;

use geometry::grid::{GridOutline, GridPoint, doubled_area};
use geometry::nofit::{Region, inner_fit, inner_fit_upright, no_fit as no_fit_of};

use crate::bound::pairs::{Pairs, SLACK_STEPS};

/// Corners of figures worked through before the rest is taken to have room.
const MOST_CORNERS: usize = 60_000;

/// Times that all rectangles are made smaller before one is halved.
const ROUNDS: usize = 2;

/// Rectangles of places no larger than this, in steps, are not halved any more.
const SMALLEST: i64 = 800;

/// The effort that is left.
pub(super) struct Work {
    corners: usize,
}

impl Work {
    /// All of it.
    pub(super) const fn new() -> Self {
        Self { corners: MOST_CORNERS }
    }

    /// Spends some; false when there is not enough left.
    const fn spend(&mut self, corners: usize) -> bool {
        let enough = corners <= self.corners;
        self.corners = self.corners.saturating_sub(corners);
        enough
    }
}

/// A part at one of its turns.
type Posed = (usize, usize);

/// Least and greatest place of a part.
type Places = (GridPoint, GridPoint);

/// No-fit polygons as they are needed.
pub(super) struct Room<'a> {
    pairs: &'a Pairs,
    no_fits: BTreeMap<(Posed, Posed), Region>,
}

/// What is known of a set at its places.
enum Left {
    /// No room.
    None,
    /// Room found, or no effort left.
    Some,
    /// The places that are left.
    Open(Vec<Places>),
}

impl<'a> Room<'a> {
    pub(super) const fn of(pairs: &'a Pairs) -> Self {
        Self { pairs, no_fits: BTreeMap::new() }
    }

    /// True when a sheet of this size, trimmed, is proved to have no room for these parts at any of their turns.
    pub(super) fn has_none(&mut self, set: &[usize], size: GridPoint, work: &mut Work) -> bool {
        let parts = &self.pairs.parts;
        // A sheet turned half over is the same sheet, so where all parts may, the first one need not.
        let halves = set.iter().all(|&part| parts[part].may_turn_half);
        let turns = |place: usize| {
            let turns = parts[set[place]].turns.len();
            if place == 0 && halves { turns / 2 } else { turns }
        };
        let mut poses: Vec<Vec<Posed>> = vec![Vec::new()];
        for (place, &part) in set.iter().enumerate() {
            let longer = |posed: &Vec<Posed>| {
                let posed = posed.clone();
                (0..turns(place)).map(move |turn| [&posed[..], &[(part, turn)]].concat())
            };
            poses = poses.iter().flat_map(longer).collect();
        }
        poses.iter().all(|posed| self.has_none_at(posed, size, work))
    }

    fn has_none_at(&mut self, posed: &[Posed], size: GridPoint, work: &mut Work) -> bool {
        let slack = GridPoint::new(SLACK_STEPS, SLACK_STEPS);
        let within = |&(part, turn): &Posed| {
            let [outline, _] = &self.pairs.parts[part].turns[turn];
            inner_fit_upright(GridPoint::default() - slack, size + slack, outline)
        };
        let Some(all) = posed.iter().map(within).collect::<Option<Vec<Places>>>() else { return true };
        let mut open = vec![all];
        while let Some(places) = open.pop() {
            match self.left(posed, places, work) {
                Left::None => {}
                Left::Some => return false,
                Left::Open(places) => match halved(places) {
                    Some(halves) => open.extend(halves),
                    None => return false,
                },
            }
        }
        true
    }

    /// Makes the places of every part fewer by those that the others always take.
    fn left(&mut self, posed: &[Posed], mut places: Vec<Places>, work: &mut Work) -> Left {
        for _ in 0..ROUNDS {
            for own in 0..posed.len() {
                let Some(free) = self.free(posed, &places, own, work) else { return Left::Some };
                if free.is_empty() {
                    return Left::None;
                }
                let ((low, high), (least, greatest)) = (places[own], free.bounds());
                let low = GridPoint::new(low.x.max(least.x), low.y.max(least.y));
                let high = GridPoint::new(high.x.min(greatest.x), high.y.min(greatest.y));
                if high.x < low.x || high.y < low.y {
                    return Left::None;
                }
                places[own] = (low, high);
            }
        }
        if self.is_found(posed, places.clone(), work) { Left::Some } else { Left::Open(places) }
    }

    /// Puts one part after the other at the first place that is free; true when all find one.
    fn is_found(&mut self, posed: &[Posed], mut places: Vec<Places>, work: &mut Work) -> bool {
        for own in 0..posed.len() {
            let Some(free) = self.free(posed, &places, own, work) else { return true };
            let corners = free.rings().iter().flatten();
            let (low, high) = places[own];
            let inside =
                corners.map(|at| GridPoint::new(at.x.clamp(low.x, high.x), at.y.clamp(low.y, high.y)));
            let Some(at) = inside.min_by_key(|at| if own % 2 == 0 { *at } else { -*at }) else {
                return false;
            };
            places[own] = (at, at);
        }
        true
    }

    /// Places of a part, a little beyond its rectangle, that no other part always takes; `None` when the effort is spent.
    fn free(&mut self, posed: &[Posed], places: &[Places], own: usize, work: &mut Work) -> Option<Region> {
        let slack = GridPoint::new(SLACK_STEPS, SLACK_STEPS);
        let mut taken = Vec::new();
        for other in (0..posed.len()).filter(|&other| other != own) {
            let no_fit = self.no_fit(posed[other], posed[own], work)?;
            let corners: usize = no_fit.rings().iter().map(|ring| ring.len() + 4).sum();
            if !work.spend(corners) {
                return None;
            }
            let (low, high) = places[other];
            taken.extend(worn(no_fit, high - low).into_iter().map(|region| (region, high)));
        }
        let (low, high) = places[own];
        let all = Region::upright(low - slack, high + slack);
        Some(all.without(taken.iter().map(|(region, by)| (region, *by))))
    }

    fn no_fit(&mut self, fixed: Posed, moving: Posed, work: &mut Work) -> Option<&Region> {
        let key = (fixed, moving);
        if !self.no_fits.contains_key(&key) {
            let [_, grown] = &self.pairs.parts[fixed.0].turns[fixed.1];
            let [outline, _] = &self.pairs.parts[moving.0].turns[moving.1];
            let corners = |outline: &GridOutline| outline.rings().map(<[GridPoint]>::len).sum::<usize>();
            if !work.spend(corners(grown) * corners(outline)) {
                return None;
            }
            self.no_fits.insert(key, no_fit_of(grown, outline));
        }
        self.no_fits.get(&key)
    }
}

/// Shifts, from the upper right corner of a rectangle of places of that size, that a no-fit polygon takes for every place in it.
fn worn(no_fit: &Region, size: GridPoint) -> Vec<Region> {
    let Ok(rectangle) = GridOutline::rectangle(size.x.max(1), size.y.max(1)) else { return Vec::new() };
    let outer = no_fit.rings().iter().filter(|ring| 0 < doubled_area(ring));
    let hollows = no_fit.rings().iter().filter(|ring| doubled_area(ring) < 0);
    let hollows: Option<Vec<Region>> = hollows
        .map(|ring| {
            let hollow = GridOutline::new(ring.clone(), Vec::new()).ok()?;
            Some(no_fit_of(&hollow, &rectangle))
        })
        .collect();
    let Some(hollows) = hollows else { return Vec::new() };
    let at_home = |hollow| (hollow, GridPoint::default());
    outer.map(|ring| inner_fit(ring, &rectangle).without(hollows.iter().map(at_home))).collect()
}

/// The same with the longest side of all rectangles halved; `None` where all are small.
fn halved(places: Vec<Places>) -> Option<[Vec<Places>; 2]> {
    let sides = places
        .iter()
        .enumerate()
        .flat_map(|(own, (low, high))| [(high.x - low.x, own, true), (high.y - low.y, own, false)]);
    let (side, own, along_x) = sides.max()?;
    if side <= SMALLEST {
        return None;
    }
    let (low, _) = places[own];
    let half = side / 2;
    let mut halves = [places.clone(), places];
    if along_x {
        halves[0][own].1.x = low.x + half;
        halves[1][own].0.x = low.x + half;
    } else {
        halves[0][own].1.y = low.y + half;
        halves[1][own].0.y = low.y + half;
    }
    Some(halves)
}
