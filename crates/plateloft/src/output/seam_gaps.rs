//! Seams of one part that are alike, said once: the gap that most of them have in a row of its own, and the corners of one edge
//! in one row.

use paper::layout_sheet::Fact;

/// Where the words of a gap begin in those of a seam.
const GAP: &str = ", gap designed ";

/// Between an edge and the corner at which it is welded.
const AT_CORNER: &str = " at corner ";

/// The facts with what is the same of several seams said once.
pub(super) fn said_once(facts: Vec<Fact>) -> Vec<Fact> {
    let gaps: Vec<String> = facts.iter().filter_map(|fact| parted(&fact.value)).map(|(_, gap)| gap).collect();
    let count = |gap: &String| gaps.iter().filter(|other| *other == gap).count();
    let Some(shared) = gaps.iter().rev().max_by_key(|gap| count(gap)).filter(|gap| 1 < count(gap)) else {
        return facts;
    };
    let mut said: Vec<Fact> = Vec::new();
    let mut last_place = 0;
    for mut fact in facts {
        match parted(&fact.value).filter(|(_, gap)| gap == shared) {
            Some((words, _)) => {
                fact.value = words;
                match said.iter_mut().find_map(|other| joined(other, &fact).map(|name| (other, name))) {
                    Some((other, name)) => other.name = name,
                    None => said.push(fact),
                }
                last_place = said.len();
            }
            None => said.push(fact),
        }
    }
    let gap = Fact {
        name: "every seam with no gap named".to_owned(),
        value: shared.clone(),
        origin: "measured between the refolded plates along each whole seam, up to its corner relief"
            .to_owned(),
        ..Fact::default()
    };
    said.insert(last_place, gap);
    said
}

/// The words of a seam before those of its gap, and those.
fn parted(value: &str) -> Option<(String, String)> {
    let (words, gap) = value.split_once(GAP)?;
    Some((words.to_owned(), format!("{}{gap}", &GAP[2..])))
}

/// One name for two facts that differ in the corner alone: "weld lip at corners A, B".
fn joined(first: &Fact, second: &Fact) -> Option<String> {
    let (edge, corner) = second.name.split_once(AT_CORNER)?;
    let (other, corners) =
        first.name.split_once(" at corners ").or_else(|| first.name.split_once(AT_CORNER))?;
    (edge == other && first.value == second.value).then(|| format!("{edge} at corners {corners}, {corner}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fact(name: &str, value: &str) -> Fact {
        Fact { name: name.to_owned(), value: value.to_owned(), ..Fact::default() }
    }

    fn said(facts: &[(&str, &str)]) -> Vec<String> {
        let facts = facts.iter().map(|(name, value)| fact(name, value)).collect();
        said_once(facts).iter().map(|fact| format!("{}: {}", fact.name, fact.value)).collect()
    }

    #[test]
    fn the_gap_of_several_seams_stands_once() {
        let facts = [
            ("collar", "3 high"),
            ("weld lip at corner B", "1, 90.0° inside, gap designed 0, least 0, largest 0"),
            ("weld lip at corner A", "1, 90.0° inside, gap designed 0, least 0, largest 0"),
            ("weld leg at corner A", "2, 90.0° inside, gap designed 0, least 0, largest 0"),
            ("weld rim at corner A", "2, 90.0° inside, gap designed 0, least 0, largest .016"),
            ("drain", "3/4"),
        ];
        let expected = [
            "collar: 3 high",
            "weld lip at corners B, A: 1, 90.0° inside",
            "weld leg at corner A: 2, 90.0° inside",
            "every seam with no gap named: gap designed 0, least 0, largest 0",
            "weld rim at corner A: 2, 90.0° inside, gap designed 0, least 0, largest .016",
            "drain: 3/4",
        ];
        assert_eq!(said(&facts), expected);
    }

    #[test]
    fn a_gap_of_one_seam_stays_with_it() {
        let facts = [("seam, lid", "butt, gap designed 0, least 0, largest 0"), ("drain", "3/4")];
        assert_eq!(said(&facts), ["seam, lid: butt, gap designed 0, least 0, largest 0", "drain: 3/4"]);
    }
}
