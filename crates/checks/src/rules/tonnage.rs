//! No bend takes more than the press brake can press.
//!
//! Force of an air bend: 575·T²/V US tons to the foot in mild steel of 60,000 psi, T and V in inches, times the metal's
//! factor (press brake charts, publishers not known: common practice). Charts differ from it by a fifth, so a bend within a fifth of the limit is
//! pointed out, and one over the limit is not made. A hem is bent like any edge, then pressed, which takes more: that goes by a
//! chart of its own for cold-rolled steel, times the same factor.

use fold::Forming;
use fold::flat::BendLine;
use geometry::tolerance;
use stock::brake::{Machine, force_factor, hem_us_tons_per_foot, us_tons_per_foot};
use units::Length;

use crate::{Finding, Severity, Subject};

pub(crate) const NAME: &str = "tonnage";

/// How far charts differ from the formula.
const CHARTS_DIFFER_BY: f64 = 0.2;

const MM_PER_FOOT: f64 = 304.8;

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let (Some(Machine::Press(press)), Some(metal)) = (&subject.limits.machine, &subject.limits.metal) else {
        return;
    };
    let Some(most) = press.limit_us_tons else { return };
    let factor = force_factor(&metal.alloy, metal.temper.as_deref(), metal.family);
    let (times, source) =
        factor.map_or((1.0, "mild steel, for want of a row"), |row| (row.factor, row.source.as_str()));
    let brake = Brake { most, times, source };
    findings.extend(air_bend(subject, &brake));
    findings.extend(hem(subject, &brake));
}

/// The press, and the metal as a multiple of the steel of the charts.
struct Brake<'a> {
    most: f64,
    times: f64,
    source: &'a str,
}

impl Brake<'_> {
    /// What is wrong when so many tons to the foot are pressed along `bend_mm`.
    fn finding(
        &self,
        subject: &Subject<'_>,
        (number, bend_mm): (usize, f64),
        per_foot: f64,
        (doing, how, wider): (&str, &str, &str),
    ) -> Option<Finding> {
        let Self { most, .. } = self;
        let tons = per_foot * bend_mm / MM_PER_FOOT;
        if tons <= most * (1.0 - CHARTS_DIFFER_BY) {
            return None;
        }
        let longest = Length::from_millimetres(most / per_foot * MM_PER_FOOT).print(subject.style);
        let over = *most < tons;
        let much = if over { "more than" } else { "within a fifth, by which charts differ, of" };
        Some(Finding {
            rule: NAME,
            severity: if over { Severity::No } else { Severity::Caution },
            place: subject.bend_place(number),
            measured: format!("{tons:.1} tons over {}", subject.print_mm(bend_mm)),
            wrong: format!("{much} the brake's {most} tons {doing} ({per_foot:.1} tons to the foot: {how})"),
            remedy: if over {
                format!("{wider}, or split the bend: the brake presses {longest} of this at once")
            } else {
                format!("go by the maker's chart, or {wider}")
            },
        })
    }
}

/// The longest of some bends: its number and length, mm.
fn longest<'a>(bends: impl Iterator<Item = (usize, &'a BendLine)>) -> Option<(usize, f64)> {
    let lengths = bends.map(|(number, bend)| (number, bend.from.distance(bend.to)));
    lengths.max_by(|a, b| a.1.total_cmp(&b.1))
}

fn air_bend(subject: &Subject<'_>, brake: &Brake<'_>) -> Option<Finding> {
    let v = subject.limits.v_opening?;
    let bend = longest(subject.flat.bends.iter().enumerate())?;
    let per_foot = us_tons_per_foot(subject.part.number.thickness(), v) * brake.times;
    let Brake { times, source, .. } = brake;
    let doing = format!("in a V of {}", v.print(subject.style));
    let how = format!("575·T²/V times {times}; {source}");
    brake.finding(subject, bend, per_foot, (&doing, &how, "take a wider V"))
}

fn hem(subject: &Subject<'_>, brake: &Brake<'_>) -> Option<Finding> {
    let bends = subject.flat.bends.iter().enumerate();
    let (number, bend_mm) = longest(bends.filter(|(_, bend)| matches!(bend.forming, Forming::Hem)))?;
    let thickness = subject.part.number.thickness();
    let is_closed = subject.flat.bends[number].inside_radius_mm <= tolerance::SAME_POINT_MM;
    let doing = if is_closed { "to press the hem flat" } else { "to press the hem" };
    let remedy = if is_closed { "leave the hem open" } else { "take a curl or a return flange" };
    let Some((steel, chart)) = hem_us_tons_per_foot(thickness, is_closed) else {
        return Some(Finding {
            rule: NAME,
            severity: Severity::Caution,
            place: subject.bend_place(number),
            measured: format!("a hem in sheet of {}", thickness.print(subject.style)),
            wrong: format!("no chart says how many tons it takes {doing}"),
            remedy: format!("ask the brake's maker, or {remedy}"),
        });
    };
    let Brake { times, source, .. } = brake;
    let how = format!("a chart for steel times {times}; {chart}; {source}");
    brake.finding(subject, (number, bend_mm), steel * times, (doing, &how, remedy))
}
