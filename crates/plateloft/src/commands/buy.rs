//! `plateloft buy`: which sheets to buy, and what the order costs.

use std::path::PathBuf;

use clap::Args;
use estimate::purchase;
use paper::lists::cut_or_whole::CutOrWhole;
use paper::lists::{ListUnits, buying};
use serde_json::{Value, json};
use units::{Length, Money};

use super::{RackFirst, StripLog, plan_with_rack};
use crate::costing::{choices, order_lines, rack_pieces};
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

fn buy_text(plan: &Plan, told: &[String]) -> Result<String, Refusal> {
    let job = &plan.flats.job;
    let units = ListUnits::of(job.style);
    let mut blocks = Vec::new();
    for nest in &plan.nests {
        let metal = output::named_metal_words(job, &job.metals[nest.metal]);
        blocks.push(buying::text(&metal, &choices(plan, nest)?, units));
    }
    if let Some(terms) = &job.buying.cut_to_size {
        blocks.extend(plan.nests.iter().map(|nest| cut_or_whole(plan, nest, terms)));
    }
    let order = order_lines(plan, &plan::cut_bars(&plan.flats)?);
    let lines: Vec<_> = order.iter().map(|line| (line.what.clone(), line.quantity, line.price)).collect();
    let rack = rack_pieces(plan, told);
    if !rack.is_empty() {
        blocks.push(format!("{}\n", rack.join("\n")));
    }
    blocks.push(buying::order(&lines, &purchase(&job.buying.terms, &order)));
    let others = output::coverings_to_buy(job, &Others::of(&plan.flats.file, job)?);
    if !others.is_empty() {
        let lines: Vec<String> = others.iter().map(|(what, how)| format!("  {what}: {how}\n")).collect();
        blocks.push(format!("Coverings and liners, an order of their own:\n{}", lines.concat()));
    }
    blocks.push(
        "\"all\" in the tables is what that metal would cost as an order of its own; the order above has all metals in one."
            .to_owned(),
    );
    Ok(blocks.join("\n"))
}

/// Whole sheets against rectangles cut to size, for one metal.
fn cut_or_whole(plan: &Plan, nest: &plan::MetalNest, terms: &estimate::CutToSize) -> String {
    let job = &plan.flats.job;
    let units = ListUnits::of(job.style);
    let metal = &job.metals[nest.metal];
    let blanks = cut_blanks(plan, nest.metal, terms);
    let name = &metal.metal.name;
    let totals = plan.report.metals.iter().find(|total| total.metal == *name);
    let kept = totals.map_or(units::Mass::ZERO, |total| total.breakdown.kept_drops.mass);
    let worth = job.buying.drop_value.map(|rate| {
        let worths = estimate::drop_values(&plan.report, rate);
        let of_metal = plan.report.sheets.iter().zip(worths).filter(|(sheet, _)| sheet.metal == *name);
        of_metal.map(|(_, worth)| worth).sum()
    });
    let comparison = CutOrWhole {
        blanks: &blanks,
        sheets: totals.and_then(|total| total.breakdown.bought.money),
        kept: if kept == units::Mass::ZERO { String::new() } else { kept.print_with_unit(units.mass, 2) },
        drops: worth,
    };
    comparison.text(&output::named_metal_words(job, metal), units)
}

fn cut_blanks(plan: &Plan, metal: usize, terms: &estimate::CutToSize) -> Vec<estimate::CutBlank> {
    let parts = plan.flats.parts.iter().filter(|part| part.part.metal == metal);
    let blank = |part: &plan::PlannedPart| {
        let (length, width) = part.flat.extents_mm();
        terms.price(&estimate::Blank {
            mark: part.part.mark.clone(),
            size: [length, width].map(Length::from_millimetres),
            quantity: part.part.quantity,
            weight_per_area: plan.flats.job.metals[metal].metal.weight_per_area,
        })
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
                    "least_proved_by": outcome.reason,
                    "exact_areas": exact_areas(&outcome.report.total),
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
    let others = output::coverings_json(job, &Others::of(&plan.flats.file, job)?);
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
    }))
}

fn exact_areas(breakdown: &estimate::Breakdown) -> Value {
    let area = |amount: estimate::Amount| amount.area.square_nanometres().to_string();
    json!({
        "bought": area(breakdown.bought),
        "parts": area(breakdown.parts),
        "kept_drops": area(breakdown.kept_drops),
        "kerf": area(breakdown.kerf),
        "edge_trim": area(breakdown.edge_trim),
        "scrap": area(breakdown.scrap),
    })
}
