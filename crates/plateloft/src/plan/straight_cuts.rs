//! The straight cuts of an order of cuts as they lie on the sheet.

use geometry::Point;
use job::Job;
use nest::Step;
use nest::rect::{Axis, Cut};
use units::Length;

use super::grid::length_of;
use super::nesting::CuttingOrder;

/// What the saw takes in every straight cut: rectangles as wide as the kerf, lower left and upper right corner. Outlines
/// are not among them.
pub(super) fn kerfs(job: &Job, order: &CuttingOrder) -> Vec<[Point; 2]> {
    if job.shop.kerf == Length::ZERO {
        return Vec::new();
    }
    match order {
        CuttingOrder::ByHand(steps) => lines(job, steps).into_iter().map(|(_, strip)| strip).collect(),
        CuttingOrder::Sheared(cuts) => cuts.iter().map(|cut| sheared(job, cut)).collect(),
    }
}

/// Every straight cut by hand: what it runs across, and what the saw takes, which is a line where the kerf is nothing.
pub(super) fn lines(job: &Job, steps: &[Step]) -> Vec<(Axis, [Point; 2])> {
    steps.iter().filter_map(|step| by_hand(job, step)).collect()
}

fn by_hand(job: &Job, step: &Step) -> Option<(Axis, [Point; 2])> {
    let Step::Across { axis, within, from, to, .. } = *step else { return None };
    let line = on_the_tape(job, within.map(length_of)).millimetres();
    let half = 0.5 * job.shop.kerf.millimetres();
    Some((axis, strip(axis, [line - half, line + half], [from, to].map(length_of))))
}

/// The shear's own numbers begin behind the edge trim; the edge at the line stays.
fn sheared(job: &Job, cut: &Cut) -> [Point; 2] {
    let [line, from, to] = [cut.at, cut.from, cut.to].map(|at| length_of(at) + job.shop.edge_trim);
    let (line, kerf) = (line.millimetres(), job.shop.kerf.millimetres());
    let taken = if cut.waste_beyond { [line, line + kerf] } else { [line - kerf, line] };
    strip(cut.axis, taken, [from, to])
}

fn strip(axis: Axis, [low, high]: [f64; 2], ends: [Length; 2]) -> [Point; 2] {
    let [from, to] = ends.map(Length::millimetres);
    match axis {
        Axis::X => [Point::new(low, from), Point::new(high, to)],
        Axis::Y => [Point::new(from, low), Point::new(to, high)],
    }
}

/// The middle of a strip, or the tape's mark next to it where the cut still has its room there.
pub(crate) fn on_the_tape(job: &Job, [near, far]: [Length; 2]) -> Length {
    let half = |length: Length| Length::from_nanometres(length.nanometres() / 2);
    let middle = near + half(far - near);
    let mark = nearest_mark(job, middle);
    let half = half(job.shop.kerf);
    if near + half <= mark && mark + half <= far { mark } else { middle }
}

/// The tape's mark next to a length.
pub(crate) fn nearest_mark(job: &Job, length: Length) -> Length {
    let tape = job.tape.nanometres().max(1);
    Length::from_nanometres((length.nanometres() + tape / 2).div_euclid(tape) * tape)
}
