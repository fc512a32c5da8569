//! Sentences about bend numbers: whose they are, why this strip, how far strips differ, and how far to overbend.

use fold::bend::choice::{DieMatch, StripChoice, StripsOfTurn};
use fold::bend::springback::OverbendOrigin;
use fold::bend::{Origin, ShopStrip, formula};
use fold::flat::BendLine;
use fold::part::{FoldedPart, Forming};
use fold::{BendNumber, FlatPattern};
use geometry::tolerance;
use job::JobMetal;
use paper::layout_sheet::Fact;
use stock::BendModel;
use units::{Angle, Length, LengthStyle, LengthUnit};

use crate::plan::{finer, overbend_of};

/// Which bend number the bends of a part use, and where it came from.
pub(crate) fn number_words(part: &FoldedPart, flat: &FlatPattern, style: LengthStyle) -> String {
    let number = &part.number;
    if part.wrapped_inside_mm.is_some() {
        return "none: wrapped round an axis, the flat is the development of the middle of the plate, which keeps its \
                length (DIN 6935, radius above five thicknesses); nothing is deducted at its lines"
            .to_owned();
    }
    let own = match number.strips() {
        Some(strips) => strips_words(number, strips, flat, style),
        None => model_words(number, style),
    };
    std::iter::once(own).chain(wide_words(number, flat, style)).collect::<Vec<_>>().join("; ")
}

/// What the number means for bends of a radius above five thicknesses, where the neutral line lies in the middle of the sheet:
/// what is rolled or bumped goes by that, what is pressed in one stroke by the metal's own K all the same.
fn wide_words(number: &BendNumber, flat: &FlatPattern, style: LengthStyle) -> Vec<String> {
    let print = |millimetres: f64| Length::from_millimetres(millimetres).print(finer(style));
    let wide = flat.bends.iter().filter(|bend| number.is_wide(bend.inside_radius_mm));
    let mut words: Vec<String> = Vec::new();
    for bend in wide {
        let BendModel::KFactor(k_factor) = number.model_at(bend.turn_rad) else { continue };
        let radius = print(bend.inside_radius_mm);
        let sentence = match bend.forming {
            Forming::Hem | Forming::Joggle(_) | Forming::Sprung => continue,
            Forming::Rolled | Forming::Bumped(_) if number.is_by_mid_line(bend.inside_radius_mm) => {
                let how = if bend.forming == Forming::Rolled { "rolled" } else { "bumped" };
                format!(
                    "inside radius {radius}, {how}: K-factor 0.5000, the middle of the sheet, as above five thicknesses \
                     (DIN 6935)"
                )
            }
            Forming::Rolled | Forming::Bumped(_) => continue,
            Forming::Brake => {
                let thickness_mm = number.thickness().millimetres();
                let longer_mm = (0.5 - k_factor) * thickness_mm * bend.turn_rad;
                if longer_mm.abs() <= tolerance::REFOLD_MM {
                    continue;
                }
                let (more, by) =
                    if longer_mm < 0.0 { ("shorter", -longer_mm) } else { ("longer", longer_mm) };
                format!(
                    "inside radius {radius}, pressed in one stroke: the same K; above five thicknesses DIN 6935 takes the \
                     middle of the sheet, K-factor 0.5000, and the flat were {} {more}: bend a strip at this radius",
                    print(by)
                )
            }
        };
        if !words.contains(&sentence) {
            words.push(sentence);
        }
    }
    words
}

/// The one number of a metal without strips, and where it came from.
fn model_words(number: &BendNumber, style: LengthStyle) -> String {
    let origin = match number.origin() {
        Origin::Strip(strip) => {
            let [length, first, second] =
                [strip.length, strip.legs[0], strip.legs[1]].map(|l| l.print(finer(style)));
            format!("the shop's strip, {length} bent to {first} + {second}")
        }
        Origin::Job => "given in the job; nobody has bent a strip".to_owned(),
        Origin::Table(source) => format!("table, {source}; nobody has bent a strip"),
        Origin::General => "general figure, common practice; nobody has bent a strip".to_owned(),
    };
    format!("{} ({origin}); deduction at 90° {}", number.model(), square_deduction(number, style))
}

