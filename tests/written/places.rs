//! Words of one drawing, with where they stand.

use roxmltree::{Document, Node};

/// Words of a drawing with the place where each begins, mm from its upper left corner.
pub(crate) fn words(svg: &[u8]) -> Vec<(String, [f64; 2])> {
    let text = std::str::from_utf8(svg).unwrap();
    let document = Document::parse(text).unwrap();
    // The small picture of the folded part beside a flat repeats its names.
    let is_of_view = |node: Node<'_, '_>| {
        let titles = node.ancestors().filter_map(|group| group.first_element_child());
        titles.filter_map(|title| title.text()).any(|title| title.ends_with(" folded labels"))
    };
    let texts = document.descendants().filter(|node| node.has_tag_name("text") && !is_of_view(*node));
    texts
        .map(|node| {
            let number = |name: &str| node.attribute(name).unwrap().parse::<f64>().unwrap();
            (node.text().unwrap_or_default().to_owned(), [number("x"), number("y")])
        })
        .collect()
}

/// Its letters of corners.
pub(crate) fn letters(svg: &[u8]) -> Vec<(String, [f64; 2])> {
    let is_letter = |words: &str| words.len() == 1 && words.chars().all(|letter| letter.is_ascii_uppercase());
    // A corner that is notched off keeps its letter, and is said to be gone.
    let bare = |(words, at): (String, [f64; 2])| (words.trim_end_matches(" (cut away)").to_owned(), at);
    words(svg).into_iter().map(bare).filter(|(words, _)| is_letter(words)).collect()
}
