//! Unfolding: every face gets its place in the flat, then the cut outline is walked once round.

use geometry::outline::Chords;
use geometry::{Contour, Outline, Point, Vector, polygon, tolerance};

use super::jog::{self, SetBack};
use super::outline::{self, Corner, FaceLayout, Walk};
use super::relief::{self, ReliefFault, ReliefNeed};
use super::short;
use super::zone_end::Partings;
use super::{BendLine, FlatFace, FlatPattern, FlatSeam, Placement};
use crate::part::{self, Edge, Face, FoldedPart};

/// Why a folded part cannot be laid flat.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum UnfoldError {
    /// Bend zones leave nothing of a face, or more than there is.
    #[error(
        "{face}: too short for its bends: each bend takes its setback of {setback_mm:.2} mm from the face"
    )]
    FaceTooShort {
        /// The face.
        face: String,
        /// The largest setback at that face, mm.
        setback_mm: f64,
    },
    /// Two places of the flat lie on top of one another.
    #[error("{first} and {second} overlap in the flat: they cannot come out of one piece")]
    Overlap {
        /// One face.
        first: String,
        /// The other.
        second: String,
    },
    /// A flange runs into an inside corner where its neighbour stands in the way.
    #[error("{face}: the flange at its edge {edge} runs into an inside corner: stop it short of the corner")]
    InsideCorner {
        /// The face.
        face: String,
        /// Its edge number.
        edge: usize,
    },
    /// A drilled relief cuts into another bend, into another relief, or cuts metal off the part.
    #[error("a relief hole of radius {radius_mm:.2} mm {what}")]
    ReliefTooLarge {
        /// Radius, mm.
        radius_mm: f64,
        /// What it does.
        what: ReliefFault,
        /// The faces whose bends meet there.
        faces: [String; 2],
        /// The largest radius with which all reliefs of the part can be cut, mm, if there is one.
        largest_mm: Option<f64>,
    },
    /// Bends that meet must be relieved.
    #[error("{} and {} need a relief where their bends meet: {why}", faces[0], faces[1])]
    ReliefNeeded {
        /// The faces whose bends meet.
        faces: [String; 2],
        /// Why.
        why: ReliefNeed,
    },
}

/// Lays `part` flat, seen from its face side.
///
/// Bend lines lie in the middle of their zones; mold lines of parent and child overlap by the bend deduction.
///
/// # Errors
/// [`UnfoldError`] when a face is too short for its bends, or pieces of the flat would overlap.
pub fn unfold(part: &FoldedPart) -> Result<FlatPattern, UnfoldError> {
    let placements = placements(part);
    let mut layouts = layouts(part)?;
    let partings = Partings::of(part, &layouts);
    let mut cuts = partings.cut_corners(&mut layouts);
    let none = SetBack::none(part.bends.len());
    let mut walk = Walk::round(part, &placements, &layouts, (&partings, &none));
    let stepped = jog::cut(part, &placements, &mut layouts, &walk);
    let set_back = SetBack::of_steps(part, &placements, &layouts, &walk);
    if !stepped.is_empty() || set_back.any() {
        walk = Walk::round(part, &placements, &layouts, (&partings, &set_back));
    }
    for made in stepped {
        match made {
            jog::Cut::New { face, edge, ends } => {
                cuts.extend(seam_on(part, face, edge).map(|seam| (seam, face, ends)));
            }
            jog::Cut::Moved { face, ends: [from, to] } => {
                let own = cuts.iter_mut().filter(|(_, of, _)| *of == face);
                let ends = own.flat_map(|(_, _, ends)| ends.iter_mut());
                ends.filter(|end| end.distance(from) <= tolerance::SAME_POINT_MM).for_each(|end| *end = to);
            }
        }
    }
    let mut cut = relief::cut(part, &walk)?;
    let (outer, stubs) = match &part.faces[0].rim {
        Some(rim) => (rim.clone(), Vec::new()),
        None => short::cut(jog::without_false_corners(cut.outer)),
    };
    if !stubs.is_empty() {
        // Where a stub was cut off at the end of a bend line, that ends at the cut.
        cut.bend_ends.iter_mut().for_each(|line| relief::to_edge(line, &outer));
    }
    check_overlap(part, &walk, &outer)?;
    let holes = part.faces.iter().zip(&placements).flat_map(|(face, placement)| {
        face.holes.iter().map(|hole| hole.mapped(false, |p| placement.place(p)))
    });
    let faces = (0..part.faces.len())
        .map(|face| flat_face(&part.faces[face], placements[face], &layouts[face]))
        .collect();
    let mut seams = flat_seams(part, &placements, &layouts, &cuts);
    seams.iter_mut().for_each(|seam| seam.cut_off.extend(stubs_at(seam, &stubs)));
    let flat = FlatPattern {
        outline: Outline { outer, holes: holes.collect() },
        thickness_mm: part.thickness_mm(),
        inside_radius_mm: part.number.inside_radius().millimetres(),
        faces,
        bends: bend_lines(part, &cut.bend_ends),
        zones: walk.zones,
        reliefs: cut.reliefs,
        seams,
    };
    let (low, _) = flat.outline.bounds();
    Ok(flat.moved(Point::default() - low))
}

