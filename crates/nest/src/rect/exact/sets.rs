//! Sets of blanks of which equal ones are counted, as numbers; and what sheets make up all of them.

use crate::rect::exact::Steps;

/// So many of each kind, and all that is less.
#[derive(Debug, Clone)]
pub(super) struct Sets {
    /// How many there are of each kind.
    most: Vec<usize>,
    /// What one more of a kind adds to the number of a set.
    places: Vec<usize>,
    count: usize,
}

/// Sets that are filled on a sheet each: the number of the size and the set.
pub(super) type Chosen = Vec<(usize, usize)>;

impl Sets {
    /// `None` where there are more than so many.
    pub(super) fn new(most: impl Iterator<Item = usize>, many: usize) -> Option<Self> {
        let (most, mut places, mut count): (Vec<usize>, Vec<usize>, usize) = (most.collect(), Vec::new(), 1);
        for &kind in &most {
            places.push(count);
            count = count.checked_mul(kind + 1).filter(|&count| count <= many)?;
        }
        Some(Self { most, places, count })
    }

    /// How many sets there are, the empty one counted; the last one is all.
    pub(super) const fn count(&self) -> usize {
        self.count
    }

    /// How many of each kind a set has.
    pub(super) fn of(&self, set: usize) -> impl Iterator<Item = usize> {
        self.most.iter().zip(&self.places).map(move |(&most, &place)| set / place % (most + 1))
    }

    /// The kind of a set of one.
    pub(super) fn single(&self, set: usize) -> Option<usize> {
        self.places.iter().position(|&place| place == set)
    }

    /// The sets that lack one of those in a set.
    pub(super) fn one_less(&self, set: usize) -> impl Iterator<Item = usize> {
        self.of(set).zip(&self.places).filter(|(count, _)| 0 < *count).map(move |(_, place)| set - place)
    }

    /// Every set within a set, with none and all.
    pub(super) fn within(&self, set: usize) -> Vec<usize> {
        let mut found = vec![0];
        for (count, &place) in self.of(set).zip(&self.places) {
            let before = found.len();
            for times in 1..=count {
                found.extend_from_within(..before);
                let from = found.len() - before;
                found[from..].iter_mut().for_each(|part| *part += times * place);
            }
        }
        found
    }

    /// Every set within a set that has one of its first kind, and so every way to part it in two once.
    pub(super) fn firsts(&self, set: usize) -> Vec<usize> {
        let first = self.one_less(set).next();
        first.map_or_else(Vec::new, |rest| {
            self.within(rest).into_iter().map(|part| part + (set - rest)).collect()
        })
    }
}

/// All blanks, the sets that one sheet may hold, and those that a sheet of each size does.
#[derive(Debug, Clone, Copy)]
pub(super) struct Filled<'a> {
    pub(super) all: &'a Sets,
    pub(super) held: &'a Sets,
    pub(super) holds: &'a [Vec<bool>],
}

/// A set that one sheet of a size holds, and no more: the size, and how many of each kind.
type Filling = (usize, Vec<usize>);

/// For a set, what the cheapest sheets cost, how many they are, and the number of the filling of the last; `None` where none hold it.
type Cheapest = Option<(i128, u32, usize)>;

