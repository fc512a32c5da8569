//! Rows of the lists: what to cut, and what each choice of sheets takes.

use nest::Choice;
use paper::lists::cut_list::CutRow;
use paper::lists::sheet_choices::{Limit, Proof, SheetChoice, Taken};
use paper::lists::{ListUnits, sheet_choices};
use units::{Length, Money};

use super::nest_json::reason_words;
use super::words::named_metal_words;
use super::{cutting_words, drawings};
use crate::costing::lines_of;
use crate::plan::{MetalNest, Plan, PlannedPart, area_of, choice_words, effort, no_nest_words, sheet_words};

/// The cut list.
pub(crate) fn cut_rows(plan: &Plan) -> Vec<CutRow> {
    plan.flats.parts.iter().enumerate().map(|(number, part)| cut_row(plan, number, part)).collect()
}

fn cut_row(plan: &Plan, number: usize, part: &PlannedPart) -> CutRow {
    let metal = &plan.flats.job.metals[part.part.metal];
    let (length, width) = part.flat.extents_mm();
    let holds = |sheet: &&crate::plan::PlannedSheet| sheet.pieces.iter().any(|piece| piece.part == number);
    let sheets = plan.nests.iter().flat_map(|nest| &nest.sheets).filter(holds);
    CutRow {
        mark: part.part.mark.clone(),
        quantity: part.part.quantity,
        what: drawings::title(&plan.flats, part),
        metal: metal.metal.name.clone(),
        thickness: metal.metal.thickness,
        blank: [length, width].map(Length::from_millimetres),
        area: part.area,
        weight: part.weight,
        weight_from: drawings::weight_origin(metal),
        sheets: sheets.map(|sheet| sheet.mark.clone()).collect(),
        // A test strip is drawn flat, and bent once across its middle.
        bends: if drawings::is_strip(&plan.flats, part) {
            1
        } else {
            u32::try_from(part.flat.bends.len()).unwrap_or(u32::MAX)
        },
        cut_length: part.cut_length(),
    }
}

/// The choices of sheets for one metal.
pub(crate) fn sheet_choices(plan: &Plan, nest: &MetalNest) -> Vec<SheetChoice> {
    let style = plan.flats.job.style;
    let row = |(number, row): (usize, &nest::Row)| SheetChoice {
        name: match (&row.outcome, row.choice) {
            (Ok(nested), Choice::Mix) => mix_words(nest, &nested.take, style),
            _ => choice_words(nest, row.choice, style),
        },
        outcome: match &row.outcome {
            Ok(nested) => Ok(taken(plan, nest, number, nested)),
            Err(no_nest) => Err(no_nest_words(&plan.flats, nest.metal, no_nest)),
        },
        chosen: number == nest.comparison.best,
    };
    let rows = nest.comparison.rows.iter().enumerate();
    rows.filter(|&(number, _)| number == nest.comparison.best || repeated(nest, number).is_none())
        .map(row)
        .collect()
}

/// The row of a single size that takes the same as the mix of this row: that one says what is proved of both.
fn repeated(nest: &MetalNest, mix: usize) -> Option<usize> {
    let rows = &nest.comparison.rows;
    let take = |row: &nest::Row| row.outcome.as_ref().ok().map(|nested| nested.take.clone());
    let taken = take(&rows[mix]).filter(|_| rows[mix].choice == Choice::Mix)?;
    let alone = |row: &nest::Row| row.choice != Choice::Mix && take(row).as_ref() == Some(&taken);
    rows.iter().position(alone)
}

/// What is proved of the mix that a row of a single size stands for, where it does.
fn as_mix(nest: &MetalNest, number: usize) -> Option<Proof> {
    let rows = nest.comparison.rows.iter().enumerate();
    let is_told_here =
        |&(mix, _): &(usize, &nest::Row)| mix != nest.comparison.best && repeated(nest, mix) == Some(number);
    let (_, mix) = rows.into_iter().find(is_told_here)?;
    mix.outcome.as_ref().ok().map(|nested| proof(nest, mix.choice, nested))
}

