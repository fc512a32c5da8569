//! One piece of a shell: a plate and everything bent off it, as a folded part.

use fold::part::{Bend, Edge, Face, FoldedPart, Forming, LegsTo, Seam, child_frame};
use fold::refold::JointEnd;
use geometry::{Contour, Frame, Point, Vector, polygon, tolerance};

use super::{Joint, Shell, ShellError};
use crate::ring::lap;
use crate::ring::line::Line;

/// A built piece.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct ShellPiece {
    /// The folded part, with seams and sizes.
    pub(crate) part: FoldedPart,
    /// The plate that each face is.
    pub(crate) plates: Vec<usize>,
    /// Where each face lies.
    pub(crate) frames: Vec<Frame>,
    /// For each face, where every edge of its plate came to start and end, in the face's coordinates and the plate's order.
    built: Vec<Vec<[Point; 2]>>,
    /// Lap strips along plates of other pieces: plate and its edge that carries one, and the strip's face.
    pub(super) strips: Vec<((usize, usize), usize)>,
}

/// A face in the making: its plate, where it lies, and the plate's edge that its edge 0 is.
struct Placed {
    plate: usize,
    frame: Frame,
    first_edge: usize,
    /// Length of the parent's bent edge, mm; `None` for the root.
    bent_off_mm: Option<f64>,
}

impl Shell {
    /// The piece that plate `root` belongs to, with `root` as its root.
    ///
    /// # Errors
    /// [`ShellError`] when plates are warped, make no bend, or come out without area.
    pub(crate) fn piece(&self, root: usize) -> Result<ShellPiece, ShellError> {
        let mut piece = self.plates_of(root)?;
        piece.part.seams = self.seams(&piece);
        (piece.part.mitres, piece.part.tips) = self.mitres(&piece)?;
        piece.part.sizes = self.sizes(&piece);
        piece.make_corners()?;
        self.join(&mut piece)?;
        Ok(piece)
    }

    /// Where the root faces of the pieces of these plates lie.
    pub(crate) fn roots(&self, plates: impl Iterator<Item = usize>) -> Vec<Frame> {
        plates.map(|plate| self.root_frame(plate)).collect()
    }

    /// The plates of that piece, bent, and nothing else.
    pub(super) fn plates_of(&self, root: usize) -> Result<ShellPiece, ShellError> {
        let mut piece = ShellPiece {
            part: FoldedPart::unbent(
                self.number.clone(),
                Vec::new(),
                self.making.relief,
                self.making.notch_width_mm,
            ),
            plates: Vec::new(),
            frames: Vec::new(),
            built: Vec::new(),
            strips: Vec::new(),
        };
        let placed = Placed { plate: root, frame: self.root_frame(root), first_edge: 0, bent_off_mm: None };
        let added = self.add(&mut piece, &placed);
        // A corner that cuts all of a plate away is the reason why nothing is left of it.
        self.check_corners(&piece.plates)?;
        added?;
        Ok(piece)
    }

    /// The corners of plate `root` that have a letter, in the coordinates it has as the root of a piece.
    pub(crate) fn lettered(&self, root: usize, letters: &[Option<String>]) -> Vec<(String, Point)> {
        let frame = self.root_frame(root);
        let corners = self.plates[root].corners.iter();
        let place = |(letter, corner): (&Option<String>, &geometry::Point3)| {
            letter.as_ref().map(|letter| (letter.clone(), frame.local(*corner).0))
        };
        letters.iter().zip(corners).filter_map(place).collect()
    }

    /// The root's own coordinates: x along its first edge.
    fn root_frame(&self, root: usize) -> Frame {
        let (a, b) = self.plates[root].edge(0);
        let z = self.plates[root].normal();
        let x = (b - a).unit();
        let back = self.plane(root, fold::part::Side::Back);
        Frame { origin: a + z * -back.distance(a), x, y: z.cross(x), z }
    }

