//! Laying flats in crates.

use std::cmp::Reverse;

use units::{Length, Mass};

use super::check::{self, CratingFault};
use super::room::Room;
use super::{Crate, CrateLimits, FlatToSend, Layer, Packed};

/// A crate in the making, with the free room of each layer.
struct Open {
    packed: Crate,
    rooms: Vec<Room>,
}

/// Lays every flat in a crate. The answer has passed its own check.
///
/// # Errors
/// Every flat that no crate takes; more crates than may be sent; or [`CratingFault::Unsound`], which is a fault of this
/// program.
pub fn pack(flats: &[FlatToSend], limits: &CrateLimits) -> Result<Vec<Crate>, Vec<CratingFault>> {
    let faults = check::flats(flats, limits);
    if !faults.is_empty() {
        return Err(faults);
    }
    let mut order: Vec<usize> = (0..flats.len()).collect();
    order.sort_by_key(|&flat| {
        let [a, b] = flats[flat].size;
        (flats[flat].first_wanted, Reverse(a * b), Reverse(a.max(b)), flat)
    });
    let mut crates: Vec<Open> = Vec::new();
    for flat in order {
        let on_top = |open: &mut Open| open.add_on_top(flat, flats, limits);
        let placed = (flats[flat].first_wanted && crates.iter_mut().any(on_top))
            || crates.iter_mut().any(|open| open.add(flat, flats, limits));
        if !placed {
            let mut fresh = Open { packed: Crate::default(), rooms: Vec::new() };
            // Every flat was found to go into an empty crate.
            fresh.add(flat, flats, limits);
            crates.push(fresh);
        }
    }
    let crates: Vec<Crate> = crates.into_iter().map(|open| open.packed).collect();
    check::crates(&crates, flats, limits)?;
    Ok(crates)
}

impl Open {
    /// Lays a flat in the lowest layer that takes it, or in a layer of its own on top.
    fn add(&mut self, flat: usize, flats: &[FlatToSend], limits: &CrateLimits) -> bool {
        let piece = &flats[flat];
        for number in 0..self.rooms.len() {
            if self.fits_layer(number, piece, flats, limits) && self.lay(number, flat, piece) {
                return true;
            }
        }
        self.add_layer(flat, piece, limits)
    }

    /// Lays a flat in the uppermost layer, or in one of its own above that.
    fn add_on_top(&mut self, flat: usize, flats: &[FlatToSend], limits: &CrateLimits) -> bool {
        let (piece, top) = (&flats[flat], self.rooms.len() - 1);
        (self.fits_layer(top, piece, flats, limits) && self.lay(top, flat, piece))
            || self.add_layer(flat, piece, limits)
    }

    /// Lays a flat in a new layer on top of all others, if height and weight allow one.
    fn add_layer(&mut self, flat: usize, piece: &FlatToSend, limits: &CrateLimits) -> bool {
        let layer = Layer { flats: Vec::new(), thickness: piece.thickness };
        let mut layers = self.packed.layers.clone();
        layers.push(layer.clone());
        let weight = self.packed.flats + piece.weight;
        let gross = limits.empty + limits.packing(layers.len()) + weight;
        if limits.inside[2] < limits.height(&layers) || limits.heaviest < gross {
            return false;
        }
        self.packed.layers.push(layer);
        self.rooms.push(Room::new([limits.inside[0], limits.inside[1]], limits.clear));
        self.lay(self.rooms.len() - 1, flat, piece)
    }

    /// Whether a layer takes a flat by its thickness, its weight and its hand.
    fn fits_layer(
        &self,
        number: usize,
        piece: &FlatToSend,
        flats: &[FlatToSend],
        limits: &CrateLimits,
    ) -> bool {
        let layer = &self.packed.layers[number];
        let is_other = |packed: &Packed| piece.opposite_hand.as_ref() == Some(&flats[packed.flat].mark);
        let thicker: Length = (piece.thickness - layer.thickness).max(Length::ZERO);
        let height = limits.height(&self.packed.layers) + thicker;
        let gross: Mass = limits.gross(&self.packed) + piece.weight;
        !layer.flats.iter().any(is_other) && height <= limits.inside[2] && gross <= limits.heaviest
    }

    /// Lays a flat in a layer if there is room, the way round that leaves less over.
    fn lay(&mut self, number: usize, flat: usize, piece: &FlatToSend) -> bool {
        let ways = [false, true].into_iter();
        let found = ways.filter_map(|turned| {
            let (at, over) = self.rooms[number].place(piece.laid(turned))?;
            Some((over, turned, at))
        });
        let Some((_, turned, at)) = found.min() else { return false };
        self.rooms[number].take(at, piece.laid(turned));
        let layer = &mut self.packed.layers[number];
        layer.flats.push(Packed { flat, at, turned });
        layer.thickness = layer.thickness.max(piece.thickness);
        self.packed.flats += piece.weight;
        true
    }
}
