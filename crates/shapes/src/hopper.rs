//! A hopper, or turned over a canopy: four faces between a rim and a collar in parallel planes, the collar off centre or
//! turned. Rim and collar are sized to the **inside**; the marked face is the outside.
//!
//! A face whose rim side and collar side run parallel is flat. One whose sides do not (a turned collar, a crooked rim)
//! is warped: it is made of two triangles with one more bend across it, along the diagonal that stands outward.
//!
//! Worked as a canopy, rim below and collar above, its corners counter-clockwise from above. With the rim above, and its
//! corners taped from above too, it is the opposite hand.

mod check;
mod design;
mod facts;
mod nearest;
mod sizes;
mod weld_flanges;

use fold::refold::{Overlap, RefoldError};
use geometry::Frame;
use units::{Angle, Length};

use crate::{FaceSide, Fact, Figure, Making, Piece, Places, Problem, Recipe, Shaped};
use crate::{joined, whole};

/// A hopper.
#[derive(Debug, Clone, PartialEq)]
pub struct Hopper {
    /// The large mouth, inside, four corners.
    pub rim: Figure,
    /// The small mouth, inside, in the same coordinates and lettered alike.
    pub collar: Figure,
    /// Square from the plane of the rim to the plane of the collar, where the insides of the plates cross.
    pub rise: Length,
    /// What the rim ends in.
    pub rim_edge: RimEdge,
    /// Which way up it stands, by which its corners were taped.
    pub stands: HopperStands,
    /// Plumb collar beyond the collar's plane.
    pub collar_height: Option<Length>,
    /// How it is made up.
    pub made: HopperMade,
    /// The flattest slope from level that a face may have, so that grease or grain runs off.
    pub least_slope: Option<Angle>,
}

/// Which way up a hopper stands. Its corners A, B, C, D are always taped from above, counter-clockwise: the same sizes make
/// opposite hands of a canopy and of a hopper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum HopperStands {
    /// Rim below, collar above: a canopy.
    #[default]
    RimDown,
    /// Rim above, collar below: a hopper.
    RimUp,
}

/// What the rim of a hopper ends in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RimEdge {
    /// Cut edges.
    None,
    /// A level flange outward, so wide from the rim's inside line.
    Flange(Length),
    /// A channel turned inside that catches what runs down: a plumb leg, a bottom and a lip.
    Drip {
        /// From the rim's plane down to the outside of the bottom.
        down: Length,
        /// Over the leg and the lip.
        inward: Length,
        /// From the outside of the bottom up to the edge of the lip.
        up: Length,
    },
}

/// How a hopper is made up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HopperMade {
    /// One piece, bent at three hips and welded at the fourth, which is at corner A.
    OnePiece,
    /// Two pieces, bent at the hips B and D and welded at A and C.
    TwoHalves,
    /// Four plates, welded at every hip.
    FourPlates {
        /// Width of a flange along both hips of the faces AB and CD, inside the faces BC and DA; edge to edge when
        /// not given.
        weld_flange: Option<Length>,
    },
}

impl Recipe for Hopper {
    fn word(&self) -> &'static str {
        "hopper"
    }

    fn words(&self) -> &'static str {
        "hopper"
    }

    fn natural_face(&self) -> Option<FaceSide> {
        Some(FaceSide::Outside)
    }

    fn tight_field(&self) -> &'static str {
        "made"
    }

    fn pieces(&self) -> Vec<Piece> {
        let piece = |suffix: &str, words: String| Piece { suffix: suffix.to_owned(), words, count: 1 };
        let sides = &self.rim.sides;
        let joined = |first: usize, second: usize| {
            format!("faces {} and {} of the hopper", sides[first], sides[second])
        };
        let mut pieces = match self.made {
            HopperMade::OnePiece if self.collar_height.is_none() => return Vec::new(),
            HopperMade::OnePiece => vec![piece("body", "body of the hopper".to_owned())],
            HopperMade::TwoHalves => vec![piece("half1", joined(0, 1)), piece("half2", joined(2, 3))],
            HopperMade::FourPlates { .. } => {
                return sides.iter().map(|side| piece(side, format!("face {side} of the hopper"))).collect();
            }
        };
        if self.collar_height.is_some() {
            pieces.push(piece("collar", "collar of the hopper".to_owned()));
        }
        pieces
    }

    fn shape_piece(&self, piece: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        self.check(making)?;
        let made = self.made_piece(piece, making);
        if !self.has_edges() {
            return made;
        }
        let shaped = made.map_err(|problems| self.with_nearest(piece, problems, making))?;
        let proof = shaped.unfold().map(|flat| fold::refold::prove(&shaped.part, &flat));
        if let Ok(Err(RefoldError::RunsInto { first, second, depth_mm })) = proof {
            let overlap = Overlap { first, second, depth_mm };
            let problem = joined::overlap_problem(&overlap, "made", making);
            return Err(self.with_nearest(piece, vec![problem], making));
        }
        Ok(shaped)
    }

    fn put_together(&self, making: &Making) -> Vec<(usize, Frame)> {
        let Ok(design) = self.design(making) else { return Vec::new() };
        if self.pieces().is_empty() {
            return Vec::new();
        }
        let roots = design.shell.roots(design.roots.iter().copied());
        let down = geometry::Vector3::new(0.0, 0.0, 1.0);
        whole::numbered(roots.into_iter().map(|root| match self.stands {
            HopperStands::RimDown => root,
            HopperStands::RimUp => root.of_mirrored(down),
        }))
    }

    fn whole_sizes(&self, making: &Making) -> Vec<Fact> {
        self.whole(making)
    }

    fn places(&self, piece: usize, making: &Making) -> Places {
        let Ok(design) = self.design(making) else { return Places::default() };
        let root = design.roots[piece.min(design.roots.len() - 1)];
        let shell = &design.shell;
        let letter = |corner: &geometry::Point3| self.letter_at(*corner);
        let letters: Vec<Option<String>> = shell.plates[root].corners.iter().map(letter).collect();
        let places = Places { corners: shell.lettered(root, &letters), ..Places::default() };
        match self.stands {
            HopperStands::RimDown => places,
            HopperStands::RimUp => places.mirrored(),
        }
    }
}

impl Hopper {
    /// A piece of sizes that were checked.
    fn made_piece(&self, piece: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let design = self.design(making)?;
        let root = design.roots[piece.min(design.roots.len() - 1)];
        let mut built = self.build(&design, root, making)?;
        // The diagonal of a face that taped corners put out of plane by a hair is no bend.
        let face = |name: &str| name.split_once(" at the ").map(|(face, _)| face.to_owned());
        built.part.spring_slight(|parent, child| face(parent).is_some() && face(parent) == face(child));
        let sizes = self.sizes(&design, &built);
        built.part.sizes.extend(sizes);
        let mut facts = self.facts(making);
        facts.extend(design.shell.weld_facts(&built, making)?);
        let part = match self.stands {
            HopperStands::RimDown => built.part,
            HopperStands::RimUp => built.part.mirrored(),
        };
        Ok(Shaped { part, facts })
    }
}
