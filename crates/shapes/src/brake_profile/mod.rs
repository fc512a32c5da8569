//! A brake-formed profile: legs and turns in order, over a length. Channels, angles, zees, hats, gutters, toe plates.
//!
//! The profile is read off its end, leg by leg; the face seen is the marked one, and *up* turns toward it. Each leg says
//! to what it is measured ([`LegTo`]). Where neighbouring bends reverse, a leg runs from the mold line on one face to
//! the mold line on the other, so a zee's web is its full height over both flanges: no thickness is lost or counted
//! twice. Above a quarter turn legs run to the outermost metal, as the handbooks measure (DIN 6935).
//!
//! Ends are square, mitred in plan or mitred in height; single legs may stop short. No metal stands past the plane of a
//! mitre: each leg is cut square to its face where its nearer face meets that plane; bend zones are cut straight from
//! leg to leg. A long profile may be made in pieces, joined at stations.

mod edges;
mod ends;
mod legs;
mod nearest;
mod pieces;
mod strip;

use fold::Direction;
use fold::part::{FoldedPart, Measure, Size};
use geometry::{Frame, Point, polygon, tolerance, trig};
use units::{Angle, Length};

use crate::edge::EdgeEnd;
use crate::hole::Hole;
use crate::nearest::Way;
use crate::places::between_pieces;
use crate::{Fact, Making, Piece, Places, Problem, Recipe, Shaped, whole};

use legs::Section;

/// A profile.
#[derive(Debug, Clone, PartialEq)]
pub struct BrakeProfile {
    /// Over all, to where the mitres meet the outermost mold line or edge.
    pub length: Length,
    /// Legs in order, one more than there are bends.
    pub legs: Vec<Leg>,
    /// What lies between each leg and the next.
    pub bends: Vec<ProfileBend>,
    /// The leg that lies flat, by its place in `legs`: mitres in plan are laid out on it.
    pub flat_leg: usize,
    /// The start of the profile and its far end.
    pub ends: [End; 2],
    /// What is done to the free edges of the first and of the last leg, which then run to the outermost metal of it.
    pub edges: [EdgeEnd; 2],
    /// Where it is made in pieces: stations from the start, rising.
    pub joints: Vec<Length>,
    /// Left open at each joint.
    pub joint_gap: Length,
}

/// One flat of the profile.
#[derive(Debug, Clone, PartialEq)]
pub struct Leg {
    /// Its size.
    pub length: Length,
    /// To what it is measured.
    pub to: LegTo,
    /// How far it stops short of the profile's start and of its far end.
    pub short: [Length; 2],
    /// Holes: along from the start of the profile, across from the leg's first edge or mold line.
    pub holes: Vec<Hole>,
}

/// To what a leg is measured at its bends. A free edge is a free edge.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LegTo {
    /// The mold line, where the outsides meet.
    Outside,
    /// Where the insides meet.
    Inside,
    /// Where the middles of the plates meet.
    Centre,
    /// The straight alone, from tangent line to tangent line.
    Straight,
}

/// What joins two legs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ProfileBend {
    /// One bend.
    Bend {
        /// From flat, up to half a circle.
        turn: Angle,
        /// Toward the marked face or away from it.
        direction: Direction,
        /// Inside radius, when not the metal's own; zero for a hem of half a turn, pressed flat.
        radius: Option<Length>,
        /// How it is made.
        way: BendWay,
    },
    /// Two bends, there and back, that set the next leg off.
    Joggle {
        /// How far the next leg is set off, face to like face.
        depth: Length,
        /// To which side.
        direction: Direction,
        /// Turn of both bends.
        turn: Angle,
    },
}

/// How a bend is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BendWay {
    /// One stroke of the brake.
    Brake,
    /// A hem or return: bent over and left at its radius.
    Hem,
    /// Bumped in so many strikes.
    Bumped(u32),
    /// Rolled.
    Rolled,
}

/// One end of a profile.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// Square across.
    Square,
    /// Cut at an angle in plan, as seen on the flat leg: above zero where the later legs are the longer.
    Plan(Angle),
    /// Cut at an angle in height over the flat leg: above zero where what stands on its marked face is the longer.
    Height(Angle),
}

impl Recipe for BrakeProfile {
    fn word(&self) -> &'static str {
        "brake_profile"
    }

    fn words(&self) -> &'static str {
        "brake-formed profile"
    }

    fn tight_field(&self) -> &'static str {
        "legs"
    }

    fn pieces(&self) -> Vec<Piece> {
        pieces::pieces(self)
    }

    fn ways<'a>(&'a self, making: &'a Making) -> Vec<Way<'a>> {
        self.sizes(making)
    }

    fn shape_piece(&self, piece: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        self.shape(piece, making)
    }

    fn put_together(&self, _: &Making) -> Vec<(usize, Frame)> {
        // The flat leg of every piece is drawn at its stations along the profile.
        whole::numbered(vec![Frame::WORLD; self.pieces().len()])
    }

    fn whole_sizes(&self, making: &Making) -> Vec<Fact> {
        let stations: Vec<String> = self.joints.iter().map(|at| making.print(*at)).collect();
        let words =
            format!("{} from the start, each {} open", stations.join(", "), making.print(self.joint_gap));
        vec![
            Fact::words("length over all", making.print(self.length), "length"),
            Fact::words("middles of the joints", words, "joints, joint_gap"),
        ]
    }

    fn places(&self, piece: usize, making: &Making) -> Places {
        self.shape(piece, making)
            .map_or_else(|_| Places::default(), |shaped| self.ends(piece, &shaped.part, making))
    }
}

