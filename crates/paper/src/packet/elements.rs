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
    if sentences.is_empty() {
        return;
    }
    if !heading.is_empty() {
        markup.words("h3", &[], heading);
    }
    let class: Vec<(&str, String)> = class.map(|class| ("class", class.to_owned())).into_iter().collect();
    markup.open("ul", &class);
    for sentence in sentences {
        markup.words("li", &[], sentence);
    }
    markup.close("ul");
}

/// Steps in their order, numbered.
pub(crate) fn steps(markup: &mut Markup, steps: &[String]) {
    markup.open("ol", &[]);
    steps.iter().for_each(|step| markup.words("li", &[], step));
    markup.close("ol");
}

/// A drawing, called `name` in the page.
pub(crate) fn figure(markup: &mut Markup, page: &Page, name: &str) {
    markup.open("figure", &[]);
    markup.raw(&svg::write_inline(page, &format!("{name}-")));
    markup.close("figure");
}
