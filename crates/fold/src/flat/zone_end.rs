//! Where a bend zone ends beside a seam.
//!
//! The metal of a zone runs straight from one tangent point to the other on the flat, but round an arc in space. Beside a
//! seam that straight edge may come to lie beyond the plane that parts the two sides of the seam, in the zone of the
//! neighbour: as at a rim turned outward, whose mitre leaves the walls' corner only late in the bend. There the zone is
//! cut back to what stays on its own side, by at most one more corner.
//!
//! Source: plane geometry. Where a plane parts the two sides of a seam, what stays on its own sides of the planes at the
//! parent's and at the child's seam meets nothing of the neighbour's.

use geometry::{Frame, Plane, Point, Point3, Vector3, tolerance};

use super::corner_cut::Stopping;
use super::jog;
use super::outline::FaceLayout;
use super::stop::{self, Against, Sides};
use crate::part::{self, FoldedPart, Forming, Mitre, Round, Seam};

/// Lines along a bend at which its ends are looked at, from one tangent line to the other.
const LINES: usize = 16;

/// The most that is taken off the end of a zone, in outside radii of its bend: an end that goes with the mitre of plates at 53°
/// and more loses no more than two, the gap and the neighbour's inside the third. What needs more is no corner of a round, and is
/// left for the proof to refuse.
const MOST_OF_ROUND: f64 = 3.0;

/// A plane that parts the two sides of a seam, as one side has it: its normal points off that side.
struct Parting {
    face: usize,
    edge: usize,
    plane: Plane,
    /// What it stops against or runs past: what that may hold of the room on this side of the plane; and the seam, where both
    /// sides are of this piece.
    against: Option<(Against, Option<usize>)>,
}

/// The planes that part the two sides of every seam, and the part from other pieces.
pub(super) struct Partings<'a> {
    part: &'a FoldedPart,
    frames: Vec<Frame>,
    partings: Vec<Parting>,
}

impl<'a> Partings<'a> {
    /// All of a part whose faces are laid out so.
    pub(super) fn of(part: &'a FoldedPart, layouts: &[FaceLayout]) -> Self {
        let frames = part.frames();
        let both = |(number, seam): (usize, &Seam)| {
            let sides = Sides::of(part, seam);
            let planes = planes(part, &frames, &sides)?;
            let stops = |side: usize| {
                let other = sides.edges[1 - side];
                let against = if sides.through? == side {
                    Against::past(part, &frames, layouts, [sides.edges[side], other], seam.gap_mm)?
                } else {
                    Against::of(part, &frames, layouts, other, seam.gap_mm)
                };
                Some((against, Some(number)))
            };
            let parting = |side: usize| {
                let (face, edge) = sides.edges[side];
                Parting { face, edge, plane: planes[side], against: stops(side) }
            };
            Some([0, 1].map(parting))
        };
        let beyond = |mitre: &Mitre| {
            let (face, edge) = mitre.edge;
            let plane = farthest(part, &frames, mitre.edge, frames[face].turned(mitre.normal))?;
            let against = Against::beyond(&mitre.beyond, mitre.gap_mm, &frames[face], part.thickness_mm());
            let against = against.map(|against| (against, None));
            Some(Parting { face, edge, plane, against })
        };
        let seams = part.seams.iter().enumerate().filter_map(both).flatten();
        let partings = seams.chain(part.mitres.iter().filter_map(beyond)).collect();
        Self { part, frames, partings }
    }

    /// None at all: everything is cut straight.
    pub(super) const fn none(part: &'a FoldedPart) -> Self {
        Self { part, frames: Vec::new(), partings: Vec::new() }
    }

    /// Cuts the corners of plates that stop against others, run past them or meet them with their tips clear of the bends of
    /// those. Gives the cuts at seams within the
    /// piece: seam, face and both ends in the face's coordinates.
    pub(super) fn cut_corners(&self, layouts: &mut [FaceLayout]) -> Vec<(usize, usize, [Point; 2])> {
        let mut cuts = Vec::new();
        for parting in &self.partings {
            let Parting { face, edge, against: Some((against, seam)), .. } = parting else { continue };
            let (part, frame) = (self.part, &self.frames[*face]);
            let stopping = Stopping { part, frame, face: *face, edge: *edge, against };
            let made = stopping.cut(&mut layouts[*face], against.most_mm());
            cuts.extend(made.into_iter().filter_map(|ends| Some(((*seam)?, *face, ends))));
        }
        for tip in &self.part.tips {
            let (part, face, frame) = (self.part, tip.face, &self.frames[tip.face]);
            let Some(against) = Against::beyond(&tip.beyond, tip.gap_mm, frame, part.thickness_mm()) else {
                continue;
            };
            let stopping = Stopping { part, frame, face, edge: 0, against: &against };
            stopping.cut_tip(&mut layouts[face], tip.at, against.most_mm());
        }
        cuts
    }

