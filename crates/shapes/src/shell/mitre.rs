//! Where a piece meets others: what each piece must know of the next to be cut clear of it on its own flat.

use fold::part::{Bend, Beyond, Mitre, Round, SeamSide, SeamStyle, Side, Tip};
use geometry::{Frame, Plane, Point3, Vector3, tolerance};

use super::weld::Weld;
use super::{Joint, Shell, ShellError, ShellPiece, ShellPlate};

/// Two edges that meet, and which of the two plates runs through; neither at an open corner.
struct Meeting {
    /// Plate and its edge on both sides.
    sides: [(usize, usize); 2],
    through: Option<usize>,
    /// The gap between the two, mm.
    gap_mm: f64,
}

/// The pieces that one meets, each built once.
struct Neighbours<'a> {
    shell: &'a Shell,
    pieces: Vec<ShellPiece>,
}

impl Neighbours<'_> {
    /// The piece that `plate` belongs to.
    fn piece_of(&mut self, plate: usize) -> Result<&ShellPiece, ShellError> {
        let known = self.pieces.iter().position(|piece| piece.plates.contains(&plate));
        let number = if let Some(number) = known {
            number
        } else {
            self.pieces.push(self.shell.plates_of(plate)?);
            self.pieces.len() - 1
        };
        Ok(&self.pieces[number])
    }
}

impl Shell {
    /// Every edge of a piece that meets another piece, and every tip that comes to lie beside one.
    ///
    /// # Errors
    /// [`ShellError`] when another piece that this one must be cut clear of cannot be built.
    pub(super) fn mitres(&self, piece: &ShellPiece) -> Result<(Vec<Mitre>, Vec<Tip>), ShellError> {
        let mut neighbours = Neighbours { shell: self, pieces: Vec::new() };
        let mut mitres = Vec::new();
        let welds = self.welds();
        for meeting in self.meetings(&welds) {
            let ours = meeting.sides.map(|(plate, _)| piece.face_of(plate));
            let (side, face) = match ours {
                [Some(face), None] => (0, face),
                [None, Some(face)] => (1, face),
                _ => continue,
            };
            let Some(edge) = piece.edge_at(face, meeting.sides[side].1) else { continue };
            let frame = &piece.frames[face];
            let other = meeting.sides[1 - side];
            let beyond = match meeting.through {
                None => Vec::new(),
                // A neighbour that cannot be built is refused for that, under its own mark.
                Some(through) if through == side => neighbours.piece_of(other.0).map_or_else(
                    |_| Vec::new(),
                    |neighbour| self.past([meeting.sides[side], other], &welds, frame, neighbour),
                ),
                Some(_) => rounds_beside(neighbours.piece_of(other.0)?, other, frame),
            };
            let off = self.parted(&meeting);
            let normal = frame.within(if side == 0 { off } else { -off });
            mitres.push(Mitre { edge: (face, edge), normal, beyond, gap_mm: meeting.gap_mm });
        }
        let tips = self.tips(piece, &mut neighbours);
        Ok((mitres, tips))
    }

    /// Every corner of a piece at which a piece has a corner too that none of its own edges there meets.
    fn tips(&self, piece: &ShellPiece, neighbours: &mut Neighbours<'_>) -> Vec<Tip> {
        let mut tips = Vec::new();
        for (face, &plate) in piece.plates.iter().enumerate() {
            let count = self.plates[plate].corners.len();
            for (corner, &at) in self.plates[plate].corners.iter().enumerate() {
                let edges = [(corner + count - 1) % count, corner];
                let welds = edges.into_iter().filter_map(|edge| self.joint(plate, edge));
                let welded: Vec<usize> = welds.filter(|joint| !joint.bent).map(|joint| joint.other).collect();
                let stopped: Vec<usize> =
                    edges.into_iter().flat_map(|edge| self.stopped_at(plate, edge)).collect();
                let mut beyond = Vec::new();
                for other in self.others_at(piece, at) {
                    let Ok(next) = neighbours.piece_of(other.0) else { continue };
                    let has = |plates: &[usize]| plates.iter().any(|plate| next.plates.contains(plate));
                    let frame = &piece.frames[face];
                    if stopped.contains(&other.0) {
                        beyond.extend(self.bends_about(next, other, frame));
                    } else if !has(&welded) && !has(&stopped) {
                        beyond.extend(self.about(next, other, frame));
                    }
                }
                if !beyond.is_empty() {
                    let at = piece.built_edge(face, corner)[0];
                    tips.push(Tip { face, at, beyond, gap_mm: self.making.gap_mm });
                }
            }
        }
        tips
    }

