//! Clearances: items with a count, read one by one and never added up before they are printed.

use shapes::{Clearance, ClearanceItem};

use super::desk::{Desk, Range};
use crate::file::{ClearanceFile, MultipleFile, Size};
use crate::place::Place;

/// What one length without a name is called.
const UNNAMED: &str = "clearance";

/// The most times an item may count: a covering goes round twice, a stack of washers is not a hundred.
const MOST_TIMES: u32 = 20;

/// The clearance; `None` when an item cannot be read.
pub(super) fn clearance(file: &ClearanceFile, place: &Place, desk: &mut Desk<'_>) -> Option<Clearance> {
    let items: Vec<Option<ClearanceItem>> = match file {
        ClearanceFile::One(written) => vec![item(UNNAMED, written, place, desk)],
        ClearanceFile::Named(named) => {
            named.0.iter().map(|(name, written)| item(name, written, &place.field(name), desk)).collect()
        }
    };
    Some(Clearance { items: items.into_iter().collect::<Option<_>>()? })
}

fn item(name: &str, written: &MultipleFile, place: &Place, desk: &mut Desk<'_>) -> Option<ClearanceItem> {
    let (count, size) = match &written.0 {
        Size::Text(text) => split(text, place, desk)?,
        number @ Size::Number(_) => (1, number.clone()),
    };
    let each = desk.length(place, &size, Range::ZeroOrMore)?;
    Some(ClearanceItem { name: name.to_owned(), count, each })
}

/// The count before the length, one where there is none.
fn split(text: &str, place: &Place, desk: &mut Desk<'_>) -> Option<(u32, Size)> {
    let text = text.trim();
    if let Some(rest) = text.strip_prefix("twice ") {
        return Some((2, Size::Text(rest.trim().to_owned())));
    }
    let Some((before, rest)) = text.split_once(['x', '×']) else {
        return Some((1, Size::Text(text.to_owned())));
    };
    let count = before.trim().parse::<u32>().ok().filter(|count| (1..=MOST_TIMES).contains(count));
    let Some(count) = count else {
        let wrong = format!("before the × stands how many times, 1 to {MOST_TIMES}");
        desk.add(place, text, wrong, "write \"2 x 1/8\", or \"twice 1/8\"");
        return None;
    };
    Some((count, Size::Text(rest.trim().to_owned())))
}
