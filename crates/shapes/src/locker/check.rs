//! What can be wrong with a locker's sizes, and whether each blank packs and bends.

use units::Length;

use super::{Locker, LockerLid, Shaped, sheet};
use crate::{Fact, Making, Problem};

impl Locker {
    /// Every problem with the sizes as given.
    pub(super) fn check(&self, making: &Making) -> Result<(), Vec<Problem>> {
        let mut problems = Vec::new();
        let sizes = [
            ("length", self.length),
            ("widths[0]", self.widths[0]),
            ("widths[1]", self.widths[1]),
            ("heights[0]", self.heights[0]),
            ("heights[1]", self.heights[1]),
            ("front_flange", self.front_flange),
            ("rear_flange", self.rear_flange),
            ("bottom_flange", self.bottom_flange),
        ];
        for (field, size) in sizes {
            making.above_zero(field, size, &mut problems);
        }
        self.check_meeting(making, &mut problems);
        let optional = [
            ("frames_every", self.frames_every),
            ("backing_strip", self.backing_strip),
            ("longest_bend", self.longest_bend),
        ];
        for (field, size) in optional {
            if let Some(size) = size {
                making.above_zero(field, size, &mut problems);
            }
        }
        if problems.is_empty() {
            self.check_ends(making, &mut problems);
            self.check_flanges(making, &mut problems);
            self.check_splits(making, &mut problems);
            self.check_lids(making, &mut problems);
        }
        if problems.is_empty() {
            self.check_bends(making, &mut problems);
        }
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }

    fn check_ends(&self, making: &Making, problems: &mut Vec<Problem>) {
        let (thickness, radius) = sheet(making);
        for end in 0..2 {
            let least = radius + (radius - thickness).max(0.0);
            let [width, height] = self.end_mm(end, making);
            for (field, size, given) in
                [("widths", width, self.widths[end]), ("heights", height, self.heights[end])]
            {
                if size <= least {
                    let more = making.print_mm(given.millimetres() - size + least);
                    let field = format!("{field}[{end}]");
                    let remedy = format!("the least possible is above {more}");
                    problems.push(Problem::new(
                        field,
                        making.print(given),
                        "leaves nothing of the end plate",
                        remedy,
                    ));
                }
            }
        }
    }

    /// The top's front flange must not hang below the outside of the bottom, nor the bottom flange stand out past the
    /// ends' rear edges into the hull.
    fn check_flanges(&self, making: &Making, problems: &mut Vec<Problem>) {
        let (thickness, radius) = sheet(making);
        let least = |ends: [Length; 2]| ends[0].min(ends[1]).millimetres();
        // From the outside of the top: the front hangs below the bend of the top's flange.
        let overall = least(self.heights) + radius + thickness;
        // From the outside of the front: behind the top's front flange, and as wide along the end as across the front.
        let behind = (least(self.widths) / self.stretch()) - thickness;
        let named = [
            (
                "front_flange",
                self.front_flange,
                overall,
                "hangs below the bottom, which lies",
                "under the top",
            ),
            (
                "bottom_flange",
                self.bottom_flange,
                behind,
                "stands out past the rear edge, which lies",
                "behind the front",
            ),
        ];
        for (field, flange, most, wrong, from) in named {
            if flange.millimetres() > most + geometry::tolerance::SAME_POINT_MM {
                let most = making.print_mm(most.max(0.0));
                let wrong = format!("{wrong} {most} {from} at the locker's smaller end");
                let remedy = format!("make it {most} or less, or the locker larger");
                problems.push(Problem::new(field, making.print(flange), wrong, remedy));
            }
        }
    }

