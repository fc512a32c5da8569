//! How much work there is in a plan: pieces, cuts, holes, bends, seams.

use estimate::{Counted, WorkKind, Workload};
use fold::part::SeamStyle;
use geometry::outline::arc_sweep;
use geometry::{Contour, Point, Segment};
use units::{Length, LengthUnit};

use crate::plan::{Plan, PlannedPart};

/// All that is counted, in pieces and millimetres.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Work {
    pub(super) pieces: u64,
    pub(super) straight_mm: f64,
    pub(super) curved_mm: f64,
    pub(super) holes: u64,
    pub(super) bends: u64,
    pub(super) bend_mm: f64,
    /// Open, butt, lap and tabbed seams.
    pub(super) seams_mm: [f64; 4],
    pub(super) corners: u64,
    /// Pieces to pack, of a kit.
    pub(super) packed: u64,
}

impl Work {
    /// The work of a whole plan.
    pub(super) fn of(plan: &Plan) -> Self {
        let mut all = Self::default();
        for part in &plan.flats.parts {
            all.add(part);
        }
        all.straight_mm -= plan.shared_mm();
        for weld in plan.flats.job.quote.welds_between.iter().flatten() {
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

    /// The same as a kit of so many pieces: the buyer bends, closes and welds.
    pub(super) const fn as_kit(self, packed: u64) -> Self {
        Self { bends: 0, bend_mm: 0.0, seams_mm: [0.0; 4], corners: 0, packed, ..self }
    }

    fn add(&mut self, part: &PlannedPart) {
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
        (WorkKind::Holes, Counted::Each(work.holes)),
        (WorkKind::Bend, Counted::Each(work.bends)),
        (WorkKind::WeldOpen, along(work.seams_mm[0])),
        (WorkKind::WeldButt, along(work.seams_mm[1])),
        (WorkKind::WeldLap, along(work.seams_mm[2])),
        (WorkKind::WeldTab, along(work.seams_mm[3])),
        (WorkKind::Corners, Counted::Each(work.corners)),
        (WorkKind::Finish, Counted::Each(work.pieces)),
        (WorkKind::Pack, Counted::Each(work.packed)),
    ];
    let rate = |kind| job.quote.work.iter().find(|(known, _)| *known == kind).map(|(_, rate)| *rate);
    amounts.into_iter().map(|(kind, amount)| Workload { kind, amount, rate: rate(kind) }).collect()
}

/// A length counted in feet or metres.
pub(super) fn along(length_mm: f64, unit: LengthUnit) -> Counted {
    Counted::Along(Length::from_millimetres(length_mm), unit)
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
