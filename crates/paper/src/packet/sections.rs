//! The sections of the page, in the order they are read at the bench.

use estimate::ScrapReport;

use super::elements::{figure, from, list, list_from, open, steps};
use super::{Chapter, DrawnFit, DrawnPart, DrawnSheet, FactTable, MetalChoices, Packet};
use super::{names, origins};
use crate::fit_drawing;
use crate::layout_sheet::{FOOT_ORIGINS, Fact};
use crate::lists::passages::Passage;
use crate::lists::{cut_list, sheet_choices};
use crate::markup::Markup;
use crate::page::Page;
use crate::scrap_report;
use crate::sheet_map::DROP_ORIGINS;

/// All sections.
pub(super) fn write(markup: &mut Markup, packet: &Packet<'_>) {
    summary(markup, packet);
    if let Some(title) = packet.buying_title() {
        buying(markup, packet, title);
    }
    if !packet.cut_list.is_empty() {
        cut_list_section(markup, packet);
    }
    for (number, sheet) in packet.sheets.iter().enumerate() {
        sheet_section(markup, number, sheet);
    }
    for (number, part) in packet.parts.iter().enumerate() {
        part_section(markup, number, part);
        for (page, card) in part.bend_cards.iter().enumerate() {
            let name = names::card(number, page);
            open_drawing(markup, &name, card);
            figure(markup, card, &name);
            markup.close("section");
        }
    }
    for (number, fit) in packet.fits.iter().enumerate() {
        fit_section(markup, number, fit);
    }
    for (number, chapter) in packet.chapters.iter().enumerate() {
        chapter_section(markup, number, chapter);
    }
    if let Some((report, picture)) = packet.scrap {
        scrap_section(markup, packet, report, picture);
    }
    if packet.has_origins() {
        appendix(markup, packet);
    }
}

fn summary(markup: &mut Markup, packet: &Packet<'_>) {
    markup.open("section", &[("id", "summary".to_owned())]);
    markup.words("h1", &[], packet.job);
    let head: Vec<String> = packet.head.iter().map(|(name, value)| format!("{name} {value}")).collect();
    if !head.is_empty() {
        markup.words("p", &[], &head.join(", "));
    }
    list(markup, super::NOTES, packet.notes, None);
    contents(markup, packet);
    let [_, (_, said)] = FOOT_ORIGINS;
    list_from(markup, "Look at this before cutting", packet.cautions, (Some("cautions"), said));
    list_from(markup, "Assumptions", packet.assumptions, (None, said));
    for FactTable { name, facts } in packet.openings {
        markup.words("h3", &[], name);
        fact_table(markup, facts);
    }
    list(markup, "Always", packet.standing_cautions, Some("cautions small"));
    markup.close("section");
}

fn contents(markup: &mut Markup, packet: &Packet<'_>) {
    let mut entries: Vec<(String, String)> = Vec::new();
    entries.extend(packet.buying_title().map(|title| ("sheets".to_owned(), title.to_owned())));
    if !packet.cut_list.is_empty() {
        entries.push(("cut-list".to_owned(), "Cut list".to_owned()));
    }
    let sheets = packet.sheets.iter().enumerate();
    entries.extend(sheets.map(|(number, sheet)| (names::sheet(number, 0), sheet.name.clone())));
    let parts = packet.parts.iter().enumerate();
    entries.extend(parts.map(|(number, part)| {
        (names::numbered("part", number), format!("{}: {}, make {}", part.mark, part.title, part.quantity))
    }));
    let fits = packet.fits.iter().enumerate();
    entries.extend(
        fits.map(|(number, fit)| (names::numbered("fit", number), format!("Does it fit? {}", fit.title))),
    );
    let chapters = packet.chapters.iter().enumerate();
    entries
        .extend(chapters.map(|(number, chapter)| (names::numbered("chapter", number), chapter.name.clone())));
    if packet.scrap.is_some() {
        entries.push((names::SCRAP.to_owned(), "Scrap report".to_owned()));
    }
    if packet.has_origins() {
        entries.push(("origins".to_owned(), "Where the numbers come from".to_owned()));
    }
    markup.open("nav", &[]);
    markup.open("ul", &[]);
    for (anchor, words) in entries {
        markup.open("li", &[]);
        markup.words("a", &[("href", format!("#{anchor}"))], &words);
        markup.close("li");
    }
    markup.close("ul");
    markup.close("nav");
}

