//! What others make of the written files: a browser prints them, poppler and an SVG library measure them, and a reader that
//! knows the README alone reads the plain outlines.
#![expect(clippy::disallowed_methods, reason = "a test of committed and printed files reads them")]

mod browser;
mod measured;
mod plain_outline;

use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Output};

/// Set where a missing program is a failure: `.ci/run` installs all of them, a shop need not have any.
const MUST_BE_THERE: &str = "PLATELOFT_OUTSIDE_CHECKS";

/// Runs a program of this machine. None, after a line that is seen however the tests are run, where it is missing.
pub(crate) fn run(program: &str, package: &str, arguments: &[&str]) -> Option<Output> {
    let found = Command::new(program).args(arguments).output();
    if found.is_err() {
        not_checked(&format!("no {program} here (on Debian: apt-get install {package})"));
    }
    found.ok()
}

/// Says on the standard error stream itself, which the tests do not catch, that something was left out.
///
/// # Panics
/// Where nothing may be left out.
pub(crate) fn not_checked(why: &str) {
    assert!(std::env::var_os(MUST_BE_THERE).is_none(), "{MUST_BE_THERE} is set: {why}");
    std::io::stderr().write_all(format!("not checked: {why}\n").as_bytes()).unwrap();
}

/// A page of a PDF as poppler draws it, in SVG.
fn drawn_by_poppler(pdf: &Path, page: usize) -> Option<String> {
    let (page, pdf) = (page.to_string(), pdf.to_str().unwrap());
    let out = run(
        "pdftocairo",
        "poppler-utils",
        &["-svg", "-noshrink", "-nocenter", "-f", &page, "-l", &page, pdf, "-"],
    )?;
    assert!(out.status.success(), "{pdf}, page {page}: {}", String::from_utf8_lossy(&out.stderr));
    Some(String::from_utf8(out.stdout).unwrap())
}
