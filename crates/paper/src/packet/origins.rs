//! Where the numbers of a packet come from, written once each: what the heading of every layout sheet says, then what
//! stands in drawings, maps and tables, then every part's own numbers, those of one origin together.

use super::{Chapter, DrawnPart, FactTable, Packet};
use crate::bend_card;
use crate::drawing::label::BEND_FROM;
use crate::drawing::running;
use crate::fit_drawing;
use crate::layout_sheet::{CALLOUT_ORIGINS, DETAIL_ORIGINS, FOOT_ORIGINS, Fact, HOLE_ORIGINS, POINT_ORIGINS};
use crate::lists::passages::Passage;
use crate::lists::table::{Side, Table};
use crate::lists::{ListUnits, cut_list, sheet_choices};
use crate::page::Page;
use crate::scrap_report;
use crate::sheet_map::{DROP_ORIGINS, HEADING_ORIGINS};
use std::collections::BTreeSet;
use units::LengthUnit;

/// Stands before the fields of a part.
pub(super) const FIELDS: &str = "in the job file";

/// The numbers of one part, or of several that have the same.
pub(super) struct OfParts {
    /// Which parts, by their place in the packet.
    pub(super) parts: Vec<usize>,
    /// Marks and titles.
    pub(super) heading: String,
    /// Numbers with their names, and the one origin of them all.
    pub(super) rows: Vec<(String, String)>,
    /// The fields of the job file behind them, in a line; empty for none.
    pub(super) fields: String,
}

impl OfParts {
    /// For leaves.
    pub(super) fn table(&self) -> Table {
        let mut table = Table::new(&[("value", Side::Words), ("from", Side::Words)]);
        self.rows.iter().for_each(|(value, from)| table.row(vec![value.clone(), from.clone()]));
        if !self.fields.is_empty() {
            table.row(vec![FIELDS.to_owned(), self.fields.clone()]);
        }
        table
    }
}

/// The numbers of every part but those of its heading.
pub(super) fn of_parts(parts: &[DrawnPart]) -> Vec<OfParts> {
    let mut all: Vec<OfParts> = Vec::new();
    for (number, part) in parts.iter().enumerate().filter(|(_, part)| !part.facts.is_empty()) {
        let heading = format!("{}: {}", part.mark, part.title);
        let same = all.iter_mut().find(|other| parts[other.parts[0]].facts == part.facts);
        if let Some(other) = same {
            other.parts.push(number);
            other.heading.push_str(&format!("; {heading}"));
            continue;
        }
        all.push(OfParts {
            parts: vec![number],
            heading,
            rows: rows(&part.facts),
            fields: fields(&part.facts),
        });
    }
    all
}

/// Numbers of one origin in one row, in the order of the first of each.
fn rows(facts: &[Fact]) -> Vec<(String, String)> {
    let mut rows: Vec<(String, String)> = Vec::new();
    for Fact { name, value, origin, .. } in facts {
        let words = format!("{name}: {value}");
        match rows.iter_mut().find(|(_, from)| from == origin) {
            Some((values, _)) => values.push_str(&format!("; {words}")),
            None => rows.push((words, origin.clone())),
        }
    }
    rows
}

fn fields(facts: &[Fact]) -> String {
    let mut fields: Vec<&str> = Vec::new();
    for field in facts.iter().flat_map(|fact| &fact.fields) {
        if !fields.contains(&field.as_str()) {
            fields.push(field);
        }
    }
    fields.join("; ")
}

