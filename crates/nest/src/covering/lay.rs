//! Laying patches in many orders, and the length below which nothing can be cut.

use super::bound::least;
use super::pattern::Patterns;
use super::{Cloth, CoveringError, LONGEST, Laid, PATCH_LIMIT, Patch, PlacedPatch, verify};
use crate::random::Chance;
use crate::search::Effort;

/// Lays `patches` on rolls of `cloth` in as little length as is found. An evaluation is one place looked at.
///
/// # Errors
/// [`CoveringError`] for patches that go on no roll.
pub fn lay(cloth: &Cloth, patches: &[Patch], effort: &Effort) -> Result<Laid, CoveringError> {
    check(cloth, patches)?;
    let patterns = Patterns::of(cloth, patches)
        .map_err(|patch| CoveringError::OffPattern { patch, mark: patches[patch].mark.clone() })?;
    let roll = Roll { cloth, patches, patterns };
    let mut chance = Chance::new(effort.seed, 0);
    let mut left = effort.evaluations;
    let orders = first_orders(&roll);
    let mut best: Option<Laid> = None;
    let mut best_order = orders[0].clone();
    for try_number in 0.. {
        let order =
            orders.get(try_number).cloned().unwrap_or_else(|| exchanged(&roll, &best_order, &mut chance));
        let laid = in_order(&roll, &order, &mut left);
        let is_no_worse =
            |known: &Laid| (laid.length(), laid.rolls.len()) <= (known.length(), known.rolls.len());
        if best.as_ref().is_none_or(is_no_worse) {
            best = Some(laid);
            best_order = order;
        }
        let done = best.as_ref().is_some_and(Laid::is_proved);
        if done || left == 0 || patches.len() == 1 {
            break;
        }
    }
    let laid = best.ok_or(CoveringError::Count { count: 0 })?;
    verify(cloth, patches, &laid).map_err(CoveringError::Unsound)?;
    Ok(laid)
}

/// What is laid on what.
struct Roll<'a> {
    cloth: &'a Cloth,
    patches: &'a [Patch],
    patterns: Patterns,
}

/// The patches one after another, and where the pattern starts under the pieces in panels, where that is settled.
#[derive(Clone)]
struct Order {
    next: Vec<Next>,
    starts: Vec<Option<i64>>,
}

/// The patch to lay next, and how it lies where that is settled.
type Next = (usize, Option<bool>);

/// Long ones first, large ones first, wide ones first, either way round; then the same with every start of the pattern.
fn first_orders(roll: &Roll<'_>) -> Vec<Order> {
    let by = |key: fn(&Patch) -> i64| {
        let mut order: Vec<usize> = (0..roll.patches.len()).collect();
        order.sort_by_key(|&patch| std::cmp::Reverse(key(&roll.patches[patch])));
        order
    };
    let sorted =
        [by(|patch| patch.length), by(|patch| patch.length * patch.width / 1000), by(|patch| patch.width)];
    let ways: Vec<Vec<Next>> = sorted
        .into_iter()
        .flat_map(|order| {
            [None, Some(true)].map(|turned| order.iter().map(|&patch| (patch, turned)).collect())
        })
        .collect();
    let pieces = 0..roll.patterns.count();
    let most = pieces.clone().map(|piece| roll.patterns.starts(piece).len()).max().unwrap_or(0);
    let open = std::iter::once(vec![None; pieces.len()]);
    let settled = (0..most).map(|number| {
        let start = |piece| roll.patterns.starts(piece).get(number).copied();
        pieces.clone().map(start).collect()
    });
    let starts: Vec<Vec<Option<i64>>> = open.chain(settled).collect();
    let orders = starts
        .iter()
        .flat_map(|starts| ways.iter().map(|next| Order { next: next.clone(), starts: starts.clone() }));
    orders.collect()
}

fn check(cloth: &Cloth, patches: &[Patch]) -> Result<(), CoveringError> {
    if patches.is_empty() || PATCH_LIMIT < patches.len() {
        return Err(CoveringError::Count { count: patches.len() });
    }
    let sound = |size: i64| 0 < size && size <= LONGEST;
    let cloth_sizes = [Some(cloth.width), cloth.longest, cloth.repeat, cloth.repeat_across];
    let squares = 0 <= cloth.squaring && cloth.squaring < cloth.longest.unwrap_or(LONGEST);
    if !squares || !cloth_sizes.into_iter().flatten().all(sound) {
        return Err(CoveringError::Size);
    }
    for (number, patch) in patches.iter().enumerate() {
        if !sound(patch.length) || !sound(patch.width) {
            return Err(CoveringError::Size);
        }
        let mark = || patch.mark.clone();
        let wide_enough = || patch.turns().filter(|&turned| patch.size(turned).1 <= cloth.width);
        if wide_enough().next().is_none() {
            return Err(CoveringError::TooWide { patch: number, mark: mark() });
        }
        if !wide_enough().any(|turned| patch.size(turned).0 <= cloth.room()) {
            return Err(CoveringError::TooLong { patch: number, mark: mark() });
        }
    }
    Ok(())
}

