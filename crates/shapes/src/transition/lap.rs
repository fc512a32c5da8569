//! Lapped seams of a transition: the round is left flat at the middle of the side, so wide that the joggle and a strip of even
//! width lie on one flat, from the rectangle's edge to the round's.

use fold::part::{Bend, Edge, Face, FoldedPart, Forming, LegsTo};
use geometry::{Point, Point3, tolerance, trig};
use units::Length;

use super::{Layout, Transition, facets};
use crate::wrap::{Lap, WrapSeam};
use crate::{Fact, Making, Problem};

/// The edge of the strip that runs along the seam, and of the last face where the joggle is bent off it.
pub(super) const SEAM_EDGE: usize = 2;

/// Halvings of what the round is left flat for: 45° / 2⁴⁰ is far below what a tape reads.
const HALVINGS: usize = 40;

/// Shares of the most that the round may be left flat for, looked at for one that the rest of the layout allows.
const SHARES: u32 = 8;

impl Transition {
    /// The layout with room for the lap of every seam; that of the textbooks where they are butted.
    ///
    /// # Errors
    /// A lap wider than the flats at the seams may be, with the widest, and with fewer divisions that would do.
    pub(super) fn layout(&self, making: &Making) -> Result<Layout<'_>, Problem> {
        let WrapSeam::Lap { width, outside } = self.seam else {
            return Ok(Layout { shape: self, half_flat_rad: 0.0, lap: None });
        };
        // Whatever is left beside it lies half to each side: a rounding more than it needs.
        let needed_mm = Lap::beside_mm(making) + width.millimetres() + tolerance::SAME_POINT_MM;
        let (mut high, room_mm) = self.widest_flat(making)?;
        let lap = Lap::on(needed_mm, (width, outside), making).filter(|_| needed_mm <= room_mm);
        let Some(lap) = lap else { return Err(self.no_room_for_lap(width, room_mm, making)) };
        let mut low = 0.0;
        for _ in 0..HALVINGS {
            let middle = 0.5 * (low + high);
            match self.room_mm(middle, making) {
                Ok(room_mm) if needed_mm <= room_mm => high = middle,
                _ => low = middle,
            }
        }
        Ok(Layout { shape: self, half_flat_rad: high, lap: Some(lap) })
    }

    /// Half of the most that the round is left flat for, no wider than the divisions beside it, and the room for a lap then.
    fn widest_flat(&self, making: &Making) -> Result<(f64, f64), Problem> {
        let most_rad = std::f64::consts::FRAC_PI_4 / f64::from(self.divisions + 1);
        let room = |share: u32| {
            let half_rad = most_rad * f64::from(share) / f64::from(SHARES);
            self.room_mm(half_rad, making).map(|room_mm| (half_rad, room_mm))
        };
        (1..SHARES).rev().fold(room(SHARES), |found, share| found.or_else(|_| room(share)))
    }

    /// How wide the flats at the seams are where they are narrowest, half to each side of the line down the middle, mm.
    fn room_mm(&self, half_flat_rad: f64, making: &Making) -> Result<f64, Problem> {
        let layout = Layout { shape: self, half_flat_rad, lap: None };
        let sides = self.made_of.sides();
        let mut least_mm = f64::INFINITY;
        for piece in 0..4 / sides {
            let span = [piece * sides, (piece + 1) * sides];
            let beside = facets::flat_beside_seams(&facets::flats(&layout, span), making)?;
            for (side, [round_mm, rectangle_mm]) in span.into_iter().zip(beside) {
                least_mm = least_mm.min(round_mm.min(rectangle_mm) * layout.across(side));
            }
        }
        Ok(2.0 * least_mm)
    }

    fn no_room_for_lap(&self, width: Length, room_mm: f64, making: &Making) -> Problem {
        let needed_mm = width.millimetres() + Lap::beside_mm(making);
        let fits = |divisions: &u32| {
            let fewer = Self { divisions: *divisions, ..self.clone() };
            fewer.widest_flat(making).is_ok_and(|(_, room_mm)| needed_mm < room_mm)
        };
        let fewer = (1..self.divisions).rev().find(fits);
        let with_fewer = fewer.map(|fewer| format!("give {fewer} divisions or fewer"));
        let widest_mm = room_mm - Lap::beside_mm(making);
        let narrower = making.has_room(widest_mm).then(|| {
            format!("the widest is {} with {} divisions", making.print_mm(widest_mm), self.divisions)
        });
        let remedies: Vec<String> = narrower.into_iter().chain(with_fewer).collect();
        let remedy = match remedies.as_slice() {
            [] => "no lap fits: ask for \"butt\", and rivet or weld a cover strip behind it".to_owned(),
            remedies => remedies.join(", or "),
        };
        let wrong = "is more than lies on the flat in the middle of its side, beside its joggle";
        Problem::new("seam.lap", making.print(width), wrong, remedy)
    }
}

