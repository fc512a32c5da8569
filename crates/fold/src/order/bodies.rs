//! The machine in side view, as convex bodies.
//!
//! Figures that the shop does not give are those of [`PressBrake::assumed`] and [`Folder::assumed`]; a body that rests
//! on one is not `given`. What of it every such machine has, at least, stands beside it as its core, and that is
//! `given`: a bed may be narrower than assumed, but there is one.

use geometry::{Point, trig};
use stock::brake::{Clamp, Folder, Machine, PressBrake, Profile, Punch};
use units::Length;

use super::convex::Convex;
use super::motion::Motion;

/// How far bodies without an end reach, mm: past anything that a shop bends.
const FAR_MM: f64 = 30_000.0;

/// Height above its tip at which a gooseneck is cut back fully, in multiples of the relief: its front leans back at 60°.
const NECK_RISE: f64 = 1.7;

/// How far its back then stands behind the tip, in multiples of the relief: it leans at 48°, clear of a leg at 45°.
const NECK_BACK: f64 = 1.53;

/// Least that a machine has of a body of which a size is not given, mm: the width of a bed that carries a die or a clamp,
/// of a leaf and of a clamp (common practice, no source).
const CORE_MM: f64 = 20.0;

/// Least height of a clamp, width of a punch and of a die beside its V, and depth of a leaf, mm (common practice, no source).
const CORE_HIGH_MM: f64 = 10.0;

/// The tallest die, mm: 6 in (common practice, no source). Deeper than that under the sheet there is the bed with the beam
/// that carries it, over the whole length of the press and no narrower than a bed is taken to be; higher up there is die
/// or bed, at least as long as the bend.
const TALLEST_DIE_MM: f64 = 152.4;

/// Included angle from the sheet of the flattest nose of a clamp (common practice, no source).
const CORE_NOSE_RAD: f64 = std::f64::consts::FRAC_PI_6;

/// Half of the included angle of the sharpest punch for air bending, 26° (from memory).
const CORE_TIP_RAD: f64 = 13.0 / 180.0 * std::f64::consts::PI;

/// What the punch is called.
pub const PUNCH: &str = "the punch";

/// What of a punch of unknown height stands over its assumed height, up to the ram: whoever takes a taller punch because
/// the ram is in the way stands all of it between what is up there.
pub const TALL_PUNCH: &str = "the punch up to the ram";

/// Whether a body is of the punch, whatever its height.
pub(super) fn is_punch(name: &str) -> bool {
    [PUNCH, TALL_PUNCH].contains(&name)
}

/// What is called so where no sections of the punch add up to what a bend takes.
pub const SECTIONS: &str = "sections of any sum that fits";

/// What the leaf of a folder is called.
pub const LEAF: &str = "the leaf";

/// What the fingers of a folder are called.
pub const FINGERS: &str = "the fingers";

/// What the beam is called that carries the fingers of a folder.
pub const FINGER_BEAM: &str = "the beam over the fingers";

/// What the beam is called that carries the clamp bar of a folder.
pub(super) const BAR_BEAM: &str = "the beam over the clamp bar";

/// What the ram of a press brake is called.
pub const RAM: &str = "the ram";

/// The ram over the tallest punch that is common: it is counted besides the ram, so that an order which a punch of common
/// height clears comes before one that none clears, and is never told or drawn.
pub(super) const HIGH_RAM: &str = "the ram over any common punch";

/// The tallest punch that is common, mm: 8 in (common practice, no source).
pub const TALL_PUNCH_MM: f64 = 203.2;

/// What the bed of either machine is called.
pub const BED: &str = "the bed";

/// What the die of a press brake is called.
pub(super) const DIE: &str = "the die";

/// What the clamp bar of a folder is called.
pub(super) const CLAMP_BAR: &str = "the clamp bar";

/// What the frame of either machine is called where it shuts the throat.
pub(super) const THROAT_FRAME: &str = "the frame behind the throat";

/// What a body moves with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Rides {
    /// Nothing: it stands.
    Frame,
    /// The punch: its figure is drawn from the tip.
    Punch,
    /// The metal before the bend line: its figure is drawn as the flat sheet lies.
    Flange,
}

