//! The known word that a mistyped one most likely stands for.

/// The known word nearest to `given`, when so few letters differ that it is likely meant.
pub(crate) fn nearest<'a>(given: &str, known: &[&'a str]) -> Option<&'a str> {
    let given = given.to_lowercase();
    let allowed = 1 + given.chars().count() / 4;
    let distances = known.iter().map(|word| (letters_apart(&given, &word.to_lowercase()), *word));
    distances.filter(|(apart, _)| *apart <= allowed).min_by_key(|(apart, _)| *apart).map(|(_, word)| word)
}

/// What to do about a word that is not known: take the one that was most likely meant, or else what `otherwise` says.
pub(crate) fn remedy(given: &str, known: &[&str], otherwise: impl FnOnce() -> String) -> String {
    nearest(given, known).map_or_else(otherwise, |near| format!("did you mean \"{near}\"?"))
}

/// How many letters must be put in, taken out, exchanged or swapped with a neighbour.
///
/// Source: the restricted edit distance of Damerau (1964), worked row by row.
fn letters_apart(a: &str, b: &str) -> usize {
    let (a, b): (Vec<char>, Vec<char>) = (a.chars().collect(), b.chars().collect());
    let mut before: Vec<usize> = Vec::new();
    let mut last: Vec<usize> = (0..=b.len()).collect();
    for (i, &from) in a.iter().enumerate() {
        let mut row = vec![i + 1];
        for (j, &to) in b.iter().enumerate() {
            let changed = last[j] + usize::from(from != to);
            let mut least = changed.min(last[j + 1] + 1).min(row[j] + 1);
            if i > 0 && j > 0 && from == b[j - 1] && a[i - 1] == to {
                least = least.min(before[j - 1] + 1);
            }
            row.push(least);
        }
        before = std::mem::replace(&mut last, row);
    }
    last[b.len()]
}

/// Words with commas between: "a, b, c".
pub(crate) fn list<'a>(words: impl IntoIterator<Item = &'a str>) -> String {
    words.into_iter().collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slips_of_the_finger_are_near_and_other_words_are_not() {
        let known = ["skirt", "return", "rise"];
        assert_eq!(nearest("skrit", &known), Some("skirt"));
        assert_eq!(nearest("retrun", &known), Some("return"));
        assert_eq!(nearest("Skirt", &known), Some("skirt"));
        assert_eq!(nearest("colour", &known), None);
    }
}
