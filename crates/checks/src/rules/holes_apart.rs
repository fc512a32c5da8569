//! Holes do not touch or overlap one another.
//!
//! Two holes that run together are one hole of another shape; the sizes say something else than the tape.

use super::apart;
use crate::{Finding, Severity, Subject};

pub(crate) const NAME: &str = "holes_apart";

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let holes = subject.holes();
    for (place, hole) in holes.iter().enumerate() {
        for other in holes[..place].iter().filter(|other| other.face == hole.face) {
            if apart::meet(&hole.cover(), &other.cover()) {
                findings.push(Finding {
                    rule: NAME,
                    severity: Severity::Refuse,
                    place: hole.place(),
                    measured: format!("with {}", other.place()),
                    wrong: "the two holes run together".to_owned(),
                    remedy: "move one, or ask for one hole of the shape you want".to_owned(),
                });
            }
        }
    }
}