    /// Adds a face, and everything bent off it, to the piece.
    fn add(&self, piece: &mut ShellPiece, placed: &Placed) -> Result<(), ShellError> {
        let number = piece.part.faces.len();
        let sketch = &self.plates[placed.plate];
        let off_mm = sketch.warp_mm();
        if off_mm > tolerance::SAME_POINT_MM {
            return Err(ShellError::Warped { name: sketch.name.clone(), off_mm });
        }
        piece.plates.push(placed.plate);
        let face = self.face(placed)?;
        let count = face.corners.len();
        let of_sketch = (0..count).map(|edge| face.edge((edge + count - placed.first_edge) % count).into());
        piece.built.push(of_sketch.collect());
        piece.part.faces.push(face);
        piece.frames.push(placed.frame);
        for step in usize::from(placed.bent_off_mm.is_some())..count {
            let edge = (placed.first_edge + step) % count;
            if let Some(joint) = self.joint(placed.plate, edge).filter(|joint| joint.bent) {
                self.bend_off(piece, (number, placed, step), &joint)?;
            }
        }
        Ok(())
    }

    /// Bends the plate of `joint` off edge `step` of face `number`.
    fn bend_off(
        &self,
        piece: &mut ShellPiece,
        (number, placed, step): (usize, &Placed, usize),
        joint: &Joint,
    ) -> Result<(), ShellError> {
        let plate = &self.plates[joint.other];
        let count = self.plates[placed.plate].corners.len();
        let edge = shorten(&mut piece.part.faces[number], (step, count), plate.short_mm);
        let ends = piece.part.faces[number].edge(edge);
        let turn = (joint.turn_rad, joint.direction);
        let frame = child_frame(&placed.frame, ends, turn, self.thickness_mm());
        let off = frame.z.angle_to(plate.normal());
        if joint.turn_rad <= tolerance::PARALLEL_SINE || off > tolerance::SAME_POINT_MM {
            return Err(ShellError::NoBend { name: plate.name.clone() });
        }
        piece.part.faces[number].edges[edge] = Edge::Bend(piece.part.bends.len());
        piece.part.bends.push(Bend {
            parent: number,
            parent_edge: edge,
            child: piece.part.faces.len(),
            turn_rad: joint.turn_rad,
            direction: joint.direction,
            inside_radius_mm: self.number.inside_radius().millimetres(),
            legs_to: LegsTo::MoldLine,
            forming: Forming::Brake,
        });
        let bent_off_mm = Some(ends.0.distance(ends.1));
        self.add(piece, &Placed { plate: joint.other, frame, first_edge: joint.other_edge, bent_off_mm })
    }

    fn face(&self, placed: &Placed) -> Result<Face, ShellError> {
        let sketch = &self.plates[placed.plate];
        let nothing = || ShellError::Nothing { name: sketch.name.clone() };
        let count = sketch.corners.len();
        let line = |step: usize| self.line_or_short(placed, step % count);
        let corner = |step: usize| line(step + count - 1)?.crossing(line(step)?);
        let corners: Vec<Point> = (0..count).map(corner).collect::<Option<_>>().ok_or_else(nothing)?;
        if let Some((length_mm, taken_mm)) = self.short_edge(placed, &corners) {
            return Err(ShellError::ShortEdge { name: sketch.name.clone(), length_mm, taken_mm });
        }
        if polygon::signed_area(&corners) <= 0.0 || polygon::self_crossing(&corners).is_some() {
            return Err(nothing());
        }
        let mut edges = vec![Edge::Free; count];
        if placed.bent_off_mm.is_some() {
            edges[0] = Edge::Parent;
        }
        let hole = |(centre, radius_mm): &(geometry::Point3, f64)| {
            Contour::round_hole(placed.frame.local(*centre).0, *radius_mm)
        };
        let holes = sketch.holes.iter().map(hole).collect();
        Ok(Face { name: sketch.name.clone(), corners, edges, holes, rim: None })
    }

    /// Length of the first edge that runs the other way than its sketch, and what is taken off it, mm: the plate has closed
    /// up there.
    fn short_edge(&self, placed: &Placed, corners: &[Point]) -> Option<(f64, f64)> {
        let sketch = &self.plates[placed.plate];
        let count = corners.len();
        (0..count).find_map(|step| {
            let (a, b) = sketch.edge((placed.first_edge + step) % count);
            let along = corners[(step + 1) % count] - corners[step];
            let left_mm = placed.frame.direct(along).dot((b - a).unit());
            let length_mm = a.distance(b);
            (left_mm <= tolerance::SAME_POINT_MM).then_some((length_mm, length_mm - left_mm))
        })
    }