impl Filled<'_> {
    /// The cheapest sheets for all where there are enough of every size. The inner `None` where some blank goes on no sheet.
    pub(super) fn cheapest(&self, costs: &[i128], steps: &mut Steps) -> Option<Option<(i128, Chosen)>> {
        let fillings: Vec<Filling> = (0..costs.len()).flat_map(|size| self.fullest(size)).collect();
        let table = self.table(&fillings, costs, steps)?;
        let all = self.all.count() - 1;
        Some(table[all].map(|(cost, ..)| (cost, self.chosen(&fillings, &table, all))))
    }

    /// The same where there are only so many of each size.
    pub(super) fn within_limits(
        &self,
        costs: &[i128],
        limits: &[u32],
        steps: &mut Steps,
    ) -> Option<Option<(i128, Chosen)>> {
        let fillings: Vec<Vec<Filling>> = (0..costs.len()).map(|size| self.fullest(size)).collect();
        let one_each = vec![1; costs.len()];
        let counts = fillings.iter().map(|fillings| self.table(fillings, &one_each, steps));
        let counts: Vec<Vec<Cheapest>> = counts.collect::<Option<_>>()?;
        // After each size: what sheets of the sizes so far cost, how many they are, and what lies on those of the last.
        let mut after: Vec<Vec<Cheapest>> = Vec::new();
        for (fewest, (&cost, &limit)) in counts.iter().zip(costs.iter().zip(limits)) {
            let mut found = Vec::new();
            for set in 0..self.all.count() {
                let parts = self.all.within(set);
                steps.spend(parts.len())?;
                let of = |part: usize| {
                    let (_, count, _) = fewest[part].filter(|(_, count, _)| *count <= limit)?;
                    let (before, sheets) = match after.last() {
                        Some(before) => before[set - part].map(|(cost, sheets, _)| (cost, sheets))?,
                        None if part == set => (0, 0),
                        None => return None,
                    };
                    Some((before + i128::from(count) * cost, sheets + count, part))
                };
                found.push(parts.into_iter().filter_map(of).min());
            }
            after.push(found);
        }
        let mut left = self.all.count() - 1;
        let Some((cost, ..)) = after.last().and_then(|last| last[left]) else { return Some(None) };
        let mut chosen = Chosen::new();
        for (size, found) in after.iter().enumerate().rev() {
            let own = found[left].map_or(0, |(_, _, own)| own);
            chosen.extend(self.chosen(&fillings[size], &counts[size], own));
            left -= own;
        }
        Some(Some((cost, chosen)))
    }

    /// The cheapest sheets for every set, each filled as far as it goes, since what holds a set holds less. Of equal ones those with
    /// fewer sheets.
    fn table(&self, fillings: &[Filling], costs: &[i128], steps: &mut Steps) -> Option<Vec<Cheapest>> {
        let mut cheapest: Vec<Cheapest> = vec![Some((0, 0, 0))];
        for set in 1..self.all.count() {
            steps.spend(fillings.len())?;
            let counts: Vec<usize> = self.all.of(set).collect();
            let first = counts.iter().position(|&count| 0 < count);
            let of = |(number, (size, filling)): (usize, &Filling)| {
                first.filter(|&kind| 0 < filling[kind])?;
                let taken = counts.iter().zip(filling).zip(&self.all.places);
                let taken: usize = taken.map(|((&count, &held), place)| count.min(held) * place).sum();
                let (cost, sheets, _) = cheapest[set - taken]?;
                Some((cost + costs[*size], sheets + 1, number))
            };
            cheapest.push(fillings.iter().enumerate().filter_map(of).min());
        }
        Some(cheapest)
    }

    /// The sheets behind a set of such a table.
    fn chosen(&self, fillings: &[Filling], table: &[Cheapest], set: usize) -> Chosen {
        let mut chosen = Chosen::new();
        let mut left = set;
        while let Some((_, _, number)) = table[left].filter(|_| left != 0) {
            let (size, filling) = &fillings[number];
            let (mut in_all, mut in_held) = (0, 0);
            for (kind, count) in self.all.of(left).enumerate() {
                in_all += count.min(filling[kind]) * self.all.places[kind];
                in_held += count.min(filling[kind]) * self.held.places[kind];
            }
            chosen.push((*size, in_held));
            left -= in_all;
        }
        chosen
    }

    /// The sets on a sheet of a size to which no blank can be added.
    fn fullest(&self, size: usize) -> Vec<Filling> {
        let holds = &self.holds[size];
        let mut found = Vec::new();
        for set in (1..self.held.count()).filter(|&set| holds[set]) {
            let counts: Vec<usize> = self.held.of(set).collect();
            let each = counts.iter().zip(&self.held.most).zip(&self.held.places);
            let mut more = each.filter(|((count, most), _)| count < most).map(|(_, place)| set + place);
            if !more.any(|more| holds[more]) {
                found.push((size, counts));
            }
        }
        found
    }
}
