//! Where a piece of a roll good is divided: as few seams as the places allow, the farthest first, and so that its panels can
//! meet in the pattern.

use units::Length;

use super::coverings::JobCovering;

/// Divisions looked at for one that meets in the pattern.
const MOST_TRIES: u32 = 20_000;

/// A stretch of a piece's width in which a seam is needed and none is allowed.
pub(super) struct NoSeam {
    pub(super) from: Length,
    pub(super) to: Length,
}

/// Seams of a piece that is `width` wide, some of those `allowed`, which are in order. Where no division meets in the pattern the
/// first that there is comes back; laying it tells what is wrong with it.
pub(super) fn seams(
    width: Length,
    allowed: &[Length],
    covering: &JobCovering,
) -> Result<Vec<Length>, NoSeam> {
    let mut division = Division { width, allowed, covering, tries: MOST_TRIES };
    let fewest = division.fewest()?;
    if covering.repeat_across.is_none() {
        return Ok(fewest);
    }
    let in_pattern = (fewest.len()..=allowed.len()).find_map(|count| {
        let mut seams = Vec::new();
        division.meets(&mut seams, count).then_some(seams)
    });
    Ok(in_pattern.unwrap_or(fewest))
}

struct Division<'a> {
    width: Length,
    allowed: &'a [Length],
    covering: &'a JobCovering,
    tries: u32,
}

impl Division<'_> {
    /// Each seam as far from the one before as the roll is wide.
    fn fewest(&self) -> Result<Vec<Length>, NoSeam> {
        let mut seams = Vec::new();
        while !self.is_last(&seams) {
            let [begin, reach] = self.next(&seams);
            let next = self.allowed.iter().rfind(|seam| begin < **seam && **seam <= reach);
            seams.push(*next.ok_or(NoSeam { from: begin, to: reach.max(begin) })?);
        }
        Ok(seams)
    }

    /// Adds seams until there are `count` and the panels meet in the pattern; false where they cannot.
    fn meets(&mut self, seams: &mut Vec<Length>, count: usize) -> bool {
        if seams.len() == count {
            return self.is_last(seams) && self.meet_in_pattern(seams);
        }
        if self.tries == 0 {
            return false;
        }
        self.tries -= 1;
        let [begin, reach] = self.next(seams);
        let allowed = self.allowed;
        for &next in allowed.iter().rev().filter(|seam| begin < **seam && **seam <= reach) {
            seams.push(next);
            if self.meets(seams, count) {
                return true;
            }
            seams.pop();
        }
        false
    }

    /// The last seam, and how far from there the next one may be.
    fn next(&self, seams: &[Length]) -> [Length; 2] {
        let begin = seams.last().copied().unwrap_or(Length::ZERO);
        let over = self.covering.seam_allowance;
        let before = if seams.is_empty() { Length::ZERO } else { over };
        [begin, begin - before + self.covering.usable() - over]
    }

    /// Whether what is left beyond the seams goes on the roll.
    fn is_last(&self, seams: &[Length]) -> bool {
        let begin = seams.last().copied().unwrap_or(Length::ZERO);
        let before = if seams.is_empty() { Length::ZERO } else { self.covering.seam_allowance };
        self.width - begin + before <= self.covering.usable()
    }

    /// Whether the pattern may start somewhere under the piece so that all panels go on the roll. It may then also start where
    /// one of them lies at the roll's edge.
    fn meet_in_pattern(&self, seams: &[Length]) -> bool {
        let Some(repeat) = self.covering.repeat_across.map(Length::nanometres) else { return true };
        let over = self.covering.seam_allowance;
        let ends: Vec<Length> =
            std::iter::once(Length::ZERO).chain(seams.iter().copied()).chain([self.width]).collect();
        let panels: Vec<[i64; 2]> = (1..ends.len())
            .map(|number| {
                let begins = if number == 1 { Length::ZERO } else { ends[number - 1] - over };
                let to = if number == ends.len() - 1 { self.width } else { ends[number] + over };
                [begins.nanometres(), (to - begins).nanometres()]
            })
            .collect();
        let usable = self.covering.usable().nanometres();
        panels.iter().any(|[edge, _]| {
            panels.iter().all(|[begins, width]| (begins - edge).rem_euclid(repeat) + width <= usable)
        })
    }
}
