//! The bend number of a metal: the shop's strip first, then the job's own figure, then the table's.

use fold::BendNumber;
use fold::bend::choice::{StripsContradict, Wanted, choose};
use fold::bend::{NumberError, Origin, ShopStrip, StripError, StripMetal, TestStrip};
use stock::brake::chosen_v_opening;
use stock::{BendModel, Figure, Hardness, Metal, Pattern, find_alloy};

use super::desk::Desk;
use super::shop::{Strip, Strips};
use crate::file::{MetalFile, ModelFile};
use crate::place::Place;
use units::Length;

/// The model that the job itself names; the outer `None` is a finding.
pub(super) fn model_of_job(
    file: &MetalFile,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<Option<BendModel>> {
    if let (Some(k_factor), Some(ModelFile::Faa | ModelFile::Empirical | ModelFile::Din6935)) =
        (file.k_factor, file.model)
    {
        let wrong = "another model is named, which has no K-factor";
        desk.add(&place.field("k_factor"), &k_factor.to_string(), wrong, "keep one of k_factor and model");
        return None;
    }
    if let Some(k_factor) = file.k_factor.filter(|k| !(0.0..=0.5).contains(k)) {
        let remedy = "give how far in the neutral line lies, over the thickness: .42 is usual for aluminium";
        desk.add(&place.field("k_factor"), &k_factor.to_string(), "must be from 0 to .5", remedy);
        return None;
    }
    match file.model {
        None | Some(ModelFile::KFactor) => Some(file.k_factor.map(BendModel::KFactor)),
        Some(ModelFile::Faa) => Some(Some(BendModel::FaaHandbook)),
        Some(ModelFile::Din6935) => Some(Some(BendModel::Din6935)),
        Some(ModelFile::Empirical) => empirical(file, place, desk).map(Some),
    }
}

/// The handbook's rule has rows for aluminium and soft steel; for others it would be a guess.
fn empirical(file: &MetalFile, place: &Place, desk: &mut Desk<'_>) -> Option<BendModel> {
    use stock::Family::{Aluminium, MildSteel, StainlessSteel, Unlisted};
    // An alloy that is not known is a finding of its own.
    let family = find_alloy(&file.alloy).map(|found| found.alloy.family);
    match family {
        Ok(Aluminium | MildSteel) | Err(_) if !file.unlisted => {
            Some(BendModel::EmpiricalByMaterial(Hardness::HalfHard))
        }
        Ok(Aluminium | MildSteel | StainlessSteel | Unlisted) | Err(_) => {
            let wrong = "the empirical rule has no row for this alloy";
            desk.add(&place.field("model"), "empirical", wrong, "give k_factor, or bend a strip");
            None
        }
    }
}

/// What a bend number is wanted for.
pub(super) struct Bent<'a> {
    /// The metal.
    pub(super) metal: &'a Metal,
    /// The metal as the file has it, which the file's strips were cut from; other sheets may have been received.
    pub(super) strips_of: &'a Metal,
    /// Whether the file names a model of its own.
    pub(super) from_job: bool,
}

/// The bend number, best first: the strips of job and log that are near enough, then the job's own figure, then the
/// table's.
pub(super) fn bend_number(
    &Bent { metal, strips_of, from_job }: &Bent<'_>,
    strips: &Strips<'_>,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<BendNumber> {
    let own = strips.of_job.iter().filter(|strip| strip.metal == metal.name);
    let proved: Vec<Option<ShopStrip>> = own.map(|strip| prove(strip, strips_of, desk)).collect();
    let mut all: Vec<ShopStrip> = proved.into_iter().collect::<Option<_>>()?;
    all.extend(strips.of_log.iter().cloned());
    let wanted = Wanted {
        metal: strip_metal(metal),
        thickness: metal.thickness,
        inside_radius: metal.inside_radius,
        v_openings: nearest_first(&strips.v_openings, metal.thickness),
    };
    let number = match choose(&wanted, &all) {
        Ok(Some(choice)) => {
            if from_job {
                let taken = "a strip was bent, so its number is used and not the one given";
                desk.assumptions.push(format!("{}: {taken}.", metal.name));
            }
            BendNumber::from_strips(choice)
        }
        Ok(None) => {
            let source = metal.source(Figure::BendModel).unwrap_or_default().to_owned();
            let origin = if from_job { Origin::Job } else { Origin::Table(source) };
            BendNumber::new(metal.thickness, metal.inside_radius, metal.bend_model, origin)
        }
        Err(contradiction) => {
            add_contradiction(&contradiction, metal, place, desk);
            return None;
        }
    };
    number.map_err(|error| add_fault(&error, place, desk)).ok()
}

