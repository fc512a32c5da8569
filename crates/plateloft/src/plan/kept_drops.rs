//! Drops to be kept: what of them can be used, and what comes off with them.

use geometry::Point;
use job::Job;
use nest::Step;
use nest::rect::Axis;
use units::Length;

use super::nesting::CuttingOrder;
use super::straight_cuts;

/// A drop to be kept, lower left and upper right corners on its sheet, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct KeptDrop {
    /// The rectangle that can be used, by which it is judged worth keeping: off the edge trim, and off the parts by the gap.
    pub(crate) usable: [Point; 2],
    /// The rectangle between the cuts that free it and the edges of the sheet: all metal of the sheet in it comes off.
    pub(crate) between: [Point; 2],
    /// The rectangle that comes off, with the trim and what else lies around; as large as the other where the drop is cut
    /// out along its own lines. None where the edges of an offcut make it no rectangle.
    pub(crate) whole: Option<[Point; 2]>,
}

impl KeptDrop {
    /// Length and height of what can be used, mm.
    pub(crate) fn usable_mm(&self) -> [f64; 2] {
        size(self.usable)
    }

    /// Length and height of what comes off, where that is more, mm.
    pub(crate) fn more_mm(&self) -> Option<[f64; 2]> {
        let play = geometry::tolerance::SCRIBED_LINE_MM;
        let (whole, usable) = (size(self.whole?), self.usable_mm());
        (0..2).any(|side| usable[side] + play < whole[side]).then_some(whole)
    }
}

fn size([low, high]: [Point; 2]) -> [f64; 2] {
    [high.x - low.x, high.y - low.y]
}

/// The drops of a sheet of this size as its order of cuts leaves them. Those that a straight cut frees come off with all
/// that lies between the cuts next to them; a saw leaves the metal beside its own width.
pub(super) fn kept(
    job: &Job,
    order: &CuttingOrder,
    (sheet_mm, is_offcut): ([f64; 2], bool),
    usable: &[[Point; 2]],
) -> Vec<KeptDrop> {
    let steps = match order {
        CuttingOrder::ByHand(steps) => steps.as_slice(),
        CuttingOrder::Sheared(_) => &[],
    };
    let is_freed = |number: usize| {
        steps.iter().any(|step| matches!(step, Step::Across { frees, .. } if frees.contains(&Some(number))))
    };
    let lines = straight_cuts::lines(job, steps);
    let of = |(number, &usable): (usize, &[Point; 2])| {
        let is_freed = is_freed(number);
        let between = if is_freed { between(&lines, sheet_mm, usable) } else { usable };
        KeptDrop { usable, between, whole: (!is_freed || !is_offcut).then_some(between) }
    };
    usable.iter().enumerate().map(of).collect()
}

/// The rectangle of a sheet that holds a place once these steps are done: between the nearest straight cuts and the edges of
/// the sheet.
pub(crate) fn in_hand(job: &Job, steps: &[Step], sheet_mm: [f64; 2], place: [Point; 2]) -> [Point; 2] {
    between(&straight_cuts::lines(job, steps), sheet_mm, place)
}

/// The rectangle around a drop that the nearest cuts on every side and the edges of the sheet leave.
fn between(lines: &[(Axis, [Point; 2])], sheet_mm: [f64; 2], [low, high]: [Point; 2]) -> [Point; 2] {
    let play = geometry::tolerance::SCRIBED_LINE_MM;
    let along = |axis: Axis, at: Point| if axis == Axis::X { at.x } else { at.y };
    let side = |axis: Axis| {
        let other = if axis == Axis::X { Axis::Y } else { Axis::X };
        let beside = lines.iter().filter(|(of, [from, to])| {
            *of == axis
                && along(other, *from) + play < along(other, high)
                && along(other, low) + play < along(other, *to)
        });
        let mut ends = [0.0, sheet_mm[axis as usize]];
        for (_, [from, to]) in beside {
            if along(axis, *to) <= along(axis, low) + play {
                ends[0] = f64::max(ends[0], along(axis, *to));
            }
            if along(axis, high) <= along(axis, *from) + play {
                ends[1] = f64::min(ends[1], along(axis, *from));
            }
        }
        ends
    };
    let [x, y] = [side(Axis::X), side(Axis::Y)];
    [Point::new(x[0], y[0]), Point::new(x[1], y[1])]
}

/// Both sizes of a drop: "49 15/16 × 60 whole, 49 1/2 × 59 usable", or "24 × 36" where they are the same.
pub(crate) fn drop_words(job: &Job, drop: &KeptDrop) -> String {
    let print = |size: [f64; 2]| size.map(|mm| Length::from_millimetres(mm).print(job.style)).join(" × ");
    let usable = print(drop.usable_mm());
    match (drop.whole, drop.more_mm()) {
        (None, _) => format!("{usable} usable, with the offcut's own edges round it"),
        (Some(_), Some(whole)) => format!("{} whole, {usable} usable", print(whole)),
        (Some(_), None) => usable,
    }
}
