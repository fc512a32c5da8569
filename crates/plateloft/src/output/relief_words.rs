//! Corner reliefs in words.

use fold::FlatPattern;
use fold::flat::ReliefCut;
use fold::refold::Pressed;
use paper::layout_sheet::Fact;
use shapes::{ReliefHole, ReliefStyle};
use units::{Length, LengthStyle, LengthUnit};

use crate::plan::{PlannedPart, finer};

/// Every kind and size of relief on a flat, each once with how often: "round, dia .250, 4 places"; none on a flat where
/// no two bends meet.
pub(crate) fn relief_fact(
    flat: &FlatPattern,
    pressed: &[Pressed],
    asked: ReliefStyle,
    style: LengthStyle,
) -> Option<Fact> {
    let mut kinds: Vec<(String, usize)> = Vec::new();
    for relief in &flat.reliefs {
        let pressed = pressed.iter().find(|pressed| pressed.bends == relief.bends);
        let words = words(relief.cut, pressed.map(|pressed| pressed.reach_mm), style);
        match kinds.iter_mut().find(|(known, _)| *known == words) {
            Some((_, count)) => *count += 1,
            None => kinds.push((words, 1)),
        }
    }
    let value: Vec<String> = kinds
        .into_iter()
        .map(|(words, count)| if count == 1 { words } else { format!("{words}, {count} places") })
        .collect();
    (!value.is_empty()).then(|| Fact {
        name: "corner relief".to_owned(),
        value: value.join("; ") + source(flat, asked),
        origin: format!(
            "the corner relief of the shop or the part, square where the job gives none, at every corner by its own two bends: {}",
            rule(asked, style.unit())
        ),
        fields: fields(asked).map(str::to_owned).to_vec(),
    })
}

/// Where the diameter of drilled reliefs comes from, in short; empty where none is drilled, or the job gives it.
fn source(flat: &FlatPattern, asked: ReliefStyle) -> &'static str {
    let drilled = |cut: ReliefCut| matches!(cut, ReliefCut::Round { .. } | ReliefCut::TearDrop { .. });
    if !flat.reliefs.iter().any(|relief| drilled(relief.cut)) {
        return "";
    }
    match asked {
        ReliefStyle::Round { hole } | ReliefStyle::TearDrop { hole } => match hole {
            ReliefHole::Handbook => "; diameter by FAA-H-8083-31, chapter 4",
            ReliefHole::Zone => "; diameter as wide as the bend zone (common practice, no source)",
            ReliefHole::Diameter(_) => "",
        },
        ReliefStyle::None | ReliefStyle::Square => "",
    }
}

/// What the sizes of a relief go by.
const fn rule(asked: ReliefStyle, unit: LengthUnit) -> &'static str {
    match asked {
        ReliefStyle::None => "no size; how far metal is pressed is measured on the refolded flat",
        ReliefStyle::Square => {
            "both bend zones are cut away to where their inside tangent lines cross, and a zone is as wide as the bend allowance"
        }
        ReliefStyle::Round { hole } | ReliefStyle::TearDrop { hole } => match hole {
            ReliefHole::Handbook => match unit {
                LengthUnit::Inch => {
                    "diameter twice the larger inside radius of the two bends, not under 1/8, and not under 3/16 in sheet above .064 \
                     (FAA-H-8083-31, chapter 4)"
                }
                LengthUnit::Millimetre => {
                    "diameter twice the larger inside radius of the two bends, not under 3.18, and not under 4.76 in sheet above 1.63 \
                     (FAA-H-8083-31, chapter 4)"
                }
            },
            ReliefHole::Zone => {
                "diameter the width of the wider of the two bend zones, its bend allowance (common practice, no source)"
            }
            ReliefHole::Diameter(_) => "diameter as the job gives it",
        },
    }
}

/// The fields behind it.
const fn fields(asked: ReliefStyle) -> [&'static str; 1] {
    match asked {
        ReliefStyle::Round { hole: ReliefHole::Diameter(_) }
        | ReliefStyle::TearDrop { hole: ReliefHole::Diameter(_) } => ["shop.relief_hole"],
        ReliefStyle::None
        | ReliefStyle::Square
        | ReliefStyle::Round { .. }
        | ReliefStyle::TearDrop { .. } => ["shop.relief"],
    }
}

/// What is cut where bends meet, in words; empty where nothing is, and on a part without bends.
pub(crate) fn cut_relief(part: &PlannedPart, style: LengthStyle) -> String {
    let cut = part.flat.reliefs.iter().filter(|relief| relief.cut != ReliefCut::None);
    let flat = FlatPattern { reliefs: cut.copied().collect(), ..part.flat.clone() };
    relief_fact(&flat, &part.proof.pressed, part.part.making.relief, style)
        .map_or_else(String::new, |fact| fact.value)
}

/// `pressed_mm` is how far metal is pressed from where the edges meet.
fn words(cut: ReliefCut, pressed_mm: Option<f64>, style: LengthStyle) -> String {
    let print = |millimetres: f64| Length::from_millimetres(millimetres).print(finer(style));
    match cut {
        ReliefCut::None => {
            let pressed = pressed_mm.filter(|reach_mm| 0.0 < *reach_mm);
            let pressed =
                pressed.map(|reach_mm| format!("; metal is pressed for {} along them", print(reach_mm)));
            format!("none, edges meet where the bend lines cross{}", pressed.unwrap_or_default())
        }
        ReliefCut::Square { zones_mm: [first, second] } => {
            let (less, more) = (print(first.min(second)), print(first.max(second)));
            format!("square, across the bend zones of {less} and {more}")
        }
        ReliefCut::Round { radius_mm } => format!("round, dia {}", print(2.0 * radius_mm)),
        ReliefCut::TearDrop { radius_mm } => {
            format!("tear-drop, bottom dia {}, straight sides out to the edges", print(2.0 * radius_mm))
        }
    }
}
