//! The packet on paper: the same things as on the HTML page, in the same order, on leaves of one size.

pub(crate) mod flow;
mod label_sheet;
pub(crate) mod labels;
mod maps;
mod set_table;
pub(crate) mod sheet;

pub use crate::page::PaperSize;
pub use label_sheet::LabelSheet;

use super::{Chapter, DrawnFit, DrawnPart, FactTable, MetalChoices, Packet, copy_words, origins};
use crate::layout_sheet::Fact;
use crate::lists::passages::Passage;
use crate::lists::table::{Side, Table};
use crate::lists::{cut_list, sheet_choices};
use crate::page::Page;
use crate::pdf::Leaf;
use crate::scrap_report;
use estimate::ScrapReport;
use flow::{Asked, Flow};
use set_table::{SetTable, TABLE_SIZES_MM};

/// What a packet is printed on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Papers {
    /// Paper of all leaves but the others.
    pub leaves: PaperSize,
    /// Paper of the sheet maps.
    pub maps: PaperSize,
    /// Sheets of labels.
    pub labels: LabelSheet,
}

/// The leaves of the packet, ready to print; sheet maps and labels on paper of their own.
#[must_use]
pub fn leaves<'a>(packet: &Packet<'a>, papers: &Papers) -> Vec<Leaf<'a>> {
    let Papers { leaves: paper, maps: map_paper, labels: label_sheet } = *papers;
    let mut leaves = first_leaves(packet, paper);
    leaves.extend(maps::leaves(packet.sheets, paper, map_paper));
    leaves.extend(packet.parts.iter().flat_map(|part| part_leaves(part, paper)));
    leaves.extend(packet.fits.iter().flat_map(|fit| fit_leaves(fit, paper)));
    leaves.extend(labels::leaves(packet.labels, &label_sheet));
    leaves.extend(lists(packet, paper));
    let edition: Vec<String> = packet.head.iter().map(|(name, value)| format!("{name} {value}")).collect();
    sheet::foot(&mut leaves, sheet::Foot { job: packet.job, edition: &edition.join(", ") });
    leaves
}

/// Summary, what is to be bought, what is cut of it, and who checks it.
fn first_leaves<'a>(packet: &Packet<'a>, paper: PaperSize) -> Vec<Leaf<'a>> {
    let mut flow = Flow::empty(paper.upright_mm());
    flow.chapter("Summary", |flow| summary(flow, packet));
    if let Some(title) = packet.buying_title() {
        flow.chapter(title, |flow| buying(flow, packet, title));
    }
    let set = |flow: &mut Flow<'a>| cut_list(flow, packet);
    let is_upright = holds_upright(packet, paper);
    if is_upright && !packet.cut_list.is_empty() {
        flow.chapter(CUT_LIST, set);
    }
    if !packet.parts.is_empty() {
        flow.chapter("Checks", |flow| checks(flow, packet));
    }
    let mut across = Flow::empty(paper.across_mm());
    if !is_upright {
        across.chapter(CUT_LIST, set);
    }
    [flow.finish(), across.finish()].concat()
}

/// What else the job asks for, and where all numbers come from: chapters of words and tables that follow one another.
fn lists<'a>(packet: &Packet<'a>, paper: PaperSize) -> Vec<Leaf<'a>> {
    let mut flow = Flow::empty(paper.upright_mm());
    for chapter in packet.chapters {
        flow.chapter(&chapter.name, |flow| chapter_words(flow, chapter));
    }
    if let Some((report, picture)) = packet.scrap {
        flow.chapter("Scrap report", |flow| scrap(flow, packet, (report, picture)));
    }
    if packet.has_origins() {
        flow.chapter("Where the numbers come from", |flow| appendix(flow, packet));
    }
    flow.finish()
}

fn summary(flow: &mut Flow<'_>, packet: &Packet<'_>) {
    flow.title(packet.job);
    let head: Vec<String> = packet.head.iter().map(|(name, value)| format!("{name} {value}")).collect();
    if !head.is_empty() {
        flow.paragraph(&head.join(", "));
    }
    let parts = packet.parts.iter();
    let parts: Vec<String> =
        parts.map(|part| format!("{}: {}, make {}", part.mark, part.title, part.quantity)).collect();
    for (heading, sentences) in [
        (super::NOTES, packet.notes),
        ("Parts", parts.as_slice()),
        ("Look at this before cutting", packet.cautions),
        ("Assumptions", packet.assumptions),
    ] {
        if !sentences.is_empty() {
            flow.heading(heading);
            flow.sentences(sentences, false);
        }
    }
    for FactTable { name, facts } in packet.openings {
        flow.heading(name);
        flow.table(&fact_table(facts));
    }
    if !packet.standing_cautions.is_empty() {
        flow.heading("Always");
        flow.sentences(packet.standing_cautions, false);
    }
}

