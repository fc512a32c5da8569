//! `output-samples` is what the program makes today of the demo job and of every small job in `fixtures/shapes`, one a
//! shape. `UPDATE=1` accepts a change.
#![expect(
    clippy::disallowed_methods,
    reason = "a test of committed files reads and, when asked, writes them"
)]

use std::collections::BTreeMap;
use std::fs;

use tempfile::tempdir;

use crate::program::{files, plateloft, top};

#[test]
fn the_committed_packet_is_current() {
    let folder = tempdir().unwrap();
    let out = folder.path().join("oyster-skiff");
    let run = plateloft(&["packet", "fixtures/jobs/oyster-skiff.json", "--out", out.to_str().unwrap()]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    is_current("output-samples/oyster-skiff", &files(&out));
}

/// A new shape needs a small job in `fixtures/shapes` named after it, and its pictures are made and kept.
#[test]
fn the_committed_pictures_of_shapes_are_current() {
    let mut pictures = BTreeMap::new();
    for job in fs::read_dir(top().join("fixtures/shapes")).unwrap() {
        let path = job.unwrap().path();
        let shape = path.file_stem().unwrap().to_str().unwrap().to_owned();
        let folder = tempdir().unwrap();
        let out = folder.path().join("pictures");
        let run = plateloft(&["pictures", path.to_str().unwrap(), "--out", out.to_str().unwrap()]);
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
