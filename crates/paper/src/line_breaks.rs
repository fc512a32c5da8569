//! Where lines of words may be broken: at blanks, but not within a size. A man reads the first half of one and cuts by it.

/// Units that follow a number.
const UNITS: [&str; 27] = [
    "in", "mm", "m", "ft", "lb", "lbf", "kg", "oz", "g", "N", "psi", "°", "°F", "°C", "%", "h", "min",
    "in-lb", "ft-lb", "N·m", "in²", "ft²", "m²", "ft³", "gal", "hours", "deg",
];

/// The words of `text`, where a number with its fraction, leftover, tolerance, unit and place ("12 at 120"), and sizes
/// that belong to one another ("37 × 29 1/2 + .004"), are one word.
pub(crate) fn words(text: &str) -> Vec<String> {
    let bare: Vec<&str> = text.split_whitespace().collect();
    let mut words: Vec<String> = Vec::with_capacity(bare.len());
    for (place, word) in bare.iter().enumerate() {
        let before = place.checked_sub(1).map(|before| bare[before]);
        let ahead = place.checked_sub(2).map(|ahead| bare[ahead]);
        let stays = before.is_some_and(|before| belongs(ahead, before, word, bare.get(place + 1).copied()));
        match words.last_mut().filter(|_| stays) {
            Some(last) => {
                last.push(' ');
                last.push_str(word);
            }
            None => words.push((*word).to_owned()),
        }
    }
    words
}

/// The words of `text`, where one that `fits` says is too long for a line is parted at its "×", and a number that still is at its
/// blanks.
pub(crate) fn pieces(text: &str, fits: impl Fn(&str) -> bool) -> Vec<String> {
    let mut pieces = Vec::new();
    for word in words(text) {
        if fits(&word) {
            pieces.push(word);
            continue;
        }
        for size in word.split_inclusive(" × ").map(str::trim_end) {
            if fits(size) {
                pieces.push(size.to_owned());
            } else {
                pieces.extend(size.split_whitespace().map(str::to_owned));
            }
        }
    }
    pieces
}

/// True when no line ends between `before` and `word`.
fn belongs(ahead: Option<&str>, before: &str, word: &str, behind: Option<&str>) -> bool {
    let is_fraction = |word: &str| is_number(word) && word.contains('/');
    let told =
        |word: &str| word.trim_end_matches([',', ';', ':', '.', ')', '?']).trim_end_matches('.').to_owned();
    let own = told(word);
    match before {
        // The sign has its number; a dash between words has none.
        "×" => true,
        "+" | "-" | "±" => ahead.is_some_and(is_number) && is_number(&own),
        "at" => is_number(&own),
        _ if !is_number(before) => false,
        _ => match word {
            "×" => true,
            "+" | "-" | "±" => behind.is_some_and(|behind| is_number(&told(behind))),
            "at" => behind.is_some_and(|behind| is_number(&told(behind))),
            _ => is_fraction(&own) || UNITS.contains(&own.as_str()),
        },
    }
}

/// "45", "3/4", ".004", "(16", "1,250.0", "90°", but not "45," nor "G1".
fn is_number(word: &str) -> bool {
    let bare = word.trim_start_matches(['(', '+', '-', '±', '$', '“', '<']);
    let bare = bare.strip_suffix('°').unwrap_or(bare);
    bare.ends_with(|last: char| last.is_ascii_digit())
        && bare.chars().all(|letter| letter.is_ascii_digit() || ".,/".contains(letter))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_keeps_all_that_belongs_to_it() {
        let told = |text: &str| words(text).join("|");
        assert_eq!(told("45 3/4 from the left edge"), "45 3/4|from|the|left|edge");
        assert_eq!(
            told("keep 13 1/4 - .004 × 29 1/2 + .004 usable"),
            "keep|13 1/4 - .004 × 29 1/2 + .004|usable"
        );
        assert_eq!(told("12 3/4 at 105, 12 at 120, then"), "12 3/4 at 105,|12 at 120,|then");
        assert_eq!(told("line (.004 in) shares"), "line|(.004 in)|shares");
        assert_eq!(told("less than .0001 in."), "less|than|.0001 in.");
        assert_eq!(told("drawn at 5 × full size"), "drawn|at 5 × full|size");
        assert_eq!(told("guide 4 15/16, + .031"), "guide|4 15/16,|+|.031");
        assert_eq!(told("of 5, 3/4 of them"), "of|5,|3/4|of|them");
        assert_eq!(told("bend 3 - the lid"), "bend|3|-|the|lid");
    }

    #[test]
    fn a_word_too_wide_is_parted_at_its_sizes_first() {
        let within = |most: usize| move |piece: &str| piece.chars().count() <= most;
        assert_eq!(pieces("13 1/4 × 29 1/2 + .004", within(14)), ["13 1/4 ×", "29 1/2 + .004"]);
        assert_eq!(pieces("62 1/2 + .003", within(5)), ["62", "1/2", "+", ".003"]);
        assert_eq!(pieces("47 7/8 × 96 × .122 thick", within(40)), ["47 7/8 × 96 × .122", "thick"]);
        assert_eq!(pieces("mark", within(2)), ["mark"]);
    }

    #[test]
    fn no_word_is_lost() {
        let text = "× 3 × a 5 × 6 1/2, + .4 7 + .5 - 1/2 of (2 3/4) × 8";
        for most in 0..30 {
            let all = pieces(text, |piece| piece.len() <= most).join(" ");
            assert_eq!(all, text);
        }
    }
}
