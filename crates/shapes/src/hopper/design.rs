//! The plates of a hopper.

use fold::flat::{self, UnfoldError};
use fold::part::Side::{Back, Face};
use geometry::{Plane, Point3, Vector3, tolerance};

use super::facts::short_of_ends_mm;
use super::{Hopper, HopperMade, RimEdge, weld_flanges};
use crate::plan::at_height;
use crate::shell::{Shell, ShellPiece, ShellPlate, shell_problem};
use crate::{Figure, Making, Problem};

/// Number of faces.
const SIDES: usize = 4;

/// All plates, and the root of every piece in the order of [`crate::Recipe::pieces`].
pub(super) struct Design {
    pub(super) shell: Shell,
    pub(super) roots: Vec<usize>,
}

/// The flat plates of one face: one, or two triangles where it is warped.
pub(super) struct FacePlates {
    /// Corners of the plate at the rim; of the whole face when it is flat.
    pub(super) rim: Vec<Point3>,
    /// Corners of the triangle at the collar.
    pub(super) collar: Option<Vec<Point3>>,
}

impl Hopper {
    /// Corners of the rim, level, in the rim's plane.
    fn rim_corner(&self, corner: usize) -> Point3 {
        at_height(self.rim.corners[corner % SIDES], 0.0)
    }

    fn collar_corner(&self, corner: usize) -> Point3 {
        at_height(self.collar.corners[corner % SIDES], self.rise.millimetres())
    }

    /// The letter of a corner of rim or collar: "A", "A at the collar".
    pub(super) fn letter_at(&self, at: Point3) -> Option<String> {
        let near = |corner: Point3| corner.distance(at) <= tolerance::SAME_POINT_MM;
        (0..SIDES).find_map(|corner| {
            let name = &self.rim.names[corner];
            if near(self.rim_corner(corner)) {
                Some(name.clone())
            } else {
                near(self.collar_corner(corner)).then(|| format!("{name} at the collar"))
            }
        })
    }

    /// The flat plates of face `side`, corners counter-clockwise from outside.
    pub(super) fn face_plates(&self, side: usize) -> FacePlates {
        let (a, b) = (self.rim_corner(side), self.rim_corner(side + 1));
        let (c, d) = (self.collar_corner(side + 1), self.collar_corner(side));
        let plane = Plane::through(a, (b - a).cross(c - a));
        let off_mm = plane.distance(d);
        if off_mm.abs() <= tolerance::SAME_POINT_MM {
            FacePlates { rim: vec![a, b, c, d], collar: None }
        } else if off_mm < 0.0 {
            // The collar's corner lies inside the plane of the other three: the diagonal from A to C stands outward.
            FacePlates { rim: vec![a, b, c], collar: Some(vec![a, c, d]) }
        } else {
            FacePlates { rim: vec![a, b, d], collar: Some(vec![b, c, d]) }
        }
    }

    /// The plates and their joints.
    pub(super) fn design(&self, making: &Making) -> Result<Design, Vec<Problem>> {
        let mut shell = Shell {
            plates: Vec::new(),
            bends: Vec::new(),
            number: making.number.clone(),
            making: making.corners(),
        };
        let mut faces = Vec::with_capacity(SIDES);
        for side in 0..SIDES {
            faces.push(self.add_face(&mut shell, side));
        }
        self.add_rim(&mut shell, &faces, making)?;
        let collar = self.add_collar(&mut shell, &faces);
        let roots = match self.made {
            HopperMade::FourPlates { weld_flange } => {
                if let Some(width) = weld_flange {
                    self.add_weld_flanges(&mut shell, width.millimetres(), making);
                    weld_flanges::check(&shell, width, making)?;
                }
                faces.iter().map(|face| face[0]).collect()
            }
            HopperMade::TwoHalves => {
                bend_hips(&mut shell, &faces, &[0, 2]);
                [Some(faces[0][0]), Some(faces[2][0]), collar].into_iter().flatten().collect()
            }
            HopperMade::OnePiece => {
                bend_hips(&mut shell, &faces, &[0, 1, 2]);
                [Some(faces[1][0]), collar].into_iter().flatten().collect()
            }
        };
        // Which of two sides is the longer is told by the rim, at every height of their corner.
        for plate in &mut shell.plates {
            if let Some((name, length_mm)) = &mut plate.side
                && let Some(side) = self.rim.side_number(name)
            {
                *length_mm = self.rim.side_mm(side);
            }
        }
        Ok(Design { shell, roots })
    }

    /// Adds the plates of one face; the one at the rim comes first, the one at the collar last.
    fn add_face(&self, shell: &mut Shell, side: usize) -> Vec<usize> {
        let plates = self.face_plates(side);
        let name = &self.rim.sides[side];
        let first = shell.plates.len();
        match plates.collar {
            None => {
                shell.plates.push(ShellPlate::new(format!("face {name}"), plates.rim, Back));
                vec![first]
            }
            Some(collar) => {
                shell.plates.push(ShellPlate::new(format!("face {name} at the rim"), plates.rim, Back));
                shell.plates.push(ShellPlate::new(format!("face {name} at the collar"), collar, Back));
                shell.bends.push((first, first + 1));
                vec![first, first + 1]
            }
        }
    }