/// "47 × 62 1/2, one of it: On the rack.": what the job notes of its sheets, where they are a choice.
pub(crate) fn sheet_notes(plan: &Plan, nest: &MetalNest) -> Vec<String> {
    let noted = nest.sizes.iter().filter(|size| !size.notes.is_empty());
    let words = |size: &job::JobSheet| {
        let count = match size.count {
            None => String::new(),
            Some(1) => ", one of it".to_owned(),
            Some(count) => format!(", {count} of it"),
        };
        format!("{}{count}: {}", sheet_words(size, plan.flats.job.style), size.notes.join(" "))
    };
    noted.map(words).chain(free_first(plan, nest)).collect()
}

/// Why a sheet that costs nothing is taken where just as much is paid without it; `None` where none is.
pub(crate) fn free_first(plan: &Plan, nest: &MetalNest) -> Option<String> {
    let rows = &nest.comparison.rows;
    let taken = rows[nest.comparison.best].outcome.as_ref().ok()?;
    let used = nest.sizes.iter().zip(&taken.take.sheets).filter(|(_, count)| **count > 0);
    let free: Vec<String> = used
        .filter(|(size, _)| size.price == Some(Money::ZERO))
        .map(|(size, _)| sheet_words(size, plan.flats.job.style))
        .collect();
    let others = rows.iter().enumerate().filter(|(number, _)| *number != nest.comparison.best);
    let without = |row: &nest::Row| {
        row.outcome
            .as_ref()
            .is_ok_and(|other| other.take.money == taken.take.money && other.take.sheets != taken.take.sheets)
    };
    let is_tie = is_priced(nest) && others.into_iter().any(|(_, row)| without(row));
    (is_tie && !free.is_empty()).then(|| {
        let (goes, them, they) = match free[..] {
            [_] => ("goes", "it", "it costs nothing, is used up before it is damaged or lost, and leaves"),
            _ => ("go", "them", "they cost nothing, are used up before they are damaged or lost, and leave"),
        };
        format!(
            "{} {goes} first though the price is the same without {them}: {they} more of the sheets that are bought.",
            free.join("; ")
        )
    })
}

/// "best mix: 1 of 48 × 96, 1 of 60 × 120".
pub(crate) fn mix_words(nest: &MetalNest, take: &nest::Take, style: units::LengthStyle) -> String {
    let used = take.sheets.iter().enumerate().filter(|(_, count)| **count > 0);
    let words: Vec<String> = used
        .map(|(size, count)| format!("{count} of {}", choice_words(nest, Choice::Alone(size), style)))
        .collect();
    format!("{}: {}", which_mix(nest, take), words.join(", "))
}

/// "best mix", or "another mix" for one whose sheets come to more: it is told for what an order adds to them.
pub(crate) fn which_mix(nest: &MetalNest, take: &nest::Take) -> &'static str {
    if is_dearer_mix(nest, take) { "another mix" } else { "best mix" }
}

/// Whether the first mix of the comparison comes to less for its sheets.
fn is_dearer_mix(nest: &MetalNest, take: &nest::Take) -> bool {
    let of_mix = nest.comparison.rows.iter().filter(|row| row.choice == Choice::Mix);
    let first = of_mix.filter_map(|row| row.outcome.as_ref().ok()).next();
    first.is_some_and(|first| cost(nest, &first.take) < cost(nest, take))
}

/// Money where every size has a price, else area.
fn cost(nest: &MetalNest, take: &nest::Take) -> i128 {
    take.money.filter(|_| is_priced(nest)).map_or(take.area, i128::from)
}

fn taken(plan: &Plan, nest: &MetalNest, number: usize, nested: &nest::Nested) -> Taken {
    let terms = &plan.flats.job.buying.terms;
    let has_terms = *terms != estimate::Terms::default();
    Taken {
        sheets: nested.take.count(),
        area: area_of(nested.take.area),
        money: nested.take.money.and_then(|cents| i64::try_from(cents).ok()).map(Money::from_cents),
        yield_permille: nested.take.yield_permille(),
        proof: proof(nest, nest.comparison.rows[number].choice, nested),
        as_mix: as_mix(nest, number),
        order: has_terms.then(|| estimate::purchase(terms, &lines_of(plan, nest, number))),
    }
}

