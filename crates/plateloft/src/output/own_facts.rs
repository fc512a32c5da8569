//! What a piece of a whole needs of the whole's numbers: its own sides and corners, not its neighbours'.

use paper::layout_sheet::Fact;

/// The facts without those of other sides and other corners, for a piece that is named after its side: "channel AB". A fact goes
/// where the same one is told of the piece's own side, or of a corner of it.
pub(super) fn of_piece(facts: Vec<Fact>, piece: &str) -> Vec<Fact> {
    let Some(side) = words(piece).find(|word| is_letters(word, 2)) else { return facts };
    let corners = side.chars().map(String::from).collect::<Vec<_>>();
    let names: Vec<String> = facts.iter().map(|fact| fact.name.clone()).collect();
    let is_others = |name: &str| {
        words(name).any(|word| {
            let own: &[String] = match word.len() {
                2 => &[side.to_owned()],
                _ => &corners,
            };
            let is_place = is_letters(word, 2) || is_letters(word, 1);
            let with = |own: &String| {
                name.split_whitespace().map(|told| replaced(told, word, own)).collect::<Vec<_>>()
            };
            is_place
                && !own.iter().any(|own| own == word)
                && own.iter().any(|own| names.contains(&with(own).join(" ")))
        })
    };
    facts.into_iter().filter(|fact| !is_others(&fact.name)).collect()
}

/// The words of a name without their commas.
fn words(name: &str) -> impl Iterator<Item = &str> {
    name.split_whitespace().map(|word| word.trim_end_matches([',', ':']))
}

fn is_letters(word: &str, count: usize) -> bool {
    word.len() == count && word.chars().all(|letter| letter.is_ascii_uppercase())
}

/// The word with its letters changed, its comma kept.
fn replaced(told: &str, from: &str, to: &str) -> String {
    if told.trim_end_matches([',', ':']) == from { told.replacen(from, to, 1) } else { told.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_channel_keeps_its_own_side_and_corners_and_what_holds_of_all() {
        let all = [
            "channel AB, long side, outside",
            "channel BC, long side, outside",
            "mitre at corner A",
            "mitre at corner B",
            "mitre at corner C",
            "drain",
            "weld at corner D of the lid",
        ];
        let facts = all.map(|name| Fact { name: name.to_owned(), ..Fact::default() }).to_vec();
        let names = |facts: Vec<Fact>| facts.into_iter().map(|fact| fact.name).collect::<Vec<_>>();
        let own = [
            "channel AB, long side, outside",
            "mitre at corner A",
            "mitre at corner B",
            "drain",
            "weld at corner D of the lid",
        ];
        assert_eq!(names(of_piece(facts.clone(), "channel AB")), own);
        assert_eq!(names(of_piece(facts, "bottom")), all);
    }
}
