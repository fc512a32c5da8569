//! An element of a drawing, written as it is put together: a packet has a million of them, and no tree of them is needed.

/// An element with what stands in it.
pub(super) struct Element {
    name: &'static str,
    /// Its attributes as they are written.
    attributes: String,
    /// What stands in it, as it is written.
    inner: String,
    /// Whether the last thing in it is words, which no line end may follow.
    ends_in_words: bool,
}

impl Element {
    /// An element without anything in it; attributes are written in the order of their names.
    pub(super) fn new(name: &'static str, mut attributes: Vec<(&'static str, String)>) -> Self {
        attributes.sort_by_key(|(name, _)| *name);
        let mut written = String::new();
        for (name, value) in &attributes {
            written.push(' ');
            written.push_str(name);
            written.push_str("=\"");
            escape(value, &mut written);
            written.push('"');
        }
        Self { name, attributes: written, inner: String::new(), ends_in_words: false }
    }

    /// Puts an element into this one, on a line of its own.
    pub(super) fn append(&mut self, element: &Self) {
        self.inner.push('\n');
        element.write(&mut self.inner);
        self.ends_in_words = false;
    }

    /// Puts words into it.
    pub(super) fn words(&mut self, words: &str) {
        escape(words, &mut self.inner);
        self.ends_in_words = true;
    }

    /// Writes it.
    pub(super) fn write(&self, to: &mut String) {
        to.push('<');
        to.push_str(self.name);
        to.push_str(&self.attributes);
        if self.inner.is_empty() && !self.ends_in_words {
            to.push_str("/>");
            return;
        }
        to.push('>');
        to.push_str(&self.inner);
        if !self.ends_in_words {
            to.push('\n');
        }
        to.push_str("</");
        to.push_str(self.name);
        to.push('>');
    }
}

/// Attributes stand in double quotes, and no value here has any; words may have them.
fn escape(text: &str, to: &mut String) {
    for letter in text.chars() {
        match letter {
            '&' => to.push_str("&amp;"),
            '<' => to.push_str("&lt;"),
            '>' => to.push_str("&gt;"),
            letter => to.push(letter),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn elements_are_written_with_what_stands_in_them() {
        let mut words = Element::new("text", vec![("y", "2".to_owned()), ("fill", "a<b".to_owned())]);
        words.words("1 < 2 & \"3\"");
        let mut group = Element::new("g", Vec::new());
        group.append(&Element::new("line", vec![("x1", "0".to_owned())]));
        group.append(&words);
        let mut written = String::new();
        group.write(&mut written);
        let expected =
            "<g>\n<line x1=\"0\"/>\n<text fill=\"a&lt;b\" y=\"2\">1 &lt; 2 &amp; \"3\"</text>\n</g>";
        assert_eq!(written, expected);
    }
}