fn buying(flow: &mut Flow<'_>, packet: &Packet<'_>, title: &str) {
    flow.title(title);
    for MetalChoices { metal, choices, notes } in packet.choices {
        flow.heading(metal);
        flow.table(&sheet_choices::table(choices, packet.units));
        sheet_choices::notes(choices, packet.units).iter().for_each(|note| flow.paragraph(note));
        if let Some(sums) = sheet_choices::sums(choices) {
            flow.table(&sums);
        }
        notes.iter().for_each(|note| flow.paragraph(note));
    }
    if packet.choices.iter().any(|metal| sheet_choices::sums(&metal.choices).is_some()) {
        flow.paragraph(sheet_choices::CHOSEN);
    }
    if !packet.also_to_buy.is_empty() {
        if !packet.choices.is_empty() {
            flow.heading(super::ALSO_TO_BUY);
        }
        flow.sentences(packet.also_to_buy, false);
    }
}

/// Who measured, proved and tried every piece: a row a piece, to be ticked and signed.
fn checks(flow: &mut Flow<'_>, packet: &Packet<'_>) {
    flow.title("Checks");
    if packet.wholes.is_empty() {
        flow.paragraph(CHECKS_HOW);
    } else {
        flow.paragraph(&format!("{CHECKS_HOW} {CHECKS_OF_WHOLES}"));
    }
    let mut pieces = Vec::new();
    for part in packet.parts {
        for copy in 1..=part.quantity {
            let name = format!("{}{}", part.mark, copy_words(copy, part.quantity));
            let never = if part.is_bent { Vec::new() } else { vec![BENDS] };
            pieces.push(Asked { name, never });
        }
    }
    for whole in packet.wholes {
        for copy in 1..=whole.quantity {
            let name = format!("{}{}", whole.name, copy_words(copy, whole.quantity));
            pieces.push(Asked { name, never: vec![BENDS] });
        }
    }
    flow.boxes(&CHECKS, &pieces);
    packet.wholes.iter().filter_map(|whole| whole.bare.as_ref()).for_each(|words| flow.paragraph(words));
}

/// The questions to every piece.
const CHECKS: [&str; 4] = ["measured by", "diagonals proven", BENDS, "dry-fit by"];

/// No question to a part that is not bent.
const BENDS: &str = "bends measured";

/// Said over the boxes.
const CHECKS_HOW: &str = "Tick and sign before the next step: a flat before it is bent, a bent part before it is \
                          welded, a whole before anything on it is joined for good. A part that goes flat has a dash \
                          under bends. What is measured, between which faces and to what number stands on the page of \
                          the same mark: for a flat on its layout sheet (running dimensions, the blank and its \
                          diagonals), for a bent part on \"folded\".";

/// Said after it where there are wholes.
const CHECKS_OF_WHOLES: &str =
    "A whole has a dash under bends too; what is measured on it stands under \"Pieces put together\".";

/// Both ways of holding the paper.
pub(crate) const fn sizes(paper: PaperSize) -> [(f64, f64); 2] {
    [paper.upright_mm(), paper.across_mm()]
}

/// Layout sheet, enlarged corners, folded view, bend card and paper model of one part.
fn part_leaves(part: &DrawnPart, paper: PaperSize) -> Vec<Leaf<'_>> {
    let mark = &part.mark;
    let mut leaves = vec![sheet::drawn(format!("{mark}: layout sheet"), &part.page, sizes(paper))];
    let more = [
        (part.numbers.as_slice(), "numbers"),
        (part.points.as_slice(), "points"),
        (part.details.as_slice(), "crowded corners"),
        (part.folded.as_slice(), "folded"),
        (part.bend_cards.as_slice(), "bend card"),
    ];
    for (pages, what) in more {
        for page in pages {
            sheet::below_or_drawn(&mut leaves, format!("{mark}: {what}"), page, sizes(paper));
        }
    }
    let model = part.model.iter();
    leaves.extend(
        model.map(|page| sheet::true_size(format!("{mark}: model of paper"), page, paper.upright_mm())),
    );
    leaves
}

