//! Where the weight of parts lies: centres of gravity in their own boxes, and hinged lids about their pins.

use estimate::{Assembly, Boxed, HungLoad, Lid, Loading, PlacedMass, StationLoad};
use fold::facets;
use geometry::Point3;
use job::{HingedLid, JobAssembly, Loaded, Message, Placed, Stations};
use shapes::Problem;
use units::{Angle, Length, Mass, MassUnit, Torque, TorqueUnit};

use super::Flats;
use super::fits::{body_of, box_round, hinge_side, reach_of};
use super::part::PlannedPart;
use super::standing;
use crate::speech::Refusal;
use checks::fit::Body;

/// Decimals of printed weights; sums are of the printed ones, so that they can be redone by hand.
pub(crate) const MASS_PLACES: u8 = 2;

/// One part with its centre of gravity.
#[derive(Debug, Clone)]
pub(crate) struct WeighedPart {
    /// Weight of one, as lists print it.
    pub(crate) each: Mass,
    /// Weight of all of the mark.
    pub(crate) all: Mass,
    /// Length, width and height of the smallest upright box round it when folded.
    pub(crate) size: [Length; 3],
    /// Its centre of gravity from the box's left, front and lower sides.
    pub(crate) centre: [Length; 3],
}

/// A lid with what hangs on it.
#[derive(Debug, Clone)]
pub(crate) struct PlannedLid {
    /// The part's mark.
    pub(crate) mark: String,
    /// The bare lid first, then its hardware.
    pub(crate) lid: Lid,
}

/// Units that weights and moments print in.
pub(crate) const fn units(flats: &Flats) -> (MassUnit, TorqueUnit) {
    match flats.job.unit {
        units::LengthUnit::Inch => (MassUnit::Pound, TorqueUnit::InchPound),
        units::LengthUnit::Millimetre => (MassUnit::Kilogram, TorqueUnit::NewtonMetre),
    }
}

/// The mass as it prints.
pub(super) fn printed(flats: &Flats, mass: Mass) -> Mass {
    mass.as_printed(units(flats).0, MASS_PLACES)
}

/// The weight of one piece as lists print it.
fn of_one(flats: &Flats, mass: Mass) -> Mass {
    let unit = units(flats).0;
    mass.as_printed(unit, mass.places_of_one(unit))
}

/// Where the centre of a part lies, in the recipe's own coordinates.
pub(super) fn centre_of(part: &PlannedPart) -> Option<Point3> {
    let place = facets::centre_of_gravity(&part.flat)?;
    Some(Body::home(&part.flat, part.part.is_seen_from_back(), place))
}

fn no_area(flats: &Flats, part: &PlannedPart) -> Refusal {
    Refusal::ProofFailed(format!("{}: {}: no area was found to weigh", flats.file, part.part.mark))
}

/// Weight and centre of every part of the job, in its order.
pub(crate) fn weighed(flats: &Flats) -> Result<Vec<WeighedPart>, Refusal> {
    let weigh = |part: &PlannedPart| {
        let centre = centre_of(part).ok_or_else(|| no_area(flats, part))?;
        let (low, high) = box_round(&reach_of(part));
        let lengths = |x: f64, y: f64, z: f64| [x, y, z].map(Length::from_millimetres);
        let each = of_one(flats, part.weight);
        Ok(WeighedPart {
            each,
            all: part.weight.of_pieces(part.part.quantity, units(flats).0),
            size: lengths(high.x - low.x, high.y - low.y, high.z - low.z),
            centre: lengths(centre.x - low.x, centre.y - low.y, centre.z - low.z),
        })
    };
    flats.parts.iter().map(weigh).collect()
}

/// The lid that stands at this place under `weights.lids`.
pub(crate) fn lid(flats: &Flats, number: usize, asked: &HingedLid) -> Result<PlannedLid, Refusal> {
    let mark = asked.mark.clone();
    let (mass, at) = match only_part(flats, &mark, &asked.parts) {
        Some(part) => {
            let part = &flats.parts[part];
            let centre = centre_of(part).ok_or_else(|| no_area(flats, part))?;
            let side = hinge_side(part, &asked.hinge);
            let at = side.map(|side| side.from_pin(&body_of(part), asked.pin, centre));
            (printed(flats, part.weight), at.map(|at| at.map(Length::from_millimetres)))
        }
        None => {
            let field = || format!("weights.lids[{number}].part");
            let whole = standing::whole(flats, &mark)
                .ok_or_else(|| unplaced(flats, field(), &mark, "hinge a shape in one piece"))?;
            (printed(flats, whole.mass), whole.centre_from_pin(&asked.hinge, asked.pin))
        }
    };
    let Some([out, up]) = at else {
        let wrong = format!("{mark} has no side of this name that a hinge could sit on");
        let field = format!("weights.lids[{number}].hinge");
        let problem = Problem::new(field, &asked.hinge, wrong, "name a side by its corners, like AB");
        let message = Message { mark: None, ..Message::of_problem(&flats.file, &mark, &problem) };
        return Err(Refusal::bad(message.to_string()));
    };
    let bare = HungLoad { what: format!("{mark}, bare"), mass, out, up };
    let hardware = asked.hardware.iter();
    let hung = hardware.map(|load| HungLoad { mass: printed(flats, load.mass), ..load.clone() });
    Ok(PlannedLid { mark, lid: Lid { loads: std::iter::once(bare).chain(hung).collect() } })
}

