//! A tapered lid of one piece whose skirt has a hem, a return or a curl at its edge.

use super::{Hinge, TaperedLid};
use crate::edge::{self, EdgeEnd};
use crate::nearest::{Way, smaller_edge};
use crate::{FaceSide, Fact, Making, Problem, Recipe, Shaped};

/// A tapered lid with its edge treated all round.
#[derive(Debug, Clone, PartialEq)]
pub struct EdgedLid {
    /// The lid, without a return; its skirt runs to the outermost metal, and so to the outside of what is bent off it.
    pub lid: TaperedLid,
    /// What is done to the edge of the skirt.
    pub edge: EdgeEnd,
    /// Its hinge.
    pub hinge: Option<Hinge>,
}

impl EdgedLid {
    /// The lid over its opening and, at the hinge side, over what the hinge leaf takes.
    fn with_hinge(&self, making: &Making) -> Result<TaperedLid, Vec<Problem>> {
        let Some(hinge) = &self.hinge else { return Ok(self.lid.clone()) };
        let mut problems = Vec::new();
        let over = &self.lid.over;
        hinge.check(over, making, &mut problems);
        let outward = |side: usize| {
            if over.side_number(&hinge.side) == Some(side) { hinge.leaf.millimetres() } else { 0.0 }
        };
        match over.moved(&(0..over.count()).map(outward).collect::<Vec<f64>>()) {
            Some(over) if problems.is_empty() => Ok(TaperedLid { over, ..self.lid.clone() }),
            None if problems.is_empty() => {
                let wrong = "leaves no rim: the sides beside it run together";
                let value = making.print(hinge.leaf);
                Err(vec![Problem::new("hinge.leaf", value, wrong, "give what the leaf takes in thickness")])
            }
            _ => Err(problems),
        }
    }
}

impl Recipe for EdgedLid {
    fn word(&self) -> &'static str {
        self.lid.word()
    }

    fn words(&self) -> &'static str {
        self.lid.words()
    }

    fn natural_face(&self) -> Option<FaceSide> {
        self.lid.natural_face()
    }

    fn tight_field(&self) -> &'static str {
        self.lid.tight_field()
    }

    fn is_lid(&self) -> bool {
        true
    }

    fn boxed(&self) -> Option<Box<dyn Recipe>> {
        Some(Box::new(self.clone()))
    }

    fn ways<'a>(&'a self, making: &'a Making) -> Vec<Way<'a>> {
        let edge = smaller_edge("edge", (self.edge, making), |edge| Box::new(Self { edge, ..self.clone() }));
        let lid = self.lid.movable(making, |lid| Box::new(Self { lid, ..self.clone() }));
        edge.into_iter().chain(lid).collect()
    }

    fn shape_piece(&self, _: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        if let Some(width) = self.lid.return_width {
            let wrong = "the edge of a return turned inward runs round a hole, where no leg is bent off it";
            let remedy = "take out \"return\" or \"edge\"; an \"edge\" that is a return may be as wide";
            return Err(vec![Problem::new(
                "edge",
                format!("with a return of {}", making.print(width)),
                wrong,
                remedy,
            )]);
        }
        let (ring, mut built, mut facts) = self.with_hinge(making)?.built(making)?;
        let count = ring.sides.len();
        let fields = vec!["edge".to_owned(); count];
        facts.extend(edge::finish(&mut built, &ring, &vec![self.edge; count], (making, &fields))?);
        let taken_mm =
            making.thickness_mm() + self.edge.off_inside_mm(making).max(making.lap_strip_mm(false));
        let hinged = self.hinge.as_ref();
        facts.extend(hinged.map(|hinge| hinge.fact(making)));
        let but = hinged.map_or_else(String::new, |hinge| {
            format!("; at {} the leaf's {} more", hinge.side, making.print(hinge.leaf))
        });
        facts.push(Fact::length_mm(
            format!("free between the opening's line and the edge, below zero inside it{but}"),
            self.lid.outset.millimetres() - taken_mm,
            "outset less thickness less what the edge, or a lap strip at a corner, takes inside the skirt",
        ));
        Ok(Shaped { part: built.part, facts })
    }
}
