//! Metals: the tables' figures, the job's own in their place, and the bend number.

use stock::{Alloy, AlloyError, Film, Lay, Metal, MetalBuilder, MetalError, Pattern, find_alloy};
use units::{Density, Length, MassPerArea};

use super::bend_number;
use super::desk::{Desk, Range};
use super::fine;
use super::shop::Strips;
use super::turns;
use crate::file::{FilmFile, JobFile, MetalFile, MetalLay, PatternFile};
use crate::model::JobMetal;
use crate::nearest::nearest;
use crate::place::Place;

/// Metals by name in the file's order; `None` where something was found.
pub(super) type Metals = Vec<(String, Option<JobMetal>)>;

/// Every metal of the file.
///
/// `thicknesses` are those of sheets received, in place of the file's.
pub(super) fn metals(
    file: &JobFile,
    strips: &Strips<'_>,
    thicknesses: &[(String, Length)],
    desk: &mut Desk<'_>,
) -> Metals {
    let entries = file.metals.0.iter();
    entries
        .map(|(name, metal)| {
            let measured =
                thicknesses.iter().find(|(known, _)| known == name).map(|(_, thickness)| *thickness);
            let metal = metal.as_ref().and_then(|file| self::metal(name, file, strips, measured, desk));
            (name.clone(), metal)
        })
        .collect()
}

fn metal(
    name: &str,
    file: &MetalFile,
    strips: &Strips<'_>,
    measured: Option<Length>,
    desk: &mut Desk<'_>,
) -> Option<JobMetal> {
    let place = Place::top("metals").field(name);
    let sizes = Sizes::read(file, &place, desk);
    let builder = base(name, file, &sizes, &place, desk);
    let model = bend_number::model_of_job(file, &place, desk);
    let turns = turns::turns(file, &place, desk);
    let (mut builder, sizes, model) = (builder?, sizes.whole()?, model?);
    builder = with_faces(builder, name, file, desk);
    if let Some(density) = sizes.density.flatten() {
        builder = builder.density(density);
    }
    if let Some(weight) = sizes.weight.flatten() {
        builder = builder.weight_per_area(weight);
    }
    if let Some(radius) = sizes.inside_radius.flatten() {
        builder = builder.inside_radius(radius);
    }
    if let Some(radius) = sizes.least_inside_radius.flatten() {
        builder = builder.least_inside_radius(radius);
    }
    if let Some(model) = model {
        builder = builder.bend_model(model);
    }
    let ordered = builder.build().map_err(|error| add_fault(&error, file, &place, desk)).ok()?;
    let metal = match measured {
        Some(thickness) => as_measured(&ordered, thickness, file, &place, desk)?,
        None => ordered.clone(),
    };
    let radius_caution = radius_caution(&metal, desk);
    caution_weight(&metal, desk);
    let bent = bend_number::Bent { metal: &metal, strips_of: &ordered, from_job: model.is_some() };
    let number = bend_number::bend_number(&bent, strips, &place, desk)?;
    let lug_height = sizes.lug_height.flatten();
    if lug_height.is_some() && metal.pattern == Pattern::Plain {
        let remedy = "take it out, or write \"pattern\": \"tread\"";
        let value = file.lug_height.as_ref().map(ToString::to_string).unwrap_or_default();
        desk.add(&place.field("lug_height"), &value, "plain metal has no lugs", remedy);
        return None;
    }
    Some(JobMetal { metal, number, turns: turns?, lug_height, face_shows: file.face_shows, radius_caution })
}

