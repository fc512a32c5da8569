//! The lap of a wrap: its last edge is joggled by a thickness and the gap, and lies flat over its first.
//!
//! All of it lies in the flat that the seam is in, between the tangent lines of the bends beside that: a thickness of
//! metal, the joggle, and the lap.

use fold::Direction;
use fold::part::{SeamSide, SeamStyle};
use geometry::{Point, Vector};
use units::Length;

use super::{Facet, Limit, sampled};
use crate::Making;
use crate::joggle::Joggle;

/// Turns tried for the joggle, degrees, the steepest that leaves a slant between its bends first (common practice, no
/// source: a steeper one is shorter and harder to set).
const TURNS_DEGREES: [f64; 5] = [30.0, 22.5, 15.0, 10.0, 5.0];

/// Least straight metal between the two bends of the joggle, in thicknesses: enough that they do not run into one another when
/// the strip is set by hand (common practice, no source).
const LEAST_SLANT: f64 = 0.1;

/// A joggled lap; places are from the middle of the flat that the seam is in, along the girth, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Lap {
    /// Where the first edge of the plate stands, and where the joggle's last tangent line lies over it.
    pub(crate) start_mm: f64,
    /// The near tangent line of the joggle's first bend.
    pub(crate) tangent_mm: f64,
    /// The mold line of that bend.
    pub(crate) mold_mm: f64,
    /// How far the strip is set off, mm.
    pub(crate) depth_mm: f64,
    /// Turn of both bends of the joggle, radians.
    pub(crate) turn_rad: f64,
    /// How far the strip lies over the other edge, mm.
    pub(crate) width_mm: f64,
    /// From the joggle's first mold line to its second, mm.
    pub(crate) slant_mm: f64,
    /// Setback of both bends of the joggle, mm.
    pub(crate) setback_mm: f64,
    outside: bool,
}

/// The steepest joggle that leaves a slant between its bends; the flattest of them where none does.
fn joggle(making: &Making) -> Joggle {
    let depth_mm = making.thickness_mm() + making.seam_gap.millimetres();
    let joggle = |degrees: f64| Joggle::new(depth_mm, degrees.to_radians(), making);
    let has_slant = |joggle: &Joggle| LEAST_SLANT * making.thickness_mm() < joggle.straight_mm();
    let last = joggle(TURNS_DEGREES[TURNS_DEGREES.len() - 1]);
    TURNS_DEGREES.into_iter().map(joggle).find(has_slant).unwrap_or(last)
}

impl Lap {
    /// What a flat needs beside the lap itself: the joggle, and a thickness of metal before it, mm.
    pub(crate) fn beside_mm(making: &Making) -> f64 {
        joggle(making).run_mm() + making.thickness_mm()
    }

    /// A lap on a flat of so much room between tangent lines; `None` where it does not lie on it.
    pub(crate) fn on(flat_mm: f64, (width, outside): (Length, bool), making: &Making) -> Option<Self> {
        let joggle = joggle(making);
        let width_mm = width.millimetres();
        let spare_mm = flat_mm - Self::beside_mm(making) - width_mm;
        if spare_mm < 0.0 {
            return None;
        }
        let tangent_mm = 0.5 * (spare_mm - flat_mm) + making.thickness_mm();
        Some(Self {
            start_mm: tangent_mm + joggle.run_mm(),
            tangent_mm,
            mold_mm: tangent_mm + joggle.setback_mm,
            depth_mm: joggle.depth_mm,
            turn_rad: joggle.turn_rad,
            width_mm,
            slant_mm: joggle.slant_mm,
            setback_mm: joggle.setback_mm,
            outside,
        })
    }

    /// Which way the joggle's first bend turns; the marked face is the outside.
    pub(crate) const fn first_direction(&self) -> Direction {
        if self.outside { Direction::Up } else { Direction::Down }
    }

    /// In words; `names` are those of the edge that carries the strip and of the one that it lies on.
    pub(crate) fn words(&self, names: [&str; 2], making: &Making) -> String {
        let [carrier, other] = names;
        let (side, lies) = if self.outside { ("outside", "over") } else { ("inside", "under") };
        format!(
            "lap of {} on the {side}: {carrier} is joggled by {} and lies {lies} {other}",
            making.print_mm(self.width_mm),
            making.print_mm(self.depth_mm)
        )
    }

    /// The seam's style, the second side being the one that carries the strip.
    pub(crate) const fn style(&self) -> SeamStyle {
        SeamStyle::Lap { width_mm: self.width_mm, carrier: SeamSide::Second, outside: self.outside }
    }

    /// How far outward the strip is set off, mm.
    pub(crate) fn outward_mm(&self) -> f64 {
        if self.outside { self.depth_mm } else { -self.depth_mm }
    }

    /// The slant and the strip, behind the facet that carries them. `ends` give where the strip begins and ends along
    /// the element lines, at a place along the girth, mm.
    pub(crate) fn facets(&self, carrier: &Facet, ends: &[&dyn Fn(f64) -> f64; 2]) -> [Facet; 2] {
        let along = Vector::new(1.0, 0.0);
        let near = Limit::Bend(Point::default(), along);
        let edge = |end: &dyn Fn(f64) -> f64| {
            let curve = |mm: f64| Point::new(end(mm), mm - self.start_mm + self.setback_mm);
            sampled(&curve, [self.start_mm, self.start_mm + self.width_mm], [near, Limit::Seam])
        };
        let edges = ends.map(edge);
        let far = self.setback_mm + self.width_mm;
        let strip = Facet::between(&edges[0], &edges[1], (Point::new(0.0, far), along));
        let bent = carrier.high_edge_along();
        let side = |end: usize| [Point::new(bent[end], 0.0), Point::new(edges[end][0].x, self.slant_mm)];
        let slant = Facet::between(&side(0), &side(1), (Point::new(0.0, self.slant_mm), along));
        [slant, strip]
    }
}
