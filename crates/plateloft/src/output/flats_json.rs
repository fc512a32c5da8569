//! `flats.json`: every number of every flat, lengths from the datum corner.

use fold::SeamStyle;
use fold::part::Seam;
use fold::refold::SeamGap;
use geometry::Point3;
use job::Job;
use serde_json::{Value, json};
use shapes::{Fact, FactValue};

use super::bend_json::{bend_json, strips_json};
use super::bend_words::number_words;
use super::folded::{joined_name, least_mm, style_words};
use super::numbers::{Numbers, rounded};
use super::relief_words::cut_relief;
use super::remarks::radius_cautions;
use super::words::figure_words;
use super::{bend_cards, roll_cards};
use super::{fits, hands};
use crate::plan::{Flats, PlannedPart};

/// The whole file.
pub(crate) fn flats_json(flats: &Flats) -> Value {
    let numbers = Numbers::of(&flats.job);
    let (area_unit, weight_unit) = numbers.other_units();
    json!({
        "plateloft": 1,
        "job": flats.job.name,
        "revision": flats.job.revision,
        "date": flats.job.date,
        "units": { "length": numbers.length_unit(), "area": area_unit, "weight": weight_unit, "angle": "degree" },
        "origin": "datum corner: lower left of the smallest upright rectangle round the flat, seen from the marked face",
        "assumptions": flats.job.assumptions,
        "cautions": radius_cautions(flats).chain(flats.job.cautions.iter().cloned()).collect::<Vec<_>>(),
        "overrides": overrides(&flats.job),
        "openings": flats.job.openings.iter().map(|opening| opening_json(opening, numbers)).collect::<Vec<_>>(),
        "fits": fits::json(flats),
        "parts": flats.parts.iter().map(|part| part_json(part, flats, numbers)).collect::<Vec<_>>(),
    })
}

fn overrides(job: &Job) -> Vec<Value> {
    let rows = job.metals.iter().flat_map(|metal| metal.metal.overrides.iter().map(move |row| (metal, row)));
    rows.map(|(metal, row)| {
        json!({
            "metal": metal.metal.name,
            "figure": row.figure.name(),
            "table": figure_words(job, row.table),
            "table_source": row.table_source,
            "job": figure_words(job, row.job),
        })
    })
    .collect()
}

fn opening_json(opening: &job::JobOpening, numbers: Numbers) -> Value {
    let check = opening.solved.check.as_ref().map(|check| {
        json!({
            "diagonal": check.diagonal,
            "taped": numbers.length(check.taped),
            "computed": numbers.length(check.computed),
            "explained_by_tape": numbers.length(check.allowed),
            "agrees": check.explained(),
        })
    });
    json!({
        "name": opening.name,
        "facts": opening.solved.facts().iter().map(|fact| fact_json(fact, numbers)).collect::<Vec<_>>(),
        "check": check,
    })
}

/// Holes of a folded part as designed and as refolded; middles on the marked side, x and y in the coordinates of its first
/// face and the height above the back of that.
fn holes_json(part: &PlannedPart, numbers: Numbers) -> Vec<Value> {
    let middle = |at: Point3| [at.x, at.y, at.z].map(|millimetres| numbers.millimetres(millimetres));
    let folded = part.proof.holes.iter().filter(|_| !part.flat.bends.is_empty());
    folded
        .map(|hole| {
            json!({
                "name": hole.name,
                "middle_designed": middle(hole.expected),
                "middle_refolded": middle(hole.measured),
                "across_designed": numbers.millimetres(hole.expected_across_mm),
                "across_refolded": numbers.millimetres(hole.measured_across_mm),
            })
        })
        .collect()
}

