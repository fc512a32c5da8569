//! Weights at places: parts found by their marks, places and maker's data read and judged.

use estimate::{GasStrut, Grip, HandLift, HungLoad, Percent, StrutFault, StrutMounts, Support};
use units::{Force, Length, Mass, Temperature};

use super::assembly::{JobAssembly, assembly};
use super::desk::{Desk, Range};
use super::marks::part_or_pieces;
use super::money::added_percent;
use crate::file::{
    GripFile, HingedLidFile, HungFile, LiftFile, MakerFile, Size, StationLoadFile, StationsFile, StrutsFile,
    WeightsFile,
};
use crate::model::Part;
use crate::place::Place;

/// What is asked about weights.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Weights {
    /// Hinged lids.
    pub lids: Vec<HingedLid>,
    /// Loads on stations.
    pub stations: Vec<Stations>,
    /// Lifts by hand.
    pub lifts: Vec<Lift>,
    /// Wholes made of parts at their places.
    pub assemblies: Vec<JobAssembly>,
}

/// One lift by hand.
#[derive(Debug, Clone, PartialEq)]
pub struct Lift {
    /// Mark of the part, or of the whole of several pieces.
    pub mark: String,
    /// The parts' places in the job: one, or the pieces of the whole.
    pub parts: Vec<usize>,
    /// How it is lifted.
    pub lift: HandLift,
}

/// A hinged lid.
#[derive(Debug, Clone, PartialEq)]
pub struct HingedLid {
    /// Mark of the part, or of the whole of several pieces.
    pub mark: String,
    /// The parts' places in the job: one, or the pieces of the whole.
    pub parts: Vec<usize>,
    /// The hinged side.
    pub hinge: String,
    /// From the outside of the hinge side back to the pin, and from its lower edge up to the pin.
    pub pin: [Length; 2],
    /// How far it opens.
    pub opens: units::Angle,
    /// What is fixed to it.
    pub hardware: Vec<HungLoad>,
    /// From the pin out to the handle.
    pub handle: Option<Length>,
    /// Its struts.
    pub struts: Option<Struts>,
}

/// Gas struts of a lid.
#[derive(Debug, Clone, PartialEq)]
pub struct Struts {
    /// Where they are mounted.
    pub mounts: StrutMounts,
    /// Coldest and hottest.
    pub temperatures: [Temperature; 2],
    /// Added to the force for friction and age.
    pub margin: Percent,
    /// The strut that is chosen: what its maker calls it, and its data.
    pub chosen: Option<(String, GasStrut)>,
}

/// Loads along one line.
#[derive(Debug, Clone, PartialEq)]
pub struct Stations {
    /// What is loaded.
    pub name: String,
    /// What stations count from.
    pub datum: String,
    /// The loads.
    pub loads: Vec<Load>,
    /// Two places that carry everything.
    pub supports: Option<[Support; 2]>,
}

/// A load at its station.
#[derive(Debug, Clone, PartialEq)]
pub struct Load {
    /// What it is.
    pub what: Loaded,
    /// How many.
    pub count: u32,
    /// Station of its centre of gravity.
    pub at: Length,
}

/// What is loaded.
#[derive(Debug, Clone, PartialEq)]
pub enum Loaded {
    /// Parts of the job by their places in it: one, or the pieces of a whole.
    Parts {
        /// The mark.
        mark: String,
        /// The parts.
        parts: Vec<usize>,
    },
    /// Something else.
    Item {
        /// What it is.
        item: String,
        /// What one weighs.
        weight: Mass,
    },
}

/// Everything the file asks about weights.
pub(super) fn weights(file: Option<&WeightsFile>, parts: &[Part], desk: &mut Desk<'_>) -> Weights {
    let Some(file) = file else { return Weights::default() };
    let place = Place::top("weights");
    let entry = |list: &str, number: usize| place.field(list).entry(number);
    let lids = file.lids.iter().enumerate();
    let stations = file.stations.iter().enumerate();
    let lifts = file.lifts.iter().enumerate();
    let assemblies = file.assemblies.iter().enumerate();
    let assemblies = assemblies
        .filter_map(|(number, whole)| assembly(whole, parts, &entry("assemblies", number), desk))
        .collect();
    Weights {
        assemblies,
        lids: lids.filter_map(|(number, lid)| hinged_lid(lid, parts, &entry("lids", number), desk)).collect(),
        stations: stations
            .filter_map(|(number, line)| stations_of(line, parts, &entry("stations", number), desk))
            .collect(),
        lifts: lifts
            .filter_map(|(number, lift)| lift_of(lift, parts, &entry("lifts", number), desk))
            .collect(),
    }
}

pub(super) fn mass(text: &str, place: &Place, desk: &mut Desk<'_>) -> Option<Mass> {
    let mass = desk.text(place, Some(&text.to_owned()), Mass::read)??;
    if mass <= Mass::ZERO {
        desk.add(place, text, "must be above zero", "give what it weighs on a scale");
        return None;
    }
    Some(mass)
}