    /// Bends the rim's flange or channel off every face.
    fn add_rim(&self, shell: &mut Shell, faces: &[Vec<usize>], making: &Making) -> Result<(), Vec<Problem>> {
        match self.rim_edge {
            RimEdge::None => {}
            RimEdge::Flange(width) => {
                let outer = self.rim_moved(making, width.millimetres())?;
                for (side, face) in faces.iter().enumerate() {
                    let [a, b] = [0, 1].map(|step| self.rim_corner(side + step));
                    let [c, d] = [1, 0].map(|step| at_height(outer.corners[(side + step) % SIDES], 0.0));
                    let name = format!("flange {}", self.rim.sides[side]);
                    bend_on(shell, face[0], ShellPlate::new(name, vec![b, a, d, c], Back));
                }
            }
            RimEdge::Drip { down, inward, up } => {
                let within = inward.millimetres() - making.thickness_mm();
                let inner = self.rim_moved(making, -within)?;
                let heights = [-down.millimetres(), up.millimetres() - down.millimetres()];
                for (side, face) in faces.iter().enumerate() {
                    self.add_drip(shell, (side, face[0]), &inner, heights);
                }
            }
        }
        Ok(())
    }

    fn rim_moved(&self, making: &Making, outward_mm: f64) -> Result<Figure, Vec<Problem>> {
        self.rim.grown(outward_mm).ok_or_else(|| {
            let narrow = (0..SIDES).map(|side| self.rim.side_mm(side)).fold(f64::INFINITY, f64::min);
            let value = making.print_mm(outward_mm.abs());
            let remedy = making.keep_under(0.5 * narrow, "the rim has no width");
            let (field, wrong) = match self.rim_edge {
                RimEdge::Drip { .. } => ("drip", "the channels of opposite sides meet"),
                RimEdge::None | RimEdge::Flange(_) => ("rim_flange", "the flanges of opposite sides meet"),
            };
            vec![Problem::new(field, value, wrong, remedy)]
        })
    }

    /// A leg, a bottom and a lip below one face.
    fn add_drip(
        &self,
        shell: &mut Shell,
        (side, face): (usize, usize),
        inner: &Figure,
        [bottom_z, lip_z]: [f64; 2],
    ) {
        let name = &self.rim.sides[side];
        let rim = [0, 1].map(|step| self.rim_corner(side + step));
        let foot = [0, 1].map(|step| at_height(self.rim.corners[(side + step) % SIDES], bottom_z));
        let heel = [0, 1].map(|step| at_height(inner.corners[(side + step) % SIDES], bottom_z));
        let lip = [0, 1].map(|step| at_height(inner.corners[(side + step) % SIDES], lip_z));
        let plate = |what: &str, low: [Point3; 2], high: [Point3; 2], side| {
            ShellPlate::new(format!("{what} {name}"), vec![low[0], low[1], high[1], high[0]], side)
        };
        let leg = bend_on(shell, face, plate("leg", foot, rim, Back));
        let bottom = bend_on(shell, leg, plate("drip bottom", heel, foot, Face));
        bend_on(shell, bottom, plate("lip", lip, heel, Face));
    }

    /// The collar: bent up off four plates, else a strip of its own; then the number of its first plate.
    fn add_collar(&self, shell: &mut Shell, faces: &[Vec<usize>]) -> Option<usize> {
        let up = Vector3::new(0.0, 0.0, self.collar_height?.millimetres());
        let first = shell.plates.len();
        for (side, face) in faces.iter().enumerate() {
            let (a, b) = (self.collar_corner(side), self.collar_corner(side + 1));
            let name = format!("collar {}", self.rim.sides[side]);
            let plate = ShellPlate::new(name, vec![a, b, b + up, a + up], Back);
            let number = shell.plates.len();
            shell.plates.push(plate);
            match self.made {
                HopperMade::FourPlates { .. } => {
                    shell.bends.push((face[face.len() - 1], number));
                }
                _ if side > 0 => shell.bends.push((number - 1, number)),
                _ => {}
            }
        }
        Some(first)
    }

