//! What pages are put together of: sections, lists of sentences, drawings.

use crate::markup::Markup;
use crate::page::Page;
use crate::svg;

/// Opens a section that starts a printed page, with its heading.
pub(crate) fn open(markup: &mut Markup, anchor: &str, heading: &str, class: Option<&str>) {
    let mut attributes = vec![("id", anchor.to_owned())];
    attributes.extend(class.map(|class| ("class", class.to_owned())));
    markup.open("section", &attributes);
    markup.words("h2", &[], heading);
}

/// Sentences under a heading; nothing where there are none.
pub(crate) fn list(markup: &mut Markup, heading: &str, sentences: &[String], class: Option<&str>) {
    list_from(markup, heading, sentences, (class, ""));
}

/// The same, and where the numbers of the sentences come from.
pub(crate) fn list_from(
    markup: &mut Markup,
    heading: &str,
    sentences: &[String],
    (class, origin): (Option<&str>, &str),
) {
    if sentences.is_empty() {
        return;
    }
    if !heading.is_empty() {
        markup.words("h3", &[], heading);
    }
    let class: Vec<(&str, String)> = class.map(|class| ("class", class.to_owned())).into_iter().collect();
    markup.open("ul", &class);
    for sentence in sentences {
        markup.words("li", &from(sentence, origin), sentence);
    }
    markup.close("ul");
}

/// Steps in their order, numbered, and where their numbers come from; nothing for those that say it themselves.
pub(crate) fn steps(markup: &mut Markup, steps: &[String], from: &str) {
    markup.open("ol", &[]);
    steps.iter().for_each(|step| markup.words("li", &self::from(step, from), step));
    markup.close("ol");
}

/// What a sentence with numbers in it tells under the pointer: where they come from; nothing where that is empty.
pub(crate) fn from(sentence: &str, origin: &str) -> Vec<(&'static str, String)> {
    let has_number = sentence.contains(|letter: char| letter.is_ascii_digit());
    (has_number && !origin.is_empty()).then(|| ("title", origin.to_owned())).into_iter().collect()
}

/// A drawing, called `name` in the page.
pub(crate) fn figure(markup: &mut Markup, page: &Page, name: &str) {
    markup.open("figure", &[]);
    markup.raw(&svg::write_inline(page, &format!("{name}-")));
    markup.close("figure");
}
