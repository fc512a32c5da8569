//! Frames that lie under a backing strip: it holds the plates off them.

use geometry::tolerance;

use crate::{Making, Problem};

/// A backing strip across a seam, mm from the aft end.
#[derive(Debug, Clone, Copy)]
pub(crate) struct StripAcross {
    /// Number of the seam from aft, the first 1.
    pub(crate) seam: usize,
    /// Where the seam lies.
    pub(crate) at_mm: f64,
    /// Width of the strip, half of it to either side.
    pub(crate) width_mm: f64,
}

impl StripAcross {
    /// Every one of these frames, its number and place, that lies under the strip, with how far it lies from the seam.
    pub(crate) fn cautions(self, frames: &[(usize, f64)], making: &Making) -> Vec<Problem> {
        let half = 0.5 * self.width_mm;
        let print = |mm: f64| making.print_mm(mm);
        let under = frames.iter().filter(|(_, at)| (at - self.at_mm).abs() < half - tolerance::SAME_POINT_MM);
        let caution = |(frame, at): &(usize, f64)| {
            let off = at - self.at_mm;
            let seam = if off.abs() <= tolerance::SAME_POINT_MM {
                "right under the seam".to_owned()
            } else {
                let way = if off < 0.0 { "aft" } else { "forward" };
                format!("{} {way} of the seam", print(off.abs()))
            };
            Problem::new(
                format!("strip of seam {}", self.seam),
                format!("{} to {} from aft", print(self.at_mm - half), print(self.at_mm + half)),
                format!(
                    "frame {frame} at {} lies under it, {seam}: the strip, {} thick, holds the plates off the frame",
                    print(*at),
                    making.print_fine(making.number.thickness())
                ),
                "let the frame down by the strip's thickness where it passes, or end the strip clear of the frame and weld the seam \
                 to the frame",
            )
        };
        under.map(caution).collect()
    }
}
