//! The opposite hand, and the part seen from its other side.

use geometry::{Plane, Point, Vector3};

use super::{Beyond, Face, FacePlane, FoldedPart, Measure, Side, Spot};

impl FoldedPart {
    /// The same part seen from its other side: outlines mirrored, up and down exchanged, nothing else changed.
    #[must_use]
    pub fn seen_from_back(&self) -> Self {
        let mut part = self.mirrored();
        for bend in &mut part.bends {
            bend.direction = bend.direction.reversed();
        }
        let thickness_mm = self.thickness_mm();
        for mitre in &mut part.mitres {
            mitre.normal.z = -mitre.normal.z;
            overturn(&mut mitre.beyond, thickness_mm);
        }
        part.tips.iter_mut().for_each(|tip| overturn(&mut tip.beyond, thickness_mm));
        for size in &mut part.sizes {
            size.measure = size.measure.with_sides_exchanged();
        }
        part
    }

    /// The opposite hand: mirrored, with the same face side and the same bend directions.
    #[must_use]
    pub fn mirrored(&self) -> Self {
        let mut part = self.clone();
        let mut shift = vec![0.0; part.faces.len()];
        for bend in &self.bends {
            let (a, b) = self.faces[bend.parent].edge(bend.parent_edge);
            shift[bend.child] = a.distance(b);
        }
        for (number, face) in part.faces.iter_mut().enumerate() {
            mirror_face(face, number != 0, shift[number]);
        }
        let counts: Vec<usize> = part.faces.iter().map(|face| face.edges.len()).collect();
        let renumber = |face: usize, edge: usize| mirrored_edge(face != 0, edge, counts[face]);
        for bend in &mut part.bends {
            bend.parent_edge = renumber(bend.parent, bend.parent_edge);
        }
        for mitre in &mut part.mitres {
            mitre.edge.1 = renumber(mitre.edge.0, mitre.edge.1);
            mitre.normal.x = -mitre.normal.x;
            let x_mm = shift[mitre.edge.0];
            mirror(&mut mitre.beyond, x_mm);
        }
        for tip in &mut part.tips {
            let x_mm = shift[tip.face];
            tip.at.x = x_mm - tip.at.x;
            mirror(&mut tip.beyond, x_mm);
        }
        for seam in &mut part.seams {
            seam.first.1 = renumber(seam.first.0, seam.first.1);
            seam.second.1 = renumber(seam.second.0, seam.second.1);
        }
        for size in &mut part.sizes {
            size.measure = size.measure.mirrored(&shift);
        }
        part
    }
}

impl Measure {
    fn with_sides_exchanged(self) -> Self {
        let other = |(face, side): FacePlane| match side {
            Side::Face => (face, Side::Back),
            Side::Back => (face, Side::Face),
        };
        let turned = |spot: Spot| Spot { side: other((spot.face, spot.side)).1, ..spot };
        match self {
            Self::Corners(a, b) => Self::Corners(a.map(other), b.map(other)),
            Self::Planes(a, b) => Self::Planes(other(a), other(b)),
            Self::Reach(of, from) => Self::Reach(other(of), other(from)),
            Self::CornerToPlane(of, to) => Self::CornerToPlane(of.map(other), other(to)),
            Self::ReachPast(of, past, from) => Self::ReachPast(other(of), past.map(other), other(from)),
            Self::Spots(from, to) => Self::Spots(turned(from), turned(to)),
            Self::SpotToPlane(from, to) => Self::SpotToPlane(turned(from), other(to)),
        }
    }

    /// The same on the opposite hand, whose faces count x back from `shift`, mm.
    fn mirrored(self, shift: &[f64]) -> Self {
        let flip = |spot: Spot| Spot { at: Point::new(shift[spot.face] - spot.at.x, spot.at.y), ..spot };
        match self {
            Self::Spots(from, to) => Self::Spots(flip(from), flip(to)),
            Self::SpotToPlane(from, to) => Self::SpotToPlane(flip(from), to),
            Self::Corners(..)
            | Self::Planes(..)
            | Self::Reach(..)
            | Self::CornerToPlane(..)
            | Self::ReachPast(..) => self,
        }
    }
}

/// Mirrors metal of other pieces, where x is counted back from `x_mm`.
fn mirror(beyond: &mut [Beyond], x_mm: f64) {
    for beyond in beyond {
        beyond.moved(|round| round.mirrored(x_mm), |plane| mirrored(plane, x_mm));
    }
}

/// Turns metal of other pieces over, where height is counted the other way, from `z_mm` down.
fn overturn(beyond: &mut [Beyond], z_mm: f64) {
    for beyond in beyond {
        beyond.moved(|round| round.overturned(z_mm), |plane| overturned(plane, z_mm));
    }
}

/// The mirror image of a plane, where x is counted back from `x_mm`.
fn mirrored(plane: &Plane, x_mm: f64) -> Plane {
    let Vector3 { x, y, z } = plane.normal;
    Plane { normal: Vector3::new(-x, y, z), offset_mm: plane.offset_mm - x * x_mm }
}

/// The same plane where height is counted the other way, from `z_mm` down.
fn overturned(plane: &Plane, z_mm: f64) -> Plane {
    let Vector3 { x, y, z } = plane.normal;
    Plane { normal: Vector3::new(x, y, -z), offset_mm: plane.offset_mm - z * z_mm }
}

/// Edge `edge` of a mirrored face that runs the other way; a child keeps its parent edge as number 0.
const fn mirrored_edge(child: bool, edge: usize, count: usize) -> usize {
    if child { (count - edge) % count } else { count - 1 - edge }
}

fn mirror_face(face: &mut Face, child: bool, shift_mm: f64) {
    let flip = |p: Point| Point::new(shift_mm - p.x, p.y);
    let count = face.corners.len();
    let mirrored: Vec<Point> = face.corners.iter().map(|&p| flip(p)).collect();
    let edges = face.edges.clone();
    for (number, edge) in edges.iter().enumerate() {
        let target = mirrored_edge(child, number, count);
        face.edges[target] = *edge;
        face.corners[target] = mirrored[(number + 1) % count];
    }
    face.holes = face.holes.iter().map(|hole| hole.mapped(true, flip)).collect();
    face.rim = face.rim.as_ref().map(|rim| rim.mapped(true, flip));
}
