//! How wrap and sides of a console meet, and the measure of it: both refolded and put together in space.
//!
//! x and y are the outline's, z points out of the starboard side, which stands at zero.

use fold::part::{FoldedPart, SeamSide, SeamStyle};
use fold::refold::{Joint, JointEnd, RoundJoint};
use geometry::{Frame, Point, Point3, Vector3};
use units::Length;

use super::Console;
use crate::joined::{self, AlongRound, Joined, Standing};
use crate::{Chosen, CornerStyle, Fact, Making, Problem};

/// How the edges of the sides and the wrap meet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Meeting {
    /// The wrap runs over the edges of the sides.
    WrapThrough,
    /// The sides run out to the face of the wrap.
    SidesThrough,
    /// Inside edges touch.
    Open,
}

/// Said of what is asked of a single corner.
const ONE_WAY: &str = "wrap and sides meet in one way all round";

impl Console {
    /// How wrap and sides meet.
    pub(super) fn meeting(&self, making: &Making) -> Meeting {
        match &making.corner {
            CornerStyle::Open => Meeting::Open,
            CornerStyle::Butt { through: Chosen::Sides(names) }
                if names.iter().any(|name| name == "sides") =>
            {
                Meeting::SidesThrough
            }
            _ => Meeting::WrapThrough,
        }
    }

    /// The joining flange of the sides: as its own field has it, or as the lap of the corners.
    pub(super) fn flange(&self, making: &Making) -> Option<Length> {
        match making.corner {
            CornerStyle::Lap { width, .. } => Some(width),
            _ => self.side_flange,
        }
    }

    /// How far the edges of the sides stand in from the face of the wrap, mm.
    pub(super) fn side_in_mm(&self, making: &Making) -> f64 {
        let (thickness, gap) = (making.thickness_mm(), making.seam_gap.millimetres());
        match self.meeting(making) {
            Meeting::WrapThrough => thickness + gap,
            Meeting::SidesThrough => 0.0,
            Meeting::Open => thickness + gap * std::f64::consts::FRAC_1_SQRT_2,
        }
    }

    /// Width of the wrap, mm. Two square plates stand the gap apart when each gives way by g/√2 at an open corner.
    pub(super) fn wrap_width_mm(&self, making: &Making) -> f64 {
        let (thickness, gap) = (making.thickness_mm(), making.seam_gap.millimetres());
        let side = match self.meeting(making) {
            Meeting::WrapThrough => 0.0,
            Meeting::SidesThrough => thickness + gap,
            Meeting::Open => thickness + gap * std::f64::consts::FRAC_1_SQRT_2,
        };
        self.width.millimetres() - 2.0 * side
    }

