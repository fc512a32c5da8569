//! `plateloft take-off`: what one job or several need, before any sheet is chosen.

use std::path::PathBuf;

use clap::Args;
use estimate::{PartToWeigh, PartWeight, take_off};
use job::{Job, JobMetal};
use paper::lists::ListUnits;
use paper::lists::take_off::{
    BarRow, CoveringRow, HardwareRow, TakeOffRow, bars, coverings, hardware, printed_line, sums_of_bars, text,
};
use serde_json::{Value, json};
use stock::{Film, Pattern};
use units::{Area, Length};

use super::{AsReceived, StripLog, flats_as_received};
use crate::output::Numbers;
use crate::plan::{Flats, PlannedPart, finer};
use crate::speech::{Refusal, say, say_json};

/// Lists what jobs need together: every part by alloy, temper, thickness, tread or plain and film, bar and pipe by their
/// cut lengths, coverings and faces to line by their sizes, and the hardware that the jobs name. Lengths print as in the
/// first job.
#[derive(Debug, Args)]
pub(crate) struct TakeOff {
    /// The job files
    #[arg(required = true)]
    jobs: Vec<PathBuf>,
    #[command(flatten)]
    log: StripLog,
    #[command(flatten)]
    received: AsReceived,
    /// Print it as JSON
    #[arg(long)]
    json: bool,
}

impl TakeOff {
    /// Runs the command.
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        let flats = |path: &PathBuf| flats_as_received(path, &self.log, &self.received);
        let all = self.jobs.iter().map(flats).collect::<Result<Vec<Flats>, _>>()?;
        let Some(first) = all.first() else {
            return Err(Refusal::bad("take-off: no job is named\n    name one"));
        };
        let units = ListUnits::of(first.job.style);
        let parts: Vec<(&Job, &PlannedPart)> =
            all.iter().flat_map(|flats| flats.parts.iter().map(|part| (&flats.job, part))).collect();
        let weights: Vec<PartToWeigh> =
            parts.iter().map(|(job, part)| to_weigh(job, part, &first.job)).collect();
        let listed = Listed {
            off: take_off(&weights),
            rows: parts.iter().map(|(job, part)| row(job, part)).collect(),
            bars: bar_rows(&all, &parts),
            coverings: covering_rows(&all, units),
            hardware: hardware_rows(&all),
        };
        if self.json {
            say_json(&listed.json(&all, Numbers::of(&first.job), units));
        } else {
            say(listed.text(&all, units).trim_end());
        }
        Ok(())
    }
}

/// All that is listed.
struct Listed {
    off: estimate::TakeOff,
    /// Beside the parts of `off`.
    rows: Vec<TakeOffRow>,
    bars: Vec<BarRow>,
    coverings: Vec<CoveringRow>,
    hardware: Vec<HardwareRow>,
}

impl Listed {
    fn text(&self, all: &[Flats], units: ListUnits) -> String {
        let names: Vec<&str> = all.iter().map(|flats| flats.job.name.as_str()).collect();
        let blocks = [
            format!("Take-off: {}\n\n{}", names.join("; "), text(&self.off, &self.rows, units)),
            bars(&self.bars, units),
            coverings(&self.coverings, units),
            hardware(&self.hardware),
        ];
        let blocks: Vec<String> = blocks.into_iter().filter(|block| !block.is_empty()).collect();
        blocks.join("\n")
    }

    /// The same as JSON, exact integers beside the readable figures.
    fn json(&self, all: &[Flats], numbers: Numbers, units: ListUnits) -> Value {
        let (area, weight) = numbers.other_units();
        let size = |size: [Length; 2]| size.map(|side| numbers.length(side));
        let sum = |of: &dyn Fn(&PartWeight) -> bool| {
            let lines = self.off.parts.iter().filter(|part| of(part)).map(|part| printed_line(part, units));
            lines.fold([0; 2], |[area, mass], line| [area + line[0], mass + line[1]])
        };
        let metals = self.off.metals.iter().map(|metal| {
            let [net_area, weight] = sum(&|part| part.metal == metal.metal);
            json!({
                "metal": metal.metal,
                "quantity": metal.quantity,
                "net_area": Numbers::printed_area(net_area),
                "exact_area": exact(metal.area),
                "weight": Numbers::printed_mass(weight),
                "exact_weight": metal.mass.micrograms(),
            })
        });
        let parts = self.off.parts.iter().zip(&self.rows).map(|(part, row)| {
            let [net_area, weight] = printed_line(part, units);
            json!({
                "job": row.job,
                "mark": part.mark,
                "metal": part.metal,
                "quantity": part.quantity,
                "blank": size(row.blank),
                "film_on": row.film_on,
                "weight_each": numbers.mass_of_one(part.each),
                "net_area": Numbers::printed_area(net_area),
                "exact_area": exact(part.area),
                "weight": Numbers::printed_mass(weight),
                "exact_weight": part.mass.micrograms(),
            })
        });
        let [net_area, in_all] = sum(&|_| true);
        json!({
            "plateloft": 1,
            "jobs": all.iter().map(|flats| &flats.job.name).collect::<Vec<_>>(),
            "units": {
                "length": numbers.length_unit(), "area": area, "weight": weight, "exact_area": "nm2",
                "exact_weight": "microgram",
            },
            "metals": metals.collect::<Vec<_>>(),
            "parts": parts.collect::<Vec<_>>(),
            "bars": self.bars.iter().map(|bar| bar_json(bar, numbers)).collect::<Vec<_>>(),
            "bars_in_all": sums_of_bars(&self.bars).iter().map(|bar| json!({
                "bar": bar.name, "quantity": bar.count, "length": numbers.length(bar.length)
            })).collect::<Vec<_>>(),
            "coverings": self.coverings.iter().map(|piece| covering_json(piece, numbers)).collect::<Vec<_>>(),
            "hardware": self.hardware.iter().map(hardware_json).collect::<Vec<_>>(),
            "net_area": Numbers::printed_area(net_area),
            "exact_area": exact(self.off.area),
            "weight": Numbers::printed_mass(in_all),
            "exact_weight": self.off.mass.micrograms(),
        })
    }
}