    /// Flanges along both hips of the faces AB and CD, flat against the inside of BC and DA.
    fn add_weld_flanges(&self, shell: &mut Shell, width_mm: f64, making: &Making) {
        for corner in 0..SIDES {
            let hip = (self.rim_corner(corner), self.collar_corner(corner));
            // Carriers are sides 0 and 2: they end at corners 1 and 3 and start at 0 and 2.
            let carrier_side = if corner % 2 == 0 { corner } else { corner - 1 };
            let neighbour_side = if corner % 2 == 0 { (corner + SIDES - 1) % SIDES } else { corner };
            let of_side = |side: usize, shell: &Shell| {
                let prefix = format!("face {}", self.rim.sides[side]);
                let has = |plate: &&usize| shell.plates[**plate].name.starts_with(&prefix);
                let candidates: Vec<usize> = (0..shell.plates.len()).collect();
                candidates.iter().filter(has).find_map(|&plate| Some((plate, edge_on(shell, plate, hip)?)))
            };
            let (Some((carrier, hip_edge)), Some((neighbour, edge))) =
                (of_side(carrier_side, shell), of_side(neighbour_side, shell))
            else {
                continue;
            };
            let carrier_outside = shell.plane(carrier, Face);
            let mut plate = self.weld_flange(shell, (neighbour, edge), width_mm, making);
            plate.lies_on = Some(neighbour);
            shell.plates[neighbour].cuts.push((edge, carrier_outside));
            shell.plates[carrier].stops.push((hip_edge, (neighbour, edge)));
            bend_on(shell, carrier, plate);
        }
    }

    /// The flange against the inside of plate `neighbour` along its edge; it stops short of rim and collar, and of the bend across
    /// a warped face, so that all of it lies on that plate.
    fn weld_flange(
        &self,
        shell: &Shell,
        (neighbour, edge): (usize, usize),
        width_mm: f64,
        making: &Making,
    ) -> ShellPlate {
        let plate = &shell.plates[neighbour];
        let (a, b) = plate.edge(edge);
        let inward = plate.normal().cross((b - a).unit());
        let corners = vec![a, b, b + inward * width_mm, a + inward * width_mm];
        // At an end where the next edge runs off at a sharp angle, a square end of the flange would stand out over that.
        let along = (b - a).unit();
        let count = plate.corners.len();
        let beside = |edge: usize, away: Vector3, back: bool| {
            let (from, to) = plate.edge(edge % count);
            let way = (if back { from - to } else { to - from }).unit();
            let cotangent = way.dot(away) / way.dot(inward).max(tolerance::PARALLEL_SINE);
            short_of_ends_mm(width_mm, making).max(short_of_ends_mm(width_mm * cotangent.max(0.0), making))
        };
        let (at_a, at_b) = (beside(edge + count - 1, along, true), beside(edge + 1, -along, false));
        let mut flange = ShellPlate::new(format!("weld flange on {}", plate.name), corners, Face);
        // The carrier's edge starts at b.
        flange.short_mm = [at_b, at_a];
        flange
    }

    /// Builds one piece, and sees whether it comes out of one blank.
    pub(super) fn build(
        &self,
        design: &Design,
        root: usize,
        making: &Making,
    ) -> Result<ShellPiece, Vec<Problem>> {
        let built =
            design.shell.piece(root).map_err(|error| vec![shell_problem(&error, "collar", making)])?;
        match flat::unfold(&built.part) {
            Err(UnfoldError::Overlap { first, second }) => {
                let wrong = format!("{first} and {second} would lie on one another in the flat");
                let remedy = match self.made {
                    HopperMade::FourPlates { weld_flange: Some(_) } => {
                        "leave the weld flange or the rim's edge off"
                    }
                    HopperMade::FourPlates { weld_flange: None } => "leave the rim's edge off",
                    HopperMade::OnePiece | HopperMade::TwoHalves => {
                        "make it of four plates, or leave the rim's edge off"
                    }
                };
                Err(vec![Problem::new("made", self.made_words(), wrong, remedy)])
            }
            _ => Ok(built),
        }
    }

    /// How it is made up, as the job file says it.
    pub(super) const fn made_words(&self) -> &'static str {
        match self.made {
            HopperMade::OnePiece => "one_piece",
            HopperMade::TwoHalves => "two_halves",
            HopperMade::FourPlates { .. } => "four_plates",
        }
    }
}

/// Adds a plate bent off plate `parent`; its number.
fn bend_on(shell: &mut Shell, parent: usize, plate: ShellPlate) -> usize {
    let number = shell.plates.len();
    shell.plates.push(plate);
    shell.bends.push((parent, number));
    number
}

/// The edge of a plate that runs along `hip`, either way.
fn edge_on(shell: &Shell, plate: usize, hip: (Point3, Point3)) -> Option<usize> {
    let near = |p: Point3, q: Point3| p.distance(q) <= tolerance::SAME_POINT_MM;
    (0..shell.plates[plate].corners.len()).find(|&edge| {
        let (a, b) = shell.plates[plate].edge(edge);
        (near(a, hip.0) && near(b, hip.1)) || (near(a, hip.1) && near(b, hip.0))
    })
}

/// Bends the hip at the end of each of `sides`.
fn bend_hips(shell: &mut Shell, faces: &[Vec<usize>], sides: &[usize]) {
    for &side in sides {
        for &first in &faces[side] {
            for &second in &faces[(side + 1) % SIDES] {
                let meet = |edge: usize| shell.joint(first, edge).is_some_and(|joint| joint.other == second);
                if (0..shell.plates[first].corners.len()).any(meet) {
                    shell.bends.push((first, second));
                }
            }
        }
    }
}
