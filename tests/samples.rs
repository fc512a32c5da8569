//! `output-samples/oyster-skiff` is what the program makes of the demo job today. `UPDATE=1` accepts a change.
#![expect(
    clippy::disallowed_methods,
    reason = "a test of committed files reads and, when asked, writes them"
)]

use std::fs;

use tempfile::tempdir;

use crate::program::{files, plateloft, top};

#[test]
fn the_committed_packet_is_current() {
    let folder = tempdir().unwrap();
    let out = folder.path().join("oyster-skiff");
    let run = plateloft(&["packet", "fixtures/jobs/oyster-skiff.json", "--out", out.to_str().unwrap()]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let committed = top().join("output-samples/oyster-skiff");
    if std::env::var_os("UPDATE").is_some() {
        if committed.exists() {
            fs::remove_dir_all(&committed).unwrap();
        }
        for (name, content) in files(&out) {
            let path = committed.join(name);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, content).unwrap();
        }
    }
    let (fresh, kept) = (files(&out), files(&committed));
    let names =
        |set: &std::collections::BTreeMap<String, Vec<u8>>| set.keys().cloned().collect::<Vec<String>>();
    assert_eq!(names(&fresh), names(&kept));
    for (name, content) in fresh {
        assert!(kept[&name] == content, "{name} changed: look at it, then run the tests with UPDATE=1");
    }
}
