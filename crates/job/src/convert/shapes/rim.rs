//! The rim of a pan or box, in words.

use shapes::pan::Rim;

use crate::convert::desk::{Desk, Range};
use crate::file::Size;
use crate::place::Place;

/// "1/2 out", "1/2 inward" or "none".
pub(super) fn rim(text: &str, place: &Place, desk: &mut Desk<'_>) -> Option<Rim> {
    let text = text.trim();
    if text.eq_ignore_ascii_case("none") {
        return Some(Rim::None);
    }
    let (size, way) = text.rsplit_once(' ').unwrap_or(("", text));
    let rim: fn(_) -> Rim = match way.to_ascii_lowercase().as_str() {
        "out" | "outward" => Rim::Out,
        "inward" => Rim::In,
        "in" => {
            let wrong = "\"in\" may mean inward, or inches";
            let remedy = format!("write \"{size} inward\" or \"{size} out\"");
            desk.add(place, text, wrong, remedy);
            return None;
        }
        _ => {
            let remedy = "write \"1/2 out\", \"1/2 inward\" or \"none\"";
            desk.add(place, text, "a rim is a width and which way it turns", remedy);
            return None;
        }
    };
    desk.length(place, &Size::Text(size.to_owned()), Range::AboveZero).map(rim)
}