fn hinged_lid(file: &HingedLidFile, parts: &[Part], place: &Place, desk: &mut Desk<'_>) -> Option<HingedLid> {
    let of_mark = part_or_pieces(&file.part, parts, &place.field("part"), desk);
    let pin = desk.pair(&place.field("pin"), &file.pin, Range::Any);
    let opens = desk.angle(&place.field("opens"), &file.opens);
    let handle = desk.optional(&place.field("handle"), file.handle.as_ref(), Range::AboveZero);
    let written = file.hardware.iter().enumerate();
    let hardware: Vec<Option<HungLoad>> =
        written.map(|(number, hung)| hung_load(hung, &place.field("hardware").entry(number), desk)).collect();
    let opens = opens?;
    if !(opens.degrees() > 0.0 && opens.degrees() <= 180.0) {
        let remedy = "measure from closed: 90 stands upright";
        desk.add(
            &place.field("opens"),
            &file.opens.0.to_string(),
            "a lid opens by more than 0 up to 180°",
            remedy,
        );
        return None;
    }
    let struts = file.struts.as_ref().map(|struts| struts_of(struts, opens, &place.field("struts"), desk));
    Some(HingedLid {
        mark: file.part.clone(),
        parts: of_mark?,
        hinge: file.hinge.clone(),
        pin: pin?,
        opens,
        hardware: hardware.into_iter().collect::<Option<_>>()?,
        handle: handle?,
        struts: match struts {
            None => None,
            Some(struts) => Some(struts?),
        },
    })
}

fn hung_load(file: &HungFile, place: &Place, desk: &mut Desk<'_>) -> Option<HungLoad> {
    let weight = mass(&file.weight, &place.field("weight"), desk);
    let [out, up] = desk.pair(&place.field("at"), &file.at, Range::Any)?;
    Some(HungLoad { what: file.item.clone(), mass: weight?, out, up })
}

fn struts_of(file: &StrutsFile, opens: units::Angle, place: &Place, desk: &mut Desk<'_>) -> Option<Struts> {
    let fixed = desk.pair(&place.field("fixed"), &file.fixed, Range::Any);
    let on_lid = desk.pair(&place.field("on_lid"), &file.on_lid, Range::Any);
    let temperatures = two_temperatures(&file.temperatures, &place.field("temperatures"), desk);
    let margin = added_percent(&place.field("margin"), &file.margin, desk);
    let mounts = StrutMounts { count: file.count, fixed: fixed?, on_lid: on_lid?, opens };
    if let Err(fault) = mounts.check() {
        mount_fault(file, fault, place, desk);
        return None;
    }
    let chosen = match &file.maker {
        None => None,
        Some(maker) => {
            let place = place.field("maker");
            Some((maker.name.clone(), maker_strut(maker, &mounts, temperatures, &place, desk)?))
        }
    };
    Some(Struts { mounts, temperatures: temperatures?, margin: margin?, chosen })
}

fn two_temperatures(written: &[String; 2], place: &Place, desk: &mut Desk<'_>) -> Option<[Temperature; 2]> {
    let [low, high] = [0, 1]
        .map(|number: usize| desk.text(&place.entry(number), Some(&written[number]), Temperature::read));
    let (low, high) = (low??, high??);
    if low < high {
        return Some([low, high]);
    }
    let value = format!("{}, {}", written[0], written[1]);
    desk.add(place, &value, "the second is not hotter than the first", "give the coldest, then the hottest");
    None
}

fn pair_words(sizes: &[Size; 2]) -> String {
    format!("{}, {}", sizes[0], sizes[1])
}

fn mount_fault(file: &StrutsFile, fault: StrutFault, place: &Place, desk: &mut Desk<'_>) {
    let (field, value, remedy) = match fault {
        StrutFault::LidEndNotOnLid => {
            ("on_lid", pair_words(&file.on_lid), "measure out from the pin toward the free edge, above zero")
        }
        StrutFault::HoldsShut => {
            ("fixed", pair_words(&file.fixed), "below the pin is below zero: check the signs of both places")
        }
        _ => ("fixed", pair_words(&file.fixed), "measure both places from the middle of the pin"),
    };
    desk.add(&place.field(field), &value, fault.to_string(), remedy);
}

