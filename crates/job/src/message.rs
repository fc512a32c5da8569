//! What is wrong with a job file, said once: place first, then what is wrong, then what to do on its own line.

use std::fmt;

use shapes::Problem;

/// The longest piece of a value that a message repeats, characters.
const LONGEST_SHOWN: usize = 60;

/// One message about a job file.
///
/// Prints as `file: mark: field: value: what is wrong`, and what to do on a second line set in by four blanks. Parts of
/// the place that do not apply are left out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Message {
    /// The job file, as the user named it.
    pub file: String,
    /// The mark of the part, inside one.
    pub mark: Option<String>,
    /// Path of the field: "inset.AB" inside a part, "metals.skin.thickness" elsewhere.
    pub field: String,
    /// The value as written; empty when there is none.
    pub value: String,
    /// What is wrong, one clause.
    pub wrong: String,
    /// What to do, one clause.
    pub remedy: String,
}

impl Message {
    /// A problem with a part's sizes as a message about the file that gave them.
    #[must_use]
    pub fn of_problem(file: &str, mark: &str, problem: &Problem) -> Self {
        Self {
            file: file.to_owned(),
            mark: Some(mark.to_owned()),
            field: problem.field.clone(),
            value: shown(&problem.value),
            wrong: problem.wrong.clone(),
            remedy: problem.remedy.clone(),
        }
    }
}

impl fmt::Display for Message {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.file)?;
        let mark = self.mark.iter().map(String::as_str);
        for part in mark.chain([self.field.as_str(), self.value.as_str()]).filter(|part| !part.is_empty()) {
            write!(f, ": {part}")?;
        }
        write!(f, ": {}\n    {}", self.wrong, self.remedy)
    }
}

/// A piece of the user's text made safe and short enough to repeat.
pub(crate) fn shown(text: &str) -> String {
    let safe = text.chars().map(|c| if c.is_control() { '\u{fffd}' } else { c });
    if text.chars().count() <= LONGEST_SHOWN {
        return safe.collect();
    }
    let mut shown: String = safe.take(LONGEST_SHOWN).collect();
    shown.push('…');
    shown
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_place_comes_first_and_the_remedy_on_its_own_line() {
        let problem = Problem::new("skirt", "-1", "must be above zero", "give the size as taped");
        let message = Message::of_problem("skiff.json", "L1", &problem);
        assert_eq!(
            message.to_string(),
            "skiff.json: L1: skirt: -1: must be above zero\n    give the size as taped"
        );
    }

    #[test]
    fn long_and_unprintable_values_are_cut() {
        assert_eq!(shown("a\u{1b}b"), "a\u{fffd}b");
        assert_eq!(shown(&"x".repeat(900)).chars().count(), LONGEST_SHOWN + 1);
    }
}
