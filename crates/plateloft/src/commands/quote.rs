//! `plateloft quote`: what a job costs and what is asked for it.

use std::path::{Path, PathBuf};

use clap::Args;
use paper::lists::quote::{QuotePaper, side_by_side, text};
use serde_json::{Value, json};
use units::Money;

use super::{RackFirst, StripLog, job_of, plan_of, plan_with_rack};
use crate::costing::{self, Others, Quoted, quoted};
use crate::kit;
use crate::plan::{self, Plan};
use crate::speech::{Refusal, say, say_json};

/// Prices a job by the rates under "quote" and "buying", line by line. A rate that is not set is a question, never a
/// guess: the lines that need it stay open. Several jobs, such as one in tread plate and one in plain, are also put side
/// by side.
#[derive(Debug, Args)]
pub(crate) struct Quote {
    /// The job files
    #[arg(required = true)]
    jobs: Vec<PathBuf>,
    #[command(flatten)]
    log: StripLog,
    #[command(flatten)]
    first: RackFirst,
    /// Price the job as a kit, too, and put both side by side
    #[arg(long)]
    kit: bool,
    /// Print the quote as JSON
    #[arg(long)]
    json: bool,
}

impl Quote {
    /// Runs the command.
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        let mut all: Vec<(Plan, Quoted)> = Vec::new();
        for path in &self.jobs {
            let (plan, told) = plan_with_rack(path, &self.log, &self.first)?;
            let bars = plan::cut_bars(&plan.flats)?;
            let fitted = quoted(&plan, &bars, &Others::of(&plan)?, None);
            let mut priced = vec![(plan, fitted)];
            if self.kit {
                priced.push(self.as_kit(path)?);
            }
            for (plan, mut quoted) in priced {
                let told = told.iter().map(|sentence| format!("{sentence}."));
                quoted.assumptions.extend(told);
                all.push((plan, quoted));
            }
        }
        if self.json {
            let quotes: Vec<Value> = all.iter().map(|(plan, quoted)| quote_json(plan, quoted)).collect();
            say_json(&json!({ "plateloft": 1, "money": "cent", "quotes": quotes }));
            return Ok(());
        }
        let mut blocks: Vec<String> = all.iter().map(|(plan, quoted)| quote_text(plan, quoted)).collect();
        if 1 < all.len() {
            let columns: Vec<(&str, &estimate::Quote)> =
                all.iter().map(|(plan, quoted)| (plan.flats.job.name.as_str(), &quoted.quote)).collect();
            blocks.push(side_by_side(&columns));
        }
        say(blocks.join("\n").trim_end());
        Ok(())
    }
}

impl Quote {
    /// The job as the buyer gets it.
    fn as_kit(&self, path: &Path) -> Result<(Plan, Quoted), Refusal> {
        let (flats, asked) = kit::for_buyer(path, self.job_with_rack(path)?)?;
        let mut packed = kit::packed(plan_of(flats)?, asked)?;
        packed.plan.flats.job.name.push_str(", as a kit");
        let bars = plan::cut_bars(&packed.plan.flats)?;
        let quoted = quoted(&packed.plan, &bars, &Others::of(&packed.plan)?, Some(&packed));
        Ok((packed.plan, quoted))
    }

    fn job_with_rack(&self, path: &Path) -> Result<job::Job, Refusal> {
        let mut job = job_of(path, &self.log)?;
        if let Some(file) = &self.first.rack {
            costing::offer(&mut job, &super::rack::read(file)?);
        }
        Ok(job)
    }
}

/// The job's name, revision and date in one line.
pub(super) fn heading(job: &job::Job) -> String {
    let mut heading = job.name.clone();
    if let Some(revision) = &job.revision {
        heading.push_str(&format!(", revision {revision}"));
    }
    if let Some(date) = &job.date {
        heading.push_str(&format!(", {date}"));
    }
    heading
}

fn quote_text(plan: &Plan, quoted: &Quoted) -> String {
    let job = &plan.flats.job;
    let paper = QuotePaper {
        heading: &heading(job),
        valid_until: job.quote.valid_until.as_deref(),
        facts: &quoted.facts,
        assumptions: &quoted.assumptions,
    };
    text(&paper, &quoted.quote)
}

fn quote_json(plan: &Plan, quoted: &Quoted) -> Value {
    let quote = &quoted.quote;
    let cents = |money: Option<Money>| money.map(Money::cents);
    let step = |step: &estimate::Step| json!({ "what": step.what, "cents": cents(step.money) });
    let line = |line: &estimate::QuoteLine| json!({ "group": line.group, "what": line.what, "how": line.how, "cents": cents(line.money) });
    json!({
        "job": plan.flats.job.name,
        "valid_until": plan.flats.job.quote.valid_until,
        "facts": quoted.facts.iter().map(|(name, value)| json!({ "what": name, "is": value })).collect::<Vec<_>>(),
        "lines": quote.lines.iter().map(line).collect::<Vec<_>>(),
        "known": quote.known.cents(),
        "cost": cents(quote.cost),
        "risk": step(&quote.risk),
        "profit": step(&quote.profit),
        "rounding": step(&quote.rounding),
        "price": cents(quote.price),
        "tax": step(&quote.tax),
        "total": cents(quote.total),
        "markup_hundredths_of_percent": quote.markup.map(estimate::Percent::hundredths),
        "margin_hundredths_of_percent": quote.margin.map(estimate::Percent::hundredths),
        "questions": quote.questions,
        "assumptions": quoted.assumptions,
    })
}
