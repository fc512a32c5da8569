//! The pieces to separate: their figures and the depths between them.
//!
//! A pair of figures turned together by quarter turns, or looked at from the other figure, overlaps in the same way;
//! so such pairs share one no-fit polygon, and a [`Meeting`] says how to ask it.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use geometry::grid::{GridOutline, GridPoint, Turn};
use geometry::nofit::no_fit;

use crate::figure::{Figures, from_least_corner};
use crate::separate::depth::Depth;
use crate::separate::{SAFE_STEPS, Spot, float};

/// Size of a figure in `f64` steps.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Size {
    pub(crate) length: f64,
    pub(crate) width: f64,
    /// Square root of the area: how large the piece is.
    pub(crate) bulk: f64,
}

/// All that stays the same while pieces move.
#[derive(Debug)]
pub(crate) struct Table<'a> {
    figures: &'a Figures,
    sizes: Vec<Size>,
    /// The figure each becomes when turned back by so many quarter turns, where there is one.
    turned_back: Vec<[Option<usize>; 4]>,
    /// For every fixed and moving figure; empty when those would be too many to keep.
    pairs: Vec<Pair>,
    depths: Vec<OnceLock<Box<Depth>>>,
    fine: usize,
}

/// Which no-fit polygon a pair of figures is asked of, and how.
#[derive(Debug, Clone, Copy)]
struct Pair {
    slot: u32,
    /// Which of [`TURNS`].
    turn: u8,
    offset: Spot,
}

/// How a moving figure meets a fixed piece: its place, turned and moved, is asked of a no-fit polygon.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Meeting<'a> {
    depth: &'a Depth,
    /// Cosine and sine of the turn, both negated when the two figures change roles.
    turn: (f64, f64),
    offset: Spot,
}

impl<'a> Table<'a> {
    pub(crate) fn new(figures: &'a Figures) -> Self {
        let count = figures.count();
        let size = |figure: usize| {
            let GridPoint { x, y } = figures.get(figure).size;
            let area = figures.get(figure).doubled_area / 2;
            let bulk = float(i64::try_from(area.isqrt()).unwrap_or(i64::MAX));
            Size { length: float(x), width: float(y), bulk }
        };
        let depths = std::iter::repeat_with(OnceLock::new).take(count * count).collect();
        let sizes: Vec<Size> = (0..count).map(size).collect();
        let turned_back = turned_back(figures);
        let kept = if count <= PAIRS_KEPT { count * count } else { 0 };
        let pairs = (0..kept).map(|at| pair(&sizes, &turned_back, at / count, at % count)).collect();
        Self { figures, sizes, turned_back, pairs, depths, fine: fineness(count) }
    }

    pub(crate) fn size(&self, figure: usize) -> Size {
        self.sizes[figure]
    }

    /// The figures a part may take.
    pub(crate) fn of_part(&self, part: usize) -> &[usize] {
        self.figures.of_part(part)
    }

    /// How `moving` meets `fixed` at `fixed_at`.
    #[inline]
    pub(crate) fn meeting(&self, fixed: usize, fixed_at: Spot, moving: usize) -> Meeting<'_> {
        let Pair { slot, offset, turn } = match self.pairs.get(fixed * self.sizes.len() + moving) {
            Some(pair) => *pair,
            None => pair(&self.sizes, &self.turned_back, fixed, moving),
        };
        let (cosine, sine) = TURNS[usize::from(turn)];
        let offset = Spot::new(
            offset.x - cosine * fixed_at.x + sine * fixed_at.y,
            offset.y - sine * fixed_at.x - cosine * fixed_at.y,
        );
        Meeting { depth: self.depth(slot), turn: (cosine, sine), offset }
    }

    fn depth(&self, slot: u32) -> &Depth {
        let count = self.sizes.len();
        self.depths[slot as usize].get_or_init(|| {
            let (fixed, moving) = (slot as usize / count, slot as usize % count);
            let keep = self.figures.distance(fixed, moving);
            let grown = self.figures.get(fixed).outline.grown(keep + SAFE_STEPS);
            Box::new(Depth::new(&no_fit(&grown, &self.figures.get(moving).outline), self.fine))
        })
    }
}

/// The pair that stands for `fixed` and `moving`, and how it is got from them.
fn pair(sizes: &[Size], turned_back: &[[Option<usize>; 4]], fixed: usize, moving: usize) -> Pair {
    let turned = |quarters: usize| {
        let pair = turned_back[fixed][quarters].zip(turned_back[moving][quarters])?;
        Some((pair.0.min(pair.1), pair.0.max(pair.1), quarters, pair))
    };
    let least = (0..4).filter_map(turned).min();
    let (quarters, (a, b)) = least.map_or((0, (fixed, moving)), |(_, _, quarters, pair)| (quarters, pair));
    // Turned back by quarter turns, a figure's lower left corner is another one.
    let (own, other) = (corner(sizes[fixed], quarters), corner(sizes[moving], quarters));
    let (roles, sign) = if a <= b { (0, 1.0) } else { (4, -1.0) };
    Pair {
        slot: u32::try_from(a.min(b) * sizes.len() + a.max(b)).unwrap_or(0),
        offset: Spot::new(sign * (other.x - own.x), sign * (other.y - own.y)),
        turn: u8::try_from(quarters + roles).unwrap_or(0),
    }
}

/// Lower left corner of a figure turned back about its own lower left corner.
fn corner(Size { length, width, .. }: Size, quarters: usize) -> Spot {
    match quarters {
        0 => Spot::default(),
        1 => Spot::new(0.0, -length),
        2 => Spot::new(-length, -width),
        _ => Spot::new(-width, 0.0),
    }
}