    /// The partings at a cut edge of a face, or at the piece that tabs and strips have left of one.
    fn at(&self, face: usize, edge: usize) -> impl Iterator<Item = &Parting> + '_ {
        let along = move |parting: &&Parting| {
            parting.edge == edge || part::on_line(&self.part.faces[face], parting.edge, edge)
        };
        self.partings.iter().filter(move |parting| parting.face == face).filter(along)
    }

    /// How far the zone of bend `number` may reach along it at every line, mm from the start of its parent's edge, counted toward
    /// the end that is asked for, where it is cut straight from `first` to `last`; `None` where nothing bounds it.
    pub(super) fn limits(&self, number: usize, at_end: bool, straight: [f64; 2]) -> Option<Vec<f64>> {
        let bend = &self.part.bends[number];
        if !matches!(bend.forming, Forming::Brake | Forming::Sprung) || self.partings.is_empty() {
            return None;
        }
        let count = self.part.faces[bend.parent].edges.len();
        let (beside_parent, beside_child) = if at_end {
            ((bend.parent_edge + 1) % count, self.part.faces[bend.child].edges.len() - 1)
        } else {
            ((bend.parent_edge + count - 1) % count, 1)
        };
        let own: Vec<&Parting> =
            self.at(bend.parent, beside_parent).chain(self.at(bend.child, beside_child)).collect();
        let frame = &self.frames[bend.parent];
        let (a, b) = self.part.faces[bend.parent].edge(bend.parent_edge);
        let along = (b - a).unit();
        let toward = frame.direct(if at_end { along } else { -along });
        let planes = own.iter().map(|parting| parting.plane);
        let planes: Vec<Plane> =
            planes.filter(|plane| plane.normal.dot(toward) > Round::LEAST_SQUARE).collect();
        let against: Vec<&Against> =
            own.iter().filter_map(|parting| Some(&parting.against.as_ref()?.0)).collect();
        if planes.is_empty() && against.is_empty() {
            return None;
        }
        let round = Round::of(self.part, number, frame);
        let most_mm = most_mm(self.part, number);
        let limit = |line: usize| {
            let places = round.places(bend.turn_rad * share(line));
            let plane = |plane: &Plane, place: Point3| -plane.distance(place) / plane.normal.dot(toward);
            let of_planes = planes.iter().flat_map(|p| places.map(|place| plane(p, place)));
            let cut = straight[0] + (straight[1] - straight[0]) * share(line);
            let range = [cut - most_mm, cut];
            let through = stop::THROUGH.map(|share| places[0].toward(places[1], share));
            let of_rounds = against
                .iter()
                .flat_map(|against| through.map(|place| against.clear_mm(place, toward, range)));
            of_planes.chain(of_rounds).fold(f64::INFINITY, f64::min)
        };
        let mut limits: Vec<f64> = (0..=LINES).map(limit).collect();
        for place in against.iter().flat_map(|against| against.end_places()) {
            let (at, angle_rad, radius_mm) = round.about(place);
            let [inside, outside] = round.radii_mm();
            let cut = if at_end { at } else { -at };
            let share = angle_rad / bend.turn_rad;
            let near = (straight[0].min(straight[1]) - most_mm..straight[0].max(straight[1])).contains(&cut);
            if near && inside < radius_mm && radius_mm < outside && 0.0 < share && share < 1.0 {
                let line = lines_beside(share);
                limits[line..=line + 1].iter_mut().for_each(|limit| *limit = limit.min(cut));
            }
        }
        Some(limits)
    }
}

/// The most that is taken off a zone beside a seam, mm.
pub(super) fn most_mm(part: &FoldedPart, number: usize) -> f64 {
    MOST_OF_ROUND * (part.bends[number].inside_radius_mm + part.thickness_mm())
}

/// The share of the way at which a line lies.
fn share(line: usize) -> f64 {
    let of = |count: usize| u32::try_from(count).map_or(0.0, f64::from);
    of(line) / of(LINES)
}

