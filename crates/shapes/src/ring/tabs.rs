//! Tabs on the end of one plate, and the slots for them in the edge of the other.

use fold::part::{FoldedPart, SeamSide, SeamStyle};
use geometry::{Frame, Point, Point3, Vector3};

use super::RingError;
use super::trim::Slabs;

/// One of the two plates.
struct Plate {
    face: usize,
    edge: usize,
    /// Whether its edge runs along the corner line's direction.
    forward: bool,
    /// How far its edge reaches beyond or stays behind, toward the corner line, at tab or slot, mm.
    step_mm: f64,
    /// Half the width of tab or slot, mm.
    half_mm: f64,
}

/// How a seam is tabbed.
#[derive(Debug, Clone)]
pub(crate) struct Tabbed<'a> {
    /// The seam's name.
    pub(crate) seam: &'a str,
    /// Width of each tab, mm.
    pub(crate) tab_mm: f64,
    /// Play of a tab in its slot at each end, mm.
    pub(crate) clearance_mm: f64,
    /// How many.
    pub(crate) count: u32,
    /// Angle between the plates inside, radians.
    pub(crate) inside_angle_rad: f64,
    /// Gap between the plates, mm.
    pub(crate) gap_mm: f64,
}

/// Which half of a seam a plate has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Half {
    /// The tabs.
    Tabs,
    /// The slots for them.
    Slots,
}

/// Cuts tabs and slots at every seam that asks for them.
pub(crate) fn cut(part: &mut FoldedPart, frames: &[Frame]) -> Result<(), RingError> {
    for number in 0..part.seams.len() {
        let seam = part.seams[number].clone();
        let SeamStyle::TabAndSlot { tab_mm, clearance_mm, count, tabs } = seam.style else { continue };
        let (tabbed, slotted) = match tabs {
            SeamSide::First => (seam.first, seam.second),
            SeamSide::Second => (seam.second, seam.first),
        };
        let (inside_angle_rad, gap_mm) = (seam.inside_angle_rad, seam.gap_mm);
        let made = Tabbed { seam: &seam.name, tab_mm, clearance_mm, count, inside_angle_rad, gap_mm };
        let ends = [tabbed, slotted].map(|edge| ends(part, frames, edge));
        cut_half(part, frames, (tabbed, Half::Tabs), ends, &made)?;
        cut_half(part, frames, (slotted, Half::Slots), ends, &made)?;
    }
    Ok(())
}

/// Where the straight part of a cut edge starts and ends in space.
pub(crate) fn ends(part: &FoldedPart, frames: &[Frame], (face, edge): (usize, usize)) -> [Point3; 2] {
    part.straight_edge(face, edge).map(|end| frames[face].place(end, 0.0))
}

/// Cuts the tabs, or the slots, of one seam into an edge of a face, `ends` being those of the plate with the tabs and of the plate
/// with the slots, which may be of another piece.
pub(crate) fn cut_half(
    part: &mut FoldedPart,
    frames: &[Frame],
    ((face, edge), half): ((usize, usize), Half),
    [own, other]: [[Point3; 2]; 2],
    made: &Tabbed<'_>,
) -> Result<(), RingError> {
    let slabs = Slabs {
        angle_rad: made.inside_angle_rad,
        thickness_mm: part.thickness_mm(),
        gap_mm: made.gap_mm,
        radius_mm: part.number.inside_radius().millimetres(),
    };
    let along = (own[1] - own[0]).unit();
    let place = |point: Point3| (point - own[0]).dot(along);
    let (low, high) = (
        place(other[0]).min(place(other[1])).max(0.0),
        place(other[0]).max(place(other[1])).min(place(own[1])),
    );
    // Beside every slot at least a thickness of metal stays.
    let slot_mm = made.tab_mm + 2.0 * made.clearance_mm;
    let pitch_mm = slot_mm + slabs.thickness_mm;
    let most = ((high - low) / pitch_mm).floor().max(0.0);
    if f64::from(made.count) > most {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a small whole number")]
        return Err(RingError::NoRoomForTabs { seam: made.seam.to_owned(), most: most as u32 });
    }
    let step_mm = (high - low) / f64::from(made.count);
    let middles: Vec<Point3> =
        (0..made.count).map(|tab| own[0] + along * (low + (f64::from(tab) + 0.5) * step_mm)).collect();
    let plate = match half {
        Half::Tabs => Plate {
            face,
            edge,
            forward: true,
            step_mm: slabs.stopped() - slabs.flush(),
            half_mm: 0.5 * made.tab_mm,
        },
        Half::Slots => Plate {
            face,
            edge,
            forward: (other[1] - other[0]).dot(along) > 0.0,
            step_mm: slabs.through() - slabs.stopped(),
            half_mm: 0.5 * slot_mm,
        },
    };
    plate.cut(part, &frames[face], &middles, along);
    Ok(())
}

impl Plate {
    fn cut(&self, part: &mut FoldedPart, frame: &Frame, middles: &[Point3], along: Vector3) {
        let (start, end) = part.faces[self.face].edge(self.edge);
        let run = (end - start).unit();
        let outward = run.right() * self.step_mm;
        let mut points: Vec<Point> = Vec::new();
        let mut at = |middle: &Point3| {
            let ends = [-self.half_mm, self.half_mm].map(|mm| frame.local(*middle + along * mm).0);
            let ends = if self.forward { ends } else { [ends[1], ends[0]] };
            let [near, far] = ends.map(|end| start + run * (end - start).dot(run));
            points.extend([near, near + outward, far + outward, far]);
        };
        if self.forward {
            middles.iter().for_each(&mut at);
        } else {
            middles.iter().rev().for_each(&mut at);
        }
        part.insert_corners(self.face, self.edge, &points);
    }
}
