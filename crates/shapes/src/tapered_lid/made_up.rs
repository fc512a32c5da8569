//! A tapered lid with everything a shop may ask of it: made up of several pieces, set flush into its opening, a hinge side
//! that may be plumb, a lifting notch.

use geometry::Frame;
use units::Length;

use super::TaperedLid;
use super::facts;
use super::plates::LidPlates;
use super::ridge;
use crate::edge::EdgeEnd;
use crate::nearest::{Way, smaller_edge};
use crate::{Clearance, FaceSide, Fact, Figure, Making, Piece, Problem, Recipe, Shaped, whole};

/// A tapered lid with its making and fittings.
#[derive(Debug, Clone, PartialEq)]
pub struct MadeUpLid {
    /// Opening, rise, insets, skirt, return; an inset of zero is a plumb side. The outset counts for a proud lid only.
    pub lid: TaperedLid,
    /// How it sits.
    pub seat: Seat,
    /// Its hinge.
    pub hinge: Option<Hinge>,
    /// How it is made up.
    pub made: LidMade,
    /// A notch to lift it by.
    pub notch: Option<LiftingNotch>,
    /// What is done to the foot of its skirt, all round. It keeps the depth of the skirt to the outermost metal.
    pub edge: EdgeEnd,
}

/// How a lid sits on its opening.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Seat {
    /// Its skirt goes round the opening.
    Proud,
    /// Its skirt goes into the opening, down to a gutter or ledge, with this clearance on each side.
    Flush(Clearance),
}

/// The hinge of a lid.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hinge {
    /// The side it is on.
    pub side: String,
    /// What the hinge leaf takes between the skirt and what it hinges to.
    pub leaf: Length,
}

/// How a tapered lid is made up.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LidMade {
    /// One piece, every hip and skirt corner welded.
    OnePiece,
    /// The top for itself, and the sides as one strip bent at all hips but one.
    TopAndRing,
    /// Two pieces, parted along a line across the lid.
    TwoHalves(Split),
    /// The top and every side for itself.
    Plates,
}

/// The line that parts a lid.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Split {
    /// The two sides it crosses, and where: along the rim from the side's first corner.
    pub ends: [(String, Length); 2],
    /// Depth of a flange turned down along the line on both halves, to join them by; butted when not given.
    pub flange: Option<Length>,
}

/// A notch in the edge of a skirt, to put a hand or a bar under.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LiftingNotch {
    /// The side.
    pub side: String,
    /// From the rim's first corner of the side to the middle of the notch; the middle of the side when not given.
    pub at: Option<Length>,
    /// Along the skirt.
    pub width: Length,
    /// Up from the edge of the skirt.
    pub depth: Length,
    /// How far its two inner corners are taken off at 45°, so that no sharp corner is left to a hand or a crack.
    pub corner: Length,
}

impl Recipe for MadeUpLid {
    fn word(&self) -> &'static str {
        "tapered_lid"
    }

    fn words(&self) -> &'static str {
        "tapered lid"
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

    fn boxed(&self) -> Option<Box<dyn Recipe>> {
        Some(Box::new(self.clone()))
    }

    fn ways<'a>(&'a self, making: &'a Making) -> Vec<Way<'a>> {
        let mut ways =
            smaller_edge("edge", (self.edge, making), |edge| Box::new(Self { edge, ..self.clone() }));
        ways.extend(self.lid.movable(making, |lid| Box::new(Self { lid, ..self.clone() })));
        ways.extend(self.split_ways(making));
        ways
    }

    fn pieces(&self) -> Vec<Piece> {
        let piece = |suffix: &str, words: String| Piece { suffix: suffix.to_owned(), words, count: 1 };
        let top = || piece("top", "top of the lid".to_owned());
        match &self.made {
            LidMade::OnePiece => Vec::new(),
            LidMade::TopAndRing => vec![top(), piece("ring", "sides of the lid, in one strip".to_owned())],
            LidMade::TwoHalves(_) => {
                (1..=2).map(|half| piece(&format!("half{half}"), format!("half {half} of the lid"))).collect()
            }
            LidMade::Plates => {
                let side = |name: &String| piece(name, format!("side {name} of the lid"));
                std::iter::once(top()).chain(self.lid.over.sides.iter().map(side)).collect()
            }
        }
    }

    fn put_together(&self, making: &Making) -> Vec<(usize, Frame)> {
        if self.pieces().is_empty() {
            return Vec::new();
        }
        let roots = self.rim(making).and_then(|(rim, _)| {
            let top = self.top(&rim, making)?;
            Ok(LidPlates::new(self, &rim, &top, making)?.root_frames())
        });
        whole::numbered(roots.unwrap_or_default())
    }

    fn whole_sizes(&self, making: &Making) -> Vec<Fact> {
        let Ok((rim, _)) = self.rim(making) else { return Vec::new() };
        let Ok(top) = self.top(&rim, making) else { return Vec::new() };
        vec![
            Fact::words(
                "over the rim, outside",
                whole::sides_words(&rim, making),
                "over, outset, flush, hinge",
            ),
            Fact::words("top, outside", whole::sides_words(&top, making), "over, inset"),
            Fact::words("rise of the top over the rim", making.print(self.lid.rise), "rise"),
            Fact::words("depth of the skirt", making.print(self.lid.skirt), "skirt"),
        ]
    }

    fn shape_piece(&self, piece: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        self.check(making)?;
        let (rim, sum) = self.rim(making)?;
        let top = self.top(&rim, making)?;
        let plates = LidPlates::new(self, &rim, &top, making)?;
        let (built, welds) = plates.piece(piece)?;
        let mut facts = vec![sum];
        facts.extend(self.edge_fact(making));
        facts.extend(self.fitting_facts(making));
        facts.extend(facts::analytic(&self.lid, &rim, &top));
        facts.extend(welds);
        Ok(Shaped { part: built.part, facts })
    }
}

