//! What is cut from rolls and from sheets of liner, and what it weighs.

use job::{Job, LinedArea};
use paper::lists::ListUnits;
use paper::lists::passages::{Column, Passage, sheet};
use units::{Length, Mass, MassPerArea};

use crate::plan::balance::MASS_PLACES;
use crate::plan::{LaidCovering, Others, Panel};

/// A panel of matting as it is cut, or a panel of liner.
struct SoftPiece {
    mark: String,
    quantity: i64,
    what: String,
    size: [Length; 2],
    /// Weight of one as it prints; none where the job gives no weight per area.
    each: Option<Mass>,
}

fn each(job: &Job, weight: Option<MassPerArea>, size: [Length; 2]) -> Option<Mass> {
    let unit = ListUnits::of(job.style).mass;
    weight.map(|weight| weight.over(size[0] * size[1]).as_printed(unit, MASS_PLACES))
}

/// The panels of one roll, those of all copies of a piece together.
fn of_roll<'a>(job: &'a Job, laid: &'a LaidCovering) -> impl Iterator<Item = SoftPiece> + 'a {
    let covering = &job.coverings[laid.covering];
    let firsts = laid.panels.iter().filter(|panel| panel.copy == 1);
    firsts.map(move |panel| {
        let Panel { piece, number: (number, count), size, .. } = *panel;
        let piece = &covering.pieces[piece];
        let of =
            if count == 1 { String::new() } else { format!(", panel {number} of {count} from the left") };
        SoftPiece {
            mark: format!("{}{of}", piece.mark),
            quantity: i64::from(piece.quantity),
            what: covering.name.clone(),
            size,
            each: each(job, covering.weight, size),
        }
    })
}

/// Panels of rolls as they are cut, what lies past their seams with them, then panels of liner.
fn pieces(job: &Job, others: &Others) -> Vec<SoftPiece> {
    let rolls = others.coverings.iter().flat_map(|laid| of_roll(job, laid));
    let panels = others.liners.iter().flat_map(|cut| {
        let liner = &job.liners[cut.liner];
        liner.areas.iter().zip(&cut.faces).map(move |(LinedArea { mark, quantity, .. }, face)| {
            let size = face.sides.map(|side| side.panel);
            SoftPiece {
                mark: format!("{mark} panel"),
                quantity: face.sides.iter().map(|side| side.count).product::<i64>() * i64::from(*quantity),
                what: liner.name.clone(),
                size,
                each: each(job, liner.weight, size),
            }
        })
    });
    rolls.chain(panels).collect()
}

/// The list of all pieces with their weights; nothing for a job without coverings and liners.
pub(crate) fn list(job: &Job, others: &Others) -> Vec<Passage> {
    let pieces = pieces(job, others);
    if pieces.is_empty() {
        return Vec::new();
    }
    let unit = ListUnits::of(job.style).mass;
    let size = "size of a panel as it is cut, what lies past its seams with it";
    let columns = vec![
        Column::words("mark"),
        Column::numbers("make", "quantity in the job; panels of all faces of the mark"),
        Column::words("what"),
        Column::numbers("length", size),
        Column::numbers("width", size),
        Column::numbers(format!("each, {}", unit.name()), "length × width × weight per area in the job"),
        Column::numbers(format!("all, {}", unit.name()), "make × the printed weight of one")
            .summed("sum of the column"),
    ];
    let weight = |mass: Option<Mass>| {
        mass.map_or_else(|| "not weighed".to_owned(), |mass| mass.print(unit, MASS_PLACES))
    };
    let row = |piece: &SoftPiece| {
        let [length, width] = piece.size.map(|side| side.print(job.style));
        vec![
            piece.mark.clone(),
            piece.quantity.to_string(),
            piece.what.clone(),
            length,
            width,
            weight(piece.each),
            weight(piece.each.map(|mass| mass * piece.quantity)),
        ]
    };
    let all = || pieces.iter().filter_map(|piece| piece.each.map(|mass| mass * piece.quantity));
    let sum = (0 < all().count()).then(|| {
        let mut sum = vec!["all that is weighed".to_owned()];
        sum.resize(columns.len() - 1, String::new());
        sum.push(all().sum::<Mass>().print(unit, MASS_PLACES));
        sum
    });
    let rows = pieces.iter().map(row).collect();
    let mut passages =
        vec![Passage::Heading("\nMatting and liner to cut\n".to_owned()), sheet(columns, rows, sum)];
    passages.extend(not_weighed(job).map(|words| Passage::Words(format!("{words}\n"))));
    passages
}

/// Rolls and sheets of liner of which the job gives no weight per area: "rolls of deck matting", "sheets of wear liner".
pub(crate) fn without_weight(job: &Job) -> Vec<String> {
    let rolls = job.coverings.iter().filter(|covering| covering.weight.is_none());
    let rolls = rolls.map(|covering| format!("rolls of {}", covering.name));
    let sheets = job.liners.iter().filter(|liner| liner.weight.is_none());
    rolls.chain(sheets.map(|liner| format!("sheets of {}", liner.name))).collect()
}

/// "Not weighed: deck matting: no weight given. …", where the job gives no weight per area of something.
fn not_weighed(job: &Job) -> Option<String> {
    let rolls = job.coverings.iter().map(|covering| (&covering.name, covering.weight));
    let liners = job.liners.iter().map(|liner| (&liner.name, liner.weight));
    let names: Vec<&str> =
        rolls.chain(liners).filter(|(_, weight)| weight.is_none()).map(|(name, _)| name.as_str()).collect();
    (!names.is_empty()).then(|| {
        let names = names.join("; ");
        format!(
            "Not weighed: {names}: no weight per area is given in the job. Take it from the maker's data."
        )
    })
}

/// Said under weights of parts and of stations, which hold no matting and no liner of their own accord.
pub(crate) fn left_out(job: &Job) -> Option<String> {
    let has_any = !job.coverings.is_empty() || !job.liners.is_empty();
    let soft = has_any.then(|| {
        let known = not_weighed(job).unwrap_or_default();
        format!("Matting and liner are not in these weights, but in the list of what is cut of them. {known}")
            .trim_end()
            .to_owned()
    });
    let all: Vec<String> = soft.into_iter().chain(bars_left_out(job)).collect();
    (!all.is_empty()).then(|| all.join("\n"))
}

/// That bars, pipe and section are in no weight: the job gives none of theirs.
pub(crate) fn bars_left_out(job: &Job) -> Option<String> {
    let names: Vec<&str> = job.bars.iter().map(|bar| bar.name.as_str()).collect();
    (!names.is_empty()).then(|| {
        format!(
            "Bars, pipe and section are not in these weights: what {} weighs is not in the job. Take it from the maker's data.",
            names.join("; ")
        )
    })
}
