//! The cut outline of a flat: each face up to its tangent lines, bend zones between, walked once round.

use geometry::{Point, Vector, polygon, tolerance};

use super::Placement;
use super::face_corner;
use super::jog::{self, SetBack};
use super::unfold::{UnfoldError, bent};
use super::zone_end::{self, Partings};
use crate::part::{Edge, FoldedPart, Forming, Relief};

/// Share of a bent edge that either end of its zone may lose at the most: of what both leave, a fifth at the least stays.
const MOST_OF_EDGE: f64 = 0.4;

/// A face cut back to the tangent lines of its bends, in its own coordinates.
pub(super) struct FaceLayout {
    /// For each corner of the face the points that take its place, in walking order.
    pub(super) at: Vec<Vec<Point>>,
    /// For each corner, the two bends that meet there: before it and after it.
    pub(super) between_bends: Vec<Option<[usize; 2]>>,
}

/// A corner of the walked outline.
#[derive(Debug, Clone, Copy)]
pub(super) struct Corner {
    /// Where, in the flat.
    pub(super) point: Point,
    /// The face it belongs to.
    pub(super) face: usize,
    /// The two bends that meet about it, if it is to be relieved.
    pub(super) between: Option<[usize; 2]>,
}

/// The outline in the making.
pub(super) struct Walk {
    /// Corners so far, counter-clockwise.
    pub(super) corners: Vec<Corner>,
    /// Both ends of every bend line.
    pub(super) bend_ends: Vec<[Point; 2]>,
    /// Corners of every bend zone, counter-clockwise.
    pub(super) zones: Vec<Vec<Point>>,
    /// Where every bend zone starts and where it ends: on the parent's and on the child's tangent line.
    pub(super) zone_ends: Vec<[[Point; 2]; 2]>,
}

impl FaceLayout {
    /// All corners of the metal of the face.
    pub(super) fn metal(&self) -> Vec<Point> {
        self.at.iter().flatten().copied().collect()
    }

    /// Both ends of edge `edge`: on tangent lines where it or its neighbours are bent.
    pub(super) fn edge(&self, edge: usize) -> [Point; 2] {
        let next = &self.at[(edge + 1) % self.at.len()];
        [self.at[edge][self.at[edge].len() - 1], next[0]]
    }
}

/// Cuts face `face` back to its tangent lines.
pub(super) fn layout(part: &FoldedPart, face: usize) -> Result<FaceLayout, UnfoldError> {
    let count = part.faces[face].corners.len();
    let mut at = Vec::with_capacity(count);
    let mut between_bends = Vec::with_capacity(count);
    for corner in 0..count {
        let before = (corner + count - 1) % count;
        between_bends.push(meeting(part, face, [before, corner]));
        at.push(face_corner::corner_points(part, face, before, corner)?);
    }
    let layout = FaceLayout { at, between_bends };
    check_length(part, face, &layout)?;
    Ok(layout)
}

/// The two bends that meet between two edges of a face; none where the corner is straight.
fn meeting(part: &FoldedPart, face: usize, edges: [usize; 2]) -> Option<[usize; 2]> {
    let [before, after] = edges.map(|edge| part.bend_of(face, edge));
    let [first, second] = edges.map(|edge| {
        let (a, b) = part.faces[face].edge(edge);
        (b - a).unit()
    });
    (!runs_on(first, second)).then_some([before?, after?])
}

/// True when the second of two directions merely carries on the first.
pub(super) fn runs_on(first: Vector, second: Vector) -> bool {
    first.cross(second).abs() <= tolerance::PARALLEL_SINE && 0.0 < first.dot(second)
}