/// Where a bend number comes from, in short.
pub(crate) fn origin_words(number: &BendNumber) -> String {
    if number.strips().is_some() {
        return "the shop's strips".to_owned();
    }
    match number.origin() {
        Origin::Strip(_) => "the shop's strip".to_owned(),
        Origin::Job => "the job's own figure".to_owned(),
        Origin::Table(source) => format!("table row, {source}"),
        Origin::General => "general figure, common practice, no source".to_owned(),
    }
}

fn square_deduction(number: &BendNumber, style: LengthStyle) -> String {
    Length::from_millimetres(number.deduction_mm(std::f64::consts::FRAC_PI_2)).print(finer(style))
}

/// Every strip that the bends of the flat go by, why it was taken, and how far the blank may be off.
fn strips_words(number: &BendNumber, strips: &StripChoice, flat: &FlatPattern, style: LengthStyle) -> String {
    let used: Vec<&StripsOfTurn> =
        strips.of_turns().iter().filter(|of_turn| !turns_by(strips, of_turn, flat).is_empty()).collect();
    let one = |of_turn: &&StripsOfTurn| {
        let strip = &of_turn.used;
        let carried: Vec<String> = turns_by(strips, of_turn, flat)
            .into_iter()
            .filter(|turn| !strips.is_turn_of_strip(turn.radians()))
            .map(|turn| format!("{}°", turn.print(1)))
            .collect();
        let carried = if carried.is_empty() {
            String::new()
        } else {
            format!(
                "; bent {}°, carried over through its K to {}",
                strip.strip().turn.print(1),
                carried.join(", ")
            )
        };
        format!(
            "K-factor {:.4} ({}: {}{carried})",
            strip.k_factor(),
            strip_words(strip, style),
            reason(strips, strip, style)
        )
    };
    let mut words: Vec<String> = used.iter().map(one).collect();
    words.push(format!("deduction at 90° {}", deductions_words(number, &used, style)));
    words.extend(used.iter().filter_map(|of_turn| differing_words(of_turn, style)));
    words.extend(spread_words(number, flat, style).map(|spread| format!("blank {spread}")));
    words.join("; ")
}

/// What each of these strips gives for a square bend: ".221", or ".221 by K 0.4277, .232 by K 0.3627".
fn deductions_words(number: &BendNumber, used: &[&StripsOfTurn], style: LengthStyle) -> String {
    let quarter = std::f64::consts::FRAC_PI_2;
    let deduction = |k_factor: f64| {
        let (radius, thickness) = (number.inside_radius().millimetres(), number.thickness().millimetres());
        let allowance = formula::allowance(quarter, radius, thickness, k_factor);
        Length::from_millimetres(formula::deduction(number.setback_mm(quarter), allowance))
            .print(finer(style))
    };
    match used {
        [] => square_deduction(number, style),
        [one] => deduction(one.used.k_factor()),
        several => {
            let by = |of_turn: &&StripsOfTurn| {
                let k_factor = of_turn.used.k_factor();
                format!("{} by K {k_factor:.4}", deduction(k_factor))
            };
            several.iter().map(by).collect::<Vec<_>>().join(", ")
        }
    }
}

/// The turns of the flat's bends that go by the strips of one turn, each once.
fn turns_by(strips: &StripChoice, of_turn: &StripsOfTurn, flat: &FlatPattern) -> Vec<Angle> {
    let own = |bend: &&BendLine| std::ptr::eq(strips.nearest(bend.turn_rad), of_turn);
    // Turns that print alike are one.
    let tenths = |bend: &BendLine| (bend.turn_rad.to_degrees() * 10.0).round() / 10.0;
    let mut turns: Vec<Angle> =
        flat.bends.iter().filter(own).map(|bend| Angle::from_degrees(tenths(bend))).collect();
    turns.sort();
    turns.dedup();
    turns
}

