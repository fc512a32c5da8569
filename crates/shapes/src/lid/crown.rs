//! A flat lid crowned by a single bend across its middle, so that water runs off to both ends.
//!
//! The top is two planes. A skirt along which the lid rises has a straight fold on each of them, so it is two plates that
//! stand in one plane: on the flat a V stands open between them, and it closes as the crown is bent. Their folds lie in
//! one line on the flat, so both are folded in one stroke and the crown last. Sizes are to the outside; the plan is that
//! of the rim, level.

mod marks;

use fold::Side::Face;
use fold::part::Relief;
use geometry::{Point3, tolerance, trig};
use units::Length;

use super::Lid;
use crate::making::ReliefStyle;
use crate::plan::at_height;
use crate::ring::Corners;
use crate::shell::{Shell, ShellPlate, shell_problem};
use crate::{FaceSide, Fact, Figure, Making, Places, Problem, Recipe, Shaped};

/// A flanged lid with a crown.
#[derive(Debug, Clone, PartialEq)]
pub struct CrownedLid {
    /// Plan and skirt; the skirt is as deep as given at the two ends that stay straight.
    pub lid: Lid,
    /// Its crown.
    pub crown: Crown,
}

/// How a lid is crowned.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Crown {
    /// How far the middle stands above the ends, outside.
    pub rise: Length,
    /// A side along which the top rises; the longer pair when not given.
    pub along: Option<String>,
    /// How the lower edge of the skirts there runs.
    pub skirt_edge: SkirtEdge,
}

/// How the lower edge of a crowned side's skirt runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum SkirtEdge {
    /// Level with the edge of the skirts at the ends: the skirt is deeper by the rise in the middle.
    #[default]
    Level,
    /// Along the crown: the skirt is as deep, plumb, all along.
    AlongCrown,
}

/// Two opposite sides of a crowned lid: those along which it rises, by number.
type Rising = [usize; 2];

impl Recipe for CrownedLid {
    fn word(&self) -> &'static str {
        "lid"
    }

    fn words(&self) -> &'static str {
        "crowned lid"
    }

    fn natural_face(&self) -> Option<FaceSide> {
        Some(FaceSide::Outside)
    }

    fn tight_field(&self) -> &'static str {
        "crown.rise"
    }

    fn is_lid(&self) -> bool {
        true
    }

    fn shape_piece(&self, _: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let mut problems = Vec::new();
        making.above_zero("skirt", self.lid.skirt, &mut problems);
        making.above_zero("crown.rise", self.crown.rise, &mut problems);
        let (plan, sum) = match self.lid.top(making) {
            Ok(plan) => plan,
            Err(more) => return Err([problems, more].concat()),
        };
        let rising = match self.rising(&plan) {
            Ok(rising) => rising,
            Err(problem) => return Err([problems, vec![problem]].concat()),
        };
        self.check(&plan, rising, making, &mut problems);
        if !problems.is_empty() {
            return Err(problems);
        }
        let shell = self.shell(&plan, rising, making);
        let mut built = shell.piece(0).map_err(|error| vec![shell_problem(&error, "crown", making)])?;
        built.part.spring_slight(|parent, child| {
            [parent, child].iter().all(|name| name.starts_with("top toward "))
        });
        let heights = self.skirt_heights(&plan, rising, &built);
        built.part.sizes.extend(heights);
        let mut facts: Vec<Fact> = sum.into_iter().collect();
        facts.extend(self.facts(&plan, rising, making));
        facts.extend(shell.weld_facts(&built, making)?);
        Ok(Shaped { part: built.part, facts })
    }

    fn places(&self, _: usize, making: &Making) -> Places {
        self.lettered(making).map_or_else(Places::default, |corners| Places { corners, ..Places::default() })
    }
}

impl CrownedLid {
    /// The two sides along which the top rises.
    fn rising(&self, plan: &Figure) -> Result<Rising, Problem> {
        if plan.count() != 4 {
            let wrong = "one bend crowns only a lid of four sides";
            let value = format!("{} sides", plan.count());
            return Err(Problem::new("crown", value, wrong, "make the lid flat, or a tapered_lid"));
        }
        let first = match &self.crown.along {
            None => usize::from(plan.side_mm(1) + plan.side_mm(3) > plan.side_mm(0) + plan.side_mm(2)),
            Some(side) => plan.side_number(side).ok_or_else(|| {
                let remedy = format!("the sides are {}", plan.sides.join(", "));
                Problem::new("crown.along", side, "the lid has no such side", remedy)
            })?,
        };
        Ok([first % 2, first % 2 + 2])
    }

    /// The ends must run alike, or the halves of the top would be twisted; and a rise is no wall.
    fn check(&self, plan: &Figure, [first, _]: Rising, making: &Making, problems: &mut Vec<Problem>) {
        let along = |side: usize| {
            let (a, b) = plan.side(side % 4);
            (b - a).unit()
        };
        let off_rad = along(first + 1).cross(along(first + 3)).abs();
        let shortest_mm = plan.side_mm(first + 1).min(plan.side_mm((first + 3) % 4));
        if off_rad * shortest_mm > tolerance::SAME_POINT_MM {
            let ends = [first + 1, (first + 3) % 4].map(|side| plan.sides[side].clone());
            let wrong = format!("{} and {} are not parallel: both halves would be twisted", ends[0], ends[1]);
            let remedy =
                "crown it along the other pair, if that one's ends are parallel, or leave the lid flat";
            problems.push(Problem::new("crown", "one bend", wrong, remedy));
        }
        let most_mm =
            [first, first + 2].map(|side| 0.5 * plan.side_mm(side)).into_iter().fold(f64::INFINITY, f64::min);
        if self.crown.rise.millimetres() >= most_mm {
            let wrong = "is as much as half the lid or more: the halves would stand steeper than 45°";
            let remedy = format!("keep it under {}", making.print_mm(most_mm));
            problems.push(Problem::new("crown.rise", making.print(self.crown.rise), wrong, remedy));
        }
    }