impl Layout<'_> {
    /// The lines at the seams at the start and the end of a piece, each from the rectangle to the round: the edge that is
    /// lapped or butted, and at the end of a lapped piece the mold line of its joggle.
    pub(super) fn seam_lines(&self, [from, to]: [usize; 2]) -> [[Point3; 2]; 2] {
        let [start_mm, end_mm] = self.lap.map_or([0.0; 2], |lap| [lap.start_mm, lap.mold_mm]);
        [(from, start_mm), (to, end_mm)].map(|(side, off_mm)| {
            let along = self.shape.corner(side + 1) - self.shape.corner(side);
            let off = along.unit() * (off_mm / self.across(side));
            [self.shape.middle(side) + off, self.top(side) + off]
        })
    }

    /// Sine of the angle between a side of the rectangle and the line down its middle.
    fn across(&self, side: usize) -> f64 {
        let along = self.shape.corner(side + 1) - self.shape.corner(side);
        trig::sin(along.angle_to(self.top(side) - self.shape.middle(side)))
    }

    /// What a lap is and takes; nothing where seams are butted.
    pub(super) fn lap_facts(&self, making: &Making) -> Vec<Fact> {
        let Some(lap) = self.lap else { return Vec::new() };
        let names = match self.shape.made_of.sides() {
            4 => ["the last edge", "the first"],
            _ => ["the last edge of each piece", "the first of the next"],
        };
        let flat_mm = self.shape.round.millimetres() * trig::sin(self.half_flat_rad);
        vec![
            Fact::words("seam", lap.words(names, making), "seam, seam gap"),
            Fact::length_mm(
                "the round is flat at a seam for",
                flat_mm,
                "lap, joggle, and the bends beside them",
            ),
        ]
    }
}

/// Bends the slant of the joggle and the strip off the last face, whose seam edge is the joggle's first mold line.
pub(super) fn add(part: &mut FoldedPart, lap: &Lap) {
    let carrier = part.faces.len() - 1;
    let (top, foot) = part.faces[carrier].edge(SEAM_EDGE);
    let (from, _) = part.faces[carrier].edge(SEAM_EDGE - 1);
    // Both ends run on along the round's edge and the rectangle's, which are parallel.
    let (up, round) = ((top - foot).unit(), top - from);
    let slope = round.dot(up) / up.cross(round);
    let length_mm = top.distance(foot);
    let face = |name: &str, wide_mm: f64, run_mm: f64, far: Edge| Face {
        name: name.to_owned(),
        corners: vec![
            Point::default(),
            Point::new(length_mm, 0.0),
            Point::new(length_mm + slope * run_mm, wide_mm),
            Point::new(slope * run_mm, wide_mm),
        ],
        edges: vec![Edge::Parent, Edge::Free, far, Edge::Free],
        holes: Vec::new(),
        rim: None,
    };
    let first = part.bends.len();
    let run_mm = lap.start_mm - lap.setback_mm - lap.mold_mm;
    let strip_mm = lap.setback_mm + lap.width_mm;
    part.faces.push(face("slant of the joggle", lap.slant_mm, run_mm, Edge::Bend(first + 1)));
    part.faces.push(face("lapping edge", strip_mm, strip_mm, Edge::Free));
    part.faces[carrier].edges[SEAM_EDGE] = Edge::Bend(first);
    // The marked face is the inside, that of a wrap the outside.
    let direction = lap.first_direction().reversed();
    for (number, direction) in [direction, direction.reversed()].into_iter().enumerate() {
        part.bends.push(Bend {
            parent: carrier + number,
            parent_edge: SEAM_EDGE,
            child: carrier + number + 1,
            turn_rad: lap.turn_rad,
            direction,
            inside_radius_mm: part.number.inside_radius().millimetres(),
            legs_to: LegsTo::MoldLine,
            forming: Forming::Joggle(first + 1 - number),
        });
    }
}
