//! A flat plate with holes and notches, straight-sided or round. The marked face is the upper one, as drawn.

use fold::part::{Edge, Face, FoldedPart};
use geometry::{Contour, Point, outline::Chords};
use units::Length;

use crate::hole::Hole;
use crate::panel::{self, Notch};
use crate::plan::{cut_back_facts, side_facts};
use crate::{Fact, Figure, Making, Problem, Recipe, Shaped};

/// A flat plate.
#[derive(Debug, Clone, PartialEq)]
pub struct Plate {
    /// Its outline.
    pub outline: PlateOutline,
    /// Holes, from the outline's origin; from the centre of a disc.
    pub holes: Vec<Hole>,
    /// Notches; none on a disc.
    pub notches: Vec<Notch>,
}

/// The outline of a plate.
#[derive(Debug, Clone, PartialEq)]
pub enum PlateOutline {
    /// Straight-sided.
    Figure(Figure),
    /// Round.
    Disc {
        /// Diameter.
        diameter: Length,
    },
}

impl Recipe for Plate {
    fn word(&self) -> &'static str {
        "plate"
    }

    fn words(&self) -> &'static str {
        "plate"
    }

    fn tight_field(&self) -> &'static str {
        "outline"
    }

    fn shape_piece(&self, _: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        self.shape(making)
    }
}

impl Plate {
    /// Shapes the plate.
    ///
    /// # Errors
    /// Every [`Problem`]: an outline that crosses itself, holes and notches that cannot be.
    pub fn shape(&self, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let mut problems = Vec::new();
        let holes = panel::contours(&self.holes, making, &mut problems);
        let (corners, rim, facts) = match &self.outline {
            PlateOutline::Figure(figure) => {
                problems.extend(panel::outline_problems(figure));
                let notched = panel::cut_notches(figure, &self.notches, making, &mut problems);
                let mut facts = side_facts(figure, "side", "outline");
                facts.extend(cut_back_facts(figure, &notched));
                (notched.corners, None, facts)
            }
            PlateOutline::Disc { diameter } => {
                making.above_zero("diameter", *diameter, &mut problems);
                if !self.notches.is_empty() {
                    let remedy = "leave them out, or give the outline by corners";
                    problems.push(Problem::new(
                        "notches",
                        "as given",
                        "a disc has no corners to notch",
                        remedy,
                    ));
                }
                let circle = Contour::round_hole(Point::default(), 0.5 * diameter.millimetres()).reversed();
                let fact = Fact::length_mm("diameter", diameter.millimetres(), "diameter");
                (circle.corners(Chords::On), Some(circle), vec![fact])
            }
        };
        if !problems.is_empty() {
            return Err(problems);
        }
        let edges = vec![Edge::Free; corners.len()];
        let face = Face { name: "plate".to_owned(), corners, edges, holes, rim };
        let making_corners = making.corners();
        let part = FoldedPart::unbent(
            making.number.clone(),
            vec![face],
            making_corners.relief,
            making_corners.notch_width_mm,
        );
        Ok(Shaped { part, facts })
    }
}
