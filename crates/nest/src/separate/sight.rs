//! What one piece meets if it takes one of its figures: the weighted depth at any place, fast.
//!
//! The places are ruled into columns and rows. Each keeps one bit for every other piece that can be in the way
//! there, so the pieces to ask at a place are the bits its column and its row share.

use crate::separate::Spot;
use crate::separate::state::State;
use crate::separate::table::Meeting;

/// Columns, and rows.
const BINS: usize = 64;

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
    /// The greatest place at which the figure lies in the rectangle.
    room: Spot,
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
        let size = state.table.size(figure);
        self.room = Spot::new((state.length - size.length).max(0.0), (state.width - size.width).max(0.0));
        let bins = |room: f64| if 0.0 < room { BIN_SHARE / room } else { 0.0 };
        self.bins_in_step = Spot::new(bins(self.room.x), bins(self.room.y));
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
        if high.x < 0.0 || high.y < 0.0 || self.room.x < low.x || self.room.y < low.y {
            return;
        }
        let (word, bit) = (number / 64, 1_u64 << (number % 64));
        let bins = [
            (&mut self.columns, low.x * self.bins_in_step.x, high.x * self.bins_in_step.x),
            (&mut self.rows, low.y * self.bins_in_step.y, high.y * self.bins_in_step.y),
        ];
        for (bins, from, to) in bins {
            bins[bin(from) * self.words + word] ^= bit;
            bins[(bin(to) + 1) * self.words + word] ^= bit;
        }
    }

    pub(crate) const fn room(&self) -> Spot {
        self.room
    }

    /// The nearest place at which the figure lies in the rectangle.
    #[inline]
    pub(crate) const fn kept_in(&self, at: Spot) -> Spot {
        Spot::new(at.x.clamp(0.0, self.room.x), at.y.clamp(0.0, self.room.y))
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
            if let Some((_, shift)) = met.meeting.way_out(at) {
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
    (place as usize).min(BINS - 1)
}
