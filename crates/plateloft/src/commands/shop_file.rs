//! Files that the shop owns and the program changes: the rack, and the sheets received for a job.
//!
//! Whoever changes one holds the lock file beside it from reading to writing, so that two people changing it at once
//! both get their change. The new file is written whole to a place of its own, which then takes the old one's in one
//! step; the old one stays beside it as a backup. A file that cannot be read is never written over.
#![expect(clippy::disallowed_methods, reason = "the program is where files are touched")]

use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{ErrorKind, Write};
use std::path::{Path, PathBuf};
use std::time::Duration;

use job::Message;

use crate::speech::Refusal;

/// How often a held lock is tried, and the wait between: two seconds in all.
const TRIES: u32 = 40;
const BETWEEN_TRIES: Duration = Duration::from_millis(50);

/// A kind of file: what it holds, and how that is read and written.
pub(super) struct Kind<D> {
    /// What it is called in messages: "the rack".
    pub(super) name: &'static str,
    /// What to do when it is not there.
    pub(super) missing: &'static str,
    /// Reads it; the first is its name for messages.
    pub(super) read: fn(&str, &[u8]) -> Result<D, Vec<Message>>,
    /// Writes it.
    pub(super) text: fn(&D) -> String,
}

impl<D: Default> Kind<D> {
    /// What the file holds.
    pub(super) fn read(&self, path: &Path) -> Result<D, Refusal> {
        let bytes = fs::read(path).map_err(|error| self.unread(path, &error))?;
        self.judged(path, &bytes).map_err(|refusal| self.with_backup(path, refusal))
    }

    /// Says beside what is wrong with a file whether there is a backup of it.
    fn with_backup(&self, path: &Path, refusal: Refusal) -> Refusal {
        let Refusal::BadInput(mut messages) = refusal else { return refusal };
        let backup = linked(path).map_or_else(|_| beside(path, "bak"), |path| beside(&path, "bak"));
        let told = if backup.is_file() {
            format!("{} beside it is {} before the last change", backup.display(), self.name)
        } else {
            format!("there is no backup: no {} stands beside it", backup.display())
        };
        messages.last_mut().into_iter().for_each(|last| last.push_str(&format!("\n    {told}")));
        Refusal::BadInput(messages)
    }

    fn unread(&self, path: &Path, error: &std::io::Error) -> Refusal {
        let remedy = if error.kind() == ErrorKind::NotFound {
            self.missing
        } else {
            "check the path and its permissions"
        };
        Refusal::bad(format!("{}: cannot be read: {error}\n    {remedy}", path.display()))
    }

    fn judged(&self, path: &Path, bytes: &[u8]) -> Result<D, Refusal> {
        (self.read)(&path.display().to_string(), bytes).map_err(|messages| Refusal::of(&messages))
    }

    /// Changes what the file holds while nobody else can. A file that is not there is begun where `begin` says so. What
    /// `change` refuses leaves everything as it was.
    pub(super) fn change<T>(
        &self,
        path: &Path,
        begin: bool,
        change: impl FnOnce(&mut D) -> Result<T, Refusal>,
    ) -> Result<T, Refusal> {
        let path = &linked(path)?;
        // No lock is left beside a file that is not there and is not to be.
        if !begin {
            fs::metadata(path).map_err(|error| self.unread(path, &error))?;
        }
        let _held = self.lock(path)?;
        self.refuse_read_only(path)?;
        let old = match fs::read(path) {
            Ok(bytes) => Some(bytes),
            Err(error) if error.kind() == ErrorKind::NotFound && begin => None,
            Err(error) => return Err(Refusal::cannot(path, "read", &error)),
        };
        let mut held = old
            .as_ref()
            .map_or_else(|| Ok(D::default()), |bytes| self.judged(path, bytes))
            .map_err(|refusal| self.with_backup(path, refusal))?;
        let answer = change(&mut held)?;
        let text = (self.text)(&held);
        // What could not be read again must not take the old file's place.
        self.judged(path, text.as_bytes()).map_err(|refusal| Refusal::ProofFailed(format!("{refusal}")))?;
        if let Some(bytes) = &old {
            replace(&beside(path, "bak"), bytes)?;
        }
        replace(path, text.as_bytes())?;
        Ok(answer)
    }

    /// Another file could take the place of one that nobody may write: whoever made it so meant it to stay.
    fn refuse_read_only(&self, path: &Path) -> Result<(), Refusal> {
        if fs::metadata(path).is_ok_and(|about| about.is_file() && about.permissions().readonly()) {
            return Err(Refusal::bad(format!(
                "{}: is read-only: {} is not to be changed\n    make it writable first, or name another file",
                path.display(),
                self.name
            )));
        }
        Ok(())
    }

    /// Holds the lock file until the value is dropped; the system lets go of it even when the program is killed.
    fn lock(&self, path: &Path) -> Result<File, Refusal> {
        let place = beside(path, "lock");
        let opened = OpenOptions::new().read(true).write(true).create(true).truncate(false).open(&place);
        let file = opened.map_err(|error| Refusal::cannot(&place, "opened", &error))?;
        for _ in 0..TRIES {
            match file.try_lock() {
                Ok(()) => return Ok(file),
                Err(TryLockError::WouldBlock) => std::thread::sleep(BETWEEN_TRIES),
                Err(TryLockError::Error(error)) => return Err(Refusal::cannot(&place, "locked", &error)),
            }
        }
        Err(Refusal::bad(format!(
            "{}: is locked: somebody else is changing {}\n    try again when they are done",
            path.display(),
            self.name
        )))
    }
}

/// Where a link leads: lock, backup and the new file stand beside the file itself, so that all who reach it, by a link or
/// not, change the same one.
fn linked(path: &Path) -> Result<PathBuf, Refusal> {
    match fs::symlink_metadata(path) {
        Ok(about) if about.is_symlink() => {
            fs::canonicalize(path).map_err(|error| Refusal::cannot(path, "followed", &error))
        }
        _ => Ok(path.to_owned()),
    }
}

/// Puts a whole file in the place of another in one step.
fn replace(path: &Path, bytes: &[u8]) -> Result<(), Refusal> {
    let fresh = beside(path, "new");
    let written = File::create(&fresh).and_then(|mut file| {
        file.write_all(bytes)?;
        file.sync_all()
    });
    let moved = written.and_then(|()| fs::rename(&fresh, path));
    moved.map_err(|error| {
        let _ = fs::remove_file(&fresh);
        Refusal::cannot(path, "written", &error)
    })
}

fn beside(path: &Path, what: &str) -> PathBuf {
    let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    path.with_file_name(format!("{name}.{what}"))
}
