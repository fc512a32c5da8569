//! The mouth of a pan or box as a tape finds it between the insides of its rims or walls.

use std::cmp::Ordering;

use fold::FlatPattern;
use fold::flat::BendLine;
use fold::part::Edge;
use fold::refold;
use geometry::{Frame, Point, Point3, Vector, polygon, tolerance};
use paper::layout_sheet::Fact;
use shapes::FaceSide;
use units::Length;

use super::angles_to_check::kind;
use crate::plan::standing::stands;
use crate::plan::{Flats, PlannedPart};

/// One side of a mouth, seen from above: a line along the metal that reaches farthest in, the mouth on its left.
struct MouthSide {
    /// "rim AB", or "wall AB" where no rim reaches farther in than the wall.
    limit: String,
    /// "AB".
    side: String,
    at: Point,
    along: Vector,
    high_mm: f64,
}

/// Sizes of the mouth along every side and across its corners, measured on the refolded metal; none where not every side of the
/// floor has a wall, where a rim's edge does not run along its wall, or the sides are not equally high.
pub(super) fn mouth(flats: &Flats, part: &PlannedPart) -> Vec<Fact> {
    let recipe = part.part.shape.recipe();
    let is_open = recipe.natural_face() == Some(FaceSide::Inside) && !recipe.is_lid();
    let Some(root) = part.shaped.part.faces.first() else { return Vec::new() };
    if !is_open || !root.edges.iter().all(|edge| matches!(edge, Edge::Bend(_))) {
        return Vec::new();
    }
    let Some(sides) = mouth_sides(part) else { return Vec::new() };
    let count = sides.len();
    let corners: Option<Vec<Point>> = (0..count)
        .map(|number| {
            let (one, next) = (&sides[number], &sides[(number + 1) % count]);
            let turns_left = tolerance::PARALLEL_SINE < one.along.cross(next.along);
            turns_left.then(|| one.at.crossing(one.along, next.at, next.along)).flatten()
        })
        .collect();
    let Some(corners) = corners.filter(|_| 2 < count) else { return Vec::new() };
    let print = |from: Point, to: Point| Length::from_millimetres(from.distance(to)).print(flats.job.style);
    let fact = |name: String, value: String| Fact {
        name,
        value,
        origin:
            "between the edges of the refolded metal that reach farthest in, carried on to where they cross"
                .to_owned(),
        ..Fact::default()
    };
    let mut rows: Vec<(String, Fact)> = Vec::new();
    for number in 0..count {
        let (before, own, next) =
            (&sides[(number + count - 1) % count], &sides[number], &sides[(number + 1) % count]);
        // Named as the letters run, whichever way round the part is seen.
        let is_before = own.side.chars().next().is_some_and(|letter| before.side.contains(letter));
        let [from, to] = if is_before { [before, next] } else { [next, before] };
        let name = format!("mouth along {}, from {} to {}, inside", own.side, from.limit, to.limit);
        let value = print(corners[(number + count - 1) % count], corners[number]);
        rows.push((own.side.clone(), fact(name, value)));
    }
    rows.sort_by(|a, b| a.0.cmp(&b.0));
    let mut facts: Vec<Fact> = rows.into_iter().map(|(_, fact)| fact).collect();
    if let [a, b, c, d] = corners[..] {
        let (first, second) = (print(a, c), print(b, d));
        let name = "diagonals of the mouth, inside, to where those edges cross".to_owned();
        if first == second {
            facts.push(fact(name, format!("both {first}")));
        } else {
            let letter = |number: usize| shared(&sides[number % 4].side, &sides[(number + 1) % 4].side);
            let named = |from: usize, value: String| {
                Some(format!("{} to {} {value}", letter(from)?, letter(from + 2)?))
            };
            let values = named(0, first).zip(named(1, second));
            facts.extend(values.map(|(first, second)| fact(name, format!("{first}, {second}"))));
        }
    }
    facts
}

/// The letter that two sides have in common.
fn shared(one: &str, other: &str) -> Option<char> {
    one.chars().find(|letter| other.contains(*letter))
}

/// Every side of the mouth, counter-clockwise on the flat; `None` where a side has no straight inner edge along its wall, or they
/// are not all equally high.
fn mouth_sides(part: &PlannedPart) -> Option<Vec<MouthSide>> {
    let flat = &part.flat;
    let middle = polygon::centroid(&flat.faces.first()?.corners);
    let mut bends: Vec<&BendLine> = flat.bends.iter().filter(|bend| bend.parent == 0).collect();
    let angle = |bend: &BendLine| (bend.from.toward(bend.to, 0.5) - middle).angle();
    bends.sort_by(|a, b| angle(a).partial_cmp(&angle(b)).unwrap_or(Ordering::Equal));
    let frames = refold::fold(flat);
    let sides: Vec<MouthSide> =
        bends.into_iter().map(|bend| mouth_side(flat, &frames, bend, middle)).collect::<Option<_>>()?;
    let first = sides.first()?.high_mm;
    sides.iter().all(|side| (side.high_mm - first).abs() <= tolerance::REFOLD_MM).then_some(sides)
}

fn mouth_side(flat: &FlatPattern, frames: &[Frame], bend: &BendLine, middle: Point) -> Option<MouthSide> {
    let wall = bend.child;
    let along = (bend.to - bend.from).unit();
    let along = if 0.0 < along.cross(middle - bend.from) { along } else { -along };
    let inward = along.left();
    let of_face = |face: usize, least_mm: f64| -> Vec<Point3> {
        let corners = flat.faces[face].corners.iter();
        let far = corners.filter(|corner| least_mm <= (**corner - bend.from).dot(inward).abs());
        far.flat_map(|at| [0.0, flat.thickness_mm].map(|z| stands(&frames[face], Point3::new(at.x, at.y, z))))
            .collect()
    };
    let off_flat = flat.faces[wall].corners.iter().map(|at| (*at - bend.from).dot(inward).abs());
    let far_mm = off_flat.fold(0.0, f64::max) - tolerance::REFOLD_MM;
    let rims: Vec<usize> = flat.bends.iter().filter(|rim| rim.parent == wall).map(|rim| rim.child).collect();
    let inset = |at: &Point3| (Point::new(at.x, at.y) - bend.from).dot(inward);
    let farthest = |places: &[Point3]| places.iter().map(inset).fold(f64::NEG_INFINITY, f64::max);
    let of_wall = of_face(wall, far_mm);
    let of_rims: Vec<Point3> = rims.iter().flat_map(|&rim| of_face(rim, 0.0)).collect();
    let is_rim = farthest(&of_wall) < farthest(&of_rims);
    let places = if is_rim { &of_rims } else { &of_wall };
    let most = farthest(places);
    let edge: Vec<&Point3> = places.iter().filter(|at| most - inset(at) <= tolerance::REFOLD_MM).collect();
    let reach = edge.iter().map(|at| (Point::new(at.x, at.y) - bend.from).dot(along));
    let [low, high] =
        reach.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], at| [low.min(at), high.max(at)]);
    let runs_along = flat.thickness_mm < high - low;
    let all = of_wall.iter().chain(&of_rims);
    let (_, side) = kind(&flat.faces[wall].name);
    let limit = if is_rim { flat.faces[*rims.first()?].name.clone() } else { flat.faces[wall].name.clone() };
    (runs_along && !side.is_empty()).then(|| MouthSide {
        limit,
        side: side.to_owned(),
        at: bend.from + inward * most,
        along,
        high_mm: all.map(|at| at.z.abs()).fold(0.0, f64::max),
    })
}