fn part_json(part: &PlannedPart, flats: &Flats, numbers: Numbers) -> Value {
    let job = &flats.job;
    let metal = &job.metals[part.part.metal];
    let (length, width) = part.flat.extents_mm();
    let bends = (0..part.flat.bends.len()).map(|number| bend_json(number, part, metal, numbers));
    let spread = part.flat.spread_mm(&metal.number);
    json!({
        "mark": part.part.mark,
        "shape": part.part.shape.recipe().word(),
        "quantity": part.part.quantity,
        "opposite_hand_of": part.part.opposite_hand_of,
        "pair": hands::pair_json(flats, part),
        "metal": metal.metal.name,
        "alloy": metal.metal.alloy_and_temper(),
        "thickness": numbers.length(metal.metal.thickness),
        "inside_radius": numbers.length(metal.number.inside_radius()),
        "face": part.face_words(metal),
        "bend_number": number_words(&part.shaped.part, &part.flat, job.style),
        "strips": strips_json(metal, numbers),
        "blank": [numbers.millimetres(length), numbers.millimetres(width)],
        "blank_may_be_off": [numbers.millimetres(spread.0), numbers.millimetres(spread.1)],
        "area": numbers.area(part.area),
        "weight": numbers.mass_of_one(part.weight),
        "cut_length": numbers.length(part.cut_length()),
        "bends": bends.collect::<Vec<_>>(),
        "bend_order": bend_cards::order_json(part, numbers),
        "rolled_ring": roll_cards::json(flats, part, numbers),
        "sizes": part.proof.sizes.iter().map(|size| json!({
            "name": size.name,
            "designed": numbers.millimetres(size.expected_mm),
            "refolded": numbers.millimetres(size.measured_mm),
        })).collect::<Vec<_>>(),
        "holes": holes_json(part, numbers),
        "corner_relief": cut_relief(part, job.style),
        "seams": seams_json(job, part, numbers),
        "worst_refold_deviation_mm": (!part.flat.bends.is_empty()).then(|| rounded(part.proof.worst_mm, 6)),
        "facts": part.shaped.facts.iter().map(|fact| fact_json(fact, numbers)).collect::<Vec<_>>(),
        "cautions": part.findings.iter().map(ToString::to_string).collect::<Vec<_>>(),
        "notes": part.part.notes,
    })
}

fn seams_json(job: &Job, part: &PlannedPart, numbers: Numbers) -> Vec<Value> {
    let seam = |(seam, design): (&SeamGap, &Seam)| {
        let mut row = json!({
            "name": seam.name,
            "style": style_word(design.style),
            "made": style_words(job, &part.shaped.part, design),
            "inside_angle": rounded(seam.inside_angle_rad.to_degrees(), 3),
            "length_outside": numbers.millimetres(seam.length_mm),
            "designed_gap": numbers.millimetres(design.gap_mm),
            "least_gap": numbers.millimetres(least_mm(seam)),
            "largest_gap": numbers.millimetres(seam.largest_mm),
            "interference": numbers.millimetres(seam.interference_mm),
        });
        if let Some(open_mm) = seam.at_cut_off_mm {
            row["open_at_cut_corners"] = json!(numbers.millimetres(open_mm));
        }
        if let Some((near_mm, [first, second])) = &seam.near_bend {
            row["least_at"] = json!({"gap": numbers.millimetres(*near_mm), "between": [first, second]});
        }
        row
    };
    let own = part.proof.seams.iter().zip(&part.shaped.part.seams).map(seam);
    own.chain(joined_json(part, numbers)).collect()
}

/// Seams to other pieces of the whole, measured on both, put together.
fn joined_json(part: &PlannedPart, numbers: Numbers) -> impl Iterator<Item = Value> + '_ {
    let measured = part.shaped.facts.iter().filter_map(|fact| Some((fact, fact.gap.as_ref()?)));
    measured.map(move |(fact, gap)| {
        json!({
            "name": joined_name(fact),
            "between_pieces": true,
            "made": gap.made,
            "inside_angle": rounded(gap.inside_angle_rad.to_degrees(), 3),
            "length_outside": numbers.millimetres(gap.length_mm),
            "designed_gap": numbers.millimetres(gap.designed_mm),
            "least_gap": numbers.millimetres(gap.least_mm),
            "largest_gap": numbers.millimetres(gap.largest_mm),
            "interference": numbers.millimetres(gap.interference_mm),
        })
    })
}

/// The word of the job file for a style of corner.
const fn style_word(style: SeamStyle) -> &'static str {
    match style {
        SeamStyle::Open => "open",
        SeamStyle::Butt { .. } => "butt",
        SeamStyle::Lap { .. } => "lap",
        SeamStyle::TabAndSlot { .. } => "tab_and_slot",
    }
}

/// A fact in the job's units.
pub(super) fn fact_json(fact: &Fact, numbers: Numbers) -> Value {
    let value = match &fact.value {
        FactValue::Length(length) | FactValue::About(length) => numbers.length(*length),
        FactValue::Angle(angle) => rounded(angle.degrees(), 3),
        FactValue::Area(area) => numbers.area(*area),
        FactValue::Volume { cubic_millimetres } => Value::from(numbers.volume_words(*cubic_millimetres)),
        FactValue::Words(words) => Value::from(words.as_str()),
    };
    json!({ "name": fact.name, "value": value, "origin": fact.origin })
}
