//! The take-off: what one job or several need of every metal, bar, covering and piece of hardware, before any sheet is
//! chosen.

use estimate::{PartWeight, TakeOff};
use units::Length;

use super::ListUnits;
use super::table::{Side, Table};
use crate::scrap_report::{area_count, mass_count, print_area, print_mass};

/// One mark of one job.
#[derive(Debug, Clone)]
pub struct TakeOffRow {
    /// The job's name.
    pub job: String,
    /// The blank's sizes.
    pub blank: [Length; 2],
    /// The side of the finished part that has the film; empty where there is none.
    pub film_on: &'static str,
}

/// Bar, pipe or section by its cut lengths.
#[derive(Debug, Clone)]
pub struct BarRow {
    /// What is ordered.
    pub name: String,
    /// The job and the mark.
    pub of: String,
    /// How many lengths.
    pub count: u32,
    /// Cut length of one.
    pub length: Length,
}

/// All lengths of a bar together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BarSum<'a> {
    /// What is ordered.
    pub name: &'a str,
    /// How many lengths.
    pub count: u64,
    /// Their cut lengths summed, exact; kerf and end trim are not in it.
    pub length: Length,
}

/// A piece of a covering or a face to line.
#[derive(Debug, Clone)]
pub struct CoveringRow {
    /// What is ordered.
    pub name: String,
    /// The job.
    pub job: String,
    /// The mark.
    pub mark: String,
    /// Its sizes, along the nap of a covering first.
    pub size: [Length; 2],
    /// How many.
    pub count: u32,
}

/// Hardware, as the user typed it.
#[derive(Debug, Clone)]
pub struct HardwareRow {
    /// What it is.
    pub item: String,
    /// The jobs it is for.
    pub of: String,
    /// How many.
    pub count: u64,
}

/// How the lines of a take-off are rounded.
const ROUNDED: &str = "A line's area is rounded once; its weight is pieces × the printed weight of one.\n\
                       Sums are of the printed lines.\n";

/// The area and the weight of some lines as printed, in counts of the last digit.
pub type PrintedLine = [i128; 2];

/// What a line of the take-off prints.
#[must_use]
pub fn printed_line(part: &PartWeight, units: ListUnits) -> PrintedLine {
    [area_count(part.area, units), mass_count(part.each.of_pieces(part.quantity, units.mass), units)]
}

/// The take-off as text. `rows` are beside the parts of `off`; every column adds up to its last digit.
#[must_use]
pub fn text(off: &TakeOff, rows: &[TakeOffRow], units: ListUnits) -> String {
    let (area, weight) =
        (format!("net area, {}", units.area.name()), format!("weight, {}", units.mass.name()));
    let mut sums = Table::new(&[
        ("metal", Side::Words),
        ("pieces", Side::Number),
        (&area, Side::Number),
        (&weight, Side::Number),
    ]);
    let mut all = (0, 0, 0);
    for metal in &off.metals {
        let of_metal = || off.parts.iter().filter(|part| part.metal == metal.metal);
        let area: i128 = of_metal().map(|part| printed_line(part, units)[0]).sum();
        let mass: i128 = of_metal().map(|part| printed_line(part, units)[1]).sum();
        let cells = vec![metal.metal.clone(), metal.quantity.to_string(), print_area(area), print_mass(mass)];
        sums.row(cells);
        all = (all.0 + metal.quantity, all.1 + area, all.2 + mass);
    }
    sums.sum(vec!["all".to_owned(), all.0.to_string(), print_area(all.1), print_mass(all.2)]);
    let mut text = sums.text() + ROUNDED;
    for metal in &off.metals {
        text.push_str(&format!("\n{}\n{}", metal.metal, parts(off, rows, &metal.metal, units).text()));
    }
    text
}

