//! Sizes of a panel to be proven by refolding: what its flanges fix.

use fold::Direction::Up;
use fold::Side;
use fold::part::{FacePlane, Measure, Size};
use geometry::{tolerance, trig};
use units::Angle;

use super::{Flange, Panel};
use crate::Figure;
use crate::edge::EdgeEnd;
use crate::ring::Built;

/// A flange as built.
struct Bent<'a> {
    flange: &'a Flange,
    side: usize,
    face: usize,
}

impl Bent<'_> {
    /// The side of the metal that is outside at its bend.
    const fn outside(&self) -> Side {
        match self.flange.direction {
            Up => Side::Back,
            fold::Direction::Down => Side::Face,
        }
    }

    /// Its outside.
    const fn plane(&self) -> FacePlane {
        (self.face, self.outside())
    }

    fn is_square(&self) -> bool {
        (self.flange.turn.radians() - Angle::RIGHT.radians()).abs() <= tolerance::PARALLEL_SINE
    }
}

/// How far every flange stands off the panel; lengths between flanges; widths from a square flange to the cut edge that
/// lies farthest from it. Where an edge is hemmed, returned or curled no cut edge is left to measure to; the hem has a
/// size of its own.
pub(super) fn sizes(panel: &Panel, outline: &Figure, built: &Built) -> Vec<Size> {
    let bent = |(side, faces): (usize, &Vec<usize>)| {
        let flange = panel.flange(&outline.sides[side])?;
        Some(Bent { flange, side, face: *faces.first()? })
    };
    let bends: Vec<Bent<'_>> = built.faces.iter().enumerate().filter_map(bent).collect();
    let mut sizes = Vec::new();
    for own in &bends {
        sizes.extend(height(own).filter(|_| panel.edge(&own.flange.side) == EdgeEnd::Plain));
        sizes.extend(side(own, &bends, outline));
        sizes.extend(width(own, &bends, outline).filter(|_| panel.edges.is_empty()));
    }
    sizes
}

/// From the outside of the panel to the edge of the flange, square to the panel. Past a quarter turn the leg runs to the
/// outermost metal and its edge is no longer what stands highest.
fn height(own: &Bent<'_>) -> Option<Size> {
    let turn_rad = own.flange.turn.radians();
    (turn_rad <= Angle::RIGHT.radians() + tolerance::PARALLEL_SINE).then(|| Size {
        name: format!("height of flange {}, outside", own.flange.side),
        measure: Measure::Reach(own.plane(), (0, own.outside())),
        expected_mm: own.flange.leg.millimetres() * trig::sin(turn_rad),
    })
}

/// Length of a flanged side between the flanges at both its ends, outside.
fn side(own: &Bent<'_>, bends: &[Bent<'_>], outline: &Figure) -> Option<Size> {
    let count = outline.count();
    let at = |side: usize| bends.iter().find(|bend| bend.side == side % count);
    let (before, after) = (at(own.side + count - 1)?, at(own.side + 1)?);
    let alike = |other: &Bent<'_>| other.flange.direction == own.flange.direction;
    let corner = |other: &Bent<'_>| [(0, own.outside()), own.plane(), other.plane()];
    (alike(before) && alike(after)).then(|| Size {
        name: format!("side {}, outside", own.flange.side),
        measure: Measure::Corners(corner(before), corner(after)),
        expected_mm: outline.side_mm(own.side),
    })
}

/// From a square flange to the corner of the panel that lies farthest from it, if no bend takes that corner away. In an
/// outline with a hollow that corner may lie before the flange instead of behind it.
fn width(own: &Bent<'_>, bends: &[Bent<'_>], outline: &Figure) -> Option<Size> {
    let count = outline.count();
    let (a, b) = outline.side(own.side);
    let inward = (b - a).unit().left();
    let off = |corner: usize| (outline.corners[corner] - a).dot(inward).abs();
    let farthest = (0..count).max_by(|&first, &second| off(first).total_cmp(&off(second)))?;
    let is_cut = |side: usize| bends.iter().all(|bend| bend.side != side % count);
    let cut = is_cut(farthest) && is_cut(farthest + count - 1);
    // An edge that runs aslant has no one distance: it is told to its farthest corner, square to the flange.
    let as_far = |corner: usize| (off(corner) - off(farthest)).abs() <= tolerance::SAME_POINT_MM;
    let to = if as_far((farthest + 1) % count) || as_far((farthest + count - 1) % count) {
        "to the far edge".to_owned()
    } else {
        format!("to corner {}, square to the flange", outline.names[farthest])
    };
    (own.is_square() && cut).then(|| Size {
        name: format!("from the outside of flange {} {to}", own.flange.side),
        measure: Measure::Reach((0, Side::Back), own.plane()),
        expected_mm: off(farthest),
    })
}
