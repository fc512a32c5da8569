//! Sheets: the job's own rows, or the stock sizes where a metal has none.

use units::{Length, LengthUnit};

use super::desk::{Desk, ONE_PRICE, Range};
use super::metals::Metals;
use super::shop::unknown_metal;
use crate::file::{JobFile, SheetFile};
use crate::model::{JobSheet, Part, Shop};
use crate::place::Place;

/// Every sheet, numbered by the metals that are whole, each with its `notes`.
pub(super) fn sheets(
    file: &JobFile,
    metals: &Metals,
    shop: &Shop,
    (parts, notes): (&[Part], &[Vec<String>]),
    desk: &mut Desk<'_>,
) -> Vec<JobSheet> {
    let mut sheets = Vec::new();
    for (number, sheet) in file.sheets.iter().enumerate() {
        let place = Place::top("sheets").entry(number);
        if let Some(sheet) = sheet {
            let notes = notes.get(number).cloned().unwrap_or_default();
            let sheet = self::sheet(sheet, file, metals, shop, &place, desk);
            sheets.extend(sheet.map(|sheet| JobSheet { notes, ..sheet }));
        }
    }
    judge_sizes(file, desk);
    let whole = metals.iter().filter_map(|(name, metal)| metal.as_ref().map(|_| name));
    for (number, name) in whole.enumerate() {
        let used = parts.iter().any(|part| part.metal == number);
        let given = file.sheets.iter().flatten().any(|sheet| sheet.metal == *name);
        if used && !given {
            let table = "no sheets are given; the stock sizes are taken, without price";
            desk.assumptions.push(format!("{name}: {table}."));
            sheets.extend(from_table(number, desk.unit));
        }
    }
    sheets
}

/// A size that can be bought without end has one price; what is at hand, or to be had a few times, may have another, and so
/// may a sheet that the supplier cuts to it. Sizes that cannot be read are findings already.
fn judge_sizes(file: &JobFile, desk: &mut Desk<'_>) {
    let mut known: Vec<(usize, &SheetFile, [Length; 2])> = Vec::new();
    for (number, sheet) in file.sheets.iter().enumerate() {
        let Some(sheet) = sheet.as_ref().filter(|sheet| sheet.count.is_none()) else { continue };
        let [Some(a), Some(b)] = sheet.size.each_ref().map(|side| side.read(desk.unit).ok()) else {
            continue;
        };
        let size = [a.min(b), a.max(b)];
        let same = known.iter().find(|(_, other, of_other)| {
            sheet.metal == other.metal
                && size == *of_other
                && sheet.supplier_cuts.unwrap_or(0) == other.supplier_cuts.unwrap_or(0)
        });
        if let Some((first, ..)) = same {
            let value = sheet.size.each_ref().map(ToString::to_string).join(" x ");
            let wrong = format!("this size of {} is given twice, first in sheets[{first}]", sheet.metal);
            desk.add(&Place::top("sheets").entry(number).field("size"), &value, wrong, ONE_PRICE);
        }
        known.push((number, sheet, size));
    }
}

fn sheet(
    sheet: &SheetFile,
    file: &JobFile,
    metals: &Metals,
    shop: &Shop,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<JobSheet> {
    let known = file.metals.0.iter().any(|(name, _)| *name == sheet.metal);
    if !known {
        unknown_metal(&place.field("metal"), &sheet.metal, file, desk);
    }
    let size = desk.pair(&place.field("size"), &sheet.size, Range::AboveZero);
    let price = desk.optional_price(&place.field("price"), sheet.price.as_ref());
    let [a, b] = size?;
    let (width, length) = (a.min(b), a.max(b));
    if shop.edge_trim + shop.edge_trim >= width {
        let value = sheet.size.each_ref().map(ToString::to_string).join(" x ");
        let wrong = format!("trimming {} at each edge leaves nothing", shop.edge_trim.print(desk.style));
        desk.add(&place.field("size"), &value, wrong, "check edge_trim and the sheet's size");
        return None;
    }
    let metal = super::metals::number_of(metals, &sheet.metal)?;
    Some(JobSheet {
        metal,
        width,
        length,
        price: price?,
        supplier_cuts: sheet.supplier_cuts.unwrap_or(0),
        count: sheet.count,
        notes: Vec::new(),
        from_table: false,
        from_rack: None,
        face: None,
        received: None,
        thickness: None,
        outline: None,
    })
}

/// The stock sizes of the job's own system. A size in whole inches is an inch size, even where it is whole in millimetres
/// too, as 60 x 120 is.
fn from_table(metal: usize, unit: LengthUnit) -> impl Iterator<Item = JobSheet> {
    let whole_inches = |length: Length| Length::from_inches(length.inches().round()) == length;
    let wanted = unit == LengthUnit::Inch;
    let rows = stock::sheet_sizes();
    let own = rows.iter().filter(move |row| (whole_inches(row.width) && whole_inches(row.length)) == wanted);
    own.map(move |row| JobSheet {
        metal,
        width: row.width,
        length: row.length,
        price: None,
        supplier_cuts: 0,
        count: None,
        notes: Vec::new(),
        from_table: true,
        from_rack: None,
        face: None,
        received: None,
        thickness: None,
        outline: None,
    })
}
