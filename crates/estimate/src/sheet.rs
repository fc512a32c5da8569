//! What was cut from one sheet, as the nest and the shapes report it.

use crate::error::EstimateError;
use geometry::tolerance;
use units::{Area, Length, MassPerArea, Money};

/// One sheet, bought or of the rack, and what was cut from it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetUse {
    /// The sheet's name in the report, like `skin 48 × 96, sheet 1`.
    pub sheet: String,
    /// The metal's name.
    pub metal: String,
    /// The sheet's whole area.
    pub area: Area,
    /// Its mass per area.
    pub weight_per_area: MassPerArea,
    /// Whether it is a piece of the rack, and was not bought for this job.
    pub from_rack: bool,
    /// What it cost; nothing for a piece of the rack where the sheets have prices.
    pub price: Option<Money>,
    /// The parts on it.
    pub parts: Vec<PartOnSheet>,
    /// The drops that go back in the rack: all metal that comes off with each, its rim too.
    pub kept_drops: Vec<Area>,
    /// Metal turned to chips.
    pub kerf: Area,
    /// The strips along the sheet's edges.
    pub edge_trim: Area,
    /// What is left of the sheet, slugs of cut-outs included, measured from the drawing and not by this sum.
    pub measured_skeleton: Area,
    /// Total length of the arcs among the outlines, which the measuring may have taken as chords.
    pub arc_length: Length,
}

/// A part as it lies on a sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PartOnSheet {
    /// The part's mark.
    pub mark: String,
    /// Area of one flat, without its cut-outs.
    pub area: Area,
    /// How many lie on the sheet.
    pub quantity: u32,
}

impl PartOnSheet {
    /// Area of all of them.
    #[must_use]
    pub fn total_area(&self) -> Area {
        self.area * i64::from(self.quantity)
    }
}

/// A sheet's area divided among the five lines, adding up exactly.
pub(crate) struct Areas {
    pub(crate) lines: [Area; 5],
}

impl SheetUse {
    /// Divides the sheet's area: scrap closes the sum and is checked against the measured skeleton.
    pub(crate) fn areas(&self) -> Result<Areas, EstimateError> {
        self.refuse_nonsense()?;
        let parts: Area = self.parts.iter().map(PartOnSheet::total_area).sum();
        let kept_drops: Area = self.kept_drops.iter().copied().sum();
        let closing = self.area - parts - kept_drops - self.kerf - self.edge_trim;
        if closing < -Area::from_square_millimetres(tolerance::AREA_ROUNDING_MM2) {
            return Err(EstimateError::MoreThanTheSheet { sheet: self.sheet.clone(), excess: -closing });
        }
        let difference = closing - self.measured_skeleton;
        if difference.max(-difference) > self.skeleton_allowance() {
            let (sheet, measured) = (self.sheet.clone(), self.measured_skeleton);
            return Err(EstimateError::SkeletonDiffers { sheet, closing, measured });
        }
        Ok(Areas { lines: close([parts, kept_drops, self.kerf, self.edge_trim], closing) })
    }

    fn skeleton_allowance(&self) -> Area {
        let share = self.area.square_millimetres() * tolerance::SKELETON_SHARE;
        let chords = self.arc_length.abs().millimetres() * tolerance::ARC_CHORD_MM;
        Area::from_square_millimetres(share + chords)
    }

    fn refuse_nonsense(&self) -> Result<(), EstimateError> {
        let sheet = || self.sheet.clone();
        if self.area <= Area::ZERO {
            return Err(EstimateError::EmptySheet { sheet: sheet() });
        }
        if let Some(price) = self.price.filter(|price| *price < Money::ZERO) {
            return Err(EstimateError::NegativePrice { sheet: sheet(), price });
        }
        let parts = self.parts.iter().map(|part| (part.mark.as_str(), part.area));
        let drops = self.kept_drops.iter().map(|area| ("a kept drop", *area));
        let rest = [("the kerf", self.kerf), ("the edge trim", self.edge_trim)];
        let rest = rest.into_iter().chain([("the measured skeleton", self.measured_skeleton)]);
        match parts.chain(drops).chain(rest).find(|(_, area)| *area < Area::ZERO) {
            Some((what, _)) => Err(EstimateError::NegativeArea { sheet: sheet(), what: what.to_owned() }),
            None => Ok(()),
        }
    }
}

/// The five lines. A closing item below zero is the rounding of calculated areas on a sheet that is used to the edge: kerf
/// or trim, which are calculated themselves, give it back where they can, else the largest line, so that no line is below
/// zero, parts and kept drops stay as they are elsewhere, and the sum still closes.
fn close(mut lines: [Area; 4], closing: Area) -> [Area; 5] {
    let excess = (-closing).max(Area::ZERO);
    let (measured, calculated) = lines.split_at_mut(2);
    let larger = calculated.iter_mut().max().filter(|line| excess <= **line);
    if let Some(line) = larger.or_else(|| measured.iter_mut().max()) {
        *line -= excess;
    }
    let [parts, kept_drops, kerf, edge_trim] = lines;
    [parts, kept_drops, kerf, edge_trim, closing.max(Area::ZERO)]
}