impl MadeUpLid {
    fn check(&self, making: &Making) -> Result<(), Vec<Problem>> {
        let mut problems = Vec::new();
        self.lid.check_sizes(making, &mut problems);
        for (inset, side) in self.lid.inset.iter().zip(&self.lid.over.sides) {
            making.not_below_zero(&format!("inset.{side}"), *inset, &mut problems);
        }
        if self.lid.inset.iter().all(|inset| *inset <= Length::ZERO) {
            let remedy = "give at least one side an inset above zero, or make it a \"lid\"";
            problems.push(Problem::new("inset", "zero all round", "no side slopes", remedy));
        }
        if let Some(hinge) = &self.hinge {
            hinge.check(&self.lid.over, making, &mut problems);
        }
        if let Some(notch) = &self.notch {
            problems.extend(no_such_side("notch.side", &notch.side, &self.lid.over));
        }
        self.check_notch(making, &mut problems);
        self.check_edge(making, &mut problems);
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }

    fn check_notch(&self, making: &Making, problems: &mut Vec<Problem>) {
        let Some(notch) = &self.notch else { return };
        making.above_zero("notch.width", notch.width, problems);
        making.above_zero("notch.depth", notch.depth, problems);
        making.not_below_zero("notch.corner", notch.corner, problems);
        // The return, or the edge, stops at both sides of the notch, its bend with it.
        let of_return = making.number.inside_radius() + making.number.thickness();
        let bent = match self.lid.return_width {
            Some(_) => Some((of_return, "return")),
            None => Some((self.edge.takes(making), self.edge.kind())).filter(|_| !self.edge.is_plain()),
        };
        if let Some((least, what)) = bent.filter(|(least, _)| notch.depth <= *least) {
            let wrong = format!("the notch ends within the bend of the {what}");
            let remedy = format!("make it deeper than {}, or leave out the {what}", making.print(least));
            problems.push(Problem::new("notch.depth", making.print(notch.depth), wrong, remedy));
        }
        // The skirt must keep its bend at the rim: a quarter turn takes R + T of it at the most.
        let most = self.lid.skirt - making.number.inside_radius() - making.number.thickness();
        if most <= notch.depth {
            let wrong = format!(
                "the notch reaches the bend at the rim of a skirt {} deep",
                making.print(self.lid.skirt)
            );
            let no_room = format!(
                "the bend at the rim takes {} of the skirt; make the skirt deeper",
                making.print(self.lid.skirt - most)
            );
            let remedy = making.keep_under(most.millimetres(), &no_room);
            problems.push(Problem::new("notch.depth", making.print(notch.depth), wrong, remedy));
        }
        if self.on_hinge_side(notch) {
            let wrong = "the lid is hinged on this side: it lifts at another";
            let remedy = "put the notch on a side without the hinge";
            problems.push(Problem::new("notch.side", &notch.side, wrong, remedy));
        }
        let most_corner = notch.depth.min(Length::from_millimetres(0.5 * notch.width.millimetres()));
        if most_corner <= notch.corner {
            let wrong = "the corners take all of the notch";
            let remedy = making.keep_under(most_corner.millimetres(), "the notch has no depth or width");
            problems.push(Problem::new("notch.corner", making.print(notch.corner), wrong, remedy));
        }
    }

