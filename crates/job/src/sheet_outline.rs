//! The outline of a sheet that is no rectangle: an offcut of the rack as it is laid on the bench.

use geometry::Point;
use units::{Area, Length};

use crate::convert::{Offcut, OffcutLay};

/// Corners of an offcut as it is laid for cutting: the upright rectangle around it begins at the origin, and its lay, if it
/// has one, runs along x. Seen from the marked face, as it was measured; it is turned, never mirrored.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetOutline {
    corners: Vec<[Length; 2]>,
}

impl SheetOutline {
    /// Lays an offcut: as it was measured, or a quarter turn to the right where its lay runs along y.
    #[must_use]
    pub fn of(offcut: &Offcut) -> Self {
        let turned = |[x, y]: [Length; 2]| if offcut.lay == OffcutLay::AlongY { [y, -x] } else { [x, y] };
        let corners: Vec<[Length; 2]> = offcut.outline.iter().map(|&corner| turned(corner)).collect();
        let least = |axis: usize| corners.iter().map(|corner| corner[axis]).min().unwrap_or_default();
        let low = [least(0), least(1)];
        Self { corners: corners.iter().map(|[x, y]| [*x - low[0], *y - low[1]]).collect() }
    }

    /// Its corners in order, x and y.
    #[must_use]
    pub fn corners(&self) -> &[[Length; 2]] {
        &self.corners
    }

    /// Its corners in millimetres.
    #[must_use]
    pub fn points(&self) -> Vec<Point> {
        self.corners.iter().map(|[x, y]| Point::new(x.millimetres(), y.millimetres())).collect()
    }

    /// Sizes of the rectangle around it, along x and along y.
    #[must_use]
    pub fn size(&self) -> [Length; 2] {
        let most = |axis: usize| self.corners.iter().map(|corner| corner[axis]).max().unwrap_or_default();
        [most(0), most(1)]
    }

    /// Its area, exact to half a square nanometre.
    #[must_use]
    pub fn area(&self) -> Area {
        enclosed(&self.corners)
    }
}

/// Area inside a ring of corners, by cross products in whole nanometres.
pub(crate) fn enclosed(corners: &[[Length; 2]]) -> Area {
    let next = corners.iter().cycle().skip(1);
    let wide = |length: Length| i128::from(length.nanometres());
    let doubled: i128 =
        corners.iter().zip(next).map(|(a, b)| wide(a[0]) * wide(b[1]) - wide(b[0]) * wide(a[1])).sum();
    Area::from_square_nanometres((doubled / 2).abs())
}
