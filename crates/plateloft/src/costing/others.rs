//! What coverings and wear liner cost: lines with their prices, and the order that they make.

use estimate::GoodsOrder;
use job::Job;
use units::Money;

use crate::plan::Others;
use crate::speech::counted;

/// A roll good or a liner as it is bought.
#[derive(Debug, Clone)]
pub(crate) struct GoodsLine {
    /// What it is.
    pub(crate) name: String,
    /// How much of it.
    pub(crate) how: String,
    /// What it comes to.
    pub(crate) money: Option<Money>,
    /// What is asked where it has no price.
    pub(crate) question: String,
}

/// A line for every roll good, then for every liner.
pub(crate) fn goods_lines(job: &Job, others: &Others) -> Vec<GoodsLine> {
    let rolls = others.coverings.iter().map(|laid| {
        let covering = &job.coverings[laid.covering];
        let name = covering.name.clone();
        GoodsLine {
            how: format!("{} of {} wide", laid.length().print(job.style), covering.width.print(job.style)),
            money: laid.price(job),
            question: format!(
                "What does {name} cost? \"price\" and \"price_for\" under \"coverings\" are not set."
            ),
            name,
        }
    });
    let sheets = others.liners.iter().map(|cut| {
        let name = job.liners[cut.liner].name.clone();
        GoodsLine {
            how: counted(cut.packing.sheets.len(), "sheet"),
            money: cut.price(job),
            question: format!("What does one sheet of {name} cost? \"price\" under \"liners\" is not set."),
            name,
        }
    });
    rolls.chain(sheets).collect()
}

/// Their order by the terms of who sells them.
pub(crate) fn goods_order(job: &Job, lines: &[GoodsLine]) -> GoodsOrder {
    let money: Vec<Option<Money>> = lines.iter().map(|line| line.money).collect();
    job.buying.coverings.order(&money)
}
