//! Order in the workspace: arrows between crates, sizes of files, documents that tell the truth.
#![expect(clippy::disallowed_methods, reason = "a test of files reads files")]

mod documents;
mod manifests;
mod sources;

use std::fs;
use std::path::{Path, PathBuf};

use crate::program::top;

/// A file of the workspace as text.
fn text(path: impl AsRef<Path>) -> String {
    let path = top().join(path);
    fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// Names of the crates, sorted.
fn crates() -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(top().join("crates"))
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

/// Every Rust file under `folder`, as paths from the top.
fn rust_files(folder: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut waiting = vec![top().join(folder)];
    while let Some(folder) = waiting.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                waiting.push(path);
            } else if path.extension().is_some_and(|extension| extension == "rs") {
                found.push(path.strip_prefix(top()).unwrap().to_path_buf());
            }
        }
    }
    found.sort();
    found
}