/// An area in whole square nanometres.
fn exact(area: Area) -> String {
    area.square_nanometres().to_string()
}

fn bar_json(bar: &BarRow, numbers: Numbers) -> Value {
    json!({ "bar": bar.name, "for": bar.of, "quantity": bar.count, "length": numbers.length(bar.length) })
}

fn covering_json(piece: &CoveringRow, numbers: Numbers) -> Value {
    json!({
        "covering": piece.name,
        "job": piece.job,
        "mark": piece.mark,
        "quantity": piece.count,
        "size": piece.size.map(|side| numbers.length(side)),
        "exact_area": exact(piece.size[0] * piece.size[1] * i64::from(piece.count)),
    })
}

fn hardware_json(row: &HardwareRow) -> Value {
    json!({ "item": row.item, "for": row.of, "quantity": row.count })
}

fn to_weigh(job: &Job, part: &PlannedPart, first: &Job) -> PartToWeigh {
    let metal = &job.metals[part.part.metal];
    PartToWeigh {
        mark: part.part.mark.clone(),
        metal: stock_words(metal, first),
        area: part.area,
        weight_per_area: metal.metal.weight_per_area,
        quantity: part.part.quantity,
    }
}

/// "5052-H32 .125, plain, film one side": what is ordered, whatever each job calls it.
fn stock_words(metal: &JobMetal, first: &Job) -> String {
    let pattern = match metal.metal.pattern {
        Pattern::Plain => "plain",
        Pattern::Tread => "tread",
    };
    let film = match metal.metal.film {
        Film::Bare => "no film",
        Film::OneSide => "film one side",
        Film::BothSides => "film both sides",
    };
    let thickness = metal.metal.thickness.print(finer(first.style));
    format!("{} {thickness}, {pattern}, {film}", metal.metal.alloy_and_temper())
}

fn row(job: &Job, part: &PlannedPart) -> TakeOffRow {
    let (length, width) = part.flat.extents_mm();
    let film_on = match job.metals[part.part.metal].metal.film {
        Film::Bare => "",
        Film::OneSide => part.face_side(),
        Film::BothSides => "both sides",
    };
    TakeOffRow { job: job.name.clone(), blank: [length, width].map(Length::from_millimetres), film_on }
}

/// The pieces of all bars, then the rolled pipe of parts.
fn bar_rows(all: &[Flats], parts: &[(&Job, &PlannedPart)]) -> Vec<BarRow> {
    let row = |name: &str, job: &Job, mark: &str, (count, length): (u32, Length)| BarRow {
        name: name.to_owned(),
        of: format!("{}, {mark}", job.name),
        count,
        length,
    };
    let mut rows: Vec<BarRow> = Vec::new();
    for Flats { job, .. } in all {
        for bar in &job.bars {
            let pieces = bar.pieces.iter();
            rows.extend(pieces.map(|piece| row(&bar.name, job, &piece.mark, (piece.quantity, piece.length))));
        }
    }
    rows.extend(parts.iter().filter_map(|(job, part)| {
        let (name, length) = part.rolled_pipe()?;
        Some(row(name, job, part.part.written_mark(), (part.part.quantity, length)))
    }));
    rows
}

/// The pieces of all coverings and the faces of all liners.
fn covering_rows(all: &[Flats], units: ListUnits) -> Vec<CoveringRow> {
    let row = |name: &str, job: &Job, mark: &str, (size, count): ([Length; 2], u32)| CoveringRow {
        name: name.to_owned(),
        job: job.name.clone(),
        mark: mark.to_owned(),
        size,
        count,
    };
    let mut rows = Vec::new();
    for Flats { job, .. } in all {
        for covering in &job.coverings {
            let name = format!("{}, {} wide", covering.name, covering.width.print(units.length));
            let pieces = covering.pieces.iter();
            rows.extend(pieces.map(|piece| row(&name, job, &piece.mark, (piece.size, piece.quantity))));
        }
        for liner in &job.liners {
            let areas = liner.areas.iter();
            rows.extend(areas.map(|area| row(&liner.name, job, &area.mark, (area.size, area.quantity))));
        }
    }
    rows
}

/// Hardware of all jobs, the same item of several added up.
fn hardware_rows(all: &[Flats]) -> Vec<HardwareRow> {
    let mut rows: Vec<HardwareRow> = Vec::new();
    for flats in all {
        for job::Hardware { item, count, .. } in &flats.job.hardware {
            match rows.iter_mut().find(|row| row.item == *item) {
                Some(row) => {
                    row.count += u64::from(*count);
                    if !row.of.contains(flats.job.name.as_str()) {
                        row.of.push_str(&format!("; {}", flats.job.name));
                    }
                }
                None => rows.push(HardwareRow {
                    item: item.clone(),
                    of: flats.job.name.clone(),
                    count: u64::from(*count),
                }),
            }
        }
    }
    rows
}
