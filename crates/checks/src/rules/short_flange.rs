//! A flange is long enough for the brake to hold.
//!
//! A leg that does not reach both shoulders of the die, or the jaw of a folder, slips and comes out crooked. Without
//! the shop's own figure, seven tenths of the V opening are taken as an estimate (see
//! [`stock::brake::shortest_flange_in_v`]); where no V is given either, those of the V of the common chart. The shop's own
//! figure holds for its narrowest die: in the die that the job
//! takes, a leg shorter than seven tenths of that V is warned of too. A leg that ends inside the V cannot be bent there at all. Bends that are
//! rolled, or bumped by slight turns across a larger plate, have no flange to slip. A leg is as long as it reaches: where a
//! notch or a step leaves less of it, that place is pointed out by itself.
//!
//! Joggles are pressed in one stroke between offset dies, and hems are bent acute in a narrow die and then pressed: what the V
//! of the job does not hold is a caution there, never a refusal. A hem's leg is judged by the narrowest V that the chart takes.

mod reach;

use fold::part::{Bend, Face, FoldedPart, Forming};
use geometry::tolerance;
use stock::brake::{Machine, chosen_v_opening, shortest_flange_in_v};
use units::Length;

use self::reach::Low;

use crate::{Finding, Severity, Subject};

/// Name of the rule of legs too short for brake or die.
pub const NAME: &str = "short_flange";

/// The narrowest V that the published chart takes, in thicknesses ([`stock::brake::v_opening`]).
const NARROWEST_V: f64 = 6.0;

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let limits = subject.limits;
    let v_opening = limits.v_opening.or_else(|| assumed_v(subject));
    let assumed = limits.v_opening.is_none();
    let estimate = v_opening.map(shortest_flange_in_v);
    let half_v_mm = v_opening.map_or(0.0, |v| 0.5 * v.millimetres());
    let (shortest, severity, whose) = match (limits.shortest_flange, estimate) {
        (Some(own), _) => (own, Severity::No, "the brake's shortest flange"),
        (None, Some(estimate)) if assumed => {
            (estimate, Severity::Caution, "seven tenths of the V opening that the common chart gives")
        }
        (None, Some(estimate)) => (estimate, Severity::Caution, "seven tenths of the V opening"),
        (None, None) => return,
    };
    let severe = if assumed && limits.shortest_flange.is_none() { Severity::Caution } else { Severity::No };
    for leg in legs(subject.part, shortest, severe == Severity::Caution) {
        if leg.tools != Tools::Plain {
            findings.extend(in_own_tools(subject, &leg, (whose, shortest)));
            continue;
        }
        findings.extend(leg.low.iter().map(|low| low_place(subject, &leg.name, low, (whose, shortest))));
        let (place, leg_mm) = (leg.name, leg.long_mm);
        findings.extend(in_this_v(subject, shortest, (&place, leg_mm)));
        if leg_mm < shortest.millimetres() - tolerance::SAME_POINT_MM {
            let inside = leg_mm <= half_v_mm;
            let print = |length: Length| length.print(subject.style);
            let wrong = match v_opening {
                Some(v) if inside => {
                    format!("ends inside the V of {}: shorter than {whose}, {}", print(v), print(shortest))
                }
                _ => format!("shorter than {whose}, {}", print(shortest)),
            };
            findings.push(Finding {
                rule: NAME,
                severity: if inside { severe } else { severity },
                place,
                measured: subject.print_mm(leg_mm),
                wrong,
                remedy: remedy(subject, (shortest, severity), leg_mm),
            });
        }
    }
}

/// A leg of a joggle or a hem that tools of its own must take.
fn in_own_tools(subject: &Subject<'_>, leg: &Leg, (whose, shortest): (&str, Length)) -> Option<Finding> {
    let print = |length: Length| length.print(subject.style);
    let narrowest = Length::from_millimetres(NARROWEST_V * subject.part.thickness_mm());
    let (least, wrong, remedy) = match leg.tools {
        Tools::Plain => return None,
        Tools::Offset => {
            let wrong = format!(
                "shorter than {whose}, {}: a joggle so small is pressed in one stroke between offset dies",
                print(shortest)
            );
            (
                shortest,
                wrong,
                "see that the shop has offset dies of its depth, or have it pressed elsewhere".to_owned(),
            )
        }
        Tools::Hemming => {
            let least = shortest_flange_in_v(narrowest);
            let wrong = format!(
                "shorter than {}, seven tenths of the narrowest V that the chart takes, {}: the acute bend before the hem \
                 is pressed may slip",
                print(least),
                print(narrowest)
            );
            (
                least,
                wrong,
                format!("make the hem {} or more, or try it on a scrap in the hemming die", print(least)),
            )
        }
    };
    (leg.long_mm < least.millimetres() - tolerance::SAME_POINT_MM).then(|| Finding {
        rule: NAME,
        severity: Severity::Caution,
        place: leg.name.clone(),
        measured: subject.print_mm(leg.long_mm),
        wrong,
        remedy,
    })
}

