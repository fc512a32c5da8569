//! Letters of corners, as the names of faces imply them: where "side AB" and "side BC" meet on their parent is B.

use fold::FlatPattern;
use geometry::Point;

/// Every corner of the root that has a letter, in the flat, up to the tangent lines of its bends.
pub(crate) fn of_corners(flat: &FlatPattern) -> Vec<(String, Point)> {
    let sides: Vec<([char; 2], [Point; 2])> = flat
        .bends
        .iter()
        .filter(|bend| bend.parent == 0)
        .filter_map(|bend| {
            let back = bend.across() * (0.5 * bend.zone_mm);
            Some((letters(&flat.faces[bend.child].name)?, [bend.from - back, bend.to - back]))
        })
        .collect();
    let mut corners: Vec<(String, Point)> = Vec::new();
    for (number, (letters, ends)) in sides.iter().enumerate() {
        for (other_letters, other_ends) in &sides[number + 1..] {
            // Two faces along one side, such as an outer and an inner wall AB, do not meet at its ends.
            let shared: Vec<char> =
                letters.iter().copied().filter(|letter| other_letters.contains(letter)).collect();
            if let [letter] = shared[..] {
                corners
                    .extend(nearest(ends, other_ends).map(|(a, b)| (letter.to_string(), a.toward(b, 0.5))));
            }
        }
    }
    corners.sort_by(|(one, _), (other, _)| one.cmp(other));
    corners
}

/// The two letters of a name such as "side AB".
fn letters(name: &str) -> Option<[char; 2]> {
    let word: Vec<char> = name.rsplit(' ').next()?.chars().collect();
    match word[..] {
        [first, second] if first.is_ascii_uppercase() && second.is_ascii_uppercase() => Some([first, second]),
        _ => None,
    }
}

/// The two ends nearest to one another.
fn nearest(first: &[Point; 2], second: &[Point; 2]) -> Option<(Point, Point)> {
    let pairs = first.iter().flat_map(|&a| second.iter().map(move |&b| (a, b)));
    pairs.min_by(|(a, b), (c, d)| a.distance(*b).total_cmp(&c.distance(*d)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_two_capitals_are_corners() {
        assert_eq!(letters("side AB"), Some(['A', 'B']));
        assert_eq!(letters("rim out"), None);
        assert_eq!(letters("wall 1"), None);
    }
}
