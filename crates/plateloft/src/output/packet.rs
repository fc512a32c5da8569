//! All files of a packet.

use serde_json::Value;

use super::drawings;
use super::flats_json::flats_json;
use super::folder::Files;
use super::nest_json::nest_json;
use super::scrap_json::scrap_json;
use crate::plan::Plan;
use crate::speech::Refusal;

/// The files of a packet.
pub(crate) fn packet(plan: &Plan) -> Result<Files, Refusal> {
    let mut files = Files::default();
    for part in &plan.flats.parts {
        let page = drawings::part_page(&plan.flats, part);
        files.add(format!("parts/{}.svg", part.part.mark), paper::svg::write(&page));
    }
    for nest in &plan.nests {
        for sheet in &nest.sheets {
            let page = drawings::sheet_page(plan, nest, sheet);
            files.add(format!("sheets/{}.svg", sheet.mark), paper::svg::write(&page));
        }
    }
    files.add("flats.json", pretty(&flats_json(&plan.flats)));
    files.add("nest.json", pretty(&nest_json(plan)));
    files.add("scrap-report.json", pretty(&scrap_json(&plan.flats.job, &plan.report)));
    Ok(files)
}

fn pretty(value: &Value) -> String {
    format!("{value:#}\n")
}
