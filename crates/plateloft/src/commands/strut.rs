//! `plateloft strut`: hinged lids balanced by gas struts.

use std::path::PathBuf;

use clap::Args;
use paper::lists::passages::{in_text, wrapped};
use paper::strut_plot;
use serde_json::{Value, json};

use super::{AsReceived, StripLog, flats_as_received};
use crate::output::strut::{Balanced, balanced, force_unit_name};
use crate::output::weights::{NO_CERTIFICATE, lids};
use crate::output::{self, Numbers};
use crate::plan::balance::units;
use crate::speech::{Refusal, say, say_json, tell};

/// Balances every lid that has "struts" under "weights": lengths and lever arms over the swing, the force that each
/// strut needs, and, for a strut by its maker's data, what is left over at the coldest and the hottest. Ends with 1 when
/// the chosen struts do not hold the open lid.
#[derive(Debug, Args)]
pub(crate) struct Strut {
    /// The job file
    job: PathBuf,
    #[command(flatten)]
    log: StripLog,
    #[command(flatten)]
    received: AsReceived,
    /// Mark of the one lid that is meant
    #[arg(long)]
    part: Option<String>,
    /// Draw the moments over the swing of one lid into this SVG file; it must not be there yet
    #[arg(long, value_name = "FILE")]
    plot: Option<PathBuf>,
    /// Print everything as JSON
    #[arg(long)]
    json: bool,
}

impl Strut {
    /// Runs the command.
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        let flats = flats_as_received(&self.job, &self.log, &self.received)?;
        let lids = lids(&flats)?;
        let meant = |mark: &str| self.part.as_ref().is_none_or(|part| part == mark);
        let with = lids.iter().filter(|(_, lid)| meant(&lid.mark));
        let balanced =
            with.filter_map(|(asked, lid)| balanced(&flats, asked, lid)).collect::<Result<Vec<_>, _>>()?;
        let file = &flats.file;
        if balanced.is_empty() {
            let wrong = match &self.part {
                Some(part) => format!("{file}: weights.lids: {part}: no lid of this mark has struts"),
                None => format!("{file}: weights.lids: no lid has struts"),
            };
            return Err(Refusal::bad(format!("{wrong}\n    give \"struts\" to a lid under \"weights\"")));
        }
        if let Some(path) = &self.plot {
            write_plot(path, &balanced)?;
        }
        if self.json {
            let lids: Vec<Value> = balanced.iter().map(Balanced::json).collect();
            say_json(&json!({
                "plateloft": 1,
                "job": flats.job.name,
                "units": {
                    "length": Numbers::of(&flats.job).length_unit(),
                    "force": force_unit_name(&flats),
                    "moment": units(&flats).1.name(),
                    "angle": "degree"
                },
                "lids": lids,
                "note": NO_CERTIFICATE,
            }));
        } else {
            let blocks: Vec<String> = balanced.iter().map(|lid| in_text(&lid.words())).collect();
            say(&wrapped(&format!("{}\n{NO_CERTIFICATE}", blocks.join("\n"))));
        }
        let falls: Vec<String> = balanced.iter().filter_map(Balanced::falls).collect();
        if falls.is_empty() { Ok(()) } else { Err(Refusal::No(falls.join("\n"))) }
    }
}

fn write_plot(path: &std::path::Path, balanced: &[Balanced<'_>]) -> Result<(), Refusal> {
    let [only] = balanced else {
        return Err(Refusal::bad(
            "strut: --plot draws one lid, and several have struts\n    name it with --part",
        ));
    };
    output::write_new(path, paper::svg::write(&strut_plot::draw(&only.plot())).as_bytes())?;
    tell(&format!("wrote {}", path.display()));
    Ok(())
}