/// One body of a machine.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Body {
    /// What the shop calls it.
    pub(super) name: &'static str,
    /// Its side view.
    pub(super) figure: Convex,
    /// What it moves with.
    pub(super) rides: Rides,
    /// True for tooling that is set up in sections no longer than the bend asks; false for what runs the machine's
    /// whole length.
    pub(super) sections: bool,
    /// True for what the sheet lies on.
    pub(super) below_sheet: bool,
    /// True when no figure of it is assumed.
    pub(super) given: bool,
    /// True for the least that such a machine has of a body that is assumed; it stands within that.
    pub(super) core: bool,
}

impl Body {
    /// True for what bends or holds the sheet and so touches it.
    pub(super) fn is_tool(&self) -> bool {
        ![RAM, HIGH_RAM, FINGER_BEAM, BAR_BEAM, THROAT_FRAME].contains(&self.name)
    }

    /// How far it reaches from the bend, mm.
    pub(super) fn reach_mm(&self) -> f64 {
        self.figure.farthest_mm()
    }
}

/// The bodies of `machine` for one bend, cores last.
pub(super) fn bodies(machine: &Machine, motion: &Motion) -> Vec<Body> {
    let mut bodies = match machine {
        Machine::Press(press) => press_bodies(press, motion.half_v_mm.unwrap_or(0.0)),
        Machine::Folder(folder) => folder_bodies(folder, motion),
    };
    let assumed: Vec<&'static str> = bodies.iter().filter(|body| !body.given).map(|body| body.name).collect();
    for body in &mut bodies {
        body.core = body.given && assumed.contains(&body.name);
    }
    bodies.sort_by_key(|body| body.core);
    bodies
}

fn body_of(name: &'static str, figure: Convex, rides: Rides, sections: bool, given: bool) -> Body {
    let below_sheet = figure.0.iter().all(|p| p.y <= 0.0);
    Body {
        name,
        figure,
        rides,
        sections,
        below_sheet: below_sheet && rides == Rides::Frame,
        given,
        core: false,
    }
}

fn figure(corners: &[(f64, f64)]) -> Convex {
    Convex(corners.iter().map(|&(x, y)| Point::new(x, y)).collect())
}

fn block(low: (f64, f64), high: (f64, f64)) -> Convex {
    figure(&[low, (high.0, low.1), high, (low.0, high.1)])
}

fn taken(given: Option<Length>, assumed: Length) -> f64 {
    given.unwrap_or(assumed).millimetres()
}

fn press_bodies(press: &PressBrake, half_v: f64) -> Vec<Body> {
    let assumed = PressBrake::assumed();
    let die_height = taken(press.die_height, assumed.die_height);
    let outer = press
        .die_width
        .map_or(half_v + assumed.die_shoulder.millimetres(), |width| half_v.max(0.5 * width.millimetres()));
    let die_given = press.die_height.is_some() && press.die_width.is_some();
    let die = |low: f64, high: f64| {
        body_of(DIE, block((low, -die_height), (high, 0.0)), Rides::Frame, true, die_given)
    };
    let half_bed = 0.5 * assumed.bed_width.millimetres();
    let bed = |high: f64, half: f64, given: bool| {
        body_of(BED, block((-half, -FAR_MM), (half, -high)), Rides::Frame, false, given)
    };
    let core_half = outer.min(half_v + CORE_HIGH_MM);
    let core_high = press.die_height.map_or(TALLEST_DIE_MM, Length::millimetres);
    let mut bodies = vec![die(-outer, -half_v), die(half_v, outer), bed(die_height, half_bed, false)];
    bodies.push(bed(core_high.max(TALLEST_DIE_MM), half_bed, true));
    if press.die_height.is_some() {
        bodies.push(bed(core_high, core_half, true));
    }
    if !die_given {
        let low = core_high;
        let high = press.die_width.map_or(half_v + 0.5 * CORE_HIGH_MM, |_| outer);
        let core =
            |from: f64, to: f64| body_of(DIE, block((from, -low), (to, 0.0)), Rides::Frame, true, true);
        bodies.extend([core(-high, -half_v), core(half_v, high)]);
    }
    bodies.extend(punch_bodies(press));
    bodies.extend(frame_body(press.throat));
    bodies
}

