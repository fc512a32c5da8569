//! Bends that meet without a relief fold the metal between them twice.
//!
//! Thin sheet takes it, but the corner bulges or tears, and a tear runs on into the part under load.

use fold::flat::ReliefCut;

use crate::{Finding, Severity, Subject};

pub(crate) const NAME: &str = "corner_relief";

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let unrelieved = subject.flat.reliefs.iter().filter(|relief| relief.cut == ReliefCut::None);
    let mut unrelieved = unrelieved.peekable();
    let Some(first) = unrelieved.peek().map(|relief| relief.bends[0]) else { return };
    let count = unrelieved.count();
    findings.push(Finding {
        rule: NAME,
        severity: Severity::Caution,
        place: subject.bend_place(first),
        measured: if count == 1 { "1 corner".to_owned() } else { format!("{count} corners") },
        wrong: "bends meet without a relief: the metal there is bent twice, and bulges or tears".to_owned(),
        remedy: "dress the corner and look for cracks, or ask for square, round or tear_drop relief"
            .to_owned(),
    });
}