    /// Plates that stop against an edge of a plate, or that the edge stops against.
    fn stopped_at(&self, plate: usize, edge: usize) -> Vec<usize> {
        let stops = self.plates.iter().enumerate().flat_map(|(number, sketch)| {
            sketch.stops.iter().map(move |&(own, other)| [(number, own), other])
        });
        let other = |[first, second]: [(usize, usize); 2]| match (plate, edge) {
            own if own == first => Some(second.0),
            own if own == second => Some(first.0),
            _ => None,
        };
        stops.filter_map(other).collect()
    }

    /// The plates of other pieces that have a corner at a place, and which.
    fn others_at(&self, piece: &ShellPiece, place: Point3) -> Vec<(usize, usize)> {
        let near = |at: &Point3| at.distance(place) <= tolerance::SAME_POINT_MM;
        let corner = |(plate, sketch): (usize, &ShellPlate)| {
            let beyond = piece.face_of(plate).is_none();
            Some((plate, sketch.corners.iter().position(near).filter(|_| beyond)?))
        };
        self.plates.iter().enumerate().filter_map(corner).collect()
    }

    /// The metal about a corner of a plate: the plate, between its two sides and the cuts or mold lines at its two edges there,
    /// with the gap added; and the bend at the second of them.
    fn about(&self, piece: &ShellPiece, (plate, corner): (usize, usize), frame: &Frame) -> Vec<Beyond> {
        let Some(face) = piece.face_of(plate) else { return Vec::new() };
        let own = &piece.frames[face];
        let count = self.plates[plate].corners.len();
        let edge = |edge: usize| {
            let [a, b] = piece.built_edge(face, edge);
            Plane::through(own.place(a, 0.0), own.direct((b - a).right()))
        };
        let back = Plane::through(own.origin, -own.z);
        let planes = [own.plane(self.thickness_mm()), back, edge((corner + count - 1) % count), edge(corner)];
        let behind = planes.map(|plane| plane.moved(self.making.gap_mm).within(frame)).to_vec();
        let bend = self.bend_about(piece, (plate, corner), (corner, false), frame);
        std::iter::once(Beyond::Plate { behind }).chain(bend).collect()
    }

    /// The bends at both edges of a corner of a plate, but for those to flanges that stop short of it.
    fn bends_about(&self, piece: &ShellPiece, (plate, corner): (usize, usize), frame: &Frame) -> Vec<Beyond> {
        let count = self.plates[plate].corners.len();
        let edges = [(corner, false), ((corner + count - 1) % count, true)];
        let bend = |edge| self.bend_about(piece, (plate, corner), edge, frame);
        edges.into_iter().filter_map(bend).collect()
    }

    /// The bend at an edge of a plate that starts, or ends, at a corner; it ends there.
    fn bend_about(
        &self,
        piece: &ShellPiece,
        (plate, corner): (usize, usize),
        (edge, ends): (usize, bool),
        frame: &Frame,
    ) -> Option<Beyond> {
        let reaches = |joint: &Joint| joint.bent && self.plates[joint.other].short_mm == [0.0, 0.0];
        let joint = self.joint(plate, edge).filter(reaches)?;
        let (round, turn_rad) = round_between(piece, [plate, joint.other], frame)?;
        let at = self.plates[plate].corners[corner];
        let (start, end) = self.plates[plate].edge(edge);
        let off = if ends { end - start } else { start - end };
        // Its end stands off the corner by no more than what is cut square there.
        let end = Plane::through(at, off).moved(self.thickness_mm() + self.making.gap_mm);
        Some(Beyond::Round { round, turn_rad, behind: Some(end.within(frame)) })
    }

