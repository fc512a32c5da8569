//! Where lines of words may be broken: at blanks, but not within a size.

/// The words of a text, those of one size together: "48 × 96", "62 1/2 + .003 × 120". A size that `fits` says is too long for a line is
/// parted at its "×", and a number that still is at its blanks.
pub(crate) fn pieces(text: &str, fits: impl Fn(&str) -> bool) -> Vec<String> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let whole = glued(&words, |at| joins_number(&words, at) || joins_sizes(&words, at));
    let mut pieces = Vec::new();
    for size in whole {
        if size.len() == 1 || fits(&size.join(" ")) {
            pieces.push(size.join(" "));
            continue;
        }
        for number in glued(size, |at| joins_number(size, at)) {
            let joined = number.join(" ");
            if fits(&joined) {
                pieces.push(joined);
            } else {
                pieces.extend(number.iter().map(|word| (*word).to_owned()));
            }
        }
    }
    pieces
}

/// Runs of words of which none ends where `joins` says that the word at this place goes with the next.
fn glued<'a, 'w>(words: &'a [&'w str], joins: impl Fn(usize) -> bool) -> Vec<&'a [&'w str]> {
    let mut runs = Vec::new();
    let mut start = 0;
    for at in 0..words.len() {
        if at + 1 == words.len() || !joins(at) {
            runs.push(&words[start..=at]);
            start = at + 1;
        }
    }
    runs
}

/// Whether the word at this place and the next are of one number: "62 1/2", "1/2 + .003".
fn joins_number(words: &[&str], at: usize) -> bool {
    let word = |place: usize| words.get(place).copied().unwrap_or_default();
    let is_sign = |word: &str| word == "+" || word == "-";
    let is_leftover =
        |word: &str| word.starts_with('.') && word[1..].starts_with(|c: char| c.is_ascii_digit());
    let (this, next) = (word(at), word(at + 1));
    if is_sign(next) {
        return ends_in_digit(this) && is_leftover(word(at + 2));
    }
    if is_sign(this) {
        return is_leftover(next) && 0 < at && ends_in_digit(word(at - 1));
    }
    let is_fraction = next.split_once('/').is_some_and(|(over, under)| {
        let digits = under.trim_end_matches([',', ';', ':', '.', ')']);
        is_whole(over) && is_whole(digits)
    });
    is_fraction && is_whole(this.trim_start_matches(['(', '-']))
}

/// Whether the word at this place and the next are of one pair or triple of sizes: "48 ×", "× 96".
fn joins_sizes(words: &[&str], at: usize) -> bool {
    let (this, next) = (words[at], words.get(at + 1).copied().unwrap_or_default());
    let begins_number = |word: &str| word.trim_start_matches('.').starts_with(|c: char| c.is_ascii_digit());
    match (this, next) {
        ("×", _) => begins_number(next) && 0 < at && ends_in_digit(words[at - 1]),
        (_, "×") => ends_in_digit(this) && words.get(at + 2).is_some_and(|after| begins_number(after)),
        _ => false,
    }
}

fn ends_in_digit(word: &str) -> bool {
    word.ends_with(|c: char| c.is_ascii_digit())
}

fn is_whole(word: &str) -> bool {
    !word.is_empty() && word.bytes().all(|byte| byte.is_ascii_digit())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_stay_whole_where_they_fit() {
        let within = |most: usize| move |piece: &str| piece.chars().count() <= most;
        let text = "1 of 48 × 96, 2 of 62 1/2 + .003 × 120: area × 2 and 3 - 1";
        assert_eq!(
            pieces(text, within(40)),
            [
                "1",
                "of",
                "48 × 96,",
                "2",
                "of",
                "62 1/2 + .003 × 120:",
                "area",
                "×",
                "2",
                "and",
                "3",
                "-",
                "1"
            ]
        );
        assert_eq!(pieces("62 1/2 + .003 × 120", within(14)), ["62 1/2 + .003", "×", "120"]);
        assert_eq!(pieces("62 1/2 + .003", within(5)), ["62", "1/2", "+", ".003"]);
        assert_eq!(pieces("47 7/8 × 96 × .122 thick", within(40)), ["47 7/8 × 96 × .122", "thick"]);
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
