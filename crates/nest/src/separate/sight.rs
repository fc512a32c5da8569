//! What one piece meets if it takes one of its figures: the weighted depth at any place, fast.
//!
//! The places are ruled into columns and rows. Each keeps one bit for every other piece that can be in the way
//! there, so the pieces to ask at a place are the bits its column and its row share.

use crate::separate::Spot;
use crate::separate::ground::{Room, nearest};
use crate::separate::state::State;
use crate::separate::table::Meeting;

/// Columns, and rows.
const BINS: usize = 64;

/// The last of them.
const LAST_BIN: i32 = 63;

/// One other piece.
#[derive(Debug, Clone, Copy)]
struct Met<'a> {
    other: usize,
    meeting: Meeting<'a>,
    weight: f64,
}

/// A figure's view of the other pieces.
#[derive(Debug, Clone, Default)]
pub(crate) struct Sight<'a> {
    /// The places for the figure on every sheet.
    rooms: Vec<Room>,
    /// The greatest place on any.
    greatest: Spot,
    bins_in_step: Spot,
    words: usize,
    columns: Vec<u64>,
    rows: Vec<u64>,
    /// The others, in the order in which their bits count.
    met: Vec<Met<'a>>,
}

/// A way out of one overlap.
#[derive(Debug, Clone, Copy)]
pub(crate) struct WayOut {
    pub(crate) other: usize,
    pub(crate) shift: Spot,
}

impl<'a> Sight<'a> {
    /// Looks anew at the pieces `others` for `piece`, which would take `figure`. Places are told to be too bad the
    /// sooner, the earlier the weightiest come.
    pub(crate) fn look(&mut self, state: &State<'a>, piece: usize, figure: usize, others: &[usize]) {
        state.ground.places(state.table.size(figure), &mut self.rooms);
        let greater = |a: Spot, room: &Room| Spot::new(a.x.max(room.high.x), a.y.max(room.high.y));
        self.greatest = self.rooms.iter().fold(Spot::default(), greater);
        let bins = |room: f64| if 0.0 < room { BIN_SHARE / room } else { 0.0 };
        self.bins_in_step = Spot::new(bins(self.greatest.x), bins(self.greatest.y));
        self.words = state.pieces.len().div_ceil(64);
        for bins in [&mut self.columns, &mut self.rows] {
            bins.clear();
            bins.resize((BINS + 1) * self.words, 0);
        }
        self.met.clear();
        for (bit, &other) in others.iter().enumerate() {
            let fixed = &state.pieces[other];
            let meeting = state.table.meeting(fixed.figure, fixed.at, figure);
            self.mark(bit, meeting.bounds());
            self.met.push(Met { other, meeting, weight: state.weight(piece, other) });
        }
        for bins in [&mut self.columns, &mut self.rows] {
            for word in self.words..bins.len() {
                bins[word] ^= bins[word - self.words];
            }
        }
    }

    /// Flips a piece's bit where its rectangle begins and after it ends.
    fn mark(&mut self, number: usize, (low, high): (Spot, Spot)) {
        if high.x < 0.0 || high.y < 0.0 || self.greatest.x < low.x || self.greatest.y < low.y {
            return;
        }
        let (word, bit) = (number / 64, 1_u64 << (number % 64));
        let Spot { x: per_x, y: per_y } = self.bins_in_step;
        for (bins, from, to) in [
            (&mut self.columns, bin(low.x * per_x), bin(high.x * per_x)),
            (&mut self.rows, bin(low.y * per_y), bin(high.y * per_y)),
        ] {
            bins[from * self.words + word] ^= bit;
            bins[(to + 1) * self.words + word] ^= bit;
        }
    }

    /// A place by two shares from 0 to below 1, on every sheet equally often.
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a share of a small count")]
    pub(crate) fn anywhere(&self, u: f64, v: f64) -> Spot {
        let along = u * self.rooms.len() as f64;
        let Room { low, high } = self.rooms[(along as usize).min(self.rooms.len() - 1)];
        Spot::new(low.x + along.fract() * (high.x - low.x), low.y + v * (high.y - low.y))
    }

    /// The nearest place at which the figure lies on a sheet.
    #[inline]
    pub(crate) fn kept_in(&self, at: Spot) -> Spot {
        match self.rooms.as_slice() {
            [room] => room.kept(at),
            rooms => nearest(rooms.iter().copied(), at).unwrap_or(at),
        }
    }

    /// Calls `each` with what is met near `at`, which must lie in the room, until it returns false.
    #[inline]
    fn near(&self, at: Spot, mut each: impl FnMut(&Met<'a>) -> bool) {
        let column = bin(at.x * self.bins_in_step.x) * self.words;
        let row = bin(at.y * self.bins_in_step.y) * self.words;
        for word in 0..self.words {
            let mut bits = self.columns[column + word] & self.rows[row + word];
            while bits != 0 {
                let met = &self.met[64 * word + bits.trailing_zeros() as usize];
                bits &= bits - 1;
                if !each(met) {
                    return;
                }
            }
        }
    }

    /// Weighted depth at a place in the room; infinity as soon as it passes `limit`.
    #[inline]
    pub(crate) fn loss(&self, at: Spot, limit: f64) -> f64 {
        let mut sum = 0.0;
        self.near(at, |met| {
            sum += met.weight * met.meeting.depth(at);
            sum <= limit
        });
        if sum <= limit { sum } else { f64::INFINITY }
    }

    /// Collects the ways out of every overlap at a place in the room.
    pub(crate) fn ways_out(&self, at: Spot, ways: &mut Vec<WayOut>) {
        ways.clear();
        self.near(at, |met| {
            if let Some(shift) = met.meeting.way_out(at) {
                ways.push(WayOut { other: met.other, shift });
            }
            true
        });
    }
}

/// A hair less than the number of bins, so that the far border falls into the last.
const BIN_SHARE: f64 = 63.999;

#[inline]
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "casts of floats saturate")]
fn bin(place: f64) -> usize {
    // By way of `i32`, which is quicker than straight to `usize`.
    (place as i32).clamp(0, LAST_BIN) as usize
}
