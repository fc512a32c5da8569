//! The cut outline of a flat: each face up to its tangent lines, bend zones between, walked once round.

use geometry::{Point, Vector, polygon, tolerance};

use super::Placement;
use super::unfold::{UnfoldError, bent};
use super::zone_end::{self, Partings};
use crate::part::{Edge, FoldedPart, Relief};

/// Cotangent of the flattest turn (a sixteenth of a circle, 22.5°) at which a bend still ends on the next cut edge.
///
/// Mitres of rims and returns turn by about an eighth; a cut edge that all but continues the bent one would run along
/// the bend zone and leave a sliver of it bent only in part.
const FLATTEST_COTANGENT: f64 = 1.0 + std::f64::consts::SQRT_2;

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
        at.push(corner_points(part, face, before, corner)?);
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
fn runs_on(first: Vector, second: Vector) -> bool {
    first.cross(second).abs() <= tolerance::PARALLEL_SINE && 0.0 < first.dot(second)
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
    if backward || polygon::signed_area(&metal) <= 0.0 || polygon::self_crossing(&metal).is_some() {
        let setback_mm = bends.iter().fold(0.0, |most: f64, (_, (_, setback))| most.max(*setback));
        return Err(UnfoldError::FaceTooShort { face: part.faces[face].name.clone(), setback_mm });
    }
    Ok(())
}

/// What takes the place of the corner between edges `before` and `after`.
fn corner_points(
    part: &FoldedPart,
    face: usize,
    before: usize,
    after: usize,
) -> Result<Vec<Point>, UnfoldError> {
    let corners = &part.faces[face].corners;
    let corner = corners[after];
    let line = |edge| {
        let (a, b) = part.faces[face].edge(edge);
        (b - a).unit()
    };
    let crossing = |(first, first_in): (Vector, f64), (second, second_in): (Vector, f64)| {
        let (p, q) = (corner + first.left() * first_in, corner + second.left() * second_in);
        p.crossing(first, q, second).unwrap_or(p)
    };
    match (bent(part, face, before), bent(part, face, after)) {
        (None, None) => Ok(step_notch(part, face, before, after)?.unwrap_or_else(|| vec![corner])),
        // A straight corner is none: both tangent lines run on, each at its own setback.
        (Some(first), Some(second)) if runs_on(first.0, second.0) => {
            let inward = [first, second].map(|(along, setback)| corner + along.left() * setback);
            let same = inward[0].distance(inward[1]) <= tolerance::SAME_POINT_MM;
            Ok(inward[..if same { 1 } else { 2 }].to_vec())
        }
        (Some(first), Some(second)) => Ok(vec![crossing(first, second)]),
        (None, Some((along, setback))) => {
            let free = line(before);
            if turns_squarely(part, free, along, setback) {
                return Ok(vec![crossing((free, 0.0), (along, setback))]);
            }
            let mut notch = notch(part, face, after, corner, -along, -free, along.left() * setback)?;
            notch.reverse();
            Ok(notch)
        }
        (Some((along, setback)), None) => {
            let free = line(after);
            if turns_squarely(part, along, free, setback) {
                return Ok(vec![crossing((along, setback), (free, 0.0))]);
            }
            notch(part, face, before, corner, along, free, along.left() * setback)
        }
    }
}

/// True when the outline turns left steeply enough from `first` to `second`: the cut edge then crosses the tangent line
/// close by, and the bend can end on it, as at the mitre of a rim; flatter corners need a saw notch. Where the bend is
/// so slight that the crossing lies within the notch's own width, there is nothing to notch.
fn turns_squarely(part: &FoldedPart, first: Vector, second: Vector, setback_mm: f64) -> bool {
    let (across, along) = (first.cross(second), first.dot(second));
    across > 0.0
        && (along <= FLATTEST_COTANGENT * across || setback_mm * along <= part.notch_width_mm * across)
}

/// A saw notch beside the end of a bend: from the tangent line out to the cut edge `free` beyond `corner`.
/// `toward` points along the bent edge past its end.
fn notch(
    part: &FoldedPart,
    face: usize,
    edge: usize,
    corner: Point,
    toward: Vector,
    free: Vector,
    inward: Vector,
) -> Result<Vec<Point>, UnfoldError> {
    let width = part.notch_width_mm;
    let tangent = corner + inward;
    let mouth = corner + toward * width;
    match mouth.crossing(inward, corner, free) {
        Some(end) if (end - corner).dot(free) > 0.0 => Ok(vec![tangent, tangent + toward * width, end]),
        _ => Err(UnfoldError::InsideCorner { face: part.faces[face].name.clone(), edge }),
    }
}

/// A saw notch where a cut edge steps out square to the end of a bend from beside its zone, between the tangent line and
/// the mold line; none where it does not.
///
/// Edge `before` or edge `after` of the corner is the step; the notch takes the corner's place.
fn step_notch(
    part: &FoldedPart,
    face: usize,
    before: usize,
    after: usize,
) -> Result<Option<Vec<Point>>, UnfoldError> {
    let count = part.faces[face].corners.len();
    let bends = [(after + 1) % count, (before + count - 1) % count];
    let corner = part.faces[face].corners[after];
    for (at_start, bend) in [true, false].into_iter().zip(bends) {
        let Some((along, setback_mm)) = bent(part, face, bend) else { continue };
        let (from, to) = part.faces[face].edge(bend);
        let (end, toward) = if at_start { (from, -along) } else { (to, along) };
        let (beside, aside) = (corner - end, if at_start { before } else { after });
        let inside_mm = beside.dot(along.left());
        let square = beside.dot(along).abs() <= tolerance::SAME_POINT_MM;
        if !square || inside_mm <= tolerance::SAME_POINT_MM || setback_mm <= inside_mm {
            continue;
        }
        let (a, b) = part.faces[face].edge(aside);
        let away = if at_start { a - b } else { b - a };
        let cosine = away.unit().dot(toward);
        let width_mm = part.notch_width_mm;
        if cosine <= 0.0 {
            continue;
        }
        let mouth = corner + away.unit() * (width_mm / cosine);
        if away.length() <= corner.distance(mouth) {
            return Err(UnfoldError::InsideCorner { face: part.faces[face].name.clone(), edge: bend });
        }
        let bottom = end + along.left() * setback_mm + toward * width_mm;
        return Ok(Some(if at_start { vec![mouth, bottom] } else { vec![bottom, mouth] }));
    }
    Ok(None)
}

impl Walk {
    /// Walks the whole part once round, starting with the root.
    pub(super) fn round(
        part: &FoldedPart,
        placements: &[Placement],
        layouts: &[FaceLayout],
        partings: &Partings<'_>,
    ) -> Self {
        let mut walk = Self {
            corners: Vec::new(),
            bend_ends: vec![[Point::default(); 2]; part.bends.len()],
            zones: vec![Vec::new(); part.bends.len()],
            zone_ends: vec![[[Point::default(); 2]; 2]; part.bends.len()],
        };
        let context = Context { part, placements, layouts, partings };
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
}

impl Context<'_> {
    /// Both ends of an edge of a face, in the flat.
    fn edge(&self, face: usize, edge: usize) -> [Point; 2] {
        self.layouts[face].edge(edge).map(|point| self.placements[face].place(point))
    }

    /// Where the zone of a bend is cut at one of its ends, clear of what lies beyond the seams there.
    fn cut(&self, number: usize, end: &ZoneEnd, at_end: bool) -> ZoneCut {
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