fn buying(markup: &mut Markup, packet: &Packet<'_>, title: &str) {
    open(markup, "sheets", title, None);
    for MetalChoices { metal, choices, notes } in packet.choices {
        markup.words("h3", &[], metal);
        sheet_choices::table(choices, packet.units).html(markup);
        let proved = sheet_choices::notes(choices, packet.units);
        proved.iter().for_each(|note| markup.words("p", &from(note, origins::PROVED), note));
        if let Some(sums) = sheet_choices::sums(choices) {
            sums.html(markup);
        }
        notes.iter().for_each(|note| markup.words("p", &from(note, origins::TO_BUY), note));
    }
    if packet.choices.iter().any(|metal| sheet_choices::sums(&metal.choices).is_some()) {
        markup.words("p", &[], sheet_choices::CHOSEN);
    }
    let heading = if packet.choices.is_empty() { "" } else { super::ALSO_TO_BUY };
    list_from(markup, heading, packet.also_to_buy, (None, origins::TO_BUY));
    markup.close("section");
}

fn sheet_section(markup: &mut Markup, number: usize, sheet: &DrawnSheet) {
    for (place, page) in sheet.pages.iter().enumerate() {
        if 0 < place {
            markup.close("section");
        }
        let name = names::sheet(number, place);
        open_drawing(markup, &name, page);
        figure(markup, page, &name);
    }
    if !sheet.steps.is_empty() {
        markup.words("h3", &[], "Order of cuts");
        markup.words("p", &[], &sheet.over_the_cuts);
        steps(markup, &sheet.steps, origins::STEPS);
    }
    markup.close("section");
}

fn part_section(markup: &mut Markup, number: usize, part: &DrawnPart) {
    open_drawing(markup, &names::numbered("part", number), &part.page);
    figure(markup, &part.page, &names::numbered("part", number));
    for (page, name) in names::more(part, number) {
        figure(markup, page, &name);
    }
    if let Some(model) = &part.model {
        markup.open("div", &[("class", "true-size".to_owned())]);
        figure(markup, model, &names::numbered("model", number));
        markup.close("div");
    }
    if !part.facts.is_empty() {
        let link = [("href", format!("#origin-{number}"))];
        markup.open("p", &[("class", "screen".to_owned())]);
        markup.words("a", &link, &format!("{}: where its numbers come from", part.mark));
        markup.close("p");
    }
    markup.close("section");
}

/// One fit check: the question, the answer, the numbers, the pictures.
fn fit_section(markup: &mut Markup, number: usize, fit: &DrawnFit) {
    open(markup, &names::numbered("fit", number), &format!("Does it fit? {}", fit.title), None);
    markup.words("p", &from(&fit.answer, fit_drawing::ANSWER), &fit.answer);
    if let Some(page) = &fit.page {
        figure(markup, page, &names::numbered("fit", number));
    }
    fact_table(markup, &fit.facts);
    markup.close("section");
}

/// The facts of every part with their origins, together at the end: on paper they would tear the drawings apart.
fn appendix(markup: &mut Markup, packet: &Packet<'_>) {
    open(markup, "origins", "Where the numbers come from", None);
    for FactTable { name, facts } in origins::lists(packet) {
        markup.words("h3", &[], &name);
        fact_table(markup, &facts);
    }
    for of_parts in origins::of_parts(packet.parts) {
        for number in &of_parts.parts {
            markup.open("span", &[("id", format!("origin-{number}"))]);
            markup.close("span");
        }
        markup.words("h3", &[], &of_parts.heading);
        markup.open("table", &[]);
        markup.open("tr", &[]);
        ["value", "from"].iter().for_each(|heading| markup.words("th", &[], heading));
        markup.close("tr");
        for (value, from) in &of_parts.rows {
            markup.open("tr", &[]);
            markup.words("td", &[("title", from.clone())], value);
            markup.words("td", &[("class", "origin".to_owned())], from);
            markup.close("tr");
        }
        markup.close("table");
        if !of_parts.fields.is_empty() {
            let words = format!("{}: {}", origins::FIELDS, of_parts.fields);
            markup.words("p", &[("class", "small".to_owned())], &words);
        }
    }
    markup.close("section");
}

