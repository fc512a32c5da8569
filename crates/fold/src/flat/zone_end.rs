//! Where a bend zone ends beside a seam.
//!
//! The metal of a zone runs straight from one tangent point to the other on the flat, but round an arc in space. Beside a
//! seam that straight edge may come to lie beyond the plane that parts the two sides of the seam, in the zone of the
//! neighbour: as at a rim turned outward, whose mitre leaves the walls' corner only late in the bend. There the zone is
//! cut back to what stays on its own side, by at most one more corner.
//!
//! Source: plane geometry. Where a plane parts the two sides of a seam, what stays on its own sides of the planes at the
//! parent's and at the child's seam meets nothing of the neighbour's.

use geometry::{Frame, Plane, Point, Vector3, tolerance};

use crate::part::{FoldedPart, Forming, Round, Seam, SeamSide, SeamStyle};

/// Lines along a bend at which its ends are looked at, from one tangent line to the other.
const LINES: usize = 16;

/// A plane that parts the two sides of a seam, as one side has it: its normal points off that side.
struct Parting {
    face: usize,
    edge: usize,
    plane: Plane,
}

/// The planes that part the two sides of every seam.
pub(super) struct Partings<'a> {
    part: &'a FoldedPart,
    frames: Vec<Frame>,
    partings: Vec<Parting>,
}

impl<'a> Partings<'a> {
    /// All of a part.
    pub(super) fn of(part: &'a FoldedPart) -> Self {
        let frames = part.frames();
        let both = |seam: &Seam| {
            let planes = planes(part, &frames, seam)?;
            let sides = [seam.first, seam.second].into_iter().zip(planes);
            Some(sides.map(|((face, edge), plane)| Parting { face, edge, plane }).collect::<Vec<_>>())
        };
        let partings = part.seams.iter().filter_map(both).flatten().collect();
        Self { part, frames, partings }
    }

    /// The planes at a cut edge of a face, or at the piece that tabs have left of one.
    fn at(&self, face: usize, edge: usize) -> impl Iterator<Item = Plane> + '_ {
        let (c, d) = self.part.faces[face].edge(edge);
        let along = move |parting: &&Parting| {
            let (a, b) = self.part.faces[face].edge(parting.edge);
            let off = |point: Point| (point - a).cross((b - a).unit()).abs();
            parting.edge == edge || off(c).max(off(d)) <= tolerance::SAME_POINT_MM
        };
        self.partings.iter().filter(move |parting| parting.face == face).filter(along).map(|p| p.plane)
    }

    /// How far the zone of bend `number` may reach along it at every line, mm from the start of its parent's edge, counted toward
    /// the end that is asked for; `None` where nothing bounds it.
    pub(super) fn limits(&self, number: usize, at_end: bool) -> Option<Vec<f64>> {
        let bend = &self.part.bends[number];
        if bend.forming != Forming::Brake || self.partings.is_empty() {
            return None;
        }
        let count = self.part.faces[bend.parent].edges.len();
        let (beside_parent, beside_child) = if at_end {
            ((bend.parent_edge + 1) % count, self.part.faces[bend.child].edges.len() - 1)
        } else {
            ((bend.parent_edge + count - 1) % count, 1)
        };
        let own = self.at(bend.parent, beside_parent).chain(self.at(bend.child, beside_child));
        let frame = &self.frames[bend.parent];
        let (a, b) = self.part.faces[bend.parent].edge(bend.parent_edge);
        let along = (b - a).unit();
        let toward = frame.direct(if at_end { along } else { -along });
        let planes: Vec<Plane> = own.filter(|plane| plane.normal.dot(toward) > Round::LEAST_SQUARE).collect();
        if planes.is_empty() {
            return None;
        }
        let round = Round::of(self.part, number, frame);
        let limit = |turn_rad: f64| {
            let places = round.places(turn_rad);
            let each = planes
                .iter()
                .flat_map(|plane| places.map(|place| -plane.distance(place) / plane.normal.dot(toward)));
            each.fold(f64::INFINITY, f64::min)
        };
        Some((0..=LINES).map(|line| limit(bend.turn_rad * share(line))).collect())
    }
}

