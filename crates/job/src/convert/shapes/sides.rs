//! Lengths given side by side.

use shapes::Figure;
use units::Length;

use crate::convert::desk::{Desk, Range};
use crate::file::{EachSide, Named, Size};
use crate::nearest::list;
use crate::place::Place;

/// A length for each side of the figure, in its order.
pub(super) fn each_side(
    file: &EachSide,
    figure: &Figure,
    range: Range,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<Vec<Length>> {
    match file {
        EachSide::One(size) => Some(vec![desk.length(place, size, range)?; figure.count()]),
        EachSide::Named(named) => {
            let lengths = by_side(named, figure, place, desk, |desk, place, size: &Size| {
                desk.length(place, size, range)
            })?;
            let mut whole = Some(Vec::new());
            for (length, side) in lengths.into_iter().zip(&figure.sides) {
                if length.is_none() {
                    desk.add(
                        &place.field(side),
                        "",
                        "is missing",
                        "give one for each side, or one length for all",
                    );
                    whole = None;
                }
                whole = whole.zip(length).map(|(mut all, length)| {
                    all.push(length);
                    all
                });
            }
            whole
        }
    }
}

/// What is given for each side of the figure, in its order; `None` inside for a side that is not named.
pub(super) fn by_side<T, V: Clone>(
    named: &Named<T>,
    figure: &Figure,
    place: &Place,
    desk: &mut Desk<'_>,
    mut read: impl FnMut(&mut Desk<'_>, &Place, &T) -> Option<V>,
) -> Option<Vec<Option<V>>> {
    let mut values = vec![None; figure.count()];
    let mut whole = true;
    for (name, written) in &named.0 {
        let here = place.field(name);
        let value = read(desk, &here, written);
        whole &= value.is_some();
        match figure.side_number(name) {
            Some(number) if values[number].is_none() => values[number] = value,
            Some(_) => {
                desk.add(&here, "", "this side is given twice", "keep one of the two");
                whole = false;
            }
            None => {
                let remedy = format!("the sides are {}", list(figure.sides.iter().map(String::as_str)));
                desk.add(&here, "", "there is no such side", remedy);
                whole = false;
            }
        }
    }
    whole.then_some(values)
}
