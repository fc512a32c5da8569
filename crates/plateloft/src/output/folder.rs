//! A folder of files, written whole or not at all.
#![expect(clippy::disallowed_methods, reason = "the program is where files are touched")]

use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use paper::page::Page;
use paper::svg;
use rayon::prelude::*;

use crate::speech::Refusal;

/// A file every packet has; a folder without it is not replaced.
const HALLMARK: &str = "flats.json";

/// The paths of all files of a packet, one a line, so that what somebody else put there is known from them.
const CONTENTS: &str = "files.txt";

/// The pages of one drawing, each with the path named after its mark; no mark has a blank in it.
pub(crate) fn pages_of<'a>(
    folder: &str,
    mark: &str,
    pages: impl IntoIterator<Item = &'a Page>,
) -> Vec<(String, &'a Page)> {
    let named = |(number, page)| {
        let which = if number == 0 { String::new() } else { format!(" {}", number + 1) };
        (format!("{folder}/{mark}{which}.svg"), page)
    };
    pages.into_iter().enumerate().map(named).collect()
}

/// Files to be written, by their path inside the folder.
#[derive(Debug, Default, Clone, PartialEq, Eq)]
pub(crate) struct Files(BTreeMap<String, Vec<u8>>);

impl Files {
    /// Adds a file.
    pub(crate) fn add(&mut self, path: impl Into<String>, content: impl Into<Vec<u8>>) {
        self.0.insert(path.into(), content.into());
    }

    /// Adds drawings, each under its path.
    pub(crate) fn add_drawings(&mut self, drawings: &[(String, &Page)]) {
        let written: Vec<String> = drawings.par_iter().map(|(_, page)| svg::write(page)).collect();
        for ((path, _), drawing) in drawings.iter().zip(written) {
            self.add(path, drawing);
        }
    }

    /// Writes all files to a fresh folder beside `folder`, then moves it into place in one step. An earlier packet
    /// there is replaced; anything else is left alone and refused, also files that were put into the packet.
    pub(crate) fn write(&self, folder: &Path) -> Result<(), Refusal> {
        if folder.exists() && !is_packet(folder) {
            return Err(Refusal::bad(format!(
                "{}: is there already and is no packet of plateloft\n  name another folder with --out",
                folder.display()
            )));
        }
        let others = put_there(folder);
        if !others.is_empty() {
            return Err(Refusal::bad(format!(
                "{}: an earlier packet is there, and in it what is none of its files: {}\n    \
                 move that out, for the packet is replaced whole, or name another folder with --out",
                folder.display(),
                others.join(", ")
            )));
        }
        let fresh = beside(folder, "new");
        let old = beside(folder, "old");
        self.write_fresh(&fresh).and_then(|()| exchange(&fresh, folder, &old)).map_err(|error| {
            let _ = fs::remove_dir_all(&fresh);
            Refusal::bad(format!(
                "{}: cannot be written: {error}\n  check the path and its permissions",
                folder.display()
            ))
        })
    }

    fn write_fresh(&self, fresh: &Path) -> io::Result<()> {
        if fresh.exists() {
            fs::remove_dir_all(fresh)?;
        }
        for (path, content) in &self.0 {
            let target = fresh.join(path);
            if let Some(parent) = target.parent() {
                fs::create_dir_all(parent)?;
            }
            fs::write(target, content)?;
        }
        if !self.0.contains_key(HALLMARK) {
            return Ok(());
        }
        let paths: Vec<&str> = self.0.keys().map(String::as_str).chain([CONTENTS]).collect();
        fs::write(fresh.join(CONTENTS), paths.join("\n") + "\n")
    }
}

/// The files in a packet's folder that are none of its own, by their paths in it. A packet of before it listed its files is
/// taken as it is.
fn put_there(folder: &Path) -> Vec<String> {
    let Ok(contents) = fs::read_to_string(folder.join(CONTENTS)) else { return Vec::new() };
    let own: Vec<&str> = contents.lines().collect();
    let mut all = Vec::new();
    files_below(folder, "", &mut all);
    all.sort();
    all.into_iter().filter(|path| !own.contains(&path.as_str())).collect()
}

fn files_below(folder: &Path, before: &str, all: &mut Vec<String>) {
    let entries = fs::read_dir(folder).into_iter().flatten().flatten();
    for entry in entries {
        let path = format!("{before}{}", entry.file_name().to_string_lossy());
        if entry.file_type().is_ok_and(|kind| kind.is_dir()) {
            files_below(&entry.path(), &format!("{path}/"), all);
        } else {
            all.push(path);
        }
    }
}

/// Writes a file that is not there yet; one that is there is left alone and refused.
pub(crate) fn write_new(path: &Path, bytes: &[u8]) -> Result<(), Refusal> {
    let file = fs::OpenOptions::new().write(true).create_new(true).open(path);
    file.and_then(|mut file| io::Write::write_all(&mut file, bytes)).map_err(|error| {
        Refusal::bad(format!("{}: cannot be written: {error}\n    name another file", path.display()))
    })
}

fn is_packet(folder: &Path) -> bool {
    let empty = fs::read_dir(folder).is_ok_and(|mut entries| entries.next().is_none());
    empty || folder.join(HALLMARK).is_file()
}

/// `name.what-PID` beside the folder, so that the final move stays on one disk.
fn beside(folder: &Path, what: &str) -> PathBuf {
    let name =
        folder.file_name().map_or_else(|| "packet".to_owned(), |name| name.to_string_lossy().into_owned());
    folder.with_file_name(format!(".{name}.{what}-{}", std::process::id()))
}

/// Puts `fresh` in the place of `folder`; the old one is only removed once the new one stands.
fn exchange(fresh: &Path, folder: &Path, old: &Path) -> io::Result<()> {
    if let Some(parent) = folder.parent().filter(|parent| !parent.as_os_str().is_empty()) {
        fs::create_dir_all(parent)?;
    }
    if !folder.exists() {
        return fs::rename(fresh, folder);
    }
    fs::rename(folder, old)?;
    if let Err(error) = fs::rename(fresh, folder) {
        fs::rename(old, folder)?;
        return Err(error);
    }
    fs::remove_dir_all(old)
}
