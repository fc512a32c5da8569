//! The best filling of one stick for given weights of the pieces, exactly, in whole numbers.
//!
//! Forward lists of fillings that no other filling beats in both length and worth, piece by piece in order of
//! worth per length, dropped as soon as even a perfect use of the room left could not beat the mark to be beaten.

/// One kind of piece to choose from.
#[derive(Debug, Clone, Copy)]
pub(super) struct Item {
    /// Number of the kind.
    pub(super) kind: usize,
    /// Length, in steps.
    pub(super) length: i64,
    /// Worth of one.
    pub(super) worth: i64,
    /// How many may be taken.
    pub(super) most: i64,
}

#[derive(Clone, Copy)]
struct State {
    length: i64,
    worth: i64,
    parent: usize,
    item: usize,
}

/// The filling worth most, if it is worth more than `mark`: its worth, and how many of which kinds.
///
/// `None` proves that no filling of `room` is worth more than `mark`.
pub(super) fn best_filling(items: &[Item], room: i64, mark: i64) -> Option<(i64, Vec<(usize, i64)>)> {
    filling_within(items, room, mark, usize::MAX)
}

/// As [`best_filling`], but giving up on better ones once `states` partial fillings have been seen: `None` proves
/// nothing then.
pub(super) fn filling_within(
    items: &[Item],
    room: i64,
    mark: i64,
    states: usize,
) -> Option<(i64, Vec<(usize, i64)>)> {
    let (search, items, _) = searched(items, room, mark, states);
    let best = search.best?;
    Some((search.states[best].worth, search.takes(best, &items)))
}

/// What no filling is worth more than: what the best one is worth, or the mark; `None` once `states` partial fillings have been seen before it
/// is known.
pub(super) fn most_worth(items: &[Item], room: i64, mark: i64, states: usize) -> Option<i64> {
    let (search, _, is_known) = searched(items, room, mark, states);
    is_known.then_some(search.mark)
}

/// The search, the items in its order, and whether it has come to its end.
fn searched(items: &[Item], room: i64, mark: i64, states: usize) -> (Search, Vec<Item>, bool) {
    let mut items: Vec<Item> =
        items.iter().copied().filter(|i| 0 < i.worth && i.length <= room && 0 < i.most).collect();
    items.sort_by_key(|item| item.kind);
    items.sort_by(|a, b| density(b, a).cmp(&density(a, b)));
    let mut search =
        Search { states: vec![State { length: 0, worth: 0, parent: 0, item: usize::MAX }], mark, best: None };
    let (mut front, mut is_known) = (vec![0], true);
    for (at, item) in items.iter().enumerate() {
        if states < search.states.len() {
            is_known = false;
            break;
        }
        front = search.add(&front, at, item, room);
        let next = items.get(at + 1);
        front.retain(|&state| next.is_some_and(|next| search.hopeful(state, next, room)));
    }
    (search, items, is_known)
}

/// Compares worth per length without dividing: the worth of `a` times the length of `b`.
fn density(a: &Item, b: &Item) -> i128 {
    i128::from(a.worth) * i128::from(b.length)
}

struct Search {
    states: Vec<State>,
    mark: i64,
    best: Option<usize>,
}

impl Search {
    /// All fillings of the front with 0 to `most` of an item more, the beaten ones left out.
    fn add(&mut self, front: &[usize], at: usize, item: &Item, room: i64) -> Vec<usize> {
        let mut all = front.to_vec();
        let mut last = front.to_vec();
        for _ in 0..item.most.min(room / item.length) {
            let mut more = Vec::with_capacity(last.len());
            for &parent in &last {
                let (length, worth) =
                    (self.states[parent].length + item.length, self.states[parent].worth + item.worth);
                if length <= room {
                    let state = State { length, worth, parent, item: at };
                    if self.mark < worth {
                        self.mark = worth;
                        self.best = Some(self.states.len());
                    }
                    more.push(self.states.len());
                    self.states.push(state);
                }
            }
            more.retain(|&state| self.hopeful(state, item, room));
            if more.is_empty() {
                break;
            }
            all = self.merge(&all, &more);
            last = more;
        }
        all
    }

    /// Whether a perfect use of the room left, at the worth per length of `next`, could beat the mark.
    fn hopeful(&self, state: usize, next: &Item, room: i64) -> bool {
        let state = self.states[state];
        let missing = i128::from(self.mark) - i128::from(state.worth);
        missing * i128::from(next.length) < i128::from(room - state.length) * i128::from(next.worth)
    }

    /// Two lists in order of length as one, without fillings that are no shorter and worth no more than another.
    fn merge(&self, a: &[usize], b: &[usize]) -> Vec<usize> {
        let mut merged: Vec<usize> = Vec::with_capacity(a.len() + b.len());
        let length = |state: usize| self.states[state].length;
        let (mut left, mut right, mut top) = (0, 0, -1);
        while left < a.len() || right < b.len() {
            let from_left = right == b.len() || (left < a.len() && length(a[left]) <= length(b[right]));
            let next = if from_left { a[left] } else { b[right] };
            left += usize::from(from_left);
            right += usize::from(!from_left);
            if top < self.states[next].worth {
                top = self.states[next].worth;
                if merged.last().is_some_and(|&before| length(before) == length(next)) {
                    merged.pop();
                }
                merged.push(next);
            }
        }
        merged
    }

    fn takes(&self, mut state: usize, items: &[Item]) -> Vec<(usize, i64)> {
        let mut takes: Vec<(usize, i64)> = Vec::new();
        while state != 0 {
            let kind = items[self.states[state].item].kind;
            match takes.last_mut().filter(|take| take.0 == kind) {
                Some(take) => take.1 += 1,
                None => takes.push((kind, 1)),
            }
            state = self.states[state].parent;
        }
        takes.sort_unstable();
        takes
    }
}
