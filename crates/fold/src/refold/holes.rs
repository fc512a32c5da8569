//! Holes of the refolded part: where each lies in space and how large it is, against the design.

use geometry::outline::Chords;
use geometry::{Contour, Frame, Point, Point3, polygon, tolerance};

use super::RefoldError;
use super::measure::to_world;
use crate::flat::FlatPattern;
use crate::part::FoldedPart;

/// A hole of a face, as designed and as refolded. Places are those of its middle on the face side, mm: x and y in the
/// coordinates of the root face, z above the back of that.
#[derive(Debug, Clone, PartialEq)]
pub struct ProvenHole {
    /// Which: "hole 1 in floor".
    pub name: String,
    /// Where its middle was designed to be.
    pub expected: Point3,
    /// Where its middle came out.
    pub measured: Point3,
    /// Largest width as designed, mm: a diameter, a length over round ends, a diagonal.
    pub expected_across_mm: f64,
    /// Largest width as it came out, mm.
    pub measured_across_mm: f64,
}

/// Every hole of every face, through the whole thickness.
///
/// The design's places go over its mold lines; the flat's holes are taken as they are cut and carried round the bends.
pub(super) fn prove(
    part: &FoldedPart,
    flat: &FlatPattern,
    folded: &[Frame],
) -> Result<Vec<ProvenHole>, RefoldError> {
    let (designed, cut) =
        (part.faces.iter().map(|face| face.holes.len()).sum::<usize>(), flat.outline.holes.len());
    if designed != cut {
        return Err(RefoldError::Holes { designed, cut });
    }
    let design = part.frames();
    let root = flat.faces[0].placement.frame();
    let faces = part.faces.iter().enumerate();
    let designed = faces.flat_map(|(face, own)| own.holes.iter().enumerate().map(move |hole| (face, hole)));
    let mut proven = Vec::new();
    for ((face, (number, hole)), cut) in designed.zip(&flat.outline.holes) {
        let name = format!("hole {} in {}", number + 1, part.faces[face].name);
        let mut middles = [Point3::default(); 2];
        let mut across = [0.0; 2];
        for (designed_z, folded_z) in [(0.0, 0.0), (part.thickness_mm(), flat.thickness_mm)] {
            let designed = measured(hole, |p| to_world(&root, design[face].place(p, designed_z)));
            let refolded = measured(cut, |p| folded[face].place(p, folded_z));
            (middles, across) = ([designed.0, refolded.0], [designed.1, refolded.1]);
            let off_mm = middles[0].distance(middles[1]).max((across[0] - across[1]).abs());
            if off_mm > tolerance::REFOLD_MM {
                return Err(RefoldError::Off { what: name, off_mm });
            }
        }
        let [expected, measured] = middles.map(|place| {
            let (local, z) = root.local(place);
            Point3::new(local.x, local.y, z)
        });
        let [expected_across_mm, measured_across_mm] = across;
        proven.push(ProvenHole { name, expected, measured, expected_across_mm, measured_across_mm });
    }
    Ok(proven)
}

impl ProvenHole {
    /// How far its middle or its width is off, mm.
    #[must_use]
    pub fn off_mm(&self) -> f64 {
        let across = (self.measured_across_mm - self.expected_across_mm).abs();
        self.expected.distance(self.measured).max(across)
    }
}

/// Middle and largest width of a hole in space, its corners sent through `place`.
fn measured(hole: &Contour, place: impl Fn(Point) -> Point3) -> (Point3, f64) {
    let corners = hole.corners(Chords::On);
    let places: Vec<Point3> = corners.iter().map(|&corner| place(corner)).collect();
    let from = |(number, a): (usize, &Point3)| {
        places[number + 1..].iter().map(|b| a.distance(*b)).fold(0.0, f64::max)
    };
    (place(polygon::centroid(&corners)), places.iter().enumerate().map(from).fold(0.0, f64::max))
}
