//! `output-samples` is what the program makes today: the whole packet of the demo job, some pages of every other job, and
//! pictures of every small job in `fixtures/shapes`, one a shape. `UPDATE=1` accepts a change.
#![expect(
    clippy::disallowed_methods,
    reason = "a test of committed files reads and, when asked, writes them"
)]

use std::collections::BTreeMap;
use std::fs;

use tempfile::tempdir;

use crate::program::{files, packet_of, plateloft, top};

#[test]
fn the_committed_packet_is_current() {
    let folder = tempdir().unwrap();
    let out = folder.path().join("oyster-skiff");
    let run = plateloft(&["packet", "fixtures/jobs/oyster-skiff.json", "--out", out.to_str().unwrap()]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    is_current("output-samples/oyster-skiff", &files(&out));
}

/// Of every other job what is cut, what becomes of the metal, the map of its first sheet, and the layout sheet with the most on
/// it: whole packets would be ten times as large.
#[test]
fn the_committed_pages_of_every_job_are_current() {
    let mut pages = BTreeMap::new();
    for (name, path) in jobs_in("fixtures/jobs").iter().filter(|(name, _)| name != "oyster-skiff") {
        let packet = packet_of(path, &[]);
        let drawings = |folder: &str| -> Vec<&String> {
            let own = packet.keys().filter(|name| name.starts_with(folder) && name.ends_with(".svg"));
            own.collect()
        };
        let layouts = drawings("parts/");
        let fullest = layouts.into_iter().max_by_key(|name| packet[*name].len());
        let map = drawings("sheets/").into_iter().next();
        let lists = ["cut-list.txt", "scrap-report.txt"].map(str::to_owned);
        for file in lists.iter().chain(map).chain(fullest) {
            pages.extend(packet.get(file).map(|content| (format!("{name}/{file}"), content.clone())));
        }
    }
    assert!(24 < pages.len(), "{}", pages.len());
    let size: usize = pages.values().map(Vec::len).sum();
    assert!(size < 3_000_000, "{size} bytes of samples");
    is_current("output-samples/jobs", &pages);
}

/// A new shape needs a small job in `fixtures/shapes` named after it, and its pictures are made and kept.
#[test]
fn the_committed_pictures_of_shapes_are_current() {
    let mut pictures = BTreeMap::new();
    for (shape, path) in jobs_in("fixtures/shapes") {
        let folder = tempdir().unwrap();
        let out = folder.path().join("pictures");
        let run = plateloft(&["pictures", &path, "--out", out.to_str().unwrap()]);
        assert_eq!(run.code, 0, "{shape}: {}", run.stderr);
        let drawn = files(&out);
        let alone = drawn.len() == 1;
        pictures.extend(drawn.into_iter().map(|(name, content)| {
            (if alone { format!("{shape}.svg") } else { format!("{shape}-{name}") }, content)
        }));
    }
    assert!(6 <= pictures.len());
    is_current("output-samples/shapes", &pictures);
}

/// Name and path of every job in a folder.
fn jobs_in(folder: &str) -> Vec<(String, String)> {
    let named = |entry: std::io::Result<fs::DirEntry>| {
        let path = entry.unwrap().path();
        let text = |words: Option<&std::ffi::OsStr>| words.unwrap().to_str().unwrap().to_owned();
        (text(path.file_stem()), text(Some(path.as_os_str())))
    };
    fs::read_dir(top().join(folder)).unwrap().map(named).collect()
}

/// Compares a committed folder with what was made just now, or puts that in its place when `UPDATE` is set.
fn is_current(folder: &str, fresh: &BTreeMap<String, Vec<u8>>) {
    let committed = top().join(folder);
    if std::env::var_os("UPDATE").is_some() {
        if committed.exists() {
            fs::remove_dir_all(&committed).unwrap();
        }
        for (name, content) in fresh {
            let path = committed.join(name);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, content).unwrap();
        }
    }
    let kept = files(&committed);
    let names = |set: &BTreeMap<String, Vec<u8>>| set.keys().cloned().collect::<Vec<String>>();
    assert_eq!(names(fresh), names(&kept), "{folder}: run the tests with UPDATE=1");
    for (name, content) in fresh {
        assert!(
            kept[name] == *content,
            "{folder}/{name} changed: look at it, then run the tests with UPDATE=1"
        );
    }
}
