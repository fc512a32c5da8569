//! Where one plate stops against another: what the bends of that other hold of the room on the near side of it.
//!
//! The metal of a plate turns away from its inside face round its bends, to the side that the plate comes from which stops
//! against it. Beside such a bend the plate that stops, its own bends and its corners must stay clear of the inside radius. A
//! plate that runs through past another's outside must stay clear of what is bent off that to the outside.
//!
//! Source: plane geometry; where a straight way meets the metal of a bend is found by trying places on it.

use geometry::{Frame, Plane, Point, Point3, Vector3, polygon, tolerance};

use super::outline::FaceLayout;
use crate::part::{self, Bend, Beyond, Direction, Edge, FoldedPart, Round, Seam, SeamSide, SeamStyle};

/// Places tried on a way through the metal of a bend.
const PLACES: u32 = 12;
/// Places looked at on the end of a zone, from one tangent line to the other.
const END_PLACES: u32 = 48;

/// The most that is cut off a corner, in outside radii of the bend that it stands in: the whole width of a round.
const MOST_OF_ROUND: f64 = 2.0;

/// The most that is cut off a corner clear of a plate, in thicknesses: the tip of a plate that runs through a corner of 150°
/// stands out past it by two, and over a flange that turns by 20° three along its edge; over one that turns by 4°, on a lid
/// that is nearly flat, fourteen.
const MOST_OF_PLATE: f64 = 24.0;

/// Longer than any part, mm: a kilometre.
const ENDLESS_MM: f64 = 1e6;

/// Places looked at through the thickness, as shares of it: a corner of the other's bend may come in between both sides.
pub(super) const THROUGH: [f64; 5] = [0.0, 0.25, 0.5, 0.75, 1.0];

/// The two plates of a seam. At a lap these are the plate that carries the strip and the one that the strip lies along.
pub(super) struct Sides {
    /// Face and cut edge of both.
    pub(super) edges: [(usize, usize); 2],
    /// Which of the two runs through; neither at an open corner.
    pub(super) through: Option<usize>,
}

impl Sides {
    /// Of a seam as it stands in the finished part.
    pub(super) fn of(part: &FoldedPart, seam: &Seam) -> Self {
        let side = |side: SeamSide| usize::from(side == SeamSide::Second);
        let mut edges = [seam.first, seam.second];
        let through = match seam.style {
            SeamStyle::Open => None,
            SeamStyle::Butt { through } => Some(side(through)),
            SeamStyle::TabAndSlot { tabs, .. } => Some(1 - side(tabs)),
            SeamStyle::Lap { carrier, outside, .. } => {
                // The seam is between the strip and the plate once the strip is there.
                let strip = |bend: &Bend| strip_edge(part, seam, bend, edges[side(carrier)].0);
                if let Some(edge) = part.bends.iter().find_map(strip) {
                    edges[side(carrier)] = edge;
                }
                Some(if outside { side(carrier) } else { 1 - side(carrier) })
            }
        };
        Self { edges, through }
    }
}

/// The face and the edge that carries a lap strip, for the strip's bend: it turns by what the plates stand from one plane, and the
/// edge runs on to both sides of it, or of the steps by which its mold line stands out.
fn strip_edge(part: &FoldedPart, seam: &Seam, bend: &Bend, face: usize) -> Option<(usize, usize)> {
    let turn_rad = std::f64::consts::PI - seam.inside_angle_rad;
    if bend.child != face || tolerance::PARALLEL_SINE < (bend.turn_rad - turn_rad).abs() {
        return None;
    }
    let carrier = &part.faces[bend.parent];
    let count = carrier.edges.len();
    let beside = |steps: usize| [count - steps, steps].map(|step| (bend.parent_edge + step) % count);
    if beside(1).into_iter().all(|edge| part::on_line(carrier, bend.parent_edge, edge)) {
        return Some((bend.parent, bend.parent_edge));
    }
    let [before, after] = beside(2);
    let way = |edge: usize| {
        let (a, b) = carrier.edge(edge);
        (b - a).unit()
    };
    let parallel = way(before).cross(way(bend.parent_edge)).abs() <= tolerance::PARALLEL_SINE;
    (parallel && part::on_line(carrier, before, after)).then_some((bend.parent, before))
}

