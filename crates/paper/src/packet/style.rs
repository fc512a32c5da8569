//! The style sheet: black on white, one accent, good on paper.

use crate::page::{Ink, font};

/// The style sheet, with the job's name at the foot of every printed page.
pub(super) fn sheet(job: &str) -> String {
    include_str!("style.css")
        .replace("FAMILY", font::FAMILY)
        .replace("ACCENT", Ink::Accent.hex())
        .replace("JOB", &in_quotes(job))
}

/// `text` as a string of CSS: letters and digits of ASCII stay, everything else is written as its code.
fn in_quotes(text: &str) -> String {
    let letter = |c: char| match c {
        _ if c.is_ascii_alphanumeric() || c == ' ' => c.to_string(),
        '\0' => String::new(),
        _ => format!("\\{:06x}", u32::from(c)),
    };
    format!("\"{}\"", text.chars().map(letter).collect::<String>())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_job_name_cannot_leave_its_quotes() {
        assert_eq!(in_quotes("a\"b</style>"), "\"a\\000022b\\00003c\\00002fstyle\\00003e\"");
    }
}
