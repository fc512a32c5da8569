//! The sheets of a job replaced by those that came.

use job::{Job, JobSheet, Received, ReceivedSheet};
use units::Length;

use super::Thickness;
use crate::plan::caliper;

/// The thickness that each metal's flats are worked for: that of the thickest sheet of it.
pub(crate) fn worked_thicknesses(received: &Received) -> Vec<Thickness> {
    received.thicknesses().into_iter().map(|(metal, [_, most])| (metal, most)).collect()
}

/// Puts the sheets received in the place of those to be bought, and tells what there is to say of them. Metals of which
/// none was entered stay as they were ordered.
pub(crate) fn take_sheets(job: &mut Job, received: &Received) -> Vec<String> {
    for metal in 0..job.metals.len() {
        let name = job.metals[metal].metal.name.clone();
        let mut rows: Vec<JobSheet> = Vec::new();
        for sheet in received.of_metal(&name) {
            add(&mut rows, job, metal, sheet);
        }
        if !rows.is_empty() {
            job.sheets.retain(|sheet| sheet.metal != metal || sheet.from_rack.is_some());
            job.sheets.extend(rows);
        }
    }
    sentences(job, received)
}

/// Sheets that hold the same and are as thick are one row.
fn add(rows: &mut Vec<JobSheet>, job: &Job, metal: usize, sheet: &ReceivedSheet) {
    let [width, length] = sheet.squared();
    let same = rows
        .iter_mut()
        .find(|row| row.width == width && row.length == length && row.thickness == Some(sheet.thickness));
    if let Some(row) = same {
        row.count = row.count.map(|count| count + 1);
        if let Some(marks) = &mut row.received {
            marks.push_str(&format!(" and {}", sheet.mark));
        }
        return;
    }
    let of_size = |row: &&JobSheet| row.metal == metal && [row.width, row.length] == sheet.ordered;
    let ordered = job.sheets.iter().find(of_size);
    rows.push(JobSheet {
        metal,
        width,
        length,
        price: ordered.and_then(|row| row.price),
        supplier_cuts: ordered.map_or(0, |row| row.supplier_cuts),
        count: Some(1),
        notes: Vec::new(),
        from_table: false,
        from_rack: None,
        face: None,
        received: Some(sheet.mark.clone()),
        thickness: Some(sheet.thickness),
        outline: None,
    });
}

/// What there is to say of the sheets themselves, a sentence each.
fn sentences(job: &Job, received: &Received) -> Vec<String> {
    let fine = caliper(job.unit);
    let mut told = Vec::new();
    for metal in job.metals.iter().map(|metal| &metal.metal.name) {
        let number = job.metals.iter().position(|known| known.metal.name == *metal);
        if job.parts.iter().all(|part| Some(part.metal) != number) {
            continue;
        }
        let mut sheets = received.of_metal(metal).peekable();
        if sheets.peek().is_none() {
            told.push(format!("{metal}: no sheet of it is entered; it is taken as ordered"));
        }
        for sheet in sheets.filter(|sheet| sheet.squared() != sheet.size) {
            let pair = |[a, b]: [Length; 2]| format!("{} × {}", a.print(job.style), b.print(job.style));
            told.push(format!(
                "{metal}: {} is out of square: of {} it holds {} when it is squared along its long side",
                sheet.mark,
                pair(sheet.size),
                pair(sheet.squared())
            ));
        }
    }
    for (metal, [least, most]) in received.thicknesses() {
        if least < most {
            told.push(format!(
                "{metal}: sheets are from {} to {} thick; the flats are worked for the thickest, and every sheet \
                 and what is cut from it are weighed by its own thickness in the scrap report",
                least.print(fine),
                most.print(fine)
            ));
        }
    }
    told
}
