//! The rule about slits: a sound cut-out, and the same one narrower than the cut that makes it.

use crate::common::{flange, found, inches, only, panel};
use checks::{Finding, Limits, Severity};
use fold::part::FoldedPart;
use shapes::hole::{Hole, HoleKind};

const NONE: [Finding; 0] = [];

fn kerf(width: &str) -> Limits {
    Limits { kerf: Some(inches(width)), ..Limits::default() }
}

/// A panel with a slot of this width, square-ended, 6 long, in the middle of its face.
fn slotted(width: &str, corner_radius: &str) -> FoldedPart {
    let kind = HoleKind::Rectangle {
        length: inches("6"),
        width: inches(width),
        corner_radius: inches(corner_radius),
    };
    panel(vec![flange("AB", "2", 90.0)], vec![Hole { at: [inches("10"), inches("6")], kind }])
}

#[test]
fn a_slot_narrower_than_the_kerf_is_named_with_its_width_and_a_tool() {
    for radius in ["0", ".02"] {
        let finding = only(&found(&slotted(".0625", radius), &kerf("1/8")), "narrow_cut", Severity::Caution);
        assert_eq!(finding.measured, "open by .063 only");
        assert!(finding.place.starts_with("slit in panel (about 10.000 across, "), "{finding}");
        assert!(finding.wrong.contains("the cut of .125"), "{finding}");
        // Of the thin tools a cutting disc takes less than a sixteenth; a fine circular saw takes more.
        assert!(finding.remedy.contains("thin cutting disc (about .05)"), "{finding}");
        assert!(!finding.remedy.contains("circular"), "{finding}");
        assert!(finding.remedy.ends_with("or make it .125 wide or more"), "{finding}");
    }
    let hair = only(&found(&slotted(".02", "0"), &kerf("1/8")), "narrow_cut", Severity::Caution);
    assert!(hair.remedy.starts_with("no saw or disc passes"), "{hair}");
}

#[test]
fn a_slot_as_wide_as_the_kerf_is_sound_and_no_kerf_judges_nothing() {
    assert_eq!(found(&slotted(".125", "0"), &kerf("1/8")), NONE);
    assert_eq!(found(&slotted(".0625", "0"), &Limits::default()), NONE);
}

#[test]
fn metal_between_two_slots_is_no_slit() {
    let kind = || HoleKind::Rectangle { length: inches("6"), width: inches("1"), corner_radius: inches("0") };
    let hole = |y: &str| Hole { at: [inches("10"), inches(y)], kind: kind() };
    // A web of .2 between them, and a kerf of .25: thin, but no opening.
    let part = panel(Vec::new(), vec![hole("6"), hole("7.2")]);
    assert_eq!(found(&part, &kerf("1/4")), NONE);
}
