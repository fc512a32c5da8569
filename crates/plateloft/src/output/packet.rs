//! All files of a packet.

use estimate::{OrderLine, purchase};
use paper::Page;
use paper::layout_sheet::Sheets;
use paper::lists::buying::ScrapCredit;
use paper::lists::passages::{Passage, wrapped};
use paper::packet::{Chapter, DrawnPart, DrawnSheet, FactTable, MetalChoices, Packet, Papers, PieceLabel};
use paper::plain_outline::{self, PlainOutline};
use paper::sheet_map::drop_mark;
use paper::{cautions, lists, packet, pdf, scrap_report};
use rayon::prelude::*;
use serde_json::Value;
use units::Money;

use super::bend_cards;
use super::cutting_words;
use super::drawings::{self, fact_words};
use super::edition::{edition, head};
use super::fits;
use super::flats_json::flats_json;
use super::folded::{folded, folded_page, model_page};
use super::folder::{Files, pages_of};
use super::nest_json::nest_json;
use super::packet_full_size::{self, FullSize};
use super::remarks::assumptions_and_cautions;
use super::rows::{cut_rows, sheet_choices, sheet_notes};
use super::scrap_json::scrap_json;
use super::words::named_metal_words;
use super::{covering_maps, packet_chapters, packet_labels, soft_goods, wholes};
use crate::costing::lines_of;
use crate::plan::{KeptDrop, MetalNest, Others, Plan, PlannedPart, PlannedSheet, cut_bars, drop_words};
use crate::speech::Refusal;

/// How a packet is wanted.
#[derive(Debug, Clone)]
pub(crate) struct PacketAsked {
    /// A model of paper of every bent part.
    pub(crate) with_models: bool,
    /// What it is printed on.
    pub(crate) papers: Papers,
    /// Patterns in full size.
    pub(crate) full_size: Option<FullSize>,
}

/// The files of a packet.
///
/// # Errors
/// A packet too large for one PDF, patterns that take too many leaves, bars that cannot be cut.
pub(crate) fn packet(plan: &Plan, asked: &PacketAsked) -> Result<Files, Refusal> {
    let mut files = Files::default();
    let job = &plan.flats.job;
    let units = lists::ListUnits::of(job.style);
    let (parts, sheets) = rayon::join(|| drawn_parts(plan, asked.with_models), || drawn_sheets(plan));
    files.add_drawings(&drawings_of(&parts, &sheets));
    for part in &plan.flats.parts {
        files.add(format!("parts/{}.txt", part.part.mark), outline_text(plan, part));
    }
    let cut_list = cut_rows(plan);
    files.add("cut-list.csv", lists::cut_list::csv(&cut_list, units));
    files.add("scrap-report.txt", scrap_text(plan));
    files.add("scrap-report.json", pretty(&scrap_json(job, &plan.report)));
    files.add("flats.json", pretty(&flats_json(&plan.flats)));
    files.add("nest.json", pretty(&nest_json(plan)));
    let sheets: Vec<DrawnSheet> = sheets.into_iter().map(|(_, drawn)| drawn).collect();
    let bars = scrap_report::bars(&job.name, &plan.report);
    let (bars_cut, others) = (cut_bars(&plan.flats)?, Others::of(&plan.flats.file, job)?);
    let also_cut = soft_goods::list(job, &others);
    let list = lists::cut_list::text(&job.name, &cut_list, units);
    files.add("cut-list.txt", list + &lists::passages::in_text(&also_cut));
    let (chapters, falls) = packet_chapters::chapters(plan, &bars_cut, &others)?;
    let also_to_buy = packet_chapters::also_to_buy(plan, &bars_cut, &others);
    let mut labels = packet_labels::labels(plan, &parts);
    labels.extend(covering_maps::labels(job, &others));
    let drawn = Drawn {
        parts: &parts,
        sheets: &sheets,
        cut_list: &cut_list,
        also_cut: &also_cut,
        bars: &bars,
        chapters: &chapters,
        falls: &falls,
        also_to_buy: &also_to_buy,
        labels: &labels,
    };
    if let Some(full_size) = &asked.full_size {
        packet_full_size::add(&mut files, plan, full_size, &edition(&plan.flats.job))?;
    }
    with_packet(plan, units, drawn, |packet| {
        let leaves = packet::leaves(packet, &asked.papers);
        let (html, pdf) = rayon::join(|| packet::html(packet, &leaves), || pdf::write(packet.job, &leaves));
        files.add("index.html", html);
        files.add("packet.pdf", pdf.map_err(|error| Refusal::bad(format!("{}: {error}", plan.flats.file)))?);
        Ok(files)
    })
}

