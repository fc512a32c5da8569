//! `plateloft buy`: which sheets to buy, and what the order costs.

use std::path::PathBuf;

use clap::Args;
use estimate::{GoodsOrder, OrderLine, PrintedMass, purchase, worths};
use job::Rate;
use paper::lists::buying::BuyingOutcome;
use paper::lists::cut_or_whole::CutOrWhole;
use paper::lists::passages::wrapped;
use paper::lists::{ListUnits, buying, money_words};
use paper::scrap_report;
use serde_json::{Value, json};
use units::{Area, Length, Money};

use super::{RackFirst, StripLog, plan_with_rack};
use crate::costing::{
    GoodsLine, STICKS_WITH_SHEETS, choice_notes, choices, goods_lines, goods_order, lines_of, order_lines,
    rack_pieces, rack_weights,
};
use crate::output;
use crate::plan::{self, Others, Plan};
use crate::speech::{Refusal, say, say_json};

/// Shows for every metal what each size of sheet and the best mix would come to, and the whole order as a sum with the
/// terms under "buying". Terms that are not set are asked for.
#[derive(Debug, Args)]
pub(crate) struct Buy {
    /// The job file
    job: PathBuf,
    #[command(flatten)]
    log: StripLog,
    #[command(flatten)]
    first: RackFirst,
    /// Print it as JSON
    #[arg(long)]
    json: bool,
}

impl Buy {
    /// Runs the command.
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        let (plan, told) = plan_with_rack(&self.job, &self.log, &self.first)?;
        if self.json {
            say_json(&buy_json(&plan, &told)?);
        } else {
            say(buy_text(&plan, &told)?.trim_end());
        }
        Ok(())
    }
}

/// How the choices are to be read.
const CHOSEN: [&str; 4] = [
    "\"all\" in the tables is what that metal would cost as an order of its own; the order above has all metals in one.",
    "\"buy\", or \"take\" where it is all of the rack, stands on the choices of the tables with which that one order comes to \
     least; terms that are not set count as nothing there.",
    "Of choices with which the order comes to the same, those with pieces of the rack go first, then the one that leaves the \
     larger drop to keep.",
    "What is proved of a mix is the price of its sheets alone, or where not every size has a price their area; cuts, freight, delivery and tax are in no proof.",
];

fn buy_text(plan: &Plan, told: &[String]) -> Result<String, Refusal> {
    let job = &plan.flats.job;
    let units = ListUnits::of(job.style);
    let mut blocks = Vec::new();
    for nest in &plan.nests {
        let metal = output::named_metal_words(job, &job.metals[nest.metal]);
        blocks.push(buying::text(&metal, &choices(plan, nest)?, units));
        blocks.extend(choice_notes(plan, nest).into_iter().map(|note| in_text(&note)));
    }
    match &job.buying.cut_to_size {
        Rate::Unset => {}
        Rate::Set(terms) => blocks.extend(plan.nests.iter().map(|nest| cut_or_whole(plan, nest, terms))),
        missing @ Rate::Missing(_) => {
            let ask = "Whole sheets or cut to size: what does the supplier ask for rectangles cut to size?";
            blocks.extend(missing.question(ask, "cut_to_size", "buying").map(|question| in_text(&question)));
        }
    }
    let order = order_lines(plan, &plan::cut_bars(&plan.flats)?);
    let lines: Vec<_> = order.iter().map(|line| (line.what.clone(), line.quantity, line.price)).collect();
    let rack = rack_pieces(plan, told);
    if !rack.is_empty() {
        blocks.push(format!("{}\n", rack.join("\n")));
    }
    blocks.push(buying::order(&lines, &purchase(&job.buying.terms, &order), job.currency.as_deref()));
    if !job.bars.is_empty() {
        blocks.push(in_text(STICKS_WITH_SHEETS));
    }
    let others = Others::of(&plan.flats.file, job)?;
    let goods = goods_lines(job, &others);
    if !goods.is_empty() {
        blocks.push(buying::goods_order(
            &goods_rows(&goods),
            &goods_order(job, &goods),
            job.currency.as_deref(),
        ));
        let told = output::coverings_to_buy(job, &others).into_iter();
        blocks.push(told.map(|(what, how)| in_text(&format!("{what}: {how}"))).collect());
    }
    let chosen = if plan.nests.is_empty() { String::new() } else { CHOSEN.map(in_text).concat() };
    blocks.push(chosen + &in_text(&money_words(job.currency.as_deref())));
    Ok(blocks.join("\n"))
}

/// A sentence broken to the line.
fn in_text(sentence: &str) -> String {
    format!("{}\n", wrapped(sentence))
}

/// What it is, how much of it, and what it comes to.
fn goods_rows(goods: &[GoodsLine]) -> Vec<(String, Option<Money>)> {
    goods.iter().map(|line| (format!("{}: {}", line.name, line.how), line.money)).collect()
}