/// Whether a face lies between two round bends along one another, of which one may go over into the other with nothing flat left.
fn goes_over(part: &FoldedPart, face: usize, bends: &[(usize, (Vector, f64))]) -> bool {
    let &[(one, (first, _)), (other, (second, _))] = bends else { return false };
    let is_round = |edge: usize| {
        let forming = part.bend_of(face, edge).map(|number| part.bends[number].forming);
        matches!(forming, Some(Forming::Rolled | Forming::Bumped(_)))
    };
    if !is_round(one) || !is_round(other) {
        return false;
    }
    first.cross(second).abs() <= tolerance::PARALLEL_SINE && first.dot(second) < 0.0
}

/// Whether no metal is left of a face but a line.
fn is_line(corners: &[Point]) -> bool {
    let around_mm: f64 = polygon::edges(corners).map(|(a, b)| a.distance(b)).sum();
    polygon::signed_area(corners).abs() <= tolerance::SAME_POINT_MM * around_mm
}

fn check_length(part: &FoldedPart, face: usize, layout: &FaceLayout) -> Result<(), UnfoldError> {
    let count = part.faces[face].corners.len();
    let bends: Vec<(usize, (Vector, f64))> =
        (0..count).filter_map(|edge| Some((edge, bent(part, face, edge)?))).collect();
    let backward = bends.iter().any(|(edge, (along, _))| {
        let [from, to] = layout.edge(*edge);
        (to - from).dot(*along) <= tolerance::SAME_POINT_MM
    });
    let metal = layout.metal();
    if !backward && goes_over(part, face, &bends) && is_line(&metal) {
        return Ok(());
    }
    if backward || polygon::signed_area(&metal) <= 0.0 || polygon::self_crossing(&metal).is_some() {
        let setback_mm = bends.iter().fold(0.0, |most: f64, (_, (_, setback))| most.max(*setback));
        return Err(UnfoldError::FaceTooShort { face: part.faces[face].name.clone(), setback_mm });
    }
    Ok(())
}

