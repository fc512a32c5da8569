//! On the shear: blanks left by cuts that went right through, which never overlap.

use crate::rect::cuts::Axis;
use crate::rect::ground::{Ground, Rule, Spot, Upright};
use crate::rect::problem::Shear;

/// A blank, and how it came about.
#[derive(Debug, Clone, Copy)]
struct Panel {
    area: Upright,
    /// The round that cut it free last, and across which axis; round 0 for the whole sheet.
    stage: u32,
    axis: Option<Axis>,
}

/// The blanks of a sheet.
#[derive(Debug, Clone)]
pub(crate) struct Panels {
    panels: Vec<Panel>,
    shear: Shear,
    /// By how much sizes are grown.
    gap: i64,
}

/// What the two cuts that free a rectangle leave: strips beside it and above it.
struct Cuts {
    beside: Option<Panel>,
    above: Option<Panel>,
}

impl Panels {
    pub(crate) fn new(length: i64, width: i64, gap: i64, shear: Shear) -> Self {
        let area = Upright { x: 0, y: 0, length, width };
        Self { panels: vec![Panel { area, stage: 0, axis: None }], shear, gap }
    }

    /// Frees a rectangle from the corner of a blank, the first cut across `first`; `None` beyond the shear's limits.
    fn freed(&self, panel: &Panel, length: i64, width: i64, first: Axis) -> Option<Cuts> {
        let area = panel.area;
        let (over_x, over_y) = (area.length - length, area.width - width);
        let mut stage = panel.stage;
        let mut axis = panel.axis;
        let mut cut = |across: Axis, needed: bool, cut_length: i64| {
            if !needed {
                return Some(());
            }
            if axis != Some(across) {
                (stage, axis) = (stage + 1, Some(across));
            }
            // A blank is as much shorter than its room as sizes are grown.
            let short = self.shear.longest_cut.is_none_or(|longest| cut_length - self.gap <= longest);
            (short && self.shear.stages.is_none_or(|most| stage <= most)).then_some(())
        };
        let beside = |stage, width| {
            let area = Upright { x: area.x + length, length: over_x, width, ..area };
            (0 < over_x).then_some(Panel { area, stage, axis: Some(Axis::X) })
        };
        let above = |stage, length| {
            let area = Upright { y: area.y + width, width: over_y, length, ..area };
            (0 < over_y).then_some(Panel { area, stage, axis: Some(Axis::Y) })
        };
        if first == Axis::X {
            cut(Axis::X, 0 < over_x, area.width)?;
            cut(Axis::Y, 0 < over_y, length)?;
            let split = first_stage(panel, Axis::X);
            Some(Cuts { beside: beside(split, area.width), above: above(stage, length) })
        } else {
            cut(Axis::Y, 0 < over_y, area.length)?;
            cut(Axis::X, 0 < over_x, width)?;
            let split = first_stage(panel, Axis::Y);
            Some(Cuts { beside: beside(stage, width), above: above(split, area.length) })
        }
    }
}

/// The round of a cut across `axis` made first in a blank.
fn first_stage(panel: &Panel, axis: Axis) -> u32 {
    if panel.axis == Some(axis) { panel.stage } else { panel.stage + 1 }
}

const WAYS: [Axis; 2] = [Axis::X, Axis::Y];

impl Ground for Panels {
    fn spot(&self, length: i64, width: i64, rule: Rule) -> Option<Spot> {
        let mut best: Option<Spot> = None;
        for (area, panel) in self.panels.iter().enumerate() {
            if panel.area.length < length || panel.area.width < width {
                continue;
            }
            let score = rule.score(&panel.area, length, width);
            // The larger strip stays whole.
            let (over_x, over_y) = (panel.area.length - length, panel.area.width - width);
            let ways = if over_y * panel.area.length <= over_x * panel.area.width { [0, 1] } else { [1, 0] };
            let way = ways.into_iter().find(|&way| self.freed(panel, length, width, WAYS[way]).is_some());
            if let Some(way) = way {
                let spot = Spot { score, x: panel.area.x, y: panel.area.y, area, way };
                best = Some(best.map_or(spot, |best| best.min(spot)));
            }
        }
        best
    }

    fn take(&mut self, spot: Spot, length: i64, width: i64) {
        let panel = self.panels.swap_remove(spot.area);
        if let Some(left) = self.freed(&panel, length, width, WAYS[spot.way]) {
            self.panels.extend([left.beside, left.above].into_iter().flatten());
        }
    }
}
