//! A bend is no longer than the brake.

use crate::{Finding, Severity, Subject};

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let Some(length) = subject.limits.brake_length else { return };
    for bend in &subject.flat.bends {
        let bend_mm = bend.from.distance(bend.to);
        if bend_mm > length.millimetres() {
            let names = &subject.flat.faces;
            findings.push(Finding {
                rule: "long_bend",
                severity: Severity::Refuse,
                place: format!("bend {} to {}", names[bend.parent].name, names[bend.child].name),
                measured: subject.print_mm(bend_mm),
                wrong: format!("longer than the brake, {}", length.print(subject.style)),
                remedy: "split the part, or have this bend made elsewhere".to_owned(),
            });
        }
    }
}