    fn check_splits(&self, making: &Making, problems: &mut Vec<Problem>) {
        let mut before = Length::ZERO;
        for (number, &split) in self.splits_at.iter().enumerate() {
            let field = format!("splits_at[{number}]");
            let value = making.print(split);
            if split <= before || self.length <= split {
                let wrong =
                    format!("must lie between {} and {}", making.print(before), making.print(self.length));
                problems.push(Problem::new(field, value, wrong, "give seams from aft forward"));
            } else if let Some(every) = self.frames_every {
                let steps = split.nanometres().div_euclid(every.nanometres());
                if split != every * steps {
                    let remedy = format!(
                        "the nearest frames are {} and {}",
                        making.print(every * steps),
                        making.print(every * (steps + 1))
                    );
                    problems.push(Problem::new(
                        field,
                        value,
                        "there is no frame here to carry the seam",
                        remedy,
                    ));
                }
            }
            before = before.max(split);
        }
    }

    fn check_lids(&self, making: &Making, problems: &mut Vec<Problem>) {
        for (number, lid) in self.lids.iter().enumerate() {
            let field = format!("lids[{number}]");
            for size in lid.size.iter().chain(lid.opening.iter().flatten()) {
                making.above_zero(&field, *size, problems);
            }
            let end = lid.at + lid.size[0];
            let bend = making.thickness_mm() + making.number.inside_radius().millimetres();
            let least_width =
                self.width_mm(lid.at.millimetres()).min(self.width_mm(end.millimetres())) - bend;
            let front = (lid.from_rear + lid.size[1]).millimetres();
            if lid.at < Length::ZERO || self.length < end {
                let last = self.length - lid.size[0];
                let remedy = if last < Length::ZERO {
                    format!("no place fits: the lid is {} longer than the top", making.print(-last))
                } else {
                    format!("it can begin at 0 to {}", making.print(last))
                };
                problems.push(Problem::new(
                    format!("{field}.at"),
                    making.print(lid.at),
                    "the lid lies beyond the top",
                    remedy,
                ));
            } else if lid.from_rear.millimetres() < bend || least_width < front {
                let most_mm = least_width - lid.size[1].millimetres();
                let remedy = if most_mm < bend {
                    format!(
                        "no place fits: the lid is {} too wide for the top",
                        making.print_mm(bend - most_mm)
                    )
                } else {
                    let most = making.print_mm(most_mm);
                    format!("it can stand {} to {most} from the rear edge", making.print_mm(bend))
                };
                problems.push(Problem::new(
                    format!("{field}.from_rear"),
                    making.print(lid.from_rear),
                    "the lid lies on a bend of the top",
                    remedy,
                ));
            }
            if lid.opening.is_some_and(|opening| lid.size[0] < opening[0] || lid.size[1] < opening[1]) {
                let remedy = format!("at most {} × {}", making.print(lid.size[0]), making.print(lid.size[1]));
                problems.push(Problem::new(
                    format!("{field}.opening"),
                    "as given",
                    "is larger than its lid",
                    remedy,
                ));
            }
            problems
                .extend(self.splits_at.iter().filter_map(|&seam| self.seam_under(lid, seam, &field, making)));
        }
    }

    /// A seam, with its strip, must not come under a lid.
    fn seam_under(&self, lid: &LockerLid, seam: Length, field: &str, making: &Making) -> Option<Problem> {
        let half =
            self.backing_strip.map_or(Length::ZERO, |strip| Length::from_nanometres(strip.nanometres() / 2));
        let (from, to) = (lid.at, lid.at + lid.size[0]);
        (from < seam + half && seam - half < to).then(|| {
            let wrong = format!("the seam at {} falls under the lid or its edge", making.print(seam));
            let (aft, forward) = (seam - half - lid.size[0], seam + half);
            let aft_words = format!("begin the lid at {} or further aft", making.print(aft));
            let forward_words = format!("at {} or further forward", making.print(forward));
            let remedy = match (Length::ZERO <= aft, forward + lid.size[0] <= self.length) {
                (true, true) => format!("{aft_words}, or {forward_words}"),
                (true, false) => aft_words,
                (false, true) => format!("begin the lid {forward_words}"),
                (false, false) => {
                    "the lid clears this seam nowhere: move the seam, or shorten the lid".to_owned()
                }
            };
            Problem::new(format!("{field}.at"), making.print(lid.at), wrong, remedy)
        })
    }