    /// The line of an edge; square to the bend beside one that stops short of its parent's corners.
    fn line_or_short(&self, placed: &Placed, step: usize) -> Option<Line> {
        let sketch = &self.plates[placed.plate];
        let count = sketch.corners.len();
        let short = |mm: f64| mm > tolerance::SAME_POINT_MM;
        let square = |x: f64| Line { point: Point::new(x, 0.0), direction: Vector::new(0.0, 1.0) };
        match placed.bent_off_mm {
            Some(length) if step == 1 && short(sketch.short_mm[0]) => Some(square(length)),
            Some(_) if step == count - 1 && short(sketch.short_mm[1]) => Some(square(0.0)),
            _ => self.edge_line(placed.plate, (placed.first_edge + step) % count, &placed.frame),
        }
    }

    /// Every weld between two plates of the piece.
    fn seams(&self, piece: &ShellPiece) -> Vec<Seam> {
        let welds = self.welds().into_iter();
        let seam = |weld: super::weld::Weld| {
            let (first, second) = (piece.face_of(weld.first.0)?, piece.face_of(weld.second.0)?);
            let edge = |face: usize, edge: usize| piece.edge_at(face, edge);
            let (style, gap_mm) = (self.style(&weld), self.weld_gap_mm(&weld));
            Some(Seam {
                name: weld.name,
                first: (first, edge(first, weld.first.1)?),
                second: (second, edge(second, weld.second.1)?),
                inside_angle_rad: weld.inside_angle_rad,
                length_mm: weld.length_mm,
                style,
                gap_mm,
            })
        };
        welds.filter_map(seam).collect()
    }
}

impl ShellPiece {
    /// The face that a plate is; `None` for a plate of another piece.
    pub(crate) fn face_of(&self, plate: usize) -> Option<usize> {
        self.plates.iter().position(|&number| number == plate)
    }

    /// One side of a joint along edge `edge` of plate `plate`, this being piece `piece` of a whole.
    pub(crate) fn end(&self, piece: usize, (plate, edge): (usize, usize)) -> Option<JointEnd> {
        if let Some((_, face)) = self.strips.iter().find(|(carrier, _)| *carrier == (plate, edge)) {
            return Some(JointEnd { piece, face: *face, edge: lap::STRIP_EDGE });
        }
        let face = self.face_of(plate)?;
        Some(JointEnd { piece, face, edge: self.edge_at(face, edge)? })
    }

    /// Where edge `edge` of the plate that a face is came to start and end, in the face's coordinates.
    pub(crate) fn built_edge(&self, face: usize, edge: usize) -> [Point; 2] {
        self.built[face][edge]
    }

    /// The cut edge of a face that edge `edge` of its plate became. Strips and tabs put corners into edges, and so change
    /// their numbers; what is left of an edge then still starts where it did.
    pub(crate) fn edge_at(&self, face: usize, edge: usize) -> Option<usize> {
        let [start, end] = self.built[face][edge];
        let face = &self.part.faces[face];
        let is_it = |&number: &usize| {
            let (a, b) = face.edge(number);
            let starts_there = a.distance(start) <= tolerance::SAME_POINT_MM;
            face.edges[number] == Edge::Free && starts_there && (b - a).dot(end - start) > 0.0
        };
        (0..face.edges.len()).find(is_it)
    }
}

/// Puts a corner into an edge on each side where its bend stops short; the number of the bent edge then.
/// Corners put in before, on earlier edges, move its number up.
fn shorten(face: &mut Face, (step, count): (usize, usize), [start_mm, end_mm]: [f64; 2]) -> usize {
    let mut edge = step + face.edges.len() - count;
    let (a, b) = face.edge(edge);
    let along = (b - a).unit();
    if end_mm > tolerance::SAME_POINT_MM {
        face.corners.insert(edge + 1, b - along * end_mm);
        face.edges.insert(edge + 1, Edge::Free);
    }
    if start_mm > tolerance::SAME_POINT_MM {
        face.corners.insert(edge + 1, a + along * start_mm);
        face.edges.insert(edge + 1, Edge::Free);
        edge += 1;
    }
    edge
}
