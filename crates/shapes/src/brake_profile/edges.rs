//! Hems and curls at the free edges of the first and the last leg.

use std::cmp::Ordering;

use fold::part::{Edge, FoldedPart};
use geometry::{Plane, Point3, Vector3, tolerance};

use super::legs::Section;
use super::{BrakeProfile, End};
use crate::edge::{Beside, EdgeEnd, RunEdge, finish_runs};
use crate::{Fact, Making, Problem};

/// Where each of the two edges is asked for.
const FIELDS: [&str; 2] = ["edges.first", "edges.last"];

impl BrakeProfile {
    /// Whether an edge is more than cut.
    pub(super) fn has_edges(&self) -> bool {
        self.edges.iter().any(|end| !end.is_plain())
    }

    /// Bends hems and curls off the piece of the profile that runs over `span`, mm.
    ///
    /// # Errors
    /// Every [`Problem`]: mitred ends, a lip, which is a further leg; a side that is not said, legs too short.
    pub(super) fn treat_edges(
        &self,
        part: &mut FoldedPart,
        section: &Section,
        (span, making): ([f64; 2], &Making),
    ) -> Result<Vec<Fact>, Vec<Problem>> {
        if !self.has_edges() {
            return Ok(Vec::new());
        }
        let mut problems = Vec::new();
        if self.ends != [End::Square; 2] {
            let wrong = "a hem or curl runs along a profile whose ends are square";
            let remedy = "leave the edge plain, or the ends square and mitre both together by hand";
            problems.push(Problem::new("edges", "with mitred ends", wrong, remedy));
        }
        for (end, field) in self.edges.iter().zip(FIELDS) {
            if matches!(end, EdgeEnd::Return { .. }) {
                let remedy = "write it as a further leg and its bend";
                let field = format!("{field}.return");
                problems.push(Problem::new(field, "as given", "a lip of a profile is a leg of it", remedy));
            }
        }
        if !problems.is_empty() {
            return Err(problems);
        }
        let last = section.legs.len() - 1;
        let runs: Vec<RunEdge> = [0, last]
            .into_iter()
            .zip(self.edges)
            .zip(FIELDS)
            .filter(|((_, end), _)| !end.is_plain())
            .filter_map(|((leg, end), field)| run(part, section, (leg, end, field), span))
            .collect();
        finish_runs(part, &runs, making)
    }
}

/// The free edge of the first or the last leg.
fn run(
    part: &FoldedPart,
    section: &Section,
    (leg, end, field): (usize, EdgeEnd, &str),
    span: [f64; 2],
) -> Option<RunEdge> {
    let face = section.part_face(leg);
    // Of a leg that hangs on another the free edge lies opposite its bend; the flat leg is laid out as it is written.
    let (across, bent) = match leg.cmp(&section.root) {
        Ordering::Less => (section.legs[leg].outside_mm, Some(section.bends[leg].direction)),
        Ordering::Greater => (section.legs[leg].outside_mm, Some(section.bends[leg - 1].direction)),
        Ordering::Equal if field == FIELDS[0] => (0.0, None),
        Ordering::Equal => (section.legs[leg].outside_mm, None),
    };
    let corners = &part.faces[face];
    let is_free = |&edge: &usize| {
        let (a, b) = corners.edge(edge);
        let there = |y: f64| (y - across).abs() <= tolerance::SAME_POINT_MM;
        corners.edges[edge] == Edge::Free && there(a.y) && there(b.y)
    };
    let edge = (0..corners.edges.len()).find(is_free)?;
    let along = Vector3::new(1.0, 0.0, 0.0);
    let ends = [(span[0], -along), (span[1], along)];
    let [start, far] = ends.map(|(at, off)| Plane::through(Point3::new(at, 0.0, 0.0), off));
    Some(RunEdge {
        name: section.legs[leg].name.clone(),
        edge: (face, edge),
        bent,
        end,
        field: field.to_owned(),
        plane: start,
        beside: [Beside::End(start), Beside::End(far)],
    })
}