/// What is proved of one choice.
pub(crate) fn proof(nest: &MetalNest, choice: Choice, nested: &nest::Nested) -> Proof {
    let bound = &nested.bound;
    match choice {
        Choice::Alone(_) => Proof::LeastSheets(Limit {
            sheets: bound.sheets,
            argument: reason_words(bound.reason).to_owned(),
            areas: [bound.needed_area, bound.sheet_area].map(area_of),
        }),
        Choice::Mix if is_dearer_mix(nest, &nested.take) => Proof::DearerMix,
        Choice::Mix => {
            let proved = is_proved_cheapest(nest, nested);
            if is_priced(nest) {
                let least = i64::try_from(bound.cost).ok().map(Money::from_cents);
                let with_free = nest.sizes.iter().any(|size| size.price == Some(Money::ZERO));
                Proof::LeastPrice { proved, least, with_free }
            } else {
                Proof::LeastArea { proved }
            }
        }
    }
}

/// Whether money decides: every size has a price, and not all are given away.
pub(super) fn is_priced(nest: &MetalNest) -> bool {
    let prices = || nest.sizes.iter().map(|size| size.price);
    prices().all(|price| price.is_some()) && prices().flatten().any(|price| price != Money::ZERO)
}

/// The bound is of money where every size has a price, else of area.
pub(super) fn is_proved_cheapest(nest: &MetalNest, nested: &nest::Nested) -> bool {
    cost(nest, &nested.take) <= nested.bound.cost
}

/// The comparison of sheets for the terminal, then what lies on each sheet.
pub(crate) fn nest_text(plan: &Plan) -> String {
    let job = &plan.flats.job;
    let units = ListUnits::of(job.style);
    let mut blocks = Vec::new();
    for nest in &plan.nests {
        let metal = &job.metals[nest.metal];
        let name = named_metal_words(job, metal);
        blocks.push(sheet_choices::text(&name, &sheet_choices(plan, nest), units));
        blocks.extend(sheet_notes(plan, nest).into_iter().map(|note| note + "\n"));
        blocks.extend(one_sheet_words(plan, nest.metal));
        for sheet in &nest.sheets {
            let on_it: Vec<String> = sheet
                .pieces
                .iter()
                .map(|piece| {
                    let part = &plan.flats.parts[piece.part].part;
                    format!("{} no. {} of {}", part.mark, piece.copy, part.quantity)
                })
                .collect();
            blocks.push(format!("{}: {}\n", sheet.laid.name, on_it.join(", ")));
            blocks.push(cutting_words::text(plan, sheet));
        }
    }
    blocks.push(format!("{}\n", paper::cautions::CUTTING_UP));
    blocks.push(effort_words(plan));
    blocks.join("\n").trim_end().to_owned()
}

/// "Every row was looked for within 10000 evaluations (seed 1) and verified."
fn effort_words(plan: &Plan) -> String {
    let nest::Effort { evaluations, seed, .. } = effort(&plan.flats.job);
    let asked = format!("{evaluations} evaluations (seed {seed})");
    if plan.ended_early {
        format!(
            "The search was ended before its {asked} were used: these are the best nests so far, verified. The same \
             job need not give them again."
        )
    } else {
        format!("Every row was looked for within {asked} and verified.")
    }
}

/// "Kept on one sheet: WL1, WL2, WL3, turned alike."
fn one_sheet_words(plan: &Plan, metal: usize) -> Vec<String> {
    let job = &plan.flats.job;
    let own = |group: &&job::OneSheet| group.parts.iter().any(|&part| job.parts[part].metal == metal);
    let words = |group: &job::OneSheet| {
        let marks: Vec<&str> = group.parts.iter().map(|&part| job.parts[part].mark.as_str()).collect();
        let alike = if group.same_turn { ", turned alike" } else { "" };
        format!("Kept on one sheet: {}{alike}.\n", marks.join(", "))
    };
    job.one_sheet.iter().filter(own).map(words).collect()
}
