//! Pressing all pieces onto cheaper sheets.
//!
//! The sheets of a layout are exchanged for others that cost less together: one or two fewer, or other sizes. All
//! pieces are put on those, some on top of others, and pulled apart over all sheets at once (`separate`). Where
//! that succeeds the cheaper sheets do.

use crate::random::Chance;
use crate::search::apart::{loose, pulled_apart};
use crate::search::decode::{Filled, Layout};
use crate::search::{AREA_UNIT, Meter, Task, Watch};
use crate::separate::Spot;
use crate::separate::ground::Ground;
use crate::separate::look::Looks;
use crate::separate::rounds::Patience;
use crate::separate::state::Loose;

const PATIENCE: Patience =
    Patience { rounds: 200, tries: 3, looks: Looks { anywhere: 24, nearby: 8, walked: 3 } };

/// Sheets that the parts would fill beyond this, in thousandths, are not tried at first.
pub(crate) const FULL_AT_FIRST: i128 = 930;

/// All of a sheet, in thousandths.
const FULL: i128 = 1_000;

/// The most choices of cheaper sheets tried, the roomiest first.
const CHOICES: usize = 12;

/// Tries the choices over and over, those that would be filled to the last corner among them, until the evaluations are used up or
/// nothing cheaper is left to try.
pub(crate) fn persist(
    task: &Task<'_>,
    layout: &Layout,
    chance: &mut Chance,
    meter: &mut Meter,
    watch: &Watch<'_>,
) -> Layout {
    let mut best = layout.clone();
    while meter.used < meter.limit && !watch.is_stopped() {
        let before = meter.used;
        best = run(task, &best, FULL, chance, meter, watch);
        if meter.used == before {
            break;
        }
    }
    best
}

/// Goes on from `layout` until nothing cheaper is left to try or the evaluations are used up: each choice of sheets that the parts
/// fill to so many thousandths at the most once, all again after one that went.
pub(crate) fn run(
    task: &Task<'_>,
    layout: &Layout,
    full_permille: i128,
    chance: &mut Chance,
    meter: &mut Meter,
    watch: &Watch<'_>,
) -> Layout {
    let mut best = layout.clone();
    let mut choices = cheaper(task, &best, full_permille);
    let mut next = 0;
    while next < choices.len() && meter.used < meter.limit && !watch.is_stopped() {
        if let Some(pressed) = pressed(task, &best, &choices[next], chance, meter, watch) {
            best = pressed;
            choices = cheaper(task, &best, full_permille);
            next = 0;
        } else {
            next += 1;
        }
    }
    best
}

/// Choices of sheets that cost less than the layout's, the roomiest first: up to two sheets taken away and up to two
/// put in their place, none filled beyond `full_permille`. One entry a sheet.
fn cheaper(task: &Task<'_>, layout: &Layout, full_permille: i128) -> Vec<Vec<usize>> {
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
            if task.least <= cost
                && cost < now
                && 1000 * parts <= full_permille * room
                && task.are_there(&choice)
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
    /// Twice the area inside the edge trim, in units of area.
    pub(crate) fn doubled_room(&self, stock: usize) -> i128 {
        let (length, width) = self.problem.stock()[stock].trimmed(self.problem.rules());
        2 * i128::from(length) * i128::from(width) / AREA_UNIT
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
    let ground = task.ground(sheets);
    let pieces = put_down(task, layout, sheets, &ground, chance)?;
    let pressed = pulled_apart(task, (sheets, ground), pieces, PATIENCE, chance, meter, watch)?;
    Some(pressed.into_iter().filter(|filled| !filled.pieces.is_empty()).collect())
}

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
            let kept = room.map(|room| loose(piece, ground.rooms()[room].low));
            pieces.push(kept.or_else(|| anywhere(task, piece.part, ground, chance))?);
        }
    }
    Some(pieces)
}

fn anywhere(task: &Task<'_>, part: usize, ground: &Ground, chance: &mut Chance) -> Option<Loose> {
    let figures = task.figures.of_part(part).iter().copied();
    let fits: Vec<usize> = figures.filter(|&figure| ground.holds(task.table.size(figure))).collect();
    let figure = *fits.get(chance.below(fits.len()))?;
    let mut places = Vec::new();
    ground.places(task.table.size(figure), &mut places);
    let room = places[chance.below(places.len())];
    let (x, y) = (room.high.x - room.low.x, room.high.y - room.low.y);
    Some(Loose { part, figure, at: room.low + Spot::new(chance.share() * x, chance.share() * y) })
}
