//! The nest as JSON: the comparison of sheet sizes, and where every piece lies.

use nest::{Choice, Nested, bound::Reason};
use serde_json::{Value, json};

use super::numbers::{Numbers, rounded};
use super::rows::{is_priced, is_proved_cheapest, which_mix};
use crate::plan::{MetalNest, Plan, PlannedSheet, choice_words, effort, no_nest_words};

/// How the numbers of a piece are to be read.
const HOW_PIECES_LIE: &str = "the flat as on its layout sheet; where turned_over, turned over about its x axis through the datum corner, \
     so that y becomes -y; then turned counter-clockwise by turn degrees about the datum corner; then moved so that this corner \
     lies at datum, from the lower left corner of the sheet";

/// The whole answer.
pub(crate) fn nest_json(plan: &Plan) -> Value {
    let numbers = Numbers::of(&plan.flats.job);
    let effort = effort(&plan.flats.job);
    json!({
        "plateloft": 1,
        "job": plan.flats.job.name,
        "units": { "length": numbers.length_unit(), "angle": "degree", "money": "cent" },
        "effort": { "evaluations": effort.evaluations, "starts": effort.starts, "seed": effort.seed },
        "ended_early": plan.ended_early,
        "how_pieces_lie": HOW_PIECES_LIE,
        "metals": plan.nests.iter().map(|nest| metal_json(plan, nest, numbers)).collect::<Vec<_>>(),
    })
}

fn metal_json(plan: &Plan, nest: &MetalNest, numbers: Numbers) -> Value {
    let rows = nest.comparison.rows.iter().enumerate().map(|(number, row)| {
        let choice = choice_words(nest, row.choice, plan.flats.job.style);
        let taken = number == nest.comparison.best;
        match &row.outcome {
            Ok(nested) if row.choice == Choice::Mix => {
                nested_json(plan, nest, (which_mix(nest, &nested.take), taken, row.choice), nested)
            }
            Ok(nested) => nested_json(plan, nest, (&choice, taken, row.choice), nested),
            Err(no_nest) => json!({ "sheets_of": choice, "taken": taken, "none": no_nest_words(&plan.flats, nest.metal, no_nest) }),
        }
    });
    json!({
        "metal": plan.flats.job.metals[nest.metal].metal.name,
        "comparison": rows.collect::<Vec<_>>(),
        "sheets": nest.sheets.iter().map(|sheet| sheet_json(plan, sheet, numbers)).collect::<Vec<_>>(),
    })
}

/// What is proved of the number of sheets and what of their price stand apart: a mix of more sheets may be the cheaper one. Both are
/// of the sizes that the row chooses from and of no others.
fn nested_json(
    plan: &Plan,
    nest: &MetalNest,
    (choice, taken, kind): (&str, bool, Choice),
    nested: &Nested,
) -> Value {
    let style = plan.flats.job.style;
    let counts = nested.take.sheets.iter().enumerate().filter(|(_, count)| 0 < **count);
    let proved_of = (0..nest.sizes.len()).filter(|&size| kind == Choice::Mix || kind == Choice::Alone(size));
    let is_priced = is_priced(nest);
    let is_least = is_proved_cheapest(nest, nested);
    json!({
        "sheets_of": choice,
        "mix": kind == Choice::Mix,
        "taken": taken,
        "sheets": nested.take.count(),
        "of_each_size": counts
            .map(|(size, count)| json!({ "size": choice_words(nest, Choice::Alone(size), style), "sheets": count }))
            .collect::<Vec<_>>(),
        "cents": nested.take.money,
        "yield_percent": rounded(f64::from(nested.take.yield_permille()) / 10.0, 1),
        "proved_of_sizes": proved_of
            .map(|size| choice_words(nest, Choice::Alone(size), style))
            .collect::<Vec<_>>(),
        "least_sheets": nested.bound.sheets,
        "least_sheets_proved_by": reason_words(nested.bound.reason),
        "fewest_sheets_proved": nested.bound.proves(nested.take.count()),
        "least_cents_of_these_sizes": is_priced.then_some(nested.bound.cost).and_then(|cents| u64::try_from(cents).ok()),
        "least_price_of_these_sizes_proved": is_priced.then_some(is_least),
        "least_area_of_these_sizes_proved": (!is_priced).then_some(is_least),
    })
}

