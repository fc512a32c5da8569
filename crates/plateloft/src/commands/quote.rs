//! `plateloft quote`: what a job costs and what is asked for it.

use std::path::{Path, PathBuf};

use clap::Args;
use job::Job;
use paper::lists::ListUnits;
use paper::lists::quote::{Compared, QuotePaper, side_by_side, text};
use serde_json::{Value, json};
use units::Money;

use super::reading::{job_and_options, offer_rack, option_name};
use super::{AsReceived, RackFirst, StripLog, job_as_received, plan_of};
use crate::costing::{Quoted, quoted};
use crate::kit;
use crate::output::Numbers;
use crate::plan::{self, Others, Plan};
use crate::speech::{Refusal, say, say_json, tell};

/// Prices a job by the rates under "quote" and "buying", line by line. A rate that is not set is a question, never a
/// guess: the lines that need it stay open. What stands under "options" is put side by side with the job, and so are
/// several jobs.
#[derive(Debug, Args)]
pub(crate) struct Quote {
    /// The job files
    #[arg(required = true)]
    jobs: Vec<PathBuf>,
    #[command(flatten)]
    log: StripLog,
    #[command(flatten)]
    first: RackFirst,
    #[command(flatten)]
    received: AsReceived,
    /// Price the job as a kit, too, and put both side by side
    #[arg(long)]
    kit: bool,
    /// Print only what stands side by side
    #[arg(long, conflicts_with = "json")]
    side_by_side: bool,
    /// Print the quote as JSON
    #[arg(long)]
    json: bool,
}

/// A job, or an option of it, with its price.
struct Priced {
    /// The job, or the option of it.
    name: String,
    plan: Plan,
    quoted: Quoted,
    /// What is different from the job.
    differences: Vec<String>,
}

impl Quote {
    /// Runs the command.
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        let mut all = Vec::new();
        for path in &self.jobs {
            all.extend(self.priced(path)?);
        }
        if self.side_by_side && all.len() < 2 {
            return Err(Refusal::bad(
                "quote: --side-by-side: there is only one\n    name several jobs, add --kit, or write \"options\" in the job",
            ));
        }
        if self.json {
            let quotes: Vec<Value> = all.iter().map(quote_json).collect();
            say_json(&json!({ "plateloft": 1, "money": "cent", "quotes": quotes }));
            return Ok(());
        }
        let mut blocks: Vec<String> =
            if self.side_by_side { Vec::new() } else { all.iter().map(quote_text).collect() };
        if 1 < all.len() {
            let units = ListUnits::of(all[0].plan.flats.job.style);
            blocks.push(side_by_side(&all.iter().map(Priced::compared).collect::<Vec<_>>(), units));
        }
        say(blocks.join("\n").trim_end());
        Ok(())
    }

    /// The job, the job as a kit where that is asked for, and its options.
    fn priced(&self, path: &Path) -> Result<Vec<Priced>, Refusal> {
        let file = path.display().to_string();
        let (_, mut options) = job_and_options(path, &self.log)?;
        let (job, told) = job_as_received(path, &self.log, &self.received)?;
        told.iter().for_each(|sentence| tell(sentence));
        if self.received.received && !options.is_empty() {
            options.clear();
            tell(&format!(
                "{file}: its options are of sheets as ordered: with --received the job is priced alone"
            ));
        }
        let mut all = vec![self.price(&file, job.clone(), false, Vec::new())?];
        if self.kit {
            all.push(self.price(&file, job, true, vec!["sold as a kit".to_owned()])?);
        }
        for (option, mut job) in options {
            job.name.push_str(&format!(", {}", option.name));
            let file = option_name(&option, &file);
            let priced = self.price(&file, job, option.as_kit, option.differences)?;
            all.push(Priced { name: option.name, ..priced });
        }
        Ok(all)
    }

    fn price(
        &self,
        file: &str,
        mut job: Job,
        as_kit: bool,
        differences: Vec<String>,
    ) -> Result<Priced, Refusal> {
        let told = offer_rack(&mut job, &self.first)?;
        let (plan, mut quoted) = if as_kit { as_the_kit(file, job)? } else { fitted(file, job)? };
        quoted.assumptions.extend(told.iter().map(|sentence| format!("{sentence}.")));
        Ok(Priced { name: plan.flats.job.name.clone(), plan, quoted, differences })
    }
}

