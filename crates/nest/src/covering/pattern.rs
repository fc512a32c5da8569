//! Panels that meet in a pattern across the roll: how far into it each may begin.
//!
//! Where the pattern starts under a piece is free, as long as all panels of the piece have the same start. A panel goes on the
//! roll for the starts of one arc of the pattern's length, so all of them do for what the arcs share; that begins where one of
//! the arcs begins, and those few starts tell for certain whether there is any.

use super::{Cloth, Patch};

/// The pieces of a patterned roll that are cut in several panels.
pub(super) struct Patterns {
    repeat: i64,
    width: i64,
    pieces: Vec<Piece>,
    /// For each patch, its piece and where it begins in that.
    of: Vec<Option<(usize, i64)>>,
}

/// A piece in panels.
struct Piece {
    /// Where each panel begins, and how wide it is.
    panels: Vec<[i64; 2]>,
    /// Starts of the pattern at which some panel lies at the roll's left edge, and all go on the roll.
    starts: Vec<i64>,
}

impl Patterns {
    /// Those of `patches`.
    ///
    /// # Errors
    /// The first patch of a piece whose panels go on the roll at no start.
    pub(super) fn of(cloth: &Cloth, patches: &[Patch]) -> Result<Self, usize> {
        let none =
            || Self { repeat: 1, width: cloth.width, pieces: Vec::new(), of: vec![None; patches.len()] };
        let Some(repeat) = cloth.repeat_across else { return Ok(none()) };
        let mut all = Self { repeat, ..none() };
        let mut names: Vec<usize> = Vec::new();
        let mut firsts: Vec<usize> = Vec::new();
        for (number, patch) in patches.iter().enumerate() {
            let Some(pattern) = patch.pattern else { continue };
            let piece = names.iter().position(|name| *name == pattern.piece).unwrap_or_else(|| {
                names.push(pattern.piece);
                firsts.push(number);
                all.pieces.push(Piece { panels: Vec::new(), starts: Vec::new() });
                names.len() - 1
            });
            all.pieces[piece].panels.push([pattern.begins, patch.width]);
            all.of[number] = Some((piece, pattern.begins));
        }
        for (piece, first) in firsts.into_iter().enumerate() {
            let mut starts: Vec<i64> =
                all.pieces[piece].panels.iter().map(|[begins, _]| (-begins).rem_euclid(repeat)).collect();
            starts.retain(|&start| all.goes_on(piece, start));
            starts.sort_unstable();
            starts.dedup();
            if starts.is_empty() {
                return Err(first);
            }
            all.pieces[piece].starts = starts;
        }
        Ok(all)
    }

    /// How many pieces there are in panels.
    pub(super) const fn count(&self) -> usize {
        self.pieces.len()
    }

    /// The piece of a patch that is one of several panels.
    pub(super) fn piece(&self, patch: usize) -> Option<usize> {
        self.of[patch].map(|(piece, _)| piece)
    }

    /// Starts worth trying for a piece.
    pub(super) fn starts(&self, piece: usize) -> &[i64] {
        &self.pieces[piece].starts
    }

    /// Where the pattern starts under a panel's piece when the panel lies at `y`.
    pub(super) fn start(&self, patch: usize, y: i64) -> Option<(usize, i64)> {
        self.of[patch].map(|(piece, begins)| (piece, (y - begins).rem_euclid(self.repeat)))
    }

    /// The first place not before `from` where a panel may lie: at the `start` of its piece where that is settled, else every
    /// one that leaves the piece's other panels a place.
    pub(super) fn places(&self, patch: usize, from: i64, start: Option<i64>) -> Vec<i64> {
        let Some((piece, begins)) = self.of[patch] else { return vec![from] };
        let at = |start: i64| from + (begins + start - from).rem_euclid(self.repeat);
        if let Some(start) = start {
            return vec![at(start)];
        }
        let here = (from - begins).rem_euclid(self.repeat);
        let own = self.goes_on(piece, here).then_some(from);
        own.into_iter().chain(self.starts(piece).iter().map(|&start| at(start))).collect()
    }

    /// Whether all panels of a piece go on the roll when the pattern starts so far into it.
    fn goes_on(&self, piece: usize, start: i64) -> bool {
        let panels = &self.pieces[piece].panels;
        panels.iter().all(|[begins, width]| (begins + start).rem_euclid(self.repeat) + width <= self.width)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::super::InPattern;
    use super::*;

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(200))]

        /// The few starts that are looked at find one wherever any start at all would do.
        #[test]
        fn no_start_is_missed(
            repeat in 1_i64..40,
            panels in proptest::collection::vec((0_i64..80, 1_i64..50), 1..5),
        ) {
            let cloth = Cloth { width: 50, longest: None, repeat: None, repeat_across: Some(repeat), squaring: 0 };
            let patch = |&(begins, width): &(i64, i64)| Patch {
                mark: String::new(),
                length: 1,
                width,
                may_turn: false,
                pattern: Some(InPattern { piece: 0, begins }),
            };
            let patches: Vec<Patch> = panels.iter().map(patch).collect();
            let any = (0..repeat).any(|start| {
                panels.iter().all(|(begins, width)| (begins + start).rem_euclid(repeat) + width <= 50)
            });
            prop_assert_eq!(Patterns::of(&cloth, &patches).is_ok(), any);
        }
    }
}
