//! Bends and the strips behind them as JSON.

use fold::Direction;
use fold::bend::ShopStrip;
use fold::bend::springback::OverbendOrigin;
use fold::part::Forming;
use job::JobMetal;
use serde_json::{Value, json};

use super::legs_to_check::past_square;
use super::numbers::{Numbers, rounded};
use crate::plan::PlannedPart;
use crate::plan::overbend_of;

/// One bend of a flat, by its number.
pub(crate) fn bend_json(number: usize, part: &PlannedPart, metal: &JobMetal, numbers: Numbers) -> Value {
    let (bend, folded) = (&part.flat.bends[number], &part.shaped.part);
    let point = |point: geometry::Point| [numbers.millimetres(point.x), numbers.millimetres(point.y)];
    json!({
        "between": [part.flat.faces[bend.parent].name, part.flat.faces[bend.child].name],
        "from": point(bend.from),
        "to": point(bend.to),
        "direction": match bend.direction { Direction::Up => "up", Direction::Down => "down" },
        "turn": rounded(bend.turn_rad.to_degrees(), 3),
        "forming": match bend.forming {
            Forming::Brake => "brake",
            Forming::Hem => "hem",
            Forming::Joggle(_) => "joggle",
            Forming::Rolled => "rolled",
            Forming::Bumped(_) => "bumped",
            Forming::Sprung => "sprung",
        },
        "marks": bend.marks(part.flat.thickness_mm).into_iter().map(|(from, to)| [point(from), point(to)]).collect::<Vec<_>>(),
        "inside_radius": numbers.millimetres(bend.inside_radius_mm),
        "allowance": numbers.millimetres(bend.zone_mm),
        "setback": numbers.millimetres(folded.taped_setback_mm(number)),
        "deduction": numbers.millimetres(folded.taped_deduction_mm(number)),
        "legs_to": if past_square(bend) { "outermost metal" } else { "mold line" },
        "strip": metal.number.strips().map(|strips| json!({
            "place": strips.nearest(bend.turn_rad).used.place,
            "carried_over": !strips.is_turn_of_strip(bend.turn_rad),
        })),
        "overbend": overbend_json(part, number, metal),
    })
}

/// How far to press a bend; null for hems and rolled faces.
fn overbend_json(part: &PlannedPart, number: usize, metal: &JobMetal) -> Value {
    match overbend_of(metal, &part.flat.bends[number]) {
        None => Value::Null,
        Some(Err(error)) => json!({ "turn_in_die": null, "by": "nothing", "source": error.to_string() }),
        Some(Ok(overbend)) => {
            let (by, source) = match overbend.origin {
                OverbendOrigin::Strip(strip) => ("strip", strip.place.clone()),
                OverbendOrigin::Estimate(row) => ("estimate", row.source.clone()),
            };
            json!({
                "turn_in_die": rounded(overbend.turn_in_die_rad.to_degrees(), 2),
                "by": by,
                "source": source,
            })
        }
    }
}

/// The strips that stand for a metal: those in use, and those beside them that were bent alike.
pub(crate) fn strips_json(metal: &JobMetal, numbers: Numbers) -> Value {
    let Some(strips) = metal.number.strips() else { return Value::from(Vec::<Value>::new()) };
    let of_turn = |of_turn: &fold::bend::choice::StripsOfTurn| {
        let mut row = strip_json(&of_turn.used, numbers);
        let beside: Vec<Value> = of_turn.others.iter().map(|other| strip_json(other, numbers)).collect();
        row["beside"] = Value::from(beside);
        row["k_factor_may_be_off"] = rounded(of_turn.k_spread(), 4);
        row
    };
    strips.of_turns().iter().map(of_turn).collect()
}

/// One strip, lengths in the job's unit.
fn strip_json(strip: &ShopStrip, numbers: Numbers) -> Value {
    let test = strip.strip();
    json!({
        "place": strip.place,
        "date": strip.date,
        "metal": strip.metal.words(),
        "thickness": numbers.length(test.thickness),
        "inside_radius": numbers.length(test.inside_radius),
        "v_opening": strip.v_opening.map(|v| numbers.length(v)),
        "turn": rounded(test.turn.degrees(), 3),
        "turn_in_die": strip.turn_in_die.map(|turn| rounded(turn.degrees(), 3)),
        "length": numbers.length(test.length),
        "legs": test.legs.map(|leg| numbers.length(leg)),
        "deduction": numbers.length(test.deduction()),
        "k_factor": rounded(strip.k_factor(), 4),
    })
}