/// The shop's dies, the one that it would take for a thickness first.
fn nearest_first(v_openings: &[Length], thickness: Length) -> Vec<Length> {
    let mut left = v_openings.to_vec();
    let mut ordered = Vec::new();
    while let Some(next) = chosen_v_opening(&left, thickness).filter(|_| !left.is_empty()) {
        left.retain(|v| *v != next);
        ordered.push(next);
    }
    ordered
}

/// A metal of the job as strips are compared with it. An unlisted alloy has its temper in its name.
fn strip_metal(metal: &Metal) -> StripMetal {
    StripMetal {
        alloy: metal.alloy.name.clone(),
        temper: metal.temper.clone(),
        family: metal.alloy.family,
        tread: metal.pattern == Pattern::Tread,
    }
}

/// A strip of the job has the thickness and radius of its metal.
fn prove(strip: &Strip, metal: &Metal, desk: &mut Desk<'_>) -> Option<ShopStrip> {
    let test = TestStrip {
        length: strip.length,
        legs: strip.legs,
        turn: strip.turn,
        thickness: metal.thickness,
        inside_radius: metal.inside_radius,
    };
    match ShopStrip::new(test, strip_metal(metal), strip.place.words().to_owned()) {
        Ok(mut made) => {
            made.turn_in_die = strip.turn_in_die;
            made.date.clone_from(&strip.date);
            made.of_job = true;
            Some(made)
        }
        Err(error) => {
            strip_fault(&error, &test, &strip.place, desk);
            None
        }
    }
}

/// Says why a strip proves nothing.
pub(super) fn strip_fault(error: &StripError, strip: &TestStrip, place: &Place, desk: &mut Desk<'_>) {
    let legs = strip.legs.map(|leg| leg.print(desk.style)).join(" + ");
    let wrong = match error {
        StripError::LegsTooShort { .. } => format!(
            "together {}, not more than the strip's {}: outside legs always come out longer",
            (strip.legs[0] + strip.legs[1]).print(desk.style),
            strip.length.print(desk.style)
        ),
        StripError::ImpossibleFactor { .. } => error.to_string(),
    };
    let remedy = "measure strip and legs again, legs over the outside, and check thickness and radius";
    desk.add(&place.field("legs"), &legs, wrong, remedy);
}

/// Two strips bent alike that cannot both be right are never averaged, and none is preferred.
fn add_contradiction(error: &StripsContradict, metal: &Metal, place: &Place, desk: &mut Desk<'_>) {
    let remedy = "bend one more, and take the wrong one out";
    desk.add(place, &metal.name, format!("two strips bent alike contradict: {error}"), remedy);
}

fn add_fault(error: &NumberError, place: &Place, desk: &mut Desk<'_>) {
    let (field, remedy) = match error {
        NumberError::NoThickness => ("thickness", "give the sheet's thickness"),
        NumberError::NoRadius => ("inside_radius", "give the radius the bends come out with"),
        NumberError::Factor(_) => ("k_factor", "give a number from 0 to .5"),
    };
    desk.add(&place.field(field), "", error.to_string(), remedy);
}
