//! How much work there is in a plan: pieces, cuts, holes, bends, seams.

use std::collections::BTreeSet;

use estimate::{Counted, WorkKind, Workload};
use fold::part::SeamStyle;
use geometry::outline::{Chords, arc_sweep};
use geometry::{Contour, Outline, Point, Segment, polygon};
use job::{Cutting, Job};
use nest::rect::{Axis, Cut};
use units::{Length, LengthUnit};

use crate::kit::PackedKit;
use crate::plan::{CutBar, CutLiner, CuttingOrder, Others, Plan, PlannedPart, PlannedSheet, Side, length_of};

/// All that is counted, in pieces and millimetres.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Work {
    pub(super) pieces: u64,
    pub(super) straight_mm: f64,
    pub(super) curved_mm: f64,
    pub(super) holes: u64,
    /// Strokes of the shear, those of the edge trim too.
    pub(super) strokes: u64,
    pub(super) bends: u64,
    pub(super) bend_mm: f64,
    /// Open, butt, lap and tabbed seams.
    pub(super) seams_mm: [f64; 4],
    pub(super) corners: u64,
    /// Pieces of bar to saw.
    pub(super) sawn: u64,
    /// Panels of coverings and liner.
    pub(super) panels: u64,
    /// Pieces to pack, of a kit.
    pub(super) packed: u64,
}

impl Work {
    /// The work of a whole plan; of the parts that are `sent` as a kit the buyer bends, closes and welds.
    pub(super) fn of(plan: &Plan, bars: &[CutBar], others: &Others, sent: Option<&PackedKit>) -> Self {
        let job = &plan.flats.job;
        let by_shear = matches!(job.shop.cutting, Cutting::Shear { .. });
        let pieces = bars.iter().flat_map(|bar| &bar.pieces);
        let mut all = Self {
            sawn: pieces.map(|(_, _, count)| u64::from(*count)).sum(),
            panels: panels(job, others),
            strokes: plan.nests.iter().flat_map(|nest| &nest.sheets).map(|sheet| strokes(job, sheet)).sum(),
            ..Self::default()
        };
        for (number, part) in plan.flats.parts.iter().enumerate() {
            all.add_cuts(part, by_shear);
            if sent.is_none_or(|kit| !kit.kit.parts.contains(&number)) {
                all.add_bends(part);
            }
        }
        all.straight_mm -= plan.shared_mm();
        all.packed = sent.map_or(0, |kit| kit.flats.len() as u64);
        // Welds between pieces of a kit are the buyer's.
        let welds = job.quote.welds_between.iter().flatten().filter(|_| sent.is_none());
        for weld in welds {
            let style = match weld.joint {
                WorkKind::WeldButt => 1,
                WorkKind::WeldLap => 2,
                WorkKind::WeldTab => 3,
                _ => 0,
            };
            all.seams_mm[style] += f64::from(weld.count) * weld.length.millimetres();
        }
        all
    }

    fn add_cuts(&mut self, part: &PlannedPart, by_shear: bool) {
        let count = u64::from(part.part.quantity);
        let times = f64::from(part.part.quantity);
        self.pieces += count;
        let outline = &part.flat.outline;
        let holes = outline.holes.iter().filter(|hole| is_round_hole(hole)).count() as u64;
        self.holes += count * holes;
        let cuts = outline.holes.iter().filter(|hole| !is_round_hole(hole));
        for contour in std::iter::once(&outline.outer).chain(cuts) {
            let [straight, curved] = lengths(contour);
            self.straight_mm += times * straight;
            self.curved_mm += times * curved;
        }
        if by_shear {
            self.straight_mm -= times * on_the_blank_mm(outline);
        }
    }

    fn add_bends(&mut self, part: &PlannedPart) {
        let count = u64::from(part.part.quantity);
        let times = f64::from(part.part.quantity);
        for bend in &part.flat.bends {
            self.bends += count;
            self.bend_mm += times * bend.from.distance(bend.to);
        }
        for seam in &part.shaped.part.seams {
            let style = match seam.style {
                SeamStyle::Open => 0,
                SeamStyle::Butt { .. } => 1,
                SeamStyle::Lap { .. } => 2,
                SeamStyle::TabAndSlot { .. } => 3,
            };
            self.seams_mm[style] += times * seam.length_mm;
            self.corners += count;
        }
    }

    /// Length of all cuts but round holes, and of all seams.
    pub(super) fn cut_mm(&self) -> f64 {
        self.straight_mm + self.curved_mm
    }

    pub(super) fn weld_mm(&self) -> f64 {
        self.seams_mm.iter().sum()
    }
}

/// Every kind of work with the shop's rate for it.
pub(super) fn workloads(plan: &Plan, work: &Work) -> Vec<Workload> {
    let job = &plan.flats.job;
    let along = |length: f64| along(length, job.unit);
    let amounts = [
        (WorkKind::LayOut, Counted::Each(work.pieces)),
        (WorkKind::CutStraight, along(work.straight_mm)),
        (WorkKind::CutCurved, along(work.curved_mm)),
        (WorkKind::Shear, Counted::Each(work.strokes)),
        (WorkKind::Holes, Counted::Each(work.holes)),
        (WorkKind::Bend, Counted::Each(work.bends)),
        (WorkKind::WeldOpen, along(work.seams_mm[0])),
        (WorkKind::WeldButt, along(work.seams_mm[1])),
        (WorkKind::WeldLap, along(work.seams_mm[2])),
        (WorkKind::WeldTab, along(work.seams_mm[3])),
        (WorkKind::Corners, Counted::Each(work.corners)),
        (WorkKind::Finish, Counted::Each(work.pieces)),
        (WorkKind::SawBars, Counted::Each(work.sawn)),
        (WorkKind::FitCoverings, Counted::Each(work.panels)),
        (WorkKind::Pack, Counted::Each(work.packed)),
    ];
    let rate = |kind| job.quote.work.iter().find(|(known, _)| *known == kind).map(|(_, rate)| *rate);
    amounts.into_iter().map(|(kind, amount)| Workload { kind, amount, rate: rate(kind) }).collect()
}

