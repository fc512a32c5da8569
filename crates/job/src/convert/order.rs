//! The order to the supplier: texts, day and weight read and judged.

use units::Mass;

use super::desk::Desk;
use crate::file::{FilmSideFile, InterleafFile, JobFile, OrderFile, PackedFile};
use crate::nearest::{list, nearest};
use crate::place::Place;

/// What an order says beside the sheets; nothing set where the file says nothing.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct OrderTerms {
    /// Who it goes to.
    pub supplier: Option<String>,
    /// The shop's number for it.
    pub number: Option<String>,
    /// Where it is delivered.
    pub deliver_to: Option<String>,
    /// Whom the driver calls.
    pub contact: Option<String>,
    /// The last day it is of use, as year-month-day.
    pub wanted_by: Option<String>,
    /// How it comes off the truck.
    pub unloading: Option<String>,
    /// Most that one pack may weigh.
    pub heaviest_pack: Option<Mass>,
    /// True on skids, false loose.
    pub on_skids: Option<bool>,
    /// What lies between the sheets.
    pub interleaf: Option<Interleaf>,
    /// True where film on one side lies up in the pack.
    pub film_up: Option<bool>,
    /// Whether the mill's certificate comes with it.
    pub certificate: Option<bool>,
    /// Tolerances in the shop's own words, by the metal's name.
    pub tolerances: Vec<(String, String)>,
}

/// What lies between the sheets of a pack.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Interleaf {
    /// Paper.
    Paper,
    /// Foam.
    Foam,
    /// Nothing.
    Nothing,
}

/// What the file says of the order.
pub(super) fn order(job: &JobFile, desk: &mut Desk<'_>) -> OrderTerms {
    let file = job.buying.as_ref().and_then(|buying| buying.order.as_ref());
    let Some(file) = file else { return OrderTerms::default() };
    let place = Place::top("buying").field("order");
    if let Some(date) = &file.wanted_by {
        desk.date_to_come(&place.field("wanted_by"), date, job.date.as_deref());
    }
    known_metals(job, file, &place, desk);
    OrderTerms {
        supplier: file.supplier.clone(),
        number: file.number.clone(),
        deliver_to: file.deliver_to.clone(),
        contact: file.contact.clone(),
        wanted_by: file.wanted_by.clone(),
        unloading: file.unloading.clone(),
        heaviest_pack: heaviest_pack(file, &place, desk),
        on_skids: file.packed.map(|packed| packed == PackedFile::OnSkids),
        interleaf: file.interleaf.map(|interleaf| match interleaf {
            InterleafFile::Paper => Interleaf::Paper,
            InterleafFile::Foam => Interleaf::Foam,
            InterleafFile::None => Interleaf::Nothing,
        }),
        film_up: file.film_side.map(|side| side == FilmSideFile::Up),
        certificate: file.certificate,
        tolerances: file.tolerances.0.clone(),
    }
}

fn heaviest_pack(file: &OrderFile, place: &Place, desk: &mut Desk<'_>) -> Option<Mass> {
    let place = place.field("heaviest_pack");
    let mass = desk.text(&place, file.heaviest_pack.as_ref(), Mass::read)??;
    if mass <= Mass::ZERO {
        let written = file.heaviest_pack.clone().unwrap_or_default();
        desk.add(
            &place,
            &written,
            "must be above zero",
            "give what can be unloaded at once, like \"1500 lb\"",
        );
        return None;
    }
    Some(mass)
}

fn known_metals(job: &JobFile, file: &OrderFile, place: &Place, desk: &mut Desk<'_>) {
    let names: Vec<&str> = job.metals.0.iter().map(|(name, _)| name.as_str()).collect();
    for (name, _) in file.tolerances.0.iter().filter(|(name, _)| !names.contains(&name.as_str())) {
        let remedy = nearest(name, &names).map_or_else(
            || format!("metals are {}", list(names.iter().copied())),
            |near| format!("did you mean {near}?"),
        );
        desk.add(&place.field("tolerances").field(name), "", "no metal has this name", remedy);
    }
}
