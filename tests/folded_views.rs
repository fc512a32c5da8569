//! The view of the folded part on every layout sheet, as it is written: it has the letters of the flat beside it, each once, and no
//! name that the flat has not.

use std::collections::BTreeSet;

use crate::legible::made;
use crate::written::{Ink, Seen};

/// The texts of the group of this name on a drawing.
fn group<'a>(drawing: &'a Seen, name: &str) -> Option<Vec<&'a str>> {
    let found = drawing.groups.iter().find(|(title, _)| title.ends_with(name));
    found.map(|(_, texts)| texts.iter().map(|text| text.words.as_str()).collect())
}

/// A layout sheet with bend lines, told by its heading and its datum.
fn is_of_a_folded_part(drawing: &Seen) -> bool {
    let has = |name: &str| group(drawing, name).is_some();
    has(" datum") && has(" dimensions") && !drawing.bends.is_empty()
}

/// The letter of a corner: one capital.
fn is_letter(words: &str) -> bool {
    words.len() == 1 && words.chars().all(|letter| letter.is_ascii_uppercase())
}

/// What is wrong with the view of one sheet.
fn faults(drawing: &Seen) -> Vec<String> {
    let Some(view) = group(drawing, " folded labels") else {
        let told = group(drawing, " folded words").unwrap_or_default();
        let says = told.iter().any(|words| words.ends_with(", folded”."));
        return if says { Vec::new() } else { vec!["has no folded view, and says nothing of it".to_owned()] };
    };
    let flat = group(drawing, " labels").unwrap_or_default();
    let mut faults = Vec::new();
    for words in &view {
        let bare = words.trim_start_matches('(').trim_end_matches(')');
        if !flat.contains(&bare) {
            faults.push(format!("“{words}” is not on the flat"));
        }
        if 1 < view.iter().filter(|other| *other == words).count() && is_letter(bare) {
            faults.push(format!("“{words}” stands twice on the view"));
        }
    }
    // A part may be marked by one letter too.
    let mark = drawing.groups.iter().find_map(|(title, _)| title.strip_suffix(" folded labels"));
    let is_corner = |words: &&str| is_letter(words) && Some(*words) != mark;
    let letters: BTreeSet<&str> = flat.iter().copied().filter(is_corner).collect();
    for letter in letters {
        let times = view.iter().filter(|words| **words == letter || **words == format!("({letter})")).count();
        if times == 0 {
            faults.push(format!("corner {letter} is not on the view"));
        }
    }
    if view.is_empty() {
        faults.push("nothing is named on the view".to_owned());
    }
    faults
}

#[test]
fn the_sheet_of_every_folded_part_shows_it_folded_with_the_letters_of_the_flat() {
    let (mut views, mut told, mut names) = (0, Vec::new(), 0);
    let mut all = Vec::new();
    for made in made() {
        for drawing in made.drawings.iter().filter(|drawing| is_of_a_folded_part(drawing)) {
            all.extend(
                faults(drawing).iter().map(|fault| format!("{}: {}: {fault}", made.job, drawing.name)),
            );
            match group(drawing, " folded labels") {
                Some(view) => {
                    views += 1;
                    names += view.len();
                }
                None => told.push(format!("{}: {}", made.job, drawing.name)),
            }
        }
    }
    assert_eq!(all.join("\n"), "");
    assert!(100 < views && 3 * views < names, "{views} views with {names} names");
    assert!(4 * told.len() < views, "{views} views, and none on {}:\n{}", told.len(), told.join("\n"));
}

/// The test itself: a letter that is missing, one that the flat has not, and a sheet that says nothing.
#[test]
fn a_view_with_other_letters_than_the_flat_is_found_out() {
    let text = |words: &str| Ink { words: words.to_owned(), size: 3.0, corners: [[0.0; 2]; 4], at: [0.0; 2] };
    let texts = |words: &[&str]| words.iter().map(|words| text(words)).collect::<Vec<_>>();
    let seen = |view: &[&str]| Seen {
        groups: vec![
            ("T labels".to_owned(), texts(&["A", "B", "wall AB", "T"])),
            ("T folded labels".to_owned(), texts(view)),
        ],
        ..Seen::default()
    };
    assert_eq!(faults(&seen(&["A", "(B)", "wall AB"])), [""; 0]);
    assert_eq!(faults(&seen(&["A", "wall AB"])).len(), 1);
    assert_eq!(faults(&seen(&["A", "B", "C"])).len(), 1);
    assert_eq!(faults(&seen(&["A", "A", "B"])).len(), 2);
    assert_eq!(faults(&Seen::default()).len(), 1);
}