fn punch_bodies(press: &PressBrake) -> Vec<Body> {
    let (assumed, punch) = (PressBrake::assumed(), &press.punch);
    let height = taken(punch.height, assumed.punch_height);
    let half = 0.5 * taken(punch.width, assumed.punch_width);
    let half_angle = 0.5 * punch.angle.unwrap_or(assumed.punch_angle).radians();
    let wedge = (half / trig::tan(half_angle)).min(height);
    let top = wedge * trig::tan(half_angle);
    let given = punch.height.is_some() && punch.width.is_some() && punch.angle.is_some();
    let body = |figure, given| body_of(PUNCH, figure, Rides::Punch, true, given);
    let mut bodies = Vec::new();
    match punch.profile.unwrap_or(Profile::Straight) {
        Profile::Straight => {
            bodies.push(body(figure(&[(0.0, 0.0), (top, wedge), (-top, wedge)]), given));
            if wedge < height {
                bodies.push(body(block((-half, wedge), (half, height)), given));
            }
            if punch.profile.is_some() && !given {
                bodies.extend(straight_core(punch, height, half_angle).map(|figure| body(figure, true)));
            }
        }
        Profile::Gooseneck => {
            let relief = taken(punch.relief, assumed.gooseneck_relief);
            let given = given && punch.relief.is_some();
            // The neck leans back under the rising leg, which stands at 45° in a square bend, until its front is cut
            // back by the relief; it runs up and comes forward to the head, whose front stands over the tip.
            let (low, high) = (relief * NECK_RISE, (0.75 * height).max(relief * NECK_RISE));
            let (front, back) = (-relief, -relief * NECK_BACK);
            bodies.push(body(figure(&[(0.0, 0.0), (front, low), (back, low)]), given));
            if low < high {
                bodies.push(body(block((back, low), (front, high)), given));
            }
            bodies.push(body(figure(&[(back, high), (front, high), (half, height), (back, height)]), given));
        }
    }
    let ram = |half: f64, given: bool| {
        body_of(RAM, block((-half, height), (half, FAR_MM)), Rides::Punch, false, given)
    };
    let half_ram = 0.5 * assumed.ram_width.millimetres();
    bodies.push(ram(half_ram, false));
    if punch.height.is_none() {
        let high = block((-half_ram, TALL_PUNCH_MM), (half_ram, FAR_MM));
        bodies.push(body_of(HIGH_RAM, high, Rides::Punch, false, false));
        bodies.push(tall_punch(punch, half, height));
    }
    if let (Some(_), Some(_)) = (punch.height, punch.width) {
        // It is no narrower than the punch that it holds.
        bodies.push(ram(half, true));
    } else if punch.profile == Some(Profile::Straight) {
        // However high the punch is, what stands over its tip is either punch or ram.
        bodies.push(ram(0.5 * CORE_HIGH_MM, true));
    }
    bodies
}

/// A punch of unknown height over its assumed one: a gooseneck there is all head.
fn tall_punch(punch: &Punch, half: f64, height: f64) -> Body {
    let relief = taken(punch.relief, PressBrake::assumed().gooseneck_relief);
    let back = if punch.profile == Some(Profile::Gooseneck) { -relief * NECK_BACK } else { -half };
    body_of(TALL_PUNCH, block((back, height), (half, FAR_MM)), Rides::Punch, true, false)
}

/// What every straight punch has over its tip, up to a height: a wedge and the metal that carries it.
fn straight_core(punch: &Punch, height: f64, half_angle: f64) -> [Convex; 2] {
    let slope = trig::tan(punch.angle.map_or(CORE_TIP_RAD, |_| half_angle));
    let half = (0.5 * punch.width.map_or(CORE_HIGH_MM, Length::millimetres)).min(0.5 * height * slope);
    let wedge = half / slope;
    [figure(&[(0.0, 0.0), (half, wedge), (-half, wedge)]), block((-half, wedge), (half, height))]
}

