//! Hems, returns and curls at the foot of a lid that is made up of pieces, sits flush, has a plumb side or a lifting notch: each
//! whole run of a foot is bent by itself, mitred with its neighbour at a corner, and ends with its plate beside a notch or where
//! the lid is parted.

use fold::Direction::Down;
use fold::part::Side::Face;
use geometry::{Plane, tolerance};

use super::made_up::MadeUpLid;
use super::made_up::Seat;
use crate::edge::{self, Beside, RunEdge};
use crate::shell::{Shell, ShellPiece};
use crate::{Fact, Making, Problem};

impl MadeUpLid {
    /// Bends the edge off every foot of a piece.
    pub(super) fn treat(
        &self,
        shell: &Shell,
        built: &mut ShellPiece,
        making: &Making,
    ) -> Result<Vec<Fact>, Vec<Problem>> {
        if self.edge.is_plain() {
            return Ok(Vec::new());
        }
        let feet: Vec<RunEdge> =
            (0..built.plates.len()).flat_map(|face| self.feet(shell, built, face)).collect();
        if feet.is_empty() {
            return Ok(Vec::new());
        }
        edge::finish_runs(&mut built.part, &feet, making)?;
        let mut names: Vec<&str> = feet.iter().map(|foot| foot.name.as_str()).collect();
        names.dedup();
        let parted = if names.len() < feet.len() { "; it stops at both sides of the notch" } else { "" };
        let words = format!("{}{parted}", self.edge.words(making));
        Ok(vec![Fact::words(format!("edge of {}", names.join(", ")), words, "edge")])
    }

    /// The runs of a face's foot; none for a face that does not stand there.
    fn feet(&self, shell: &Shell, built: &ShellPiece, face: usize) -> Vec<RunEdge> {
        let plate = built.plates[face];
        let sketch = &shell.plates[plate];
        let foot_mm = -(self.lid.rise + self.lid.skirt).millimetres();
        let count = sketch.corners.len();
        let is_foot = |edge: &usize| {
            let (a, b) = sketch.edge(*edge);
            [a, b].iter().all(|at| (at.z - foot_mm).abs() <= tolerance::SAME_POINT_MM)
        };
        // Limits are looked at in the part's own coordinates, which are its root's.
        let root = &built.frames[0];
        let outside = |plate: usize| shell.plane(plate, Face).within(root);
        let stands = ["skirt ", "plumb side "].iter().any(|what| sketch.name.starts_with(what));
        let run = |edge: usize| {
            let beside = |neighbour: usize, end: usize| match shell.joint(plate, neighbour % count) {
                Some(joint) => Beside::Run(outside(joint.other), true),
                None => {
                    let [from, to] = built.built_edge(face, edge).map(|at| built.frames[face].place(at, 0.0));
                    let (at, off) = if end == 0 { (from, from - to) } else { (to, to - from) };
                    Beside::End(Plane::through(at, off.unit()).within(root))
                }
            };
            Some(RunEdge {
                name: sketch.name.clone(),
                edge: (face, built.edge_at(face, edge)?),
                bent: Some(Down),
                end: self.edge,
                field: "edge".to_owned(),
                plane: outside(plate),
                beside: [beside(edge + count - 1, 0), beside(edge + 1, 1)],
            })
        };
        (0..count).filter(|_| stands).filter(is_foot).filter_map(run).collect()
    }

    /// What is wrong with an edge on this lid.
    pub(super) fn check_edge(&self, making: &Making, problems: &mut Vec<Problem>) {
        if self.edge.is_plain() {
            return;
        }
        if let Some(width) = self.lid.return_width {
            let value = format!("with a return of {}", making.print(width));
            let wrong = "the edge of a return turned inward runs round a hole, where no leg is bent off it";
            let remedy = "take out \"return\" or \"edge\"; an \"edge\" that is a return may be as wide";
            problems.push(Problem::new("edge", value, wrong, remedy));
        }
        let out_mm = self.edge.off_outside_mm(making);
        if let Seat::Flush(free) = &self.seat
            && free.total().millimetres() <= out_mm
        {
            let wrong = format!(
                "it stands {} outside the skirt, and the lid goes into its opening with {} a side",
                making.print_mm(out_mm),
                making.print(free.total())
            );
            let remedy = format!("bend it in, or give more clearance than {}", making.print_mm(out_mm));
            problems.push(Problem::new("edge", "toward out", wrong, remedy));
        }
    }

    /// What the edge leaves free beside the skirt.
    pub(super) fn edge_fact(&self, making: &Making) -> Option<Fact> {
        if self.edge.is_plain() {
            return None;
        }
        Some(match &self.seat {
            Seat::Flush(free) => Fact::length_mm(
                "free between the edge and the side of the opening".to_owned(),
                free.total().millimetres() - self.edge.off_outside_mm(making),
                "clearance less what the edge stands out of the skirt",
            ),
            Seat::Proud => Fact::length_mm(
                "free between the opening's line and the edge, below zero inside it".to_owned(),
                self.lid.outset.millimetres()
                    - making.thickness_mm()
                    - self.edge.off_inside_mm(making).max(making.lap_strip_mm(false)),
                "outset less thickness less what the edge, or a lap strip at a corner, takes inside the skirt",
            ),
        })
    }
}