impl Walk {
    /// Walks the whole part once round, starting with the root.
    pub(super) fn round(
        part: &FoldedPart,
        placements: &[Placement],
        layouts: &[FaceLayout],
        (partings, set_back): (&Partings<'_>, &SetBack),
    ) -> Self {
        let mut walk = Self {
            corners: Vec::new(),
            bend_ends: vec![[Point::default(); 2]; part.bends.len()],
            zones: vec![Vec::new(); part.bends.len()],
            zone_ends: vec![[[Point::default(); 2]; 2]; part.bends.len()],
        };
        let context = Context { part, placements, layouts, partings, set_back };
        walk.face(&context, 0);
        walk.drop_repeats();
        walk
    }

    /// Walks the cut edges of one face and everything bent off them; a child starts after its parent edge.
    fn face(&mut self, context: &Context<'_>, face: usize) {
        let edges = &context.part.faces[face].edges;
        let first = usize::from(face != 0);
        for (number, edge) in edges.iter().enumerate().skip(first) {
            self.corner(context, face, number);
            if let Edge::Bend(bend) = edge {
                self.child(context, *bend);
            }
        }
        if face != 0 {
            self.corner(context, face, 0);
        }
    }

    fn corner(&mut self, context: &Context<'_>, face: usize, corner: usize) {
        let layout = &context.layouts[face];
        // A corner that is cut off has no place where both tangent lines cross.
        let between = layout.between_bends[corner].filter(|_| layout.at[corner].len() == 1);
        for &point in &layout.at[corner] {
            let point = context.unrelieved((face, corner)).unwrap_or(context.placements[face].place(point));
            self.corners.push(Corner { point, face, between });
        }
    }

    /// Goes out over a bend zone, round the child, and back.
    fn child(&mut self, context: &Context<'_>, number: usize) {
        let bend = context.part.bends[number];
        let [parent_from, parent_to] = context.edge(bend.parent, bend.parent_edge);
        let [child_from, child_to] = context.edge(bend.child, 0);
        let (a, b) = context.part.faces[bend.parent].edge(bend.parent_edge);
        let along = context.placements[bend.parent].direct((b - a).unit());
        let parent_count = context.part.faces[bend.parent].edges.len();
        let meets = |face: usize, corner: usize| context.layouts[face].between_bends[corner].is_some();
        let parent_corners = [bend.parent_edge, (bend.parent_edge + 1) % parent_count];
        let start = ZoneEnd {
            parent: parent_from,
            child: child_to,
            toward: -along,
            beside_bend: meets(bend.parent, parent_corners[0]) || meets(bend.child, 1),
        };
        let end = ZoneEnd {
            parent: parent_to,
            child: child_from,
            toward: along,
            beside_bend: meets(bend.parent, parent_corners[1]) || meets(bend.child, 0),
        };
        let unrelieved = parent_corners.map(|corner| context.unrelieved((bend.parent, corner)));
        let [near, far] =
            [(start, false), (end, true)].map(|(end, at_end)| context.cut(number, &end, at_end));
        self.zone_ends[number] = [[near.inner, near.outer], [far.inner, far.outer]];
        self.bend_ends[number] =
            [unrelieved[0].unwrap_or(near.middle()), unrelieved[1].unwrap_or(far.middle())];
        let (near, mut far) = (near.chain_from_parent(unrelieved[0]), far.chain_from_parent(unrelieved[1]));
        far.reverse();
        self.zones[number] = near.iter().chain(&far).copied().collect();
        self.zone_corners(bend.child, &near);
        self.face(context, bend.child);
        self.zone_corners(bend.child, &far);
    }

    fn zone_corners(&mut self, face: usize, points: &[Point]) {
        self.corners.extend(points.iter().map(|&point| Corner { point, face, between: None }));
    }

    /// Zone corners often fall on the tangent points themselves; one of each is enough.
    fn drop_repeats(&mut self) {
        let mut kept: Vec<Corner> = Vec::with_capacity(self.corners.len());
        for corner in &self.corners {
            match kept.last_mut() {
                Some(last) if last.point.distance(corner.point) <= tolerance::SAME_POINT_MM => {
                    last.between = last.between.or(corner.between);
                }
                _ => kept.push(*corner),
            }
        }
        while kept.len() > 1 && kept[0].point.distance(kept[kept.len() - 1].point) <= tolerance::SAME_POINT_MM
        {
            let last = kept.pop();
            kept[0].between = kept[0].between.or(last.and_then(|last| last.between));
        }
        self.corners = kept;
    }
}

struct Context<'a> {
    part: &'a FoldedPart,
    placements: &'a [Placement],
    layouts: &'a [FaceLayout],
    partings: &'a Partings<'a>,
    set_back: &'a SetBack,
}