/// The argument behind a lower limit, in words.
pub(crate) const fn reason_words(reason: Reason) -> &'static str {
    match reason {
        Reason::Area => "area of the parts",
        Reason::Row => "parts too wide to lie side by side",
        Reason::Pairs => "parts of which no two can share a sheet",
        Reason::Sets => "large parts, every way of sharing sheets looked at",
        Reason::Weights => "large parts that cannot share a sheet",
        Reason::Blanks => "blanks that cannot share a sheet",
    }
}

fn sheet_json(plan: &Plan, sheet: &PlannedSheet, numbers: Numbers) -> Value {
    let point = |point: geometry::Point| [numbers.millimetres(point.x), numbers.millimetres(point.y)];
    let ring = |corners: &[[units::Length; 2]]| {
        corners.iter().map(|corner| corner.map(|length| numbers.length(length))).collect::<Vec<_>>()
    };
    let pieces = sheet.pieces.iter().map(|piece| {
        json!({
            "mark": plan.flats.parts[piece.part].part.mark,
            "copy": piece.copy,
            "turn": f64::from(piece.place.turn.millidegrees()) / 1000.0,
            "turned_over": piece.place.over,
            "datum": point(piece.place.datum),
        })
    });
    json!({
        "sheet": sheet.laid.name,
        "size": sheet.laid.size.map(|length| numbers.length(length)),
        "outline": sheet.laid.outline.as_ref().map(|outline| ring(outline.corners())),
        "holes": sheet.laid.outline.as_ref().map(|outline| {
            outline.holes().iter().map(|hole| ring(hole)).collect::<Vec<_>>()
        }),
        "torn": sheet.laid.outline.as_ref().map(|outline| {
            let zone = |zone: &job::TornZone| json!({ "outline": ring(&zone.outline), "why": zone.why });
            outline.torn().iter().map(zone).collect::<Vec<_>>()
        }),
        "pieces": pieces.collect::<Vec<_>>(),
        "shared_cuts": sheet.shared.iter().map(|cut| {
            let piece = |piece: usize| {
                let piece = &sheet.pieces[piece];
                json!({ "mark": plan.flats.parts[piece.part].part.mark, "copy": piece.copy })
            };
            let length = |steps: i64| numbers.length(crate::plan::length_of(steps));
            let straight = cut.straight();
            let across = |axis| if axis == nest::rect::Axis::X { "x" } else { "y" };
            let place = |place: geometry::grid::GridPoint| [length(place.x), length(place.y)];
            json!({
                "pieces": [piece(cut.first), piece(cut.second)],
                "across": straight.map(|cut| across(cut.axis)),
                "within": straight.map(|cut| cut.within.map(length)),
                "from": straight.map(|cut| length(cut.from)),
                "to": straight.map(|cut| length(cut.to)),
                "sides": cut.sides.map(|side| side.map(place)),
                "length": numbers.millimetres(crate::plan::shared_length_mm(cut)),
            })
        }).collect::<Vec<_>>(),
        "what_cuts_numbers_mean": super::cutting_words::what_numbers_mean(sheet),
        "cuts": super::cutting_words::steps(plan, sheet),
        "kept_drops": sheet.laid.drops.iter().map(|drop| json!(drop.usable.map(point))).collect::<Vec<_>>(),
        "kept_drops_whole": sheet.laid.drops.iter().map(|drop| drop.whole.map(|whole| whole.map(point))).collect::<Vec<_>>(),
    })
}
