//! Seams in place of bends that would let every piece be bent: each is tried.

use super::search::{Ended, Wanted, search};
use super::stroke::Trials;
use super::{Mode, past_the_least};

/// Most bends of a piece of which two seams at a time are tried.
const MOST_FOR_PAIRS: usize = 14;

/// Seams, in place of bends, that leave pieces each of which was found an order for.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Seams {
    /// Bends each of which is enough.
    pub single: Vec<usize>,
    /// Two that are enough together, where no single one is.
    pub pair: Option<[usize; 2]>,
    /// Those orders meet assumed sizes of the machine.
    pub past_assumed: bool,
}

/// The seams of a piece, given by its bends and faces.
pub(super) fn of(trials: &mut Trials<'_>, (bends, faces): (&[usize], &[usize])) -> Seams {
    for mode in [Mode::Clear, Mode::PastAssumed] {
        let past_assumed = mode == Mode::PastAssumed;
        let single: Vec<usize> =
            bends.iter().copied().filter(|&seam| all_bend(trials, (bends, faces), &[seam], mode)).collect();
        if !single.is_empty() {
            return Seams { single, pair: None, past_assumed };
        }
    }
    if MOST_FOR_PAIRS < bends.len() {
        return Seams::default();
    }
    let pairs = bends.iter().flat_map(|&a| bends.iter().filter(move |&&b| a < b).map(move |&b| [a, b]));
    let pair = pairs.into_iter().find(|pair| all_bend(trials, (bends, faces), pair, Mode::PastAssumed));
    Seams { single: Vec::new(), pair, past_assumed: pair.is_some() }
}

/// True when every piece that the seams leave has an order.
fn all_bend(
    trials: &mut Trials<'_>,
    (bends, faces): (&[usize], &[usize]),
    seams: &[usize],
    mode: Mode,
) -> bool {
    let side = |face: usize, trials: &Trials<'_>| -> Vec<bool> {
        seams.iter().map(|&seam| trials.routes.by_parent(seam, face)).collect()
    };
    let mut pieces: Vec<(Vec<bool>, Vec<usize>)> = Vec::new();
    for &face in faces {
        let side = side(face, trials);
        match pieces.iter_mut().find(|(known, _)| *known == side) {
            Some((_, own)) => own.push(face),
            None => pieces.push((side, vec![face])),
        }
    }
    pieces.iter().all(|(_, own)| {
        let inner = |bend: &usize| {
            let line = &trials.metal.lines[*bend];
            !seams.contains(bend) && own.contains(&line.parent) && own.contains(&line.child)
        };
        let left: Vec<usize> = bends.iter().copied().filter(inner).collect();
        let ended = match mode {
            Mode::Clear => search(trials, (&left, own), (mode, Wanted::Any)),
            _ => past_the_least(trials, (&left, own), Wanted::Any),
        };
        matches!(ended, Ended::Order(_) | Ended::Unproven(_))
    })
}
