//! Corner reliefs in words.

use fold::FlatPattern;
use fold::flat::ReliefCut;
use fold::refold::Pressed;
use paper::layout_sheet::Fact;
use units::{Length, LengthStyle};

use crate::plan::{PlannedPart, finer};

/// Every kind and size of relief on a flat, each once with how often: "round, dia .250, 4 places"; none on a flat where
/// no two bends meet.
pub(crate) fn relief_fact(flat: &FlatPattern, pressed: &[Pressed], style: LengthStyle) -> Option<Fact> {
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
    let origin =
        "the shop's corner relief, square where the job gives none, and at every corner its own two bends";
    (!value.is_empty()).then(|| Fact {
        name: "corner relief".to_owned(),
        value: value.join("; "),
        origin: origin.to_owned(),
        fields: vec!["shop.relief".to_owned()],
    })
}

/// What is cut where bends meet, in words; empty where nothing is, and on a part without bends.
pub(crate) fn cut_relief(part: &PlannedPart, style: LengthStyle) -> String {
    let cut = part.flat.reliefs.iter().filter(|relief| relief.cut != ReliefCut::None);
    let flat = FlatPattern { reliefs: cut.copied().collect(), ..part.flat.clone() };
    relief_fact(&flat, &part.proof.pressed, style).map_or_else(String::new, |fact| fact.value)
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
