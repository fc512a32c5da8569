//! Tabs on the end of one plate, and the slots for them in the edge of the other.

use fold::part::{FoldedPart, Seam, SeamSide, SeamStyle};
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

/// Cuts tabs and slots at every seam that asks for them.
pub(crate) fn cut(part: &mut FoldedPart, frames: &[Frame]) -> Result<(), RingError> {
    for number in 0..part.seams.len() {
        let seam = part.seams[number].clone();
        if let SeamStyle::TabAndSlot { tabs, .. } = seam.style {
            let (tabbed, slotted) = match tabs {
                SeamSide::First => (seam.first, seam.second),
                SeamSide::Second => (seam.second, seam.first),
            };
            cut_one(part, frames, &seam, tabbed, slotted)?;
        }
    }
    Ok(())
}

fn cut_one(
    part: &mut FoldedPart,
    frames: &[Frame],
    seam: &Seam,
    tabbed: (usize, usize),
    slotted: (usize, usize),
) -> Result<(), RingError> {
    let SeamStyle::TabAndSlot { tab_mm, clearance_mm, count, .. } = seam.style else { return Ok(()) };
    let slabs = Slabs {
        angle_rad: seam.inside_angle_rad,
        thickness_mm: part.thickness_mm(),
        gap_mm: seam.gap_mm,
        radius_mm: part.number.inside_radius().millimetres(),
    };
    let ends =
        |(face, edge): (usize, usize)| part.straight_edge(face, edge).map(|end| frames[face].place(end, 0.0));
    let (own, other): ([Point3; 2], [Point3; 2]) = (ends(tabbed), ends(slotted));
    let along = (own[1] - own[0]).unit();
    let place = |point: Point3| (point - own[0]).dot(along);
    let (low, high) = (
        place(other[0]).min(place(other[1])).max(0.0),
        place(other[0]).max(place(other[1])).min(place(own[1])),
    );
    // Beside every slot at least a thickness of metal stays.
    let slot_mm = tab_mm + 2.0 * clearance_mm;
    let pitch_mm = slot_mm + slabs.thickness_mm;
    let most = ((high - low) / pitch_mm).floor().max(0.0);
    if f64::from(count) > most {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a small whole number")]
        return Err(RingError::NoRoomForTabs { seam: seam.name.clone(), most: most as u32 });
    }
    let step_mm = (high - low) / f64::from(count);
    let middles: Vec<Point3> =
        (0..count).map(|tab| own[0] + along * (low + (f64::from(tab) + 0.5) * step_mm)).collect();
    let tabs = Plate {
        face: tabbed.0,
        edge: tabbed.1,
        forward: true,
        step_mm: slabs.stopped() - slabs.flush(),
        half_mm: 0.5 * tab_mm,
    };
    let slots = Plate {
        face: slotted.0,
        edge: slotted.1,
        forward: (other[1] - other[0]).dot(along) > 0.0,
        step_mm: slabs.through() - slabs.stopped(),
        half_mm: 0.5 * slot_mm,
    };
    tabs.cut(part, &frames[tabs.face], &middles, along);
    slots.cut(part, &frames[slots.face], &middles, along);
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