/// The job as the shop makes it.
fn fitted(file: &str, job: Job) -> Result<(Plan, Quoted), Refusal> {
    let plan = plan_of(plan::flats(file, job)?)?;
    let bars = plan::cut_bars(&plan.flats)?;
    let others = Others::of(&plan.flats.file, &plan.flats.job)?;
    let quoted = quoted(&plan, &bars, &others, None);
    Ok((plan, quoted))
}

/// The job as the buyer gets it.
fn as_the_kit(file: &str, job: Job) -> Result<(Plan, Quoted), Refusal> {
    let (flats, asked) = kit::for_buyer(file, job)?;
    let mut packed = kit::packed(plan_of(flats)?, asked)?;
    packed.plan.flats.job.name.push_str(", as a kit");
    let flats = &packed.plan.flats;
    let (bars, others) = (plan::cut_bars(flats)?, Others::of(&flats.file, &flats.job)?);
    let quoted = quoted(&packed.plan, &bars, &others, Some(&packed));
    Ok((packed.plan, quoted))
}

impl Priced {
    fn compared(&self) -> Compared<'_> {
        Compared {
            name: &self.name,
            differences: &self.differences,
            weight: self.plan.flats.weight(),
            sheets: self.sheets(),
            minutes: self.quoted.minutes,
            quote: &self.quoted.quote,
        }
    }

    /// Sheets that are bought, and pieces of the rack.
    fn sheets(&self) -> [usize; 2] {
        let sheets = self.plan.nests.iter().flat_map(|nest| &nest.sheets);
        let (rack, bought): (Vec<bool>, Vec<bool>) =
            sheets.map(|sheet| sheet.laid.from_rack.is_some()).partition(|from_rack| *from_rack);
        [bought.len(), rack.len()]
    }
}

/// The job's name, revision and date in one line.
pub(super) fn heading(job: &Job) -> String {
    let mut heading = job.name.clone();
    if let Some(revision) = &job.revision {
        heading.push_str(&format!(", revision {revision}"));
    }
    if let Some(date) = &job.date {
        heading.push_str(&format!(", {date}"));
    }
    heading
}

fn quote_text(Priced { plan, quoted, .. }: &Priced) -> String {
    let job = &plan.flats.job;
    let paper = QuotePaper {
        heading: &heading(job),
        valid_until: job.quote.valid_until.as_deref(),
        currency: job.currency.as_deref(),
        facts: &quoted.facts,
        assumptions: &quoted.assumptions,
    };
    text(&paper, &quoted.quote)
}

fn quote_json(priced: &Priced) -> Value {
    let Priced { plan, quoted, differences, .. } = priced;
    let quote = &quoted.quote;
    let cents = |money: Option<Money>| money.map(Money::cents);
    let step = |step: &estimate::Step| json!({ "what": step.what, "cents": cents(step.money) });
    let line = |line: &estimate::QuoteLine| json!({ "group": line.group, "what": line.what, "how": line.how, "cents": cents(line.money) });
    json!({
        "job": plan.flats.job.name,
        "currency": plan.flats.job.currency,
        "differences": differences,
        "weight": Numbers::of(&plan.flats.job).mass(plan.flats.weight()),
        "sheets": priced.sheets()[0],
        "rack_pieces": priced.sheets()[1],
        "thousandths_of_minutes": quoted.minutes,
        "valid_until": plan.flats.job.quote.valid_until,
        "facts": quoted.facts.iter().map(|(name, value)| json!({ "what": name, "is": value })).collect::<Vec<_>>(),
        "lines": quote.lines.iter().map(line).collect::<Vec<_>>(),
        "complete": quote.total.is_some() && quote.questions.is_empty(),
        "known": quote.known.cents(),
        "cost": cents(quote.cost),
        "risk": step(&quote.risk),
        "profit": step(&quote.profit),
        "rounding": step(&quote.rounding),
        "price": cents(quote.price),
        "tax": step(&quote.tax),
        "total": cents(quote.total),
        "markup_hundredths_of_percent": quote.markup.map(whole_hundredths),
        "margin_hundredths_of_percent": quote.margin.map(whole_hundredths),
        "questions": quote.questions,
        "assumptions": quoted.assumptions,
    })
}

/// Shares that are worked out come to whole hundredths of a percent.
const fn whole_hundredths(share: estimate::Percent) -> i64 {
    share.thousandths() / 10
}
