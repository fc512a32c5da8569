//! The log as a file: found beside a job, read whole, and added to by whole lines only.
//!
//! Adding takes a lock on the file for as long as it reads and writes, so that two people adding at once get two whole
//! lines. Lines that are there are never written again.
#![expect(clippy::disallowed_methods, reason = "the program is where files are touched")]

use std::fs::{File, OpenOptions};
use std::io::{ErrorKind, Read, Write};
use std::path::{Path, PathBuf};

use job::{FoundLog, LoggedStrip, read_strip_log};

use crate::speech::Refusal;

/// What the log is called where nobody names another.
pub(super) const NAME: &str = "bend-strips.jsonl";

/// Every strip of a log.
pub(super) fn strips(path: &Path) -> Result<Vec<LoggedStrip>, Refusal> {
    let bytes = std::fs::read(path).map_err(|error| Refusal::cannot(path, "read", &error))?;
    read(path, &bytes)
}

fn read(path: &Path, bytes: &[u8]) -> Result<Vec<LoggedStrip>, Refusal> {
    read_strip_log(&path.display().to_string(), bytes).map_err(|messages| Refusal::of(&messages))
}

/// Adds `line` to the log and gives its number. A log that is not there is begun.
pub(super) fn append(path: &Path, line: &str) -> Result<usize, Refusal> {
    let begun = !path.exists();
    let opened = OpenOptions::new().read(true).append(true).create(true).open(path);
    let mut file = opened.map_err(|error| Refusal::cannot(path, "opened", &error))?;
    let outcome = add_locked(path, &mut file, line);
    if outcome.is_err() && begun && file.metadata().is_ok_and(|found| found.len() == 0) {
        // A log without a line would only be in the way.
        let _ = std::fs::remove_file(path);
    }
    outcome
}

fn add_locked(path: &Path, file: &mut File, line: &str) -> Result<usize, Refusal> {
    file.lock().map_err(|error| Refusal::cannot(path, "locked", &error))?;
    let mut bytes = Vec::new();
    file.read_to_end(&mut bytes).map_err(|error| Refusal::cannot(path, "read", &error))?;
    let strips = read(path, &bytes)?;
    if let Some(same) = strips.iter().find(|strip| strip.line == line) {
        return Err(Refusal::bad(format!(
            "{}: line {}: the very same strip is there already\n    if a second one measured the same, say so in --note",
            path.display(),
            same.number
        )));
    }
    // A last line that somebody left without its end gets it first, in the same write.
    let mended = bytes.last().is_some_and(|&byte| byte != b'\n');
    let added = format!("{}{line}\n", if mended { "\n" } else { "" });
    let lines = bytes.iter().filter(|&&byte| byte == b'\n').count() + usize::from(mended);
    let written = file.write_all(added.as_bytes()).and_then(|()| file.sync_all());
    if let Err(error) = written {
        // Half a line is worse than none: the file gets its old length back.
        let _ = file.set_len(bytes.len() as u64);
        return Err(Refusal::cannot(path, "written", &error));
    }
    Ok(lines + 1)
}

/// The log that `chosen` or else the job names, or the one beside the job if there is one.
pub(crate) fn find_log(
    job: &Path,
    chosen: Option<&Path>,
    named: Option<&str>,
) -> Result<Option<FoundLog>, String> {
    let beside = |name: &str| job.parent().map_or_else(|| PathBuf::from(name), |folder| folder.join(name));
    let (path, name, must) = match (chosen, named) {
        (Some(chosen), _) => (chosen.to_path_buf(), chosen.display().to_string(), true),
        (None, Some(named)) => (beside(named), named.to_owned(), true),
        (None, None) => (beside(NAME), NAME.to_owned(), false),
    };
    match std::fs::read(&path) {
        Ok(bytes) => Ok(Some(FoundLog { name, bytes })),
        Err(error) if error.kind() == ErrorKind::NotFound && !must => Ok(None),
        Err(error) => Err(format!("the log of strips {name} cannot be read: {error}")),
    }
}