/// "strip of 2026-03-04, 5052-H32 .126, R .125, V 1.000, 4.000 bent to 2.118 + 2.103".
fn strip_words(strip: &ShopStrip, style: LengthStyle) -> String {
    let print = |length: Length| length.print(finer(style));
    let test = strip.strip();
    let name = match (&strip.date, strip.of_job) {
        (Some(date), _) => format!("strip of {date}"),
        (None, _) => "the shop's strip".to_owned(),
    };
    let die = strip.v_opening.map(|v| format!(", V {}", print(v))).unwrap_or_default();
    format!(
        "{name}, {} {}, R {}{die}, {} bent to {} + {}",
        strip.metal.words(),
        print(test.thickness),
        print(test.inside_radius),
        print(test.length),
        print(test.legs[0]),
        print(test.legs[1])
    )
}

/// Why this strip: "the job's own", or "nearest of 7: same alloy and temper, same die, thickness .126 for .125".
fn reason(strips: &StripChoice, strip: &ShopStrip, style: LengthStyle) -> String {
    if strip.of_job {
        return "the job's own strip of this metal".to_owned();
    }
    let wanted = &strips.wanted;
    let print = |length: Length| length.print(finer(style));
    let mut words = vec![if strip.metal.alloy == wanted.metal.alloy {
        "same alloy and temper".to_owned()
    } else {
        format!("same temper, no strip of {} is near enough", wanted.metal.words())
    }];
    let several = 1 < wanted.v_openings.len();
    words.push(match (strips.die_match(strip), strip.v_opening, strips.compared_with(strip)) {
        (DieMatch::Same, Some(own), _) if several => {
            format!("V {}, one of the shop's {} dies: bend it in that", print(own), wanted.v_openings.len())
        }
        (DieMatch::Same, ..) => "same die".to_owned(),
        (_, Some(own), Some(job)) => format!("die {} for {}", print(own), print(job)),
        _ => "die not compared".to_owned(),
    });
    let test = strip.strip();
    for (name, own, job) in [
        ("inside radius", test.inside_radius, wanted.inside_radius),
        ("thickness", test.thickness, wanted.thickness),
    ] {
        let same = print(own) == print(job);
        words.push(if same {
            format!("same {name}")
        } else {
            format!("{name} {} for {}", print(own), print(job))
        });
    }
    format!("nearest of {}: {}", strips.looked_at, words.join(", "))
}

/// Strips bent alike that differ by more than reading explains, side by side.
pub(crate) fn differing_words(of_turn: &StripsOfTurn, style: LengthStyle) -> Option<String> {
    let others: Vec<String> = of_turn.conflicting().map(|other| strip_numbers(other, style)).collect();
    (!others.is_empty()).then(|| {
        format!(
            "strips bent alike differ: used {}; beside it {}",
            strip_numbers(&of_turn.used, style),
            others.join("; ")
        )
    })
}

/// "2026-03-04 (bend-strips.jsonl: line 3) deduction .221, K 0.4209".
fn strip_numbers(strip: &ShopStrip, style: LengthStyle) -> String {
    let date = strip.date.as_ref().map(|date| format!("{date} ")).unwrap_or_default();
    format!(
        "{date}({}) deduction {}, K {:.4}",
        strip.place,
        strip.strip().deduction().print(finer(style)),
        strip.k_factor()
    )
}

/// "± .013 long, ± .027 wide"; none where the strips agree.
pub(crate) fn spread_words(number: &BendNumber, flat: &FlatPattern, style: LengthStyle) -> Option<String> {
    let (length, width) = flat.spread_mm(number);
    let print = |millimetres: f64| Length::from_millimetres(millimetres).print(finer(style));
    (length.max(width) > 0.0).then(|| format!("± {} long, ± {} wide", print(length), print(width)))
}

/// "overbend to 90.5°, estimate"; empty for a bend that is not pressed to its turn.
pub(crate) fn overbend_words(metal: &JobMetal, bend: &BendLine) -> Option<String> {
    Some(match overbend_of(metal, bend)? {
        Ok(overbend) => {
            let turn = Angle::from_radians(overbend.turn_in_die_rad).print(1);
            let how = match overbend.origin {
                OverbendOrigin::Strip(_) => "by strip",
                OverbendOrigin::Estimate(_) => "estimate",
            };
            format!("overbend to {turn}°, {how}")
        }
        Err(error) => format!("overbend: {error}"),
    })
}