    /// What is wrong with the style asked for.
    pub(super) fn check_meeting(&self, making: &Making, problems: &mut Vec<Problem>) {
        let mut add = |field: &str, value: String, wrong: &str, remedy: &str| {
            problems.push(Problem::new(field, value, wrong, remedy));
        };
        let neither = |names: &[String]| names.len() != 1 || !["wrap", "sides"].contains(&names[0].as_str());
        match &making.corner {
            CornerStyle::Open => {
                if let Some(flange) = self.side_flange {
                    let wrong = "an open corner has no flange behind it";
                    let remedy = "let the wrap run through, or take the flange out";
                    add("side_flange", making.print(flange), wrong, remedy);
                }
            }
            CornerStyle::Butt { through: Chosen::Sides(names) } if neither(names) => {
                let remedy = "name one of the two that meet: [\"wrap\"] or [\"sides\"]";
                add("corner.butt_through", names.join(", "), "is neither the wrap nor the sides", remedy);
            }
            CornerStyle::Butt { .. } if self.meeting(making) == Meeting::SidesThrough => {
                if let Some(flange) = self.side_flange {
                    let wrong = "a side that runs through has no wrap over its edge to lie on a flange";
                    let remedy = "let the wrap run through, or take the flange out";
                    add("side_flange", making.print(flange), wrong, remedy);
                }
            }
            CornerStyle::Butt { .. } => {}
            CornerStyle::Lap { carried_by: Chosen::Sides(names), width, .. } if names != &["sides"] => {
                let wrong = "only the sides can carry it: a strip along the wrap's edge would have to be bent with it";
                add(
                    "corner.lap",
                    making.print(*width),
                    wrong,
                    "say \"carried_by\": [\"sides\"], or leave that out",
                );
            }
            CornerStyle::Lap { outside: true, width, .. } => {
                let wrong = "a flange on the outside of the wrap would have to turn back over its own side";
                add("corner.lap", making.print(*width), wrong, "ask for the inside");
            }
            CornerStyle::Lap { width, .. } => {
                if let Some(flange) = self.side_flange.filter(|flange| flange != width) {
                    let wrong = "the joining flange is given twice, with two widths";
                    add("side_flange", making.print(flange), wrong, "give it once");
                }
            }
            CornerStyle::TabAndSlot { count, .. } => {
                let wrong = "wrap and sides are not made with tabs: the slots would lie in bends";
                add(
                    "corner.tab",
                    format!("{count} tabs"),
                    wrong,
                    "ask for \"butt\", or {\"lap\": \"1\"} for a joining flange",
                );
            }
            CornerStyle::Gap { gap } => {
                add("corner.gap", making.print(*gap), ONE_WAY, "ask for \"open\", and give \"seam_gap\"");
            }
            CornerStyle::ByName { .. } => {
                add("corner.at", "as given".to_owned(), ONE_WAY, "give one style for all");
            }
        }
    }

    /// Every seam between the wrap and a side that piece `piece` has a share in, as measured.
    pub(super) fn seam_facts(&self, piece: usize, making: &Making) -> Result<Vec<Fact>, Vec<Problem>> {
        let pieces = self.standing(making)?;
        let joints = self.joints(&pieces, making);
        let mut facts = joined::seam_facts(piece, &pieces, &joints, ["corner", "outline"], making)?;
        facts.extend(joined::round_facts(piece, &pieces, &self.rounds(&pieces, making), making));
        Ok(facts)
    }

    /// Wrap, starboard and port side in their places.
    pub(super) fn standing(&self, making: &Making) -> Result<[Standing; 3], Vec<Problem>> {
        let (width, thickness) = (self.width.millimetres(), making.thickness_mm());
        let wrap = self.wrap(making)?.part;
        let side = self.side(making)?.part;
        let (start, end) = self.outline.side(self.legs()[0]);
        let (along, out) = ((end - start).unit(), (end - start).unit().right());
        let space = |x: f64, y: f64, z: f64| Vector3::new(x, y, z);
        let back = start - out * thickness + along * self.end_cuts_mm(0, making)[0];
        let starboard = -0.5 * (width - self.wrap_width_mm(making));
        let wrap_at = Frame {
            origin: Point3::new(back.x, back.y, starboard),
            x: space(0.0, 0.0, -1.0),
            y: space(along.x, along.y, 0.0),
            z: space(out.x, out.y, 0.0),
        };
        let starboard_at = Frame { origin: Point3::new(0.0, 0.0, -thickness), ..Frame::WORLD };
        let port_at = Frame {
            origin: Point3::new(0.0, 0.0, thickness - width),
            x: space(-1.0, 0.0, 0.0),
            y: space(0.0, 1.0, 0.0),
            z: space(0.0, 0.0, -1.0),
        };
        let standing =
            |name: &str, part: FoldedPart, root: Frame| Standing { name: name.to_owned(), part, root };
        let port = side.mirrored();
        Ok([
            standing("the wrap", wrap, wrap_at),
            standing("the starboard side", side, starboard_at),
            standing("the port side", port, port_at),
        ])
    }

