//! What the tests of this crate share: finding the fixtures.
#![expect(clippy::unwrap_used, reason = "a fixture that cannot be read fails its test")]
#![allow(dead_code, reason = "each test binary uses what it needs")]

use std::path::PathBuf;

use fold::{FlatPattern, refold};
use job::{Job, Message, Part, read};

/// A folder of the fixtures.
pub(crate) fn folder(name: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../fixtures").join(name)
}

/// Names of the JSON files in a folder of the fixtures, in order.
pub(crate) fn names(folder_name: &str) -> Vec<String> {
    let entries = std::fs::read_dir(folder(folder_name)).unwrap();
    let mut names: Vec<String> =
        entries.map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned()).collect();
    names.retain(|name| name.ends_with(".json"));
    names.sort();
    names
}

/// Names of the demo jobs.
pub(crate) fn demo_names() -> Vec<String> {
    names("jobs")
}

/// Names of the small jobs that show one shape each.
pub(crate) fn shape_names() -> Vec<String> {
    names("shapes")
}

/// The bytes of a fixture.
#[expect(clippy::disallowed_methods, reason = "tests read their fixtures")]
pub(crate) fn bytes(folder_name: &str, name: &str) -> Vec<u8> {
    std::fs::read(folder(folder_name).join(name)).unwrap()
}

/// A demo job.
pub(crate) fn demo(name: &str) -> Job {
    read(name, &bytes("jobs", name)).unwrap_or_else(|messages| panic!("{}", words(&messages)))
}

/// Messages as they print.
pub(crate) fn words(messages: &[Message]) -> String {
    messages.iter().map(|message| format!("{message}\n")).collect()
}

/// The part of a job with this mark.
pub(crate) fn part<'a>(job: &'a Job, mark: &str) -> &'a Part {
    job.parts.iter().find(|part| part.mark == mark).unwrap()
}

/// A part's flat, proven by refolding it.
pub(crate) fn flat(part: &Part) -> FlatPattern {
    let shaped = part.shape().unwrap();
    let flat = shaped.unfold().unwrap();
    refold::prove(&shaped.part, &flat).unwrap();
    flat
}