fn fit_leaves(fit: &DrawnFit, paper: PaperSize) -> Vec<Leaf<'_>> {
    let heading = format!("Does it fit? {}", fit.title);
    let mut flow = Flow::new(&heading, paper.upright_mm());
    flow.title(&heading);
    flow.paragraph(&fit.answer);
    if let Some(page) = &fit.page {
        flow.drawing(page);
    }
    flow.table(&fact_table(&fit.facts));
    flow.finish()
}

fn fact_table(facts: &[Fact]) -> Table {
    let mut table = Table::new(&[("", Side::Words), ("value", Side::Words), ("from", Side::Words)]);
    for fact in facts {
        table.row(vec![fact.name.clone(), fact.value.clone(), fact.origin.clone()]);
    }
    table
}

/// Facts without values.
pub(crate) fn origin_table(facts: &[Fact]) -> Table {
    let mut table = Table::new(&[("", Side::Words), ("from", Side::Words)]);
    facts.iter().for_each(|fact| table.row(vec![fact.name.clone(), fact.origin.clone()]));
    table
}

/// The heading over the cut list.
const CUT_LIST: &str = "Cut list";

/// The cut list stands upright where its text is as large as this, mm; else across.
const UPRIGHT_TEXT_MM: f64 = 2.6;

fn holds_upright(packet: &Packet<'_>, paper: PaperSize) -> bool {
    let tables =
        [cut_list::to_cut(packet.cut_list, packet.units), cut_list::weights(packet.cut_list, packet.units)];
    let (_, room, _) = sheet::room(paper.upright_mm());
    tables.iter().all(|table| {
        let set = SetTable::fit(table, room, &TABLE_SIZES_MM);
        set.width_mm() <= room && UPRIGHT_TEXT_MM <= set.size_mm
    })
}

fn cut_list(flow: &mut Flow<'_>, packet: &Packet<'_>) {
    flow.title(CUT_LIST);
    flow.table(&cut_list::to_cut(packet.cut_list, packet.units));
    flow.heading(cut_list::WEIGHTS);
    flow.table(&cut_list::weights(packet.cut_list, packet.units));
    passages(flow, packet.also_cut);
}

fn passages(flow: &mut Flow<'_>, passages: &[Passage]) {
    for passage in passages {
        match passage {
            Passage::Heading(words) => flow.heading(words.trim()),
            Passage::Words(words) => {
                let lines = words.lines().map(str::trim).filter(|line| !line.is_empty());
                lines.for_each(|line| flow.paragraph(line));
            }
            Passage::Table(sheet) => flow.table(sheet.table()),
        }
    }
}

/// Bars, weights, struts: words, tables and a picture.
fn chapter_words<'a>(flow: &mut Flow<'a>, chapter: &'a Chapter) {
    flow.title(&chapter.name);
    passages(flow, &chapter.passages);
    flow.drawings(&chapter.pages);
}

fn scrap<'a>(flow: &mut Flow<'a>, packet: &Packet<'_>, (report, picture): (&ScrapReport, &'a Page)) {
    flow.title("Scrap report");
    flow.paragraph(&scrap_report::sum_sentences(report).join(" "));
    scrap_report::shared_words(report, packet.units).iter().for_each(|words| flow.paragraph(words));
    flow.paragraph(packet.money);
    flow.sentences(packet.kept_drops, false);
    flow.drawing(picture);
    let parts = scrap_report::parts_tables(report, packet.units);
    for (heading, table) in scrap_report::tables(report, packet.units).into_iter().chain(parts) {
        flow.heading(&heading);
        flow.table(&table);
    }
    if let Some(credit) = packet.credit {
        flow.heading(&credit.heading());
        flow.table(&credit.table(report, packet.units));
    }
}

fn appendix(flow: &mut Flow<'_>, packet: &Packet<'_>) {
    flow.title("Where the numbers come from");
    for FactTable { name, facts } in origins::lists(packet) {
        flow.small_heading(&name);
        flow.small_table(&origin_table(&facts));
    }
    for of_parts in origins::of_parts(packet.parts) {
        flow.small_heading(&of_parts.heading);
        flow.small_table(&of_parts.table());
    }
}
