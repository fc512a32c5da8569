//! Tooling in sections: how much of the bend is clear for it, and which sections fill that.

/// A choice of sections for one stroke.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Tooling {
    /// Widths of the sections, widest first; empty when the shop has them in any length.
    pub(super) sections_mm: Vec<f64>,
    /// From where to where along the bend they may stand.
    pub(super) clear_mm: (f64, f64),
    /// Their length in all.
    pub(super) length_mm: f64,
    /// How far the punch, or fingers, may reach at both ends; `None` where nothing is in the way.
    pub(super) punch: [Option<End>; 2],
    /// The same of the die.
    pub(super) die: [Option<End>; 2],
}

/// Metal that a tool must end before.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct End {
    /// Where along the bend it begins, mm.
    pub(super) at_mm: f64,
    /// The face.
    pub(super) face: usize,
    /// It lies in the plane of the sheet, and would be creased.
    pub(super) flat: bool,
}

impl Tooling {
    /// True where metal on both sides leaves room for no more.
    pub(super) const fn is_confined(&self) -> bool {
        self.clear_mm.0.is_finite() && self.clear_mm.1.is_finite()
    }

    /// Where it stands over a bend from `from` to `to`: as far as the room goes.
    pub(super) const fn over(&self, (from, to): (f64, f64)) -> (f64, f64) {
        (self.clear_mm.0.max(from), self.clear_mm.1.min(to))
    }

    /// True where some of it, over the bend, stands in a stretch along it.
    pub(super) fn stands_in(&self, (low, high): (f64, f64), bend: (f64, f64)) -> bool {
        let (from, to) = self.over(bend);
        let slack = geometry::tolerance::REFOLD_MM;
        low < to - slack && from + slack < high
    }

    /// How much shorter than a bend from `from` to `to` it is, mm; zero where it is not.
    pub(super) fn short_of_mm(&self, (from, to): (f64, f64)) -> f64 {
        (to - from - self.length_mm).max(0.0)
    }
}

/// The tooling for a bend from `bend.0` to `bend.1` between `blocked` stretches; `None` when it falls short of the
/// bend by more than `short_by_mm`. `sections` are those the shop has, `None` for any length.
pub(super) fn tooling(
    bend: (f64, f64),
    blocked: &[(f64, f64)],
    sections: Option<&Sections>,
    short_by_mm: f64,
) -> Option<Tooling> {
    let clear_mm = clear_stretch(bend, blocked)?;
    let covered = |length: f64| length.min(bend.1.min(clear_mm.1) - bend.0.max(clear_mm.0));
    let (sections_mm, length_mm) = match sections {
        None => (Vec::new(), covered(f64::INFINITY)),
        Some(own) => {
            let sections = own.fill(bend.1 - bend.0, clear_mm.1 - clear_mm.0)?;
            let length = sections.iter().sum();
            (sections, length)
        }
    };
    let short = bend.1 - bend.0 - covered(length_mm);
    (short <= short_by_mm).then_some(Tooling {
        sections_mm,
        clear_mm,
        length_mm,
        punch: [None; 2],
        die: [None; 2],
    })
}

/// The stretch free of everything blocked that covers most of the bend; it may run on past the bend.
fn clear_stretch(bend: (f64, f64), blocked: &[(f64, f64)]) -> Option<(f64, f64)> {
    let mut sorted = blocked.to_vec();
    sorted.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    sorted.push((f64::INFINITY, f64::INFINITY));
    let mut from = f64::NEG_INFINITY;
    let mut best: Option<((f64, f64), f64)> = None;
    for (start, end) in sorted {
        let covered = bend.1.min(start) - bend.0.max(from);
        if covered > 0.0 && best.is_none_or(|(_, most)| covered > most) {
            best = Some(((from, start), covered));
        }
        from = from.max(end);
    }
    best.map(|(stretch, _)| stretch)
}

/// Steps to the millimetre in which widths are summed: a tenth.
const STEPS_PER_MM: f64 = 10.0;