    /// Every weld, and every edge that stops against a plate without being welded to its edge.
    fn meetings(&self, welds: &[Weld]) -> Vec<Meeting> {
        let stops = self.plates.iter().enumerate().flat_map(|(plate, sketch)| {
            let stop = move |&(edge, at): &(usize, (usize, usize))| Meeting {
                sides: [(plate, edge), at],
                through: Some(1),
                gap_mm: self.making.gap_mm,
            };
            sketch.stops.iter().map(stop)
        });
        let welds = welds.iter().map(|weld| {
            let through = through(self.style(weld));
            Meeting { sides: [weld.first, weld.second], through, gap_mm: self.weld_gap_mm(weld) }
        });
        welds.chain(stops).collect()
    }

    /// The unit normal, off the first side, of the plane that parts the two plates: their mitre, or the face of the plate
    /// that runs through.
    fn parted(&self, meeting: &Meeting) -> Vector3 {
        let [first, second] = meeting.sides.map(|(plate, edge)| {
            let (a, b) = self.plates[plate].edge(edge);
            (b - a).unit().cross(self.plates[plate].normal())
        });
        // Off the plate that runs through, to the side that the other plate comes from.
        let off = |through: usize, other: Vector3| {
            let normal = self.plates[meeting.sides[through].0].normal();
            if normal.dot(other) < 0.0 { normal } else { -normal }
        };
        match meeting.through {
            None => (first - second).unit(),
            Some(0) => off(0, second),
            Some(_) => -off(1, first),
        }
    }

    /// What is bent off plate `other` that plate `own` runs through past, about both corners that they share and in the
    /// coordinates of `frame`: bends and plates, as far as they lie beyond where they part from what is bent off `own`.
    fn past(
        &self,
        [own, other]: [(usize, usize); 2],
        welds: &[Weld],
        frame: &Frame,
        neighbour: &ShellPiece,
    ) -> Vec<Beyond> {
        let Some(corner) = self.joint(own.0, own.1) else { return Vec::new() };
        let (start, end) = self.plates[own.0].edge(own.1);
        let middle = start.toward(end, 0.5);
        let mut beyond = Vec::new();
        for (at, after) in [(start, false), (end, true)] {
            // The other plate's edge runs the other way.
            let (mine, its) = (self.fan(own, after), self.fan(other, !after));
            let last = |first: usize, fan: &[Joint]| fan.last().map_or(first, |joint| joint.other);
            let Some(parting) = self.parting(welds, [last(own.0, &mine), last(other.0, &its)], at) else {
                continue;
            };
            let half = Plane::through(middle, middle - at);
            let mut before = other.0;
            for joint in its {
                // What is as near as the gap to it on this side counts too.
                let bisecting = self.bisecting(before, &joint, at).moved(self.making.gap_mm);
                let planes =
                    [self.surface(joint.other, corner.direction.outside()), parting, bisecting, half];
                let behind = planes.iter().map(|plane| plane.within(frame)).collect();
                beyond.push(Beyond::Plate { behind });
                if let Some((round, turn_rad)) = round_between(neighbour, [before, joint.other], frame) {
                    let behind = Some(parting.within(frame));
                    beyond.push(Beyond::Round { round, turn_rad, behind });
                }
                before = joint.other;
            }
        }
        beyond
    }

    /// The plates that are bent off one another about the corner at one end of an edge of a plate, as they follow.
    fn fan(&self, (plate, edge): (usize, usize), after: bool) -> Vec<Joint> {
        let beside = |plate: usize, edge: usize| {
            let count = self.plates[plate].corners.len();
            if after { (edge + 1) % count } else { (edge + count - 1) % count }
        };
        let next = |joint: Joint| self.joint(joint.other, beside(joint.other, joint.other_edge));
        let bent = |joint: &Joint| joint.bent && self.plates[joint.other].short_mm == [0.0, 0.0];
        let first = self.joint(plate, beside(plate, edge)).filter(bent);
        std::iter::successors(first, |joint| next(*joint).filter(bent)).take(self.plates.len()).collect()
    }

    /// A side of a plate with the gap added, its normal off the metal.
    fn surface(&self, plate: usize, side: Side) -> Plane {
        let Plane { normal, offset_mm } = self.plane(plate, side);
        let off = match side {
            Side::Face => 1.0,
            Side::Back => -1.0,
        };
        Plane { normal: normal * off, offset_mm: offset_mm * off }.moved(self.making.gap_mm)
    }