/// The share of the way at which a line lies.
fn share(line: usize) -> f64 {
    let of = |count: usize| u32::try_from(count).map_or(0.0, f64::from);
    of(line) / of(LINES)
}

/// The planes that part the two sides of a seam; `None` where a strip lies along a plate, for there is none.
fn planes(part: &FoldedPart, frames: &[Frame], seam: &Seam) -> Option<[Plane; 2]> {
    let out = |(face, edge): (usize, usize)| {
        let (a, b) = part.faces[face].edge(edge);
        frames[face].direct((b - a).unit().right())
    };
    let (first, second) = (out(seam.first), out(seam.second));
    // Away from the plate that runs through, to the side that the other plate comes from.
    let off = |through: usize, other: Vector3| {
        let normal = frames[through].z;
        if normal.dot(other) < 0.0 { normal } else { -normal }
    };
    let normal = match seam.style {
        SeamStyle::Open => (first - second).unit(),
        SeamStyle::Butt { through: SeamSide::First }
        | SeamStyle::TabAndSlot { tabs: SeamSide::Second, .. } => off(seam.first.0, second),
        SeamStyle::Butt { .. } | SeamStyle::TabAndSlot { .. } => -off(seam.second.0, first),
        SeamStyle::Lap { .. } => return None,
    };
    let farthest = |(face, edge): (usize, usize), normal: Vector3| {
        let (a, b) = part.faces[face].edge(edge);
        let places =
            [0.0, part.thickness_mm()].into_iter().flat_map(|z| [a, b].map(|p| frames[face].place(p, z)));
        let place = places.max_by(|p, q| (*p - *q).dot(normal).total_cmp(&0.0))?;
        Some(Plane::through(place, normal))
    };
    Some([farthest(seam.first, normal)?, farthest(seam.second, -normal)?])
}

/// Where a zone ends, as distances along the bend: on the parent's and the child's tangent line, and at a corner between
/// them, after its share of the way.
pub(super) type ZoneEnd = ([f64; 2], Option<(f64, f64)>);

/// The end of a zone from `first` on the parent's tangent line to `last` on the child's, as distances along the bend: where
/// it leaves either line, and a corner between them, with its share of the way, where a straight cut would pass a limit.
///
/// What would take more than `most_mm` off is left as it is: the measure of the refolded part then finds it.
pub(super) fn kept([first, last]: [f64; 2], limits: &[f64], most_mm: f64) -> Option<ZoneEnd> {
    let back = |at: f64, limit: f64| if at > limit + tolerance::REFOLD_MM { limit } else { at };
    let (start, end) = (back(first, limits[0]), back(last, limits[LINES]));
    let straight = |line: usize| start + (end - start) * share(line);
    let passes = (0..=LINES).any(|line| straight(line) > limits[line] + tolerance::REFOLD_MM);
    let corner = if passes { Some(widest([start, end], limits)?) } else { None };
    let lowest = corner.map_or(start.min(end), |(_, at)| at.min(start).min(end));
    (first.min(last) - lowest <= most_mm && first - start <= most_mm && last - end <= most_mm)
        .then_some(([start, end], corner))
}

/// The corner that leaves the most metal, with straight cuts to it from both ends that pass no limit.
fn widest([start, end]: [f64; 2], limits: &[f64]) -> Option<(f64, f64)> {
    let corner = |line: usize| {
        let own = share(line);
        let reach = |from: f64, limit: f64, part: f64| from + (limit - from) / part;
        let near = (1..=line).map(|other| reach(start, limits[other], share(other) / own));
        let far = (line..LINES).map(|other| reach(end, limits[other], (1.0 - share(other)) / (1.0 - own)));
        (own, near.chain(far).fold(f64::INFINITY, f64::min))
    };
    let metal = |(own, at): (f64, f64)| at + start * own + end * (1.0 - own);
    (1..LINES).map(corner).max_by(|&a, &b| metal(a).total_cmp(&metal(b)))
}
