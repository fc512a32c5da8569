//! What drawings name on a part: letters of the corners of parts whose outline is given by corners, and the places that
//! its recipe names.

use geometry::Point;
use job::ShapeInput;
use paper::layout_sheet::Named;
use shapes::plate::PlateOutline;
use shapes::{Figure, Places};

use crate::plan::PlannedPart;

/// How far a corner of the whole lies at most from that of its piece, mm: the joint between pieces is taken off.
const JOINT_MM: f64 = 13.0;

/// The named places of a part, in its flat.
pub(super) fn named(part: &PlannedPart) -> Named {
    let Some(root) = part.flat.faces.first() else { return Named::default() };
    let Places { mut corners, edges, stations, on_bends, lines } =
        part.part.places().mapped(|at| root.placement.place(at));
    if corners.is_empty() {
        corners = letters(part);
    }
    Named { corners, edges, stations, on_bends, lines }
}

/// Where the lettered corners of an outline lie in the flat; none for other shapes, whose faces name their corners.
fn letters(part: &PlannedPart) -> Vec<(String, Point)> {
    let (figure, in_pieces) = match &part.part.shape {
        ShapeInput::Panel(panel) => (&panel.outline, false),
        ShapeInput::SplitPlate(whole) => (&whole.outline, true),
        ShapeInput::Plate(plate) => match &plate.outline {
            PlateOutline::Figure(figure) => (figure, false),
            PlateOutline::Disc { .. } => return Vec::new(),
        },
        _ => return Vec::new(),
    };
    placed(part, figure, in_pieces)
}

fn placed(part: &PlannedPart, figure: &Figure, in_pieces: bool) -> Vec<(String, Point)> {
    let Some(root) = part.flat.faces.first() else { return Vec::new() };
    // Either mirrors the root about its own x = 0, both together do not.
    let mirrored = part.part.opposite_hand_of.is_some() != part.part.is_seen_from_back();
    let place =
        |corner: Point| root.placement.place(if mirrored { Point::new(-corner.x, corner.y) } else { corner });
    let lettered =
        figure.names.iter().zip(&figure.corners).map(|(name, &corner)| (name.clone(), place(corner)));
    let is_here = |at: Point| root.corners.iter().any(|corner| corner.distance(at) <= JOINT_MM);
    if in_pieces {
        return lettered.filter(|(_, at)| is_here(*at)).collect();
    }
    // A notch takes the corner away: its letter stays where it was, since sides go by it.
    let cut = |(name, at): (String, Point)| {
        if is_here(at) { (name, at) } else { (format!("{name} (cut away)"), at) }
    };
    lettered.map(cut).collect()
}
