//! Sizes of source files, loose tolerances, unfinished work.

use super::{rust_files, text};

fn all_files() -> Vec<std::path::PathBuf> {
    rust_files("crates").into_iter().chain(rust_files("tests")).collect()
}

#[test]
fn files_stay_readable() {
    let mut lengths: Vec<(usize, std::path::PathBuf)> =
        all_files().into_iter().map(|path| (text(&path).lines().count(), path)).collect();
    lengths.sort();
    let (longest, path) = lengths.last().unwrap();
    assert!(*longest <= 600, "{} has {longest} lines", path.display());
    let long = lengths.iter().filter(|(length, _)| *length > 400).count();
    assert!(long * 10 <= lengths.len(), "{long} of {} files are over 400 lines", lengths.len());
}

/// True for text like `1e-6`: a literal so small that it is a tolerance.
fn has_tiny_literal(line: &str) -> bool {
    let code = line.split("//").next().unwrap_or("");
    code.match_indices("e-").any(|(at, _)| {
        let before = code[..at].chars().next_back().is_some_and(|c| c.is_ascii_digit() || c == '.');
        let after = code[at + 2..].chars().next().is_some_and(|c| c.is_ascii_digit());
        before && after
    })
}

#[test]
fn tolerances_live_in_one_place() {
    for path in rust_files("crates") {
        let name = path.to_string_lossy().into_owned();
        if name.contains("/tests")
            || name.contains("/examples/")
            || name.ends_with("geometry/src/tolerance.rs")
        {
            continue;
        }
        let source = text(&path);
        let code = source.split("#[cfg(test)]").next().unwrap_or("");
        for (number, line) in code.lines().enumerate() {
            assert!(!has_tiny_literal(line), "{name}:{}: name this tolerance: {line}", number + 1);
        }
    }
}

#[test]
fn the_test_of_tolerances_sees_one() {
    assert!(has_tiny_literal("if x < 1e-9 {"));
    assert!(!has_tiny_literal("let edge = one-sided; // 1e-9"));
}

#[test]
fn nothing_is_left_unfinished() {
    let marks = [
        ["TO", "DO"].concat(),
        ["FIX", "ME"].concat(),
        ["#[ign", "ore"].concat(),
        ["should_", "panic"].concat(),
    ];
    for path in all_files() {
        let source = text(&path);
        for mark in &marks {
            assert!(!source.contains(mark.as_str()), "{}: {mark}", path.display());
        }
    }
}
