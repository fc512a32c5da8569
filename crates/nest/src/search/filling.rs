//! One sheet being filled: free places by no-fit polygons, the leftmost then lowest taken first, or the lowest then leftmost.

use geometry::grid::{GridOutline, GridPoint};
use geometry::nofit::Region;

use crate::clear::apart;
use crate::figure::{Corners, Figures, Missing, SLACK};
use crate::problem::Problem;

/// The most figures, which are turned parts, for which places beside round corners are looked for. Their no-fit polygons have
/// many more edges, and one is needed for every pair: with 240 figures the whole search took twice as long and came to no
/// fewer sheets, since pulling pieces apart goes by true distances anyway.
const MOST_ROUND: usize = 48;

/// A piece on the sheet being filled; `at` counts from the trimmed sheet's lower left corner.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Piece {
    pub(crate) part: usize,
    pub(crate) figure: usize,
    pub(crate) at: GridPoint,
}

/// Places still free for one figure, with the pieces up to `known` taken into account.
#[derive(Debug, Clone)]
struct Free {
    region: Region,
    known: usize,
}

/// Which end of a sheet is filled first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Toward {
    /// The left one; what is left over lies at the right.
    Left,
    /// The lower one; what is left over lies above.
    Bottom,
}

impl Toward {
    /// By which of two places the sheet is filled further: the less, the better.
    pub(crate) const fn reach(self, far: GridPoint) -> (i64, i64) {
        match self {
            Self::Left => (far.x, far.y),
            Self::Bottom => (far.y, far.x),
        }
    }
}

/// A sheet being filled.
#[derive(Clone)]
pub(crate) struct Filling<'a> {
    figures: &'a Figures,
    missing: &'a [Missing],
    gap: i64,
    /// Size of the trimmed sheet.
    size: GridPoint,
    pieces: Vec<Piece>,
    outlines: Vec<GridOutline>,
    /// For every figure, with pointed corners and with round ones.
    free: Vec<[Option<Free>; 2]>,
    doubled_room: i128,
    /// Whether places beside round corners are worth looking for.
    seeks_round: bool,
    toward: Toward,
}

impl<'a> Filling<'a> {
    /// An empty sheet of the size `stock`.
    pub(crate) fn new(problem: &Problem, figures: &'a Figures, stock: usize) -> Self {
        Self::toward(problem, figures, stock, Toward::Left)
    }

    /// An empty sheet of the size `stock`, to be filled from the end given.
    pub(crate) fn toward(problem: &Problem, figures: &'a Figures, stock: usize, toward: Toward) -> Self {
        let (length, width) = problem.stock()[stock].trimmed(problem.rules());
        Self {
            figures,
            missing: figures.missing(stock),
            gap: problem.rules().gap,
            size: GridPoint::new(length, width),
            pieces: Vec::new(),
            outlines: Vec::new(),
            free: vec![[None, None]; figures.count()],
            doubled_room: (2 * i128::from(length) * i128::from(width))
                .min(2 * problem.stock()[stock].area() + 1),
            seeks_round: figures.count() <= MOST_ROUND && figures.are_rounded(),
            toward,
        }
    }

    /// How far the sheet is filled by a piece that reaches to `far`; the less, the better.
    pub(crate) const fn reach(&self, far: GridPoint) -> (i64, i64) {
        self.toward.reach(far)
    }

    pub(crate) fn into_pieces(self) -> Vec<Piece> {
        self.pieces
    }

    /// True when the figure's net area is more than is left on the sheet.
    pub(crate) fn lacks_room(&self, figure: usize) -> bool {
        self.doubled_room < self.figures.get(figure).doubled_area
    }

    /// Lays a piece down.
    pub(crate) fn place(&mut self, piece: Piece) {
        let figure = self.figures.get(piece.figure);
        self.outlines.push(figure.outline.shifted(piece.at));
        self.doubled_room -= figure.doubled_area;
        self.pieces.push(piece);
    }

    /// The free place with the least right edge, then the least top edge, or the other way round as the sheet is filled; `None`
    /// when there is none. Places where corners are
    /// near one another across are looked for when there is no other, unless there are too many figures for that.
    pub(crate) fn spot(&mut self, figure: usize) -> Option<GridPoint> {
        let pointed = self.spot_beside(figure, Corners::Pointed);
        if pointed.is_some() || !self.seeks_round {
            return pointed;
        }
        self.spot_beside(figure, Corners::Round)
    }

    fn spot_beside(&mut self, figure: usize, corners: Corners) -> Option<GridPoint> {
        let toward = self.toward;
        let region = self.free(figure, corners);
        let mut corners: Vec<GridPoint> = region.rings().iter().flatten().copied().collect();
        corners.sort_unstable_by_key(|&corner| toward.reach(corner));
        corners.dedup();
        corners.into_iter().find_map(|corner| self.nudged(figure, corner))
    }

    fn free(&mut self, figure: usize, corners: Corners) -> &Region {
        let size = self.figures.get(figure).size;
        let all = self.size - size;
        let (figures, pieces, missing) = (self.figures, &self.pieces, self.missing);
        let free = self.free[figure][usize::from(corners == Corners::Round)].get_or_insert_with(|| {
            let slack = GridPoint::new(SLACK, SLACK);
            let fits = 0 <= all.x && 0 <= all.y;
            let region = if fits { Region::upright(-slack, all + slack) } else { Region::default() };
            let taken: Vec<_> = missing
                .iter()
                .map(|missing| (figures.no_fit(missing.figure, figure, corners), missing.at))
                .collect();
            Free { region: region.without(taken.iter().map(|(region, at)| (&**region, *at))), known: 0 }
        });
        if free.known < pieces.len() && !free.region.is_empty() {
            let taken: Vec<_> = pieces[free.known..]
                .iter()
                .map(|piece| (figures.no_fit(piece.figure, figure, corners), piece.at))
                .collect();
            free.region = free.region.without(taken.iter().map(|(region, at)| (&**region, *at)));
        }
        free.known = pieces.len();
        &free.region
    }

    /// The place, or one a hair beside it, that passes the exact test.
    fn nudged(&self, figure: usize, near: GridPoint) -> Option<GridPoint> {
        const NUDGES: [(i64, i64); 9] =
            [(0, 0), (1, 0), (0, 1), (1, 1), (-1, 0), (0, -1), (1, -1), (-1, 1), (-1, -1)];
        NUDGES
            .iter()
            .map(|&(x, y)| near + GridPoint::new(SLACK * x, SLACK * y))
            .find(|&at| self.is_clear(figure, at))
    }

    fn is_clear(&self, figure: usize, at: GridPoint) -> bool {
        let figure = self.figures.get(figure);
        let far = at + figure.size;
        if at.x < 0 || at.y < 0 || self.size.x < far.x || self.size.y < far.y {
            return false;
        }
        let near = |piece: &Piece| {
            let (low, high) = (piece.at, piece.at + self.figures.get(piece.figure).size);
            low.x - self.gap < far.x
                && at.x < high.x + self.gap
                && low.y - self.gap < far.y
                && at.y < high.y + self.gap
        };
        if !self.figures.is_clear_of_missing(self.missing, figure, at) {
            return false;
        }
        let mut moved = None;
        self.pieces
            .iter()
            .zip(&self.outlines)
            .filter(|(piece, _)| near(piece))
            .all(|(_, other)| apart(other, moved.get_or_insert_with(|| figure.outline.shifted(at)), self.gap))
    }
}