/// Two patches of the order changed about, one that lies another way, or another start of the pattern.
fn exchanged(roll: &Roll<'_>, order: &Order, chance: &mut Chance) -> Order {
    let Order { mut next, mut starts } = order.clone();
    let (a, b) = (chance.below(next.len()), chance.below(next.len()));
    let ways = if starts.is_empty() { 4 } else { 6 };
    match chance.below(ways) {
        0 => next[a].1 = Some(chance.below(2) == 0),
        1 => next[a].1 = None,
        4 => {
            let piece = chance.below(starts.len());
            let known = roll.patterns.starts(piece);
            starts[piece] = known.get(chance.below(known.len() + 1)).copied();
        }
        _ => next.swap(a, b),
    }
    Order { next, starts }
}

fn in_order(roll: &Roll<'_>, order: &Order, left: &mut u64) -> Laid {
    let squaring = roll.cloth.squaring;
    let mut laid = Laid { rolls: vec![Vec::new()], used: vec![squaring], least: 0 };
    let mut starts = order.starts.clone();
    for &next in &order.next {
        let patch = next.0;
        let start = roll.patterns.piece(patch).and_then(|piece| starts[piece]);
        let mut on_a_roll = |next: Next| {
            (0..laid.rolls.len()).find_map(|number| {
                place(roll, &laid.rolls[number], next, start, left).map(|placed| (number, placed))
            })
        };
        // A turn that was settled before the place was known opens no roll while the patch goes on one the other way.
        let on_a_roll = on_a_roll(next).or_else(|| next.1.and_then(|_| on_a_roll((patch, None))));
        let (number, placed) = on_a_roll.unwrap_or_else(|| {
            laid.rolls.push(Vec::new());
            laid.used.push(squaring);
            let alone = place(roll, &[], (patch, None), start, left);
            (laid.rolls.len() - 1, alone.unwrap_or(PlacedPatch { patch, x: 0, y: 0, turned: false }))
        });
        if let Some((piece, start)) = roll.patterns.start(patch, placed.y) {
            starts[piece] = Some(start);
        }
        let end = squaring + placed.x + roll.patches[patch].size(placed.turned).0;
        laid.used[number] = laid.used[number].max(end);
        laid.rolls[number].push(placed);
    }
    laid.least = least(roll.cloth, roll.patches, laid.rolls.len());
    laid
}

/// The place on a roll where a patch ends soonest; `None` when it would run off the roll.
fn place(
    roll: &Roll<'_>,
    on_it: &[PlacedPatch],
    (number, settled): Next,
    start: Option<i64>,
    left: &mut u64,
) -> Option<PlacedPatch> {
    let Roll { cloth, patches, patterns } = roll;
    let patch = &patches[number];
    let far_corner = |placed: &PlacedPatch| {
        let (length, width) = patches[placed.patch].size(placed.turned);
        (placed.x + length, placed.y + width)
    };
    let corners = || std::iter::once((0, 0)).chain(on_it.iter().map(far_corner));
    let mut xs: Vec<i64> = corners().map(|(x, _)| cloth.next_start(x)).collect();
    let mut ys: Vec<i64> = corners().flat_map(|(_, y)| patterns.places(number, y, start)).collect();
    for list in [&mut xs, &mut ys] {
        list.sort_unstable();
        list.dedup();
    }
    let mut best: Option<(i64, PlacedPatch)> = None;
    for turned in patch.turns() {
        if patch.may_turn && settled.is_some_and(|settled| settled != turned) {
            continue;
        }
        let (length, width) = patch.size(turned);
        let spots = xs.iter().flat_map(|&x| ys.iter().map(move |&y| (x, y)));
        for (x, y) in spots {
            let end = x + length;
            let is_no_better = best.is_some_and(|(known, _)| known <= end);
            if is_no_better || cloth.room() < end {
                break;
            }
            *left = left.saturating_sub(1);
            let clear = |other: &PlacedPatch| {
                let (right, top) = far_corner(other);
                end <= other.x || right <= x || y + width <= other.y || top <= y
            };
            if y + width <= cloth.width && on_it.iter().all(clear) {
                best = Some((end, PlacedPatch { patch: number, x, y, turned }));
                break;
            }
        }
    }
    best.map(|(_, placed)| placed)
}