fn maker_strut(
    file: &MakerFile,
    mounts: &StrutMounts,
    wanted: Option<[Temperature; 2]>,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<GasStrut> {
    let force = desk.text(&place.field("force"), Some(&file.force), Force::read);
    let compressed = desk.length(&place.field("compressed"), &file.compressed, Range::AboveZero);
    let extended = desk.length(&place.field("extended"), &file.extended, Range::AboveZero);
    if let Some(written) = &file.temperatures {
        let allowed = two_temperatures(written, &place.field("temperatures"), desk)?;
        let outside = |[low, high]: [Temperature; 2]| low < allowed[0] || allowed[1] < high;
        if wanted.is_some_and(outside) {
            let value = format!("{}, {}", written[0], written[1]);
            let wrong = "the job wants it colder or hotter than its maker allows";
            desk.add(
                &place.field("temperatures"),
                &value,
                wrong,
                "choose another strut: the maker's data decide",
            );
        }
    }
    let (force, compressed, extended) = (force??, compressed?, extended?);
    let strut = GasStrut { force, ratio: file.ratio, compressed, extended };
    let Err(fault) = strut.check(mounts) else { return Some(strut) };
    let print = |millimetres: f64| Length::from_millimetres(millimetres).print(desk.style);
    let (field, value, wrong, remedy) = match fault {
        StrutFault::TooShort { needed_mm } => {
            let pulled = format!("{fault}: the lid pulls its ends {} apart", print(needed_mm));
            ("extended", file.extended.to_string(), pulled, "choose a longer strut, or move its ends")
        }
        StrutFault::TooLong { needed_mm } => {
            let pressed = format!("{fault}: the lid presses its ends to {} apart", print(needed_mm));
            ("compressed", file.compressed.to_string(), pressed, "choose a shorter strut, or move its ends")
        }
        StrutFault::RatioBelowOne => {
            let remedy = "give force compressed over force extended, from the maker's data";
            ("ratio", file.ratio.to_string(), fault.to_string(), remedy)
        }
        StrutFault::NoForce => {
            ("force", file.force.clone(), fault.to_string(), "give the maker's force at 20 °C")
        }
        _ => (
            "extended",
            file.extended.to_string(),
            fault.to_string(),
            "read both lengths from the maker's data",
        ),
    };
    desk.add(&place.field(field), &value, wrong, remedy);
    None
}

fn stations_of(file: &StationsFile, parts: &[Part], place: &Place, desk: &mut Desk<'_>) -> Option<Stations> {
    let written = file.loads.iter().enumerate();
    let loads: Vec<Option<Load>> = written
        .map(|(number, load)| station_load(load, parts, &place.field("loads").entry(number), desk))
        .collect();
    let supports = match &file.supports {
        None => None,
        Some(both) => {
            let here = place.field("supports");
            let at = [0, 1].map(|number: usize| {
                desk.length(&here.entry(number).field("at"), &both[number].at, Range::Any)
            });
            let [first, second] = [at[0]?, at[1]?];
            if first == second {
                let wrong = estimate::SupportsFault.to_string();
                desk.add(&here, &both[0].at.to_string(), wrong, "give the stations of two places");
                return None;
            }
            let support = |number: usize, at| Support { name: both[number].name.clone(), at };
            Some([support(0, first), support(1, second)])
        }
    };
    let loads = loads.into_iter().collect::<Option<_>>()?;
    Some(Stations { name: file.name.clone(), datum: file.datum.clone(), loads, supports })
}

fn station_load(file: &StationLoadFile, parts: &[Part], place: &Place, desk: &mut Desk<'_>) -> Option<Load> {
    let at = desk.length(&place.field("at"), &file.at, Range::Any);
    let what = match (&file.part, &file.item, &file.weight) {
        (Some(mark), None, None) => {
            let found = part_or_pieces(mark, parts, &place.field("part"), desk)?;
            Loaded::Parts { mark: mark.clone(), parts: found }
        }
        (None, Some(item), Some(weight)) => {
            let weight = mass(weight, &place.field("weight"), desk)?;
            Loaded::Item { item: item.clone(), weight }
        }
        _ => {
            let remedy = "give \"part\" alone, or \"item\" with \"weight\"";
            desk.add(place, "", "a load is a part of the job, or an item with its weight", remedy);
            return None;
        }
    };
    Some(Load { what, count: file.count.unwrap_or(1), at: at? })
}

fn lift_of(file: &LiftFile, parts: &[Part], place: &Place, desk: &mut Desk<'_>) -> Option<Lift> {
    let of_mark = part_or_pieces(&file.part, parts, &place.field("part"), desk);
    let reach = desk.length(&place.field("reach"), &file.reach, Range::AboveZero);
    let from = desk.length(&place.field("from"), &file.from, Range::ZeroOrMore);
    let to = desk.length(&place.field("to"), &file.to, Range::ZeroOrMore);
    let turned = match &file.turned {
        None => units::Angle::from_degrees(0.0),
        Some(turned) => desk.angle(&place.field("turned"), turned)?,
    };
    let grip = match file.grip {
        GripFile::Good => Grip::Good,
        GripFile::Fair => Grip::Fair,
        GripFile::Poor => Grip::Poor,
    };
    let lift = HandLift { reach: reach?, from_and_to: [from?, to?], turned, grip };
    if let Err(fault) = lift.limit() {
        desk.add(place, &file.part, fault.to_string(), "lift it otherwise: closer, lower, or with a hoist");
        return None;
    }
    Some(Lift { mark: file.part.clone(), parts: of_mark?, lift })
}
