//! The finished part as convex pieces of real thickness, taken from the refolded flat.
//!
//! Every flat face becomes one prism, or several where it is not convex; every bend becomes short prisms round its arc,
//! laid on the outside so that no metal stands out of them. Holes are taken as filled. Coordinates are those of the
//! recipe: x and y in the plan of the root face, z upward from its lower side, whichever face is marked.

use fold::Direction;
use fold::flat::{BendLine, FlatPattern};
use fold::part::FoldedPart;
use fold::refold;
use geometry::outline::Chords;
use geometry::{Frame, Point, Point3, polygon, trig};
use shapes::wrap::Round;

use super::rolled;

/// Largest part of a bend's turn taken by one prism, radians: the metal is overstated by less than a hundredth of its
/// outside radius.
const PRISM_TURN_RAD: f64 = std::f64::consts::PI / 12.0;

/// A finished part.
#[derive(Debug, Clone, PartialEq)]
pub struct Body {
    /// Convex pieces that together cover all its metal.
    pub pieces: Vec<BodyPiece>,
    /// How far lugs stand out past the outside of its sides, mm; they are in the pieces. Nothing where they stand inside.
    pub lugs_out_mm: f64,
}

/// A convex piece of a part: a prism between two rings of matching corners.
#[derive(Debug, Clone, PartialEq)]
pub struct BodyPiece {
    /// The face it belongs to, as the shop calls it; a bend goes by the face beyond it.
    pub name: String,
    /// Corners of one end.
    pub low: Vec<Point3>,
    /// Corners of the other end, in the same order.
    pub high: Vec<Point3>,
}

impl Body {
    /// The finished part from its flat, folded again. `turned_over` says that the marked face is not the recipe's own,
    /// so that the flat is drawn from the other side.
    #[must_use]
    pub fn of(part: &FoldedPart, flat: &FlatPattern, turned_over: bool) -> Self {
        Self::of_tread(part, flat, turned_over, 0.0)
    }

    /// The same with lugs so high on the marked face, all over it: where they stand on a sheet is not known.
    #[must_use]
    pub fn of_tread(part: &FoldedPart, flat: &FlatPattern, turned_over: bool, lugs_mm: f64) -> Self {
        let frames = refold::fold(flat);
        let thickness = flat.thickness_mm;
        let home = |place: Point3| Self::home(flat, turned_over, place);
        let mut pieces = Vec::new();
        for (number, face) in flat.faces.iter().enumerate() {
            let rim = part.faces[number].rim.as_ref().map(|rim| rim.corners(Chords::Outside));
            let corners = rim.map_or_else(
                || face.corners.clone(),
                |rim| rim.iter().map(|&corner| face.placement.place(corner)).collect(),
            );
            for convex in polygon::convex_pieces(&corners) {
                let at = |z_mm: f64| convex.iter().map(|&p| home(frames[number].place(p, z_mm))).collect();
                pieces.push(BodyPiece {
                    name: face.name.clone(),
                    low: at(0.0),
                    high: at(thickness + lugs_mm),
                });
            }
        }
        for bend in &flat.bends {
            for (low, high) in arc_prisms(bend, &frames[bend.parent], [thickness, lugs_mm]) {
                let name = flat.faces[bend.child].name.clone();
                let placed = |ring: Vec<Point3>| ring.into_iter().map(home).collect();
                pieces.push(BodyPiece { name, low: placed(low), high: placed(high) });
            }
        }
        Self { pieces, lugs_out_mm: 0.0 }
    }

    /// A rolled plate where it truly lies, and not as the flats between its element lines; `turned_over` as for [`Self::of`].
    /// `round` is of the part's own hand; lugs as for [`Self::of_tread`].
    #[must_use]
    pub fn rolled(flat: &FlatPattern, turned_over: bool, round: &Round, lugs_mm: f64) -> Self {
        Self { pieces: rolled::pieces(flat, turned_over, round, lugs_mm), lugs_out_mm: 0.0 }
    }

