//! Words as they are seen from left to right: a printer sets letter after letter and knows no other way.
//!
//! By the Unicode Bidirectional Algorithm (Unicode Standard Annex 9) on a line that runs to the right, which is what
//! viewers of the drawings do too.

use unicode_bidi::{BidiInfo, Level};

/// Brackets and their mirror images.
const MIRRORED: [(char, char); 6] = [('(', ')'), ('[', ']'), ('{', '}'), ('<', '>'), ('«', '»'), ('‹', '›')];

/// The letters of `words` in the order in which they are seen.
pub(super) fn in_sight(words: &str) -> String {
    if words.is_ascii() {
        return words.to_owned();
    }
    let known = BidiInfo::new(words, Some(Level::ltr()));
    if !known.has_rtl() {
        return words.to_owned();
    }
    let mut seen = String::with_capacity(words.len());
    for paragraph in &known.paragraphs {
        let (levels, runs) = known.visual_runs(paragraph, paragraph.range.clone());
        for run in runs {
            let leftward = levels.get(run.start).is_some_and(Level::is_rtl);
            let letters = words.get(run).unwrap_or_default();
            if leftward { backward(letters, &mut seen) } else { seen.push_str(letters) }
        }
    }
    seen
}

/// Adds letters from the last to the first; signs that sit on a letter stay behind it.
fn backward(letters: &str, seen: &mut String) {
    let mut clusters: Vec<String> = Vec::new();
    for letter in letters.chars() {
        match clusters.last_mut().filter(|_| sits_on_a_letter(letter)) {
            Some(cluster) => cluster.push(letter),
            None => clusters.push(mirrored(letter).to_string()),
        }
    }
    clusters.iter().rev().for_each(|cluster| seen.push_str(cluster));
}

fn mirrored(letter: char) -> char {
    let pair = MIRRORED.iter().find(|(open, close)| letter == *open || letter == *close);
    pair.map_or(letter, |(open, close)| if letter == *open { *close } else { *open })
}

/// Points of Hebrew, marks of Arabic, and the common accents.
fn sits_on_a_letter(letter: char) -> bool {
    matches!(u32::from(letter), 0x0300..=0x036f | 0x0591..=0x05bd | 0x05bf | 0x05c1..=0x05c2 | 0x05c4..=0x05c5 | 0x05c7 | 0x064b..=0x065f | 0x0670)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_to_the_left_are_turned_and_numbers_in_them_are_not() {
        assert_eq!(in_sight("Deckel ä 12"), "Deckel ä 12");
        assert_eq!(in_sight("\u{5d0}\u{5d1}\u{5d2}"), "\u{5d2}\u{5d1}\u{5d0}");
        assert_eq!(in_sight("L1 \u{5d0}\u{5d1} 12 x"), "L1 12 \u{5d1}\u{5d0} x");
        assert_eq!(in_sight("\u{5d0}(\u{5d1})"), "(\u{5d1})\u{5d0}");
        assert_eq!(in_sight("\u{5d0}\u{5b8}\u{5d1}"), "\u{5d1}\u{5d0}\u{5b8}");
    }
}