/// A whole of which nobody knows where its pieces stand.
fn unplaced(flats: &Flats, field: String, mark: &str, remedy: &str) -> Refusal {
    let wrong = format!("{mark} is made of pieces, and where each of them stands is not known");
    let problem = Problem::new(field, mark, wrong, remedy);
    Refusal::bad(Message { mark: None, ..Message::of_problem(&flats.file, mark, &problem) }.to_string())
}

/// Every assembly of the job: its parts and wholes where the job puts them, each with what it weighs as printed.
///
/// # Errors
/// A whole of which nobody knows where its pieces stand.
pub(crate) fn assemblies<'a>(
    flats: &'a Flats,
    parts: &[WeighedPart],
) -> Result<Vec<(&'a JobAssembly, Assembly)>, Refusal> {
    let asked = flats.job.weights.assemblies.iter().enumerate();
    asked
        .map(|(number, asked)| {
            let loads = asked.loads.iter().enumerate();
            let load = |(place, placed): (usize, &Placed)| {
                let field = || format!("weights.assemblies[{number}].loads[{place}].part");
                load(flats, parts, placed, field)
            };
            Ok((asked, Assembly { loads: loads.map(load).collect::<Result<_, Refusal>>()? }))
        })
        .collect()
}

/// One load of an assembly; `field` is where it stands in the job.
fn load(
    flats: &Flats,
    parts: &[WeighedPart],
    placed: &Placed,
    field: impl Fn() -> String,
) -> Result<PlacedMass, Refusal> {
    let (mark, of_mark, turns, at) = match placed {
        Placed::Parts { mark, parts, turns, at } => (mark, parts, turns, *at),
        Placed::Item { item, weight, at } => {
            return Ok(PlacedMass { what: item.clone(), mass: printed(flats, *weight), centre: *at });
        }
    };
    let (boxed, mass) = match only_part(flats, mark, of_mark) {
        Some(part) => (Boxed { size: parts[part].size, centre: parts[part].centre }, parts[part].each),
        None => {
            let remedy = "put its pieces together one by one, by their own marks";
            let whole = standing::whole(flats, mark).ok_or_else(|| unplaced(flats, field(), mark, remedy))?;
            let [size, centre] = whole.boxed();
            (Boxed { size, centre }, whole.mass)
        }
    };
    let turned = turns.iter().fold(boxed, |boxed, &axis| boxed.quarter_turned(axis));
    Ok(PlacedMass { what: mark.clone(), mass: printed(flats, mass), centre: turned.centre_at(at) })
}

/// The part of a mark that is a part's own; `None` where it is that of a whole.
pub(crate) fn only_part(flats: &Flats, mark: &str, of_mark: &[usize]) -> Option<usize> {
    match of_mark {
        [part] if flats.parts[*part].part.mark == mark => Some(*part),
        _ => None,
    }
}

/// What is lifted by a mark, which is a part's own or a whole's: the weights of the pieces of one as lists print them, added up.
pub(crate) fn weight_of(flats: &Flats, mark: &str, of_mark: &[usize]) -> Mass {
    of_mark.iter().map(|&part| pieces_of(flats, &flats.parts[part], mark)).sum()
}

/// The closed moment of one load, as it prints.
pub(crate) fn closed_moment(flats: &Flats, load: &HungLoad) -> Torque {
    let unit = units(flats).1;
    load.moment(Angle::from_degrees(0.0)).as_printed(unit, unit.places())
}

/// What a part weighs in one of `mark`, which is the part itself or the whole that takes several of it.
pub(crate) fn pieces_of(flats: &Flats, part: &PlannedPart, mark: &str) -> Mass {
    let of_whole = part.part.piece_of.as_ref().filter(|of| of.whole == mark);
    of_one(flats, part.weight) * of_whole.map_or(1, |of| i64::from(of.piece.count))
}

/// The loads of one line of stations, parts with what they weigh.
pub(crate) fn loading(flats: &Flats, stations: &Stations) -> Loading {
    let load = |load: &job::Load| {
        let (what, each) = match &load.what {
            Loaded::Item { item, weight } => (item.clone(), *weight),
            Loaded::Parts { mark, parts } => (mark.clone(), weight_of(flats, mark, parts)),
        };
        let what = if load.count == 1 { what } else { format!("{} × {what}", load.count) };
        StationLoad { what, mass: printed(flats, each * i64::from(load.count)), at: load.at }
    };
    Loading { loads: stations.loads.iter().map(load).collect() }
}