    fn joints(&self, pieces: &[Standing; 3], making: &Making) -> Vec<Joined> {
        let mut joints = Vec::new();
        let Some(outline) = self.moved_in(self.side_in_mm(making)) else { return joints };
        let flanged = self.flange(making).is_some();
        // Of what is round all along nothing straight meets the sides.
        let has_straight = |(number, _): &(usize, &usize)| !self.is_all_round(*number, making);
        for (number, &leg) in self.legs().iter().enumerate().filter(has_straight) {
            let name = &self.outline.sides[leg];
            for (piece, hand, wrap_edge) in [(1, 1.0, 3), (2, -1.0, 1)] {
                let part = &pieces[piece].part;
                let side = if flanged {
                    let of_leg = |face: &fold::part::Face| face.name.split(' ').any(|word| word == name);
                    let Some(face) = part.faces.iter().skip(1).position(of_leg) else { continue };
                    JointEnd { piece, face: face + 1, edge: 2 }
                } else {
                    let (a, b) = outline.side(leg);
                    let ends = [a, b].map(|point| Point::new(hand * point.x, point.y));
                    let Some(edge) = joined::longest_on(&part.faces[0].corners, ends) else { continue };
                    JointEnd { piece, face: 0, edge }
                };
                let wrap = JointEnd { piece: 0, face: number, edge: wrap_edge };
                let (style, words) = self.style(making);
                let joint = Joint {
                    name: format!("leg {name} to {}", pieces[piece].name.trim_start_matches("the ")),
                    first: wrap,
                    second: side,
                    inside_angle_rad: 0.5 * std::f64::consts::PI,
                    length_mm: outline.side_mm(leg),
                    style,
                    gap_mm: making.seam_gap.millimetres(),
                };
                joints.push(Joined { joint, style: words });
            }
        }
        joints
    }

    /// Every bend of the wrap beside the edge of a side that follows it: its arc, or its sharp corner.
    fn rounds(&self, pieces: &[Standing; 3], making: &Making) -> Vec<AlongRound> {
        let Some(outline) = self.moved_in(self.side_in_mm(making)) else { return Vec::new() };
        let flanged = self.flange(making).is_some();
        let (style, mut words) = self.style(making);
        if flanged {
            "butt, the wrap runs past the side's edge, beyond its joining flanges".clone_into(&mut words);
        }
        let style = if flanged { SeamStyle::Butt { through: SeamSide::First } } else { style };
        let mut rounds = Vec::new();
        for (number, pair) in self.legs().windows(2).enumerate() {
            let corner = self.corner_after(pair[0]);
            let arc = self.rounded(&outline, corner, flanged, making);
            let outside_mm = self.bend_radius_mm(corner, making) + making.thickness_mm();
            for (piece, hand) in [(1, 1.0), (2, -1.0)] {
                let corners = pieces[piece].part.faces[0].corners.iter().copied();
                let what = if self.radius(corner).is_some() { "round of" } else { "bend at" };
                let side = pieces[piece].name.trim_start_matches("the ");
                let joint = RoundJoint {
                    name: format!("{what} {} to {side}", self.outline.names[corner]),
                    bend: (0, number),
                    face: (piece, 0),
                    places: corners.filter(|at| arc.has(Point::new(hand * at.x, at.y))).collect(),
                    inside_angle_rad: 0.5 * std::f64::consts::PI,
                    length_mm: outside_mm * self.turn_rad(corner).abs(),
                    style,
                };
                let gap_mm = making.seam_gap.millimetres();
                rounds.push(AlongRound { joint, style: words.clone(), gap_mm });
            }
        }
        rounds
    }

    /// How leg and side meet, the leg first, in the model and in words.
    fn style(&self, making: &Making) -> (SeamStyle, String) {
        if let Some(width) = self.flange(making) {
            let style =
                SeamStyle::Lap { width_mm: width.millimetres(), carrier: SeamSide::Second, outside: false };
            return (
                style,
                format!("lap, the wrap lies on the side's joining flange of {}", making.print(width)),
            );
        }
        match self.meeting(making) {
            Meeting::WrapThrough => {
                (SeamStyle::Butt { through: SeamSide::First }, "butt, the wrap runs through".to_owned())
            }
            Meeting::SidesThrough => {
                (SeamStyle::Butt { through: SeamSide::Second }, "butt, the side runs through".to_owned())
            }
            Meeting::Open => (SeamStyle::Open, "open corner".to_owned()),
        }
    }
}