/// Every drawing that has a file of its own, with its path.
fn drawings_of<'a>(parts: &'a [DrawnPart], sheets: &'a [(String, DrawnSheet)]) -> Vec<(String, &'a Page)> {
    let of_part = |part: &'a DrawnPart| {
        [
            pages_of("parts", &part.mark, [&part.page]),
            pages_of("numbers", &part.mark, &part.numbers),
            pages_of("folded", &part.mark, &part.folded),
            pages_of("models", &part.mark, &part.model),
            pages_of("points", &part.mark, &part.points),
            pages_of("details", &part.mark, &part.details),
            pages_of("bends", &part.mark, &part.bend_cards),
        ]
    };
    let of_parts = parts.iter().flat_map(of_part).flatten();
    of_parts.chain(sheets.iter().flat_map(|(mark, sheet)| pages_of("sheets", mark, &sheet.pages))).collect()
}

/// What was drawn and listed for a packet.
#[derive(Clone, Copy)]
struct Drawn<'a> {
    parts: &'a [DrawnPart],
    sheets: &'a [DrawnSheet],
    cut_list: &'a [lists::cut_list::CutRow],
    also_cut: &'a [Passage],
    bars: &'a Page,
    chapters: &'a [Chapter],
    falls: &'a [String],
    also_to_buy: &'a [String],
    labels: &'a [PieceLabel],
}

/// What becomes of every sheet, and what the dealer pays for the scrap.
pub(crate) fn scrap_text(plan: &Plan) -> String {
    let units = lists::ListUnits::of(plan.flats.job.style);
    let kept = kept_drops(plan);
    let kept = if kept.is_empty() { String::new() } else { format!("\n{}\n", wrapped(&kept.join("\n"))) };
    let credit = credit(plan).map(|credit| format!("\n{}", credit.text(&plan.report, units)));
    let money = lists::money_words(plan.flats.job.currency.as_deref());
    let report = scrap_report::text(&plan.flats.job.name, &plan.report, units);
    format!("{report}{kept}{}\n{}", credit.unwrap_or_default(), wrapped(&money))
}

/// Every kept drop with its sizes, a sentence each, and by which of them it is counted; what the report leaves out.
fn kept_drops(plan: &Plan) -> Vec<String> {
    let job = &plan.flats.job;
    let sheets = plan.nests.iter().flat_map(|nest| &nest.sheets);
    let of_sheet = |sheet: &PlannedSheet| {
        let (mark, drops) = (sheet.mark.clone(), sheet.laid.drops.clone());
        let words = move |(number, drop): (usize, &KeptDrop)| {
            format!("drop {} of {mark}: {}.", drop_mark(number), drop_words(job, drop))
        };
        drops.iter().enumerate().map(words).collect::<Vec<_>>()
    };
    let mut kept: Vec<String> = sheets.flat_map(of_sheet).collect();
    if !kept.is_empty() {
        kept.insert(0, KEPT_WHOLE.to_owned());
    }
    if !job.bars.is_empty() && !plan.report.sheets.is_empty() {
        kept.push(NO_BARS.to_owned());
    }
    kept
}

/// Said where sticks are bought on the same order.
const NO_BARS: &str = "Sheets alone are in this report: what sticks of bar, pipe and section cost, and what is left of them, stands \
                       with the order and with the cutting list of the bars.";

/// Said ahead of the kept drops.
const KEPT_WHOLE: &str = "A kept drop is counted whole, as it comes off and goes to the rack; whether it is kept goes by what of it \
                          can be used.";

/// What the dealer pays for the scrap, where the job says.
fn credit(plan: &Plan) -> Option<ScrapCredit> {
    let price = *plan.flats.job.buying.scrap_credit.set()?;
    let weights = scrap_report::saleable(&plan.report, lists::ListUnits::of(plan.flats.job.style));
    Some(ScrapCredit { credits: estimate::worths(&weights, price), weights, rate: price.print() })
}

