//! Lists of the job that are worked entry by entry: what is wrong with any is told at once.

use crate::speech::Refusal;

/// Why an entry came to nothing. Its place goes before the words.
pub(super) enum Trouble {
    /// What is wrong with the input, and what to do, one each.
    Input(Vec<String>),
    /// A result that failed its check.
    Proof(String),
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
        let placed = |words: String| format!("{file}: {name}[{number}]: {words}");
        match one(number, entry) {
            Ok(worked) => done.push(worked),
            Err(Trouble::Input(words)) => messages.extend(words.into_iter().map(placed)),
            Err(Trouble::Proof(words)) => return Err(Refusal::ProofFailed(placed(words))),
        }
    }
    if messages.is_empty() { Ok(done) } else { Err(Refusal::BadInput(messages)) }
}
