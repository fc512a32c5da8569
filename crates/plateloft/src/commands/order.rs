//! `plateloft order`: the text for the supplier.

use std::path::PathBuf;

use clap::Args;
use job::Job;
use paper::lists::ListUnits;
use paper::lists::order::{Check, OrderPaper, SupplyLine, text};
use serde_json::{Value, json};

use super::{RackFirst, StripLog, plan_with_rack};
use crate::costing::{
    MEASURING_OTHERS, Order as Ordered, covering_lines, liner_lines, measuring, packing, rack_pieces,
};
use crate::output::Numbers;
use crate::plan::{self, Others, Plan};
use crate::speech::{Refusal, say, say_json};

/// Writes the order for the sheets that `buy` chooses, in words that a supplier can act on, with the packing and the check
/// on arrival; below it that for coverings and wear liner, as an order of its own. What "order" under "buying" does not say is left blank, and asked for.
#[derive(Debug, Args)]
pub(crate) struct Order {
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

impl Order {
    /// Runs the command.
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        let (plan, told) = plan_with_rack(&self.job, &self.log, &self.first)?;
        let order = Ordered::of(&plan, &plan::cut_bars(&plan.flats)?);
        let rack = rack_pieces(&plan, &told);
        let others = Others::of(&plan.flats.file, &plan.flats.job)?;
        if self.json {
            say_json(&order_json(&plan, &order, &rack, &others));
        } else {
            let text = order_text(&plan, &order, &rack) + &others_text(&plan.flats.job, &others);
            say(text.trim_end());
        }
        Ok(())
    }
}

fn order_text(plan: &Plan, order: &Ordered, rack: &[String]) -> String {
    let job = &plan.flats.job;
    let units = ListUnits::of(job.style);
    let terms = &job.buying.order;
    let head = [
        ("supplier", terms.supplier.clone()),
        ("our number", terms.number.clone()),
        ("deliver to", terms.deliver_to.clone()),
        ("call first", terms.contact.clone()),
        ("wanted by", terms.wanted_by.clone()),
        ("unloading", terms.unloading.clone()),
    ];
    let (sheets, area, mass) = order.sums(units);
    let mut sums = Vec::new();
    if 0 < sheets {
        sums.push(("sheets".to_owned(), sheets.to_string()));
        sums.push(("area".to_owned(), area.print_with_unit(units.area, 3)));
        sums.push(("weight".to_owned(), mass.print_with_unit(units.mass, 2)));
    }
    let sticks: u32 = order.sticks.iter().map(|stick| stick.quantity).sum();
    if 0 < sticks {
        sums.push(("sticks".to_owned(), sticks.to_string()));
    }
    text(&OrderPaper {
        heading: &super::quote::heading(job),
        head: &head,
        lines: &order.lines(),
        sums: &sums,
        packing: &packing(job, order),
        rack,
        questions: &order.questions,
        measuring: &measuring(job, order),
    })
}

/// The order for coverings and liners; nothing where there are none.
fn others_text(job: &Job, others: &Others) -> String {
    let lines: Vec<SupplyLine> =
        covering_lines(job, others).into_iter().chain(liner_lines(job, others)).collect();
    if lines.is_empty() {
        return String::new();
    }
    let head = ["supplier", "our number", "deliver to", "wanted by"].map(|what| (what, None));
    let paper = OrderPaper {
        heading: &format!("{}: coverings and wear liner, an order of their own", super::quote::heading(job)),
        head: &head,
        lines: &lines,
        measuring: &MEASURING_OTHERS.map(str::to_owned),
        ..OrderPaper::default()
    };
    format!("\n\n{}", text(&paper))
}

fn order_json(plan: &Plan, order: &Ordered, rack: &[String], others: &Others) -> Value {
    let job = &plan.flats.job;
    let numbers = Numbers::of(job);
    let terms = &job.buying.order;
    let units = ListUnits::of(job.style);
    let sheets = order.sheets.iter().map(|sheet| {
        let metal = &job.metals[sheet.metal].metal;
        json!({
            "metal": metal.name,
            "alloy": metal.alloy_and_temper(),
            "base_thickness": numbers.length(metal.thickness),
            "size": sheet.size.map(|side| numbers.length(side)),
            "quantity": sheet.quantity,
            "weight_each": numbers.mass(sheet.each),
            "exact_area": (sheet.size[0] * sheet.size[1] * i64::from(sheet.quantity)).square_nanometres().to_string(),
            "text": line_json(&sheet.line),
        })
    });
    let sticks = order.sticks.iter().map(|stick| {
        json!({
            "bar": stick.bar,
            "length": numbers.length(stick.length),
            "quantity": stick.quantity,
            "text": line_json(&stick.line),
        })
    });
    let (count, area, mass) = order.sums(units);
    json!({
        "plateloft": 1,
        "job": job.name,
        "units": { "length": numbers.length_unit(), "weight": numbers.other_units().1, "exact_area": "nm2" },
        "supplier": terms.supplier,
        "number": terms.number,
        "deliver_to": terms.deliver_to,
        "contact": terms.contact,
        "wanted_by": terms.wanted_by,
        "unloading": terms.unloading,
        "sheets": sheets.collect::<Vec<_>>(),
        "sticks": sticks.collect::<Vec<_>>(),
        "coverings": covering_lines(job, others).iter().map(line_json).collect::<Vec<_>>(),
        "liners": liner_lines(job, others).iter().map(line_json).collect::<Vec<_>>(),
        "sheets_in_all": count,
        "exact_area_in_all": area.square_nanometres().to_string(),
        "weight_in_all": numbers.mass(mass),
        "packing": packing(job, order),
        "rack": rack,
        "measuring": measuring(job, order),
        "questions": order.questions,
    })
}

fn line_json(line: &SupplyLine) -> Value {
    let terms = line.terms.iter().map(|(name, words)| ((*name).to_owned(), json!(words)));
    let check = |check: &Check| {
        let blanks = check
            .blanks
            .iter()
            .map(|(what, count, wanted)| json!({ "what": what, "readings": count, "ordered": wanted }));
        json!({ "of": check.which, "look": check.boxes, "measure": blanks.collect::<Vec<_>>(), "enter": check.entry })
    };
    json!({
        "line": format!("{}: {}", line.quantity, line.what),
        "terms": terms.collect::<serde_json::Map<_, _>>(),
        "checks": line.checks.iter().map(check).collect::<Vec<_>>(),
    })
}