/// The planes that part the two sides of a seam.
fn planes(part: &FoldedPart, frames: &[Frame], sides: &Sides) -> Option<[Plane; 2]> {
    let out = |(face, edge): (usize, usize)| {
        let (a, b) = part.faces[face].edge(edge);
        frames[face].direct((b - a).unit().right())
    };
    let [first, second] = sides.edges.map(out);
    // Away from the plate that runs through, to the side that the other plate comes from.
    let off = |through: usize, other: Vector3| {
        let normal = frames[through].z;
        if normal.dot(other) < 0.0 { normal } else { -normal }
    };
    let normal = match sides.through {
        None => (first - second).unit(),
        Some(0) => off(sides.edges[0].0, second),
        Some(_) => -off(sides.edges[1].0, first),
    };
    let plane = |side: usize, normal: Vector3| farthest(part, frames, sides.edges[side], normal);
    Some([plane(0, normal)?, plane(1, -normal)?])
}

/// The plane square to `normal` through the place of an edge that lies farthest that way.
fn farthest(
    part: &FoldedPart,
    frames: &[Frame],
    (face, edge): (usize, usize),
    normal: Vector3,
) -> Option<Plane> {
    let (a, b) = part.faces[face].edge(edge);
    let places =
        [0.0, part.thickness_mm()].into_iter().flat_map(|z| [a, b].map(|p| frames[face].place(p, z)));
    let place = places.max_by(|p, q| (*p - *q).dot(normal).total_cmp(&0.0))?;
    Some(Plane::through(place, normal))
}

/// The line before a share of the way; the next one is behind it.
fn lines_beside(share: f64) -> usize {
    (1..LINES).rev().find(|&line| self::share(line) <= share).unwrap_or(0)
}

/// Where a zone ends, as distances along the bend: on the parent's and the child's tangent line, and at a corner between
/// them, after its share of the way.
pub(super) type ZoneEnd = ([f64; 2], Option<(f64, f64)>);

/// The end of a zone from `first` on the parent's tangent line to `last` on the child's, as distances along the bend: where
/// it leaves either line, and a corner between them, with its share of the way, where a straight cut would pass a limit.
///
/// `zone_mm` is the width of the zone. What would take more than `most_mm` off is left as it is: the measure of the refolded part then finds it.
pub(super) fn kept(
    [first, last]: [f64; 2],
    limits: &[f64],
    (most_mm, zone_mm): (f64, f64),
) -> Option<ZoneEnd> {
    let back = |at: f64, limit: f64| if at > limit + tolerance::REFOLD_MM { limit } else { at };
    let (start, end) = (back(first, limits[0]), back(last, limits[LINES]));
    let straight = |line: usize| start + (end - start) * share(line);
    let passes = (0..=LINES).any(|line| straight(line) > limits[line] + tolerance::REFOLD_MM);
    let corner = if passes { Some(widest([start, end], limits, zone_mm)?) } else { None };
    let lowest = corner.map_or(start.min(end), |(_, at)| at.min(start).min(end));
    (first.min(last) - lowest <= most_mm && first - start <= most_mm && last - end <= most_mm)
        .then_some(([start, end], corner))
}

/// The corner that leaves the most metal, with straight cuts to it from both ends that pass no limit; so far from either tangent
/// line of a zone of this width that a hand can cut there.
fn widest([start, end]: [f64; 2], limits: &[f64], zone_mm: f64) -> Option<(f64, f64)> {
    let corner = |line: usize| {
        let own = share(line);
        let reach = |from: f64, limit: f64, part: f64| from + (limit - from) / part;
        let near = (1..=line).map(|other| reach(start, limits[other], share(other) / own));
        let far = (line..LINES).map(|other| reach(end, limits[other], (1.0 - share(other)) / (1.0 - own)));
        (own, near.chain(far).fold(f64::INFINITY, f64::min))
    };
    let metal = |(own, at): (f64, f64)| at + start * own + end * (1.0 - own);
    let near = |line: usize| share(line).min(1.0 - share(line)) * zone_mm < jog::LEAST_MM;
    // Of a zone as narrow as that the middle line is farthest from both.
    let lines = (1..LINES).filter(|&line| !near(line) || 2 * line == LINES);
    lines.map(corner).max_by(|&a, &b| metal(a).total_cmp(&metal(b)))
}