    /// A place of the refolded flat in the recipe's own coordinates; `turned_over` as for [`Body::of`].
    #[must_use]
    pub fn home(flat: &FlatPattern, turned_over: bool, place: Point3) -> Point3 {
        let (plan, z) = flat.faces[0].placement.frame().local(place);
        if turned_over {
            Point3::new(-plan.x, plan.y, flat.thickness_mm - z)
        } else {
            Point3::new(plan.x, plan.y, z)
        }
    }

    /// Least and greatest corner of the smallest upright box around it.
    #[must_use]
    pub fn bounds(&self) -> (Point3, Point3) {
        let mut corners = self.pieces.iter().flat_map(BodyPiece::corners);
        let first = corners.next().unwrap_or_default();
        corners.fold((first, first), |(low, high), p| {
            (
                Point3::new(low.x.min(p.x), low.y.min(p.y), low.z.min(p.z)),
                Point3::new(high.x.max(p.x), high.y.max(p.y), high.z.max(p.z)),
            )
        })
    }
}

impl BodyPiece {
    /// All its corners.
    pub fn corners(&self) -> impl Iterator<Item = Point3> + '_ {
        self.low.iter().chain(&self.high).copied()
    }

    /// Its edges as pairs of corners.
    pub fn edges(&self) -> impl Iterator<Item = (Point3, Point3)> + '_ {
        let ring = |ring: &'_ [Point3]| {
            let turned = ring.iter().copied().cycle().skip(1).take(ring.len()).collect::<Vec<_>>();
            ring.iter().copied().zip(turned).collect::<Vec<_>>()
        };
        let upright = self.low.iter().copied().zip(self.high.iter().copied());
        ring(&self.low).into_iter().chain(ring(&self.high)).chain(upright)
    }
}

/// The prisms round the arc of one bend, each as its rings at the two ends of the bend line.
fn arc_prisms(
    bend: &BendLine,
    parent: &Frame,
    [thickness_mm, lugs_mm]: [f64; 2],
) -> Vec<(Vec<Point3>, Vec<Point3>)> {
    let (along, across) = (bend.along(), bend.across());
    let near = bend.from - across * (0.5 * bend.zone_mm);
    let radius = bend.inside_radius_mm;
    let (centre_z, inner_z, sign) = match bend.direction {
        Direction::Up => (thickness_mm + radius, thickness_mm, 1.0),
        Direction::Down => (-radius, 0.0, -1.0),
    };
    let centre = parent.place(near, centre_z);
    // From the centre of the arc to the inside face where the bend begins; of length one where the radius is zero.
    let spoke = parent.z * -sign;
    let axis = parent.direct(along) * -sign;
    let count = (bend.turn_rad / PRISM_TURN_RAD).ceil().max(1.0);
    let step = bend.turn_rad / count;
    let at = |turn: f64, reach: f64| centre + spoke.turned_about(axis, turn) * reach;
    let base = (centre_z - inner_z).abs();
    // Lugs stand inside a bend up, outside a bend down.
    let (inner, outer) = match bend.direction {
        Direction::Up => ((base - lugs_mm).max(0.0), base + thickness_mm),
        Direction::Down => (base, base + thickness_mm + lugs_mm),
    };
    let lengthwise = parent.direct(along) * bend.from.distance(bend.to);
    let mut prisms = Vec::new();
    let mut begun = 0.0;
    while begun + 0.5 < count {
        let (first, middle, last) = (begun * step, (begun + 0.5) * step, (begun + 1.0) * step);
        let tip = at(middle, outer / trig::cos(0.5 * step));
        let ring = vec![at(first, inner), at(first, outer), tip, at(last, outer), at(last, inner)];
        let far = ring.iter().map(|&corner| corner + lengthwise).collect();
        prisms.push((ring, far));
        begun += 1.0;
    }
    prisms
}

/// A plan point as the view of [`Body`] from above has it.
#[must_use]
pub fn plan_point(place: Point3) -> Point {
    Point::new(place.x, place.y)
}
