//! Pads in their places under the top of a step: each must lie flat against it, and in nothing.

use geometry::{Frame, Point, Point3, polygon, tolerance};
use units::Length;

use super::{Pad, Step};
use crate::joined::{self, Joined, Standing};
use crate::{Fact, Making, Problem};

impl Step {
    /// The seams of pads with the top, measured on all put together: of the top, or of the pads of one size.
    pub(super) fn pad_seams(&self, of: Option<usize>, making: &Making) -> Result<Vec<Fact>, Vec<Problem>> {
        let problems = self.check_places(making);
        if !problems.is_empty() {
            return Err(problems);
        }
        let top = self.top_part(making)?;
        let mut pieces = vec![Standing { name: "top".to_owned(), part: top, root: Frame::WORLD }];
        let mut joints: Vec<Joined> = Vec::new();
        let mut lost = Vec::new();
        for (number, pad) in self.pads.iter().enumerate() {
            let name = format!("pad {}", number + 1);
            if pad.at.is_empty() && of.is_none_or(|of| of == number) {
                lost.push(joined::unmeasured(&format!("{name} to the top"), "no place is given for it"));
            }
            for (place, at) in pad.at.iter().enumerate() {
                let root = pad_root(*at, making);
                let placed =
                    if pad.at.len() == 1 { name.clone() } else { format!("{name}, place {}", place + 1) };
                let part = pad.part(making);
                pieces.push(Standing { name: placed.clone(), part, root });
                let joint = joined::lies_on((pieces.len() - 1, &placed), (0, "the top"), &pieces);
                if of.is_none_or(|of| of == number) {
                    joints.push(joint);
                }
            }
        }
        let measured = joined::seam_facts(0, &pieces, &joints, ["pads", "pads"], making)?;
        Ok(measured.into_iter().chain(lost).collect())
    }

    /// The number of a pad's piece and where it lies, for every place that is given.
    pub(super) fn pad_roots(&self, making: &Making) -> Vec<(usize, Frame)> {
        let pads = self.pads.iter().enumerate();
        pads.flat_map(|(number, pad)| pad.at.iter().map(move |at| (number + 1, pad_root(*at, making))))
            .collect()
    }

    /// Every place must be on the flat of the top, clear of its bend, its edges and its holes.
    fn check_places(&self, making: &Making) -> Vec<Problem> {
        let outline = self.outline();
        let bend_mm = making.thickness_mm() + making.number.inside_radius().millimetres();
        let least_mm = if self.flange.is_some() { bend_mm } else { 0.0 };
        let mut problems = Vec::new();
        for (number, pad) in self.pads.iter().enumerate() {
            let field = format!("pads[{number}].at");
            let given = u32::try_from(pad.at.len()).unwrap_or(u32::MAX);
            if given != 0 && given != pad.count {
                let wrong = format!("gives {given} of {} places", pad.count);
                problems.push(Problem::new(&field, "as given", wrong, "give one for each, or none"));
            }
            for (place, at) in pad.at.iter().enumerate() {
                let corners = pad.corners_at(*at);
                let mut add = |wrong: &str, remedy: String| {
                    let value = format!("{}, {}", making.print(at[0]), making.print(at[1]));
                    problems.push(Problem::new(format!("{field}[{place}]"), value, wrong, remedy));
                };
                let off = |corner: Point| {
                    !polygon::contains(&outline, corner)
                        && polygon::edges(&outline)
                            .all(|edge| polygon::point_to_segment(corner, edge) > tolerance::SAME_POINT_MM)
                };
                if corners[0].y < least_mm - tolerance::SAME_POINT_MM {
                    let least = making.print_mm(least_mm);
                    add("the pad lies under the bend along AB", format!("begin it {least} or more from AB"));
                } else if corners.into_iter().any(off) {
                    add(
                        "the pad reaches past the edge of the top",
                        "move it in, or make it smaller".to_owned(),
                    );
                } else if let Some(hole) = self.hole_over(&corners, making) {
                    let remedy = format!("move it clear of holes[{hole}], or the hole");
                    add("the pad covers a hole of the top", remedy);
                }
            }
        }
        problems
    }

    /// The first hole that a pad covers some of.
    fn hole_over(&self, corners: &[Point; 4], making: &Making) -> Option<usize> {
        self.holes.iter().position(|hole| {
            let Ok(contour) = hole.contour(making, "holes") else { return false };
            let rim = contour.corners(geometry::outline::Chords::On);
            let centre = Point::new(hole.at[0].millimetres(), hole.at[1].millimetres());
            let crossing = polygon::edges(&rim)
                .any(|own| polygon::edges(corners).any(|edge| polygon::segments_touch(own, edge)));
            crossing || polygon::contains(corners, centre) || polygon::contains(&rim, corners[0])
        })
    }
}

impl Pad {
    /// Its corners where its nearer left one lies at `at`.
    pub(super) fn corners_at(&self, at: [Length; 2]) -> [Point; 4] {
        let ([x, y], [length, width]) = (at.map(Length::millimetres), self.size.map(Length::millimetres));
        [(0.0, 0.0), (length, 0.0), (length, width), (0.0, width)]
            .map(|(along, out)| Point::new(x + along, y + out))
    }
}

/// Where the root face of a pad lies, flat under the top.
fn pad_root(at: [Length; 2], making: &Making) -> Frame {
    let [x, y] = at.map(Length::millimetres);
    Frame { origin: Point3::new(x, y, -making.thickness_mm()), ..Frame::WORLD }
}