    /// Frames of one length of the top that cross the opening under a lid: all of the lid's own size where the shop cuts the
    /// opening when fitting.
    pub(super) fn frames_under_lids(&self, length: usize, making: &Making) -> Vec<Problem> {
        let [from, to] = self.reach_mm(length);
        let frames = self.frames_between(from, to);
        let crossed = |(number, lid): (usize, &LockerLid)| {
            let middle = lid.at.millimetres() + 0.5 * lid.size[0].millimetres();
            let half = 0.5 * lid.opening.map_or(lid.size[0], |[along, _]| along).millimetres();
            let [aft, forward] = [middle - half, middle + half];
            let within = frames.iter().filter(|(_, at)| aft < *at && *at < forward);
            let caution = |(frame, at): &(usize, f64)| {
                Problem::new(
                    format!("opening of lid {number}"),
                    format!("{} to {} from aft", making.print_mm(aft), making.print_mm(forward)),
                    format!("frame {frame} at {} crosses it", making.print_mm(*at)),
                    "move the lid, or ask whoever answers for the frames' strength before one is cut",
                )
            };
            within.map(caution).collect::<Vec<_>>()
        };
        (1..).zip(&self.lids).flat_map(crossed).collect()
    }

    fn check_bends(&self, making: &Making, problems: &mut Vec<Problem>) {
        let Some(longest) = self.longest_bend else { return };
        for length in 0..=self.splits_at.len() {
            let [from, to] = self.reach_mm(length);
            let bend = (to - from) * self.stretch();
            if longest.millimetres() + geometry::tolerance::SAME_POINT_MM < bend {
                let value = format!("{} to {}", making.print_mm(from), making.print_mm(to));
                let wrong = format!(
                    "its bend is {} long and the longest that can be made is {}",
                    making.print_mm(bend),
                    making.print(longest)
                );
                let reach = making.print_mm(from + longest.millimetres() / self.stretch());
                problems.push(Problem::new(
                    "splits_at",
                    value,
                    wrong,
                    format!("split it at {reach} or further aft"),
                ));
            }
        }
    }

    /// Whether the blank goes flat into the crate, as a fact or a problem.
    pub(super) fn check_blank(
        &self,
        shaped: &mut Shaped,
        pieces: usize,
        making: &Making,
    ) -> Result<(), Vec<Problem>> {
        let (Some(inside), Ok(flat)) = (self.crate_inside, shaped.unfold()) else { return Ok(()) };
        let (x, y) = flat.extents_mm();
        let [long, wide, deep] = inside.map(Length::millimetres);
        let words = format!("{} × {}", making.print_mm(x.max(y)), making.print_mm(x.min(y)));
        let room = format!("{} × {}", making.print(inside[0]), making.print(inside[1]));
        if long.max(wide) < x.max(y) || long.min(wide) < x.min(y) {
            let remedy = "split it into shorter lengths, or take a larger crate";
            let wrong = format!("does not lie flat in the crate, {room} inside");
            return Err(vec![Problem::new("crate_inside", words, wrong, remedy)]);
        }
        let count = u32::try_from(pieces).unwrap_or(u32::MAX);
        let stack = f64::from(count) * making.thickness_mm();
        if deep < stack {
            let wrong = format!("the {pieces} blanks of one locker lie {} high", making.print_mm(stack));
            let remedy = "take a deeper crate";
            return Err(vec![Problem::new("crate_inside", making.print(inside[2]), wrong, remedy)]);
        }
        let sentence = format!(
            "blank {words} lies flat in {room}; the {pieces} blanks of one locker lie {} high of {}",
            making.print_mm(stack),
            making.print(inside[2])
        );
        shaped.facts.push(Fact::words("fits the crate", sentence, "crate_inside"));
        Ok(())
    }
}
