//! Names for groups that an XML reader accepts.

use std::collections::BTreeSet;

/// Group names handed out so far, so that none is used twice.
pub(super) struct Names {
    prefix: String,
    used: BTreeSet<String>,
}

impl Names {
    pub(super) fn new(prefix: &str) -> Self {
        Self { prefix: prefix.to_owned(), used: BTreeSet::new() }
    }

    /// A name for `wanted` that XML accepts: letters, digits, `-`, `_` and `.` stay, anything else becomes `_`; a
    /// name that does not start with a letter gets a `_` in front, and one used before a number behind.
    pub(super) fn unique(&mut self, wanted: &str) -> String {
        let plain = |c: char| if c.is_alphanumeric() || "-_.".contains(c) { c } else { '_' };
        let mut name = format!("{}{}", self.prefix, wanted.chars().map(plain).collect::<String>());
        if !name.starts_with(char::is_alphabetic) {
            name.insert(0, '_');
        }
        let mut numbered = name.clone();
        let mut count = 1;
        while !self.used.insert(numbered.clone()) {
            count += 1;
            numbered = format!("{name}-{count}");
        }
        numbered
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_legal_and_used_once() {
        let mut names = Names::new("");
        let given = ["L1", "L1", "7 <b>", "Deckel ä"].map(|name| names.unique(name));
        assert_eq!(given, ["L1", "L1-2", "_7__b_", "Deckel_ä"]);
    }
}