/// Puts the packet together for `write`.
fn with_packet<T>(
    plan: &Plan,
    units: lists::ListUnits,
    drawn: Drawn<'_>,
    write: impl FnOnce(&Packet<'_>) -> T,
) -> T {
    let job = &plan.flats.job;
    // The chapter of weights raises one caution for all that is heavy, sheets too.
    let (assumptions, mut cautions) = assumptions_and_cautions(plan, &["heavy_part"]);
    cautions.extend(drawn.falls.iter().cloned());
    let head = head(job);
    let money = lists::money_words(job.currency.as_deref());
    let mut choices: Vec<MetalChoices> = plan
        .nests
        .iter()
        .map(|nest| {
            let metal = &job.metals[nest.metal];
            MetalChoices {
                metal: named_metal_words(job, metal),
                choices: sheet_choices(plan, nest),
                notes: sheet_notes(plan, nest),
            }
        })
        .collect();
    if let Some(last) = choices.last_mut() {
        last.notes.extend(together_words(plan));
        last.notes.push(money.clone());
    }
    write(&Packet {
        job: &job.name,
        head: &head,
        notes: &job.notes,
        assumptions: &assumptions,
        cautions: &cautions,
        standing_cautions: &cautions::standing(speaks(plan)),
        openings: &openings(plan),
        fits: &fits::drawn(&plan.flats),
        choices: &choices,
        also_to_buy: drawn.also_to_buy,
        sheets: drawn.sheets,
        parts: drawn.parts,
        wholes: &wholes::to_check(&plan.flats),
        metal_origins: &drawings::springback_facts(&plan.flats),
        labels: drawn.labels,
        cut_list: drawn.cut_list,
        also_cut: drawn.also_cut,
        chapters: drawn.chapters,
        kept_drops: &kept_drops(plan),
        scrap: (!plan.report.sheets.is_empty()).then_some((&plan.report, drawn.bars)),
        credit: credit(plan).as_ref(),
        money: &money,
        units,
    })
}

/// What the sheets of all metals come to in one order, where there are several metals and all terms are known.
fn together_words(plan: &Plan) -> Option<String> {
    let metals = plan.nests.iter().map(|nest| lines_of(plan, nest, nest.comparison.best));
    let lines: Vec<OrderLine> = metals.flatten().collect();
    let whole = purchase(&plan.flats.job.buying.terms, &lines);
    let (total, goods) = (whole.total?, whole.goods?);
    let named = [
        ("up to the minimum", whole.up_to_minimum),
        ("cuts", whole.cuts),
        ("freight for long sheets", whole.over_length),
        ("delivery", whole.delivery),
        ("tax", whole.tax),
    ];
    let more = named
        .into_iter()
        .filter_map(|(name, money)| Some((name, money.filter(|money| *money != Money::ZERO)?)));
    let more: String = more.map(|(name, money)| format!(", {name} {}", money.print())).collect();
    let goods = goods.print();
    (1 < plan.nests.len()).then(|| {
        format!("Sheets of all metals as one order: {} together (goods {goods}{more}).", total.print())
    })
}

fn speaks(plan: &Plan) -> cautions::Speaks {
    let is_cover = |part: &PlannedPart| matches!(part.part.shape, job::ShapeInput::Covers(_));
    let has_film =
        |part: &PlannedPart| plan.flats.job.metals[part.part.metal].metal.film != stock::Film::Bare;
    let parts = &plan.flats.parts;
    cautions::Speaks {
        lids: parts.iter().any(|part| part.part.shape.recipe().is_lid() && !is_cover(part)),
        covers: parts.iter().any(is_cover),
        film: parts.iter().any(has_film),
    }
}

fn openings(plan: &Plan) -> Vec<FactTable> {
    let job = &plan.flats.job;
    let table = |opening: &job::JobOpening| FactTable {
        name: opening.name.clone(),
        facts: opening.solved.facts().iter().map(|fact| fact_words(job, fact)).collect(),
    };
    job.openings.iter().map(table).collect()
}

fn drawn_parts(plan: &Plan, with_models: bool) -> Vec<DrawnPart> {
    let drawn = |part: &PlannedPart| {
        let folded = folded(part);
        let Sheets { layout, numbers, points, details, facts } =
            drawings::part_pages(&plan.flats, part, folded.as_ref());
        DrawnPart {
            mark: part.part.mark.clone(),
            title: drawings::title(&plan.flats, part),
            quantity: part.part.quantity,
            is_bent: folded.is_some() || drawings::is_strip(&plan.flats, part),
            page: layout,
            numbers,
            points,
            details,
            folded: folded.map(|folded| folded_page(&plan.flats, part, &folded)),
            model: model_page(&plan.flats, part).filter(|_| with_models),
            heading: facts,
            facts: drawings::packet_facts(&plan.flats, part),
            bend_cards: bend_cards::cards(&plan.flats, part),
        }
    };
    plan.flats.parts.par_iter().map(drawn).collect()
}

/// Sheet marks, which name the files, with their maps.
fn drawn_sheets(plan: &Plan) -> Vec<(String, DrawnSheet)> {
    let all = plan.nests.iter().flat_map(|nest| nest.sheets.iter().map(move |sheet| (nest, sheet)));
    let all: Vec<(&MetalNest, &PlannedSheet)> = all.collect();
    all.into_par_iter()
        .map(|(nest, sheet)| {
            let pages = drawings::sheet_pages(plan, nest, sheet);
            (
                sheet.mark.clone(),
                DrawnSheet {
                    name: sheet.laid.name.clone(),
                    pages,
                    over_the_cuts: cutting_words::over_the_cuts(sheet),
                    steps: cutting_words::steps(plan, sheet),
                },
            )
        })
        .collect()
}

fn outline_text(plan: &Plan, part: &PlannedPart) -> String {
    let job = &plan.flats.job;
    let metal = &job.metals[part.part.metal];
    plain_outline::write(&PlainOutline {
        unit: job.unit,
        job: &job.name,
        mark: &part.part.mark,
        metal: &named_metal_words(job, metal),
        quantity: part.part.quantity,
        face: &part.face_words(metal),
        flat: &part.flat,
    })
}

/// JSON as it stands in a file.
pub(crate) fn pretty(value: &Value) -> String {
    format!("{value:#}\n")
}
