//! The pieces that a part falls into where seams stand in place of bends, by the size of their flats.

use geometry::{Point, polygon};

use crate::Subject;

/// "pieces of about 33 × 24 and 33 × 4 1/8 flat": what the faces on either side of the seams take of the flat, measured upright
/// on it. Their own blanks differ by what the weld's preparation takes.
pub(super) fn words(subject: &Subject<'_>, seams: &[usize]) -> String {
    let flat = subject.bent;
    let mut piece_of: Vec<usize> = (0..flat.faces.len()).collect();
    // Children come after their parents, so one pass down the tree is enough.
    for (number, bend) in subject.part.bends.iter().enumerate() {
        if !seams.contains(&number) {
            piece_of[bend.child] = piece_of[bend.parent];
        }
    }
    let mut roots = piece_of.clone();
    roots.sort_unstable();
    roots.dedup();
    let size = |root: &usize| {
        let own = flat.faces.iter().zip(&piece_of).filter(|(_, piece)| *piece == root);
        let corners: Vec<Point> = own.flat_map(|(face, _)| face.corners.iter().copied()).collect();
        let (low, high) = polygon::bounds(&corners);
        let [long, wide] = [(high.x - low.x).max(high.y - low.y), (high.x - low.x).min(high.y - low.y)];
        format!("{} × {}", subject.about_mm(long), subject.about_mm(wide))
    };
    let sizes: Vec<String> = roots.iter().map(size).collect();
    format!("pieces of about {} flat, less what the weld's preparation takes", sizes.join(" and "))
}
