//! Glue tabs: on one side of each seam, where they overlap neither the model nor each other.

use geometry::{Point, Polygon, Region, tolerance};

use super::scale::Scaled;

/// Heights of tabs tried, mm on paper.
const HEIGHTS_MM: [f64; 5] = [6.5, 5.0, 4.0, 3.0, 2.2];

/// How far the ends of a tab are drawn in, in shares of its height: steeper ends where the neighbour is near.
const DRAWN_IN: [f64; 3] = [0.7, 1.2, 2.0];

/// A tab keeps this far from everything else, mm on paper, so that scissors find their way between.
const CLEAR_MM: f64 = 0.4;

/// A glue tab.
#[derive(Debug, Clone)]
pub(super) struct Tab {
    /// Number of its seam, counted from 1.
    pub(super) number: usize,
    /// Face and edge it hangs on.
    pub(super) side: (usize, usize),
    /// The edge it hangs on.
    pub(super) base: [Point; 2],
    /// The edge it is glued to.
    pub(super) mate: [Point; 2],
    /// Its corners, counter-clockwise, the base first.
    pub(super) corners: [Point; 4],
}

impl Tab {
    /// The corners outside its face, in walking order along the base.
    pub(super) fn outer(&self) -> [Point; 2] {
        [self.corners[2], self.corners[3]]
    }
}

/// A tab for every seam that closes and has room for one.
pub(super) fn place(scaled: &Scaled) -> Vec<Tab> {
    let mut taken: Vec<Region> = scaled.faces.iter().map(|face| region(&face.corners)).collect();
    let mut tabs = Vec::new();
    for (number, seam) in scaled.seams.iter().enumerate().filter(|(_, seam)| seam.closes) {
        let [first, second] = seam.sides;
        let choices = HEIGHTS_MM.iter().flat_map(|&height| {
            [(first, second), (second, first)]
                .into_iter()
                .flat_map(move |sides| DRAWN_IN.iter().map(move |share| (sides, height, share * height)))
        });
        let tab = choices
            .filter_map(|((side, mate), height_mm, drawn_in_mm)| {
                let corners = corners(side.2, height_mm, drawn_in_mm)?;
                let side_of = (side.0, side.1);
                Some(Tab { number: number + 1, side: side_of, base: side.2, mate: mate.2, corners })
            })
            .find(|tab| is_free(tab, &taken));
        if let Some(tab) = tab {
            taken.push(region(&tab.corners));
            tabs.push(tab);
        }
    }
    tabs
}

/// The trapezoid outside an edge; `None` where the edge is too short for it.
fn corners([from, to]: [Point; 2], height_mm: f64, drawn_in_mm: f64) -> Option<[Point; 4]> {
    let length = from.distance(to);
    if length < 2.5 * drawn_in_mm {
        return None;
    }
    let along = (to - from).unit();
    let out = along.right() * height_mm;
    Some([to, from, from + along * drawn_in_mm + out, to - along * drawn_in_mm + out])
}

/// True when the tab meets nothing that is taken, and keeps its distance beyond its base.
fn is_free(tab: &Tab, taken: &[Region]) -> bool {
    let [to, from, near, far] = tab.corners;
    let out = (to - from).unit().right();
    // Off its own face by more than it is grown, or it would meet that.
    let lifted = |ends: [Point; 2], by_mm: f64| {
        let [from, to] = ends.map(|end| end + out * (1.05 * by_mm));
        region(&[to, from, near, far]).grown(by_mm)
    };
    let whole = lifted([from, to], 0.05 * CLEAR_MM);
    let middle = lifted([from.toward(to, 0.15), from.toward(to, 0.85)], CLEAR_MM);
    let free = |region: &Region, shape: &Region| {
        region.intersection(shape).area_mm2() <= tolerance::AREA_ROUNDING_MM2
    };
    taken.iter().all(|region| free(region, &whole) && free(region, &middle))
}

fn region(corners: &[Point]) -> Region {
    Region::of(&Polygon { outer: corners.to_vec(), holes: Vec::new() })
}
