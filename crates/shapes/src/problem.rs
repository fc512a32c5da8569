//! What is wrong with a shape's sizes.

use std::fmt;

use units::{Length, LengthStyle};

/// One problem: which field, its value, what is wrong, what to do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// The field of the shape: "inset.AB".
    pub field: String,
    /// The value as it reads on paper.
    pub value: String,
    /// What is wrong, one clause.
    pub wrong: String,
    /// What to do, one clause.
    pub remedy: String,
}

impl Problem {
    /// A problem with `field`.
    #[must_use]
    pub fn new(
        field: impl Into<String>,
        value: impl Into<String>,
        wrong: impl Into<String>,
        remedy: impl Into<String>,
    ) -> Self {
        Self { field: field.into(), value: value.into(), wrong: wrong.into(), remedy: remedy.into() }
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}: {}: {}", self.field, self.value, self.wrong, self.remedy)
    }
}

/// Adds a problem unless `length` is above zero.
pub(crate) fn above_zero(style: LengthStyle, field: &str, length: Length, problems: &mut Vec<Problem>) {
    if length <= Length::ZERO {
        problems.push(Problem::new(
            field,
            length.print(style),
            "must be above zero",
            "give the size as taped",
        ));
    }
}
