//! What a rule found.

use std::fmt;

/// Whether a part may still be made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Severity {
    /// The part cannot be made as asked; nothing is written.
    Refuse,
    /// The sizes are sound, but the shop's machine cannot make the part: the answer is no, and nothing is written.
    No,
    /// The part can be made; the sentence is printed with it.
    Caution,
}

/// One finding.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    /// Name of the rule.
    pub rule: &'static str,
    /// Whether it stops the part.
    pub severity: Severity,
    /// Where: a field of the shape where one governs, else the face or bend.
    pub place: String,
    /// What was measured, as it reads on paper.
    pub measured: String,
    /// What is wrong, one clause.
    pub wrong: String,
    /// What to do, one clause.
    pub remedy: String,
}

impl fmt::Display for Finding {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}: {}; {}", self.place, self.measured, self.wrong, self.remedy)
    }
}
