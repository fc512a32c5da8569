//! What a file holds, when it is no larger than such a file can be.

use crate::place::{Findings, Place};

/// The bytes of a file of at most so many megabytes, without a mark for the byte order; `what` is what it should be, for the
/// message about a larger one.
pub(crate) fn contents<'a>(
    bytes: &'a [u8],
    most_megabytes: usize,
    what: &str,
    findings: &mut Findings,
) -> Option<&'a [u8]> {
    if most_megabytes * 1024 * 1024 < bytes.len() {
        let value = format!("{} bytes", bytes.len());
        let wrong = format!("this is more than {most_megabytes} MB, and was not read");
        findings.add(&Place::default(), &value, wrong, format!("check that this is {what}"));
        return None;
    }
    // The mark, which some editors put first, says nothing in UTF-8.
    Some(bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes))
}
