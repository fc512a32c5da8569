//! How the program speaks: what ends it, and with which exit code.
#![expect(clippy::print_stderr, reason = "this is where the program talks")]

use std::fmt;
use std::path::Path;
use std::process::ExitCode;

use job::Message;

/// Why the program stops without the answer that was asked for.
#[derive(Debug)]
pub(crate) enum Refusal {
    /// Bad input, all problems at once. Exit code 2.
    BadInput(Vec<String>),
    /// The answer is "no", and has been given. Exit code 1.
    No(String),
    /// The job is sound, but parts cannot be made on the shop's machine. Exit code 1.
    CannotBeMade {
        /// Why, one message a fault.
        reasons: Vec<String>,
        /// How many parts it is.
        parts: usize,
    },
    /// A proof of the program's own work failed; nothing was written. Exit code 3.
    ProofFailed(String),
}

impl Refusal {
    /// Bad input with a single message.
    pub(crate) fn bad(message: impl Into<String>) -> Self {
        Self::BadInput(vec![message.into()])
    }

    /// Bad input with these messages.
    pub(crate) fn of(messages: &[Message]) -> Self {
        Self::BadInput(messages.iter().map(ToString::to_string).collect())
    }

    /// A file that cannot be read, written or moved.
    pub(crate) fn cannot(path: &Path, what: &str, error: &std::io::Error) -> Self {
        Self::bad(format!(
            "{}: cannot be {what}: {error}\n    check the path and its permissions",
            path.display()
        ))
    }

    /// Prints the messages and gives the exit code.
    pub(crate) fn report(&self) -> ExitCode {
        eprintln!("{self}");
        match self {
            Self::No(_) | Self::CannotBeMade { .. } => ExitCode::from(1),
            Self::BadInput(_) => ExitCode::from(2),
            Self::ProofFailed(_) => ExitCode::from(3),
        }
    }
}

/// "1 sheet", "3 sheets": a word that takes an s.
pub(crate) fn counted(count: usize, one: &str) -> String {
    if count == 1 { format!("1 {one}") } else { format!("{count} {one}s") }
}

/// ", 1 hole, 2 torn zones" of what there is; nothing where there is nothing.
pub(crate) fn listed_counts(counts: &[(usize, &str)]) -> String {
    let there = counts.iter().filter(|(count, _)| 0 < *count);
    there.map(|&(count, one)| format!(", {}", counted(count, one))).collect()
}

/// "A", "A and B", "A, B and C".
pub(crate) fn listed(words: &[String]) -> String {
    match words {
        [first @ .., before, last] => {
            let first: String = first.iter().map(|word| format!("{word}, ")).collect();
            format!("{first}{before} and {last}")
        }
        few => few.concat(),
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::BadInput(messages) => {
                let plural = if messages.len() == 1 { "problem" } else { "problems" };
                write!(f, "{}\n{} {plural}; nothing was written", messages.join("\n"), messages.len())
            }
            Self::No(message) => f.write_str(message),
            Self::CannotBeMade { reasons, parts } => {
                let noun = if *parts == 1 { "part" } else { "parts" };
                write!(f, "{}\nno: {parts} {noun} cannot be made; nothing was written", reasons.join("\n"))
            }
            Self::ProofFailed(message) => write!(
                f,
                "{message}\nThe program's own proof failed: this is a fault of plateloft, not of your job. \
                 Nothing was written; please report it."
            ),
        }
    }
}

/// Prints data. A reader that stops listening, like `head`, is no error.
pub(crate) fn say(data: &str) {
    let mut stdout = std::io::stdout().lock();
    let _ = std::io::Write::write_all(&mut stdout, data.as_bytes());
    let _ = std::io::Write::write_all(&mut stdout, b"\n");
}

/// Prints data as JSON.
pub(crate) fn say_json(data: &serde_json::Value) {
    say(&format!("{data:#}"));
}

/// A word to the person waiting.
pub(crate) fn tell(words: &str) {
    eprintln!("{words}");
}

/// Tells news only once the person has waited a second.
pub(crate) struct Patience {
    begun: std::time::Instant,
    last: std::sync::Mutex<String>,
}

impl Patience {
    /// Starts waiting.
    #[expect(clippy::disallowed_methods, reason = "only talk depends on this clock, never an answer")]
    pub(crate) fn new() -> Self {
        Self { begun: std::time::Instant::now(), last: std::sync::Mutex::default() }
    }

    /// Tells `news` unless it is early, or was told last.
    pub(crate) fn tell(&self, news: &str) {
        if self.begun.elapsed() < std::time::Duration::from_secs(1) {
            return;
        }
        let Ok(mut last) = self.last.lock() else { return };
        if *last != news {
            news.clone_into(&mut last);
            tell(news);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_is_told_apart_from_several() {
        assert_eq!([0, 1, 2].map(|count| counted(count, "sheet")), ["0 sheets", "1 sheet", "2 sheets"]);
    }

    #[test]
    fn words_are_listed_with_one_and() {
        let of = |words: &[&str]| listed(&words.iter().map(|word| (*word).to_owned()).collect::<Vec<_>>());
        assert_eq!(of(&[]), "");
        assert_eq!(of(&["A"]), "A");
        assert_eq!(of(&["A", "B"]), "A and B");
        assert_eq!(of(&["A", "B", "C"]), "A, B and C");
    }
}