fn folder_bodies(folder: &Folder, motion: &Motion) -> Vec<Body> {
    let assumed = Folder::assumed();
    let (name, height, height_given, sections) = match &folder.clamp {
        Clamp::Bar { height } => (CLAMP_BAR, taken(*height, assumed.bar_height), height.is_some(), false),
        Clamp::Fingers { deepest_box, .. } => {
            (FINGERS, taken(*deepest_box, assumed.finger_height), deepest_box.is_some(), true)
        }
    };
    let nose_angle = folder.nose_angle.unwrap_or(assumed.nose_angle).radians();
    let thickness = motion.thickness_mm;
    let nose = -0.5 * motion.zone_mm;
    let depth = assumed.clamp_depth.millimetres();
    let set_back = height / trig::tan(nose_angle);
    let (top, back) = (thickness + height, nose - depth.max(set_back));
    let clamp = if set_back < depth {
        figure(&[(nose, thickness), (nose - set_back, top), (back, top), (back, thickness)])
    } else {
        figure(&[(nose, thickness), (nose - set_back, top), (nose - depth, thickness)])
    };
    let leaf_from = 0.5 * motion.zone_mm + thickness;
    let leaf_width = taken(folder.leaf_width, assumed.leaf_width).max(leaf_from + thickness);
    let leaf_thickness = taken(folder.leaf_thickness, assumed.leaf_thickness);
    let leaf_given = folder.leaf_width.is_some() && folder.leaf_thickness.is_some();
    let given = height_given && folder.nose_angle.is_some();
    let beam = block((-FAR_MM, top), (nose - set_back, FAR_MM));
    let beam_name = if sections { FINGER_BEAM } else { BAR_BEAM };
    let leaf = block((leaf_from, -leaf_thickness), (leaf_width, 0.0));
    let mut bodies = vec![
        body_of(name, clamp, Rides::Frame, sections, given),
        body_of(beam_name, beam, Rides::Frame, false, given),
        body_of(BED, block((nose - depth, -FAR_MM), (nose, 0.0)), Rides::Frame, false, false),
        body_of(BED, block((nose - CORE_MM, -FAR_MM), (nose, 0.0)), Rides::Frame, false, true),
        body_of(LEAF, leaf, Rides::Flange, false, leaf_given),
    ];
    if !leaf_given {
        let wide = folder.leaf_width.map_or(leaf_from + CORE_MM, |_| leaf_width);
        let deep = folder.leaf_thickness.map_or(CORE_HIGH_MM, |_| leaf_thickness);
        bodies.push(body_of(LEAF, block((leaf_from, -deep), (wide, 0.0)), Rides::Flange, false, true));
    }
    if !given {
        let angle = folder.nose_angle.map_or(CORE_NOSE_RAD, |angle| angle.radians());
        let high = if height_given { height.min(CORE_MM * trig::tan(angle)) } else { CORE_HIGH_MM };
        let set_back = high / trig::tan(angle);
        let back = nose - CORE_MM.max(set_back + 1.0);
        let core = figure(&[
            (nose, thickness),
            (nose - set_back, thickness + high),
            (back, thickness + high),
            (back, thickness),
        ]);
        bodies.push(body_of(name, core, Rides::Frame, sections, true));
    }
    bodies.extend(frame_body(folder.throat));
    bodies
}

/// What stands behind the throat.
fn frame_body(throat: Option<Length>) -> Option<Body> {
    let throat = throat?.millimetres();
    let figure = block((-FAR_MM, -FAR_MM), (-throat, FAR_MM));
    Some(body_of(THROAT_FRAME, figure, Rides::Frame, false, true))
}

#[cfg(test)]
mod tests {
    use super::*;

    const MOTION: Motion =
        Motion { half_v_mm: Some(12.0), thickness_mm: 3.0, radius_mm: 3.0, neutral_mm: 4.2, zone_mm: 6.6 };

    /// True where a body that is no assumption stands at a point of the side view.
    fn stands_at(press: PressBrake, x_mm: f64, y_mm: f64) -> bool {
        let bodies = bodies(&Machine::Press(press), &MOTION);
        let at = Point::new(x_mm, y_mm);
        let within = |body: &Body| geometry::polygon::contains(&body.figure.0, at);
        bodies.iter().any(|body| body.given && body.rides == Rides::Frame && within(body))
    }

    #[test]
    fn every_press_has_a_bed_and_up_to_the_sheet_a_die_or_the_bed() {
        for depth_mm in [5.0, 100.0, 160.0, 1_000.0] {
            assert!(stands_at(PressBrake::default(), 14.0, -depth_mm), "{depth_mm}");
        }
        assert!(stands_at(PressBrake::default(), 70.0, -1_000.0));
        assert!(
            !stands_at(PressBrake::default(), 70.0, -100.0),
            "a tall die may stand there, and a narrow one"
        );
        let low = PressBrake { die_height: Some(Length::from_millimetres(60.0)), ..PressBrake::default() };
        assert!(stands_at(low, 0.0, -70.0));
    }
}
