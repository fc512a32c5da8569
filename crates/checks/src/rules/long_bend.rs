//! A bend is no longer than the brake.
//!
//! Metal past the end of the bed is not bent at all, and no second stroke makes one straight bend of two. What is rolled never
//! sees the brake: the roll has a rule of its own, and where the shop names no roll, that is said. Bumps and lines of one wrap
//! are told once.

use fold::flat::BendLine;
use fold::order::tool_size;
use fold::part::Forming;
use geometry::tolerance;
use units::Length;

use crate::{Finding, Severity, Subject};

pub(crate) const NAME: &str = "long_bend";

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let Some(length) = subject.limits.brake_length else { return };
    let longer = |bend: &BendLine| length.millimetres() + tolerance::SAME_POINT_MM < long_mm(bend);
    let bent = subject.flat.bends.iter().enumerate().filter(|(_, bend)| bend.forming != Forming::Sprung);
    let bends = bent.filter(|(_, bend)| longer(bend));
    let (rolled, pressed): (Vec<_>, Vec<_>) = bends.partition(|(_, bend)| bend.forming == Forming::Rolled);
    let told = match subject.part.wrapped_inside_mm {
        Some(_) => longest(&pressed).into_iter().collect(),
        None => pressed,
    };
    findings.extend(told.into_iter().map(|bend| on_brake(subject, bend, length)));
    if subject.limits.roll.is_none() {
        findings.extend(longest(&rolled).map(|bend| without_roll(subject, bend, length)));
    }
}

fn on_brake(subject: &Subject<'_>, (number, bend): (usize, &BendLine), length: Length) -> Finding {
    let brake = tool_size(Length::from_millimetres(long_mm(bend)), subject.style);
    Finding {
        rule: NAME,
        severity: Severity::No,
        place: subject.bend_place(number),
        measured: subject.print_mm(long_mm(bend)),
        wrong: format!("longer than the brake, {}", length.print(subject.style)),
        remedy: format!(
            "split the part, or have this bend made on a brake {} long or longer",
            brake.print(subject.style)
        ),
    }
}

fn without_roll(subject: &Subject<'_>, (number, bend): (usize, &BendLine), length: Length) -> Finding {
    Finding {
        rule: NAME,
        severity: Severity::Caution,
        place: subject.bend_place(number),
        measured: subject.print_mm(long_mm(bend)),
        wrong: format!(
            "rolled, and longer than the brake, {}: the shop names no roll that takes it",
            length.print(subject.style)
        ),
        remedy: "give the roll's length, shop.roll.length, or split the part".to_owned(),
    }
}

fn longest<'a>(all: &[(usize, &'a BendLine)]) -> Option<(usize, &'a BendLine)> {
    all.iter().copied().max_by(|(_, a), (_, b)| long_mm(a).total_cmp(&long_mm(b)))
}

fn long_mm(bend: &BendLine) -> f64 {
    bend.from.distance(bend.to)
}
