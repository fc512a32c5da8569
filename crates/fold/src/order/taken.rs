//! Stretches along a bend that metal takes from punch, die and leaf.

use super::blocks::Blocked;
use super::stroke::{Hindrance, Stretch};
use super::{bodies, room};

/// Metal reaching no farther past the end of a bend lies beside it, mm (common practice, no source).
const BESIDE_MM: f64 = 1.0;

/// A stretch that a face takes from the tooling.
#[derive(Debug, Clone, Copy)]
pub(super) struct Taken {
    /// What of the machine, and where.
    pub(super) met: Blocked,
    /// The face.
    pub(super) face: usize,
    /// It lies in the plane of the sheet.
    pub(super) flat: bool,
}

/// Flat metal of a face past the ends of a bend, on the line of the bend run on: punch and die would crease it.
pub(super) fn flat_beside(crossed: &[(f64, f64)], face: usize, bend: (f64, f64)) -> Vec<Taken> {
    let is_beside = |(low, high): &&(f64, f64)| *high <= bend.0 + BESIDE_MM || bend.1 - BESIDE_MM <= *low;
    let taken = |&stretch_mm: &(f64, f64)| {
        [bodies::PUNCH, bodies::DIE].map(|body| {
            let met = Blocked { stretch_mm: past(bend, stretch_mm), body, given: true };
            Taken { met, face, flat: true }
        })
    };
    crossed.iter().filter(is_beside).flat_map(taken).collect()
}

/// True where flat metal lies across the line between two bends of a stroke: one punch over both would crease it.
pub(super) fn flat_between(crossed: &[(f64, f64)], group: &[Stretch]) -> bool {
    let mut stretches: Vec<(f64, f64)> = group.iter().map(|(_, stretch)| *stretch).collect();
    stretches.sort_by(|a, b| a.0.total_cmp(&b.0));
    let gaps = stretches.windows(2).map(|pair| (pair[0].1, pair[1].0));
    gaps.into_iter()
        .any(|(from, to)| crossed.iter().any(|(low, high)| BESIDE_MM < high.min(to) - low.max(from)))
}

/// What of a stretch lies past the ends of a bend; metal that reaches a little into it leaves the bend its whole length.
fn past(bend: (f64, f64), (low, high): (f64, f64)) -> (f64, f64) {
    if high <= bend.0 + BESIDE_MM { (low, high.min(bend.0)) } else { (low.max(bend.1), high) }
}

/// How far a tool may reach at both ends of where it stands over the bend, and what is there.
pub(super) fn ends<'a>(
    taken: impl Iterator<Item = &'a Taken> + Clone,
    (from, to): (f64, f64),
) -> [Option<room::End>; 2] {
    let middle = 0.5 * (from + to);
    let end = |taken: &Taken, at_mm: f64| room::End { at_mm, face: taken.face, flat: taken.flat };
    let before =
        taken.clone().map(|taken| end(taken, taken.met.stretch_mm.1)).filter(|end| end.at_mm <= middle);
    let after = taken.map(|taken| end(taken, taken.met.stretch_mm.0)).filter(|end| middle < end.at_mm);
    [before.max_by(|a, b| a.at_mm.total_cmp(&b.at_mm)), after.min_by(|a, b| a.at_mm.total_cmp(&b.at_mm))]
}

/// What lies over the leaf and cannot hang past its end: the bend is made at one end of the leaf at the most.
pub(super) fn beside_the_leaf(on_leaf: &[Taken], bend: (f64, f64)) -> Option<Hindrance> {
    let before = |taken: &Taken| taken.met.stretch_mm.1 <= bend.0 + BESIDE_MM;
    let after = |taken: &Taken| bend.1 - BESIDE_MM <= taken.met.stretch_mm.0;
    let hangs = |taken: &[Taken]| taken.iter().all(before) || taken.iter().all(after);
    let given: Vec<Taken> = on_leaf.iter().copied().filter(|taken| taken.met.given).collect();
    let (worst, assumed) = match (hangs(on_leaf), hangs(&given)) {
        (true, _) => return None,
        (false, true) => (on_leaf, true),
        (false, false) => (&given[..], false),
    };
    let most = worst.iter().max_by(|a, b| {
        let within = |taken: &Taken| !before(taken) && !after(taken);
        within(a).cmp(&within(b))
    })?;
    let Taken { face, flat, .. } = *most;
    Some(Hindrance { assumed, flat, ..Hindrance::of(face, bodies::LEAF) })
}

/// The stretch in which metal on both sides shuts the punch in; `None` where it is open at one end.
pub(super) fn punch_is_shut_in(blocked: &[Taken], bend: (f64, f64)) -> Option<(f64, f64)> {
    let middle = 0.5 * (bend.0 + bend.1);
    let of_punch = || {
        let punch = blocked.iter().filter(|taken| bodies::is_punch(taken.met.body));
        punch.map(|taken| taken.met.stretch_mm)
    };
    let before = of_punch().map(|stretch| stretch.1).filter(|end| *end <= middle).max_by(f64::total_cmp)?;
    let after =
        of_punch().map(|stretch| stretch.0).filter(|start| middle <= *start).min_by(f64::total_cmp)?;
    Some((before, after))
}

/// The face that takes most of the bend's length from the tooling.
pub(super) fn most_in_the_way(blocked: &[&Taken], bend: (f64, f64)) -> Hindrance {
    let length = |(low, high): (f64, f64)| bend.1.min(high) - bend.0.max(low);
    let most = blocked.iter().max_by(|a, b| length(a.met.stretch_mm).total_cmp(&length(b.met.stretch_mm)));
    most.map_or(Hindrance::of(0, bodies::SECTIONS), |most| Hindrance {
        assumed: !most.met.given,
        flat: most.flat,
        ..Hindrance::of(most.face, most.met.body)
    })
}