/// The sections that a shop has, and every length that some of them add up to.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Sections {
    own_mm: Vec<f64>,
    /// For each sum in steps the section by which it was first reached, taking them widest first.
    reached: Vec<Option<usize>>,
    /// The sums that can be reached, ascending, in steps.
    sums: Vec<usize>,
}

impl Sections {
    /// All sums of these widths, in tenths of a millimetre, each width rounded up.
    pub(super) fn of(mut own_mm: Vec<f64>) -> Self {
        own_mm.sort_by(|a, b| b.total_cmp(a));
        let most = own_mm.iter().map(|width| steps_up(*width)).sum::<usize>();
        let mut reached: Vec<Option<usize>> = vec![None; most + 1];
        for (number, width) in own_mm.iter().map(|width| steps_up(*width)).enumerate() {
            for sum in (width..=most).rev() {
                let before = sum - width;
                if reached[sum].is_none() && (before == 0 || reached[before].is_some()) {
                    reached[sum] = Some(number);
                }
            }
        }
        let sums = (1..=most).filter(|&sum| reached[sum].is_some()).collect();
        Self { own_mm, reached, sums }
    }

    /// The sections whose widths add up to the least sum of `bend_mm` or more that `room_mm` takes; else to the largest
    /// sum that it takes.
    fn fill(&self, bend_mm: f64, room_mm: f64) -> Option<Vec<f64>> {
        let fitting = self.sums.partition_point(|&sum| steps_mm(sum) <= room_mm);
        let enough = self.sums.partition_point(|&sum| steps_mm(sum) < bend_mm);
        let chosen = if enough < fitting { enough } else { fitting.checked_sub(1)? };
        let mut sum = self.sums[chosen];
        let mut sections = Vec::new();
        while sum > 0 {
            let section = self.reached[sum]?;
            sections.push(self.own_mm[section]);
            sum -= steps_up(self.own_mm[section]);
        }
        sections.sort_by(|a, b| b.total_cmp(a));
        Some(sections)
    }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "widths lie between nothing and a machine's length"
)]
fn steps_up(mm: f64) -> usize {
    (mm * STEPS_PER_MM - geometry::tolerance::SAME_POINT_MM).ceil().max(1.0) as usize
}

#[expect(
    clippy::cast_precision_loss,
    reason = "a machine's length in tenths of a millimetre is a small number"
)]
fn steps_mm(steps: usize) -> f64 {
    steps as f64 / STEPS_PER_MM
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fingers_are_combined_to_fit_between_the_sides() {
        let fill = |own: &[f64], bend, room| Sections::of(own.to_vec()).fill(bend, room);
        let chosen = fill(&[25.0, 50.0, 75.0, 100.0, 125.0, 150.0], 300.0, 305.0).unwrap();
        assert!((chosen.iter().sum::<f64>() - 300.0).abs() < 1e-9, "{chosen:?}");
        assert_eq!(fill(&[100.0], 300.0, 50.0), None);
        assert_eq!(fill(&[100.0, 100.0], 300.0, 305.0), Some(vec![100.0, 100.0]));
    }

    #[test]
    fn every_section_is_used_once() {
        let own = Sections::of(vec![30.0, 20.0]);
        assert_eq!(own.fill(60.0, 100.0), Some(vec![30.0, 20.0]));
    }

    #[test]
    fn sides_leave_a_clear_stretch() {
        let blocked = [(-10.0, 2.0), (298.0, 310.0)];
        assert_eq!(clear_stretch((0.0, 300.0), &blocked), Some((2.0, 298.0)));
        assert!(tooling((0.0, 300.0), &blocked, None, 5.0).is_some());
        assert!(tooling((0.0, 300.0), &blocked, None, 3.0).is_none());
        assert!(tooling((0.0, 300.0), &[(-1.0, 301.0)], None, 5.0).is_none());
        let one_bar = Sections::of(vec![2000.0]);
        assert!(tooling((0.0, 300.0), &blocked, Some(&one_bar), 25.0).is_none());
        assert!(tooling((0.0, 300.0), &[(298.0, 310.0)], Some(&one_bar), 5.0).is_some(), "flush at one end");
    }
}