/// The parts of one metal.
fn parts(off: &TakeOff, rows: &[TakeOffRow], metal: &str, units: ListUnits) -> Table {
    let (each, weight) = (format!("each, {}", units.mass.name()), format!("weight, {}", units.mass.name()));
    let net = format!("net area, {}", units.area.name());
    let mut columns = vec![
        ("job", Side::Words),
        ("mark", Side::Words),
        ("pieces", Side::Number),
        ("blank", Side::Words),
        (&each, Side::Number),
        (&net, Side::Number),
        (&weight, Side::Number),
    ];
    let of_metal = || off.parts.iter().zip(rows).filter(|(part, _)| part.metal == metal);
    let has_film = of_metal().any(|(_, row)| !row.film_on.is_empty());
    if has_film {
        columns.insert(4, ("film on", Side::Words));
    }
    let mut table = Table::new(&columns);
    let (mut pieces, mut area_sum, mut mass_sum) = (0, 0, 0);
    for (part, row) in of_metal() {
        let [area, mass] = printed_line(part, units);
        let [length, width] = row.blank.map(|side| side.print(units.length));
        let mut cells = vec![
            row.job.clone(),
            part.mark.clone(),
            part.quantity.to_string(),
            format!("{length} × {width}"),
            part.each.print(units.mass, part.each.places_of_one(units.mass)),
            print_area(area),
            print_mass(mass),
        ];
        if has_film {
            cells.insert(4, row.film_on.to_owned());
        }
        table.row(cells);
        pieces += u64::from(part.quantity);
        area_sum += area;
        mass_sum += mass;
    }
    let empty = String::new;
    let (area, mass) = (print_area(area_sum), print_mass(mass_sum));
    let mut cells = vec!["all".to_owned(), empty(), pieces.to_string(), empty(), empty(), area, mass];
    if has_film {
        cells.insert(4, empty());
    }
    table.sum(cells);
    table
}

/// Bars as text; nothing where there are none.
#[must_use]
pub fn bars(rows: &[BarRow], units: ListUnits) -> String {
    if rows.is_empty() {
        return String::new();
    }
    let mut table = Table::new(&[
        ("bar, pipe or section", Side::Words),
        ("for", Side::Words),
        ("lengths", Side::Number),
        ("cut length", Side::Number),
    ]);
    for row in rows {
        let length = row.length.print(units.length);
        table.row(vec![row.name.clone(), row.of.clone(), row.count.to_string(), length]);
    }
    format!("{}\n{}", table.text(), bar_sums(rows, units).text())
}

/// Every bar once, whatever job it is for.
fn bar_sums(rows: &[BarRow], units: ListUnits) -> Table {
    let mut table = Table::new(&[
        ("bar, pipe or section, in all", Side::Words),
        ("lengths", Side::Number),
        ("together, without kerf", Side::Number),
    ]);
    for BarSum { name, count, length } in sums_of_bars(rows) {
        table.row(vec![name.to_owned(), count.to_string(), length.print(units.length)]);
    }
    table
}

/// The sum of every bar over all its rows, in the order in which bars first appear.
#[must_use]
pub fn sums_of_bars(rows: &[BarRow]) -> Vec<BarSum<'_>> {
    let mut sums: Vec<BarSum<'_>> = Vec::new();
    for row in rows {
        let (count, length) = (u64::from(row.count), row.length * i64::from(row.count));
        match sums.iter_mut().find(|sum| sum.name == row.name) {
            Some(sum) => {
                sum.count += count;
                sum.length += length;
            }
            None => sums.push(BarSum { name: &row.name, count, length }),
        }
    }
    sums
}

/// Coverings and faces to line as text; nothing where there are none. Every line is rounded once and added up as printed.
#[must_use]
pub fn coverings(rows: &[CoveringRow], units: ListUnits) -> String {
    let mut names: Vec<&str> = Vec::new();
    for row in rows {
        if !names.contains(&row.name.as_str()) {
            names.push(&row.name);
        }
    }
    let tables = names.into_iter().map(|name| {
        let rows = rows.iter().filter(|row| row.name == name);
        format!("{name}\n{}", covering_table(rows, units).text())
    });
    tables.collect::<Vec<_>>().join("\n")
}

fn covering_table<'a>(rows: impl Iterator<Item = &'a CoveringRow>, units: ListUnits) -> Table {
    let net = format!("net area, {}", units.area.name());
    let mut table = Table::new(&[
        ("job", Side::Words),
        ("mark", Side::Words),
        ("pieces", Side::Number),
        ("size", Side::Words),
        (&net, Side::Number),
    ]);
    let (mut pieces, mut sum) = (0, 0);
    for row in rows {
        let [along, across] = row.size;
        let area = area_count(along * across * i64::from(row.count), units);
        let size = format!("{} × {}", along.print(units.length), across.print(units.length));
        table.row(vec![row.job.clone(), row.mark.clone(), row.count.to_string(), size, print_area(area)]);
        pieces += u64::from(row.count);
        sum += area;
    }
    table.sum(vec!["all".to_owned(), String::new(), pieces.to_string(), String::new(), print_area(sum)]);
    table
}

/// Hardware as text; nothing where there is none.
#[must_use]
pub fn hardware(rows: &[HardwareRow]) -> String {
    if rows.is_empty() {
        return String::new();
    }
    let mut table = Table::new(&[("hardware", Side::Words), ("for", Side::Words), ("count", Side::Number)]);
    for row in rows {
        table.row(vec![row.item.clone(), row.of.clone(), row.count.to_string()]);
    }
    table.text()
}
