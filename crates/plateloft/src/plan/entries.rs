//! Lists of the job that are worked entry by entry: what is wrong with any is told at once.

use crate::speech::Refusal;

/// Why an entry came to nothing. Its place goes before the words.
pub(super) enum Trouble {
    /// What is wrong with the input, one each.
    Input(Vec<Wrong>),
    /// A result that failed its check.
    Proof(String),
}

/// What is wrong in an entry.
pub(super) struct Wrong {
    /// The field inside the entry, like `pieces[0].size`; empty where it is the entry as a whole.
    pub(super) field: String,
    /// Its value, what is wrong with that, and what to do.
    pub(super) words: String,
}

/// Works every entry of the job's list `name`.
///
/// # Errors
/// All trouble with the input at once, or the first failed check.
pub(super) fn each<E, T>(
    file: &str,
    name: &str,
    entries: &[E],
    one: impl Fn(usize, &E) -> Result<T, Trouble>,
) -> Result<Vec<T>, Refusal> {
    let (mut done, mut messages) = (Vec::new(), Vec::new());
    for (number, entry) in entries.iter().enumerate() {
        let placed = |wrong: Wrong| {
            let dot = if wrong.field.is_empty() { "" } else { "." };
            format!("{file}: {name}[{number}]{dot}{}: {}", wrong.field, wrong.words)
        };
        match one(number, entry) {
            Ok(worked) => done.push(worked),
            Err(Trouble::Input(words)) => messages.extend(words.into_iter().map(placed)),
            Err(Trouble::Proof(words)) => {
                return Err(Refusal::ProofFailed(placed(Wrong { field: String::new(), words })));
            }
        }
    }
    if messages.is_empty() { Ok(done) } else { Err(Refusal::BadInput(messages)) }
}
