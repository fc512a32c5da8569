//! The pieces to separate: their figures and the depths between them.

use std::sync::OnceLock;

use geometry::grid::GridPoint;
use geometry::nofit::no_fit;

use crate::figure::Figures;
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
    gap: i64,
    sizes: Vec<Size>,
    depths: Vec<OnceLock<Depth>>,
}

impl<'a> Table<'a> {
    pub(crate) fn new(figures: &'a Figures, gap: i64) -> Self {
        let count = figures.count();
        let size = |figure: usize| {
            let GridPoint { x, y } = figures.get(figure).size;
            let area = figures.get(figure).doubled_area / 2;
            let bulk = float(i64::try_from(area.isqrt()).unwrap_or(i64::MAX));
            Size { length: float(x), width: float(y), bulk }
        };
        let depths = std::iter::repeat_with(OnceLock::new).take(count * count).collect();
        Self { figures, gap, sizes: (0..count).map(size).collect(), depths }
    }

    pub(crate) fn size(&self, figure: usize) -> Size {
        self.sizes[figure]
    }

    /// How far beyond its box a figure can be in the way.
    pub(crate) fn reach(&self) -> f64 {
        float(self.gap + SAFE_STEPS + 8)
    }

    /// The figures a part may take.
    pub(crate) fn of_part(&self, part: usize) -> &[usize] {
        self.figures.of_part(part)
    }

    /// How deep `moving` at `at` lies in `fixed` at `fixed_at`.
    #[inline]
    pub(crate) fn depth(&self, fixed: usize, fixed_at: Spot, moving: usize, at: Spot) -> f64 {
        if fixed <= moving {
            self.between(fixed, moving).at(at - fixed_at)
        } else {
            self.between(moving, fixed).at(fixed_at - at)
        }
    }

    /// The least shift of `moving` that parts the two; `None` when they do not overlap.
    pub(crate) fn way_out(&self, fixed: usize, fixed_at: Spot, moving: usize, at: Spot) -> Option<Spot> {
        if fixed <= moving {
            self.between(fixed, moving).way_out(at - fixed_at)
        } else {
            self.between(moving, fixed).way_out(fixed_at - at).map(|shift| Spot::default() - shift)
        }
    }

    /// The depths of two figures; only pairs in rising order are kept, the other way round is the mirror image.
    fn between(&self, fixed: usize, moving: usize) -> &Depth {
        self.depths[fixed * self.sizes.len() + moving].get_or_init(|| {
            let grown = self.figures.get(fixed).outline.grown(self.gap + SAFE_STEPS);
            Depth::new(&no_fit(&grown, &self.figures.get(moving).outline))
        })
    }
}
