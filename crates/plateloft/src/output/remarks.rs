//! What the reader of a plan should know: assumptions, overridden table rows, things to look at.

use fold::bend::Origin;
use fold::bend::choice::StripChoice;

use super::bend_words::differing_words;
use super::rack_faces::face_sentences;
use super::words::{finding_words, override_sentences};
use super::{fits, hands};
use crate::plan::{Plan, machine_assumptions};

/// Assumptions, then cautions, one sentence each.
pub(crate) fn assumptions_and_cautions(plan: &Plan) -> (Vec<String>, Vec<String>) {
    let job = &plan.flats.job;
    let mut assumptions = job.assumptions.clone();
    assumptions.extend(override_sentences(job));
    if plan.flats.parts.iter().any(|part| part.bend_order.is_some()) {
        assumptions.push(machine_assumptions(job));
    }
    let mut cautions = fits::refusals(&plan.flats);
    cautions.extend(job.cautions.iter().cloned());
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
    for part in &plan.flats.parts {
        // The radius is a matter of the metal and stands above once; the drawing of each part repeats it.
        let own = part.findings.iter().filter(|finding| finding.rule != "inside_radius");
        cautions.extend(own.map(|finding| format!("{}: {}", part.part.mark, finding_words(finding))));
    }
    (assumptions, cautions)
}