/// How far to press a bend, as on its card; said plainly for a bend that is not pressed to its turn.
pub(crate) fn overbend_remark(metal: &JobMetal, bend: &BendLine) -> String {
    let what = match bend.forming {
        Forming::Brake | Forming::Joggle(_) => None,
        Forming::Hem => Some("a hem is pressed to its shape"),
        Forming::Rolled => Some("it is rolled to its shape"),
        Forming::Bumped(_) => Some("it is bumped to a template"),
        Forming::Sprung => Some("it is sprung by hand as the part is closed"),
    };
    match (what, overbend_words(metal, bend)) {
        (Some(what), _) => format!("overbend not applied: {what}"),
        (None, Some(words)) => words,
        (None, None) => "overbend: not known".to_owned(),
    }
}

/// Where the overbends of flats of one metal come from, one sentence; none for flats without brake bends. An estimate also
/// gives its figures `as_published`, where these are of another system of units than the job.
pub(crate) fn springback_words<'a>(
    metal: &JobMetal,
    flats: impl Iterator<Item = &'a FlatPattern>,
    unit: LengthUnit,
) -> Option<String> {
    let mut sources: Vec<String> = Vec::new();
    for bend in flats.flat_map(|flat| &flat.bends) {
        let source = match overbend_of(metal, bend) {
            None => continue,
            Some(Err(error)) => error.to_string(),
            Some(Ok(overbend)) => match overbend.origin {
                OverbendOrigin::Strip(strip) => measured_words(strip),
                OverbendOrigin::Estimate(row) => estimate_words(row, unit),
            },
        };
        if !sources.contains(&source) {
            sources.push(source);
        }
    }
    (!sources.is_empty()).then(|| format!("{}; the flat does not change", sources.join("; ")))
}

/// The estimate of springback with its figures in the job's system of units.
fn estimate_words(row: &stock::YieldStrength, unit: LengthUnit) -> String {
    // 1 ksi = 6.894757 MPa: NIST SP 811, appendix B.8.
    const MEGAPASCALS: f64 = 6.894_757;
    let figures = match unit {
        LengthUnit::Inch => format!("Y {} ksi and E {} ksi", row.yield_ksi, row.modulus_ksi),
        LengthUnit::Millimetre => format!(
            "Y {:.0} MPa and E {:.1} GPa",
            row.yield_ksi * MEGAPASCALS,
            row.modulus_ksi * MEGAPASCALS / 1000.0
        ),
    };
    format!("an estimate by Ri/Rf = 4x³ − 3x + 1, x = Ri·Y/(E·T), with {figures} ({})", row.source)
}

/// "strip of 2026-03-04 was bent to 92.0° and sprang back to 90.0°".
fn measured_words(strip: &ShopStrip) -> String {
    let name = strip.date.as_ref().map_or_else(|| strip.place.clone(), |date| format!("strip of {date}"));
    let in_die = strip.turn_in_die.map(|turn| turn.print(1)).unwrap_or_default();
    format!("{name} was bent to {in_die}° and sprang back to {}°", strip.strip().turn.print(1))
}

/// How far to bend each turn of a flat, as one fact: "90.0°: overbend to 90.5°, estimate".
pub(crate) fn overbend_fact(metal: &JobMetal, flat: &FlatPattern, unit: LengthUnit) -> Option<Fact> {
    let mut turns: Vec<String> = Vec::new();
    for bend in &flat.bends {
        if let Some(words) = overbend_words(metal, bend) {
            let words = format!("{:.1}°: {words}", bend.turn_rad.to_degrees());
            if !turns.contains(&words) {
                turns.push(words);
            }
        }
    }
    let origin = springback_words(metal, std::iter::once(flat), unit)?;
    Some(Fact { name: "overbend".to_owned(), value: turns.join("; "), origin, ..Fact::default() })
}
