//! Where a piece meets others: what each piece must know of the next to be cut clear of it on its own flat.

use fold::part::{Edge, Mitre, Round, SeamSide, SeamStyle};
use geometry::{Frame, Point3, Vector3};

use super::{Shell, ShellError, ShellPiece};

/// Two edges that meet, and which of the two plates runs through; neither at an open corner.
struct Meeting {
    /// Plate and its edge on both sides.
    sides: [(usize, usize); 2],
    through: Option<usize>,
}

impl Shell {
    /// Every edge of a piece that meets another piece.
    ///
    /// # Errors
    /// [`ShellError`] when a plate of another piece that this one stops against cannot be built.
    pub(super) fn mitres(&self, piece: &ShellPiece) -> Result<Vec<Mitre>, ShellError> {
        let mut mitres = Vec::new();
        for meeting in self.meetings() {
            let ours = meeting.sides.map(|(plate, _)| piece.face_of(plate));
            let (side, face) = match ours {
                [Some(face), None] => (0, face),
                [None, Some(face)] => (1, face),
                _ => continue,
            };
            let Some(edge) = piece.edge_at(face, meeting.sides[side].1) else { continue };
            let frame = &piece.frames[face];
            let rounds = match meeting.through {
                Some(through) if through != side => self.rounds(meeting.sides[through], frame)?,
                _ => Vec::new(),
            };
            let off = self.parted(&meeting);
            let normal = within(frame, if side == 0 { off } else { -off });
            mitres.push(Mitre { edge: (face, edge), normal, rounds, gap_mm: self.making.gap_mm });
        }
        Ok(mitres)
    }

    /// Every weld, and every edge that stops against a plate without being welded to its edge.
    fn meetings(&self) -> Vec<Meeting> {
        let weld = |weld: super::weld::Weld| {
            let number = |side: SeamSide| usize::from(side == SeamSide::Second);
            let through = match self.style(&weld) {
                SeamStyle::Butt { through } => Some(number(through)),
                SeamStyle::TabAndSlot { tabs, .. } => Some(1 - number(tabs)),
                SeamStyle::Open | SeamStyle::Lap { .. } => None,
            };
            Meeting { sides: [weld.first, weld.second], through }
        };
        let stops = self.plates.iter().enumerate().flat_map(|(plate, sketch)| {
            let stop = move |&(edge, at): &(usize, (usize, usize))| Meeting {
                sides: [(plate, edge), at],
                through: Some(1),
            };
            sketch.stops.iter().map(stop)
        });
        self.welds().into_iter().map(weld).chain(stops).collect()
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

    /// The rounds of the bends beside an edge of a plate, in the coordinates of `frame`, with their turns.
    fn rounds(&self, (plate, edge): (usize, usize), frame: &Frame) -> Result<Vec<(Round, f64)>, ShellError> {
        let piece = self.plates_of(plate)?;
        let part = &piece.part;
        let Some((face, edge)) =
            piece.face_of(plate).and_then(|face| Some((face, piece.edge_at(face, edge)?)))
        else {
            return Ok(Vec::new());
        };
        let count = part.faces[face].edges.len();
        let beside = [edge + count - 1, edge + 1].map(|edge| part.faces[face].edges[edge % count]);
        let round = |edge: Edge| {
            let number = match edge {
                Edge::Free => None,
                Edge::Bend(number) => Some(number),
                Edge::Parent => part.bends.iter().position(|bend| bend.child == face),
            }?;
            let parent = &piece.frames[part.bends[number].parent];
            Some((Round::of(part, number, &seen_from(frame, parent)), part.bends[number].turn_rad))
        };
        Ok(beside.into_iter().filter_map(round).collect())
    }
}

/// A direction in the coordinates of `frame`.
fn within(frame: &Frame, direction: Vector3) -> Vector3 {
    Vector3::new(direction.dot(frame.x), direction.dot(frame.y), direction.dot(frame.z))
}

/// A place in space in the coordinates of `frame`.
fn seen_from(frame: &Frame, place: &Frame) -> Frame {
    let (at, z) = frame.local(place.origin);
    let [x, y, up] = [place.x, place.y, place.z].map(|direction| within(frame, direction));
    Frame { origin: Point3::new(at.x, at.y, z), x, y, z: up }
}
