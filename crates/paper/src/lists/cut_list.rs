//! The cut list: what to cut, how many, out of what.

use units::{Area, Length, LengthStyle, LengthUnit, Mass};

use super::table::{Side, Table};
use super::{ListUnits, csv};
use crate::scrap_report::{area_count, mass_count, print_area, print_mass};

/// One part of the cut list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CutRow {
    /// Its mark.
    pub mark: String,
    /// How many to cut.
    pub quantity: u32,
    /// What it is, in words.
    pub what: String,
    /// The metal, in words.
    pub metal: String,
    /// Thickness of the metal.
    pub thickness: Length,
    /// Length and width of the smallest upright rectangle around the flat.
    pub blank: [Length; 2],
    /// Area of one flat.
    pub area: Area,
    /// Weight of one.
    pub weight: Mass,
    /// How the weight was worked out.
    pub weight_from: String,
    /// The sheets it is cut from, by name.
    pub sheets: Vec<String>,
    /// Bends in one.
    pub bends: u32,
    /// Length of all cut edges of one.
    pub cut_length: Length,
}

/// The cut list as text: first what the cutter needs, then areas, weights and lengths with their sums.
#[must_use]
pub fn text(job: &str, rows: &[CutRow], units: ListUnits) -> String {
    format!(
        "Cut list: {job}\nLengths in {}.\nThe blank is length × width of the flat.\n\n{}\n{WEIGHTS}\n\n{}",
        crate::drawing::unit_words(units.length),
        to_cut(rows, units).text(),
        weights(rows, units).text()
    )
}

/// The cut list as CSV, RFC 4180: decimals, one row a part, the units in the headings.
#[must_use]
pub fn csv(rows: &[CutRow], units: ListUnits) -> String {
    let (unit, area, mass) = (units.length_mark(), units.area.name(), units.mass.name());
    let headings = [
        "mark".to_owned(),
        "quantity".to_owned(),
        "what".to_owned(),
        "metal".to_owned(),
        format!("thickness ({unit})"),
        format!("blank length ({unit})"),
        format!("blank width ({unit})"),
        format!("area each ({area})"),
        format!("weight each ({mass})"),
        format!("weight total ({mass})"),
        "sheets".to_owned(),
        "bends each".to_owned(),
        format!("cut length each ({unit})"),
    ];
    let mut text = csv::record(&headings);
    text.extend(rows.iter().map(|row| csv::record(&csv_fields(row, units))));
    text
}

/// What the cutter needs.
pub(crate) fn to_cut(rows: &[CutRow], units: ListUnits) -> Table {
    let mut table = Table::new(&[
        ("mark", Side::Words),
        ("make", Side::Number),
        ("what", Side::Words),
        ("metal", Side::Words),
        ("thick", Side::Number),
        ("blank", Side::Number),
        ("×", Side::Number),
        ("bends", Side::Number),
        ("from sheet", Side::Words),
    ]);
    let blank = "smallest upright rectangle round the flat; the flat's own numbers are on its layout sheet";
    table.says_from(
        [
            "",
            "quantity of the part in the job",
            "",
            "",
            "thickness of its metal in the job (metals)",
            blank,
            blank,
            "bend lines of the flat; a test strip is bent once",
            "",
        ]
        .map(|from| [from, ""]),
    );
    for row in rows {
        let [length, width] = row.blank.map(|size| size.print(units.length));
        table.row(vec![
            row.mark.clone(),
            row.quantity.to_string(),
            row.what.clone(),
            row.metal.clone(),
            crate::drawing::printed_thickness(row.thickness.millimetres(), units.length),
            length,
            width,
            row.bends.to_string(),
            row.sheets.join(", "),
        ]);
    }
    table
}

/// Stands over the second table.
pub(crate) const WEIGHTS: &str = "Areas, weights and lengths of cut";

/// Areas, weights and lengths. Totals and sums are of the printed weights, so that they can be redone by hand.
pub(crate) fn weights(rows: &[CutRow], units: ListUnits) -> Table {
    let unit = units.length_mark();
    let (area, mass) = (units.area.name(), units.mass.name());
    let headings = [
        format!("area each, {area}"),
        format!("weight each, {mass}"),
        format!("weight total, {mass}"),
        format!("cut length each, about, {unit}"),
    ];
    let mut columns = vec![("mark", Side::Words), ("make", Side::Number)];
    columns.extend(headings.iter().map(|heading| (heading.as_str(), Side::Number)));
    let mut table = Table::new(&columns);
    table.says_from([
        ["", ""],
        ["quantity of the part in the job", "sum of the column"],
        ["area within the outline of the flat, holes and reliefs taken out", ""],
        ["area × weight per area of its metal", ""],
        ["printed weight of one × how many", "sum of the column"],
        ["length of all cut edges of the flat, those of holes and reliefs too, to the tape", ""],
    ]);
    let total = |row: &CutRow| mass_count(row.weight.of_pieces(row.quantity, units.mass), units);
    for row in rows {
        let mut from = vec![String::new(); columns.len()];
        from[3].clone_from(&row.weight_from);
        let cells = vec![
            row.mark.clone(),
            row.quantity.to_string(),
            print_area(area_count(row.area, units)),
            printed_weight(row, units),
            print_mass(total(row)),
            row.cut_length.print_about(units.length),
        ];
        table.row_from(cells, from);
    }
    let pieces: u64 = rows.iter().map(|row| u64::from(row.quantity)).sum();
    let weight: i128 = rows.iter().map(total).sum();
    table.sum(vec![
        "all".to_owned(),
        pieces.to_string(),
        String::new(),
        String::new(),
        print_mass(weight),
        String::new(),
    ]);
    table
}

/// The weight of one.
fn printed_weight(row: &CutRow, units: ListUnits) -> String {
    row.weight.print(units.mass, row.weight.places_of_one(units.mass))
}

fn csv_fields(row: &CutRow, units: ListUnits) -> Vec<String> {
    let style = match units.length.unit() {
        LengthUnit::Inch => LengthStyle::Inches { places: 4 },
        LengthUnit::Millimetre => LengthStyle::Millimetres { places: 3 },
    };
    let length = |length: Length| length.print(style);
    vec![
        row.mark.clone(),
        row.quantity.to_string(),
        row.what.clone(),
        row.metal.clone(),
        length(row.thickness),
        length(row.blank[0]),
        length(row.blank[1]),
        row.area.print(units.area, 4),
        printed_weight(row, units),
        row.weight.of_pieces(row.quantity, units.mass).print(units.mass, 2),
        row.sheets.join("; "),
        row.bends.to_string(),
        length(row.cut_length),
    ]
}