/// A length counted in feet or metres.
pub(super) fn along(length_mm: f64, unit: LengthUnit) -> Counted {
    Counted::along(Length::from_millimetres(length_mm), unit)
}

/// The cuts of one sheet on the shear, every one from edge to edge; all four edges are trimmed where any trim is taken. An
/// edge that is longer than the blade is trimmed on every strip of the first round that holds a part or a drop to be kept.
fn strokes(job: &Job, sheet: &PlannedSheet) -> u64 {
    let CuttingOrder::Sheared(cuts) = &sheet.order else { return 0 };
    if job.shop.edge_trim == Length::ZERO {
        return cuts.len() as u64;
    }
    let longest = match job.shop.cutting {
        Cutting::Shear { longest_cut, .. } => longest_cut,
        Cutting::ByHand => None,
    };
    let of_edges = |axis: Axis| {
        let too_long = longest.is_some_and(|longest| longest < sheet.laid.size[axis as usize]);
        2 * if too_long { strips(job, sheet, cuts, axis) } else { 1 }
    };
    cuts.len() as u64 + of_edges(Axis::X) + of_edges(Axis::Y)
}

/// How many strips with something in them the cuts of the first round make along an axis.
fn strips(job: &Job, sheet: &PlannedSheet, cuts: &[Cut], axis: Axis) -> u64 {
    let along = |point: Point| if axis == Axis::X { point.x } else { point.y };
    let first = cuts.iter().filter(|cut| cut.stage == 1 && cut.axis == axis);
    let lines: Vec<f64> = first.map(|cut| (length_of(cut.at) + job.shop.edge_trim).millimetres()).collect();
    let pieces = sheet.laid.pieces.iter().map(|(_, outline)| {
        let (low, high) = polygon::bounds(&outline.to_polygon(Chords::On).outer);
        [low, high]
    });
    let kept = sheet.laid.drops.iter().map(|drop| drop.usable);
    // A strip is told by how many lines lie before the middle of what is in it.
    let strip = |[low, high]: [Point; 2]| {
        let middle = 0.5 * (along(low) + along(high));
        lines.iter().filter(|line| **line < middle).count()
    };
    let there: BTreeSet<usize> = pieces.chain(kept).map(strip).collect();
    there.len() as u64
}

/// Panels of all coverings and liners.
fn panels(job: &Job, others: &Others) -> u64 {
    let coverings: usize = others.coverings.iter().map(|laid| laid.panels.len()).sum();
    let of_liner = |cut: &CutLiner| -> u64 {
        let faces = cut.faces.iter().zip(&job.liners[cut.liner].areas);
        let count = |sides: &[Side; 2]| sides.iter().map(|side| side.count.unsigned_abs()).product::<u64>();
        faces.map(|(face, area)| count(&face.sides) * u64::from(area.quantity)).sum()
    };
    coverings as u64 + others.liners.iter().map(of_liner).sum::<u64>()
}

/// Length of the straight edges that lie on the sides of the blank: the shear has made them. The blank is the rectangle
/// around the flat.
fn on_the_blank_mm(outline: &Outline) -> f64 {
    let (low, high) = polygon::bounds(&outline.to_polygon(Chords::Outside).outer);
    let near = |a: f64, b: f64| (a - b).abs() <= geometry::tolerance::SAME_POINT_MM;
    let on_side = |from: Point, to: Point| {
        [low.x, high.x].iter().any(|&x| near(from.x, x) && near(to.x, x))
            || [low.y, high.y].iter().any(|&y| near(from.y, y) && near(to.y, y))
    };
    let length = |(from, piece): (Point, Segment)| match piece {
        Segment::Line { to } if on_side(from, to) => from.distance(to),
        _ => 0.0,
    };
    outline.outer.pieces().map(length).sum()
}

/// True for a contour of arcs about one centre: a hole that is drilled or punched.
fn is_round_hole(contour: &Contour) -> bool {
    let mut centres = contour.pieces().map(|(_, piece)| match piece {
        Segment::Arc { centre, .. } => Some(centre),
        Segment::Line { .. } => None,
    });
    let first = centres.next().flatten();
    let near = |centre: Point| {
        first.is_some_and(|first| first.distance(centre) <= geometry::tolerance::SAME_POINT_MM)
    };
    first.is_some() && centres.all(|centre| centre.is_some_and(near))
}

/// Length of the straight and of the curved pieces of a contour, mm.
fn lengths(contour: &Contour) -> [f64; 2] {
    let mut lengths = [0.0; 2];
    for (from, piece) in contour.pieces() {
        match piece {
            Segment::Line { to } => lengths[0] += from.distance(to),
            Segment::Arc { to, centre, counter_clockwise } => {
                lengths[1] += arc_sweep(from, to, centre, counter_clockwise).abs() * centre.distance(to);
            }
        }
    }
    lengths
}