    fn on_hinge_side(&self, notch: &LiftingNotch) -> bool {
        let number = |side: &str| self.lid.over.side_number(side);
        self.hinge
            .as_ref()
            .is_some_and(|hinge| number(&hinge.side).is_some() && number(&hinge.side) == number(&notch.side))
    }

    /// Outside of the skirt, and the sum that leads there.
    fn rim(&self, making: &Making) -> Result<(Figure, Fact), Vec<Problem>> {
        let over = &self.lid.over;
        let mut problems = Vec::new();
        let (outward, words, field) = match &self.seat {
            Seat::Proud => {
                let words = format!("opening plus {} a side", making.print(self.lid.outset));
                (self.lid.outset, words, "outset")
            }
            Seat::Flush(free) => {
                let total = free.checked_total(making, &mut problems);
                (-total, format!("opening less {}", free.sum_words(making.style)), "flush")
            }
        };
        if !problems.is_empty() {
            return Err(problems);
        }
        let mut each = vec![outward; over.count()];
        let mut words = format!("outside of the skirt = {words}");
        if let Some((number, hinge)) =
            self.hinge.as_ref().and_then(|hinge| Some((over.side_number(&hinge.side)?, hinge)))
        {
            let (leaf, sign) = match self.seat {
                Seat::Proud => (hinge.leaf, "plus"),
                Seat::Flush(_) => (-hinge.leaf, "less"),
            };
            each[number] += leaf;
            words = format!("{words}, at {} {sign} {} hinge leaf", hinge.side, making.print(hinge.leaf));
        }
        let outward: Vec<f64> = each.iter().map(|length| length.millimetres()).collect();
        let rim = over.moved(&outward).ok_or_else(|| {
            let narrow = (0..over.count()).map(|side| over.side_mm(side)).fold(f64::INFINITY, f64::min);
            let remedy = making.keep_under(0.5 * narrow, "the opening has no width");
            vec![Problem::new(field, making.print(outward_of(&each)), "leaves no rim", remedy)]
        })?;
        let name = if matches!(self.seat, Seat::Proud) { "goes over" } else { "sits flush in" };
        Ok((rim, Fact::words(name, words, "over, outset, flush, hinge")))
    }

    /// Outside of the top.
    fn top(&self, rim: &Figure, making: &Making) -> Result<Figure, Vec<Problem>> {
        let inward: Vec<f64> = self.lid.inset.iter().map(|inset| -inset.millimetres()).collect();
        let meets = || vec![ridge::meets_problem(rim, &self.lid.inset, self.lid.rise, making)];
        rim.moved(&inward).ok_or_else(meets)
    }

    fn fitting_facts(&self, making: &Making) -> Vec<Fact> {
        let mut facts = Vec::new();
        facts.extend(self.hinge.as_ref().map(|hinge| hinge.fact(making)));
        if let Some(notch) = &self.notch {
            let returned = match self.lid.return_width {
                Some(_) => "; the return stops at it".to_owned(),
                None if self.edge.is_plain() => String::new(),
                None => format!("; the {} stops at it", self.edge.kind()),
            };
            let words = format!(
                "{} wide, {} deep in the skirt {}, inner corners taken off {}{returned}",
                making.print(notch.width),
                making.print(notch.depth),
                notch.side,
                making.print(notch.corner)
            );
            facts.push(Fact::words("lifting notch", words, "notch"));
        }
        facts
    }
}

impl Hinge {
    /// What is wrong with it.
    pub(super) fn check(&self, over: &Figure, making: &Making, problems: &mut Vec<Problem>) {
        problems.extend(no_such_side("hinge.side", &self.side, over));
        making.not_below_zero("hinge.leaf", self.leaf, problems);
    }

    /// What the shop reads of it.
    pub(super) fn fact(&self, making: &Making) -> Fact {
        let words = format!(
            "{}, {} leaf; hold the lid open with a stay before leaning in",
            self.side,
            making.print(self.leaf)
        );
        Fact::words("hinge side", words, "hinge")
    }
}

fn no_such_side(field: &str, side: &str, over: &Figure) -> Option<Problem> {
    let remedy = || format!("the sides are {}", over.sides.join(", "));
    let is_there = over.side_number(side).is_some();
    (!is_there).then(|| Problem::new(field, side, "the opening has no such side", remedy()))
}

/// The length most against the rim, for its message.
fn outward_of(each: &[Length]) -> Length {
    each.iter().copied().min().unwrap_or(Length::ZERO)
}
