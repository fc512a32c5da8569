//! The opening that a lid or pan is made for.

use shapes::Figure;

use crate::convert::desk::{Desk, Range};
use crate::convert::openings::Openings;
use crate::file::OpeningOrSize;
use crate::nearest::{list, remedy};
use crate::place::Place;

/// The opening's figure: by name, or square-cornered by two sizes.
pub(in crate::convert) fn figure(
    file: &OpeningOrSize,
    openings: &Openings,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<Figure> {
    match file {
        OpeningOrSize::Size(sizes) => {
            let [length, width] = desk.pair(place, sizes, Range::Opening)?;
            Figure::rectangle(length.millimetres(), width.millimetres())
        }
        OpeningOrSize::Name(name) => {
            let found = openings.iter().find(|(known, _)| known == name);
            if found.is_none() {
                let known: Vec<&str> = openings.iter().map(|(known, _)| known.as_str()).collect();
                let remedy = remedy(name, &known, || match known[..] {
                    [] => "give its tape sizes under \"openings\", or two sizes here".to_owned(),
                    _ => format!("the openings are {}; or give two sizes here", list(known.iter().copied())),
                });
                desk.add(place, name, "the job has no opening of this name", remedy);
            }
            // An opening that is named but could not be solved is a finding already.
            found?.1.as_ref().map(|opening| opening.solved.figure.clone())
        }
    }
}
