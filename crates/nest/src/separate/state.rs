//! Where the pieces are, how deep they overlap and how much each pair weighs.

use crate::separate::Spot;
use crate::separate::ground::Ground;
use crate::separate::table::Table;

/// A piece: which part, which of its figures, where its lower left corner lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Loose {
    pub(crate) part: usize,
    pub(crate) figure: usize,
    pub(crate) at: Spot,
}

/// Pieces on their ground, with pair depths and weights.
#[derive(Debug, Clone)]
pub(crate) struct State<'a> {
    pub(crate) table: &'a Table<'a>,
    pub(crate) ground: Ground,
    pub(crate) pieces: Vec<Loose>,
    /// The first so many pieces may be moved; the others stand for what is missing of offcuts.
    pub(crate) movable: usize,
    /// Depth of every pair, times the shares of both pieces.
    depths: Vec<f64>,
    /// How many others each piece overlaps.
    met: Vec<u32>,
    weights: Vec<f64>,
    /// How much a piece's depths count: the square root of how large it is, the mean being 1.
    shares: Vec<f64>,
}

/// Weights rise by a factor between these, more for deeper pairs.
const RISE: (f64, f64) = (1.2, 2.0);

/// Weights of pairs that do not overlap sink by this factor, to no less than 1.
const SINK: f64 = 0.95;

impl<'a> State<'a> {
    pub(crate) fn new(table: &'a Table<'a>, ground: Ground, pieces: Vec<Loose>) -> Self {
        Self::among_fixed(table, ground, pieces, Vec::new())
    }

    /// Some pieces, with others among them that stay where they are.
    pub(crate) fn among_fixed(
        table: &'a Table<'a>,
        ground: Ground,
        mut pieces: Vec<Loose>,
        fixed: Vec<Loose>,
    ) -> Self {
        let movable = pieces.len();
        pieces.extend(fixed);
        let n = pieces.len();
        let (depths, weights) = (vec![0.0; n * n], vec![1.0; n * n]);
        let (shares, met) = (vec![1.0; n], vec![0; n]);
        let mut state = Self { table, ground, pieces, movable, depths, met, weights, shares };
        state.refresh();
        state
    }

    /// Takes other places for the pieces; weights start anew.
    pub(crate) fn restart(&mut self, ground: Ground, pieces: &[Loose]) {
        self.ground = ground;
        self.weights.fill(1.0);
        self.take(pieces);
    }

    /// Takes other places for the pieces and keeps the weights.
    pub(crate) fn take(&mut self, pieces: &[Loose]) {
        self.pieces.clear();
        self.pieces.extend_from_slice(pieces);
        self.refresh();
    }

    /// Moves every piece onto a sheet and measures all pairs anew.
    fn refresh(&mut self) {
        let bulk = |piece: &Loose| self.table.size(piece.figure).bulk;
        let movable = &self.pieces[..self.movable];
        let mean = movable.iter().map(bulk).sum::<f64>() / movable.len() as f64;
        self.shares.clear();
        self.shares.extend(movable.iter().map(|piece| (bulk(piece) / mean).sqrt()));
        self.shares.resize(self.pieces.len(), 1.0);
        for piece in 0..self.movable {
            let Loose { figure, at, .. } = self.pieces[piece];
            self.pieces[piece].at = self.kept_in(figure, at);
        }
        for piece in 0..self.movable {
            self.measure(piece);
        }
    }

    /// The nearest place at which the figure lies on a sheet.
    #[inline]
    pub(crate) fn kept_in(&self, figure: usize, at: Spot) -> Spot {
        self.ground.kept_in(self.table.size(figure), at)
    }

    fn measure(&mut self, piece: usize) {
        let n = self.pieces.len();
        let Loose { figure, at, .. } = self.pieces[piece];
        for other in 0..n {
            if other != piece {
                let fixed = self.pieces[other];
                let depth = self.table.meeting(fixed.figure, fixed.at, figure).depth(at)
                    * self.shares[piece]
                    * self.shares[other];
                let before = self.depths[other * n + piece];
                if before.to_bits() != depth.to_bits() {
                    self.depths[piece * n + other] = depth;
                    self.depths[other * n + piece] = depth;
                    for end in [piece, other] {
                        self.met[end] += u32::from(0.0 < depth);
                        self.met[end] -= u32::from(0.0 < before);
                    }
                }
            }
        }
    }

    /// What a pair's depth is multiplied by: its weight and the shares of both pieces.
    #[inline]
    pub(crate) fn weight(&self, piece: usize, other: usize) -> f64 {
        self.weights[piece * self.pieces.len() + other] * self.shares[piece] * self.shares[other]
    }

    /// Weighted depth of a piece where it is.
    pub(crate) fn own_loss(&self, piece: usize) -> f64 {
        let n = self.pieces.len();
        let row = piece * n..(piece + 1) * n;
        self.depths[row.clone()].iter().zip(&self.weights[row]).map(|(depth, weight)| depth * weight).sum()
    }

    /// Depths of the pairs of each piece that overlaps another.
    fn overlapping(&self) -> impl Iterator<Item = &[f64]> {
        let rows = self.depths.chunks_exact(self.pieces.len().max(1)).zip(&self.met);
        rows.filter(|(_, met)| **met != 0).map(|(row, _)| row)
    }

    /// Sum of the depths of all pairs, without weights.
    pub(crate) fn total(&self) -> f64 {
        0.5 * self.overlapping().flatten().sum::<f64>()
    }

    /// True when the piece overlaps another.
    pub(crate) fn overlaps(&self, piece: usize) -> bool {
        self.met[piece] != 0
    }

    /// Puts a piece down.
    pub(crate) fn put(&mut self, piece: usize, figure: usize, at: Spot) {
        self.pieces[piece].figure = figure;
        self.pieces[piece].at = at;
        self.measure(piece);
    }

    /// Raises the weights of overlapping pairs and lets the others sink.
    pub(crate) fn reweigh(&mut self) {
        let deepest = self.overlapping().flatten().copied().fold(0.0, f64::max);
        if deepest <= 0.0 {
            return;
        }
        let n = self.pieces.len();
        let rows = self.weights.chunks_exact_mut(n).zip(self.depths.chunks_exact(n));
        for ((weights, depths), met) in rows.zip(&self.met) {
            if *met == 0 {
                weights.iter_mut().for_each(|weight| *weight = sunk(*weight));
                continue;
            }
            for (weight, depth) in weights.iter_mut().zip(depths) {
                *weight = if 0.0 < *depth {
                    *weight * (RISE.0 + (RISE.1 - RISE.0) * depth / deepest)
                } else {
                    sunk(*weight)
                };
            }
        }
    }
}

/// The weight of a pair that does not overlap, a round later.
#[inline]
fn sunk(weight: f64) -> f64 {
    let sunk = weight * SINK;
    // Unlike `max` this compiles to one instruction.
    if 1.0 < sunk { sunk } else { 1.0 }
}