/// Where the numbers of everything but the parts' own come from: headings, drawings and maps, then every table.
pub(super) fn lists(packet: &Packet<'_>) -> Vec<FactTable> {
    let headings = headings(packet.parts);
    let mut lists: Vec<FactTable> = Vec::new();
    if !headings.is_empty() {
        lists.push(FactTable { name: "Headings of the layout sheets".to_owned(), facts: headings });
    }
    let shown = shown_columns(packet).into_iter().map(|(name, origin)| origin_of(name, origin));
    let drawings =
        drawing_facts(packet.units).into_iter().chain(shown).chain(packet.metal_origins.iter().cloned());
    lists.push(FactTable { name: "Drawings and maps".to_owned(), facts: drawings.collect() });
    if packet.parts.iter().any(|part| !part.bend_cards.is_empty()) {
        let facts = bend_card::origins().map(|(name, origin)| origin_of(name, origin)).collect();
        lists.push(FactTable { name: "Bend cards".to_owned(), facts });
    }
    for (name, table) in tables(packet) {
        let facts: Vec<Fact> = table.origins().iter().map(|(name, origin)| origin_of(name, origin)).collect();
        if lists.iter().all(|list| list.facts != facts) {
            lists.push(FactTable { name, facts });
        }
    }
    let others = others(packet, &lists);
    if !others.is_empty() {
        lists.push(FactTable { name: "Other numbers on drawings".to_owned(), facts: others });
    }
    lists
}

/// What texts on drawings say of their origin that no table of the appendix tells: a row for each, by the kind of page and the first
/// such number on it.
fn others(packet: &Packet<'_>, lists: &[FactTable]) -> Vec<Fact> {
    let own = packet.parts.iter().flat_map(|part| part.heading.iter().chain(&part.facts));
    let listed = lists.iter().flat_map(|list| &list.facts);
    let mut told: BTreeSet<&str> = own.chain(listed).map(|fact| fact.origin.as_str()).collect();
    let mut others = Vec::new();
    for (kind, page) in pages(packet) {
        for text in page.texts() {
            let Some(origin) = text.origin.as_deref().filter(|origin| !told.contains(origin)) else {
                continue;
            };
            told.insert(origin);
            others.push(origin_of(&format!("{kind}, such as {}", text.words), origin));
        }
    }
    others
}

/// Every drawing of the packet, and what kind of page it is on.
fn pages<'p>(packet: &'p Packet<'_>) -> impl Iterator<Item = (&'p str, &'p Page)> {
    let of_part = |part: &'p DrawnPart| {
        let kinds: [(&str, Vec<&Page>); 6] = [
            ("layout sheet", vec![&part.page]),
            ("numbers of a part", part.numbers.iter().collect()),
            ("folded part", part.folded.iter().collect()),
            ("points and holes by number", part.points.iter().collect()),
            ("details", part.details.iter().collect()),
            ("bend card", part.bend_cards.iter().collect()),
        ];
        kinds.into_iter().flat_map(|(kind, pages)| pages.into_iter().map(move |page| (kind, page)))
    };
    let sheets = packet.sheets.iter().flat_map(|sheet| sheet.pages.iter().map(|page| ("sheet map", page)));
    let fits = packet.fits.iter().filter_map(|fit| fit.page.as_ref()).map(|page| ("fit", page));
    let chapters = packet.chapters.iter();
    let chapters =
        chapters.flat_map(|chapter| chapter.pages.iter().map(|page| (chapter.name.as_str(), page)));
    packet.parts.iter().flat_map(of_part).chain(sheets).chain(fits).chain(chapters)
}

/// What the headings say, every pair of name and origin once, with the marks where it does not hold for all parts.
fn headings(parts: &[DrawnPart]) -> Vec<Fact> {
    let mut pairs: Vec<(&Fact, Vec<&str>)> = Vec::new();
    for (part, fact) in parts.iter().flat_map(|part| part.heading.iter().map(move |fact| (part, fact))) {
        let known =
            pairs.iter_mut().find(|(known, _)| known.name == fact.name && known.origin == fact.origin);
        match known {
            Some((_, marks)) => marks.push(&part.mark),
            None => pairs.push((fact, vec![&part.mark])),
        }
    }
    let order = |name: &str| pairs.iter().position(|(fact, _)| fact.name == name);
    let mut facts: Vec<(Option<usize>, Fact)> = pairs
        .iter()
        .filter(|(fact, _)| !fact.origin.is_empty())
        .map(|(fact, marks)| {
            let is_alone = pairs.iter().filter(|(other, _)| other.name == fact.name).count() == 1;
            let name =
                if is_alone { fact.name.clone() } else { format!("{}, {}", fact.name, marks.join(", ")) };
            (order(&fact.name), origin_of(&name, &fact.origin))
        })
        .collect();
    facts.sort_by_key(|(order, _)| *order);
    facts.into_iter().map(|(_, fact)| fact).collect()
}

