//! The outline of a sheet that is no plain rectangle: an offcut of the rack as it is laid on the bench, with its holes and
//! with the zones of it that may not be used.

use geometry::Point;
use units::{Area, Length};

use crate::convert::{Offcut, OffcutLay, TornZone};

/// Corners of an offcut as it is laid for cutting: the upright rectangle around it begins at the origin, and its lay, if it
/// has one, runs along x. Seen from the marked face, as it was measured; it is turned, never mirrored.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetOutline {
    corners: Vec<[Length; 2]>,
    holes: Vec<Vec<[Length; 2]>>,
    torn: Vec<TornZone>,
}

impl SheetOutline {
    /// Lays an offcut: as it was measured, or a quarter turn to the right where its lay runs along y.
    #[must_use]
    pub fn of(offcut: &Offcut) -> Self {
        if offcut.lay == OffcutLay::AlongY {
            return Self::turned(offcut, |[x, y]| [y, -x]);
        }
        Self::as_measured(offcut)
    }

    /// An offcut as it was measured.
    #[must_use]
    pub fn as_measured(offcut: &Offcut) -> Self {
        Self::turned(offcut, |corner| corner)
    }

    fn turned(offcut: &Offcut, turned: impl Fn([Length; 2]) -> [Length; 2]) -> Self {
        let corners: Vec<[Length; 2]> = offcut.outline.iter().map(|&corner| turned(corner)).collect();
        let least = |axis: usize| corners.iter().map(|corner| corner[axis]).min().unwrap_or_default();
        let low = [least(0), least(1)];
        let laid = |ring: &Vec<[Length; 2]>| {
            ring.iter().map(|&corner| turned(corner)).map(|[x, y]| [x - low[0], y - low[1]]).collect()
        };
        let zone = |zone: &TornZone| TornZone { outline: laid(&zone.outline), why: zone.why.clone() };
        Self {
            corners: laid(&offcut.outline),
            holes: offcut.holes.iter().map(laid).collect(),
            torn: offcut.torn.iter().map(zone).collect(),
        }
    }

    /// Its corners in order, x and y.
    #[must_use]
    pub fn corners(&self) -> &[[Length; 2]] {
        &self.corners
    }

    /// Corners of its holes.
    #[must_use]
    pub fn holes(&self) -> &[Vec<[Length; 2]>] {
        &self.holes
    }

    /// Its zones that may not be used.
    #[must_use]
    pub fn torn(&self) -> &[TornZone] {
        &self.torn
    }

    /// Its corners in millimetres.
    #[must_use]
    pub fn points(&self) -> Vec<Point> {
        points(&self.corners)
    }

    /// Corners of its holes in millimetres.
    #[must_use]
    pub fn hole_points(&self) -> Vec<Vec<Point>> {
        self.holes.iter().map(|hole| points(hole)).collect()
    }

    /// Corners of its zones that may not be used, in millimetres.
    #[must_use]
    pub fn torn_points(&self) -> Vec<Vec<Point>> {
        self.torn.iter().map(|zone| points(&zone.outline)).collect()
    }

    /// Sizes of the rectangle around it, along x and along y.
    #[must_use]
    pub fn size(&self) -> [Length; 2] {
        let most = |axis: usize| self.corners.iter().map(|corner| corner[axis]).max().unwrap_or_default();
        [most(0), most(1)]
    }

    /// Area of its metal, holes not; exact to half a square nanometre a ring.
    #[must_use]
    pub fn area(&self) -> Area {
        self.holes.iter().fold(enclosed(&self.corners), |metal, hole| metal - enclosed(hole))
    }
}

/// Corners in millimetres.
pub(crate) fn points(corners: &[[Length; 2]]) -> Vec<Point> {
    corners.iter().map(|[x, y]| Point::new(x.millimetres(), y.millimetres())).collect()
}

/// Area inside a ring of corners, by cross products in whole nanometres.
#[must_use]
pub fn enclosed(corners: &[[Length; 2]]) -> Area {
    let next = corners.iter().cycle().skip(1);
    let wide = |length: Length| i128::from(length.nanometres());
    let doubled: i128 =
        corners.iter().zip(next).map(|(a, b)| wide(a[0]) * wide(b[1]) - wide(b[0]) * wide(a[1])).sum();
    Area::from_square_nanometres((doubled / 2).abs())
}
