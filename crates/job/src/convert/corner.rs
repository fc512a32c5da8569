//! How the corners of a part are made.

use shapes::{Chosen, CornerStyle};
use units::Length;

use super::desk::{Desk, Range};
use crate::file::{ByNameFile, ChosenFile, CornerFile, FaceFile};
use crate::place::Place;

/// The style asked for, `shop` being how all corners are made of which nothing is said; `None` is a finding.
pub(super) fn corner(
    file: &CornerFile,
    shop: &CornerStyle,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<CornerStyle> {
    match file {
        CornerFile::ByName(file) => by_name(file, shop, place, desk),
        _ => single(file, place, desk),
    }
}

/// Styles by name; each must be one that is none by names again.
fn by_name(file: &ByNameFile, shop: &CornerStyle, place: &Place, desk: &mut Desk<'_>) -> Option<CornerStyle> {
    let at = place.field("at");
    let named: Vec<_> = file
        .at
        .0
        .iter()
        .map(|(name, style)| Some((name.clone(), single(style, &at.field(name), desk)?)))
        .collect();
    let others = match &file.others {
        Some(others) => single(others, &place.field("others"), desk),
        None => Some(shop.clone()),
    };
    if named.is_empty() {
        desk.add(&at, "{}", "no corner is named", "name one, or give one style for all");
        return None;
    }
    let named = named.into_iter().collect::<Option<Vec<_>>>()?;
    Some(CornerStyle::ByName { named, others: Box::new(others?) })
}

/// The style of all corners of a shop, who knows none of them by name; `None` is a finding.
pub(super) fn of_shop(file: &CornerFile, place: &Place, desk: &mut Desk<'_>) -> Option<CornerStyle> {
    single(file, place, desk)
}

/// One style; `None` is a finding.
fn single(file: &CornerFile, place: &Place, desk: &mut Desk<'_>) -> Option<CornerStyle> {
    match file {
        CornerFile::ByName(_) => {
            let wrong = "corners go by their names on a part alone, and there once";
            let remedy = "give one style here; a part's \"corner\" may name single corners under \"at\"";
            desk.add(place, "as given", wrong, remedy);
            None
        }
        CornerFile::Words(text) => match text.trim().to_ascii_lowercase().as_str() {
            "open" => Some(CornerStyle::Open),
            "butt" => Some(CornerStyle::Butt { through: Chosen::LongSides }),
            _ => {
                let remedy = "write \"open\", \"butt\", {\"butt_through\": [\"AB\", \"CD\"]}, {\"lap\": \"5/8\"}, \
                              {\"tab\": \"1/2\", \"count\": 2} or {\"gap\": \"1/16\"}";
                desk.add(place, text, "no corner is made so", remedy);
                None
            }
        },
        CornerFile::Gap(file) => {
            let gap = desk.length(&place.field("gap"), &file.gap, Range::ZeroOrMore)?;
            Some(CornerStyle::Gap { gap })
        }
        CornerFile::Butt(file) => {
            let through = chosen(&file.butt_through, &place.field("butt_through"), desk)?;
            Some(CornerStyle::Butt { through })
        }
        CornerFile::Lap(file) => {
            let width = desk.length(&place.field("lap"), &file.lap, Range::AboveZero);
            let carried_by = file
                .carried_by
                .as_ref()
                .map_or(Some(Chosen::LongSides), |file| chosen(file, &place.field("carried_by"), desk));
            let outside = file.side == Some(FaceFile::Outside);
            Some(CornerStyle::Lap { width: width?, carried_by: carried_by?, outside })
        }
        CornerFile::Tabs(file) => {
            let tab = desk.length(&place.field("tab"), &file.tab, Range::AboveZero);
            let clearance =
                desk.optional(&place.field("clearance"), file.clearance.as_ref(), Range::ZeroOrMore);
            let tabs_on = file
                .tabs_on
                .as_ref()
                .map_or(Some(Chosen::ShortSides), |file| chosen(file, &place.field("tabs_on"), desk));
            Some(CornerStyle::TabAndSlot {
                tab: tab?,
                clearance: clearance?.unwrap_or(Length::ZERO),
                count: file.count,
                tabs_on: tabs_on?,
            })
        }
    }
}

fn chosen(file: &ChosenFile, place: &Place, desk: &mut Desk<'_>) -> Option<Chosen> {
    match file {
        ChosenFile::Sides(sides) => Some(Chosen::Sides(sides.clone())),
        ChosenFile::Words(text) => match text.trim().to_ascii_lowercase().as_str() {
            "long sides" => Some(Chosen::LongSides),
            "short sides" => Some(Chosen::ShortSides),
            _ => {
                let remedy = "write \"long sides\", \"short sides\", or name them: [\"AB\", \"CD\"]";
                desk.add(place, text, "does not tell one of the two plates at a corner", remedy);
                None
            }
        },
    }
}