/// Columns of the tables that stand on drawings and maps of this packet.
fn shown_columns(packet: &Packet<'_>) -> Vec<(&'static str, &'static str)> {
    let mut columns = Vec::new();
    let pages = || packet.parts.iter().flat_map(|part| &part.points);
    if pages().any(|page| !page.title.ends_with(HOLES)) {
        columns.extend(POINT_ORIGINS);
    } else if packet.parts.iter().any(|part| !part.details.is_empty()) {
        columns.push(POINT_ORIGINS[0]);
    }
    if pages().any(|page| page.title.ends_with(HOLES)) {
        columns.extend(HOLE_ORIGINS);
    }
    if !packet.parts.is_empty() {
        columns.extend(CALLOUT_ORIGINS);
        columns.extend(FOOT_ORIGINS);
    }
    if packet.parts.iter().any(|part| !part.details.is_empty()) {
        columns.extend(DETAIL_ORIGINS);
    }
    if !packet.sheets.is_empty() {
        columns.extend(HEADING_ORIGINS);
        columns.push(("order of cuts", STEPS));
    }
    if !packet.labels.is_empty() {
        columns.push(("labels", LABELS));
    }
    if !packet.also_to_buy.is_empty() {
        columns.push(("what is to buy beside sheets", TO_BUY));
    }
    if !packet.chapters.is_empty() {
        columns.push(("sentences under tables", SENTENCES));
    }
    if !packet.choices.is_empty() {
        columns.push(("what is proved of sheets", PROVED));
    }
    if !packet.fits.is_empty() {
        columns.push(("answers and pictures of fits", fit_drawing::ANSWER));
    }
    if !packet.kept_drops.is_empty() {
        columns.extend(DROP_ORIGINS);
    }
    columns
}

/// Where the numbers of the order of cuts come from.
pub(super) const STEPS: &str = "places on the nested sheet from its datum edges, of straight cuts their middle; half the kerf of the job beside the part; \
                               sizes of what comes off or falls out as it is cut; the guide by its offset in the job (shop)";

/// Where the numbers of what is bought beside sheets come from, and those of the whole order.
pub(super) const TO_BUY: &str =
    "counts and prices of the job (hardware, bars, coverings, buying): count × price, added up";

/// Where the numbers of what is said under the table of sheets come from.
pub(super) const PROVED: &str = "the nest that was found, and the limits of number and price that its own argument proves, as the sentence says";

/// Where the numbers in the words of chapters come from.
pub(super) const SENTENCES: &str = "worked from the numbers of the tables they stand with, as they say; limits have their source beside them";

/// Where the numbers of labels come from.
const LABELS: &str =
    "blank and bends as on the layout sheet of the part, sizes of a drop as on the map of its sheet";

/// How the titles of pages of holes end.
const HOLES: &str = " holes";

/// Where the numbers of drawings and maps come from; those of tables are said with their tables.
fn drawing_facts(units: ListUnits) -> Vec<Fact> {
    // The grid of the nest has thousandths of a millimetre.
    let outward = match units.length.unit() {
        LengthUnit::Inch => ".00004 in",
        LengthUnit::Millimetre => "a thousandth of a millimetre",
    };
    let nested = format!(
        "the nest, verified in exact integers before it is drawn; rounded outward by at most {outward}, far less than a tape shows"
    );
    let rows = [
        ("turn of a bend", BEND_FROM),
        ("angle inside a bend", "180° less the turn: at that the two faces stand once it is bent"),
        ("places on a sheet", nested.as_str()),
    ];
    running::ORIGINS.into_iter().chain(rows).map(|(name, origin)| origin_of(name, origin)).collect()
}

