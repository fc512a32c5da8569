//! Writing HTML: escaping, elements, attributes.

/// A document in the making.
#[derive(Debug, Default)]
pub(crate) struct Markup {
    text: String,
}

impl Markup {
    /// What has been written.
    pub(crate) fn finish(self) -> String {
        self.text
    }

    /// `<name …>` on a line of its own.
    pub(crate) fn open(&mut self, name: &str, attributes: &[(&str, String)]) {
        self.tag(name, attributes, ">\n");
    }

    /// `</name>` on a line of its own.
    pub(crate) fn close(&mut self, name: &str) {
        self.text.push_str(&format!("</{name}>\n"));
    }

    /// `<name …/>` on a line of its own.
    pub(crate) fn empty(&mut self, name: &str, attributes: &[(&str, String)]) {
        self.tag(name, attributes, "/>\n");
    }

    /// `<name …>words</name>` on a line of its own, without blanks about the words.
    pub(crate) fn words(&mut self, name: &str, attributes: &[(&str, String)], words: &str) {
        self.tag(name, attributes, ">");
        self.text.push_str(&escaped(words));
        self.close(name);
    }

    /// Text that is markup already.
    pub(crate) fn raw(&mut self, markup: &str) {
        self.text.push_str(markup);
    }

    fn tag(&mut self, name: &str, attributes: &[(&str, String)], end: &str) {
        self.text.push('<');
        self.text.push_str(name);
        for (attribute, value) in attributes {
            self.text.push_str(&format!(" {attribute}=\"{}\"", escaped(value)));
        }
        self.text.push_str(end);
    }
}

/// `words` with the five signs of markup written out, and every character that XML forbids shown as the
/// replacement character.
pub(crate) fn escaped(words: &str) -> String {
    let mut text = String::with_capacity(words.len());
    for letter in readable(words).chars() {
        match letter {
            '&' => text.push_str("&amp;"),
            '<' => text.push_str("&lt;"),
            '>' => text.push_str("&gt;"),
            '"' => text.push_str("&quot;"),
            '\'' => text.push_str("&#39;"),
            _ => text.push(letter),
        }
    }
    text
}

/// `words` with every character that XML forbids, and every invisible one that turns the order of letters about, shown as
/// the replacement character: what is read is what is there.
pub(crate) fn readable(words: &str) -> String {
    words
        .chars()
        .map(|letter| if is_forbidden(letter) { char::REPLACEMENT_CHARACTER } else { letter })
        .collect()
}

/// Control characters but tab and line ends, and the two codes that are no characters (XML 1.0, production 2);
/// embeddings, overrides and isolates (Unicode Standard Annex 9, from memory).
fn is_forbidden(letter: char) -> bool {
    let turns_about = matches!(letter, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    let is_control = letter.is_control() && !"\t\n\r".contains(letter);
    is_control || turns_about || letter == '\u{fffe}' || letter == '\u{ffff}'
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_never_become_markup() {
        let mut markup = Markup::default();
        markup.words("p", &[("title", "\"a\"".to_owned())], "<script> & 'b'\u{0}");
        let expected = "<p title=\"&quot;a&quot;\">&lt;script&gt; &amp; &#39;b&#39;\u{fffd}</p>\n";
        assert_eq!(markup.finish(), expected);
    }
}