/// The metal with the thickness of the sheets received.
fn as_measured(
    ordered: &Metal,
    thickness: Length,
    file: &MetalFile,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<Metal> {
    let style = fine(desk.unit);
    let (is, was) = (thickness.print(style), ordered.thickness.print(style));
    desk.assumptions
        .push(format!("{}: worked for {is}, measured on the sheets received; ordered {was}.", ordered.name));
    ordered.measured(thickness).map_err(|error| add_fault(&error, file, place, desk)).ok()
}

/// The sizes of a metal, each `None` where something was found.
struct Sizes {
    thickness: Option<Length>,
    inside_radius: Option<Option<Length>>,
    least_inside_radius: Option<Option<Length>>,
    density: Option<Option<Density>>,
    weight: Option<Option<MassPerArea>>,
    lug_height: Option<Option<Length>>,
}

impl Sizes {
    fn read(file: &MetalFile, place: &Place, desk: &mut Desk<'_>) -> Self {
        let radius = file.inside_radius.as_ref();
        let least = file.least_inside_radius.as_ref();
        Self {
            thickness: desk.length(&place.field("thickness"), &file.thickness, Range::Thickness),
            inside_radius: desk.optional(&place.field("inside_radius"), radius, Range::AboveZero),
            least_inside_radius: desk.optional(&place.field("least_inside_radius"), least, Range::ZeroOrMore),
            density: desk.text(&place.field("density"), file.density.as_ref(), Density::read),
            weight: desk.text(&place.field("weight"), file.weight.as_ref(), MassPerArea::read),
            lug_height: desk.optional(&place.field("lug_height"), file.lug_height.as_ref(), Range::AboveZero),
        }
    }

    /// All of them, when nothing was found in any.
    fn whole(self) -> Option<Self> {
        let whole = self.thickness.is_some()
            && self.inside_radius.is_some()
            && self.least_inside_radius.is_some()
            && self.density.is_some()
            && self.weight.is_some()
            && self.lug_height.is_some();
        whole.then_some(self)
    }
}

/// The alloy's row, or the alloy that the job describes.
fn base(
    name: &str,
    file: &MetalFile,
    sizes: &Sizes,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<MetalBuilder> {
    let found = find_alloy(&file.alloy);
    let place_of_alloy = place.field("alloy");
    match (found, file.unlisted) {
        (Ok(found), false) => Some(MetalBuilder::new(name, found, sizes.thickness?)),
        (Ok(_), true) => {
            let remedy = "take \"unlisted\" out; density and bends can be given all the same";
            desk.add(&place_of_alloy, &file.alloy, "the tables do have this alloy", remedy);
            None
        }
        (Err(error), false) => {
            let own = "say \"unlisted\": true and give density and k_factor";
            let remedy = alloy_remedy(&error, &file.alloy, own);
            desk.add(&place_of_alloy, &file.alloy, error.to_string(), remedy);
            None
        }
        (Err(_), true) if file.density.is_none() => {
            let remedy = "give it, like \"2.71 g/cm3\" or \".0979 lb/in3\"";
            desk.add(&place.field("density"), "", "is missing for an unlisted alloy", remedy);
            None
        }
        (Err(_), true) => {
            let alloy = Alloy::unlisted(&file.alloy, sizes.density.flatten()?);
            Some(MetalBuilder::unlisted(name, alloy, sizes.thickness?))
        }
    }
}

/// A known alloy whose name is near, or `own`: how to describe one of one's own.
pub(super) fn alloy_remedy(error: &AlloyError, given: &str, own: &str) -> String {
    let names: Vec<&str> = stock::alloys().iter().map(|alloy| alloy.name.as_str()).collect();
    let name = given.split('-').next().unwrap_or(given);
    match (error, nearest(name.trim(), &names)) {
        (AlloyError::UnknownTemper { .. }, _) => "use one of these, or leave the temper out".to_owned(),
        (AlloyError::UnknownAlloy { .. }, Some(near)) => format!("did you mean {near}? If not, {own}"),
        (AlloyError::UnknownAlloy { .. }, None) => format!("use one of these, or {own}"),
    }
}

fn with_faces(builder: MetalBuilder, name: &str, file: &MetalFile, desk: &mut Desk<'_>) -> MetalBuilder {
    let tread = file.pattern == Some(PatternFile::Tread);
    let lay = match file.lay {
        Some(MetalLay::LongSide) => Some(Lay::LongSide),
        Some(MetalLay::ShortSide) => Some(Lay::ShortSide),
        None if tread => {
            let taken = "the lay is not given and taken along the long side of the sheet";
            desk.assumptions.push(format!("{name}: {taken}."));
            Some(Lay::LongSide)
        }
        None => None,
    };
    let film = match file.film {
        Some(FilmFile::OneSide) => Film::OneSide,
        Some(FilmFile::BothSides) => Film::BothSides,
        Some(FilmFile::Bare) | None => Film::Bare,
    };
    let builder = builder.pattern(if tread { Pattern::Tread } else { Pattern::Plain }).film(film);
    lay.map_or(builder.clone(), |lay| builder.lay(lay))
}

fn add_fault(error: &MetalError, file: &MetalFile, place: &Place, desk: &mut Desk<'_>) {
    let (field, value, remedy) = match error {
        MetalError::Thickness { .. } => {
            ("thickness", file.thickness.to_string(), "give the sheet's thickness")
        }
        MetalError::NegativeRadius => ("inside_radius", String::new(), "give zero or more"),
        MetalError::KFactor => {
            ("k_factor", String::new(), "give how far in the neutral line lies, over the thickness")
        }
        MetalError::NoBendModel { .. } => ("k_factor", String::new(), "give k_factor, or a model"),
    };
    desk.add(&place.field(field), &value, error.to_string(), remedy);
}

/// A radius below the table's is made every day, and cracks now and then: it is said, not refused.
/// Bent sharper than the table says, in words; whether anything of it is bent is not known yet.
fn radius_caution(metal: &Metal, desk: &Desk<'_>) -> Option<String> {
    let least = metal.least_inside_radius.as_ref().filter(|least| least.radius > metal.inside_radius)?;
    let style = fine(desk.unit);
    Some(format!(
        "{}: inside radius {} is below {}, the least for {} {} thick ({}). Bend a strip and look for cracks.",
        metal.name,
        metal.inside_radius.print(style),
        least.radius.print(style),
        metal.alloy_and_temper(),
        metal.thickness.print(style),
        least.source
    ))
}

fn caution_weight(metal: &Metal, desk: &mut Desk<'_>) {
    if !metal.pattern_included {
        desk.cautions.push(format!(
            "{}: no weight of this tread plate is known, so lugs are not in the weights. Give \"weight\".",
            metal.name
        ));
    }
}

/// The place among the whole metals of the one with this name.
pub(super) fn number_of(metals: &Metals, name: &str) -> Option<usize> {
    metals.iter().filter(|(_, metal)| metal.is_some()).position(|(known, _)| known == name)
}
