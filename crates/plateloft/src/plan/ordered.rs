//! What is ordered for a choice of sheets, and for the bars.

use estimate::OrderLine;
use job::{Job, JobSheet, JobStick};
use units::Length;

use super::bars::CutBar;
use super::stock_shape::sheet_words;

/// The sheets to buy of one metal, a line for each size. Pieces of the rack are the shop's already.
pub(crate) fn sheet_lines(job: &Job, metal: usize, sizes: &[JobSheet], counts: &[u32]) -> Vec<OrderLine> {
    let name = &job.metals[metal].metal.name;
    let used = sizes.iter().zip(counts).filter(|(size, count)| 0 < **count && size.from_rack.is_none());
    used.map(|(size, &quantity)| OrderLine {
        what: format!("{name} {}", sheet_words(size, job.style)),
        quantity,
        length: size.length.max(size.width),
        cuts: size.supplier_cuts,
        price: size.price,
        priced_in: "\"price\" under \"sheets\"",
    })
    .collect()
}

/// The sticks to buy of all bars. Freight for long sheets does not count them: bar goes by its own terms.
pub(crate) fn stick_lines(job: &Job, bars: &[CutBar]) -> Vec<OrderLine> {
    bars.iter().flat_map(|cut| sticks_of(job, cut)).collect()
}

fn sticks_of(job: &Job, cut: &CutBar) -> Vec<OrderLine> {
    let bar = &job.bars[cut.bar];
    let bought = bar.sticks.iter().enumerate().filter(|(_, stick)| !stick.on_rack);
    let line = |(number, stick): (usize, &JobStick)| OrderLine {
        what: format!("{} {}", bar.name, stick.length.print(job.style)),
        quantity: cut.bought(number),
        length: Length::ZERO,
        cuts: 0,
        price: stick.price,
        priced_in: "\"price\" of that stick under \"bars\"",
    };
    bought.map(line).filter(|line| 0 < line.quantity).collect()
}
