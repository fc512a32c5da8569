//! Letters of the corners of a crowned lid, and the heights of its skirts.

use fold::Side::Face;
use fold::part::{Measure, Size, Spot};
use geometry::Point;

use super::{CrownedLid, Rising};
use crate::shell::ShellPiece;
use crate::{Figure, Making};

impl CrownedLid {
    /// The letters of the four corners, in the coordinates of the root, the half of the top that is named first. The other
    /// half's two lie where its own face comes to lie on the flat: beyond the crown's mold line, less the bend deduction.
    pub(super) fn lettered(&self, making: &Making) -> Option<Vec<(String, Point)>> {
        let (plan, _) = self.lid.top(making).ok()?;
        let rising = self.rising(&plan).ok()?;
        let shell = self.shell(&plan, rising, making);
        let built = shell.piece(0).ok()?;
        let other = built.face_of(1)?;
        let crown = built.part.bends.iter().position(|bend| bend.child == other)?;
        let deduction_mm = built.part.deduction_mm(crown);
        // Corners of the halves, in each one's own order: A, crown, crown, D and crown, B, C, crown.
        let [root, beyond] = [0, 1].map(|plate: usize| &shell.plates[plate].corners);
        let own = |at| built.frames[0].local(at).0;
        let (m, n) = (own(root[1]), own(root[2]));
        let along = (n - m).unit();
        let outward = along.right();
        let developed = |at: geometry::Point3| {
            let off = at - beyond[0];
            let level = off.dot((root[2] - root[1]).unit());
            let out_mm = (off - (root[2] - root[1]).unit() * level).length();
            m + along * level + outward * (out_mm - deduction_mm)
        };
        let letter = |number: usize| plan.names[(rising[0] + number) % 4].clone();
        Some(vec![
            (letter(0), own(root[0])),
            (letter(1), developed(beyond[1])),
            (letter(2), developed(beyond[2])),
            (letter(3), own(root[3])),
        ])
    }

    /// How high the skirts stand, outside: those of the ends, and those of the other two sides at the crown.
    pub(super) fn skirt_heights(&self, plan: &Figure, [first, _]: Rising, piece: &ShellPiece) -> Vec<Size> {
        let side = |number: usize| plan.sides[(first + number) % 4].as_str();
        let end = |number: usize| plan.names[(first + number) % 4].as_str();
        // Corners of a skirt: its foot below both ends of its fold, then the fold backward.
        let ends = [1, 3].map(|number| (format!("skirt {}", side(number)), side(number), "", 1));
        let crowned = [
            (format!("skirt {} at {}", side(0), end(0)), side(0), " at the crown", 1),
            (format!("skirt {} at {}", side(2), end(2)), side(2), " at the crown", 1),
        ];
        let height = |(name, side, at, edge): (String, &str, &str, usize)| {
            let face = piece.part.faces.iter().position(|face| face.name == name)?;
            let [from, to] = piece.built_edge(face, edge).map(|at| Spot { face, at, side: Face });
            let place = |spot: Spot| piece.frames[face].place(spot.at, piece.part.side_mm(spot.side));
            Some(Size {
                name: format!("height of skirt {side}{at}, outside"),
                measure: Measure::Spots(from, to),
                expected_mm: place(from).distance(place(to)),
            })
        };
        ends.into_iter().chain(crowned).filter_map(height).collect()
    }
}
