//! The rack as a file that the shop owns.
//!
//! Whoever changes it holds the lock file beside it from reading to writing, so that two people changing it at once
//! both get their change. The new rack is written whole to a file of its own, which then takes the old one's place in
//! one step; the old one stays beside it as a backup. A rack that cannot be read is never written over.
#![expect(clippy::disallowed_methods, reason = "the program is where files are touched")]

use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{ErrorKind, Write};
use std::path::{Path, PathBuf};
use std::time::Duration;

use job::{Message, Rack, rack_text, read_rack};

use crate::speech::Refusal;

/// What the rack is called where nobody names another.
pub(super) const NAME: &str = "rack.json";

/// How often a held lock is tried, and the wait between: two seconds in all.
const TRIES: u32 = 40;
const BETWEEN_TRIES: Duration = Duration::from_millis(50);

/// The rack as it stands.
pub(crate) fn read(path: &Path) -> Result<Rack, Refusal> {
    let bytes = fs::read(path).map_err(|error| {
        let remedy = if error.kind() == ErrorKind::NotFound {
            "name the rack with --rack, or begin one with: plateloft rack add"
        } else {
            "check the path and its permissions"
        };
        Refusal::bad(format!("{}: cannot be read: {error}\n    {remedy}", path.display()))
    })?;
    judged(path, &bytes)
}

fn judged(path: &Path, bytes: &[u8]) -> Result<Rack, Refusal> {
    let told = |messages: Vec<Message>| Refusal::BadInput(messages.iter().map(ToString::to_string).collect());
    read_rack(&path.display().to_string(), bytes).map_err(told)
}

/// Changes the rack while nobody else can. A rack that is not there is begun where `begin` says so. What `change`
/// refuses leaves everything as it was.
pub(super) fn change<T>(
    path: &Path,
    begin: bool,
    change: impl FnOnce(&mut Rack) -> Result<T, Refusal>,
) -> Result<T, Refusal> {
    let _held = lock(path)?;
    let old = match fs::read(path) {
        Ok(bytes) => Some(bytes),
        Err(error) if error.kind() == ErrorKind::NotFound && begin => None,
        Err(error) => return Err(cannot(path, "read", &error)),
    };
    let mut rack = old.as_ref().map_or_else(|| Ok(Rack::default()), |bytes| judged(path, bytes))?;
    let answer = change(&mut rack)?;
    let text = rack_text(&rack);
    // What could not be read again must not take the old rack's place.
    judged(path, text.as_bytes()).map_err(|refusal| Refusal::ProofFailed(format!("{refusal}")))?;
    if let Some(bytes) = &old {
        replace(&beside(path, "bak"), bytes)?;
    }
    replace(path, text.as_bytes())?;
    Ok(answer)
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
        cannot(path, "written", &error)
    })
}

fn beside(path: &Path, what: &str) -> PathBuf {
    let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    path.with_file_name(format!("{name}.{what}"))
}

/// Holds the lock file until the value is dropped; the system lets go of it even when the program is killed.
fn lock(path: &Path) -> Result<File, Refusal> {
    let place = beside(path, "lock");
    let opened = OpenOptions::new().read(true).write(true).create(true).truncate(false).open(&place);
    let file = opened.map_err(|error| cannot(&place, "opened", &error))?;
    for _ in 0..TRIES {
        match file.try_lock() {
            Ok(()) => return Ok(file),
            Err(TryLockError::WouldBlock) => std::thread::sleep(BETWEEN_TRIES),
            Err(TryLockError::Error(error)) => return Err(cannot(&place, "locked", &error)),
        }
    }
    Err(Refusal::bad(format!(
        "{}: is locked: somebody else is changing the rack\n    try again when they are done",
        path.display()
    )))
}

fn cannot(path: &Path, what: &str, error: &std::io::Error) -> Refusal {
    Refusal::bad(format!(
        "{}: cannot be {what}: {error}\n    check the path and its permissions",
        path.display()
    ))
}
