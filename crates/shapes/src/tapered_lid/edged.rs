//! A tapered lid of one piece whose skirt has a hem, a return or a curl at its edge.

use super::TaperedLid;
use crate::edge::{self, EdgeEnd};
use crate::{FaceSide, Fact, Making, Problem, Recipe, Shaped};

/// A tapered lid with its edge treated all round.
#[derive(Debug, Clone, PartialEq)]
pub struct EdgedLid {
    /// The lid, without a return; its skirt runs to the outermost metal, and so to the outside of what is bent off it.
    pub lid: TaperedLid,
    /// What is done to the edge of the skirt.
    pub edge: EdgeEnd,
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
        let (ring, mut built, mut facts) = self.lid.built(making)?;
        let count = ring.sides.len();
        let fields = vec!["edge".to_owned(); count];
        facts.extend(edge::finish(&mut built, &ring, &vec![self.edge; count], (making, &fields))?);
        let taken_mm = making.thickness_mm() + self.edge.off_inside_mm(making);
        facts.push(Fact::length_mm(
            "free between the opening's line and the edge, below zero inside it",
            self.lid.outset.millimetres() - taken_mm,
            "outset less thickness less what the edge takes inside the skirt",
        ));
        Ok(Shaped { part: built.part, facts })
    }
}
