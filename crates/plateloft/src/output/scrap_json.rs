//! `scrap-report.json`: bought + of the rack = parts + kept drops + kerf + edge trim + scrap, in exact integers beside the
//! figures of the printed report, so that any reader can add them up.

use estimate::{Amount, Breakdown, ScrapReport, SheetReport, worths};
use job::Job;
use paper::lists::ListUnits;
use paper::scrap_report::{Printed, printed, saleable};
use serde_json::{Value, json};

use super::numbers::{Numbers, rounded};

/// The whole file.
pub(crate) fn scrap_json(job: &Job, report: &ScrapReport) -> Value {
    let (area_unit, weight_unit) = Numbers::of(job).other_units();
    let units = ListUnits::of(job.style);
    let sheets: Vec<(&SheetReport, Printed)> = report.sheets.iter().zip(printed(report, units)).collect();
    let sum = |of: &dyn Fn(&SheetReport) -> bool| -> Printed {
        sheets.iter().filter(|(sheet, _)| of(sheet)).map(|(_, printed)| printed).sum()
    };
    let totals = |metal: Option<&str>, all: &Breakdown| {
        let own = |sheet: &SheetReport| metal.is_none_or(|metal| sheet.metal == metal);
        let bought = (report.bought(metal), sum(&|sheet| own(sheet) && !sheet.from_rack));
        let rack = (report.of_rack(metal), sum(&|sheet| own(sheet) && sheet.from_rack));
        breakdown(all, &sum(&own), [bought, rack])
    };
    json!({
        "plateloft": 1,
        "job": job.name,
        "currency": job.currency,
        "units": { "area": area_unit, "weight": weight_unit, "exact_area": "nm2", "exact_weight": "microgram", "money": "cent" },
        "sheets": sheets.iter().map(|(sheet, printed)| sheet_json(sheet, printed)).collect::<Vec<_>>(),
        "metals": report.metals.iter().map(|metal| json!({
            "metal": metal.metal,
            "sheets": metal.sheets,
            "amounts": totals(Some(&metal.metal), &metal.breakdown),
        })).collect::<Vec<_>>(),
        "total": totals(None, &report.total),
        "sheets_without_price": report.sheets_without_price,
        "left_out": job.bars.iter().map(|bar| &bar.name).collect::<Vec<_>>(),
        "scrap_credit_cents": job.buying.scrap_credit.set().map(|price| {
            worths(&saleable(report, units), *price).into_iter().map(units::Money::cents).collect::<Vec<_>>()
        }),
    })
}

fn sheet_json(sheet: &SheetReport, printed: &Printed) -> Value {
    let nothing: (Amount, Printed) = (Amount::ZERO, std::iter::empty::<Printed>().sum());
    let whole = (sheet.breakdown.whole, printed.clone());
    let wholes = if sheet.from_rack { [nothing, whole] } else { [whole, nothing] };
    let parts = sheet.parts.iter().zip(&printed.parts);
    json!({
        "sheet": sheet.sheet,
        "metal": sheet.metal,
        "from_rack": sheet.from_rack,
        "amounts": breakdown(&sheet.breakdown, printed, wholes),
        "parts": parts.map(|(part, printed)| json!({
            "mark": part.mark,
            "quantity": part.quantity,
            "amount": amount(&part.amount, *printed),
            "charged_cents": part.charged.map(units::Money::cents),
        })).collect::<Vec<_>>(),
    })
}

/// What was bought and what came from the rack, each with its printed sum, and what became of both.
fn breakdown(all: &Breakdown, printed: &Printed, [bought, rack]: [(Amount, Printed); 2]) -> Value {
    let line = |of: &Amount, number: usize| amount(of, [printed.area[number], printed.mass[number]]);
    let whole = |(of, printed): &(Amount, Printed)| amount(of, [printed.area[0], printed.mass[0]]);
    json!({
        "bought": whole(&bought),
        "from_rack": whole(&rack),
        "parts": line(&all.parts, 1),
        "kept_drops": line(&all.kept_drops, 2),
        "kerf": line(&all.kerf, 3),
        "edge_trim": line(&all.edge_trim, 4),
        "scrap": line(&all.scrap, 5),
        "yield_percent": rounded(100.0 * all.yield_share(), 1),
        "yield_with_drops_percent": rounded(100.0 * all.yield_share_with_drops(), 1),
    })
}

fn amount(amount: &Amount, [area, weight]: [i128; 2]) -> Value {
    json!({
        "area": Numbers::printed_area(area),
        "weight": Numbers::printed_mass(weight),
        "exact_area": amount.area.square_nanometres().to_string(),
        "exact_weight": amount.mass.micrograms(),
        "cents": amount.money.map(units::Money::cents),
    })
}
