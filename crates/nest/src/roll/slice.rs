//! Slices taken out of a layout, or put in, at a place chosen by chance.

use crate::random::Chance;
use crate::separate::Spot;
use crate::separate::state::Loose;

/// The pieces with everything right of a cut moved left by `slice`; right where that is negative.
pub(crate) fn taken_out(pieces: &[Loose], room: f64, slice: f64, chance: &mut Chance) -> Vec<Loose> {
    let cut = chance.share() * room;
    let moved = |piece: &Loose| {
        let shift = if cut < piece.at.x { slice } else { 0.0 };
        Loose { at: Spot::new(piece.at.x - shift, piece.at.y), ..*piece }
    };
    pieces.iter().map(moved).collect()
}
