//! Writing the sheets received: one a line, so that two versions can be compared by eye.

use super::super::rack::exact_length;
use super::VERSION;
use super::sheet::{Received, ReceivedSheet};
use crate::file::ReceivedSheetFile;

/// The whole file.
#[must_use]
pub fn received_text(received: &Received) -> String {
    // A sheet has only texts in it, which JSON always holds.
    let line = |sheet: &ReceivedSheet| serde_json::to_string(&file_of(sheet)).unwrap_or_default();
    let lines: Vec<String> = received.sheets.iter().map(|sheet| format!("    {}", line(sheet))).collect();
    let sheets = if lines.is_empty() { String::new() } else { format!("\n{}\n  ", lines.join(",\n")) };
    format!("{{\n  \"plateloft_received\": {VERSION},\n  \"sheets\": [{sheets}]\n}}\n")
}

fn file_of(sheet: &ReceivedSheet) -> ReceivedSheetFile {
    ReceivedSheetFile {
        mark: sheet.mark.clone(),
        metal: sheet.metal.clone(),
        ordered: sheet.ordered.map(exact_length),
        size: sheet.size.map(exact_length),
        thickness: exact_length(sheet.thickness),
        diagonals: sheet.diagonals.map(|pair| pair.map(exact_length)),
        date: sheet.date.clone(),
        note: sheet.note.clone(),
    }
}