/// A bend that is kept clear of: of the plate that runs through, or bent off one that is run past.
struct Held {
    round: Round,
    turn_rad: f64,
    /// Where its zone begins and ends along it, on the parent's and on the child's tangent line, mm from the start of the
    /// parent's edge.
    ends: [[f64; 2]; 2],
    /// The plane that it lies behind, of a bend of another piece.
    behind: Option<Plane>,
}

/// Metal beside a seam that the edge of a plate keeps clear of: the bends of the plate that it stops against, or what is bent
/// off the plate that it runs past.
pub(super) struct Against {
    held: Vec<Held>,
    /// Plates, each behind all of its planes.
    plates: Vec<Vec<Plane>>,
    gap_mm: f64,
    thickness_mm: f64,
}

impl Against {
    /// Of the plate with the edge `edge` of `face`.
    pub(super) fn of(
        part: &FoldedPart,
        frames: &[Frame],
        layouts: &[FaceLayout],
        (face, edge): (usize, usize),
        gap_mm: f64,
    ) -> Self {
        let ends_there = |&(other, _): &(usize, &Edge)| {
            let touches = part::touches_line(&part.faces[face], edge, other);
            other != edge && touches && !part::on_line(&part.faces[face], edge, other)
        };
        let edges = part.faces[face].edges.iter().enumerate().filter(ends_there);
        let bends = edges.filter_map(|(edge, _)| part.bend_of(face, edge));
        let held = bends.map(|number| Held::of(part, frames, layouts, number)).collect();
        Self { held, plates: Vec::new(), gap_mm, thickness_mm: part.thickness_mm() }
    }

    /// Of what is bent off the plate with the edge `other` to its outside, beside which the plate `own` runs on through the corner;
    /// `None` where nothing is.
    pub(super) fn past(
        part: &FoldedPart,
        frames: &[Frame],
        layouts: &[FaceLayout],
        [own, other]: [(usize, usize); 2],
        gap_mm: f64,
    ) -> Option<Self> {
        let (face, edge) = other;
        let middle = frames[own.0].place(polygon::centroid(&part.faces[own.0].corners), 0.0);
        let outside =
            if frames[face].plane(0.0).distance(middle) > 0.0 { Direction::Down } else { Direction::Up };
        let beside = |&edge_there: &usize| {
            let touches = part::touches_line(&part.faces[face], edge, edge_there);
            touches && !part::on_line(&part.faces[face], edge, edge_there)
        };
        let edges = (0..part.faces[face].edges.len()).filter(beside);
        let bends = edges.filter_map(|edge_there| Some((edge_there, part.bend_of(face, edge_there)?)));
        let bends: Vec<(usize, usize)> =
            bends.filter(|&(_, number)| part.bends[number].direction == outside).collect();
        let held = bends.iter().map(|&(_, number)| Held::of(part, frames, layouts, number)).collect();
        let plate = |&(edge_there, number): &(usize, usize)| {
            plate_past(part, frames, (face, edge), (edge_there, number), gap_mm)
        };
        let plates = bends.iter().map(plate).collect();
        (!bends.is_empty()).then_some(Self { held, plates, gap_mm, thickness_mm: part.thickness_mm() })
    }

    /// Of another piece; `None` where nothing of it is in the way. Where a bend of it ends is its own affair: it is kept clear
    /// of as if it ran on, but for the plane that it is known to lie behind.
    pub(super) fn beyond(beyond: &[Beyond], gap_mm: f64, frame: &Frame, thickness_mm: f64) -> Option<Self> {
        let ends = [[-ENDLESS_MM; 2], [ENDLESS_MM; 2]];
        let (mut held, mut plates) = (Vec::new(), Vec::new());
        for beyond in beyond {
            match beyond {
                Beyond::Round { round, turn_rad, behind } => {
                    let behind = behind.map(|plane| plane.placed(frame));
                    held.push(Held { round: round.placed(frame), turn_rad: *turn_rad, ends, behind });
                }
                Beyond::Plate { behind } => {
                    plates.push(behind.iter().map(|plane| plane.placed(frame)).collect());
                }
            }
        }
        let nothing = held.is_empty() && plates.is_empty();
        (!nothing).then_some(Self { held, plates, gap_mm, thickness_mm })
    }

