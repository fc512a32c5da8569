//! Wrong jobs, each beside its exact message: `fixtures/refusals/NAME.json` and `NAME.txt`.
#![expect(clippy::disallowed_methods, reason = "a test of fixtures reads and, when asked, writes them")]

use std::fs;

use tempfile::tempdir;

use crate::program::{plateloft_in, top};

/// Sound jobs whose parts the named machine cannot make: the answer is "no", exit code 1, and not bad input.
const ANSWERED_NO: [&str; 7] = [
    "bend-longer-than-the-brake",
    "bend-too-strong-for-the-brake",
    "box-on-a-bench-folder",
    "flange-below-the-brake",
    "offset-beside-the-die",
    "punch-lower-than-the-box",
    "sheet-beyond-the-throat",
];

#[test]
fn every_wrong_job_is_refused_in_its_words() {
    let folder = top().join("fixtures/refusals");
    let mut names: Vec<String> = fs::read_dir(&folder)
        .unwrap()
        .filter_map(|entry| {
            entry.unwrap().file_name().into_string().unwrap().strip_suffix(".json").map(str::to_owned)
        })
        .collect();
    names.sort();
    assert!(names.len() >= 20, "{} wrong jobs are too few", names.len());
    for name in names {
        let out = tempdir().unwrap();
        let packet = out.path().join("packet");
        let job = format!("{name}.json");
        let run = plateloft_in(&folder, &["packet", &job, "--out", packet.to_str().unwrap()]);
        let code = if ANSWERED_NO.contains(&name.as_str()) { 1 } else { 2 };
        assert_eq!(run.code, code, "{name}: {}", run.stderr);
        assert!(run.stdout.is_empty(), "{name}: data on stdout");
        assert!(fs::read_dir(out.path()).unwrap().next().is_none(), "{name}: something was written");
        let expected = folder.join(format!("{name}.txt"));
        if std::env::var_os("UPDATE").is_some() {
            fs::write(&expected, &run.stderr).unwrap();
        }
        assert_eq!(run.stderr, fs::read_to_string(&expected).unwrap_or_default(), "{name}");
    }
}

#[test]
fn garbage_by_the_ten_megabytes_is_refused() {
    let folder = tempdir().unwrap();
    fs::write(folder.path().join("job.json"), vec![b'['; 10 * 1024 * 1024]).unwrap();
    let run = plateloft_in(folder.path(), &["check", "job.json"]);
    assert_eq!(run.code, 2, "{}", run.stderr);
    assert!(run.stderr.starts_with("job.json"), "{}", run.stderr);
}
