//! `scrap-report.json`: bought = parts + kept drops + kerf + edge trim + scrap, in exact integers beside the readable
//! figures, so that any reader can add them up.

use estimate::{Amount, Breakdown, ScrapReport, worths};
use job::Job;
use paper::lists::ListUnits;
use paper::scrap_report::saleable;
use serde_json::{Value, json};

use super::numbers::{Numbers, rounded};

/// The whole file.
pub(crate) fn scrap_json(job: &Job, report: &ScrapReport) -> Value {
    let numbers = Numbers::of(job);
    let (area_unit, weight_unit) = numbers.other_units();
    json!({
        "plateloft": 1,
        "job": job.name,
        "currency": job.currency,
        "units": { "area": area_unit, "weight": weight_unit, "exact_area": "nm2", "exact_weight": "microgram", "money": "cent" },
        "sheets": report.sheets.iter().map(|sheet| json!({
            "sheet": sheet.sheet,
            "metal": sheet.metal,
            "amounts": breakdown(&sheet.breakdown, numbers),
            "parts": sheet.parts.iter().map(|part| json!({
                "mark": part.mark,
                "quantity": part.quantity,
                "amount": amount(&part.amount, numbers),
                "charged_cents": part.charged.map(units::Money::cents),
            })).collect::<Vec<_>>(),
        })).collect::<Vec<_>>(),
        "metals": report.metals.iter().map(|metal| json!({
            "metal": metal.metal,
            "sheets": metal.sheets,
            "amounts": breakdown(&metal.breakdown, numbers),
        })).collect::<Vec<_>>(),
        "total": breakdown(&report.total, numbers),
        "sheets_without_price": report.sheets_without_price,
        "scrap_credit_cents": job.buying.scrap_credit.map(|price| {
            worths(&saleable(report, ListUnits::of(job.style)), price).into_iter().map(units::Money::cents).collect::<Vec<_>>()
        }),
    })
}

fn breakdown(all: &Breakdown, numbers: Numbers) -> Value {
    json!({
        "bought": amount(&all.bought, numbers),
        "parts": amount(&all.parts, numbers),
        "kept_drops": amount(&all.kept_drops, numbers),
        "kerf": amount(&all.kerf, numbers),
        "edge_trim": amount(&all.edge_trim, numbers),
        "scrap": amount(&all.scrap, numbers),
        "yield_percent": rounded(100.0 * all.yield_share(), 1),
        "yield_with_drops_percent": rounded(100.0 * all.yield_share_with_drops(), 1),
    })
}

fn amount(amount: &Amount, numbers: Numbers) -> Value {
    json!({
        "area": numbers.area(amount.area),
        "weight": numbers.mass(amount.mass),
        "exact_area": amount.area.square_nanometres().to_string(),
        "exact_weight": amount.mass.micrograms(),
        "cents": amount.money.map(units::Money::cents),
    })
}
