//! Roll goods and wear liner as JSON.

use job::{Job, LinedArea};
use nest::covering::PlacedPatch;
use serde_json::{Value, json};
use units::{Area, Length};

use super::numbers::Numbers;
use crate::plan::{CutLiner, LaidCovering, Others, Side, length_of};

/// All roll goods and liners of a job, as JSON.
pub(crate) fn coverings_json(job: &Job, others: &Others) -> Value {
    let numbers = Numbers::of(job);
    let (area, _) = numbers.other_units();
    json!({
        "plateloft": 1,
        "job": job.name,
        "units": { "length": numbers.length_unit(), "area": area, "exact_area": "nm2", "money": "cent" },
        "coverings": others.coverings.iter().map(|laid| covering_json(job, laid, numbers)).collect::<Vec<_>>(),
        "liners": others.liners.iter().map(|cut| liner_json(job, cut, numbers)).collect::<Vec<_>>(),
    })
}

fn covering_json(job: &Job, laid: &LaidCovering, numbers: Numbers) -> Value {
    let covering = &job.coverings[laid.covering];
    let length = |steps: i64| numbers.length(length_of(steps));
    let roll = |(number, roll): (usize, &Vec<PlacedPatch>)| {
        let pieces = roll.iter().map(|placed| {
            let panel = &laid.panels[placed.patch];
            let piece = &covering.pieces[panel.piece];
            json!({
                "mark": piece.mark,
                "copy": panel.copy,
                "panel": panel.number.0,
                "panels": panel.number.1,
                "begins": numbers.length(panel.begins),
                "size": panel.size.map(|size| numbers.length(size)),
                "turned": placed.turned,
                "along": length(placed.x),
                "across": length(placed.y),
                "seam": piece.seams.get(panel.number.0 - 1).map(|seam| numbers.length(*seam)),
            })
        });
        json!({
            "buy": numbers.length(laid.buy[number]),
            "used": length(laid.laid.used[number]),
            "pieces": pieces.collect::<Vec<_>>(),
        })
    };
    let exact = |area: Area| area.square_nanometres().to_string();
    json!({
        "covering": covering.name,
        "width": numbers.length(covering.width),
        "squaring": numbers.length(covering.squaring),
        "buy": numbers.length(laid.length()),
        "cents": laid.price(job).map(units::Money::cents),
        "used": length(laid.laid.length()),
        "least_possible": length(laid.laid.least),
        "proved_least": laid.is_least(job),
        "proved_least_for_these_panels": laid.laid.is_proved(),
        "less_to_buy_not_excluded": laid.may_buy_less(job),
        "exact_areas": {
            "bought": exact(laid.areas.bought),
            "pieces": exact(laid.areas.pieces),
            "seam_allowance": exact(laid.areas.allowance),
            "selvedge": exact(laid.areas.selvedge),
            "squaring": exact(laid.areas.squaring),
            "waste": exact(laid.areas.waste()),
            "waste_at_pattern_starts": exact(laid.areas.at_starts),
            "waste_at_ends": exact(laid.areas.at_ends),
            "waste_between": exact(laid.areas.between),
        },
        "rolls": laid.laid.rolls.iter().enumerate().map(roll).collect::<Vec<_>>(),
    })
}

fn liner_json(job: &Job, cut: &CutLiner, numbers: Numbers) -> Value {
    let liner = &job.liners[cut.liner];
    let faces = liner.areas.iter().zip(&cut.faces).map(|(LinedArea { mark, size, quantity, .. }, face)| {
        let side = |which: fn(&Side) -> Length| face.sides.map(|side| numbers.length(which(&side)));
        json!({
            "mark": mark,
            "size": size.map(|size| numbers.length(size)),
            "quantity": quantity,
            "panels": (face.sides.map(|side| side.count)),
            "panel": side(|side| side.panel),
            "gap": side(|side| side.gap),
            "growth": side(|side| side.growth),
            "gap_at_coldest": side(|side| side.cold_gap),
        })
    });
    let sheet = |sheet: &nest::rect::Sheet| {
        let piece = |placed: &nest::rect::Placed| {
            let at = [placed.x, placed.y].map(|steps| numbers.length(length_of(steps)));
            json!({
                "mark": liner.areas[placed.piece].mark,
                "at": at,
                "turned": placed.turned,
            })
        };
        sheet.iter().map(piece).collect::<Vec<_>>()
    };
    json!({
        "liner": liner.name,
        "sheet": liner.sheet.map(|side| numbers.length(side)),
        "sheets": cut.packing.sheets.len(),
        "least_sheets": cut.packing.bound.sheets,
        "proved_least": cut.packing.proved,
        "cents": cut.price(job).map(units::Money::cents),
        "areas": faces.collect::<Vec<_>>(),
        "layout": cut.packing.sheets.iter().map(sheet).collect::<Vec<_>>(),
    })
}