    /// The plane that halves the angle between the plates before and behind a joint, its normal to the one before.
    fn bisecting(&self, before: usize, joint: &Joint, at: Point3) -> Plane {
        let (a, b) = self.plates[joint.other].edge(joint.other_edge);
        let along = (b - a).unit();
        let [own, its] = [before, joint.other].map(|plate| self.plates[plate].normal().cross(along));
        Plane::through(at, -own - its)
    }

    /// The plane that all of plate `other` with its gap lies behind, as seen from the metal of plate `own` that meets it at
    /// `at`, without a bend; its normal points to `own`.
    fn parting(&self, welds: &[Weld], [own, other]: [usize; 2], at: Point3) -> Option<Plane> {
        let met = |weld: &Weld| [weld.first.0, weld.second.0];
        let weld = welds.iter().find(|weld| met(weld) == [own, other] || met(weld) == [other, own])?;
        let (through, sides) = (through(self.style(weld)), [weld.first, weld.second]);
        let gap_mm = self.weld_gap_mm(weld);
        let meeting = Meeting { sides, through, gap_mm };
        let off = self.parted(&meeting);
        let normal = if met(weld) == [own, other] { -off } else { off };
        // How far the side of a plate that is nearest to `own`, or farthest from it, stands off the corner.
        let sides_mm = |plate: usize| {
            [Side::Back, Side::Face].map(|side| {
                let plane = self.plane(plate, side);
                -plane.distance(at) * plane.normal.dot(normal)
            })
        };
        let plane = Plane::through(at, normal);
        Some(match through.map(|side| sides[side].0) {
            None => plane.moved(0.5 * gap_mm),
            Some(plate) if plate == own => {
                plane.moved(sides_mm(own).into_iter().fold(f64::INFINITY, f64::min))
            }
            Some(plate) => {
                plane.moved(sides_mm(plate).into_iter().fold(f64::NEG_INFINITY, f64::max) + gap_mm)
            }
        })
    }
}

/// The side of a weld that runs through; neither at an open corner. At a lap it is the plate that the strip lies inside of, or the one
/// that carries it outside.
fn through(style: SeamStyle) -> Option<usize> {
    let number = |side: SeamSide| usize::from(side == SeamSide::Second);
    match style {
        SeamStyle::Butt { through } => Some(number(through)),
        SeamStyle::TabAndSlot { tabs, .. } => Some(1 - number(tabs)),
        SeamStyle::Lap { carrier, outside: true, .. } => Some(number(carrier)),
        SeamStyle::Lap { carrier, outside: false, .. } => Some(1 - number(carrier)),
        SeamStyle::Open => None,
    }
}

/// The rounds of the bends before and after an edge of a plate of a piece, in the coordinates of `frame`.
fn rounds_beside(piece: &ShellPiece, (plate, edge): (usize, usize), frame: &Frame) -> Vec<Beyond> {
    let part = &piece.part;
    let Some((face, edge)) = piece.face_of(plate).and_then(|face| Some((face, piece.edge_at(face, edge)?)))
    else {
        return Vec::new();
    };
    let count = part.faces[face].edges.len();
    let beside = [edge + count - 1, edge + 1].map(|edge| edge % count);
    let bends = beside.into_iter().filter_map(|edge| part.bend_of(face, edge));
    let round = |number| {
        let (round, turn_rad) = round(piece, number, frame);
        Beyond::Round { round, turn_rad, behind: None }
    };
    bends.map(round).collect()
}

/// The round of the bend between two plates of a piece, in the coordinates of `frame`, with its turn.
fn round_between(piece: &ShellPiece, plates: [usize; 2], frame: &Frame) -> Option<(Round, f64)> {
    let [first, second] = [piece.face_of(plates[0])?, piece.face_of(plates[1])?];
    let is_it = |bend: &Bend| [[first, second], [second, first]].contains(&[bend.parent, bend.child]);
    Some(round(piece, piece.part.bends.iter().position(is_it)?, frame))
}

fn round(piece: &ShellPiece, number: usize, frame: &Frame) -> (Round, f64) {
    let bend = &piece.part.bends[number];
    let parent = frame.seen(&piece.frames[bend.parent]);
    (Round::of(&piece.part, number, &parent), bend.turn_rad)
}