impl BrakeProfile {
    /// Which end of a piece of several lies toward the start: without that nobody knows which end joins which.
    fn ends(&self, piece: usize, part: &FoldedPart, making: &Making) -> Places {
        let Some(root) = part.faces.first().filter(|_| !self.joints.is_empty()) else {
            return Places::default();
        };
        let (low, high) = polygon::bounds(&root.corners);
        let toward = |end: &str, joint: usize, other: usize| {
            let between = between_pieces(&(joint + 1).to_string(), self.joint_gap, other, making);
            format!("toward the {end}, {between}")
        };
        let start = match piece {
            0 => "START".to_owned(),
            _ => toward("start", piece - 1, piece),
        };
        let end = match self.joints.len() {
            last if piece == last => "END".to_owned(),
            _ => toward("end", piece, piece + 2),
        };
        Places::default().with_edge(&start, low, Point::new(low.x, high.y)).with_edge(
            &end,
            Point::new(high.x, low.y),
            high,
        )
    }

    /// Shapes piece number `piece`, or the whole (0) where there are no joints.
    ///
    /// # Errors
    /// Every [`Problem`]: legs shorter than their bends take, turns out of range, joggles too shallow, legs that run
    /// into one another, mitres longer than the profile, joints or holes out of place.
    pub fn shape(&self, piece: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        let section = Section::new(self, making)?;
        let trims = ends::trims(self, &section, making)?;
        let span = pieces::span(self, piece, &trims, making)?;
        let holes = strip::holes(self, &section, span, making)?;
        let trims = ends::clipped(&trims, span);
        let mut part = strip::fold(&section, &trims, making);
        strip::place_holes(&mut part, &section, &trims, &holes);
        part.sizes = sizes(&part, &section, self.edges.map(|end| end.is_plain()));
        let mut facts = self.facts(&part, &section, span);
        facts.extend(self.treat_edges(&mut part, &section, (span, making))?);
        Ok(Shaped { part, facts })
    }

    fn facts(&self, part: &FoldedPart, section: &Section, span: [f64; 2]) -> Vec<Fact> {
        let legs: f64 = section.legs.iter().map(|leg| leg.outside_mm).sum();
        let taken: f64 = (0..part.bends.len()).map(|number| part.deduction_mm(number)).sum();
        let mut facts = vec![
            Fact::length_mm("length over the mold lines", span[1] - span[0], "length, joints"),
            Fact::length_mm(
                if self.has_edges() {
                    "developed width, without what its edges take"
                } else {
                    "developed width"
                },
                legs - taken,
                "sum of the outside legs less a deduction a bend",
            ),
        ];
        for (number, leg) in section.legs.iter().enumerate() {
            let name = format!("{}, to {}", leg.name, section.ends_words(number));
            facts.push(Fact::length_mm(name, leg.outside_mm, "legs, bends"));
        }
        for (number, bend) in section.bends.iter().enumerate() {
            let at = section.part_bend(number);
            let name = format!("deduction of bend {}", number + 1);
            let way = if bend.direction == Direction::Up { "up" } else { "down" };
            facts.push(Fact::length_mm(name, part.deduction_mm(at), format!("bend number, bent {way}")));
        }
        facts
    }
}

/// Legs between two square bends, and the depth of joggles: what lies between parallel planes.
fn sizes(part: &FoldedPart, section: &Section, plain: [bool; 2]) -> Vec<Size> {
    let square = |turn: f64| (turn - std::f64::consts::FRAC_PI_2).abs() <= tolerance::PARALLEL_SINE;
    let mut sizes = Vec::new();
    for (leg, pair) in section.bends.windows(2).enumerate() {
        let (before, after) = (section.part_face(leg), section.part_face(leg + 2));
        let middle = &section.legs[leg + 1];
        let (sides, expected_mm, what) = if let Some(depth_mm) = middle.joggle_mm {
            ([fold::Side::Face; 2], depth_mm, "depth")
        } else if square(pair[0].turn_rad) && square(pair[1].turn_rad) {
            ([pair[0].direction.outside(), pair[1].direction.outside()], middle.outside_mm, "outside")
        } else {
            continue;
        };
        sizes.push(Size {
            name: format!("{}, {what}", middle.name),
            measure: Measure::Planes((before, sides[0]), (after, sides[1])),
            expected_mm,
        });
    }
    debug_assert!(part.faces.len() == section.legs.len(), "a leg is a face");
    sizes.extend(end_sizes(section, plain));
    sizes
}

/// How far the first and the last leg stand off their neighbours. Past square the leg runs to the outermost metal, and its edge is
/// no longer what stands highest; nor is that of a leg whose edge is not `plain`.
fn end_sizes(section: &Section, plain: [bool; 2]) -> Vec<Size> {
    let Some(last) = section.bends.len().checked_sub(1) else { return Vec::new() };
    let up_to_square =
        |bend: usize| section.bends[bend].turn_rad <= std::f64::consts::FRAC_PI_2 + tolerance::PARALLEL_SINE;
    let of_end = |((bend, leg, beside), plain): ((usize, usize, usize), bool)| {
        let (own, other) = (&section.legs[leg], &section.legs[beside]);
        let is_plain = plain && own.joggle_mm.is_none() && other.joggle_mm.is_none() && up_to_square(bend);
        let outside = section.bends[bend].direction.outside();
        is_plain.then(|| Size {
            name: format!("height of {} off {}, outside", own.name, other.name),
            measure: Measure::Reach((section.part_face(leg), outside), (section.part_face(beside), outside)),
            expected_mm: own.outside_mm * trig::sin(section.bends[bend].turn_rad),
        })
    };
    [(0, 0, 1), (last, last + 1, last)].into_iter().zip(plain).filter_map(of_end).collect()
}