/// Cosine and sine of a turn back by so many quarter turns; then the same negated, for figures with roles changed.
const TURNS: [(f64, f64); 8] =
    [(1.0, 0.0), (0.0, -1.0), (-1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, 1.0), (1.0, 0.0), (0.0, -1.0)];

/// The most figures whose pairs are worked out beforehand.
const PAIRS_KEPT: usize = 600;

/// With many figures there are many pairs, and each lattice must be small.
const fn fineness(figures: usize) -> usize {
    match figures {
        0..=120 => 4,
        121..=300 => 3,
        301..=1000 => 2,
        _ => 1,
    }
}

/// The figure each becomes when turned back by so many quarter turns, where there is one.
fn turned_back(figures: &Figures) -> Vec<[Option<usize>; 4]> {
    let mut known: BTreeMap<GridOutline, usize> = BTreeMap::new();
    for figure in 0..figures.count() {
        known.entry(from_least_corner(&figures.get(figure).outline)).or_insert(figure);
    }
    let back = |figure: usize, quarters: u32| {
        let turn = Turn::from_millidegrees((4 - quarters) * Turn::QUARTER.millidegrees());
        let turned = figures.get(figure).outline.turned(turn);
        let (low, _) = turned.bounds();
        known.get(&from_least_corner(&turned.shifted(-low))).copied()
    };
    (0..figures.count()).map(|figure| [0, 1, 2, 3].map(|quarters| back(figure, quarters))).collect()
}

impl Meeting<'_> {
    #[inline]
    fn asked(&self, at: Spot) -> Spot {
        let (cosine, sine) = self.turn;
        Spot::new(cosine * at.x - sine * at.y + self.offset.x, sine * at.x + cosine * at.y + self.offset.y)
    }

    const fn turned_again(&self, way: Spot) -> Spot {
        let (cosine, sine) = self.turn;
        Spot::new(cosine * way.x + sine * way.y, cosine * way.y - sine * way.x)
    }

    /// How deep the moving figure at `at` lies in the fixed piece.
    #[inline]
    pub(crate) fn depth(&self, at: Spot) -> f64 {
        self.depth.at(self.asked(at))
    }

    /// The least shift of the moving figure that parts the two; `None` when they do not overlap.
    pub(crate) fn way_out(&self, at: Spot) -> Option<Spot> {
        self.depth.way_out(self.asked(at)).map(|way| self.turned_again(way))
    }

    /// The rectangle of places at which the moving figure can overlap the fixed piece.
    #[inline]
    pub(crate) fn bounds(&self) -> (Spot, Spot) {
        let (low, high) = self.depth.bounds();
        let (a, b) = (self.turned_again(low - self.offset), self.turned_again(high - self.offset));
        // Unlike `min` and `max` this compiles to two instructions each.
        let in_order = |a: f64, b: f64| if a < b { (a, b) } else { (b, a) };
        let ((left, right), (low, high)) = (in_order(a.x, b.x), in_order(a.y, b.y));
        (Spot::new(left, low), Spot::new(right, high))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::clear::apart;
    use crate::problem::{Mirror, Part, Problem, Rules, Stock, StockShape, Turns};
    use crate::random::Chance;

    fn part(corners: &[(i64, i64)]) -> Part {
        let ring = corners.iter().map(|&(x, y)| GridPoint::new(x, y)).collect();
        let outline = GridOutline::new(ring, Vec::new()).unwrap();
        Part { mark: String::new(), outline, quantity: 1, turns: Turns::Quarter, mirror: Mirror::Never }
    }

    /// An angle, a kite without any sameness under turns, and a bar that looks the same upside down.
    fn problem() -> Problem {
        let angle = part(&[(0, 0), (9000, 0), (9000, 2000), (2500, 2000), (2500, 7000), (0, 7000)]);
        let kite = part(&[(0, 1000), (4000, 0), (7000, 3100), (1200, 5300)]);
        let bar = part(&[(0, 0), (8000, 0), (8000, 1500), (0, 1500)]);
        let shape = StockShape::Rectangle { length: 50_000, width: 50_000 };
        let stock = Stock { name: String::new(), shape, price: None, limit: None };
        let rules = Rules { gap: 300, edge_trim: 0, least_drop: 0 };
        Problem::new(vec![angle, kite, bar], vec![stock], rules).unwrap()
    }

    #[test]
    fn turned_and_exchanged_pairs_overlap_where_exact_arithmetic_says_so() {
        let problem = problem();
        let figures = Figures::new(&problem);
        let table = Table::new(&figures);
        let mut chance = Chance::new(1, 0);
        let mut place = || Spot::new(12_000.0 * chance.share(), 12_000.0 * chance.share()).rounded();
        let spot = |p: GridPoint| Spot::new(float(p.x), float(p.y));
        for pair in 0..figures.count() * figures.count() {
            let (fixed, moving) = (pair / figures.count(), pair % figures.count());
            for _ in 0..200 {
                let (fixed_at, at) = (place(), place());
                let meeting = table.meeting(fixed, spot(fixed_at), moving);
                let depth = meeting.depth(spot(at));
                let outlines = [(fixed, fixed_at), (moving, at)]
                    .map(|(figure, at)| figures.get(figure).outline.shifted(at));
                let clear = apart(&outlines[0], &outlines[1], 300);
                // Between lie the growth and corners that are carried out to a point.
                assert!(clear || 0.0 < depth, "{fixed} {moving}: an overlap was not seen");
                assert!(!clear || depth < 160.0, "{fixed} {moving}: {depth} deep, yet apart");
                if let Some(shift) = meeting.way_out(spot(at)) {
                    assert!(
                        meeting.depth(spot(at) + shift) <= 0.0,
                        "{fixed} {moving}: the way out leads nowhere"
                    );
                }
            }
        }
    }
}