fn origin_of(name: &str, origin: &str) -> Fact {
    Fact { name: name.to_owned(), origin: origin.to_owned(), ..Fact::default() }
}

/// Every table of the packet under its name.
fn tables(packet: &Packet<'_>) -> Vec<(String, Table)> {
    let mut tables: Vec<(String, Table)> = Vec::new();
    // What proves the number of sheets of one metal proves nothing of another.
    tables.extend(packet.choices.iter().map(|metal| {
        let name = match packet.choices {
            [_] => "Sheets to buy".to_owned(),
            _ => format!("Sheets to buy, {}", metal.metal.split(':').next().unwrap_or_default()),
        };
        (name, sheet_choices::table(&metal.choices, packet.units))
    }));
    let sums = packet.choices.iter().find_map(|metal| sheet_choices::sums(&metal.choices));
    tables.extend(sums.map(|sums| ("Sheets to buy, as an order".to_owned(), sums)));
    if !packet.cut_list.is_empty() {
        tables.push(("Cut list".to_owned(), cut_list::to_cut(packet.cut_list, packet.units)));
        tables.push(("Cut list, weights".to_owned(), cut_list::weights(packet.cut_list, packet.units)));
    }
    packet.chapters.iter().for_each(|chapter| tables.extend(tables_of(chapter)));
    if let Some((report, _)) = packet.scrap {
        let sums = scrap_report::tables(report, packet.units).into_iter().map(|(_, table)| table).take(1);
        tables.extend(sums.map(|table| ("Scrap report".to_owned(), table)));
        let parts =
            scrap_report::parts_tables(report, packet.units).into_iter().map(|(_, table)| table).take(1);
        tables.extend(parts.map(|table| ("Scrap report, parts on a sheet".to_owned(), table)));
        let credit = packet.credit.map(|credit| credit.table(report, packet.units));
        tables.extend(credit.map(|table| ("Scrap credit".to_owned(), table)));
    }
    tables
}

/// The tables of a chapter: the first under its name, others with what stands over them, else with their first column.
fn tables_of(Chapter { name, passages, .. }: &Chapter) -> Vec<(String, Table)> {
    let mut tables: Vec<(String, Table)> = Vec::new();
    let mut over = "";
    for passage in passages {
        match passage {
            Passage::Heading(words) => over = words.trim(),
            Passage::Words(_) => {}
            Passage::Table(sheet) => {
                let over = over.split([',', ':', ';']).next().unwrap_or_default();
                let table = sheet.table();
                let first = table.columns().first().map_or("", |(heading, _)| heading);
                let of = if over.is_empty() { first } else { over };
                let name = if tables.is_empty() { name.clone() } else { format!("{name}, {of}") };
                tables.push((name, table.clone()));
            }
        }
    }
    tables
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_of_one_origin_stand_together_and_fields_once() {
        let fact = |name: &str, origin: &str, field: &str| Fact {
            name: name.to_owned(),
            value: "4".to_owned(),
            origin: origin.to_owned(),
            fields: vec![field.to_owned()],
        };
        let facts = [
            fact("wall AB", "height / cos(lean)", "wall_height"),
            fact("floor", "plan", "floor"),
            fact("wall BC", "height / cos(lean)", "wall_height"),
        ];
        let expected = [("wall AB: 4; wall BC: 4", "height / cos(lean)"), ("floor: 4", "plan")]
            .map(|(a, b)| (a.to_owned(), b.to_owned()));
        assert_eq!(rows(&facts), expected);
        assert_eq!(fields(&facts), "wall_height; floor");
        assert_eq!(fields(&[]), "");
    }
}