/// Whole sheets against rectangles cut to size, for one metal.
fn cut_or_whole(plan: &Plan, nest: &plan::MetalNest, terms: &estimate::CutToSize) -> String {
    let job = &plan.flats.job;
    let units = ListUnits::of(job.style);
    let metal = &job.metals[nest.metal];
    let blanks = cut_blanks(plan, nest.metal, terms);
    let name = &metal.metal.name;
    let totals = plan.report.metals.iter().find(|total| total.metal == *name);
    let drops = plan.report.sheets.iter().zip(scrap_report::kept_drops(&plan.report, units));
    let drops = drops.filter(|(sheet, drop)| sheet.metal == *name && drop.hundredths != 0);
    let kept: Vec<PrintedMass> = drops.map(|(_, drop)| drop).collect();
    let worth_of = |weights: &[PrintedMass]| {
        job.buying.drop_value.set().map(|rate| worths(weights, *rate).into_iter().sum())
    };
    let rack: Vec<PrintedMass> = rack_weights(plan, |sheet| sheet.metal == *name);
    let words = |weights: &[PrintedMass]| match weights {
        [] => String::new(),
        weights => scrap_report::sum_words(weights, units),
    };
    let whole = purchase(&job.buying.terms, &lines_of(plan, nest, nest.comparison.best));
    let pieces = purchase(&job.buying.terms, &blanks.iter().map(blank_line).collect::<Vec<_>>());
    let comparison = CutOrWhole {
        blanks: &blanks,
        terms,
        drop_rate: job.buying.drop_value.set().copied(),
        sheets: totals.and_then(|total| total.breakdown.whole.money),
        kept: words(&kept),
        drops: worth_of(&kept),
        rack: words(&rack),
        rack_worth: worth_of(&rack),
        orders: [whole.total, pieces.total],
    };
    comparison.text(&output::named_metal_words(job, metal), units)
}

/// The rectangles of one mark as a line of an order; their cuts are in the price.
fn blank_line(blank: &estimate::CutBlank) -> OrderLine {
    OrderLine {
        what: blank.mark.clone(),
        quantity: 1,
        length: blank.size[0].max(blank.size[1]),
        cuts: 0,
        price: Some(blank.metal + blank.cuts),
        priced_in: "\"cut_to_size\" under \"buying\"",
    }
}

fn cut_blanks(plan: &Plan, metal: usize, terms: &estimate::CutToSize) -> Vec<estimate::CutBlank> {
    let parts = plan.flats.parts.iter().filter(|part| part.part.metal == metal);
    let blank = |part: &plan::PlannedPart| {
        let (length, width) = part.flat.extents_mm();
        let blank = estimate::Blank {
            mark: part.part.mark.clone(),
            size: [length, width].map(Length::from_millimetres),
            quantity: part.part.quantity,
            weight_per_area: plan.flats.job.metals[metal].metal.weight_per_area,
        };
        terms.price(&blank, ListUnits::of(plan.flats.job.style).mass)
    };
    parts.map(blank).collect()
}

fn buy_json(plan: &Plan, told: &[String]) -> Result<Value, Refusal> {
    let job = &plan.flats.job;
    let cents = |money: Option<Money>| money.map(Money::cents);
    let purchase_json = |bought: &estimate::Purchase| {
        json!({
            "lines": bought.lines.iter().map(|money| cents(*money)).collect::<Vec<_>>(),
            "goods": cents(bought.goods),
            "up_to_minimum": cents(bought.up_to_minimum),
            "cuts": cents(bought.cuts),
            "over_length": cents(bought.over_length),
            "delivery": cents(bought.delivery),
            "tax": cents(bought.tax),
            "total": cents(bought.total),
            "questions": bought.questions.iter().map(ToString::to_string).collect::<Vec<_>>(),
        })
    };
    let mut metals = Vec::new();
    for nest in &plan.nests {
        let rows: Vec<Value> = choices(plan, nest)?
            .iter()
            .map(|choice| match &choice.outcome {
                Ok(outcome) => json!({
                    "sheets_of": choice.name,
                    "chosen": choice.chosen,
                    "sheets": outcome.sheets,
                    "least_sheets": outcome.least_sheets,
                    "least_sheets_proved_by": outcome.reason,
                    "exact_areas": exact_areas(outcome),
                    "cents": purchase_json(&outcome.purchase),
                }),
                Err(why) => json!({ "sheets_of": choice.name, "chosen": false, "none": why }),
            })
            .collect();
        metals.push(json!({ "metal": job.metals[nest.metal].metal.name, "choices": rows }));
    }
    let order = order_lines(plan, &plan::cut_bars(&plan.flats)?);
    let lines: Vec<Value> = order
        .iter()
        .map(|line| json!({ "what": line.what, "quantity": line.quantity, "each_cents": cents(line.price) }))
        .collect();
    let all = purchase(&job.buying.terms, &order);
    let others = Others::of(&plan.flats.file, job)?;
    let goods = goods_order(job, &goods_lines(job, &others));
    let others = output::coverings_json(job, &others);
    Ok(json!({
        "plateloft": 1,
        "job": job.name,
        "units": { "money": "cent", "exact_area": "nm2" },
        "metals": metals,
        "rack": told,
        "order": lines,
        "order_cents": purchase_json(&all),
        "coverings": others["coverings"],
        "liners": others["liners"],
        "coverings_cents": goods_json(&goods),
    }))
}

fn goods_json(order: &GoodsOrder) -> Value {
    let cents = |money: Option<Money>| money.map(Money::cents);
    json!({
        "goods": cents(order.goods),
        "up_to_minimum": cents(order.up_to_minimum),
        "delivery": cents(order.delivery),
        "tax": cents(order.tax),
        "total": cents(order.total),
        "questions": order.questions,
    })
}

/// Bought and of the rack come to the same as all the others.
fn exact_areas(outcome: &BuyingOutcome) -> Value {
    let text = |area: Area| area.square_nanometres().to_string();
    let area = |amount: estimate::Amount| text(amount.area);
    let breakdown = &outcome.report.total;
    let from_rack: Area = outcome.from_rack.iter().copied().sum();
    json!({
        "bought": text(breakdown.whole.area - from_rack),
        "from_rack": text(from_rack),
        "parts": area(breakdown.parts),
        "kept_drops": area(breakdown.kept_drops),
        "kerf": area(breakdown.kerf),
        "edge_trim": area(breakdown.edge_trim),
        "scrap": area(breakdown.scrap),
    })
}
