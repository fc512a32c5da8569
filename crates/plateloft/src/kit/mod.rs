//! A kit: the flats of a plan packed in crates, with everything that the buyer needs to fold them.

mod packing;
mod strips;
mod words;

use estimate::{Crate, FlatToSend};
use job::{Brake, Job, Kit};

pub(crate) use strips::{strip_direction, strip_legs_together};
pub(crate) use words::{drawings, json, labels, text, with_paper};

use crate::plan::{self, Flats, Plan, PlannedPart};
use crate::speech::Refusal;

/// A kit worked out.
#[derive(Debug, Clone)]
pub(crate) struct PackedKit {
    /// The plan, its bends for the buyer's machine.
    pub(crate) plan: Plan,
    /// What the job says of the kit.
    pub(crate) kit: Kit,
    /// The shop's own machine, on which it bends what stays here.
    pub(crate) own_brake: Option<Brake>,
    /// Every flat that is sent, and the part it is of.
    pub(crate) flats: Vec<(usize, FlatToSend)>,
    /// The crates.
    pub(crate) crates: Vec<Crate>,
    /// Test strips, by their places in the plan, each with the metal's place in the job.
    pub(crate) strips: Vec<(usize, usize)>,
}

/// A kit that is asked for, its flats not packed yet.
#[derive(Debug, Clone)]
pub(crate) struct Asked {
    kit: Kit,
    own_brake: Option<Brake>,
}

/// The flats as the buyer folds them: on the buyer's machine, if it is known. Parts that stay here are bent on the shop's.
///
/// # Errors
/// A job that has no kit or is not sound; the answer "no" for one that only the buyer's machine does not bend.
pub(crate) fn for_buyer(file: &str, job: Job) -> Result<(Flats, Asked), Refusal> {
    let Some(kit) = job.kit.clone() else {
        return Err(Refusal::bad(format!(
            "{file}: kit: is not there\n    say under \"kit\" what crates it goes in and what is between the layers"
        )));
    };
    let own_brake = job.shop.brake.clone();
    let Some(brake) = &kit.brake else { return Ok((plan::flats(file, job)?, Asked { kit, own_brake })) };
    let mut for_buyer = job.clone();
    for_buyer.shop.brake = Some(brake.clone());
    let stays = |part: usize| (!kit.parts.contains(&part)).then_some(&job);
    match plan::flats_bent_by(file, for_buyer, stays) {
        Ok(flats) => Ok((flats, Asked { kit, own_brake })),
        Err(Refusal::BadInput(messages)) if plan::flats(file, job.clone()).is_ok() => {
            let parts = messages.len();
            Err(Refusal::CannotBeMade { reasons: messages, parts })
        }
        Err(refusal) => Err(refusal),
    }
}

/// Packs a plan.
///
/// # Errors
/// Flats that no crate takes, metals that are bent and have no test strip, and strips too short for the machine.
pub(crate) fn packed(plan: Plan, asked: Asked) -> Result<PackedKit, Refusal> {
    let Asked { kit, own_brake } = asked;
    let strips = strips::strips(&plan.flats, &kit)?;
    let (flats, crates) = packing::packed(&plan.flats, &kit)?;
    Ok(PackedKit { plan, kit, own_brake, flats, crates, strips })
}

impl PackedKit {
    /// A part that is sent.
    pub(crate) fn part(&self, number: usize) -> &PlannedPart {
        &self.plan.flats.parts[number]
    }

    /// Parts that are sent, by their places in the plan.
    pub(crate) fn sent(&self) -> impl Iterator<Item = usize> + '_ {
        self.kit.parts.iter().copied()
    }

    /// The sheets that the copies of a part are cut from, in the order of the copies.
    pub(crate) fn sheets_of(&self, number: usize) -> Vec<&str> {
        let sheets = self.plan.nests.iter().flat_map(|nest| &nest.sheets);
        let mut found: Vec<(u32, &str)> = sheets
            .flat_map(|sheet| sheet.pieces.iter().map(move |piece| (piece, sheet.mark.as_str())))
            .filter(|(piece, _)| piece.part == number)
            .map(|(piece, mark)| (piece.copy, mark))
            .collect();
        found.sort_unstable();
        found.into_iter().map(|(_, mark)| mark).collect()
    }

    /// The hand of a part in the job's own word.
    pub(crate) fn hand(&self, number: usize) -> Option<&str> {
        hand(&self.plan.flats, &self.kit, number)
    }
}

/// The hand of a part in the job's own word; nothing for a part without an opposite hand.
fn hand<'a>(flats: &Flats, kit: &'a Kit, number: usize) -> Option<&'a str> {
    let [first, second] = kit.hands.as_ref()?;
    let part = &flats.parts[number].part;
    if part.opposite_hand_of.is_some() {
        return Some(second);
    }
    other_hand(flats, number).map(|_| first.as_str())
}

/// The mark of the opposite hand of a part.
fn other_hand(flats: &Flats, number: usize) -> Option<String> {
    let part = &flats.parts[number].part;
    let mirrors = |other: &&PlannedPart| other.part.opposite_hand_of.as_ref() == Some(&part.mark);
    part.opposite_hand_of
        .clone()
        .or_else(|| flats.parts.iter().find(mirrors).map(|other| other.part.mark.clone()))
}