impl Context<'_> {
    /// Both ends of an edge of a face, in the flat.
    fn edge(&self, face: usize, edge: usize) -> [Point; 2] {
        self.layouts[face].edge(edge).map(|point| self.placements[face].place(point))
    }

    /// Where the zone of a bend is cut at one of its ends, clear of what lies beyond the seams there and set back where that
    /// would leave a step too fine to cut.
    fn cut(&self, number: usize, end: &ZoneEnd, at_end: bool) -> ZoneCut {
        let mut cut = self.clear(number, end, at_end);
        let [inner, outer] = self.set_back.of(number, at_end);
        let back = end.toward * (jog::LEAST_MM + tolerance::REFOLD_MM);
        if inner {
            cut.inner = end.parent - back;
        }
        if outer {
            cut.outer = end.child - back;
        }
        cut
    }

    /// Where the zone of a bend is cut at one of its ends, clear of what lies beyond the seams there.
    fn clear(&self, number: usize, end: &ZoneEnd, at_end: bool) -> ZoneCut {
        let [inner, outer] = end.cut(self.part.relief);
        let straight = ZoneCut { inner, corner: None, outer };
        if self.part.faces[0].rim.is_some() || (end.beside_bend && self.part.relief == Relief::None) {
            return straight;
        }
        let bend = &self.part.bends[number];
        let (a, _) = self.part.faces[bend.parent].edge(bend.parent_edge);
        let origin = self.placements[bend.parent].place(a);
        let along = |point: Point| (point - origin).dot(end.toward);
        // Both ends together leave something of the zone.
        let lengths = [(bend.parent, bend.parent_edge), (bend.child, 0)].map(|(face, edge)| {
            let [from, to] = self.layouts[face].edge(edge);
            from.distance(to)
        });
        let most_mm = zone_end::most_mm(self.part, number).min(MOST_OF_EDGE * lengths[0].min(lengths[1]));
        let asked = [along(inner), along(outer)];
        let clear = self.partings.limits(number, at_end, asked);
        let zone_mm = self.part.allowance_mm(number);
        let kept = clear.and_then(|limits| zone_end::kept(asked, &limits, (most_mm, zone_mm)));
        let Some(([first, last], corner)) = kept else { return straight };
        let moved = |point: Point, to: f64| point + end.toward * (to - along(point));
        ZoneCut {
            inner: moved(inner, first),
            corner: corner.map(|(share, at)| (share, moved(inner.toward(outer, share), at))),
            outer: moved(outer, last),
        }
    }

    /// Where the bend lines cross that meet at a corner of a face, when nothing relieves them.
    fn unrelieved(&self, (face, corner): (usize, usize)) -> Option<Point> {
        let pair = self.layouts[face].between_bends[corner].filter(|_| self.part.relief == Relief::None)?;
        let count = self.part.faces[face].edges.len();
        let edges = [(corner + count - 1) % count, corner];
        let at = self.part.faces[face].corners[corner];
        let [first, second] = [0, 1].map(|which| {
            let (a, b) = self.part.faces[face].edge(edges[which]);
            let along = (b - a).unit();
            let inward = self.part.setback_mm(pair[which]) - 0.5 * self.part.allowance_mm(pair[which]);
            (at + along.left() * inward, along)
        });
        let crossing = first.0.crossing(first.1, second.0, second.1)?;
        Some(self.placements[face].place(crossing))
    }
}

/// One end of a bend zone: the ends of both tangent lines, and the way out of the zone along them.
struct ZoneEnd {
    parent: Point,
    child: Point,
    toward: Vector,
    /// Whether another bend of the parent or of the child meets this one here.
    beside_bend: bool,
}

impl ZoneEnd {
    /// Where the zone is cut, on the parent's and on the child's tangent line.
    ///
    /// Beside another bend a square relief cuts both lines at the shorter of the two; else the cut runs straight
    /// from one tangent point to the other.
    fn cut(&self, relief: Relief) -> [Point; 2] {
        if !self.beside_bend || relief != Relief::Square {
            return [self.parent, self.child];
        }
        let past = (self.parent - self.child).dot(self.toward);
        if past > 0.0 {
            [self.parent - self.toward * past, self.child]
        } else {
            [self.parent, self.child + self.toward * past]
        }
    }
}

/// How a zone is cut at one of its ends: from the parent's tangent line, over a corner at a share of the way, to the child's.
struct ZoneCut {
    inner: Point,
    corner: Option<(f64, Point)>,
    outer: Point,
}

impl ZoneCut {
    /// Where the bend line ends.
    fn middle(&self) -> Point {
        match self.corner {
            None => self.inner.toward(self.outer, 0.5),
            Some((share, corner)) if 0.5 <= share => self.inner.toward(corner, 0.5 / share),
            Some((share, corner)) => self.outer.toward(corner, 0.5 / (1.0 - share)),
        }
    }

    /// Its corners, beginning on the parent's tangent line, or at another start.
    fn chain_from_parent(&self, start: Option<Point>) -> Vec<Point> {
        let first = std::iter::once(start.unwrap_or(self.inner));
        first.chain(self.corner.map(|(_, corner)| corner)).chain([self.outer]).collect()
    }
}
