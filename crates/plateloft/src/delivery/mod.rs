//! A job held against the sheets as they were received: what of it changes, and whether it still fits.

mod changes;
mod sheets;

use units::Length;

pub(crate) use changes::{Changes, changes};
pub(crate) use sheets::{take_sheets, worked_thicknesses};

use crate::speech::Refusal;

/// A metal's name, and the thickness that its flats are worked for.
pub(crate) type Thickness = (String, Length);

/// A job that is sound for what was ordered, and not for what was received: bad input no longer, but the answer "no".
pub(crate) fn no_longer(refusal: Refusal) -> Refusal {
    match refusal {
        Refusal::BadInput(messages) | Refusal::CannotBeMade { reasons: messages, .. } => {
            Refusal::No(format!(
                "{}\nno: with the sheets as received the job can no longer be made as it is; nothing was written",
                messages.join("\n")
            ))
        }
        other => other,
    }
}