/// The leg that would do; and the V, where only the V is in the way and one that holds the leg is not too narrow for the sheet.
fn remedy(subject: &Subject<'_>, (shortest, severity): (Length, Severity), leg_mm: f64) -> String {
    let print = |length: Length| length.print(subject.style);
    let longer = format!("lengthen the leg to {} or more", print(shortest));
    let elsewhere = "bend it on another machine and say so in the brake's sizes";
    let v = subject.limits.v_opening.filter(|_| severity != Severity::No);
    let Some(widest_mm) = v.map(|v| leg_mm / shortest_flange_in_v(v).millimetres() * v.millimetres()) else {
        return format!("{longer}, or {elsewhere}");
    };
    if widest_mm < NARROWEST_V * subject.part.thickness_mm() {
        return format!("{longer}: no V that holds it is wide enough for the sheet");
    }
    let own = match &subject.limits.machine {
        Some(Machine::Press(press)) => press.v_openings.as_slice(),
        _ => &[],
    };
    let of_own = own.iter().filter(|v| v.millimetres() <= widest_mm + tolerance::SAME_POINT_MM).max();
    let of_own = of_own.map_or_else(String::new, |own| format!(", as the shop's of {}", print(*own)));
    format!("{longer}, or take a V no wider than {}{of_own}", print(Length::from_millimetres(widest_mm)))
}

/// A leg long enough for the brake by its own figure, and too short for the V that the job takes.
fn in_this_v(subject: &Subject<'_>, own: Length, (place, leg_mm): (&str, f64)) -> Option<Finding> {
    let v_opening = subject.limits.v_opening?;
    let least = shortest_flange_in_v(v_opening);
    let slack = tolerance::SAME_POINT_MM;
    let passes = own.millimetres() - slack <= leg_mm;
    if !passes || least.millimetres() - slack <= leg_mm {
        return None;
    }
    let print = |length: Length| length.print(subject.style);
    let share = leg_mm / least.millimetres();
    let widest = Length::from_millimetres(share * v_opening.millimetres());
    Some(Finding {
        rule: NAME,
        severity: Severity::Caution,
        place: place.to_owned(),
        measured: subject.print_mm(leg_mm),
        wrong: format!(
            "shorter than seven tenths of the V of {}, {}, though not than the brake's shortest flange, {}: its edge slips \
             off the shoulder and falls into the die",
            print(v_opening),
            print(least),
            print(own)
        ),
        remedy: format!("take a V no wider than {}, or lengthen the leg", print(widest)),
    })
}

/// A place where a leg reaches less far than elsewhere.
fn low_place(subject: &Subject<'_>, place: &str, low: &Low, (whose, shortest): (&str, Length)) -> Finding {
    let what = if low.at_end { "stands back at its end" } else { "is notched" };
    Finding {
        rule: NAME,
        severity: Severity::Caution,
        place: place.to_owned(),
        measured: subject.print_mm(low.reach_mm),
        wrong: format!(
            "all that is left where it {what} over {}, less than {whose}, {}: little metal lies over the die there",
            subject.print_mm(low.wide_mm),
            shortest.print(subject.style)
        ),
        remedy: "look how the die holds it there, or cut that out after bending".to_owned(),
    }
}

/// The V of the common chart, where the shop says nothing of its own and has no folder.
fn assumed_v(subject: &Subject<'_>) -> Option<Length> {
    let limits = subject.limits;
    let folder = matches!(limits.machine, Some(Machine::Folder(_)));
    let thickness = Length::from_millimetres(subject.part.thickness_mm());
    (limits.shortest_flange.is_none() && !folder).then(|| chosen_v_opening(&[], thickness)).flatten()
}

/// A leg: what it is called, its outside length, mm, and where less of it is left.
struct Leg {
    name: String,
    long_mm: f64,
    low: Vec<Low>,
    tools: Tools,
}

/// What a leg is bent in.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Tools {
    /// The V of the job, or the folder's jaw.
    Plain,
    /// Offset dies, both bends of a joggle at once.
    Offset,
    /// An acute die, then flat tools.
    Hemming,
}

impl Tools {
    const fn of(forming: Forming) -> Self {
        match forming {
            Forming::Joggle(_) => Self::Offset,
            Forming::Hem => Self::Hemming,
            Forming::Brake | Forming::Rolled | Forming::Bumped(_) | Forming::Sprung => Self::Plain,
        }
    }
}

/// Every leg: each plate beyond its own bend, and the root, once, inward from the bend off
/// which it reaches least. (A plate between two bends is a leg of both, of one length.) Of `plain` bends only where nothing is
/// known of the machine: hems and joggles are pressed in tools of their own.
fn legs(part: &FoldedPart, shortest: Length, plain: bool) -> Vec<Leg> {
    let root = &part.faces[0];
    let held = || {
        part.bends.iter().filter(|bend| match bend.forming {
            Forming::Rolled | Forming::Bumped(_) | Forming::Sprung => false,
            Forming::Hem | Forming::Joggle(_) => !plain,
            Forming::Brake => true,
        })
    };
    // A root that is held in the V by none of its bends is nothing that the V must hold.
    let plain_root = |bend: &&Bend| bend.parent == 0 && Tools::of(bend.forming) == Tools::Plain;
    let of_root = held().filter(plain_root).map(|bend| reach_mm(root, bend.parent_edge));
    let least = of_root.fold(f64::INFINITY, f64::min);
    let beyond = |bend: &Bend| {
        let face = &part.faces[bend.child];
        let (long_mm, low) = reach::of_leg(face, shortest.millimetres());
        Leg { name: face.name.clone(), long_mm, low, tools: Tools::of(bend.forming) }
    };
    let of_root = Leg { name: root.name.clone(), long_mm: least, low: Vec::new(), tools: Tools::Plain };
    std::iter::once(of_root).chain(held().map(beyond)).collect()
}

/// How far a face reaches in from its edge `edge`, at its widest: some of it must lie on both shoulders, mm.
fn reach_mm(face: &Face, edge: usize) -> f64 {
    let (a, b) = face.edge(edge);
    let inward = (b - a).unit().left();
    face.corners.iter().map(|corner| (*corner - a).dot(inward)).fold(0.0, f64::max)
}