/// Opens a section for a drawing, which has a heading of its own; one wider than high asks for landscape paper.
fn open_drawing(markup: &mut Markup, anchor: &str, page: &Page) {
    let wide = page.height_mm() < page.width_mm();
    let class = wide.then(|| ("class", "wide".to_owned()));
    let attributes: Vec<(&str, String)> = std::iter::once(("id", anchor.to_owned())).chain(class).collect();
    markup.open("section", &attributes);
}

fn fact_table(markup: &mut Markup, facts: &[Fact]) {
    markup.open("table", &[]);
    markup.open("tr", &[]);
    for heading in ["", "value", "from"] {
        markup.words("th", &[], heading);
    }
    markup.close("tr");
    for fact in facts {
        markup.open("tr", &[]);
        markup.words("td", &[], &fact.name);
        markup.words("td", &[("title", fact.origin.clone())], &fact.value);
        markup.words("td", &[("class", "origin".to_owned())], &fact.origin);
        markup.close("tr");
    }
    markup.close("table");
}

fn cut_list_section(markup: &mut Markup, packet: &Packet<'_>) {
    open(markup, "cut-list", "Cut list", Some("wide"));
    cut_list::to_cut(packet.cut_list, packet.units).html(markup);
    markup.words("h3", &[], cut_list::WEIGHTS);
    cut_list::weights(packet.cut_list, packet.units).html(markup);
    passages(markup, packet.also_cut);
    markup.close("section");
}

fn passages(markup: &mut Markup, passages: &[Passage]) {
    for passage in passages {
        match passage {
            Passage::Heading(words) => markup.words("h3", &[], words.trim()),
            Passage::Words(words) => {
                let lines = words.lines().map(str::trim).filter(|line| !line.is_empty());
                lines.for_each(|line| markup.words("p", &from(line, origins::SENTENCES), line));
            }
            Passage::Table(sheet) => sheet.table().html(markup),
        }
    }
}

/// Bars, weights, struts: words, tables and a picture.
fn chapter_section(markup: &mut Markup, number: usize, chapter: &Chapter) {
    open(markup, &names::numbered("chapter", number), &chapter.name, None);
    passages(markup, &chapter.passages);
    for (place, page) in chapter.pages.iter().enumerate() {
        figure(markup, page, &names::chapter(number, place));
    }
    markup.close("section");
}

fn scrap_section(markup: &mut Markup, packet: &Packet<'_>, report: &ScrapReport, picture: &Page) {
    let units = packet.units;
    open(markup, names::SCRAP, "Scrap report", None);
    markup.words("p", &[], &scrap_report::sum_sentences(report).join(" "));
    scrap_report::shared_words(report, units).iter().for_each(|words| markup.words("p", &[], words));
    markup.words("p", &[], packet.money);
    let [(_, drops), ..] = DROP_ORIGINS;
    list_from(markup, "", packet.kept_drops, (None, drops));
    figure(markup, picture, names::SCRAP);
    markup.open("div", &[("class", "pairs".to_owned())]);
    let parts = scrap_report::parts_tables(report, units);
    let credit = packet.credit.map(|credit| (credit.heading(), credit.table(report, units)));
    for (heading, table) in scrap_report::tables(report, units).into_iter().chain(parts).chain(credit) {
        markup.open("div", &[]);
        markup.words("h3", &[], &heading);
        table.html(markup);
        markup.close("div");
    }
    markup.close("div");
    markup.close("section");
}
