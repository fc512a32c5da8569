//! Pressing all pieces onto cheaper sheets.
//!
//! The sheets of a layout are exchanged for others that cost less together: one or two fewer, or other sizes. All
//! pieces are put on those, some on top of others, and pulled apart over all sheets at once (`separate`). Where
//! that succeeds the cheaper sheets do.

use crate::random::Chance;
use crate::search::decode::{Filled, Layout};
use crate::search::emptying::snapped;
use crate::search::{LOOKS_IN_ONE, Meter, Task, Watch};
use crate::separate::ground::Ground;
use crate::separate::look::Looks;
use crate::separate::rounds::{Patience, separate};
use crate::separate::state::{Loose, State};
use crate::separate::{Spot, float};

const PATIENCE: Patience =
    Patience { rounds: 60, tries: 2, looks: Looks { anywhere: 24, nearby: 8, walked: 3 } };

/// Sheets that the parts would fill beyond this, in thousandths, are not tried.
const FULL_PERMILLE: i128 = 930;

/// The most choices of cheaper sheets tried, the roomiest first.
const CHOICES: usize = 12;

/// Goes on from `layout` until nothing cheaper is left to try or the evaluations are used up. Costs down to `least`
/// are worth looking for.
pub(crate) fn run(
    task: &Task<'_>,
    layout: &Layout,
    least: i128,
    chance: &mut Chance,
    meter: &mut Meter,
    watch: &Watch<'_>,
) -> Layout {
    let mut best = layout.clone();
    let mut choices = cheaper(task, &best, least);
    let mut next = 0;
    while next < choices.len() && meter.used < meter.limit && !watch.is_stopped() {
        if let Some(pressed) = pressed(task, &best, &choices[next], chance, meter, watch) {
            best = pressed;
            choices = cheaper(task, &best, least);
            next = 0;
        } else {
            next += 1;
        }
    }
    best
}

/// Choices of sheets that cost less than the layout's, the roomiest first: up to two sheets taken away and up to two
/// put in their place. One entry a sheet.
fn cheaper(task: &Task<'_>, layout: &Layout, least: i128) -> Vec<Vec<usize>> {
    let stocks: Vec<usize> = layout.iter().map(|filled| filled.stock).collect();
    let now: i128 = stocks.iter().map(|&stock| task.cost(stock)).sum();
    let parts: i128 = layout.iter().map(|filled| task.doubled_area(&filled.pieces)).sum();
    let mut choices = Vec::new();
    for taken in changes(&stocks) {
        let mut kept = stocks.clone();
        for stock in &taken {
            if let Some(at) = kept.iter().position(|other| other == stock) {
                kept.remove(at);
            }
        }
        for put in changes(&[task.sizes, task.sizes].concat()) {
            let mut choice = [kept.clone(), put].concat();
            choice.sort_unstable();
            let cost = choice.iter().map(|&stock| task.cost(stock)).sum::<i128>();
            let room: i128 = choice.iter().map(|&stock| task.doubled_room(stock)).sum();
            if least <= cost && cost < now && 1000 * parts <= FULL_PERMILLE * room && task.are_there(&choice)
            {
                choices.push((std::cmp::Reverse(room), cost, choice));
            }
        }
    }
    choices.sort();
    choices.dedup();
    choices.truncate(CHOICES);
    choices.into_iter().map(|(_, _, choice)| choice).collect()
}

/// None, one or two of a list, each choice once.
fn changes(list: &[usize]) -> Vec<Vec<usize>> {
    let mut choices = vec![Vec::new()];
    for (at, &first) in list.iter().enumerate() {
        choices.push(vec![first]);
        choices.extend(list[at + 1..].iter().map(|&second| vec![first.min(second), first.max(second)]));
    }
    choices.sort();
    choices.dedup();
    choices
}

impl Task<'_> {
    /// Twice the area inside the edge trim, in square millimetres.
    fn doubled_room(&self, stock: usize) -> i128 {
        let (length, width) = self.problem.stock()[stock].trimmed(self.problem.rules());
        2 * i128::from(length) * i128::from(width) / 1_000_000
    }

    fn are_there(&self, sheets: &[usize]) -> bool {
        let there = self.sheets_there();
        self.sizes.iter().all(|&stock| {
            let count = sheets.iter().filter(|&&other| other == stock).count();
            u32::try_from(count).is_ok_and(|count| count <= there[stock])
        })
    }
}

