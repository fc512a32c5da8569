//! What the reader of a plan should know: assumptions, overridden table rows, things to look at.

use fold::bend::Origin;
use fold::bend::choice::StripChoice;
use job::JobMetal;

use super::bend_words::differing_words;
use super::rack_faces::face_sentences;
use super::words::{finding_words, override_sentences};
use super::{fits, hands};
use crate::plan::{Flats, Plan, machine_assumptions};

/// Said where the search for nests was ended by hand or by the clock.
const ENDED_EARLY: &str = "The search for nests was ended early: the maps hold the best nests so far. The same job need not \
     give them again, so order and cut from this packet only.";

/// Of every metal that is bent sharper than its table says.
pub(crate) fn radius_cautions(flats: &Flats) -> impl Iterator<Item = String> + '_ {
    flats.job.metals.iter().enumerate().filter_map(|(number, metal)| {
        let mut parts = flats.parts.iter();
        let is_bent = parts.any(|part| part.part.metal == number && !part.flat.bends.is_empty());
        metal.radius_caution.clone().filter(|_| is_bent)
    })
}

/// Assumptions, then cautions, one sentence each; those of the rules `told_apart` are told elsewhere.
pub(crate) fn assumptions_and_cautions(plan: &Plan, told_apart: &[&str]) -> (Vec<String>, Vec<String>) {
    let job = &plan.flats.job;
    let mut assumptions = job.assumptions.clone();
    assumptions.extend(override_sentences(job));
    let is_bent = |metal: &usize| {
        plan.flats.parts.iter().any(|part| part.part.metal == *metal && part.bend_order.is_some())
    };
    let bent: Vec<&JobMetal> =
        (0..job.metals.len()).filter(is_bent).map(|metal| &job.metals[metal]).collect();
    if !bent.is_empty() {
        assumptions.push(machine_assumptions(job, &bent));
    }
    assumptions.extend(options_words(job));
    let mut cautions = fits::refusals(&plan.flats);
    cautions.extend(radius_cautions(&plan.flats).chain(job.cautions.iter().cloned()));
    if plan.ended_early {
        cautions.push(ENDED_EARLY.to_owned());
    }
    cautions.extend(face_sentences(plan));
    for metal in &job.metals {
        let bent = plan.flats.parts.iter().any(|part| {
            !part.flat.bends.is_empty() && job.metals[part.part.metal].metal.name == metal.metal.name
        });
        if bent && !matches!(metal.number.origin(), Origin::Strip(_)) {
            cautions.push(format!(
                "{}: nobody has bent a strip of it; bend one before cutting good metal",
                metal.metal.name
            ));
        }
        let strips = metal.number.strips().filter(|_| bent).map(StripChoice::of_turns).unwrap_or_default();
        let differing = strips.iter().filter_map(|of_turn| differing_words(of_turn, job.style));
        cautions.extend(differing.map(|words| format!("{}: {words}", metal.metal.name)));
        if !metal.metal.pattern_included {
            cautions.push(format!("{}: weighed without its lugs; give the mill's weight", metal.metal.name));
        }
    }
    cautions.extend(hands::cautions(&plan.flats));
    let mut said: Vec<usize> = Vec::new();
    for part in &plan.flats.parts {
        // The radius is a matter of the metal and stands above once; the drawing of each part repeats it.
        let of_metal = |finding: &&checks::Finding| match finding.rule {
            "inside_radius" => false,
            rule if told_apart.contains(&rule) => false,
            "unknown_radius" => !said.contains(&part.part.metal),
            _ => true,
        };
        let own: Vec<&checks::Finding> = part.findings.iter().filter(of_metal).collect();
        if own.iter().any(|finding| finding.rule == "unknown_radius") {
            said.push(part.part.metal);
        }
        cautions.extend(own.into_iter().map(|finding| {
            let mark = &part.part.mark;
            let whose = match finding.rule {
                "unknown_radius" => {
                    format!("{mark}, and every bent part of {}", job.metals[part.part.metal].metal.name)
                }
                _ => mark.clone(),
            };
            format!("{whose}: {}", finding_words(finding))
        }));
    }
    (assumptions, cautions)
}

/// That other ways of making the job are not in this packet.
fn options_words(job: &job::Job) -> Option<String> {
    let names = job.options.join("; ");
    (!names.is_empty()).then(|| {
        format!(
            "The job could also be made other ways: {names}. None of them is in this packet, which is of the job as it stands \
             without them; weights and prices of all of them stand side by side in its quote."
        )
    })
}
