//! Runs the program as a user does.
#![expect(clippy::disallowed_methods, reason = "a test of a program that writes files reads them")]

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::sync::OnceLock;

use serde_json::Value;
use tempfile::tempdir;

/// The workspace's top folder.
pub(crate) fn top() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).ancestors().nth(2).unwrap().to_path_buf()
}

/// What a run of the program left behind.
pub(crate) struct Run {
    /// Exit code.
    pub(crate) code: i32,
    /// Data.
    pub(crate) stdout: String,
    /// Talk.
    pub(crate) stderr: String,
}

/// Runs `plateloft` in the workspace's top folder.
pub(crate) fn plateloft(arguments: &[&str]) -> Run {
    plateloft_in(&top(), arguments)
}

/// Runs `plateloft` in a folder.
pub(crate) fn plateloft_in(folder: &Path, arguments: &[&str]) -> Run {
    let Output { status, stdout, stderr } =
        Command::new(env!("CARGO_BIN_EXE_plateloft")).args(arguments).current_dir(folder).output().unwrap();
    Run {
        code: status.code().unwrap(),
        stdout: String::from_utf8(stdout).unwrap(),
        stderr: String::from_utf8(stderr).unwrap(),
    }
}

/// Runs a command on a job of its own, as `job.json` in an empty folder.
pub(crate) fn plateloft_on(job: &Value, command: &[&str]) -> Run {
    let folder = tempdir().unwrap();
    fs::write(folder.path().join("job.json"), job.to_string()).unwrap();
    plateloft_in(folder.path(), &[command, &["job.json"]].concat())
}

/// The files of the packet of a job, with more `arguments` if need be; nothing may be left beside it.
pub(crate) fn packet_of(job: &str, arguments: &[&str]) -> BTreeMap<String, Vec<u8>> {
    let folder = tempdir().unwrap();
    let out = folder.path().join("packet");
    let run = plateloft(&[&["packet", job, "--out", out.to_str().unwrap()], arguments].concat());
    assert_eq!(run.code, 0, "{}", run.stderr);
    let names: Vec<_> = files(folder.path()).into_keys().filter(|name| !name.starts_with("packet")).collect();
    assert!(names.is_empty(), "left beside the packet: {names:?}");
    files(&out)
}

/// The same of a job of its own.
pub(crate) fn packet_of_job(job: &Value, arguments: &[&str]) -> BTreeMap<String, Vec<u8>> {
    let folder = tempdir().unwrap();
    let path = folder.path().join("job.json");
    fs::write(&path, job.to_string()).unwrap();
    packet_of(path.to_str().unwrap(), arguments)
}

/// The oyster skiff, which many tests look at.
pub(crate) const SKIFF: &str = "fixtures/jobs/oyster-skiff.json";

/// The packet of the oyster skiff, made once for all tests that only read it.
pub(crate) fn packet_of_the_skiff() -> &'static BTreeMap<String, Vec<u8>> {
    static PACKET: OnceLock<BTreeMap<String, Vec<u8>>> = OnceLock::new();
    PACKET.get_or_init(|| packet_of(SKIFF, &[]))
}

/// All files under a folder, by their path in it.
pub(crate) fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut found = BTreeMap::new();
    let mut waiting = vec![folder.to_path_buf()];
    while let Some(next) = waiting.pop() {
        for entry in fs::read_dir(&next).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                waiting.push(path);
            } else {
                let name = path.strip_prefix(folder).unwrap().to_string_lossy().into_owned();
                found.insert(name, fs::read(&path).unwrap());
            }
        }
    }
    found
}