    /// Both halves of the top, bent to one another, and the skirts, each bent off its half.
    fn shell(&self, plan: &Figure, [first, _]: Rising, making: &Making) -> Shell {
        let mut shell = Shell {
            plates: Vec::new(),
            bends: vec![(0, 1)],
            number: making.number.clone(),
            // Two drilled holes would lie in one another: they would be no farther apart than the crown's zone is wide.
            making: Corners { relief: Relief::Square, ..making.corners() },
        };
        let corner = |number: usize| at_height(plan.corners[(first + number) % 4], 0.0);
        let [a, b, c, d] = [0, 1, 2, 3].map(corner);
        let rise_mm = self.crown.rise.millimetres();
        let crown = |a: Point3, b: Point3| {
            let middle = a.toward(b, 0.5);
            Point3::new(middle.x, middle.y, rise_mm)
        };
        let (m, n) = (crown(a, b), crown(c, d));
        let side = |number: usize| plan.sides[(first + number) % 4].as_str();
        let end = |number: usize| plan.names[(first + number) % 4].as_str();
        let top = |end: &str, corners: [Point3; 4]| {
            ShellPlate::new(format!("top toward {end}"), corners.to_vec(), Face)
        };
        shell.plates.push(top(side(3), [a, m, n, d]));
        shell.plates.push(top(side(1), [m, b, c, n]));
        let half = |number: usize, near: usize| format!("skirt {} at {}", side(number), end(near));
        let skirts = [
            (0, 0, half(0, 0), [a, m]),
            (1, 0, half(0, 1), [m, b]),
            (1, 1, format!("skirt {}", side(1)), [b, c]),
            (1, 2, half(2, 2), [c, n]),
            (0, 2, half(2, 3), [n, d]),
            (0, 3, format!("skirt {}", side(3)), [d, a]),
        ];
        for (top, number, name, [from, to]) in skirts {
            shell.bends.push((top, shell.plates.len()));
            let corners = vec![self.foot(from), self.foot(to), to, from];
            let mut skirt = ShellPlate::new(name, corners, Face);
            skirt.side = Some((side(number).to_owned(), plan.side_mm((first + number) % 4)));
            shell.plates.push(skirt);
        }
        shell
    }

    /// The edge of the skirt below a place on its fold.
    fn foot(&self, fold: Point3) -> Point3 {
        let skirt_mm = self.lid.skirt.millimetres();
        let z = match self.crown.skirt_edge {
            SkirtEdge::Level => -skirt_mm,
            SkirtEdge::AlongCrown => fold.z - skirt_mm,
        };
        Point3::new(fold.x, fold.y, z)
    }

    fn facts(&self, plan: &Figure, rising: Rising, making: &Making) -> Vec<Fact> {
        let rise_mm = self.crown.rise.millimetres();
        let mut facts = crate::plan::side_facts(plan, "rim of the top, outside,", "plan of the lid");
        facts.push(Fact::length_mm("skirt at the ends, outside", self.lid.skirt.millimetres(), "skirt"));
        let middle_mm = match self.crown.skirt_edge {
            SkirtEdge::Level => self.lid.skirt.millimetres() + rise_mm,
            SkirtEdge::AlongCrown => self.lid.skirt.millimetres(),
        };
        facts.push(Fact::length_mm("skirt at the crown, outside", middle_mm, "skirt, crown"));
        // The halves fall along the level lines' common normal: square to the ends.
        let (a, b) = plan.side(rising[0]);
        let (c, d) = plan.side((rising[0] + 1) % 4);
        let run_mm = 0.5 * (b - a).dot((d - c).unit().right()).abs();
        let slope_rad = trig::atan2(rise_mm, run_mm);
        facts.push(Fact::angle_rad(
            "turn at the crown",
            2.0 * slope_rad,
            "twice atan(rise / half the length)",
        ));
        facts.push(Fact::length_mm(
            "half of the top, along the slope",
            trig::hypot(rise_mm, run_mm),
            "crown, plan",
        ));
        if making.relief != ReliefStyle::Square {
            let words =
                "sawn notches at all corners: two drilled holes at the crown would lie in one another";
            facts.push(Fact::words("relief", words, "shop.relief, crown"));
        }
        let edge = match self.crown.skirt_edge {
            SkirtEdge::Level => "lower edge level",
            SkirtEdge::AlongCrown => "lower edge along the crown",
        };
        for side in rising {
            let v_rad = 2.0 * trig::atan2(rise_mm, 0.5 * plan.side_mm(side));
            let mouth = making.print_mm(2.0 * middle_mm * trig::sin(0.5 * v_rad));
            let words = format!(
                "two plates, {edge}; on the flat a V of {:.2}°, about {mouth} at the edge, closes as the crown is bent; weld it",
                v_rad.to_degrees()
            );
            facts.push(Fact::words(format!("skirt {}", plan.sides[side]), words, "crown.rise, plan"));
        }
        facts
    }
}
