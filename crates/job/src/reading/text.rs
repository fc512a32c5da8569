//! From bytes to text, and the limits that come before any parsing.

use crate::contents::contents;
use crate::place::{Findings, Place};

/// The largest file that is read, megabytes. A job of a thousand parts takes less than a tenth of it.
const MOST_MEGABYTES: usize = 8;

/// The deepest that brackets may nest; a job file needs nine.
const MOST_DEPTH: usize = 24;

/// The text of the file.
pub(super) fn text<'a>(bytes: &'a [u8], findings: &mut Findings) -> Option<&'a str> {
    let bytes = contents(bytes, MOST_MEGABYTES, "the job file", findings)?;
    let text = match std::str::from_utf8(bytes) {
        Ok(text) => text,
        Err(error) => {
            let line = line_number(bytes, error.valid_up_to());
            let remedy = "save it as UTF-8 text; a drawing or a zipped file is no job file";
            findings.add(&Place::top(&format!("line {line}")), "", "the file is not UTF-8 text", remedy);
            return None;
        }
    };
    if text.trim().is_empty() {
        findings.add(
            &Place::default(),
            "",
            "the file is empty",
            "write a job, or start from the starter job",
        );
        return None;
    }
    if let Some(at) = too_deep(text) {
        let place = Place::top(&format!("line {}", line_number(bytes, at)));
        let wrong = format!("brackets nest more than {MOST_DEPTH} deep");
        findings.add(
            &place,
            "",
            wrong,
            "a job file needs nine at most: look for brackets that are never closed",
        );
        return None;
    }
    Some(text)
}

/// The number of the line that byte `at` is on, from one.
fn line_number(bytes: &[u8], at: usize) -> usize {
    1 + bytes[..at.min(bytes.len())].iter().filter(|&&byte| byte == b'\n').count()
}

/// Where brackets outside of texts first nest too deep.
fn too_deep(text: &str) -> Option<usize> {
    let (mut depth, mut in_text, mut escaped) = (0_usize, false, false);
    for (at, byte) in text.bytes().enumerate() {
        match (in_text, byte) {
            (true, _) if escaped => escaped = false,
            (true, b'\\') => escaped = true,
            (_, b'"') => in_text = !in_text,
            (false, b'[' | b'{') => depth += 1,
            (false, b']' | b'}') => depth = depth.saturating_sub(1),
            _ => {}
        }
        if depth > MOST_DEPTH {
            return Some(at);
        }
    }
    None
}
