//! Sheets as the nest sees them: on the grid, their lay along x, never a step larger than they are.

use geometry::grid::{GridError, GridOutline, GridPoint, Ring};
use geometry::{Point, Polygon};
use job::{Job, JobSheet, SheetOutline};
use units::{Length, LengthStyle};

use super::grid::steps_down;
use crate::speech::listed_counts;

/// How far the frame that an offcut is rounded in reaches beyond it, mm.
const FRAME_MM: f64 = 1.0;

/// A sheet's shape, and where the nest's origin lies on it.
pub(super) struct StockShape {
    /// For the nest.
    pub(super) shape: nest::StockShape,
    /// From the corner of the rectangle around the sheet to that of its shape on the grid: a few steps at most.
    pub(super) origin: GridPoint,
}

/// The shape of a sheet. An offcut is rounded inward: the metal that is missing around it and in it, and what may not be
/// used, is rounded outward.
///
/// # Errors
/// [`GridError`] for an offcut that is beyond the grid, or so thin somewhere that rounding parts it.
pub(super) fn stock_shape(job: &Job, sheet: &JobSheet) -> Result<StockShape, GridError> {
    let Some(outline) = &sheet.outline else {
        let [length, width] = laid_size(job, sheet).map(steps_down);
        let shape = nest::StockShape::Rectangle { length, width };
        return Ok(StockShape { shape, origin: GridPoint::default() });
    };
    let (low, [x, y]) = (-FRAME_MM, outline.size().map(|size| size.millimetres() + FRAME_MM));
    let frame = [(low, low), (x, low), (x, y), (low, y)].map(|(x, y)| Point::new(x, y)).to_vec();
    let around = GridOutline::from_polygon(&Polygon { outer: frame, holes: vec![outline.points()] })?;
    let [ring] = around.holes() else { return Err(GridError::NoArea { ring: Ring::Hole(0) }) };
    let outward = |ring: Vec<Point>| GridOutline::from_polygon(&Polygon { outer: ring, holes: Vec::new() });
    let holes = outline.hole_points().into_iter().map(|hole| Ok(outward(hole)?.outer().to_vec()));
    let inside = GridOutline::new(ring.clone(), holes.collect::<Result<_, GridError>>()?)?;
    let (origin, _) = inside.bounds();
    let back = GridPoint::default() - origin;
    let zones = outline.torn_points().into_iter().map(|zone| Ok(outward(zone)?.shifted(back)));
    let (outline, zones) = (inside.shifted(back), zones.collect::<Result<Vec<_>, GridError>>()?);
    let shape = match zones.is_empty() {
        true => nest::StockShape::Offcut(outline),
        false => nest::StockShape::Torn { outline, zones },
    };
    Ok(StockShape { shape, origin })
}

/// Size along the lay and across it; without a lay the long side comes first. An offcut lies as its outline does.
pub(super) fn laid_size(job: &Job, sheet: &JobSheet) -> [Length; 2] {
    if let Some(outline) = &sheet.outline {
        return outline.size();
    }
    match job.metals[sheet.metal].metal.lay {
        Some(stock::Lay::ShortSide) => [sheet.width, sheet.length],
        Some(stock::Lay::LongSide) | None => [sheet.length, sheet.width],
    }
}

/// "48 × 96", "R1 of the rack, 20 × 30", "R2 of the rack, 24 × 30 over all, 6 corners", or "S1 as received,
/// 47 15/16 × 96".
pub(crate) fn sheet_words(sheet: &JobSheet, style: LengthStyle) -> String {
    let rack = sheet.from_rack.as_ref().map(|mark| format!("{mark} of the rack, ")).unwrap_or_default();
    let received = sheet.received.as_ref().map(|marks| format!("{marks} as received, ")).unwrap_or_default();
    let corners = |outline: &SheetOutline| {
        let blemishes = blemish_words(outline.holes().len(), outline.torn().len());
        format!(" over all, {} corners{blemishes}", outline.corners().len())
    };
    let corners = sheet.outline.as_ref().map(corners).unwrap_or_default();
    format!("{rack}{received}{} × {}{corners}", sheet.width.print(style), sheet.length.print(style))
}

/// ", 1 hole, 2 torn zones", or nothing.
pub(crate) fn blemish_words(holes: usize, torn: usize) -> String {
    listed_counts(&[(holes, "hole"), (torn, "torn zone")])
}