/// All pieces of the layout on other sheets; `None` when they could not be pulled apart there.
fn pressed(
    task: &Task<'_>,
    layout: &Layout,
    sheets: &[usize],
    chance: &mut Chance,
    meter: &mut Meter,
    watch: &Watch<'_>,
) -> Option<Layout> {
    let rules = task.problem.rules();
    let size = |&stock: &usize| task.problem.stock()[stock].trimmed(rules);
    let apart = float(2 * (rules.gap + rules.edge_trim) + BETWEEN_STEPS);
    let sizes = sheets.iter().map(size).map(|(length, width)| (float(length), float(width)));
    let ground = Ground::side_by_side(sizes, apart);
    let pieces = put_down(task, layout, sheets, &ground, chance)?;
    let rooms = sheets.iter().zip(ground.rooms());
    let missing = rooms.flat_map(|(&stock, room)| task.missing(stock, room.low)).collect();
    let mut state = State::among_fixed(task.table, ground, pieces, missing);
    let mut looks = Meter { used: 0, limit: (meter.limit - meter.used).saturating_mul(LOOKS_IN_ONE) };
    let free = separate(&mut state, PATIENCE, chance, &mut looks, watch);
    meter.used += looks.used.div_ceil(LOOKS_IN_ONE).max(1);
    if !free {
        return None;
    }
    let mut filled: Vec<Vec<Loose>> = vec![Vec::new(); sheets.len()];
    for piece in &state.pieces[..state.movable] {
        let room = state.ground.room_at(piece.at);
        let low = state.ground.rooms()[room].low;
        filled[room].push(Loose { at: piece.at - low, ..*piece });
    }
    let sheet = |(stock, pieces): (&usize, Vec<Loose>)| {
        Some(Filled { stock: *stock, pieces: snapped(task, &pieces, *stock)? })
    };
    let layout: Option<Layout> = sheets.iter().zip(filled).map(sheet).collect();
    Some(layout?.into_iter().filter(|filled| !filled.pieces.is_empty()).collect())
}

/// Steps between two sheets, beside gaps and trims: room for the frames around two offcuts.
const BETWEEN_STEPS: i64 = 5_000;

/// Every piece on the new sheets: those of a sheet that stays where they were, the others anywhere. `None` when a
/// piece fits none.
fn put_down(
    task: &Task<'_>,
    layout: &Layout,
    sheets: &[usize],
    ground: &Ground,
    chance: &mut Chance,
) -> Option<Vec<Loose>> {
    let mut free: Vec<bool> = vec![true; sheets.len()];
    let mut pieces = Vec::new();
    let mut fullest: Vec<&Filled> = layout.iter().collect();
    fullest.sort_by_key(|filled| std::cmp::Reverse(task.doubled_area(&filled.pieces)));
    for filled in fullest {
        let room = (0..sheets.len()).find(|&at| free[at] && sheets[at] == filled.stock);
        if let Some(room) = room {
            free[room] = false;
        }
        for piece in &filled.pieces {
            let low = room.map(|room| ground.rooms()[room].low);
            let own = Spot::new(float(piece.at.x), float(piece.at.y));
            let placed = low.map(|low| (piece.figure, low + own));
            let (figure, at) = placed.or_else(|| anywhere(task, piece.part, ground, chance))?;
            pieces.push(Loose { part: piece.part, figure, at });
        }
    }
    Some(pieces)
}

fn anywhere(task: &Task<'_>, part: usize, ground: &Ground, chance: &mut Chance) -> Option<(usize, Spot)> {
    let figures = task.figures.of_part(part).iter().copied();
    let fits: Vec<usize> = figures.filter(|&figure| ground.holds(task.table.size(figure))).collect();
    let figure = *fits.get(chance.below(fits.len()))?;
    let mut places = Vec::new();
    ground.places(task.table.size(figure), &mut places);
    let room = places[chance.below(places.len())];
    let (x, y) = (room.high.x - room.low.x, room.high.y - room.low.y);
    Some((figure, room.low + Spot::new(chance.share() * x, chance.share() * y)))
}
