//! From where a whole is looked at: as many views as show all its pieces and letters, three at the most.

use fold::facets::Facets;

use super::{WholeSheet, picture};
use crate::isometric::{Scene, View};

/// Height of the eye over the level, degrees, as isometric views have it: its tangent is 1/√2.
const HEIGHT_DEGREES: f64 = 35.264_389_682_754_654;

/// Where the eye may stand about the upright axis, degrees, the first taken where several show as much.
const ROUND_DEGREES: [f64; 4] = [-45.0, -135.0, 45.0, 135.0];

/// The most pictures that are drawn of one whole.
const MOST_PICTURES: usize = 3;

/// A view that may be taken.
struct Offered {
    /// About the upright axis, degrees.
    round: f64,
    height: &'static str,
    view: View,
    /// How many sides of every piece it shows.
    sides: Vec<usize>,
    /// Which letters it shows.
    letters: Vec<bool>,
}

/// The view that shows the most sides of plates, and further ones each of which shows the most of the pieces and letters that were
/// hidden so far, a letter alone no third; each with from where it is taken, in words, and the marks of the pieces hidden in all.
pub(super) fn chosen(sheet: &WholeSheet<'_>, all: &Facets) -> (Vec<(View, String)>, Vec<String>) {
    let offered = offered(sheet, all);
    let mut hidden: Vec<usize> = (0..sheet.pieces.len()).collect();
    let mut unseen: Vec<usize> = (0..sheet.letters.len()).collect();
    let mut chosen: Vec<&Offered> = Vec::new();
    while chosen.len() < MOST_PICTURES {
        if hidden.is_empty() && (unseen.is_empty() || chosen.len() + 1 == MOST_PICTURES) {
            break;
        }
        let new = |view: &Offered| {
            let pieces = hidden.iter().filter(|&&piece| 0 < view.sides[piece]).count();
            (pieces, unseen.iter().filter(|&&letter| view.letters[letter]).count())
        };
        let sides = |view: &Offered| view.sides.iter().sum::<usize>();
        // The first is taken from above.
        let best = if chosen.is_empty() {
            offered.iter().take(ROUND_DEGREES.len()).rev().max_by_key(|view| (sides(view), new(view)))
        } else {
            offered
                .iter()
                .rev()
                .filter(|view| new(view) != (0, 0))
                .max_by_key(|view| (new(view), sides(view)))
        };
        let Some(best) = best else { break };
        hidden.retain(|&piece| best.sides[piece] == 0);
        unseen.retain(|&letter| !best.letters[letter]);
        chosen.push(best);
    }
    let from = chosen.first().map_or(0.0, |first| first.round);
    let words = |view: &&Offered| (view.view, format!("{}{}", view.height, turned_words(view.round - from)));
    let marks = hidden.into_iter().map(|piece| sheet.pieces[piece].mark.clone());
    (chosen.iter().map(words).collect(), marks.collect())
}

/// All views, those from above first.
fn offered(sheet: &WholeSheet<'_>, all: &Facets) -> Vec<Offered> {
    let heights = [(HEIGHT_DEGREES, "from above"), (-HEIGHT_DEGREES, "from below")];
    let view = |degrees: f64, height: &'static str, round: f64| {
        let view = View::from_direction(round, degrees, 1.0);
        let scene = Scene::of(all, view);
        let letters = sheet.letters.iter().map(|(_, at)| picture::sees_corner(&scene, view, *at)).collect();
        Offered { round, height, view, sides: picture::sides_seen(sheet.pieces, all, view), letters }
    };
    heights
        .into_iter()
        .flat_map(|(degrees, words)| ROUND_DEGREES.map(|round| view(degrees, words, round)))
        .collect()
}

/// How far the whole is turned before the eye, in words.
fn turned_words(degrees: f64) -> &'static str {
    match degrees.abs() {
        turned if turned < 1.0 => "",
        turned if (turned - 180.0).abs() < 1.0 => ", turned half round",
        _ => ", turned a quarter round",
    }
}