    /// The most that is taken off a corner for them, mm.
    pub(super) fn most_mm(&self) -> f64 {
        let of_plate = if self.plates.is_empty() { 0.0 } else { MOST_OF_PLATE * self.thickness_mm };
        self.held.iter().map(|held| MOST_OF_ROUND * held.round.radii_mm()[1]).fold(of_plate, f64::max)
    }

    /// Corners that plates make on one side of the metal at the seam, where two of their planes meet it.
    pub(super) fn corners_on(&self, side: Plane) -> Vec<Point3> {
        let mut corners = Vec::new();
        for planes in &self.plates {
            for (number, first) in planes.iter().enumerate() {
                let meetings = planes[number + 1..].iter().filter_map(|&second| side.meeting(*first, second));
                let of_it =
                    |at: &Point3| planes.iter().all(|plane| plane.distance(*at) <= tolerance::SAME_POINT_MM);
                corners.extend(meetings.filter(of_it));
            }
        }
        corners
    }

    /// Places on the ends of the bends' zones, through the thickness and round the turn: sharp edges that may come in where
    /// nothing else does.
    pub(super) fn end_places(&self) -> impl Iterator<Item = Point3> + '_ {
        // What runs on without end has no end here.
        self.held.iter().filter(|held| held.ends[1][0] < ENDLESS_MM).flat_map(|held| {
            (0..=END_PLACES).flat_map(move |number| {
                let share = f64::from(number) / f64::from(END_PLACES);
                held.ends_at(share).into_iter().flat_map(move |along_mm| {
                    let [inside, outside] = held.round.radii_mm();
                    THROUGH.map(|through| {
                        let radius_mm = inside + (outside - inside) * through;
                        held.round.place(along_mm, share * held.turn_rad, radius_mm)
                    })
                })
            })
        })
    }

    /// How far a place may go toward the bends and plates kept clear of, mm, looked at from one distance to another; infinite where nothing is met, and
    /// below zero without end where it lies in the metal from the start.
    pub(super) fn clear_mm(&self, place: Point3, toward: Vector3, range: [f64; 2]) -> f64 {
        let of_bends = self.held.iter().map(|held| held.clear_mm(place, toward, range, self.gap_mm));
        let of_plates = self.plates.iter().map(|planes| enters_mm(planes, place, toward, range));
        of_bends.chain(of_plates).fold(f64::INFINITY, f64::min)
    }
}

impl Held {
    fn of(part: &FoldedPart, frames: &[Frame], layouts: &[FaceLayout], number: usize) -> Self {
        let bend = &part.bends[number];
        let (a, b) = part.faces[bend.parent].edge(bend.parent_edge);
        let along = (b - a).unit();
        let parent = layouts[bend.parent].edge(bend.parent_edge).map(|p| (p - a).dot(along));
        // A child's x runs back along the parent's edge from its end.
        let length_mm = a.distance(b);
        let child = layouts[bend.child].edge(0).map(|p| length_mm - p.x);
        Self {
            round: Round::of(part, number, &frames[bend.parent]),
            turn_rad: bend.turn_rad,
            ends: [[parent[0], child[1]], [parent[1], child[0]]],
            behind: None,
        }
    }

    /// Where the zone begins and ends after a share of the turn, mm.
    fn ends_at(&self, share: f64) -> [f64; 2] {
        self.ends.map(|[parent, child]| parent + (child - parent) * share)
    }

    /// As [`Against::clear_mm`], of this bend alone: only where the way runs between its inside and its outside radius is it
    /// looked at closely.
    fn clear_mm(&self, place: Point3, toward: Vector3, [low, high]: [f64; 2], gap_mm: f64) -> f64 {
        let [inside, outside] = self.round.radii_mm();
        let Some([enters, leaves]) = self.round.crossings(place, toward, outside + gap_mm) else {
            return f64::INFINITY;
        };
        let hollow = self.round.crossings(place, toward, (inside - gap_mm).max(0.0));
        let stretches =
            hollow.map_or([[enters, leaves], [leaves, leaves]], |[from, to]| [[enters, from], [to, leaves]]);
        let meets = |mm: f64| self.holds(place + toward * mm, gap_mm);
        for [from, to] in stretches.map(|[from, to]| [from.max(low), to.min(high)]) {
            let at = |number: u32| from + (to - from) * f64::from(number) / f64::from(PLACES);
            let Some(first) = (0..=PLACES).filter(|_| from < to).find(|&number| meets(at(number))) else {
                continue;
            };
            let (mut free, mut held) = (at(first.saturating_sub(1)), at(first));
            if first == 0 {
                return if from <= low { f64::NEG_INFINITY } else { from };
            }
            while held - free > 0.1 * tolerance::REFOLD_MM {
                let middle = 0.5 * (free + held);
                if meets(middle) { held = middle } else { free = middle }
            }
            return free;
        }
        f64::INFINITY
    }

