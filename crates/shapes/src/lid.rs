//! A flat lid flanged down all round. Sizes are to the outside of the metal; the marked face is the outside.

mod crown;

use fold::Direction::Down;
use fold::Side;
use fold::part::{FacePlane, Measure, Size};
use geometry::{Plane, Vector3};
use units::Length;

use crate::edge::{self, EdgeEnd};
use crate::making::ring_problem;
use crate::plan::{at_height, rectangle, side_directions, side_facts};
use crate::ring::{Band, Built, Ring, RingSide};
use crate::{Clearance, FaceSide, Fact, Figure, Making, Problem, Recipe, Shaped};

pub use crown::{Crown, CrownedLid, SkirtEdge};

/// A flanged lid.
#[derive(Debug, Clone, PartialEq)]
pub struct Lid {
    /// What its plan is sized by.
    pub plan: LidPlan,
    /// From the outside of the top down to the edge of the skirt.
    pub skirt: Length,
    /// What is done to the edge of the skirt, all round.
    pub edge: EdgeEnd,
}

/// What a lid's plan is sized by.
#[derive(Debug, Clone, PartialEq)]
pub enum LidPlan {
    /// Outside of the skirt.
    Outside {
        /// Along side AB.
        length: Length,
        /// Along side BC.
        width: Length,
    },
    /// The opening or coaming it goes over.
    Over {
        /// The opening, to the outside of what the skirt must clear.
        opening: Figure,
        /// What must stay free between that and the inside of the skirt, or what is turned in at its edge, each side.
        clearance: Clearance,
    },
}

impl Recipe for Lid {
    fn word(&self) -> &'static str {
        "lid"
    }

    fn words(&self) -> &'static str {
        "flanged lid"
    }

    fn natural_face(&self) -> Option<FaceSide> {
        Some(FaceSide::Outside)
    }

    fn tight_field(&self) -> &'static str {
        "skirt"
    }

    fn is_lid(&self) -> bool {
        true
    }

    fn shape_piece(&self, _: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        self.shape(making)
    }
}

impl Lid {
    /// Shapes the lid.
    ///
    /// # Errors
    /// Every [`Problem`]: sizes not above zero, an opening with an inside corner.
    pub fn shape(&self, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let mut problems = Vec::new();
        making.above_zero("skirt", self.skirt, &mut problems);
        let (top, sum) = match self.top(making) {
            Ok(top) => top,
            Err(more) => {
                problems.extend(more);
                return Err(problems);
            }
        };
        if !problems.is_empty() {
            return Err(problems);
        }
        let ring = Ring {
            name: "top".to_owned(),
            corners: top.corners.clone(),
            corner_names: top.names.clone(),
            sides: (0..top.count()).map(|side| self.side(&top, side, making.thickness_mm())).collect(),
            holes: Vec::new(),
            number: making.number.clone(),
            making: making.corners(),
        };
        let mut built = ring.build().map_err(|error| vec![ring_problem(&error, "skirt", making)])?;
        built.part.sizes = sizes(&top, &built);
        built.part.sizes.extend(self.skirt_depths(&top, &built));
        let mut facts: Vec<Fact> = sum.into_iter().collect();
        facts.extend(side_facts(&top, "top, outside,", "plan of the lid"));
        facts.push(Fact::length_mm("skirt, outside", self.skirt.millimetres(), "skirt"));
        let count = top.count();
        let fields = vec!["edge".to_owned(); count];
        facts.extend(edge::finish(&mut built, &ring, &vec![self.edge; count], (making, &fields))?);
        Ok(Shaped { part: built.part, facts })
    }

    fn top(&self, making: &Making) -> Result<(Figure, Option<Fact>), Vec<Problem>> {
        match &self.plan {
            LidPlan::Outside { length, width } => Ok((rectangle(making, "outside", *length, *width)?, None)),
            LidPlan::Over { opening, clearance: free } => {
                let mut problems = Vec::new();
                let clearance = free.checked_total(making, &mut problems);
                // What is turned in at the edge must pass what the skirt goes over, too.
                let turned_in = Length::from_millimetres(self.edge.off_inside_mm(making));
                let a_side = clearance + making.number.thickness() + turned_in;
                let grown = opening.grown(a_side.millimetres());
                let Some(top) = grown.filter(|_| problems.is_empty()) else {
                    if problems.is_empty() {
                        let wrong = "sides of the opening are parallel where they meet";
                        problems.push(Problem::new("over", "the opening", wrong, "tape the opening again"));
                    }
                    return Err(problems);
                };
                let has_edge = turned_in > Length::ZERO;
                let edge = if has_edge {
                    format!(" + {} {} turned in", making.print(turned_in), self.edge.kind())
                } else {
                    String::new()
                };
                let words = format!(
                    "opening plus, each side: {} + {} metal{edge} = {} a side",
                    free.words(making.fine_style()),
                    making.print_fine(making.number.thickness()),
                    making.print(a_side)
                );
                let origin =
                    if has_edge { "over, clearance, thickness, edge" } else { "over, clearance, thickness" };
                Ok((top, Some(Fact::words("goes over", words, origin))))
            }
        }
    }

    /// The depth of every skirt with a cut edge. An edge that is bent has a size of its own, and the depth is to its outermost
    /// metal.
    fn skirt_depths(&self, top: &Figure, built: &Built) -> Vec<Size> {
        let depth = |(side, name): (usize, &String)| Size {
            name: format!("depth of skirt {name}, from the outside of the top"),
            measure: Measure::Reach((built.faces[side][0], Side::Face), (0, Side::Face)),
            expected_mm: self.skirt.millimetres(),
        };
        if self.edge.is_plain() { top.sides.iter().enumerate().map(depth).collect() } else { Vec::new() }
    }

    /// The back of the top is z = 0, so its outside is z = T.
    fn side(&self, top: &Figure, side: usize, thickness_mm: f64) -> RingSide {
        let (_, outward) = side_directions(top, side);
        let corner = at_height(top.corners[side], thickness_mm);
        let band = Band {
            name: format!("skirt {}", top.sides[side]),
            plane: Plane::through(corner, outward).moved(-thickness_mm),
            direction: Down,
        };
        let down = Vector3::new(0.0, 0.0, -1.0);
        let cut = Plane::through(corner + down * self.skirt.millimetres(), down);
        RingSide {
            bands: vec![band],
            cut: Some(cut),
            short_mm: [0.0, 0.0],
            bare_inside_mm: 0.0,
            limits: Vec::new(),
        }
    }
}

fn sizes(top: &Figure, built: &Built) -> Vec<Size> {
    let count = top.count();
    let skirt = |side: usize| -> FacePlane { (built.faces[side % count][0], Side::Face) };
    let end = |at: usize| [(0, Side::Face), skirt(at), skirt(at + 1)];
    let size = |(side, name): (usize, &String)| Size {
        name: format!("top {name}, outside"),
        measure: Measure::Corners(end(side + count - 1), end(side)),
        expected_mm: top.side_mm(side),
    };
    top.sides.iter().enumerate().map(size).collect()
}
