//! Names of an opposite hand: what is to port on the drawn part is to starboard on its hand, what is left is right.

use shapes::{Fact, FactValue, Places, Shaped};

/// Words that change places.
const EXCHANGED: [(&str, &str); 4] =
    [("port", "starboard"), ("left", "right"), ("LEFT", "RIGHT"), ("clockwise", "counter-clockwise")];

/// Words that change places in whole sentences, where "left" may also be what is not taken.
const EXCHANGED_IN_SENTENCES: [(&str, &str); 2] = [("port", "starboard"), ("clockwise", "counter-clockwise")];

/// A name with its sides exchanged, word for word.
pub(crate) fn exchanged(name: &str) -> String {
    with_exchanged(name, &EXCHANGED)
}

/// A sentence with its sides exchanged, word for word.
fn exchanged_sentence(words: &str) -> String {
    with_exchanged(words, &EXCHANGED_IN_SENTENCES)
}

fn with_exchanged(words: &str, pairs: &[(&str, &str)]) -> String {
    let word = |whole: &str| {
        let word = whole.trim_end_matches([',', ';', '.', ':', ')']);
        let other = pairs.iter().find_map(|&(a, b)| match word {
            _ if word == a => Some(b),
            _ if word == b => Some(a),
            _ => None,
        });
        format!("{}{}", other.unwrap_or(word), &whole[word.len()..])
    };
    words.split(' ').map(word).collect::<Vec<_>>().join(" ")
}

/// The letters behind the mark of a piece, its sides exchanged: "side-s" of one hand is "side-p" of the other.
pub(crate) fn exchanged_suffix(suffix: &str) -> String {
    let part = |part: &str| match part {
        "s" => "p".to_owned(),
        "p" => "s".to_owned(),
        _ => exchanged(part),
    };
    suffix.split('-').map(part).collect::<Vec<_>>().join("-")
}

/// Renames faces, seams, sizes and facts of a mirrored part, and says in their words what the mirror exchanges.
pub(crate) fn rename(shaped: &mut Shaped) {
    let part = &mut shaped.part;
    let faces = part.faces.iter_mut().map(|face| &mut face.name);
    let seams = part.seams.iter_mut().map(|seam| &mut seam.name);
    let sizes = part.sizes.iter_mut().map(|size| &mut size.name);
    for name in faces.chain(seams).chain(sizes) {
        *name = exchanged(name);
    }
    shaped.facts.iter_mut().for_each(exchange);
}

/// Says a fact of the drawn part of its opposite hand.
pub(crate) fn exchange(fact: &mut Fact) {
    fact.name = exchanged(&fact.name);
    if let FactValue::Words(words) = &mut fact.value {
        *words = exchanged_sentence(words);
    }
}

/// The named places of a mirrored part.
pub(crate) fn places(natural: &Places) -> Places {
    let mut places = natural.mirrored();
    let edges = places.edges.iter_mut().map(|(name, _)| name);
    let points = places.stations.iter_mut().chain(&mut places.on_bends).map(|(name, _)| name);
    for name in edges.chain(points) {
        *name = exchanged(name);
    }
    places
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sides_change_places_and_nothing_else_does() {
        assert_eq!(exchanged("starboard side of the console"), "port side of the console");
        assert_eq!(exchanged("right end"), "left end");
        assert_eq!(exchanged("wall AB, outside"), "wall AB, outside");
        assert_eq!(exchanged("limber hole 3 to starboard"), "limber hole 3 to port");
    }

    #[test]
    fn a_sentence_keeps_what_is_left() {
        let words = exchanged_sentence("A, B run counter-clockwise; 3 is left, port and starboard");
        assert_eq!(words, "A, B run clockwise; 3 is left, starboard and port");
    }

    #[test]
    fn a_piece_goes_by_its_own_side() {
        assert_eq!(exchanged_suffix("side-s"), "side-p");
        assert_eq!(exchanged_suffix("end-aft"), "end-aft");
        assert_eq!(exchanged_suffix("strip"), "strip");
    }
}