    /// Whether a place lies in its metal, or nearer to that than the gap.
    fn holds(&self, place: Point3, gap_mm: f64) -> bool {
        if self.behind.is_some_and(|plane| 0.0 < plane.distance(place)) {
            return false;
        }
        let (at, angle_rad, radius_mm) = self.round.about(place);
        let [inside, outside] = self.round.radii_mm();
        // What lies on either radius counts: a way enters the metal there.
        let skin_mm = gap_mm + tolerance::SAME_POINT_MM;
        if radius_mm < inside - skin_mm || outside + skin_mm < radius_mm {
            return false;
        }
        let angle_rad = if angle_rad < 0.5 * self.turn_rad - std::f64::consts::PI {
            angle_rad + std::f64::consts::TAU
        } else {
            angle_rad
        };
        // What lies on a tangent line only touches; rounding must not tell one hand from the other there.
        let touch = tolerance::PARALLEL_SINE;
        if angle_rad <= touch || self.turn_rad - touch <= angle_rad {
            return false;
        }
        let [start, end] = self.ends_at(angle_rad / self.turn_rad);
        start - gap_mm < at && at < end + gap_mm
    }
}

/// The room that the plate takes which is bent off the edge `bent` of a face by a bend, beside another edge of that face, with the gap:
/// behind the side of it that the bend turns to, on its own side of where the two plates meet, and up to where it ends.
fn plate_past(
    part: &FoldedPart,
    frames: &[Frame],
    (face, edge): (usize, usize),
    (bent, number): (usize, usize),
    gap_mm: f64,
) -> Vec<Plane> {
    let bend = &part.bends[number];
    let is_parent = bend.parent == face;
    let other = if is_parent { bend.child } else { bend.parent };
    let (own, its) = (&frames[face], &frames[other]);
    let side = match bend.direction {
        Direction::Up => its.plane(part.thickness_mm()),
        Direction::Down => Plane::through(its.origin, -its.z),
    };
    let (a, b) = part.faces[face].edge(bent);
    let mold_z = match bend.direction {
        Direction::Up => 0.0,
        Direction::Down => part.thickness_mm(),
    };
    let its_edge = if is_parent { 0 } else { bend.parent_edge };
    let inward = |face: usize, edge: usize| {
        let (a, b) = part.faces[face].edge(edge);
        frames[face].direct((b - a).unit().left())
    };
    let meet = Plane::through(own.place(a, mold_z), inward(face, bent) - inward(other, its_edge));
    let mut planes = vec![side, meet];
    // Its own end there: its edges follow one another the other way round.
    let (from, to) = part.faces[face].edge(edge);
    let off = |p: Point| (p - from).cross((to - from).unit()).abs();
    let count = part.faces[other].edges.len();
    let end = if off(a) < off(b) { (its_edge + 1) % count } else { (its_edge + count - 1) % count };
    if part.faces[other].edges[end] == Edge::Free {
        let (c, d) = part.faces[other].edge(end);
        planes.push(Plane::through(its.place(c, 0.0), its.direct((d - c).unit().right())));
    }
    planes.into_iter().map(|plane| plane.moved(gap_mm)).collect()
}

/// As [`Against::clear_mm`], of the room behind all of these planes.
fn enters_mm(planes: &[Plane], place: Point3, toward: Vector3, [low, high]: [f64; 2]) -> f64 {
    let (mut enters, mut leaves) = (low, high);
    for plane in planes {
        let (off, rate) = (plane.distance(place) + tolerance::SAME_POINT_MM, plane.normal.dot(toward));
        if rate.abs() <= tolerance::PARALLEL_SINE {
            if 0.0 < off {
                return f64::INFINITY;
            }
        } else if rate < 0.0 {
            enters = enters.max(-off / rate);
        } else {
            leaves = leaves.min(-off / rate);
        }
    }
    if leaves <= enters {
        f64::INFINITY
    } else if enters <= low {
        f64::NEG_INFINITY
    } else {
        enters
    }
}
