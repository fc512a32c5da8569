//! The flats of a kit laid in crates, and what no crate takes said in words.

use estimate::{Crate, CratingFault, FlatToSend, pack};
use job::{Job, JobMetal, Kit};
use paper::lists::ListUnits;
use units::Length;

use super::other_hand;
use crate::plan::{Flats, finer};
use crate::speech::Refusal;

type Packed = (Vec<(usize, FlatToSend)>, Vec<Crate>);

/// Every flat that is sent, and the crates that they lie in.
pub(super) fn packed(flats: &Flats, kit: &Kit) -> Result<Packed, Refusal> {
    let mut sent: Vec<(usize, FlatToSend)> = Vec::new();
    for &number in &kit.parts {
        let part = &flats.parts[number];
        let (length, width) = part.flat.extents_mm();
        let flat = FlatToSend {
            mark: part.part.mark.clone(),
            copy: 1,
            size: [length, width].map(Length::from_millimetres),
            thickness: lying_thickness(&flats.job.metals[part.part.metal]),
            weight: part.weight,
            opposite_hand: other_hand(flats, number),
            first_wanted: kit.test_strips.contains(&number),
        };
        sent.extend((1..=part.part.quantity).map(|copy| (number, FlatToSend { copy, ..flat.clone() })));
    }
    let pieces: Vec<FlatToSend> = sent.iter().map(|(_, flat)| flat.clone()).collect();
    match pack(&pieces, &kit.limits) {
        Ok(crates) => Ok((sent, crates)),
        Err(faults) => Err(refused(flats, kit, &faults)),
    }
}

/// How thick a flat lies in its layer: the base and, where their height is given, the lugs on it.
fn lying_thickness(metal: &JobMetal) -> Length {
    metal.metal.thickness + metal.lug_height.unwrap_or(Length::ZERO)
}

fn refused(flats: &Flats, kit: &Kit, faults: &[CratingFault]) -> Refusal {
    let unsound = faults.iter().find(|fault| matches!(fault, CratingFault::Unsound(_)));
    if let Some(fault) = unsound {
        return Refusal::ProofFailed(format!("{}: kit: {fault}", flats.file));
    }
    Refusal::BadInput(faults.iter().map(|fault| words(&flats.file, &flats.job, kit, fault)).collect())
}

fn words(file: &str, job: &Job, kit: &Kit, fault: &CratingFault) -> String {
    let units = ListUnits::of(job.style);
    let pair = |[a, b]: [Length; 2]| format!("{} × {}", a.print(job.style), b.print(job.style));
    match fault {
        CratingFault::TooLarge { mark, size, room } => format!(
            "{file}: {mark}: kit.crates.inside: {}: its flat lies in no crate, which has {} inside its clear edges\n    \
             split the part, give a larger crate, or name it under \"stays_here\"",
            pair(*size),
            pair(*room)
        ),
        CratingFault::TooThick { mark, room } => format!(
            "{file}: {mark}: kit.crates.inside: is thicker than the {} that packing leaves of the crate's height\n    \
             give a higher crate or thinner packing",
            room.print(finer(job.style))
        ),
        CratingFault::TooHeavy { mark, gross } => format!(
            "{file}: {mark}: kit.crates.heaviest: alone in a crate makes {}, and a crate may weigh {}\n    \
             split the part, allow more, or name it under \"stays_here\"",
            gross.print_with_unit(units.mass, 2),
            kit.limits.heaviest.print_with_unit(units.mass, 2)
        ),
        CratingFault::TooManyCrates { needed } => format!(
            "{file}: kit.crates.most: {}: {needed} crates are needed\n    \
             allow more crates, larger ones or heavier ones, or leave parts out under \"stays_here\"",
            kit.limits.most.unwrap_or_default()
        ),
        CratingFault::Unsound(words) => format!("{file}: kit: {words}"),
    }
}
