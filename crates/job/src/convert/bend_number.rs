//! The bend number of a metal: the shop's strip first, then the job's own figure, then the table's.

use fold::BendNumber;
use fold::bend::{NumberError, Origin, StripError, TestStrip};
use stock::{BendModel, Figure, Hardness, Metal, find_alloy};

use super::desk::Desk;
use super::shop::Strip;
use crate::file::{MetalFile, ModelFile};
use crate::place::Place;

/// How far two strips of one metal may differ in K before one of them must be misread. A slip of 1/64 in on one leg of
/// .125 metal moves K by about twice this.
const STRIPS_AGREE_WITHIN: f64 = 0.02;

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

/// The bend number, best first.
pub(super) fn bend_number(
    metal: &Metal,
    from_job: bool,
    strips: &[Strip],
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<BendNumber> {
    let own = strips.iter().filter(|strip| strip.metal == metal.name);
    let proved: Vec<Option<(TestStrip, f64, &Strip)>> = own.map(|strip| prove(strip, metal, desk)).collect();
    let proved: Vec<(TestStrip, f64, &Strip)> = proved.into_iter().collect::<Option<_>>()?;
    let (model, origin) = match proved.as_slice() {
        [] if from_job => (metal.bend_model, Origin::Job),
        [] => {
            let source = metal.source(Figure::BendModel).unwrap_or_default();
            (metal.bend_model, Origin::Table(source.to_owned()))
        }
        [(strip, k_factor, _), others @ ..] => {
            for other in others {
                agree(*k_factor, other, metal, desk)?;
            }
            (BendModel::KFactor(*k_factor), Origin::Strip(*strip))
        }
    };
    let number = BendNumber::new(metal.thickness, metal.inside_radius, model, origin);
    number.map_err(|error| add_fault(&error, place, desk)).ok()
}

fn prove<'a>(strip: &'a Strip, metal: &Metal, desk: &mut Desk<'_>) -> Option<(TestStrip, f64, &'a Strip)> {
    let test = TestStrip {
        length: strip.length,
        legs: strip.legs,
        turn: strip.turn,
        thickness: metal.thickness,
        inside_radius: metal.inside_radius,
    };
    match test.k_factor() {
        Ok(k_factor) => Some((test, k_factor, strip)),
        Err(error) => {
            let legs = strip.legs.map(|leg| leg.print(desk.style)).join(" + ");
            let wrong = match &error {
                StripError::LegsTooShort { .. } => format!(
                    "together {}, not more than the strip's {}: outside legs always come out longer",
                    (strip.legs[0] + strip.legs[1]).print(desk.style),
                    strip.length.print(desk.style)
                ),
                StripError::ImpossibleFactor { .. } => error.to_string(),
            };
            let remedy =
                "measure strip and legs again, legs over the outside, and check thickness and radius";
            desk.add(&strip.place.field("legs"), &legs, wrong, remedy);
            None
        }
    }
}

/// A second strip is a check on the first; two that disagree are never averaged.
fn agree(first: f64, other: &(TestStrip, f64, &Strip), metal: &Metal, desk: &mut Desk<'_>) -> Option<()> {
    let (_, k_factor, strip) = other;
    if (k_factor - first).abs() > STRIPS_AGREE_WITHIN {
        let wrong = format!("this strip gives K {k_factor:.3}, the first of {} gave {first:.3}", metal.name);
        let remedy = "keep the one that was bent with the tooling of this job";
        desk.add(&strip.place, &metal.name, wrong, remedy);
        return None;
    }
    let taken = format!("{}: two strips give K {first:.3} and {k_factor:.3}; the first is used.", metal.name);
    desk.assumptions.push(taken);
    Some(())
}

fn add_fault(error: &NumberError, place: &Place, desk: &mut Desk<'_>) {
    let (field, remedy) = match error {
        NumberError::NoThickness => ("thickness", "give the sheet's thickness"),
        NumberError::NoRadius => ("inside_radius", "give the radius the bends come out with"),
        NumberError::Factor(_) => ("k_factor", "give a number from 0 to .5"),
    };
    desk.add(&place.field(field), "", error.to_string(), remedy);
}