/// True when the part, its zones cut straight beside its seams, lies on itself in the flat: quicker than [`unfold`], for those
/// that try one shape after another.
#[must_use]
pub fn lies_on_itself(part: &FoldedPart) -> bool {
    let overlap = || {
        let placements = placements(part);
        let none = (&Partings::none(part), &SetBack::none(part.bends.len()));
        let walk = Walk::round(part, &placements, &layouts(part)?, none);
        let outer = relief::cut(part, &walk)?.outer;
        check_overlap(part, &walk, part.faces[0].rim.as_ref().unwrap_or(&outer))
    };
    matches!(overlap(), Err(UnfoldError::Overlap { .. }))
}

fn layouts(part: &FoldedPart) -> Result<Vec<FaceLayout>, UnfoldError> {
    (0..part.faces.len()).map(|face| outline::layout(part, face)).collect()
}

/// Where each face lies: a child's mold line is its parent's, moved in by the deduction.
fn placements(part: &FoldedPart) -> Vec<Placement> {
    let mut placements = vec![Placement::IDENTITY; part.faces.len()];
    for (number, bend) in part.bends.iter().enumerate() {
        let (a, b) = part.faces[bend.parent].edge(bend.parent_edge);
        let along = (b - a).unit();
        let origin = b + along.left() * part.deduction_mm(number);
        let parent = placements[bend.parent];
        placements[bend.child] = Placement { origin: parent.place(origin), x: parent.direct(-along) };
    }
    placements
}

fn flat_face(face: &Face, placement: Placement, layout: &FaceLayout) -> FlatFace {
    FlatFace {
        name: face.name.clone(),
        placement,
        corners: layout.metal().into_iter().map(|corner| placement.place(corner)).collect(),
    }
}

fn bend_lines(part: &FoldedPart, ends: &[[Point; 2]]) -> Vec<BendLine> {
    let line = |(number, bend): (usize, &part::Bend)| {
        let [from, to] = ends[number];
        BendLine {
            parent: bend.parent,
            child: bend.child,
            from,
            to,
            turn_rad: bend.turn_rad,
            direction: bend.direction,
            zone_mm: part.allowance_mm(number),
            inside_radius_mm: bend.inside_radius_mm,
            own_radius: !bend.has_radius_of(part),
            forming: bend.forming,
        }
    };
    part.bends.iter().enumerate().map(line).collect()
}

/// The stubs that were cut off edges of a seam.
fn stubs_at(seam: &FlatSeam, stubs: &[[Point; 2]]) -> Vec<(usize, [Point; 2])> {
    let (first, second) = (&seam.first, &seam.second);
    let on = |ends: [Point; 2], cut: &[Point; 2]| {
        cut.iter().any(|end| polygon::point_to_segment(*end, (ends[0], ends[1])) <= tolerance::SAME_POINT_MM)
    };
    [first, second]
        .into_iter()
        .flat_map(|(face, ends)| stubs.iter().filter(|cut| on(*ends, cut)).map(|cut| (*face, *cut)))
        .collect()
}

fn flat_seams(
    part: &FoldedPart,
    placements: &[Placement],
    layouts: &[FaceLayout],
    cuts: &[(usize, usize, [Point; 2])],
) -> Vec<FlatSeam> {
    let straight = |(face, edge): (usize, usize)| {
        debug_assert_eq!(part.faces[face].edges[edge], Edge::Free, "a seam edge must be cut");
        (face, layouts[face].edge(edge).map(|p| placements[face].place(p)))
    };
    let cut_off = |number: usize| {
        let own = cuts.iter().filter(move |(seam, ..)| *seam == number);
        own.map(|(_, face, ends)| (*face, ends.map(|p| placements[*face].place(p)))).collect()
    };
    let seam = |(number, seam): (usize, &part::Seam)| FlatSeam {
        cut_off: cut_off(number),
        name: seam.name.clone(),
        first: straight(seam.first),
        second: straight(seam.second),
    };
    part.seams.iter().enumerate().map(seam).collect()
}

/// The seam that runs along an edge of a face, or of which tabs and strips have left that piece.
fn seam_on(part: &FoldedPart, face: usize, edge: usize) -> Option<usize> {
    let runs = |side: (usize, usize)| side.0 == face && part::on_line(&part.faces[face], side.1, edge);
    part.seams.iter().position(|seam| runs(seam.first) || runs(seam.second))
}

/// Looks at the outline as cut: a drilled hole may take away the very places where two bend zones would overlap.
fn check_overlap(part: &FoldedPart, walk: &Walk, outer: &Contour) -> Result<(), UnfoldError> {
    let corners = outer.corners(Chords::On);
    let Some((first, second)) = polygon::self_crossing(&corners) else { return Ok(()) };
    let name = |number: usize| {
        let off = |corner: &Corner| corner.point.distance(corners[number]);
        let nearest = walk.corners.iter().min_by(|a, b| off(a).total_cmp(&off(b)));
        nearest.map_or_else(String::new, |corner| part.faces[corner.face].name.clone())
    };
    Err(UnfoldError::Overlap { first: name(first), second: name(second) })
}

/// Unit direction of a bent edge of a face, and the setback of its bend, mm; `None` for a cut edge.
pub(super) fn bent(part: &FoldedPart, face: usize, edge: usize) -> Option<(Vector, f64)> {
    let number = part.bend_of(face, edge)?;
    let (a, b) = part.faces[face].edge(edge);
    Some(((b - a).unit(), part.setback_mm(number)))
}
