//! No bend takes more than the press brake can press.
//!
//! Force of an air bend: 575·T²/V US tons to the foot in mild steel of 60,000 psi, T and V in inches, times the metal's
//! factor (press brake charts, publishers not known: common practice). Charts differ from it by a fifth, so a bend within a fifth of the limit is
//! pointed out, and one over the limit is not made.

use stock::brake::{Machine, force_factor, us_tons_per_foot};
use units::Length;

use crate::{Finding, Severity, Subject};

pub(crate) const NAME: &str = "tonnage";

/// How far charts differ from the formula.
const CHARTS_DIFFER_BY: f64 = 0.2;

const MM_PER_FOOT: f64 = 304.8;

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let limits = subject.limits;
    let (Some(Machine::Press(press)), Some(v), Some(metal)) =
        (&limits.machine, limits.v_opening, &limits.metal)
    else {
        return;
    };
    let Some(most) = press.limit_us_tons else { return };
    let thickness = subject.part.number.thickness();
    let factor = force_factor(&metal.alloy, metal.temper.as_deref(), metal.family);
    let (times, source) =
        factor.map_or((1.0, "mild steel, for want of a row"), |row| (row.factor, row.source.as_str()));
    let per_foot = us_tons_per_foot(thickness, v) * times;
    let longest = subject.flat.bends.iter().enumerate().max_by(|a, b| {
        let length = |bend: &fold::flat::BendLine| bend.from.distance(bend.to);
        length(a.1).total_cmp(&length(b.1))
    });
    let Some((number, bend)) = longest else { return };
    let bend_mm = bend.from.distance(bend.to);
    let tons = per_foot * bend_mm / MM_PER_FOOT;
    if tons <= most * (1.0 - CHARTS_DIFFER_BY) {
        return;
    }
    let longest_mm = most / per_foot * MM_PER_FOOT;
    let over = most < tons;
    findings.push(Finding {
        rule: NAME,
        severity: if over { Severity::No } else { Severity::Caution },
        place: subject.bend_place(number),
        measured: format!("{tons:.1} tons over {}", subject.print_mm(bend_mm)),
        wrong: format!(
            "{} the brake's {most} tons in a V of {} ({per_foot:.1} tons to the foot: 575·T²/V times {times}; {source})",
            if over { "more than" } else { "within a fifth, by which charts differ, of" },
            v.print(subject.style)
        ),
        remedy: if over {
            format!(
                "take a wider V, or split the bend: the brake presses {} of this at once",
                Length::from_millimetres(longest_mm).print(subject.style)
            )
        } else {
            "go by the maker's chart, or take a wider V".to_owned()
        },
    });
}
